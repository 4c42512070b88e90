//! One axle, from its weights to its dampers: the order of calculation.

pub(in crate::solve) mod damping;
mod in_detail;
pub(in crate::solve) mod known;
mod new_spring;
mod old_spring;
mod room;
pub(in crate::solve) mod routes;
pub(in crate::solve) mod sizing;
pub(in crate::solve) mod standing;
mod stock;
pub(in crate::solve) mod torsion_bar;

use crate::base::units::{G_M_PER_S2, Length, Mass, Quantity};
use crate::job::read::{Axle, MotionRatio};
use crate::job::{DamperPlan, Plan, RatioBy, Side};
use crate::solve::answer::{
    AxleAnswer, BeforeAfter, BenchFacts, Compared, LinkageFacts, OldSpring, Parts, PerState, Room, RouteKind,
    SpringToBuy,
};
use crate::solve::evaluate::axle::known::{Known, Readings};
use crate::solve::evaluate::axle::new_spring::set_lengths;
use crate::solve::evaluate::axle::standing::OnOld;
use crate::solve::evaluate::decided::Decided;
use crate::solve::evaluate::own_springs::{OwnSprings, own_free_length};
use crate::solve::evaluate::{on_bench, wheel_geometry};
use crate::solve::read::Reading;
use crate::trade::wheel::ForceTravel;

/// One axle by what the reading says, with what was decided of it.
pub(in crate::solve) fn evaluate<'a>(
    reading: &'a Reading<'a>,
    side: Side,
    compared: &Compared,
    decided: &'a Decided,
) -> AxleAnswer {
    let axle = reading.job.axle(side);
    let mut answer = AxleAnswer {
        side,
        plan: axle.plan,
        missing: Vec::new(),
        instead: Vec::new(),
        masses: known::masses(reading, side, compared),
        motion_ratio: None,
        ratio_slope: None,
        spring_base: None,
        damper_motion_ratio: None,
        damper_ratio_slope: None,
        kind: axle.spring.kind,
        old_spring: OldSpring::default(),
        route_rates: [None; RouteKind::ALL.len()],
        standing: PerState::default(),
        same_factor: None,
        sizing: None,
        old_will_do: None,
        nothing_left: false,
        fitted: None,
        room: Room::default(),
        old_damper: None,
        ratio_before_stated: !axle.damper.ratio_before.is_blank() && axle.damper.rows.iter().all(|r| r.is_blank()),
        damping: None,
        offered: None,
        old_free_length: None,
        rated: rated(reading, side, compared),
        overloaded: false,
        new_dampers: decided.new_dampers,
        dampers_off: false,
        parts: parts(reading, axle),
        travel: known::travel(reading, axle),
        linkage: LinkageFacts::default(),
        bench: BenchFacts::default(),
        arch: BeforeAfter { before: reading.arch_mean(side, true), after: reading.arch_mean(side, false) },
        bounce: BeforeAfter::default(),
    };
    let readings = Readings::of(reading, side);
    match Known::read(reading, side, decided, compared) {
        Some(known) => known.fill(&mut answer),
        None => readings.read_rates(&mut answer.old_spring),
    }
    answer.linkage = wheel_geometry::facts(reading, side, &answer.standing);
    answer.bench = on_bench::facts(reading, &answer);
    answer.bounce = on_bench::bounces(reading, &answer);
    answer.same_factor = sizing::same_factor(readings, &answer);
    answer
}

/// What the axle carries after, with what a load on the hitch adds, and its rating.
fn rated(reading: &Reading<'_>, side: Side, compared: &Compared) -> Option<(Mass, Mass)> {
    let on_hitch = Mass::from_si(compared.tongue[side].si() / G_M_PER_S2);
    let whole = compared.weighed.after.axle(side).map(|whole| whole + on_hitch);
    whole.zip(reading.typed(&reading.job.axle(side).rating))
}

/// What the plan alone says of parts.
fn parts(reading: &Reading<'_>, axle: &Axle) -> Parts {
    let own = OwnSprings { reading, axle, takes_a_free_length: false };
    Parts { taken: taken(reading, axle), kept: own.kept(), ..Parts::default() }
}

/// The spring taken from a list, by its number or what it is; blank when neither is typed.
fn taken(reading: &Reading<'_>, axle: &Axle) -> Option<String> {
    reading.typed(&axle.taken.rate).filter(|_| axle.spring.kind.is_coil())?;
    let named = [&axle.taken.number, &axle.taken.what].into_iter().find(|n| !n.trim().is_empty());
    Some(named.map_or("", |n| n.trim()).to_owned())
}

