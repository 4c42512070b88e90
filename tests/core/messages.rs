//! What is found is the same in every language: a voice says it only where it is shown.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use springwright::base::language::{Language, Voice, speak};
use springwright::base::message::Message;
use springwright::base::progress::Watch;
use springwright::base::units::DecimalMark;
use springwright::choose::draws::Draws;
use springwright::choose::{choose, damper_choice};
use springwright::job::{Side, Which};
use springwright::report::sheets::{self, Kind, Printed};
use springwright::report::write::text::{self, Markup};
use springwright::shop::lists::Shop;
use springwright::shop::presets;
use springwright::solve::answer::Answer;
use springwright::solve::planned;
use springwright::solve::{solve, solve_values};

use crate::common::effort::some;
use crate::common::kept::{self, Kept};

const ENGLISH: Voice = Voice { language: Language::English, mark: DecimalMark::Point };
const GERMAN: Voice = Voice { language: Language::German, mark: DecimalMark::Comma };

/// Shipped jobs and those of the tests.
fn jobs() -> impl Iterator<Item = &'static Kept> {
    kept::with_shipped(&["kinds", "doubtful", "bad", "withheld", "released"])
}

fn in_voice<T>(voice: Voice, found: impl FnOnce() -> T) -> T {
    let _voice = speak(voice);
    found()
}

/// One answer says its findings in both languages, as a solve in either does.
#[test]
fn an_answer_is_the_same_in_every_voice() {
    let same = |what: &str, english: &Answer, german: &Answer| {
        let told = |answer| format!("{answer:?}");
        assert!(english == german, "{what}: {}", first_difference(&told(english), &told(german)));
    };
    let said = |voice, answer: &Answer| {
        in_voice(voice, || {
            let findings = answer.findings.iter().map(|f| f.text.to_string());
            let mends = answer.findings.iter().flat_map(|f| &f.mends).map(|mend| mend.label.to_string());
            let defaults = answer.defaults.iter().map(|d| format!("{} ({})", d.text, d.reason));
            findings.chain(mends).chain(defaults).collect::<Vec<String>>()
        })
    };
    assert!(jobs().count() > 150, "{} jobs", jobs().count());
    let mut differ = 0;
    for kept in jobs() {
        let (english, german) = (kept.answer(), in_voice(GERMAN, || solve(&kept.job)));
        same(&kept.name, english, &german);
        let values = |voice| in_voice(voice, || solve_values(&kept.job));
        same(&format!("{}, values", kept.name), &values(ENGLISH), &values(GERMAN));
        let (in_english, in_german) = (said(ENGLISH, english), said(GERMAN, english));
        assert_eq!((&in_english, &in_german), (&said(ENGLISH, &german), &said(GERMAN, &german)), "{}", kept.name);
        differ += in_english.iter().zip(&in_german).filter(|(a, b)| a != b).count();
    }
    assert!(differ > 1_000, "only {differ} texts have a German of their own");
}

/// The places around the first difference.
fn first_difference(one: &str, other: &str) -> String {
    let at = one.bytes().zip(other.bytes()).position(|(a, b)| a != b).unwrap_or(one.len().min(other.len()));
    let around = |text: &str| text.chars().skip(at.saturating_sub(200)).take(300).collect::<String>();
    format!("{}\n{}", around(one), around(other))
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
    for kept in some(kept::shipped()) {
        let mut job = kept.job.clone();
        job.shop.language = "de".into();
        let answer = kept.answer().clone();
        let sheet = |voice, kind: Kind, answer: &Answer| {
            let printed = Printed::default();
            let report = in_voice(voice, || sheets::build_with(kind, &job, answer, printed, sheets::words_of(&job)));
            text::write(&report, Markup::Plain)
        };
        let in_german = in_voice(GERMAN, || solve(&job));
        // Every kind of one job, and of the others the one that says most.
        let kinds = if kept.name == kept::shipped()[0].name { &Kind::ALL[..] } else { &[Kind::Full] };
        for &kind in kinds {
            let (one, other) = (sheet(ENGLISH, kind, &answer), sheet(GERMAN, kind, &in_german));
            assert!(one == other, "{} {kind:?}: {}", kept.name, first_difference(&one, &other));
        }
        let mut marked = answer;
        if let Some(finding) = marked.findings.last_mut() {
            finding.text = Message::from("only in this answer");
            assert!(sheet(ENGLISH, Kind::Full, &marked).contains("only in this answer"), "{}", kept.name);
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
