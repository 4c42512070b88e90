//! Where something comes to its end: coils, travel, ratings by side, rows that say nothing, wishes that nothing fulfils.
//!
//! Vehicles are invented. Expected numbers by hand with the formula beside them (DERIVED); g = 9.80665 m/s².
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use approx::assert_relative_eq;
use springwright::base::units::{Length, Quantity};
use springwright::job::{Job, Level, MotionRatio, RatioRow, Side, file};
use springwright::report::Report;
use springwright::report::results::Results;
use springwright::report::sheets::sheet;
use springwright::report::sheets::{self, Kind};
use springwright::report::write::text::{self, Markup};
use springwright::shop::presets;
use springwright::solve::answer::{Answer, RatedPart, RemedyKind};
use springwright::solve::solve;

const G: f64 = 9.80665;

/// 400 to 450 kg on the front corners, k 49 N/mm at a ratio of 0.62, 55 mm to the stop; the rear keeps its springs.
fn plain() -> Job {
    file::parse(
        r#"(version: 1, job: (
            vehicle: (wheelbase: "2700 mm"),
            before: (lf: "400 kg", rf: "400 kg", lr: "330 kg", rr: "330 kg"),
            after: (lf: "450 kg", rf: "450 kg", lr: "420 kg", rr: "420 kg"),
            front: (
                track: "1500 mm", unsprung: "40 kg", ratio: (wheel_moved: "100 mm", part_moved: "62 mm"),
                spring: (rate: "49 N/mm", fitted_length: "250 mm", free_length: "367 mm", solid_length: "150 mm"),
                travel: (stop_gap: "55 mm", metal: "85 mm", droop: "75 mm"),
                target: (low: "1.15 Hz", high: "1.3 Hz"), tyre_rate: "200 N/mm",
            ),
            rear: (
                plan: Keep, track: "1500 mm", unsprung: "40 kg", ratio: (wheel_moved: "60 mm", part_moved: "55 mm"),
                spring: (rate: "40 N/mm"), travel: (stop_gap: "80 mm"), tyre_rate: "200 N/mm",
            ),
        ))"#,
    )
    .expect("a job")
}

fn rows(pairs: &[(&str, &str)]) -> Vec<RatioRow> {
    pairs.iter().map(|(wheel, length)| RatioRow { wheel: (*wheel).into(), length: (*length).into() }).collect()
}

/// What was found by this rule: its level, its field and its text.
fn found(answer: &Answer, rule: &str) -> Vec<(Level, String, String)> {
    let mine = answer.findings.iter().filter(|f| f.rule == rule);
    mine.map(|f| (f.level, f.field.clone(), f.text.to_string())).collect()
}

fn read(report: &Report) -> String {
    text::write(report, Markup::Plain).split_whitespace().collect::<Vec<_>>().join(" ")
}

fn sheet_of(kind: Kind, job: &Job) -> String {
    read(&sheets::build(kind, job, &solve(job), None))
}

// ---- the side on which a case lies --------------------------------------------------------------------------------

