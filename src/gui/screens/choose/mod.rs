//! Choose: a spring from the shop's parts list, and how sure that is.

mod columns;
mod list;
pub(in crate::gui) mod plan_list;

use eframe::egui::{
    Button, CollapsingHeader, ComboBox, Label, ProgressBar, Response, RichText, TextStyle, Ui, WidgetInfo,
};

use crate::base::language::tr;
use crate::choose::Choice;
use crate::gui::background::choosing::{Listed, Progress, Said};
use crate::gui::drawings::chances;
use crate::gui::drawings::doubt;
use crate::gui::screens::axle_choice;
use crate::gui::screens::axle_rows;
use crate::gui::screens::pictures_of;
use crate::gui::screens::weigh::text_row;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, ListCommand};
use crate::gui::state::section::Section;
use crate::gui::widgets::field::finding_line;
use crate::gui::widgets::in_view;
use crate::gui::widgets::section::more;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::{self, UNIT};
use crate::job::{LeftRight, Level, Plan, Side};
use crate::report::sections::choose::{self as words, Told};
use crate::report::write::page::kept_together;
use crate::say;
use crate::shop::lists::DEMO;
use crate::shop::parts::Spring;

const FIT: [&str; 6] = [
    "choice.height_band",
    "choice.spacer_most",
    "choice.seat_down",
    "choice.inside_least",
    "choice.outside_most",
    "choice.laden",
];
const TAKEN: [&str; 6] =
    ["taken.rate", "taken.free_length", "taken.solid_length", "taken.spacer", "taken.price", "taken.in_stock"];
const PRICES: [&str; 7] = [
    "prices.springs",
    "prices.spacers",
    "prices.added_leaves",
    "prices.dampers",
    "prices.work",
    "prices.damper_work",
    "prices.roll_bar",
];
const TOLERANCES: [&str; 2] = ["limits.rate_tolerance", "limits.length_tolerance"];

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = axle_choice(ui, cx);
    cx.section(ui, Section::Selected);
    taken(ui, cx, side);
    parts_list(ui, cx);
    cx.section(ui, Section::Fit);
    axle_rows(ui, cx, side, &FIT);
    let only = &mut cx.job.axle_mut(side).choice.in_stock_only;
    ui.checkbox(only, tr("only springs with a pair in stock"));
    more(ui, cx, tr("More: ± of the values in the list"), &TOLERANCES.map(String::from), false, |ui, cx| {
        cx.rows(ui, TOLERANCES);
    });
    cx.folded_section(ui, Section::Prices, tr("Prices"), &["prices.".to_owned()], false, |ui, cx| {
        text_row(ui, tr("Currency, word or symbol"), &mut cx.job.prices.currency);
        cx.rows(ui, PRICES);
    });
    let is_used = !cx.job.plans.is_empty();
    cx.folded_section(ui, Section::Plans, tr("Plans"), &["plans".to_owned()], is_used, plan_list::form);
}

/// The spring that was taken: named, with its numbers to unfold.
fn taken(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    let taken = cx.job.axle(side).taken.clone();
    let is_blank = taken == crate::job::Taken::default();
    ui.horizontal(|ui| {
        let name = [taken.number.trim(), taken.rate.text.trim(), tr("a spring")].into_iter().find(|t| !t.is_empty());
        let words = if is_blank {
            tr("No spring selected yet: the stock rate from the Springs step is used.")
        } else {
            tr("Selected:")
        };
        ui.label(words);
        if let (false, Some(name)) = (is_blank, name) {
            ui.add(Label::new(RichText::new(name).family(theme::bold())).truncate()).on_hover_text(&taken.what);
            let hint = tr("Clears the selected spring; Ctrl+Z brings it back.");
            let clear = ui.button(tr("Clear selection")).on_hover_text(hint);
            cx.when(clear, Command::List(ListCommand::TakeNone(side)));
        }
    });
    let paths = [format!("{}.taken.", side.key())];
    more(ui, cx, tr("Data of the selected spring"), &paths, false, |ui, cx| {
        let taken = &mut cx.job.axle_mut(side).taken;
        text_row(ui, tr("Selected spring: part number"), &mut taken.number);
        text_row(ui, tr("Selected spring: description"), &mut taken.what);
        axle_rows(ui, cx, side, &TAKEN);
    });
}

