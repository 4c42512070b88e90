//! The words of the trade as this program uses them.

use crate::base::language::tr;

/// A word and what it means here. Said in the language spoken.
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

/// Those whose word, or one of its words, stands in a text.
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
        "A bar that joins the left and the right wheel. It works in bends and when one wheel meets a bump, and does nothing when both move alike: it is in no ride frequency.",
    ),
    (
        "beam axle",
        "Both wheels on one stiff axle. The springs stand closer together than the wheels, so it is softer in roll than in bounce.",
    ),
    (
        "bounces per second, ride frequency",
        "How often the body would swing up and down on its springs in one second, dampers off. About 1.0 to 1.3 is comfortable, 1.5 to 1.9 sporting; common practice, no source.",
    ),
    ("bump, bump travel", "The wheel goes up towards the body. Of a damper: it is pushed together."),
    (
        "bump stop",
        "The rubber or foam that catches the wheel before metal meets metal. The gap to it is counted as wheel travel.",
    ),
    (
        "camber",
        "Lean of the wheel in front view, + with its top outward. It changes as the wheel travels, so a new ride height needs the alignment set again.",
    ),
    (
        "chance",
        "In how many of 100 vehicles measured like this one a spring would hold every limit. It comes from the draws.",
    ),
    ("coil bind", "The coils of a spring touch each other. It is then a solid block, and the wheel stops hard."),
    (
        "cross weight",
        "Right front and left rear together, over the total weight. Half is even; a spring seat turned up or down changes it.",
    ),
    ("damping rate", "Force of a damper over its speed."),
    (
        "damping ratio",
        "How strongly the motion of the body is damped: at 1 it returns to rest without overshoot; 0.2 to 0.4 is usual on the road (common practice, no source).",
    ),
    ("draws", "All numbers are moved within their ± at once, many times, and the axle is recalculated each time."),
    ("droop", "The wheel goes down, as when the vehicle is lifted. The spring must not come loose there."),
    ("fitted length", "Length of a spring on the vehicle, at the reference height."),
    (
        "flat-ride speed",
        "The speed at which front and rear come to rest together after one bump, because the rear swings quicker and catches up.",
    ),
    ("free length", "Length of a spring with no load on it."),
    (
        "helper",
        "A soft, short coil in line with the main one. It keeps the seats in touch at full droop and closes under the weight.",
    ),
    (
        "hub to arch",
        "From the wheel centre straight up to the edge of the arch: the height of the body, whatever the tyre does.",
    ),
    ("knee", "The speed at which a damper's curve bends: below it holds the body, above it lets sharp bumps through."),
    (
        "instant centre, swing arm",
        "In front view the point about which the wheel turns at this moment: where the lines of both arms meet. The swing arm is the distance from it to the wheel; a short one changes camber quickly.",
    ),
    (
        "ledger",
        "The list of parts that came out and went in, with mass and place. The weights after follow from it before anything is weighed.",
    ),
    ("left, right", "As the driver sits, looking ahead."),
    (
        "load case",
        "People, fuel, cargo or a trailer together. Each is worked out; the springs are sized on one of them and must do in all.",
    ),
    (
        "motion ratio",
        "How far the spring or the damper moves for each unit the wheel moves, usually below 1. It counts twice: rate at the wheel = rate of the spring × ratio × ratio.",
    ),
    (
        "origin",
        "Where a number comes from: guessed, quoted, from a ledger, measured. It says how sure the number is when no ± is typed.",
    ),
    ("pitch", "The body nods: nose and tail go opposite ways."),
    (
        "rating",
        "What an axle, a tyre, a wheel or the whole vehicle may carry by its plate or papers. No spring raises it.",
    ),
    ("rebound", "A damper is pulled apart. It is usually stiffer there than when it is pushed together."),
    ("reference height", "The height at which lengths and gaps were measured. All travel is counted from there."),
    ("reserve", "How many g more than at rest the bump travel takes before the stop is met."),
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
        "One way to find the rate at the wheel: from a stated rate, the wire, a press, lengths or arch heights under the weight, ballast, a timed bounce. Each alone gives a rate that is not stated; where several are known, they must agree.",
    ),
    ("seat", "What an end of the spring rests on."),
    ("settling", "What a new spring gets shorter in its first days."),
    ("solid length", "Length of a spring when all coils touch."),
    (
        "spacer",
        "A plate or collar under a spring. It lifts the body and leaves the rate as it is, but each one takes room before the coils touch.",
    ),
    (
        "spring rate",
        "How much more force a spring takes for each millimetre or inch it gets shorter. Twice the rate is twice as stiff.",
    ),
    ("sprung mass", "What the springs carry: the body and all in it."),
    ("stock rate", "A rate in which springs are sold; the step between them is a field of step Springs."),
    ("stress", "How hard the steel of a spring is worked. It is compared with what this steel and thickness allow."),
    (
        "toe",
        "How far the front of a wheel points inward, +, or outward. It changes with the ride height unless the tie rod follows the arms.",
    ),
    ("travel", "How far something moves; of the wheel, straight up and down at its centre, from the reference height."),
    ("unsprung mass", "What moves with the wheel: wheel, tyre, hub, brake and about half of arms, spring and damper."),
    (
        "what-if, permitted use",
        "A load case that is permitted use stops everything when it exceeds a rating. A what-if only warns: the vehicle must not be driven like that.",
    ),
    (
        "wheel rate",
        "How stiff the wheel feels: force at the wheel for each unit of wheel travel. Spring, motion ratio and rubber all have their part in it.",
    ),
    (
        "withheld, overrule",
        "A doubt that makes the answer of an axle worthless withholds it: no part is named until the doubt is settled. An overrule names the rule and its values, takes initials, and lapses when one of the values changes. Errors and stops cannot be overruled.",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_term_is_found_by_its_word_and_in_a_text() {
        let words = |terms: Vec<Term>| terms.iter().map(|t| t.word).collect::<Vec<_>>();
        assert_eq!(words(found("solid block")), ["coil bind"]);
        assert!(words(in_text("Length at full bump, motion ratio inside")).contains(&"motion ratio"));
        assert_eq!(terms().len(), TERMS.len());
        assert!(found("no such thing at all").is_empty());
    }
}
