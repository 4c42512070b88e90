//! The words of the trade as this program uses them.

use crate::base::language::tr;

/// A word and what it means here. Translated into the language spoken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Term {
    /// The word, or words that belong together.
    pub word: &'static str,
    /// What it means.
    pub means: &'static str,
}

/// All of them, in the order of the language spoken.
pub fn terms() -> Vec<Term> {
    let mut terms: Vec<Term> = TERMS.iter().map(|(word, means)| Term { word: tr(word), means: tr(means) }).collect();
    terms.sort_by_key(|t| t.word.to_lowercase());
    terms
}

/// Those whose word, or one of its words, is in a text.
pub fn in_text(text: &str) -> Vec<Term> {
    let text = text.to_lowercase();
    let stands = |term: &Term| {
        let word = term.word.to_lowercase();
        word.split([',', ';']).map(str::trim).any(|w| !w.is_empty() && text.contains(w))
    };
    terms().into_iter().filter(stands).collect()
}

/// Those with these letters in word or meaning; all of them for none.
pub fn found(letters: &str) -> Vec<Term> {
    let letters = letters.trim().to_lowercase();
    let has = |t: &Term| t.word.to_lowercase().contains(&letters) || t.means.to_lowercase().contains(&letters);
    terms().into_iter().filter(has).collect()
}

