//! Least-squares polynomials of low degree.

/// Coefficients `[c0, c1, c2, c3]` of `c0 + c1 x + c2 x² + c3 x³`; those above the degree are 0.
pub type Coefficients = [f64; 4];

/// Fits a polynomial of `degree` 1, 2 or 3 by least squares.
///
/// Solved in coordinates centred and scaled on the points, so that lengths in
/// metres and in millimetres fit equally well. `None` when there are not more
/// distinct x than the degree, or a value is not finite.
pub fn polynomial(points: &[(f64, f64)], degree: usize) -> Option<Coefficients> {
    match degree {
        0 | 1 => fitted::<2>(points),
        2 => fitted::<3>(points),
        _ => fitted::<4>(points),
    }
}

/// With `N` coefficients.
fn fitted<const N: usize>(points: &[(f64, f64)]) -> Option<Coefficients> {
    let count = points.len() as f64;
    let centre = points.iter().map(|p| p.0).sum::<f64>() / count;
    let scale = points.iter().map(|p| (p.0 - centre).abs()).fold(0.0, f64::max);
    if points.len() < N || !scale.is_normal() {
        return None;
    }
    let mut m = [[0.0; 5]; 4];
    for &(x, y) in points {
        let u = (x - centre) / scale;
        let powers = [1.0, u, u * u, u * u * u];
        for row in 0..N {
            for column in 0..N {
                m[row][column] += powers[row] * powers[column];
            }
            m[row][4] += powers[row] * y;
        }
    }
    let scaled = eliminate::<N>(m)?;
    // Back to x, by Horner's rule on polynomials: p ← p · (x − centre) / scale + a.
    let mut p = [0.0; 4];
    for a in scaled.into_iter().take(N).rev() {
        let mut next = [a, 0.0, 0.0, 0.0];
        for (i, c) in p.into_iter().enumerate() {
            next[i] -= c * centre / scale;
            if i < 3 {
                next[i + 1] += c / scale;
            }
        }
        p = next;
    }
    p.iter().all(|v| v.is_finite()).then_some(p)
}

/// The polynomial's value at `x`.
pub fn evaluate([c0, c1, c2, c3]: Coefficients, x: f64) -> f64 {
    c0 + x * (c1 + x * (c2 + x * c3))
}

/// Observed minus fitted, in the order of the points.
pub fn residuals(points: &[(f64, f64)], fitted: Coefficients) -> Vec<f64> {
    points.iter().map(|&(x, y)| y - evaluate(fitted, x)).collect()
}

/// How each coefficient moves with each y: row i holds ∂c/∂y_i. The fit is linear in y, so this is exact.
pub fn sensitivities(points: &[(f64, f64)], degree: usize) -> Option<Vec<Coefficients>> {
    let unit =
        |i: usize| points.iter().enumerate().map(|(j, p)| (p.0, f64::from(u8::from(i == j)))).collect::<Vec<_>>();
    (0..points.len()).map(|i| polynomial(&unit(i), degree)).collect()
}

/// Gaussian elimination with partial pivoting on an `N` × `N` system; column 4 is the right side.
fn eliminate<const N: usize>(mut m: [[f64; 5]; 4]) -> Option<[f64; 4]> {
    for pivot in 0..N {
        let best = (pivot..N).max_by(|&i, &j| m[i][pivot].abs().total_cmp(&m[j][pivot].abs()))?;
        m.swap(pivot, best);
        if m[pivot][pivot].abs() < 1e-12 {
            return None;
        }
        for row in 0..N {
            if row != pivot {
                let factor = m[row][pivot] / m[pivot][pivot];
                let above = m[pivot];
                for (cell, over) in m[row].iter_mut().zip(above) {
                    *cell -= factor * over;
                }
            }
        }
    }
    let mut x = [0.0; 4];
    for row in 0..N {
        x[row] = m[row][4] / m[row][row];
    }
    Some(x)
}
