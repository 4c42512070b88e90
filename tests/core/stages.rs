//! The customer's view as data: the customer's sheet step by step, with no number and no word of its own.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use springwright::job::{Job, Level, Plan, Side};
use springwright::report::sheets::{self, Kind, Showing, Stage, Words};
use springwright::solve::answer::{Answer, RemedyKind, State};
use springwright::solve::solve;

use crate::common::kept::{self, Kept};
use crate::common::sheets as common;
use common::sheet;

fn showing(job: &Job) -> Showing {
    shown(job, &solve(job))
}

fn shown(job: &Job, answer: &Answer) -> Showing {
    sheets::showing(job, answer, sheets::words_of(job))
}

/// Every text of a step but what is pressed.
fn texts(stage: &Stage) -> Vec<String> {
    let mut all = vec![stage.name.clone()];
    all.extend(stage.head.iter().cloned());
    all.extend(stage.rows.iter().flat_map(|(name, cells)| std::iter::once(name).chain(cells)).cloned());
    all.extend(stage.cautions.iter().map(|(_, text)| text.clone()));
    all.extend(stage.says.iter().cloned());
    all.extend(stage.prices.iter().flatten().cloned());
    for (axle, told) in stage.ends.iter().filter_map(|end| end.enlarged.as_ref()) {
        all.extend(std::iter::once(axle).chain(told).cloned());
    }
    all
}

/// Names of what the sheet tells in a sentence only.
fn named_here(words: &Words) -> [String; 3] {
    ["view.raised", "view.on_blocks", "view.set_up"].map(|key| words.say(key, &[]))
}

/// Of raised springs the sheet says the bounces in a sentence; in the view they stand in a row.
fn is_on_paper(text: &str, paper: &str) -> bool {
    let text = text.to_lowercase();
    let number = text.split(", ").next().unwrap_or_default();
    let is_number = number.replace(',', ".").parse::<f64>().is_ok();
    let bounces =
        ["times a second", "mal pro sekunde", "schwingungen pro sekunde"].map(|often| format!("{number} {often}"));
    paper.contains(&text) || is_number && bounces.iter().any(|b| paper.contains(b))
}

#[test]
fn nothing_is_shown_that_is_not_on_the_sheet() {
    let mut looked_at = 0;
    for shipped in kept::shipped() {
        for language in Words::languages() {
            let mut job = shipped.job.clone();
            job.shop.language = language.to_owned();
            let answer = shipped.answer();
            let paper = common::everything(sheet(Kind::Customer, &job, answer));
            let named = named_here(sheets::words_of(&job));
            for stage in shown(&job, answer).stages {
                for text in texts(&stage).into_iter().filter(|text| !named.contains(text)) {
                    looked_at += 1;
                    let is_there = is_on_paper(&text, &paper);
                    assert!(is_there, "{}, {language}, {}: \"{text}\" is not in {paper}", shipped.name, stage.name);
                }
            }
        }
    }
    assert!(looked_at > 800, "only {looked_at}");
}

#[test]
fn the_steps_follow_the_story() {
    let names = |view: &Showing| view.stages.iter().map(|s| s.name.clone()).collect::<Vec<_>>();
    let kept = kept::named("demo-orchard-van");
    let demo = &kept.job;
    let view = shown(demo, kept.answer());
    assert_eq!(names(&view), ["before", "now, old springs", "old springs on spacers", "now, new springs"]);
    assert_eq!(view.title, "Your vehicle: what changed, and what we do");
    assert_eq!(view.vehicle, demo.vehicle.name);
    let states = view.stages.iter().map(|s| s.state).collect::<Vec<_>>();
    assert_eq!(states, [State::Before, State::OldSprings, State::OldSprings, State::NewSprings]);
    // The hump is run before, on the old and on the new springs; never on spacers.
    let driven = view.stages.iter().map(|s| s.driven).collect::<Vec<_>>();
    assert_eq!(driven, [Some(State::Before), Some(State::OldSprings), None, Some(State::NewSprings)]);
    // Prices stand with what is paid for, and nowhere else.
    let priced = view.stages.iter().map(|s| !s.prices.is_empty()).collect::<Vec<_>>();
    assert_eq!(priced, [false, false, false, true]);
    // Without weights from before there is no step before; without anything, one step says so.
    let mut job = demo.clone();
    job.before = Default::default();
    let without = names(&showing(&job));
    assert!(!without.contains(&"before".to_owned()), "{without:?}");
    let empty = showing(&Job::default());
    assert_eq!(empty.stages.len(), 1);
    assert!(empty.stages[0].says.contains(&"Your vehicle must still be weighed.".to_owned()), "{:?}", empty.stages);
    // Springs that stay: before and now.
    let mut job = demo.clone();
    (job.front.plan, job.rear.plan) = (Plan::Keep, Plan::Keep);
    assert_eq!(names(&showing(&job)), ["before", "now"]);
}

