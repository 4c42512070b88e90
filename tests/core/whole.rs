//! The whole vehicle, as whole jobs through `solve`: pitch, braking, centre of gravity, bends, four corners.
//!
//! The vehicle is invented. Every expected number is worked out here from what is typed, never by the function that is
//! looked at; all of it is DERIVED. Tolerances: 1e-9 where one closed form stands against another, 1e-9 m where a height
//! was found by solving for it.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::loaded;
use crate::common::properties;

use std::f64::consts::PI;
use std::sync::LazyLock;

use loaded::*;
use nalgebra::{Matrix2, Matrix3, SymmetricEigen, Vector3};
use properties::{config, near};
use proptest::prelude::*;
use springwright::base::units::entry::AnyEntry;
use springwright::base::units::{DecimalMark, Dim, Mass, Quantity, UnitChoice, table};
use springwright::job::{Again, AxleKind, Job, Part, PartOn, Side, SpringKind, Walk, Way, Weighing};
use springwright::report::results;
use springwright::report::sheets::sheet;
use springwright::report::write::json;
use springwright::report::write::text;
use springwright::solve::answer::{Answer, BeforeAfter, PerState, Roll, State, Whole};
use springwright::solve::solve;
use springwright::trade::weights::Corners;

/// What bends, braking and corners need; with the plain vehicle nothing that counts is left to a default.
const ROLLING: &str = "vehicle.lamp_distance 8 m; chassis.cg_height 560 mm; chassis.cornering 0.5;
    chassis.braking 0.7; chassis.anti_dive 0.25; chassis.cross_wanted 51 %;
    front.track 1400 mm; front.unsprung_before 37 kg; front.roll_centre 50 mm; front.unsprung_height 290 mm;
    front.roll_bar.diameter 20 mm; front.roll_bar.inside_diameter 0 mm; front.roll_bar.length 900 mm;
    front.roll_bar.blade 200 mm; front.roll_bar.ratio 0.7; front.roll_bar.shear_modulus 80 GPa;
    front.thread_pitch 2 mm;
    rear.track 1500 mm; rear.spring_base 1100 mm; rear.ratio.part_moved 90 mm; rear.parallel.rate 2 N/mm;
    rear.roll_centre 250 mm; rear.unsprung_height 310 mm;
    rear.roll_bar.diameter 25 mm; rear.roll_bar.length 1000 mm; rear.roll_bar.blade 250 mm";
const TRACK_M: [f64; 2] = [1.4, 1.5];
/// Sprung mass of one corner: 300 − 37 and 250 − 45 kg before, 345 − 40 and 270 − 45 kg after.
const SPRUNG_KG: [[f64; 2]; 2] = [[263.0, 205.0], [305.0, 225.0]];
/// Springs in front: the old one, and the new one that `springs_are_sized_on_the_case_that_says_so` works out.
const FRONT_N_PER_M: [f64; 2] = [50e3, 57e3];
/// Wheel rates by hand, front k r², rear k r² and rubber: 22 N/mm · 0.9² + 2 N/mm.
const REAR_N_PER_M: f64 = 22e3 * 0.81 + 2e3;

fn type_in(entry: &mut dyn AnyEntry, typed: &str) {
    let unit = table::of(entry.dim()).next().expect("a unit");
    entry.type_text(typed, unit, DecimalMark::Point);
}

/// "path value; path value"; a path alone blanks the field.
fn set(job: &mut Job, fields: &str) {
    for field in fields.split(';').map(str::trim).filter(|f| !f.is_empty()) {
        let (path, typed) = field.split_once(' ').unwrap_or((field, ""));
        type_in(job.at_mut(path).expect(path), typed);
    }
}

/// The plain vehicle on a beam axle behind, with anti-roll bars, and what else is typed.
fn rolling(more: &str) -> Job {
    let mut job = plain();
    job.rear.kind = AxleKind::Beam;
    set(&mut job, ROLLING);
    set(&mut job, more);
    job
}

fn whole(job: &Job) -> Whole {
    *solve(job).vehicle.whole
}

#[track_caller]
fn close(what: &str, got: f64, by_hand: f64) {
    assert!(near(got, by_hand, 1e-9), "{what}: {got}, by hand {by_hand}");
}

#[track_caller]
fn close_all<const N: usize>(what: &str, got: [f64; N], by_hand: [f64; N]) {
    got.into_iter().zip(by_hand).for_each(|(got, by_hand)| close(what, got, by_hand));
}

fn in_kg(corners: Option<Corners<Mass>>) -> [f64; 4] {
    corners.expect("four corners").walk().map(Quantity::si)
}

/// Index into masses by hand.
fn after(state: State) -> usize {
    usize::from(state != State::Before)
}

fn wheel_rates(state: State) -> [f64; 2] {
    [FRONT_N_PER_M[usize::from(state == State::NewSprings)] * 0.36, REAR_N_PER_M]
}

/// Slower and quicker frequency and node ahead of the centre of gravity, from the two ends as coordinates:
/// z = (b z_F + a z_R)/L, θ = (z_F − z_R)/L, T = ½ m ż² + ½ m κ² θ̇², V = ½ K_F z_F² + ½ K_R z_R².
fn modes_by_equations([front, rear]: [f64; 2], mass: [f64; 2], kappa2: f64) -> [(f64, f64); 2] {
    let (m, l) = (mass[0] + mass[1], WHEELBASE_M);
    let (a, b) = (l * mass[1] / m, l * mass[0] / m);
    let inertia = Matrix2::new(b * b + kappa2, a * b - kappa2, a * b - kappa2, a * a + kappa2) * (m / (l * l));
    let soft = Matrix2::new(front.sqrt().recip(), 0.0, 0.0, rear.sqrt().recip());
    let eigen = SymmetricEigen::new(soft * inertia * soft);
    let mut found = [0, 1].map(|i| {
        let ends = soft * eigen.eigenvectors.column(i);
        (hz(1.0, eigen.eigenvalues[i]), a - l * ends[0] / (ends[0] - ends[1]))
    });
    found.sort_by(|x, y| x.0.total_cmp(&y.0));
    found
}

