//! The data of each picture: what is drawn, in SI, with the words that belong to it.
//!
//! A picture carries one idea; its title states the finding. Screens and sheets
//! draw it with whatever they have.

use crate::base::language::tr;
use crate::base::units::{Dim, Length, Mass, Quantity, UnitChoice, display};
use crate::job::Side;
pub use crate::report::pictures::drawing::PlanMark;
use crate::report::pictures::label_places::Corner;
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, Lead, Sizing, SpringToBuy, Standing, State};
use crate::trade::spring::Spring;

/// One axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// What it shows.
    pub name: &'static str,
    /// Decides the unit.
    pub dim: Dim,
}

/// Of nothing: no name, no unit.
impl Default for Axis {
    fn default() -> Self {
        Axis { name: "", dim: Dim::Ratio }
    }
}

/// A line through points (x, y), both in SI.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Whose line it is; decides stroke and colour. `None`: a line of its own, in the colour of text.
    pub state: Option<State>,
    /// what is next to it.
    pub label: String,
    /// The points.
    pub points: Vec<[f64; 2]>,
    /// Drawn broken, whosever line it is.
    pub broken: bool,
    /// Where along it the label is, 0 to 1, when it has a place of its own.
    pub label_at: Option<f64>,
}

impl Line {
    /// Not broken, its label where there is room.
    pub fn new(state: Option<State>, label: impl Into<String>, points: Vec<[f64; 2]>) -> Self {
        Line { state, label: label.into(), points, broken: false, label_at: None }
    }
}

/// A measured point.
#[derive(Debug, Clone, PartialEq)]
pub struct Dot {
    /// Where, in SI.
    pub at: [f64; 2],
    /// what is next to it; blank for nothing.
    pub label: String,
}

/// A wanted range that changes along x.
#[derive(Debug, Clone, PartialEq)]
pub struct Shade {
    /// x, and the two bounds of y there, all in SI; x rises.
    pub points: Vec<[f64; 3]>,
    /// Its words.
    pub label: String,
}

/// A reading that matters.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Whose reading it is; decides shape and colour.
    pub state: State,
    /// what is next to it.
    pub label: String,
    /// Where, in SI.
    pub at: [f64; 2],
    /// On which side its words stand, so that they keep clear of lines and other marks.
    pub words: Corner,
}

/// A thin line through points (x, y), both in SI.
#[derive(Debug, Clone, PartialEq)]
pub struct ThinLine {
    /// The points.
    pub points: Vec<[f64; 2]>,
    /// Drawn broken.
    pub broken: bool,
}

/// A plan that is not chosen, in a picture of the chosen one.
#[derive(Debug, Clone, PartialEq)]
pub struct OfPlan {
    /// Its mark.
    pub mark: PlanMark,
    /// What it is called.
    pub label: String,
    /// Where its mark is, in SI.
    pub at: [f64; 2],
    /// Its lines.
    pub lines: Vec<ThinLine>,
}

/// A picture with two axes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Picture {
    /// The finding it shows.
    pub title: String,
    /// Along.
    pub x: Axis,
    /// Up.
    pub y: Axis,
    /// Lines.
    pub lines: Vec<Line>,
    /// Marked readings.
    pub marks: Vec<Mark>,
    /// Measured points.
    pub dots: Vec<Dot>,
    /// A wanted range of y, with its words.
    pub wanted: Option<([f64; 2], String)>,
    /// A wanted range of y at each x.
    pub shade: Option<Shade>,
    /// Upright lines at x, with their words.
    pub uprights: Vec<(f64, String)>,
    /// Small ticks at x: stock rates.
    pub ticks: Vec<f64>,
    /// A wanted range of x, with its words.
    pub wanted_across: Option<([f64; 2], String)>,
    /// From where to where the states lead, both in SI.
    pub arrows: Vec<[[f64; 2]; 2]>,
    /// Below this y nothing may stand, with its words.
    pub below: Option<(f64, String)>,
    /// Plans that are not chosen.
    pub plans: Vec<OfPlan>,
}

