//! The catalogue of results: every formula gives its value, and which results there are hangs on no number.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test says why it stops")]

use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::sync::{Arc, OnceLock};

use springwright::base::progress::Watch;
use springwright::base::units::display;
use springwright::choose::draws::Draws;
use springwright::choose::{choose, damper_choice};
use springwright::job::{Again, Job, PerAxle, RatioRow, Side, Walk};
use springwright::report::Block;
use springwright::report::results::{By, Figure, Results, Why, figures, some_with_steps, with_steps};
use springwright::report::sections::{self, brief};
use springwright::report::sheets::Kind;
use springwright::report::write::json;
use springwright::shop::lists::Shop;
use springwright::solve::answer::Answer;
use springwright::solve::road::NoRuns;
use springwright::solve::{planned, solve};

use crate::common::kept::{self, Kept};

/// A key without which axle, corner, case, state it is of.
fn kind_of(key: &str) -> String {
    let words = key.split('.').map(|word| match word {
        "front" | "rear" => "AXLE",
        "lf" | "rf" | "lr" | "rr" => "CORNER",
        "before" | "old_springs" | "new_springs" | "old_bars" => "STATE",
        "low" | "aim" | "high" => "END",
        "nothing" | "spacer" | "springs" | "springs_and_dampers" if key.contains(".remedies.") => "REMEDY",
        "as_weighed" => "CASE",
        case if case.starts_with("cases[") => "CASE",
        other => other,
    });
    words.collect::<Vec<_>>().join(".")
}

/// A job with every result of its answer.
struct Told {
    name: String,
    job: Job,
    figures: Vec<Figure>,
}

impl Told {
    fn of(name: &str, job: &Job, answer: &Answer) -> Self {
        Told { name: name.to_owned(), job: job.clone(), figures: figures(answer) }
    }

    fn blank() -> Self {
        Told::of("blank", &Job::default(), &solve(&Job::default()))
    }
}

/// All jobs that are shipped, kept for tests or made here: their results are collected once for all tests.
fn jobs() -> &'static [Told] {
    static JOBS: OnceLock<Vec<Told>> = OnceLock::new();
    JOBS.get_or_init(|| {
        let kept = kept::with_shipped(&["kinds", "cases", "doubtful", "released", "withheld"]);
        let kept = kept.map(|kept| Told::of(&kept.name, &kept.job, kept.answer()));
        let made = [the_demo_with_everything(), a_prediction_kept(), a_ratio_by_all_ways()];
        kept.chain(made.map(|job| Told::of(&job.vehicle.name, &job, &solve(&job)))).collect()
    })
}

/// The shipped jobs, each with every result and how far the fields move it.
fn shipped_with_steps() -> impl Iterator<Item = (&'static Kept, &'static Vec<Figure>)> {
    static STEPS: OnceLock<Vec<Vec<Figure>>> = OnceLock::new();
    let steps = STEPS.get_or_init(|| kept::shipped().iter().map(|kept| with_steps(kept.answer())).collect());
    kept::shipped().iter().zip(steps)
}

fn demo() -> &'static Kept {
    &kept::shipped()[0]
}

/// A shipped job with more typed into it.
fn shipped_with(name: &str, more: &[(&str, &str)]) -> Job {
    let mut job = kept::named(name).job.clone();
    job.before.repeats.push(Again::default());
    for (path, text) in more {
        assert!(job.set_text(path, text), "{path}");
    }
    job
}

fn the_demo_with_everything() -> Job {
    shipped_with(
        "demo-orchard-van",
        &[
            ("front.damper.gas_pressure", "10 bar"),
            ("front.damper.rod_diameter", "14 mm"),
            ("front.wheel_rating", "600 kg"),
            ("rear.wheel_rating", "600 kg"),
            ("rear.roll_bar.length", "820 mm"),
            ("rear.roll_bar.blade", "230 mm"),
            ("rear.roll_bar.diameter", "18 mm"),
            ("chassis.roll_radius", "600 mm"),
            ("chassis.cross_wanted", "50 %"),
            ("chassis.roll.gradient_low", "4 deg"),
            ("chassis.roll.front_low", "55 %"),
            ("front.thread_pitch", "2 mm"),
            ("rear.thread_pitch", "2 mm"),
            ("before.pads.lf", "3 mm"),
            ("before.repeats[0].lf", "414 kg"),
            ("before.repeats[0].rf", "397 kg"),
            ("before.repeats[0].lr", "337 kg"),
            ("before.repeats[0].rr", "331 kg"),
            ("front.bounce.before.frequency", "1.4 Hz"),
            ("front.bounce.before.damping", "0.3"),
            ("front.bounce.after.frequency", "1.3 Hz"),
            ("front.bounce.after.damping", "0.25"),
        ],
    )
}

