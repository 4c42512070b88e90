//! Doubts that make an answer worthless: what may not be ordered until it is settled, or overruled.

use super::Say;
use crate::base::message::Message;
use crate::base::units::{Amount, Length, Quantity, Ratio, SpringRate};
use crate::job::{Level, Mend, Plan, RatioBy, Side, overrule};
use crate::message;
use crate::solve::answer::{Answer, AxleAnswer, Moved, RouteKind};
use crate::solve::read::Moves;
use crate::trade::wheel::LengthCurve;

/// No spring makes a body bounce slower or quicker than this, Hz. Source job.md: common practice.
const POSSIBLE_HZ: std::ops::RangeInclusive<f64> = 0.5..=5.0;
/// No damper on a road vehicle damps more than this.
const MOST_DAMPING: f64 = 2.0;
/// Routes are apart from this share on, and from this number of their combined ±.
const APART: (f64, f64) = (0.15, 3.0);
/// A ± above this share of the rate says nothing about it.
const WORTHLESS: f64 = 1.0 / 3.0;
/// Two ways to a motion ratio agree within this share.
const RATIO_AGREES: f64 = 0.05;

impl Say<'_> {
    /// A doubt that withholds an axle; it can be overruled for the values of the fields that it rests on.
    pub(super) fn withhold(
        &mut self,
        rule: &'static str,
        field: String,
        text: Message,
        rests_on: Vec<String>,
    ) -> &mut Self {
        self.push(Level::Withheld, rule, field, text);
        if let Some(found) = self.found.last_mut() {
            found.rests_on = rests_on;
        }
        self
    }

    /// What would mend the finding that was pushed last.
    pub(super) fn mended(&mut self, mends: impl IntoIterator<Item = Mend>) {
        if let Some(found) = self.found.last_mut() {
            found.mends = mends.into_iter().collect();
        }
    }

    /// Withholds the axle, or asks, as the case may be.
    pub(super) fn withhold_if(
        &mut self,
        is_worthless: bool,
        (rule, field): (&'static str, String),
        text: Message,
        rests_on: Vec<String>,
    ) -> &mut Self {
        if is_worthless {
            return self.withhold(rule, field, text, rests_on);
        }
        self.push(Level::Doubt, rule, field, text);
        self
    }

    /// These fields of an axle, as paths.
    pub(super) fn of_axle(axle: &AxleAnswer, fields: &[&str]) -> Vec<String> {
        fields.iter().map(|field| format!("{}.{field}", axle.side.key())).collect()
    }

    /// The fields that say a motion ratio by the way that counts, and its confirmation.
    pub(super) fn ratio_fields(&self, side: Side, moves: Moves) -> Vec<String> {
        let ratio = moves.ratio(self.job().axle(side));
        let fields: Vec<String> = match ratio.by {
            RatioBy::Moved => vec!["wheel_moved".into(), "part_moved".into()],
            RatioBy::Number => vec!["number".into()],
            RatioBy::Lean => vec!["lean".into(), "arm".into()],
            RatioBy::Arm => vec!["seat_arm".into(), "seat_angle".into()],
            RatioBy::Points => Vec::new(),
            RatioBy::Rows => {
                let row = |i: usize| [format!("rows[{i}].wheel"), format!("rows[{i}].length")];
                (0..ratio.rows.len()).flat_map(row).collect()
            }
        };
        let path = |field: &String| format!("{}.{}.{field}", side.key(), moves.key());
        let points = (ratio.by == RatioBy::Points).then(|| self.reading.point_paths(side, moves));
        fields.iter().chain([&"confirm".to_owned()]).map(path).chain(points.unwrap_or_default()).collect()
    }

    /// A second way says the same motion ratio: rows over the travel, another way that is filled in, the number that
    /// was asked for, or a route to the wheel rate that does not use it.
    pub(super) fn is_confirmed(&self, axle: &AxleAnswer, answer: &Answer, moves: Moves, r: f64) -> bool {
        // Two rows are two lengths, and can be changed over like them.
        const ROWS: usize = 3;
        let ratio = moves.ratio(self.job().axle(axle.side));
        let agrees = |other: f64| (other / r - 1.0).abs() <= RATIO_AGREES;
        let by_rows = ratio.by == RatioBy::Rows
            && self.reading.points(ratio).is_some_and(|p| p.len() >= ROWS)
            && moves.rows(answer.checked(axle.side)).is_some_and(|rows| rows.off.is_none());
        let typed = |entry| self.reading.typed::<Ratio>(entry).map(Quantity::si);
        let moved = || {
            let (wheel, part) = (self.reading.typed(&ratio.wheel_moved)?, self.reading.typed(&ratio.part_moved)?);
            LengthCurve::from_movement(wheel, part, Length::from_si(0.0))
        };
        let other_rows =
            || self.reading.points(ratio).filter(|p| p.len() >= ROWS).and_then(|p| LengthCurve::from_points(&p));
        let others = [
            typed(&ratio.confirm),
            typed(&ratio.number).filter(|_| ratio.by != RatioBy::Number),
            moved().filter(|_| ratio.by != RatioBy::Moved).map(|c| c.ratio_at_reference()),
            other_rows().filter(|_| ratio.by != RatioBy::Rows).map(|c| c.ratio_at_reference()),
        ];
        by_rows || others.into_iter().flatten().any(agrees) || moves == Moves::Spring && route_agrees(answer, axle)
    }

    /// The routes to the wheel rate that no one would believe together; height routes and a recorded bounce are a check.
    pub(super) fn are_apart(&self, axle: &AxleAnswer, answer: &Answer) -> bool {
        let checked = answer.checked(axle.side);
        let is_check = |kind: RouteKind| matches!(kind, RouteKind::Swap | RouteKind::Ballast | RouteKind::Recorded);
        let list: Vec<_> = checked.routes.list.iter().filter(|r| !is_check(r.kind)).collect();
        let apart = |i: usize, j: usize| {
            let (a, b) = (list[i], list[j]);
            let of = |kind: RouteKind| move |x: &AxleAnswer| x.route_rates[kind as usize].map(Quantity::si);
            let difference = |x: &AxleAnswer| Some(of(a.kind)(x)? - of(b.kind)(x)?);
            // What both rest on parts them less than their own ± say.
            let own = a.wheel_rate.u.hypot(b.wheel_rate.u);
            let u = checked.nudged.u_of(difference).unwrap_or(own).max(0.0);
            let off = (a.wheel_rate.value - b.wheel_rate.value).abs();
            off > APART.0 * a.wheel_rate.value.min(b.wheel_rate.value) && off > APART.1 * u
        };
        (0..list.len()).any(|i| (0..i).any(|j| apart(i, j)))
    }

    /// What the routes of an axle rest on first.
    pub(super) fn routes_rest_on(&self, axle: &AxleAnswer, answer: &Answer) -> Vec<String> {
        let mut fields = self.ratio_fields(axle.side, Moves::Spring);
        for route in &answer.checked(axle.side).routes.list {
            let path = self.field_of(axle, route.kind);
            if !fields.contains(&path) {
                fields.push(path);
            }
        }
        fields
    }

    /// All rules about one axle that are not a harder form of another finding.
    pub(super) fn worthless(&mut self, axle: &AxleAnswer, answer: &Answer) {
        self.new_spring(axle);
        self.rate_uncertain(axle, answer);
        self.damping_impossible(axle);
    }

    /// What the new springs do at ride height cannot be, or is not what springs are for.
    fn new_spring(&mut self, axle: &AxleAnswer) {
        let (Some(new), Plan::NewSprings) = (&axle.standing.new, axle.plan) else { return };
        let (key, who) = (axle.side.key(), axle.side.word());
        let f = new.frequency.si();
        if !new.on_stop && !POSSIBLE_HZ.contains(&f) {
            let text = message!(
                "{who}: on the new springs the body would bounce {found} times a second; {low} to {high} is possible. Check the target frequency, the weights, the motion ratio and their units.",
                who,
                found = Amount::places(f, 2),
                low = Amount::places(*POSSIBLE_HZ.start(), 1),
                high = Amount::places(*POSSIBLE_HZ.end(), 1)
            );
            let fields =
                ["target.low", "target.high", "unsprung", "taken.rate", "ratio.wheel_moved", "ratio.part_moved"];
            self.withhold("frequency-impossible", format!("{key}.target.high"), text, Self::of_axle(axle, &fields));
        }
        let solid = new.curve.spring.solid_length_m().map(Length::from_si);
        if let (Some(length), Some(solid)) = (new.spring_length, solid)
            && length <= solid
        {
            let text = message!(
                "{who}: at ride height the new spring would be {length} long, but its solid length is {solid}: it cannot work as a spring. Check both lengths.",
                who,
                length = self.length(length),
                solid = self.length(solid)
            );
            let fields = ["spring.fitted_length", "spring.solid_length", "stock.solid_length", "taken.solid_length"];
            self.withhold("bound", format!("{key}.stock.solid_length"), text, Self::of_axle(axle, &fields));
        }
    }

    /// The rate needed is not known well enough to order anything.
    fn rate_uncertain(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let checked = answer.checked(axle.side);
        let Some(sizing) = axle.sizing.as_ref().filter(|_| !axle.keeps() && !checked.nudged.is_empty()) else { return };
        let aim = sizing.spring_rate.aim.si();
        let rate = |a: &AxleAnswer| Some(a.sizing.as_ref()?.spring_rate.aim.si());
        let u = checked.nudged.u_of(rate);
        if u.is_some_and(|u| u <= WORTHLESS * aim.abs()) {
            return;
        }
        let lost = |n: &&Moved<AxleAnswer>| rate(&n.up).is_none() || rate(&n.down).is_none();
        let mut fields: Vec<String> = checked.nudged.iter().filter(lost).map(|n| n.path.clone()).collect();
        if fields.is_empty() {
            fields = checked.nudged.shares(rate).into_iter().take(3).map(|(path, _)| path.to_owned()).collect();
        }
        let Some(field) = fields.first().cloned() else { return };
        let label = crate::job::fields::full_label(&field);
        let needed = Amount::rounded(SpringRate::from_si(aim), self.units);
        let text = match u {
            Some(u) => message!(
                "{who}: the rate needed is {needed} ± {u}; for an order, the ± must be below a third of the rate. Most of the ± comes from {label}: measure that again.",
                who = axle.side.word(),
                needed,
                u = Amount::rounded(SpringRate::from_si(u), self.units),
                label
            ),
            None => message!(
                "{who}: the ± of the rate needed, {needed}, cannot be calculated: with {label} shifted by its own ±, there is no answer. Check the ± of this field.",
                who = axle.side.word(),
                needed,
                label
            ),
        };
        self.withhold("rate-uncertain", field, text, fields);
    }

    /// A damping ratio of the old damper that no damper has.
    fn damping_impossible(&mut self, axle: &AxleAnswer) {
        let Some(old) = axle.old_damper.as_ref().filter(|old| !old.is_assumed) else { return };
        let states = [&axle.standing.before, &axle.standing.old, &axle.standing.new];
        let off_stop = states.into_iter().flatten().filter(|s| !s.on_stop);
        let worst = off_stop.filter_map(|s| s.old_damper_ratio).map(Quantity::si).fold(0.0, f64::max);
        if worst <= MOST_DAMPING {
            return;
        }
        let field = super::fitted::old_field(axle.side, old.by);
        let text = message!(
            "{who}: the old damper would give a damping ratio of {worst:.1}; at most {most:.0} is possible. Check the unit of its rates or forces, and the damper's motion ratio.",
            who = axle.side.word(),
            worst,
            most = MOST_DAMPING
        );
        let mut rests_on = Self::of_axle(axle, &["damper.bump_rate", "damper.rebound_rate", "damper.ratio_before"]);
        rests_on.extend(self.ratio_fields(axle.side, Moves::Damper));
        self.withhold("damping-impossible", field, text, rests_on);
    }

    /// What an engineer has overruled becomes a check; a lapse is reported.
    pub(super) fn overruled(&mut self) {
        let job = self.texts();
        if job.overrules.is_empty() {
            return;
        }
        let mut overruled = std::mem::take(&mut self.found);
        for found in overruled.iter_mut().filter(|f| f.level == Level::Withheld && !f.rests_on.is_empty()) {
            let values = overrule::values(job, &found.rests_on);
            if let Some(by) = job.overrules.iter().find(|o| o.covers(found.rule, &values)) {
                found.level = Level::Doubt;
                let note = message!("Overruled by {initials}.", initials = by.initials.trim());
                found.text = found.text.clone().and(note);
            } else if let Some(by) = job.overrules.iter().find(|o| o.has_lapsed(found.rule, &values)) {
                let initials = by.initials.trim();
                let note =
                    message!("The overruling by {initials} has lapsed because a value has changed since.", initials);
                found.text = found.text.clone().and(note);
            }
        }
        self.found = overruled;
    }
}

/// A route that does not use the motion ratio, and one that does, give the same wheel rate.
fn route_agrees(answer: &Answer, axle: &AxleAnswer) -> bool {
    let list = &answer.checked(axle.side).routes.list;
    use RouteKind::{Ballast, Bounce, Recorded, Swap};
    let without = |kind: RouteKind| matches!(kind, Swap | Ballast | Bounce | Recorded);
    let rates = |wanted: bool| {
        let mine = list.iter().filter(move |r| if wanted { r.kind.uses_ratio() } else { without(r.kind) });
        mine.map(|r| r.wheel_rate.value)
    };
    rates(true).any(|a| rates(false).any(|b| (a / b - 1.0).abs() <= APART.0))
}
