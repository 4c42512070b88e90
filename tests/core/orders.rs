//! Orders that a supplier can fill: what is known, and for every blank the field that fills it.
#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used, reason = "a test says why it stops")]

use springwright::base::units::{Quantity, UnitChoice};
use springwright::job::fields::{self, FIELDS};
use springwright::job::{DamperPlan, Job, Side, SpringKind, Suspension, Walk as _};
use springwright::report::Block;
use springwright::report::Report;
use springwright::report::sheets::Kind;
use springwright::solve::solve;

use crate::common::kept;
use crate::common::sheets::{english, plain, preset, sheet, tables};

fn order(job: &Job) -> String {
    plain(&sheet(Kind::Order, job, &solve(job)))
}

/// For each blank of an order the fields that it says would fill it.
fn open_fields(report: &Report) -> Vec<Vec<String>> {
    let is_said = |block: &Block| matches!(block, Block::Text(text) if *text == english("order.open_fields"));
    let said: Vec<&Block> = report.blocks.windows(2).filter(|pair| is_said(&pair[0])).map(|pair| &pair[1]).collect();
    assert!(said.len() < 2, "once per order");
    let Some(Block::List(places)) = said.first() else { return Vec::new() };
    let of_place = |line: &String| -> Vec<Vec<String>> {
        let (place, blanks) = line.split_once(": ").expect("a place");
        blanks.split("; ").map(|blank| paths_of(place, blank)).collect()
    };
    places.iter().flat_map(of_place).collect()
}

/// The paths of the fields that a blank of an order names: by their labels, or as a text of the order.
fn paths_of(place: &str, blank: &str) -> Vec<String> {
    let side = if place.to_lowercase().contains(&english("front.axle")) { "front" } else { "rear" };
    if place == english("order.in_sheet") {
        let of_job = [
            ("head.fitter", "shop.fitter"),
            ("order.from", "shop.name"),
            ("order.order_number", "order.number"),
            ("order.needed", "order.needed"),
            ("order.deliver_to", "order.deliver_to"),
        ];
        let found = of_job.iter().find(|(key, _)| english(key) == blank);
        return vec![found.unwrap_or_else(|| panic!("{place}: {blank}")).1.to_owned()];
    }
    const TEXTS: [&str; 13] = [
        "ends",
        "finish",
        "upper_mount",
        "lower_mount",
        "eyes",
        "bolt",
        "clips",
        "splines",
        "bag_fittings",
        "u_bolts",
        "fixed_eye",
        "bar_direction",
        "damper_points",
    ];
    if place.contains("step") {
        let is = |text: &str| {
            let label = match text {
                "damper_points" => "order.strut_points".to_owned(),
                text => format!("order.{text}"),
            };
            english(&label) == blank || text == "ends" && blank == english("order.ends_lie")
        };
        let found = TEXTS.iter().find(|text| is(text));
        return vec![format!("{side}.order.{}", found.unwrap_or_else(|| panic!("{place}: {blank}")))];
    }
    let named = blank.strip_suffix(')').and_then(|b| b.rsplit_once(" (")).map_or(blank, |(_, fields)| fields);
    let path = |label: &str| {
        let paths = FIELDS.iter().map(|f| format!("{side}.{}", f.key));
        let mut found =
            paths.filter(|p| fields::by_path(p).is_some_and(|f| f.0.label().to_lowercase() == label.to_lowercase()));
        found.next().unwrap_or_else(|| panic!("{place}: {blank}"))
    };
    named.split(&english("order.open_and")).map(path).collect()
}

fn blanks(report: &Report) -> usize {
    tables(report).iter().flat_map(|t| t.1.iter().flatten()).filter(|cell| cell.starts_with("____")).count()
}

/// What could be typed in such a field.
fn something(path: &str) -> &'static str {
    match path.rsplit('.').next().unwrap() {
        "gas_pressure" => "8 bar",
        "inside_least" => "81 mm",
        "outside_most" => "163 mm",
        "camber" | "bore" | "spring_plate" => "41 mm",
        "centre_bolt" | "bar_length" => "877 mm",
        _ => "as agreed by telephone",
    }
}

