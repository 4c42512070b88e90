//! A root between two points of opposite sign.

/// The root of `f` in `[low, high]`, to about `tolerance` in x.
///
/// Regula falsi with the Illinois step, falling back to halving when the step
/// does not shrink the bracket. `None` unless `f(low)` and `f(high)` are finite
/// and of opposite sign (or zero).
///
/// ```
/// let root = springwright::base::math::roots::between(0.0, 2.0, 1e-12, |x| x * x - 2.0);
/// assert!((root.unwrap_or(f64::NAN) - 2.0_f64.sqrt()).abs() < 1e-12);
/// ```
pub fn between(low: f64, high: f64, tolerance: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (f(a), f(b));
    if !(fa.is_finite() && fb.is_finite()) || fa * fb > 0.0 {
        return None;
    }
    let mut width = (b - a).abs();
    for step in 0..200 {
        if fa == 0.0 {
            return Some(a);
        }
        if fb == 0.0 || (b - a).abs() <= tolerance {
            return Some(b);
        }
        let slow = step % 3 == 2 && (b - a).abs() > 0.5 * width;
        if step % 3 == 2 {
            width = (b - a).abs();
        }
        let x = if slow { 0.5 * (a + b) } else { (a * fb - b * fa) / (fb - fa) };
        let fx = f(x);
        if !fx.is_finite() {
            return None;
        }
        if fx * fb <= 0.0 {
            (a, fa) = (b, fb);
        } else {
            fa *= 0.5;
        }
        let moved = (x - b).abs();
        (b, fb) = (x, fx);
        if fx == 0.0 || (moved <= tolerance && !slow) {
            return Some(x);
        }
    }
    Some(b)
}
