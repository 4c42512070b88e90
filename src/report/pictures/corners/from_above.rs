//! The corners from above, to scale: at each wheel its load and its height, in every state that is known.

use super::board::{BOLD, Board, LINE_MM, PLAIN, Written, lines, wide};
use super::{Aim, Known, corner_words, state_first};
use crate::base::language::tr;
use crate::base::units::{Dim, UnitChoice};
use crate::job::{PerAxle, Side};
use crate::report::phrases::upper_first;
use crate::report::pictures::drawing::{Drawing, Fill, Place, Stroke};
use crate::report::pictures::plot::{COPIED_MM, Export, MARK_MM, TYPE_MM, text_of};
use crate::report::results::{CORNERS, Figure, Results};
use crate::say;
use crate::solve::answer::{Answer, State};

/// From the bumper to the axle, half the width of a tyre and its length, m. Common practice, no source.
const OVERHANG_M: f32 = 0.6;
const HALF_TYRE_M: f32 = 0.1;
const TYRE_M: f32 = 0.62;
/// Length of the vehicle in the picture where it is wide enough, and its least width.
const LONG_MM: f32 = 56.0;
const LEAST_MM: f32 = 34.0;
/// Between a wheel and its numbers.
const OFF_MM: f32 = 2.5;
/// From a mark to its words, and from number to number.
const INDENT_MM: f32 = 2.0 * MARK_MM + 1.8;
const COLUMN_MM: f32 = 3.0;

/// A result as it is formatted.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// Its key among the results.
    pub key: String,
    /// Its value, SI.
    pub si: f64,
    /// As a table has it.
    pub said: String,
}

impl Reading {
    fn of(figure: &Figure, units: &UnitChoice) -> Option<Self> {
        Some(Reading { key: figure.key.clone(), si: figure.si?, said: figure.said(units) })
    }
}

/// A corner in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct AtCorner {
    /// Whose.
    pub state: State,
    /// What the scale shows.
    pub weight: Reading,
    /// Hub centre to arch, else the change of height from before; `None` where neither is known.
    pub height: Option<Reading>,
}

/// The corners from above.
#[derive(Debug, Clone, PartialEq)]
pub struct FromAbove {
    /// What it shows: where most is carried, which side is lower.
    pub title: String,
    /// Front to rear axle.
    pub wheelbase_m: f64,
    /// From wheel to wheel.
    pub track_m: PerAxle<f64>,
    /// LF, RF, LR, RR.
    pub corners: [Vec<AtCorner>; 4],
    /// The corners that carry most in the last state: one, or several that differ by less than their ± shows.
    pub heaviest: Vec<usize>,
    /// Cross weight and lean of every state, in words.
    pub states: Vec<(State, String)>,
    /// Heights are hub to arch, not changes.
    pub by_arch: bool,
    /// What the lean rests on where no height was measured left and right.
    pub note: Option<&'static str>,
}

/// The corners of an answer from above.
///
/// # Errors
/// Why the corners are not known, with the fields that are missing.
pub fn from_above(answer: &Answer, results: &Results, units: &UnitChoice, aim: Aim) -> Result<FromAbove, String> {
    let known = Known::of(answer, results, units, aim)?;
    let by_arch = known.all("arch");
    let height = if by_arch { "arch" } else { "rise" };
    let at = |state: State, i: usize| {
        // Before nothing has risen yet.
        let has_height = by_arch || state != State::Before;
        let height = has_height.then(|| Reading::of(known.figure(state, i, height)?, units)).flatten();
        Some(AtCorner { state, weight: Reading::of(known.figure(state, i, "weight")?, units)?, height })
    };
    let heaviest = known.heaviest();
    Ok(FromAbove {
        title: say!(
            "{state}: {load}; {lean}",
            state = state_first(answer, known.last()),
            load = carried(&heaviest),
            lean = known.lean(known.last()).finding(units)
        ),
        wheelbase_m: known.wheelbase_m,
        track_m: known.track_m,
        corners: [0, 1, 2, 3].map(|i| known.states.iter().filter_map(|state| at(*state, i)).collect()),
        heaviest,
        states: known.states.iter().map(|state| (*state, known.words(*state))).collect(),
        by_arch,
        note: (!known.any("arch")).then(|| tr("The lean assumes a level floor and equal springs left and right.")),
    })
}

