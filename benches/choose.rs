//! Choosing from the parts list, beside a numpy script that does the same work on the same numbers.
//!
//! 100,000 draws with 8 springs, and ranking of 100,000 rows, each in one run; the script tells what it took and what
//! it found. Aim: a quarter of its time. Without python3 and numpy only our own times are told.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a benchmark says why it stops")]

#[path = "common/timing.rs"]
#[allow(dead_code, reason = "what others need")]
mod timing;

use std::io::Write;
use std::process::{Command, Stdio};

use serde_json::{Value, json};
use springwright::base::progress::Watch;
use springwright::base::units::entry::Spread;
use springwright::base::units::{Length, Quantity, SpringRate};
use springwright::choose::draws::{self, Drawn, Draws};
use springwright::choose::{Candidate, Limit, MOST, Pairing, Ranking, Shelf};
use springwright::job::{Job, Load, LoadCase, Side};
use springwright::shop::parts::Spring;
use springwright::shop::presets;
use springwright::solve::ground::Survey;
use springwright::solve::solve;
use timing::{Against, Measured, Table, timed};

const DRAWS: Draws = Draws { count: 100_000, seed: 7 };
const ROWS: usize = 100_000;
const RUNS: usize = 9;

/// Springs around what the demo needs: rates 45 to 75 N/mm, free lengths 330 to 390 mm.
fn springs(count: usize) -> Vec<Spring> {
    (0..count)
        .map(|i| {
            let (a, b) = ((i * 7919) % 1009, (i * 104_729) % 997);
            Spring {
                rate: SpringRate::from_si(45e3 + 30e3 * a as f64 / 1008.0),
                free_length: Some(Length::from_si(0.33 + 0.06 * b as f64 / 996.0)),
                solid_length: Some(Length::from_si(0.15 + 0.03 * a as f64 / 1008.0)),
                ..Spring::numbered(i + 2, &format!("B{i:06}"))
            }
        })
        .collect()
}

/// The demo with two more load cases, as a shop would have them: three beside the vehicle as weighed.
fn job() -> Job {
    let mut job = presets::demo();
    for (mass, x) in [("80 kg", "1250 mm"), ("420 kg", "2100 mm")] {
        let load = Load { mass: mass.into(), x: x.into(), ..Load::default() };
        job.cases.push(LoadCase { loads: vec![load], ..LoadCase::default() });
    }
    job
}

/// Prints what numpy finds for four springs on the demo's front axle: the numbers of `chances_as_numpy_finds_them`.
fn reference() {
    let job = presets::demo();
    let four = [(55.0, 365.0, 165.0), (60.0, 350.0, 168.0), (65.0, 345.0, 170.0), (52.0, 372.0, 165.0)];
    let list: Vec<Spring> = four
        .map(|(rate, free, solid)| Spring {
            rate: SpringRate::from_si(rate * 1e3),
            free_length: Some(Length::from_si((free + 3.0) / 1e3)), // settles by 3 mm
            solid_length: Some(Length::from_si(solid / 1e3)),
            ..Spring::numbered(1, "n")
        })
        .to_vec();
    let survey = Survey::new(&job, Side::Front);
    let wish = survey.wish().expect("the demo's wishes");
    let candidates: Vec<Candidate> = list.iter().map(|s| Candidate::of(s, &wish)).collect();
    let ranking = Ranking::new(&job, Side::Front, &list).expect("the demo can be ranked");
    let mut asked = asked(&job, &survey, &candidates, &list, &ranking);
    (asked["draws"], asked["runs"]) = (4_000_000.into(), 1.into());
    let found = by_numpy(&asked).expect("python3 with numpy");
    println!(
        "chances {}, as fitted {}\nfrequency mean, sd, height mean, sd, spacer mean, sd {}",
        found["chances"], found["as_fitted"], found["springs"]
    );
}

fn main() {
    if std::env::args().any(|a| a == "--reference") {
        return reference();
    }
    let mut table = Table::of("choose");
    let job = job();
    let list = springs(ROWS);
    let survey = Survey::new(&job, Side::Front);
    let wish = survey.wish().expect("the demo's wishes");
    let (laying, shelf) = timed(RUNS, || Shelf::new(&list, &wish));
    let (ranking_took, ranking) =
        timed(RUNS, || Ranking::asked(&job, Side::Front).expect("the demo can be ranked").rank(&list, &shelf));
    // Springs as they are drawn: some of those that fit, from the best to the last.
    let step = ranking.fitting / 8;
    let few: Vec<Spring> = (0..8).map(|i| list[ranking.ranked[i * step].row].clone()).collect();
    let candidates: Vec<Candidate> = few.iter().map(|s| Candidate::of(s, &wish)).collect();
    let (drawing, (_, drawn)) = timed(RUNS, || {
        let drawn =
            draws::run(&job, Side::Front, &candidates, |_| 1.0, DRAWS, &Watch::default()).expect("not cancelled");
        (drawn.needed_within(0.95), drawn)
    });
    table.row(&format!("lay out {ROWS} rows, once for each choice"), &laying, Against::Nothing);
    let answer = by_numpy(&asked(&job, &survey, &candidates, &list, &ranking));
    for (what, took, key) in [
        (format!("{} draws of {} springs", DRAWS.count, few.len()), &drawing, "draws_ms"),
        (format!("rank {ROWS} rows"), &ranking_took, "ranking_ms"),
    ] {
        match &answer {
            Some(answer) => table.row(&what, took, Against::Other("numpy", &times(&answer[key]), 0.25)),
            None => table.row(&what, took, Against::Nothing),
        }
    }
    match answer {
        Some(answer) => compare(&answer, &drawn, &ranking),
        None => println!("python3 with numpy is not here: no comparison"),
    }
    pairs(&mut table);
    table.end();
}

