//! The whole vehicle: what must hold for any ledger, any pair of axles, any hump.
//!
//! The closed forms of `ledger` are held against springs, bars and tyres put together as one system of linear equations
//! (body in heave, pitch and roll, each axle in heave and roll), those of `pitch` against eigenvalues of that kind of
//! system and against a step-by-step integration. Everything here is DERIVED; nothing was published.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::properties;

use std::f64::consts::{PI, TAU};

use nalgebra::{Matrix2, SMatrix, SVector, SymmetricEigen, Vector2};
use properties::{config, same};
use proptest::collection::vec;
use proptest::prelude::*;
use springwright::base::units::{
    Angle, Force, Frequency, G_M_PER_S2, Length, Mass, Quantity, Ratio, SpringRate, Time, TwistRate, Velocity,
};
use springwright::trade::ledger::{self, AxleLift, AxleLiftSpread, On, Part, RollPath};
use springwright::trade::pitch::{self, Hump, Swing, TwoAxles};
use springwright::trade::roll::{self, AntiRollBar, AxleInRoll, Body};
use springwright::trade::spring::Bar;
use springwright::trade::weights::Corners;

fn kg(si: f64) -> Mass {
    Mass::from_si(si)
}

fn m(si: f64) -> Length {
    Length::from_si(si)
}

/// One axle as it is built: two springs on their base, two tyres on the track, a bar.
#[derive(Debug, Clone, Copy)]
struct Axle {
    spring_n_per_m: f64,
    base_m: f64,
    bar_nm_per_rad: f64,
    tyre_n_per_m: f64,
    track_m: f64,
}

impl Axle {
    fn path(&self) -> RollPath {
        let pair = |rate, base| roll::independent(SpringRate::from_si(rate), m(base));
        RollPath {
            springs: pair(self.spring_n_per_m, self.base_m),
            bar: TwistRate::from_si(self.bar_nm_per_rad),
            tyres: pair(self.tyre_n_per_m, self.track_m),
            track: m(self.track_m),
        }
    }
}

#[derive(Debug, Clone, Copy)]
struct Vehicle {
    wheelbase_m: f64,
    axles: [Axle; 2],
}

impl Vehicle {
    fn paths(&self) -> [RollPath; 2] {
        self.axles.map(|a| a.path())
    }

    fn change(&self, parts: &[Part]) -> [f64; 4] {
        let found = ledger::corner_change(parts, m(self.wheelbase_m), &self.paths());
        found.expect("stiffness and track are there").walk().map(Quantity::si)
    }
}

fn any_axle() -> impl Strategy<Value = Axle> {
    (10e3..80e3, 0.5..1.0, 0.0..40e3, 100e3..400e3, 1.2..1.9).prop_map(|(spring, narrower, bar, tyre, track)| Axle {
        spring_n_per_m: spring,
        base_m: narrower * track,
        bar_nm_per_rad: bar,
        tyre_n_per_m: tyre,
        track_m: track,
    })
}

fn any_vehicle() -> impl Strategy<Value = Vehicle> {
    (2.0..4.5, any_axle(), any_axle())
        .prop_map(|(wheelbase_m, front, rear)| Vehicle { wheelbase_m, axles: [front, rear] })
}

fn part(mass: f64, x: f64, y: f64, on: On) -> Part {
    Part { mass: kg(mass), x: m(x), y: m(y), on }
}

fn any_on() -> impl Strategy<Value = On> {
    prop_oneof![3 => Just(On::Body), 1 => (0_usize..2).prop_map(On::Axle)]
}

fn any_parts() -> impl Strategy<Value = Vec<Part>> {
    vec((-250.0..250.0, -1.0..6.0, -0.9..0.9, any_on()).prop_map(|(mass, x, y, on)| part(mass, x, y, on)), 0..6)
}

fn corners_of(four: [f64; 4]) -> Corners<Length> {
    Corners { lf: m(four[0]), rf: m(four[1]), lr: m(four[2]), rr: m(four[3]) }
}

fn four(range: std::ops::Range<f64>) -> impl Strategy<Value = [f64; 4]> {
    [range.clone(), range.clone(), range.clone(), range]
}

// ---- the other route: one system of equations ------------------------------------------------------------------

/// Body height at the front axle line, its fall per metre rearward, its roll; height and roll of each axle.
type Places = SVector<f64, 7>;

