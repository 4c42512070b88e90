//! Listing and searching a folder of 5,000 jobs.
#![allow(clippy::expect_used, reason = "a benchmark says why it stops")]

#[path = "common/timing.rs"]
#[allow(dead_code, reason = "what others need")]
mod timing;
#[path = "common/jobs.rs"]
mod written;

use springwright::shop::jobs_folder;
use timing::{Against, Table, timed};

fn main() {
    let mut table = Table::of("jobs");
    let folder = tempfile::tempdir().expect("a folder");
    written::write(folder.path());
    let list = || jobs_folder::list(folder.path()).expect("lists");
    let records = list();
    assert!(records.len() == written::COUNT && records.iter().all(|r| r.wrong.is_none()));
    let (listing, _) = timed(30, list);
    table.row(&format!("list {} jobs", written::COUNT), &listing, Against::Limit(200.0));
    let (searching, _) = timed(100, || records.iter().filter(|r| r.has("customer 4711 van")).count());
    table.row(&format!("search {} jobs", written::COUNT), &searching, Against::Nothing);
    table.end();
}
