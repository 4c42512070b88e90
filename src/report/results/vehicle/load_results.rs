//! Figures of the ledger, of load cases and ratings.

use super::shared_rows::AT_REST;
use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::job::Side;
use crate::report::results::collect::{CORNERS, Out};
use crate::report::results::row::{Row, damped, figures, half_less, lifted, like, pumped, put, rows, si, swings};
use crate::report::results::{By, Figure, Say};
use crate::say;
use crate::solve::answer::{
    Answer, BeforeAfter, CaseAnswer, CaseStanding, Measured, Rated, RatedPart, State, Told, Vehicle,
};

const AT_WHEEL: &str = "at the wheel, change from the load as weighed, same springs, + up";

/// What a corner carries, and how far it rises.
static RISEN: &[Row<CaseStanding>] = rows! { CaseStanding;
    "sprung", "sprung mass, per corner", Mass, "without the load on the hitch";
        "m_s = axle/2 − m_u", "DERIVED", |s| Some(s.on.sprung.si()),
        with: |s| half_less(s.axle, s.unsprung);
    "rise", "height change at the wheel", Length, AT_WHEEL;
        "F_w(z) = m_s g + T/2", "DERIVED", |s| Some(s.rise.si()), by: By::Solving, say: Say::Height("unchanged");
    "rise_at_ground", "change in body height above the ground", Length, "tyre deflection included, + up";
        "Δz − ΔW/k_t", "DERIVED", |s| si(s.rise_at_ground),
        with: |s| put!["Δz": s.rise, "ΔW/k_t": s.squash?], say: Say::Height("unchanged");
};

/// How it is damped, and what a bag would do.
static DAMPED: &[Row<CaseStanding>] = rows! { CaseStanding;
    "old_damper_ratio", "damping ratio, old damper", Ratio, "without tyre deflection";
        "c_w/(2√(k_w m_s))", "GIL", |s| s.old_damper_at_wheel.map(|c| s.on.damping_ratio(c).si()),
        with: |s| damped(&s.on, s.old_damper_at_wheel);
    "new_damper_ratio", "damping ratio, new damper in the middle of the target range", Ratio, "without tyre deflection";
        "c_w/(2√(k_w m_s))", "GIL", |s| s.new_damper_at_wheel.map(|c| s.on.damping_ratio(c).si()),
        with: |s| damped(&s.on, s.new_damper_at_wheel);
    "by_air.pressure", "air bag pressure to restore the height", Pressure, "gauge pressure";
        "p = (W − F_w) / (r_b A)", "DERIVED", |s| s.level.as_ref().map(|l| l.pressure.si()),
        with: |s| lifted(s.level.as_ref()?), instead: |s| s.level.is_none().then(|| tr("none needed"));
    "by_air.bag_rate", "air bag rate at this pressure", SpringRate, "at the air bag";
        "k = n p_abs A² / V − p_gauge dA/dL", "DERIVED", |s| s.level.as_ref().map(|l| l.bag_rate.si()),
        with: |s| pumped(s.level.as_ref()?);
    "by_air.frequency", "ride frequency at this bag pressure", Frequency, "without tyre deflection";
        "√(k_w/m_s)/2π", "GIL", |s| s.level.as_ref().map(|l| l.on.frequency().si()),
        with: |s| swings(&s.level.as_ref()?.on), instead: |s| s.level.is_none().then(|| tr("unchanged"));
};

/// All of them.
pub(in crate::report::results) fn add(out: &mut Out, answer: &Answer) {
    compared(out, answer);
    ledger(out, answer);
    for n in 0..answer.cases.len() {
        one_case(out, answer, n);
    }
}

/// The weights that springs are sized on, where they are not simply those of the scales.
fn compared(out: &mut Out, answer: &Answer) {
    for (when, key) in ["before", "after"].into_iter().enumerate() {
        for side in Side::BOTH {
            let name = match when {
                0 => say!("{side} axle load before, for comparison", side = side.word_inside()),
                _ => say!("{side} axle load after, for comparison", side = side.word_inside()),
            };
            figures! { out;
                told format!("compared.{key}.{}", side.key()), name, Mass,
                    "at equal load; calculated from the parts ledger where not weighed";
                    "bare + load case, bare what was read without what was aboard", "DERIVED",
                    with: || {
                        let (bare, carried) = answer.compared.of.both()[when]?;
                        put!["bare": bare[side], "load case": carried[side]]
                    }
                    => answer, |v| si(v.compared.weighed.both()[when].axle(side));
            }
        }
    }
}

/// A result of the ledger for each axle or corner: key, name, formula, what was found, how it comes about, and what was
/// weighed, to which the change is added or from which it is taken.
type OfLedger<const N: usize> =
    (&'static str, &'static str, &'static str, Option<[Measured; N]>, By, Option<(&'static str, [Measured; N])>);

