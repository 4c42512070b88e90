//! What must hold for every job there is here, shipped ones and those of `kinds/`: exact, unless a tolerance is said.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::kept::{self, Kept};

use std::collections::BTreeSet;
use std::sync::OnceLock;

use springwright::base::units::entry::AnyEntry as _;
use springwright::base::units::{G_M_PER_S2, Quantity, Spread};
use springwright::job::{AxleKind, BagFitted, Job, LoadCase, Plan, Side, SpringKind, Walk as _};
use springwright::report::pictures::picture::{Picture, frequency_rate, load_travel};
use springwright::report::pictures::rows;
use springwright::report::results::figures;
use springwright::report::write::json;
use springwright::solve::answer::{Answer, State};
use springwright::solve::solve;
use springwright::trade::spring::Spring;

/// Every shipped job and every job of `kinds/`.
fn all_kept() -> impl Iterator<Item = &'static Kept> {
    kept::with_shipped(&["kinds"])
}

/// A shipped job, sized with a trailer as well.
fn with_trailer() -> (String, Job) {
    let mut job = kept::named("tow-load").job.clone();
    job.cases[0].tongue = "190 lb".into();
    ("tow-load, sized with a trailer".to_owned(), job)
}

/// Every shipped job, one of them sized with a trailer as well, and every job of `kinds/`, by name.
fn jobs() -> impl Iterator<Item = (String, Job)> {
    all_kept().map(|kept| (kept.name.clone(), kept.job.clone())).chain([with_trailer()])
}

/// The same, each with its answer.
fn solved() -> impl Iterator<Item = (&'static str, &'static Job, &'static Answer)> {
    static WITH_TRAILER: OnceLock<(String, Job, Answer)> = OnceLock::new();
    let (name, job, answer) = WITH_TRAILER.get_or_init(|| {
        let (name, job) = with_trailer();
        let answer = solve(&job);
        (name, job, answer)
    });
    let all = all_kept().map(|kept| (kept.name.as_str(), &kept.job, kept.answer()));
    all.chain([(name.as_str(), job, answer)])
}

fn near(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs()) + 1e-12
}

/// A figure with its ±.
type Told = (String, Option<f64>, Option<f64>);

/// Every figure with its ±, as the answer tells it.
fn told(answer: &Answer) -> Vec<Told> {
    figures(answer).into_iter().map(|f| (f.key, f.si, f.u_si)).collect()
}

#[track_caller]
fn same(what: &str, a: &[Told], b: &[Told], relative: f64) {
    assert_eq!(a.len(), b.len(), "{what}");
    for ((key, si, u), (other, other_si, other_u)) in a.iter().zip(b) {
        assert_eq!(key, other, "{what}");
        let alike = |a: Option<f64>, b: Option<f64>| match (a, b) {
            (Some(a), Some(b)) => near(a, b, relative),
            (a, b) => a == b,
        };
        assert!(
            alike(*si, *other_si) && alike(*u, *other_u),
            "{what}: {key} {si:?} ± {u:?}, {other_si:?} ± {other_u:?}"
        );
    }
}

// ---- pictures --------------------------------------------------------------------------------------------------

/// Between which heights a line passes at x, with what a straight piece leaves of the curve; `None` beyond its ends.
fn passes(points: &[[f64; 2]], x: f64) -> Option<[f64; 2]> {
    let i = points.windows(2).position(|w| w[0][0] <= x && x <= w[1][0])?;
    let around = &points[i.saturating_sub(1)..(i + 3).min(points.len())];
    let bends = around.windows(3).map(|w| (w[0][1] - 2.0 * w[1][1] + w[2][1]).abs()).fold(0.0, f64::max);
    let share = (x - points[i][0]) / (points[i + 1][0] - points[i][0]);
    let y = points[i][1] + share * (points[i + 1][1] - points[i][1]);
    let leaves = bends + 1e-9 * y.abs();
    Some([y - leaves, y + leaves])
}