#[test]
fn pitch_and_bounce_by_equations() {
    for radius in [None, Some(1.05), Some(1.4)] {
        let mut job = rolling("");
        job.chassis.pitch_radius = radius.map_or_else(Default::default, m);
        let whole = whole(&job);
        for state in State::ALL {
            let pitch = whole.pitch.of(state).expect("both axles stand");
            let mass = SPRUNG_KG[after(state)].map(|kg| 2.0 * kg);
            let a = WHEELBASE_M * mass[1] / (mass[0] + mass[1]);
            let kappa2 = radius.map_or(a * (WHEELBASE_M - a), |r| r * r);
            let lengths = [pitch.a, pitch.b, pitch.radius].map(Quantity::si);
            close_all("a, b, radius", lengths, [a, WHEELBASE_M - a, kappa2.sqrt()]);
            assert_eq!(pitch.assumed, radius.is_none());
            let wanted = modes_by_equations(wheel_rates(state).map(|k| 2.0 * k), mass, kappa2);
            close_all("frequency", pitch.modes.map(|m| m.frequency.si()), wanted.map(|w| w.0));
            close_all("node", pitch.modes.map(|m| m.node.expect("coupled").si()), wanted.map(|w| w.1));
        }
    }
}

/// κ² = a b makes two masses of the body, one over each axle: each end swings at its ride frequency, and the other
/// axle stays still.
#[test]
fn without_a_radius_each_end_swings_by_itself() {
    let damped =
        |front: &str| solve(&rolling(&format!("front.damper.ratio_before {front}; rear.damper.ratio_before 0.25")));
    let answer = damped("0.3");
    for state in State::ALL {
        let pitch = answer.whole.pitch.of(state).as_ref().expect("both axles stand");
        let ends = pitch.ends.expect("dampers are known");
        let [front, rear] = [0, 1].map(|i| hz(wheel_rates(state)[i], SPRUNG_KG[after(state)][i]));
        close_all("mode", pitch.modes.map(|m| m.frequency.si()), [front, rear]);
        close_all("end", ends.map(|e| e.frequency.si()).both(), [front, rear]);
        let nodes = pitch.modes.map(|m| m.node.expect("the other axle").si());
        close_all("node", nodes, [-pitch.b.si(), pitch.a.si()]);
        // By hand: 1 = v n (1/f_F − 1/f_R)/L with n = 1.
        let flat = answer.flat_ride.of(state).expect("rear quicker").si();
        close("flat ride", flat, WHEELBASE_M / (1.0 / front - 1.0 / rear));
    }
    // ζ goes with 1/√(k m): on the new springs, too, where the old damper is still inside 0.25 to 0.35 and stays;
    // else it is what new ones aim at, the middle.
    let ends = |answer: &Answer, s: State| {
        let ends = answer.whole.pitch.of(s).as_ref().and_then(|p| p.ends).expect("dampers are known");
        ends.map(|e| e.damping_ratio.si()).both()
    };
    let [before, old, new] = State::ALL.map(|s| ends(&answer, s));
    close("before", before[0], 0.3);
    close("old", old[1], 0.25 * (205.0_f64 / 225.0).sqrt());
    let critical = |s: State| (wheel_rates(s)[0] * SPRUNG_KG[after(s)][0]).sqrt();
    let stays = 0.3 * critical(State::Before) / critical(State::NewSprings);
    assert!((0.25..0.35).contains(&stays) && (stays - 0.3).abs() > 0.01, "{stays}");
    close("new, old damper", new[0], stays);
    assert!(!answer.axles.front.new_dampers);
    let soft = damped("0.15");
    assert!(soft.axles.front.new_dampers && !soft.axles.rear.new_dampers);
    close("new, new damper", ends(&soft, State::NewSprings)[0], 0.3);
    close("the rear keeps its own", ends(&soft, State::NewSprings)[1], 0.25 * (205.0_f64 / 225.0).sqrt());
}

/// b K_R = a K_F: 18 N/mm under 300 kg, 12 N/mm under 200 kg. The body then bounces level, or pitches about its middle.
#[test]
fn bounce_and_pitch_that_do_not_mix() {
    let mut job = plain();
    job.after = weighed([680.0, 490.0]);
    set(&mut job, "rear.spring.rate 12 N/mm; chassis.pitch_radius 1.1 m");
    let [bounce, pitch] = whole(&job).pitch.old.expect("both axles stand").modes;
    close("bounce", bounce.frequency.si(), hz(60e3, 1000.0));
    // a = 2.5 · 400/1000 = 1 m, b = 1.5 m: (a² K_F + b² K_R)/(m κ²) = (36e3 + 54e3)/(1000 · 1.21).
    close("pitch", pitch.frequency.si(), hz(90e3, 1210.0));
    assert_eq!(bounce.node, None, "it stays level");
    assert!(pitch.node.expect("the middle").si().abs() < 1e-9);
}

