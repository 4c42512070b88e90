//! Readings of four corners: how they scatter, as on level pads, and the ledger of parts corner by corner.

use crate::base::units::{Force, G_M_PER_S2, Length, Mass, Quantity};
use crate::job::read::{Pads, Weighing};
use crate::solve::answer::{BeforeAfter, CornerLedger, Corners, Ledger, Measured, State, Told};
use crate::solve::evaluate::equal_load::{self, Placed};
use crate::solve::evaluate::pitch_and_roll::{Bars, Vehicle};
use crate::solve::read::{Reading, scatter as scatter_of};
use crate::trade::ledger::{self, Part, RollPath};

/// How much the readings of each corner scatter; `None` unless every corner was read at least twice.
pub(in crate::solve) fn scatter(reading: &Reading<'_>) -> BeforeAfter<Option<Corners<Mass>>> {
    BeforeAfter { before: &reading.job.before, after: &reading.job.after }.map(|w| {
        let [lf, rf, lr, rr] = scatter_of(reading, w).map(|s| s.map(Mass::from_si));
        Some(Corners { lf: lf?, rf: rf?, lr: lr?, rr: rr? })
    })
}

/// How well each corner is known; `None` unless all eight were read.
pub(in crate::solve) fn reading_u(reading: &Reading<'_>) -> Option<BeforeAfter<[f64; 4]>> {
    let each = |w: &Weighing| {
        let [lf, rf, lr, rr] = equal_load::corner_u(reading, w);
        Some([lf?, rf?, lr?, rr?])
    };
    Some(BeforeAfter { before: each(&reading.job.before)?, after: each(&reading.job.after)? })
}

/// How high each pad stood, where one was entered as off level.
fn heights(reading: &Reading<'_>, pads: &Pads) -> [Option<Length>; 4] {
    [&pads.lf, &pads.rf, &pads.lr, &pads.rr].map(|p| reading.typed(p))
}

/// Some pad did not stand level.
pub(in crate::solve) fn uneven(reading: &Reading<'_>, pads: &Pads) -> bool {
    heights(reading, pads).iter().any(Option::is_some)
}

/// How rows of the ledger load the corners, LF, RF, LR, RR.
struct OnCorners<'a> {
    wheelbase: Length,
    paths: &'a [RollPath; 2],
}

impl OnCorners<'_> {
    fn weigh(&self, parts: &[Part]) -> Option<[Mass; 4]> {
        Some(ledger::corner_change(parts, self.wheelbase, self.paths)?.walk())
    }

    /// What rows weigh in sums or differences of corners, with its ±.
    fn weigh_in<const N: usize>(&self, rows: &[Placed], of: OfCorners<N>) -> Option<[Measured; N]> {
        let value = of(self.weigh(&equal_load::parts_of(rows))?);
        Some(equal_load::pair(value, equal_load::variance_of(rows, |parts| Some(of(self.weigh(parts)?)))?))
    }
}

/// Sums or differences of what corners carry: LF, RF, LR, RR.
type OfCorners<const N: usize> = fn([Mass; 4]) -> [Mass; N];

/// Each corner.
fn each(corners: [Mass; 4]) -> [Mass; 4] {
    corners
}

/// Right less left, front and rear.
fn right_less_left([lf, rf, lr, rr]: [Mass; 4]) -> [Mass; 2] {
    [rf - lf, rr - lr]
}

