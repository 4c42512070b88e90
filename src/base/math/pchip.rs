//! Monotone cubic interpolation through points: never overshoots between them.

use super::roots;

/// A curve through points of growing x, continued straight beyond both ends with its own slope there, but no flatter
/// than the line through the last two points.
///
/// Where a piece bends away from a steep neighbour, its slope at the far end comes out as near to level as can be, or
/// level: a straight line of that slope may need metres to where the points lead in millimetres.
/// Piecewise cubic Hermite with the slopes of Fritsch and Butland: weighted harmonic means
/// inside, three-point formulas at the ends. Where the points rise, the curve never falls.
#[derive(Debug, Clone, PartialEq)]
pub struct Pchip {
    x: Vec<f64>,
    y: Vec<f64>,
    /// Slope before the first and behind the last point.
    beyond: [f64; 2],
    /// Coefficients of each piece in the distance from its start.
    pieces: Vec<[f64; 4]>,
}

impl Pchip {
    /// Through at least two points, x strictly growing, all finite; `None` otherwise.
    pub fn through(points: &[(f64, f64)]) -> Option<Self> {
        let finite = points.iter().all(|p| p.0.is_finite() && p.1.is_finite());
        if points.len() < 2 || !finite || points.windows(2).any(|w| w[1].0 <= w[0].0) {
            return None;
        }
        let (x, y): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
        let h: Vec<f64> = x.windows(2).map(|w| w[1] - w[0]).collect();
        let d: Vec<f64> = y.windows(2).zip(&h).map(|(w, h)| (w[1] - w[0]) / h).collect();
        let last = d.len() - 1;
        let mut slope = vec![d[0]; x.len()];
        for i in 1..=last {
            slope[i] = inside(h[i - 1], h[i], d[i - 1], d[i]);
        }
        slope[last + 1] = d[last];
        if last > 0 {
            slope[0] = end(h[0], h[1], d[0], d[1]);
            slope[last + 1] = end(h[last], h[last - 1], d[last], d[last - 1]);
        }
        let piece = |i: usize| {
            let (a, b) = (slope[i], slope[i + 1]);
            [y[i], a, (3.0 * d[i] - 2.0 * a - b) / h[i], (a + b - 2.0 * d[i]) / (h[i] * h[i])]
        };
        let pieces = (0..d.len()).map(piece).collect();
        let beyond = [(slope[0], d[0]), (slope[last + 1], d[last])]
            .map(|(own, line)| if own.abs() < line.abs() { line } else { own });
        Some(Pchip { x, y, beyond, pieces })
    }

    /// First and last x.
    pub fn ends(&self) -> (f64, f64) {
        (self.x[0], self.x[self.x.len() - 1])
    }

    /// The value at `x`.
    pub fn value(&self, x: f64) -> f64 {
        let (low, high) = self.ends();
        if x < low {
            return self.y[0] + self.beyond[0] * (x - low);
        }
        if x > high {
            return self.y[self.y.len() - 1] + self.beyond[1] * (x - high);
        }
        let (i, t) = self.place(x);
        let [c0, c1, c2, c3] = self.pieces[i];
        c0 + t * (c1 + t * (c2 + t * c3))
    }

    /// The slope at `x`.
    pub fn slope(&self, x: f64) -> f64 {
        let (low, high) = self.ends();
        if x < low {
            return self.beyond[0];
        }
        if x > high {
            return self.beyond[1];
        }
        let (i, t) = self.place(x);
        let [_, c1, c2, c3] = self.pieces[i];
        c1 + t * (2.0 * c2 + t * 3.0 * c3)
    }

    /// The x at which a rising curve has this value.
    pub fn place_of(&self, value: f64) -> Option<f64> {
        let i = self.y.partition_point(|y| *y <= value);
        let line = |i: usize, slope: f64| Some(self.x[i] + (value - self.y[i]) / slope).filter(|x| x.is_finite());
        match i {
            0 => line(0, self.beyond[0]),
            i if i == self.x.len() => line(i - 1, self.beyond[1]),
            i => roots::between(self.x[i - 1], self.x[i], 1e-12, |x| self.value(x) - value),
        }
    }

    /// The integral of the value from the first point to `x`, negative to the left of it.
    pub fn integral(&self, x: f64) -> f64 {
        let (low, high) = self.ends();
        if x < low {
            let t = x - low;
            return t * (self.y[0] + 0.5 * self.beyond[0] * t);
        }
        let (i, t) = self.place(x.min(high));
        let over = |i: usize, t: f64| {
            let [c0, c1, c2, c3] = self.pieces[i];
            t * (c0 + t * (c1 / 2.0 + t * (c2 / 3.0 + t * c3 / 4.0)))
        };
        let whole: f64 = (0..i).map(|j| over(j, self.x[j + 1] - self.x[j])).sum();
        let last = self.x.len() - 1;
        let beyond = (x - high).max(0.0);
        whole + over(i, t) + beyond * (self.y[last] + 0.5 * self.beyond[1] * beyond)
    }

    /// The steepest of the lines from point to point.
    pub fn steepest(&self) -> f64 {
        (0..self.x.len() - 1).map(|i| self.secant(i)).fold(0.0, |a: f64, b| if b.abs() > a.abs() { b } else { a })
    }

    /// The slope of the line through points `i` and `i + 1`.
    fn secant(&self, i: usize) -> f64 {
        (self.y[i + 1] - self.y[i]) / (self.x[i + 1] - self.x[i])
    }

    /// The piece that holds `x`, and how far into it.
    fn place(&self, x: f64) -> (usize, f64) {
        let i = self.x.partition_point(|p| *p <= x).clamp(1, self.x.len() - 1) - 1;
        (i, x - self.x[i])
    }
}

/// Weighted harmonic mean of two neighbouring slopes; 0 where they differ in sign.
fn inside(h0: f64, h1: f64, d0: f64, d1: f64) -> f64 {
    if d0 * d1 <= 0.0 {
        return 0.0;
    }
    let (w0, w1) = (2.0 * h1 + h0, h1 + 2.0 * h0);
    (w0 + w1) / (w0 / d0 + w1 / d1)
}

/// Three-point slope at an end, held inside what keeps the curve monotone.
fn end(h0: f64, h1: f64, d0: f64, d1: f64) -> f64 {
    let slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    if slope * d0 <= 0.0 {
        0.0
    } else if d0 * d1 <= 0.0 && slope.abs() > 3.0 * d0.abs() {
        3.0 * d0
    } else {
        slope
    }
}