fn a_prediction_kept() -> Job {
    let axles = [("predicted.front", "721 kg"), ("predicted.rear", "628 kg")];
    let corners = [("lf", "365 kg"), ("rf", "356 kg"), ("lr", "310 kg"), ("rr", "318 kg")];
    let mut job = shipped_with("ledger-first", &axles);
    for (corner, text) in corners {
        assert!(job.set_text(&format!("predicted.{corner}"), text), "{corner}");
    }
    job
}

fn a_ratio_by_all_ways() -> Job {
    let arm = [("front.damper_ratio.seat_arm", "280 mm"), ("front.damper_ratio.seat_angle", "15°")];
    let mut job = shipped_with("arm-off", &arm);
    for ratio in [&mut job.front.ratio, &mut job.front.damper_ratio] {
        let rows = [("-40 mm", "350 mm"), ("0 mm", "326 mm"), ("40 mm", "302 mm")];
        ratio.rows.extend(rows.map(|(wheel, length)| RatioRow { wheel: wheel.into(), length: length.into() }));
    }
    job
}

/// What a result is off by from its formula with the numbers put in, and how much may be: rounding of the last digits
/// of what was put in.
fn off(figure: &Figure, si: f64) -> Option<(f64, f64)> {
    let most = figure.with.iter().map(|(_, v, _)| v.abs()).fold(0.0, f64::max);
    Some(((figure.evaluated()? - si).abs(), 1e-9 * si.abs() + 1e-15 * most))
}

/// Results that have a value without the numbers of their formula in some job, and where that is so.
const SOMETIMES_BARE: [(&str, &[&str]); 6] = [
    ("typed", &["AXLE.old_spring.coil.active", "AXLE.offered.active", "AXLE.sizing.pick"]),
    ("from compressions alone, its length is not known", &["AXLE.room.seat"]),
    (
        "read on the scales, not put together from corners or load case",
        &["STATE.front_axle", "STATE.rear_axle", "STATE.total", "after.front_axle", "after.rear_axle", "after.total"],
    ),
    ("weighed at equal load", &["compared.STATE.AXLE", "compared.after.AXLE"]),
    (
        "a spring of another kind or with a helper, along its curve",
        &[
            "AXLE.STATE.stored",
            "AXLE.room.force_at_metal",
            "AXLE.room.stored_at_metal",
            "AXLE.old_free_length",
            "AXLE.sizing.spacer.thickness",
        ],
    ),
    ("the tyre lifts: 0", &["AXLE.bench.STATE.adhesion", "AXLE.bench.STATE.adhesion_hot"]),
];

/// The kinds of these keys.
fn kinds_of(keys: HashSet<&str>) -> BTreeSet<String> {
    keys.into_iter().map(kind_of).collect()
}

#[test]
fn every_formula_with_its_numbers_gives_its_value() {
    let (mut run, mut known, mut bare) = (HashSet::new(), HashSet::new(), HashSet::new());
    let mut wrong = BTreeMap::new();
    let mut checked = 0;
    for Told { name, figures, .. } in jobs() {
        for figure in figures {
            let key = figure.key.as_str();
            if figure.by != By::Formula {
                assert!(figure.with.is_empty(), "{name}: {key} is by {:?}, with numbers put in", figure.by);
                continue;
            }
            known.insert(key);
            let Some(si) = figure.si else { continue };
            if figure.with.is_empty() {
                bare.insert(key);
                continue;
            }
            match off(figure, si) {
                Some((off, may)) if off <= may => {
                    run.insert(key);
                    checked += 1;
                }
                bad => {
                    let said = format!("{name}: {key} = {si}; {} with {:?}: {bad:?}", figure.formula, figure.with);
                    wrong.entry(kind_of(key)).or_insert(said);
                }
            }
        }
    }
    let [run, known, bare] = [run, known, bare].map(kinds_of);
    let never: Vec<&str> = known.difference(&run).map(String::as_str).collect();
    println!("{checked} results of {} kinds by their formulas", run.len());
    assert!(
        never.is_empty(),
        "formulas that were never worked out, {checked} checked of {} kinds: {never:#?}",
        run.len()
    );
    let listed = SOMETIMES_BARE.iter().flat_map(|(_, kinds)| *kinds).map(|kind| (*kind).to_owned()).collect();
    assert_eq!(bare, listed, "known, but without the numbers of its formula");
    let wrong: Vec<String> = wrong.into_values().collect();
    assert!(wrong.is_empty(), "{} kinds of results miss their formula:\n{}", wrong.len(), wrong.join("\n"));
}