fn on_its_line(name: &str, picture: &Picture, lines_of: impl Fn(State) -> &'static [State]) -> usize {
    let mut seen = 0;
    for mark in &picture.marks {
        let lines = picture.lines.iter().filter(|l| l.state.is_some_and(|s| lines_of(mark.state).contains(&s)));
        let passing: Vec<[f64; 2]> = lines.filter_map(|l| passes(&l.points, mark.at[0])).collect();
        if passing.is_empty() {
            continue;
        }
        seen += 1;
        let on = passing.iter().any(|y| y[0] <= mark.at[1] && mark.at[1] <= y[1]);
        assert!(on, "{name}, {:?}: {:?} is on none of {passing:?}", mark.state, mark.at);
    }
    seen
}

/// Every reading of load against travel lies on the spring that carries it.
#[test]
fn every_load_lies_on_its_spring() {
    let mut seen = 0;
    for (name, job, answer) in solved() {
        for side in Side::BOTH {
            let Some(picture) = load_travel(answer.axle(side), &job.units) else { continue };
            // Springs that are kept have one line.
            seen += on_its_line(name, &picture, |s| match s {
                State::NewSprings => &[State::NewSprings, State::OldSprings],
                _ => &[State::OldSprings],
            });
        }
    }
    assert!(seen > 60, "{seen}");
}

/// Frequency against rate is drawn at the wanted height with a ratio that does not change: there, with nothing on the
/// stop, each reading lies on the line of its weight, an open helper coil or a closed one.
#[test]
fn every_frequency_lies_on_its_line() {
    let mut seen = 0;
    for (name, job, answer) in solved() {
        for side in Side::BOTH {
            let axle = answer.axle(side);
            let (Some(_), Some(old)) = (&axle.sizing, &axle.standing.old) else { continue };
            let straight = matches!(old.curve.spring, Spring::Coil(_) | Spring::Stack(_));
            let bag =
                axle.standing.new.as_ref().is_some_and(|n| n.curve.helper.is_some()) || old.curve.helper.is_some();
            let constant = axle.ratio_slope.is_none_or(|s| s.value == 0.0) && !bag;
            let free = State::ALL.iter().filter_map(|s| axle.standing.of(*s).as_ref()).all(|s| !s.on_stop && !s.loose);
            let gas = old.curve.gas_force_n == 0.0 || axle.damper_ratio_slope.is_none_or(|s| s.value == 0.0);
            if !(straight && constant && free && gas) {
                continue;
            }
            let Some(picture) = frequency_rate(answer, side, &job.units) else { continue };
            seen += on_its_line(name, &picture, |s| match s {
                State::Before => &[State::Before],
                _ => &[State::NewSprings],
            });
            assert!(answer.released(side).ok().and_then(|p| p.spring).is_none_or(|s| s.pick.si() > 0.0));
        }
    }
    assert!(seen > 40, "{seen}");
}

/// Beside a helper coil that stays open the line is that of both in series: at every rate on it, as the solver finds it.
#[test]
fn beside_an_open_helper_the_frequency_is_that_of_the_stack() {
    let mut job = kept::named("helper-coil-over").job.clone();
    job.front.plan = Plan::NewSprings;
    // With another helper the free length is another one, too.
    job.front.spring.free_length = Default::default();
    let helper = &mut job.front.spring.helper;
    (helper.rate, helper.free_length, helper.solid_length) = ("90 N/mm".into(), "60 mm".into(), "10 mm".into());
    let answer = solve(&job);
    let axle = answer.axle(Side::Front);
    assert_eq!(axle.kind, SpringKind::WithHelper);
    let picture = frequency_rate(&answer, Side::Front, &job.units).expect("it can be drawn");
    let line = picture.lines.iter().find(|l| l.state == Some(State::NewSprings)).expect("a line");
    let mut seen = 0;
    for factor in [0.8, 0.9, 1.0, 1.1, 1.2] {
        let rate = factor * answer.released(Side::Front).expect("released").spring.expect("sized").pick.si();
        let Some(y) = passes(&line.points, rate) else { continue };
        job.front.stock.step = format!("{rate} N/m").as_str().into();
        job.front.taken.rate = format!("{rate} N/m").as_str().into();
        let new = solve(&job).axle(Side::Front).standing.new.clone().expect("it stands");
        let Spring::Stack(stack) = &new.curve.spring else { panic!("a stack") };
        assert!(new.spring_force.si() < stack.crossover_force_n(), "the helper is open");
        let f = new.frequency.si();
        assert!(near(f, 0.5 * (y[0] + y[1]), 2e-4), "at {rate}: {f} Hz, drawn {y:?}");
        seen += 1;
    }
    assert!(seen >= 3, "{seen}");
}

