//! The springs that were drawn, side by side: how often each would hold, as a bar whose length says it.

use eframe::egui::{
    Align, Align2, Button, Label, Layout, Painter, Rect, RichText, Sense, Stroke, StrokeKind, TextStyle, Ui,
    WidgetInfo, pos2, vec2,
};

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity as _, display};
use crate::choose::{Choice, Drafted, Limit, MEASURE_BELOW};
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, ListCommand};
use crate::gui::widgets::theme::{self, UNIT};
use crate::job::Job;
use crate::report::results;
use crate::report::sections::choose as words;
use crate::say;
use crate::shop::parts::Spring;
use crate::solve::answer::State;

const MARK: f32 = 18.0;
const NAME: f32 = 170.0;
/// Room for the chance in words.
const CHANCE: f32 = 108.0;
const HIGH: f32 = 14.0;

/// Draws a row for each spring.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>, choice: &Choice, springs: &[Spring]) {
    ui.label(RichText::new(title(choice)).heading());
    let words = if choice.drafted.iter().any(|d| d.chance < MEASURE_BELOW) {
        tr(
            "Bar: the number of vehicles, out of 100 measured like this one, in which the spring would meet every limit with the spacer adjusted after the re-weigh. Tick: 60. Hatched: below that; measure before ordering.",
        )
    } else {
        tr(
            "Bar: the number of vehicles, out of 100 measured like this one, in which the spring would meet every limit with the spacer adjusted after the re-weigh. Tick: 60; below that, measure before ordering.",
        )
    };
    ui.add(Label::new(RichText::new(words).small()).wrap());
    let mut taken = None;
    for i in choice.in_order() {
        let drafted = &choice.drafted[i];
        let Some(spring) = springs.get(drafted.row) else { continue };
        let is_picked = choice.pick.as_ref().is_some_and(|p| p.of == i);
        let is_tied = choice.pick.as_ref().is_some_and(|p| p.tie.contains(&i));
        ui.add_space(0.5 * UNIT);
        if first_line(ui, cx, drafted, spring, is_picked) {
            let spacer_m = Some(drafted.judged.spacer_m).filter(|s| s.is_finite());
            taken = Some(ListCommand::Take(choice.side, Box::new(spring.clone()), spacer_m));
        }
        ui.horizontal_top(|ui| {
            ui.add_space(MARK);
            let taken = &cx.job.axle(choice.side).taken.number;
            let is_taken = !taken.is_empty() && *taken == spring.number;
            let leads = match is_picked {
                true if choice.agrees(springs) => Some(words::recommended(choice)),
                true => Some(tr("First in this list, but the answer names another spring.").to_owned()),
                false => is_tied.then(|| tr("About equally likely to fit.").to_owned()),
            };
            let words = second_line(cx.job, drafted, spring, is_taken, leads.as_deref());
            ui.add(Label::new(RichText::new(words).small()).wrap());
        });
    }
    if let Some(taken) = taken {
        cx.run(Command::List(taken));
    }
    ui.add_space(2.0 * UNIT);
}

/// The title states the finding.
fn title(choice: &Choice) -> String {
    match (&choice.pick, choice.drafted.first()) {
        (Some(pick), _) if pick.passed_over.is_some() => tr("Best spring with a pair in stock").into(),
        (Some(pick), _) if pick.tie.len() > 1 => {
            say!("{count} springs are about equally likely to meet every limit", count = pick.tie.len())
        }
        (Some(_), _) => tr("One spring is most likely to meet every limit").into(),
        (None, Some(_)) => tr("No spring fits; these are the closest").into(),
        (None, None) => tr("No spring could be checked").into(),
    }
}

