//! Collects results from an answer, each with its ± or why it is not known.

use super::row::{Row, like};
use super::{Figure, Substitution, Why};
use crate::base::language::tr;
use crate::base::units::Quantity;
use crate::job::Side;
use crate::solve::answer::{Answer, AxleAnswer, Band, Checked, EachMoved, Part as Released, Parts, Vehicle};

/// The corners: key and short name.
pub const CORNERS: [(&str, &str); 4] = [("lf", "LF"), ("rf", "RF"), ("lr", "LR"), ("rr", "RR")];

/// Finds a part of an axle's answer.
type Part<T> = fn(&AxleAnswer) -> Option<&T>;
/// Finds something that is bought.
type Bought<T> = fn(&Parts) -> Option<&T>;

/// What is looked up for each value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Wants {
    /// Nothing.
    Values,
    /// Its ±.
    Spreads,
    /// Its ±, and how far each field moves it.
    Steps,
}

/// The results collected so far.
pub(super) struct Out {
    pub figures: Vec<Figure>,
    wants: Wants,
    /// The keys of results that it is looked up for; `None` for all.
    only: Option<Vec<String>>,
}

/// How sure a result is: its ±, SI, and how far each field moves it.
#[derive(Default)]
struct Spread {
    u_si: Option<f64>,
    steps: Vec<(String, f64)>,
}

impl Spread {
    fn of<'a, S>(wants: Wants, u_si: impl FnOnce() -> Option<f64>, steps: impl FnOnce() -> S) -> Self
    where
        S: Iterator<Item = (&'a str, Option<f64>)>,
    {
        let u_si = if wants == Wants::Values { None } else { u_si() };
        // What does not move it is left out: a full job has thousands of fields.
        let moved = |(path, step): (&str, Option<f64>)| Some((path.to_owned(), step.filter(|step| *step != 0.0)?));
        let is_wanted = wants == Wants::Steps && u_si.is_some();
        let steps = if is_wanted { steps().filter_map(moved).collect() } else { Vec::new() };
        Spread { u_si, steps }
    }

    /// Of a result of an axle or the whole vehicle.
    fn on<T>(moved: &EachMoved<T>, wants: Wants, result: impl Fn(&T) -> Option<f64>) -> Self {
        Spread::of(wants, || moved.u_of(&result), || moved.steps(&result))
    }

    /// Of something that is bought.
    fn in_part(part: Option<Released<'_>>, wants: Wants, result: impl Fn(&Parts) -> Option<f64>) -> Self {
        let Some(part) = part else { return Spread::default() };
        Spread::of(wants, || part.u_of(&result), || part.steps(&result))
    }
}

/// One axle whose results are collected.
#[derive(Clone, Copy)]
pub(super) struct OfAxle<'a> {
    pub axle: &'a AxleAnswer,
    pub checked: &'a Checked,
    /// What may be bought; `None` while the axle is withheld.
    pub part: Option<Released<'a>>,
}

/// Where rows go: their keys and names begin so, and why they are not known without their part.
struct Place<'a> {
    prefix: &'a str,
    words: &'a str,
    why: Option<Why>,
    side: Option<Side>,
}

/// Words that a name begins with, before the rest of it.
pub(super) fn then(words: &str) -> String {
    format!("{words}, ")
}

impl Out {
    pub fn new(wants: Wants) -> Self {
        Out { figures: Vec::new(), wants, only: None }
    }

    /// Looks up all there is of the results with these keys, and of others only their values.
    pub fn with_steps_of(keys: &[String]) -> Self {
        Out { only: Some(keys.to_vec()), ..Out::new(Wants::Steps) }
    }

    fn wants(&self, key: &str) -> Wants {
        let is_one = self.only.as_ref().is_none_or(|only| only.iter().any(|one| one == key));
        if is_one { self.wants } else { Wants::Values }
    }

    /// One result: what it is, its value, its ±.
    pub fn put(&mut self, like: Figure, si: Option<f64>, u_si: Option<f64>) {
        let with = if si.is_some() { like.with } else { Vec::new() };
        let why = like.why.filter(|_| si.is_none());
        self.figures.push(Figure { si, u_si, with, why, is_there: si.is_some(), ..like });
    }