// ---- weights ---------------------------------------------------------------------------------------------------

/// Predicted corners of an axle weigh what the axle is predicted to weigh, and so does the change.
#[test]
fn foretold_corners_add_up_to_foretold_axles() {
    let mut seen = 0;
    for (name, _, answer) in solved() {
        let (Some(axles), Some(corners)) = (&answer.ledger, &answer.whole.ledger) else { continue };
        let sum = |c: [f64; 4]| [c[0] + c[1], c[2] + c[3]];
        let change = [sum(corners.told.change.map(|m| m.value)), axles.axles.change.map(|m| m.value)];
        assert!((0..2).all(|i| near(change[0][i], change[1][i], 1e-9)), "{name}: {change:?}");
        if let (Some(c), Some(a)) = (corners.told.foretold, axles.axles.foretold) {
            let both = [sum(c.map(|m| m.value)), a.map(|m| m.value)];
            assert!((0..2).all(|i| near(both[0][i], both[1][i], 1e-9)), "{name}: {both:?}");
            seen += 1;
        }
    }
    assert!(seen >= 2, "{seen}");
}

/// What both axles give in a bend turns the vehicle as its weights do about the ground:
/// Σ ΔF t = a_y M h + m_s g h_roll φ, beam axles and others (DERIVED).
#[test]
fn moments_in_a_bend_add_up() {
    let mut seen = [0, 0];
    for (name, mut job) in jobs() {
        let mut fill = |path: &str, text: &str| {
            let mark = job.decimal;
            let entry = job.at_mut(path).expect("a field");
            if entry.text().trim().is_empty() {
                let unit = springwright::base::units::table::of(entry.dim()).next().expect("a unit");
                entry.type_text(text, unit, mark);
            }
        };
        let typed = [
            ("chassis.cg_height", "620 mm"),
            ("front.track", "1500 mm"),
            ("rear.track", "1480 mm"),
            ("front.roll_centre", "90 mm"),
            ("rear.roll_centre", "260 mm"),
            ("front.unsprung_height", "300 mm"),
            ("rear.unsprung_height", "310 mm"),
            ("vehicle.wheelbase", "2500 mm"),
            ("front.spring_base", "1000 mm"),
            ("rear.spring_base", "1000 mm"),
        ];
        typed.iter().for_each(|(path, text)| fill(path, text));
        let answer = solve(&job);
        for state in State::ALL {
            let Some(roll) = answer.whole.roll.of(state) else { continue };
            let (Some(transfer), Some(gradient)) = (roll.transfer, roll.gradient_rad_s2_per_m) else { continue };
            let of = |side: Side| {
                let (axle, data) = (answer.axle(side), job.axle(side));
                let si = |text: &str| {
                    springwright::base::units::parse::number(text, springwright::base::units::Dim::Length, job.decimal)
                        .map(|n| n.si())
                };
                let [track, centre, height] = [&data.track.text, &data.roll_centre.text, &data.unsprung_height.text]
                    .map(|t| si(t).expect("typed"));
                let sprung = 2.0 * axle.standing.of(state).as_ref().expect("it stands").sprung.si();
                (track, centre, height, sprung, 2.0 * axle.masses.unsprung.of(state).expect("known").si())
            };
            let ends = Side::BOTH.map(of);
            let Some(height) = answer.whole.centre.and_then(|c| c.height).map(|h| h.value) else { continue };
            let all: f64 = ends.iter().map(|e| e.3 + e.4).sum();
            // Of the body itself, over the axis through both roll centres.
            let over_axis = all * height - ends.iter().map(|e| e.3 * e.1 + e.4 * e.2).sum::<f64>();
            let turns = all * height + over_axis * G_M_PER_S2 * gradient;
            let a_y = answer.whole.looked_at.cornering.expect("typed or usual").si() * G_M_PER_S2;
            let given: f64 = transfer.iter().zip(ends).map(|(moved, end)| moved.si() * end.0).sum();
            assert!(near(given / a_y, turns, 1e-9), "{name}: {} and {turns}", given / a_y);
            seen[usize::from(Side::BOTH.iter().any(|s| job.axle(*s).kind == AxleKind::Beam))] += 1;
        }
    }
    assert!(seen[0] > 5 && seen[1] > 5, "{seen:?}");
}

