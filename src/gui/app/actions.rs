//! What each command does: one function per command that is more than a line.

use eframe::egui;

use crate::base::language::with_mark;
use crate::base::units::entry::AnyEntry as _;
use crate::base::units::{Dim, Origin, Spread, display};
use crate::gui::app::App;
use crate::gui::help::guide;
use crate::gui::state::command::{Command, HelpCommand, Loading, RecordCommand};
use crate::gui::state::files::Purpose;
use crate::gui::state::step::Step;
use crate::gui::state::view::{Pasting, typed_path_id};
use crate::gui::widgets::rows;
use crate::job::typical::Place;
use crate::job::{Defaults, Job, Level, Mend, Overrule, Predicted, RowList, Side, Walk as _, bounded, fields, typical};
use crate::say;
use crate::shop::presets::PRESETS;
use crate::solve::answer::Answer;

impl App {
    pub(in crate::gui) fn say(&mut self, level: Level, text: impl Into<String>) {
        self.view.notice = Some((level, text.into()));
    }

    /// Adds it to earlier notices not yet read.
    pub(in crate::gui) fn say_also(&mut self, level: Level, text: impl Into<String>) {
        let text = text.into();
        match &mut self.view.notice {
            Some((_, said)) if said.contains(&text) => {}
            Some((worst, said)) => {
                *worst = level.max(*worst);
                said.push(' ');
                said.push_str(&text);
            }
            None => self.say(level, text),
        }
    }

    pub(in crate::gui) fn run_commands(&mut self, ctx: &egui::Context) {
        for command in std::mem::take(&mut self.commands) {
            self.run(ctx, command);
        }
    }

