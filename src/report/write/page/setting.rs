//! Sets text: cleans it, finds the face of every character, shapes it, breaks it into lines.

use std::collections::{BTreeSet, HashMap};
use std::ops::Range;

use harfrust::{Direction, ShapeOptions, ShapePlan, UnicodeBuffer};
use unicode_bidi::{BidiInfo, Level};
use unicode_segmentation::UnicodeSegmentation as _;

use super::fonts::{Fonts, SHIPPED};
use crate::base::language::turns_letters;
use crate::base::units;

/// How text is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Type {
    /// Height of the type, points.
    pub size_pt: f32,
    /// In bold.
    pub bold: bool,
}

/// One glyph of a run; lengths per height of the type.
#[derive(Debug, Clone, PartialEq)]
pub struct Glyph {
    /// Its place in the font.
    pub id: u32,
    /// How far the next one is.
    pub advance: f32,
    /// How far it is moved to the right.
    pub right: f32,
    /// How far it is moved up.
    pub up: f32,
    /// What it shows, as bytes of the run's text.
    pub shows: Range<usize>,
}

/// Text in one face and one direction, glyphs from left to right.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Place of its face among the faces of the pages.
    pub face: usize,
    /// Height of the type, points.
    pub size_pt: f32,
    /// What it says.
    pub text: String,
    /// What is drawn.
    pub glyphs: Vec<Glyph>,
    /// Width of what can be seen, points: without spaces at its end.
    pub width_pt: f32,
}

impl Run {
    fn advance_pt(&self) -> f32 {
        self.size_pt * self.glyphs.iter().map(|g| g.advance).sum::<f32>()
    }
}

/// One line: runs with their distance from its beginning, points.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Line {
    /// Runs from left to right.
    pub runs: Vec<(f32, Run)>,
    /// Width of what can be seen, points.
    pub width_pt: f32,
}

/// No line is filled to the last of this, points: widths of words are summed, and shaped together they may differ.
const SPARE_PT: f32 = 0.3;

/// Sets text in the fonts at hand, and remembers what it could not show.
pub(super) struct Setter<'f> {
    pub fonts: &'f mut Fonts,
    widths: HashMap<(String, bool), f32>,
    plans: Vec<(usize, harfrust::Script, bool, ShapePlan)>,
    /// Characters that no font shows.
    pub missing: BTreeSet<char>,
    /// Control characters that were left out.
    pub left_out: BTreeSet<char>,
}

impl<'f> Setter<'f> {
    pub fn new(fonts: &'f mut Fonts) -> Self {
        Setter { fonts, widths: HashMap::new(), plans: Vec::new(), missing: BTreeSet::new(), left_out: BTreeSet::new() }
    }

    /// The text in lines that are no wider than this; at least one line.
    pub fn lines(&mut self, text: &str, style: Type, width_pt: f32) -> Vec<Line> {
        let text = self.clean(text);
        let room = (width_pt - SPARE_PT).max(1.0);
        let mut lines = Vec::new();
        let (mut start, mut end, mut filled) = (0, 0, 0.0);
        for to in breaks(&text) {
            let word = &text[end..to];
            let seen = self.width(word.trim_end(), style);
            if filled + seen > room && end > start {
                lines.push(self.line(&text[start..end], style));
                (start, filled) = (end, 0.0);
            }
            if seen > room {
                let (from, rest) = self.broken(&text, end..to, room, style, &mut lines);
                (start, filled) = (from, rest);
            }
            filled += self.width(word, style).min(room);
            end = to;
        }
        if end > start || lines.is_empty() {
            lines.push(self.line(&text[start..end], style));
        }
        lines
    }

    /// Breaks a word that is wider than a line; gives back where its last piece begins, and what to take from the
    /// word's width for those before.
    fn broken(
        &mut self,
        text: &str,
        word: Range<usize>,
        room: f32,
        style: Type,
        lines: &mut Vec<Line>,
    ) -> (usize, f32) {
        let (mut from, mut filled) = (word.start, 0.0);
        for (at, piece) in text[word.clone()].grapheme_indices(true) {
            let wide = self.width(piece, style);
            if filled + wide > room && word.start + at > from && !piece.trim().is_empty() {
                lines.push(self.line(&text[from..word.start + at], style));
                (from, filled) = (word.start + at, 0.0);
            }
            filled += wide;
        }
        let whole = self.width(&text[word], style).min(room);
        (from, filled - whole)
    }

