//! The units shown change words, never a result; and a job in pounds and inches is told in pounds and inches.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use springwright::base::language::spoken;
use springwright::base::units::{Dim, UnitChoice, choice, table};
use springwright::job::{Defaults, Job, file};
use springwright::report::sections::road_tables;
use springwright::report::sheets::Kind;
use springwright::report::write::json;
use springwright::report::write::text::{self, Markup};
use springwright::shop::presets;
use springwright::solve::answer::Answer;
use springwright::solve::solve;

use crate::common::effort::some;
use crate::common::kept;
use crate::common::sheets;

/// The n-th unit of every quantity, the last one where there are fewer.
fn nth_units(n: usize) -> UnitChoice {
    let mut units = UnitChoice::metric();
    for (dim, _) in choice::DIMS {
        if let Some(unit) = table::of(dim).nth(n).or(table::of(dim).last()) {
            units.set(unit);
        }
    }
    units
}

/// A result by its name: value and ±.
type Named = (String, [Option<f64>; 2]);

/// Every result with its ±, what is found, what is assumed: all without words.
fn results(job: &Job, answer: &Answer) -> (Vec<Named>, Vec<String>) {
    let value = json::value(job, answer);
    let results = value["results"].as_array().expect("a list");
    let numbers = results.iter().map(|r| {
        let key = r["key"].as_str().expect("a name").to_owned();
        (key, [r["value"].as_f64(), r["u"].as_f64()])
    });
    let findings = answer.findings.iter().map(|f| format!("{} {} {}", f.level.key(), f.rule, f.field));
    let defaults = answer.defaults.iter().map(|d| format!("{} {:?}", d.path, d.si));
    (numbers.collect(), findings.chain(defaults).collect())
}

fn same(name: &str, shown: &str, (numbers, words): &(Vec<Named>, Vec<String>), other: &Job) {
    let (other, other_words) = results(other, &solve(other));
    assert_eq!(*words, other_words, "{name}, {shown}");
    assert_eq!(numbers.len(), other.len(), "{name}, {shown}");
    for ((key, a), (other_key, b)) in numbers.iter().zip(&other) {
        assert_eq!(key, other_key, "{name}, {shown}");
        for (a, b) in a.iter().zip(b) {
            let near = match (a, b) {
                (Some(a), Some(b)) => (a - b).abs() <= 1e-12 * a.abs().max(1e-3),
                (a, b) => a.is_none() && b.is_none(),
            };
            assert!(near, "{name}, {shown}, {key}: {a:?} {b:?}");
        }
    }
}

/// Every unit of every quantity is shown once, for every shipped job.
#[test]
fn the_units_shown_change_no_result_of_any_shipped_job() {
    let most = choice::DIMS.iter().map(|(dim, _)| table::of(*dim).count()).max().expect("units");
    for kept in some(kept::shipped()) {
        let found = results(&kept.job, kept.answer());
        for n in 0..most {
            same(&kept.name, &format!("unit {n}"), &found, &Job { units: nth_units(n), ..kept.job.clone() });
        }
    }
}

/// One at a time, and through the file: it keeps the system of defaults whatever is shown.
#[test]
fn one_unit_shown_and_a_file_between_change_nothing() {
    let job = presets::demo();
    let found = results(&job, &solve(&job));
    for (dim, key) in choice::DIMS {
        for unit in table::of(dim) {
            let mut shown = job.clone();
            shown.units.set(unit);
            let again = file::parse(&file::text(&shown).expect("writes")).expect("reads");
            assert_eq!(again, shown, "{key} {}", unit.symbol);
            assert_eq!(again.defaults, Defaults::Metric);
            if dim == Dim::SpringRate {
                same("demo", unit.symbol, &found, &again);
            }
        }
    }
}

/// A file from before the field: the defaults are those of the units it shows, and stay so when others are shown.
#[test]
fn an_old_file_keeps_the_defaults_it_had() {
    for (rate, defaults, step) in [("lb/in", Defaults::PoundInch, "25 lb/in"), ("N/mm", Defaults::Metric, "5 N/mm")] {
        let text = format!("(version: 1, job: (units: (spring_rate: \"{rate}\")))");
        let mut job = file::parse(&text).expect("reads");
        assert_eq!(job.defaults, defaults);
        for units in [UnitChoice::metric(), UnitChoice::pound_inch()] {
            job.units = units;
            let (field, _) = springwright::job::fields::by_path("front.stock.step").expect("a field");
            let default = field.when_blank(&job, springwright::job::Side::Front).expect("a default");
            assert_eq!(default.0, step);
        }
    }
    let said = file::parse("(version: 1, job: (units: (spring_rate: \"lb/in\"), defaults: Metric))").expect("reads");
    assert_eq!(said.defaults, Defaults::Metric, "what is said counts");
}

/// Symbols of metric units, longest first.
const METRIC: [&str; 34] = [
    "N·s/mm", "kN·s/m", "N·m/rad", "N·s/m", "kgf/mm", "N·m/°", "km/h", "mm/s", "m/s²", "N/mm²", "N/mm", "kN/m", "N/m",
    "m/s", "mm²", "cm²", "mm³", "cm³", "GPa", "MPa", "kPa", "bar", "kgf", "kN", "kJ", "km", "kg", "mm", "cm", "m²",
    "m", "N", "J", "L",
];

