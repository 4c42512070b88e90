//! Results of roll: in one state, or with the other bars.

use super::said;
use crate::base::language::tr;
use crate::base::units::{Dim, Force, G_M_PER_S2, Quantity, Ratio, TwistRate};
use crate::job::{PerAxle, Side};
use crate::report::results::collect::Out;
use crate::report::results::row::{Row, rows, si};
use crate::report::results::{By, Figure, Say, Substitution};
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
        with: |r| {
            let PerAxle { front, rear } = r.weighs?;
            Some(vec![("m_F", front.si(), Dim::Mass), ("m_R", rear.si(), Dim::Mass)])
        },
        say: Say::Percent(1);
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
    Some(vec![("K_F", front.si(), Dim::TwistRate), ("K_R", rear.si(), Dim::TwistRate)])
}

/// What a share of the load transfer is put together from.
fn transferred(PerAxle { front, rear }: PerAxle<Force>) -> Option<Vec<Substitution>> {
    Some(vec![("ΔF_F", front.si(), Dim::Force), ("ΔF_R", rear.si(), Dim::Force)])
}

/// What a roll gradient is put together from.
fn leaned(roll: &Roll, PerAxle { front, rear }: PerAxle<TwistRate>) -> Option<Vec<Substitution>> {
    let body = roll.body?;
    let moment = body.sprung.si() * body.above_axis.si();
    Some(vec![("m_s h", moment, Dim::Ratio), ("ΣK", front.si() + rear.si(), Dim::TwistRate)])
}

/// All of them.
pub(super) fn add(out: &mut Out, key: &str, words: &str, answer: &Answer, of: impl Fn(&Whole) -> Option<Roll>) {
    let found = of(&answer.whole);
    let mut told = |like: Figure, with: Option<Vec<Substitution>>, result: &dyn Fn(&Roll) -> Option<f64>| {
        out.told(like.put_in(with), answer, |v| result(&of(&v.whole)?));
    };
    for side in Side::BOTH {
        one_axle(&mut told, [key, words], found, answer.whole.looked_at.cornering, side);
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
    Some(vec![
        ("G", bar.shear_modulus_pa, Dim::Stress),
        ("d", bar.diameter_m, Dim::Length),
        ("d_i", bar.inside_m, Dim::Length),
        ("r_b", bar.link_ratio, Dim::Ratio),
        ("t", roll.tracks[axle].si(), Dim::Length),
        ("a", bar.blade_m, Dim::Length),
        ("l", bar.length_m, Dim::Length),
    ])
}

/// What takes down a result of roll.
type Told<'a> = dyn FnMut(Figure, Option<Vec<Substitution>>, &dyn Fn(&Roll) -> Option<f64>) + 'a;

fn one_axle(told: &mut Told<'_>, [key, words]: [&str; 2], found: Option<Roll>, cornering: Option<Ratio>, side: Side) {
    let axle = side.key();
    let named = |part: &str, name: String, dim, convention, formula, source| {
        said(format!("{key}.{axle}.{part}"), name, dim, convention, formula, source).of(words)
    };
    let word = side.word_inside();
    let name = say!("roll stiffness of the {side} springs", side = word);
    let convention = "whole axle, without anti-roll bar and tyres";
    let formula = "k_w t²/2; beam: k_s r² t_s²/2 and the rest at t";
    let like = named("springs", name, Dim::TwistRate, convention, formula, "GIL");
    told(like.solved(), None, &|r| Some(r.springs[side].si()));
    let name = say!("roll stiffness of the {side} anti-roll bar", side = word);
    let convention = "whole axle; the anti-roll bar does not affect ride frequency";
    let like = named("bar", name, Dim::TwistRate, convention, "k_θ (r_b t/a)²", "DERIVED");
    told(like.solved(), None, &|r| Some(r.bars[side].si()));
    let parts = found.map(|r| {
        vec![("K_springs", r.springs[side].si(), Dim::TwistRate), ("K_bar", r.bars[side].si(), Dim::TwistRate)]
    });
    let name = tr("shear stress of the anti-roll bar").to_owned();
    let formula = "G d r_b t φ/(2 a l)";
    let like = named("bar_stress", name, Dim::Stress, "at the lean considered", formula, "DERIVED");
    let put_in =
        found.and_then(|r| Some(of_bar(&r, side)?.into_iter().chain([("φ", r.lean?.si(), Dim::Angle)]).collect()));
    told(like, put_in, &|r| si(r.bar_stress(side)));
    let name = tr("rate that the anti-roll bar adds at one wheel").to_owned();
    let formula = "π G r_b² (d⁴ − d_i⁴)/(32 l a²)";
    let like = named("bar_one_wheel", name, Dim::SpringRate, "one wheel moves, the other is held", formula, "DERIVED");
    told(like, found.and_then(|r| of_bar(&r, side)), &|r| si(r.bar_at_one_wheel(side)));
    let name = say!("{side} roll stiffness", side = word);
    let convention = "whole axle: springs and anti-roll bar, without tyres";
    let like = named("stiffness", name, Dim::TwistRate, convention, "K = K_springs + K_bar", "DERIVED");
    told(like, parts.clone(), &|r| Some(r.stiffness(side).si()));
    let name = tr("anti-roll bar share of roll stiffness").to_owned();
    let convention = "anti-roll bar share of the axle's roll stiffness, without tyres";
    let like = named("bar_share", name, Dim::Ratio, convention, "K_bar / (K_springs + K_bar)", "DERIVED");
    told(like.said_as(Say::Percent(0)), parts, &|r| {
        Some(r.bars[side].si() / r.stiffness(side).si()).filter(|share| share.is_finite())
    });
    let name = say!("{side} roll stiffness, tyres included", side = word);
    let convention = "springs and anti-roll bar in series with the tyres";
    let like = named("to_ground", name, Dim::TwistRate, convention, "K K_t / (K + K_t)", "DERIVED");
    let put_in = found.and_then(|r| {
        let (own, tyres) = (r.stiffness(side).si(), r.tyres[side].si());
        Some(vec![("K", own, Dim::TwistRate), ("K_t", tyres, Dim::TwistRate)]).filter(|_| tyres.is_finite())
    });
    told(like, put_in, &|r| Some(r.to_ground[side].si()));
    let name = match cornering {
        Some(cornering) => {
            say!(
                "extra load on the outer {side} wheel at {acceleration:.1} g",
                side = word,
                acceleration = cornering.si()
            )
        }
        None => say!("extra load on the outer {side} wheel", side = word),
    };
    let formula = "a_y (K φ/a_y + m_s h_rc + m_u h_u)/t";
    let like = named("transfer", name, Dim::Force, "load transferred to this wheel in the bend", formula, "GIL");
    told(like.solved().without("chassis.cg_height"), None, &|r| r.transfer.map(|t| t[side].si()));
}
