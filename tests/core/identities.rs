//! What must hold exactly, for whatever numbers come: properties, checked on random inputs.
//!
//! Nothing here is a published figure. Each property is an identity of the model (named beside it), so its tolerance
//! is that of the arithmetic: 1e-9 for closed forms, 1e-6 where a solved height (to 1e-10 m) or a numerical slope
//! stands on one side.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::properties;

use properties::{config, near, same};
use proptest::collection::vec;
use proptest::prelude::*;
use springwright::base::units::entry::AnyEntry;
use springwright::base::units::{
    DecimalMark, Dim, Frequency, G_M_PER_S2, Length, Mass, Origin, Quantity, Ratio, Spread, SpringRate, UnitChoice,
    parse, table, weight,
};
use springwright::job::fields::{self, LISTS};
use springwright::job::{
    AxleKind, BagFitted, Customer, Ends, Goal, Job, LeafBy, Level, Load, LoadCase, Material, MeasuredAt, Part, PartOn,
    Plan, RateBy, RatioBy, RatioRow, Shop, Side, SpringKind, Walk, Way, file,
};
use springwright::report::results::figures;
use springwright::solve::answer::{Answer, AxleAnswer, Standing, State};
use springwright::solve::solve;
use springwright::trade::ride;
use springwright::trade::spring::{Coil, Spring};
use springwright::trade::weights::{self, Corners};
use springwright::trade::wheel::{BumpStop, ForceTravel, LengthCurve, StopForce};

fn mm(value: f64) -> Length {
    Length::from_si(value / 1e3)
}

// ---- constants -------------------------------------------------------------------------------------------------

/// 100 mm ↔ 1.576 Hz, 10 in ↔ 0.989 Hz, as printed (half a unit of the last digit).
#[test]
fn deflection_and_frequency_by_heart() {
    let one = Mass::from_si(1.0);
    for (deflection_m, printed_hz) in [(0.1, 1.576), (0.254, 0.989)] {
        let k = SpringRate::from_si(G_M_PER_S2 / deflection_m);
        assert!((ride::frequency(k, one).si() - printed_hz).abs() <= 0.5e-3);
        let back = ride::static_deflection(ride::rate_for(Frequency::from_si(printed_hz), one), one);
        assert!(near(back.si(), deflection_m, 1e-3), "{back:?}");
    }
}

/// 100 lb/in = 17.5127 N/mm, to its six printed figures; the factor itself exactly as its definition.
#[test]
fn a_hundred_pounds_an_inch() {
    let typed = parse::number("100 lb/in", Dim::SpringRate, DecimalMark::Point).expect("a rate");
    assert!((typed.si() / 1e3 - 17.5127).abs() <= 0.5e-4);
    assert!(near(typed.si(), 100.0 * 0.453_592_37 * 9.806_65 / 0.025_4, 1e-15));
}

#[test]
fn four_equal_corners() {
    let mut job = plain_job();
    for entry in [&mut job.after.lf, &mut job.after.rf, &mut job.after.lr, &mut job.after.rr] {
        *entry = "310.7 kg".into();
    }
    let after = solve(&job).after;
    assert_eq!(after.cross_weight.expect("four corners").si(), 0.5);
    assert_eq!(after.left_share.expect("four corners").si(), 0.5);
    assert_eq!(after.front_share.expect("four corners").si(), 0.5);
    assert_eq!(after.left_right.map(|d| d.expect("both sides").si()).both(), [0.0, 0.0]);
}

// ---- the job of these tests ------------------------------------------------------------------------------------

/// Every entry typed that has a default which depends on the units shown.
fn plain_job() -> Job {
    file::parse(include_str!("../cases/c1.ron")).expect("the worked case is a job")
}

/// The plain job with every number that is typed scaled by its own factor, and curved motion ratios.
fn varied_job(factors: &[f64], rows: bool) -> Job {
    let mut job = plain_job();
    if rows {
        job.front.ratio = curved(0.58, factors[0] - 1.0, 280.0);
    }
    let mut next = factors.iter().cycle();
    let mark = job.decimal;
    job.walk_mut(&mut String::new(), &mut |path, entry| {
        let factor = next.next().copied().unwrap_or(1.0);
        let text = entry.text().to_owned();
        if text.trim().is_empty() || path.contains("rows") || path.contains("target") {
            return;
        }
        let number = parse::number(&text, entry.dim(), mark).expect("the plain job is readable");
        entry.type_text(&format!("{} {}", number.value * factor, number.unit.symbol), number.unit, mark);
    });
    job
}

/// Five rows of a parabola in millimetres: r at the reference, dr/dz (1/m), length there.
fn curved(ratio: f64, slope_per_m: f64, length_mm: f64) -> springwright::job::MotionRatio {
    let rows = [-80.0_f64, -40.0, 0.0, 30.0, 70.0].map(|z| {
        let length = length_mm - ratio * z - 0.5 * slope_per_m / 1e3 * z * z;
        RatioRow { wheel: format!("{z} mm").as_str().into(), length: format!("{length} mm").as_str().into() }
    });
    springwright::job::MotionRatio { by: RatioBy::Rows, rows: rows.to_vec(), ..Default::default() }
}

fn standing(answer: &Answer, side: Side, state: State) -> Standing {
    answer.axle(side).standing.of(state).clone().expect("all is typed for this state")
}

