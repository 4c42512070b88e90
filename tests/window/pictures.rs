//! Words in pictures stand clear of lines, marks and each other: looked at in the shapes that are drawn.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::collections::BTreeSet;

use crate::common::driven;

use driven::run;
use eframe::egui::accesskit::Role;
use eframe::egui::epaint::{ClippedShape, PathShape, Shape};
use eframe::egui::{Pos2, Rect};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use springwright::base::language::{Language, Voice, speak};
use springwright::gui::state::command::{Command, RoadCommand};
use springwright::gui::{App, Step};
use springwright::job::Side;
use springwright::report::pictures::label_places::Block;
use springwright::shop::presets;
use springwright::solve::answer::State;

/// Thinner lines are grids and frames.
const THIN: f32 = 1.4;
/// Larger shapes are areas, not marks.
const MARK: f32 = 26.0;

/// What is drawn: words, lines, and small shapes.
#[derive(Default)]
pub struct Seen {
    pub words: Vec<(String, Rect)>,
    lines: Vec<[Pos2; 2]>,
    pub marks: Vec<Rect>,
}

impl Seen {
    pub fn of(harness: &Harness<'_, App>) -> Seen {
        let mut seen = Seen::default();
        for ClippedShape { clip_rect, shape, .. } in &harness.output().shapes {
            seen.add(shape, *clip_rect);
        }
        seen
    }

    fn add(&mut self, shape: &Shape, clip: Rect) {
        let is_seen = |rect: Rect| rect.intersects(clip);
        match shape {
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| self.add(shape, clip)),
            Shape::Text(text) => {
                let rect = text.galley.rect.translate(text.pos.to_vec2());
                if is_seen(rect) && !text.galley.text().trim().is_empty() {
                    self.words.push((text.galley.text().to_owned(), rect));
                }
            }
            Shape::LineSegment { points, stroke } if stroke.width > THIN => self.lines.push(*points),
            Shape::Circle(circle) if circle.radius < MARK => {
                self.marks.push(Rect::from_center_size(circle.center, eframe::egui::Vec2::splat(2.0 * circle.radius)));
            }
            Shape::Path(path) => self.path(path),
            _ => {}
        }
    }

    fn path(&mut self, path: &PathShape) {
        let bounds = Rect::from_points(&path.points);
        if path.closed && bounds.width() < MARK && bounds.height() < MARK {
            self.marks.push(bounds);
        } else if path.stroke.width > THIN {
            self.lines.extend(path.points.windows(2).map(|ends| [ends[0], ends[1]]));
        }
    }

    /// Words in this picture that touch something.
    pub fn touching(&self, picture: Rect) -> Vec<String> {
        let block = |rect: Rect| Block { min: [rect.left(), rect.top()], max: [rect.right(), rect.bottom()] };
        let ours: Vec<_> = self.words.iter().filter(|(_, rect)| picture.contains(rect.center())).collect();
        let mut found = Vec::new();
        for (i, (words, rect)) in ours.iter().enumerate() {
            // Half a point is what a letter's edge blurs by.
            let inner = block(rect.shrink(0.5));
            if self.lines.iter().any(|ends| inner.is_crossed_by(ends.map(|at| [at.x, at.y]))) {
                found.push(format!("\"{words}\" is crossed by a line"));
            }
            if self.marks.iter().any(|mark| picture.contains(mark.center()) && mark.intersects(rect.shrink(1.0))) {
                found.push(format!("\"{words}\" touches a mark"));
            }
            for (other, at) in &ours[i + 1..] {
                if at.shrink(0.5).intersects(rect.shrink(0.5)) {
                    found.push(format!("\"{words}\" and \"{other}\" overlap"));
                }
            }
        }
        found
    }
}

/// The pictures on screen, by what they are called.
pub fn pictures(harness: &Harness<'_, App>) -> Vec<(String, Rect)> {
    let image = |n: &egui_kittest::Node<'_>| {
        let access = n.accesskit_node();
        let at = access.bounding_box().filter(|_| access.role() == Role::Image)?;
        let rect = Rect::from_min_max(Pos2::new(at.x0 as f32, at.y0 as f32), Pos2::new(at.x1 as f32, at.y1 as f32));
        Some((access.label().unwrap_or_default(), rect))
    };
    harness.root().children_recursive().filter_map(|n| image(&n)).collect()
}

/// The side view that moves is there when the runs are: a body goes up and down in it.
#[test]
fn words_of_the_moving_side_view_touch_nothing() {
    let names = ["demo-orchard-van", "first-answer", "lighter-engine", "points-strut"];
    for (language, name) in Language::ALL.into_iter().flat_map(|language| names.map(|name| (language, name))) {
        let job = presets::find(name).expect("a shipped job").job_in(language);
        let _voice = speak(Voice { language, mark: language.mark() });
        for width in [1280.0, 800.0] {
            let mut harness = driven::sized(App::on(job.clone()).speaking(language), [width, 6000.0]);
            run(&mut harness, Command::Step(Step::Road));
            driven::until_run(&mut harness);
            for moment in [0.0, 0.25, 0.5, 1.0] {
                run(&mut harness, Command::Road(RoadCommand::At(moment)));
                let seen = Seen::of(&harness);
                assert!(seen.words.iter().any(|(words, _)| *words == *State::NewSprings.words()), "{name}");
                let found: Vec<String> =
                    pictures(&harness).into_iter().flat_map(|(_, rect)| seen.touching(rect)).collect();
                assert!(found.is_empty(), "{name}, {language:?}, {width}, {moment} s: {found:?}");
            }
        }
    }
}

#[test]
fn words_in_pictures_touch_nothing() {
    let (mut off, mut looked_at) = (BTreeSet::new(), 0);
    for language in Language::ALL {
        for preset in presets::PRESETS {
            let mut harness = driven::sized(App::on(preset.job_in(language)).speaking(language), [1280.0, 6000.0]);
            for step in [Step::Weigh, Step::Measure, Step::Springs, Step::Dampers, Step::Vehicle, Step::Road] {
                for side in Side::BOTH {
                    run(&mut harness, Command::Axle(side));
                    run(&mut harness, Command::Step(step));
                    let seen = Seen::of(&harness);
                    for (name, rect) in pictures(&harness) {
                        looked_at += 1;
                        let found = seen.touching(rect);
                        off.extend(
                            found.into_iter().map(|f| format!("{} {language:?} {step:?}, {name}: {f}", preset.name)),
                        );
                    }
                }
            }
        }
    }
    assert!(looked_at > 500, "only {looked_at} pictures");
    assert!(off.is_empty(), "{} of {looked_at}: {off:#?}", off.len());
}
