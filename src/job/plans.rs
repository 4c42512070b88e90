//! The plans of a job: nothing done, the chosen one, which the axles hold, and the others.

use super::{AxlePlan, BagFitted, DamperPlan, Job, OtherPlan, Plan, Side, bounded};
use crate::base::message::Message;
use crate::message;

/// One of a job's plans.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Which {
    /// Nothing is done: the old springs stay as they are, and so does everything else.
    Nothing,
    /// The one that is chosen.
    Chosen,
    /// One of the others, by its place in [`Job::plans`].
    Other(usize),
}

impl Which {
    /// The key in JSON and in the command line.
    pub fn key(self) -> String {
        match self {
            Which::Nothing => "nothing".to_owned(),
            Which::Chosen => "chosen".to_owned(),
            Which::Other(n) => format!("plans[{n}]"),
        }
    }
}

impl Job {
    /// Every plan, in the order in which they are compared. Nothing done is left out where that is what is chosen.
    pub fn every_plan(&self) -> Vec<Which> {
        let nothing = (!self.does_nothing()).then_some(Which::Nothing);
        nothing.into_iter().chain([Which::Chosen]).chain(self.other_plans()).collect()
    }

    /// The plans that are not chosen, as many as count.
    pub fn other_plans(&self) -> impl Iterator<Item = Which> {
        (0..self.plans.len().min(bounded::most_rows("plans"))).map(Which::Other)
    }

    /// What a plan is called.
    pub fn plan_words(&self, which: Which) -> Message {
        let (name, unnamed) = match which {
            Which::Nothing => ("", message!("nothing done")),
            Which::Chosen if self.does_nothing() => (self.plan_name.trim(), message!("nothing done")),
            Which::Chosen => (self.plan_name.trim(), message!("as planned")),
            Which::Other(n) => {
                let name = self.plans.get(n).map_or("", |plan| plan.name.trim());
                (name, message!("plan {number}", number = n + 2))
            }
        };
        // In one line, whatever was typed.
        if name.is_empty() { unnamed } else { Message::Typed(name.split_whitespace().collect::<Vec<_>>().join(" ")) }
    }

    /// The plan of this name or key; capitals do not count.
    pub fn plan_named(&self, name: &str) -> Option<Which> {
        let same = |key: &str| key.to_lowercase() == name.trim().to_lowercase();
        let all: Vec<Which> = [Which::Nothing, Which::Chosen].into_iter().chain(self.other_plans()).collect();
        let by_key = all.iter().find(|which| same(&which.key()));
        by_key.or_else(|| all.iter().find(|which| self.plan_words(**which).is_said(name))).copied()
    }

    /// Chooses a plan: the chosen one takes its place among the others, unless it does nothing and has no name; that one
    /// need not be kept.
    pub fn choose_plan(&mut self, which: Which) {
        let n = match which {
            Which::Chosen => return,
            Which::Nothing => return self.choose_new_plan(self.nothing()),
            Which::Other(n) => n,
        };
        let leaves_nothing = self.chosen_plan() == self.nothing();
        let Some(mut other) = self.plans.get_mut(n).map(std::mem::take) else { return };
        std::mem::swap(&mut self.plan_name, &mut other.name);
        self.front.exchange(&mut other.front);
        self.rear.exchange(&mut other.rear);
        self.plans[n] = other;
        if leaves_nothing {
            self.plans.remove(n);
        }
    }

    /// Chooses a plan that is not among the others yet.
    pub fn choose_new_plan(&mut self, plan: OtherPlan) {
        self.plans.push(plan);
        self.choose_plan(Which::Other(self.plans.len() - 1));
    }

    /// The chosen plan as the axles hold it.
    pub fn chosen_plan(&self) -> OtherPlan {
        let [front, rear] = Side::BOTH.map(|side| {
            let mut plan = AxlePlan::default();
            self.axle(side).clone().exchange(&mut plan);
            plan
        });
        OtherPlan { name: self.plan_name.clone(), front, rear }
    }

    /// The same job with this plan chosen.
    pub fn on_plan(&self, which: Which) -> Job {
        let mut job = self.clone();
        job.choose_plan(which);
        job
    }

    /// The chosen plan leaves both axles as they are.
    pub fn does_nothing(&self) -> bool {
        [&self.front, &self.rear].into_iter().all(|axle| {
            let same_bar = axle.roll_bar.new_diameter.is_blank();
            axle.leaves_springs() && axle.dampers == DamperPlan::Keep && same_bar
        })
    }

    /// Of a file in which another anti-roll bar was a candidate in no plan: what was chosen keeps the old one, and the same with
    /// the other bar is a plan of its own. Where there are plans already, each has its bar.
    pub(in crate::job) fn plan_candidate_bars(&mut self) {
        if !self.plans.is_empty() {
            return;
        }
        let mut with_bars = self.chosen_plan();
        let bars = Side::BOTH.map(|side| std::mem::take(&mut self.axle_mut(side).roll_bar.new_diameter));
        if bars.iter().any(|bar| !bar.is_blank()) {
            with_bars.name = message!("other anti-roll bar").to_string();
            self.plans.push(with_bars);
        }
    }

    /// Both axles keep springs and dampers as they are; what was always there stays.
    fn nothing(&self) -> OtherPlan {
        let [front, rear] = Side::BOTH.map(|side| {
            let mut plan = AxlePlan { plan: Plan::Keep, dampers: DamperPlan::Keep, ..AxlePlan::default() };
            if self.axle(side).bag.fitted == BagFitted::Always {
                plan.bag.fitted = BagFitted::Always;
            }
            plan
        });
        OtherPlan { name: String::new(), front, rear }
    }
}
