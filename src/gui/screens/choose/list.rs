//! The whole parts list: searched, sorted, each row with its verdict. Only the rows on screen are laid out.

use eframe::egui::{
    Align, CollapsingHeader, Label, Layout, Rect, RichText, Sense, TextEdit, Ui, UiBuilder, WidgetInfo, pos2, vec2,
};

use crate::base::language::tr;
use crate::base::units::{Quantity as _, display};
use crate::choose::Ranking;
use crate::gui::background::choosing::{ForAxle, Listed, OpenList, Sort};
use crate::gui::screens::choose::columns;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, ListCommand};
use crate::gui::widgets::choices_of;
use crate::gui::widgets::long;
use crate::gui::widgets::theme::{self, UNIT};
use crate::job::{Plan, Side};
use crate::report::results;
use crate::report::sections::choose as words;
use crate::say;
use crate::shop::parts::Spring;

const ROW: f32 = 44.0;
const TABLE: f32 = 440.0;
/// Widths of the columns of numbers.
const WIDTHS: [f32; 5] = [84.0, 84.0, 72.0, 84.0, 48.0];
const TAKE: f32 = 130.0;

/// Draws the list, folded until it is opened.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    cx.view.rows_laid_out = 0..0;
    let Listed::Open(list) = cx.choosing.list() else { return };
    let title = say!("The whole list: {springs}", springs = columns::springs_counted(list.springs().len()));
    let header = CollapsingHeader::new(title).id_salt("whole list").open(Some(cx.view.whole_list));
    let shown = header.show(ui, |ui| {
        filter(ui, cx);
        let rows = cx.choosing.rows();
        ui.small(say!("{found} of {all} springs", found = rows.len(), all = list.springs().len()));
        let judge = Judge::new(cx, side, list);
        if !judge.can_take {
            ui.label(RichText::new(why_not_taken(cx, side)).small().weak());
        }
        heads(ui);
        let mut taken = None;
        cx.view.rows_laid_out = long::show(ui, "list", ROW, rows.len(), TABLE, |ui, i| {
            let Some(spring) = rows.get(i).and_then(|r| list.springs().get(*r)) else { return };
            if row(ui, cx, &judge, spring) {
                taken = Some(judge.take(side, spring));
            }
        });
        if let Some(taken) = taken {
            cx.run(Command::List(taken));
        }
    });
    cx.when(shown.header_response, Command::List(ListCommand::Whole(!cx.view.whole_list)));
    ui.add_space(UNIT);
}

/// Why no spring can be taken now.
fn why_not_taken(cx: &Cx<'_>, side: Side) -> &'static str {
    if cx.job.axle(side).plan == Plan::Keep {
        tr("No spring can be selected: this axle keeps its springs.")
    } else if cx.choosing.is_current() {
        tr("No spring can be selected: the springs have not been checked for this axle yet.")
    } else {
        tr("No spring can be selected until the choice is recalculated for the current job.")
    }
}

fn filter(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.horizontal_wrapped(|ui| {
        let filter = &mut cx.view.filter;
        let label = ui.label(tr("Find"));
        let edit = TextEdit::singleline(&mut filter.words).hint_text(tr("part number or description"));
        ui.add(edit.desired_width(220.0).margin(vec2(8.0, 5.0))).labelled_by(label.id);
        ui.checkbox(&mut filter.only_fitting, tr("only springs that fit"));
    });
    choices_of(ui, Some(tr("Sort by:")), &mut cx.view.filter.sort, Sort::ALL, Sort::words);
}

/// Texts of one row.
struct Judge<'a> {
    ranking: Option<&'a Ranking>,
    can_take: bool,
}

impl<'a> Judge<'a> {
    fn new(cx: &Cx<'a>, side: Side, list: &OpenList) -> Self {
        let found = cx.choosing.found().filter(|f| std::ptr::eq(&*f.list, list));
        let choice = found.and_then(|f| f.axle(side)).map(|a: &ForAxle| &a.choice);
        let gets_new = cx.job.axle(side).plan == Plan::NewSprings;
        let ranking = choice.and_then(|c| c.as_ref().ok()).map(|c| &c.ranking).filter(|_| gets_new);
        Judge { ranking, can_take: gets_new && cx.choosing.is_current() && choice.is_some_and(Result::is_ok) }
    }

