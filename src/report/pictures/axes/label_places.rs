//! Where labels stand in a picture: next to what they name, and touching neither lines nor each other.

/// Right and down, in any unit of length.
pub type Point = [f32; 2];

/// An upright rectangle, by its upper left and lower right corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Block {
    /// Upper left.
    pub min: Point,
    /// Lower right.
    pub max: Point,
}

impl Block {
    /// A rectangle of this size below and to the right of its corner.
    fn of_size(min: Point, size: Point) -> Block {
        Block { min, max: [min[0] + size[0], min[1] + size[1]] }
    }

    /// A square around a point.
    pub fn around([x, y]: Point, half: f32) -> Block {
        Block { min: [x - half, y - half], max: [x + half, y + half] }
    }

    /// From the edge of words to what they name, of half this size, where they stand further off than `near`.
    pub fn lead(&self, to: Point, half: f32, near: f32) -> Option<[Point; 2]> {
        let edge = [0, 1].map(|i| to[i].clamp(self.min[i], self.max[i]));
        let way = [0, 1].map(|i| to[i] - edge[i]);
        let far = way[0].hypot(way[1]);
        (far > near).then(|| [edge, [0, 1].map(|i| to[i] - half * way[i] / far)])
    }

    fn grown(self, by: f32) -> Block {
        Block { min: self.min.map(|v| v - by), max: self.max.map(|v| v + by) }
    }

    fn overlaps(&self, other: &Block) -> bool {
        (0..2).all(|i| self.min[i] < other.max[i] && other.min[i] < self.max[i])
    }

    fn touches(&self, point: Point) -> bool {
        (0..2).all(|i| self.min[i] <= point[i] && point[i] <= self.max[i])
    }

    fn holds(&self, other: &Block) -> bool {
        (0..2).all(|i| self.min[i] <= other.min[i] && other.max[i] <= self.max[i])
    }

    /// A straight line goes through it.
    pub fn is_crossed_by(&self, [from, to]: [Point; 2]) -> bool {
        // What lies inside both pairs of sides, as shares of the line's way (Liang and Barsky).
        let (mut enters, mut leaves) = (0.0_f32, 1.0_f32);
        for i in 0..2 {
            let way = to[i] - from[i];
            if way == 0.0 {
                if from[i] <= self.min[i] || from[i] >= self.max[i] {
                    return false;
                }
                continue;
            }
            let (a, b) = ((self.min[i] - from[i]) / way, (self.max[i] - from[i]) / way);
            (enters, leaves) = (enters.max(a.min(b)), leaves.min(a.max(b)));
        }
        enters < leaves
    }
}

/// What is drawn in a picture, and the labels that have their places.
#[derive(Debug, Clone)]
pub struct Places {
    inside: Block,
    gap: f32,
    lines: Vec<[Point; 2]>,
    blocks: Vec<Block>,
    /// How much the labels touch that took the least bad place.
    pub touched: usize,
}

impl Places {
    /// Labels stand inside this, and keep so far from all else.
    pub fn new(inside: Block, gap: f32) -> Self {
        Places { inside, gap, lines: Vec::new(), blocks: Vec::new(), touched: 0 }
    }

    /// No label touches this line.
    pub fn line(&mut self, through: &[Point]) {
        self.lines.extend(through.windows(2).map(|ends| [ends[0], ends[1]]));
    }

    /// No label overlaps this.
    pub fn block(&mut self, block: Block) {
        self.blocks.push(block);
    }

    /// Takes the first of these upper left corners at which a label of this size touches nothing; where there is none, the
    /// one at which it touches least.
    pub fn take(&mut self, size: Point, corners: impl IntoIterator<Item = Point>) -> Block {
        self.take_led(size, corners, |_| None)
    }

    /// The same of a label from which a line may lead to what it names: that line goes through no other words either.
    pub fn take_led(
        &mut self,
        size: Point,
        corners: impl IntoIterator<Item = Point>,
        lead: impl Fn(&Block) -> Option<[Point; 2]>,
    ) -> Block {
        let mut best: Option<(usize, Block)> = None;
        for corner in corners {
            let block = Block::of_size(corner, size);
            let touched = self.touched(&block, lead(&block), best.map_or(usize::MAX, |b| b.0));
            if best.is_none_or(|(least, _)| touched < least) {
                best = Some((touched, block));
            }
            if touched == 0 {
                break;
            }
        }
        let (touched, block) = match best {
            Some((0, block)) => (0, block),
            Some((touched, block)) => self.nearest_free(block, size, touched, lead),
            None => (0, Block::of_size(self.inside.min, size)),
        };
        self.touched += touched;
        self.blocks.push(block);
        block
    }