/// Which list, what was read of it, and how.
fn parts_list(ui: &mut Ui, cx: &mut Cx<'_>) {
    cx.section(ui, Section::PartsList);
    ui.horizontal(|ui| {
        let now = cx.job.list.trim().to_owned();
        let shown = if now.is_empty() { tr("none") } else { &now };
        let named = combo(ui, "parts list", tr("Parts list"), shown, 220.0, |ui| {
            let names = cx.choosing.names().to_vec();
            for name in std::iter::once(String::new()).chain(names) {
                let word = if name.is_empty() { tr("none") } else { &name };
                if ui.selectable_label(now == name, word).clicked() {
                    cx.run(Command::List(ListCommand::Name(name)));
                    ui.close();
                }
            }
        });
        cx.reach("list", &named);
        cx.when(ui.button(tr("Open a list…")), Command::List(ListCommand::Open));
        let is_named = !now.is_empty() && !cx.choosing.is_reading();
        if is_named && ui.button(tr("Read again")).on_hover_text(tr("Reads the file again after a change.")).clicked() {
            cx.run(Command::List(ListCommand::ReadAgain));
        }
    });
    cx.below(ui, "list");
    match cx.choosing.list() {
        _ if cx.choosing.is_reading() => drop(ui.label(tr("Reading the list…"))),
        Listed::Open(list) => {
            let read = &list.opened.list;
            ui.label(columns::counted(read.springs.len(), read.dampers.len(), read.bad.len()));
        }
        Listed::Failed(_) if cx.view.mapping.is_some() => {
            ui.label(tr("Set the meaning of each column below, then choose \"Use these columns\"."));
        }
        Listed::Failed(why) => drop(finding_line(ui, Level::Error, &why.to_string(), cx.dark)),
        Listed::Unread => drop(finding_line(ui, Level::Error, tr("The list was not read"), cx.dark)),
        Listed::None | Listed::Waiting => {}
    }
    if let Some(trouble) = cx.choosing.trouble() {
        finding_line(ui, Level::Error, trouble, cx.dark);
    }
    columns::show(ui, cx);
}

/// A choice with a name that is read aloud.
pub(in crate::gui) fn combo(
    ui: &mut Ui,
    salt: &str,
    name: &str,
    shown: &str,
    width: f32,
    body: impl FnOnce(&mut Ui),
) -> Response {
    let response = ComboBox::from_id_salt(salt).selected_text(shown).width(width).height(360.0).show_ui(ui, body);
    let name = format!("{name}: {shown}");
    response.response.widget_info(|| WidgetInfo::labeled(eframe::egui::Role::ComboBox, true, &name));
    response.response
}

/// What can be chosen, how sure that is, what to measure again, and the whole list.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    pictures_of(ui, cx, &[Section::Selected, Section::PartsList, Section::Fit]);
    answer_of(ui, cx, side);
    if let Some(said) = shown(cx, side) {
        choice(ui, cx, side, said);
    }
    pictures_of(ui, cx, &[Section::Prices, Section::Plans]);
    plan_list::pictures(ui, cx);
    in_view::only(ui, "remedies", |ui| tables::all(ui, "remedy", &*cx.shown.remedies[side]));
    list::show(ui, cx, side);
    in_view::only(ui, "dampers", |ui| tables::all(ui, "list-damper", cx.choosing.dampers(side)));
}

/// Texts of this axle's choice, if there is anything to show.
fn shown<'a>(cx: &Cx<'a>, side: Side) -> Option<&'a Said> {
    let is_readable = matches!(cx.choosing.list(), Listed::Open(_) | Listed::Waiting);
    let gets_new = cx.job.axle(side).plan == Plan::NewSprings && !cx.job.list.trim().is_empty();
    cx.choosing.said(side).filter(|_| is_readable && gets_new)
}

/// The answer in a sentence or two, how far it has come, or why there is none.
fn answer_of(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    if cx.job.list.trim().is_empty() {
        no_list(ui, cx);
    } else if cx.job.axle(side).plan == Plan::Keep {
        let words = say!(
            "The {side} axle keeps its springs, so no spring is chosen for it. The Springs step shows which axle gets new springs.",
            side = side.word_inside()
        );
        ui.add(Label::new(words).wrap());
        ui.add_space(UNIT);
    } else {
        progress(ui, cx);
        if let Some(said) = shown(cx, side) {
            if !cx.choosing.is_current() {
                ui.label(RichText::new(tr("Result from before your last change:")).italics());
            }
            answer(ui, cx, said);
        }
    }
}

