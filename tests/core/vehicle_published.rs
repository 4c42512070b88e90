//! The whole vehicle (roll, pitch, ledger, tyres), against figures from published sources and the worked cases.
//!
//! Beside each check: its number in the list of published values, the source as that list names it, and how far the
//! source was seen when the list was made: SEEN, SEEN-PART, FROM MEMORY, DERIVED, as in `tests/core/published.rs`, with the
//! same tolerances. The worked cases are invented vehicles, computed by an independent script (DERIVED).
//! Not tested are guidance bands (C53 tyre rates, C66 weighing practice): they say what is usual, not what is right.
//! No result here comes from this program.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::printed as against;

use against::{printed, relative};
use springwright::base::units::{DampingRate, Force, Length, Mass, Pressure, Quantity, Ratio, SpringRate, TwistRate};
use springwright::trade::damper;
use springwright::trade::ledger::{self, AxleLift, AxleLiftSpread, On, Part, RollPath};
use springwright::trade::pitch::{TwoAxles, beam_shift, nose_up};
use springwright::trade::ride;
use springwright::trade::roll::{self, AxleInRoll, Body};
use springwright::trade::tyre;
use springwright::trade::weights::Corners;

/// 0.1 % of the recomputed value.
const T1: f64 = 1e-3;
const INCH_M: f64 = 0.025_4;
const POUND_KG: f64 = 0.453_592_37;
/// Newton metres per radian in one per degree.
const PER_DEGREE: f64 = 57.295_779_51;
/// Gravity as C40 and the static loads of C58 take it.
const G_9_81: f64 = 9.81;

fn mass(kg: f64) -> Mass {
    Mass::from_si(kg)
}

fn metres(m: f64) -> Length {
    Length::from_si(m)
}

fn rate(n_per_m: f64) -> SpringRate {
    SpringRate::from_si(n_per_m)
}

fn twist(nm_per_rad: f64) -> TwistRate {
    TwistRate::from_si(nm_per_rad)
}

/// C34, bounce and pitch modes. SEEN-PART (problem text on expertsmind.com without its answer; the solution is DERIVED
/// by eigenvalues). The list's mode ratio z/θ is where the body stands still, ahead of the centre of gravity. T1.
#[test]
fn c34_bounce_and_pitch() {
    let (a, b, kappa) = (1.3, 1.6, 0.95);
    let body = TwoAxles {
        sprung: mass(1_600.0),
        front_rate: rate(2.0 * 19_000.0),
        rear_rate: rate(2.0 * 17_000.0),
        a: metres(a),
        b: metres(b),
        radius_squared_m2: kappa * kappa,
    };
    let [slow, quick] = body.modes();
    relative("slow", slow.frequency.si(), 1.0655, T1);
    relative("quick", quick.frequency.si(), 1.6303, T1);
    relative("slow one's node", slow.node.expect("it pitches").si(), -17.308, T1);
    relative("quick one's node", quick.node.expect("it pitches").si(), 0.052_14, T1);
    relative("κ²/ab", body.radius_squared_m2 / (a * b), 0.4339, T1);
    // Each end by itself, with the mass that statics put on it.
    let sprung = Part { mass: body.sprung, x: body.a, y: metres(0.0), on: On::Body };
    let [front, rear] = ledger::axle_change(&[sprung], body.a + body.b);
    relative("front alone", ride::frequency(body.front_rate, front).si(), 1.0442, T1);
    relative("rear alone", ride::frequency(body.rear_rate, rear).si(), 1.0958, T1);
}

