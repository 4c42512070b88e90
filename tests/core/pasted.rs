//! Text pasted as scale readings, rows and points.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use springwright::base::units::parse::DecimalMark;
use springwright::base::units::{Dim, UnitChoice, table};
use springwright::job::Suspension;
use springwright::job::paste::{Pasted, corners, is_block, named_rows, points, rows};
use springwright::trade::linkage::PointName;
use springwright::trade::weights::Corners;

fn read(text: &str) -> Result<[String; 4], String> {
    let lb = table::find(Dim::Mass, "lb").expect("lb");
    corners(text, lb, DecimalMark::Point).map(walked).map_err(|why| why.to_string())
}

/// Of each corner, in walking order.
fn walked(found: Pasted) -> [String; 4] {
    let Corners { lf, rf, lr, rr } = found.corners;
    [lf, rf, lr, rr]
}

#[test]
fn lines_in_any_order_and_blocks() {
    let expected = Ok(["985 lb", "960 lb", "770 lb", "745 lb"].map(str::to_owned));
    assert_eq!(read("RR 745\nLF: 985 28.5 %\nTotal 3460 lb\nRF = 960 lb\nlr\t770\nCross 50.0%\n"), expected);
    assert_eq!(read("985 960\n770 745\n"), expected);
    assert_eq!(read("985 lb\t960 lb\n770 lb;745 lb\nTotal 3460"), expected);
    assert_eq!(read("Left Front 985\nRight Front 960\nLeft Rear 770\nRight Rear 745"), expected);
    assert_eq!(read("HR 745\nVL: 985\nVorne rechts 960\nhinten links 770\nGesamt 3460"), expected);
}

#[test]
fn readings_in_one_line() {
    let expected = Ok(["985 lb", "960 lb", "770 lb", "745 lb"].map(str::to_owned));
    for text in [
        "LF 985 RF 960 LR 770 RR 745",
        "RR=745, LR=770, RF=960, LF=985",
        "LF: 985 lb; RF: 960 lb; LR: 770 lb; RR: 745 lb",
        "lf985 rf960 lr770 rr745",
        "VL 985 VR 960 HL 770 HR 745",
        "vorne links 985, vorne rechts 960, hinten links 770, hinten rechts 745",
        "Left Front 985 Right Front 960 Left Rear 770 Right Rear 745",
        "after: LF 985 28.5 % / RF 960 27.7 % / LR 770 / RR 745 total 3460",
        "RR 745 total 3460 LR 770 LF 985 RF 960",
        "LF 985 RF 960\nLR 770 RR 745",
        "L/F 985 R/F 960 L/R 770 R/R 745",
    ] {
        assert_eq!(read(text), expected, "{text}");
        assert!(is_block(text), "{text}");
    }
    let kg = Ok(["1 155 kg", "402,5 kg", "95 kg", "1001 kg"].map(str::to_owned));
    let lb = table::find(Dim::Mass, "lb").expect("lb");
    let comma = |text| corners(text, lb, DecimalMark::Comma).map(walked).map_err(|why| why.to_string());
    assert_eq!(comma("VL 1 155 kg VR 402,5 kg HL 95 kg HR 1001 kg"), kg);
    // A unit that is none is not jumped over to the next number.
    assert!(read("LF 985 RF 960 LR 770 RR 745 stones total 3460").expect_err("no unit").starts_with("3 of four"));
    assert!(read("LF 985 RF 960").expect_err("two only").starts_with("2 of four corners found"));
    assert!(read("LF 985 LF 960 LR 1 RR 2").expect_err("doubled").starts_with("two readings for the same corner"));
    let left_out = corners("axle weights LF 985 RF 960 LR 770 RR 745", lb, DecimalMark::Point);
    assert_eq!(left_out.expect("readings").ignored, ["axle weights"]);
    for text in ["985", "1 155 kg", "LF 985", "11 1/4 in", "285mm", "-40, 304.5", "front left"] {
        assert!(!is_block(text), "{text}");
    }
}

/// What a field takes as one number is one number when it is pasted.
#[test]
fn thousands_behind_a_space_are_one_reading() {
    let expected = |unit: &str| Ok(["1 155", "1 120", "985", "1 001"].map(|n| format!("{n} {unit}")));
    for text in [
        "LF 1 155 kg\nRF 1 120 kg\nLR 985 kg\nRR: 1 001 kg 27.1 %\nTotal 4 261 kg",
        "1 155 kg 1 120 kg\n985 kg 1 001 kg",
    ] {
        assert_eq!(read(text), expected("kg"), "{text}");
    }
    assert_eq!(read("1 155 1 120\n985 1 001"), expected("lb"));
    assert_eq!(read("1 155\t1 120\n985;1 001"), expected("lb"));
    let in_full = Ok(["1 155.5 lb", "12 345 lb", "1 234 lb", "95 lb"].map(str::to_owned));
    assert_eq!(read("LF 1 155.5\nRF 12 345\nLR 1 234 567\nRR 95"), in_full);
    // Two columns stay two numbers.
    let two = Ok(["985 lb", "500 lb", "95 lb", "120 lb"].map(str::to_owned));
    for text in ["985 500\n95 120", "985\t500\n95\t120", "LF 985 500\nRF 500 1\nLR 95, 120\nRR 120"] {
        assert_eq!(read(text), two, "{text}");
    }
    // One number in a line without a corner is no row, and never read as two.
    assert!(read("1 155 kg\n1 120 kg").expect_err("no rows").starts_with("no readings found"));
}

