//! Recordings as files: every form in which tables of time and acceleration are met, damaged ones, and the command.

use std::path::Path;

use proptest::prelude::*;
use serde_json::Value;
use springwright::base::progress::Watch;
use springwright::job::file;
use springwright::shop::lists::Shop;
use springwright::shop::recordings::{Ask, RecordError, Recording, open_as, read};
use springwright::solve::recorded::{Direction, Signal, analyse};

use crate::common::told::cli;

const C8: &str = include_str!("../cases/bounce-c8.csv");

/// Rows of C8: time, then three axes.
fn rows() -> Vec<[f64; 4]> {
    let row = |line: &str| {
        let cells: Vec<f64> = line.split(',').map(|c| c.parse().expect("a number")).collect();
        [cells[0], cells[1], cells[2], cells[3]]
    };
    C8.lines().skip(1).map(row).collect()
}

fn opened(text: &str) -> Recording {
    read(text.as_bytes(), &Ask::default(), &Watch::default()).unwrap_or_else(|e| panic!("{e}\n{}", &text[..200]))
}

fn refused(text: &str) -> String {
    let error = read(text.as_bytes(), &Ask::default(), &Watch::default()).expect_err("it is refused");
    error.to_string()
}

/// Whatever its form, the record is that of C8.
#[track_caller]
fn is_c8(recording: &Recording) {
    let plain = opened(C8);
    assert_eq!((recording.record.stretches.len(), recording.axes.len()), (1, 3), "{:?}", recording.notes);
    assert!((recording.record.rate_hz() - 50.0).abs() < 1e-6, "{}", recording.record.rate_hz());
    for (axis, wanted) in recording.record.stretches[0].axes.iter().zip(&plain.record.stretches[0].axes) {
        assert_eq!(axis.len(), wanted.len());
        let off = axis.iter().zip(wanted).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        assert!(off < 2e-3, "{off}; {:?}", recording.notes);
    }
}

/// C8 with this header and each row written so.
fn written(header: &str, row: impl Fn(usize, &[f64; 4]) -> String) -> String {
    let rows = rows();
    let body: Vec<String> = rows.iter().enumerate().map(|(i, r)| row(i, r)).collect();
    format!("{header}{}\n", body.join("\n"))
}

