//! What must hold for every kind of spring, bag and bump stop, for whatever sizes come: alone, and on the one
//! force–travel curve.
//!
//! Nothing here is a published figure. Expected values are worked out beside each test, from the closed forms of the
//! model; a numerical slope or integral stands for itself. Tolerances: 1e-9 for closed forms, 1e-6 where a solved
//! height (to 1e-10 m) or a numerical slope is on one side, else as said there.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::properties;

use std::f64::consts::TAU;

use properties::{config, near, same};
use proptest::collection::vec;
use proptest::prelude::*;
use springwright::base::math::pchip::Pchip;
use springwright::base::units::{Force, Length, Mass, Quantity, Ratio, SpringRate, weight};
use springwright::trade::ride;
use springwright::trade::spring::{ATMOSPHERE_PA, AirBag, Coil, Leaf, Points, Spring, Stack, TorsionBar};
use springwright::trade::wheel::{BumpStop, ForceTravel, Helper, LengthCurve, StopForce};

fn m(value: f64) -> Length {
    Length::from_si(value)
}

/// Simpson's rule: exact for cubics.
fn simpson(from: f64, to: f64, steps: usize, f: impl Fn(f64) -> f64) -> f64 {
    let width = (to - from) / steps as f64;
    (0..steps)
        .map(|i| {
            let a = from + width * i as f64;
            width / 6.0 * (f(a) + 4.0 * f(a + width / 2.0) + f(a + width))
        })
        .sum()
}

// ---- every kind of spring, alone -------------------------------------------------------------------------------

/// A spring, the lengths between which it is looked at, and where its rate jumps or bends in between.
#[derive(Debug, Clone)]
struct Kind {
    spring: Spring,
    shortest_m: f64,
    longest_m: f64,
    kinks_m: Vec<f64>,
}

impl Kind {
    /// A share of the way from the shortest length to the longest.
    fn length_m(&self, share: f64) -> f64 {
        self.shortest_m + share * (self.longest_m - self.shortest_m)
    }

    fn far_from_kinks(&self, length_m: f64, by_m: f64) -> bool {
        self.kinks_m.iter().all(|k| (k - length_m).abs() > by_m)
    }
}

fn coil() -> impl Strategy<Value = Kind> {
    (1e3..4e5, 0.1..0.6, proptest::option::of(0.2..0.9_f64)).prop_map(|(rate, free_m, solid)| {
        let solid_m = solid.map(|share| share * free_m);
        Kind {
            spring: Spring::Coil(Coil { rate_n_per_m: rate, free_length_m: free_m, solid_length_m: solid_m }),
            shortest_m: 0.1 * free_m,
            longest_m: 1.3 * free_m,
            kinks_m: [Some(free_m), solid_m].into_iter().flatten().collect(),
        }
    })
}

/// By hand: both coils give way until one is solid, then the other alone, then neither.
fn stack() -> impl Strategy<Value = Kind> {
    let helper = (1e3..6e4, 0.03..0.2, 0.1..0.9_f64);
    let main = (1e4..4e5, 0.15..0.5, proptest::option::of(0.2..0.9_f64));
    (helper, main).prop_map(|((kh, free_h, solid_h), (km, free_m, solid_m))| {
        let solid_m = solid_m.map(|share| share * free_m);
        let helper = Coil { rate_n_per_m: kh, free_length_m: free_h, solid_length_m: Some(solid_h * free_h) };
        let main = Coil { rate_n_per_m: km, free_length_m: free_m, solid_length_m: solid_m };
        let helper_n = kh * (free_h - solid_h * free_h);
        let main_n = solid_m.map_or(f64::INFINITY, |s| km * (free_m - s));
        let free = free_h + free_m;
        let length = |force_n: f64| free - force_n.min(helper_n) / kh - force_n.min(main_n) / km;
        let mut kinks_m = vec![free, length(helper_n)];
        kinks_m.extend(main_n.is_finite().then(|| length(main_n)));
        let spring = Spring::Stack(Stack { helper, main });
        Kind { spring, shortest_m: 0.1 * free, longest_m: 1.2 * free, kinks_m }
    })
}

