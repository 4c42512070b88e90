//! Results of anti-roll bars the other way round: the diameters that give the roll that is wanted.

use super::said;
use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::job::Side;
use crate::report::results::collect::{Out, then};
use crate::report::results::row::{Row, rows};
use crate::report::results::{By, Figure, Say, Substitution};
use crate::solve::answer::{Answer, BarFor, NoBar, WantedBar};

const OTHERWISE_THE_SAME: &str =
    "bar with the bore of the one fitted, otherwise the same; K its roll stiffness for the target, tyres included";
const DIAMETER: &str = "d = (d_i⁴ + 32 l K a²/(π G r_b² t²))^¼";

/// Of one axle.
const OF_AXLE: &[Row<WantedBar>] = rows![WantedBar;
    "thinnest", "diameter, this bar alone, for the highest roll gradient", Length, OTHERWISE_THE_SAME;
        DIAMETER, "SHI", |b| diameter(b.thinnest), with: |b| put_in(b, b.thinnest), instead: |b| no_bar(b.thinnest), say: Say::Measured;
    "thickest", "diameter, this bar alone, for the lowest roll gradient", Length, OTHERWISE_THE_SAME;
        DIAMETER, "SHI", |b| diameter(b.thickest), with: |b| put_in(b, b.thickest), instead: |b| no_bar(b.thickest), say: Say::Measured;
    "both", "diameter, both bars together, for the front share, too", Length, OTHERWISE_THE_SAME;
        DIAMETER, "SHI", |b| diameter(b.both?), with: |b| put_in(b, b.both?), instead: |b| no_bar(b.both?), say: Say::Measured;
];

fn diameter(bar: BarFor) -> Option<f64> {
    bar.ok().map(|bar| bar.diameter.si())
}

fn put_in(of: &WantedBar, bar: BarFor) -> Option<Vec<Substitution>> {
    let sizes = of.sizes;
    Some(vec![
        ("d_i", sizes.inside_m, Dim::Length),
        ("l", sizes.length_m, Dim::Length),
        ("K", bar.ok()?.stiffness.si(), Dim::TwistRate),
        ("a", sizes.blade_m, Dim::Length),
        ("G", sizes.shear_modulus_pa, Dim::Stress),
        ("r_b", sizes.link_ratio, Dim::Ratio),
        ("t", of.track.si(), Dim::Length),
    ])
}

fn no_bar(bar: BarFor) -> Option<&'static str> {
    bar.err().map(|why| match why {
        NoBar::NoneNeeded => tr("none needed"),
        NoBar::BeyondTyres => tr("not possible"),
    })
}

/// All of them.
pub(super) fn add(out: &mut Out, answer: &Answer) {
    for side in Side::BOTH {
        let prefix = format!("whole.bars.{}", side.key());
        let words = then(side.axle().said());
        out.of_vehicle(&prefix, &words, OF_AXLE, answer, |v| v.whole.bars.as_ref()?.axles[side].as_ref());
        let bar = answer.whole.bars.as_ref().and_then(|bars| bars.axles[side].as_ref());
        let key = format!("bars.{}.stock", side.key());
        let name = tr("diameter on offer, this bar alone");
        let convention = "next to the middle of the target; inside it, if a size is";
        let like = said(key, name, Dim::Length, convention, "whole multiples of the step", "PRACTICE");
        // What is on offer has no ± of its own.
        let si = bar.and_then(|bar| bar.stock).map(Quantity::si);
        out.put(Figure { by: By::Seeking, say: Say::Sold, ..like.of(side.axle().said()) }, si, None);
    }
}