/// Where most is carried.
fn carried(heaviest: &[usize]) -> String {
    match heaviest {
        [one] => say!("the {corner} carries most", corner = corner_words(*one)),
        [one, other] => say!(
            "the {one} and the {other} carry most, about the same",
            one = corner_words(*one),
            other = corner_words(*other)
        ),
        _ => tr("no corner clearly carries most").to_owned(),
    }
}

impl FromAbove {
    /// All that it shows, for those who do not see it.
    pub fn words(&self) -> String {
        let reading = |at: &AtCorner| {
            let height = at.height.as_ref().map(|h| format!(", {}", h.said)).unwrap_or_default();
            format!("{} {}{height}", at.state.short(), at.weight.said)
        };
        let corner = |i: usize| {
            let said: Vec<String> = self.corners[i].iter().map(reading).collect();
            format!("{}: {}", corner_words(i), said.join("; "))
        };
        let states: Vec<&str> = self.states.iter().map(|(_, words)| words.as_str()).collect();
        let corners: Vec<String> = (0..4).map(corner).collect();
        let note = self.note.map(|note| format!(" {note}")).unwrap_or_default();
        format!("{}. {}. {}. {}.{note}", self.title, self.caption(), corners.join(". "), states.join(". "))
    }

    fn caption(&self) -> &'static str {
        match self.by_arch {
            true => tr("Seen from above. At each wheel: load, hub to arch"),
            false => tr("Seen from above. At each wheel: load, height change from before"),
        }
    }

    /// As it is copied or saved.
    pub fn plot(&self, units: &UnitChoice) -> Export {
        Export::new(self.drawing(COPIED_MM[0], true), self.csv(units))
    }

    fn csv(&self, units: &UnitChoice) -> Result<String, csv::Error> {
        let (mass, length) = (units.unit(Dim::Mass), units.unit(Dim::Length));
        let mut table = csv::Writer::from_writer(Vec::new());
        let height = if self.by_arch { "hub to arch" } else { "height change" };
        let head = |name: &str, unit: &str| format!("{name} ({unit})");
        table.write_record(["corner", "state", &head("load", mass.symbol), &head(height, length.symbol)])?;
        for ((corner, _), readings) in CORNERS.into_iter().zip(&self.corners) {
            for at in readings {
                let weight = (at.weight.si / mass.si).to_string();
                let height = at.height.as_ref().map_or_else(String::new, |h| (h.si / length.si).to_string());
                table.write_record([corner, at.state.key(), &weight, &height])?;
            }
        }
        text_of(table)
    }

    /// The picture this wide, under its title or without it.
    pub fn drawing(&self, width_mm: f32, is_titled: bool) -> Drawing {
        let mut board = Board::new(width_mm);
        let top_mm = board.head(is_titled.then_some(self.title.as_str()), self.caption());
        let plan = Plan::new(self, width_mm, top_mm);
        plan.vehicle(&mut board);
        (0..4).for_each(|i| plan.corner(&mut board, self, i));
        plan.names(&mut board);
        let mut y = plan.bottom() + 0.6 * LINE_MM;
        for (state, words) in &self.states {
            let how = Written { state: Some(*state), bold: false };
            board.mark(*state, [MARK_MM + 1.0, y + 0.65 * TYPE_MM]);
            for line in lines(words, width_mm - INDENT_MM - 1.0, TYPE_MM) {
                board.beginning([INDENT_MM + 1.0, y + TYPE_MM], how, &line);
                y += LINE_MM;
            }
        }
        for line in self.note.iter().flat_map(|note| lines(note, width_mm - 1.0, TYPE_MM)) {
            board.beginning([1.0, y + TYPE_MM], PLAIN, &line);
            y += LINE_MM;
        }
        board.finish(y + 1.0, self.words())
    }
}

/// Where things are in the picture.
struct Plan {
    middle: f32,
    scale: f32,
    front_y: f32,
    rear_y: f32,
    half_track: PerAxle<f32>,
    numbers: Numbers,
    /// The upper left corners of the numbers: LF, RF, LR, RR.
    blocks: [Place; 4],
}