// ---- what changes nothing --------------------------------------------------------------------------------------

type Insert = fn(&mut Job, usize) -> bool;

macro_rules! lists {
    ($($($step:ident).+),* $(,)?) => {
        &[$((stringify!($($step).+), (|job: &mut Job, at: usize| {
            let fits = at <= job.$($step).+.len() && !job.$($step).+.is_empty();
            if fits {
                job.$($step).+.insert(at, Default::default());
            }
            fits
        }) as Insert)),*]
    };
}

/// Every list of an axle and of a weigh-in.
static LISTS: &[(&str, Insert)] = lists![
    front.ratio.rows,
    front.damper_ratio.rows,
    front.spring.points,
    front.spring.leaf.rows,
    front.stop.rows,
    front.damper.rows,
    front.new_damper.rows,
    rear.ratio.rows,
    rear.damper_ratio.rows,
    rear.spring.points,
    rear.spring.leaf.rows,
    rear.stop.rows,
    rear.damper.rows,
    rear.new_damper.rows,
    before.loads,
    after.loads,
    before.repeats,
    after.repeats,
    parts,
];

/// Texts with every number behind "row", "part" or "load" taken out.
fn without_row_numbers(text: &str) -> String {
    let mut out = Vec::new();
    let mut counted = false;
    for word in text.split(' ') {
        let number = word.starts_with(|c: char| c.is_ascii_digit());
        out.push(if counted && number { "#".to_owned() } else { word.to_owned() });
        counted =
            ["row", "rows", "part", "load", "reading", "weighing"].contains(&word.to_lowercase().trim_matches(','));
    }
    out.join(" ")
}

/// Every word of an answer, findings and pictures of rows, row numbers taken out.
fn words(job: &Job, answer: &Answer) -> Vec<String> {
    let mut all: Vec<String> = answer.findings.iter().map(|f| f.text.to_string()).collect();
    for side in Side::BOTH {
        for part in [rows::Part::Spring, rows::Part::Damper] {
            let checked = &answer.checked[side];
            all.extend(rows::pictures(answer.axle(side), checked, part, &job.units).into_iter().map(|p| p.title));
        }
    }
    all.iter().map(|t| without_row_numbers(t)).collect()
}

/// A blank row put anywhere into any list changes no result and no word but row numbers.
#[test]
fn blank_rows_change_nothing() {
    let mut seen = BTreeSet::new();
    for (name, job, answer) in solved() {
        let (figures, said) = (told(answer), words(job, answer));
        for (list, insert) in LISTS {
            for at in [0, 1, 2] {
                let mut more = job.clone();
                if !insert(&mut more, at) {
                    continue;
                }
                let found = solve(&more);
                let what = format!("{name}: a blank row {at} in {list}");
                same(&what, &figures, &told(&found), 1e-12);
                assert_eq!(said, words(&more, &found), "{what}");
                seen.insert(*list);
            }
        }
    }
    assert!(seen.len() >= 8, "{seen:?}");
}

/// What weighed the same before need not be typed twice. Only a ± differs, one reading for both or one for each; there is
/// none here.
#[test]
fn the_unsprung_mass_before_is_that_after_unless_typed() {
    for (name, mut job) in jobs() {
        let mut same_before = job.clone();
        let mut typed = 0;
        for side in Side::BOTH {
            let axle = same_before.axle_mut(side);
            if axle.unsprung_before.text.is_empty() && !axle.unsprung.text.is_empty() {
                axle.unsprung.set_pm("0 %", Spread::Standard);
                job.axle_mut(side).unsprung.set_pm("0 %", Spread::Standard);
                axle.unsprung_before = axle.unsprung.clone();
                typed += 1;
            }
        }
        if typed == 0 {
            continue;
        }
        let (a, b) = (figures(&solve(&job)), figures(&solve(&same_before)));
        for (a, b) in a.iter().zip(&b) {
            let alike = a.key == b.key
                && match (a.si, b.si) {
                    (Some(a), Some(b)) => near(a, b, 1e-12),
                    (a, b) => a == b,
                };
            assert!(alike, "{name}: {} {:?} and {:?}", a.key, a.si, b.si);
        }
    }
}

