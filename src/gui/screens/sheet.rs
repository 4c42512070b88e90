//! Sheet: names as printed, and the pages as they will be printed.

use eframe::egui::{self, RichText, TextEdit, Ui, vec2};

use crate::base::language::{Language, tr};
use crate::gui::background::preview::MOST_SHOWN;
use crate::gui::screens::choose::combo;
use crate::gui::screens::pictures_of;
use crate::gui::screens::weigh::{labelled, text_row};
use crate::gui::state::Cx;
use crate::gui::state::command::{CustomerCommand, SheetCommand};
use crate::gui::state::section::Section;
use crate::gui::widgets::field::{MOST_IN_TEXT, limited};
use crate::gui::widgets::heading;
use crate::gui::widgets::theme::UNIT;
use crate::gui::widgets::{choices, choices_of};
use crate::job::{BodyShape, LinksAgain};
use crate::report::write::page::Paper;
use crate::say;

use crate::report::sheets::Kind;

/// The widest that a page is shown, points.
const WIDEST: f32 = 820.0;

/// The form: what is printed on, then the names.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    cx.section(ui, Section::Print);
    ui.horizontal_wrapped(|ui| {
        for kind in Kind::ALL {
            cx.when(ui.selectable_label(cx.view.kind == kind, kind.words()), SheetCommand::Kind(kind));
        }
    });
    choices(ui, |ui| {
        ui.label(tr("Paper"));
        for paper in Paper::ALL {
            cx.when(ui.radio(cx.view.paper == paper, paper.word()), SheetCommand::Paper(paper));
        }
    });
    ui.add_space(0.5 * UNIT);
    ui.horizontal_wrapped(|ui| {
        cx.when(ui.button(tr("Print…")), SheetCommand::Print);
        cx.when(ui.button(tr("Save as PDF…")), SheetCommand::As("pdf"));
        cx.when(ui.button(tr("Save as PNG…")), SheetCommand::As("png"));
        cx.when(ui.button(tr("Save as text…")), SheetCommand::As("md"));
    });
    cx.when(ui.button(tr("Show customer's view (F11)")), CustomerCommand::Show);
    cx.section(ui, Section::Names);
    heading(ui, tr("Workshop"));
    text_row(ui, tr("Workshop name"), &mut cx.job.shop.name);
    text_row(ui, tr("Address, telephone"), &mut cx.job.shop.contact);
    text_row(ui, tr("Fitter"), &mut cx.job.shop.fitter);
    ui.horizontal_wrapped(|ui| {
        cx.when(ui.button(tr("Use these details for new jobs")), SheetCommand::RememberNames);
        cx.when(ui.button(tr("Logo…")), SheetCommand::ChooseLogo);
        if cx.has_logo {
            cx.when(ui.button(tr("Remove logo")), SheetCommand::NoLogo);
        }
    });
    language(ui, cx);
    heading(ui, tr("Customer"));
    text_row(ui, tr("Customer name"), &mut cx.job.customer.name);
    text_row(ui, tr("Customer's address, telephone"), &mut cx.job.customer.contact);
    heading(ui, tr("Vehicle"));
    text_row(ui, tr("Vehicle"), &mut cx.job.vehicle.name);
    text_row(ui, tr("Registration or chassis number"), &mut cx.job.vehicle.identification);
    text_row(ui, tr("Description of the change"), &mut cx.job.vehicle.change);
    body(ui, cx);
    heading(ui, tr("Order"));
    text_row(ui, tr("Order number"), &mut cx.job.order.number);
    text_row(ui, tr("Needed by"), &mut cx.job.order.needed);
    text_row(ui, tr("Deliver to"), &mut cx.job.order.deliver_to);
    fitted(ui, cx);
    cx.section(ui, Section::Notes);
    let label = ui.label(tr("Other notes"));
    let edit = TextEdit::multiline(&mut cx.job.notes).desired_rows(3).desired_width(f32::INFINITY);
    limited(ui, edit, MOST_IN_TEXT).labelled_by(label.id);
}

/// The vehicle's body, as it is drawn.
fn body(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.label(tr("Body style on the customer's sheet"));
    choices_of(ui, None, &mut cx.job.vehicle.body, BodyShape::ALL, BodyShape::words);
}