/// One sentence on what a list is, and a way to see one.
fn no_list(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.heading(tr("No parts list selected"));
    ui.add(Label::new(tr("A parts list is a table with one row per available spring: part number, rate and lengths, with columns in any order and in any units. Save it from a spreadsheet as text. With a parts list the program recommends a spring, states how likely it is to meet every limit, and shows what to measure again first.")).wrap());
    ui.add_space(UNIT);
    ui.horizontal(|ui| {
        cx.when(ui.button(tr("Try the demo list")), Command::List(ListCommand::Name(DEMO.into())));
        cx.when(ui.button(tr("Open your own list…")), Command::List(ListCommand::Open));
    });
    ui.add_space(2.0 * UNIT);
}

/// How far the choice has come; always one row high, so that nothing jumps while typing.
fn progress(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.horizontal(|ui| {
        ui.set_min_height(theme::FIELD);
        match cx.choosing.progress() {
            Progress::Current => {
                ui.label(RichText::new(tr("Calculated for the current job.")).small().weak());
            }
            Progress::Running(share) => {
                let bar = ProgressBar::new(share).desired_width(240.0).text(tr("Calculating"));
                ui.add(bar);
                cx.when(ui.button(tr("Stop")), Command::List(ListCommand::Stop));
            }
            Progress::Stopped => {
                ui.label(tr("Stopped."));
                cx.when(ui.button(tr("Calculate")), Command::List(ListCommand::WorkOut));
            }
            Progress::Resting => {
                ui.label(RichText::new(tr("Changed: recalculating…")).small().weak());
            }
            Progress::Nothing if cx.choosing.is_reading() => {
                ui.label(tr("Reading the list…"));
            }
            Progress::Nothing => {
                ui.label(tr("The list cannot be used yet; the problem is shown next to its name."));
            }
        }
    });
}

/// Everything else about one axle's choice.
fn choice(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, said: &Said) {
    let Some(found) = cx.choosing.found() else { return };
    let Some(choice) = found.axle(side).and_then(|a| a.choice.as_ref().ok()) else { return };
    chances::show(ui, cx, choice, found.list.springs());
    in_view::only(ui, "pair", |ui| tables::all(ui, "pair", &said.pair));
    take_pairs(ui, cx, choice, found.list.springs());
    if let Some(block) = &said.redo {
        doubt::show(ui, cx, choice, block);
    }
    if !said.rejected.is_empty() {
        let fold = CollapsingHeader::new(tr("Why the others are rejected")).id_salt("rejected").default_open(true);
        fold.show(ui, |ui| {
            in_view::only(ui, "rejected", |ui| tables::all(ui, "rejected", &said.rejected));
        });
    }
}

/// A way to select each pair that holds.
fn take_pairs(ui: &mut Ui, cx: &mut Cx<'_>, choice: &Choice, springs: &[Spring]) {
    let named = choice.pairs.iter().flat_map(|pairs| &pairs.named).filter(|pair| pair.level);
    let mut taken = None;
    for pair in named {
        let [Some(left), Some(right)] = pair.rows.map(|row| springs.get(row)).both() else { continue };
        let words = say!("Select this pair: {pair}", pair = words::pair_names(pair, springs));
        let button = ui.add_enabled(cx.choosing.is_current(), Button::new(words).truncate());
        if button.on_hover_text(tr("Fills the selected spring, and spring and spacer of each side.")).clicked() {
            let springs = Box::new(LeftRight { left: left.clone(), right: right.clone() });
            taken = Some(ListCommand::TakePair(choice.side, springs, pair.judged.map(|j| j.spacer_m)));
        }
    }
    if let Some(taken) = taken {
        cx.run(Command::List(taken));
    }
}

fn answer(ui: &mut Ui, cx: &Cx<'_>, said: &Said) {
    let Told { springs, why } = &said.answer;
    let mut text = RichText::new(springs).text_style(theme::answer_style());
    ui.horizontal_top(|ui| {
        if said.is_caution {
            text = text.color(theme::level_color(Level::Stop, cx.dark));
            let (rect, _) = ui.allocate_exact_size(eframe::egui::vec2(20.0, 22.0), eframe::egui::Sense::hover());
            theme::level_sign(ui.painter(), Level::Doubt, rect.center(), 8.0, cx.dark);
        }
        ui.add(Label::new(text).wrap());
    });
    if !why.is_empty() {
        ui.add(Label::new(why).wrap());
    }
    if !said.certainty.is_empty() {
        let words = RichText::new(kept_together(&said.certainty)).text_style(TextStyle::Small).weak();
        ui.add(Label::new(words).wrap());
    }
    ui.add_space(UNIT);
}
