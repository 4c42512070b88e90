//! Results about springs themselves: rates, wire, cutting, bars, leaves, bags, routes.

use super::{Row, row, si};
use crate::solve::answer::{BarChoice, BarFacts, Crossover, Cut, LeafFacts, Levelled, OldSpring};
use crate::units::Dim::{Angle, Force, Frequency, Length, Pressure, Ratio, SpringRate, Stress, TwistRate};
use crate::units::Quantity;

const ALONG: &str = "along the spring";

pub(super) static OLD_SPRING: &[Row<OldSpring>] = &[
    row("stated", "rate as stated", SpringRate, ALONG, "as stated", "PRACTICE", |o| o.stated.map(|m| m.value)),
    row("by_wire", "rate by wire", SpringRate, ALONG, "k = G d⁴ / (8 D³ N_a)", "SHI", |o| {
        o.by_wire.map(|m| m.value)
    }),
    row("by_press", "rate by press", SpringRate, ALONG, "k = ΔF / ΔL", "DERIVED", |o| o.by_press.map(|m| m.value)),
    row(
        "together",
        "rate by wire and press together",
        SpringRate,
        "along the spring, weighted by 1/u²",
        "k = Σ k_i u_i⁻² / Σ u_i⁻²",
        "GUM",
        |o| o.together.map(|m| m.value),
    ),
    row(
        "rate",
        "rate that counts",
        SpringRate,
        "along the spring, at the reference height; of a bar, upright at the arm's end",
        "−dF/dL",
        "DERIVED",
        |o| si(o.rate),
    ),
];

pub(super) static CUT: &[Row<Cut>] = &[
    row("pitch", "distance from coil to coil", Length, "free", "by the ends", "SHI", |c| Some(c.pitch.si())),
    row("rate", "rate when cut", SpringRate, ALONG, "k N_a / (N_a − cut)", "DERIVED", |c| Some(c.rate.si())),
    row(
        "free_length",
        "free length when cut",
        Length,
        "the new end is not closed",
        "L0 − cut · pitch",
        "DERIVED",
        |c| Some(c.free_length.si()),
    ),
    row("length", "spring length at ride when cut", Length, ALONG, "F_w(z) = m_s g, solved", "DERIVED", |c| {
        si(c.length)
    }),
    row("height_change", "height when cut", Length, "against before, at the wheel, + up", "solved", "DERIVED", |c| {
        si(c.height_change)
    }),
    row("frequency", "ride frequency when cut", Frequency, "on springs", "f = √(k_w / m_s) / 2π", "GIL", |c| {
        Some(c.frequency.si())
    }),
    row("stop_room", "room to the stop when cut", Length, "negative: past it", "gap − z", "DERIVED", |c| {
        si(c.stop_room)
    }),
    row("seat", "seat margin when cut", Length, "at full droop; negative: loose", "L0 − L_droop", "DERIVED", |c| {
        si(c.seat)
    }),
];

pub(super) static BAR: &[Row<BarFacts>] = &[
    row(
        "twist_rate",
        "twist rate of the old bar",
        TwistRate,
        "torque over angle",
        "k_θ = π G (d⁴ − d_i⁴) / (32 l)",
        "SHI",
        |b| Some(b.twist_rate.si()),
    ),
    row(
        "free_angle",
        "arm angle with the old bar unwound",
        Angle,
        "below level",
        "α + F R cos α / k_θ",
        "DERIVED",
        |b| si(b.free_angle),
    ),
    row(
        "stress_ride",
        "bar stress at ride height",
        Stress,
        "as fitted",
        "16 T d / (π (d⁴ − d_i⁴))",
        "SHI",
        |b| si(b.stress_ride),
    ),
    row("stress_bump", "bar stress at full bump", Stress, "as fitted", "16 T d / (π (d⁴ − d_i⁴))", "SHI", |b| {
        si(b.stress_bump)
    }),
    row("allowed", "allowed bar stress", Stress, "the shop's limit", "as typed", "PRACTICE", |b| si(b.allowed)),
];

