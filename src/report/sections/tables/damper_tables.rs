//! Dampers in words and tables.

use crate::base::language::tr;
use crate::base::units::{DamperSpeed, Quantity, UnitChoice, Velocity, display};
use crate::job::Side;
use crate::report::Block;
use crate::report::results::{Figure, Results, head};
use crate::say;
use crate::solve::answer::{
    Answer, AxleAnswer, DamperTargets, Damping, OfferedDamper, OldDamper, OldDamperBy, Part, State,
};
use crate::trade::damper::TEST_SPEEDS_M_PER_S;

/// What springs do, and what dampers do.
pub const WHAT_EACH_DOES: &str = "Springs restore ride height and ride frequency; dampers control the motion. A stiffer spring alone does not help: with the old damper, the body bounces even more times before it settles. Both are sized together here.";

fn speed(speed: Velocity, units: &UnitChoice) -> String {
    display::rounded(DamperSpeed::from(speed), units)
}

/// What is asked of a damper, and what the old one does.
const WANTED: [&str; 5] =
    ["damping.ratio", "damping.at_wheel", "damping.at_damper", "damping.bump_rate", "damping.rebound_rate"];

const OLD: [&str; 2] = ["old_damper.bump_rate", "old_damper.rebound_rate"];

const COMPARED: [&str; 8] = [
    "old_damper.hot_ratio",
    "damping.hot_ratio",
    "damping.scale",
    "damping.hop_ratio",
    "damping.old_hop_ratio",
    "damping.gas_force",
    "damping.gas_lift",
    "damping.peak_speed",
];

const OFFERED: [&str; 3] = ["click", "ratio", "hot_ratio"];

const OFFERED_ROOM: [&str; 5] = ["bump_rate", "rebound_rate", "hop_ratio", "to_closed", "to_open"];

/// All tables about the dampers of one axle; nothing before the axle has springs.
pub fn blocks(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Vec<Block> {
    let axle = answer.axle(side);
    let Some(damping) = &axle.damping else { return Vec::new() };
    let part = answer.released(side).ok();
    let targets = part.map(|part| part.parts().damper.as_ref());
    if targets == Some(None) {
        return Vec::new();
    }
    let mut blocks = vec![needed(axle, results, part.is_some(), units)];
    let Some((part, targets)) = part.zip(targets.flatten()) else { return blocks };
    let key = side.key();
    blocks.push(forces(results, &format!("{key}.damping."), tr("Speed at the damper").to_owned(), units));
    if targets.two_slope_forces.is_some() {
        blocks.push(forces(results, &format!("{key}.damping.two_slope."), two_slope_words(targets, units), units));
    }
    blocks.extend(curves(axle, part, results, units));
    if let Some(offered) = &part.offered_damper {
        blocks.push(offered_table(results, side, offered, units));
        blocks.extend(clicks(offered, damping));
    }
    blocks
}

fn needed(axle: &AxleAnswer, results: &Results, is_released: bool, units: &UnitChoice) -> Block {
    let key = axle.side.key();
    let known = |keys: &[&str]| results.known(key, keys, units);
    let mut rows = known(&WANTED);
    if let Some(old) = &axle.old_damper {
        rows.push(vec![tr("Old damper, data source").to_owned(), known_by(old).to_owned()]);
        rows.extend(known(&OLD));
        rows.extend(State::ALL.into_iter().filter_map(|state| {
            let figure = results.find(&format!("{key}.{}.old_damper_ratio", state.key()))?;
            let head = format!("{}, {}", figure.head(units), state.words());
            figure.si.map(|_| vec![head, assumed(figure, figure.said(units))])
        }));
    }
    rows.extend(COMPARED.iter().filter_map(|key| results.find(&format!("{}.{key}", axle.side.key()))).filter_map(
        |f| {
            let is_told = f.si.is_some() && !(f.assumed && f.key.ends_with("old_hop_ratio"));
            is_told.then(|| vec![f.head(units), assumed(f, f.said(units))])
        },
    ));
    if !is_released {
        let text = tr("withheld; see the first line of this axle for the reason");
        rows.push(vec![tr("Damper rate and damper forces").to_owned(), text.to_owned()]);
    }
    Block::Table { head: vec![say!("{side} damper", side = axle.side.word()), String::new()], rows }
}

fn known_by(old: &OldDamper) -> &'static str {
    match old.by {
        OldDamperBy::Curve => tr("damper curve, averaged up to the peak speed below (for equal work per stroke)"),
        OldDamperBy::Rates => tr("damper rates"),
        OldDamperBy::RatioBefore(_) if old.is_assumed => tr("not measured; damping ratio before the change is assumed"),
        OldDamperBy::RatioBefore(_) => tr("damping ratio before the change"),
    }
}

