//! Tables of a recording: how it was read, its bounces, its drive, and what it says of an axle of the job.

use serde_json::{Value, json};

use crate::base::language::{path_text, tr};
use crate::base::units::{Dim, Quantity, UnitChoice, display};
use crate::job::{Job, Side};
use crate::report::results::as_json::head;
use crate::report::results::{Results, before_after, recorded};
use crate::report::{Block, Report};
use crate::say;
use crate::shop::recordings::Recording;
use crate::solve::answer::{Answer, AxleAnswer, Measured, State};
use crate::solve::recorded::{Against, Analysed, Direction, LeftOut, OfAxle, Signal};

/// Results of one record.
pub struct Told<'a> {
    /// Its file.
    pub file: &'a std::path::Path,
    /// As read.
    pub recording: &'a Recording,
    /// As analysed.
    pub analysed: &'a Analysed,
    /// The axle and state that it is of, with the job's answer.
    pub of: Option<(Side, State, &'a Answer)>,
    /// What it says of that axle.
    pub axle: Option<OfAxle>,
    /// Its acceleration over that of the record it is compared with, with its ±.
    pub ratio: Option<Measured>,
}

/// Gravity that turns by more than this moved with the phone, degrees.
const SLIPPED_DEG: f64 = 4.0;

/// The whole report.
pub fn build(told: &Told<'_>, units: &UnitChoice) -> Report {
    let results: Results = recorded(told.analysed, told.axle.as_ref(), told.ratio).into();
    let mut blocks = as_read(told);
    blocks.extend(bounce(told, &results, units));
    blocks.extend(of_axle(told, &results, units));
    if let Some((path, entry)) = field(told) {
        blocks.push(Block::Text(say!("To use this result in the job, set this field: {path}: {entry}", path, entry)));
    }
    blocks.extend(drive(told, &results, units));
    Report { title: say!("Recording: {file}", file = path_text(told.file)), blocks }
}

/// What the window shows of a bounce: the comparison with the axle first.
pub fn in_window(told: &Told<'_>, units: &UnitChoice) -> Vec<Block> {
    let results: Results = recorded(told.analysed, told.axle.as_ref(), told.ratio).into();
    [of_axle(told, &results, units), bounce(told, &results, units), as_read(told)].concat()
}

/// What the window shows of a drive.
pub fn drive_in_window(told: &Told<'_>, units: &UnitChoice) -> Vec<Block> {
    let results: Results = recorded(told.analysed, told.axle.as_ref(), told.ratio).into();
    let shown = drive(told, &results, units);
    let too_short = shown.is_empty().then(|| {
        let text =
            tr("A recorded drive needs at least 32 s of acceleration data: eight segments of 4 s show the scatter.");
        Block::Caution(text.to_owned())
    });
    [shown, too_short.into_iter().collect(), as_read(told)].concat()
}

/// What the job holds of recorded drives; nothing without any.
pub fn drives(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let found = &answer.whole.drives;
    if !found.is_known() {
        return Vec::new();
    }
    let columns = before_after([tr("before the change"), tr("after the change")], [true; 2], "drive");
    let table = results.table_told(tr("Recorded drives").to_owned(), &columns, &["felt", "rms"], units);
    let mut blocks: Vec<Block> = table.into_iter().collect();
    let rows = results.known("drive", &["ratio"], units);
    if rows.is_empty() {
        return blocks;
    }
    blocks.push(Block::table([tr("Recorded drives compared"), tr("measured")], rows));
    blocks.push(Block::Text(match found.are_alike {
        true => tr("The customer's sheet says how they compare.").to_owned(),
        false => tr("They appear on the customer's sheet only once the job states that the stretch of road, the speed and the sensor position were the same.").to_owned(),
    }));
    blocks
}