    /// Where no wanted place is free: the nearest one of the whole picture that is, or else the least bad.
    fn nearest_free(
        &self,
        wanted: Block,
        size: Point,
        touched: usize,
        lead: impl Fn(&Block) -> Option<[Point; 2]>,
    ) -> (usize, Block) {
        const STEPS: usize = 28;
        let room = [0, 1].map(|i| (self.inside.max[i] - self.inside.min[i] - size[i]).max(0.0));
        let place = |i: usize, n: usize| self.inside.min[i] + room[i] * n as f32 / (STEPS - 1) as f32;
        let off = |at: &Point| (at[0] - wanted.min[0]).hypot(at[1] - wanted.min[1]);
        let mut corners: Vec<Point> = (0..STEPS * STEPS).map(|n| [place(0, n % STEPS), place(1, n / STEPS)]).collect();
        corners.sort_by(|a, b| off(a).total_cmp(&off(b)));
        let mut best = (touched, wanted);
        for block in corners.into_iter().map(|corner| Block::of_size(corner, size)) {
            let touched = self.touched(&block, lead(&block), best.0);
            if touched < best.0 {
                best = (touched, block);
            }
            if touched == 0 {
                break;
            }
        }
        best
    }

    /// How much a label with its line would touch; counting stops at `enough`.
    fn touched(&self, label: &Block, lead: Option<[Point; 2]>, enough: usize) -> usize {
        // Nothing is as bad as being cut off, then standing on other words.
        let outside = if self.inside.holds(label) { 0 } else { 10_000 };
        let label = label.grown(self.gap);
        // A line ends at its own mark.
        let is_led_through = |b: &Block| lead.is_some_and(|ends| b.is_crossed_by(ends) && !b.touches(ends[1]));
        let on_words = 100 * self.blocks.iter().filter(|b| b.overlaps(&label) || is_led_through(b)).count();
        if outside + on_words >= enough {
            return outside + on_words;
        }
        outside + on_words + self.lines.iter().filter(|line| label.is_crossed_by(**line)).count()
    }
}

/// On which side of a mark its words stand first: right or left, above or below.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Corner {
    /// Right of it.
    pub is_right: bool,
    /// Above it.
    pub is_above: bool,
}

impl Corner {
    /// Left, above.
    pub const LEFT_ABOVE: Corner = Corner { is_right: false, is_above: true };
    /// Left, below.
    pub const LEFT_BELOW: Corner = Corner { is_right: false, is_above: false };
    /// Right, below.
    pub const RIGHT_BELOW: Corner = Corner { is_right: true, is_above: false };
    /// Right, above.
    pub const RIGHT_ABOVE: Corner = Corner { is_right: true, is_above: true };
}

/// Corners for the words of a mark: where they are wanted first, then on its other sides, then farther off.
pub fn around([x, y]: Point, off: f32, size: Point, first: Corner) -> Vec<Point> {
    let across = |is_right: bool, off: f32| if is_right { x + off } else { x - off - size[0] };
    let up = |is_above: bool, off: f32| if is_above { y - off - size[1] } else { y + off };
    let (right, above) = (first.is_right, first.is_above);
    let mut corners = Vec::new();
    for far in [1.0, 1.6, 2.4, 3.6, 5.0, 7.0, 10.0, 14.0] {
        let (aside, over) = (off * far, 0.25 * off * far);
        for (is_right, is_above) in [(right, above), (right, !above), (!right, above), (!right, !above)] {
            corners.push([across(is_right, aside), up(is_above, over)]);
        }
        for is_above in [above, !above] {
            corners.push([x - 0.5 * size[0], up(is_above, off * far)]);
        }
        for is_right in [right, !right] {
            corners.push([across(is_right, off * far), y - 0.5 * size[1]]);
        }
    }
    corners
}

/// Corners for the words of a line: next to it at this share of its way, above or below first, then along it.
pub fn along(through: &[Point], share: f32, off: f32, size: Point, is_above: bool) -> Vec<Point> {
    const STEPS: usize = 24;
    let mut shares: Vec<f32> = (0..=STEPS).map(|i| i as f32 / STEPS as f32).collect();
    shares.push(share);
    shares.sort_by(|a, b| (a - share).abs().total_cmp(&(b - share).abs()));
    let mut corners = Vec::new();
    for far in [1.0, 2.5, 5.0] {
        for at in shares.iter().filter_map(|s| point_at(through, *s)) {
            let off = off * far;
            let over = [at[1] - off - size[1], at[1] + off];
            let beside = [at[0] - off - size[0], at[0] + off, at[0] - 0.5 * size[0]];
            let over = if is_above { over } else { [over[1], over[0]] };
            // Above a rising line there is room at the left, below it at the right.
            let order = if is_above { [0, 2, 1] } else { [1, 2, 0] };
            corners.extend(over.into_iter().flat_map(|y| order.map(|i| [beside[i], y])));
        }
    }
    corners
}

/// The point at a share of a line's points.
fn point_at(through: &[Point], share: f32) -> Option<Point> {
    let last = through.len().checked_sub(1)?;
    let place = share.clamp(0.0, 1.0) * last as f32;
    let (low, part) = (place.floor() as usize, place.fract());
    let (from, to) = (through[low], through[(low + 1).min(last)]);
    Some([from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])])
}
