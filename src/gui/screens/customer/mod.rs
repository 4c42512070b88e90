//! The customer's view: one step of what changed in large type, pictures first, nothing to type.
//!
//! Everything grows with the window, so that it is read from across a counter; what is longer than usual gets smaller
//! until it has room.

mod lens;
mod pose;
mod press;
mod side;
mod texts;

use eframe::egui::{self, Align2, FontId, Id, Rect, Role, Sense, Ui, WidgetInfo, pos2, vec2};

use crate::gui::background::riding::Progress;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, CustomerCommand};
use crate::gui::state::presenting::Presenting;
use crate::gui::widgets::theme;
use crate::job::Side;
use crate::report::sheets::Stage;
use crate::solve::answer::State;
use pose::Pose;
use press::{Press, press};

/// The window that everything is measured in, points; and the one that is higher than wide.
const WIDE: [f32; 2] = [1280.0, 800.0];
const HIGH: [f32; 2] = [800.0, 1100.0];
/// The least height of what is pressed, points.
const TOUCH: f32 = theme::TALL;

/// How large everything is in this window.
#[derive(Clone, Copy)]
pub(super) struct Measure {
    /// Points for a point at 1280×800.
    by: f32,
    is_wide: bool,
}

impl Measure {
    fn of(window: Rect) -> Measure {
        let is_wide = window.width() > 1.15 * window.height();
        let [width, height] = if is_wide { WIDE } else { HIGH };
        Measure { by: (window.width() / width).min(window.height() / height), is_wide }
    }

    /// A length that grows with the window.
    pub(super) fn of_window(self, points: f32) -> f32 {
        self.by * points
    }

    /// The height of what is pressed.
    fn touch(self) -> f32 {
        self.of_window(56.0).max(TOUCH)
    }
}

/// Where the parts stand.
struct Parts {
    head: Rect,
    picture: Rect,
    below: Rect,
    texts: Rect,
    /// Back and next, and the steps: in one row, or the steps in a row of their own.
    foot: Rect,
    steps: Option<Rect>,
}

impl Parts {
    fn of(window: Rect, measure: Measure) -> Parts {
        let gap = measure.of_window(18.0);
        let inner = window.shrink2(vec2(1.4 * gap, gap));
        let (head, rest) = inner.split_top_bottom_at_y(inner.top() + measure.of_window(84.0).max(TOUCH + 0.5 * gap));
        let (mut rest, foot) = rest.split_top_bottom_at_y(rest.bottom() - measure.touch());
        let mut steps = None;
        if !measure.is_wide {
            let above = rest.with_max_y(rest.bottom() - 0.5 * gap);
            let (left, row) = above.split_top_bottom_at_y(above.bottom() - measure.touch());
            (rest, steps) = (left, Some(row));
        }
        let rest = rest.with_max_y(rest.bottom() - gap);
        let (seen, texts) = if measure.is_wide {
            let (left, right) = rest.split_left_right_at_fraction(0.6);
            (left.with_max_x(left.right() - gap), right.with_min_x(right.left() + gap))
        } else {
            let (upper, lower) = rest.split_top_bottom_at_fraction(0.52);
            (upper.with_max_y(upper.bottom() - 0.5 * gap), lower.with_min_y(lower.top() + 0.5 * gap))
        };
        let (picture, below) = seen.split_top_bottom_at_y(seen.bottom() - measure.touch());
        Parts { head, picture: picture.with_max_y(picture.bottom() - 0.4 * gap), below, texts, foot, steps }
    }
}

/// Draws the step that is shown.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let Some(shown) = cx.view.customer.take() else { return };
    let window = ui.ctx().content_rect();
    let measure = Measure::of(window);
    let parts = Parts::of(window, measure);
    if let Some(stage) = shown.stage() {
        head(ui, cx, &shown, stage, parts.head, measure);
        picture(ui, cx, &shown, stage, parts.picture, measure);
        below(ui, cx, &shown, stage, parts.below, measure);
        texts::show(ui, stage, parts.texts, measure, cx.dark);
    }
    foot(ui, cx, &shown, &parts, measure);
    cx.view.customer = Some(shown);
}

/// The step's mark and name, the vehicle, and the way back.
fn head(ui: &mut Ui, cx: &mut Cx<'_>, shown: &Presenting, stage: &Stage, rect: Rect, measure: Measure) {
    let leave = Press { name: &shown.showing.words.leave, is_on: true, is_chosen: false, mark: None };
    let font = FontId::proportional(measure.of_window(18.0));
    let width = theme::text_width(ui, leave.name, font.clone()) + measure.of_window(36.0);
    let (rect, right) = rect.split_left_right_at_x(rect.right() - width);
    let corner = right.with_max_y(right.top() + measure.touch().min(right.height()));
    if press(ui, cx.dark, "leave", corner, &leave, font) {
        cx.run(Command::Customer(CustomerCommand::Leave));
    }
    let words = rect.with_max_x(rect.right() - measure.of_window(18.0));
    let (upper, lower) = words.split_top_bottom_at_fraction(0.62);
    let radius = measure.of_window(13.0);
    theme::mark(ui.painter(), stage.state, pos2(upper.left() + 1.3 * radius, upper.center().y), radius, cx.dark);
    let beside = upper.with_min_x(upper.left() + 3.4 * radius);
    texts::line(ui, beside, &stage.name, FontId::new(measure.of_window(38.0), theme::bold()), false);
    texts::line(ui, lower, &shown.showing.vehicle, FontId::proportional(measure.of_window(18.0)), true);
}

