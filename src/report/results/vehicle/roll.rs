//! Results of roll: in one state, or with the other bars.

use crate::base::language::tr;
use crate::base::units::{Force, G_M_PER_S2, Quantity, TwistRate};
use crate::job::{PerAxle, Side};
use crate::report::results::collect::Out;
use crate::report::results::row::{Row, figures, put, rows, si};
use crate::report::results::{By, Say, Substitution};
use crate::say;
use crate::solve::answer::{Answer, Roll, Whole};

const ABOUT_AXIS: &str =
    "suspension only, about the roll axis; on a beam axle, the dampers are assumed to be as far apart as the springs";
const DAMPING: &str = "ζ_φ = Σ c_w t²/2 / (2 √(ΣK m κ²))";
const GRADIENT: &str = "m_s h/(ΣK − m_s h g) · g, m_s h of the body over the roll axis";
const TRANSFER: &str = "ΔF_F/(ΔF_F + ΔF_R), ΔF the extra load on the outer wheel";

/// Of both axles together.
static WHOLE: &[Row<Roll>] = rows! { Roll;
    "front_share", "front share of the roll stiffness", Ratio, "springs and anti-roll bars";
        "K_F/(K_F + K_R)", "MIL", |r| si(r.front_share), with: |r| shared(own(r)), say: Say::Percent(1);
    "front_share_on_tyres", "front share of the roll stiffness, tyres included", Ratio,
        "springs and anti-roll bars of each axle in series with its tyres";
        "K_F/(K_F + K_R)", "MIL", |r| si(r.front_share_on_tyres), with: |r| shared(r.to_ground), say: Say::Percent(1);
    "front_transfer", "front share of the load transfer", Ratio, "suspension only";
        TRANSFER, "MIL", Roll::front_transfer, with: |r| transferred(r.transfer?),
        needs: &["chassis.cg_height"], say: Say::Percent(1);
    "front_transfer_on_tyres", "front share of the load transfer, tyres included", Ratio,
        "suspension of each axle in series with its tyres";
        TRANSFER, "MIL", Roll::front_transfer_on_tyres, with: |r| transferred(r.transfer_on_tyres?),
        needs: &["chassis.cg_height"], say: Say::Percent(1);
    "front_weight", "front share of the weight", Ratio, "front axle ÷ total";
        "m_F/(m_F + m_R)", "PRACTICE", Roll::front_weight,
        with: |r| put!["m_F": r.weighs?.front, "m_R": r.weighs?.rear], say: Say::Percent(1);
    "old_damping", "roll damping ratio, old dampers", Ratio, ABOUT_AXIS;
        DAMPING, "DERIVED", |r| si(r.old_damping), by: By::Solving, needs: &["chassis.roll_radius"];
    "new_damping", "roll damping ratio, dampers at the target damping ratio", Ratio, ABOUT_AXIS;
        DAMPING, "DERIVED", |r| si(r.new_damping), by: By::Solving, needs: &["chassis.roll_radius"];
    "gradient", "roll gradient, suspension only", Angle, "suspension only";
        GRADIENT, "GIL", |r| Some(r.gradient_rad_s2_per_m? * G_M_PER_S2),
        with: |r| leaned(r, own(r)), needs: &["chassis.cg_height"];
    "gradient_on_tyres", "roll gradient, tyres included", Angle, "suspension of each axle in series with its tyres";
        GRADIENT, "GIL", |r| Some(r.on_tyres_rad_s2_per_m? * G_M_PER_S2),
        with: |r| leaned(r, r.to_ground), needs: &["chassis.cg_height"];
};

/// Roll stiffness of each axle, without tyres.
fn own(roll: &Roll) -> PerAxle<TwistRate> {
    PerAxle::each(|side| roll.stiffness(side))
}

/// What a share of the roll stiffness is put together from.
fn shared(PerAxle { front, rear }: PerAxle<TwistRate>) -> Option<Vec<Substitution>> {
    put!["K_F": front, "K_R": rear]
}

/// What a share of the load transfer is put together from.
fn transferred(PerAxle { front, rear }: PerAxle<Force>) -> Option<Vec<Substitution>> {
    put!["ΔF_F": front, "ΔF_R": rear]
}

/// What a roll gradient is put together from.
fn leaned(roll: &Roll, PerAxle { front, rear }: PerAxle<TwistRate>) -> Option<Vec<Substitution>> {
    let body = roll.body?;
    let moment = body.sprung.si() * body.above_axis.si();
    put!["m_s h": moment => Ratio, "ΣK": front.si() + rear.si() => TwistRate]
}

