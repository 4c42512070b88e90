//! Tables about the springs themselves: what was measured of the old one, the routes, what cutting would do, a coil
//! on offer or to be wound.

use crate::base::language::{mark, tr};
use crate::base::units::{Dim, Length, Quantity, UnitChoice, display};
use crate::job::{Material, Side, fields};
use crate::report::Block;
use crate::report::phrases;
use crate::report::results::Results;
use crate::report::sections::sentence;
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, Checked, Measured, RouteKind};

fn row(what: &str, text: String) -> Vec<String> {
    vec![what.to_owned(), text]
}

fn rate(measured: Measured, units: &UnitChoice) -> String {
    display::measured_si(measured.value, measured.u, Dim::SpringRate, units)
}

/// What was measured of the old spring, in the order of the table: rates, then what its kind says.
const RATES: [&str; 4] = ["stated", "by_wire", "by_press", "together"];

const LEAF: [&str; 6] = ["test_rate", "loop", "friction", "by_sizes", "stress_ride", "stress_bump"];

const BAR: [&str; 5] = ["twist_rate", "free_angle", "stress_ride", "stress_bump", "allowed"];

const COIL: [&str; 12] = [
    "index",
    "wahl",
    "en_factor",
    "active",
    "solid_length",
    "stress_ride",
    "stress_ride_en",
    "stress_bump",
    "stress_bump_en",
    "stress_solid",
    "stress_solid_en",
    "allowed",
];

