//! The spring rate for a wanted frequency, and what can be bought.

use super::answer::{AxleAnswer, Band, SameFactor, Sizing, Spacer, SpringToBuy, Standing, StockRates};
use super::axle::{OnOld, own_free_length};
use super::bars;
use super::decided::Bought;
use super::known::{Known, Readings};
use crate::job::{Goal, SpringKind};
use crate::ride;
use crate::spring::{Bar, Coil, Leaf, Spring, Stack, TorsionBar};
use crate::units::{Angle, Force, Frequency, Length, Pressure, Quantity, Ratio, SpringRate};
use crate::wheel::ForceTravel;

/// Low, aim, high if they are in order.
pub(super) fn band<Q: Quantity + PartialOrd>(low: Q, high: Q, aim: Q) -> Option<Band<Q>> {
    (low <= high).then_some(Band { low, aim, high })
}

/// What an axle asks of its spring: it needs the weight after and the motion ratio.
#[derive(Clone, Copy)]
pub(super) struct Asked {
    pub sizing: Sizing,
    /// Step between stock rates; `None` for a bar.
    step: Option<SpringRate>,
}

/// What carries beside the spring already makes more than the wanted wheel rate.
pub(super) struct NothingLeft;

/// What the axle asks; where it stood on the old spring is only needed for comparisons.
pub(super) fn asked(known: &Known<'_>, on_old: &OnOld) -> Option<Result<Asked, NothingLeft>> {
    let sprung = known.sprung_after?;
    let before = on_old.before.as_ref();
    if on_old.curve.is_some() && before.is_none() && on_old.after.is_none() {
        return None; // What was measured contradicts itself; a finding says so.
    }
    let load = known.load(sprung);
    let was = before.map(|b| (b.travel, Some(b.frequency)));
    let frequency = wanted_frequency(known, was)?;
    let wanted_travel = wanted_travel(known, was)?;
    let curve = known.final_template(wanted_travel);
    let wheel_rate = frequency.map(|f| ride::rate_for(f, sprung));
    let spring_rate = wheel_rate.map(|k| curve.spring_rate_for(k, load, wanted_travel));
    if !(spring_rate.low.si().is_finite() && spring_rate.high.si().is_finite()) {
        return None;
    }
    if spring_rate.high.si() <= 0.0 {
        return Some(Err(NothingLeft));
    }
    let spring_force = curve.spring_force_for(load, wanted_travel);
    let helper = if known.axle.spring.kind == SpringKind::WithHelper { Some(known.helper()?) } else { None };
    let open_helper = helper.filter(|h| is_in_series(h, &spring_rate, spring_force));
    let spring_rate = match &open_helper {
        Some(helper) => spring_rate.map(|k| SpringRate::from_si(Stack::main_rate_n_per_m(k.si(), helper))),
        None => spring_rate,
    };
    let is_bar = known.axle.spring.kind == SpringKind::TorsionBar;
    let sizing = Sizing {
        frequency,
        wheel_rate,
        spring_rate,
        open_helper: open_helper.map(|h| SpringRate::from_si(h.rate_n_per_m)),
        wanted_travel,
        spring_force,
        same_frequency: before.map(|b| curve.spring_rate_for(ride::rate_for(b.frequency, sprung), load, wanted_travel)),
        no_length: false,
    };
    Some(Ok(Asked { sizing, step: if is_bar { None } else { known.reading.known(&known.axle.stock.step) } }))
}

/// The spring to buy for what an axle asks, before it is ordered; `None` when none can be picked.
pub(super) fn pick(known: &Known<'_>, asked: &Asked) -> Option<Bought> {
    let bar = match known.axle.spring.kind {
        SpringKind::TorsionBar => Some(bars::pick(known, &asked.sizing)?),
        _ => None,
    };
    let pick = match (&bar, known.taken_rate()) {
        (Some(bar), _) => bars::rate(known, bar.diameter, &asked.sizing)?,
        (None, Some(taken)) => taken,
        (None, None) => stock_pick(&asked.sizing.spring_rate, asked.step?),
    };
    Some(Bought { pick, bar, itself: None })
}

/// The spring that was decided on, under what the axle asks now; a spacer instead.
pub(super) fn size(known: &Known<'_>, asked: Asked, on_old: &OnOld) -> Option<Sized> {
    let Asked { sizing, step } = asked;
    let bought = known.decided.spring.as_ref()?;
    let bar = match &bought.bar {
        Some(bar) => Some(bars::choice(known, &sizing, bar, on_old.curve.as_ref())?),
        None => None,
    };
    let pick = match (&bar, known.taken_rate()) {
        (Some(bar), _) => bars::rate(known, bar.pick, &sizing)?,
        (None, Some(taken)) => taken,
        (None, None) => bought.pick,
    };
    let to_buy = SpringToBuy {
        stock: step.and_then(|step| stock_inside(&sizing.spring_rate, step)),
        aim: sizing.spring_rate.aim,
        force: sizing.spring_force,
        pick,
        pick_inside: is_inside(pick, &sizing.spring_rate),
        free_length: None,
        order_length: None,
        bought_length: None,
        bar,
    };
    let spacer = on_old.before.as_ref().and(on_old.after.as_ref());
    let spacer = spacer.and_then(|stands| spacer_under(known, stands, on_old.curve.as_ref()?, sizing.wanted_travel));
    Some(Sized { sizing, to_buy, spacer })
}

