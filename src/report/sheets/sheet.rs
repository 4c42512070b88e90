//! Builds the tree: answer, tables, defaults, findings, cautions.

use crate::base::language::{mark, tr};
use crate::base::units::{Dim, Length, Quantity, UnitChoice, display};
use crate::job::{Finding, Job, Level, Plan, Side, bounded};
use crate::report::Block;
use crate::report::Report;
use crate::report::or_unknown;
use crate::report::results::{self, Column, Figure, Results};
use crate::report::sections::damper_tables;
use crate::report::sections::load_tables;
use crate::report::sections::remedy_tables;
use crate::report::sections::reweigh_table;
use crate::report::sections::sentence;
use crate::report::sections::spring_tables as details;
use crate::report::sections::unchecked;
use crate::report::sections::vehicle_tables;
use crate::say;
use crate::solve::answer::{Answer, Band, Part, Spacer, State};

/// What is printed beside every sheet about working on springs. Common practice; local codes come first.
fn cautions(units: &UnitChoice) -> Vec<String> {
    vec![
        tr("A compressed spring holds enough energy to kill. Body on rated stands under the frame, wheels chocked, a jack under the lower arm before a ball joint is broken loose, the spring secured, nobody in line with it.").into(),
        tr("Use rated spring compressors with hand tools only. Gas dampers extend by themselves; never heat, drill or cut a damper or a spring.").into(),
        tr("Rubber pivots are tightened at ride height. One-use fasteners are replaced. Brake hoses and sensor leads are checked at full droop and full bump.").into(),
        say!(
            "Afterwards: brakes, wheel alignment, headlamp aim, tyre load and pressure; check again after {distance}.",
            distance = check_again_after(units)
        ),
        tr("A heavier spring raises no axle rating. Height and modification rules are local: they and a licensed inspector have the last word.").into(),
        tr("Sized for ride on the numbers given. This sheet is not a certificate of safety or compliance.").into(),
    ]
}

/// After which distance everything is checked again. Common practice, no source.
pub(in crate::report) fn check_again_after(units: &UnitChoice) -> &'static str {
    if units.in_miles() { "300 mi" } else { "500 km" }
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
    blocks.extend(weights(answer, results, units));
    blocks.extend(load_tables::ledger(answer, units));
    for side in Side::BOTH {
        let found = answer.axle(side);
        blocks.extend(axle(answer, results, side, units));
        blocks.extend(details::old_spring(answer, results, side, units));
        blocks.extend(details::routes(found, answer.checked(side), units).filter(|_| found.route_count() > 1));
        blocks.extend(details::cut(answer, results, side, units));
        blocks.extend(details::levelled(results, side, units));
        blocks.extend(details::offered(results, side, units));
        blocks.extend(details::wound(answer, side, units));
    }
    if answer.axles.iter().any(|axle| axle.damping.is_some()) {
        blocks.push(Block::Text(tr(damper_tables::WHAT_EACH_DOES).into()));
    }
    blocks.extend(vehicle_tables::nose_and_tail(answer, results, units));
    blocks.extend(vehicle_tables::bends(answer, results, units));
    blocks.extend(vehicle_tables::corners(answer, units));
    blocks.extend(load_tables::cases(answer, results, units));
    for side in Side::BOTH {
        blocks.extend(remedy_tables::remedies(answer, results, side, units, &job.prices.currency));
    }
    for side in Side::BOTH {
        blocks.extend(crate::report::sections::road_tables::closed(answer, results, side, units));
    }
    blocks.extend(reweigh_table::blocks(answer, units));
    blocks.extend(findings(answer));
    blocks.extend(defaults(answer));
    blocks.extend(not_checked(job, answer));
    blocks.push(Block::Heading(tr("Conventions").into()));
    blocks.push(Block::Text(conventions(units)));
    blocks.push(Block::Heading(tr("Cautions").into()));
    blocks.push(Block::List(cautions(units)));
    Report { title: tr("Springs and dampers for a changed weight").into(), blocks }
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
        "A ± is one standard uncertainty: the true value lies inside about two times in three. Left is the driver's left facing forward. Values per corner are the mean of the axle's two sides. Motion ratio is spring travel over wheel travel. Frequencies are on springs and undamped unless they say \"with tyre\". Damping ratios are on springs, mean of bump and rebound. Height changes are at the wheel (hub to arch) unless they say \"at the ground\". Reserve is the extra g before the bump stop is touched; braking, roll and road use the same room. g = {gravity}.",
        gravity = gravity(units)
    )
}

