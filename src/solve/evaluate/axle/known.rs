//! What was read of one axle, blanks filled by defaults, and the curve without its spring.

use std::ops::Deref;

use crate::base::language::Word;
use crate::base::math::pchip::Pchip;
use crate::base::units::{Angle, Force, Length, Mass, Quantity, Ratio, SpringRate, weight};
use crate::job::read::Axle;
use crate::job::{BagFitted, MeasuredAt, RatioBy, Side, SpringKind};
use crate::solve::answer::{BeforeAfter, Compared, Masses, Travel};
use crate::solve::evaluate::decided::Decided;
use crate::solve::evaluate::own_springs::OwnSprings;
use crate::solve::read::{Moves, Reading, ratio_is_blank};
use crate::trade::damper;
use crate::trade::linkage::Mounts;
use crate::trade::spring::{AirBag, Coil, Spring};
use crate::trade::weights;
use crate::trade::wheel::{BumpStop, ForceTravel, Helper, LengthCurve, StopForce};

/// An arm steeper than this is upright, rad: its angle was taken from upright, not from level.
pub(in crate::solve) const STEEPEST_ARM_RAD: f64 = 1.2;

/// What an axle weighs before and after.
pub(in crate::solve) fn masses(reading: &Reading<'_>, side: Side, compared: &Compared) -> Masses {
    let axle = reading.job.axle(side);
    let after = reading.known(&axle.unsprung);
    let before = if axle.unsprung_before.is_blank() { after } else { reading.typed(&axle.unsprung_before) };
    let sprung = |whole: BeforeAfter<Option<Mass>>| {
        let corner = |whole: Option<Mass>, unsprung: Option<Mass>| weights::sprung_per_corner(whole?, unsprung?);
        BeforeAfter { before: corner(whole.before, before), after: corner(whole.after, after) }
    };
    let weight = compared.weighed.map(|w| w.axle(side));
    let stood = sprung(compared.stood.map(|axles| axles[side]));
    Masses { weight, unsprung: BeforeAfter { before, after }, sprung: sprung(weight), stood }
}

/// Where its travel ends, as measured.
pub(in crate::solve) fn travel(reading: &Reading<'_>, axle: &Axle) -> Travel {
    Travel {
        stop: reading.typed(&axle.travel.stop_gap),
        metal: reading.typed(&axle.travel.metal),
        droop: reading.typed(&axle.travel.droop),
        ..Travel::default()
    }
}

/// What was measured of one axle's spring by itself: it needs neither weights nor a motion ratio.
#[derive(Clone, Copy)]
pub(in crate::solve) struct Readings<'a> {
    pub reading: &'a Reading<'a>,
    pub side: Side,
    pub axle: &'a Axle,
}

impl<'a> Readings<'a> {
    pub fn of(reading: &'a Reading<'a>, side: Side) -> Self {
        Readings { reading, side, axle: reading.job.axle(side) }
    }
}

/// What was read of one axle.
pub(in crate::solve) struct Known<'a> {
    pub readings: Readings<'a>,
    /// Lengths were measured as the vehicle stood on the scales.
    pub masses: Masses,
    /// What a load on the hitch presses on one corner in addition to the sprung masses compared.
    pub tongue: Force,
    pub tyre_rate: Option<SpringRate>,
    pub travel: Travel,
    pub spring_length: LengthCurve,
    /// Lengths are real ones, not only differences.
    pub lengths_known: bool,
    /// `None` when not known; without gas the spring does not need it.
    pub damper_length: Option<LengthCurve>,
    pub damper_lengths_known: bool,
    pub parallel_rate: SpringRate,
    pub parallel_neutral: Option<Length>,
    pub gas_force: Force,
    pub stop: Option<BumpStop>,
    /// The bag, its ratio, and its set height where it is always fitted.
    pub bag: Option<(AirBag, Ratio)>,
    /// The lengths were taken at the height before the change.
    pub reference_is_before: bool,
    pub decided: &'a Decided,
}

impl<'a> Deref for Known<'a> {
    type Target = Readings<'a>;

    fn deref(&self) -> &Readings<'a> {
        &self.readings
    }
}