#[test]
fn a_load_beside_the_middle_presses_on_its_own_side() {
    let mut job = plain();
    job.rear.wheel_rating = "620 kg".into();
    let load = |y: &str| springwright::job::Load {
        mass: "300 kg".into(),
        x: "2700 mm".into(),
        y: y.into(),
        ..Default::default()
    };
    job.cases = vec![springwright::job::LoadCase { loads: vec![load("700 mm")], ..Default::default() }];
    let answer = solve(&job);
    let carries = |answer: &Answer| {
        let rated = &answer.cases[1].rated;
        rated.iter().find(|r| r.part == RatedPart::Wheel(Side::Rear)).expect("rated").carries.si()
    };
    // Springs k t²/2 in series with tyres k_t t²/2, shared as they are stiff; RR = 420 + 300/2 + m y share/t.
    let to_ground = |wheel_rate: f64| {
        let (springs, tyres) = (wheel_rate * 1.5_f64.powi(2) / 2.0, 200e3 * 1.5_f64.powi(2) / 2.0);
        springs * tyres / (springs + tyres)
    };
    let [front, rear] = [&answer.axles.front, &answer.axles.rear]
        .map(|a| to_ground(a.standing.new.as_ref().expect("it stands").wheel_rate.si()));
    let right = 420.0 + 150.0 + 300.0 * 0.7 * rear / (front + rear) / 1.5;
    assert!(right > 620.0, "the hand says {right}");
    assert_relative_eq!(carries(&answer), right, max_relative = 1e-9);
    // One source: it is what stands under that corner in the picture from above and in the table.
    let in_case = |answer: &Answer| answer.whole.in_cases[0].new.expect("it stands").weight;
    assert_relative_eq!(carries(&answer), in_case(&answer).rr.si(), max_relative = 1e-12);
    let stops = found(&answer, "over-rating");
    assert_eq!((stops.len(), stops[0].0), (1, Level::Stop), "{stops:?}");
    assert!(answer.axles.rear.overloaded && !answer.axles.front.overloaded);
    // On the stop of the right wheel springs are no longer alike, and no share by roll stiffness would find this.
    job.rear.stop.rate = "200 N/mm".into();
    job.cases[0].loads[0] = springwright::job::Load { mass: "500 kg".into(), ..load("700 mm") };
    let on_stop = solve(&job);
    let by_shares = 420.0 + 250.0 + 500.0 * 0.7 * rear / (front + rear) / 1.5;
    assert_relative_eq!(carries(&on_stop), in_case(&on_stop).rr.si(), max_relative = 1e-12);
    assert!(carries(&on_stop) > by_shares + 1.0, "{} on the stop, {by_shares} by shares", carries(&on_stop));
    job.rear.stop.rate = "".into();
    // The other side is the same; in the middle it is half and half; ± of the wheel's load goes with it.
    job.cases[0].loads[0] = load("-700 mm");
    assert_relative_eq!(carries(&solve(&job)), right, max_relative = 1e-9);
    job.cases[0].loads[0] = load("");
    let middle = solve(&job);
    assert_relative_eq!(carries(&middle), 570.0, max_relative = 1e-12);
    assert!(found(&middle, "over-rating").is_empty() && found(&middle, "case-side").is_empty());
    // Without a track nobody knows, and it is said.
    job.cases[0].loads[0] = load("700 mm");
    job.rear.track = "".into();
    let unknown = solve(&job);
    assert_relative_eq!(carries(&unknown), 570.0, max_relative = 1e-12);
    assert_eq!(found(&unknown, "case-side")[0].1, "cases[0].loads[0].y");
}

#[test]
fn what_is_overloaded_by_one_side_alone_gets_no_springs_recommended() {
    let mut job = plain();
    job.front.wheel_rating = "520 kg".into();
    let load =
        springwright::job::Load { mass: "100 kg".into(), x: "0 mm".into(), y: "800 mm".into(), ..Default::default() };
    job.cases = vec![springwright::job::LoadCase { loads: vec![load], ..Default::default() }];
    let answer = solve(&job);
    assert!(answer.axles.front.overloaded && answer.axles.front.sizing.is_some());
    assert!(Side::BOTH.iter().all(|side| answer.released(*side).is_err()));
    assert!(sheet_of(Kind::Order, &job).contains("over"), "no part is named on a list to order by");
}

// ---- coils that touch each other before the stop ------------------------------------------------------------------

