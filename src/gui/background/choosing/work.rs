//! What the window's one worker does: read a list, look at a file, try its columns, choose.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::kinds::Mapping;
use super::open_list::OpenList;
use crate::base::message::Message;
use crate::base::progress::Watch;
use crate::base::units::Unit;
use crate::choose::damper_choice::{self, DamperRanking};
use crate::choose::draws::Draws;
use crate::choose::{self, Choice, Unable};
use crate::job::{Customer, Job, PerAxle, Plan, Shop as JobShop, Side};
use crate::shop::lists::{self, Shop, ShopError};
use crate::shop::parts::{BadRow, Columns, List};
use crate::solve::answer::AxleAnswer;
use crate::solve::solve;

/// The list a job asks for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Source {
    /// Its name.
    pub name: String,
    /// The job's own file.
    pub beside: Option<PathBuf>,
    /// Grows when the file is to be read again.
    pub again: u64,
}

/// What one axle can have from a list.
#[derive(Debug)]
pub struct ForAxle {
    /// The choice, or why there is none.
    pub choice: Result<Choice, Unable>,
    /// Which springs fit, by their place in the list.
    pub(super) fits: Vec<bool>,
    /// All springs, best first.
    pub(super) order: Vec<usize>,
}

/// What was chosen, for which job, from which list.
#[derive(Debug)]
pub struct Found {
    pub(super) job: Job,
    pub(super) serial: u64,
    /// The list.
    pub list: Arc<OpenList>,
    axles: PerAxle<Option<ForAxle>>,
    /// The axles of the answer that it rests on.
    pub(super) answered: PerAxle<AxleAnswer>,
    /// How the list's dampers rank, or why they do not; front and rear.
    pub(super) dampers: PerAxle<Result<DamperRanking, Unable>>,
}

impl Found {
    /// What one axle can have; `None` when it keeps its springs.
    pub fn axle(&self, side: Side) -> Option<&ForAxle> {
        self.axles[side].as_ref()
    }
}

/// What a file holds when it is read by certain columns.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Counts {
    /// How many springs.
    pub springs: usize,
    /// How many dampers.
    pub dampers: usize,
    /// Rows that cannot be used.
    pub bad: Vec<BadRow>,
    /// What was interpreted.
    pub notes: Vec<Message>,
}

/// What the worker brings back.
pub(super) enum Done {
    Listed { source: Source, list: Option<Result<Arc<OpenList>, ShopError>>, names: Vec<String> },
    Looked { look: Look, columns: Result<Columns, ShopError> },
    Tried { mapping: Mapping, look: u64, counts: Result<Counts, ShopError>, likely: Vec<(usize, &'static Unit)> },
    TakenIn { name: Result<(String, Option<PathBuf>), ShopError>, is_new: bool },
    Chosen(Option<Box<Found>>),
}

/// A file to look at: what do its columns mean?
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Look {
    pub path: PathBuf,
    /// It is no list of the shop's yet.
    pub is_new: bool,
    /// How its columns are parted, if the user says so.
    pub parted_by: Option<Option<char>>,
}

/// The job without what no choice depends on: names and notes.
pub(super) fn what_counts(job: &Job) -> Job {
    let mut job = job.clone();
    (job.shop, job.customer) = (JobShop::default(), Customer::default());
    job.notes.clear();
    job.vehicle.name.clear();
    job.vehicle.identification.clear();
    job.vehicle.change.clear();
    job
}

/// True when some axle gets new springs.
pub(super) fn asks(job: &Job) -> bool {
    Side::BOTH.iter().any(|side| job.axle(*side).plan == Plan::NewSprings)
}

/// Opens the list that a job names, if it names one.
pub(super) fn list(shop: &Shop, source: Source) -> Done {
    let open = || shop.open(&source.name, source.beside.as_deref()).map(|opened| Arc::new(OpenList::new(opened)));
    let list = (!source.name.is_empty()).then(open);
    if let Some(path) = list.iter().flatten().find_map(|list| list.opened.path.as_ref()) {
        // Where that fails it is only not offered to other jobs.
        let _ = shop.remember_used(path);
    }
    Done::Listed { source, list, names: shop.names() }
}

pub(super) fn look(look: Look) -> Done {
    let columns = match look.parted_by {
        None => lists::columns_of(&look.path),
        Some(delimiter) => lists::columns_parted_by(&look.path, delimiter),
    };
    Done::Looked { look, columns }
}

/// Counts what a file holds by these columns; `look` is given back.
pub(super) fn try_columns(mapping: Mapping, look: u64) -> Done {
    let counts = lists::try_columns(&mapping.path, &mapping.columns).map(|list| count(&list));
    let likely = lists::likely_units(&mapping.path, &mapping.columns);
    Done::Tried { mapping, look, counts, likely }
}

pub(super) fn count(list: &List) -> Counts {
    let (springs, dampers) = (list.springs.len(), list.dampers.len());
    Counts { springs, dampers, bad: list.bad.clone(), notes: list.notes.clone() }
}

/// Remembers what the columns mean; a new file is taken in among the shop's lists.
pub(super) fn take_in(shop: &Shop, path: &Path, columns: &Columns, is_new: bool) -> Done {
    let name = if is_new {
        shop.take_in(path, columns)
    } else {
        lists::remember(path, columns).map(|original| (path.display().to_string(), original))
    };
    Done::TakenIn { name, is_new }
}

/// Chooses for every axle that gets new springs; nothing when it was cancelled.
pub(super) fn choose(job: &Job, list: &Arc<OpenList>, draws: Draws, serial: u64, watch: &Watch) -> Done {
    let answer = solve(job);
    let springs = list.springs();
    let mut axles = PerAxle::default();
    for side in Side::BOTH {
        if job.axle(side).plan != Plan::NewSprings {
            continue;
        }
        axles[side] = match choose::choose(job, &answer, side, springs, draws, watch) {
            Ok(None) => return Done::Chosen(None),
            Ok(Some(choice)) => Some(chosen(choice, springs.len())),
            Err(unable) => Some(ForAxle { choice: Err(unable), fits: Vec::new(), order: Vec::new() }),
        };
    }
    let dampers = PerAxle::each(|side| damper_choice::rank(job, &answer, side, &list.opened.list.dampers));
    let list = Arc::clone(list);
    Done::Chosen(Some(Box::new(Found { job: what_counts(job), serial, list, axles, answered: answer.axles, dampers })))
}

fn chosen(choice: Choice, count: usize) -> ForAxle {
    let ranking = &choice.ranking;
    let mut fits = vec![false; count];
    let mut is_ranked = vec![false; count];
    let mut order: Vec<usize> = Vec::with_capacity(count);
    for (place, ranked) in ranking.ranked.iter().enumerate() {
        fits[ranked.row] = place < ranking.fitting;
        is_ranked[ranked.row] = true;
        order.push(ranked.row);
    }
    order.extend((0..count).filter(|i| !is_ranked[*i]));
    ForAxle { choice: Ok(choice), fits, order }
}
