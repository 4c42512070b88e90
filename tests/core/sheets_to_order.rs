//! Orders that a maker can fill, cautions before the work, words of a change that is still to come, and last pages that
//! are worth their paper.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use springwright::base::units::Quantity;
use springwright::job::{DamperPlan, Side};
use springwright::report::results::{Results, figures};
use springwright::report::sheets::Kind;
use springwright::report::write::page::{Fonts, Item, Part, Placed, Printing, Spot, lay_out};
use springwright::report::{Block, Report};
use springwright::solve::solve;

use crate::common::kept;
use crate::common::sheets::{english, plain, preset, sheet, tables};

/// Torque is torsional rate × twist, and the load acts on the arm's horizontal reach: T = F R cos α (virtual work). The
/// rate of a bar grows with d⁴ (Shigley, Mechanical Engineering Design, eq. 3-41 with J = π d⁴/32, from memory), so a
/// diameter at its tolerance gives a rate at its own, to first order.
#[test]
fn a_torsion_bar_is_ordered_with_twist_and_tolerance() {
    let kept = kept::named("torsion-bar-front");
    let answer = kept.answer();
    let results: Results = figures(answer).into();
    let of = |key: &str| results.find(key).and_then(|f| f.si).unwrap_or_else(|| panic!("{key}"));
    let (rate, twist) = (of("front.sizing.bar.twist_rate"), of("front.sizing.bar.twist_ride"));
    let part = answer.released(Side::Front).expect("released");
    let bar = part.spring.as_ref().and_then(|s| s.bar.as_ref()).expect("a bar");
    let torque = of("front.sizing.spring_force") * 0.380 * bar.angle_ride.si().cos();
    assert!((rate * twist / torque - 1.0).abs() < 1e-9, "{rate} {twist} {torque}");
    assert!(of("front.sizing.bar.twist_bump") > twist);
    let (d, off) = (of("front.sizing.bar.pick"), of("front.sizing.bar.tolerance"));
    let stiffer = ((d + off) / d).powi(4) - 1.0;
    assert!((stiffer / 0.05 - 1.0).abs() < 0.03, "{stiffer}: 5 % is the default tolerance of a rate");
    let text = plain(kept.sheet(Kind::Order));
    for line in ["bar diameter 27.5 mm ± 0.3 mm", "torsional rate 67.6 N·m/°", "wheel load 380 mm"] {
        assert!(text.contains(line), "{line}: {text}");
    }
}

/// L0 = L at ride + F / k + allowance (Shigley, eq. 10-9 turned around), for each rate that would do.
#[test]
fn other_rates_come_with_their_lengths() {
    let kept = kept::named("demo-orchard-van");
    let results: Results = figures(kept.answer()).into();
    let of = |key: &str| results.find(&format!("front.sizing.{key}")).and_then(|f| f.si).expect(key);
    let at_ride = of("free_length") - of("spring_force") / of("pick");
    for end in ["lowest", "highest"] {
        let by_hand = at_ride + of("spring_force") / of(&format!("stock_{end}")) + of("allowance");
        let length = of(&format!("length_{end}"));
        assert!((length - by_hand).abs() < 1e-9, "{end}: {length} {by_hand}");
    }
    let text = plain(kept.sheet(Kind::Order));
    assert!(text.contains("55 N/mm (372 mm) to 65 N/mm (354 mm)"), "{text}");
}

/// The wire, its coil and its stress are named: neither diameters nor stress are open.
#[test]
fn a_spring_to_be_wound_has_its_diameters_and_its_stress() {
    let kept = kept::named("unknown-spring");
    let (answer, report) = (kept.answer(), kept.sheet(Kind::Order));
    let text = plain(report);
    let part = answer.released(Side::Front).expect("released");
    let wound = part.wound.as_ref().expect("wound");
    assert!(wound.holds());
    let front = text.split("Front axle, not checked").nth(1).expect("its line");
    let front = front.split("Rear axle").next().expect("before the rear axle's");
    assert!(!front.contains("spring stress") && !front.contains("spring diameters"), "{front}");
    for key in ["order.inside", "order.outside"] {
        assert!(!text.contains(&english(key)), "{key} is not asked for");
    }
    let inside = (wound.wire.mean_m - wound.wire.diameter_m) / 0.0254;
    let cell = tables(report).into_iter().flat_map(|t| t.1).find(|r| r[0] == english("wound.inside")).expect("a row");
    let said: f64 = cell[1].split_whitespace().next().and_then(|n| n.parse().ok()).expect("a number");
    assert!((said - inside).abs() < 6e-3, "{said} {inside}");
}

