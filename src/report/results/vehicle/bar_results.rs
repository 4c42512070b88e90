//! Results of anti-roll bars the other way round: the diameters that give the roll that is wanted.

use crate::base::language::tr;
use crate::base::units::Quantity;
use crate::job::Side;
use crate::report::results::collect::{Out, then};
use crate::report::results::row::{Row, figures, put, rows, si};
use crate::report::results::{By, Say, Substitution};
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
    put![
        "d_i": sizes.inside_m => Length, "l": sizes.length_m => Length, "K": bar.ok()?.stiffness,
        "a": sizes.blade_m => Length, "G": sizes.shear_modulus_pa => Stress, "r_b": sizes.link_ratio => Ratio,
        "t": of.track,
    ]
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
        // What is on offer has no ± of its own.
        figures! { out;
            put format!("{prefix}.stock"), tr("diameter on offer, this bar alone"), Length,
                "next to the middle of the target; inside it, if a size is";
                "whole multiples of the step", "PRACTICE", of: side.axle().said(), by: By::Seeking, say: Say::Sold
                => si(bar.and_then(|bar| bar.stock)), None;
        }
    }
}
