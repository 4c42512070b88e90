//! What only shows in the results: the questions a good engineer would ask.

mod bench_doubts;
mod bounce_doubts;
pub mod edge;
mod fitted;
mod linkages;
mod load_doubts;
mod shop;
mod suspension;
mod typed;
mod vehicle_doubts;
mod withheld;

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Length, Quantity, UnitChoice};
use crate::job::{Finding, Job, LeafBy, Level, PerAxle, RateBy, Side, SpringKind, read};
use crate::solve::answer::{self, Answer, State, Weighed};
use crate::solve::read::Reading;

/// Adds all of them.
pub(super) fn add(reading: &Reading<'_>, answer: &mut Answer) {
    let found = all(reading, answer);
    answer.findings.extend(found);
    keep_no_part_of_what_is_withheld(answer);
}

/// Findings that name a part go with it while its axle is withheld.
fn keep_no_part_of_what_is_withheld(answer: &mut Answer) {
    const NAME_A_PART: [&str; 3] = ["no-stock-inside", "taken-outside", "offer-outside"];
    let withheld = PerAxle::each(|side| answer.released(side).is_err());
    let of_withheld = |field: &str| {
        let side = Side::BOTH.into_iter().find(|s| field.split('.').next() == Some(s.key()));
        side.is_some_and(|side| withheld[side])
    };
    answer.findings.retain(|f| !(NAME_A_PART.contains(&f.rule) && of_withheld(&f.field)));
}

fn all(reading: &Reading<'_>, answer: &Answer) -> Vec<Finding> {
    let mut found = rules(reading, answer, false);
    if suspension::is_open(reading.texts) {
        let asked = suspension::asked(reading.texts, &found, rules(reading, answer, true));
        found.extend(asked);
    }
    found
}

fn rules(reading: &Reading<'_>, answer: &Answer, as_two_arms: bool) -> Vec<Finding> {
    let mut say = Say { reading, answer, units: &reading.texts.units, as_two_arms, found: Vec::new() };
    say.weights(answer);
    say.swapped_readings();
    say.ledger(answer);
    say.ratings(answer);
    for side in Side::BOTH {
        let axle = answer.axle(side);
        say.unsprung(axle, answer);
        say.motion_ratio(axle, answer);
        say.rows(axle, answer);
        say.linkage(axle, answer);
        say.half_rows(axle);
        say.damper_columns(side);
        say.spring_sizes(axle);
        say.routes(axle, answer);
        say.frequencies(axle);
        say.heights(axle);
        say.stops(axle);
        say.room(axle);
        say.coils(axle, answer);
        say.cut_coils(axle);
        say.other_springs(axle);
        say.own_sides(axle);
        say.wound(axle);
        say.targets(axle);
        say.no_length(axle);
        say.dampers(axle);
        say.bench(axle);
        say.bounces(axle);
        say.coaxial(axle);
        say.worthless(axle, answer);
    }
    say.lifted(answer);
    say.cases_on_stops(answer);
    say.rear_against_front(answer);
    say.whole(answer);
    say.reweighed(answer);
    say.language_of_sheets();
    say.list_outside();
    say.overruled();
    say.found
}

struct Say<'a> {
    reading: &'a Reading<'a>,
    answer: &'a Answer,
    units: &'a UnitChoice,
    /// An unstated suspension counts as two arms.
    as_two_arms: bool,
    found: Vec<Finding>,
}

impl<'a> Say<'a> {
    fn job(&self) -> &'a read::Job {
        &self.reading.job
    }

    /// The job as typed.
    fn texts(&self) -> &'a Job {
        self.reading.texts
    }

    fn push(&mut self, level: Level, rule: &'static str, field: impl Into<String>, text: impl Into<Message>) {
        self.found.push(Finding::new(level, rule, field, text));
    }

    fn limit<Q: Quantity>(&self, pick: impl Fn(&read::Job) -> &read::Read<Q>) -> Option<Q> {
        self.reading.known(pick(self.job()))
    }

    /// The field that the rate of an axle's spring comes from first.
    fn rate_field(&self, axle: &answer::AxleAnswer) -> &'static str {
        let spring = &self.job().axle(axle.side).spring;
        match (spring.kind, spring.rate_by, spring.leaf.by) {
            (SpringKind::Progressive, ..) => "spring.points[0].length",
            (SpringKind::TorsionBar, ..) => "spring.bar.diameter",
            (SpringKind::Leaf, _, LeafBy::Test) => "spring.leaf.rows[0].load",
            (SpringKind::Leaf, _, LeafBy::Sizes) => "spring.leaf.thickness",
            (SpringKind::Leaf, _, LeafBy::Stated) | (_, RateBy::Stated, _) => "spring.rate",
            (_, RateBy::Press, _) => "spring.press.first_load",
            (_, RateBy::Wire | RateBy::Together, _) => "spring.wire.diameter",
        }
    }

    fn length(&self, length: Length) -> Amount {
        Amount::rounded(length, self.units)
    }
}

/// Both weigh-ins, each with its key.
fn weighings(answer: &Answer) -> [(State, &'static str, &Weighed); 2] {
    [(State::Before, "before", &answer.before), (State::OldSprings, "after", &answer.after)]
}

/// "weighed before the change", "weighed after the change".
fn weighed_when(is_before: bool) -> Word {
    if is_before { Word("weighed before the change") } else { Word("weighed after the change") }
}

/// The same where a sentence begins.
fn weighed_first(is_before: bool) -> Word {
    if is_before { Word("Weighed before the change") } else { Word("Weighed after the change") }
}
