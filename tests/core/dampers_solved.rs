//! Dampers through whole jobs: case C4, an old curve, one that is thought of, and the list's dampers ranked.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::process::Command;

use springwright::base::units::{Force, Length, Quantity, Ratio, Velocity};
use springwright::choose::Unable;
use springwright::choose::damper_choice::{DamperLimit, rank};
use springwright::job::{AxleKind, ClickRow, CurveRow, Job, Level, Side, file};
use springwright::report::Block;
use springwright::report::pictures::force_speed;
use springwright::report::results;
use springwright::report::results::Results;
use springwright::report::sections::choose_dampers;
use springwright::report::sections::damper_tables as words;
use springwright::shop::parts::Damper;
use springwright::solve::answer::{Answer, AxleAnswer, OldDamperBy};
use springwright::solve::solve;
use springwright::trade::damper::{self, ForcePoint};

/// C4 Wrenfield estate. Independent computation, tolerance 0.1 %; invented vehicle.
const C4: &str = r#"(
  version: 1,
  job: (
    vehicle: (name: "Wrenfield estate"),
    before: (front: "812 kg"),
    after: (front: "944 kg"),
    front: (
      unsprung: "44 kg",
      ratio: (by: Number, number: "0.68", confirm: "0.68"),
      damper_ratio: (by: Number, number: "0.74", confirm: "0.74"),
      spring: (rate: "41 N/mm"),
      travel: (stop_gap: "68 mm", metal: "68 mm"),
      tyre_rate: "205 N/mm",
      damper: (ratio_before: "0.27"),
      target: (goal: AsBefore, damping_low: "0.30", damping_high: "0.30", rebound_over_bump: "2",
               peak_speed: "0.412815426190014 m/s", knee_speed: "0.13 m/s", upper_share: "35 %"),
      stock: (step: "1 N/mm"),
    ),
  ),
)"#;

fn job(text: &str) -> Job {
    file::parse(text).expect("a job")
}

fn near(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance * want.abs(), "{what}: {got} is not {want}");
}

fn figure(answer: &Answer, key: &str) -> f64 {
    let found =
        results::figures(answer).into_iter().find(|f| f.key == key).unwrap_or_else(|| panic!("no figure {key}"));
    found.si.unwrap_or_else(|| panic!("{key} is not known"))
}

/// Values of `cases/open.json`, C4.
#[test]
fn c4_through_a_whole_job() {
    let answer = solve(&job(C4));
    for (key, want) in [
        ("front.sizing.pick", 48e3),
        ("front.before.frequency", 1.151_772_453_441_279_7),
        ("front.old_springs.frequency", 1.059_251_501_282_934_4),
        ("front.new_springs.frequency", 1.146_113_897_019_255),
        ("front.damping.old_at_wheel", 1_414.649_616_435_109),
        ("front.damping.at_wheel.aim", 1_849.279_972_313_548_8),
        ("front.before.old_damper_ratio", 0.27),
        ("front.old_springs.old_damper_ratio", 0.248_311_117_783_625),
        ("front.new_springs.old_damper_ratio", 0.229_491_959_727_218_5),
        ("front.damping.at_damper.aim", 3_377.063_499_476_897),
        ("front.damping.two_slope.bump_rate", 3_713.622_528_483_038_4),
        ("front.damping.two_slope.rebound_rate", 7_427.245_056_966_077),
        ("front.damping.two_slope.bump_force.0.13.aim", 482.770_928_702_795),
        ("front.damping.two_slope.rebound_force.0.13.aim", 965.541_857_405_59),
        ("front.damping.two_slope.bump_force.0.52.aim", 989.680_403_840_729_7),
        ("front.damping.two_slope.rebound_force.0.52.aim", 1_979.360_807_681_459_4),
    ] {
        near(key, figure(&answer, key), want, 1e-3);
    }
    let mut usual = job(C4);
    usual.front.target.peak_speed = "".into();
    let answer = solve(&usual);
    near("bump_low", figure(&answer, "front.damping.two_slope.bump_rate"), 2_251.375_666_317_931_5, 1e-3);
    let at = |v: &str| figure(&answer, &format!("front.damping.two_slope.bump_force.{v}.aim"));
    near("at the knee", at("0.13"), 292.678_836_621_331_13, 1e-3);
    near("at 0.52", at("0.52"), 599.991_615_073_728_7, 1e-3);
    let mut gas = job(C4);
    (gas.front.damper.gas_pressure, gas.front.damper.rod_diameter) = ("10 bar".into(), "14 mm".into());
    let answer = solve(&gas);
    near("gas", figure(&answer, "front.damping.gas_force"), 153.938_040_025_899_88, 1e-3);
    near("lift", figure(&answer, "front.damping.gas_lift"), 5.132_377_704_150_712e-3, 1e-3);
}

