//! The customer's view: what the customer's sheet says, step by step, for a screen viewed together.
//!
//! It says nothing of its own: names and values are those of the sheet's table, sentences are the sheet's. Only what is
//! pressed, and what a picture on a screen needs, has words in addition (`view.…`).

use super::paid;
use super::recorded;
use super::sheet_table::{self, Shown};
use super::side_view;
use super::silhouette::{self, Outline};
use super::{change, felt, story, weighed};
use crate::base::units::{Length, Quantity};
use crate::job::{Level, PerAxle, Side, SpringKind};
use crate::report::Block;
use crate::report::phrases::upper_first;
use crate::report::sheets::page::{Page, one_line};
use crate::solve::answer::{AxleAnswer, State};

/// What the customer is shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Showing {
    /// The title of the customer's sheet.
    pub title: String,
    /// The vehicle's name; blank when it has none.
    pub vehicle: String,
    /// Its outline.
    pub outline: &'static Outline,
    /// Front axle to rear axle, m, when it is known.
    pub wheelbase_m: Option<f64>,
    /// The steps in order; at least one.
    pub stages: Vec<Stage>,
    /// The words of what is pressed.
    pub words: Controls,
}

impl Showing {
    /// Adds what other plans come to, each under its name, where the chosen one comes to something.
    pub(in crate::report::sheets) fn add_plans(
        &mut self,
        chosen: &str,
        others: impl Iterator<Item = (String, Showing)>,
    ) {
        let Some(last) = self.stages.last_mut().filter(|stage| stage.is_plan) else { return };
        last.name = one_line(chosen);
        for (name, showing) in others {
            let stage = showing.stages.into_iter().next_back().filter(|stage| stage.is_plan);
            // It was not driven: the runs are those of the chosen plan.
            self.stages.extend(stage.map(|stage| Stage { name: one_line(&name), driven: None, ..stage }));
        }
    }
}

/// The vehicle in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// What it is called, as the sheet's table heads it.
    pub name: String,
    /// Whose mark it has.
    pub state: State,
    /// The run over the hump that shows it; `None` when none does.
    pub driven: Option<State>,
    /// Its ends.
    pub ends: PerAxle<End>,
    /// The axles that are shown, as the columns of `rows` are headed.
    pub head: Vec<String>,
    /// Their texts: a name, and a value for each of them.
    pub rows: Vec<(String, Vec<String>)>,
    /// What its picture shows, in words.
    pub picture: String,
    /// What must not be overlooked: a stop, or that something is withheld.
    pub cautions: Vec<(Level, String)>,
    /// The sheet's sentences.
    pub says: Vec<String>,
    /// It is what a plan comes to.
    pub is_plan: bool,
    /// What is paid for, and its price; a head first.
    pub prices: Vec<[String; 2]>,
}

/// One end of the vehicle in one state.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct End {
    /// Change of height from before, + up, m.
    pub height_m: Option<f64>,
    /// Wheel travel to the bump stop, m; negative: already squeezed.
    pub room_m: Option<f64>,
    /// The axle's name, and the text next to its spring, when it is shown enlarged.
    pub enlarged: Option<(String, Vec<String>)>,
    /// The kind of its spring.
    pub kind: SpringKind,
}

/// The words of what is pressed.
#[derive(Debug, Clone, PartialEq)]
pub struct Controls {
    /// To the step before.
    pub back: String,
    /// To the next step.
    pub next: String,
    /// Over the hump.
    pub drive: String,
    /// Back to the job.
    pub leave: String,
    /// Below the picture.
    pub scale: String,
    /// The same where it can be driven.
    pub slow: String,
}

/// Where the job is in its story.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    /// As it was.
    Before,
    /// With the new weight.
    Now,
    /// The same, the old springs raised.
    Raised,
    /// As it is to be.
    New,
}

/// An axle that the sheet shows, with its states and its table.
struct Seen<'a> {
    axle: &'a AxleAnswer,
    states: Vec<Shown>,
    head: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Seen<'_> {
    /// Which of its states a step shows.
    fn column(&self, step: Step) -> usize {
        match step {
            Step::Before => 0,
            Step::Now | Step::Raised => 1,
            Step::New => self.states.len().saturating_sub(1),
        }
    }
}

