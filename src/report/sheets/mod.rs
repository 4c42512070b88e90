//! The printed sheets: for the customer, for the fitter, for ordering, and the working.
//!
//! Their texts are in `assets/sheets.en.ron` and its sisters ([`words`]). Over a rating, no sheet recommends anything.

mod both_sides;
mod customer;
mod fitting;
mod header;
mod judged;
mod open;
mod order;
mod page;
pub mod plan_table;
pub mod procedure;
pub mod sheet;
pub mod words;
mod working;
mod working_brief;

use crate::base::language::{Language, Voice, speak, tr};
use crate::base::units::DecimalMark;
use crate::job::{Job, Which, bounded};
use crate::report::Block;
use crate::report::Report;
use crate::report::results::Results;
use crate::report::sections::unchecked;
use crate::solve::answer::Answer;
use crate::solve::planned;
use crate::solve::solve;
pub use customer::{Controls, End, Outline, Showing, Stage};
pub use header::check_value;
use page::Page;
pub use words::{Words, WordsError};

/// Which sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Kind {
    /// One page for the customer.
    #[default]
    Customer,
    /// For the fitter at the vehicle.
    Fitting,
    /// What to buy.
    Order,
    /// What decides the order, on two pages.
    WorkingBrief,
    /// Every result with formula and numbers.
    Working,
    /// Everything the engineer looks at.
    Full,
}

impl Kind {
    /// All of them.
    pub const ALL: [Kind; 6] =
        [Kind::Customer, Kind::Fitting, Kind::Order, Kind::WorkingBrief, Kind::Working, Kind::Full];

    /// The key, for command lines and file names.
    pub fn key(self) -> &'static str {
        match self {
            Kind::Customer => "customer",
            Kind::Fitting => "fitting",
            Kind::Order => "order",
            Kind::WorkingBrief => "working-brief",
            Kind::Working => "working",
            Kind::Full => "full",
        }
    }

    /// The words on screen.
    pub fn words(self) -> &'static str {
        match self {
            Kind::Customer => tr("Customer sheet"),
            Kind::Fitting => tr("Fitting sheet"),
            Kind::Order => tr("Order list"),
            Kind::WorkingBrief => tr("Calculation in brief"),
            Kind::Working => tr("Calculation"),
            Kind::Full => tr("All results"),
        }
    }
}

/// What is known of the printing: when, and from which state of the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Printed<'a> {
    /// The date, as it is to stand there; `None` leaves a line to write it on.
    pub date: Option<&'a str>,
    /// The job's file or preset by its name.
    pub file: Option<&'a str>,
    /// The job stood in that file exactly so; `None` when that is not known.
    pub saved: Option<bool>,
    /// It goes on pages, which say all of this in their foot.
    pub on_pages: bool,
}

/// One sheet in the job's language.
pub fn build(kind: Kind, job: &Job, answer: &Answer, date: Option<&str>) -> Report {
    build_with(kind, job, answer, Printed { date, ..Printed::default() }, words_of(job))
}

/// The shipped texts of the job's language, English when it does not ship; the sheet then says so.
pub fn words_of(job: &Job) -> &'static Words {
    Words::shipped(&job.shop.language).unwrap_or_else(Words::english)
}

/// The language in which a job's sheets are, two letters.
pub fn language_of(job: &Job) -> &str {
    let language = job.shop.language.trim();
    if language.is_empty() || Words::shipped(language).is_none() { "en" } else { language }
}

/// How a job's sheets with these texts speak: their language and its decimal mark, whoever prints them.
pub fn voice_of(job: &Job, words: &Words) -> Voice {
    let mark = if words.say("number.mark", &[]) == "," { DecimalMark::Comma } else { DecimalMark::Point };
    Voice { mark, ..Language::spoken_as(language_of(job)) }
}

/// The customer's view with these texts: what the customer's sheet says, step by step; last what the plans come to, at most
/// three of them.
pub fn showing(job: &Job, answer: &Answer, words: &Words) -> Showing {
    const MOST_OTHERS: usize = 2;
    let _voice = speak(voice_of(job, words));
    let job = bounded::used(job);
    let of_one = |job: &Job, answer: &Answer| {
        let (results, printed) = (Results::values_of(answer), Printed::default());
        let page = Page { job, answer, results: &results, leads: &answer.leads, words, printed, side: None };
        with_leads(&page, customer::showing)
    };
    let mut showing = of_one(&job, answer);
    let others = job.other_plans().take(MOST_OTHERS).map(|which| {
        let on_plan = job.on_plan(which);
        (job.plan_words(which).to_string(), of_one(&on_plan, &solve(&on_plan)))
    });
    if !job.plans.is_empty() {
        showing.add_plans(&job.plan_words(Which::Chosen).to_string(), others);
    }
    showing
}

/// One sheet with these texts.
pub fn build_with(kind: Kind, job: &Job, answer: &Answer, printed: Printed<'_>, words: &Words) -> Report {
    let _voice = speak(voice_of(job, words));
    let used = bounded::used(job);
    let job = &*used;
    let results = Results::values_of(answer);
    let page = Page { job, answer, results: &results, leads: &answer.leads, words, printed, side: None };
    let mut report = match kind {
        Kind::Full => sheet::build(job, answer),
        _ => with_leads(&page, |page| one(kind, page)),
    };
    // The state of the job is the one as it was planned.
    report.blocks.extend(header::stamp(&page, kind));
    report
}

/// One sheet.
fn one(kind: Kind, page: &Page<'_>) -> Report {
    let mut report = match kind {
        Kind::Customer => customer::build(page),
        Kind::Fitting => fitting::build(page),
        Kind::Order => order::build(page),
        Kind::WorkingBrief => working_brief::build(page),
        Kind::Working | Kind::Full => working::build(page),
    };
    // The others say it at their own place.
    if matches!(kind, Kind::Order | Kind::WorkingBrief | Kind::Working) {
        report.blocks.extend(unchecked::lines(page.job, page.answer).into_iter().map(Block::Text));
    }
    report
}

/// A page of the job with what leads in place of new springs.
fn with_leads<T>(page: &Page<'_>, of: impl Fn(&Page<'_>) -> T) -> T {
    let Some(job) = planned::led(page.job, page.answer) else { return of(page) };
    let answer = solve(&job);
    let results = Results::values_of(&answer);
    of(&Page { job: &job, answer: &answer, results: &results, ..*page })
}