/// A result that is known in no job may never be known.
#[test]
fn every_result_is_known_in_some_job() {
    let (mut all, mut known) = (HashSet::new(), HashSet::new());
    for figure in jobs().iter().flat_map(|told| &told.figures) {
        let key = figure.key.as_str();
        all.insert(key);
        if figure.si.is_some() {
            known.insert(key);
        }
    }
    let [all, known] = [all, known].map(kinds_of);
    assert!(all.len() > 500, "{} kinds", all.len());
    assert_eq!(all.difference(&known).collect::<Vec<_>>(), Vec::<&String>::new());
}

/// Whatever is known, every result stands in the list, each once, with a reason where it is not known for want of a field.
#[test]
fn every_result_is_always_there() {
    fn all(told: &Told) -> Vec<&str> {
        told.figures.iter().map(|f| f.key.as_str()).filter(|key| !key.contains("cases[")).collect()
    }
    let blank = Told::blank();
    let first = all(&blank);
    let mut once = first.clone();
    once.sort();
    once.dedup();
    assert_eq!(once.len(), first.len());
    for told in jobs() {
        assert_eq!(all(told), first, "{}", told.name);
    }
    let front = blank.figures.iter().find(|f| f.key == "front.before.frequency").expect("always there");
    assert!(matches!(&front.why, Some(Why::Missing(fields)) if !fields.is_empty()), "{front:?}");
}

/// Shares of variance are told from a hundredth on, largest first, and never come to more than all.
#[test]
fn shares_of_variance_add_up() {
    for (Kept { name, .. }, figures) in shipped_with_steps() {
        let mut told = 0;
        for figure in figures {
            let shares = figure.shares();
            let sum: f64 = shares.iter().map(|s| s.1).sum();
            assert!(sum <= 1.0 + 1e-9, "{name}: {sum} of {:?}", figure.key);
            assert!(shares.windows(2).all(|w| w[0].1 >= w[1].1), "{name}: {shares:?}");
            assert!(shares.is_empty() || figure.u_si.is_some(), "{name}: {}", figure.key);
            told += shares.len();
        }
        assert!(told > 0, "{name}");
    }
}

/// Looked up for some results alone, every step and ± is the one found for all of them.
#[test]
fn some_results_have_the_steps_that_all_have() {
    for (kept, all) in shipped_with_steps() {
        let wanted: Vec<_> = all.iter().step_by(7).cloned().collect();
        let keys: Vec<String> = wanted.iter().map(|figure| figure.key.clone()).collect();
        assert_eq!(some_with_steps(kept.answer(), &keys), wanted, "{}", kept.name);
        assert!(wanted.iter().any(|figure| !figure.steps.is_empty()), "{}", kept.name);
    }
}

/// Collected part by part as they are asked for, or all at once: the same results.
#[test]
fn parts_collected_later_are_the_same() {
    for kept in kept::shipped() {
        let answer = Arc::new(kept.answer().clone());
        let (whole, later) = (Results::of(&answer), Results::later(&answer));
        for figure in whole.iter() {
            assert_eq!(later.find(&figure.key), Some(figure), "{}", kept.name);
        }
        assert!(later.iter().eq(whole.iter()), "{}: in the same order", kept.name);
    }
}

