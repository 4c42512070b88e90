//! The targets of `fuzz/` on a stable compiler: known good and bad files, changed at random.
//!
//! `FUZZ_S` seconds for each target (2 if not said), from seed `FUZZ_SEED` (1). It knows nothing of which code was
//! reached; `cargo fuzz` does. Tried first is what is kept in `fuzz/kept/TARGET/`: what once failed, and texts at the borders
//! of what can be read.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

#[path = "../../fuzz/targets.rs"]
mod targets;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use rand_distr::Distribution as _;
use rand_distr::Uniform;
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;
use springwright::job::file;

/// Nothing of a few kilobytes may take longer, even in a slow build.
const SLOWEST: Duration = Duration::from_secs(10);
/// What breaks readers: brackets, marks, limits of numbers, units, and bytes that are no text.
const TOKENS: [&[u8]; 34] = [
    b"(",
    b")",
    b"[",
    b"]",
    b"{",
    b"\"",
    b"\\",
    b"\\u{",
    b"'",
    b"r#\"",
    b"/*",
    b"//",
    b",",
    b";",
    b"\t",
    b"\n",
    b"\r",
    b":",
    b"-",
    b"+",
    b"1e308",
    b"-1e-308",
    b"1e999",
    b"NaN",
    b"inf",
    b"0",
    b"%",
    b"1/0",
    b" 1 1/2 ",
    b"N/mm",
    "±Ω½".as_bytes(),
    b"\xff\xfe",
    b"\0",
    b"Some(",
];

struct Chance(Xoshiro256PlusPlus);

impl Chance {
    fn below(&mut self, end: usize) -> usize {
        Uniform::new(0, end.max(1)).expect("a range").sample(&mut self.0)
    }

    fn span(&mut self, length: usize) -> std::ops::Range<usize> {
        let start = self.below(length + 1);
        let most = if self.below(4) == 0 { length } else { 12 };
        start..(start + self.below(most + 1)).min(length)
    }

    /// Changes the bytes in one to six places.
    fn change(&mut self, bytes: &mut Vec<u8>, seeds: &[Vec<u8>]) {
        for _ in 0..=self.below(6) {
            let at = self.below(bytes.len() + 1);
            match self.below(8) {
                0 if at < bytes.len() => bytes[at] ^= 1 << self.below(8),
                1 if at < bytes.len() => bytes[at] = self.below(256) as u8,
                2 | 3 => drop(bytes.splice(at..at, TOKENS[self.below(TOKENS.len())].iter().copied())),
                4 => drop(bytes.drain(self.span(bytes.len()))),
                5 => {
                    let again = bytes[self.span(bytes.len())].repeat(1 + self.below(3));
                    bytes.splice(at..at, again);
                }
                6 => {
                    let other = &seeds[self.below(seeds.len())];
                    let part = other[self.span(other.len())].to_vec();
                    bytes.splice(at..at, part);
                }
                _ if self.below(4) == 0 => bytes.truncate(at),
                _ => {}
            }
        }
        bytes.truncate(100_000);
    }
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn files(folder: &str, ending: &str) -> Vec<Vec<u8>> {
    let entries = std::fs::read_dir(root().join(folder)).into_iter().flatten().flatten();
    let mut paths: Vec<PathBuf> = entries.map(|e| e.path()).filter(|p| p.is_file()).collect();
    paths.retain(|p| p.extension().unwrap_or_default().to_string_lossy().ends_with(ending));
    paths.sort();
    paths.iter().map(|p| std::fs::read(p).expect("a file of ours")).collect()
}

fn env_or(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).ok().and_then(|v| v.parse().ok()).unwrap_or(otherwise)
}

fn fuzz(name: &str, target: fn(&[u8]), seeds: &[Vec<u8>]) {
    assert!(!seeds.is_empty(), "{name}: nothing to begin with");
    let started = Instant::now();
    let end = Duration::from_secs(env_or("FUZZ_S", 2));
    let mut chance = Chance(Xoshiro256PlusPlus::seed_from_u64(env_or("FUZZ_SEED", 1)));
    let kept = files(&format!("fuzz/kept/{name}"), "");
    assert!(!kept.is_empty(), "{name}: nothing is kept");
    let (mut runs, mut slowest) = (0_u64, Duration::ZERO);
    let mut first = kept.iter().chain(seeds);
    while let Some(bytes) = first.next().cloned().or_else(|| {
        (started.elapsed() < end).then(|| {
            let mut bytes = seeds[chance.below(seeds.len())].clone();
            chance.change(&mut bytes, seeds);
            bytes
        })
    }) {
        let began = Instant::now();
        let went_well = catch_unwind(AssertUnwindSafe(|| target(&bytes))).is_ok();
        (runs, slowest) = (runs + 1, slowest.max(began.elapsed()));
        if !went_well || began.elapsed() > SLOWEST {
            let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}-{runs}"));
            file::write_bytes(&path, &bytes).expect("kept");
            panic!(
                "{name}: failed or took {:?} after {runs} runs; move it to fuzz/kept/{name}/: {}",
                began.elapsed(),
                path.display()
            );
        }
    }
    println!("{name}: {runs} runs in {:.0?}, the slowest {slowest:.0?}", started.elapsed());
}

