//! Figures of the whole vehicle: centre of gravity, pitch, braking, roll, four corners.

use super::{CORNERS, Figure, Out, like};
use crate::job::Side;
use crate::language::tr;
use crate::say;
use crate::solve::answer::{Answer, Corners, Mode, Roll, State, Whole};
use crate::units::{Dim, G_M_PER_S2, Mass, Quantity};

/// What is put down of one result.
fn said(
    key: impl AsRef<str>,
    name: impl Into<String>,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
) -> Figure {
    like(&format!("whole.{}", key.as_ref()), name, dim, convention, formula, source)
}

/// All of them.
pub(super) fn add(out: &mut Out, answer: &Answer) {
    let whole = &answer.whole;
    centre(out, answer);
    for state in State::ALL {
        pitch(out, answer, state);
        if whole.roll.of(state).is_some() {
            roll(out, &format!("roll.{}", state.key()), state.words(), answer, |w| *w.roll.of(state));
        }
    }
    if whole.other_bars.is_some() {
        roll(out, "roll.other_bars", tr("with the other bars"), answer, |w| w.other_bars);
    }
    corners(out, answer);
}

fn centre(out: &mut Out, answer: &Answer) {
    let Some(found) = &answer.whole.centre else { return };
    let name = tr("centre of gravity, behind the front axle");
    out.told(
        said("centre.behind_front", name, Dim::Length, "of the whole vehicle, after", "L · rear/total", "DERIVED"),
        answer,
        |v| Some(v.whole.centre?.behind_front.si()),
    );
    let name = tr("centre of gravity, right of the centreline");
    out.told(
        said(
            "centre.right",
            name,
            Dim::Length,
            "of the whole vehicle, after",
            "Σ(right − left) t/2 / total",
            "DERIVED",
        ),
        answer,
        |v| v.whole.centre?.right.map(Quantity::si),
    );
    let s = said(
        "centre.height",
        tr("centre of gravity, above the ground"),
        Dim::Length,
        "of the whole vehicle",
        "h = r + ΔF L/(m tan θ), or as typed",
        "LIFT",
    );
    out.put(s, found.height.map(|h| h.value), found.height.map(|h| h.u));
}

fn pitch(out: &mut Out, answer: &Answer, state: State) {
    let (key, words) = (state.key(), state.words());
    if answer.whole.pitch.of(state).is_some() {
        let place = "of the sprung body, along the vehicle";
        out.told(
            said(
                format!("pitch.{key}.a"),
                format!("{words}: {}", tr("front axle to sprung centre of gravity")),
                Dim::Length,
                place,
                "a = L m_R/m",
                "DERIVED",
            ),
            answer,
            |v| Some((*v.whole.pitch.of(state))?.a.si()),
        );
        out.told(
            said(
                format!("pitch.{key}.radius"),
                format!("{words}: {}", tr("radius of gyration in pitch")),
                Dim::Length,
                place,
                "κ² = a b unless measured",
                "PRACTICE",
            ),
            answer,
            |v| Some((*v.whole.pitch.of(state))?.radius.si()),
        );
        let swings = [("slower", tr("slower swing of the body")), ("quicker", tr("quicker swing of the body"))];
        for (i, (mode, name)) in swings.into_iter().enumerate() {
            one_mode(out, [&format!("pitch.{key}.{mode}"), words, name], answer, |w| {
                Some((*w.pitch.of(state))?.modes[i])
            });
        }
    }
    let ground = |side: Side| answer.axle(side).standing.of(state).as_ref()?.height_change_at_ground.map(Quantity::si);
    let nose_up = Figure {
        with: vec![
            ("h_F", ground(Side::Front), Dim::Length),
            ("h_R", ground(Side::Rear), Dim::Length),
            ("L", answer.whole.wheelbase.map(Quantity::si), Dim::Length),
        ],
        ..said(
            format!("nose_up.{key}"),
            say!("nose up, {state}", state = words),
            Dim::Angle,
            "against before, at the ground, tyres included",
            "atan((h_F − h_R)/L)",
            "DERIVED",
        )
    };
    out.told(nose_up, answer, |v| v.whole.nose_up.of(state).map(Quantity::si));
    out.told(
        said(
            format!("beam.{key}"),
            say!("lamps' beam, {state}", state = words),
            Dim::Length,
            "against before, at the chosen distance, + up",
            "D tan(nose up)",
            "DERIVED",
        ),
        answer,
        |v| v.whole.beam.of(state).map(Quantity::si),
    );
    out.told(
        said(
            format!("dive.{key}.front"),
            say!("front dives under braking, {state}", state = words),
            Dim::Length,
            "wheel travel under the braking looked at",
            "m a_x h/(2 L) (1 − anti-dive)/k_w",
            "GIL",
        ),
        answer,
        |v| v.whole.dive.of(state).map(|d| d.front.si()),
    );
    out.told(
        said(
            format!("dive.{key}.room_left"),
            say!("bump room left then, {state}", state = words),
            Dim::Length,
            "wheel travel to the stop",
            "room − dive",
            "DERIVED",
        ),
        answer,
        |v| v.whole.dive.of(state).and_then(|d| d.room_left).map(Quantity::si),
    );
}