    /// One result of the whole vehicle, with its ±.
    pub fn told(&mut self, like: Figure, answer: &Answer, result: impl Fn(&Vehicle) -> Option<f64>) {
        let si = result(&answer.vehicle);
        let spread = si.map(|_| Spread::on(&answer.moved, self.wants(&like.key), &result)).unwrap_or_default();
        self.put(Figure { steps: spread.steps, ..like }, si, spread.u_si);
    }

    /// The rows of a part of the whole vehicle, with their ±; without values when the part is not known.
    pub fn of_vehicle<T>(
        &mut self,
        prefix: &str,
        words: &str,
        rows: &[Row<T>],
        answer: &Answer,
        part: impl Fn(&Vehicle) -> Option<&T>,
    ) {
        let place = Place { prefix, words, why: None, side: None };
        let found = part(&answer.vehicle);
        self.rows(&place, rows, found, |wants, row| Spread::on(&answer.moved, wants, |v| part(v).and_then(row.value)));
    }

    /// The same of a part that is made again each time.
    pub fn of_made<T>(
        &mut self,
        prefix: &str,
        words: &str,
        rows: &[Row<T>],
        answer: &Answer,
        part: impl Fn(&Vehicle) -> Option<T>,
    ) {
        let place = Place { prefix, words, why: None, side: None };
        let found = part(&answer.vehicle);
        self.rows(&place, rows, found.as_ref(), |wants, row| {
            Spread::on(&answer.moved, wants, |v| part(v).and_then(|p| (row.value)(&p)))
        });
    }

    /// The rows of a part of an axle, with their ±; without values when the part is not known.
    pub fn part<T>(&mut self, prefix: &str, words: &str, rows: &[Row<T>], of: OfAxle<'_>, part: Part<T>) {
        let (prefix, words) = (format!("{}.{prefix}", of.key()), format!("{}{words}", of.words()));
        let side = Some(of.axle.side);
        let place = Place { prefix: prefix.trim_end_matches('.'), words: &words, why: of.missing(), side };
        self.rows(&place, rows, part(of.axle), |wants, row| {
            Spread::on(&of.checked.nudged, wants, |a| part(a).and_then(row.value))
        });
    }

    /// The rows of something that is bought, with their ±: without values while the axle is withheld.
    pub fn bought<T>(&mut self, prefix: &str, words: &str, rows: &[Row<T>], of: OfAxle<'_>, part: Bought<T>) {
        let (prefix, words) = (format!("{}.{prefix}", of.key()), format!("{}{words}", of.words()));
        let why = if of.part.is_none() { Some(Why::Withheld) } else { of.missing() };
        let place = Place { prefix: &prefix, words: &words, why, side: Some(of.axle.side) };
        let found = of.part.and_then(|released| part(released.parts()));
        self.rows(&place, rows, found, |wants, row| Spread::in_part(of.part, wants, |p| part(p).and_then(row.value)));
    }

    /// The rows of something that has no ± by fields of the job: what was drawn or run.
    pub fn of_other<T>(&mut self, prefix: &str, words: &str, rows: &[Row<T>], of: Option<&T>, why: Option<&Why>) {
        let place = Place { prefix, words, why: why.cloned(), side: None };
        self.rows(&place, rows, of, |_, _| Spread::default());
    }

    /// Takes the value from a result.
    pub fn withhold(&mut self, key: &str) {
        for figure in self.figures.iter_mut().filter(|f| f.key == key) {
            *figure = Figure {
                si: None,
                u_si: None,
                with: Vec::new(),
                why: Some(Why::Withheld),
                steps: Vec::new(),
                ..figure.clone()
            };
        }
    }

    fn rows<T: ?Sized>(
        &mut self,
        place: &Place<'_>,
        rows: &[Row<T>],
        of: Option<&T>,
        spread: impl Fn(Wants, &Row<T>) -> Spread,
    ) {
        for row in rows {
            let si = of.and_then(row.value);
            let label = tr(row.label);
            let key = format!("{}.{}", place.prefix, row.key);
            let spread = si.map(|_| spread(self.wants(&key), row)).unwrap_or_default();
            self.figures.push(Figure {
                key,
                name: format!("{}{label}", place.words),
                label: label.into(),
                si,
                u_si: spread.u_si,
                steps: spread.steps,
                with: si.and(of).and_then(row.with).unwrap_or_default(),
                by: row.by,
                say: row.say,
                instead: of.and_then(row.instead),
                remark: of.filter(|_| si.is_some()).map_or_else(String::new, row.remark),
                why: if si.is_some() { None } else { place.why(row.needs) },
                is_there: of.is_some() || place.why == Some(Why::Withheld),
                ..like("", "", row.dim, row.convention, row.formula, row.source)
            });
        }
    }

