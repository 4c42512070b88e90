//! Bars the other way round: the anti-roll bars that give the roll that is wanted on the new springs, tyres included.

use crate::base::units::{Angle, G_M_PER_S2, Length, Quantity, Ratio};
use crate::job::read::Read;
use crate::job::{PerAxle, Side};
use crate::solve::answer::{BarFound, PerState, Range, Roll, State, WantedBar, WantedBars};
use crate::solve::evaluate::pitch_and_roll::{Bars, Vehicle};
use crate::trade::roll::wanted::{AxleForBar, NoBar, bar_alone, both_bars};

impl Vehicle<'_> {
    /// What is wanted, and the bars that give it; `None` while roll on the new springs is not known, or nothing is typed
    /// that is wanted and roll before is not known.
    pub(super) fn wanted_bars(&self, roll: &PerState<Option<Roll>>) -> Option<WantedBars> {
        let state = State::NewSprings;
        let wanted = &self.reading.job.chassis.roll;
        let gradient_before = roll.before.and_then(|r| r.on_tyres_rad_s2_per_m).map(|g| g * G_M_PER_S2);
        let gradient = self.wanted(&wanted.gradient_low, &wanted.gradient_high, gradient_before)?;
        let front_before = roll.before.and_then(|r| r.front_transfer_on_tyres());
        let front: Option<Range<Ratio>> = self.wanted(&wanted.front_low, &wanted.front_high, front_before);
        let stands = self.of(state)?;
        let body = self.body(state, stands)?;
        let planned = self.paths(state, Bars::Of(state))?;
        let axle = |side: Side| {
            let path = planned[side];
            Some(AxleForBar { axle: self.in_roll(state, side, path.springs)?, tyres: path.tyres })
        };
        let axles = [axle(Side::Front)?, axle(Side::Rear)?];
        let per_m_s2 = |at_1_g: Angle| at_1_g.si() / G_M_PER_S2;
        let has_both = Side::BOTH.into_iter().all(|side| self.bar_sizes(side).is_some());
        let of = |side: Side| {
            let (i, track, sizes) = (side as usize, self.track(side)?, self.bar_sizes(side)?);
            let found = |stiffness| BarFound { stiffness, diameter: sizes.diameter_for(stiffness, track) };
            let other = planned[side.other()].bar;
            let alone = |at_1_g| bar_alone(&axles, body, per_m_s2(at_1_g), i, other).map(found);
            let split = |front| both_bars(&axles, body, per_m_s2(middle(gradient)), middle(front))[i].map(found);
            let both = front.filter(|_| has_both).map(split);
            let (thinnest, thickest) = (alone(gradient.most), alone(gradient.least));
            let step: Length = self.reading.known(&self.reading.job.axle(side).roll_bar.step)?;
            let stock = alone(middle(gradient)).ok().map(|aim| on_offer(aim.diameter, [thinnest, thickest], step));
            Some(WantedBar { sizes, track, thinnest, thickest, stock, both })
        };
        Some(WantedBars { gradient, front, axles: PerAxle::each(of) })
    }

    /// From lowest to highest as typed, one number for both where one is typed, else as before; `None` for ends that are
    /// swapped.
    fn wanted<Q: Quantity + PartialOrd>(&self, low: &Read<Q>, high: &Read<Q>, before: Option<f64>) -> Option<Range<Q>> {
        let (low, high) = (self.reading.typed(low), self.reading.typed(high));
        let before = before.map(Q::from_si);
        let (least, most) = (low.or(high).or(before)?, high.or(low).or(before)?);
        (least <= most).then_some(Range { least, most })
    }
}

fn middle<Q: Quantity>(range: Range<Q>) -> Q {
    Q::from_si(0.5 * (range.least.si() + range.most.si()))
}

/// The size on offer next to the one aimed at: one that does what is wanted, if there is one.
fn on_offer(aim: Length, [thinnest, thickest]: [Result<BarFound, NoBar>; 2], step: Length) -> Length {
    let least_m = thinnest.map_or(0.0, |bar| bar.diameter.si());
    let most_m = thickest.map_or(f64::INFINITY, |bar| bar.diameter.si());
    let steps = aim.si() / step.si();
    let sizes_m = [steps.floor().max(1.0), steps.ceil()].map(|steps| steps * step.si());
    let does_m = |size_m: &&f64| (least_m..=most_m).contains(*size_m);
    let off_m = |size_m: &&f64| (**size_m - aim.si()).abs();
    let nearest = |a: &&f64, b: &&f64| off_m(a).total_cmp(&off_m(b));
    let best = sizes_m.iter().filter(does_m).min_by(nearest).or_else(|| sizes_m.iter().min_by(nearest));
    best.map_or(aim, |size_m| Length::from_si(*size_m))
}
