//! Springs in detail: stress, crossover, cutting, levelling by air, a spring to have wound.

use crate::solve::answer::{AddedLeaf, AxleAnswer, BarFacts, ByAir, CoilFacts, Crossover, SpringToBuy};
use crate::solve::evaluate::axle::known::{Known, Readings};
use crate::solve::evaluate::axle::standing;

use crate::base::units::{Angle, Force, Length, Quantity, Ratio, SpringRate, Stress, TwistRate, weight};
use crate::job::read::WireSizes;
use crate::job::{BagFitted, Plan};
use crate::trade::spring::{Beside, NOT_PRESET_SOLID, Spring, Wanted, stock_wire};
use crate::trade::wheel::ForceTravel;

impl Known<'_> {
    /// Fills what goes beyond the answer itself.
    pub fn springs_in_detail(&self, old: Option<&ForceTravel>, answer: &mut AxleAnswer) {
        let data = &self.axle.spring;
        let metal_force = |curve: &ForceTravel| {
            let length_m = self.reached_m(curve, self.spring_length.length(self.travel.metal?));
            Some(Force::from_si(curve.spring.force_n(length_m)))
        };
        if let (Some(old), Some(stands)) = (old, &answer.standing.old) {
            let solid = old.spring.solid_length_m().map(|l| Force::from_si(old.spring.force_n(l)));
            if data.kind.is_coil() {
                answer.old_spring.coil =
                    self.coil_facts(&data.wire, Some(stands.spring_force), metal_force(old), solid);
            }
            answer.old_spring.cut = self.cut(old, answer.standing.before.as_ref());
            answer.old_spring.crossover = self.crossover(&old.spring);
        }
        let (new_force, new_curve) = match &answer.standing.new {
            Some(new) => (Some(new.spring_force), Some(&new.curve)),
            None => (None, None),
        };
        let at_metal = new_curve.and_then(metal_force);
        let solid = new_curve.and_then(|c| Some(Force::from_si(c.spring.force_n(c.spring.solid_length_m()?))));
        if data.kind.is_coil() && self.axle.plan == Plan::NewSprings {
            answer.offered = self.coil_facts(&self.axle.stock.coil, new_force, at_metal, solid);
            answer.parts.wound = self.decided.wire_m.and_then(|wire_m| self.coil_to_wind(answer)?.with_wire(wire_m));
        }
        answer.old_spring.bar = self.bar_facts(old, new_curve, answer);
        if let (Some(leaf), Some(pack)) = (&mut answer.old_spring.leaf, self.leaf_pack()) {
            let stands = answer.standing.old.as_ref().map(|s| s.spring_force);
            (leaf.force_ride, leaf.force_bump) = (stands, old.and_then(metal_force));
            leaf.stress_ride = leaf.force_ride.map(|f| pack.stress(f));
            leaf.stress_bump = leaf.force_bump.map(|f| pack.stress(f));
        }
        answer.parts.levelled = answer.sizing.as_ref().and_then(|s| self.levelled(old?, s.wanted_travel));
        answer.parts.added_leaf =
            old.and_then(|old| self.added_leaf(&old.spring, answer.parts.spring.as_ref()?, answer));
    }

    /// What is to be added to an old leaf that stays, in place of the leaf that would be bought. `None` where another
    /// spring carries, or the old leaf brings as much already.
    fn added_leaf(&self, old: &Spring, to_buy: &SpringToBuy, answer: &AxleAnswer) -> Option<AddedLeaf> {
        let Spring::Leaf(leaf) = old else { return None };
        let sizing = answer.sizing.as_ref().filter(|_| self.axle.plan == Plan::NewSprings)?;
        let height = self.spring_length.length(sizing.wanted_travel);
        let beside = Beside::of(leaf, height, sizing.spring_force, to_buy.pick)?;
        let pack = self.leaf_pack().map(|pack| pack.added(beside.rate, self.decided.added_leaves.unwrap_or(1.0)));
        let further = self.travel.metal.map(|z| (height - self.spring_length.length(z)).si());
        Some(AddedLeaf {
            beside,
            load: sizing.spring_force,
            both: to_buy.pick,
            old_rate: SpringRate::from_si(leaf.rate_n_per_m),
            old_gives_way: Length::from_si(leaf.free_height_m) - height,
            pack,
            load_at_metal: further.map(|m| Force::from_si(beside.load.si() + beside.rate.si() * m)),
        })
    }

    /// A length that a spring can reach: a coil gets no shorter than solid, m.
    pub fn reached_m(&self, curve: &ForceTravel, length: Length) -> f64 {
        curve.spring.solid_length_m().filter(|_| self.lengths_known).map_or(length.si(), |s| length.si().max(s))
    }

    /// Stress and sizes of a coil of this wire under three forces.
    fn coil_facts(
        &self,
        data: &WireSizes,
        ride: Option<Force>,
        bump: Option<Force>,
        solid: Option<Force>,
    ) -> Option<CoilFacts> {
        let wire = self.wire(data)?;
        let stress = |force: Option<Force>| force.map(|f| wire.stress(f, wire.wahl()));
        let diameter = Length::from_si(wire.diameter_m);
        let typed = self.reading.typed(&data.tensile_strength);
        let strength = typed.or_else(|| data.material.tensile_strength(diameter));
        let share = self.reading.known(&data.allowed_share)?;
        let counted = self.reading.typed(&data.total_coils).filter(|_| data.active_coils.is_blank());
        Some(CoilFacts {
            wire,
            counted,
            rate: wire.rate(),
            solid_length: wire.solid_length(),
            force_ride: ride,
            force_bump: bump,
            force_solid: solid,
            stress_ride: stress(ride),
            stress_bump: stress(bump),
            stress_solid: stress(solid),
            strength,
            allowed_share: share,
            allowed: strength.map(|s| Stress::from_si(s.si() * share.si())),
            extrapolated: typed.is_none() && data.material.is_extrapolated(diameter),
        })
    }

    fn crossover(&self, spring: &Spring) -> Option<Crossover> {
        let Spring::Stack(stack) = spring else { return None };
        let length = Length::from_si(stack.crossover_length_m());
        Some(Crossover {
            helper: stack.helper,
            force: Force::from_si(stack.crossover_force_n()),
            travel: self.spring_length.travel_at(length),
        })
    }

    fn bar_facts(&self, old: Option<&ForceTravel>, new: Option<&ForceTravel>, answer: &AxleAnswer) -> Option<BarFacts> {
        let bar = self.bar().filter(|_| self.axle.spring.kind == crate::job::SpringKind::TorsionBar)?;
        let free_angle = match old.map(|o| &o.spring) {
            Some(Spring::Bar(b)) => Some(Angle::from_si(b.free_angle_rad)),
            _ => None,
        };
        let fitted = match (&answer.parts.spring, self.axle.plan) {
            (Some(to_buy), crate::job::Plan::NewSprings) => to_buy.bar.map_or(bar, |choice| choice.bar),
            _ => bar,
        };
        let wound = match new.map(|n| &n.spring) {
            Some(Spring::Bar(wound)) => Some(wound),
            _ => None,
        };
        let [at_ride, at_bump] = [answer.standing.new.as_ref().map(|s| s.travel), self.travel.metal]
            .map(|travel| wound.zip(travel.map(|z| self.spring_length.length(z))));
        Some(BarFacts {
            bar,
            fitted,
            wound_by: old.and_then(|old| self.wound_by(old)),
            fitted_rate: wound.map(|b| TwistRate::from_si(b.twist_rate_nm_per_rad)),
            twist_ride: at_ride.map(|(b, length)| b.twist(length)),
            twist_bump: at_bump.map(|(b, length)| b.twist(length)),
            twist_rate: bar.twist_rate(),
            free_angle,
            stress_ride: at_ride.map(|(b, length)| b.stress(&fitted, length)),
            stress_bump: at_bump.map(|(b, length)| b.stress(&fitted, length)),
            allowed: self.reading.known(&self.axle.spring.bar.allowed_stress),
        })
    }

    /// What winds up the bar of a curve at the reference height.
    fn wound_by(&self, old: &ForceTravel) -> Option<(Force, Length, Angle)> {
        let Spring::Bar(bar) = &old.spring else { return None };
        let reference = Length::from_si(0.0);
        let force = old.spring_force_for(weight(self.sprung_at_reference()?), reference);
        Some((force, Length::from_si(bar.arm_m), bar.angle(old.spring_length.length(reference))))
    }

    /// The old springs with a bag pumped until the wanted height is back. `None` when no bag is known, it carries
    /// already, or there is nothing to lift.
    fn levelled(&self, old: &ForceTravel, wanted: Length) -> Option<ByAir> {
        let (bag, ratio) = self.bag.filter(|_| self.axle.bag.fitted != BagFitted::Always)?;
        let sprung = self.masses.sprung.after?;
        standing::levelled(old, (bag, ratio), wanted, (sprung, self.load(sprung)), self.travel.stop)
    }
}

