//! Damper curves: closed forms against quadrature, properties, worked values.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use std::f64::consts::{PI, TAU};

use proptest::prelude::*;
use springwright::base::message::Message;
use springwright::base::units::{
    DampingRate, Force, Length, Mass, Pressure, Quantity, Ratio, SpringRate, TwistRate, Velocity,
};
use springwright::trade::damper::{
    self, BumpRebound, Click, Clicks, Curve, CurveError, Direction, ForcePoint, TwoSlope,
};

fn speed(v: f64) -> Velocity {
    Velocity::from_si(v)
}

fn curve(points: &[(f64, f64, f64)]) -> Curve {
    Curve::through(&force_points(points)).expect("a curve")
}

fn force_points(points: &[(f64, f64, f64)]) -> Vec<ForcePoint> {
    let force = |n| Some(Force::from_si(n));
    points.iter().map(|p| ForcePoint { speed: speed(p.0), bump: force(p.1), rebound: force(p.2) }).collect()
}

fn near(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance * want.abs().max(1e-12), "{what}: {got} is not {want}");
}

/// Five-point Gauss–Legendre on each of `pieces` parts of an interval (nodes and weights from memory, checked here).
fn integral(from: f64, to: f64, pieces: usize, f: impl Fn(f64) -> f64) -> f64 {
    let (a, b) =
        ((5.0 - 2.0 * (10.0_f64 / 7.0).sqrt()).sqrt() / 3.0, (5.0 + 2.0 * (10.0_f64 / 7.0).sqrt()).sqrt() / 3.0);
    let (wa, wb) = ((322.0 + 13.0 * 70.0_f64.sqrt()) / 900.0, (322.0 - 13.0 * 70.0_f64.sqrt()) / 900.0);
    let h = (to - from) / pieces as f64;
    let part = |i: usize| {
        let middle = from + (i as f64 + 0.5) * h;
        let at = |x: f64| f(middle + 0.5 * h * x);
        0.5 * h * (128.0 / 225.0 * at(0.0) + wa * (at(a) + at(-a)) + wb * (at(b) + at(-b)))
    };
    (0..pieces).map(part).sum()
}

#[test]
fn the_quadrature_itself() {
    near("degree nine", integral(0.0, 2.0, 1, |x| x.powi(9)), 102.4, 1e-13);
    near("sine", integral(0.0, PI, 8, f64::sin), 2.0, 1e-12);
}

/// ∮F dx / (π V X) of x = X sin ωt, cut where the curve has corners.
fn equal_work_numerically(curve: &Curve, peak: f64) -> f64 {
    let mut cuts: Vec<f64> = curve.corners_m_per_s().iter().filter(|v| **v < peak).map(|v| (v / peak).acos()).collect();
    cuts.extend([0.0, PI / 2.0]);
    let mut all: Vec<f64> = cuts.iter().flat_map(|c| [*c, PI - c, PI + c, TAU - c]).collect();
    all.sort_by(f64::total_cmp);
    let f = |phase: f64| curve.force_n(peak * phase.cos()) * phase.cos();
    all.windows(2).map(|w| integral(w[0], w[1], 4, f)).sum::<f64>() / (PI * peak)
}

/// Points that rise in speed, with forces of either shape.
fn any_points() -> impl Strategy<Value = Vec<(f64, f64, f64)>> {
    prop::collection::vec((0.01..0.3_f64, 0.0..3000.0_f64, 0.0..5000.0_f64), 1..7).prop_map(|steps| {
        let mut at = 0.0;
        let next = |(step, bump, rebound): (f64, f64, f64)| {
            at += step;
            (at, bump, rebound)
        };
        steps.into_iter().map(next).collect()
    })
}