/// Each blank names itself and its field; what is typed there stands in its place.
#[test]
fn every_blank_is_filled_by_the_field_that_it_names() {
    let mut filled = 0;
    for shipped in kept::shipped() {
        let (job, report) = (&shipped.job, shipped.sheet(Kind::Order));
        let fields = open_fields(report);
        // Where nothing is ordered, the fitter signs by hand.
        let signed = usize::from(fields.is_empty() && job.shop.fitter.is_empty());
        assert_eq!(blanks(report), fields.len() + signed, "{}: {fields:?}", shipped.name);
        // What would also change the answer is typed by whoever measures.
        for path in fields.iter().flatten().filter(|p| {
            [".order.", ".choice.", "gas_pressure"].iter().any(|s| p.contains(s)) || p.starts_with("order.")
        }) {
            let mut job = job.clone();
            assert!(job.set_text(path, something(path)), "{}: {path} is a field", shipped.name);
            let report = sheet(Kind::Order, &job, &solve(&job));
            assert!(
                open_fields(&report).iter().all(|blank| !blank.contains(path)),
                "{}: {path} is filled",
                shipped.name
            );
            let said = plain(&report);
            let shown = something(path).split(' ').next().unwrap();
            assert!(said.contains(shown) || job.units.in_inches(), "{}: {path}: {said}", shipped.name);
            filled += 1;
        }
    }
    assert!(filled > 60, "{filled} blanks were filled");
}

/// As it is sold: no diameter to a millionth of an inch, on no sheet that names parts.
#[test]
fn no_number_has_more_places_than_it_can_be_bought_with() {
    for shipped in kept::shipped() {
        for units in [UnitChoice::metric(), UnitChoice::pound_inch()] {
            let mut job = shipped.job.clone();
            job.units = units;
            job.front.choice.inside_least = "81.37 mm".into();
            job.rear.choice.outside_most = "6.4063 in".into();
            job.front.spring.bar.inside_diameter = "14.29 mm".into();
            let answer = solve(&job);
            for kind in [Kind::Order, Kind::Fitting] {
                let text = plain(&sheet(kind, &job, &answer));
                let long = text.split_whitespace().find(|word| {
                    let number = word.trim_matches(|c: char| !c.is_ascii_digit());
                    number.split_once('.').is_some_and(|(whole, places)| {
                        let digits = |t: &str| t.bytes().all(|b| b.is_ascii_digit());
                        digits(whole) && digits(places) && places.len() > 3
                    })
                });
                assert!(long.is_none(), "{}, {}: {long:?} in {text}", shipped.name, kind.key());
            }
        }
    }
}

