//! The corners from above and the body from behind: their numbers are the results, their words touch nothing, and a
//! mirrored vehicle has the mirrored picture.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, MetadataProvider as _};
use springwright::base::language::{DecimalMark, Language, Voice, speak};
use springwright::base::units::Quantity;
use springwright::job::{Job, Side};
use springwright::report::pictures::corners::Aim;
use springwright::report::pictures::corners::from_above::{FromAbove, from_above};
use springwright::report::pictures::corners::from_behind::{FromBehind, from_behind};
use springwright::report::pictures::drawing::{Anchor, Drawing, Shape};
use springwright::report::pictures::label_places::Block;
use springwright::report::results::Results;
use springwright::report::sheets::Kind;
use springwright::report::write::page::{BOLD, REGULAR};
use springwright::report::{self, Report};
use springwright::shop::presets;
use springwright::solve::answer::{Answer, State};
use springwright::solve::solve;

use crate::common::kept;
use crate::common::kept::of_folder;

const CORNERS: [&str; 4] = ["lf", "rf", "lr", "rr"];
/// How far words reach over and under their base line, per height of the type.
const UNDER: f32 = 0.22;
const OVER: f32 = 0.75;

fn pictures(job: &Job, answer: &Answer) -> Result<(Results, FromAbove, FromBehind), String> {
    let results = Results::of(answer);
    let above = from_above(answer, &results, &job.units, Aim::AsFitted)?;
    let behind = from_behind(answer, &results, &job.units)?;
    Ok((results, above, behind))
}

/// Of a job that is not as it ships.
fn of_job(job: &Job) -> Result<(FromAbove, FromBehind), String> {
    pictures(job, &solve(job)).map(|(_, above, behind)| (above, behind))
}

#[test]
fn the_numbers_from_above_are_the_results() {
    let mut seen = 0;
    for kept in kept::shipped() {
        let (name, job) = (&kept.name, &kept.job);
        let Ok((results, above, _)) = pictures(job, kept.answer()) else { continue };
        let drawn = above.drawing(170.0, true);
        let words = drawn.flat();
        seen += 1;
        for (corner, readings) in CORNERS.iter().zip(&above.corners) {
            assert!(!readings.is_empty(), "{name}: nothing at {corner}");
            for at in readings {
                let state = match at.state {
                    State::Before => "before",
                    State::OldSprings => "after",
                    State::NewSprings => "new",
                };
                let all = std::iter::once(("weight", &at.weight));
                let what = if above.by_arch { "arch" } else { "rise" };
                for (what, reading) in all.chain(at.height.iter().map(|height| (what, height))) {
                    let key = format!("whole.corners.{state}.{corner}.{what}");
                    let figure = results.find(&key).expect("a result");
                    assert_eq!(reading.key, key, "{name}");
                    assert_eq!(Some(reading.si), figure.si, "{name}: {key}");
                    assert_eq!(reading.said, figure.said(&job.units), "{name}: {key}");
                    // As the picture has it.
                    let is_said = |s: &&Shape| matches!(s, Shape::Words { text, .. } if *text == reading.said);
                    assert!(words.iter().any(is_said), "{name}: {key} is not drawn");
                }
            }
        }
    }
    assert!(seen > 5, "only {seen} jobs with corners");
}

#[test]
fn the_lean_from_behind_is_the_result() {
    let mut leaning = 0;
    for kept in kept::shipped() {
        let (name, answer) = (&kept.name, kept.answer());
        let Ok((_, _, behind)) = pictures(&kept.job, answer) else { continue };
        for s in &behind.states {
            let stand = answer.whole.corners.of(s.state).expect("known");
            for side in Side::BOTH {
                let lower = stand.lean.si().sin() * behind.track_m[side];
                assert!((s.across[side].right_lower_m - lower).abs() < 1e-12, "{name} {:?} {side:?}", s.state);
                // What is drawn is what is said: nothing where it is level, else to its own side.
                let said = &s.said[side];
                leaning += usize::from(s.drawn_m[side] != 0.0);
                match s.drawn_m[side] {
                    0.0 => assert!(said.starts_with("body level"), "{name}: {said}"),
                    m if m > 0.0 => assert!(said.ends_with("on the right") && lower > 0.0, "{name}: {said}"),
                    _ => assert!(said.ends_with("on the left") && lower < 0.0, "{name}: {said}"),
                }
            }
        }
    }
    assert!(leaning > 3, "only {leaning} bodies lean");
}

/// Left and right changed places, in everything that knows them.
fn mirrored(job: &Job) -> Job {
    let mut job = job.clone();
    for weighing in [&mut job.before, &mut job.after] {
        std::mem::swap(&mut weighing.lf, &mut weighing.rf);
        std::mem::swap(&mut weighing.lr, &mut weighing.rr);
        std::mem::swap(&mut weighing.arch.lf, &mut weighing.arch.rf);
        std::mem::swap(&mut weighing.arch.lr, &mut weighing.arch.rr);
        std::mem::swap(&mut weighing.pads.lf, &mut weighing.pads.rf);
        std::mem::swap(&mut weighing.pads.lr, &mut weighing.pads.rr);
        for again in &mut weighing.repeats {
            std::mem::swap(&mut again.lf, &mut again.rf);
            std::mem::swap(&mut again.lr, &mut again.rr);
        }
    }
    for side in Side::BOTH {
        let axle = job.axle_mut(side);
        std::mem::swap(&mut axle.left, &mut axle.right);
    }
    job
}

