//! A table of rows to type or paste: motion ratio, progressive coil, leaf test, bump stop.

use std::fmt::Display;

use eframe::egui::{Button, Id, Label, RichText, TextEdit, TextStyle, Ui, vec2};

use crate::base::bounds::{self, Bound};
use crate::base::language::{tr, with_mark};
use crate::base::units::{DecimalMark, Dim, Quantity, Unit, UnitChoice, display, table};
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::view::PasteInto;
use crate::gui::widgets::field::{MOST_IN_TEXT, finding_line, limited};
use crate::gui::widgets::heading;
use crate::gui::widgets::theme::{self, UNIT};
use crate::job::{Level, Side, Walk as _, bounded, fields, paste};
use crate::say;
use crate::shop::parts::test_sheet::{self, Ask, CurveTableError};

/// A list of rows, and what its columns are called.
#[derive(Debug)]
pub struct RowTable {
    /// Path of the list, without the axle, weigh-in or load case that holds it.
    pub list: &'static str,
    /// What the keys of its columns begin with.
    pub key: &'static str,
    /// Each row begins with a name.
    pub named: bool,
    /// Field and caption of each column.
    pub columns: Columns,
}

type Columns = &'static [(&'static str, &'static str)];

const fn plain(list: &'static str, columns: Columns) -> RowTable {
    RowTable { list, key: list, named: false, columns }
}

const PLACED: Columns = &[("mass", "mass"), ("x", "behind the front axle"), ("y", "right of the centreline")];

/// Every table, those of [`fields::LISTS`] first.
pub static TABLES: [RowTable; 10] = [
    plain("ratio.rows", &[("wheel", "wheel travel, up is +"), ("length", "spring length")]),
    plain("damper_ratio.rows", &[("wheel", "wheel travel, up is +"), ("length", "damper length")]),
    plain("spring.points", &[("length", "spring length"), ("load", "load")]),
    plain(
        "spring.leaf.rows",
        &[("load", "load added"), ("loading", "height while loading"), ("unloading", "height while unloading")],
    ),
    plain("stop.rows", &[("squeeze", "compression"), ("load", "load")]),
    plain("damper.rows", &[("speed", "speed"), ("bump", "bump force"), ("rebound", "rebound force")]),
    plain(
        "new_damper.rows",
        &[("click", "click"), ("speed", "speed"), ("bump", "bump force"), ("rebound", "rebound force")],
    ),
    RowTable { list: "parts", key: "parts", named: true, columns: PLACED },
    RowTable {
        list: "repeats",
        key: "weighing.repeats",
        named: false,
        columns: &[("lf", "left front"), ("rf", "right front"), ("lr", "left rear"), ("rr", "right rear")],
    },
    RowTable { list: "loads", key: "cases.loads", named: true, columns: PLACED },
];

/// The table of this list.
pub fn of(list: &str) -> Option<&'static RowTable> {
    TABLES.iter().find(|t| t.list == list)
}

/// The list of rows that holds this cell, if a table shows it: `front.ratio.rows` of `front.ratio.rows[2].wheel`.
pub fn list_of(cell: &str) -> Option<&str> {
    let (list, _) = cell.rsplit_once('[')?;
    at_path(list).map(|_| list)
}

/// The table of the list at this path.
pub fn at_path(path: &str) -> Option<&'static RowTable> {
    of(path).or_else(|| of(path.split_once('.')?.1))
}

impl RowTable {
    /// The units in which its columns are shown.
    pub fn units(&self, shown: &UnitChoice) -> Vec<&'static Unit> {
        let dim = |column: &str| fields::by_key(&format!("{}.{column}", self.key)).map(|f| f.dim);
        self.columns.iter().filter_map(|(c, _)| dim(c)).map(|d| shown.unit(d)).collect()
    }
}

