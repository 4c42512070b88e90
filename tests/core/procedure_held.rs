//! What an order of work lowers, disconnects, clamps or sets is raised, connected, torqued and locked again, and its
//! cautions are those of its steps. Common practice, no source.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use std::collections::{BTreeSet, HashMap};
use std::sync::OnceLock;

use springwright::job::{BagFitted, Coaxial, SpringKind, Suspension};
use springwright::report::sheets::Words;
use springwright::report::sheets::procedure::{Construction, Held, Part, Place, Renew, Step, Support};

type Order = (Construction, Renew, Vec<Step>);

/// Every construction, with whatever comes out of it.
fn orders() -> &'static [Order] {
    static ORDERS: OnceLock<Vec<Order>> = OnceLock::new();
    ORDERS.get_or_init(every_order)
}

fn every_order() -> Vec<Order> {
    let mut all = Vec::new();
    for suspension in Suspension::ALL {
        for (kind, coaxial) in SpringKind::ALL.into_iter().flat_map(|k| Coaxial::ALL.map(|c| (k, c))) {
            let one = Construction::new(suspension, kind, coaxial);
            for springs in [Part::Stays, Part::Again, Part::New] {
                for dampers in [Part::Stays, Part::Again, Part::New] {
                    let renew = Renew { springs, dampers, bags: BagFitted::No, roll_bar: false };
                    if springs != Part::Stays || dampers != Part::Stays {
                        all.push((one, renew, one.procedure(renew).steps));
                    }
                }
            }
        }
    }
    assert!(all.len() > 900, "{}", all.len());
    all
}

/// What a step of one of them says.
fn english(step: &Step) -> &'static str {
    static SAID: OnceLock<HashMap<&str, String>> = OnceLock::new();
    let said = SAID.get_or_init(|| {
        let texts: BTreeSet<&str> = orders().iter().flat_map(|(_, _, steps)| steps).map(|step| step.text).collect();
        let words = Words::shipped("en").unwrap();
        texts.into_iter().map(|text| (text, words.say(text, &[("taut", "Brake hoses")]))).collect()
    });
    &said[step.text]
}

fn at(steps: &[Step], wanted: impl Fn(&Step) -> bool) -> Option<usize> {
    steps.iter().position(wanted)
}

/// What was too short is connected again, torqued and bled before the wheels go on.
#[test]
fn what_was_too_short_is_connected_again() {
    for (one, renew, steps) in orders() {
        let off = at(steps, |s| english(s).contains("disconnect what is too short"));
        let on = at(steps, |s| english(s).contains("Reconnect whatever was disconnected"));
        assert_eq!(off.is_some(), on.is_some(), "{one:?}, {renew:?}");
        let Some((off, on)) = off.zip(on) else { continue };
        let wheels = at(steps, |s| s.joins.contains(&Held::Wheel)).expect("wheels on");
        assert!(off < on && on < wheels, "{one:?}, {renew:?}");
        assert!(english(&steps[on]).contains("bleed the brakes") && steps[on].tightens == [Place::TooShort]);
        let untied = at(steps, |s| s.removes.contains(&Support::Tie));
        assert!(untied.is_none_or(|untied| on < untied), "the strap stays until all is connected: {one:?}");
    }
}

/// What is raised was lowered before; no hose goes tight where an axle or arm goes down.
#[test]
fn what_is_raised_was_lowered() {
    let lowers =
        |s: &Step| english(s).contains("ower the jack") || english(s).to_lowercase().contains("lower both jacks");
    let lowers = |s: &Step| lowers(s) || english(s).starts_with("Lower the arms");
    let raises = |s: &Step| english(s).starts_with("Raise ") && !english(s).starts_with("Raise a jack");
    for (one, renew, steps) in orders() {
        let (down, up) = (at(steps, lowers), at(steps, raises));
        assert!(up.is_none_or(|up| down.is_some_and(|down| down < up)), "{one:?}, {renew:?}: {down:?} {up:?}");
        for step in steps.iter().filter(|s| lowers(s)) {
            assert!(english(step).contains("Brake hoses must not go tight"), "{}", english(step));
        }
        // A strut, and whatever comes out whole, is off at its foot before the jack goes down.
        let whole = at(steps, |s| s.frees == [Held::UnitTop]);
        let foot = at(steps, |s| s.frees == [Held::UnitFoot]);
        assert!(foot.is_none_or(|foot| down.is_some_and(|d| d < whole.expect("top")) && foot < whole.unwrap()));
    }
}

