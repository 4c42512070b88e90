//! Independent ways to the wheel rate: each by itself, from what was measured for it.

use crate::base::math::roots;
use crate::base::units::{Force, Frequency, Length, Mass, Quantity, Ratio, SpringRate, weight};
use crate::job::SpringKind;
use crate::solve::answer::{OldSpring, RouteKind};
use crate::solve::evaluate::axle::known::Known;
use crate::trade::recording::BodyMode;
use crate::trade::ride;
use crate::trade::spring::Spring;
use crate::trade::wheel::ForceTravel;

/// One value for each route.
pub(in crate::solve) type ByRoute<T> = [Option<T>; RouteKind::ALL.len()];

/// A height read twice is off by friction twice, either way.
const TWO_READINGS: f64 = std::f64::consts::SQRT_2;

/// One corner at the reference height, apart from its spring's rate.
pub(in crate::solve) struct AtReference<'k, 'a> {
    known: &'k Known<'a>,
    sprung: Mass,
    /// Along the spring.
    pub force: Force,
    ratio: f64,
    geometry: f64,
    others: f64,
}

impl<'k, 'a> AtReference<'k, 'a> {
    /// `None` without the weight at the reference height.
    pub fn of(known: &'k Known<'a>) -> Option<Self> {
        let reference = Length::from_si(0.0);
        let template = known.template(reference);
        let sprung = known.sprung_at_reference()?;
        let force = template.spring_force_for(weight(sprung), reference);
        let ratio = known.spring_length.ratio(reference).si();
        let geometry = force.si() * known.spring_length.slope(reference).value;
        let others = template.other_rate_n_per_m(0.0);
        Some(AtReference { known, sprung, force, ratio, geometry, others })
    }

    /// The wheel rate for a slope of the spring's own force: k_w = k_s r² + F_s r′ + k_rest, N/m. Source `DERIVED`.
    fn at_wheel(&self, slope: f64) -> SpringRate {
        SpringRate::from_si(slope * self.ratio * self.ratio + self.geometry + self.others)
    }

    /// The wheel rate with a spring of this rate, of a stack the main coil's; `None` for a stack whose helper is not
    /// known.
    fn with_rate(&self, rate: f64) -> Option<SpringRate> {
        let slope = match self.open_helper()? {
            Some(helper) => rate * helper / (rate + helper),
            None => rate,
        };
        Some(self.at_wheel(slope))
    }

    /// The rate of the spring, of a stack the main coil's, that gives this wheel rate, N/m; `None` when none does.
    pub fn along(&self, wheel_rate: SpringRate) -> Option<f64> {
        let slope = (wheel_rate.si() - self.geometry - self.others) / (self.ratio * self.ratio);
        let rate = match self.open_helper()? {
            Some(helper) => 1.0 / (1.0 / slope - 1.0 / helper),
            None => slope,
        };
        (rate.is_finite() && rate > 0.0 && slope > 0.0).then_some(rate)
    }

    /// Rate of a helper that is open here; `None` inside when there is none.
    fn open_helper(&self) -> Option<Option<f64>> {
        if self.known.axle.spring.kind != SpringKind::WithHelper {
            return Some(None);
        }
        let helper = self.known.helper()?;
        Some((self.force.si() < helper.solid_force_n()).then_some(helper.rate_n_per_m))
    }

    /// The curve with a spring of the rate that gives this wheel rate, lengths apart; neither solid coils nor the stop
    /// are in it.
    fn curve(&self, wheel_rate: SpringRate) -> Option<ForceTravel> {
        let reference = Length::from_si(0.0);
        let spring = self.known.spring_of_rate(self.along(wheel_rate)?)?;
        let spring = spring.carrying(self.force, self.known.spring_length.length(reference))?;
        Some(ForceTravel { spring, stop: None, ..self.known.template(reference) })
    }