proptest! {
    #[test]
    fn equal_work_is_the_integral(points in any_points(), peak in 0.005..2.0_f64) {
        let curve = curve(&points);
        let (closed, numeric) = (curve.equal_work(speed(peak)).mean().si(), equal_work_numerically(&curve, peak));
        let scale = points.iter().map(|p| (p.1 + p.2) / p.0).fold(0.0, f64::max).max(1.0);
        prop_assert!((closed - numeric).abs() <= 1e-9 * scale, "{closed} {numeric}");
    }

    /// Inside the points: a larger force anywhere is never less work.
    #[test]
    fn more_force_never_lowers_the_rate(
        points in any_points(), more in prop::collection::vec(0.0..500.0_f64, 7), share in 0.05..1.0_f64
    ) {
        let peak = speed(share * points[points.len() - 1].0);
        let stronger: Vec<_> = points.iter().zip(&more).map(|(p, m)| (p.0, p.1 + m, p.2 + 0.5 * m)).collect();
        let (weak, strong) = (curve(&points).equal_work(peak), curve(&stronger).equal_work(peak));
        let slack = 1e-9 * weak.mean().si().abs().max(1.0);
        prop_assert!(strong.bump.si() >= weak.bump.si() - slack && strong.rebound.si() >= weak.rebound.si() - slack);
    }

    /// Forces × a: rate × a. Speeds × b, peak too: rate ÷ b.
    #[test]
    fn scale(points in any_points(), peak in 0.01..1.0_f64, a in 0.1..5.0_f64, b in 0.1..5.0_f64) {
        let rate = |c: &Curve, v: f64| c.equal_work(speed(v)).mean().si();
        let first = curve(&points);
        let forces: Vec<_> = points.iter().map(|p| (p.0, a * p.1, a * p.2)).collect();
        let speeds: Vec<_> = points.iter().map(|p| (b * p.0, p.1, p.2)).collect();
        let base = rate(&first, peak);
        let scale = points.iter().map(|p| (p.1 + p.2) / p.0).fold(1.0, f64::max);
        prop_assert!((rate(&curve(&forces), peak) - a * base).abs() <= 1e-9 * a * scale);
        prop_assert!((rate(&first.scaled(Ratio::from_si(a)), peak) - a * base).abs() <= 1e-9 * a * scale);
        prop_assert!((rate(&curve(&speeds), b * peak) - base / b).abs() <= 1e-9 * scale / b);
    }

    /// The order of points does not matter, and every point lies on the curve.
    #[test]
    fn points_lie_on_it(points in any_points()) {
        let mut turned = points.clone();
        turned.reverse();
        let curve = curve(&points);
        prop_assert_eq!(&curve, &self::curve(&turned));
        for p in &points {
            prop_assert!((curve.force_n(p.0) - p.1).abs() < 1e-6 && (curve.force_n(-p.0) + p.2).abs() < 1e-6);
        }
        prop_assert_eq!(curve.force_n(0.0), 0.0);
        prop_assert!(curve.force_n(9.0) >= 0.0 && curve.force_n(-9.0) <= 0.0, "no force drives the motion");
    }
}

#[test]
fn beyond_the_points_the_last_slope_goes_on() {
    let c = curve(&[(0.1, 100.0, 300.0), (0.3, 200.0, 500.0)]);
    assert_eq!(c.last_speed(), speed(0.3));
    assert!(!c.is_beyond(speed(-0.3)) && c.is_beyond(speed(-0.31)));
    near("bump", c.force_n(0.5), 300.0, 1e-12);
    near("rebound", c.force_n(-0.5), -700.0, 1e-12);
    let falls = curve(&[(0.1, 200.0, 300.0), (0.3, 100.0, 500.0)]);
    near("level where it would fall", falls.force_n(0.9), 100.0, 1e-12);
    // One direction measured less far than the other: the shorter one counts.
    let short = [ForcePoint { speed: speed(0.5), bump: None, rebound: Some(Force::from_si(900.0)) }];
    let c = Curve::through(&[force_points(&[(0.1, 100.0, 300.0)]), short.to_vec()].concat()).expect("a curve");
    assert_eq!(c.last_speed(), speed(0.1));
    near("bump alone", c.force_n(0.5), 500.0, 1e-12);
}

