//! Findings about weighings, ratings and unsprung masses.

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Dim, Mass, Quantity, Ratio, UnitChoice};
use crate::job::{AxleKind, Level, Mend, PerAxle, Side};
use crate::message;
use crate::solve::answer::{Again, Answer, AxleAnswer, Measured, State, Vehicle, Weighed};
use crate::solve::findings::edge::{above, outside};
use crate::solve::findings::{Say, weighed_first, weighed_when, weighings};
use crate::trade::weights::cross_weight;

/// What remains unexplained counts from this multiple of its ± on.
const SURE: f64 = 2.0;

/// Whether the parts explain how far left and right of an axle moved apart, and by which amounts; `None` without a ledger
/// between two weigh-ins.
fn by_parts(answer: &Answer, side: Side, units: &UnitChoice) -> Option<(bool, Message)> {
    let sides = answer.whole.ledger.as_ref()?.sides;
    let (explained, remains) = (PerAxle::from(sides.change)[side], PerAxle::from(sides.residual?)[side]);
    let mass = |m: Measured| Amount::with_u(Mass::from_si(m.value), Some(m.u), units);
    let (parts, rest) = (mass(explained), mass(remains));
    let weighed = Amount::rounded(Mass::from_si(explained.value + remains.value), units);
    let is_explained = remains.value.abs() < SURE * remains.u;
    Some((
        is_explained,
        match is_explained {
            true => message!(
                "Since before, the right side gained {weighed} more than the left; the parts listed explain that ({parts}).",
                weighed,
                parts
            ),
            false => message!(
                "Since before, the right side gained {weighed} more than the left. The parts listed explain {parts}; the remaining {rest} comes from the pads, a preloaded spring or an anti-roll bar.",
                weighed,
                parts,
                rest
            ),
        },
    ))
}

