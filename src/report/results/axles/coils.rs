//! Results about a coil by its wire: as it is, and to have it wound.

use crate::base::units::Dim::{Length, Ratio};
use crate::base::units::{self, Quantity};
use crate::report::results::row::{Row, put, rows, si};
use crate::report::results::{By, Say, Substitution};
use crate::solve::answer::CoilFacts;
use crate::trade::spring::{Ends, Wire, Wound};

const ALONG: &str = "along the spring";
const WAHL: &str = "shear stress with the Wahl factor";
const EN: &str = "shear stress with the factor (C + 0.5)/(C − 0.75)";

pub(super) static COIL: &[Row<CoilFacts>] = rows! { CoilFacts;
    "rate", "rate from wire", SpringRate, ALONG;
        "k = G d⁴ / (8 D³ N_a)", "SHI", |c| Some(c.rate.si()),
        with: |c| of_wire(&c.wire);
    "index", "spring index (mean ÷ wire diameter)", Ratio, "mean coil diameter ÷ wire diameter";
        "C = D / d", "SHI", |c| Some(c.wire.index().si()),
        with: |c| put!["D": c.wire.mean_m => Length, "d": c.wire.diameter_m => Length];
    "wahl", "Wahl factor", Ratio, "corrects for direct shear and curvature";
        "K = (4C−1)/(4C−4) + 0.615/C", "SHI", |c| Some(c.wire.wahl().si()),
        with: |c| put!["C": c.wire.index()], say: Say::Places(3);
    "en_factor", "stress correction factor to EN 13906-1", Ratio, "used instead of the Wahl factor";
        "(C + 0.5)/(C − 0.75)", "EN", |c| Some(c.wire.en_factor().si()),
        with: |c| put!["C": c.wire.index()], say: Say::Places(3);
    "active", "active coils", Ratio, "coils that deflect";
        "all coils − dead coils", "SHI", |c| Some(c.wire.active),
        with: |c| put!["all coils": c.counted?, "dead coils": c.wire.ends.dead_coils()? => Ratio];
    "solid_length", "solid length from wire, coils and ends", Length, "all coils touching; calculated from wire, coils and ends only";
        "d (N_t + e), e = 0 for ground ends, 1 for others", "SHI", |c| si(c.solid_length), with: |c| solid(&c.wire);
    "least_gaps", "minimum sum of gaps between coils", Length,
        "at the shortest working length, under dynamic load; as for cold-wound springs, or as for hot-wound ones if the wire is thick (above 16 mm)";
        "1.5 n (0.0015 D²/d + 0.1 d), or 2 · 0.02 n (D + d_hot)", "EN", |c| Some(c.wire.least_gaps().si()),
        with: |c| gaps(&c.wire);
    "longest_unguided", "longest free length stable without a guide", Length,
        "between flat parallel seats; a longer spring may buckle unless guided";
        "2.63 D / 0.5", "SHI", |c| Some(c.wire.longest_unguided().si()),
        with: |c| put!["D": c.wire.mean_m => Length];
    "stress_ride", "stress at ride height", Stress, WAHL;
        "τ = K 8 F D / (π d³)", "SHI", |c| si(c.stress_ride),
        with: |c| shear(&c.wire, c.force_ride, "K", c.wire.wahl().si());
    "stress_bump", "stress at full bump", Stress, WAHL;
        "τ = K 8 F D / (π d³)", "SHI", |c| si(c.stress_bump),
        with: |c| shear(&c.wire, c.force_bump, "K", c.wire.wahl().si());
    "stress_ride_en", "stress at ride height, to EN 13906-1", Stress, EN;
        "τ = k 8 F D / (π d³)", "EN", |c| Some(c.by_standard(c.stress_ride?).si()),
        with: |c| shear(&c.wire, c.force_ride, "k", c.wire.en_factor().si());
    "stress_bump_en", "stress at full bump, to EN 13906-1", Stress, EN;
        "τ = k 8 F D / (π d³)", "EN", |c| Some(c.by_standard(c.stress_bump?).si()),
        with: |c| shear(&c.wire, c.force_bump, "k", c.wire.en_factor().si());
    "stress_solid_en", "stress at solid length, to EN 13906-1", Stress, EN;
        "τ = k 8 F D / (π d³)", "EN", |c| Some(c.by_standard(c.stress_solid?).si()),
        with: |c| shear(&c.wire, c.force_solid, "k", c.wire.en_factor().si());
    "stress_solid", "stress at solid length", Stress, WAHL;
        "τ = K 8 F D / (π d³)", "SHI", |c| si(c.stress_solid),
        with: |c| shear(&c.wire, c.force_solid, "K", c.wire.wahl().si());
    "stress_range", "stress range, ride height to full bump", Stress, WAHL;
        "|τ_bump − τ_ride|", "SHI", |c| Some((c.stress_bump?.si() - c.stress_ride?.si()).abs()),
        with: |c| put!["τ_bump": c.stress_bump?, "τ_ride": c.stress_ride?];
    "allowed", "allowable stress", Stress, "share of the minimum tensile strength for this steel and wire size, static load";
        "share · R_m", "SHI", |c| si(c.allowed), with: |c| allowed(c.allowed_share, c.strength?);
};

