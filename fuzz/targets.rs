//! What must hold for any bytes at all: no panic, nothing that is not finite, and what is read can be written again.

use springwright::base::progress::Watch;
use springwright::base::units::entry::AnyEntry as _;
use springwright::base::units::{
    DecimalMark, Dim, Entry, Length, Quantity, SpringRate, UnitChoice, Velocity, choice, parse, table,
};
use springwright::job::{file, paste};
use springwright::report;
use springwright::report::Block;
use springwright::shop::jobs_folder;
use springwright::shop::parts;
use springwright::shop::parts::test_sheet::{self, Ask, Direction};
use springwright::shop::recordings;
use springwright::solve::recorded;
use springwright::solve::solve;
use springwright::trade::damper::{Curve, TEST_SPEEDS_M_PER_S};

const MARKS: [DecimalMark; 2] = [DecimalMark::Point, DecimalMark::Comma];

/// A field's text, read as every quantity; typed under a unit it keeps its words.
pub fn entry_text(data: &[u8]) {
    let text = String::from_utf8_lossy(data);
    for (dim, _) in choice::DIMS {
        for mark in MARKS {
            match parse::number(&text, dim, mark) {
                Ok(number) => assert!(number.si().is_finite(), "{text:?} is {number:?}"),
                Err(error) => assert!(!error.to_string().is_empty()),
            }
        }
    }
    typed::<SpringRate>(&text);
    typed::<Length>(&text);
}

fn typed<Q: Quantity>(text: &str) {
    for mark in MARKS {
        for unit in table::of(Q::DIM) {
            let mut entry = Entry::<Q>::default();
            entry.type_text(text, unit, mark);
            assert!(entry.text.contains(text.trim()), "{text:?} became {:?}", entry.text);
            entry.set_pm(text, springwright::base::units::Spread::Limits);
            if let Some(u) = entry.stated_si(1.0, mark) {
                assert!(u.is_finite() && u >= 0.0, "± {text:?} is {u}");
            }
        }
    }
}

/// A job file: refused, or solved, and the same again after it was saved; its name in the list of jobs is its own.
pub fn job_file(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else { return };
    let skimmed = jobs_folder::from_text(text);
    match file::parse(text) {
        Ok(job) => {
            let saved = file::text(&job).expect("what was read can be written");
            assert!(file::parse(&saved).is_ok_and(|again| again == job), "changed by saving:\n{saved}");
            assert_eq!((&skimmed.customer, &skimmed.vehicle), (&job.customer.name, &job.vehicle.name));
            assert_eq!(skimmed.wrong, None);
            solve(&job);
            solve(&jobs_folder::start_from(&job));
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}

/// A parts list with springs and the forces of dampers: every number that is taken is finite.
pub fn parts_list(data: &[u8]) {
    let Ok(columns) = parts::guess(data) else { return };
    let Ok(list) = parts::read(data, &columns) else { return };
    for spring in &list.springs {
        assert!(spring.rate.si().is_finite() && spring.rate.si() > 0.0, "{spring:?}");
        let lengths = [spring.free_length, spring.solid_length, spring.inside_diameter, spring.wire];
        assert!(lengths.into_iter().flatten().all(|l| l.si().is_finite()), "{spring:?}");
    }
    for point in list.dampers.iter().flat_map(|d| &d.points) {
        let forces = [point.bump, point.rebound].into_iter().flatten();
        assert!(point.speed.si() > 0.0 && forces.into_iter().all(|f| f.si().is_finite()), "{point:?}");
    }
}

/// A damper's test sheet in either convention: refused, or sizes of forces at speeds, and a report without a number
/// that is none.
pub fn damper_sheet(data: &[u8]) {
    let [speed, force] = [Dim::DamperSpeed, Dim::Force].map(|d| table::of(d).last());
    let asks = [
        Ask::default(),
        Ask { speed, force, plus: Direction::Rebound, decimal: Some(DecimalMark::Comma) },
        Ask { speed, force, plus: Direction::Bump, decimal: Some(DecimalMark::Point) },
    ];
    for ask in asks {
        let read = match test_sheet::read(data, &ask) {
            Ok(read) => read,
            Err(error) => {
                assert!(!error.to_string().is_empty());
                continue;
            }
        };
        assert!(!read.rows.is_empty());
        assert!(read.rows.windows(2).all(|pair| pair[0].line < pair[1].line), "{:?}", read.rows);
        let is_size = |si: f64| si.is_finite() && si >= 0.0;
        for row in &read.rows {
            let forces = [row.point.bump, row.point.rebound];
            assert!(is_size(row.point.speed.si()) && forces.iter().any(Option::is_some), "{row:?}");
            assert!(forces.into_iter().flatten().all(|f| is_size(f.si())), "{row:?}");
            assert!(row.click.is_none_or(f64::is_finite), "{row:?}");
        }
        let (report, _) = report::pictures::curve_table::build(&read);
        for block in &report.blocks {
            let Block::Table { rows, .. } = block else { continue };
            assert!(!rows.iter().flatten().any(|cell| cell.contains("NaN") || cell.contains("inf")), "{rows:?}");
        }
        every_click(&read.rows);
    }
}

/// What makes a curve gives back finite forces, and rates that are none below zero.
fn every_click(rows: &[test_sheet::Row]) {
    let mut clicks: Vec<_> = rows.iter().map(|r| r.click).collect();
    clicks.dedup();
    for click in clicks {
        let points: Vec<_> = rows.iter().filter(|r| r.click == click).map(|r| r.point).collect();
        let Ok(curve) = Curve::through(&points) else { continue };
        for point in &points {
            let (bump, rebound) = curve.forces(point.speed);
            assert!(bump.si().is_finite() && rebound.si().is_finite(), "{points:?}");
        }
        for speed in TEST_SPEEDS_M_PER_S.map(Velocity::from_si) {
            let mean = curve.equal_work(speed).mean().si();
            assert!(mean.is_finite() && mean >= 0.0, "{mean} from {points:?}");
        }
    }
}

/// What is pasted: scale readings, and rows of a table.
pub fn pasted(data: &[u8]) {
    let text = String::from_utf8_lossy(data);
    let units = UnitChoice::metric();
    let [mass, length] = [Dim::Mass, Dim::Length].map(|d| units.unit(d));
    for mark in MARKS {
        for refused in [
            paste::corners(&text, mass, mark).err(),
            paste::rows(&text, &[length, length], mark).err(),
            paste::named_rows(&text, &[mass, length, length], mark).err(),
        ] {
            assert!(refused.is_none_or(|words| !words.to_string().is_empty()));
        }
    }
}

/// A recording: refused with words, or even samples, and what they show is finite.
pub fn recording(data: &[u8]) {
    match recordings::read(data, &recordings::Ask::default(), &Watch::default()) {
        Ok(read) => {
            let stretches = &read.record.stretches;
            assert!(stretches.iter().flat_map(|s| &s.axes).flatten().all(|v| v.is_finite()), "{read:?}");
            let found = recorded::analyse(&read.record, read.signal, read.named);
            for figure in report::results::recorded(&found, None, None) {
                let is_finite = |v: Option<f64>| v.is_none_or(f64::is_finite);
                assert!(is_finite(figure.si) && is_finite(figure.u_si), "{figure:?}");
            }
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}
