//! An invented vehicle with parts, loads and load cases, and the numbers in which two answers are compared.

use std::f64::consts::TAU;

use crate::common::properties::same;
use proptest::prelude::*;
use springwright::base::units::{Entry, Length, Mass, Quantity};
use springwright::job::{Job, Load, LoadCase, Part, PartOn, Side, Way, Weighing, file};
use springwright::solve::answer::{Answer, AxleAnswer, Standing, State};

pub const G: f64 = 9.806_65;
pub const WHEELBASE_M: f64 = 2.5;
/// Motion ratios, and wheel rates of the old springs, rate × ratio²: 50 N/mm × 0.6², 22 N/mm × 1².
pub const RATIO: [f64; 2] = [0.6, 1.0];
pub const OLD_N_PER_M: [f64; 2] = [18e3, 22e3];

/// 600 and 500 kg before, 690 and 540 kg after, front and rear; new springs in front. Nothing that counts is left to a
/// default which goes by the units shown.
pub fn plain() -> Job {
    let text = r#"(version: 1, job: (
        vehicle: (name: "Quarrel pick-up", wheelbase: "2500 mm", hitch: "1 m"),
        certainty: (scales: "1 kg", tape: "1 mm"),
        before: (lf: "305 kg", rf: "295 kg", lr: "255 kg", rr: "245 kg"),
        after: (lf: "350 kg", rf: "340 kg", lr: "275 kg", rr: "265 kg"),
        front: (unsprung: "40 kg", ratio: (wheel_moved: "100 mm", part_moved: "60 mm"), tyre_rate: "200 N/mm",
            spring: (rate: "50 N/mm", fitted_length: "250 mm"), target: (low: "1.2 Hz", high: "1.4 Hz"),
            travel: (stop_gap: "70 mm", metal: "95 mm", droop: "80 mm"), stock: (step: "1 N/mm", settle: "2 mm")),
        rear: (plan: Keep, unsprung: "45 kg", ratio: (wheel_moved: "100 mm", part_moved: "100 mm"),
            tyre_rate: "200 N/mm", spring: (rate: "22 N/mm", fitted_length: "260 mm"),
            target: (low: "1.2 Hz", high: "1.5 Hz"), stock: (step: "1 N/mm", settle: "2 mm"),
            travel: (stop_gap: "90 mm", metal: "110 mm", droop: "90 mm"))))"#;
    file::parse(text).expect("the plain job")
}

/// A ledger, what was aboard, cases and what was predicted, in words of their own.
pub fn laden() -> Job {
    let mut job = plain();
    let winch = Part { what: "winch".into(), on: PartOn::FrontAxle, ..part(Way::In, 48.5, 0.0) };
    let unread = Part { what: "half typed".into(), mass: "ab".into(), ..Part::default() };
    job.parts = vec![part(Way::Out, 110.0, -0.1), winch, unread];
    job.before.loads = vec![Load { what: "driver \"Bo\"".into(), y: m(-0.35), ..load(76.0, 1.2) }];
    let trailer = case("trailer, Sunday", true, vec![load(55.0, 1.7), Load::default()]);
    job.cases = vec![LoadCase::default(), LoadCase { tongue: "150 lb".into(), ..trailer }];
    let kept = r#"(version: 1, job: (predicted: (rear: "531 kg", date: "2026-03-01",
        front: (text: "671 kg", origin: Ledger, pm: "4 kg", spread: Standard))))"#;
    job.predicted = file::parse(kept).expect("what was predicted").predicted;
    (job.front.rating, job.front.load_index) = ("760 kg".into(), "84".into());
    job
}

pub fn kg(value: f64) -> Entry<Mass> {
    format!("{value} kg").as_str().into()
}

pub fn m(value: f64) -> Entry<Length> {
    format!("{value} m").as_str().into()
}

pub fn part(way: Way, mass_kg: f64, x_m: f64) -> Part {
    Part { way, mass: kg(mass_kg), x: m(x_m), ..Part::default() }
}

pub fn load(mass_kg: f64, x_m: f64) -> Load {
    Load { mass: kg(mass_kg), x: m(x_m), ..Load::default() }
}

pub fn case(name: &str, sized: bool, loads: Vec<Load>) -> LoadCase {
    LoadCase { name: name.into(), sized, loads, ..LoadCase::default() }
}