/// Rise at the ground = at the wheel less the tyre's squash: sprung mass moves the one, all of the axle the other.
#[test]
fn nose_beam_and_dive_by_hand() {
    let whole = whole(&rolling(""));
    let [sprung, axle] = [[42.0, 20.0], [45.0, 20.0]];
    let tyre = |i: usize| -axle[i] * G / 200e3;
    let on_old = |i: usize| -sprung[i] * G / wheel_rates(State::OldSprings)[i];
    // The new front spring stands at the old height; the rear keeps its springs.
    for (state, [front, rear]) in [
        (State::Before, [0.0, 0.0]),
        (State::OldSprings, [on_old(0) + tyre(0), on_old(1) + tyre(1)]),
        (State::NewSprings, [tyre(0), on_old(1) + tyre(1)]),
    ] {
        let (up, beam) = (whole.nose_up.of(state).expect("weighed").si(), whole.beam.of(state).expect("weighed").si());
        let by_hand = (front - rear) / WHEELBASE_M;
        assert!((up - by_hand.atan()).abs() < 1e-9 && (beam - 8.0 * by_hand).abs() < 1e-8, "{state:?}: {up} {beam}");
        // 0.7 g on the whole mass at 0.56 m; a quarter of the dive is taken away; half of the rest on each spring.
        let mass = [1100.0, 1230.0][after(state)];
        let dive = 0.5 * 0.75 * mass * 0.7 * G * 0.56 / WHEELBASE_M / wheel_rates(state)[0];
        let room = 0.07 - dive + if state == State::OldSprings { on_old(0) } else { 0.0 };
        let found = whole.dive.of(state).expect("a height");
        close("dive", found.front.si(), dive);
        let left = found.room_left.expect("a gap").si();
        assert!((left - room).abs() < 1e-9, "{state:?}: {left}, by hand {room}");
    }
}

/// ISO 10392: h = r + ΔF L/(m tan θ), sin θ = H/L. Its ± by small steps, one input after the other (GUM 5.1.2). As
/// read: scales 1 kg on each of four corners, so 2 kg on the whole; lengths 5, 5 and 10 mm; all within limits, /√3.
#[test]
fn height_of_the_centre_of_gravity() {
    let lift =
        ["rise 500 mm", "level 690 kg", "lifted 744 kg", "hub_height 310 mm"].map(|f| format!("chassis.lift.{f}"));
    let mut job = rolling(&lift.join(";"));
    let height = |job: &Job| whole(job).centre.expect("a wheelbase").height;
    let stated = height(&job).expect("typed");
    close("typed, 30 mm as read", stated.u, 0.03 / 3.0_f64.sqrt());
    assert_eq!(stated.value, 0.56, "what is typed goes before the weighing");
    job.chassis.cg_height = "".into();
    let found = height(&job).expect("weighed");
    let by_hand =
        |[total, l, hub, rise, level, lifted]: [f64; 6]| hub + (lifted - level) * l / (total * (rise / l).asin().tan());
    let at = [1230.0, WHEELBASE_M, 0.31, 0.5, 690.0, 744.0];
    close("height", found.value, by_hand(at));
    let reading = [2.0, 0.01, 0.005, 0.005, 1.0, 1.0];
    let moved = |i: usize| {
        let at_step = |step: f64| by_hand(std::array::from_fn(|j| if i == j { at[j] * (1.0 + step) } else { at[j] }));
        reading[i] / 3.0_f64.sqrt() * (at_step(1e-5) - at_step(-1e-5)) / (2e-5 * at[i])
    };
    let u = (0..6).map(|i| moved(i).powi(2)).sum::<f64>().sqrt();
    assert!(near(found.u, u, 1e-7), "±: {}, by hand {u}", found.u);
    for path in ["chassis.lift.rise", "chassis.lift.level", "chassis.lift.lifted"] {
        let mut job = job.clone();
        set(&mut job, path);
        assert_eq!(height(&job), None, "without {path}");
    }
}

#[test]
fn centre_of_gravity_seen_from_above() {
    let job = rolling("after.rf 330 kg; after.lr 280 kg");
    let found = whole(&job).centre.expect("weighed");
    // By hand: axles 680 and 545 kg, right less left −20 and −15 kg at half the tracks.
    close("behind", found.behind_front.si(), 2.5 * 545.0 / 1225.0);
    close("right", found.right.expect("corners").si(), (-20.0 * 0.7 - 15.0 * 0.75) / 1225.0);
}

/// Corners, LF RF LR RR, when each axle's right wheel carries so much more.
fn to_the_right([lf, rf, lr, rr]: [f64; 4], [front, rear]: [f64; 2]) -> [f64; 4] {
    [lf - front, rf + front, lr - rear, rr + rear]
}

/// Roll stiffness by hand, N·m/rad.
#[derive(Clone, Copy)]
struct ByHand {
    springs: [f64; 2],
    bars: [f64; 2],
    tyres: [f64; 2],
}

impl ByHand {
    fn suspension(&self) -> [f64; 2] {
        [0, 1].map(|i| self.springs[i] + self.bars[i])
    }

    fn on_tyres(&self) -> [f64; 2] {
        [0, 1].map(|i| 1.0 / (1.0 / self.suspension()[i] + 1.0 / self.tyres[i]))
    }

    /// What the right wheels gain, kg, when pads are tilted, rad, and seats press the right side of the body down, N·m;
    /// tilts are + with the right side down. Body and both axles in balance, three equations.
    fn right_wheels(&self, pads: [f64; 2], seats: [f64; 2]) -> [f64; 2] {
        self.under(seats[0] + seats[1], pads, seats)
    }

    /// The same under a moment on the body.
    fn under(&self, body: f64, pads: [f64; 2], seats: [f64; 2]) -> [f64; 2] {
        let (k, t) = (self.suspension(), self.tyres);
        let matrix = Matrix3::new(k[0] + k[1], -k[0], -k[1], -k[0], k[0] + t[0], 0.0, -k[1], 0.0, k[1] + t[1]);
        let moments = Vector3::new(body, t[0] * pads[0] - seats[0], t[1] * pads[1] - seats[1]);
        let found = matrix.lu().solve(&moments).expect("stiff");
        [0, 1].map(|i| t[i] * (found[i + 1] - pads[i]) / TRACK_M[i] / G)
    }
}