proptest! {
    #![proptest_config(config(256))]

    // ---- closed relations between quantities -------------------------------------------------------------------

    /// 4π² f² δ = g for any mass and rate.
    #[test]
    fn frequency_and_static_deflection(m in 1.0..5_000.0, k in 1e2..1e6) {
        let (m, k) = (Mass::from_si(m), SpringRate::from_si(k));
        let omega = std::f64::consts::TAU * ride::frequency(k, m).si();
        same!("ω²δ", omega * omega * ride::static_deflection(k, m).si(), G_M_PER_S2, 1e-12);
        same!("rate back", ride::rate_for(ride::frequency(k, m), m).si(), k.si(), 1e-12);
    }

    /// With any tyre the frequency falls, and it comes back as the tyre stiffens.
    #[test]
    fn a_tyre_in_series_only_softens(k in 1e3..1e5, t in 1e4..1e6) {
        let both = ride::in_series(SpringRate::from_si(k), SpringRate::from_si(t)).si();
        prop_assert!(both < k.min(t));
        same!("compliances add", 1.0 / both, 1.0 / k + 1.0 / t, 1e-12);
    }

    /// At the flat-ride speed the rear, which meets a bump L/v later, completes one cycle when the front does; there is
    /// no such speed when the rear is not quicker.
    #[test]
    fn flat_ride(wheelbase in 1.8..5.0, front in 0.8..2.0, quicker in 1.01..1.6) {
        let hz = Frequency::from_si;
        let (l, f, r) = (Length::from_si(wheelbase), hz(front), hz(front * quicker));
        let speed = ride::flat_ride_speed(l, f, r).expect("the rear is quicker").si();
        same!("in step", wheelbase / speed + 1.0 / (front * quicker), 1.0 / front, 1e-9);
        prop_assert_eq!(ride::flat_ride_speed(l, r, f), None);
        prop_assert_eq!(ride::flat_ride_speed(l, f, f), None);
    }

    // ---- scaling -----------------------------------------------------------------------------------------------

    /// Sprung mass × q and rate × q leave frequency, free length and height as they were, on a curved motion ratio
    /// too. Rubber, gas and stop are absent, as the rule asks.
    #[test]
    fn the_same_factor_rule(
        sprung_kg in 150.0..500.0, q in 0.6..1.9, ratio in 0.5..1.0, slope_per_m in -0.8..2.0, rate in 25.0..150.0,
    ) {
        let wheel_rate: f64 = rate * 1e3 * ratio * ratio;
        // A geometry term that takes more than a third of the wheel rate away belongs to no suspension.
        prop_assume!(sprung_kg * q * G_M_PER_S2 / ratio * slope_per_m > -wheel_rate * q / 3.0);
        let unsprung = 38.0;
        let axle = |sprung: f64| format!("{} kg", 2.0 * (sprung + unsprung));
        let mut job = Job::default();
        job.before.front = axle(sprung_kg).as_str().into();
        job.after.front = axle(sprung_kg * q).as_str().into();
        job.front.unsprung = "38 kg".into();
        job.front.ratio = curved(ratio, slope_per_m, 280.0);
        job.front.damper_ratio = curved(ratio, slope_per_m, 280.0);
        job.front.spring.rate = format!("{rate} N/mm").as_str().into();
        // Any rate is meant here, however odd.
        job.front.spring.confirm = job.front.spring.rate.clone();
        job.front.target.goal = Goal::AsBefore;
        // One stock step is the rate the rule names.
        job.front.stock.step = format!("{} N/mm", rate * q).as_str().into();
        job.front.travel.stop_gap = "70 mm".into();
        job.front.travel.droop = "60 mm".into();
        let answer = solve(&job);
        let front = answer.axle(Side::Front);
        let sizing = front.sizing.expect("sized");
        let before = standing(&answer, Side::Front, State::Before);
        let new = standing(&answer, Side::Front, State::NewSprings);
        same!("rate needed", sizing.spring_rate.aim.si(), rate * 1e3 * q, 1e-7);
        same!("same frequency", sizing.same_frequency.expect("before is known").si(), rate * 1e3 * q, 1e-7);
        let rule = front.same_factor.expect("before is known");
        same!("factor", rule.factor.si(), q, 1e-9);
        same!("rule", rule.spring_rate.expect("the old rate is known").si(), rate * 1e3 * q, 1e-9);
        prop_assert!(rule.exact);
        let bought = answer.released(Side::Front).expect("released").spring.expect("sized");
        same!("free length", bought.free_length.expect("rows give lengths").si(),
            front.old_free_length.expect("rows give lengths").si(), 1e-7);
        same!("frequency", new.frequency.si(), before.frequency.si(), 1e-7);
        same!("reserve", new.reserve.expect("gap typed").si(), before.reserve.expect("gap typed").si(), 1e-6);
        let rise_m = new.height_change.expect("before is known").si();
        prop_assert!(rise_m.abs() < 1e-8, "height {rise_m}");
        let critical = front.damping.as_ref().and_then(|d| d.scale).expect("before is known").si();
        same!("damper × q", critical, q, 1e-7);
    }

    // ---- units and mirror --------------------------------------------------------------------------------------

    /// The units shown change no result, only words. How well scales and a tape read is typed, since the
    /// defaults of a job made here, and not read from a file, go by the units shown.
    #[test]
    fn units_shown_change_nothing(factors in vec(0.8..1.2, 40), rows: bool, after: bool) {
        let mut job = varied_job(&factors, rows);
        (job.certainty.scales, job.certainty.tape) = ("1 kg".into(), "1 mm".into());
        job.limits.length_tolerance = "3 mm".into();
        for axle in [&mut job.front, &mut job.rear] {
            axle.stock.settle = "3 mm".into();
        }
        job.measured_at = if after { MeasuredAt::After } else { MeasuredAt::Before };
        job.units = UnitChoice::metric();
        let metric = solve(&job);
        job.units = UnitChoice::pound_inch();
        let pound_inch = solve(&job);
        prop_assert!(metric.axles.front.sizing.is_some(), "the comparison is of something");
        prop_assert_eq!(properties::without_words(metric), properties::without_words(pound_inch));
    }

    /// A mirrored vehicle gives the mirrored answer: the same axles, left and right changed over.
    #[test]
    fn mirrored_vehicle_mirrored_answer(factors in vec(0.8..1.2, 40)) {
        let job = varied_job(&factors, false);
        let mut mirror = job.clone();
        for weighing in [&mut mirror.before, &mut mirror.after] {
            std::mem::swap(&mut weighing.lf, &mut weighing.rf);
            std::mem::swap(&mut weighing.lr, &mut weighing.rr);
        }
        let (here, there) = (solve(&job), solve(&mirror));
        prop_assert_eq!(&here.axles, &there.axles);
        prop_assert_eq!(here.rear_over_front, there.rear_over_front);
        for (here, there) in [(here.before, there.before), (here.after, there.after)] {
            let whole = |a: Option<Ratio>, b: Option<Ratio>| a.expect("corners").si() + b.expect("corners").si();
            same!("left share", whole(here.left_share, there.left_share), 1.0, 1e-12);
            same!("cross weight", whole(here.cross_weight, there.cross_weight), 1.0, 1e-12);
            prop_assert_eq!(here.front_share, there.front_share);
            for (a, b) in here.left_right.into_iter().zip(there.left_right) {
                prop_assert_eq!(a.expect("corners"), -b.expect("corners"));
            }
        }
    }

    /// Shares of any four readings: each between 0 and 1, opposite ones add up to 1, whatever the scale.
    #[test]
    fn shares_of_four_corners(lf in 1.0..2e3, rf in 1.0..2e3, lr in 1.0..2e3, rr in 1.0..2e3, scale in 0.1..10.0) {
        let kg = Mass::from_si;
        let car = Corners { lf: kg(lf), rf: kg(rf), lr: kg(lr), rr: kg(rr) };
        let turned = Corners { lf: kg(rr), rf: kg(lr), lr: kg(rf), rr: kg(lf) };
        let scaled = Corners { lf: kg(lf * scale), rf: kg(rf * scale), lr: kg(lr * scale), rr: kg(rr * scale) };
        for share in [weights::front_share, weights::left_share, weights::cross_weight] {
            prop_assert!((0.0..=1.0).contains(&share(&car).si()));
            same!("scaled", share(&scaled).si(), share(&car).si(), 1e-12);
        }
        same!("front and rear", weights::front_share(&car).si() + weights::front_share(&turned).si(), 1.0, 1e-12);
        same!("cross of the turned", weights::cross_weight(&turned).si(), weights::cross_weight(&car).si(), 1e-12);
    }

    // ---- the curve ---------------------------------------------------------------------------------------------

    /// Where the motion ratio does not fall with bump, force grows with travel.
    #[test]
    fn force_is_monotone(curve in any_curve(0.0..2.0), from in -0.12..0.12, by in 0.0..0.05) {
        prop_assert!(curve.force_n(from + by) >= curve.force_n(from) - 1e-6);
    }

    /// The wheel rate is the slope of the force, geometry term and all, wherever the curve has one slope.
    #[test]
    fn rate_is_the_slope_of_force(curve in any_curve(-1.5..2.0), z in -0.12..0.12) {
        const STEP_M: f64 = 1e-6;
        let rate = |z: f64| curve.rate_n_per_m(z);
        let smooth = near(rate(z - 2.0 * STEP_M), rate(z + 2.0 * STEP_M), 1e-3);
        prop_assume!(smooth);
        let slope = (curve.force_n(z + STEP_M) - curve.force_n(z - STEP_M)) / (2.0 * STEP_M);
        // Rounding of a force of some 10 kN over 2 µm: about 1e-6 N/m × 1e6; allow 1 N/m in some 10 000.
        prop_assert!((slope - rate(z)).abs() <= 1e-5 * rate(z).abs() + 1.0, "slope {slope}, rate {}", rate(z));
    }

    /// Virtual work: what the wheel puts in is what the spring stores.
    #[test]
    fn work_at_the_wheel_is_stored_in_the_spring(curve in any_curve(0.0..1.5), from in -0.10..0.0, by in 0.01..0.10_f64) {
        let curve = ForceTravel {
            parallel_rate_n_per_m: 0.0, gas_force_n: 0.0, stop: None,
            spring: Spring::Coil(Coil { solid_length_m: None, ..coil_of(&curve) }), ..curve
        };
        let stored = |z: f64| curve.spring.energy_j(curve.spring_length.length(Length::from_si(z)).si());
        // Simpson; the only kink, where the spring comes loose, costs (step)² × rate at most.
        let work_j = simpson(from, from + by, 4_000, |z| curve.force_without_stop_n(z));
        let allowed_j = 1e-9 * stored(from + by) + (by / 4_000.0).powi(2) * coil_of(&curve).rate_n_per_m;
        prop_assert!((stored(from + by) - stored(from) - work_j).abs() <= allowed_j,
            "work {work_j} J, stored {} J", stored(from + by) - stored(from));
    }

    /// Energy is the integral of force over compression, loose, linear and solid.
    #[test]
    fn energy_is_the_integral_of_force(rate in 1e3..3e5, free in 0.2..0.5, solid in 0.05..0.19, end in 0.03..0.55) {
        let spring = Spring::Coil(Coil { rate_n_per_m: rate, free_length_m: free, solid_length_m: Some(solid) });
        // Straight pieces between the kinks: Simpson is exact on each.
        let mut marks = vec![free, solid, end];
        marks.retain(|&l| l >= end && l <= free.max(end));
        marks.sort_by(|a, b| b.total_cmp(a));
        let work_j: f64 =
            marks.windows(2).map(|w| simpson(free - w[0], free - w[1], 2, |x| spring.force_n(free - x))).sum();
        prop_assert!((spring.energy_j(end) - work_j).abs() <= 1e-9 * (1.0 + work_j), "{} {work_j}", spring.energy_j(end));
        if end >= free {
            prop_assert_eq!(spring.energy_j(end), 0.0);
        }
    }

    /// The height found carries the load, and a heavier load stands lower.
    #[test]
    fn the_height_found_carries_the_load(curve in any_curve(0.0..1.5), load_kg in 150.0..500.0, more in 1.01..1.4) {
        let load = weight(Mass::from_si(load_kg));
        let Ok(found) = curve.ride_height(load) else { return Ok(()) };
        let carried_n = curve.force_n(found.travel.si());
        // 1e-10 m on the steepest slope, solid coils.
        prop_assert!((carried_n - load.si()).abs() <= 1e-10 * 1e9 + 1e-6 * load.si(), "{carried_n} of {load:?}");
        if let Ok(heavier) = curve.ride_height(load * more) {
            prop_assert!(heavier.travel >= found.travel);
        }
    }

    // ---- closed forms of a linear corner against the solved curve ----------------------------------------------

    /// drop = ΔW/k_w, spacer = ΔW/(k r), reserve = clearance · k_w/W, k_w = k r² + k_par.
    #[test]
    fn closed_forms_of_a_linear_corner(
        before_kg in 150.0..500.0, added_kg in -60.0..80.0_f64, k in 20.0..150.0_f64, r in 0.45..1.0_f64, rubber in 0.0..4.0,
        tyre in 150.0..400.0_f64,
    ) {
        let mut job = Job::default();
        let unsprung = 40.0;
        let axle = |sprung: f64| format!("{} kg", 2.0 * (sprung + unsprung));
        job.before.front = axle(before_kg).as_str().into();
        job.after.front = axle(before_kg + added_kg).as_str().into();
        job.front.unsprung = "40 kg".into();
        job.front.ratio.wheel_moved = "100 mm".into();
        job.front.ratio.part_moved = format!("{} mm", 100.0 * r).as_str().into();
        job.front.spring.rate = format!("{k} N/mm").as_str().into();
        // Any rate is meant here, however odd.
        job.front.spring.confirm = job.front.spring.rate.clone();
        job.front.spring.fitted_length = "300 mm".into();
        job.front.parallel.rate = format!("{rubber} N/mm").as_str().into();
        job.front.travel.stop_gap = "75 mm".into();
        job.front.tyre_rate = format!("{tyre} N/mm").as_str().into();
        let answer = solve(&job);
        let before = standing(&answer, Side::Front, State::Before);
        let old = standing(&answer, Side::Front, State::OldSprings);
        let spring_n = before_kg * G_M_PER_S2 / r;
        // A spring that comes loose on the way up is not linear.
        prop_assume!(!old.loose && spring_n > 0.0);
        let wheel_rate: f64 = k * 1e3 * r * r + rubber * 1e3;
        let (before_n, added_n) = (before_kg * G_M_PER_S2, added_kg * G_M_PER_S2);
        same!("wheel rate", old.wheel_rate.si(), wheel_rate, 1e-9);
        let drop_m = -old.height_change.expect("before is known").si();
        prop_assert!((drop_m - added_n / wheel_rate).abs() <= 1e-9, "drop {drop_m}, {}", added_n / wheel_rate);
        let drop_at_ground_m = -old.height_change_at_ground.expect("before is known").si();
        prop_assert!((drop_at_ground_m - added_n / wheel_rate - added_n / (tyre * 1e3)).abs() <= 1e-9);
        prop_assume!(answer.released(Side::Front).is_ok());
        let spacer = answer.released(Side::Front).expect("released").spacer.expect("the old rate is known");
        prop_assert!((spacer.thickness.si() - added_n / (k * 1e3 * r)).abs() <= 1e-9, "{:?}", spacer.thickness);
        same!("frequency on the spacer", spacer.on.frequency().si(), old.frequency.si(), 1e-9);
        same!("reserve before", before.reserve.expect("gap").si(), 0.075 * wheel_rate / before_n, 1e-6);
        let room_m = 0.075 - drop_m;
        let after_n = before_n + added_n;
        let reserve = old.reserve.expect("gap").si();
        prop_assert!((reserve - room_m * wheel_rate / after_n).abs() <= 1e-6, "{reserve}");
        let on_spacer = spacer.on.reserve().expect("gap").si();
        same!("reserve on the spacer", on_spacer, 0.075 * wheel_rate / after_n, 1e-6);
        same!("closure", before.spring_force.si(), before_n / r, 1e-6);
    }

    // ---- the file ----------------------------------------------------------------------------------------------

    /// Any job survives its file, whatever was typed into it.
    #[test]
    fn a_job_survives_its_file(AsFile(job) in any_job()) {
        // A file that is read says by which system its defaults are round.
        let mut job = job;
        job.settle_defaults();
        let text = file::text(&job).expect("a job can be written");
        let again = file::parse(&text);
        prop_assert!(again.is_ok(), "{:?} in\n{text}", again.err().map(|e| e.to_string()));
        prop_assert_eq!(again.expect("just looked"), job);
    }

    // ---- never a panic, never a number that is none ------------------------------------------------------------

    /// Whatever is typed, solving neither panics nor gives a number that is not finite.
    #[test]
    fn garbage_is_solved_without_nonsense(AsFile(job) in any_job()) {
        finite(&solve(&job))?;
    }

    /// The same with numbers in every field that are at least possible.
    #[test]
    fn possible_numbers_are_solved_without_nonsense(AsFile(job) in possible_job(false)) {
        solved_without_nonsense(&job)?;
    }

    /// The same with some numbers that can be read but lie near the ends of what a computer can hold.
    #[test]
    fn absurd_numbers_are_solved_without_nonsense(AsFile(job) in possible_job(true)) {
        solved_without_nonsense(&job)?;
    }
}

