//! The plans of a job side by side: what each does, what it costs, and whether a cheaper one does the same.

use serde_json::{Value, json};

use super::open::{self, Open};
use super::page::Page;
use super::{Printed, customer, words_of};
use crate::base::language::{inside, tr};
use crate::base::units::UnitChoice;
use crate::job::{DamperPlan, Job, PerAxle, Plan, Side, Which};
use crate::report::phrases::upper_first;
use crate::report::pictures::motion::hump;
use crate::report::pictures::plans::{self, PLAN_MARKS, Seen};
use crate::report::pictures::{plot, shift};
use crate::report::results::as_json::si_unit;
use crate::report::results::{self, Figure, Results, row_called};
use crate::report::{Block, money, or_unknown};
use crate::say;
use crate::solve::answer::Answer;
use crate::solve::planned::{self, Against, Planned};
use crate::solve::without_leads;

/// What is compared of each axle.
const OF_AXLE: [&str; 6] = [
    "new_springs.height_change",
    "new_springs.frequency",
    "new_springs.stop_room",
    "new_springs.reserve",
    "damping_as_fitted",
    "new_springs.road.stop_hits_per_km",
];
/// What is compared of the whole vehicle.
const OF_VEHICLE: [&str; 6] = [
    "whole.corners.new.right_lower",
    "whole.corners.new.cross_weight",
    "whole.rear_over_front.new_springs",
    "whole.roll.new_springs.gradient",
    "whole.roll.new_springs.front_transfer",
    "whole.beam.new_springs",
];

/// A plan with its results and its price.
#[derive(Debug, Clone)]
pub struct Compared {
    /// The plan.
    pub planned: Planned,
    /// What is compared of it, each result with how far the fields move it.
    results: Results,
    /// The rules that withhold it: front, rear.
    withheld: PerAxle<Vec<&'static str>>,
    /// Parts and work, in the shop's currency; `None` when not known or nothing may be sold.
    pub price: Option<f64>,
    /// What it does, compared with the chosen one.
    pub against: Against,
    /// What it leaves open, which has no price: "front.dampers".
    open: Vec<String>,
    /// It brings up no doubt that the chosen one does not.
    raises_no_doubt: bool,
    /// What pictures of the chosen one show of it.
    seen: Seen,
}

impl Compared {
    /// Of a plan and its answer. The answer itself is not kept: that of a full job is large.
    fn of(planned: Planned, answer: &Answer, chosen: &Answer) -> Self {
        let still_open = |page: &Page<'_>| open::items(page).iter().map(Open::key).collect();
        let (price, open) = on_page(&planned.job, answer, |page| (customer::price(page), still_open(page)));
        Compared {
            results: results::some_with_steps(answer, &compared_keys()).into(),
            withheld: PerAxle::each(|side| answer.released(side).err().map_or_else(Vec::new, |r| r.rules())),
            price,
            open,
            // The very same springs are no second pair of them.
            against: if planned.is_chosen() { Against::Same } else { planned::against(answer, chosen) },
            raises_no_doubt: planned::raises_no_doubt(answer, chosen),
            seen: Seen::of(planned.name.clone(), answer),
            planned,
        }
    }

    /// Something is withheld or stopped on an axle.
    fn is_withheld(&self) -> bool {
        self.withheld.iter().any(|rules| !rules.is_empty())
    }

    /// It is chosen.
    pub fn is_chosen(&self) -> bool {
        self.planned.is_chosen()
    }
}

/// The plans of a job, from nothing done to the dearest.
#[derive(Debug, Clone)]
pub struct Plans {
    /// Each of them; at least the chosen one.
    pub all: Vec<Compared>,
    units: UnitChoice,
    currency: String,
}

impl Plans {
    /// Solves and compares the plans of a job; `chosen` is the answer to the job as it is. `None` once they are no longer
    /// wanted.
    pub fn of(job: &Job, chosen: &Answer, is_wanted: impl Fn() -> bool) -> Option<Self> {
        let (own, others): (Vec<Planned>, Vec<Planned>) =
            planned::every(job, chosen).into_iter().partition(Planned::is_chosen);
        let mut all: Vec<Compared> = own.into_iter().map(|plan| Compared::of(plan, chosen, chosen)).collect();
        for plans in others.chunks(AT_ONCE) {
            if !is_wanted() {
                return None;
            }
            let solved = plans.iter().zip(answers(plans));
            all.extend(solved.map(|(plan, answer)| Compared::of(plan.clone(), &answer, chosen)));
        }
        // Where a price is not known, by what is done.
        all.sort_by(|a, b| match a.price.zip(b.price) {
            Some((a, b)) => a.total_cmp(&b),
            None => work(&a.planned.job).cmp(&work(&b.planned.job)),
        });
        Some(Plans { all, units: job.units, currency: job.prices.currency.trim().to_owned() })
    }