impl Picture {
    /// Nothing but its axes.
    pub fn new(title: impl Into<String>, x: (&'static str, Dim), y: (&'static str, Dim)) -> Self {
        let [x, y] = [x, y].map(|(name, dim)| Axis { name, dim });
        Picture { title: title.into(), x, y, ..Picture::default() }
    }

    /// Nothing but its axes: this over the wheel travel.
    pub fn over_travel(title: impl Into<String>, name: &'static str, dim: Dim) -> Self {
        Picture::new(title, (tr("wheel travel from the reference height, + in bump"), Dim::Length), (name, dim))
    }
}

const POINTS: usize = 48;

/// "Just put spacers in": load against wheel travel. `None` until the old spring is known.
pub fn load_travel(axle: &AxleAnswer, units: &UnitChoice) -> Option<Picture> {
    let (old, new) = (axle.standing.old.as_ref(), axle.standing.new.as_ref());
    old.or(new)?;
    let droop_m = axle.travel.droop.map_or(0.08, Quantity::si);
    let bump_m = axle.travel.metal.or(axle.travel.stop).map_or(0.08, Quantity::si);
    let low_m = -droop_m;
    let mut lines: Vec<Line> =
        old.map(|old| line(State::OldSprings, tr("old spring"), old, low_m, bump_m)).into_iter().collect();
    let mut marks = Vec::new();
    for state in State::ALL {
        let Some(s) = axle.standing.of(state) else { continue };
        // What presses on it, a load on the hitch included.
        let at = [s.travel.si(), s.curve.force_n(s.travel.si())];
        let words = match state {
            State::Before => Corner::LEFT_BELOW,
            State::OldSprings => Corner::RIGHT_BELOW,
            State::NewSprings => Corner::LEFT_ABOVE,
        };
        marks.push(Mark { state, label: state.words().to_string(), at, words });
    }
    if let Some(new) =
        axle.standing.new.as_ref().filter(|_| axle.is_set_again() || axle.sizing.is_some() && !axle.keeps())
    {
        let words = if axle.is_set_again() { axle.short(State::NewSprings).said() } else { tr("new spring") };
        lines.push(line(State::NewSprings, words, new, low_m, bump_m));
    }
    let mut uprights = Vec::new();
    if let Some(stop) = axle.travel.stop {
        uprights.push((stop.si(), tr("bump stop").to_owned()));
    }
    if let Some(travel) = axle.old_spring.crossover.and_then(|c| c.travel).filter(|z| z.si() > low_m && z.si() < bump_m)
    {
        uprights.push((travel.si(), tr("old helper spring solid").to_owned()));
    }
    Some(Picture {
        lines,
        marks,
        uprights,
        ..Picture::over_travel(load_title(axle, units), tr("load at one wheel"), Dim::Force)
    })
}

fn line(state: State, label: &str, of: &Standing, low_m: f64, high_m: f64) -> Line {
    let step_m = (high_m - low_m) / (POINTS - 1) as f64;
    let points = (0..POINTS).map(|i| low_m + step_m * i as f64).map(|z| [z, of.curve.force_n(z)]).collect();
    Line::new(Some(state), label, points)
}

fn load_title(axle: &AxleAnswer, units: &UnitChoice) -> String {
    let room = |s: &Option<Standing>| s.as_ref().and_then(|s| s.stop_room);
    let side = axle.side.word();
    let said = |l: Length| display::rounded(l, units);
    match (room(&axle.standing.before), room(&axle.standing.old)) {
        (Some(before), Some(old)) if old.si() < 0.0 => {
            say!(
                "{side}: on the old springs the bump stop is already in contact; before, the gap was {before}",
                side,
                before = said(before)
            )
        }
        (Some(before), Some(old)) => {
            say!(
                "{side}: on the old springs the gap to the bump stop is {old} instead of {before}",
                side,
                old = said(old),
                before = said(before)
            )
        }
        (None, Some(old)) => {
            say!("{side}: on the old springs the gap to the bump stop is {old}", side, old = said(old))
        }
        _ => say!("{side}: wheel travel at which each spring carries the load", side),
    }
}