fn solved_without_nonsense(job: &Job) -> Result<(), TestCaseError> {
    let answer = solve(job);
    finite(&answer)?;
    // Corners are known only when all four can be.
    let typed =
        |e: &springwright::base::units::Entry<Mass>| e.read(job.decimal).ok().flatten().is_some_and(|m| m.si() > 0.0);
    let all = [&job.after.lf, &job.after.rf, &job.after.lr, &job.after.rr].into_iter().all(typed);
    prop_assert_eq!(answer.after.corners.is_some(), all);
    prop_assert!(answer.findings.windows(2).all(|w| w[0].level >= w[1].level));
    let nonsense =
        answer.findings.iter().find(|f| f.text.to_string().contains("NaN") || f.text.to_string().contains("inf "));
    prop_assert!(nonsense.is_none(), "{nonsense:?}");
    if answer.axles.iter().any(|a| a.overloaded) {
        prop_assert_eq!(answer.findings[0].level, Level::Stop);
    }
    Ok(())
}

/// Three rows with 1.5 mm of tape error in the last one make a motion ratio that falls so fast that the geometry term
/// F_s dr/dz (here −17 N/mm) eats the whole spring: no frequency exists. That is "not known", and it is said.
/// By hand: second difference 242 − 2·230 + 219.5 = 1.5 mm over (20 mm)², so dr/dz = −3.75 /m; F_s = 262.5 kg · g /
/// 0.5625 = 4 577 N; 42 N/mm · 0.5625² = 13.3 N/mm.
#[test]
fn a_geometry_term_that_eats_the_spring_is_said() {
    let row = |wheel: &str, length: &str| RatioRow { wheel: wheel.into(), length: length.into() };
    for rate in ["42 N/mm", "30 N/mm", "25 N/mm"] {
        let mut job = Job::default();
        (job.before.front, job.after.front) = ("595 kg".into(), "685 kg".into());
        job.front.unsprung = "35 kg".into();
        job.front.spring.rate = rate.into();
        job.front.ratio.by = RatioBy::Rows;
        job.front.ratio.rows = vec![row("-20 mm", "242 mm"), row("0 mm", "230 mm"), row("20 mm", "219.5 mm")];
        let answer = solve(&job);
        finite(&answer).expect("not known is None, never NaN");
        let said: Vec<String> = answer.findings.iter().map(|f| f.text.to_string()).collect();
        assert!(!said.iter().any(|text| text.contains("NaN")), "{said:?}");
        let doubted = answer.findings.iter().any(|f| f.level >= Level::Doubt && f.field.starts_with("front."));
        assert!(doubted, "{rate}: a spring is sized on this curve and nothing is said");
    }
}