/// C40, load transfer. SEEN, flagged: Barton & Fieldhouse, *Automotive Chassis Engineering*, Springer 2018, p. 174.
/// The split of the stiffness (350 and 150 N·m/deg) is inferred from the printed shares. The printed elastic part 1556
/// N does not add up to the printed total and is taken for a misprint: the recomputed 1569.4 N is tested. The book takes
/// g 9.81; the program's 9.80665 changes the gradient by less than 0.01 %. Totals 0.5 %, the rest T1.
#[test]
fn c40_lateral_load_transfer() {
    let body = Body { sprung: mass(1_280.0), above_axis: metres(0.365) };
    let gradient = roll::gradient_rad_s2_per_m(body, twist(28_650.0)).expect("it stands");
    relative("gradient", gradient, 0.019_413, T1);
    printed("gradient as printed", gradient, 0.019_4, 0.000_1);
    relative("deg/g", roll::degrees_per_g(gradient), 10.911, T1);
    printed("deg/g as printed", roll::degrees_per_g(gradient), 10.9, 0.1);
    let lateral = 0.6 * G_9_81;
    relative("roll, deg", (gradient * lateral).to_degrees(), 6.547, T1);
    let none = metres(0.0);
    // Stiffness, sprung share, roll centre, unsprung mass and height; elastic, roll-centre, unsprung part; the total.
    for ((nm_per_deg, share, centre_m, unsprung_kg, unsprung_m), (elastic, by_centre, by_unsprung, total, seen)) in [
        ((350.0, 0.54, 0.07, 140.0, 0.28), (1_569.4, 195.1, 158.0, 1_922.5, 1_919.0)),
        ((150.0, 0.46, 0.32, 180.0, 0.30), (672.6, 759.6, 217.7, 1_649.9, 1_649.0)),
    ] {
        let axle = AxleInRoll {
            stiffness: twist(nm_per_deg * PER_DEGREE),
            sprung: mass(1_280.0 * share),
            roll_centre: metres(centre_m),
            unsprung: mass(unsprung_kg),
            unsprung_height: metres(unsprung_m),
            track: metres(1.46),
        };
        let only_elastic = AxleInRoll { roll_centre: none, unsprung_height: none, ..axle };
        let rigid = AxleInRoll { stiffness: twist(0.0), ..axle };
        let newtons = |axle: AxleInRoll| axle.transfer_kg(gradient) * lateral;
        relative("elastic", newtons(only_elastic), elastic, T1);
        relative("roll centre", newtons(AxleInRoll { unsprung_height: none, ..rigid }), by_centre, T1);
        relative("unsprung", newtons(AxleInRoll { roll_centre: none, ..rigid }), by_unsprung, T1);
        relative("total", newtons(axle), total, T1);
        relative("total as printed", newtons(axle), seen, 5e-3);
    }
}

/// C51, load capacity by load index. SEEN (six or more independent public tables agree). T0. The list's cross-check,
/// 45·10^(LI/80) kg within −1.74 % / +0.52 %, would show a row out of place.
#[test]
fn c51_load_index() {
    let rows = "335 345 355 365 375 387 400 412 425 437 450 462 475 487 500 515 530 545 560 580 600 615 630 650 670 \
                690 710 730 750 775 800 825 850 875 900 925 950 975 1000 1030 1060 1090 1120 1150 1180 1215 1250 1285 \
                1320 1360 1400 1450 1500 1550 1600 1650 1700";
    let mut last = 69;
    for (index, row) in (70..).zip(rows.split_whitespace()) {
        let kg: f64 = row.parse().expect("a number of the table");
        assert_eq!(tyre::table_capacity(index), Some(mass(kg)), "load index {index}");
        let smooth = 45.0 * 10.0_f64.powf(f64::from(index) / 80.0);
        let off = kg / smooth - 1.0;
        assert!((-0.017_45..=0.005_25).contains(&off), "load index {index}: {kg} kg, smooth {smooth:.1} kg");
        assert_eq!(tyre::load_index(Ratio::from_si(f64::from(index))), Some(index));
        last = index;
    }
    assert_eq!(last, 126);
    for outside in [0, 69, 127, 1_000] {
        assert_eq!(tyre::table_capacity(outside), None, "{outside}");
        assert_eq!(tyre::load_index(Ratio::from_si(f64::from(outside))), None, "{outside}");
    }
    assert_eq!(tyre::load_index(Ratio::from_si(112.5)), None);
}