    /// A wheel rate from a secant that was measured: its rate at the reference height by the curve of the very rate that
    /// is found. A straight curve needs no second step. Source `DERIVED`.
    fn by_own_curve(&self, secant: impl Fn(Option<&ForceTravel>) -> Option<SpringRate>) -> Option<SpringRate> {
        const STEPS: usize = 8;
        // Heights are solved to 1e-12 m of some centimetres.
        const SETTLED: f64 = 1e-10;
        let next = |rate: SpringRate| secant(Some(&self.curve(rate)?));
        let first = secant(None)?;
        let mut rate = first;
        for _ in 0..STEPS {
            let found = next(rate)?;
            if (found.si() / rate.si() - 1.0).abs() <= SETTLED {
                return Some(found);
            }
            rate = found;
        }
        // Where a helper opens or closes between both heights, steps swing: the rate is then found between two.
        let miss = |ln: f64| next(first * ln.exp()).map_or(f64::NAN, |k| (k / first).si().ln() - ln);
        let strips = (0..12).flat_map(|i| [0.25 * f64::from(i), -0.25 * f64::from(i + 1)]);
        strips.filter_map(|low| roots::between(low, low + 0.25, SETTLED, miss)).map(|ln| first * ln.exp()).next()
    }
}

/// A spring that one number of rate describes.
pub(in crate::solve) fn is_one_number(kind: SpringKind) -> bool {
    matches!(kind, SpringKind::Coil | SpringKind::WithHelper | SpringKind::Leaf)
}

impl Known<'_> {
    /// What friction holds as a share of the load, as moved now; 0 as it is.
    pub fn friction(&self) -> f64 {
        self.decided.old_rate.friction.map_or(0.0, |i| self.reading.error(i))
    }

    /// The old spring's rate by every route, N/m along it: of a stack the main coil's.
    pub fn rates_along(&self, facts: &OldSpring) -> ByRoute<f64> {
        let Some(at) = AtReference::of(self) else { return [None; RouteKind::ALL.len()] };
        rates(self, facts, None).map(|wheel| at.along(wheel?))
    }

    /// The rate that counts, N/m along the spring; of a stack the main coil's.
    pub fn counted_rate(&self, facts: &OldSpring) -> Option<f64> {
        let decided = &self.decided.old_rate;
        let own = self.own_rate(facts);
        let Some(by_routes) = decided.by_routes.filter(|b| b.counts) else { return own };
        let rates = self.rates_along(facts);
        let mut fused = decided.disagreement.map_or(0.0, |i| self.reading.error(i));
        for (rate, weight) in rates.iter().zip(by_routes.weights).filter(|(_, w)| *w > 0.0) {
            fused += (*rate)? * weight;
        }
        (fused > 0.0).then_some(fused)
    }
}

/// The wheel rate at the reference height by every route that the data allow. `old` is the curve of a spring whose
/// shape was measured; where only a rate is needed, every route bends by its own.
pub(in crate::solve) fn rates(
    known: &Known<'_>,
    facts: &OldSpring,
    old: Option<(&Spring, &ForceTravel)>,
) -> ByRoute<SpringRate> {
    let mut found = [None; RouteKind::ALL.len()];
    let Some(at) = AtReference::of(known) else { return found };
    let mut put = |kind: RouteKind, rate: Option<SpringRate>| {
        found[kind as usize] = rate.filter(|k| k.si().is_finite() && k.si() > 0.0);
    };
    if matches!(known.axle.spring.kind, SpringKind::Coil | SpringKind::WithHelper) {
        put(RouteKind::Stated, facts.stated.and_then(|m| at.with_rate(m.value)));
        put(RouteKind::Wire, facts.by_wire.and_then(|m| at.with_rate(m.value)));
        put(RouteKind::Press, facts.by_press.and_then(|m| at.with_rate(m.value)));
        put(RouteKind::Closure, closure(&at).and_then(|k| at.with_rate(k)));
    } else if is_one_number(known.axle.spring.kind) {
        put(RouteKind::Spring, facts.leaf_rate.map(|k| at.at_wheel(k.si())));
    } else {
        let reference = Length::from_si(0.0);
        let slope =
            |(_, curve): (_, &ForceTravel)| curve.spring.rate_n_per_m(curve.spring_length.length(reference).si());
        put(RouteKind::Spring, old.map(|old| at.at_wheel(slope(old))));
        put(RouteKind::Closure, old.and_then(|(itself, _)| closure_of_points(&at, itself)).map(|k| at.at_wheel(k)));
    }
    let bent = |secant: &dyn Fn(Option<&ForceTravel>) -> Option<SpringRate>| match old {
        Some((_, curve)) => secant(Some(curve)),
        None if is_one_number(known.axle.spring.kind) => at.by_own_curve(secant),
        None => secant(None),
    };
    put(RouteKind::Swap, bent(&|curve| swap(known, curve)));
    put(RouteKind::Ballast, bent(&|curve| ballast(known, curve, at.sprung)));
    put(RouteKind::Bounce, bounce(known, at.sprung));
    put(RouteKind::Recorded, bent(&|curve| recorded(known, curve)));
    found
}

