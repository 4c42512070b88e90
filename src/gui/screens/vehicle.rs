//! Whole vehicle: ratings, rear against front, and the shop's limits.

use eframe::egui::Ui;

use super::{heading, loads, more, numbers, tables};
use crate::gui::field::Cx;
use crate::gui::theme::UNIT;
use crate::job::Side;
use crate::report::{Block, loads as report_loads, sheet};

const LIMITS: [&str; 12] = [
    "limits.left_right",
    "limits.cross",
    "limits.unsprung_independent",
    "limits.unsprung_beam",
    "limits.frequency_low",
    "limits.frequency_high",
    "limits.rear_front_low",
    "limits.rear_front_high",
    "limits.rating_amber",
    "limits.bind_room",
    "limits.seat_room",
    "limits.damper_room",
];

const TYRES: [&str; 4] = ["load_index", "tyre_pressure", "tyre_reference", "wheel_rating"];

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    heading(ui, "Ratings from the plate");
    for side in Side::BOTH {
        ui.label(format!("{} axle", side.word()));
        cx.row(ui, &format!("{}.rating", side.key()));
    }
    ui.label("A heavier spring raises no rating. Over a rating the program prints the stop and recommends nothing.");
    ui.add_space(UNIT);
    let tyres: Vec<String> = Side::BOTH
        .iter()
        .flat_map(|s| TYRES.map(|t| format!("{}.{t}", s.key())))
        .chain(["vehicle.rating".into()])
        .collect();
    more(ui, cx, "More: tyres, wheels, the whole vehicle", &tyres.clone(), false, |ui, cx| {
        cx.row(ui, "vehicle.rating");
        for side in Side::BOTH {
            ui.label(format!("{} axle", side.word()));
            for key in TYRES {
                cx.row(ui, &format!("{}.{key}", side.key()));
            }
        }
    });
    heading(ui, "Load cases");
    loads::cases(ui, cx);
    if cx.job.cases.iter().any(|c| !c.tongue.text.trim().is_empty()) {
        cx.row(ui, "vehicle.hitch");
    }
    cx.row(ui, "vehicle.lamp_distance");
    ui.add_space(UNIT);
    more(ui, cx, "The shop's limits for warnings", &["limits.".to_owned()], false, |ui, cx| {
        for path in LIMITS {
            cx.row(ui, path);
        }
    });
}

/// Both axles side by side.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.heading("Rear against front");
    match sheet::pair(&cx.shown.answer, &cx.job.units).iter().find(|b| matches!(b, Block::Table { .. })) {
        Some(block) => tables::table(ui, "pair", block),
        None => {
            ui.label("Not known until both axles have an answer.");
        }
    }
    ui.add_space(2.0 * UNIT);
    for (i, block) in report_loads::cases(&cx.shown.answer, &cx.job.units).iter().enumerate() {
        tables::any(ui, &format!("cases {i}"), block);
    }
    for side in Side::BOTH {
        for block in sheet::axle(cx.shown.answer.axle(side), &cx.job.units).iter().take(2) {
            if matches!(block, Block::Table { .. }) {
                tables::table(ui, side.key(), block);
                ui.add_space(2.0 * UNIT);
            }
        }
    }
    numbers::show(
        ui,
        cx,
        &["whole.".into(), "front.rating".into(), "rear.rating".into(), "as_weighed.".into(), "cases[".into()],
    );
}
