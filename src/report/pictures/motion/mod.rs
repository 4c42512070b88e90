//! Pictures of motion: rear against front, both after one hump, a recorded bounce, and spectra of recorded drives.

pub mod hump;

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, UnitChoice, display};
use crate::job::{PerAxle, Side};
use crate::report::pictures::label_places::Corner;
use crate::report::pictures::picture::{Dot, Line, Mark, Picture};
use crate::say;
use crate::shop::recordings::Recording;
use crate::solve::answer::{Answer, BodyMode, BounceMeasured, Measured, State};
use crate::solve::recorded::{Analysed, Drive, Signal, displacement};

const POINTS: usize = 241;

/// Rear frequency against front frequency: a mark for each state, a dot for each load case, lines of equal ratio.
pub fn rear_front(answer: &Answer) -> Option<Picture> {
    let both = |s: State| {
        let PerAxle { front, rear } = &answer.axles;
        Some([front.standing.of(s).as_ref()?.frequency.si(), rear.standing.of(s).as_ref()?.frequency.si()])
    };
    let places = [Corner::LEFT_ABOVE, Corner::LEFT_BELOW, Corner::RIGHT_BELOW];
    let marks: Vec<Mark> = State::ALL
        .into_iter()
        .zip(places)
        .filter_map(|(s, words)| Some(Mark { state: s, label: s.words().to_string(), at: both(s)?, words }))
        .collect();
    let at = |c: &crate::solve::answer::CaseAnswer| {
        let of =
            |side: Side| c.standing[side].new.as_ref().or(c.standing[side].old.as_ref()).map(|s| s.on.frequency().si());
        Some([of(Side::Front)?, of(Side::Rear)?])
    };
    let dots = together(answer.cases.iter().filter_map(|c| {
        let number = c.index? + 1;
        Some(Dot { at: at(c)?, label: number.to_string() })
    }));
    let all = || marks.iter().map(|m| m.at).chain(dots.iter().map(|d| d.at));
    let low = 0.9 * all().map(|p| p[0]).fold(f64::INFINITY, f64::min);
    // Room at the right for the words of the lines.
    let high = 1.2 * all().map(|p| p[0]).fold(0.0, f64::max);
    let last = both(State::NewSprings).or(both(State::OldSprings))?;
    let ratio = last[1] / last[0];
    let limits = answer.whole.ratio_limits;
    let [least, most] = [limits.least, limits.most].map(|r| r.map(Quantity::si));
    let lines = [least, most]
        .into_iter()
        .flatten()
        .map(|r| {
            let points = (0..21).map(|n| low + (high - low) * n as f64 / 20.0).map(|f| [f, r * f]).collect();
            let label = say!("rear = {ratio:.2} × front", ratio = r);
            Line { broken: true, label_at: Some(1.0), ..Line::new(None, label, points) }
        })
        .collect();
    let verdict = match (least, most) {
        (Some(least), _) if ratio < least => tr("too low, so the vehicle pitches"),
        (_, Some(most)) if ratio > most => tr("too high, so the rear is harsh"),
        _ => tr("between the lines, so the rear catches up with the front"),
    };
    let title = say!("The rear frequency is {ratio:.2} × the front frequency: {verdict}", ratio, verdict);
    let [x, y] = [tr("front ride frequency"), tr("rear ride frequency")].map(|name| (name, Dim::Frequency));
    Some(Picture { lines, marks, dots, ..Picture::new(title, x, y) })
}

/// What the numbers next to the dots mean; `None` without load cases.
pub fn case_numbers(answer: &Answer) -> Option<String> {
    let names: Vec<String> = answer.cases.iter().filter_map(|c| Some(format!("{} {}", c.index? + 1, c.name))).collect();
    (!names.is_empty()).then(|| say!("The crosses are load cases: {names}.", names = names.join(", ")))
}

