//! The head and the foot of every sheet: whose job it is, and from which state of it the sheet was printed.

use super::page::{Page, listed, one_line};
use super::{Block, Kind, Words};
use crate::base::units::UnitChoice;
use crate::job::{Which, file};

/// Shop, customer, vehicle, change.
pub(super) fn names(page: &Page<'_>) -> Option<Block> {
    Block::pairs(page.plain("head.job"), named(page))
}

fn named(page: &Page<'_>) -> Vec<Vec<String>> {
    let job = page.job;
    let all = [
        ("head.shop", listed([&job.shop.name, &job.shop.contact])),
        ("head.customer", listed([&job.customer.name, &job.customer.contact])),
        ("head.vehicle", listed([&job.vehicle.name, &job.vehicle.identification])),
        ("head.change", listed([&job.vehicle.change])),
    ];
    // Pages have the shop in their letterhead.
    let all = all.into_iter().skip(usize::from(page.printed.on_pages));
    page.rows(all.map(|(key, named)| (key, Some(named).filter(|named| !named.is_empty()))))
}

/// The same with plan, fitter and date, for the sheets that are worked from.
pub(super) fn working_names(page: &Page<'_>) -> Option<Block> {
    let said = |text: &str| Some(one_line(text)).filter(|t| !t.is_empty()).or_else(|| Some(page.plain("head.blank")));
    let plan = (!page.job.plans.is_empty()).then(|| one_line(&page.job.plan_words(Which::Chosen).to_string()));
    let mut rows = named(page);
    rows.extend(page.rows([
        ("head.plan", plan),
        ("head.fitter", said(&page.job.shop.fitter)),
        ("head.date", said(page.printed.date.unwrap_or_default())),
    ]));
    Block::pairs(page.plain("head.job"), rows)
}

/// Job, program version, date, and the state of the job; of that a customer's sheet has no check value.
pub(super) fn stamp(page: &Page<'_>, kind: Kind) -> Vec<Block> {
    // Pages say it in their foot.
    let stamp = (!page.printed.on_pages).then(|| printed_from(page, kind));
    let language = page.job.shop.language.trim();
    let is_english = Words::shipped(language).is_none() && page.words == Words::english();
    let caution = is_english.then(|| page.caution("stamp.language", &[("language", &one_line(language))]));
    stamp.into_iter().chain(caution).collect()
}

fn printed_from(page: &Page<'_>, kind: Kind) -> Block {
    let named = listed([&page.job.vehicle.name, &page.job.vehicle.identification]);
    let job = if named.is_empty() { page.plain("stamp.no_name") } else { named };
    let date = page.printed.date.map_or_else(|| page.plain("stamp.no_date"), one_line);
    let file = page.printed.file.map_or_else(|| page.plain("stamp.no_file"), one_line);
    let saved = match page.printed.saved {
        Some(true) => page.plain("stamp.saved"),
        Some(false) => page.plain("stamp.unsaved"),
        None => page.plain("stamp.maybe"),
    };
    let version = env!("CARGO_PKG_VERSION");
    let fill = [("job", job.as_str()), ("date", &date), ("version", version), ("file", &file), ("saved", &saved)];
    if kind == Kind::Customer {
        return page.text("stamp.customer", &fill);
    }
    let check = check_value(page.job).map_or_else(|| page.plain("unknown"), |c| format!("{c:08x}"));
    page.text("stamp", &[&fill[..], &[("check", &check)]].concat())
}

/// The CRC-32 of the job's text as the program saves it: the same as of the saved file.
pub fn check_value(job: &crate::job::Job) -> Option<u32> {
    file::text(job).ok().map(|text| crc32fast::hash(text.as_bytes()))
}

/// After which distance everything is checked again. Common practice, no source.
pub(in crate::report) fn check_again_after(units: &UnitChoice) -> &'static str {
    if units.in_miles() { "300 mi" } else { "500 km" }
}
