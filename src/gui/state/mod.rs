//! What the window holds and can be asked for: commands, what is open, the step, what was solved.

pub mod command;
pub mod files;
pub mod memo;
pub mod presenting;
pub mod section;
pub mod step;
pub mod view;

use eframe::egui::Response;

use crate::gui::background::choosing::Choosing;
use crate::gui::background::planning::Planning;
use crate::gui::background::preview::Preview;
use crate::gui::background::record_reader::RecordReader;
use crate::gui::background::riding::Riding;
use crate::job::Job;
use command::Command;
use memo::Shown;
use view::View;

/// What a screen draws with: the job to edit, what to show of it, and commands to run afterwards.
pub struct Cx<'a> {
    /// The job.
    pub job: &'a mut Job,
    /// What was solved.
    pub shown: &'a Shown,
    /// What is known of the parts list.
    pub choosing: &'a Choosing,
    /// The plans side by side.
    pub planning: &'a Planning,
    /// The pages of the sheet.
    pub preview: &'a Preview,
    /// The shop has chosen a logo.
    pub has_logo: bool,
    /// Languages of the shop's own texts of the sheets, two letters each.
    pub own_languages: &'a [String],
    /// The runs over rough roads.
    pub riding: &'a Riding,
    /// Recordings of bounces.
    pub records: &'a RecordReader,
    /// What is open and focused.
    pub view: &'a mut View,
    /// Collected commands.
    pub commands: &'a mut Vec<Command>,
    /// Dark theme.
    pub dark: bool,
}

impl Cx<'_> {
    /// Asks for a command after drawing.
    pub fn run(&mut self, command: Command) {
        self.commands.push(command);
    }

    /// Asks for a command when this was pressed.
    pub fn when(&mut self, pressed: Response, command: impl Into<Command>) {
        if pressed.clicked() {
            self.run(command.into());
        }
    }
}
