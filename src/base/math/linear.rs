//! Small dense systems of linear equations.

/// x of A x = b by elimination with pivots; `None` when the rows do not settle it, or are not finite. No allocation.
///
/// Source `DERIVED` (Gauss).
///
/// ```
/// use springwright::base::math::linear::solve;
/// assert_eq!(solve([[0.0, 2.0], [4.0, 0.0]], [6.0, 8.0]), Some([2.0, 3.0]));
/// assert_eq!(solve([[1.0, 2.0], [2.0, 4.0]], [1.0, 2.0]), None);
/// ```
pub fn solve<const N: usize>(mut a: [[f64; N]; N], mut b: [f64; N]) -> Option<[f64; N]> {
    /// A pivot below this share of its row as given is none.
    const NOTHING: f64 = 1e-13;
    let size = a.map(|row| row.iter().fold(0.0, |most: f64, v| most.max(v.abs())));
    let mut of_row = size;
    for i in 0..N {
        let share = |row: usize| a[row][i].abs() / of_row[row];
        let pivot = (i..N).max_by(|x, y| share(*x).total_cmp(&share(*y)))?;
        // Not a number is no pivot either.
        if !(share(pivot) > NOTHING && share(pivot).is_finite()) {
            return None;
        }
        a.swap(i, pivot);
        b.swap(i, pivot);
        of_row.swap(i, pivot);
        let (upper, lower) = a.split_at_mut(i + 1);
        for (below, row) in lower.iter_mut().enumerate() {
            let factor = row[i] / upper[i][i];
            if factor != 0.0 {
                row.iter_mut().zip(&upper[i]).skip(i).for_each(|(v, p)| *v -= factor * p);
                b[i + 1 + below] -= factor * b[i];
            }
        }
    }
    for i in (0..N).rev() {
        let known: f64 = (i + 1..N).map(|j| a[i][j] * b[j]).sum();
        b[i] = (b[i] - known) / a[i][i];
    }
    b.iter().all(|v| v.is_finite()).then_some(b)
}
