//! Figures of the ledger, of load cases and ratings.

use super::shared_rows::AT_REST;
use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::job::Side;
use crate::report::results::collect::{CORNERS, Out, like};
use crate::report::results::row::{Row, damped, half_less, lifted, pumped, rows, si, swings};
use crate::report::results::{By, Figure, Say, Substitution};
use crate::say;
use crate::solve::answer::{
    Answer, BeforeAfter, CaseAnswer, CaseStanding, Measured, Rated, RatedPart, State, Told, Vehicle,
};

const AT_WHEEL: &str = "at the wheel, change from the load as weighed, same springs, + up";

/// What a corner carries, and how far it rises.
static RISEN: &[Row<CaseStanding>] = rows! { CaseStanding;
    "sprung", "sprung mass, per corner", Mass, "without the load on the hitch";
        "m_s = axle/2 − m_u", "DERIVED", |s| Some(s.on.sprung.si()),
        with: |s| half_less(Some(s.axle), Some(s.unsprung));
    "rise", "height change at the wheel", Length, AT_WHEEL;
        "F_w(z) = m_s g + T/2", "DERIVED", |s| Some(s.rise.si()), by: By::Solving, say: Say::Height("unchanged");
    "rise_at_ground", "change in body height above the ground", Length, "tyre deflection included, + up";
        "Δz − ΔW/k_t", "DERIVED", |s| si(s.rise_at_ground),
        with: |s| Some(vec![("Δz", s.rise.si(), Dim::Length), ("ΔW/k_t", si(s.squash)?, Dim::Length)]),
        say: Say::Height("unchanged");
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
            let like = like(
                &format!("compared.{key}.{}", side.key()),
                name,
                Dim::Mass,
                "at equal load; calculated from the parts ledger where not weighed",
                "bare + load case, bare what was read without what was aboard",
                "DERIVED",
            );
            let with = answer.compared.of.both()[when].map(|(bare, carried)| {
                vec![("bare", bare[side].si(), Dim::Mass), ("load case", carried[side].si(), Dim::Mass)]
            });
            out.told(like.put_in(with), answer, |v| si(v.compared.weighed.both()[when].axle(side)));
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
                ..like(&format!("ledger.{key}.{place}"), mass, Dim::Mass, convention, formula, "DERIVED")
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
    let put_in = || -> Option<Vec<Substitution>> {
        let [front, rear] = residual?;
        Some(vec![("r_F", front.value, Dim::Mass), ("r_R", rear.value, Dim::Mass)])
    };
    let missing = ledger.and_then(|l| l.missing);
    let name = tr("parts ledger: missing mass");
    let mass = like("ledger.missing.mass", name, Dim::Mass, "+ missing from the parts ledger", "r_F + r_R", "DERIVED");
    out.put(Figure { with: put_in().unwrap_or_default(), ..mass }, missing.map(|m| m.0.si()), None);
    let name = tr("parts ledger: position of the missing mass, lengthways");
    let place = like("ledger.missing.x", name, Dim::Length, "behind the front axle", "L r_R/(r_F + r_R)", "DERIVED");
    let wheelbase = si(answer.whole.wheelbase).map(|l| ("L", l, Dim::Length));
    let with = put_in().zip(wheelbase).map(|(with, l)| [with, vec![l]].concat());
    out.put(Figure { with: with.unwrap_or_default(), ..place }, missing.map(|m| m.1.si()), None);
    let corners = answer.whole.ledger.as_ref();
    told(out, corners.map(|c| &c.told), CORNERS.map(|(key, words)| (key, tr(words))));
    left_right(out, corners.map(|c| &c.sides));
    let right = like(
        "ledger.missing.y",
        tr("parts ledger: position of the missing mass, sideways"),
        Dim::Length,
        "from the centreline, + right",
        "Σ(right − left) t/2 / missing mass",
        "DERIVED",
    );
    out.put(Figure { by: By::Solving, ..right }, corners.and_then(|c| si(c.missing_right)), None);
}

/// How far the parts explain that left and right changed, and what remains of it.
fn left_right(out: &mut Out, sides: Option<&Told<2>>) {
    let convention = "change from before, right minus left; + = the right side gained more";
    for (i, (end, words)) in [("front", tr("front axle")), ("rear", tr("rear axle"))].into_iter().enumerate() {
        let explained = sides.map(|told| told.change[i]);
        let remains = sides.and_then(|told| told.residual).map(|r| r[i]);
        let figure = |key: &str, name: &str, formula: &'static str| {
            let like = like(&format!("ledger.left_right.{end}.{key}"), name, Dim::Mass, convention, formula, "DERIVED");
            let name = say!("parts ledger: {place}, {mass}", place = words, mass = name);
            Figure { name, say: Say::Signed, ..like }
        };
        let by_parts = figure("explained", tr("left-right difference explained by the parts"), "r_parts − l_parts");
        let u = |of: Option<Measured>| of.map(|m| m.u).filter(|u| *u > 0.0);
        out.put(by_parts.solved(), explained.map(|m| m.value), u(explained));
        let weighed = sides.and_then(|told| told.weighed.before.zip(told.weighed.after));
        let with = weighed.zip(explained).map(|((before, after), parts)| {
            let change = after[i].value - before[i].value;
            vec![("weighed", change, Dim::Mass), ("explained", parts.value, Dim::Mass)]
        });
        let rest = figure("remains", tr("left-right difference that remains"), "weighed − explained");
        out.put(rest.put_in(with), remains.map(|m| m.value), u(remains));
    }
}

