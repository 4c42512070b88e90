//! The program at its bounds and beyond them: each input as large as it may be within a gigabyte and ten seconds, and
//! one step further a refusal or a finding in words.
//!
//! Each command runs as a process of its own with an address space of one gigabyte and so many seconds of processor
//! time ([`SECONDS`]): what asks for more is ended by the system, whatever else the machine does. A slow build takes eight
//! to fifteen times as long as a released one, so it gets twelve times the ten seconds.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::time::{Duration, Instant};

use springwright::base::bounds::{self, LISTS};
use springwright::job::{Job, bounded, fields, file};
use springwright::report::write::page::logo::{Logo, LogoError};
use springwright::shop::lists::{self, ShopError};
use springwright::shop::parts::{self, ListError};
use springwright::solve::solve;

/// Seconds of processor time for one command.
const SECONDS: u64 = if cfg!(debug_assertions) { 120 } else { 10 };
/// Nothing waits so long, however busy the machine is: what does, waits for something that never comes.
const HANGS_S: u64 = 900;

const PROGRAM: &str = env!("CARGO_BIN_EXE_springwright-cli");

struct Ended {
    code: Option<i32>,
    out: String,
    err: String,
    took: Duration,
}

/// Runs a command within a gigabyte.
fn cli(args: &[&str]) -> Ended {
    let began = Instant::now();
    let within = format!("ulimit -v 1000000 && ulimit -t {SECONDS} && exec timeout {HANGS_S} \"$0\" \"$@\"");
    let mut program = if cfg!(target_os = "linux") { Command::new("sh") } else { Command::new(PROGRAM) };
    if cfg!(target_os = "linux") {
        program.args(["-c", &within, PROGRAM]);
    }
    // One arena: address space that is only set aside is not memory.
    let ran = program.args(args).env("MALLOC_ARENA_MAX", "1").env("NO_COLOR", "1").output();
    let Output { status, stdout, stderr } = ran.expect("the program runs");
    let [out, err] = [stdout, stderr].map(|bytes| String::from_utf8_lossy(&bytes).into_owned());
    Ended { code: status.code(), out, err, took: began.elapsed() }
}

/// As [`cli`]; it ends by itself, in time, with one of these codes.
#[track_caller]
fn ends(args: &[&str], codes: &[i32]) -> Ended {
    let ended = cli(args);
    let said = format!("{args:?}: {:?} after {:?}\n{}\n{}", ended.code, ended.took, head(&ended.out), head(&ended.err));
    assert!(ended.code.is_some_and(|c| codes.contains(&c)), "{said}");
    println!("{:>6.2?} {}", ended.took, args.join(" "));
    ended
}

fn head(text: &str) -> String {
    text.chars().take(1500).collect()
}

struct Folder(tempfile::TempDir);