/// The vehicle, and above it spring and stop gap of the axles that are shown; pressed, it goes on.
fn picture(ui: &mut Ui, cx: &mut Cx<'_>, shown: &Presenting, stage: &Stage, rect: Rect, measure: Measure) {
    let response = ui.interact(rect, Id::unique("customer picture"), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &stage.picture));
    if response.clicked() {
        cx.run(Command::Customer(CustomerCommand::By(1)));
    }
    if response.has_focus() {
        let stroke = ui.visuals().selection.stroke;
        ui.painter().rect_stroke(rect, 4.0, stroke, egui::StrokeKind::Inside);
    }
    let pose = Pose::of(cx, stage);
    let Some(scale) = lens::Scale::of(&shown.showing.stages) else {
        return side::draw(ui, cx, shown, stage, &pose, rect);
    };
    let (vehicle, lenses) = places(rect, stage.ends.as_ref().map(|end| end.enlarged.is_some()).both());
    side::draw(ui, cx, shown, stage, &pose, vehicle);
    let first = shown.showing.stages.first().filter(|first| first.state == State::Before);
    for (end, place) in Side::BOTH.into_iter().zip(lenses) {
        let Some(((axle, told), place)) = stage.ends[end].enlarged.as_ref().zip(place) else { continue };
        let lens = lens::Lens {
            axle,
            told,
            state: stage.state,
            kind: stage.ends[end].kind,
            room_m: pose.room_m[end],
            height_m: pose.height_m[end],
            before: first.map(|first| &first.ends[end]),
            scale,
            measure,
            dark: cx.dark,
        };
        lens.draw(ui, place.shrink(measure.of_window(5.0)));
    }
}

/// Where the vehicle is drawn, and its axles enlarged: two above it, one in front of it or behind it.
fn places(rect: Rect, enlarged: [bool; 2]) -> (Rect, [Option<Rect>; 2]) {
    match enlarged {
        [false, false] => (rect, [None, None]),
        [true, false] => {
            let (lens, vehicle) = rect.split_left_right_at_fraction(0.35);
            (vehicle, [Some(lens), None])
        }
        [false, true] => {
            let (vehicle, lens) = rect.split_left_right_at_fraction(0.65);
            (vehicle, [None, Some(lens)])
        }
        [true, true] => {
            let (above, vehicle) = rect.split_top_bottom_at_fraction(0.44);
            let (front, rear) = above.split_left_right_at_fraction(0.5);
            (vehicle, [Some(front), Some(rear)])
        }
    }
}

/// What drives over the hump, and how the picture is to be read.
fn below(ui: &mut Ui, cx: &mut Cx<'_>, shown: &Presenting, stage: &Stage, rect: Rect, measure: Measure) {
    let words = &shown.showing.words;
    let (mut scale, mut says) = (rect, words.scale.clone());
    if pose::may_be_driven(cx, stage) {
        let font = FontId::proportional(measure.of_window(18.0));
        let width = theme::text_width(ui, &words.drive, font.clone()) + measure.of_window(40.0);
        let (left, right) = rect.split_left_right_at_x(rect.left() + width);
        let is_on = cx.riding.progress() == Progress::Current;
        let button = Press { name: &words.drive, is_on, is_chosen: cx.riding.is_playing(), mark: None };
        if press(ui, cx.dark, "drive", left, &button, font) {
            cx.run(Command::Customer(CustomerCommand::Drive));
        }
        scale = right.with_min_x(right.left() + measure.of_window(16.0));
        says = format!("{says} {}", words.slow);
    }
    texts::small(ui, scale, &says, FontId::proportional(measure.of_window(15.0)));
}

/// Back, the steps by name, on.
fn foot(ui: &mut Ui, cx: &mut Cx<'_>, shown: &Presenting, parts: &Parts, measure: Measure) {
    let words = &shown.showing.words;
    let gap = measure.of_window(8.0);
    let font = FontId::proportional(measure.of_window(20.0));
    let wide = |name: &str| (theme::text_width(ui, name, font.clone()) + measure.of_window(40.0)).max(TOUCH);
    let width = |name: &str| if measure.is_wide { wide(name) } else { 0.5 * (parts.foot.width() - gap) };
    let (back, rest) = parts.foot.split_left_right_at_x(parts.foot.left() + width(&words.back));
    let (rest, next) = rest.split_left_right_at_x(rest.right() - width(&words.next));
    let ends = [("back", back, &words.back, shown.at > 0, -1), ("next", next, &words.next, shown.at < shown.last(), 1)];
    for (id, rect, name, is_on, by) in ends {
        let button = Press { name, is_on, is_chosen: false, mark: None };
        if press(ui, cx.dark, id, rect, &button, font.clone()) {
            cx.run(Command::Customer(CustomerCommand::By(by)));
        }
    }
    steps(ui, cx, shown, parts.steps.unwrap_or(rest.shrink2(vec2(gap, 0.0))), font, gap);
}

/// The steps by name, all in type of one size.
fn steps(ui: &mut Ui, cx: &mut Cx<'_>, shown: &Presenting, rect: Rect, font: FontId, gap: f32) {
    let stages = &shown.showing.stages;
    let step = (rect.width() + gap) / stages.len().max(1) as f32;
    let size = vec2(step - gap, rect.height());
    let fitted = stages.iter().map(|s| press::fitting(ui, &s.name, font.clone(), size)).fold(font.size, f32::min);
    for (i, stage) in stages.iter().enumerate() {
        let at = Rect::from_min_size(pos2(rect.left() + step * i as f32, rect.top()), size);
        let button = Press { name: &stage.name, is_on: true, is_chosen: i == shown.at, mark: Some(stage.state) };
        if press(ui, cx.dark, ("stage", i), at, &button, FontId::new(fitted, font.family.clone())) {
            cx.run(Command::Customer(CustomerCommand::To(i)));
        }
    }
}

/// Words on one line, in the middle of their place, from the left.
pub(super) const FROM_LEFT: Align2 = Align2::LEFT_CENTER;