/// How frequency follows from the rate of an axle's springs at the wanted height.
struct ByRate<'a> {
    sizing: &'a Sizing,
    /// Motion ratio there.
    ratio: f64,
    /// Wheel rate that does not come from the spring, N/m.
    rest_n_per_m: f64,
}

impl ByRate<'_> {
    /// The rate of what is bought: of a stack, the main coil's, N/m.
    fn own_rate(&self, s: &Standing) -> f64 {
        match (&s.curve.spring, self.sizing.open_helper) {
            (Spring::Stack(stack), Some(_)) => stack.main.rate_n_per_m,
            _ => s.spring_rate.si(),
        }
    }

    /// Of both in series, with an open helper, N/m.
    fn whole(sizing: &Sizing, k: f64) -> f64 {
        sizing.open_helper.map_or(k, |h| k * h.si() / (k + h.si()))
    }

    /// k_w = k_s r² + rest with this axle's ratio and other terms. Source `GIL`.
    fn frequency_hz(&self, k: f64, mass: Mass) -> f64 {
        let wheel = Self::whole(self.sizing, k) * self.ratio * self.ratio + self.rest_n_per_m;
        (wheel.max(0.0) / mass.si()).sqrt() / std::f64::consts::TAU
    }

    fn line(&self, state: State, label: &str, mass: Mass, [from, to]: [f64; 2]) -> Line {
        let rates = (0..POINTS).map(|i| from + (to - from) * i as f64 / (POINTS - 1) as f64);
        Line::new(Some(state), label, rates.map(|k| [k, self.frequency_hz(k, mass)]).collect())
    }

    /// Equilibrium of the axle before and on the old springs, and what is bought; something cheaper may lead in its place.
    fn marks(
        &self,
        axle: &AxleAnswer,
        old_rate: Option<f64>,
        bought: Option<SpringToBuy>,
        lead: Option<&Lead>,
        units: &UnitChoice,
    ) -> Vec<Mark> {
        let (before, old) = (axle.standing.before.as_ref(), axle.standing.old.as_ref());
        // The words of the higher mark stand above it, those of the lower one below.
        let sank = before.zip(old).is_none_or(|(b, o)| b.frequency >= o.frequency);
        let (above, below) = (Corner::LEFT_ABOVE, Corner::LEFT_BELOW);
        let mark = |state: State, k: f64, hz: f64, label: String, words| Mark { state, label, at: [k, hz], words };
        let named = |state: State, k: f64, s: &Standing, words| {
            mark(state, k, s.frequency.si(), state.words().to_string(), words)
        };
        let mut marks = Vec::new();
        if let (Some(before), Some(_), Some(_)) = (before, axle.masses.sprung.before, old_rate) {
            marks.push(named(State::Before, self.own_rate(before), before, if sank { above } else { below }));
        }
        marks.extend(old.zip(old_rate).map(|(s, k)| named(State::OldSprings, k, s, if sank { below } else { above })));
        let bought = bought.filter(|_| axle.plan == crate::job::Plan::NewSprings).zip(axle.masses.sprung.after);
        marks.extend(bought.map(|(bought, after)| {
            let (pick, hz) = (bought.pick.si(), self.frequency_hz(bought.pick.si(), after));
            let label = say!("{rate}, {frequency:.2} Hz", rate = display::rounded(bought.pick, units), frequency = hz);
            let label = match lead.map(Lead::leads) {
                Some(true) => say!("only if wanted anyway: {spring}", spring = label),
                Some(false) => say!("if still needed after measuring: {spring}", spring = label),
                None => label,
            };
            mark(State::NewSprings, pick, hz, label, Corner::RIGHT_BELOW)
        }));
        marks
    }
}

