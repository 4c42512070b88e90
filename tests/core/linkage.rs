//! The planar kinematics of linkages: worked cases C5, C6 and C7, closed forms, a planar-mechanism library, Newton's steps
//! on the constraints, finite differences, and random linkages.
//!
//! `cases/measuring.json` was computed by an independent script; it is arithmetic, not a measurement of real vehicles.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use std::f64::consts::PI;

use nalgebra::{Matrix3, Vector3};
use proptest::prelude::*;
use serde_json::Value;
use springwright::base::units::{Angle, Length, Quantity, Ratio};
use springwright::trade::linkage::{
    ArmLengths, Carrier, Construction, Fault, Foot, JOINT_OVER_WHEEL, JOINT_OVER_WHEEL_WITHIN, Lock, Mounts, Point,
    PointName, REACH_M, Strut, Sweep, TieRod, TrailingArm, TravelEnds, TwoArms, beam_roll_centre, joint_over_wheel,
};
use springwright::trade::wheel::LengthCurve;

fn m(metres: f64) -> Length {
    Length::from_si(metres)
}

fn case(name: &str) -> Value {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/measuring.json");
    let all: Value = serde_json::from_str(&std::fs::read_to_string(path).expect("the cases")).expect("JSON");
    all[name].clone()
}

/// The points of a case by their letters, m.
struct Points {
    data: Value,
    unit: f64,
    /// One coordinate moved by so much: its letter, 0 out or 1 up, m.
    moved: Option<(&'static str, usize, f64)>,
}

impl Points {
    fn of(name: &str) -> Self {
        let data = case(name)["input"].clone();
        let unit = if data["unit"] == "in" { 0.0254 } else { 1e-3 };
        Points { data, unit, moved: None }
    }

    fn at(&self, letter: &str) -> Point {
        let number = |i: usize| self.data[letter][i].as_f64().expect(letter) * self.unit;
        let mut xy = [number(0), number(1)];
        if let Some((moved, i, by)) = self.moved.filter(|m| m.0 == letter) {
            assert_eq!(moved, letter);
            xy[i] += by;
        }
        Point::at(xy[0], xy[1])
    }

    fn number(&self, key: &str) -> f64 {
        self.data[key].as_f64().expect(key)
    }

    fn construction(&self) -> Construction {
        match self.data["by"].as_str() {
            Some("two arms") => Construction::TwoArms(TwoArms {
                upper_inner: self.at("A"),
                upper_outer: self.at("B"),
                lower_inner: self.at("C"),
                lower_outer: self.at("D"),
                wheel: self.at("W"),
                ground: self.at("G"),
            }),
            Some("strut") => Construction::Strut(Strut {
                top: self.at("T"),
                axis: self.at("P"),
                lower_inner: self.at("C"),
                lower_outer: self.at("D"),
                wheel: self.at("W"),
                ground: self.at("G"),
            }),
            Some("trailing arm") => Construction::TrailingArm(TrailingArm {
                pivot: self.at("P"),
                wheel: self.at("W"),
                ground: self.at("G"),
                plan_angle_rad: self.number("plan_angle_deg").to_radians(),
                half_track_m: self.number("half_track") * self.unit,
            }),
            other => panic!("{other:?}"),
        }
    }

    fn spring(&self) -> Mounts {
        match self.data["by"].as_str() {
            Some("strut") => Mounts::Coaxial,
            _ => apart(self.at("S0"), self.at("S1"), self.carrier()),
        }
    }

    fn damper(&self) -> Mounts {
        match self.data["by"].as_str() {
            Some("strut") => Mounts::Coaxial,
            _ => apart(self.at("M0"), self.at("M1"), self.carrier()),
        }
    }

    fn carrier(&self) -> Carrier {
        if self.data["by"] == "two arms" { Carrier::LowerArm } else { Carrier::TrailingArm }
    }

