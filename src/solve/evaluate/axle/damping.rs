//! The damper an axle needs, what the old one gives, and a candidate.

use crate::base::units::{DamperSpeed, DampingRate, Force, Length, Pressure, Quantity, Ratio, Velocity};
use crate::job::Goal;
use crate::job::read::{Axle, Read};
use crate::solve::answer::{
    Band, DamperTargets, Damping, ForceAtSpeed, OfferedDamper, OldDamper, OldDamperBy, Standing,
};
use crate::solve::evaluate::axle::known::Known;
use crate::solve::read::Reading;
use crate::trade::damper::{
    self, BumpRebound, Click, Clicks, Curve, CurveError, ForcePoint, TEST_SPEEDS_M_PER_S, TwoSlope,
};
use crate::trade::ride;

/// The curve of the old damper: `None` without rows or with one that cannot be read.
pub(in crate::solve) fn old_curve(reading: &Reading<'_>, axle: &Axle) -> Option<Result<Curve, CurveError>> {
    let rows = axle.damper.rows.iter().filter(|r| !r.is_blank());
    let points: Option<Vec<ForcePoint>> = rows.map(|r| point(reading, &r.speed, &r.bump, &r.rebound)).collect();
    Some(Curve::through(&points.filter(|p| !p.is_empty())?))
}

/// A click, if it is named, and its curve.
pub(in crate::solve) type ClickCurve = (Option<f64>, Result<Curve, CurveError>);

/// The candidate damper's curves, each with its click.
pub(in crate::solve) fn offered_curves(reading: &Reading<'_>, axle: &Axle) -> Option<Vec<ClickCurve>> {
    let mut clicks: Vec<(Option<f64>, Vec<ForcePoint>)> = Vec::new();
    for row in axle.new_damper.rows.iter().filter(|r| !r.is_blank()) {
        let click = if row.click.is_blank() { None } else { Some(reading.typed(&row.click)?.si()) };
        let point = point(reading, &row.speed, &row.bump, &row.rebound)?;
        match clicks.iter_mut().find(|(c, _)| *c == click) {
            Some((_, points)) => points.push(point),
            None => clicks.push((click, vec![point])),
        }
    }
    (!clicks.is_empty()).then(|| clicks.into_iter().map(|(c, points)| (c, Curve::through(&points))).collect())
}

/// One row; a force that is blank is not known, one that cannot be read spoils the row.
fn point(
    reading: &Reading<'_>,
    speed: &Read<DamperSpeed>,
    bump: &Read<Force>,
    rebound: &Read<Force>,
) -> Option<ForcePoint> {
    let force = |entry: &Read<Force>| match (reading.typed(entry), entry.is_blank()) {
        (None, false) => None,
        (force, _) => Some(force),
    };
    let (bump, rebound) = (force(bump)?, force(rebound)?);
    (bump.is_some() || rebound.is_some()).then_some(())?;
    Some(ForcePoint { speed: reading.typed(speed)?.into(), bump, rebound })
}

