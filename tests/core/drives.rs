//! Recorded drives: what the job holds of them, their ratio with its ±, and when the customer reads of it.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::f64::consts::TAU;

use springwright::base::units::Spread;
use springwright::base::units::entry::AnyEntry;
use springwright::job::{DriveReading, Job};
use springwright::report::pictures::motion;
use springwright::report::results::Results;
use springwright::shop::presets;
use springwright::solve::recorded::Drive;
use springwright::solve::solve;
use springwright::trade::recording::drive::drive;

use crate::common::sheets as common;

fn reading(felt: &str, rms: &str) -> DriveReading {
    let mut reading = DriveReading { felt: felt.into(), rms: rms.into(), ..Default::default() };
    let entries: [&mut dyn AnyEntry; 2] = [&mut reading.felt, &mut reading.rms];
    entries.into_iter().for_each(|entry| entry.set_pm("2 %", Spread::Standard));
    reading
}

fn job(before: DriveReading, after: DriveReading, is_declared: [bool; 2]) -> Job {
    let mut job = presets::demo();
    (job.drive.before, job.drive.after) = (before, after);
    [job.drive.same_stretch, job.drive.same_place] = is_declared;
    job
}

fn before() -> DriveReading {
    reading("0.80 m/s²", "1.20 m/s²")
}

/// u(a/b) = (a/b)√(0.02² + 0.02²), `GUM` 5.1.2; not weighted where one of them has no W_k.
#[test]
fn the_ratio_follows_from_both_with_its_spread() {
    let ratio = |after: DriveReading| {
        let results = Results::of(&solve(&job(before(), after, [false; 2])));
        let figure = results.find("drive.ratio").expect("a result");
        (figure.si.expect("known"), figure.u_si.expect("a ±"))
    };
    for (after, wanted) in [(reading("0.60 m/s²", "0.96 m/s²"), 0.75), (reading("", "0.96 m/s²"), 0.8)] {
        let (value, u) = ratio(after);
        assert!((value - wanted).abs() < 1e-12, "{value}");
        assert!((u / (wanted * 0.02 * 2.0_f64.sqrt()) - 1.0).abs() < 1e-3, "{u}");
    }
}

/// Only when both are declared alike; 2u of a ratio near 1 is 5.7 %.
#[test]
fn the_customer_reads_of_it_only_when_both_are_declared_alike() {
    let sheet = |felt: &str, declared| {
        let job = job(before(), reading(felt, "1 m/s²"), declared);
        common::customer(&job, &solve(&job))
    };
    for declared in [[false, false], [true, false], [false, true]] {
        let text = sheet("0.60 m/s²", declared);
        assert!(!text.contains("shakes") && !text.contains("Before and after, measured"), "{declared:?}: {text}");
    }
    let text = sheet("0.60 m/s²", [true; 2]);
    assert!(text.contains("On the same road the body shakes 25 ± 2 % less than before."), "{text}");
    assert!(text.contains("We drove the same road at the same speed both times"), "{text}");
    assert!(!text.contains("We pushed the body down"), "nothing was bounced: {text}");
    assert!(sheet("0.96 m/s²", [true; 2]).contains("shakes 20 ± 3 % more than before."));
    for felt in ["0.76 m/s²", "0.84 m/s²"] {
        assert!(sheet(felt, [true; 2]).contains("we could measure no difference in how the body shakes"), "{felt}");
    }
}

/// A body and a wheel that swing at these frequencies.
fn driven(size: f64) -> Drive {
    let at = |i: u32| {
        let t = f64::from(i) / 200.0;
        size * ((TAU * 1.25 * t).sin() + 0.5 * (TAU * 11.5 * t).sin() * (1.0 + 0.2 * (TAU * 0.11 * t).sin()))
    };
    drive(&[(0.0, (0..12_000).map(at).collect())], 1.0 / 200.0).expect("60 s")
}

#[test]
fn spectra_name_their_peaks_and_axes() {
    let (before, after) = (driven(1.0), driven(0.6));
    let ratio = after.ratio_to(&before);
    let units = presets::demo().units;
    let picture = motion::drives([Some(&before), Some(&after)], ratio, &units).expect("a picture");
    assert!(picture.title.contains("0.600"), "{}", picture.title);
    assert_eq!(
        picture.lines.iter().map(|l| (l.label.as_str(), l.broken)).collect::<Vec<_>>(),
        [("before", true), ("after", false)]
    );
    assert_eq!(picture.uprights.iter().map(|u| u.1.as_str()).collect::<Vec<_>>(), ["body 1.25 Hz", "wheels 11.50 Hz"]);
    // A sine of amplitude A has the mean square A²/2, all of it within a band of 1 Hz: what the line gathers.
    let gathered: f64 =
        picture.lines[0].points.iter().filter(|p| (0.5..2.0).contains(&p[0])).map(|p| p[1] * p[1] * 0.25).sum();
    assert!((gathered / 0.5 - 1.0).abs() < 0.02, "{gathered}");
    assert!(picture.lines.iter().flat_map(|l| &l.points).all(|p| p[0] <= 25.0));
    assert!(motion::drives([None, None], None, &units).is_none());
    assert_eq!(motion::drives([Some(&before), None], None, &units).expect("one").lines.len(), 1);
}

/// The ± that goes into the job is that of the comparison: u² adds up in shares.
#[test]
fn what_the_job_holds_gives_the_ratio_of_both_records() {
    let noisy = |size: f64| {
        let mut state = 5_u64;
        let mut noise = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            (state >> 33) as f64 / f64::from(1_u32 << 31) - 0.5
        };
        drive(&[(0.0, (0..12_000).map(|_| size * noise()).collect())], 1.0 / 200.0).expect("60 s")
    };
    let (before, after) = (noisy(1.0), noisy(0.7));
    let (a, b) = (after.felt_with_u().expect("200 Hz"), before.felt_with_u().expect("200 Hz"));
    let ratio = after.ratio_to(&before).expect("eight segments");
    let by_job = (a.value / b.value, a.value / b.value * (a.u / a.value).hypot(b.u / b.value));
    assert!(
        (by_job.0 / ratio.value - 1.0).abs() < 1e-3 && (by_job.1 / ratio.u - 1.0).abs() < 1e-3,
        "{by_job:?} {ratio:?}"
    );
    let rms = before.rms_with_u().expect("eight segments");
    assert!((rms.value - before.rms_m_per_s2).abs() < 1e-12 && rms.u > 0.0);
}