pub(super) static WOUND: &[Row<Wound>] = rows! { Wound;
    "wire", "wire diameter", Length, "thinnest wire on the list that meets every limit";
        "by the list", "SHI", |w| Some(w.wire.diameter_m), by: By::Seeking, say: Say::Sold;
    "mean_diameter", "mean coil diameter", Length, "outside diameter minus wire diameter";
        "OD − d", "SHI", |w| Some(w.wire.mean_m),
        with: |w| put!["OD": w.outside, "d": w.wire.diameter_m => Length], say: Say::Full;
    "active", "active coils", Ratio, "coils that deflect";
        "N_a = G d⁴ / (8 D³ k)", "SHI", |w| Some(w.wire.active),
        with: |w| put![
            "G": w.wire.shear_modulus_pa => Stress, "d": w.wire.diameter_m => Length, "D": w.wire.mean_m => Length,
            "k": w.rate,
        ],
        say: Say::Places(2);
    "total", "total coils", Ratio, "dead coils included";
        "N_a + dead coils", "SHI", |w| Some(w.total),
        with: |w| put!["N_a": w.wire.active => Ratio, "dead coils": w.wire.ends.dead_coils()? => Ratio],
        say: Say::Places(2);
    "solid_length", "solid length", Length, "from wire, coils and ends";
        "d (N_t + e), e = 0 for ground ends, 1 for others", "SHI", |w| Some(w.solid_length.si()),
        with: |w| solid(&w.wire);
    "stress", "stress at full bump", Stress, WAHL;
        "τ = K 8 F D / (π d³)", "SHI", |w| Some(w.stress.si()),
        with: |w| shear(&w.wire, Some(w.greatest_force), "K", w.wire.wahl().si());
    "stress_solid", "stress at solid length, with the Wahl factor", Stress, WAHL;
        "τ = K 8 F D / (π d³), F = k (L0 − L_solid)", "SHI", |w| si(w.stress_solid),
        with: |w| shear(&w.wire, w.solid_force, "K", w.wire.wahl().si());
    "strength", "tensile strength of the wire", Stress, "minimum for this steel and wire size, unless entered";
        "R_m = A / d^m", "SHI", |w| Some(w.strength.si()), by: By::Reading;
    "allowed", "allowable stress at full bump", Stress, "share of tensile strength";
        "share · R_m", "SHI", |w| Some(w.allowed.si()), with: |w| allowed(w.allowed_share, w.strength);
    "plain_solid", "stress at solid length, uncorrected", Stress, "to compare with the allowable stress";
        "τ = 8 F D / (π d³), F = k (L0 − L_solid)", "EN", |w| si(w.plain_solid),
        with: |w| plain_shear(&w.wire, w.solid_force);
    "allowed_solid", "allowable stress at solid length", Stress, "without the stress correction factor";
        "share · R_m", "EN", |w| Some(w.allowed_solid.si()), with: |w| allowed(w.solid_share, w.strength);
    "clearance", "minimum sum of gaps between coils at full bump", Length,
        "sum of gaps required by EN 13906-1, or the minimum room to coil bind if that is larger";
        "n (0.0015 D² / d + 0.1 d), or 0.02 n (D + d_hot), or room", "EN", |w| Some(w.clearance.si()),
        with: |w| if w.clearance > w.wire.sum_of_gaps() { put!["room": w.clearance] } else { gaps(&w.wire) };
    "spare", "spare length at full bump (below 0: solid length too long)", Length, "below 0: the solid length is too long";
        "L_bump − L_solid − S_a", "DERIVED", |w| si(w.spare),
        with: |w| put!["L_bump": w.at_bump?, "L_solid": w.solid_length, "S_a": w.clearance];
};

/// What a rate comes from by wire.
pub(super) fn of_wire(wire: &Wire) -> Option<Vec<Substitution>> {
    put![
        "G": wire.shear_modulus_pa => Stress, "d": wire.diameter_m => Length, "D": wire.mean_m => Length,
        "N_a": wire.active => Ratio,
    ]
}

/// What a solid length comes from.
fn solid(wire: &Wire) -> Option<Vec<Substitution>> {
    let ground = matches!(wire.ends, Ends::PlainGround | Ends::ClosedGround);
    let beside = if ground { 0.0 } else { 1.0 };
    put!["d": wire.diameter_m => Length, "N_t": wire.total()? => Ratio, "e": beside => Ratio]
}

/// What the least gaps of a coil come from that is wound cold.
fn gaps(wire: &Wire) -> Option<Vec<Substitution>> {
    let diameter = if wire.is_hot() { "d_hot" } else { "d" };
    Some(vec![("n", wire.active, Ratio), ("D", wire.mean_m, Length), (diameter, wire.diameter_m, Length)])
}

/// What a shear stress comes from: its factor, the force that makes it, mean and wire diameter.
fn shear(wire: &Wire, force: Option<units::Force>, symbol: &'static str, factor: f64) -> Option<Vec<Substitution>> {
    let mut with = plain_shear(wire, force)?;
    with.insert(0, (symbol, factor, Ratio));
    Some(with)
}

/// The same without a factor.
fn plain_shear(wire: &Wire, force: Option<units::Force>) -> Option<Vec<Substitution>> {
    put!["F": force?, "D": wire.mean_m => Length, "d": wire.diameter_m => Length]
}

/// What an allowed stress comes from: the share of the tensile strength R_m.
fn allowed(share: units::Ratio, strength: units::Stress) -> Option<Vec<Substitution>> {
    put!["share": share, "R_m": strength]
}
