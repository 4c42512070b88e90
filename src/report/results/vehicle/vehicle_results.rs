//! Results of the whole vehicle: centre of gravity, pitch, braking, roll, four corners.

use super::of_beam;
use crate::base::language::tr;
use crate::base::units::{Dim, G_M_PER_S2, Mass, Quantity};
use crate::job::Side;
use crate::report::results::collect::{CORNERS, Out};
use crate::report::results::row::{figures, like, put, si};
use crate::report::results::{By, Figure, Say, Substitution};
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
    let height = answer.whole.centre.and_then(|c| c.height);
    figures! { out;
        told "whole.centre.behind_front", tr("centre of gravity, behind the front axle"), Length,
            "of the whole vehicle, after the change";
            "L · rear/total", "DERIVED", needs: "vehicle.wheelbase",
            with: || put!["L": answer.whole.wheelbase?, "rear": after.rear?, "total": after.total?]
            => answer, |v| Some(v.whole.centre?.behind_front.si());
        told "whole.centre.right", tr("centre of gravity, right of the centreline"), Length,
            "of the whole vehicle, after the change";
            "Σ(right − left) t/2 / total", "DERIVED", by: By::Solving => answer, |v| si(v.whole.centre?.right);
        put "whole.centre.height", tr("centre of gravity, above the ground"), Length, "of the whole vehicle";
            "h = r + ΔF L/(m tan θ), or as typed", "LIFT", by: By::Solving, needs: "chassis.cg_height"
            => height.map(|h| h.value), height.map(|h| h.u);
    }
}

/// What the two ways in which the body swings come from, in the letters of their formula.
fn swinging(answer: &Answer, pitch: &Pitch, state: State) -> Option<Vec<Substitution>> {
    let [front, rear] = Side::BOTH.map(|side| answer.axle(side).standing.of(state).as_ref());
    let (front, rear) = (front?, rear?);
    let m = 2.0 * (front.sprung + rear.sprung).si();
    let (k_front, k_rear) = (2.0 * front.wheel_rate.si(), 2.0 * rear.wheel_rate.si());
    let (a, b, kappa) = (pitch.a.si(), pitch.b.si(), pitch.radius.si());
    put![
        "α": (k_front + k_rear) / m => Ratio, "β": (b * k_rear - a * k_front) / m => Acceleration,
        "γ": (a * a * k_front + b * b * k_rear) / (m * kappa * kappa) => Ratio, "κ": pitch.radius,
    ]
}

fn pitch(out: &mut Out, answer: &Answer, state: State) {
    let (key, words, found) = (state.key(), state.words().said(), *answer.whole.pitch.of(state));
    let place = "of the sprung body, along the vehicle";
    let sprung = |side: Side| Some(answer.axle(side).standing.of(state).as_ref()?.sprung * 2.0);
    let assumed = found.filter(|p| p.assumed);
    figures! { out;
        told format!("whole.pitch.{key}.a"), tr("front axle to centre of gravity of the sprung mass"), Length, place;
            "a = L m_R/m", "DERIVED", of: words, needs: "vehicle.wheelbase",
            with: || put![
                "L": answer.whole.wheelbase?, "m_R": sprung(Side::Rear)?,
                "m": sprung(Side::Front)? + sprung(Side::Rear)?,
            ]
            => answer, |v| Some((*v.whole.pitch.of(state))?.a.si());
        told format!("whole.pitch.{key}.radius"), tr("radius of gyration in pitch"), Length, place;
            "κ = √(a b), unless measured", "PRACTICE", of: words, with: || put!["a": assumed?.a, "b": assumed?.b]
            => answer, |v| Some((*v.whole.pitch.of(state))?.radius.si());
    }
    let swung = found.and_then(|pitch| swinging(answer, &pitch, state));
    let swings = [
        ("slower", tr("lower body mode"), "f = √((α+γ)/2 − √((α−γ)²/4 + β²/κ²)) / 2π"),
        ("quicker", tr("higher body mode"), "f = √((α+γ)/2 + √((α−γ)²/4 + β²/κ²)) / 2π"),
    ];
    for (i, (mode, name, formula)) in swings.into_iter().enumerate() {
        let key = format!("whole.pitch.{key}.{mode}");
        let of = |w: &Whole| -> Option<Mode> { Some((*w.pitch.of(state))?.modes[i]) };
        figures! { out;
            told format!("{key}.frequency"), name, Frequency,
                "undamped, without tyre deflection; α = ΣK/m, β = (b K_R − a K_F)/m, γ = (a² K_F + b² K_R)/(m κ²), K for both wheels of an axle";
                formula, "GIL", of: words, with: || swung.clone()
                => answer, |v| Some(of(&v.whole)?.frequency.si());
        }
        let like = like(
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
            ..like.of(words).by(By::Solving).say(Say::Signed)
        };
        out.told(like, answer, |v| si(of(&v.whole)?.node));
    }
}

