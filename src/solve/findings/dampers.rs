//! Findings about dampers: curves that cannot be, the old one on the new spring, one that is thought of.

use super::Say;
use crate::damper::{Curve, CurveError};
use crate::job::{Level, Side};
use crate::solve::answer::{AxleAnswer, Damping, OldDamperBy};
use crate::solve::damping::{offered_curves, old_curve};
use crate::solve::keeps;
use crate::units::{DamperSpeed, Length, Quantity, Ratio, Velocity, display};

/// Half of the last figure shown is no difference.
const SHOWN: f64 = 0.005;

impl Say<'_> {
    pub(super) fn dampers(&mut self, axle: &AxleAnswer) {
        self.damper_curves(axle);
        self.damper_fields(axle);
        self.old_damper(axle);
        self.offered_damper(axle);
    }

    fn speed(&self, speed: Velocity) -> String {
        display::rounded(DamperSpeed::from(speed), self.units)
    }

    /// What is wrong with a curve, its speed in the unit shown.
    fn curve_words(&self, error: &CurveError) -> String {
        let at = |m_per_s: f64| self.speed(Velocity::from_si(m_per_s));
        match error {
            CurveError::Negative { direction, speed_m_per_s } => {
                format!("the {} force at {} is below zero", direction.word(), at(*speed_m_per_s))
            }
            CurveError::Twice { direction, speed_m_per_s } => {
                format!("there are two {} forces at {}; keep one", direction.word(), at(*speed_m_per_s))
            }
            other => other.to_string(),
        }
    }

    /// The curve ends below a speed, by more than is shown.
    fn ends_before(&self, curve: &Curve, speed: Velocity) -> bool {
        curve.is_beyond(speed) && self.speed(curve.last_speed()) != self.speed(speed)
    }

    /// The damping ratio when hot, if it is then below the range. Only said of a loss that was typed: with the usual
    /// one it would be said of half of all dampers, and the table tells it anyway.
    fn too_little_when_hot(&self, side: Side, damping: &Damping, ratio: Ratio) -> Option<Ratio> {
        self.reader.typed(&self.job().axle(side).target.hot_loss)?;
        damping.hot(ratio).filter(|hot| hot.si() < damping.ratio.low.si() - SHOWN)
    }

    fn damper_curves(&mut self, axle: &AxleAnswer) {
        let (who, key) = (axle.side.word(), axle.side.key());
        let data = self.job().axle(axle.side);
        if let Some(Err(error)) = old_curve(self.reader, data) {
            let text = format!(
                "{who}, rows of the old damper: {}. Until that is put right the old damper counts as not known.",
                self.curve_words(&error)
            );
            self.push(Level::Error, "damper-curve", format!("{key}.damper.rows[0].speed"), text);
        }
        for (click, curve) in offered_curves(self.reader, data).unwrap_or_default() {
            let Err(error) = curve else { continue };
            let click = click.map_or(String::new(), |n| format!(" at click {n}"));
            let text = format!(
                "{who}, rows of the damper thought of{click}: {}. Until that is put right it is not judged.",
                self.curve_words(&error)
            );
            self.push(Level::Error, "damper-curve", format!("{key}.new_damper.rows[0].speed"), text);
        }
    }

    /// Fields that cannot be used, or are used for nothing.
    fn damper_fields(&mut self, axle: &AxleAnswer) {
        let (who, key) = (axle.side.word(), axle.side.key());
        let data = self.job().axle(axle.side);
        if let Some(loss) = self.reader.typed::<Ratio>(&data.target.hot_loss).filter(|l| l.si() >= 1.0) {
            let text = format!(
                "{who}: a damper that loses {:.0} % when hot has no force left. 10 to 25 % is usual.",
                100.0 * loss.si()
            );
            self.push(Level::Error, "hot-loss", format!("{key}.target.hot_loss"), text);
        }
        let has_rows = data.damper.rows.iter().any(|r| !r.is_blank());
        if has_rows && !(data.damper.bump_rate.is_blank() && data.damper.rebound_rate.is_blank()) {
            let text = format!("{who}: the old damper has a curve; its rates in bump and rebound are not used.");
            self.push(Level::Note, "damper-twice", format!("{key}.damper.bump_rate"), text);
        }
    }

    fn old_damper(&mut self, axle: &AxleAnswer) {
        let (Some(damping), Some(old)) = (&axle.damping, &axle.old_damper) else { return };
        let (who, field) = (axle.side.word(), old_field(axle.side, old.by));
        if let Some(curve) = old.curve.as_ref().filter(|c| self.ends_before(c, damping.peak_speed)) {
            let text = format!(
                "{who}: the old damper's curve ends at {}; its rate at a peak of {} rests on its last slope, continued. Measure it faster, or name a slower peak.",
                self.speed(curve.last_speed()),
                self.speed(damping.peak_speed)
            );
            self.push(Level::Doubt, "damper-beyond", format!("{}.target.peak_speed", axle.side.key()), text);
        }
        let Some(ratio) = axle.standing.new.as_ref().and_then(|s| s.old_damper_ratio) else { return };
        let words = if keeps(axle) { "with the weight after" } else { "on the new spring" };
        let at = match old.by {
            OldDamperBy::Curve => format!(" (equal work at a peak of {})", self.speed(damping.peak_speed)),
            _ => String::new(),
        };
        let [low, high] = [damping.ratio.low, damping.ratio.high].map(Quantity::si);
        let said = format!("{who}: the old damper gives a damping ratio of {:.2} {words}{at}", ratio.si());
        if ratio.si() < low - SHOWN {
            let feels = if ratio.si() < 0.2 {
                "The body will float: bounces die out slowly."
            } else {
                "Bounces die out more slowly than wanted."
            };
            self.push(Level::Doubt, "damper-soft", field, format!("{said}; {low:.2} to {high:.2} is wanted. {feels}"));
        } else if ratio.si() > high + SHOWN {
            let text = format!("{said}; {low:.2} to {high:.2} is wanted. Small bumps will come through.");
            self.push(Level::Doubt, "damper-stiff", field, text);
        } else if let Some(hot) = self.too_little_when_hot(axle.side, damping, ratio) {
            let text = format!("{said}, inside the wanted range; when hot {:.2}, below {low:.2}.", hot.si());
            self.push(Level::Note, "damper-hot", field, text);
        }
    }

    /// A damper that is thought of: enough, not too much, long and short enough.
    fn offered_damper(&mut self, axle: &AxleAnswer) {
        let (Some(damping), Some(offered)) = (&axle.damping, &axle.offered_damper) else { return };
        let (who, key) = (axle.side.word(), axle.side.key());
        let field = format!("{key}.new_damper.rows[0].bump");
        let [low, high] = [damping.ratio.low, damping.ratio.high].map(Quantity::si);
        let peak = self.speed(damping.peak_speed);
        let at_best = offered.click().map_or(String::new(), |n| format!(" at click {n}, the nearest,"));
        let said =
            format!("{who}: the damper thought of gives{at_best} a damping ratio of {:.2}", offered.ratio().si());
        if offered.fit.inside.is_none() {
            let (rule, does) = if offered.ratio().si() < low {
                ("offered-soft", "It calms the motion too little.")
            } else {
                ("offered-stiff", "Small bumps will come through.")
            };
            let text = format!("{said} (equal work at a peak of {peak}); {low:.2} to {high:.2} is wanted. {does}");
            self.push(Level::Doubt, rule, field.clone(), text);
        } else if let Some(hot) = self.too_little_when_hot(axle.side, damping, offered.ratio()) {
            let text = format!("{said}, inside the wanted range; when hot {:.2}, below {low:.2}.", hot.si());
            self.push(Level::Note, "offered-hot", field.clone(), text);
        }
        if self.ends_before(offered.curve(), damping.peak_speed) {
            let ends = self.speed(offered.curve().last_speed());
            let text = format!(
                "{who}: the curve of the damper thought of ends at {ends}; its rate at a peak of {peak} rests on its last slope, continued."
            );
            self.push(Level::Doubt, "offered-beyond", field, text);
        }
        let least = self.limit(|j| &j.limits.damper_room);
        for (left, rule, field, at, short) in [
            (offered.to_closed, "offered-closed", "closed_length", "full bump", "closed"),
            (offered.to_open, "offered-open", "open_length", "full droop", "open"),
        ] {
            let Some((left, least)) = left.zip(least) else { continue };
            let Some(text) = self.damper_end(left, least, at, short) else { continue };
            self.push(
                Level::Doubt,
                rule,
                format!("{key}.new_damper.{field}"),
                format!("{who}: the damper thought of {text}"),
            );
        }
    }

    /// What is said of one end of a damper's travel; `None` when there is room enough.
    pub(super) fn damper_end(&self, left: Length, least: Length, at: &str, short: &str) -> Option<String> {
        // Half a sixteenth of an inch is no difference a tape shows.
        const SHOWN_M: f64 = 0.000_8;
        if left.si() >= least.si() - SHOWN_M {
            return None;
        }
        let stop = if short == "open" { "the droop stop" } else { "the stop" };
        Some(if left.si() < 0.0 {
            format!(
                "is fully {short} {} of its own travel before the wheel is at {at}, so it becomes {stop}. A damper of other length is needed.",
                self.length(-left)
            )
        } else {
            format!("has only {} left at {at}; at least {} is asked for.", self.length(left), self.length(least))
        })
    }
}

/// The field by which the old damper is known.
fn old_field(side: Side, by: OldDamperBy) -> String {
    let field = match by {
        OldDamperBy::Curve => "rows[0].bump",
        OldDamperBy::Rates => "bump_rate",
        OldDamperBy::RatioBefore => "ratio_before",
    };
    format!("{}.damper.{field}", side.key())
}
