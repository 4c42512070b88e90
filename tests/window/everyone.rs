//! Everyone can use it: names and roles for those who hear the window, contrast for those who see little.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::driven;

use driven::run;
use eframe::egui::accesskit::{Action, Role};
use eframe::egui::{Color32, Context, Key, Theme, Visuals};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;

use springwright::gui::state::command::{Command, FileCommand, ListCommand};
use springwright::gui::state::files::Purpose;
use springwright::gui::widgets::{field, theme};
use springwright::gui::{App, PasteInto, Step};
use springwright::job::{Level, Side};
use springwright::shop::presets;
use springwright::solve::answer::State;

/// Nodes that can be clicked, focused or changed and lack a name or a role; and how many can.
fn nameless(harness: &Harness<'_, App>) -> (Vec<String>, usize) {
    let (mut wrong, mut count) = (Vec::new(), 0);
    for node in harness.root().children_recursive() {
        let access = node.accesskit_node();
        let node = access.data();
        let acts = [Action::Click, Action::Focus, Action::SetValue, Action::Increment, Action::Decrement];
        if !acts.iter().any(|a| node.supports_action(*a)) || access.is_disabled() {
            continue;
        }
        // A scroll bar is what it is; the page it moves is walked by its fields.
        if access.role() == Role::ScrollBar {
            continue;
        }
        count += 1;
        // The name of a text is the text.
        let text = if access.role() == Role::Label { access.value() } else { None };
        let name = text.or_else(|| access.label()).unwrap_or_default();
        let has_role = !matches!(access.role(), Role::Unknown | Role::GenericContainer | Role::Window);
        if name.trim().is_empty() || !has_role {
            let at = access.bounding_box();
            wrong.push(format!("{:?} \"{name}\", value {:?}, at {at:?}", access.role(), access.value()));
        }
    }
    (wrong, count)
}

#[test]
fn whatever_can_be_acted_on_has_a_name_and_a_role_at_every_step() {
    let mut wrong = std::collections::BTreeSet::new();
    let mut count = 0;
    let mut look = |harness: &Harness<'_, App>, place: &str| {
        let (nodes, all) = nameless(harness);
        assert!(all > 10, "{place}: only {all}");
        count += all;
        wrong.extend(nodes.into_iter().map(|n| format!("{place}: {n}")));
    };
    for preset in presets::PRESETS {
        let mut harness = driven::window(App::on(preset.job()), 2400.0);
        for step in Step::ALL {
            for side in Side::BOTH {
                harness.state_mut().command(Command::Step(step));
                run(&mut harness, Command::Axle(side));
                look(&harness, &format!("{} {step:?} {side:?}", preset.name));
            }
        }
    }
    let mut harness = driven::window(App::on(presets::demo()), 2400.0);
    for (place, command) in [
        ("findings", Command::Findings),
        ("details", Command::Details("front.spring.rate".into())),
        ("paste", Command::Paste(PasteInto::Weighing)),
        ("paste rows", Command::Paste(PasteInto::Rows("parts".into()))),
        ("typed path", Command::NoDialog(Purpose::SaveJob)),
        ("whole list", Command::Step(Step::Choose)),
        ("whole list", Command::List(ListCommand::Whole(true))),
        ("jobs", Command::File(FileCommand::Jobs(Some(concat!(env!("CARGO_MANIFEST_DIR"), "/presets").into())))),
    ] {
        run(&mut harness, command);
        std::thread::sleep(std::time::Duration::from_millis(300));
        driven::settle(&mut harness);
        look(&harness, place);
    }
    println!("{count} nodes that can be acted on");
    assert!(
        wrong.is_empty(),
        "{} without name or role:\n{}",
        wrong.len(),
        wrong.into_iter().collect::<Vec<_>>().join("\n")
    );
}

