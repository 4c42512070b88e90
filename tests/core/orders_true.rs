//! An order says what it assumes, why something is not known, and what a text announces.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use springwright::job::{DamperPlan, Job};
use springwright::report::Block;
use springwright::report::Report;
use springwright::report::sheets::Kind;
use springwright::solve::solve;

use crate::common::kept;
use crate::common::sheets::{english, plain, preset, sheet, tables};

fn order(job: &Job) -> Report {
    sheet(Kind::Order, job, &solve(job))
}

/// The forces that a first answer asks of the front dampers at 0.05 m/s in bump.
fn least_force(order: &Report) -> String {
    let (_, rows) = tables(order).into_iter().find(|t| t.0[0] == english("order.speed")).expect("forces");
    rows[0][2].clone()
}

/// A rate at the damper is that at the wheel over the square of the ratio: 134 N with 0.60 are 76 N with 0.80.
#[test]
fn forces_that_rest_on_an_assumed_ratio_say_so() {
    let (mut job, _) = preset("first-answer");
    job.front.dampers = DamperPlan::New;
    let assumed = "The damper motion ratio was not measured: 0.60, as for the spring, is assumed.";
    let report = order(&job);
    let text = plain(&report);
    assert!(text.contains(&format!("any value in the range will do. {assumed}")), "{text}");
    assert!(text.contains("enter it in the job (Front, damper motion ratio)"), "{text}");
    assert!(text.contains("Front, unsprung mass, one corner: 40 kg"), "{text}");
    assert_eq!(least_force(&report), "134 to 188 N");
    job.front.damper_ratio.by = springwright::job::RatioBy::Number;
    job.front.damper_ratio.number = "0.80".into();
    job.front.unsprung = "40 kg".into();
    let report = order(&job);
    let text = plain(&report);
    assert!(!text.contains(assumed) && !text.contains("Front, unsprung mass"), "{text}");
    assert_eq!(least_force(&report), "76 to 106 N");
    for shipped in kept::shipped().iter().filter(|shipped| shipped.name != "first-answer") {
        let text = plain(shipped.sheet(Kind::Order));
        assert!(!text.contains("motion ratio was not measured"), "{}", shipped.name);
    }
}

/// Rates at the damper reach the wheel through its ratio; a damping ratio does not.
#[test]
fn dampers_that_stay_by_an_assumed_ratio_say_so() {
    let (mut job, _) = preset("first-answer");
    job.front.damper.bump_rate = "3200 N·s/m".into();
    job.front.damper.rebound_rate = "6400 N·s/m".into();
    let text = plain(&order(&job));
    assert!(text.contains("The front dampers stay."), "{text}");
    assert!(text.contains("That the front dampers stay depends on the damper motion ratio"), "{text}");
    job.front.damper = Job::default().front.damper;
    job.front.damper.ratio_before = "0.30".into();
    job.before = job.after.clone();
    let text = plain(&order(&job));
    assert!(text.contains("The front dampers stay.") && !text.contains("That the front dampers stay"), "{text}");
}

#[test]
fn what_is_not_known_of_dampers_has_its_true_reason() {
    let kept = kept::named("first-answer");
    let said = |order: &Report, key: &str| {
        let text = plain(order);
        let reason = format!("front dampers ({})", english(key));
        assert!(text.contains(&reason), "{key}: {text}");
    };
    said(kept.sheet(Kind::Order), "open.not_tested");
    let mut job = kept.job.clone();
    job.front.damper.ratio_before = "0.25".into();
    said(&order(&job), "open.before");
    job.before = job.after.clone();
    job.front.damper.ratio_before = Default::default();
    said(&order(&job), "open.not_tested");
}

/// A blank names every field that it still lacks, and none that is typed.
#[test]
fn a_blank_names_all_that_it_lacks() {
    let (mut job, _) = preset("first-answer");
    job.front.dampers = DamperPlan::New;
    let text = plain(&order(&job));
    let lacks = |blank: &str, fields: &str| format!("{} ({fields})", english(blank));
    let of_solid = "spring length at ride height and bump travel to metal contact";
    assert!(text.contains(&lacks("order.solid", of_solid)), "{text}");
    let of_closed = "damper length at ride height and bump travel to metal contact";
    assert!(text.contains(&lacks("order.closed", of_closed)), "{text}");
    assert!(text.contains(&lacks("order.open", "damper length at ride height and droop travel")), "{text}");
    for axle in [&mut job.front, &mut job.rear] {
        axle.travel.metal = "80 mm".into();
        axle.damper.fitted_length = "400 mm".into();
    }
    let text = plain(&order(&job));
    assert!(text.contains(&lacks("order.solid", "spring length at ride height")), "{text}");
    assert!(!text.contains(&lacks("order.closed", "")[..english("order.closed").len() + 2]), "{text}");
    assert!(text.contains(&lacks("order.open", "droop travel")), "{text}");
    assert!(text.contains("damper length at ride height 400 mm"), "{text}");
}

/// The rate that is ordered is none of the others that work.
#[test]
fn other_rates_are_others() {
    let mut ends = 0;
    for shipped in kept::shipped() {
        for (_, rows) in tables(shipped.sheet(Kind::Order)) {
            let cell = |keys: [&str; 2]| rows.iter().find(|r| keys.iter().any(|k| r[0] == english(k))).map(|r| &r[1]);
            let Some(others) = cell(["order.rate_also", "order.rates_also"]) else { continue };
            let rate = cell(["order.rate"; 2]).and_then(|rate| rate.split_whitespace().next()).expect("a rate");
            let is_named = others.split(|c: char| !(c.is_ascii_digit() || c == '.')).any(|number| number == rate);
            assert!(!is_named, "{}: {rate}: {others}", shipped.name);
            ends += usize::from(!others.contains(" to "));
        }
    }
    assert!(ends >= 3, "{ends} ordered at an end of the range");
}

/// What ends in a colon is followed by what it announces.
#[test]
fn a_colon_has_its_table_or_list() {
    let mut announced = 0;
    for shipped in kept::shipped() {
        for pair in shipped.sheet(Kind::Order).blocks.windows(2) {
            if let Block::Text(text) = &pair[0]
                && text.ends_with(':')
            {
                let follows = matches!(pair[1], Block::Table { .. } | Block::List(_));
                assert!(follows, "{}: {text} is followed by {:?}", shipped.name, pair[1]);
                announced += 1;
            }
        }
    }
    assert!(announced > 20, "{announced}");
}

/// New dampers are planned for bars whose dampers' ratio is not known: what is known is ordered, forces are not made up.
#[test]
fn planned_dampers_without_a_ratio_have_no_forces() {
    let (mut job, _) = preset("torsion-bar-front");
    job.front.dampers = springwright::job::DamperPlan::New;
    job.front.damper_ratio = Job::default().front.damper_ratio;
    job.front.damper.gas_pressure = Default::default();
    let report = order(&job);
    let text = plain(&report);
    assert!(
        text.contains("The forces of new front dampers cannot be given yet: their motion ratio is missing."),
        "{text}"
    );
    assert!(tables(&report).iter().all(|t| t.0[0] != english("order.speed")));
    assert!(tables(&report).iter().any(|t| t.0[0] == "Front dampers"));
    let of_closed = format!("{} (", english("order.closed"));
    let lacks = text.split(&of_closed).nth(1).and_then(|rest| rest.split(')').next()).expect("a blank");
    assert!(lacks.contains("damper motion ratio"), "{lacks}");
}