/// Where a point of the body, or of an axle, moves up with the unknowns. Roll is + right side down.
fn of_body(x_m: f64, y_m: f64) -> Places {
    Places::from_column_slice(&[1.0, -x_m, -y_m, 0.0, 0.0, 0.0, 0.0])
}

fn of_axle(axle: usize, y_m: f64) -> Places {
    let mut row = Places::zeros();
    row[3 + 2 * axle] = 1.0;
    row[4 + 2 * axle] = -y_m;
    row
}

struct Equations {
    stiffness: SMatrix<f64, 7, 7>,
    load_n: Places,
}

impl Equations {
    /// A spring that is longer by row·q, and was made longer by `offset`.
    fn spring(&mut self, rate: f64, row: Places, offset: f64) {
        self.stiffness += row * row.transpose() * rate;
        self.load_n += row * (rate * offset);
    }
}

/// Upward tyre forces gained at LF, RF, LR, RR, N. Seats are wheel travel, pads are heights.
fn tyre_forces(vehicle: &Vehicle, parts: &[Part], seats: [f64; 4], pads: [f64; 4]) -> [f64; 4] {
    let mut system = Equations { stiffness: SMatrix::zeros(), load_n: Places::zeros() };
    for (i, axle) in vehicle.axles.iter().enumerate() {
        let x_m = if i == 0 { 0.0 } else { vehicle.wheelbase_m };
        let (left, right) = (seats[2 * i], seats[2 * i + 1]);
        for (side, (sign, pad)) in [(-1.0, pads[2 * i]), (1.0, pads[2 * i + 1])].into_iter().enumerate() {
            let (spring_y, tyre_y) = (sign * axle.base_m / 2.0, sign * axle.track_m / 2.0);
            // On a narrow base a seat that rolls the body like that wheel travel is lower.
            let seat = (left + right) / 2.0 + [1.0, -1.0][side] * (left - right) / 2.0 * axle.base_m / axle.track_m;
            system.spring(axle.spring_n_per_m, of_body(x_m, spring_y) - of_axle(i, spring_y), seat);
            system.spring(axle.tyre_n_per_m, of_axle(i, tyre_y), pad);
        }
        let mut twist = Places::zeros();
        (twist[2], twist[4 + 2 * i]) = (1.0, -1.0);
        system.spring(axle.bar_nm_per_rad, twist, 0.0);
    }
    for p in parts {
        let at = match p.on {
            On::Body => of_body(p.x.si(), p.y.si()),
            On::Axle(i) => of_axle(i, p.y.si()),
        };
        system.load_n -= at * (p.mass.si() * G_M_PER_S2);
    }
    let found = system.stiffness.lu().solve(&system.load_n).expect("it stands on its tyres");
    let tyre = |i: usize, sign: f64, pad: f64| {
        let axle = &vehicle.axles[i];
        axle.tyre_n_per_m * (pad - of_axle(i, sign * axle.track_m / 2.0).dot(&found))
    };
    [tyre(0, -1.0, pads[0]), tyre(0, 1.0, pads[1]), tyre(1, -1.0, pads[2]), tyre(1, 1.0, pads[3])]
}

/// Apart by no more than a share of a scale that does not vanish.
macro_rules! level {
    ($what:expr, $a:expr, $b:expr, $scale:expr) => {
        let (a, b, scale): (f64, f64, f64) = ($a, $b, $scale);
        prop_assert!((a - b).abs() <= 1e-8 * scale, "{}: {a} and {b}", $what);
    };
}

fn carried(parts: &[Part]) -> f64 {
    1.0 + parts.iter().map(|p| p.mass.si().abs()).sum::<f64>()
}