/// Standard gravity as it is told. Source `SP811`.
pub(in crate::report) fn gravity(units: &UnitChoice) -> String {
    mark(if units.in_inches() { "32.174 ft/s² (9.80665 m/s²)" } else { "9.80665 m/s²" }.to_owned())
}

fn header(job: &Job) -> Option<Block> {
    let vehicle = [&job.vehicle.name, &job.vehicle.identification];
    let rows: Vec<Vec<String>> = [
        (tr("Shop"), [&job.shop.name, &job.shop.contact]),
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

fn known<Q: Quantity>(value: Option<Q>, units: &UnitChoice) -> String {
    or_unknown(value, |v| display::rounded(v, units))
}

/// How far a mass or a share has changed, with its sign: "+98 kg", "−1.2 %".
fn change([before, after]: [Option<&Figure>; 2], units: &UnitChoice) -> String {
    let Some((dim, by)) = before.zip(after).and_then(|(b, a)| Some((a.dim, a.si? - b.si?))) else {
        return String::new();
    };
    if dim == Dim::Ratio {
        return format!("{} %", display::signed(by * 100.0, 1));
    }
    let text = display::rounded_si(by, dim, units);
    if by > 0.0 && !text.starts_with("0 ") { format!("+{text}") } else { text }
}

/// The rows of the table of both weigh-ins.
const WEIGHED: [&str; 10] =
    ["lf", "rf", "lr", "rr", "front_axle", "rear_axle", "total", "front_share", "left_share", "cross_weight"];

/// The table of both weigh-ins.
pub fn weights(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    if answer.after.total.or(answer.before.total).is_none() {
        return Vec::new();
    }
    let rows = WEIGHED
        .iter()
        .map(|key| {
            let of = ["before", "after"].map(|when| results.find(&format!("{when}.{key}")));
            let mut row = results::row(of.into_iter(), units);
            row.push(change(of, units));
            row
        })
        .collect();
    let head = [tr("Weights"), tr("before"), tr("after"), tr("change")].map(str::to_owned).to_vec();
    let mut blocks = vec![Block::Heading(tr("Weights").into()), Block::Table { head, rows }];
    blocks.extend([tr("before"), tr("after")].into_iter().enumerate().filter_map(|(i, when)| {
        let [lf, rf, lr, rr] = answer.whole.scatter[i]?.walk().map(|s| display::rounded(s, units));
        Some(Block::Text(say!(
            "Weighed {when} more than once: the mean stands above. One reading scatters by {lf} LF, {rf} RF, {lr} LR, {rr} RR (standard deviation).",
            when, lf, rf, lr, rr
        )))
    }));
    blocks
}

/// The rows of the table "one axle, three states".
const STANDING: [&str; 10] = [
    "sprung",
    "height_change",
    "height_change_at_ground",
    "wheel_rate",
    "frequency",
    "frequency_with_tyre",
    "spring_force",
    "stop_room",
    "reserve",
    "old_damper_ratio",
];

/// The tables of one axle.
pub fn axle(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Vec<Block> {
    let axle = answer.axle(side);
    let stands = State::ALL.into_iter().filter(|s| axle.standing.of(*s).is_some());
    let columns: Vec<Column> = stands.map(|s| (s.words().to_owned(), s.key().to_owned())).collect();
    let mut blocks = Vec::new();
    if !columns.is_empty() {
        let keys = STANDING.map(|key| format!("{}.{{}}.{key}", side.key()));
        blocks.push(Block::Heading(axle.side.axle().to_owned()));
        let keys = keys.each_ref().map(String::as_str);
        blocks.push(results.table(axle.side.axle().to_owned(), &columns, &keys, units));
    }
    blocks.extend(springs(answer, side, units));
    blocks.extend(damper_tables::blocks(answer, side, units));
    blocks
}

pub(in crate::report) fn band<Q: Quantity>(band: &Band<Q>, units: &UnitChoice) -> String {
    let unit = units.unit(Q::DIM);
    say!(
        "{low} to {high}",
        low = display::rounded_number(band.low.si(), unit),
        high = display::rounded(band.high, units)
    )
}

/// The table of one axle's spring.
pub fn springs(answer: &Answer, side: Side, units: &UnitChoice) -> Option<Block> {
    let axle = answer.axle(side);
    let sizing = axle.sizing.as_ref()?;
    let keeps = axle.plan == Plan::Keep;
    let part = answer.released(side).ok();
    let pair = |what: &str, text: String| vec![what.to_owned(), text];
    let mut rows = vec![
        pair(tr("Wanted ride frequency, on springs"), band(&sizing.frequency, units)),
        pair(tr("Spring rate for it"), band(&sizing.spring_rate, units)),
    ];
    if !keeps {
        rows.extend(to_buy(part, units));
    }
    rows.push(pair(tr("Rate for the old frequency"), known(sizing.same_frequency, units)));
    let same = axle.same_factor.map_or(tr("not known").into(), |f| {
        format!("{} (× {})", known(f.spring_rate, units), display::fixed(f.factor.si(), 3))
    });
    rows.push(pair(tr("Paper check: old rate × mass after ÷ before"), same));
    if !keeps && !axle.kind.is_coil() {
        rows.push(pair(tr("Spring load at the wanted height"), display::rounded(sizing.spring_force, units)));
    } else if !keeps {
        rows.push(pair(tr("Spring load at the wanted height"), display::rounded(sizing.spring_force, units)));
        rows.extend(lengths(part, units));
    }
    rows.extend(part.map(|p| pair(tr("Spacer alone, old spring"), spacer_words(p.spacer, units))));
    if axle.kind.is_coil() {
        rows.push(pair(tr("Seat margin at full droop"), known(axle.room.seat, units)));
        rows.push(pair(tr("Room to coil bind at full bump"), known(axle.room.to_bind, units)));
    }
    rows.extend(
        axle.room.stored_at_metal.map(|e| pair(tr("Energy in the spring at full bump"), display::rounded(e, units))),
    );
    rows.push(vec![tr("Damper travel left, bump").into(), known(axle.room.damper_bump, units)]);
    rows.push(vec![tr("Damper travel left, droop").into(), known(axle.room.damper_droop, units)]);
    let side = axle.side.word();
    let head = if keeps { say!("{side} spring (stays)", side) } else { say!("{side} spring", side) };
    Some(Block::Table { head: vec![head, String::new()], rows })
}

/// The rows of the spring to buy; one that says so while it is withheld.
fn to_buy(part: Option<Part<'_>>, units: &UnitChoice) -> Vec<Vec<String>> {
    let pair = |what: &str, text: String| vec![what.to_owned(), text];
    let Some(part) = part else {
        return vec![pair(tr("Spring to buy"), tr("withheld; the first line of the axle says why").into())];
    };
    let Some(spring) = &part.spring else { return Vec::new() };
    let named = sentence::bought(part.taken.as_deref(), spring, units);
    match (&spring.bar, &part.taken) {
        (Some(bar), _) => {
            let index =
                bar.index.map_or(tr("not known").into(), |a| format!("{}°", display::signed(a.si().to_degrees(), 1)));
            vec![
                pair(tr("Bar diameter for it"), band(&bar.diameter, units)),
                pair(tr("Stock bars that work"), sentence::bars_that_work(bar, units).unwrap_or(tr("none").into())),
                pair(tr("Bar diameter nearest the middle"), named),
                pair(tr("Index it from the old bar's place, + winds up"), index),
            ]
        }
        (None, Some(_)) => vec![pair(tr("Spring taken from the list"), named)],
        (None, None) => vec![pair(tr("Stock rate nearest the middle"), named)],
    }
}

/// The rows of the lengths of a coil to buy.
fn lengths(part: Option<Part<'_>>, units: &UnitChoice) -> Vec<Vec<String>> {
    let Some((part, spring)) = part.and_then(|p| Some((p, p.parts().spring.as_ref()?))) else { return Vec::new() };
    let pair = |what: &str, length: Option<Length>| vec![what.to_owned(), known(length, units)];
    let mut rows = vec![pair(tr("Free length for the wanted height"), spring.free_length)];
    if part.taken.is_none() {
        rows.push(pair(tr("Free length to order, settling allowed for"), spring.order_length));
    }
    rows
}

fn spacer_words(spacer: Option<Spacer>, units: &UnitChoice) -> String {
    let Some(spacer) = &spacer else { return tr("not known").into() };
    if let Some(index) = spacer.index {
        let reserve =
            spacer.reserve.map_or(tr("reserve not known").into(), |r| say!("reserve {reserve:.2} g", reserve = r.si()));
        let frequency = display::rounded(spacer.frequency, units);
        return say!(
            "none: the old bar indexed by {degrees:+.1}° instead, then {frequency} and {reserve}",
            frequency,
            reserve,
            degrees = index.si().to_degrees()
        );
    }
    let thickness = display::rounded(spacer.thickness, units);
    if spacer.thickness.si() <= 0.0 || display::rounded_number(spacer.thickness.si(), units.unit(Dim::Length)) == "0" {
        return tr("none needed: the old spring sits high enough").into();
    }
    let reserve =
        spacer.reserve.map_or(tr("reserve not known").into(), |r| say!("reserve {reserve:.2} g", reserve = r.si()));
    let frequency = display::rounded(spacer.frequency, units);
    match spacer.to_bind.filter(|left| left.si() < 0.0) {
        Some(left) => say!(
            "{thickness}, then {frequency} and {reserve}; the coils touch each other {by} before full bump",
            thickness,
            frequency,
            reserve,
            by = display::rounded(-left, units)
        ),
        None => say!("{thickness}, then {frequency} and {reserve}", thickness, frequency, reserve),
    }
}

fn findings(answer: &Answer) -> Vec<Block> {
    if answer.findings.is_empty() {
        return vec![Block::Heading(tr("Findings").into()), Block::Text(tr("Nothing to question.").into())];
    }
    let mut blocks = vec![Block::Heading(tr("Findings").into())];
    for stop in answer.findings.iter().filter(|f| f.level == Level::Stop) {
        blocks.push(Block::Caution(stop.text.clone()));
    }
    let rest = answer.findings.iter().filter(|f| f.level != Level::Stop);
    blocks.push(Block::List(rest.flat_map(with_mends).collect()));
    blocks
}

/// A finding, and below it what would mend it.
fn with_mends(finding: &Finding) -> Vec<String> {
    let mends = finding.mends.iter().map(|mend| {
        let (label, fields) = (&mend.label, mend.by_label().join("; "));
        if fields.is_empty() {
            say!("to mend: {label}", label)
        } else {
            say!("to mend: {label} ({fields})", label, fields)
        }
    });
    std::iter::once(format!("{}: {}", finding.level.word(), finding.text)).chain(mends).collect()
}

/// What was not checked for want of data.
fn not_checked(job: &Job, answer: &Answer) -> Vec<Block> {
    match unchecked::lines(job, answer) {
        lines if lines.is_empty() => Vec::new(),
        lines => vec![Block::Heading(tr("Not checked").into()), Block::List(lines)],
    }
}

fn defaults(answer: &Answer) -> Vec<Block> {
    let list: Vec<String> =
        listed_defaults(answer).map(|d| format!("{}: {} ({})", default_label(&d.path), d.text, d.reason)).collect();
    if list.is_empty() {
        return Vec::new();
    }
    vec![Block::Heading(tr("Defaults this rests on").into()), Block::List(list)]
}

/// The defaults worth listing: the shop's limits are not, nor how sure a number is when nothing is said.
pub fn listed_defaults(answer: &Answer) -> impl Iterator<Item = &crate::solve::answer::UsedDefault> {
    answer.defaults.iter().filter(|d| !["limits.", "certainty."].iter().any(|own| d.path.starts_with(own)))
}

/// The label of a default's field.
pub fn default_label(path: &str) -> String {
    let side = |key: &str| if key == Side::Front.key() { Side::Front.word() } else { Side::Rear.word() };
    match path.split_once('.') {
        Some((key, "damper_ratio")) => say!("{side}, damper motion ratio", side = side(key)),
        Some((key, "ratio")) => say!("{side}, motion ratio", side = side(key)),
        _ => crate::job::fields::full_label(path),
    }
}