    fn run(&mut self, ctx: &egui::Context, command: Command) {
        match command {
            Command::New => self.start_new(ctx),
            Command::OpenPreset(i) => {
                if let Some(preset) = PRESETS.get(i) {
                    self.replace(ctx, preset.job_in(self.language));
                }
            }
            Command::Open => self.ask(ctx, Purpose::OpenJob, ""),
            Command::OpenFile(path) => self.open(ctx, &path),
            Command::Save => match self.doc.disk().path.clone() {
                Some(path) => self.save(&path),
                None => self.ask(ctx, Purpose::SaveJob, &self.file_name("ron")),
            },
            Command::SaveAs => self.ask(ctx, Purpose::SaveJob, &self.file_name("ron")),
            Command::SaveTo(path) => self.save(&path),
            Command::Sheet(command) => self.run_sheet(ctx, command),
            Command::Plot(to) => self.run_plot(ctx, to),
            Command::Undo | Command::Redo => self.step_back_or_on(ctx, matches!(command, Command::Undo)),
            Command::Units(units) => {
                self.doc.checkpoint();
                self.doc.now.job.settle_defaults();
                self.doc.now.job.units = units;
            }
            Command::Unit(unit) => {
                self.doc.checkpoint();
                self.doc.now.job.settle_defaults();
                self.doc.now.job.units.set(unit);
            }
            Command::Defaults(defaults) => {
                self.doc.checkpoint();
                self.doc.now.job.defaults = defaults;
            }
            Command::Decimal(mark) => {
                self.doc.checkpoint();
                self.doc.now.job.decimal = mark;
            }
            Command::Help(command) => self.run_help(command),
            Command::Language(language) => self.language = language,
            Command::Theme(theme) => ctx.set_theme(theme),
            Command::Zoom(0.0) => ctx.set_zoom_factor(1.0),
            Command::Zoom(by) => ctx.set_zoom_factor((ctx.zoom_factor() * by).clamp(0.5, 4.0)),
            Command::Step(step) => {
                self.view.close_lists();
                (self.view.step, self.view.focus_first) = (step, true);
            }
            Command::Section(section) => {
                self.view.close_lists();
                self.view.sections.jump(section);
            }
            Command::Axle(side) => {
                self.view.close_lists();
                (self.view.side, self.view.focus_first) = (Some(side), true);
            }
            Command::GoTo(path) => {
                self.view.close_lists();
                self.go_to(path);
            }
            Command::NoDialog(purpose) => {
                let name = match purpose {
                    Purpose::WriteSheet => self.sheet_name(purpose.ending()),
                    _ => self.file_name(purpose.ending()),
                };
                let path = std::path::absolute(&name).map_or(name, |p| p.display().to_string());
                self.view.typed_path = Some((purpose, path));
                ctx.memory_mut(|m| m.request_focus(typed_path_id()));
            }
            Command::TypedPath => self.take_typed_path(),
            Command::Details(path) => {
                self.view.details = if self.view.details.as_ref() == Some(&path) { None } else { Some(path) };
            }
            Command::Mend(mend) => self.mend(ctx, &mend),
            Command::Findings => self.view.findings = !self.view.findings,
            Command::Overrule { rule, values } => {
                self.doc.checkpoint();
                let initials = String::new();
                self.doc.now.job.overrules.push(Overrule { rule: rule.to_owned(), values, initials });
            }
            Command::Paste(into) => self.view.paste = Some(Pasting::new(into, String::new())),
            Command::OpenCurve => self.ask(ctx, Purpose::OpenCurve, ""),
            Command::CurveFrom(path) => self.curve_from(&path),
            Command::PasteNot => self.view.paste = None,
            Command::TakePasted { before } => self.take_pasted(before),
            Command::TakePastedPoints(side) => self.take_pasted_points(side),
            Command::TakePastedRows { add } => self.take_pasted_rows(add),
            Command::AddTypical(index) => {
                if self.has_room("parts", 1)
                    && let Some(part) = typical::part(index, &self.doc.now.job.units)
                {
                    self.doc.checkpoint();
                    self.doc.now.job.parts.push(part);
                    self.view.epoch += 1;
                }
            }
            Command::AddLoad(list, place) if self.has_room(&list, 1) => self.add_load(&list, place),
            Command::AddLoad(..) => {}
            Command::AddRow(list) if self.has_room(&list, 1) => self.add_row(&list),
            Command::AddRow(_) => {}
            Command::TakeRow { list, row } => self.change_rows(&list, |rows| rows.take(row)),
            Command::List(command) => self.run_list(ctx, command),
            Command::Plan(command) => self.run_plan(ctx, &command),
            Command::File(command) => self.run_file(ctx, command),
            Command::Road(command) => self.riding.run(&command),
            Command::Customer(command) => self.run_customer(ctx, command),
            Command::Record(command) => self.run_record(ctx, &command),
            Command::HideHints => self.view.hide_hints = true,
            Command::Quit => ctx.send_viewport_cmd(egui::ViewportCommand::Close),
        }
    }

    /// Does what a finding offers; one step that can be undone.
    fn mend(&mut self, ctx: &egui::Context, mend: &Mend) {
        self.doc.checkpoint();
        match self.doc.now.job.mend(mend) {
            Ok(()) => self.say(Level::Note, say!("{done}: done. Ctrl+Z undoes it.", done = mend.label)),
            Err(error) => self.say(Level::Error, error.to_string()),
        }
        self.fresh_texts(ctx);
    }

    /// An empty job in the units shown, with the shop's names and the decimal mark of the language.
    fn start_new(&mut self, ctx: &egui::Context) {
        let remembered = self.shop.names_to_print();
        let mut shop = remembered.as_ref().unwrap_or(&self.doc.now.job.shop).clone();
        shop.speak(self.language);
        let (units, decimal) = (self.doc.now.job.units, self.language.mark());
        if !self.replace(ctx, Job { units, defaults: Defaults::of(&units), decimal, shop, ..Job::default() }) {
            return;
        }
        if let Err(error) = remembered {
            self.say_also(Level::Doubt, say!("The shop details could not be read: {error}", error));
        }
        (self.view.step, self.view.focus_first) = (Step::Weigh, true);
    }

