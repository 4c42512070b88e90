//! Tables of the whole vehicle: nose and tail, bends, four corners.

use super::results::NOT_DETERMINED;
use super::loads::beam;
use super::{Block, or_unknown, percent_with_u, with_u};
use crate::language::tr;
use crate::say;
use crate::solve::answer::{Answer, Corners, Mode, OfVehicle, Roll, State, Whole, cross_weight, degrees_per_g};
use crate::units::{Dim, Length, Mass, Quantity, Ratio, UnitChoice, display};

/// A flat-ride speed above this is no speed of the road, m/s.
const FASTEST_M_PER_S: f64 = 90.0;

/// A result of one state.
type ResultOf<T> = fn(&OfVehicle<'_>, State) -> Option<T>;

/// A row with a text for every state; left out when nothing is known in any.
///
/// `result` is what stands in it, `si` the number in that which has a ±.
fn row<T>(
    answer: &Answer,
    what: impl Into<String>,
    result: ResultOf<T>,
    si: fn(T) -> Option<f64>,
    text: impl Fn(T, Option<f64>) -> String,
) -> Option<Vec<String>> {
    let found = State::ALL.map(|s| result(&answer.of_vehicle(), s));
    found.iter().any(Option::is_some).then(|| {
        let cells = State::ALL
            .into_iter()
            .zip(found)
            .map(|(s, value)| or_unknown(value, |value| text(value, answer.u_of(|v| result(v, s).and_then(si)))));
        std::iter::once(what.into()).chain(cells).collect()
    })
}

/// Rear against front, pitch, lamps and braking, state by state.
pub fn nose_and_tail(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    if answer.rear_over_front.new.or(answer.rear_over_front.old).is_none() {
        return Vec::new();
    }
    let mut head = vec![String::new()];
    head.extend(State::ALL.map(|s| s.words().to_owned()));
    let ratio = answer.rear_over_front;
    let flat = State::ALL.map(|s| match answer.flat_ride.of(s) {
        Some(v) => match answer.u_of(|o| Some((*o.flat_ride.of(s))?.si())) {
            Some(u) if !display::is_determined(v.si(), u) => tr("not determined").into(),
            _ if v.si() > FASTEST_M_PER_S => tr("far beyond the road").into(),
            u => with_u(Some(*v), u, units),
        },
        None if ratio.of(s).is_some_and(|r| r.si() <= 1.0) => tr("none").into(),
        None => tr("not known").to_owned(),
    });
    let braking =
        answer.whole.looked_at[0].map_or(String::new(), |b| say!(" at {deceleration:.1} g", deceleration = b.si()));
    let frequency = |m: Mode, u: Option<f64>| with_u(Some(m.frequency), u, units);
    let node = |m: Mode, u: Option<f64>| node_words(m.node, u, units);
    let hz = |m: Mode| Some(m.frequency.si());
    let node_m = |m: Mode| m.node.map(Quantity::si);
    let still = tr("still point, + ahead of the centre of gravity");
    let mode: [ResultOf<Mode>; 2] =
        [|v, s| Some((*v.whole.pitch.of(s))?.modes[0]), |v, s| Some((*v.whole.pitch.of(s))?.modes[1])];
    let signed = |l: Length, u: Option<f64>| {
        let text = with_u(Some(Length::from_si(l.si().abs())), u, units);
        if l.si() < 0.0 { say!("{amount} too little", amount = text) } else { text }
    };
    let length = |l: Length| Some(l.si());
    let rows = [
        row(
            answer,
            tr("Rear ÷ front frequency, on springs"),
            |v, s| *v.rear_over_front.of(s),
            |r: Ratio| Some(r.si()),
            number,
        ),
        Some(std::iter::once(tr("Flat-ride speed").to_owned()).chain(flat).collect()),
        row(answer, tr("Slower swing of the body"), mode[0], hz, frequency),
        row(answer, still, mode[0], node_m, node),
        row(answer, tr("Quicker swing of the body"), mode[1], hz, frequency),
        row(answer, still, mode[1], node_m, node),
        row(answer, tr("Lamps' beam against before"), |v, s| *v.whole.beam.of(s), length, |b, u| beam(b, u, units)),
        row(
            answer,
            say!("Front dives, braking{braking}", braking),
            |v, s| Some((*v.whole.dive.of(s))?.front),
            length,
            signed,
        ),
        row(answer, tr("Bump room left then"), |v, s| (*v.whole.dive.of(s))?.room_left, length, signed),
    ];
    let rows: Vec<Vec<String>> = rows.into_iter().flatten().collect();
    let open = rows.iter().flatten().any(|cell| cell == tr("not determined"));
    let table = Block::Table { head, rows };
    let mut blocks = vec![Block::Heading(tr("Rear against front").into()), table];
    blocks.extend(open.then(|| Block::Text(tr(NOT_DETERMINED).into())));
    blocks
}

fn number(ratio: Ratio, u: Option<f64>) -> String {
    display::fixed(ratio.si(), 2) + &display::plus_minus(u, 2)
}

/// "+1118 mm", ahead of the sprung centre of gravity.
fn node_words(node: Option<Length>, u_si: Option<f64>, units: &UnitChoice) -> String {
    let Some(node) = node else { return tr("none: level").to_owned() };
    if u_si.is_some_and(|u| !display::is_determined(node.si(), u)) {
        return tr("not determined").to_owned();
    }
    let text = display::rounded_with_u(node.si(), u_si, Dim::Length, units);
    if node.si() > 0.0 && !text.starts_with("0 ") { format!("+{text}") } else { text }
}

/// Roll in one state, or with the other bars.
#[derive(Clone, Copy)]
enum InBends {
    State(State),
    OtherBars,
}

impl InBends {
    fn roll(self, whole: &Whole) -> Option<Roll> {
        match self {
            InBends::State(s) => *whole.roll.of(s),
            InBends::OtherBars => whole.other_bars,
        }
    }

    fn words(self) -> &'static str {
        match self {
            InBends::State(s) => s.words(),
            InBends::OtherBars => tr("with the other bars"),
        }
    }
}