/// Mark, name, bar, number, and the button to take it. True when it was pressed.
fn first_line(ui: &mut Ui, cx: &Cx<'_>, drafted: &Drafted, spring: &Spring, is_picked: bool) -> bool {
    ui.horizontal(|ui| {
        ui.set_min_height(28.0);
        let (mark, _) = ui.allocate_exact_size(vec2(MARK - ui.spacing().item_spacing.x, 20.0), Sense::hover());
        if is_picked {
            theme::mark(ui.painter(), State::NewSprings, mark.center(), 6.0, cx.dark);
        }
        ui.allocate_ui_with_layout(vec2(NAME, 24.0), Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(NAME);
            let name = RichText::new(results::spring_name(spring)).family(theme::bold());
            ui.add(Label::new(name).truncate()).on_hover_text(&spring.what);
        });
        let spacing = ui.spacing();
        let take = theme::text_width(ui, tr("Use this spring"), TextStyle::Button.resolve(ui.style()))
            + 2.0 * spacing.button_padding.x;
        let after = CHANCE + take + 3.0 * spacing.item_spacing.x + 2.0;
        let width = (ui.available_width() - after).max(60.0);
        let (rect, _) = ui.allocate_exact_size(vec2(width, HIGH), Sense::hover());
        bar(ui, rect, drafted.chance);
        ui.allocate_ui_with_layout(vec2(CHANCE, 24.0), Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(CHANCE);
            ui.label(words::chance(drafted.chance));
        });
        let can_take = cx.choosing.is_current();
        let button = ui.add_enabled(can_take, Button::new(tr("Use this spring")));
        let name = say!("Use {spring}", spring = results::spring_name(spring));
        button.widget_info(|| WidgetInfo::labeled(eframe::egui::Role::Button, can_take, &name));
        let button = button.on_disabled_hover_text(tr("Wait until the choice is recalculated for the current job."));
        button.on_hover_text(tr("Calculates everything with this spring and its spacer; Ctrl+Z undoes it.")).clicked()
    })
    .inner
}

/// A bar from 0 to 1: full when it can be ordered, hatched when it is doubtful.
fn bar(ui: &Ui, rect: Rect, share: f64) {
    let painter = ui.painter_at(rect.expand(2.0));
    let (ink, weak) = (ui.visuals().text_color(), ui.visuals().weak_text_color());
    painter.rect_stroke(rect, 0.0, Stroke::new(1.0, weak), StrokeKind::Inside);
    let x = |v: f64| rect.left() + rect.width() * v.clamp(0.0, 1.0) as f32;
    let filled = Rect::from_min_max(rect.min, pos2(x(share), rect.bottom()));
    if share >= MEASURE_BELOW {
        painter.rect_filled(filled, 0.0, ink.gamma_multiply(0.75));
    } else {
        hatch(&painter.with_clip_rect(filled), filled, Stroke::new(1.2, ink));
        painter.rect_stroke(filled, 0.0, Stroke::new(1.2, ink), StrokeKind::Inside);
    }
    painter.vline(x(MEASURE_BELOW), rect.top() - 2.0..=rect.bottom() + 2.0, Stroke::new(1.0, weak));
}

fn hatch(painter: &Painter, rect: Rect, stroke: Stroke) {
    let mut x = rect.left() - rect.height();
    while x < rect.right() {
        painter.line_segment([pos2(x, rect.bottom()), pos2(x + rect.height(), rect.top())], stroke);
        x += 6.0;
    }
}

/// What else is to be known of it.
fn second_line(job: &Job, drafted: &Drafted, spring: &Spring, is_taken: bool, standing: Option<&str>) -> String {
    let units = &job.units;
    let length = |si: f64| display::rounded_si(si, Dim::Length, units);
    let mut facts = vec![
        display::rounded(spring.rate, units),
        match spring.free_length {
            Some(free) => say!("free length {length}", length = length(free.si())),
            None => tr("free length not known").to_owned(),
        },
        say!("spacer {length}", length = words::spacer(&drafted.judged, units)),
        say!("ride frequency {frequency}", frequency = words::bounces(drafted, units)),
    ];
    if spring.price.is_some() {
        facts.push(say!("price {price}", price = words::price(spring.price, &job.prices.currency)));
    }
    facts.extend(spring.stock.map(|count| say!("{count} in stock", count)));
    facts.extend(
        drafted
            .chance_as_fitted
            .map(|share| say!("chance without spacer adjustment {chance}", chance = words::chance(share))),
    );
    if let Some(limit) = words::breaks_most(drafted).map(Limit::words) {
        facts.push(say!("usual reason to fail: {limit}.", limit));
    }
    let taken = is_taken.then(|| tr("Selected."));
    let facts = facts.join(", ");
    taken.into_iter().chain(standing).chain([facts.as_str()]).collect::<Vec<_>>().join(" ")
}

/// Words next to a bar, for pictures with the same look.
pub(in crate::gui) fn beside(painter: &Painter, at: eframe::egui::Pos2, text: &str, color: eframe::egui::Color32) {
    painter.text(at, Align2::LEFT_CENTER, text, theme::small(), color);
}
