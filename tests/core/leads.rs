//! What is cheaper and does the same leads everywhere, and what is open is listed once. Invented vehicle; by hand.

use crate::common::kept;
use crate::common::sheets as on_paper;

use on_paper::{plain, sheet};
use springwright::base::units::Spread;
use springwright::base::units::entry::AnyEntry as _;
use springwright::job::{DamperPlan, Job, Plan, Side, file};
use springwright::report::sections::{brief, sentence};
use springwright::report::sheets::Kind;
use springwright::report::sheets::plan_table::Plans;
use springwright::report::write::json;
use springwright::solve::answer::{Answer, Kept, Lead, RemedyKind};
use springwright::solve::planned::led;
use springwright::solve::solve;

/// 360 kg sprung a corner before, 400 kg after, on ratio 1. The old 22 N/mm carry 40 kg more: 40 · 9.80665 / 22 = 17.8 mm
/// lower, and √(22 000/400)/2π = 1.18 Hz. The only stock rate between 1.16 and 1.20 Hz (21.2 to 22.7 N/mm) is 22 N/mm.
fn job() -> Job {
    let text = r#"(version: 3, job: (before: (front: (text: "800 kg", pm: "1 kg"), rear: "600 kg"), after: (front: (text: "880 kg", pm: "1 kg"), rear: "600 kg"),
        front: (unsprung: (text: "40 kg", pm: "1 kg"), ratio: (by: Number, number: (text: "1", pm: "0.5 %"), confirm: "1"),
            spring: (rate: (text: "22 N/mm", pm: "0.3 N/mm"), fitted_length: "250 mm", solid_length: "120 mm"),
            travel: (stop_gap: "60 mm", metal: "80 mm", droop: "60 mm"),
            damper: (ratio_before: (text: "0.30", pm: "3 %")),
            target: (low: "1.16 Hz", high: "1.20 Hz"), stock: (step: "1 N/mm")),
        rear: (plan: Keep, dampers: Keep),
        prices: (currency: "EUR", spacers: "30", springs: "200", dampers: "300", work: "100", damper_work: "50")))"#;
    file::parse(text).expect("a job")
}

fn first_line(job: &Job, answer: &Answer) -> String {
    sentence::axle(answer, answer.axle(Side::Front), &job.units).answer
}

fn on(kind: Kind, job: &Job, answer: &Answer) -> String {
    plain(&sheet(kind, job, answer))
}

/// The spacer of a lead, m.
fn spacer_m(lead: &Lead) -> f64 {
    let Some(Kept::Spacers(both)) = lead.kept() else { panic!("no spacer: {lead:?}") };
    assert_eq!(both.left, both.right);
    both.left.value
}

#[test]
fn a_spacer_that_does_the_same_leads_everywhere() {
    let job = job();
    let answer = solve(&job);
    let lead = answer.lead(Side::Front).expect("alike");
    assert_eq!((lead.kind, lead.leads()), (RemedyKind::Spacer, true), "{lead:?}");
    // 17.8 mm, in whole millimetres.
    assert!((spacer_m(lead) - 0.018).abs() < 1e-9, "{lead:?}");
    let said = first_line(&job, &answer);
    assert!(
        said.starts_with("Front: the old springs stay, with 18 mm spacers; they do the same as new springs of 22 N/mm"),
        "{said}"
    );
    assert!(said.ends_with("The body bounces 1.18 times a second and sits at the old height."), "{said}");
    let strip = brief::axle(&answer, Side::Front, &job.units);
    assert_eq!(strip.pick, Ok("old springs, 18 mm spacers".to_owned()));
    assert!(strip.frequency.is_some_and(|hz| hz.starts_with("1.18")) && strip.height.is_some());
    for kind in [Kind::Customer, Kind::Order, Kind::Fitting] {
        let text = on(kind, &job, &answer);
        assert!(text.contains("18 mm"), "{kind:?}: {text}");
        assert!(!text.contains("22 N/mm") && !text.contains("New front springs"), "{kind:?}: {text}");
        assert!(!text.contains(" but bounce "), "{kind:?}: {text}");
    }
    // 30 for the spacers, 100 for the work; the dampers, 0.30 · √(360/400) = 0.285, stay.
    let customer = on(Kind::Customer, &job, &answer);
    assert!(customer.contains("130.00 EUR") && customer.contains("the same as new ones would, for less"), "{customer}");
    let json = json::value(&job, &answer);
    assert_eq!(json["lead"]["front"]["remedy"], "spacer");
    assert_eq!(json["lead"]["rear"], serde_json::Value::Null);
    // The plan itself keeps its price: the table compares it with the others.
    let plans = Plans::of(&job, &answer, || true).expect("wanted");
    assert_eq!(plans.chosen().expect("one").price, Some(300.0));
}

