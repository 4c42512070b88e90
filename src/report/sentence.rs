//! The answer in one plain sentence per axle.

use crate::job::{Plan, fields};
use crate::solve::answer::{Answer, AxleAnswer, BarChoice, RatedPart, Sizing, Standing};
use crate::units::{Length, Origin, Quantity, UnitChoice, display};

/// One sentence for an axle, and how sure it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sentence {
    /// The answer.
    pub answer: String,
    /// What it rests on.
    pub certainty: String,
}

/// The sentence for one axle.
pub fn axle(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> Sentence {
    Sentence { answer: plain(answer, axle, units), certainty: certainty(answer, axle, units) }
}

fn plain(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    let who = axle.side.word();
    if axle.overloaded {
        return stop(answer, axle, units);
    }
    match (axle.plan, &axle.sizing, &axle.standing.new) {
        (Plan::Keep, _, Some(stands)) => keep(who, stands, units),
        (Plan::NewSprings, Some(sizing), Some(stands)) => new_springs(axle, sizing, stands, units),
        _ => unanswered(who, axle),
    }
}

fn stop(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    let who = axle.side.word();
    let Some((case, worst)) = answer.worst_rated(axle.side) else {
        return format!("{who}: STOP. No spring is recommended.");
    };
    let (weight, share) = (display::rounded(worst.carries, units), worst.share.si() * 100.0);
    let of = match worst.part {
        RatedPart::Axle(_) => "the axle's rating".to_owned(),
        other => format!("what {} may carry", other.words()),
    };
    let when = case.index.map_or(String::new(), |_| format!(" in \"{}\"", case.name));
    format!("{who}: STOP. {weight}{when} is {share:.0} % of {of}. No spring is recommended.")
}

fn keep(who: &str, stands: &Standing, units: &UnitChoice) -> String {
    let bounces = bounces(stands);
    match stands.height_change {
        Some(rise) => {
            format!("{who}: the springs stay. It bounces {bounces} times a second and sits {}.", height(rise, units))
        }
        None => {
            format!("{who}: the springs stay. It bounces {bounces} times a second; its height before is not known.")
        }
    }
}

/// "1 coil", "1.5 coils".
pub fn coils(count: f64) -> String {
    format!("{} coil{}", display::significant(count, 3), if count == 1.0 { "" } else { "s" })
}

/// "Ballast and how far it sank".
pub fn upper_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|c| c.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

/// What the axle then does.
fn gives(axle: &AxleAnswer, stands: &Standing, units: &UnitChoice) -> String {
    match stands.height_change {
        Some(rise) => format!("bounces {} times a second and sits {}", bounces(stands), height(rise, units)),
        None => format!("bounces {} times a second {}", bounces(stands), against_measured(axle, -stands.travel, units)),
    }
}

/// "at the height at which it was measured", "15 mm higher than it was measured at".
fn against_measured(axle: &AxleAnswer, rise: Length, units: &UnitChoice) -> String {
    // Without before-weights lengths are taken as measured now.
    let now = axle.sprung_before.is_none();
    let words = height(rise, units);
    match words.strip_suffix(" than before") {
        Some(short) if now => format!("{short} than now"),
        Some(short) => format!("{short} than it was measured at"),
        None if now => "at the height it has now".into(),
        None => "at the height at which it was measured".into(),
    }
}

/// A range of bar diameters to the tenth of a millimetre, rounded inwards: both ends work.
pub fn bar_range(bar: &BarChoice, units: &UnitChoice) -> String {
    let said = |tenths: f64| display::full_si(tenths * 1e-4, crate::units::Dim::Length, units);
    let (low, high) = ((bar.diameter.low.si() * 1e4).ceil(), (bar.diameter.high.si() * 1e4).floor());
    format!("{} to {}", said(low), said(high.max(low)))
}

/// A torsion bar: which diameters work, and how far the new one is indexed anew.
fn new_bar(axle: &AxleAnswer, sizing: &Sizing, bar: &BarChoice, stands: &Standing, units: &UnitChoice) -> String {
    let who = axle.side.word();
    let (inside, one_value) = (sizing.pick_inside, sizing.is_one_value());
    let length = |l: Length| display::full_si(l.si(), crate::units::Dim::Length, units);
    let thousandths = |l: Length| Length::from_si((l.si() * 1e4).round() / 1e4);
    let works = if one_value {
        format!("a bar of {} is wanted", length(thousandths(bar.diameter.aim)))
    } else {
        format!("bars from {} in diameter work", bar_range(bar, units))
    };
    let turned = match bar.index {
        Some(index) if index.si() < 0.0 => format!(", let off {} from the old one's place,", degrees(-index)),
        Some(index) => format!(", wound up {} from the old one's place,", degrees(index)),
        None => String::new(),
    };
    let nearest = if inside { "" } else { ", the nearest one" };
    let comma = if nearest.is_empty() || !turned.is_empty() { "" } else { "," };
    format!("{who}: {works}. With {}{nearest}{turned}{comma} it {}.", length(bar.pick), gives(axle, stands, units))
}

fn degrees(angle: crate::units::Angle) -> String {
    format!("{:.1}°", angle.si().to_degrees())
}

fn new_springs(axle: &AxleAnswer, sizing: &Sizing, stands: &Standing, units: &UnitChoice) -> String {
    let who = axle.side.word();
    if let Some(bar) = &sizing.bar {
        return new_bar(axle, sizing, bar, stands, units);
    }
    let unit = units.unit(crate::units::Dim::SpringRate);
    let number = |rate: crate::units::SpringRate| display::rounded_number(rate.si(), unit);
    let pick = display::rounded(sizing.pick, units);
    let works = match sizing.stock {
        Some(stock) if stock.count > 1 => {
            format!("{} to {} {} all work", number(stock.lowest), number(stock.highest), unit.symbol)
        }
        Some(_) => format!("{pick} works, the only stock rate inside the range"),
        None if sizing.is_one_value() => format!("{} is wanted", display::rounded(sizing.spring_rate.aim, units)),
        None => format!(
            "no stock rate lies between {} and {} {}",
            display::rounded_number(sizing.spring_rate.low.si().max(0.0), unit),
            number(sizing.spring_rate.high),
            unit.symbol
        ),
    };
    let gives = gives(axle, stands, units);
    let (with, outside) = match &axle.taken {
        Some(taken) => (format!("{taken} ({pick})"), ", outside the range,"),
        None => (pick, ", the nearest,"),
    };
    let nearest = if sizing.pick_inside { "" } else { outside };
    format!("{who}: {works}. With {with}{nearest} it {gives}.")
}

fn bounces(stands: &Standing) -> String {
    format!("{:.2}", stands.frequency.si())
}

/// "at the old height", "28 mm lower than before".
pub fn height(rise: Length, units: &UnitChoice) -> String {
    let amount = display::rounded_number(rise.si().abs(), units.unit(crate::units::Dim::Length));
    if amount == "0" {
        return "at the old height".into();
    }
    let direction = if rise.si() < 0.0 { "lower" } else { "higher" };
    format!("{} {direction} than before", display::rounded(Length::from_si(rise.si().abs()), units))
}

/// "as before, ± 4 mm", "28 ± 4 mm lower".
pub fn short_height_with_u(rise: Length, u_si: Option<f64>, units: &UnitChoice) -> String {
    let short = short_height(rise, units);
    let amount = display::rounded(Length::from_si(rise.si().abs()), units);
    let told = display::rounded_with_u(rise.si().abs(), u_si, crate::units::Dim::Length, units);
    match (short.strip_prefix(&amount), told.split_once(" ± ")) {
        (Some(direction), _) => format!("{told}{direction}"),
        (None, Some((_, u))) => format!("{short}, ± {u}"),
        (None, None) => short,
    }
}

/// "as before", "28 mm lower".
pub fn short_height(rise: Length, units: &UnitChoice) -> String {
    let full = height(rise, units);
    match full.strip_suffix(" than before") {
        Some(short) => short.to_owned(),
        None => "as before".to_owned(),
    }
}

fn unanswered(who: &str, axle: &AxleAnswer) -> String {
    if axle.missing.is_empty() {
        return format!("{who}: these numbers give no answer; see what is marked as an error.");
    }
    format!("{who}: a first answer still needs {}.", needed(axle))
}

/// What is missing, as words.
fn needed(axle: &AxleAnswer) -> String {
    let needed: Vec<String> = axle
        .missing
        .iter()
        .map(|path| match path.rsplit('.').next() {
            Some("lf" | "lr") => "the weights after the swap".to_owned(),
            Some("wheel_moved" | "wheel" | "number" | "lean") => "how far wheel and spring move".to_owned(),
            _ if path.contains("points[") => "two points of the progressive coil or more".to_owned(),
            _ if path.contains("leaf.rows[") => "two rows of the leaf test or more".to_owned(),
            _ => fields::by_path(path).map_or(String::new(), |(f, _)| format!("the {}", f.label.to_lowercase())),
        })
        .collect();
    match needed.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
        None => String::new(),
    }
}

