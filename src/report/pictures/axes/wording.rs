//! The words in a picture with axes, each with its place: next to what it names, clear of lines, marks and each other.

use crate::base::language::tr;
use crate::report::pictures::label_places::{Block, Corner, Places, Point, along, around};
use crate::report::pictures::picture::{Line, Mark, Picture};
use crate::solve::answer::State;

/// Words as many half marks away from their mark need a line that leads to it.
const FAR: f32 = 2.2;
/// Points of an edge along which words may stand.
const ALONG: usize = 24;

/// The orders in which the words of three marks take their places.
const ORDERS: [[usize; 3]; 6] = [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]];

/// What a picture is drawn on.
pub trait Surface {
    /// Where a point in SI lies.
    fn at(&self, point: [f64; 2]) -> Point;
    /// How large words are.
    fn size(&self, words: &str) -> Point;
    /// The part that axes enclose.
    fn frame(&self) -> Block;
    /// How large the rest is.
    fn sizes(&self) -> Sizes;
    /// Whether what lies below a limit covers what is behind it.
    fn covers(&self) -> bool;
}

/// Distances and sizes on a surface, in its unit of length.
#[derive(Debug, Clone, Copy)]
pub struct Sizes {
    /// Between words and what they do not touch.
    pub gap: f32,
    /// Between a line and its words.
    pub off: f32,
    /// Half the size of a mark.
    pub mark: f32,
    /// Half the size of a tick or a dot.
    pub small: f32,
}

/// Words and where they stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// The words.
    pub words: String,
    /// The state in whose colour they are; `None`: in that of text.
    pub state: Option<State>,
    /// Their place.
    pub at: Block,
    /// From their edge to the mark they name, where they stand far from it: a thin line leads there.
    pub leads: Option<[Point; 2]>,
}

/// Places all words of a picture. What has one place comes first, then what has many.
pub fn words(picture: &Picture, surface: &impl Surface) -> Vec<Placed> {
    let frame = surface.frame();
    let sizes = surface.sizes();
    let inside = Block { min: frame.min.map(|v| v + sizes.gap), max: frame.max.map(|v| v - sizes.gap) };
    let places = Places::new(inside, sizes.gap);
    let mut wording = Wording { picture, surface, frame, sizes, places, placed: Vec::new() };
    wording.obstacles();
    wording.of_marks();
    wording.of_lines();
    wording.of_ranges();
    wording.placed
}

/// How high the row of ticks is, in SI: at the foot of the lines.
pub fn foot_of_ticks(picture: &Picture) -> f64 {
    picture.lines.iter().flat_map(|l| &l.points).map(|p| p[1]).fold(f64::INFINITY, f64::min)
}

struct Wording<'a, S> {
    picture: &'a Picture,
    surface: &'a S,
    frame: Block,
    sizes: Sizes,
    places: Places,
    placed: Vec<Placed>,
}

