//! Anybody at the keyboard: thousands of random clicks, keys, texts, pastes, wheels and sizes of the window. Nothing
//! panics, and nothing on screen says NaN or inf.
//!
//! 3,000 events from one seed; `MONKEY_EVENTS` and `MONKEY_SEED` say otherwise (20,000 by hand: tests/README.md). No dialog of the
//! system opens, and what is saved goes to a folder that is thrown away.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::driven;

use std::time::Instant;

use eframe::egui::{self, Event, Key, Modifiers, MouseWheelUnit, PointerButton, Pos2, Shape, TouchPhase, pos2, vec2};
use egui_kittest::Harness;
use rand_distr::{Distribution as _, Uniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;
use springwright::choose::draws::Draws;
use springwright::gui::App;
use springwright::job::file;
use springwright::shop::lists::Shop;
use springwright::shop::presets;

const KEYS: [Key; 20] = [
    Key::Tab,
    Key::Tab,
    Key::Tab,
    Key::Enter,
    Key::Enter,
    Key::Escape,
    Key::Space,
    Key::Backspace,
    Key::Delete,
    Key::ArrowUp,
    Key::ArrowDown,
    Key::ArrowLeft,
    Key::ArrowRight,
    Key::Home,
    Key::End,
    Key::PageDown,
    Key::PageUp,
    Key::A,
    Key::F1,
    Key::X,
];
const SHORTCUTS: [Key; 21] = [
    Key::S,
    Key::N,
    Key::O,
    Key::P,
    Key::Z,
    Key::Z,
    Key::Y,
    Key::E,
    Key::F,
    Key::R,
    Key::J,
    Key::A,
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
    Key::X,
];
const TEXTS: [&str; 28] = [
    "0",
    "-1",
    "1e30",
    "1e-30",
    "52 N/mm",
    "420 lb/in",
    "11-1/4\"",
    "1,155",
    "100 %",
    "0 kg",
    "999999999 kg",
    "-40 mm",
    "½ in",
    "±",
    "kg",
    "abc",
    " ",
    "2",
    "0.0001",
    "62.1",
    "100",
    "3 Hz",
    "1/0",
    "90°",
    "5 bar",
    "Ω\u{0301}",
    "\u{202e}x",
    "🙂",
];
const PASTES: [&str; 6] = [
    "RR 328\nLF 463\nLR 337 kg\nRF 445\nTotal 1573",
    "0\t250 mm\n10\t243\n20\t236 mm\n",
    "engine;-120 kg;300 mm;0\nengine;180;310\n",
    "0 0\n0 0",
    "\n\n\n",
    "1e300\n-1e300\n1\n2",
];

struct Monkey {
    rng: Xoshiro256PlusPlus,
    size: egui::Vec2,
    time_s: f64,
}

impl Monkey {
    fn below(&mut self, end: usize) -> usize {
        Uniform::new(0, end.max(1)).expect("a range").sample(&mut self.rng)
    }

    fn one_of<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())]
    }

    fn place(&mut self) -> Pos2 {
        let (x, y) = (self.below(self.size.x as usize), self.below(self.size.y as usize));
        pos2(x as f32, y as f32)
    }

    fn act(&mut self, window: &mut Harness<'_, App>) {
        match self.below(100) {
            0..45 => self.click(window),
            45..62 => {
                let key = self.one_of(&KEYS);
                let shift = if self.below(5) == 0 { Modifiers::SHIFT } else { Modifiers::NONE };
                window.key_press_modifiers(shift, key);
            }
            62..70 => {
                let key = self.one_of(&SHORTCUTS);
                window.key_press_modifiers(Modifiers::COMMAND, key);
            }
            70..88 => {
                let text = self.one_of(&TEXTS);
                window.event(Event::Text(text.into()));
            }
            88..92 => {
                let text = self.one_of(&PASTES);
                window.event(Event::Paste(text.into()));
            }
            92..97 => {
                let (at, by) = (self.place(), self.below(1200) as f32 - 600.0);
                window.event(Event::PointerMoved(at));
                window.event(Event::MouseWheel {
                    unit: MouseWheelUnit::Point,
                    delta: vec2(0.0, by),
                    source: egui::MouseWheelSource::Wheel,
                    phase: TouchPhase::Move,
                    modifiers: Modifiers::NONE,
                });
            }
            97 => window.ctx.set_theme(if self.below(2) == 0 { egui::Theme::Dark } else { egui::Theme::Light }),
            98 => {
                self.size = vec2(640.0 + self.below(1300) as f32, 480.0 + self.below(900) as f32);
                window.set_size(self.size);
            }
            _ => self.time_s += 3.0,
        }
    }

    /// Presses and lets go, sometimes elsewhere.
    fn click(&mut self, window: &mut Harness<'_, App>) {
        let (at, to) = (self.place(), self.place());
        let end = if self.below(8) == 0 { to } else { at };
        let button = if self.below(12) == 0 { PointerButton::Secondary } else { PointerButton::Primary };
        window.event(Event::PointerMoved(at));
        for (pos, pressed) in [(at, true), (end, false)] {
            window.event(Event::PointerButton { pos, button, pressed, modifiers: Modifiers::NONE });
        }
    }
}

