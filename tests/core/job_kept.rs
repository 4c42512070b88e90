//! A job within its bounds, its mends, overrules and file; the size and zoom that the window program takes.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::borrow::Cow;
use std::error::Error as _;

use clap::Parser as _;
use springwright::base::bounds::{self, NAME, NOTES};
use springwright::base::units::{DecimalMark, Dim, table};
use springwright::cli::window::WindowArgs;
use springwright::job::bounded::{findings, used};
use springwright::job::file::{has_comments, parse, text};
use springwright::job::overrule::values;
use springwright::job::{
    CurveRow, Job, LeafBy, Load, LoadCase, Mend, Overrule, Plan, RateBy, RatioRow, Store, Walk as _, Way, fields,
};

#[test]
fn every_list_of_a_job_has_a_bound() {
    let mut job = Job { cases: vec![LoadCase::default()], ..Job::default() };
    job.cases[0].loads.push(Load::default());
    let mut lists = Vec::new();
    job.stores(&mut String::new(), &mut |path, store| {
        if let Store::Rows(count) = store {
            let (key, _) = fields::key_of(path).expect("a path");
            assert!(bounds::rows(&key).is_some(), "no bound for {path}");
            lists.push(key.into_owned());
            return count;
        }
        0
    });
    for (list, _) in bounds::LISTS {
        assert!(lists.iter().any(|l| l == list), "no list for {list}");
    }
}

#[test]
fn what_is_beyond_is_kept_said_and_not_used() {
    let mut job = Job::default();
    assert!(matches!(used(&job), Cow::Borrowed(_)));
    job.front.damper.rows = vec![CurveRow::default(); 30_000];
    job.cases = vec![LoadCase::default(); 2_000];
    job.customer.name = "ä".repeat(NAME.count());
    job.notes = "x".repeat(NOTES.count() + 1);
    let found = findings(&job);
    let said: Vec<_> = found.iter().map(|f| (f.rule, f.field.as_str())).collect();
    assert_eq!(said, [("too-many-rows", "cases"), ("too-many-rows", "front.damper.rows"), ("too-long", "notes")]);
    assert!(found[0].text.to_string().starts_with("Load cases: 2000; at most 12 are used."), "{}", found[0].text);
    assert!(
        found[1].text.to_string().starts_with("Front, points of a damper curve: 30000; at most 100 are used."),
        "{}",
        found[1].text
    );
    let used = used(&job);
    assert_eq!((used.cases.len(), used.front.damper.rows.len()), (12, 100));
    assert!(used.notes.is_empty() && used.customer.name == job.customer.name);
    assert!(findings(&used).is_empty());
}

#[test]
fn an_overrule_covers_its_values_and_lapses_with_them() {
    let mut job = Job::default();
    job.front.spring.rate = "310 N/mm".into();
    let fields = ["front.spring.rate".to_owned(), "front.ratio.number".to_owned()];
    let then = values(&job, &fields);
    assert_eq!(then, "front.spring.rate = 310 N/mm; front.ratio.number = blank");
    let mut overrule = Overrule { rule: "frequency-slip".into(), values: then.clone(), initials: " ".into() };
    assert!(!overrule.covers("frequency-slip", &then), "nobody signed it");
    overrule.initials = "JT".into();
    assert!(overrule.covers("frequency-slip", &then) && !overrule.covers("bound", &then));
    job.front.spring.rate = "311 N/mm".into();
    let now = values(&job, &fields);
    assert!(!overrule.covers("frequency-slip", &now) && overrule.has_lapsed("frequency-slip", &now));
}

#[test]
fn fields_choices_and_names_are_set_and_nothing_else() {
    let mut job = Job { parts: vec![Default::default()], ..Job::default() };
    job.front.ratio.rows.push(RatioRow::default());
    let mend = Mend::new("all kinds")
        .set("front.spring.rate", "310 lb/in")
        .set("front.spring.rate_by", "Press")
        .set("rear.spring.leaf.by", "Test")
        .set("front.ratio.rows[0].wheel", "-60 mm")
        .set("parts[0].way", "Out")
        .set("parts[0].what", "old engine")
        .set("decimal", "Comma")
        .set("rear.choice.in_stock_only", "true");
    job.mend(&mend).expect("all of it is there");
    assert_eq!(job.front.spring.rate.text, "310 lb/in");
    assert_eq!((job.front.spring.rate_by, job.rear.spring.leaf.by), (RateBy::Press, LeafBy::Test));
    assert_eq!(job.front.ratio.rows[0].wheel.text, "-60 mm");
    assert_eq!((job.parts[0].way, job.parts[0].what.as_str()), (Way::Out, "old engine"));
    assert!(job.rear.choice.in_stock_only && job.decimal == DecimalMark::Comma);
    let before = job.clone();
    for (path, text) in [
        ("front.spring.rat", "1 N/mm"),
        ("front.spring", "1 N/mm"),
        ("front.spring.rate.text", "1 N/mm"),
        ("front.ratio.rows[1].wheel", "1 mm"),
        ("front.ratio.rows", "1 mm"),
        ("front.spring.rate_by", "Guess"),
        ("parts[0]", "x"),
        ("parts[x].what", "x"),
        ("", "x"),
    ] {
        let wrong = Mend::new("wrong").set("front.spring.rate", "1 N/mm").set(path, text);
        assert_eq!(job.mend(&wrong).expect_err(path).path, path);
        assert_eq!(job, before, "{path}: all or nothing");
    }
}

