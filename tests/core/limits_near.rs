//! Coil bind, damper ends and stress know no leniency: over the limit counts, and a limit within the ± is said with its
//! numbers. And a suspension that is not said is asked for where it hides something. All vehicles are invented; each limit
//! is set from the result itself (DERIVED).
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use crate::common::kept::of_folder;

use springwright::base::units::{Entry, Quantity};
use springwright::job::{Finding, Job, Level, Side, Suspension};
use springwright::report::results::Results;
use springwright::solve::answer::{Answer, AxleAnswer};
use springwright::solve::solve;
use springwright::trade::spring::WindingLimit;

fn job(name: &str) -> Job {
    of_folder(name).job.clone()
}

fn found<'a>(answer: &'a Answer, rule: &str) -> Option<&'a Finding> {
    answer.findings.iter().find(|f| f.rule == rule && f.field.starts_with("front"))
}

/// A result of the front axle with its ±.
fn with_u(answer: &Answer, result: impl Fn(&AxleAnswer) -> Option<f64> + Copy) -> (f64, f64) {
    let value = result(answer.axle(Side::Front)).expect("it is known");
    (value, answer.checked(Side::Front).nudged.u_of(result).filter(|u| *u > 0.0).expect("it has a ±"))
}

/// The room that is left, and which limit of the job asks for how much.
type Room = (&'static str, &'static str, fn(&AxleAnswer) -> Option<f64>, fn(&mut Job, f64));

const ROOMS: [Room; 3] = [
    (
        "doubtful/bind",
        "bind",
        |a| Some(a.room.to_bind?.si()),
        |j, m| j.limits.bind_room = Entry::from(format!("{:.6} mm", m * 1e3).as_str()),
    ),
    (
        "doubtful/damper-little-left",
        "damper-closed",
        |a| Some(a.room.damper_bump?.si()),
        |j, m| j.limits.damper_room = Entry::from(format!("{:.6} mm", m * 1e3).as_str()),
    ),
    (
        "doubtful/damper-little-left",
        "damper-open",
        |a| Some(a.room.damper_droop?.si()),
        |j, m| j.limits.damper_room = Entry::from(format!("{:.6} mm", m * 1e3).as_str()),
    ),
];

/// Asked for by half a ± less than is left: amber, with the ±. By twice the ± less: nothing. By more than is left: as over.
#[test]
fn room_that_may_be_short_is_said() {
    for (name, rule, room, set) in ROOMS {
        let mut job = job(name);
        // Enough room, so that limits above and below it can be asked for.
        job.front.stock.solid_length = Entry::from("120 mm");
        (job.front.damper.closed_length, job.front.damper.open_length) = (Entry::from("250 mm"), Entry::from("450 mm"));
        let (left, u) = with_u(&solve(&job), room);
        assert!(left > 3.0 * u, "{name}: {left} ± {u}");
        let mut said = |least: f64| {
            set(&mut job, least);
            found(&solve(&job), rule).map(|f| (f.level, f.text.clone()))
        };
        let (level, text) = said(left - 0.5 * u).unwrap_or_else(|| panic!("{rule} is amber"));
        assert!(
            level == Level::Doubt && text.to_string().contains(" ± ") && text.to_string().contains("within the ±"),
            "{text}"
        );
        assert_eq!(said(left - 2.0 * u), None, "{rule}");
        let (_, text) = said(left + 0.5 * u).expect("over the limit counts");
        assert!(
            text.to_string().contains(" ± ")
                && text.to_string().contains("the minimum")
                && !text.to_string().contains("within"),
            "{text}"
        );
        let (_, text) = said(left + 2.0 * u).expect("over the limit counts");
        assert!(!text.to_string().contains(" ± "), "{text}");
    }
}

/// Past the end counts whatever the ±: it binds by less than its ±, is withheld, and says both.
#[test]
fn bind_by_less_than_its_uncertainty_counts() {
    let kept = of_folder("withheld/bound-before-bump");
    let (left, _) = with_u(kept.answer(), |a| Some(a.room.to_bind?.si()));
    let solid_mm = 190.0 + left * 1e3 + 1.0;
    let mut job = kept.job.clone();
    job.front.stock.solid_length = Entry::from(format!("{solid_mm:.3} mm").as_str());
    let answer = solve(&job);
    let bind = found(&answer, "bind").expect("it binds");
    assert!(bind.level == Level::Withheld && bind.text.to_string().contains("coil bind comes 1 ± "), "{}", bind.text);
}

