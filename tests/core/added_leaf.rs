//! Leaves added to the old ones instead of new springs: by statics, by beam theory, and on the order.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use std::path::Path;

use springwright::base::units::entry::{AnyEntry, Spread};
use springwright::base::units::{Force, Length, Quantity, SpringRate};
use springwright::job::{Job, Plan, Side, file};
use springwright::report::sections::sentence;
use springwright::report::sheets::Kind;
use springwright::report::sheets::plan_table::Plans;
use springwright::solve::answer::AddedLeaf;
use springwright::solve::{planned, solve};
use springwright::trade::spring::{Beside, Leaf, LeafPack, Spring};

use crate::common::sheets::{english, plain, preset, sheet};

fn by_sizes() -> Job {
    file::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kinds/leaf-by-sizes.ron")).expect("a job")
}

/// The leaf added to a released rear axle.
fn added(job: &Job) -> Option<AddedLeaf> {
    solve(job).released(Side::Rear).expect("released").added_leaf
}

/// Two leaves clamped together, by hand (statics): at the height both rates and both loads are a sum.
#[test]
fn beside_the_old_leaf_it_brings_what_is_missing() {
    let old = Leaf { rate_n_per_m: 28e3, free_height_m: 0.25 };
    let of =
        |load: f64, rate: f64| Beside::of(&old, Length::from_si(0.15), Force::from_si(load), SpringRate::from_si(rate));
    // The old one brings 28 N/mm × 100 mm = 2800 N; 1700 N are left for 12 N/mm: it gives way by 141.7 mm.
    let beside = of(4500.0, 40e3).expect("something is missing");
    let near = |found: f64, wanted: f64| (found - wanted).abs() < 1e-9 * wanted.abs().max(1.0);
    assert!(near(beside.rate.si(), 12e3) && near(beside.load.si(), 1700.0), "{beside:?}");
    assert!(near(beside.gives_way.si(), 1700.0 / 12e3) && near(beside.nip.si(), 1700.0 / 12e3 - 0.1), "{beside:?}");
    // 20 mm further down both give way: 40 N/mm × 20 mm more.
    let carries = |down: f64| 28e3 * (0.1 + down) + beside.rate.si() * (beside.gives_way.si() + down);
    assert!(near(carries(0.02), 4500.0 + 40e3 * 0.02), "{}", carries(0.02));
    // Of little load and much rate: touched only later.
    assert!(of(3000.0, 40e3).expect("a helper").nip.si() < 0.0);
    // A leaf takes nothing away.
    assert!(of(2800.0, 40e3).is_none() && of(2000.0, 40e3).is_none() && of(4500.0, 28e3).is_none());
}

/// The pack that is added has the rate that is missing, by beam theory: n triangular leaves, k = 4 n E I / a³ for each half
/// of the span a = L/2 with I = b t³/12 (a triangular cantilever bends by F a³ / (2 E I), both halves carry half of the
/// load). Source: S. Timoshenko, Strength of Materials, beam of uniform strength; from memory.
#[test]
fn its_thickness_gives_the_rate() {
    let old = LeafPack {
        modulus_pa: 206e9,
        leaves: 4.0,
        full_length: 1.0,
        width_m: 0.06,
        thickness_m: 0.007,
        working_span_m: 1.11,
    };
    for rate in [3e3, 9e3, 31e3] {
        let wanted = SpringRate::from_si(rate);
        let leaves = old.leaves_to_add(wanted).expect("a number");
        let pack = old.added(wanted, leaves);
        let half_m = 0.5 * pack.working_span_m;
        let inertia_m4 = pack.width_m * pack.thickness_m.powi(3) / 12.0;
        let one = 2.0 * (2.0 * pack.modulus_pa * inertia_m4 / half_m.powi(3));
        assert!((leaves * one / rate - 1.0).abs() < 1e-12, "{leaves} of {}", pack.thickness_m);
        assert!((pack.rate().si() / rate - 1.0).abs() < 1e-12);
        assert!(pack.thickness_m <= old.thickness_m + 1e-12, "none is thicker than an old one");
        // With one less they would have to be thicker.
        assert!(leaves < 2.0 || old.added(wanted, leaves - 1.0).thickness_m > old.thickness_m);
    }
    assert!(old.leaves_to_add(SpringRate::from_si(0.0)).is_none());
}

