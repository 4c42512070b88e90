//! Findings about what was measured of a spring: rows that stand off, sizes and tables that cannot be.

use super::Say;
use crate::job::{LeafBy, Level, RateBy, SpringKind, WireSizes};
use crate::solve::answer::{Answer, AxleAnswer};
use crate::solve::known::{is_blank, stop_table};
use crate::spring::{Points, Spring, press};
use crate::units::{Force, Length, Quantity, Ratio};
use crate::wheel::Rows;

impl Say<'_> {
    /// A row of a motion ratio that does not fit the others.
    pub(super) fn rows(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let checked = answer.checked(axle.side);
        for (part, rows) in [("ratio", &checked.ratio_rows), ("damper_ratio", &checked.damper_rows)] {
            if let Some(Rows { off: Some((row, by)), .. }) = rows {
                self.odd_row(axle, part, *row, *by);
            }
        }
    }

    fn odd_row(&mut self, axle: &AxleAnswer, part: &str, row: Option<usize>, by: Length) {
        let (who, key) = (axle.side.word(), axle.side.key());
        let by = self.length(Length::from_si(by.si().abs()));
        let name = if part == "ratio" { "spring" } else { "damper" };
        let filled = |n: usize| {
            let ratio = if part == "ratio" {
                &self.job().axle(axle.side).ratio
            } else {
                &self.job().axle(axle.side).damper_ratio
            };
            let rows = ratio.rows.iter().enumerate().filter(|(_, r)| !(is_blank(&r.wheel) && is_blank(&r.length)));
            rows.map(|(i, _)| i).nth(n).unwrap_or(n)
        };
        match row {
            Some(row) => {
                let row = filled(row);
                let text = format!(
                    "{who}, {name} rows: row {} is {by} off the curve through the others. Measure it again.",
                    row + 1
                );
                self.push(Level::Doubt, "row-off", format!("{key}.{part}.rows[{row}].length"), text);
            }
            None => {
                let text = format!(
                    "{who}, {name} rows: they lie up to {by} off any smooth curve. Measure them again, and one row more to tell which one is wrong."
                );
                self.push(Level::Doubt, "rows-off", format!("{key}.{part}.rows[0].length"), text);
            }
        }
    }

    /// Sizes that were typed, but cannot belong together.
    pub(super) fn spring_sizes(&mut self, axle: &AxleAnswer) {
        let data = &self.job().axle(axle.side).spring;
        let key = axle.side.key();
        self.wire_sizes(axle, &data.wire, "spring.wire");
        self.wire_sizes(axle, &self.job().axle(axle.side).stock.coil, "stock.coil");
        let read = |l| self.reader.typed::<Length>(l);
        let error = |say: &mut Self, rule, field: &str, text: &str| {
            say.push(Level::Error, rule, format!("{key}.{field}"), format!("{}: {text}", axle.side.word()));
        };
        let press = &data.press;
        if let (Some(first), Some(second), Some(f), Some(s)) = (
            read(&press.first_length),
            read(&press.second_length),
            self.reader.typed::<Force>(&press.first_load),
            self.reader.typed::<Force>(&press.second_load),
        ) && press::rate((first, f), (second, s)).is_none()
        {
            error(
                self,
                "press-contradicts",
                "spring.press.second_load",
                "in the press the shorter length must carry more. Check both lengths and both loads.",
            );
        }
        let (bar, leaf) = (&data.bar, &data.leaf);
        if let (Some(inside), Some(outside)) = (read(&bar.inside_diameter), read(&bar.diameter))
            && inside >= outside
        {
            error(
                self,
                "bar-bore",
                "spring.bar.inside_diameter",
                "the bore is not smaller than the bar. Measure both again.",
            );
        }
        if let (Some(clamped), Some(span)) = (read(&leaf.clamped), read(&leaf.span))
            && clamped >= span
        {
            error(
                self,
                "leaf-clamped",
                "spring.leaf.clamped",
                "the clamped length is not below the span. Measure both again.",
            );
        }
        let count = |l| self.reader.typed::<Ratio>(l);
        if let (Some(full), Some(all)) = (count(&leaf.full_length), count(&leaf.leaves))
            && full > all
        {
            error(self, "leaf-count", "spring.leaf.full_length", "there are more full-length leaves than leaves.");
        }
        self.tables(axle);
    }

    fn wire_sizes(&mut self, axle: &AxleAnswer, wire: &WireSizes, at: &str) {
        let (diameter, outside) = (self.reader.typed(&wire.diameter), self.reader.typed(&wire.outside_diameter));
        if let (Some(diameter), Some(outside)) = (diameter, outside)
            && outside - diameter <= diameter
        {
            let text = format!(
                "{}: a coil {} across cannot be wound of {} wire. Check both diameters and their units.",
                axle.side.word(),
                self.length(outside),
                self.length(diameter)
            );
            self.push(Level::Error, "wire-too-thick", format!("{}.{at}.outside_diameter", axle.side.key()), text);
        }
        let counted = is_blank(&wire.active_coils) && !is_blank(&wire.total_coils);
        if counted && wire.ends == crate::spring::Ends::Counted {
            let text = format!(
                "{}: with such ends the working coils are counted, not computed from all coils. Count them from where each end coil leaves its seat.",
                axle.side.word()
            );
            self.push(Level::Error, "count-coils", format!("{}.{at}.active_coils", axle.side.key()), text);
        }
    }

    /// Tables of loads that do not rise, and ride heights outside them.
    fn tables(&mut self, axle: &AxleAnswer) {
        let data = self.job().axle(axle.side);
        let key = axle.side.key();
        let both = |a: Option<f64>, b: Option<f64>| a.zip(b);
        let points: Vec<(f64, f64)> = data
            .spring
            .points
            .iter()
            .filter_map(|p| {
                both(self.reader.typed(&p.length).map(Quantity::si), self.reader.typed(&p.load).map(Quantity::si))
            })
            .collect();
        if data.spring.kind == SpringKind::Progressive && points.len() >= 2 {
            match Points::through(&points) {
                None => self.push(Level::Error, "points-fall", format!("{key}.spring.points[0].load"), format!(
                    "{}: the points of the progressive coil do not rise: a shorter spring must always carry more. Press it again.", axle.side.word())),
                Some(table) => self.beyond(axle, &table),
            }
        }
        let squeezed: Vec<(f64, f64)> = data
            .stop
            .rows
            .iter()
            .filter_map(|p| {
                both(self.reader.typed(&p.squeeze).map(Quantity::si), self.reader.typed(&p.load).map(Quantity::si))
            })
            .collect();
        if squeezed.len() > 1 && stop_table(squeezed).is_none() {
            self.push(
                Level::Error,
                "stop-falls",
                format!("{key}.stop.rows[0].load"),
                format!(
                    "{}: the bump stop's table must begin at nothing and rise with every row. Measure it again.",
                    axle.side.word()
                ),
            );
        }
        let loads = data.spring.leaf.rows.iter().filter_map(|r| self.reader.typed::<Force>(&r.load)).count();
        if data.spring.kind == SpringKind::Leaf
            && data.spring.leaf.by == LeafBy::Test
            && loads >= 2
            && axle.old_spring.leaf.is_none_or(|l| l.test.is_none())
        {
            self.push(
                Level::Error,
                "leaf-rises",
                format!("{key}.spring.leaf.rows[0].loading"),
                format!(
                    "{}: in the leaf test the height must fall as the load grows. Check heights and loads, row by row.",
                    axle.side.word()
                ),
            );
        }
    }

    /// The load lies outside the measured points of a progressive coil: the end slope is then only believed.
    fn beyond(&mut self, axle: &AxleAnswer, table: &Points) {
        let (short, long) = table.measured_m();
        for standing in [&axle.standing.before, &axle.standing.old].into_iter().flatten() {
            let Spring::Points(placed) = &standing.curve.spring else { continue };
            let at = standing.curve.spring_length.length(standing.travel).si() - placed.free_length_m()
                + table.free_length_m();
            if at < short || at > long {
                let text = format!(
                    "{}: at ride height the progressive coil would be {} long, outside the points measured ({} to {}). Its end slope is used there; press it at that length.",
                    axle.side.word(),
                    self.length(Length::from_si(at)),
                    self.length(Length::from_si(short)),
                    self.length(Length::from_si(long))
                );
                self.push(Level::Doubt, "outside-points", format!("{}.spring.points[0].length", axle.side.key()), text);
                return;
            }
        }
    }

    /// Which measured ways are filled in while another one counts.
    pub(super) fn unused_ways(&mut self, axle: &AxleAnswer) {
        let data = &self.job().axle(axle.side).spring;
        if data.kind == SpringKind::Coil && data.rate_by == RateBy::Stated && axle.old_spring.stated.is_none() {
            let way = match (axle.old_spring.by_wire, axle.old_spring.by_press) {
                (Some(_), Some(_)) => "wire and press",
                (Some(_), None) => "wire",
                (None, Some(_)) => "press",
                (None, None) => return,
            };
            let text = format!(
                "{}: the stated rate counts, but is blank; {way} would give one. Choose what counts.",
                axle.side.word()
            );
            self.push(Level::Doubt, "other-way-known", format!("{}.spring.rate", axle.side.key()), text);
        }
    }
}
