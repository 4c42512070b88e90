//! How sure a number is when it states no ± of its own: by how well it can be read, and by where it comes from.
//!
//! Every ± here is a pair of limits. All of it is common practice, no source; the job can say otherwise.

use super::fields::{self, Field, Reading, TYPED_SLOPE};
use super::{Job, Side, Walk};
use crate::base::message::Message;
use crate::base::units::entry::{self, AnyEntry};
use crate::base::units::{Amount, DecimalMark, Entry, Origin, Quantity, parse};

/// A length from a catalogue is better known than a rate from it: the ± is this share of the other's.
const QUOTED_LENGTH: f64 = 0.2;

/// The ± of a number that states none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unstated {
    /// Limits so far either way, SI.
    pub within_si: f64,
    /// The field of [`super::Certainty`] or [`super::Limits`] from which that is; `None` for a field's own reading.
    pub from: Option<&'static str>,
}

impl Unstated {
    /// Its standard uncertainty, SI.
    pub fn standard_si(&self) -> f64 {
        entry::from_limits_si(self.within_si)
    }
}

/// A job's default uncertainties, read once.
///
/// What cannot be read is not used, and a finding says so: a field's own reading then counts alone.
pub struct HowSure<'a> {
    /// The job that says so.
    pub job: &'a Job,
    guessed: Option<f64>,
    quoted: Option<f64>,
    ledger: Option<f64>,
    scales_si: Option<f64>,
    tape_si: Option<f64>,
    bought_rate: Option<f64>,
    bought_length_si: Option<f64>,
}

impl<'a> HowSure<'a> {
    /// As the job says, or by default.
    pub fn of(job: &'a Job) -> Self {
        let c = &job.certainty;
        HowSure {
            job,
            guessed: si(job, "certainty.guessed", &c.guessed),
            quoted: si(job, "certainty.quoted", &c.quoted),
            ledger: si(job, "certainty.ledger", &c.ledger),
            scales_si: si(job, "certainty.scales", &c.scales),
            tape_si: si(job, "certainty.tape", &c.tape),
            bought_rate: si(job, "limits.rate_tolerance", &job.limits.rate_tolerance),
            bought_length_si: si(job, "limits.length_tolerance", &job.limits.length_tolerance),
        }
    }

    /// The ± of a value of this field of this axle; `None` when it is no measurement.
    ///
    /// What is bought: its tolerance. Measured, or origin not stated: as it can be read. Guessed, quoted, from a
    /// ledger: the larger of that and its share of the value. A default counts as guessed unless it is firm.
    pub fn unstated(
        &self,
        field: &Field,
        side: Side,
        origin: Option<Origin>,
        is_default: bool,
        si: f64,
    ) -> Option<Unstated> {
        if let Some(Reading::Slope) = field.reading.filter(|_| is_default) {
            let axle = self.job.axle(side);
            return Some(Unstated { within_si: axle.suspension.unknown_slope_per_m(axle.kind), from: None });
        }
        let reading = self.read(field, si)?;
        if let Some(Reading::BoughtRate | Reading::BoughtLength) = field.reading {
            return Some(reading);
        }
        let origin = if is_default { Some(Origin::Guessed).filter(|_| !field.firm) } else { origin };
        let (from, share) = match origin {
            Some(Origin::Guessed) => ("certainty.guessed", self.guessed),
            Some(Origin::Quoted) if field.reading == Some(Reading::Tape) => {
                ("certainty.quoted", self.quoted.map(|share| share * QUOTED_LENGTH))
            }
            Some(Origin::Quoted) => ("certainty.quoted", self.quoted),
            Some(Origin::Ledger) => ("certainty.ledger", self.ledger),
            Some(Origin::Measured) | None => return Some(reading),
        };
        let by_origin = share.map(|share| Unstated { within_si: (share * si).abs(), from: Some(from) });
        Some(by_origin.filter(|o| o.within_si > reading.within_si).unwrap_or(reading))
    }

    /// The standard uncertainty of a typed value, SI: as stated, else by how it can be read and where it comes from; 0 for
    /// what is no measurement.
    pub fn standard_si(&self, field: &Field, entry: &dyn AnyEntry, si: f64) -> f64 {
        match entry.pm().0.trim() {
            // The axle matters only to what was not typed.
            "" => self.unstated(field, Side::Front, entry.origin(), false, si).map_or(0.0, |u| u.standard_si()),
            _ => entry.stated_si(si, self.job.decimal).unwrap_or(0.0),
        }
    }

    /// How well the field can be read.
    fn read(&self, field: &Field, si: f64) -> Option<Unstated> {
        let (within_si, from) = match field.reading? {
            Reading::Within(pm) => (entry::within_si(pm, field.dim, si, DecimalMark::Point).ok(), None),
            Reading::Scales(count) => (self.scales_si.map(|s| s * count), Some("certainty.scales")),
            Reading::Tape => (self.tape_si, Some("certainty.tape")),
            Reading::Slope => (entry::within_si(TYPED_SLOPE, field.dim, si, DecimalMark::Point).ok(), None),
            Reading::BoughtRate => (self.bought_rate.map(|share| share * si.abs()), Some("limits.rate_tolerance")),
            Reading::BoughtLength => (self.bought_length_si, Some("limits.length_tolerance")),
        };
        within_si.map(|within_si| Unstated { within_si, from })
    }
}

/// What one of these fields says, in SI.
fn si<Q: Quantity>(job: &Job, path: &str, entry: &Entry<Q>) -> Option<f64> {
    let (field, _) = fields::by_path(path)?;
    let si = match entry.number(job.decimal).ok()? {
        Some(number) => number.si(),
        None => parse::number(field.when_blank(job, Side::Front)?.0, field.dim, DecimalMark::Point).ok()?.si(),
    };
    field.allows(si).then_some(si)
}

/// "1 kg", "15 %": the ± that the field at a path has when it states none; `None` when it is no measurement.
pub fn words(job: &mut Job, path: &str) -> Option<Message> {
    let (field, place) = fields::by_path(path)?;
    let side = place.scope.side();
    let decimal = job.decimal;
    let entry = job.at_mut(path)?;
    let (origin, blank) = (entry.origin(), entry.text().trim().is_empty());
    let typed = entry.number(decimal).ok().flatten().map(|n| n.si());
    let by_default =
        || parse::number(field.when_blank(job, side)?.0, field.dim, DecimalMark::Point).ok().map(|n| n.si());
    // Nothing typed and no default: as it can be read.
    let si = typed.or_else(by_default).unwrap_or(0.0);
    let unstated = HowSure::of(job).unstated(field, side, origin, blank && field.default.is_some(), si)?;
    Some(match (unstated.from, field.reading?) {
        (None, Reading::Within(pm)) if pm.contains('%') => Message::Marked(pm.to_owned()),
        (None, Reading::Within(pm)) => field.in_units(pm, &job.units),
        _ => Amount::figures(unstated.within_si, 3, job.units.unit(field.dim)).into(),
    })
}
