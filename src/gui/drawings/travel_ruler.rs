//! The travel ruler of an axle: from full droop to metal, a line per spring.

use eframe::egui::{Rect, RichText, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::base::language::tr;
use crate::base::units::{Length, Quantity, display};
use crate::gui::drawings::labels::{Board, beside_mark};
use crate::gui::state::Cx;
use crate::gui::widgets::theme;
use crate::job::{Level, Side};
use crate::report::pictures::ruler::{self, Ruler};
use crate::solve::answer::State;

/// Height of a spring's line.
const ROW: f32 = 58.0;
/// Room below for the names of places.
const UNDER: f32 = 88.0;

/// Draws it, or says what is still needed.
pub fn show(ui: &mut Ui, cx: &Cx<'_>, side: Side) {
    let Some(ruler) = ruler::ruler(cx.shown.answer.axle(side), &cx.job.units) else {
        let words = tr(
            "The travel diagram appears once bump and droop travel, weights, motion ratio and spring rate are known.",
        );
        ui.label(RichText::new(words).weak().italics());
        return;
    };
    ui.label(RichText::new(&ruler.title).heading());
    let height = 26.0 + UNDER + ROW * ruler.options.len() as f32;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &ruler.title));
    draw(ui, cx, &ruler, rect);
}

fn draw(ui: &Ui, cx: &Cx<'_>, ruler: &Ruler, rect: Rect) {
    let (color, weak) = (ui.visuals().text_color(), ui.visuals().weak_text_color());
    let mut board = Board::new(ui, rect, ui.visuals().panel_fill);
    let places = ruler.places.iter().map(|p| p.at_m);
    let low = places.clone().fold(ruler.ends_m[0], f64::min);
    let high = places.fold(ruler.ends_m[1], f64::max);
    let names = ruler.options.iter().map(|o| theme::text_width(ui, o.label, theme::small())).fold(0.0, f32::max);
    let (left, right) = (rect.left() + names + 24.0, rect.right() - 40.0);
    let x = |m: f64| left + ((m - low) / (high - low)) as f32 * (right - left);
    let bottom = rect.bottom() - UNDER;
    for place in &ruler.places {
        let at = x(place.at_m);
        board.painter.vline(at, rect.top() + 4.0..=bottom, Stroke::new(1.5, weak));
        board.line([pos2(at, rect.top() + 4.0), pos2(at, bottom)]);
    }
    for (i, option) in ruler.options.iter().enumerate() {
        let y = rect.top() + 30.0 + ROW * i as f32;
        let ends = ruler.ends_m.map(|m| pos2(x(m), y));
        board.painter.line_segment(ends, Stroke::new(5.0, weak.gamma_multiply(0.45)));
        for off in [-3.0, 3.0] {
            board.line(ends.map(|at| at + vec2(0.0, off)));
        }
        if let Some(loose) = option.loose_m {
            let stroke = Stroke::new(5.0, theme::level_color(Level::Doubt, cx.dark));
            board.painter.extend(Shape::dashed_line(&[ends[0], pos2(x(loose), y)], stroke, 3.0, 3.0));
        }
        for (state, m) in &option.stands {
            theme::mark(&board.painter, *state, pos2(x(*m), y), 7.0, cx.dark);
            board.mark(pos2(x(*m), y));
        }
    }
    // Words last: those of one line keep off the marks of the next.
    for (i, option) in ruler.options.iter().enumerate() {
        let y = rect.top() + 30.0 + ROW * i as f32;
        board.put(option.label, color, |size| vec![[rect.left() + 4.0, y - 0.5 * size[1]]]);
        for (state, m) in &option.stands {
            let words = match state {
                State::Before => tr("before"),
                State::OldSprings | State::NewSprings => tr("after"),
            };
            let (at, is_above) = (pos2(x(*m), y), *state != State::OldSprings);
            board.put(words, theme::state_color(*state, cx.dark), |size| beside_mark(at, size, true, is_above));
        }
        if let Some(loose) = option.loose_m {
            let at = pos2(x(loose), y);
            board.put(tr("spring loose"), color, |size| beside_mark(at, size, false, true));
        }
    }
    let mut sorted: Vec<_> = ruler.places.iter().collect();
    sorted.sort_by(|a, b| a.at_m.total_cmp(&b.at_m));
    for place in sorted {
        let number = display::rounded(Length::from_si(place.at_m), &cx.job.units);
        let at = x(place.at_m);
        board.put(&format!("{} {number}", place.label), color, |size| {
            let most = rect.right() - 4.0 - size[0];
            let start = (at - 0.5 * size[0]).clamp(rect.left() + 4.0, most.max(rect.left() + 4.0));
            (0..4).map(|row| [start, bottom + 2.0 + (size[1] + 3.0) * row as f32]).collect()
        });
    }
}