/// Metric units that follow a number, outside brackets: those may repeat what stands before in pounds and inches.
fn metric_first(text: &str) -> Vec<String> {
    let mut depth = 0_usize;
    let open: String = text
        .chars()
        .map(|c| {
            match c {
                '(' => depth += 1,
                ')' => depth = depth.saturating_sub(1),
                _ => {}
            }
            if depth > 0 { '·' } else { c }
        })
        .collect();
    let is_word = |c: char| c.is_alphanumeric() || "/²³°·".contains(c);
    let chars: Vec<char> = open.chars().collect();
    let mut found = Vec::new();
    for i in 1..chars.len() {
        let number_before = chars[i - 1].is_ascii_digit()
            || (" \u{a0}".contains(chars[i - 1]) && i > 1 && chars[i - 2].is_ascii_digit());
        if !number_before || chars[i].is_ascii_digit() || !chars[i].is_alphabetic() {
            continue;
        }
        let word: String = chars[i..].iter().take_while(|c| is_word(**c)).collect();
        if METRIC.contains(&word.as_str()) {
            let from = i.saturating_sub(50);
            found.push(chars[from..(i + word.chars().count()).min(chars.len())].iter().collect());
        }
    }
    found
}

/// All that is told of a job: findings, sentences, defaults, every sheet, rough roads, names of the figures.
fn all_texts(job: &Job, kinds: &[Kind]) -> String {
    let answer = solve(job);
    // A finding that can be mended names what would be typed, in its own unit.
    let findings = answer.findings.iter().filter(|f| f.mends.is_empty());
    let mut said: Vec<String> = findings.map(|f| f.text.to_string()).collect();
    said.extend(answer.defaults.iter().map(|d| format!("{}: {}", d.text, d.reason)));
    said.extend(kinds.iter().map(|kind| text::write(&sheets::sheet(*kind, job, &answer), Markup::Markdown)));
    said.join("\n")
}

fn in_pounds(job: &Job) -> Job {
    Job { units: UnitChoice::pound_inch(), defaults: Defaults::PoundInch, ..job.clone() }
}

/// Jobs in which much was typed in metric units: shown in pounds and inches, nothing metric comes first.
#[test]
fn nothing_metric_comes_first_in_pounds_and_inches() {
    let mut seen = Vec::new();
    for kept in some(kept::with_shipped(&["doubtful", "bad", "kinds"])) {
        let (name, job) = (&kept.name, in_pounds(&kept.job));
        let of_findings = name.contains("tests/doubtful") || name.contains("tests/bad");
        let kinds = if of_findings { &[][..] } else { &Kind::ALL };
        let found = metric_first(&without_typed(&job, all_texts(&job, kinds)));
        seen.extend(found.into_iter().map(|text| format!("{name}: {text}")));
    }
    assert!(seen.is_empty(), "{}", seen.join("\n"));
}

/// What was typed is repeated as it was typed: it is not a unit of the program's choice.
fn without_typed(job: &Job, mut text: String) -> String {
    use springwright::job::Walk;
    let mut typed = vec![job.vehicle.name.clone(), job.vehicle.change.clone(), job.notes.clone()];
    for order in [&job.front.order, &job.rear.order] {
        let texts = [&order.ends, &order.finish, &order.hand, &order.eyes, &order.clips, &order.splines];
        let sizes = [&order.upper_mount, &order.lower_mount, &order.u_bolts, &order.damper_points];
        typed.extend(texts.into_iter().chain(sizes).cloned());
    }
    job.walk(&mut String::new(), &mut |_, entry| {
        typed.extend([entry.text().trim().to_owned(), entry.pm().0.trim().to_owned()]);
    });
    for own in typed.iter().filter(|t| t.len() > 2) {
        for quoted in [format!("\"{own}\""), own.clone()].iter().filter(|q| q.len() > 8 || q.starts_with('"')) {
            text = text.replace(quoted.as_str(), "");
        }
    }
    text
}

/// Runs over roads and every picture, for the demo.
#[test]
fn runs_are_told_in_pounds_and_inches() {
    let job = in_pounds(&presets::demo());
    let answer = solve(&job);
    let driven = springwright::solve::road::drive(&job, &answer, |_| true);
    assert!(driven.is_ok(), "the demo can be run");
    let said = text::write(&road_tables::build(&job, &answer, &driven), Markup::Plain);
    assert!(said.contains("ft/s²") && said.contains("mph") && said.contains("per mile"), "{said}");
    assert_eq!(metric_first(&said), Vec::<String>::new());
    for (dim, key) in choice::DIMS {
        let symbol = job.units.unit(dim).symbol;
        assert!(!METRIC.contains(&symbol), "{key} is shown in {symbol}");
    }
    assert_eq!(spoken().mark, job.decimal);
}

/// The walk finds what it looks for.
#[test]
fn the_walk_finds_metric_units() {
    assert_eq!(metric_first("about 12 mm and 1.5 kg").len(), 2);
    assert_eq!(metric_first("1/2 in (13 mm), 300 mi (500 km)").len(), 0);
    assert_eq!(metric_first("8.7 N/mm; 1.2 m/s² or 32 ft/s²").len(), 2);
    assert_eq!(metric_first("45 lbf at 5 in/s, 40 mph, 12 psi, 1.2 Hz, 3 months").len(), 0);
}
