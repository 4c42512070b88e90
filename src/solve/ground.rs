//! What one axle asks of a spring, apart from any spring: the curve without it, the wanted height, the loads, the
//! limits. Read for the current job, or with its uncertain fields moved: one draw of a Monte Carlo run.

use crate::base::units::entry::Spread;
use crate::base::units::{Force, Frequency, Length, Mass, Quantity, Ratio, Stress, weight};
use crate::job::read::Load;
use crate::job::{Goal, Job, LeftRight, Material, Side, SpringKind};
use crate::solve::decide;
use crate::solve::evaluate::axle::known::Known;
use crate::solve::evaluate::axle::sizing;
use crate::solve::evaluate::decided::Decided;
use crate::solve::evaluate::equal_load;
use crate::solve::evaluate::load_cases;
use crate::solve::read::{Number, Reading};
use crate::trade::ride;
use crate::trade::spring::Coil;
use crate::trade::wheel::ForceTravel;

/// What one corner carries in a load case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CornerLoad {
    /// What presses on the corner, N: sprung mass, and a load on the hitch.
    pub load_n: f64,
    /// The mass that swings, kg.
    pub sprung_kg: f64,
}

/// What one corner of an axle asks of its spring.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    /// All that carries in addition to the spring; its own spring carries nothing.
    pub curve: ForceTravel,
    /// The helper coil that stays.
    pub helper: Option<Coil>,
    /// Lengths along the spring are real ones, not only differences.
    pub lengths_known: bool,
    /// Wheel travel at the wanted height, m.
    pub wanted_m: f64,
    /// Ride frequency wanted on springs, lowest and highest, Hz.
    pub frequency_hz: [f64; 2],
    /// The load that springs are sized on.
    pub load: CornerLoad,
    /// The other load cases, in the order of the job; one that is not known is left out.
    pub others: Vec<CornerLoad>,
    /// Bump travel to metal, m.
    pub metal_m: Option<f64>,
    /// Droop travel, a positive number, m.
    pub droop_m: Option<f64>,
}

/// What a spring must fit, as the shop wishes it: nothing measured, so nothing of it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    /// The height may be off by this amount either way, m at the wheel.
    pub height_m: f64,
    /// Spacers may raise the seat by this amount, m along the spring.
    pub spacer_m: f64,
    /// The seat may go down by this amount, m along the spring.
    pub seat_down_m: f64,
    /// Least inside diameter, m.
    pub inside_m: Option<f64>,
    /// Greatest outside diameter, m.
    pub outside_m: Option<f64>,
    /// Other load cases may leave the range of frequency by this share.
    pub laden: f64,
    /// Only springs with a pair in stock.
    pub in_stock_only: bool,
    /// Least room to coil bind at metal, m.
    pub bind_m: f64,
    /// Least seat preload at full droop, m.
    pub seat_m: f64,
    /// ± of a rate that states none: limits, a share.
    pub rate_tolerance: f64,
    /// ± of a free length: limits, m.
    pub length_tolerance_m: f64,
    /// A new spring shortens by this amount in its first weeks, m.
    pub settle_m: f64,
    /// Standard uncertainty of that, m, and what it means.
    pub settle_u_m: (f64, Spread),
    /// Steel that a list's springs are taken to be of.
    pub material: Material,
    /// Allowed shear stress as a share of tensile strength.
    pub allowed_share: f64,
    /// Tensile strength, if it was typed, Pa.
    pub strength_pa: Option<f64>,
    /// Shear modulus, Pa.
    pub shear_modulus_pa: f64,
}

impl Wish {
    /// A spacer may be cut, or the seat moved, when the axle was weighed on its new springs.
    pub fn is_seat_free(&self) -> bool {
        self.spacer_m > 0.0 || self.seat_down_m > 0.0
    }

    /// Allowed shear stress of wire this thick, Pa.
    pub fn allowed_pa(&self, wire_m: f64) -> Option<f64> {
        let by_size = || self.material.tensile_strength(Length::from_si(wire_m)).map(|s: Stress| s.si());
        Some(self.strength_pa.or_else(by_size)? * self.allowed_share)
    }
}

