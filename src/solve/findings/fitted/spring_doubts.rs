//! Findings about coils in detail: stress, gaps, cut coils.

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Length, Quantity, SpringRate, Stress};
use crate::job::{Level, Mend, SpringKind};
use crate::message;
use crate::solve::answer::{Answer, AxleAnswer, CoilFacts};
use crate::solve::findings::Say;
use crate::solve::findings::edge::{above, below, is_near, outside};

/// Stated rate and rate by wire may differ by this share. Common practice, no source.
const STAMP_AGREES: f64 = 0.10;

impl Say<'_> {
    /// The wanted height leaves a spring no length.
    pub(in crate::solve::findings) fn no_length(&mut self, axle: &AxleAnswer) {
        if axle.keeps() || !axle.parts.spring.as_ref().is_some_and(|s| s.no_length) {
            return;
        }
        let text = message!(
            "{side}: at the target height a new spring would need a free length below zero. Raise the height, or measure the spring length and motion ratio again.",
            side = axle.side.word()
        );
        self.push(Level::Error, "no-free-length", format!("{}.target.raise", axle.side.key()), text);
    }

    /// Stress, slenderness and gaps of a coil by its wire.
    pub(in crate::solve::findings) fn coils(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let old = axle.old_spring.coil.as_ref().filter(|_| axle.kind.is_coil());
        if let Some(coil) = old {
            let place = format!("{key}.spring.wire.allowed_share");
            self.stresses(axle, |a| a.old_spring.coil.as_ref(), (coil, Word("old coil spring")), &place, axle.keeps());
        }
        if let (Some(stated), Some(wire)) =
            (axle.old_spring.stated, axle.old_spring.by_wire.filter(|_| axle.kind == SpringKind::Coil))
            && let u = wire.u.hypot(stated.u * wire.value / stated.value) / stated.value
            && above((wire.value / stated.value - 1.0).abs(), STAMP_AGREES, Some(u))
            && answer.checked(axle.side).routes.odd.is_none()
        {
            let rate = |n_per_m: f64| Amount::rounded(SpringRate::from_si(n_per_m), self.units);
            let text = message!(
                "{who}: the stated rate is {stated}; wire and coils give {wire}. Test the spring in a press, and count its active coils again.",
                who,
                stated = rate(stated.value),
                wire = rate(wire.value)
            );
            let by_wire = Mend::new(Word("Use the rate from wire and coils"))
                .set(format!("{key}.spring.rate_by"), "Wire")
                .set(format!("{key}.spring.rate"), "");
            self.push_with(Level::Doubt, "stamp-against-wire", format!("{key}.spring.rate"), text, [by_wire]);
        }
        if let Some(coil) = &axle.offered {
            let place = format!("{key}.stock.coil.allowed_share");
            self.stresses(axle, |a| a.offered.as_ref(), (coil, Word("offered spring")), &place, true);
            self.offered(axle, coil);
        }
        let fitted = axle.offered.as_ref().or(old.filter(|_| axle.keeps()));
        if let (Some(coil), Some(room)) = (fitted, axle.room.to_bind)
            && below(
                room.si(),
                coil.wire.least_gaps().si(),
                self.u_axle(axle.side, |a| a.room.to_bind.map(Quantity::si)),
            )
            && room.si() > 0.0
        {
            let text = message!(
                "{who}: a total of {room} is left between the coils at full bump; the spring standard requires {least} under dynamic load. Choose fewer coils or thinner wire.",
                who,
                room = self.length(room),
                least = self.length(coil.wire.least_gaps())
            );
            self.push(Level::Note, "gaps", format!("{key}.stock.solid_length"), text);
        }
        if let (Some(coil), Some(free)) = (fitted, free_length(axle).map(Length::from_si))
            && above(free.si(), coil.wire.longest_unguided().si(), self.u_axle(axle.side, free_length))
        {
            let text = message!(
                "{who}: with a free length of {free} and a mean coil diameter of {mean}, the spring is slender; above a free length of {longest} it may buckle unless it is guided.",
                who,
                free = self.length(free),
                mean = self.length(Length::from_si(coil.wire.mean_m)),
                longest = self.length(coil.wire.longest_unguided())
            );
            self.push(Level::Note, "slender", format!("{key}.spring.free_length"), text);
        }
    }

    /// Stress over what is allowed, and of a coil that will be fitted also what may be.
    fn stresses(
        &mut self,
        axle: &AxleAnswer,
        of: fn(&AxleAnswer) -> Option<&CoilFacts>,
        (coil, what): (&CoilFacts, Word),
        field: &str,
        stays: bool,
    ) {
        let who = axle.side.word();
        let Some(allowed) = coil.allowed else { return };
        type At = fn(&CoilFacts) -> Option<Stress>;
        let places: [(Word, Level, At); 3] = [
            (Word("at ride height"), Level::Doubt, |c| c.stress_ride),
            (Word("at full bump"), Level::Doubt, |c| c.stress_bump),
            (Word("at solid length"), Level::Note, |c| c.stress_solid),
        ];
        let u = |at: At| self.u_axle(axle.side, |a| of(a).and_then(|c| Some(at(c)?.si() - c.allowed?.si())));
        let over = |least: Level| {
            places.iter().find(|(_, level, at)| *level >= least && at(coil).is_some_and(|s| s > allowed))
        };
        let near = || {
            let fitted = places.iter().filter(|(_, level, _)| stays && *level == Level::Doubt);
            fitted.rev().find(|(_, _, at)| at(coil).is_some_and(|s| is_near(s.si(), allowed.si(), u(*at))))
        };
        // What may be over in use says nothing of what is over when solid.
        let found = match over(Level::Doubt) {
            Some(over) => [Some(over), None],
            None => [near(), over(Level::Note)],
        };
        let mut said = Vec::new();
        for (place, level, at) in found.into_iter().flatten() {
            let Some(stress) = at(coil) else { continue };
            let text = self.stress_words((who, what, *place), (stress, allowed), u(*at));
            said.push((if stays { *level } else { Level::Note }, text));
        }
        for (level, text) in said {
            self.push(level, "stress", field.to_owned(), text);
        }
        if coil.extrapolated {
            let text = message!(
                "{who}, {what}: the strength of this steel is known only for thinner wire and is extrapolated. Enter the tensile strength from the maker's sheet.",
                who,
                what
            );
            let field = field.replace("allowed_share", "tensile_strength");
            self.push(Level::Note, "strength-extrapolated", field, text);
        }
    }

    /// A stress that is over what is allowed, or may be.
    fn stress_words(
        &self,
        (who, what, place): (Word, Word, Word),
        (stress, allowed): (Stress, Stress),
        u: Option<f64>,
    ) -> Message {
        let (is_over, at) = (stress > allowed, self.against(stress, allowed, u));
        let allowed = Amount::rounded(allowed, self.units);
        if is_over {
            message!(
                "{who}, {what}: {stress} {place} is above the allowable {allowed}. The spring will set or crack sooner. Shot peening and presetting raise the limit: ask the maker.",
                who,
                what,
                place,
                stress = at,
                allowed
            )
        } else {
            message!(
                "{who}, {what}: {stress} {place}; the limit of {allowed} is within the ±. Measure wire and outside diameter again.",
                who,
                what,
                place,
                stress = at,
                allowed
            )
        }
    }

    fn offered(&mut self, axle: &AxleAnswer, coil: &CoilFacts) {
        let Some((sizing, spring)) = axle.sizing.as_ref().zip(axle.parts.spring).filter(|_| !axle.keeps()) else {
            return;
        };
        let band = &sizing.spring_rate;
        let off = (coil.rate / spring.pick).si() - 1.0;
        let u = self.u_axle(axle.side, |a| a.offered.as_ref().map(|c| c.rate.si()));
        if outside(coil.rate.si(), [band.low.si(), band.high.si()], u).is_some() && off.abs() > 0.03 {
            let text = message!(
                "{side}, offered spring: wire and coils give {rate}; the target range needs {low} to {high}.",
                side = axle.side.word(),
                rate = Amount::rounded(coil.rate, self.units),
                low = Amount::rounded(band.low, self.units),
                high = Amount::rounded(band.high, self.units)
            );
            self.push(Level::Doubt, "offer-outside", format!("{}.stock.coil.diameter", axle.side.key()), text);
        }
    }

    fn height_after_cutting(&self, rise: Length) -> Message {
        let by = self.length(Length::from_si(rise.si().abs()));
        match rise.si() < 0.0 {
            true => message!("the vehicle sits {by} lower than before", by),
            false => message!("the vehicle sits {by} higher than before", by),
        }
    }

    /// What cutting coils does, and why not.
    pub(in crate::solve::findings) fn cut_coils(&mut self, axle: &AxleAnswer) {
        let field = format!("{}.spring.cut", axle.side.key());
        if self.job().axle(axle.side).spring.cut.is_blank() {
            return;
        }
        let who = axle.side.word();
        let Some(cut) = axle.old_spring.cut else {
            let asked: Option<crate::base::units::Ratio> = self.reading.typed(&self.job().axle(axle.side).spring.cut);
            let active = axle.old_spring.coil.map(|c| c.wire.active);
            if let (Some(asked), Some(active)) = (asked, active)
                && asked.si() >= active
            {
                let text = message!(
                    "{who}: the spring has only {active} active coils; the number to cut off must be smaller.",
                    who,
                    active = Amount::significant(active, 3)
                );
                self.push(Level::Error, "cut-too-many", field, text);
                return;
            }
            let text = message!(
                "{who}: the effect of cutting can be calculated only for a coil spring of constant rate. Wire, coils, ends, and free or fitted length are needed.",
                who
            );
            self.push(Level::Note, "cut-unknown", field, text);
            return;
        };
        let mut why = vec![message!(
            "the spring becomes stiffer ({rate}) and shorter",
            rate = Amount::rounded(cut.rate, self.units)
        )];
        if let Some(rise) = cut.height_change {
            why.push(self.height_after_cutting(rise));
        }
        if let Some(room) = cut.on.stop_room().filter(|r| r.si() < 0.0) {
            why.push(message!(
                "this height is {room} past first contact with the bump stop",
                room = self.length(-room)
            ));
        }
        if let Some(seat) = cut.seat.filter(|s| s.si() < 0.0) {
            why.push(message!("the spring is loose on its seats by {seat} at full droop", seat = self.length(-seat)));
        }
        let why = Message::row(why, "; ");
        let text = if cut.coils.si() == 1.0 {
            message!(
                "{who}, cutting 1 coil: {why}. The new end is not closed and sits badly, and some inspectors reject cut coils. Have the right spring made.",
                who,
                why
            )
        } else {
            message!(
                "{who}, cutting {coils} coils: {why}. The new end is not closed and sits badly, and some inspectors reject cut coils. Have the right spring made.",
                who,
                coils = Amount::significant(cut.coils.si(), 3),
                why
            )
        };
        self.push(Level::Doubt, "cut", field, text);
    }
}

/// Free length of the spring as fitted, m.
fn free_length(axle: &AxleAnswer) -> Option<f64> {
    let new = axle.parts.spring.and_then(|s| s.free_length).filter(|_| !axle.keeps());
    new.or(axle.old_free_length).map(Quantity::si)
}
