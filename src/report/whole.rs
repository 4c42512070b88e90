//! Tables of the whole vehicle: nose and tail, bends, four corners.

use super::loads::beam;
use super::{Block, or_unknown};
use crate::solve::answer::{Answer, Corners, PerState, Pitch, Roll, State, cross_weight, degrees_per_g};
use crate::units::{Length, Mass, Quantity, Ratio, UnitChoice, Velocity, display};

/// A flat-ride speed above this is no speed of the road, m/s.
const FASTEST_M_PER_S: f64 = 90.0;

/// A row with a text for every state; left out when nothing is known in any.
fn row<T: Clone>(what: String, found: &PerState<Option<T>>, text: impl Fn(T) -> String) -> Option<Vec<String>> {
    State::ALL.iter().any(|s| found.of(*s).is_some()).then(|| {
        let cells = State::ALL.map(|s| or_unknown(found.of(s).clone(), &text));
        std::iter::once(what).chain(cells).collect()
    })
}

fn map<T: Clone, U>(found: &PerState<Option<T>>, f: impl Fn(T) -> Option<U>) -> PerState<Option<U>> {
    let of = |s: State| found.of(s).clone().and_then(&f);
    PerState { before: of(State::Before), old: of(State::OldSprings), new: of(State::NewSprings) }
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
        Some(v) if v.si() > FASTEST_M_PER_S => "far beyond the road".into(),
        Some(v) => display::rounded::<Velocity>(*v, units),
        None if ratio.of(s).is_some_and(|r| r.si() <= 1.0) => "none".into(),
        None => "not known".to_owned(),
    });
    let whole = &answer.whole;
    let mode = |i: usize| map(&whole.pitch, move |p: Pitch| Some(p.modes[i]));
    let frequency = |m: crate::solve::answer::Mode| display::rounded(m.frequency, units);
    let node = |m: crate::solve::answer::Mode| node_words(m.node, units);
    let braking = whole.looked_at[0].map_or(String::new(), |b| format!(" at {:.1} g", b.si()));
    let signed = |l: Length| {
        let text = display::rounded(Length::from_si(l.si().abs()), units);
        if l.si() < 0.0 { format!("{text} too little") } else { text }
    };
    let rows = [
        row("Rear ÷ front frequency, on springs".into(), &ratio, |r: Ratio| format!("{:.2}", r.si())),
        Some(std::iter::once("Flat-ride speed".to_owned()).chain(flat).collect()),
        row("Slower swing of the body".into(), &mode(0), frequency),
        row("still point, + ahead of the middle".into(), &mode(0), node),
        row("Quicker swing of the body".into(), &mode(1), frequency),
        row("still point, + ahead of the middle".into(), &mode(1), node),
        row("Lamps' beam against before".into(), &whole.beam, |b| beam(b, units)),
        row(format!("Front dives, braking{braking}"), &map(&whole.dive, |d| Some(d.front)), signed),
        row("Bump room left then".into(), &map(&whole.dive, |d| d.room_left), signed),
    ];
    let table = Block::Table { head, rows: rows.into_iter().flatten().collect() };
    vec![Block::Heading("Rear against front".into()), table]
}

/// "+1118 mm", ahead of the sprung centre of gravity.
fn node_words(node: Option<Length>, units: &UnitChoice) -> String {
    let Some(node) = node else { return "none: level".to_owned() };
    let text = display::rounded(node, units);
    if node.si() > 0.0 && !text.starts_with("0 ") { format!("+{text}") } else { text }
}

/// Roll, state by state, and what another bar would do; nothing without tracks.
pub fn bends(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    let whole = &answer.whole;
    let mut columns: Vec<(&str, &Roll)> =
        State::ALL.into_iter().filter_map(|s| Some((s.words(), whole.roll.of(s).as_ref()?))).collect();
    if columns.is_empty() {
        return Vec::new();
    }
    columns.extend(whole.other_bars.iter().map(|r| ("with the other bars", r)));
    let head = std::iter::once("").chain(columns.iter().map(|c| c.0)).map(str::to_owned).collect();
    let line = |what: String, cell: &dyn Fn(&Roll) -> String| -> Vec<String> {
        std::iter::once(what).chain(columns.iter().map(|c| cell(c.1))).collect()
    };
    let stiffness = |i: usize| move |r: &Roll| display::rounded(r.stiffness(i), units);
    let share = |i: usize| {
        move |r: &Roll| {
            let all = r.springs[i].si() + r.bars[i].si();
            format!("{:.0} %", 100.0 * r.bars[i].si() / all)
        }
    };
    let degrees = |g: Option<f64>| or_unknown(g, |g| format!("{:.1}°", degrees_per_g(g)));
    let cornering = whole.looked_at[1].map_or(String::new(), |c| format!(" at {:.1} g", c.si()));
    let moved = |i: usize| move |r: &Roll| or_unknown(r.transfer, |t| display::rounded(t[i], units));
    let rows = vec![
        line("Roll stiffness, front".into(), &stiffness(0)),
        line("of it the anti-roll bar".into(), &share(0)),
        line("Roll stiffness, rear".into(), &stiffness(1)),
        line("of it the anti-roll bar".into(), &share(1)),
        line("Front share of it".into(), &|r| or_unknown(r.front_share, |s| format!("{:.1} %", 100.0 * s.si()))),
        line("Leans per g, on the suspension".into(), &|r| degrees(r.gradient_rad_s2_per_m)),
        line("Leans per g, tyres included".into(), &|r| degrees(r.on_tyres_rad_s2_per_m)),
        line(format!("Outer front wheel gains{cornering}"), &moved(0)),
        line(format!("Outer rear wheel gains{cornering}"), &moved(1)),
    ];
    let words = "An anti-roll bar works only when one side moves against the other: it is in bends and in one-wheel bumps, and in no ride frequency here.";
    vec![Block::Heading("In bends".into()), Block::Table { head, rows }, Block::Text(words.into())]
}