#[test]
fn the_sheets_of_what_leads_are_in_german_too() {
    let mut job = job();
    job.shop.language = "de".into();
    let answer = solve(&job);
    let customer = on(Kind::Customer, &job, &answer);
    assert!(customer.contains("So leisten sie dasselbe wie neue und kosten weniger."), "{customer}");
    let order = on(Kind::Order, &job, &answer);
    assert!(order.contains("Mit diesen Teilen leisten sie dasselbe wie neue"), "{order}");
}

/// New springs stay what is sold where somebody wants them anyway, where they do something else, where the raised coils
/// would bind, and where nothing is released.
#[test]
fn what_does_something_else_does_not_lead() {
    let sells = |job: &Job| {
        let answer = solve(job);
        assert!(answer.lead(Side::Front).is_none(), "{:?}", answer.lead(Side::Front));
        let order = on(Kind::Order, job, &answer);
        assert!(led(job, &answer).is_none());
        order
    };
    let mut anyway = job();
    anyway.front.new_anyway = true;
    assert!(sells(&anyway).contains("22 N/mm"));
    // 24 N/mm are 1.233 Hz: 4.4 % more.
    let mut other = job();
    (other.front.target.low, other.front.target.high) = ("1.22 Hz".into(), "1.25 Hz".into());
    assert!(sells(&other).contains("24 N/mm"));
    // At full bump 250 − 80 = 170 mm are left, and the spacer takes 18 of them.
    let mut bound = job();
    bound.front.spring.solid_length = "155 mm".into();
    assert!(sells(&bound).contains("22 N/mm"));
}

/// What cannot be told is measured first: the fields are named, and nothing is sold meanwhile.
#[test]
fn what_may_do_the_same_is_measured_first() {
    // Whether raised coils bind is not known without their solid length.
    let mut blank = job();
    blank.front.spring.solid_length = "".into();
    // 1 ± 0.05 of ratio moves what the old spring does by 5 %, and 22 ± 4 N/mm by 9 %.
    let mut vague = job();
    vague.front.spring.rate.set_pm("4 N/mm", Spread::Limits);
    for (job, field, words) in
        [(blank, "front.spring.solid_length", "solid length"), (vague, "front.spring.rate", "old rate")]
    {
        let answer = solve(&job);
        let lead = answer.lead(Side::Front).expect("may be alike");
        assert!(lead.measure.iter().any(|path| path == field) && !lead.leads(), "{lead:?}");
        let said = first_line(&job, &answer);
        assert!(said.starts_with("Front: measure first: ") && said.contains(words), "{said}");
        let strip = brief::axle(&answer, Side::Front, &job.units).pick.expect_err("nothing is picked");
        assert!(strip.starts_with("Measure first: ") && strip.contains(words), "{strip}");
        for kind in [Kind::Customer, Kind::Order, Kind::Fitting] {
            let text = on(kind, &job, &answer);
            assert_eq!(text.matches("Still open: ").count(), 1, "{kind:?}: {text}");
            assert!(text.contains("front springs (measure first: "), "{kind:?}: {text}");
            assert!(!text.contains("EUR") && !text.contains("22 N/mm"), "{kind:?}: {text}");
        }
    }
}

