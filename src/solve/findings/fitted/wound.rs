//! Findings about a spring to be wound: which limit gives way, what its steel and its size ask for.

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Length, Quantity, Ratio, Stress, UnitChoice};
use crate::job::Level;
use crate::message;
use crate::solve::answer::AxleAnswer;
use crate::solve::findings::Say;
use crate::solve::findings::edge::is_near;
use crate::trade::spring::{NOT_PRESET_SOLID, WindingLimit, Wound};

/// What the design of a spring to be wound rests on, of an axle.
const DESIGNED_BY: [&str; 12] = [
    "stock.coil.outside_diameter",
    "stock.coil.tensile_strength",
    "stock.coil.allowed_share",
    "stock.coil.shear_modulus",
    "stock.solid_share",
    "stock.wire_step",
    "stock.step",
    "target.low",
    "target.high",
    "target.raise",
    "travel.metal",
    "spring.fitted_length",
];

impl Say<'_> {
    /// A spring to be wound: which limits give way, and what its steel and size ask for.
    pub(in crate::solve::findings) fn wound(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let stock = &self.job().axle(axle.side).stock;
        let (is_asked, preset) = (!stock.coil.outside_diameter.is_blank(), stock.preset);
        let wires = self.texts().axle(axle.side).stock.wire_list(self.texts().decimal);
        let unread = wires.filter(|(_, size)| size.is_none()).map(|(text, _)| text.to_owned()).next();
        if let Some(text) = unread {
            self.push(Level::Error, "wire-unreadable", format!("{key}.stock.wire_step"), message!(
                "{who}: \"{text}\" in the list of wire sizes is not a length above zero. Enter each size with its unit and put ; between the sizes, as in 12 mm; 1/2 in.",
                who, text
            ));
        }
        let typed: Option<Ratio> = self.reading.typed(&stock.solid_share);
        if !preset && typed.is_some_and(|share| share.si() > NOT_PRESET_SOLID) {
            self.push(Level::Doubt, "solid-share-preset", format!("{key}.stock.solid_share"), message!(
                "{who}: at solid length, more than 56 % of tensile strength applies only to preset springs, so 56 % is used. Choose preset if the maker presets the spring.",
                who
            ));
        }
        let Some(wound) = axle.parts.wound.as_ref().filter(|_| is_asked) else { return };
        if !wound.holds() {
            let gives_way = wound.gives_way();
            let limits: Vec<Message> = gives_way.iter().map(|l| over(wound, *l, self.units)).collect();
            let text = message!(
                "{who}, spring to be wound: no wire meets every limit. {wire} comes nearest: {limits}. A larger diameter, a better steel, presetting or a softer spring helps.",
                who,
                wire = Amount::as_sold(Length::from_si(wound.wire.diameter_m), self.units),
                limits = Message::row(limits, "; ")
            );
            // Beside a coil on offer it is another way; alone it is what is ordered. Too little room is no stress.
            let is_over_stress = gives_way.iter().any(|l| *l != WindingLimit::Room);
            let is_worthless = is_over_stress && axle.offered.is_none() && !axle.keeps();
            let found = ("wound-limit", format!("{key}.stock.coil.outside_diameter"));
            self.withhold_if(is_worthless, found, text, Self::of_axle(axle, &DESIGNED_BY));
        } else {
            self.wound_near(axle, wound);
        }
        if wound.is_extrapolated {
            self.push(Level::Note, "strength-extrapolated", format!("{key}.stock.coil.tensile_strength"), message!(
                "{who}, spring to be wound: the strength of this steel is known only for thinner wire and is extrapolated. Enter the tensile strength from the maker's sheet.",
                who
            ));
        }
        if wound.is_hot() {
            self.push(Level::Note, "wound-hot", format!("{key}.stock.solid_share"), message!(
                "{who}, spring to be wound: wire this thick is coiled hot. The limit used at solid length is the one for cold-coiled wire; its source was not checked: ask the maker to confirm it.",
                who
            ));
        }
    }

    /// A spring to be wound that meets its limits, one of them by less than its ±.
    fn wound_near(&mut self, axle: &AxleAnswer, wound: &Wound) {
        let near: Vec<Message> = WindingLimit::ALL
            .into_iter()
            .filter_map(|limit| {
                let u = self.u_axle(axle.side, |a| a.parts.wound.as_ref()?.left_to(limit))?;
                is_near(wound.left_to(limit)?, 0.0, Some(u)).then(|| self.nearly(wound, limit, u))
            })
            .collect();
        if near.is_empty() {
            return;
        }
        let text = message!(
            "{who}, spring to be wound from {wire}: {limits}. The margin is within the ±: ask the maker before ordering. Thicker wire lowers the stress but increases the solid length.",
            who = axle.side.word(),
            wire = Amount::as_sold(Length::from_si(wound.wire.diameter_m), self.units),
            limits = Message::row(near, "; ")
        );
        self.push(Level::Doubt, "wound-near", format!("{}.stock.coil.outside_diameter", axle.side.key()), text);
    }

    /// "110 ± 3 ksi at full bump, 112 ksi allowed": a limit that may be exceeded.
    fn nearly(&self, wound: &Wound, limit: WindingLimit, u: f64) -> Message {
        let stress = |s: Stress, allowed| self.against(s, allowed, Some(u));
        match limit {
            WindingLimit::Bump => {
                stress_at(Word("at full bump"), stress(wound.stress, wound.allowed), wound.allowed, self.units)
            }
            WindingLimit::Solid => {
                let at = wound.plain_solid.map_or(Message::NOTHING, |s| stress(s, wound.allowed_solid).into());
                stress_at(Word("at solid length (without the Wahl factor)"), at, wound.allowed_solid, self.units)
            }
            WindingLimit::Room => message!(
                "{spare} of room at full bump beyond solid length plus coil gaps",
                spare = self.against(wound.spare.unwrap_or_default(), Length::from_si(0.0), Some(u))
            ),
        }
    }
}

/// "114 ksi when solid, 110 ksi allowed": by how much a limit of a spring to be wound is exceeded.
fn over(wound: &Wound, limit: WindingLimit, units: &UnitChoice) -> Message {
    let stress = |s| Amount::rounded(s, units);
    match limit {
        WindingLimit::Bump => stress_at(Word("at full bump"), stress(wound.stress), wound.allowed, units),
        WindingLimit::Solid => {
            let at = wound.plain_solid.map_or(Message::NOTHING, |s| stress(s).into());
            stress_at(Word("at solid length (without the Wahl factor)"), at, wound.allowed_solid, units)
        }
        WindingLimit::Room => message!(
            "solid length {solid} plus coil gaps {gaps}: {by} too long at full bump",
            solid = Amount::rounded(wound.solid_length, units),
            gaps = Amount::rounded(wound.clearance, units),
            by = wound.spare.map_or(Message::NOTHING, |spare| Amount::rounded(-spare, units).into())
        ),
    }
}

/// "114 ksi when solid, 110 ksi allowed".
fn stress_at(place: Word, stress: impl Into<Message>, allowed: Stress, units: &UnitChoice) -> Message {
    message!(
        "{stress} {place}, {allowed} allowable",
        stress = stress.into(),
        place,
        allowed = Amount::rounded(allowed, units)
    )
}
