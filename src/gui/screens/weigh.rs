//! Weigh: the vehicle from above is the form.

use eframe::egui::{Label, Response, RichText, TextEdit, Ui};

use crate::base::language::tr;
use crate::base::units::Dim;
use crate::gui::drawings::plain;
use crate::gui::screens::loads;
use crate::gui::screens::pictures_of;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::section::Section;
use crate::gui::state::view::PasteInto;
use crate::gui::widgets::choices;
use crate::gui::widgets::field::{MOST_IN_NAME, limited};
use crate::gui::widgets::heading;
use crate::gui::widgets::in_view;
use crate::gui::widgets::numbers;
use crate::gui::widgets::rows;
use crate::gui::widgets::section::more;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::UNIT;
use crate::job::{AxleKind, BarLinks, Side, Walk as _, paste};
use crate::report::Block;
use crate::say;

/// In walking order.
const CORNERS: [&str; 4] = ["lf", "rf", "lr", "rr"];

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    cx.goes_here(ui, Section::Readings);
    pasted(ui, cx);
    plain::vehicle_from_above(ui, cx);
    for when in ["before", "after"] {
        for corner in ["lf", "rf", "lr", "rr"] {
            cx.below(ui, &format!("{when}.{corner}"));
        }
    }
    ui.horizontal(|ui| {
        let is_open = cx.view.paste.as_ref().is_some_and(|p| p.into == PasteInto::Weighing);
        if !is_open && ui.button(tr("Paste readings…")).clicked() {
            cx.run(Command::Paste(PasteInto::Weighing));
        }
    });
    let has_parts = !cx.job.parts.is_empty();
    let title = tr("Parts out and in: what will the vehicle weigh?");
    cx.folded_section(ui, Section::Ledger, title, &["parts[".to_owned()], has_parts, |ui, cx| loads::parts(ui, cx));
    let was = !cx.job.before.loads.is_empty() || !cx.job.after.loads.is_empty();
    let paths = ["before.loads", "after.loads"].map(String::from);
    let title = tr("To be subtracted: fuel, people and tools aboard when weighed");
    cx.folded_section(ui, Section::Aboard, title, &paths, was, |ui, cx| {
        for (when, words) in
            [("before", tr("Load aboard before the change")), ("after", tr("Load aboard after the change"))]
        {
            heading(ui, words);
            loads::aboard(ui, cx, when);
        }
    });
    weighed_again(ui, cx);
    heights(ui, cx);
    cx.section(ui, Section::Masses);
    text_row(ui, tr("Vehicle"), &mut cx.job.vehicle.name);
    text_row(ui, tr("Description of the change"), &mut cx.job.vehicle.change);
    cx.row(ui, "vehicle.wheelbase");
    heading(ui, tr("Unsprung mass, one corner"));
    for side in Side::BOTH {
        choices(ui, |ui| {
            ui.label(format!("{}:", side.axle()));
            let kind = &mut cx.job.axle_mut(side).kind;
            ui.radio_value(kind, AxleKind::Independent, tr("independent"));
            ui.radio_value(kind, AxleKind::Beam, tr("beam axle"));
        });
        cx.row(ui, &format!("{}.unsprung", side.key()));
    }
    axles_alone(ui, cx);
}

/// Readings in addition to the first ones.
fn weighed_again(ui: &mut Ui, cx: &mut Cx<'_>) {
    let again = [&cx.job.before, &cx.job.after].iter().any(|w| !w.repeats.is_empty());
    let paths = ["before.repeats", "after.repeats", "before.pads", "after.pads"].map(String::from);
    let title = tr("Repeated weighings, or pads not level");
    cx.folded_section(ui, Section::MoreReadings, title, &paths, again, |ui, cx| {
        let headings = [
            (
                "before",
                tr("Repeated weighings before the change; the mean is used"),
                tr("Pad heights above level, before the change"),
            ),
            (
                "after",
                tr("Repeated weighings after the change; the mean is used"),
                tr("Pad heights above level, after the change"),
            ),
        ];
        for (when, repeated, pads) in headings {
            heading(ui, repeated);
            rows::at(ui, cx, &format!("{when}.repeats"), "repeats", |_, _, _| {});
            heading(ui, pads);
            cx.rows(ui, CORNERS.map(|corner| format!("{when}.pads.{corner}")));
        }
    });
}

/// Hub to arch at each corner, and how the bars' links were.
fn heights(ui: &mut Ui, cx: &mut Cx<'_>) {
    let paths = ["before.arch", "after.arch"].map(String::from);
    let measured = CORNERS.iter().any(|corner| {
        let typed =
            |when: &str| cx.job.at_mut(&format!("{when}.arch.{corner}")).is_some_and(|e| !e.text().trim().is_empty());
        ["before", "after"].into_iter().any(typed)
    });
    more(ui, cx, tr("More: heights at the corners, anti-roll bars"), &paths, measured, |ui, cx| {
        for (when, words) in [("before", tr("Before the change")), ("after", tr("After the change"))] {
            heading(ui, words);
            cx.rows(ui, CORNERS.map(|corner| format!("{when}.arch.{corner}")));
            let weighing = if when == "before" { &mut cx.job.before } else { &mut cx.job.after };
            choices(ui, |ui| {
                ui.label(tr("Links of the anti-roll bars:"));
                ui.radio_value(&mut weighing.bar_links, BarLinks::On, tr("connected"));
                ui.radio_value(&mut weighing.bar_links, BarLinks::Off, tr("disconnected"));
            });
        }
    });
}