#[test]
fn tables_as_they_are_met_in_the_wild() {
    let g = 9.806_65;
    let comma = |v: f64| format!("{v:.4}").replace('.', ",");
    let forms = [
        C8.to_owned(),
        C8.replace('\n', "\r\n"),
        format!("\u{feff}{C8}"),
        written("Zeit (s);Beschleunigung x (m/s²);Beschleunigung y (m/s²);Beschleunigung z (m/s²)\n", |_, r| {
            r.map(comma).join(";")
        }),
        written(
            "\"Time (s)\",\"Acceleration x (m/s^2)\",\"Acceleration y (m/s^2)\",\"Acceleration z (m/s^2)\"\n",
            |_, r| r.map(|v| format!("\"{}\"", comma(v))).join(","),
        ),
        written("time\tgFx\tgFy\tgFz\n", |_, r| format!("{}\t{}\t{}\t{}", r[0], r[1] / g, r[2] / g, r[3] / g)),
        written("# logger 3, serial 17\n# started 10:00\nt [ms], acc_x [g], acc_y [g], acc_z [g]\n", |_, r| {
            format!("{}, {}, {}, {}", r[0] * 1e3, r[1] / g, r[2] / g, r[3] / g)
        }),
        written("% t ax ay az\n", |_, r| format!("{:.2}   {:.3}  {:.3}  {:.3}", r[0], r[1], r[2], r[3])),
        written("", |_, r| format!("{},{},{},{}", r[0], r[1], r[2], r[3])),
        written("", |i, r| format!("{},{},{},{}", 5_000_000_u64 + 20_000 * i as u64, r[1], r[2], r[3])),
        written("timestamp_ns,x,y,z\n", |i, r| {
            format!("{},{},{},{}", 1_700_000_000_000_000_000_u64 + 20_000_000 * i as u64, r[1], r[2], r[3])
        }),
        written("time,seconds_elapsed,z,y,x\n", |i, r| {
            format!("{},{},{},{},{}", 1_700_000_000_000_000_000_u64 + 20_000_000 * i as u64, r[0], r[3], r[2], r[1])
        }),
        written("Clock;ax;ay;az\n", |i, r| {
            let ms = 86_399_000 + 20 * i;
            let (h, m, s) = (ms / 3_600_000 % 24, ms / 60_000 % 60, ms % 60_000);
            format!("{h:02}:{m:02}:{:02}.{:03};{};{};{}", s / 1000, s % 1000, r[1], r[2], r[3])
        }),
        written("datetime,ax (m/s2),ay (m/s2),az (m/s2)\n", |i, r| {
            let ms = 20 * i;
            format!("2026-11-28T14:03:{:02}.{:03}Z,{},{},{}", ms / 1000, ms % 1000, r[1], r[2], r[3])
        }),
        written("dt (s),ax (m/s2),ay (m/s2),az (m/s2)\n", |_, r| format!("0.02,{},{},{}", r[1], r[2], r[3])),
        written("Time,Acceleration X,Acceleration Y,Acceleration Z\n[s],[m/s^2],[m/s^2],[m/s^2]\n", |_, r| {
            format!("{},{},{},{}", r[0], r[1], r[2], r[3])
        }),
        written("time,gyroX,gyroY,gyroZ,accelX,accelY,accelZ\n", |_, r| {
            format!("{},0.1,0.2,0.3,{},{},{}", r[0], r[1], r[2], r[3])
        }),
        written("time (s),ax (m/s2),ay (m/s2),az (m/s2),absolute acceleration\n", |_, r| {
            format!("{},{:e},{:e},{:e},9.9", r[0], r[1], r[2], r[3])
        }),
        written("Zeit;ax;ay;az\n", |_, r| format!("{};{};{};{};", comma(r[0]), comma(r[1]), comma(r[2]), comma(r[3]))),
    ];
    for (i, form) in forms.iter().enumerate() {
        println!("form {i}: {}", form.lines().take(3).collect::<Vec<_>>().join(" | "));
        let recording = opened(form);
        if form.contains(",z,y,x") {
            // The axes are named in another order; the motion is the same.
            assert_eq!(recording.axes, ["z", "y", "x"]);
        } else {
            is_c8(&recording);
        }
        let found = analyse(&recording.record, recording.signal, None);
        assert_eq!(found.bounce.decays.len(), 3, "form {i}");
        let damping = found.bounce.damping.expect("found").value;
        assert!((damping - 0.2).abs() < 0.02, "form {i}: {damping}");
    }
    let utf16: Vec<u8> = [0xFF, 0xFE].into_iter().chain(C8.encode_utf16().flat_map(u16::to_le_bytes)).collect();
    is_c8(&read(&utf16, &Ask::default(), &Watch::default()).expect("UTF-16"));
}

#[test]
fn without_gravity_the_strongest_axis_is_taken_and_said() {
    let rest = [0.684, -0.342, 9.777];
    let text = written("time (s),ax (m/s2),ay (m/s2),az (m/s2)\n", |_, r| {
        format!("{},{},{},{}", r[0], r[1] - rest[0], r[2] - rest[1], r[3] - rest[2])
    });
    let recording = opened(&text);
    let found = analyse(&recording.record, recording.signal, recording.named);
    assert_eq!(found.vertical.expect("an acceleration").direction, Direction::Strongest(2));
    assert_eq!(found.bounce.decays.len(), 3);
    let ask = Ask { axis: Some("x".to_owned()), ..Ask::default() };
    let named = read(text.as_bytes(), &ask, &Watch::default()).expect("x is there");
    assert_eq!(named.named, Some(0));
    assert_eq!(
        analyse(&named.record, named.signal, named.named).vertical.map(|v| v.direction),
        Some(Direction::Named(0))
    );
    let ask = Ask { axis: Some("w".to_owned()), ..Ask::default() };
    let error = read(text.as_bytes(), &ask, &Watch::default()).expect_err("there is none");
    assert!(error.to_string().contains("there is no column \"w\""), "{error}");
}

