//! Is a ± true? Virtual vehicles are measured as a shop would, each reading off by its own law; the springs that the
//! answer orders are bought inside their tolerance and fitted to the vehicle as it truly is; what then stands there is
//! held against what was predicted of it.
//!
//! The sampling law: true sizes are drawn evenly ± 8 % about those of a base vehicle, the true change of the motion ratio
//! evenly inside the suspension's limits. Each reading is the true value and an error of its stated ±: normal for a
//! standard uncertainty, rectangular for a limit. Rows of a table also err by what nobody states, a wheel that has not
//! settled on its block, a tape off the spring's axis, a bush that gives: in every other vehicle as much again as is stated
//! ([`Unseen`]). Half of a beam axle is hardly ever weighed: 80 kg to a tenth. The rate of what is bought is drawn evenly
//! ± 5 %, its length ± 3 mm, its settling ± half of the allowance. Vehicles are invented; the answer as fitted is worked out here from the true curve and
//! the spring that was bought, past all that follows a ±.
//!
//! Two figures for each result: the root mean square of (true − predicted) ÷ u, and how often it lies within 2 u.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use rand_distr::{Distribution, StandardNormal, Uniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng;
use springwright::base::units::entry::AnyEntry;
use springwright::base::units::{DecimalMark, Length, Quantity, Spread, table, weight};
use springwright::job::{AxleKind, Job, RatioBy, Side, SpringKind, Walk, file};
use springwright::solve::answer::{Answer, AxleAnswer};
use springwright::solve::solve;
use springwright::trade::damper;
use springwright::trade::ride;
use springwright::trade::spring::{Bar, Leaf, Spring, Stack, TorsionBar};
use springwright::trade::wheel::ForceTravel;

/// Vehicles of each kind in the full run (`cargo test --features gui-test --test long coverage:: -- --ignored --nocapture`).
const FULL: usize = 2_000;
/// Vehicles of each kind in every run.
const QUICK: usize = 200;

/// What every vehicle has: weights, travel, dampers. Each ± is stated.
const COMMON: &str = r#"
    unsprung: (text: "40 kg", pm: "2 kg", spread: Standard),
    damper_ratio: (by: Moved, wheel_moved: "100 mm", part_moved: (text: "68 mm", pm: "1 mm")),
    travel: (stop_gap: (text: "60 mm", pm: "2 mm"), metal: "90 mm", droop: "80 mm"),
    parallel: (rate: (text: "1 N/mm", pm: "0.5 N/mm")),
    damper: (bump_rate: (text: "1500 N·s/m", pm: "60 N·s/m", spread: Standard),
             rebound_rate: (text: "3000 N·s/m", pm: "120 N·s/m", spread: Standard)),
    target: (low: "1.15 Hz", high: "1.35 Hz"), stock: (step: "2 N/mm", settle: "3 mm"), suspension: TwoArms,
"#;
/// The unsprung mass of a wheel that is guided by itself, and of half a beam axle.
const LIGHT: &str = r#"unsprung: (text: "40 kg", pm: "2 kg", spread: Standard)"#;
const HEAVY: &str = r#"unsprung: (text: "80 kg", pm: "8 kg", spread: Standard)"#;
/// A ratio by two lengths.
const MOVED: &str = r#"ratio: (by: Moved, wheel_moved: "100 mm", part_moved: (text: "62 mm", pm: "1 mm")),"#;
const FITTED: &str = r#"fitted_length: (text: "250 mm", pm: "1 mm", spread: Standard)"#;

