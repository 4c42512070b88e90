//! Results of choosing a spring from a list.

use super::pairs::pairs;
use super::{AS_STANDS, collector, finite, spring_name, what_again};
use crate::base::language::tr;
use crate::choose::{Choice, Drafted, Limit, Redo};
use crate::job::Side;
use crate::report::results::collect::Out;
use crate::report::results::row::{Row, figures, like, put, rows, si};
use crate::report::results::{By, Figure, Say, Why};
use crate::say;
use crate::shop::parts::Spring;

const DRAWN: &str = "over all trials with your measuring errors";

/// A spring that was drawn, and how many draws there were.
struct OfList<'a> {
    drafted: &'a Drafted,
    spring: &'a Spring,
    draws: usize,
    currency: &'a str,
}

impl<'a> OfList<'a> {
    /// As listed; what is found of it, for the current job and by all draws; where the draws put it, and what is left
    /// to the bump stop.
    const ROWS: &'a [Row<Self>] = rows! { Self;
        "rate", "rate", SpringRate, "along the spring";
            "as listed", "PRACTICE", |s| Some(s.spring.rate.value), by: By::Reading;
        "free_length", "free length", Length, "without load";
            "as listed", "PRACTICE", |s| si(s.spring.free_length), by: By::Reading;
        "price", "price", Ratio, "each, in the shop's currency";
            "as listed", "PRACTICE", |s| s.spring.price, by: By::Reading, say: Say::Places(2),
            remark: |s| format!(" {}", s.currency).trim_end().to_owned();
        "in_stock", "in stock", Ratio, "quantity";
            "as listed", "PRACTICE", |s| s.spring.stock.map(f64::from), by: By::Reading, say: Say::Number;
        "spacer", "spacer", Length, AS_STANDS;
            "F_w(z) = m_s g at the wanted height", "DERIVED", |s| finite(s.drafted.judged.spacer_m), by: By::Solving;
        "frequency", "ride frequency", Frequency, AS_STANDS;
            "f = √(k_w / m_s) / 2π", "GIL", |s| finite(s.drafted.judged.frequency_hz),
            by: By::Solving, say: Say::Measured;
        "chance_as_fitted", "chance without spacer adjustment", Ratio, DRAWN;
            "draws in which every known limit holds / all", "GUM1",
            |s| Some(s.drafted.chance_as_fitted.unwrap_or(s.drafted.chance)), by: By::Solving, say: Say::Chance;
        "chance", "chance, spacer adjusted", Ratio, DRAWN;
            "held / draws", "GUM1", |s| Some(s.drafted.chance),
            with: |s| put!["held": s.drafted.tally.held as f64 => Ratio, "draws": s.draws.max(1) as f64 => Ratio],
            say: Say::Chance;
        "above_wanted", "offset from the target height, + higher", Length, DRAWN;
            "mean of the draws", "GUM1", |s| Some(s.drafted.tally.above.mean), by: By::Solving;
        "above_wanted_as_fitted", "offset from the target height as fitted, + higher", Length, DRAWN;
            "mean of the draws", "GUM1", |s| Some(s.drafted.as_fitted.above.mean), by: By::Solving;
        "reserve", "reserve to the bump stop", Ratio, "extra g until the bump stop is touched or the coils bind";
            "F_w(z_c) / W − 1", "DERIVED", |s| finite(s.drafted.judged.reserve), by: By::Solving, say: Say::InG;
    };
}

/// What the draws add to a spring's value: its standard deviation.
fn spread(drafted: &Drafted, key: &str) -> Option<f64> {
    match key {
        "frequency" => Some(drafted.as_fitted.frequency.sd()),
        "above_wanted" => Some(drafted.tally.above.sd()),
        "above_wanted_as_fitted" => Some(drafted.as_fitted.above.sd()),
        _ => None,
    }
}

static REDO: &[Row<Redo>] = rows! { Redo;
    "share", "share of the uncertainty in rate", Ratio, "share of the variance of the rate needed";
        "u_i² / Σ u²", "GUM", |r| Some(r.share), by: By::Solving, say: Say::Percent(0);
    "share_of_length", "share of the uncertainty in length", Ratio, "share of the variance of the free length needed";
        "u_i² / Σ u²", "GUM", |r| Some(r.share_of_length), by: By::Solving, say: Say::Percent(0);
    "moves_rate", "effect on the rate", SpringRate, "effect of one standard uncertainty";
        "∂k/∂x u_x", "GUM", |r| Some(r.moves_n_per_m), by: By::Solving, say: Say::Either;
    "chance_now", "chance of meeting every limit, now", Ratio, "of the leading spring";
        "draws that hold / all", "GUM1", |r| Some(r.chance?[0]), by: By::Solving, say: Say::Chance;
    "chance_with_half", "chance of meeting every limit, with half the ±", Ratio, "of the leading spring, in the same trials";
        "draws that hold / all", "GUM1", |r| Some(r.chance?[1]), by: By::Solving, say: Say::Chance;
};

