//! Taking springs of a list into a job, in the units shown.

use crate::base::language::with_mark;
use crate::base::units::entry::AnyEntry;
use crate::base::units::{
    DecimalMark, Dim, Entry, Length, Origin, Quantity as _, Ratio, Spread, SpringRate, UnitChoice, display,
};
use crate::job::{Job, LeftRight, OwnSpring, Side, Taken};
use crate::shop::parts::Spring;

/// One spring for both sides, on a spacer; `None` when it was not judged. What an earlier pair had for each side goes.
pub fn one(job: &mut Job, side: Side, spring: &Spring, spacer_m: Option<f64>) {
    none(job, side);
    let of = Said::of(job);
    let taken = &mut job.axle_mut(side).taken;
    *taken = Taken { number: spring.number.clone(), what: spring.what.clone(), ..Taken::default() };
    of.put(&mut taken.rate, Some(of.in_full(spring.rate.si(), Dim::SpringRate)));
    of.put(&mut taken.free_length, spring.free_length.map(|l| of.in_full(l.si(), Dim::Length)));
    of.put(&mut taken.solid_length, spring.solid_length.map(|l| of.in_full(l.si(), Dim::Length)));
    of.put(&mut taken.spacer, spacer_m.map(|m| of.rounded(m)));
    of.put(&mut taken.price, spring.price.map(|p| of.number(p)));
    of.put(&mut taken.in_stock, spring.stock.map(|n| n.to_string()));
    of.tolerance(&mut taken.rate, spring.rate_tolerance);
}

/// An anti-roll bar of this diameter for the plan.
pub fn roll_bar(job: &mut Job, side: Side, diameter: Length) {
    let of = Said::of(job);
    of.put(&mut job.axle_mut(side).roll_bar.new_diameter, Some(of.in_full(diameter.si(), Dim::Length)));
}

/// No spring, nor what a pair had for each side.
pub fn none(job: &mut Job, side: Side) {
    let axle = job.axle_mut(side);
    axle.taken = Taken::default();
    for own in [&mut axle.left, &mut axle.right] {
        if !own.number.is_empty() {
            *own = OwnSpring::default();
        }
    }
}

/// A spring for each side, on its own spacer. The axle gets what both are together: the mean of their rates and what they
/// carry between them; of their solid lengths the longer, which reaches coil bind first.
pub fn pair(job: &mut Job, side: Side, springs: LeftRight<&Spring>, spacers_m: LeftRight<f64>) {
    let is_alike = springs.left == springs.right;
    one(job, side, springs.left, None);
    let of = Said::of(job);
    let axle = job.axle_mut(side);
    if !is_alike {
        of.together(&mut axle.taken, springs);
    }
    let (left, right) = ((springs.left, spacers_m.left), (springs.right, spacers_m.right));
    for (own, (spring, spacer_m)) in [(&mut axle.left, left), (&mut axle.right, right)] {
        *own = OwnSpring { number: spring.number.clone(), ..OwnSpring::default() };
        of.put(&mut own.spacer, Some(spacer_m).filter(|m| m.is_finite()).map(|m| of.rounded(m)));
        if !is_alike {
            of.put(&mut own.rate, Some(of.in_full(spring.rate.si(), Dim::SpringRate)));
            of.tolerance(&mut own.rate, spring.rate_tolerance);
            of.put(&mut own.free_length, spring.free_length.map(|l| of.in_full(l.si(), Dim::Length)));
            of.put(&mut own.solid_length, spring.solid_length.map(|l| of.in_full(l.si(), Dim::Length)));
            of.put(&mut own.price, spring.price.map(|p| of.number(p)));
        }
    }
    let cut_m = [&axle.left, &axle.right].map(|own| own.spacer.read(of.mark).ok().flatten().map(|l: Length| l.si()));
    if let [Some(left_m), Some(right_m)] = cut_m {
        of.put(&mut axle.taken.spacer, Some(of.in_full(0.5 * (left_m + right_m), Dim::Length)));
    }
}

/// The number of two different springs.
pub fn number_of(LeftRight { left, right }: LeftRight<&Spring>) -> String {
    format!("{} / {}", left.number, right.number)
}

/// How a job says its values.
struct Said {
    units: UnitChoice,
    mark: DecimalMark,
}

impl Said {
    fn of(job: &Job) -> Self {
        Said { units: job.units, mark: job.decimal }
    }

    fn in_full(&self, si: f64, dim: Dim) -> String {
        with_mark(display::full_si(si, dim, &self.units), self.mark)
    }

    fn rounded(&self, length_m: f64) -> String {
        with_mark(display::rounded_si(length_m, Dim::Length, &self.units), self.mark)
    }

    fn number(&self, number: f64) -> String {
        with_mark(display::rounded_number(number, self.units.unit(Dim::Ratio)), self.mark)
    }

    fn put(&self, entry: &mut dyn AnyEntry, text: Option<String>) {
        let Some(text) = text else { return };
        entry.type_text(&text, self.units.unit(entry.dim()), self.mark);
        entry.set_origin(Some(Origin::Quoted));
    }

    fn tolerance(&self, rate: &mut Entry<SpringRate>, share: Option<Ratio>) {
        if let Some(share) = share {
            let percent = with_mark(display::significant(100.0 * share.si(), 4), self.mark);
            rate.set_pm(&format!("{percent} %"), Spread::Limits);
        }
    }

    /// Two different springs as one of the axle.
    fn together(&self, taken: &mut Taken, springs: LeftRight<&Spring>) {
        let LeftRight { left, right } = springs;
        *taken = Taken { number: number_of(springs), ..Taken::default() };
        let rates = [left.rate.si(), right.rate.si()];
        self.put(&mut taken.rate, Some(self.in_full(0.5 * (rates[0] + rates[1]), Dim::SpringRate)));
        let tolerance = left.rate_tolerance.zip(right.rate_tolerance).map(|(l, r)| Ratio::from_si(l.si().max(r.si())));
        self.tolerance(&mut taken.rate, tolerance);
        let free = left.free_length.zip(right.free_length);
        let free_m = free.map(|(l, r)| (rates[0] * l.si() + rates[1] * r.si()) / (rates[0] + rates[1]));
        self.put(&mut taken.free_length, free_m.map(|m| self.in_full(m, Dim::Length)));
        let solid_m = left.solid_length.zip(right.solid_length).map(|(l, r)| l.si().max(r.si()));
        self.put(&mut taken.solid_length, solid_m.map(|m| self.in_full(m, Dim::Length)));
        let price = left.price.zip(right.price).filter(|(l, r)| l == r);
        self.put(&mut taken.price, price.map(|(l, _)| self.number(l)));
    }
}
