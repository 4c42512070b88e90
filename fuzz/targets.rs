//! What must hold for any bytes at all: no panic, nothing that is not finite, and what is read can be written again.

use springwright::job::{file, paste};
use springwright::solve::solve;
use springwright::units::entry::AnyEntry as _;
use springwright::units::{DecimalMark, Entry, Length, Quantity, SpringRate, UnitChoice, choice, parse, table};
use springwright::{jobs, parts};

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
            entry.set_pm(text, springwright::units::Spread::Limits);
            if let Some(u) = entry.stated_si(1.0, mark) {
                assert!(u.is_finite() && u >= 0.0, "± {text:?} is {u}");
            }
        }
    }
}

/// A job file: refused, or solved, and the same again after it was saved; its name in the list of jobs is its own.
pub fn job_file(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else { return };
    let skimmed = jobs::from_text(text);
    match file::parse(text) {
        Ok(job) => {
            let saved = file::text(&job).expect("what was read can be written");
            assert!(file::parse(&saved).is_ok_and(|again| again == job), "changed by saving:\n{saved}");
            assert_eq!((&skimmed.customer, &skimmed.vehicle), (&job.customer.name, &job.vehicle.name));
            assert_eq!(skimmed.wrong, None);
            solve(&job);
            solve(&jobs::start_from(&job));
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

/// What is pasted: scale readings, and rows of a table.
pub fn pasted(data: &[u8]) {
    let text = String::from_utf8_lossy(data);
    let units = UnitChoice::metric();
    let [mass, length] = [springwright::units::Dim::Mass, springwright::units::Dim::Length].map(|d| units.unit(d));
    for mark in MARKS {
        for refused in [
            paste::corners(&text, mass, mark).err(),
            paste::rows(&text, &[length, length], mark).err(),
            paste::named_rows(&text, &[mass, length, length], mark).err(),
        ] {
            assert!(refused.is_none_or(|words| !words.is_empty()));
        }
    }
}
