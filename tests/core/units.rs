//! Units, words and messages, and numbers as text: what each says and reads.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use springwright::base::bounds::{SPEED, TRAVEL, all, grouped};
use springwright::base::language::{Language, Voice, Word, filled, speak, spoken};
use springwright::base::message::Message;
use springwright::base::units::display::{
    as_shown, as_sold, full_si, measured_si, rounded, rounded_with_u, sixteenths,
};
use springwright::base::units::entry::{AnyEntry, Earlier};
use springwright::base::units::parse::number;
use springwright::base::units::table::{self, UNITS, find, find_any};
use springwright::base::units::{
    Amount, DecimalMark, Dim, Entry, Frequency, Length, Mass, Origin, Quantity, SpringRate, UnitChoice, weight,
};
use springwright::report::decimal::{behind_the_point, off_the_edge};
use springwright::report::write::text::{Markup, write};
use springwright::report::{Block, Report};
use springwright::{message, say};

#[test]
fn placeholders_are_filled_and_numbers_marked() {
    let rate = "49.5 N/mm";
    assert_eq!(say!("{rate} at {share:.1} %", rate, share = 3.26), "49.5 N/mm at 3.3 %");
    let _voice = speak(Voice { language: Language::English, mark: DecimalMark::Comma });
    assert_eq!(say!("{{{rate}}} at {share:+.1} %", rate, share = 3.26), "{49.5 N/mm} at +3,3 %");
    assert_eq!(say!("nothing in braces"), "nothing in braces");
    assert_eq!(filled("a } alone, {rate} {else} {", &[("rate", &rate)]), "a } alone, 49.5 N/mm {else} {");
}

#[test]
fn a_voice_ends_with_its_guard() {
    let before = spoken();
    {
        let _german = speak(Voice { language: Language::German, mark: DecimalMark::Comma });
        assert_eq!(spoken().language, Language::German);
    }
    assert_eq!(spoken(), before);
}

#[test]
fn languages_by_their_letters() {
    assert_eq!(Language::of("de_AT.UTF-8"), Some(Language::German));
    assert_eq!(Language::of("en"), Some(Language::English));
    assert_eq!(Language::of("fr_FR"), None);
    assert_eq!(Language::of("C"), None);
}

#[test]
fn one_message_is_said_in_every_voice() {
    let side = Word("Front");
    let left = Amount::rounded(Length::from_si(0.0125), &UnitChoice::pound_inch());
    let message = message!("{side}: {share:+.1} % of {rows}, {left}", side, share = -3.26, rows = 2_usize, left);
    let message = message.and(Word("Rear")).and("as typed, 1.5");
    assert_eq!(message.to_string(), "Front: −3.3 % of 2, 1/2 in Rear as typed, 1.5");
    assert_eq!(message, message.clone());
    let _voice = speak(Voice { language: Language::German, mark: DecimalMark::Comma });
    assert_eq!(message.to_string(), "Vorn: −3,3 % of 2, 1/2 in Hinten as typed, 1.5");
}

#[test]
fn rows_quotes_and_words_inside_a_sentence() {
    let row = Message::row([Word("Front"), Word("Rear")].map(|side| Message::from(side).inside()), "; ");
    assert_eq!(row.to_string(), "front; rear");
    assert_eq!(Message::from("towing").quoted().to_string(), "\"towing\"");
    assert_eq!(message!("{nothing}", nothing = f64::NAN), message!("{nothing}", nothing = f64::NAN));
    assert_ne!(message!("{nothing}", nothing = 0.0), message!("{nothing}", nothing = -0.0));
}

#[test]
fn every_bound_has_a_reason_and_an_order() {
    let mut names = Vec::new();
    for bound in all() {
        assert!(bound.why.len() > 10 && bound.most > bound.least && bound.least >= 0.0, "{bound:?}");
        names.push(bound.what);
    }
    names.sort_unstable();
    assert!(names.windows(2).all(|n| n[0] != n[1]), "two bounds with one name");
    assert!(names.len() > 50);
}

#[test]
fn numbers_are_grouped_by_thousands() {
    let said = [200_000.0, 999.0, 1_000.0, 0.25, 1e12, 2_000_000.0].map(grouped);
    assert_eq!(said, ["200,000", "999", "1,000", "0.25", "1,000,000,000,000", "2,000,000"]);
}

