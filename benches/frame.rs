//! A whole frame's own work at 1280 × 800 on the demo job: input, layout, pictures, tessellation.
//! Rasterising is not in it. Aim: at most 4 ms at every step.
#![allow(clippy::expect_used, reason = "a benchmark says why it stops")]

use criterion::{Criterion, criterion_group, criterion_main};
use eframe::egui::{self, Event, RawInput, pos2, vec2};
use springwright::choose::draws::Draws;
use springwright::gui::choosing::{Filter, Progress};
use springwright::gui::command::{Command, ListCommand};
use springwright::gui::{App, Step, theme};
use springwright::job::Job;
use springwright::job::file::write_text;
use springwright::presets;
use springwright::shop::Shop;

/// Draws one frame and tessellates it; gives back how many meshes that made.
fn frame(ctx: &egui::Context, app: &mut App, time: f64) -> usize {
    frame_of(ctx, app, time, Vec::new(), 800.0)
}

/// The same in a window of that height, with what happened since the last one.
fn frame_of(ctx: &egui::Context, app: &mut App, time: f64, events: Vec<Event>, height: f32) -> usize {
    let input = RawInput {
        screen_rect: Some(egui::Rect::from_min_size(pos2(0.0, 0.0), vec2(1280.0, height))),
        time: Some(time),
        events,
        ..RawInput::default()
    };
    let output = ctx.run_ui(input, |ui| app.frame(ui));
    ctx.tessellate(output.shapes, output.pixels_per_point).len()
}

fn frames(c: &mut Criterion) {
    for step in Step::ALL {
        let ctx = egui::Context::default();
        theme::install(&ctx);
        let mut app = App::on(presets::demo());
        app.command(Command::Step(step));
        let mut time = 0.0;
        for _ in 0..5 {
            frame(&ctx, &mut app, time);
            time += 0.1;
        }
        // What is worked out beside the window is no frame's own work.
        while step == Step::Choose && app.choosing().progress() != Progress::Current {
            time += 0.1;
            frame(&ctx, &mut app, time);
            std::thread::sleep(std::time::Duration::from_millis(5));
        }
        c.bench_function(&format!("frame: {}", step.word()), |b| {
            b.iter(|| {
                time += 0.01;
                frame(&ctx, &mut app, time)
            });
        });
    }
    typing(c);
    long_list(c);
}

/// The step Choose with the whole list of 100,000 springs unfolded: at rest, scrolling, and one frame in which the filter
/// changed.
fn long_list(c: &mut Criterion) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut text = String::from("number;description;spring rate (N/mm);free length (mm);price;pieces in stock\n");
    for i in 0..100_000_usize {
        let (rate, length) = (45.0 + (i * 7919 % 1009) as f64 * 0.03, 330 + i * 104_729 % 61);
        text += &format!("L-{i:06};front coil, run {};{rate:.2};{length};{};{}\n", i % 100, 30 + i % 17, i % 5);
    }
    write_text(&folder.path().join("long.csv"), &text).expect("writes");
    let ctx = egui::Context::default();
    theme::install(&ctx);
    let job = Job { list: "long.csv".into(), ..presets::demo() };
    let shop = Shop::at(folder.path().to_owned());
    let mut app = App::on(job).choosing_from(shop, Draws { count: 1_000, seed: 1 });
    app.command(Command::Step(Step::Choose));
    let mut time = 0.0;
    while app.choosing().progress() != Progress::Current {
        time += 0.1;
        frame(&ctx, &mut app, time);
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    // The list is below the pictures: only at this height it is on screen, and all of them are drawn, too.
    let mut frame = |app: &mut App, events: Vec<Event>| {
        time += 0.01;
        frame_of(&ctx, app, time, events, 3000.0)
    };
    app.command(Command::List(ListCommand::Whole(true)));
    for _ in 0..5 {
        frame(&mut app, Vec::new());
    }
    c.bench_function("frame: 100,000 rows at rest", |b| b.iter(|| frame(&mut app, Vec::new())));
    let turn = |at: egui::Pos2| {
        let wheel = Event::MouseWheel {
            unit: egui::MouseWheelUnit::Point,
            delta: vec2(0.0, -400.0),
            phase: egui::TouchPhase::Move,
            source: egui::MouseWheelSource::Unknown,
            modifiers: egui::Modifiers::NONE,
        };
        vec![Event::PointerMoved(at), wheel]
    };
    // Where the list is: where turning the wheel moves it.
    let over_list = (1..60).map(|i| pos2(900.0, 3000.0 - 50.0 * i as f32)).find(|at| {
        for _ in 0..4 {
            frame(&mut app, turn(*at));
        }
        app.view().rows_laid_out.start > 0
    });
    let over_list = over_list.expect("the list is on screen");
    c.bench_function("frame: 100,000 rows scrolling", |b| b.iter(|| frame(&mut app, turn(over_list))));
    let mut n = 0_usize;
    c.bench_function("frame: 100,000 rows filtered anew", |b| {
        b.iter(|| {
            n += 1;
            let filter = Filter { words: ["run 7", "coil 42"][n % 2].into(), ..Filter::default() };
            app.command(Command::List(ListCommand::Rows(filter)));
            frame(&mut app, Vec::new())
        });
    });
}

/// A frame in which a digit was typed: solving and all pictures anew are in it.
fn typing(c: &mut Criterion) {
    let ctx = egui::Context::default();
    theme::install(&ctx);
    let jobs = [("45 N/mm", presets::demo()), ("46 N/mm", presets::demo())].map(|(rate, mut job)| {
        job.front.spring.rate = rate.into();
        job
    });
    let mut app = App::on(jobs[0].clone());
    app.command(Command::Step(Step::Springs));
    let mut n = 0_usize;
    c.bench_function("frame after a change: Springs", |b| {
        b.iter(|| {
            n += 1;
            *app.job_mut() = jobs[n % 2].clone();
            frame(&ctx, &mut app, n as f64 * 0.01)
        });
    });
}

criterion_group!(benches, frames);
criterion_main!(benches);
