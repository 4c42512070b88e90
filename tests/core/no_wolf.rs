//! No crying wolf and no silence: what is outside only by its ± is not said, what was so before is said as such, what is
//! not determined, not measured or assumed is said to be.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::f64::consts::PI;

use proptest::prelude::*;
use springwright::base::units::entry::AnyEntry;
use springwright::base::units::{Dim, Entry, Origin, Quantity, UnitChoice, choice, display, table};
use springwright::job::fields::FIELDS;
use springwright::job::{Job, Level, LoadCase, Side, Walk};
use springwright::report::results;
use springwright::report::sections::sentence;
use springwright::report::sheets::Kind;
use springwright::report::sheets::sheet as full;
use springwright::report::write::json;
use springwright::report::write::text::{self, Markup};
use springwright::solve::answer::Answer;
use springwright::solve::solve;
use springwright::trade::road::weighting::{self, mtvv};

use crate::common::effort::some;
use crate::common::kept;
use crate::common::sheets;
use sheets::{plain, preset, sheet};

fn has(answer: &Answer, rule: &str) -> Option<(Level, String)> {
    answer.findings.iter().find(|f| f.rule == rule).map(|f| (f.level, f.text.to_string()))
}

fn entry<Q>(text: String) -> Entry<Q> {
    Entry::from(text.as_str())
}

// ---- edges -----------------------------------------------------------------------------------------------------

/// A limit of a job, to be typed in SI.
type SetLimit = fn(&mut Job, f64);
/// The result that it limits, with its standard uncertainty.
type Limited = fn(&Answer) -> Option<(f64, f64)>;

fn unsprung_share(answer: &Answer) -> Option<(f64, f64)> {
    let share = |a: &springwright::solve::answer::AxleAnswer| {
        let (unsprung, sprung) = (a.masses.unsprung.after?.si(), a.masses.sprung.after?.si());
        Some(unsprung / (unsprung + sprung))
    };
    Some((share(answer.axle(Side::Front))?, answer.checked(Side::Front).nudged.u_of(share)?))
}

/// Each limit set below or above its result by half a ± is not said; by two ± it is.
#[test]
fn outside_is_said_only_beyond_the_uncertainty() {
    let cases: [(&str, bool, SetLimit, Limited); 7] = [
        (
            "rear-front",
            true,
            |j, v| j.limits.rear_front_high = entry(format!("{v}")),
            |a| Some((a.rear_over_front.new?.si(), a.moved.u_of(|v| v.rear_over_front.new.map(Quantity::si))?)),
        ),
        (
            "rear-front",
            false,
            |j, v| j.limits.rear_front_low = entry(format!("{v}")),
            |a| Some((a.rear_over_front.new?.si(), a.moved.u_of(|v| v.rear_over_front.new.map(Quantity::si))?)),
        ),
        (
            "left-right",
            true,
            |j, v| j.limits.left_right = entry(format!("{v}")),
            |a| {
                let of = |w: &springwright::solve::answer::Weighed| w.left_right.rear.map(|s| s.si().abs());
                Some((of(&a.after)?, a.moved.u_of(|v| of(&v.after))?))
            },
        ),
        ("unsprung-share", true, |j, v| j.limits.unsprung_independent = entry(format!("{v}")), unsprung_share),
        (
            "frequency",
            true,
            |j, v| j.limits.frequency_high = entry(format!("{v} Hz")),
            |a| {
                let of = |a: &springwright::solve::answer::AxleAnswer| Some(a.standing.before.as_ref()?.frequency.si());
                Some((of(a.axle(Side::Front))?, a.checked(Side::Front).nudged.u_of(of)?))
            },
        ),
        (
            "frequency",
            false,
            |j, v| j.limits.frequency_low = entry(format!("{v} Hz")),
            |a| {
                let of = |a: &springwright::solve::answer::AxleAnswer| Some(a.standing.before.as_ref()?.frequency.si());
                Some((of(a.axle(Side::Front))?, a.checked(Side::Front).nudged.u_of(of)?))
            },
        ),
        (
            "seat",
            false,
            |j, v| j.limits.seat_room = entry(format!("{v} m")),
            |a| {
                let of = |a: &springwright::solve::answer::AxleAnswer| a.room.seat.map(Quantity::si);
                Some((of(a.axle(Side::Front))?, a.checked(Side::Front).nudged.u_of(of)?))
            },
        ),
    ];
    for (rule, is_above, set, limited) in cases {
        let (job, answer) = preset("demo-orchard-van");
        let (value, u) = limited(&answer).expect("a result with its ±");
        assert!(u > 0.0, "{rule}: ± {u}");
        let found = |by_u: f64| {
            let mut job = job.clone();
            set(&mut job, if is_above { value - by_u * u } else { value + by_u * u });
            is_met(&job, rule)
        };
        assert!(!found(0.5), "{rule}: {value} ± {u}, outside by half of its ±");
        assert!(found(2.0), "{rule}: {value} ± {u}, outside by twice its ±");
    }
}

