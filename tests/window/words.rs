//! Every text of the program is in the table of texts, and the second language is complete.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use springwright::base::bounds;
use springwright::base::language::{self, Language, MARKS, Voice, speak};
use springwright::base::progress::Watch;
use springwright::base::units::{DecimalMark, UnitChoice};
use springwright::choose::draws::Draws;
use springwright::choose::{choose, damper_choice};
use springwright::job::fields::FIELDS;
use springwright::job::typical::TYPICAL;
use springwright::job::{Job, Side, file};
use springwright::report::Block;
use springwright::report::Report;
use springwright::report::results;
use springwright::report::sections::sentence;
use springwright::report::sheets::words::placeholders;
use springwright::shop::lists::Shop;
use springwright::shop::presets::PRESETS;
use springwright::solve::solve;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            found.extend(files(&path, ending));
        } else if path.extension().is_some_and(|e| e == ending) {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// What stands between the quotes of a literal that begins at the start of `source`, as the compiler reads it.
fn literal(source: &str) -> Option<String> {
    let mut chars = source.strip_prefix('"')?.chars().peekable();
    let mut out = String::new();
    while let Some(c) = chars.next() {
        match c {
            '"' => return Some(out),
            '\\' => match chars.next()? {
                'n' => out.push('\n'),
                't' => out.push('\t'),
                '\n' => while chars.next_if(|c| c.is_whitespace()).is_some() {},
                'u' => {
                    let code: String = chars.by_ref().skip(1).take_while(|c| *c != '}').collect();
                    out.push(char::from_u32(u32::from_str_radix(&code, 16).ok()?)?);
                }
                other => out.push(other),
            },
            other => out.push(other),
        }
    }
    None
}

/// The sources without their tests and comments.
fn sources() -> Vec<(PathBuf, String)> {
    let shipped = |path: PathBuf| {
        let text = std::fs::read_to_string(&path).expect("a source");
        let text = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default().to_owned();
        let code: Vec<&str> = text.lines().filter(|l| !l.trim_start().starts_with("//")).collect();
        (path, code.join("\n"))
    };
    files(&root().join("src"), "rs").into_iter().map(shipped).collect()
}

/// Every text that is said by a literal, with the file that says it.
fn said_in_sources() -> BTreeMap<String, PathBuf> {
    let mut said = BTreeMap::new();
    for (path, code) in sources() {
        if path.ends_with("language.rs") {
            continue;
        }
        for call in ["tr(", "say!(", "message!(", "Word("] {
            for (at, _) in code.match_indices(call) {
                if code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_') {
                    continue;
                }
                if let Some(text) = literal(code[at + call.len()..].trim_start()) {
                    said.insert(text, path.clone());
                }
            }
        }
    }
    said
}

/// Texts of the tables of data, which are said where they are shown.
fn said_by_data() -> BTreeSet<String> {
    let mut said = BTreeSet::new();
    // In English a text is itself.
    for field in FIELDS {
        said.extend([field.label().to_string(), field.help().to_string()]);
        for units in [UnitChoice::metric(), UnitChoice::pound_inch()] {
            for side in Side::BOTH {
                let mut job = Job { units, ..Job::default() };
                said.extend(field.when_blank(&job, side).map(|b| b.1.to_string()));
                for s in Side::BOTH {
                    job.axle_mut(s).kind = springwright::job::AxleKind::Beam;
                }
                said.extend(field.when_blank(&job, side).map(|b| b.1.to_string()));
            }
        }
    }
    said.extend(PRESETS.iter().map(|p| p.title.to_owned()));
    said.extend(bounds::LISTS.iter().map(|(_, bound)| bound.what.to_owned()));
    let of_logos = [&bounds::LOGO_ELEMENTS, &bounds::LOGO_NESTED, &bounds::LOGO_SEGMENTS, &bounds::LOGO_LAYERS];
    said.extend(of_logos.into_iter().chain([&bounds::LOGO_TEXT]).map(|bound| bound.unit.to_owned()));
    said.extend(springwright::trade::road::weighting::REACTIONS.iter().map(|r| r.words.to_owned()));
    said.extend(TYPICAL.iter().map(|t| t.0.to_owned()));
    #[cfg(feature = "gui-test")]
    {
        use springwright::gui::{help::glossary::TERMS, widgets::rows::TABLES};
        said.extend(TERMS.iter().flat_map(|(word, means)| [(*word).to_owned(), (*means).to_owned()]));
        said.extend(TABLES.iter().flat_map(|t| t.columns).map(|(_, caption)| (*caption).to_owned()));
    }
    said
}

