//! Tables of the four corners: each in every state, what sets the cross weight right, and how the body leans.

use crate::base::language::tr;
use crate::base::units::{Length, Mass, Quantity, UnitChoice, display};
use crate::job::Side;
use crate::report::Block;
use crate::report::percent_with_u;
use crate::report::results::{CORNERS, Column, Results, corners_key, of_states};
use crate::report::with_u;
use crate::say;
use crate::solve::answer::{Answer, Corners, State, Vehicle, cross_weight};

/// All corners in every state in which they are known; nothing without corner weights.
pub fn at_once(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let corners = &answer.whole.corners;
    let columns = of_states(|s| corners.of(s).is_some(), |s| corners_key(s).to_owned());
    if columns.is_empty() {
        return Vec::new();
    }
    let corner = |key: &str| CORNERS.map(|(corner, _)| format!("whole.corners.{{}}.{corner}.{key}"));
    let weights = corner("weight");
    let arches = corner("arch");
    let frequencies = corner("frequency");
    let is_told = |keys: &[String; 4]| keys.iter().any(|key| results.is_told(key, &columns));
    let is_measured = is_told(&arches);
    let mut keys: Vec<&str> = weights.iter().map(String::as_str).collect();
    if is_measured {
        keys.extend(arches.iter().map(String::as_str));
    }
    keys.extend(frequencies.iter().map(String::as_str));
    keys.extend(["whole.corners.{}.lean", "whole.corners.{}.cross_weight"]);
    let mut blocks =
        vec![Block::Heading(tr("Corner weights").into()), results.table(String::new(), &columns, &keys, units)];
    // Before nothing has risen yet.
    let after: Vec<Column> = columns.into_iter().filter(|c| c.1 != "before").collect();
    let [rises, grounds] = [corner("rise"), corner("rise_at_ground")];
    let heights: Vec<&str> = rises.iter().chain(&grounds).map(String::as_str).collect();
    if heights.iter().any(|key| results.is_told(key, &after)) {
        blocks.push(results.table(tr("Height change from before").into(), &after, &heights, units));
    }
    if !is_measured {
        blocks.push(Block::Text(tr("Left and right heights were not measured: the lean assumes a level floor and equal springs left and right. Measure hub to arch at each corner to get the actual lean.").into()));
    }
    blocks
}

/// Four masses of the whole vehicle.
type FourOf = fn(&Vehicle) -> Option<Corners<Mass>>;

/// Four corners: every state, level pads, correction, lean, centre of gravity.
pub fn corners(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let blocks = [at_once(answer, results, units), cross_weights(answer, units), lean_and_centre(answer, units)];
    blocks.into_iter().flatten().collect()
}

/// How the body leans in every state, and the centre of gravity after the change.
pub fn lean_and_centre(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    let whole = &answer.whole;
    let mut rows = Vec::new();
    for state in State::ALL {
        if let Some(words) = lean_words(answer, state, units) {
            rows.push(vec![say!("Body, {state}", state = state.words()), words]);
        }
    }
    rows.extend(
        lean_after_cross(answer, units).map(|words| vec![tr("Body, after the cross weight correction").into(), words]),
    );
    rows.extend(levelling_words(answer, units).map(|words| vec![tr("To level the body instead").into(), words]));
    if let Some(centre) = whole.centre {
        let u = answer.moved.u_of(|v| Some(v.whole.centre?.behind_front.si()));
        let behind = with_u(Some(centre.behind_front), u, units);
        rows.push(vec![tr("Centre of gravity behind the front axle").into(), behind]);
        if let Some(right) = centre.right {
            let is_right = right.si() >= 0.0;
            let u = answer.moved.u_of(|v| v.whole.centre?.right.map(Quantity::si));
            let off = with_u(Some(Length::from_si(right.si().abs())), u, units);
            let said = if is_right { say!("{off} to the right", off) } else { say!("{off} to the left", off) };
            rows.push(vec![tr("Centre of gravity off the centreline").into(), said]);
        }
        if let Some(height) = centre.height {
            let height = with_u(Some(Length::from_si(height.value)), Some(height.u), units);
            rows.push(vec![tr("Centre of gravity above the ground").into(), height]);
        }
    }
    if rows.is_empty() {
        return Vec::new();
    }
    vec![Block::table([tr("Body lean; centre of gravity after the change"), ""], rows)]
}

