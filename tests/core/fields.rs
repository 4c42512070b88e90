//! The table of fields; typical parts and loads; one value for each axle.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use springwright::base::units::entry::AnyEntry;
use springwright::base::units::parse::{self, DecimalMark};
use springwright::base::units::{Origin, UnitChoice};
use springwright::job::fields::{FIELDS, LISTS, by_path, full_label};
use springwright::job::{Job, PerAxle, Side, Walk, typical};

#[test]
fn the_table_is_sorted_and_its_defaults_can_be_read() {
    assert!(FIELDS.windows(2).all(|w| w[0].key < w[1].key), "sort FIELDS by key");
    for f in FIELDS {
        if let Some(default) = f.default {
            for units in [UnitChoice::metric(), UnitChoice::pound_inch()] {
                let (text, reason) = default(&Job { units, ..Job::default() }, Side::Rear);
                let number = parse::number(text, f.dim, DecimalMark::Point).expect(f.key);
                assert!(f.allows(number.si()), "{}: {text}", f.key);
                assert!(!reason.is_empty(), "{}", f.key);
            }
        }
    }
}

#[test]
fn every_field_of_the_tree_has_a_row_of_its_kind_and_every_row_a_field() {
    let mut job = Job { parts: vec![Default::default()], cases: vec![Default::default()], ..Job::default() };
    job.cases[0].loads.push(Default::default());
    job.before.loads.push(Default::default());
    job.before.repeats.push(Default::default());
    for list in LISTS {
        for side in Side::BOTH {
            job.rows_mut(&format!("{}.{list}", side.key())).expect(list).add();
        }
    }
    let mut seen = Vec::new();
    job.walk(&mut String::new(), &mut |path, entry| {
        let (field, _) = by_path(path).unwrap_or_else(|| panic!("no row for {path}"));
        assert_eq!(field.dim, entry.dim(), "{path}");
        seen.push(field.key);
    });
    for f in FIELDS {
        assert!(seen.contains(&f.key), "no field for {}", f.key);
    }
}

#[test]
fn labels_say_where() {
    assert_eq!(full_label("front.spring.rate").to_string(), "Front, old spring rate");
    assert_eq!(full_label("before.lf").to_string(), "Before, left front");
    assert_eq!(full_label("rear.ratio.rows[3].length").to_string(), "Rear, row 4, spring length");
    assert_eq!(full_label("vehicle.wheelbase").to_string(), "Wheelbase");
    assert_eq!(full_label("parts[1].mass").to_string(), "Part 2, mass of the part");
    assert_eq!(full_label("cases[0].loads[2].x").to_string(), "Load case 1, row 3, distance behind the front axle");
    assert_eq!(full_label("after.loads[0].mass").to_string(), "After, row 1, mass of the load aboard");
}

#[test]
fn places_are_guesses_in_the_units_shown() {
    for (units, mark) in [(UnitChoice::pound_inch(), DecimalMark::Point), (UnitChoice::metric(), DecimalMark::Comma)] {
        for (place, x_m) in typical::Place::ALL.into_iter().zip([1.5, 1.5, 2.55, 3.45]) {
            let load = place.load(Some(3.0), &units, mark);
            let si = |entry: &dyn AnyEntry| entry.number(mark).expect("read").expect("typed").si();
            assert!((si(&load.x) - x_m).abs() < 0.01, "{}", load.what);
            assert!(si(&load.mass) > 40.0 && si(&load.y).abs() < 0.4);
            for origin in [load.mass.origin(), load.x.origin(), load.y.origin()] {
                assert_eq!(origin, Some(Origin::Guessed));
            }
            assert!(load.mass.stated_si(75.0, mark).is_some_and(|u| u > 0.0));
        }
    }
    let load = typical::Place::Driver.load(None, &UnitChoice::metric(), DecimalMark::Point);
    assert_eq!(load.y.text, "-370 mm", "left of the middle");
}

#[test]
fn each_can_be_read_and_is_a_guess() {
    for i in 0..typical::TYPICAL.len() {
        let part = typical::part(i, &UnitChoice::pound_inch()).expect("a row");
        assert!(part.mass.number(DecimalMark::Point).is_ok_and(|n| n.is_some_and(|n| n.si() > 0.0)), "{}", part.what);
        assert_eq!(part.mass.origin(), Some(Origin::Guessed));
        assert!(part.mass.stated_si(100.0, DecimalMark::Point).is_some_and(|u| u > 0.0));
    }
    assert_eq!(typical::part(typical::TYPICAL.len(), &UnitChoice::metric()), None);
}

#[test]
fn each_axle_has_its_own_name_and_place() {
    let mut axles = PerAxle::each(|side| side.key().len());
    assert_eq!((axles[Side::Front], axles[Side::Rear]), (5, 4));
    axles[Side::Rear] = 9;
    assert_eq!(axles, PerAxle { front: 5, rear: 9 });
    assert_eq!(axles.map(|n| n + 1).both(), [6, 10]);
    assert_eq!(PerAxle { front: Some(1), rear: None }.known(), None);
}