/// Shipped jobs and those of the tests, by name.
fn jobs() -> Vec<(String, Job)> {
    let mut jobs: Vec<(String, Job)> = PRESETS.iter().map(|p| (p.name.to_owned(), p.job())).collect();
    for folder in ["tests/kinds", "tests/doubtful", "tests/bad"] {
        for path in files(&root().join(folder), "ron") {
            let text = std::fs::read_to_string(&path).unwrap_or_default();
            if let Ok(job) = file::parse(&text) {
                jobs.push((path.display().to_string(), job));
            }
        }
    }
    jobs
}

/// What of a text stands between no marks: it is not in the table.
pub fn unmarked(text: &str) -> String {
    let mut depth = 0_usize;
    let mut out = String::new();
    for c in text.chars() {
        match c {
            c if c == MARKS[0] => depth += 1,
            c if c == MARKS[1] => depth = depth.saturating_sub(1),
            c if depth == 0 => out.push(c),
            _ => out.push(if out.ends_with(' ') { '\0' } else { ' ' }),
        }
    }
    out.replace('\0', "")
}

/// Words of a text that no table has: neither marked, nor a unit or symbol, nor typed by the user.
pub fn strangers(text: &str, typed: &str) -> Vec<String> {
    const UNITS: [&str; 14] =
        ["lbf", "kgf", "psi", "ksi", "MPa", "GPa", "bar", "mph", "cpm", "kPa", "rad", "PDF", "springwright", "Ctrl"];
    unmarked(text)
        .split(|c: char| !c.is_alphabetic())
        .filter(|w| w.chars().count() >= 3 && !UNITS.contains(w) && !typed.contains(w))
        .map(str::to_owned)
        .collect()
}

fn marked() -> Voice {
    Voice { language: Language::Marked, mark: DecimalMark::Point }
}

/// Words that are in no table, of everything that is said about every job: said once for all tests.
static STRANGE: LazyLock<BTreeSet<String>> = LazyLock::new(say_everything);

/// Says everything about every job in the marked language; gives back words that are in no table.
fn say_everything() -> BTreeSet<String> {
    let _voice = speak(marked());
    let mut strange = BTreeSet::new();
    for (name, job) in jobs() {
        let typed = file::text(&job).expect("a text");
        let answer = solve(&job);
        let mut look = |what: &str, said: &str| {
            let words = strangers(said, &typed);
            if !words.is_empty() {
                strange.insert(format!("{what}: {words:?} in \"{said}\" ({name})"));
            }
        };
        answer.findings.iter().for_each(|f| look("finding", &f.text.to_string()));
        for side in Side::BOTH {
            let sentence = sentence::axle(&answer, answer.axle(side), &job.units);
            look("sentence", &sentence.answer);
            look("certainty", &sentence.certainty);
        }
        for figure in results::figures(&answer) {
            look("figure", &figure.name);
            look("convention", figure.convention);
        }
        let report = springwright::report::sheets::sheet::build(&job, &answer);
        strange.extend(strange_texts(&report, &typed, "sheet"));
    }
    strange
}

/// The choice from the demo list, told in the marked language.
fn choose_in_marks() -> BTreeSet<String> {
    let _voice = speak(marked());
    let job = springwright::shop::presets::demo();
    let answer = solve(&job);
    let opened = Shop::nowhere().open("demo", None).expect("the demo list");
    let springs = &opened.list.springs;
    let found = Side::BOTH.map(|side| {
        let draws = Draws { count: 200, seed: 1 };
        let choice = choose(&job, &answer, side, springs, draws, &Watch::default()).transpose();
        (side, choice.expect("not cancelled"))
    });
    springwright::report::results::runs(Err(&springwright::solve::road::NoRuns::NotKnown));
    for side in Side::BOTH {
        let (axle, dampers) = (answer.axle(side), &opened.list.dampers);
        let ranked = damper_choice::rank(&job, &answer, side, dampers);
        results::dampers_of_list(axle, ranked.as_ref().map_err(|e| *e), dampers, "");
    }
    let report = springwright::report::sections::choose::build(&job, &opened.name, &opened.list, &found);
    let typed = format!("{}{:?}", file::text(&job).expect("a text"), opened.list);
    strange_texts(&report, &typed, "choice")
}

