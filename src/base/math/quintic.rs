//! Piecewise quintic Hermite interpolation: value, slope and curvature are met at every knot.

/// A curve through knots at equal steps, continued straight beyond both ends.
#[derive(Debug, Clone, PartialEq)]
pub struct Quintic {
    low: f64,
    step: f64,
    /// Coefficients of each piece in its share, 0 to 1.
    pieces: Vec<[f64; 6]>,
}

impl Quintic {
    /// Through knots of value, slope and curvature, the first at `low`; `None` for fewer than two, or what is not finite.
    ///
    /// Its error is that of the sixth derivative: h⁶/46080 times it (`DERIVED`, Hermite's remainder).
    pub fn through(low: f64, step: f64, knots: &[[f64; 3]]) -> Option<Self> {
        let finite = knots.iter().flatten().all(|v| v.is_finite()) && low.is_finite() && step > 0.0;
        let pieces: Vec<[f64; 6]> = knots.windows(2).map(|w| piece(step, w[0], w[1])).collect();
        (finite && !pieces.is_empty()).then_some(Quintic { low, step, pieces })
    }

    /// First and last knot.
    pub fn ends(&self) -> (f64, f64) {
        (self.low, self.low + self.step * self.pieces.len() as f64)
    }

    /// The value at `x`.
    pub fn value(&self, x: f64) -> f64 {
        let (c, t, beyond) = self.place(x);
        let inside = c[0] + t * (c[1] + t * (c[2] + t * (c[3] + t * (c[4] + t * c[5]))));
        if beyond == 0.0 { inside } else { inside + beyond * self.slope_in(c, t) }
    }

    /// The slope at `x`; beyond the ends that of the end.
    pub fn slope(&self, x: f64) -> f64 {
        let (c, t, _) = self.place(x);
        self.slope_in(c, t)
    }

    /// The curvature at `x`; none beyond the ends.
    pub fn curvature(&self, x: f64) -> f64 {
        let (c, t, beyond) = self.place(x);
        let bend = 2.0 * c[2] + t * (6.0 * c[3] + t * (12.0 * c[4] + t * 20.0 * c[5]));
        if beyond == 0.0 { bend / (self.step * self.step) } else { 0.0 }
    }

    fn slope_in(&self, c: &[f64; 6], t: f64) -> f64 {
        (c[1] + t * (2.0 * c[2] + t * (3.0 * c[3] + t * (4.0 * c[4] + t * 5.0 * c[5])))) / self.step
    }

    /// The piece, the share in it, and how far `x` is beyond the ends.
    fn place(&self, x: f64) -> (&[f64; 6], f64, f64) {
        let (low, high) = self.ends();
        let inside = x.clamp(low, high);
        let whole = (((inside - low) / self.step) as usize).min(self.pieces.len() - 1);
        let t = (inside - low) / self.step - whole as f64;
        (&self.pieces[whole], t, x - inside)
    }
}

fn piece(step: f64, [v0, s0, k0]: [f64; 3], [v1, s1, k1]: [f64; 3]) -> [f64; 6] {
    let (a1, a2) = (step * s0, 0.5 * step * step * k0);
    let value = v1 - v0 - a1 - a2;
    let slope = step * s1 - a1 - 2.0 * a2;
    let bend = step * step * k1 - 2.0 * a2;
    [
        v0,
        a1,
        a2,
        10.0 * value - 4.0 * slope + 0.5 * bend,
        -15.0 * value + 7.0 * slope - bend,
        6.0 * value - 3.0 * slope + 0.5 * bend,
    ]
}