/// Keys of defaults that move the recommended rate or height.
pub(super) const WEIGHTY: [&str; 7] =
    ["unsprung", "parallel.rate", "target.low", "target.high", "target.margin", "stock.step", "stock.bar_step"];

fn certainty(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    if axle.standing.new.is_none() {
        return String::new();
    }
    let side = axle.side.key();
    let rests: Vec<String> = answer
        .defaults
        .iter()
        .filter_map(|d| d.path.strip_prefix(side)?.strip_prefix('.').filter(|key| WEIGHTY.contains(key)))
        .filter_map(|key| fields::by_key(key).map(|f| f.label.to_lowercase()))
        .collect();
    let rests = match rests.as_slice() {
        [] => "Rests on your own numbers alone.".to_owned(),
        [one] => format!("Rests on one default: {one}."),
        many => format!("Rests on {} defaults: {}.", many.len(), many.join(", ")),
    };
    let open = match axle.standing.old {
        None if !axle.missing.is_empty() => format!(" The old spring is not known: it still needs {}.", needed(axle)),
        _ => String::new(),
    };
    let foretold = match answer.compared.origins {
        [_, Some(Origin::Ledger)] => "Foretold by the ledger of parts, not weighed yet. ",
        [Some(Origin::Ledger), _] => "The weights before are reckoned back by the ledger of parts. ",
        _ => "",
    };
    format!("{foretold}{rests}{}{open}", plus_minus(answer, axle, units))
}

/// " As measured, ± 0.03 bounces and ± 4 mm." of the springs as they will be fitted.
fn plus_minus(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    let checked = answer.checked(axle.side);
    let new = |a: &AxleAnswer| a.standing.new.as_ref().map(|s| (s.frequency.si(), s.height_change.map(Quantity::si)));
    let Some(frequency) = checked.u_of(|a| new(a).map(|s| s.0)).filter(|u| *u > 0.0) else { return String::new() };
    // Less than this is rounding: such a spring is placed by its height.
    const LEAST_M: f64 = 5e-5;
    let height = checked.u_of(|a| new(a).and_then(|s| s.1)).filter(|u| *u > LEAST_M);
    let bounces = format!("± {:.2}", frequency.max(0.005));
    match height {
        Some(u) => {
            let unit = units.unit(crate::units::Dim::Length);
            let height = display::significant(u / unit.si, 1);
            format!(" As measured: {bounces} bounces, ± {height} {}.", unit.symbol)
        }
        None => format!(" As measured: {bounces} bounces."),
    }
}
