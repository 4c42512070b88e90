//! What an answer rests on: the defaults it used, what was not measured, and the fields with a ±.

use super::{Number, Reading};
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::Origin;
use crate::job::{Side, fields};
use crate::solve::answer::{Unmeasured, UsedDefault};

impl Reading<'_> {
    /// The defaults that were used, in the order of the file.
    pub fn into_defaults(self) -> Vec<UsedDefault> {
        let mut defaults = self.noted.take();
        let asked = |i: usize| self.now[i].was_asked();
        let relied_on: Vec<&str> =
            self.numbers.iter().enumerate().filter(|(i, _)| asked(*i)).filter_map(|(_, n)| n.u_from).collect();
        let counted =
            self.numbers.iter().enumerate().filter(|(i, n)| asked(*i) || relied_on.contains(&n.path.as_str()));
        defaults.extend(counted.filter_map(|(i, n)| {
            let (text, reason) = n.default?;
            let (field, _) = fields::by_path(&n.path)?;
            let text = field.in_units(text, &self.texts.units);
            Some(UsedDefault { path: n.path.clone(), text, si: Some(self.read_si(i)), reason })
        }));
        defaults
    }

    /// What was asked for until now, but not measured, in the order of the file.
    pub fn unmeasured(&self) -> Vec<Unmeasured> {
        let asked = self.numbers.iter().zip(&self.now).filter(|(n, now)| now.was_asked() && n.default.is_none());
        asked
            .filter_map(|(n, _)| {
                let origin = n.origin.filter(|o| *o != Origin::Measured)?;
                Some(Unmeasured { path: n.path.clone(), origin })
            })
            .collect()
    }

    /// Fields with a ± that this axle depends on, each with its place: its own, its weights, and what was taken out of or
    /// put into them. Only those that were asked for until now: ask when the axle has been solved.
    pub fn uncertain(&self, side: Side) -> impl Iterator<Item = (usize, &Number)> {
        let corners = match side {
            Side::Front => ["lf", "rf", "front"],
            Side::Rear => ["lr", "rr", "rear"],
        };
        let reckoned = !self.job.parts.is_empty() && (self.job.before.is_blank() || self.job.after.is_blank());
        let sized = self.job.cases.iter().position(|c| c.sized).map(|i| format!("cases[{i}]"));
        let loads = [&self.job.before, &self.job.after].iter().any(|w| !w.loads.is_empty());
        let by_wheelbase = reckoned || sized.is_some() || loads;
        let own = move |path: &str| match path.split_once('.') {
            Some(("before" | "after", field)) => {
                let last = field.rsplit_once('.').map_or(field, |(_, last)| last);
                let read = !field.starts_with("pads") && (corners.contains(&last) || reckoned && !field.contains('.'));
                read || field.starts_with("loads")
            }
            Some(("vehicle", "wheelbase" | "hitch")) => by_wheelbase,
            Some((head, _)) => {
                head == side.key() || reckoned && head.starts_with("parts[") || sized.as_deref() == Some(head)
            }
            None => false,
        };
        self.all_uncertain().filter(move |(_, field)| own(&field.path))
    }

    /// Every field with a ± that was asked for until now, whatever it belongs to.
    pub fn all_uncertain(&self) -> impl Iterator<Item = (usize, &Number)> {
        self.numbers.iter().enumerate().filter(|(i, n)| n.u_si > 0.0 && self.now[*i].was_asked())
    }

    /// Notes a default that is no field's own, once for each side.
    pub fn note_default(&self, side: Side, what: &str, text: impl Into<Message>, reason: Word) {
        let is_it = |path: &str| path.split_once('.') == Some((side.key(), what));
        let mut noted = self.noted.borrow_mut();
        if !noted.iter().any(|d| is_it(&d.path)) {
            let path = format!("{}.{what}", side.key());
            noted.push(UsedDefault { path, text: text.into(), si: None, reason });
        }
    }
}
