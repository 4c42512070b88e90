//! Pages of paper: one layout from which PDF, PNG and the preview are drawn.
//!
//! [`lay_out`] measures a [`Report`] with the fonts that it is drawn in and places every line of text, every stroke and
//! area, in points from the upper left corner of its page. Each placed item says what part of the report it is, so
//! that the PDF can tell a screen reader.

mod blocks;
mod fonts;
pub mod logo;
mod paginate;
pub mod pdf;
pub mod raster;
mod setting;
mod shapes;
mod strips;
mod tables;
mod tags;

use std::sync::Arc;

pub use fonts::{BOLD, Face, Fonts, REGULAR};
use logo::Logo;
pub use setting::{Glyph, Line, Run, Type, kept_together};

use crate::base::language::tr;
use crate::report::Report;

/// Points in a millimetre.
pub const PT_PER_MM: f32 = 72.0 / 25.4;
/// No text of the layout is smaller, points; words in drawings are as large as the drawing has them.
pub const SMALLEST_PT: f32 = 8.5;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum Paper {
    /// 210 mm × 297 mm.
    #[default]
    A4,
    /// 8.5 in × 11 in.
    Letter,
}

impl Paper {
    /// Both.
    pub const ALL: [Paper; 2] = [Paper::A4, Paper::Letter];

    /// Its name.
    pub fn word(self) -> &'static str {
        match self {
            Paper::A4 => "A4",
            Paper::Letter => tr("Letter"),
        }
    }

    /// Width and height, points. ISO 216:2007 (A4); ANSI/ASME Y14.1 (Letter, size A); both from memory.
    pub fn size_pt(self) -> [f32; 2] {
        match self {
            Paper::A4 => [210.0 * PT_PER_MM, 297.0 * PT_PER_MM],
            Paper::Letter => [612.0, 792.0],
        }
    }
}

/// How many pages a report may take.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum Fit {
    /// As many as it needs.
    #[default]
    Pages,
    /// One, with spacing and type made smaller as far as it stays readable.
    OnePage,
    /// Two at most, in the same way.
    TwoPages,
}

impl Fit {
    /// The most pages; `None` for any number.
    pub(super) fn most(self) -> Option<usize> {
        match self {
            Fit::Pages => None,
            Fit::OnePage => Some(1),
            Fit::TwoPages => Some(2),
        }
    }
}

/// Who prints: the head of the first page.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Letterhead {
    /// The shop.
    pub name: String,
    /// Its address, telephone.
    pub contact: String,
    /// Its logo.
    pub logo: Option<Arc<Logo>>,
}

/// What is at the foot of every page, so that a print can be traced to its job.
#[derive(Debug, Clone, PartialEq, Eq, Default, Hash)]
pub struct Foot {
    /// Name of the job.
    pub job: String,
    /// In which state it was, see [`crate::report::print::state_of`]; a PDF has it in its metadata, too.
    pub state: String,
    /// The state is in the metadata alone: a customer has no use for it.
    pub hides_state: bool,
    /// The date, year-month-day.
    pub date: String,
}

/// All that a layout needs in addition to the report.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Printing {
    /// On which paper.
    pub paper: Paper,
    /// On how many pages.
    pub fit: Fit,
    /// Who prints.
    pub letterhead: Letterhead,
    /// What it was printed from.
    pub foot: Foot,
    /// The language of its words, two letters; blank for English.
    pub language: String,
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// Its width, points.
    pub width_pt: f32,
    /// From black, 0, to white, 1.
    pub grey: f32,
    /// Lengths of dash and gap, points.
    pub dash: Option<[f32; 2]>,
}

