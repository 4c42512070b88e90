//! How a spring or damper is changed, as data: by suspension, kind of spring, and whether spring and damper are one unit.
//!
//! Nothing that holds the droop is freed before a jack carries what would drop; a strut or coil-over comes out whole and
//! is compressed on the bench before its centre nut; a torsion bar is unwound and a leaf unloaded first. Common practice,
//! no source; local codes, the vehicle's manual and a licensed inspection come first. `tests/core/procedure.rs` holds the
//! order of every construction.

pub mod drawing;
mod join;
mod loosen;
mod sketch;
mod step;

use crate::job::{Axle, BagFitted, Coaxial, SpringKind, Suspension};
pub use step::{Held, Place, Step, Support};

/// Whether spring and damper come out as one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Strut or coil-over.
    One,
    /// One by one.
    Apart,
    /// Not known: the strictest order.
    NotSaid,
}

/// What decides how an axle's springs are changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Construction {
    /// What guides the wheel.
    pub suspension: Suspension,
    /// What kind of spring.
    pub kind: SpringKind,
    /// Whether spring and damper are one unit.
    pub unit: Unit,
}

/// What is done with springs or dampers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Part {
    /// They stay in.
    Stays,
    /// They come out and go in again: springs on spacers, dampers unless they fail their test.
    Again,
    /// New ones go in.
    New,
}

impl Part {
    /// They come out.
    fn is_out(self) -> bool {
        self != Part::Stays
    }
}

/// What comes out, is renewed or added.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Renew {
    /// The springs.
    pub springs: Part,
    /// The dampers.
    pub dampers: Part,
    /// Air bags: there already, or fitted with the new springs.
    pub bags: BagFitted,
    /// Another anti-roll bar goes in.
    pub roll_bar: bool,
}

impl Renew {
    /// Nothing but the anti-roll bar.
    fn is_roll_bar_alone(self) -> bool {
        self.roll_bar && !self.springs.is_out() && !self.dampers.is_out()
    }
}

/// The order of work on one axle, both sides alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Procedure {
    /// Every step, in order.
    pub steps: Vec<Step>,
    /// What is tightened at ride height: rubber that must not stay twisted.
    pub at_ride_height: Vec<Place>,
}

/// Something that is tightened to a torque.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tightened {
    /// Where.
    pub place: Place,
    /// In which step, from 1.
    pub step: usize,
    /// It is rubber, and tightened at ride height.
    pub is_at_ride_height: bool,
}

impl Construction {
    /// By what is chosen. A blank `coaxial` is one unit on a strut; bars and leaves are never one with a damper.
    pub fn new(suspension: Suspension, kind: SpringKind, coaxial: Coaxial) -> Construction {
        let unit = match (kind.is_coil(), coaxial, suspension) {
            (false, ..) | (true, Coaxial::No, _) => Unit::Apart,
            (true, Coaxial::Yes, _) | (true, Coaxial::NotSaid, Suspension::Strut) => Unit::One,
            (true, Coaxial::NotSaid, _) => Unit::NotSaid,
        };
        Construction { suspension, kind, unit }
    }

    /// That of an axle.
    pub fn of(axle: &Axle) -> Construction {
        Construction::new(axle.suspension, axle.spring.kind, axle.damper.coaxial)
    }

    /// The order of work.
    pub fn procedure(self, renew: Renew) -> Procedure {
        let mut steps = loosen::steps(self, renew);
        let joined = join::steps(&steps, self.suspension, renew.bags);
        let at_ride_height = self.at_ride_height(&steps, renew);
        steps.extend(joined);
        Procedure { steps, at_ride_height }
    }

    /// Pivots whose rubber must turn to a new height: of whatever guides the axle, where its springs are renewed. A leaf
    /// guides its axle by itself.
    fn turns_pivots(self, renew: Renew) -> bool {
        renew.springs.is_out() && !(self.suspension == Suspension::Beam && self.kind == SpringKind::Leaf)
    }

