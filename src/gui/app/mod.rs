//! The program's one state, and its frame: draw, collect commands, run them.

mod actions;
mod customer_actions;
mod dialogs;
pub mod document;
mod file_actions;
mod focus;
mod frame;
mod keys;
mod list_actions;
mod logos;
mod pasting;
mod print_actions;

use std::io::Write as _;

use eframe::egui::{self, Id, ThemePreference, Ui, Visuals};

use crate::base::language::{Language, Voice, speak, spoken};
use crate::choose::draws::Draws;
use crate::gui::Options;
use crate::gui::background::choosing::{Asked, Choosing, Now};
use crate::gui::background::jobs;
use crate::gui::background::planning::Planning;
use crate::gui::background::preview::Preview;
use crate::gui::background::record_reader::RecordReader;
use crate::gui::background::riding::Riding;
use crate::gui::screens;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, CustomerCommand, shortcuts, shortcuts_for_customers};
use crate::gui::state::memo::Memo;
use crate::gui::state::step::Step;
use crate::gui::state::view::View;
use crate::gui::widgets::scroll;
use crate::gui::widgets::theme;
use crate::job::{Job, Level, Side};
use crate::report::write::page::{Fonts, Paper};
use crate::say;
use crate::shop::lists::Shop;
use crate::shop::presets::PRESETS;
use actions::keep_foretold;
use customer_actions::FILLED;
use dialogs::Dialogs;
use document::Document;
use file_actions::{
    GUIDED, HIDE_HINTS, LANGUAGE, LAST_JOB, LETTER, PAPER, RECENT, remembered_job, remembered_language, who_saves,
};
use frame::Menu;
use logos::Logos;

/// The window's state.
pub struct App {
    pub(in crate::gui) doc: Document,
    pub(in crate::gui) memo: Memo,
    pub(in crate::gui) view: View,
    pub(in crate::gui) dialogs: Dialogs,
    pub(in crate::gui) choosing: Choosing,
    /// The plans side by side.
    pub planning: Planning,
    pub(in crate::gui) shop: Shop,
    /// Languages of the shop's own texts of the sheets.
    pub(in crate::gui) own_languages: Vec<String>,
    pub(in crate::gui) logos: Logos,
    pub(in crate::gui) preview: Preview,
    pub(in crate::gui) riding: Riding,
    pub(in crate::gui) records: RecordReader,
    pub(in crate::gui) listing: jobs::Listing,
    /// The language spoken.
    pub(in crate::gui) language: Language,
    /// What is printed lies here until the window closes: the viewer may open it late.
    pub(in crate::gui) printed: Vec<tempfile::TempDir>,
    pub(in crate::gui) commands: Vec<Command>,
    /// What was typed behind a key that is a command.
    pub(in crate::gui) typed_later: Vec<egui::Event>,
}

impl App {
    /// The app of a real window: settings remembered, work kept.
    pub fn new(cc: &eframe::CreationContext<'_>, options: &Options) -> Self {
        let language = options.language.or_else(|| remembered_language(cc.storage)).unwrap_or_else(Language::of_system);
        let job = PRESETS[0].job_in(language);
        let _voice = speak(Voice { language, mark: job.decimal });
        let mut app =
            App::with(Memo::beside(&job), job).choosing_from(Shop::of_user(), Draws::default()).speaking(language);
        app.preview = Preview::new(Fonts::with_system());
        app.read_logo();
        theme::install(&cc.egui_ctx);
        app.dialogs = Dialogs::new(true);
        app.remember(cc.storage);
        app.start(&cc.egui_ctx, eframe::storage_dir("springwright").as_deref(), options.job.as_deref());
        if options.job.is_none() {
            app.open_last(&cc.egui_ctx, remembered_job(cc.storage).as_deref());
        }
        if options.job.is_some() {
            app.view.guide = None;
        }
        app.view.step = options.step.unwrap_or_default();
        app.view.side = options.rear.then_some(Side::Rear);
        app.view.keeps_size = options.size.is_some();
        if let Some(dark) = options.dark {
            cc.egui_ctx.set_theme(if dark { ThemePreference::Dark } else { ThemePreference::Light });
        }
        if let Some(zoom) = options.zoom {
            cc.egui_ctx.set_zoom_factor(zoom);
        }
        if cc.storage.and_then(|s| eframe::get_value(s, FILLED)).unwrap_or(false) {
            cc.egui_ctx.send_viewport_cmd(egui::ViewportCommand::Fullscreen(false));
        }
        if options.customer {
            app.command(Command::Customer(CustomerCommand::Show));
        }
        app
    }

    /// An app on a job, without settings and without a kept copy: for tests and measurements.
    pub fn on(job: Job) -> Self {
        App::with(Memo::new(&job), job)
    }

