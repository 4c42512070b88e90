//! What the commands of the customer's view do.

use eframe::egui::{self, ViewportCommand};

use super::print_actions::words_of;
use crate::gui::app::App;
use crate::gui::background::riding::{Progress, RoadCommand};
use crate::gui::state::presenting::{CustomerCommand, Presenting};
use crate::report::sheets::{self, Showing};
use crate::solve::answer::OverRoad;

/// The customer's view had the whole screen when the window was closed.
pub(super) const FILLED: &str = "customer_filled_screen";

impl App {
    pub(in crate::gui) fn run_customer(&mut self, ctx: &egui::Context, command: CustomerCommand) {
        match command {
            CustomerCommand::Show if self.view.customer.is_none() => self.show_customer(ctx),
            CustomerCommand::Show | CustomerCommand::Leave => self.leave_customer(ctx),
            CustomerCommand::By(steps) => self.go_to_stage(|at| at.saturating_add_signed(steps)),
            CustomerCommand::To(at) => self.go_to_stage(|_| at),
            CustomerCommand::Drive => {
                if self.view.customer.is_some() {
                    self.riding.run(&RoadCommand::Over(OverRoad::Hump));
                    self.riding.run(&RoadCommand::Play(true));
                }
            }
        }
    }

    /// Keeps what is shown to the current job; leaves when something must be decided, which is asked elsewhere.
    pub(in crate::gui) fn present(&mut self, ctx: &egui::Context) {
        let Some(shown) = &self.view.customer else { return };
        if self.view.question.is_some() || self.view.typed_path.is_some() {
            return self.leave_customer(ctx);
        }
        if self.memo.is_whole() && shown.solves != self.memo.solves() {
            let (showing, solves) = (self.showing(), self.memo.solves());
            if let Some(shown) = &mut self.view.customer {
                (shown.showing, shown.solves) = (showing, solves);
                shown.at = shown.at.min(shown.last());
            }
        }
    }

    /// The whole screen was taken for the view that is open.
    pub(super) fn has_filled_screen(&self) -> bool {
        !self.view.keeps_size && self.view.customer.as_ref().is_some_and(|shown| !shown.was_full)
    }

    fn show_customer(&mut self, ctx: &egui::Context) {
        // What a customer sees is never half known.
        self.memo.update(&self.doc.now.job, ctx);
        self.memo.finish();
        let was_full = ctx.input(|i| i.viewport().fullscreen.unwrap_or(false));
        let road = (self.riding.over(), self.riding.at_s());
        self.view.customer =
            Some(Presenting { showing: self.showing(), at: 0, solves: self.memo.solves(), was_full, road });
        self.riding.run(&RoadCommand::Over(OverRoad::Hump));
        if self.riding.progress() == Progress::Stopped {
            self.riding.run(&RoadCommand::WorkOut);
        }
        if !was_full && !self.view.keeps_size {
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(true));
        }
        ctx.request_repaint();
    }

    fn leave_customer(&mut self, ctx: &egui::Context) {
        let Some(left) = self.view.customer.take() else { return };
        let (over, at_s) = left.road;
        self.riding.run(&RoadCommand::Over(over));
        self.riding.run(&RoadCommand::At(at_s));
        if !left.was_full && !self.view.keeps_size {
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(false));
        }
        ctx.request_repaint();
    }

    /// Another step does not move.
    fn go_to_stage(&mut self, to: impl FnOnce(usize) -> usize) {
        let Some(shown) = &mut self.view.customer else { return };
        let at = to(shown.at).min(shown.last());
        if at != shown.at {
            shown.at = at;
            self.riding.run(&RoadCommand::Over(OverRoad::Hump));
        }
    }

    /// In the words of the sheets; where the shop's own are wrong, in those that ship: step Sheet says why.
    fn showing(&self) -> Showing {
        let job = self.memo.job();
        let words = words_of(&self.shop, job).unwrap_or_else(|_| sheets::words_of(job).clone());
        sheets::showing(job, &self.memo.shown().answer, &words)
    }
}
