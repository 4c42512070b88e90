//! Reads scale readings and rows of a table pasted from a display, a spreadsheet or a message.
//!
//! Four readings with the names of their corners, in lines of their own or in one, in any order; or a block of two rows
//! of two (front row first, left first). Totals and percentages are left out.

mod cells;
mod in_a_line;
mod pasted_points;

pub use pasted_points::{PastedPoints, points};

use cells::{columns, row_of_two, unit_in_head, weights_in};

use crate::base::message::Message;
use crate::base::units::parse::{self, DecimalMark};
use crate::base::units::{Dim, Unit, table};
use crate::message;
use crate::trade::weights::Corners;

/// Readings found in a text, each as it will be typed into its field.
#[derive(Debug, Clone, PartialEq)]
pub struct Pasted {
    /// One text per corner, with its unit.
    pub corners: Corners<String>,
    /// Lines that were left out, as found.
    pub ignored: Vec<String>,
}

/// Names of the corners, each with its place in the order LF, RF, LR, RR.
const NAMES: [(usize, &[&str]); 8] = [
    (0, &["lf", "fl", "left front", "front left", "l/f"]),
    (1, &["rf", "fr", "right front", "front right", "r/f"]),
    (2, &["lr", "rl", "left rear", "rear left", "l/r"]),
    (3, &["rr", "right rear", "rear right", "r/r", "rr."]),
    (0, &["vl", "links vorn", "links vorne", "vorn links", "vorne links"]),
    (1, &["vr", "rechts vorn", "rechts vorne", "vorn rechts", "vorne rechts"]),
    (2, &["hl", "links hinten", "hinten links"]),
    (3, &["hr", "rechts hinten", "hinten rechts"]),
];

/// Finds four readings in a text; `shown` is the unit of bare numbers.
///
/// # Errors
/// A sentence that says what is missing or doubled.
pub fn corners(text: &str, shown: &'static Unit, mark: DecimalMark) -> Result<Pasted, Message> {
    let mut by_corner: [Option<String>; 4] = Default::default();
    let mut block: Vec<Vec<String>> = Vec::new();
    let mut ignored = Vec::new();
    for line in text.lines().map(str::trim).filter(|l| !l.is_empty()).flat_map(in_a_line::pieces) {
        match corner_of(line) {
            Some((corner, rest)) => match weights_in(rest, shown, mark, true).first() {
                Some(reading) if by_corner[corner].is_none() => by_corner[corner] = Some(reading.clone()),
                Some(_) => return Err(message!("two readings for the same corner: \"{line}\"", line)),
                None => ignored.push(line.to_owned()),
            },
            None => match row_of_two(line, shown, mark) {
                row if row.len() == 2 && !line.contains(char::is_alphabetic) => block.push(row),
                row if row.len() == 2 && only_units(line) => block.push(row),
                _ => ignored.push(line.to_owned()),
            },
        }
    }
    let named = by_corner.iter().flatten().count();
    let found = match (named, block.as_slice()) {
        (4, _) => by_corner.map(Option::unwrap_or_default),
        (0, [front, rear]) => [front[0].clone(), front[1].clone(), rear[0].clone(), rear[1].clone()],
        (0, []) => {
            return Err(message!(
                "no readings found. Paste four readings with their corners, such as \"LF 985 lb\", or two rows of two numbers"
            ));
        }
        (0, rows) => {
            return Err(message!(
                "rows of two numbers found: {rows}; two are needed, the front row first",
                rows = rows.len()
            ));
        }
        (found, _) => {
            return Err(message!(
                "{found} of four corners found; enter the corner before each reading: LF, RF, LR, RR",
                found
            ));
        }
    };
    let [lf, rf, lr, rr] = found;
    Ok(Pasted { corners: Corners { lf, rf, lr, rr }, ignored })
}

/// A text holds more than one number: several lines, or one that names several corners with their readings.
pub fn is_block(text: &str) -> bool {
    let text = text.trim();
    text.contains('\n') || in_a_line::pieces(text).len() > 1
}

/// Rows found in a text, each cell as it will be typed into its field.
#[derive(Debug, Clone, PartialEq)]
pub struct PastedRows {
    /// One text per column, in the order found.
    pub rows: Vec<Vec<String>>,
    /// Lines that were left out, as found.
    pub ignored: Vec<String>,
}