/// Something drawn; places in points right and down from the corner of the page.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// A run of text whose base line begins there.
    Text {
        /// Where.
        at: [f32; 2],
        /// What.
        run: Run,
    },
    /// A line or an area.
    Path {
        /// Its points in order.
        through: Vec<[f32; 2]>,
        /// It ends where it began.
        is_closed: bool,
        /// Filled, from black, 0, to white, 1.
        fill: Option<f32>,
        /// Drawn along.
        pen: Option<Pen>,
    },
    /// The logo.
    Logo {
        /// Its upper left corner.
        at: [f32; 2],
        /// Its width and height.
        size: [f32; 2],
    },
}

/// What part of a sheet an item is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// Lines and areas that mean nothing to the ear.
    Rule,
    /// What is repeated at the head of a page.
    PageHead,
    /// The foot of a page.
    PageFoot,
    /// The shop's logo.
    Logo,
    /// The shop's name and contact.
    Letterhead,
    /// The title.
    Title,
    /// A block of the report, and the place in it.
    Block(usize, Spot),
}

/// A place in a block.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Spot {
    /// The whole block.
    Whole,
    /// An entry of a list, or a line to fill in.
    Entry(usize),
    /// A cell of a table: row (0 is the head) and column.
    Cell(usize, usize),
}

/// An item in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// What is drawn.
    pub item: Item,
    /// What part of the sheet it is.
    pub part: Part,
}

/// One page, its items from the back to the front.
pub type Page = Vec<Placed>;

/// A report on paper.
#[derive(Debug, Clone)]
pub struct Pages {
    /// The paper.
    pub paper: Paper,
    /// What was laid out.
    pub report: Report,
    /// The pages.
    pub pages: Vec<Page>,
    /// Notes for the reader of the print: what did not fit, which characters no font shows.
    pub notes: Vec<String>,
    pub(super) printing: Printing,
    pub(super) faces: Vec<Arc<Face>>,
}

/// Room for items: left, top, right and bottom of a page, points.
pub fn frame_pt(paper: Paper) -> [f32; 4] {
    const SIDE_MM: f32 = 16.0;
    const TOP_MM: f32 = 13.0;
    const BOTTOM_MM: f32 = 11.0;
    let [width, height] = paper.size_pt();
    [SIDE_MM * PT_PER_MM, TOP_MM * PT_PER_MM, width - SIDE_MM * PT_PER_MM, height - BOTTOM_MM * PT_PER_MM]
}

/// Lays a report out on pages.
///
/// Notes say what no font could show and whether one page was not enough; the layout itself never fails.
pub fn lay_out(report: &Report, printing: &Printing, fonts: &mut Fonts) -> Pages {
    let (pages, notes) = paginate::pages(report, printing, fonts);
    Pages {
        paper: printing.paper,
        report: report.clone(),
        pages,
        notes,
        printing: printing.clone(),
        faces: fonts.faces().to_vec(),
    }
}

impl Pages {
    /// Left, top, right and bottom of an item, points; of text, what its type may reach.
    pub fn bounds_pt(&self, item: &Item) -> [f32; 4] {
        match item {
            Item::Text { at: [x, y], run } => {
                let face = &self.faces[run.face];
                [*x, y - face.ascent * run.size_pt, x + run.width_pt, y + face.descent * run.size_pt]
            }
            Item::Path { through, .. } => {
                through.iter().fold([f32::MAX, f32::MAX, f32::MIN, f32::MIN], |[l, t, r, b], [x, y]| {
                    [l.min(*x), t.min(*y), r.max(*x), b.max(*y)]
                })
            }
            Item::Logo { at: [x, y], size: [width, height] } => [*x, *y, x + width, y + height],
        }
    }

    /// What a page says, line by line, for those who cannot see the preview.
    pub fn words(&self, page: &Page) -> String {
        let mut words = String::new();
        let mut last = None;
        for placed in page {
            if let Item::Text { at, run } = &placed.item {
                if last.is_some_and(|y| y != at[1]) {
                    words.push('\n');
                } else if last.is_some() {
                    words.push(' ');
                }
                words.push_str(run.text.trim());
                last = Some(at[1]);
            }
        }
        words
    }
}