impl<S: Surface> Wording<'_, S> {
    fn through(&self, line: &Line) -> Vec<Point> {
        line.points.iter().map(|p| self.surface.at(*p)).collect()
    }

    /// A straight line across the frame at this height, SI.
    fn level(&self, y: f64) -> Vec<Point> {
        let y = self.surface.at([0.0, y])[1];
        many([self.frame.min[0], y], [self.frame.max[0], y])
    }

    /// The same upright.
    fn upright(&self, x: f64) -> Vec<Point> {
        let x = self.surface.at([x, 0.0])[0];
        many([x, self.frame.min[1]], [x, self.frame.max[1]])
    }

    /// An edge of a wanted range of x, as far as it can be seen.
    fn edge_across(&self, x: f64) -> Vec<Point> {
        let covered_from = self.picture.below.as_ref().filter(|_| self.surface.covers());
        let covered_from = covered_from.map_or(f32::INFINITY, |(at, _)| self.surface.at([x, *at])[1]);
        self.upright(x).into_iter().filter(|point| point[1] <= covered_from).collect()
    }

    /// The lower and the upper edge of what changes along x.
    fn shade_edges(&self) -> Option<[Vec<Point>; 2]> {
        let shade = self.picture.shade.as_ref()?;
        let edge = |pick: fn(f64, f64) -> f64| {
            shade.points.iter().map(|p| self.surface.at([p[0], pick(p[1], p[2])])).collect()
        };
        Some([edge(f64::min), edge(f64::max)])
    }

    /// All that words must not touch.
    fn obstacles(&mut self) {
        let picture = self.picture;
        let mut lines: Vec<Vec<Point>> = picture.lines.iter().map(|line| self.through(line)).collect();
        lines.extend(picture.uprights.iter().map(|(x, _)| self.upright(*x)));
        lines.extend(picture.wanted.iter().flat_map(|(range, _)| *range).map(|y| self.level(y)));
        lines.extend(picture.wanted_across.iter().flat_map(|(range, _)| *range).map(|x| self.edge_across(x)));
        lines.extend(picture.below.iter().map(|(y, _)| self.level(*y)));
        lines.extend(self.shade_edges().into_iter().flatten());
        let of_plans = picture.plans.iter().flat_map(|plan| &plan.lines);
        lines.extend(of_plans.map(|line| line.points.iter().map(|p| self.surface.at(*p)).collect()));
        lines.extend(picture.arrows.iter().map(|ends| ends.map(|p| self.surface.at(p)).to_vec()));
        lines.iter().for_each(|line| self.places.line(line));
        let Sizes { mark, small, .. } = self.sizes;
        let foot = foot_of_ticks(picture);
        let marks = picture.marks.iter().map(|m| (m.at, mark));
        let dots = picture.dots.iter().map(|d| (d.at, if d.label.is_empty() { small } else { mark }));
        let ticks = picture.ticks.iter().map(|t| ([*t, foot], small));
        let plans = picture.plans.iter().map(|plan| (plan.at, mark));
        for (at, half) in marks.chain(dots).chain(ticks).chain(plans) {
            self.places.block(Block::around(self.surface.at(at), half));
        }
    }

    fn put(&mut self, words: &str, state: Option<State>, corners: impl FnOnce(Point) -> Vec<Point>) {
        let size = self.surface.size(words);
        let at = self.places.take(size, corners(size));
        self.placed.push(Placed { words: words.to_owned(), state, at, leads: None });
    }

    /// Puts the words of a mark around it; a line leads to it where they are far off.
    fn put_around(&mut self, mark: Point, words: &str, state: Option<State>, first: Corner) {
        let (half, size) = (self.sizes.mark, self.surface.size(words));
        let lead = |at: &Block| at.lead(mark, half, FAR * half);
        let at = self.places.take_led(size, around(mark, half + self.sizes.gap, size, first), lead);
        let leads = lead(&at);
        leads.iter().for_each(|ends| self.places.line(ends));
        self.placed.push(Placed { words: words.to_owned(), state, at, leads });
    }

    /// The words put last name what lies between these: a line leads into it from outside.
    fn lead_into(&mut self, [left, right]: [f32; 2]) {
        let inside = (0.5 * (right - left)).min(4.0 * self.sizes.gap);
        if let Some(last) = self.placed.last_mut().filter(|last| last.at.max[0] <= left || last.at.min[0] >= right) {
            let [x, y] = [0, 1].map(|i| 0.5 * (last.at.min[i] + last.at.max[i]));
            last.leads = last.at.lead([x.clamp(left + inside, right - inside), y], 0.0, 0.0);
        }
    }

    /// The words of the marks take their places one after the other: in the order in which they touch least.
    fn words_of_marks(&mut self) {
        let marks: Vec<&Mark> = self.picture.marks.iter().filter(|mark| !mark.label.is_empty()).collect();
        let free = self.places.clone();
        let mut best: Option<(Places, Vec<Placed>)> = None;
        for order in ORDERS {
            self.places = free.clone();
            self.placed.clear();
            for mark in order.into_iter().chain(ORDERS[0].len()..marks.len()).filter_map(|i| marks.get(i)) {
                self.put_around(self.surface.at(mark.at), &mark.label, Some(mark.state), mark.words);
            }
            let touched = self.places.touched;
            if best.as_ref().is_none_or(|(least, _)| touched < least.touched) {
                best = Some((self.places.clone(), self.placed.clone()));
            }
            if touched == 0 {
                break;
            }
        }
        if let Some((places, placed)) = best {
            (self.places, self.placed) = (places, placed);
        }
    }

    fn of_marks(&mut self) {
        let (picture, off) = (self.picture, self.sizes.mark + self.sizes.gap);
        self.words_of_marks();
        for plan in &picture.plans {
            let at = self.surface.at(plan.at);
            let is_right = at[0] > 0.5 * (self.frame.min[0] + self.frame.max[0]);
            let first = Corner { is_right, is_above: true };
            self.put_around(at, &plan.label, None, first);
        }
        for dot in picture.dots.iter().filter(|d| !d.label.is_empty()) {
            let at = self.surface.at(dot.at);
            self.put(&dot.label, None, |size| around(at, off, size, Corner::RIGHT_ABOVE));
        }
        for (x, said) in &picture.uprights {
            let (line, off) = (self.upright(*x), self.sizes.off);
            self.put(said, None, |size| along(&line, 0.97, off, size, true));
        }
    }

    /// The highest line has its words above it and to the left, the others below and to the right: where lines rise, there
    /// is room.
    fn of_lines(&mut self) {
        let end_of = |line: &Line| line.points.last().map_or(f64::NEG_INFINITY, |p| p[1]);
        let picture = self.picture;
        let highest = picture.lines.iter().map(end_of).fold(f64::NEG_INFINITY, f64::max);
        for line in picture.lines.iter().filter(|line| !line.label.is_empty()) {
            let (share, is_above) = match (line.label_at, line.state) {
                (Some(at), _) => (at as f32, true),
                (None, _) if end_of(line) >= highest => (0.75, true),
                (None, Some(State::OldSprings)) => (0.2, false),
                (None, _) => (0.78, false),
            };
            let (through, off) = (self.through(line), self.sizes.off);
            self.put(&line.label, line.state, |size| along(&through, share, off, size, is_above));
        }
    }

    /// Words of ranges, limits and ticks are in or next to them.
    fn of_ranges(&mut self) {
        let (picture, Sizes { gap, off, small, .. }) = (self.picture, self.sizes);
        if let Some((at, said)) = &picture.below {
            let edge = self.level(*at);
            let (left, right) = (self.frame.min[0] + off, self.frame.max[0] - off);
            let bottom = self.frame.max[1] - 1.01 * gap;
            self.put(said, None, |size| {
                let step = (right - left - size[0]).max(0.0) / 12.0;
                let inside = (0..=12_u8).map(|i| [left + f32::from(i) * step, bottom - size[1]]);
                inside.chain(along(&edge, 0.0, off, size, false)).collect()
            });
            // Nothing else is named there.
            let step = 0.5 * self.sizes.off.max(gap);
            let mut y = edge[0][1] + step;
            while y < self.frame.max[1] {
                self.places.line(&many([self.frame.min[0], y], [self.frame.max[0], y]));
                y += step;
            }
        }
        if let Some(([low, high], said)) = &picture.wanted {
            let edges = [self.level(*low), self.level(*high)];
            self.put(said, None, |size| beside_edges(&edges, 1.0, off, size));
        }
        if let Some(([low, high], said)) = &picture.wanted_across {
            let edges = [self.upright(*low), self.upright(*high)];
            let ([left, right], top) = ([edges[0][0][0], edges[1][0][0]], self.frame.min[1] + 2.0 * gap);
            self.put(said, None, |size| {
                // Inside the range wherever it has room: in the middle, else at one of its edges.
                let across = [0.5 * (left + right - size[0]), left + 2.0 * gap, right - size[0] - 2.0 * gap];
                let is_wide = right - left > size[0] + 4.0 * gap;
                let inside = across.into_iter().take(if is_wide { 3 } else { 1 });
                let rows = inside.flat_map(|x| (0..10_u8).map(move |i| [x, top + f32::from(i) * size[1]]));
                rows.chain(beside_edges(&edges, 0.0, off, size)).collect()
            });
            self.lead_into([left, right]);
        }
        if let Some([low, high]) = self.shade_edges() {
            let said = picture.shade.as_ref().map_or("", |s| &s.label);
            self.put(said, None, |size| {
                let mut corners = along(&low, 0.33, off, size, false);
                corners.extend(along(&high, 0.33, off, size, true));
                corners
            });
        }
        if let (Some(first), Some(last)) = (picture.ticks.first(), picture.ticks.last()) {
            let foot = foot_of_ticks(picture);
            let row = many(self.surface.at([*first, foot]), self.surface.at([*last, foot]));
            self.put(tr("stock rates"), None, |size| along(&row, 1.0, small + 2.0 * gap, size, true));
        }
    }
}

/// Points from one to the other.
fn many(from: Point, to: Point) -> Vec<Point> {
    let share = |i: usize| i as f32 / (ALONG - 1) as f32;
    (0..ALONG).map(|i| [0, 1].map(|k| from[k] + share(i) * (to[k] - from[k]))).collect()
}

/// Corners next to the two edges of a range: inside it first.
fn beside_edges([low, high]: &[Vec<Point>; 2], share: f32, off: f32, size: Point) -> Vec<Point> {
    let mut corners = along(low, share, off, size, true);
    corners.extend(along(high, share, off, size, false));
    corners
}
