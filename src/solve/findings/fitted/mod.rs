//! Findings about what will be fitted: heights, room, the wanted range, springs and dampers.

mod damper_doubts;
mod heights;
mod other_springs;
mod own_sides;
mod room;
mod spring_doubts;
mod targets;
mod wound;

pub(super) use damper_doubts::old_field;
