//! Texts of an axle on every sheet: new springs or none, how the old dampers do, what stops it all.

use super::Block;
use super::page::Page;
use crate::base::units::{Entry, Length, Quantity};
use crate::job::{DamperPlan, PerAxle, Plan};
use crate::report::phrases;
use crate::report::sections::sentence;
use crate::solve::answer::{AxleAnswer, CaseAnswer, OldDampers, Part, Rated, RatedPart};

/// Texts of one axle's springs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Verdict {
    /// Not enough is known.
    Unanswered,
    /// The springs stay, as planned.
    Stays,
    /// The springs stay, on spacers.
    OnSpacers,
    /// New ones were planned, but the old ones do what is wanted, or the same.
    Fine,
    /// New ones were planned, but something cheaper may do the same: measured first, nothing is sold.
    MeasureFirst,
    /// New springs.
    New,
}

/// Texts of one axle's dampers on the springs as they will be fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Dampers {
    /// Not known.
    Unknown,
    /// The old ones suit.
    Stay,
    /// The old ones are too soft.
    TooSoft,
    /// The old ones are too stiff.
    TooStiff,
    /// They are off, but by no more than their own ±: a test must tell.
    Doubtful,
    /// New ones, because the plan says so.
    Wished,
    /// The old ones stay because the plan says so, whatever they do.
    Kept,
    /// The same, and they are too soft.
    KeptTooSoft,
    /// The same, and they are too stiff.
    KeptTooStiff,
}

impl Dampers {
    /// The old ones stay, because they suit or because the plan says so.
    pub fn is_to_stay(self) -> bool {
        matches!(self, Dampers::Stay | Dampers::Kept | Dampers::KeptTooSoft | Dampers::KeptTooStiff)
    }
}

impl<'a> Page<'a> {
    /// A rating is exceeded somewhere: then no sheet recommends anything.
    pub fn is_stopped(&self) -> bool {
        self.answer.axles.iter().any(|a| a.overloaded)
    }

    /// The customer's page names no part: a rating is exceeded, or something that would be sold is withheld.
    pub fn names_nothing(&self) -> bool {
        self.is_stopped() || self.answer.sold_is_withheld()
    }

    /// What is over its rating, and in which case: as weighed, or loaded as it may be driven.
    pub fn over(&self) -> impl Iterator<Item = (&'a CaseAnswer, &'a Rated)> {
        let driven = self.answer.cases.iter().filter(|c| !c.what_if);
        driven.flat_map(|c| c.rated.iter().map(move |r| (c, r))).filter(|(_, r)| r.is_over())
    }

    /// The stop, in words: what is over, by how much, in which case; worst first, each part once.
    pub fn stops(&self) -> Vec<String> {
        let mut over: Vec<_> = self.over().collect();
        over.sort_by(|a, b| b.1.share.si().total_cmp(&a.1.share.si()));
        let mut seen: Vec<RatedPart> = Vec::new();
        over.retain(|(_, r)| {
            !seen.contains(&r.part) && {
                seen.push(r.part);
                true
            }
        });
        over.into_iter()
            .map(|(case, rated)| {
                let key = match (case.index, rated.part) {
                    (Some(_), RatedPart::Vehicle) => "stop.case_vehicle",
                    (Some(_), _) => "stop.case",
                    (None, RatedPart::Vehicle) => "stop.weighed_vehicle",
                    (None, _) => "stop.weighed",
                };
                let (part, case) = (self.part_words(rated.part), case.name.to_string());
                let (carries, allowed) = (self.qty(rated.carries), self.qty(rated.allowed));
                self.say(key, &[("part", &part), ("carries", &carries), ("allowed", &allowed), ("case", &case)])
            })
            .collect()
    }

    fn part_words(&self, part: RatedPart) -> String {
        self.plain(match part {
            RatedPart::Axle(side) => PerAxle { front: "part.front.axle", rear: "part.rear.axle" }[side],
            RatedPart::Tyre(side) => PerAxle { front: "part.front.tyre", rear: "part.rear.tyre" }[side],
            RatedPart::Wheel(side) => PerAxle { front: "part.front.wheel", rear: "part.rear.wheel" }[side],
            RatedPart::Vehicle => "part.vehicle",
        })
    }

    pub fn verdict(&self, axle: &AxleAnswer) -> Verdict {
        match (axle.plan, &axle.standing.new) {
            (_, None) => Verdict::Unanswered,
            (Plan::Keep, _) if axle.is_set_again() => Verdict::OnSpacers,
            (Plan::Keep, _) if self.lead(axle).is_some() => Verdict::Fine,
            (Plan::Keep, _) => Verdict::Stays,
            (Plan::NewSprings, _) if self.lead(axle).is_some() => Verdict::MeasureFirst,
            (Plan::NewSprings, _) => Verdict::New,
        }
    }

