//! What every sheet is built on: the job, its answer, the words, and how numbers are formatted.

use super::words::Words;
use super::{Block, Printed};
use crate::base::units::{Dim, Entry, Length, Mass, Origin, Quantity, UnitChoice, display};
use crate::job::{Finding, Job, Level, PerAxle, Side, SpringKind, fields, overrule};
use crate::report::phrases;
use crate::report::results::{Figure, Results};
use crate::solve::answer::{Answer, AxleAnswer, Lead};

/// One sheet being built.
#[derive(Clone, Copy)]
pub(super) struct Page<'a> {
    pub job: &'a Job,
    pub answer: &'a Answer,
    /// Every result, without its ±: sheets say none.
    pub results: &'a Results,
    /// What leads in place of new springs: in `job` and `answer` already, unless something must be measured first.
    pub leads: &'a PerAxle<Option<Lead>>,
    pub words: &'a Words,
    pub printed: Printed<'a>,
    /// The axle whose words its texts are filled with.
    pub side: Option<Side>,
}

/// The keys of an axle's words: "front axle", "front", "front springs", "front dampers".
const AXLE: PerAxle<&str> = PerAxle { front: "front.axle", rear: "rear.axle" };
const END: PerAxle<&str> = PerAxle { front: "front.end", rear: "rear.end" };
pub(super) const SPRINGS: PerAxle<&str> = PerAxle { front: "front.springs", rear: "rear.springs" };
pub(super) const DAMPERS: PerAxle<&str> = PerAxle { front: "front.dampers", rear: "rear.dampers" };