/// Weighed by the axle.
pub fn weighed([front, rear]: [f64; 2]) -> Weighing {
    Weighing { front: kg(front), rear: kg(rear), ..Weighing::default() }
}

pub fn standing(axle: &AxleAnswer, state: State) -> &Standing {
    axle.standing.of(state).as_ref().expect("it stands")
}

/// Front and rear axle before and after, as compared, kg.
pub fn compared_kg(answer: &Answer) -> [[f64; 2]; 2] {
    answer.compared.weighed.both().map(|w| [w.front, w.rear].map(|axle| axle.expect("an axle weight").si()))
}

/// √(k/m)/2π.
pub fn hz(rate_n_per_m: f64, mass_kg: f64) -> f64 {
    (rate_n_per_m / mass_kg).sqrt() / TAU
}

/// Texts of the findings of one rule.
pub fn said(answer: &Answer, rule: &str) -> Vec<String> {
    answer.findings.iter().filter(|f| f.rule == rule).map(|f| f.text.to_string()).collect()
}

/// Numbers of an axle that do not depend on how high it stood when lengths were measured.
fn free_of_height(axle: &AxleAnswer) -> Vec<Option<f64>> {
    let mut found: Vec<_> = [axle.masses.sprung.before, axle.masses.sprung.after].map(|s| s.map(Quantity::si)).into();
    for stand in State::ALL.map(|s| standing(axle, s)) {
        found.extend([stand.frequency.si(), stand.wheel_rate.si()].map(Some));
        found.extend([stand.height_change, stand.height_change_at_ground].map(|h| h.map(|h| 1.0 + h.si())));
    }
    let sizing = axle.sizing.as_ref().expect("sized");
    found.extend([sizing.spring_rate.low, sizing.spring_rate.high].map(|rate| Some(rate.si())));
    found.push(Some(sizing.spring_force.si()));
    found
}

/// Lengths, gaps and reserves: what follows from lengths and the height at which they were measured.
fn by_height(axle: &AxleAnswer) -> Vec<Option<f64>> {
    let mut found = Vec::new();
    for stand in State::ALL.map(|s| standing(axle, s)) {
        found.extend([stand.spring_length, stand.stop_room].map(|l| l.map(|l| 1.0 + l.si())));
        found.push(stand.reserve.map(|r| 1.0 + r.si()));
    }
    found.extend([axle.room.seat, axle.room.spring_at_metal].map(|l| l.map(|l| 1.0 + l.si())));
    found.push(axle.old_free_length.map(|l| l.si()));
    found
}

/// What is bought: the rate, 1 m + the spacer, and the length to order; nothing while it is withheld.
fn bought(answer: &Answer, side: Side, lengths_too: bool) -> Vec<Option<f64>> {
    let Ok(part) = answer.released(side) else { return Vec::new() };
    let mut found = vec![part.spring.map(|s| s.pick.si()), part.spacer.map(|s| 1.0 + s.thickness.si())];
    found.extend(lengths_too.then(|| part.spring.and_then(|s| s.order_length).map(|l| l.si())));
    found
}

/// Free length of the old spring and, while it is released, of the one to order.
pub fn free_lengths(answer: &Answer, side: Side) -> Vec<f64> {
    let order = answer.released(side).ok().and_then(|p| p.spring?.order_length);
    answer.axle(side).old_free_length.into_iter().chain(order).map(|l| l.si()).collect()
}

/// Two answers to one axle are the same within 1e-9; heights as 1 m + height.
pub fn same_axle(what: &str, a: &Answer, b: &Answer, side: Side, lengths_too: bool) -> Result<(), TestCaseError> {
    prop_assert_eq!(a.released(side).is_ok(), b.released(side).is_ok(), "{} released", what);
    let numbers = |answer: &Answer| {
        let axle = answer.axle(side);
        let lengths = if lengths_too { by_height(axle) } else { vec![] };
        [free_of_height(axle), lengths, bought(answer, side, lengths_too)].concat()
    };
    for (i, (a, b)) in numbers(a).into_iter().zip(numbers(b)).enumerate() {
        prop_assert!(a.is_some() && b.is_some(), "{what}, number {i}: {a:?} and {b:?}");
        same!(format!("{what}, number {i}"), a.unwrap_or_default(), b.unwrap_or_default(), 1e-9);
    }
    Ok(())
}
