//! From scale readings to the weights that are compared: what was aboard taken out, a load case put in, a missing
//! weigh-in calculated from the parts ledger.

use crate::base::units::{Force, Length, Mass, Origin, Quantity, Ratio, weight};
use crate::job::read::{Load, LoadCase, Part, Read, Weighing};
use crate::job::{PartOn, PerAxle, Way};
use crate::solve::answer::{BeforeAfter, Compared, Ledger, Measured, Told, Weighed};
use crate::solve::read::{Reading, corners, readings, scatter};
use crate::trade::ledger::{self, On};
use crate::trade::weights::{self, Corners};

/// What one row weighs on the two axles.
type OnAxles = PerAxle<Mass>;

const NOTHING: f64 = 0.0;
/// Standard uncertainty of a part's place across the vehicle when none is typed, m. Common practice, no source.
const UNSAID_M: f64 = 0.15;

fn add(a: OnAxles, b: OnAxles) -> OnAxles {
    PerAxle::each(|side| a[side] + b[side])
}

fn less(a: OnAxles, b: OnAxles) -> OnAxles {
    PerAxle::each(|side| a[side] - b[side])
}

/// A row of the ledger, with the standard uncertainties of its mass and place.
#[derive(Clone, Copy)]
pub(in crate::solve) struct Placed {
    pub part: ledger::Part,
    u: ledger::Part,
}

impl Placed {
    /// What its ± is worth, one input after the other: `f` is what rows weigh, and goes with mass and with each place.
    pub fn variance<const N: usize>(&self, f: impl Fn(&[ledger::Part]) -> Option<[Mass; N]>) -> Option<[f64; N]> {
        let (part, u) = (self.part, self.u);
        let at = f(&[part])?;
        let heavier = f(&[ledger::Part { mass: u.mass, ..part }])?;
        let behind = f(&[ledger::Part { x: part.x + u.x, ..part }])?;
        let right = f(&[ledger::Part { y: part.y + u.y, ..part }])?;
        let squares =
            |i: usize| heavier[i].si().powi(2) + (behind[i] - at[i]).si().powi(2) + (right[i] - at[i]).si().powi(2);
        Some(std::array::from_fn(squares))
    }
}

/// Σ of the variances of all rows. Source `GUM`, 5.1.2: rows are independent.
pub(in crate::solve) fn variance_of<const N: usize>(
    rows: &[Placed],
    f: impl Fn(&[ledger::Part]) -> Option<[Mass; N]>,
) -> Option<[f64; N]> {
    rows.iter().try_fold([NOTHING; N], |sum, row| {
        let one = row.variance(&f)?;
        Some(std::array::from_fn(|i| sum[i] + one[i]))
    })
}

/// The rows alone.
pub(in crate::solve) fn parts_of(rows: &[Placed]) -> Vec<ledger::Part> {
    rows.iter().map(|r| r.part).collect()
}

impl Reading<'_> {
    /// Loads of a list as rows of the ledger; those without mass or place are not known, and a finding says so.
    pub fn loads(&self, loads: &[Load]) -> Vec<Placed> {
        loads.iter().filter_map(|l| self.placed(&l.mass, &l.x, &l.y, On::Body, 1.0)).collect()
    }

    /// The parts that come out and go in.
    pub fn parts(&self) -> Vec<Placed> {
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

    fn placed(&self, mass: &Read<Mass>, x: &Read<Length>, y: &Read<Length>, on: On, sign: f64) -> Option<Placed> {
        let of = |at: Measured| (Length::from_si(at.value), Length::from_si(at.u));
        let none = Length::from_si(NOTHING);
        let heavy = self.typed_with_u(mass)?;
        // An unsprung part sits on its axle's line, whatever is typed for x.
        let (x, u_x) = match on {
            On::Axle(0) => (none, none),
            On::Axle(_) => (self.typed(&self.job.vehicle.wheelbase)?, none),
            On::Body => of(self.typed_with_u(x)?),
        };
        // In the middle unless said: only the corners ask for it.
        let (y, u_y) = self.typed_with_u(y).map_or((none, Length::from_si(UNSAID_M)), of);
        let part = ledger::Part { mass: Mass::from_si(heavy.value * sign), x, y, on };
        Some(Placed { part, u: ledger::Part { mass: Mass::from_si(heavy.u), x: u_x, y: u_y, on } })
    }

    /// What rows weigh on the axles. `None` when there are rows, but no wheelbase.
    pub fn on_axles(&self, rows: &[Placed]) -> Option<OnAxles> {
        if rows.is_empty() {
            return Some(PerAxle::default());
        }
        Some(ledger::axle_change(&parts_of(rows), self.typed(&self.job.vehicle.wheelbase)?).into())
    }

    /// What loads weigh on the axles, as [`Reading::on_axles`] of [`Reading::loads`] without their ±.
    pub fn loads_on_axles(&self, loads: &[Load]) -> Option<OnAxles> {
        let part = |l: &Load| {
            let (mass, x) = (self.typed(&l.mass)?, self.typed(&l.x)?);
            // Whatever is typed for y is asked for: corners rest on it.
            let y = self.typed(&l.y).unwrap_or(Length::from_si(NOTHING));
            Some(ledger::Part { mass, x, y, on: On::Body })
        };
        let mut known = loads.iter().filter_map(part).peekable();
        if known.peek().is_none() {
            return Some(PerAxle::default());
        }
        let wheelbase = self.typed(&self.job.vehicle.wheelbase)?;
        Some(known.fold(PerAxle::default(), |sum, part| add(sum, ledger::axle_change(&[part], wheelbase).into())))
    }

    /// The load case on which springs and dampers are sized; the first one that says so.
    pub fn sized_case(&self) -> Option<&LoadCase> {
        self.job.cases.get(self.sized_at()?)
    }

    /// Which of the job's cases that is.
    pub fn sized_at(&self) -> Option<usize> {
        self.job.cases.iter().position(|c| c.sized)
    }

    /// What the load on the hitch presses on the axles.
    pub fn tongue(&self, case: &LoadCase) -> Option<PerAxle<Force>> {
        let Some(mass): Option<Mass> = self.typed(&case.tongue) else { return Some(PerAxle::default()) };
        let wheelbase = self.typed(&self.job.vehicle.wheelbase)?;
        let hitch: Length = self.typed(&self.job.vehicle.hitch)?;
        Some(ledger::tongue(weight(mass), hitch, wheelbase).into())
    }

    /// One weigh-in, as read, without what was aboard.
    fn bare(&self, weighing: &Weighing, read: &Weighed) -> Option<OnAxles> {
        Some(less(PerAxle { front: read.front?, rear: read.rear? }, self.loads_on_axles(&weighing.loads)?))
    }
}