/// Lengths fall and loads rise by random steps, so that the secants differ up to sixtyfold.
fn points() -> impl Strategy<Value = Kind> {
    let steps = vec((0.005..0.06, 300.0..3e3_f64), 1..8);
    let first = prop_oneof![Just(0.0), 0.0..800.0];
    (0.3..0.6, first, steps, proptest::option::of(0.3..1.0_f64)).prop_map(|(longest_m, first_n, steps, solid)| {
        let table = table_of(longest_m, first_n, &steps);
        let shortest = table.last().expect("a first row").0;
        let solid_m = solid.map(|share| share * shortest);
        let itself = Points::through(&table).expect("a table that rises");
        let free_m = itself.free_length_m();
        Kind {
            spring: Spring::Points(itself).with_solid_length(solid_m.map(m)),
            shortest_m: shortest - 0.04,
            longest_m: free_m + 0.03,
            kinks_m: table.iter().map(|row| row.0).chain([free_m]).chain(solid_m).collect(),
        }
    })
}

/// Beyond an end, N/m: the slope there of the parabola through the last three points, or the line through the last two
/// where that is steeper (DERIVED).
fn end_slope(last: &(f64, f64), next: Option<&(f64, f64)>) -> f64 {
    let secant = |step: &(f64, f64)| step.1 / step.0;
    let bends = |next: &(f64, f64)| (secant(last) - secant(next)) * last.0 / (last.0 + next.0);
    secant(last) + next.map_or(0.0, bends).max(0.0)
}

fn table_of(longest_m: f64, first_n: f64, steps: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut row = (longest_m, first_n);
    let mut table = vec![row];
    for (shorter_m, more_n) in steps {
        row = (row.0 - shorter_m, row.1 + more_n);
        table.push(row);
    }
    table
}

/// Arms from well above level to well below, as far as (θ0 − α) tan α < 1: beyond, the arm folds and pushes less.
fn bar() -> impl Strategy<Value = Kind> {
    (2e2..2e4, 0.15..0.6, -0.3..2.2_f64).prop_map(|(twist_rate_nm_per_rad, arm_m, free_angle_rad)| {
        let steps = (-120..=120).map(|i| f64::from(i) * 0.01);
        let lowest_rad = steps.take_while(|a| (free_angle_rad - a) * a.tan() < 1.0).last().expect("level is allowed");
        Kind {
            spring: Spring::Bar(TorsionBar { twist_rate_nm_per_rad, arm_m, free_angle_rad }),
            shortest_m: arm_m * (-1.2_f64).sin(),
            longest_m: arm_m * lowest_rad.sin(),
            kinks_m: Vec::new(),
        }
    })
}

/// The spring gets loose at all; a soft bar is still wound up when its arm hangs straight down.
fn gets_loose(spring: &Spring) -> bool {
    !matches!(spring, Spring::Bar(bar) if bar.free_angle_rad > 1.25)
}

fn leaf() -> impl Strategy<Value = Kind> {
    (5e3..3e5, 0.05..0.6_f64).prop_map(|(rate_n_per_m, free_height_m)| Kind {
        spring: Spring::Leaf(Leaf { rate_n_per_m, free_height_m }),
        shortest_m: free_height_m - 0.3,
        longest_m: free_height_m + 0.2,
        kinks_m: Vec::new(),
    })
}

fn any_kind() -> impl Strategy<Value = Kind> {
    prop_oneof![coil(), stack(), points(), bar(), leaf()]
}

