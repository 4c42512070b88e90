//! Readings of four corners: how they scatter, as on level pads, and the ledger of parts corner by corner.

use crate::base::units::{Force, G_M_PER_S2, Length, Mass, Quantity};
use crate::job::read::{Pads, Weighing};
use crate::solve::answer::{CornerLedger, Corners, Ledger, Measured, State};
use crate::solve::evaluate::equal_load::{self, Placed};
use crate::solve::evaluate::pitch_and_roll::{Bars, Vehicle};
use crate::solve::read::{Reading, scatter as scatter_of};
use crate::trade::ledger::{self, Part, RollPath};

/// How much the readings of each corner scatter, before and after; `None` unless every corner was read at least twice.
pub(in crate::solve) fn scatter(reading: &Reading<'_>) -> [Option<Corners<Mass>>; 2] {
    [&reading.job.before, &reading.job.after].map(|w| {
        let [lf, rf, lr, rr] = scatter_of(reading, w).map(|s| s.map(Mass::from_si));
        Some(Corners { lf: lf?, rf: rf?, lr: lr?, rr: rr? })
    })
}

/// How well each corner is known, before and after; `None` unless all eight were read.
pub(in crate::solve) fn reading_u(reading: &Reading<'_>) -> Option<[[f64; 4]; 2]> {
    let each = |w: &Weighing| {
        let [lf, rf, lr, rr] = equal_load::corner_u(reading, w);
        Some([lf?, rf?, lr?, rr?])
    };
    Some([each(&reading.job.before)?, each(&reading.job.after)?])
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

    fn variance(&self, rows: &[Placed]) -> Option<[f64; 4]> {
        equal_load::variance_of(rows, |parts| self.weigh(parts))
    }
}

impl Vehicle<'_> {
    /// The ledger corner by corner, on the old springs; `None` without parts or without what shares out a roll moment.
    pub fn ledger(&self, axles: Option<&Ledger>, level: [Option<Corners<Mass>>; 2]) -> Option<CornerLedger> {
        let rows = self.reading.parts();
        let (job, kept) = (&self.reading.job, &self.reading.job.predicted);
        let state = [State::OldSprings, State::Before].into_iter().find(|s| self.of(*s).is_some())?;
        let paths = self.paths(state, Bars::Free).filter(|_| !job.parts.is_empty())?;
        let on = OnCorners { wheelbase: self.wheelbase, paths: &paths };
        let change = equal_load::pair(on.weigh(&equal_load::parts_of(&rows))?, on.variance(&rows)?);
        let read = [(&job.before, self.on.before.corners), (&job.after, self.on.after.corners)];
        let scales = [0, 1].map(|i| {
            let (weighing, corners) = read[i];
            self.bare(weighing, level[i].or(corners)?, &on)
        });
        let mut told = equal_load::against_scales(change, scales);
        let [lf, rf, lr, rr] = [&kept.lf, &kept.rf, &kept.lr, &kept.rr].map(|e| self.reading.measured(e));
        told.kept = lf.zip(rf).zip(lr.zip(rr)).map(|((lf, rf), (lr, rr))| [lf, rf, lr, rr]);
        let missing_kg = axles.and_then(|l| l.missing).map(|m| m.0.si());
        let missing_right = told.residual.zip(missing_kg).map(|([lf, rf, lr, rr], kg)| {
            let halves_m = [0, 1].map(|i| paths[i].track.si() / 2.0);
            Length::from_si(((rf.value - lf.value) * halves_m[0] + (rr.value - lr.value) * halves_m[1]) / kg)
        });
        Some(CornerLedger { told, missing_right })
    }

    /// Corners without what was aboard.
    fn bare(&self, weighing: &Weighing, read: Corners<Mass>, on: &OnCorners<'_>) -> Option<[Measured; 4]> {
        let rows = self.reading.loads(&weighing.loads);
        let (aboard, variance) = (on.weigh(&equal_load::parts_of(&rows))?, on.variance(&rows)?);
        let [lf, rf, lr, rr] = equal_load::corner_u(self.reading, weighing);
        let (read, u) = (read.walk(), [lf?, rf?, lr?, rr?]);
        Some(equal_load::pair(
            std::array::from_fn(|i| read[i] - aboard[i]),
            std::array::from_fn(|i| u[i].powi(2) + variance[i]),
        ))
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
        let gained =
            ledger::pads_and_seats(&Corners::default(), &Corners { lf, rf, lr, rr }, &self.paths(state, Bars::Free)?)?;
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