#[test]
fn a_value_is_held_whatever_its_sign() {
    assert!(SPEED.holds(SPEED.least) && SPEED.holds(SPEED.most) && TRAVEL.holds(-1.0));
    assert!(!SPEED.holds(SPEED.least / 2.0) && !TRAVEL.holds(-2.1) && !TRAVEL.holds(f64::NAN));
}

#[test]
fn quantities_keep_their_si_value() {
    assert_eq!(SpringRate::from_si(87_563.4).si(), 87_563.4);
    assert_eq!(weight(Mass::from_si(2.0)).si(), 19.6133);
}

#[test]
fn spelling_is_forgiven_but_not_meaning() {
    assert_eq!(find(Dim::Mass, "LBS").map(|u| u.symbol), Some("lb"));
    assert_eq!(find(Dim::SpringRate, "lbf/in").map(|u| u.symbol), Some("lb/in"));
    assert!(find(Dim::SpringRate, "lb").is_none());
    assert_eq!(find_any("psi").map(|u| u.dim), Some(Dim::Pressure));
}

#[test]
fn no_spelling_stands_for_two_units_of_one_dimension() {
    for a in UNITS {
        for b in UNITS.iter().filter(|b| b.dim == a.dim && b.symbol != a.symbol) {
            for s in std::iter::once(&a.symbol).chain(a.also) {
                assert!(b.symbol != *s && !b.also.contains(s), "{s} is both {} and {}", a.symbol, b.symbol);
            }
        }
    }
}

#[test]
fn a_choice_survives_a_file_and_a_bad_unit_is_named() {
    let choice = UnitChoice::pound_inch();
    let text = ron::to_string(&choice).expect("writes");
    assert_eq!(ron::from_str::<UnitChoice>(&text).expect("reads"), choice);
    let error = ron::from_str::<UnitChoice>("(mass: \"psi\")").expect_err("a pressure is no mass");
    assert!(error.to_string().contains("units.mass: \"psi\" is not a unit for a mass; use kg, lb, g or t"));
}

fn parsed(text: &str, dim: Dim, mark: DecimalMark) -> (f64, &'static str, bool) {
    match number(text, dim, mark) {
        Ok(n) => (n.value, n.unit.symbol, n.ambiguous),
        Err(e) => panic!("{text}: {e}"),
    }
}

#[test]
fn forms_a_fitter_types() {
    use DecimalMark::{Comma, Point};
    for (text, mark, value, unit, ambiguous) in [
        ("1155 lb", Point, 1155.0, "lb", false),
        ("1,155 lb", Point, 1155.0, "lb", true),
        ("1,155 lb", Comma, 1.155, "lb", false),
        ("1.155 lb", Comma, 1155.0, "lb", true),
        ("1 155 lb", Point, 1155.0, "lb", false),
        ("1\u{202f}155,5 kg", Comma, 1155.5, "kg", false),
        ("1,155.5lb", Point, 1155.5, "lb", false),
        ("1.155,5lb", Point, 1155.5, "lb", false),
        ("0,155 kg", Point, 0.155, "kg", false),
        ("12,345,678 g", Point, 12_345_678.0, "g", false),
        ("985,5 LBS", Point, 985.5, "lb", false),
        ("+12 kg", Point, 12.0, "kg", false),
        ("\u{2212}12 kg", Point, -12.0, "kg", false),
    ] {
        assert_eq!(parsed(text, Dim::Mass, mark), (value, unit, ambiguous), "{text}");
    }
    for (text, value, unit) in [
        ("11 1/4 in", 11.25, "in"),
        ("11-1/4\"", 11.25, "in"),
        ("11¼\"", 11.25, "in"),
        ("3/8 in", 0.375, "in"),
        ("-3/8 in", -0.375, "in"),
        ("285mm", 285.0, "mm"),
        (".5 in", 0.5, "in"),
        ("1.5e2 mm", 150.0, "mm"),
    ] {
        assert_eq!(parsed(text, Dim::Length, Point), (value, unit, false), "{text}");
    }
    assert_eq!(parsed("0.58", Dim::Ratio, Point), (0.58, "", false));
    assert_eq!(parsed("58 %", Dim::Ratio, Point), (58.0, "%", false));
    assert_eq!(parsed("77 /min", Dim::Frequency, Point), (77.0, "cpm", false));
}

