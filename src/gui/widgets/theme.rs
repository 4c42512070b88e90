//! Colours, sizes, and the three marks that stand for before, old springs and new springs.
//!
//! Position, shape and label carry the meaning; colour only helps.

use eframe::egui::{
    self, Color32, FontData, FontDefinitions, FontFamily, FontId, Painter, Pos2, Shape, Stroke, TextStyle, Theme, Vec2,
    Visuals, vec2,
};
use egui_plot::{LineStyle, MarkerShape};

use crate::job::Level;
use crate::report::write::page::{BOLD, REGULAR};
use crate::solve::answer::State;

/// The one spacing unit; everything is a multiple of it.
pub const UNIT: f32 = 8.0;
/// Height of controls in the corner grid, for gloves.
pub const TALL: f32 = 44.0;
/// Height of other fields.
pub const FIELD: f32 = 30.0;
/// Below this width pictures go under the form.
pub const NARROW: f32 = 1000.0;

/// The one scale of type, points: labels of pictures and asides, everything else, and the answer.
pub const SMALL: f32 = 12.5;
/// See [`SMALL`].
pub const TYPE: f32 = 14.0;
/// See [`SMALL`].
pub const ANSWER: f32 = 16.5;

/// The small size, as pictures use it.
pub fn small() -> FontId {
    FontId::proportional(SMALL)
}

/// Green of what is wanted, behind lines and words.
pub fn wanted_fill(dark: bool) -> Color32 {
    Color32::from_rgba_unmultiplied(0x2e, 0x8b, 0x57, if dark { 60 } else { 45 })
}

/// Name of the text style for the answer.
pub fn answer_style() -> TextStyle {
    TextStyle::Name("answer".into())
}

/// The bold family, for headings and the answer.
pub fn bold() -> FontFamily {
    FontFamily::Name("bold".into())
}

/// Noto Sans (licence in `assets/fonts/OFL.txt`), with the built-in fonts behind it for what it lacks.
fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    let regular = FontData::from_static(REGULAR);
    let bold_data = FontData::from_static(BOLD);
    fonts.font_data.insert("regular".into(), regular.into());
    fonts.font_data.insert("bold".into(), bold_data.into());
    let mut behind = fonts.families.get(&FontFamily::Proportional).cloned().unwrap_or_default();
    behind.insert(0, "regular".into());
    fonts.families.insert(FontFamily::Proportional, behind.clone());
    behind.insert(0, "bold".into());
    fonts.families.insert(bold(), behind);
    fonts
}

/// How wide a text is on one line, points.
pub fn text_width(ui: &egui::Ui, text: &str, font: FontId) -> f32 {
    ui.painter().layout_no_wrap(text.to_owned(), font, Color32::PLACEHOLDER).size().x
}

/// Sets fonts and the styles of both themes. Call once at start.
pub fn install(ctx: &egui::Context) {
    ctx.set_fonts(fonts());
    ctx.options_mut(|o| o.fallback_theme = Theme::Light);
    ctx.set_visuals_of(Theme::Light, light());
    ctx.set_visuals_of(Theme::Dark, dark());
    ctx.all_styles_mut(|style| {
        style.text_styles.insert(answer_style(), FontId::new(ANSWER, bold()));
        style.text_styles.insert(TextStyle::Heading, FontId::new(TYPE, bold()));
        style.text_styles.insert(TextStyle::Body, FontId::new(TYPE, FontFamily::Proportional));
        style.text_styles.insert(TextStyle::Button, FontId::new(TYPE, FontFamily::Proportional));
        style.text_styles.insert(TextStyle::Monospace, FontId::new(SMALL, FontFamily::Monospace));
        style.text_styles.insert(TextStyle::Small, FontId::new(SMALL, FontFamily::Proportional));
        style.spacing.item_spacing = vec2(UNIT, 6.0);
        style.spacing.button_padding = vec2(10.0, 5.0);
        style.spacing.interact_size.y = 26.0;
        // A bar of its own width beside what scrolls, not over its last digits.
        style.spacing.scroll.floating_width = 4.0;
        style.spacing.scroll.floating_allocated_width = UNIT;
        // It shows before the pointer is over it: there is more below.
        style.spacing.scroll.dormant_handle_opacity = 0.5;
        style.visuals.text_cursor.blink = false;
        style.animation_time = 0.0;
        style.scroll_animation = egui::style::ScrollAnimation::none();
        style.interaction.tooltip_delay = 0.3;
    });
}