fn row(speed: &str, bump: &str, rebound: &str) -> CurveRow {
    CurveRow { speed: speed.into(), bump: bump.into(), rebound: rebound.into() }
}

fn click(n: &str, speed: &str, bump: &str, rebound: &str) -> ClickRow {
    ClickRow { click: n.into(), speed: speed.into(), bump: bump.into(), rebound: rebound.into() }
}

fn front(job: &Job) -> AxleAnswer {
    solve(job).axles.front.clone()
}

/// The rows count before the rates, the rates before the ratio; a straight curve is its rate.
#[test]
fn what_the_old_damper_is_known_by() {
    let mut job = job(C4);
    let by = |job: &Job| {
        let axle = front(job);
        let before = axle.standing.before.as_ref().expect("it stood");
        axle.old_damper.as_ref().map(|d| (d.by, d.at_wheel(&before.curve, before.travel).si()))
    };
    let (first, ratio) = by(&job).expect("known");
    assert!(matches!(first, OldDamperBy::RatioBefore(_)));
    near("by ratio", ratio, 1_414.649_616_435_109, 1e-9);
    (job.front.damper.bump_rate, job.front.damper.rebound_rate) = ("2000 N·s/m".into(), "3000 N·s/m".into());
    let (second, rates) = by(&job).expect("known");
    assert_eq!(second, OldDamperBy::Rates);
    near("by rates", rates, 2_500.0 * 0.74 * 0.74, 1e-12);
    job.front.damper.rows = vec![row("0.2 m/s", "400 N", "600 N"), row("0.5 m/s", "1000 N", "1500 N")];
    let (third, curve) = by(&job).expect("known");
    assert_eq!(third, OldDamperBy::Curve);
    near("by curve", curve, rates, 1e-12);
    // In pounds and inches nothing changes.
    job.front.damper.rows = vec![row("7.874015748 in/s", "89.92358 lbf", "134.88537 lbf")];
    near("in other units", by(&job).expect("known").1, rates, 1e-6);
    // A curve that cannot be is not replaced by anything else.
    job.front.damper.rows = vec![row("0.2 m/s", "400 N", "600 N"), row("0.2 m/s", "1000 N", "1500 N")];
    let answer = solve(&job);
    assert!(answer.axles.front.old_damper.is_none());
    assert!(answer.findings.iter().any(|f| f.rule == "damper-curve" && f.level == Level::Error));
}

