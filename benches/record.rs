//! Reading and analysing a recording of 20 minutes at 400 Hz on three axes: time, and memory over what was held before.
#![allow(clippy::expect_used, reason = "a benchmark says why it stops")]

#[path = "common/timing.rs"]
#[allow(dead_code, reason = "what others need")]
mod timing;

use std::fmt::Write as _;
use std::path::Path;

use springwright::base::progress::Watch;
use springwright::job::file;
use springwright::shop::recordings::{self, Ask};
use springwright::solve::recorded::{Analysed, analyse};
use timing::{Against, Measured, Table, timed};

const ROWS: u32 = 20 * 60 * 400;

/// A drive on a rough road, gravity in: a body mode, wheel hop and noise, all made up.
fn written() -> String {
    let mut text = String::from("time_s,ax_m_s2,ay_m_s2,az_m_s2\n");
    let mut state = 7_u64;
    let mut noise = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / f64::from(1_u32 << 31) - 0.5
    };
    for i in 0..ROWS {
        let t = f64::from(i) / 400.0;
        let up = 0.6 * (8.1 * t).sin() * (0.3 * t).sin() + 0.8 * (75.0 * t).sin() * (0.7 * t).cos() + noise();
        let _ = writeln!(text, "{t:.4},{:.5},{:.5},{:.5}", 0.4 + noise(), noise(), 9.8 + up);
    }
    text
}

fn read(path: &Path) -> Analysed {
    let read = recordings::open(path, &Ask::default(), &Watch::default()).expect("a recording");
    let found = analyse(&read.record, read.signal, read.named);
    assert!(found.drive.as_ref().is_some_and(|d| d.felt.is_some()), "it is a drive");
    found
}

/// Memory held now, and the most that was, MB; `None` where the system does not tell.
fn held() -> Option<[f64; 2]> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let mb = |key: &str| {
        let line = status.lines().find_map(|line| line.strip_prefix(key))?;
        Some(line.trim().trim_end_matches(" kB").parse::<f64>().ok()? / 1024.0)
    };
    Some([mb("VmRSS:")?, mb("VmHWM:")?])
}

fn main() {
    let mut table = Table::of("record");
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("drive.csv");
    let size_mb = {
        let text = written();
        file::write_text(&path, &text).expect("written");
        text.len() as f64 / 1e6
    };
    // The peak from here on.
    let is_reset = std::fs::OpenOptions::new()
        .write(true)
        .open("/proc/self/clear_refs")
        .and_then(|mut file| std::io::Write::write_all(&mut file, b"5"));
    let before = held();
    read(&path);
    if let (Ok(()), Some([before, _]), Some([_, most])) = (is_reset, before, held()) {
        let memory = Measured::new(vec![most - before], "MB");
        table.row(
            &format!("memory, a file of {size_mb:.0} MB"),
            &memory,
            Against::Limit((3.0 * size_mb + 50.0).round()),
        );
    }
    let (took, _) = timed(12, || read(&path));
    table.row("20 min at 400 Hz, three axes, read and analysed", &took, Against::Limit(1500.0));
    table.end();
}