fn one_mode(out: &mut Out, [key, words, name]: [&str; 3], answer: &Answer, mode: impl Fn(&Whole) -> Option<Mode>) {
    let formula = "ω² = (α+γ)/2 ± √((α−γ)²/4 + β²/κ²)";
    out.told(
        said(
            format!("{key}.frequency"),
            format!("{words}: {name}"),
            Dim::Frequency,
            "undamped, on springs",
            formula,
            "GIL",
        ),
        answer,
        |v| Some(mode(v.whole)?.frequency.si()),
    );
    out.told(
        said(
            format!("{key}.node"),
            format!("{words}: {}", tr("point that stays still in it")),
            Dim::Length,
            "ahead of the sprung centre of gravity +; none when the body stays level",
            "−β/(α − ω²)",
            "GIL",
        ),
        answer,
        |v| mode(v.whole)?.node.map(Quantity::si),
    );
}

fn roll(out: &mut Out, key: &str, words: &str, answer: &Answer, of: impl Fn(&Whole) -> Option<Roll>) {
    for side in Side::BOTH {
        let (i, axle) = (side as usize, side.key());
        let named = |name: String| format!("{words}: {name}");
        out.told(
            said(
                format!("{key}.{axle}.springs"),
                named(say!("{side} roll stiffness of the springs", side = side.word_inside())),
                Dim::TwistRate,
                "of the axle, without bar and tyres",
                "k_w t²/2; beam: k_s r² t_s²/2 and the rest at t",
                "GIL",
            ),
            answer,
            |v| Some(of(v.whole)?.springs[i].si()),
        );
        out.told(
            said(
                format!("{key}.{axle}.bar"),
                named(say!("{side} anti-roll bar", side = side.word_inside())),
                Dim::TwistRate,
                "of the axle; the bar is not in ride frequency",
                "k_θ (r_b t/a)²",
                "DERIVED",
            ),
            answer,
            |v| Some(of(v.whole)?.bars[i].si()),
        );
        out.told(
            said(
                format!("{key}.{axle}.transfer"),
                named(say!("load moved to the outer {side} wheel", side = side.word_inside())),
                Dim::Force,
                "in the bend looked at",
                "a_y (K φ/a_y + m_s h_rc + m_u h_u)/t",
                "GIL",
            ),
            answer,
            |v| of(v.whole)?.transfer.map(|t| t[i].si()),
        );
    }
    out.told(
        said(
            format!("{key}.front_share"),
            format!("{words}: {}", tr("front share of the roll stiffness")),
            Dim::Ratio,
            "springs and bars",
            "K_F/(K_F + K_R)",
            "MIL",
        ),
        answer,
        |v| of(v.whole)?.front_share.map(Quantity::si),
    );
    type Damped = fn(&Roll) -> Option<f64>;
    let damped: [(&str, &str, Damped); 2] = [
        ("old_damping", tr("damping ratio in roll with the old dampers"), |r| r.old_damping.map(Quantity::si)),
        ("new_damping", tr("damping ratio in roll with the dampers aimed at"), |r| r.new_damping.map(Quantity::si)),
    ];
    for (damping, name, ratio) in damped {
        out.told(
            said(
                format!("{key}.{damping}"),
                format!("{words}: {name}"),
                Dim::Ratio,
                "on the suspension, about the roll axis; dampers of a beam axle taken at its spring base",
                "ζ_φ = Σ c_w t²/2 / (2 √(ΣK m κ²))",
                "DERIVED",
            ),
            answer,
            |v| ratio(&of(v.whole)?),
        );
    }
    let per_g = |g: Option<f64>| g.map(|g| g * G_M_PER_S2);
    out.told(
        said(
            format!("{key}.gradient"),
            format!("{words}: {}", tr("roll angle per g")),
            Dim::Angle,
            "on the suspension alone",
            "m_s h/(ΣK − m_s g h) · g",
            "GIL",
        ),
        answer,
        |v| per_g(of(v.whole)?.gradient_rad_s2_per_m),
    );
    out.told(
        said(
            format!("{key}.gradient_on_tyres"),
            format!("{words}: {}", tr("roll angle per g, tyres included")),
            Dim::Angle,
            "each axle in series with its tyres",
            "m_s h/(ΣK − m_s g h) · g",
            "GIL",
        ),
        answer,
        |v| per_g(of(v.whole)?.on_tyres_rad_s2_per_m),
    );
}