    fn verdict(&self, cx: &Cx<'_>, spring: &Spring) -> String {
        match self.ranking {
            None => tr("not checked yet").into(),
            Some(r) if r.wish.in_stock_only && !Ranking::on_the_shelf(spring) => tr("fewer than two in stock").into(),
            Some(ranking) => words::why(&ranking.judge(spring), ranking, &cx.job.units),
        }
    }

    fn take(&self, side: Side, spring: &Spring) -> ListCommand {
        let spacer_m = self.ranking.map(|r| r.judge(spring).spacer_m).filter(|s| s.is_finite());
        ListCommand::Take(side, Box::new(spring.clone()), spacer_m)
    }
}

/// Left edges of the numbers' columns, and where they end; what is left of them is for the name.
fn edges(left: f32, width: f32) -> [f32; WIDTHS.len() + 1] {
    let numbers: f32 = WIDTHS.iter().sum();
    let mut x = left + (width - numbers - TAKE).max(100.0);
    let mut edges = [x; WIDTHS.len() + 1];
    for (edge, width) in edges[1..].iter_mut().zip(WIDTHS) {
        x += width;
        *edge = x;
    }
    edges
}

fn heads(ui: &mut Ui) {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 20.0), Sense::hover());
    let edges = edges(rect.left(), rect.width());
    let bold = |text: &str| RichText::new(text).family(theme::bold()).small();
    put(ui, Rect::from_x_y_ranges(rect.left()..=edges[0], rect.y_range()), false, bold(tr("spring")));
    let heads = [tr("rate"), tr("free length"), tr("outside dia."), tr("price"), tr("stock")];
    for (i, head) in heads.into_iter().enumerate() {
        put(ui, Rect::from_x_y_ranges(edges[i]..=edges[i + 1], rect.y_range()), true, bold(head));
    }
}

fn put(ui: &mut Ui, rect: Rect, is_number: bool, text: RichText) {
    let rect = rect.shrink2(vec2(4.0, 0.0));
    let layout = if is_number { Layout::right_to_left(Align::Center) } else { Layout::left_to_right(Align::Center) };
    ui.new_child(UiBuilder::new().max_rect(rect).layout(layout)).add(Label::new(text).truncate());
}

/// Two lines: the spring and its numbers; its description and the reason it was rejected. True when it is selected.
fn row(ui: &mut Ui, cx: &Cx<'_>, judge: &Judge<'_>, spring: &Spring) -> bool {
    let rect = ui.max_rect();
    let edges = edges(rect.left(), rect.width());
    let half = rect.top() + 0.5 * rect.height();
    let upper = rect.top()..=half + 2.0;
    let units = &cx.job.units;
    let length = |l: Option<crate::base::units::Length>| l.map(|l| display::rounded(l, units));
    let name = RichText::new(results::spring_name(spring)).family(theme::bold());
    put(ui, Rect::from_x_y_ranges(rect.left()..=edges[0], upper.clone()), false, name);
    let numbers = [
        Some(display::rounded_si(spring.rate.si(), crate::base::units::Dim::SpringRate, units)),
        length(spring.free_length),
        length(spring.outside_diameter),
        spring.price.map(|p| words::price(Some(p), &cx.job.prices.currency)),
        spring.stock.map(|n| n.to_string()),
    ];
    for (i, number) in numbers.into_iter().enumerate() {
        let text = number.map_or_else(|| RichText::new(tr("not known")).weak().italics().small(), RichText::new);
        put(ui, Rect::from_x_y_ranges(edges[i]..=edges[i + 1], upper.clone()), true, text);
    }
    let verdict = judge.verdict(cx, spring);
    let below = if spring.what.is_empty() || results::spring_name(spring) == spring.what {
        verdict
    } else {
        format!("{}: {verdict}", spring.what)
    };
    let end = edges[WIDTHS.len()];
    put(ui, Rect::from_x_y_ranges(rect.left()..=end, half..=rect.bottom()), false, RichText::new(below).small());
    let place = Rect::from_min_max(pos2(end + 6.0, rect.top() + 8.0), rect.right_bottom() - vec2(14.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().max_rect(place).layout(Layout::left_to_right(Align::Center)));
    let button = child.add_enabled(judge.can_take, eframe::egui::Button::new(tr("Use this spring")));
    let spoken = say!("Use {spring} from the whole list", spring = results::spring_name(spring));
    button.widget_info(|| WidgetInfo::labeled(eframe::egui::Role::Button, judge.can_take, &spoken));
    button.clicked()
}
