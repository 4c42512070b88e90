//! First-order propagation of standard uncertainties.
//!
//! u²(y) = Σ (∂y/∂x_i)² u²(x_i) for independent inputs. Source `GUM`, 5.1.2.

/// A value with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// The value.
    pub value: f64,
    /// Its standard uncertainty; 0 when exact or not stated.
    pub u: f64,
}

impl Measured {
    /// A value believed exact.
    pub fn exact(value: f64) -> Self {
        Measured { value, u: 0.0 }
    }
}

/// `f` of independent measured inputs, its uncertainty by central differences over ± u. Source `GUM`, 5.1.3 note 2.
///
/// ```
/// use springwright::base::math::spread::{Measured, propagate};
/// let sum = propagate([Measured { value: 3.0, u: 0.3 }, Measured { value: 4.0, u: 0.4 }], |[a, b]| a + b);
/// assert!((sum.value - 7.0).abs() < 1e-12 && (sum.u - 0.5).abs() < 1e-12);
/// ```
pub fn propagate<const N: usize>(inputs: [Measured; N], f: impl Fn([f64; N]) -> f64) -> Measured {
    let at = inputs.map(|m| m.value);
    let mut variance = 0.0;
    for (i, input) in inputs.iter().enumerate().filter(|(_, m)| m.u > 0.0) {
        let (mut up, mut down) = (at, at);
        up[i] += input.u;
        down[i] -= input.u;
        variance += (0.5 * (f(up) - f(down))).powi(2);
    }
    Measured { value: f(at), u: variance.sqrt() }
}

/// Student's factor for one standard uncertainty: t within which 68.27 % lie when a standard deviation comes from this
/// number of spare readings (degrees of freedom). From two on, to a thousandth.
///
/// Expansion in 1/ν at the normal law's 1 (Abramowitz & Stegun, *Handbook of Mathematical Functions*, 26.7.5; from
/// memory); its values are those of `GUM`, table G.2.
///
/// ```
/// use springwright::base::math::spread::student;
/// // GUM, table G.2, column 68.27 %: 2, 4 and 10 degrees of freedom (from memory).
/// for (spare, t) in [(2, 1.32), (4, 1.14), (10, 1.05)] {
///     assert!((student(spare) - t).abs() < 0.005);
/// }
/// ```
pub fn student(spare: usize) -> f64 {
    let v = spare as f64;
    1.0 + 1.0 / (2.0 * v) + 1.0 / (4.0 * v.powi(2)) + 1.0 / (16.0 * v.powi(3)) - 11.0 / (1920.0 * v.powi(4))
}
