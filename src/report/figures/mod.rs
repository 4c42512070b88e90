//! Every result as a named figure: value in SI, unit, convention, formula, source.
//!
//! One table per part of the answer. JSON, the working, the tables on screen and
//! on paper are all built from these rows. To add a result, add a row.

mod axle;
mod fitted;
mod loads;
mod options;
mod road;
mod springs;
mod standing;
mod whole;

use crate::job::Side;
use crate::solve::answer::{Answer, AxleAnswer, Band, Checked, OfVehicle, PerState, State};
use crate::units::{Dim, Quantity};

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
}

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
                name: format!("{words}{}", row.name),
                si,
                u_si: si.and_then(|_| u_si(row)),
                dim: row.dim,
                convention: row.convention,
                formula: row.formula,
                with: (row.with)(of),
                source: row.source,
            });
        }
    }

    /// Three figures of a band inside an axle's answer, with their ±.
    fn band<Q: Quantity>(&mut self, like: Figure, of: OfAxle<'_>, part: impl Fn(&AxleAnswer) -> Option<Band<Q>>) {
        let Some(band) = part(of.axle) else { return };
        type End<Q> = fn(&Band<Q>) -> f64;
        let ends: [(&str, &str, End<Q>); 3] = [
            ("low", "lowest", |b| b.low.si()),
            ("aim", "aimed at", |b| b.aim.si()),
            ("high", "highest", |b| b.high.si()),
        ];
        for (end, words, value) in ends {
            self.figures.push(Figure {
                key: format!("{}.{}.{end}", of.key(), like.key),
                name: format!("{}{}, {words}", of.words(), like.name),
                si: Some(value(&band)),
                u_si: of.checked.u_of(|a| part(a).as_ref().map(value)),
                ..like.clone()
            });
        }
    }

    fn per_state<Q: Quantity>(
        &mut self,
        like: &Figure,
        answer: &Answer,
        result: impl Fn(&OfVehicle<'_>) -> PerState<Option<Q>>,
    ) {
        for state in State::ALL {
            let key = format!("{}.{}", like.key, state.key());
            let name = format!("{}, {}", like.name, state.words());
            self.told(Figure { key, name, ..like.clone() }, answer, |v| si(*result(v).of(state)));
        }
    }
}

impl OfAxle<'_> {
    fn key(&self) -> &'static str {
        self.axle.side.key()
    }

    fn words(&self) -> String {
        format!("{}: ", self.key())
    }
}

fn like(
    key: &str,
    name: &str,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
) -> Figure {
    let (key, name) = (key.to_owned(), name.to_owned());
    Figure { key, name, si: None, u_si: None, dim, convention, formula, with: Vec::new(), source }
}