/// Four corners: level pads, scatter, correction, lean, centre of gravity.
pub fn corners(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    let whole = &answer.whole;
    let mut blocks = Vec::new();
    let mass = |m: Mass| display::rounded(m, units);
    if let (Some(read), Some(cross)) = (answer.after.corners, whole.cross) {
        let level = whole.level[1];
        let shown = [Some(read), level, Some(cross.correction.corners)];
        let names = ["as weighed after", "on level pads", "after the correction"];
        let columns: Vec<_> = names.into_iter().zip(shown).filter_map(|(n, c)| Some((n, c?))).collect();
        let head = std::iter::once("").chain(columns.iter().map(|c| c.0)).map(str::to_owned).collect();
        let mut rows: Vec<Vec<String>> = ["Left front", "Right front", "Left rear", "Right rear"]
            .into_iter()
            .enumerate()
            .map(|(i, name)| {
                std::iter::once(name.to_owned()).chain(columns.iter().map(|c| mass(c.1.walk()[i]))).collect()
            })
            .collect();
        let share = |c: &Corners<Mass>| format!("{:.1} %", 100.0 * cross_weight(c).si());
        rows.push(std::iter::once("Cross weight".to_owned()).chain(columns.iter().map(|c| share(&c.1))).collect());
        blocks.push(Block::Heading("Four corners".into()));
        blocks.push(Block::Table { head, rows });
        blocks.push(Block::Text(correction_words(answer, units)));
    }
    let mut rows = Vec::new();
    if let Some(words) = lean_words(answer, units) {
        rows.push(vec!["The body".into(), words]);
    }
    if let Some(centre) = whole.centre {
        rows.push(vec!["Centre of gravity behind the front axle".into(), display::rounded(centre.behind_front, units)]);
        if let Some(right) = centre.right {
            let side = if right.si() >= 0.0 { "right" } else { "left" };
            let off = display::rounded(Length::from_si(right.si().abs()), units);
            rows.push(vec!["and off the middle".into(), format!("{off} to the {side}")]);
        }
        if let Some(height) = centre.height {
            let u = display::rounded(Length::from_si(height.u), units);
            rows.push(vec![
                "and above the ground".into(),
                format!("{} ± {u}", display::rounded(Length::from_si(height.value), units)),
            ]);
        }
    }
    if !rows.is_empty() {
        blocks.push(Block::Table { head: vec!["Balance, after".into(), String::new()], rows });
    }
    blocks
}

/// "stands level", "leans: 8 mm lower on the left".
pub fn lean_words(answer: &Answer, units: &UnitChoice) -> Option<String> {
    let lean = answer.whole.lean?;
    let side = if lean.angle.si() > 0.0 { "right" } else { "left" };
    let low = display::rounded(Length::from_si(lean.right_lower.si().abs()), units);
    Some(if low.starts_with("0 ") { "stands level".into() } else { format!("leans: {low} lower on the {side}") })
}

/// What to turn, in words.
fn correction_words(answer: &Answer, units: &UnitChoice) -> String {
    let Some(cross) = answer.whole.cross else { return String::new() };
    let amount = |i: usize| {
        let seat = display::rounded(Length::from_si(cross.at_seat[i].si().abs()), units);
        match cross.by_turns[i] {
            true => format!("{:.1} turns ({seat})", cross.correction.turns.abs()),
            false => seat,
        }
    };
    let up = cross.correction.turns >= 0.0;
    let (raised, lowered) = if up {
        ("right front and left rear", "left front and right rear")
    } else {
        ("left front and right rear", "right front and left rear")
    };
    let shown = |i: usize| display::rounded(Length::from_si(cross.at_seat[i].si().abs()), units);
    if [0, 1].into_iter().all(|i| shown(i).starts_with("0 ")) {
        return "The cross weight is as near to what is wanted as spring seats can bring it.".into();
    }
    format!(
        "To get there: spring seats {raised} up, {lowered} down, each by {} in front and {} behind. Free the anti-roll bars first, roll the vehicle to and fro afterwards, and weigh again.",
        amount(0),
        amount(1)
    )
}
