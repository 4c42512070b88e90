//! A folder of jobs: the shipped ones again and again, each with a customer of its own.

use std::fs::File;
use std::io::Write as _;
use std::path::Path;

use springwright::job::file;
use springwright::shop::presets::PRESETS;

pub const COUNT: usize = 5_000;

/// Writes them. They are not synced one by one: only reading is measured.
pub fn write(folder: &Path) {
    for i in 0..COUNT {
        let mut job = PRESETS[i % PRESETS.len()].job();
        job.customer.name = format!("Customer {i}");
        let year = folder.join((2000 + i / 500).to_string());
        std::fs::create_dir_all(&year).expect("a folder");
        let mut file = File::create(year.join(format!("job-{i}.ron"))).expect("a file");
        file.write_all(file::text(&job).expect("text").as_bytes()).expect("writes");
    }
}
