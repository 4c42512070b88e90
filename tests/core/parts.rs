//! The shop's parts list: text in, list out.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use proptest::prelude::*;
use springwright::base::message::Message;
use springwright::base::units::{DecimalMark, Dim, Quantity, table};
use springwright::shop::parts::{self, Column, Columns, List, ListError, Meaning};
use springwright::trade::spring::{Ends, Wire};

fn said(notes: &[Message]) -> Vec<String> {
    notes.iter().map(ToString::to_string).collect()
}

fn load(text: &str) -> List {
    load_bytes(text.as_bytes())
}

fn load_bytes(bytes: &[u8]) -> List {
    let columns = parts::guess(bytes).expect("columns are guessed");
    parts::read(bytes, &columns).expect("a list")
}

fn si<Q: Quantity>(quantity: Option<Q>) -> Option<f64> {
    quantity.map(Q::si)
}

fn column(header: &str, means: Meaning, unit: Option<&str>) -> Column {
    Column { header: header.to_owned(), means: Some(means), unit: unit.map(str::to_owned) }
}

fn columns(columns: Vec<Column>) -> Columns {
    Columns { columns, ..Columns::default() }
}

fn near(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() <= 1e-9 * wanted.abs()
}

const HEAD: &str = "part,description,rate (N/mm),rate tolerance (%),free length (mm),solid length (mm),ID (mm),OD (mm),\
wire (mm),coils,ends,max load (N),price,stock,closed length (mm),open length (mm),mounts,bump 0.13 m/s (N),\
rebound 0.13 m/s (N),bump 0.05 m/s (N)\n";

#[test]
fn a_spring_and_a_damper_from_one_file() {
    let list = load(&format!(
        "{HEAD}A-1,Front coil,60,5,360,160,98,130,16,9.25,closed & ground,11500,€ 52.50,4,,,,,,\n\
         B-1,Front damper,,,,,,,,,,,64,0,258,392,eye and eye,370,740,140\n"
    ));
    assert_eq!((list.rows, list.bad.len()), (2, 0), "{:?}", list.bad);
    let spring = &list.springs[0];
    assert_eq!((spring.line, spring.number.as_str(), spring.what.as_str()), (2, "A-1", "Front coil"));
    assert_eq!(spring.rate.si(), 60_000.0);
    assert_eq!(si(spring.rate_tolerance), Some(0.05));
    assert_eq!((si(spring.free_length), si(spring.solid_length)), (Some(0.36), Some(0.16)));
    assert_eq!((si(spring.inside_diameter), si(spring.outside_diameter)), (Some(0.098), Some(0.13)));
    assert_eq!((si(spring.wire), spring.total_coils, spring.ends), (Some(0.016), Some(9.25), Some(Ends::ClosedGround)));
    assert_eq!((si(spring.max_load), spring.price, spring.stock), (Some(11_500.0), Some(52.5), Some(4)));
    let damper = &list.dampers[0];
    assert_eq!((damper.line, damper.number.as_str(), damper.mounts.as_str()), (3, "B-1", "eye and eye"));
    assert_eq!((si(damper.closed_length), si(damper.open_length)), (Some(0.258), Some(0.392)));
    assert_eq!((damper.price, damper.stock), (Some(64.0), Some(0)));
    let points: Vec<_> = damper.points.iter().map(|p| (p.speed.si(), si(p.bump), si(p.rebound))).collect();
    assert_eq!(points, [(0.05, Some(140.0), None), (0.13, Some(370.0), Some(740.0))]);
}

