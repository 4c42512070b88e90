//! Bars the other way round: worked case C10, and that every bar found gives back what was wanted.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::path::Path;

use crate::common::properties::{config, near};
use proptest::prelude::*;
use springwright::base::units::{Angle, G_M_PER_S2, Length, Mass, Quantity, TwistRate};
use springwright::trade::roll::wanted::{AxleForBar, NoBar, bar_alone, both_bars, front_transfer, gradient};
use springwright::trade::roll::{AntiRollBar, AxleInRoll, Body, independent};

fn axle([sprung, unsprung, track, roll_centre, unsprung_height, springs, tyre]: [f64; 7]) -> AxleForBar {
    let m = Length::from_si;
    AxleForBar {
        axle: AxleInRoll {
            stiffness: TwistRate::from_si(springs),
            sprung: Mass::from_si(sprung),
            roll_centre: m(roll_centre),
            unsprung: Mass::from_si(unsprung),
            unsprung_height: m(unsprung_height),
            track: m(track),
        },
        tyres: independent(springwright::base::units::SpringRate::from_si(tyre), m(track)),
    }
}

fn c10() -> ([AxleForBar; 2], Body, AntiRollBar) {
    let front = axle([853.0, 84.0, 1.55, 0.06, 0.31, 36e3, 210e3]);
    let rear = axle([925.0, 156.0, 1.5, 0.36, 0.32, 29_500.0, 230e3]);
    let body = Body { sprung: Mass::from_si(1778.0), above_axis: Length::from_si(0.47) };
    let bar = AntiRollBar {
        diameter_m: 0.02,
        inside_m: 0.0,
        length_m: 0.9,
        blade_m: 0.22,
        link_ratio: 0.6,
        shear_modulus_pa: 79e9,
    };
    ([front, rear], body, bar)
}

const NONE: fn() -> TwistRate = || TwistRate::from_si(0.0);

#[test]
fn worked_case_c10() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/measuring.json");
    let all: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(path).expect("the cases")).expect("JSON");
    let close = |key: &str, got: f64| {
        let want = all["C10"]["expected"][format!("bars.{key}")].as_f64().expect("a number");
        assert!(near(got, want, 1e-9), "{key}: {got}, wanted {want}");
    };
    let (axles, body, bar) = c10();
    let fitted = [TwistRate::from_si(14e3), NONE()];
    let was = gradient(&axles, fitted, body).expect("it stands up");
    close("gradient_rad_per_m_s2", was);
    let share = front_transfer(&axles, fitted, body).expect("it stands up");
    close("front_share", share.si());
    let wanted = 0.9 * was;
    let alone = bar_alone(&axles, body, wanted, 0, NONE()).expect("a bar does it");
    close("front_alone_Nm_per_rad", alone.si());
    let track = Length::from_si(1.55);
    let diameter = bar.diameter_for(alone, track);
    close("front_alone_diameter_m", diameter.si());
    close("front_alone_share", front_transfer(&axles, [alone, NONE()], body).expect("it stands up").si());
    let thick = AntiRollBar { diameter_m: diameter.si(), ..bar };
    assert!(near(thick.roll_stiffness(track).si(), alone.si(), 1e-12));
    close("front_alone_stress_at_3deg_Pa", thick.stress(track, Angle::from_si(3.0_f64.to_radians())).si());
    close("front_alone_one_wheel_N_per_m", thick.one_wheel_n_per_m());
    let both = both_bars(&axles, body, wanted, share).map(|bar| bar.expect("a bar does it").si());
    close("both_front_Nm_per_rad", both[0]);
    close("both_rear_Nm_per_rad", both[1]);
}

#[test]
fn no_bar_is_said() {
    let (axles, body, _) = c10();
    let bare = gradient(&axles, [NONE(), NONE()], body).expect("it stands up");
    assert_eq!(bar_alone(&axles, body, 1.01 * bare, 0, NONE()), Err(NoBar::NoneNeeded));
    assert_eq!(bar_alone(&axles, body, 0.01 * bare, 0, NONE()), Err(NoBar::BeyondTyres));
    // Two bars of no thickness give the springs back.
    let share = front_transfer(&axles, [NONE(), NONE()], body).expect("it stands up");
    assert!(both_bars(&axles, body, 1.001 * bare, share).contains(&Err(NoBar::NoneNeeded)));
}

proptest! {
    #![proptest_config(config(64))]

    /// With the bars that were found the body rolls, and shares its transfer, as wanted. DERIVED.
    #[test]
    fn there_and_back(front in 2e3..4e4_f64, rear in 1e3..3e4_f64, which in 0..2_usize) {
        let (axles, body, _) = c10();
        let bars = [TwistRate::from_si(front), TwistRate::from_si(rear)];
        let (rolls, share) = (gradient(&axles, bars, body).expect("stiff"), front_transfer(&axles, bars, body).expect("stiff"));
        let alone = bar_alone(&axles, body, rolls, which, bars[1 - which]).expect("there is one");
        prop_assert!(near(alone.si(), bars[which].si(), 1e-9));
        let both = both_bars(&axles, body, rolls, share).map(|b| b.expect("there is one").si());
        prop_assert!(near(both[0], front, 1e-9) && near(both[1], rear, 1e-9), "{both:?}");
        prop_assert!(rolls > 0.0 && rolls * G_M_PER_S2 < 1.0);
    }
}
