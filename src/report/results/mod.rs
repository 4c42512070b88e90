//! Every result as a named figure: value in SI, unit, convention, formula, source.
//!
//! One table per part of the answer. JSON, the working, the tables on screen and
//! on paper are all built from these rows. To add a result, add a row.

mod axle;
mod coils;
mod dampers;
mod fitted;
mod loads;
mod options;
mod reweigh;
mod road;
mod sized;
mod springs;
mod standing;
mod whole;

use crate::job::{Plan, Side};
use crate::language::tr;
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, Band, Checked, OfVehicle, Part as Released, Parts, PerState, State};
use crate::units::{Dim, Quantity, display};

/// A symbol of a formula with the number put in for it.
pub type Substitution = (&'static str, Option<f64>, Dim);

/// One result.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Its path among the results: `front.old_springs.frequency`.
    pub key: String,
    /// What it is, in words.
    pub name: String,
    /// The value in the coherent SI unit; `None` when not known.
    pub si: Option<f64>,
    /// Its standard uncertainty, SI, from the ± of every field it depends on; `None` when none has one.
    pub u_si: Option<f64>,
    /// What it measures.
    pub dim: Dim,
    /// Sign, place and reference of the value.
    pub convention: &'static str,
    /// The formula, in symbols.
    pub formula: &'static str,
    /// The numbers put into the formula.
    pub with: Vec<Substitution>,
    /// Key into [`crate::sources::SOURCES`].
    pub source: &'static str,
}

impl Figure {
    /// False for a difference whose ± is over a third of it; see [`display::is_determined`].
    pub fn is_determined(&self) -> bool {
        let differs = self.key.starts_with("whole.flat_ride_speed.") || self.key.ends_with(".node");
        !differs || self.si.zip(self.u_si).is_none_or(|(si, u)| display::is_determined(si, u))
    }

    /// What is to be said beside the value; `None` for most.
    pub fn note(&self) -> Option<&'static str> {
        (!self.is_determined()).then(|| tr(NOT_DETERMINED))
    }
}

/// Why a result that has a value is not told.
pub const NOT_DETERMINED: &str = "Not determined: the ± is more than a third of the value. It hangs on a small difference between front and rear; measure both closer.";

/// One row of a table of results of `T`.
struct Row<T: ?Sized> {
    key: &'static str,
    name: &'static str,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
    value: fn(&T) -> Option<f64>,
    with: fn(&T) -> Vec<Substitution>,
}

/// A row without substituted numbers.
const fn row<T: ?Sized>(
    key: &'static str,
    name: &'static str,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
    value: fn(&T) -> Option<f64>,
) -> Row<T> {
    Row { key, name, dim, convention, formula, source, value, with: none }
}

impl<T: ?Sized> Row<T> {
    /// The same row with the numbers put into its formula.
    const fn with(self, with: fn(&T) -> Vec<Substitution>) -> Self {
        Row { with, ..self }
    }
}

fn si<Q: Quantity>(q: Option<Q>) -> Option<f64> {
    q.map(Quantity::si)
}

fn none<T: ?Sized>(_: &T) -> Vec<Substitution> {
    Vec::new()
}

/// The corners: key and short name.
const CORNERS: [(&str, &str); 4] = [("lf", "LF"), ("rf", "RF"), ("lr", "LR"), ("rr", "RR")];
const CORNER: &str = "per corner, mean of the two sides";
const AT_WHEEL: &str = "at the wheel, per corner, mean of the two sides";

/// Finds a part of an axle's answer.
type Part<T> = fn(&AxleAnswer) -> Option<&T>;

/// Collects figures under a prefix.
struct Out {
    figures: Vec<Figure>,
}

/// One axle whose figures are collected.
#[derive(Clone, Copy)]
struct OfAxle<'a> {
    axle: &'a AxleAnswer,
    checked: &'a Checked,
    /// What may be bought; `None` while the axle is withheld.
    part: Option<Released<'a>>,
}

/// Finds something that is bought.
type Bought<T> = fn(&Parts) -> Option<&T>;

impl Out {
    /// One figure: what it is, its value, its ±.
    fn put(&mut self, like: Figure, si: Option<f64>, u_si: Option<f64>) {
        self.figures.push(Figure { si, u_si, ..like });
    }

