//! What a plan leaves open: no sheet names a part for it, no price counts it, and it is listed once.

use super::Block;
use super::judged::{Dampers, Verdict};
use super::page::{DAMPERS, Page, SPRINGS};
use crate::base::units::{Dim, Quantity, display};
use crate::job::{DamperPlan, Plan, Side};
use crate::report::sections::needed;
use crate::solve::answer::{AxleAnswer, DampersOpen, OldDampers};

/// What is open on an axle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum What {
    Springs,
    Dampers,
}

/// Something that is open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Open {
    pub side: Side,
    pub what: What,
    /// Why, in words.
    reason: String,
}

impl Open {
    /// "front.dampers".
    pub fn key(&self) -> String {
        let what = match self.what {
            What::Springs => "springs",
            What::Dampers => "dampers",
        };
        format!("{}.{what}", self.side.key())
    }
}

/// Everything that is open; nothing of an axle that is withheld, whose sheets say why.
pub(super) fn items(page: &Page<'_>) -> Vec<Open> {
    let of_axle = |axle: &AxleAnswer| {
        let item = |what, reason: Option<String>| reason.map(|reason| Open { side: axle.side, what, reason });
        [item(What::Springs, springs(page, axle)), item(What::Dampers, dampers(page, axle))]
    };
    page.answer.axles.iter().filter(|axle| page.part(axle).is_some()).flat_map(of_axle).flatten().collect()
}

/// "Still open: front dampers (not tested), rear springs (still needed: motion ratio)."
pub(super) fn said(page: &Page<'_>) -> Option<Block> {
    let one = |open: &Open| {
        let part = match open.what {
            What::Springs => SPRINGS,
            What::Dampers => DAMPERS,
        };
        page.say("open.item", &[("part", &page.plain(part[open.side])), ("reason", &open.reason)])
    };
    let items: Vec<String> = items(page).iter().map(one).collect();
    (!items.is_empty()).then(|| page.text("open.still", &[("items", &items.join(", "))]))
}

/// Why it is open which springs an axle gets.
fn springs(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    match page.verdict(axle) {
        Verdict::MeasureFirst => {
            let fields = page.lead(axle).map(|lead| needed::fields_in_short(&lead.measure)).unwrap_or_default();
            Some(page.say("open.measure", &[("fields", &fields)]))
        }
        Verdict::Unanswered if axle.plan == Plan::NewSprings => {
            let fields = Some(needed::in_short(axle)).filter(|fields| !fields.is_empty());
            Some(match fields {
                Some(fields) => page.say("open.needed", &[("fields", &fields)]),
                None => page.plain("open.no_answer"),
            })
        }
        Verdict::Unanswered | Verdict::Stays | Verdict::OnSpacers | Verdict::Fine | Verdict::New => None,
    }
}

/// Why it is open whether an axle's dampers stay.
fn dampers(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let is_asked = match page.verdict(axle) {
        Verdict::Unanswered => {
            axle.plan == Plan::NewSprings && page.job.axle(axle.side).dampers == DamperPlan::AsNeeded
        }
        Verdict::Stays => is_changed(page, axle) && is_open(page, axle),
        Verdict::MeasureFirst | Verdict::OnSpacers | Verdict::Fine | Verdict::New => is_open(page, axle),
    };
    let key = match page.answer.old_dampers(axle.side) {
        _ if !is_asked => return None,
        OldDampers::Open(DampersOpen::Springs) => "open.with_springs",
        OldDampers::Open(DampersOpen::MotionRatio) => "open.motion_ratio",
        OldDampers::Open(DampersOpen::Before) => "open.before",
        OldDampers::Open(DampersOpen::Damper) => "open.not_tested",
        OldDampers::Open(DampersOpen::Target) => "open.no_target",
        OldDampers::Suit { .. } | OldDampers::Soft { .. } | OldDampers::Stiff { .. } => "open.at_limit",
    };
    Some(page.plain(key))
}

/// Whether the old dampers stay depends on a test.
pub(super) fn is_open(page: &Page<'_>, axle: &AxleAnswer) -> bool {
    matches!(page.dampers(axle), Dampers::Doubtful | Dampers::Unknown)
}

/// Its weight is another one, or was not known before.
fn is_changed(page: &Page<'_>, axle: &AxleAnswer) -> bool {
    let both = page.axle_weight(0, axle.side).zip(page.axle_weight(1, axle.side));
    let unit = page.units().unit(Dim::Mass);
    both.is_none_or(|((was, _), (is, _))| display::rounded_number((is - was).si(), unit) != "0")
}
