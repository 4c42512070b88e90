//! Weigh-ins whose readings were swapped or typed in another unit, recognised by what is likely for a vehicle.
//!
//! Each slip that people make is tried: readings swapped, or read in the other unit. It is named only when the vehicle
//! it leaves is far more likely than the one that was typed.

use super::weigh_ins::{Readings, changes, on_axles};
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::entry::AnyEntry as _;
use crate::base::units::{Amount, DecimalMark, Entry, Mass, Quantity, Unit, parse};
use crate::job::retype::mixed_up_with;
use crate::job::{Level, Mend, Weighing};
use crate::message;
use crate::solve::findings::{Say, weighed_when};

/// A slip is named when it makes the readings e^3.5 times, some thirty times, as likely: set so that of 2,000 vehicles
/// without a slip fewer than one in a hundred is questioned.
const FAR_LIKELIER: f64 = 3.5;
/// Other slips that explain them within e³ as well are offered too.
const AS_LIKELY: f64 = 3.0;
/// Readings without the slip must be those of an ordinary vehicle: Σ z² below 16, for six or seven independent normal z.
const ORDINARY: f64 = -8.0;
/// Most buttons offered.
const MOST: usize = 3;

/// LF, RF, LR, RR, front axle, rear axle of a weigh-in.
const PLACES: [&str; 6] = ["lf", "rf", "lr", "rr", "front", "rear"];
/// One reading: its weigh-in (0 before, 1 after), and which of [`PLACES`].
type Cell = (usize, usize);
/// A whole weigh-in is taken for one in the other unit only when it weighs this many times the other one, or the other
/// way round.
const OTHER_VEHICLE: f64 = 1.6;

