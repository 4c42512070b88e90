//! The ways to the wheel rate, side by side.

use super::Measured;
use crate::base::language::Word;
use crate::base::math::fuse::Covariance;
use crate::base::message::Message;

/// A way to the wheel rate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RouteKind {
    /// Stated rate × r², and what else carries.
    Stated,
    /// Rate by wire × r².
    Wire,
    /// Rate by press × r².
    Press,
    /// The spring as measured: bar, leaf, helper stack or points.
    Spring,
    /// Free length against fitted length under the known load.
    Closure,
    /// Change of weight over change of height.
    Swap,
    /// Ballast over the drop it made.
    Ballast,
    /// A timed bounce.
    Bounce,
    /// A recorded bounce before the change.
    Recorded,
}

impl RouteKind {
    /// All routes.
    pub const ALL: [RouteKind; 9] = [
        RouteKind::Stated,
        RouteKind::Wire,
        RouteKind::Press,
        RouteKind::Spring,
        RouteKind::Closure,
        RouteKind::Swap,
        RouteKind::Ballast,
        RouteKind::Bounce,
        RouteKind::Recorded,
    ];

    /// Key in results; words; the field of an axle to look at first when it is wrong.
    fn row(self) -> (&'static str, Word, &'static str) {
        match self {
            RouteKind::Stated => ("stated", Word("stated rate and motion ratio"), "spring.rate"),
            RouteKind::Wire => ("wire", Word("wire, coils and motion ratio"), "spring.wire.diameter"),
            RouteKind::Press => ("press", Word("spring press and motion ratio"), "spring.press.first_load"),
            RouteKind::Spring => ("spring", Word("measured spring and motion ratio"), "spring.rate"),
            RouteKind::Closure => ("closure", Word("free and fitted length under the weight"), "spring.free_length"),
            RouteKind::Swap => {
                ("swap", Word("the change itself: change in weight ÷ change in height"), "checks.arch_after")
            }
            RouteKind::Ballast => ("ballast", Word("ballast and drop under ballast"), "checks.ballast_drop"),
            RouteKind::Bounce => ("bounce", Word("timed bounce test, dampers off"), "checks.bounce_time"),
            RouteKind::Recorded => {
                ("recorded", Word("recorded bounce test: frequency and damping"), "bounce.before.frequency")
            }
        }
    }

    /// The key in results.
    pub fn key(self) -> &'static str {
        self.row().0
    }

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        self.row().1
    }

    /// A spring rate times the motion ratio squared.
    pub fn uses_ratio(self) -> bool {
        matches!(self, RouteKind::Stated | RouteKind::Wire | RouteKind::Press | RouteKind::Spring)
    }

    /// It rests on the height at which friction let a spring settle.
    pub fn reads_height(self) -> bool {
        matches!(self, RouteKind::Closure | RouteKind::Swap | RouteKind::Ballast)
    }

    /// The field of an axle to look at first when this route is wrong.
    pub fn field(self) -> &'static str {
        self.row().2
    }
}

/// One way to the wheel rate, with its ±.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Route {
    /// Which.
    pub kind: RouteKind,
    /// Wheel rate at the reference height, N/m, with its standard uncertainty.
    pub wheel_rate: Measured,
    /// Its weight among all of them; together 1.
    pub weight: f64,
}

/// All ways that the data allow, side by side.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Routes {
    /// The routes.
    pub list: Vec<Route>,
    /// All of them fused by the covariance of the fields they share, N/m; u times the Birge ratio when they disagree.
    pub fused: Option<Measured>,
    /// What they have in common, in the order of the list, (N/m)².
    pub covariance: Covariance,
    /// The one that disagrees, and the likely cause.
    pub odd: Option<(RouteKind, Message)>,
}

impl Routes {
    /// How far two routes of the list are apart, N/m, with the standard uncertainty of that: fields that both use
    /// move both.
    pub fn apart(&self, one: usize, other: usize) -> Option<Measured> {
        let (a, b) = (self.list.get(one)?.wheel_rate, self.list.get(other)?.wheel_rate);
        let variance = self.covariance.of(&[one, other]).of_sum(&[1.0, -1.0]);
        Some(Measured { value: a.value - b.value, u: variance.sqrt() })
    }
}