/// `rolling` in one state: independent k_w t²/2; beam (k r² t_s² + rubber t²)/2; bars π G (d⁴ − d_i⁴)/(32 l) (r t/a)².
fn roll_by_hand(state: State) -> ByHand {
    let [front, _] = wheel_rates(state);
    let bar = |d: f64, g: f64, length: f64, arm: f64| PI * g * d.powi(4) / (32.0 * length) * arm * arm;
    ByHand {
        springs: [0.5 * front * 1.4 * 1.4, 0.5 * (22e3 * 0.81 * 1.1 * 1.1 + 2e3 * 1.5 * 1.5)],
        bars: [bar(0.02, 80e9, 0.9, 0.7 * 1.4 / 0.2), bar(0.025, 78.5e9, 1.0, 1.5 / 0.25)],
        tyres: TRACK_M.map(|t| 0.5 * 200e3 * t * t),
    }
}

/// As on the scales: the bars' links free.
fn bars_free(state: State) -> ByHand {
    ByHand { bars: [0.0; 2], ..roll_by_hand(state) }
}

#[test]
fn roll_stiffness_of_springs_and_bars() {
    for (more, bars) in [
        ("", [1.0, 1.0]),
        // By hand: (25⁴ − 20⁴)/25⁴ = 0.5904.
        ("rear.roll_bar.inside_diameter 20 mm", [1.0, 0.5904]),
        ("front.roll_bar.diameter", [0.0, 1.0]),
    ] {
        let whole = whole(&rolling(&format!("front.roll_bar.new_diameter 24 mm; {more}")));
        for state in State::ALL {
            let (found, by_hand) = (whole.roll.of(state).expect("tracks"), roll_by_hand(state));
            // The new bar is there with the new springs: (24/20)⁴ = 2.0736.
            let front = if state == State::NewSprings { 2.0736 } else { bars[0] };
            let wanted = [by_hand.bars[0] * front, by_hand.bars[1] * bars[1]];
            let together = ByHand { bars: wanted, ..by_hand }.suspension();
            close_all("springs", found.springs.map(Quantity::si).both(), by_hand.springs);
            close_all("bars", found.bars.map(Quantity::si).both(), wanted);
            close_all("together", Side::BOTH.map(|side| found.stiffness(side).si()), together);
            let [front, rear] = together;
            close("front share", found.front_share.expect("stiff").si(), front / (front + rear));
        }
        // The old bars under the new springs; the other axle keeps its bar.
        let (old, new) = (whole.old_bars.expect("a new bar is planned"), whole.roll.new.expect("tracks"));
        close("old bar", old.bars.front.si(), roll_by_hand(State::NewSprings).bars[0] * bars[0]);
        assert_eq!((old.bars.rear, old.springs), (new.bars.rear, new.springs));
    }
    assert_eq!(whole(&rolling("")).old_bars, None, "no other bar is planned");
}

/// About a line on the ground under the middle, body upright, the whole mass at its height turns the vehicle over; the
/// body that leans adds its weight beside the middle: Σ ΔF_i t_i = a_y M h + m_s g h_roll φ.
#[test]
fn bends_by_moments_about_the_ground() {
    let whole = whole(&rolling(""));
    for state in State::ALL {
        let (found, by_hand) = (whole.roll.of(state).expect("tracks"), roll_by_hand(state));
        let sprung = SPRUNG_KG[after(state)].map(|kg| 2.0 * kg);
        let unsprung = [[74.0, 90.0], [80.0, 90.0]][after(state)];
        let body: f64 = sprung.iter().sum();
        let all = body + unsprung.iter().sum::<f64>();
        // Of the body itself, and its height over the axis through both roll centres.
        let moment = all * 0.56 - unsprung[0] * 0.29 - unsprung[1] * 0.31;
        let over_axis = moment - sprung[0] * 0.05 - sprung[1] * 0.25;
        let gradient = |k: [f64; 2]| over_axis / (k[0] + k[1] - over_axis * G);
        let on_springs = gradient(by_hand.suspension());
        close("gradient", found.gradient_rad_s2_per_m.expect("stands"), on_springs);
        close("on tyres", found.on_tyres_rad_s2_per_m.expect("stands"), gradient(by_hand.on_tyres()));
        let transfer = found.transfer.expect("stands").map(Quantity::si).both();
        let a_y = 0.5 * G;
        let front = by_hand.suspension()[0] * on_springs + sprung[0] * 0.05 + unsprung[0] * 0.29;
        close("outer front wheel", transfer[0], a_y * front / 1.4);
        let turns = a_y * all * 0.56 + over_axis * G * on_springs * a_y;
        close("all moments", transfer[0] * 1.4 + transfer[1] * 1.5, turns);
        let share = transfer[0] / (transfer[0] + transfer[1]);
        close("front share of the transfer", found.front_transfer().expect("stands"), share);
        // The same moments through the tyres: the stiffness to the ground and its gradient.
        let grounded = by_handed_on_tyres(by_hand, over_axis, sprung, unsprung);
        close("front share on tyres", found.front_transfer_on_tyres().expect("stands"), grounded);
        let front_kg = sprung[0] + unsprung[0];
        close("front share of the weight", found.front_weight().expect("weighed"), front_kg / all);
    }
}

/// Front share of the load transfer, tyres included: Σ of what springs, roll centre and wheels hand over, by hand.
fn by_handed_on_tyres(by_hand: ByHand, over_axis: f64, sprung: [f64; 2], unsprung: [f64; 2]) -> f64 {
    let [front, rear] = by_hand.on_tyres();
    let gradient = over_axis / (front + rear - over_axis * G);
    let front = (front * gradient + sprung[0] * 0.05 + unsprung[0] * 0.29) / 1.4;
    let rear = (rear * gradient + sprung[1] * 0.25 + unsprung[1] * 0.31) / 1.5;
    front / (front + rear)
}

