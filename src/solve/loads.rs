//! From scale readings to the weights that are compared: what was aboard taken out, a load case put in, a missing
//! weigh-in reckoned by the ledger of parts.

use super::answer::{Compared, Ledger, Measured, Weighed};
use super::read::Reader;
use super::weighed;
use crate::job::{Load, LoadCase, Part, PartOn, Side, Way, Weighing};
use crate::ledger::{self, On};
use crate::units::{Entry, Force, Length, Mass, Origin, Quantity, Ratio, weight};

/// What one row weighs on the two axles.
type OnAxles = [Mass; 2];

const NOTHING: f64 = 0.0;

fn none() -> OnAxles {
    [Mass::from_si(NOTHING); 2]
}

fn no_force() -> [Force; 2] {
    [Force::from_si(NOTHING); 2]
}

fn add(a: OnAxles, b: OnAxles) -> OnAxles {
    [a[0] + b[0], a[1] + b[1]]
}

fn less(a: OnAxles, b: OnAxles) -> OnAxles {
    [a[0] - b[0], a[1] - b[1]]
}

impl Reader<'_> {
    /// Loads of a list as parts of the ledger; rows without mass or place are not known, and a finding says so.
    pub fn loads(&self, loads: &[Load]) -> Vec<ledger::Part> {
        loads.iter().filter_map(|l| self.placed(&l.mass, &l.x, &l.y, On::Body, 1.0)).collect()
    }

    /// The parts that come out and go in.
    pub fn parts(&self) -> Vec<ledger::Part> {
        let part = |p: &Part| {
            let on = match p.on {
                PartOn::Body => On::Body,
                PartOn::FrontAxle => On::Axle(0),
                PartOn::RearAxle => On::Axle(1),
            };
            let sign = if p.way == Way::In { 1.0 } else { -1.0 };
            self.placed(&p.mass, &p.x, &p.y, on, sign)
        };
        self.job.parts.iter().filter_map(part).collect()
    }

    fn placed(
        &self,
        mass: &Entry<Mass>,
        x: &Entry<Length>,
        y: &Entry<Length>,
        on: On,
        sign: f64,
    ) -> Option<ledger::Part> {
        let mass: Mass = self.typed(mass)?;
        // An unsprung part sits on its axle's line, whatever is typed for x.
        let x = match on {
            On::Axle(0) => Length::from_si(NOTHING),
            On::Axle(_) => self.typed(&self.job.vehicle.wheelbase)?,
            On::Body => self.typed(x)?,
        };
        // In the middle unless said: only the corners ask for it.
        let y = self.typed(y).unwrap_or(Length::from_si(NOTHING));
        Some(ledger::Part { mass: mass * sign, x, y, on })
    }

    /// What a list of loads weighs on the axles. `None` when there are loads, but no wheelbase.
    pub fn on_axles(&self, parts: &[ledger::Part]) -> Option<OnAxles> {
        if parts.is_empty() {
            return Some(none());
        }
        Some(ledger::axle_change(parts, self.typed(&self.job.vehicle.wheelbase)?))
    }

    /// The load case on which springs and dampers are sized; the first one that says so.
    pub fn sized_case(&self) -> Option<&LoadCase> {
        self.job.cases.iter().find(|c| c.sized)
    }

    /// What the load on the hitch presses on the axles.
    pub fn tongue(&self, case: &LoadCase) -> Option<[Force; 2]> {
        let Some(mass): Option<Mass> = self.typed(&case.tongue) else { return Some(no_force()) };
        let wheelbase = self.typed(&self.job.vehicle.wheelbase)?;
        let hitch: Length = self.typed(&self.job.vehicle.hitch)?;
        Some(ledger::tongue(weight(mass), hitch, wheelbase))
    }

    /// One weigh-in without what was aboard.
    fn bare(&self, weighing: &Weighing) -> Option<OnAxles> {
        let read = weighed(self, weighing);
        Some(less([read.front?, read.rear?], self.on_axles(&self.loads(&weighing.loads))?))
    }
}

/// The weights before and after that are compared, at equal load.
pub(super) fn compared(reader: &Reader<'_>) -> Compared {
    let job = reader.job;
    let (before, after) = (weighed(reader, &job.before), weighed(reader, &job.after));
    let case = reader.sized_case();
    let plain = case.is_none() && job.before.loads.is_empty() && job.after.loads.is_empty() && job.parts.is_empty();
    if plain {
        let origin = |w: &Weighed| w.front.or(w.rear).map(|_| Origin::Measured);
        let origins = [origin(&before), origin(&after)];
        let bare = after.front.zip(after.rear).map(|(front, rear)| [front, rear]);
        let stood = [[before.front, before.rear], [after.front, after.rear]];
        return Compared { weighed: [before, after], stood, bare, tongue: no_force(), origins };
    }
    let change = reader.on_axles(&reader.parts());
    let [bare_before, bare_after] = [&job.before, &job.after].map(|w| reader.bare(w));
    let has_parts = !job.parts.is_empty();
    let reckoned = |from: Option<OnAxles>, change: Option<OnAxles>| from.zip(change.filter(|_| has_parts));
    let foretold = reckoned(bare_before, change).map(|(b, c)| add(b, c));
    let back = reckoned(bare_after, change).map(|(a, c)| less(a, c));
    let carried = case.map_or(Some(none()), |c| reader.on_axles(&reader.loads(&c.loads)));
    let finish = |bare: Option<OnAxles>, else_by: Option<OnAxles>, read: Weighed| {
        let origin = if bare.is_some() { Origin::Measured } else { Origin::Ledger };
        match bare.or(else_by).zip(carried) {
            Some((bare, carried)) => (on_axles_only(add(bare, carried), &read, case.is_none()), Some(origin)),
            // One axle alone was weighed: it stands as it was read.
            None => (read, read.front.or(read.rear).map(|_| Origin::Measured)),
        }
    };
    let stands = |read: &Weighed, reckoned: Option<OnAxles>| {
        Side::BOTH.map(|s| read.axle(s).or(reckoned.filter(|_| read.total.is_none()).map(|r| r[s as usize])))
    };
    let stood = [stands(&before, back), stands(&after, foretold)];
    let (before, of_before) = finish(bare_before, back, before);
    let (after, of_after) = finish(bare_after, foretold, after);
    let tongue = case.and_then(|c| reader.tongue(c)).unwrap_or_else(no_force);
    Compared { weighed: [before, after], stood, bare: bare_after.or(foretold), tongue, origins: [of_before, of_after] }
}