    fn at_ride_height(self, taken_apart: &[Step], renew: Renew) -> Vec<Place> {
        let open = |held: Held| taken_apart.iter().any(|step| step.frees.contains(&held));
        let has_eyes = open(Held::LeafEyes);
        let arms: &[Place] = match self.suspension {
            _ if !self.turns_pivots(renew) => &[],
            Suspension::TwoArms => &[Place::LowerPivots, Place::UpperPivots],
            Suspension::Strut => &[Place::LowerPivots],
            Suspension::TrailingArm | Suspension::SemiTrailingArm => &[Place::ArmPivots],
            Suspension::Beam => &[Place::AxleLinks],
            Suspension::TwistBeam => &[Place::BeamPivots],
            Suspension::Other | Suspension::NotSaid => &[Place::OtherPivots],
        };
        let rest = [
            (has_eyes, Place::LeafEye),
            (has_eyes, Place::Shackle),
            (open(Held::Damper), Place::DamperTop),
            (open(Held::Damper) || open(Held::UnitFoot) && self.suspension != Suspension::Strut, Place::DamperFoot),
            (open(Held::Links) || open(Held::RollBar), Place::RollBarLinks),
            (open(Held::RollBar), Place::RollBarBrackets),
        ];
        arms.iter().copied().chain(rest.into_iter().filter(|r| r.0).map(|r| r.1)).collect()
    }

    /// The cautions that its steps call for, by the keys of their texts, in order.
    pub fn cautions(self, renew: Renew) -> Vec<&'static str> {
        let steps = loosen::steps(self, renew);
        let open = |held: Held| steps.iter().any(|step| step.frees.contains(&held));
        let has = |support: Support| steps.iter().any(|step| step.supports.contains(&support));
        let is_coil = self.kind.is_coil();
        let has_damper = open(Held::Damper) || open(Held::UnitFoot);
        let all = [
            (true, "fit.caution.stands"),
            (true, "fit.caution.carried"),
            (open(Held::BallJoint), "fit.caution.joint"),
            (has(Support::SpringHeld) || has(Support::Bench), "fit.caution.compressor"),
            (open(Held::CentreNut), "fit.caution.centre_nut"),
            (open(Held::Bar), "fit.caution.bar"),
            (open(Held::LeafClamp), "fit.caution.leaf"),
            (renew.bags != BagFitted::No, "fit.caution.bag"),
            (true, "fit.caution.shaft"),
            (has_damper, "fit.caution.gas"),
            (is_coil, "fit.caution.heat"),
            (!is_coil, "fit.caution.no_heat"),
            (has_damper, "fit.caution.stem"),
            (true, "fit.caution.once"),
            (true, "fit.caution.hoses"),
            (true, "fit.caution.after"),
        ];
        all.into_iter().filter(|c| c.0).map(|c| c.1).collect()
    }
}

impl Procedure {
    /// As one of several orders of work on the same vehicle: it is measured before the first of them; it is weighed, its
    /// rubber tightened and all checked after the last.
    #[must_use]
    pub fn among(mut self, is_first: bool, is_last: bool) -> Procedure {
        if !is_last {
            self.steps.retain(|step| ![join::WEIGH, join::CHECKS].contains(step));
            self.replace(join::RIDE_HEIGHT, join::RIDE_HEIGHT_LATER);
            self.replace(join::BAR_LOCK, join::BAR_LOCK_LATER);
        }
        if !is_first {
            self.replace(join::RIDE_HEIGHT, join::RIDE_HEIGHT_BOTH);
            self.replace(loosen::MEASURE, loosen::CHOCK);
        }
        self
    }

    /// One step in place of another.
    fn replace(&mut self, old: Step, new: Step) {
        self.steps.iter_mut().filter(|step| **step == old).for_each(|step| *step = new);
    }

    /// The step, from 1, that sets the vehicle on its wheels: up to it, one axle is worked on at a time.
    pub fn on_its_wheels(&self) -> usize {
        self.steps.iter().position(|step| *step == join::WHEELS_ON).map_or(0, |i| i + 1)
    }

    /// Where something is tightened to a torque, each place once, in the order of the steps.
    pub fn torques(&self) -> Vec<Tightened> {
        let hanging = self.steps.iter().enumerate().flat_map(|(i, step)| {
            step.tightens.iter().map(move |place| Tightened { place: *place, step: i + 1, is_at_ride_height: false })
        });
        let step = self
            .steps
            .iter()
            .position(|step| [join::RIDE_HEIGHT, join::RIDE_HEIGHT_BOTH, join::RIDE_HEIGHT_LATER].contains(step))
            .map_or(0, |i| i + 1);
        let rubber = self.at_ride_height.iter();
        hanging.chain(rubber.map(|place| Tightened { place: *place, step, is_at_ride_height: true })).collect()
    }
}