#[test]
fn named_rows_keep_their_names() {
    let unit = |dim, symbol| table::find(dim, symbol).expect("a unit");
    let three = [unit(Dim::Mass, "kg"), unit(Dim::Length, "mm"), unit(Dim::Length, "mm")];
    let read = |text: &str| named_rows(text, &three, DecimalMark::Point);
    for text in [
        "part\tmass\tx\ty\nold engine\t-112\t150\nengine no. two\t198\t120\t20\n",
        "old engine; -112; 150\nengine no. two; 198; 120; 20",
        "old engine −112 150\nengine no. two 198 120 20",
        "old engine, -112 kg, 150 mm\nengine no. two, 198 kg, 120 mm, 20 mm",
    ] {
        let (names, found) = read(text).unwrap_or_else(|e| panic!("{text}: {e}"));
        assert_eq!(names, ["old engine", "engine no. two"], "{text}");
        assert_eq!(found.rows[0], ["-112 kg", "150 mm", ""], "{text}");
        assert_eq!(found.rows[1], ["198 kg", "120 mm", "20 mm"], "{text}");
    }
    assert!(read("only words").is_err());
}

#[test]
fn what_is_missing_is_said() {
    assert!(read("LF 985\nRF 960").expect_err("two only").starts_with("2 of four corners found"));
    assert!(read("LF 985\nLF 960").expect_err("doubled").starts_with("two readings for the same corner"));
    assert!(read("hello").expect_err("nothing").starts_with("no readings found"));
    assert!(read("1 2\n3 4\n5 6").expect_err("too many").starts_with("rows of two numbers found: 3;"));
}

#[test]
fn rows_keep_their_order_and_their_text() {
    let unit = |dim, symbol| table::find(dim, symbol).expect("a unit");
    let two = [unit(Dim::Length, "mm"), unit(Dim::Length, "mm")];
    let read = |text: &str| rows(text, &two, DecimalMark::Point).map_err(|why| why.to_string());
    let wanted = vec![vec!["-40 mm".to_owned(), "304.5 mm".into()], vec!["40 mm".into(), "256 mm".into()]];
    for text in [
        "-40\t304.5\n40\t256\n",
        "-40;304.5\n40;256",
        "-40, 304.5\n40, 256",
        "-40 304.5\n40 256",
        "-40,304.5\n40,256",
        "travel\tlength\n-40 mm\t304.5 mm\n40 mm\t256 mm",
    ] {
        assert_eq!(read(text).map(|r| r.rows), Ok(wanted.clone()), "{text}");
    }
    let head = read("travel (in)\tlength (in)\n-1.5\t12\n1.5\t10").expect("rows");
    assert_eq!(head.rows[0], ["-1.5 in", "12 in"]);
    assert_eq!(head.ignored, ["travel (in)\tlength (in)"]);
    assert_eq!(read("travel in mm; length in mm\n1;2").expect("rows").rows[0], ["1 mm", "2 mm"]);
    let comma = rows("-40,5;304,5", &two, DecimalMark::Comma).expect("rows");
    assert_eq!(comma.rows[0], ["-40,5 mm", "304,5 mm"]);
    let leaf = [unit(Dim::Force, "N"), unit(Dim::Length, "mm"), unit(Dim::Length, "mm")];
    let gap = rows("1000;;163", &leaf, DecimalMark::Point).expect("a blank cell inside");
    assert_eq!(gap.rows[0], ["1000 N", "", "163 mm"]);
    let framed = rows("| 1000 | 152 | 145 |", &leaf, DecimalMark::Point).expect("a framed row");
    assert_eq!(framed.rows[0], ["1000 N", "152 mm", "145 mm"]);
    let wrong =
        rows("load (kg)\tdown\tup\n50\t1\t2", &leaf, DecimalMark::Point).expect_err("a mass is no force").to_string();
    assert!(wrong.contains("is for a mass; this column takes a force"), "{wrong}");
    assert!(read("1\t2\t3").expect_err("too many").contains("has 3 columns; 2 are needed"));
    assert!(read("hello").expect_err("none").starts_with("no rows found"));
    assert!(read("1\tabout 2").expect_err("unreadable").contains("about 2"));
}

#[test]
fn letters_in_any_order_and_notation() {
    let read = |text: &str| points(text, Suspension::TwoArms, &UnitChoice::metric(), DecimalMark::Point);
    for text in
        ["A 386 493\nS0 396 533", "point\tout\tup\na\t386\t493\ns0\t396\t533", "A; 386 mm; 493 mm\nS0; 396; 533"]
    {
        let found = read(text).unwrap_or_else(|e| panic!("{text}: {e}")).points;
        assert_eq!(found[0], (PointName::UpperInner, ["386 mm".to_owned(), "493 mm".to_owned()]), "{text}");
        assert_eq!(found[1].0, PointName::SpringTop, "{text}");
    }
    assert!(read("T 1 2").expect_err("no strut").to_string().contains("its points are A B C D W G"));
    assert!(read("A 1 2\nA 3 4").expect_err("twice").to_string().contains("given twice"));
}