#[test]
fn anti_roll_bars_are_in_no_ride_frequency() {
    let bars = solve(&rolling(""));
    let none = solve(&rolling("front.roll_bar.diameter; rear.roll_bar.diameter"));
    assert!(none.axles == bars.axles && none.cases == bars.cases, "to the last bit");
    assert!(none.rear_over_front == bars.rear_over_front && none.flat_ride == bars.flat_ride);
    let heave = |a: &Answer| (a.whole.pitch, a.whole.nose_up, a.whole.beam, a.whole.dive, a.whole.centre);
    assert!(heave(&none) == heave(&bars));
    let stiffness = |a: &Answer| a.whole.roll.new.expect("tracks").gradient_rad_s2_per_m.expect("stands");
    assert!(stiffness(&bars) < 0.7 * stiffness(&none), "they do work in bends");
}

const UNEVEN: &str = "after.pads.lf 4 mm; after.pads.rf -2 mm; after.pads.rr 3 mm";

#[test]
fn what_uneven_pads_add_is_taken_away() {
    let read = [[305.0, 295.0, 255.0, 245.0], [350.0, 340.0, 275.0, 265.0]];
    // Weighed after on the old springs, whatever is fitted later, the bars' links free. By hand: 6 mm and −3 mm, left
    // above right.
    let gained = bars_free(State::OldSprings).right_wheels([0.006 / 1.4, -0.003 / 1.5], [0.0; 2]);
    assert!(gained[0] < -1.0, "the higher pad carries more");
    for (i, when) in ["before", "after"].into_iter().enumerate() {
        let level = whole(&rolling(&UNEVEN.replace("after", when))).level.both();
        assert_eq!(level[1 - i], None);
        let (level, taken) = (in_kg(level[i]), gained.map(|kg| -kg));
        close_all(when, level, to_the_right(read[i], taken));
        let axles = |c: [f64; 4]| [c[0] + c[1], c[2] + c[3]];
        close_all("axles", axles(level), axles(read[i]));
    }
    // All as high, a floor that falls to one side (10 mm on a metre), a floor that falls ahead: nothing to take away.
    for [lf, rf, lr, rr] in [[0.0; 4], [7.0; 4], [14.0, 0.0, 15.0, 0.0], [0.0, 0.0, 30.0, 30.0]] {
        let fields =
            format!("after.pads.lf {lf} mm; after.pads.rf {rf} mm; after.pads.lr {lr} mm; after.pads.rr {rr} mm");
        close_all("a plane", in_kg(whole(&rolling(&fields)).level.after), read[1]);
    }
    assert_eq!(whole(&rolling("")).level, BeforeAfter::default(), "level unless something is said");
}

/// The seats moved as the answer says: k s r on the springs' base presses the body over on the new springs.
#[test]
fn seats_bring_the_cross_weight_to_what_is_wanted() {
    for pads in ["", UNEVEN] {
        let whole = whole(&rolling(&format!("{pads}; chassis.cg_height")));
        let cross = whole.cross.expect("seats move");
        let shift = cross.at_seat.map(Quantity::si).both();
        // 2 mm a turn in front, shims behind, counted in mm.
        close_all("turns", [cross.turns; 2], [shift[0] / 2e-3, shift[1] / 1e-3]);
        assert_eq!(cross.by_turns.both(), [true, false]);
        // + up at RF and LR: the right side goes up in front and down behind.
        let seats = [-57e3 * 0.6 * 1.4 * shift[0], 22e3 * 0.9 * 1.1 * shift[1]];
        let gained = bars_free(State::NewSprings).right_wheels([0.0; 2], seats);
        let read = read_nm(if pads.is_empty() { [350.0, 340.0, 275.0, 265.0] } else { in_kg(whole.level.after) });
        let (_, moments) = rolled_by_hand(read, [0.0; 2], 0.0);
        let from = to_the_right([345.0, 345.0, 270.0, 270.0], [moments[0] / 1.4 / G, moments[1] / 1.5 / G]);
        let by_hand = to_the_right(from, gained);
        assert!(near((by_hand[1] + by_hand[2]) / 1230.0, 0.51, 1e-9), "{by_hand:?}");
        let found = in_kg(Some(cross.corners));
        close_all("corner", found, by_hand);
        assert!(near(found[0] + found[1], 690.0, 1e-12), "the front share stays");
    }
    let bar = ["diameter 24 mm", "length 1.1 m", "arm 350 mm", "angle 5 °"].map(|f| format!("front.spring.bar.{f}"));
    let mut job = rolling(&bar.join(";"));
    job.front.spring.kind = SpringKind::TorsionBar;
    let cross = whole(&job).cross.expect("the rear seats move");
    assert!(cross.at_seat.front.si() == 0.0 && cross.at_seat.rear.si() > 0.0, "a torsion bar has no seat");
    let [_, rf, lr, _] = in_kg(Some(cross.corners));
    close("by the rear alone", (rf + lr) / 1230.0, 0.51);
}