/// A damping ratio with the old damper: "0.21", "0.21 (not measured, assumed)".
fn assumed(figure: &Figure, said: String) -> String {
    if figure.assumed { say!("{ratio} (not measured, assumed)", ratio = said) } else { said }
}

fn two_slope_words(targets: &DamperTargets, units: &UnitChoice) -> String {
    let Some(two) = targets.two_slope else { return tr("Two slopes").into() };
    say!(
        "Two slopes: knee at {knee}, above it {upper_share:.0} % of the slope below",
        knee = speed(two.aim.knee, units),
        upper_share = 100.0 * two.aim.upper_share.si()
    )
}

/// A row for each customary speed: what these keys say there.
fn at_speeds(results: &Results, first: String, columns: &[(String, String)], units: &UnitChoice) -> Block {
    let rows = TEST_SPEEDS_M_PER_S.into_iter().map(|v| {
        let said = |key: &str| results.named(&format!("{key}.{v:.2}")).map_or_else(String::new, |n| n.said(units));
        let cells = columns.iter().map(|(_, key)| said(key));
        std::iter::once(speed(Velocity::from_si(v), units)).chain(cells).collect()
    });
    let rows = rows.collect();
    Block::Table { head: head(first, columns), rows }
}

fn forces(results: &Results, prefix: &str, first: String, units: &UnitChoice) -> Block {
    let columns = [(tr("bump"), "bump_force"), (tr("rebound"), "rebound_force")];
    let columns = columns.map(|(words, key)| (words.to_owned(), format!("{prefix}{key}")));
    at_speeds(results, first, &columns, units)
}

/// Forces of the old damper and of the candidate at the customary speeds; `None` without a curve.
fn curves(axle: &AxleAnswer, part: Part<'_>, results: &Results, units: &UnitChoice) -> Option<Block> {
    let old = axle.old_damper.as_ref().and_then(|old| old.curve.as_ref()).map(|_| (tr("old damper"), "old_damper"));
    let offered = part.offered_damper.as_ref().map(|_| (tr("candidate damper"), "new_damper"));
    let shown: Vec<(&str, &str)> = old.into_iter().chain(offered).collect();
    let columns = shown.iter().flat_map(|(name, key)| {
        let path = |direction: &str| format!("{}.{key}.{direction}_force", axle.side.key());
        [(say!("{name}, bump", name), path("bump")), (say!("{name}, rebound", name), path("rebound"))]
    });
    let columns: Vec<(String, String)> = columns.collect();
    (!columns.is_empty()).then(|| at_speeds(results, tr("Speed at the damper").to_owned(), &columns, units))
}

fn offered_table(results: &Results, side: Side, offered: &OfferedDamper, units: &UnitChoice) -> Block {
    let inside = match (offered.fit.inside, offered.clicks_inside()) {
        (None, _) => tr("no: outside the target range").into(),
        (Some(_), Some([first, last])) if first == last => say!("yes, at click {first}", first),
        (Some(_), Some([first, last])) => say!("yes, from click {first} to {last}", first, last),
        (Some(_), None) => tr("yes").into(),
    };
    let prefix = format!("{}.new_damper", side.key());
    let mut rows = results.known(&prefix, &OFFERED, units);
    rows.push(vec![tr("Inside the target range").to_owned(), inside]);
    rows.extend(results.pairs(&prefix, &OFFERED_ROOM, units));
    Block::Table { head: vec![say!("{side} candidate damper", side = side.word()), String::new()], rows }
}

/// The damping ratio of each click; `None` without an adjuster.
fn clicks(offered: &OfferedDamper, damping: &Damping) -> Option<Block> {
    let all = offered.clicks.all();
    if all.len() < 2 {
        return None;
    }
    let rows = all.iter().zip(&offered.ratios).map(|(click, ratio)| {
        let number = click.number.map_or(tr("not numbered").into(), |n| n.to_string());
        let inside = (damping.ratio.low..=damping.ratio.high).contains(ratio);
        let said = display::fixed(ratio.si(), 2);
        vec![number, said, if inside { tr("inside") } else { tr("outside") }.into()]
    });
    Some(Block::table([tr("Click"), tr("damping ratio"), tr("target range")], rows.collect()))
}
