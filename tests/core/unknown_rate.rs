//! The old spring's rate when nobody states it: each route alone, all of them fused, and what follows.
//!
//! Nothing here is a published figure: made-up vehicles whose readings follow from a rate by closed forms written beside
//! each test (DERIVED), and generalised least squares as numpy and nalgebra do them. Closed forms hold to 1e-9, what is
//! solved on a bent curve to 1e-8; a ± by central differences to what they leave, (u/x)² of its share.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::kept;
use crate::common::properties;

use std::f64::consts::TAU;

use nalgebra::{DMatrix, DVector};
use properties::config;
use proptest::collection::vec;
use proptest::prelude::*;
use springwright::base::math::fuse::{Covariance, by_own_u, fuse};
use springwright::base::math::spread::Measured;
use springwright::base::units::{G_M_PER_S2, Quantity, Spread};
use springwright::job::{Job, Plan, Side, Walk, file};
use springwright::report::results::{Results, figures};
use springwright::report::sections::sentence;
use springwright::report::write::json;
use springwright::solve::answer::{Answer, AxleAnswer, RouteKind, State};
use springwright::solve::ground::Survey;
use springwright::solve::solve;

use RouteKind::{Ballast, Bounce, Closure, Swap};

#[track_caller]
fn close(what: &str, found: f64, by_hand: f64, relative: f64) {
    assert!((found / by_hand - 1.0).abs() <= relative, "{what}: {found}, by hand {by_hand}");
}

/// A linear spring on a constant ratio, lengths in mm, rates in N/mm, masses of one corner in kg.
struct Linear {
    k: f64,
    r: f64,
    before: f64,
    after: f64,
}

const PLAIN: Linear = Linear { k: 40.0, r: 0.65, before: 350.0, after: 410.0 };
const UNSPRUNG: f64 = 40.0;
const FITTED: f64 = 250.0;
const TYRE: f64 = 210.0;
const BALLAST: f64 = 120.0;
const ZETA: f64 = 0.28;

impl Linear {
    fn at_wheel(&self) -> f64 {
        self.k * self.r * self.r
    }

    fn drop(&self) -> f64 {
        (self.after - self.before) * G_M_PER_S2 / self.at_wheel()
    }

    fn free(&self) -> f64 {
        FITTED + self.before * G_M_PER_S2 / self.r / self.k
    }

    fn hertz(&self, sprung: f64) -> f64 {
        (1e3 * self.at_wheel() / sprung).sqrt() / TAU
    }

    /// What one route alone needs, as fields of the spring and of the checks.
    fn route(&self, kind: RouteKind) -> (String, String) {
        let kw = self.at_wheel();
        match kind {
            Closure => (format!("fitted_length: \"{FITTED} mm\", free_length: \"{} mm\",", self.free()), String::new()),
            Swap => (String::new(), format!("arch_before: \"400 mm\", arch_after: \"{} mm\",", 400.0 - self.drop())),
            Ballast => {
                let drop = 0.5 * BALLAST * G_M_PER_S2 / kw;
                (String::new(), format!("ballast: \"{BALLAST} kg\", ballast_drop: \"{drop} mm\","))
            }
            Bounce => {
                let time = 12.0 * TAU / (1e3 * kw * TYRE / (kw + TYRE) / self.before).sqrt();
                (String::new(), format!("bounces: \"12\", bounce_time: \"{time} s\","))
            }
            other => panic!("{other:?} is no route of the vehicle"),
        }
    }

    /// The job with a blank rate and these routes; `spring` and `rest` as they stand in the file.
    fn job(&self, routes: &[RouteKind], spring: &str, rest: &str) -> Job {
        let (of_spring, checks): (String, String) = routes.iter().map(|kind| self.route(*kind)).unzip();
        self.job_with(&format!("{spring} {of_spring}"), &checks, rest)
    }

    fn job_with(&self, spring: &str, checks: &str, rest: &str) -> Job {
        let whole = |sprung: f64| 2.0 * (sprung + UNSPRUNG);
        file::parse(&format!(
            r#"(version: 1, job: (
                before: (front: "{} kg"), after: (front: "{} kg"),
                front: (
                    unsprung: "{UNSPRUNG} kg", tyre_rate: "{TYRE} N/mm",
                    ratio: (wheel_moved: "100 mm", part_moved: "{} mm"),
                    spring: ({spring}), checks: ({checks}), damper: (ratio_before: "{ZETA}"), {rest}
                ),
            ))"#,
            whole(self.before),
            whole(self.after),
            100.0 * self.r,
        ))
        .expect("a job")
    }
}

fn front(answer: &Answer) -> &AxleAnswer {
    answer.axle(Side::Front)
}

/// The rate along the old spring, N/mm.
fn rate(answer: &Answer) -> f64 {
    let axle = front(answer);
    let why = || panic!("no rate: {:?}, routes {:?}, {:?}", axle.missing, axle.route_rates, answer.findings);
    axle.old_spring.rate.unwrap_or_else(why).si() / 1e3
}

fn figure(answer: &Answer, key: &str) -> (Option<f64>, Option<f64>, String) {
    let found = figures(answer).into_iter().find(|f| f.key == key).unwrap_or_else(|| panic!("no figure {key}"));
    (found.si, found.u_si, found.name)
}

