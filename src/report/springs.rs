//! Tables about the springs themselves: what was measured of the old one, the routes, what cutting would do, a coil
//! on offer or to be wound.

use super::Block;
use super::sentence;
use crate::job::Material;
use crate::solve::answer::{AxleAnswer, Checked, CoilFacts, Measured};
use crate::units::{Dim, Length, Quantity, SpringRate, Stress, UnitChoice, display};

fn row(what: &str, text: String) -> Vec<String> {
    vec![what.to_owned(), text]
}

fn rate(measured: Measured, units: &UnitChoice) -> String {
    display::measured_si(measured.value, measured.u, Dim::SpringRate, units)
}

fn said<Q: Quantity>(what: &str, value: Option<Q>, units: &UnitChoice) -> Option<Vec<String>> {
    value.map(|v| row(what, display::rounded(v, units)))
}

fn table(title: String, rows: Vec<Vec<String>>) -> Option<Block> {
    (!rows.is_empty()).then(|| Block::Table { head: vec![title, String::new()], rows })
}

/// The old spring by whatever was measured of it.
pub fn old_spring(axle: &AxleAnswer, units: &UnitChoice) -> Option<Block> {
    let spring = &axle.old_spring;
    let mut rows = Vec::new();
    let rates = [
        ("Rate as stated", spring.stated),
        ("Rate by wire and coils", spring.by_wire),
        ("Rate by press", spring.by_press),
        ("Wire and press, weighted", spring.together),
    ];
    rows.extend(rates.into_iter().filter_map(|(what, m)| Some(row(what, rate(m?, units)))));
    if let Some(coil) = &spring.coil {
        rows.extend(coil_rows(coil, units));
    }
    if let Some(leaf) = &spring.leaf {
        if let Some(test) = &leaf.test {
            rows.extend(said("Leaf rate by test", Some(test.rate), units));
            rows.extend(said("Gap between loading and unloading", test.loop_height, units));
            rows.extend(
                test.friction.map(|f| row("Friction, either way", format!("± {}", display::rounded(f, units)))),
            );
        }
        rows.extend(said("Leaf rate by its sizes", leaf.by_sizes, units));
        rows.extend(said("Bending stress at ride height", leaf.stress_ride, units));
        rows.extend(said("Bending stress at full bump", leaf.stress_bump, units));
    }
    if let Some(bar) = &spring.bar {
        rows.extend(said("Twist rate of the old bar", Some(bar.twist_rate), units));
        rows.extend(said("Arm below level, old bar unwound", bar.free_angle, units));
        rows.extend(said("Bar stress at ride height, as fitted", bar.stress_ride, units));
        rows.extend(said("Bar stress at full bump, as fitted", bar.stress_bump, units));
        rows.extend(said("Allowed bar stress", bar.allowed, units));
    }
    if let Some(crossover) = &spring.crossover {
        rows.extend(said("Helper solid from a spring load of", Some(crossover.force), units));
        rows.extend(said("Helper solid at wheel travel", crossover.travel, units));
    }
    if rows.len() == 1 && spring.stated.is_some() {
        return None; // A stated rate alone stands in the form already.
    }
    let old = if spring.bar.is_some() { "" } else { "old " };
    table(format!("{}, {old}{}", axle.side.word(), axle.kind.words()), rows)
}

fn coil_rows(coil: &CoilFacts, units: &UnitChoice) -> Vec<Vec<String>> {
    let wire = &coil.wire;
    let coils = |n: f64| display::significant(n, 3);
    let mut rows = vec![
        row("Spring index (mean diameter ÷ wire)", display::significant(wire.index().si(), 3)),
        row("Stress factor: Wahl; standard", format!("{:.3}; {:.3}", wire.wahl().si(), wire.en_factor().si())),
        row("Working coils", coils(wire.active)),
    ];
    rows.extend(said("Solid length by its ends", coil.solid_length, units));
    let both = |what: &str, stress: Option<Stress>| {
        let number = |s: Stress| display::rounded_number(s.si(), units.unit(Dim::Stress));
        stress.map(|s| row(what, format!("{}; {}", number(s), display::rounded(coil.by_standard(s), units))))
    };
    rows.extend(both("Stress at ride height, either factor", coil.stress_ride));
    rows.extend(both("Stress at full bump, either factor", coil.stress_bump));
    rows.extend(both("Stress when solid, either factor", coil.stress_solid));
    rows.extend(said("Allowed stress", coil.allowed, units));
    rows
}

/// Every way to the wheel rate, with its ±.
pub fn routes(axle: &AxleAnswer, checked: &Checked, units: &UnitChoice) -> Option<Block> {
    let routes = &checked.routes;
    let mut rows: Vec<Vec<String>> =
        routes.list.iter().map(|r| row(&sentence::upper_first(r.kind.words()), rate(r.wheel_rate, units))).collect();
    if let Some(fused) = routes.fused.filter(|_| routes.list.len() > 1) {
        rows.push(row("All of them, weighted", rate(fused, units)));
    }
    if let Some((odd, cause)) = &routes.odd {
        rows.push(row("Stands apart", format!("{}. {cause}", odd.words())));
    }
    table(format!("{}, wheel rate at the reference height by", axle.side.word()), rows)
}

/// What cutting coils off the old spring would do.
pub fn cut(axle: &AxleAnswer, units: &UnitChoice) -> Option<Block> {
    let cut = axle.old_spring.cut?;
    let rate = |r: SpringRate| display::rounded(r, units);
    let mut rows = vec![
        row("Rate then", rate(cut.rate)),
        row("Free length then", display::rounded(cut.free_length, units)),
        row("Bounces per second then", display::rounded(cut.frequency, units)),
    ];
    rows.extend(cut.height_change.map(|h| row("The vehicle would sit", sentence::height(h, units))));
    rows.extend(said("Room to the bump stop then (below 0: past it)", cut.stop_room, units));
    rows.extend(said("Grip on the seats at full droop (below 0: loose)", cut.seat, units));
    table(format!("{}, with {} cut off", axle.side.word(), sentence::coils(cut.coils.si())), rows)
}