    /// A name to save under, from the vehicle's.
    pub(in crate::gui) fn file_name(&self, ending: &str) -> String {
        let name = for_a_file(&[&self.doc.now.job.vehicle.name]);
        format!("{}.{ending}", if name.is_empty() { "job" } else { &name })
    }

    /// A name for the sheet that is shown: which one, for whom, for what vehicle.
    pub(in crate::gui) fn sheet_name(&self, ending: &str) -> String {
        let job = &self.doc.now.job;
        format!("{}.{ending}", for_a_file(&[self.view.kind.words(), &job.customer.name, &job.vehicle.name]))
    }

    fn run_record(&mut self, ctx: &egui::Context, command: &RecordCommand) {
        match command {
            RecordCommand::Bounce(Loading::Open) => self.ask(ctx, Purpose::OpenRecording, ""),
            RecordCommand::Drive(Loading::Open) => self.ask(ctx, Purpose::OpenDrive, ""),
            RecordCommand::Bounce(Loading::Take) | RecordCommand::TakeRatio | RecordCommand::Drive(Loading::Take) => {
                self.doc.checkpoint();
                let job = &mut self.doc.now.job;
                let is_taken = match command {
                    RecordCommand::Bounce(_) => self.records.take(job),
                    RecordCommand::TakeRatio => self.records.take_ratio(job),
                    _ => self.records.take_drive(job),
                };
                if is_taken {
                    self.fresh_texts(ctx);
                }
            }
            command => self.records.run(command, self.view.side()),
        }
    }

    pub(in crate::gui) fn ask(&mut self, ctx: &egui::Context, purpose: Purpose, suggested: &str) {
        if let Err(error) = self.dialogs.ask(ctx, purpose, suggested) {
            self.say(Level::Error, say!("The file dialog could not be opened: {error}.", error));
        }
    }

    fn step_back_or_on(&mut self, ctx: &egui::Context, back: bool) {
        let done = if back { self.doc.undo() } else { self.doc.redo() };
        if done {
            self.fresh_texts(ctx);
            // It was asked about the job before, and its file.
            self.view.question = None;
        }
    }

    /// Fields show the job's texts again, also the one being typed into.
    pub(in crate::gui) fn fresh_texts(&mut self, ctx: &egui::Context) {
        self.view.epoch += 1;
        self.view.details = None;
        ctx.request_repaint();
    }

    fn run_help(&mut self, command: HelpCommand) {
        let view = &mut self.view;
        match command {
            HelpCommand::Guide(station) => {
                view.guide = station;
                view.close_lists();
                self.commands.extend(station.and_then(guide::go_to));
            }
            HelpCommand::Words => {
                view.changes = false;
                view.glossary = if view.glossary.is_some() { None } else { Some(String::new()) };
                view.focus_first = true;
            }
            HelpCommand::Changes => {
                let is_open = view.changes;
                view.close_lists();
                view.changes = !is_open;
            }
            HelpCommand::Field if view.about.is_some() => view.about = None,
            HelpCommand::Field if view.at.as_deref().and_then(fields::by_path).is_some() => {
                view.about.clone_from(&view.at)
            }
            HelpCommand::Field => self.run_help(HelpCommand::Words),
        }
    }

    fn go_to(&mut self, path: String) {
        self.view.step = Step::of(&path);
        for side in Side::BOTH {
            if path.starts_with(&format!("{}.", side.key())) {
                self.view.side = Some(side);
            }
        }
        // A row that does not exist yet is added, so that the cursor can go there.
        if let Some((list, _)) = path.split_once('[')
            && self.doc.now.job.rows_mut(list).is_some_and(|rows| rows.count() == 0)
        {
            let list = list.to_owned();
            self.change_rows(&list, |rows| rows.add());
        }
        let reading = path.split_once(".bounce.").map(|split| split.1).or(path.strip_prefix("drive."));
        if let Some(reading) = reading {
            let before = RecordCommand::Before(reading.starts_with("before."));
            self.records.run(&before, self.view.side());
        }
        (self.view.focus, self.view.focus_first) = (Some(path), false);
    }
}