#[test]
fn what_was_asked_for_goes_before_what_is_likely() {
    let bare = written("ax,ay,az\n", |_, r| format!("{},{},{}", r[1], r[2], r[3]));
    assert!(refused(&bare).contains("no column gives the time"));
    let ask = Ask { rate_hz: Some(50.0), ..Ask::default() };
    is_c8(&read(bare.as_bytes(), &ask, &Watch::default()).expect("by the rate"));
    let mm = written("time (s),height\n", |_, r| format!("{},{}", r[0], 10.0 * (r[3] - 9.777)));
    let recording = opened(&mm);
    assert_eq!(recording.signal, Signal::Displacement);
    assert!(
        recording.notes.iter().any(|n| n.to_string().contains("displacements taken as mm")),
        "{:?}",
        recording.notes
    );
    let ask = Ask { unit: Some("cm".to_owned()), ..Ask::default() };
    let cm = read(mm.as_bytes(), &ask, &Watch::default()).expect("in cm");
    assert!((cm.record.stretches[0].axes[0][100] / recording.record.stretches[0].axes[0][100] - 10.0).abs() < 1e-9);
    for (ask, wanted) in [
        (Ask { unit: Some("furlong".to_owned()), ..Ask::default() }, "\"furlong\" is not a unit for"),
        (Ask { time_unit: Some("fortnight".to_owned()), ..Ask::default() }, "\"fortnight\" is not a unit for time"),
    ] {
        let error = read(C8.as_bytes(), &ask, &Watch::default()).expect_err("no unit");
        assert!(error.to_string().contains(wanted), "{error}");
    }
}

#[test]
fn damaged_files_get_words() {
    let head = "time_s,ax_m_s2,ay_m_s2,az_m_s2\n";
    assert!(refused("").contains("empty") && refused(" \n\n").contains("empty"));
    assert!(refused("a letter\nto a friend\nwithout numbers\n").contains("no rows of numbers"));
    assert!(refused("\0\0\0\u{1}").contains("not text"));
    assert!(refused(&written(head, |i, _| format!("{},0.1,0.2,9.8", i as f64 / 50.0))).contains("same value"));
    assert!(
        refused(&written("time,temperature\n", |i, _| format!("{},21.5", i as f64 / 50.0)))
            .contains("no column gives an acceleration")
    );
    let hours = written(head, |i, r| format!("{},{},{},{}", 30 * i, r[1], r[2], r[3]));
    assert!(refused(&hours).contains("samples per second; at least 8 are needed"), "{}", refused(&hours));
    let wrong_unit = written("time_ns,ax,ay,az\n", |i, r| format!("{},{},{},{}", 20 * i, r[1], r[2], r[3]));
    assert!(refused(&wrong_unit).contains("more than any sensor"), "{}", refused(&wrong_unit));
    let letters = written(head, |i, r| {
        if i % 3 == 0 { format!("{},?,{},{}", r[0], r[2], r[3]) } else { r.map(|v| v.to_string()).join(",") }
    });
    let said = refused(&letters);
    assert!(said.contains("200 of 600 rows cannot be used, the first in line 2: \"?\" is not a number"), "{said}");
    let backward = written(head, |i, r| format!("{},{},{},{}", 100.0 - i as f64 / 50.0, r[1], r[2], r[3]));
    assert!(refused(&backward).contains("the time is not later than in the row before"), "{}", refused(&backward));
    let far = written(head, |i, r| format!("{},{},{},{}e300", r[0], r[1], r[2], 1 + i % 7));
    assert!(refused(&far).contains("beyond the range of any sensor"), "{}", refused(&far));
    assert!(refused("time,az\n0.0,9.8\n0.02,9.9\n0.04,9.7\n").contains("at least 8 are needed"));
}

#[test]
fn odd_rows_and_gaps_are_said_and_the_rest_is_read() {
    let head = "time_s,ax_m_s2,ay_m_s2,az_m_s2\n";
    let some = written(head, |i, r| {
        if i == 5 {
            "overflow".to_owned()
        } else if i == 77 {
            format!("{},,,", r[0])
        } else {
            r.map(|v| v.to_string()).join(",")
        }
    });
    let recording = opened(&some);
    assert_eq!(recording.cautions.len(), 1, "{:?}", recording.cautions);
    assert!(
        recording.cautions[0].to_string().contains("Rows left out: 2, the first in line 7: 4 cells are expected"),
        "{:?}",
        recording.cautions
    );
    let gap: String =
        C8.lines().enumerate().filter(|(i, _)| !(180..200).contains(i)).map(|(_, l)| format!("{l}\n")).collect();
    let recording = opened(&gap);
    assert_eq!(recording.record.gaps, 1);
    assert!(
        recording.cautions.iter().any(|c| c.to_string().contains("Gaps in the samples: 1;")),
        "{:?}",
        recording.cautions
    );
    let clipped = written(head, |_, r| format!("{},{},{},{}", r[0], r[1], r[2], r[3].clamp(9.3, 10.6)));
    let recording = opened(&clipped);
    assert!(
        recording.cautions.iter().any(|c| c.to_string().contains("reached the end of its range")),
        "{:?}",
        recording.cautions
    );
    assert!(opened(C8).cautions.is_empty());
}