/// A coil on offer, under the forces of the picked rate.
pub fn offered(axle: &AxleAnswer, units: &UnitChoice) -> Option<Block> {
    let coil = axle.offered.as_ref()?;
    let mut rows = vec![row("Rate by its wire", display::rounded(coil.rate, units))];
    rows.extend(coil_rows(coil, units));
    rows.push(row("Least gaps at full bump (standard)", display::rounded(coil.wire.least_gaps(), units)));
    table(format!("{}, coil on offer", axle.side.word()), rows)
}

/// Wire and coils to have the picked rate wound.
pub fn wound(axle: &AxleAnswer, units: &UnitChoice) -> Option<Block> {
    let wound = axle.wound.as_ref().filter(|_| !axle.overloaded)?;
    let length = |m: f64| display::full_si(m, Dim::Length, units);
    let rows = vec![
        row("Rate", axle.sizing.as_ref().map_or(String::new(), |s| display::rounded(s.pick, units))),
        row("Wire", length(wound.wire.diameter_m)),
        row("Mean diameter", length(wound.wire.mean_m)),
        row("Working coils; all coils", format!("{:.2}; {:.2}", wound.wire.active, wound.total)),
        row("Ends", wound.wire.ends.words().to_owned()),
        row(
            "Free length, settling allowed for",
            axle.sizing
                .as_ref()
                .and_then(|s| s.order_length)
                .map_or("not known".into(), |l| display::rounded(l, units)),
        ),
        row(
            "Solid length",
            format!(
                "{}{}",
                display::rounded(wound.solid_length, units),
                if wound.solid_fits { "" } else { ", too long for full bump" }
            ),
        ),
        row(
            "Stress at full bump; allowed",
            format!("{}; {}", display::rounded(wound.stress, units), display::rounded(wound.allowed, units)),
        ),
    ];
    table(format!("{}, to have it wound", axle.side.word()), rows)
}

/// An air bag on the old springs instead.
pub fn levelled(axle: &AxleAnswer, units: &UnitChoice) -> Option<Block> {
    let bag = axle.levelled.as_ref().filter(|_| !axle.overloaded)?;
    let mut rows = vec![
        row("Pressure that levels it", display::rounded(bag.pressure, units)),
        row("Rate of the bag", display::rounded(bag.bag_rate, units)),
        row("Bounces per second then", display::rounded(bag.frequency, units)),
    ];
    rows.extend(bag.reserve.map(|r| row("Reserve before the stop then", format!("{:.2} g", r.si()))));
    table(format!("{}, air bag on the old springs instead", axle.side.word()), rows)
}

/// The motion ratio with its ±, in one line.
pub fn ratio(axle: &AxleAnswer, checked: &Checked, damper: bool, units: &UnitChoice) -> String {
    let pick = |a: &AxleAnswer| if damper { a.damper_motion_ratio } else { a.motion_ratio };
    let change = |a: &AxleAnswer| if damper { a.damper_ratio_slope } else { a.ratio_slope }.map(|s| s.value);
    let Some(r) = pick(axle).map(Quantity::si) else { return "Motion ratio not known yet.".into() };
    let u = checked.u_of(|a| pick(a).map(Quantity::si)).unwrap_or(0.0);
    let mut words = format!(
        "Motion ratio {} (part ÷ wheel); a rate counts × {:.3} at the wheel.",
        display::measured_si(r, u, Dim::Ratio, units),
        r * r
    );
    if let Some(slope) = change(axle).filter(|s| *s != 0.0) {
        let u = checked.u_of(change).unwrap_or(0.0);
        let per = Length::from_si(if units.unit(Dim::Length).symbol == "in" { 0.1016 } else { 0.1 });
        let number = display::measured_si(slope * per.si(), u * per.si(), Dim::Ratio, units);
        words += &format!(" It changes by {number} over {} of bump.", display::rounded(per, units));
    }
    if let Some(roll) = axle.roll_ratio.filter(|_| !damper) {
        words += &format!(" In roll it is {:.3}.", roll.si());
    }
    words
}

/// The steels, with their numbers and where these come from.
pub fn steels() -> Block {
    let head =
        ["Steel", "shear modulus", "strength, d in mm", "wire sizes", "allowed; set out"].map(str::to_owned).to_vec();
    let rows = Material::ALL
        .into_iter()
        .map(|steel| {
            let (strength, range) = match steel.strength_law() {
                Some((a_mpa, m, (low, high))) => (format!("{a_mpa:.0} MPa / d^{m}"), format!("{low} to {high} mm")),
                None => ("not at hand: type it".to_owned(), String::new()),
            };
            let share = format!("{}; {}", steel.allowed_share(), steel.allowed_share_set());
            vec![sentence::upper_first(steel.words()), steel.shear_modulus().to_owned(), strength, range, share]
        })
        .collect();
    Block::Table { head, rows }
}

/// Where the numbers of the steels come from.
pub const STEEL_SOURCES: &str = "Shear moduli: Machinery's Handbook table, seen as publicly reproduced. Strength: least values A / d^m of Shigley's Mechanical Engineering Design, table 10-4; music wire, oil-tempered and hard-drawn seen in worked solutions, the others from memory. Allowed shares: static load, as wound (music wire and oil-tempered seen, the others from memory) and with set taken out (from memory). All can be typed over.";