/// The rule is met where the limit was set.
fn is_met(job: &Job, rule: &str) -> bool {
    let at = match rule {
        "left-right" => "after.lr",
        "rear-front" => "rear.",
        _ => "front.",
    };
    solve(job).findings.iter().any(|f| f.rule == rule && f.field.starts_with(at))
}

/// A typed value just outside what is usual, by less than it can be read, is not asked about.
#[test]
fn a_value_is_unusual_only_beyond_its_uncertainty() {
    let (job, _) = preset("demo-orchard-van");
    let asked = |text: &str, pm: &str| {
        let mut job = job.clone();
        job.front.track = text.into();
        job.front.track.set_pm(pm, springwright::base::units::Spread::Standard);
        solve(&job).findings.iter().any(|f| f.rule == "unusual" && f.field == "front.track")
    };
    let (_, high) = FIELDS.iter().find(|f| f.key == "track").and_then(|f| f.usual).expect("a usual range");
    let over = format!("{} mm", 1e3 * high + 10.0);
    assert!(asked(&over, "1 mm") && !asked(&over, "20 mm"));
}

/// What was outside before the swap, in the same way, is a note that says so.
#[test]
fn what_was_so_before_is_said_as_before() {
    let (mut job, answer) = preset("demo-orchard-van");
    let ratio = answer.rear_over_front;
    let least = ratio.before.expect("weighed before").si().min(ratio.new.expect("new").si());
    job.limits.rear_front_high = entry(format!("{}", 0.7 * least));
    let (level, said) = has(&solve(&job), "rear-front").expect("far outside");
    assert!(level == Level::Note && said.ends_with("This was already the case before the change."), "{said}");
    // Without weights before nothing is known of it.
    job.before = Default::default();
    let (level, said) = has(&solve(&job), "rear-front").expect("far outside");
    assert!(level == Level::Doubt && !said.contains("This was already the case before the change"), "{said}");
}

// ---- not determined --------------------------------------------------------------------------------------------

/// Where front and rear are nearly alike, the flat-ride speed hangs on a small difference: it is not told; JSON keeps it.
#[test]
fn a_flat_ride_speed_that_hangs_on_a_small_difference_is_not_determined() {
    let (mut open, mut told) = (0, 0);
    for shipped in kept::shipped() {
        let (job, answer) = (&shipped.job, shipped.answer());
        let page = plain(shipped.sheet(Kind::Full));
        let value = json::value(job, answer);
        for f in results::figures(answer).iter().filter(|f| f.key.starts_with("whole.flat_ride_speed")) {
            let Some((v, u)) = f.si.zip(f.u_si) else { continue };
            let result = value["results"].as_array().expect("a list").iter().find(|r| r["key"] == f.key.as_str());
            let result = result.expect("in the results");
            assert_eq!(result["value"].as_f64().zip(result["u"].as_f64()), Some((v, u)));
            let said = display::rounded_with_u(v, Some(u), Dim::Velocity, &job.units);
            if 3.0 * u > v {
                open += 1;
                assert!(result["note"].as_str().is_some_and(|n| n.starts_with("Not determined")), "{result}");
                assert!(page.contains("not determined") && !page.contains(&said), "{}: {said}", shipped.name);
            } else {
                told += usize::from(page.contains(&said));
                assert!(result["note"].is_null());
            }
        }
    }
    assert!(open > 0 && told > 0, "{open} not determined, {told} told");
}

// ---- comfort over one obstacle ---------------------------------------------------------------------------------

/// One pole pair and up to two zeros, s-domain: (b2 s² + b1 s + b0) / (a2 s² + a1 s + a0), as difference equation by the
/// bilinear transform.
struct Section {
    b: [f64; 3],
    a: [f64; 3],
    x: [f64; 2],
    y: [f64; 2],
}