/// How far the nose is up, and where the lamps point then.
fn lamps(out: &mut Out, answer: &Answer, state: State) {
    let (key, words) = (state.key(), state.words().said());
    let ground = |side: Side| answer.axle(side).standing.of(state).as_ref()?.height_change_at_ground;
    figures! { out;
        told format!("whole.nose_up.{key}"), tr("pitch angle, + nose up"), Angle,
            "change from before, relative to the ground, tyres included";
            "atan((h_F − h_R)/L)", "DERIVED", of: words, needs: "vehicle.wheelbase",
            with: || put!["h_F": ground(Side::Front)?, "h_R": ground(Side::Rear)?, "L": answer.whole.wheelbase?]
            => answer, |v| si(*v.whole.nose_up.of(state));
        told format!("whole.beam.{key}"), tr("headlamp aim, change from before"), Length,
            "at the chosen distance, + up";
            "D tan(nose up)", "DERIVED", of: words, say: Say::Beam, needs: "vehicle.wheelbase",
            with: || of_beam(answer, *answer.whole.nose_up.of(state)) => answer, |v| si(*v.whole.beam.of(state));
    }
}

fn dive(out: &mut Out, answer: &Answer, state: State) {
    let (key, words, whole) = (state.key(), state.words().said(), &answer.whole);
    let front = answer.axle(Side::Front).standing.of(state).as_ref();
    let dive = *whole.dive.of(state);
    let name = match whole.looked_at.braking {
        Some(braking) => say!("front dive when braking at {deceleration:.1} g", deceleration = braking.si()),
        None => tr("front dive when braking").to_owned(),
    };
    figures! { out;
        told format!("whole.dive.{key}.front"), name, Length, "wheel travel at this deceleration";
            "m a_x h (1 − anti-dive) / (2 L k_w)", "GIL", of: words, say: Say::Lacking, needs: "chassis.cg_height",
            with: || put![
                "m": answer.compared.weighed.of(state).total?,
                "a_x": whole.looked_at.braking?.si() * G_M_PER_S2 => Acceleration,
                "h": whole.centre?.height?.value => Length, "anti-dive": dive?.anti_dive, "L": whole.wheelbase?,
                "k_w": front?.wheel_rate,
            ]
            => answer, |v| Some(v.whole.dive.of(state).as_ref()?.front.si());
        told format!("whole.dive.{key}.room_left"), tr("bump travel left when braking"), Length,
            "wheel travel to the bump stop";
            "room − dive", "DERIVED", of: words, say: Say::Lacking,
            with: || put!["room": front?.stop_room?, "dive": dive?.front]
            => answer, |v| si(v.whole.dive.of(state).as_ref()?.room_left);
    }
}

/// Four masses of the whole vehicle.
type Four = fn(&Whole) -> Option<Corners<Mass>>;

fn four(out: &mut Out, [key, name]: [&str; 2], [convention, formula]: [&'static str; 2], answer: &Answer, of: Four) {
    let found = of(&answer.whole);
    for (i, (corner, words)) in CORNERS.into_iter().enumerate() {
        let name = format!("{name}, {}", tr(words));
        let like = like(format!("whole.corners.{key}.{corner}"), name, Dim::Mass, convention, formula, "DERIVED");
        let value = found.map(|f| f.walk()[i].si());
        // A scatter has no ± of its own.
        let has_u = value.is_some() && !key.starts_with("scatter");
        let u_si = has_u.then(|| answer.moved.u_of(|v| Some(of(&v.whole)?.walk()[i].si()))).flatten();
        out.put(like.by(By::Solving), value, u_si);
    }
}

fn corners(out: &mut Out, answer: &Answer) {
    let whole = &answer.whole;
    let level = ["as the scales would read", "reading − what the pads add"];
    let scatter = ["standard deviation of repeated weighings", "s"];
    four(out, ["level.before", tr("weight before, on level pads")], level, answer, |w| w.level.before);
    four(out, ["scatter.before", tr("weight before, scatter of one reading")], scatter, answer, |w| w.scatter.before);
    four(out, ["level.after", tr("weight after, on level pads")], level, answer, |w| w.level.after);
    four(out, ["scatter.after", tr("weight after, scatter of one reading")], scatter, answer, |w| w.scatter.after);
    let balanced = "four corners in balance, seats moved until it is so";
    let corrected = ["as the scales should then read", balanced];
    four(out, ["corrected", tr("weight after the cross weight correction")], corrected, answer, |w| {
        Some(w.cross?.corners)
    });
    for side in Side::BOTH {
        figures! { out;
            told format!("whole.cross.{}.at_seat", side.key()),
                say!("{side} spring seats, adjustment for the target cross weight", side = side.word_inside()), Length,
                "+ up at RF and LR, down at LF and RR";
                balanced, "DERIVED", by: By::Solving => answer, |v| v.whole.cross.map(|c| c.at_seat[side].si());
        }
    }
    let by_turns = whole.cross.is_some_and(|c| c.by_turns.iter().any(|by_turns| *by_turns));
    figures! { out;
        told "whole.cross.right_lower", tr("height difference after the correction, + right side lower"), Length,
            "at the mean track, tyres included";
            balanced, "DERIVED", by: By::Solving, say: Say::Signed
            => answer, |v| si(v.whole.cross.map(|c| c.right_lower));
        told "whole.cross.turns", tr("collar turns for this correction"), Ratio,
            "the same at all four corners, left and right in opposite directions";
            "shift/pitch", "DERIVED", by: By::Solving
            => answer, |v| v.whole.cross.filter(|_| by_turns).map(|c| c.turns);
    }
}