impl<'a> Known<'a> {
    pub fn read(reading: &'a Reading<'a>, side: Side, decided: &'a Decided, compared: &Compared) -> Option<Self> {
        let axle = reading.job.axle(side);
        let (spring_length, lengths_known) = spring_length(reading, side, axle)?;
        let damper_curve = if !ratio_is_blank(&axle.damper_ratio) {
            reading.length_curve(side, Moves::Damper)
        } else if axle.spring.kind == SpringKind::TorsionBar {
            None
        } else {
            let reason = Word("right for a damper next to or inside the spring");
            reading.note_default(side, "damper_ratio", Word("the spring's motion ratio"), reason);
            Some(spring_length.clone())
        };
        let fitted = reading.typed(&axle.damper.fitted_length);
        let damper = damper_curve.map(|curve| with_length(reading, axle, curve, Moves::Damper, fitted));
        let damper_lengths_known = damper.as_ref().is_some_and(|d| d.1);
        let gas_force =
            damper::gas_force(reading.known(&axle.damper.gas_pressure)?, reading.known(&axle.damper.rod_diameter)?);
        if damper.is_none() && gas_force.si() > 0.0 {
            return None; // The gas pushes through a ratio that is not known.
        }
        let neutral = &axle.parallel.neutral;
        let masses = masses(reading, side, compared);
        let known = Known {
            readings: Readings { reading, side, axle },
            masses,
            tongue: compared.tongue[side] / 2.0,
            tyre_rate: reading.known(&axle.tyre_rate),
            travel: travel(reading, axle),
            spring_length,
            lengths_known,
            damper_length: damper.map(|d| d.0),
            damper_lengths_known,
            parallel_rate: reading.known(&axle.parallel.rate)?,
            parallel_neutral: if neutral.is_blank() { None } else { Some(reading.typed(neutral)?) },
            gas_force,
            stop: stop(reading, axle),
            bag: bag(reading, axle),
            decided,
            reference_is_before: reading.job.measured_at == MeasuredAt::Before && masses.stood.before.is_some(),
        };
        // A bag that should carry, but is not known, leaves nothing to say about the spring.
        (axle.bag.fitted == BagFitted::No || known.bag.is_some()).then_some(known)
    }

    /// What left and right have of their own.
    pub fn own_springs(&self) -> OwnSprings<'_> {
        let takes_a_free_length = self.lengths_known && self.axle.spring.kind.is_coil();
        OwnSprings { reading: self.reading, axle: self.axle, takes_a_free_length }
    }

    /// The sprung mass of a corner at the height at which lengths were measured.
    pub fn sprung_at_reference(&self) -> Option<Mass> {
        if self.reference_is_before { self.masses.stood.before } else { self.masses.stood.after }
    }

    /// What presses on one corner: its sprung mass, and what a load on the hitch adds.
    pub fn load(&self, sprung: Mass) -> Force {
        weight(sprung) + self.tongue
    }

    /// A curve without a spring, for the rubber neutral at `neutral` unless one was typed; a bag that was always
    /// there is in it.
    pub fn template(&self, neutral: Length) -> ForceTravel {
        ForceTravel {
            spring: Spring::Coil(Coil { rate_n_per_m: 0.0, free_length_m: 0.0, solid_length_m: None }),
            spring_length: self.spring_length.clone(),
            parallel_rate_n_per_m: self.parallel_rate.si(),
            parallel_neutral_m: self.parallel_neutral.unwrap_or(neutral).si(),
            gas_force_n: self.gas_force.si(),
            damper_length: self.damper_length.as_ref().unwrap_or(&self.spring_length).clone(),
            helper: self.helper_set_at(Length::from_si(0.0), BagFitted::Always),
            stop: self.stop.clone(),
        }
    }

    /// The curve for the springs as finally fitted, without the spring: a new bag is set at the wanted height.
    pub fn final_template(&self, wanted: Length) -> ForceTravel {
        let template = self.template(wanted);
        let helper = template.helper.or_else(|| self.helper_set_at(wanted, BagFitted::WithNew));
        ForceTravel { helper, ..template }
    }

    fn helper_set_at(&self, set_at: Length, when: BagFitted) -> Option<Helper> {
        let (bag, ratio) = self.bag.filter(|_| self.axle.bag.fitted == when)?;
        Some(Helper { bag, ratio: ratio.si(), set_at_m: set_at.si() })
    }
}