#[test]
fn numbers_are_retyped_as_a_person_would() {
    let mut job = Job::default();
    job.front.spring.rate = "310N/mm".into();
    job.front.travel.droop = "\u{2212}3 1/4 in".into();
    job.front.travel.metal = "2 in".into();
    job.after.lf = "1,155 lb".into();
    let unit = |dim, symbol| table::find(dim, symbol).expect(symbol);
    assert_eq!(job.in_unit("front.spring.rate", unit(Dim::SpringRate, "lb/in")).as_deref(), Some("310 lb/in"));
    assert_eq!(job.in_unit("after.lf", unit(Dim::Mass, "kg")).as_deref(), Some("1,155 kg"));
    assert_eq!(job.in_unit("after.rf", unit(Dim::Mass, "kg")), None, "nothing is typed");
    assert_eq!(job.negated("front.travel.droop").as_deref(), Some("3 1/4 in"));
    assert_eq!(job.negated("front.travel.metal").as_deref(), Some("-2 in"));
    assert_eq!(job.times("front.travel.metal", 1.5, 4).as_deref(), Some("3 in"));
    job.decimal = DecimalMark::Comma;
    assert_eq!(job.times("front.travel.metal", 1.25, 4).as_deref(), Some("2,5 in"));
}

#[test]
fn a_job_survives_its_file() {
    let mut job = Job::default();
    job.front.spring.rate = "420 lb/in".into();
    job.front.plan = Plan::Keep;
    job.notes = "Ωμέγα \"quoted\" \\ and\nlines".into();
    job.settle_defaults();
    let text = text(&job).expect("writes");
    assert!(text.contains("rate: \"420 lb/in\""), "{text}");
    assert_eq!(parse(&text).expect("reads"), job);
}

#[test]
fn an_empty_job_is_short() {
    assert_eq!(text(&Job::default()).expect("writes"), "(\n  version: 3,\n  job: (),\n)\n");
}

#[test]
fn texts_of_every_kind_hold_no_comments() {
    for text in
        ["\"( // \\\" )\" [\n]", "a: r\"// \\\", b: r#\" // \" /* \"#, r#type: {", "\"never ends // ", "ü / é */"]
    {
        assert!(!has_comments(text), "{text}");
    }
}

#[test]
fn comments_of_both_kinds() {
    for text in ["( // (\n)", "(/* /* ( */ \n */)", "/* never ends", "\"\\\\\" // behind", "r#\"\"#//", "'//"] {
        assert!(has_comments(text), "{text}");
    }
}

/// What the window program makes of one argument: a value, or why it is refused.
fn argument(text: String) -> Result<WindowArgs, String> {
    WindowArgs::try_parse_from(["springwright".to_owned(), text])
        .map_err(|refused| refused.source().map_or_else(|| refused.to_string(), ToString::to_string))
}

#[test]
fn a_zoom_or_size_that_no_window_can_have_is_refused_with_its_range() {
    let zoom = |text: &str| argument(format!("--zoom={text}")).map(|args| args.zoom);
    let size = |text: &str| argument(format!("--size={text}")).map(|args| args.size);
    for text in ["0", "-1", "nan", "inf", "1e9", "0.2", "", "two"] {
        assert_eq!(zoom(text), Err("a number from 0.25 to 5, 1 for normal size".to_owned()), "{text}");
    }
    assert_eq!((zoom("0.25"), zoom("2")), (Ok(Some(0.25)), Ok(Some(2.0))));
    for text in ["0x0", "-800x-600", "nanx800", "1280xinf", "1e9x1e9", "1280", "99x800"] {
        let refused = size(text).expect_err(text);
        assert!(refused.contains("each from 100 to 16,000"), "{text}: {refused}");
    }
    assert_eq!(size("1280x800"), Ok(Some([1280.0, 800.0])));
}
