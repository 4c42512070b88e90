//! What benches share: measuring again and again, and one table of what all of them found.
//!
//! Each bench leaves its rows in `target/bench/`; `target/bench-table.md` is made of all that lie there.

use std::hint::black_box;
use std::path::Path;
use std::time::Instant;

use springwright::job::file::write_text;

/// What was found in several runs, in this unit, the least first.
pub struct Measured {
    values: Vec<f64>,
    unit: &'static str,
}

impl Measured {
    /// These values, of which there is at least one.
    pub fn new(mut values: Vec<f64>, unit: &'static str) -> Self {
        values.sort_by(f64::total_cmp);
        Measured { values, unit }
    }

    fn at(&self, share: f64) -> f64 {
        let last = self.values.len().saturating_sub(1);
        self.values.get((share * last as f64).ceil() as usize).copied().unwrap_or(f64::NAN)
    }

    /// The one in the middle.
    pub fn median(&self) -> f64 {
        self.at(0.5)
    }

    /// What 95 of 100 do not exceed.
    fn p95(&self) -> f64 {
        self.at(0.95)
    }
}

/// How long so many runs take, in ms, and what the last one gave.
pub fn timed<T>(runs: usize, mut work: impl FnMut() -> T) -> (Measured, T) {
    let mut once = || {
        let start = Instant::now();
        let found = black_box(work());
        (start.elapsed().as_secs_f64() * 1e3, found)
    };
    let mut last = once();
    let mut took = vec![last.0];
    for _ in 1..runs {
        last = once();
        took.push(last.0);
    }
    (Measured::new(took, "ms"), last.1)
}

/// What a figure is held against.
pub enum Against<'a> {
    /// 95 of 100 runs are to need no more than this.
    Limit(f64),
    /// Something else, measured in the same run; wanted is at most this part of its median.
    Other(&'a str, &'a Measured, f64),
    /// Nothing: it is only told.
    Nothing,
}

/// The rows of one bench; only those whose name contains the words after `--`, if there are any.
pub struct Table {
    bench: &'static str,
    wanted: Option<String>,
    rows: String,
}

const HEAD: &str = "\
| bench | what | median | least to most | p95 | reference | ratio | wanted | |
|---|---|---|---|---|---|---|---|---|
";

impl Table {
    /// The table of this bench, still empty.
    pub fn of(bench: &'static str) -> Self {
        let wanted = std::env::args().skip(1).find(|argument| !argument.starts_with("--"));
        Table { bench, wanted, rows: String::new() }
    }

    /// This row is wanted, or one of these.
    pub fn wants(&self, what: &str) -> bool {
        self.wanted.as_ref().is_none_or(|wanted| what.contains(wanted.as_str()))
    }

    /// Some row whose name holds this is wanted: what it takes is made ready.
    pub fn wants_some(&self, part: &str) -> bool {
        self.wants(part) || self.wanted.as_ref().is_some_and(|wanted| wanted.contains(part))
    }

    /// Times this many runs of the work and adds the row, if it is wanted.
    pub fn timed<T>(&mut self, what: &str, runs: usize, against: Against<'_>, work: impl FnMut() -> T) {
        if self.wants(what) {
            self.row(what, &timed(runs, work).0, against);
        }
    }

    /// Adds a row. The ratio is that of the p95 to a limit, of the median to the median of something else.
    pub fn row(&mut self, what: &str, found: &Measured, against: Against<'_>) {
        let unit = found.unit;
        let (reference, ratio) = match against {
            Against::Limit(limit) if limit > 0.0 => (format!("limit {limit} {unit}"), Some((found.p95() / limit, 1.0))),
            Against::Limit(limit) => {
                let ratio = if found.p95() > limit { f64::INFINITY } else { 1.0 };
                (format!("limit {limit} {unit}"), Some((ratio, 1.0)))
            }
            Against::Other(name, other, wanted) => {
                (format!("{name}, {} {unit}", short(other.median())), Some((found.median() / other.median(), wanted)))
            }
            Against::Nothing => (String::new(), None),
        };
        let [median, least, most, p95] = [found.median(), found.at(0.0), found.at(1.0), found.p95()].map(short);
        let (ratio, wanted, verdict) = match ratio {
            Some((ratio, wanted)) => {
                (short(ratio), format!("≤ {wanted}"), if ratio <= wanted { "yes" } else { "**missed**" })
            }
            None => Default::default(),
        };
        let row = format!(
            "| {} | {what} | {median} {unit} | {least} to {most} | {p95} | {reference} | {ratio} | {wanted} | {verdict} |",
            self.bench
        );
        println!("{row}");
        self.rows += &row;
        self.rows.push('\n');
    }

    /// Leaves the rows for the table of all benches, if they are complete, and prints that.
    pub fn end(self) {
        if self.wanted.is_some() {
            return;
        }
        let target = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("bench");
        let mut all = String::from(HEAD);
        std::fs::create_dir_all(&target).expect("a folder in target");
        write_text(&target.join(self.bench), &self.rows).expect("writes");
        let mut files: Vec<_> = std::fs::read_dir(&target).expect("reads").flatten().map(|e| e.path()).collect();
        files.retain(|f| f.extension().is_none());
        files.sort();
        for file in files {
            all += &std::fs::read_to_string(file).expect("reads");
        }
        let place = target.with_file_name("bench-table.md");
        write_text(&place, &all).expect("writes");
        println!("\n{all}\n{}", place.display());
    }
}

/// Three digits.
fn short(value: f64) -> String {
    if value == 0.0 {
        return "0".into();
    }
    let decimals = (2.0 - value.abs().log10().floor()).clamp(0.0, 5.0) as usize;
    format!("{value:.decimals$}")
}