impl Known<'_> {
    fn fill(mut self, answer: &mut AxleAnswer) {
        let reference = Length::from_si(0.0);
        answer.motion_ratio = Some(self.spring_length.ratio(reference));
        // Two lengths or a number say nothing about a change.
        let measured = |ratio: &MotionRatio| match ratio.by {
            RatioBy::Rows => ratio.rows.len() > 2,
            RatioBy::Points => true,
            _ => !ratio.slope.is_blank(),
        };
        answer.ratio_slope = measured(&self.axle.ratio).then(|| self.spring_length.slope(reference));
        answer.spring_base = self.spring_base();
        answer.damper_motion_ratio = self.damper_length.as_ref().map(|d| d.ratio(reference));
        answer.damper_ratio_slope =
            self.damper_length.as_ref().filter(|_| measured(&self.axle.damper_ratio)).map(|d| d.slope(reference));
        let mut on_old = self.on_old_springs(&mut answer.old_spring);
        if let Some(old) = on_old.curve.as_ref().filter(|_| self.lengths_known && self.axle.spring.kind.is_coil()) {
            answer.old_free_length = Some(own_free_length(&old.spring));
        }
        let asked = sizing::asked(&self, &on_old);
        answer.nothing_left = matches!(asked, Some(Err(sizing::NothingLeft)));
        let sizing = asked.and_then(Result::ok);
        let mut to_buy = sizing.as_ref().and_then(|s| sizing::to_buy(&self, s, on_old.curve.as_ref()));
        answer.sizing = sizing.filter(|_| to_buy.is_some());
        answer.old_will_do =
            on_old.after.as_ref().zip(answer.sizing.as_ref()).and_then(|(o, s)| sizing::will_do(&self, o, s));
        let new_curve = self.fitted(on_old.curve.as_ref(), to_buy.as_ref(), answer);
        let mut on_new = self.stand(new_curve.as_ref(), self.masses.sprung.after);
        if let Some((sizing, to_buy)) = answer.sizing.as_ref().zip(to_buy.as_mut()) {
            set_lengths(&self, sizing, to_buy);
            answer.parts.spacer = sizing::spacer(&self, &on_old, sizing.wanted_travel);
        }
        answer.parts.spring = to_buy;
        let OnOld { itself, curve: old, before, after } = &mut on_old;
        self.heights(before, after, &mut on_new);
        let old_damper = self.old_damper(before.as_ref());
        for stand in [&mut *before, &mut *after, &mut on_new].into_iter().flatten() {
            let at_wheel = old_damper.as_ref().map(|d| d.at_wheel(&stand.curve, stand.travel));
            stand.old_damper_at_wheel = at_wheel;
            stand.old_damper_ratio =
                at_wheel.map(|c| crate::trade::damper::damping_ratio(c, stand.wheel_rate, stand.sprung));
        }
        self.ends(&mut answer.travel, answer.fitted.as_ref());
        if let Some((new, fitted)) = on_new.as_ref().zip(answer.fitted.as_ref()) {
            answer.room = self.room(new, fitted);
            if let Some((damping, targets)) = self.damping(new, before.as_ref(), old_damper.as_ref()) {
                answer.parts.offered_damper = self.offered_damper(&damping, new);
                (answer.damping, answer.parts.damper) = (Some(damping), Some(targets));
            }
        }
        answer.old_damper = old_damper;
        let shape = itself.as_ref().zip(old.as_ref()).filter(|_| !routes::is_one_number(answer.kind));
        answer.route_rates = routes::rates(&self, &answer.old_spring, shape);
        answer.standing = PerState { before: on_old.before, old: on_old.after, new: on_new };
        answer.dampers_off = self.sells_dampers(answer);
        self.springs_in_detail(on_old.curve.as_ref(), answer);
    }

    /// The curve of the springs that will be fitted, left and right as one.
    fn fitted(
        &self,
        old: Option<&ForceTravel>,
        to_buy: Option<&SpringToBuy>,
        answer: &mut AxleAnswer,
    ) -> Option<ForceTravel> {
        let sizing = answer.sizing.as_ref();
        let of_axle = match self.axle.plan {
            Plan::Keep => self.kept(old?, sizing.map_or(Length::from_si(0.0), |s| s.wanted_travel)),
            Plan::NewSprings => self.new_spring(sizing?, to_buy?)?,
        };
        let springs = self.own_springs().fitted(of_axle.spring.clone());
        let both = ForceTravel { spring: springs.as_one(), ..of_axle };
        answer.fitted = Some(springs);
        Some(both)
    }

    /// New dampers go in, whatever the springs.
    fn sells_dampers(&self, answer: &AxleAnswer) -> bool {
        match self.axle.dampers {
            DamperPlan::AsNeeded => dampers_suit(answer) == Some(false),
            DamperPlan::New => true,
            DamperPlan::Keep => false,
        }
    }

    /// Spring base and track of a beam axle.
    fn spring_base(&self) -> Option<(Length, Length)> {
        let base: Length = self.reading.typed(&self.axle.spring_base)?;
        let track: Length = self.reading.typed(&self.axle.track)?;
        (self.axle.kind == crate::job::AxleKind::Beam).then_some((base, track))
    }
}

/// The old dampers are inside the wanted range on the springs as they will be fitted; `None` when not known.
pub(in crate::solve) fn dampers_suit(answer: &AxleAnswer) -> Option<bool> {
    let known = answer.old_damper.as_ref().is_some_and(|old| !old.is_assumed);
    let on_new = answer.standing.new.as_ref().and_then(|s| s.old_damper_ratio).filter(|_| known)?;
    let wanted = &answer.damping.as_ref()?.ratio;
    Some((wanted.low..=wanted.high).contains(&on_new))
}
