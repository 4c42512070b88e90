//! Whole vehicle: ratings, rear against front, and the shop's limits.

use eframe::egui::{CollapsingHeader, Label, RichText, Role, Ui, WidgetInfo};

use crate::base::language::tr;
use crate::base::units::{Length, display};
use crate::choose::take;
use crate::gui::drawings::drawn::{self, Pictured};
use crate::gui::drawings::plots;
use crate::gui::screens::loads;
use crate::gui::screens::pictures_of;
use crate::gui::state::Cx;
use crate::gui::state::section::Section;
use crate::gui::widgets::heading;
use crate::gui::widgets::in_view;
use crate::gui::widgets::numbers;
use crate::gui::widgets::section::more;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::UNIT;
use crate::job::Side;
use crate::report::pictures::corners;
use crate::report::pictures::drawing::Drawing;
use crate::report::pictures::motion;
use crate::report::pictures::plans;
use crate::report::pictures::plot::Export;
use crate::say;

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

const CERTAINTY: [&str; 5] =
    ["certainty.scales", "certainty.tape", "certainty.guessed", "certainty.quoted", "certainty.ledger"];

const TYRES: [&str; 4] = ["load_index", "tyre_pressure", "tyre_reference", "wheel_rating"];

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    cx.section(ui, Section::Ratings);
    for side in Side::BOTH {
        ui.label(side.axle());
        cx.row(ui, &format!("{}.rating", side.key()));
    }
    ui.label(tr(
        "A heavier spring does not raise a rating. If a rating is exceeded, the program shows STOP and recommends nothing.",
    ));
    ui.add_space(UNIT);
    let tyres: Vec<String> = Side::BOTH
        .iter()
        .flat_map(|s| TYRES.map(|t| format!("{}.{t}", s.key())))
        .chain(["vehicle.rating".into()])
        .collect();
    more(ui, cx, tr("More: tyres, wheels, the whole vehicle"), &tyres.clone(), false, |ui, cx| {
        cx.row(ui, "vehicle.rating");
        for side in Side::BOTH {
            ui.label(side.axle());
            cx.rows(ui, TYRES.map(|key| format!("{}.{key}", side.key())));
        }
    });
    cx.section(ui, Section::Cases);
    loads::cases(ui, cx);
    if cx.job.cases.iter().any(|c| !c.tongue.text.trim().is_empty()) {
        cx.row(ui, "vehicle.hitch");
    }
    ui.add_space(UNIT);
    pitch(ui, cx);
    bends(ui, cx);
    target_roll(ui, cx);
    balance(ui, cx);
    let title = tr("The shop's limits for warnings");
    cx.folded_section(ui, Section::Limits, title, &["limits.".to_owned()], false, |ui, cx| cx.rows(ui, LIMITS));
    more(ui, cx, tr("Default uncertainties"), &["certainty.".to_owned()], false, |ui, cx| {
        ui.label(tr(
            "Default ± for each origin: the limits within which the true value lies. A field's own ± takes precedence. Press F2 in a field to set origin and ±.",
        ));
        cx.rows(ui, CERTAINTY);
    });
}

/// What pitch, lamps and braking ask for.
fn pitch(ui: &mut Ui, cx: &mut Cx<'_>) {
    let paths = [
        "chassis.speed",
        "chassis.hump_height",
        "chassis.hump_length",
        "vehicle.lamp_distance",
        "chassis.pitch_radius",
        "chassis.roll_radius",
        "chassis.braking",
        "chassis.anti_dive",
    ];
    let title = tr("Pitch and bounce: hump, headlamps, braking");
    cx.folded_section(ui, Section::Pitch, title, &paths.map(String::from), false, |ui, cx| {
        cx.rows(ui, paths);
        ui.label(tr("The braking result also needs the height of the centre of gravity."));
    });
}