/// A word (several forms separated by commas), and what it means.
pub const TERMS: [(&str, &str); 48] = [
    (
        "±",
        "One standard uncertainty: in about two of three cases the true value lies inside it. Every result gets one from the ± of what was typed.",
    ),
    (
        "anti-roll bar",
        "A bar that links the left and right wheels. It acts in roll and when one wheel hits a bump, but not when both wheels move together: it does not affect ride frequency.",
    ),
    (
        "beam axle",
        "Both wheels on one rigid axle. The springs are closer together than the wheels, so it is softer in roll than in bounce.",
    ),
    (
        "bounces per second, ride frequency",
        "How often the body would swing up and down on its springs in one second, dampers off. About 1.0 to 1.3 is comfortable, 1.5 to 1.9 sporting; common practice, no source.",
    ),
    ("bump, bump travel", "The wheel moves up towards the body. For a damper: it is compressed."),
    (
        "bump stop",
        "The rubber or foam that catches the wheel before metal meets metal. The gap to it is measured in wheel travel.",
    ),
    (
        "camber",
        "Angle of the wheel from vertical in front view, + with its top outward. It changes with wheel travel: after a change of ride height, set the alignment again.",
    ),
    (
        "chance",
        "In how many of 100 vehicles measured like this one a spring would meet every limit. It comes from random trials.",
    ),
    ("coil bind", "All coils of the spring touch. The spring is then solid, and the wheel stops hard."),
    (
        "cross weight",
        "Right front plus left rear, divided by the total weight. 50 % is even; moving a spring seat up or down changes it.",
    ),
    ("damping rate", "Damper force divided by its speed."),
    (
        "damping ratio",
        "How strongly the motion of the body is damped: at 1 it returns to rest without overshoot; 0.2 to 0.4 is usual on the road (common practice, no source).",
    ),
    ("droop", "The wheel moves down, as when the vehicle is lifted. The spring must not come loose there."),
    ("fitted length", "Length of a spring on the vehicle, at the reference height."),
    (
        "flat-ride speed",
        "The speed at which front and rear come to rest together after one bump, because the rear has the higher frequency and catches up.",
    ),
    ("free length", "Length of a spring with no load on it."),
    (
        "helper",
        "A soft, short coil in series with the main spring. It keeps the spring seated at full droop and goes solid under load.",
    ),
    (
        "hub to arch",
        "From the wheel centre straight up to the edge of the arch: the height of the body, whatever the tyre does.",
    ),
    (
        "knee",
        "The speed at which a damper's curve bends: below it the damper controls the body, above it sharp bumps pass through.",
    ),
    (
        "instant centre, swing arm",
        "The point about which the wheel turns at this instant, in front view: where the lines of both arms meet. The swing arm is its distance from the wheel; a short one changes camber quickly.",
    ),
    (
        "ledger",
        "The list of parts removed and added, with mass and place. It gives the new weights before anything is weighed.",
    ),
    ("left, right", "As the driver sits, looking ahead."),
    (
        "load case",
        "A combination of people, fuel, cargo and trailer. Every case is calculated; the springs are sized on one of them and must work in all.",
    ),
    (
        "motion ratio",
        "How far the spring or the damper moves for each unit the wheel moves, usually below 1. It counts twice: rate at the wheel = rate of the spring × ratio × ratio.",
    ),
    (
        "origin",
        "Where a number comes from: guessed, quoted, from a ledger, measured. It sets the ± when none is typed.",
    ),
    ("pitch", "The body pitches: nose and tail move in opposite directions."),
    (
        "rating",
        "The load that an axle, a tyre, a wheel or the whole vehicle may carry, from its plate or papers. A spring cannot raise it.",
    ),
    ("rebound", "The damper is extended. It is usually stiffer in rebound than in bump."),
    ("reference height", "The height at which lengths and gaps were measured. All travel is counted from there."),
    ("reserve", "Extra g that the bump travel takes before the bump stop is hit."),
    (
        "roll",
        "The body leans in a bend. Springs and anti-roll bars share the work; how they share it decides which axle slides first.",
    ),
    (
        "roll centre",
        "The point on the centreline about which an axle lets the body roll: on the line from the tyre's contact to the instant centre. It moves with the ride height.",
    ),
    (
        "route",
        "One way to find the rate at the wheel: from a stated rate, the wire, a press, lengths or arch heights under the weight, ballast, a timed bounce. Each gives the rate on its own; if several are known, they must agree.",
    ),
    ("seat", "What an end of the spring rests on."),
    ("settling", "How much a new spring shortens in its first days."),
    ("solid length", "Length of a spring when all coils touch."),
    (
        "spacer",
        "A plate or collar under a spring. It lifts the body without changing the rate, but uses up room before the coils bind.",
    ),
    (
        "spring rate",
        "How much more force a spring takes for each millimetre or inch it gets shorter. Twice the rate is twice as stiff.",
    ),
    ("sprung mass", "What the springs carry: the body and all in it."),
    ("stock rate", "A rate that springs are sold in; the interval between rates is a field of step Springs."),
    ("stress", "How hard the steel of a spring is worked. It is compared with what this steel and thickness allow."),
    (
        "toe",
        "How far the front of a wheel points inward, +, or outward. It changes with the ride height unless the tie rod follows the arms.",
    ),
    ("travel", "How far something moves; of the wheel, straight up and down at its centre, from the reference height."),
    ("trials", "All values are varied within their ± at once, many times, and the axle is recalculated each time."),
    ("unsprung mass", "What moves with the wheel: wheel, tyre, hub, brake and about half of arms, spring and damper."),
    (
        "what-if, permitted use",
        "A load case that is permitted use stops everything when it exceeds a rating. A what-if only warns: the vehicle must not be driven like that.",
    ),
    (
        "wheel rate",
        "Stiffness at the wheel: force per unit of wheel travel. Spring, motion ratio and bushes all contribute.",
    ),
    (
        "withheld, overrule",
        "A doubt that makes an axle's answer worthless withholds it: no part is named until the doubt is settled. An overrule names the rule and its values, needs initials, and lapses when one of the values changes. Errors and stops cannot be overruled.",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_term_is_found_by_its_word_and_in_a_text() {
        let words = |terms: Vec<Term>| terms.iter().map(|t| t.word).collect::<Vec<_>>();
        assert_eq!(words(found("coil bind")), ["coil bind"]);
        assert!(words(in_text("Length at full bump, motion ratio inside")).contains(&"motion ratio"));
        assert_eq!(terms().len(), TERMS.len());
        assert!(found("no such thing at all").is_empty());
    }
}