/// Relative luminance of an opaque colour, 0 for black to 1 for white.
///
/// W3C, Web Content Accessibility Guidelines (WCAG) 2.1, "Dfn: relative luminance": L = 0.2126 R + 0.7152 G + 0.0722 B, with
/// c/12.92 up to 0.03928 and ((c + 0.055)/1.055)^2.4 above. From memory.
fn luminance(color: Color32) -> f64 {
    let linear = |c: u8| {
        let c = f64::from(c) / 255.0;
        if c <= 0.03928 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(color.r()) + 0.7152 * linear(color.g()) + 0.0722 * linear(color.b())
}

/// WCAG 2.1, "Dfn: contrast ratio": (L1 + 0.05) / (L2 + 0.05), the lighter one first.
fn contrast(a: Color32, b: Color32) -> f64 {
    let (a, b) = (luminance(a) + 0.05, luminance(b) + 0.05);
    a.max(b) / a.min(b)
}

/// A colour over an opaque one; egui's colours carry their alpha inside.
fn over(top: Color32, below: Color32) -> Color32 {
    let left = 1.0 - f64::from(top.a()) / 255.0;
    let mix = |t: u8, b: u8| (f64::from(t) + left * f64::from(b)).round().min(255.0) as u8;
    Color32::from_rgb(mix(top.r(), below.r()), mix(top.g(), below.g()), mix(top.b(), below.b()))
}

#[test]
fn the_measure_of_contrast_is_the_published_one() {
    // Black on white is 21:1, of a colour on itself 1:1 (WCAG 2.1, same place); #777 on white is 4.48:1 and just fails,
    // the example that is usually given for it (common practice, no source).
    assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-12);
    assert!((contrast(Color32::RED, Color32::RED) - 1.0).abs() < 1e-12);
    assert!((contrast(Color32::from_gray(0x77), Color32::WHITE) - 4.48).abs() < 0.005);
}

fn texts(v: &Visuals, dark: bool) -> Vec<(String, Color32)> {
    let mut all = vec![("text".into(), v.text_color()), ("weak text".into(), v.weak_text_color())];
    all.push(("link".into(), v.hyperlink_color));
    all.extend(
        [State::Before, State::OldSprings, State::NewSprings].map(|s| (format!("{s:?}"), theme::state_color(s, dark))),
    );
    all.extend(
        [Level::Note, Level::Doubt, Level::Error, Level::Stop].map(|l| (format!("{l:?}"), theme::level_color(l, dark))),
    );
    all
}

fn backgrounds(v: &Visuals) -> Vec<(&'static str, Color32)> {
    let w = &v.widgets;
    let on_panel = |c: Color32| over(c, v.panel_fill);
    vec![
        ("panel", v.panel_fill),
        ("field", v.extreme_bg_color),
        ("popup", v.window_fill),
        ("every other row", on_panel(v.faint_bg_color)),
        ("button", on_panel(w.inactive.weak_bg_fill)),
        ("button under the pointer", on_panel(w.hovered.weak_bg_fill)),
        ("pressed button", on_panel(w.active.weak_bg_fill)),
        ("open menu", on_panel(w.open.weak_bg_fill)),
        ("selected", on_panel(v.selection.bg_fill)),
    ]
}