/// Axles weighed whole, and what else is known of a weighing.
fn axles_alone(ui: &mut Ui, cx: &mut Cx<'_>) {
    let inside: Vec<String> = [
        "before.front",
        "before.rear",
        "after.front",
        "after.rear",
        "front.track",
        "rear.track",
        "front.unsprung_before",
        "rear.unsprung_before",
    ]
    .map(String::from)
    .to_vec();
    let axles_typed = inside[..4].iter().any(|p| cx.job.at_mut(p).is_some_and(|e| !e.text().trim().is_empty()));
    more(ui, cx, tr("More: axle weights only, load aboard, track"), &inside.clone(), axles_typed, |ui, cx| {
        ui.label(tr("Only if the corners were not weighed one by one:"));
        for path in &inside[..4] {
            let when = if path.starts_with("before") { tr("before the change") } else { tr("after the change") };
            ui.small(when);
            cx.row(ui, path);
        }
        text_row(ui, tr("Load aboard before: fuel, people"), &mut cx.job.before.aboard);
        text_row(ui, tr("Load aboard after: fuel, people"), &mut cx.job.after.aboard);
        text_row(ui, tr("Weigh-in date before the change"), &mut cx.job.before.date);
        text_row(ui, tr("Weigh-in date after the change"), &mut cx.job.after.date);
        for (path, side) in inside[4..].iter().zip(Side::BOTH.into_iter().cycle()) {
            ui.small(side.axle().said());
            cx.row(ui, path);
        }
    });
}

/// A row for plain text.
pub fn text_row(ui: &mut Ui, name: &str, text: &mut String) {
    labelled(ui, name, |ui| {
        let edit = TextEdit::singleline(text).desired_width(f32::INFINITY).margin(eframe::egui::vec2(8.0, 6.0));
        limited(ui, edit, MOST_IN_NAME)
    });
}

/// A name at the left, as wide as those of fields, and what it names next to it.
pub fn labelled(ui: &mut Ui, name: &str, draw: impl FnOnce(&mut Ui) -> Response) -> Response {
    let row = ui.horizontal(|ui| {
        let width = (ui.available_width() - 190.0).clamp(130.0, 250.0);
        let layout = eframe::egui::Layout::left_to_right(eframe::egui::Align::Center);
        let label = ui.allocate_ui_with_layout(eframe::egui::vec2(width, 30.0), layout, |ui| {
            ui.set_min_width(width);
            ui.label(name)
        });
        draw(ui).labelled_by(label.inner.id)
    });
    row.inner
}

/// The paste area for readings.
fn pasted(ui: &mut Ui, cx: &mut Cx<'_>) {
    let asked =
        tr("Four readings, each with its corner (LF 985 RF 960 …), or two rows of two numbers, front row first:");
    let (unit, mark) = (cx.job.units.unit(Dim::Mass), cx.job.decimal);
    let echo = |ui: &mut Ui, p: paste::Pasted| {
        let [lf, rf, lr, rr] = [&p.corners.lf, &p.corners.rf, &p.corners.lr, &p.corners.rr];
        ui.label(say!("Read as: LF {lf}, RF {rf}, LR {lr}, RR {rr}.", lf, rf, lr, rr));
        if !p.ignored.is_empty() {
            let words = say!("Lines left out: {lines}", lines = p.ignored.join("; "));
            ui.add(Label::new(RichText::new(words).small()).wrap());
        }
    };
    let ways = [
        (true, tr("Use as weights before the change"), Command::TakePasted { before: true }),
        (true, tr("Use as weights after the change"), Command::TakePasted { before: false }),
    ];
    rows::paste_area(ui, cx, &PasteInto::Weighing, asked, |text| paste::corners(text, unit, mark), echo, &ways);
}

/// Totals and shares.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    pictures_of(ui, cx, &[Section::Readings, Section::MoreReadings, Section::Masses]);
    let report = &cx.shown.weights;
    ui.heading(tr("Weights and weight distribution"));
    if report.is_empty() {
        ui.label(tr("No weights yet. Enter them at the wheels, or paste them."));
    }
    tables::all(ui, "weights", report.iter().filter(|b| !matches!(b, Block::Heading(_))));
    ui.add_space(UNIT);
    pictures_of(ui, cx, &[Section::Ledger, Section::Aboard]);
    in_view::only(ui, "ledger", |ui| tables::all(ui, "ledger", &*cx.shown.ledger));
    numbers::show(ui, cx, &["before.".into(), "after.".into(), "ledger.".into(), "compared.".into()]);
}
