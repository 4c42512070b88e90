//! Figures of the whole vehicle: centre of gravity, pitch, braking, roll, four corners.

use super::{Figure, Out, like};
use crate::solve::answer::{Answer, Corners, Mode, Roll, State, Whole};
use crate::units::{Dim, G_M_PER_S2, Mass, Quantity};

/// What is put down of one result.
fn said(
    key: impl AsRef<str>,
    name: impl AsRef<str>,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
) -> Figure {
    like(&format!("whole.{}", key.as_ref()), name.as_ref(), dim, convention, formula, source)
}

/// All of them.
pub(super) fn add(out: &mut Out, answer: &Answer) {
    let whole = &answer.whole;
    centre(out, whole);
    for state in State::ALL {
        pitch(out, whole, state);
        if let Some(found) = whole.roll.of(state) {
            roll(out, &format!("roll.{}", state.key()), state.words(), found);
        }
    }
    if let Some(found) = &whole.other_bars {
        roll(out, "roll.other_bars", "with the other bars", found);
    }
    corners(out, whole);
}

fn centre(out: &mut Out, whole: &Whole) {
    let Some(found) = &whole.centre else { return };
    let name = "centre of gravity, behind the front axle";
    out.put(
        said("centre.behind_front", name, Dim::Length, "of the whole vehicle, after", "L · rear/total", "DERIVED"),
        Some(found.behind_front.si()),
        None,
    );
    let name = "centre of gravity, right of the centreline";
    out.put(
        said(
            "centre.right",
            name,
            Dim::Length,
            "of the whole vehicle, after",
            "Σ(right − left) t/2 / total",
            "DERIVED",
        ),
        found.right.map(Quantity::si),
        None,
    );
    let s = said(
        "centre.height",
        "centre of gravity, above the ground",
        Dim::Length,
        "of the whole vehicle",
        "h = r + ΔF L/(m tan θ), or as typed",
        "LIFT",
    );
    out.put(s, found.height.map(|h| h.value), found.height.map(|h| h.u));
}

fn pitch(out: &mut Out, whole: &Whole, state: State) {
    let (key, words) = (state.key(), state.words());
    if let Some(found) = whole.pitch.of(state) {
        let place = "of the sprung body, along the vehicle";
        out.put(
            said(
                format!("pitch.{key}.a"),
                format!("{words}: front axle to sprung centre of gravity"),
                Dim::Length,
                place,
                "a = L m_R/m",
                "DERIVED",
            ),
            Some(found.a.si()),
            None,
        );
        out.put(
            said(
                format!("pitch.{key}.radius"),
                format!("{words}: radius of gyration in pitch"),
                Dim::Length,
                place,
                "κ² = a b unless measured",
                "PRACTICE",
            ),
            Some(found.radius.si()),
            None,
        );
        for (mode, name) in found.modes.iter().zip(["slower", "quicker"]) {
            one_mode(out, key, words, name, mode);
        }
    }
    let angle = whole.nose_up.of(state).map(Quantity::si);
    out.put(
        said(
            format!("nose_up.{key}"),
            format!("nose up, {words}"),
            Dim::Angle,
            "against before, at the ground, tyres included",
            "atan((h_F − h_R)/L)",
            "DERIVED",
        ),
        angle,
        None,
    );
    let beam = whole.beam.of(state).map(Quantity::si);
    out.put(
        said(
            format!("beam.{key}"),
            format!("lamps' beam, {words}"),
            Dim::Length,
            "against before, at the chosen distance, + up",
            "D tan(nose up)",
            "DERIVED",
        ),
        beam,
        None,
    );
    let dive = whole.dive.of(state);
    out.put(
        said(
            format!("dive.{key}.front"),
            format!("front dives under braking, {words}"),
            Dim::Length,
            "wheel travel under the braking looked at",
            "m a_x h/(2 L) (1 − anti-dive)/k_w",
            "GIL",
        ),
        dive.map(|d| d.front.si()),
        None,
    );
    out.put(
        said(
            format!("dive.{key}.room_left"),
            format!("bump room left then, {words}"),
            Dim::Length,
            "wheel travel to the stop",
            "room − dive",
            "DERIVED",
        ),
        dive.and_then(|d| d.room_left).map(Quantity::si),
        None,
    );
}

fn one_mode(out: &mut Out, key: &str, words: &str, name: &str, mode: &Mode) {
    let formula = "ω² = (α+γ)/2 ± √((α−γ)²/4 + β²/κ²)";
    out.put(
        said(
            format!("pitch.{key}.{name}.frequency"),
            format!("{words}: {name} swing of the body"),
            Dim::Frequency,
            "undamped, on springs",
            formula,
            "GIL",
        ),
        Some(mode.frequency.si()),
        None,
    );
    out.put(
        said(
            format!("pitch.{key}.{name}.node"),
            format!("{words}: point that stays still in it"),
            Dim::Length,
            "ahead of the sprung centre of gravity +; none when the body stays level",
            "−β/(α − ω²)",
            "GIL",
        ),
        mode.node.map(Quantity::si),
        None,
    );
}