/// WCAG 2.1, success criterion 1.4.3 (AA): at least 4.5:1 for text. Disabled controls are exempt there.
#[test]
fn every_text_stands_out_from_every_background_in_both_themes() {
    let ctx = Context::default();
    theme::install(&ctx);
    let (mut wrong, mut least, mut pairs) = (Vec::new(), f64::INFINITY, 0);
    for theme in [Theme::Light, Theme::Dark] {
        let visuals = ctx.style_of(theme).visuals.clone();
        for (text, color) in texts(&visuals, theme == Theme::Dark) {
            for (place, background) in backgrounds(&visuals) {
                let ratio = contrast(color, background);
                (least, pairs) = (least.min(ratio), pairs + 1);
                if ratio < 4.5 {
                    wrong.push(format!("{theme:?}: {text} {color:?} on {place} {background:?}: {ratio:.2}"));
                }
            }
        }
    }
    println!("{pairs} pairs, the least contrast {least:.2}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What has the focus, if less of it is in view than all.
fn out_of_view(harness: &Harness<'_, App>) -> Option<String> {
    let id = harness.ctx.memory(|m| m.focused())?;
    let widget = harness.ctx.read_response(id)?;
    let seen = widget.interact_rect;
    let all = seen.expand(1.0).contains_rect(widget.rect);
    let name =
        || harness.root().children_recursive().find(|n| n.accesskit_node().is_focused()).map(|n| format!("{n:?}"));
    (!all).then(|| format!("{:?} of {:?}: {:?}", seen, widget.rect, name()))
}

/// Tab until it comes round; how many stops, and those that stayed out of view.
fn tab_through(harness: &mut Harness<'_, App>) -> (usize, Vec<String>) {
    let (mut stops, mut hidden) = (std::collections::HashSet::new(), Vec::new());
    for _ in 0..400 {
        driven::press(harness, Key::Tab);
        let Some(id) = harness.ctx.memory(|m| m.focused()) else {
            hidden.push(format!("after stop {} nothing has the focus", stops.len()));
            continue;
        };
        if !stops.insert(id) {
            break;
        }
        hidden.extend(out_of_view(harness));
    }
    (stops.len(), hidden)
}

#[test]
fn what_tab_and_enter_go_to_comes_into_view() {
    let all = Step::ALL.as_slice();
    let some = &[Step::Measure, Step::Vehicle];
    for (size, steps) in [([1280.0, 800.0], all), ([800.0, 1100.0], some), ([640.0, 400.0], some)] {
        let mut harness = driven::sized(App::on(presets::demo()), size);
        for step in steps {
            run(&mut harness, Command::Step(*step));
            if *step == Step::Road {
                // The button that stops the runs is gone with them, and the cursor with it.
                driven::until_run(&mut harness);
            }
            if *step == Step::Choose {
                // A choice that comes in between makes what is above the cursor longer.
                driven::until(&mut harness, "the choice", |app| app.choosing().is_current());
            }
            let (stops, hidden) = tab_through(&mut harness);
            assert!(stops > 20, "{step:?}: only {stops}");
            assert!(hidden.is_empty(), "{size:?} {step:?}: {hidden:#?}");
        }
        run(&mut harness, Command::GoTo("front.ratio.wheel_moved".into()));
        for n in 0..8 {
            driven::press(&mut harness, Key::Enter);
            assert_eq!(out_of_view(&harness), None, "{size:?}, Enter {n}");
        }
    }
}

#[test]
fn page_keys_turn_the_page() {
    let mut harness = driven::sized(App::on(presets::demo()), [800.0, 1100.0]);
    run(&mut harness, Command::Step(Step::Vehicle));
    let top =
        |harness: &Harness<'_, App>| harness.ctx.read_response(field::id("front.rating")).expect("a field").rect.top();
    let before = top(&harness);
    driven::press(&mut harness, Key::PageDown);
    assert!(top(&harness) < before - 300.0, "from {before} to {}", top(&harness));
    driven::press(&mut harness, Key::PageUp);
    assert!((top(&harness) - before).abs() < 1.0, "from {before} to {}", top(&harness));
}

#[test]
fn lists_in_place_of_the_form_close_by_escape_by_their_key_and_by_steps() {
    use springwright::gui::state::command::HelpCommand;
    let mut harness = driven::window(App::on(presets::demo()), 800.0);
    let folder = tempfile::tempdir().expect("a folder");
    let jobs = || Command::File(FileCommand::Jobs(Some(folder.path().to_owned())));
    let words = || Command::Help(HelpCommand::Words);
    let is_open =
        |harness: &Harness<'_, App>| harness.state().view().jobs.is_some() || harness.state().view().glossary.is_some();
    for open in [&jobs as &dyn Fn() -> Command, &words] {
        for close in [None, Some(Command::Step(Step::Springs)), Some(Command::GoTo("after.lf".into()))] {
            run(&mut harness, open());
            assert!(is_open(&harness));
            match close {
                Some(command) => run(&mut harness, command),
                None => driven::press(&mut harness, Key::Escape),
            }
            assert!(!is_open(&harness));
        }
    }
    run(&mut harness, jobs());
    run(&mut harness, Command::File(FileCommand::Jobs(None)));
    assert!(!is_open(&harness), "Ctrl+J once more");
}