fn one_case(out: &mut Out, answer: &Answer, n: usize) {
    let case = &answer.cases[n];
    let (prefix, words) = (case.key(), &case.name);
    for side in Side::BOTH {
        let axle = side.key();
        let scales = like(
            &format!("{prefix}.{axle}.on_scales"),
            match side {
                Side::Front => tr("front axle"),
                Side::Rear => tr("rear axle"),
            },
            Dim::Mass,
            "as the scales would read, load on the hitch included",
            "m + T / g, T what a load on the hitch presses on the axle",
            "DERIVED",
        );
        let (axles, on_hitch) = case.carries;
        let with = axles[side].map(|mass| vec![("m", mass.si(), Dim::Mass), ("T", on_hitch[side].si(), Dim::Force)]);
        out.told(scales.put_in(with).of(&words.to_string()), answer, |v| si(v.cases.get(n)?.on_scales[side]));
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
        let like = like(
            &format!("{prefix}.rated.{key}"),
            say!("{case}: {part}, load ÷ rating", case = words, part = part.words()),
            Dim::Ratio,
            "of one axle, tyre or wheel, or of the vehicle",
            "load / rating",
            "PRACTICE",
        );
        let with =
            rated(case, part).map(|r| vec![("load", r.carries.si(), Dim::Mass), ("rating", r.allowed.si(), Dim::Mass)]);
        let like = Figure { with: with.unwrap_or_default(), ..like };
        out.told(like, answer, |v| Some(rated(v.cases.get(n)?, part)?.share.si()));
    }
}

/// A corner of an axle in a load case.
fn standing(v: &Vehicle, case: usize, side: Side, state: State) -> Option<&CaseStanding> {
    v.cases.get(case)?.standing[side].of(state)
}

/// What hangs on both axles in a load case.
fn both_axles(out: &mut Out, answer: &Answer, n: usize, state: State) {
    let case = &answer.cases[n];
    let named =
        |key: &str, name: &str, dim: Dim, convention: &'static str, formula, with: Option<Vec<Substitution>>| {
            let key = format!("{}.{key}.{}", case.key(), state.key());
            let words = format!("{}, {}", case.name, state.words());
            Figure {
                with: with.unwrap_or_default(),
                ..like(&key, name, dim, convention, formula, "DERIVED").of(&words)
            }
        };
    let on = |side: Side| case.standing[side].of(state);
    let frequencies = || -> Option<Vec<Substitution>> {
        Some(vec![
            ("f_F", on(Side::Front)?.on.frequency().si(), Dim::Frequency),
            ("f_R", on(Side::Rear)?.on.frequency().si(), Dim::Frequency),
        ])
    };
    let heights = || -> Option<Vec<Substitution>> {
        Some(vec![
            ("h_F", on(Side::Front)?.rise_at_ground?.si(), Dim::Length),
            ("h_R", on(Side::Rear)?.rise_at_ground?.si(), Dim::Length),
            ("L", answer.whole.wheelbase?.si(), Dim::Length),
        ])
    };
    let convention = "both without tyre deflection";
    let name = tr("rear ÷ front frequency, without tyre");
    let ratio = named("rear_over_front", name, Dim::Ratio, convention, "f_R/f_F", frequencies());
    out.told(ratio, answer, |v| si(*v.cases.get(n)?.rear_over_front.of(state)));
    let against = "change from the load as weighed, same springs, tyres included";
    let angle = named("nose_up", tr("pitch angle, + nose up"), Dim::Angle, against, "atan((h_F − h_R)/L)", heights());
    out.told(angle, answer, |v| si(*v.cases.get(n)?.nose_up.of(state)));
    let convention = "change from the load as weighed, + up";
    let with = super::of_beam(answer, *case.nose_up.of(state));
    let beam = named("beam", tr("headlamp aim at the wall"), Dim::Length, convention, "D tan(nose up)", with);
    let beam = Figure { say: Say::Beam, ..beam };
    out.told(beam, answer, |v| si(*v.cases.get(n)?.beam.of(state)));
}

fn rated(case: &CaseAnswer, part: RatedPart) -> Option<&Rated> {
    case.rated.iter().find(|r| r.part == part)
}
