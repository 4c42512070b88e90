//! How a parts list was read: what each column means, which rows cannot be used, and how to say it better.

use std::mem::discriminant;
use std::path::{Path, PathBuf};

use eframe::egui::{CollapsingHeader, DragValue, Label, RichText, Ui, WidgetInfo, vec2};

use crate::base::language::{mark, path_text, tr};
use crate::base::message::Message;
use crate::base::units::{DecimalMark, Dim, table};
use crate::gui::background::choosing::{Counts, Listed, Mapping};
use crate::gui::screens::choose::combo;
use crate::gui::screens::with_either_mark;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, ListCommand};
use crate::gui::widgets::field::finding_line;
use crate::gui::widgets::long;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::{self, UNIT};
use crate::job::Level;
use crate::report::Block;
use crate::say;
use crate::shop::lists::ShopError;
use crate::shop::parts::{BadRow, Column, Columns, Meaning};

const BAD_ROW: f32 = 40.0;
const BAD_ROWS: f32 = 240.0;
/// The speed a force column gets before its own is chosen, m/s.
const FIRST_SPEED: f64 = 0.1;
const DELIMITERS: [(char, &str); 3] = [(',', "commas"), (';', "semicolons"), ('\t', "tabs")];

/// "65 springs, 14 dampers, 0 rows that cannot be used".
pub fn counted(springs: usize, dampers: usize, bad: usize) -> String {
    let dampers = if dampers == 1 { tr("1 damper").to_owned() } else { say!("{dampers} dampers", dampers) };
    format!("{}, {dampers}, {}", springs_counted(springs), unusable(bad))
}

/// "65 springs".
pub fn springs_counted(springs: usize) -> String {
    if springs == 1 { tr("1 spring").to_owned() } else { say!("{springs} springs", springs) }
}

fn unusable(rows: usize) -> String {
    if rows == 1 { tr("1 unusable row").to_owned() } else { say!("{rows} unusable rows", rows) }
}

/// What is shown: the columns being chosen, or those of the open list.
struct Shown {
    path: Option<PathBuf>,
    columns: Columns,
    is_new: bool,
    is_edited: bool,
}

/// What the file holds with the columns being chosen, as last counted.
fn tried<'a>(cx: &Cx<'a>) -> Option<&'a Result<Counts, ShopError>> {
    cx.choosing.tried(cx.view.mapping.as_ref()?)
}

fn shown(cx: &Cx<'_>) -> Option<Shown> {
    if let Some(Mapping { path, is_new, columns }) = cx.view.mapping.clone() {
        return Some(Shown { path: Some(path), columns, is_new, is_edited: true });
    }
    let Listed::Open(list) = cx.choosing.list() else { return None };
    let opened = &list.opened;
    Some(Shown { path: opened.path.clone(), columns: opened.columns.clone(), is_new: false, is_edited: false })
}

/// Draws what unfolds: open by itself while a file's columns are not chosen.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let must_say =
        cx.view.mapping.as_ref().is_some_and(|m| m.is_new) || matches!(cx.choosing.list(), Listed::Failed(_));
    let header =
        CollapsingHeader::new(if must_say { tr("What the columns mean") } else { tr("How the list was read") })
            .id_salt("columns")
            .open(must_say.then_some(true));
    let has_any = cx.view.mapping.is_some() || matches!(cx.choosing.list(), Listed::Open(_));
    if !has_any {
        return;
    }
    header.show(ui, |ui| {
        let Some(shown) = shown(cx) else { return };
        file_name(ui, cx, &shown);
        counts(ui, cx, &shown);
        let Some(path) = &shown.path else {
            as_they_are(ui, cx);
            return;
        };
        let mut columns = shown.columns.clone();
        likely_units(ui, cx, &mut columns);
        let parted = said(ui, &mut columns);
        if columns != shown.columns || (parted.is_some() && !shown.is_edited) {
            cx.view.mapping = Some(Mapping { path: path.clone(), is_new: shown.is_new, columns });
        }
        if let Some(delimiter) = parted {
            cx.run(Command::List(ListCommand::PartedBy(delimiter)));
        }
        buttons(ui, cx, &shown);
        ui.add_space(UNIT);
    });
}

/// The units that most likely are meant where none is named: proposed together, and confirmed by one press.
fn likely_units(ui: &mut Ui, cx: &Cx<'_>, columns: &mut Columns) {
    let Some(likely) = cx.view.mapping.as_ref().map(|m| cx.choosing.likely(m)).filter(|l| !l.is_empty()) else {
        return;
    };
    let named = likely.iter().filter_map(|(i, unit)| Some((columns.columns.get(*i)?, unit)));
    let named: Vec<String> = named.map(|(column, unit)| format!("{} {}", column.header, unit.symbol)).collect();
    let words = say!(
        "These columns have no unit. Judging by the numbers, the units are most likely: {units}.",
        units = named.join(", ")
    );
    ui.add(Label::new(words).wrap());
    if ui.button(tr("Use these units")).clicked() {
        for (i, unit) in likely {
            if let Some(column) = columns.columns.get_mut(*i) {
                column.unit = Some(unit.symbol.to_owned());
            }
        }
    }
    ui.add_space(0.5 * UNIT);
}