#[test]
fn the_reserve_ends_where_the_coils_bind() {
    let mut job = plain();
    job.front.spring.solid_length = "226 mm".into();
    let answer = solve(&job);
    let new = answer.axles.front.standing.new.as_ref().expect("it stands");
    // L = 250 − 0.62 z: solid at z = 24/0.62 mm, before the gap of 55 mm.
    let binds_m = 0.024 / 0.62;
    let load_n = (450.0 - 40.0) * G;
    let by_hand = new.wheel_rate.si() * (binds_m - new.travel.si()) / load_n;
    assert_relative_eq!(new.reserve.expect("known").si(), by_hand, max_relative = 1e-9);
    let said = found(&answer, "bind-before-stop");
    assert_eq!(said[0].1, "front.stock.solid_length");
    assert!(said[0].2.contains("16 mm"), "55 − 38.7: {said:?}");
    // On its spacer the old spring would bind long before metal, at L = 250 − 0.62 · 85 mm, and is not offered.
    let spacer = answer.released(Side::Front).expect("released").spacer.expect("it sits too low");
    let left_m = 0.250 - 0.62 * 0.085 - 0.226 - spacer.thickness.si();
    assert_relative_eq!(spacer.to_bind.expect("known").si(), left_m, max_relative = 1e-9);
    assert!(read(&sheet::build(&job, &answer)).contains("coil bind comes 16 mm of wheel travel before the bump stop"));
    assert!(!sheet_of(Kind::Customer, &job).contains("With spacers"));
    // With a short coil the stop is first, as ever, and the spacer is offered.
    let short = solve(&plain());
    let new = short.axles.front.standing.new.as_ref().expect("it stands");
    let to_stop = new.wheel_rate.si() * (0.055 - new.travel.si()) / load_n;
    assert_relative_eq!(new.reserve.expect("known").si(), to_stop, max_relative = 1e-9);
    assert!(found(&short, "bind-before-stop").is_empty());
    assert!(sheet_of(Kind::Customer, &plain()).contains("With spacers"));
}

#[test]
fn lengths_to_order_by_are_those_of_the_spring_alone() {
    // A helper that lies solid takes its inch.
    let job = presets::find("helper-coil-over").expect("shipped").job();
    let answer = solve(&job);
    let (room, inch) = (&answer.axles.rear.room, 0.0254);
    let new = answer.axles.rear.standing.new.as_ref().expect("it stands");
    assert_relative_eq!(
        room.own_at_ride.expect("known").si(),
        new.spring_length.expect("known").si() - inch,
        epsilon = 1e-9
    );
    let least = job.limits.bind_room.text.clone();
    assert!(least.is_empty(), "the default room of 6 mm counts");
    let solid = room.spring_at_metal.expect("known").si() - 0.006 - inch;
    assert_relative_eq!(room.longest_solid.expect("known").si(), solid, epsilon = 1e-9);
    // A spring that was taken with a spacer of 25 mm.
    let mut job = presets::demo();
    let taken = &mut job.front.taken;
    (taken.rate, taken.free_length) = ("60 N/mm".into(), "337 mm".into());
    (taken.solid_length, taken.spacer) = ("170 mm".into(), "25 mm".into());
    let answer = solve(&job);
    let (room, new) = (&answer.axles.front.room, answer.axles.front.standing.new.as_ref().expect("it stands"));
    let metal = room.spring_at_metal.expect("known");
    let near =
        |got: Option<Length>, wanted: f64| assert_relative_eq!(got.expect("known").si(), wanted, epsilon = 1e-12);
    near(room.longest_solid, metal.si() - 0.006 - 0.025);
    near(room.own_at_ride, new.spring_length.expect("known").si() - 0.025);
    let limits = solve(&presets::demo());
    near(limits.axles.front.room.longest_solid, limits.axles.front.room.spring_at_metal.expect("known").si() - 0.006);
}

// ---- ends of the travel -------------------------------------------------------------------------------------------

