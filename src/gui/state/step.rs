//! The steps of the work, and on which of them a field is.

use crate::base::language::worded;

worded! {
    /// One step of the work, in order. Nothing is locked.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
    pub enum Step {
        /// Scale readings.
        #[default]
        Weigh => Word("Weigh"),
        /// Lengths, travel and what is fitted.
        Measure => Word("Measure"),
        /// What the axle should do, and the spring for it.
        Springs => Word("Springs"),
        /// A spring from the shop's parts list.
        Choose => Word("Choose"),
        /// The damper for it.
        Dampers => Word("Dampers"),
        /// Front against rear, ratings, limits.
        Vehicle => Word("Whole vehicle"),
        /// Rough roads.
        Road => Word("Road"),
        /// Names, and the sheet.
        Sheet => Word("Sheet"),
    }
}

impl Step {
    /// Its name on a command line.
    pub fn key(self) -> &'static str {
        match self {
            Step::Weigh => "weigh",
            Step::Measure => "measure",
            Step::Springs => "springs",
            Step::Choose => "choose",
            Step::Dampers => "dampers",
            Step::Vehicle => "vehicle",
            Step::Road => "road",
            Step::Sheet => "sheet",
        }
    }

    /// The step that holds a field.
    pub fn of(path: &str) -> Step {
        let key = path.split_once('.').map_or(path, |(head, tail)| match head {
            "front" | "rear" => tail,
            _ => path,
        });
        match key {
            "list" | "limits.rate_tolerance" | "limits.length_tolerance" => Step::Choose,
            k if ["choice.", "taken.", "prices.", "plans["].iter().any(|h| k.starts_with(h)) => Step::Choose,
            "order.number" | "order.needed" | "order.deliver_to" => Step::Sheet,
            k if k.starts_with("fitted.") || k.starts_with("limits.fitted_") => Step::Sheet,
            k if ["shop.", "customer."].iter().any(|h| k.starts_with(h)) => Step::Sheet,
            k if k.starts_with("left.") || k.starts_with("right.") => Step::Springs,
            k if ["road.", "drive.", "bench.", "bounce.", "limits.bench_"].iter().any(|h| k.starts_with(h)) => {
                Step::Road
            }
            "vehicle.hitch" | "vehicle.rating" | "vehicle.lamp_distance" => Step::Vehicle,
            "rating" | "wheel_rating" | "load_index" | "tyre_pressure" | "tyre_reference" => Step::Vehicle,
            k if ["cases[", "chassis.", "roll_bar."].iter().any(|h| k.starts_with(h)) => Step::Vehicle,
            "roll_centre" | "unsprung_height" | "thread_pitch" => Step::Vehicle,
            k if ["before.", "after.", "vehicle.", "parts[", "predicted."].iter().any(|h| k.starts_with(h)) => {
                Step::Weigh
            }
            "unsprung" | "unsprung_before" | "track" => Step::Weigh,
            k if k.starts_with("limits.") || k.starts_with("certainty.") => Step::Vehicle,
            k if k.starts_with("target.damping") || DAMPER_TARGETS.contains(&k) => Step::Dampers,
            "order.bore"
            | "order.body"
            | "order.spring_plate"
            | "order.upper_mount"
            | "order.lower_mount"
            | "order.damper_points" => Step::Dampers,
            k if k.starts_with("order.") => Step::Springs,
            k if k.starts_with("damper") || k.starts_with("new_damper") => Step::Dampers,
            k if k.starts_with("target.") || k.starts_with("stock.") || k.starts_with("bag.") => Step::Springs,
            "spring.cut" | "spacer" | "index" | "added_leaf.rate" | "added_leaf.nip" => Step::Springs,
            _ => Step::Measure,
        }
    }
}

/// What is wanted of a damper, in addition to its damping ratio.
const DAMPER_TARGETS: [&str; 5] =
    ["target.rebound_over_bump", "target.peak_speed", "target.knee_speed", "target.upper_share", "target.hot_loss"];