/// What the standard says of rows, quotes and line ends. Source: Y. Shafranovich, RFC 4180, 2005, section 2, rules 1 to
/// 7 with their examples, as published; its fields stand here in columns of text beside a rate.
#[test]
fn rows_and_quotes_as_in_rfc_4180() {
    let text_columns = |count: usize| {
        let mut list = vec![column("rate", Meaning::Rate, Some("N/mm"))];
        let means = [Meaning::Number, Meaning::What, Meaning::Mounts];
        list.extend((0..count).map(|i| column(["field_1", "field_2", "field_3"][i], means[i], None)));
        Columns { delimiter: Some(','), ..columns(list) }
    };
    let read = |rows: &str| {
        let text = format!("rate,field_1,field_2\r\n{rows}");
        let list = parts::read(text.as_bytes(), &text_columns(2)).expect("a list");
        assert_eq!(list.bad, []);
        list.springs.into_iter().map(|s| (s.number, s.what)).collect::<Vec<_>>()
    };
    let pair = |a: &str, b: &str| (a.to_owned(), b.to_owned());
    // Rules 1 and 2: each row on its line; the last may or may not end with a line break.
    for end in ["\r\n", ""] {
        assert_eq!(read(&format!("1,aaa,bbb\r\n1,zzz,yyy{end}")), [pair("aaa", "bbb"), pair("zzz", "yyy")]);
    }
    // Rule 5: a field may be quoted or not.
    assert_eq!(read("1,\"aaa\",\"bbb\"\r\n1,zzz,yyy"), [pair("aaa", "bbb"), pair("zzz", "yyy")]);
    // Rule 6: line breaks and commas inside quotes.
    assert_eq!(read("1,\"aaa\",\"b\r\nbb\"\r\n1,\"z,zz\",yyy"), [pair("aaa", "b\r\nbb"), pair("z,zz", "yyy")]);
    // Rule 7: a quotation mark inside is written twice.
    assert_eq!(read("1,\"aaa\",\"b\"\"bb\"\r\n"), [pair("aaa", "b\"bb")]);
    // Rule 4: each row has as many fields as the header.
    let short = parts::read(b"rate,field_1,field_2\r\n1,aaa\r\n1,a,b,c\r\n1,a,b", &text_columns(2)).expect("a list");
    let reasons: Vec<_> = short.bad.iter().map(|b| (b.line, b.reason.to_string(), b.text.as_str())).collect();
    assert_eq!(
        reasons,
        [
            (2, "3 cells are expected, as in the header; the row has 2".to_owned(), "1,aaa"),
            (3, "3 cells are expected, as in the header; the row has 4".to_owned(), "1,a,b,c")
        ]
    );
    assert_eq!((short.rows, short.springs.len()), (3, 1));
}

#[test]
fn delimiters_marks_and_line_ends() {
    for (text, delimiter, mark) in [
        ("rate (N/mm),free length (mm)\n60.5,360\n", ',', DecimalMark::Point),
        ("rate (N/mm);free length (mm)\r\n60,5;360\r\n", ';', DecimalMark::Comma),
        ("rate (N/mm)\tfree length (mm)\r60.5\t360\r", '\t', DecimalMark::Point),
        ("rate (N/mm)\tfree length (mm)\n\"60,5\"\t360", '\t', DecimalMark::Comma),
        ("rate (N/mm),free length (mm)\n\"60,5\",360\n", ',', DecimalMark::Comma),
        ("sep=;\nrate (N/mm);free length (mm)\n60.5;360\n", ';', DecimalMark::Point),
        ("Federrate [N/mm];freie Länge [mm];Bezeichnung\n60,5;360;\"a; b, c, d\"\n", ';', DecimalMark::Comma),
    ] {
        let columns = parts::guess(text.as_bytes()).expect("columns");
        assert_eq!((columns.delimiter, columns.decimal), (Some(delimiter), Some(mark)), "{text}");
        let open = Columns { delimiter: None, decimal: None, ..columns.clone() };
        for columns in [columns, open] {
            let list = parts::read(text.as_bytes(), &columns).expect("a list");
            assert_eq!(list.bad, [], "{text}");
            let springs: Vec<_> = list.springs.iter().map(|s| (s.rate.si(), si(s.free_length))).collect();
            assert_eq!(springs, [(60_500.0, Some(0.36))], "{text}");
        }
    }
}