#[test]
fn a_height_past_the_ends_of_the_travel_is_an_error() {
    let raised = |by: &str| {
        let mut job = presets::demo();
        job.front.target.raise = by.into();
        solve(&job)
    };
    let over = found(&raised("95 mm"), "beyond-droop");
    assert_eq!((over.len(), over[0].0, over[0].1.as_str()), (1, Level::Error, "front.target.raise"), "{over:?}");
    let said = raised("70 mm");
    assert!(found(&said, "beyond-droop").is_empty());
    assert_eq!(found(&said, "little-droop").len(), 1);
    let low = found(&raised("-95 mm"), "beyond-metal");
    assert!(low.iter().any(|f| f.0 == Level::Error && f.1 == "front.target.raise"), "{low:?}");
    for rule in ["beyond-droop", "beyond-metal", "little-droop"] {
        assert!(found(&raised("0 mm"), rule).is_empty());
    }
}

#[test]
fn a_case_that_rests_on_the_stop_is_said() {
    let mut job = presets::demo();
    let load = &mut job.cases[0].loads[1];
    (load.mass, load.x) = ("330 kg".into(), "2750 mm".into());
    job.rear.rating = "1400 kg".into();
    let answer = solve(&job);
    let stands = answer.cases[1].standing.rear.new.as_ref().expect("it stands");
    assert!(stands.on.on_stop && stands.on.stop_room().is_some_and(|r| r.si() < -0.02));
    let said = found(&answer, "case-on-stop");
    assert_eq!((said.len(), said[0].1.as_str()), (1, "cases[0].loads[0].mass"));
    assert!(said[0].2.contains("23 mm") && said[0].2.contains("rear axle"), "{said:?}");
    assert!(found(&solve(&presets::demo()), "case-on-stop").is_empty());
}

#[test]
fn a_bag_that_leaks_lets_down_what_really_stands_on_it() {
    let mut job = presets::find("air-helper-bag").expect("shipped").job();
    job.vehicle.hitch = "1100 mm".into();
    job.cases = vec![springwright::job::LoadCase { tongue: "100 kg".into(), sized: true, ..Default::default() }];
    let answer = solve(&job);
    // All that the bag carries at the wheel must be carried by the rest: sinks by F_bag over the rate without it.
    let new = answer.axles.rear.standing.new.as_ref().expect("it stands");
    let bag = new.curve.helper.as_ref().expect("a bag");
    let without = new.curve.rate_n_per_m(new.travel.si()) - bag.rate_n_per_m(new.travel.si());
    let sinks_mm = 1e3 * bag.force_n(new.travel.si()) / without;
    let said = &found(&answer, "bag-carries")[0].2;
    assert!(said.contains(&format!("sinks {sinks_mm:.0} mm")), "{sinks_mm}: {said}");
}

#[test]
fn the_damper_to_keep_the_ratio_counts_where_it_moves() {
    let mut job = presets::demo();
    job.front.damper_ratio = MotionRatio::default();
    job.front.ratio.rows = rows(&[
        ("-70 mm", "289 mm"),
        ("-35 mm", "270.5 mm"),
        ("0 mm", "250 mm"),
        ("35 mm", "227 mm"),
        ("70 mm", "202 mm"),
    ]);
    job.front.target.raise = "40 mm".into();
    job.front.damper.rows.clear();
    job.front.damper.ratio_before = "0.2".into();
    let answer = solve(&job);
    let axle = &answer.axles.front;
    let ratio = |s: &Option<springwright::solve::answer::Standing>| {
        s.as_ref().and_then(|s| s.old_damper_ratio).expect("known").si()
    };
    // With the old damper ζ falls from before to new; so much stiffer keeps it.
    let scale = axle.damping.as_ref().and_then(|d| d.scale).expect("known").si();
    assert_relative_eq!(scale, ratio(&axle.standing.before) / ratio(&axle.standing.new), max_relative = 1e-9);
    assert!(scale > 1.1, "{scale}");
}

// ---- rows and wishes that give nothing ----------------------------------------------------------------------------