    /// One figure of the whole vehicle, with its ±.
    fn told(&mut self, like: Figure, answer: &Answer, result: impl Fn(&OfVehicle<'_>) -> Option<f64>) {
        let si = result(&answer.of_vehicle());
        let u_si = si.and_then(|_| answer.u_of(&result));
        self.put(like, si, u_si);
    }

    /// The rows of a part of the whole vehicle, with their ±; nothing when the part is not known.
    fn of_vehicle<T>(
        &mut self,
        prefix: &str,
        words: &str,
        rows: &[Row<T>],
        answer: &Answer,
        part: impl for<'a> Fn(&OfVehicle<'a>) -> Option<&'a T>,
    ) {
        if let Some(found) = part(&answer.of_vehicle()) {
            self.with_u(prefix, words, rows, found, |row| answer.u_of(|v| part(v).and_then(row.value)));
        }
    }

    /// The rows of a part of an axle, with their ±; nothing when the part is not known.
    fn part<T>(&mut self, prefix: &str, words: &str, rows: &[Row<T>], of: OfAxle<'_>, part: Part<T>) {
        if let Some(found) = part(of.axle) {
            let (prefix, words) = (format!("{}.{prefix}", of.key()), format!("{}{words}", of.words()));
            let prefix = prefix.trim_end_matches('.');
            self.with_u(prefix, &words, rows, found, |row| of.checked.u_of(|a| part(a).and_then(row.value)));
        }
    }

    /// The rows of something that is bought, with their ±: without values while the axle is withheld.
    fn bought<T>(&mut self, prefix: &str, words: &str, rows: &[Row<T>], of: OfAxle<'_>, part: Bought<T>) {
        let (prefix, words) = (format!("{}.{prefix}", of.key()), format!("{}{words}", of.words()));
        match &of.part {
            Some(released) => {
                if let Some(found) = part(released.parts()) {
                    self.with_u(&prefix, &words, rows, found, |row| released.u_of(|p| part(p).and_then(row.value)));
                }
            }
            None => self.figures.extend(rows.iter().map(|row| Figure {
                key: format!("{prefix}.{}", row.key),
                name: format!("{words}{}", tr(row.name)),
                ..like("", "", row.dim, row.convention, row.formula, row.source)
            })),
        }
    }

    /// Takes the value from a figure.
    fn withhold(&mut self, key: &str) {
        for figure in self.figures.iter_mut().filter(|f| f.key == key) {
            *figure = Figure { si: None, u_si: None, with: Vec::new(), ..figure.clone() };
        }
    }

    fn with_u<T: ?Sized>(
        &mut self,
        prefix: &str,
        words: &str,
        rows: &[Row<T>],
        of: &T,
        u_si: impl Fn(&Row<T>) -> Option<f64>,
    ) {
        for row in rows {
            let si = (row.value)(of);
            self.figures.push(Figure {
                key: format!("{prefix}.{}", row.key),
                name: format!("{words}{}", tr(row.name)),
                si,
                u_si: si.and_then(|_| u_si(row)),
                dim: row.dim,
                convention: tr(row.convention),
                formula: row.formula,
                with: (row.with)(of),
                source: row.source,
            });
        }
    }

    /// Three figures of a band inside an axle's answer, with their ±.
    fn band<Q: Quantity>(&mut self, like: Figure, of: OfAxle<'_>, part: impl Fn(&AxleAnswer) -> Option<Band<Q>>) {
        self.band_with(like, of, part, |_| Vec::new());
    }

    /// The same with the numbers put into the formula of each end.
    fn band_with<Q: Quantity>(
        &mut self,
        like: Figure,
        of: OfAxle<'_>,
        part: impl Fn(&AxleAnswer) -> Option<Band<Q>>,
        with: impl Fn(End) -> Vec<Substitution>,
    ) {
        let Some(band) = part(of.axle) else { return };
        for end in End::ALL {
            let value = |b: &Band<Q>| end.of(b);
            let u_si = of.checked.u_of(|a| part(a).as_ref().map(value));
            self.figures.push(Figure { si: Some(value(&band)), u_si, with: with(end), ..of.end(&like, end) });
        }
    }