/// The old leaf with the added one stands at the wanted height with the rate that would be bought.
#[test]
fn both_together_carry_the_axle_as_the_new_leaf_would() {
    for job in [preset("leaf-rear").0, by_sizes()] {
        let answer = solve(&job);
        let axle = answer.axle(Side::Rear);
        let (added, sizing) = (added(&job).expect("a leaf to add"), axle.sizing.as_ref().expect("sized"));
        let old = &axle.standing.old.as_ref().expect("stands").curve;
        let Spring::Leaf(leaf) = &old.spring else { panic!("a leaf") };
        let height_m = old.spring_length.length(sizing.wanted_travel).si();
        let own_n = leaf.rate_n_per_m * (leaf.free_height_m - height_m);
        let added_n = added.beside.rate.si() * added.beside.gives_way.si();
        assert!(((own_n + added_n) / sizing.spring_force.si() - 1.0).abs() < 1e-9);
        let pick = answer.released(Side::Rear).unwrap().spring.unwrap().pick;
        assert!(((leaf.rate_n_per_m + added.beside.rate.si()) / pick.si() - 1.0).abs() < 1e-9);
        assert!((added.share().si() - added_n / (own_n + added_n)).abs() < 1e-9);
    }
}

#[test]
fn it_stands_on_the_order_with_its_numbers() {
    let mut job = by_sizes();
    (job.rear.target.low, job.rear.target.high) = ("1.7 Hz".into(), "1.8 Hz".into());
    job.rear.order.camber = "40 mm".into();
    let text = plain(&sheet(Kind::Order, &job, &solve(&job)));
    for key in ["added.rate", "added.share", "added.camber", "added.camber_free", "added.leaves", "added.stack"] {
        assert!(text.contains(&english(key)), "{key}: {text}");
    }
    let added = added(&job).expect("a leaf to add");
    let free_mm = 40.0 + 1e3 * added.beside.gives_way.si();
    assert!(text.contains(&format!("{} {free_mm:.0} mm", english("added.camber_free"))), "{free_mm}: {text}");
    // Not known well enough: not named, and why.
    let doubtful = |job: &Job| plain(&sheet(Kind::Order, job, &solve(job)));
    AnyEntry::set_pm(&mut job.rear.spring.leaf.thickness, "0.8 mm", Spread::Limits);
    let text = doubtful(&job);
    assert!(text.contains("measure the rate of the old leaf spring again"), "{text}");
    // The row of the table; the reason names "the added rate, 15.8 N/mm", too.
    let row = format!("{} ", english("added.rate"));
    assert!(!text.contains(&row) && !text.contains(&english("added.share")), "{text}");
    // A spring that has to be softer gets none.
    (job.rear.target.low, job.rear.target.high) = ("1.0 Hz".into(), "1.1 Hz".into());
    let text = doubtful(&job);
    assert!(!text.contains("leaves added") && !text.contains("added leaves"), "{text}");
}

/// 28 N/mm with 12 N/mm clamped beside it, arched 41.7 mm more: what [`Beside`] asked for above, by statics.
#[test]
fn clamped_into_the_pack_it_carries_its_share() {
    let old = Spring::Leaf(Leaf { rate_n_per_m: 28e3, free_height_m: 0.25 });
    let nip_m = 1700.0 / 12e3 - 0.1;
    let both = old.with_leaf(SpringRate::from_si(12e3), Length::from_si(nip_m));
    assert!((both.force_n(0.15) - 4500.0).abs() < 1e-9, "{}", both.force_n(0.15));
    assert!((both.rate_n_per_m(0.15) - 40e3).abs() < 1e-9);
    // Where the old leaf by itself is free, the added one still presses: 12 N/mm · 41.7 mm.
    assert!((both.force_n(0.25) - 500.0).abs() < 1e-9, "{}", both.force_n(0.25));
}

/// 28 N/mm over a helper of 20 N/mm that is touched 60 mm lower, by statics: alone above, together below.
#[test]
fn a_helper_carries_once_the_leaf_has_given_way_so_far() {
    let old = Spring::Leaf(Leaf { rate_n_per_m: 28e3, free_height_m: 0.25 });
    let both = old.clone().with_leaf(SpringRate::from_si(20e3), Length::from_si(-0.06));
    for (height_m, force_n, rate) in
        [(0.25, 0.0, 28e3), (0.2, 1400.0, 28e3), (0.19, 1680.0, 28e3), (0.15, 3600.0, 48e3)]
    {
        assert!((both.force_n(height_m) - force_n).abs() < 1e-9, "{height_m}: {}", both.force_n(height_m));
        assert!((both.rate_n_per_m(height_m) - rate).abs() < 1e-9, "{height_m}");
        assert!((both.length_for_m(force_n).expect("a height") - height_m).abs() < 1e-12, "{force_n}");
        // The work is the area under the force: trapezia from the free height down, straight in each part.
        let touched_j = 0.5 * 28e3 * (0.25 - height_m).powi(2) + 0.5 * 20e3 * (0.19 - height_m).max(0.0).powi(2);
        assert!((both.energy_j(height_m) - touched_j).abs() < 1e-9);
    }
    // Moved until it carries 3600 N at 0.2 m: on a block of 50 mm.
    let raised = both.carrying(Force::from_si(3600.0), Length::from_si(0.2)).expect("a leaf");
    for height_m in [0.3, 0.24, 0.2] {
        assert!((raised.force_n(height_m) - both.force_n(height_m - 0.05)).abs() < 1e-6, "{height_m}");
    }
}