impl<'a> Page<'a> {
    pub fn units(&self) -> &'a UnitChoice {
        &self.job.units
    }

    /// The same page, each text filled with the words of this axle, too: `{axle}`, `{end}`, `{springs}`, `{dampers}`.
    pub fn on(&self, side: Side) -> Page<'a> {
        Page { side: Some(side), ..*self }
    }

    /// A text by its key.
    pub fn say(&self, key: &str, fill: &[(&str, &str)]) -> String {
        let Some(side) = self.side else { return self.words.say(key, fill) };
        let own = [("axle", AXLE), ("end", END), ("springs", SPRINGS), ("dampers", DAMPERS)];
        let own = own.map(|(name, keys)| (name, self.plain(keys[side])));
        let own = own.each_ref().map(|(name, words)| (*name, words.as_str()));
        self.words.say(key, &[fill, &own[..]].concat())
    }

    /// A text without placeholders.
    pub fn plain(&self, key: &str) -> String {
        self.words.say(key, &[])
    }

    /// A row for each of these that has a text, behind the words of its key.
    pub fn rows<'k>(&self, rows: impl IntoIterator<Item = (&'k str, Option<String>)>) -> Vec<Vec<String>> {
        rows.into_iter().filter_map(|(key, text)| Some(vec![self.plain(key), text?])).collect()
    }

    /// A number with the decimal mark of the language.
    pub fn mark(&self, number: &str) -> String {
        number.replace('.', &self.plain("number.mark"))
    }

    /// A quantity as a fitter would say it.
    pub fn qty<Q: Quantity>(&self, quantity: Q) -> String {
        self.mark(&display::rounded(quantity, self.units()))
    }

    /// A length to the tenth of a millimetre or the thousandth of an inch: diameters and the like.
    pub fn fine(&self, length: Length) -> String {
        let unit = self.units().unit(Dim::Length);
        let step_m = if unit.symbol == "in" { 1e-3 * unit.si } else { 1e-4 };
        self.mark(&display::full_si((length.si() / step_m).round() * step_m, Dim::Length, self.units()))
    }

    /// A quantity, or "not known".
    pub fn known<Q: Quantity>(&self, quantity: Option<Q>) -> String {
        quantity.map_or_else(|| self.plain("unknown"), |q| self.qty(q))
    }

    /// A result of an axle, when it is known.
    fn figure(&self, axle: &AxleAnswer, key: &str) -> Option<&'a Figure> {
        self.results.find(&format!("{}.{key}", axle.side.key())).filter(|figure| figure.si.is_some())
    }

    /// A result of an axle as a fitter would say it; `None` when it is not known.
    pub fn of(&self, axle: &AxleAnswer, key: &str) -> Option<String> {
        self.figure(axle, key).map(|figure| self.mark(&figure.said(self.units())))
    }

    /// The same, or "not known".
    pub fn of_or_unknown(&self, axle: &AxleAnswer, key: &str) -> String {
        self.of(axle, key).unwrap_or_else(|| self.plain("unknown"))
    }

    /// A result of an axle as a quantity.
    pub fn value<Q: Quantity>(&self, axle: &AxleAnswer, key: &str) -> Option<Q> {
        self.figure(axle, key).and_then(|figure| figure.si).map(Q::from_si)
    }

    /// "1,150 to 1,310 N": the ends of a band.
    pub fn range<Q: Quantity>(&self, axle: &AxleAnswer, low: &str, high: &str) -> Option<String> {
        let low: Q = self.value(axle, low)?;
        let low = self.mark(&display::rounded_number(low.si(), self.units().unit(Q::DIM)));
        Some(self.say("order.from_to", &[("low", &low), ("high", &self.of(axle, high)?)]))
    }

    /// "1.21".
    pub fn two_places(&self, number: f64) -> String {
        self.mark(&format!("{number:.2}"))
    }

    pub fn heading(&self, key: &str) -> Block {
        Block::Heading(self.plain(key))
    }

    pub fn text(&self, key: &str, fill: &[(&str, &str)]) -> Block {
        Block::Text(self.say(key, fill))
    }

    pub fn caution(&self, key: &str, fill: &[(&str, &str)]) -> Block {
        Block::Caution(self.say(key, fill))
    }

    /// "front axle".
    pub fn axle_words(&self, side: Side) -> String {
        self.plain(AXLE[side])
    }

    /// A price with the shop's currency: "120.00 EUR".
    pub fn money(&self, price: f64) -> String {
        let amount = self.mark(&format!("{price:.2}"));
        format!("{amount} {}", one_line(&self.job.prices.currency)).trim_end().to_owned()
    }

    /// "at the old height", "29 mm lower than before".
    pub fn height(&self, rise: Length) -> String {
        self.height_in(rise, ["height.same", "height.lower", "height.higher"])
    }

    /// The cheaper remedy in place of an axle's new springs, where there is one.
    pub fn lead(&self, axle: &AxleAnswer) -> Option<&'a Lead> {
        self.leads[axle.side].as_ref()
    }

    /// What should be checked of an axle before anything is ordered.
    pub fn doubts(&self, axle: &AxleAnswer) -> impl Iterator<Item = &'a Finding> {
        let own = axle.side.key();
        let open = |f: &&Finding| f.level == Level::Doubt && !f.is_overruled();
        self.answer.findings.iter().filter(open).filter(move |f| f.field.split('.').next() == Some(own))
    }

    /// What an engineer has overruled on an axle, each with its rule and values.
    pub fn overruled(&self, axle: &AxleAnswer) -> Vec<Block> {
        let mine = self.answer.findings.iter().filter(|f| f.is_overruled() && f.field.starts_with(axle.side.key()));
        mine.map(|f| {
            let values = overrule::values(self.job, &f.rests_on);
            self.caution("overruled", &[("text", &f.text.to_string()), ("rule", f.rule), ("values", values.as_str())])
        })
        .collect()
    }

    /// What is bought, as every text names it: "27 N/mm, 310 mm long", "F-2720, 27 N/mm, 310 mm long", "bars of 24.5 mm".
    /// `None` where nothing may be bought.
    pub fn bought(&self, axle: &AxleAnswer) -> Option<String> {
        let part = self.part(axle)?.parts();
        let spring = part.spring.as_ref()?;
        if let Some(bar) = &spring.bar {
            let bar = self.mark(&display::as_sold(bar.pick, self.units()));
            return Some(self.say("part.bar", &[("bar", &bar)]));
        }
        let long = spring.bought_length.map(|l| self.say("part.long", &[("length", &self.qty(l))]));
        let number = part.selected().map(one_line);
        let facts: Vec<String> = number.into_iter().chain([self.qty(spring.pick)]).chain(long).collect();
        Some(facts.join(", "))
    }

    /// The spacer of a spring that was taken; − for a seat that is lowered, none for nothing between.
    pub fn taken_spacer(&self, axle: &AxleAnswer) -> Option<Length> {
        self.part(axle)?.taken.as_ref()?;
        self.typed_of(axle, "taken.spacer", &self.job.axle(axle.side).taken.spacer).filter(|s: &Length| s.si() != 0.0)
    }

    /// Diameter of the new anti-roll bar; `None` where the old one stays, or the axle is withheld.
    pub fn roll_bar(&self, axle: &AxleAnswer) -> Option<Length> {
        self.part(axle)?.parts().roll_bar
    }

    /// "+1.0°, by the nearest spline": how a torsion bar is set from the old one's place.
    pub fn index_words(&self, axle: &AxleAnswer) -> Option<String> {
        Some(self.say("fit.index_by", &[("angle", &self.of(axle, "sizing.bar.index")?)]))
    }

    /// What raises old springs on their axle: "spacers", or "blocks" under a leaf.
    pub fn raised_by(&self, axle: &AxleAnswer) -> String {
        self.plain(if axle.kind == SpringKind::Leaf { "spacers.blocks" } else { "spacers.spacers" })
    }

    /// An axle's weight and whether it was read off scales: 0 before, 1 after.
    pub fn axle_weight(&self, when: usize, side: Side) -> Option<(Mass, bool)> {
        let read = [&self.answer.before, &self.answer.after][when].axle(side);
        let compared = self.answer.compared.weighed.both()[when].axle(side);
        match (read, compared) {
            // What was read stands for itself unless something was taken out or put in.
            (Some(read), Some(compared)) if (read - compared).si().abs() > 0.5 => Some((compared, false)),
            (Some(read), _) => Some((read, self.was_measured(when, side))),
            (None, compared) => compared.map(|m| (m, false)),
        }
    }

    /// What the scales showed under an axle, else its calculated weight; and whether it was read off scales.
    pub fn read_weight(&self, when: usize, side: Side) -> Option<(Mass, bool)> {
        let read = [&self.answer.before, &self.answer.after][when].axle(side);
        read.map(|m| (m, self.was_measured(when, side))).or_else(|| self.axle_weight(when, side))
    }

    /// "18 mm", "none: solid": the bore of a torsion bar, which the size is calculated with.
    pub fn bore_words(&self, axle: &AxleAnswer) -> String {
        let bore = &self.job.axle(axle.side).spring.bar.inside_diameter;
        let bore: Option<Length> = self.typed_of(axle, "spring.bar.inside_diameter", bore);
        bore.filter(|b| b.si() > 0.0).map_or_else(|| self.plain("order.bar_solid"), |b| self.fine(b))
    }

    /// The load case on which the springs are sized, if there is one, in the words of this key.
    pub fn sized_case_words(&self, key: &str) -> Option<String> {
        let case = self.job.cases.iter().find(|case| case.sized)?;
        Some(self.say(key, &[("case", &one_line(&case.name))]))
    }

    /// The load of the table, if not as weighed.
    pub fn load_words(&self) -> Option<String> {
        let case = self.job.cases.iter().find(|case| case.sized).map(|case| one_line(&case.name));
        match (case, self.is_brought_to_equal_load()) {
            (Some(case), true) => Some(self.say("table.equal_case", &[("case", &case)])),
            (Some(case), false) => Some(self.say("table.case", &[("case", &case)])),
            (None, true) => Some(self.plain("table.equal")),
            (None, false) => None,
        }
    }

    /// Readings were brought to an equal load.
    fn is_brought_to_equal_load(&self) -> bool {
        [0, 1].into_iter().flat_map(|when| Side::BOTH.map(|side| (when, side))).any(|(when, side)| {
            let (read, compared) = (self.read_weight(when, side), self.axle_weight(when, side));
            read.zip(compared).is_some_and(|(r, c)| r.0 != c.0)
        })
    }

    /// Of the readings that count for this axle, repeated ones too, none is a guess or a quotation: its corners if both
    /// were typed, else the axle.
    fn was_measured(&self, when: usize, side: Side) -> bool {
        let w = [&self.job.before, &self.job.after][when];
        let (corners, axle) = match side {
            Side::Front => ([&w.lf, &w.rf], &w.front),
            Side::Rear => ([&w.lr, &w.rr], &w.rear),
        };
        let again = w.repeats.iter().flat_map(|r| match side {
            Side::Front => [&r.lf, &r.rf],
            Side::Rear => [&r.lr, &r.rr],
        });
        let read = |e: &&Entry<Mass>| !e.text.trim().is_empty();
        let measured = |e: &Entry<Mass>| matches!(origin(e), None | Some(Origin::Measured));
        match corners.iter().all(read) {
            true => corners.into_iter().chain(again).filter(read).all(measured),
            false => measured(axle),
        }
    }
}