/// All words on screen.
fn words(shape: &Shape, found: &mut Vec<String>) {
    match shape {
        Shape::Text(text) => found.push(text.galley.text().to_owned()),
        Shape::Vec(shapes) => shapes.iter().for_each(|s| words(s, found)),
        _ => {}
    }
}

fn says_nonsense(text: &str) -> bool {
    text.split(|c: char| !c.is_alphanumeric()).any(|word| matches!(word, "NaN" | "nan" | "inf" | "Inf" | "infinity"))
}

fn env_or(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).ok().and_then(|v| v.parse().ok()).unwrap_or(otherwise)
}

#[test]
fn anything_can_be_done_to_the_window() {
    let (events, seed) = (env_or("MONKEY_EVENTS", 3_000), env_or("MONKEY_SEED", 1));
    let folder = tempfile::tempdir().expect("a folder");
    // Paths that are offered begin in the folder the program was started in.
    std::env::set_current_dir(folder.path()).expect("goes there");
    for preset in &presets::PRESETS[..4] {
        file::write_text(&folder.path().join(format!("{}.ron", preset.name)), preset.text).expect("writes");
    }
    let draws = Draws { count: 1_000, ..Draws::default() };
    let mut app = App::on(presets::demo()).choosing_from(Shop::at(folder.path().join("lists")), draws);
    app.keep_in(Some(&folder.path().join("kept")));
    let mut window = driven::window(app, 800.0);
    // As in the real window: a letter that no font has is a box.
    window.ctx.set_missing_glyph_policy(egui::MissingGlyphPolicy::Tofu);
    let mut monkey = Monkey { rng: Xoshiro256PlusPlus::seed_from_u64(seed), size: vec2(1280.0, 800.0), time_s: 1.0 };
    let (started, mut slowest) = (Instant::now(), std::time::Duration::ZERO);
    let mut steps = std::collections::BTreeSet::new();
    for event in 1..=events {
        monkey.act(&mut window);
        monkey.time_s += 0.05;
        window.input_mut().time = Some(monkey.time_s);
        let began = Instant::now();
        window.step();
        slowest = slowest.max(began.elapsed());
        steps.insert(format!("{:?}", window.state().view().step));
        let mut found = Vec::new();
        window.output().shapes.iter().for_each(|s| words(&s.shape, &mut found));
        if let Some(text) = found.iter().find(|t| says_nonsense(t)) {
            panic!("seed {seed}, event {event}: on screen stands {text:?}");
        }
        // A monkey would soon have emptied every field.
        if event % 500 == 0 {
            let preset = monkey.below(presets::PRESETS.len());
            window.state_mut().command(springwright::gui::state::command::Command::OpenPreset(preset));
        }
    }
    println!("{events} events, seed {seed}, {:.1?}, the slowest frame {slowest:.0?}", started.elapsed());
    assert_eq!(steps.len(), springwright::gui::Step::ALL.len(), "it was everywhere: {steps:?}");
    assert!(says_nonsense("x NaN mm") && says_nonsense("-inf") && !says_nonsense("information"));
}