impl Section {
    fn new([b2, b1, b0]: [f64; 3], [a2, a1, a0]: [f64; 3], rate_hz: f64) -> Section {
        let c = 2.0 * rate_hz;
        let through = |p2: f64, p1: f64, p0: f64| {
            [p2 * c * c + p1 * c + p0, 2.0 * p0 - 2.0 * p2 * c * c, p2 * c * c - p1 * c + p0]
        };
        Section { b: through(b2, b1, b0), a: through(a2, a1, a0), x: [0.0; 2], y: [0.0; 2] }
    }

    fn step(&mut self, x: f64) -> f64 {
        let y = (self.b[0] * x + self.b[1] * self.x[0] + self.b[2] * self.x[1]
            - self.a[1] * self.y[0]
            - self.a[2] * self.y[1])
            / self.a[0];
        (self.x, self.y) = ([x, self.x[0]], [y, self.y[0]]);
        y
    }
}

/// W_k as recursive filters at a high rate, and the largest running rms over 1 s: no Fourier transform in it.
/// DERIVED from the same parameters (ISO 2631-1:1997, annex A, as public texts quote them).
fn mtvv_by_recursion(signal: impl Fn(f64) -> f64, lasts_s: f64) -> f64 {
    const RATE_HZ: f64 = 8192.0;
    let w = |hz: f64| 2.0 * PI * hz;
    let (w1, w2, w3, w4, w5, w6) = (w(0.4), w(100.0), w(12.5), w(12.5), w(2.37), w(3.35));
    let root2 = 2.0_f64.sqrt();
    let mut filters = [
        Section::new([1.0, 0.0, 0.0], [1.0, root2 * w1, w1 * w1], RATE_HZ),
        Section::new([0.0, 0.0, w2 * w2], [1.0, root2 * w2, w2 * w2], RATE_HZ),
        Section::new([0.0, w4 * w4 / w3, w4 * w4], [1.0, w4 / 0.63, w4 * w4], RATE_HZ),
        Section::new([1.0, w5 / 0.91, w5 * w5], [1.0, w6 / 0.91, w6 * w6], RATE_HZ),
    ];
    let count = (lasts_s * RATE_HZ) as usize;
    let weighted: Vec<f64> =
        (0..count).map(|i| filters.iter_mut().fold(signal(i as f64 / RATE_HZ), |x, filter| filter.step(x))).collect();
    let window = RATE_HZ as usize;
    let squares = |from: usize, to: usize| weighted[from..to].iter().map(|a| a * a).sum::<f64>();
    (1..=count)
        .step_by(16)
        .map(|to| (squares(to.saturating_sub(window), to) / window as f64).sqrt())
        .fold(0.0, f64::max)
}

const EVERY_S: f64 = 1.0 / 256.0;

fn sampled(signal: impl Fn(f64) -> f64, lasts_s: f64) -> Vec<f64> {
    (0..(lasts_s / EVERY_S) as usize).map(|i| signal(i as f64 * EVERY_S)).collect()
}

/// A body thrown up and falling back: one and a half periods of a sine that rises and falls smoothly.
fn thrown(hz: f64) -> impl Fn(f64) -> f64 {
    move |t: f64| {
        let lasts_s = 1.5 / hz;
        let share = (t - 0.5) / lasts_s;
        if (0.0..1.0).contains(&share) {
            3.0 * (2.0 * PI * hz * (t - 0.5)).sin() * (PI * share).sin().powi(2)
        } else {
            0.0
        }
    }
}

#[test]
fn mtvv_is_that_of_recursive_filters() {
    for hz in [1.2, 2.5, 6.0, 11.0] {
        let signal = thrown(hz);
        let (got, want) = (mtvv(&sampled(&signal, 6.0), EVERY_S).si(), mtvv_by_recursion(&signal, 6.0));
        assert!((got / want - 1.0).abs() < 2e-3, "{hz} Hz: {got} against {want}");
    }
}

/// DERIVED: a sine that lasts has a running rms of amplitude · |W_k| / √2 over whole periods.
#[test]
fn mtvv_of_a_steady_sine_is_its_weighted_rms() {
    let hz = 4.0;
    let signal = |t: f64| 2.0 * (t / 8.0).min(1.0) * (2.0 * PI * hz * t).sin();
    let gain = weighting::gain(springwright::base::units::Frequency::from_si(hz)).si();
    let got = mtvv(&sampled(signal, 20.0), EVERY_S).si();
    assert!((got / (2.0 * gain / 2.0_f64.sqrt()) - 1.0).abs() < 1e-4, "{got}");
}

