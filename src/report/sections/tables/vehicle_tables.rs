//! Tables of the whole vehicle: nose and tail, bends, four corners.

use crate::base::language::tr;
use crate::base::units::{Length, Mass, Quantity, UnitChoice, display};
use crate::report::Block;
use crate::report::percent_with_u;
use crate::report::results::{Column, NOT_DETERMINED, Results};
use crate::report::with_u;
use crate::say;
use crate::solve::answer::{Answer, Corners, OfVehicle, State, cross_weight};

/// The rows of the table of nose and tail.
const NOSE_AND_TAIL: [&str; 9] = [
    "whole.rear_over_front.{}",
    "whole.flat_ride_speed.{}",
    "whole.pitch.{}.slower.frequency",
    "whole.pitch.{}.slower.node",
    "whole.pitch.{}.quicker.frequency",
    "whole.pitch.{}.quicker.node",
    "whole.beam.{}",
    "whole.dive.{}.front",
    "whole.dive.{}.room_left",
];

fn column(state: State) -> Column {
    (state.words().to_owned(), state.key().to_owned())
}

/// Rear against front, pitch, lamps and braking, state by state.
pub fn nose_and_tail(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    if answer.rear_over_front.new.or(answer.rear_over_front.old).is_none() {
        return Vec::new();
    }
    let columns = State::ALL.map(column);
    let is_shown = |key: &&str| key.starts_with("whole.flat_ride_speed") || results.is_told(key, &columns);
    let keys: Vec<&str> = NOSE_AND_TAIL.into_iter().filter(is_shown).collect();
    let open = keys.iter().any(|key| results.row_of(key, &columns).flatten().any(|f| !f.is_determined()));
    let table = results.table(String::new(), &columns, &keys, units);
    let mut blocks = vec![Block::Heading(tr("Rear against front").into()), table];
    blocks.extend(open.then(|| Block::Text(tr(NOT_DETERMINED).into())));
    blocks
}

/// The rows of the table of bends; the last two only where they are known.
const BENDS: [&str; 11] = [
    "whole.roll.{}.front.stiffness",
    "whole.roll.{}.front.bar_share",
    "whole.roll.{}.rear.stiffness",
    "whole.roll.{}.rear.bar_share",
    "whole.roll.{}.front_share",
    "whole.roll.{}.gradient",
    "whole.roll.{}.gradient_on_tyres",
    "whole.roll.{}.front.transfer",
    "whole.roll.{}.rear.transfer",
    "whole.roll.{}.old_damping",
    "whole.roll.{}.new_damping",
];

/// Roll, state by state, and what another bar would do; nothing without tracks.
pub fn bends(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let whole = &answer.whole;
    let mut columns: Vec<Column> = State::ALL.into_iter().filter(|s| whole.roll.of(*s).is_some()).map(column).collect();
    if columns.is_empty() {
        return Vec::new();
    }
    columns.extend(whole.other_bars.map(|_| (tr("with the other bars").to_owned(), "other_bars".to_owned())));
    let is_shown = |key: &&str| !key.ends_with("_damping") || results.is_told(key, &columns);
    let keys: Vec<&str> = BENDS.into_iter().filter(is_shown).collect();
    let table = results.table(String::new(), &columns, &keys, units);
    let words = tr(
        "An anti-roll bar works only when one side moves against the other: it is in bends and in one-wheel bumps, and in no ride frequency here.",
    );
    vec![Block::Heading(tr("In bends").into()), table, Block::Text(words.into())]
}