/// What an axle asks of its spring, the spring to buy for it, and a spacer instead.
#[derive(Clone, Copy)]
pub(super) struct Sized {
    pub sizing: Sizing,
    pub to_buy: SpringToBuy,
    pub spacer: Option<Spacer>,
}

/// The old springs already ride as wanted: frequency inside the range, height as near as the shop wants it, off the stop.
pub(super) fn will_do(known: &Known<'_>, on_old: &Standing, sizing: &Sizing) -> Option<bool> {
    let near: Length = known.reading.known(&known.reading.job.limits.fitted_height)?;
    let off = (on_old.travel - sizing.wanted_travel).si().abs();
    let inside = on_old.frequency >= sizing.frequency.low && on_old.frequency <= sizing.frequency.high;
    Some(inside && off <= near.si() && !on_old.on_stop && !on_old.loose)
}

/// The helper is open at this force, so that rates of the whole stack are not the main coil's: 1/k_m = 1/k − 1/k_h.
/// A helper softer than the wanted rate can never be open there: the rates then stay, and a finding says that it is
/// open. Source `DERIVED` (in series).
fn is_in_series(helper: &Coil, stack: &Band<SpringRate>, force: Force) -> bool {
    let open = force.si() < helper.solid_force_n();
    open && stack.low.si() > 0.0 && stack.high.si() < helper.rate_n_per_m
}

/// Lengths to order for the wanted height, with the picked rate.
pub(super) fn set_lengths(known: &Known<'_>, sized: &mut Sized) {
    if known.lengths_known && known.axle.spring.kind.is_coil() {
        // A spring that would have to be shorter than nothing is none; a finding says so.
        let placed = known.placed_new_spring(sized).map(|s| own_free_length(&s));
        let free_length = placed.filter(|free| free.si() > 0.0);
        sized.sizing.no_length = placed.is_some_and(|free| free.si() <= 0.0);
        let settle = known.reading.known(&known.axle.stock.settle);
        sized.to_buy.free_length = free_length;
        sized.to_buy.order_length = free_length.zip(settle).map(|(free, settle)| free + settle);
    }
    let taken = &known.axle.taken;
    let own = match known.taken_rate() {
        Some(_) => known.reading.typed(&taken.free_length),
        None => None,
    };
    sized.to_buy.bought_length = own.or(sized.to_buy.order_length);
}