/// An uncertain field that moves the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// Its path in the job.
    pub path: String,
    /// Its value, SI.
    pub value_si: f64,
    /// Its standard uncertainty, SI.
    pub u_si: f64,
    /// What the ± means: a normal law, or limits (rectangular).
    pub spread: Spread,
    /// The ground with the field moved up and down by its standard uncertainty.
    pub moved: Box<[Option<Ground>; 2]>,
    index: usize,
}

/// Reads the ground of one axle again and again, its fields moved.
pub struct Survey<'a> {
    reading: Reading<'a>,
    side: Side,
    /// How the old spring is read: nothing else is decided of the ground.
    decided: Decided,
    inputs: Vec<Input>,
}

impl<'a> Survey<'a> {
    /// Reads the job once, and finds the uncertain fields that move this axle's ground.
    pub fn new(job: &'a Job, side: Side) -> Self {
        let mut reading = Reading::of(job);
        let old_rate = decide::old_rates(&mut reading)[side].clone();
        let decided = Decided { old_rate, ..Decided::default() };
        let mut survey = Survey { reading, side, decided, inputs: Vec::new() };
        let Some(still) = survey.ground() else { return survey };
        let asked = |(index, field): (usize, &Number)| Input {
            path: field.path.clone(),
            value_si: survey.reading.read_si(index),
            u_si: field.u_si,
            spread: field.spread,
            moved: Box::new([None, None]),
            index,
        };
        let asked: Vec<Input> = survey.reading.all_uncertain().map(asked).collect();
        for input in asked {
            let index = input.index;
            let moved = [1.0, -1.0].map(|sign| {
                survey.reading.move_by(index, sign * input.u_si);
                survey.ground()
            });
            survey.reading.move_by(index, 0.0);
            if moved.iter().any(|m| m.as_ref() != Some(&still)) {
                survey.inputs.push(Input { moved: Box::new(moved), ..input });
            }
        }
        survey
    }

    /// The uncertain fields, in the order of the file.
    pub fn inputs(&self) -> &[Input] {
        &self.inputs
    }

    /// Moves every input by this number of SI units from its value.
    pub fn move_by(&mut self, by_si: &[f64]) {
        for (input, by_si) in self.inputs.iter().zip(by_si) {
            self.reading.move_by(input.index, *by_si);
        }
    }

    /// The ground as the fields stand now; `None` when something it needs is not known.
    pub fn ground(&self) -> Option<Ground> {
        let reading = &self.reading;
        let compared = equal_load::compared(reading);
        ground(&mut Known::read(reading, self.side, &self.decided, &compared)?, &compared)
    }

    /// What the shop wishes of a spring; `None` when a field of it cannot be read.
    pub fn wish(&self) -> Option<Wish> {
        let (reading, job) = (&self.reading, &self.reading.job);
        let (axle, limits) = (job.axle(self.side), &job.limits);
        let length = |entry| reading.known(entry).map(|l: Length| l.si());
        let share = |entry| reading.known(entry).map(|r: Ratio| r.si());
        let (choice, coil) = (&axle.choice, &axle.stock.coil);
        Some(Wish {
            height_m: length(&choice.height_band)?,
            spacer_m: length(&choice.spacer_most)?,
            seat_down_m: length(&choice.seat_down)?,
            inside_m: length(&choice.inside_least),
            outside_m: length(&choice.outside_most),
            laden: share(&choice.laden)?,
            in_stock_only: choice.in_stock_only,
            bind_m: length(&limits.bind_room)?,
            seat_m: length(&limits.seat_room)?,
            rate_tolerance: share(&limits.rate_tolerance)?,
            length_tolerance_m: length(&limits.length_tolerance)?,
            settle_m: length(&axle.stock.settle)?,
            settle_u_m: reading.law(&axle.stock.settle)?,
            material: coil.material,
            allowed_share: share(&coil.allowed_share)?,
            strength_pa: reading.typed(&coil.tensile_strength).map(|s: Stress| s.si()),
            shear_modulus_pa: reading.known(&coil.shear_modulus)?.si(),
        })
    }

    /// How many load cases of the job are not in the ground, since their weights are not known.
    pub fn cases_left_out(&self, ground: &Ground) -> usize {
        self.reading.job.cases.len().saturating_sub(ground.others.len())
    }

