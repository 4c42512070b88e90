//! The answer in one plain sentence per axle.

use super::sides::sides;
use crate::base::language::{inside, tr};
use crate::base::units::{Dim, Length, Origin, Quantity, UnitChoice, display};
use crate::job::{Plan, Side, fields};
use crate::report::phrases::{amount, bounces, height, upper_first};
use crate::report::results::routes_words;
use crate::report::sections::needed;
use crate::say;
use crate::solve::answer::{
    Answer, AxleAnswer, BarChoice, Checked, Measured, Part, Rated, RatedPart, Reasons, Sizing, SpringToBuy, Standing,
};

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
    let said = plain(answer, axle, units);
    let sides = sides(answer, axle, units).filter(|_| answer.released(axle.side).is_ok());
    let answer_said = sides.map_or(said.clone(), |sides| format!("{said} {sides}"));
    Sentence { answer: answer_said, certainty: certainty(answer, axle, units) }
}

fn plain(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    let part = match answer.released(axle.side) {
        Ok(part) => part,
        Err(reasons) => return withheld(answer, axle, &reasons, units),
    };
    let side = &in_its_load(answer, axle);
    match (axle.plan, &axle.sizing, &axle.standing.new) {
        (Plan::Keep, _, Some(stands)) => super::kept::keep(side, part.parts().kept, stands, units),
        (Plan::NewSprings, Some(sizing), Some(stands)) => {
            let new = part.spring.as_ref().map(|spring| bought(part.parts().taken.as_deref(), spring, units));
            match answer.lead(axle.side).zip(new) {
                Some((lead, new)) => super::kept::leads(side, lead, &new, units),
                None => new_springs(side, axle, part, sizing, stands, units),
            }
        }
        _ => needed::unanswered(axle, axle.same_factor.as_ref(), units),
    }
}

/// The answer of an axle for which nothing may be bought: why, where the part would stand.
fn withheld(answer: &Answer, axle: &AxleAnswer, reasons: &Reasons<'_>, units: &UnitChoice) -> String {
    let (side, reason) = (axle.side.word(), without_axle(&reasons.first.text.to_string(), axle.side));
    if axle.overloaded {
        return stop(answer, axle, units);
    }
    match axle.plan {
        _ if reasons.is_stop() => say!("{side}: STOP. Nothing is recommended for this vehicle. {reason}", side, reason),
        Plan::Keep => say!("{side}: the springs stay, but the result is in doubt. {reason}", side, reason),
        Plan::NewSprings if axle.sizing.is_none() => needed::unanswered(axle, None, units),
        Plan::NewSprings => say!("{side}: do not order. {reason}", side, reason),
    }
}

/// A finding's text behind a word that names its axle already: without its own "Front: ".
pub fn without_axle(text: &str, side: Side) -> String {
    text.strip_prefix(&format!("{}: ", side.word())).map_or_else(|| text.to_owned(), upper_first)
}

/// "Front", or "Front, with \"towing\"" where springs are sized on a load case.
fn in_its_load(answer: &Answer, axle: &AxleAnswer) -> String {
    let side = axle.side.word();
    match answer.cases.get(answer.compared_case()) {
        Some(case) if case.index.is_some() => say!("{side}, load case \"{case}\"", side, case = case.name),
        _ => side.to_string(),
    }
}

fn stop(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    let side = axle.side.word();
    let Some((case, worst)) = answer.worst_rated(axle.side) else {
        return say!("{side}: STOP. No spring is recommended.", side);
    };
    let (weight, share) = (display::rounded(worst.carries, units), percent_of_rating(worst));
    let limit = match worst.part {
        RatedPart::Axle(_) => tr("the axle rating").to_owned(),
        part => say!("the rating of {part}", part = part.words()),
    };
    let when = case.index.map_or(String::new(), |_| say!(" in \"{case}\"", case = case.name));
    say!(
        "{side}: STOP. {weight}{when} is {share} % of {limit}. No spring is recommended.",
        side,
        weight,
        when,
        share,
        limit
    )
}