/// Spring length against wheel travel, and whether lengths are real ones.
fn spring_length(reading: &Reading<'_>, side: Side, axle: &Axle) -> Option<(LengthCurve, bool)> {
    let none = Length::from_si(0.0);
    let one = Ratio::from_si(1.0);
    match axle.spring.kind {
        // A bar's length is how far its arm's end hangs below it.
        SpringKind::TorsionBar => {
            let arm: Length = reading.typed(&axle.spring.bar.arm)?;
            let angle: Angle = reading.typed(&axle.spring.bar.angle)?;
            if angle.si().abs() > STEEPEST_ARM_RAD {
                return None; // A finding says so.
            }
            Some((LengthCurve::constant(one, arm * angle.si().sin()), true))
        }
        SpringKind::Leaf if ratio_is_blank(&axle.ratio) => {
            reading.note_default(side, "ratio", "1", Word("a leaf spring on the axle moves with the wheel"));
            let fitted = reading.typed(&axle.spring.fitted_length);
            Some(with_length(reading, axle, LengthCurve::constant(one, none), Moves::Spring, fitted))
        }
        _ => {
            let curve = reading.length_curve(side, Moves::Spring)?;
            let fitted = reading.typed(&axle.spring.fitted_length);
            Some(with_length(reading, axle, curve, Moves::Spring, fitted))
        }
    }
}

/// Puts the real length at the reference into a curve, if it is known: typed, from the rows, or between points of its own.
fn with_length(
    reading: &Reading<'_>,
    axle: &Axle,
    curve: LengthCurve,
    moves: Moves,
    fitted: Option<Length>,
) -> (LengthCurve, bool) {
    let ratio = moves.ratio(axle);
    match fitted {
        Some(length) => (curve.with_length_at_reference(length), true),
        None => {
            let is_real = match ratio.by {
                RatioBy::Rows => !ratio_is_blank(ratio),
                RatioBy::Points => matches!(reading.mounts(axle, moves), Some(Mounts::Apart(..))),
                _ => false,
            };
            (curve, is_real)
        }
    }
}

fn stop(reading: &Reading<'_>, axle: &Axle) -> Option<BumpStop> {
    let gap: Length = reading.typed(&axle.travel.stop_gap)?;
    let rows: Option<Vec<(f64, f64)>> = axle
        .stop
        .rows
        .iter()
        .filter(|r| !(r.squeeze.is_blank() && r.load.is_blank()))
        .map(|r| Some((reading.typed(&r.squeeze)?.si(), reading.typed(&r.load)?.si())))
        .collect();
    let force = match rows {
        Some(rows) if rows.is_empty() => {
            reading.typed(&axle.stop.rate).map_or(StopForce::Unknown, |k| StopForce::Rate(k.si()))
        }
        // Rows count as soon as there are any; a finding says what is wrong with them.
        rows => rows.and_then(stop_table).map_or(StopForce::Unknown, |t| StopForce::Table(t.into())),
    };
    let ratio = match force {
        StopForce::Unknown => 1.0,
        _ => reading.known(&axle.stop.ratio)?.si(),
    };
    Some(BumpStop { gap_m: gap.si(), ratio, force })
}

/// Load against squeeze from nothing on; `None` unless more squeeze always means more load.
pub(in crate::solve) fn stop_table(mut rows: Vec<(f64, f64)>) -> Option<Pchip> {
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    if rows.first().is_some_and(|r| r.0 > 0.0) {
        rows.insert(0, (0.0, 0.0));
    }
    let grows = rows.windows(2).all(|w| w[1].1 > w[0].1) && rows.first().is_some_and(|r| r.1 == 0.0);
    Pchip::through(&rows).filter(|_| grows)
}

/// The bag at its set height; without a pressure it is empty there, and can still be sized.
pub(in crate::solve) fn bag(reading: &Reading<'_>, axle: &Axle) -> Option<(AirBag, Ratio)> {
    let data = &axle.bag;
    let area = reading.typed(&data.area)?;
    let volume = reading.typed(&data.volume)?;
    let pressure = match data.fitted {
        BagFitted::No => reading.typed(&data.pressure).unwrap_or(crate::base::units::Pressure::from_si(0.0)),
        _ => reading.typed(&data.pressure)?,
    };
    let bag = AirBag::new(area, volume, pressure, reading.known(&data.exponent)?.si());
    let area_slope_m = -reading.known(&data.area_growth)?.si();
    Some((AirBag { area_slope_m, ..bag }, reading.known(&data.ratio)?))
}