/// What one weigh-in says: corners if all four are there, else the axles alone.
pub(in crate::solve) fn weighed(reading: &Reading<'_>, weighing: &Weighing) -> Weighed {
    let read = |entry: &Read<Mass>| reading.typed(entry);
    // The mean of all readings of a corner.
    let [lf, rf, lr, rr] = corners(weighing).map(|corner| {
        let all = readings(reading, weighing, corner);
        let (sum, count) = all.fold((Mass::from_si(0.0), 0.0), |(sum, n), m| (sum + m, n + 1.0));
        (count > 0.0).then(|| sum / count)
    });
    let pair = |l: Option<Mass>, r: Option<Mass>| Some(l? + r?);
    let corners = lf.zip(rf).zip(lr.zip(rr)).map(|((lf, rf), (lr, rr))| Corners { lf, rf, lr, rr });
    let front = pair(lf, rf).or_else(|| read(&weighing.front));
    let rear = pair(lr, rr).or_else(|| read(&weighing.rear));
    let total = pair(front, rear);
    let spread = |l: Option<Mass>, r: Option<Mass>| Some(weights::left_right_difference(l?, r?));
    Weighed {
        corners,
        front,
        rear,
        total,
        front_share: front.zip(total).map(|(f, t)| -> Ratio { f / t }),
        left_share: corners.as_ref().map(weights::left_share),
        cross_weight: corners.as_ref().map(weights::cross_weight),
        left_right: PerAxle { front: spread(lf, rf), rear: spread(lr, rr) },
    }
}

/// The weights before and after that are compared, at equal load.
pub(in crate::solve) fn compared(reading: &Reading<'_>) -> Compared {
    let job = &reading.job;
    let (before, after) = (weighed(reading, &job.before), weighed(reading, &job.after));
    let case = reading.sized_case();
    let plain = case.is_none() && job.before.loads.is_empty() && job.after.loads.is_empty() && job.parts.is_empty();
    if plain {
        let origin = |w: &Weighed| w.front.or(w.rear).map(|_| Origin::Measured);
        let weighed = BeforeAfter { before, after };
        let origins = weighed.map(|w| origin(&w));
        let stood = weighed.map(|w| PerAxle { front: w.front, rear: w.rear });
        return Compared {
            weighed,
            of: BeforeAfter::default(),
            stood,
            bare: stood.after.known(),
            tongue: PerAxle::default(),
            origins,
        };
    }
    let change = reading.on_axles(&reading.parts());
    let [bare_before, bare_after] =
        [(&job.before, &before), (&job.after, &after)].map(|(w, read)| reading.bare(w, read));
    let has_parts = !job.parts.is_empty();
    let reckoned = |from: Option<OnAxles>, change: Option<OnAxles>| from.zip(change.filter(|_| has_parts));
    let foretold = reckoned(bare_before, change).map(|(b, c)| add(b, c));
    let back = reckoned(bare_after, change).map(|(a, c)| less(a, c));
    let carried = case.map_or(Some(PerAxle::default()), |c| reading.loads_on_axles(&c.loads));
    let finish = |bare: Option<OnAxles>, else_by: Option<OnAxles>, read: Weighed| {
        let origin = if bare.is_some() { Origin::Measured } else { Origin::Ledger };
        let of = bare.or(else_by).zip(carried);
        match of {
            Some((bare, carried)) => (on_axles_only(add(bare, carried), &read, case.is_none()), Some(origin), of),
            // One axle alone was weighed: it stands as it was read.
            None => (read, read.front.or(read.rear).map(|_| Origin::Measured), None),
        }
    };
    let stands = |read: &Weighed, reckoned: Option<OnAxles>| {
        PerAxle::each(|side| read.axle(side).or(reckoned.filter(|_| read.total.is_none()).map(|r| r[side])))
    };
    let stood = BeforeAfter { before: stands(&before, back), after: stands(&after, foretold) };
    let (before, origin_before, of_before) = finish(bare_before, back, before);
    let (after, origin_after, of_after) = finish(bare_after, foretold, after);
    let tongue = case.and_then(|c| reading.tongue(c)).unwrap_or_default();
    let origins = BeforeAfter { before: origin_before, after: origin_after };
    let of = BeforeAfter { before: of_before, after: of_after };
    Compared { weighed: BeforeAfter { before, after }, of, stood, bare: bare_after.or(foretold), tongue, origins }
}

