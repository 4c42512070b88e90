//! Results about the room at both ends of an axle's travel, on the springs that will be fitted.

use crate::base::units::{Length, Quantity};
use crate::report::results::row::{Row, put, rows, si};
use crate::report::results::{By, Substitution};
use crate::solve::answer::{AxleAnswer, Standing, State};
use crate::trade::spring::Spring;
use crate::trade::wheel::Helper;

pub(super) static ROOM: &[Row<AxleAnswer>] = rows! { AxleAnswer;
    "spring_at_metal", "spring length at full bump", Length, "at metal contact, along the spring";
        "L_s(z)", "DERIVED", |a| si(a.room.spring_at_metal), by: By::Reading,
        needs: &["travel.metal", "spring.fitted_length"];
    "spring_at_droop", "spring length at full droop", Length, "along the spring";
        "L_s(z)", "DERIVED", |a| si(a.room.spring_at_droop), by: By::Reading,
        needs: &["travel.droop", "spring.fitted_length"];
    "stored_at_metal", "energy stored in the spring at full bump", Energy, "for the springs that will be fitted";
        "area under force against length; a coil of one rate: k_s (L0 − L)² / 2", "DERIVED",
        |a| si(a.room.stored_at_metal), with: coil_at_metal;
    "force_at_metal", "spring force at full bump", Force, "along the spring, for the springs that will be fitted";
        "F = k_s (L0 − L)", "SHI", |a| si(a.room.force_at_metal), with: coil_at_metal;
    "to_bind", "room to coil bind at full bump", Length, "at metal contact; negative: coil bind comes first";
        "L − L_solid", "EN", |a| si(a.room.to_bind),
        with: |a| put!["L": a.room.spring_at_metal?, "L_solid": a.fitted.as_ref()?.solid_length()?];
    "longest_solid", "longest solid length that leaves the minimum room to coil bind", Length,
        "the spring itself at metal contact, without spacer and helper spring";
        "L − room − L_beside", "EN", |a| si(a.room.longest_solid),
        with: |a| put!["L": a.room.spring_at_metal?, "room": a.room.bind_room?, "L_beside": a.room.beside_solid?];
    "damper_at_ride", "damper length at ride height", Length, "eye to eye";
        "L_d(z)", "DERIVED", |a| si(a.room.damper_at_ride), by: By::Reading, needs: &["damper.fitted_length"];
    "damper_closed_most", "maximum closed length of the damper", Length, "eye to eye; with the minimum damper travel left";
        "L_d(metal) − room", "DERIVED", |a| si(a.room.damper_closed_most),
        with: |a| put!["L_d(metal)": a.room.damper_at_metal?, "room": a.damping.as_ref()?.least_room?];
    "damper_open_least", "minimum open length of the damper", Length, "eye to eye; with the minimum damper travel left";
        "L_d(droop) + room", "DERIVED", |a| si(a.room.damper_open_least),
        with: |a| put!["L_d(droop)": a.room.damper_at_droop?, "room": a.damping.as_ref()?.least_room?];
    "seat", "seat preload left at full droop", Length, "compression left; negative: loose on its seats by this amount";
        "L0 − L_droop", "DERIVED", |a| si(a.room.seat),
        with: |a| put!["L0": a.fitted.as_ref()?.free_length(), "L_droop": a.room.spring_at_droop?];
    "damper_bump", "damper travel left at full bump", Length, "negative: the damper is the stop";
        "L_d(metal) − closed length", "DERIVED", |a| si(a.room.damper_bump),
        with: |a| put!["L_d(metal)": a.room.damper_at_metal?, "closed length": a.room.damper_closed?],
        needs: &["damper.closed_length"];
    "damper_droop", "damper travel left at full droop", Length, "negative: the damper is the stop";
        "open length − L_d(droop)", "DERIVED", |a| si(a.room.damper_droop),
        with: |a| put!["open length": a.room.damper_open?, "L_d(droop)": a.room.damper_at_droop?],
        needs: &["damper.open_length"];
    "own_at_ride", "length of the spring itself at ride height", Length,
        "length between the seats, without spacer and helper spring";
        "L_s(z) − L_beside", "DERIVED", |a| si(a.room.own_at_ride),
        with: |a| put!["L_s(z)": a.room.seats_at_ride?, "L_beside": a.room.beside_at_ride?];
    "old_force_hanging", "force of the old spring at full droop", Force,
        "along the spring; the formula is for a coil spring of constant rate that is not at solid length";
        "F = k_s (L0 − L)", "SHI", |a| hanging(a, State::OldSprings, Spring::force_n), by: By::Reading;
    "old_stored_hanging", "energy stored in the old spring at full droop", Energy, "at full droop";
        "area under force against length", "DERIVED", |a| hanging(a, State::OldSprings, Spring::energy_j),
        by: By::Reading;
    "force_hanging", "force of the new spring at full droop", Force,
        "along the spring; the formula is for a coil spring of constant rate that is not at solid length";
        "F = k_s (L0 − L)", "SHI", |a| hanging(a, State::NewSprings, Spring::force_n), by: By::Reading;
    "stored_hanging", "energy stored in the new spring at full droop", Energy, "at full droop";
        "area under force against length", "DERIVED", |a| hanging(a, State::NewSprings, Spring::energy_j),
        by: By::Reading;
    "rise_as_weighed", "body rise on the springs that will be fitted", Length,
        "at the wheel, change from the old springs, at the weighed load; + = up";
        "z_old − z_new", "DERIVED", |a| {
            let on_scales = |state| a.on_scales(state, state);
            Some((on_scales(State::OldSprings)? - on_scales(State::NewSprings)?).si())
        },
        by: By::Solving;
};

