//! Results about what a parts list offers: springs under all draws, dampers, left and right, what to measure again.

mod dampers;
mod pairs;
mod springs;

pub use dampers::dampers_of_list;
pub use springs::choice;

use super::collect::{Out, Wants};
use crate::base::language::tr;
use crate::choose::{Again, Redo};
use crate::job::{Side, fields};
use crate::say;
use crate::shop::parts::{Damper, Spring};

fn collector() -> Out {
    Out::new(Wants::Values)
}

/// A spring by its number, or by what it is.
pub fn spring_name(spring: &Spring) -> &str {
    match (spring.number.as_str(), spring.what.as_str()) {
        ("", "") => tr("a spring without a part number"),
        ("", what) => what,
        (number, _) => number,
    }
}

/// A damper by its number, or by what it is.
pub fn damper_name(damper: &Damper) -> &str {
    match (damper.number.as_str(), damper.what.as_str()) {
        ("", "") => tr("a damper without a part number"),
        ("", what) => what,
        (number, _) => number,
    }
}

/// What is measured, in words.
pub fn what_again(redo: &Redo) -> String {
    let path = redo.paths.first().map_or("", String::as_str);
    match redo.how {
        Again::LongerTravel { .. } | Again::MoreRows => say!("{side}, motion ratio", side = side_of(path)),
        Again::WeighFourTimes if path.starts_with("before") => tr("Weights before the change").into(),
        Again::WeighFourTimes => tr("Weights after the change").into(),
        Again::Rows { .. } | Again::Closer { .. } => fields::full_label(path).to_string(),
    }
}

fn side_of(path: &str) -> &'static str {
    Side::BOTH.into_iter().find(|s| path.starts_with(s.key())).map_or(tr("Vehicle"), |side| side.word().said())
}

const AS_STANDS: &str = "as in the job";

/// A number that may be none.
fn finite(value: f64) -> Option<f64> {
    Some(value).filter(|v| v.is_finite())
}