/// Every result of choosing a spring for an axle: what is asked of it, pairs of left and right, spring by spring, and what to
/// measure again. What was not to be chosen says why.
pub fn choice(side: Side, found: Result<&Choice, String>, springs: &[Spring], currency: &str) -> Vec<Figure> {
    let mut out = collector();
    let (prefix, words) = (format!("{}.choose", side.key()), side.word_inside());
    let (found, why) = match found {
        Ok(choice) => (Some(choice), None),
        Err(told) => (None, Some(Why::Told(told))),
    };
    needed(&mut out, &prefix, words.said(), found);
    for figure in &mut out.figures {
        figure.why = why.clone().filter(|_| figure.si.is_none());
    }
    pairs(&mut out, &prefix, &words, found, why.as_ref());
    let Some(choice) = found else { return out.figures };
    for (i, drafted) in choice.drafted.iter().enumerate() {
        one_spring(&mut out, &format!("{prefix}.springs[{i}]"), words.said(), choice, drafted, springs, currency);
    }
    for (i, redo) in choice.redo.iter().enumerate() {
        let words = say!("repeat measurement ({what}): ", what = what_again(redo));
        out.of_other(&format!("{prefix}.measure_again[{i}]"), &words, REDO, Some(redo), None);
    }
    out.figures
}

/// The rate that is needed under all draws.
fn needed(out: &mut Out, prefix: &str, words: &str, found: Option<&Choice>) {
    let (needed, inner) = (found.map(|c| c.needed), found.and_then(|c| c.needed_95));
    figures! { out;
        put format!("{prefix}.needed_rate"), tr("rate needed"), SpringRate, DRAWN;
            "mean of the draws", "GUM1", of: words, by: By::Solving, say: Say::Measured
            => needed.map(|n| n.mean), needed.map(|n| n.sd());
        put format!("{prefix}.needed_rate_low"), tr("rate needed in 19 of 20 trials, lower limit"), SpringRate, DRAWN;
            "2.5 % of the draws", "GUM1", of: words, by: By::Solving, say: Say::Measured => inner.map(|r| r[0]), None;
        put format!("{prefix}.needed_rate_high"), tr("rate needed in 19 of 20 trials, upper limit"), SpringRate, DRAWN;
            "97.5 % of the draws", "GUM1", of: words, by: By::Solving, say: Say::Measured => inner.map(|r| r[1]), None;
    }
}

fn one_spring(
    out: &mut Out,
    prefix: &str,
    side: &str,
    choice: &Choice,
    drafted: &Drafted,
    springs: &[Spring],
    currency: &str,
) {
    let spring = &springs[drafted.row];
    let words = format!("{side}, {}", spring_name(spring));
    let of = OfList { drafted, spring, draws: choice.draws.0.count, currency };
    let first = out.figures.len();
    out.of_other(prefix, &format!("{words}: "), OfList::ROWS, Some(&of), None);
    for figure in &mut out.figures[first..] {
        let key = figure.key.rsplit('.').next().unwrap_or_default();
        figure.u_si = spread(drafted, key).filter(|_| figure.si.is_some());
    }
    for (i, limit) in Limit::ALL.into_iter().enumerate() {
        let label = say!("margin to the limit: {limit}", limit = limit.words());
        let key = format!("{prefix}.margin.{}", limit.key());
        let like = like(key, label, limit.dim(), "negative: limit not met", "limit − value", "DERIVED");
        out.put(like.of(&words).by(By::Solving), drafted.judged.margin(limit).and_then(finite), None);
        let label = say!("trials that fail: {limit}", limit = limit.words());
        figures! { out;
            put format!("{prefix}.broken.{}", limit.key()), label, Ratio, DRAWN;
                "counted", "DERIVED", of: &words, by: By::Solving, say: Say::Number
                => Some(drafted.tally.broken[i] as f64), None;
        }
    }
}
