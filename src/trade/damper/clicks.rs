//! An adjuster: a curve for each click.

use super::Curve;
use crate::base::units::{DampingRate, Quantity, Ratio, Velocity};

/// One setting of an adjuster, and its curve. A damper without one has a single setting.
#[derive(Debug, Clone, PartialEq)]
pub struct Click {
    /// Its number, as the maker counts them; `None` when the damper has no adjuster.
    pub number: Option<f64>,
    /// Force against speed there.
    pub curve: Curve,
}

/// The settings of one damper for which a curve is known, by rising number.
#[derive(Debug, Clone, PartialEq)]
pub struct Clicks {
    clicks: Vec<Click>,
}

/// How the settings fit a wanted range of damping ratio.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// Place of the setting nearest the aim.
    pub best: usize,
    /// Its damping ratio.
    pub ratio: Ratio,
    /// First and last place of the settings inside the range; `None` when there is none.
    pub inside: Option<(usize, usize)>,
}

impl Clicks {
    /// The settings in order; `None` when there are none.
    pub fn new(mut clicks: Vec<Click>) -> Option<Self> {
        let number = |c: &Click| c.number.unwrap_or(f64::NEG_INFINITY);
        clicks.sort_by(|a, b| number(a).total_cmp(&number(b)));
        (!clicks.is_empty()).then_some(Clicks { clicks })
    }

    /// All settings.
    pub fn all(&self) -> &[Click] {
        &self.clicks
    }

    /// The damping ratio of each setting, on an axle whose ratio of 1 asks for the rate `critical` at the damper.
    pub fn ratios(&self, peak: Velocity, critical: DampingRate) -> Vec<Ratio> {
        self.clicks.iter().map(|c| -> Ratio { c.curve.equal_work(peak).mean() / critical }).collect()
    }

    /// The setting that comes nearest the aim, and those inside the range. Of two as near the first is taken.
    pub fn fit(ratios: &[Ratio], low: Ratio, aim: Ratio, high: Ratio) -> Option<Fit> {
        let off = |i: &usize| (ratios[*i].si() - aim.si()).abs();
        let best = (0..ratios.len()).min_by(|a, b| off(a).total_cmp(&off(b)))?;
        let inside = |i: &usize| (low..=high).contains(&ratios[*i]);
        let (first, last) = ((0..ratios.len()).find(inside), (0..ratios.len()).rfind(inside));
        Some(Fit { best, ratio: ratios[best], inside: first.zip(last) })
    }
}