proptest! {
    #![proptest_config(config(1_000))]

    #[test]
    fn a_shorter_spring_never_pushes_less(kind in any_kind(), a in 0.0..1.0, b in 0.0..1.0_f64) {
        let (short, long) = (kind.length_m(f64::min(a, b)), kind.length_m(f64::max(a, b)));
        let (more, less) = (kind.spring.force_n(short), kind.spring.force_n(long));
        prop_assert!(more >= less - 1e-12 * less.abs(), "{more} N at {short} m, {less} N at {long} m");
    }

    #[test]
    fn the_rate_is_the_slope_of_force(kind in any_kind(), share in 0.0..1.0) {
        const STEP_M: f64 = 1e-7;
        let length = kind.length_m(share);
        prop_assume!(kind.far_from_kinks(length, 2.0 * STEP_M));
        let slope = (kind.spring.force_n(length - STEP_M) - kind.spring.force_n(length + STEP_M)) / (2.0 * STEP_M);
        let rate = kind.spring.rate_n_per_m(length);
        // Rounding of length and force in the 16th digit over 0.2 µm, 1e-8 of either; bending inside a piece of 5 mm,
        // (0.1 µm / 5 mm)² of the steepest secant.
        let allowed = 1e-6 * rate + 1e-6 * kind.spring.force_n(length).abs() + 1e-2;
        prop_assert!((slope - rate).abs() <= allowed, "slope {slope}, rate {rate}");
    }

    #[test]
    fn the_energy_is_the_integral_of_force(kind in any_kind(), a in 0.0..1.0, b in 0.0..1.0_f64) {
        let (short, long) = (kind.length_m(f64::min(a, b)), kind.length_m(f64::max(a, b)));
        let mut marks: Vec<f64> = kind.kinks_m.iter().copied().filter(|k| *k > short && *k < long).collect();
        marks.extend([short, long]);
        marks.sort_by(f64::total_cmp);
        // Straight or cubic pieces, exact; a bar is smooth, but steep where its arm hangs.
        let steps = if kind.kinks_m.is_empty() { 2_000 } else { 1 };
        let work_j: f64 =
            marks.windows(2).map(|w| simpson(w[0], w[1], steps, |length| kind.spring.force_n(length))).sum();
        let stored_j = kind.spring.energy_j(short) - kind.spring.energy_j(long);
        let allowed_j = 1e-9 * (kind.spring.energy_j(short) + kind.spring.energy_j(long)) + 1e-9;
        prop_assert!((stored_j - work_j).abs() <= allowed_j, "stored {stored_j} J, work {work_j} J");
        let loose_j = kind.spring.energy_j(kind.spring.free_length_m());
        prop_assert!(!gets_loose(&kind.spring) || loose_j.abs() <= 1e-9, "loose, it stores nothing, not {loose_j} J");
    }

    /// What carries a force at a length is found there, and is the same spring on another seat.
    #[test]
    fn a_seat_moves_a_spring_and_changes_nothing_else(
        kind in any_kind(), before in 0.0..1.0, place in 0.0..1.0, look in 0.0..1.0, force_n in 10.0..8e3,
    ) {
        let (spring, length) = (&kind.spring, kind.length_m(place));
        let moved = spring.carrying(Force::from_si(force_n), m(length)).expect("below its solid load it carries it");
        // A seat is found to 1e-12 m, on a slope that a solid coil makes steep.
        let allowed_n = 1e-9 * force_n + 1e-11 * moved.rate_n_per_m(length);
        prop_assert!((moved.force_n(length) - force_n).abs() <= allowed_n, "{} of {force_n} N", moved.force_n(length));
        if let (Spring::Bar(old), Spring::Bar(new)) = (spring, &moved) {
            // T = F R cos α = k_θ (θ0 − α): indexed anew, the twist rate and the arm as they were.
            let angle = (length / old.arm_m).asin();
            let twist = force_n * old.arm_m * angle.cos() / old.twist_rate_nm_per_rad;
            same!("θ0", new.free_angle_rad, angle + twist, 1e-9);
            prop_assert_eq!(new.arm_m, old.arm_m);
            let torque = |b: &TorsionBar| b.torque_nm(kind.length_m(before)) - b.torque_nm(kind.length_m(look));
            prop_assert!((torque(new) - torque(old)).abs() <= 1e-9 * old.twist_rate_nm_per_rad);
        } else {
            let by_m = moved.free_length_m() - spring.free_length_m();
            let looked_at = kind.length_m(look);
            let (here, there) = (spring.force_n(looked_at), moved.force_n(looked_at + by_m));
            let steepest = spring.rate_n_per_m(looked_at - 1e-9).max(spring.rate_n_per_m(looked_at + 1e-9));
            prop_assert!((here - there).abs() <= 1e-9 * here.abs() + 1e-12 * steepest + 1e-6, "{here} and {there} N");
            let stood = spring.length_for_m(force_n).expect("below its solid load it carries it");
            prop_assert!((by_m - (length - stood)).abs() <= 1e-9, "moved by {by_m}, by hand {}", length - stood);
            let solids = spring.solid_length_m().zip(moved.solid_length_m());
            prop_assert!(solids.is_none_or(|(old, new)| (new - old - by_m).abs() <= 1e-12), "its coils are no longer");
        }
    }

    #[test]
    fn the_length_for_a_force_carries_it(kind in any_kind(), share in 0.0..1.0) {
        let force_n = kind.spring.force_n(kind.length_m(share));
        prop_assume!(force_n > 0.0 && gets_loose(&kind.spring));
        let found = kind.spring.length_for_m(force_n).expect("there is a length at which it carries just this");
        let allowed_n = 1e-9 * force_n + 1e-11 * kind.spring.rate_n_per_m(found - 1e-9);
        prop_assert!((kind.spring.force_n(found) - force_n).abs() <= allowed_n, "{} of {force_n}", kind.spring.force_n(found));
    }

    /// A spring can be of any unevenness as long as a shorter one carries more; beyond the table it goes straight on with
    /// the slope of its end, no flatter than the line through the last two points.
    #[test]
    fn every_table_that_rises_is_a_spring(first in 0.0..800.0, steps in vec((0.005..0.06, 300.0..3e3_f64), 1..8)) {
        let table = table_of(0.5, first, &steps);
        let found = Points::through(&table);
        prop_assert!(found.is_some(), "refused: {table:?}");
        let found = Spring::Points(found.expect("just looked"));
        prop_assert!((found.free_length_m() - (0.5 + first / end_slope(&steps[0], steps.get(1)))).abs() <= 1e-9);
        let (end, last) = (steps.len() - 1, table[table.len() - 1]);
        let by_hand = last.1 + 0.03 * end_slope(&steps[end], end.checked_sub(1).map(|next| &steps[next]));
        prop_assert!((found.force_n(last.0 - 0.03) - by_hand).abs() <= 1e-9 * by_hand, "30 mm beyond: {by_hand} N");
        for (length, load) in table {
            prop_assert!((found.force_n(length) - load).abs() <= 1e-9 * load + 1e-9, "{length} m carries {load} N");
        }
    }
}

