//! What is found is the same in every language: a voice says it only where it is shown.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use springwright::base::language::{Language, Voice, speak};
use springwright::base::message::Message;
use springwright::base::progress::Watch;
use springwright::base::units::DecimalMark;
use springwright::choose::draws::Draws;
use springwright::choose::{choose, damper_choice};
use springwright::job::{Job, Side, Which, file};
use springwright::report::sheets::{self, Kind, Printed};
use springwright::report::write::text::{self, Markup};
use springwright::shop::lists::Shop;
use springwright::shop::presets::{self, PRESETS};
use springwright::solve::answer::Answer;
use springwright::solve::planned;
use springwright::solve::{solve, solve_values};

use crate::common::folders;

const ENGLISH: Voice = Voice { language: Language::English, mark: DecimalMark::Point };
const GERMAN: Voice = Voice { language: Language::German, mark: DecimalMark::Comma };

/// Shipped jobs and those of the tests, by name.
fn jobs() -> Vec<(String, Job)> {
    let shipped = PRESETS.iter().map(|p| (p.name.to_owned(), p.job()));
    let folders = ["kinds", "doubtful", "bad", "withheld", "released"];
    let files = folders.into_iter().flat_map(folders::job_files);
    let read = files.filter_map(|path| Some((path.display().to_string(), file::read(&path).ok()?)));
    shipped.chain(read).collect()
}

fn in_voice<T>(voice: Voice, found: impl FnOnce() -> T) -> T {
    let _voice = speak(voice);
    found()
}

#[test]
fn an_answer_is_the_same_in_every_voice() {
    let jobs = jobs();
    assert!(jobs.len() > 150, "{} jobs", jobs.len());
    for (name, job) in jobs {
        let found = |voice| in_voice(voice, || (format!("{:?}", solve(&job)), format!("{:?}", solve_values(&job))));
        let (english, german) = (found(ENGLISH), found(GERMAN));
        assert!(english.0 == german.0, "{name}: {}", first_difference(&english.0, &german.0));
        assert!(english.1 == german.1, "{name}, values: {}", first_difference(&english.1, &german.1));
    }
}

/// The places around the first difference.
fn first_difference(one: &str, other: &str) -> String {
    let at = one.bytes().zip(other.bytes()).position(|(a, b)| a != b).unwrap_or(one.len().min(other.len()));
    let around = |text: &str| text.chars().skip(at.saturating_sub(200)).take(300).collect::<String>();
    format!("{}\n{}", around(one), around(other))
}

/// One answer says its findings in both languages, each as a solve in that language does.
#[test]
fn one_answer_is_said_in_both_languages() {
    let mut differ = 0;
    for (name, job) in jobs() {
        let (english, german) = (in_voice(ENGLISH, || solve(&job)), in_voice(GERMAN, || solve(&job)));
        let said = |voice, answer: &Answer| {
            in_voice(voice, || {
                let findings = answer.findings.iter().map(|f| f.text.to_string());
                let mends = answer.findings.iter().flat_map(|f| &f.mends).map(|mend| mend.label.to_string());
                let defaults = answer.defaults.iter().map(|d| format!("{} ({})", d.text, d.reason));
                findings.chain(mends).chain(defaults).collect::<Vec<String>>()
            })
        };
        for voice in [ENGLISH, GERMAN] {
            assert_eq!(said(voice, &english), said(voice, &german), "{name}");
        }
        let (in_english, in_german) = (said(ENGLISH, &english), said(GERMAN, &english));
        differ += in_english.iter().zip(&in_german).filter(|(a, b)| a != b).count();
    }
    assert!(differ > 1_000, "only {differ} texts have a German of their own");
}

#[test]
fn a_choice_is_the_same_in_every_voice() {
    let (job, shop) = (presets::demo(), Shop::nowhere());
    let opened = shop.open("demo", None).expect("the demo list");
    let answer = solve(&job);
    let found = |voice| {
        in_voice(voice, || {
            Side::BOTH.map(|side| {
                let draws = Draws { count: 200, seed: 1 };
                let springs = choose(&job, &answer, side, &opened.list.springs, draws, &Watch::default());
                let dampers = damper_choice::rank(&job, &answer, side, &opened.list.dampers);
                (format!("{springs:?}"), format!("{dampers:?}"))
            })
        })
    };
    assert!(found(ENGLISH) == found(GERMAN));
}

/// A sheet in another language is of the answer that it is given; it solves nothing.
#[test]
fn a_sheet_in_another_language_says_the_answer_that_it_is_given() {
    for preset in PRESETS {
        let mut job = preset.job();
        job.shop.language = "de".into();
        let answer = in_voice(ENGLISH, || solve(&job));
        let sheet = |voice, kind: Kind, answer: &Answer| {
            let printed = Printed::default();
            let report = in_voice(voice, || sheets::build_with(kind, &job, answer, printed, sheets::words_of(&job)));
            text::write(&report, Markup::Plain)
        };
        let in_german = in_voice(GERMAN, || solve(&job));
        // Every kind of one job, and of the others the one that says most.
        let kinds = if preset.name == PRESETS[0].name { &Kind::ALL[..] } else { &[Kind::Full] };
        for &kind in kinds {
            let (one, other) = (sheet(ENGLISH, kind, &answer), sheet(GERMAN, kind, &in_german));
            assert!(one == other, "{} {kind:?}: {}", preset.name, first_difference(&one, &other));
        }
        let mut marked = answer;
        if let Some(finding) = marked.findings.last_mut() {
            finding.text = Message::from("only in this answer");
            assert!(sheet(ENGLISH, Kind::Full, &marked).contains("only in this answer"), "{}", preset.name);
        }
    }
}

/// A plan is found by its name in any of the languages, whichever is spoken.
#[test]
fn a_plan_is_found_by_its_name_in_any_language() {
    let job = presets::demo();
    for voice in [ENGLISH, GERMAN] {
        let _voice = speak(voice);
        for name in ["Nothing done", "nothing", "keine Änderung"] {
            assert_eq!(job.plan_named(name), Some(Which::Nothing), "{name}");
        }
        for name in ["as planned", "wie geplant", "chosen"] {
            assert_eq!(job.plan_named(name), Some(Which::Chosen), "{name}");
        }
        assert_eq!(job.plan_named("no such plan"), None);
        for name in ["old springs with spacers", "Alte Federn mit Distanzringen"] {
            assert!(planned::named(&job, name).is_some(), "{name}");
        }
        assert!(planned::named(&job, "spacers").is_some());
    }
}