#[test]
fn what_was_interpreted_is_said() {
    let list =
        load("rate (N/mm),free length (mm),max load (N),ends\n60.5,360,\"11,155\",hooked\n61,-,\"1,155\",closed\n");
    assert_eq!(list.springs[0].max_load.map(Quantity::si), Some(11_155.0));
    assert_eq!((list.springs[0].ends, list.springs[1].free_length), (None, None));
    assert_eq!(
        said(&list.notes),
        [
            "Text read as UTF-8",
            "Columns separated by commas",
            "Decimal mark: point, as in 12.5",
            "2 cells could be read in two ways; for example, \"11,155\" was read as 11155, with a thousands separator",
            "1 row: end type not understood",
            "1 cell containing only a dash was read as not known",
        ]
    );
    // The same text under a decimal comma is another number.
    let comma = load("rate (N/mm);free length (mm);max load (N)\n60,5;360;1,155\n");
    assert_eq!(comma.springs[0].max_load.map(Quantity::si), Some(1.155));
    // Without any sure cell, semicolons speak for a comma; a comma file reads thousands.
    assert_eq!(load("rate (N/mm);stock\n1,155;2\n").springs[0].rate.si(), 1_155.0);
    assert_eq!(load("rate (N/mm),stock\n\"1,155\",2\n").springs[0].rate.si(), 1_155_000.0);
    let unread = load("rate (N/mm),colour,shelf\n60,red,4\n");
    assert!(said(&unread.notes).contains(&"Columns not read: \"colour\", \"shelf\"".to_owned()), "{:?}", unread.notes);
    let left = load("rate (N/mm),closed length (mm),mounts\n60,,eye\n,250,eye\n");
    assert!(
        said(&left.notes).iter().any(|n| n.starts_with("1 cell ignored: a spring has no damper values")),
        "{:?}",
        left.notes
    );
}

#[test]
fn encodings() {
    let text = "Teilenummer;Federrate [N/mm];Außendurchmesser [mm];Preis\nF-Ä1;60,5;130;45,00 €\n";
    let utf16 = |to: fn(u16) -> [u8; 2]| std::iter::once(0xfeff).chain(text.encode_utf16()).flat_map(to).collect();
    let windows: Vec<u8> = text
        .chars()
        .map(|c| match c {
            '€' => 0x80,
            c => u8::try_from(u32::from(c)).expect("a letter of the code page"),
        })
        .collect();
    let files: [(Vec<u8>, &str); 5] = [
        (text.as_bytes().to_vec(), "Text read as UTF-8"),
        ([b"\xef\xbb\xbf", text.as_bytes()].concat(), "Text read as UTF-8"),
        (utf16(u16::to_le_bytes), "Text read as UTF-16LE"),
        (utf16(u16::to_be_bytes), "Text read as UTF-16BE"),
        (windows, "The text is not UTF-8; it was read as Windows-1252. Check accented letters"),
    ];
    for (bytes, note) in files {
        let list = load_bytes(&bytes);
        assert_eq!(list.notes[0].to_string(), note);
        let spring = &list.springs[0];
        assert_eq!((spring.number.as_str(), spring.rate.si(), spring.price), ("F-Ä1", 60_500.0, Some(45.0)), "{note}");
        assert_eq!(si(spring.outside_diameter), Some(0.13), "{note}");
    }
    assert_eq!(parts::guess(b"r\0a\0t\0e\0\n\0").expect_err("no text"), ListError::NotText);
}

#[test]
fn blank_rows_do_not_count_and_lines_are_right() {
    let list = load("\n\nrate (N/mm),description\n,\n\n60,\"two\nlines\"\n  ,  \n\"\",\n61,x\nabc,y\n");
    assert_eq!(list.rows, 3);
    assert_eq!(list.springs.iter().map(|s| s.line).collect::<Vec<_>>(), [6, 10]);
    assert_eq!(list.springs[0].what, "two\nlines");
    assert_eq!(list.bad.iter().map(|b| b.line).collect::<Vec<_>>(), [11]);
}

#[test]
fn a_quotation_mark_left_open_costs_one_row() {
    let list = load("rate (N/mm),description\n60,\"open\n61,good\n62,\"quoted, too\"\n63,\"x\" y\n64,\"last\n");
    assert_eq!(list.springs.iter().map(|s| s.line).collect::<Vec<_>>(), [3, 4]);
    assert_eq!(
        list.bad.iter().map(|b| (b.line, b.text.as_str())).collect::<Vec<_>>(),
        [(2, "60,\"open"), (5, "63,\"x\" y"), (6, "64,\"last")]
    );
    assert!(list.bad[0].reason.to_string().starts_with("a quotation mark is not closed"), "{}", list.bad[0].reason);
    assert_eq!(list.rows, 5);
    // Inches: a quotation mark inside a cell that does not begin with one is only a sign.
    let inches = load("rate (lb/in),free length\n400,14 1/2\"\n");
    assert_eq!(si(inches.springs[0].free_length), Some(14.5 * 25.4 / 1000.0));
}