/// Stock rates in this range, N/m; none where they would lie too close.
fn stock_ticks(bought: Option<SpringToBuy>, [from, to]: [f64; 2]) -> Vec<f64> {
    let step = bought.and_then(|b| b.stock).map_or(0.0, |s| s.step.si());
    if step <= 0.0 || (to - from) / step >= 80.0 {
        return Vec::new();
    }
    let first = (from / step).ceil() as usize;
    (first..).map(|n| n as f64 * step).take_while(|k| *k <= to).collect()
}

fn frequency_title(axle: &AxleAnswer, sizing: &Sizing, is_released: bool, units: &UnitChoice) -> String {
    let stop = if is_released { "" } else { tr(" (withheld: no recommendation)") };
    let highest = display::rounded(sizing.spring_rate.high, units);
    if sizing.is_one_value() {
        return say!("{side}: {highest} gives the target frequency{stop}", highest, stop, side = axle.side.word());
    }
    let lowest = display::rounded_number(sizing.spring_rate.low.si().max(0.0), units.unit(Dim::SpringRate));
    say!(
        "{side}: {lowest} to {highest} gives a frequency within the target range{stop}",
        lowest,
        highest,
        stop,
        side = axle.side.word()
    )
}

/// "How heavy a spring?": frequency against rate, before and after. `None` until the axle can be sized.
pub fn frequency_rate(answer: &Answer, side: Side, units: &UnitChoice) -> Option<Picture> {
    let (axle, part) = (answer.axle(side), answer.released(side).ok());
    let bought = part.and_then(|p| p.spring);
    let sizing = axle.sizing.as_ref()?;
    let after = axle.masses.sprung.after?;
    let stands = axle.standing.new.as_ref().or(axle.standing.old.as_ref())?;
    let ratio = stands.curve.spring_length.ratio(sizing.wanted_travel).si();
    let aim = ByRate::whole(sizing, sizing.spring_rate.aim.si());
    let rest_n_per_m = sizing.wheel_rate.aim.si() - aim * ratio * ratio;
    let by = ByRate { sizing, ratio, rest_n_per_m };
    let old_rate = axle.standing.old.as_ref().map(|s| by.own_rate(s));
    let (low, high) = (sizing.spring_rate.low.si().max(0.0), sizing.spring_rate.high.si());
    let from = (0.75 * low).min(old_rate.map_or(f64::MAX, |k| 0.92 * k)).max(0.0);
    let to = (1.25 * high).max(old_rate.map_or(0.0, |k| 1.08 * k)).max(bought.map_or(0.0, |b| 1.05 * b.pick.si()));
    let bag = |s: &Standing| s.curve.helper.is_some();
    let new_bag = bag(stands) && axle.standing.old.as_ref().is_some_and(|s| !bag(s));
    // With a bag that is new the weight before stood on other things: its mark stays, its line would mislead.
    let before = axle.masses.sprung.before.filter(|_| axle.standing.before.is_some() && !new_bag);
    let mut lines: Vec<Line> = Vec::new();
    lines.extend(before.map(|mass| by.line(State::Before, tr("weight before"), mass, [from, to])));
    let label = if new_bag { tr("weight after, with the air bag") } else { tr("weight after") };
    lines.push(by.line(State::NewSprings, label, after, [from, to]));
    let y = (tr("ride frequency, without tyre"), Dim::Frequency);
    Some(Picture {
        lines,
        marks: by.marks(axle, old_rate, bought, answer.lead(side), units),
        wanted: Some(([sizing.frequency.low.si(), sizing.frequency.high.si()], tr("target").into())),
        ticks: stock_ticks(bought, [from, to]),
        ..Picture::new(frequency_title(axle, sizing, part.is_some(), units), (tr("spring rate"), Dim::SpringRate), y)
    })
}