fn certainty(job: &Job, answer: &Answer) -> String {
    sentence::axle(answer, front(answer), &job.units).certainty
}

/// All that hangs on the old spring, by k_w = k r², f = √(k_w/m)/2π, Δh = ΔW/k_w, s = ΔW/(k r), ζ ~ 1/√(k_w m).
#[track_caller]
fn full_answer(v: &Linear, answer: &Answer, relative: f64) {
    let axle = front(answer);
    assert!(axle.missing.is_empty() && axle.instead.is_empty(), "{:?}", axle.missing);
    close("rate", rate(answer), v.k, relative);
    let [before, old] = [State::Before, State::OldSprings].map(|s| axle.standing.of(s).as_ref().expect("stands"));
    close("frequency before", before.frequency.si(), v.hertz(v.before), relative);
    close("on the old springs", old.frequency.si(), v.hertz(v.after), relative);
    close("height", old.height_change.expect("before is known").si() * 1e3, -v.drop(), 1e-6);
    close("its damping", old.old_damper_ratio.expect("a damper").si(), ZETA * (v.before / v.after).sqrt(), relative);
    let part = answer.released(Side::Front).unwrap_or_else(|_| panic!("withheld: {:?}", answer.findings));
    let spacer = part.spacer.as_ref().expect("it sinks").thickness.si() * 1e3;
    close("spacer", spacer, (v.after - v.before) * G_M_PER_S2 / (v.k * v.r), 1e-6);
    let same = axle.same_factor.expect("both weights");
    close("old rate × q", same.spring_rate.expect("a rate").si() / 1e3, v.k * v.after / v.before, relative);
    let new = axle.standing.new.as_ref().expect("new springs");
    assert!(new.old_damper_ratio.is_some() && new.height_change.is_some());
}

// ---- each route alone ------------------------------------------------------------------------------------------

#[test]
fn each_route_alone_gives_the_rate_and_a_full_answer() {
    for kind in [Closure, Swap, Ballast, Bounce] {
        let job = PLAIN.job(&[kind], "", "");
        let answer = solve(&job);
        full_answer(&PLAIN, &answer, 1e-9);
        let by = answer.checked(Side::Front).by_routes.expect("worked out");
        assert!(by.counts && by.own.is_none());
        assert_eq!(by.routes(), [(kind, 1.0)]);
        let (value, u, name) = figure(&answer, "front.old_spring.rate");
        close("figure", value.expect("known"), PLAIN.k * 1e3, 1e-9);
        close("its ±", u.expect("has a ±"), by.rate.u, 0.01);
        assert!(name.contains(kind.words().said()), "{name}");
        assert!(certainty(&job, &answer).contains(kind.words().said()), "{}", certainty(&job, &answer));
        let said = json::value(&job, &answer).to_string();
        assert!(said.contains("front.old_spring.by_routes"), "{said}");
        assert!(answer.findings.iter().all(|f| f.level < springwright::job::Level::Error), "{:?}", answer.findings);
    }
}

/// u of the rate and of what follows, by hand: every ± is 0 but those named, in mm and kg.
#[test]
fn what_follows_is_as_sure_as_the_route() {
    let exact = |job: &mut Job| {
        job.walk_mut(&mut String::new(), &mut |_, entry| entry.set_pm("0 %", Spread::Standard));
    };
    let with = |routes: &[RouteKind], uncertain: &[(&str, &str)]| {
        let mut job = PLAIN.job(routes, "", "");
        exact(&mut job);
        for (path, u) in uncertain {
            job.at_mut(path).expect("a field").set_pm(u, Spread::Standard);
        }
        solve(&job)
    };
    let u = |answer: &Answer, key: &str| {
        let (value, u, _) = figure(answer, key);
        u.expect("a ±") / value.expect("known").abs()
    };
    // k = ΔW/(Δh r²): both heights and the ratio. f = √(k r²/m)/2π = √(ΔW/(Δh m))/2π: the ratio drops out.
    let ratio = ("front.ratio.part_moved", "1 mm");
    let swap = with(&[Swap], &[("front.checks.arch_before", "0.5 mm"), ("front.checks.arch_after", "0.5 mm"), ratio]);
    let heights = 0.5_f64.sqrt() / PLAIN.drop();
    close("k by the swap", u(&swap, "front.old_spring.rate"), heights.hypot(2.0 / 65.0), 0.01);
    close("f by the swap", u(&swap, "front.before.frequency"), 0.5 * heights, 0.01);
    // k = F/(L0 − L) with F = m g/r: f = √(g r/(L0 − L))/2π: the mass drops out.
    let lengths = [("front.spring.free_length", "0.8 mm"), ("front.unsprung", "4 kg"), ratio];
    let closure = with(&[Closure], &lengths);
    let (compressed, r) = (0.8 / (PLAIN.free() - FITTED), 1.0 / 65.0);
    let mass = 4.0 / PLAIN.before;
    let by_hand = (compressed * compressed + r * r + mass * mass).sqrt();
    close("k by lengths", u(&closure, "front.old_spring.rate"), by_hand, 0.01);
    close("f by lengths", u(&closure, "front.before.frequency"), 0.5 * compressed.hypot(r), 0.01);
    // Two routes that share nothing but the ratio, which drops out of f: weighted by the rest.
    let both =
        with(&[Swap, Ballast], &[("front.checks.arch_after", "1 mm"), ("front.checks.ballast_drop", "1 mm"), ratio]);
    let parts = [1.0 / PLAIN.drop(), PLAIN.at_wheel() / (0.5 * BALLAST * G_M_PER_S2)];
    let fused = 1.0 / parts.iter().map(|u| u.powi(-2)).sum::<f64>().sqrt();
    close("f by both", u(&both, "front.before.frequency"), 0.5 * fused, 0.02);
    close("k by both", u(&both, "front.old_spring.rate"), fused.hypot(2.0 / 65.0), 0.02);
}