pub(super) static BAR_CHOICE: &[Row<BarChoice>] = &[
    row(
        "pick",
        "bar diameter nearest the aim",
        Length,
        "n whole, of those inside the range that hold their stress the nearest to the aim",
        "step × n",
        "PRACTICE",
        |b: &BarChoice| Some(b.pick.si()),
    )
    .with(|b| vec![("step", Some(b.step.si()), Length), ("n", Some(b.pick.si() / b.step.si()), Ratio)]),
    row(
        "stock_lowest",
        "thinnest stock bar that works",
        Length,
        "whole multiples of the step",
        "step × whole number",
        "PRACTICE",
        |b| b.stock.map(|s| s.lowest.si()),
    ),
    row(
        "stock_highest",
        "thickest stock bar that works",
        Length,
        "whole multiples of the step",
        "step × whole number",
        "PRACTICE",
        |b| b.stock.map(|s| s.highest.si()),
    ),
    row(
        "index",
        "index the new bar from the old place",
        Angle,
        "+ winds it up",
        "θ0,new − θ0,old",
        "DERIVED",
        |b| si(b.index),
    ),
];

pub(super) static LEAF: &[Row<LeafFacts>] = &[
    row(
        "test_rate",
        "leaf rate by test, loading",
        SpringRate,
        "at the axle",
        "1 / slope of height on load, least squares",
        "DERIVED",
        |l| l.test.map(|t| t.rate.si()),
    ),
    row(
        "unloading_rate",
        "leaf rate by test, unloading",
        SpringRate,
        "turning row left out",
        "as loading",
        "DERIVED",
        |l| l.test.and_then(|t| si(t.unloading_rate)),
    ),
    row(
        "loop",
        "gap between loading and unloading",
        Length,
        "at equal load, turning row left out",
        "mean gap",
        "DERIVED",
        |l| l.test.and_then(|t| si(t.loop_height)),
    ),
    row(
        "friction",
        "leaf friction, either way",
        Force,
        "half the gap along the load axis",
        "k · gap / 2",
        "DERIVED",
        |l| l.test.and_then(|t| si(t.friction)),
    ),
    row(
        "by_sizes",
        "leaf rate by sizes",
        SpringRate,
        "at the axle",
        "8 E n b t³ / (3 L³) · (3 n_f + 2 n_g) / (2 n)",
        "SHI",
        |l| si(l.by_sizes),
    ),
    row("stress_ride", "leaf stress at ride height", Stress, "bending", "3 F L / (2 n b t²)", "BHA", |l| {
        si(l.stress_ride)
    }),
    row("stress_bump", "leaf stress at full bump", Stress, "bending", "3 F L / (2 n b t²)", "BHA", |l| {
        si(l.stress_bump)
    }),
];

pub(super) static CROSSOVER: &[Row<Crossover>] = &[
    row("force", "force at which the helper is solid", Force, ALONG, "k_h (L0_h − L_solid,h)", "DERIVED", |c| {
        Some(c.force.si())
    }),
    row(
        "travel",
        "wheel travel at which the helper is solid",
        Length,
        "from the reference, + in bump",
        "L_s(z)",
        "DERIVED",
        |c| si(c.travel),
    ),
];

pub(super) static LEVELLED: &[Row<Levelled>] = &[
    row(
        "pressure",
        "bag pressure that levels the old springs",
        Pressure,
        "gauge, at the wanted height",
        "p = (W − F_w) / (r_b A)",
        "DERIVED",
        |l| Some(l.pressure.si()),
    ),
    row(
        "bag_rate",
        "rate of the bag then",
        SpringRate,
        "along the bag",
        "k = n p_abs A² / V − p_gauge dA/dL",
        "DERIVED",
        |l| Some(l.bag_rate.si()),
    ),
    row("frequency", "ride frequency then", Frequency, "on springs and bag", "f = √(k_w / m_s) / 2π", "GIL", |l| {
        Some(l.frequency.si())
    }),
    row(
        "reserve",
        "reserve then",
        Ratio,
        "extra g before the stop",
        "(F_w(gap) − m_s g) / (m_s g)",
        "DERIVED",
        |l| si(l.reserve),
    ),
];