/// A quantity has one ±, wherever it stands: in JSON, in the tables of every sheet, in the line of the answer.
#[test]
fn a_quantity_has_one_spread_everywhere() {
    let (mut compared, mut cells) = (0, 0);
    for kept in kept::shipped() {
        let Kept { name, job, .. } = kept;
        let answer = kept.answer();
        let results = Results::of(answer);
        let value = json::value(job, answer);
        let told = by_key(&value);
        for figure in results.iter() {
            let row = told[figure.key.as_str()];
            assert_eq!((row["value"].as_f64(), row["u"].as_f64()), (figure.si, figure.u_si), "{}", figure.key);
        }
        // Whatever a table says with a ± is a result of the catalogue, as the catalogue says it.
        // What points left or down says so in words, without its sign.
        let size = |f: &Figure| f.si.map(|si| display::rounded_with_u(si.abs(), f.u_si, f.dim, &job.units));
        let both = |f: &Figure| [f.said(&job.units), f.said_bare(&job.units)];
        let told_in_tables = results.iter().filter(|f| f.is_told()).flat_map(both);
        let mut said: BTreeSet<String> = told_in_tables.chain(results.iter().filter_map(size)).collect();
        let report = kept.sheet(Kind::Full);
        // The table of plans has those of the others.
        if report.blocks.contains(&Block::Heading("Plans side by side".into())) {
            for plan in planned::every(job, answer).iter().filter(|plan| !plan.is_chosen()) {
                let results = Results::of(&solve(&plan.job));
                said.extend(results.iter().filter(|f| f.is_told()).flat_map(both));
            }
        }
        let spreads: Vec<&String> = said.iter().filter(|said| said.contains('±')).collect();
        let tables = report.blocks.iter().filter_map(|block| match block {
            Block::Table { rows, .. } => Some(rows),
            _ => None,
        });
        let rows: Vec<&Vec<String>> = tables.flatten().collect();
        for cell in rows.iter().flat_map(|row| &row[1..]).filter(|cell| cell.contains('±')) {
            cells += 1;
            let is_said = said.contains(cell) || spreads.iter().any(|said| cell.contains(*said));
            let is_limit = cell.starts_with('±') || cell.contains("the ± is smaller");
            assert!(is_said || is_limit, "{name}: {cell}");
        }
        let states = ["before", "old_springs", "new_springs"];
        let of_axles = ["wheel_rate", "frequency", "stop_room", "spring_force", "old_damper_ratio"];
        let keys = ["front", "rear"].into_iter().flat_map(|axle| {
            states.into_iter().flat_map(move |state| of_axles.map(|key| format!("{axle}.{state}.{key}")))
        });
        for figure in keys.filter_map(|key| results.find(&key)).filter(|figure| figure.si.is_some()) {
            let (head, [said, bare]) = (figure.head(&job.units), both(figure));
            let unit = figure.unit_said(&job.units).unwrap_or_default();
            // Either each cell has its unit, or the row's head has it for all.
            let is_in = |r: &&&Vec<String>| {
                r[0] == head && r.contains(&said) || r[0] == format!("{head} ({unit})") && r.contains(&bare)
            };
            assert!(rows.iter().any(|r| is_in(&r)), "{name}: {} {head}: {said}", figure.key);
            compared += 1;
        }
        for side in Side::BOTH {
            // What leads in place of the new springs has its own height and frequency.
            if answer.lead(side).is_some_and(|lead| lead.leads()) {
                continue;
            }
            let brief = brief::axle(answer, side, &job.units);
            let of = |key: &str| results.find(&format!("{}.new_springs.{key}", side.key())).map(|f| f.said(&job.units));
            for (told, key) in [(brief.frequency, "frequency"), (brief.height, "height_change")] {
                assert!(told.is_none() || told == of(key), "{name} {side:?}: {told:?}, {:?}", of(key));
            }
        }
    }
    assert!(compared > 200 && cells > 1000, "{compared} and {cells}");
}

/// A table says a unit once: in the head of a row or column whose numbers are all in it, in no cell then.
#[test]
fn a_unit_stands_once() {
    let Kept { job, .. } = demo();
    let columns = ["before", "old_springs", "new_springs"].map(|s| (s.to_owned(), s.to_owned()));
    let results = Results::of(demo().answer());
    let rows = results.rows(&["front.{}.frequency", "front.{}.height_change"], &columns, &job.units);
    assert_eq!(rows[0][0], "Ride frequency, without tyre (Hz)");
    assert!(rows[0][1..].iter().all(|cell| cell.contains('.') && !cell.contains("Hz")), "{rows:?}");
    // Words keep theirs.
    assert!(!rows[1][0].contains('(') && rows[1][2].contains(" mm lower"), "{rows:?}");
    let rows = ["before", "old_springs"].map(|s| (s.to_owned(), format!("front.{s}")));
    let Block::Table { head, rows } = results.across("State", &rows, &["frequency"], &job.units) else {
        unreachable!("a table")
    };
    assert_eq!(head[1], "ride frequency, without tyre (Hz)");
    assert!(rows.iter().all(|row| !row[1].contains("Hz")), "{rows:?}");
}