/// The rate with which a coil carries the load at its fitted length: F / (L0 − L), N/m; of a stack the main coil's, what
/// the helper takes of the length left out. Friction carries a share of the load. Source `DERIVED`.
fn closure(at: &AtReference<'_, '_>) -> Option<f64> {
    let (reading, data) = (at.known.reading, &at.known.axle.spring);
    let (free, fitted): (Length, Length) = (reading.typed(&data.free_length)?, reading.typed(&data.fitted_length)?);
    let force_n = at.force.si() * (1.0 + at.known.friction());
    let helper_m = match data.kind {
        SpringKind::WithHelper => {
            let helper = at.known.helper()?;
            (helper.free_length_m - force_n / helper.rate_n_per_m).max(helper.solid_length_m?)
        }
        _ => 0.0,
    };
    let compressed_m = free.si() - (fitted.si() - helper_m);
    (compressed_m > 0.0 && force_n > 0.0).then(|| force_n / compressed_m)
}

/// The same of a spring that was pressed: its slope in the proportion of the load to what it shows at that length.
fn closure_of_points(at: &AtReference<'_, '_>, itself: &Spring) -> Option<f64> {
    let data = &at.known.axle.spring;
    let fitted: Length = at.known.reading.typed(&data.fitted_length)?;
    let (shown_n, rate) = (itself.force_n(fitted.si()), itself.rate_n_per_m(fitted.si()));
    let load_n = at.force.si() * (1.0 + at.known.friction());
    (data.kind == SpringKind::Progressive && shown_n > 0.0).then(|| rate * load_n / shown_n)
}

/// Change of weight over change of hub-to-arch height: a secant, brought to the reference height by the curve. What
/// the bump stop took is left out. N/m at the wheel at the reference height. Source `DERIVED`.
fn swap(known: &Known<'_>, curve: Option<&ForceTravel>) -> Option<SpringRate> {
    let sank = known.reading.arch_mean(known.side, true)? - known.reading.arch_mean(known.side, false)?;
    let reference = Length::from_si(0.0);
    let (was_at, is_at) = if known.reference_is_before { (reference, sank) } else { (-sank, reference) };
    let carried = |stood: Option<Mass>, travel: Length| Some(weight(stood?) - on_stop(known, travel)?);
    let loads = [carried(known.masses.stood.before, was_at)?, carried(known.masses.stood.after, is_at)?];
    secant(known, loads, sank, curve)
}

/// Ballast over the drop it made: a secant from the reference height on, brought back to it by the curve. N/m at the
/// wheel at the reference height. Source `DERIVED`.
fn ballast(known: &Known<'_>, curve: Option<&ForceTravel>, sprung: Mass) -> Option<SpringRate> {
    let checks = &known.axle.checks;
    let (mass, drop): (Mass, Length) =
        (known.reading.typed(&checks.ballast)?, known.reading.typed(&checks.ballast_drop)?);
    let with = weight(sprung) + weight(mass) / 2.0;
    let loads = [weight(sprung) - on_stop(known, Length::from_si(0.0))?, with - on_stop(known, drop)?];
    secant(known, loads, drop, curve)
}

