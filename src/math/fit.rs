//! Least-squares polynomials of low degree.

/// A fitted polynomial `c0 + c1 x + c2 x²` with what it leaves over.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// `[c0, c1, c2]`; `c2` is 0 for a straight line.
    pub coefficients: [f64; 3],
    /// Observed minus fitted, in the order of the points.
    pub residuals: Vec<f64>,
}

/// Fits a polynomial of `degree` 1 or 2 by least squares.
///
/// Solved in coordinates centred and scaled on the points, so that lengths in
/// metres and in millimetres fit equally well. `None` when there are not more
/// distinct x than the degree, or a value is not finite.
pub fn polynomial(points: &[(f64, f64)], degree: usize) -> Option<Fit> {
    let n = degree.clamp(1, 2) + 1;
    let count = points.len() as f64;
    let centre = points.iter().map(|p| p.0).sum::<f64>() / count;
    let scale = points.iter().map(|p| (p.0 - centre).abs()).fold(0.0, f64::max);
    if points.len() < n || !scale.is_normal() {
        return None;
    }
    let mut m = [[0.0; 4]; 3];
    for &(x, y) in points {
        let u = (x - centre) / scale;
        let powers = [1.0, u, u * u];
        for row in 0..n {
            for column in 0..n {
                m[row][column] += powers[row] * powers[column];
            }
            m[row][3] += powers[row] * y;
        }
    }
    let [a, b, c] = eliminate(m, n)?;
    let (b, c) = (b / scale, c / (scale * scale));
    let coefficients = [a - b * centre + c * centre * centre, b - 2.0 * c * centre, c];
    let residuals = points.iter().map(|&(x, y)| y - evaluate(coefficients, x)).collect();
    coefficients.iter().all(|v| v.is_finite()).then_some(Fit { coefficients, residuals })
}

/// The polynomial's value at `x`.
pub fn evaluate([c0, c1, c2]: [f64; 3], x: f64) -> f64 {
    c0 + x * (c1 + x * c2)
}

/// Gaussian elimination with partial pivoting on an `n` × `n` system; column 3 is the right side.
fn eliminate(mut m: [[f64; 4]; 3], n: usize) -> Option<[f64; 3]> {
    for pivot in 0..n {
        let best = (pivot..n).max_by(|&i, &j| m[i][pivot].abs().total_cmp(&m[j][pivot].abs()))?;
        m.swap(pivot, best);
        if m[pivot][pivot].abs() < 1e-12 {
            return None;
        }
        for row in 0..n {
            if row != pivot {
                let factor = m[row][pivot] / m[pivot][pivot];
                let above = m[pivot];
                for (cell, over) in m[row].iter_mut().zip(above) {
                    *cell -= factor * over;
                }
            }
        }
    }
    let mut x = [0.0; 3];
    for row in 0..n {
        x[row] = m[row][3] / m[row][row];
    }
    Some(x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_parabola_is_found_again() {
        let points: Vec<(f64, f64)> =
            [-0.08, -0.04, 0.0, 0.03, 0.07].iter().map(|&z| (z, 0.28 - 0.6 * z - 0.4 * z * z)).collect();
        let fit = polynomial(&points, 2).expect("five points");
        for (found, true_) in fit.coefficients.iter().zip([0.28, -0.6, -0.4]) {
            assert!((found - true_).abs() < 1e-12, "{found} {true_}");
        }
        assert!(fit.residuals.iter().all(|r| r.abs() < 1e-14));
    }

    #[test]
    fn too_few_distinct_points_are_refused() {
        assert_eq!(polynomial(&[(0.1, 1.0), (0.1, 2.0)], 1), None);
        assert_eq!(polynomial(&[(0.0, 1.0), (0.1, 2.0)], 2), None);
    }
}