/// Whole per cents, but never "100 %" of what is over.
pub(in crate::report) fn percent_of_rating(rated: &Rated) -> String {
    let percent = rated.share.si() * 100.0;
    display::fixed(percent, if percent < 100.5 { 1 } else { 0 })
}

/// "1 coil", "1.5 coils".
pub fn coils(count: f64) -> String {
    if count == 1.0 { tr("1 coil").into() } else { say!("{count} coils", count = display::significant(count, 3)) }
}

/// What the axle then does.
fn gives(axle: &AxleAnswer, stands: &Standing, units: &UnitChoice) -> String {
    match stands.height_change {
        Some(rise) => say!(
            "bounces {bounces} times a second and sits {rise}",
            bounces = bounces(stands),
            rise = height(rise, units)
        ),
        None => say!(
            "bounces {bounces} times a second and sits {height}",
            bounces = bounces(stands),
            height = against_measured(axle, -stands.travel, units)
        ),
    }
}

/// "at the measured height", "15 mm higher than it was measured at".
fn against_measured(axle: &AxleAnswer, rise: Length, units: &UnitChoice) -> String {
    // Without before-weights lengths are taken as measured now.
    let now = axle.masses.sprung.before.is_none();
    match (amount(rise, units), rise.si() < 0.0) {
        (None, _) if now => tr("at its present height").into(),
        (None, _) => tr("at the measured height").into(),
        (Some(amount), true) if now => say!("{amount} lower than now", amount),
        (Some(amount), false) if now => say!("{amount} higher than now", amount),
        (Some(amount), true) => say!("{amount} lower than when measured", amount),
        (Some(amount), false) => say!("{amount} higher than when measured", amount),
    }
}

/// The stock bars that work: "24 to 26 mm", "24.5 mm"; `None` when none does.
fn bars_that_work(bar: &BarChoice, units: &UnitChoice) -> Option<String> {
    let stock = bar.stock?;
    let (low, high) = (display::as_sold(stock.lowest, units), display::as_sold(stock.highest, units));
    Some(if stock.count > 1 { say!("{low} to {high}", low, high) } else { low })
}

/// A torsion bar: which diameters work, and how far the new one is indexed again.
fn new_bar(
    side: &str,
    axle: &AxleAnswer,
    (spring, bar): (&SpringToBuy, &BarChoice),
    sizing: &Sizing,
    stands: &Standing,
    units: &UnitChoice,
) -> String {
    // To the tenth of a millimetre.
    let wanted_m = (bar.diameter.aim.si() * 1e4).round() / 1e4;
    let works = match (bars_that_work(bar, units), bar.stock) {
        _ if sizing.is_one_value() => {
            say!("a bar of {diameter} is needed", diameter = display::full_si(wanted_m, Dim::Length, units))
        }
        (Some(bars), Some(stock)) if stock.count > 1 => say!("bars of {bars} work", bars),
        (Some(bars), _) => say!("{bars} is the only stock bar that works", bars),
        (None, _) if bar.is_over_stress() => {
            tr("no stock bar inside the range is within its allowable stress").to_owned()
        }
        (None, _) => tr("no stock bar lies inside the range").to_owned(),
    };
    let turned = match bar.index {
        Some(index) if index.si() < 0.0 => {
            say!(", unwound {angle} from the old bar's position,", angle = degrees(-index))
        }
        Some(index) => say!(", wound up {angle} from the old bar's position,", angle = degrees(index)),
        None => String::new(),
    };
    let nearest = if spring.pick_inside { "" } else { tr(", the nearest stock bar") };
    let comma = if nearest.is_empty() || !turned.is_empty() { "" } else { "," };
    say!(
        "{side}: {works}. With {pick}{nearest}{turned}{comma} the body {gives}.",
        side,
        works,
        nearest,
        turned,
        comma,
        pick = bought(None, spring, units),
        gives = gives(axle, stands, units)
    )
}

fn degrees(angle: crate::base::units::Angle) -> String {
    format!("{}°", display::fixed(angle.si().to_degrees(), 1))
}