/// The old spring by whatever was measured of it.
pub fn old_spring(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Option<Block> {
    let (axle, key) = (answer.axle(side), side.key());
    let spring = &axle.old_spring;
    let mut rows = results.known(&format!("{key}.old_spring"), &RATES, units);
    rows.extend(by_routes(results, side, answer.checked(side), units));
    rows.extend(results.known(&format!("{key}.old_spring.coil"), &COIL, units));
    rows.extend(results.known(&format!("{key}.old_spring.leaf"), &LEAF, units));
    rows.extend(results.known(&format!("{key}.bar"), &BAR, units));
    rows.extend(results.known(&format!("{key}.old_spring.crossover"), &["force", "travel"], units));
    if rows.len() == 1 && spring.stated.is_some() {
        return None; // A stated rate alone stands in the form already.
    }
    let (side, kind) = (axle.side.word(), axle.kind.words());
    let title = if spring.bar.is_some() { format!("{side}, {kind}") } else { say!("{side}, old {kind}", side, kind) };
    Block::pairs(title, rows)
}

/// The rate by the other routes next to that of the chosen way, and which of them counts.
fn by_routes(results: &Results, side: Side, checked: &Checked, units: &UnitChoice) -> Vec<Vec<String>> {
    let Some(by) = &checked.by_routes else { return Vec::new() };
    let which = match (by.own, by.counts) {
        (None, _) => tr("rate from the other routes; no rate was given").to_owned(),
        (Some(own), true) => {
            say!(
                "rate from the other routes: its ± is smaller than that of the rate given, {own}",
                own = rate(own, units)
            )
        }
        (Some(own), false) => say!("rate given, {own}", own = rate(own, units)),
    };
    let mut rows = results.known(&format!("{}.old_spring", side.key()), &["by_routes"], units);
    rows.push(row(tr("Rate used"), which));
    rows
}

/// Every way to the wheel rate, with its ±.
pub fn routes(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Option<Block> {
    let routes = &answer.checked(side).routes;
    let prefix = format!("{}.routes", side.key());
    let mut rows = results.known(&prefix, &RouteKind::ALL.map(RouteKind::key), units);
    if routes.list.len() > 1 {
        rows.extend(results.known(&prefix, &["fused"], units));
    }
    if let Some((odd, cause)) = &routes.odd {
        rows.push(row(tr("Route that disagrees"), format!("{}. {cause}", odd.words())));
    }
    Block::pairs(say!("{side}, wheel rate at the reference height, by route", side = side.word()), rows)
}

/// What cutting coils off the old spring would do.
pub fn cut(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Option<Block> {
    let cut = answer.axle(side).old_spring.cut?;
    let keys = ["rate", "free_length", "frequency", "height_change", "stop_room", "seat"];
    let coils = sentence::coils(cut.coils.si());
    let title = say!("{side}, old spring with {coils} cut off", side = side.word(), coils);
    Block::pairs(title, results.known(&format!("{}.cut", side.key()), &keys, units))
}

/// A coil on offer, under the forces of the picked rate.
pub fn offered(results: &Results, side: Side, units: &UnitChoice) -> Option<Block> {
    let prefix = format!("{}.offered", side.key());
    let [mut rows, coil, gaps] =
        [&["rate"][..], &COIL, &["least_gaps"]].map(|keys| results.known(&prefix, keys, units));
    rows.extend(coil.into_iter().chain(gaps));
    Block::pairs(say!("{side}, offered spring", side = side.word()), rows)
}

/// A coil to have wound; the rows for its ends and its maker are in between.
const WOUND: [&str; 4] = ["wound.wire", "wound.mean_diameter", "wound.active", "wound.total"];

const WOUND_LIMITS: [&str; 7] = [
    "sizing.order_length",
    "wound.solid_length",
    "wound.spare",
    "wound.stress",
    "wound.allowed",
    "wound.plain_solid",
    "wound.allowed_solid",
];

/// Wire and coils to have the picked rate wound, or what comes nearest.
pub fn wound(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Option<Block> {
    let part = answer.released(side).ok()?;
    let (wound, key) = (part.wound.as_ref()?, side.key());
    let mut rows = results.pairs(key, &["sizing.pick"], units);
    rows.extend(results.pairs(key, &WOUND, units));
    rows.push(row(tr("Ends"), wound.wire.ends.words().to_string()));
    rows.extend(results.pairs(key, &WOUND_LIMITS, units));
    rows.push(row(tr("Preset by the maker"), (if wound.is_preset { tr("yes") } else { tr("no") }).to_owned()));
    let side = side.word();
    let head = match wound.holds() {
        true => say!("{side}, spring to be wound", side),
        false => say!("{side}, spring to be wound: no wire meets every limit; this one is the nearest", side),
    };
    Block::pairs(head, rows)
}

/// An air bag on the old springs instead.
pub fn levelled(results: &Results, side: Side, units: &UnitChoice) -> Option<Block> {
    let keys = ["pressure", "bag_rate", "frequency", "reserve"];
    let rows = results.known(&format!("{}.levelled", side.key()), &keys, units);
    Block::pairs(say!("{side}, alternative: air bag with the old springs", side = side.word()), rows)
}

/// Leaves added to the old ones instead of new springs.
pub fn added_leaf(results: &Results, side: Side, units: &UnitChoice) -> Option<Block> {
    let keys = ["rate", "load", "share", "camber", "nip", "leaves", "thickness", "stack", "stress_bump"];
    let rows = results.known(&format!("{}.added_leaf", side.key()), &keys, units);
    Block::pairs(say!("{side}, alternative: leaves added to the old springs", side = side.word()), rows)
}

/// The motion ratio with its ±, in one line.
pub fn ratio(axle: &AxleAnswer, checked: &Checked, damper: bool, units: &UnitChoice) -> String {
    let pick = |a: &AxleAnswer| if damper { a.damper_motion_ratio } else { a.motion_ratio };
    let change = |a: &AxleAnswer| if damper { a.damper_ratio_slope } else { a.ratio_slope }.map(|s| s.value);
    let Some(r) = pick(axle).map(Quantity::si) else { return tr("Motion ratio not known yet.").into() };
    let u = checked.nudged.u_of(|a| pick(a).map(Quantity::si)).unwrap_or(0.0);
    let mut words = say!(
        "Motion ratio {ratio} (spring or damper ÷ wheel); the rate at the wheel is {squared:.3} × the rate of the spring or damper.",
        ratio = display::measured_si(r, u, Dim::Ratio, units),
        squared = r * r
    );
    if let Some(slope) = change(axle).filter(|s| *s != 0.0) {
        let u = checked.nudged.u_of(change).unwrap_or(0.0);
        let per = Length::from_si(if units.unit(Dim::Length).symbol == "in" { 0.1016 } else { 0.1 });
        let number = display::measured_si(slope * per.si(), u * per.si(), Dim::Ratio, units);
        words += &say!(
            " The ratio changes by {change} per {travel} of bump travel.",
            change = number,
            travel = display::rounded(per, units)
        );
    }
    if let Some(roll) = axle.roll_ratio().filter(|_| !damper) {
        words += &say!(" In roll, the ratio is {ratio:.3}.", ratio = roll.si());
    }
    words
}

/// The steels, with their numbers in the units shown.
pub fn steels(units: &UnitChoice) -> Block {
    let length = units.unit(Dim::Length).symbol;
    let head = [
        tr("Steel").to_owned(),
        tr("shear modulus").to_owned(),
        say!("tensile strength, d in {unit}", unit = length),
        tr("wire sizes").to_owned(),
        tr("allowable stress, % of tensile strength: not preset; preset").to_owned(),
    ];
    let rows = Material::ALL
        .into_iter()
        .map(|steel| {
            let (strength, range) = match steel.strength_law() {
                Some((a_mpa, m, (low, high))) => {
                    // A / d^m with d in the unit shown.
                    let a_pa = 1e6 * a_mpa / (units.unit(Dim::Length).si * 1e3).powf(m);
                    let size = |mm: f64| display::significant(mm * 1e-3 / units.unit(Dim::Length).si, 3);
                    let a = display::rounded_si(a_pa, Dim::Stress, units);
                    let range = say!("{low} to {high} {unit}", low = size(low), high = size(high), unit = length);
                    (mark(format!("{a} / d^{m}")), range)
                }
                None => (tr("no value listed: enter one").to_owned(), String::new()),
            };
            let share = format!("{}; {}", steel.allowed_share(), steel.allowed_share_set());
            let modulus = fields::by_key("spring.wire.shear_modulus")
                .map_or_else(String::new, |field| field.in_units(steel.shear_modulus(), units).to_string());
            vec![phrases::upper_first(steel.words().said()), modulus, strength, range, share]
        })
        .collect();
    Block::Table { head: head.to_vec(), rows }
}

/// Where the numbers of the steels come from.
pub const STEEL_SOURCES: &str = "Shear moduli: Machinery's Handbook table, seen in a public reproduction. Strength: minimum values A / d^m from Shigley's Mechanical Engineering Design, table 10-4; music wire, oil-tempered and hard-drawn seen in worked examples, the others not checked. Allowable shares of tensile strength: static load, not preset (music wire and oil-tempered seen, the others not checked) and preset (not checked). All values can be overwritten.";