/// Four times stiffer from one piece to the next. By the first piece, 10 N/mm, the 500 N at 300 mm are gone at 350 mm:
/// rounding the corner between the pieces must not make a spring of metres of it, nor refuse it.
#[test]
fn a_dual_rate_coil_is_a_spring_of_ordinary_length() {
    for last_n in [1_500.0, 2_490.0, 2_500.0, 3_000.0] {
        let coil = Points::through(&[(0.30, 500.0), (0.25, 1_000.0), (0.20, last_n)]).expect("it rises");
        assert!((coil.free_length_m() - 0.35).abs() < 0.01, "{last_n} N: free length {} m", coil.free_length_m());
    }
}

/// Two careless readings at the short end must not take the solid coils away.
#[test]
fn a_table_that_flattens_at_its_end_still_binds() {
    let coil = Points::through(&[(0.30, 0.0), (0.25, 2_500.0), (0.20, 3_000.0)]).expect("it rises");
    let coil = Spring::Points(coil).with_solid_length(Some(m(0.18)));
    // 10 mm into solid coils: many times the softest rate measured, 10 N/mm, not nothing.
    let into_solid_n = coil.force_n(0.17) - coil.force_n(0.18);
    assert!(into_solid_n > 10.0 * 10e3 * 0.01, "{into_solid_n} N for 10 mm into solid coils");
}

/// What a coil carries when solid, it carries a little below its solid length: F = k (L0 − L) + 1000 k (L_solid − L).
#[test]
fn a_force_above_the_solid_load_is_carried_below_the_solid_length() {
    let coil = Spring::Coil(Coil { rate_n_per_m: 40e3, free_length_m: 0.30, solid_length_m: Some(0.20) });
    let found = coil.length_for_m(6_000.0).expect("solid coils carry anything");
    // 4 000 N make it solid; 2 000 N more are 2 000 / 40 040 mm.
    assert!(
        (found - (0.20 - 2_000.0 / (1_001.0 * 40e3))).abs() < 1e-9,
        "{found} m, where it carries {} N",
        coil.force_n(found)
    );
}

// ---- bags and bump stops, alone --------------------------------------------------------------------------------

/// Of an area that stays or grows as the bag is compressed.
fn any_bag() -> impl Strategy<Value = AirBag> {
    let slope = prop_oneof![Just(0.0), -0.3..0.0];
    (20e-4..400e-4, slope, 200e-6..20e-3, 0.0..10e5, 1.0..1.4).prop_map(
        |(area_m2, area_slope_m, volume_m3, gauge_pa, exponent)| AirBag {
            area_m2,
            area_slope_m,
            volume_m3,
            gauge_pa,
            exponent,
        },
    )
}

/// Gauge pressure by hand: p Vⁿ stays, V falls by the area.
fn gauge_by_hand(bag: &AirBag, compressed_m: f64) -> f64 {
    let swept = simpson(0.0, compressed_m, 1, |x| bag.area_m2 - bag.area_slope_m * x);
    (bag.gauge_pa + ATMOSPHERE_PA) * (bag.volume_m3 / (bag.volume_m3 - swept)).powf(bag.exponent) - ATMOSPHERE_PA
}

fn any_stop() -> impl Strategy<Value = BumpStop> {
    let table = vec((0.002..0.02, 50.0..3e3_f64), 1..6).prop_map(|steps| {
        let rows: Vec<(f64, f64)> = std::iter::once((0.0, 0.0))
            .chain(steps.iter().scan((0.0, 0.0), |at, step| {
                *at = (at.0 + step.0, at.1 + step.1);
                Some(*at)
            }))
            .collect();
        StopForce::Table(Pchip::through(&rows).expect("rows that rise").into())
    });
    let force = prop_oneof![Just(StopForce::Unknown), (1e4..2e6).prop_map(StopForce::Rate), table];
    (force, -0.02..0.12, 0.3..1.2).prop_map(|(force, gap_m, ratio)| BumpStop { gap_m, ratio, force })
}