fn new_springs(
    side: &str,
    axle: &AxleAnswer,
    part: Part<'_>,
    sizing: &Sizing,
    stands: &Standing,
    units: &UnitChoice,
) -> String {
    let Some(spring) = &part.spring else { return needed::unanswered(axle, None, units) };
    if let Some(bar) = &spring.bar {
        return new_bar(side, axle, (spring, bar), sizing, stands, units);
    }
    let taken = part.parts().taken.as_deref();
    let outside = match (taken, spring.pick_inside) {
        (None, true) => "",
        (None, false) => tr(", the nearest stock rate,"),
        (Some(_), _) if sizing.is_one_value() => "",
        (Some(_), true) => tr(", inside this range,"),
        (Some(_), false) => tr(", outside this range,"),
    };
    let works = works(taken, spring, sizing, units);
    let (part, gives) = (bought(taken, spring, units), gives(axle, stands, units));
    say!("{side}: {works}. With {part}{outside} the body {gives}.", side, works, part, outside, gives)
}

/// What would do: the stock rates inside the range; the range itself where a spring was taken from a list.
fn works(taken: Option<&str>, bought: &SpringToBuy, sizing: &Sizing, units: &UnitChoice) -> String {
    let unit = units.unit(Dim::SpringRate);
    let number = |rate: crate::base::units::SpringRate| display::rounded_number(rate.si().max(0.0), unit);
    if sizing.is_one_value() {
        return say!("a rate of {rate} is needed", rate = display::rounded(sizing.spring_rate.aim, units));
    }
    let (low, high) = (number(sizing.spring_rate.low), number(sizing.spring_rate.high));
    match bought.stock {
        _ if taken.is_some() => say!("a rate of {low} to {high} {unit} is needed", low, high, unit = unit.symbol),
        Some(stock) if stock.count > 1 => say!(
            "any stock rate from {lowest} to {highest} {unit} works",
            lowest = number(stock.lowest),
            highest = number(stock.highest),
            unit = unit.symbol
        ),
        Some(stock) => {
            say!("{rate} is the only stock rate that works", rate = display::rounded(stock.lowest, units))
        }
        None => say!("no stock rate lies between {low} and {high} {unit}", low, high, unit = unit.symbol),
    }
}

/// What is bought, as every text names it: "27 N/mm (310 mm long)", "F-2720 (27 N/mm, 310 mm long)", "24.5 mm".
pub fn bought(taken: Option<&str>, spring: &SpringToBuy, units: &UnitChoice) -> String {
    if let Some(bar) = &spring.bar {
        return display::as_sold(bar.pick, units);
    }
    let rate = display::rounded(spring.pick, units);
    let long = spring.bought_length.map(|l| say!("free length {length}", length = display::rounded(l, units)));
    match (taken.filter(|name| !name.is_empty()), long) {
        (Some(taken), Some(long)) => format!("{taken} ({rate}, {long})"),
        (Some(taken), None) => format!("{taken} ({rate})"),
        (None, Some(long)) => format!("{rate} ({long})"),
        (None, None) => rate,
    }
}

/// Keys of defaults that move the recommended rate or height.
const WEIGHTY: [&str; 7] =
    ["unsprung", "parallel.rate", "target.low", "target.high", "target.margin", "stock.step", "stock.bar_step"];

/// A default that brings this share of the ± of the rate needed counts as well.
const LARGE_SHARE: f64 = 0.25;

/// The labels of the defaults that weigh in an axle's recommendation.
pub(in crate::report) fn assumed(answer: &Answer, axle: &AxleAnswer) -> Vec<&'static str> {
    let rate = |a: &AxleAnswer| a.sizing.as_ref().map(|s| s.spring_rate.aim.si());
    let mut large = answer.checked(axle.side).nudged.shares(rate);
    large.retain(|(_, share)| *share >= LARGE_SHARE);
    let side = axle.side.key();
    let weighty = answer.defaults.iter().filter_map(|d| {
        let key = d.path.strip_prefix(side)?.strip_prefix('.')?;
        (WEIGHTY.contains(&key) || large.iter().any(|(path, _)| *path == d.path)).then_some(key)
    });
    weighty.filter_map(fields::by_key).map(|field| field.label().said()).collect()
}

