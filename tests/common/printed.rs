//! How a number found is held against a number published.

/// Within a share of the published number.
#[track_caller]
pub fn relative(what: &str, got: f64, want: f64, tolerance: f64) {
    let off = ((got - want) / want).abs();
    assert!(off <= tolerance, "{what}: got {got}, published {want}, off by {off:.2e}, allowed {tolerance:.2e}");
}

/// Half a unit of the last printed digit (T2).
#[track_caller]
pub fn printed(what: &str, got: f64, want: f64, last_digit: f64) {
    assert!((got - want).abs() <= 0.5 * last_digit * (1.0 + 1e-9), "{what}: got {got}, printed {want}");
}