/// Each kind: its name, when it was measured, and what it has beside [`COMMON`].
fn kinds() -> Vec<(&'static str, &'static str, String)> {
    let coil = format!(r#"{MOVED} spring: (rate: (text: "52 N/mm", pm: "1 N/mm", spread: Standard), {FITTED}),"#);
    let rows: Vec<String> = [
        ("-75", "296.9"),
        ("-50", "281.3"),
        ("-25", "265.7"),
        ("0", "250"),
        ("25", "234.4"),
        ("50", "218.6"),
        ("75", "202.9"),
    ]
    .map(|(z, l)| format!(r#"(wheel: "{z} mm", length: (text: "{l} mm", pm: "0.5 mm", spread: Standard))"#))
    .to_vec();
    let points: Vec<String> =
        [("380", "0"), ("340", "1000"), ("300", "2900"), ("260", "5300"), ("220", "8000"), ("180", "11000")]
            .map(|(l, f)| match f {
                "0" => format!(r#"(length: "{l} mm", load: "0 N")"#),
                _ => format!(r#"(length: "{l} mm", load: (text: "{f} N", pm: "50 N"))"#),
            })
            .to_vec();
    vec![
        ("coil", "Before", coil.clone()),
        ("coil, measured after", "After", coil),
        ("coil, ratio by rows", "Before", format!(
            r#"ratio: (by: Rows, rows: [{}]), spring: (rate: (text: "52 N/mm", pm: "1 N/mm"), {FITTED}),"#, rows.join(", "))),
        ("coil spring with helper spring", "Before", format!(
            r#"{MOVED} spring: (kind: WithHelper, rate: (text: "52 N/mm", pm: "1 N/mm"), {FITTED}, helper: (rate: (text: "20 N/mm", pm: "1 N/mm"),
               free_length: (text: "60 mm", pm: "1 mm"), solid_length: (text: "20 mm", pm: "1 mm"))),"#)),
        ("progressive", "Before", format!(
            r#"{MOVED} spring: (kind: Progressive, {FITTED}, points: [{}]),"#, points.join(", "))),
        ("torsion bar", "Before",
            r#"spring: (kind: TorsionBar, bar: (diameter: (text: "26 mm", pm: "0.1 mm"), length: (text: "1000 mm", pm: "5 mm"),
               arm: (text: "340 mm", pm: "3 mm"), angle: (text: "5°", pm: "1°"), shear_modulus: (text: "79.3 GPa", pm: "1 GPa"))),"#.to_owned()),
        ("leaf", "Before",
            r#"kind: Beam, spring: (kind: Leaf, rate: (text: "22 N/mm", pm: "1 N/mm", spread: Standard),
               fitted_length: (text: "150 mm", pm: "1 mm")),"#.to_owned()),
    ]
}

fn base(measured_at: &str, own: &str) -> Job {
    let common = if own.contains("kind: Beam") {
        // 60 to 130 kg is usual, common practice, no source; default ± of a guess a tenth or so.
        COMMON.replace("suspension: TwoArms", "suspension: Beam").replace(LIGHT, HEAVY)
    } else {
        COMMON.to_owned()
    };
    let weighed = |kg: [u32; 2]| {
        let [l, r] = kg.map(|kg| format!(r#"(text: "{kg} kg", pm: "2 kg")"#));
        format!("lf: {l}, rf: {r}, lr: \"300 kg\", rr: \"300 kg\"")
    };
    let text = format!(
        "(version: 1, job: (before: ({}), after: ({}), measured_at: {measured_at}, front: ({common} {own})))",
        weighed([400, 395]),
        weighed([450, 440])
    );
    let mut job = file::parse(&text).unwrap_or_else(|e| panic!("{e} in {text}"));
    // What states no ± here is exact; only settling takes the usual one.
    job.walk_mut(&mut String::new(), &mut |path, entry| {
        if !entry.text().is_empty() && entry.pm().0.is_empty() && !path.ends_with("stock.settle") {
            entry.set_pm(EXACT, Spread::Standard);
        }
    });
    job
}

const EXACT: &str = "0 %";

/// It is read off the vehicle, with an error.
fn is_read(entry: &dyn AnyEntry) -> bool {
    !entry.text().is_empty() && !matches!(entry.pm().0, "" | EXACT)
}

struct Dice(Xoshiro256PlusPlus);

impl Dice {
    /// Evenly −1 to 1.
    fn even(&mut self) -> f64 {
        Uniform::new_inclusive(-1.0, 1.0).expect("a range").sample(&mut self.0)
    }

    /// Of standard deviation 1.
    fn of(&mut self, spread: Spread) -> f64 {
        match spread {
            Spread::Standard => StandardNormal.sample(&mut self.0),
            Spread::Limits => 3.0_f64.sqrt() * self.even(),
        }
    }
}

/// Types a value in full.
fn set(entry: &mut dyn AnyEntry, si: f64) {
    let unit = table::of(entry.dim()).next().expect("a unit");
    entry.type_text(&format!("{:.12}", si / unit.si), unit, DecimalMark::Point);
}

fn at<'a>(job: &'a mut Job, path: &str) -> &'a mut dyn AnyEntry {
    job.at_mut(path).unwrap_or_else(|| panic!("no field {path}"))
}

fn si(entry: &dyn AnyEntry) -> f64 {
    entry.number(DecimalMark::Point).expect("a number").expect("typed").si()
}

/// The true vehicle: every size that has a ± moved by up to 8 %, and a change of its ratio that nobody measures.
fn true_vehicle(base: &Job, dice: &mut Dice) -> Job {
    let mut job = base.clone();
    job.walk_mut(&mut String::new(), &mut |path, entry| {
        if !is_read(entry) {
            return;
        }
        // Rows and points are one curve: they are moved together, by their scale alone.
        let share = if path.contains('[') { 0.0 } else { 0.08 * dice.even() };
        let moved = si(entry) * (1.0 + share);
        set(entry, moved);
    });
    for ratio in ["ratio", "damper_ratio"] {
        let axle = &job.front;
        let by = if ratio == "ratio" { axle.ratio.by } else { axle.damper_ratio.by };
        if by != RatioBy::Rows && axle.kind == AxleKind::Independent {
            set(at(&mut job, &format!("front.{ratio}.slope")), 0.3 * dice.even());
        }
    }
    let exact = &mut |_: &str, entry: &mut dyn AnyEntry| entry.set_pm(EXACT, Spread::Standard);
    job.walk_mut(&mut String::new(), exact);
    job
}

/// How far rows are off beside what is stated of them, as a share of that.
#[derive(Clone, Copy)]
enum Unseen {
    /// Nothing, or as much again, as often.
    Shop,
    /// Nothing.
    Nothing,
}

/// The same as a shop reads it: what it states a ± for is off by that law; what it cannot know is blank.
fn measured(base: &Job, truth: &mut Job, unseen: Unseen, dice: &mut Dice) -> Job {
    let mut job = base.clone();
    let share = match unseen {
        Unseen::Shop if base.front.ratio.by == RatioBy::Rows && dice.even() > 0.0 => 1.0,
        _ => 0.0,
    };
    job.walk_mut(&mut String::new(), &mut |path, entry| {
        if !is_read(entry) {
            return;
        }
        let true_si = si(at(truth, path));
        let u_si = entry.stated_si(true_si, DecimalMark::Point).expect("a ±");
        let spread = entry.pm().1;
        let unseen = if share > 0.0 && path.contains(".rows[") { share * dice.of(Spread::Standard) } else { 0.0 };
        set(entry, true_si + u_si * (dice.of(spread) + unseen));
    });
    job
}

/// The springs as bought, fitted to the true vehicle: its curve with them.
fn fitted(truth: &Answer, ordered: &Answer, dice: &mut Dice) -> Option<ForceTravel> {
    let picked = |a: &Answer| Some(a.released(Side::Front).ok()?.spring?.bar?.pick.si());
    let bars = picked(ordered).zip(picked(truth));
    let [truth, ordered] = [truth, ordered].map(|a| a.axle(Side::Front));
    let curve = &truth.standing.new.as_ref()?.curve;
    let (factor, settles_more_m) = (1.0 + 0.05 * dice.even(), 0.5 * 3e-3 * dice.even());
    let settles_more_m = if truth.kind.is_coil() { settles_more_m } else { 0.0 };
    let longer = Length::from_si(3e-3 * dice.even() - settles_more_m);
    let bought = match (&ordered.standing.new.as_ref()?.curve.spring, &curve.spring) {
        (Spring::Stack(ordered), Spring::Stack(true_)) => Spring::Stack(Stack { main: ordered.main, ..*true_ }),
        // The bar of the diameter ordered, set as ordered; arm, length and steel are as they truly are.
        (Spring::Bar(bar), Spring::Bar(true_)) => {
            let (ordered, picked) = bars?;
            let fourth =
                |d: f64| Bar { diameter_m: d, inside_m: 0.0, length_m: 1.0, shear_modulus_pa: 1.0 }.twist_rate().si();
            let twist_rate_nm_per_rad = true_.twist_rate_nm_per_rad * fourth(ordered) / fourth(picked);
            Spring::Bar(TorsionBar { twist_rate_nm_per_rad, free_angle_rad: bar.free_angle_rad, ..*true_ })
        }
        (Spring::Leaf(leaf), _) => Spring::Leaf(Leaf { ..*leaf }),
        (ordered, _) => ordered.clone(),
    };
    Some(ForceTravel { spring: bought.times(factor).longer_by(longer), ..curve.clone() })
}

/// Frequency, height against before, reserve, damping ratio.
const RESULTS: [&str; 4] = ["frequency", "height", "reserve", "damping ratio"];

fn foretold(a: &AxleAnswer) -> [Option<f64>; 4] {
    let Some(new) = a.standing.new.as_ref() else { return [None; 4] };
    [
        Some(new.frequency.si()),
        new.height_change.map(Quantity::si),
        new.reserve.map(Quantity::si),
        new.old_damper_ratio.map(Quantity::si),
    ]
}

/// The same as it truly is.
fn found(truth: &AxleAnswer, curve: &ForceTravel) -> Option<[f64; 4]> {
    let sprung = truth.masses.sprung.after?;
    let stands = curve.ride_height(weight(sprung)).ok()?;
    let at_wheel = truth.old_damper.as_ref()?.at_wheel(curve, stands.travel);
    Some([
        ride::frequency(stands.wheel_rate, sprung).si(),
        (truth.standing.before.as_ref()?.travel - stands.travel).si(),
        ride::reserve(curve.force_at_contact()?, weight(sprung))?.si(),
        damper::damping_ratio(at_wheel, stands.wheel_rate, sprung).si(),
    ])
}

/// Error over u of each result.
fn one_vehicle(base: &Job, dice: &mut Dice) -> Option<[f64; 4]> {
    let mut truth = true_vehicle(base, dice);
    let shop = measured(base, &mut truth, Unseen::Shop, dice);
    let (true_answer, answer): (Answer, Answer) = (solve(&truth), solve(&shop));
    let front = answer.axle(Side::Front);
    let curve = fitted(&true_answer, &answer, dice)?;
    let found = found(true_answer.axle(Side::Front), &curve)?;
    let told = foretold(front);
    let mut off = [0.0; 4];
    for i in 0..4 {
        let u = answer.checked(Side::Front).nudged.u_of(|a| foretold(a)[i])?;
        off[i] = (found[i] - told[i]?) / u;
    }
    Some(off)
}

/// Root mean square of error ÷ u, and share within 2 u, for each result.
fn coverage(base: &Job, count: usize, seed: u64) -> [(f64, f64); 4] {
    let mut dice = Dice(Xoshiro256PlusPlus::seed_from_u64(seed));
    let all: Vec<[f64; 4]> = (0..count).filter_map(|_| one_vehicle(base, &mut dice)).collect();
    assert!(all.len() > count * 99 / 100, "{} of {count} vehicles were solved", all.len());
    let n = all.len() as f64;
    std::array::from_fn(|i| {
        let squares: f64 = all.iter().map(|off| off[i] * off[i]).sum();
        let inside = all.iter().filter(|off| off[i].abs() <= 2.0).count() as f64;
        ((squares / n).sqrt(), inside / n)
    })
}

/// `count` vehicles of each kind whose name contains a word: rms inside 0.93 to 1.07 and 93 to 98 % within 2 u, each with
/// so much for sampling.
fn hold(word: &str, count: usize, sampling: [f64; 2]) {
    let mut wrong = Vec::new();
    for (name, measured_at, own) in kinds().into_iter().filter(|(name, ..)| name.contains(word)) {
        let found = coverage(&base(measured_at, &own), count, 7);
        for (what, (rms, inside)) in RESULTS.iter().zip(found) {
            let line = format!("{name}, {what}: rms {rms:.3}, within 2 u {:.1} %", 100.0 * inside);
            println!("{line}");
            let rms_ok = (0.93 - sampling[0]..=1.07 + sampling[0]).contains(&rms);
            if !(rms_ok && (0.93 - sampling[1]..=0.98 + sampling[1]).contains(&inside)) {
                wrong.push(line);
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Three standard deviations of the sampling: of an rms 3/√(2 n), of a share 3 √(0.05 · 0.95/n).
#[test]
fn a_spread_is_true() {
    let n = QUICK as f64;
    hold("", QUICK, [3.0 / (2.0 * n).sqrt(), 3.0 * (0.05 * 0.95 / n).sqrt()]);
}

/// By hand: `cargo test --features gui-test --test long coverage:: -- --ignored --nocapture`; of one kind alone with `KIND=leaf`.
#[test]
#[ignore = "some minutes without optimisation"]
fn a_spread_is_true_of_2000_vehicles_of_each_kind() {
    hold(&std::env::var("KIND").unwrap_or_default(), FULL, [0.0, 0.0]);
}

/// Why rows err by more than they state in the law above: where they err by exactly that, the larger of what they state and
/// how they scatter is too much. With t Student's factor for ν = 4 (1.1416) and χ² the scatter's, the mean of (stated ÷ u)²
/// is P(χ² < x) + 2 e^(−x/2) ÷ t², x = 4 ÷ t² (DERIVED): 0.784, an rms of 0.886.
#[test]
fn rows_that_err_as_they_state_are_said_to_be_less_sure() {
    let t_squared: f64 = 1.141_6 * 1.141_6;
    let x = 4.0 / t_squared;
    let expected = 1.0 - (1.0 + 0.5 * x) * (-0.5 * x).exp() + 2.0 * (-0.5 * x).exp() / t_squared;
    let (_, measured_at, own) = kinds().into_iter().find(|k| k.0.contains("rows")).expect("a kind by rows");
    let base = base(measured_at, &own);
    let u_of =
        |job: &Job| solve(job).checked(Side::Front).nudged.u_of(|a| a.motion_ratio.map(Quantity::si)).expect("a ±");
    let stated = u_of(&base);
    let mut dice = Dice(Xoshiro256PlusPlus::seed_from_u64(11));
    let all: Vec<f64> = (0..QUICK)
        .map(|_| (stated / u_of(&measured(&base, &mut base.clone(), Unseen::Nothing, &mut dice))).powi(2))
        .collect();
    let mean = all.iter().sum::<f64>() / all.len() as f64;
    // Three standard deviations of such a mean, each between 0 and 1 about 0.3 apart; and a few tables that ask for a cubic.
    assert!((mean - expected).abs() < 3.0 * 0.3 / (QUICK as f64).sqrt() + 0.02, "{mean:.3}, {expected:.3} expected");
}

/// Every kind of spring is looked at.
#[test]
fn every_kind_is_there() {
    let all: Vec<SpringKind> = kinds().iter().map(|(_, at, own)| base(at, own).front.spring.kind).collect();
    assert!(SpringKind::ALL.iter().all(|kind| all.contains(kind)), "{all:?}");
}
