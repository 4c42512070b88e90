//! What a column's header says: its meaning and its unit.

use super::Meaning;
use super::header_words::{AROUND_A_SPEED, BUMP, HEADERS, IN_FRONT, MONEY, PER_PIECE, REBOUND};
use crate::base::table::{folded, words};
use crate::base::units::{DecimalMark, Dim, Unit, parse, table};

/// A header as understood.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Header {
    /// What the column means; `None` when that is not understood.
    pub means: Option<Meaning>,
    /// The unit the header names, one that measures the column's quantity.
    pub unit: Option<&'static Unit>,
    /// A unit of something else.
    pub odd: Option<&'static Unit>,
}

/// Longer headers cannot be distinguished.
const LONGEST: usize = 400;

/// Reads a header: "rate (lb/in)", "Free length [mm]", "rate_lb_in", "OD mm", "bump 0.13 m/s (N)".
pub(super) fn read(text: &str) -> Header {
    if text.len() > LONGEST {
        return Header::default();
    }
    let words = words(text);
    let small: Vec<String> = words.iter().map(|w| folded(w)).collect();
    if let Some(force) = force(&words, &small) {
        return force;
    }
    let front = small.iter().take_while(|w| IN_FRONT.contains(&w.as_str())).count();
    // "spring rate" is a header of its own, "coil" alone is none.
    for start in 0..=front {
        for end in (start + 1..=words.len()).rev() {
            let Some(means) = meaning(&words[start..end], &small[start..end]) else { continue };
            if let Some(header) = with_unit(means, &words[end..], &small[end..]) {
                return header;
            }
        }
    }
    Header::default()
}

/// The unit a header names for this meaning, whatever else it says, and a unit of something else.
pub(super) fn unit_for(text: &str, means: Meaning) -> Header {
    let header = read(text);
    if header.means.is_some_and(|m| m.dims() == means.dims()) {
        return Header { means: Some(means), ..header };
    }
    let words = words(text);
    let last = |n: usize| with_unit(means, &words[words.len() - n..], &[]).filter(|h| h.unit.is_some());
    // The longest ending that is a unit: of "rate N mm", not "mm" but "N mm".
    (1..=words.len().min(3)).rev().find_map(last).unwrap_or(Header { means: Some(means), ..Header::default() })
}

fn meaning(words: &[&str], small: &[String]) -> Option<Meaning> {
    if let ["D"] = words {
        // The mean diameter, by custom; the wire is a small d.
        return None;
    }
    let phrase = small.join(" ");
    HEADERS.iter().find(|(_, phrases)| phrases.contains(&phrase.as_str())).map(|(means, _)| *means)
}

/// The header of this meaning when the words behind it are a unit, or nothing.
fn with_unit(means: Meaning, rest: &[&str], small: &[String]) -> Option<Header> {
    let header = Header { means: Some(means), ..Header::default() };
    if rest.is_empty() {
        return Some(header);
    }
    let says_nothing = matches!(rest[0], "in" | "±" | "+/-");
    let rest = if rest.len() > 1 && says_nothing { &rest[1..] } else { rest };
    let dims = means.dims();
    let spellings = ["/", " ", "·", ""].map(|between| rest.join(between));
    let found = spellings.iter().find_map(|s| dims.iter().find_map(|dim| table::find(*dim, s)));
    if let Some(unit) = found {
        return Some(Header { unit: Some(unit), ..header });
    }
    if dims.is_empty() {
        let is_known = |w: &String| MONEY.contains(&w.as_str()) || PER_PIECE.contains(&w.as_str());
        let counted = matches!(means, Meaning::Price | Meaning::Stock | Meaning::TotalCoils);
        return (counted && !small.is_empty() && small.iter().all(is_known)).then_some(header);
    }
    spellings.iter().find_map(|s| table::find_any(s)).map(|odd| Header { odd: Some(odd), ..header })
}

