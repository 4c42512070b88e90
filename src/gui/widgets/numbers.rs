//! Any number can be asked "how?": formula, substituted numbers, source.

use eframe::egui::{CollapsingHeader, Label, RichText, Sense, Ui};

use crate::base::language::tr;
use crate::base::sources;
use crate::base::units::{UnitChoice, display};
use crate::gui::state::Cx;
use crate::report::results::Figure;
use crate::say;

/// A folded list of the results whose keys start with one of `prefixes`.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>, prefixes: &[String]) {
    CollapsingHeader::new(tr("All results of this step, with formulas")).id_salt("numbers").show(ui, |ui| {
        let shown = cx.shown;
        let of_these = |f: &&Figure| f.is_there && prefixes.iter().any(|p| f.key.starts_with(p.as_str()));
        for figure in shown.results.iter().filter(of_these) {
            line(ui, cx, figure);
        }
    });
}

fn line(ui: &mut Ui, cx: &mut Cx<'_>, figure: &Figure) {
    let units = cx.job.units;
    let value = match (figure.si, figure.u_si.filter(|u| *u > 0.0)) {
        (Some(_), Some(_)) if !figure.is_determined() => tr("not determined").to_owned(),
        (Some(si), Some(u)) => display::measured_si(si, u, figure.dim, &units),
        (Some(si), None) => display::full_si(si, figure.dim, &units),
        (None, _) => tr("not known").to_owned(),
    };
    let open = cx.view.how.as_deref() == Some(figure.key.as_str());
    let text = format!("{}:  {value}", figure.name);
    if ui.selectable_label(open, text).on_hover_text(tr("How is this calculated?")).clicked() {
        cx.view.how = if open { None } else { Some(figure.key.clone()) };
    }
    if open {
        ui.indent(("how", &figure.key), |ui| working(ui, figure, &units));
    }
}

fn working(ui: &mut Ui, figure: &Figure, units: &UnitChoice) {
    ui.add(Label::new(RichText::new(figure.formula).strong()).sense(Sense::hover()).wrap());
    let numbers: Vec<String> = figure
        .with
        .iter()
        .map(|(symbol, si, dim)| format!("{symbol} = {}", display::full_si(*si, *dim, units)))
        .collect();
    if !numbers.is_empty() {
        ui.label(say!("with {numbers}", numbers = numbers.join(";  ")));
    }
    let unit = units.unit(figure.dim);
    let u = figure.si.zip(figure.u_si).and_then(|(si, u)| display::u_that_matters(si, u, unit));
    if let (Some(si), Some(u)) = (figure.si, u) {
        let value = display::full_si(si, figure.dim, units);
        let u = display::significant_with_unit(display::to_figures(u, 2) * unit.si, 2, unit);
        let words = say!(
            "Unrounded {value}; ± {u} is one standard uncertainty, calculated from the ± of every field used.",
            value,
            u
        );
        ui.small(words);
    }
    if let Some(note) = figure.note() {
        ui.small(note);
    }
    ui.small(say!("Definition: {convention}.", convention = figure.convention));
    ui.small(say!("Source: {source}.", source = sources::cite(figure.source)));
}