/// Numbers that are hardly known, or hardly numbers of a vehicle: each is typed into a job that is otherwise whole.
#[test]
fn odd_numbers_give_finite_results() {
    let bag = |area: &str, volume: &str, more: &str| {
        format!(r#"bag: (fitted: Always, pressure: "1 bar", area: {area}, volume: {volume}{more})"#)
    };
    let sure = |value: &str, pm: &str| format!(r#"(text: "{value}", pm: "{pm}", spread: Standard)"#);
    let ratio = r#"ratio: (wheel_moved: "100 mm", part_moved: "65 mm")"#;
    let odd = [
        // One step down the bag has less than no area, or less than no air.
        bag(&sure("120 cm²", "121 cm²"), "\"1200 cm³\"", ""),
        bag("\"20 cm²\"", &sure("20 L", "30 L"), ""),
        // Pressed in up to the stop, its pressure is beyond what a computer can hold.
        bag(r#""380 cm²""#, r#""13 L""#, r#", exponent: "12000""#).replace("1 bar", "9 bar"),
        format!("rating: {}", sure("1000 kg", "1000 kg")),
        format!(r#"kind: Beam, spring_base: "1 m", track: {}"#, sure("1.5 m", "1.5 m")),
        format!("tyre_rate: {}", sure("200 N/mm", "300 N/mm")),
        // Thinner than calipers read.
        r#"stock: (coil: (diameter: "0.03 mm", outside_diameter: "120 mm", total_coils: "8"))"#.to_owned(),
        // The ratio falls so fast that 60 mm further down a spacer leaves nothing that pushes back: the wheel rate is
        // k r² + F dr/dz = 40 · 0.51² − 7 018 · 1.5e-3 = −0.1 N/mm there.
        r#"target: (raise: "-60 mm"), ratio: (by: Rows, rows: [(wheel: "-80 mm", length: "332.8 mm"),
           (wheel: "0 mm", length: "280 mm"), (wheel: "80 mm", length: "236.8 mm")])"#
            .to_owned(),
    ];
    let mut wrong = Vec::new();
    for odd in odd {
        let ratio = if odd.contains("ratio: (by") { "" } else { ratio };
        let text = format!(
            r#"(version: 1, job: (before: (front: "794 kg"), after: (front: "810 kg"),
               front: (spring: (rate: "40 N/mm", fitted_length: "280 mm"), travel: (stop_gap: "70 mm", metal: "90 mm"), {odd}, {ratio})))"#
        );
        let job = file::parse(&text).unwrap_or_else(|e| panic!("{e} in {text}"));
        match std::panic::catch_unwind(|| solve(&job)) {
            Ok(answer) => wrong.extend(finite(&answer).err().map(|e| format!("{odd}: {e}"))),
            Err(_) => wrong.push(format!("{odd}: panics")),
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

// ---- what the properties are made of ---------------------------------------------------------------------------

fn simpson(from: f64, to: f64, steps: usize, f: impl Fn(f64) -> f64) -> f64 {
    let width = (to - from) / steps as f64;
    (0..steps)
        .map(|i| {
            let a = from + width * i as f64;
            width / 6.0 * (f(a) + 4.0 * f(a + width / 2.0) + f(a + width))
        })
        .sum()
}

fn coil_of(curve: &ForceTravel) -> Coil {
    match curve.spring {
        Spring::Coil(coil) => coil,
        _ => panic!("a coil was put in"),
    }
}

/// A corner with everything on it; dr/dz of spring and damper from a range.
fn any_curve(slope_per_m: std::ops::Range<f64>) -> impl Strategy<Value = ForceTravel> {
    let slope =
        (-1.0..1.0).prop_map(move |t: f64| slope_per_m.start + (slope_per_m.end - slope_per_m.start) * (t + 1.0) / 2.0);
    (slope, 0.5..1.0, 20e3..200e3, 0.20..0.45, 0.0..5e3, 0.0..400.0, proptest::option::of((0.01..0.1, 0.0..300e3)))
        .prop_map(|(slope, ratio, rate, free, parallel, gas, stop)| {
            let rows = [-0.15, -0.05, 0.0, 0.08, 0.15]
                .map(|z: f64| (Length::from_si(z), Length::from_si(0.25 - ratio * z - 0.5 * slope * z * z)));
            let curve = LengthCurve::from_rows(&rows).expect("five rows");
            ForceTravel {
                spring: Spring::Coil(Coil::by_rate(SpringRate::from_si(rate), Length::from_si(free), Some(mm(120.0)))),
                spring_length: curve.clone(),
                parallel_rate_n_per_m: parallel,
                parallel_neutral_m: 0.01,
                gas_force_n: gas,
                damper_length: curve,
                helper: None,
                stop: stop.map(|(gap_m, rate)| BumpStop {
                    gap_m,
                    ratio: 0.9,
                    force: if rate > 1e5 { StopForce::Rate(rate) } else { StopForce::Unknown },
                }),
            }
        })
}

/// Text as it might arrive from a keyboard, a clipboard or a bad cable.
fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        2 => Just(String::new()),
        2 => ".{0,12}",
        1 => "[\"'\\\\\n\r\t(){}\\[\\]/*#r,.:; \u{0}\u{7f}\u{85}\u{2028}\u{feff}\u{1F600}Ω]{0,16}",
        2 => "-?[0-9]{1,6}([.,][0-9]{1,3})?( [0-9]{1,2}/[0-9]{1,2})?([eE]-?[0-9]{1,3})? ?(kg|lb|mm|in|N/mm|lb/in|Hz|%|bar|N·s/m)?",
        1 => Just("NaN kg".to_owned()),
    ]
}

/// A job with every field drawn from `entry_texts`, in file order, over and over.
fn filled(entry_texts: &[(String, u8)], texts: &[String], switches: &[bool]) -> Job {
    let mut text = texts.iter().cycle().cloned();
    let mut next_text = || text.next().unwrap_or_default();
    let on = |i: usize| switches[i % switches.len()];
    let mut job = Job {
        shop: Shop { name: next_text(), contact: next_text(), fitter: next_text(), language: next_text() },
        customer: Customer { name: next_text(), contact: next_text() },
        notes: next_text(),
        units: if on(0) { UnitChoice::pound_inch() } else { UnitChoice::metric() },
        decimal: if on(1) { DecimalMark::Comma } else { DecimalMark::Point },
        measured_at: if on(2) { MeasuredAt::After } else { MeasuredAt::Before },
        ..Job::default()
    };
    (job.vehicle.name, job.vehicle.identification, job.vehicle.change) = (next_text(), next_text(), next_text());
    (job.before.aboard, job.before.date) = (next_text(), next_text());
    (job.after.aboard, job.after.date) = (next_text(), next_text());
    // A number from 0 to 7, by three switches.
    let number = |i: usize| (0..3).fold(0, |sum, bit| 2 * sum + usize::from(on(i + bit)));
    for (i, axle) in [&mut job.front, &mut job.rear].into_iter().enumerate() {
        axle.kind = if on(3 + i) { AxleKind::Beam } else { AxleKind::Independent };
        axle.plan = if on(5 + i) { Plan::Keep } else { Plan::NewSprings };
        axle.target.goal = if on(7 + i) { Goal::AsBefore } else { Goal::Range };
        for (j, ratio) in [&mut axle.ratio, &mut axle.damper_ratio].into_iter().enumerate() {
            ratio.by =
                one_of(&[RatioBy::Moved, RatioBy::Rows, RatioBy::Number, RatioBy::Lean], number(9 + 6 * i + 3 * j));
        }
        let spring = &mut axle.spring;
        spring.kind = one_of(&SpringKind::ALL, number(21 + 3 * i));
        spring.rate_by = one_of(&[RateBy::Stated, RateBy::Wire, RateBy::Press, RateBy::Together], number(27 + 3 * i));
        spring.leaf.by = one_of(&[LeafBy::Stated, LeafBy::Test, LeafBy::Sizes], number(33 + 3 * i));
        axle.bag.fitted = one_of(&[BagFitted::No, BagFitted::Always, BagFitted::WithNew], number(39 + 3 * i));
        for (j, wire) in [&mut spring.wire, &mut axle.stock.coil].into_iter().enumerate() {
            wire.material = one_of(&Material::ALL, number(45 + 6 * i + 3 * j));
            wire.ends = one_of(&Ends::ALL, number(57 + 6 * i + 3 * j));
        }
    }
    for (i, list) in LISTS.into_iter().enumerate() {
        for (j, side) in Side::BOTH.into_iter().enumerate() {
            let rows = job.rows_mut(&format!("{}.{list}", side.key())).expect("a list of the job");
            (0..one_of(&[2, 4, 0, 5, 7], number(69 + 6 * i + 3 * j))).for_each(|_| rows.add());
        }
    }
    // What a whole vehicle carries: parts, what was aboard, load cases.
    for i in 0..one_of(&[0, 1, 3], number(12)) {
        let on = one_of(&[PartOn::Body, PartOn::FrontAxle, PartOn::RearAxle], number(15 + i));
        job.parts.push(Part {
            what: next_text(),
            way: one_of(&[Way::In, Way::Out], number(18 + i)),
            on,
            ..Part::default()
        });
    }
    for i in 0..one_of(&[0, 1, 2], number(24)) {
        let loads = vec![Load { what: next_text(), ..Load::default() }; one_of(&[1, 0, 2], number(27 + i))];
        job.cases.push(LoadCase { name: next_text(), sized: on(30 + i), loads, ..LoadCase::default() });
    }
    for (i, weighing) in [&mut job.before, &mut job.after].into_iter().enumerate() {
        weighing.loads = vec![Load::default(); one_of(&[0, 1], number(33 + i))];
    }
    let mut entry_text = entry_texts.iter().cycle();
    job.walk_mut(&mut String::new(), &mut |_, entry| {
        let (typed, more) = entry_text.next().cloned().unwrap_or_default();
        fill(entry, &typed, more);
    });
    job
}

fn one_of<T: Copy>(all: &[T], number: usize) -> T {
    all[number % all.len()]
}

/// Types a text exactly as it is; some fields get an origin, an earlier reading and a ±.
fn fill(entry: &mut dyn AnyEntry, typed: &str, more: u8) {
    let no_unit = table::find(Dim::Ratio, "").expect("the unit of plain numbers");
    entry.type_text(typed, no_unit, DecimalMark::Point);
    if more.is_multiple_of(5) {
        entry.set_origin(Some(Origin::ALL[usize::from(more) % 4]));
    }
    if more.is_multiple_of(10) {
        entry.set_origin(Some(Origin::ALL[usize::from(more / 10) % 4]));
        entry.set_pm(typed, if more > 100 { Spread::Standard } else { Spread::Limits });
    }
}

/// A job that a failing property shows as its file.
#[derive(Clone)]
struct AsFile(Job);

impl std::fmt::Debug for AsFile {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&file::text(&self.0).unwrap_or_else(|e| e.to_string()))
    }
}

