//! Results about what a parts list offers: springs under all draws, dampers, left and right, what to measure again.

mod dampers;
mod pairs;
mod springs;

pub use dampers::dampers_of_list;
pub use springs::choice;

use super::collect::{Out, Wants};

fn collector() -> Out {
    Out::new(Wants::Values)
}