/// Heights and gaps that are drawn are those of the answer; DERIVED from it.
#[test]
fn what_is_drawn_is_the_answer() {
    let mut compared = 0;
    for shipped in kept::shipped() {
        let answer = shipped.answer();
        for stage in shown(&shipped.job, answer).stages {
            for side in Side::BOTH {
                let end = &stage.ends[side];
                if end.enlarged.is_none() || shipped.name.contains("tow") {
                    continue;
                }
                let axle = answer.axle(side);
                // The spacers that lead come in whole millimetres: `leads` looks at them.
                if answer.lead(side).is_some_and(|lead| lead.leads()) {
                    continue;
                }
                let is_raised = ["spacers", "blocks", "adjusted"].iter().any(|w| stage.name.contains(w));
                let (height, room) = if is_raised {
                    let remedy = answer.remedies[side].iter().find(|r| r.kind == RemedyKind::Spacer);
                    let stands = remedy.expect("offered").cases[answer.compared_case()].expect("known");
                    (stands.above_before, stands.on.stop_room())
                } else {
                    let at = axle.standing.of(stage.state).as_ref();
                    (at.and_then(|s| s.height_change), at.and_then(|s| s.stop_room))
                };
                let si = |l: Option<springwright::base::units::Length>| l.map(|l| l.value);
                // An axle beside one with a lead is solved again with it: rounding differs.
                let is_near = |one: Option<f64>, other: Option<f64>| match (one, other) {
                    (Some(one), Some(other)) => (one - other).abs() < 1e-12,
                    (one, other) => one == other,
                };
                let is_told = is_near(end.height_m, si(height)) && is_near(end.room_m, si(room));
                assert!(is_told, "{} {}: {:?}", shipped.name, stage.name, (end.height_m, end.room_m));
                compared += 1;
            }
        }
    }
    assert!(compared > 60, "{compared}");
}

/// Over a rating the stop stands where the plans would; of what is withheld the sheet's own words.
#[test]
fn a_stop_or_a_doubt_takes_the_place_of_every_plan() {
    let camper = kept::named("overloaded-camper");
    let stopped = shown(&camper.job, camper.answer());
    let now = stopped.stages.last().expect("a step");
    assert_eq!(stopped.stages.len(), 2);
    assert!(now.cautions.iter().all(|(level, _)| *level == Level::Stop));
    assert!(now.cautions.iter().any(|(_, text)| text.starts_with("STOP. The rear axle would carry")), "{now:?}");
    let mut seen = 0;
    for kept in kept::in_folders(&["withheld"]) {
        let (Kept { name, job, .. }, answer) = (kept, kept.answer());
        let is_stopped = answer.axles.iter().any(|a| a.overloaded);
        if !answer.sold_is_withheld() && !is_stopped {
            continue;
        }
        seen += 1;
        let view = shown(job, answer);
        assert!(view.stages.iter().all(|s| s.prices.is_empty() && s.state != State::NewSprings), "{name}");
        let now = view.stages.last().expect("a step");
        assert!(!now.cautions.is_empty(), "{name}: {now:?}");
        let bought = Side::BOTH.map(|side| answer.released(side).is_ok());
        assert!(bought.contains(&false), "{name}");
        if !is_stopped {
            let words = Words::english().say("withheld.customer", &[]);
            assert_eq!(now.cautions, [(Level::Withheld, words)], "{name}");
        }
    }
    assert!(seen > 15, "{seen}");
}

/// The shop's own texts are used, and the decimal mark of the sheets' language, whoever looks on.
#[test]
fn it_speaks_as_the_sheets_do() {
    let kept = kept::named("demo-orchard-van");
    let mut job = kept.job.clone();
    job.shop.language = "de".into();
    let own = Words::of("de", Some(r#"{ "view.next": "Los" }"#)).expect("texts");
    let view = sheets::showing(&job, kept.answer(), &own);
    assert_eq!(view.words.next, "Los");
    let cells: Vec<&String> = view.stages.iter().flat_map(|s| &s.rows).flat_map(|(_, cells)| cells).collect();
    assert!(cells.iter().any(|cell| cell.starts_with("1,")), "{cells:?}");
    assert!(!cells.iter().any(|cell| cell.starts_with("1.")), "{cells:?}");
}