fn light() -> Visuals {
    let mut v = Visuals::light();
    v.panel_fill = Color32::from_rgb(0xfa, 0xfa, 0xf7);
    v.extreme_bg_color = Color32::WHITE;
    v.override_text_color = Some(Color32::from_rgb(0x16, 0x1a, 0x1d));
    v.weak_text_color = Some(Color32::from_rgb(0x4e, 0x56, 0x5c));
    v.hyperlink_color = Color32::from_rgb(0x00, 0x5b, 0x96);
    v.widgets.noninteractive.bg_stroke.color = Color32::from_rgb(0xc8, 0xcc, 0xcc);
    v.widgets.inactive.bg_stroke = Stroke::new(1.0, Color32::from_rgb(0x8a, 0x91, 0x94));
    v.selection.bg_fill = Color32::from_rgb(0xd2, 0xe6, 0xf4);
    v.selection.stroke = Stroke::new(2.0, Color32::from_rgb(0x0b, 0x5c, 0x8f));
    v.widgets.inactive.weak_bg_fill = Color32::from_rgb(0xeb, 0xed, 0xec);
    v.widgets.hovered.weak_bg_fill = Color32::from_rgb(0xe2, 0xe6, 0xe6);
    v.widgets.active.weak_bg_fill = Color32::from_rgb(0xd8, 0xde, 0xdf);
    v.widgets.open.weak_bg_fill = Color32::from_rgb(0xe2, 0xe6, 0xe6);
    v
}

fn dark() -> Visuals {
    let mut v = Visuals::dark();
    v.panel_fill = Color32::from_rgb(0x1b, 0x1e, 0x20);
    v.extreme_bg_color = Color32::from_rgb(0x10, 0x12, 0x14);
    v.override_text_color = Some(Color32::from_rgb(0xec, 0xee, 0xee));
    v.weak_text_color = Some(Color32::from_rgb(0xb4, 0xbc, 0xc0));
    v.hyperlink_color = Color32::from_rgb(0x74, 0xbf, 0xea);
    v.widgets.noninteractive.bg_stroke.color = Color32::from_rgb(0x44, 0x4a, 0x4e);
    v.widgets.inactive.bg_stroke = Stroke::new(1.0, Color32::from_rgb(0x7c, 0x84, 0x88));
    v.selection.bg_fill = Color32::from_rgb(0x12, 0x3a, 0x52);
    v.selection.stroke = Stroke::new(2.0, Color32::from_rgb(0x6b, 0xb8, 0xe6));
    v.widgets.inactive.weak_bg_fill = Color32::from_rgb(0x34, 0x38, 0x3a);
    v.widgets.hovered.weak_bg_fill = Color32::from_rgb(0x3a, 0x3e, 0x40);
    v.widgets.active.weak_bg_fill = Color32::from_rgb(0x40, 0x46, 0x4a);
    v.widgets.open.weak_bg_fill = Color32::from_rgb(0x2d, 0x30, 0x32);
    v
}

/// The colour of a state: grey-brown, vermilion, blue, apart for every kind of colour vision.
pub fn state_color(state: State, dark: bool) -> Color32 {
    match (state, dark) {
        (State::Before, false) => Color32::from_rgb(0x54, 0x54, 0x54),
        (State::Before, true) => Color32::from_rgb(0xb8, 0xb8, 0xb8),
        (State::OldSprings, false) => Color32::from_rgb(0x9c, 0x3d, 0x00),
        (State::OldSprings, true) => Color32::from_rgb(0xf5, 0xa0, 0x6b),
        (State::NewSprings, false) => Color32::from_rgb(0x00, 0x5b, 0x96),
        (State::NewSprings, true) => Color32::from_rgb(0x74, 0xbf, 0xea),
    }
}