/// Every text of a report, each whole.
fn texts_of(report: &Report) -> Vec<&str> {
    let mut texts = vec![report.title.as_str()];
    for block in &report.blocks {
        match block {
            Block::Heading(text) | Block::Text(text) | Block::Caution(text) => texts.push(text),
            Block::List(lines) | Block::Steps(lines) | Block::Blanks(lines) => {
                texts.extend(lines.iter().map(String::as_str))
            }
            Block::Table { head, rows } => {
                texts.extend(head.iter().chain(rows.iter().flatten()).map(String::as_str));
            }
            Block::Drawing(_) => {}
        }
    }
    texts
}

fn strange_texts(report: &Report, typed: &str, what: &str) -> BTreeSet<String> {
    let texts = texts_of(report).into_iter().map(|text| (strangers(text, typed), text));
    let strange = texts.filter(|(words, _)| !words.is_empty());
    strange.map(|(words, text)| format!("{what}: {words:?} in \"{text}\"")).collect()
}

/// Texts that must be in the table.
fn needed() -> BTreeSet<String> {
    let mut needed: BTreeSet<String> = said_in_sources().into_keys().collect();
    needed.extend(said_by_data());
    LazyLock::force(&STRANGE);
    choose_in_marks();
    needed.extend(language::asked_for().into_iter().map(str::to_owned));
    needed.retain(|text| text.chars().any(char::is_alphabetic));
    needed
}

fn german() -> BTreeMap<String, String> {
    let file = std::fs::read_to_string(root().join("assets/words.de.ron")).expect("the table");
    language::table(&file).expect("a table of texts").into_iter().collect()
}

