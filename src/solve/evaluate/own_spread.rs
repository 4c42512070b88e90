//! What carries its own ±, or none, and so is not evaluated again for every field.

use crate::base::units::Quantity;
use crate::base::units::Time;
use crate::solve::answer::{Ledger, LookedAt, Range, State, Whole};
use crate::solve::evaluate::four_corners;
use crate::solve::evaluate::pitch_and_roll::{RestsOn, Vehicle};
use crate::solve::read::Reading;
use crate::trade::pitch::Hump;

/// The whole vehicle with limits, the hump, how readings scatter, the ledger by corners.
pub(in crate::solve) fn with_own_spread(
    reading: &Reading<'_>,
    on: RestsOn<'_>,
    fitted: State,
    ledger: Option<&Ledger>,
    swings: Whole,
) -> Whole {
    let (limits, chassis) = (&reading.job.limits, &reading.job.chassis);
    let mut whole = Whole {
        scatter: four_corners::scatter(reading),
        reading_u: four_corners::reading_u(reading),
        ratio_limits: Range {
            least: reading.known(&limits.rear_front_low),
            most: reading.known(&limits.rear_front_high),
        },
        ..swings
    };
    let Some(vehicle) = Vehicle::read(reading, on, fitted) else { return whole };
    whole.hump = hump(reading).filter(|_| State::ALL.iter().any(|s| whole.pitch.of(*s).is_some()));
    if vehicle.height.is_some() {
        whole.looked_at =
            LookedAt { braking: reading.known(&chassis.braking), cornering: reading.known(&chassis.cornering) };
    }
    whole.ledger = vehicle.ledger(ledger, whole.level);
    whole
}

/// The hump that is driven over.
fn hump(reading: &Reading<'_>) -> Option<Hump> {
    let chassis = &reading.job.chassis;
    Some(Hump {
        height: reading.known(&chassis.hump_height)?,
        length: reading.known(&chassis.hump_length)?,
        speed: reading.known(&chassis.speed)?,
        arrival: Time::from_si(0.0),
    })
}