/// How the file was read, and what is doubtful in it.
fn as_read(told: &Told<'_>) -> Vec<Block> {
    let (recording, record) = (told.recording, &told.recording.record);
    let mut notes = vec![say!(
        "{length} s at {rate} Hz: {columns}",
        length = display::fixed(record.length_s(), 1),
        rate = display::significant(record.rate_hz(), 4),
        columns = recording.axes.join(", ")
    )];
    notes.extend(told.analysed.vertical.as_ref().map(|v| match v.direction {
        Direction::Gravity(size) => say!("Vertical axis found from gravity, {size:.2} m/s² at rest", size),
        Direction::Strongest(axis) => say!(
            "The recording does not contain gravity: the axis with the most motion was used, {column}. If this is not the vertical axis, name the correct column",
            column = recording.axes.get(axis).map_or("", String::as_str)
        ),
        Direction::Named(axis) => {
            say!("Vertical axis: {column}", column = recording.axes.get(axis).map_or("", String::as_str))
        }
    }));
    notes.extend(recording.notes.iter().map(ToString::to_string));
    let turned = told.analysed.vertical.as_ref().and_then(|v| v.turned_rad).map(f64::to_degrees);
    let slipped = turned.filter(|t| *t > SLIPPED_DEG).map(|turned| {
        say!("The direction of gravity changed by {turned:.0}° between start and end: the phone slipped or the vehicle was moved. Secure the phone and record again", turned)
    });
    let cautions = recording.cautions.iter().map(ToString::to_string).chain(slipped);
    std::iter::once(Block::List(notes)).chain(cautions.map(Block::Caution)).collect()
}

/// The free decays, each in a row, and all together.
fn bounce(told: &Told<'_>, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let bounce = &told.analysed.bounce;
    let mut blocks = vec![Block::Heading(tr("Bounce tests").into())];
    if bounce.decays.is_empty() {
        let text = tr(
            "No free decay was found. For a bounce test, push one end of the vehicle down in time with its own motion, let go at the lowest point, and let it come to rest. Do this three times or more.",
        );
        blocks.push(Block::Text(text.to_owned()));
        return blocks;
    }
    let row = |decay: &crate::solve::recorded::Decay| {
        let fit = &decay.fit;
        vec![
            display::fixed(decay.from_s, 2),
            display::fixed(decay.until_s, 2),
            display::measured_si(fit.frequency_hz.value, fit.frequency_hz.u, Dim::Frequency, units),
            display::measured_si(fit.damping.value, fit.damping.u, Dim::Ratio, units),
        ]
    };
    let head = [tr("start, s"), tr("end, s"), tr("frequency"), tr("damping ratio")];
    blocks.push(Block::table(head, bounce.decays.iter().map(row).collect()));
    let keys = ["frequency", "damping", "directive", "friction", "peak_speed"];
    blocks.push(Block::table([tr("All decays"), tr("measured")], results.known("recording", &keys, units)));
    blocks.extend(bounce_remarks(told).into_iter().map(Block::Text));
    blocks
}

fn bounce_remarks(told: &Told<'_>) -> Vec<String> {
    let bounce = &told.analysed.bounce;
    let mut said = Vec::new();
    if bounce.frequency_hz.is_none() {
        said.push(tr("With a damping ratio above 0.3, too few cycles are left: the frequency cannot be determined, and the damping ratio is only approximate.").to_owned());
    }
    if bounce.decays.len() < 3 {
        said.push(say!(
            "Decays found: {count}. Three or more are needed to show the scatter.",
            count = bounce.decays.len()
        ));
    }
    if let Some(friction) = bounce.friction {
        let [large, small] = friction.damping;
        said.push(say!("The damping ratio rises from {large:.2} at large amplitude to {small:.2} at small amplitude. The cause is friction, or a damper curve that is flatter above its knee.", large, small));
    }
    let free = bounce.left_out.iter().filter(|l| l.1 == LeftOut::NotFree).count();
    let other = bounce.left_out.len() - free;
    if free > 0 {
        said.push(say!(
            "Motions left out: {count}. They are not free decays (still being pushed, a knock, a phone that slipped).",
            count = free
        ));
    }
    if other > 0 {
        said.push(say!(
            "Decays left out: {count}. Their frequency differs from the others by more than 15 %.",
            count = other
        ));
    }
    if told.recording.signal == Signal::Displacement {
        said.push(tr("A displacement was recorded, so friction is not given in percent of the load.").to_owned());
    }
    said
}