/// What choosing says in JSON and in its tables is what its list of results says; what it predicts of the rate that is
/// needed is what solving says, between draws and first order.
#[test]
fn choosing_says_the_same_as_solving() {
    let (job, answer) = (&demo().job, demo().answer());
    let opened = Shop::nowhere().open("demo", None).unwrap();
    let springs = &opened.list.springs;
    let draws = Draws { count: 20_000, seed: 1 };
    let choices = Side::BOTH.map(|side| {
        let found = choose(job, answer, side, springs, draws, &Watch::default()).transpose();
        (side, found.unwrap())
    });
    let ranked = PerAxle::each(|side| damper_choice::rank(job, answer, side, &opened.list.dampers));
    let ranked = Side::BOTH.map(|side| (answer.axle(side), ranked[side].as_ref().map_err(|unable| *unable)));
    let value = sections::choose::json(job, &choices, &ranked, &opened.list);
    let told = by_key(&value);
    let results = Results::of(answer);
    let mut seen = 0;
    for (side, choice) in &choices {
        let Ok(choice) = choice else {
            let needed = told[format!("{}.choose.needed_rate", side.key()).as_str()];
            assert!(needed["value"].is_null() && needed["why"]["reason"] == "not_done", "{needed}");
            continue;
        };
        let own = sections::choose::results(choice, springs, &job.prices.currency);
        let table = sections::choose::drafted(choice, &own, springs, &job.units);
        let Block::Table { rows, .. } = table else { panic!("a table") };
        for figure in own.iter() {
            let row = told[figure.key.as_str()];
            assert_eq!((row["value"].as_f64(), row["u"].as_f64()), (figure.si, figure.u_si), "{}", figure.key);
            if figure.key.ends_with("].frequency") {
                let said = [figure.said(&job.units), figure.said_bare(&job.units)];
                assert!(rows.iter().flatten().any(|cell| said.contains(cell)), "{}", figure.key);
            }
        }
        let aim = results.find(&format!("{}.sizing.spring_rate.aim", side.key())).unwrap();
        let needed = own.find(&format!("{}.choose.needed_rate", side.key())).unwrap();
        let (aim_u, needed_u) = (aim.u_si.unwrap(), needed.u_si.unwrap());
        assert!((needed_u / aim_u - 1.0).abs() < 0.05, "{side:?}: {needed_u} drawn, {aim_u} to first order");
        seen += 1;
    }
    assert!(seen > 0);
    for side in ["front", "rear"] {
        for key in
            ["needed_rate", "needed_rate_low", "pairs[0].left.spacer", "pairs[0].cross_weight", "dampers.fitting"]
        {
            assert!(told.contains_key(format!("{side}.choose.{key}").as_str()), "{side} {key}");
        }
    }
}

/// The results of a JSON by key.
fn by_key(value: &serde_json::Value) -> BTreeMap<&str, &serde_json::Value> {
    value["results"].as_array().unwrap().iter().map(|r| (r["key"].as_str().unwrap(), r)).collect()
}

/// Every key of the runs is there without a run, too, and says why it is not known.
#[test]
fn runs_have_the_same_results_with_and_without_a_run() {
    let job = &demo().job;
    let driven = springwright::solve::road::drive(job, demo().answer(), |_| true);
    let none = Err(NoRuns::NotKnown);
    let [run, none] = [&driven, &none].map(|driven| sections::road_tables::json(job, driven));
    let (run, none) = (by_key(&run), by_key(&none));
    assert!(run.keys().eq(none.keys()) && run.len() > 150, "{}", run.len());
    assert!(run.values().filter(|r| r["value"].is_number()).count() > 100);
    assert!(none.values().all(|r| r["value"].is_null() && r["why"]["reason"] == "not_done"));
}

/// A field that a result waits for is a field of the job.
#[test]
fn what_is_missing_is_a_field() {
    let mut wrong = BTreeSet::new();
    for Told { name, job, figures } in jobs().iter().chain([&Told::blank()]) {
        let mut fields = HashSet::new();
        job.walk(&mut String::new(), &mut |path, _| fields.extend([path.to_owned()]));
        for figure in figures {
            let Some(Why::Missing(needs)) = &figure.why else { continue };
            // A row of a list need not be there yet.
            for field in needs.iter().filter(|field| !fields.contains(*field) && !field.contains('[')) {
                wrong.insert(format!("{name}: {} waits for {field}", figure.key));
            }
        }
    }
    assert!(wrong.is_empty(), "{}: {wrong:#?}", wrong.len());
}
