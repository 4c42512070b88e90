//! "Before and after, measured": what recorded bounces show of an axle, and recorded drives of the vehicle, when both
//! states were recorded.

use crate::base::units::{Dim, Quantity, display, table};
use crate::report::sheets::page::Page;
use crate::solve::answer::{AxleAnswer, BounceMeasured, Measured};

/// One quantity of a bounce, SI.
type Of = fn(&BounceMeasured) -> Option<f64>;

/// Every sentence; none without an axle or a drive that was recorded before and after.
pub(super) fn said(page: &Page<'_>) -> Vec<String> {
    bounces(page).into_iter().chain(drives(page)).collect()
}

/// How it was measured.
pub(super) fn how(page: &Page<'_>) -> String {
    let keys = [(!bounces(page).is_empty(), "measured.how"), (drives(page).is_some(), "measured.how_drive")];
    let said = keys.into_iter().filter(|(is_there, _)| *is_there).map(|(_, key)| page.plain(key));
    said.chain([page.plain("measured.spread")]).collect::<Vec<_>>().join(" ")
}

fn bounces(page: &Page<'_>) -> Vec<String> {
    page.answer.axles.iter().flat_map(|axle| of_axle(page, axle)).collect()
}

/// How strongly the body shakes, only of drives that were declared alike: the ratio in percent, when it is off 1 by more
/// than twice its ±.
fn drives(page: &Page<'_>) -> Option<String> {
    let ratio = page.answer.whole.drives.ratio().filter(|_| page.answer.whole.drives.are_alike)?.si();
    let u = page.answer.moved.u_of(|v| Some(v.whole.drives.ratio()?.si()))?;
    let percent = |share: f64| format!("{:.0}", (100.0 * share).max(1.0));
    let (by, within) = (percent((ratio - 1.0).abs()), percent(u));
    let key = match ratio - 1.0 {
        off if off.abs() <= 2.0 * u => return Some(page.plain("measured.drive_same")),
        off if off > 0.0 => "measured.drive_more",
        _ => "measured.drive_less",
    };
    Some(page.say(key, &[("percent", &by), ("within", &within)]))
}

fn of_axle(page: &Page<'_>, axle: &AxleAnswer) -> Vec<String> {
    let frequency: Of = |found| Some(found.frequency?.si());
    let damping: Of = |found| Some(found.damping?.si());
    let said = |keys: [&str; 3], of: Of, number: &dyn Fn(Measured) -> String| {
        let [was, now] = both(page, axle, of)?;
        let key = match now.value - was.value {
            off if off.abs() <= 2.0 * now.u.hypot(was.u) => keys[0],
            off if off > 0.0 => keys[1],
            _ => keys[2],
        };
        Some(page.on(axle.side).say(key, &[("was", &number(was)), ("now", &number(now))]))
    };
    let bounces = ["measured.bounces_same", "measured.bounces", "measured.bounces"];
    let dies_out = ["measured.damping_same", "measured.damping_more", "measured.damping_less"];
    [said(bounces, frequency, &|m| a_second(page, m)), said(dies_out, damping, &|m| share(page, m))]
        .into_iter()
        .flatten()
        .collect()
}

/// Before and after, each with its ±; `None` unless both were recorded and both ± are known.
fn both(page: &Page<'_>, axle: &AxleAnswer, of: Of) -> Option<[Measured; 2]> {
    let checked = page.answer.checked(axle.side);
    let found = |value: Option<f64>, u: Option<f64>| Some(Measured { value: value?, u: u? });
    let before = found(of(&axle.bounce.before), checked.nudged.u_of(|a| of(&a.bounce.before)))?;
    let after = found(of(&axle.bounce.after), checked.nudged.u_of(|a| of(&a.bounce.after)))?;
    Some([before, after])
}

/// Bounces per second: hertz in any units.
fn a_second(page: &Page<'_>, found: Measured) -> String {
    let hertz = table::find(Dim::Frequency, "Hz").unwrap_or_else(|| page.units().unit(Dim::Frequency));
    page.mark(&display::measured_number(found.value, found.u, hertz))
}

fn share(page: &Page<'_>, found: Measured) -> String {
    page.mark(&display::measured_si(found.value, found.u, Dim::Ratio, page.units()))
}