impl RowTable {
    /// A pasted text as names, if the rows have any, and numbers.
    ///
    /// # Errors
    /// A sentence that says what could not be read.
    pub fn read(
        &self,
        text: &str,
        units: &[&'static Unit],
        mark: DecimalMark,
    ) -> Result<(Vec<String>, paste::PastedRows), String> {
        let curve = CURVES.contains(&self.list).then(|| curve_rows(text, units, mark, self.list == CURVES[1]));
        let read = match curve.flatten() {
            Some(read) => read.map(|rows| (Vec::new(), rows)),
            None if self.named => paste::named_rows(text, units, mark).map_err(String::from),
            None => paste::rows(text, units, mark).map(|r| (Vec::new(), r)).map_err(String::from),
        };
        let most = bounds::rows(self.key).map_or(usize::MAX, Bound::count);
        match read {
            Ok((_, found)) if found.rows.len() > most => {
                Err(say!("{count} rows; at most {most} are possible", count = found.rows.len(), most))
            }
            read => read,
        }
    }
}

/// The lists that hold a damper's curve: the old one, and the candidate with its clicks.
const CURVES: [&str; 2] = ["damper.rows", "new_damper.rows"];

/// A damper's curve with column names above it, in any of the conventions of test sheets; `None` without such names.
fn curve_rows(
    text: &str,
    units: &[&'static Unit],
    mark: DecimalMark,
    with_click: bool,
) -> Option<Result<paste::PastedRows, String>> {
    let of = |dim| units.iter().find(|u| u.dim == dim).copied();
    let ask = Ask { speed: of(Dim::DamperSpeed), force: of(Dim::Force), decimal: Some(mark), ..Ask::default() };
    let read = match test_sheet::read(text.as_bytes(), &ask) {
        Ok(read) => read,
        Err(CurveTableError::List(_) | CurveTableError::Missing(_)) => return None,
        Err(why) => return Some(Err(why.to_string())),
    };
    let [speed, force] = read.units;
    let cell = |si: Option<f64>, unit: &Unit| {
        // Typed into the job: with the job's decimal mark, whatever is spoken.
        let number = |si: f64| with_mark(display::significant(si / unit.si, 9), mark);
        si.map_or(String::new(), |si| format!("{} {}", number(si), unit.symbol).trim_end().to_owned())
    };
    let rows = read.rows.iter().map(|r| {
        let plain = table::of(Dim::Ratio).next().filter(|_| with_click).map(|unit| cell(r.click, unit));
        let forces = [r.point.bump, r.point.rebound].map(|f| cell(f.map(Quantity::si), force));
        plain.into_iter().chain([cell(Some(r.point.speed.si()), speed)]).chain(forces).collect()
    });
    let rows = rows.collect();
    Some(Ok(paste::PastedRows { rows, ignored: read.notes.iter().map(ToString::to_string).collect() }))
}

/// Draws the table of one axle's list.
pub fn table(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, list: &str) {
    let path = format!("{}.{list}", side.key());
    at(ui, cx, &path, list, |_, _, _| {});
}

/// Draws the table of a list; `head` draws what is above the numbers of a row.
pub fn at(ui: &mut Ui, cx: &mut Cx<'_>, path: &str, list: &str, mut head: impl FnMut(&mut Ui, &mut Cx<'_>, usize)) {
    let Some(table) = of(list) else { return };
    let path = path.to_owned();
    pasted(ui, cx, table, &path);
    let most = if table.columns.len() > 3 { 92.0 } else { 128.0 };
    // Where there is little room the cells share what the row's number leaves.
    let in_view = ui.available_width().min(ui.clip_rect().right() - ui.cursor().left() - UNIT);
    let button = theme::text_width(ui, tr("Remove"), TextStyle::Button.resolve(ui.style())) + 3.0 * UNIT;
    let share = (in_view - 36.0 - button) / table.columns.len() as f32 - ui.spacing().item_spacing.x;
    let width = share.clamp(56.0, most);
    ui.horizontal(|ui| {
        ui.add_space(36.0);
        for (_, caption) in table.columns {
            let size = vec2(width, 16.0);
            ui.add_sized(size, Label::new(RichText::new(tr(caption)).small()));
        }
    });
    let count = cx.job.rows_mut(&path).map_or(0, |rows| rows.count());
    let mut taken = None;
    // What is beyond is not used, and a finding says so.
    for i in 0..count.min(bounded::most_rows(&path)) {
        let row = format!("{path}[{i}]");
        let cells: Vec<String> = table.columns.iter().map(|(c, _)| format!("{row}.{c}")).collect();
        if table.named {
            ui.add_space(0.5 * UNIT);
            head(ui, cx, i);
        }
        ui.horizontal_wrapped(|ui| {
            let size = vec2(28.0, 30.0);
            if table.named {
                ui.allocate_space(size);
            } else {
                ui.add_sized(size, Label::new((i + 1).to_string()));
            }
            cx.row_sign(ui, &row, &cells);
            for cell in &cells {
                if let Some((field, _)) = fields::by_path(cell) {
                    cx.entry(ui, cell, field, vec2(width, 30.0));
                }
            }
            let button = ui.small_button(tr("Remove"));
            let name = say!("Remove row {number}", number = i + 1);
            button.widget_info(|| eframe::egui::WidgetInfo::labeled(eframe::egui::Role::Button, true, &name));
            if button.on_hover_text(name.as_str()).clicked() {
                taken = Some(i);
            }
        });
        for place in std::iter::once(&row).chain(&cells) {
            cx.below(ui, place);
        }
    }
    cx.below(ui, &path);
    if let Some(row) = taken {
        cx.run(Command::TakeRow { list: path.clone(), row });
    }
    add_or_paste(ui, cx, &path);
}

/// What adds rows to a list.
fn add_or_paste(ui: &mut Ui, cx: &mut Cx<'_>, path: &str) {
    ui.horizontal(|ui| {
        cx.when(ui.button(tr("Add a row")), Command::AddRow(path.to_owned()));
        cx.when(ui.button(tr("Paste rows…")), Command::Paste(PasteInto::Rows(path.to_owned())));
    });
}

/// The paste area of this list.
fn pasted(ui: &mut Ui, cx: &mut Cx<'_>, table: &RowTable, path: &str) {
    let (units, mark) = (table.units(&cx.job.units), cx.job.decimal);
    let is_curve = CURVES.contains(&table.list);
    let echo = |ui: &mut Ui, (names, found): (Vec<String>, paste::PastedRows)| {
        let name = |i: usize| names.get(i).map(|n| format!("{n} ")).unwrap_or_default();
        let rows: Vec<String> =
            found.rows.iter().enumerate().map(|(i, r)| format!("{}{}", name(i), r.join(", "))).collect();
        let echo = match rows.as_slice() {
            [row] => say!("Read as 1 row: {row}.", row),
            _ => say!("Read as {count} rows: {rows}.", count = rows.len(), rows = rows.join("; ")),
        };
        ui.add(Label::new(RichText::new(echo).small()).wrap());
        if !found.ignored.is_empty() {
            let lines = found.ignored.join("; ");
            let words = match is_curve {
                true => say!("How the text was read: {notes}", notes = lines),
                false => say!("Lines left out: {lines}", lines),
            };
            ui.add(Label::new(RichText::new(words).small()).wrap());
        }
    };
    let mut ways = vec![
        (true, tr("Replace the rows"), Command::TakePastedRows { add: false }),
        (true, tr("Add below"), Command::TakePastedRows { add: true }),
    ];
    ways.extend(is_curve.then(|| (false, tr("Read from a file…"), Command::OpenCurve)));
    let (into, asked) = (PasteInto::Rows(path.to_owned()), asked(table, &units));
    paste_area(ui, cx, &into, &asked, |text| table.read(text, &units, mark), echo, &ways);
}

/// The paste area, where it is open for this: the text, how it is read, and what to do with it. Of the ways, those with
/// true need a text that can be read.
pub fn paste_area<T, E: Display>(
    ui: &mut Ui,
    cx: &mut Cx<'_>,
    into: &PasteInto,
    asked: &str,
    read: impl FnOnce(&str) -> Result<T, E>,
    echo: impl FnOnce(&mut Ui, T),
    ways: &[(bool, &str, Command)],
) {
    let Some(pasting) = cx.view.paste.as_mut().filter(|p| p.into == *into) else { return };
    let (title, id, lines) = match into {
        PasteInto::Rows(_) => (Some(tr("Paste rows from a spreadsheet or a message")), "paste rows", 5),
        PasteInto::Points(_) => (Some(tr("Paste points from a spreadsheet or a message")), "paste points", 5),
        PasteInto::Weighing => (None, "paste", 4),
    };
    if let Some(title) = title {
        heading(ui, title);
    }
    let label = ui.add(Label::new(asked).wrap());
    let edit = TextEdit::multiline(&mut pasting.text).id(Id::unique(id)).desired_rows(lines);
    let response = limited(ui, edit.desired_width(f32::INFINITY), MOST_IN_TEXT).labelled_by(label.id);
    if std::mem::take(&mut pasting.fresh) {
        response.request_focus();
    }
    let read = read(&pasting.text);
    let ready = read.is_ok();
    match read {
        Ok(found) => echo(ui, found),
        Err(_) if pasting.text.trim().is_empty() => {
            if !matches!(into, PasteInto::Points(_)) {
                ui.label(RichText::new(tr("Nothing has been pasted yet.")).small().weak());
            }
        }
        Err(why) => {
            finding_line(ui, Level::Error, &say!("Not read: {why}.", why), cx.dark);
        }
    }
    ui.horizontal_wrapped(|ui| {
        for (needs, words, command) in ways {
            cx.when(ui.add_enabled(ready || !needs, Button::new(*words)), command.clone());
        }
        cx.when(ui.button(tr("Cancel")), Command::PasteNot);
    });
    ui.add_space(UNIT);
}

/// What is to be pasted.
fn asked(table: &RowTable, units: &[&Unit]) -> String {
    let name = table.named.then(|| tr("name"));
    let columns: Vec<&str> = name.into_iter().chain(table.columns.iter().map(|c| tr(c.1))).collect();
    let symbols: Vec<&str> = units.iter().map(|u| u.symbol).collect();
    let mut text = say!(
        "One row per line: {columns}. Numbers without a unit are in {units}.",
        columns = columns.join(", "),
        units = symbols.join(", ")
    );
    let more = match table.list {
        "parts" => tr("A negative mass means that the part is taken out."),
        list if CURVES.contains(&list) => {
            tr("With column names above the rows, signed speeds and forces and other units are also accepted.")
        }
        _ => return text,
    };
    text.push(' ');
    text.push_str(more);
    text
}
