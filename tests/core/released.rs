//! What the program doubts does not leave it: which jobs are withheld, what then stands everywhere, and the way out.
//!
//! The jobs of `withheld/` differ from a sound one in what their name says; those of `released/` look odd, and are
//! ordered all the same. All vehicles are invented.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use crate::common::kept;
use crate::common::kept::of_folder;
use crate::common::sheets;

use std::path::{Path, PathBuf};
use std::process::Command;

use springwright::base::units::Entry;
use springwright::job::{HeldBy, Job, Level, Overrule, Side, Walk as _, overrule};
use springwright::report::results;
use springwright::report::sections::sentence;
use springwright::report::sheets::Kind;
use springwright::report::write::json;
use springwright::solve::answer::Answer;
use springwright::solve::solve;

use Side::{Front, Rear};

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(format!("{name}.ron"))
}

fn job(name: &str) -> Job {
    of_folder(name).job.clone()
}

fn rules(answer: &Answer, side: Side) -> Vec<&'static str> {
    answer.released(side).err().map_or_else(Vec::new, |reasons| reasons.rules())
}

fn line(job: &Job, answer: &Answer, side: Side) -> String {
    sentence::axle(answer, answer.axle(side), &job.units).answer
}

/// How an axle is released again.
enum WayOut {
    /// A field is typed anew.
    Field(&'static str, &'static str),
    /// Somebody answers for it.
    Overrule,
    /// The mark of the second case is taken off.
    Unmark,
    /// It is meant so.
    ByDesign,
}
use WayOut::{ByDesign, Field, Unmark};

/// Job, axle, the rule that withholds it, and ways out.
const WITHHELD: &[(&str, Side, &str, &[WayOut])] = &[
    (
        "ratio-turned",
        Front,
        "ratio-upside-down",
        &[Field("front.ratio.confirm", "1.96"), Field("front.ratio.part_moved", "0.6 in"), WayOut::Overrule],
    ),
    (
        "damper-ratio-turned",
        Front,
        "ratio-upside-down",
        &[Field("front.damper_ratio.part_moved", "44 mm"), WayOut::Overrule],
    ),
    ("ratio-squared-twice", Front, "ratio-squared", &[Field("front.ratio.number", "0.55"), WayOut::Overrule]),
    ("ratio-contradicted", Front, "ratio-contradicted", &[Field("front.ratio.confirm", "0.62"), WayOut::Overrule]),
    ("ratio-impossible", Front, "ratio-impossible", &[Field("front.ratio.wheel_moved", "100 mm")]),
    ("rate-in-other-unit", Front, "frequency", &[Field("front.spring.rate", "240 lb/in"), WayOut::Overrule]),
    ("rate-in-other-unit-as-before", Front, "frequency", &[Field("front.spring.rate", "240 lb/in")]),
    ("rate-too-small", Front, "frequency", &[Field("front.spring.rate", "42 N/mm"), WayOut::Overrule]),
    ("rating-with-a-letter", Rear, "unreadable", &[]),
    ("load-without-place", Rear, "half-row", &[]),
    ("load-without-mass", Front, "half-row", &[Field("cases[0].loads[0].mass", "80 kg")]),
    ("solid-above-fitted", Front, "solid-above-fitted", &[Field("front.spring.solid_length", "120 mm")]),
    ("raise-far", Front, "beyond-metal", &[Field("front.target.raise", "-10 mm")]),
    ("doubt-of-a-third", Front, "rate-uncertain", &[WayOut::Overrule]),
    ("doubt-negative", Front, "unreadable-spread", &[]),
    ("doubt-too-large", Front, "rate-uncertain", &[WayOut::Overrule]),
    ("sized-twice", Front, "sized-twice", &[Unmark]),
    ("sized-twice", Rear, "sized-twice", &[Unmark]),
    ("rear-over", Rear, "over-rating", &[Field("rear.rating", "700 kg")]),
    ("rear-over", Front, "over-rating", &[Field("rear.rating", "700 kg")]),
    ("just-over", Front, "over-rating", &[Field("rear.rating", "604.8 kg")]),
    ("wanted-impossible", Front, "frequency-impossible", &[Field("front.target.high", "1.4 Hz"), WayOut::Overrule]),
    ("bound-before-bump", Front, "bind", &[Field("front.stock.solid_length", "120 mm"), WayOut::Overrule]),
    (
        "lengths-changed-over",
        Front,
        "lengths-contradict",
        &[Field("front.spring.free_length", "428 mm"), WayOut::Overrule],
    ),
    ("routes-apart", Front, "routes-disagree", &[Field("front.spring.wire.active_coils", "10.1"), WayOut::Overrule]),
    ("new-on-the-stop", Front, "on-stop", &[ByDesign, Field("front.target.raise", "-10 mm"), WayOut::Overrule]),
    (
        "damper-impossible",
        Front,
        "damping-impossible",
        &[Field("front.damper.bump_rate", "1.5 kN·s/m"), WayOut::Overrule],
    ),
    ("bar-over-stressed", Front, "bar-stress", &[WayOut::Overrule]),
    (
        "wound-over-stress",
        Front,
        "wound-limit",
        &[
            Field("front.stock.coil.outside_diameter", "120 mm"),
            Field("front.stock.coil.outside_diameter", ""),
            WayOut::Overrule,
        ],
    ),
];

