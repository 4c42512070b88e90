//! Results of the whole vehicle: centre of gravity, pitch, braking, roll, four corners.

use super::{of_beam, said};
use crate::base::language::tr;
use crate::base::units::{Dim, G_M_PER_S2, Mass, Quantity};
use crate::job::Side;
use crate::report::results::collect::{CORNERS, Out};
use crate::report::results::row::si;
use crate::report::results::{Figure, Say, Substitution};
use crate::say;
use crate::solve::answer::{Answer, Corners, Mode, Pitch, State, Whole};

/// All of them.
pub(in crate::report::results) fn add(out: &mut Out, answer: &Answer) {
    centre(out, answer);
    for state in State::ALL {
        pitch(out, answer, state);
        lamps(out, answer, state);
        dive(out, answer, state);
        super::roll::add(out, &format!("roll.{}", state.key()), state.words().said(), answer, |w| *w.roll.of(state));
    }
    super::roll::add(out, "roll.old_bars", tr("on the new springs, with the old anti-roll bars"), answer, |w| {
        w.old_bars
    });
    super::bar_results::add(out, answer);
    corners(out, answer);
}

fn centre(out: &mut Out, answer: &Answer) {
    let after = &answer.after;
    let put_in = || -> Option<Vec<Substitution>> {
        Some(vec![
            ("L", si(answer.whole.wheelbase)?, Dim::Length),
            ("rear", si(after.rear)?, Dim::Mass),
            ("total", si(after.total)?, Dim::Mass),
        ])
    };
    let name = tr("centre of gravity, behind the front axle");
    let behind = said(
        "centre.behind_front",
        name,
        Dim::Length,
        "of the whole vehicle, after the change",
        "L · rear/total",
        "DERIVED",
    );
    out.told(behind.put_in(put_in()).without("vehicle.wheelbase"), answer, |v| Some(v.whole.centre?.behind_front.si()));
    let name = tr("centre of gravity, right of the centreline");
    let formula = "Σ(right − left) t/2 / total";
    let right = said("centre.right", name, Dim::Length, "of the whole vehicle, after the change", formula, "DERIVED");
    out.told(right.solved(), answer, |v| si(v.whole.centre?.right));
    let name = tr("centre of gravity, above the ground");
    let formula = "h = r + ΔF L/(m tan θ), or as typed";
    let height = said("centre.height", name, Dim::Length, "of the whole vehicle", formula, "LIFT");
    let found = answer.whole.centre.and_then(|c| c.height);
    out.put(height.solved().without("chassis.cg_height"), found.map(|h| h.value), found.map(|h| h.u));
}

/// What the two ways in which the body swings come from, in the letters of their formula.
struct Swinging {
    alpha: f64,
    beta: f64,
    gamma: f64,
    kappa: f64,
}

impl Swinging {
    fn of(answer: &Answer, pitch: &Pitch, state: State) -> Option<Self> {
        let [front, rear] = Side::BOTH.map(|side| answer.axle(side).standing.of(state).as_ref());
        let (front, rear) = (front?, rear?);
        let m = 2.0 * (front.sprung + rear.sprung).si();
        let (k_front, k_rear) = (2.0 * front.wheel_rate.si(), 2.0 * rear.wheel_rate.si());
        let (a, b, kappa) = (pitch.a.si(), pitch.b.si(), pitch.radius.si());
        Some(Swinging {
            alpha: (k_front + k_rear) / m,
            beta: (b * k_rear - a * k_front) / m,
            gamma: (a * a * k_front + b * b * k_rear) / (m * kappa * kappa),
            kappa,
        })
    }

    fn put_in(&self) -> Vec<Substitution> {
        vec![
            ("α", self.alpha, Dim::Ratio),
            ("β", self.beta, Dim::Acceleration),
            ("γ", self.gamma, Dim::Ratio),
            ("κ", self.kappa, Dim::Length),
        ]
    }
}