/// Change of load over change of height, with what friction may hold, times what the curve bends.
fn secant(known: &Known<'_>, [from, to]: [Force; 2], sank: Length, curve: Option<&ForceTravel>) -> Option<SpringRate> {
    let held = (from + to) / 2.0 * (TWO_READINGS * known.friction());
    let bend = curve.and_then(|curve| bend(curve, from, to)).unwrap_or(1.0);
    Some((to - from + held) / sank * bend)
}

/// What the bump stop carries at the wheel at this travel; `None` when it is touched and its hardness is not known.
fn on_stop(known: &Known<'_>, travel: Length) -> Option<Force> {
    let Some(stop) = &known.stop else { return Some(Force::from_si(0.0)) };
    (stop.carries() || travel.si() <= stop.gap_m).then(|| Force::from_si(stop.force_n(travel.si())))
}

/// Rate at the reference height over the secant between two heights, by the shape of the curve alone: 1 for a
/// straight one, whatever its rate. Neither solid coils nor the stop count. Source `DERIVED`.
fn bend(curve: &ForceTravel, from: Force, to: Force) -> Option<f64> {
    let open = ForceTravel { spring: curve.spring.clone().with_solid_length(None), stop: None, ..curve.clone() };
    let at = |load: Force| open.ride_height(load).ok().map(|e| e.travel);
    let secant = (to - from) / (at(to)? - at(from)?);
    let bend = open.rate_n_per_m(0.0) / secant.value;
    (bend.is_finite() && bend > 0.0).then_some(bend)
}

/// From the with-tyre frequency: k = m (2πf)², the tyre taken out of the series. N/m at the wheel at the reference
/// height; valid for a tyre stiffer than both together. Source `GIL` ch. 5.
fn bounce(known: &Known<'_>, sprung: Mass) -> Option<SpringRate> {
    let checks = &known.axle.checks;
    let count: Ratio = known.reading.typed(&checks.bounces)?;
    let time = known.reading.typed(&checks.bounce_time)?;
    let frequency = Frequency::from_si(count.si() / time.si());
    let (both, tyre) = (ride::rate_for(frequency, sprung).si(), known.tyre_rate?.si());
    Some(SpringRate::from_si(both * tyre / (tyre - both)))
}

/// From a bounce recorded before the change: its mode gives wheel rate and damping at once, tyre and unsprung mass in it;
/// the height before is brought to the reference height by the curve. N/m at the wheel at the reference height. Source
/// `DERIVED`.
fn recorded(known: &Known<'_>, curve: Option<&ForceTravel>) -> Option<SpringRate> {
    let read = &known.axle.bounce.before;
    let (frequency, damping) = (known.reading.typed(&read.frequency)?, known.reading.typed(&read.damping)?);
    let sprung = known.masses.stood.before?;
    let moved = sprung * (1.0 + known.decided.old_rate.coupling.map_or(0.0, |i| known.reading.error(i)));
    let mode = BodyMode { frequency, damping };
    let (rate, _) = mode.rate_and_damping(moved, known.masses.unsprung.before?, known.tyre_rate?)?;
    let bend = curve.filter(|_| !known.reference_is_before).and_then(|curve| bend_at(curve, weight(sprung)));
    Some(rate * bend.unwrap_or(1.0))
}

/// Rate at the reference height over that under another load, by the shape of the curve alone.
fn bend_at(curve: &ForceTravel, load: Force) -> Option<f64> {
    let open = ForceTravel { spring: curve.spring.clone().with_solid_length(None), stop: None, ..curve.clone() };
    let bend = open.rate_n_per_m(0.0) / open.rate_n_per_m(open.ride_height(load).ok()?.travel.si());
    (bend.is_finite() && bend > 0.0).then_some(bend)
}
