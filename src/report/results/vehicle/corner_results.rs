//! Results of the four corners: in every state, in every load case, and what brings the body level.

use crate::base::language::tr;
use crate::base::units::{Angle, Dim, Length, Mass, Quantity, Ratio};
use crate::job::Side;
use crate::report::results::collect::{CORNERS, Out};
use crate::report::results::row::{like, si};
use crate::report::results::{By, Figure, Say, Why};
use crate::say;
use crate::solve::answer::{Answer, CornersStand, State, Vehicle};

const SOLVED: &str = "rigid body on four curves, bars and tyres: ΣF = 0, ΣM = 0";
/// What a change of height is from: before, in a load case as weighed on the same springs.
const AGAINST: [&str; 2] =
    ["change from before, hub to arch, + up", "change from the load as weighed, same springs, hub to arch, + up"];

/// The key of a state among the corners.
pub fn corners_key(state: State) -> &'static str {
    match state {
        State::Before => "before",
        State::OldSprings => "after",
        State::NewSprings => "new",
    }
}

/// All of them.
pub(in crate::report::results) fn add(out: &mut Out, answer: &Answer) {
    let missing = &answer.whole.corners_missing;
    let why = (!missing.is_empty()).then(|| Why::Missing(missing.clone()));
    for state in State::ALL {
        let prefix = format!("whole.corners.{}", corners_key(state));
        let place = Place { prefix, words: state.words().to_string(), height: AGAINST[0], why: why.clone() };
        // Before nothing has risen yet; what was weighed after places the springs, and is no check of them.
        let left_out: &[&str] = if state == State::Before { &["rise", "rise_at_ground"] } else { &[] };
        place.add(out, answer, |v| *v.whole.corners.of(state), left_out);
        if state == State::Before {
            place.residual(out, answer);
        }
    }
    levelling(out, answer);
    for (n, case) in answer.cases.iter().enumerate() {
        let Some(index) = case.index else { continue };
        for state in [State::OldSprings, State::NewSprings] {
            let prefix = format!("{}.corners.{}", case.key(), state.key());
            let words = format!("{}, {}", answer.cases[n].name, state.words());
            let place = Place { prefix, words, height: AGAINST[1], why: why.clone() };
            place.add(out, answer, |v| *v.whole.in_cases.get(index)?.of(state), &["frequency"]);
        }
    }
}

/// Where the results of one stand go.
struct Place {
    prefix: String,
    words: String,
    height: &'static str,
    why: Option<Why>,
}

/// Results of each corner: key, name, quantity, convention, and how a table says it.
type OfCorner = (&'static str, &'static str, Dim, &'static str, Say, fn(&CornersStand, usize) -> Option<f64>);

impl Place {
    fn add(&self, out: &mut Out, answer: &Answer, of: impl Fn(&Vehicle) -> Option<CornersStand>, left_out: &[&str]) {
        let each: [OfCorner; 6] = [
            ("weight", tr("weight"), Dim::Mass, "scale reading", Say::Plain, |s, i| Some(s.weight.walk()[i].si())),
            ("arch", tr("hub to arch"), Dim::Length, "hub centre to wheel arch", Say::Plain, |s, i| {
                s.arch.walk()[i].map(Length::si)
            }),
            ("travel", tr("wheel travel"), Dim::Length, "from the reference height, + in bump", Say::Signed, |s, i| {
                Some(s.travel.walk()[i].si())
            }),
            ("rise", tr("height"), Dim::Length, self.height, Say::Height("as before"), |s, i| {
                s.rise.map(|r| r.walk()[i].si())
            }),
            (
                "rise_at_ground",
                tr("change in body height above the ground"),
                Dim::Length,
                "of the body above the ground, tyre deflection included, + up",
                Say::Height("as before"),
                |s, i| s.rise_at_ground.map(|r| r.walk()[i].si()),
            ),
            (
                "frequency",
                tr("ride frequency"),
                Dim::Frequency,
                "of this corner by itself, tyre not included; the axle's is that of the mean",
                Say::Plain,
                |s, i| s.frequency.map(|f| f.walk()[i].si()),
            ),
        ];
        for (corner, corner_words) in CORNERS {
            let i = CORNERS.iter().position(|c| c.0 == corner).unwrap_or_default();
            for (key, name, dim, convention, how, value) in each {
                if left_out.contains(&key) {
                    continue;
                }
                let name = format!("{}, {name}", tr(corner_words));
                let figure = self.figure(&format!("{corner}.{key}"), &name, dim, convention).say(how);
                out.told(figure, answer, |v| value(&of(v)?, i));
            }
        }
        let lean = self.figure("lean", tr("body lean at rest"), Dim::Angle, "+ right side down, tyres included");
        out.told(lean, answer, |v| Some(Angle::si(of(v)?.lean)));
        let convention = "at the mean track, tyres included";
        let lower = self.figure("right_lower", tr("height difference, + right side lower"), Dim::Length, convention);
        out.told(lower.say(Say::Signed), answer, |v| Some(of(v)?.right_lower.si()));
        let cross = self.figure("cross_weight", tr("cross weight"), Dim::Ratio, "(RF + LR) ÷ total weight");
        out.told(cross.say(Say::Percent(1)), answer, |v| Some(Ratio::si(of(v)?.cross_weight)));
    }

    fn figure(&self, key: &str, name: &str, dim: Dim, convention: &'static str) -> Figure {
        let like = like(format!("{}.{key}", self.prefix), name, dim, convention, SOLVED, "DERIVED");
        Figure { why: self.why.clone(), ..like.of(&self.words).by(By::Solving) }
    }

    /// What was weighed before beyond what the springs carry as the weighing after placed them.
    fn residual(&self, out: &mut Out, answer: &Answer) {
        for (i, (corner, words)) in CORNERS.into_iter().enumerate() {
            let name = say!("{corner}, weighed minus predicted", corner = tr(words));
            let convention = "on the old springs; predicted from the other weigh-in";
            let figure = self.figure(&format!("{corner}.residual"), &name, Dim::Mass, convention);
            let of = |v: &Vehicle| -> Option<Mass> { Some(v.whole.corners.before?.residual?.walk()[i]) };
            out.told(figure.say(Say::Signed), answer, |v| si(of(v)));
        }
    }
}

/// What brings the body level.
fn levelling(out: &mut Out, answer: &Answer) {
    for side in Side::BOTH {
        let name = say!(
            "{side} spring seats, height difference right minus left, for a level body",
            side = side.word_inside()
        );
        let key = format!("whole.levelling.{}.at_seat", side.key());
        let seat = like(key, name, Dim::Length, "along the spring, + if the right seat is higher", SOLVED, "DERIVED");
        out.told(seat.by(By::Solving).say(Say::Signed), answer, |v| v.whole.levelling.map(|l| l.at_seat[side].si()));
    }
    let name = tr("cross weight with the body level");
    let cross = like("whole.levelling.cross_weight", name, Dim::Ratio, "(RF + LR) ÷ total weight", SOLVED, "DERIVED");
    out.told(cross.by(By::Solving).say(Say::Percent(1)), answer, |v| v.whole.levelling.map(|l| l.cross_weight.si()));
}