impl Known<'_> {
    /// The rate of the coil that was taken from a list, if one was.
    fn taken_rate(&self) -> Option<SpringRate> {
        self.reading.typed(&self.axle.taken.rate).filter(|_| self.axle.spring.kind.is_coil())
    }

    /// The curve of the springs to be fitted: as they come, once that is decided, else as they are ordered.
    pub fn new_spring(&self, sized: &Sized) -> Option<ForceTravel> {
        let wanted_travel = sized.sizing.wanted_travel;
        if let Some(taken) = self.taken_spring() {
            return Some(ForceTravel { spring: taken, ..self.final_template(wanted_travel) });
        }
        let bought = self.decided.spring.as_ref().filter(|_| self.lengths_known);
        let spring = match bought.and_then(|bought| bought.itself.as_ref()) {
            Some(itself) => self.as_delivered(itself, sized)?,
            None => self.as_ordered(sized)?,
        };
        let spring = spring.with_solid_length(self.new_solid_length());
        Some(ForceTravel { spring, ..self.final_template(wanted_travel) })
    }

    /// The springs of the length that is ordered, or, where only differences of length are known, at the wanted height.
    fn as_ordered(&self, sized: &Sized) -> Option<Spring> {
        let stock = &self.axle.stock;
        let factor: Ratio = self.reading.known(&stock.rate_factor)?;
        if !self.lengths_known {
            let pick = sized.to_buy.pick * factor.si();
            return self.placed_new_spring(&Sized { to_buy: SpringToBuy { pick, ..sized.to_buy }, ..*sized });
        }
        let longer: Length = self.reading.known(&stock.length_off)?;
        Some(self.placed_new_spring(sized)?.times(factor.si()).longer_by(longer))
    }

    /// The springs that were `bought`, their rate and length moved within what is bought, settled more or less.
    fn as_delivered(&self, bought: &Spring, sized: &Sized) -> Option<Spring> {
        let (reading, stock) = (self.reading, &self.axle.stock);
        let factor: Ratio = reading.known(&stock.rate_factor)?;
        let moved = |entry| Some::<Length>(reading.known(entry)? - reading.as_read(entry)?);
        let shorter = if self.axle.spring.kind.is_coil() { moved(&stock.settle)? } else { Length::from_si(0.0) };
        let longer = moved(&stock.length_off)? - shorter;
        let rate_n_per_m = sized.to_buy.pick.si() * factor.si();
        Some(match (bought, self.placed_new_spring(sized)?) {
            // Diameter and index of a bar are bought and set; arm, length and steel are what they are.
            (Spring::Bar(bought), Spring::Bar(bar)) => {
                Spring::Bar(TorsionBar { free_angle_rad: bought.free_angle_rad, ..bar }).times(factor.si())
            }
            // The main coil is bought; the helper is as it was measured.
            (Spring::Stack(bought), Spring::Stack(stack)) => {
                Spring::Stack(Stack { main: Coil { rate_n_per_m, ..bought.main }, ..stack }).longer_by(longer)
            }
            (Spring::Coil(bought), _) => Spring::Coil(Coil { rate_n_per_m, ..*bought }).longer_by(longer),
            (Spring::Leaf(bought), _) => Spring::Leaf(Leaf { rate_n_per_m, ..*bought }).longer_by(longer),
            (_, placed) => placed,
        })
    }

    /// The spring taken from a list, on its spacer, settled: its free length is given and the height follows.
    fn taken_spring(&self) -> Option<Spring> {
        let taken = &self.axle.taken;
        let (rate, free) = (self.reading.typed(&taken.rate)?, self.reading.typed(&taken.free_length)?);
        if !(self.lengths_known && self.axle.spring.kind.is_coil()) {
            return None;
        }
        let spacer: Length = self.reading.known(&taken.spacer)?;
        let solid = self.reading.typed(&taken.solid_length).or_else(|| self.new_solid_length());
        let settle: Length = self.reading.known(&self.axle.stock.settle)?;
        let coil = Coil::by_rate(rate, free - settle, solid);
        Some(self.seated(coil)?.moved(spacer))
    }

    /// A new coil on this axle's seats: with the helper that stays, or alone.
    pub fn seated(&self, coil: Coil) -> Option<Spring> {
        let helper = match self.axle.spring.kind {
            SpringKind::WithHelper => Some(self.helper()?),
            _ => None,
        };
        Some(Spring::seated(coil, helper))
    }

    /// A spring of the picked rate that carries the weight at the wanted height.
    fn placed_new_spring(&self, sized: &Sized) -> Option<Spring> {
        let Sized { sizing, to_buy, .. } = sized;
        let length = self.spring_length.length(sizing.wanted_travel);
        let coil = Coil { rate_n_per_m: to_buy.pick.si(), free_length_m: 0.0, solid_length_m: None };
        let itself = match self.axle.spring.kind {
            SpringKind::TorsionBar => {
                let bar = Bar { diameter_m: to_buy.bar?.pick.si(), ..self.bar()? };
                let arm_m = self.reading.typed(&self.axle.spring.bar.arm)?.si();
                let twist_rate_nm_per_rad = bar.twist_rate().si();
                Spring::Bar(TorsionBar { twist_rate_nm_per_rad, arm_m, free_angle_rad: 0.0 })
            }
            SpringKind::Leaf => Spring::Leaf(Leaf { rate_n_per_m: to_buy.pick.si(), free_height_m: 0.0 }),
            SpringKind::Coil | SpringKind::WithHelper | SpringKind::Progressive => self.seated(coil)?,
        };
        Some(itself.carrying(sizing.spring_force, length)?.with_solid_length(self.new_solid_length()))
    }

    /// Solid length of the coil to be fitted: typed, by the wire of the one on offer, or the old one's.
    pub fn new_solid_length(&self) -> Option<Length> {
        let stock = &self.axle.stock;
        let own = self.reading.typed(&stock.solid_length).or_else(|| self.wire(&stock.coil)?.solid_length());
        own.filter(|_| self.lengths_known).or_else(|| self.solid_length())
    }
}

/// The wanted range; `before` is where the axle stood before the swap: wheel travel and ride frequency.
pub(super) fn wanted_frequency(
    known: &Known<'_>,
    before: Option<(Length, Option<Frequency>)>,
) -> Option<Band<Frequency>> {
    let (reading, target) = (known.reading, &known.axle.target);
    match target.goal {
        Goal::Range => {
            let low = reading.known(&target.low)?;
            let high = reading.known(&target.high)?;
            band(low, high, (low + high) / 2.0)
        }
        Goal::AsBefore => {
            let aim = before?.1?;
            let margin: Ratio = reading.known(&target.margin)?;
            band(aim * (1.0 - margin.si()), aim * (1.0 + margin.si()), aim)
        }
    }
}