/// So many that no two choices share one.
const SWITCHES: usize = 99;
/// Enough for every field of a job with seven rows in every list.
const ENTRIES: usize = 460;

fn any_job() -> impl Strategy<Value = AsFile> {
    (vec((any_text(), any::<u8>()), 61), vec(any_text(), 13), vec(any::<bool>(), SWITCHES))
        .prop_map(|(entries, texts, switches)| AsFile(filled(&entries, &texts, &switches)))
}

/// A number that the field may hold: mostly near what is usual, sometimes far off, sometimes blank.
fn possible_job(absurd: bool) -> impl Strategy<Value = AsFile> {
    let entry = (0.0..1.0, 0_u8..40, any::<u8>());
    (vec(entry, ENTRIES), vec(any::<bool>(), SWITCHES)).prop_map(move |(entries, switches)| {
        let mut job = filled(&[(String::new(), 1)], &[String::new()], &switches);
        job.decimal = DecimalMark::Point;
        let mut next = entries.iter().cycle();
        job.walk_mut(&mut String::new(), &mut |path, entry| {
            let (share, kind, more) = next.next().copied().unwrap_or_default();
            let typed = possible_text(path, entry.dim(), share, kind, absurd);
            fill(entry, &typed, more | 1);
            if more < 48 {
                // Some are less sure than they are large: one step down is then below zero.
                let spread = one_of(&["0 %", "1 %", "10 %", "60 %", "100 %", "101 %"], usize::from(more));
                entry.set_pm(spread, Spread::Standard);
            }
        });
        AsFile(job)
    })
}

