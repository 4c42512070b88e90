//! The springs to be fitted: as they are ordered, as they come, and the lengths to order.

use crate::base::units::{Length, Quantity, Ratio, SpringRate};
use crate::job::SpringKind;
use crate::solve::answer::{Sizing, SpringToBuy};
use crate::solve::evaluate::axle::known::Known;
use crate::solve::evaluate::axle::room::helper;
use crate::solve::evaluate::own_springs::own_free_length;
use crate::trade::spring::{Bar, Coil, Leaf, Spring, Stack, TorsionBar};
use crate::trade::wheel::ForceTravel;

/// Lengths to order for the wanted height, with the picked rate.
pub(in crate::solve) fn set_lengths(known: &Known<'_>, sizing: &Sizing, to_buy: &mut SpringToBuy) {
    if known.lengths_known && known.axle.spring.kind.is_coil() {
        // A spring that would have to be shorter than nothing is none; a finding says so.
        let spring = known.placed_new_spring(sizing, to_buy);
        let seats = known.spring_length.length(sizing.wanted_travel);
        to_buy.at_ride = spring.as_ref().map(|s| seats - helper(s, sizing.spring_force));
        let placed = spring.map(|s| own_free_length(&s));
        let free_length = placed.filter(|free| free.si() > 0.0);
        to_buy.no_length = placed.is_some_and(|free| free.si() <= 0.0);
        let settle = known.reading.known(&known.axle.stock.settle);
        to_buy.free_length = free_length;
        to_buy.allowance = settle;
        to_buy.order_length = free_length.zip(settle).map(|(free, settle)| free + settle);
        set_stock_lengths(known, sizing, to_buy);
    }
    let taken = &known.axle.taken;
    let own = match known.taken_rate() {
        Some(_) => known.reading.typed(&taken.free_length),
        None => None,
    };
    to_buy.bought_length = own.or(to_buy.order_length);
}

/// Lengths to order at the lowest and the highest stock rate that would do, with its allowance for settling.
fn set_stock_lengths(known: &Known<'_>, sizing: &Sizing, to_buy: &mut SpringToBuy) {
    let length = |pick: SpringRate| {
        let placed = known.placed_new_spring(sizing, &SpringToBuy { pick, ..*to_buy })?;
        Some(own_free_length(&placed) + to_buy.allowance?).filter(|length| length.si() > 0.0)
    };
    let lengths = to_buy.stock.and_then(|stock| Some([length(stock.lowest)?, length(stock.highest)?]));
    if let Some(stock) = &mut to_buy.stock {
        stock.lengths = lengths;
    }
}

impl Known<'_> {
    /// The rate of the coil that was taken from a list, if one was.
    pub fn taken_rate(&self) -> Option<SpringRate> {
        self.reading.typed(&self.axle.taken.rate).filter(|_| self.axle.spring.kind.is_coil())
    }

    /// The curve of the springs to be fitted: as they come, once that is decided, else as they are ordered.
    pub fn new_spring(&self, sizing: &Sizing, to_buy: &SpringToBuy) -> Option<ForceTravel> {
        let wanted_travel = sizing.wanted_travel;
        if let Some(taken) = self.taken_spring() {
            return Some(ForceTravel { spring: taken, ..self.final_template(wanted_travel) });
        }
        let bought = self.decided.spring.as_ref().filter(|_| self.lengths_known);
        let spring = match bought.and_then(|bought| bought.itself.as_ref()) {
            Some(itself) => self.as_delivered(itself, sizing, to_buy)?,
            None => self.as_ordered(sizing, to_buy)?,
        };
        let spring = spring.with_solid_length(self.new_solid_length());
        Some(ForceTravel { spring, ..self.final_template(wanted_travel) })
    }

    /// The springs of the length that is ordered, or, where only differences of length are known, at the wanted height.
    fn as_ordered(&self, sizing: &Sizing, to_buy: &SpringToBuy) -> Option<Spring> {
        let stock = &self.axle.stock;
        let factor: Ratio = self.reading.known(&stock.rate_factor)?;
        if !self.lengths_known {
            let pick = to_buy.pick * factor.si();
            return self.placed_new_spring(sizing, &SpringToBuy { pick, ..*to_buy });
        }
        let longer: Length = self.reading.known(&stock.length_off)?;
        Some(self.placed_new_spring(sizing, to_buy)?.times(factor.si()).longer_by(longer))
    }

    /// The springs that were `bought`, their rate and length moved within what is bought, settled more or less.
    fn as_delivered(&self, bought: &Spring, sizing: &Sizing, to_buy: &SpringToBuy) -> Option<Spring> {
        let (reading, stock) = (self.reading, &self.axle.stock);
        let factor: Ratio = reading.known(&stock.rate_factor)?;
        let moved = |entry| Some::<Length>(reading.known(entry)? - reading.as_read(entry)?);
        let shorter = if self.axle.spring.kind.is_coil() { moved(&stock.settle)? } else { Length::from_si(0.0) };
        let longer = moved(&stock.length_off)? - shorter;
        let rate_n_per_m = to_buy.pick.si() * factor.si();
        Some(match (bought, self.placed_new_spring(sizing, to_buy)?) {
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
    fn placed_new_spring(&self, sizing: &Sizing, to_buy: &SpringToBuy) -> Option<Spring> {
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