#[test]
fn points_that_make_no_curve() {
    let p = |v, bump: Option<f64>, rebound: Option<f64>| ForcePoint {
        speed: speed(v),
        bump: bump.map(Force::from_si),
        rebound: rebound.map(Force::from_si),
    };
    let said = |points: &[ForcePoint]| Curve::through(points).expect_err("no curve").to_string();
    let good = p(0.1, Some(100.0), Some(200.0));
    assert_eq!(Curve::through(&[]), Err(CurveError::Nothing(Direction::Bump)));
    assert_eq!(said(&[p(0.1, Some(1.0), None)]), "no rebound force is given at any speed above 0");
    assert_eq!(said(&[p(0.0, Some(0.0), Some(0.0))]), "no bump force is given at any speed above 0");
    assert_eq!(
        said(&[p(-0.1, Some(1.0), Some(1.0))]),
        "the speed −0.1 m/s is below zero; bump and rebound have their own columns"
    );
    assert_eq!(said(&[good, p(0.2, Some(1.0), Some(-2.0))]), "the rebound force at 0.2 m/s is below zero");
    let rest = "the bump force at speed 0 is not 0: subtract gas force and friction";
    assert_eq!(said(&[good, p(0.0, Some(40.0), None)]), rest);
    assert_eq!(said(&[good, p(0.1, None, Some(3.0))]), "there are two rebound forces at 0.1 m/s");
}

/// C55. DERIVED there (standard results, from memory; checked by numerical integration). T1; two rates exactly.
#[test]
fn c55_equal_work() {
    let two = Curve::straight(BumpRebound { bump: DampingRate::from_si(1e3), rebound: DampingRate::from_si(3e3) });
    for peak in [0.01, 0.13, 0.5, 3.0] {
        near("two rates", two.equal_work(speed(peak)).mean().si(), 2_000.0, 1e-12);
    }
    // F = 2000 v² by 2000 straight lines: 8/(3π)·2000·0.5; chords err by their square.
    let square = |v: f64| 2_000.0 * v * v;
    let points: Vec<_> = (1..=2_000).map(|i| f64::from(i) * 5e-4).map(|v| (v, square(v), square(v))).collect();
    near("square law", curve(&points).equal_work(speed(0.5)).mean().si(), 848.83, 1e-5);
    // Dry friction of 150 N, its corner at a thousandth of a millimetre a second: 4·150/(π·0.5).
    let dry = curve(&[(1e-6, 150.0, 150.0), (1.0, 150.0, 150.0)]);
    near("dry friction", dry.equal_work(speed(0.5)).mean().si(), 381.97, 1e-4);
}

