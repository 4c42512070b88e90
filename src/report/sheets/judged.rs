//! Texts of an axle on every sheet: new springs or none, how the old dampers do, what stops it all.

use super::Block;
use super::page::Page;
use crate::base::units::Quantity;
use crate::job::{Plan, Side};
use crate::solve::answer::{AxleAnswer, Part, RatedPart};

/// Texts of one axle's springs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Verdict {
    /// Not enough is known.
    Unanswered,
    /// The springs stay, as planned.
    Stays,
    /// New ones were planned, but the old ones already do what is wanted.
    Fine,
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

    /// The stop, in words: what is over, by how much, in which case; worst first, each part once.
    pub fn stops(&self) -> Vec<Block> {
        let driven = self.answer.cases.iter().filter(|c| !c.what_if);
        let all = driven.flat_map(|c| c.rated.iter().map(move |r| (c, r)));
        let mut over: Vec<_> = all.filter(|(_, r)| r.is_over()).collect();
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
                let (carries, allowed) = (self.qty(rated.carries), self.qty(rated.allowed));
                let fill = [("part", self.part_words(rated.part)), ("carries", carries), ("allowed", allowed)];
                let fill: Vec<(&str, &str)> = fill.iter().map(|(k, v)| (*k, v.as_str())).collect();
                match case.index {
                    Some(_) => self.caution("stop.case", &[&fill[..], &[("case", case.name.as_str())]].concat()),
                    None => self.caution("stop.weighed", &fill),
                }
            })
            .collect()
    }

    fn part_words(&self, part: RatedPart) -> String {
        self.plain(match part {
            RatedPart::Axle(Side::Front) => "part.front.axle",
            RatedPart::Axle(Side::Rear) => "part.rear.axle",
            RatedPart::Tyre(Side::Front) => "part.front.tyre",
            RatedPart::Tyre(Side::Rear) => "part.rear.tyre",
            RatedPart::Wheel(Side::Front) => "part.front.wheel",
            RatedPart::Wheel(Side::Rear) => "part.rear.wheel",
            RatedPart::Vehicle => "part.vehicle",
        })
    }

    pub fn verdict(&self, axle: &AxleAnswer) -> Verdict {
        match (axle.plan, &axle.standing.new) {
            (_, None) => Verdict::Unanswered,
            (Plan::Keep, _) => Verdict::Stays,
            (Plan::NewSprings, _) if axle.old_will_do == Some(true) => Verdict::Fine,
            (Plan::NewSprings, _) => Verdict::New,
        }
    }

    /// What may be bought for an axle; `None` while it is withheld.
    pub fn part(&self, axle: &AxleAnswer) -> Option<Part<'a>> {
        self.answer.released(axle.side).ok()
    }

    /// The axles that get new springs, but those that are withheld.
    pub fn renewed(&self) -> Vec<&'a AxleAnswer> {
        let new = |a: &&AxleAnswer| self.verdict(a) == Verdict::New && self.part(a).is_some();
        self.answer.axles.iter().filter(new).collect()
    }

    /// The axles that keep their springs, but whose dampers do not suit them, but those that are withheld.
    pub fn redamped(&self) -> Vec<&'a AxleAnswer> {
        let stays = |a: &&AxleAnswer| matches!(self.verdict(a), Verdict::Stays | Verdict::Fine);
        let sold = |a: &&AxleAnswer| self.needs_dampers(a) && self.part(a).is_some();
        self.answer.axles.iter().filter(stays).filter(sold).collect()
    }

    /// The old dampers are known not to suit the springs as they will be fitted.
    pub fn needs_dampers(&self, axle: &AxleAnswer) -> bool {
        matches!(self.dampers(axle), Dampers::TooSoft | Dampers::TooStiff)
    }

    /// How the old dampers do on the springs as they will be fitted.
    pub fn dampers(&self, axle: &AxleAnswer) -> Dampers {
        // A ratio that nobody typed says nothing about these dampers.
        if axle.old_damper.as_ref().is_none_or(|old| old.is_assumed) {
            return Dampers::Unknown;
        }
        let old_ratio = |a: &AxleAnswer| Some(a.standing.new.as_ref()?.old_damper_ratio?.si());
        let Some((old, wanted)) = old_ratio(axle).zip(axle.damping.as_ref()) else { return Dampers::Unknown };
        let (below, above) = (wanted.ratio.low.si() - old, old - wanted.ratio.high.si());
        let u = self.answer.checked(axle.side).u_of(old_ratio).unwrap_or(0.0);
        match below.max(above) {
            off if off <= 0.0 => Dampers::Stay,
            off if off < u => Dampers::Doubtful,
            _ if below > 0.0 => Dampers::TooSoft,
            _ => Dampers::TooStiff,
        }
    }
}