/// All of them.
pub(super) fn add(out: &mut Out, key: &str, words: &str, answer: &Answer, of: impl Fn(&Whole) -> Option<Roll>) {
    for side in Side::BOTH {
        one_axle(out, [key, words], answer, &of, side);
    }
    let first = out.figures.len();
    out.of_made(&format!("whole.{key}"), &format!("{words}: "), WHOLE, answer, |v| of(&v.whole));
    for figure in &mut out.figures[first..] {
        // Each depends on fields of its own: a table leaves out what is not known.
        figure.is_there = figure.si.is_some();
    }
}

/// The sizes of a bar, as its formulas have them.
fn of_bar(roll: &Roll, axle: Side) -> Option<Vec<Substitution>> {
    let bar = roll.fitted[axle]?;
    put![
        "G": bar.shear_modulus_pa => Stress, "d": bar.diameter_m => Length, "d_i": bar.inside_m => Length,
        "r_b": bar.link_ratio => Ratio, "t": roll.tracks[axle], "a": bar.blade_m => Length, "l": bar.length_m => Length,
    ]
}

fn one_axle(out: &mut Out, [key, words]: [&str; 2], answer: &Answer, of: impl Fn(&Whole) -> Option<Roll>, side: Side) {
    let (key, word, found) = (format!("whole.{key}.{}", side.key()), side.word_inside(), of(&answer.whole));
    let parts = || put!["K_springs": found?.springs[side], "K_bar": found?.bars[side]];
    let outer = match answer.whole.looked_at.cornering {
        Some(cornering) => {
            say!(
                "extra load on the outer {side} wheel at {acceleration:.1} g",
                side = word,
                acceleration = cornering.si()
            )
        }
        None => say!("extra load on the outer {side} wheel", side = word),
    };
    figures! { out;
        told format!("{key}.springs"), say!("roll stiffness of the {side} springs", side = word), TwistRate,
            "whole axle, without anti-roll bar and tyres";
            "k_w t²/2; beam: k_s r² t_s²/2 and the rest at t", "GIL", of: words, by: By::Solving
            => answer, |v| Some(of(&v.whole)?.springs[side].si());
        told format!("{key}.bar"), say!("roll stiffness of the {side} anti-roll bar", side = word), TwistRate,
            "whole axle; the anti-roll bar does not affect ride frequency";
            "k_θ (r_b t/a)²", "DERIVED", of: words, by: By::Solving => answer, |v| Some(of(&v.whole)?.bars[side].si());
        told format!("{key}.bar_stress"), tr("shear stress of the anti-roll bar"), Stress, "at the lean considered";
            "G d r_b t φ/(2 a l)", "DERIVED", of: words, with: || put![..of_bar(&found?, side)?, "φ": found?.lean?]
            => answer, |v| si(of(&v.whole)?.bar_stress(side));
        told format!("{key}.bar_one_wheel"), tr("rate that the anti-roll bar adds at one wheel"), SpringRate,
            "one wheel moves, the other is held";
            "π G r_b² (d⁴ − d_i⁴)/(32 l a²)", "DERIVED", of: words, with: || of_bar(&found?, side)
            => answer, |v| si(of(&v.whole)?.bar_at_one_wheel(side));
        told format!("{key}.stiffness"), say!("{side} roll stiffness", side = word), TwistRate,
            "whole axle: springs and anti-roll bar, without tyres";
            "K = K_springs + K_bar", "DERIVED", of: words, with: parts
            => answer, |v| Some(of(&v.whole)?.stiffness(side).si());
        told format!("{key}.bar_share"), tr("anti-roll bar share of roll stiffness"), Ratio,
            "anti-roll bar share of the axle's roll stiffness, without tyres";
            "K_bar / (K_springs + K_bar)", "DERIVED", of: words, with: parts, say: Say::Percent(0) => answer, |v| {
                let roll = of(&v.whole)?;
                Some(roll.bars[side].si() / roll.stiffness(side).si()).filter(|share| share.is_finite())
            };
        told format!("{key}.to_ground"), say!("{side} roll stiffness, tyres included", side = word), TwistRate,
            "springs and anti-roll bar in series with the tyres";
            "K K_t / (K + K_t)", "DERIVED", of: words,
            with: || put![
                "K": found?.stiffness(side), "K_t": Some(found?.tyres[side]).filter(|rate| rate.si().is_finite())?,
            ]
            => answer, |v| Some(of(&v.whole)?.to_ground[side].si());
        told format!("{key}.transfer"), outer, Force, "load transferred to this wheel in the bend";
            "a_y (K φ/a_y + m_s h_rc + m_u h_u)/t", "GIL", of: words, by: By::Solving, needs: "chassis.cg_height"
            => answer, |v| of(&v.whole)?.transfer.map(|t| t[side].si());
    }
}