/// Axle weights alone; the corners of the reading stay when nothing was taken out or put in.
fn on_axles_only([front, rear]: OnAxles, read: &Weighed, may_be_same: bool) -> Weighed {
    if may_be_same && read.front == Some(front) && read.rear == Some(rear) {
        return *read;
    }
    let total = front + rear;
    Weighed {
        front: Some(front).filter(|m| m.si() > 0.0),
        rear: Some(rear).filter(|m| m.si() > 0.0),
        total: Some(total),
        front_share: Some(front / total).filter(|s: &Ratio| s.si().is_finite()),
        ..Weighed::default()
    }
}

/// What the ledger of parts says; `None` without parts.
pub(super) fn ledger(reader: &Reader<'_>) -> Option<Ledger> {
    let job = reader.job;
    let wheelbase: Length = reader.typed(&job.vehicle.wheelbase).filter(|_| !job.parts.is_empty())?;
    let parts = reader.parts();
    let change = ledger::axle_change(&parts, wheelbase);
    let u = uncertainty(reader, wheelbase);
    let foretell = |from: OnAxles, u_from: [f64; 2], sign: f64| {
        Side::BOTH.map(|side| {
            let i = side as usize;
            Measured { value: from[i].si() + sign * change[i].si(), u: u_from[i].hypot(u[i]) }
        })
    };
    let scales = [&job.before, &job.after].map(|w| reader.bare(w).map(|bare| (bare, scale_u(reader, w))));
    let foretold = scales[0].map(|(bare, u)| foretell(bare, u, 1.0));
    let reconstructed = scales[1].map(|(bare, u)| foretell(bare, u, -1.0));
    let residual = scales[0].zip(scales[1]).map(|((before, u_before), (after, u_after))| {
        let left = Side::BOTH.map(|side| {
            let i = side as usize;
            let value = (after[i] - before[i] - change[i]).si();
            Measured { value, u: (u_before[i].powi(2) + u_after[i].powi(2) + u[i].powi(2)).sqrt() }
        });
        (left, ledger::where_missing(left.map(|m| Mass::from_si(m.value)), wheelbase))
    });
    let kept = [&job.predicted.front, &job.predicted.rear].map(|e| reader.measured(e));
    let kept = kept[0].zip(kept[1]).map(|(front, rear)| [front, rear]);
    Some(Ledger {
        change: Side::BOTH.map(|s| Measured { value: change[s as usize].si(), u: u[s as usize] }),
        rows: parts.len(),
        foretold,
        kept,
        reconstructed,
        residual: residual.map(|r| r.0),
        missing: residual.and_then(|r| r.1),
    })
}

/// First-order ± of what the parts weigh on each axle, kg. Source `GUM`, 5.1.2.
fn uncertainty(reader: &Reader<'_>, wheelbase: Length) -> [f64; 2] {
    let mut variance = [0.0, 0.0];
    for part in &reader.job.parts {
        let (Some(mass), Some(x)) = (reader.measured(&part.mass), reader.measured(&part.x)) else { continue };
        let share = match part.on {
            PartOn::Body => x.value / wheelbase.si(),
            PartOn::FrontAxle => 0.0,
            PartOn::RearAxle => 1.0,
        };
        let by_place = if part.on == PartOn::Body { mass.value * x.u / wheelbase.si() } else { 0.0 };
        for (v, share) in variance.iter_mut().zip([1.0 - share, share]) {
            *v += (mass.u * share).powi(2) + by_place.powi(2);
        }
    }
    variance.map(f64::sqrt)
}

/// ± of the axle readings of one weigh-in, kg.
fn scale_u(reader: &Reader<'_>, w: &Weighing) -> [f64; 2] {
    // The mean of n readings is √n better known than one.
    let better = (1.0 + w.repeats.len() as f64).sqrt();
    let pair = |l: &Entry<Mass>, r: &Entry<Mass>, axle: &Entry<Mass>| match (reader.measured(l), reader.measured(r)) {
        (Some(l), Some(r)) => l.u.hypot(r.u) / better,
        _ => reader.measured(axle).map_or(0.0, |m| m.u),
    };
    [pair(&w.lf, &w.rf, &w.front), pair(&w.lr, &w.rr, &w.rear)]
}
