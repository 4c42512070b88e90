//! Findings about the ledger of parts, load cases and ratings.

use super::Say;
use crate::job::{Level, Load, PartOn, Side};
use crate::solve::answer::{Answer, CaseAnswer, Measured, Rated, RatedPart};
use crate::tyre;
use crate::units::{Entry, Length, Mass, Origin, Quantity, Ratio, display};

impl Say<'_> {
    /// The worst case of every rating.
    pub(super) fn ratings(&mut self, answer: &Answer) {
        let amber = self.limit(|j| &j.limits.rating_amber).map_or(1.0, Quantity::si);
        let mut worst: Vec<(&CaseAnswer, &Rated)> = Vec::new();
        for (case, rated) in answer.cases.iter().flat_map(|c| c.rated.iter().map(move |r| (c, r))) {
            match worst.iter_mut().find(|w| w.1.part == rated.part) {
                Some(known) if known.1.share < rated.share => *known = (case, rated),
                Some(_) => {}
                None => worst.push((case, rated)),
            }
        }
        for (case, rated) in worst {
            let share = rated.share.si();
            let carries = self.carries(case, rated);
            if share > 1.0 {
                let cure = match rated.part {
                    RatedPart::Tyre(_) => "Fit tyres that carry it at their pressure, or take weight off.",
                    RatedPart::Wheel(_) => "Fit wheels that carry it, or take weight off.",
                    RatedPart::Axle(_) => "Take weight off the axle, or have it re-rated by a licensed body.",
                    RatedPart::Vehicle => "Take weight off, or have it re-rated by a licensed body.",
                };
                self.push(
                    Level::Stop,
                    "over-rating",
                    rated.part.field(),
                    format!("{carries}. No spring is recommended: a heavier spring raises no rating. {cure}"),
                );
            } else if share >= amber {
                let rest = match case.index {
                    None => ", without the people and load it may still take on",
                    Some(_) => "",
                };
                self.push(Level::Doubt, "near-rating", rated.part.field(), format!("{carries}{rest}."));
            }
        }
    }

    /// "Front axle carries 96.2 % of its rating", "With \"towing\", a rear tyre carries …".
    fn carries(&self, case: &CaseAnswer, rated: &Rated) -> String {
        let percent = rated.share.si() * 100.0;
        let who = match rated.part {
            RatedPart::Axle(side) => format!("{} axle", side.word()),
            RatedPart::Tyre(side) => format!("A {} tyre", side.key()),
            RatedPart::Wheel(side) => format!("A {} wheel", side.key()),
            RatedPart::Vehicle => "The vehicle".to_owned(),
        };
        let of = match rated.part {
            RatedPart::Tyre(_) => format!(
                "{percent:.1} % of the {} that its load index and pressure allow",
                display::rounded(rated.allowed, self.units)
            ),
            _ => format!("{percent:.1} % of its rating"),
        };
        match case.index {
            None => format!("{who} carries {of}"),
            Some(_) => format!("In \"{}\" {} carries {of}", case.name, rated.part.words()),
        }
    }

    /// The ledger: rows that cannot be placed, what it foretold, what is missing.
    pub(super) fn ledger(&mut self, answer: &Answer) {
        let job = self.job();
        let needs_wheelbase = !job.parts.is_empty()
            || job.cases.iter().any(|c| !c.loads.is_empty() || !c.tongue.text.trim().is_empty())
            || [&job.before, &job.after].iter().any(|w| !w.loads.is_empty());
        let wheelbase: Option<Length> = self.reader.typed(&job.vehicle.wheelbase);
        if needs_wheelbase && wheelbase.is_none() {
            self.push(Level::Error, "no-wheelbase", "vehicle.wheelbase",
                "Wheelbase: not known. Parts and loads are listed, but without it nobody can say what they weigh on which axle. Measure it from wheel centre to wheel centre.".into());
        }
        for (i, part) in job.parts.iter().enumerate() {
            self.half_row(&format!("parts[{i}]"), &part.mass, (part.on == PartOn::Body).then_some(&part.x));
        }
        for (when, weighing) in [("before", &job.before), ("after", &job.after)] {
            self.half_loads(&format!("{when}.loads"), &weighing.loads);
        }
        for (i, case) in job.cases.iter().enumerate() {
            self.half_loads(&format!("cases[{i}].loads"), &case.loads);
            if self.reader.typed(&case.tongue).is_some_and(|m: Mass| m.si() > 0.0)
                && self.reader.typed(&job.vehicle.hitch).is_none()
            {
                self.push(Level::Error, "no-hitch", "vehicle.hitch",
                    "Hitch behind the rear axle: not known, but a load on the hitch is typed. Measure from the rear wheel centres back to the ball; the load case is not known until then.".into());
            }
        }
        for side in Side::BOTH {
            let index: Option<Ratio> = self.reader.typed(&job.axle(side).load_index);
            if index.is_some_and(|i| i.si().fract() != 0.0 || tyre::table_capacity(i.si() as u32).is_none()) {
                self.push(
                    Level::Doubt,
                    "load-index",
                    format!("{}.load_index", side.key()),
                    format!(
                        "{}: {} is no load index of the table, which goes from {} to 126. The tyres are not checked.",
                        side.word(),
                        job.axle(side).load_index.text.trim(),
                        tyre::LOWEST_INDEX
                    ),
                );
            }
        }
        let sized = job.cases.iter().filter(|c| c.sized).count();
        if sized > 1 {
            self.push(Level::Doubt, "sized-twice", "cases[0].tongue",
                "More than one load case says that springs are sized on it. The first one counts; take the mark off the others.".into());
        }
        for (when, origin) in ["before", "after"].iter().zip(answer.compared.origins) {
            if origin == Some(Origin::Ledger) {
                let (said, rule) = match *when {
                    "before" => ("reckoned back from the weigh-in after and the ledger of parts", "before-reckoned"),
                    _ => (
                        "foretold from the weigh-in before and the ledger of parts; order nothing on it that cannot be sent back",
                        "after-foretold",
                    ),
                };
                self.push(
                    Level::Note,
                    rule,
                    format!("{when}.lf"),
                    format!("The weights {when} were not weighed: they are {said}."),
                );
            }
        }
        self.left_over(answer);
    }

    /// Scales against ledger.
    fn left_over(&mut self, answer: &Answer) {
        let Some(ledger) = &answer.ledger else { return };
        let Some(residual) = ledger.axles.residual else { return };
        let beyond = |m: Measured| m.value.abs() > (2.0 * m.u).max(1.0);
        if !residual.iter().copied().any(beyond) {
            return;
        }
        let kg = |si: f64| display::rounded(Mass::from_si(si.abs()), self.units);
        let signed = |si: f64| format!("{}{}", if si < 0.0 { "−" } else { "+" }, kg(si));
        let [front, rear] = ledger.axles.change.map(|m| m.value);
        let scales = [front + residual[0].value, rear + residual[1].value];
        let mut text = format!(
            "The ledger says {} in front and {} behind, the scales say {} and {}.",
            signed(front),
            signed(rear),
            signed(scales[0]),
            signed(scales[1])
        );
        // A mass that would sit far outside the vehicle is none: something listed lies elsewhere.
        let wheelbase_m = self.reader.typed(&self.job().vehicle.wheelbase).map_or(0.0, Length::si);
        let inside = |x: Length| (-1.5..wheelbase_m + 2.0).contains(&x.si());
        match ledger.missing.filter(|(_, x)| inside(*x)) {
            Some((mass, x)) => {
                let what = if mass.si() > 0.0 { "is missing in the ledger" } else { "is too much in it" };
                let way = if x.si() < 0.0 { "ahead of" } else { "behind" };
                let place = display::rounded(Length::from_si(x.si().abs()), self.units);
                let across =
                    answer.whole.ledger.and_then(|l| l.missing_right).map_or(String::new(), |y| self.across(y));
                text += &format!(" {} {what}; it would sit {place} {way} the front axle{across}.", kg(mass.si()));
            }
            None => {
                let way = if residual[0].value > residual[1].value { "forward" } else { "back" };
                text += &format!(" Hardly any mass is missing: something lies further {way} than listed.");
            }
        }
        text += " Look for fluids, brackets, exhaust, a battery that moved.";
        self.push(Level::Doubt, "ledger-residual", "parts[0].mass", text);
    }

    /// ", 0.3 m right of the middle".
    fn across(&self, y: Length) -> String {
        let side = if y.si() < 0.0 { "left" } else { "right" };
        format!(", {} {side} of the middle", display::rounded(Length::from_si(y.si().abs()), self.units))
    }

    fn half_loads(&mut self, list: &str, loads: &[Load]) {
        for (i, load) in loads.iter().enumerate() {
            self.half_row(&format!("{list}[{i}]"), &load.mass, Some(&load.x));
        }
    }

    /// A row with a mass but no place, or the other way round.
    fn half_row(&mut self, row: &str, mass: &Entry<Mass>, x: Option<&Entry<Length>>) {
        let typed_mass = !mass.text.trim().is_empty();
        let typed_x = x.is_none_or(|x| !x.text.trim().is_empty());
        if typed_mass == typed_x || (!typed_mass && x.is_none()) {
            return;
        }
        let (field, what) = if typed_mass { ("x", "its place") } else { ("mass", "its mass") };
        let label = crate::job::fields::full_label(&format!("{row}.{field}"));
        self.push(
            Level::Doubt,
            "half-row",
            format!("{row}.{field}"),
            format!("{label}: blank. The row is left out until {what} is typed."),
        );
    }
}