/// Front and rear together: what both come to.
fn together(told: &Told<2>) -> Told<1> {
    let sum = |[front, rear]: [Measured; 2]| [Measured::exact(front.value + rear.value)];
    Told {
        weighed: BeforeAfter { before: told.weighed.before.map(sum), after: told.weighed.after.map(sum) },
        change: sum(told.change),
        foretold: told.foretold.map(sum),
        kept: told.kept.map(sum),
        reconstructed: told.reconstructed.map(sum),
        residual: told.residual.map(sum),
    }
}

fn told<const N: usize>(out: &mut Out, told: Option<&Told<N>>, places: [(&str, &str); N]) {
    let of = |pick: fn(&Told<N>) -> Option<[Measured; N]>| told.and_then(pick);
    let weighed = told.map(|told| told.weighed).unwrap_or_default();
    let before = weighed.before.map(|read| ("weighed before", read));
    let after = weighed.after.map(|read| ("weighed after", read));
    let rows: [OfLedger<N>; 5] = [
        ("change", tr("change due to the parts"), BY_PARTS, of(|t| Some(t.change)), By::Solving, None),
        ("foretold", tr("predicted weight after"), "weighed before + change", of(|t| t.foretold), By::Formula, before),
        ("kept", tr("weight predicted before the weigh-in"), KEPT, of(|t| t.kept), By::Reading, None),
        (
            "reconstructed",
            tr("weight before, worked back"),
            "weighed after − change",
            of(|t| t.reconstructed),
            By::Formula,
            after,
        ),
        ("residual", tr("scale reading minus parts ledger"), OFF, of(|t| t.residual), By::Solving, None),
    ];
    let convention = "+ heavier; the load aboard is subtracted";
    for (key, mass, formula, found, by, weighed) in rows {
        for (i, (place, words)) in places.into_iter().enumerate() {
            let (value, change) = (found.map(|f| f[i]), told.map(|t| t.change[i].value));
            let with = weighed
                .zip(change)
                .map(|((words, read), change)| vec![(words, read[i].value, Dim::Mass), ("change", change, Dim::Mass)]);
            let say = if matches!(key, "change" | "residual") { Say::Signed } else { Say::Plain };
            let like = Figure {
                by,
                say,
                name: say!("parts ledger: {place}, {mass}", place = words, mass),
                with: with.unwrap_or_default(),
                ..like(format!("ledger.{key}.{place}"), mass, Dim::Mass, convention, formula, "DERIVED")
            };
            out.put(like, value.map(|m| m.value), value.map(|m| m.u).filter(|u| *u > 0.0));
        }
    }
}

const BY_PARTS: &str = "Σm(1 − x/L), Σm x/L; across by roll stiffness to the ground";
const OFF: &str = "after − before − change";
const KEPT: &str = "kept when the weigh-in after was typed";

fn ledger(out: &mut Out, answer: &Answer) {
    let ledger = answer.ledger.as_ref();
    told(out, ledger.map(|l| &l.axles), [("front", tr("front axle")), ("rear", tr("rear axle"))]);
    told(out, ledger.map(|l| together(&l.axles)).as_ref(), [("together", tr("both axles"))]);
    let residual = ledger.and_then(|l| l.axles.residual);
    let both = || put!["r_F": residual?[0].value => Mass, "r_R": residual?[1].value => Mass];
    let missing = ledger.and_then(|l| l.missing);
    figures! { out;
        put "ledger.missing.mass", tr("parts ledger: missing mass"), Mass, "+ missing from the parts ledger";
            "r_F + r_R", "DERIVED", with: both => missing.map(|m| m.0.si()), None;
        put "ledger.missing.x", tr("parts ledger: position of the missing mass, lengthways"), Length,
            "behind the front axle";
            "L r_R/(r_F + r_R)", "DERIVED", with: || put![..both()?, "L": answer.whole.wheelbase?]
            => missing.map(|m| m.1.si()), None;
    }
    let corners = answer.whole.ledger.as_ref();
    told(out, corners.map(|c| &c.told), CORNERS.map(|(key, words)| (key, tr(words))));
    left_right(out, corners.map(|c| &c.sides));
    figures! { out;
        put "ledger.missing.y", tr("parts ledger: position of the missing mass, sideways"), Length,
            "from the centreline, + right";
            "Σ(right − left) t/2 / missing mass", "DERIVED", by: By::Solving
            => corners.and_then(|c| si(c.missing_right)), None;
    }
}