    /// The chosen one.
    pub fn chosen(&self) -> Option<&Compared> {
        self.all.iter().find(|plan| plan.is_chosen())
    }

    /// The job's other plans, as pictures of the chosen one show them.
    pub fn others(&self) -> Vec<&Seen> {
        let others = self.all.iter().filter(|plan| matches!(plan.planned.which, Some(Which::Other(_))));
        others.map(|plan| &plan.seen).take(PLAN_MARKS.len()).collect()
    }

    /// The pictures of the chosen plan in which another plan is seen: height against frequency of each axle, and the hump.
    pub fn pictures(&self, chosen: &Answer) -> Vec<Block> {
        const SIZE_MM: [f32; 2] = [178.0, 80.0];
        let (others, units) = (self.others(), &self.units);
        let of_axle =
            |side: Side| Some(plans::in_shift(&shift::shift(chosen, side, units)?, side, &others).into_owned());
        let after_hump = || Some(plans::after_hump(&hump::after_hump(chosen, units)?, chosen, &others).into_owned());
        let all = Side::BOTH.into_iter().filter_map(of_axle).chain(after_hump());
        let seen = all.filter(|picture| !picture.plans.is_empty());
        seen.map(|picture| Block::Drawing(plot::sized(&picture, SIZE_MM, units))).collect()
    }

    /// The old springs on spacers, where the program added them.
    pub fn added(&self) -> Option<&Compared> {
        self.all.iter().find(|plan| plan.planned.key() == planned::SPACERS)
    }

    /// A plan that costs less than the chosen one and does the same, or may; the cheapest of them. None while the chosen
    /// one is withheld: then nothing is like it.
    pub fn cheaper(&self) -> Option<&Compared> {
        let chosen = self.chosen().filter(|chosen| !chosen.is_withheld())?;
        let less = |plan: &Compared| match plan.price.zip(chosen.price) {
            Some((is, of_chosen)) => is < of_chosen,
            None => work(&plan.planned.job) < work(&chosen.planned.job),
        };
        let would_do = |plan: &&Compared| {
            plan.against != Against::Differs && plan.raises_no_doubt && !plan.is_withheld() && less(plan)
        };
        self.all.iter().find(would_do)
    }

    /// The same in a sentence.
    pub fn advice(&self) -> Option<String> {
        let cheaper = self.cheaper()?;
        let (plan, saved) = (&cheaper.planned.name, self.chosen()?.price.zip(cheaper.price).map(|(c, p)| c - p));
        Some(match (cheaper.against, saved) {
            (Against::Same, Some(saved)) => say!(
                "\"{plan}\" gives the same result, within the measurement uncertainty, and costs {saved} less. Choose it.",
                plan,
                saved = self.money(saved)
            ),
            (Against::Same, None) => {
                say!(
                    "\"{plan}\" gives the same result, within the measurement uncertainty, with less work. Choose it.",
                    plan
                )
            }
            (_, Some(saved)) => say!(
                "\"{plan}\" may give the same result and costs {saved} less. Measure first: the ± of the difference is too large to tell.",
                plan,
                saved = self.money(saved)
            ),
            (_, None) => say!(
                "\"{plan}\" may give the same result with less work. Measure first: the ± of the difference is too large to tell.",
                plan
            ),
        })
    }

    fn money(&self, price: f64) -> String {
        money(price, &self.currency)
    }

    /// One table: a column for each plan, the chosen one marked; the advice below. Empty when there is only one
    /// plan and no cheaper one does the same.
    pub fn blocks(&self) -> Vec<Block> {
        if self.is_asked() { self.all_blocks() } else { Vec::new() }
    }

    /// There is something to decide: several plans, or a cheaper one that does the same.
    pub fn is_asked(&self) -> bool {
        let is_other = |plan: &Compared| matches!(plan.planned.which, Some(Which::Other(_)));
        self.all.iter().any(is_other) || self.cheaper().is_some()
    }

    /// The same for any number of plans.
    pub fn all_blocks(&self) -> Vec<Block> {
        let alike = tr("Rows that are the same in all plans are left out.").to_owned();
        let mut blocks = vec![Block::Heading(tr("Plans side by side").to_owned()), self.table(), Block::Text(alike)];
        blocks.extend(self.advice().map(Block::Text));
        let withheld: Vec<String> =
            self.all.iter().filter(|plan| plan.is_withheld()).map(|plan| plan.planned.name.to_string()).collect();
        if !withheld.is_empty() {
            let text = say!("Withheld, so not recommended: {plans}.", plans = withheld.join(", "));
            blocks.push(Block::Caution(text));
        }
        blocks
    }