/// Every figure of an answer, in the order of the work.
pub fn figures(answer: &Answer) -> Vec<Figure> {
    let mut out = Out { figures: Vec::with_capacity(384) };
    out.of_vehicle("before", "before, ", axle::WEIGHED, answer, |v| Some(v.before));
    out.of_vehicle("after", "after, ", axle::WEIGHED, answer, |v| Some(v.after));
    for side in Side::BOTH {
        one_axle(&mut out, OfAxle { axle: answer.axle(side), checked: answer.checked(side) });
    }
    out.per_state(
        &like("whole.rear_over_front", "rear ÷ front frequency", Dim::Ratio, "both on springs", "f_R / f_F", "GIL"),
        answer,
        |v| *v.rear_over_front,
    );
    out.per_state(
        &like(
            "whole.flat_ride_speed",
            "flat-ride speed",
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
    road::add(&mut out, answer);
    out.figures
}

fn one_axle(out: &mut Out, of: OfAxle<'_>) {
    out.part("", "", axle::AXLE, of, |a| Some(a));
    out.part("before", "before, ", standing::STANDING, of, |a| a.standing.before.as_ref());
    out.part("old_springs", "on the old springs, ", standing::STANDING, of, |a| a.standing.old.as_ref());
    out.part("new_springs", "on the new springs, ", standing::STANDING, of, |a| a.standing.new.as_ref());
    out.part("old_spring", "old spring, ", springs::OLD_SPRING, of, |a| Some(&a.old_spring));
    out.part("old_spring.coil", "old coil, ", springs::COIL, of, |a| a.old_spring.coil.as_ref());
    out.part("bar", "", springs::BAR, of, |a| a.old_spring.bar.as_ref());
    out.part("old_spring.leaf", "", springs::LEAF, of, |a| a.old_spring.leaf.as_ref());
    out.part("old_spring.crossover", "", springs::CROSSOVER, of, |a| a.old_spring.crossover.as_ref());
    out.part("cut", "", springs::CUT, of, |a| a.old_spring.cut.as_ref());
    routes(out, of);
    size(out, of);
    out.part("offered", "coil on offer, ", springs::COIL, of, |a| a.offered.as_ref());
    out.part("wound", "spring to be wound: ", springs::WOUND, of, |a| a.wound.as_ref());
    out.part("levelled", "", springs::LEVELLED, of, |a| a.levelled.as_ref());
    damp(out, of);
}

/// Wheel rate by every route, and all of them fused.
fn routes(out: &mut Out, of: OfAxle<'_>) {
    let routes = &of.checked.routes;
    let convention = "at the wheel, at the reference height";
    for route in &routes.list {
        let (key, name) = (route.kind.key(), route.kind.words());
        let like = like(key, name, Dim::SpringRate, convention, route.kind.formula(), "DERIVED");
        out.figures.push(Figure {
            key: format!("{}.routes.{key}", of.key()),
            name: format!("{}wheel rate by {name}", of.words()),
            si: Some(route.wheel_rate.value),
            u_si: Some(route.wheel_rate.u),
            ..like
        });
    }
    if let Some(fused) = routes.fused {
        let formula = "k = Σ k_i u_i⁻² / Σ u_i⁻²";
        let convention = "at the wheel; the routes taken as independent";
        out.figures.push(Figure {
            key: format!("{}.routes.fused", of.key()),
            name: format!("{}wheel rate, all routes weighted together", of.words()),
            si: Some(fused.value),
            u_si: Some(fused.u),
            ..like("fused", "", Dim::SpringRate, convention, formula, "GUM")
        });
    }
}

fn size(out: &mut Out, of: OfAxle<'_>) {
    let practice = "as named, or as before";
    let frequency =
        like("sizing.frequency", "wanted ride frequency", Dim::Frequency, "on springs", practice, "PRACTICE");
    out.band(frequency, of, |a| Some(a.sizing.as_ref()?.frequency));
    let wheel = like("sizing.wheel_rate", "wheel rate for it", Dim::SpringRate, AT_WHEEL, "k_w = m_s (2π f)²", "GIL");
    out.band(wheel, of, |a| Some(a.sizing.as_ref()?.wheel_rate));
    let formula = "k_s = (k_w − k_rest (rubber, gas, bag, stop) − F_s r′) / r²";
    let along = "along the spring; of a bar, upright at the arm's end";
    let spring = like("sizing.spring_rate", "spring rate for it", Dim::SpringRate, along, formula, "DERIVED");
    out.band(spring, of, |a| Some(a.sizing.as_ref()?.spring_rate));
    out.part("sizing", "", fitted::SIZING, of, |a| a.sizing.as_ref());
    let formula = "d = (32 l k_θ / (π G) + d_i⁴)^¼";
    let bar = like("sizing.bar.diameter", "bar diameter for it", Dim::Length, "between the splines", formula, "SHI");
    out.band(bar, of, |a| Some(a.sizing.as_ref()?.bar?.diameter));
    out.part("sizing.bar", "", springs::BAR_CHOICE, of, |a| a.sizing.as_ref()?.bar.as_ref());
}

fn damp(out: &mut Out, of: OfAxle<'_>) {
    let convention = "on springs, mean of bump and rebound";
    let ratio = like("damping.ratio", "wanted damping ratio", Dim::Ratio, convention, "as named", "PRACTICE");
    out.band(ratio, of, |a| Some(a.damping.as_ref()?.ratio));
    let wheel = like("damping.at_wheel", "damping rate", Dim::DampingRate, AT_WHEEL, "c_w = 2 ζ √(k_w m_s)", "GIL");
    out.band(wheel, of, |a| Some(a.damping.as_ref()?.at_wheel));
    let name = "damper rate, mean of bump and rebound";
    let damper = like("damping.at_damper", name, Dim::DampingRate, "at the damper", "c_d = c_w / r_d²", "GIL");
    out.band(damper, of, |a| Some(a.damping.as_ref()?.at_damper));
    out.part("damping", "", fitted::DAMPING, of, |a| a.damping.as_ref());
    let Some(damping) = &of.axle.damping else { return };
    let convention = "at the damper, straight line through the origin";
    for (i, force) in damping.forces.iter().enumerate() {
        let speed = format!("{:.2}", force.speed.si());
        let named = |direction: &str| {
            let key = format!("damping.{direction}_force.{speed}");
            like(&key, &format!("{direction} force at {speed} m/s"), Dim::Force, convention, "F = c v", "DIX")
        };
        out.band(named("bump"), of, |a| Some(a.damping.as_ref()?.forces[i].bump));
        out.band(named("rebound"), of, |a| Some(a.damping.as_ref()?.forces[i].rebound));
    }
}