/// The road behind an obstacle does not soften it: that is why it is not the rms.
#[test]
fn a_longer_road_behind_a_hump_changes_no_mtvv() {
    let signal = thrown(2.0);
    let (short, long) = (sampled(&signal, 4.0), sampled(&signal, 40.0));
    let [a, b] = [&short, &long].map(|s| mtvv(s, EVERY_S).si());
    assert!((a - b).abs() < 1e-6 * a, "{a} {b}");
    let [a, b] = [&short, &long].map(|s| weighting::weighted_rms(s, EVERY_S).si());
    assert!(b < 0.4 * a, "the rms falls with the length: {a} {b}");
}

/// Runs over hump and pothole tell the MTVV, the rough road the rms with its bands.
#[test]
fn runs_tell_an_obstacle_by_its_mtvv() {
    let (job, answer) = preset("demo-orchard-van");
    let driven = springwright::solve::road::drive(&job, &answer, |_| true);
    let value = springwright::report::sections::road_tables::json(&job, &driven);
    for run in value["runs"].as_array().expect("runs") {
        let key = run["key"].as_str().expect("a key");
        let by = if key.starts_with("runs.rough.") { "rms" } else { "mtvv" };
        assert_eq!(run["weighted_by"], by, "{run}");
        assert_eq!(run["felt"].as_array().expect("a list").is_empty(), by == "mtvv", "{run}");
        let felt = value["results"].as_array().expect("results").iter().find(|r| r["key"] == format!("{key}.weighted"));
        assert!(felt.and_then(|r| r["value"].as_f64()).is_some_and(|a| a > 0.0), "{run}");
    }
    let said = plain(&springwright::report::sections::road_tables::build(&job, &answer, &driven));
    assert!(said.contains("largest over 1 s (MTVV)") && said.contains("m/s² rms, "), "{said}");
}

// ---- assumed, measured, weighed --------------------------------------------------------------------------------

fn certainty(job: &Job) -> String {
    let answer = solve(job);
    sentence::axle(&answer, answer.axle(Side::Front), &job.units).certainty
}

/// Every blank that counts typed as measured: only then is all from measurements.
#[test]
fn all_from_your_measurements_only_when_it_is() {
    let (mut job, answer) = preset("demo-orchard-van");
    for used in answer.defaults.iter().filter(|d| d.si.is_some()) {
        let blank = job.at_mut(&used.path).expect("a field");
        let unit = table::of(blank.dim()).next().expect("a unit");
        let si = used.si.expect("a number");
        blank.type_text(
            &format!("{} {}", si / unit.si, unit.symbol),
            unit,
            springwright::base::units::DecimalMark::Point,
        );
    }
    job.walk_mut(&mut String::new(), &mut |_, entry| {
        if !entry.text().is_empty() {
            entry.set_origin(Some(Origin::Measured));
        }
    });
    let said = certainty(&job);
    assert!(said.contains("All from your measurements."), "{said}");
    job.front.spring.rate.set_origin(Some(Origin::Quoted));
    let said = certainty(&job);
    assert!(
        !said.contains("All from your") && said.contains("1 value not measured: old spring rate (quoted)."),
        "{said}"
    );
    job.front.unsprung = Default::default();
    let said = certainty(&job);
    assert!(said.contains("1 value assumed: unsprung mass"), "{said}");
}

/// The customer is not told that all was weighed when a reading is a guess, or when a load comes on top.
#[test]
fn read_off_scales_only_when_it_was() {
    let (mut job, answer) = preset("demo-orchard-van");
    let weighed = "All weights come from the scales.";
    assert!(plain(&sheet(Kind::Customer, &job, &answer)).contains(weighed));
    job.after.rf.set_origin(Some(Origin::Guessed));
    assert!(!plain(&sheet(Kind::Customer, &job, &solve(&job))).contains(weighed));
    job.after.rf.set_origin(Some(Origin::Measured));
    let mut load = springwright::job::Load { mass: "80 kg".into(), x: "1.3 m".into(), ..Default::default() };
    load.what = "driver".into();
    job.cases = vec![LoadCase { name: "with driver".into(), loads: vec![load], sized: true, ..Default::default() }];
    let answer = solve(&job);
    assert!(!plain(&sheet(Kind::Customer, &job, &answer)).contains(weighed));
    // And the sentence names the load.
    let said = sentence::axle(&answer, answer.axle(Side::Front), &job.units).answer;
    assert!(said.starts_with("Front, load case \"with driver\": "), "{said}");
    job.cases[0].sized = false;
    let answer = solve(&job);
    let said = sentence::axle(&answer, answer.axle(Side::Front), &job.units).answer;
    assert!(said.starts_with("Front: "), "{said}");
}