/// Pounds and inches: k = ΔW/(Δh r²) with ΔW = 75 lb a corner, Δh = 0.44 in, r = 0.6 is 473.48 lb/in.
#[test]
fn in_pounds_and_inches() {
    let text = r#"(version: 1, job: (
        units: (mass: "lb", length: "in", spring_rate: "lb/in"),
        before: (lf: "1182 lb", rf: "1163 lb", lr: "1000 lb", rr: "1000 lb"),
        after: (lf: "1257 lb", rf: "1238 lb", lr: "1000 lb", rr: "1000 lb"),
        front: (
            unsprung: "105 lb", ratio: (wheel_moved: "3 in", part_moved: "1.8 in"),
            checks: (arch_before: "17 1/2 in", arch_after: "17.06 in"),
        ),
    ))"#;
    let job = file::parse(text).expect("a job");
    let answer = solve(&job);
    let pounds_per_inch = rate(&answer) * 1e3 / (0.453_592_37 * G_M_PER_S2 / 0.0254);
    close("rate", pounds_per_inch, 75.0 / (0.44 * 0.36), 1e-9);
    let said = certainty(&job, &answer);
    assert!(
        said.contains("lb/in, was calculated from: the change itself: change in weight ÷ change in height."),
        "{said}"
    );
}

/// A leaf without a rate: k = ΔW/Δh. Friction of 5 % of the load, when nothing is said, is in it twice: at each height
/// within these limits ± 0.05 of the load, so that u(ΔW) = √2 · 0.05/√3 of the mean load.
#[test]
fn a_leaf_by_its_heights_and_its_friction() {
    let v = Linear { k: 28.0, r: 1.0, before: 330.0, after: 412.0 };
    let leaf = |friction: &str| {
        let (_, checks) = v.route(Swap);
        let mut job =
            v.job_with("kind: Leaf, leaf: (by: Stated)", &format!("{checks} friction: \"{friction}\""), "kind: Beam,");
        job.walk_mut(&mut String::new(), &mut |_, entry| entry.set_pm("0 %", Spread::Standard));
        solve(&job)
    };
    let usual = leaf("");
    full_answer(&v, &usual, 1e-9);
    let by_friction =
        |share: f64| 2.0_f64.sqrt() * share / 3.0_f64.sqrt() * 0.5 * (v.before + v.after) / (v.after - v.before);
    let u = |answer: &Answer| figure(answer, "front.old_spring.rate").1.expect("a ±") / (v.k * 1e3);
    close("± of 5 %", u(&usual), by_friction(0.05), 1e-6);
    assert!(
        usual.defaults.iter().any(|d| d.path == "front.checks.friction" && d.text.to_string() == "5 %"),
        "{:?}",
        usual.defaults
    );
    let typed = leaf("2 %");
    close("± of 2 %", u(&typed), by_friction(0.02), 1e-6);
    assert!(leaf("0 %").checked(Side::Front).routes.list.iter().all(|r| r.wheel_rate.u == 0.0));
}

/// A leaf that was tested: friction is half of its loop along the load axis, over the load that it carries.
#[test]
fn a_leafs_loop_is_its_friction() {
    let v = Linear { k: 28.0, r: 1.0, before: 330.0, after: 412.0 };
    let (_, checks) = v.route(Swap);
    let rows = "(load: \"0 N\", loading: \"200 mm\", unloading: \"193 mm\"), (load: \"700 N\", loading: \"175 mm\", unloading: \"168 mm\"), (load: \"1400 N\", loading: \"150 mm\", unloading: \"150 mm\")";
    let mut job = v.job_with(&format!("kind: Leaf, leaf: (by: Test, rows: [{rows}])"), &checks, "kind: Beam,");
    job.walk_mut(&mut String::new(), &mut |_, entry| entry.set_pm("0 %", Spread::Standard));
    let answer = solve(&job);
    let friction_n = 28.0 * 7.0 / 2.0;
    let mean_n = 0.5 * (v.before + v.after) * G_M_PER_S2;
    let share = friction_n / (v.before * G_M_PER_S2);
    let by_hand = 2.0_f64.sqrt() * share / 3.0_f64.sqrt() * mean_n / ((v.after - v.before) * G_M_PER_S2);
    let routes = &answer.checked(Side::Front).routes;
    let swap = routes.list.iter().find(|r| r.kind == Swap).expect("both heights").wheel_rate;
    close("±", swap.u / swap.value, by_hand, 1e-6);
    assert!(answer.defaults.iter().all(|d| d.path != "front.checks.friction"), "it was measured");
}