/// The shares that limit a spring to be wound are of its tensile strength, which is on the order too.
#[test]
fn a_spring_to_be_wound_has_its_strength() {
    let kept = kept::named("unknown-spring");
    let wound = kept.answer().released(Side::Front).expect("released").wound.expect("wound");
    let cell = tables(kept.sheet(Kind::Order))
        .into_iter()
        .flat_map(|t| t.1)
        .find(|r| r[0] == english("wound.strength"))
        .expect("a row");
    let said: f64 = cell[1].split_whitespace().next().and_then(|n| n.parse().ok()).expect("a number");
    let ksi = wound.strength.si() / 6.894_757e6;
    assert!((said / ksi - 1.0).abs() < 5e-3, "{said} {ksi}");
    // 55 % of it is the stress allowed at full bump.
    assert!((wound.allowed.si() / wound.strength.si() - 0.55).abs() < 1e-9);
}

/// Behind a helper two lengths are meant: of both together, and of the main spring.
#[test]
fn a_main_spring_behind_a_helper_has_its_own_length() {
    let kept = kept::named("helper-coil-over");
    let [order, fitting] = [Kind::Order, Kind::Fitting].map(|kind| plain(kept.sheet(kind)));
    assert!(order.contains("(length of the main spring alone) 464 lbf at 5 7/8 in"), "{order}");
    assert!(fitting.contains("main spring alone, length at ride height 5 7/8 in"), "{fitting}");
    assert!(fitting.contains("spring length between seats at ride height 6 7/8 in"), "{fitting}");
    let coil = plain(kept::named("demo-orchard-van").sheet(Kind::Fitting));
    assert!(!coil.contains("main spring"), "{coil}");
}

/// Until the vehicle is weighed after the change, the change is told as what will be.
#[test]
fn what_is_only_predicted_is_still_to_come() {
    let text = plain(kept::named("ledger-first").sheet(Kind::Customer));
    assert!(text.contains("The rear will carry 130 kg more. On the old springs the vehicle would sit"), "{text}");
    assert!(text.contains("after, old springs"), "{text}");
    for now in ["now carries", "now, old", "is now", "does now"] {
        assert!(!text.contains(now), "{now}: {text}");
    }
    let text = plain(kept::named("demo-orchard-van").sheet(Kind::Customer));
    assert!(text.contains("now carries") && text.contains("now, old springs"), "{text}");
}

/// What can hurt is read before the work begins.
#[test]
fn cautions_come_before_the_steps() {
    let mut seen = 0;
    for shipped in kept::shipped() {
        let report = shipped.sheet(Kind::Fitting);
        let steps = report.blocks.iter().position(|b| matches!(b, Block::Steps(_)));
        let is_head = |b: &Block| matches!(b, Block::Heading(text) if *text == english("fit.cautions"));
        let cautions = report.blocks.iter().position(is_head);
        assert_eq!(steps.is_some(), cautions.is_some(), "{}", shipped.name);
        assert!(steps.zip(cautions).is_none_or(|(steps, cautions)| cautions < steps), "{}", shipped.name);
        seen += usize::from(steps.is_some());
    }
    assert!(seen > 15, "{seen}");
}

/// (RF + LR) ÷ total of the corners that are aimed at.
#[test]
fn the_cross_weight_is_a_target_too() {
    let kept = kept::named("demo-orchard-van");
    let row = |report: &Report| {
        tables(report)
            .into_iter()
            .flat_map(|t| t.1.clone())
            .find(|r| r[0] == english("fit.cross_weight"))
            .expect("a row")
    };
    let [lf, rf, lr, rr] = kept.answer().reweigh.corners.map(|c| c.foretold.expect("weighed").si());
    let percent = 100.0 * (rf + lr) / (lf + rf + lr + rr);
    let blank = row(kept.sheet(Kind::Fitting));
    assert_eq!(blank[2], format!("{percent:.1} %"));
    assert!(blank[3] == "± 2.0 %" && blank[4].starts_with("____"), "{blank:?}");
    let mut job = kept.job.clone();
    for (entry, kg) in
        [(&mut job.fitted.lf, 460), (&mut job.fitted.rf, 440), (&mut job.fitted.lr, 340), (&mut job.fitted.rr, 330)]
    {
        *entry = format!("{kg} kg").as_str().into();
    }
    assert_eq!(row(&sheet(Kind::Fitting, &job, &solve(&job)))[4], format!("{:.1} %", 100.0 * 780.0 / 1570.0));
    let report = kept::named("axle-weights-only").sheet(Kind::Fitting);
    assert!(
        tables(report).into_iter().flat_map(|t| t.1).all(|r| r[0] != english("fit.cross")),
        "corners are not known"
    );
}