/// What a supplier asks whom he has never seen: each line is there, filled or as a blank that names its field. What the
/// lines are is common practice, no source.
#[test]
fn a_supplier_need_not_ask_back() {
    const COIL: [&str; 9] = [
        "order.pieces",
        "order.rate",
        "order.free",
        "order.load",
        "order.force_metal",
        "order.solid",
        "order.hand",
        "wound.preset",
        "order.finish",
    ];
    const LEAF: [&str; 19] = [
        "order.u_bolts",
        "order.fixed_eye",
        "order.leaf_settling",
        "order.leaf_at_bump",
        "order.pieces",
        "order.rate",
        "fit.load",
        "order.leaf_height",
        "order.camber",
        "order.eye_to_eye",
        "order.centre_bolt",
        "order.leaf_width",
        "order.leaf_thickness",
        "order.leaves",
        "order.bolt",
        "order.eyes",
        "order.clips",
        "order.steel",
        "order.finish",
    ];
    const BAR: [&str; 15] = [
        "order.bar_direction",
        "order.pieces",
        "order.bar",
        "order.bar_bore",
        "order.bar_length",
        "order.bar_over_all",
        "order.splines",
        "order.bar_sides",
        "fit.index",
        "order.bar_arm",
        "order.bar_rate",
        "order.twist_ride",
        "order.twist_bump",
        "order.steel",
        "order.finish",
    ];
    const DAMPER: [&str; 9] = [
        "order.pieces",
        "order.damper_points",
        "order.closed",
        "order.open",
        "order.upper_mount",
        "order.lower_mount",
        "order.body",
        "order.bore",
        "order.gas",
    ];
    const BAG: [&str; 11] = [
        "order.pieces",
        "order.bag.load",
        "fit.bag",
        "order.bag.bump",
        "order.bag.area",
        "order.bag.volume",
        "order.bag.height",
        "order.bag.room",
        "order.bag_fittings",
        "order.bag.shortens",
        "order.bag.lengthens",
    ];
    let mut enquiries = [0; 5];
    for shipped in kept::shipped() {
        let mut job = shipped.job.clone();
        // Dampers that are open are not on the order.
        for axle in [&mut job.front, &mut job.rear].into_iter().filter(|axle| axle.dampers == DamperPlan::AsNeeded) {
            axle.dampers = DamperPlan::New;
        }
        let answer = solve(&job);
        let report = sheet(Kind::Order, &job, &answer);
        for side in Side::BOTH {
            let axle = answer.axle(side);
            let words = |what: &str| {
                let text = match what {
                    "bags" => format!("{} air bags", side.key()),
                    what => english(&format!("{}.{what}", side.key())),
                };
                text[..1].to_uppercase() + &text[1..]
            };
            let own = |what: &str| tables(&report).into_iter().find(|t| t.0[0] == words(what));
            let asked = [
                (own("springs"), axle.kind.is_coil().then_some(&COIL[..])),
                (own("springs"), (axle.kind == SpringKind::Leaf).then_some(&LEAF[..])),
                (own("springs"), (axle.kind == SpringKind::TorsionBar).then_some(&BAR[..])),
                (own("dampers"), Some(&DAMPER[..])),
                (own("bags"), Some(&BAG[..])),
            ];
            for (n, (table, lines)) in asked.into_iter().enumerate() {
                let Some(((_, rows), lines)) = table.zip(lines) else { continue };
                for line in lines {
                    // One to be wound has its solid length below.
                    if *line == "order.solid" && rows.iter().all(|row| row[0] != english("order.inside")) {
                        continue;
                    }
                    // Behind a helper, the lengths are those of the main spring.
                    let line = match *line {
                        "order.load" if axle.kind == SpringKind::WithHelper => "order.load_main",
                        "order.force_metal" if axle.kind == SpringKind::WithHelper => "order.force_metal_main",
                        "order.damper_points" if job.axle(side).suspension == Suspension::Strut => "order.strut_points",
                        line => line,
                    };
                    let said = rows.iter().find(|row| row[0] == english(line)).map(|row| row[1].trim());
                    assert!(said.is_some_and(|s| !s.is_empty()), "{}, {}: {line}: {rows:?}", shipped.name, side.key());
                }
                enquiries[n] += 1;
            }
        }
    }
    assert!(enquiries.iter().zip([10, 1, 1, 10, 1]).all(|(found, least)| *found >= least), "{enquiries:?}");
}

#[test]
fn pieces_are_alike_unless_left_and_right_differ() {
    let alike = format!("quantity {}", english("order.two_alike"));
    let kept = kept::named("demo-orchard-van");
    assert!(plain(kept.sheet(Kind::Order)).contains(&alike));
    let springs = |report: &Report| {
        let rows = tables(report).into_iter().find(|t| t.0[0] == "Front springs").map(|t| t.1.clone());
        rows.expect("springs")[0][1].clone()
    };
    let of = |job: &Job| springs(&sheet(Kind::Order, job, &solve(job)));
    let mut job = kept.job.clone();
    job.front.right.spacer = "4 mm".into();
    assert_eq!(of(&job), english("order.two_alike"), "spacers are no springs");
    job.front.right.rate = "65 N/mm".into();
    assert_eq!(of(&job), english("order.two"));
    let bars = kept::named("torsion-bar-front").sheet(Kind::Order);
    assert_eq!(springs(bars), english("order.two"), "a bar is preset in its own direction");
}