#[test]
fn units_of_the_cell_of_the_column_and_of_the_header() {
    let list = load("rate (N/mm),free length [mm],max load N\n60,360,11000\n400 lb/in,14 1/2 in,2500 lb\n");
    let lb = |n: f64| n * 0.453_592_37 * 9.806_65;
    assert!(near(list.springs[1].rate.si(), lb(400.0) / 0.0254));
    assert!(near(si(list.springs[1].free_length).unwrap(), 0.3683));
    assert!(near(si(list.springs[1].max_load).unwrap(), lb(2500.0)));
    // A unit that every cell says itself.
    let cells = parts::guess(b"rate,free length\n400 lb/in,14 in\n60 N/mm,360 mm\n425 lb/in,15 in\n").expect("columns");
    assert_eq!(cells.columns[0].unit.as_deref(), Some("lb/in"));
    // A unit chosen for a column whose header says none, or another one; the latter is said.
    let text = b"stiff,free length (mm)\n60,14\n";
    let chosen = columns(vec![
        column("stiff", Meaning::Rate, Some("N/mm")),
        column("free length (mm)", Meaning::FreeLength, Some("in")),
    ]);
    let list = parts::read(text, &chosen).expect("a list");
    assert_eq!((list.springs[0].rate.si(), si(list.springs[0].free_length)), (60_000.0, Some(14.0 * 0.0254)));
    let note = "Column \"free length (mm)\": numbers taken as in, although the header says mm".to_owned();
    assert!(said(&list.notes).contains(&note), "{:?}", list.notes);
}

#[test]
fn a_number_without_a_unit_is_an_error_of_the_columns() {
    let text = b"part,rate,free length (mm)\nA,60,360\n";
    let columns = parts::guess(text).expect("columns");
    let error = parts::read(text, &columns).expect_err("no unit").to_string();
    assert_eq!(error, "Column \"rate\" has no unit. Choose one: N/mm, lb/in, kN/m, N/m or kgf/mm");
    let tolerance = b"rate (N/mm),tolerance\n60,5\n";
    let columns = parts::guess(tolerance).expect("columns");
    assert!(matches!(parts::read(tolerance, &columns), Err(ListError::NoUnit { .. })));
    let text = b"rate (N/mm),max load (kg)\n60,500\n";
    let error = parts::read(text, &parts::guess(text).expect("columns")).expect_err("no force").to_string();
    assert_eq!(error, "Column \"max load (kg)\": \"kg\" is not a unit for a force; use N, lbf, kN or kgf");
}

#[test]
fn tolerances() {
    let list = load("rate (N/mm),tolerance (%)\n60,5\n60,± 4 %\n60,3 N/mm\n60,+/-2\n60,0\n60,100\n60,-1\n60,60 N/mm\n");
    let shares: Vec<f64> = list.springs.iter().filter_map(|s| si(s.rate_tolerance)).collect();
    assert_eq!(shares, [0.05, 0.04, 0.05, 0.02, 0.0]);
    assert_eq!(list.bad.iter().map(|b| b.line).collect::<Vec<_>>(), [7, 8, 9]);
    let rates = load("rate (N/mm),± (N/mm)\n60,3\n60,5 %\n");
    assert_eq!(rates.springs.iter().filter_map(|s| si(s.rate_tolerance)).collect::<Vec<_>>(), [0.05, 0.05]);
}

#[test]
fn prices_by_the_mark() {
    let comma = load("rate (N/mm);price\n60,5;1.234,50\n60;45,00 EUR\n60;€ 45\n60;-\n60;1 234,5\n60;-5,00\n");
    assert_eq!(comma.springs.iter().filter_map(|s| s.price).collect::<Vec<_>>(), [1234.5, 45.0, 45.0, 1234.5]);
    assert_eq!(comma.bad.len(), 1);
    let point = load("rate (N/mm),price\n60.5,$45\n60,€ 45.00\n60,about 5\n60,45 mm\n");
    assert_eq!(point.springs.iter().filter_map(|s| s.price).collect::<Vec<_>>(), [45.0, 45.0]);
    assert_eq!(point.bad.len(), 2);
}

