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
        "parts ledger",
        "The list of parts removed and added, with mass and position. It gives the new weights before anything is weighed.",
    ),
    (
        "±",
        "One standard uncertainty: in about two of three cases the true value is within this range. The ± of every result is calculated from the ± of the values entered.",
    ),
    (
        "anti-roll bar",
        "A bar that links the left and right wheels. It acts in roll and when one wheel hits a bump, but not when both wheels move together: it does not affect ride frequency.",
    ),
    (
        "beam axle",
        "Both wheels on one rigid axle. The springs are closer together than the wheels, so the axle is softer in roll than in bounce.",
    ),
    (
        "bounces per second, ride frequency",
        "How often the body would bounce on its springs in one second without dampers. About 1.0 to 1.3 is comfortable, 1.5 to 1.9 sporty (common practice, no source).",
    ),
    ("bump, bump travel", "The wheel moves up towards the body, and the damper is compressed."),
    (
        "bump stop",
        "Rubber or foam that cushions the wheel before metal contact. The gap to the bump stop is measured in wheel travel.",
    ),
    (
        "camber",
        "Angle of the wheel from vertical in front view; + = top of the wheel outward. Camber changes with wheel travel: after a change of ride height, set the alignment again.",
    ),
    (
        "chance",
        "The number of vehicles, out of 100 measured like this one, in which a spring would meet every limit. The number comes from random trials.",
    ),
    ("coil bind", "All coils of the spring touch. The spring is then solid, and the wheel stops hard."),
    (
        "cross weight",
        "Right front plus left rear, divided by the total weight. 50 % is even; moving a spring seat up or down changes it.",
    ),
    ("damper rate", "Damper force divided by damper speed."),
    (
        "damping ratio",
        "How strongly the motion of the body is damped: at 1 the body returns to rest without overshoot; 0.2 to 0.4 is usual on the road (common practice, no source).",
    ),
    ("droop", "The wheel moves down, as when the vehicle is lifted. The spring must not come loose at full droop."),
    ("fitted length", "Length of a spring on the vehicle, at the reference height."),
    (
        "flat-ride speed",
        "The speed at which the front and rear of the body come to rest together after a bump, because the rear has the higher frequency and catches up.",
    ),
    ("free length", "Length of a spring with no load on it."),
    (
        "helper spring",
        "A soft, short coil spring in series with the main spring. It keeps the main spring seated at full droop and goes solid under load.",
    ),
    (
        "hub to arch",
        "Distance from the hub centre straight up to the edge of the wheel arch. It shows the height of the body, independently of the tyre.",
    ),
    (
        "knee",
        "The damper speed at which the damper curve bends. Below the knee the damper controls the body; above the knee it gives way to sharp bumps.",
    ),
    (
        "instant centre, swing arm",
        "The point about which the wheel turns at this instant, in front view: where the lines of both arms meet. The swing arm is the distance from this point to the wheel; a short swing arm changes camber quickly.",
    ),
    ("left, right", "As seen by the driver, facing forward."),
    (
        "load case",
        "A combination of people, fuel, cargo and trailer. Every load case is calculated; the springs are sized for one load case and must work in all.",
    ),
    (
        "motion ratio",
        "Spring or damper travel divided by wheel travel, usually below 1. The ratio counts twice: wheel rate = spring rate × ratio × ratio.",
    ),
    (
        "origin",
        "Where a value comes from: guessed, quoted, from a parts ledger or measured. The origin sets the ± if none is entered.",
    ),
    ("pitch", "The body pitches: front and rear move up and down in opposite directions."),
    (
        "rating",
        "The most that an axle, a tyre or a wheel may carry, or that the whole vehicle may weigh, according to plate, papers or marking. A spring cannot raise it.",
    ),
    ("rebound", "The damper extends. It is usually stiffer in rebound than in bump."),
    (
        "reference height",
        "The height at which lengths and gaps were measured. All travel is measured from this height.",
    ),
    ("reserve", "Extra vertical acceleration, in g, that the bump travel absorbs before the bump stop is hit."),
    (
        "roll",
        "The body leans in a bend. Springs and anti-roll bars resist the lean; how this resistance is split between front and rear decides which axle slides first.",
    ),
    (
        "roll centre",
        "The point on the centreline about which the body rolls at this axle, on the line from the tyre contact patch to the instant centre. The roll centre moves with ride height.",
    ),
    (
        "route",
        "One way of finding the wheel rate: from the spring rate on a label or in a catalogue, the wire, a spring press, lengths or arch heights under load, ballast or a timed bounce test. Each route gives the rate on its own; if several are known, they must agree.",
    ),
    ("seat", "The surface on which an end of the spring rests."),
    ("settling", "How much a new spring shortens in its first days."),
    ("solid length", "Length of a spring when all coils touch."),
    (
        "spacer",
        "A plate or collar under a spring. It lifts the body without changing the spring rate, but reduces the room to coil bind.",
    ),
    (
        "spring rate",
        "Increase in spring force per millimetre or inch of compression. A spring with twice the rate is twice as stiff.",
    ),
    ("sprung mass", "The mass that the springs carry: the body and everything in it."),
    ("stock rate", "A spring rate that can be bought. The interval between stock rates is set in the Springs step."),
    (
        "stress",
        "How heavily the steel of a spring is loaded. The stress is compared with the allowable stress for this steel at this thickness.",
    ),
    (
        "toe",
        "How far the front of a wheel points inward (+) or outward (−). Toe changes with ride height unless the tie rod follows the arms.",
    ),
    (
        "travel",
        "Distance moved from the reference height. Wheel travel is measured straight up and down at the wheel centre.",
    ),
    (
        "trials",
        "All values are varied together at random within their ±, many times, and the axle is recalculated each time.",
    ),
    (
        "unsprung mass",
        "The mass that moves with the wheel: wheel, tyre, hub, brake and about half of the arms, spring and damper.",
    ),
    (
        "what-if, permitted use",
        "If a load case for permitted use exceeds a rating, the program shows STOP and recommends nothing. A what-if only warns: the vehicle must not be driven like that.",
    ),
    (
        "wheel rate",
        "Stiffness at the wheel: force per unit of wheel travel. Spring, motion ratio and bushes all contribute.",
    ),
    (
        "withheld, overruled",
        "If a finding means that the answer for an axle cannot be relied on, the answer is withheld: no part is named until the finding is resolved. Overruling a finding needs initials; the rule and its values are recorded, and the overruling lapses when one of the values changes. An error or a STOP cannot be overruled.",
    ),
];
