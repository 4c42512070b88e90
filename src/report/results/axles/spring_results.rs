//! Results about springs themselves: rates, wire, cutting, bars, leaves, bags, routes.

use crate::base::units::Dim::{Force, Length, Ratio, SpringRate, Stress};
use crate::base::units::Quantity;
use crate::report::results::row::{Row, rows, si};
use crate::report::results::{By, Say};
use crate::solve::answer::{AddedLeaf, BarChoice, BarFacts, Crossover, LeafFacts, Levelled, OldSpring};

const ALONG: &str = "along the spring";

pub(super) static OLD_SPRING: &[Row<OldSpring>] = rows! { OldSpring;
    "stated", "rate as stated", SpringRate, ALONG;
        "as stated", "PRACTICE", |o| o.stated.map(|m| m.value), by: By::Reading, say: Say::Measured;
    "by_wire", "rate by wire and coils", SpringRate, ALONG;
        "k = G d⁴ / (8 D³ N_a)", "SHI", |o| o.by_wire.map(|m| m.value),
        with: |o| {
            let wire = o.coil?.wire;
            Some(vec![
                ("G", wire.shear_modulus_pa, Stress),
                ("d", wire.diameter_m, Length),
                ("D", wire.mean_m, Length),
                ("N_a", wire.active, Ratio),
            ])
        },
        say: Say::Measured;
    "by_press", "rate by press", SpringRate, ALONG;
        "k = ΔF / ΔL", "DERIVED", |o| o.by_press.map(|m| m.value), say: Say::Measured;
    "together", "wire and press, weighted", SpringRate, "along the spring, weighted by 1/u²";
        "(k_wire / u_wire² + k_press / u_press²) / (1 / u_wire² + 1 / u_press²)", "GUM", |o| o.together.map(|m| m.value),
        with: |o| {
            let (wire, press) = (o.by_wire?, o.by_press?);
            Some(vec![
                ("k_wire", wire.value, SpringRate),
                ("u_wire", wire.u, SpringRate),
                ("k_press", press.value, SpringRate),
                ("u_press", press.u, SpringRate),
            ])
        },
        say: Say::Measured;
    "rate", "rate that counts", SpringRate,
        "along the spring, at the reference height; of a bar, upright at the arm's end";
        "−dF/dL", "DERIVED", |o| si(o.rate), by: By::Solving;
};

pub(super) static CUT: &[Row<OldSpring>] = rows! { OldSpring;
    "pitch", "distance from coil to coil", Length, "free";
        "by the ends", "SHI", |o| Some(o.cut?.pitch.si());
    "rate", "rate then", SpringRate, ALONG;
        "k N_a / (N_a − cut)", "DERIVED", |o| Some(o.cut?.rate.si()),
        with: |o| {
            Some(vec![
                ("k", si(o.rate)?, SpringRate),
                ("N_a", o.coil?.wire.active, Ratio),
                ("cut", o.cut?.coils.si(), Ratio),
            ])
        };
    "free_length", "free length then", Length, "the new end is not closed";
        "L0 − cut · pitch", "DERIVED", |o| Some(o.cut?.free_length.si()),
        with: |o| {
            let cut = o.cut?;
            let gone_m = cut.coils.si() * cut.pitch.si();
            Some(vec![
                ("L0", cut.free_length.si() + gone_m, Length),
                ("cut", cut.coils.si(), Ratio),
                ("pitch", cut.pitch.si(), Length),
            ])
        };
    "length", "spring length at ride then", Length, ALONG;
        "F_w(z) = m_s g, solved", "DERIVED", |o| si(o.cut?.length), by: By::Solving;
    "height_change", "height at the wheel then", Length, "change from before, at the wheel, + up";
        "solved", "DERIVED", |o| si(o.cut?.height_change), by: By::Solving, say: Say::Height("as before");
    "frequency", "ride frequency then", Frequency, "on springs";
        "f = √(k_w / m_s) / 2π", "GIL", |o| Some(o.cut?.frequency.si());
    "stop_room", "room to the bump stop then (below 0: past it)", Length, "negative: past it";
        "gap − z", "DERIVED", |o| si(o.cut?.stop_room);
    "seat", "seat preload at full droop (below 0: loose)", Length, "at full droop; negative: loose";
        "L0 − L_droop", "DERIVED", |o| si(o.cut?.seat);
};