    fn with(memo: Memo, job: Job) -> Self {
        App {
            memo,
            doc: Document::new(job),
            view: View::default(),
            dialogs: Dialogs::new(false),
            choosing: Choosing::new(Shop::nowhere(), Draws::default()),
            planning: Planning::default(),
            shop: Shop::nowhere(),
            own_languages: Vec::new(),
            logos: Logos::default(),
            preview: Preview::new(Fonts::shipped()),
            riding: Riding::new(),
            records: RecordReader::new(Shop::nowhere()),
            listing: jobs::Listing::default(),
            language: Language::default(),
            printed: Vec::new(),
            commands: Vec::new(),
            typed_later: Vec::new(),
        }
    }

    /// The same app with the lists of this shop, and this number of draws for a choice.
    #[must_use]
    pub fn choosing_from(mut self, shop: Shop, draws: Draws) -> Self {
        self.choosing = Choosing::new(shop.clone(), draws);
        self.records = RecordReader::new(shop.clone());
        self.own_languages = shop.sheet_languages();
        self.shop = shop;
        self
    }

    /// What is known of the parts list.
    pub fn choosing(&self) -> &Choosing {
        &self.choosing
    }

    /// The pages of the sheet on screen.
    pub fn pages(&self) -> &Preview {
        &self.preview
    }

    /// Recordings of bounces.
    pub fn records(&self) -> &RecordReader {
        &self.records
    }

    /// The runs over rough roads.
    pub fn riding(&self) -> &Riding {
        &self.riding
    }

    /// The current job.
    pub fn job(&self) -> &Job {
        &self.doc.now.job
    }

    /// The job, to change it from outside as typing would.
    pub fn job_mut(&mut self) -> &mut Job {
        &mut self.doc.now.job
    }

    /// The answer on screen.
    pub fn answer(&self) -> &crate::solve::answer::Answer {
        &self.memo.shown().answer
    }

    /// What is open and focused.
    pub fn view(&self) -> &View {
        &self.view
    }

    /// How often was solved since the start.
    pub fn solves(&self) -> u64 {
        self.memo.solves()
    }

    /// Asks for a command, as menu and keys do.
    pub fn command(&mut self, command: Command) {
        self.commands.push(command);
    }

    /// How it speaks: in its language, with the decimal mark of the job.
    fn voice(&self) -> Voice {
        Voice { language: self.language, mark: self.doc.now.job.decimal }
    }

    /// The same app with every ± found in the background, as in a real window.
    #[must_use]
    pub fn solving_beside(mut self) -> Self {
        self.memo = Memo::beside(&self.doc.now.job);
        self
    }

    /// The same app in another language.
    #[must_use]
    pub fn speaking(mut self, language: Language) -> Self {
        self.language = language;
        self
    }

    /// One frame.
    pub fn frame(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        let _voice = speak(self.voice());
        scroll::look(&ctx);
        self.walk(&ctx);
        let by_key = self.command_by_key(&ctx);
        if self.view.has_list() && ctx.input_mut(|i| i.consume_key(egui::Modifiers::NONE, egui::Key::Escape)) {
            self.view.close_lists();
        }
        self.run_commands(&ctx);
        self.refuse_endless_paste(&ctx);
        self.catch_pasted_block(&ctx);
        self.memo.arrive();
        self.solve(&ctx);
        self.memo.arrive();
        self.present(&ctx);
        self.choose(&ctx);
        self.listing.update(self.view.jobs.as_mut(), &ctx);
        self.logos(&ctx);
        self.preview(&ctx);
        self.view.order.clear();
        self.view.help_now.clear();
        self.view.at = None;
        let had_focus = ctx.memory(|m| m.focused());
        self.draw(ui);
        if self.view.at.is_none() {
            self.view.cursor_in = None;
        }
        self.move_focus(&ctx, had_focus);
        scroll::end(&ctx);
        if self.view.help != self.view.help_now {
            self.view.help = std::mem::take(&mut self.view.help_now);
            ctx.request_repaint();
        }
        // What was typed in this frame comes first: it is in the job by now.
        self.commands.extend(by_key);
        self.commands.extend(self.dialogs.answered());
        self.look_at_files(&ctx);
        self.tick(&ctx);
    }

    /// The command of a key that was pressed. In the customer's view it is done at once: nothing was typed before it.
    fn command_by_key(&mut self, ctx: &egui::Context) -> Option<Command> {
        if self.view.customer.is_none() {
            return keys::take(ctx, shortcuts, &mut self.typed_later);
        }
        self.commands.extend(keys::take(ctx, shortcuts_for_customers, &mut self.typed_later));
        keys::drop_typed(ctx);
        None
    }

    /// Begins to solve the job, if it is another one.
    fn solve(&mut self, ctx: &egui::Context) {
        keep_foretold(&mut self.doc.now.job, self.memo.job(), &self.memo.shown().answer);
        self.memo.update(&self.doc.now.job, ctx);
    }

