//! Readings of one quantity that share sources of error, fused by generalised least squares.
//!
//! Of all weights that sum to 1 and are not negative, those of least variance wᵀCw. Source `AITKEN`.

use super::spread::Measured;

/// More readings than this are not fused: every set of them is tried when a weight would be negative.
const MOST: usize = 12;
/// Keeps two readings that say exactly the same apart, as a share of each variance.
const RIDGE: f64 = 1e-12;

/// Variances of readings, and what they have in common.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Covariance(Vec<Vec<f64>>);

impl Covariance {
    /// From how far each reading moves with each independent source of error: C = S Sᵀ. Source `GUM`, 5.2.2.
    pub fn of_steps(steps: &[Vec<f64>]) -> Self {
        let row = |a: &Vec<f64>| steps.iter().map(|b| a.iter().zip(b).map(|(x, y)| x * y).sum()).collect();
        Covariance(steps.iter().map(row).collect())
    }

    /// Of readings that have nothing in common.
    pub fn independent(readings: &[Measured]) -> Self {
        let row = |i: usize| (0..readings.len()).map(|j| if i == j { readings[i].u.powi(2) } else { 0.0 }).collect();
        Covariance((0..readings.len()).map(row).collect())
    }

    /// How many readings.
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// Standard uncertainty of one reading.
    pub fn u(&self, i: usize) -> f64 {
        self.0[i][i].sqrt()
    }

    /// Of these readings alone.
    pub fn of(&self, picked: &[usize]) -> Self {
        Covariance(picked.iter().map(|&i| picked.iter().map(|&j| self.0[i][j]).collect()).collect())
    }

    /// With every reading multiplied by its factor.
    pub fn scaled(&self, by: &[f64]) -> Self {
        let row = |(row, a): (&Vec<f64>, &f64)| row.iter().zip(by).map(|(c, b)| c * a * b).collect();
        Covariance(self.0.iter().zip(by).map(row).collect())
    }

    /// Variance of the sum of all readings, each times its weight: wᵀCw.
    pub fn of_sum(&self, weights: &[f64]) -> f64 {
        let row = |row: &Vec<f64>| row.iter().zip(weights).map(|(c, w)| c * w).sum::<f64>();
        self.0.iter().zip(weights).map(|(r, w)| w * row(r)).sum::<f64>().max(0.0)
    }

    /// C⁻¹ b, by Cholesky's factors of the correlations; `None` when some reading has no variance.
    fn solve(&self, b: &[f64]) -> Option<Vec<f64>> {
        let n = self.count();
        let u: Vec<f64> = (0..n).map(|i| self.u(i)).collect();
        let mut l = vec![vec![0.0; n]; n];
        for i in 0..n {
            for j in 0..=i {
                let ridge = if i == j { RIDGE } else { 0.0 };
                let known: f64 = (0..j).map(|k| l[i][k] * l[j][k]).sum();
                let rest = self.0[i][j] / (u[i] * u[j]) + ridge - known;
                l[i][j] = if i == j { rest.sqrt() } else { rest / l[j][j] };
                if !l[i][j].is_finite() || i == j && l[i][i] <= 0.0 {
                    return None;
                }
            }
        }
        let mut x: Vec<f64> = b.iter().zip(&u).map(|(b, u)| b / u).collect();
        for i in 0..n {
            x[i] = (x[i] - (0..i).map(|k| l[i][k] * x[k]).sum::<f64>()) / l[i][i];
        }
        for i in (0..n).rev() {
            x[i] = (x[i] - (i + 1..n).map(|k| l[k][i] * x[k]).sum::<f64>()) / l[i][i];
        }
        Some(x.iter().zip(&u).map(|(x, u)| x / u).collect())
    }

    /// C⁻¹1 / 1ᵀC⁻¹1: the weights of least variance, some perhaps negative.
    fn weights(&self) -> Option<Vec<f64>> {
        let x = self.solve(&vec![1.0; self.count()])?;
        let sum: f64 = x.iter().sum();
        (sum > 0.0).then(|| x.iter().map(|x| x / sum).collect())
    }

    /// The weights of least variance, none of them negative: of all sets of readings whose own weights are all
    /// positive, the best.
    fn positive_weights(&self) -> Option<Vec<f64>> {
        let all_positive = |w: &Vec<f64>| w.iter().all(|w| *w >= 0.0);
        if let Some(weights) = self.weights().filter(all_positive) {
            return Some(weights);
        }
        let n = self.count();
        let sets = (1..1_usize << n).map(|set| (0..n).filter(|i| set >> i & 1 == 1).collect::<Vec<_>>());
        let of_set = |set: Vec<usize>| {
            let part = self.of(&set).weights().filter(all_positive)?;
            let mut weights = vec![0.0; n];
            set.iter().zip(part).for_each(|(i, w)| weights[*i] = w);
            Some(weights)
        };
        sets.filter_map(of_set).min_by(|a, b| self.of_sum(a).total_cmp(&self.of_sum(b)))
    }
}