/// ζ of each click by hand: rates are straight lines of 1000, 3000, 5000 N·s/m mean.
#[test]
fn the_click_of_a_damper_thought_of() {
    let mut job = job(C4);
    (job.front.target.damping_low, job.front.target.damping_high) = ("0.25".into(), "0.50".into());
    job.front.target.hot_loss = "20 %".into();
    job.front.new_damper.rows = vec![
        click("9", "1 m/s", "4000 N", "6000 N"),
        click("1", "1 m/s", "700 N", "1300 N"),
        click("5", "1 m/s", "2000 N", "4000 N"),
    ];
    let answer = solve(&job);
    let axle = answer.axle(Side::Front);
    let part = answer.released(Side::Front).expect("released");
    let offered = part.offered_damper.as_ref().expect("it is judged");
    let new = axle.standing.new.as_ref().expect("new springs");
    for (ratio, mean) in offered.ratios.iter().zip([1_000.0, 3_000.0, 5_000.0]) {
        near("ζ", ratio.si(), mean * 0.74 * 0.74 / (2.0 * (new.wheel_rate.si() * 428.0).sqrt()), 1e-9);
    }
    assert_eq!((offered.click(), offered.clicks_inside()), (Some(9.0), Some([5.0, 9.0])), "{:?}", offered.ratios);
    near("figure", figure(&answer, "front.new_damper.first_click"), 5.0, 0.0);
    let text: Vec<String> = words::blocks(&answer, &Results::of(&answer), Side::Front, &job.units)
        .into_iter()
        .map(|b| format!("{b:?}"))
        .collect();
    let text = text.join("\n");
    assert!(text.contains("yes, from click 5 to 9"), "{text}");
    assert!(text.contains("\"0.44\"") && text.contains("\"Damping ratio when hot\", \"0.36\""), "{text}");
}

/// The picture: its shade is the wanted range, lines go through the points, marks stand on the lines.
#[test]
fn force_against_speed() {
    let mut job = job(C4);
    (job.front.target.damping_low, job.front.target.damping_high) = ("0.25".into(), "0.35".into());
    job.front.target.peak_speed = "0.13 m/s".into();
    job.front.damper.rows = vec![row("0.13 m/s", "200 N", "400 N"), row("0.52 m/s", "420 N", "800 N")];
    let answer = solve(&job);
    let picture = force_speed::force_speed(&answer, Side::Front, &job.units).expect("a picture");
    assert!(picture.title.contains("the old damper gives ζ"), "{}", picture.title);
    let shade = picture.shade.as_ref().expect("the wanted range");
    let bent = answer
        .released(Side::Front)
        .expect("released")
        .damper
        .clone()
        .and_then(|d| d.two_slope_forces)
        .expect("forces");
    let at = |v: f64| {
        shade.points.iter().find(|p| (p[0] - v).abs() < 1e-9).copied().unwrap_or_else(|| panic!("no point at {v}"))
    };
    near("low", at(0.13)[1], bent[1].bump.low.si(), 1e-9);
    near("high", at(-0.13)[2], -bent[1].rebound.high.si(), 1e-9);
    let line = &picture.lines[0].points;
    for (v, force) in [(0.13, 200.0), (-0.13, -400.0), (0.52, 420.0), (-0.52, -800.0), (0.0, 0.0)] {
        let found = line.iter().find(|p| (p[0] - v).abs() < 1e-9).unwrap_or_else(|| panic!("no point at {v}"));
        assert!((found[1] - force).abs() < 1e-9, "{v}: {}", found[1]);
    }
    for mark in &picture.marks {
        let on_it = line.iter().any(|p| (p[0] - mark.at[0]).abs() < 1e-9 && (p[1] - mark.at[1]).abs() < 1e-9);
        assert!(on_it, "{} stands off its line", mark.label);
    }
}

/// Roll by hand, both axles independent: ζ = Σ c t²/2 ÷ 2√(ΣK m κ²); without the radius it is not known.
#[test]
fn damping_in_roll() {
    let mut job = job(include_str!("../../presets/demo-orchard-van.ron"));
    assert!(solve(&job).whole.roll.new.expect("roll").old_damping.is_none());
    (job.rear.kind, job.chassis.roll_radius) = (AxleKind::Independent, "0.6 m".into());
    let answer = solve(&job);
    let roll = answer.whole.roll.new.expect("roll");
    let c = |side: Side, track: f64| {
        let new = answer.axle(side).standing.new.as_ref().expect("it stands");
        let damper = answer.axle(side).old_damper.as_ref().expect("a damper");
        damper::roll_rate(damper.at_wheel(&new.curve, new.travel), Length::from_si(track))
    };
    let stiffness = roll.stiffness(Side::Front).si() + roll.stiffness(Side::Rear).si();
    let mass: f64 = answer.axles.iter().map(|a| 2.0 * a.standing.new.as_ref().expect("stands").sprung.si()).sum();
    let want = (c(Side::Front, 1.48) + c(Side::Rear, 1.46)) / (2.0 * (stiffness * mass * 0.36).sqrt());
    near("roll", roll.old_damping.expect("known").si(), want, 1e-12);
    assert!(roll.new_damping.expect("known") > roll.old_damping.expect("known"), "the old front damper is too weak");
}