/// C52, inflation below the reference. FROM MEMORY (exponents 0.8 and 0.65; the list's arithmetic example, whole
/// kilograms): the lower of its two capacities is the one in use.
#[test]
fn c52_inflation() {
    let bar = |p: f64| Pressure::from_si(p * 1e5);
    let at = |p: f64| tyre::capacity(113, Some(bar(p)), bar(3.0)).expect("in the table").si();
    printed("at 90 %, exponent 0.8", at(2.7), 1_057.0, 1.0);
    printed("exponent 0.65 gives more", 1_150.0 * 0.9_f64.powf(0.65), 1_074.0, 1.0);
    assert!(at(2.7) < 1_074.0);
    assert_eq!(at(3.0), 1_150.0);
    assert_eq!(at(4.0), 1_150.0, "more air carries no more than the table");
    assert_eq!(at(0.0), 0.0);
    assert_eq!(tyre::capacity(113, None, bar(3.0)), Some(mass(1_150.0)));
    assert_eq!(tyre::capacity(113, Some(bar(2.7)), bar(0.0)), None);
    assert_eq!(tyre::capacity(113, Some(bar(f64::NAN)), bar(3.0)), None);
    assert_eq!(tyre::capacity(69, None, bar(3.0)), None);
}

/// A vehicle of the openly licensed data sets, as the package gives it: unsprung mass per axle, rates per wheel.
struct DataSet {
    whole_kg: f64,
    sprung_kg: f64,
    unsprung_kg: [f64; 2],
    a_m: f64,
    b_m: f64,
}

impl DataSet {
    fn wheelbase(&self) -> Length {
        metres(self.a_m + self.b_m)
    }

    /// Body and axles as lines of a ledger that starts from nothing.
    fn parts(&self) -> [Part; 3] {
        let centre = metres(0.0);
        let axle = |i: usize| Part { mass: mass(self.unsprung_kg[i]), x: centre, y: centre, on: On::Axle(i) };
        [Part { mass: mass(self.sprung_kg), x: metres(self.a_m), y: centre, on: On::Body }, axle(0), axle(1)]
    }

    /// Sprung mass of a corner, front and rear.
    fn sprung_corners(&self) -> [Mass; 2] {
        ledger::axle_change(&self.parts()[..1], self.wheelbase()).map(|axle| axle / 2.0)
    }
}

const COMPACT_CAR: DataSet =
    DataSet { whole_kg: 1_225.888, sprung_kg: 1_094.543, unsprung_kg: [65.672_6; 2], a_m: 0.883_92, b_m: 1.508_76 };

/// C58, data set V1, compact car: roll and static tyre loads (frequencies and damping are in `tests/core/published.rs`; the
/// coupled modes of body and wheel are not built). SEEN (parameters, read from the package commonroad-vehicle-models
/// 3.0.2, BSD-3-Clause, TU Munich); results DERIVED. Roll axis at ground, rigid tyres; static loads with g 9.81. T1.
#[test]
fn c58_roll_and_static_loads() {
    let (k, tyre_rate) = (rate(21_898.33), rate(189_785.5));
    let (front_track, rear_track) = (metres(1.389_888), metres(1.423_416));
    let (springs_f, bar_f) = (roll::independent(k, front_track), twist(12_880.27));
    let front = roll::together(&[springs_f, bar_f]);
    let rear = roll::independent(k, rear_track);
    relative("front roll stiffness", front.si(), 34_031.7, T1);
    relative("rear roll stiffness", rear.si(), 22_184.2, T1);
    relative("front share", roll::front_share(front, rear).expect("stiff").si(), 0.6054, T1);
    let body = Body { sprung: mass(COMPACT_CAR.sprung_kg), above_axis: metres(0.594_36) };
    let gradient = roll::gradient_rad_s2_per_m(body, roll::together(&[front, rear])).expect("it stands");
    relative("deg/g", roll::degrees_per_g(gradient), 7.335, T1);
    let path = |springs, bar, track| RollPath { springs, bar, tyres: roll::independent(tyre_rate, track), track };
    let paths = [path(springs_f, bar_f, front_track), path(rear, twist(0.0), rear_track)];
    let parts = COMPACT_CAR.parts();
    let corners = ledger::corner_change(&parts, COMPACT_CAR.wheelbase(), &paths).expect("it has stiffness and track");
    relative("left front tyre", corners.lf.si() * G_9_81, 3_707.5, T1);
    relative("right rear tyre", corners.rr.si() * G_9_81, 2_305.5, T1);
    relative("whole", springwright::trade::weights::total(&corners).si(), COMPACT_CAR.whole_kg, 1e-6);
}

