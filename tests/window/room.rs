//! The window has room for the work: measured from where its parts were laid out.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::driven;

use driven::{press, run, type_text};
use eframe::egui::accesskit::Role;
use eframe::egui::{Id, Key, Rect, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use springwright::base::language::{Language, Voice, speak};
use springwright::gui::state::command::Command;
use springwright::gui::state::view::{Half, PasteInto};
use springwright::gui::widgets::field;
use springwright::gui::{App, Step};
use springwright::job::{Job, Level, Side, Walk as _, file};
use springwright::shop::presets;

/// Form and pictures, and what share of the window they take.
fn work_area(harness: &Harness<'_, App>, size: [f32; 2]) -> (f32, Rect, Rect) {
    let laid_out = harness.state().view().laid_out;
    let (form, pictures) = (laid_out.form.expect("a form"), laid_out.pictures.expect("pictures"));
    assert!(form.intersect(pictures).area() < 0.02 * form.area(), "{form:?} over {pictures:?}");
    let window = Rect::from_min_size(eframe::egui::Pos2::ZERO, vec2(size[0], size[1]));
    assert!(window.expand(0.5).contains_rect(form.union(pictures)), "{form:?} and {pictures:?} in {window:?}");
    ((form.area() + pictures.area()) / window.area(), form, pictures)
}

/// The measures of the design: at least 74 % of 1280×800, 72 % of 800×1100, whatever the job says. DERIVED: our own.
#[test]
fn form_and_pictures_have_most_of_the_window() {
    for (size, least) in [([1280.0, 800.0], 0.74), ([800.0, 1100.0], 0.72)] {
        let mut smallest = f32::INFINITY;
        for language in Language::ALL {
            for preset in presets::PRESETS {
                let mut harness = driven::sized(App::on(preset.job_in(language)).speaking(language), size);
                for step in Step::ALL {
                    run(&mut harness, Command::Step(step));
                    let (share, ..) = work_area(&harness, size);
                    smallest = smallest.min(share);
                    assert!(share >= least, "{} {step:?} {language:?} {size:?}: {share:.3}", preset.name);
                }
            }
        }
        println!("{size:?}: at least {:.1} %", 100.0 * smallest);
    }
}

/// Jobs that are stopped, withheld, empty, or half typed.
fn awkward() -> Vec<(String, Job)> {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/withheld");
    let mut files: Vec<_> = std::fs::read_dir(root).expect("withheld jobs").flatten().map(|f| f.path()).collect();
    files.retain(|f| f.extension().is_some_and(|e| e == "ron"));
    files.sort();
    assert!(files.len() > 3);
    let withheld = files.iter().step_by(4).map(|f| (f.display().to_string(), file::read(f).expect("a job")));
    let stopped = presets::find("overloaded-camper").expect("shipped").job();
    [("empty".to_owned(), Job::default()), ("stopped".to_owned(), stopped)].into_iter().chain(withheld).collect()
}

/// Nothing above the form moves, whatever the answer has to say; what is withheld stands in the place of the pick.
#[test]
fn the_answer_has_one_height_and_says_what_is_withheld() {
    let size = [1280.0, 800.0];
    let mut harness = driven::sized(App::on(presets::demo()), size);
    run(&mut harness, Command::Step(Step::Springs));
    let (_, form, _) = work_area(&harness, size);
    let answer = harness.state().view().laid_out.answer.expect("an answer");
    for (name, job) in awkward() {
        for language in Language::ALL {
            let mut harness = driven::sized(App::on(job.clone()).speaking(language), size);
            run(&mut harness, Command::Step(Step::Springs));
            let (_, here, _) = work_area(&harness, size);
            let line = harness.state().view().laid_out.answer.expect("an answer");
            assert_eq!((here.top(), line.y_range()), (form.top(), answer.y_range()), "{name} {language:?}");
            for side in Side::BOTH {
                let said = speak(Voice { language, mark: job.decimal });
                let sentence = springwright::report::sections::sentence::axle(
                    harness.state().answer(),
                    harness.state().answer().axle(side),
                    &job.units,
                );
                drop(said);
                assert!(harness.query_all_by_label(&sentence.answer).next().is_some(), "{name}: {}", sentence.answer);
            }
        }
    }
}

/// What the strip says is read without pointing at it, whatever the answer, the size and the language.
#[test]
fn nothing_in_the_answer_is_cut() {
    let kinds = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/withheld");
    let mut files: Vec<_> = std::fs::read_dir(kinds).expect("withheld jobs").flatten().map(|f| f.path()).collect();
    files.retain(|f| f.extension().is_some_and(|e| e == "ron"));
    let withheld = files.iter().map(|f| (f.display().to_string(), file::read(f).expect("a job")));
    let shipped = presets::PRESETS.iter().map(|p| (p.name.to_owned(), p.job()));
    let mut blank_rate = presets::demo();
    blank_rate.front.spring.rate = "".into();
    blank_rate.rear.ratio = Default::default();
    let open = [("empty".to_owned(), Job::default()), ("half".to_owned(), blank_rate)];
    let jobs: Vec<(String, Job)> = withheld.chain(shipped).chain(open).collect();
    let mut cut = Vec::new();
    for size in [[1280.0, 800.0], [800.0, 1100.0], [640.0, 400.0]] {
        for language in Language::ALL {
            for (name, job) in &jobs {
                let harness = driven::sized(App::on(job.clone()).speaking(language), size);
                let laid_out = harness.state().view().laid_out;
                // Where long German words leave it no room, and on a small screen, it is said when the line is pointed at.
                let must_be_sure = size[0] >= if language == Language::German { 1280.0 } else { 800.0 };
                if laid_out.is_answer_cut || must_be_sure && laid_out.is_certainty_hidden {
                    cut.push(format!("{size:?} {language:?} {name}"));
                }
            }
        }
    }
    assert!(cut.is_empty(), "{cut:#?}");
}

/// A hint is below the pictures and covers none of them: with it and without it the form is where it was.
#[test]
fn the_first_hint_covers_nothing() {
    for size in [[1280.0, 800.0], [800.0, 1100.0]] {
        let mut harness = driven::sized(App::on(presets::demo()), size);
        for step in Step::ALL {
            run(&mut harness, Command::Step(step));
            let (_, form, pictures) = work_area(&harness, size);
            let button = harness.get_by_role_and_label(Role::Button, "Hide hints").accesskit_node().bounding_box();
            let button = button.expect("a place");
            let at = eframe::egui::pos2(button.x0 as f32, button.y0 as f32);
            // Below the pictures; where those are above the form, below that.
            let is_above = pictures.bottom() <= form.top();
            let (with, without) = if is_above { (form, pictures) } else { (pictures, form) };
            assert!(with.contains(at) && !without.contains(at), "{step:?} {size:?}");
            let (seen, _) = harness.state().view().sections.pictured().expect("pictures");
            assert!(seen.bottom() <= at.y, "{step:?} {size:?}: {seen:?} behind the hint at {at:?}");
            assert_eq!(is_above, size[0] < 1000.0);
        }
        run(&mut harness, Command::HideHints);
        assert!(harness.query_by_label("Hide hints").is_none());
    }
}

/// Typing never pushes what stands above the form, nor the form itself.
#[test]
fn the_form_stays_where_it_is_while_one_types() {
    let size = [1280.0, 800.0];
    let mut harness = driven::sized(App::on(presets::demo()), size);
    run(&mut harness, Command::GoTo("after.lf".into()));
    let place =
        |h: &Harness<'_, App>| (work_area(h, size).1, h.ctx.read_response(field::id("after.lf")).expect("drawn").rect);
    let before = place(&harness);
    for text in ["4", "6", "3", "9", "9"] {
        type_text(&mut harness, text);
        assert_eq!(place(&harness), before, "after {text}");
    }
    // A notice, a question and the list of findings float.
    for command in [Command::Findings, Command::OpenFile("/nowhere/at/all.ron".into())] {
        run(&mut harness, command);
        assert_eq!(place(&harness), before);
    }
    assert!(harness.state().view().notice.is_some());
}

/// The pictures that belong to a field stand beside it at 1280×800, above it at 800×1100, for every field of the demo.
#[test]
fn the_pictures_of_the_field_with_the_cursor_are_in_view() {
    for (size, least) in [([1280.0, 800.0], 300.0), ([800.0, 1100.0], 200.0)] {
        pictures_in_view(size, least);
    }
}

fn pictures_in_view(size: [f32; 2], least: f32) {
    let mut harness = driven::sized(App::on(presets::demo()), size);
    let mut paths = Vec::new();
    presets::demo().walk(&mut String::new(), &mut |path, entry| {
        if !entry.text().trim().is_empty() && !path.starts_with("predicted") {
            paths.push(path.to_owned());
        }
    });
    let mut off = Vec::new();
    for path in &paths {
        run(&mut harness, Command::GoTo(path.clone()));
        for _ in 0..4 {
            harness.step();
        }
        let sections = &harness.state().view().sections;
        let Some((seen, whole)) = sections.pictured() else {
            off.push(format!("{path}: {:?} has no pictures", sections.now()));
            continue;
        };
        // So many points of them from above, or all.
        if seen.height() + 1.0 < whole.height().min(least) || whole.height() < 12.0 {
            off.push(format!("{path}: {seen:?} of {whole:?}"));
        }
    }
    assert!(paths.len() > 40, "{}", paths.len());
    assert!(off.is_empty(), "{size:?}: {off:#?}");
}

/// No step is a scroll without landmarks: a section of the form takes two screens at most.
#[test]
fn no_section_is_longer_than_two_screens() {
    let mut harness = driven::sized(App::on(presets::demo()), [1280.0, 800.0]);
    for step in Step::ALL {
        run(&mut harness, Command::Step(step));
        let names = harness.state().view().sections.names().to_vec();
        assert!(!names.is_empty(), "{step:?}");
        let height = work_area(&harness, [1280.0, 800.0]).1.height();
        for section in names {
            run(&mut harness, Command::Section(section));
            let sections = &harness.state().view().sections;
            assert_eq!(sections.now(), Some(section), "{step:?}");
            let long = sections.length_of(section).expect("laid out");
            assert!(long <= 2.0 * height, "{step:?} {section:?}: {long} of {height}");
            if let Some((_, pictures)) = sections.pictured().filter(|_| step == Step::Vehicle) {
                let long = pictures.height();
                assert!(long <= 2.0 * height, "pictures of {section:?}: {long} of {height}");
            }
        }
    }
}

/// The rail's sections are buttons that put the cursor into their first field.
#[test]
fn a_section_of_the_rail_leads_to_its_first_field() {
    let mut harness = driven::sized(App::on(presets::demo()), [1280.0, 800.0]);
    run(&mut harness, Command::Step(Step::Measure));
    harness.get_by_role_and_label(Role::Button, "Wheel travel").click();
    driven::settle(&mut harness);
    assert_eq!(harness.state().view().at.as_deref(), Some("front.travel.stop_gap"));
    run(&mut harness, Command::Step(Step::Vehicle));
    harness.get_by_role_and_label(Role::Button, "Roll").click();
    for _ in 0..6 {
        harness.step();
    }
    assert_eq!(harness.state().view().at.as_deref(), Some("chassis.cg_height"), "unfolded on the way");
}

/// A finding stands in the list once, and the list opens from its count.
#[test]
fn findings_open_from_their_count() {
    let job = presets::find("overloaded-camper").expect("shipped").job();
    let mut harness = driven::sized(App::on(job), [1280.0, 800.0]);
    run(&mut harness, Command::Step(Step::Sheet));
    let findings = harness.state().answer().findings.clone();
    let worst = findings.iter().find(|f| f.level == Level::Stop).expect("a stop");
    assert_eq!(harness.query_all_by_label(&worst.text.to_string()).count(), 0, "not before it is opened");
    press(&mut harness, Key::Escape);
    let counted = harness
        .root()
        .children_recursive()
        .find(|n| n.accesskit_node().label().is_some_and(|l| l.starts_with("Findings: ")));
    counted.expect("the count").click();
    driven::settle(&mut harness);
    assert_eq!(harness.query_all_by_label(&worst.text.to_string()).count(), 1);
}

/// At twice the size and at 800 points the front axle stands above the rear one, left stays left, and all is in the window.
#[test]
fn the_corner_grid_keeps_its_order_in_any_window() {
    for size in [[1280.0, 800.0], [800.0, 1100.0], [640.0, 400.0], [640.0, 700.0]] {
        let mut harness = driven::sized(App::on(presets::demo()), size);
        for when in ["before", "after"] {
            run(&mut harness, Command::GoTo(format!("{when}.lf")));
            let at =
                |corner: &str| harness.ctx.read_response(field::id(&format!("{when}.{corner}"))).expect("drawn").rect;
            let [lf, rf, lr, rr] = ["lf", "rf", "lr", "rr"].map(at);
            assert!(lf.right() < rf.left() && lr.right() < rr.left(), "{size:?} {when}: left and right");
            assert!(lf.bottom() < lr.top() && rf.bottom() < rr.top(), "{size:?} {when}: front and rear");
            for cell in [lf, rf, lr, rr] {
                assert!(cell.left() >= 0.0 && cell.right() <= size[0], "{size:?} {when}: {cell:?}");
            }
        }
        let mut all = Vec::new();
        for when in ["before", "after"] {
            all.extend(
                ["lf", "rf", "lr", "rr"]
                    .map(|c| harness.ctx.read_response(field::id(&format!("{when}.{c}"))).expect("drawn").rect),
            );
        }
        for (i, one) in all.iter().enumerate() {
            assert!(all[i + 1..].iter().all(|other| !one.intersects(*other)), "{size:?}: cells cover each other");
        }
    }
}

/// What can be pressed or typed into stands inside the window, left to right, at any size and in both languages.
#[test]
fn nothing_leaves_the_window_sideways() {
    let mut off = std::collections::BTreeSet::new();
    for size in [[640.0, 400.0], [800.0, 1100.0], [1280.0, 800.0]] {
        for language in Language::ALL {
            let mut harness = driven::sized(App::on(presets::demo()).speaking(language), size);
            for step in Step::ALL {
                run(&mut harness, Command::Step(step));
                for node in harness.root().children_recursive() {
                    let access = node.accesskit_node();
                    let acts = [Role::Button, Role::TextInput, Role::RadioButton, Role::CheckBox, Role::ComboBox];
                    let Some(at) = access.bounding_box().filter(|_| acts.contains(&access.role())) else { continue };
                    if at.x0 < -0.5 || at.x1 > f64::from(size[0]) + 0.5 {
                        let name = access.label().unwrap_or_default();
                        off.insert(format!("{size:?} {language:?} {step:?}: {name}, {:.0} to {:.0}", at.x0, at.x1));
                    }
                }
            }
        }
    }
    assert!(off.is_empty(), "{off:#?}");
}

/// What can be done with a pasted text is below it, and nothing of it widens the form.
#[test]
fn what_is_pasted_fits_the_form() {
    for size in [[640.0, 700.0], [800.0, 1100.0], [1280.0, 800.0]] {
        for language in Language::ALL {
            let mut harness = driven::sized(App::on(presets::demo()).speaking(language), size);
            run(&mut harness, Command::Step(Step::Weigh));
            run(&mut harness, Command::Paste(PasteInto::Weighing));
            let text = harness.ctx.read_response(Id::unique("paste")).expect("open").rect;
            let (mut buttons, mut widest) = (0, 0.0_f64);
            for node in harness.root().children_recursive() {
                let access = node.accesskit_node();
                let Some(at) = access.bounding_box().filter(|_| access.role() == Role::Button) else { continue };
                let below = at.y0 - f64::from(text.bottom());
                let is_beside = at.x0 < f64::from(text.left()) - 1.0 || at.x0 > f64::from(text.right());
                if (0.0..120.0).contains(&below) && !is_beside {
                    (buttons, widest) = (buttons + 1, widest.max(at.x1));
                }
            }
            assert!(buttons >= 3, "{size:?} {language:?}: {buttons} buttons");
            assert!(widest <= f64::from(text.right()) + 1.0, "{size:?} {language:?}: {widest} beyond {text:?}");
        }
    }
}

/// Where there is room for either entries or results, the row above says which is seen and leads to the other.
#[test]
fn in_a_small_window_one_press_leads_to_the_results_and_one_back() {
    for language in Language::ALL {
        let demo = presets::find("demo-orchard-van").expect("shipped").job_in(language);
        let mut harness = driven::sized(App::on(demo).speaking(language), [640.0, 400.0]);
        for step in Step::ALL {
            run(&mut harness, Command::Step(step));
            let seen = |harness: &Harness<'_, App>| harness.state().view().half_seen;
            let first = seen(&harness);
            for half in [Half::Results, first] {
                let name = {
                    let _spoken = speak(Voice { language, mark: language.mark() });
                    half.words().said()
                };
                harness.get_by_role_and_label(Role::Button, name).click();
                driven::settle(&mut harness);
                assert_eq!(seen(&harness), half, "{step:?} {language:?}");
            }
            assert!(step != Step::Springs || first == Half::Entries, "a form of several rows is not passed over");
        }
    }
}
