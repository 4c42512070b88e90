//! Results about the spring to be fitted: what is asked of it, and what is bought.

use super::CORNER;
use crate::base::units::{Dim, Quantity};
use crate::report::results::By;
use crate::report::results::row::{Row, row, si};
use crate::solve::answer::{SameFactor, Sizing, Spacer, SpringToBuy};

pub(super) static SIZING: &[Row<Sizing>] = &[
    row(
        "wanted_travel",
        "wheel travel at the wanted height",
        Dim::Length,
        "from the reference height, + in bump",
        "z_before − raise",
        "DERIVED",
        |s| Some(s.wanted_travel.si()),
    ),
    row(
        "spring_force",
        "spring load at the wanted height",
        Dim::Force,
        "along the spring",
        "F_s = (m_s g − F_rest (rubber, gas, bag, stop)) / r",
        "DERIVED",
        |s| Some(s.spring_force.si()),
    ),
    row(
        "same_frequency",
        "spring rate for the frequency before",
        Dim::SpringRate,
        "along the spring",
        "k_s = (k_w − k_rest (rubber, gas, bag, stop) − F_s r′) / r²",
        "DERIVED",
        |s| si(s.same_frequency),
    ),
];

pub(super) static TO_BUY: &[Row<SpringToBuy>] = &[
    row(
        "stock_lowest",
        "lowest stock rate inside the range",
        Dim::SpringRate,
        "whole multiples of the stock step",
        "step × whole number",
        "PRACTICE",
        |s: &SpringToBuy| s.stock.map(|r| r.lowest.si()),
    )
    .by(By::Seeking),
    row(
        "stock_highest",
        "highest stock rate inside the range",
        Dim::SpringRate,
        "whole multiples of the stock step",
        "step × whole number",
        "PRACTICE",
        |s: &SpringToBuy| s.stock.map(|r| r.highest.si()),
    )
    .by(By::Seeking),
    row(
        "pick",
        "stock rate nearest the aim",
        Dim::SpringRate,
        "along the spring; n whole, of those inside the range the nearest to the aim",
        "step × n",
        "PRACTICE",
        |s: &SpringToBuy| Some(s.pick.si()),
    )
    .with(|s| {
        let step = s.stock?.step.si();
        Some(vec![("step", step, Dim::SpringRate), ("n", s.pick.si() / step, Dim::Ratio)])
    }),
    row(
        "free_length",
        "free length for the wanted height",
        Dim::Length,
        "along the spring, with the picked rate",
        "L0 = L_ride + F_s / k_s",
        "SHI",
        |s: &SpringToBuy| si(s.free_length),
    )
    .with(|s| {
        let rest_m = s.force.si() / s.pick.si();
        Some(vec![
            ("L_ride", s.free_length?.si() - rest_m, Dim::Length),
            ("F_s", s.force.si(), Dim::Force),
            ("k_s", s.pick.si(), Dim::SpringRate),
        ])
    }),
    row(
        "order_length",
        "free length to order",
        Dim::Length,
        "allowance for settling added",
        "L0 + allowance",
        "PRACTICE",
        |s: &SpringToBuy| si(s.order_length),
    )
    .with(|s| {
        let allowance = s.order_length? - s.free_length?;
        Some(vec![("L0", si(s.free_length)?, Dim::Length), ("allowance", allowance.si(), Dim::Length)])
    }),
];

pub(super) static SPACER: &[Row<Spacer>] = &[
    row(
        "thickness",
        "spacer that restores the height on the old spring",
        Dim::Length,
        "at the spring seat; restores height, not frequency",
        "s = ΔF_s / k_s",
        "DERIVED",
        |s| s.index.is_none().then(|| s.thickness.si()),
    ),
    row(
        "index",
        "index the old bar anew to restore the height",
        Dim::Angle,
        "+ winds it up; restores height, not frequency",
        "Δθ0 = ΔF R cos α / k_θ",
        "DERIVED",
        |s| si(s.index),
    ),
    row(
        "reserve",
        "reserve with the spacer",
        Dim::Ratio,
        "extra g before the stop is touched, or the coils bind",
        "F_w(z_c) / W − 1",
        "DERIVED",
        |s| si(s.reserve),
    ),
    row(
        "frequency",
        "ride frequency with the spacer",
        Dim::Frequency,
        "on springs, undamped",
        "f = √(k_w / m_s) / 2π",
        "GIL",
        |s| Some(s.frequency.si()),
    ),
];

pub(super) static SAME_FACTOR: &[Row<SameFactor>] = &[
    row(
        "factor",
        "paper check: sprung mass after ÷ before",
        Dim::Ratio,
        CORNER,
        "q = m_s,after / m_s,before",
        "DERIVED",
        |f| Some(f.factor.si()),
    ),
    row(
        "spring_rate",
        "paper check: old rate × q, same free length",
        Dim::SpringRate,
        "gives the old height and frequency; exact when only the spring carries",
        "q k_old",
        "DERIVED",
        |f: &SameFactor| si(f.spring_rate),
    )
    .with(|f| {
        Some(vec![("q", f.factor.si(), Dim::Ratio), ("k_old", f.spring_rate?.si() / f.factor.si(), Dim::SpringRate)])
    }),
];
