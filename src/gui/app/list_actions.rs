//! What each command about the parts list and the job's plans does.

use eframe::egui;

use crate::choose::take;
use crate::gui::app::App;
use crate::gui::state::command::{ListCommand, PlanCommand};
use crate::gui::state::files::Purpose;
use crate::gui::state::step::Step;
use crate::job::{Job, LeftRight, Level, OtherPlan, Which, file};
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
            ListCommand::Take(side, spring, spacer_m) => {
                self.doc.checkpoint();
                take::one(&mut self.doc.now.job, side, &spring, spacer_m);
                self.fresh_texts(ctx);
            }
            ListCommand::TakePair(side, springs, spacers_m) => {
                self.doc.checkpoint();
                let LeftRight { left, right } = &*springs;
                take::pair(&mut self.doc.now.job, side, LeftRight { left, right }, spacers_m);
                self.fresh_texts(ctx);
            }
            ListCommand::TakeNone(side) => {
                self.doc.checkpoint();
                take::none(&mut self.doc.now.job, side);
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