/// The job on which the plan with the added leaf is offered: clamped into the pack.
fn clamped() -> Job {
    let mut job = by_sizes();
    (job.rear.target.low, job.rear.target.high) = ("1.7 Hz".into(), "1.8 Hz".into());
    job.prices.currency = "EUR".into();
    (job.prices.springs, job.prices.added_leaves, job.prices.work) = ("400".into(), "120".into(), "90".into());
    job
}

#[test]
fn the_program_adds_it_as_a_plan_that_does_the_same() {
    let job = clamped();
    let answer = solve(&job);
    let plan = planned::named(&job, "added-leaf").expect("offered");
    assert_eq!((plan.rear.plan, plan.rear.spacer.is_blank()), (Plan::Keep, true));
    let with = solve(&plan);
    let stands = |of: &springwright::solve::answer::Answer| {
        let new = of.axle(Side::Rear).standing.new.as_ref().expect("stands");
        (new.frequency.si(), new.height_change.expect("known").si())
    };
    let ((hz, rise_m), (new_hz, new_rise_m)) = (stands(&with), stands(&answer));
    // The sizes are rounded as they are shown: to the millimetre, and to 3 figures of the rate.
    assert!(
        (hz / new_hz - 1.0).abs() < 0.01 && (rise_m - new_rise_m).abs() < 1e-3,
        "{hz} {new_hz} {rise_m} {new_rise_m}"
    );
    let plans = Plans::of(&job, &answer, || true).expect("wanted");
    let cheaper = plans.cheaper().expect("it costs less");
    assert_eq!(cheaper.planned.key(), "added-leaf");
    assert_eq!(cheaper.price, Some(210.0));
    // The shipped leaf job has it, too; jobs with coils do not.
    assert!(planned::named(&preset("demo-orchard-van").0, "added-leaf").is_none());
}

#[test]
fn the_sheets_of_the_plan_name_the_leaf_and_who_builds_it_in() {
    let job = planned::named(&clamped(), "added-leaf").expect("offered");
    let answer = solve(&job);
    let said = sentence::axle(&answer, answer.axle(Side::Rear), &job.units).answer;
    assert!(said.starts_with("Rear: the old leaf springs stay, with a helper pack of "), "{said}");
    let text = |kind| plain(&sheet(kind, &job, &answer));
    let (customer, order, fitting) = (text(Kind::Customer), text(Kind::Order), text(Kind::Fitting));
    let rate = &job.rear.added_leaf.rate.text;
    for sheet in [&customer, &order, &fitting] {
        assert!(sheet.contains(rate.as_str()) && sheet.contains("helper pack that starts to carry"), "{rate}: {sheet}");
        assert!(!sheet.contains("spacer") && !sheet.contains("New rear springs"), "{sheet}");
    }
    assert!(customer.contains("210.00 EUR") && customer.contains("with added leaf"), "{customer}");
    assert!(order.contains("Old leaf springs, with an added leaf") && order.contains("2, one per side"), "{order}");
    assert!(fitting.contains("springs open when its centre bolt comes out"), "{fitting}");
}

#[test]
fn where_it_means_nothing_is_said_not_used() {
    let has =
        |job: &Job, field: &str| solve(job).findings.iter().any(|f| f.rule == "leaf-not-used" && f.field == field);
    let mut new = clamped();
    new.rear.added_leaf.rate = "12 N/mm".into();
    assert!(has(&new, "rear.added_leaf.rate"), "new springs go in");
    new.rear.plan = Plan::Keep;
    assert!(!has(&new, "rear.added_leaf.rate"));
    let mut coil = preset("demo-orchard-van").0;
    (coil.front.plan, coil.front.added_leaf.rate) = (Plan::Keep, "12 N/mm".into());
    assert!(has(&coil, "front.added_leaf.rate"), "coils have no leaves");
}

/// Left and right over helpers of their own are one axle that carries the mean of both, touched or not.
#[test]
fn two_over_helpers_carry_what_both_carry() {
    let of = |main: f64, helper: f64| {
        let leaf = Spring::Leaf(Leaf { rate_n_per_m: main, free_height_m: 0.25 });
        leaf.with_leaf(SpringRate::from_si(helper), Length::from_si(-0.06))
    };
    let (left, right) = (of(28e3, 20e3), of(32e3, 12e3));
    let both = left.clone().shared_with(&right);
    for height_m in [0.26, 0.22, 0.18, 0.12] {
        let mean_n = 0.5 * (left.force_n(height_m) + right.force_n(height_m));
        assert!((both.force_n(height_m) - mean_n).abs() < 1e-9, "{height_m}: {} {mean_n}", both.force_n(height_m));
    }
}