    /// A row for each result that is not the same in all plans.
    pub fn table(&self) -> Block {
        let name = |plan: &Compared| match plan.is_chosen() {
            true => say!("{plan} (chosen)", plan = plan.planned.name),
            false => plan.planned.name.to_string(),
        };
        let head = std::iter::once(String::new()).chain(self.all.iter().map(name)).collect();
        let mut rows = Vec::new();
        for side in Side::BOTH {
            for key in OF_AXLE {
                rows.extend(self.row(&format!("{}.{key}", side.key()), Some(side)));
            }
        }
        rows.extend(OF_VEHICLE.iter().filter_map(|key| self.row(key, None)));
        let price = |plan: &Compared| {
            let price = or_unknown(plan.price, |price| self.money(price));
            if plan.open.is_empty() { price } else { say!("{price}, without what is open", price) }
        };
        rows.push(std::iter::once(tr("Parts and labour").to_owned()).chain(self.all.iter().map(price)).collect());
        Block::Table { head, rows }
    }

    fn row(&self, key: &str, side: Option<Side>) -> Option<Vec<String>> {
        let figures: Vec<Option<&Figure>> = self.all.iter().map(|plan| plan.results.find(key)).collect();
        let label = &figures.iter().flatten().find(|figure| figure.si.is_some())?.label;
        let label = match side {
            Some(side) => say!("{axle}: {label}", axle = side.word(), label = inside(label)),
            None => upper_first(label),
        };
        let cells = row_called(label, &figures, &self.units);
        cells[1..].windows(2).any(|two| two[0] != two[1]).then_some(cells)
    }

    /// The plans as JSON: of each what is compared, and its difference from the chosen one with its ±.
    pub fn json(&self) -> Value {
        let chosen = self.chosen();
        let keys = compared_keys();
        let one = |plan: &Compared| {
            let results: Vec<Value> = keys.iter().filter_map(|key| figure(plan, chosen, key)).collect();
            let withheld = &plan.withheld;
            json!({
                "key": plan.planned.key(), "name": plan.planned.name, "chosen": plan.is_chosen(), "price": plan.price,
                "against_chosen": plan.against.key(), "open": plan.open, "withheld": {"front": withheld.front, "rear": withheld.rear},
                "results": results,
            })
        };
        json!({
            "all": self.all.iter().map(one).collect::<Vec<_>>(),
            "cheaper": self.cheaper().map(|plan| plan.planned.key()),
        })
    }
}

/// What the customer's page says of a plan as it is.
fn on_page<T>(job: &Job, answer: &Answer, of: impl Fn(&Page<'_>) -> T) -> T {
    let (results, words, printed) = (Results::values_of(answer), words_of(job), Printed::default());
    of(&Page { job, answer, results: &results, leads: &PerAxle::default(), words, printed, side: None })
}

/// How many plans are solved side by side: the answer to a full job is large, whatever the number of cores.
const AT_ONCE: usize = 2;

/// The answers to plans, solved side by side.
fn answers(plans: &[Planned]) -> Vec<Answer> {
    std::thread::scope(|scope| {
        let begun: Vec<_> = plans.iter().map(|plan| scope.spawn(|| without_leads(&plan.job))).collect();
        // A thread that died is asked again here, where its reason is told.
        let solved = begun.into_iter().zip(plans);
        solved.map(|(thread, plan)| thread.join().unwrap_or_else(|_| without_leads(&plan.job))).collect()
    })
}

/// The keys of all that is compared.
fn compared_keys() -> Vec<String> {
    let of_axles = Side::BOTH.into_iter().flat_map(|side| OF_AXLE.map(|key| format!("{}.{key}", side.key())));
    of_axles.chain(OF_VEHICLE.map(str::to_owned)).collect()
}

/// One result of a plan, with its difference from that of the chosen one.
fn figure(plan: &Compared, chosen: Option<&Compared>, key: &str) -> Option<Value> {
    let is = plan.results.find(key)?;
    let was = chosen?.results.find(key)?;
    let difference = is.si.zip(was.si).map(|(is, was)| is - was);
    let u = difference.zip(is.u_si.zip(was.u_si)).map(|_| match plan.is_chosen() {
        true => 0.0,
        false => planned::u_of_difference(&is.steps, &was.steps),
    });
    Some(json!({
        "key": key, "label": is.name, "value": is.si, "u": is.u_si, "unit": si_unit(is.dim),
        "difference": difference, "difference_u": u,
    }))
}

/// How much is done, from nothing up: spacers, springs, dampers with them, anti-roll bars.
fn work(job: &Job) -> usize {
    let of = |side: Side| {
        let axle = job.axle(side);
        let springs = match axle.plan {
            Plan::Keep if axle.leaves_springs() => 0,
            Plan::Keep => 1,
            Plan::NewSprings => 2,
        };
        let dampers = usize::from(axle.dampers != DamperPlan::Keep);
        springs + dampers + usize::from(!axle.roll_bar.new_diameter.is_blank())
    };
    of(Side::Front) + of(Side::Rear)
}