/// A number of roll in which a ± counts.
type OfRoll = fn(&Roll) -> Option<f64>;

/// Roll, state by state, and what another bar would do; nothing without tracks.
pub fn bends(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    let whole = &answer.whole;
    let states = State::ALL.into_iter().filter(|s| whole.roll.of(*s).is_some()).map(InBends::State);
    let mut columns: Vec<InBends> = states.collect();
    if columns.is_empty() {
        return Vec::new();
    }
    columns.extend(whole.other_bars.map(|_| InBends::OtherBars));
    let head = std::iter::once("").chain(columns.iter().map(|c| c.words())).map(str::to_owned).collect();
    let line = |what: String, result: OfRoll, text: &dyn Fn(f64, Option<f64>) -> String| -> Vec<String> {
        let cell = |c: &InBends| {
            let of = |whole: &Whole| c.roll(whole).as_ref().and_then(result);
            or_unknown(of(whole), |si| text(si, answer.u_of(|v| of(v.whole))))
        };
        std::iter::once(what).chain(columns.iter().map(cell)).collect()
    };
    let stiffness = |si: f64, u: Option<f64>| display::rounded_with_u(si, u, Dim::TwistRate, units);
    let force = |si: f64, u: Option<f64>| display::rounded_with_u(si, u, Dim::Force, units);
    let whole_percent =
        |share: f64, u: Option<f64>| format!("{:.0}{} %", 100.0 * share, display::plus_minus(u.map(|u| 100.0 * u), 0));
    let share = |share: f64, u: Option<f64>| percent_with_u(Some(Ratio::from_si(share)), u);
    let degrees = |g: f64, u: Option<f64>| {
        format!("{}{}°", display::fixed(degrees_per_g(g), 1), display::plus_minus(u.map(degrees_per_g), 1))
    };
    let of_it = tr("of it the anti-roll bar");
    let cornering =
        whole.looked_at[1].map_or(String::new(), |c| say!(" at {acceleration:.1} g", acceleration = c.si()));
    let mut rows = vec![
        line(tr("Roll stiffness, front").into(), |r| Some(r.stiffness(0).si()), &stiffness),
        line(of_it.into(), |r| Some(bar_share(r, 0)), &whole_percent),
        line(tr("Roll stiffness, rear").into(), |r| Some(r.stiffness(1).si()), &stiffness),
        line(of_it.into(), |r| Some(bar_share(r, 1)), &whole_percent),
        line(tr("Front share of it").into(), |r| r.front_share.map(Quantity::si), &share),
        line(tr("Leans per g, on the suspension").into(), |r| r.gradient_rad_s2_per_m, &degrees),
        line(tr("Leans per g, tyres included").into(), |r| r.on_tyres_rad_s2_per_m, &degrees),
        line(say!("Outer front wheel gains{cornering}", cornering), |r| Some(r.transfer?[0].si()), &force),
        line(say!("Outer rear wheel gains{cornering}", cornering), |r| Some(r.transfer?[1].si()), &force),
    ];
    let ratio = |si: f64, u: Option<f64>| display::fixed(si, 2) + &display::plus_minus(u, 2);
    let damped: [(&str, OfRoll); 2] = [
        (tr("Damping ratio in roll, old dampers"), |r| r.old_damping.map(Quantity::si)),
        (tr("Damping ratio in roll, dampers aimed at"), |r| r.new_damping.map(Quantity::si)),
    ];
    let is_known = |of: &OfRoll| columns.iter().any(|c| c.roll(whole).as_ref().and_then(of).is_some());
    let known = damped.into_iter().filter(|(_, of)| is_known(of));
    rows.extend(known.map(|(what, of)| line(what.into(), of, &ratio)));
    let words = tr(
        "An anti-roll bar works only when one side moves against the other: it is in bends and in one-wheel bumps, and in no ride frequency here.",
    );
    vec![Block::Heading(tr("In bends").into()), Block::Table { head, rows }, Block::Text(words.into())]
}

/// What the bar brings to the roll stiffness of an axle.
fn bar_share(roll: &Roll, axle: usize) -> f64 {
    roll.bars[axle].si() / (roll.springs[axle].si() + roll.bars[axle].si())
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