pub(super) static BAR: &[Row<BarFacts>] = rows! { BarFacts;
    "twist_rate", "twist rate of the old bar", TwistRate, "torque over angle";
        "k_θ = π G (d⁴ − d_i⁴) / (32 l)", "SHI", |b| Some(b.twist_rate.si());
    "free_angle", "arm below level, old bar unwound", Angle, "below level";
        "α + F R cos α / k_θ", "DERIVED", |b| si(b.free_angle);
    "stress_ride", "bar stress at ride height, as fitted", Stress, "as fitted";
        "16 T d / (π (d⁴ − d_i⁴))", "SHI", |b| si(b.stress_ride);
    "stress_bump", "bar stress at full bump, as fitted", Stress, "as fitted";
        "16 T d / (π (d⁴ − d_i⁴))", "SHI", |b| si(b.stress_bump);
    "allowed", "allowable bar stress", Stress, "the shop's limit";
        "as typed", "PRACTICE", |b| si(b.allowed), by: By::Reading;
};

pub(super) static BAR_CHOICE: &[Row<BarChoice>] = rows! { BarChoice;
    "pick", "bar diameter nearest the aim", Length,
        "whole n, inside the range and the allowable stress, nearest the aim";
        "step × n", "PRACTICE", |b| Some(b.pick.si()),
        with: |b| Some(vec![("step", b.step.si(), Length), ("n", b.pick.si() / b.step.si(), Ratio)]), say: Say::Sold;
    "stock_lowest", "thinnest stock bar that works", Length, "whole multiples of the step";
        "step × whole number", "PRACTICE", |b| b.stock.map(|s| s.lowest.si()), by: By::Seeking, say: Say::Sold;
    "stock_highest", "thickest stock bar that works", Length, "whole multiples of the step";
        "step × whole number", "PRACTICE", |b| b.stock.map(|s| s.highest.si()), by: By::Seeking, say: Say::Sold;
    "index", "index the new bar from the old place", Angle, "+ winds it up";
        "θ0,new − θ0,old", "DERIVED", |b| si(b.index), say: Say::Turned;
};

pub(super) static LEAF: &[Row<LeafFacts>] = rows! { LeafFacts;
    "test_rate", "leaf rate by test", SpringRate, "at the axle";
        "1 / slope of height on load, least squares", "DERIVED", |l| l.test.map(|t| t.rate.si()), by: By::Solving;
    "unloading_rate", "leaf rate by test, unloading", SpringRate, "turning row left out";
        "as loading", "DERIVED", |l| l.test.and_then(|t| si(t.unloading_rate)), by: By::Solving;
    "loop", "gap between loading and unloading", Length, "at equal load, turning row left out";
        "mean gap", "DERIVED", |l| l.test.and_then(|t| si(t.loop_height)), by: By::Solving;
    "friction", "friction, either way", Force, "half the gap along the load axis";
        "k · gap / 2", "DERIVED", |l| l.test.and_then(|t| si(t.friction)),
        with: |l| {
            let test = l.test?;
            Some(vec![("k", test.rate.si(), SpringRate), ("gap", test.loop_height?.si(), Length)])
        };
    "by_sizes", "leaf rate by its sizes", SpringRate, "at the axle";
        "8 E n b t³ / (3 L³) · (3 n_f + 2 n_g) / (2 n)", "SHI", |l| si(l.by_sizes);
    "stress_ride", "bending stress at ride height", Stress, "bending";
        "3 F L / (2 n b t²)", "BHA", |l| si(l.stress_ride);
    "stress_bump", "bending stress at full bump", Stress, "bending";
        "3 F L / (2 n b t²)", "BHA", |l| si(l.stress_bump);
};

pub(super) static CROSSOVER: &[Row<Crossover>] = rows! { Crossover;
    "force", "helper solid from a spring load of", Force, ALONG;
        "k_h (L0_h − L_solid,h)", "DERIVED", |c| Some(c.force.si());
    "travel", "helper solid at wheel travel", Length, "from the reference, + in bump";
        "L_s(z)", "DERIVED", |c| si(c.travel), by: By::Reading;
};

