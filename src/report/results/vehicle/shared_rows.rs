//! Rows that a load case and a remedy have in common.

use crate::base::language::tr;
use crate::base::units::Quantity;
use crate::report::results::Say;
use crate::report::results::row::{Row, rows, si, swings, to_contact, to_stop};
use crate::solve::answer::AtRest;

/// Of what rests somewhere.
pub(super) static AT_REST: &[Row<AtRest>] = rows! { AtRest;
    "frequency", "ride frequency, without tyre", Frequency, "without tyre deflection";
        "√(k_w/m_s)/2π", "GIL", |on| Some(on.frequency().si()), with: swings;
    "stop_room", "room to the bump stop", Length, "wheel travel";
        "gap − z", "DERIVED", |on| si(on.stop_room()), with: to_stop,
        instead: |on| (on.on_stop && on.stop_room().is_some()).then(|| tr("bump stop touched"));
    "reserve", "reserve to the bump stop", Ratio, "extra g until the bump stop is touched or the coils bind";
        "F_w(z_c)/W − 1", "DERIVED", |on| si(on.reserve()), with: to_contact, say: Say::InG;
};