proptest! {
    #![proptest_config(config(1_000))]

    /// As long as it holds more than the atmosphere: stretched into a vacuum, a bag whose area shrinks lets go.
    #[test]
    fn a_bag_further_in_never_pushes_less(bag in any_bag(), ratio in 0.3..1.2, a in -0.1..0.3, b in -0.1..0.3_f64) {
        let (low, high) = (f64::min(a, b), f64::max(a, b));
        let has_area = bag.area_m2 - bag.area_slope_m * ratio * low > 0.1 * bag.area_m2;
        prop_assume!(low >= 0.0 || (has_area && gauge_by_hand(&bag, ratio * low) >= 0.0));
        let at_wheel = Helper { bag, ratio, set_at_m: 0.0 };
        let (less, more) = (at_wheel.force_n(low), at_wheel.force_n(high));
        prop_assert!(more >= less - 1e-12 * less.abs(), "{more} N at {high} m, {less} N at {low} m");
    }

    #[test]
    fn the_rate_of_a_bag_is_the_slope_of_its_force(bag in any_bag(), ratio in 0.3..1.2, set in -0.05..0.05, z in -0.1..0.3) {
        const STEP_M: f64 = 1e-7;
        let at_wheel = Helper { bag, ratio, set_at_m: set };
        let slope = (at_wheel.force_n(z + STEP_M) - at_wheel.force_n(z - STEP_M)) / (2.0 * STEP_M);
        let rate = at_wheel.rate_n_per_m(z);
        // Rounding in the 16th digit over 0.2 µm is 1e-8 of the force; pressed flat, its rate changes within 0.5 mm.
        let allowed = 1e-6 * rate.abs() + 1e-7 * at_wheel.force_n(z).abs() + 1e-2;
        prop_assert!((slope - rate).abs() <= allowed, "slope {slope}, rate {rate}");
    }

    /// k = n p_abs A²/V − p_gauge dA/dL where it is set; elsewhere p Vⁿ and the area say its force; below the air
    /// around it it folds and carries nothing.
    #[test]
    fn closed_forms_of_a_bag(bag in any_bag(), ratio in 0.3..1.2, set in -0.05..0.05, share in -0.5..0.4, force_n in 100.0..9e3) {
        let at_wheel = Helper { bag, ratio, set_at_m: set };
        let absolute = bag.gauge_pa + 101_325.0;
        let by_hand = bag.exponent * absolute * bag.area_m2.powi(2) / bag.volume_m3 - bag.gauge_pa * bag.area_slope_m;
        same!("rate", at_wheel.rate_n_per_m(set), by_hand * ratio * ratio, 1e-9);
        same!("force", at_wheel.force_n(set), bag.gauge_pa * bag.area_m2 * ratio, 1e-9);
        // So far that at most half of the air is swept, and at least half of the area is left.
        let growth = -bag.area_slope_m.min(-1e-3);
        let most_m = [bag.volume_m3 / bag.area_m2, (bag.volume_m3 / growth).sqrt(), bag.area_m2 / growth, 0.6];
        let x = share * most_m.into_iter().fold(f64::INFINITY, f64::min);
        let gauge = gauge_by_hand(&bag, x);
        same!("gauge", bag.gauge(m(x)).si() + 101_325.0, gauge + 101_325.0, 1e-9);
        let area = bag.area_m2 - bag.area_slope_m * x;
        prop_assert!((bag.force_n(x) - (gauge * area).max(0.0)).abs() <= 1e-9 * (gauge.abs() + 101_325.0) * area);
        same!("pumped", bag.pumped_to(force_n).force_n(0.0), force_n, 1e-9);
    }

    #[test]
    fn a_stop_carries_nothing_before_it_is_touched_and_never_less_further_in(
        stop in any_stop(), a in -0.05..0.25, b in -0.05..0.25_f64,
    ) {
        const STEP_M: f64 = 1e-7;
        let (low, high) = (f64::min(a, b), f64::max(a, b));
        prop_assert!(stop.force_n(high) >= stop.force_n(low), "{} N, {} N", stop.force_n(low), stop.force_n(high));
        prop_assert!(stop.gap_m < low || stop.force_n(low) == 0.0, "{} N before the gap", stop.force_n(low));
        prop_assert!(stop.carries() || stop.force_n(high) == 0.0, "of an unknown stop only the place is known");
        if let StopForce::Rate(rate) = stop.force {
            let by_hand = rate * (stop.ratio * (high - stop.gap_m)).max(0.0) * stop.ratio;
            prop_assert!((stop.force_n(high) - by_hand).abs() <= 1e-9 * by_hand, "{} {by_hand}", stop.force_n(high));
        }
        let slope = (stop.force_n(high + STEP_M) - stop.force_n(high - STEP_M)) / (2.0 * STEP_M);
        let rate = stop.rate_n_per_m(high);
        prop_assume!(near(stop.rate_n_per_m(high - 2.0 * STEP_M), stop.rate_n_per_m(high + 2.0 * STEP_M), 1e-3));
        // Bending inside a piece of 2 mm: (0.1 µm / 2 mm)², and half the change of rate that was let through above.
        prop_assert!((slope - rate).abs() <= 1e-3 * rate + 1e-2, "slope {slope}, rate {rate}");
    }
}