/// C4 of the open cases: the two-slope damper. Computed there by an independent script; 0.1 % is asked, 1e-9 is met.
#[test]
fn c4_two_slopes() {
    let (mass, unsprung, r_d) = (Mass::from_si(428.0), Mass::from_si(44.0), 0.74_f64);
    let wheel_rate = SpringRate::from_si(48_000.0 * 0.68_f64.powi(2));
    let at_wheel = damper::rate_for(Ratio::from_si(0.30), wheel_rate, mass);
    near("c_new_wheel", at_wheel.si(), 1_849.279_972_313_548_8, 1e-12);
    let mean = damper::damper_from_wheel(at_wheel, Ratio::from_si(r_d));
    near("c_target_damper", mean.si(), 3_377.063_499_476_897, 1e-12);
    // √2 r_d × the rms travel speed on the case's road, which is the road's own matter.
    let peak = speed(2.0_f64.sqrt() * r_d * 0.394_465_658_428_883_26);
    near("amp_velocity_at_damper", peak.si(), 0.412_815_426_190_014_05, 1e-12);
    let asked = |peak| TwoSlope::of_equal_work(mean, Ratio::from_si(2.0), speed(0.13), Ratio::from_si(0.35), peak);
    let two = asked(peak);
    near("c_low_mean", two.low.mean().si(), 5_570.433_792_724_558, 1e-9);
    near("c_high_mean", (two.low.mean() * two.upper_share).si(), 1_949.651_827_453_595_2, 1e-9);
    near("bump_low", two.low.bump.si(), 3_713.622_528_483_038_4, 1e-9);
    near("reb_low", two.low.rebound.si(), 7_427.245_056_966_077, 1e-9);
    let (bump, rebound) = two.forces(speed(0.13));
    near("F_bump_at_knee", bump.si(), 482.770_928_702_795, 1e-9);
    near("F_reb_at_knee", rebound.si(), 965.541_857_405_59, 1e-9);
    let (bump, rebound) = two.forces(speed(0.52));
    near("F_bump_0p52", bump.si(), 989.680_403_840_729_7, 1e-9);
    near("F_reb_0p52", rebound.si(), 1_979.360_807_681_459_4, 1e-9);
    let usual = asked(speed(0.13));
    near("bump_low at 0.13", usual.low.bump.si(), 2_251.375_666_317_931_5, 1e-9);
    near("reb_low at 0.13", usual.low.rebound.si(), 4_502.751_332_635_863, 1e-9);
    near("F_bump_at_knee at 0.13", usual.forces(speed(0.13)).0.si(), 292.678_836_621_331_13, 1e-9);
    near("F_bump_0p52 at 0.13", usual.forces(speed(0.52)).0.si(), 599.991_615_073_728_7, 1e-9);
    // Around the circle: the curve of the target gives back the rate it was made from.
    near("the curve's own rate", two.curve().equal_work(peak).mean().si(), mean.si(), 1e-12);
    let gas = damper::gas_force(Pressure::from_si(10e5), Length::from_si(0.014));
    near("gas", gas.si(), 153.938_040_025_899_88, 1e-12);
    let lift = damper::gas_lift(gas, Ratio::from_si(r_d), wheel_rate);
    near("lift", lift.si(), 5.132_377_704_150_712e-3, 1e-12);
    let tyre = SpringRate::from_si(205_000.0);
    let hop = damper::hop_ratio(at_wheel, wheel_rate, tyre, unsprung);
    near("hop", hop.si(), at_wheel.si() / (2.0 * ((wheel_rate.si() + 205_000.0) * 44.0).sqrt()), 1e-12);
}

/// Roll by energy: both wheels move ± φ t/2, so the two dampers turn ½ c t² φ̇ into heat. DERIVED.
#[test]
fn damping_in_roll() {
    let c = damper::roll_rate(DampingRate::from_si(1_500.0), Length::from_si(1.5));
    let power = 2.0 * 1_500.0 * (0.75_f64 * 0.2).powi(2);
    near("power", c * 0.2 * 0.2, power, 1e-12);
    // A body of 1 kg on 1 m with K = 1 is critical at c = 2.
    let ratio = damper::roll_ratio(2.0, TwistRate::from_si(1.0), Mass::from_si(1.0), Length::from_si(1.0));
    near("critical", ratio.si(), 1.0, 1e-12);
}

#[test]
fn the_click_that_fits() {
    let at = |n: f64| Click { number: Some(n), curve: curve(&[(0.5, 100.0 * n, 300.0 * n)]) };
    let clicks = Clicks::new(vec![at(8.0), at(2.0), at(4.0), at(6.0)]).expect("clicks");
    let numbers: Vec<_> = clicks.all().iter().map(|c| c.number).collect();
    assert_eq!(numbers, [Some(2.0), Some(4.0), Some(6.0), Some(8.0)]);
    let ratios = clicks.ratios(speed(0.13), DampingRate::from_si(8_000.0));
    for (ratio, want) in ratios.iter().zip([0.1, 0.2, 0.3, 0.4]) {
        near("ratio", ratio.si(), want, 1e-12);
    }
    let r = Ratio::from_si;
    let fit = Clicks::fit(&ratios, r(0.18), r(0.26), r(0.35)).expect("a fit");
    assert_eq!((fit.best, fit.inside), (2, Some((1, 2))));
    let none = Clicks::fit(&ratios, r(0.31), r(0.34), r(0.37)).expect("a fit");
    assert_eq!((none.best, none.inside), (2, None));
    assert!(Clicks::new(Vec::new()).is_none());
}