    /// Three figures of a band of something that is bought: without values while the axle is withheld.
    fn bought_band<Q: Quantity>(
        &mut self,
        like: Figure,
        of: OfAxle<'_>,
        part: impl Fn(&Parts) -> Option<Band<Q>>,
        with: impl Fn(End) -> Vec<Substitution>,
    ) {
        let Some(released) = of.part else {
            self.figures.extend(End::ALL.map(|end| of.end(&like, end)));
            return;
        };
        let Some(band) = part(&released) else { return };
        for end in End::ALL {
            let value = |b: &Band<Q>| end.of(b);
            let u_si = released.u_of(|p| part(p).as_ref().map(value));
            self.figures.push(Figure { si: Some(value(&band)), u_si, with: with(end), ..of.end(&like, end) });
        }
    }

    /// A result of both axles' frequencies in each state.
    fn per_state<Q: Quantity>(
        &mut self,
        like: &Figure,
        answer: &Answer,
        result: impl Fn(&OfVehicle<'_>) -> PerState<Option<Q>>,
    ) {
        for state in State::ALL {
            let key = format!("{}.{}", like.key, state.key());
            let name = format!("{}, {}", like.name, state.words());
            let frequency = |side: Side| answer.axle(side).standing.of(state).as_ref().map(|s| s.frequency.si());
            let mut with =
                vec![("f_F", frequency(Side::Front), Dim::Frequency), ("f_R", frequency(Side::Rear), Dim::Frequency)];
            if like.dim == Dim::Velocity {
                with.push(("L", si(answer.whole.wheelbase), Dim::Length));
            }
            self.told(Figure { key, name, with, ..like.clone() }, answer, |v| si(*result(v).of(state)));
        }
    }
}

/// One value of a band.
#[derive(Clone, Copy)]
enum End {
    Low,
    Aim,
    High,
}

impl End {
    const ALL: [End; 3] = [End::Low, End::Aim, End::High];

    fn key_and_words(self) -> (&'static str, &'static str) {
        match self {
            End::Low => ("low", tr("lowest")),
            End::Aim => ("aim", tr("aimed at")),
            End::High => ("high", tr("highest")),
        }
    }

    fn of<Q: Quantity>(self, band: &Band<Q>) -> f64 {
        match self {
            End::Low => band.low.si(),
            End::Aim => band.aim.si(),
            End::High => band.high.si(),
        }
    }
}

impl OfAxle<'_> {
    fn key(&self) -> &'static str {
        self.axle.side.key()
    }

    fn words(&self) -> String {
        format!("{}: ", self.axle.side.word_inside())
    }

    /// One end of a band, without its value.
    fn end(&self, like: &Figure, end: End) -> Figure {
        let (key, words) = end.key_and_words();
        Figure {
            key: format!("{}.{}.{key}", self.key(), like.key),
            name: format!("{}{}, {words}", self.words(), like.name),
            ..like.clone()
        }
    }
}

/// Words that a name begins with, before the rest of it.
fn then(words: &str) -> String {
    format!("{words}, ")
}

/// What is put down of one result: its name as said already, its convention to be said.
fn like(
    key: &str,
    name: impl Into<String>,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
) -> Figure {
    let (key, name) = (key.to_owned(), name.into());
    Figure { key, name, si: None, u_si: None, dim, convention: tr(convention), formula, with: Vec::new(), source }
}

/// Every figure of an answer, in the order of the work.
pub fn figures(answer: &Answer) -> Vec<Figure> {
    let mut out = Out { figures: Vec::with_capacity(384) };
    out.of_vehicle("before", &then(tr("before")), axle::WEIGHED, answer, |v| Some(v.before));
    out.of_vehicle("after", &then(tr("after")), axle::WEIGHED, answer, |v| Some(v.after));
    for side in Side::BOTH {
        let part = answer.released(side).ok();
        one_axle(&mut out, OfAxle { axle: answer.axle(side), checked: answer.checked(side), part });
    }
    out.per_state(
        &like("whole.rear_over_front", tr("rear ÷ front frequency"), Dim::Ratio, "both on springs", "f_R / f_F", "GIL"),
        answer,
        |v| *v.rear_over_front,
    );
    out.per_state(
        &like(
            "whole.flat_ride_speed",
            tr("flat-ride speed"),
            Dim::Velocity,
            "n = 1, on springs; none when the rear is not quicker than the front",
            "v = L / (n (1/f_F − 1/f_R))",
            "GIL",
        ),
        answer,
        |v| *v.flat_ride,
    );
    loads::add(&mut out, answer);
    options::add(&mut out, answer);
    whole::add(&mut out, answer);
    reweigh::add(&mut out, answer);
    road::add(&mut out, answer);
    out.figures
}