/// 0.2 bar, 120 cm² and 1.2 L at its set height, 2 cm² less for each 10 mm that it is drawn out. From 20 mm on it holds
/// less than the atmosphere; from there on it can pull or hang, but not push.
#[test]
fn a_bag_drawn_out_does_not_push_again() {
    let bag = AirBag { area_m2: 120e-4, area_slope_m: -0.2, volume_m3: 1.2e-3, gauge_pa: 0.2e5, exponent: 1.38 };
    for drawn_mm in [20.0, 50.0, 80.0, 100.0, 150.0] {
        let force_n = bag.force_n(-drawn_mm / 1e3);
        assert!(force_n <= 0.0, "drawn out by {drawn_mm} mm it pushes with {force_n} N");
    }
}

// ---- on the one curve ------------------------------------------------------------------------------------------

/// L = L0 − r z − s z²/2 − c z³ through nine rows: a parabola, or a cubic where c makes it ask for one.
fn any_length(at_reference_m: f64, ratio: f64, slope_per_m: f64, cubic_per_m2: f64) -> LengthCurve {
    let rows = [-0.16, -0.12, -0.08, -0.04, 0.0, 0.04, 0.08, 0.12, 0.16]
        .map(|z: f64| (m(z), m(at_reference_m - ratio * z - 0.5 * slope_per_m * z * z - cubic_per_m2 * z * z * z)));
    LengthCurve::from_rows(&rows).expect("nine rows")
}

/// Everything that can carry a wheel, at once.
fn any_corner() -> impl Strategy<Value = ForceTravel> {
    let length = (0.3..0.8, 0.4..1.0, -0.5..1.5, -4.0..4.0);
    let helper = proptest::option::of((any_bag(), 0.3..1.2, -0.03..0.03));
    let others = (0.0..20e3, -0.03..0.03, 0.0..600.0, 0.5..1.0, helper, proptest::option::of(any_stop()));
    (any_kind(), length, others).prop_map(
        |(kind, (place, ratio, slope, cubic), (rubber, neutral_m, gas_force_n, damper, helper, stop))| ForceTravel {
            spring_length: any_length(kind.length_m(place), ratio, slope, cubic),
            spring: kind.spring,
            parallel_rate_n_per_m: rubber,
            parallel_neutral_m: neutral_m,
            gas_force_n,
            damper_length: any_length(0.35, damper, -slope, cubic),
            helper: helper.map(|(bag, ratio, set_at_m)| Helper { bag, ratio, set_at_m }),
            stop,
        },
    )
}