mod reading {
    use super::*;
    use springwright::base::units::{Dim, table};
    use springwright::shop::parts::test_sheet::{Ask, CurveTable, read};

    fn rows(text: &str) -> Vec<(f64, Option<f64>, Option<f64>)> {
        of(&read(text.as_bytes(), &Ask::default()).unwrap_or_else(|e| panic!("{text}: {e}")))
    }

    fn of(found: &CurveTable) -> Vec<(f64, Option<f64>, Option<f64>)> {
        let si = |f: Option<Force>| f.map(Quantity::si);
        found.rows.iter().map(|r| (r.point.speed.si(), si(r.point.bump), si(r.point.rebound))).collect()
    }

    fn made(text: &str, ask: &Ask) -> Curve {
        let found = read(text.as_bytes(), ask).unwrap_or_else(|e| panic!("{text}: {e}"));
        let points: Vec<ForcePoint> = found.rows.iter().map(|r| r.point).collect();
        Curve::through(&points).expect("a curve")
    }

    fn wrong(text: &str) -> String {
        read(text.as_bytes(), &Ask::default()).expect_err(text).to_string()
    }

    /// The same curve in every convention that test sheets use.
    #[test]
    fn every_sign_convention_gives_the_same_curve() {
        let want = curve(&[(0.1, 100.0, 250.0), (0.3, 180.0, 470.0)]);
        for text in [
            "speed (m/s),bump (N),rebound (N)\n0.1,100,250\n0.3,180,470\n",
            "speed (m/s),bump (N),rebound (N)\n0.1,100,-250\n0.3,180,-470\n",
            "Velocity [mm/s];Compression [N];Rebound [N]\n100;-100;250\n300;-180;470\n",
            "speed (m/s)\tforce (N)\n0.3\t180\n0.1\t100\n-0.1\t-250\n-0.3\t-470\n",
            "speed m/s;force N\n0,1;100\n0,3;180\n-0,1;250\n-0,3;470\n",
            "speed (m/s),force (N)\n0,0\n0.1,100\n0.3,180\n0.1,-250\n0.3,-470\n",
            "Geschwindigkeit (mm/s);Druckstufe (N);Zugstufe (N)\n100;100;250\n300;180;470\n",
        ] {
            assert_eq!(made(text, &Ask::default()), want, "{text}");
        }
        let turned = "speed (m/s),force (N)\n-0.1,-100\n-0.3,-180\n0.1,250\n0.3,470\n";
        assert_eq!(made(turned, &Ask { plus: Direction::Rebound, ..Ask::default() }), want);
        let said = Message::row(read(turned.as_bytes(), &Ask::default()).expect("read").notes, "; ").to_string();
        assert!(said.contains("Positive speeds read as bump, negative as rebound"), "{said}");
        assert!(said.contains("are the signs reversed?"), "{said}");
    }

    /// Units from the header, the cell, or as chosen; factors from `SP811`: 1 in = 25.4 mm, 1 lbf = 4.448 221 615 260 5 N.
    #[test]
    fn units() {
        let near_rows = |text: &str, want: (f64, f64, f64)| {
            let (v, bump, rebound) = rows(text)[0];
            near(text, v, want.0, 1e-12);
            near(text, bump.expect("bump"), want.1, 1e-12);
            near(text, rebound.expect("rebound"), want.2, 1e-12);
        };
        near_rows("speed in/s,bump lbf,rebound lb\n10,100,200\n", (0.254, 444.822_161_526_05, 889.644_323_052_1));
        near_rows("speed (mm/s),bump (kgf),rebound (N)\n130,10,200\n", (0.13, 98.0665, 200.0));
        near_rows("v,F bump,F rebound\n5 in/s,100 N,20 kgf\n", (0.127, 100.0, 196.133));
        let bare = "speed,bump,rebound\n5,100,200\n";
        assert_eq!(
            wrong(bare),
            "Column \"speed\" has no unit. Give it in the header, or choose one: m/s, mm/s or in/s"
        );
        let ask = Ask {
            speed: table::find(Dim::DamperSpeed, "in/s"),
            force: table::find(Dim::Force, "lbf"),
            ..Ask::default()
        };
        let found = read(bare.as_bytes(), &ask).expect("read");
        near("chosen speed", of(&found)[0].0, 0.127, 1e-12);
        assert_eq!(found.units.map(|u| u.symbol), ["in/s", "lbf"]);
    }