/// The line style of a state in plots.
pub fn line_style(state: State) -> LineStyle {
    match state {
        State::Before => LineStyle::Dotted { spacing: 6.0 },
        State::OldSprings => LineStyle::Dashed { length: 9.0 },
        State::NewSprings => LineStyle::Solid,
    }
}

/// The mark of a state in plots, and whether it is filled.
pub fn marker(state: State) -> (MarkerShape, bool) {
    match state {
        State::Before => (MarkerShape::Circle, false),
        State::OldSprings => (MarkerShape::Square, false),
        State::NewSprings => (MarkerShape::Diamond, true),
    }
}

/// Draws the mark of a state: open circle, open square, filled diamond.
pub fn mark(painter: &Painter, state: State, at: Pos2, radius: f32, dark: bool) {
    let color = state_color(state, dark);
    let stroke = Stroke::new(2.0, color);
    match state {
        State::Before => {
            painter.circle_stroke(at, radius, stroke);
        }
        State::OldSprings => {
            let rect = egui::Rect::from_center_size(at, Vec2::splat(1.7 * radius));
            painter.rect_stroke(rect, 0.0, stroke, egui::StrokeKind::Middle);
        }
        State::NewSprings => {
            let r = 1.25 * radius;
            let points = vec![at + vec2(0.0, -r), at + vec2(r, 0.0), at + vec2(0.0, r), at + vec2(-r, 0.0)];
            painter.add(Shape::convex_polygon(points, color, Stroke::NONE));
        }
    }
}

/// The colour of a finding.
pub fn level_color(level: Level, dark: bool) -> Color32 {
    match (level, dark) {
        (Level::Note, false) => Color32::from_rgb(0x2b, 0x58, 0x5d),
        (Level::Note, true) => Color32::from_rgb(0x8f, 0xc7, 0xcc),
        (Level::Doubt, false) => Color32::from_rgb(0x73, 0x48, 0x00),
        (Level::Doubt, true) => Color32::from_rgb(0xf2, 0xbd, 0x4f),
        (_, false) => Color32::from_rgb(0xa8, 0x12, 0x1c),
        (_, true) => Color32::from_rgb(0xff, 0x9d, 0x96),
    }
}

/// Draws the sign of a finding: bar, triangle, barred circle, cross, or octagon.
pub fn level_sign(painter: &Painter, level: Level, at: Pos2, radius: f32, dark: bool) {
    let color = level_color(level, dark);
    let stroke = Stroke::new(2.0, color);
    match level {
        Level::Note => {
            painter.line_segment([at + vec2(0.0, -0.3 * radius), at + vec2(0.0, radius)], stroke);
            painter.circle_filled(at + vec2(0.0, -0.9 * radius), 1.5, color);
        }
        Level::Doubt => {
            let points =
                vec![at + vec2(0.0, -radius), at + vec2(radius, 0.8 * radius), at + vec2(-radius, 0.8 * radius)];
            painter.add(Shape::closed_line(points, stroke));
            painter.line_segment([at + vec2(0.0, -0.3 * radius), at + vec2(0.0, 0.3 * radius)], stroke);
        }
        Level::Withheld => {
            let circle = vec2(0.75 * radius, 0.0);
            painter.circle_stroke(at, radius, stroke);
            painter.line_segment([at - circle, at + circle], stroke);
        }
        Level::Error => {
            let d = 0.75 * radius;
            painter.line_segment([at + vec2(-d, -d), at + vec2(d, d)], stroke);
            painter.line_segment([at + vec2(-d, d), at + vec2(d, -d)], stroke);
        }
        Level::Stop => {
            let points = (0..8)
                .map(|i| (i as f32 + 0.5) * std::f32::consts::FRAC_PI_4)
                .map(|a| at + 1.2 * radius * vec2(a.cos(), a.sin()))
                .collect();
            painter.add(Shape::convex_polygon(points, color, Stroke::NONE));
        }
    }
}