#[test]
fn what_is_not_a_number_is_said() {
    let p = DecimalMark::Point;
    for (text, start) in [
        ("heavy", "\"heavy\" is not a number."),
        ("", "\"\" is not a number."),
        ("NaN kg", "\"NaN kg\" is not a finite number."),
        ("-inf kg", "\"-inf kg\" is not a finite number."),
        ("1e999 kg", "\"1e999 kg\" is not a finite number."),
        ("1,15,5 kg", "\"1,15,5 kg\" has ambiguous commas or points"),
        ("1.2.3 kg", "\"1.2.3 kg\" has ambiguous commas or points"),
        ("420", "\"420\" has no unit."),
        ("420 lb/in", "\"420 lb/in\" is a spring rate; this field takes a mass: kg, lb, g or t"),
        // Two readings in one field are no number, and no group of three digits follows a decimal mark.
        ("9.5 400 kg", "\"400 kg\" in \"9.5 400 kg\" is not a known unit"),
        ("9,5 400 kg", "\"400 kg\" in \"9,5 400 kg\" is not a known unit"),
        ("1 155,5 400 kg", "\"400 kg\" in \"1 155,5 400 kg\" is not a known unit"),
        ("420 stone", "\"stone\" in \"420 stone\" is not a known unit"),
    ] {
        let error = number(text, Dim::Mass, p).expect_err(text).to_string();
        assert!(error.starts_with(start), "{error}");
    }
}

#[test]
fn said_as_a_fitter_would() {
    let (us, si) = (UnitChoice::pound_inch(), UnitChoice::metric());
    assert_eq!(rounded(SpringRate::from_si(87_797.7), &us), "501 lb/in");
    assert_eq!(rounded(SpringRate::from_si(87_797.7), &si), "87.8 N/mm");
    assert_eq!(rounded(Length::from_si(0.028_454), &us), "1 1/8 in");
    assert_eq!(rounded(Length::from_si(-0.019_05), &us), "−3/4 in");
    assert_eq!(rounded(Length::from_si(-0.000_1), &si), "0 mm");
    assert_eq!(rounded(Mass::from_si(472.87), &us), "1042 lb");
    assert_eq!(rounded(Frequency::from_si(1.2783), &si), "1.28 Hz");
    assert_eq!(full_si(87_797.723, Dim::SpringRate, &si), "87.7977 N/mm");
    assert_eq!(measured_si(37_420.6, 716.0, Dim::SpringRate, &si), "37.42 ± 0.72 N/mm");
    assert_eq!(measured_si(0.6, 0.0, Dim::Ratio, &si), "0.6");
    assert_eq!(rounded_with_u(1.3449, Some(0.0312), Dim::Frequency, &si), "1.34 ± 0.03 Hz");
    assert_eq!(rounded_with_u(1.3449, Some(0.0012), Dim::Frequency, &si), "1.34 Hz");
    assert_eq!(rounded_with_u(0.028_454, Some(0.001_6), Dim::Length, &us), "1 1/8 ± 1/16 in");
    assert_eq!(rounded_with_u(87_797.7, Some(520.0), Dim::SpringRate, &si), "87.8 ± 0.5 N/mm");
    assert_eq!(rounded_with_u(0.5, None, Dim::Length, &si), "500 mm");
    let sold = |inches: f64, units| as_sold(Length::from_si(inches * 0.0254), units);
    assert_eq!([sold(0.75, &us), sold(0.718_75, &si)], ["3/4 in (0.750 in)", "23/32 in (18.26 mm)"]);
    assert_eq!([sold(17.0 / 25.4, &us), sold(17.0 / 25.4, &si)], ["0.669 in (17 mm)", "17 mm"]);
    assert_eq!([sold(0.4305, &us), sold(24.5 / 25.4, &si)], ["0.4305 in", "24.5 mm"]);
    assert_eq!(sixteenths(14.594_8), "14 5/8");
    assert_eq!(sixteenths(0.99), "1");
}

#[test]
fn the_value_shown_is_the_same_with_either_mark() {
    let unit = UnitChoice::metric().unit(Dim::Frequency);
    let point = as_shown(1.236, unit);
    let voice = Voice { mark: DecimalMark::Comma, ..Default::default() };
    let _comma = speak(voice);
    assert_eq!((point, as_shown(1.236, unit)), (1.24, 1.24));
}

fn read(text: &str) -> Result<Entry<SpringRate>, ron::error::SpannedError> {
    let implicit_some = ron::extensions::Extensions::IMPLICIT_SOME;
    ron::Options::default().with_default_extension(implicit_some).from_str(text)
}

