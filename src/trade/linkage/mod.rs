//! Linkages measured by tape: the exact planar kinematics behind a motion ratio, camber, track, toe and roll centre.
//!
//! Front view, one side: y outward from the vehicle's centreline, h up from the level floor, at the reference height. A
//! trailing arm is drawn in the plane square to its pivot's axis instead: x to the rear, h up. All points are fixed in
//! rigid parts; bushes do not give. Sources `MIL` ch. 17, `DIX2`; what is derived says so.

mod alignment;
mod arm;
mod beam;
mod construction;
mod fault;
mod plane;
mod point_names;
mod sweep;

pub use alignment::{Alignment, Drawn, TieRod};
pub use arm::{ArmLengths, JOINT_OVER_WHEEL, JOINT_OVER_WHEEL_WITHIN, joint_over_wheel};
pub use beam::beam_roll_centre;
pub use construction::{Construction, Strut, TrailingArm, TwoArms};
pub use fault::Fault;
pub use plane::Point;
pub use point_names::{Carrier, Foot, PointName};
pub use sweep::{End, Lock, Mounts, REACH_M, Sweep, TravelEnds};
