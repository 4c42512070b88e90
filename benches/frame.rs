//! A whole frame's own work at 1280 × 800: input, layout, pictures, tessellation. Rasterising is not in it.
//! Aim: at most 4 ms in 95 of 100 frames, on every screen.
#![allow(clippy::expect_used, reason = "a benchmark says why it stops")]

#[path = "common/jobs.rs"]
mod jobs;
#[path = "common/timing.rs"]
#[allow(dead_code, reason = "what others need")]
mod timing;

use std::time::{Duration, Instant};

use eframe::egui::{self, Event, Key, Modifiers, RawInput, pos2, vec2};
use springwright::choose::draws::Draws;
use springwright::gui::background::choosing::{Filter, Progress};
use springwright::gui::background::riding;
use springwright::gui::state::command::{Command, CustomerCommand, FileCommand, ListCommand, RoadCommand};
use springwright::gui::widgets::theme;
use springwright::gui::{App, Step};
use springwright::job::Job;
use springwright::job::file::write_text;
use springwright::shop::lists::Shop;
use springwright::shop::presets;
use timing::{Against, Measured, Table};

const FRAMES: usize = 400;
const LIMIT_MS: f64 = 4.0;
const HEIGHT: f32 = 800.0;
/// So many of the shipped jobs, those with the longest files, are also changed at the step Springs.
const LARGEST: usize = 5;

/// A window without a screen.
struct Window {
    ctx: egui::Context,
    app: App,
    time_s: f64,
}

impl Window {
    fn on(app: App, step: Step) -> Window {
        let ctx = egui::Context::default();
        theme::install(&ctx);
        let mut window = Window { ctx, app, time_s: 0.0 };
        window.app.command(Command::Step(step));
        for _ in 0..20 {
            window.frame(Vec::new());
        }
        // What is worked out in the background is no frame's own work.
        window.until(|app| step != Step::Choose || app.choosing().progress() == Progress::Current);
        window.until(|app| step != Step::Road || app.riding().progress() == riding::Progress::Current);
        window.until(|app| step != Step::Sheet || app.pages().is_current());
        window
    }

    /// Frames until something in the background is done.
    fn until(&mut self, done: impl Fn(&App) -> bool) {
        while !done(&self.app) {
            self.time_s += 0.1;
            self.frame(Vec::new());
            std::thread::sleep(Duration::from_millis(5));
        }
    }

    /// Draws one frame after these events and tessellates it; gives back how long that took, in ms.
    fn frame(&mut self, events: Vec<Event>) -> f64 {
        self.time_s += 0.01;
        let input = RawInput {
            screen_rect: Some(egui::Rect::from_min_size(pos2(0.0, 0.0), vec2(1280.0, HEIGHT))),
            time: Some(self.time_s),
            events,
            ..RawInput::default()
        };
        let start = Instant::now();
        let output = self.ctx.run_ui(input, |ui| self.app.frame(ui));
        std::hint::black_box(self.ctx.tessellate(output.shapes, output.pixels_per_point));
        start.elapsed().as_secs_f64() * 1e3
    }

    /// Many frames, each after `before` was done and these events came.
    fn measure(&mut self, table: &mut Table, what: &str, mut before: impl FnMut(&mut App, usize) -> Vec<Event>) {
        if !table.wants(what) {
            return;
        }
        let frames = (0..FRAMES).map(|n| {
            let events = before(&mut self.app, n);
            self.frame(events)
        });
        table.row(what, &Measured::new(frames.collect(), "ms"), Against::Limit(LIMIT_MS));
    }
}

fn main() {
    let mut table = Table::of("frame");
    for step in Step::ALL {
        Window::on(App::on(presets::demo()), step).measure(&mut table, step.words().said(), |_, _| Vec::new());
    }
    let mut playing = Window::on(App::on(presets::demo()), Step::Road);
    playing.app.command(Command::Road(RoadCommand::Play(true)));
    playing.measure(&mut table, "Road, while the picture moves", |_, _| Vec::new());
    let mut customer = Window::on(App::on(presets::demo()), Step::Road);
    customer.app.command(Command::Customer(CustomerCommand::Show));
    customer.measure(&mut table, "The customer's view", |_, _| Vec::new());
    customer.app.command(Command::Customer(CustomerCommand::Drive));
    customer.measure(&mut table, "The customer's view, while it drives", |_, _| Vec::new());
    for step in Step::ALL {
        typing(&mut table, &format!("{}, solved and drawn anew", step.words()), &presets::demo(), step);
    }
    let mut largest: Vec<_> = presets::PRESETS.iter().collect();
    largest.sort_by_key(|p| std::cmp::Reverse(p.text.len()));
    for preset in largest.iter().take(LARGEST) {
        typing(&mut table, &format!("{}, solved and drawn anew", preset.name), &preset.job(), Step::Springs);
    }
    for (step, path) in
        [(Step::Weigh, "after.lf"), (Step::Measure, "front.spring.rate"), (Step::Vehicle, "front.rating")]
    {
        digits(&mut table, step, path);
    }
    if table.wants_some("springs") {
        long_list(&mut table);
    }
    if table.wants_some("jobs") {
        many_jobs(&mut table);
    }
    table.end();
}