    /// The text on one line; what does not fit is cut off and marked "…".
    pub fn cut_to(&mut self, text: &str, style: Type, width_pt: f32) -> Line {
        let text = self.clean(text);
        if self.width(&text, style) <= width_pt {
            return self.line(&text, style);
        }
        let room = width_pt - self.width("…", style) - SPARE_PT;
        let mut filled = 0.0;
        let mut kept = String::new();
        for piece in text.graphemes(true) {
            filled += self.width(piece, style);
            if filled > room {
                break;
            }
            kept.push_str(piece);
        }
        self.line(&(kept + "…"), style)
    }

    /// Width of a text on one line, points.
    pub fn width(&mut self, text: &str, style: Type) -> f32 {
        let key = (text.to_owned(), style.bold);
        if let Some(per_em) = self.widths.get(&key) {
            return per_em * style.size_pt;
        }
        let runs = self.shaped(text, Type { size_pt: 1.0, ..style });
        let per_em: f32 = runs.iter().map(Run::advance_pt).sum();
        self.widths.insert(key, per_em);
        per_em * style.size_pt
    }

    /// Width of the widest piece that a line cannot break, points.
    pub fn widest_word(&mut self, text: &str, style: Type) -> f32 {
        let text = self.clean(text);
        let mut from = 0;
        let mut widest = 0.0_f32;
        for to in breaks(&text) {
            widest = widest.max(self.width(text[from..to].trim_end(), style));
            from = to;
        }
        widest + SPARE_PT
    }

    /// Spaces are one, as in the text writers; control characters, which no font shows, are left out and remembered.
    pub fn clean(&mut self, text: &str) -> String {
        let is_space = |c: char| c.is_whitespace() && !matches!(c, '\u{A0}' | '\u{202F}');
        let mut out = String::with_capacity(text.len());
        for c in text.trim_matches(is_space).chars() {
            match c {
                _ if is_space(c) => {
                    if !out.ends_with(' ') {
                        out.push(' ');
                    }
                }
                _ if c.is_control() || turns_letters(c) => {
                    self.left_out.insert(c);
                }
                _ => out.push(c),
            }
        }
        out
    }

    /// One line, shaped.
    fn line(&mut self, text: &str, style: Type) -> Line {
        let runs = self.shaped(text, style);
        let mut line = Line::default();
        let mut x = 0.0;
        for run in runs {
            let advance = run.advance_pt();
            line.width_pt = x + run.width_pt;
            line.runs.push((x, run));
            x += advance;
        }
        line
    }

    /// Runs from left to right.
    fn shaped(&mut self, text: &str, style: Type) -> Vec<Run> {
        let mut runs = Vec::new();
        for (range, is_rtl) in directions(text) {
            let mut pieces = self.faced(&text[range], style.bold);
            if is_rtl {
                pieces.reverse();
            }
            for (face, piece, is_shown) in pieces {
                runs.push(self.run(face, piece, style.size_pt, is_rtl, is_shown));
            }
        }
        runs
    }