#[test]
fn a_mirrored_vehicle_has_the_mirrored_picture() {
    let mut seen = 0;
    for kept in kept::shipped() {
        let (name, job) = (&kept.name, &kept.job);
        // What the ledger puts to one side would have to change sides, too.
        if !job.parts.is_empty() {
            continue;
        }
        let Ok((_, above, behind)) = pictures(job, kept.answer()) else { continue };
        let (above_there, behind_there) = of_job(&mirrored(job)).expect("known there, too");
        seen += 1;
        for (here, there) in [0, 1, 2, 3].into_iter().zip([1, 0, 3, 2]) {
            for (a, b) in above.corners[here].iter().zip(&above_there.corners[there]) {
                assert!((a.weight.si - b.weight.si).abs() < 1e-6, "{name}: {a:?} {b:?}");
                let heights = a.height.as_ref().zip(b.height.as_ref());
                assert!(heights.is_none_or(|(a, b)| (a.si - b.si).abs() < 1e-9), "{name}: {a:?} {b:?}");
            }
        }
        let mut across: Vec<usize> = above.heaviest.iter().map(|i| i ^ 1).collect();
        across.sort_unstable();
        assert_eq!(above_there.heaviest, across, "{name}");
        for (a, b) in behind.states.iter().zip(&behind_there.states) {
            for side in Side::BOTH {
                assert!((a.drawn_m[side] + b.drawn_m[side]).abs() < 1e-9, "{name} {:?}", a.state);
            }
        }
        // Not only the numbers: the bodies that are drawn are each other's mirror image.
        let bodies = |drawing: &Drawing| -> Vec<Vec<[f32; 2]>> {
            let area = |s: &&Shape| match s {
                Shape::Area { corners, .. } if corners.len() == 6 => Some(corners.clone()),
                _ => None,
            };
            drawing.flat().iter().filter_map(area).collect()
        };
        let [here, there] = [&behind, &behind_there].map(|picture| bodies(&picture.drawing(170.0, false)));
        assert_eq!((here.len(), there.len()), (2 * behind.states.len(), here.len()), "{name}");
        for (a, b) in here.iter().zip(&there) {
            let middle = 0.5 * (a[0][0] + a[5][0]);
            for (i, at) in a.iter().enumerate() {
                let [x, y] = b[5 - i];
                assert!((2.0 * middle - x - at[0]).abs() < 1e-3 && (y - at[1]).abs() < 1e-3, "{name}: {a:?} {b:?}");
            }
        }
    }
    assert!(seen > 2, "only {seen} jobs without parts");
}

/// How wide words are in the type of sheets.
fn width(text: &str, size_mm: f32, bold: bool) -> f32 {
    let font = FontRef::new(if bold { BOLD } else { REGULAR }).expect("a font");
    let (letters, metrics) = (font.charmap(), font.glyph_metrics(Size::new(size_mm), LocationRef::default()));
    text.chars().map(|c| letters.map(c).and_then(|glyph| metrics.advance_width(glyph)).expect("a letter")).sum()
}

/// A straight piece of a line, from here to there.
type Piece = [[f32; 2]; 2];

/// Words with their place, and all lines and edges.
fn laid_out(drawing: &Drawing) -> (Vec<(String, Block)>, Vec<Piece>) {
    let (mut words, mut lines) = (Vec::new(), Vec::new());
    let mut edges = |through: &[[f32; 2]]| lines.extend(through.windows(2).map(|ends| [ends[0], ends[1]]));
    for shape in drawing.flat() {
        match shape {
            Shape::Line { through, .. } => edges(through),
            Shape::Area { corners, .. } => {
                edges(&corners.iter().chain(corners.first()).copied().collect::<Vec<_>>());
            }
            Shape::Circle { centre, radius_mm, .. } => {
                let [x, y] = *centre;
                edges(&[[x - radius_mm, y - radius_mm], [x + radius_mm, y + radius_mm]]);
                edges(&[[x - radius_mm, y + radius_mm], [x + radius_mm, y - radius_mm]]);
            }
            Shape::Words { at, size_mm, anchor, bold, text } => {
                let wide = width(text, *size_mm, *bold);
                let left = match anchor {
                    Anchor::Start => at[0],
                    Anchor::Middle => at[0] - 0.5 * wide,
                    Anchor::End => at[0] - wide,
                };
                let (top, bottom) = (at[1] - OVER * size_mm, at[1] + UNDER * size_mm);
                words.push((text.clone(), Block { min: [left, top], max: [left + wide, bottom] }));
            }
            Shape::OfState(..) => panic!("no state within a state"),
        }
    }
    (words, lines)
}