/// How far the parts explain that left and right changed, and what remains of it.
fn left_right(out: &mut Out, sides: Option<&Told<2>>) {
    let convention = "change from before, right minus left; + = the right side gained more";
    for (i, (end, words)) in [("front", tr("front axle")), ("rear", tr("rear axle"))].into_iter().enumerate() {
        let explained = sides.map(|told| told.change[i]);
        let remains = sides.and_then(|told| told.residual).map(|r| r[i]);
        let figure = |key: &str, name: &str, formula: &'static str| {
            let like = like(format!("ledger.left_right.{end}.{key}"), name, Dim::Mass, convention, formula, "DERIVED");
            let name = say!("parts ledger: {place}, {mass}", place = words, mass = name);
            Figure { name, say: Say::Signed, ..like }
        };
        let by_parts = figure("explained", tr("left-right difference explained by the parts"), "r_parts − l_parts");
        let u = |of: Option<Measured>| of.map(|m| m.u).filter(|u| *u > 0.0);
        out.put(by_parts.by(By::Solving), explained.map(|m| m.value), u(explained));
        let with = || {
            let weighed = sides?.weighed;
            let change = weighed.after?[i].value - weighed.before?[i].value;
            put!["weighed": change => Mass, "explained": explained?.value => Mass]
        };
        let rest = figure("remains", tr("left-right difference that remains"), "weighed − explained");
        out.put(rest.with(with), remains.map(|m| m.value), u(remains));
    }
}

fn one_case(out: &mut Out, answer: &Answer, n: usize) {
    let case = &answer.cases[n];
    let (prefix, words) = (case.key(), &case.name);
    for side in Side::BOTH {
        let axle = side.key();
        let name = match side {
            Side::Front => tr("front axle"),
            Side::Rear => tr("rear axle"),
        };
        let (axles, on_hitch) = case.carries;
        figures! { out;
            told format!("{prefix}.{axle}.on_scales"), name, Mass,
                "as the scales would read, load on the hitch included";
                "m + T / g, T what a load on the hitch presses on the axle", "DERIVED",
                with: || put!["m": axles[side]?, "T": on_hitch[side]], of: &words.to_string()
                => answer, |v| si(v.cases.get(n)?.on_scales[side]);
        }
        for state in [State::OldSprings, State::NewSprings] {
            let key = format!("{prefix}.{axle}.{}", state.key());
            let words = format!("{words}: {} {}, ", side.word_inside(), state.words());
            out.of_vehicle(&key, &words, RISEN, answer, |v| standing(v, n, side, state));
            out.of_vehicle(&key, &words, AT_REST, answer, |v| Some(&standing(v, n, side, state)?.on));
            out.of_vehicle(&key, &words, DAMPED, answer, |v| standing(v, n, side, state));
        }
    }
    for state in [State::OldSprings, State::NewSprings] {
        both_axles(out, answer, n, state);
    }
    for part in RatedPart::ALL {
        let key = part.field().replace('.', "_");
        let found = rated(case, part);
        figures! { out;
            told format!("{prefix}.rated.{key}"),
                say!("{case}: {part}, load ÷ rating", case = words, part = part.words()), Ratio,
                "of one axle, tyre or wheel, or of the vehicle";
                "load / rating", "PRACTICE", with: || put!["load": found?.carries, "rating": found?.allowed]
                => answer, |v| Some(rated(v.cases.get(n)?, part)?.share.si());
        }
    }
}

/// A corner of an axle in a load case.
fn standing(v: &Vehicle, case: usize, side: Side, state: State) -> Option<&CaseStanding> {
    v.cases.get(case)?.standing[side].of(state)
}

/// What hangs on both axles in a load case.
fn both_axles(out: &mut Out, answer: &Answer, n: usize, state: State) {
    let case = &answer.cases[n];
    let (prefix, key) = (case.key(), state.key());
    let words = format!("{}, {}", case.name, state.words());
    let on = |side: Side| case.standing[side].of(state);
    figures! { out;
        told format!("{prefix}.rear_over_front.{key}"), tr("rear ÷ front frequency, without tyre"), Ratio,
            "both without tyre deflection";
            "f_R/f_F", "DERIVED", of: &words,
            with: || put!["f_F": on(Side::Front)?.on.frequency(), "f_R": on(Side::Rear)?.on.frequency()]
            => answer, |v| si(*v.cases.get(n)?.rear_over_front.of(state));
        told format!("{prefix}.nose_up.{key}"), tr("pitch angle, + nose up"), Angle,
            "change from the load as weighed, same springs, tyres included";
            "atan((h_F − h_R)/L)", "DERIVED", of: &words,
            with: || put![
                "h_F": on(Side::Front)?.rise_at_ground?, "h_R": on(Side::Rear)?.rise_at_ground?,
                "L": answer.whole.wheelbase?,
            ]
            => answer, |v| si(*v.cases.get(n)?.nose_up.of(state));
        told format!("{prefix}.beam.{key}"), tr("headlamp aim at the wall"), Length,
            "change from the load as weighed, + up";
            "D tan(nose up)", "DERIVED", of: &words, say: Say::Beam,
            with: || super::of_beam(answer, *case.nose_up.of(state)) => answer, |v| si(*v.cases.get(n)?.beam.of(state));
    }
}

fn rated(case: &CaseAnswer, part: RatedPart) -> Option<&Rated> {
    case.rated.iter().find(|r| r.part == part)
}