/// `UPDATE=1 cargo test --features gui-test --test window words::` puts what is missing into the table, with nothing for its text.
#[test]
fn the_second_language_is_complete() {
    let (needed, german) = (needed(), german());
    let missing: Vec<&String> = needed.iter().filter(|t| german.get(*t).is_none_or(String::is_empty)).collect();
    let code: String = sources().into_iter().map(|s| s.1).collect();
    if std::env::var_os("UPDATE").is_some() {
        let quoted = |t: &str| format!("\"{}\"", t.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\n"));
        let line = |t: &String| format!("    {}: {},\n", quoted(t), quoted(german.get(t).map_or("", String::as_str)));
        // What other tests ask for stays: it is in the code.
        let in_code = german.keys().filter(|t| code.contains(&format!("{t:?}")));
        let lines: String = needed.iter().chain(in_code).collect::<BTreeSet<_>>().into_iter().map(line).collect();
        let head = "// Die Texte des Programms: der englische, wie er im Programm steht, und der deutsche.\n";
        file::write_text(&root().join("assets/words.de.ron"), &format!("{head}{{\n{lines}}}\n")).expect("written");
    }
    assert!(
        missing.is_empty(),
        "{} texts have no German, among them {:#?}",
        missing.len(),
        &missing[..missing.len().min(30)]
    );
    let unused: Vec<&String> =
        german.keys().filter(|t| !needed.contains(*t) && !code.contains(&format!("{t:?}"))).collect();
    assert!(unused.is_empty(), "{} texts of the table are said nowhere: {unused:#?}", unused.len());
}

#[test]
fn a_text_and_its_german_have_the_same_placeholders() {
    let wrong: Vec<String> = german()
        .iter()
        .filter(|(text, german)| !german.is_empty() && placeholders(text) != placeholders(german))
        .map(|(text, german)| format!("\"{text}\": \"{german}\""))
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// A ratio is written with a colon in German.
#[test]
fn german_ratios_have_a_colon() {
    let off: Vec<String> = german().into_values().filter(|text| text.contains('÷')).collect();
    assert!(off.is_empty(), "{off:#?}");
}

#[test]
fn nothing_is_said_past_the_table() {
    let strange = &*STRANGE;
    assert!(
        strange.is_empty(),
        "{} such texts, among them {:#?}",
        strange.len(),
        strange.iter().take(60).collect::<Vec<_>>()
    );
    let strange = choose_in_marks();
    assert!(strange.is_empty(), "{strange:#?}");
}

#[test]
fn numbers_follow_the_voice_and_results_do_not() {
    let job = springwright::shop::presets::demo();
    let told = |voice: Voice| {
        let _voice = speak(voice);
        let answer = solve(&job);
        let figures = results::figures(&answer);
        let values: Vec<Option<f64>> = figures.iter().map(|f| f.si).collect();
        (sentence::axle(&answer, answer.axle(Side::Front), &job.units).answer, values, answer.findings.len())
    };
    let english = told(Voice::default());
    let german = told(Voice { language: Language::German, mark: DecimalMark::Comma });
    assert_ne!(english.0, german.0);
    assert!(german.0.contains(','), "{}", german.0);
    assert_eq!((english.1, english.2), (german.1, german.2));
}

#[cfg(feature = "gui-test")]
use crate::common::driven;

/// What the window says in the marked language: every name and text of its tree at every step.
#[cfg(feature = "gui-test")]
#[test]
fn the_window_says_nothing_past_the_table() {
    use driven::run;
    use egui_kittest::kittest::NodeT as _;
    use springwright::gui::state::command::{Command, FileCommand, HelpCommand, ListCommand};
    use springwright::gui::state::files::Purpose;
    use springwright::gui::{App, PasteInto, Step};

    let mut strange = BTreeSet::new();
    let mut count = 0;
    let mut look = |harness: &egui_kittest::Harness<'_, App>, place: &str| {
        let shipped: String = match place {
            "jobs" => PRESETS.iter().map(|p| format!("{}{}", p.name, p.text)).collect(),
            _ => String::new(),
        };
        let list = String::from_utf8_lossy(springwright::shop::parts::demo());
        let typed = format!(
            "{} {shipped} {list} {TYPED} {}",
            file::text(harness.state().job()).expect("a text"),
            env!("CARGO_MANIFEST_DIR")
        );
        for node in harness.root().children_recursive() {
            let node = node.accesskit_node();
            // A line of a text that stands whole above it.
            if node.role() == eframe::egui::accesskit::Role::TextRun {
                continue;
            }
            for said in [node.label(), node.value(), node.data().description().map(str::to_owned)].into_iter().flatten()
            {
                count += 1;
                let words = strangers(&said, &typed);
                if !words.is_empty() {
                    strange.insert(format!("{words:?} in \"{said}\" ({place})"));
                }
            }
        }
    };
    // Names of languages and papers, formulas, what the demo list and the places of files say.
    const TYPED: &str = "English Deutsch Letter rad Wahl springwright orchard presets";
    for preset in PRESETS {
        let mut harness = driven::window(App::on(preset.job()).speaking(Language::Marked), 2400.0);
        for step in Step::ALL {
            for side in Side::BOTH {
                harness.state_mut().command(Command::Step(step));
                run(&mut harness, Command::Axle(side));
                look(&harness, &format!("{} {step:?}", preset.name));
            }
        }
    }
    let mut harness = driven::window(App::on(springwright::shop::presets::demo()).speaking(Language::Marked), 2400.0);
    for (place, command) in [
        ("guide", Command::Help(HelpCommand::Guide(Some(0)))),
        ("words", Command::Help(HelpCommand::Words)),
        ("findings", Command::Findings),
        ("details", Command::Details("front.spring.rate".into())),
        ("field", Command::GoTo("front.spring.rate".into())),
        ("about", Command::Help(HelpCommand::Field)),
        ("paste", Command::Paste(PasteInto::Weighing)),
        ("paste rows", Command::Paste(PasteInto::Rows("parts".into()))),
        ("typed path", Command::NoDialog(Purpose::SaveJob)),
        ("whole list", Command::Step(Step::Choose)),
        ("whole list", Command::List(ListCommand::Whole(true))),
        ("jobs", Command::File(FileCommand::Jobs(Some("presets".into())))),
    ] {
        run(&mut harness, command);
        look(&harness, place);
        if place == "words" {
            run(&mut harness, Command::Help(HelpCommand::Words));
        }
    }
    let german = german();
    let asked: BTreeSet<&str> = language::asked_for().into_iter().collect();
    let missing: Vec<&&str> =
        asked.iter().filter(|t| t.chars().any(char::is_alphabetic) && !german.contains_key(**t)).collect();
    assert!(missing.is_empty(), "{} texts of the window have no German: {missing:#?}", missing.len());
    assert!(count > 10_000, "only {count} texts were looked at");
    assert!(strange.is_empty(), "{} such texts: {:#?}", strange.len(), strange.iter().take(80).collect::<Vec<_>>());
}

#[test]
fn a_shipped_job_is_the_same_job_in_every_language() {
    for preset in PRESETS {
        let (english, german) = (preset.job(), preset.job_in(Language::German));
        assert_eq!((german.decimal, german.shop.language.as_str()), (DecimalMark::Comma, "de"), "{}", preset.name);
        let values =
            |job: &Job| results::figures(&solve(job)).into_iter().map(|f| (f.key, f.si, f.u_si)).collect::<Vec<_>>();
        assert_eq!(values(&english), values(&german), "{}", preset.name);
    }
}