    /// Sprung masses of left and right corner as sized, when the corners were weighed: the heavier by what it was
    /// heavier as weighed. `None`, too, when something was taken out or put in off the centreline: its share of each
    /// side is not followed.
    pub fn sides(&self) -> Option<LeftRight<CornerLoad>> {
        let aside =
            |loads: &[Load]| loads.iter().any(|l| self.reading.typed(&l.y).is_some_and(|y: Length| y.si() != 0.0));
        let sized = self.reading.sized_case().is_some_and(|c| aside(&c.loads));
        if sized || aside(&self.reading.job.after.loads) {
            return None;
        }
        let compared = equal_load::compared(&self.reading);
        let corners = equal_load::weighed(&self.reading, &self.reading.job.after).corners?;
        let half = match self.side {
            Side::Front => corners.lf - corners.rf,
            Side::Rear => corners.lr - corners.rr,
        } / 2.0;
        let load = {
            let known = Known::read(&self.reading, self.side, &self.decided, &compared)?;
            corner_load(&known, known.masses.sprung.after?)
        };
        Some(LeftRight { left: 1.0, right: -1.0 }.map(|sign| CornerLoad {
            load_n: load.load_n + sign * weight(half).si(),
            sprung_kg: load.sprung_kg + sign * half.si(),
        }))
    }
}

fn corner_load(known: &Known<'_>, sprung: Mass) -> CornerLoad {
    CornerLoad { load_n: known.load(sprung).si(), sprung_kg: sprung.si() }
}

fn ground(known: &mut Known<'_>, compared: &crate::solve::answer::Compared) -> Option<Ground> {
    if !known.axle.spring.kind.is_coil() {
        return None;
    }
    let load = corner_load(known, known.masses.sprung.after?);
    let before = if known.stood_at_reference() { Some((Length::from_si(0.0), None)) } else { known.stood_before() };
    let frequency = sizing::wanted_frequency(known, before)?;
    let (from, raise) = sizing::raised_from(known, before)?;
    let wanted = from - raise;
    Some(Ground {
        curve: known.final_template(wanted),
        helper: if known.axle.spring.kind == SpringKind::WithHelper { Some(known.helper()?) } else { None },
        lengths_known: known.lengths_known,
        wanted_m: wanted.si(),
        frequency_hz: [frequency.low.si(), frequency.high.si()],
        load,
        others: other_loads(known, compared),
        metal_m: known.travel.metal.map(|l| l.si()),
        droop_m: known.travel.droop.map(|l| l.si()),
    })
}

impl Known<'_> {
    /// Lengths were measured at the height before the change, which then needs no old spring: neither do the wishes.
    fn stood_at_reference(&self) -> bool {
        let same = self.masses.sprung.before.is_some() && self.masses.sprung.before == self.sprung_at_reference();
        same && self.tongue.si() == 0.0 && self.lengths_known && self.axle.target.goal == Goal::Range
    }

    /// Where the axle stood before the change, on its old spring.
    fn stood_before(&mut self) -> Option<(Length, Option<Frequency>)> {
        let itself = self.old_spring_itself(&mut crate::solve::answer::OldSpring::default())?;
        let old = self.placed(&itself)?;
        let sprung = self.masses.sprung.before?;
        let found = old.held(self.load(sprung))?;
        Some((found.travel, Some(ride::frequency(found.wheel_rate, sprung))))
    }
}

/// The load cases other than the one that springs are sized on.
fn other_loads(known: &Known<'_>, compared: &crate::solve::answer::Compared) -> Vec<CornerLoad> {
    let (reading, side) = (known.reading, known.side);
    let sized = reading.sized_at();
    let corner = |whole: Option<Mass>, tongue: Force| {
        let sprung = crate::trade::weights::sprung_per_corner(whole?, known.masses.unsprung.after?)?;
        Some(CornerLoad { load_n: weight(sprung).si() + tongue.si() / 2.0, sprung_kg: sprung.si() })
    };
    let as_weighed = sized.and_then(|_| corner(compared.stood.after[side], Force::from_si(0.0)));
    let cases = reading.job.cases.iter().enumerate().filter(|(i, _)| sized != Some(*i));
    let loaded = cases.filter_map(|(_, case)| {
        let (axles, tongue) = load_cases::loaded(reading, compared, case);
        corner(axles[side], tongue[side])
    });
    as_weighed.into_iter().chain(loaded).collect()
}