#[test]
fn rows_that_are_turned_round_are_named_and_not_asked_for_again() {
    for (lengths, says) in [
        (
            rows(&[("-50 mm", "220 mm"), ("0 mm", "250 mm"), ("50 mm", "281 mm")]),
            "If the signs were written the other way, reverse them",
        ),
        (rows(&[("0 mm", "250 mm"), ("0 mm", "251 mm")]), "the same wheel travel"),
    ] {
        let mut job = plain();
        job.front.ratio = MotionRatio { by: springwright::job::RatioBy::Rows, rows: lengths, ..Default::default() };
        let said = found(&solve(&job), "rows-turned");
        assert_eq!((said[0].0, said[0].1.as_str()), (Level::Error, "front.ratio.rows[0].wheel"), "{said:?}");
        assert!(said[0].2.contains(says), "{said:?}");
    }
    assert!(found(&solve(&presets::demo()), "rows-turned").is_empty());
}

#[test]
fn a_wish_that_nothing_fulfils_names_its_cause_and_asks_for_no_measure() {
    let mut job = presets::demo();
    job.front.target.raise = "-60 mm".into();
    (job.front.stop.rate, job.front.stop.ratio) = ("80 N/mm".into(), "0.7".into());
    let answer = solve(&job);
    let said = &found(&answer, "nothing-left")[0].2;
    // At that height the stop alone gives 80 · 0.7² = 39 N/mm, rubber and geometry together about 2.
    assert!(
        said.contains("bump stop") && !said.contains("rubber bushes") && !said.contains("varying motion ratio"),
        "{said}"
    );
    let customer = sheet_of(Kind::Customer, &job);
    assert!(customer.contains("The target has to change first") && !customer.contains("must still be measured"));
}

#[test]
fn a_bar_is_set_up_again_and_needs_no_spacer() {
    let mut job = presets::find("torsion-bar-front").expect("shipped").job();
    (job.prices.work, job.prices.spacers) = ("100".into(), "40".into());
    let answer = solve(&job);
    let remedy = answer.remedies.front.iter().find(|r| r.kind == RemedyKind::Spacer).expect("offered");
    assert_eq!(remedy.price, Some(100.0), "work alone");
    let customer = sheet_of(Kind::Customer, &job);
    assert!(customer.contains("the old torsion bars adjusted") && !customer.contains("spacer"), "{customer}");
    assert!(read(&sheet::build(&job, &answer)).contains("old bar re-indexed"));
}

#[test]
fn names_from_a_file_steer_no_terminal() {
    let mut job = presets::demo();
    job.vehicle.name = "\u{1b}[31mred\u{7} \u{202e}abc".into();
    let answer = solve(&job);
    for markup in [Markup::Plain, Markup::Markdown] {
        let mut written = text::write(&sheets::build(Kind::Customer, &job, &answer, None), markup);
        written += &text::write(&sheet::build(&job, &answer), markup);
        assert!(written.contains("red") && !written.contains(['\u{1b}', '\u{7}', '\u{202e}']), "{written}");
    }
    assert_eq!(text::harmless("a\tb\nc".to_owned()), "a\tb\nc", "what is harmless stays");
}

// ---- what the sheets say ------------------------------------------------------------------------------------------

#[test]
fn dampers_that_do_not_suit_are_told_on_every_sheet_whatever_the_springs_do() {
    let mut job = presets::demo();
    job.rear.damper.ratio_before = "0.15".into();
    job.front.damper = job.rear.damper.clone();
    (job.prices.dampers, job.prices.damper_work) = ("200".into(), "50".into());
    for sheet in [Kind::Order, Kind::Customer, Kind::Fitting] {
        assert!(sheet_of(sheet, &job).contains("rear dampers"), "{sheet:?}");
    }
    let customer = sheet_of(Kind::Customer, &job);
    assert!(customer.contains("New rear dampers. The springs at that end stay."), "{customer}");
    assert!(customer.contains("parts and labour, rear axle 250.00"), "priced: {customer}");
    assert!(sheet_of(Kind::Order, &job).contains("The old rear dampers are too soft for these springs"));
    // Where nothing is bought at all it is still said that it rides as it does.
    job.front.plan = springwright::job::Plan::Keep;
    assert!(!sheet_of(Kind::Customer, &job).contains("The vehicle will ride as it does now"));
    for axle in [&mut job.front, &mut job.rear] {
        axle.damper.ratio_before = "0.3".into();
    }
    let customer = sheet_of(Kind::Customer, &job);
    assert!(
        customer.contains("The vehicle will ride as it does now") && !customer.contains("New rear dampers"),
        "{customer}"
    );
}