#[test]
fn short_and_long_form_survive_a_file() {
    let short: Entry<SpringRate> = ron::from_str("\"420 lb/in\"").expect("short form");
    assert_eq!(short.text, "420 lb/in");
    assert_eq!(ron::to_string(&short).expect("writes"), "\"420 lb/in\"");
    let long: Entry<SpringRate> =
        read("(text: \"420 lb/in\", origin: Measured, pm: \"2 %\", spread: Standard)").expect("long form");
    let again: Entry<SpringRate> = read(&ron::to_string(&long).expect("writes")).expect("reads");
    assert_eq!(long, again);
    let u = long.standard_uncertainty_si(DecimalMark::Point).expect("reads").expect("stated");
    assert!((u - 0.02 * 420.0 * 175.126_835).abs() < 1e-3);
}

#[test]
fn a_bare_number_takes_the_shown_unit_and_other_text_stays_as_typed() {
    let lb = table::find(Dim::Mass, "lb").expect("lb");
    let mut entry = Entry::<Mass>::default();
    entry.type_text("1,155", lb, DecimalMark::Point);
    assert_eq!(entry.text, "1,155 lb");
    entry.type_text("524 kg", lb, DecimalMark::Point);
    assert_eq!(entry.text, "524 kg");
    entry.type_text("about half", lb, DecimalMark::Point);
    assert_eq!(entry.text, "about half");
}

#[test]
fn a_better_reading_keeps_the_earlier_one() {
    let mut entry = Entry::<SpringRate>::from("400 lb/in");
    entry.set_origin(Some(Origin::Quoted));
    entry.set_origin(Some(Origin::Measured));
    entry.text = "420 lb/in".into();
    assert_eq!(entry.earlier(), [Earlier { text: "400 lb/in".into(), origin: Origin::Quoted }]);
}

#[test]
fn the_point_of_a_number_is_found() {
    for (cell, behind) in [
        ("1.34 ± 0.03 Hz", Some(".34 ± 0.03 Hz")),
        ("−12", Some("")),
        ("+98 ± 3", Some(" ± 3")),
        ("1,34", Some(",34")),
        ("14 5/8 in", Some(" 5/8 in")),
        ("3/4 in", Some("3/4 in")),
        ("× 1.23", Some(".23")),
        ("97 of 100", Some(" of 100")),
        ("400 lbf·ft", Some(" lbf·ft")),
        ("12 mm lower", None),
        ("1.24, calculated", None),
        ("not known", None),
        ("", None),
    ] {
        assert_eq!(behind_the_point(cell), behind, "{cell}");
    }
}

#[test]
fn points_stand_in_one_line() {
    let letters = |text: &str| text.chars().count() as f32;
    let cells = ["463 ± 2", "1.34 ± 0.03", "12", "unchanged"].map(|cell| ("weight (kg)", cell));
    let off = off_the_edge(&cells, |_, end| letters(end));
    let point = |i: usize| off[i] + letters(behind_the_point(cells[i].1).expect("a number"));
    assert!(point(0) == point(1) && point(1) == point(2), "{off:?}");
    assert_eq!([off[1], off[3]], [0.0, 0.0]);
}

#[test]
fn rows_of_another_unit_do_not_move_each_other() {
    let letters = |text: &str| text.chars().count() as f32;
    let cells = [("room (mm)", "53 ± 1"), ("reserve (g)", "0.38 ± 0.01"), ("gap (mm)", "7.5 ± 1"), ("hits", "12")];
    assert_eq!(off_the_edge(&cells, |_, end| letters(end)), [2.0, 0.0, 0.0, 0.0]);
}

#[test]
fn a_hostile_name_stays_a_name() {
    let report = Report {
        title: "T".into(),
        blocks: vec![Block::Table {
            head: vec!["a".into(), "b".into()],
            rows: vec![vec!["x|y".into(), "<b>*\n".into()]],
        }],
    };
    let text = write(&report, Markup::Markdown);
    assert!(text.contains("| x\\|y | &lt;b>\\*  |"), "{text}");
}

#[test]
fn long_lines_are_wrapped() {
    // As `report::write::text` wraps.
    const WIDTH: usize = 96;
    let report = Report { title: "T".into(), blocks: vec![Block::List(vec!["word ".repeat(60)])] };
    assert!(write(&report, Markup::Plain).lines().all(|l| l.chars().count() <= WIDTH));
}