/// C61, the other sets of the package, V2 (sedan) and V3 (forward-control van). SEEN (parameters, read from the package
/// named at C58, here to six digits or more); the identities are DERIVED. The masses, the geometry and the spring rates
/// of V2 and V3 may have been measured. Their dampers were *assigned*: in native units ζ is exactly 0.35 front and 0.40
/// rear, so nothing follows from them about real dampers. In SI they read 0.34994 and 0.39993 (the package converts
/// stiffness with 9.81 and damping with 9.80665). Mass: the list's 5.8e-5 and 7.3e-4 kg; ζ T2, five decimals.
#[test]
fn c61_second_and_third_data_set() {
    let sedan = DataSet {
        whole_kg: 1_093.295_233_467_4,
        sprung_kg: 965.710_809_880_4,
        unsprung_kg: [63.792_182_605_7; 2],
        a_m: 1.156_195_706_4,
        b_m: 1.422_717_093_6,
    };
    let van = DataSet {
        whole_kg: 1_478.897_963_776_8,
        sprung_kg: 1_316.608_655_249_0,
        unsprung_kg: [81.144_289_416_3; 2],
        a_m: 1.150_791_602_4,
        b_m: 1.321_136_397_6,
    };
    let rates = [
        (sedan, [24_453.137_9, 19_635.504_7], [1_786.244_10, 1_649.083_30], 5.8e-5),
        (van, [33_577.443_1, 39_125.020_6], [2_405.564_10, 2_769.727_22], 7.3e-4),
    ];
    for (set, springs, dampers, missing_kg) in rates {
        let [front, rear] = ledger::axle_change(&set.parts(), set.wheelbase());
        printed("mass not accounted for, kg", (set.whole_kg - (front + rear).si()).abs(), missing_kg, 1e-5);
        for ((spring, damping), (sprung, zeta)) in
            springs.into_iter().zip(dampers).zip(set.sprung_corners().into_iter().zip([0.349_94, 0.399_93]))
        {
            let found = damper::damping_ratio(DampingRate::from_si(damping), rate(spring), sprung).si();
            printed("ζ", found, zeta, 1e-5);
        }
    }
}

/// C61 for V1: its mass adds up, and its round native numbers (springs 1500 lb/ft) look estimated, not measured. SEEN
/// (parameters). The list rounds them to three decimals of a kilogram, so the sum is held to 1e-3 kg.
#[test]
fn c61_first_data_set() {
    let [front, rear] = ledger::axle_change(&COMPACT_CAR.parts(), COMPACT_CAR.wheelbase());
    assert!((COMPACT_CAR.whole_kg - (front + rear).si()).abs() < 1e-3);
    let [front, rear] = COMPACT_CAR.sprung_corners();
    relative("front sprung", front.si(), 345.095, T1);
    relative("rear sprung", rear.si(), 202.177, T1);
}

/// C65, height of the centre of gravity from an axle lift. Formula SEEN (derivations on physicsforums.com and
/// openbooks.link p=9580); worked numbers DERIVED by coordinate statics. T1.
#[test]
fn c65_axle_lift() {
    let lift = |rise_m: f64, lifted_kg: f64| AxleLift {
        total: mass(2_200.0),
        wheelbase: metres(3.30),
        hub_height: metres(0.37),
        rise: metres(rise_m),
        level: mass(1_265.0),
        lifted: mass(lifted_kg),
    };
    let height = |l: AxleLift| l.height().expect("it is lifted").si();
    relative("h", height(lift(0.60, 1_303.212_7)), 0.680, T1);
    // 0.1 % of h is 0.68 mm; the printed load has four decimals and asks for more.
    printed("h, mm", height(lift(0.60, 1_303.212_7)) * 1e3, 680.0, 0.01);
    for (rise_m, mm_per_kg) in [(0.2, 24.70), (0.4, 12.28), (0.6, 8.11), (0.8, 6.00)] {
        let one_more = height(lift(rise_m, 1_300.0)) - height(lift(rise_m, 1_299.0));
        printed("mm of height per kg", one_more * 1e3, mm_per_kg, 0.01);
        // Two readings, each uncertain by 1 kg and nothing else: √2 times that.
        let exact = metres(0.0);
        let scale =
            AxleLiftSpread { reading: mass(1.0), total: mass(0.0), wheelbase: exact, hub_height: exact, rise: exact };
        let spread = lift(rise_m, 1_300.0).height_spread(&scale).expect("it is lifted").si();
        printed("two readings, mm", spread * 1e3 / 2.0_f64.sqrt(), mm_per_kg, 0.01);
    }
    for no_lift in [0.0, -0.1, 3.30, 4.0, f64::NAN] {
        assert_eq!(lift(no_lift, 1_300.0).height(), None, "{no_lift}");
    }
}