fn origin<Q: Quantity>(entry: &Entry<Q>) -> Option<Origin> {
    crate::base::units::entry::AnyEntry::origin(entry)
}

/// A name as it may stand in a line: without line breaks and tabs.
pub(super) fn one_line(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Several such names in a line, without those that are blank.
pub(super) fn listed<'n>(names: impl IntoIterator<Item = &'n String>) -> String {
    let names: Vec<String> = names.into_iter().map(|name| one_line(name)).filter(|name| !name.is_empty()).collect();
    names.join(", ")
}

impl Page<'_> {
    /// A value with the word for how it is known.
    pub fn tagged(&self, value: &str, measured: bool) -> String {
        self.say(if measured { "cell.measured" } else { "cell.estimated" }, &[("value", value)])
    }

    /// "as before", "29 mm lower".
    pub fn short_height(&self, rise: Length) -> String {
        self.height_in(rise, ["height.short.same", "height.short.lower", "height.short.higher"])
    }

    fn height_in(&self, rise: Length, [same, lower, higher]: [&str; 3]) -> String {
        let Some(amount) = phrases::amount(rise, self.units()) else { return self.plain(same) };
        let key = if rise.si() < 0.0 { lower } else { higher };
        self.say(key, &[("amount", &self.mark(&amount))])
    }

    /// Typed, and neither a guess nor a quotation.
    pub fn reading<Q: Quantity>(&self, entry: &Entry<Q>) -> bool {
        !entry.text.trim().is_empty() && matches!(origin(entry), None | Some(Origin::Measured))
    }

    /// A length as shown that is no longer than this.
    pub fn at_most(&self, length: Length) -> String {
        self.qty(display::stepped(length, self.units(), f64::floor))
    }

    /// A length as shown that is no shorter than this.
    pub fn at_least(&self, length: Length) -> String {
        self.qty(display::stepped(length, self.units(), f64::ceil))
    }

    /// "± 8 mm".
    pub fn within<Q: Quantity>(&self, off: Q) -> String {
        format!("± {}", self.qty(off))
    }

    /// A field of the job as typed, or its default, in the units shown.
    pub fn said<Q: Quantity>(&self, path: &str, entry: &Entry<Q>) -> String {
        let typed = self.typed(path, entry).map(|q| self.qty(q)).filter(|_| Q::DIM != Dim::Ratio);
        let blank = || Some(fields::by_path(path)?.0.in_units(self.default_text(path)?, self.units()).to_string());
        let as_typed = Some(entry.text.trim().to_owned()).filter(|t| !t.is_empty() && !self.answer.refuses(path));
        typed.or(as_typed).or_else(blank).map_or_else(|| self.plain("unknown"), |text| self.mark(&text))
    }

    fn default_text(&self, path: &str) -> Option<&'static str> {
        let (field, place) = fields::by_path(path)?;
        Some(field.when_blank(self.job, place.scope.side())?.0)
    }

    /// What was typed in a field, unless the solver refused it.
    pub fn typed<Q: Quantity>(&self, path: &str, entry: &Entry<Q>) -> Option<Q> {
        entry.read(self.job.decimal).ok().flatten().filter(|_| !self.answer.refuses(path))
    }

    /// The same of an axle's field.
    pub fn typed_of<Q: Quantity>(&self, axle: &AxleAnswer, key: &str, entry: &Entry<Q>) -> Option<Q> {
        self.typed(&format!("{}.{key}", axle.side.key()), entry)
    }
}

impl Page<'_> {
    /// The decimal mark of the language between digits, and nowhere else.
    pub fn mark_numbers(&self, text: &str) -> String {
        let mark = self.plain("number.mark");
        let chars: Vec<char> = text.chars().collect();
        let digit = |i: Option<usize>| i.and_then(|i| chars.get(i)).is_some_and(char::is_ascii_digit);
        let mut out = String::with_capacity(text.len());
        for (i, c) in chars.iter().enumerate() {
            if *c == '.' && digit(i.checked_sub(1)) && digit(Some(i + 1)) {
                out.push_str(&mark);
            } else {
                out.push(*c);
            }
        }
        out
    }
}
