//! The body from behind at both axles, its lean drawn larger than it is, in every state that is known.

use super::board::{BOLD, Board, LINE_MM, PLAIN, Written, lines, wide};
use super::{Aim, Known, Lean, state_first, state_words};
use crate::base::language::tr;
use crate::base::units::{Dim, UnitChoice};
use crate::job::{PerAxle, Side};
use crate::report::pictures::drawing::{self, Drawing, Fill, Place, Stroke};
use crate::report::pictures::plot::{COPIED_MM, Export, MARK_MM, TYPE_MM, text_of};
use crate::report::results::Results;
use crate::say;
use crate::solve::answer::{Answer, State};

/// How much larger the lean is drawn, and how much lower one side may then be drawn, m.
const FACTORS: [f64; 6] = [20.0, 10.0, 5.0, 3.0, 2.0, 1.0];
const MOST_LOWER_M: f64 = 0.36;
/// Sizes of what is drawn, m: tyres, the body's sill, belt and roof, how much narrower the roof is. Common practice, no
/// source.
const TYRE_M: [f32; 2] = [0.2, 0.62];
const SILL_M: f32 = 0.34;
const BELT_M: f32 = 0.95;
const ROOF_M: f32 = 1.35;
const CABIN: f32 = 0.78;
/// The most that a vehicle is wide in the picture, with room for an arrow at either side.
const MOST_WIDE_MM: f32 = 28.0;
const ARROW_MM: f32 = 4.0;
/// The least room for words next to it.
const LEAST_WORDS_MM: f32 = 30.0;

/// The body in one state, at the front and at the rear axle.
#[derive(Debug, Clone, PartialEq)]
pub struct Leaning {
    /// Which.
    pub state: State,
    /// What precedes it.
    pub name: String,
    /// The lean over the track of each axle, tyres included.
    pub across: PerAxle<Lean>,
    /// The same in words.
    pub said: PerAxle<String>,
    /// What is drawn: nothing where the ± is larger.
    pub drawn_m: PerAxle<f64>,
}

/// The body from behind.
#[derive(Debug, Clone, PartialEq)]
pub struct FromBehind {
    /// What it shows: on which springs the body leans to which side.
    pub title: String,
    /// From wheel to wheel.
    pub track_m: PerAxle<f64>,
    /// How many times larger the lean is drawn.
    pub factor: f64,
    /// In the order of the work.
    pub states: Vec<Leaning>,
}

/// The body of an answer from behind.
///
/// # Errors
/// Why the corners are not known, with the fields that are missing.
pub fn from_behind(answer: &Answer, results: &Results, units: &UnitChoice) -> Result<FromBehind, String> {
    let known = Known::of(answer, results, units, Aim::AsFitted)?;
    let one = |state: State| {
        let across = PerAxle::each(|side| known.lean_across(state, side));
        let drawn = |lean: Lean| if lean.is_level(units) { 0.0 } else { lean.right_lower_m };
        Leaning {
            state,
            name: state_words(answer, state),
            across,
            said: across.map(|lean| lean.said(units)),
            drawn_m: across.map(drawn),
        }
    };
    let states: Vec<Leaning> = known.states.iter().map(|state| one(*state)).collect();
    let most_m = states.iter().flat_map(|s| s.drawn_m.both()).fold(0.0, |most: f64, m| most.max(m.abs()));
    let factor = FACTORS.into_iter().find(|f| f * most_m <= MOST_LOWER_M).unwrap_or(1.0);
    let finding = |state: State| known.lean(state).finding(units);
    let last = known.last();
    let old = known.states.iter().rev().nth(1).filter(|state| **state == State::OldSprings);
    let first = state_first(answer, *old.unwrap_or(&last));
    let title = match old {
        Some(old) => say!(
            "{first}: {old}; {then}: {new}",
            first,
            old = finding(*old),
            then = state_words(answer, last),
            new = finding(last)
        ),
        None => say!("{first}: {finding}", first, finding = finding(last)),
    };
    Ok(FromBehind { title, track_m: known.track_m, factor, states })
}

