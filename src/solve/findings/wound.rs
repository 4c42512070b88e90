//! Findings about a spring to be wound: which limit gives way, what its steel and its size ask for.

use super::Say;
use crate::base::units::{Length, Quantity, Ratio, UnitChoice, display};
use crate::job::Level;
use crate::say;
use crate::solve::answer::AxleAnswer;
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
    pub(super) fn wound(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let stock = &self.job().axle(axle.side).stock;
        let (is_asked, preset) = (!stock.coil.outside_diameter.is_blank(), stock.preset);
        let wires = self.texts().axle(axle.side).stock.wire_list(self.texts().decimal);
        let unread = wires.filter(|(_, size)| size.is_none()).map(|(text, _)| text.to_owned()).next();
        if let Some(text) = unread {
            self.push(Level::Error, "wire-unreadable", format!("{key}.stock.wire_step"), say!(
                "{who}: \"{text}\" in the list of wire sizes is not a length above zero. Write sizes with their unit and ; between them, as in 12 mm; 1/2 in.",
                who, text
            ));
        }
        let typed: Option<Ratio> = self.reading.typed(&stock.solid_share);
        if !preset && typed.is_some_and(|share| share.si() > NOT_PRESET_SOLID) {
            self.push(Level::Doubt, "solid-share-preset", format!("{key}.stock.solid_share"), say!(
                "{who}: more than 56 % of tensile strength when solid is for preset springs. 56 % is used; choose preset if the maker presets it.",
                who
            ));
        }
        let Some(wound) = axle.parts.wound.as_ref().filter(|_| is_asked) else { return };
        if !wound.holds() {
            let gives_way = wound.gives_way();
            let limits: Vec<String> = gives_way.iter().map(|l| over(wound, *l, self.units)).collect();
            let text = say!(
                "{who}, spring to be wound: no wire meets every limit. {wire} comes nearest: {limits}. A larger diameter, a better steel, presetting or a softer spring helps.",
                who,
                wire = display::as_sold(Length::from_si(wound.wire.diameter_m), self.units),
                limits = limits.join("; ")
            );
            // Beside a coil on offer it is another way; alone it is what is ordered. Too little room is no stress.
            let is_over_stress = gives_way.iter().any(|l| *l != WindingLimit::Room);
            let is_worthless = is_over_stress && axle.offered.is_none() && !axle.keeps();
            let found = ("wound-limit", format!("{key}.stock.coil.outside_diameter"));
            self.withhold_if(is_worthless, found, text, Self::of_axle(axle, &DESIGNED_BY));
        }
        if wound.is_extrapolated {
            self.push(Level::Note, "strength-extrapolated", format!("{key}.stock.coil.tensile_strength"), say!(
                "{who}, spring to be wound: the strength of this steel is known for thinner wire only and is read beyond that. Type the tensile strength from the maker's sheet.",
                who
            ));
        }
        if wound.is_hot() {
            self.push(Level::Note, "wound-hot", format!("{key}.stock.solid_share"), say!(
                "{who}, spring to be wound: wire this thick is coiled hot. Its limit when solid is taken as for cold-coiled wire, from memory: ask the maker.",
                who
            ));
        }
    }
}

/// "114 ksi when solid, 110 ksi allowed": by how much a limit of a spring to be wound is exceeded.
fn over(wound: &Wound, limit: WindingLimit, units: &UnitChoice) -> String {
    let stress = |s| display::rounded(s, units);
    match limit {
        WindingLimit::Bump => say!(
            "{stress} at full bump, {allowed} allowed",
            stress = stress(wound.stress),
            allowed = stress(wound.allowed)
        ),
        WindingLimit::Solid => say!(
            "{stress} when solid (without Wahl's factor), {allowed} allowed",
            stress = wound.plain_solid.map_or(String::new(), stress),
            allowed = stress(wound.allowed_solid)
        ),
        WindingLimit::Room => say!(
            "{solid} solid and {gaps} between the coils, {by} too long at full bump",
            solid = display::rounded(wound.solid_length, units),
            gaps = display::rounded(wound.clearance, units),
            by = wound.spare.map_or(String::new(), |spare| display::rounded(-spare, units))
        ),
    }
}