/// A phone that slips by ten degrees in the middle: said, and what is found stays near.
#[test]
fn a_phone_that_slips_is_said() {
    let turn = 10_f64.to_radians();
    let text = written("time (s),ax (m/s2),ay (m/s2),az (m/s2)\n", |i, r| {
        let (sin, cos) = if i < 400 { (0.0, 1.0) } else { turn.sin_cos() };
        format!("{},{},{},{}", r[0], cos * r[1] + sin * r[3], r[2], cos * r[3] - sin * r[1])
    });
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("slipped.csv");
    file::write_text(&path, &text).expect("written");
    let (code, said) = cli(&["record", path.to_str().expect("UTF-8")]);
    assert_eq!(code, Some(0), "{said}");
    assert!(said.contains("The direction of gravity changed by 10°"), "{said}");
    let recording = opened(&text);
    let found = analyse(&recording.record, recording.signal, recording.named).bounce;
    assert!(found.decays.len() >= 2, "{found:?}");
    assert!((found.damping.expect("found").value - 0.2).abs() < 0.03, "{found:?}");
}

#[test]
fn reading_is_told_and_can_be_stopped() {
    let long: String =
        (0..30_000).map(|i| format!("{},{}\n", f64::from(i) / 50.0, 9.8 + 0.1 * f64::from(i % 7))).collect();
    let watch = Watch::default();
    read(long.as_bytes(), &Ask::default(), &watch).expect("a record");
    assert!(watch.share() > 0.5);
    watch.cancel();
    assert_eq!(read(long.as_bytes(), &Ask::default(), &watch), Err(RecordError::Stopped));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]
    #[test]
    fn any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = read(&bytes, &Ask::default(), &Watch::default()).map(|r| analyse(&r.record, r.signal, r.named));
    }

    #[test]
    fn any_table_is_read_or_refused(text in "[0-9.,;:e\\-\tTZ xyztag\"#\n]{0,300}") {
        let _ = read(text.as_bytes(), &Ask::default(), &Watch::default()).map(|r| analyse(&r.record, r.signal, r.named));
    }

    #[test]
    fn any_rows_are_analysed(values in proptest::collection::vec((-40.0..40.0_f64, 0.001..0.2_f64), 8..120)) {
        let mut time = 0.0;
        let text: String = values.iter().map(|(a, step)| { time += step; format!("{time},{a}\n") }).collect();
        let _ = read(text.as_bytes(), &Ask::default(), &Watch::default()).map(|r| analyse(&r.record, r.signal, r.named));
    }
}

#[test]
fn the_command_gives_text_and_json() {
    let (code, text) = cli(&["record", "tests/cases/bounce-c8.csv"]);
    assert_eq!(code, Some(0), "{text}");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for wanted in [
        "12.0 s at 50 Hz",
        "Vertical axis found from gravity",
        "All decays",
        "body mode damping ratio",
        "damping D as defined in Directive 96/53/EC",
    ] {
        assert!(text.to_lowercase().contains(&wanted.to_lowercase()), "{wanted} is not in:\n{text}");
    }
    let (code, json) = cli(&["record", "tests/cases/bounce-c8.csv", "--json"]);
    assert_eq!(code, Some(0));
    let json: Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(json["decays"].as_array().expect("a list").len(), 3);
    // By zlib.crc32 of Python.
    assert_eq!(json["recording"]["crc32"], "0d100449");
    for args in [&["record", "no-such.csv"][..], &["record", "tests/cases"], &["record", "Cargo.toml"]] {
        assert_eq!(cli(args).0, Some(3), "{args:?}");
    }
    assert_eq!(cli(&["record", "tests/cases/bounce-c8.csv", "--axle", "middle"]).0, Some(2));
}