/// What touches something, or leaves the picture.
fn off(drawing: &Drawing) -> Vec<String> {
    let (words, lines) = laid_out(drawing);
    let mut found = Vec::new();
    for (i, (text, at)) in words.iter().enumerate() {
        if at.min[0] < 0.0 || at.min[1] < 0.0 || at.max[0] > drawing.width_mm || at.max[1] > drawing.height_mm {
            found.push(format!("\"{text}\" leaves the picture"));
        }
        if lines.iter().any(|ends| at.is_crossed_by(*ends)) {
            found.push(format!("\"{text}\" is crossed"));
        }
        let overlaps = |b: &Block| (0..2).all(|i| at.min[i] < b.max[i] && b.min[i] < at.max[i]);
        found
            .extend(words[i + 1..].iter().filter(|(_, b)| overlaps(b)).map(|(b, _)| format!("\"{text}\" and \"{b}\"")));
    }
    found
}

#[test]
fn no_words_touch_anything_at_any_width_in_any_language() {
    let (mut seen, mut found) = (0, Vec::new());
    for (language, mark) in [(Language::English, DecimalMark::Point), (Language::German, DecimalMark::Comma)] {
        let _voice = speak(Voice { language, mark });
        for preset in presets::PRESETS {
            let Ok((above, behind)) = of_job(&preset.job_in(language)) else { continue };
            for wide in [178.0, 170.0, 150.0, 135.0, 120.0, 105.0, 95.0] {
                for drawing in [above.drawing(wide, true), behind.drawing(wide, true)] {
                    seen += 1;
                    found
                        .extend(off(&drawing).into_iter().map(|f| format!("{} {language:?} {wide}: {f}", preset.name)));
                }
            }
        }
    }
    assert!(seen > 100, "only {seen} pictures");
    assert!(found.is_empty(), "{} of {seen}: {found:#?}", found.len());
}

#[test]
fn without_corners_the_missing_fields_are_said() {
    let mut job = presets::demo();
    job.front.track = "".into();
    let why = of_job(&job).expect_err("no track");
    assert!(why.contains("not known") && why.to_lowercase().contains("track"), "{why}");
    for weighing in [&mut job.before, &mut job.after] {
        weighing.lf = "".into();
    }
    let why = of_job(&job).expect_err("no corners");
    assert!(why.to_lowercase().contains("left front"), "{why}");
}

#[test]
fn what_is_withheld_is_not_drawn() {
    let kept = of_folder("withheld/ratio-turned");
    assert!(kept.answer().released(Side::Front).is_err());
    if let Ok((_, above, behind)) = pictures(&kept.job, kept.answer()) {
        assert!(above.corners.iter().flatten().all(|at| at.state != State::NewSprings));
        assert!(behind.states.iter().all(|s| s.state != State::NewSprings));
    }
}

/// A lean within its ± is level, one that its ± leaves open is about that, and any other is said outright.
#[test]
fn a_title_says_no_more_than_the_uncertainty_allows() {
    let mut job = presets::find("open-two-seater").map_or_else(presets::demo, |preset| preset.job());
    let mut said = Vec::new();
    for more in ["0", "30", "120"] {
        let kg: f64 = more.parse().expect("a number");
        for (weighing, heavier) in [(&mut job.before, 0.0), (&mut job.after, kg)] {
            let base = 300.0;
            weighing.lf = format!("{} kg", base + 0.5 * heavier).as_str().into();
            weighing.rf = format!("{base} kg").as_str().into();
            weighing.lr = format!("{} kg", base + 0.5 * heavier).as_str().into();
            weighing.rr = format!("{base} kg").as_str().into();
        }
        let Ok((above, _)) = of_job(&job) else { panic!("corners are known") };
        said.push(above.title);
    }
    assert!(said[0].contains("the body is level") && said[0].contains("no corner clearly"), "{said:?}");
    assert!(said[2].contains("the left side is"), "{said:?}");
}

#[test]
fn the_fitting_sheet_has_the_corners_with_its_own_targets() {
    let drawn = |report: &Report| -> Vec<Drawing> {
        let drawing = |block: &report::Block| match block {
            report::Block::Drawing(drawing) => Some(drawing.clone()),
            _ => None,
        };
        report.blocks.iter().filter_map(drawing).collect()
    };
    let mut seen = 0;
    for kept in kept::shipped() {
        let name = &kept.name;
        let Some(picture) = drawn(kept.sheet(Kind::Fitting)).into_iter().find(|d| d.words.contains("Seen from above"))
        else {
            continue;
        };
        seen += 1;
        let said = Results::values_of(kept.answer());
        for corner in CORNERS {
            let key = format!("fitted.weight.{corner}.foretold");
            let target = said.find(&key).expect("a result").said(&kept.job.units);
            let is_said = |s: &&Shape| matches!(s, Shape::Words { text, .. } if *text == target);
            assert!(picture.flat().iter().any(is_said), "{name}: {key} {target} is not drawn");
        }
        assert!(off(&picture).is_empty(), "{name}: {:?}", off(&picture));
    }
    assert!(seen > 2, "only {seen} fitting sheets with corners");
}