fn certainty(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    if axle.standing.new.is_none() || answer.released(axle.side).is_err() {
        return String::new();
    }
    let rests: Vec<String> = assumed(answer, axle).into_iter().map(inside).collect();
    let assumed = match rests.as_slice() {
        [] => None,
        [label] => Some(say!("1 value assumed: {label}.", label)),
        many => Some(say!("{count} values assumed: {labels}.", count = many.len(), labels = many.join(", "))),
    };
    let not_measured = not_measured(answer, axle);
    let weighed = answer.compared.origins.after != Some(Origin::Ledger);
    let rests = match (assumed, not_measured) {
        (None, None) if weighed => tr("All from your measurements.").to_owned(),
        (assumed, not_measured) => assumed.into_iter().chain(not_measured).collect::<Vec<_>>().join(" "),
    };
    let open = match axle.standing.old {
        None if !axle.missing.is_empty() => {
            say!(" The old spring is not known; still needed: {needed}.", needed = needed::words(axle))
        }
        _ => old_rate(answer.checked(axle.side), units).map_or(String::new(), |words| format!(" {words}")),
    };
    let foretold = match answer.compared.origins.both() {
        [_, Some(Origin::Ledger)] => tr("The weights after are predicted from the parts ledger and not weighed yet. "),
        [Some(Origin::Ledger), _] => tr("The weights before are worked back from the parts ledger. "),
        _ => "",
    };
    format!("{foretold}{rests}{}{open}", plus_minus(answer, axle, units))
}

/// "2 values not measured: old spring rate (quoted), unsprung mass (guessed)."; `None` when all were.
fn not_measured(answer: &Answer, axle: &AxleAnswer) -> Option<String> {
    let label = |path: &str| match fields::by_path(path) {
        Some((field, place)) if matches!(place.scope, fields::Scope::Axle(_)) => inside(field.label().said()),
        _ => inside(&fields::full_label(path).to_string()),
    };
    let mut labels: Vec<String> = Vec::new();
    let mut count = 0;
    for unmeasured in answer.not_measured(axle.side) {
        let told = format!("{} ({})", label(&unmeasured.path), unmeasured.origin.word());
        if !labels.contains(&told) {
            labels.push(told);
        }
        count += 1;
    }
    match count {
        0 => None,
        1 => Some(say!("1 value not measured: {label}.", label = labels.concat())),
        _ => Some(say!("{count} values not measured: {labels}.", count, labels = labels.join(", "))),
    }
}

/// " As measured, ± 0.03 bounces and ± 4 mm." of the springs as they will be fitted.
fn plus_minus(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    let Some(stands) = answer.stands(axle.side) else { return String::new() };
    let Some(frequency) = stands.frequency.1 else { return String::new() };
    let height = stands.height_change.and_then(|(_, u)| u);
    let bounces = format!("± {}", display::fixed(frequency.max(0.005), 2));
    match height {
        Some(u) => {
            let unit = units.unit(Dim::Length);
            let height = display::significant(u / unit.si, 1);
            say!(
                " Measurement uncertainty: {bounces} bounces per second, height ± {height} {unit}.",
                bounces,
                height,
                unit = unit.symbol
            )
        }
        None => say!(" Measurement uncertainty: {bounces} bounces per second.", bounces),
    }
}

/// From what the old spring's rate was worked out; `None` when it was given and counts.
pub fn old_rate(checked: &Checked, units: &UnitChoice) -> Option<String> {
    let by = checked.by_routes.as_ref().filter(|by| by.counts)?;
    let rate = |rate: Measured| display::measured_si(rate.value, rate.u, Dim::SpringRate, units);
    let (found, routes) = (rate(by.rate), routes_words(by));
    Some(match by.own {
        None => say!("The old spring's rate, {found}, was calculated from: {routes}.", found, routes),
        Some(own) => say!(
            "The old spring's rate, {found}, was calculated from: {routes}. The rate given, {own}, has the larger ± and is not used.",
            found,
            routes,
            own = rate(own)
        ),
    })
}