    /// What goes on in the background for the steps Choose and Road.
    fn choose(&mut self, ctx: &egui::Context) {
        let now = Now {
            job: &self.doc.now.job,
            beside: self.doc.disk().path.as_deref(),
            is_shown: self.view.step == Step::Choose,
            time_s: ctx.input(|i| i.time),
        };
        let (side, mut wishes) = (self.view.side(), Vec::new());
        let mut asked = Asked { filter: &self.view.filter, side, mapping: &mut self.view.mapping };
        self.choosing.update(&now, &mut asked, &mut wishes, ctx);
        self.commands.extend(wishes.into_iter().map(Command::List));
        let is_shown = self.view.step == Step::Road || self.view.customer.is_some();
        self.riding.update(&self.doc.now.job, is_shown, ctx.input(|i| i.time), ctx);
        let (job, memo) = (&self.doc.now.job, &self.memo);
        let whole = || (memo.is_whole() && memo.job() == job).then(|| &memo.shown().answer);
        let has_pictures = !job.plans.is_empty() && matches!(self.view.step, Step::Springs | Step::Vehicle);
        self.planning.update(job, self.view.step == Step::Choose || has_pictures, whole, ctx);
        self.records.update(job, || whole().map(|answer| &**answer), ctx);
    }

    fn draw(&mut self, ui: &mut Ui) {
        let dark = ui.visuals().dark_mode;
        let (can_undo, can_redo, title) = (self.doc.can_undo(), self.doc.can_redo(), self.title());
        let mut cx = Cx {
            job: &mut self.doc.now.job,
            shown: self.memo.shown(),
            choosing: &self.choosing,
            planning: &self.planning,
            preview: &self.preview,
            has_logo: self.logos.shown.is_some(),
            own_languages: &self.own_languages,
            riding: &self.riding,
            records: &self.records,
            view: &mut self.view,
            commands: &mut self.commands,
            dark,
        };
        if cx.view.customer.is_some() {
            return screens::customer::show(ui, &mut cx);
        }
        frame::show(ui, &mut cx, &Menu { can_undo, can_redo, title: &title });
    }

    fn title(&self) -> String {
        let name = self.doc.name();
        if self.doc.is_dirty() { say!("{name}, edited", name) } else { name }
    }

    fn tick(&mut self, ctx: &egui::Context) {
        let edited = self.doc.now.job != *self.memo.job();
        if edited {
            // What was only told goes with the next thing typed.
            self.view.notice.take_if(|(level, _)| *level == Level::Note);
        }
        let is_behind =
            edited || !self.choosing.has_seen(&self.view.filter, self.view.side()) || self.voice() != spoken();
        if !self.commands.is_empty() || !self.typed_later.is_empty() || is_behind {
            ctx.request_repaint();
            let _voice = speak(self.voice());
            // What was typed is solved now and drawn in the next frame, so that neither takes as long as both.
            self.solve(ctx);
        }
        match self.doc.tick(ctx.input(|i| i.time)) {
            Ok(Some(seconds)) => ctx.request_repaint_after(std::time::Duration::from_secs_f64(seconds)),
            Ok(None) => {}
            Err(error) => {
                self.say(Level::Doubt, say!("Unsaved work could not be kept: {error}. Save the job.", error));
                ctx.request_repaint_after(std::time::Duration::from_secs(10));
            }
        }
        if self.doc.is_newly_shared() {
            self.say_also(
                Level::Doubt,
                say!("{name} is also open in another window. {advice}", name = self.doc.name(), advice = who_saves()),
            );
        }
    }
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _: &mut eframe::Frame) {
        self.frame(ui);
        let _voice = speak(self.voice());
        let title = format!("{} - springwright", self.title());
        let ctx = ui.ctx();
        if ctx.input(|i| i.viewport().close_requested()) {
            // What was asked for before that is done before that.
            self.run_commands(ctx);
            if !self.may_close() {
                ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            }
        }
        if ctx.data(|d| d.get_temp::<String>(Id::unique("title"))).as_ref() != Some(&title) {
            ctx.data_mut(|d| d.insert_temp(Id::unique("title"), title.clone()));
            ctx.send_viewport_cmd(egui::ViewportCommand::Title(title));
        }
    }

    fn clear_color(&self, visuals: &Visuals) -> [f32; 4] {
        visuals.panel_fill.to_normalized_gamma_f32()
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        eframe::set_value(storage, HIDE_HINTS, &self.view.hide_hints);
        eframe::set_value(storage, RECENT, &self.view.recent);
        eframe::set_value(storage, LAST_JOB, &self.doc.disk().path);
        eframe::set_value(storage, GUIDED, &self.view.guide.is_none());
        eframe::set_value(storage, LANGUAGE, &self.language.key().to_owned());
        eframe::set_value(storage, FILLED, &self.has_filled_screen());
        let paper = if self.view.paper == Paper::Letter { LETTER } else { "A4" };
        eframe::set_value(storage, PAPER, &paper.to_owned());
    }

    fn on_exit(&mut self, _: Option<&eframe::glow::Context>) {
        if let Err(error) = self.doc.keep_now() {
            // Whoever started it may have stopped listening.
            let _ = writeln!(std::io::stderr(), "springwright: unsaved work could not be kept: {error}");
        }
    }
}
