//! Findings about linkages: points that are none, travel that ends early, ways that disagree.

use super::Say;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Length, Quantity, Ratio};
use crate::job::{Level, Mend, RatioBy, Side, Suspension, Walk as _, fields, point_key, points_of};
use crate::message;
use crate::solve::answer::{Answer, AxleAnswer, End, Fault, PointName, RatioWays};
use crate::solve::read::{Moves, Reading};

/// Two ways to a motion ratio disagree from this number of standard uncertainties of their difference on.
const APART: f64 = 3.0;
/// And by this share, common practice, no source.
const SHARE: f64 = 0.015;
/// Lengths of a spring at the reference height disagree from here on, m, common practice, no source.
const LENGTHS_APART_M: f64 = 6e-3;
/// Travel examined where neither metal nor droop is known, m.
const USED_TRAVEL_M: f64 = 0.05;

impl Say<'_> {
    /// Findings about an axle's linkage.
    pub(super) fn linkage(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let data = self.job().axle(axle.side);
        let counts = |moves: Moves, by: RatioBy| moves.ratio(data).by == by;
        let by_points = Moves::BOTH.into_iter().any(|moves| counts(moves, RatioBy::Points));
        if by_points && points_of(data.suspension).is_empty() {
            let text = message!(
                "{side}: points give a motion ratio only for a double wishbone, a strut or a trailing arm. Choose the suspension, or find the motion ratio another way.",
                side = axle.side.word()
            );
            let field = format!("{}.linkage.wheel.out", axle.side.key());
            self.push(Level::Error, "linkage-unknown", field, text);
        }
        if let Some(fault) = axle.linkage.fault {
            self.no_linkage(axle, fault, by_points);
        }
        for moves in Moves::BOTH {
            let ways = ways(axle, moves);
            let of_ends = ways.fault.filter(|_| axle.linkage.fault.is_none());
            if let Some(fault) = of_ends {
                self.no_linkage(axle, fault, counts(moves, RatioBy::Points));
            }
            if let Some(fault) = ways.arm_fault {
                let field = format!("{}.{}.seat_angle", axle.side.key(), moves.key());
                let level = if counts(moves, RatioBy::Arm) { Level::Error } else { Level::Doubt };
                let mut texts = self.texts().clone();
                let typed = texts.at_mut(&field).map_or(String::new(), |entry| entry.text().trim().to_owned());
                let text = message!(
                    "{side}: {fault} (entered: {typed}).",
                    side = axle.side.word(),
                    fault = fault.message(),
                    typed
                );
                self.push(level, "arm-impossible", field, text);
            }
            self.ends_inside(axle, moves);
            self.ways_apart(axle, answer, moves);
            self.not_at_ride_height(axle, answer, moves);
        }
    }

    fn no_linkage(&mut self, axle: &AxleAnswer, fault: Fault, counts: bool) {
        let suspension = self.job().axle(axle.side).suspension;
        let points = || fault.points().into_iter().flatten();
        let key = axle.side.key();
        let field = format!("{key}.linkage.{}.out", points().next().map_or("wheel", point_key));
        let mut texts = self.texts().clone();
        let mut typed = |point: PointName, way: &str| {
            let path = format!("{key}.linkage.{}.{way}", point_key(point));
            texts.at_mut(&path).map_or(String::new(), |entry| entry.text().trim().to_owned())
        };
        let typed: Vec<String> =
            points().map(|p| format!("{} {}, {}", p.letter(), typed(p, "out"), typed(p, "up"))).collect();
        let text = message!(
            "{side}, {suspension}: {fault} (entered: {typed}).",
            side = axle.side.word(),
            suspension = Suspension::words(suspension),
            fault = fault.message(),
            typed = typed.join("; ")
        );
        let level = if counts { Level::Error } else { Level::Doubt };
        let mend = self.swapped_points(axle.side, fault);
        self.push_with(level, "linkage-impossible", field, text, mend);
    }

    /// Two points in each other's place, where that makes a linkage of them.
    fn swapped_points(&self, side: Side, fault: Fault) -> Option<Mend> {
        let (Fault::Swapped(one, other) | Fault::UpsideDown(one, other) | Fault::GetsLonger(one, other)) = fault else {
            return None;
        };
        let mut mend = Mend::new(message!("Swap {one} and {other}", one = one.letter(), other = other.letter()));
        for way in ["out", "up"] {
            let [one, other] = [one, other].map(|p| format!("{}.linkage.{}.{way}", side.key(), point_key(p)));
            mend.edits.extend(self.texts().swap("", &one, &other)?.edits);
        }
        let mut mended = self.texts().clone();
        mended.mend(&mend).ok()?;
        let reading = Reading::of(&mended);
        let moves = |moves| reading.by_points(side, moves).is_none_or(|curve| curve.is_ok());
        (reading.sweep(side)?.is_ok() && Moves::BOTH.into_iter().all(moves)).then_some(mend)
    }

    /// The travel that points give ends inside the travel that was measured.
    fn ends_inside(&mut self, axle: &AxleAnswer, moves: Moves) {
        let ends = ways(axle, moves).ends;
        let far = |measured: Option<Length>| measured.map_or(USED_TRAVEL_M, Quantity::si);
        let droop = ends.droop.filter(|e| -e.travel.si() < far(axle.travel.droop));
        let bump = ends.bump.filter(|e| e.travel.si() < far(axle.travel.metal));
        // A spring's and a damper's linkage are one: said once.
        let repeated = |e: &End| {
            let spring = axle.linkage.spring.ends;
            moves == Moves::Damper && (spring.droop == Some(*e) || spring.bump == Some(*e))
        };
        for end in [droop, bump].into_iter().flatten().filter(|e| !repeated(e)) {
            let (at, way) = (self.length(Length::from_si(end.travel.si().abs())), end.travel.si() > 0.0);
            let text = message!(
                "{side}: according to these points, {lock} {at} {way} ride height, within the wheel travel. Measure the points again; beyond that height the motion ratio is not known.",
                side = axle.side.word(),
                lock = end.lock.words(),
                at,
                way = if way { Word("above") } else { Word("below") }
            );
            let field = format!("{}.linkage.wheel.up", axle.side.key());
            self.push(Level::Doubt, "linkage-locks", field, text);
        }
    }

    /// Points, arm and rows that give different motion ratios; the odd one is named.
    fn ways_apart(&mut self, axle: &AxleAnswer, answer: &Answer, moves: Moves) {
        let checked = answer.checked(axle.side);
        type Way = fn(&RatioWays) -> Option<Ratio>;
        const WAYS: [(&str, Way); 3] = [("points", |w| w.points), ("arm", |w| w.arm), ("rows", |w| w.rows)];
        for (i, (one, of_one)) in WAYS.iter().enumerate() {
            for (other, of_other) in &WAYS[i + 1..] {
                let difference = |a: &AxleAnswer| {
                    let ways = ways(a, moves);
                    Some(of_one(ways)?.si() - of_other(ways)?.si())
                };
                let Some(off) = difference(axle) else { continue };
                let value = of_one(ways(axle, moves)).map_or(0.0, Quantity::si);
                let u = checked.nudged.u_of(difference).unwrap_or(0.0);
                if off.abs() <= APART * u || off.abs() <= SHARE * value.abs() {
                    continue;
                }
                let text = message!(
                    "{side}: the motion ratio is {first:.3} from {one} but {second:.3} from {other}. The difference of {percent:.0} % is larger than their ± can explain. {odd}",
                    side = axle.side.word(),
                    first = value,
                    one = way_words(one),
                    second = value - off,
                    other = way_words(other),
                    percent = 100.0 * (off / value).abs(),
                    odd = self.odd_one(axle, answer, moves, off, one)
                );
                let field = format!(
                    "{}.{}",
                    axle.side.key(),
                    moves.ratio(self.job().axle(axle.side)).by.first_field(moves.key())
                );
                self.push(Level::Doubt, "ratio-ways-apart", field, text);
            }
        }
    }

    /// The row that is off; else the coordinate that, a little elsewhere, would bring the points to what the other way says.
    fn odd_one(&self, axle: &AxleAnswer, answer: &Answer, moves: Moves, off: f64, one: &str) -> Message {
        let checked = answer.checked(axle.side);
        if let Some((Some(row), _)) = moves.rows(checked).and_then(|rows| rows.off) {
            return message!("Row {row} does not fit the others: measure it again.", row = row + 1);
        }
        let by_points = |a: &AxleAnswer| ways(a, moves).points.map(Quantity::si);
        let of_points = checked.nudged.steps(by_points).filter(|(path, _)| path.contains(".linkage."));
        let known = of_points.filter_map(|(path, step)| Some((path, step?)));
        let likeliest = known.max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
        match likeliest.filter(|_| one == "points") {
            Some((path, by_u)) if by_u != 0.0 => {
                let u_si = self.reading.u_at(path).unwrap_or(0.0);
                let shift = Length::from_si((off / by_u * u_si).abs());
                message!(
                    "Measure first: {point}. An error of {shift} there would explain the difference.",
                    point = fields::full_label(path),
                    shift = self.length(shift)
                )
            }
            _ => message!("Measure both again."),
        }
    }

    /// The spring's length between its points is not the one that was measured at the reference height.
    fn not_at_ride_height(&mut self, axle: &AxleAnswer, answer: &Answer, moves: Moves) {
        let data = self.job().axle(axle.side);
        let fitted = match moves {
            Moves::Spring => self.reading.typed(&data.spring.fitted_length),
            Moves::Damper => self.reading.typed(&data.damper.fitted_length),
        };
        let found = ways(axle, moves);
        let Some((between, measured)) = found.points_length.zip(fitted.or(found.rows_length)) else { return };
        let off = (between - measured).abs();
        let u =
            answer.checked(axle.side).nudged.u_of(|a| ways(a, moves).points_length.map(Quantity::si)).unwrap_or(0.0);
        if off.si() <= LENGTHS_APART_M.max(APART * u) {
            return;
        }
        let text = message!(
            "{side}: according to the points, the {part} is {between} long, but {measured} was measured at ride height. Either the points were not measured at ride height, or the position of one end is wrong: measure heights and points with the vehicle settled.",
            side = axle.side.word(),
            part = if moves == Moves::Spring { Word("spring") } else { Word("damper") },
            between = self.length(between),
            measured = self.length(measured)
        );
        let end = if moves == Moves::Spring { "spring_foot" } else { "damper_foot" };
        self.push(Level::Doubt, "points-not-at-ride-height", format!("{}.linkage.{end}.up", axle.side.key()), text);
    }
}

fn ways(axle: &AxleAnswer, moves: Moves) -> &RatioWays {
    match moves {
        Moves::Spring => &axle.linkage.spring,
        Moves::Damper => &axle.linkage.damper,
    }
}

fn way_words(way: &str) -> Word {
    match way {
        "points" => Word("points"),
        "arm" => Word("the arm dimensions"),
        _ => Word("rows"),
    }
}