#[test]
fn what_cannot_be_is_listed_with_all_its_reasons() {
    let good = "A,x,60,5,360,160,98,130,16,9,closed,900,5,4,,,,,,";
    assert_eq!(load(&format!("{HEAD}{good}\n")).bad, []);
    let spring = |at: usize, cell: &str| {
        let mut cells: Vec<&str> = good.split(',').collect();
        cells[at] = cell;
        cells.join(",")
    };
    let damper = |tail: &str| format!("B,x,,,,,,,,,,,,,{tail}");
    let rows = [
        (spring(2, "0"), "column \"rate (N/mm)\": \"0\" must be above zero"),
        (spring(2, "-60"), "column \"rate (N/mm)\": \"-60\" must be above zero"),
        (spring(2, "abc"), "column \"rate (N/mm)\": \"abc\" is not a number"),
        (spring(2, "NaN"), "column \"rate (N/mm)\": \"NaN\" is not a finite number"),
        (spring(2, "1e300"), "column \"rate (N/mm)\": \"1e300 N/mm\" is outside the range possible on a vehicle: "),
        (
            spring(2, "60 mm"),
            "column \"rate (N/mm)\": \"60 mm\" is a length; this field takes a spring rate: N/mm, lb/in",
        ),
        (spring(2, ""), "the row has neither a spring rate nor damper lengths or forces"),
        (spring(3, "100"), "the ± of the rate must be 0 % or more and below 100 %"),
        (spring(4, "0"), "column \"free length (mm)\": \"0\" must be above zero"),
        (spring(4, "inf"), "column \"free length (mm)\": \"inf\" is not a finite number"),
        (spring(5, "360"), "the solid length must be shorter than the free length"),
        (spring(6, "130"), "the inside diameter must be smaller than the outside diameter"),
        (spring(8, "65"), "the outside diameter must be more than twice the wire diameter"),
        (spring(9, "-2"), "column \"coils\": \"-2\" must be above zero"),
        (spring(11, "-1"), "column \"max load (N)\": \"-1\" must be above zero"),
        (spring(12, "-0.5"), "column \"price\": \"-0.5\" must not be below zero"),
        (spring(13, "-1"), "column \"stock\": \"-1\" must be a whole number of pieces, 0 or more"),
        (spring(13, "1.5"), "column \"stock\": \"1.5\" must be a whole number of pieces, 0 or more"),
        (spring(14, "250"), "the row has a spring rate and damper values; split it into two rows"),
        (damper("392,258,,,,"), "the open length must be greater than the closed length"),
        (damper("258,392,,-1,,"), "column \"bump 0.13 m/s (N)\": \"-1\" must not be below zero"),
        (
            "A,x,y,5,360,400,98,130,16,9,closed,z,5,4,,,,,,".to_owned(),
            "column \"rate (N/mm)\": \"y\" is not a number. Enter a number such as 1155, 11.25 or 11 1/4; column \"max load (N)\": \"z\" is not a number. Enter a number such as 1155, 11.25 or 11 1/4; the solid length must be shorter than the free length",
        ),
    ];
    let text: String = rows.iter().map(|(row, _)| format!("{row}\n")).collect();
    let list = load(&format!("{HEAD}{good}\n{text}{good}\n"));
    assert_eq!((list.rows, list.springs.len(), list.dampers.len()), (rows.len() + 2, 2, 0));
    assert_eq!(list.bad.len(), rows.len());
    for (i, (bad, (row, reason))) in list.bad.iter().zip(&rows).enumerate() {
        assert_eq!((bad.line, bad.text.as_str()), (i + 3, row.as_str()));
        assert!(bad.reason.to_string().starts_with(reason), "{row}\n{}", bad.reason);
    }
    // Rows with the same number are two parts, or the same part twice: both stay.
    assert_eq!(list.springs[0].number, list.springs[1].number);
}