pub(super) static LEVELLED: &[Row<Levelled>] = rows! { Levelled;
    "pressure", "pressure that levels it", Pressure, "gauge, at the wanted height";
        "p = (W − F_w) / (r_b A)", "DERIVED", |l| Some(l.pressure.si());
    "bag_rate", "rate of the bag", SpringRate, "along the bag";
        "k = n p_abs A² / V − p_gauge dA/dL", "DERIVED", |l| Some(l.bag_rate.si());
    "frequency", "ride frequency then", Frequency, "on springs and bag";
        "f = √(k_w / m_s) / 2π", "GIL", |l| Some(l.frequency.si());
    "reserve", "reserve to the bump stop then", Ratio, "extra g before the stop is touched, or the coils bind";
        "F_w(z_c) / W − 1", "DERIVED", |l| si(l.reserve), say: Say::InG;
};

pub(super) static ADDED_LEAF: &[Row<AddedLeaf>] = rows! { AddedLeaf;
    "rate", "rate to add", SpringRate, "at the axle; old leaf and added leaf give way together";
        "k − k_old", "DERIVED", |a| Some(a.beside.rate.si()),
        with: |a| {
            let k_old = a.old_rate.si();
            Some(vec![("k", a.beside.rate.si() + k_old, SpringRate), ("k_old", k_old, SpringRate)])
        };
    "load", "load on the added leaves", Force, "at the wanted height";
        "F_s − F_old", "DERIVED", |a| Some(a.beside.load.si()),
        with: |a| {
            let (both, own) = (a.load.si(), a.beside.load.si());
            Some(vec![("F_s", both, Force), ("F_old", both - own, Force)])
        };
    "share", "share of the load on the added leaves", Ratio, "at the wanted height";
        "F_add / F_s", "DERIVED", |a| Some(a.share().si()), say: Say::Percent(0),
        with: |a| Some(vec![("F_add", a.beside.load.si(), Force), ("F_s", a.load.si(), Force)]);
    "camber", "camber to add", Length, "of the added leaves, unloaded, above their camber at the wanted height";
        "F_add / k_add", "DERIVED", |a| Some(a.beside.gives_way.si()),
        with: |a| {
            Some(vec![("F_add", a.beside.load.si(), Force), ("k_add", a.beside.rate.si(), SpringRate)])
        };
    "nip", "arched more than the old leaf", Length, "both unloaded; negative: it is touched later, by this amount";
        "c_add − c_old", "DERIVED", |a| Some(a.beside.nip.si()), say: Say::Signed,
        with: |a| {
            let (own, nip) = (a.beside.gives_way.si(), a.beside.nip.si());
            Some(vec![("c_add", own, Length), ("c_old", own - nip, Length)])
        };
    "leaves", "leaves to add", Ratio, "as wide and as long as the old ones, none thicker";
        "fewest that are no thicker than the old ones", "PRACTICE", |a| Some(a.pack?.leaves), by: By::Seeking;
    "thickness", "thickness of one added leaf", Length, "graduated, of the old ones' width and span";
        "(3 k L³ / (8 E n b))^⅓", "SHI", |a| Some(a.pack?.thickness_m),
        with: |a| {
            let pack = a.pack?;
            Some(vec![
                ("k", a.beside.rate.si(), SpringRate),
                ("L", pack.working_span_m, Length),
                ("E", pack.modulus_pa, Stress),
                ("n", pack.leaves, Ratio),
                ("b", pack.width_m, Length),
            ])
        };
    "stack", "stack height of the added leaves", Length, "between leaf and axle, or on top";
        "n t", "DERIVED", |a| si(a.stack()),
        with: |a| Some(vec![("n", a.pack?.leaves, Ratio), ("t", a.pack?.thickness_m, Length)]);
    "stress_bump", "bending stress of the added leaves, at full bump", Stress, "bending";
        "3 F L / (2 n b t²)", "BHA", |a| si(a.stress_bump()),
        with: |a| {
            let pack = a.pack?;
            Some(vec![
                ("F", a.load_at_metal?.si(), Force),
                ("L", pack.working_span_m, Length),
                ("n", pack.leaves, Ratio),
                ("b", pack.width_m, Length),
                ("t", pack.thickness_m, Length),
            ])
        };
};