/// Texts as one name for a file: letters and figures, with hyphens between words.
fn for_a_file(texts: &[&str]) -> String {
    let words = texts.iter().flat_map(|t| t.split(|c: char| !c.is_alphanumeric()));
    let mut name = words.filter(|w| !w.is_empty()).collect::<Vec<_>>().join("-").to_lowercase();
    // Most systems take 255 bytes.
    while name.len() > 120 {
        name.pop();
    }
    name
}

impl App {
    /// Adds or takes away rows; each is a step that can be undone.
    fn change_rows(&mut self, list: &str, change: impl FnOnce(&mut dyn RowList)) {
        self.doc.checkpoint();
        if let Some(rows) = self.doc.now.job.rows_mut(list) {
            change(rows);
        }
        self.view.epoch += 1;
    }

    /// Adds a row and puts the cursor into its name or its first cell.
    fn add_row(&mut self, list: &str) {
        self.change_rows(list, |rows| rows.add());
        let count = self.doc.now.job.rows_mut(list).map_or(0, |rows| rows.count());
        let Some((table, last)) = rows::at_path(list).zip(count.checked_sub(1)) else { return };
        let first = table.columns.first().map_or("what", |(column, _)| *column);
        let first = if table.named { "what" } else { first };
        (self.view.focus, self.view.focus_first) = (Some(format!("{list}[{last}].{first}")), false);
    }

    /// Adds a load at a usual place, and puts the cursor into its mass.
    fn add_load(&mut self, list: &str, place: Place) {
        let job = &mut self.doc.now.job;
        let wheelbase_m = job.vehicle.wheelbase.number(job.decimal).ok().flatten().map(|n| n.si());
        let load = place.load(wheelbase_m, &job.units, job.decimal);
        self.change_rows(list, |rows| rows.add());
        let Some(loads) = self.doc.now.job.loads_mut(list) else { return };
        let Some(last) = loads.len().checked_sub(1) else { return };
        loads[last] = load;
        (self.view.focus, self.view.focus_first) = (Some(format!("{list}[{last}].mass")), false);
    }

    /// Whether the list takes this number of further rows; a notice says if not.
    pub(super) fn has_room(&mut self, list: &str, more: usize) -> bool {
        let count = self.doc.now.job.rows_mut(list).map_or(0, |rows| rows.count());
        let has = bounded::room(list, count) >= more;
        if !has {
            self.say(Level::Error, bounded::full(list));
        }
        has
    }
}

/// When the first weight after the change is typed, what the ledger predicted until then is kept with it.
pub(in crate::gui) fn keep_foretold(job: &mut Job, earlier: &Job, answer: &Answer) {
    let Some(axles) = answer.ledger.as_ref().and_then(|l| l.axles.foretold) else { return };
    let arrived = earlier.after.is_blank() && !job.after.is_blank();
    // Asked in every frame: lists are compared only when a weight has arrived.
    let same = || earlier.parts == job.parts && earlier.before == job.before && job.predicted == Predicted::default();
    if !arrived || !same() {
        return;
    }
    let corners = answer.whole.ledger.and_then(|l| l.told.foretold);
    let unit = job.units.unit(Dim::Mass);
    // As it is known, not as a fitter would say a mass: a ± of half a kilogram is none of nothing.
    let text = |si: f64, figures: usize| {
        format!("{} {}", with_mark(display::significant(si / unit.si, figures), job.decimal), unit.symbol)
    };
    let Predicted { front, rear, lf, rf, lr, rr, .. } = &mut job.predicted;
    let of_axles = [front, rear].into_iter().zip(axles);
    let of_corners = [lf, rf, lr, rr].into_iter().zip(corners.into_iter().flatten());
    for (entry, found) in of_axles.chain(of_corners) {
        entry.type_text(&text(found.value, 6), unit, job.decimal);
        entry.set_origin(Some(Origin::Ledger));
        entry.set_pm(&text(found.u, 2), Spread::Standard);
    }
}