/// What bends ask for.
fn bends(ui: &mut Ui, cx: &mut Cx<'_>) {
    let keys = [
        "track",
        "spring_base",
        "damper_base",
        "bag.base",
        "stop.base",
        "twist",
        "roll_centre",
        "unsprung_height",
        "roll_bar.diameter",
        "roll_bar.length",
        "roll_bar.blade",
        "roll_bar.ratio",
        "roll_bar.inside_diameter",
        "roll_bar.shear_modulus",
        "roll_bar.new_diameter",
    ];
    let mut paths: Vec<String> = Side::BOTH.iter().flat_map(|s| keys.map(|k| format!("{}.{k}", s.key()))).collect();
    paths.extend(["chassis.cg_height", "chassis.lift", "chassis.cornering"].map(String::from));
    let title = tr("Roll: anti-roll bars, height of the centre of gravity");
    cx.folded_section(ui, Section::Roll, title, &paths, false, |ui, cx| {
        cx.row(ui, "chassis.cg_height");
        ui.small(tr("or weigh one axle with the other raised and the suspension locked:"));
        cx.rows(ui, ["level", "lifted", "rise", "hub_height"].map(|key| format!("chassis.lift.{key}")));
        cx.row(ui, "chassis.cornering");
        for side in Side::BOTH {
            heading(ui, side.axle().said());
            for key in keys {
                // Bases and twist belong to a beam axle.
                let of_beam = key.ends_with("base") || key == "twist";
                if !of_beam || cx.job.axle(side).kind == crate::job::AxleKind::Beam {
                    cx.row(ui, &format!("{}.{key}", side.key()));
                }
            }
        }
    });
}

/// What the bars for a target roll ask for.
fn target_roll(ui: &mut Ui, cx: &mut Cx<'_>) {
    let keys = ["gradient_low", "gradient_high", "front_low", "front_high", "lean"];
    let steps = Side::BOTH.map(|side| format!("{}.roll_bar.step", side.key()));
    let paths: Vec<String> = keys.map(|key| format!("chassis.roll.{key}")).into_iter().chain(steps.clone()).collect();
    let title = tr("Target roll: the anti-roll bars for it");
    cx.folded_section(ui, Section::TargetRoll, title, &paths, false, |ui, cx| {
        cx.rows(ui, &paths[..keys.len()]);
        for (side, path) in Side::BOTH.into_iter().zip(&steps) {
            heading(ui, side.axle().said());
            cx.row(ui, path);
            use_bar(ui, cx, side);
        }
    });
}

/// A button that puts the bar found for an axle into the plan; nothing where it is there, or none was found.
fn use_bar(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    let found = cx.shown.answer.whole.bars.and_then(|bars| bars.axles[side]?.stock);
    let planned = cx.shown.answer.released(side).ok().and_then(|part| part.parts().roll_bar);
    let sold = |bar: Length| display::as_sold(bar, &cx.job.units);
    let Some(found) = found.filter(|found| planned.map(sold) != Some(sold(*found))) else { return };
    let diameter = sold(found);
    let button = ui.button(say!("Put {diameter} into the plan", diameter));
    let name = say!("{axle}: put an anti-roll bar of {diameter} into the plan", axle = side.axle(), diameter);
    button.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
    if button.clicked() {
        take::roll_bar(cx.job, side, found);
    }
}

/// What the four corners ask for.
fn balance(ui: &mut Ui, cx: &mut Cx<'_>) {
    let rows = [
        (None, "chassis.cross_wanted"),
        (Some(Side::Front), "front.thread_pitch"),
        (Some(Side::Rear), "rear.thread_pitch"),
    ];
    let paths = rows.map(|(_, path)| path.to_owned());
    let title = tr("Corner weights: adjust cross weight with collars or shims");
    cx.folded_section(ui, Section::Corners, title, &paths, false, |ui, cx| {
        for (side, path) in rows {
            if let Some(side) = side {
                ui.label(side.axle());
            }
            cx.row(ui, path);
        }
    });
}