/// C68, centre of gravity from corner weights. DERIVED. T2 (half a unit of the last printed digit).
#[test]
fn c68_centre_of_gravity() {
    let car = Corners { lf: mass(640.0), rf: mass(625.0), lr: mass(462.0), rr: mass(473.0) };
    let found = ledger::centre_of_gravity(&car, metres(3.30), [metres(1.60); 2]).expect("it weighs something");
    printed("behind the front axle, m", found.behind_front.si(), 1.4025, 0.000_1);
    printed("left of centre, mm", -found.right.si() * 1e3, 1.45, 0.01);
    assert_eq!(ledger::centre_of_gravity(&Corners::default(), metres(3.30), [metres(1.60); 2]), None);
}

/// Worked case C1 (DERIVED): the beam on the old springs, tyres included, 25 ft ahead. The drops at the ground are the
/// case's own, in mm.
#[test]
fn case_c1_beam() {
    let pitch = nose_up(metres(-32.098_804_400_960_72e-3), metres(-3.080_461_133_069_836_6e-3), metres(115.0 * INCH_M));
    relative("nose down, deg", -pitch.si().to_degrees(), 0.569_179_700_404_94, 1e-9);
    let beam = beam_shift(metres(300.0 * INCH_M), pitch).si() / INCH_M;
    relative("beam, in", beam, -2.980_315_980_954_215, 1e-9);
}

/// Worked case C2 (DERIVED): the tongue load on the axles, as a force and as cargo at x = 181 in, and the beam unladen
/// to laden without the bag, tyres included, 25 ft ahead.
#[test]
fn case_c2_tongue_and_beam() {
    let (wheelbase, hitch) = (metres(133.0 * INCH_M), metres(48.0 * INCH_M));
    let pound_force = POUND_KG * 9.806_65;
    let [front, rear] = ledger::tongue(Force::from_si(500.0 * pound_force), hitch, wheelbase);
    relative("front, lb", front.si() / pound_force, -180.451_127_819_548_9, 1e-9);
    relative("rear, lb", rear.si() / pound_force, 680.451_127_819_548_9, 1e-9);
    let cargo = Part { mass: mass(500.0 * POUND_KG), x: metres(181.0 * INCH_M), y: metres(0.0), on: On::Body };
    let [front, rear] = ledger::axle_change(&[cargo], wheelbase).map(|kg| kg.si() / POUND_KG);
    relative("cargo, front, lb", front, -180.451_127_819_548_9, 1e-9);
    relative("cargo, rear, lb", rear, 680.451_127_819_548_9, 1e-9);
    // At the wheel by the case, and half of each axle's change on a tyre of 1400 lb/in.
    let front_rise = (0.435_872_289_419_200_3 - front / 2.0 / 1_400.0) * INCH_M;
    let rear_rise = (-1.510_601_503_759_399_2 - rear / 2.0 / 1_400.0) * INCH_M;
    let pitch = nose_up(metres(front_rise), metres(rear_rise), wheelbase);
    relative("nose up, deg", pitch.si().to_degrees(), 0.970_893_417_089_553_5, 1e-9);
    let beam = beam_shift(metres(300.0 * INCH_M), pitch).si() / INCH_M;
    relative("beam, in", beam, 5.084_072_671_755_512, 1e-9);
}