#[test]
fn entry_text() {
    let mut seeds: Vec<Vec<u8>> = [
        "49.5 N/mm",
        "11-1/4\"",
        "11 1/4 in",
        "1,155 lb",
        "1.155,5",
        "285mm",
        "420 lb/in",
        "-3",
        "1e3",
        "±5 %",
        "½ in",
        "",
    ]
    .iter()
    .map(|t| t.as_bytes().to_vec())
    .collect();
    seeds.extend(springwright::base::units::table::UNITS.iter().map(|u| format!("12.5 {}", u.symbol).into_bytes()));
    fuzz("entry_text", targets::entry_text, &seeds);
}

#[test]
fn job_file() {
    let seeds = [files("presets", "ron"), files("tests/bad", "ron"), files("tests/versions", "ron")].concat();
    let seeds: Vec<_> = seeds.into_iter().filter(|s| s.len() < 20_000).collect();
    fuzz("job_file", targets::job_file, &seeds);
}

/// Rows of the shipped list: springs and dampers, a few at a time so that each run is short.
#[test]
fn parts_list() {
    let demo = String::from_utf8(springwright::shop::parts::demo().to_vec()).expect("text");
    let lines: Vec<&str> = demo.lines().collect();
    let mut seeds: Vec<Vec<u8>> =
        lines[1..].chunks(4).map(|rows| [&lines[..1], rows].concat().join("\n").into_bytes()).collect();
    for delimiter in [";", "\t"] {
        seeds.push(
            seeds[seeds.len() - 1].iter().map(|b| if *b == b',' { delimiter.as_bytes()[0] } else { *b }).collect(),
        );
    }
    seeds.push("Number;Rate\nA;12,5 N/mm\nB;\"1.155,5 lb/in\"\n".into());
    fuzz("parts_list", targets::parts_list, &seeds);
}

/// Sheets in every convention: signs of speeds, of forces, columns of their own, clicks, units in cells.
#[test]
fn damper_sheet() {
    let seeds = [
        "speed (m/s),bump (N),rebound (N)\n0.1,100,250\n0.3,180,470\n",
        "Velocity [mm/s];Compression [N];Rebound [N]\n100;-100;250\n300;-180;470\n",
        "speed (m/s)\tforce (N)\n0.3\t180\n0.1\t100\n-0.1\t-250\n-0.3\t-470\n",
        "speed m/s;force N\n0,1;100\n0,3;180\n-0,1;250\n-0,3;470\n",
        "speed (m/s),force (N)\n0,0\n0.1,100\n0.3,180\n0.1,-250\n0.3,-470\n",
        "Geschwindigkeit (mm/s);Druckstufe (N);Zugstufe (N)\n100;100;250\n300;180;470\n",
        "click,speed in/s,bump lbf,rebound lb\n2,10,100,200\n2,20,150,320\n4,10,130,260\n4,20,\"1,180\",390\n",
        "v,F bump,F rebound\n5 in/s,100 N,20 kgf\n0,0,0\n",
    ];
    fuzz("damper_sheet", targets::damper_sheet, &seeds.map(|s| s.as_bytes().to_vec()));
}

/// Recordings: a few rows of C8 in several forms.
#[test]
fn recording() {
    let text = include_str!("../cases/bounce-c8.csv");
    let some = |count: usize, from: usize| text.lines().skip(from).take(count).collect::<Vec<_>>().join("\n");
    let seeds = [
        some(40, 0),
        some(60, 90),
        some(50, 0).replace(',', ";").replace('.', ","),
        some(50, 1).replace(',', "\t"),
        format!("t [ms] ; a [g]\n{}", (0..30).map(|i| format!("{};{}\n", 20 * i, 1.0)).collect::<String>()),
    ];
    fuzz("recording", targets::recording, &seeds.map(String::into_bytes));
}

#[test]
fn pasted() {
    let seeds = [
        "RR 328\nLF 463\nLR 337 kg\nRF 445\nTotal 1573",
        "463 445\n337 328",
        "0\t250 mm\n10\t243\n",
        "engine;-120 kg;300 mm;0",
    ];
    fuzz("pasted", targets::pasted, &seeds.map(|s| s.as_bytes().to_vec()));
}