fn pitch(out: &mut Out, answer: &Answer, state: State) {
    let (key, words) = (state.key(), state.words());
    let found = answer.whole.pitch.of(state).as_ref();
    let place = "of the sprung body, along the vehicle";
    let sprung = |side: Side| Some(2.0 * answer.axle(side).standing.of(state).as_ref()?.sprung.si());
    let put_in = || -> Option<Vec<Substitution>> {
        let (front, rear) = (sprung(Side::Front)?, sprung(Side::Rear)?);
        let wheelbase = si(answer.whole.wheelbase)?;
        Some(vec![("L", wheelbase, Dim::Length), ("m_R", rear, Dim::Mass), ("m", front + rear, Dim::Mass)])
    };
    let name = tr("front axle to centre of gravity of the sprung mass");
    let a = said(format!("pitch.{key}.a"), name, Dim::Length, place, "a = L m_R/m", "DERIVED").of(words.said());
    out.told(a.put_in(put_in()).without("vehicle.wheelbase"), answer, |v| Some((*v.whole.pitch.of(state))?.a.si()));
    let name = tr("radius of gyration in pitch");
    let with = found.filter(|p| p.assumed).map(|p| vec![("a", p.a.si(), Dim::Length), ("b", p.b.si(), Dim::Length)]);
    let formula = "κ = √(a b), unless measured";
    let radius = said(format!("pitch.{key}.radius"), name, Dim::Length, place, formula, "PRACTICE").of(words.said());
    out.told(radius.put_in(with), answer, |v| Some((*v.whole.pitch.of(state))?.radius.si()));
    let swinging = found.and_then(|p| Swinging::of(answer, p, state));
    let swings = [
        ("slower", tr("lower body mode"), "f = √((α+γ)/2 − √((α−γ)²/4 + β²/κ²)) / 2π"),
        ("quicker", tr("higher body mode"), "f = √((α+γ)/2 + √((α−γ)²/4 + β²/κ²)) / 2π"),
    ];
    for (i, (mode, name, formula)) in swings.into_iter().enumerate() {
        let key = format!("pitch.{key}.{mode}");
        let of = |w: &Whole| -> Option<Mode> { Some((*w.pitch.of(state))?.modes[i]) };
        let like = said(
            format!("{key}.frequency"),
            name,
            Dim::Frequency,
            "undamped, without tyre deflection; α = ΣK/m, β = (b K_R − a K_F)/m, γ = (a² K_F + b² K_R)/(m κ²), K for both wheels of an axle",
            formula,
            "GIL",
        );
        let with = swinging.as_ref().map(Swinging::put_in);
        out.told(like.of(words.said()).put_in(with), answer, |v| Some(of(&v.whole)?.frequency.si()));
        let like = said(
            format!("{key}.node"),
            tr("motion centre, + ahead of the centre of gravity"),
            Dim::Length,
            "distance from the centre of gravity of the sprung mass to the point that does not move in this mode; none if the body stays level",
            "−β/(α − ω²)",
            "GIL",
        );
        let is_level = of(&answer.whole).is_some_and(|m| m.node.is_none());
        let like = Figure {
            instead: is_level.then(|| tr("none: the body stays level")),
            ..like.of(words.said()).solved().said_as(Say::Signed)
        };
        out.told(like, answer, |v| si(of(&v.whole)?.node));
    }
}

/// How far the nose is up, and where the lamps point then.
fn lamps(out: &mut Out, answer: &Answer, state: State) {
    let (key, words) = (state.key(), state.words());
    let ground = |side: Side| si(answer.axle(side).standing.of(state).as_ref()?.height_change_at_ground);
    let heights = || -> Option<Vec<Substitution>> {
        Some(vec![
            ("h_F", ground(Side::Front)?, Dim::Length),
            ("h_R", ground(Side::Rear)?, Dim::Length),
            ("L", si(answer.whole.wheelbase)?, Dim::Length),
        ])
    };
    let nose_up = said(
        format!("nose_up.{key}"),
        tr("pitch angle, + nose up"),
        Dim::Angle,
        "change from before, relative to the ground, tyres included",
        "atan((h_F − h_R)/L)",
        "DERIVED",
    )
    .of(words.said());
    out.told(nose_up.put_in(heights()).without("vehicle.wheelbase"), answer, |v| si(*v.whole.nose_up.of(state)));
    let beam = said(
        format!("beam.{key}"),
        tr("headlamp aim, change from before"),
        Dim::Length,
        "at the chosen distance, + up",
        "D tan(nose up)",
        "DERIVED",
    )
    .of(words.said())
    .said_as(Say::Beam);
    let with = of_beam(answer, *answer.whole.nose_up.of(state));
    out.told(beam.put_in(with).without("vehicle.wheelbase"), answer, |v| si(*v.whole.beam.of(state)));
}