pub(in crate::report::sheets) fn build(page: &Page<'_>) -> Showing {
    let seen: Vec<Seen<'_>> = super::shown(page).into_iter().map(|axle| see(page, axle)).collect();
    let wheelbase: Option<Length> = page.typed("vehicle.wheelbase", &page.job.vehicle.wheelbase);
    let steps = steps(page, &seen);
    let last = steps.last().copied();
    Showing {
        title: page.plain("customer.title"),
        vehicle: one_line(&page.job.vehicle.name),
        outline: silhouette::outline(page.job.vehicle.body),
        wheelbase_m: wheelbase.map(Quantity::si).filter(|m| *m > 0.0),
        stages: steps.iter().map(|step| stage(page, &seen, *step, Some(*step) == last)).collect(),
        words: Controls {
            back: page.plain("view.back"),
            next: page.plain("view.next"),
            drive: page.plain("view.drive"),
            leave: page.plain("view.leave"),
            scale: page.plain("view.scale"),
            slow: page.plain("view.slow"),
        },
    }
}

fn see<'a>(page: &Page<'_>, axle: &'a AxleAnswer) -> Seen<'a> {
    let (head, rows) = sheet_table::four_rows(page, axle);
    Seen { axle, states: sheet_table::states(page, axle), head, rows }
}

/// As it was, with the new weight, then what can be done; nothing of that over a rating, or while it is withheld.
fn steps(page: &Page<'_>, seen: &[Seen<'_>]) -> Vec<Step> {
    let renewed = page.refitted();
    let is_sold = !page.names_nothing() && !renewed.is_empty();
    let was_known = seen.iter().any(|s| s.axle.standing.before.is_some());
    // Plans that the shop made take its place.
    let can_be_raised =
        is_sold && page.job.plans.is_empty() && renewed.iter().all(|axle| paid::raised(page, axle).is_some());
    [(was_known, Step::Before), (true, Step::Now), (can_be_raised, Step::Raised), (is_sold, Step::New)]
        .into_iter()
        .filter_map(|(is_there, step)| is_there.then_some(step))
        .collect()
}

fn stage(page: &Page<'_>, seen: &[Seen<'_>], step: Step, is_last: bool) -> Stage {
    let state = match step {
        Step::Before => State::Before,
        Step::Raised => State::OldSprings,
        Step::Now => State::OldSprings,
        Step::New => State::NewSprings,
    };
    // Springs that stay, and may have been weighed again, are those that will be fitted.
    let stay = step == Step::Now && !seen.is_empty() && seen.iter().all(|s| s.states[1].state == State::NewSprings);
    let (cautions, mut says) = said(page, step);
    if is_last {
        says.extend(recorded::said(page));
    }
    let (name, ends) = (name(page, seen, step), PerAxle::each(|side| end(page, seen, step, side)));
    Stage {
        picture: picture(page, &name, &ends),
        name,
        state,
        driven: driven(page, step, if stay { State::NewSprings } else { state }),
        ends,
        head: seen.iter().map(|s| upper_first(&page.axle_words(s.axle.side))).collect(),
        rows: rows(page, seen, step),
        cautions,
        says,
        is_plan: step == Step::New,
        prices: if is_last && !page.names_nothing() { prices(page) } else { Vec::new() },
    }
}

fn name(page: &Page<'_>, seen: &[Seen<'_>], step: Step) -> String {
    if step == Step::Raised {
        let is_set_up = seen.iter().all(|s| paid::raised(page, s.axle).is_some_and(|r| r.is_set_up));
        let is_on_blocks = seen.iter().all(|s| s.axle.kind == SpringKind::Leaf);
        return page.plain(match (is_set_up, is_on_blocks) {
            (true, _) => "view.set_up",
            (false, true) => "view.on_blocks",
            (false, false) => "view.raised",
        });
    }
    let head = seen.first().and_then(|s| s.head.get(s.column(step) + 1));
    head.cloned().unwrap_or_else(|| page.plain("column.now"))
}

/// What the picture of a step shows.
fn picture(page: &Page<'_>, name: &str, ends: &PerAxle<End>) -> String {
    let told = ends.iter().filter_map(|end| end.enlarged.as_ref()).filter(|(_, told)| !told.is_empty());
    let told: Vec<String> = told.map(|(axle, told)| format!("{axle}: {}.", told.join(", "))).collect();
    format!("{} {}: {}", page.plain("picture.words"), upper_first(name), told.join(" "))
        .trim_end_matches([':', ' '])
        .to_owned()
}

/// The run that shows a step: none has the old springs raised, and none has new springs on one axle alone where the
/// other would get some too but keeps its own.
fn driven(page: &Page<'_>, step: Step, state: State) -> Option<State> {
    // Runs are those of the plan as it is, not of what leads in its place.
    let keeps_its_own = || page.leads.iter().any(Option::is_some);
    let is_run = match step {
        Step::Before => true,
        Step::Now => state == State::OldSprings || !keeps_its_own(),
        Step::Raised => false,
        Step::New => !keeps_its_own(),
    };
    is_run.then_some(state)
}

