//! The sheets say what they must, in words that a customer reads; none promises, none recommends over a rating.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test says why it stops")]

use std::collections::{BTreeSet, HashSet};

use springwright::base::units::{Entry, Mass, Origin, display};
use springwright::job::{Job, Plan, Side};
use springwright::report::Block;
use springwright::report::Report;
use springwright::report::sheets::words::placeholders;
use springwright::report::sheets::{self, Kind, Printed, Words};
use springwright::report::write::text::{self, Markup};
use springwright::solve::answer::Answer;
use springwright::solve::solve;

use crate::common::kept;
use crate::common::sheets as common;
use common::{customer, plain, preset, sheet};

#[test]
fn every_sheet_of_every_preset_in_every_language_is_whole() {
    let keys: HashSet<&str> = Words::english().texts().map(|(key, _)| key).collect();
    // No key has a bracket in it.
    assert!(keys.iter().all(|key| !key.contains(['[', ']'])));
    let is_key = |behind: &str| behind.split_once(']').is_some_and(|(inside, _)| keys.contains(inside));
    for shipped in kept::shipped() {
        for language in Words::languages() {
            let mut job = shipped.job.clone();
            job.shop.language = language.to_owned();
            for kind in Kind::ALL {
                let text = plain(&sheet(kind, &job, shipped.answer()));
                let what = format!("{}, {}, {language}", shipped.name, kind.key());
                let key_left = text.split('[').skip(1).any(is_key);
                assert!(!key_left, "{what}: a key instead of its text: {text}");
                assert!(!text.contains('{') && !text.contains('}'), "{what}: an unfilled placeholder: {text}");
                for part in [job.vehicle.name.as_str(), "2026-04-02", env!("CARGO_PKG_VERSION"), "my.ron"] {
                    assert!(text.contains(part), "{what}: \"{part}\" is missing: {text}");
                }
            }
        }
    }
}

#[test]
fn an_axle_without_an_answer_is_not_called_fine() {
    for job in [Job::default(), {
        let (mut job, _) = preset("demo-orchard-van");
        job.front.ratio = Default::default();
        job
    }] {
        let answer = solve(&job);
        let text = customer(&job, &answer);
        assert!(text.contains("We cannot recommend front springs yet."), "{text}");
        assert!(!text.contains("Nothing. You do not need") && !text.contains("% stiffer"), "{text}");
        for kind in Kind::ALL {
            assert!(!plain(&sheet(kind, &job, &answer)).contains('{'), "{}", kind.key());
        }
        assert!(plain(&sheet(Kind::Order, &job, &answer)).contains("cannot be ordered yet"));
    }
}

#[test]
fn both_languages_have_the_same_keys_and_placeholders() {
    let english: Vec<(&str, &str)> = Words::english().texts().collect();
    assert!(english.len() > 150, "the texts were read: {}", english.len());
    for language in Words::languages() {
        let other: Vec<(&str, &str)> = Words::shipped(language).unwrap().texts().collect();
        let keys = |texts: &[(&str, &str)]| texts.iter().map(|t| t.0.to_owned()).collect::<BTreeSet<_>>();
        assert_eq!(keys(&english), keys(&other), "{language}");
        for ((key, a), (_, b)) in english.iter().zip(&other) {
            assert_eq!(placeholders(a), placeholders(b), "{language}: {key}");
            assert!(!b.trim().is_empty(), "{language}: {key}");
        }
    }
}

/// Every literal in the sheets' sources that looks like a key.
fn literals() -> BTreeSet<String> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/report/sheets");
    let mut found = BTreeSet::new();
    for path in crate::architecture::source_files(&folder) {
        let source = std::fs::read_to_string(path).unwrap();
        found.extend(source.split('"').skip(1).step_by(2).map(str::to_owned));
    }
    found
}

#[test]
fn every_key_is_used() {
    let used = literals();
    let unused: Vec<&str> = Words::english().texts().map(|t| t.0).filter(|k| !used.contains(*k)).collect();
    assert_eq!(unused, Vec::<&str>::new());
}