/// A damper of which nothing was measured is never told as a fact.
#[test]
fn an_assumed_damper_is_said_to_be_assumed() {
    let mut seen = 0;
    for shipped in kept::shipped() {
        let mut job = shipped.job.clone();
        for side in Side::BOTH {
            job.axle_mut(side).damper.rows.clear();
            job.axle_mut(side).damper.ratio_before = Default::default();
        }
        let answer = solve(&job);
        let value = json::value(&job, &answer);
        let results = value["results"].as_array().expect("a list");
        let assumed = |key: &str| results.iter().find(|r| r["key"] == key).map(|r| r["assumed"].clone());
        for side in Side::BOTH {
            let Some(old) = &answer.axle(side).old_damper else { continue };
            let said = assumed(&format!("{}.before.old_damper_ratio", side.key()));
            assert!(said.is_none_or(|said| said == old.is_assumed), "{}, {side:?}", shipped.name);
            if old.is_assumed && answer.axle(side).damping.is_some() {
                seen += 1;
                let page = plain(&sheet(Kind::Full, &job, &answer));
                assert!(page.contains("(not measured, assumed)"), "{}", shipped.name);
                assert!(answer.defaults.iter().any(|d| d.path.ends_with(".damper.ratio_before")));
            }
        }
        assert_eq!(assumed("front.new_springs.frequency").unwrap_or(false.into()), false);
    }
    assert!(seen > 10, "{seen} axles with a damper of which nothing is known");
}

// ---- after fitting ---------------------------------------------------------------------------------------------

/// What was found after fitting stands in the text and the JSON of `solve`, against what was predicted.
#[test]
fn what_was_found_after_fitting_is_in_solve() {
    let (mut job, answer) = preset("demo-orchard-van");
    let predicted = answer.reweigh.axles.front.foretold.expect("weighed after").si();
    let half = |kg: f64| entry(format!("{} kg", kg / 2.0));
    assert!(!text::write(&full::build(&job, &answer), Markup::Plain).contains("Re-weigh"));
    assert_eq!(json::value(&job, &answer)["reweigh"].as_array().map(Vec::len), Some(0));
    (job.fitted.lf, job.fitted.rf) = (half(1.08 * predicted), half(1.08 * predicted));
    let answer = solve(&job);
    let said = text::write(&full::build(&job, &answer), Markup::Plain);
    assert!(said.contains("Re-weigh") && said.contains("off by +"), "{said}");
    let value = json::value(&job, &answer);
    let front = value["reweigh"].as_array().expect("a list").iter().find(|r| r["key"] == "fitted.weight.front");
    let front = front.expect("the front axle");
    assert_eq!(front["accepted"], false);
    let results = value["results"].as_array().expect("results");
    let of = |part: &str| {
        let result = results.iter().find(|r| r["key"] == format!("fitted.weight.front.{part}"));
        result.and_then(|r| r["value"].as_f64()).expect("kg")
    };
    assert!((of("foretold") - predicted).abs() < 1e-9);
    assert!((of("difference") - 0.08 * predicted).abs() < 1e-6);
}

// ---- labels, not paths -----------------------------------------------------------------------------------------

/// Every text of every job in the folders and of every shipped one names fields by their labels.
#[test]
fn no_text_has_the_path_of_a_field_for_its_name() {
    let mut seen = Vec::new();
    for kept in some(kept::with_shipped(&["doubtful", "bad", "kinds"])) {
        let (name, answer) = (&kept.name, kept.answer());
        let mut said: Vec<String> = answer.findings.iter().map(|f| f.text.to_string()).collect();
        // All sheets of jobs without doubts; of the others the one with all findings and defaults.
        let all =
            if name.contains("tests/doubtful") || name.contains("tests/bad") { &[Kind::Full][..] } else { &Kind::ALL };
        said.extend(all.iter().map(|kind| text::write(kept.sheet(*kind), Markup::Plain)));
        for word in said.iter().flat_map(|t| t.split_whitespace()) {
            seen.extend(is_path(word).then(|| format!("{name}: {word}")));
        }
    }
    assert!(seen.is_empty(), "{}", seen.join("\n"));
}

