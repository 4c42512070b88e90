//! Findings about dampers: curves that cannot be, the old one on the new spring, a candidate.

use std::cmp::Ordering;

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, DamperSpeed, Length, Quantity, Ratio, Velocity};
use crate::job::{Level, Mend, Side};
use crate::message;
use crate::solve::answer::{AxleAnswer, Damping, OldDamper, OldDamperBy};
use crate::solve::evaluate::axle::damping::{offered_curves, old_curve};
use crate::solve::findings::Say;
use crate::solve::findings::edge::{below, is_near, outside};
use crate::trade::damper::{Curve, CurveError, Direction};

/// Half of the last figure shown is no difference.
const SHOWN: f64 = 0.005;

impl Say<'_> {
    pub(in crate::solve::findings) fn dampers(&mut self, axle: &AxleAnswer) {
        self.damper_curves(axle);
        self.damper_fields(axle);
        self.old_damper(axle);
        self.offered_damper(axle);
    }

    fn speed(&self, speed: Velocity) -> Amount {
        Amount::rounded(DamperSpeed::from(speed), self.units)
    }

    /// What is wrong with a curve, its speed in the unit shown.
    fn curve_words(&self, error: &CurveError) -> Message {
        let at = |m_per_s: f64| self.speed(Velocity::from_si(m_per_s));
        match error {
            CurveError::Negative { direction, speed_m_per_s } => {
                message!("the {force} at {speed} is below zero", force = direction.force(), speed = at(*speed_m_per_s))
            }
            CurveError::Twice { direction: Direction::Bump, speed_m_per_s } => {
                message!("there are two bump forces at {speed}; keep one", speed = at(*speed_m_per_s))
            }
            CurveError::Twice { direction: Direction::Rebound, speed_m_per_s } => {
                message!("there are two rebound forces at {speed}; keep one", speed = at(*speed_m_per_s))
            }
            other => other.message(),
        }
    }

    /// The curve ends below a speed, by more than is negligible.
    fn ends_before(&self, curve: &Curve, speed: Velocity) -> bool {
        const SEEN: f64 = 0.005;
        curve.is_beyond(speed) && curve.last_speed().si() < (1.0 - SEEN) * speed.si()
    }

    /// The damping ratio when hot, if it is then below the range. Only for a loss that was typed: with the usual one
    /// half of all dampers would get it, and the table shows it anyway.
    fn too_little_when_hot(&self, side: Side, damping: &Damping, ratio: Ratio, u: Option<f64>) -> Option<Ratio> {
        self.reading.typed(&self.job().axle(side).target.hot_loss)?;
        damping.hot(ratio).filter(|hot| below(hot.si(), damping.ratio.low.si() - SHOWN, u))
    }

    fn damper_curves(&mut self, axle: &AxleAnswer) {
        let (who, key) = (axle.side.word(), axle.side.key());
        let data = self.job().axle(axle.side);
        if let Some(Err(error)) = old_curve(self.reading, data) {
            let text = message!(
                "{who}, rows of the old damper: {error}. Until this is corrected, the old damper counts as not known.",
                who,
                error = self.curve_words(&error)
            );
            self.push(Level::Error, "damper-curve", format!("{key}.damper.rows[0].speed"), text);
        }
        for (click, curve) in offered_curves(self.reading, data).unwrap_or_default() {
            let Err(error) = curve else { continue };
            let rows = match click {
                Some(click) => message!("{who}, rows of the candidate damper at click {click}", who, click),
                None => message!("{who}, rows of the candidate damper", who),
            };
            let text = message!(
                "{rows}: {error}. Until this is corrected, the damper is not assessed.",
                rows,
                error = self.curve_words(&error)
            );
            self.push(Level::Error, "damper-curve", format!("{key}.new_damper.rows[0].speed"), text);
        }
    }

    /// Fields that cannot be used, or are used for nothing.
    fn damper_fields(&mut self, axle: &AxleAnswer) {
        let (who, key) = (axle.side.word(), axle.side.key());
        let data = self.job().axle(axle.side);
        if let Some(loss) = self.reading.typed::<Ratio>(&data.target.hot_loss).filter(|l| l.si() >= 1.0) {
            let text = message!(
                "{who}: a damper that loses {loss:.0} % when hot has no force left. 10 to 25 % is usual.",
                who,
                loss = 100.0 * loss.si()
            );
            self.push(Level::Error, "hot-loss", format!("{key}.target.hot_loss"), text);
        }
        let has_rows = data.damper.rows.iter().any(|r| !r.is_blank());
        if has_rows && !(data.damper.bump_rate.is_blank() && data.damper.rebound_rate.is_blank()) {
            let text = message!(
                "{who}: the curve of the old damper is given, so its rates in bump and rebound are not used.",
                who
            );
            let rates = ["bump_rate", "rebound_rate"].map(|rate| format!("{key}.damper.{rate}"));
            let clear = rates.iter().fold(Mend::new(Word("Clear both damper rates")), |mend, rate| mend.set(rate, ""));
            self.push_with(Level::Note, "damper-twice", format!("{key}.damper.bump_rate"), text, [clear]);
        }
    }

    fn old_damper(&mut self, axle: &AxleAnswer) {
        let (Some(damping), Some(old)) = (&axle.damping, &axle.old_damper) else { return };
        let (who, field) = (axle.side.word(), old_field(axle.side, old.by));
        if let Some(curve) = old.curve.as_ref().filter(|c| self.ends_before(c, damping.peak_speed)) {
            let text = message!(
                "{who}: the old damper's curve ends at {last_speed}; up to {peak_speed} it is extrapolated with its last slope. Measure the damper at higher speed, or choose a lower peak speed.",
                who,
                last_speed = self.speed(curve.last_speed()),
                peak_speed = self.speed(damping.peak_speed)
            );
            self.push(Level::Doubt, "damper-beyond", format!("{}.target.peak_speed", axle.side.key()), text);
        }
        let Some(ratio) = axle.standing.new.as_ref().and_then(|s| s.old_damper_ratio) else { return };
        let [low, high] = [damping.ratio.low, damping.ratio.high].map(Quantity::si);
        let found = self.old_damper_gives(axle, old.by, damping.peak_speed, ratio.si());
        let u = self.u_axle(axle.side, |a| a.standing.new.as_ref()?.old_damper_ratio.map(Quantity::si));
        let before = axle.standing.before.as_ref().and_then(|s| s.old_damper_ratio).map(Quantity::si);
        let end = outside(ratio.si(), [low - SHOWN, high + SHOWN], u);
        let as_before = |text: Message| {
            let was_so = before.is_some_and(|b| outside(b, [low - SHOWN, high + SHOWN], None) == end);
            if was_so { text.and(Word("This was already the case before the change.")) } else { text }
        };
        if end == Some(Ordering::Less) {
            let feels = if ratio.si() < 0.2 {
                Word("The body will float: bounces die out slowly.")
            } else {
                Word("Bounces die out too slowly.")
            };
            let text = message!("{found}; the target is {low:.2} to {high:.2}. {feels}", found, low, high, feels);
            self.damper_off(axle, old, "damper-soft", field, as_before(text));
        } else if end == Some(Ordering::Greater) {
            let text = message!(
                "{found}; the target is {low:.2} to {high:.2}. The ride is harsh on small bumps.",
                found,
                low,
                high
            );
            self.damper_off(axle, old, "damper-stiff", field, as_before(text));
        } else if let Some(hot) = self.too_little_when_hot(axle.side, damping, ratio, u) {
            let text = message!(
                "{found}, within the target range; when hot it gives {hot:.2}, below the minimum of {low:.2}.",
                found,
                low,
                hot = hot.si()
            );
            self.push(Level::Note, "damper-hot", field, text);
        }
    }

    /// The old damper does not do what is wanted: a doubt where something is known of it, else only a note.
    fn damper_off(&mut self, axle: &AxleAnswer, old: &OldDamper, rule: &'static str, field: String, text: Message) {
        if !old.is_assumed {
            return self.push(Level::Doubt, rule, field, text);
        }
        let taken = self.limit(|j| &j.axle(axle.side).damper.ratio_before).map_or(f64::NAN, Quantity::si);
        let assumed = message!(
            "The old damper was not measured; a damping ratio of {taken:.2} before the change is assumed. Test the damper.",
            taken
        );
        self.push(Level::Note, rule, field, text.and(assumed));
    }

    /// "Front: the old damper gives a damping ratio of 0.21 on the new spring".
    fn old_damper_gives(&self, axle: &AxleAnswer, by: OldDamperBy, peak: Velocity, ratio: f64) -> Message {
        let (who, peak) = (axle.side.word(), self.speed(peak));
        match (axle.keeps(), by) {
            (true, OldDamperBy::Curve) => message!(
                "{who}: the old damper gives a damping ratio of {ratio:.2} with the new weight (average up to {peak}, for equal work per stroke)",
                who,
                ratio,
                peak
            ),
            (false, OldDamperBy::Curve) => message!(
                "{who}: the old damper gives a damping ratio of {ratio:.2} on the new spring (average up to {peak}, for equal work per stroke)",
                who,
                ratio,
                peak
            ),
            (true, _) => {
                message!("{who}: the old damper gives a damping ratio of {ratio:.2} with the new weight", who, ratio)
            }
            (false, _) => {
                message!("{who}: the old damper gives a damping ratio of {ratio:.2} on the new spring", who, ratio)
            }
        }
    }

    /// A candidate damper: enough, not too much, long and short enough.
    fn offered_damper(&mut self, axle: &AxleAnswer) {
        let (Some(damping), Some(offered)) = (&axle.damping, &axle.parts.offered_damper) else { return };
        let (who, key) = (axle.side.word(), axle.side.key());
        let field = format!("{key}.new_damper.rows[0].bump");
        let [low, high] = [damping.ratio.low, damping.ratio.high].map(Quantity::si);
        let peak = self.speed(damping.peak_speed);
        let ratio = offered.ratio().si();
        let found = match offered.click() {
            Some(click) => message!(
                "{who}: at click {click}, the nearest to the target, the candidate damper gives a damping ratio of {ratio:.2}",
                who,
                click,
                ratio
            ),
            None => message!("{who}: the candidate damper gives a damping ratio of {ratio:.2}", who, ratio),
        };
        let u = self.u_axle(axle.side, |a| Some(a.parts.offered_damper.as_ref()?.ratio().si()));
        if offered.fit.inside.is_none() && outside(ratio, [low, high], u).is_some() {
            let (rule, does) = if ratio < low {
                ("offered-soft", Word("The damping is too low."))
            } else {
                ("offered-stiff", Word("The ride is harsh on small bumps."))
            };
            let text = message!(
                "{found} (average up to {peak}, for equal work per stroke); the target is {low:.2} to {high:.2}. {does}",
                found,
                peak,
                low,
                high,
                does
            );
            self.push(Level::Doubt, rule, field.clone(), text);
        } else if let Some(hot) = self.too_little_when_hot(axle.side, damping, offered.ratio(), u) {
            let text = message!(
                "{found}, within the target range; when hot it gives {hot:.2}, below the minimum of {low:.2}.",
                found,
                low,
                hot = hot.si()
            );
            self.push(Level::Note, "offered-hot", field.clone(), text);
        }
        if self.ends_before(offered.curve(), damping.peak_speed) {
            let ends = self.speed(offered.curve().last_speed());
            let text = message!(
                "{who}: the candidate damper's curve ends at {ends}; up to {peak} it is extrapolated with its last slope.",
                who,
                ends,
                peak
            );
            self.push(Level::Doubt, "offered-beyond", field, text);
        }
        self.offered_ends(axle.side, [offered.to_closed, offered.to_open]);
    }

    fn offered_ends(&mut self, side: Side, [to_closed, to_open]: [Option<Length>; 2]) {
        let (who, key) = (side.word(), side.key());
        let least = self.limit(|j| &j.limits.damper_room);
        let damper = message!("{who}: the candidate damper", who);
        for (left, rule, field, closes) in
            [(to_closed, "offered-closed", "closed_length", true), (to_open, "offered-open", "open_length", false)]
        {
            let Some((left, least)) = left.zip(least) else { continue };
            let u = self.u_axle(side, |a| {
                let offered = a.parts.offered_damper.as_ref()?;
                if closes { offered.to_closed } else { offered.to_open }.map(Quantity::si)
            });
            let Some(text) = self.damper_end(&damper, closes, (left, least), u) else { continue };
            self.push(Level::Doubt, rule, format!("{key}.new_damper.{field}"), text);
        }
    }

    /// Findings about the end of a damper's travel to which it closes, or opens; `None` when there is room enough.
    pub(in crate::solve::findings) fn damper_end(
        &self,
        damper: &Message,
        closes: bool,
        (left, least): (Length, Length),
        u: Option<f64>,
    ) -> Option<Message> {
        // Half a sixteenth of an inch is no difference a tape shows.
        const SHOWN_M: f64 = 0.000_8;
        let (is_stop, is_held) = (left.si() < 0.0, left.si() >= (least.si() - SHOWN_M).max(0.0));
        if is_held && !is_near(left.si(), least.si(), u) {
            return None;
        }
        let limit = if is_stop { Length::from_si(0.0) } else { least };
        let (left, least) = (self.against(left, limit, u), self.length(least));
        if is_held {
            return Some(match closes {
                true => message!(
                    "{damper} has {left} of travel left at full bump; the minimum of {least} is within the ±. Measure its closed length and the bump travel again.",
                    damper,
                    left,
                    least
                ),
                false => message!(
                    "{damper} has {left} of travel left at full droop; the minimum of {least} is within the ±. Measure its open length and the droop travel again.",
                    damper,
                    left,
                    least
                ),
            });
        }
        Some(match (is_stop, closes) {
            (true, true) => message!(
                "{damper} is fully closed before the wheel reaches full bump: {left} of damper travel is missing. The damper becomes the bump stop. Choose a damper of another length.",
                damper,
                left
            ),
            (true, false) => message!(
                "{damper} is fully open before the wheel reaches full droop: {left} of damper travel is missing. The damper becomes the droop stop. Choose a damper of another length.",
                damper,
                left
            ),
            (false, true) => {
                message!(
                    "{damper} has only {left} of travel left at full bump; the minimum is {least}.",
                    damper,
                    left,
                    least
                )
            }
            (false, false) => {
                message!(
                    "{damper} has only {left} of travel left at full droop; the minimum is {least}.",
                    damper,
                    left,
                    least
                )
            }
        })
    }
}

/// The field by which the old damper is known.
pub(in crate::solve::findings) fn old_field(side: Side, by: OldDamperBy) -> String {
    let field = match by {
        OldDamperBy::Curve => "rows[0].bump",
        OldDamperBy::Rates => "bump_rate",
        OldDamperBy::RatioBefore(_) => "ratio_before",
    };
    format!("{}.damper.{field}", side.key())
}