fn dive(out: &mut Out, answer: &Answer, state: State) {
    let (key, words, whole) = (state.key(), state.words(), &answer.whole);
    let front = answer.axle(Side::Front).standing.of(state).as_ref();
    let put_in = || -> Option<Vec<Substitution>> {
        let mass = answer.compared.weighed.of(state).total?.si();
        let braking = whole.looked_at.braking?.si() * G_M_PER_S2;
        let (height, wheelbase) = (whole.centre?.height?.value, whole.wheelbase?.si());
        let k_w = front?.wheel_rate.si();
        let anti_dive = whole.dive.of(state).as_ref()?.anti_dive.si();
        Some(vec![
            ("m", mass, Dim::Mass),
            ("a_x", braking, Dim::Acceleration),
            ("h", height, Dim::Length),
            ("anti-dive", anti_dive, Dim::Ratio),
            ("L", wheelbase, Dim::Length),
            ("k_w", k_w, Dim::SpringRate),
        ])
    };
    let dives = said(
        format!("dive.{key}.front"),
        match whole.looked_at.braking {
            Some(braking) => say!("front dive when braking at {deceleration:.1} g", deceleration = braking.si()),
            None => tr("front dive when braking").to_owned(),
        },
        Dim::Length,
        "wheel travel at this deceleration",
        "m a_x h (1 − anti-dive) / (2 L k_w)",
        "GIL",
    );
    let dives = dives.of(words.said()).said_as(Say::Lacking).put_in(put_in()).without("chassis.cg_height");
    out.told(dives, answer, |v| Some(v.whole.dive.of(state).as_ref()?.front.si()));
    let room = || -> Option<Vec<Substitution>> {
        let (room, dive) = (front?.stop_room?.si(), whole.dive.of(state).as_ref()?.front.si());
        Some(vec![("room", room, Dim::Length), ("dive", dive, Dim::Length)])
    };
    let left = said(
        format!("dive.{key}.room_left"),
        tr("bump travel left when braking"),
        Dim::Length,
        "wheel travel to the bump stop",
        "room − dive",
        "DERIVED",
    );
    out.told(left.of(words.said()).said_as(Say::Lacking).put_in(room()), answer, |v| {
        si(v.whole.dive.of(state).as_ref()?.room_left)
    });
}

/// Four masses of the whole vehicle.
type Four = fn(&Whole) -> Option<Corners<Mass>>;

fn four(out: &mut Out, [key, name]: [&str; 2], [convention, formula]: [&'static str; 2], answer: &Answer, of: Four) {
    let found = of(&answer.whole);
    for (i, (corner, words)) in CORNERS.into_iter().enumerate() {
        let name = format!("{name}, {}", tr(words));
        let like = said(format!("corners.{key}.{corner}"), name, Dim::Mass, convention, formula, "DERIVED");
        let value = found.map(|f| f.walk()[i].si());
        // A scatter has no ± of its own.
        let has_u = value.is_some() && !key.starts_with("scatter");
        let u_si = has_u.then(|| answer.moved.u_of(|v| Some(of(&v.whole)?.walk()[i].si()))).flatten();
        out.put(like.solved(), value, u_si);
    }
}

fn corners(out: &mut Out, answer: &Answer) {
    let whole = &answer.whole;
    let level = ["as the scales would read", "reading − what the pads add"];
    let scatter = ["standard deviation of repeated weighings", "s"];
    four(out, ["level.before", tr("weight before, on level pads")], level, answer, |w| w.level[0]);
    four(out, ["scatter.before", tr("weight before, scatter of one reading")], scatter, answer, |w| w.scatter[0]);
    four(out, ["level.after", tr("weight after, on level pads")], level, answer, |w| w.level[1]);
    four(out, ["scatter.after", tr("weight after, scatter of one reading")], scatter, answer, |w| w.scatter[1]);
    let corrected = ["as the scales should then read", "four corners in balance, seats moved until it is so"];
    four(out, ["corrected", tr("weight after the cross weight correction")], corrected, answer, |w| {
        Some(w.cross?.corners)
    });
    for side in Side::BOTH {
        let seat = said(
            format!("cross.{}.at_seat", side.key()),
            say!("{side} spring seats, adjustment for the target cross weight", side = side.word_inside()),
            Dim::Length,
            "+ up at RF and LR, down at LF and RR",
            "four corners in balance, seats moved until it is so",
            "DERIVED",
        );
        out.told(seat.solved(), answer, |v| v.whole.cross.map(|c| c.at_seat[side].si()));
    }
    let lower = said(
        "cross.right_lower",
        tr("height difference after the correction, + right side lower"),
        Dim::Length,
        "at the mean track, tyres included",
        "four corners in balance, seats moved until it is so",
        "DERIVED",
    );
    out.told(lower.solved().said_as(Say::Signed), answer, |v| si(v.whole.cross.map(|c| c.right_lower)));
    let by_turns = whole.cross.is_some_and(|c| c.by_turns.iter().any(|by_turns| *by_turns));
    let turns = said(
        "cross.turns",
        tr("collar turns for this correction"),
        Dim::Ratio,
        "the same at all four corners, left and right in opposite directions",
        "shift/pitch",
        "DERIVED",
    );
    out.told(turns.solved(), answer, |v| v.whole.cross.filter(|_| by_turns).map(|c| c.turns));
}