/// Four masses of the whole vehicle.
type Four = fn(&Whole) -> Option<Corners<Mass>>;

fn four(out: &mut Out, [key, name]: [&str; 2], [convention, formula]: [&'static str; 2], answer: &Answer, of: Four) {
    let Some(found) = of(&answer.whole) else { return };
    for (i, (corner, words)) in CORNERS.into_iter().enumerate() {
        let name = format!("{name}, {}", tr(words));
        let like = said(format!("corners.{key}.{corner}"), name, Dim::Mass, convention, formula, "DERIVED");
        // A scatter has no ± of its own.
        let u_si = answer.u_of(|v| Some(of(v.whole)?.walk()[i].si())).filter(|_| !key.starts_with("scatter"));
        out.put(like, Some(found.walk()[i].si()), u_si);
    }
}

fn corners(out: &mut Out, answer: &Answer) {
    let whole = &answer.whole;
    let level = ["as the scales would read", "reading − what the pads add"];
    let scatter = ["standard deviation of repeated weighings", "s"];
    four(out, ["level.before", tr("before, on level pads")], level, answer, |w| w.level[0]);
    four(out, ["scatter.before", tr("before, scatter of one reading")], scatter, answer, |w| w.scatter[0]);
    four(out, ["level.after", tr("after, on level pads")], level, answer, |w| w.level[1]);
    four(out, ["scatter.after", tr("after, scatter of one reading")], scatter, answer, |w| w.scatter[1]);
    let corrected = ["as the scales should then read", "through the two-axle roll solve"];
    four(out, ["corrected", tr("after the correction")], corrected, answer, |w| Some(w.cross?.correction.corners));
    out.told(
        said(
            "lean.angle",
            tr("lean of the body at rest"),
            Dim::Angle,
            "+ right side down, on springs",
            "Σ(right − left) t/2 g/ΣK",
            "DERIVED",
        ),
        answer,
        |v| v.whole.lean.map(|l| l.angle.si()),
    );
    out.told(
        said("lean.right_lower", tr("right side lower by"), Dim::Length, "at the mean track", "t sin φ", "DERIVED"),
        answer,
        |v| v.whole.lean.map(|l| l.right_lower.si()),
    );
    for side in Side::BOTH {
        let s = said(
            format!("cross.{}.at_seat", side.key()),
            say!("{side} spring seats for the wanted cross weight", side = side.word_inside()),
            Dim::Length,
            "+ up at RF and LR, down at LF and RR",
            "through the two-axle roll solve",
            "DERIVED",
        );
        out.told(s, answer, |v| v.whole.cross.map(|c| c.at_seat[side as usize].si()));
    }
    let by_turns = whole.cross.is_some_and(|c| c.by_turns.contains(&true));
    out.told(
        said(
            "cross.turns",
            tr("turns of the collars for it"),
            Dim::Ratio,
            "the same at all four corners, opposed across",
            "shift/pitch",
            "DERIVED",
        ),
        answer,
        |v| v.whole.cross.filter(|_| by_turns).map(|c| c.correction.turns),
    );
}
