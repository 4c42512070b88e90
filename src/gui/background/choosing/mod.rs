//! What goes on in the background for the step Choose: the list is opened, its columns are tried, springs are chosen.
//!
//! One thing at a time, on a thread; nothing before the step was shown once. What is shown always says for which job
//! it was found: [`Choosing::is_current`] is false from the first change until the new result is there.

mod command;
mod kinds;
mod open_list;
mod said;
mod shown_rows;
mod work;

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use eframe::egui;

use crate::base::language::tr;
use crate::base::units::Unit;
use crate::choose::draws::Draws;
use crate::gui::background::worker::{DRAWN_EVERY, Ended, REST_S, Worker};
use crate::job::{Job, Side};
use crate::report::Block;
use crate::say;
use crate::shop::lists::{Shop, ShopError};
use crate::shop::parts::Columns;
pub use command::ListCommand;
pub(in crate::gui) use kinds::{Asked, Now};
pub use kinds::{Listed, Mapping, Progress};
pub use open_list::{Filter, OpenList, Sort};
pub use said::Said;
pub use work::{Counts, ForAxle, Found};
use work::{Done, Look, Source};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Doing {
    Files,
    Choosing,
}

/// Everything known of the parts list and of what can be chosen from it.
#[derive(Default)]
pub struct Choosing {
    shop: Shop,
    draws: Draws,
    worker: Worker<Done>,
    doing: Option<Doing>,
    was_shown: bool,
    names: Vec<String>,
    source: Option<Source>,
    list: Listed,
    look: Option<Look>,
    take_in: Option<Mapping>,
    /// Grows when files are to be read again: what was counted before says nothing any more.
    looks: u64,
    tried: Option<(Mapping, Result<Counts, ShopError>)>,
    likely: Vec<(usize, &'static Unit)>,
    mapped: Option<(Columns, f64)>,
    latest: Job,
    counts: Job,
    changed_s: f64,
    is_stopped: bool,
    found: Option<Box<Found>>,
    serial: u64,
    is_current: bool,
    rows: shown_rows::Rows,
    sayings: said::Sayings,
    trouble: Option<String>,
}

impl Choosing {
    /// Nothing is known yet. Lists are looked for in this shop; a choice takes this number of draws.
    pub(in crate::gui) fn new(shop: Shop, draws: Draws) -> Self {
        Choosing { shop, draws, ..Choosing::default() }
    }

    /// Names of all lists.
    pub fn names(&self) -> &[String] {
        &self.names
    }

    /// The list that the job names.
    pub fn list(&self) -> &Listed {
        &self.list
    }

    /// What the list offers in dampers for an axle, of the job as it stood when it was chosen; nothing before that.
    pub fn dampers(&self, side: Side) -> &[Block] {
        &self.sayings.dampers[side]
    }

    /// What was chosen last, be it of the current job or of an earlier one.
    pub fn found(&self) -> Option<&Found> {
        self.found.as_deref()
    }

    /// What was chosen belongs to the current job.
    pub fn is_current(&self) -> bool {
        self.is_current
    }

    /// Texts of one axle's choice.
    pub fn said(&self, side: Side) -> Option<&Said> {
        self.sayings.axles[side].as_ref()
    }

    /// Places of the rows that pass the filter.
    pub fn rows(&self) -> &[usize] {
        &self.rows.rows
    }

    /// How often rows were filtered, and how often work was started; for tests.
    pub fn worked(&self) -> (u64, u64) {
        (self.rows.filtered, self.worker.started())
    }

    /// What went wrong with a file, if anything did.
    pub fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }

    /// What the file holds with the columns being chosen; `None` while that is not known.
    pub fn tried(&self, mapping: &Mapping) -> Option<&Result<Counts, ShopError>> {
        self.tried.as_ref().filter(|(m, _)| m == mapping).map(|(_, counts)| counts)
    }