#[test]
fn a_coil_has_its_loads_at_lengths() {
    let kept = kept::named("demo-orchard-van");
    let text = plain(kept.sheet(Kind::Order));
    let axle = kept.answer().axle(Side::Front);
    let new = axle.standing.new.as_ref().unwrap();
    let said = |force: f64, length_m: f64| format!("{force:.0} N at {:.0} mm", 1e3 * length_m);
    // A coil of 60 N/mm from its free length without the allowance, by hand.
    let ride_m = axle.room.own_at_ride.unwrap().si();
    let free_m = ride_m + new.spring_force.si() / 60e3;
    assert!(text.contains(&said(new.spring_force.si(), ride_m)), "{text}");
    let metal_m = axle.room.spring_at_metal.unwrap().si();
    assert!(text.contains(&said(60e3 * (free_m - metal_m), metal_m)), "{text}");
}

#[test]
fn a_leaf_has_its_camber_free_and_loaded() {
    let (mut job, answer) = preset("leaf-rear");
    job.rear.order.camber = "40 mm".into();
    let new = answer.axle(Side::Rear).standing.new.as_ref().unwrap();
    // It gives way by force over rate.
    let free_mm = 40.0 + 1e3 * new.spring_force.si() / new.spring_rate.si();
    let text = order(&job);
    assert!(text.contains("camber at ride height 40 mm"), "{text}");
    assert!(text.contains(&format!("camber, unloaded {free_mm:.0} mm")), "{free_mm}: {text}");
    job.rear.order.camber = Default::default();
    let text = order(&job);
    assert!(!text.contains("camber, unloaded"), "unknown, and not made up: {text}");
}

/// Old and wanted at each test speed; the old ones as measured.
#[test]
fn dampers_are_ordered_as_a_revalve_sheet() {
    let kept = kept::named("demo-orchard-van");
    let (head, rows) =
        tables(kept.sheet(Kind::Order)).into_iter().find(|t| t.0[0] == english("order.speed")).expect("forces");
    assert_eq!(head[1..], ["order.bump_old", "order.bump", "order.rebound_old", "order.rebound"].map(english));
    let at = |speed: &str| rows.iter().find(|r| r[0] == speed).unwrap();
    assert_eq!([&at("0.13 m/s")[1], &at("0.13 m/s")[3]], ["270 N", "556 N"], "as on the test machine");
    let wanted = kept.answer().released(Side::Front).unwrap().damper.clone().unwrap();
    let forces = wanted.two_slope_forces.unwrap_or(wanted.forces);
    for (row, force) in rows.iter().zip(&forces) {
        let band = |low: f64, high: f64| format!("{low:.0} to {high:.0} N");
        assert_eq!(row[2], band(force.bump.low.si(), force.bump.high.si()));
        assert_eq!(row[4], band(force.rebound.low.si(), force.rebound.high.si()));
    }
    // A damper of which only the ratio is known has no forces of its own.
    let mut job = kept.job.clone();
    job.front.damper.rows.clear();
    let report = sheet(Kind::Order, &job, &solve(&job));
    let (_, rows) = tables(&report).into_iter().find(|t| t.0[0] == english("order.speed")).expect("forces");
    assert!(rows.iter().all(|r| r[1] == "not known" && r[3] == "not known"), "{rows:?}");
}

#[test]
fn number_day_and_place_stand_on_it() {
    let (mut job, _) = preset("demo-orchard-van");
    job.order.number = "PY-88".into();
    job.order.needed = "2026-05-04".into();
    job.order.deliver_to = "Gate 3".into();
    let text = order(&job);
    for part in ["order number PY-88", "needed by 2026-05-04", "deliver to Gate 3", "Fitter J. Alderbeck"] {
        assert!(text.contains(part), "{part}: {text}");
    }
    // Nothing is ordered: no blanks for it.
    job.after = job.before.clone();
    job.front.plan = springwright::job::Plan::Keep;
    let text = order(&job);
    assert!(!text.contains("order number"), "{text}");
}

/// The spacer of each side, its own or the axle's.
#[test]
fn each_side_has_its_spacer_on_the_fitting_sheet() {
    let (mut job, _) = preset("demo-orchard-van");
    job.front.right.spacer = "4 mm".into();
    let fitting = plain(&sheet(Kind::Fitting, &job, &solve(&job)));
    assert!(fitting.contains("spacers left none, right 4 mm"), "{fitting}");
}