/// The main coil of a stack: its helper is solid from 600 N on, so that both weights stand on the main coil alone; the
/// free length is the main coil's, and what the solid helper takes of the fitted length is 12 mm.
#[test]
fn the_main_coil_beside_its_helper() {
    const HELPER: &str =
        "kind: WithHelper, helper: (rate: \"15 N/mm\", free_length: \"52 mm\", solid_length: \"12 mm\"),";
    for kind in [Swap, Ballast, Bounce] {
        let answer = solve(&PLAIN.job(&[kind], HELPER, ""));
        full_answer(&PLAIN, &answer, 1e-9);
    }
    let (fitted, free) = (FITTED + 12.0, PLAIN.free());
    let lengths = format!("{HELPER} fitted_length: \"{fitted} mm\", free_length: \"{free} mm\"");
    full_answer(&PLAIN, &solve(&PLAIN.job_with(&lengths, "", "")), 1e-9);
}

/// A lighter engine lets a helper open between both heights. Its travel by compliances: below the crossover load both
/// coils give way, 1/k + 1/k_h, above it the main one alone.
#[test]
fn a_helper_that_opens_between_both_heights() {
    let (k, kh, r, solid_n) = (40.0, 15.0, 0.65, 4_300.0);
    let helper = format!(
        "kind: WithHelper, helper: (rate: \"{kh} N/mm\", free_length: \"{} mm\", solid_length: \"12 mm\"),",
        12.0 + solid_n / kh
    );
    let v = Linear { k, r, before: 350.0, after: 270.0 };
    let [heavy, light] = [v.before, v.after].map(|m| m * G_M_PER_S2 / r);
    assert!(heavy > solid_n && light < solid_n);
    let rise = ((heavy - solid_n) / k + (solid_n - light) * (1.0 / k + 1.0 / kh)) / r;
    let checks = format!("arch_before: \"400 mm\", arch_after: \"{} mm\"", 400.0 + rise);
    let answer = solve(&v.job_with(&helper, &checks, ""));
    close("main coil", rate(&answer), k, 1e-7);
    let old = front(&answer).standing.old.as_ref().expect("stands");
    close("rise", old.height_change.expect("before is known").si() * 1e3, rise, 1e-7);
}

/// A ratio that rises with travel, rubber and gas beside the spring: heights by the curve itself, F_w(z) = k (L0 − L) r
/// + k_par z + F_gas r_d, halved to 1e-13 m; the reference is before the swap, or after it.
#[test]
fn on_a_ratio_that_changes() {
    const R: f64 = 0.62;
    const BEND: f64 = 0.9; // per m
    let (k, par, gas_n) = (46_000.0, 1_500.0, 160.0);
    let length = |z: f64| 0.260 - R * z - 0.5 * BEND * z * z;
    let r = |z: f64| R + BEND * z;
    for after_is_reference in [false, true] {
        let at_zero = if after_is_reference { 405.0 } else { 352.0 } * G_M_PER_S2;
        let free = 0.260 + (at_zero - gas_n * R) / R / k;
        let force = |z: f64| k * (free - length(z)) * r(z) + par * z + gas_n * r(z);
        let stands = |load: f64| {
            let (mut low, mut high) = (-0.2, 0.2);
            for _ in 0..60 {
                let mid = 0.5 * (low + high);
                if force(mid) < load { low = mid } else { high = mid }
            }
            low
        };
        let [was, is] = [352.0, 405.0].map(|m| stands(m * G_M_PER_S2));
        let rows: String = [-80.0, -40.0, 0.0, 40.0, 80.0]
            .iter()
            .map(|z| format!("(wheel: \"{z} mm\", length: \"{} mm\"),", 1e3 * length(z / 1e3)))
            .collect();
        let area = std::f64::consts::PI / 4.0 * 0.014_f64.powi(2);
        let measured_at = if after_is_reference { "After" } else { "Before" };
        let text = format!(
            r#"(version: 1, job: (measured_at: {measured_at}, before: (front: "784 kg"), after: (front: "890 kg"), front: (
                unsprung: "40 kg", ratio: (by: Rows, rows: [{rows}]), parallel: (rate: "1.5 N/mm"),
                damper: (gas_pressure: "{} kPa", rod_diameter: "14 mm", ratio_before: "0.3"),
                checks: (arch_before: "400 mm", arch_after: "{} mm"),
            )))"#,
            gas_n / area / 1e3,
            400.0 - 1e3 * (is - was),
        );
        let answer = solve(&file::parse(&text).expect("a job"));
        close("rate", rate(&answer), k / 1e3, 1e-7);
        let old = front(&answer).standing.old.as_ref().expect("stands");
        close("height", old.height_change.expect("before is known").si(), was - is, 1e-6);
        let slope = (force(is + 1e-6) - force(is - 1e-6)) / 2e-6;
        close("wheel rate", old.wheel_rate.si(), slope, 1e-6);
    }
}