/// What the job holds of recorded bounces of one axle; nothing without any.
pub fn measured(axle: &AxleAnswer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let words = [tr("before the change"), tr("after the change")];
    let is_known = axle.bounce.both().map(|found| found.is_known());
    let columns = before_after(words, is_known, &format!("{}.bounce.measured", axle.side.key()));
    let keys = ["frequency", "frequency_off", "damping", "damping_off", "wheel_rate"];
    let what = say!("Recorded bounce tests: {axle}", axle = axle.side.word_inside());
    results.table_told(what, &columns, &keys, units).into_iter().collect()
}

/// Against what the job predicts, and what goes into it.
fn of_axle(told: &Told<'_>, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let Some((side, state, answer)) = told.of else { return Vec::new() };
    let mut blocks = vec![Block::Heading(say!("{axle}, {state}", axle = side.axle(), state = state.words()))];
    if !told.axle.is_some_and(|axle| axle.is_compared()) {
        let text = tr(
            "This axle is not known well enough for a comparison. Still needed: weights, unsprung mass, a spring, a damper and the tyre.",
        );
        blocks.push(Block::Text(text.to_owned()));
    }
    let Some(axle) = &told.axle else { return blocks };
    let value = |m: Measured, dim| display::measured_si(m.value, m.u, dim, units);
    let row = |words: &str, dim: Dim, against: Option<Against>| {
        let a = against?;
        let verdict = if a.is_accepted() { tr("agrees") } else { tr("differs by more than twice the combined ±") };
        Some(vec![words.to_owned(), value(a.predicted, dim), value(a.found, dim), verdict.to_owned()])
    };
    let rows = [
        row(tr("body mode frequency"), Dim::Frequency, axle.frequency_hz),
        row(tr("body mode damping ratio"), Dim::Ratio, axle.damping),
        row(tr("wheel rate"), Dim::SpringRate, axle.wheel_rate_against()),
    ];
    let rows: Vec<Vec<String>> = rows.into_iter().flatten().collect();
    if !rows.is_empty() {
        blocks.push(Block::table(["", tr("predicted"), tr("measured"), tr("verdict")], rows));
    }
    let keys = ["damping_rate", "on_springs", "wheel_rate"];
    let rows = results.known("recording", &keys, units);
    if !rows.is_empty() {
        blocks.push(Block::table([tr("From the bounce tests"), tr("measured")], rows));
    }
    blocks.extend(by_curve(told, axle, units).map(Block::Text));
    blocks.push(Block::Text(coupled(answer, state)));
    blocks
}

/// How the damper's curve leads from the bounce's speed to the job's; nothing for straight lines.
fn by_curve(told: &Told<'_>, axle: &OfAxle, units: &UnitChoice) -> Option<String> {
    const SAME: f64 = 0.005;
    let (side, _, answer) = told.of?;
    let rate = axle.rate_at_speed?.si();
    let speeds = [told.analysed.bounce.peak_speed_m_per_s?, answer.axle(side).damping.as_ref()?.peak_speed.si()];
    let [wheel, damper] = speeds.map(|speed| display::rounded_si(speed, Dim::DamperSpeed, units));
    ((rate - 1.0).abs() > SAME).then(|| {
        say!(
            "In the bounce test the wheel moved at up to {wheel}. At that speed, the damper rate from the damper curve is {rate:.2} times the rate at the peak speed for damper curves ({damper} at the damper). Predicted values are for the speed in the bounce test; the damping ratio without tyre deflection is for the peak speed for damper curves.",
            wheel,
            rate,
            damper
        )
    })
}

/// Whether a bounce of one end moves the other.
fn coupled(answer: &Answer, state: State) -> String {
    const NONE_M: f64 = 0.1;
    let pitch = answer.whole.pitch.of(state).as_ref().filter(|p| !p.assumed);
    let Some(pitch) = pitch else {
        return tr(
            "The radius of gyration in pitch was not measured: front and rear are assumed to move independently.",
        )
        .to_owned();
    };
    let off_m = pitch.b.si() - pitch.radius.si().powi(2) / pitch.a.si();
    match off_m.abs() < NONE_M {
        true => tr("Front and rear move independently (b − κ²/a is small).").to_owned(),
        false => say!(
            "Front and rear are coupled: b − κ²/a is {off:.2} m. Bouncing one end also moves the other, so the decay contains more than one mode.",
            off = off_m
        ),
    }
}