impl Known<'_> {
    fn peak_speed(&self) -> Option<Velocity> {
        self.reading.known(&self.axle.target.peak_speed).map(Velocity::from)
    }

    /// The old damper: its curve, its rates, or its damping ratio before the change. Rows count as soon as there are
    /// any: what is wrong with them is a finding, and the damper is then not known.
    pub fn old_damper(&self, before: Option<&Standing>) -> Option<OldDamper> {
        let damper = &self.axle.damper;
        let of_rates = |by, rates: BumpRebound, curve| {
            self.damper_length.as_ref()?;
            Some(OldDamper { by, at_damper: rates.mean(), rates: Some(rates), curve, is_assumed: false })
        };
        if damper.rows.iter().any(|r| !r.is_blank()) {
            let curve = old_curve(self.reading, self.axle)?.ok()?;
            return of_rates(OldDamperBy::Curve, curve.equal_work(self.peak_speed()?), Some(curve));
        }
        let bump = self.reading.typed(&damper.bump_rate);
        let rebound = self.reading.typed(&damper.rebound_rate);
        if let (Some(bump), Some(rebound)) = (bump, rebound) {
            let rates = BumpRebound { bump, rebound };
            return of_rates(OldDamperBy::Rates, rates, Some(Curve::straight(rates)));
        }
        let before = before?;
        let ratio = self.reading.known(&damper.ratio_before)?;
        let at_wheel = damper::rate_for(ratio, before.wheel_rate, before.sprung);
        let damper_ratio = before.curve.damper_length.ratio(before.travel);
        let at_damper = Some(damper::damper_from_wheel(at_wheel, damper_ratio)).filter(|c| c.si().is_finite())?;
        let is_assumed = damper.ratio_before.is_blank();
        Some(OldDamper { by: OldDamperBy::RatioBefore(ratio), at_damper, rates: None, curve: None, is_assumed })
    }

    /// What the axle asks of its dampers, and the damper to buy for it.
    pub fn damping(
        &self,
        new: &Standing,
        before: Option<&Standing>,
        old: Option<&OldDamper>,
    ) -> Option<(Damping, DamperTargets)> {
        let damper_ratio = self.damper_length.as_ref()?.ratio(new.travel);
        let target = &self.axle.target;
        let rebound_over_bump = self.reading.known(&target.rebound_over_bump)?;
        let peak_speed = self.peak_speed()?;
        let ratio = self.wanted_damping(before, old)?;
        let at_wheel = ratio.map(|z| damper::rate_for(z, new.wheel_rate, new.sprung));
        let at_damper = at_wheel.map(|c| damper::damper_from_wheel(c, damper_ratio));
        let hot_loss = self.reading.known(&target.hot_loss).filter(|loss| loss.si() < 1.0);
        let gas_force = Some(self.gas_force).filter(|f| f.si() > 0.0);
        let critical = |s: &Standing| {
            let at_wheel = damper::rate_for(Ratio::from_si(1.0), s.wheel_rate, s.sprung);
            damper::damper_from_wheel(at_wheel, s.curve.damper_length.ratio(s.travel))
        };
        let old_at_wheel = old.map(|o| o.at_wheel(&new.curve, new.travel));
        let damping = Damping {
            ratio,
            at_wheel,
            peak_speed,
            hot_loss,
            hot_share: hot_loss.map(|loss| Ratio::from_si(1.0 - loss.si())),
            old_at_wheel,
            scale: before.map(|b| critical(new) / critical(b)),
            hop_frequency: self
                .tyre_rate
                .zip(self.masses.unsprung.after.filter(|u| u.si() > 0.0))
                .map(|(tyre, unsprung)| ride::hop_frequency(new.wheel_rate, tyre, unsprung)),
            hop_ratio: self.hop_ratio(at_wheel.aim, new),
            old_hop_ratio: old_at_wheel.and_then(|c| self.hop_ratio(c, new)),
            least_room: self.reading.known(&self.reading.job.limits.damper_room),
            gas: gas_force.and_then(|_| self.gas()),
            gas_force,
            gas_lift: gas_force.map(|f| damper::gas_lift(f, damper_ratio, new.wheel_rate)),
        };
        Some((damping, self.damper_targets(at_damper, rebound_over_bump, peak_speed)))
    }

    /// Gauge pressure of the gas, and the diameter of the rod that it presses on.
    fn gas(&self) -> Option<(Pressure, Length)> {
        let damper = &self.axle.damper;
        Some((self.reading.known(&damper.gas_pressure)?, self.reading.known(&damper.rod_diameter)?))
    }

    /// The wanted damping ratio. As before: that of the old damper before the change, if it is known.
    fn wanted_damping(&self, before: Option<&Standing>, old: Option<&OldDamper>) -> Option<Band<Ratio>> {
        let (reading, target) = (self.reading, &self.axle.target);
        match target.damping_goal {
            Goal::Range => {
                let low = reading.known(&target.damping_low)?;
                let high = reading.known(&target.damping_high)?;
                Band::of(low, high, (low + high) / 2.0)
            }
            Goal::AsBefore => {
                let aim = before?.old_damper_ratio.filter(|_| old.is_some_and(|old| !old.is_assumed))?;
                let margin: Ratio = reading.known(&target.damping_margin)?;
                Band::of(aim * (1.0 - margin.si()), aim * (1.0 + margin.si()), aim)
            }
        }
    }

    /// Rates and forces to ask of a damper of these mean rates.
    fn damper_targets(
        &self,
        at_damper: Band<DampingRate>,
        rebound_over_bump: Ratio,
        peak_speed: Velocity,
    ) -> DamperTargets {
        let target = &self.axle.target;
        let pairs = at_damper.map(|c| BumpRebound::split(c, rebound_over_bump));
        let knee = self.reading.known(&target.knee_speed).zip(self.reading.known(&target.upper_share));
        let two_slope = knee.map(|(knee, share)| {
            at_damper.map(|c| TwoSlope::of_equal_work(c, rebound_over_bump, knee.into(), share, peak_speed))
        });
        DamperTargets {
            at_damper,
            rebound_over_bump,
            split: pairs,
            peak_speed,
            forces: at_test_speeds(|speed| pairs.map(|p| p.forces(speed))),
            two_slope,
            two_slope_forces: two_slope.map(|two| at_test_speeds(|speed| two.map(|t| t.forces(speed)))),
        }
    }

    /// Length of a damper at a wheel travel; `None` where only changes of it are known.
    pub fn damper_at(&self, travel: Length) -> Option<Length> {
        self.damper_length.as_ref().filter(|_| self.damper_lengths_known).map(|curve| curve.length(travel))
    }

    fn hop_ratio(&self, at_wheel: DampingRate, new: &Standing) -> Option<Ratio> {
        let unsprung = self.masses.unsprung.after.filter(|u| u.si() > 0.0)?;
        Some(damper::hop_ratio(at_wheel, new.wheel_rate, self.tyre_rate?, unsprung))
    }

    fn offered_clicks(&self) -> Option<Clicks> {
        let curves = offered_curves(self.reading, self.axle)?.into_iter();
        let clicks: Option<Vec<Click>> =
            curves.map(|(number, curve)| Some(Click { number, curve: curve.ok()? })).collect();
        Clicks::new(clicks?)
    }

    /// The candidate damper, if all of its curves can be used.
    pub fn offered_damper(&self, needed: &Damping, new: &Standing) -> Option<OfferedDamper> {
        let clicks = self.offered_clicks()?;
        let damper_length = self.damper_length.as_ref()?;
        let damper_ratio = damper_length.ratio(new.travel);
        let critical = damper::rate_for(Ratio::from_si(1.0), new.wheel_rate, new.sprung);
        let ratios = clicks.ratios(needed.peak_speed, damper::damper_from_wheel(critical, damper_ratio));
        let fit = Clicks::fit(&ratios, needed.ratio.low, needed.ratio.aim, needed.ratio.high)?;
        let rates = clicks.all()[fit.best].curve.equal_work(needed.peak_speed);
        let at_metal = self.travel.metal.and_then(|z| self.damper_at(z));
        let at_droop = self.travel.droop.and_then(|d| self.damper_at(-d));
        let typed = |entry: &Read<Length>| self.reading.typed(entry);
        let offered = &self.axle.new_damper;
        let at_wheel = damper::wheel_from_damper(rates.mean(), damper_ratio);
        let closed = at_metal.zip(typed(&offered.closed_length));
        let open = typed(&offered.open_length).zip(at_droop);
        Some(OfferedDamper {
            at_wheel,
            damps: (new.wheel_rate, new.sprung),
            hops: self.tyre_rate.zip(self.masses.unsprung.after),
            hop_ratio: self.hop_ratio(at_wheel, new),
            closed,
            to_closed: closed.map(|(length, closed)| length - closed),
            open,
            to_open: open.map(|(open, length)| open - length),
            clicks,
            ratios,
            fit,
            rates,
        })
    }
}

fn at_test_speeds(forces: impl Fn(Velocity) -> Band<(Force, Force)>) -> [ForceAtSpeed; 5] {
    TEST_SPEEDS_M_PER_S.map(|speed| {
        let speed = Velocity::from_si(speed);
        let both = forces(speed);
        ForceAtSpeed { speed, bump: both.map(|f| f.0), rebound: both.map(|f| f.1) }
    })
}