/// One slip of whoever typed the readings.
#[derive(Debug, Clone, Copy)]
enum Slip {
    /// Two readings of a weigh-in.
    Pair(usize, usize, usize),
    /// Left and right of both axles.
    Sides(usize),
    /// Front and rear of both sides.
    Ends(usize),
    /// One reading, before and after.
    Times(usize),
    /// The two weigh-ins.
    WeighIns,
    /// One reading in the other unit.
    Unit(Cell, &'static Unit),
    /// A whole weigh-in in the other unit.
    Units(usize, &'static Unit),
}

impl Slip {
    /// The readings that are swapped.
    fn swaps(self) -> Vec<(Cell, Cell)> {
        match self {
            Slip::Pair(when, a, b) => vec![((when, a), (when, b))],
            Slip::Sides(when) => vec![((when, 0), (when, 1)), ((when, 2), (when, 3))],
            Slip::Ends(when) => vec![((when, 0), (when, 2)), ((when, 1), (when, 3)), ((when, 4), (when, 5))],
            Slip::Times(place) => vec![((0, place), (1, place))],
            Slip::WeighIns => (0..6).map(|place| ((0, place), (1, place))).collect(),
            Slip::Unit(..) | Slip::Units(..) => Vec::new(),
        }
    }

    /// The readings that are read in another unit.
    fn in_unit(self) -> Vec<(Cell, &'static Unit)> {
        match self {
            Slip::Unit(cell, unit) => vec![(cell, unit)],
            Slip::Units(when, unit) => (0..6).map(|place| ((when, place), unit)).collect(),
            _ => Vec::new(),
        }
    }

    /// How much rarer it is than a swapped pair, as a logarithm.
    fn rarer(self) -> f64 {
        match self {
            Slip::Pair(_, a, b) if a / 2 == b / 2 => 0.0,
            Slip::Times(_) => 0.0,
            Slip::Pair(..) | Slip::Sides(_) | Slip::Ends(_) | Slip::WeighIns | Slip::Unit(..) | Slip::Units(..) => 1.0,
        }
    }

    /// "Swap LF and RF, weighed after".
    fn label(self, texts: &Texts<'_>) -> Message {
        match self {
            Slip::Pair(when, a, b) => message!(
                "Swap {one} and {other}, {weighed}",
                one = place(a),
                other = place(b),
                weighed = weighed_when(when == 0)
            ),
            Slip::Sides(when) => message!("Swap left and right, {weighed}", weighed = weighed_when(when == 0)),
            Slip::Ends(when) => message!("Swap front and rear, {weighed}", weighed = weighed_when(when == 0)),
            Slip::Times(at) => message!("Swap before and after, {reading}", reading = place(at)),
            Slip::WeighIns => message!("Swap before and after, all readings"),
            Slip::Unit(cell, unit) => message!(
                "Use {text} for {reading}, {weighed}",
                text = texts.in_unit(cell, unit).unwrap_or_default(),
                reading = place(cell.1),
                weighed = weighed_when(cell.0 == 0)
            ),
            Slip::Units(when, unit) => {
                message!("Read all values in {unit}, {weighed}", unit = unit.symbol, weighed = weighed_when(when == 0))
            }
        }
    }

    /// The reading at which it is shown.
    fn at(self) -> Cell {
        let swapped = self.swaps().first().map(|(a, b)| if b.0 > a.0 { *b } else { *a });
        swapped.or_else(|| self.in_unit().first().map(|(cell, _)| *cell)).unwrap_or((1, 0))
    }
}

/// "LF", "rear axle".
fn place(at: usize) -> Word {
    match at {
        0 => Word("LF"),
        1 => Word("RF"),
        2 => Word("LR"),
        3 => Word("RR"),
        4 => Word("front axle"),
        _ => Word("rear axle"),
    }
}

/// The readings as typed.
struct Texts<'a> {
    weighings: [&'a Weighing; 2],
    mark: DecimalMark,
}

impl Texts<'_> {
    fn entry(&self, (when, at): Cell) -> &Entry<Mass> {
        let w = self.weighings[when];
        [&w.lf, &w.rf, &w.lr, &w.rr, &w.front, &w.rear][at]
    }

    fn in_unit(&self, cell: Cell, unit: &Unit) -> Option<String> {
        parse::with_unit(&self.entry(cell).text, Mass::DIM, self.mark, unit)
    }

    /// What undoes a slip; `None` when there is nothing to change.
    fn mend(&self, slip: Slip) -> Option<Mend> {
        let path = |(when, at): Cell| format!("{}.{}", ["before", "after"][when], PLACES[at]);
        let text = |cell: Cell| self.entry(cell).text.clone();
        let mut mend = Mend::new(slip.label(self));
        for (a, b) in slip.swaps() {
            if text(a) != text(b) {
                mend = mend.set(path(a), text(b)).set(path(b), text(a));
            }
        }
        for (cell, unit) in slip.in_unit() {
            if let Some(text) = self.in_unit(cell, unit) {
                mend = mend.set(path(cell), text);
            }
        }
        (!mend.edits.is_empty()).then_some(mend)
    }

    /// The readings without a slip; `None` when it is none of them.
    fn without(&self, slip: Slip, read: &Readings) -> Option<Readings> {
        let mut mended = *read;
        for (a, b) in slip.swaps() {
            mended[a.0][a.1] = read[b.0][b.1];
            mended[b.0][b.1] = read[a.0][a.1];
        }
        if let Slip::Units(..) = slip {
            let [before, after] = read.map(on_axles).map(|w| w.iter().flatten().map(|a| a.sum_kg).sum::<f64>());
            let ratio = (after / before).max(before / after);
            if ratio.is_nan() || ratio < OTHER_VEHICLE {
                return None;
            }
        }
        for ((when, at), unit) in slip.in_unit() {
            let number = self.entry((when, at)).number(self.mark).ok().flatten();
            mended[when][at] = number.map(|n| n.value * unit.si);
        }
        let lost = |when: usize| {
            on_axles(read[when]).iter().zip(on_axles(mended[when])).any(|(a, b)| b.is_none() && a.is_some())
        };
        (mended != *read && !lost(0) && !lost(1)).then_some(mended)
    }
}

impl Say<'_> {
    /// Readings of the weigh-ins that are far likelier swapped, or in the other unit.
    pub(in crate::solve::findings) fn swapped_readings(&mut self) {
        let (job, read) = (self.texts(), self.job());
        let texts = Texts { weighings: [&job.before, &job.after], mark: job.decimal };
        // Repeated readings show a slip by their scatter.
        if texts.weighings.iter().any(|w| !w.repeats.is_empty()) {
            return;
        }
        let read: Readings = [&read.before, &read.after].map(|w| {
            [&w.lf, &w.rf, &w.lr, &w.rr, &w.front, &w.rear].map(|reading| self.reading.typed(reading).map(Mass::si))
        });
        let Some(likely) = self.likely(&read) else { return };
        let typed = likely.log_density(&read);
        let scored = slips(&texts).into_iter().filter_map(|slip| {
            let mended = texts.without(slip, &read)?;
            let density = likely.log_density(&mended);
            let is_far_likelier = density - typed - slip.rarer() > FAR_LIKELIER;
            (is_far_likelier && density > ORDINARY).then_some((density, slip, mended))
        });
        let mut found: Vec<(f64, Slip, Readings)> = scored.collect();
        found.sort_by(|a, b| (b.0 - b.1.rarer()).total_cmp(&(a.0 - a.1.rarer())));
        let Some(&(_, best, mended)) = found.first() else { return };
        let most = found.iter().map(|f| f.0).fold(f64::MIN, f64::max);
        // So near that none of them would be questioned for another.
        found.retain(|f| f.0 > most - AS_LIKELY);
        found.truncate(MOST);
        let mends: Vec<Mend> = found.iter().filter_map(|f| texts.mend(f.1)).collect();
        let (when, at) = best.at();
        let field = format!("{}.{}", ["before", "after"][when], PLACES[at]);
        let (rule, text) = self.slip_words(best, &read, &mended);
        self.push_with(Level::Doubt, rule, field, text, mends);
    }

