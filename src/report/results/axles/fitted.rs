//! Results about the spring to be fitted: what is asked of it, and what is bought.

use super::CORNER;
use crate::base::language::tr;
use crate::base::units::{Quantity, SpringRate};
use crate::report::results::row::{Row, put, rows, si, swings, to_contact, to_stop};
use crate::report::results::{By, Say, Substitution};
use crate::solve::answer::{SameFactor, Sizing, Spacer, SpringToBuy};

pub(super) static SIZING: &[Row<Sizing>] = rows! { Sizing;
    "wanted_travel", "wheel travel at the target height", Length, "from the reference height, + in bump";
        "z_before − raise", "DERIVED", |s| Some(s.wanted_travel.si()),
        with: |s| put!["z_before": s.from, "raise": s.raise];
    "spring_force", "spring load at the target height", Force, "along the spring; W = m_s g plus the share of the load on the hitch";
        "F_s = (W − F_rest (rubber, gas, bag, stop)) / r", "DERIVED", |s| Some(s.spring_force.si()),
        with: |s| put!["W": s.load, "F_rest": s.at.rest, "r": s.at.ratio];
    "same_frequency", "spring rate for the same ride frequency as before the change", SpringRate, "along the spring";
        "k_s = (k_w − k_rest (rubber, gas, bag, stop) − F_s r′) / r²", "DERIVED", |s| si(s.same_frequency),
        with: |s| rate_at_the_spring(s, si(s.same_wheel_rate)?);
};

/// What a spring rate at the wanted height is put together from.
pub(super) fn rate_at_the_spring(sizing: &Sizing, wheel_rate_n_per_m: f64) -> Option<Vec<Substitution>> {
    let at = &sizing.at;
    put!["k_w": wheel_rate_n_per_m => SpringRate, "k_rest": at.rest_rate, "F_s r′": at.geometry_rate, "r": at.ratio]
}

pub(super) static TO_BUY: &[Row<SpringToBuy>] = rows! { SpringToBuy;
    "stock_lowest", "lowest stock rate inside the range", SpringRate, "whole multiples of the step in stock rates";
        "step × whole number", "PRACTICE", |s| s.stock.map(|r| r.lowest.si()), by: By::Seeking;
    "stock_highest", "highest stock rate inside the range", SpringRate, "whole multiples of the step in stock rates";
        "step × whole number", "PRACTICE", |s| s.stock.map(|r| r.highest.si()), by: By::Seeking;
    "length_lowest", "free length to order at the lowest stock rate", Length, "with the allowance for settling";
        "L_ride + F_s / k_s + allowance", "SHI", |s| s.stock?.lengths.map(|l| l[0].si()),
        with: |s| with_length(s, s.stock?.lowest);
    "length_highest", "free length to order at the highest stock rate", Length, "with the allowance for settling";
        "L_ride + F_s / k_s + allowance", "SHI", |s| s.stock?.lengths.map(|l| l[1].si()),
        with: |s| with_length(s, s.stock?.highest);
    "pick", "stock rate nearest the target", SpringRate,
        "along the spring; n is the whole number that gives a rate within the range, nearest the target";
        "step × n", "PRACTICE", |s| Some(s.pick.si()),
        with: |s| {
            let step = s.stock.filter(|_| !s.is_taken)?.step;
            put!["step": step, "n": (s.pick.si() / step.si()).round() => Ratio]
        };
    "free_length", "free length for the target height", Length, "along the spring, with the selected rate";
        "L0 = L_ride + F_s / k_s", "SHI", |s| si(s.free_length),
        with: |s| put!["L_ride": s.at_ride?, "F_s": s.force, "k_s": s.pick];
    "order_length", "free length to order, with allowance for settling", Length, "includes the allowance for settling";
        "L0 + allowance", "PRACTICE", |s| si(s.order_length),
        with: |s| put!["L0": s.free_length?, "allowance": s.allowance?];
    "allowance", "allowance for settling", Length, "along the spring";
        "as entered, or the default", "PRACTICE", |s| si(s.order_length.and(s.allowance)), by: By::Reading;
    "bought_length", "free length of the spring to buy", Length,
        "for a spring selected from a list, its free length; otherwise the length to order";
        "as listed, or the one to order", "PRACTICE", |s| si(s.bought_length), by: By::Reading;
};

/// What the length to order of a spring of this rate is made of.
fn with_length(s: &SpringToBuy, rate: SpringRate) -> Option<Vec<Substitution>> {
    put!["L_ride": s.at_ride?, "F_s": s.force, "k_s": rate, "allowance": s.allowance?]
}

/// So thin a spacer is none, m.
const NO_SPACER_M: f64 = 0.000_5;

pub(super) static SPACER: &[Row<Spacer>] = rows! { Spacer;
    "thickness", "spacer that restores the height on the old spring", Length,
        "at the spring seat; restores height, not frequency";
        "s = ΔF_s / k_s", "DERIVED", |s| s.index.is_none().then(|| s.thickness.si()),
        with: |s| put!["ΔF_s": s.lifts, "k_s": s.rate?],
        instead: |s| {
            let is_none = s.index.is_none() && s.thickness.si() < NO_SPACER_M;
            is_none.then(|| tr("none needed: high enough on the old spring"))
        };
    "index", "index angle of the old bar to restore the height", Angle, "+ winds the bar up; restores height, not frequency";
        "Δθ0 = ΔF R cos α / k_θ", "DERIVED", |s| si(s.index),
        with: |s| {
            let ((arm, angle), twist_rate) = s.on_bar?;
            put!["ΔF": s.lifts, "R": arm, "α": angle, "k_θ": twist_rate]
        }, say: Say::Turned;
    "height_change", "height change with the spacer", Length, "hub to arch, change from before, + when the body rises";
        "z_before − z", "DERIVED", |s| Some(s.height_change.si()),
        with: |s| put!["z_before": s.travel_before, "z": s.on.travel], say: Say::Height("as before");
    "frequency", "ride frequency with the spacer", Frequency, "without tyre deflection, undamped";
        "f = √(k_w / m_s) / 2π", "GIL", |s| Some(s.on.frequency().si()),
        with: |s| swings(&s.on);
    "stop_room", "room to the bump stop with the spacer", Length, "wheel travel; negative: bump stop already touched";
        "gap − z", "DERIVED", |s| si(s.on.stop_room()),
        with: |s| to_stop(&s.on);
    "reserve", "reserve to the bump stop with the spacer", Ratio, "extra g until the bump stop is touched or the coils bind";
        "F_w(z_c) / W − 1", "DERIVED", |s| si(s.on.reserve()), with: |s| to_contact(&s.on), say: Say::InG;
    "to_bind", "room to coil bind with the spacer", Length, "at full bump; negative: coil bind comes first";
        "L − L_solid", "DERIVED", |s| si(s.to_bind), by: By::Solving, say: Say::Lacking;
};

pub(super) static SAME_FACTOR: &[Row<SameFactor>] = rows! { SameFactor;
    "factor", "quick check by hand: sprung mass after ÷ before", Ratio, CORNER;
        "q = m_s,after / m_s,before", "DERIVED", |f| Some(f.factor.si()),
        with: |f| put!["m_s,after": f.sprung.after, "m_s,before": f.sprung.before], say: Say::Places(3);
    "spring_rate", "quick check by hand: old rate × q (sprung mass after ÷ before), same free length", SpringRate,
        "gives the old height and frequency; exact if only the spring carries load";
        "q k_old", "DERIVED", |f| si(f.spring_rate), with: |f| put!["q": f.factor, "k_old": f.old_rate?];
};
