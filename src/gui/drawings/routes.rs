//! The ways to the wheel rate, side by side: a mark with its ± for each, the fused value as a band.

use eframe::egui::{Align2, RichText, Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::base::language::tr;
use crate::base::units::{Dim, display};
use crate::gui::state::Cx;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::{self, UNIT};
use crate::job::{Level, Side};
use crate::report::sections::spring_tables;
use crate::say;
use crate::solve::answer::Routes;

const ROW: f32 = 24.0;

/// Draws the panel of one axle; nothing while there is one way only.
pub fn show(ui: &mut Ui, cx: &Cx<'_>, side: Side) {
    let checked = cx.shown.answer.checked(side);
    let routes = &checked.routes;
    if routes.list.len() < 2 {
        return;
    }
    let title = match &routes.odd {
        None => {
            say!("{side}: {count} ways of finding the wheel rate agree", side = side.word(), count = routes.list.len())
        }
        Some(_) if routes.list.len() == 2 => {
            say!("{side}: two ways of finding the wheel rate disagree", side = side.word())
        }
        Some((odd, _)) => say!(
            "{side}: one of {count} ways of finding the wheel rate disagrees: {odd}",
            side = side.word(),
            count = routes.list.len(),
            odd = odd.words()
        ),
    };
    ui.label(RichText::new(&title).heading());
    chart(ui, cx, routes, &title);
    if let Some(block) = spring_tables::routes(&cx.shown.answer, &cx.shown.results, side, &cx.job.units) {
        tables::table(ui, "routes", &block);
    }
    ui.add_space(UNIT);
}

fn chart(ui: &mut Ui, cx: &Cx<'_>, routes: &Routes, title: &str) {
    let height = ROW * routes.list.len() as f32 + 58.0;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, title));
    let painter = ui.painter_at(rect);
    let (color, weak) = (ui.visuals().text_color(), ui.visuals().weak_text_color());
    let ends = routes.list.iter().map(|r| (r.wheel_rate.value - r.wheel_rate.u, r.wheel_rate.value + r.wheel_rate.u));
    let low = ends.clone().map(|e| e.0).fold(f64::MAX, f64::min);
    let high = ends.map(|e| e.1).fold(f64::MIN, f64::max);
    let names = routes.list.iter().map(|r| theme::text_width(ui, r.kind.words().said(), theme::small()));
    let (left, right) = (rect.left() + names.fold(0.0, f32::max) + 2.0 * UNIT, rect.right() - 24.0);
    let span = (high - low).max(0.02 * high.abs());
    let x = |v: f64| left + ((v - low) / span) as f32 * (right - left);
    let bottom = rect.top() + ROW * routes.list.len() as f32;
    if let Some(fused) = routes.fused {
        let band = eframe::egui::Rect::from_x_y_ranges(
            x(fused.value - fused.u)..=x(fused.value + fused.u),
            rect.top()..=bottom,
        );
        painter.rect_filled(band, 0.0, weak.gamma_multiply(0.25));
        painter.vline(x(fused.value), rect.top()..=bottom, Stroke::new(1.5, weak));
        let words = tr("weighted mean");
        let half = 0.5 * theme::text_width(ui, words, theme::small());
        let at = x(fused.value).clamp(left, (right - half).max(left));
        painter.text(pos2(at, bottom + 1.0), Align2::CENTER_TOP, words, theme::small(), color);
    }
    for (i, route) in routes.list.iter().enumerate() {
        let y = rect.top() + ROW * (i as f32 + 0.5);
        let odd = routes.odd.as_ref().is_some_and(|(kind, _)| *kind == route.kind);
        let ink = if odd { theme::level_color(Level::Doubt, cx.dark) } else { color };
        painter.text(pos2(rect.left(), y), Align2::LEFT_CENTER, route.kind.words(), theme::small(), ink);
        let m = route.wheel_rate;
        painter.hline(x(m.value - m.u)..=x(m.value + m.u), y, Stroke::new(2.0, ink));
        for end in [m.value - m.u, m.value + m.u] {
            painter.vline(x(end), y - 5.0..=y + 5.0, Stroke::new(2.0, ink));
        }
        if odd {
            theme::level_sign(&painter, Level::Doubt, pos2(x(m.value), y), 7.0, cx.dark);
        } else {
            painter.circle_filled(pos2(x(m.value), y), 4.5, ink);
        }
    }
    painter.hline(left..=right, bottom, Stroke::new(1.0, weak));
    let unit = cx.job.units.unit(Dim::SpringRate);
    let number = |v: f64| display::rounded_number(v, unit);
    let font = theme::small();
    painter.text(pos2(left, bottom + 20.0), Align2::LEFT_TOP, number(low), font.clone(), color);
    let end = format!("{} {}", number(low + span), unit.symbol);
    painter.text(pos2(right, bottom + 20.0), Align2::RIGHT_TOP, end, font.clone(), color);
    let name = pos2(0.5 * (left + right), bottom + 39.0);
    painter.text(name, Align2::CENTER_TOP, tr("wheel rate; error bars: ± one standard uncertainty"), font, color);
}