/// How the numbers of a corner are arranged.
#[derive(Debug, Clone, Copy)]
struct Numbers {
    /// Width of the widest weight and the widest height.
    columns: [f32; 2],
    /// Each state has a line; for lack of width two.
    is_stacked: bool,
    /// They are in front of the vehicle and behind it, under the name of the corner; else next to the wheels.
    is_around: bool,
    states: f32,
}

impl Numbers {
    fn of(seen: &FromAbove, width_mm: f32) -> Self {
        let all = || seen.corners.iter().flatten();
        let weight = all().map(|at| wide(&at.weight.said)).fold(0.0, f32::max);
        let height = all().filter_map(|at| at.height.as_ref()).map(|h| wide(&h.said)).fold(0.0, f32::max);
        let states = seen.corners.iter().map(Vec::len).max().unwrap_or_default() as f32;
        let in_one = Numbers { columns: [weight, height], is_stacked: false, is_around: false, states };
        let is_around = width_mm - 2.0 * (in_one.wide() + OFF_MM + 0.5) < LEAST_MM;
        Numbers { is_around, is_stacked: is_around && in_one.wide() > 0.5 * width_mm - 1.0, ..in_one }
    }

    /// With the mark in front of them.
    fn wide(&self) -> f32 {
        let [weight, height] = self.columns;
        INDENT_MM
            + match (self.is_stacked, height > 0.0) {
                (true, _) => weight.max(height),
                (false, true) => weight + COLUMN_MM + height,
                (false, false) => weight,
            }
    }

    fn each(&self) -> f32 {
        if self.is_stacked { 2.0 * LINE_MM } else { LINE_MM }
    }

    fn high(&self) -> f32 {
        self.states * self.each() + if self.is_around { LINE_MM } else { 0.0 }
    }
}

impl Plan {
    fn new(seen: &FromAbove, width_mm: f32, top_mm: f32) -> Self {
        let numbers = Numbers::of(seen, width_mm);
        let (long_m, track_m) = (seen.wheelbase_m as f32, seen.track_m.map(|t| t as f32));
        let wide_m = track_m.front.max(track_m.rear) + 2.0 * HALF_TYRE_M;
        let taken = if numbers.is_around { 1.0 } else { 2.0 * (numbers.wide() + OFF_MM + 0.5) };
        let scale = (LONG_MM / (long_m + 2.0 * OVERHANG_M)).min((width_mm - taken) / wide_m);
        let (over, high) = (OVERHANG_M * scale, numbers.high());
        // Numbers of the front and of the rear wheel do not meet, however short the vehicle is drawn.
        let apart = (scale * long_m).max(if numbers.is_around { 0.0 } else { high + 0.5 * LINE_MM });
        let front_y = top_mm + if numbers.is_around { high + 0.5 * LINE_MM + over } else { over.max(0.5 * high) };
        let rear_y = front_y + apart;
        let (middle, half) = (0.5 * width_mm, 0.5 * wide_m * scale);
        let columns = match numbers.is_around {
            true => [0.25, 0.75].map(|share| (share * width_mm - 0.5 * numbers.wide()).max(0.3)),
            false => [middle - half - OFF_MM - numbers.wide(), middle + half + OFF_MM],
        };
        let rows = match numbers.is_around {
            true => [top_mm, rear_y + over + 0.5 * LINE_MM],
            false => [front_y - 0.5 * high, rear_y - 0.5 * high],
        };
        let blocks = [0, 1, 2, 3].map(|i| [columns[i % 2], rows[i / 2]]);
        Plan { middle, scale, front_y, rear_y, half_track: track_m.map(|t| 0.5 * t * scale), numbers, blocks }
    }

    /// Half the width over the outer tyres.
    fn half(&self) -> f32 {
        self.half_track.front.max(self.half_track.rear) + HALF_TYRE_M * self.scale
    }

    /// The lower end of all.
    fn bottom(&self) -> f32 {
        (self.rear_y + OVERHANG_M * self.scale).max(self.blocks[2][1] + self.numbers.high())
    }

