//! A drawing that is being made: what is put on it, and where words have room.

use crate::report::pictures::drawing::{self, Anchor, Drawing, Fill, Place, Shape, Stroke};
use crate::report::pictures::label_places::{Block, Places, Point};
use crate::report::pictures::plot::{MARK_MM, TITLE_MM, TYPE_MM};
use crate::solve::answer::State;

/// From one line of words to the next.
pub(super) const LINE_MM: f32 = 1.35 * TYPE_MM;
/// Between words and what they do not touch.
const GAP_MM: f32 = 0.3;

/// Words that are put down.
#[derive(Debug, Clone, Copy)]
pub(super) struct Written {
    pub state: Option<State>,
    pub bold: bool,
}

/// In the colour of text.
pub(super) const PLAIN: Written = Written { state: None, bold: false };

/// A heading.
pub(super) const BOLD: Written = Written { state: None, bold: true };

/// Shapes, and the places of words.
pub(super) struct Board {
    width_mm: f32,
    shapes: Vec<Shape>,
    places: Places,
}

/// How wide words are, mm: no narrower than they will be, bold or not, in Noto Sans.
pub(super) fn wide(words: &str) -> f32 {
    TYPE_MM * words.chars().map(letter).sum::<f32>()
}

/// Width of a letter per height of the type, with some room.
fn letter(c: char) -> f32 {
    match c {
        ' ' | '.' | ',' | ':' | ';' | '\'' | '|' | 'i' | 'j' | 'l' | 'I' => 0.31,
        'f' | 'r' | 't' | '/' | '(' | ')' | '-' => 0.45,
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 0.97,
        c if c.is_uppercase() => 0.78,
        _ => 0.65,
    }
}

/// Words in lines of this width, broken at spaces.
pub(super) fn lines(words: &str, width_mm: f32, type_mm: f32) -> Vec<String> {
    let fits = |line: &str, word: &str| wide(line) + letter(' ') * TYPE_MM + wide(word) <= width_mm * TYPE_MM / type_mm;
    let mut lines: Vec<String> = Vec::new();
    for word in words.split(' ') {
        match lines.last_mut().filter(|line| fits(line, word)) {
            Some(line) => *line = format!("{line} {word}"),
            None => lines.push(word.to_owned()),
        }
    }
    lines
}

impl Board {
    /// As wide as this, and of any height.
    pub(super) fn new(width_mm: f32) -> Self {
        let inside = Block { min: [0.0, 0.0], max: [width_mm, 1000.0] };
        Board { width_mm, shapes: Vec::new(), places: Places::new(inside, GAP_MM) }
    }

    /// A line that words keep off.
    pub(super) fn line(&mut self, through: &[Place], stroke: Stroke) {
        self.places.line(through);
        self.shapes.push(Shape::line(through, stroke));
    }

    /// The same of a state, in its stroke.
    pub(super) fn line_of(&mut self, state: State, through: &[Place]) {
        self.places.line(through);
        self.shapes.push(Shape::OfState(state, vec![Shape::line(through, drawing::stroke(state))]));
    }

    /// An area with an edge that words keep off, in the colour of a state.
    pub(super) fn area(&mut self, corners: &[Place], fill: Fill, stroke: Stroke, state: Option<State>) {
        let round: Vec<Place> = corners.iter().chain(corners.first()).copied().collect();
        self.places.line(&round);
        let area = Shape::Area { corners: corners.to_vec(), fill, stroke };
        self.shapes.push(match state {
            Some(state) => Shape::OfState(state, vec![area]),
            None => area,
        });
    }

    /// The mark of a state.
    pub(super) fn mark(&mut self, state: State, at: Place) {
        self.places.block(Block::around(at, 1.25 * MARK_MM));
        self.shapes.push(Shape::OfState(state, vec![drawing::mark(state, at, MARK_MM)]));
    }

    /// Words in lines, at the first of these corners where they touch nothing.
    pub(super) fn put(&mut self, lines: &[String], how: Written, corners: impl FnOnce(Point) -> Vec<Point>) {
        let widest = lines.iter().map(|line| wide(line)).fold(0.0, f32::max);
        let size = [widest, LINE_MM * lines.len() as f32];
        let at = self.places.take(size, corners(size));
        for (i, line) in lines.iter().enumerate() {
            // The base line is as far below the upper edge as the type is high.
            let base = [at.min[0], at.min[1] + LINE_MM * i as f32 + TYPE_MM];
            self.words(base, Anchor::Start, how, line);
        }
    }

    /// Words that end at a place of their own, their base line through it.
    pub(super) fn ending(&mut self, [right, base]: Place, how: Written, words: &str) {
        self.places.block(Block { min: [right - wide(words), base - TYPE_MM], max: [right, base + 0.3 * TYPE_MM] });
        self.words([right, base], Anchor::End, how, words);
    }

    /// Words that begin there.
    pub(super) fn beginning(&mut self, [left, base]: Place, how: Written, words: &str) {
        self.places.block(Block { min: [left, base - TYPE_MM], max: [left + wide(words), base + 0.3 * TYPE_MM] });
        self.words([left, base], Anchor::Start, how, words);
    }

    fn words(&mut self, at: Place, anchor: Anchor, how: Written, text: &str) {
        let words = Shape::Words { at, size_mm: TYPE_MM, anchor, bold: how.bold, text: text.to_owned() };
        self.shapes.push(match how.state {
            Some(state) => Shape::OfState(state, vec![words]),
            None => words,
        });
    }

    /// The title over the whole width, and what is drawn in one line below it; gives back where they end.
    pub(super) fn head(&mut self, title: Option<&str>, caption: &str) -> f32 {
        let mut y = 0.0;
        for text in title.into_iter().flat_map(|title| lines(title, self.width_mm - 1.0, TITLE_MM)) {
            y += 1.3 * TITLE_MM;
            let at = [0.5, y];
            self.shapes.push(Shape::Words { at, size_mm: TITLE_MM, anchor: Anchor::Start, bold: true, text });
        }
        y += 0.25 * TITLE_MM;
        for line in lines(caption, self.width_mm - 1.0, TYPE_MM) {
            y += LINE_MM;
            self.beginning([0.5, y], PLAIN, &line);
        }
        y + 0.6 * TYPE_MM
    }

    /// What was put on it, as high as this.
    pub(super) fn finish(self, height_mm: f32, words: String) -> Drawing {
        Drawing { width_mm: self.width_mm, height_mm, words, shapes: self.shapes }
    }
}