/// Travel at the wanted height: the old height, or the present one when the old is not known, less the raise.
pub(super) fn wanted_travel(known: &Known<'_>, before: Option<(Length, Option<Frequency>)>) -> Option<Length> {
    let raise = known.reading.known(&known.axle.target.raise)?;
    let from = match before {
        Some((travel, _)) => travel,
        None => Length::from_si(0.0),
    };
    Some(from - raise)
}

/// First and last whole multiple of `step` inside the band, its ends included; `None` when none lies inside.
pub(super) fn multiples_inside<Q: Quantity>(band: &Band<Q>, step: Q) -> Option<[f64; 2]> {
    // Room for rounding in the last digits.
    const SLACK: f64 = 1e-9;
    let first = (band.low.si() / step.si() - SLACK).ceil().max(1.0);
    let last = (band.high.si() / step.si() + SLACK).floor();
    (last >= first).then_some([first, last])
}

/// The whole multiple of `step` to buy: of those inside the band the nearest to its aim; with none inside the nearest of
/// all, at least one step.
pub(super) fn stock_pick<Q: Quantity>(band: &Band<Q>, step: Q) -> Q {
    let nearest = (band.aim.si() / step.si()).round().max(1.0);
    let count = multiples_inside(band, step).map_or(nearest, |[first, last]| nearest.clamp(first, last));
    Q::from_si(step.si() * count)
}

/// Inside, the ends included, with room for rounding in the last digits.
fn is_inside(rate: SpringRate, band: &Band<SpringRate>) -> bool {
    let slack = 1e-9 * rate.si();
    rate.si() >= band.low.si() - slack && rate.si() <= band.high.si() + slack
}

fn stock_inside(band: &Band<SpringRate>, step: SpringRate) -> Option<StockRates> {
    let [first, last] = multiples_inside(band, step)?;
    let count = ((last - first) as usize).saturating_add(1);
    Some(StockRates { step, lowest: step * first, highest: step * last, count })
}

/// The same-factor rule: it needs weights before and after, and no motion ratio. Source `DERIVED`.
pub(super) fn same_factor(of: Readings<'_>, answer: &AxleAnswer) -> Option<SameFactor> {
    let factor: Ratio = answer.sprung_after? / answer.sprung_before?;
    let straight = matches!(answer.kind, SpringKind::Coil | SpringKind::Leaf);
    let bag = of.axle.bag.fitted != crate::job::BagFitted::No;
    let rubber = of.reading.known(&of.axle.parallel.rate).is_none_or(|k: SpringRate| k.si() != 0.0);
    let gas = of.reading.known(&of.axle.damper.gas_pressure).is_none_or(|p: Pressure| p.si() != 0.0);
    let own = || of.any_rate(&answer.old_spring).map(SpringRate::from_si);
    let old = answer.old_spring.rate.or_else(own);
    Some(SameFactor { factor, spring_rate: old.map(|k| k * factor.si()), exact: straight && !(bag || rubber || gas) })
}

/// The old spring with its seat moved until it carries the load at the wanted height: s = ΔF/k for a coil, m along the
/// spring. Source `DERIVED`.
fn spacer_under(known: &Known<'_>, on_old: &Standing, old: &ForceTravel, wanted: Length) -> Option<Spacer> {
    let load = known.load(on_old.sprung);
    let needed = old.spring_force_for(load, wanted);
    let length = known.spring_length.length(wanted);
    let moved = old.spring.carrying(needed, length)?;
    let thickness_m = moved.free_length_m() - old.spring.free_length_m();
    let index = match (&moved, &old.spring) {
        (Spring::Bar(new), Spring::Bar(old)) => Some(Angle::from_si(new.free_angle_rad - old.free_angle_rad)),
        _ => None,
    };
    let stress_bump = bars::stress_set_to(known, &moved);
    let allowed = stress_bump.and_then(|_| known.reading.known(&known.axle.spring.bar.allowed_stress));
    let with = ForceTravel { spring: moved, ..old.clone() };
    let stands = with.ride_height(load).ok().filter(|s| s.wheel_rate.si() > 0.0)?;
    let solid = with.spring.solid_length_m().map(Length::from_si);
    let at_metal = known.travel.metal.map(|z| known.spring_length.length(z));
    Some(Spacer {
        to_bind: at_metal.zip(solid).map(|(length, solid)| length - solid),
        thickness: Length::from_si(thickness_m),
        index,
        stress_bump,
        allowed,
        reserve: with.reserve(load),
        frequency: ride::frequency(stands.wheel_rate, on_old.sprung),
    })
}