/// C8's vehicle as a job: frequency, damping and wheel rate agree with it, and the damping ratio before is offered.
#[test]
fn a_bounce_is_compared_with_the_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("thrapley.ron");
    let mut job = file::read(Path::new("tests/cases/c9.ron")).expect("a job");
    (job.before.front, job.after.front) = ("874 kg".into(), "874 kg".into());
    (job.front.unsprung, job.front.tyre_rate) = ("42 kg".into(), "205 N/mm".into());
    job.front.spring.rate = "24.6 N/mm".into();
    job.front.damper.bump_rate = "1053 N·s/m".into();
    job.front.damper.rebound_rate = "2106 N·s/m".into();
    job.front.bench = Default::default();
    file::write(&path, &job).expect("written");
    let path = path.to_str().expect("UTF-8");
    let (code, json) = cli(&["record", "tests/cases/bounce-c8.csv", "--job", path, "--json"]);
    assert_eq!(code, Some(0), "{json}");
    let json: Value = serde_json::from_str(&json).expect("JSON");
    for key in ["frequency", "damping", "wheel_rate"] {
        assert_eq!(json["accepted"][key], true, "{key}: {json:#}");
    }
    let value = |key: &str| {
        json["results"].as_array().unwrap().iter().find(|r| r["key"] == key).unwrap_or_else(|| panic!("{key}"))["value"]
            .as_f64()
    };
    let predicted = value("recording.predicted.damping").expect("known");
    assert!((predicted - 0.215).abs() < 1e-3, "{predicted}");
    let on_springs = value("recording.on_springs").expect("known");
    assert!((on_springs / 0.2534 - 1.0).abs() < 0.1, "{on_springs}");
    assert_eq!(json["field"]["path"], "front.damper.ratio_before");
    let entry = json["field"]["entry"].as_str().expect("an entry");
    // What it says can be put into the file as it stands.
    let text = file::text(&job).expect("a job");
    let text = text.replacen("damper: (", &format!("damper: (ratio_before: {entry}, "), 1);
    let again: springwright::job::Job = file::parse(&text).unwrap_or_else(|e| panic!("{e}\n{text}"));
    assert!((again.front.damper.ratio_before.read(again.decimal).unwrap().unwrap().value - on_springs).abs() < 1e-3);
    let (_, after) = cli(&["record", "tests/cases/bounce-c8.csv", "--job", path, "--state", "new"]);
    assert!(after.contains("verdict") && !after.contains("To use this result in the job"), "{after}");
}

/// What was chosen by hand for columns is remembered for exactly these, and forgotten when nothing is chosen any more.
#[test]
fn columns_of_a_logger_are_remembered() {
    let folder = tempfile::tempdir().expect("a folder");
    let shop = Shop::at(folder.path().join("lists"));
    let columns = ["a", "b", "c"].map(str::to_owned);
    let chosen = Ask { time: Some("b".into()), axis: Some("c".into()), unit: Some("g".into()), ..Ask::default() };
    shop.remember_recording(&columns, &chosen).expect("kept");
    shop.remember_recording(&["d".to_owned()], &Ask { unit: Some("mm".into()), ..Ask::default() }).expect("kept");
    let all = shop.recording_mappings();
    assert_eq!(all.of(&columns), Some(&chosen));
    assert_eq!(all.of(&columns[..2]), None);
    let path = folder.path().join("log.csv");
    file::write_text(&path, &written("a,b,c\n", |_, [t, _, _, z]| format!("7,{t},{}", z / 9.806_65))).expect("written");
    let found = open_as(&path, &Ask::default(), &all, &Watch::default()).expect("read as chosen");
    assert_eq!((&found.asked, found.axes.len(), found.columns.len()), (&chosen, 1, 3));
    assert!(found.notes.iter().any(|n| n.to_string().contains("with your earlier choice")), "{:?}", found.notes);
    let plain = opened(C8);
    let off = |i: usize| found.record.stretches[0].axes[0][i] - plain.record.stretches[0].axes[2][i];
    assert!((0..600).map(off).all(|o| o.abs() < 1e-6));
    let asked = Ask { time: Some("b".into()), axis: Some("a".into()), ..Ask::default() };
    let still = open_as(&path, &asked, &all, &Watch::default()).expect_err("no motion").to_string();
    assert!(still.starts_with(&RecordError::Constant.to_string()), "what is asked comes first: {still}");
    shop.remember_recording(&columns, &Ask::default()).expect("kept");
    assert_eq!(shop.recording_mappings().of(&columns), None);
}
