//! Sheet: names as printed, and what will be printed.

use eframe::egui::{RichText, TextEdit, Ui};

use super::weigh::text_row;
use super::{heading, tables};
use crate::gui::command::Command;
use crate::gui::field::Cx;
use crate::gui::theme::UNIT;
use crate::report::Block;

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    heading(ui, "Shop");
    text_row(ui, "Name of the shop", &mut cx.job.shop.name);
    text_row(ui, "Address, telephone", &mut cx.job.shop.contact);
    text_row(ui, "Fitter", &mut cx.job.shop.fitter);
    heading(ui, "Customer");
    text_row(ui, "Name of the customer", &mut cx.job.customer.name);
    text_row(ui, "Customer's address, telephone", &mut cx.job.customer.contact);
    heading(ui, "Vehicle");
    text_row(ui, "Vehicle", &mut cx.job.vehicle.name);
    text_row(ui, "Registration or frame number", &mut cx.job.vehicle.identification);
    text_row(ui, "What is being changed", &mut cx.job.vehicle.change);
    heading(ui, "Notes");
    let label = ui.label("Anything else worth keeping");
    ui.add(TextEdit::multiline(&mut cx.job.notes).desired_rows(3).desired_width(f32::INFINITY)).labelled_by(label.id);
    ui.add_space(UNIT);
    if ui.button("Write sheet…").clicked() {
        cx.run(Command::Sheet);
    }
}

/// The sheet as it will be written.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let report = &cx.shown.sheet;
    ui.heading(&report.title);
    for (i, block) in report.blocks.iter().enumerate() {
        match block {
            Block::Heading(text) => {
                ui.add_space(UNIT);
                ui.label(RichText::new(text).family(crate::gui::theme::bold()));
            }
            Block::Text(text) => {
                ui.label(text);
            }
            Block::Caution(text) => {
                ui.label(
                    RichText::new(text)
                        .strong()
                        .color(crate::gui::theme::level_color(crate::job::Level::Stop, cx.dark)),
                );
            }
            Block::Drawing(drawing) => {
                ui.label(&drawing.words);
            }
            Block::Blanks(lines) => {
                for words in lines {
                    ui.label(words);
                }
            }
            Block::List(items) => {
                for item in items {
                    ui.label(format!("- {item}"));
                }
            }
            Block::Table { .. } => tables::table(ui, &format!("sheet-{i}"), block),
        }
    }
}