/// Axle weights alone; the corners of the reading stay when nothing was taken out or put in.
fn on_axles_only(PerAxle { front, rear }: OnAxles, read: &Weighed, may_be_same: bool) -> Weighed {
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
pub(in crate::solve) fn ledger(reading: &Reading<'_>) -> Option<Ledger> {
    let job = &reading.job;
    let wheelbase: Length = reading.typed(&job.vehicle.wheelbase).filter(|_| !job.parts.is_empty())?;
    let on_axles = |parts: &[ledger::Part]| Some(ledger::axle_change(parts, wheelbase));
    let rows = reading.parts();
    let change = pair(ledger::axle_change(&parts_of(&rows), wheelbase), variance_of(&rows, on_axles)?);
    let scales = [&job.before, &job.after].map(|w| {
        let (bare, aboard) = (reading.bare(w, &weighed(reading, w))?, variance_of(&reading.loads(&w.loads), on_axles)?);
        let read = axle_u(reading, w);
        Some(pair(bare.both(), [0, 1].map(|i| read[i].powi(2) + aboard[i])))
    });
    let found = against_scales(change, scales);
    let kept = [&job.predicted.front, &job.predicted.rear].map(|e| reading.measured(e));
    Some(Ledger {
        rows: rows.len(),
        missing: found.residual.and_then(|r| ledger::where_missing(r.map(|m| Mass::from_si(m.value)), wheelbase)),
        axles: Told { kept: kept[0].zip(kept[1]).map(|(front, rear)| [front, rear]), ..found },
    })
}

/// Values with their variances.
pub(in crate::solve) fn pair<const N: usize>(values: [Mass; N], variance: [f64; N]) -> [Measured; N] {
    std::array::from_fn(|i| Measured { value: values[i].si(), u: variance[i].sqrt() })
}

/// Before + change, after − change, and what the scales say beyond it; nothing was kept.
pub(in crate::solve) fn against_scales<const N: usize>(
    change: [Measured; N],
    scales: [Option<[Measured; N]>; 2],
) -> Told<N> {
    let [before, after] = scales;
    let sum = |a: [Measured; N], b: [Measured; N], sign: f64| -> [Measured; N] {
        std::array::from_fn(|i| Measured { value: a[i].value + sign * b[i].value, u: a[i].u.hypot(b[i].u) })
    };
    let foretold = before.map(|before| sum(before, change, 1.0));
    Told {
        weighed: BeforeAfter { before, after },
        change,
        foretold,
        kept: None,
        reconstructed: after.map(|after| sum(after, change, -1.0)),
        residual: after.zip(foretold).map(|(after, foretold)| sum(after, foretold, -1.0)),
    }
}

/// Standard uncertainty of the corners of a weigh-in, kg; `None` where nothing was read.
///
/// A mean of n readings is √n better known than one; one is known as the first says, or as far as they scatter.
pub(in crate::solve) fn corner_u(reading: &Reading<'_>, w: &Weighing) -> [Option<f64>; 4] {
    let (scatter, corners) = (scatter(reading, w), corners(w));
    std::array::from_fn(|i| {
        let (first, again) = corners[i];
        let all = std::iter::once(first).chain(w.repeats.iter().map(again));
        let mut read = all.filter_map(|e| reading.typed_with_u(e));
        let first_u = read.next()?.u.max(scatter[i].unwrap_or(0.0));
        Some(first_u / (1.0 + read.count() as f64).sqrt())
    })
}

/// Standard uncertainty of the axle readings of one weigh-in, kg.
pub(in crate::solve) fn axle_u(reading: &Reading<'_>, w: &Weighing) -> [f64; 2] {
    let [lf, rf, lr, rr] = corner_u(reading, w);
    let both = |l: Option<f64>, r: Option<f64>, axle: &Read<Mass>| match l.zip(r) {
        Some((l, r)) => l.hypot(r),
        None => reading.measured(axle).map_or(0.0, |m| m.u),
    };
    [both(lf, rf, &w.front), both(lr, rr, &w.rear)]
}