/// The language of the sheets: those that ship, those of the shop's own texts, and whatever a file says.
fn language(ui: &mut Ui, cx: &mut Cx<'_>) {
    let typed = cx.job.shop.language.trim().to_owned();
    let own = cx.own_languages.iter().map(String::as_str).chain([typed.as_str()]);
    let ships = |key: &str| Language::ALL.iter().find(|l| l.key().eq_ignore_ascii_case(key));
    let mut keys: Vec<String> = Language::ALL.iter().map(|l| l.key().to_owned()).collect();
    for key in own.filter(|key| !key.is_empty() && ships(key).is_none()) {
        if !keys.iter().any(|k| k.eq_ignore_ascii_case(key)) {
            keys.push(key.to_owned());
        }
    }
    // Blank is English.
    let now = if typed.is_empty() { Language::English.key().to_owned() } else { typed };
    let word = |key: &str| ships(key).map_or_else(|| key.to_owned(), |l| l.name().to_owned());
    let language = labelled(ui, tr("Language of the sheets"), |ui| {
        combo(ui, "sheet language", tr("Language of the sheets"), &word(&now), 180.0, |ui| {
            for key in &keys {
                if ui.selectable_label(key.eq_ignore_ascii_case(&now), word(key)).clicked() {
                    cx.job.shop.language.clone_from(key);
                    ui.close();
                }
            }
        })
    });
    cx.reach("shop.language", &language);
    cx.below(ui, "shop.language");
}

/// Weights and heights on the springs as fitted, to compare with what was predicted.
fn fitted(ui: &mut Ui, cx: &mut Cx<'_>) {
    const WEIGHTS: [&str; 4] = ["fitted.lf", "fitted.rf", "fitted.lr", "fitted.rr"];
    const ARCHES: [&str; 4] = ["fitted.arch.lf", "fitted.arch.rf", "fitted.arch.lr", "fitted.arch.rr"];
    const REST: [&str; 4] = ["fitted.front", "fitted.rear", "limits.fitted_weight", "limits.fitted_height"];
    let paths: Vec<String> = WEIGHTS.iter().chain(&ARCHES).chain(&REST).map(|p| (*p).to_owned()).collect();
    let title = tr("After fitting: weigh and measure again");
    cx.folded_section(ui, Section::Fitted, title, &paths, false, |ui, cx| {
        cx.rows(ui, &paths);
        let links = &mut cx.job.fitted.bar_links;
        choices(ui, |ui| {
            ui.label(tr("Links of the anti-roll bars:"));
            ui.radio_value(links, LinksAgain::AsAfter, tr("as at the weigh-in after"));
            ui.radio_value(links, LinksAgain::On, tr("connected"));
            ui.radio_value(links, LinksAgain::Off, tr("disconnected"));
        });
        text_row(ui, tr("Fitted and weighed on"), &mut cx.job.fitted.date);
    });
}

/// The pages as they will be printed.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    pictures_of(ui, cx, &[Section::Print, Section::Names, Section::Fitted, Section::Notes]);
    let preview = cx.preview;
    let count = preview.count();
    if let Some(trouble) = preview.trouble() {
        ui.label(trouble);
    }
    let words = match count {
        0 => tr("Drawing the pages…").to_owned(),
        1 => say!("One {paper} page.", paper = cx.view.paper.word()),
        _ => say!("{count} {paper} pages.", count, paper = cx.view.paper.word()),
    };
    let words = if count > 0 && !preview.is_current() { tr("Redrawing the pages…").to_owned() } else { words };
    ui.label(RichText::new(words).weak());
    for note in preview.notes() {
        ui.add(egui::Label::new(note).wrap());
    }
    let width = (ui.available_width() - 2.0).clamp(100.0, WIDEST);
    for (n, page) in preview.pages().iter().enumerate() {
        ui.add_space(0.5 * UNIT);
        let size = page.texture.size_vec2();
        let size = vec2(width, width * size.y / size.x.max(1.0));
        let alt = say!("Page {number} of {count}. {words}", number = n + 1, count, words = page.words);
        let image = egui::Image::new((page.texture.id(), size)).alt_text(alt);
        egui::Frame::new().stroke(ui.visuals().widgets.noninteractive.bg_stroke).show(ui, |ui| ui.add(image));
    }
    if count > MOST_SHOWN {
        ui.label(match count - MOST_SHOWN {
            1 => tr("The file contains 1 more page.").to_owned(),
            more => say!("The file contains {more} more pages.", more),
        });
    }
}