impl FromBehind {
    /// All that it shows, for those who do not see it.
    pub fn words(&self) -> String {
        let one = |s: &Leaning| {
            let ends = Side::BOTH.map(|side| format!("{}: {}", side.word_inside(), s.said[side]));
            format!("{}: {}", s.name, ends.join(", "))
        };
        let states: Vec<String> = self.states.iter().map(one).collect();
        format!("{}. {} {}.", self.title, self.caption(), states.join("; "))
    }

    fn caption(&self) -> String {
        match self.factor > 1.0 {
            true => {
                say!(
                    "Seen from behind: left is left. The lean is drawn {factor:.0} times larger.",
                    factor = self.factor
                )
            }
            false => tr("Seen from behind: left is left.").to_owned(),
        }
    }

    /// As it is copied or saved.
    pub fn plot(&self, units: &UnitChoice) -> Export {
        Export::new(self.drawing(COPIED_MM[0], true), self.csv(units))
    }

    fn csv(&self, units: &UnitChoice) -> Result<String, csv::Error> {
        let length = units.unit(Dim::Length);
        let mut table = csv::Writer::from_writer(Vec::new());
        table.write_record(["axle", "state", &format!("right side lower ({})", length.symbol)])?;
        for (side, s) in Side::BOTH.into_iter().flat_map(|side| self.states.iter().map(move |s| (side, s))) {
            let lower = (s.across[side].right_lower_m / length.si).to_string();
            table.write_record([side.key(), s.state.key(), &lower])?;
        }
        text_of(table)
    }

    /// The picture this wide, under its title or without it: a row for each state, both axles next to each other.
    pub fn drawing(&self, width_mm: f32, is_titled: bool) -> Drawing {
        let mut board = Board::new(width_mm);
        let mut y = board.head(is_titled.then_some(self.title.as_str()), &self.caption());
        let column = 0.5 * width_mm;
        for side in Side::BOTH {
            let left = column * side as usize as f32;
            board.beginning([left + 0.5, y + TYPE_MM], BOLD, side.axle().said());
        }
        y += 1.3 * LINE_MM;
        for s in &self.states {
            let how = Written { state: Some(s.state), bold: false };
            board.mark(s.state, [MARK_MM + 1.0, y + 0.65 * TYPE_MM]);
            board.beginning([2.0 * MARK_MM + 3.0, y + TYPE_MM], how, &s.name);
            y += 1.2 * LINE_MM;
            let ends = Side::BOTH.map(|side| {
                let cell = Cell::new(self, side, [column * side as usize as f32, column], y);
                cell.draw(&mut board, self, s)
            });
            y = ends[0].max(ends[1]) + 0.3 * LINE_MM;
        }
        board.finish(y, self.words())
    }
}

/// One axle in one state.
struct Cell {
    side: Side,
    left: f32,
    width: f32,
    /// The vehicle's middle, and the ground.
    middle: f32,
    ground: f32,
    scale: f32,
    half_track: f32,
    /// Words have room next to the vehicle, else below it.
    is_beside: bool,
}

impl Cell {
    fn new(seen: &FromBehind, side: Side, [left, width]: [f32; 2], top: f32) -> Self {
        let is_beside = width - MOST_WIDE_MM >= LEAST_WORDS_MM;
        let wide = MOST_WIDE_MM.min(width - 1.0);
        let widest_m = seen.track_m.front.max(seen.track_m.rear) as f32 + TYRE_M[0];
        let scale = (wide - 2.0 * ARROW_MM) / widest_m;
        let middle = left + 0.5 * wide;
        // A side that is drawn higher has room above.
        let high_m = ROOF_M + 0.5 * MOST_LOWER_M as f32;
        let ground = top + high_m * scale;
        let half_track = 0.5 * seen.track_m[side] as f32 * scale;
        Cell { side, left, width, middle, ground, scale, half_track, is_beside }
    }

