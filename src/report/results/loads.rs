//! Figures of the ledger, of load cases and ratings.

use super::{CORNERS, Out, Row, like, row};
use crate::job::Side;
use crate::language::tr;
use crate::say;
use crate::solve::answer::{Answer, CaseAnswer, CaseStanding, Ledger, Measured, RatedPart, State, Told};
use crate::units::{Dim, Quantity};

const AT_WHEEL: &str = "at the wheel, against as weighed on the same springs, + up";

const STANDING: [Row<CaseStanding>; 11] = [
    row(
        "sprung",
        "sprung mass, per corner",
        Dim::Mass,
        "a load on the hitch left out",
        "m_s = axle/2 − m_u",
        "DERIVED",
        |s| Some(s.sprung.si()),
    ),
    row("rise", "height", Dim::Length, AT_WHEEL, "F_w(z) = m_s g + T/2", "DERIVED", |s| Some(s.rise.si())),
    row(
        "rise_at_ground",
        "height at the ground",
        Dim::Length,
        "tyre squash added, + up",
        "− ΔW/k_t",
        "DERIVED",
        |s| s.rise_at_ground.map(Quantity::si),
    ),
    row("frequency", "ride frequency", Dim::Frequency, "on springs", "√(k_w/m_s)/2π", "GIL", |s| {
        Some(s.frequency.si())
    }),
    row("stop_room", "room to the bump stop", Dim::Length, "wheel travel", "gap − z", "DERIVED", |s| {
        s.stop_room.map(Quantity::si)
    }),
    row(
        "reserve",
        "reserve",
        Dim::Ratio,
        "extra g before the stop is touched, or the coils bind",
        "F_w(z_c)/W − 1",
        "DERIVED",
        |s| s.reserve.map(Quantity::si),
    ),
    row("old_damper_ratio", "damping ratio, old damper", Dim::Ratio, "on springs", "c_w/(2√(k_w m_s))", "GIL", |s| {
        s.old_damper_ratio.map(Quantity::si)
    }),
    row(
        "new_damper_ratio",
        "damping ratio, wanted damper",
        Dim::Ratio,
        "on springs",
        "c_w/(2√(k_w m_s))",
        "GIL",
        |s| s.new_damper_ratio.map(Quantity::si),
    ),
    row(
        "by_air.pressure",
        "bag pressure for the height as weighed",
        Dim::Pressure,
        "gauge",
        "p = ΔF/(A r)",
        "DERIVED",
        |s| s.level.map(|l| l.pressure.si()),
    ),
    row("by_air.bag_rate", "rate of that bag", Dim::SpringRate, "at the bag", "n p_abs A²/V", "DERIVED", |s| {
        s.level.map(|l| l.bag_rate.si())
    }),
    row(
        "by_air.frequency",
        "ride frequency with that bag",
        Dim::Frequency,
        "on springs",
        "√(k_w/m_s)/2π",
        "GIL",
        |s| s.level.map(|l| l.frequency.si()),
    ),
];

/// All of them.
pub(super) fn add(out: &mut Out, answer: &Answer) {
    compared(out, answer);
    if let Some(found) = &answer.ledger {
        ledger(out, found);
        if let Some(corners) = &answer.whole.ledger {
            told(out, &corners.told, CORNERS.map(|(key, words)| (key, tr(words))));
            let right = like(
                "ledger.missing.y",
                tr("ledger: how far right it would sit"),
                Dim::Length,
                "of the centreline, + right",
                "Σ(right − left) t/2 / missing mass",
                "DERIVED",
            );
            out.put(right, corners.missing_right.map(Quantity::si), None);
        }
    }
    for n in 0..answer.cases.len() {
        one_case(out, answer, n);
    }
}

/// The weights that springs are sized on, where they are not simply those of the scales.
fn compared(out: &mut Out, answer: &Answer) {
    for (when, key) in ["before", "after"].into_iter().enumerate() {
        for side in Side::BOTH {
            let name = match when {
                0 => say!("{side} axle before, as compared", side = side.word_inside()),
                _ => say!("{side} axle after, as compared", side = side.word_inside()),
            };
            let like = like(
                &format!("compared.{key}.{}", side.key()),
                name,
                Dim::Mass,
                "at equal load; reckoned by the ledger where not weighed",
                "reading − aboard + load case",
                "DERIVED",
            );
            out.told(like, answer, |v| v.compared.weighed[when].axle(side).map(Quantity::si));
        }
    }
}