    fn slip_words(&self, best: Slip, read: &Readings, mended: &Readings) -> (&'static str, Message) {
        let both = changes(read).iter().any(Option::is_some);
        let (typed, likelier) = (self.listed(read, both), self.listed(mended, both));
        let is_unit = !best.in_unit().is_empty();
        let text = match (is_unit, both) {
            (true, true) => message!(
                "A reading seems to be in the wrong unit: the change from before to after is {typed}. {likelier} is far more likely.",
                typed,
                likelier
            ),
            (true, false) => message!(
                "A reading seems to be in the wrong unit: the scales show {typed}. {likelier} is far more likely.",
                typed,
                likelier
            ),
            (false, true) => message!(
                "Some readings seem to be swapped: the change from before to after is {typed}. {likelier} is far more likely. Check them against the weigh-in notes.",
                typed,
                likelier
            ),
            (false, false) => message!(
                "Some readings seem to be swapped: the scales show {typed}. {likelier} is far more likely. Check them against the weigh-in notes.",
                typed,
                likelier
            ),
        };
        (if is_unit { "reading-unit" } else { "readings-swapped" }, text)
    }

    /// "LF +30 kg, RF +56 kg": what each place changed by, or what it shows.
    fn listed(&self, read: &Readings, both: bool) -> Message {
        let shown = PLACES.iter().enumerate().filter_map(|(at, _)| {
            let [before, after] = [read[0][at], read[1][at]];
            let shown = match both {
                true => Amount::change(Mass::from_si(after? - before?), self.units),
                false => Amount::rounded(Mass::from_si(after.or(before)?), self.units),
            };
            Some(Message::from(place(at)).and(shown))
        });
        Message::row(shown, ", ")
    }
}

/// All slips that the readings allow.
fn slips(texts: &Texts<'_>) -> Vec<Slip> {
    let mut all = vec![Slip::WeighIns];
    let typed = |cell: Cell| !texts.entry(cell).is_blank();
    for when in [0, 1] {
        all.extend([Slip::Sides(when), Slip::Ends(when)]);
        all.extend((0..4).flat_map(|a| (a + 1..4).map(move |b| Slip::Pair(when, a, b))));
        let numbers = (0..6).filter(|at| typed((when, *at)));
        let units = numbers.filter_map(|at| {
            let number = texts.entry((when, at)).number(texts.mark).ok().flatten()?;
            Some((at, mixed_up_with(number.unit).next()?))
        });
        let units: Vec<(usize, &'static Unit)> = units.collect();
        all.extend(units.iter().map(|(at, unit)| Slip::Unit((when, *at), unit)));
        if let Some((_, unit)) = units.first().filter(|first| units.iter().all(|u| u.1 == first.1)) {
            all.push(Slip::Units(when, unit));
        }
    }
    all.extend((0..6).map(Slip::Times));
    all
}