/// A stress allowed by half a ± more than there is: amber. By three ± more: nothing. By less: over.
#[test]
fn stress_that_may_be_over_is_said() {
    let coil = |a: &AxleAnswer| Some(a.offered.as_ref()?.stress_bump?.si());
    let margin = |a: &AxleAnswer| Some(a.offered.as_ref()?.allowed?.si() - coil(a)?);
    let mut offered = job("doubtful/coil-on-offer");
    offered.front.stock.coil.allowed_share = Entry::from("50 %");
    let half = solve(&offered);
    let of_share = half.axle(Side::Front).offered.as_ref().and_then(|c| c.allowed).expect("known").si() / 0.5;
    let (stress, _) = with_u(&half, coil);
    let mut with_share = |share: f64| {
        offered.front.stock.coil.allowed_share = Entry::from(format!("{share:.6}").as_str());
        solve(&offered)
    };
    let mut said = |more_u: f64| {
        let mut answer = with_share(stress / of_share);
        // The ± of what is allowed goes with it.
        for _ in 0..3 {
            answer = with_share((stress + more_u * with_u(&answer, margin).1) / of_share);
        }
        found(&answer, "stress").map(|f| (f.level, f.text.clone()))
    };
    let (level, text) = said(0.5).expect("amber");
    assert!(
        level == Level::Doubt
            && text.to_string().contains(" ± ")
            && text.to_string().contains("at full bump")
            && text.to_string().contains("within the ±"),
        "{text}"
    );
    assert_eq!(said(3.0).filter(|(level, _)| *level > Level::Note), None);
    let (level, text) = said(-0.5).expect("over");
    assert!(
        level == Level::Doubt
            && text.to_string().contains(" ± ")
            && text.to_string().contains("is above the allowable"),
        "{text}"
    );
}

/// The same of a torsion bar: over its stress it is withheld, near it is amber.
#[test]
fn a_bar_that_may_be_over_its_stress_is_said() {
    let stress = |a: &AxleAnswer| Some(a.old_spring.bar.as_ref()?.stress_bump?.si());
    let margin = |a: &AxleAnswer| Some(a.old_spring.bar.as_ref()?.allowed?.si() - stress(a)?);
    let mut job = job("withheld/bar-over-stressed");
    let mut said = |more_u: f64| {
        let mut answer = solve(&job);
        for _ in 0..4 {
            let (at, u) = (with_u(&answer, stress).0, with_u(&answer, margin).1);
            job.front.spring.bar.allowed_stress = Entry::from(format!("{:.4} MPa", (at + more_u * u) / 1e6).as_str());
            answer = solve(&job);
        }
        found(&answer, "bar-stress").map(|f| (f.level, f.text.clone()))
    };
    let (level, text) = said(0.5).expect("amber");
    assert!(
        level == Level::Doubt && text.to_string().contains(" ± ") && text.to_string().contains("within the ±"),
        "{text}"
    );
    assert_eq!(said(3.0), None);
    assert_eq!(said(-0.5).expect("over").0, Level::Withheld);
}

/// A frequency outside its range by more than two arms could change it, and by less than a strut could: not said to be
/// outside, but the suspension is asked for, once, with what hangs on it. Said, it is one or the other.
#[test]
fn a_suspension_that_is_not_said_is_asked_for() {
    let mut job = job("withheld/bound-before-bump");
    job.front.stock.solid_length = Entry::default();
    job.front.suspension = Suspension::Strut;
    let hz = |a: &AxleAnswer| Some(a.standing.before.as_ref()?.frequency.si());
    let (wide, narrow) = {
        let mut arms = job.clone();
        arms.front.suspension = Suspension::TwoArms;
        (with_u(&solve(&job), hz), with_u(&solve(&arms), hz))
    };
    assert!(wide.1 > 1.05 * narrow.1, "{wide:?} {narrow:?}");
    // The limit between both ±.
    let limit = narrow.0 - 0.5 * (wide.1 + narrow.1);
    job.limits.frequency_high = Entry::from(format!("{limit:.5} Hz").as_str());
    let mut asked = |suspension: Suspension| {
        job.front.suspension = suspension;
        let answer = solve(&job);
        let question = found(&answer, "suspension-unknown").map(|f| f.text.clone());
        (found(&answer, "frequency").is_some_and(|f| f.text.to_string().contains("not credible")), question)
    };
    let (outside, question) = asked(Suspension::NotSaid);
    let question = question.expect("it is asked for");
    assert!(
        !outside
            && question.to_string().contains("choose the suspension")
            && question.to_string().contains("not credible"),
        "{question}"
    );
    assert_eq!(asked(Suspension::TwoArms), (true, None));
    assert_eq!(asked(Suspension::Strut), (false, None));
}

