//! An unstated suspension: the wide ± of what was not measured hides findings, so a finding requests it.

use super::Say;
use crate::base::message::Message;
use crate::job::{AxleKind, Coaxial, Finding, Job, Level, Side, Suspension};
use crate::message;
use crate::solve::answer::AxleAnswer;

/// The suspension of an axle is not stated, though it matters.
pub(super) fn is_open(job: &Job) -> bool {
    Side::BOTH.into_iter().any(|side| is_open_of(job, side))
}

fn is_open_of(job: &Job, side: Side) -> bool {
    let axle = job.axle(side);
    axle.suspension == Suspension::NotSaid && axle.kind == AxleKind::Independent
}

/// A question for each axle that would have a finding if it had two arms; `found` is what is reported anyway.
pub(super) fn asked(job: &Job, found: &[Finding], with_two_arms: Vec<Finding>) -> Vec<Finding> {
    let is_said = |f: &Finding| found.iter().any(|said| said.rule == f.rule && said.field == f.field);
    let hidden: Vec<Finding> = with_two_arms.into_iter().filter(|f| f.level > Level::Note && !is_said(f)).collect();
    let open: Vec<Side> = Side::BOTH.into_iter().filter(|side| is_open_of(job, *side)).collect();
    // What is about both axles is asked of the first that is open.
    let asks = |side: Side, f: &Finding| {
        let own = open.iter().copied().find(|s| f.field.split('.').next() == Some(s.key()));
        own.or(open.first().copied()) == Some(side)
    };
    let question = |side: &Side| {
        let own = Message::row([side.word().into(), Message::Symbol(": ")], "");
        let texts: Vec<Message> =
            hidden.iter().filter(|f| asks(*side, f)).map(|f| f.text.clone().without(own.clone())).collect();
        (!texts.is_empty()).then(|| {
            let text = message!(
                "{side}: choose the suspension. Until then the motion ratio may change with travel as much as on a strut, and the following cannot be decided: {findings}",
                side = side.word(),
                findings = Message::row(texts, " ")
            );
            Finding::new(Level::Doubt, "suspension-unknown", format!("{}.ratio.slope", side.key()), text)
        })
    };
    open.iter().filter_map(question).collect()
}

impl Say<'_> {
    /// A bar or a leaf is never one unit with a damper.
    pub(super) fn coaxial(&mut self, axle: &AxleAnswer) {
        let data = self.texts().axle(axle.side);
        if data.damper.coaxial == Coaxial::Yes && !data.spring.kind.is_coil() {
            let text = message!(
                "{side}: spring and damper are entered as one unit, but the spring is a {kind}. Choose two parts, or correct the kind of spring: the order of work treats them as two parts.",
                side = axle.side.word(),
                kind = data.spring.kind.words()
            );
            let field = format!("{}.{}", axle.side.key(), self.rate_field(axle));
            self.push(Level::Doubt, "coaxial-kind", field, text);
        }
    }

    /// What a ± shrinks by where an unstated suspension counts as two arms; 1 where it does not.
    pub(super) fn with_two_arms<'s>(&self, shares: impl FnOnce() -> Vec<(&'s str, f64)>) -> f64 {
        if !self.as_two_arms {
            return 1.0;
        }
        let within = |suspension: Suspension| suspension.unknown_slope_per_m(AxleKind::Independent);
        let narrower = within(Suspension::TwoArms) / within(Suspension::NotSaid);
        let share: f64 = shares().into_iter().filter(|(path, _)| self.is_open_slope(path)).map(|s| s.1).sum();
        (1.0 - share * (1.0 - narrower * narrower)).max(0.0).sqrt()
    }

    /// The change of a motion ratio that was not measured, on a suspension that is not stated.
    fn is_open_slope(&self, path: &str) -> bool {
        let Some((key, field)) = path.split_once('.') else { return false };
        let Some(side) = Side::BOTH.into_iter().find(|s| s.key() == key) else { return false };
        let axle = self.texts().axle(side);
        let slope = match field {
            "ratio.slope" => &axle.ratio.slope,
            "damper_ratio.slope" => &axle.damper_ratio.slope,
            _ => return false,
        };
        is_open_of(self.texts(), side) && slope.is_blank()
    }
}