    /// Draws it, and gives back where it ends.
    fn draw(&self, board: &mut Board, seen: &FromBehind, s: &Leaning) -> f32 {
        let how = Written { state: Some(s.state), bold: false };
        let slope = (seen.factor * s.drawn_m[self.side] / seen.track_m[self.side]) as f32;
        self.tyres(board);
        self.body(board, s.state, slope);
        let foot = self.ground + 1.0;
        for (words, sign) in [(tr("left"), -1.0), (tr("right"), 1.0)] {
            let x = self.middle + sign * self.half_track;
            board.put(&[words.to_owned()], PLAIN, |size| vec![[x - 0.5 * size[0], foot]]);
        }
        let below = foot + 1.2 * LINE_MM;
        let room = if self.is_beside { self.left + self.width - self.beside() - 1.0 } else { self.width - 2.0 };
        let said = lines(&s.said[self.side], room, TYPE_MM);
        let high = LINE_MM * said.len() as f32;
        let corner = match self.is_beside {
            true => [self.beside(), self.ground - 0.5 * (BELT_M + SILL_M) * self.scale - 0.5 * high],
            false => [self.left + 0.5, below],
        };
        debug_assert!(said.iter().all(|line| wide(line) < self.width), "a word is no wider than its column");
        board.put(&said, how, |_| vec![corner]);
        if self.is_beside { below } else { below + high }
    }

    /// Where words begin next to the vehicle.
    fn beside(&self) -> f32 {
        self.left + MOST_WIDE_MM + 1.0
    }

    /// Both tyres and the ground.
    fn tyres(&self, board: &mut Board) {
        let [half, high] = [0.5 * TYRE_M[0] * self.scale, TYRE_M[1] * self.scale];
        for sign in [-1.0, 1.0] {
            let (x, y) = (self.middle + sign * self.half_track, self.ground);
            let corners = [[x - half, y - high], [x + half, y - high], [x + half, y], [x - half, y]];
            board.area(&corners, Fill::Dark, Stroke::Full, None);
        }
        let reach = self.half_track + half + ARROW_MM - 0.5;
        board.line(&[[self.middle - reach, self.ground], [self.middle + reach, self.ground]], Stroke::Full);
    }

    /// The body, lower by the slope on the right; a level line at its belt, and an arrow down on its lower side.
    fn body(&self, board: &mut Board, state: State, slope: f32) {
        let half = self.half_track + 0.5 * TYRE_M[0] * self.scale;
        let at = |x: f32, up_m: f32| -> Place { [self.middle + x, self.ground - up_m * self.scale + slope * x] };
        let (roof, belt, sill) = (CABIN * half, half, 0.96 * half);
        let outline = [
            at(-sill, SILL_M),
            at(-belt, BELT_M),
            at(-roof, ROOF_M),
            at(roof, ROOF_M),
            at(belt, BELT_M),
            at(sill, SILL_M),
        ];
        board.area(&outline, Fill::White, drawing::stroke(state), Some(state));
        board.line_of(state, &[at(-0.94 * belt, BELT_M), at(0.94 * belt, BELT_M)]);
        let level = self.ground - BELT_M * self.scale;
        let reach = half + ARROW_MM - 0.5;
        board.line(&[[self.middle - reach, level], [self.middle + reach, level]], Stroke::ThinDashed);
        if slope != 0.0 {
            let x = self.middle + slope.signum() * (half + 0.5 * ARROW_MM + 0.4);
            let tip = [x, level + 6.0];
            board.line(&[[x, level + 1.0], [x, tip[1] - 2.2]], Stroke::Heavy);
            let head = [tip, [x - 1.1, tip[1] - 2.4], [x + 1.1, tip[1] - 2.4]];
            board.area(&head, Fill::Black, Stroke::Full, None);
        }
    }
}