#[test]
fn files_that_cannot_be_read_at_all() {
    for empty in ["", "\n\n", ",,\n,\n", ";;\n\n;", "\u{feff}"] {
        assert!(matches!(parts::guess(empty.as_bytes()), Err(ListError::Empty)), "{empty:?}");
    }
    assert_eq!(parts::guess(b"A-1,60,360\nA-2,61,360\n").expect_err("parts at once"), ListError::NoHeader);
    let known = parts::guess(b"part,rate (N/mm),free length (mm)\n").expect("columns");
    assert_eq!(parts::read(b"A-1,60,360\n", &known).expect_err("parts at once"), ListError::NoHeader);
    let other = parts::read(b"part,stiffness,free length (mm)\nA,1,2\n", &known).expect_err("another header");
    assert_eq!(other, ListError::DoesNotFit { columns: "\"rate (N/mm)\"".to_owned() });
    let useless = parts::guess(b"part,colour\nA,red\n").expect("columns");
    assert_eq!(parts::read(b"part,colour\nA,red\n", &useless).expect_err("useless"), ListError::NothingUsable);
    let wrong = columns(vec![column("rate", Meaning::Rate, Some("mm"))]);
    assert!(matches!(parts::read(b"rate\n1\n", &wrong), Err(ListError::WrongUnit { unit, .. }) if unit == "mm"));
    let twice = columns(vec![column("rate", Meaning::Rate, Some("N/mm")), column("k", Meaning::Rate, Some("N/mm"))]);
    assert!(matches!(parts::read(b"rate,k\n1,2\n", &twice), Err(ListError::Twice { .. })));
    for speed in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let wrong = columns(vec![column("bump", Meaning::Bump(speed), Some("N"))]);
        assert!(matches!(parts::read(b"bump\n1\n", &wrong), Err(ListError::Speed { .. })), "{speed}");
    }
    let delimiter = Columns { delimiter: Some('"'), ..known.clone() };
    assert!(matches!(parts::read(b"part\n", &delimiter), Err(ListError::Delimiter { .. })));
    // A header and no rows is a list, an empty one.
    assert_eq!(parts::read(b"part,rate (N/mm),free length (mm)\n", &known).expect("a list").rows, 0);
}

#[test]
fn remembered_columns() {
    let text = b"part;stiff;L0 (mm)\nA;60,5;360\n";
    let mut known = parts::guess(text).expect("columns");
    known.columns[1] = column("stiff", Meaning::Rate, Some("N/mm"));
    let kept = ron::to_string(&known).expect("written");
    let again: Columns = ron::from_str(&kept).expect("read");
    assert_eq!(again, known);
    assert!(ron::from_str::<Columns>("(columns: [], colour: 1)").is_err());
    assert!(again.fits(text) && again.fits(b"L0 (mm) ;part; stiff\n"));
    for other in [&b"part;stiff\n"[..], b"part;stiff;L0 (mm);more\n", b"part,stiff,L0 (mm)\n", b"", b"\0"] {
        assert!(!again.fits(other));
    }
    assert_eq!(parts::read(text, &again).expect("a list").springs[0].rate.si(), 60_500.0);
}