fn listed(number: &str, rate: f64, closed_mm: f64, open_mm: f64, price: f64, stock: u32) -> Damper {
    let force = |share: f64| Some(Force::from_si(rate * share));
    Damper {
        line: 2,
        number: number.into(),
        what: String::new(),
        closed_length: Some(Length::from_si(closed_mm / 1e3)),
        open_length: Some(Length::from_si(open_mm / 1e3)),
        points: vec![ForcePoint { speed: Velocity::from_si(1.0), bump: force(2.0 / 3.0), rebound: force(4.0 / 3.0) }],
        mounts: "eye and eye".into(),
        price: Some(price),
        stock: Some(stock),
    }
}

/// C4's axle with dampers measured: 320 mm at ride height, 0.74 of ±68 and −60 mm, 5 mm wanted at both ends.
#[test]
fn dampers_of_a_list() {
    let mut job = job(C4);
    (job.front.target.damping_low, job.front.target.damping_high) = ("0.25".into(), "0.35".into());
    (job.front.travel.droop, job.front.damper.fitted_length) = ("60 mm".into(), "320 mm".into());
    let list = [
        listed("weak", 2_000.0, 200.0, 400.0, 50.0, 4),
        listed("dear", 3_390.0, 200.0, 400.0, 90.0, 4),
        listed("long", 3_400.0, 275.0, 400.0, 40.0, 4),
        listed("short", 3_400.0, 200.0, 366.0, 40.0, 4),
        listed("cheap", 3_380.0, 200.0, 400.0, 60.0, 1),
        listed("hard", 6_000.0, 280.0, 400.0, 50.0, 4),
        Damper { points: Vec::new(), ..listed("silent", 0.0, 200.0, 400.0, 50.0, 4) },
        Damper {
            points: vec![ForcePoint {
                speed: Velocity::from_si(1.0),
                bump: Some(Force::from_si(900.0)),
                rebound: None,
            }],
            ..listed("slack", 0.0, 200.0, 400.0, 50.0, 4)
        },
    ];
    let answer = solve(&job);
    let found = rank(&job, &answer, Side::Front, &list).expect("a ranking");
    let numbers = |f: &springwright::choose::damper_choice::DamperRanking| -> Vec<String> {
        f.ranked.iter().map(|j| list[j.row].number.clone()).collect()
    };
    assert_eq!(found.fitting, 2);
    assert_eq!(numbers(&found)[..2], ["cheap", "dear"], "alike in damping, the price decides");
    let of = |number: &str| found.ranked.iter().find(|j| list[j.row].number == number).expect("it is ranked");
    near("ζ", of("dear").ratio.expect("known").si(), 3_390.0 / 3_377.063_499_476_897 * 0.30, 1e-9);
    // Lengths by hand: at metal contact 320 − 0.74 · 68 = 269.68 mm, at droop 320 + 0.74 · 60 = 364.4 mm.
    near("bump", of("dear").to_closed.expect("known").si(), 0.069_68, 1e-9);
    near("droop", of("dear").to_open.expect("known").si(), 0.035_6, 1e-9);
    let why = |number: &str| choose_dampers::why(of(number), &job.units);
    assert_eq!(why("weak"), "damps too little: 0.18, 0.07 below the range");
    assert_eq!(
        why("hard"),
        "damps too much: 0.53, 0.18 above the range; closed length 10 mm too long: the damper becomes the bump stop"
    );
    assert_eq!(why("long"), "closed length 5 mm too long: the damper becomes the bump stop");
    assert_eq!(why("short"), "3 mm too little damper travel left at full droop");
    assert_eq!(why("silent"), "the list gives no forces");
    assert_eq!(why("slack"), "its forces do not form a curve: no rebound force is given at any speed above 0");
    assert!(matches!(of("weak").out[..], [DamperLimit::Soft(by)] if (by.si() - 0.0723).abs() < 1e-3));
    // The order of the list does not matter.
    let mut turned = list.to_vec();
    turned.reverse();
    let again = rank(&job, &answer, Side::Front, &turned).expect("a ranking");
    let order: Vec<String> = again.ranked.iter().map(|j| turned[j.row].number.clone()).collect();
    assert_eq!(order, numbers(&found));
    job.front.choice.in_stock_only = true;
    let shelf = rank(&job, &answer, Side::Front, &list).expect("a ranking");
    assert_eq!((shelf.fitting, numbers(&shelf)[0].as_str()), (1, "dear"));
    assert_eq!(rank(&job, &answer, Side::Front, &[]), Err(Unable::NoDampers));
    job.front.rating = "500 kg".into();
    let over = solve(&job);
    assert_eq!(rank(&job, &over, Side::Front, &list), Err(Unable::Stopped));
    let said = choose_dampers::blocks(&job, over.axle(Side::Front), &list, Err(Unable::Stopped));
    assert!(said.iter().any(|b| matches!(b, Block::Caution(t) if t.contains("a rating is exceeded"))));
}