/// What is measured again, with the load that was weighed.
pub(super) static ON_SCALES: &[Row<AxleAnswer>] = rows! { AxleAnswer;
    "old_stop_room", "room to the bump stop on the old springs, loaded as weighed", Length,
        "wheel travel; negative: bump stop already touched"; "gap − z", "DERIVED", |a| stop_room(a, State::OldSprings),
        by: By::Solving;
    "new_stop_room", "room to the bump stop on the springs that will be fitted, loaded as weighed", Length,
        "wheel travel; negative: bump stop already touched"; "gap − z", "DERIVED", |a| stop_room(a, State::NewSprings),
        by: By::Solving;
    "old_spring_length", "length of the old spring, loaded as weighed", Length, "along the spring, seat to seat";
        "L_s(z)", "DERIVED", |a| spring_length(a, State::OldSprings), by: By::Solving;
    "new_spring_length", "length of the spring that will be fitted, loaded as weighed", Length,
        "along the spring, seat to seat"; "L_s(z)", "DERIVED", |a| spring_length(a, State::NewSprings),
        by: By::Solving;
    "old_damper_length", "damper length on the old springs, loaded as weighed", Length, "eye to eye";
        "L_d(z)", "DERIVED", |a| damper_length(a, State::OldSprings), by: By::Solving;
    "new_damper_length", "damper length on the springs that will be fitted, loaded as weighed", Length, "eye to eye";
        "L_d(z)", "DERIVED", |a| damper_length(a, State::NewSprings), by: By::Solving;
};

/// An air bag that helps the springs that will be fitted.
pub(super) static BAG: &[Row<AxleAnswer>] = rows! { AxleAnswer;
    "force", "air bag load at ride height", Force, "along the bag, per bag";
        "F = p A", "DERIVED", |a| Some(helper(a)?.force_n(standing(a)?.travel.si()) / helper(a)?.ratio),
        by: By::Solving;
    "pressure", "air bag pressure at ride height", Pressure, "gauge pressure";
        "p_abs V^n constant", "DERIVED", |a| bag_pressure(a, standing(a)?.travel), by: By::Solving;
    "pressure_at_metal", "air bag pressure at full bump", Pressure, "gauge pressure, at metal contact";
        "p_abs V^n constant", "DERIVED", |a| bag_pressure(a, a.travel.metal?), by: By::Solving,
        needs: &["travel.metal"];
    "shortens", "air bag compression, ride height to full bump", Length, "along the bag";
        "r_b (z_metal − z)", "DERIVED",
        |a| Some(helper(a)?.ratio * (a.travel.metal?.si() - standing(a)?.travel.si())), by: By::Solving,
        needs: &["travel.metal"];
    "lengthens", "air bag extension, ride height to full droop", Length, "along the bag";
        "r_b (z_droop + z)", "DERIVED",
        |a| Some(helper(a)?.ratio * (a.travel.droop?.si() + standing(a)?.travel.si())), by: By::Solving,
        needs: &["travel.droop"];
};

fn standing(a: &AxleAnswer) -> Option<&Standing> {
    a.standing.new.as_ref()
}

fn helper(a: &AxleAnswer) -> Option<Helper> {
    standing(a)?.curve.helper.filter(|helper| helper.ratio > 0.0)
}

/// Gauge pressure at a wheel travel, Pa; `None` where no air is left room.
fn bag_pressure(a: &AxleAnswer, travel: Length) -> Option<f64> {
    let helper = helper(a)?;
    Some(helper.bag.gauge(helper.compressed(travel)).si()).filter(|pa| pa.is_finite())
}

/// Wheel travel to the stop with the load that was weighed, m.
fn stop_room(a: &AxleAnswer, state: State) -> Option<f64> {
    Some((a.travel.stop? - a.on_scales(state, state)?).si())
}

/// Seat to seat with the load that was weighed, m; `None` where only changes of the length are known.
fn spring_length(a: &AxleAnswer, state: State) -> Option<f64> {
    let springs = a.standing.of(state).as_ref().filter(|springs| springs.spring_length.is_some())?;
    Some(springs.curve.spring_length.length(a.on_scales(state, state)?).si())
}

/// Eye to eye with the load that was weighed, m; `None` where only changes of the length are known.
fn damper_length(a: &AxleAnswer, state: State) -> Option<f64> {
    let (springs, _) = a.standing.of(state).as_ref().zip(a.room.damper_at_metal.or(a.room.damper_at_droop))?;
    Some(springs.curve.damper_length.length(a.on_scales(state, state)?).si())
}

/// Of the spring of a state, at full droop.
fn hanging(a: &AxleAnswer, state: State, of: impl Fn(&Spring, f64) -> f64) -> Option<f64> {
    Some(of(&a.standing.of(state).as_ref()?.curve.spring, si(a.room.spring_at_droop)?))
}

/// Of a coil of one rate: what gives its force and energy at metal, the coil no shorter than solid.
fn coil_at_metal(a: &AxleAnswer) -> Option<Vec<Substitution>> {
    let Spring::Coil(coil) = a.standing.new.as_ref()?.curve.spring else { return None };
    let length_m = si(a.room.spring_at_metal)?;
    put![
        "k_s": coil.rate_n_per_m => SpringRate, "L0": coil.free_length_m => Length,
        "L": coil.solid_length_m.map_or(length_m, |solid_m| length_m.max(solid_m)) => Length,
    ]
}