/// The columns of a list that ships, as a table.
fn as_they_are(ui: &mut Ui, cx: &Cx<'_>) {
    let Listed::Open(list) = cx.choosing.list() else { return };
    let report = crate::report::sections::parts_rows::build(&list.opened.columns, &list.opened.list);
    for block in report.blocks.iter().filter(|b| matches!(b, Block::Table { .. })).take(1) {
        tables::table(ui, "columns", block);
    }
}

fn file_name(ui: &mut Ui, cx: &Cx<'_>, shown: &Shown) {
    let Some(path) = &shown.path else {
        ui.small(tr("The demo list comes with the program: its columns are fixed."));
        return;
    };
    let name = path_text(path.file_name().map_or(path.as_path(), Path::new));
    ui.add(Label::new(say!("File: {name}", name)).truncate()).on_hover_text(path_text(path));
    if shown.is_new && cx.choosing.names().contains(&name) {
        let words =
            tr("The shop already has a list with this name. Using these columns replaces that list with this file.");
        finding_line(ui, Level::Doubt, words, cx.dark);
    }
}

/// How many parts the columns give, what was interpreted, and the rows that cannot be used.
fn counts(ui: &mut Ui, cx: &Cx<'_>, shown: &Shown) {
    if !shown.is_edited {
        if let Listed::Open(list) = cx.choosing.list() {
            let read = &list.opened.list;
            notes(ui, &read.notes);
            bad_rows(ui, &read.bad);
        }
        return;
    }
    match tried(cx) {
        None => drop(ui.label(tr("With these columns: counting…"))),
        Some(Ok(found)) => {
            let words = counted(found.springs, found.dampers, found.bad.len());
            ui.label(RichText::new(say!("With these columns: {words}", words)).family(theme::bold()));
            notes(ui, &found.notes);
            bad_rows(ui, &found.bad);
        }
        Some(Err(why)) => {
            let why = in_short(why);
            drop(finding_line(ui, Level::Error, &say!("Nothing can be read with these columns: {why}.", why), cx.dark))
        }
    }
}

/// What is wrong with a list, without its path.
fn in_short(error: &ShopError) -> String {
    match error {
        ShopError::List { source, .. } => source.to_string(),
        other => other.to_string(),
    }
}

fn notes(ui: &mut Ui, notes: &[Message]) {
    if !notes.is_empty() {
        let said = Message::row(notes, ". ");
        ui.add(Label::new(RichText::new(format!("{said}.")).small()).wrap());
    }
}

/// The rows that cannot be used: line, reason, and the row as it is.
fn bad_rows(ui: &mut Ui, bad: &[BadRow]) {
    if bad.is_empty() {
        return;
    }
    CollapsingHeader::new(unusable(bad.len())).id_salt("bad rows").default_open(true).show(ui, |ui| {
        long::show(ui, "bad", BAD_ROW, bad.len(), BAD_ROWS, |ui, i| {
            let Some(row) = bad.get(i) else { return };
            ui.spacing_mut().item_spacing.y = 0.0;
            ui.vertical(|ui| {
                ui.add(Label::new(say!("line {line}: {reason}", line = row.line, reason = row.reason)).truncate());
                ui.add(Label::new(RichText::new(&row.text).small().weak()).truncate());
            });
        });
    });
}

/// A line for each column. Gives back a new way of parting them, if it was asked for.
fn said(ui: &mut Ui, columns: &mut Columns) -> Option<Option<char>> {
    let mut parted = None;
    ui.horizontal(|ui| {
        ui.label(tr("Columns separated by"));
        let word = |sign: Option<char>| {
            let known = DELIMITERS.iter().find(|(d, _)| Some(*d) == sign).map(|(_, w)| tr(w).to_owned());
            known.or(sign.map(String::from)).unwrap_or_else(|| tr("automatic").into())
        };
        combo(ui, "delimiter", tr("Columns separated by"), &word(columns.delimiter), 110.0, |ui| {
            for sign in [None].into_iter().chain(DELIMITERS.map(|(d, _)| Some(d))) {
                if ui.selectable_label(columns.delimiter == sign, word(sign)).clicked() {
                    parted = Some(sign);
                    ui.close();
                }
            }
        });
        ui.label(tr("decimal mark"));
        let word = |mark| match mark {
            None => tr("guessed"),
            Some(DecimalMark::Point) => tr("point, 12.5"),
            Some(DecimalMark::Comma) => tr("comma, 12,5"),
        };
        combo(ui, "decimal mark", tr("Decimal mark"), word(columns.decimal), 110.0, |ui| {
            for mark in [None, Some(DecimalMark::Point), Some(DecimalMark::Comma)] {
                ui.selectable_value(&mut columns.decimal, mark, word(mark));
            }
        });
    });
    for (i, column) in columns.columns.iter_mut().enumerate() {
        line(ui, i, column);
    }
    parted
}