    /// What may be bought for an axle; `None` while it is withheld.
    pub fn part(&self, axle: &AxleAnswer) -> Option<Part<'a>> {
        self.answer.released(axle.side).ok()
    }

    /// The axles whose springs come out: for new ones, or to be put on spacers; but those that are withheld.
    pub fn refitted(&self) -> Vec<&'a AxleAnswer> {
        let is_out = |a: &&AxleAnswer| matches!(self.verdict(a), Verdict::New | Verdict::OnSpacers);
        self.answer.axles.iter().filter(is_out).filter(|a| self.part(a).is_some()).collect()
    }

    /// The axles that keep their springs, but whose dampers do not suit them, but those that are withheld.
    pub fn redamped(&self) -> Vec<&'a AxleAnswer> {
        let stays = |a: &&AxleAnswer| matches!(self.verdict(a), Verdict::Stays | Verdict::Fine);
        let sold = |a: &&AxleAnswer| self.needs_dampers(a) && self.part(a).is_some();
        self.answer.axles.iter().filter(stays).filter(sold).collect()
    }

    /// The axles that get another anti-roll bar, but those that are withheld.
    pub fn rebarred(&self) -> Vec<&'a AxleAnswer> {
        self.answer.axles.iter().filter(|axle| self.roll_bar(axle).is_some()).collect()
    }

    /// New dampers are sold: the old ones are known not to suit the springs as they will be fitted, or the plan says so.
    pub fn needs_dampers(&self, axle: &AxleAnswer) -> bool {
        matches!(self.dampers(axle), Dampers::TooSoft | Dampers::TooStiff | Dampers::Wished)
    }

    /// How the plan leaves an axle's dampers.
    pub fn dampers(&self, axle: &AxleAnswer) -> Dampers {
        match (self.job.axle(axle.side).dampers, self.old_dampers(axle)) {
            (DamperPlan::New, _) => Dampers::Wished,
            (DamperPlan::Keep, Dampers::TooSoft) => Dampers::KeptTooSoft,
            (DamperPlan::Keep, Dampers::TooStiff) => Dampers::KeptTooStiff,
            (DamperPlan::Keep, Dampers::Doubtful | Dampers::Unknown) => Dampers::Kept,
            (_, found) => found,
        }
    }

    /// How the old dampers do on the springs as they will be fitted.
    fn old_dampers(&self, axle: &AxleAnswer) -> Dampers {
        match self.answer.old_dampers(axle.side) {
            OldDampers::Open(_) => Dampers::Unknown,
            OldDampers::Suit { .. } => Dampers::Stay,
            OldDampers::Soft { is_sure: true } => Dampers::TooSoft,
            OldDampers::Stiff { is_sure: true } => Dampers::TooStiff,
            OldDampers::Soft { .. } | OldDampers::Stiff { .. } => Dampers::Doubtful,
        }
    }

    /// Why nothing may be bought for an axle, where something would be; `None` otherwise.
    pub fn withheld(&self, axle: &AxleAnswer) -> Option<Block> {
        let reasons = self.answer.released(axle.side).err()?;
        let (axle_words, reason) =
            (self.axle_words(axle.side), sentence::without_axle(&reasons.first.text.to_string(), axle.side));
        let (key, is_sold) = match self.verdict(axle) {
            Verdict::Stays => ("withheld.stays", self.needs_dampers(axle) || axle.gets_roll_bar()),
            Verdict::Unanswered | Verdict::MeasureFirst => ("withheld.order", false),
            Verdict::New | Verdict::OnSpacers | Verdict::Fine => ("withheld.order", true),
        };
        let words = phrases::upper_first(&axle_words);
        is_sold.then(|| self.caution(key, &[("axle", words.as_str()), ("reason", reason.as_str())]))
    }

    /// The springs to be fitted are new coils whose own solid length is not stated: what is known is the old ones'.
    pub fn orders_solid_length(&self, axle: &AxleAnswer) -> bool {
        let data = self.job.axle(axle.side);
        let is_stated = |entry: &Entry<Length>| !entry.is_blank();
        let of_sides = is_stated(&data.left.solid_length) && is_stated(&data.right.solid_length);
        let of_axle = is_stated(&data.stock.solid_length) || is_stated(&data.taken.solid_length);
        let own = of_sides || of_axle || axle.offered.is_some();
        axle.kind.is_coil() && self.verdict(axle) == Verdict::New && !own
    }
}