/// Finds rows of numbers in a text from a spreadsheet or a message; order and text of every cell are kept.
///
/// Columns are separated by tabs, semicolons, bars, commas with a space, or spaces. A bare number takes the unit named
/// in its column's head ("length (mm)"), else the unit in `shown`. Lines without numbers are left out and named.
///
/// # Errors
/// A sentence that says which line cannot be read, or that no row was found.
pub fn rows(text: &str, shown: &[&'static Unit], mark: DecimalMark) -> Result<PastedRows, Message> {
    let mut units = shown.to_vec();
    let mut found = PastedRows { rows: Vec::new(), ignored: Vec::new() };
    for line in text.lines().map(str::trim).filter(|l| !l.is_empty()) {
        let cells = columns(line, shown.len());
        let numbers = cells.iter().filter(|c| c.contains(|ch: char| ch.is_ascii_digit())).count();
        if numbers == 0 {
            if found.rows.is_empty() && cells.len() == shown.len() {
                for (unit, cell) in units.iter_mut().zip(&cells) {
                    *unit = unit_in_head(cell, unit.dim)?.unwrap_or(unit);
                }
            }
            found.ignored.push(line.to_owned());
            continue;
        }
        if cells.len() > shown.len() || cells.is_empty() {
            return Err(message!(
                "\"{line}\" has {columns} columns; {wanted} are needed",
                line,
                columns = cells.len(),
                wanted = shown.len()
            ));
        }
        let mut row = Vec::new();
        for (cell, unit) in cells.iter().zip(&units) {
            row.push(match parse::number(cell, unit.dim, mark) {
                _ if cell.is_empty() => String::new(),
                Ok(_) => cell.clone(),
                Err(_) if parse::is_bare(cell, mark) => format!("{cell} {}", unit.symbol),
                Err(error) => return Err(message!("in \"{line}\": {error}", line, error)),
            });
        }
        row.resize(shown.len(), String::new());
        found.rows.push(row);
    }
    if found.rows.is_empty() {
        return Err(message!("no rows found. Paste lines of {columns} numbers each", columns = shown.len()));
    }
    Ok(found)
}

/// Rows that begin with a name: "gearbox, 62 kg, 1.1 m". The name is what precedes the first number.
///
/// # Errors
/// A sentence that says what could not be read.
pub fn named_rows(
    text: &str,
    shown: &[&'static Unit],
    mark: DecimalMark,
) -> Result<(Vec<String>, PastedRows), Message> {
    let (mut names, mut bare) = (Vec::new(), String::new());
    for line in text.lines().filter(|l| !l.trim().is_empty()) {
        let begins = |word: &str| word.starts_with(|c: char| c.is_ascii_digit() || "+-−.".contains(c));
        let starts = line.match_indices(|c: char| !c.is_whitespace() && !",;|\t".contains(c)).map(|m| m.0);
        let gap_before =
            |i: &usize| line[..*i].chars().next_back().is_none_or(|c| c.is_whitespace() || ",;|".contains(c));
        let numeric = |i: &usize| line[*i..].chars().any(|c| c.is_ascii_digit()) && begins(&line[*i..]);
        let Some(at) = starts.filter(gap_before).find(numeric) else {
            bare.push_str(line);
            bare.push('\n');
            continue;
        };
        names.push(line[..at].trim_matches(|c: char| c.is_whitespace() || ",;|:".contains(c)).to_owned());
        bare.push_str(&line[at..].replace('−', "-"));
        bare.push('\n');
    }
    let found = rows(&bare, shown, mark)?;
    if found.rows.len() != names.len() {
        return Err(message!(
            "names found: {names}; rows of numbers found: {rows}. Each row needs a name and its numbers",
            names = names.len(),
            rows = found.rows.len()
        ));
    }
    Ok((names, found))
}

/// The corner named at the start of a line, and what follows the name.
fn corner_of(line: &str) -> Option<(usize, &str)> {
    let lower = line.to_ascii_lowercase();
    NAMES
        .iter()
        .flat_map(|&(corner, names)| names.iter().map(move |name| (*name, corner)))
        .filter(|(name, _)| {
            lower
                .strip_prefix(name)
                .is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric() && !c.is_ascii_digit()))
        })
        .max_by_key(|(name, _)| name.len())
        .map(|(name, corner)| (corner, line[name.len()..].trim_start_matches([' ', ':', '=', '\t', ';', ','])))
}

/// Letters in the line, if any, only spell units of mass.
fn only_units(line: &str) -> bool {
    line.split(|c: char| !c.is_alphabetic()).filter(|w| !w.is_empty()).all(|w| table::find(Dim::Mass, w).is_some())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<[String; 4], String> {
        let lb = table::find(Dim::Mass, "lb").expect("lb");
        corners(text, lb, DecimalMark::Point).map(|p| p.corners.walk_owned()).map_err(|why| why.to_string())
    }

    impl Corners<String> {
        fn walk_owned(self) -> [String; 4] {
            [self.lf, self.rf, self.lr, self.rr]
        }
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
        let comma =
            |text| corners(text, lb, DecimalMark::Comma).map(|p| p.corners.walk_owned()).map_err(|why| why.to_string());
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
        let wrong = rows("load (kg)\tdown\tup\n50\t1\t2", &leaf, DecimalMark::Point)
            .expect_err("a mass is no force")
            .to_string();
        assert!(wrong.contains("is for a mass; this column takes a force"), "{wrong}");
        assert!(read("1\t2\t3").expect_err("too many").contains("has 3 columns; 2 are needed"));
        assert!(read("hello").expect_err("none").starts_with("no rows found"));
        assert!(read("1\tabout 2").expect_err("unreadable").contains("about 2"));
    }
}
