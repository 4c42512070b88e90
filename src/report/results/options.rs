//! Figures of what each remedy would do, case by case.

use super::{Out, Row, like, row};
use crate::job::Side;
use crate::say;
use crate::solve::answer::{Answer, OfVehicle, OptionStanding};
use crate::units::{Dim, Quantity};

const STANDING: [Row<OptionStanding>; 5] = [
    row(
        "above_before",
        "height",
        Dim::Length,
        "at the wheel, against before the swap, + up",
        "z_b − z",
        "DERIVED",
        |s| s.above_before.map(Quantity::si),
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
    row(
        "damping_ratio",
        "damping ratio",
        Dim::Ratio,
        "on springs, on the dampers it then has",
        "c_w/(2√(k_w m_s))",
        "GIL",
        |s| s.damping_ratio.map(Quantity::si),
    ),
];

/// All of them.
pub(super) fn add(out: &mut Out, answer: &Answer) {
    for side in Side::BOTH {
        let axle = side as usize;
        for (i, remedy) in answer.remedies[axle].iter().enumerate() {
            let (key, words) = (remedy.kind.key(), remedy.kind.words(answer.axles[axle].kind));
            let price = like(
                &format!("{}.remedies.{key}.price", side.key()),
                say!("{side}, {remedy}: price", side = side.word_inside(), remedy = words),
                Dim::Ratio,
                "parts and work for the axle, in the shop's currency",
                "Σ prices",
                "DERIVED",
            );
            out.put(price, remedy.price, None);
            for (n, case) in answer.cases.iter().enumerate() {
                let prefix = case.index.map_or("as_weighed".to_owned(), |i| format!("cases[{i}]"));
                let prefix = format!("{}.remedies.{key}.{prefix}", side.key());
                let words = format!("{}, {words}, {}: ", side.word_inside(), case.name);
                out.of_vehicle(&prefix, &words, &STANDING, answer, |v| v.remedies[axle].get(i)?.cases.get(n)?.as_ref());
                let on_road = |v: &OfVehicle<'_>| v.remedies[axle].get(i)?.cases.get(n)?.as_ref()?.road;
                super::road::add_one(out, &format!("{prefix}.road"), &words, answer, on_road);
            }
        }
    }
}