/// The brief of an overloaded vehicle shows the load that is over, not only the one that was weighed.
#[test]
fn a_stop_is_among_the_checks() {
    let kept = kept::named("overloaded-camper");
    let rows: Vec<&Vec<String>> = tables(kept.sheet(Kind::WorkingBrief)).into_iter().flat_map(|t| t.1).collect();
    let over = rows.iter().find(|r| r[0] == "holiday for four: the rear axle, load ÷ rating").expect("the case");
    let share: f64 = over[1].split_whitespace().next().and_then(|n| n.parse().ok()).expect("a number");
    let worst = kept.answer().cases.iter().flat_map(|c| &c.rated).map(|r| r.share.si()).fold(0.0, f64::max);
    assert!(share > 1.0 && (share - worst).abs() < 6e-3, "{share} {worst}");
}

/// A few lines too many are set a little smaller; a page that is needed stays, in the comfortable type.
#[test]
fn a_last_page_is_worth_its_paper() {
    let laid = |lines: usize| {
        let blocks = vec![Block::Steps((0..lines).map(|i| format!("step {i}")).collect())];
        let pages =
            lay_out(&Report { title: "Order of work".into(), blocks }, &Printing::default(), &mut Fonts::shipped());
        let first = pages.pages[0].iter().filter(|placed| matches!(placed.part, Part::Block(..)));
        let size = first.filter_map(|placed| match &placed.item {
            Item::Text { run, .. } => Some(run.size_pt),
            _ => None,
        });
        (pages.pages.len(), size.fold(0.0, f32::max))
    };
    let comfortable = laid(20).1;
    let two = (20..200).find(|lines| laid(*lines).0 == 2).expect("a second page");
    let (pages, size) = laid(two - 1);
    assert!(pages == 1 && size < comfortable && size >= 9.5, "{size} of {comfortable}");
    assert_eq!(laid(two).1, comfortable, "where it takes two pages anyway, nothing is made smaller");
    assert_eq!(laid(two + 20), (2, comfortable));
}

/// A text above a table is on the page where the table begins, however far down the page it stands.
#[test]
fn a_text_stays_with_its_table() {
    let long =
        "Forces that new or revalved dampers must give, at the damper and without gas force; any value will do. ";
    let mut pages = 0;
    for before in 30..75 {
        let table = || Block::Table {
            head: vec!["speed".into(), "force".into()],
            rows: (0..30).map(|i| vec![format!("{i}"), "134 N".into()]).collect(),
        };
        let mut blocks = vec![Block::Steps((0..before).map(|i| format!("step {i}")).collect())];
        blocks.extend([Block::Heading("Dampers".into()), Block::Text(long.repeat(4)), table()]);
        let report = Report { title: "Order".into(), blocks };
        let laid = lay_out(&report, &Printing::default(), &mut Fonts::shipped());
        let has = |page: &[Placed], is: &dyn Fn(Part) -> bool| {
            page.iter().any(|placed| matches!(placed.item, Item::Text { .. }) && is(placed.part))
        };
        let first = |is: &dyn Fn(Part) -> bool| laid.pages.iter().position(|page| has(page, is)).expect("a page");
        let heading = first(&|part| matches!(part, Part::Block(1, _)));
        let text = first(&|part| matches!(part, Part::Block(2, _)));
        let row = first(&|part| matches!(part, Part::Block(3, Spot::Cell(1, _))));
        assert_eq!((heading, text), (row, row), "{before} steps before");
        let text_pages = laid.pages.iter().filter(|page| has(page, &|part| matches!(part, Part::Block(2, _)))).count();
        assert_eq!(text_pages, 1, "{before} steps before");
        pages += usize::from(row > 0);
    }
    assert!(pages > 3, "{pages}");
}