#[test]
fn heights_and_roads_are_told_for_the_load_they_name() {
    let job = presets::find("tow-load").expect("shipped").job();
    let answer = solve(&job);
    let sized = answer.cases.iter().position(|c| c.sized).expect("sized on a case");
    assert!(sized > 0);
    // The fitting sheet speaks of the weigh-in after: by the curves under what stood on the scales.
    let front = &answer.axles.front;
    let load = springwright::base::units::weight(front.masses.stood.after.expect("weighed"));
    let at = |s: &Option<springwright::solve::answer::Standing>| {
        s.as_ref().and_then(|s| s.curve.ride_height(load).ok()).expect("it stands").travel.si()
    };
    let sixteenths = ((at(&front.standing.old) - at(&front.standing.new)) / 0.0254 * 16.0).round();
    assert_eq!(sixteenths, 15.0, "15/16 in by hand");
    assert!(sheet_of(Kind::Fitting, &job).contains("Front, hub to arch: expect 15/16 in more"));
    // The road's table holds the remedies against before in one load; so does the customer's page.
    let spacer = answer.remedies.front.iter().find(|r| r.kind == RemedyKind::Spacer).expect("offered");
    let in_case = spacer.cases[sized].expect("it stands");
    let bounces = format!("{:.2}", in_case.on.frequency().si());
    assert!(sheet_of(Kind::Customer, &job).contains(&format!("bounce {bounces} times")));
    let blocks =
        springwright::report::sections::road_tables::closed(&answer, &Results::of(&answer), Side::Front, &job.units);
    let table = read(&Report { title: String::new(), blocks });
    let per_km = answer.remedies.front[0].cases[sized].and_then(|s| s.road?.hits_per_km).expect("known");
    let nothing = 1.609_344 * per_km; // This job is in miles.
    assert!(nothing > 10.0 && table.contains(&format!("{nothing:.0}")), "{nothing}: {table}");
}

#[test]
fn an_order_names_all_that_its_size_rests_on() {
    // A leaf: height under the load, and free of it by the rate.
    let job = presets::find("leaf-rear").expect("shipped").job();
    let answer = solve(&job);
    let new = answer.axles.rear.standing.new.as_ref().expect("it stands");
    let ride = new.spring_length.expect("known").si();
    let free = ride + new.spring_force.si() / new.spring_rate.si();
    let order = sheet_of(Kind::Order, &job);
    assert!(order.contains(&format!("leaf spring height at ride height, under load {:.0} mm", 1e3 * ride)), "{order}");
    assert!(order.contains(&format!("leaf spring height, unloaded {:.0} mm", 1e3 * free)), "{free}: {order}");
    assert!(!order.contains("free length"));
    // A hollow bar: its bore.
    let mut job = presets::find("torsion-bar-front").expect("shipped").job();
    assert!(sheet_of(Kind::Order, &job).contains("bar bore none (solid bar)"));
    job.front.spring.bar.inside_diameter = "18 mm".into();
    for sheet in [Kind::Order, Kind::Fitting] {
        assert!(sheet_of(sheet, &job).contains("bar bore 18 mm"), "{sheet:?}");
    }
    // Dampers: the forces that are wanted, of two slopes where two slopes are.
    let job = presets::demo();
    let answer = solve(&job);
    let two = answer
        .released(Side::Front)
        .expect("released")
        .damper
        .clone()
        .and_then(|d| d.two_slope_forces)
        .expect("a knee is typed");
    let last = two.last().expect("speeds");
    assert!(sheet_of(Kind::Order, &job).contains(&format!("{:.0} N", last.rebound.high.si())));
}