/// Down on its bump stop the arch tells of the stop, too: what it carries is left out; of a stop whose hardness is not
/// known the heights tell nothing.
#[test]
fn what_a_bump_stop_carries_is_no_spring() {
    let (v, gap, stop) = (PLAIN, 20.0, 60.0);
    let added = (v.after - v.before) * G_M_PER_S2;
    // kw z + stop (z − gap) = ΔW.
    let sank = (added + stop * gap) / (v.at_wheel() + stop);
    assert!(sank > gap);
    let checks = format!("arch_before: \"400 mm\", arch_after: \"{} mm\"", 400.0 - sank);
    let travel = format!("travel: (stop_gap: \"{gap} mm\"),");
    let known = solve(&v.job_with("", &checks, &format!("{travel} stop: (rate: \"{stop} N/mm\"),")));
    close("rate", rate(&known), v.k, 1e-9);
    let unknown = solve(&v.job_with("", &checks, &travel));
    assert!(front(&unknown).old_spring.rate.is_none(), "{:?}", front(&unknown).old_spring.rate);
}

// ---- fusing ----------------------------------------------------------------------------------------------------

/// By numpy: for every set of routes x = numpy.linalg.solve(C, 1), w = x/Σx; of the sets without a negative weight the
/// one of least wᵀCw; C = S Sᵀ, χ² = rᵀ numpy.linalg.solve(C, r).
#[test]
fn generalised_least_squares_as_numpy_does_them() {
    struct Case {
        values: &'static [f64],
        steps: &'static [&'static [f64]],
        weights: &'static [f64],
        /// Value, u of the weights, Birge ratio.
        fused: [f64; 3],
    }
    let cases = [
        Case {
            values: &[24.10, 25.30, 23.40, 26.00],
            steps: &[
                &[0.60, 0.0, 0.0, 0.0, 0.90, 0.0],
                &[0.0, 0.55, 0.0, 0.0, 0.90, 0.30],
                &[0.0, 0.0, 1.10, 0.0, 0.0, 0.30],
                &[0.0, 0.0, 0.0, 1.40, 0.45, 0.0],
            ],
            weights: &[0.279780001330808, 0.166316440068415, 0.393795530580421, 0.160108028020356],
            fused: [24.32812810991448, 0.7258806164657554, 1.1693420143949518],
        },
        // Without the second, whose weight would be negative.
        Case {
            values: &[40.0, 44.0, 41.0],
            steps: &[&[1.0, 0.2, 0.0, 0.0], &[2.0, 0.0, 1.0, 0.0], &[0.0, 0.0, 0.0, 2.5]],
            weights: &[0.857338820301783, 0.0, 0.142661179698217],
            fused: [40.14266117969822, 0.9442628728875528, 2.7323892250108357],
        },
        Case {
            values: &[30.0, 38.0, 33.5],
            steps: &[&[0.8, 0.0, 0.0, 0.5], &[0.0, 1.1, 0.0, 0.5], &[0.0, 0.0, 0.9, 0.0]],
            weights: &[0.358302259267383, 0.189515244571178, 0.452182496161439],
            fused: [33.09876069313446, 0.6052006459768244, 4.18075413357363],
        },
    ];
    for case in cases {
        let steps: Vec<Vec<f64>> = case.steps.iter().map(|s| s.to_vec()).collect();
        let fused = fuse(case.values, &Covariance::of_steps(&steps)).expect("fused");
        for (found, numpy) in fused.weights.iter().zip(case.weights) {
            assert!((found - numpy).abs() < 1e-10, "{found} {numpy}");
        }
        let [value, u, birge] = case.fused;
        close("value", fused.value, value, 1e-10);
        close("u", fused.u_within, u, 1e-10);
        close("Birge ratio", fused.u / fused.u_within, birge, 1e-9);
    }
}

/// Readings of 1 to 6 routes, each moved by its own error and by three that they share.
fn readings() -> impl Strategy<Value = (Vec<f64>, Vec<Vec<f64>>)> {
    vec((20.0..30.0_f64, 0.1..3.0_f64, vec(-2.0..2.0_f64, 3)), 1..7).prop_map(|all| {
        let count = all.len();
        let steps = all.iter().enumerate().map(|(i, (_, own, shared))| {
            (0..count).map(|j| if i == j { *own } else { 0.0 }).chain(shared.iter().copied()).collect()
        });
        (all.iter().map(|a| a.0).collect(), steps.collect())
    })
}