proptest! {
    #![proptest_config(config(1_000))]

    /// Geometry terms of spring and gas damper, rubber, bag and stop included.
    #[test]
    fn the_wheel_rate_is_the_slope_of_the_force_at_the_wheel(corner in any_corner(), z in -0.12..0.12) {
        const STEP_M: f64 = 1e-7;
        let rate = |z: f64| corner.rate_n_per_m(z);
        let stiff = corner.spring.rate_n_per_m(corner.spring_length.length(m(z)).si());
        prop_assume!((rate(z - 2.0 * STEP_M) - rate(z + 2.0 * STEP_M)).abs() <= 1e-4 * (stiff + 1e3));
        let slope = (corner.force_n(z + STEP_M) - corner.force_n(z - STEP_M)) / (2.0 * STEP_M);
        // The step that was let through above, and rounding in the 16th digit over 0.2 µm.
        let allowed = 1e-4 * (stiff + 1e3) + 1e-7 * corner.force_n(z).abs();
        prop_assert!((slope - rate(z)).abs() <= allowed, "slope {slope}, rate {}", rate(z));
    }

    /// Wherever the force only grows, the height at which it was read is found again.
    #[test]
    fn the_height_found_carries_the_load(corner in any_corner(), z in -0.10..0.10) {
        let grid: Vec<f64> = (-28..=28).map(|i| f64::from(i) * 0.005).collect();
        let plain = |z: &f64| corner.rate_n_per_m(*z) > 0.0 && corner.spring_length.ratio(m(*z)).si() > 0.0;
        prop_assume!(grid.iter().all(plain) && corner.force_n(z) > 100.0);
        let load = Force::from_si(corner.force_n(z));
        let found = corner.ride_height(load).expect("it is carried at the height where it was read");
        let carried = corner.force_n(found.travel.si());
        // 1e-6 of the load, and 1e-10 m on what may be solid coils.
        let allowed = 1e-6 * load.si() + 1e-10 * corner.rate_n_per_m(found.travel.si() + 1e-9);
        prop_assert!((carried - load.si()).abs() <= allowed, "{carried} of {load:?}");
        let least = grid.iter().map(|z| corner.rate_n_per_m(*z)).fold(f64::INFINITY, f64::min);
        prop_assert!((found.travel.si() - z).abs() <= 1e-9 + allowed / least, "{:?} for {z}", found.travel);
    }

    // ---- closed forms against the solved curve -----------------------------------------------------------------

    /// Travel ΔW/k_w, spacer ΔW/(k r), reserve k_w gap / W, f = √(k_w/m)/2π, for a coil and for a leaf.
    #[test]
    fn a_linear_spring_by_hand(
        k in 20e3..150e3, r in 0.45..1.0_f64, kg in 150.0..500.0, more in -0.2..0.3_f64, gap in 0.05..0.1_f64, is_leaf: bool,
    ) {
        let itself = if is_leaf {
            Spring::Leaf(Leaf { rate_n_per_m: k, free_height_m: 0.0 })
        } else {
            Spring::Coil(Coil { rate_n_per_m: k, free_length_m: 0.0, solid_length_m: None })
        };
        let stop = BumpStop { gap_m: gap, ratio: 1.0, force: StopForce::Unknown };
        let (before, after) = (weight(Mass::from_si(kg)), weight(Mass::from_si(kg * (1.0 + more))));
        let old = placed(itself, r, 0.3, before, Some(stop));
        let (wheel_rate, added_n) = (k * r * r, before.si() * more);
        prop_assume!(added_n < wheel_rate * gap);
        let found = old.ride_height(after).expect("a linear spring carries any load");
        prop_assert!((found.travel.si() - added_n / wheel_rate).abs() <= 1e-9, "{:?}", found.travel);
        same!("wheel rate", found.wheel_rate.si(), wheel_rate, 1e-9);
        same!("spring force", found.spring_force.si(), after.si() / r, 1e-6);
        let frequency = springwright::trade::ride::frequency(found.wheel_rate, Mass::from_si(kg * (1.0 + more))).si();
        same!("frequency", frequency, (wheel_rate / (kg * (1.0 + more))).sqrt() / TAU, 1e-9);
        let reserve = ride::reserve(old.force_at_contact().expect("the gap is known"), after).expect("a force").si();
        let by_hand = (before.si() + wheel_rate * gap) / after.si() - 1.0;
        prop_assert!((reserve - by_hand).abs() <= 1e-6, "reserve {reserve}, by hand {by_hand}");
        let needed = old.spring_force_for(after, m(0.0));
        let on_spacer = old.spring.carrying(needed, m(0.3)).expect("it carries it");
        let spacer = on_spacer.free_length_m() - old.spring.free_length_m();
        prop_assert!((spacer - added_n / (k * r)).abs() <= 1e-9, "spacer {spacer}");
    }

    /// T = k_θ (θ0 − α) = F R cos α and k_w = k_θ/(R² cos² α) − F tan α/(R cos α), at every height.
    #[test]
    fn a_torsion_bar_by_hand(
        twist_rate in 2e3..2e4, arm in 0.2..0.5_f64, angle in -0.3..0.5_f64, before_n in 1e3..5e3, more in -0.3..0.5,
    ) {
        let bar = TorsionBar { twist_rate_nm_per_rad: twist_rate, arm_m: arm, free_angle_rad: 0.0 };
        let old = placed(Spring::Bar(bar), 1.0, arm * angle.sin(), Force::from_si(before_n), None);
        let load_n = before_n * (1.0 + more);
        let found = old.ride_height(Force::from_si(load_n)).expect("it carries it");
        let sine = angle.sin() - found.travel.si() / arm;
        prop_assume!(sine.abs() < 0.95);
        let here = sine.asin();
        let unwound = angle + before_n * arm * angle.cos() / twist_rate;
        same!("load", twist_rate * (unwound - here) / (arm * here.cos()), load_n, 1e-6);
        let by_hand = twist_rate / (arm * here.cos()).powi(2) - load_n * here.tan() / (arm * here.cos());
        same!("wheel rate", found.wheel_rate.si(), by_hand, 1e-6);
    }

    /// A coil beside a bag at its set height: k_w = k r² + (n p A²/V − p_gauge dA/dL) r_bag².
    #[test]
    fn a_coil_with_a_bag_by_hand(bag in any_bag(), k in 20e3..150e3, r in 0.45..1.0_f64, r_bag in 0.3..1.2, spring_n in 300.0..8e3) {
        let load_n = spring_n * r + bag.gauge_pa * bag.area_m2 * r_bag;
        let mut corner = placed(Spring::Coil(coil_of(k)), r, 0.3, Force::from_si(spring_n * r), None);
        corner.helper = Some(Helper { bag, ratio: r_bag, set_at_m: 0.0 });
        let found = corner.ride_height(Force::from_si(load_n)).expect("both carry it");
        prop_assert!(found.travel.si().abs() <= 1e-9, "{:?}", found.travel);
        let bag_rate = bag.exponent * (bag.gauge_pa + 101_325.0) * bag.area_m2.powi(2) / bag.volume_m3
            - bag.gauge_pa * bag.area_slope_m;
        same!("wheel rate", found.wheel_rate.si(), k * r * r + bag_rate * r_bag * r_bag, 1e-6);
        same!("spring force", corner.spring_force_for(Force::from_si(load_n), m(0.0)).si(), spring_n, 1e-9);
        let wanted = SpringRate::from_si(k * r * r + bag_rate * r_bag * r_bag);
        same!("spring rate back", corner.spring_rate_for(wanted, Force::from_si(load_n), m(0.0)).si(), k, 1e-6);
    }

    /// Two coils in line: k_h k_m/(k_h + k_m) until the helper is solid, k_m from then on; compressions add.
    #[test]
    fn two_coils_in_series_by_hand(
        kh in 2e3..6e4, km in 2e4..2e5, stroke in 0.01..0.08, r in 0.45..1.0_f64, first in 0.3..3.0, then in 0.3..3.0_f64,
    ) {
        let helper = Coil { rate_n_per_m: kh, free_length_m: 0.03 + stroke, solid_length_m: Some(0.03) };
        let itself = Spring::Stack(Stack { helper, main: coil_of(km) });
        let crossover_n = kh * stroke;
        let (from_n, to_n) = (first * crossover_n, then * crossover_n);
        prop_assume!((then - 1.0).abs() > 1e-3);
        let old = placed(itself, r, 0.3, Force::from_si(from_n * r), None);
        let found = old.ride_height(Force::from_si(to_n * r)).expect("it carries it");
        let compressed = |f: f64| f / km + f64::min(f, crossover_n) / kh;
        prop_assert!((found.travel.si() - (compressed(to_n) - compressed(from_n)) / r).abs() <= 1e-8, "{:?}", found.travel);
        let rate = if then < 1.0 { kh * km / (kh + km) } else { km };
        same!("wheel rate", found.wheel_rate.si(), rate * r * r, 1e-6);
        let Spring::Stack(stack) = &old.spring else { panic!("a stack was put in") };
        same!("crossover", stack.crossover_force_n(), crossover_n, 1e-9);
        prop_assert!((0.3 - stack.crossover_length_m() - (compressed(crossover_n) - compressed(from_n))).abs() <= 1e-9);
    }
}

fn coil_of(rate_n_per_m: f64) -> Coil {
    Coil { rate_n_per_m, free_length_m: 0.0, solid_length_m: None }
}

/// A corner that carries a load at the reference height with nothing but this spring, on a constant ratio.
fn placed(itself: Spring, ratio: f64, length_m: f64, load: Force, stop: Option<BumpStop>) -> ForceTravel {
    let curve = LengthCurve::constant(Ratio::from_si(ratio), m(length_m));
    ForceTravel {
        spring: itself.carrying(Force::from_si(load.si() / ratio), m(length_m)).expect("it carries it"),
        spring_length: curve.clone(),
        parallel_rate_n_per_m: 0.0,
        parallel_neutral_m: 0.0,
        gas_force_n: 0.0,
        damper_length: curve,
        helper: None,
        stop,
    }
}
