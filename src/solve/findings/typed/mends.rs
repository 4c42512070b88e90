//! What mends a slip whose cause a finding names.

use super::mixed_up::USUAL_RATIO;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Angle, Dim, Quantity, Ratio, table};
use crate::job::read::MotionRatio;
use crate::job::{Finding, Level, Mend, RatioBy, Side, fields};
use crate::message;
use crate::solve::findings::Say;

impl Say<'_> {
    /// A finding with what would mend it.
    pub(in crate::solve::findings) fn push_with(
        &mut self,
        level: Level,
        rule: &'static str,
        field: impl Into<String>,
        text: impl Into<Message>,
        mends: impl IntoIterator<Item = Mend>,
    ) {
        let mends = mends.into_iter().collect();
        self.found.push(Finding { mends, ..Finding::new(level, rule, field, text) });
    }

    /// A motion ratio the other way up, by what it was typed as; `at` is `front.ratio` or `front.damper_ratio`. `None`
    /// for rows, and for an angle alone.
    pub(in crate::solve::findings) fn turned_over(&self, at: &str, ratio: &MotionRatio) -> Option<Mend> {
        let inverse = |r: Ratio| 1.0 / r.si();
        match ratio.by {
            RatioBy::Moved => {
                let label = Word("Swap the two travels");
                self.texts().swap(label, &format!("{at}.wheel_moved"), &format!("{at}.part_moved"))
            }
            RatioBy::Number => {
                let confirm = self.reading.typed(&ratio.confirm).map(inverse);
                let number = self.ratio_text(inverse(self.reading.typed(&ratio.number)?));
                let mend = Mend::new(message!("Use {ratio}", ratio = &number)).set(format!("{at}.number"), number);
                let confirmed = confirm.map(|c| self.ratio_text(c));
                Some(confirmed.into_iter().fold(mend, |mend, text| mend.set(format!("{at}.confirm"), text)))
            }
            RatioBy::Lean => {
                let arm = self.ratio_text(inverse(self.reading.typed(&ratio.arm)?));
                Some(Mend::new(message!("Use an arm ratio of {ratio}", ratio = &arm)).set(format!("{at}.arm"), arm))
            }
            RatioBy::Rows | RatioBy::Arm | RatioBy::Points => None,
        }
    }

    /// A bare motion ratio that was squared already, by its root.
    pub(in crate::solve::findings) fn not_squared(&self, at: &str, ratio: &MotionRatio) -> Option<Mend> {
        let number: Ratio = self.reading.typed(&ratio.number).filter(|_| ratio.by == RatioBy::Number)?;
        let root = |r: Ratio| self.ratio_text(r.si().sqrt());
        let mend = Mend::new(message!("Use {ratio}", ratio = root(number))).set(format!("{at}.number"), root(number));
        let confirmed = self.reading.typed(&ratio.confirm).map(root);
        Some(confirmed.into_iter().fold(mend, |mend, text| mend.set(format!("{at}.confirm"), text)))
    }

    /// The motion ratio as it was typed, confirmed.
    pub(in crate::solve::findings) fn keep_ratio(&self, at: &str, ratio: f64) -> Mend {
        let text = self.ratio_text(ratio);
        Mend::new(message!("Keep {ratio}", ratio = &text)).set(format!("{at}.confirm"), text)
    }

    /// What was asked for to confirm a number, or the number: each as both. Of an unusual and a usual one, the usual.
    pub(in crate::solve::findings) fn one_of(&self, at: &str, [confirm, number]: [f64; 2]) -> Vec<Mend> {
        let text = self.ratio_text(confirm);
        let use_it = Mend::new(message!("Use {ratio}", ratio = &text));
        let use_it = use_it.set(format!("{at}.number"), text.clone()).set(format!("{at}.confirm"), text);
        let both = [(confirm, use_it), (number, self.keep_ratio(at, number))];
        let is_usual = |(ratio, _): &(f64, Mend)| USUAL_RATIO.contains(ratio);
        let one_is = both.iter().any(is_usual);
        both.into_iter().filter(|ratio| !one_is || is_usual(ratio)).map(|(_, mend)| mend).collect()
    }

    /// Two typed fields, swapped.
    pub(in crate::solve::findings) fn swap(&self, one: &str, other: &str) -> Option<Mend> {
        let label = |path: &str| fields::by_path(path).map_or(Message::NOTHING, |(f, _)| f.label().into());
        let label = message!("Swap \"{one}\" and \"{other}\"", one = label(one), other = label(other));
        self.texts().swap(label, one, other)
    }

    /// The wheel travels of all rows of a motion ratio, their signs turned round.
    pub(in crate::solve::findings) fn turned_signs(&self, at: &str, rows: usize) -> Mend {
        let cells = (0..rows).map(|row| format!("{at}.rows[{row}].wheel"));
        let turned = cells.filter_map(|cell| self.texts().negated(&cell).map(|text| (cell, text)));
        Mend { label: message!("Reverse all signs of the wheel travel"), edits: turned.collect() }
    }

    /// Heights while loading and unloading, swapped in every row that has both.
    pub(in crate::solve::findings) fn swapped_branches(&self, side: Side, rows: usize) -> Mend {
        let cells = (0..rows).map(|row| format!("{}.spring.leaf.rows[{row}]", side.key()));
        let swapped = cells.filter_map(|row| {
            self.texts().swap("", &format!("{row}.loading"), &format!("{row}.unloading")).map(|m| m.edits)
        });
        Mend { label: message!("Swap loading and unloading"), edits: swapped.flatten().collect() }
    }

    /// An angle that was taken from upright, from level.
    pub(in crate::solve::findings) fn angle_from_level(&self, path: &str, angle: Angle) -> Mend {
        let degrees = (90.0 - angle.si().to_degrees().abs()) * angle.si().signum();
        let text = table::find(Dim::Angle, "°").map_or_else(String::new, |u| self.texts().written(degrees, u, 3));
        Mend::new(message!("Use {angle} from level", angle = &text)).set(path, text)
    }

    /// A ratio as it is typed.
    pub(in crate::solve::findings) fn ratio_text(&self, ratio: f64) -> String {
        table::find(Dim::Ratio, "").map_or_else(|| ratio.to_string(), |u| self.texts().written(ratio, u, 4))
    }
}
