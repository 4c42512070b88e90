//! The spring as fitted, by its kind, in whatever way a shop can measure it.

use eframe::egui::{ComboBox, Ui};

use crate::base::language::tr;
use crate::gui::screens::axle_rows;
use crate::gui::state::Cx;
use crate::gui::widgets::heading;
use crate::gui::widgets::rows;
use crate::gui::widgets::section::more;
use crate::gui::widgets::{choices, choices_of};
use crate::job::{Ends, LeafBy, Material, RateBy, Side, SpringKind, WireSizes};
use crate::report::sections::sentence;

const WIRE: [&str; 3] = ["diameter", "outside_diameter", "active_coils"];
const WIRE_MORE: [&str; 4] = ["total_coils", "shear_modulus", "tensile_strength", "allowed_share"];
const PRESS: [&str; 5] = [
    "spring.press.first_length",
    "spring.press.first_load",
    "spring.press.second_length",
    "spring.press.second_load",
    "spring.press.gauge_factor",
];

/// Chooses the kind of spring.
pub fn kind(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    heading(ui, tr("What kind of spring is it?"));
    choices_of(ui, None, &mut cx.job.axle_mut(side).spring.kind, SpringKind::ALL, SpringKind::words);
}

/// The form of the spring that is fitted.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    by_kind(ui, cx, side);
    if let Some(words) = sentence::old_rate(cx.shown.answer.checked(side), &cx.job.units) {
        ui.small(words);
    }
}

fn by_kind(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    match cx.job.axle(side).spring.kind {
        SpringKind::Coil => coil(ui, cx, side),
        SpringKind::WithHelper => {
            coil(ui, cx, side);
            heading(ui, tr("Helper spring"));
            let fields = ["spring.helper.rate", "spring.helper.free_length", "spring.helper.solid_length"];
            axle_rows(ui, cx, side, &fields);
        }
        SpringKind::Progressive => {
            heading(ui, tr("Progressive coil spring, press readings"));
            ui.small(tr("Enter at least five points, some on each side of ride height."));
            rows::table(ui, cx, side, "spring.points");
            axle_rows(ui, cx, side, &["spring.fitted_length"]);
        }
        SpringKind::TorsionBar => {
            heading(ui, tr("Torsion bar and arm"));
            axle_rows(
                ui,
                cx,
                side,
                &["spring.bar.diameter", "spring.bar.length", "spring.bar.arm", "spring.bar.angle"],
            );
            let inside = [format!("{}.spring.bar.", side.key())];
            more(ui, cx, tr("More: hollow bar, steel"), &inside, false, |ui, cx| {
                let fields = ["spring.bar.inside_diameter", "spring.bar.shear_modulus", "spring.bar.allowed_stress"];
                axle_rows(ui, cx, side, &fields);
            });
        }
        SpringKind::Leaf => leaf(ui, cx, side),
    }
    if !cx.job.axle(side).spring.confirm.is_blank() {
        axle_rows(ui, cx, side, &["spring.confirm"]);
    }
}

fn coil(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    heading(ui, tr("How was the spring rate determined?"));
    choices(ui, |ui| {
        let by = &mut cx.job.axle_mut(side).spring.rate_by;
        ui.radio_value(by, RateBy::Stated, tr("stated"));
        ui.radio_value(by, RateBy::Wire, tr("wire and coils"));
        ui.radio_value(by, RateBy::Press, tr("spring press"));
        ui.radio_value(by, RateBy::Together, tr("wire and press, weighted mean"));
    });
    let by = cx.job.axle(side).spring.rate_by;
    let stated = |ui: &mut Ui, cx: &mut Cx<'_>| axle_rows(ui, cx, side, &["spring.rate"]);
    let by_wire = |ui: &mut Ui, cx: &mut Cx<'_>| wire(ui, cx, side, "spring.wire");
    let by_press = |ui: &mut Ui, cx: &mut Cx<'_>| axle_rows(ui, cx, side, &PRESS);
    match by {
        RateBy::Stated => stated(ui, cx),
        RateBy::Wire => by_wire(ui, cx),
        RateBy::Press => by_press(ui, cx),
        RateBy::Together => {
            by_wire(ui, cx);
            by_press(ui, cx);
        }
    }
    axle_rows(ui, cx, side, &["spring.fitted_length"]);
    let key = side.key();
    let inside: Vec<String> =
        ["rate", "wire.", "press.", "free_length", "solid_length"].map(|f| format!("{key}.spring.{f}")).to_vec();
    more(ui, cx, tr("More: other measurements of this spring"), &inside, false, |ui, cx| {
        axle_rows(ui, cx, side, &["spring.free_length", "spring.solid_length"]);
        ui.small(tr("All other measurements are compared with the one used."));
        if by != RateBy::Stated {
            stated(ui, cx);
        }
        if !matches!(by, RateBy::Wire | RateBy::Together) {
            by_wire(ui, cx);
        }
        if !matches!(by, RateBy::Press | RateBy::Together) {
            by_press(ui, cx);
        }
    });
}

/// Wire and coils, of the old spring or of one on offer.
pub fn wire(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, at: &str) {
    let keys = |names: &[&str]| names.iter().map(|n| format!("{at}.{n}")).collect::<Vec<_>>();
    let rows = |ui: &mut Ui, cx: &mut Cx<'_>, names: &[&str]| {
        let keys = keys(names);
        axle_rows(ui, cx, side, &keys.iter().map(String::as_str).collect::<Vec<_>>());
    };
    rows(ui, cx, &WIRE);
    let axle = cx.job.axle_mut(side);
    let data: &mut WireSizes = if at == "spring.wire" { &mut axle.spring.wire } else { &mut axle.stock.coil };
    ComboBox::new((at, "ends", side.key()), tr("ends")).width(280.0).selected_text(data.ends.words()).show_ui(
        ui,
        |ui| {
            for ends in Ends::ALL {
                ui.selectable_value(&mut data.ends, ends, ends.words());
            }
        },
    );
    ComboBox::new((at, "steel", side.key()), tr("steel")).width(280.0).selected_text(data.material.words()).show_ui(
        ui,
        |ui| {
            for material in Material::ALL {
                ui.selectable_value(&mut data.material, material, material.words());
            }
        },
    );
    rows(ui, cx, &WIRE_MORE);
}

fn leaf(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    heading(ui, tr("How was the rate of the leaf spring determined?"));
    choices(ui, |ui| {
        let by = &mut cx.job.axle_mut(side).spring.leaf.by;
        ui.radio_value(by, LeafBy::Stated, tr("stated"));
        ui.radio_value(by, LeafBy::Test, tr("load test: loads and heights"));
        ui.radio_value(by, LeafBy::Sizes, tr("leaf dimensions"));
    });
    match cx.job.axle(side).spring.leaf.by {
        LeafBy::Stated => axle_rows(ui, cx, side, &["spring.rate"]),
        LeafBy::Test => rows::table(ui, cx, side, "spring.leaf.rows"),
        LeafBy::Sizes => axle_rows(
            ui,
            cx,
            side,
            &[
                "spring.leaf.span",
                "spring.leaf.clamped",
                "spring.leaf.width",
                "spring.leaf.thickness",
                "spring.leaf.leaves",
                "spring.leaf.full_length",
                "spring.leaf.modulus",
            ],
        ),
    }
}