/// A new spring whose solid length is only ordered keeps the room that the order asks for, not that of the old one.
#[test]
fn the_room_to_bind_is_that_of_the_spring_ordered() {
    let kept = kept::named("arm-off");
    let mut job = kept.job.clone();
    assert!(!job.front.spring.solid_length.is_blank() && job.front.stock.solid_length.is_blank());
    let [fitting, brief] = [Kind::Fitting, Kind::WorkingBrief].map(|kind| plain(kept.sheet(kind)));
    assert!(fitting.contains("at least 6 mm with the solid length ordered"), "{fitting}");
    assert!(!brief.contains("room to coil bind"), "{brief}");
    job.front.stock.solid_length = "200 mm".into();
    let stated = plain(&sheet(Kind::Fitting, &job, &solve(&job)));
    assert!(!stated.contains("at least 6 mm"), "{stated}");
}

/// What is bought only if a test fails is not ordered, and the fitter is told to test it.
#[test]
fn what_is_only_perhaps_needed_is_not_ordered() {
    let of = |name: &str| [Kind::Order, Kind::Fitting].map(|kind| plain(kept::named(name).sheet(kind)));
    let [order, fitting] = of("arm-off");
    let open = "Still open: front dampers (to be tested: at the edge of the target range)";
    assert!(order.contains(open) && !order.contains("bump, target"), "{order}");
    assert!(fitting.contains("Disconnect the old front dampers at top and bottom and test them"), "{fitting}");
    let [order, fitting] = of("demo-orchard-van");
    assert!(!order.contains("till open") && !fitting.contains("and test them"), "{order} {fitting}");
    assert!(
        fitting.contains("New front dampers quantity 2, both sides alike damper closed length, at most 267 mm"),
        "{fitting}"
    );
    assert!(fitting.contains("Undo the upper mounts too and remove the old dampers"), "{fitting}");
}

/// Hanging, as the fitter meets it: F = k (L0 − L), by hand of the delivered length less what it settles.
#[test]
fn the_force_of_the_new_spring_hanging_is_among_the_forces() {
    let kept = kept::named("demo-orchard-van");
    let results: Results = figures(kept.answer()).into();
    let of = |key: &str| results.find(key).and_then(|f| f.si).unwrap_or_else(|| panic!("{key}"));
    let force = of("front.room.force_hanging");
    let by_hand = of("front.sizing.pick") * (of("front.sizing.free_length") - of("front.room.spring_at_droop"));
    assert!((force / by_hand - 1.0).abs() < 1e-6, "{force} {by_hand}");
    let energy = of("front.room.stored_hanging");
    assert!((energy - 0.5 * force * force / of("front.sizing.pick")).abs() < 1e-6 * energy, "{energy}");
    let text = plain(kept.sheet(Kind::Fitting));
    assert!(text.contains("new, front, wheel hanging"), "{text}");
}

/// A progressive spring that a linear one replaces: order and fitting sheet say so.
#[test]
fn a_linear_spring_in_place_of_a_progressive_one_is_said() {
    for kind in [Kind::Order, Kind::Fitting] {
        let text = plain(kept::named("progressive-rear").sheet(kind));
        assert!(text.contains("force curve linear; it replaces a progressive spring"), "{kind:?}: {text}");
    }
    assert!(!plain(kept::named("demo-orchard-van").sheet(Kind::Order)).contains("progressive"));
}

/// Weights over a rating by a load case are not said to come from the scales; what is not known was not worked out.
#[test]
fn the_customer_reads_where_the_numbers_come_from() {
    let text = plain(kept::named("overloaded-camper").sheet(Kind::Customer));
    assert!(text.contains(&english("sure.weighed_loaded")) && !text.contains(&english("sure.weighed")), "{text}");
    let text = plain(kept::named("first-answer").sheet(Kind::Customer));
    assert!(
        text.contains(&english("sure.bounces_worked_out")) && !text.contains("Height, gap and bounces are"),
        "{text}"
    );
}