/// Two parts, 90 kg on the body and 30 kg on the rear axle: halves of the axles, the body's moment over springs and
/// tyres of both axles (the bars are free on the scales), the axle's on its own tyres. ± by GUM 5.1.2: each input moved by its standard uncertainty.
#[test]
fn the_ledger_corner_by_corner() {
    let mut job = rolling("");
    job.parts = vec![
        Part { y: m(0.4), ..part(Way::In, 90.0, 0.5) },
        Part { on: PartOn::RearAxle, y: m(-0.3), ..part(Way::In, 30.0, 0.0) },
    ];
    let by_hand = |[kg, x, y]: [f64; 3], [axle_kg, axle_y]: [f64; 2]| {
        let right = bars_free(State::OldSprings).under(kg * y * G, [0.0; 2], [0.0; 2]);
        let rear = kg * x / WHEELBASE_M + axle_kg;
        let halves = [(kg - kg * x / WHEELBASE_M) / 2.0, rear / 2.0];
        to_the_right([halves[0], halves[0], halves[1], halves[1]], [right[0], right[1] + axle_kg * axle_y / 1.5])
    };
    let at = ([90.0, 0.5, 0.4], [30.0, -0.3]);
    let change = by_hand(at.0, at.1);
    // Unless stated, limits of a part are 5 % and 30 mm, so /√3.
    let u = [4.5, 0.03, 0.03, 1.5, 0.03].map(|limit: f64| limit / 3.0_f64.sqrt());
    let moved = [0, 1, 2, 3, 4].map(|i| {
        let step = |j: usize| if i == j { u[j] } else { 0.0 };
        let ([kg, x, y], [axle, axle_y]) = at;
        by_hand([kg + step(0), x + step(1), y + step(2)], [axle + step(3), axle_y + step(4)])
    });
    let spread = |corner: usize| moved.iter().map(|m| (m[corner] - change[corner]).powi(2)).sum::<f64>();
    let told = whole(&job).ledger.expect("parts and tracks").told;
    let before = [305.0, 295.0, 255.0, 245.0];
    let after = [350.0, 340.0, 275.0, 265.0];
    let (foretold, residual) = (told.foretold.expect("weighed before"), told.residual.expect("weighed twice"));
    let back = told.reconstructed.expect("weighed after");
    for i in 0..4 {
        close("change", told.change[i].value, change[i]);
        close("foretold", foretold[i].value, before[i] + change[i]);
        close("reckoned back", back[i].value, after[i] - change[i]);
        close("residual", residual[i].value, after[i] - before[i] - change[i]);
        // A scale is read to 1 kg, within limits.
        close("± of the change", told.change[i].u, spread(i).sqrt());
        close("± of what was predicted", foretold[i].u, (spread(i) + 1.0 / 3.0).sqrt());
        close("± of the residual", residual[i].u, (spread(i) + 2.0 / 3.0).sqrt());
    }
    job.parts[0].y = "".into();
    let unsaid = whole(&job).ledger.expect("in the middle").told.change[0].u;
    assert!(unsaid > 2.0 * told.change[0].u, "where it sits across is not known: {unsaid}");
    set(&mut job, "front.track");
    assert_eq!(whole(&job).ledger, None, "how roll is shared is not known");
}

/// Something of 40 kg forgotten, 0.6 m behind the front axle and 0.25 m right: the scales find it.
#[test]
fn what_is_missing_sits_where_it_does() {
    let forgotten = Part { y: m(0.25), ..part(Way::In, 40.0, 0.6) };
    let mut job = rolling("");
    job.parts = vec![forgotten, Part { y: m(-0.1), ..part(Way::In, 80.0, 1.0) }];
    job.after = Default::default();
    let told = whole(&job).ledger.and_then(|l| l.told.foretold).expect("weighed before");
    let [lf, rf, lr, rr] = told.map(|m| kg(m.value));
    job.after = Weighing { lf, rf, lr, rr, ..Weighing::default() };
    job.parts.remove(0);
    let answer = solve(&job);
    let (mass, x) = answer.ledger.as_ref().and_then(|l| l.missing).expect("some is missing");
    let y = answer.whole.ledger.and_then(|l| l.missing_right).expect("tracks are typed");
    close_all("mass and place", [mass.si(), x.si(), y.si()], [40.0, 0.6, 0.25]);
    let [text] = &said(&answer, "ledger-residual")[..] else { panic!("it is said once") };
    assert!(
        text.contains(
            "40 kg is missing from the parts ledger, at a point 600 mm behind the front axle, 250 mm right of the centreline"
        ),
        "{text}"
    );
}

/// Moment over the middle that the right wheels carry more, N·m.
fn read_nm([lf, rf, lr, rr]: [f64; 4]) -> [f64; 2] {
    [(rf - lf) * 0.7 * G, (rr - lr) * 0.75 * G]
}

/// Roll of the body over the floor and the moment on each axle, on the new front springs, alike left and right, and the
/// old rear ones, each where it carried its own load. Tyres tilt by τ_i, springs by φ − τ_i; bars do nothing at the lean
/// of the weigh-in, and what the weight shifts to the side counts from there, N·m per rad.
fn rolled_by_hand(read: [f64; 2], bars: [f64; 2], aside: f64) -> (f64, [f64; 2]) {
    let (old, new) = (roll_by_hand(State::OldSprings), roll_by_hand(State::NewSprings));
    let tilts = [0, 1].map(|i| read[i] / old.tyres[i]);
    let was = weighed_by_hand(read);
    let [front, rear] = [new.springs[0] + bars[0], new.springs[1] + bars[1]];
    let wound = [bars[0] * (was - tilts[0]), (rear) * (was - tilts[1]) - read[1]];
    let matrix = Matrix3::new(
        front,
        -front - old.tyres[0],
        0.0,
        rear,
        0.0,
        -rear - old.tyres[1],
        -aside,
        old.tyres[0],
        old.tyres[1],
    );
    let found = matrix.lu().solve(&Vector3::new(wound[0], wound[1], read[0] + read[1] - aside * was)).expect("stiff");
    (found[0], [old.tyres[0] * found[1], old.tyres[1] * found[2]])
}

/// Lean at the weigh-in: springs alike left and right carry what was read, on tyres that tilt under it.
fn weighed_by_hand(read: [f64; 2]) -> f64 {
    let old = roll_by_hand(State::OldSprings);
    let tilts = [0, 1].map(|i| read[i] / old.tyres[i]);
    let sum = (0..2).map(|i| read[i] + old.springs[i] * tilts[i]).sum::<f64>();
    sum / (old.springs[0] + old.springs[1])
}