/// Left and right from 1,000 springs, the engine off to one side: all that is found of pairs, and how the vehicle stands on
/// each.
fn pairs(table: &mut Table) {
    let mut job = presets::demo();
    (job.after.lf, job.after.rf) = ("495 kg".into(), "413 kg".into());
    job.front.choice.spacer_most = "0 mm".into();
    let (answer, list) = (solve(&job), springs(MOST));
    let ranking = Ranking::new(&job, Side::Front, &list).expect("the demo can be ranked");
    let picked = ranking.ranked.first().map(|r| r.row);
    let (took, pairs) = timed(RUNS, || {
        let pairing =
            Pairing::of(&job, &answer, Side::Front, &ranking, &list, picked).expect("the corners were weighed");
        pairing.named(&Watch::default(), 1).expect("some pair")
    });
    println!(
        "pairs: {} and {} springs at the corners, {} named",
        pairs.tried.left,
        pairs.tried.right,
        pairs.named.len()
    );
    table.row(&format!("pairs of {MOST} springs"), &took, Against::Limit(1000.0));
}

fn times(ms: &Value) -> Measured {
    Measured::new(ms.as_array().expect("times").iter().map(|t| t.as_f64().expect("a time")).collect(), "ms")
}

/// The same chances and the same rows?
fn compare(answer: &Value, drawn: &Drawn, ranking: &Ranking) {
    for (i, theirs) in answer["chances"].as_array().expect("chances").iter().enumerate() {
        let (ours, theirs) = (drawn.chance(i), theirs.as_f64().expect("a chance"));
        let sampling = (2.0 * (ours * (1.0 - ours)).max(1e-6) / DRAWS.count as f64).sqrt();
        println!("spring {i}: chance {ours:.4}, numpy {theirs:.4}, {:+.1} sampling errors", (ours - theirs) / sampling);
    }
    let same = answer["fitting"].as_u64() == Some(ranking.fitting as u64);
    let verdict = if same { "the same" } else { "NOT the same" };
    println!("rows that fit: {} and {}: {verdict}", ranking.fitting, answer["fitting"]);
}

/// Everything the script needs, in SI.
fn asked(job: &Job, survey: &Survey<'_>, springs: &[Candidate], list: &[Spring], ranking: &Ranking) -> Value {
    let inputs: Vec<Value> = survey
        .inputs()
        .iter()
        .map(|i| json!({"path": i.path, "value": i.value_si, "u": i.u_si, "normal": i.spread == Spread::Standard}))
        .collect();
    let one = |c: &Candidate| json!([c.rate_n_per_m, c.rate_tolerance, c.free_m, c.length_tolerance_m, c.solid_m]);
    let w = &ranking.wish;
    let z = |l: Limit| ranking.spread_of(l);
    json!({
        "runs": RUNS, "draws": DRAWS.count, "seed": DRAWS.seed, "inputs": inputs,
        "rows_z": job.front.ratio.rows.iter().map(|r| r.wheel.read(job.decimal).unwrap().unwrap().si()).collect::<Vec<_>>(),
        "cases": job.cases.iter().map(|c| c.loads.len()).collect::<Vec<_>>(),
        "frequency": ranking.ground.frequency_hz,
        "wish": {"height": w.height_m, "up": w.spacer_m, "down": w.seat_down_m, "laden": w.laden, "bind": w.bind_m, "seat": w.seat_m},
        "settle": [w.settle_u_m.0, w.settle_u_m.1 == Spread::Standard],
        "springs": springs.iter().map(one).collect::<Vec<_>>(),
        "list": list.iter().map(|s| Candidate::of(s, w)).map(|c| json!([c.rate_n_per_m, c.free_m, c.solid_m])).collect::<Vec<_>>(),
        "spread": Limit::ALL.map(z),
    })
}

fn by_numpy(asked: &Value) -> Option<Value> {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/choose_numpy.py");
    let python = Command::new("python3").arg(script).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn();
    let mut python = python.ok()?;
    python.stdin.take()?.write_all(asked.to_string().as_bytes()).ok()?;
    let out = python.wait_with_output().ok()?;
    serde_json::from_slice(&out.stdout).ok()
}