impl Readings<'_> {
    /// The wire of a coil to be wound of the picked rate: the thinnest that holds, m. `None` as for
    /// [`Readings::coil_to_wind`], and when no wire fits.
    pub fn wire_to_wind(&self, answer: &AxleAnswer) -> Option<f64> {
        let wanted = self.coil_to_wind(answer)?;
        Some(wanted.wind(&self.wire_sizes(wanted.outside))?.wire.diameter_m)
    }

    /// A coil of the picked rate to have wound, inside the seats of the one on offer or of the old one. `None` where a
    /// spring was taken from a list, or is not to be a new coil.
    fn coil_to_wind(&self, answer: &AxleAnswer) -> Option<Wanted> {
        let (stock, reading) = (&self.axle.stock, self.reading);
        let to_buy = answer.parts.spring.as_ref()?;
        let is_coil = self.axle.spring.kind.is_coil() && self.axle.plan == Plan::NewSprings;
        let may_be_wound = is_coil && self.axle.taken.rate.is_blank();
        let outside = reading
            .typed(&stock.coil.outside_diameter)
            .or_else(|| reading.typed(&self.axle.spring.wire.outside_diameter))
            .filter(|_| may_be_wound)?;
        let bind_room: Length = reading.known(&reading.job.limits.bind_room)?;
        Some(Wanted {
            rate: to_buy.pick,
            outside,
            greatest_force: answer.room.force_at_metal?,
            room: answer.room.longest_solid.map(|longest| longest + bind_room),
            bind_room,
            free_length: to_buy.order_length,
            material: stock.coil.material,
            tensile_strength: reading.typed(&stock.coil.tensile_strength),
            shear_modulus: reading.known(&stock.coil.shear_modulus)?,
            ends: stock.coil.ends,
            allowed_share: reading.known(&stock.coil.allowed_share)?,
            solid_share: self.solid_share()?,
            is_preset: stock.preset,
        })
    }

    /// Allowed stress when solid, as a share of tensile strength: more than the usual share only for a preset spring.
    fn solid_share(&self) -> Option<Ratio> {
        let stock = &self.axle.stock;
        let share: Ratio = self.reading.known(&stock.solid_share)?;
        Some(if stock.preset { share } else { Ratio::from_si(share.si().min(NOT_PRESET_SOLID)) })
    }

    /// Wire sizes to wind a coil of, m: those the maker has, else whole multiples of the step, else those usually sold.
    fn wire_sizes(&self, outside: Length) -> Vec<f64> {
        let (stock, texts) = (&self.axle.stock, self.reading.texts);
        let sizes = texts.axle(self.side).stock.wire_list(texts.decimal);
        let typed: Vec<f64> = sizes.filter_map(|(_, size)| Some(size?.si())).collect();
        match self.reading.typed(&stock.wire_step) {
            _ if !typed.is_empty() => typed,
            Some(step) => stock_wire::multiples_m(step.si(), outside.si()),
            None if texts.in_pounds_and_inches() => stock_wire::us_m(),
            None => stock_wire::metric_m(),
        }
    }
}
