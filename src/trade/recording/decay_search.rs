//! Finds free decays in the body's motion: where it was pushed last and then let go.

/// Pushes, wheel hop and an idling engine are taken off by a bell curve of this width, s: 3.8 Hz at half power.
const BELL_S: f64 = 0.035;
/// The stillest share of the record shows its noise.
const STILLEST: f64 = 0.05;
/// Length of a piece checked for stillness, s.
const WINDOW_S: f64 = 0.4;
/// A turn counts from this many times the noise.
const TURN: f64 = 4.0;
/// A decay begins with this many times the noise at least.
const BEGINS: f64 = 8.0;
/// A free decay falls by this factor at least before it ends.
const FALLS: f64 = 0.5;
/// Half a swing takes no longer, s: half of one at 0.5 Hz.
const HALF_SWING_S: f64 = 1.0;
/// A decay is followed for so long at most, s; common practice, no source.
const LONGEST_S: f64 = 3.0;
/// A decay that is followed for less shows nothing, s.
const SHORTEST_S: f64 = 0.9;

/// The motion without what is quicker than the body.
pub struct Smooth {
    /// Samples.
    pub values: Vec<f64>,
    /// Scatter of it while the body is still.
    pub noise: f64,
}

/// A free decay: its samples, and where it turns.
pub struct Found {
    /// First and behind the last sample.
    pub range: (usize, usize),
    /// Samples at which it turns, the first one included.
    pub turns: Vec<usize>,
}

/// The motion smoothed, about its median.
pub fn smooth(values: &[f64], every_s: f64) -> Smooth {
    let half = (4.0 * BELL_S / every_s).ceil() as usize;
    let bell: Vec<f64> = (0..=half).map(|i| (-0.5 * (i as f64 * every_s / BELL_S).powi(2)).exp()).collect();
    let sum = 2.0 * bell.iter().sum::<f64>() - bell[0];
    let last = values.len().saturating_sub(1);
    let at = |i: usize| {
        let beside = |k: usize| values[i.saturating_sub(k)] + values[(i + k).min(last)];
        (bell[0] * values[i] + (1..=half).map(|k| bell[k] * beside(k)).sum::<f64>()) / sum
    };
    let mut smoothed: Vec<f64> = (0..values.len()).map(at).collect();
    let mut sorted = smoothed.clone();
    let middle = sorted.len() / 2;
    let median = if sorted.is_empty() { 0.0 } else { *sorted.select_nth_unstable_by(middle, f64::total_cmp).1 };
    smoothed.iter_mut().for_each(|v| *v -= median);
    let noise = stillest(&smoothed, every_s);
    Smooth { values: smoothed, noise }
}

fn stillest(values: &[f64], every_s: f64) -> f64 {
    let width = ((WINDOW_S / every_s).round() as usize).max(4);
    let scatter = |part: &[f64]| {
        let mean = part.iter().sum::<f64>() / part.len() as f64;
        (part.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / part.len() as f64).sqrt()
    };
    let mut all: Vec<f64> = values.chunks_exact(width).map(scatter).collect();
    all.sort_by(f64::total_cmp);
    let at = (STILLEST * all.len() as f64) as usize;
    all.get(at).copied().unwrap_or(0.0)
}

/// Every free decay, in order. `downward`: the body's top is where the motion is least (acceleration, plus up); `None`
/// when it is not known which way is up.
pub fn search(smooth: &Smooth, every_s: f64, least: f64, downward: Option<bool>) -> Vec<Found> {
    let x = &smooth.values;
    let threshold = (TURN * smooth.noise).max(0.25 * least);
    let turns = turns(x, threshold);
    let size = |j: usize| x[turns[j]].abs();
    let (mut found, mut j) = (Vec::new(), 1);
    while j < turns.len() {
        // Let go at the lowest point, the body is free from its first top on: the turn after the largest one.
        let after_largest = size(j - 1) > size(j) && (j < 2 || size(j - 1) >= size(j - 2));
        let is_top = downward.is_none_or(|down| (x[turns[j]] < 0.0) == down);
        let is_large = size(j) > (BEGINS * smooth.noise).max(least);
        let falling =
            |k: &usize| size(*k) < 0.95 * size(k - 1) && (turns[*k] - turns[k - 1]) as f64 * every_s < HALF_SWING_S;
        let last = (j + 1..turns.len()).take_while(falling).last();
        let until = last.filter(|k| after_largest && is_top && is_large && size(*k) < FALLS * size(j));
        if let Some(last) = until {
            let next = turns.get(last + 1).map_or(x.len(), |next| onset(x, turns[last], *next, threshold, every_s));
            let to = next.min(turns[j] + (LONGEST_S / every_s) as usize).min(x.len());
            if (to.saturating_sub(turns[j])) as f64 * every_s >= SHORTEST_S {
                found.push(Found { range: (turns[j], to), turns: turns[j..=last].to_vec() });
                j = last + 1;
            }
        }
        j += 1;
    }
    found
}

/// Where the motion begins again that reaches its turn at `turn`, a little ahead of it.
fn onset(x: &[f64], after: usize, turn: usize, threshold: f64, every_s: f64) -> usize {
    const AHEAD_S: f64 = 0.06;
    let still = (after..turn).rev().find(|i| x[*i].abs() <= threshold).unwrap_or(after);
    still.saturating_sub((AHEAD_S / every_s) as usize).max(after)
}

/// Samples at which a motion turns by more than a threshold, up and down in turn.
fn turns(x: &[f64], threshold: f64) -> Vec<usize> {
    let mut found = Vec::new();
    let (mut best, mut rises) = (0, None);
    for i in 1..x.len() {
        let by = x[i] - x[best];
        match rises {
            None if by.abs() > threshold => (rises, best) = (Some(by > 0.0), i),
            None => {}
            Some(up) if (by > 0.0) == up && by != 0.0 => best = i,
            Some(up) if by.abs() > threshold => {
                found.push(best);
                (rises, best) = (Some(!up), i);
            }
            Some(_) => {}
        }
    }
    found
}