/// Dots too close to distinguish are one, with all their numbers.
fn together(dots: impl Iterator<Item = Dot>) -> Vec<Dot> {
    const CLOSE: f64 = 0.015;
    let near = |a: &Dot, b: &Dot| (0..2).all(|i| (a.at[i] / b.at[i] - 1.0).abs() < CLOSE);
    let mut found: Vec<Dot> = Vec::new();
    for dot in dots {
        match found.iter_mut().find(|f| near(f, &dot)) {
            Some(same) => same.label += &format!(", {}", dot.label),
            None => found.push(dot),
        }
    }
    found
}

/// Most of a recording that is drawn, s, from its first decay on.
const DRAWN_S: f64 = 40.0;
/// A line of a recording has no more points: of each piece its lowest and its highest.
const PIECES: usize = 600;

/// A recorded motion with the free decays that count, and what was fitted to them. `None` without decays.
pub fn bounce(recording: &Recording, found: &Analysed, side: Side, units: &UnitChoice) -> Option<Picture> {
    let decays = &found.bounce.decays;
    let from_s = decays.first()?.from_s - 2.0;
    let until_s = (decays.last()?.until_s + 1.0).min(from_s + DRAWN_S);
    let record = &recording.record;
    let moved: Vec<[f64; 2]> = match &found.vertical {
        Some(up) => within(up.stretches.iter().map(|(at_s, a)| (*at_s, a)), record.every_s, [from_s, until_s]),
        None => within(displacement(record, recording.named), record.every_s, [from_s, until_s]),
    };
    let fitted = decays.iter().filter(|d| d.until_s <= until_s).enumerate().map(|(i, decay)| {
        let lasts_s = decay.until_s - decay.from_s;
        let times = (0..POINTS).map(|n| lasts_s * n as f64 / (POINTS - 1) as f64);
        let points = times.map(|t| [decay.from_s + t, decay.fit.at(t)]).collect();
        let label = if i == 0 { tr("fitted decay curve") } else { "" };
        Line { label_at: (i == 0).then_some(0.5), ..Line::new(Some(State::NewSprings), label, points) }
    });
    let recorded = Line::new(None, "", moved);
    let said = |value: Option<Measured>, dim: Dim| {
        value.map_or_else(|| tr("not known").to_owned(), |m| display::rounded_si(m.value, dim, units))
    };
    let title = say!(
        "{axle}: {frequency}, damping ratio {damping} (free decays: {count})",
        axle = side.axle(),
        count = decays.len(),
        frequency = said(found.bounce.frequency_hz, Dim::Frequency),
        damping = said(found.bounce.damping, Dim::Ratio)
    );
    let y = match recording.signal {
        Signal::Acceleration => (tr("body acceleration, upward"), Dim::Acceleration),
        Signal::Displacement => (tr("body displacement"), Dim::Length),
    };
    let x = (tr("time in the recording"), Dim::Time);
    Some(Picture { lines: std::iter::once(recorded).chain(fitted).collect(), ..Picture::new(title, x, y) })
}

/// The samples between two times; of many, the lowest and the highest of every piece.
fn within<'a>(
    stretches: impl Iterator<Item = (f64, &'a Vec<f64>)>,
    every_s: f64,
    [from_s, until_s]: [f64; 2],
) -> Vec<[f64; 2]> {
    let timed = stretches
        .flat_map(|(at_s, samples)| samples.iter().enumerate().map(move |(i, a)| [at_s + i as f64 * every_s, *a]));
    let all: Vec<[f64; 2]> = timed.filter(|[t, _]| (from_s..=until_s).contains(t)).collect();
    let piece = all.len().div_ceil(PIECES).max(1);
    if piece <= 2 {
        return all;
    }
    let ends = |samples: &[[f64; 2]]| {
        let by = |a: &&[f64; 2], b: &&[f64; 2]| a[1].total_cmp(&b[1]);
        let mut ends = [samples.iter().min_by(by).copied(), samples.iter().max_by(by).copied()];
        ends.sort_by(|a, b| a.map(|p| p[0]).unwrap_or_default().total_cmp(&b.map(|p| p[0]).unwrap_or_default()));
        ends
    };
    all.chunks(piece).flat_map(ends).flatten().collect()
}