#[test]
fn a_spacer_that_was_taken_is_paid_for() {
    let mut job = presets::demo();
    let taken = &mut job.front.taken;
    (taken.rate, taken.free_length, taken.price) = ("57.5 N/mm".into(), "360 mm".into(), "57.5".into());
    let price = |job: &Job| {
        let springs = solve(job).remedies.front.iter().find(|r| r.kind == RemedyKind::Springs).expect("offered").price;
        springs.expect("prices are typed")
    };
    let without = price(&job);
    job.front.taken.spacer = "7 mm".into();
    let spacers: f64 = job.prices.spacers.text.parse().expect("typed");
    assert_relative_eq!(price(&job), without + spacers, max_relative = 1e-12);
    assert!(sheet_of(Kind::Customer, &job).contains("Spacers for the front springs, 7 mm thick"));
}

#[test]
fn less_room_and_cases_on_the_stops_are_told_to_the_customer() {
    let mut job = presets::demo();
    job.front.target.raise = "-40 mm".into();
    let customer = sheet_of(Kind::Customer, &job);
    assert!(customer.contains("less room to the bump stop than before the change: 15 mm, not 55 mm"));
    assert!(customer.contains("the front rests on its bump stops and rides hard: two and the tool chest full"));
    assert!(!sheet_of(Kind::Customer, &presets::demo()).contains("less room"));
}

#[test]
fn runs_on_new_springs_have_the_dampers_that_will_be_there() {
    use springwright::solve::road::drive;
    let torsion = presets::find("torsion-bar-front").expect("shipped").job();
    let other_wish = |low: &str, high: &str| {
        let mut job = torsion.clone();
        (job.front.target.damping_low, job.front.target.damping_high) = (low.into(), high.into());
        let answer = solve(&job);
        let driven = drive(&job, &answer, |_| true).expect("it runs");
        let blocks = springwright::report::sections::road_tables::closed(
            &answer,
            &Results::of(&answer),
            Side::Front,
            &job.units,
        );
        let said = driven.over[0].new.as_ref().and_then(|r| r.said.front).expect("it runs");
        (answer.axles.front.new_dampers, said, read(&Report { title: String::new(), blocks }))
    };
    // The old ones stay in both wishes, so nothing changes on the road; and it is said.
    let (a, b) = (other_wish("0.20", "0.40"), other_wish("0.20", "0.60"));
    assert!(!a.0 && !b.0 && a.1 == b.1);
    assert!(a.2.contains("the simulation uses the old dampers"), "{}", a.2);
    // Wanted is more than they give: new ones.
    let c = other_wish("0.50", "0.60");
    assert!(c.0 && c.1 != a.1 && c.2.contains("the simulation uses new dampers"), "{}", c.2);
}

#[test]
fn dampers_of_which_nothing_is_said_are_doubted_by_nobody_and_sold_to_nobody() {
    let mut job = presets::demo();
    job.front.damper = Default::default();
    let answer = solve(&job);
    let said = answer.findings.iter().find(|f| f.rule == "damper-soft").expect("0.25 before is too little after");
    assert_eq!(said.level, Level::Note);
    assert!(
        said.text.to_string().contains("not measured; a damping ratio of 0.25 before the change is assumed"),
        "{}",
        said.text
    );
    let customer = sheet_of(Kind::Customer, &job);
    assert!(!customer.contains("New front dampers") && customer.contains("Still open: front dampers (not tested)."));
    job.front.damper.ratio_before = "0.25".into();
    let typed = solve(&job);
    assert!(typed.findings.iter().any(|f| f.rule == "damper-soft" && f.level == Level::Doubt));
    assert!(sheet_of(Kind::Customer, &job).contains("New front dampers"));
}