impl Say<'_> {
    pub(in crate::solve::findings) fn weights(&mut self, answer: &Answer) {
        let cross_limit = self.limit(|j| &j.limits.cross);
        for (state, when, weighed) in weighings(answer) {
            let is_before = state == State::Before;
            for side in Side::BOTH {
                self.left_right(answer, is_before, side);
                self.two_ways(weighed, when, side);
            }
            let cross = |v: &Vehicle, state: State| {
                let read = if state == State::Before { &v.before } else { &v.after };
                v.whole.level.of(state).as_ref().map(cross_weight).or(read.cross_weight)
            };
            let u = self.u_vehicle(|v| cross(v, state).map(Quantity::si));
            let usual = cross_limit.map(|limit| [0.5 - limit.si(), 0.5 + limit.si()]);
            if let (Some(cross_now), Some(usual), Some(limit)) = (cross(&answer.vehicle, state), usual, cross_limit)
                && let Some(end) = outside(cross_now.si(), usual, u)
            {
                let was = cross(&answer.vehicle, State::Before).filter(|_| !is_before);
                let was_so = was.is_some_and(|was| outside(was.si(), usual, None) == Some(end));
                let cross = cross_now;
                self.push_state(was_so, Level::Doubt, "cross-weight", format!("{when}.lf"), message!(
                    "{weighed}: cross weight is {cross:.1} %; {low:.0} to {high:.0} % is usual. Before you rely on it, check for a swapped reading, pads that are not level or a preloaded anti-roll bar.",
                    weighed = weighed_first(is_before), cross = cross.si() * 100.0, low = 50.0 - limit.si() * 100.0, high = 50.0 + limit.si() * 100.0
                ));
            }
        }
        let (before, after) = (self.job().before.aboard.trim(), self.job().after.aboard.trim());
        let taken_out = !self.job().before.loads.is_empty() || !self.job().after.loads.is_empty();
        if !before.is_empty() && !after.is_empty() && before != after && !taken_out {
            let text = message!(
                "Load aboard before: \"{before}\"; after: \"{after}\". The weigh-ins are compared without correction: weigh again with the same fuel and people, or list what was aboard so that it is subtracted.",
                before,
                after
            );
            self.push(Level::Doubt, "aboard", "after.lf", text);
        }
        if self.job().before.is_blank() && !self.job().after.is_blank() && answer.compared.origins.before.is_none() {
            self.push(Level::Note, "no-before", "before.lf",
                message!("The weights before the change are not known, so the changes in height and frequency are not known either. Lengths and gaps are treated as measured now."));
        }
    }

    /// One side of an axle is heavier than usual: whether the parts explain it or not.
    fn left_right(&mut self, answer: &Answer, is_before: bool, side: Side) {
        let of = |v: &Vehicle| {
            let read = if is_before { &v.before } else { &v.after };
            read.left_right[side].map(Quantity::si)
        };
        let limit = self.limit(|j| &j.limits.left_right);
        let Some((spread, limit)) = of(&answer.vehicle).zip(limit.map(Quantity::si)) else { return };
        let Some(end) = outside(spread, [-limit, limit], self.u_vehicle(of)) else { return };
        let was = answer.before.left_right[side].map(Quantity::si).filter(|_| !is_before);
        let was_so = was.is_some_and(|was| outside(was, [-limit, limit], None) == Some(end));
        let heavier = if spread > 0.0 { Word("the left side") } else { Word("the right side") };
        let text = message!(
            "{side}, {weighed}: {heavier} is heavier by {spread:.1} % of the axle weight; up to {limit:.1} % is usual. Check that the pads are level, the brake is off, the anti-roll bar is free, and left and right are not swapped.",
            weighed = weighed_when(is_before),
            heavier,
            side = side.word(),
            spread = spread.abs() * 100.0,
            limit = limit * 100.0
        );
        let (level, text) = match by_parts(answer, side, self.units).filter(|_| !is_before) {
            Some((is_explained, said)) => (if is_explained { Level::Note } else { Level::Doubt }, text.and(said)),
            None => (Level::Doubt, text),
        };
        let corner = if side == Side::Front { "lf" } else { "lr" };
        let field = format!("{}.{corner}", if is_before { "before" } else { "after" });
        self.push_state(was_so, level, "left-right", field, text);
    }

    /// An axle typed both as corners and as a whole.
    fn two_ways(&mut self, weighed: &Weighed, when: &str, side: Side) {
        let weighing = if when == "before" { &self.job().before } else { &self.job().after };
        let (key, entry) = match side {
            Side::Front => ("front", &weighing.front),
            Side::Rear => ("rear", &weighing.rear),
        };
        let typed: Option<Mass> = self.reading.typed(entry);
        let u_typed = self.reading.typed_with_u(entry).map(|m| m.u);
        let u_used =
            self.u_vehicle(|v| (if when == "before" { &v.before } else { &v.after }).axle(side).map(Quantity::si));
        let u = u_typed.unwrap_or(0.0).hypot(u_used.unwrap_or(0.0));
        if let (Some(typed), Some(used)) = (typed, weighed.axle(side))
            && above((typed - used).si().abs(), 0.01 * used.si(), Some(u))
        {
            let text = message!(
                "{axle} {weighed}: the corner readings add up to {used}, but the axle reading is {typed}. The corner readings are used; clear the wrong value.",
                weighed = weighed_when(when == "before"),
                axle = side.axle(),
                used = Amount::rounded(used, self.units),
                typed = Amount::rounded(typed, self.units)
            );
            let [left, right] = if side == Side::Front { ["lf", "rf"] } else { ["lr", "rr"] };
            let whole = Mend::new(Word("Clear the axle reading")).set(format!("{when}.{key}"), "");
            let corners = Mend::new(Word("Clear both corner readings")).set(format!("{when}.{left}"), "");
            let corners = corners.set(format!("{when}.{right}"), "");
            self.push_with(Level::Doubt, "axle-twice", format!("{when}.{key}"), text, [whole, corners]);
        }
    }

    /// What scales and tape say after fitting, against what was predicted.
    pub(in crate::solve::findings) fn reweighed(&mut self, answer: &Answer) {
        let corners = [
            ("lf", Word("Left front")),
            ("rf", Word("Right front")),
            ("lr", Word("Left rear")),
            ("rr", Word("Right rear")),
        ];
        let found = &answer.reweigh;
        for side in Side::BOTH {
            let left = side.corners()[0];
            let field = if found.corners[left].found.is_some() { corners[left].0 } else { side.key() };
            self.off(&found.axles[side], "fitted-axle", format!("fitted.{field}"), side.axle(), None, Word("A spring cannot change an axle's weight: weigh with the same fuel and people as before, on level pads and with the brake off."));
        }
        for (i, (key, corner)) in corners.into_iter().enumerate() {
            // When the whole axle is off, its corners are too.
            if found.axles[Side::BOTH[i / 2]].inside() != Some(false) {
                let swap = self.fitted_swap(&found.corners, i, "");
                self.off(&found.corners[i], "fitted-corner", format!("fitted.{key}"), corner, swap, Word("Roll the vehicle back and forth, let it settle and weigh again. Then compare left and right: spring part numbers, seats, spacers, collars."));
            }
            let swap = self.fitted_swap(&found.arch, i, "arch.");
            self.off(&found.arch[i], "fitted-height", format!("fitted.arch.{key}"), corner, swap, Word("Roll the vehicle back and forth and measure again. Then check the seats, the spring's part number and its free length. New springs sit a little high until they settle."));
        }
    }

    /// Left and right of an axle swapped, when both are then as predicted.
    fn fitted_swap<Q: Quantity>(&self, found: &[Again<Q>; 4], i: usize, list: &str) -> Option<Mend> {
        let (left, right) = (i / 2 * 2, i / 2 * 2 + 1);
        let with = |at: usize, other: usize| Again { found: found[other].found, ..found[at] }.inside();
        let swaps = with(left, right) == Some(true) && with(right, left) == Some(true);
        let [left, right] = [left, right].map(|at| format!("fitted.{list}{}", ["lf", "rf", "lr", "rr"][at]));
        swaps.then(|| self.texts().swap(Word("Swap left and right"), &left, &right))?
    }

    fn off<Q: Quantity>(
        &mut self,
        again: &Again<Q>,
        rule: &'static str,
        field: String,
        who: Word,
        mend: Option<Mend>,
        todo: Word,
    ) {
        if again.inside() != Some(false) {
            return;
        }
        let said = |q: Option<Q>| q.map_or(Message::NOTHING, |q| Amount::rounded(q, self.units).into());
        let (found, predicted, within) = (said(again.found), said(again.foretold), said(again.within));
        let what = if Q::DIM == Dim::Length {
            message!("{who} as fitted, hub to arch", who)
        } else {
            message!("{who} as fitted", who)
        };
        let text = message!(
            "{what}: {found} measured, {predicted} predicted, tolerance {within}. {todo}",
            what,
            found,
            predicted,
            within,
            todo
        );
        self.push_with(Level::Doubt, rule, field, text, mend);
    }

    pub(in crate::solve::findings) fn unsprung(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let side = axle.side;
        let data = self.job().axle(side);
        let kind = data.kind;
        let unsprung: Option<Mass> = self.reading.known(&data.unsprung);
        let limit = match kind {
            AxleKind::Independent => self.limit(|j| &j.limits.unsprung_independent),
            AxleKind::Beam => self.limit(|j| &j.limits.unsprung_beam),
        };
        let (Some(unsprung), Some(whole), Some(limit)) = (unsprung, answer.after.axle(side), limit) else { return };
        let reading = whole / 2.0;
        let share: Ratio = unsprung / reading;
        let field = format!("{}.unsprung", side.key());
        if share.si() >= 1.0 {
            let text = message!(
                "{side}, unsprung mass, one corner: {unsprung} must be less than the corner reading of {reading}. Count only the wheel, hub, brake and half of the arms.",
                side = side.word(),
                unsprung = Amount::rounded(unsprung, self.units),
                reading = Amount::rounded(reading, self.units)
            );
            let mend = self.half_unsprung(&field, share, limit);
            self.push_with(Level::Error, "unsprung-above-reading", field, text, mend);
        } else if above(share.si(), limit.si(), self.u_axle(side, unsprung_share)) {
            let text = message!(
                "{side}: the unsprung mass is {share:.0} % of the corner reading; up to {limit:.0} % is usual here. Check both values.",
                side = side.word(),
                share = share.si() * 100.0,
                limit = limit.si() * 100.0
            );
            let mend = self.half_unsprung(&field, share, limit);
            self.push_with(Level::Doubt, "unsprung-share", field, text, mend);
        }
    }

    /// Half of an unsprung mass that was typed for both sides together.
    fn half_unsprung(&self, field: &str, share: Ratio, limit: Ratio) -> Option<Mend> {
        let half = self.texts().times(field, 0.5, 6).filter(|_| share / 2.0 <= limit)?;
        Some(Mend::new(message!("Use {text} for one corner", text = &half)).set(field, half))
    }
}

/// Unsprung mass over what the corner weighs.
fn unsprung_share(axle: &AxleAnswer) -> Option<f64> {
    let (unsprung, sprung) = (axle.masses.unsprung.after?.si(), axle.masses.sprung.after?.si());
    Some(unsprung / (unsprung + sprung))
}
