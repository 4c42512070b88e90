//! Everything the window can do, as one enum for menu, shortcut, link and test.

use std::path::PathBuf;

use eframe::egui::{Key, KeyboardShortcut, Modifiers, ThemePreference};

use crate::base::language::Language;
use crate::base::units::{DecimalMark, Unit, UnitChoice};
pub use crate::gui::background::choosing::ListCommand;
pub use crate::gui::background::record_loader::Loading;
pub use crate::gui::background::record_reader::RecordCommand;
pub use crate::gui::background::riding::RoadCommand;
use crate::gui::state::files::Purpose;
pub use crate::gui::state::presenting::CustomerCommand;
use crate::gui::state::section::Section;
use crate::gui::state::step::Step;
use crate::gui::state::view::PasteInto;
use crate::job::typical::Place;
use crate::job::{Defaults, Mend, Side, Which};
use crate::report::pictures::plot::Export;
use crate::report::sheets::Kind;
use crate::report::write::page::Paper;

/// One thing to do after drawing.
#[derive(Debug, Clone)]
pub enum Command {
    /// Start an empty job.
    New,
    /// Ask for a job to open.
    Open,
    /// Open this file.
    OpenFile(PathBuf),
    /// Start from a shipped job, by its place in the list.
    OpenPreset(usize),
    /// Save, asking for a place if there is none.
    Save,
    /// Ask for a place to save.
    SaveAs,
    /// Save here.
    SaveTo(PathBuf),
    /// Something with the sheet.
    Sheet(SheetCommand),
    /// Something with a plot.
    Plot(PlotTo),
    /// Undo one change.
    Undo,
    /// One step forward.
    Redo,
    /// Show quantities in these units.
    Units(UnitChoice),
    /// Show one quantity in this unit.
    Unit(&'static Unit),
    /// Fill blank fields with the defaults of this system of units.
    Defaults(Defaults),
    /// Help: the guide, the words, the field.
    Help(HelpCommand),
    /// Speak this language.
    Language(Language),
    /// Read and show numbers with this decimal mark.
    Decimal(DecimalMark),
    /// Light, dark, or as the system.
    Theme(ThemePreference),
    /// Multiply the zoom; 0 means back to 100 %.
    Zoom(f32),
    /// Show a step.
    Step(Step),
    /// Show a section of the step, and put the cursor into its first field.
    Section(Section),
    /// Show an axle.
    Axle(Side),
    /// Show a field and put the cursor into it.
    GoTo(String),
    /// No file dialog could be shown: ask for a path in the window.
    NoDialog(Purpose),
    /// Use the path typed in the window.
    TypedPath,
    /// Show or hide origin and ± of a field.
    Details(String),
    /// Show or hide the list of findings.
    Findings,
    /// Do what a finding offers to mend a slip.
    Mend(Mend),
    /// Overrule a doubt for the values that it rests on; initials put it in force.
    Overrule {
        /// Its rule.
        rule: &'static str,
        /// The fields it rests on, with their values.
        values: String,
    },
    /// Open the paste area for readings or rows.
    Paste(PasteInto),
    /// Ask for a file with a damper's curve, for the paste area that is open.
    OpenCurve,
    /// Put the text of this file into the paste area that is open.
    CurveFrom(PathBuf),
    /// Close the paste area.
    PasteNot,
    /// Put the pasted points into the linkage of this axle.
    TakePastedPoints(Side),
    /// Put the pasted rows into their list: in place of what is there, or below it.
    TakePastedRows {
        /// Below what is there.
        add: bool,
    },
    /// Add a typical part to the ledger, by its place in the list.
    AddTypical(usize),
    /// Add a load at a usual place to the list of loads with this path.
    AddLoad(String, Place),
    /// Add a blank row to a list.
    AddRow(String),
    /// Take a row of a list away.
    TakeRow {
        /// Path of the list.
        list: String,
        /// The row, from 0.
        row: usize,
    },
    /// Put the pasted readings into a weigh-in.
    TakePasted {
        /// True for the weigh-in before.
        before: bool,
    },
    /// Something with the parts list.
    List(ListCommand),
    /// Something with the job's plans.
    Plan(PlanCommand),
    /// Something with job files.
    File(FileCommand),
    /// Something with the runs over rough roads.
    Road(RoadCommand),
    /// Something with the customer's view.
    Customer(CustomerCommand),
    /// Something with recordings of bounces.
    Record(RecordCommand),
    /// Hide the hints of the first start.
    HideHints,
    /// Close the window.
    Quit,
}

/// What can be done with the job's plans.
#[derive(Debug, Clone)]
pub enum PlanCommand {
    /// Choose this one.
    Choose(Which),
    /// Begin another one as a copy of the chosen one.
    Add,
    /// Choose the plan that the program added: the old springs on spacers.
    ChooseAdded,
    /// Remove this one of the others.
    Remove(usize),
}

/// What can be done with job files, besides opening and saving.
#[derive(Debug, Clone)]
pub enum FileCommand {
    /// Write what was asked for here; a file that is there is asked about first.
    Write(Purpose, PathBuf),
    /// Write it here, although a file is there.
    WriteOver(Purpose, PathBuf),
    /// Save here, although someone else changed the file, or another file lies there.
    SaveOver(PathBuf),
    /// Save here without the comments that the file holds; the file with them is kept.
    SaveWithoutComments(PathBuf),
    /// The question is not answered now.
    NotNow,
    /// Close the window although unsaved work cannot be kept.
    QuitAnyway,
    /// Show the jobs of this folder; `None`: of the one last used.
    Jobs(Option<PathBuf>),
    /// Close the list of jobs.
    JobsNot,
    /// Start a new job from this one.
    StartFrom(PathBuf),
}

/// What can be done with the sheet and its letterhead.
#[derive(Debug, Clone)]
pub enum SheetCommand {
    /// Ask where to write it, with this ending.
    As(&'static str),
    /// Write it here.
    Write(PathBuf),
    /// Hand it to the system to be printed.
    Print,
    /// Show and print this sheet.
    Kind(Kind),
    /// Print on this paper.
    Paper(Paper),
    /// Ask for the shop's logo.
    ChooseLogo,
    /// Take this file as the logo.
    TakeLogo(PathBuf),
    /// Print no logo.
    NoLogo,
    /// Begin new jobs with the names of this one.
    RememberNames,
}

impl From<CustomerCommand> for Command {
    fn from(command: CustomerCommand) -> Self {
        Command::Customer(command)
    }
}

impl From<SheetCommand> for Command {
    fn from(command: SheetCommand) -> Self {
        Command::Sheet(command)
    }
}

/// Where a plot goes.
#[derive(Debug, Clone)]
pub enum PlotTo {
    /// Its data to the clipboard.
    CopyData(Box<Export>),
    /// Its picture to the clipboard.
    CopyPicture(Box<Export>),
    /// Its data to a file chosen in a dialog.
    SaveData(Box<Export>),
    /// Its picture to a file chosen in a dialog.
    SavePicture(Box<Export>),
    /// What was to be saved, here.
    Write(PathBuf),
}

/// What can be asked for help.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HelpCommand {
    /// This station of the guide, from 0; none closes it.
    Guide(Option<usize>),
    /// Open or close the words explained.
    Words,
    /// Open or close what each version changed.
    Changes,
    /// Open or close what there is to say of the field with the cursor; without a cursor, the words.
    Field,
}

/// The keys of commands, with the words of the menu.
pub fn shortcuts() -> Vec<(KeyboardShortcut, Command)> {
    let ctrl = Modifiers::COMMAND;
    let shift = ctrl | Modifiers::SHIFT;
    let mut keys = vec![
        (KeyboardShortcut::new(shift, Key::S), Command::SaveAs),
        (KeyboardShortcut::new(ctrl, Key::S), Command::Save),
        (KeyboardShortcut::new(ctrl, Key::N), Command::New),
        (KeyboardShortcut::new(ctrl, Key::O), Command::Open),
        (KeyboardShortcut::new(ctrl, Key::J), Command::File(FileCommand::Jobs(None))),
        (KeyboardShortcut::new(ctrl, Key::P), Command::Sheet(SheetCommand::As("pdf"))),
        (KeyboardShortcut::new(ctrl, Key::Q), Command::Quit),
        (KeyboardShortcut::new(shift, Key::Z), Command::Redo),
        (KeyboardShortcut::new(ctrl, Key::Y), Command::Redo),
        (KeyboardShortcut::new(ctrl, Key::Z), Command::Undo),
        (KeyboardShortcut::new(ctrl, Key::E), Command::Findings),
        (KeyboardShortcut::new(Modifiers::NONE, Key::F1), Command::Help(HelpCommand::Field)),
        (KeyboardShortcut::new(Modifiers::NONE, Key::F11), Command::Customer(CustomerCommand::Show)),
        (KeyboardShortcut::new(ctrl, Key::F), Command::Axle(Side::Front)),
        (KeyboardShortcut::new(ctrl, Key::R), Command::Axle(Side::Rear)),
    ];
    let digits = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8];
    keys.extend(Step::ALL.into_iter().zip(digits).map(|(s, k)| (KeyboardShortcut::new(ctrl, k), Command::Step(s))));
    keys
}