fn roll(out: &mut Out, key: &str, words: &str, found: &Roll) {
    for (i, axle) in ["front", "rear"].into_iter().enumerate() {
        out.put(
            said(
                format!("{key}.{axle}.springs"),
                format!("{words}: {axle} roll stiffness of the springs"),
                Dim::TwistRate,
                "of the axle, without bar and tyres",
                "k_w t²/2; beam: k_s r² t_s²/2 and the rest at t",
                "GIL",
            ),
            Some(found.springs[i].si()),
            None,
        );
        out.put(
            said(
                format!("{key}.{axle}.bar"),
                format!("{words}: {axle} anti-roll bar"),
                Dim::TwistRate,
                "of the axle; the bar is not in ride frequency",
                "k_θ (r_b t/a)²",
                "DERIVED",
            ),
            Some(found.bars[i].si()),
            None,
        );
        out.put(
            said(
                format!("{key}.{axle}.transfer"),
                format!("{words}: load moved to the outer {axle} wheel"),
                Dim::Force,
                "in the bend looked at",
                "a_y (K φ/a_y + m_s h_rc + m_u h_u)/t",
                "GIL",
            ),
            found.transfer.map(|t| t[i].si()),
            None,
        );
    }
    out.put(
        said(
            format!("{key}.front_share"),
            format!("{words}: front share of the roll stiffness"),
            Dim::Ratio,
            "springs and bars",
            "K_F/(K_F + K_R)",
            "MIL",
        ),
        found.front_share.map(Quantity::si),
        None,
    );
    let per_g = |g: Option<f64>| g.map(|g| g * G_M_PER_S2);
    out.put(
        said(
            format!("{key}.gradient"),
            format!("{words}: roll angle per g"),
            Dim::Angle,
            "on the suspension alone",
            "m_s h/(ΣK − m_s g h) · g",
            "GIL",
        ),
        per_g(found.gradient_rad_s2_per_m),
        None,
    );
    out.put(
        said(
            format!("{key}.gradient_on_tyres"),
            format!("{words}: roll angle per g, tyres included"),
            Dim::Angle,
            "each axle in series with its tyres",
            "m_s h/(ΣK − m_s g h) · g",
            "GIL",
        ),
        per_g(found.on_tyres_rad_s2_per_m),
        None,
    );
}

fn corners(out: &mut Out, whole: &Whole) {
    let mut four = |key: &str, name: &str, convention: &'static str, formula: &'static str, found: &Corners<Mass>| {
        for (corner, mass) in ["lf", "rf", "lr", "rr"].into_iter().zip(found.walk()) {
            out.put(
                said(
                    format!("corners.{key}.{corner}"),
                    format!("{name}, {}", corner.to_uppercase()),
                    Dim::Mass,
                    convention,
                    formula,
                    "DERIVED",
                ),
                Some(mass.si()),
                None,
            );
        }
    };
    for (i, when) in ["before", "after"].into_iter().enumerate() {
        if let Some(found) = &whole.level[i] {
            four(
                &format!("level.{when}"),
                &format!("{when}, on level pads"),
                "as the scales would read",
                "reading − what the pads add",
                found,
            );
        }
        if let Some(found) = &whole.scatter[i] {
            four(
                &format!("scatter.{when}"),
                &format!("{when}, scatter of one reading"),
                "standard deviation of repeated weighings",
                "s",
                found,
            );
        }
    }
    if let Some(cross) = &whole.cross {
        four(
            "corrected",
            "after the correction",
            "as the scales should then read",
            "through the two-axle roll solve",
            &cross.correction.corners,
        );
    }
    let lean = whole.lean;
    out.put(
        said(
            "lean.angle",
            "lean of the body at rest",
            Dim::Angle,
            "+ right side down, on springs",
            "Σ(right − left) t/2 g/ΣK",
            "DERIVED",
        ),
        lean.map(|l| l.angle.si()),
        None,
    );
    out.put(
        said("lean.right_lower", "right side lower by", Dim::Length, "at the mean track", "t sin φ", "DERIVED"),
        lean.map(|l| l.right_lower.si()),
        None,
    );
    for (i, axle) in ["front", "rear"].into_iter().enumerate() {
        let s = said(
            format!("cross.{axle}.at_seat"),
            format!("{axle} spring seats for the wanted cross weight"),
            Dim::Length,
            "+ up at RF and LR, down at LF and RR",
            "through the two-axle roll solve",
            "DERIVED",
        );
        out.put(s, whole.cross.map(|c| c.at_seat[i].si()), None);
    }
    let turns = whole.cross.filter(|c| c.by_turns.contains(&true)).map(|c| c.correction.turns);
    out.put(
        said(
            "cross.turns",
            "turns of the collars for it",
            Dim::Ratio,
            "the same at all four corners, opposed across",
            "shift/pitch",
            "DERIVED",
        ),
        turns,
        None,
    );
}