/// Frames in each of which a number was typed: values and all pictures again are in them, every ± comes in the background
/// as in the window.
fn typing(table: &mut Table, what: &str, job: &Job, step: Step) {
    if !table.wants(what) {
        return;
    }
    let jobs = [0, 1].map(|n| {
        let mut job = job.clone();
        // A weight moves nearly all there is; without corner weights it is what is wanted that is typed.
        match &mut job.after.lf {
            lf if lf.text.is_empty() => job.front.target.low = format!("1.2{n} Hz").as_str().into(),
            lf => lf.text = format!("46{n} kg"),
        }
        job
    });
    let mut window = Window::on(App::on(jobs[0].clone()).solving_beside(), step);
    window.measure(table, what, |app, n| {
        app.job_mut().clone_from(&jobs[(n + 1) % 2]);
        Vec::new()
    });
}

/// A digit typed in every second frame, which is solved then and drawn in the next one.
fn digits(table: &mut Table, step: Step, path: &str) {
    let what = format!("{}, a digit of {path} in every second frame", step.words());
    if !table.wants(&what) {
        return;
    }
    let mut window = Window::on(App::on(presets::demo()).solving_beside(), step);
    window.app.command(Command::GoTo(path.into()));
    for _ in 0..5 {
        window.frame(Vec::new());
    }
    window.frame(vec![key(Key::Home), key(Key::ArrowRight)]);
    let solves = window.app.solves();
    window.measure(table, &what, |_, n| {
        let typed = || vec![key(Key::Delete), Event::Text(["5", "6"][n / 2 % 2].into()), key(Key::ArrowLeft)];
        if n % 2 == 0 { typed() } else { Vec::new() }
    });
    assert!(window.app.solves() >= solves + FRAMES as u64 / 2 - 1, "typed into nothing");
}

fn key(key: Key) -> Event {
    Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers: Modifiers::NONE }
}

/// The step Choose with the whole list of 100,000 springs unfolded: at rest, scrolling, searched.
fn long_list(table: &mut Table) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut text = String::from("number;description;spring rate (N/mm);free length (mm);price;pieces in stock\n");
    for i in 0..100_000_usize {
        let (rate, length) = (45.0 + (i * 7919 % 1009) as f64 * 0.03, 330 + i * 104_729 % 61);
        text += &format!("L-{i:06};front coil, run {};{rate:.2};{length};{};{}\n", i % 100, 30 + i % 17, i % 5);
    }
    write_text(&folder.path().join("long.csv"), &text).expect("writes");
    let job = Job { list: "long.csv".into(), ..presets::demo() };
    let shop = Shop::at(folder.path().to_owned());
    let app = App::on(job).choosing_from(shop, Draws { count: 1_000, seed: 1 });
    let mut window = Window::on(app, Step::Choose);
    window.app.command(Command::List(ListCommand::Whole(true)));
    // The list is below the pictures: the wheel is turned until it is on screen and scrolls itself.
    let turn = || {
        let wheel = Event::MouseWheel {
            unit: egui::MouseWheelUnit::Point,
            delta: vec2(0.0, -400.0),
            phase: egui::TouchPhase::Move,
            source: egui::MouseWheelSource::Unknown,
            modifiers: Modifiers::NONE,
        };
        vec![Event::PointerMoved(pos2(900.0, 500.0)), wheel]
    };
    for _ in 0..1_000 {
        window.frame(turn());
        if window.app.view().rows_laid_out.start > 0 {
            break;
        }
    }
    assert!(window.app.view().rows_laid_out.start > 0, "the list is on screen");
    window.measure(table, "100,000 springs at rest", |_, _| Vec::new());
    window.measure(table, "100,000 springs scrolling", |_, _| turn());
    // Typed letter by letter and taken away again; then other words in every frame.
    let typed = "run 7 coil l-09";
    search(table, &mut window, "letter by letter", |n| {
        typed[..(n % (2 * typed.len())).abs_diff(typed.len())].to_owned()
    });
    let words = ["run 7", "coil 42", "q", "c", "l-0421"];
    search(table, &mut window, "for other words", |n| words[n % words.len()].to_owned());
}

fn search(table: &mut Table, window: &mut Window, how: &str, words: impl Fn(usize) -> String) {
    window.measure(table, &format!("100,000 springs searched {how}"), |app, n| {
        let filter = Filter { words: words(n), ..Filter::default() };
        app.command(Command::List(ListCommand::Rows(filter)));
        Vec::new()
    });
}

/// The list of 5,000 jobs: at rest, and searched letter by letter.
fn many_jobs(table: &mut Table) {
    let folder = tempfile::tempdir().expect("a folder");
    jobs::write(folder.path());
    let mut window = Window::on(App::on(presets::demo()), Step::Weigh);
    window.app.command(Command::File(FileCommand::Jobs(Some(folder.path().to_owned()))));
    window.until(|app| app.view().jobs.as_ref().is_some_and(|j| j.records().is_some()));
    for _ in 0..5 {
        window.frame(Vec::new());
    }
    window.measure(table, &format!("{} jobs at rest", jobs::COUNT), |_, _| Vec::new());
    // The cursor is where one searches.
    window.frame(vec![Event::Text("c".into())]);
    assert!(window.app.view().jobs.as_ref().is_some_and(|j| j.words == "c"), "typed into nothing");
    // It is searched in the frame in which the letter comes.
    let letters = ["u", "s", "t", "o", "m", "e", "r", " ", "4", "7"];
    window.measure(table, &format!("{} jobs searched anew", jobs::COUNT), |_, n| {
        let back = n % (2 * letters.len()) >= letters.len();
        vec![if back { key(Key::Backspace) } else { Event::Text(letters[n % letters.len()].into()) }]
    });
}