    #[test]
    fn clicks_stand_beside_the_rows() {
        let text = "click,speed (m/s),bump (N),rebound (N)\n2,0.1,100,200\n8,0.1,150,300\n";
        let found = read(text.as_bytes(), &Ask::default()).expect("read");
        assert_eq!(found.rows.iter().map(|r| (r.line, r.click)).collect::<Vec<_>>(), [(2, Some(2.0)), (3, Some(8.0))]);
    }

    #[test]
    fn what_cannot_be_read_is_said_with_line_and_value() {
        let heads = "speed (m/s),bump (N),rebound (N)\n";
        let rows = "Name the columns in the first row: speed, bump, rebound; or speed and force, with signs";
        for (text, said) in [
            (String::new(), "The file is empty".to_owned()),
            (heads.to_owned(), "The file is empty".into()),
            ("0.1,100,200\n0.2,150,300\n".into(), "The first row has no column names. Add a row of column names above the parts".into()),
            ("speed (m/s),colour\n1,2\n".into(), format!("No column gives the force. {rows}")),
            ("bump (N),rebound (N)\n1,2\n".into(), format!("No column gives the speed. {rows}")),
            ("speed (m/s),bump (N)\n1,2\n".into(), format!("No column gives the rebound force. {rows}")),
            ("speed (N),bump (N),rebound (N)\n1,2,3\n".into(), "Column \"speed (N)\": the unit given is not a unit for a damper speed; use m/s, mm/s or in/s".into()),
            ("speed (m/s),bump (N),bump at clip (N),rebound (N)\n1,2,3,4\n".into(), "Columns \"bump (N)\" and \"bump at clip (N)\" both give the bump force. Keep one".into()),
            ("speed (m/s),force (N)\n0.1,100\n".into(), "Neither speeds nor forces have a sign, so bump and rebound cannot be distinguished. Use two columns, bump and rebound, or give signs".into()),
            (format!("{heads}0.1,100,200\n0.2,-150,300\n"), "Line 3: the sign of the bump force −150 N differs from that in the rows above".into()),
            (format!("{heads}-0.1,100,200\n"), "Line 2: the speed −0.1 m/s is negative; with separate bump and rebound columns, speeds have no sign".into()),
            (format!("{heads}0.1,100\n"), "Line 2: 3 cells are expected, as in the header; the row has 2".into()),
            (format!("{heads},100,200\n0.2,,\n"), "Line 2: the speed is missing\nLine 3: the force is missing".into()),
            ("speed (m/s),force (N)\n0.1,100\n-0.1,-200\n-0.2,300\n".into(), "Line 4: the sign of the force 300 N differs from that of the other forces in this direction".into()),
        ] {
            assert_eq!(wrong(&text), said, "{text}");
        }
        let said = wrong(&format!("{heads}0.1,about 100,200\n0.2,5 kg,300\n"));
        assert!(said.starts_with("Line 2: column \"bump (N)\": ") && said.contains("about 100"), "{said}");
        assert!(said.contains("\nLine 3: column \"bump (N)\": ") && said.contains('5'), "{said}");
    }

    proptest! {
        /// Any bytes: an answer or a reason, no panic.
        #[test]
        fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..200), text in "speed \\(m/s\\)[;,]force \\(N\\)\n([-0-9.,;]{0,12}\n){0,6}") {
            let _ = read(&bytes, &Ask::default());
            if let Err(error) = read(text.as_bytes(), &Ask::default()) {
                prop_assert!(!error.to_string().is_empty());
            }
        }
    }
}