/// What may be a strut is marked before, and torqued at its upright while the wheel hangs.
#[test]
fn what_may_be_a_strut_is_marked_and_torqued() {
    for (one, renew, steps) in orders() {
        let is_damper = |held: &Held| matches!(held, Held::Damper | Held::UnitFoot);
        let off = at(steps, |s| s.frees.iter().any(is_damper));
        let on = steps.iter().rposition(|s| s.joins.iter().any(is_damper));
        let (marked, torqued) =
            (at(steps, |s| s.text == "proc.perhaps_marks"), at(steps, |s| s.tightens.contains(&Place::PerhapsStrut)));
        let is_asked = one.suspension == Suspension::NotSaid && off.is_some();
        assert_eq!((marked.is_some(), torqued.is_some()), (is_asked, is_asked), "{one:?}, {renew:?}");
        if is_asked {
            assert!(marked < off && on < torqued, "{one:?}, {renew:?}");
        }
    }
}

/// Set, weighed, corrected, then locked: on the only axle, or once the other is done.
#[test]
fn a_bar_is_locked_when_nothing_is_corrected_any_more() {
    let one = Construction::new(Suspension::TwoArms, SpringKind::TorsionBar, Coaxial::No);
    let renew = Renew { springs: Part::New, dampers: Part::Stays, bags: BagFitted::No, roll_bar: false };
    let alone = one.procedure(renew).steps;
    let order =
        ["proc.bar_height", "proc.weigh", "proc.bar_lock"].map(|text| at(&alone, |s| s.text == text).expect(text));
    assert!(order.is_sorted(), "{order:?}");
    let first = one.procedure(renew).among(true, false);
    assert!(at(&first.steps, |s| s.text == "proc.bar_lock").is_none(), "another axle still changes the height");
    let later = at(&first.steps, |s| s.text == "proc.bar_lock_later").expect("later") + 1;
    assert!(first.torques().iter().any(|t| t.place == Place::BarLock && t.step == later));
}

/// A caution is about a step that is there, and none that is there lacks its caution.
#[test]
fn cautions_are_those_of_the_steps() {
    for (one, renew, steps) in orders() {
        let frees = |held: Held| at(steps, |s| s.frees.contains(&held)).is_some();
        let says = |word: &str| steps.iter().any(|s| english(s).contains(word));
        let has_damper = frees(Held::Damper) || frees(Held::UnitFoot);
        let wanted = [
            ("fit.caution.compressor", says("compressor")),
            ("fit.caution.joint", frees(Held::BallJoint)),
            ("fit.caution.centre_nut", frees(Held::CentreNut)),
            ("fit.caution.gas", has_damper),
            ("fit.caution.stem", has_damper),
            ("fit.caution.bar", frees(Held::Bar)),
            ("fit.caution.leaf", frees(Held::LeafClamp)),
        ];
        let cautions = one.cautions(*renew);
        for (caution, is_wanted) in wanted {
            assert_eq!(cautions.contains(&caution), is_wanted, "{caution}: {one:?}, {renew:?}");
        }
        // What comes right off and goes on again extends by itself.
        let comes_off = at(steps, |s| s.text == "proc.either_on" || s.text == "proc.damper_again");
        assert!(comes_off.is_none() || says("A gas damper extends by itself"), "{one:?}, {renew:?}");
    }
}