/// Signs every overrule of this rule that the answer asks for.
fn overruled(job: &Job, answer: &Answer, rule: &str) -> Job {
    let mut job = job.clone();
    for found in answer.findings.iter().filter(|f| f.rule == rule && f.can_be_overruled()) {
        let values = overrule::values(&job, &found.rests_on);
        job.overrules.push(Overrule { rule: rule.into(), values, initials: "JT".into() });
    }
    job
}

fn typed(job: &mut Job, field: &str, text: &str) {
    let dim = job.at_mut(field).expect(field).dim();
    let (unit, mark) = (job.units.unit(dim), job.decimal);
    job.at_mut(field).expect(field).type_text(text, unit, mark);
}

#[test]
fn each_doubt_withholds_its_axle_and_has_a_way_out() {
    let mut wrong = Vec::new();
    for (name, side, rule, ways) in WITHHELD {
        let kept = of_folder(&format!("withheld/{name}"));
        let (job, answer) = (&kept.job, kept.answer());
        if !rules(answer, *side).contains(rule) {
            wrong.push(format!("{name}: {rule} withholds nothing: {:?}", answer.findings));
            continue;
        }
        for (i, way) in ways.iter().enumerate() {
            let out = match way {
                Field(field, text) => {
                    let mut out = job.clone();
                    typed(&mut out, field, text);
                    if *field == "front.target.high" {
                        typed(&mut out, "front.target.low", "1.2 Hz");
                    }
                    if *field == "front.damper.bump_rate" {
                        typed(&mut out, "front.damper.rebound_rate", "3 kN·s/m");
                    }
                    out
                }
                WayOut::Overrule => overruled(job, answer, rule),
                Unmark => {
                    let mut out = job.clone();
                    out.cases[1].sized = false;
                    out
                }
                ByDesign => {
                    let mut out = job.clone();
                    out.front.stop.by_design = true;
                    out
                }
            };
            let left = rules(&solve(&out), *side);
            if left.contains(rule) {
                wrong.push(format!("{name}: way {i} leaves it withheld by {rule}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Each button of a doubt that withholds settles it with one click.
#[test]
fn one_click_settles_a_doubt_that_offers_a_button() {
    let mut clicks = 0;
    for (name, side, rule, _) in WITHHELD {
        let kept = of_folder(&format!("withheld/{name}"));
        let (job, answer) = (&kept.job, kept.answer());
        for mend in answer.findings.iter().filter(|f| f.rule == *rule).flat_map(|f| &f.mends) {
            let mut mended = job.clone();
            mended.mend(mend).expect("it names fields of a job");
            let left = solve(&mended);
            assert!(!rules(&left, *side).contains(rule), "{name}: {} leaves {:?}", mend.label, left.findings);
            clicks += 1;
        }
    }
    assert!(clicks >= 12, "{clicks} buttons");
}

/// What stands where a part would: on screen and in text, on every sheet, in JSON, and in the exit code.
#[test]
fn what_is_withheld_is_named_nowhere() {
    for (name, side, rule, _) in WITHHELD {
        let kept = of_folder(&format!("withheld/{name}"));
        let (job, answer) = (&kept.job, kept.answer());
        let said = line(job, answer, *side);
        let is_stop = said.contains("STOP");
        assert!(
            said.contains(": do not order. ")
                || said.contains("the springs stay")
                || is_stop
                || answer.axle(*side).sizing.is_none(),
            "{name}: {said}"
        );
        assert!(!said.contains(" work") && !said.contains(" the body bounces"), "{name}: {said}");
        let value = json::value(job, answer);
        let withheld = value["withheld"][side.key()].as_array().expect("a list");
        assert!(withheld.iter().any(|r| r == rule), "{name}: {withheld:?}");
        for figure in results::figures(answer) {
            let own = figure.key.starts_with(side.key());
            let part = [
                ".sizing.pick",
                ".sizing.order_length",
                ".sizing.free_length",
                ".sizing.bar.",
                ".sizing.spacer.",
                ".wound.",
                ".damping.bump_",
                ".damping.at_damper",
                ".new_damper.",
            ];
            if own && part.iter().any(|p| figure.key.contains(p)) {
                assert_eq!(figure.si, None, "{name}: {}", figure.key);
            }
        }
        for kind in Kind::ALL {
            let text = sheets::plain(kept.sheet(kind));
            for words in [
                "Stock rate nearest",
                "(free length ",
                "to order, with allowance for settling",
                "any stock rate from",
                "stiffer.",
                "softer.",
            ] {
                assert!(
                    !text.contains(words) || answer.released(other(*side)).is_ok(),
                    "{name}, {}: {words}: {text}",
                    kind.key()
                );
            }
        }
    }
}

fn other(side: Side) -> Side {
    if side == Front { Rear } else { Front }
}

#[test]
fn the_headless_program_ends_with_1_and_writes_its_files() {
    let folder = tempfile::tempdir().expect("a folder");
    let cli = |args: &[&str]| {
        let mut program = Command::new(env!("CARGO_BIN_EXE_springwright-cli"));
        let out = program.args(args).output().expect("the program runs");
        (out.status.code(), String::from_utf8_lossy(&out.stdout).into_owned())
    };
    for name in ["ratio-turned", "rating-with-a-letter", "rear-over", "doubt-too-large"] {
        let file = path(&format!("withheld/{name}")).display().to_string();
        for command in ["solve", "check"] {
            assert_eq!(cli(&[command, &file]).0, Some(1), "{command} {name}");
        }
        let list = path("../presets/demo-parts").with_extension("csv").display().to_string();
        let (code, said) = cli(&["choose", &file, "--list", &list, "--draws", "1000"]);
        assert_eq!(code, Some(1), "choose {name}");
        assert!(said.contains("nothing is chosen"), "{name}: {said}");
        for kind in ["order", "customer", "fitting"] {
            let out = folder.path().join(format!("{name}-{kind}.txt")).display().to_string();
            assert_eq!(cli(&["sheet", &file, "--kind", kind, "--out", &out]).0, Some(1), "{kind} {name}");
            assert!(Path::new(&out).exists(), "{out} is written");
        }
    }
}

#[test]
fn odd_but_sound_jobs_are_ordered() {
    for kept in kept::in_folders(&["released"]) {
        let answer = kept.answer();
        for side in Side::BOTH {
            assert_eq!(rules(answer, side), Vec::<&str>::new(), "{}: {:?}", kept.name, answer.findings);
        }
        assert!(answer.findings.iter().all(|f| f.level <= Level::Doubt), "{}", kept.name);
    }
}

/// Vehicle total with a load whose place is not typed: 2180 + 160 + 110 + 90 + 130 = 2670 kg of 2600, 102.7 %.
#[test]
fn a_load_without_a_place_counts_in_the_total() {
    let answer = of_folder("withheld/load-without-place").answer();
    let over =
        answer.findings.iter().find(|f| f.rule == "over-rating" && f.field == "vehicle.rating").expect("it is over");
    assert!(over.text.to_string().contains("102.7 %"), "{}", over.text);
}

/// An overrule names its values: it lapses when one changes, and says so; without initials it is none.
#[test]
fn an_overrule_lapses_with_its_values() {
    let plain = of_folder("withheld/ratio-turned");
    let mut signed = overruled(&plain.job, plain.answer(), "ratio-upside-down");
    let answer = solve(&signed);
    assert!(!rules(&answer, Front).contains(&"ratio-upside-down"));
    let found = answer.findings.iter().find(|f| f.is_overruled()).expect("it is still said");
    assert!(found.level == Level::Doubt && found.text.to_string().ends_with("Overruled by JT."), "{}", found.text);
    for kind in [Kind::Order, Kind::Working] {
        let text = sheets::plain(&sheets::sheet(kind, &signed, &answer));
        assert!(
            text.contains("Overruled, rule ratio-upside-down") && text.contains("front.ratio.part_moved = 2 in"),
            "{text}"
        );
    }
    let mut unsigned = signed.clone();
    unsigned.overrules[0].initials = "  ".into();
    assert!(rules(&solve(&unsigned), Front).contains(&"ratio-upside-down"), "nobody signed it");
    typed(&mut signed, "front.ratio.part_moved", "1.9 in");
    let answer = solve(&signed);
    let found = answer.findings.iter().find(|f| f.rule == "ratio-upside-down").expect("it is back");
    assert!(
        found.level == Level::Withheld && found.text.to_string().contains("overruling by JT has lapsed"),
        "{}",
        found.text
    );
}

/// A stop cannot be overruled, whatever is written into the job.
#[test]
fn a_rating_cannot_be_overruled() {
    let mut job = job("withheld/rear-over");
    let values = overrule::values(&job, &["rear.rating".to_owned()]);
    job.overrules.push(Overrule { rule: "over-rating".into(), values, initials: "JT".into() });
    let answer = solve(&job);
    assert!(Side::BOTH.iter().all(|side| rules(&answer, *side).contains(&"over-rating")));
    assert!(answer.findings.iter().all(|f| f.level != Level::Stop || f.rests_on.is_empty()));
}

/// The limit inside the ± of a load is amber, over it a stop: 605 kg on 605.5 ± 1.2 kg, and on 604.6.
#[test]
fn a_limit_inside_the_doubt_asks_for_another_weighing() {
    let mut job = job("withheld/rear-over");
    job.rear.rating = Entry::from("605.5 kg");
    let answer = solve(&job);
    let near = answer.findings.iter().find(|f| f.rule == "near-rating").expect("amber");
    assert!(near.text.to_string().contains("weigh again"), "{}", near.text);
    assert!(answer.released(Front).is_ok());
}

/// A case that nobody drives warns; the same case, permitted, stops.
#[test]
fn a_what_if_warns_and_a_permitted_load_stops() {
    let answer = of_folder("released/what-if-over").answer();
    assert!(answer.findings.iter().any(|f| f.rule == "what-if-over-rating" && f.level == Level::Doubt));
    let mut job = job("released/what-if-over");
    job.cases[0].what_if = false;
    assert_eq!(rules(&solve(&job), Front), ["over-rating"]);
}

/// Loose at full droop is a condition on the order, settled by a field.
#[test]
fn loose_at_full_droop_is_a_condition_on_the_order() {
    let kept = of_folder("released/sport-spring-loose-at-droop");
    let order = sheets::plain(kept.sheet(Kind::Order));
    assert!(order.contains("do not order until this is settled"), "{order}");
    let mut job = kept.job.clone();
    job.front.held_by = HeldBy::ShorterDamper;
    let order = sheets::plain(&sheets::sheet(Kind::Order, &job, &solve(&job)));
    assert!(order.contains("held at full droop by a shorter damper"), "{order}");
    assert!(!order.contains("do not order"));
}

/// On every sheet stands by name what nobody could check.
#[test]
fn what_was_not_checked_stands_on_every_sheet() {
    let kept = of_folder("released/weighbridge-only");
    for kind in Kind::ALL {
        let text = sheets::plain(kept.sheet(kind));
        for what in ["axle rating", "tyre load rating", "damper length at full bump"] {
            assert!(text.contains(what), "{}: {what}: {text}", kind.key());
        }
    }
}

/// The compiler holds the gate: what is bought is a field that only the solver sees, and one place hands it out.
#[test]
fn there_is_one_way_to_a_part() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut ways = Vec::new();
    let mut folders = vec![src.clone()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let text = std::fs::read_to_string(&path).expect("a source");
            let hands_out = text.matches("Part { parts:").count();
            ways.extend(std::iter::repeat_n(path.strip_prefix(&src).expect("below").to_owned(), hands_out));
        }
    }
    assert_eq!(ways, [Path::new("solve/answer/released.rs")], "one gate");
    let axle = std::fs::read_to_string(src.join("solve/answer/axle.rs")).expect("a source");
    assert!(axle.contains("pub(in crate::solve) parts: Parts"), "nobody else sees it");
    let public = axle.matches(": Parts").count();
    assert_eq!(public, 1, "and it is there once");
}
