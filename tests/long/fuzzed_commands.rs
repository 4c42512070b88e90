//! Whole commands on shipped jobs that were changed at random: no panic, no hang, no NaN, and physics holds.
//!
//! `FUZZ_JOBS` jobs (400 if not said) from seed `FUZZ_SEED` (1) go through check and solve, one in twenty also through
//! choose, road and sheet; `.ci/run` asks for 10,000. Each job is made from seed and number alone, so a failure comes
//! back whichever thread it was on; its file is kept and named.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use crate::common::mutated;
use crate::common::physics;

use std::io::Write as _;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{LazyLock, Mutex};
use std::time::{Duration, Instant};

use mutated::{Chance, Tree};
use springwright::base::language::Language;
use springwright::cli::{self, Args, Command, JobArg, Outcome, exit};
use springwright::job::file;
use springwright::report::results;
use springwright::report::sheets::Kind;
use springwright::report::write::page::Paper;
use springwright::shop::presets::PRESETS;
use springwright::solve::solve;

/// No command may work longer. A slow build takes ten to fifteen times as long as a released one, of which ten seconds
/// are asked.
const SLOWEST: Duration = Duration::from_secs(120);
/// Draws of a choice: what is judged and printed is the same as with more.
const DRAWS: usize = 1_000;
/// One job in so many goes through choose, road and sheet as well.
const ALSO: u64 = 20;

fn env_or(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).ok().and_then(|v| v.parse().ok()).unwrap_or(otherwise)
}

/// How long this thread has worked, whatever else the machine did meanwhile; where the system does not say, the time.
fn worked() -> Duration {
    static BEGAN: LazyLock<Instant> = LazyLock::new(Instant::now);
    let stat = std::fs::read_to_string("/proc/thread-self/stat").unwrap_or_default();
    // Behind the name in brackets: user and system time are the 12th and 13th, in hundredths of a second.
    let fields: Vec<&str> = stat.rsplit(')').next().unwrap_or_default().split_whitespace().collect();
    let ticks = |i: usize| fields.get(i).and_then(|f| f.parse::<u64>().ok());
    ticks(11)
        .zip(ticks(12))
        .map_or_else(|| BEGAN.elapsed(), |(user, system)| Duration::from_millis(10 * (user + system)))
}

/// The text of a job: a shipped one, changed in one to five places.
fn job_text(seed: u64, index: u64, shipped: &[Tree]) -> (String, Chance) {
    let mut chance = Chance::of(seed, index);
    let mut tree = chance.one(shipped).clone();
    (0..=chance.below(5)).for_each(|_| tree.change(&mut chance));
    (tree.text(), chance)
}

struct Run<'a> {
    folder: &'a Path,
    index: u64,
    text: &'a str,
    chance: &'a mut Chance,
}

