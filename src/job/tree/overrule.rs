//! An engineer's word against a doubt: which rule, on which values, whose initials.

use super::Job;
use super::record::{self, Walk, record};

record! {
    /// A rule that is overruled for the values it was seen with.
    pub struct Overrule {
        /// The name of the rule, as findings have it.
        pub rule: String,
        /// What the rule rested on then, field by field: it lapses when one of them changes.
        pub values: String,
        /// Who answers for it.
        pub initials: String,
    }
}

impl Overrule {
    /// It is signed, and about this rule on these values.
    pub fn covers(&self, rule: &str, values: &str) -> bool {
        self.is_about(rule, values) && !self.initials.trim().is_empty()
    }

    /// It is about this rule on these values, signed or not.
    pub fn is_about(&self, rule: &str, values: &str) -> bool {
        self.rule.trim() == rule && self.values.trim() == values
    }

    /// It was about this rule and these fields, but with other values.
    pub fn has_lapsed(&self, rule: &str, values: &str) -> bool {
        let fields = |values: &str| -> Vec<String> {
            values.split(';').map(|v| v.split('=').next().unwrap_or_default().trim().to_owned()).collect()
        };
        self.rule.trim() == rule && self.values.trim() != values && fields(&self.values) == fields(values)
    }
}

/// These fields with what is typed in them and its ±: `front.spring.rate = 310 N/mm; front.spring.rate ± 5 %`.
pub fn values(job: &Job, fields: &[String]) -> String {
    let mut found: Vec<(usize, String)> = Vec::new();
    job.walk(&mut String::new(), &mut |path, entry| {
        let Some(place) = fields.iter().position(|f| f == path) else { return };
        let (pm, _) = entry.pm();
        let pm = if pm.trim().is_empty() { String::new() } else { format!(" ± {}", pm.trim()) };
        let text = if entry.text().trim().is_empty() { "blank" } else { entry.text().trim() };
        found.push((place, format!("{path} = {text}{pm}")));
    });
    found.sort();
    found.into_iter().map(|(_, text)| text.replace(';', ",")).collect::<Vec<_>>().join("; ")
}