fn possible_text(path: &str, dim: Dim, share: f64, kind: u8, absurd: bool) -> String {
    let usual = fields::by_path(path).and_then(|(field, _)| field.usual);
    let row = row_range(path);
    // One row that cannot be makes a whole list of no use: seldom.
    let kind = if row.is_some() && share < 0.8 { u8::MAX } else { kind };
    let (low, high) = row.filter(|_| kind != 5).or(usual).unwrap_or(match dim {
        Dim::Mass if path.ends_with("rating") => (400.0, 1_500.0),
        Dim::Mass => (20.0, 140.0),
        Dim::Length if path.contains("rows") && path.ends_with("wheel") => (-0.1, 0.1),
        Dim::Length if path.contains("raise") || path.contains("neutral") => (-0.1, 0.1),
        Dim::Length if path.ends_with("step") || path.ends_with("settle") => (1e-4, 5e-3),
        Dim::Length if path.ends_with("fitted_length") => (0.15, 0.35),
        Dim::Length if path.ends_with("free_length") => (0.25, 0.45),
        Dim::Length if path.ends_with("solid_length") => (0.05, 0.2),
        Dim::Length => (0.02, 0.4),
        Dim::SpringRate if path.contains("step") => (1e3, 20e3),
        Dim::SpringRate => (5e3, 400e3),
        Dim::DampingRate => (0.0, 10e3),
        Dim::Frequency => (0.5, 4.0),
        Dim::Ratio => (0.1, 2.0),
        Dim::Velocity => (0.0, 60.0),
        Dim::DamperSpeed => (0.0, 1.0),
        Dim::Force => (0.0, 10e3),
        Dim::Pressure => (0.0, 30e5),
        Dim::Angle => (-0.5, 0.5),
        Dim::Stress => (70e9, 220e9),
        Dim::TwistRate => (100.0, 10e3),
        Dim::Area => (20e-4, 400e-4),
        Dim::Volume => (200e-6, 20e-3),
        Dim::Time => (1.0, 60.0),
        Dim::Energy => (0.0, 5e3),
        Dim::Acceleration => (0.0, 20.0),
        Dim::RatioSlope => (-1.0, 1.5),
    });
    let coherent = match dim {
        Dim::Mass => "kg",
        Dim::Length => "m",
        Dim::SpringRate => "N/m",
        Dim::DampingRate => "N·s/m",
        Dim::Frequency => "Hz",
        Dim::Ratio => "",
        Dim::Velocity | Dim::DamperSpeed => "m/s",
        Dim::Force => "N",
        Dim::Pressure => "kPa",
        Dim::Angle => "rad",
        Dim::Stress => "psi",
        Dim::TwistRate => "N·m/rad",
        Dim::Area => "m²",
        Dim::Volume => "m³",
        Dim::Time => "s",
        Dim::Energy => "J",
        Dim::Acceleration => "m/s²",
        Dim::RatioSlope => "1/m",
    };
    let scale = match dim {
        Dim::Pressure => 1e-3,
        Dim::Stress => 1.0 / 6_894.757_293,
        _ => 1.0,
    };
    let value = (low + (high - low) * share) * scale;
    match kind {
        0 => String::new(),
        1 => format!("{:e} {coherent}", value * 1e4),
        2 => format!("{:e} {coherent}", value * 1e-4),
        3 if absurd && share < 0.1 => format!("{:e} {coherent}", value * 1e300),
        3 if absurd && share > 0.9 => format!("{:e} {coherent}", value * 1e-300),
        4 if share < 0.1 => format!("0 {coherent}"),
        6 => format!("{} {coherent}", value * 3.0),
        _ => format!("{value} {coherent}"),
    }
}