    fn rod(&self) -> Option<TieRod> {
        self.data["steering_arm"].as_f64().map(|arm| TieRod {
            inner: self.at("E"),
            outer: self.at("F"),
            steering_arm_m: arm * self.unit,
        })
    }
}

fn apart(top: Point, foot: Point, on: Carrier) -> Mounts {
    Mounts::Apart(Foot { top, foot, on }, [PointName::SpringTop, PointName::SpringFoot])
}

fn curve(sweep: &Sweep, unit: Mounts) -> LengthCurve {
    sweep.length_curve(unit).expect("a curve").0
}

#[track_caller]
fn near(what: &str, got: f64, want: f64, relative: f64, absolute: f64) {
    let off = (got - want).abs();
    assert!(off <= relative * want.abs() + absolute, "{what}: got {got}, want {want}, off by {off}");
}

/// 0.1 % plus 0.02 mm, 0.001°, 1e-5 in r: what the cases ask for.
#[test]
fn worked_cases_in_full() {
    let mut looked_at = 0;
    for name in ["C5", "C6", "C7"] {
        let points = Points::of(name);
        let sweep = Sweep::of(points.construction()).expect(name);
        let (spring, damper) = (points.spring(), points.damper());
        let (spring_curve, damper_curve) = (curve(&sweep, spring), curve(&sweep, damper));
        let expected = case(name)["expected"].clone();
        for (key, want) in expected.as_object().expect("figures") {
            let Some((travel, what)) = key.strip_prefix('z').and_then(|k| k.split_once("mm.")) else { continue };
            let z = m(travel.parse::<f64>().expect("a travel") / 1e3);
            let want = want.as_f64().expect("a number");
            let at = sweep.alignment(z, points.rod().as_ref()).expect("inside the travel");
            let exact = |unit| sweep.exact_ratio(unit, z).expect("inside the travel");
            let degree = 1e-3_f64.to_radians();
            let tell = |got: f64, absolute: f64| near(&format!("{name} {key}"), got, want, 1e-3, absolute);
            match what {
                "spring_length_m" => tell(spring_curve.length(z).si(), 2e-5),
                "damper_length_m" => tell(damper_curve.length(z).si(), 2e-5),
                "spring_ratio" => {
                    near(key, spring_curve.ratio(z).si(), want, 0.0, 1e-5);
                    near(key, exact(spring).0.si(), want, 0.0, 1e-9);
                }
                "damper_ratio" => {
                    near(key, damper_curve.ratio(z).si(), want, 0.0, 1e-5);
                    near(key, exact(damper).0.si(), want, 0.0, 1e-9);
                }
                "spring_ratio_slope_per_m" => tell(spring_curve.slope(z).si(), 1e-6),
                "damper_ratio_slope_per_m" => tell(damper_curve.slope(z).si(), 1e-6),
                "camber_change_rad" => tell(at.camber.si(), degree),
                "toe_in_rad" => tell(at.toe.expect("a tie rod").si(), degree),
                "half_track_change_m" => tell(at.half_track.si(), 2e-5),
                "ground_travel_m" => tell(at.ground_rise.si(), 2e-5),
                "roll_centre_height_m" => tell(at.roll_centre.si(), 2e-5),
                "swing_arm_per_m" => tell(at.swing_arm.si(), 1e-6),
                "joint_to_wheel" => near(key, at.joint_over_wheel.si(), want, 0.0, 1e-5),
                other => panic!("{other} is not looked at"),
            }
            looked_at += 1;
        }
        let [low, high] = sweep.range_m();
        let end = |key: &str| expected[key].as_f64().expect("an end");
        assert!(low <= end("travel_droop_m") && high >= end("travel_bump_m"), "{name}");
        assert_eq!(sweep.ends, TravelEnds::default(), "{name}");
        // Wheel rate, geometry term and frequency from the same curve, by §4's own sum.
        let (r, slope) = (spring_curve.ratio(m(0.0)).si(), spring_curve.slope(m(0.0)).si());
        let force_n = points.number("sprung_kg") * 9.80665 / r;
        let rate = points.number("spring_rate_N_per_m") * r * r + force_n * slope;
        near(name, force_n, end("spring_force_N"), 1e-6, 0.0);
        near(name, rate, end("wheel_rate_N_per_m"), 1e-6, 0.0);
        near(name, force_n * slope / rate, end("geometry_share"), 1e-5, 0.0);
        near(name, (rate / points.number("sprung_kg")).sqrt() / (2.0 * PI), end("frequency_hz"), 1e-6, 0.0);
    }
    assert_eq!(looked_at, 65 + 65 + 55, "every figure of the three cases");
}

/// Every coordinate 2 mm (standard), moved up and down: what the cases give for r, r′ and the roll centre.
#[test]
fn worked_cases_with_two_millimetres_on_every_coordinate() {
    for name in ["C5", "C6", "C7"] {
        let letters: &[&'static str] = match name {
            "C5" => &["A", "B", "C", "D", "W", "G", "S0", "S1"],
            "C6" => &["T", "P", "C", "D", "W", "G"],
            _ => &["P", "W", "G", "S0", "S1"],
        };
        let mut sums = [0.0; 3];
        for letter in letters {
            for i in [0, 1] {
                let found = [2e-3, -2e-3].map(|by| {
                    let points = Points { moved: Some((letter, i, by)), ..Points::of(name) };
                    let sweep = Sweep::of(points.construction()).expect(name);
                    let (r, slope) = sweep.exact_ratio(points.spring(), m(0.0)).expect(name);
                    let roll_centre = sweep.alignment(m(0.0), None).expect(name).roll_centre;
                    [r.si(), slope.si(), roll_centre.si()]
                });
                for (j, sum) in sums.iter_mut().enumerate() {
                    *sum += (0.5 * (found[0][j] - found[1][j])).powi(2);
                }
            }
        }
        let expected = case(name)["expected"].clone();
        for (key, sum) in ["u.spring_ratio", "u.spring_ratio_slope_per_m", "u.roll_centre_height_m"].iter().zip(sums) {
            if let Some(want) = expected[key].as_f64() {
                near(&format!("{name} {key}"), sum.sqrt(), want, 1e-3, 0.0);
            }
        }
    }
}

#[test]
fn worked_case_of_an_arm_by_lengths() {
    let case = case("C7");
    let (input, expected) = (&case["input"]["front_arm"], &case["expected"]);
    let number = |key: &str| input[key].as_f64().expect(key);
    let want = |key: &str| expected[key].as_f64().expect(key);
    let arm = |by: [f64; 5]| ArmLengths {
        seat: m(number("a") + by[0]),
        joint: m(number("b") + by[1]),
        off_square: Angle::from_si(number("theta_deg").to_radians() + by[2]),
        slope: Angle::from_si(number("alpha_deg").to_radians() + by[3]),
        joint_over_wheel: Ratio::from_si(JOINT_OVER_WHEEL + by[4]),
    };
    let r = |by| arm(by).ratio().expect("an arm").si();
    near("r", r([0.0; 5]), want("arm.ratio_centre_unknown"), 0.0, 1e-12);
    let (length, degree) = (number("u_length"), number("u_angle_deg").to_radians());
    let u = [length, length, degree, degree, JOINT_OVER_WHEEL_WITHIN / 3_f64.sqrt()];
    let squares: f64 = (0..5)
        .map(|i| {
            let by = |sign: f64| std::array::from_fn(|j| if i == j { sign * u[j] } else { 0.0 });
            (0.5 * (r(by(1.0)) - r(by(-1.0)))).powi(2)
        })
        .sum();
    near("u", squares.sqrt(), want("arm.u_centre_unknown"), 1e-3, 0.0);
    let j = joint_over_wheel(m(number("y_joint")), m(number("y_wheel")), m(number("y_ic"))).expect("j");
    near("j", j.si(), want("arm.j"), 0.0, 1e-12);
    let known = ArmLengths { joint_over_wheel: j, ..arm([0.0; 5]) };
    near("r with the centre", known.ratio().expect("an arm").si(), want("arm.ratio"), 0.0, 1e-12);
    // Lengths that are none, angles past 90°, a centre outside the wheel.
    assert_eq!(ArmLengths { joint: m(0.0), ..known }.ratio(), Err(Fault::NoArm));
    assert_eq!(ArmLengths { slope: Angle::from_si(1.6), ..known }.ratio(), Err(Fault::NoArm));
    assert_eq!(joint_over_wheel(m(0.68), m(0.78), m(0.78)), Err(Fault::NoArm));
}

/// Places of D, B, W, G and S1 of case C5 as `pylinkage` 1.3.0 (a planar-mechanism library of the Python package index)
/// gives them for a crank on C turned by ±0.05, ±0.1, ±0.15 and ±0.2 rad: its dyads `RRRDyad` and `FixedDyad`.
const BY_LIBRARY: [[(f64, f64); 5]; 8] = [
    [
        (0.634535956734, 0.125253938426),
        (0.618974430539, 0.435409311913),
        (0.727719477977, 0.238137041541),
        (0.722807460596, -0.081865261084),
        (0.479690451955, 0.154051015532),
    ],
    [
        (0.638698701791, 0.145150950273),
        (0.622988373318, 0.455298822068),
        (0.731828054082, 0.258078747302),
        (0.727069565624, -0.061925875146),
        (0.482607459581, 0.166172988837),
    ],
    [
        (0.641861808378, 0.165231146576),
        (0.625298044913, 0.475334610826),
        (0.734680042561, 0.278414798236),
        (0.730802191344, -0.041601707386),
        (0.484914975551, 0.178425602449),
    ],
    [
        (0.644017370375, 0.185444337301),
        (0.625916646514, 0.495461886153),
        (0.736273419787, 0.299086692727),
        (0.733981918445, -0.020945103539),
        (0.486607232278, 0.190778231217),
    ],
    [
        (0.645286841274, 0.226067406085),
        (0.622049152503, 0.535742278524),
        (0.73564625637, 0.341223559649),
        (0.738660537904, 0.021197754897),
        (0.488130597357, 0.215659860846),
    ],
    [
        (0.64439757716, 0.246375747626),
        (0.617511459324, 0.555755212794),
        (0.73339340493, 0.36258894068),
        (0.74017952364, 0.042620895099),
        (0.487957898091, 0.228126670593),
    ],
    [
        (0.642494430356, 0.266614264347),
        (0.611180567004, 0.575576978541),
        (0.729816888256, 0.384090014808),
        (0.741184448568, 0.064251961768),
        (0.487162333859, 0.240569268708),
    ],
    [
        (0.639582157736, 0.286732370497),
        (0.602995517739, 0.595115143319),
        (0.724885290944, 0.405682524195),
        (0.741714297836, 0.086085299353),
        (0.485745893158, 0.252956555175),
    ],
];

#[test]
fn a_planar_mechanism_library_puts_every_point_in_the_same_place() {
    let points = Points::of("C5");
    let sweep = Sweep::of(points.construction()).expect("C5");
    for row in BY_LIBRARY {
        let z = m(row[2].1 - points.at("W").up_m);
        let drawn = sweep.drawn(z, &[(points.at("S1"), Some(Carrier::LowerArm))]).expect("inside the travel");
        let own = |name| drawn.points.iter().find(|p| p.0 == name).expect("a point").1;
        let got = [
            own(PointName::LowerOuter),
            own(PointName::UpperOuter),
            own(PointName::Wheel),
            own(PointName::Ground),
            drawn.others[0].expect("S1"),
        ];
        for (got, want) in got.iter().zip(row) {
            near("out", got.out_m, want.0, 0.0, 1e-10);
            near("up", got.up_m, want.1, 0.0, 1e-10);
        }
        let spring = (points.at("S0") - Point::at(row[4].0, row[4].1)).size();
        near("length", curve(&sweep, points.spring()).length(z).si(), spring, 0.0, 1e-8);
    }
}

/// Parallel arms of equal length: the upright moves without turning, on a circle of the arms' length. r is that of the
/// arm alone with j = 1. Closed form, `DERIVED`.
#[test]
fn parallel_equal_arms_in_closed_form() {
    let arms = TwoArms {
        upper_inner: Point::at(0.35, 0.50),
        upper_outer: Point::at(0.70, 0.46),
        lower_inner: Point::at(0.30, 0.22),
        lower_outer: Point::at(0.65, 0.18),
        wheel: Point::at(0.76, 0.31),
        ground: Point::at(0.76, 0.0),
    };
    let sweep = Sweep::of(Construction::TwoArms(arms)).expect("arms");
    let length = 0.35_f64.hypot(0.04);
    let start = (-0.04_f64 / 0.35).atan();
    for z in [-0.08, -0.03, 0.0, 0.05, 0.1] {
        let at = sweep.alignment(m(z), None).expect("inside");
        let angle = ((length * start.sin() + z) / length).asin();
        near("camber", at.camber.si(), 0.0, 0.0, 1e-12);
        near("swing arm", at.swing_arm.si(), 0.0, 0.0, 1e-10);
        near("half track", at.half_track.si(), length * (angle.cos() - start.cos()), 0.0, 1e-12);
        near("roll centre", at.roll_centre.si(), (0.76 + at.half_track.si()) * -angle.tan(), 0.0, 1e-10);
        near("j", at.joint_over_wheel.si(), 1.0, 0.0, 1e-12);
    }
    // A spring that stands square to the arm at the reference height.
    let (along, square) = (Point::at(0.35 / length, -0.04 / length), Point::at(0.04 / length, 0.35 / length));
    let foot = Point::at(0.30, 0.22) + along * 0.2;
    let r = sweep.exact_ratio(apart(foot + square * 0.3, foot, Carrier::LowerArm), m(0.0)).expect("a spring").0;
    let arm = ArmLengths {
        seat: m(0.2),
        joint: m(length),
        off_square: Angle::from_si(0.0),
        slope: Angle::from_si(start),
        joint_over_wheel: Ratio::from_si(1.0),
    };
    near("r", r.si(), arm.ratio().expect("an arm").si(), 0.0, 1e-12);
}

/// With arms a hundred metres long everything goes straight up: r = a cos θ/(b cos α).
#[test]
fn long_arms_come_to_the_arm_formula() {
    let arms = TwoArms {
        upper_inner: Point::at(-99.3, 0.5),
        upper_outer: Point::at(0.7, 0.5),
        lower_inner: Point::at(-99.35, 0.2),
        lower_outer: Point::at(0.65, 0.2),
        wheel: Point::at(0.76, 0.31),
        ground: Point::at(0.76, 0.0),
    };
    let sweep = Sweep::of(Construction::TwoArms(arms)).expect("arms");
    let lean = 0.2_f64;
    let foot = Point::at(0.4, 0.2);
    let top = foot + Point::at(-lean.sin(), lean.cos()) * 0.35;
    let r = sweep.exact_ratio(apart(top, foot, Carrier::LowerArm), m(0.0)).expect("a spring").0.si();
    near("r", r, 99.75 / 100.0 * lean.cos(), 1e-6, 0.0);
}

/// An upright strut over its ball joint: r = 1 and no camber change at the reference height, when the arm is level.
#[test]
fn an_upright_strut_on_a_level_arm() {
    let strut = Strut {
        top: Point::at(0.65, 0.8),
        axis: Point::at(0.65, 0.4),
        lower_inner: Point::at(0.3, 0.2),
        lower_outer: Point::at(0.65, 0.2),
        wheel: Point::at(0.65, 0.31),
        ground: Point::at(0.65, 0.0),
    };
    let sweep = Sweep::of(Construction::Strut(strut)).expect("a strut");
    let at = sweep.alignment(m(0.0), None).expect("inside");
    let (r, slope) = sweep.exact_ratio(Mounts::Coaxial, m(0.0)).expect("a strut");
    near("r", r.si(), 1.0, 0.0, 1e-12);
    near("swing arm", at.swing_arm.si(), 0.0, 0.0, 1e-12);
    near("roll centre", at.roll_centre.si(), 0.0, 0.0, 1e-12);
    // D sinks on its circle by z²/2R; the strut turns by it over its length: all of second order.
    assert!(slope.si().abs() < 1.0, "{slope:?}");
}

/// A trailing arm: a rigid turn about a level axis, by Rodrigues' formula in space; r has nothing of the plan angle in it.
#[test]
fn a_trailing_arm_is_a_turn_about_its_axis() {
    let points = Points::of("C7");
    let Construction::TrailingArm(arm) = points.construction() else { panic!("C7") };
    let sweep = Sweep::of(Construction::TrailingArm(arm)).expect("C7");
    let straight = Sweep::of(Construction::TrailingArm(TrailingArm { plan_angle_rad: 0.0, ..arm })).expect("C7");
    let axis = Vector3::new(-arm.plan_angle_rad.sin(), arm.plan_angle_rad.cos(), 0.0);
    for z in [-0.1, -0.05, 0.02, 0.09] {
        let at = sweep.alignment(m(z), None).expect("inside");
        // The turn that lifts the wheel by z.
        let (x, h) = (arm.wheel.out_m - arm.pivot.out_m, arm.wheel.up_m - arm.pivot.up_m);
        let angle = ((h + z) / x.hypot(h)).asin() - (h / x.hypot(h)).asin();
        // x to the rear, y outward, h up: a turn to the left in the plane (x, h) is one by −angle about y.
        let turned = |v: Vector3<f64>| {
            v * angle.cos() + axis.cross(&v) * (-angle).sin() + axis * axis.dot(&v) * (1.0 - angle.cos())
        };
        let spindle = turned(Vector3::new(0.0, 1.0, 0.0));
        near("camber", at.camber.si(), -spindle.z.asin(), 0.0, 1e-12);
        near("toe", at.toe.expect("a toe").si(), (-spindle.x).atan2(spindle.y), 0.0, 1e-12);
        let flat = straight.alignment(m(z), None).expect("inside");
        near("δ = 0", flat.camber.si() + flat.roll_centre.si() + flat.half_track.si(), 0.0, 0.0, 1e-12);
        let r = |s: &Sweep| s.exact_ratio(points.spring(), m(z)).expect("a spring").0.si();
        near("r", r(&sweep), r(&straight), 0.0, 1e-14);
    }
}

/// Barton & Fieldhouse, Automotive Chassis Engineering (Springer 2018), example E3.4 (one page seen; its answers not): AE =
/// ED 180, CD 315, WD 159 mm, v_D 360 mm/s. Its parts as a velocity diagram give them: with D on an arm of 315 mm its
/// angular speed is v_D/CD, and E, halfway along A–D, moves half as fast as D relative to A. The layout was not seen, so
/// only what follows from the lengths is checked.
#[test]
fn a_velocity_diagram_by_its_lengths() {
    let (cd, v) = (0.315, 0.360);
    let arm = TrailingArm {
        pivot: Point::at(0.0, 0.3),
        wheel: Point::at(cd, 0.3),
        ground: Point::at(cd, 0.0),
        plan_angle_rad: 0.0,
        half_track_m: 0.7,
    };
    let sweep = Sweep::of(Construction::TrailingArm(arm)).expect("an arm");
    let foot = Point::at(cd - 0.159, 0.3);
    let r = sweep.exact_ratio(apart(foot + Point::at(0.0, 0.3), foot, Carrier::TrailingArm), m(0.0)).expect("r").0;
    near("speed of a point 159 mm inside D", r.si() * v, v * (cd - 0.159) / cd, 1e-12, 0.0);
}

#[test]
fn a_beam_axles_roll_centre_is_where_its_rod_crosses_the_centreline() {
    let height = |a, b| beam_roll_centre([a, b]).map(|h| h.si());
    near("rod", height(Point::at(-0.5, 0.2), Point::at(0.5, 0.3)).expect("a rod"), 0.25, 0.0, 1e-15);
    near("level leaf", height(Point::at(-0.6, 0.4), Point::at(0.5, 0.4)).expect("a leaf"), 0.4, 0.0, 1e-15);
    assert_eq!(height(Point::at(0.5, 0.2), Point::at(0.5, 0.3)), None);
}

#[test]
fn points_that_cannot_be_a_linkage_are_named() {
    let points = Points::of("C5");
    let Construction::TwoArms(arms) = points.construction() else { panic!("C5") };
    let fault = |arms: TwoArms| Sweep::of(Construction::TwoArms(arms)).expect_err("a fault");
    use PointName as N;
    assert_eq!(fault(TwoArms { upper_outer: arms.upper_inner, ..arms }), Fault::NoLength(N::UpperInner, N::UpperOuter));
    let swapped = TwoArms { lower_inner: arms.lower_outer, lower_outer: arms.lower_inner, ..arms };
    assert_eq!(fault(swapped), Fault::Swapped(N::LowerInner, N::LowerOuter));
    let mirrored = |p: Point| Point::at(-p.out_m, p.up_m);
    assert_eq!(fault(TwoArms { wheel: mirrored(arms.wheel), ..arms }), Fault::OtherSide(N::Wheel));
    assert_eq!(fault(TwoArms { ground: Point::at(0.7, 0.5), ..arms }), Fault::UpsideDown(N::Ground, N::Wheel));
    let straight = arms.upper_outer + (arms.upper_outer - arms.lower_outer) * 0.5;
    assert_eq!(fault(TwoArms { upper_inner: straight, ..arms }), Fault::InLine(N::UpperInner, N::LowerOuter));
    let sweep = Sweep::of(Construction::TwoArms(arms)).expect("C5");
    let turned = apart(points.at("S1"), points.at("S0"), Carrier::LowerArm);
    assert_eq!(sweep.length_curve(turned).expect_err("longer"), Fault::GetsLonger(N::SpringTop, N::SpringFoot));
    let Construction::Strut(strut) = Points::of("C6").construction() else { panic!("C6") };
    let sweep = Sweep::of(Construction::Strut(strut)).expect("C6");
    let on_none = apart(Point::at(0.5, 0.8), Point::at(0.6, 0.3), Carrier::UpperArm);
    assert_eq!(sweep.length_curve(on_none).expect_err("no upper arm"), Fault::NoSuchPart(N::SpringFoot));
    for fault in [Fault::NoArm, Fault::Swapped(N::LowerInner, N::LowerOuter), Fault::OtherSide(N::Wheel)] {
        let words = fault.to_string();
        assert!(words.len() > 30 && fault.points().iter().flatten().all(|p| words.contains(p.letter())), "{words}");
    }
}

/// A short upper arm is stretched straight before the end of the travel: the end is where A, B and D are in line.
#[test]
fn locking_is_found_where_the_arm_is_in_line() {
    let arms = TwoArms {
        upper_inner: Point::at(0.56, 0.46),
        upper_outer: Point::at(0.68, 0.48),
        lower_inner: Point::at(0.30, 0.20),
        lower_outer: Point::at(0.70, 0.18),
        wheel: Point::at(0.76, 0.31),
        ground: Point::at(0.76, 0.0),
    };
    let sweep = Sweep::of(Construction::TwoArms(arms)).expect("arms");
    let ends: Vec<_> = [sweep.ends.droop, sweep.ends.bump].into_iter().flatten().collect();
    assert!(!ends.is_empty(), "it locks");
    for end in ends {
        assert_eq!(end.lock, Lock::Linkage);
        assert!(end.travel.si().abs() > 0.02 && end.travel.si().abs() < REACH_M, "{end:?}");
        assert!(sweep.alignment(end.travel * 1.05, None).is_none());
        let [low, high] = sweep.range_m();
        assert!(low >= end.travel.si() || high <= end.travel.si());
    }
}

/// Newton's steps on the constraints themselves, with D and the upright's turn as unknowns: no circles, no angles of arms.
fn by_constraints(construction: &Construction, z: f64) -> Option<(Point, f64)> {
    let (c, d0, wheel) = match construction {
        Construction::TwoArms(a) => (a.lower_inner, a.lower_outer, a.wheel),
        Construction::Strut(s) => (s.lower_inner, s.lower_outer, s.wheel),
        Construction::TrailingArm(_) => return None,
    };
    let turned =
        |v: Point, b: f64| Point::at(v.out_m * b.cos() - v.up_m * b.sin(), v.out_m * b.sin() + v.up_m * b.cos());
    let square = |v: Point| v.out_m * v.out_m + v.up_m * v.up_m;
    let miss = |x: Vector3<f64>, z: f64| {
        let (d, b) = (Point::at(x[0], x[1]), x[2]);
        let third = match construction {
            Construction::TwoArms(a) => {
                square(d + turned(a.upper_outer - d0, b) - a.upper_inner) - square(a.upper_outer - a.upper_inner)
            }
            Construction::Strut(s) => {
                let (axis, way) = (turned(s.top - s.axis, b), s.top - d - turned(s.axis - d0, b));
                axis.out_m * way.up_m - axis.up_m * way.out_m
            }
            Construction::TrailingArm(_) => 0.0,
        };
        let rise = (d + turned(wheel - d0, b)).up_m - wheel.up_m - z;
        Vector3::new(square(d - c) - square(d0 - c), third, rise)
    };
    let mut x = Vector3::new(d0.out_m, d0.up_m, 0.0);
    // In small steps of travel, so that the branch is kept.
    for step in 1..=20 {
        let z = z * f64::from(step) / 20.0;
        for _ in 0..8 {
            let f = miss(x, z);
            let slope = Matrix3::from_fn(|row, column| {
                let mut by = Vector3::zeros();
                by[column] = 1e-6;
                (miss(x + by, z)[row] - miss(x - by, z)[row]) / 2e-6
            });
            x -= slope.try_inverse()? * f;
        }
    }
    (miss(x, z).norm() < 1e-11).then(|| (Point::at(x[0], x[1]), x[2]))
}

fn point(out: std::ops::Range<f64>, up: std::ops::Range<f64>) -> impl Strategy<Value = Point> {
    (out, up).prop_map(|(out, up)| Point::at(out, up))
}

/// Linkages as vehicles have them, and some that they cannot have.
fn any_linkage() -> impl Strategy<Value = (Construction, Mounts, TieRod)> {
    let arms = (
        point(0.2..0.6, 0.35..0.7),
        point(0.55..0.75, 0.35..0.65),
        point(0.15..0.5, 0.15..0.35),
        point(0.55..0.75, 0.1..0.3),
        point(0.65..0.85, 0.25..0.4),
    )
        .prop_map(|(upper_inner, upper_outer, lower_inner, lower_outer, wheel)| {
            let ground = Point::at(wheel.out_m, 0.0);
            Construction::TwoArms(TwoArms { upper_inner, upper_outer, lower_inner, lower_outer, wheel, ground })
        });
    let strut = (
        point(0.4..0.65, 0.6..0.95),
        point(0.5..0.75, 0.3..0.6),
        point(0.2..0.5, 0.15..0.35),
        point(0.55..0.75, 0.1..0.3),
        point(0.65..0.85, 0.25..0.4),
    )
        .prop_map(|(top, axis, lower_inner, lower_outer, wheel)| {
            let ground = Point::at(wheel.out_m, 0.0);
            Construction::Strut(Strut { top, axis, lower_inner, lower_outer, wheel, ground })
        });
    let trailing = (point(-0.05..0.1, 0.2..0.5), point(0.2..0.6, 0.2..0.4), -0.4..0.4_f64).prop_map(
        |(pivot, wheel, plan_angle_rad)| {
            let ground = Point::at(wheel.out_m, 0.0);
            Construction::TrailingArm(TrailingArm { pivot, wheel, ground, plan_angle_rad, half_track_m: 0.75 })
        },
    );
    let unit = (point(0.1..0.7, 0.45..0.95), point(0.1..0.75, 0.05..0.45), 0..4_usize);
    let rod = (point(0.2..0.5, 0.1..0.5), point(0.55..0.75, 0.1..0.5), prop_oneof![-0.2..-0.05, 0.05..0.2_f64]);
    (prop_oneof![arms, strut, trailing], unit, rod).prop_map(|(construction, (top, foot, on), (inner, outer, arm))| {
        let carriers = [Carrier::LowerArm, Carrier::UpperArm, Carrier::Upright, Carrier::TrailingArm];
        let coaxial = on == 3 && matches!(construction, Construction::Strut(_));
        let unit = if coaxial { Mounts::Coaxial } else { apart(top, foot, carriers[on]) };
        (construction, unit, TieRod { inner, outer, steering_arm_m: arm })
    })
}

/// Between two places the wheel may rise so little that plain Newton's steps leave them: a place inside is still found.
#[test]
fn a_place_near_locking_is_found() {
    let construction = Construction::TwoArms(TwoArms {
        upper_inner: Point::at(0.580_394_640_278_456_4, 0.489_930_504_479_067_33),
        upper_outer: Point::at(0.644_188_631_448_575_9, 0.363_057_076_093_995_46),
        lower_inner: Point::at(0.15, 0.15),
        lower_outer: Point::at(0.719_454_201_439_522_1, 0.254_511_793_682_101_36),
        wheel: Point::at(0.655_583_727_833_289_3, 0.292_250_922_951_842_96),
        ground: Point::at(0.655_583_727_833_289_3, 0.0),
    });
    let sweep = Sweep::of(construction).expect("a linkage");
    let [low, high] = sweep.range_m();
    // The share at which it once failed, and all others.
    for share in std::iter::once(0.321_854_913_059_763_55).chain((0..=1000).map(|i| f64::from(i) / 1000.0)) {
        let z = low + (high - low) * share;
        let wheel = |at: f64| sweep.drawn(m(at), &[]).expect("inside").points;
        let up = wheel(z).iter().find(|p| p.0 == PointName::Wheel).expect("W").1.up_m;
        assert!((up - 0.292_250_922_951_842_96 - z).abs() < 1e-9, "{z}: {up}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 10_000, max_global_rejects: 20_000, failure_persistence: None, ..ProptestConfig::default() })]

    /// No NaN, locking said, r above zero or said; r is the slope of the length, r′ of r; the curve keeps to exact geometry.
    #[test]
    fn random_linkages(((construction, unit, rod), share) in (any_linkage(), 0.02..0.98_f64)) {
        let sweep = match Sweep::of(construction) {
            Ok(sweep) => sweep,
            Err(fault) => {
                prop_assert!(fault.to_string().len() > 20);
                return Ok(());
            }
        };
        let [low, high] = sweep.range_m();
        for (end, at) in [sweep.ends.droop, sweep.ends.bump].into_iter().zip([low, high]) {
            match end {
                Some(end) => prop_assert!(end.travel.si().is_finite() && (end.travel.si() - at).abs() < 5.1e-3),
                None => prop_assert!((at.abs() - REACH_M).abs() < 1e-9, "an end that is not said: {}", at),
            }
        }
        let z = low + share * (high - low);
        let at = sweep.alignment(m(z), Some(&rod)).expect("inside its range");
        let numbers = [
            at.camber.si(), at.half_track.si(), at.roll_centre.si(), at.swing_arm.si(), at.ground_rise.si(),
            at.joint_over_wheel.si(), at.toe.map_or(0.0, |t| t.si()),
        ];
        prop_assert!(numbers.iter().all(|n| n.is_finite()), "{:?}", at);
        let (curve, ends) = match sweep.length_curve(unit) {
            Ok(found) => found,
            Err(fault) => {
                prop_assert!(fault.to_string().len() > 20);
                return Ok(());
            }
        };
        let low = ends.droop.map_or(low, |e| e.travel.si().max(low));
        let high = ends.bump.map_or(high, |e| e.travel.si().min(high));
        for i in 0..=40 {
            let z = m(low + (high - low) * f64::from(i) / 40.0);
            let all = [curve.length(z).si(), curve.ratio(z).si(), curve.slope(z).si()];
            prop_assert!(all.iter().all(|v| v.is_finite()), "{:?} at {:?}", all, z);
            prop_assert!(all[1] > 0.0, "r is {} at {:?}, ends {:?}", all[1], z, ends);
        }
    }

    /// Finite differences of exact lengths, and the interpolated curve against exact geometry, a little away from locking.
    #[test]
    fn random_linkages_by_differences(((construction, unit, _), share) in (any_linkage(), 0.0..1.0_f64)) {
        let Ok(sweep) = Sweep::of(construction) else { return Ok(()) };
        let Ok((curve, ends)) = sweep.length_curve(unit) else { return Ok(()) };
        let [low, high] = sweep.range_m();
        let clear = |end: Option<springwright::trade::linkage::End>, own: f64| {
            end.map_or(own, |e| e.travel.si())
        };
        let (low, high) = (clear(ends.droop, low).max(-0.12), clear(ends.bump, high).min(0.12));
        let z = low + share * (high - low);
        prop_assume!(z > low + 2e-3 && z < high - 2e-3);
        let exact = |z: f64| sweep.exact_ratio(unit, m(z)).expect("inside");
        let (r, slope) = exact(z);
        // What no vehicle has: beside locking a curve goes on straight, and a difference is none.
        prop_assume!(r.si() < 2.0 && slope.si().abs() < 5.0);
        let of_curve = (curve.ratio(m(z)).si(), curve.slope(m(z)).si());
        prop_assert!((of_curve.0 - r.si()).abs() < 1e-5, "{} {}", of_curve.0, r.si());
        prop_assert!((of_curve.1 - slope.si()).abs() < 1e-2, "{} {}", of_curve.1, slope.si());
        let h = 1e-4;
        let by = |h: f64| (exact(z + h).0.si() - exact(z - h).0.si()) / (2.0 * h);
        // Richardson's step takes the next term away.
        let by_difference = (4.0 * by(h / 2.0) - by(h)) / 3.0;
        prop_assert!((by_difference - slope.si()).abs() < 1e-6, "{} {}", by_difference, slope.si());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    /// The same places by Newton's steps on the constraints, with nalgebra's inverse.
    #[test]
    fn random_linkages_by_constraints(((construction, _, _), share) in (any_linkage(), -0.9..0.9_f64)) {
        let Ok(sweep) = Sweep::of(construction) else { return Ok(()) };
        let [low, high] = sweep.range_m();
        let z = if share < 0.0 { -share * low.max(-0.1) } else { share * high.min(0.1) };
        let Some((d, turn)) = by_constraints(&construction, z) else { return Ok(()) };
        let at = sweep.alignment(m(z), None).expect("inside");
        let drawn = sweep.drawn(m(z), &[]).expect("inside");
        let own = drawn.points.iter().find(|p| p.0 == PointName::LowerOuter).expect("D").1;
        // Newton's steps may have gone over to the other branch near locking: then the turn is another one altogether.
        prop_assume!((at.camber.si() + turn).abs() < 0.05);
        prop_assert!((at.camber.si() + turn).abs() < 1e-8, "{} {}", at.camber.si(), -turn);
        prop_assert!((own - d).size() < 1e-9, "{:?} {:?}", own, d);
    }
}