/// Readings fused.
#[derive(Debug, Clone, PartialEq)]
pub struct Fused {
    /// The value.
    pub value: f64,
    /// Its standard uncertainty as the readings' own ± give it.
    pub u_within: f64,
    /// The same, times the Birge ratio when they disagree.
    pub u: f64,
    /// The weight of each reading; together 1.
    pub weights: Vec<f64>,
}

impl Fused {
    /// Value and standard uncertainty.
    pub fn measured(&self) -> Measured {
        Measured { value: self.value, u: self.u }
    }
}

/// Fuses readings by the covariance of their errors.
///
/// None gets a negative weight. Those believed exact count alone; when they differ, by how they scatter. One whose value
/// or variance is not finite gets no weight. u is that of the weights times the Birge ratio √(χ²/(n − 1)) where that is
/// above 1. Source `AITKEN`; `BIRGE`. `None` without readings.
///
/// ```
/// use springwright::base::math::fuse::{Covariance, fuse};
/// use springwright::base::math::spread::Measured;
/// let readings = [Measured { value: 10.0, u: 1.0 }, Measured { value: 11.0, u: 2.0 }];
/// let fused = fuse(&readings.map(|m| m.value), &Covariance::independent(&readings));
/// assert!(fused.is_some_and(|f| (f.value - 10.2).abs() < 1e-9 && (f.u - 0.8_f64.sqrt()).abs() < 1e-9));
/// ```
pub fn fuse(values: &[f64], covariance: &Covariance) -> Option<Fused> {
    let n = values.len();
    let known: Vec<usize> = (0..n).filter(|i| values[*i].is_finite() && covariance.u(*i).is_finite()).collect();
    if known.len() > MOST || known.is_empty() {
        return None;
    }
    let exact: Vec<usize> = known.iter().copied().filter(|i| covariance.u(*i) == 0.0).collect();
    let counted = if exact.is_empty() { &known } else { &exact };
    let picked: Vec<f64> = counted.iter().map(|i| values[*i]).collect();
    let fused = if exact.is_empty() { fuse_known(&picked, &covariance.of(counted))? } else { fuse_exact(&picked) };
    let mut weights = vec![0.0; n];
    counted.iter().zip(&fused.weights).for_each(|(i, w)| weights[*i] = *w);
    Some(Fused { weights, ..fused })
}

/// Independent readings of one quantity, weighted by 1/u²; `None` when there are none.
///
/// The ± is that of the readings' own, however they differ; exact ones, which count alone, scatter.
///
/// ```
/// use springwright::base::math::fuse::by_own_u;
/// use springwright::base::math::spread::Measured;
/// let one = by_own_u(&[Measured { value: 10.0, u: 1.0 }, Measured { value: 12.0, u: 1.0 }]);
/// assert!(one.is_some_and(|m| (m.value - 11.0).abs() < 1e-9 && (m.u - 0.5_f64.sqrt()).abs() < 1e-9));
/// assert_eq!(by_own_u(&[Measured { value: 10.0, u: 1.0 }, Measured::exact(12.0)]), Some(Measured::exact(12.0)));
/// ```
pub fn by_own_u(readings: &[Measured]) -> Option<Measured> {
    let values: Vec<f64> = readings.iter().map(|m| m.value).collect();
    let fused = fuse(&values, &Covariance::independent(readings))?;
    let is_exact = readings.iter().any(|m| m.u == 0.0);
    Some(Measured { value: fused.value, u: if is_exact { fused.u } else { fused.u_within } })
}

/// Fuses readings, none of them exact.
fn fuse_known(values: &[f64], covariance: &Covariance) -> Option<Fused> {
    let weights = covariance.positive_weights()?;
    let value: f64 = values.iter().zip(&weights).map(|(v, w)| v * w).sum();
    let u_within = covariance.of_sum(&weights).sqrt();
    let off: Vec<f64> = values.iter().map(|v| v - value).collect();
    let chi_squared: f64 = covariance.solve(&off)?.iter().zip(&off).map(|(a, b)| a * b).sum();
    let spare = values.len().saturating_sub(1).max(1) as f64;
    let birge = (chi_squared / spare).max(1.0).sqrt();
    Some(Fused { value, u_within, u: u_within * birge, weights })
}

/// The mean of exact readings: u of it is what they scatter, the limit of the Birge ratio for equal u towards zero.
fn fuse_exact(values: &[f64]) -> Fused {
    let count = values.len() as f64;
    let value = values.iter().sum::<f64>() / count;
    let squares: f64 = values.iter().map(|v| (v - value).powi(2)).sum();
    let u = if values.len() > 1 { (squares / (count * (count - 1.0))).sqrt() } else { 0.0 };
    Fused { value, u_within: 0.0, u, weights: vec![1.0 / count; values.len()] }
}