proptest! {
    #![proptest_config(config(256))]

    // ---- the ledger --------------------------------------------------------------------------------------------

    #[test]
    fn an_empty_ledger_changes_nothing(vehicle in any_vehicle()) {
        prop_assert_eq!(ledger::axle_change(&[], m(vehicle.wheelbase_m)), [kg(0.0); 2]);
        prop_assert_eq!(vehicle.change(&[]), [0.0; 4]);
        let level = Corners::default();
        let found = ledger::pads_and_seats(&level, &level, &vehicle.paths()).expect("stiffness is there");
        prop_assert_eq!(found.walk().map(Quantity::si), [0.0; 4]);
    }

    /// At an axle line, on the body or on the axle itself, the other axle gains exactly nothing.
    #[test]
    fn a_part_at_an_axle_line_loads_that_axle(vehicle in any_vehicle(), mass in -300.0..300.0, x in -9.0..9.0) {
        let (front, rear) = (m(0.0), m(vehicle.wheelbase_m));
        for p in [part(mass, front.si(), 0.3, On::Body), part(mass, x, 0.3, On::Axle(0))] {
            prop_assert_eq!(ledger::axle_change(&[p], rear), [kg(mass), kg(0.0)]);
        }
        for p in [part(mass, rear.si(), 0.3, On::Body), part(mass, x, 0.3, On::Axle(1))] {
            prop_assert_eq!(ledger::axle_change(&[p], rear), [kg(0.0), kg(mass)]);
        }
    }

    #[test]
    fn mass_and_moments_are_conserved(vehicle in any_vehicle(), parts in any_parts()) {
        let [lf, rf, lr, rr] = vehicle.change(&parts);
        let scale = carried(&parts);
        let sum = |of: &dyn Fn(&Part) -> f64| parts.iter().map(|p| p.mass.si() * of(p)).sum::<f64>();
        level!("mass", lf + rf + lr + rr, sum(&|_| 1.0), scale);
        let place = |p: &Part| match p.on {
            On::Body => p.x.si(),
            On::Axle(i) => [0.0, vehicle.wheelbase_m][i],
        };
        level!("moment about the front axle", (lr + rr) * vehicle.wheelbase_m, sum(&place), scale);
        let [front, rear] = vehicle.axles.map(|a| a.track_m / 2.0);
        level!("moment about the centreline", (rf - lf) * front + (rr - lr) * rear, sum(&|p| p.y.si()), scale);
        let [front, rear] = ledger::axle_change(&parts, m(vehicle.wheelbase_m));
        level!("front axle", front.si(), lf + rf, scale);
        level!("rear axle", rear.si(), lr + rr, scale);
    }

    #[test]
    fn mirrored_parts_mirror_the_corners(vehicle in any_vehicle(), parts in any_parts()) {
        let mirrored: Vec<Part> = parts.iter().map(|p| Part { y: -p.y, ..*p }).collect();
        let [lf, rf, lr, rr] = vehicle.change(&parts);
        for (a, b) in vehicle.change(&mirrored).into_iter().zip([rf, lf, rr, lr]) {
            level!("corner", a, b, carried(&parts));
        }
    }

    /// What sits on the body, and what sits in the middle of an axle, against the system of equations.
    #[test]
    fn corners_by_equations(vehicle in any_vehicle(), parts in any_parts()) {
        let middle = |p: &Part| if p.on == On::Body { *p } else { Part { y: m(0.0), ..*p } };
        let parts: Vec<Part> = parts.iter().map(middle).collect();
        let want = tyre_forces(&vehicle, &parts, [0.0; 4], [0.0; 4]);
        for (got, want) in vehicle.change(&parts).into_iter().zip(want) {
            level!("corner", got * G_M_PER_S2, want, 10.0 * carried(&parts));
        }
    }

    /// What sits beside the middle of an axle tilts it on its tyres, and its springs hand a little of that to the body.
    /// The ledger leaves that out, as its rule says: M/K_t · K_i K_j/(K_i + K_j), a few hundredths of the moment.
    #[test]
    fn what_the_rule_for_unsprung_parts_leaves_out(
        vehicle in any_vehicle(), mass in 1.0..100.0, y in 0.1..0.9, i in 0_usize..2
    ) {
        let p = part(mass, 0.0, y, On::Axle(i));
        let got = vehicle.change(&[p]).map(|kg| kg * G_M_PER_S2);
        let want = tyre_forces(&vehicle, &[p], [0.0; 4], [0.0; 4]);
        let paths = vehicle.paths();
        let [front, rear] = paths.map(|p| p.to_ground().si());
        let handed_nm = mass * G_M_PER_S2 * y / paths[i].tyres.si() * front * rear / (front + rear);
        let other = 1 - i;
        prop_assert_eq!([got[2 * other], got[2 * other + 1]], [0.0; 2]);
        level!("other axle", want[2 * other + 1], handed_nm / vehicle.axles[other].track_m, 10.0 * mass);
        level!("own axle", got[2 * i + 1] - want[2 * i + 1], handed_nm / vehicle.axles[i].track_m, 10.0 * mass);
    }

    #[test]
    fn seats_and_pads_by_equations(vehicle in any_vehicle(), seats in four(-0.05..0.05), pads in four(-0.03..0.03)) {
        let found = ledger::pads_and_seats(&corners_of(seats), &corners_of(pads), &vehicle.paths());
        let got = found.expect("stiffness is there").walk().map(Quantity::si);
        for (got, want) in got.into_iter().zip(tyre_forces(&vehicle, &[], seats, pads)) {
            level!("corner", got, want, 1e4);
        }
        level!("front axle", got[0] + got[1], 0.0, 1e4);
        level!("rear axle", got[2] + got[3], 0.0, 1e4);
    }

    /// Opposed turns at all four corners leave the front share, and the left share when the tracks are equal.
    #[test]
    fn opposed_turns(vehicle in any_vehicle(), turns in 0.001..0.05) {
        let seats = Corners { lf: m(turns), rf: m(-turns), lr: m(-turns), rr: m(turns) };
        let gained = |vehicle: &Vehicle| {
            let found = ledger::pads_and_seats(&seats, &Corners::default(), &vehicle.paths());
            found.expect("stiffness is there").walk().map(Quantity::si)
        };
        let [lf, rf, lr, rr] = gained(&vehicle);
        level!("front axle", lf + rf, 0.0, lf.abs());
        prop_assert!(lf > 0.0 && rr > 0.0 && rf < 0.0 && lr < 0.0, "raised corners carry more: {lf} {rf} {lr} {rr}");
        let [front, rear] = vehicle.axles.map(|a| a.track_m);
        level!("left side", lf + lr, lf * (1.0 - front / rear), lf);
        let mut equal = vehicle;
        equal.axles[1].track_m = front;
        let [lf, _, lr, _] = gained(&equal);
        level!("left side, equal tracks", lf + lr, 0.0, lf);
    }

    /// Without stiffness, track or wheelbase nothing is said.
    #[test]
    fn nothing_to_share_by(vehicle in any_vehicle()) {
        let parts = [part(80.0, 1.0, 0.4, On::Body)];
        let change = |paths: [RollPath; 2], wheelbase| ledger::corner_change(&parts, m(wheelbase), &paths);
        let paths = vehicle.paths();
        let none = TwistRate::from_si(0.0);
        let limp = paths.map(|p| RollPath { springs: none, bar: none, ..p });
        prop_assert_eq!(change(limp, vehicle.wheelbase_m), None);
        prop_assert_eq!(change(paths.map(|p| RollPath { tyres: none, ..p }), vehicle.wheelbase_m), None);
        prop_assert_eq!(change(paths.map(|p| RollPath { track: m(0.0), ..p }), vehicle.wheelbase_m), None);
        prop_assert_eq!(change(paths, 0.0), None);
        let level = Corners::default();
        prop_assert_eq!(ledger::pads_and_seats(&level, &level, &limp), None);
        // One limp axle leaves the whole roll moment to the other; nothing changes the cross weight then.
        let one = [paths[0], limp[1]];
        let found = change(one, vehicle.wheelbase_m).expect("the front is stiff");
        same!("rear corners alike", found.lr.si(), found.rr.si(), 1e-9);
        // Rigid tyres are the limit of stiff ones.
        let rigid = paths.map(|p| RollPath { tyres: TwistRate::from_si(f64::INFINITY), ..p });
        let stiff = paths.map(|p| RollPath { tyres: TwistRate::from_si(1e15), ..p });
        let (rigid, stiff) = (change(rigid, vehicle.wheelbase_m), change(stiff, vehicle.wheelbase_m));
        same!("rigid", rigid.expect("stiff").lf.si(), stiff.expect("stiff").lf.si(), 1e-6);
    }

    #[test]
    fn a_missing_part_is_found(wheelbase in 2.0..4.5, mass in 5.0..300.0_f64, x in -1.5..6.0, out in any::<bool>()) {
        let mass = if out { -mass } else { mass };
        let residual = ledger::axle_change(&[part(mass, x, 0.0, On::Body)], m(wheelbase));
        let (found, at) = ledger::where_missing(residual, m(wheelbase)).expect("something is missing");
        same!("mass", found.si(), mass, 1e-9);
        prop_assert!((at.si() - x).abs() < 1e-9);
        prop_assert_eq!(ledger::where_missing([kg(mass), kg(-mass)], m(wheelbase)), None);
        prop_assert_eq!(ledger::where_missing([kg(0.0); 2], m(wheelbase)), None);
    }

    /// A tongue load presses where cargo of its weight would.
    #[test]
    fn tongue_as_cargo(wheelbase in 2.0..4.5, hitch in 0.3..2.0, load in -3e3..3e3) {
        let cargo = part(load / G_M_PER_S2, wheelbase + hitch, 0.0, On::Body);
        let want = ledger::axle_change(&[cargo], m(wheelbase)).map(|kg| kg.si() * G_M_PER_S2);
        for (got, want) in ledger::tongue(Force::from_si(load), m(hitch), m(wheelbase)).into_iter().zip(want) {
            same!("axle", got.si(), want, 1e-9);
        }
    }

    #[test]
    fn centre_of_gravity_of_weights_put_together(vehicle in any_vehicle(), masses in four(50.0..800.0)) {
        let [front, rear] = vehicle.axles.map(|a| a.track_m);
        let readings = Corners { lf: kg(masses[0]), rf: kg(masses[1]), lr: kg(masses[2]), rr: kg(masses[3]) };
        let found = ledger::centre_of_gravity(&readings, m(vehicle.wheelbase_m), [m(front), m(rear)]);
        let found = found.expect("it weighs something");
        let whole: f64 = masses.iter().sum();
        let (x, half) = (vehicle.wheelbase_m, rear / 2.0);
        let places = [(0.0, -front / 2.0), (0.0, front / 2.0), (x, -half), (x, half)];
        // No moment is left about the point found.
        let about = |of: &dyn Fn((f64, f64)) -> f64| masses.iter().zip(places).map(|(m, p)| m * of(p)).sum::<f64>();
        level!("along", about(&|p| p.0 - found.behind_front.si()), 0.0, whole);
        level!("across", about(&|p| p.1 - found.right.si()), 0.0, whole);
    }

    /// The body turned about the front hubs, point by point, and the reading it would give; then the height back.
    #[test]
    fn axle_lift_by_coordinates(
        wheelbase in 2.0..4.5, hub in 0.25..0.5, height in 0.3..1.5, share in 0.3..0.7,
        rise in 0.2..1.0, total in 600.0..4_000.0
    ) {
        let behind = (1.0 - share) * wheelbase;
        let angle = f64::asin(rise / wheelbase);
        // Rear up: the centre of gravity, seen from the front hub, turns forward.
        let reach = behind * angle.cos() - (height - hub) * angle.sin();
        let front = |reach: f64, base: f64| total * (1.0 - reach / base);
        let lift = AxleLift {
            total: kg(total),
            wheelbase: m(wheelbase),
            hub_height: m(hub),
            rise: m(rise),
            level: kg(front(behind, wheelbase)),
            lifted: kg(front(reach, wheelbase * angle.cos())),
        };
        let found = lift.height().expect("it is lifted").si();
        level!("height", found, height, 1.0);
        // The ± term by term: each input moved a little by hand.
        let spread = AxleLiftSpread {
            reading: kg(0.5),
            total: kg(3.0),
            wheelbase: m(0.004),
            hub_height: m(0.002),
            rise: m(0.003),
        };
        let tiny = 1e-4;
        let moved = |l: AxleLift| (l.height().expect("it is lifted").si() - found) / tiny;
        let terms = [
            moved(AxleLift { level: lift.level + spread.reading * tiny, ..lift }),
            moved(AxleLift { lifted: lift.lifted + spread.reading * tiny, ..lift }),
            moved(AxleLift { total: lift.total + spread.total * tiny, ..lift }),
            moved(AxleLift { wheelbase: lift.wheelbase + spread.wheelbase * tiny, ..lift }),
            moved(AxleLift { hub_height: lift.hub_height + spread.hub_height * tiny, ..lift }),
            moved(AxleLift { rise: lift.rise + spread.rise * tiny, ..lift }),
        ];
        let want = terms.iter().map(|t| t * t).sum::<f64>().sqrt();
        same!("spread", lift.height_spread(&spread).expect("it is lifted").si(), want, 1e-4);
    }

    // ---- roll --------------------------------------------------------------------------------------------------

    /// Energy of two springs and of the bar at a small roll, against ½ K φ².
    #[test]
    fn roll_stiffness_by_energy(
        axle in any_axle(), rubber in 0.0..5e3, blade in 0.1..0.4, ratio in 0.3..1.0, phi in 0.001..0.05_f64
    ) {
        let half = |base: f64| -> f64 { base / 2.0 * phi };
        let springs = SpringRate::from_si(axle.spring_n_per_m);
        let beam = roll::beam(&[(springs, m(axle.base_m)), (SpringRate::from_si(rubber), m(axle.track_m))]);
        let stored = axle.spring_n_per_m * half(axle.base_m).powi(2) + rubber * half(axle.track_m).powi(2);
        same!("beam", 0.5 * beam.si() * phi * phi, stored, 1e-12);
        let bar = AntiRollBar {
            diameter_m: 0.024,
            inside_m: 0.012,
            length_m: 0.9,
            blade_m: blade,
            link_ratio: ratio,
            shear_modulus_pa: 79e9,
        };
        let plain = Bar { diameter_m: 0.024, inside_m: 0.012, length_m: 0.9, shear_modulus_pa: 79e9 }.twist_rate().si();
        let twist = 2.0 * half(axle.track_m) * ratio / blade;
        same!("bar", 0.5 * bar.roll_stiffness(m(axle.track_m)).si() * phi * phi, 0.5 * plain * twist * twist, 1e-12);
        // On tyres: the same moment through both, angles add.
        let pair = roll::independent(SpringRate::from_si(axle.tyre_n_per_m), m(axle.track_m));
        let on_tyres = roll::in_series(beam, pair).si();
        let tyres = axle.tyre_n_per_m * axle.track_m * axle.track_m / 2.0;
        same!("angles add", 1.0 / on_tyres, 1.0 / beam.si() + 1.0 / tyres, 1e-12);
    }

    /// In a steady corner: what both axles move across equals the whole overturning moment about the ground. The roll
    /// axis passes `above` below the sprung centre of gravity, at the height that the roll centres give there.
    #[test]
    fn load_transfer_balances(
        front in any_axle(), rear in any_axle(), sprung in (200.0..1_200.0, 200.0..1_200.0),
        centres in (0.0..0.3, 0.0..0.5), above in 0.2..0.6
    ) {
        let axle = |axle: Axle, sprung, centre| AxleInRoll {
            stiffness: roll::together(&[axle.path().springs, axle.path().bar]),
            sprung: kg(sprung),
            roll_centre: m(centre),
            unsprung: kg(90.0),
            unsprung_height: m(0.31),
            track: m(axle.track_m),
        };
        let (front, rear) = (axle(front, sprung.0, centres.0), axle(rear, sprung.1, centres.1));
        let whole = sprung.0 + sprung.1;
        let body = Body { sprung: kg(whole), above_axis: m(above) };
        let stiffness = roll::together(&[front.stiffness, rear.stiffness]);
        let gradient = roll::gradient_rad_s2_per_m(body, stiffness);
        prop_assert_eq!(gradient.is_some(), stiffness.si() > whole * G_M_PER_S2 * above);
        let Some(gradient) = gradient else { return Ok(()) };
        let across = front.transfer_kg(gradient) * front.track.si() + rear.transfer_kg(gradient) * rear.track.si();
        let axis = (sprung.0 * centres.0 + sprung.1 * centres.1) / whole;
        // The body leans out by φ h, so its weight helps.
        let overturning = whole * (axis + above) + 2.0 * 90.0 * 0.31 + whole * G_M_PER_S2 * above * gradient;
        same!("moment", across, overturning, 1e-9);
        let share = roll::front_share(front.stiffness, rear.stiffness).expect("stiff").si();
        same!("front share", share * stiffness.si(), front.stiffness.si(), 1e-12);
        prop_assert_eq!(roll::front_share(TwistRate::from_si(0.0), TwistRate::from_si(0.0)), None);
    }

    // ---- pitch and bounce --------------------------------------------------------------------------------------

    #[test]
    fn modes_by_eigenvalues(
        sprung in 300.0..3_000.0, rates in (10e3..120e3, 10e3..120e3), ab in (0.6..2.5, 0.6..2.5), kappa in 0.6..2.0
    ) {
        let body = TwoAxles {
            sprung: kg(sprung),
            front_rate: SpringRate::from_si(rates.0),
            rear_rate: SpringRate::from_si(rates.1),
            a: m(ab.0),
            b: m(ab.1),
            radius_squared_m2: kappa * kappa,
        };
        // Unknowns √m z and √m κ θ, nose down +: a spring stretches by z − a θ in front, z + b θ behind.
        let front = Vector2::new(1.0, -ab.0 / kappa);
        let rear = Vector2::new(1.0, ab.1 / kappa);
        let by_mass: Matrix2<f64> = (front * front.transpose() * rates.0 + rear * rear.transpose() * rates.1) / sprung;
        let found = SymmetricEigen::new(by_mass);
        let slow = usize::from(found.eigenvalues[1] < found.eigenvalues[0]);
        for (mode, i) in body.modes().into_iter().zip([slow, 1 - slow]) {
            same!("frequency", mode.frequency.si(), found.eigenvalues[i].sqrt() / TAU, 1e-9);
            let shape = found.eigenvectors.column(i);
            // Where z − x θ is zero, x ahead.
            let node: f64 = kappa * shape[0] / shape[1];
            if node.abs() < 1e3 * kappa {
                let off = mode.node.expect("it pitches").si() - node;
                prop_assert!(off.abs() < 1e-6 * (1.0 + node * node), "{mode:?} {node}");
            }
        }
    }

    /// With β = 0 the body bounces level or pitches about its centre of gravity, whichever is slower, or both at once.
    #[test]
    fn modes_that_do_not_mix(rate in 10e3..120e3, a in 0.6..2.5, ratio in 0.25..4.0) {
        for ratio in [ratio, 1.0] {
            // Powers of two and equal ends keep β an exact zero.
            let body = TwoAxles {
                sprung: kg(1_024.0),
                front_rate: SpringRate::from_si(rate),
                rear_rate: SpringRate::from_si(rate),
                a: m(a),
                b: m(a),
                radius_squared_m2: a * a * ratio,
            };
            let bounce = (2.0 * rate / 1_024.0).sqrt() / TAU;
            let pitch = bounce / ratio.sqrt();
            let [slow, quick] = body.modes();
            same!("slow", slow.frequency.si(), bounce.min(pitch), 1e-12);
            same!("quick", quick.frequency.si(), bounce.max(pitch), 1e-12);
            let about = |mode: pitch::Mode| mode.node.map(Quantity::si);
            let (bounce_first, pitch_first) = ((None, Some(0.0)), (Some(0.0), None));
            let found = (about(slow), about(quick));
            // At the same frequency either may stand first.
            let right = (ratio <= 1.0 && found == bounce_first) || (ratio >= 1.0 && found == pitch_first);
            prop_assert!(right, "{ratio}: {found:?}");
        }
    }

    /// Statics with the braking force at the height of the centre of gravity give the gain of the front axle.
    #[test]
    fn braking_dive_by_moments(
        whole in 500.0..4_000.0, h in 0.3..1.5, l in 2.0..4.5, braking in 0.0..1.0, anti in 0.0..1.0, k in 10e3..80e3
    ) {
        let g = Ratio::from_si;
        let rate = SpringRate::from_si(k);
        let dive = |anti: f64| pitch::braking_dive(kg(whole), m(h), m(l), g(braking), g(anti), rate).si();
        let front_n = |braking: f64| whole * G_M_PER_S2 * (0.45 * l + braking * h) / l;
        level!("no anti-dive", dive(0.0) * 2.0 * k, front_n(braking) - front_n(0.0), whole);
        level!("share", dive(anti), dive(0.0) * (1.0 - anti), 1.0);
    }

    #[test]
    fn beam_by_triangles(front in -0.1..0.1, rear in -0.1..0.1, l in 2.0..4.5, distance in 3.0..30.0) {
        let pitch = pitch::nose_up(m(front), m(rear), m(l));
        level!("beam", pitch::beam_shift(m(distance), pitch).si(), distance * (front - rear) / l, distance);
        let level: Angle = pitch::nose_up(m(front), m(front), m(l));
        prop_assert_eq!(level.si(), 0.0);
    }
}

