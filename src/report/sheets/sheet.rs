//! Builds the tree: answer, tables, defaults, findings, cautions.

use crate::base::language::{mark, tr};
use crate::base::message::Message;
use crate::base::units::UnitChoice;
use crate::job::{Finding, Job, Level, Side, bounded};
use crate::report::Block;
use crate::report::Report;
use crate::report::results::Results;
use crate::report::sections::axle_tables;
use crate::report::sections::corner_tables;
use crate::report::sections::damper_tables;
use crate::report::sections::load_tables;
use crate::report::sections::remedy_tables;
use crate::report::sections::reweigh_table;
use crate::report::sections::sentence;
use crate::report::sections::spring_tables as details;
use crate::report::sections::unchecked;
use crate::report::sections::vehicle_tables;
use crate::report::sheets::header::check_again_after;
use crate::report::sheets::plan_table::Plans;
use crate::say;
use crate::solve::answer::Answer;

/// What is printed on every sheet about working on springs. Common practice; local codes come first.
fn cautions(units: &UnitChoice) -> Vec<String> {
    vec![
        tr("A compressed spring holds enough energy to kill. Support the frame on rated jack stands and chock the wheels. Put a jack under the lower arm before you break a ball joint loose. Secure the spring and keep everyone out of its line.").into(),
        tr("Use rated spring compressors with hand tools only. Gas dampers extend by themselves; never heat, drill or cut a damper or a spring.").into(),
        tr("Tighten rubber bushes at ride height. Replace single-use fasteners. Check brake hoses and sensor wiring at full droop and full bump.").into(),
        say!(
            "Afterwards, check brakes, wheel alignment, headlamp aim, tyre load rating and pressure; check everything again after {distance}.",
            distance = check_again_after(units)
        ),
        tr("A heavier spring does not raise an axle rating. Local rules on height and modifications, and a licensed inspector, have the last word.").into(),
        tr("Springs and dampers are sized for ride, based on the values given. This sheet is not a certificate of safety or compliance.").into(),
    ]
}

/// The whole answer as a report.
pub fn build(job: &Job, answer: &Answer) -> Report {
    let used = bounded::used(job);
    let job = &*used;
    let (units, results) = (&job.units, &Results::of(answer));
    let mut blocks = Vec::new();
    blocks.extend(header(job));
    for side in Side::BOTH {
        let said = sentence::axle(answer, answer.axle(side), units);
        let is_withheld = answer.released(side).is_err();
        blocks.push(if is_withheld { Block::Caution(said.answer) } else { Block::Text(said.answer) });
        if !said.certainty.is_empty() {
            blocks.push(Block::Text(said.certainty));
        }
    }
    blocks.extend(axle_tables::weights(answer, results, units));
    blocks.extend(load_tables::ledger(answer, results, units));
    for side in Side::BOTH {
        let found = answer.axle(side);
        blocks.extend(axle_tables::axle(answer, results, side, units));
        blocks.extend(details::old_spring(answer, results, side, units));
        blocks.extend(details::routes(answer, results, side, units).filter(|_| found.route_count() > 1));
        blocks.extend(details::cut(answer, results, side, units));
        blocks.extend(details::levelled(results, side, units));
        blocks.extend(details::added_leaf(results, side, units));
        blocks.extend(details::offered(results, side, units));
        blocks.extend(details::wound(answer, results, side, units));
    }
    if answer.axles.iter().any(|axle| axle.damping.is_some()) {
        blocks.push(Block::Text(tr(damper_tables::WHAT_EACH_DOES).into()));
    }
    blocks.extend(vehicle_tables::nose_and_tail(answer, results, units));
    blocks.extend(vehicle_tables::bends(answer, results, units));
    blocks.extend(vehicle_tables::wanted_bars(answer, results, units));
    blocks.extend(corner_tables::corners(answer, results, units));
    blocks.extend(load_tables::cases(answer, results, units));
    for side in Side::BOTH {
        blocks.extend(remedy_tables::remedies(answer, results, side, units, &job.prices.currency));
    }
    if let Some(plans) = Plans::of(job, answer, || !answer.is_coming) {
        blocks.extend(plans.blocks());
        blocks.extend(plans.pictures(answer));
    }
    for side in Side::BOTH {
        blocks.extend(crate::report::sections::road_tables::closed(answer, results, side, units));
    }
    blocks.extend(reweigh_table::blocks(answer, results, units));
    blocks.extend(findings(answer));
    blocks.extend(defaults(answer));
    blocks.extend(not_checked(job, answer));
    blocks.push(Block::Heading(tr("Conventions").into()));
    blocks.push(Block::Text(conventions(units)));
    blocks.push(Block::Heading(tr("Cautions").into()));
    blocks.push(Block::List(cautions(units)));
    Report { title: tr("Springs and dampers after a weight change").into(), blocks }
}