/// A load of nothing on the hitch is no load, whether springs are sized with it or not.
#[test]
fn nothing_on_the_hitch_is_nothing() {
    for (name, mut job) in jobs() {
        if job.vehicle.wheelbase.text.is_empty() {
            job.vehicle.wheelbase = "2500 mm".into();
        }
        job.vehicle.hitch = "1100 mm".into();
        for sized in [false, true] {
            let mut without = job.clone();
            without.cases.iter_mut().for_each(|c| c.sized = false);
            without.cases.push(LoadCase { name: "trailer".into(), sized, ..LoadCase::default() });
            let mut with = without.clone();
            with.cases.last_mut().expect("a case").tongue = "0 kg".into();
            let values = |job: &Job| -> Vec<(String, Option<f64>)> {
                figures(&solve(job)).into_iter().map(|f| (f.key, f.si)).collect()
            };
            assert_eq!(values(&without), values(&with), "{name}");
        }
    }
}

/// The old springs bought again, on no spacer and settled by nothing, stand as the old springs do.
#[test]
fn the_old_springs_bought_again_stand_as_they_stood() {
    let mut seen = 0;
    for (name, job, answer) in solved() {
        for side in Side::BOTH {
            let (axle, data) = (answer.axle(side), job.axle(side));
            let (Some(old), Some(free)) = (&axle.standing.old, axle.old_free_length) else { continue };
            let Spring::Coil(coil) = &old.curve.spring else { continue };
            if data.plan != Plan::NewSprings || data.bag.fitted == BagFitted::WithNew {
                continue;
            }
            // Rubber is neutral at the new height for a newly fitted spring unless typed.
            let mut again = job.clone();
            let axle = again.axle_mut(side);
            axle.parallel.neutral = "0 mm".into();
            let old = solve(&again).axle(side).standing.old.clone().expect("it stands");
            let axle = again.axle_mut(side);
            axle.stock.settle = "0 mm".into();
            axle.taken.spacer = "0 mm".into();
            axle.taken.rate = format!("{} N/m", coil.rate_n_per_m).as_str().into();
            axle.taken.free_length = format!("{} m", free.si()).as_str().into();
            let at = |text: &mut springwright::base::units::Entry<springwright::base::units::Length>| {
                *text = coil.solid_length_m.map_or_else(Default::default, |l| format!("{l} m").as_str().into());
            };
            at(&mut axle.taken.solid_length);
            if again.decimal == springwright::base::units::DecimalMark::Comma {
                continue;
            }
            let new = solve(&again).axle(side).standing.new.clone().expect("it stands");
            for (what, a, b) in [
                ("travel", new.travel.si() + 1.0, old.travel.si() + 1.0),
                ("wheel rate", new.wheel_rate.si(), old.wheel_rate.si()),
                ("frequency", new.frequency.si(), old.frequency.si()),
            ] {
                assert!(near(a, b, 1e-7), "{name}, {}: {what} {a} and {b}", side.word());
            }
            seen += 1;
        }
    }
    assert!(seen > 5, "{seen}");
}

// ---- figures ---------------------------------------------------------------------------------------------------

/// Names of results are made of letters, digits, points and brackets, and each stands once.
#[test]
fn every_key_is_a_key_and_stands_once() {
    for (name, job, answer) in solved() {
        let value = json::value(job, answer);
        let results = value["results"].as_array().expect("results");
        let mut seen = BTreeSet::new();
        for result in results {
            let key = result["key"].as_str().expect("a name");
            let fits = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b"_.[]".contains(&b);
            assert!(!key.is_empty() && key.bytes().all(fits), "{name}: {key}");
            assert!(seen.insert(key.to_owned()), "{name}: {key} stands twice");
        }
        assert!(seen.len() > 20, "{name}");
    }
}