/// How one axle's body comes to rest from the same first peak: as recorded before and after, and as predicted for the later
/// of them. `None` without a recorded frequency and damping ratio.
pub fn decays(answer: &Answer, side: Side) -> Option<Picture> {
    const SHOWN_S: f64 = 2.5;
    let [before, after] = answer.axle(side).bounce.both();
    let measured = |found: &BounceMeasured| {
        let mode = BodyMode { frequency: found.frequency?, damping: found.damping? };
        Some(mode).filter(|mode| mode.damping.si() < 1.0)
    };
    let latest = if measured(&after).is_some() { after } else { before };
    let line = |mode: BodyMode, label: &str, state: Option<State>, broken: bool| {
        let times = (0..POINTS).map(|n| SHOWN_S * n as f64 / (POINTS - 1) as f64);
        Line { broken, ..Line::new(state, label, times.map(|t| [t, mode.let_go_at(t)]).collect()) }
    };
    measured(&latest)?;
    let lines = [
        measured(&before).map(|mode| line(mode, tr("before, measured"), Some(State::Before), false)),
        measured(&after).map(|mode| line(mode, tr("after, measured"), Some(State::NewSprings), false)),
        latest.predicted.map(|mode| line(mode, tr("predicted"), None, true)),
    ];
    let title = say!("{axle}: bounce decay, measured and predicted", axle = side.axle());
    let [x, y] = [(tr("time since the first peak"), Dim::Time), (tr("body motion ÷ first peak"), Dim::Ratio)];
    Some(Picture { lines: lines.into_iter().flatten().collect(), ..Picture::new(title, x, y) })
}

/// Above this body and wheels have no peak of their own, Hz.
const SHOWN_HZ: f64 = 25.0;

/// Both drives, the one before broken; rms in a band of 1 Hz, so that the axis has a unit that is felt. `None` without any.
pub fn drives([before, after]: [Option<&Drive>; 2], ratio: Option<Measured>, units: &UnitChoice) -> Option<Picture> {
    let latest = after.or(before)?;
    let line = |drive: &Drive, label: &str, state: State, broken: bool, label_at: f64| {
        let shown = drive.spectrum.iter().filter(|p| p[0] <= SHOWN_HZ);
        let points = shown.map(|[hz, power]| [*hz, power.sqrt()]).collect();
        Line { broken, label_at: Some(label_at), ..Line::new(Some(state), label, points) }
    };
    let lines = [
        before.map(|drive| line(drive, tr("before"), State::Before, true, 0.35)),
        after.map(|drive| line(drive, tr("after"), State::NewSprings, false, 0.65)),
    ];
    let peaks = [(latest.body_hz, tr("body")), (latest.hop_hz, tr("wheels"))];
    let said = |hz: f64| display::rounded_si(hz, Dim::Frequency, units);
    let uprights = peaks.into_iter().filter_map(|(hz, words)| Some((hz?, format!("{words} {}", said(hz?)))));
    let title = match ratio {
        Some(ratio) => {
            let ratio = display::measured_si(ratio.value, ratio.u, Dim::Ratio, units);
            say!("Body acceleration, after ÷ before: {ratio}", ratio)
        }
        None => tr("Body acceleration per 1 Hz band").to_owned(),
    };
    let [x, y] = [(tr("frequency"), Dim::Frequency), (tr("rms acceleration per 1 Hz band"), Dim::Acceleration)];
    Some(Picture {
        lines: lines.into_iter().flatten().collect(),
        uprights: uprights.collect(),
        ..Picture::new(title, x, y)
    })
}