/// What the corners carry as weighed, on level pads and after the correction, and that correction.
pub fn cross_weights(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    if answer.after.corners.is_none() || answer.whole.cross.is_none() {
        return Vec::new();
    }
    let shown: [(&str, FourOf); 3] = [
        (tr("as weighed after the change"), |v| v.after.corners),
        (tr("on level pads"), |v| v.whole.level.after),
        (tr("after the correction"), |v| Some(v.whole.cross?.corners)),
    ];
    let columns: Vec<(&str, FourOf)> = shown.into_iter().filter(|(_, of)| of(&answer.vehicle).is_some()).collect();
    let u = |of: FourOf, i: usize| answer.moved.u_of(|v| Some(of(v)?.walk()[i].si()));
    let mass = |of: FourOf, i: usize| with_u(of(&answer.vehicle).map(|c| c.walk()[i]), u(of, i), units);
    let head = std::iter::once("").chain(columns.iter().map(|c| c.0)).map(str::to_owned).collect();
    let mut rows: Vec<Vec<String>> = [tr("Left front"), tr("Right front"), tr("Left rear"), tr("Right rear")]
        .into_iter()
        .enumerate()
        .map(|(i, name)| std::iter::once(name.to_owned()).chain(columns.iter().map(|c| mass(c.1, i))).collect())
        .collect();
    let share = |of: FourOf| {
        let u = answer.moved.u_of(|v| Some(cross_weight(&of(v)?).si()));
        percent_with_u(of(&answer.vehicle).map(|c| cross_weight(&c)), u)
    };
    rows.push(std::iter::once(tr("Cross weight").to_owned()).chain(columns.iter().map(|c| share(c.1))).collect());
    let heading = Block::Heading(tr("Cross weight").into());
    vec![heading, Block::Table { head, rows }, Block::Text(correction_words(answer, units))]
}

/// "body level", "leans: 8 mm lower on the left", in one state.
pub fn lean_words(answer: &Answer, state: State, units: &UnitChoice) -> Option<String> {
    lower_words(answer, |v| v.whole.corners.of(state).map(|c| c.right_lower.si()), units)
}

/// The same after the cross weight was set right.
fn lean_after_cross(answer: &Answer, units: &UnitChoice) -> Option<String> {
    lower_words(answer, |v| v.whole.cross.map(|c| c.right_lower.si()), units)
}

fn lower_words(answer: &Answer, lower: impl Fn(&Vehicle) -> Option<f64>, units: &UnitChoice) -> Option<String> {
    let right_lower = lower(&answer.vehicle)?;
    let low = with_u(Some(Length::from_si(right_lower.abs())), answer.moved.u_of(lower), units);
    Some(match low.strip_prefix("0 ") {
        Some(u) if u.starts_with('±') => say!("body level, {uncertainty}", uncertainty = u),
        Some(_) => tr("body level").into(),
        None if right_lower > 0.0 => say!("leans: {low} lower on the right", low),
        None => say!("leans: {low} lower on the left", low),
    })
}

/// Which seats are raised for a level body, and the cross weight then.
fn levelling_words(answer: &Answer, units: &UnitChoice) -> Option<String> {
    let level = answer.whole.levelling?;
    let seat = |side: Side| {
        let higher = level.at_seat[side];
        let amount = display::rounded(Length::from_si(higher.si().abs()), units);
        let side = side.word_inside();
        match higher.si() < 0.0 {
            true => say!("{side}: left spring seat {amount} higher than the right", side, amount),
            false => say!("{side}: right spring seat {amount} higher than the left", side, amount),
        }
    };
    let u = answer.moved.u_of(|v| v.whole.levelling.map(|l| l.cross_weight.si()));
    Some(say!(
        "{front}; {rear}; cross weight is then {cross}",
        front = seat(Side::Front),
        rear = seat(Side::Rear),
        cross = percent_with_u(Some(level.cross_weight), u)
    ))
}

/// What to turn, in words.
fn correction_words(answer: &Answer, units: &UnitChoice) -> String {
    let Some(cross) = answer.whole.cross else { return String::new() };
    let seat = |side: Side| display::rounded(Length::from_si(cross.at_seat[side].si().abs()), units);
    let amount = |side: Side| match cross.by_turns[side] {
        true => say!("{turns:.1} turns ({seat})", seat = seat(side), turns = cross.turns.abs()),
        false => seat(side),
    };
    let up = cross.turns >= 0.0;
    let (raised, lowered) = if up {
        (tr("right front and left rear"), tr("left front and right rear"))
    } else {
        (tr("left front and right rear"), tr("right front and left rear"))
    };
    if Side::BOTH.into_iter().all(|side| seat(side).starts_with("0 ")) {
        return tr("The cross weight is as close to the target as the spring seats can bring it.").into();
    }
    let turn = say!(
        "To correct the cross weight: first disconnect the anti-roll bars. Raise the {raised} spring seats and lower the {lowered} ones, by {front} at the front and {rear} at the rear. Then roll the vehicle back and forth, and weigh again.",
        raised,
        lowered,
        front = amount(Side::Front),
        rear = amount(Side::Rear)
    );
    let low = display::rounded(Length::from_si(cross.right_lower.si().abs()), units);
    match cross.right_lower.si() {
        _ if low.starts_with("0 ") => say!("{turn} The body is then level.", turn),
        lower if lower > 0.0 => say!("{turn} The body is then {low} lower on the right.", turn, low),
        _ => say!("{turn} The body is then {low} lower on the left.", turn, low),
    }
}