#[test]
fn a_shop_lays_its_own_texts_over() {
    let own =
        Words::of("de", Some(r#"{ "order.title": "Einkaufszettel", "fit.settle": "{end} {amount} hoch" }"#)).unwrap();
    assert_eq!(own.say("order.title", &[]), "Einkaufszettel");
    assert_eq!(own.say("fit.title", &[]), "Einbaublatt", "what is not changed stays");
    assert_eq!(own.say("fit.settle", &[("amount", "3 mm"), ("end", "vorn")]), "vorn 3 mm hoch");
    let said = |own: &str| Words::of("", Some(own)).unwrap_err().to_string();
    assert!(said(r#"{ "order.titel": "x" }"#).contains("no sheet has a text with the key \"order.titel\""));
    assert!(said(r#"{ "fit.settle": "{mass} hoch" }"#).contains("{mass}; it can use amount, end"));
    assert_eq!(
        said(r#"{ "fit.settle": "hoch" }"#),
        "the text \"fit.settle\" has no {amount}. Add it; otherwise its value is missing on the sheet"
    );
    assert!(said("(1, 2").contains("1:"), "where the syntax breaks");
    // A language that does not ship, laid wholly over English.
    assert_eq!(
        Words::of("eo", Some(r#"{ "order.title": "Mendlisto" }"#)).unwrap().say("order.title", &[]),
        "Mendlisto"
    );
}

#[test]
fn the_shop_keeps_its_texts_in_its_folder() {
    let folder = tempfile::tempdir().unwrap();
    let shop = springwright::shop::lists::Shop::at(folder.path().to_owned());
    assert!(shop.sheet_texts("de").unwrap().is_none());
    std::fs::copy("assets/sheets.de.ron", folder.path().join("sheets.de.ron")).unwrap();
    assert!(shop.sheet_texts(" DE ").unwrap().unwrap().contains("Einbaublatt"));
    assert!(shop.sheet_texts("../sheets.de").unwrap().is_none(), "never a path");
}

#[test]
fn an_unknown_language_is_said_not_guessed() {
    let (mut job, answer) = preset("demo-orchard-van");
    job.shop.language = "tlh".into();
    assert!(customer(&job, &answer).contains("Sheet texts are not available in the language \"tlh\""));
    assert_eq!(
        Words::of("tlh", None).unwrap_err().to_string(),
        "there are no sheet texts in the language \"tlh\", only in en, de. Correct the job's shop.language, or add the shop's own texts as sheets.tlh.ron to the folder of the shop's lists"
    );
}

#[test]
fn what_was_printed_from_is_said() {
    let (job, answer) = preset("demo-orchard-van");
    let stamp =
        |printed: Printed<'_>| plain(&sheets::build_with(Kind::Order, &job, &answer, printed, Words::english()));
    let none = plain(&sheets::build(Kind::Order, &job, &answer, None));
    assert!(none.contains("Printed: date ________") && none.contains("not known whether saved"), "{none}");
    let changed = stamp(Printed { saved: Some(false), file: Some("v.ron"), ..Printed::default() });
    assert!(changed.contains("Printed from: v.ron, with unsaved changes"), "{changed}");
    let mut other = job.clone();
    other.notes.push('.');
    let check = |text: &str| text.rsplit_once("check value ").unwrap().1[..8].to_owned();
    let others = plain(&sheets::build(Kind::Order, &other, &answer, None));
    assert_ne!(check(&none), check(&others), "another state of the job, another check value");
    // The usual check of a CRC-32: "123456789" gives cbf43926. Source: R. N. Williams, A painless guide to CRC error
    // detection algorithms, 1993 (from memory).
    assert_eq!(crc32fast::hash(b"123456789"), 0xcbf4_3926);
    let saved = springwright::job::file::text(&job).unwrap();
    assert_eq!(check(&none), format!("{:08x}", crc32fast::hash(saved.as_bytes())));
}

#[test]
fn it_flips_for_a_lighter_engine() {
    let text = plain(kept::named("lighter-engine").sheet(Kind::Customer));
    for part in ["The front now carries 87 kg less", "higher than before", "% softer", "lower than it does now"] {
        assert!(text.contains(part), "{part}: {text}");
    }
    for part in ["stiffer.", "spacers", "more room", "% stiffer"] {
        assert!(!text.contains(part), "{part}: {text}");
    }
    let text = plain(kept::named("demo-orchard-van").sheet(Kind::Customer));
    for part in
        ["The front now carries 98 kg more", "lower than before", "% stiffer", "higher than it does now", "spacers"]
    {
        assert!(text.contains(part), "{part}: {text}");
    }
}

#[test]
fn when_nothing_needs_changing_nothing_is_sold() {
    // As before, on the plan to renew: the old springs still do.
    let (mut job, _) = preset("demo-orchard-van");
    job.after = job.before.clone();
    let answer = solve(&job);
    let text = customer(&job, &answer);
    for part in
        ["The front springs can stay.", "Nothing. You do not need new springs", "The vehicle will ride as it does now."]
    {
        assert!(text.contains(part), "{part}: {text}");
    }
    assert!(!text.contains("EUR") && !text.contains("now, new springs") && !text.contains("New front"), "{text}");
    let order = plain(&sheet(Kind::Order, &job, &answer));
    assert!(order.contains("The old front springs stay: they still give the right height"), "{order}");
    assert!(plain(&sheet(Kind::Fitting, &job, &answer)).contains("No springs are fitted"));
    // As planned, they stay.
    job.front.plan = Plan::Keep;
    let answer = solve(&job);
    assert!(customer(&job, &answer).contains("The front springs stay. They still suit the vehicle."));
    // Heavier by what a driver hardly tells, and by what he does.
    for (kg, stays) in [(4.0, true), (90.0, false)] {
        let (mut job, _) = preset("demo-orchard-van");
        job.after = job.before.clone();
        (job.after.lf, job.after.rf) = (kilograms(412.0 + kg / 2.0), kilograms(398.0 + kg / 2.0));
        let answer = solve(&job);
        assert_eq!(customer(&job, &answer).contains("can stay"), stays, "{kg} kg more");
    }
}

fn kilograms(kg: f64) -> Entry<Mass> {
    Entry::from(format!("{kg} kg").as_str())
}

/// What would be bought, as it is written.
fn picks(job: &Job, answer: &Answer) -> Vec<String> {
    let mut found = Vec::new();
    for side in Side::BOTH {
        let bought = answer.released(side).expect("released").spring.expect("sized");
        found.push(display::rounded(bought.pick, &job.units));
        found.extend(bought.order_length.map(|l| display::rounded(l, &job.units)));
        found.extend(bought.free_length.map(|l| display::rounded(l, &job.units)));
    }
    found
}

#[test]
fn over_a_rating_no_sheet_recommends_anything() {
    let (mut job, _) = preset("overloaded-camper");
    // The axle that is not over its rating would get new springs, too.
    job.front.plan = Plan::NewSprings;
    job.vehicle.rating = Entry::default();
    (job.prices.springs, job.prices.work) = ("130".into(), "180".into());
    let answer = solve(&job);
    assert!(answer.axle(Side::Rear).overloaded && !answer.axle(Side::Front).overloaded);
    let mut inside = job.clone();
    inside.rear.rating = Entry::default();
    let picks = picks(&inside, &solve(&inside));
    assert!(picks.len() >= 4, "{picks:?}");
    for kind in [Kind::Customer, Kind::Fitting, Kind::Order, Kind::Working] {
        let text = plain(&sheet(kind, &job, &answer));
        assert!(text.contains("STOP. The rear axle would carry"), "{text}");
        for word in [
            "new springs,",
            "Stock rate",
            "stock rate nearest",
            "on the new springs",
            "spring rate for the target frequency",
            "damper rate",
            "free length to order",
            "% stiffer",
        ] {
            assert!(!text.contains(word), "{}: {word}: {text}", kind.key());
        }
        if kind != Kind::Working {
            let named: Vec<&String> = picks.iter().filter(|p| text.contains(p.as_str())).collect();
            assert!(named.is_empty(), "{}: {named:?}: {text}", kind.key());
            assert!(!text.contains("N/mm") && !text.contains("310"), "{}: {text}", kind.key());
        }
    }
    // Inside its rating the same job is served.
    job.cases.clear();
    let answer = solve(&job);
    assert!(plain(&sheet(Kind::Order, &job, &answer)).contains("N/mm"));
}

#[test]
fn measured_and_estimated_are_told_apart() {
    let text = plain(kept::named("ledger-first").sheet(Kind::Customer));
    assert!(text.contains("worked out and not weighed") && text.contains("calculated"), "{text}");
    assert!(!text.contains("All weights come from the scales"), "{text}");
    let kept = kept::named("demo-orchard-van");
    let weights = |report: &Report| {
        let row = common::english("row.weight");
        common::tables(report).iter().find_map(|t| t.1.iter().find(|r| r[0] == row).cloned()).expect("weights")
    };
    assert_eq!(weights(kept.sheet(Kind::Customer))[1..], ["810 kg, measured", "908 kg, measured", "908 kg, measured"]);
    let mut job = kept.job.clone();
    springwright::base::units::entry::AnyEntry::set_origin(&mut job.before.lf, Some(Origin::Guessed));
    let report = sheet(Kind::Customer, &job, &solve(&job));
    assert_eq!(weights(&report)[1..], ["810 kg, calculated", "908 kg, measured", "908 kg, measured"]);
}

#[test]
fn from_axle_weights_alone_no_corner_is_made_up() {
    let kept = kept::named("axle-weights-only");
    let (_, rows) = common::tables(kept.sheet(Kind::Fitting))
        .into_iter()
        .find(|t| t.0[0] == common::english("fit.weights"))
        .unwrap();
    let named: Vec<&str> = rows.iter().map(|r| r[0].as_str()).collect();
    assert_eq!(named, ["Front axle", "Rear axle"]);
    assert!(plain(kept.sheet(Kind::Customer)).contains("the front axle went from 860 kg to 920 kg"));
}

#[test]
fn without_weights_from_before_no_change_is_made_up() {
    let (mut job, _) = preset("demo-orchard-van");
    job.before = Default::default();
    let answer = solve(&job);
    let text = customer(&job, &answer);
    assert!(text.contains("it was not weighed before the change"), "{text}");
    assert!(text.contains("We do not know what the front carried before."), "{text}");
    assert!(
        !text.contains("lower than") && !text.contains("higher than before") && !text.contains("0 kg more"),
        "{text}"
    );
    assert!(text.contains("not known"), "{text}");
}

#[test]
fn no_promise_and_no_hertz() {
    let banned =
        ["safe", "safety", "guarantee", "guaranteed", "warrant", "certified", "approved", "legal", "compliant"];
    for shipped in kept::shipped() {
        let text = plain(shipped.sheet(Kind::Customer));
        let words: Vec<String> =
            text.split(|c: char| !c.is_alphabetic()).map(str::to_lowercase).filter(|w| !w.is_empty()).collect();
        for word in banned {
            assert!(!words.iter().any(|w| w == word), "{}: \"{word}\": {text}", shipped.name);
        }
        assert!(!words.iter().any(|w| w == "hz") || text.contains("bounces per second"), "{}", shipped.name);
        // Chosen for ride and height is only what was chosen.
        let buys_nothing = ["overloaded-camper", "points-strut"].contains(&shipped.name.as_str());
        let approval = if buys_nothing { "Road approval" } else { "Sized for ride and height; road approval" };
        assert!(text.contains(&format!("{approval} is up to the licensed inspector.")), "{}", shipped.name);
        // What springs do and what dampers do.
        if text.contains("New front springs") || text.contains("New rear springs") {
            assert!(
                text.contains("A damper makes the bounce die out. Stiff springs alone do not calm the body."),
                "{}",
                shipped.name
            );
        }
    }
}

#[test]
fn names_that_look_like_markup_stay_names() {
    let (mut job, _) = preset("demo-orchard-van");
    job.shop.name = "{end} <script>alert(1)</script>".into();
    job.customer.name = "a|b\n# not a heading\n- nor a list".into();
    job.vehicle.name = "{amount} *van* [x](y) \u{202e}".into();
    job.prices.currency = "| {price}\n".into();
    job.front.taken.rate = "60 N/mm".into();
    (job.front.taken.number, job.front.taken.free_length) = ("A|1 {end}\n\n# x".into(), "362 mm".into());
    let answer = solve(&job);
    for kind in Kind::ALL {
        let report = sheet(kind, &job, &answer);
        let markdown = text::write(&report, Markup::Markdown);
        for line in markdown.lines() {
            assert!(!line.starts_with("# not") && !line.starts_with("- nor") && !line.starts_with("# x"), "{line}");
            assert!(!line.contains("<script"), "{line}");
        }
        let text = text::write(&report, Markup::Plain);
        if kind != Kind::Full {
            assert!(text.contains("{amount} *van*"), "what was typed is not filled in again: {text}");
        }
        assert!(!text.lines().any(|l| l.starts_with("# not") || l.starts_with("- nor")), "{text}");
    }
}

/// Sentences of a customer's sheet: its paragraphs, lists and cautions. Names, tables, blanks and the line that says
/// what it was printed from are no sentences.
fn sentences(report: &Report) -> Vec<String> {
    let mut found = Vec::new();
    for block in &report.blocks {
        match block {
            Block::Text(t) if t.starts_with("Job: ") => {}
            Block::Text(t) | Block::Caution(t) => found.push(t.clone()),
            Block::List(items) => found.extend(items.clone()),
            _ => {}
        }
    }
    // A point between digits ends nothing.
    let split = |t: &String| t.replace(". ", ".\n").lines().map(str::to_owned).collect::<Vec<_>>();
    found.iter().flat_map(split).filter(|s| s.chars().any(char::is_alphabetic)).collect()
}

/// Syllables of an English word: groups of vowels, without a silent e at the end; at least one.
fn syllables(word: &str) -> usize {
    let word = word.to_lowercase();
    let vowel = |c: char| "aeiouy".contains(c);
    let mut groups = 0;
    let mut before = false;
    for c in word.chars() {
        groups += usize::from(vowel(c) && !before);
        before = vowel(c);
    }
    let silent = word.ends_with('e') && !word.ends_with("le")
        || word.ends_with("ed") && !word.ends_with("ted") && !word.ends_with("ded");
    // Vowels that are said apart.
    let apart = ["ia", "io", "ual"].iter().filter(|p| word.contains(*p)).count()
        - usize::from(word.contains("tion") || word.contains("sion"));
    (groups + apart).saturating_sub(usize::from(silent && groups > 1)).max(1)
}

/// Flesch–Kincaid grade: J. P. Kincaid, R. P. Fishburne, R. L. Rogers, B. S. Chissom, Derivation of new readability
/// formulas, Research Branch Report 8-75, 1975; the report was not seen, its coefficients were, in public software.
fn grade(sentences: f64, words: f64, syllables: f64) -> f64 {
    0.39 * words / sentences + 11.8 * syllables / words - 15.59
}

#[test]
fn the_reading_formula_is_the_published_one() {
    // "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.": 1 sentence, 13 words, 26
    // syllables, grade 13.08. Source: README of the open package flesch-kincaid (T. Wormer), seen.
    assert!((grade(1.0, 13.0, 26.0) - 13.08).abs() < 1e-9);
    // Counts of a dictionary, from memory.
    for (word, count) in [
        ("height", 1),
        ("bounces", 2),
        ("measured", 2),
        ("vehicle", 3),
        ("estimated", 4),
        ("axle", 2),
        ("weighed", 1),
        ("rubber", 2),
        ("spring", 1),
        ("dampers", 2),
        ("stiffer", 2),
        ("table", 2),
        ("usual", 3),
        ("compliance", 3),
    ] {
        assert_eq!(syllables(word), count, "{word}");
    }
}

/// The grade of sentences, and of how many words they are.
fn grade_of(sentences: &[String]) -> (f64, usize) {
    let words = sentences.iter().flat_map(|s| s.split(|c: char| !c.is_alphabetic())).filter(|w| !w.is_empty());
    let (count, syllables) = words.fold((0, 0), |(n, s), word| (n + 1, s + syllables(word)));
    (grade(sentences.len() as f64, count as f64, syllables as f64), count)
}

#[test]
fn a_twelve_year_old_can_read_it() {
    for shipped in kept::shipped() {
        let (found, words) = grade_of(&sentences(shipped.sheet(Kind::Customer)));
        println!("{}: grade {found:.1}", shipped.name);
        assert!(found <= 7.0, "{}: grade {found:.1}", shipped.name);
        assert!(found > 0.0 && words > 80, "{}: {words} words", shipped.name);
    }
}

/// The same of the customer's view.
#[test]
fn a_twelve_year_old_can_read_it_on_the_screen() {
    for shipped in kept::shipped() {
        let view = sheets::showing(&shipped.job, shipped.answer(), Words::english());
        let said = view.stages.into_iter().flat_map(|stage| {
            let cautions = stage.cautions.into_iter().map(|(_, text)| Block::Caution(text));
            cautions.chain(stage.says.into_iter().map(Block::Text)).collect::<Vec<_>>()
        });
        let blocks = said.chain([Block::Text(view.words.scale), Block::Text(view.words.slow)]).collect();
        let (found, words) = grade_of(&sentences(&Report { title: String::new(), blocks }));
        println!("{}: grade {found:.1}", shipped.name);
        assert!(found <= 7.0 && words > 40, "{}: grade {found:.1} of {words} words", shipped.name);
    }
}