#[test]
fn the_demo_list_is_clean_and_true_to_its_wire() {
    let columns = parts::guess(parts::demo()).expect("columns");
    assert!(columns.columns.iter().all(|c| c.means.is_some()), "{columns:?}");
    let list = parts::read(parts::demo(), &columns).expect("a list");
    assert_eq!(list.bad, []);
    assert_eq!(list.notes.len(), 3, "{:?}", list.notes);
    assert!(list.springs.len() >= 60 && list.dampers.len() == 14);
    for spring in &list.springs {
        let (free, solid) = (spring.free_length.expect("free").si(), spring.solid_length.expect("solid").si());
        let (inside, outside) = (si(spring.inside_diameter).expect("in"), si(spring.outside_diameter).expect("out"));
        assert!((15_000.0..=140_000.0).contains(&spring.rate.si()), "{}", spring.number);
        let (Some(wire), Some(total), Some(ends)) = (si(spring.wire), spring.total_coils, spring.ends) else {
            continue;
        };
        let coil = Wire {
            diameter_m: wire,
            mean_m: outside - wire,
            active: total - ends.dead_coils().expect("closed ends"),
            shear_modulus_pa: 78.5e9,
            ends,
        };
        let off = coil.rate().si() / spring.rate.si() - 1.0;
        assert!(off.abs() < 0.005, "{}: rate off by {off}", spring.number);
        let wound = coil.solid_length().expect("solid").si();
        assert!(solid >= wound - 1e-9 && solid - wound < 1.001e-3, "{}: {solid} {wound}", spring.number);
        assert!((outside - inside - 2.0 * wire).abs() < 1.5e-4, "{}", spring.number);
        let at_solid = springwright::base::units::Force::from_si(spring.rate.si() * (free - solid));
        assert!(coil.stress(at_solid, coil.wahl()).si() < 1.1e9, "{}", spring.number);
        assert!(si(spring.max_load).expect("load") <= at_solid.si(), "{}", spring.number);
    }
    for damper in &list.dampers {
        assert_eq!(damper.points.len(), 5, "{}", damper.number);
        let rises = damper.points.windows(2).all(|p| p[0].bump < p[1].bump && p[0].rebound < p[1].rebound);
        assert!(rises, "{}", damper.number);
    }
}

#[test]
fn the_documented_example_loads() {
    let document = include_str!("../../assets/parts-list.md");
    let example = document.split("```csv\n").nth(1).and_then(|rest| rest.split("```").next()).expect("an example");
    let list = load(example);
    assert_eq!((list.springs.len(), list.dampers.len(), list.bad.len()), (2, 1, 0), "{:?}", list.bad);
    for means in Meaning::WITHOUT_SPEED {
        assert!(document.contains(&format!("| {} |", means.words())), "not documented: {}", means.words());
    }
}

#[test]
fn speeds_in_other_units_meet() {
    let list =
        load("bump 0.13 m/s (N),rebound 130 mm/s (N),bump 5 in/s (N),rebound 0.127 m/s (lbf)\n370,740,360,160\n");
    let points = &list.dampers[0].points;
    assert_eq!(points.len(), 2, "{points:?}");
    assert!(points.iter().all(|p| p.bump.is_some() && p.rebound.is_some()), "{points:?}");
    let twice = parts::guess(b"bump 0.127 m/s (N),bump 5 in/s (N)\n1,2\n").expect("columns");
    assert_eq!(twice.columns[1].means, None);
}

/// A list of `rows` springs in 15 columns.
fn long(rows: usize) -> String {
    let mut text = HEAD.to_owned();
    for i in 0..rows {
        text.push_str(&format!(
            "L-{i},\"Coil, made up\",{}.{},5,{}.5,160,98.2,130.4,16.1,9.25,closed,11500,52.50,{},,,,,,\n",
            40 + i % 60,
            i % 10,
            300 + i % 80,
            i % 12
        ));
    }
    text
}

#[test]
fn a_hundred_thousand_rows() {
    let time = |rows: usize| {
        let text = long(rows);
        let start = std::time::Instant::now();
        let list = load(&text);
        assert_eq!((list.rows, list.springs.len(), list.bad.len()), (rows, rows, 0));
        assert_eq!(list.springs[rows - 1].line, rows + 1);
        start.elapsed()
    };
    let (small, large) = (time(10_000), time(100_000));
    println!("10 000 rows in {small:?}, 100 000 rows in {large:?}");
    // Ten times the rows may take ten times as long; a hundred times would be quadratic.
    assert!(large < small * 40 + std::time::Duration::from_millis(200), "{small:?} {large:?}");
}

/// The worst a file can do: every row opens a quotation mark that only the end of the file could close.
#[test]
fn many_open_quotation_marks_stay_quick() {
    let text = format!("rate (N/mm),description\n{}", "1,\"x\"y\n1,\"\"\"\n".repeat(20_000));
    let start = std::time::Instant::now();
    let list = load(&text);
    assert!(list.rows > 1 && list.springs.is_empty());
    assert!(start.elapsed() < std::time::Duration::from_secs(20), "{:?}", start.elapsed());
}

/// A spring of invented numbers that a list can say exactly: (rate N/mm, free mm, stock, words).
type Row = (u32, u32, u32, String);

