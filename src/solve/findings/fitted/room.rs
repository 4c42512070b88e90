//! Findings about the room that is left at both ends of the travel.

use super::heights::TAPE_M;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Length, Quantity};
use crate::job::{HeldBy, Level};
use crate::message;
use crate::solve::answer::{AxleAnswer, State};
use crate::solve::findings::Say;
use crate::solve::findings::edge::{below, is_near};

impl Say<'_> {
    /// Room to coil bind, on the seats, and at both ends of the damper.
    pub(in crate::solve::findings) fn room(&mut self, axle: &AxleAnswer) {
        let key = axle.side.key();
        let on = if axle.keeps() { Word("on the springs that stay") } else { State::NewSprings.words() };
        let who = Message::row([axle.side.word(), on], " ");
        let room = &axle.room;
        let bind = self.limit(|j| &j.limits.bind_room);
        let seat = self.limit(|j| &j.limits.seat_room);
        let damper = self.limit(|j| &j.limits.damper_room);
        // Past its end a part knows no leniency; short of it a tape does, and what may be short of it is said.
        let u_bind = self.u_axle(axle.side, |a| a.room.to_bind.map(Quantity::si));
        let is_less = |left: Length, least: Length| {
            left.si() < 0.0 || left.si() < least.si() - TAPE_M || is_near(left.si(), least.si(), u_bind)
        };
        let (binds, loose) = (room.to_bind.zip(bind), room.seat.zip(seat));
        let ends = [room.damper_bump, room.damper_droop].map(|left| left.zip(damper));
        // A spring that leaves its seats does so; how little compression is left knows its ±.
        let u_seat = self.u_axle(axle.side, |a| a.room.seat.map(Quantity::si));
        let little = |left: Length, least: Length| left.si() < -TAPE_M || below(left.si(), least.si(), u_seat);
        let (binds, loose) = (binds.filter(|b| is_less(b.0, b.1)), loose.filter(|b| little(b.0, b.1)));
        if let Some((left, least)) = binds {
            let text = self.binds(&who, left, least, u_bind);
            let is_sold = !axle.keeps() || axle.is_set_again();
            let is_worthless = left.si() < 0.0 && is_sold && self.is_solid_length_its_own(axle);
            let fields = ["stock.solid_length", "taken.solid_length", "travel.metal", "spring.fitted_length"];
            let rests_on = Self::of_axle(axle, &fields);
            self.withhold_if(is_worthless, ("bind", format!("{key}.stock.solid_length")), text, rests_on);
        }
        if let Some((left, least)) = loose {
            self.little_grip(axle, &who, left, least);
        }
        let damper = message!("{who}: the damper", who = &who);
        for (end, rule, field, closes) in
            [(ends[0], "damper-closed", "closed_length", true), (ends[1], "damper-open", "open_length", false)]
        {
            let Some((left, least)) = end else { continue };
            let u = self
                .u_axle(axle.side, |a| if closes { a.room.damper_bump } else { a.room.damper_droop }.map(Quantity::si));
            let Some(text) = self.damper_end(&damper, closes, (left, least), u) else { continue };
            self.push(Level::Doubt, rule, format!("{key}.damper.{field}"), text);
        }
    }

    /// Little compression left at full droop, or none.
    fn little_grip(&mut self, axle: &AxleAnswer, who: &Message, left: Length, least: Length) {
        let text = if left.si() < 0.0 {
            message!(
                "{who}: at full droop the spring is loose on its seats by {left} and can come off them. A helper spring, a longer, softer spring or less droop keeps it seated.",
                who,
                left = self.length(-left)
            )
        } else {
            message!(
                "{who}: only {left} of seat preload is left at full droop; the minimum is {least}.",
                who,
                left = self.length(left),
                least = self.length(least)
            )
        };
        let held = self.job().axle(axle.side).held_by;
        let is_settled = left.si() < 0.0 && held != HeldBy::NotSaid;
        let text = match is_settled {
            true => message!("{text} According to the job, {held} keeps it seated.", text, held = held.words()),
            false => text,
        };
        let level = if is_settled { Level::Note } else { Level::Doubt };
        self.push(level, "seat", format!("{}.travel.droop", axle.side.key()), text);
    }

    fn binds(&self, who: &Message, left: Length, least: Length, u: Option<f64>) -> Message {
        let is_past = left.si() < 0.0;
        let by = self.against(left, if is_past { Length::from_si(0.0) } else { least }, u);
        let is_held = left.si() >= least.si() - TAPE_M;
        let least = self.length(least);
        if is_past {
            message!(
                "{who}: coil bind comes {by} before full bump; the minimum room to coil bind is {least}. Choose a spring with a shorter solid length.",
                who,
                by,
                least
            )
        } else if is_held {
            message!(
                "{who}: {left} remains before coil bind at full bump; the minimum of {least} is within the ±. Measure solid length and bump travel again.",
                who,
                left = by,
                least
            )
        } else {
            message!(
                "{who}: {left} remains before coil bind at full bump; the minimum is {least}. Choose a spring with a shorter solid length.",
                who,
                left = by,
                least
            )
        }
    }

    /// The solid length of the new spring is its own, not that of the old one for lack of a better one.
    fn is_solid_length_its_own(&self, axle: &AxleAnswer) -> bool {
        let data = self.job().axle(axle.side);
        let typed = |entry| self.reading.typed::<Length>(entry).is_some();
        if typed(&data.left.solid_length) && typed(&data.right.solid_length) {
            return true;
        }
        match axle.parts.taken {
            Some(_) => typed(&data.taken.solid_length) || typed(&data.stock.solid_length),
            None => typed(&data.stock.solid_length) || axle.offered.is_some_and(|coil| coil.solid_length.is_some()),
        }
    }
}