/// The field that a bounce before the change fills, and what goes into it.
fn field(told: &Told<'_>) -> Option<(String, String)> {
    let (side, state, _) = told.of.filter(|of| of.1 == State::Before)?;
    let ratio = told.axle.as_ref()?.on_springs?;
    debug_assert_eq!(state, State::Before);
    let path = format!("{}.damper.ratio_before", side.key());
    // Two figures of the ±, as a file writes it: with a point.
    let entry = format!("(text: \"{:.3}\", origin: Measured, pm: \"{:.3}\", spread: Standard)", ratio.value, ratio.u);
    Some((path, entry))
}

/// How it is felt.
fn drive(told: &Told<'_>, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let Some(drive) = &told.analysed.drive else { return Vec::new() };
    let keys = ["rms", "weighted", "crest", "body_peak", "hop_peak", "ratio"];
    let mut blocks = vec![
        Block::Heading(tr("Evaluated as a drive").into()),
        Block::table([tr("Acceleration of the body"), tr("measured")], results.known("recording", &keys, units)),
    ];
    match drive.felt {
        Some(felt) => blocks.push(Block::Text(say!(
            "Vibration dose value (VDV, fourth power): {dose} m/s^1.75.",
            dose = display::significant(felt.dose, 3)
        ))),
        None => blocks.push(Block::Text(
            tr("The weighted acceleration (W_k) is not given: it needs at least 100 samples per second.").to_owned(),
        )),
    }
    if let Some(ratio) = told.ratio {
        let differs = (ratio.value - 1.0).abs() > 2.0 * ratio.u;
        blocks.push(Block::Text(match differs {
            true => tr("The two drives differ by more than twice their ±. This is meaningful only on the same stretch of road, at the same speed, with the sensor in the same position.").to_owned(),
            false => tr("No measurable difference.").to_owned(),
        }));
    }
    blocks
}

/// As JSON, SI.
pub fn json(told: &Told<'_>, job: &Job) -> Value {
    let bounce = &told.analysed.bounce;
    let record = &told.recording.record;
    let decays = bounce.decays.iter().map(|d| {
        let fit = &d.fit;
        json!({
            "from_s": d.from_s, "until_s": d.until_s, "frequency_hz": fit.frequency_hz.value,
            "u_frequency_hz": fit.frequency_hz.u, "damping": fit.damping.value, "u_damping": fit.damping.u,
            "residual": fit.residual, "size": fit.size(),
        })
    });
    let mut value = head(job, &recorded(told.analysed, told.axle.as_ref(), told.ratio));
    value["recording"] = json!({
        "file": told.file.to_string_lossy(), "crc32": format!("{:08x}", told.recording.checksum),
        "length_s": record.length_s(), "rate_hz": record.rate_hz(), "gaps": record.gaps,
        "interpolated": record.interpolated, "columns": told.recording.axes,
        "notes": told.recording.notes, "cautions": told.recording.cautions,
    });
    value["decays"] = decays.collect::<Vec<_>>().into();
    value["left_out"] = bounce
        .left_out
        .iter()
        .map(|(from_s, why)| {
            let why = if *why == LeftOut::NotFree { "not_free" } else { "other_frequency" };
            json!({"from_s": from_s, "why": why})
        })
        .collect::<Vec<_>>()
        .into();
    if let Some((path, entry)) = field(told) {
        value["field"] = json!({"path": path, "entry": entry});
    }
    let accepted = |against: Option<Against>| against.map(|a| a.is_accepted());
    if let Some(axle) = &told.axle {
        value["accepted"] = json!({
            "frequency": accepted(axle.frequency_hz), "damping": accepted(axle.damping),
            "wheel_rate": accepted(axle.wheel_rate_against()),
        });
    }
    if let Some(drive) = &told.analysed.drive {
        value["dose_m_per_s175"] = drive.felt.map(|f| f.dose).into();
        value["spectrum"] = drive.spectrum.iter().map(|[hz, density]| json!([hz, density])).collect::<Vec<_>>().into();
    }
    value
}