impl Folder {
    fn new() -> Self {
        Folder(tempfile::tempdir().expect("a folder"))
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn put(&self, name: &str, text: &str) -> String {
        let path = self.path(name);
        file::write_text(&path, text).expect("written");
        path.display().to_string()
    }
}

fn demo(change: impl FnOnce(String) -> String) -> String {
    change(springwright::shop::presets::PRESETS[0].text.to_owned())
}

/// The demo with one field of its front axle, or of the job, typed otherwise.
fn demo_with(path: &str, text: &str) -> String {
    use springwright::job::Walk as _;
    let mut job = springwright::shop::presets::demo();
    let unit = springwright::base::units::table::UNITS.first().expect("a unit");
    let mark = job.decimal;
    job.at_mut(path).expect(path).type_text(text, unit, mark);
    file::text(&job).expect("a job")
}

#[test]
fn the_file_description_prints_every_bound() {
    let doc = include_str!("../../assets/job-format.md");
    for line in bounds::markdown().lines() {
        assert!(doc.contains(line), "assets/job-format.md lacks this line of `springwright-cli fields`:\n{line}");
    }
}

/// Length in space and time: what once asked for terabytes is refused with field, value and range.
#[test]
fn no_run_is_longer_than_its_bound() {
    let folder = Folder::new();
    for speed in ["1e-9 km/h", "0.8 km/h", "1e9 m/s"] {
        let ended = ends(&["road", "demo-orchard-van", "--speed", speed], &[1]);
        assert!(
            ended.out.contains(&format!("\"{speed}\" is outside the range possible on a vehicle: ")),
            "{}",
            head(&ended.out)
        );
    }
    for (path, text) in [
        ("chassis.speed", "1e-7 km/h"),
        ("front.travel.metal", "1e9 m"),
        ("front.travel.droop", "1e9 m"),
        ("front.travel.metal", "3 m"),
        ("vehicle.wheelbase", "1e9 m"),
        ("vehicle.wheelbase", "31 m"),
        ("chassis.hump_length", "1e9 m"),
        ("chassis.hump_height", "9 m"),
        ("road.hole", "9 m"),
    ] {
        let job = folder.put("long.ron", &demo_with(path, text));
        ends(&["road", &job], &[0, 1]);
        let checked = ends(&["check", &job], &[1]);
        let label = fields::full_label(path).to_string();
        let line = checked.out.lines().find(|l| l.contains(&label) && l.contains(text)).map(str::to_owned);
        let line = line.unwrap_or_else(|| panic!("{path}: {}", checked.out));
        let says = ["Enter the measured value", "Check the value and its unit"];
        assert!(line.starts_with("error: ") && says.iter().any(|s| line.contains(s)), "{line}");
    }
    // At the bounds themselves it runs: the slowest speed, the longest wheelbase and travel.
    let mut job = springwright::shop::presets::demo();
    job.chassis.speed = "0.25 m/s".into();
    job.vehicle.wheelbase = "30 m".into();
    (job.front.travel.metal, job.front.travel.droop) = ("2 m".into(), "2 m".into());
    job.chassis.hump_length = "30 m".into();
    let job = folder.put("slow.ron", &file::text(&job).expect("a job"));
    ends(&["road", &job], &[0, 1]);
}

/// A job in which every list and every text is as long as it may be.
fn full() -> Job {
    let mut job = springwright::shop::presets::demo();
    let most = |list: &str| bounds::rows(list).expect(list).count();
    let (part, load) = (job.parts.first().cloned().unwrap_or_default(), job.cases[0].loads[0].clone());
    let part = springwright::job::Part { mass: "1 kg".into(), x: "500 mm".into(), what: "a part".into(), ..part };
    job.parts = vec![part; most("parts")];
    let light = springwright::job::Load { mass: "2 kg".into(), ..load };
    job.cases[0].loads = vec![light.clone(); most("cases.loads")];
    job.cases = vec![job.cases[0].clone(); most("cases")];
    for weighing in [&mut job.before, &mut job.after] {
        let (lf, rf, lr, rr) = (weighing.lf.clone(), weighing.rf.clone(), weighing.lr.clone(), weighing.rr.clone());
        weighing.repeats = vec![springwright::job::Again { lf, rf, lr, rr }; most("weighing.repeats")];
        weighing.loads = vec![light.clone(); most("weighing.loads")];
    }
    for (i, axle) in [&mut job.front, &mut job.rear].into_iter().enumerate() {
        let step = |n: usize, of: usize| n as f64 / of as f64;
        let rows = most("ratio.rows");
        axle.ratio.by = springwright::job::RatioBy::Rows;
        axle.damper_ratio.by = springwright::job::RatioBy::Rows;
        let row = |n: usize, ratio: f64, at: f64| {
            let z = 140.0 * step(n, rows - 1) - 70.0;
            springwright::job::RatioRow {
                wheel: format!("{z:.3} mm").as_str().into(),
                length: format!("{:.3} mm", at - ratio * z).as_str().into(),
            }
        };
        axle.ratio.rows = (0..rows).map(|n| row(n, 0.62 + 0.3 * i as f64, 250.0 + 15.0 * i as f64)).collect();
        axle.damper_ratio.rows = (0..rows).map(|n| row(n, 0.68, 330.0)).collect();
        let points = most("damper.rows");
        axle.damper.rows = (1..=points)
            .map(|n| springwright::job::CurveRow {
                speed: format!("{:.4} m/s", step(n, points)).as_str().into(),
                bump: format!("{:.2} N", 100.0 + 900.0 * step(n, points)).as_str().into(),
                rebound: format!("{:.2} N", 200.0 + 1800.0 * step(n, points)).as_str().into(),
            })
            .collect();
        axle.new_damper.rows = (0..most("new_damper.rows"))
            .map(|n| springwright::job::ClickRow {
                click: format!("{}", n / 20).as_str().into(),
                speed: format!("{:.3} m/s", 0.05 * (n % 20 + 1) as f64).as_str().into(),
                bump: format!("{} N", 100 + 10 * (n % 20) + n / 20).as_str().into(),
                rebound: format!("{} N", 200 + 20 * (n % 20) + n / 20).as_str().into(),
            })
            .collect();
        axle.stop.rows = (0..most("stop.rows"))
            .map(|n| springwright::job::SqueezeRow {
                squeeze: format!("{:.2} mm", 0.3 * n as f64).as_str().into(),
                load: format!("{} N", n * n).as_str().into(),
            })
            .collect();
    }
    for text in [&mut job.customer.name, &mut job.customer.contact, &mut job.vehicle.name, &mut job.vehicle.change] {
        *text = "Quill & Fernlea ".repeat(100).chars().take(bounds::NAME.count()).collect();
    }
    job.plans = vec![job.chosen_plan(); most("plans")];
    job.notes = "A note. ".repeat(10_000).chars().take(bounds::NOTES.count()).collect();
    job
}

#[test]
fn a_full_job_is_solved_chosen_driven_and_printed_in_time() {
    let job = full();
    assert!(bounded::findings(&job).is_empty(), "at its bounds nothing is beyond them");
    let text = file::text(&job).expect("a job");
    // Each plan may have a candidate damper with all its rows on either axle.
    assert!((text.len() as u64) < bounds::JOB_FILE.bytes() / 2, "{} bytes", text.len());
    let folder = Folder::new();
    let path = folder.put("full.ron", &text);
    ends(&["check", &path], &[0, 1]);
    ends(&["solve", &path, "--json"], &[0, 1]);
    ends(&["road", &path], &[0, 1]);
    // Draws take their number of times the work: a tenth of a bound is looked at in a tenth of the time.
    let list = concat!(env!("CARGO_MANIFEST_DIR"), "/presets/demo-parts.csv");
    let draws = if cfg!(debug_assertions) { "10000" } else { "1000000" };
    ends(&["choose", &path, "--list", list, "--draws", draws], &[0, 1]);
    for (kind, out) in
        [("customer", "c.pdf"), ("working", "w.pdf"), ("full", "f.pdf"), ("order", "o.png"), ("fitting", "f.md")]
    {
        let out = folder.path(out).display().to_string();
        ends(&["sheet", &path, "--kind", kind, "--out", &out], &[0, 1]);
    }
}

/// Rows and texts beyond a bound: said with name, number and bound, kept in the file, and not used.
#[test]
fn rows_and_texts_beyond_their_bounds_are_said_and_not_used() {
    let folder = Folder::new();
    let mut job = springwright::shop::presets::demo();
    job.cases = vec![job.cases[0].clone(); 2_000];
    job.front.damper.rows = vec![job.front.damper.rows[0].clone(); 3_000];
    job.customer.name = "x".repeat(100_000);
    let text = file::text(&job).expect("a job");
    let path = folder.put("long.ron", &text);
    let checked = ends(&["check", &path], &[1]);
    for wanted in [
        "error: Load cases: 2000; at most 12 are used.",
        "error: Front, points of a damper curve: 3000; at most 100 are used.",
        "error: customer.name: 100000 characters; at most 300 are possible.",
    ] {
        assert!(checked.out.contains(wanted), "{wanted}\n{}", head(&checked.out));
    }
    assert!(checked.out.len() < 20_000, "{} bytes are said", checked.out.len());
    ends(&["solve", &path, "--json"], &[1]);
    let out = folder.path("page.pdf").display().to_string();
    ends(&["sheet", &path, "--kind", "customer", "--out", &out], &[1]);
    assert_eq!(file::read(Path::new(&path)).expect("a job"), job, "the file keeps all of it");
    // What is used is what is inside the bounds.
    let used = bounded::used(&job).into_owned();
    assert_eq!(solve(&job).cases.len(), solve(&used).cases.len());
    // As many blank rows as a file can hold.
    let most = bounds::JOB_FILE.count();
    let blank = format!("(version: 1, job: (cases: [{}]))", "(),".repeat((most - 100) / 3));
    let path = folder.put("blank.ron", &blank);
    assert!(ends(&["check", &path], &[1]).out.contains("Load cases: 666"), "said");
}

#[test]
fn every_list_is_bounded_and_one_row_more_is_said() {
    use springwright::job::Walk as _;
    for (list, bound) in LISTS {
        let path = match list.strip_prefix("weighing.") {
            Some(of) => format!("after.{of}"),
            None if ["parts", "cases", "plans", "overrules"].contains(&list) => list.to_owned(),
            None if list == "cases.loads" => "cases[0].loads".to_owned(),
            None => format!("rear.{list}"),
        };
        let mut job = Job { cases: vec![Default::default()], ..Job::default() };
        let count = |job: &mut Job| job.rows_mut(&path).expect("a list").count();
        while count(&mut job) < bound.count() {
            job.rows_mut(&path).expect("a list").add();
        }
        let said = |job: &Job| solve(job).findings.iter().filter(|f| f.rule == "too-many-rows").count();
        assert_eq!(said(&job), 0, "{path}");
        job.rows_mut(&path).expect("a list").add();
        assert_eq!(said(&job), 1, "{path}");
    }
}

/// A parts list of as many rows and bytes as it may have.
#[test]
fn a_parts_list_at_its_bound_is_read_and_chosen_from_in_time() {
    let folder = Folder::new();
    // A slow build is given a tenth of the rows: work and memory grow with them, and the rest is what a release does.
    let rows = bounds::LIST_ROWS.count() / if cfg!(debug_assertions) { 4 } else { 1 };
    let mut text = String::from("Number,Description,Rate (N/mm),Free length (mm),Solid length (mm),Price,Stock\n");
    for i in 0..rows {
        let rate = 15.0 + (i % 1000) as f64 / 10.0;
        writeln!(text, "S-{i:06},\"Coil, {} turns, a description of some length for every row of this long list\",{rate},{},{},{},{}", i % 12, 300 + i % 150, 150 + i % 60, 20 + i % 70, i % 9).expect("text");
    }
    assert!((text.len() as u64) < bounds::LIST_FILE.bytes());
    let list = folder.put("long.csv", &text);
    ends(&["list", &list], &[0]);
    ends(&["choose", "demo-orchard-van", "--list", &list, "--draws", "1000"], &[0, 1]);
    // One row more than a bound, in as few bytes as it takes.
    let many = format!("rate (N/mm)\n{}", "9\n".repeat(bounds::LIST_ROWS.count() + 1));
    let columns = parts::guess(many.as_bytes()).expect("columns");
    assert_eq!(parts::read(many.as_bytes(), &columns), Err(ListError::TooManyRows { most: 200_000 }));
    let many = folder.put("many.csv", &many);
    let refused = ends(&["list", &many], &[3]);
    assert!(refused.err.contains("more than 200000 rows"), "{}", refused.err);
}

/// A recording of as many rows as it may have, and one that has more; a line without end; a device.
#[test]
fn a_recording_at_its_bound_is_analysed_in_time() {
    let folder = Folder::new();
    // A slow build is given a tenth of the rows: work and memory grow with them.
    let rows = bounds::RECORD_ROWS.count() / if cfg!(debug_assertions) { 10 } else { 1 };
    let mut text = String::from("time (s),ax (m/s2),ay (m/s2),az (m/s2)\n");
    for i in 0..rows {
        let (t, sway) = (i as f64 / 500.0, ((i * 7919) % 1000) as f64 / 500.0 - 1.0);
        writeln!(text, "{t:.3},{:.4},{:.4},{:.4}", 0.3 * sway, -0.2 * sway, 9.8 + sway).expect("text");
    }
    assert!((text.len() as u64) < bounds::RECORD_FILE.bytes());
    ends(&["record", &folder.put("long.csv", &text)], &[0, 1]);
    let many = folder.put("many.csv", &format!("time,az\n{}", "1,9\n".repeat(bounds::RECORD_ROWS.count() + 1)));
    let refused = ends(&["record", &many], &[3]);
    assert!(refused.err.contains("more than 3700000 rows"), "{}", head(&refused.err));
    let wide = folder.put("wide.csv", &"1,".repeat(20_000_000));
    ends(&["record", &wide], &[3]);
    let named = folder.put("named.csv", &format!("{}\n1,2\n2,3\n", "x,".repeat(1_000_000)));
    assert!(ends(&["record", &named], &[3]).err.len() < 5_000);
    for path in ["/dev/zero", "/"] {
        assert!(ends(&["record", path], &[3]).err.contains("not a file"), "{path}");
    }
}

/// Columns, cells and quotation marks that are never closed.
#[test]
fn hostile_tables_are_refused_or_their_rows_are_listed() {
    let folder = Folder::new();
    let columns = "a,".repeat(1_000_000);
    let refused = ends(&["list", &folder.put("wide.csv", &columns)], &[3]);
    assert!(refused.err.contains("1000001 columns") && refused.err.contains("at most 1000"), "{}", refused.err);
    let header = format!("rate (N/mm),\"{}\n", "x".repeat(3_000_000));
    ends(&["list", &folder.put("header.csv", &header)], &[3]);
    let named = format!("rate (N/mm),{}\n12,x\n", "x".repeat(3_000_000));
    let refused = ends(&["list", &folder.put("named.csv", &named)], &[3]);
    assert!(refused.err.contains("3000000 characters; at most 1000"), "{}", refused.err);
    let cell = format!("rate (N/mm),what\n12,{}\n13,fine\n", "x".repeat(3_000_000));
    let listed = ends(&["list", &folder.put("cell.csv", &cell)], &[1]);
    assert!(listed.out.contains("a cell has 3000000 characters; at most 1000"), "{}", head(&listed.out));
    assert!(listed.out.contains("1 springs") && listed.out.len() < 10_000, "{}", head(&listed.out));
    // Every row opens a quotation mark and none closes it.
    let open = format!("rate (N/mm),what\n{}", "12,\"x\n".repeat(100_000));
    ends(&["list", &folder.put("open.csv", &open)], &[1]);
    let curve = format!("speed (m/s),bump (N),rebound (N)\n{}", "0.1,100,200\n".repeat(3_000));
    let refused = ends(&["curve", &folder.put("curve.csv", &curve)], &[3]);
    assert!(refused.err.contains("more than 2000 rows"), "{}", refused.err);
    let large = "x".repeat(bounds::CURVE_FILE.count() + 1);
    let refused = ends(&["curve", &folder.put("large.csv", &large)], &[3]);
    assert!(refused.err.contains("larger than the maximum of 200000 bytes"), "{}", refused.err);
}

/// Devices, pipes, sockets and folders in place of every file that is read: refused in words before they are opened.
#[cfg(unix)]
#[test]
fn only_files_are_read() {
    const STREAM: &str = "a device or a pipe";
    let folder = Folder::new();
    let fifo = folder.path("fifo");
    let made = Command::new("mkfifo").arg(&fifo).status().is_ok_and(|s| s.success());
    let socket = folder.path("socket");
    let _listens = std::os::unix::net::UnixListener::bind(&socket).expect("a socket");
    let mut odd = vec![("/dev/zero".to_owned(), STREAM), (socket.display().to_string(), STREAM)];
    odd.push((folder.0.path().display().to_string(), "a folder"));
    if made {
        odd.push((fifo.display().to_string(), STREAM));
    }
    let out = folder.path("x.pdf").display().to_string();
    for (path, kind) in &odd {
        for args in [
            vec!["choose", "demo-orchard-van", "--list", path],
            vec!["curve", path],
            vec!["sheet", "demo-orchard-van", "--logo", path, "--out", &out],
            vec!["solve", path],
            vec!["check", path],
        ] {
            let refused = ends(&args, &[3]);
            assert!(refused.err.contains(&format!("this is {kind}, not a file")), "{args:?}: {}", refused.err);
        }
    }
    for (path, _) in odd.iter().filter(|(_, kind)| *kind != "a folder") {
        assert!(ends(&["list", path], &[3]).err.contains("not a file"), "{path}");
    }
    // What the columns of a list mean lies beside it: not a file either.
    let list = folder.put("list.csv", "rate (N/mm)\n52\n");
    std::os::unix::fs::symlink("/dev/zero", folder.path("list.csv.columns.ron")).expect("a link");
    let refused = ends(&["list", &list], &[3]);
    assert!(refused.err.contains("this is a device or a pipe, not a file"), "{}", refused.err);
    assert!(matches!(lists::open_file(Path::new(&list), "list"), Err(ShopError::Read { .. })));
}

fn svg(inside: &str) -> String {
    format!(
        "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' width='300' height='200'>{inside}</svg>"
    )
}

/// SVGs that ask for work without end, run something or reach out of the file: refused by the element's name.
#[test]
fn a_logo_is_refused_by_the_name_of_what_it_may_not_hold() {
    let folder = Folder::new();
    for (element, inside) in [
        (
            "filter",
            "<filter id='f'><feTurbulence numOctaves='100000000'/></filter><rect width='300' height='200' filter='url(#f)'/>",
        ),
        ("script", "<script>alert(1)</script>"),
        ("foreignObject", "<foreignObject width='9' height='9'/>"),
        ("image", "<image href='data:image/png;base64,AAAA' width='9' height='9'/>"),
        ("image", "<image href='/etc/hostname' width='9' height='9'/>"),
        ("pattern", "<pattern id='p' width='0.01' height='0.01'/>"),
        ("marker", "<marker id='m'/>"),
        ("use", "<use xlink:href='http://example.org/x.svg#a'/>"),
        ("linearGradient", "<linearGradient id='a' href='other.svg#b'/>"),
    ] {
        let text = svg(inside);
        match Logo::read(text.as_bytes()) {
            Err(LogoError::Element { element: found, .. }) => assert_eq!(found, element),
            other => panic!("{element}: {other:?}"),
        }
        let out = folder.path("x.pdf").display().to_string();
        let path = folder.put("logo.svg", &text);
        let refused = ends(&["sheet", "demo-orchard-van", "--logo", &path, "--out", &out], &[3]);
        assert!(refused.err.contains(&format!("<{element}>")), "{}", refused.err);
    }
    // A link to click on, a gradient of its own, a doctype and entities of namespaces are what drawing programs write.
    let usual = "<!DOCTYPE svg [<!ENTITY ns 'http://example.org/'>]>".to_owned()
        + &svg(
            "<defs><linearGradient id='g'><stop offset='0' stop-color='#c33'/></linearGradient><g id='b'><rect width='9' height='9' fill='url(#g)'/></g></defs><a href='http://example.org'><use href='#b'/><text x='10' y='60'>Quill</text></a>",
        );
    Logo::read(usual.as_bytes()).expect("a usual logo");
}

/// SVGs of which nothing is forbidden, but far too much.
#[test]
fn a_logo_with_too_much_to_draw_is_refused_in_time() {
    let ring = |count: usize| {
        let mut d = String::from("M0 0");
        for i in 0..count {
            let (x, y) = (150.0 + 140.0 * (i as f64 * 2.399).cos(), 100.0 + 90.0 * (i as f64 * 2.399).sin());
            write!(d, "L{x:.2} {y:.2}").expect("text");
        }
        svg(&format!("<path d='{d}' stroke='#000' fill='#c33'/>"))
    };
    let nest = |count: usize| svg(&("<g>".repeat(count) + "<rect width='9' height='9'/>" + &"</g>".repeat(count)));
    let uses = (1..40).fold("<g id='g0'><rect width='9' height='9'/></g>".to_owned(), |all, n| {
        format!("{all}<g id='g{n}'><use href='#g{m}'/><use href='#g{m}'/></g>", m = n - 1)
    });
    let seen_through = "<g opacity='0.5'><rect width='300' height='200'/></g>".repeat(2_000);
    let dashes = "<path d='M0 0H300V200H0Z' stroke='#000' fill='none' stroke-dasharray='0.001 0.001'/>".repeat(50);
    let entities = format!(
        "<!DOCTYPE svg [<!ENTITY a '{}'>]>{}",
        "x".repeat(100_000),
        svg(&format!("<text>{}</text>", "&a;".repeat(100_000)))
    );
    let itself = "<g id='a'><use href='#a'/></g>";
    for (what, text) in [
        ("segments", ring(200_000)),
        ("levels", nest(5_000)),
        ("elements", svg(&"<rect width='9' height='9'/>".repeat(6_000))),
        ("levels", svg(itself)),
        ("levels or elements", svg(&format!("<defs>{uses}</defs><use href='#g39'/>"))),
        ("groups", svg(&seen_through)),
        ("segments", svg(&dashes)),
        ("entities", entities),
        ("style", svg(&format!("<style>{}</style>", "rect { fill: #c33 } ".repeat(20_000)))),
    ] {
        let began = Instant::now();
        let refused = Logo::read(text.as_bytes()).expect_err(what);
        assert!(!matches!(refused, LogoError::Neither | LogoError::Slow), "{what}: {refused}");
        println!("{what}: {refused} ({:.1?})", began.elapsed());
    }
    // At the bound of segments it is drawn, or given up in time: never longer than the deadline and what was begun.
    let began = Instant::now();
    let drawn = Logo::read(ring(bounds::LOGO_SEGMENTS.count() - 5).as_bytes());
    println!(
        "{} segments: {:?} ({:.1?})",
        bounds::LOGO_SEGMENTS.count(),
        drawn.as_ref().map(|_| "drawn"),
        began.elapsed()
    );
    assert!(matches!(drawn, Ok(_) | Err(LogoError::Slow)) && began.elapsed() < Duration::from_secs(30), "{drawn:?}");
}

/// Options of the command line outside their range are a wrong usage, with the range.
#[test]
fn options_outside_their_range_are_refused() {
    for (args, wanted) in [
        (["choose", "demo-orchard-van", "--draws", "10"], "from 1,000 to 1,000,000"),
        (["choose", "demo-orchard-van", "--draws", "1000001"], "from 1,000 to 1,000,000"),
        (["choose", "demo-orchard-van", "--seed", "18446744073709551615"], "from 0 to 1,000,000,000,000"),
        (["road", "demo-orchard-van", "--seed", "-1"], ""),
    ] {
        let refused = ends(&args, &[2]);
        assert!(refused.err.contains(wanted), "{args:?}: {}", refused.err);
    }
}

/// A number with too many characters, earlier readings without end: said, with the bound.
#[test]
fn long_texts_in_place_of_numbers_are_said() {
    let folder = Folder::new();
    let long = demo(|text| text.replace("\"412 kg\"", &format!("\"{}\"", "4".repeat(100_000))));
    let checked = ends(&["check", &folder.put("long.ron", &long)], &[1]);
    assert!(checked.out.contains("100000 characters are too many for a number; at most 64"), "{}", head(&checked.out));
    let earlier = "(text: \"1 kg\", origin: Quoted),".repeat(1_000);
    let many = demo(|text| text.replace("\"412 kg\", origin: Measured", &format!("\"412 kg\", earlier: [{earlier}]")));
    let refused = ends(&["check", &folder.put("many.ron", &many)], &[3]);
    assert!(refused.err.contains("at most 16 earlier readings"), "{}", refused.err);
}

/// Damping and masses that make the motion too stiff to follow end in words, not in hours.
#[test]
fn a_motion_too_stiff_to_follow_ends_in_time() {
    let folder = Folder::new();
    let mut job = springwright::shop::presets::demo();
    (job.front.unsprung, job.rear.unsprung) = ("2 g".into(), "2 g".into());
    job.front.tyre_rate = "900000 N/mm".into();
    let path = folder.put("stiff.ron", &file::text(&job).expect("a job"));
    let ended = ends(&["road", &path], &[0, 1]);
    assert!(ended.out.contains("the motion cannot be calculated") || ended.code == Some(0), "{}", head(&ended.out));
}