impl Vehicle<'_> {
    /// The ledger corner by corner, on the old springs; `None` without parts or without what shares out a roll moment.
    pub fn ledger(&self, axles: Option<&Ledger>, level: BeforeAfter<Option<Corners<Mass>>>) -> Option<CornerLedger> {
        let rows = self.reading.parts();
        let (job, kept) = (&self.reading.job, &self.reading.job.predicted);
        let state = [State::OldSprings, State::Before].into_iter().find(|s| self.of(*s).is_some())?;
        let paths = self.paths(state, Bars::Free).filter(|_| !job.parts.is_empty())?;
        let on = OnCorners { wheelbase: self.wheelbase, paths: &paths.both() };
        let mut told = self.against_scales(&on, &rows, level, each)?;
        let sides = self.against_scales(&on, &rows, level, right_less_left)?;
        let [lf, rf, lr, rr] = [&kept.lf, &kept.rf, &kept.lr, &kept.rr].map(|e| self.reading.measured(e));
        told.kept = lf.zip(rf).zip(lr.zip(rr)).map(|((lf, rf), (lr, rr))| [lf, rf, lr, rr]);
        let missing_kg = axles.and_then(|l| l.missing).map(|m| m.0.si());
        let missing_right = told.residual.zip(missing_kg).map(|([lf, rf, lr, rr], kg)| {
            let halves_m = paths.map(|path| path.track.si() / 2.0);
            Length::from_si(((rf.value - lf.value) * halves_m.front + (rr.value - lr.value) * halves_m.rear) / kg)
        });
        Some(CornerLedger { told, sides, missing_right })
    }

    /// What the rows change, against both weigh-ins without what was aboard.
    fn against_scales<const N: usize>(
        &self,
        on: &OnCorners<'_>,
        rows: &[Placed],
        level: BeforeAfter<Option<Corners<Mass>>>,
        of: OfCorners<N>,
    ) -> Option<Told<N>> {
        let job = &self.reading.job;
        let before = level.before.or(self.on.before.corners).and_then(|read| self.bare(&job.before, read, on, of));
        let after = level.after.or(self.on.after.corners).and_then(|read| self.bare(&job.after, read, on, of));
        Some(equal_load::against_scales(on.weigh_in(rows, of)?, [before, after]))
    }

    /// Corners without what was aboard.
    fn bare<const N: usize>(
        &self,
        weighing: &Weighing,
        read: Corners<Mass>,
        on: &OnCorners<'_>,
        of: OfCorners<N>,
    ) -> Option<[Measured; N]> {
        let aboard = on.weigh_in(&self.reading.loads(&weighing.loads), of)?;
        let [lf, rf, lr, rr] = equal_load::corner_u(self.reading, weighing);
        let u = [lf?, rf?, lr?, rr?];
        let read = of(read.walk());
        // Of each corner by itself: readings are independent.
        let alone = |i: usize| of(std::array::from_fn(|n| Mass::from_si(if n == i { u[i] } else { 0.0 })));
        let moved: [[Mass; N]; 4] = std::array::from_fn(alone);
        Some(std::array::from_fn(|n| Measured {
            value: read[n].si() - aboard[n].value,
            u: moved.iter().fold(aboard[n].u, |u, by| u.hypot(by[n].si())),
        }))
    }

    /// Corner readings as they would be on level pads; `None` when no pad was off level.
    pub fn on_level_pads(&self, before: bool) -> Option<Corners<Mass>> {
        let (weighing, read) = match before {
            true => (&self.reading.job.before, self.on.before),
            false => (&self.reading.job.after, self.on.after),
        };
        uneven(self.reading, &weighing.pads).then_some(())?;
        let [lf, rf, lr, rr] = heights(self.reading, &weighing.pads).map(Option::unwrap_or_default);
        let state = if before { State::Before } else { State::OldSprings };
        let gained = ledger::pads_and_seats(
            &Corners::default(),
            &Corners { lf, rf, lr, rr },
            &self.paths(state, Bars::Free)?.both(),
        )?;
        let without = |reading: Mass, gained: Force| reading - Mass::from_si(gained.si() / G_M_PER_S2);
        let c = read.corners?;
        Some(Corners {
            lf: without(c.lf, gained.lf),
            rf: without(c.rf, gained.rf),
            lr: without(c.lr, gained.lr),
            rr: without(c.rr, gained.rr),
        })
    }
}
