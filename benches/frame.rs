//! A whole frame's own work at 1280 × 800 on the demo job: input, layout, pictures, tessellation.
//! Rasterising is not in it. Aim: at most 4 ms at every step.

use criterion::{Criterion, criterion_group, criterion_main};
use eframe::egui::{self, RawInput, pos2, vec2};
use springwright::gui::command::Command;
use springwright::gui::{App, Step, theme};
use springwright::presets;

/// Draws one frame and tessellates it; gives back how many meshes that made.
fn frame(ctx: &egui::Context, app: &mut App, time: f64) -> usize {
    let input = RawInput {
        screen_rect: Some(egui::Rect::from_min_size(pos2(0.0, 0.0), vec2(1280.0, 800.0))),
        time: Some(time),
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
        c.bench_function(&format!("frame: {}", step.word()), |b| {
            b.iter(|| {
                time += 0.01;
                frame(&ctx, &mut app, time)
            });
        });
    }
    typing(c);
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