/// Rows that belong together: wheel up, spring shorter; shorter, more load; more squeeze, more load.
fn row_range(path: &str) -> Option<(f64, f64)> {
    let (list, rest) = path.split_once('[')?;
    let (row, field) = rest.split_once("].")?;
    let row: f64 = row.parse().ok()?;
    let list = list.split_once('.')?.1;
    let (low, step, spread) = match (list, field) {
        ("ratio.rows" | "damper_ratio.rows", "wheel") => (-0.08, 0.027, 0.01),
        ("ratio.rows" | "damper_ratio.rows", "length") => (0.33, -0.017, 0.012),
        ("spring.points", "length") => (0.36, -0.025, 0.012),
        ("spring.points", "load") => (0.0, 900.0, 600.0),
        ("spring.leaf.rows", "load") => (0.0, 400.0, 100.0),
        ("spring.leaf.rows", "loading") => (0.6, -0.015, 0.01),
        ("spring.leaf.rows", "unloading") => (0.59, -0.015, 0.01),
        ("stop.rows", "squeeze") => (0.0, 0.008, 0.006),
        ("stop.rows", "load") => (0.0, 500.0, 300.0),
        _ => return None,
    };
    Some((low + row * step, low + row * step + spread))
}

fn finite(answer: &Answer) -> Result<(), TestCaseError> {
    for weighed in [&answer.before, &answer.after] {
        let shares = [weighed.front_share, weighed.left_share, weighed.cross_weight];
        for share in shares.into_iter().chain(weighed.left_right).flatten() {
            prop_assert!(share.si().is_finite(), "a share of {weighed:?}");
        }
    }
    for axle in &answer.axles {
        finite_axle(axle)?;
    }
    for figure in figures(answer) {
        let numbers = figure.with.iter().map(|(_, value, _)| *value).chain(figure.si).chain(figure.u_si);
        for value in numbers {
            prop_assert!(value.is_finite(), "{}: {value} in {figure:?}", figure.key);
        }
    }
    let ratios = &answer.rear_over_front;
    let speeds = &answer.flat_ride;
    for state in State::ALL {
        prop_assert!(ratios.of(state).is_none_or(|r| r.si().is_finite()), "rear over front {ratios:?}");
        prop_assert!(speeds.of(state).is_none_or(|v| v.si().is_finite()), "flat ride {speeds:?}");
    }
    Ok(())
}