/// The corners from above, and the body from behind; else why they are not known.
fn corners(ui: &mut Ui, cx: &mut Cx<'_>) {
    let (shown, units, dark) = (cx.shown, &cx.job.units, cx.dark);
    if !corners::are_known(&shown.answer) {
        ui.heading(tr("Corner weights"));
        let why = shown.from_above.as_ref().err().cloned().unwrap_or_default();
        ui.add(Label::new(RichText::new(why).weak().italics()).wrap());
        ui.add_space(UNIT);
        return;
    }
    let above = || shown.from_above.as_ref().ok();
    let behind = || shown.from_behind.as_ref().ok();
    let pictures = [
        Pictured {
            id: "from above",
            title: &|| above().map_or_else(String::new, |seen| seen.title.clone()),
            draw: &|width| above().map_or_else(Drawing::default, |seen| seen.drawing(width, false)),
            plot: &|| above().map_or_else(Export::default, |seen| seen.plot(units)),
        },
        Pictured {
            id: "from behind",
            title: &|| behind().map_or_else(String::new, |seen| seen.title.clone()),
            draw: &|width| behind().map_or_else(Drawing::default, |seen| seen.drawing(width, false)),
            plot: &|| behind().map_or_else(Export::default, |seen| seen.plot(units)),
        },
    ];
    for picture in &pictures {
        drawn::show(ui, picture, dark, cx.commands);
        ui.add_space(UNIT);
    }
}

/// Ratings and load cases, then both axles side by side.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let shown = cx.shown;
    pictures_of(ui, cx, &[Section::Ratings, Section::Limits]);
    in_view::only(ui, "ratings", |ui| tables::all(ui, "ratings", &*shown.ratings));
    for side in Side::BOTH {
        in_view::only(ui, side.key(), |ui| tables::all(ui, side.key(), &*shown.standing[side]));
    }
    pictures_of(ui, cx, &[Section::Cases]);
    in_view::only(ui, "cases", |ui| tables::all(ui, "cases", &*shown.cases));
    pictures_of(ui, cx, &[Section::Pitch]);
    if shown.nose_and_tail.is_empty() {
        ui.heading(tr("Front and rear together"));
        ui.label(tr("Not known until there is a result for both axles."));
    }
    in_view::only(ui, "nose and tail", |ui| tables::all(ui, "nose and tail", &*shown.nose_and_tail));
    let units = &cx.job.units;
    plots::draw(ui, shown.rear_front.as_ref(), "rear front", units, cx.dark, cx.commands);
    if let Some(words) = motion::case_numbers(&shown.answer).filter(|_| shown.rear_front.is_some()) {
        ui.add(Label::new(words).wrap());
        ui.add_space(UNIT);
    }
    let others = cx.planning.others(cx.job);
    let compared = shown.after_hump.as_ref().map(|picture| plans::after_hump(picture, &shown.answer, &others));
    plots::draw(ui, compared.as_deref(), "after hump", units, cx.dark, cx.commands);
    pictures_of(ui, cx, &[Section::Roll]);
    in_view::only(ui, "bends", |ui| tables::all(ui, "bends", &*shown.bends));
    pictures_of(ui, cx, &[Section::TargetRoll]);
    in_view::only(ui, "bars", |ui| tables::all(ui, "bars", &*shown.bars));
    pictures_of(ui, cx, &[Section::Corners]);
    corners(ui, cx);
    in_view::only(ui, "cross weight", |ui| tables::all(ui, "cross weight", &*shown.cross_weight));
    match corners::are_known(&shown.answer) {
        // The pictures have them.
        true => {
            let title = tr("Corner weights, heights and lean in tables");
            CollapsingHeader::new(title).id_salt("corners").show(ui, |ui| tables::all(ui, "corners", &*shown.corners));
        }
        false => in_view::only(ui, "corners", |ui| tables::all(ui, "corners", &*shown.corners)),
    }
    numbers::show(
        ui,
        cx,
        &["whole.".into(), "front.rating".into(), "rear.rating".into(), "as_weighed.".into(), "cases[".into()],
    );
}