// ---- a hump, against time -------------------------------------------------------------------------------------------

/// Steps of a classical fourth-order integration between two times.
const STEPS: u32 = 4_000;

/// ẍ = −2ζω (ẋ − u̇) − ω² (x − u) from one time to another, u and u̇ by `road`.
fn integrate(omega: f64, zeta: f64, state: [f64; 2], times: (f64, f64), road: &dyn Fn(f64) -> [f64; 2]) -> [f64; 2] {
    let step = (times.1 - times.0) / f64::from(STEPS);
    let slope = |t: f64, [x, v]: [f64; 2]| {
        let [u, w] = road(t);
        [v, -2.0 * zeta * omega * (v - w) - omega * omega * (x - u)]
    };
    let go = |[x, v]: [f64; 2], [dx, dv]: [f64; 2], by: f64| [x + by * dx, v + by * dv];
    (0..STEPS).fold(state, |at, i| {
        let t = times.0 + f64::from(i) * step;
        let a = slope(t, at);
        let b = slope(t + step / 2.0, go(at, a, step / 2.0));
        let c = slope(t + step / 2.0, go(at, b, step / 2.0));
        let d = slope(t + step, go(at, c, step));
        go(at, [0, 1].map(|k| (a[k] + 2.0 * b[k] + 2.0 * c[k] + d[k]) / 6.0), step)
    })
}