/// The keys of the customer's view: no others act while it is open.
pub fn shortcuts_for_customers() -> Vec<(KeyboardShortcut, Command)> {
    let plain = |key, command| (KeyboardShortcut::new(Modifiers::NONE, key), Command::Customer(command));
    let on = [Key::ArrowRight, Key::ArrowDown, Key::PageDown, Key::Space].map(|k| plain(k, CustomerCommand::By(1)));
    let back = [Key::ArrowLeft, Key::ArrowUp, Key::PageUp].map(|k| plain(k, CustomerCommand::By(-1)));
    let others = [
        plain(Key::Home, CustomerCommand::To(0)),
        plain(Key::End, CustomerCommand::To(usize::MAX)),
        plain(Key::H, CustomerCommand::Drive),
        plain(Key::F11, CustomerCommand::Leave),
        plain(Key::Escape, CustomerCommand::Leave),
        (KeyboardShortcut::new(Modifiers::COMMAND, Key::Q), Command::Quit),
    ];
    on.into_iter().chain(back).chain(others).collect()
}

impl Purpose {
    /// What to do with the path that a dialog gave. Some leave the ending out: then they asked about another file.
    pub(in crate::gui) fn answered(self, path: PathBuf) -> Command {
        let complete = self.complete(path.clone());
        let is_asked = complete == path || !self.writes();
        if is_asked { self.command(complete) } else { Command::File(FileCommand::Write(self, complete)) }
    }

    /// What to do with a path.
    pub fn command(self, path: PathBuf) -> Command {
        match self {
            Purpose::OpenJob => Command::OpenFile(path),
            Purpose::SaveJob => Command::SaveTo(path),
            Purpose::WriteSheet => Command::Sheet(SheetCommand::Write(path)),
            Purpose::OpenLogo => Command::Sheet(SheetCommand::TakeLogo(path)),
            Purpose::PlotData | Purpose::PlotPicture => Command::Plot(PlotTo::Write(path)),
            Purpose::OpenList => Command::List(ListCommand::Look(path)),
            Purpose::OpenCurve => Command::CurveFrom(path),
            Purpose::OpenRecording => Command::Record(RecordCommand::Bounce(Loading::Read(path))),
            Purpose::OpenDrive => Command::Record(RecordCommand::Drive(Loading::Read(path))),
        }
    }
}