    /// The units that columns without one most likely are in, by their place, for the columns being chosen.
    pub fn likely(&self, mapping: &Mapping) -> &[(usize, &'static Unit)] {
        self.tried(mapping).map_or(&[], |_| &self.likely)
    }

    /// A file is being read.
    pub fn is_reading(&self) -> bool {
        self.doing == Some(Doing::Files) || matches!(self.list, Listed::Waiting)
    }

    /// How far the choice has come.
    pub fn progress(&self) -> Progress {
        if !matches!(self.list, Listed::Open(_)) || !work::asks(&self.latest) {
            Progress::Nothing
        } else if self.is_stopped {
            Progress::Stopped
        } else if self.is_current {
            Progress::Current
        } else if self.doing == Some(Doing::Choosing) {
            Progress::Running(self.worker.share())
        } else {
            Progress::Resting
        }
    }

    /// The filter and axle on screen are those that rows were filtered by.
    pub(in crate::gui) fn has_seen(&self, filter: &Filter, side: Side) -> bool {
        !self.was_shown || self.rows.are_of(filter, side)
    }

    /// Another job is open: what was chosen says nothing of it.
    pub(in crate::gui) fn forget(&mut self) {
        (self.found, self.is_current) = (None, false);
        self.cancel_choice();
    }

    /// Once a frame: takes what has come, notices what changed, starts what is to be done next.
    pub(in crate::gui) fn update(
        &mut self,
        now: &Now<'_>,
        asked: &mut Asked<'_>,
        commands: &mut Vec<ListCommand>,
        ctx: &egui::Context,
    ) {
        self.was_shown |= now.is_shown;
        if !self.was_shown {
            return;
        }
        self.collect(asked, commands);
        self.notice_list(now, asked);
        self.notice_job(now);
        if !self.worker.is_busy() {
            self.start_next(now, asked, ctx);
        }
        self.sayings.update(self.found.as_deref(), now.job);
        if let Listed::Open(list) = &self.list {
            self.rows.update(asked.filter, asked.side, list, self.found.as_deref());
        }
        self.wake(now, asked, ctx);
    }

    fn notice_list(&mut self, now: &Now<'_>, asked: &mut Asked<'_>) {
        let name = now.job.list.trim();
        let is_same = |s: &Source| s.name == name && s.beside.as_deref() == now.beside;
        if self.source.as_ref().is_some_and(is_same) {
            return;
        }
        let beside = now.beside.map(Path::to_owned);
        self.source = Some(Source { name: name.to_owned(), beside, again: 0 });
        asked.mapping.take_if(|m| !m.is_new);
        self.read_again();
    }

    /// Reads the list of the job again.
    pub(in crate::gui) fn read_again(&mut self) {
        let Some(source) = &mut self.source else { return };
        source.again += 1;
        self.count_anew();
        self.trouble = None;
        self.list = Listed::Waiting;
        self.is_current = false;
        self.cancel_choice();
    }

    /// A file may say something else by now.
    fn count_anew(&mut self) {
        self.looks += 1;
        self.tried = None;
    }

    fn notice_job(&mut self, now: &Now<'_>) {
        if self.latest == *now.job {
            return;
        }
        self.latest = now.job.clone();
        let counts = work::what_counts(now.job);
        if counts == self.counts {
            return;
        }
        self.counts = counts;
        (self.changed_s, self.is_stopped) = (now.time_s, false);
        self.settle();
        self.cancel_choice();
    }

    /// Is what was found of this job and this list?
    fn settle(&mut self) {
        let Listed::Open(list) = &self.list else { return };
        self.is_current = self.found.as_ref().is_some_and(|f| f.job == self.counts && Arc::ptr_eq(&f.list, list));
    }

    fn cancel_choice(&mut self) {
        if self.doing == Some(Doing::Choosing) {
            self.worker.cancel();
        }
    }

    /// The user has seen enough.
    pub(in crate::gui) fn stop(&mut self) {
        if self.doing == Some(Doing::Choosing) {
            self.is_stopped = true;
            self.worker.cancel();
        }
    }

    /// The user wants it after all.
    pub(in crate::gui) fn work_out(&mut self) {
        (self.is_stopped, self.changed_s) = (false, f64::NEG_INFINITY);
    }

    /// Looks at a file that is no list of the shop's yet.
    pub(in crate::gui) fn look_at(&mut self, path: PathBuf) {
        self.trouble = None;
        self.count_anew();
        self.look = Some(Look { path, is_new: true, parted_by: None });
    }

    /// Guesses the columns of the file again, separated by this.
    pub(in crate::gui) fn part_by(&mut self, path: PathBuf, is_new: bool, delimiter: Option<char>) {
        self.count_anew();
        self.look = Some(Look { path, is_new, parted_by: Some(delimiter) });
    }

    /// Remembers what the columns mean.
    pub(in crate::gui) fn use_columns(&mut self, mapping: Mapping) {
        self.trouble = None;
        self.take_in = Some(mapping);
    }

    fn collect(&mut self, asked: &mut Asked<'_>, commands: &mut Vec<ListCommand>) {
        let Some(ended) = self.worker.ended() else { return };
        let was = self.doing.take();
        match ended {
            Ended::Unwanted => {}
            Ended::Died => {
                self.trouble =
                    Some(tr("The background calculation ended without a result. Save the job, then try again.").into());
                self.is_stopped |= was == Some(Doing::Choosing);
                if matches!(self.list, Listed::Waiting) {
                    self.list = Listed::Unread;
                }
            }
            Ended::Done(done) => self.arrived(done, asked, commands),
        }
    }

    fn arrived(&mut self, done: Done, asked: &mut Asked<'_>, commands: &mut Vec<ListCommand>) {
        match done {
            // The job names another list by now: that one is read next.
            Done::Listed { source, .. } if self.source.as_ref() != Some(&source) => {}
            Done::Listed { list, names, .. } => {
                self.names = names;
                match list {
                    None => self.list = Listed::None,
                    Some(Ok(list)) => self.list = Listed::Open(list),
                    Some(Err(error)) => {
                        if let ShopError::List { path, .. } = &error {
                            self.look = Some(Look { path: path.clone(), is_new: false, parted_by: None });
                        }
                        self.list = Listed::Failed(error);
                    }
                }
                self.settle();
            }
            Done::Looked { look, columns } => match columns {
                Ok(columns) => *asked.mapping = Some(Mapping { path: look.path, is_new: look.is_new, columns }),
                Err(error) => self.trouble = Some(error.to_string()),
            },
            Done::Tried { mapping, look, counts, likely } if look == self.looks => {
                (self.tried, self.likely) = (Some((mapping, counts)), likely);
            }
            // Counted before the file was looked at anew.
            Done::Tried { .. } => {}
            Done::TakenIn { name: Ok((name, original)), is_new } => {
                *asked.mapping = None;
                commands.extend(original.map(ListCommand::OriginalKept));
                if is_new {
                    commands.push(ListCommand::Name(name));
                }
                commands.push(ListCommand::ReadAgain);
            }
            Done::TakenIn { name: Err(error), .. } => self.trouble = Some(error.to_string()),
            Done::Chosen(found) => {
                self.found = found;
                self.settle();
            }
        }
    }

    fn start_next(&mut self, now: &Now<'_>, asked: &Asked<'_>, ctx: &egui::Context) {
        let shop = self.shop.clone();
        let started = if let Some(Mapping { path, is_new, columns }) = self.take_in.take() {
            self.doing = Some(Doing::Files);
            self.worker.start(ctx, "take in a list", move |_| work::take_in(&shop, &path, &columns, is_new))
        } else if let (Listed::Waiting, Some(source)) = (&self.list, self.source.clone()) {
            self.doing = Some(Doing::Files);
            self.worker.start(ctx, "read a list", move |_| work::list(&shop, source))
        } else if let Some(look) = self.look.take() {
            self.doing = Some(Doing::Files);
            self.worker.start(ctx, "look at a list", move |_| work::look(look))
        } else if let Some(mapping) = self.untried(now, asked) {
            self.doing = Some(Doing::Files);
            let look = self.looks;
            self.worker.start(ctx, "try columns", move |_| work::try_columns(mapping, look))
        } else if let Some(list) = self.unchosen(now) {
            self.doing = Some(Doing::Choosing);
            self.serial += 1;
            let (job, draws, serial) = (now.job.clone(), self.draws, self.serial);
            self.worker.start(ctx, "choose", move |watch| work::choose(&job, &list, draws, serial, watch))
        } else {
            return;
        };
        if let Err(error) = started {
            (self.doing, self.is_stopped) = (None, true);
            self.trouble = Some(say!("The background calculation could not be started: {error}.", error));
        }
    }

    /// Columns being chosen that have not changed for a moment, if they were not tried yet.
    fn untried(&mut self, now: &Now<'_>, asked: &Asked<'_>) -> Option<Mapping> {
        let mapping = asked.mapping.as_ref()?;
        if self.mapped.as_ref().is_none_or(|(c, _)| *c != mapping.columns) {
            // The first look at a file is tried at once.
            let since = if self.mapped.is_some() { now.time_s } else { f64::NEG_INFINITY };
            self.mapped = Some((mapping.columns.clone(), since));
        }
        let rested = self.mapped.as_ref().is_some_and(|(_, since)| now.time_s - since >= REST_S);
        (rested && self.tried(mapping).is_none()).then(|| mapping.clone())
    }

    /// The list to choose from, if that is to be done now.
    fn unchosen(&self, now: &Now<'_>) -> Option<Arc<OpenList>> {
        let Listed::Open(list) = &self.list else { return None };
        let is_due = !self.is_current && !self.is_stopped && now.time_s - self.changed_s >= REST_S;
        (is_due && work::asks(now.job)).then(|| Arc::clone(list))
    }

    /// Asks for the next frame, if something is to happen then.
    fn wake(&self, now: &Now<'_>, asked: &Asked<'_>, ctx: &egui::Context) {
        let left = |since: f64| Duration::from_secs_f64((since + REST_S - now.time_s).clamp(0.001, REST_S));
        if self.worker.is_busy() {
            ctx.request_repaint_after(DRAWN_EVERY);
        } else if self.look.is_some() || self.take_in.is_some() || matches!(self.list, Listed::Waiting) {
            ctx.request_repaint();
        } else if self.progress() == Progress::Resting {
            ctx.request_repaint_after(left(self.changed_s));
        }
        let untried = asked.mapping.as_ref().is_some_and(|m| self.tried(m).is_none());
        if let (true, Some((_, since))) = (untried && !self.worker.is_busy(), &self.mapped) {
            ctx.request_repaint_after(left(*since));
        }
    }
}