impl Run<'_> {
    fn path(&self, name: &str) -> PathBuf {
        self.folder.join(format!("{}-{name}", self.index))
    }

    fn command(&self, command: Command) -> Result<Outcome, cli::CliError> {
        let began = worked();
        let outcome = cli::run(&Args { language: Language::English, command });
        let took = worked().saturating_sub(began);
        assert!(took < SLOWEST, "took {took:?}");
        if let Ok(outcome) = &outcome {
            physics::no_nan(&outcome.text);
        }
        outcome
    }

    /// Every command that it is its turn for; false for a text that is refused.
    fn all(&mut self) -> bool {
        let path = self.path("job.ron");
        // Not synced, as a save would be: there is nothing to lose.
        let written = std::fs::File::create(&path).and_then(|mut f| f.write_all(self.text.as_bytes()));
        written.expect("the job is written");
        let job = path.display().to_string();
        let checked = self.command(Command::Check { job: job.as_str().into() });
        let solved = self.command(Command::Solve { job: job.as_str().into(), json: true });
        let (Ok(checked), Ok(solved)) = (checked, solved) else {
            let refused =
                self.command(Command::Solve { job: job.as_str().into(), json: false }).expect_err("refused as before");
            assert!(!refused.to_string().is_empty() && refused.exit_code() == exit::FILE);
            if std::env::var_os("FUZZ_SHOW").is_some() {
                println!("{}: {}", self.index, refused.to_string().lines().next().unwrap_or_default());
            }
            return false;
        };
        assert_eq!(checked.code, solved.code, "check and solve end alike");
        let json = serde_json::from_str(&solved.text).expect("JSON");
        physics::hold(&json, solved.code);
        if self.index.is_multiple_of(ALSO) {
            self.answer_is_finite();
            self.choose(&job);
            self.road(&job);
            self.sheet(&job);
            self.other_plan(&job);
        }
        let _ = std::fs::remove_file(path);
        true
    }

    /// JSON says null for what is not a number: here it is looked at before it is written.
    fn answer_is_finite(&self) {
        let job = file::parse(self.text).expect("a job");
        let answer = solve(&job);
        for figure in results::figures(&answer) {
            let numbers = [figure.si, figure.u_si].into_iter().flatten();
            let with = figure.with.iter().map(|w| w.1);
            assert!(numbers.chain(with).all(f64::is_finite), "{figure:?}");
        }
        assert_eq!(answer, solve(&job), "the same job, the same answer");
    }

    /// With nothing done the same laws hold; spacers are not always offered.
    fn other_plan(&mut self, job: &str) {
        let plan = *self.chance.one(&["nothing", "spacers", "chosen"]);
        let job = JobArg { plan: Some(plan.to_owned()), ..job.into() };
        match self.command(Command::Solve { job, json: true }) {
            Ok(solved) => physics::hold(&serde_json::from_str(&solved.text).expect("JSON"), solved.code),
            Err(error) => assert!(plan == "spacers", "{plan}: {error}"),
        }
    }

    fn choose(&mut self, job: &str) {
        let list = Some(Path::new(env!("CARGO_MANIFEST_DIR")).join("presets/demo-parts.csv"));
        let seed = self.chance.below(1000) as u64;
        let (job, json) = (job.into(), self.chance.below(2) == 0);
        if let Ok(found) = self.command(Command::Choose { job, list, draws: DRAWS, seed, json })
            && json
        {
            physics::choice(&serde_json::from_str(&found.text).expect("JSON"), found.code);
        }
    }

    fn road(&mut self, job: &str) {
        // Mostly fast: a kilometre is then over in seconds, and a slow build has all roads done in a minute.
        let speeds = ["500 km/h", "140 m/s", "300 mph", "400 km/h", "1e-9 km/h", "1e9 m/s", "-3 km/h", "fast"];
        let speed = (self.chance.below(20) != 0).then(|| (*self.chance.one(&speeds)).to_owned());
        let (job, json) = (job.into(), self.chance.below(2) == 0);
        let found = self.command(Command::Road { job, class: None, speed, seed: Some(3), json }).expect("a job");
        if json {
            physics::roads(&serde_json::from_str(&found.text).expect("JSON"));
        }
    }

    fn sheet(&mut self, job: &str) {
        let kind = *self.chance.one(&Kind::ALL);
        let out = self.path("sheet.pdf");
        let date = Some("2026-11-25".to_owned());
        let paper = *self.chance.one(&Paper::ALL);
        let command = Command::Sheet { job: job.into(), out: out.clone(), kind, paper, logo: None, date, force: true };
        if let Err(error) = self.command(command) {
            panic!("{kind:?}: {error}");
        }
        let document = lopdf::Document::load(&out).expect("a PDF that another library reads");
        let pages = document.get_pages();
        assert!(!pages.is_empty() && pages.len() < 400, "{} pages", pages.len());
        for (number, id) in pages {
            let drawn = lopdf::content::Content::decode(&document.get_page_content(id));
            assert!(drawn.is_ok_and(|c| !c.operations.is_empty()), "page {number} cannot be read");
        }
        let _ = std::fs::remove_file(out);
    }
}

#[test]
fn whole_commands_hold_on_changed_jobs() {
    let (jobs, seed) = (env_or("FUZZ_JOBS", 400), env_or("FUZZ_SEED", 1));
    let first = env_or("FUZZ_FIRST", 0);
    let shipped: Vec<Tree> = PRESETS.iter().map(|p| Tree::read(p.text)).collect();
    for (tree, preset) in shipped.iter().zip(PRESETS) {
        assert_eq!(file::parse(&tree.text()).ok().as_ref(), Some(&preset.job()), "{}: read otherwise", preset.name);
    }
    let folder = tempfile::tempdir().expect("a folder");
    let (next, refused) = (AtomicU64::new(first), AtomicU64::new(0));
    let failures = Mutex::new(Vec::new());
    let began = Instant::now();
    let work = || {
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            if index >= first + jobs {
                break;
            }
            let (text, mut chance) = job_text(seed, index, &shipped);
            let mut run = Run { folder: folder.path(), index, text: &text, chance: &mut chance };
            match catch_unwind(AssertUnwindSafe(|| run.all())) {
                Ok(true) => {}
                Ok(false) => drop(refused.fetch_add(1, Ordering::Relaxed)),
                Err(why) => {
                    let said = why.downcast_ref::<String>().cloned();
                    let said = said.or_else(|| why.downcast_ref::<&str>().map(|s| (*s).to_owned()));
                    let kept = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("fuzzed-{seed}-{index}.ron"));
                    file::write_text(&kept, &text).expect("kept");
                    let said = said.unwrap_or_default();
                    failures.lock().expect("no thread dies").push(format!("{}: {said}", kept.display()));
                }
            }
        }
    };
    std::thread::scope(|scope| {
        let threads = std::thread::available_parallelism().map_or(1, usize::from);
        (0..threads).for_each(|_| drop(scope.spawn(work)));
    });
    let failures = failures.into_inner().expect("no thread died");
    let refused = refused.into_inner();
    println!("{jobs} jobs in {:.0?}, {refused} refused, {} failed", began.elapsed(), failures.len());
    assert!(failures.is_empty(), "{}:\n{}", failures.len(), failures[..failures.len().min(40)].join("\n\n"));
    assert!(refused * 4 < jobs, "{refused} of {jobs} were no jobs: nothing was tried on them");
    #[cfg(target_os = "linux")]
    physics::memory_stayed_small();
}
