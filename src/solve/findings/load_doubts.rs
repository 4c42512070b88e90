//! Findings about the ledger of parts, load cases and ratings.

use super::Say;
use super::edge::below;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Length, Mass, Origin, Quantity, Ratio};
use crate::job::read::{Load, Read};
use crate::job::{Level, Mend, PartOn, Side, Way};
use crate::message;
use crate::solve::answer::{Answer, CaseAnswer, Measured, Rated, RatedPart, Vehicle};
use crate::trade::tyre;

impl Say<'_> {
    /// The worst case of every rating.
    pub(super) fn ratings(&mut self, answer: &Answer) {
        let amber = self.limit(|j| &j.limits.rating_amber).map_or(1.0, Quantity::si);
        let permitted = worst_of_each(answer.cases.iter().filter(|c| !c.what_if));
        for (case, rated) in permitted {
            let share = rated.share.si();
            let carries = self.carries(case, rated);
            let u = share_u(answer, case, rated);
            if rated.is_over() {
                let cure = match rated.part {
                    RatedPart::Tyre(_) => Word("Fit tyres rated for this load at their pressure, or reduce the load."),
                    RatedPart::Wheel(_) => Word("Fit wheels rated for this load, or reduce the load."),
                    RatedPart::Axle(_) => {
                        Word("Reduce the load on the axle, or have the axle re-rated by a licensed inspector.")
                    }
                    RatedPart::Vehicle => {
                        Word("Reduce the load, or have the vehicle re-rated by a licensed inspector.")
                    }
                };
                self.push(
                    Level::Stop,
                    "over-rating",
                    rated.part.field(),
                    message!(
                        "{carries}. No spring is recommended: a heavier spring does not raise a rating. {cure}",
                        carries,
                        cure
                    ),
                );
            } else if share >= amber || share + u > 1.0 {
                let text = match case.index {
                    None => message!("{carries}, not counting people and load still to be added.", carries),
                    Some(_) => Message::row([carries, ".".into()], ""),
                };
                let text = match share + u > 1.0 {
                    true => text.and(Word("The limit is within the ± of this load: weigh again.")),
                    false => text,
                };
                self.push(Level::Doubt, "near-rating", rated.part.field(), text);
            }
        }
        let what_if = worst_of_each(answer.cases.iter().filter(|c| c.what_if));
        for (case, rated) in what_if.into_iter().filter(|(_, r)| r.is_over()) {
            let carries = self.carries(case, rated);
            let text =
                message!("{carries}. This is only a what-if: the vehicle must not be driven like that.", carries);
            self.push(Level::Doubt, "what-if-over-rating", rated.part.field(), text);
        }
        self.beside(answer);
    }

    /// A tyre or wheel is rated, but not on which side a case lies.
    fn beside(&mut self, answer: &Answer) {
        let by_corner = |r: &Rated| matches!(r.part, RatedPart::Tyre(_) | RatedPart::Wheel(_));
        for case in answer.cases.iter().filter(|c| c.side_unknown && c.rated.iter().any(by_corner)) {
            let field = format!("cases[{}].loads[0].y", case.index.unwrap_or_default());
            self.push(Level::Doubt, "case-side", field, message!(
                "In \"{case}\" a load is off the centreline, but how it is shared between the tyres is not known: tyres and wheels are checked as if it were in the middle. Enter the wheelbase, both tracks and the data both axles need for a first answer.",
                case = &case.name
            ));
        }
    }

    /// A case in which an axle would carry less than nothing.
    pub(super) fn lifted(&mut self, answer: &Answer) {
        for case in answer.cases.iter() {
            for side in Side::BOTH {
                let Some(on_scales) = case.on_scales[side].filter(|m| m.si() < 0.0) else { continue };
                let field = case.index.map_or("after.lf".to_owned(), |i| format!("cases[{i}].loads[0].mass"));
                let weight = Amount::rounded(on_scales, self.units);
                let axle = side.axle();
                let text = match case.index {
                    Some(_) => message!(
                        "In \"{case}\" the {axle} would carry {weight}: it would lift off. The load case is not checked against the ratings. Check the masses and positions of its loads.",
                        case = &case.name,
                        axle = Message::from(axle).inside(),
                        weight
                    ),
                    None => message!(
                        "{axle}: after subtracting what was aboard when weighed, {weight} remains, which is impossible. Check the readings, and the masses and positions of what was aboard.",
                        axle,
                        weight
                    ),
                };
                self.push(Level::Error, "axle-lifts", field, text);
            }
        }
    }

    /// A case in which an axle rests on its bump stops, on the springs that will be fitted.
    pub(super) fn cases_on_stops(&mut self, answer: &Answer) {
        for (n, case) in answer.cases.iter().enumerate() {
            let Some(index) = case.index.filter(|_| !case.sized) else { continue };
            for axle in &answer.axles {
                let stands = case.standing[axle.side].new.as_ref().filter(|s| s.on.on_stop);
                let Some(past) = stands.and_then(|s| s.on.stop_room()) else { continue };
                let u =
                    self.u_vehicle(|v| Some(v.cases.get(n)?.standing[axle.side].new.as_ref()?.on.stop_room()?.si()));
                if !below(past.si(), 0.0, u) {
                    continue;
                }
                self.push(Level::Doubt, "case-on-stop", format!("cases[{index}].loads[0].mass"), message!(
                    "In \"{case}\" the {axle} sits {past} past first contact with the bump stop and stays on it: the ride is harsh, with no reserve. Reduce the load, level the axle with air bags, or size the springs on this case.",
                    case = &case.name, axle = Message::from(axle.side.axle()).inside(), past = self.length(-past)
                ));
            }
        }
    }

    /// "Front axle carries 96.2 % of its rating", "With \"towing\", a rear tyre carries …".
    fn carries(&self, case: &CaseAnswer, rated: &Rated) -> Message {
        let percent = rated.share.si() * 100.0;
        let who = match rated.part {
            RatedPart::Axle(side) => side.axle(),
            RatedPart::Tyre(Side::Front) => Word("A front tyre"),
            RatedPart::Tyre(Side::Rear) => Word("A rear tyre"),
            RatedPart::Wheel(Side::Front) => Word("A front wheel"),
            RatedPart::Wheel(Side::Rear) => Word("A rear wheel"),
            RatedPart::Vehicle => Word("The vehicle"),
        };
        let of = match rated.part {
            RatedPart::Tyre(_) => message!(
                "{percent:.1} % of the {allowed} that its load index and pressure allow",
                percent,
                allowed = Amount::rounded(rated.allowed, self.units)
            ),
            _ => message!("{percent:.1} % of its rating", percent),
        };
        match case.index {
            None => message!("{who} is loaded to {of}", who, of),
            Some(_) => {
                message!("In \"{case}\" {part} is loaded to {of}", of, case = &case.name, part = rated.part.words())
            }
        }
    }

    /// The ledger: rows that cannot be placed, what it predicted, what is missing.
    pub(super) fn ledger(&mut self, answer: &Answer) {
        let job = self.job();
        let needs_wheelbase = !job.parts.is_empty()
            || job.cases.iter().any(|c| !c.loads.is_empty() || !c.tongue.is_blank())
            || [&job.before, &job.after].iter().any(|w| !w.loads.is_empty());
        let wheelbase: Option<Length> = self.reading.typed(&job.vehicle.wheelbase);
        if needs_wheelbase && wheelbase.is_none() {
            self.push(Level::Error, "no-wheelbase", "vehicle.wheelbase",
                message!("Wheelbase: not known. Without it the parts and loads listed cannot be shared between the axles. Measure it from wheel centre to wheel centre."));
        }
        self.half_listed(answer);
        self.load_indices();
        self.sized_twice(answer);
        let [before, after] = answer.compared.origins.map(|origin| origin == Some(Origin::Ledger)).both();
        if before {
            self.push(Level::Note, "before-reckoned", "before.lf",
                message!("The vehicle was not weighed before the change: the weights before are worked back from the weigh-in after and the parts ledger."));
        }
        if after {
            self.push(Level::Note, "after-foretold", "after.lf",
                message!("The vehicle was not weighed after the change: the weights are predicted from the weigh-in before and the parts ledger. Order only parts that can be returned."));
        }
        self.left_over(answer);
    }

    /// Parts and loads that are listed by half, and a load on a hitch that is nowhere.
    fn half_listed(&mut self, answer: &Answer) {
        let job = self.job();
        for (i, part) in job.parts.iter().enumerate() {
            // With both weigh-ins the ledger is only compared.
            let level = if answer.compared.origins.both().contains(&Some(Origin::Ledger)) {
                Level::Error
            } else {
                Level::Doubt
            };
            self.half_row(level, &format!("parts[{i}]"), &part.mass, (part.on == PartOn::Body).then_some(&part.x));
        }
        for (when, weighing) in [("before", &job.before), ("after", &job.after)] {
            self.half_loads(Level::Error, &format!("{when}.loads"), &weighing.loads);
        }
        for (i, case) in job.cases.iter().enumerate() {
            let level = if case.what_if && !case.sized { Level::Doubt } else { Level::Error };
            self.half_loads(level, &format!("cases[{i}].loads"), &case.loads);
            if self.reading.typed(&case.tongue).is_some_and(|m: Mass| m.si() > 0.0)
                && self.reading.typed(&job.vehicle.hitch).is_none()
            {
                self.push(Level::Error, "no-hitch", "vehicle.hitch",
                    message!("Hitch ball, distance behind the rear axle: not known, but a load on the hitch is entered. Measure from the rear wheel centres back to the ball; until then the load case cannot be calculated."));
            }
        }
    }

    /// Load indices that no table knows.
    fn load_indices(&mut self) {
        let job = self.job();
        for side in Side::BOTH {
            let index: Option<Ratio> = self.reading.typed(&job.axle(side).load_index);
            if index.is_some_and(|i| tyre::load_index(i).is_none()) {
                self.push(
                    Level::Doubt,
                    "load-index",
                    format!("{}.load_index", side.key()),
                    message!(
                        "{side}: {typed} is not a load index in the table, which runs from {lowest} to {highest}. The tyres are not checked.",
                        side = side.word(), typed = self.texts().axle(side).load_index.text.trim(), lowest = tyre::LOWEST_INDEX,
                        highest = tyre::HIGHEST_INDEX
                    ),
                );
            }
        }
    }

    /// More than one load case to size on.
    fn sized_twice(&mut self, answer: &Answer) {
        let job = self.job();
        let sized: Vec<usize> = (0..job.cases.len()).filter(|i| job.cases[*i].sized).collect();
        if let [_, again, ..] = sized[..] {
            let names = sized.iter().filter_map(|i| answer.cases.get(i + 1)).map(|c| c.name.clone().quoted());
            let text = message!(
                "Springs can be sized on only one load case, but {cases} are marked. Leave only one of them marked.",
                cases = Message::row(names, ", ")
            );
            let mends: Vec<Mend> = sized
                .iter()
                .map(|kept| {
                    let others = sized.iter().filter(|i| *i != kept);
                    let mend = Mend::new(message!("Size on \"{case}\"", case = &job.cases[*kept].name));
                    others.fold(mend, |mend, i| mend.set(format!("cases[{i}].sized"), "false"))
                })
                .collect();
            self.withhold("sized-twice", format!("cases[{again}].tongue"), text, Vec::new()).mended(mends);
        }
    }

    /// Scales against ledger.
    fn left_over(&mut self, answer: &Answer) {
        let Some(ledger) = &answer.ledger else { return };
        let Some(residual) = ledger.axles.residual else { return };
        let beyond = |m: Measured| m.value.abs() > (2.0 * m.u).max(1.0);
        if !residual.iter().copied().any(beyond) {
            return;
        }
        let kg = |si: f64| Amount::rounded(Mass::from_si(si.abs()), self.units);
        let signed = |si: f64| Amount::change(Mass::from_si(si), self.units);
        let [front, rear] = ledger.axles.change.map(|m| m.value);
        let scales = [front + residual[0].value, rear + residual[1].value];
        let text = message!(
            "The parts ledger gives {front} at the front and {rear} at the rear; the scales show {scales_front} and {scales_rear}.",
            front = signed(front),
            rear = signed(rear),
            scales_front = signed(scales[0]),
            scales_rear = signed(scales[1])
        );
        // A mass that would sit far outside the vehicle is none: something listed lies elsewhere.
        let wheelbase_m = self.reading.typed(&self.job().vehicle.wheelbase).map_or(0.0, Length::si);
        let inside = |x: Length| (-1.5..wheelbase_m + 2.0).contains(&x.si());
        let why = match ledger.missing.filter(|(_, x)| inside(*x)) {
            Some((mass, x)) => {
                let mut place = self.along(x);
                if let Some(y) = answer.whole.ledger.and_then(|l| l.missing_right) {
                    place = Message::row([place, self.across(y)], ", ");
                }
                if mass.si() > 0.0 {
                    message!(
                        "{mass} is missing from the parts ledger, at a point {place}.",
                        mass = kg(mass.si()),
                        place
                    )
                } else {
                    message!("The parts ledger has {mass} too much, at a point {place}.", mass = kg(mass.si()), place)
                }
            }
            None if residual[0].value > residual[1].value => {
                message!("Hardly any mass is missing: something is further forward than listed.")
            }
            None => message!("Hardly any mass is missing: something is further back than listed."),
        };
        let text = text.and(why).and(Word("Look for fluids, brackets, exhaust parts or a relocated battery."));
        let mends = self.other_way(residual, &beyond);
        self.push_with(Level::Doubt, "ledger-residual", "parts[0].mass", text, mends);
    }

    /// A part that was listed as coming out where it goes in, or the reverse: with it turned, scales and ledger agree.
    fn other_way(&self, residual: [Measured; 2], beyond: &dyn Fn(Measured) -> bool) -> Vec<Mend> {
        let (job, rows) = (self.job(), self.reading.parts());
        if rows.len() != job.parts.len() {
            return Vec::new();
        }
        let turned = rows.iter().zip(&job.parts).enumerate().filter_map(|(i, (row, part))| {
            let weighs = self.reading.on_axles(&[*row])?;
            // What is predicted changes by twice the part.
            let weighs = weighs.both();
            let left = [0, 1].map(|a| Measured { value: residual[a].value + 2.0 * weighs[a].si(), ..residual[a] });
            if left.into_iter().any(beyond) {
                return None;
            }
            let what = if part.what.trim().is_empty() { (i + 1).to_string() } else { part.what.trim().to_owned() };
            let (label, way) = match part.way {
                Way::In => (message!("List part {what} as removed", what), "Out"),
                Way::Out => (message!("List part {what} as added", what), "In"),
            };
            Some(Mend::new(label).set(format!("parts[{i}].way"), way))
        });
        turned.take(2).collect()
    }

    /// "0.4 m behind the front axle".
    fn along(&self, x: Length) -> Message {
        let distance = self.length(Length::from_si(x.si().abs()));
        if x.si() < 0.0 {
            message!("{distance} ahead of the front axle", distance)
        } else {
            message!("{distance} behind the front axle", distance)
        }
    }

    /// "0.3 m right of the middle".
    fn across(&self, y: Length) -> Message {
        let distance = self.length(Length::from_si(y.si().abs()));
        if y.si() < 0.0 {
            message!("{distance} left of the centreline", distance)
        } else {
            message!("{distance} right of the centreline", distance)
        }
    }

    fn half_loads(&mut self, level: Level, list: &str, loads: &[Load]) {
        for (i, load) in loads.iter().enumerate() {
            self.half_row(level, &format!("{list}[{i}]"), &load.mass, Some(&load.x));
        }
    }

    /// A row with a mass but no place, or the other way round.
    fn half_row(&mut self, level: Level, row: &str, mass: &Read<Mass>, x: Option<&Read<Length>>) {
        let typed_mass = !mass.is_blank();
        let typed_x = x.is_none_or(|x| !x.is_blank());
        if typed_mass == typed_x || (!typed_mass && x.is_none()) {
            return;
        }
        let field = format!("{row}.{}", if typed_mass { "x" } else { "mass" });
        let label = crate::job::fields::full_label(&field);
        let text = if typed_mass && row.starts_with("parts") {
            message!("{label}: blank. The row is left out until its position is entered.", label)
        } else if typed_mass {
            message!(
                "{label}: blank. The load cannot be shared between the axles until its position is entered; the vehicle's total includes it.",
                label
            )
        } else {
            message!("{label}: blank. The row is left out until its mass is entered.", label)
        };
        self.push(level, "half-row", field, text);
    }
}

/// The worst load of every part that is rated.
fn worst_of_each<'a>(cases: impl Iterator<Item = &'a CaseAnswer>) -> Vec<(&'a CaseAnswer, &'a Rated)> {
    let mut worst: Vec<(&CaseAnswer, &Rated)> = Vec::new();
    for (case, rated) in cases.flat_map(|c| c.rated.iter().map(move |r| (c, r))) {
        match worst.iter_mut().find(|w| w.1.part == rated.part) {
            Some(known) if known.1.share < rated.share => *known = (case, rated),
            Some(_) => {}
            None => worst.push((case, rated)),
        }
    }
    worst
}

/// ± of a load over its rating; 0 when it is not known.
fn share_u(answer: &Answer, case: &CaseAnswer, rated: &Rated) -> f64 {
    let same = |v: &Vehicle| {
        let case = v.cases.iter().find(|c| c.index == case.index)?;
        Some(case.rated.iter().find(|r| r.part == rated.part)?.share.si())
    };
    answer.moved.u_of(same).unwrap_or(0.0)
}