fn cli(args: &[&str]) -> (i32, String, String) {
    let out = Command::new(env!("CARGO_BIN_EXE_springwright-cli"))
        .args(args)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (out.status.code().expect("a code"), text(&out.stdout), text(&out.stderr))
}

#[test]
fn the_command_line_tells_dampers_and_curves() {
    let (code, out, _) = cli(&["choose", "demo-orchard-van", "--draws", "1000", "--json"]);
    assert_eq!(code, 0);
    let value: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    let front = &value["dampers"]["front"];
    assert_eq!((front["dampers"].as_u64(), front["fitting"].as_u64()), (Some(14), Some(2)));
    assert_eq!(front["ranked"][0]["number"], "DF-255-394-F");
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("curve.csv");
    file::write_text(&path, "speed,force (lbf)\n10,100\n-10,-200\n").expect("written");
    let name = path.display().to_string();
    let (code, _, err) = cli(&["curve", &name]);
    assert_eq!(code, 3);
    assert!(err.contains("Column \"speed\" has no unit") && err.contains("curve.csv"), "{err}");
    let (code, out, _) = cli(&["curve", &name, "--speed-unit", "in/s"]);
    // 100 lbf at 10 in/s is 444.822 N at 0.254 m/s, a straight line of 1751.27 N·s/m.
    assert!(code == 0 && out.contains("1751 N·s/m") && out.contains("3503 N·s/m"), "{out}");
    let (_, out, _) = cli(&["curve", &name, "--speed-unit", "in/s", "--plus-is-rebound"]);
    assert!(out.contains("are the signs reversed?"), "{out}");
    let (code, _, err) = cli(&["curve", &name, "--speed-unit", "km/h"]);
    assert!(code == 2 && err.contains("a damper speed is wanted: m/s, mm/s or in/s"), "{err}");
}

/// A ratio of damping follows √: the old damper on k and m both × q falls by q.
#[test]
fn the_same_damper_on_stiffer_springs_damps_less() {
    let axle = front(&job(C4));
    let zeta =
        |s: &Option<springwright::solve::answer::Standing>| s.as_ref().and_then(|s| s.old_damper_ratio).map(Ratio::si);
    let [before, old, new] = [zeta(&axle.standing.before), zeta(&axle.standing.old), zeta(&axle.standing.new)];
    assert!(before > old && old > new, "a stiffer spring alone calms nothing: {before:?} {old:?} {new:?}");
}
