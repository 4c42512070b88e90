//! What each command about the parts list and the job's plans does.

use eframe::egui;

use crate::base::language::with_mark;
use crate::base::units::entry::AnyEntry;
use crate::base::units::{Dim, Origin, Quantity as _, Spread, display};
use crate::gui::app::App;
use crate::gui::state::command::{ListCommand, PlanCommand, Taking};
use crate::gui::state::files::Purpose;
use crate::gui::state::step::Step;
use crate::job::{Job, Level, OtherPlan, Taken, Which, file};
use crate::report::sheets::plan_table::Plans;
use crate::say;

impl App {
    pub(in crate::gui) fn run_list(&mut self, ctx: &egui::Context, command: ListCommand) {
        match command {
            ListCommand::Name(name) => {
                if self.doc.now.job.list != name {
                    self.doc.checkpoint();
                    self.doc.now.job.list = name;
                }
            }
            ListCommand::Open => self.ask(ctx, Purpose::OpenList, ""),
            ListCommand::Look(path) => {
                self.view.step = Step::Choose;
                self.choosing.look_at(path);
            }
            ListCommand::PartedBy(delimiter) => {
                if let Some(mapping) = &self.view.mapping {
                    self.choosing.part_by(mapping.path.clone(), mapping.is_new, delimiter);
                }
            }
            ListCommand::UseColumns => {
                if let Some(mapping) = self.view.mapping.clone() {
                    self.choosing.use_columns(mapping);
                }
            }
            ListCommand::OriginalKept(path) => self.say(Level::Note, format!("{}.", file::original_kept(&path))),
            ListCommand::LeaveColumns => self.view.mapping = None,
            ListCommand::ReadAgain => self.choosing.read_again(),
            ListCommand::Whole(is_open) => self.view.whole_list = is_open,
            ListCommand::Rows(filter) => self.view.filter = filter,
            ListCommand::Stop => self.choosing.stop(),
            ListCommand::WorkOut => self.choosing.work_out(),
            ListCommand::Take(taking) => {
                self.doc.checkpoint();
                take(&mut self.doc.now.job, &taking);
                self.fresh_texts(ctx);
            }
            ListCommand::TakeNone(side) => {
                self.doc.checkpoint();
                self.doc.now.job.axle_mut(side).taken = Taken::default();
                self.fresh_texts(ctx);
            }
        }
    }
}

impl App {
    pub(in crate::gui) fn run_plan(&mut self, ctx: &egui::Context, command: &PlanCommand) {
        let adds = matches!(command, PlanCommand::Add | PlanCommand::ChooseAdded | PlanCommand::Choose(Which::Nothing));
        if adds && !self.has_room("plans", 1) {
            return;
        }
        self.doc.checkpoint();
        let job = &mut self.doc.now.job;
        match command {
            PlanCommand::Choose(which) => job.choose_plan(*which),
            PlanCommand::Add => begin_plan(job),
            PlanCommand::ChooseAdded => {
                if let Some(added) = self.planning.plans().and_then(Plans::added) {
                    job.plan_name = job.plan_words(Which::Chosen).to_string();
                    let plan = added.planned.job.chosen_plan();
                    job.choose_new_plan(OtherPlan { name: added.planned.name.to_string(), ..plan });
                }
            }
            PlanCommand::Remove(n) if *n < job.plans.len() => drop(job.plans.remove(*n)),
            PlanCommand::Remove(_) => {}
        }
        self.fresh_texts(ctx);
    }
}

/// Begins another plan as a copy of the chosen one, which stays among the others.
fn begin_plan(job: &mut Job) {
    let number = job.plans.len() + 1;
    if job.plan_name.trim().is_empty() {
        job.plan_name = say!("plan {number}", number);
    }
    let name = say!("plan {number}", number = number + 1);
    job.choose_new_plan(OtherPlan { name, ..job.chosen_plan() });
}

/// Fills what is taken from a row of the list, in the units shown.
fn take(job: &mut Job, taking: &Taking) {
    let (units, mark, spring) = (job.units, job.decimal, &taking.spring);
    let in_full = |si: f64, dim: Dim| with_mark(display::full_si(si, dim, &units), mark);
    let length = |l: Option<crate::base::units::Length>| l.map(|l| in_full(l.si(), Dim::Length));
    let taken = &mut job.axle_mut(taking.side).taken;
    *taken = Taken { number: spring.number.clone(), what: spring.what.clone(), ..Taken::default() };
    let price = spring.price.map(|p| with_mark(display::rounded_number(p, units.unit(Dim::Ratio)), mark));
    let spacer = taking.spacer_m.map(|s| with_mark(display::rounded_si(s, Dim::Length, &units), mark));
    let texts: [(&mut dyn AnyEntry, Option<String>); 6] = [
        (&mut taken.rate, Some(in_full(spring.rate.si(), Dim::SpringRate))),
        (&mut taken.free_length, length(spring.free_length)),
        (&mut taken.solid_length, length(spring.solid_length)),
        (&mut taken.spacer, spacer),
        (&mut taken.price, price),
        (&mut taken.in_stock, spring.stock.map(|n| n.to_string())),
    ];
    for (entry, text) in texts {
        let Some(text) = text else { continue };
        entry.type_text(&text, units.unit(entry.dim()), mark);
        entry.set_origin(Some(Origin::Quoted));
    }
    if let Some(share) = spring.rate_tolerance {
        let percent = with_mark(display::significant(100.0 * share.si(), 4), mark);
        taken.rate.set_pm(&format!("{percent} %"), Spread::Limits);
    }
}
