//! What the customer sees of one axle: four rows in up to three columns, each value measured or estimated.

use crate::base::units::{Frequency, Length, Mass, Quantity};
use crate::job::{MeasuredAt, SpringKind};
use crate::report::phrases;
use crate::report::sheets::both_sides;
use crate::report::sheets::judged::Verdict;
use crate::report::sheets::page::Page;
use crate::solve::answer::{AxleAnswer, Standing, State};

/// One state of an axle as it is shown, in words, table and picture alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shown {
    pub state: State,
    pub weight: Option<(Mass, bool)>,
    /// Change from before, + up; whether it was measured.
    pub height: Option<(Length, bool)>,
    pub frequency: Option<Frequency>,
    /// Wheel travel to the bump stop; negative: already squeezed. Whether it was measured.
    pub room: Option<(Length, bool)>,
    /// The old springs, on spacers.
    pub on_spacers: bool,
    /// The same, with a leaf added to each.
    pub with_leaf: bool,
    /// The old springs, which stay as they are.
    pub stays: bool,
    pub kind: SpringKind,
}

impl Shown {
    /// Whose mark it has: springs that stay are the old ones.
    pub fn drawn(&self) -> State {
        if self.stays { State::OldSprings } else { self.state }
    }

    /// The keys of its words, in the table and in the picture, among all that are shown of the axle.
    pub fn keys(&self, shown: &[Shown]) -> [&'static str; 2] {
        match self.state {
            State::Before => ["column.before", "picture.before"],
            _ if shown.len() == 2 => ["column.now", "picture.now"],
            State::OldSprings => ["column.old_springs", "picture.old"],
            State::NewSprings if !self.on_spacers => ["column.new_springs", "picture.new"],
            State::NewSprings if self.with_leaf => ["column.added_leaf", "picture.added_leaf"],
            State::NewSprings if self.kind == SpringKind::Leaf => ["column.on_blocks", "picture.on_blocks"],
            State::NewSprings if self.kind == SpringKind::TorsionBar => ["column.indexed", "picture.indexed"],
            State::NewSprings => ["column.on_spacers", "picture.on_spacers"],
        }
    }
}

/// The states that are shown of an axle: the new springs only where they are recommended, or are the old ones.
pub(super) fn states(page: &Page<'_>, axle: &AxleAnswer) -> Vec<Shown> {
    let states: &[State] = match page.part(axle).map(|_| page.verdict(axle)) {
        Some(Verdict::New | Verdict::OnSpacers) => &[State::Before, State::OldSprings, State::NewSprings],
        // What stays may have been weighed again, or have got a bag.
        Some(Verdict::Stays) => &[State::Before, State::NewSprings],
        Some(Verdict::Fine | Verdict::Unanswered | Verdict::MeasureFirst) | None => &[State::Before, State::OldSprings],
    };
    states.iter().map(|state| shown(page, axle, *state)).collect()
}

fn shown(page: &Page<'_>, axle: &AxleAnswer, state: State) -> Shown {
    let standing = axle.standing.of(state).as_ref();
    let when = usize::from(state != State::Before);
    let key = |of: &str| format!("{}.{of}", state.key());
    let height: Option<Length> = page.value(axle, &key("height_change"));
    let room: Option<Length> = page.value(axle, &key("stop_room"));
    // What was found after fitting is of the new springs.
    let is_new = state == State::NewSprings;
    let weighed = page.answer.reweigh.axles[axle.side].found.filter(|_| is_new);
    let found = height_found(page, axle).zip(height).filter(|_| is_new);
    let room_found = found.zip(room).map(|((found, height), room)| (room + (found - height), false));
    Shown {
        state,
        weight: weighed.map(|m| (m, true)).or_else(|| page.axle_weight(when, axle.side)),
        height: found.map(|(found, _)| (found, true)).or(height.map(|h| (h, false))),
        frequency: page.value(axle, &key("frequency")),
        room: room_found.or_else(|| Some((room?, room_was_measured(page, axle, state, standing)))),
        on_spacers: is_new && axle.is_set_again(),
        with_leaf: both_sides::added_leaf_said(page, axle).is_some(),
        stays: is_new && page.verdict(axle) == Verdict::Stays,
        kind: axle.kind,
    }
}

/// Height change from before to after fitting, both by tape, when the same load was on the scales both times.
fn height_found(page: &Page<'_>, axle: &AxleAnswer) -> Option<Length> {
    let before = axle.arch.before?;
    let same = axle.masses.stood == axle.masses.sprung;
    Some(page.answer.reweigh.arch_found(axle.side)? - before).filter(|_| same)
}

/// The gap was read at the height at which the axle is in this state.
fn room_was_measured(page: &Page<'_>, axle: &AxleAnswer, state: State, standing: Option<&Standing>) -> bool {
    let before = page.job.measured_at == MeasuredAt::Before && axle.standing.before.is_some();
    let reference = if before { State::Before } else { State::OldSprings };
    let there = standing.is_some_and(|s| s.travel.si().abs() < 5e-4);
    there && state == reference && page.reading(&page.job.axle(axle.side).travel.stop_gap)
}

/// The table of one axle.
pub(super) fn four_rows(page: &Page<'_>, axle: &AxleAnswer) -> (Vec<String>, Vec<Vec<String>>) {
    let states = states(page, axle);
    let mut head = vec![phrases::upper_first(&page.axle_words(axle.side))];
    head.extend(states.iter().map(|s| page.plain(super::ahead(page, s.keys(&states)[0]))));
    let row = |key: &str, cell: &dyn Fn(&Shown) -> Option<String>| {
        let unknown = || page.plain("unknown");
        let cells = states.iter().map(|s| cell(s).unwrap_or_else(unknown));
        std::iter::once(page.plain(key)).chain(cells).collect::<Vec<_>>()
    };
    let rows = vec![
        row("row.weight", &|s| s.weight.map(|(m, measured)| page.tagged(&page.qty(m), measured))),
        row("row.height", &|s| height_cell(page, s)),
        row("row.bounces", &|s| s.frequency.map(|f| page.tagged(&page.two_places(f.si()), false))),
        row("row.room", &|s| room_cell(page, s)),
    ];
    (head, rows)
}

fn height_cell(page: &Page<'_>, shown: &Shown) -> Option<String> {
    let (rise, measured) = shown.height?;
    match shown.state {
        State::Before => Some(page.plain("height.before")),
        _ => Some(page.tagged(&page.short_height(rise), measured)),
    }
}

fn room_cell(page: &Page<'_>, shown: &Shown) -> Option<String> {
    let (room, measured) = shown.room?;
    let text = if room.si() <= 0.0 { page.plain("room.none") } else { page.qty(room) };
    Some(page.tagged(&text, measured))
}