/// Old springs that do what is wanted as they are stay, and no sheet sells new ones "if they are worn".
#[test]
fn old_springs_that_do_what_is_wanted_stay() {
    let mut job = job();
    // 4 kg more are 0.9 mm lower: nothing needs to be done about it.
    job.after.front.text = "808 kg".into();
    (job.front.target.low, job.front.target.high) = ("1.20 Hz".into(), "1.30 Hz".into());
    let answer = solve(&job);
    let lead = answer.lead(Side::Front).expect("they do");
    assert_eq!((lead.kind, lead.does_wanted, lead.leads()), (RemedyKind::Nothing, true, true));
    let said = first_line(&job, &answer);
    assert!(said.starts_with("Front: the old springs stay; they meet the target. The body bounces"), "{said}");
    let order = on(Kind::Order, &job, &answer);
    assert!(order.contains("The old front springs stay: they still give the right height"), "{order}");
    assert!(!order.contains("worn") && !order.contains("N/mm"), "{order}");
}

/// Dampers that nobody tested are open: no table, no price, one line.
#[test]
fn what_is_open_is_listed_once_and_has_no_price() {
    let mut job = job();
    (job.front.new_anyway, job.front.damper.ratio_before) = (true, "".into());
    let answer = solve(&job);
    let open = "Still open: front dampers (not tested).";
    for kind in [Kind::Customer, Kind::Order, Kind::Fitting] {
        let text = on(kind, &job, &answer);
        assert_eq!(text.matches(open).count(), 1, "{kind:?}: {text}");
        assert_eq!(text.matches("Still open").count(), 1, "{kind:?}: {text}");
    }
    let order = on(Kind::Order, &job, &answer);
    assert!(!order.contains("N·s/m") && !order.contains("0.13 m/s"), "no table of dampers: {order}");
    // 200 for the springs, 100 for the work.
    let customer = on(Kind::Customer, &job, &answer);
    assert!(customer.contains("total, without what is still open 300.00 EUR"), "{customer}");
    let plans = Plans::of(&job, &answer, || true).expect("wanted").json();
    let chosen = plans["all"].as_array().expect("plans").iter().find(|plan| plan["chosen"] == true).expect("one");
    assert_eq!(chosen["open"], serde_json::json!(["front.dampers"]));
    // Decided, they are not open: new ones are bought, old ones stay.
    for (plan, price) in [(DamperPlan::New, "650.00 EUR"), (DamperPlan::Keep, "300.00 EUR")] {
        job.front.dampers = plan;
        let customer = on(Kind::Customer, &job, &solve(&job));
        assert!(customer.contains(price) && !customer.contains("till open"), "{plan:?}: {customer}");
    }
    (job.front.dampers, job.shop.language) = (DamperPlan::AsNeeded, "de".into());
    let german = on(Kind::Customer, &job, &solve(&job));
    assert!(german.contains("Noch offen: ") && german.contains("(nicht geprüft)"), "{german}");
    assert!(german.contains("Summe ohne das, was noch offen ist"), "{german}");
}

/// An axle that is planned new but has no answer yet is open, with what it needs.
#[test]
fn springs_without_an_answer_are_open() {
    let mut job = job();
    job.front.new_anyway = true;
    job.rear.plan = Plan::NewSprings;
    job.rear.dampers = DamperPlan::AsNeeded;
    let order = on(Kind::Order, &job, &solve(&job));
    assert!(order.contains("rear springs (still needed: motion ratio"), "{order}");
    assert!(order.contains("rear dampers (they depend on the springs)"), "{order}");
}

/// No shipped job sells springs where something that does the same is cheaper.
#[test]
fn no_shipped_job_sells_the_dearer_with_a_but() {
    let mut seen = 0;
    for shipped in kept::shipped() {
        for side in Side::BOTH {
            let Some(lead) = shipped.answer().lead(side) else { continue };
            seen += 1;
            let customer = plain(shipped.sheet(Kind::Customer));
            let new = format!("New {} springs", side.key());
            assert!(!customer.contains(&new), "{}: {lead:?}: {customer}", shipped.name);
        }
    }
    assert!(seen > 0);
}