/// Every number of an axle, whatever field it stands in: what has no value is `None`, never NaN and never without end.
fn finite_axle(axle: &AxleAnswer) -> Result<(), TestCaseError> {
    let shown = format!("{axle:?}");
    let letter = |c: Option<char>| c.is_some_and(char::is_alphabetic);
    for word in ["NaN", "inf"] {
        let own =
            |i: &usize| !letter(shown[..*i].chars().next_back()) && !letter(shown[i + word.len()..].chars().next());
        let found = shown.match_indices(word).map(|(i, _)| i).find(own);
        let around =
            found.map(|i| shown[..i].chars().rev().take(300).collect::<Vec<_>>().into_iter().rev().collect::<String>());
        prop_assert!(found.is_none(), "{:?}: ...{} {word}", axle.side, around.unwrap_or_default());
    }
    Ok(())
}

/// A damper ratio that is only half typed costs the damper's answer, not the spring's.
#[test]
fn a_half_typed_damper_ratio_leaves_the_spring_answer() {
    let mut job = springwright::shop::presets::demo();
    let whole = solve(&job);
    job.front.damper_ratio = springwright::job::MotionRatio { wheel_moved: "75 mm".into(), ..Default::default() };
    let half = solve(&job);
    assert_eq!(half.axles.front.sizing, whole.axles.front.sizing);
    assert!(whole.axles.front.damping.is_some() && half.axles.front.damping.is_none());
    assert_eq!(half.axles.front.damper_motion_ratio, None);
}