    /// Three results of a band inside an axle's answer, with their ±, and the numbers put into the formula of each end.
    pub fn band<Q: Quantity>(
        &mut self,
        like: Figure,
        of: OfAxle<'_>,
        part: impl Fn(&AxleAnswer) -> Option<Band<Q>>,
        with: impl Fn(End) -> Option<Vec<Substitution>>,
    ) {
        let band = part(of.axle);
        let u = |wants, end: End| Spread::on(&of.checked.nudged, wants, |a| part(a).as_ref().map(|b| end.of(b)));
        self.ends(&Figure { why: of.missing(), ..like }, of, band, u, with);
    }

    /// Three results of a band of something that is bought: without values while the axle is withheld.
    pub fn bought_band<Q: Quantity>(
        &mut self,
        like: Figure,
        of: OfAxle<'_>,
        part: impl Fn(&Parts) -> Option<Band<Q>>,
        with: impl Fn(End) -> Option<Vec<Substitution>>,
    ) {
        let why = if of.part.is_none() { Some(Why::Withheld) } else { of.missing() };
        let band = of.part.and_then(|released| part(released.parts()));
        let u = |wants, end: End| Spread::in_part(of.part, wants, |p| part(p).as_ref().map(|b| end.of(b)));
        self.ends(&Figure { why, ..like }, of, band, u, with);
    }

    fn ends<Q: Quantity>(
        &mut self,
        like: &Figure,
        of: OfAxle<'_>,
        band: Option<Band<Q>>,
        spread: impl Fn(Wants, End) -> Spread,
        with: impl Fn(End) -> Option<Vec<Substitution>>,
    ) {
        for end in End::ALL {
            let (key, words) = end.key_and_words();
            let label = format!("{}, {words}", like.label);
            let si = band.as_ref().map(|b| end.of(b));
            let key = format!("{}.{}.{key}", of.key(), like.key);
            let spread = si.map(|_| spread(self.wants(&key), end)).unwrap_or_default();
            self.figures.push(Figure {
                key,
                name: format!("{}{label}", of.words()),
                label: label.into(),
                band: Some(like.label.clone()),
                si,
                u_si: spread.u_si,
                steps: spread.steps,
                with: si.and_then(|_| with(end)).unwrap_or_default(),
                why: like.why.clone().filter(|_| si.is_none()),
                is_there: si.is_some() || like.why == Some(Why::Withheld),
                ..like.clone()
            });
        }
    }
}

impl Place<'_> {
    /// Why a result is not known: its whole part is not, or these fields are missing.
    fn why(&self, needs: &[&str]) -> Option<Why> {
        let path = |field: &&str| match self.side {
            Some(side) => format!("{}.{field}", side.key()),
            None => (*field).to_owned(),
        };
        let own = (!needs.is_empty()).then(|| Why::Missing(needs.iter().map(path).collect()));
        self.why.clone().or(own)
    }
}

/// One value of a band.
#[derive(Clone, Copy)]
pub(super) enum End {
    Low,
    Aim,
    High,
}

impl End {
    const ALL: [End; 3] = [End::Low, End::Aim, End::High];

    fn key_and_words(self) -> (&'static str, &'static str) {
        match self {
            End::Low => ("low", tr("lower limit")),
            End::Aim => ("aim", tr("target value")),
            End::High => ("high", tr("upper limit")),
        }
    }

    pub fn of<Q: Quantity>(self, band: &Band<Q>) -> f64 {
        match self {
            End::Low => band.low.si(),
            End::Aim => band.aim.si(),
            End::High => band.high.si(),
        }
    }
}

impl OfAxle<'_> {
    pub fn key(&self) -> &'static str {
        self.axle.side.key()
    }

    pub fn words(&self) -> String {
        format!("{}: ", self.axle.side.word_inside())
    }

    /// The fields that a first answer still needs.
    fn missing(&self) -> Option<Why> {
        (!self.axle.missing.is_empty()).then(|| Why::Missing(self.axle.missing.clone()))
    }
}