    /// Pieces of one face each, and whether that face shows them.
    fn faced<'t>(&mut self, text: &'t str, bold: bool) -> Vec<(usize, &'t str, bool)> {
        if text.is_ascii() {
            return vec![(SHIPPED[usize::from(bold)], text, true)];
        }
        let mut pieces: Vec<(usize, Range<usize>, bool)> = Vec::new();
        for (at, together) in text.grapheme_indices(true) {
            let range = at..at + together.len();
            let (face, is_shown) = match self.fonts.face_for(together, bold) {
                Some(face) => (face, true),
                None => {
                    self.missing.extend(
                        together.chars().filter(|c| self.fonts.face_for(c.encode_utf8(&mut [0; 4]), bold).is_none()),
                    );
                    (SHIPPED[usize::from(bold)], false)
                }
            };
            match pieces.last_mut() {
                Some(last) if last.0 == face && last.2 == is_shown => last.1.end = range.end,
                _ => pieces.push((face, range, is_shown)),
            }
        }
        pieces.into_iter().map(|(face, range, is_shown)| (face, &text[range], is_shown)).collect()
    }

    fn run(&mut self, face_at: usize, text: &str, size_pt: f32, is_rtl: bool, is_shown: bool) -> Run {
        let face = self.fonts.faces()[face_at].clone();
        let mut run = Run { face: face_at, size_pt, text: text.to_owned(), glyphs: Vec::new(), width_pt: 0.0 };
        let Some(font) = face.font() else { return run };
        let mut buffer = UnicodeBuffer::new();
        if is_shown {
            buffer.push_str(text);
        } else {
            // What no font shows stands as the replacement character, one for each that belong together.
            text.grapheme_indices(true).for_each(|(at, _)| buffer.add('\u{FFFD}', at as u32));
        }
        buffer.set_direction(if is_rtl { Direction::RightToLeft } else { Direction::LeftToRight });
        buffer.guess_segment_properties();
        let shaper = face.shaper.shaper(&font).build();
        let script = buffer.script();
        let known = self.plans.iter().position(|p| (p.0, p.1, p.2) == (face_at, script, is_rtl));
        let plan = known.unwrap_or_else(|| {
            let plan = ShapePlan::new(&shaper, buffer.direction(), Some(script), None, &[]);
            self.plans.push((face_at, script, is_rtl, plan));
            self.plans.len() - 1
        });
        let shaped = shaper.shape(buffer, ShapeOptions::new().plan(Some(&self.plans[plan].3)));
        let mut starts: Vec<usize> = shaped.glyph_infos().iter().map(|g| g.cluster as usize).collect();
        starts.sort_unstable();
        starts.dedup();
        let em = |units: i32| units as f32 / face.units_per_em;
        run.glyphs = shaped
            .glyph_infos()
            .iter()
            .zip(shaped.glyph_positions())
            .map(|(info, place)| {
                let start = info.cluster as usize;
                let end = starts.get(starts.partition_point(|s| *s <= start)).copied().unwrap_or(text.len());
                Glyph {
                    id: info.glyph_id,
                    advance: em(place.x_advance),
                    right: em(place.x_offset),
                    up: em(place.y_offset),
                    shows: start..end,
                }
            })
            .collect();
        let seen = run.glyphs.iter().rposition(|g| !text[g.shows.clone()].trim().is_empty()).map_or(0, |i| i + 1);
        run.width_pt = size_pt * run.glyphs[..seen].iter().map(|g| g.advance).sum::<f32>();
        run
    }
}

/// The text with spaces that no line breaks at between a number and its unit, its ± or its fraction, for who breaks lines
/// without knowing of them.
///
/// ```
/// use springwright::report::write::page::kept_together;
/// assert_eq!(kept_together("1.24 ± 0.03 Hz, 2 1/8 in high"), "1.24\u{a0}±\u{a0}0.03\u{a0}Hz, 2\u{a0}1/8\u{a0}in high");
/// ```
pub fn kept_together(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut may_break = breaks(text).peekable();
    for (at, c) in text.char_indices() {
        let next = at + c.len_utf8();
        while may_break.next_if(|place| *place < next).is_some() {}
        out.push(if c == ' ' && may_break.peek() != Some(&next) { '\u{A0}' } else { c });
    }
    out
}

/// Where a line may be broken (Unicode Standard Annex 14), but not between a number and its unit, its ± or its fraction.
fn breaks(text: &str) -> impl Iterator<Item = usize> {
    let is_bound = |at: usize| {
        let (before, after) = (text[..at].trim_end(), &text[at..]);
        let next = after.split(' ').next().unwrap_or_default();
        let unit = next.trim_end_matches([',', '.', ';', ':', ')']);
        let is_unit = ["km", "mi"].contains(&unit) || units::table::UNITS.iter().any(|u| u.symbol == unit);
        let is_fraction = next.starts_with(|c: char| c.is_ascii_digit()) && next.contains('/');
        let in_number = before.ends_with(|c: char| c.is_ascii_digit());
        before.ends_with('±') || (in_number && at > before.len() && (next.starts_with('±') || is_unit || is_fraction))
            // "N/mm" is one word, though a line may be broken behind a stroke.
            || (before.ends_with('/') && at == before.len() && before.len() > 1)
    };
    let places = unicode_linebreak::linebreaks(text).map(|(at, _)| at);
    places.filter(move |at| *at == text.len() || !is_bound(*at))
}

/// Pieces of one direction each, from left to right, and whether they run to the left. The sheet runs to the right.
fn directions(text: &str) -> Vec<(Range<usize>, bool)> {
    if text.is_ascii() {
        return vec![(0..text.len(), false)];
    }
    let info = BidiInfo::new(text, Some(Level::ltr()));
    let mut pieces = Vec::new();
    for paragraph in &info.paragraphs {
        let (levels, runs) = info.visual_runs(paragraph, paragraph.range.clone());
        pieces.extend(runs.into_iter().map(|r| (r.clone(), levels[r.start].is_rtl())));
    }
    pieces
}