fn told<const N: usize>(out: &mut Out, told: &Told<N>, places: [(&str, &str); N]) {
    let whole: [(&str, &str, &'static str, Option<[Measured; N]>); 5] = [
        (
            "change",
            tr("change by the parts"),
            "Σm(1 − x/L), Σm x/L; across by roll stiffness to the ground",
            Some(told.change),
        ),
        ("foretold", tr("foretold after"), "weighed before + change", told.foretold),
        ("kept", tr("foretold before the weigh-in"), "kept when the weigh-in after was typed", told.kept),
        ("reconstructed", tr("reckoned before"), "weighed after − change", told.reconstructed),
        ("residual", tr("scales less ledger"), "after − before − change", told.residual),
    ];
    for (key, name, formula, found) in whole {
        for (i, (place, words)) in places.into_iter().enumerate() {
            let like = like(
                &format!("ledger.{key}.{place}"),
                say!("ledger: {place}, {mass}", place = words, mass = name),
                Dim::Mass,
                "+ heavier; what was aboard is taken out",
                formula,
                "DERIVED",
            );
            out.put(like, found.map(|f| f[i].value), found.map(|f| f[i].u));
        }
    }
}

fn ledger(out: &mut Out, ledger: &Ledger) {
    told(out, &ledger.axles, [("front", tr("front axle")), ("rear", tr("rear axle"))]);
    let missing = like(
        "ledger.missing.mass",
        tr("ledger: mass missing"),
        Dim::Mass,
        "+ missing in the ledger",
        "r_F + r_R",
        "DERIVED",
    );
    out.put(missing, ledger.missing.map(|m| m.0.si()), None);
    let place = like(
        "ledger.missing.x",
        tr("ledger: where it would sit"),
        Dim::Length,
        "behind the front axle",
        "L r_R/(r_F + r_R)",
        "DERIVED",
    );
    out.put(place, ledger.missing.map(|m| m.1.si()), None);
}

fn one_case(out: &mut Out, answer: &Answer, n: usize) {
    let case = &answer.cases[n];
    let prefix = case.index.map_or("as_weighed".to_owned(), |i| format!("cases[{i}]"));
    let words = &case.name;
    for side in Side::BOTH {
        let (i, axle) = (side as usize, side.key());
        let scales = like(
            &format!("{prefix}.{axle}.on_scales"),
            say!("{case}: {side} axle", case = words, side = side.word_inside()),
            Dim::Mass,
            "as scales would show it, a load on the hitch included",
            "bare + loads",
            "DERIVED",
        );
        out.told(scales, answer, |v| v.cases.get(n)?.on_scales[i].map(Quantity::si));
        for state in [State::OldSprings, State::NewSprings] {
            let key = format!("{prefix}.{axle}.{}", state.key());
            let words = format!("{words}: {} {}, ", side.word_inside(), state.words());
            out.of_vehicle(&key, &words, &STANDING, answer, |v| v.cases.get(n)?.standing[i].of(state).as_ref());
        }
    }
    for state in [State::OldSprings, State::NewSprings] {
        let like = |key: &str, name: &str, dim: Dim, convention: &'static str, formula| {
            let key = format!("{prefix}.{key}.{}", state.key());
            let name = format!("{words}: {name}, {}", state.words());
            like(&key, name, dim, convention, formula, "DERIVED")
        };
        let ratio = like("rear_over_front", tr("rear ÷ front frequency"), Dim::Ratio, "both on springs", "f_R/f_F");
        out.told(ratio, answer, |v| v.cases.get(n)?.rear_over_front.of(state).map(Quantity::si));
        let against = "against as weighed on the same springs, tyres included";
        let angle = like("nose_up", tr("nose up"), Dim::Angle, against, "atan((h_F − h_R)/L)");
        out.told(angle, answer, |v| v.cases.get(n)?.nose_up.of(state).map(Quantity::si));
        let beam = like("beam", tr("lamps' beam"), Dim::Length, "at the chosen distance, + up", "D tan(nose up)");
        out.told(beam, answer, |v| v.cases.get(n)?.beam.of(state).map(Quantity::si));
    }
    for rated in &case.rated {
        let key = rated.part.field().replace('.', "_");
        let mut like = like(
            &format!("{prefix}.rated.{key}"),
            say!("{case}: {part} over what it may carry", case = words, part = rated.part.words()),
            Dim::Ratio,
            "of one axle, tyre or wheel, or of the vehicle",
            "load / rating",
            "PRACTICE",
        );
        like.with =
            vec![("load", Some(rated.carries.si()), Dim::Mass), ("rating", Some(rated.allowed.si()), Dim::Mass)];
        out.told(like, answer, |v| share(v.cases.get(n)?, rated.part));
    }
}

fn share(case: &CaseAnswer, part: RatedPart) -> Option<f64> {
    case.rated.iter().find(|r| r.part == part).map(|r| r.share.si())
}