/// What the weight shifts to the side, N·m per rad: all as in the bends, after.
fn aside_by_hand() -> f64 {
    let moment = (1230.0 * 0.56 - 80.0 * 0.29 - 90.0 * 0.31) - 610.0 * 0.05 - 450.0 * 0.25;
    moment * G
}

#[test]
fn lean_from_the_scales() {
    for pads in ["", UNEVEN] {
        let whole = whole(&rolling(pads));
        let read = read_nm(if pads.is_empty() { [350.0, 340.0, 275.0, 265.0] } else { in_kg(whole.level.after) });
        let [after, new] = [whole.corners.old, whole.corners.new].map(|c| c.expect("corners"));
        close("lean", after.lean.si(), weighed_by_hand(read));
        close("left lower", after.right_lower.si(), 1.45 * weighed_by_hand(read).sin());
        let (lean, moments) = rolled_by_hand(read, roll_by_hand(State::NewSprings).bars, aside_by_hand());
        close("on the new springs", new.lean.si(), lean);
        let right = [moments[0] / 1.4 / G, moments[1] / 1.5 / G];
        close_all("weights", in_kg(Some(new.weight)), to_the_right([345.0, 345.0, 270.0, 270.0], right));
    }
}

#[test]
fn repeated_weighings() {
    let mut job = rolling("");
    let once = |[lf, rf, lr, rr]: [f64; 4]| Again { lf: kg(lf), rf: kg(rf), lr: kg(lr), rr: kg(rr) };
    let half = Again { rr: "".into(), ..once([301.0, 301.0, 256.0, 1.0]) };
    job.before.repeats = vec![once([309.0, 295.0, 251.0, 246.0]), half];
    let answer = solve(&job);
    // By hand: 305 309 301; 295 295 301; 255 251 256; 245 246.
    close_all("mean", in_kg(answer.before.corners), [305.0, 297.0, 254.0, 245.5]);
    close_all("standard deviation", in_kg(answer.whole.scatter.before), [16.0, 12.0, 7.0, 0.5].map(f64::sqrt));
    assert_eq!(answer.whole.scatter.after, None, "read once");
    assert!(near(compared_kg(&answer)[0][0], 602.0, 1e-12), "the mean is what is sized on");
    job.before.repeats[0].rr = "".into();
    assert_eq!(whole(&job).scatter.before, None, "one corner was read once");
}

/// Everything that can be typed is typed, and nothing comes out as zero except the height against before.
fn full() -> Job {
    let weighed = "after.lf 352 kg; after.rf 338 kg; before.pads.lf 2 mm; after.pads.rr 3 mm";
    rolling(&format!("{weighed}; front.roll_bar.new_diameter 24 mm; chassis.pitch_radius 1.2 m"))
}

/// Its answer.
static FULL: LazyLock<Answer> = LazyLock::new(|| solve(&full()));

/// Figures of the whole vehicle.
fn figures_of(answer: &Answer) -> Vec<(String, Option<f64>)> {
    let all = results::figures(answer).into_iter().map(|f| (f.key, f.si));
    all.filter(|f| f.0.starts_with("whole.")).collect()
}

proptest! {
    #![proptest_config(config(48))]

    /// LF ↔ RF, LR ↔ RR: leans and seats the other way, bends as before.
    #[test]
    fn seen_in_a_mirror(
        corners in proptest::array::uniform4(200.0..400.0),
        pads in proptest::array::uniform4(-0.01..0.01),
        wanted in 0.48..0.52,
    ) {
        let job = |[lf, rf, lr, rr]: [f64; 4], pads: [f64; 4], wanted: f64| {
            let mut job = rolling(&format!("chassis.cross_wanted {wanted}"));
            (job.after.lf, job.after.rf, job.after.lr, job.after.rr) = (kg(lf), kg(rf), kg(lr), kg(rr));
            let places = &mut job.after.pads;
            (places.lf, places.rf, places.lr, places.rr) = (m(pads[0]), m(pads[1]), m(pads[2]), m(pads[3]));
            whole(&job)
        };
        let mirror = |[lf, rf, lr, rr]: [f64; 4]| [rf, lf, rr, lr];
        let (one, other) = (job(corners, pads, wanted), job(mirror(corners), mirror(pads), 1.0 - wanted));
        prop_assert!(one.roll == other.roll && one.pitch == other.pitch && one.dive == other.dive);
        let turned = |w: &Whole| {
            let (stand, cross) = (w.corners.new.expect("corners"), w.cross.expect("seats move"));
            let right = w.centre.and_then(|c| c.right).expect("corners").si();
            [stand.lean.si(), stand.right_lower.si(), right, cross.turns, cross.at_seat.rear.si()]
        };
        close_all("turned round", turned(&one).map(|a| 1.0 + a), turned(&other).map(|b| 1.0 - b));
        let corrected = |w: &Whole| in_kg(w.cross.map(|c| c.corners));
        close_all("corner", corrected(&one), mirror(corrected(&other)));
    }

    /// Whatever is left blank: what needs it is not known, never zero, and nothing breaks.
    #[test]
    fn nothing_comes_from_nothing(keep in proptest::collection::vec(proptest::bool::weighted(0.9), 96)) {
        static WANTED: LazyLock<Vec<(String, Option<f64>)>> = LazyLock::new(|| figures_of(&FULL));
        let (mut job, mut kept) = (full(), keep.into_iter().cycle());
        job.walk_mut(&mut String::new(), &mut |_, entry| {
            if !entry.text().is_empty() && kept.next() == Some(false) {
                type_in(entry, "");
            }
        });
        let answer = solve(&job);
        let w = &answer.whole;
        let corners = [w.roll.new.as_ref(), w.old_bars.as_ref()].iter().all(Option::is_none)
            && w.level == BeforeAfter::default() && w.corners == PerState::default() && w.cross.is_none();
        if job.vehicle.wheelbase.text.is_empty() {
            prop_assert!(corners && w.centre.is_none() && w.pitch.new.is_none() && w.dive.new.is_none());
            prop_assert!(w.nose_up.old.is_none() && w.beam.new.is_none() && answer.flat_ride.old.is_none());
        }
        if job.front.track.text.is_empty() || job.rear.track.text.is_empty() || job.rear.spring_base.text.is_empty() {
            prop_assert!(corners);
        }
        if job.chassis.cg_height.text.is_empty() {
            let known = |r: &Roll| r.gradient_rad_s2_per_m.or(r.on_tyres_rad_s2_per_m).is_some() || r.transfer.is_some();
            prop_assert!(State::ALL.iter().all(|s| w.dive.of(*s).is_none() && !w.roll.of(*s).as_ref().is_some_and(known)));
            prop_assert!(w.centre.is_none_or(|c| c.height.is_none()));
        }
        if answer.after.corners.is_none() {
            prop_assert!(w.corners.old.is_none() && w.corners.new.is_none() && w.cross.is_none() && w.level.after.is_none());
            prop_assert!(w.centre.is_none_or(|c| c.right.is_none()));
        }
        for (key, si) in figures_of(&answer) {
            let whole = WANTED.iter().find(|f| f.0 == key).and_then(|f| f.1).unwrap_or_default();
            // A bar that is not there has no stiffness and no share of any, and says so.
            let of_bar = key.ends_with(".bar") || key.ends_with(".bar_share");
            let zero = si == Some(0.0) && whole != 0.0 && !of_bar;
            prop_assert!(!zero && si.is_none_or(f64::is_finite), "{key}: {si:?}");
        }
        let printed = text::write(&sheet::build(&job, &answer), text::Markup::Plain);
        prop_assert!(!printed.contains("NaN") && !printed.contains("inf "));
    }
}