/// `front.spring.rate`, `parts[0].mass`, `target.low`: words joined by points, or with underscores.
fn is_path(word: &str) -> bool {
    let bare = word.trim_matches(|c: char| !c.is_alphanumeric() && c != ']');
    let lower = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "._[]".contains(c);
    if !bare.chars().all(lower) || bare.chars().any(|c| c.is_ascii_digit()) && !bare.contains('[') {
        return false;
    }
    let keys = |part: &str| FIELDS.iter().any(|f| f.key.split('.').any(|k| k == part));
    let parts: Vec<&str> = bare.split('.').collect();
    parts.len() > 1
        && parts.iter().all(|p| p.len() > 1 || *p == "x")
        && parts[1..].iter().any(|p| keys(p.split('[').next().unwrap_or(p)))
        || parts.len() == 1 && bare.contains('_') && keys(bare)
}

#[test]
fn paths_are_told_from_words() {
    for path in ["front.spring.rate", "parts[0].mass", "(target.low)", "stop_gap", "rear.ratio"] {
        assert!(is_path(path), "{path}");
    }
    for word in ["spring.", "e.g.", "0.25", "my.ron", "N/mm", "m_s", "F_s", "rate,", "old.New"] {
        assert!(!is_path(word), "{word}");
    }
}

// ---- rounding --------------------------------------------------------------------------------------------------

fn number(text: &str) -> f64 {
    text.replace('−', "-").parse().unwrap_or_else(|_| panic!("{text} is a number"))
}

proptest! {
    /// A ± is told to two figures at most and never as nothing; value and ± end at the same place, and what is told is
    /// what was meant to half of that place.
    #[test]
    fn values_and_uncertainties_are_rounded_by_meaning(
        magnitude in -6.0..7.0_f64, share in -18.0..1.0_f64, dim in 0..choice::DIMS.len(), us: bool
    ) {
        let units = if us { UnitChoice::pound_inch() } else { UnitChoice::metric() };
        let dim = choice::DIMS[dim].0;
        let unit = units.unit(dim);
        let value = 10f64.powf(magnitude);
        let u = value * 10f64.powf(share);
        let said = display::measured_si(value * unit.si, u * unit.si, dim, &units);
        prop_assert!(said.chars().filter(char::is_ascii_digit).count() <= 24, "{}", said);
        let bare = said.trim_end_matches(unit.symbol).trim_end();
        let Some((told, told_u)) = bare.split_once(" ± ") else {
            prop_assert!(u < value.max(1.0), "{}: ± {} left out", said, u);
            return Ok(());
        };
        let places = |t: &str| t.split_once('.').map_or(0, |d| d.1.len());
        prop_assert_eq!(places(told), places(told_u), "{}", &said);
        prop_assert!(number(told_u) > 0.0, "{}", said);
        let half = 0.5001 * 0.1_f64.powi(places(told) as i32);
        prop_assert!((number(told) - value).abs() <= half && (number(told_u) - u).abs() <= half, "{} {} {}", said, value, u);
        let figures = told_u.trim_start_matches(['0', '.']).chars().filter(char::is_ascii_digit).count();
        prop_assert!(figures <= 3 || places(told_u) == 0, "{}", said);
    }
}

#[test]
fn what_a_calculation_leaves_over_is_not_told() {
    let metric = UnitChoice::metric();
    assert_eq!(display::measured_si(37_420.6, 2.6e-12, Dim::SpringRate, &metric), "37.42 N/mm");
    assert_eq!(display::measured_si(0.0, 1e-17, Dim::Length, &metric), "0 mm");
    assert_eq!(display::full_si(2.6e-17, Dim::Length, &metric), "0 mm");
    assert_eq!(display::rounded_with_u(1.3449, Some(1e-16), Dim::Frequency, &metric), "1.34 Hz");
    for shipped in kept::shipped() {
        for kind in Kind::ALL {
            let page = plain(shipped.sheet(kind));
            for told in page.split(" ± ").skip(1).filter_map(|t| t.split(' ').next()) {
                let digits = told.trim_end_matches(['.', ',']).split(['e', 'E']).next().unwrap_or_default();
                let figures = digits.trim_start_matches(['0', '.', ',']).trim_end_matches('0');
                let count = figures.chars().filter(char::is_ascii_digit).count();
                assert!(count <= 4, "{} {kind:?}: ± {told}", shipped.name);
            }
        }
    }
}