fn end(page: &Page<'_>, seen: &[Seen<'_>], step: Step, side: Side) -> End {
    let Some(own) = seen.iter().find(|s| s.axle.side == side) else { return unseen(page, step, side) };
    let shown = &own.states[own.column(step)];
    let axle = upper_first(&page.axle_words(side));
    if let Some(raised) = paid::raised(page, own.axle).filter(|_| step == Step::Raised) {
        let (height, room) = (raised.stands.above_before, raised.stands.on.stop_room());
        return End {
            height_m: height.map(Quantity::si),
            room_m: room.map(Quantity::si),
            enlarged: Some((axle, Vec::new())),
            kind: own.axle.kind,
        };
    }
    End {
        height_m: shown.height.map(|(rise, _)| rise.si()),
        room_m: shown.room.map(|(room, _)| room.si()),
        enlarged: Some((axle, side_view::told(page, shown).into_iter().flatten().collect())),
        kind: own.axle.kind,
    }
}

/// An axle that is not on the sheet: it is drawn where it is.
fn unseen(page: &Page<'_>, step: Step, side: Side) -> End {
    let standing = &page.answer.axle(side).standing;
    let stands = if step == Step::Before { &standing.before } else { &standing.old };
    let height = stands.as_ref().and_then(|s| s.height_change);
    End { height_m: height.map(Quantity::si), ..End::default() }
}

/// The rows of the sheet's table in one of its columns; of raised springs what the sheet says of them.
fn rows(page: &Page<'_>, seen: &[Seen<'_>], step: Step) -> Vec<(String, Vec<String>)> {
    let Some(first) = seen.first() else { return Vec::new() };
    let row = |name: &String| {
        let of = |s: &Seen<'_>| s.rows.iter().find(|row| row.first() == Some(name))?.get(s.column(step) + 1).cloned();
        (name.clone(), seen.iter().map(|s| of(s).unwrap_or_default()).collect())
    };
    if step != Step::Raised {
        return first.rows.iter().filter_map(|cells| cells.first().map(row)).collect();
    }
    let bounces = |s: &Seen<'_>| {
        let stands = paid::raised(page, s.axle).map(|r| page.two_places(r.stands.on.frequency().si()));
        stands.map_or_else(|| page.plain("unknown"), |number| page.tagged(&number, false))
    };
    vec![row(&page.plain("row.weight")), (page.plain("row.bounces"), seen.iter().map(bounces).collect())]
}

/// What must not be overlooked, and what else the sheet says of a step.
fn said(page: &Page<'_>, step: Step) -> (Vec<(Level, String)>, Vec<String>) {
    let axles = page.answer.axles.iter();
    let nothing = Vec::new();
    match step {
        Step::Before => (nothing, page.load_words().into_iter().collect()),
        Step::Now if page.is_stopped() => {
            let stops = page.stops().into_iter().map(|stop| (Level::Stop, stop));
            (stops.collect(), vec![page.plain("stop.what")])
        }
        Step::Now if page.answer.sold_is_withheld() => {
            (vec![(Level::Withheld, page.plain("withheld.customer"))], axles.map(|axle| change(page, axle)).collect())
        }
        Step::Now => {
            let renewed = page.refitted();
            let is_renewed = |axle: &AxleAnswer| renewed.iter().any(|r| r.side == axle.side);
            let weights = page.answer.axles.iter().all(|a| a.masses.sprung.after.is_none()).then(|| weighed(page));
            let own = axles.map(|axle| if is_renewed(axle) { change(page, axle) } else { story(page, axle) });
            let mut says: Vec<String> = weights.into_iter().chain(own).collect();
            if renewed.is_empty() && !page.redamped().is_empty() {
                says.extend(felt::felt(page));
            }
            (nothing, says)
        }
        Step::Raised => (nothing, page.refitted().into_iter().filter_map(|axle| paid::spacer(page, axle)).collect()),
        Step::New => (nothing, felt::felt(page)),
    }
}

/// What it costs: a head, and a line for each axle.
fn prices(page: &Page<'_>) -> Vec<[String; 2]> {
    let Some(Block::Table { head, rows }) = paid::prices(page) else { return Vec::new() };
    std::iter::once(head).chain(rows).filter_map(|row| row.try_into().ok()).collect()
}
