//! What both corners of an axle ask of their springs at once: body, bars and the other axle tie them together, whatever
//! springs they get.

use crate::base::math::linear;
use crate::base::units::{Length, Quantity};
use crate::choose::judge::{Bench, Candidate};
use crate::choose::rank::Ranking;
use crate::job::LeftRight;
use crate::solve::ground::CornerLoad;
use crate::solve::other_springs::OtherSprings;
use crate::trade::wheel::ForceTravel;

/// Steps in search of both wheels at the wanted height, at most.
const STEPS: usize = 8;
/// Found, m.
const FOUND_M: f64 = 1e-9;
/// Seats are moved by the band of heights, and by no less, to see what follows, m.
const LEAST_MOVE_M: f64 = 2e-3;

/// Rows: left, right.
pub(super) type ByTwo = [[f64; 2]; 2];

/// What is asked around the wanted height of both wheels, to first order over the band of heights.
#[derive(Debug, Clone)]
pub(super) struct Asks {
    /// What each corner carries with both wheels at the wanted height.
    pub loads: LeftRight<CornerLoad>,
    /// How the force at the springs' places goes with the travel of either wheel, N/m.
    pub force_n_per_m: ByTwo,
    /// How far the springs' places go with the travel of either wheel: on a beam they see less of what the wheels differ by.
    pub place: ByTwo,
    /// Else each corner is for itself.
    pub is_of_the_body: bool,
}

/// Where the body is on seats that were moved, left and right.
struct Found {
    /// Wheels from the wanted height, m.
    wheels_m: [f64; 2],
    /// Springs' places from there, m.
    places_m: [f64; 2],
    /// Forces there, N.
    forces_n: [f64; 2],
    sprung_kg: [f64; 2],
}

impl Asks {
    /// Each corner for itself, under what it was read to carry.
    pub fn apart(loads: LeftRight<CornerLoad>) -> Self {
        Asks { loads, force_n_per_m: [[0.0; 2]; 2], place: [[1.0, 0.0], [0.0, 1.0]], is_of_the_body: false }
    }

    /// Of the whole body, found on two springs of one rate whose seats are moved. `None` where the four corners are not
    /// known, or the body does not get there.
    pub fn of(body: &OtherSprings<'_>, ranking: &Ranking, of_any_length: &Candidate) -> Option<Self> {
        let mut bench = Bench::new(ranking.ground.clone(), &ranking.wish);
        bench.judge(of_any_length);
        let alike = bench.curve().clone();
        let wanted_m = ranking.ground.wanted_m;
        let on_seats = |seats_m: [f64; 2]| {
            let moved = |by_m| alike.spring.clone().moved(Length::from_si(by_m));
            let curves = seats_m.map(|by_m| ForceTravel { spring: moved(by_m), ..alike.clone() });
            let stand = body.stand(curves.clone())?;
            let at_springs_m = stand.at_springs_m.both();
            Some(Found {
                wheels_m: stand.travel_m.map(|z| z - wanted_m).both(),
                places_m: at_springs_m.map(|z| z - wanted_m),
                forces_n: [0, 1].map(|i| curves[i].force_n(at_springs_m[i])),
                sprung_kg: stand.sprung_kg.both(),
            })
        };
        let by_m = ranking.wish.height_m.max(LEAST_MOVE_M);
        let moved = |[left, right]: [f64; 2]| {
            let around = |up: [f64; 2], down: [f64; 2]| Some([on_seats(up)?, on_seats(down)?]);
            Some([
                around([left + by_m, right], [left - by_m, right])?,
                around([left, right + by_m], [left, right - by_m])?,
            ])
        };
        let per_seat = |moved: &[[Found; 2]; 2], of: fn(&Found) -> [f64; 2]| -> ByTwo {
            let per = |seat: usize, i: usize| (of(&moved[seat][0])[i] - of(&moved[seat][1])[i]) / (2.0 * by_m);
            [0, 1].map(|i| [per(0, i), per(1, i)])
        };
        let mut seats_m = [0.0; 2];
        let mut now = on_seats(seats_m)?;
        for _ in 0..STEPS {
            if now.wheels_m.iter().all(|m| m.abs() <= FOUND_M) {
                break;
            }
            let step = linear::solve(per_seat(&moved(seats_m)?, |f| f.wheels_m), now.wheels_m)?;
            seats_m = [0, 1].map(|i| seats_m[i] - step[i]);
            now = on_seats(seats_m)?;
        }
        let moved = moved(seats_m)?;
        let wheels = per_seat(&moved, |f| f.wheels_m);
        let loads = [0, 1].map(|i| CornerLoad { load_n: now.forces_n[i], sprung_kg: now.sprung_kg[i] });
        Some(Asks {
            loads: loads.into(),
            force_n_per_m: over(per_seat(&moved, |f| f.forces_n), wheels)?,
            place: over(per_seat(&moved, |f| f.places_m), wheels)?,
            is_of_the_body: true,
        })
    }
}

/// One by the other: X with X b = a.
fn over(a: ByTwo, b: ByTwo) -> Option<ByTwo> {
    let turned = [0, 1].map(|i| [b[0][i], b[1][i]]);
    Some([linear::solve(turned, a[0])?, linear::solve(turned, a[1])?])
}