/// What share of its strength a new spring may see where none is typed, with the Wahl factor: 50 % of this steel, 65 % when
/// preset; a wire on offer is taken as preset. R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design,
/// table 10-6, from memory.
#[test]
fn a_spring_to_be_wound_may_see_more_only_when_it_is_preset() {
    let mut job = job("withheld/wound-over-stress");
    job.front.stock.coil.outside_diameter = Entry::from("120 mm");
    job.front.stock.coil.tensile_strength = Entry::from("2000 MPa");
    let of = |job: &Job, key: &str| Results::of(&solve(job)).find(key).and_then(|found| found.si).expect(key);
    let near = |found: f64, share: f64| (found - share * 2000e6).abs() < 1.0;
    assert!(near(of(&job, "front.wound.allowed"), 0.50));
    job.front.stock.preset = true;
    assert!(near(of(&job, "front.wound.allowed"), 0.65));
    job.front.stock.preset = false;
    job.front.stock.coil.diameter = Entry::from("14 mm");
    job.front.stock.coil.total_coils = Entry::from("8");
    assert!(near(of(&job, "front.offered.allowed"), 0.65));
}

/// A spring to be wound: stress allowed by half a ± more than there is is amber, with both; by three ± more, silence; by
/// less, withheld or another wire. And the same of the room it takes.
#[test]
fn a_spring_to_be_wound_near_its_limits_is_said() {
    let mut job = job("withheld/wound-over-stress");
    job.front.stock.coil.allowed_share = Entry::from("80 %");
    job.front.stock.solid_share = Entry::from("90 %");
    job.front.stock.preset = true;
    job.front.stock.coil.outside_diameter = Entry::from("75 mm");
    // What winds it, and by how much its room to a limit is known.
    let wound = |job: &Job, limit: WindingLimit| {
        let answer = solve(job);
        let part = answer.released(Side::Front).expect("nothing doubts it");
        let u = part.u_of(|p| p.wound.as_ref()?.left_to(limit)).filter(|u| *u > 0.0).expect("it has a ±");
        (part.parts().wound.expect("a wire winds it"), u)
    };
    let (first, _) = wound(&job, WindingLimit::Bump);
    // One size on the shelf: the wire stays what it is.
    job.front.stock.wire_step = Entry::from(format!("{:.6} mm", first.wire.diameter_m * 1e3).as_str());
    let (first, u) = wound(&job, WindingLimit::Bump);
    let strength_pa = first.allowed.si() / 0.8;
    let mut said = |more_u: f64| {
        let share = (first.stress.si() + more_u * u) / strength_pa;
        job.front.stock.coil.allowed_share = Entry::from(format!("{share:.7}").as_str());
        let answer = solve(&job);
        let text = |rule| found(&answer, rule).map(|f| (f.level, f.text.clone()));
        (text("wound-near"), text("wound-limit"))
    };
    let (near, over) = said(0.5);
    let (level, text) = near.expect("amber");
    assert!(
        level == Level::Doubt && text.to_string().contains(" ± ") && text.to_string().contains("within the ±"),
        "{text}"
    );
    assert_eq!(over, None);
    assert_eq!(said(3.0), (None, None));
    let (near, over) = said(-0.5);
    assert!(near.is_none() && over.expect("over").0 == Level::Withheld);
    job.front.stock.coil.allowed_share = Entry::from("80 %");
    let (now, u) = wound(&job, WindingLimit::Room);
    let all_m = now.clearance.si() + now.spare.expect("the room is known").si();
    let mut said = |least_m: f64| {
        job.limits.bind_room = Entry::from(format!("{:.6} mm", least_m * 1e3).as_str());
        found(&solve(&job), "wound-near").map(|f| f.text.clone())
    };
    let text = said(all_m - 0.5 * u).expect("amber");
    assert!(text.to_string().contains(" ± ") && text.to_string().contains("beyond solid length"), "{text}");
    assert_eq!(said(all_m - 3.0 * u), None);
}
