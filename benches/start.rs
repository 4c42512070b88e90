//! From the start of the program to its first frame on screen, and the memory that takes, beside a bare window of the
//! same library in the same run; frames drawn while nobody does anything; the size of the program.
//!
//! Both programs are opened in turn, each time with a home of their own that nothing was ever written to, and then once
//! more with what the first start left there. A second frame is asked for at once: when it begins, the first one is on
//! screen. Without a display one is made by `Xvfb`; when that is not there, only the size is told.
#![allow(clippy::expect_used, reason = "a benchmark says why it stops")]

#[path = "common/timing.rs"]
#[allow(dead_code, reason = "what others need")]
mod timing;

use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use eframe::egui::{Ui, ViewportBuilder};
use springwright::gui::say_frames;
use timing::{Against, Measured, Table};

const OURS: &str = env!("CARGO_BIN_EXE_springwright");
/// The argument with which this program itself is the bare window.
const BARE: &str = "--bare-window";
const ROUNDS: usize = 15;
/// After the first frame, before memory is looked at.
const SETTLES: Duration = Duration::from_millis(500);
const PATIENCE: Duration = Duration::from_secs(30);

struct Bare;

impl eframe::App for Bare {
    fn ui(&mut self, ui: &mut Ui, _: &mut eframe::Frame) {
        ui.label("bare");
    }
}

fn bare() {
    let viewport = ViewportBuilder::default().with_inner_size([1280.0, 800.0]);
    let options = eframe::NativeOptions { viewport, ..Default::default() };
    let open = |cc: &eframe::CreationContext<'_>| {
        say_frames(&cc.egui_ctx);
        Ok(Box::new(Bare) as Box<dyn eframe::App>)
    };
    eframe::run_native("bare", options, Box::new(open)).expect("a window");
}

/// An X server of our own, ended with us.
struct Display {
    name: String,
    server: Option<Child>,
}

impl Display {
    fn open() -> Option<Display> {
        if let Some(name) = std::env::var("DISPLAY").ok().filter(|name| !name.is_empty()) {
            return Some(Display { name, server: None });
        }
        // It chooses a number that is free and says which.
        let mut xvfb = Command::new("Xvfb");
        xvfb.args(["-noreset", "-displayfd", "1", "-screen", "0", "1600x1200x24"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null());
        let mut server = xvfb.spawn().ok()?;
        let mut number = String::new();
        BufReader::new(server.stdout.take()?).read_line(&mut number).ok()?;
        Some(Display { name: format!(":{}", number.trim()), server: Some(server) })
    }
}

impl Drop for Display {
    fn drop(&mut self) {
        if let Some(server) = &mut self.server {
            let _ = server.kill().and_then(|()| server.wait());
        }
    }
}

/// An open window, closed with this.
struct Window {
    program: Child,
    frames: Receiver<Instant>,
    started: Instant,
}

impl Window {
    fn open(program: &Path, argument: &str, home: &Path, display: &Display) -> Window {
        let mut command = Command::new(program);
        for home_of in ["HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_RUNTIME_DIR"] {
            command.env(home_of, home);
        }
        command.env("DISPLAY", &display.name).env_remove("WAYLAND_DISPLAY").current_dir(home);
        command.arg(argument).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::null());
        let started = Instant::now();
        let mut program = command.spawn().expect("the program starts");
        let frames = arrivals(program.stdout.take().expect("its output"));
        Window { program, frames, started }
    }

    /// Milliseconds until the first frame was on screen.
    fn first_frame_ms(&self) -> f64 {
        let next = || self.frames.recv_timeout(PATIENCE).expect("a window draws frames");
        next();
        next().duration_since(self.started).as_secs_f64() * 1e3
    }

    /// The most memory it ever held, in MB.
    fn peak_mb(&self) -> f64 {
        std::thread::sleep(SETTLES);
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.program.id())).unwrap_or_default();
        let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"));
        let kb = line.and_then(|l| l.trim_end_matches("kB").trim().parse::<f64>().ok());
        kb.map_or(f64::NAN, |kb| kb * 1024.0 / 1e6)
    }

    /// Frames in five seconds, from two seconds after the last one that had a reason.
    fn idle_frames(&self) -> f64 {
        let quiet = || self.frames.recv_timeout(Duration::from_secs(2)) == Err(RecvTimeoutError::Timeout);
        if !(0..100).any(|_| quiet()) {
            return f64::INFINITY;
        }
        std::thread::sleep(Duration::from_secs(5));
        self.frames.try_iter().count() as f64
    }
}

impl Drop for Window {
    fn drop(&mut self) {
        let _ = self.program.kill().and_then(|()| self.program.wait());
    }
}

/// When each line arrived.
fn arrivals(output: ChildStdout) -> Receiver<Instant> {
    let (said, heard) = channel();
    std::thread::spawn(move || {
        let lines = BufReader::new(output).lines().map_while(Result::ok);
        lines.filter(|l| l.starts_with("frame ")).try_for_each(|_| said.send(Instant::now()))
    });
    heard
}

fn main() {
    if std::env::args().any(|a| a == BARE) {
        return bare();
    }
    let mut table = Table::of("start");
    match Display::open() {
        Some(display) => windows(&mut table, &display),
        None => println!("no display, and no Xvfb to make one: no window was opened"),
    }
    let size = std::fs::metadata(OURS).expect("our program").len() as f64 / 1e6;
    table.row("size of the window program", &Measured::new(vec![size], "MB"), Against::Limit(40.0));
    table.end();
}

fn windows(table: &mut Table, display: &Display) {
    let me = std::env::current_exe().expect("this program");
    let programs = [(me.as_path(), BARE), (Path::new(OURS), "--say-frames")];
    // First start and second, of the bare window and of ours: time, and memory.
    let mut found: [[[Vec<f64>; 2]; 2]; 2] = Default::default();
    for _ in 0..ROUNDS {
        for ((program, argument), found) in programs.iter().zip(&mut found) {
            let home = tempfile::tempdir().expect("a folder");
            for found in found {
                let window = Window::open(program, argument, home.path(), display);
                found[0].push(window.first_frame_ms());
                found[1].push(window.peak_mb());
            }
        }
    }
    let [bare, ours] = found.map(|p| p.map(|[ms, mb]| [Measured::new(ms, "ms"), Measured::new(mb, "MB")]));
    for (bare, (ours, which)) in bare.iter().zip(ours.iter().zip(["first", "second"])) {
        table.row(&format!("first frame, {which} start"), &ours[0], Against::Other("bare window", &bare[0], 1.3));
        table.row(&format!("memory, {which} start"), &ours[1], Against::Other("bare window", &bare[1], 1.3));
    }
    let home = tempfile::tempdir().expect("a folder");
    let idle = Window::open(programs[1].0, programs[1].1, home.path(), display).idle_frames();
    table.row("frames in 5 s while nothing happens", &Measured::new(vec![idle], "frames"), Against::Limit(0.0));
}