fn rows() -> impl Strategy<Value = Vec<Row>> {
    let words = "[a-zA-Z0-9 ,;\"'äß\n\t-]{0,12}";
    proptest::collection::vec((1_u32..200_000, 1_u32..90_000, 0_u32..50, words), 1..20)
}

/// A number of thousandths as text with this sign; trailing zeros may be left out.
fn written(thousandths: u32, sign: char, short: bool) -> String {
    let text = format!("{}{sign}{:03}", thousandths / 1000, thousandths % 1000);
    if short { text.trim_end_matches('0').trim_end_matches(sign).to_owned() } else { text }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = parts::guess(&bytes).map(|columns| (columns.fits(&bytes), parts::read(&bytes, &columns)));
    }

    #[test]
    fn any_rows_are_read_or_listed(text in "[0-9a-z,;\t\"\r\n.%€/ -]{0,300}") {
        let text = format!("{HEAD}{text}");
        let columns = Columns { delimiter: Some(','), ..parts::guess(HEAD.as_bytes()).expect("columns") };
        let list = parts::read(text.as_bytes(), &columns).expect("only rows can be wrong");
        prop_assert_eq!(list.rows, list.springs.len() + list.dampers.len() + list.bad.len());
        for bad in &list.bad {
            prop_assert!(text.contains(&bad.text) && !bad.reason.to_string().is_empty());
            let first = text.split('\n').flat_map(|l| l.split('\r').collect::<Vec<_>>()).count();
            prop_assert!(bad.line <= first);
        }
    }

    #[test]
    fn what_a_writer_wrote_is_read_back(
        rows in rows(),
        delimiter in prop_oneof![Just(b','), Just(b';'), Just(b'\t')],
        comma: bool, always: bool, crlf: bool, short: bool,
        order in Just(vec![0_usize, 1, 2, 3, 4]).prop_shuffle(),
    ) {
        let sign = if comma { ',' } else { '.' };
        let style = if always { csv::QuoteStyle::Always } else { csv::QuoteStyle::Necessary };
        let end = if crlf { csv::Terminator::CRLF } else { csv::Terminator::Any(b'\n') };
        let mut writer = csv::WriterBuilder::new().delimiter(delimiter).quote_style(style).terminator(end).from_writer(Vec::new());
        let mut write = |cells: [String; 5]| writer.write_record(order.iter().map(|i| &cells[*i])).expect("written");
        write(["Part", "rate (N/mm)", "free length (mm)", "stock", "description"].map(str::to_owned));
        for (i, (rate, free, stock, words)) in rows.iter().enumerate() {
            write([format!("P-{i}"), written(*rate, sign, short), written(*free, sign, false), stock.to_string(), words.clone()]);
        }
        let bytes = writer.into_inner().expect("bytes");
        let mut columns = parts::guess(&bytes).expect("columns");
        prop_assert_eq!(columns.delimiter, Some(char::from(delimiter)));
        let mark = if comma { DecimalMark::Comma } else { DecimalMark::Point };
        if rows.iter().any(|(_, free, ..)| *free < 1000) {
            prop_assert_eq!(columns.decimal, Some(mark));
        }
        // Numbers of three places alone do not tell the mark; the user says it.
        columns.decimal = Some(mark);
        let list = parts::read(&bytes, &columns).expect("a list");
        prop_assert_eq!(&list.bad, &[]);
        prop_assert_eq!(list.springs.len(), rows.len());
        let unit = |dim, symbol| table::find(dim, symbol).expect("a unit").si;
        let (per_rate, per_length) = (unit(Dim::SpringRate, "N/mm"), unit(Dim::Length, "mm"));
        for (i, (spring, (rate, free, stock, words))) in list.springs.iter().zip(&rows).enumerate() {
            prop_assert_eq!(&spring.number, &format!("P-{i}"));
            prop_assert_eq!(spring.rate.si(), f64::from(*rate) / 1000.0 * per_rate);
            prop_assert_eq!(si(spring.free_length), Some(f64::from(*free) / 1000.0 * per_length));
            prop_assert_eq!(spring.stock, Some(*stock));
            prop_assert_eq!(&spring.what, words.trim());
        }
    }
}
