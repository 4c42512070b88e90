//! Help in the window: the guide, F1, the words explained; every field in view when the cursor is in it, at any size.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::driven;

use driven::{press, run};
use eframe::egui::{Key, accesskit::Role};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use springwright::base::language::{Language, Voice, speak};
use springwright::gui::help::changes::paragraphs;
use springwright::gui::help::glossary::{TERMS, Term, found, in_text, terms};
use springwright::gui::help::guide::STATIONS;
use springwright::gui::state::command::{Command, HelpCommand};
use springwright::gui::{App, Step};
use springwright::job::{Walk as _, fields};
use springwright::shop::presets;

/// The paths of every field of the demo job that is typed.
fn typed_paths() -> Vec<String> {
    let mut paths = Vec::new();
    presets::demo().walk(&mut String::new(), &mut |path, entry| {
        if !entry.text().trim().is_empty() {
            paths.push(path.to_owned());
        }
    });
    paths
}

#[test]
fn the_field_with_the_cursor_is_in_view_at_one_to_three_times_the_size_and_upright() {
    let screens = [[1280.0, 800.0], [640.0, 400.0], [427.0, 267.0], [800.0, 1100.0]];
    for (i, (size, language)) in screens.into_iter().flat_map(|s| Language::ALL.map(|l| (s, l))).enumerate() {
        let mut harness = driven::sized(App::on(presets::demo()).speaking(language), size);
        let (mut seen, mut off) = (0, Vec::new());
        // Each window looks at every fourth field, another one than the window before.
        let fields = typed_paths().into_iter().filter(|p| !p.starts_with("predicted")).skip(i % 4).step_by(4);
        for path in fields {
            run(&mut harness, Command::GoTo(path.clone()));
            for _ in 0..12 {
                harness.step();
            }
            let focused = harness.root().children_recursive().find(|n| n.accesskit_node().is_focused());
            let Some(node) = focused.filter(|n| n.accesskit_node().role() == Role::TextInput) else {
                off.push(format!("{path}: no cursor"));
                continue;
            };
            seen += 1;
            let at = node.accesskit_node().bounding_box().expect("a place");
            let inside = at.x0 >= -0.5
                && at.y0 >= -0.5
                && at.x1 <= f64::from(size[0]) + 0.5
                && at.y1 <= f64::from(size[1]) + 0.5;
            if !inside {
                off.push(format!("{path}: {at:?}"));
            }
        }
        assert!(seen > 15, "only {seen} fields");
        assert!(off.is_empty(), "{size:?} {language:?}: {off:#?}");
    }
}

#[test]
fn the_guide_leads_through_the_work_and_stays_closed_once_closed() {
    let mut harness = driven::window(App::on(presets::demo()), 800.0);
    run(&mut harness, Command::Help(HelpCommand::Guide(Some(0))));
    let mut steps = Vec::new();
    for n in 0..STATIONS.len() {
        assert_eq!(harness.state().view().guide, Some(n));
        steps.push(harness.state().view().step);
        if n + 1 < STATIONS.len() {
            harness.get_by_label("Next").click();
            driven::settle(&mut harness);
        }
    }
    assert_eq!(
        steps,
        [Step::Weigh, Step::Weigh, Step::Measure, Step::Springs, Step::Vehicle, Step::Sheet, Step::Weigh]
    );
    assert!(harness.query_by_label("Next").is_none(), "nothing beyond the last");
    harness.get_by_label("Back").click();
    driven::settle(&mut harness);
    assert_eq!(harness.state().view().guide, Some(STATIONS.len() - 2));
    harness.get_by_label("Close guide").click();
    driven::settle(&mut harness);
    assert_eq!(harness.state().view().guide, None);
    assert_eq!(*harness.state().job(), presets::demo(), "it types nothing");
}

#[test]
fn f1_tells_of_the_field_with_the_cursor_and_follows_it() {
    let mut harness = driven::window(App::on(presets::demo()), 1400.0);
    run(&mut harness, Command::GoTo("front.spring.rate".into()));
    press(&mut harness, Key::F1);
    let field = fields::by_path("front.spring.rate").expect("a field").0;
    assert!(harness.query_all_by_label(field.help().said()).next().is_some(), "its help stands there");
    assert!(harness.query_by_label("spring rate").is_some(), "the word is explained");
    run(&mut harness, Command::GoTo("vehicle.wheelbase".into()));
    let other = fields::by_path("vehicle.wheelbase").expect("a field").0;
    assert!(harness.query_all_by_label(other.help().said()).next().is_some(), "it goes along");
    press(&mut harness, Key::F1);
    assert!(harness.query_by_label("Close this help").is_none());
}

