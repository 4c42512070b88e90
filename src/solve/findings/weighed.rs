//! Findings about weighings, ratings and unsprung masses.

use super::Say;
use crate::job::{AxleKind, Level, Side};
use crate::solve::answer::{Again, Answer, AxleAnswer, Weighed};
use crate::units::{Mass, Quantity, Ratio, display};
use crate::weights::cross_weight;

impl Say<'_> {
    pub(super) fn weights(&mut self, answer: &Answer) {
        let limit = self.limit(|j| &j.limits.left_right);
        let cross_limit = self.limit(|j| &j.limits.cross);
        for (i, (weighed, when)) in [(&answer.before, "before"), (&answer.after, "after")].into_iter().enumerate() {
            for side in Side::BOTH {
                let field = format!("{when}.{}", if side == Side::Front { "lf" } else { "lr" });
                if let (Some(spread), Some(limit)) = (weighed.left_right[usize::from(side == Side::Rear)], limit)
                    && spread.si().abs() > limit.si()
                {
                    let heavier = if spread.si() > 0.0 { "left" } else { "right" };
                    self.push(Level::Doubt, "left-right", field.clone(), format!(
                        "{}, weighed {when}: the {heavier} is {:.1} % of the axle heavier; up to {:.1} % is usual. Check that the pads are level, the brake off, the anti-roll bar free, and that left and right are not swapped.",
                        side.word(), spread.si().abs() * 100.0, limit.si() * 100.0));
                }
                self.two_ways(weighed, when, side);
            }
            let on_level = answer.whole.level[i].as_ref().map(cross_weight);
            if let (Some(cross), Some(limit)) = (on_level.or(weighed.cross_weight), cross_limit)
                && (cross.si() - 0.5).abs() > limit.si()
            {
                self.push(Level::Doubt, "cross-weight", format!("{when}.lf"), format!(
                    "Weighed {when}: cross weight is {:.1} %; {:.0} to {:.0} % is usual. Check for a swapped reading, uneven pads or a preloaded bar before it is believed.",
                    cross.si() * 100.0, 50.0 - limit.si() * 100.0, 50.0 + limit.si() * 100.0));
            }
        }
        let (before, after) = (self.job().before.aboard.trim(), self.job().after.aboard.trim());
        let taken_out = !self.job().before.loads.is_empty() || !self.job().after.loads.is_empty();
        if !before.is_empty() && !after.is_empty() && before != after && !taken_out {
            let text = format!(
                "Aboard before: \"{before}\"; after: \"{after}\". Weighings are compared as they stand: weigh again with equal fuel and people, or list what was aboard, so that it is taken out."
            );
            self.push(Level::Doubt, "aboard", "after.lf", text);
        }
        if self.job().before.is_blank() && !self.job().after.is_blank() && answer.compared.origins[0].is_none() {
            self.push(Level::Note, "no-before", "before.lf",
                "No weights from before the swap: change of height and frequency are not known. Lengths and gaps are taken as measured now.".into());
        }
    }

    /// An axle typed both as corners and as a whole.
    fn two_ways(&mut self, weighed: &Weighed, when: &str, side: Side) {
        let weighing = if when == "before" { &self.job().before } else { &self.job().after };
        let (key, entry) = match side {
            Side::Front => ("front", &weighing.front),
            Side::Rear => ("rear", &weighing.rear),
        };
        let typed: Option<Mass> = self.reader.typed(entry);
        if let (Some(typed), Some(used)) = (typed, weighed.axle(side))
            && ((typed - used) / used).si().abs() > 0.01
        {
            let text = format!(
                "{} axle weighed {when}: the corners add up to {}, the axle reading is {}. The corners are used; clear the one that is wrong.",
                side.word(),
                display::rounded(used, self.units),
                display::rounded(typed, self.units)
            );
            self.push(Level::Doubt, "axle-twice", format!("{when}.{key}"), text);
        }
    }

    /// What scales and tape say after fitting, against what was foretold.
    pub(super) fn reweighed(&mut self, answer: &Answer) {
        const CORNERS: [(&str, &str); 4] =
            [("lf", "Left front"), ("rf", "Right front"), ("lr", "Left rear"), ("rr", "Right rear")];
        const AXLES: [(&str, &str); 2] = [("front", "Front axle"), ("rear", "Rear axle")];
        let found = &answer.reweigh;
        for (i, (key, words)) in AXLES.into_iter().enumerate() {
            let field = [key, ["lf", "lr"][i]][usize::from(found.corners[2 * i].found.is_some())];
            self.off(&found.axles[i], "fitted-axle", format!("fitted.{field}"), words, "No spring changes an axle's weight: weigh with the same fuel and people as before, pads level, brake off.");
        }
        for (i, (key, words)) in CORNERS.into_iter().enumerate() {
            // When the whole axle is off, its corners are too.
            if found.axles[i / 2].inside() != Some(false) {
                self.off(&found.corners[i], "fitted-corner", format!("fitted.{key}"), words, "Roll it, let it settle, weigh again; then compare left and right: spring numbers, seats, spacers, collars.");
            }
            self.off(&found.arch[i], "fitted-height", format!("fitted.arch.{key}"), words, "Roll it and measure again; then look at the seats, the spring's number and its free length. New springs stand a little high until they settle.");
        }
    }

    fn off<Q: Quantity>(&mut self, again: &Again<Q>, rule: &'static str, field: String, who: &str, todo: &str) {
        if again.inside() != Some(false) {
            return;
        }
        let said = |q: Option<Q>| q.map_or(String::new(), |q| display::rounded(q, self.units));
        let what = if rule == "fitted-height" { ", hub to arch" } else { "" };
        let (found, foretold, within) = (said(again.found), said(again.foretold), said(again.within));
        let text =
            format!("{who} as fitted{what}: {found}; {foretold} was foretold, up to {within} off is accepted. {todo}");
        self.push(Level::Doubt, rule, field, text);
    }

    pub(super) fn unsprung(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let side = axle.side;
        let data = self.job().axle(side);
        let kind = data.kind;
        let unsprung: Option<Mass> = self.reader.known(&data.unsprung);
        let limit = match kind {
            AxleKind::Independent => self.limit(|j| &j.limits.unsprung_independent),
            AxleKind::Beam => self.limit(|j| &j.limits.unsprung_beam),
        };
        let (Some(unsprung), Some(whole), Some(limit)) = (unsprung, answer.after.axle(side), limit) else { return };
        let reading = whole / 2.0;
        let share: Ratio = unsprung / reading;
        let field = format!("{}.unsprung", side.key());
        if share.si() >= 1.0 {
            let text = format!(
                "{}, unsprung mass, one corner: {} is not below the corner's reading of {}. It must be the wheel, hub, brake and half of the arms alone.",
                side.word(),
                display::rounded(unsprung, self.units),
                display::rounded(reading, self.units)
            );
            self.push(Level::Error, "unsprung-above-reading", field, text);
        } else if share > limit {
            let text = format!(
                "{}: the unsprung mass is {:.0} % of the corner's reading; up to {:.0} % is usual here. Check both.",
                side.word(),
                share.si() * 100.0,
                limit.si() * 100.0
            );
            self.push(Level::Doubt, "unsprung-share", field, text);
        }
    }
}