/// The first line of each axle that is withheld.
pub fn withheld(job: &Job, answer: &Answer) -> Vec<Block> {
    let is_withheld = |side: &Side| answer.released(*side).is_err();
    let line = |side| Block::Caution(sentence::axle(answer, answer.axle(side), &job.units).answer);
    Side::BOTH.into_iter().filter(is_withheld).map(line).collect()
}

/// What the numbers mean, for every sheet.
pub fn conventions(units: &UnitChoice) -> String {
    say!(
        "A ± is one standard uncertainty: the true value lies within it about two times out of three. Left is the driver's left when facing forward. Values per corner are the mean of the axle's two sides. Motion ratio is spring travel ÷ wheel travel. Frequencies are undamped and without tyre deflection unless marked \"with tyre\". Damping ratios are without tyre deflection, mean of bump and rebound. Height changes are at the wheel (hub to arch) unless marked \"at the ground\". Reserve is the extra g before the bump stop is touched; braking, roll and road bumps use the same travel. g = {gravity}.",
        gravity = gravity(units)
    )
}

/// Standard gravity as printed. Source `SP811`.
pub(in crate::report) fn gravity(units: &UnitChoice) -> String {
    mark(if units.in_inches() { "32.174 ft/s² (9.80665 m/s²)" } else { "9.80665 m/s²" }.to_owned())
}

fn header(job: &Job) -> Option<Block> {
    let vehicle = [&job.vehicle.name, &job.vehicle.identification];
    let rows: Vec<Vec<String>> = [
        (tr("Workshop"), [&job.shop.name, &job.shop.contact]),
        (tr("Customer"), [&job.customer.name, &job.customer.contact]),
        (tr("Vehicle"), vehicle),
        (tr("Change"), [&job.vehicle.change, &String::new()]),
    ]
    .into_iter()
    .map(|(what, parts)| {
        let filled: Vec<&str> = parts.iter().map(|s| s.trim()).filter(|s| !s.is_empty()).collect();
        vec![what.to_owned(), filled.join(", ")]
    })
    .filter(|row| !row[1].is_empty())
    .collect();
    (!rows.is_empty()).then(|| Block::Table { head: vec![tr("Job").into(), String::new()], rows })
}

fn findings(answer: &Answer) -> Vec<Block> {
    if answer.findings.is_empty() {
        return vec![Block::Heading(tr("Findings").into()), Block::Text(tr("No findings.").into())];
    }
    let mut blocks = vec![Block::Heading(tr("Findings").into())];
    for stop in answer.findings.iter().filter(|f| f.level == Level::Stop) {
        blocks.push(Block::Caution(stop.text.to_string()));
    }
    let rest = answer.findings.iter().filter(|f| f.level != Level::Stop);
    blocks.push(Block::List(rest.flat_map(with_mends).collect()));
    blocks
}

/// A finding, and below it what would mend it.
fn with_mends(finding: &Finding) -> Vec<String> {
    let mends = finding.mends.iter().map(|mend| {
        let (label, fields) = (&mend.label, Message::row(mend.by_label(), "; ").to_string());
        if fields.is_empty() {
            say!("correction: {label}", label)
        } else {
            say!("correction: {label} ({fields})", label, fields)
        }
    });
    std::iter::once(format!("{}: {}", finding.level.word(), finding.text)).chain(mends).collect()
}

/// What was not checked for lack of data.
fn not_checked(job: &Job, answer: &Answer) -> Vec<Block> {
    Block::under(Block::Heading(tr("Not checked").into()), unchecked::lines(job, answer))
}

fn defaults(answer: &Answer) -> Vec<Block> {
    let lines = listed_defaults(answer).map(|d| format!("{}: {} ({})", default_label(&d.path), d.text, d.reason));
    Block::under(Block::Heading(tr("Defaults used").into()), lines.collect())
}

/// The defaults worth listing: the shop's limits are not, nor the default uncertainties.
pub fn listed_defaults(answer: &Answer) -> impl Iterator<Item = &crate::solve::answer::UsedDefault> {
    answer.defaults.iter().filter(|d| !["limits.", "certainty."].iter().any(|own| d.path.starts_with(own)))
}

/// The label of a default's field.
pub fn default_label(path: &str) -> String {
    let side = |key: &str| if key == Side::Front.key() { Side::Front.word() } else { Side::Rear.word() };
    match path.split_once('.') {
        Some((key, "damper_ratio")) => say!("{side}, damper motion ratio", side = side(key)),
        Some((key, "ratio")) => say!("{side}, motion ratio", side = side(key)),
        _ => crate::job::fields::full_label(path).to_string(),
    }
}