/// A column of forces at a speed.
fn force(words: &[&str], small: &[String]) -> Option<Header> {
    let at = |known: &[&str]| small.iter().position(|w| known.contains(&w.as_str()));
    let (kind, is_bump) = match (at(BUMP), at(REBOUND)) {
        (Some(i), None) => (i, true),
        (None, Some(i)) => (i, false),
        _ => return None,
    };
    let number = words.iter().position(|w| w.starts_with(|c: char| c.is_ascii_digit() || c == '.'))?;
    let mark = if words[number].contains(',') { DecimalMark::Comma } else { DecimalMark::Point };
    let (speed_m_per_s, behind) = (number..words.len()).take(3).find_map(|end| {
        let text = format!("{} {}", words[number], words[number + 1..=end].join("/"));
        parse::number(text.trim(), Dim::DamperSpeed, mark).ok().map(|n| (n.si(), end + 1))
    })?;
    let is_rest =
        |i: &usize| *i != kind && !(number..behind).contains(i) && !AROUND_A_SPEED.contains(&small[*i].as_str());
    let rest: Vec<&str> = (0..words.len()).filter(is_rest).map(|i| words[i]).collect();
    let means = if is_bump { Meaning::Bump(speed_m_per_s) } else { Meaning::Rebound(speed_m_per_s) };
    with_unit(means, &rest, &[])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::language::{Language, Voice, speak};

    #[test]
    fn headers_as_people_write_them() {
        use Meaning::*;
        for (text, means, unit) in [
            ("rate (lb/in)", Rate, "lb/in"),
            ("Free length [mm]", FreeLength, "mm"),
            ("rate_lb_in", Rate, "lb/in"),
            ("rate_N_mm", Rate, "N/mm"),
            ("OD mm", OutsideDiameter, "mm"),
            ("Rate N/mm", Rate, "N/mm"),
            ("Spring Rate, N/mm", Rate, "N/mm"),
            ("nominal spring rate [kg/mm]", Rate, "kgf/mm"),
            ("k [N/mm]", Rate, "N/mm"),
            ("tolerance %", RateTolerance, "%"),
            ("rate tolerance (±%)", RateTolerance, "%"),
            ("± (N/mm)", RateTolerance, "N/mm"),
            ("Rate ± %", RateTolerance, "%"),
            ("L0 mm", FreeLength, "mm"),
            ("free length in mm", FreeLength, "mm"),
            ("free length in", FreeLength, "in"),
            ("Coil bind (in)", SolidLength, "in"),
            ("Wire Ø [mm]", Wire, "mm"),
            ("d (mm)", Wire, "mm"),
            ("max load (lb)", MaxLoad, "lbf"),
            ("Außendurchmesser mm", OutsideDiameter, "mm"),
            ("Länge ausgefahren [mm]", OpenLength, "mm"),
            ("diamètre intérieur (mm)", InsideDiameter, "mm"),
            ("Longitud libre (mm)", FreeLength, "mm"),
            ("bump 0.13 m/s (N)", Bump(0.13), "N"),
            ("rebound @0.26 m/s [lbf]", Rebound(0.26), "lbf"),
            ("Bump_0.13_m_s_N", Bump(0.13), "N"),
            ("Zugstufe 0,13 m/s (N)", Rebound(0.13), "N"),
            ("Rebound force at 10 in/s (lb)", Rebound(0.254), "lbf"),
            ("bump 130 mm/s (N)", Bump(0.13), "N"),
            ("Bump N @ 0.05m/s", Bump(0.05), "N"),
        ] {
            let header = read(text);
            assert_eq!((header.means, header.unit.map(|u| u.symbol)), (Some(means), Some(unit)), "{text}");
        }
        for (text, means) in [
            ("Part no.", Number),
            ("Part #", Number),
            ("Teile-Nr.", Number),
            ("Article", Number),
            ("Description", What),
            ("Total coils", TotalCoils),
            ("Price (EUR)", Price),
            ("Price € net", Price),
            ("in stock", Stock),
            ("Qty (pcs)", Stock),
            ("Ends", Ends),
            ("mounts", Mounts),
            ("bump 0.13 m/s", Bump(0.13)),
        ] {
            assert_eq!(read(text), Header { means: Some(means), ..Header::default() }, "{text}");
        }
    }

    #[test]
    fn the_words_on_screen_are_understood() {
        for language in Language::ALL {
            let _voice = speak(Voice { language, mark: language.mark() });
            for means in Meaning::WITHOUT_SPEED.into_iter().chain([Meaning::Bump(0.13), Meaning::Rebound(0.052)]) {
                assert_eq!(read(&means.words().to_string()).means, Some(means), "{}", means.words());
            }
        }
    }

    #[test]
    fn what_is_not_understood_has_no_meaning() {
        for text in
            ["", "colour", "rate class", "length", "D (mm)", "bump 0.13 (N)", "rate N/mm (lb/in)", "bump rebound"]
        {
            assert_eq!(read(text), Header::default(), "{text}");
        }
        let odd = read("max load (kg)");
        assert_eq!((odd.means, odd.unit, odd.odd.map(|u| u.symbol)), (Some(Meaning::MaxLoad), None, Some("kg")));
        assert_eq!(unit_for("Steifheit (N/mm)", Meaning::Rate).unit.map(|u| u.symbol), Some("N/mm"));
        assert_eq!(unit_for("stiff N mm", Meaning::Rate).unit.map(|u| u.symbol), Some("N/mm"));
        assert_eq!(unit_for("colour", Meaning::Rate).unit, None);
    }
}
