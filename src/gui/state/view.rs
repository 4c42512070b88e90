//! What is open, focused and asked for in the window.

use std::ops::Range;
use std::path::PathBuf;

use eframe::egui::{FocusDirection, Id, Rect};

use crate::base::language::worded;
use crate::gui::background::choosing::{Filter, Mapping};
use crate::gui::background::jobs::Jobs;
use crate::gui::state::files::Purpose;
use crate::gui::state::files::Question;
use crate::gui::state::presenting::Presenting;
use crate::gui::state::section::{Section, Sections};
use crate::gui::state::step::Step;
use crate::job::{Level, Side};
use crate::report::pictures::plot::Export;
use crate::report::sheets::Kind;
use crate::report::write::page::Paper;

/// Where pasted text goes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PasteInto {
    /// Scale readings.
    Weighing,
    /// The list of rows with this path.
    Rows(String),
    /// The points of this axle's linkage.
    Points(Side),
}

/// Text being pasted.
#[derive(Debug, Clone)]
pub struct Pasting {
    /// Where it goes.
    pub into: PasteInto,
    /// The text.
    pub text: String,
    /// Just opened: the cursor goes into it.
    pub fresh: bool,
}

impl Pasting {
    /// A paste area with a text in it.
    pub fn new(into: PasteInto, text: String) -> Self {
        Pasting { into, text, fresh: true }
    }
}

worded! {
    /// Halves of a step where everything is on one page: what is entered, and below it what comes of it.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
    pub enum Half {
        /// The form.
        #[default]
        Entries => Word("Entries"),
        /// Pictures and tables.
        Results => Word("Results"),
    }
}

/// What is open, focused and asked for; not part of the job.
#[derive(Debug, Default)]
pub struct View {
    /// The step shown.
    pub step: Step,
    /// The axle shown.
    pub side: Option<Side>,
    /// A field to put the cursor into.
    pub focus: Option<String>,
    /// Put the cursor into the first field drawn.
    pub focus_first: bool,
    /// The field whose origin and ± are open.
    pub details: Option<String>,
    /// The field with the cursor.
    pub at: Option<String>,
    /// Help for the field with the cursor.
    pub help: String,
    /// The same, collected during this frame.
    pub help_now: String,
    /// The list of findings is open.
    pub findings: bool,
    /// The half of the page that is seen, where there is too little room for both.
    pub half_seen: Half,
    /// The half to go to.
    pub half_wanted: Option<Half>,
    /// The paste area, if it is open.
    pub paste: Option<Pasting>,
    /// The whole parts list is open.
    pub whole_list: bool,
    /// Which rows of the parts list are shown.
    pub filter: Filter,
    /// Rows of the parts list that were laid out in the last frame.
    pub rows_laid_out: Range<usize>,
    /// What the columns of a parts list mean, while the user chooses it.
    pub mapping: Option<Mapping>,
    /// The sheet that is shown and printed.
    pub kind: Kind,
    /// The paper that is printed on.
    pub paper: Paper,
    /// The plot that is to be saved.
    pub plot: Option<Export>,
    /// A path being typed because no file dialog could be shown.
    pub typed_path: Option<(Purpose, String)>,
    /// The result whose formula is shown.
    pub how: Option<String>,
    /// One line about what just happened.
    pub notice: Option<(Level, String)>,
    /// What must be decided before a file is written or the window closes.
    pub question: Option<Question>,
    /// Jobs opened or saved last, the latest first.
    pub recent: Vec<PathBuf>,
    /// The list of jobs, while it is open.
    pub jobs: Option<Jobs>,
    /// The window may close although unsaved work is not kept.
    pub quit_anyway: bool,
    /// The customer's view, while it is open.
    pub customer: Option<Presenting>,
    /// The window keeps the size it was asked for.
    pub keeps_size: bool,
    /// The station of the guide that is open.
    pub guide: Option<usize>,
    /// Letters by which the words explained are searched, while they are open.
    pub glossary: Option<String>,
    /// What each version changed is open.
    pub changes: bool,
    /// The field explained in full.
    pub about: Option<String>,
    /// Hints of the first start are hidden.
    pub hide_hints: bool,
    /// Grows when texts being typed must be forgotten.
    pub epoch: u64,
    /// Fields in the order in which they were drawn.
    pub order: Vec<Id>,
    /// The field that had the cursor in the last frame: its text was selected when the cursor came.
    pub cursor_in: Option<Id>,
    /// Enter was pressed while a text of one line had the cursor: the cursor goes on from there in the next frame, or back.
    pub walk: Option<FocusDirection>,
    /// The field that had the cursor last.
    pub last_at: Option<String>,
    /// The section into whose first field the cursor goes, and for how many frames more that is tried.
    pub cursor_to: Option<Section>,
    /// See there.
    pub jumped: u8,
    /// Sections of the step that is open.
    pub sections: Sections,
    /// Where form and pictures were laid out in this frame.
    pub laid_out: LaidOut,
    /// Enter was pressed with the cursor in this field, with this path; true: go back.
    pub next_after: Option<(Id, String, bool)>,
}

/// Where the parts of the window stand, points.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct LaidOut {
    /// The form.
    pub form: Option<Rect>,
    /// Pictures and tables.
    pub pictures: Option<Rect>,
    /// The answer.
    pub answer: Option<Rect>,
    /// Something in the answer had no room.
    pub is_answer_cut: bool,
    /// How sure the answer is had no room.
    pub is_certainty_hidden: bool,
}

/// Where a path is typed.
pub(in crate::gui) fn typed_path_id() -> Id {
    Id::unique("typed path")
}

impl View {
    /// Back from a list that replaces form and pictures.
    pub(in crate::gui) fn close_lists(&mut self) {
        (self.jobs, self.glossary, self.changes) = (None, None, false);
    }

    /// A list replaces form and pictures.
    pub(in crate::gui) fn has_list(&self) -> bool {
        self.jobs.is_some() || self.glossary.is_some() || self.changes
    }

    /// The axle shown.
    pub fn side(&self) -> Side {
        self.side.unwrap_or(Side::Front)
    }
}