fn one_axle(out: &mut Out, of: OfAxle<'_>) {
    out.part("", "", axle::AXLE, of, |a| Some(a));
    out.part("before", &then(State::Before.words()), standing::STANDING, of, |a| a.standing.before.as_ref());
    out.part("old_springs", &then(State::OldSprings.words()), standing::STANDING, of, |a| a.standing.old.as_ref());
    out.part("new_springs", &then(State::NewSprings.words()), standing::STANDING, of, |a| a.standing.new.as_ref());
    if of.part.is_none() && of.axle.plan == Plan::NewSprings {
        // The rate of what would be bought.
        out.withhold(&format!("{}.new_springs.spring_rate", of.key()));
    }
    out.part("old_spring", &then(tr("old spring")), springs::OLD_SPRING, of, |a| Some(&a.old_spring));
    old_rate(out, of);
    out.part("old_spring.coil", &then(tr("old coil")), coils::COIL, of, |a| a.old_spring.coil.as_ref());
    out.part("bar", "", springs::BAR, of, |a| a.old_spring.bar.as_ref());
    out.part("old_spring.leaf", "", springs::LEAF, of, |a| a.old_spring.leaf.as_ref());
    out.part("old_spring.crossover", "", springs::CROSSOVER, of, |a| a.old_spring.crossover.as_ref());
    out.part("cut", "", springs::CUT, of, |a| a.old_spring.cut.as_ref());
    routes(out, of);
    sized::size(out, of);
    out.part("offered", &then(tr("coil on offer")), coils::COIL, of, |a| a.offered.as_ref());
    out.bought("wound", &format!("{}: ", tr("spring to be wound")), coils::WOUND, of, |p| p.wound.as_ref());
    out.bought("levelled", "", springs::LEVELLED, of, |p| p.levelled.as_ref());
    dampers::add(out, of);
}

/// All routes fused.
const FUSED: &str = "k = Σ w_i k_i, w = C⁻¹ 1 / (1ᵀ C⁻¹ 1), C the covariance of the routes";

/// The old spring's rate by the routes that do without the way that was chosen, and from what the one that counts comes.
fn old_rate(out: &mut Out, of: OfAxle<'_>) {
    let Some(by) = &of.checked.by_routes else { return };
    let routes = by.routes().into_iter().map(|(kind, _)| kind.words()).collect::<Vec<_>>().join("; ");
    let counted = format!("{}.old_spring.rate", of.key());
    if by.counts
        && let Some(rate) = out.figures.iter_mut().rfind(|f| f.key == counted)
    {
        rate.name = say!("{name}, worked out from: {routes}", name = rate.name, routes);
    }
    let name = of.words() + &say!("old spring, rate by the other routes: {routes}", routes);
    let convention = "along the spring; of a stack the main coil's; times the Birge ratio when routes disagree";
    out.figures.push(Figure {
        key: format!("{}.old_spring.by_routes", of.key()),
        si: Some(by.rate.value),
        u_si: Some(by.rate.u),
        ..like("by_routes", name, Dim::SpringRate, convention, FUSED, "AITKEN")
    });
}

/// Wheel rate by every route, and all of them fused.
fn routes(out: &mut Out, of: OfAxle<'_>) {
    let routes = &of.checked.routes;
    let convention = "at the wheel, at the reference height";
    for route in &routes.list {
        let key = route.kind.key();
        let name = say!("wheel rate by {route}", route = route.kind.words());
        let like = like(key, of.words() + &name, Dim::SpringRate, convention, route.kind.formula(), "DERIVED");
        out.figures.push(Figure {
            key: format!("{}.routes.{key}", of.key()),
            si: Some(route.wheel_rate.value),
            u_si: Some(route.wheel_rate.u),
            ..like
        });
    }
    if let Some(fused) = routes.fused {
        let name = of.words() + tr("wheel rate, all routes weighted together");
        let formula = FUSED;
        let convention = "at the wheel; fields that routes share counted once";
        out.figures.push(Figure {
            key: format!("{}.routes.fused", of.key()),
            si: Some(fused.value),
            u_si: Some(fused.u),
            ..like("fused", name, Dim::SpringRate, convention, formula, "AITKEN")
        });
    }
}