#[test]
fn f1_says_what_a_blank_counts_as_with_the_decimal_mark_of_the_job() {
    let job = presets::find("first-answer").expect("a preset").job_in(Language::German);
    let mut harness = driven::window(App::on(job).speaking(Language::German), 1400.0);
    run(&mut harness, Command::GoTo("front.damper.ratio_before".into()));
    press(&mut harness, Key::F1);
    let said: Vec<String> = harness
        .root()
        .children_recursive()
        .filter_map(|n| n.accesskit_node().value())
        .filter(|v| v.starts_with("Bleibt das Feld leer, gilt "))
        .collect();
    assert!(said.iter().any(|v| v.contains("0,25") && !v.contains("0.25")), "{said:?}");
}

#[test]
fn without_a_cursor_f1_opens_the_words_and_letters_find_one() {
    let mut harness = driven::window(App::on(presets::demo()), 800.0);
    press(&mut harness, Key::F1);
    assert!(harness.query_by_label("Glossary").is_some());
    driven::type_text(&mut harness, "stops hard");
    assert!(harness.query_by_label("coil bind").is_some() && harness.query_by_label("cross weight").is_none());
    harness.get_by_label("Back to the job").click();
    driven::settle(&mut harness);
    assert!(harness.query_by_label("Glossary").is_none());
}

#[test]
fn another_language_is_spoken_at_once_and_every_result_stays() {
    let mut harness = driven::window(App::on(presets::demo()), 800.0);
    let (before, solves) = (harness.state().answer().clone(), harness.state().solves());
    let finding = |app: &App| app.answer().findings[0].text.to_string();
    let in_english = finding(harness.state());
    harness.state_mut().command(Command::Findings);
    driven::settle(&mut harness);
    assert!(harness.query_all_by_label(&in_english).next().is_some(), "{in_english}");
    assert!(harness.query_by_label("Glossary").is_none() && harness.query_by_label("1 Weigh").is_some());
    run(&mut harness, Command::Language(Language::German));
    assert!(harness.query_by_label("1 Wiegen").is_some());
    let after = harness.state().answer();
    assert_eq!(
        before.axles.as_ref().map(|a| a.masses.sprung.after),
        after.axles.as_ref().map(|a| a.masses.sprung.after)
    );
    assert_eq!((harness.state().solves(), &before.findings), (solves, &after.findings), "nothing is solved again");
    let in_german = {
        let _voice = speak(Voice { language: Language::German, mark: harness.state().job().decimal });
        finding(harness.state())
    };
    assert!(in_german != in_english && harness.query_all_by_label(&in_german).next().is_some(), "{in_german}");
    run(&mut harness, Command::Language(Language::English));
    assert!(harness.query_by_label("1 Weigh").is_some() && harness.state().solves() == solves);
    assert!(harness.query_all_by_label(&in_english).next().is_some());
}

#[test]
fn help_says_what_each_version_changed() {
    for (language, item, matter) in [
        (Language::English, "What changed", "Plans side by side."),
        (Language::German, "Was sich geändert hat", "Pläne im Vergleich."),
    ] {
        let mut harness = driven::window(App::on(presets::demo()).speaking(language), 5000.0);
        run(&mut harness, Command::Help(HelpCommand::Changes));
        assert!(harness.query_by_label(item).is_some() && harness.query_by_label(matter).is_some(), "{language:?}");
        assert!(harness.query_by_label("0.1.0").is_some(), "{language:?}");
        run(&mut harness, Command::Help(HelpCommand::Words));
        assert!(harness.query_by_label(matter).is_none(), "the glossary takes its place");
        run(&mut harness, Command::Help(HelpCommand::Changes));
        run(&mut harness, Command::Help(HelpCommand::Changes));
        assert!(harness.query_by_label(item).is_none(), "back at the job");
    }
    let heads = |file: &str| {
        let kind = |line: &str| line.get(..2).filter(|head| ["- ", "**", "##", "# "].contains(head)).map(str::to_owned);
        file.lines().filter_map(kind).collect::<Vec<_>>()
    };
    let [english, german] = ["changes.md", "changes.de.md"].map(|name| {
        std::fs::read_to_string(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("assets").join(name))
            .expect("is there")
    });
    assert_eq!(heads(&english), heads(&german), "both languages say the same");
}

#[test]
fn lines_become_paragraphs() {
    let file = "# Title\n\n## 1\n\n**Matter.**\n- one\n  goes on\n- two\n\nalone\n";
    assert_eq!(paragraphs(file), ["## 1", "**Matter.**", "- one goes on", "- two", "alone"]);
}

#[test]
fn a_term_is_found_by_its_word_and_in_a_text() {
    let words = |terms: Vec<Term>| terms.iter().map(|t| t.word).collect::<Vec<_>>();
    assert_eq!(words(found("coil bind")), ["coil bind", "spacer"]);
    assert!(words(in_text("Length at full bump, motion ratio inside")).contains(&"motion ratio"));
    assert_eq!(terms().len(), TERMS.len());
    assert!(found("no such thing at all").is_empty());
}