/// Gap and lengths may be as far off as the height, each by its own motion ratio.
#[test]
fn every_target_has_its_tolerance() {
    let kept = kept::named("demo-orchard-van");
    let rows: Vec<&Vec<String>> = tables(kept.sheet(Kind::Fitting)).into_iter().flat_map(|t| t.1).collect();
    let within = |what: &str| rows.iter().find(|r| r[0].starts_with(what)).map(|r| r[3].clone()).expect(what);
    let axle = kept.answer().axle(Side::Front);
    assert_eq!(within("Front, gap to the bump stop"), "± 8 mm");
    let of = |ratio: f64| format!("± {:.0} mm", 8.0 * ratio);
    assert_eq!(within("Front, spring length"), of(axle.motion_ratio.expect("measured").si()));
    assert_eq!(within("Front, damper"), of(axle.damper_motion_ratio.expect("measured").si()));
}

/// Rounded to a sixteenth of an inch, a greatest length is never more than was calculated, a least one never less.
#[test]
fn limits_are_rounded_to_the_safe_side() {
    let (mut job, _) = preset("us-units-wagon");
    job.front.dampers = DamperPlan::New;
    let answer = solve(&job);
    let results: Results = figures(&answer).into();
    let of = |key: &str| results.find(&format!("front.room.{key}")).and_then(|f| f.si).expect(key) / 0.0254;
    let report = sheet(Kind::Order, &job, &answer);
    let rows: Vec<Vec<String>> = tables(&report).into_iter().flat_map(|t| t.1.clone()).collect();
    let said = |key: &str| {
        let cell = rows.iter().find(|r| r[0] == english(key)).map(|r| r[1].clone()).expect(key);
        let inches = cell.trim_end_matches(" in");
        let (whole, part) = inches.split_once(' ').unwrap_or((inches, "0/1"));
        let (above, below) = part.split_once('/').expect("a fraction");
        let number = |t: &str| t.parse::<f64>().expect("a number");
        number(whole) + number(above) / number(below)
    };
    for (key, limit) in [("order.solid", "longest_solid"), ("order.closed", "damper_closed_most")] {
        assert!((0.0..1.0 / 16.0).contains(&(of(limit) - said(key))), "{key}: {} {}", said(key), of(limit));
    }
    let open = said("order.open") - of("damper_open_least");
    assert!((0.0..1.0 / 16.0).contains(&open), "{open}");
}

/// A cheaper way that does something else is compared with what is sold.
#[test]
fn the_cheaper_way_is_spoken_against_only_where_it_does_something_else() {
    let text = plain(kept::named("ledger-first").sheet(Kind::Customer));
    assert!(text.contains("would sit at the right height but bounce 1.19"), "{text}");
}

/// Weighed with different loads, and sized on a case: both are said, once.
#[test]
fn the_load_of_the_customers_numbers_is_said() {
    let text = plain(kept::named("tow-load").sheet(Kind::Customer));
    assert!(
        text.contains("The load was not the same both times. All figures below are for this load: survey crew."),
        "{text}"
    );
}

/// By hand: 170 mm from frame to axle at ride height and 110 mm of travel to full bump leave 60 mm; the camber loses as much.
#[test]
fn a_leaf_is_ordered_with_its_height_at_full_bump() {
    let text = plain(kept::named("leaf-rear").sheet(Kind::Order));
    assert!(text.contains("load and leaf spring height at full bump 7771 N at 60 mm"), "{text}");
    assert!(text.contains("leaf spring camber at full bump −65 mm"), "{text}");
}

/// That dampers stay is said of an axle whose springs stay only where it was judged.
#[test]
fn dampers_that_were_not_judged_are_not_said_to_stay() {
    let mut said = 0;
    for shipped in kept::shipped() {
        let text = plain(shipped.sheet(Kind::Order));
        for side in Side::BOTH {
            let is_known = shipped.answer().axle(side).old_damper.as_ref().is_some_and(|old| !old.is_assumed);
            let stays = text.contains(&format!("Springs and dampers stay at the {}.", side.key()));
            assert!(is_known || !stays, "{}, {side:?}: {text}", shipped.name);
            said += usize::from(stays);
        }
    }
    assert!(said > 5, "{said}");
    let kept = kept::named("demo-orchard-van");
    assert!(plain(kept.sheet(Kind::Order)).contains("Springs and dampers stay at the rear."));
    let mut job = kept.job.clone();
    job.rear.damper = springwright::job::Job::default().rear.damper;
    let text = plain(&sheet(Kind::Order, &job, &solve(&job)));
    assert!(text.contains("The rear springs stay.") && !text.contains("dampers stay at the rear"), "{text}");
}