/// Four masses of the whole vehicle.
type FourOf = fn(&OfVehicle<'_>) -> Option<Corners<Mass>>;

/// Four corners: level pads, scatter, correction, lean, centre of gravity.
pub fn corners(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    let whole = &answer.whole;
    let mut blocks = Vec::new();
    if answer.after.corners.is_some() && whole.cross.is_some() {
        let shown: [(&str, FourOf); 3] = [
            (tr("as weighed after"), |v| v.after.corners),
            (tr("on level pads"), |v| v.whole.level[1]),
            (tr("after the correction"), |v| Some(v.whole.cross?.correction.corners)),
        ];
        let columns: Vec<(&str, FourOf)> =
            shown.into_iter().filter(|(_, of)| of(&answer.of_vehicle()).is_some()).collect();
        let u = |of: FourOf, i: usize| answer.u_of(|v| Some(of(v)?.walk()[i].si()));
        let mass = |of: FourOf, i: usize| with_u(of(&answer.of_vehicle()).map(|c| c.walk()[i]), u(of, i), units);
        let head = std::iter::once("").chain(columns.iter().map(|c| c.0)).map(str::to_owned).collect();
        let mut rows: Vec<Vec<String>> = [tr("Left front"), tr("Right front"), tr("Left rear"), tr("Right rear")]
            .into_iter()
            .enumerate()
            .map(|(i, name)| std::iter::once(name.to_owned()).chain(columns.iter().map(|c| mass(c.1, i))).collect())
            .collect();
        let share = |of: FourOf| {
            let u = answer.u_of(|v| Some(cross_weight(&of(v)?).si()));
            percent_with_u(of(&answer.of_vehicle()).map(|c| cross_weight(&c)), u)
        };
        rows.push(std::iter::once(tr("Cross weight").to_owned()).chain(columns.iter().map(|c| share(c.1))).collect());
        blocks.push(Block::Heading(tr("Four corners").into()));
        blocks.push(Block::Table { head, rows });
        blocks.push(Block::Text(correction_words(answer, units)));
    }
    let mut rows = Vec::new();
    if let Some(words) = lean_words(answer, units) {
        rows.push(vec![tr("The body").into(), words]);
    }
    if let Some(centre) = whole.centre {
        let u = answer.u_of(|v| Some(v.whole.centre?.behind_front.si()));
        let behind = with_u(Some(centre.behind_front), u, units);
        rows.push(vec![tr("Centre of gravity behind the front axle").into(), behind]);
        if let Some(right) = centre.right {
            let is_right = right.si() >= 0.0;
            let u = answer.u_of(|v| v.whole.centre?.right.map(Quantity::si));
            let off = with_u(Some(Length::from_si(right.si().abs())), u, units);
            let said = if is_right { say!("{off} to the right", off) } else { say!("{off} to the left", off) };
            rows.push(vec![tr("and off the middle").into(), said]);
        }
        if let Some(height) = centre.height {
            let height = with_u(Some(Length::from_si(height.value)), Some(height.u), units);
            rows.push(vec![tr("and above the ground").into(), height]);
        }
    }
    if !rows.is_empty() {
        blocks.push(Block::Table { head: vec![tr("Balance, after").into(), String::new()], rows });
    }
    blocks
}

/// "stands level", "leans: 8 mm lower on the left".
pub fn lean_words(answer: &Answer, units: &UnitChoice) -> Option<String> {
    let lean = answer.whole.lean?;
    let u = answer.u_of(|v| Some(v.whole.lean?.right_lower.si()));
    let low = with_u(Some(Length::from_si(lean.right_lower.si().abs())), u, units);
    Some(match low.strip_prefix("0 ") {
        Some(u) if u.starts_with('±') => say!("stands level, {uncertainty}", uncertainty = u),
        Some(_) => tr("stands level").into(),
        None if lean.angle.si() > 0.0 => say!("leans: {low} lower on the right", low),
        None => say!("leans: {low} lower on the left", low),
    })
}

/// What to turn, in words.
fn correction_words(answer: &Answer, units: &UnitChoice) -> String {
    let Some(cross) = answer.whole.cross else { return String::new() };
    let amount = |i: usize| {
        let seat = display::rounded(Length::from_si(cross.at_seat[i].si().abs()), units);
        match cross.by_turns[i] {
            true => say!("{turns:.1} turns ({seat})", seat, turns = cross.correction.turns.abs()),
            false => seat,
        }
    };
    let up = cross.correction.turns >= 0.0;
    let (raised, lowered) = if up {
        (tr("right front and left rear"), tr("left front and right rear"))
    } else {
        (tr("left front and right rear"), tr("right front and left rear"))
    };
    let shown = |i: usize| display::rounded(Length::from_si(cross.at_seat[i].si().abs()), units);
    if [0, 1].into_iter().all(|i| shown(i).starts_with("0 ")) {
        return tr("The cross weight is as near to what is wanted as spring seats can bring it.").into();
    }
    say!(
        "To get there: spring seats {raised} up, {lowered} down, each by {front} in front and {rear} behind. Free the anti-roll bars first, roll the vehicle to and fro afterwards, and weigh again.",
        raised,
        lowered,
        front = amount(0),
        rear = amount(1)
    )
}