/// One column: its header, what it means, its unit, and the speed of a force.
fn line(ui: &mut Ui, i: usize, column: &mut Column) {
    let header = if column.header.is_empty() { say!("column {number}", number = i + 1) } else { column.header.clone() };
    ui.horizontal(|ui| {
        ui.allocate_ui_with_layout(
            vec2(190.0, 26.0),
            eframe::egui::Layout::left_to_right(eframe::egui::Align::Center),
            |ui| {
                ui.set_min_width(190.0);
                ui.add(Label::new(&header).truncate());
            },
        );
        let word = |means: Option<Meaning>| means.map_or(tr("not used").to_owned(), kind_words);
        let before = column.means;
        combo(ui, &format!("means {i}"), &say!("Meaning of {header}", header), &word(before), 150.0, |ui| {
            let forces = [Meaning::Bump(FIRST_SPEED), Meaning::Rebound(FIRST_SPEED)];
            let all = Meaning::WITHOUT_SPEED.into_iter().chain(forces);
            for means in [None].into_iter().chain(all.map(Some)) {
                // Whatever the speed is, which stands beside it.
                let is_same = before.map(|m| discriminant(&m)) == means.map(|m| discriminant(&m));
                if ui.selectable_label(is_same, word(means)).clicked() {
                    column.means = means;
                    ui.close();
                }
            }
        });
        let dims = |means: Option<Meaning>| means.map_or(&[][..], Meaning::dims);
        if dims(before) != dims(column.means) {
            column.unit = None;
        }
        unit(ui, i, &header, column);
        speed(ui, &header, column);
    });
}

/// The meaning without the speed, which is next to it.
fn kind_words(means: Meaning) -> String {
    match means {
        Meaning::Bump(_) => tr("damper bump force").to_owned(),
        Meaning::Rebound(_) => tr("damper rebound force").to_owned(),
        other => other.words().to_string(),
    }
}

fn unit(ui: &mut Ui, i: usize, header: &str, column: &mut Column) {
    let dims = column.means.map_or(&[][..], Meaning::dims);
    if dims.is_empty() {
        return;
    }
    let units = dims.iter().flat_map(|d| table::of(*d)).filter(|u| u.dim != Dim::Ratio || u.symbol == "%");
    let shown = column.unit.clone().unwrap_or_else(|| tr("as given").into());
    combo(ui, &format!("unit {i}"), &say!("Unit of {header}", header), &shown, 84.0, |ui| {
        ui.selectable_value(&mut column.unit, None, tr("as given in the header or cells"));
        for unit in units {
            ui.selectable_value(&mut column.unit, Some(unit.symbol.to_owned()), unit.symbol);
        }
    });
}

fn speed(ui: &mut Ui, header: &str, column: &mut Column) {
    let Some(Meaning::Bump(speed) | Meaning::Rebound(speed)) = &mut column.means else { return };
    let drag = DragValue::new(speed).range(0.001..=100.0).speed(0.01).suffix(" m/s");
    let shown = |speed, places| mark(eframe::egui::emath::format_with_decimals_in_range(speed, places));
    let drag = ui.add(drag.custom_formatter(shown).custom_parser(with_either_mark));
    let name = say!("Speed for {header}", header);
    drag.widget_info(|| WidgetInfo::labeled(eframe::egui::Role::SpinButton, true, &name));
}

fn buttons(ui: &mut Ui, cx: &mut Cx<'_>, shown: &Shown) {
    if !shown.is_edited {
        return;
    }
    let is_readable = matches!(tried(cx), Some(Ok(_)));
    ui.horizontal_wrapped(|ui| {
        let button = eframe::egui::Button::new(tr("Use these columns"));
        let words =
            tr("The columns are saved with the list; files with the same column headers are then read the same way.");
        cx.when(ui.add_enabled(is_readable, button).on_hover_text(words), Command::List(ListCommand::UseColumns));
        if !is_readable {
            let why =
                if tried(cx).is_none() { tr("counting…") } else { tr("nothing can be read with these columns") };
            ui.label(RichText::new(why).small().weak());
        }
        let word = if shown.is_new { tr("Do not use this file") } else { tr("Keep previous columns") };
        cx.when(ui.button(word), Command::List(ListCommand::LeaveColumns));
    });
}