proptest! {
    #![proptest_config(config(256))]

    /// Never worse than the best single reading, no negative weight, together 1; where nalgebra's weights are all
    /// positive, those.
    #[test]
    fn fused_is_never_worse_than_the_best((values, steps) in readings()) {
        let covariance = Covariance::of_steps(&steps);
        let fused = fuse(&values, &covariance).expect("fused");
        let best = (0..values.len()).map(|i| covariance.u(i)).fold(f64::INFINITY, f64::min);
        prop_assert!(fused.u_within <= best * (1.0 + 1e-9), "{} {best}", fused.u_within);
        prop_assert!(fused.u >= fused.u_within);
        prop_assert!((fused.weights.iter().sum::<f64>() - 1.0).abs() < 1e-9 && fused.weights.iter().all(|w| *w >= 0.0));
        let n = values.len();
        let s = DMatrix::from_fn(n, steps[0].len(), |i, j| steps[i][j]);
        let c = &s * s.transpose();
        let x = c.clone().lu().solve(&DVector::from_element(n, 1.0)).expect("regular");
        let weights = &x / x.sum();
        if weights.iter().all(|w| *w > 1e-6) {
            let value: f64 = weights.iter().zip(&values).map(|(w, v)| w * v).sum();
            let r = DVector::from_fn(n, |i, _| values[i] - value);
            let chi = r.dot(&c.lu().solve(&r).expect("regular"));
            let birge = if n > 1 { (chi / (n - 1) as f64).max(1.0).sqrt() } else { 1.0 };
            prop_assert!((fused.value - value).abs() < 1e-7, "{} {value}", fused.value);
            prop_assert!((fused.u / (birge / x.sum().sqrt()) - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn their_order_changes_nothing((values, steps) in readings(), order in Just((0..6_usize).collect::<Vec<_>>()).prop_shuffle()) {
        let order: Vec<usize> = order.into_iter().filter(|i| *i < values.len()).collect();
        let here = fuse(&values, &Covariance::of_steps(&steps)).expect("fused");
        let values: Vec<f64> = order.iter().map(|i| values[*i]).collect();
        let steps: Vec<Vec<f64>> = order.iter().map(|i| steps[*i].clone()).collect();
        let there = fuse(&values, &Covariance::of_steps(&steps)).expect("fused");
        prop_assert!((here.value - there.value).abs() < 1e-8 && (here.u / there.u - 1.0).abs() < 1e-6, "{here:?} {there:?}");
        for (i, weight) in order.iter().zip(&there.weights) {
            prop_assert!((here.weights[*i] - weight).abs() < 1e-7);
        }
    }
}

/// One that is exact counts alone; two that are, and differ, are as sure as they scatter; one without any size of ± at
/// all is left out.
#[test]
fn exact_readings_and_unknown_ones() {
    let m = |value: f64, u: f64| Measured { value, u };
    assert_eq!(by_own_u(&[m(10.0, 1.0), m(12.0, 0.0)]), Some(m(12.0, 0.0)));
    // √(Σ(y − ȳ)²/(n (n − 1))) = √(2/2).
    assert_eq!(by_own_u(&[m(10.0, 0.0), m(12.0, 0.0), m(30.0, 2.0)]), Some(m(11.0, 1.0)));
    assert_eq!(by_own_u(&[m(10.0, 0.0), m(10.0, 0.0)]), Some(m(10.0, 0.0)));
    let left = by_own_u(&[m(10.0, 1.0), m(12.0, f64::INFINITY), m(f64::NAN, 1.0)]).expect("one is known");
    assert!((left.value - 10.0).abs() < 1e-12 && (left.u - 1.0).abs() < 1e-9, "{left:?}");
    assert_eq!(by_own_u(&[m(10.0, f64::INFINITY)]), None);
    assert_eq!(by_own_u(&[]), None);
    // The same reading twice is no better than once.
    let twice = fuse(&[10.0, 10.0], &Covariance::of_steps(&[vec![1.0], vec![1.0]])).expect("fused");
    assert!((twice.u - 1.0).abs() < 1e-6 && (twice.weights[0] - 0.5).abs() < 1e-3, "{twice:?}");
}

// ---- the two of them side by side ------------------------------------------------------------------------------

/// The stated rate beside the routes: the smaller ± counts, and both are said.
#[test]
fn the_smaller_spread_counts() {
    let routes = [Closure, Swap];
    let stated = |pm: &str| {
        let rate = format!("rate: (text: \"42 N/mm\", pm: \"{pm}\", spread: Standard),");
        let job = PLAIN.job(&routes, &rate, "");
        let answer = solve(&job);
        (certainty(&job, &answer), answer)
    };
    let (said, sure) = stated("0.1 N/mm");
    close("stated", rate(&sure), 42.0, 1e-12);
    let by = sure.checked(Side::Front).by_routes.expect("both are known");
    assert!(!by.counts && by.own.is_some_and(|own| own.u < by.rate.u));
    assert!(!said.contains("was calculated from"), "{said}");
    let (said, unsure) = stated("10 N/mm");
    close("by the routes", rate(&unsure), 40.0, 1e-6);
    let by = unsure.checked(Side::Front).by_routes.expect("both are known");
    assert!(by.counts && by.own.is_some_and(|own| own.u > by.rate.u));
    assert!(
        said.contains("was calculated from")
            && said.contains("The rate given, 42 ± 10 N/mm, has the larger ± and is not used."),
        "{said}"
    );
    let rows = springwright::report::sections::spring_tables::old_spring(
        &unsure,
        &Results::of(&unsure),
        Side::Front,
        &Default::default(),
    )
    .expect("a table");
    let text = format!("{rows:?}");
    assert!(text.contains("Rate from label or catalogue") && text.contains("Rate from the other routes"), "{text}");
}

/// Heights that say 25 % more than the lengths: u grows by the Birge ratio, and a spring measured again comes first. The
/// motion ratio is known not to change: unknown, its change makes the heights less sure, and u grows less.
#[test]
fn routes_that_disagree_are_less_sure() {
    let (lengths, _) = PLAIN.route(Closure);
    let checks = |by: f64| format!("arch_before: \"400 mm\", arch_after: \"{} mm\"", 400.0 - PLAIN.drop() / by);
    let solved = |by: f64, slope: &str| {
        let mut job = PLAIN.job_with(&lengths, &checks(by), "");
        job.front.ratio.slope = slope.into();
        solve(&job)
    };
    let [agree, differ] = [1.0, 1.25].map(|by| solved(by, "0 1/m"));
    let by = |answer: &Answer| answer.checked(Side::Front).by_routes.expect("worked out");
    assert!(by(&differ).rate.u > 1.5 * by(&agree).rate.u, "{:?} {:?}", by(&differ), by(&agree));
    let growth = by(&differ).rate.u / by(&agree).rate.u;
    let growth_unknown = by(&solved(1.25, "")).rate.u / by(&solved(1.0, "")).rate.u;
    assert!(growth_unknown < growth, "{growth_unknown} {growth}");
    let (_, u, _) = figure(&differ, "front.old_spring.rate");
    close("in what follows, too", u.expect("a ±"), by(&differ).rate.u, 0.02);
    let rate = |a: &AxleAnswer| a.old_spring.rate.map(Quantity::si);
    let shares = differ.checked(Side::Front).nudged.shares(rate);
    assert!(shares.iter().any(|(path, share)| *path == "front.spring.rate" && *share > 0.3), "{shares:?}");
    assert!(differ.findings.iter().any(|f| f.rule == "routes-disagree"), "{:?}", differ.findings);
}

/// Wire and press, one of them typed with ± 0: that one counts alone.
#[test]
fn together_with_an_exact_way() {
    let wire = |pm: &str| {
        format!(
            "wire: (diameter: (text: \"14 mm\", pm: \"{pm}\"), outside_diameter: (text: \"126 mm\", pm: \"{pm}\"), active_coils: (text: \"6.7\", pm: \"{pm}\"), shear_modulus: (text: \"78 GPa\", pm: \"{pm}\")),"
        )
    };
    let press = |pm: &str| {
        format!(
            "press: (first_length: (text: \"270 mm\", pm: \"{pm}\"), first_load: \"4400 N\", second_length: (text: \"230 mm\", pm: \"{pm}\"), second_load: \"6000 N\", gauge_factor: (text: \"1\", pm: \"{pm}\")),"
        )
    };
    // k = G d⁴/(8 D³ N); k = 1600 N/40 mm.
    let (by_wire, by_press) = (78e3 * 14.0_f64.powi(4) / (8.0 * 112.0_f64.powi(3) * 6.7), 40.0);
    let solved = |wire_pm: &str, press_pm: &str| {
        solve(&PLAIN.job_with(&format!("rate_by: Together, {} {}", wire(wire_pm), press(press_pm)), "", ""))
    };
    close("wire exact", rate(&solved("0 %", "1 %")), by_wire, 1e-12);
    close("press exact", rate(&solved("1 %", "0 %")), by_press, 1e-12);
    let exact = solved("0 %", "0 %");
    close("both exact", rate(&exact), 0.5 * (by_wire + by_press), 1e-12);
    // Half of what they are apart: √(2 d²/2) with d the distance to their mean.
    let both = front(&exact).old_spring.together.expect("both");
    close("as sure as they scatter", both.u / 1e3, 0.5 * (by_wire - by_press).abs(), 1e-9);
    let neither = rate(&solved("1 %", "1 %"));
    assert!(neither > by_wire.min(by_press) && neither < by_wire.max(by_press), "{neither}");
}

/// Stated counts but is blank, and the press is filled in: the rate is the press's, and it is said.
#[test]
fn a_blank_stated_rate_takes_the_press() {
    let press = "press: (first_length: \"270 mm\", first_load: \"4400 N\", second_length: \"230 mm\", second_load: \"6000 N\"),";
    let job = PLAIN.job_with(press, "", "");
    let answer = solve(&job);
    full_answer(&PLAIN, &answer, 1e-9);
    assert!(certainty(&job, &answer).contains("spring press and motion ratio"), "{}", certainty(&job, &answer));
}

/// Choosing asks for the frequency before, which rests on the rate that was worked out, and draws what that rests on:
/// f = √(ΔW/(Δh m))/2π.
#[test]
fn what_is_chosen_rests_on_the_rate_worked_out() {
    let mut job = PLAIN.job(&[Swap], "fitted_length: \"250 mm\",", "target: (goal: AsBefore, margin: \"5 %\"),");
    let mut survey = Survey::new(&job, Side::Front);
    let ground = survey.ground().expect("all is known");
    let hertz = PLAIN.hertz(PLAIN.before);
    close("lowest", ground.frequency_hz[0], 0.95 * hertz, 1e-9);
    close("highest", ground.frequency_hz[1], 1.05 * hertz, 1e-9);
    let at = survey.inputs().iter().position(|i| i.path == "front.checks.arch_after").expect("it is drawn");
    let mut moved = vec![0.0; survey.inputs().len()];
    moved[at] = -0.002;
    survey.move_by(&moved);
    let sinks_more = survey.ground().expect("all is known").frequency_hz[0];
    close("2 mm more", sinks_more, 0.95 * hertz * (PLAIN.drop() / (PLAIN.drop() + 2.0)).sqrt(), 1e-9);
    job.front.checks.arch_after.text = String::new();
    assert!(Survey::new(&job, Side::Front).ground().is_none(), "the frequency before is not known");
}

// ---- nothing but weights and a rate ----------------------------------------------------------------------------

/// Without a motion ratio: q = 410/350, 40 N/mm × q = 46.86 N/mm; what stays open is named as on the screen.
#[test]
fn without_a_motion_ratio_the_factor_answers() {
    let mut job = PLAIN.job_with("rate: \"40 N/mm\"", "", "");
    (job.front.ratio.wheel_moved.text, job.front.ratio.part_moved.text) = (String::new(), String::new());
    let answer = solve(&job);
    let said = sentence::axle(&answer, front(&answer), &job.units).answer;
    assert_eq!(
        said,
        "Front: a rate of 46.9 N/mm (old rate × 1.171) with the old free length restores the old height and ride frequency. Ride frequency, lengths and dampers are not known yet; still needed: \"Wheel moved up by\" and \"Spring compressed by\"."
    );
    let (value, u, _) = figure(&answer, "front.sizing.same_factor.spring_rate");
    close("figure", value.expect("known"), 40e3 * 410.0 / 350.0, 1e-12);
    assert!(u.is_some_and(|u| u > 0.0));
    assert!(front(&answer).sizing.is_none() && answer.is_known());
    assert_eq!(springwright::cli::code(&answer), springwright::cli::exit::OK);
    // What the axle rests on cannot be read: nothing is said of a rate.
    let mut unreadable = job.clone();
    unreadable.front.rating.text = "14OO kg".into();
    let withheld = solve(&unreadable);
    let silent = sentence::axle(&withheld, front(&withheld), &job.units).answer;
    assert!(silent.starts_with("Front: still needed for a first answer"), "{silent}");
    // By wire, too; and without any rate the factor alone.
    job.front.spring.rate.text = String::new();
    let factor = solve(&job);
    let said = sentence::axle(&factor, front(&factor), &job.units).answer;
    assert!(said.starts_with("Front: springs 1.171 times as stiff as the old ones"), "{said}");
    job.front.plan = Plan::Keep;
    let answer = solve(&job);
    let kept = sentence::axle(&answer, front(&answer), &job.units).answer;
    assert!(kept.starts_with("Front: still needed for a first answer"), "{kept}");
}

/// What would say the rate instead is named by its fields, the nearest to done first.
#[test]
fn what_would_do_instead_is_named() {
    let mut job = PLAIN.job_with("", "arch_before: \"400 mm\"", "");
    let answer = solve(&job);
    let said = certainty(&job, &answer);
    let wanted = "The old spring is not known; still needed: \"Old spring rate\" (any one of these replaces the old rate: \"Hub to arch after the change\"; \"Old spring: free length\" and \"Spring length at ride height\"; \"Ballast over the axle\" and \"Drop under ballast\"; \"Bounces counted\" and \"Time for the bounces counted\").";
    assert!(said.contains(wanted), "{said}");
    job.before.front.text = String::new();
    let said = certainty(&job, &solve(&job));
    assert!(said.contains("the weights before the change and \"Hub to arch after the change\""), "{said}");
    let nothing = Job::default();
    let answer = solve(&nothing);
    let said = sentence::axle(&answer, front(&answer), &nothing.units).answer;
    assert!(said.contains("the weights after the change (\"Left front\" and \"Right front\")"), "{said}");
}

/// The shipped job of an unknown spring with each way but one taken out still answers.
#[test]
fn the_shipped_unknown_spring_by_any_one_way() {
    let whole = kept::named("unknown-spring");
    let by_all = rate(whole.answer());
    for kind in [RouteKind::Wire, RouteKind::Press, Closure, Swap, Ballast, Bounce] {
        let mut job = whole.job.clone();
        let spring = &mut job.front.spring;
        let checks = &mut job.front.checks;
        if kind != RouteKind::Wire {
            spring.wire.diameter.text = String::new();
        }
        if kind != RouteKind::Press {
            spring.press.first_load.text = String::new();
        }
        if kind != Closure {
            spring.free_length.text = String::new();
        }
        if kind != Swap {
            checks.arch_after.text = String::new();
        }
        if kind != Ballast {
            checks.ballast.text = String::new();
        }
        if kind != Bounce {
            checks.bounces.text = String::new();
        }
        let answer = solve(&job);
        let axle = front(&answer);
        let by = answer.checked(Side::Front).by_routes.unwrap_or_else(|| panic!("{kind:?}"));
        assert_eq!(by.routes(), [(kind, 1.0)]);
        assert!((rate(&answer) / by_all - 1.0).abs() < 0.15, "{kind:?}: {} beside {by_all}", rate(&answer));
        assert!(State::ALL.iter().all(|s| axle.standing.of(*s).is_some()), "{kind:?}");
    }
}