/// The same vehicle typed in pounds and inches.
#[test]
fn pounds_and_inches_give_the_same() {
    let metric = full();
    let mut pounds = metric.clone();
    pounds.units = UnitChoice::pound_inch();
    pounds.walk_mut(&mut String::new(), &mut |_, entry| {
        let Ok(Some(number)) = entry.number(metric.decimal) else { return };
        let units = [(Dim::Mass, "lb"), (Dim::Length, "in"), (Dim::SpringRate, "lb/in"), (Dim::Stress, "ksi")];
        let Some((dim, symbol)) = units.into_iter().find(|u| u.0 == entry.dim()) else { return };
        let unit = table::find(dim, symbol).expect("a unit");
        type_in(entry, &format!("{} {symbol}", number.si() / unit.si));
    });
    assert!(pounds.front.track.text.starts_with("55.118") && pounds.front.track.text.ends_with(" in"));
    for ((key, a), (_, b)) in figures_of(&FULL).into_iter().zip(figures_of(&solve(&pounds))) {
        let same = a.zip(b).is_some_and(|(a, b)| near(a, b, 1e-9) || (a - b).abs() < 1e-12);
        assert!(same || a.or(b).is_none(), "{key}: {a:?} {b:?}");
    }
}

#[test]
fn figures_and_sheet_hold_what_was_found() {
    let (job, answer) = (full(), &*FULL);
    let (whole, value) = (&answer.whole, json::value(&job, answer));
    let results = value["results"].as_array().expect("a list");
    for (name, wanted) in [
        ("centre.height", whole.centre.and_then(|c| c.height).map(|h| h.value)),
        ("pitch.new_springs.slower.node", whole.pitch.new.and_then(|p| p.modes[0].node).map(Quantity::si)),
        ("beam.old_springs", whole.beam.old.map(Quantity::si)),
        ("dive.new_springs.room_left", whole.dive.new.and_then(|d| d.room_left).map(Quantity::si)),
        ("roll.old_springs.front.transfer", whole.roll.old.and_then(|r| r.transfer).map(|t| t.front.si())),
        ("roll.old_springs.gradient", whole.roll.old.and_then(|r| r.gradient_rad_s2_per_m).map(|r| r * G)),
        ("roll.old_bars.front_share", whole.old_bars.and_then(|r| r.front_share).map(Quantity::si)),
        ("corners.level.after.lf", whole.level.after.map(|c| c.lf.si())),
        ("corners.corrected.rr", whole.cross.map(|c| c.corners.rr.si())),
        ("cross.rear.at_seat", whole.cross.map(|c| c.at_seat.rear.si())),
        ("corners.new.right_lower", whole.corners.new.map(|c| c.right_lower.si())),
        ("corners.after.rr.rise", whole.corners.old.and_then(|c| c.rise).map(|r| r.rr.si())),
        ("levelling.front.at_seat", whole.levelling.map(|l| l.at_seat.front.si())),
    ] {
        let found = results.iter().find(|r| r["key"] == format!("whole.{name}")).expect(name);
        assert!(wanted.is_some() && found["value"].as_f64() == wanted, "{name}: {found}");
    }
    let printed = |job: &Job, answer: &Answer| text::write(&sheet::build(job, answer), text::Markup::Plain);
    let (sheet, bare) = (printed(&job, answer), printed(&plain(), &solve(&plain())));
    for head in ["Roll", "Corner weights", "with the old anti-roll bars", "Centre of gravity off the centreline"] {
        assert!(sheet.contains(head) && !bare.contains(head), "{head}:\n{sheet}\nwithout tracks:\n{bare}");
    }
    let bought = answer.released(Side::Front).ok().and_then(|p| p.spring).map(|s| s.pick.si());
    assert_eq!(bought, Some(57e3), "as the working above has it");
}
