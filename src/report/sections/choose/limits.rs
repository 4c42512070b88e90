//! Why a spring is out, and what would have to give.

use super::{length, seat};
use crate::base::language::tr;
use crate::base::units::{Dim, UnitChoice, display};
use crate::choose::{Judged, Limit, Ranking};
use crate::say;

/// Each limit that a spring breaks, and by how much; "fits" when it breaks none.
pub fn why(judged: &Judged, ranking: &Ranking, units: &UnitChoice) -> String {
    let said: Vec<String> = judged.broken().map(|limit| broken(limit, judged, ranking, units)).collect();
    if said.is_empty() { tr("fits").into() } else { said.join("; ") }
}

fn broken(limit: Limit, judged: &Judged, ranking: &Ranking, units: &UnitChoice) -> String {
    let by = -judged.margins[limit as usize];
    if by.is_infinite() {
        return match limit {
            Limit::Stop => tr("in one load case the spring cannot carry the vehicle at any height").into(),
            _ => tr("the spring cannot carry the vehicle at any height").into(),
        };
    }
    let hz = |si: f64| format!("{} Hz", display::fixed(si, 2));
    match limit {
        Limit::Slow => {
            say!("frequency {by} too low ({frequency})", by = hz(by), frequency = hz(judged.frequency_hz))
        }
        Limit::Quick => {
            say!("frequency {by} too high ({frequency})", by = hz(by), frequency = hz(judged.frequency_hz))
        }
        Limit::Laden => say!("in another load case, frequency {by} outside the wider range allowed there", by = hz(by)),
        Limit::Height => {
            let low_m = judged.travel_m - ranking.ground.wanted_m;
            let on = seat(judged.spacer_m, units).map_or(String::new(), |s| format!(" {s}"));
            let by = length(low_m.abs(), units);
            if low_m > 0.0 {
                say!("the vehicle sits {by} too low{on}", by, on)
            } else {
                say!("the vehicle sits {by} too high{on}", by, on)
            }
        }
        Limit::Stop => {
            say!("in one load case the vehicle compresses the bump stop by {by} at rest", by = length(by, units))
        }
        Limit::Bind => say!("{by} too little room to coil bind", by = length(by, units)),
        Limit::Seat => say!("{by} too little seat preload at full droop", by = length(by, units)),
        Limit::Stress => {
            say!("{by} over the allowable stress at full bump", by = display::rounded_si(by, Dim::Stress, units))
        }
        Limit::Load => {
            say!(
                "{by} over the maximum load of the spring at full bump",
                by = display::rounded_si(by, Dim::Force, units)
            )
        }
        Limit::Inside => say!("inside diameter {by} too small", by = length(by, units)),
        Limit::Outside => say!("outside diameter {by} too large", by = length(by, units)),
    }
}

/// What would have to give for a spring to fit.
pub fn would_give(judged: &Judged, ranking: &Ranking, units: &UnitChoice) -> String {
    let (wish, [low, high]) = (&ranking.wish, ranking.ground.frequency_hz);
    let one = |limit: Limit| {
        let by = -judged.margins[limit as usize];
        match limit {
            _ if by.is_infinite() => tr("nothing would help").to_owned(),
            Limit::Slow => say!("a frequency range from {to:.2} Hz instead of {low:.2}", to = low - by, low),
            Limit::Quick => say!("a frequency range up to {to:.2} Hz instead of {high:.2}", to = high + by, high),
            Limit::Laden => say!("a range {by:.2} Hz wider for the other load cases", by),
            Limit::Height => {
                let along_m = by * ranking.ground.curve.spring_length.ratio_at_reference();
                if judged.travel_m > ranking.ground.wanted_m {
                    say!(
                        "spacers up to {most} instead of {allowed}",
                        most = length(wish.spacer_m + along_m, units),
                        allowed = length(wish.spacer_m, units)
                    )
                } else {
                    say!(
                        "a seat that can be lowered by {by}, or a higher target height",
                        by = length(wish.seat_down_m + along_m, units)
                    )
                }
            }
            Limit::Stop => say!("a bump stop {by} farther away, or less load", by = length(by, units)),
            Limit::Bind => {
                say!("{by} less bump travel along the spring, or a shorter solid length", by = length(by, units))
            }
            Limit::Seat => say!("{by} less droop travel along the spring, or a helper spring", by = length(by, units)),
            Limit::Stress | Limit::Load => tr("less bump travel to metal contact").to_owned(),
            Limit::Inside => {
                say!("a seat diameter of {diameter}", diameter = length(wish.inside_m.unwrap_or(0.0) - by, units))
            }
            Limit::Outside => say!(
                "room for an outside diameter of {diameter}",
                diameter = length(wish.outside_m.unwrap_or(0.0) + by, units)
            ),
        }
    };
    let mut said: Vec<String> = judged.broken().map(one).collect();
    said.dedup();
    if said.is_empty() { tr("nothing").into() } else { said.join("; ") }
}