/// Over the hump and behind it, piece by piece, since the road has a corner at both ends.
fn integrated(omega: f64, zeta: f64, hump: &Hump, time_s: f64) -> f64 {
    let (arrival, on_s) = (hump.arrival.si(), hump.length.si() / hump.speed.si());
    let drive = PI / on_s;
    let road = |t: f64| {
        let phase = drive * (t - arrival);
        [hump.height.si() * phase.sin(), hump.height.si() * drive * phase.cos()]
    };
    let last = time_s.min(arrival + on_s);
    let mut state = [0.0; 2];
    if last > arrival {
        state = integrate(omega, zeta, state, (arrival, last), &road);
    }
    if time_s > arrival + on_s {
        state = integrate(omega, zeta, state, (arrival + on_s, time_s), &|_| [0.0; 2]);
    }
    state[0]
}

fn hump(height: f64, length: f64, speed: f64, arrival: f64) -> Hump {
    Hump { height: m(height), length: m(length), speed: Velocity::from_si(speed), arrival: Time::from_si(arrival) }
}

fn swing(frequency: f64, damping_ratio: f64) -> Swing {
    Swing { frequency: Frequency::from_si(frequency), damping_ratio: Ratio::from_si(damping_ratio) }
}

proptest! {
    #![proptest_config(config(48))]

    /// Light, usual, critical and heavy damping; humps from a kerb to a crest; in step with the body too.
    #[test]
    fn a_hump_by_integration(
        f in 0.8..2.5, zeta in prop_oneof![0.0..1.0, 1.0..2.0, Just(0.0), Just(1.0)], height in -0.1..0.1,
        length in 0.3..8.0, speed in prop_oneof![1.0..30.0, Just(0.0)], arrival in 0.0..1.0, after in 0.0..2.5
    ) {
        // Ω = ω at v = 2 f λ.
        let speed = if speed == 0.0 { 2.0 * f * length } else { speed };
        let hump = hump(height, length, speed, arrival);
        let end = swing(f, zeta);
        let at = |t: f64| end.body_height_m(&hump, t).expect("a hump, a speed, a frequency");
        let on_s = length / speed;
        for t in [arrival + 0.37 * on_s, arrival + on_s, arrival + on_s + after] {
            let want = integrated(TAU * f, zeta, &hump, t);
            prop_assert!((at(t) - want).abs() < 1e-7 * height.abs().max(1e-3), "at {t}: {} and {want}", at(t));
        }
        prop_assert_eq!(at(arrival - 0.1), 0.0);
        prop_assert_eq!(at(arrival), 0.0);
    }

    /// The rear meets the same hump a wheelbase later; the road under it likewise.
    #[test]
    fn the_rear_follows(f in 0.8..2.5, zeta in 0.0..1.0, l in 2.0..4.5, speed in 1.0..30.0, t in 0.0..4.0) {
        let front = hump(0.05, 1.2, speed, 0.4);
        let rear = front.behind(m(l));
        let end = swing(f, zeta);
        let height = |hump: &Hump, t: f64| end.body_height_m(hump, t).expect("a hump, a speed, a frequency");
        level!("body", height(&rear, t + l / speed), height(&front, t), 1.0);
        level!("road", rear.road_m(t + l / speed), front.road_m(t), 1.0);
        let middle = 0.4 + 0.6 / speed;
        same!("its middle is its height", front.road_m(middle), 0.05, 1e-9);
        prop_assert_eq!([front.road_m(0.39), front.road_m(0.4 + 1.21 / speed)], [0.0; 2]);
    }
}

#[test]
fn no_trace_without_what_it_needs() {
    let road = hump(0.05, 1.0, 10.0, 0.0);
    assert!(swing(1.2, 0.3).body_height_m(&road, 0.5).is_some());
    for (f, zeta) in [(0.0, 0.3), (-1.0, 0.3), (1.2, -0.1), (1.2, f64::NAN)] {
        assert_eq!(swing(f, zeta).body_height_m(&road, 0.5), None, "{f} Hz, ζ {zeta}");
    }
    for (length, speed) in [(0.0, 10.0), (1.0, 0.0), (-1.0, 10.0), (1.0, f64::NAN)] {
        assert_eq!(
            swing(1.2, 0.3).body_height_m(&hump(0.05, length, speed, 0.0), 0.5),
            None,
            "{length} m, {speed} m/s"
        );
    }
}