    fn axle_y(&self, side: Side) -> f32 {
        if side == Side::Front { self.front_y } else { self.rear_y }
    }

    fn wheel(&self, corner: usize) -> Place {
        let side = Side::BOTH[corner / 2];
        let off = self.half_track[side] * if corner.is_multiple_of(2) { -1.0 } else { 1.0 };
        [self.middle + off, self.axle_y(side)]
    }

    /// The outline with its nose up, the windscreen, axles, wheels, and the diagonal whose share is the cross weight.
    fn vehicle(&self, board: &mut Board) {
        let (x, half, over) = (self.middle, self.half(), OVERHANG_M * self.scale);
        let (nose, tail, cut) = (self.front_y - over, self.rear_y + over, 0.35 * over);
        let outline = [
            [x - half + 2.0 * cut, nose],
            [x + half - 2.0 * cut, nose],
            [x + half, nose + 2.0 * cut],
            [x + half, tail - cut],
            [x + half - cut, tail],
            [x - half + cut, tail],
            [x - half, tail - cut],
            [x - half, nose + 2.0 * cut],
        ];
        board.area(&outline, Fill::None, Stroke::Full, None);
        let glass = self.glass_y();
        board.line(&[[x - 0.75 * half, glass], [x + 0.75 * half, glass]], Stroke::Full);
        let [lf, rf, lr, rr] = [0, 1, 2, 3].map(|i| self.wheel(i));
        board.line(&[lf, rf], Stroke::Thin);
        board.line(&[lr, rr], Stroke::Thin);
        board.line(&[rf, lr], Stroke::ThinDashed);
        let (a, b) = (HALF_TYRE_M * self.scale, 0.5 * TYRE_M * self.scale);
        for [x, y] in [lf, rf, lr, rr] {
            let corners = [[x - a, y - b], [x + a, y - b], [x + a, y + b], [x - a, y + b]];
            board.area(&corners, Fill::Dark, Stroke::Full, None);
        }
    }

    fn glass_y(&self) -> f32 {
        self.front_y + 0.3 * (self.rear_y - self.front_y)
    }

    /// The numbers of a corner in every state; bold where most is carried in the last one.
    fn corner(&self, board: &mut Board, seen: &FromAbove, corner: usize) {
        let (readings, numbers) = (&seen.corners[corner], &self.numbers);
        let ([left, mut y], [weight, height]) = (self.blocks[corner], numbers.columns);
        if numbers.is_around {
            board.beginning([left, y + TYPE_MM], BOLD, &upper_first(corner_words(corner)));
            y += LINE_MM;
        }
        for (n, at) in readings.iter().enumerate() {
            let is_most = n + 1 == readings.len() && seen.heaviest.len() < 3 && seen.heaviest.contains(&corner);
            let how = |bold| Written { state: Some(at.state), bold };
            board.mark(at.state, [left + MARK_MM + 0.3, y + 0.65 * TYPE_MM]);
            let (first, base) = (left + INDENT_MM, y + TYPE_MM);
            board.ending([first + weight, base], how(is_most), &at.weight.said);
            if let Some(reading) = &at.height {
                let end = match numbers.is_stacked {
                    true => [first + weight.max(height), base + LINE_MM],
                    false => [first + weight + COLUMN_MM + height, base],
                };
                board.ending(end, how(false), &reading.said);
            }
            y += numbers.each();
        }
    }

    /// Words at the outline: where the front is, and what the diagonal means.
    fn names(&self, board: &mut Board) {
        let nose = self.front_y - OVERHANG_M * self.scale;
        let front = Side::Front.word_inside().to_string();
        board.put(&[front], PLAIN, |size| {
            vec![[self.middle - 0.5 * size[0], nose + 0.8], [self.middle - 0.5 * size[0], self.front_y + 1.0]]
        });
        let (y, right) = (0.5 * (self.front_y + self.rear_y), self.middle + self.half() + 2.0);
        board.line(&[[self.middle, y], [right, y]], Stroke::Thin);
        board.put(&[tr("cross weight").to_owned()], PLAIN, |size| vec![[right + 0.8, y - 0.5 * size[1]]]);
    }
}
