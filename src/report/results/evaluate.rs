//! A printed formula worked out: what is on paper is what is evaluated, so that both can never differ.

use std::f64::consts::{PI, TAU};

use crate::base::units::G_M_PER_S2;

/// The value of a formula as it is printed, with these numbers put in for its symbols, in coherent SI.
///
/// `f = √(k_w / m_s) / 2π` gives what follows the first " = ". What follows a ", " is an aside, what precedes a ": "
/// says what is worked out, and brackets with a comma inside explain the symbol before them. Of ways separated by ", or "
/// the first counts that has all its numbers. A product without a sign binds closer than "/". `None` when it is no
/// formula, or a symbol has no number.
///
/// ```
/// use springwright::report::results::evaluate;
/// let with = [("k_w", 39.478_417_604_357_43), ("m_s", 1.0)];
/// assert_eq!(evaluate("f = √(k_w / m_s) / 2π", &with), Some(1.0));
/// assert_eq!(evaluate("as entered", &with), None);
/// ```
pub fn evaluate(formula: &str, with: &[(&str, f64)]) -> Option<f64> {
    let formula = without_remarks(formula);
    let told = formula.rsplit_once(": ").map_or(formula.as_str(), |(_, told)| told);
    told.split(", or ").find_map(|way| {
        let way = way.split_once(", ").map_or(way, |(first, _)| first);
        let way = way.split_once(" = ").map_or(way, |(_, right)| right);
        let mut reader = Reader { rest: way, with };
        let value = reader.sum()?;
        reader.rest.trim_start().is_empty().then_some(value)
    })
}

/// Without the brackets that have a comma inside, and what precedes them by a blank.
fn without_remarks(formula: &str) -> String {
    let mut out = String::with_capacity(formula.len());
    let mut rest = formula;
    while let Some((before, behind)) = rest.split_once('(') {
        let inside = behind.split(['(', ')']).next().unwrap_or_default();
        let is_remark = inside.contains(", ") && behind[inside.len()..].starts_with(')');
        out.push_str(if is_remark { before.trim_end() } else { before });
        if !is_remark {
            out.push('(');
        }
        rest = if is_remark { &behind[inside.len() + 1..] } else { behind };
    }
    out + rest
}

/// A function of one number.
type Function = fn(f64) -> f64;

/// What is still to be read of a formula.
struct Reader<'a> {
    rest: &'a str,
    with: &'a [(&'a str, f64)],
}

impl Reader<'_> {
    /// Takes this sign if it is next.
    fn takes(&mut self, sign: &str) -> bool {
        let rest = self.rest.trim_start().strip_prefix(sign);
        self.rest = rest.unwrap_or(self.rest);
        rest.is_some()
    }

    fn sum(&mut self) -> Option<f64> {
        let mut sum = if self.takes("−") { -self.ratio()? } else { self.ratio()? };
        loop {
            match () {
                () if self.takes("+") => sum += self.ratio()?,
                () if self.takes("−") => sum -= self.ratio()?,
                () => return Some(sum),
            }
        }
    }

    fn ratio(&mut self) -> Option<f64> {
        let mut value = self.product()?;
        loop {
            match () {
                () if self.takes("/") => value /= self.product()?,
                () if self.takes("×") || self.takes("·") => value *= self.product()?,
                () => return Some(value),
            }
        }
    }

    /// Factors side by side.
    fn product(&mut self) -> Option<f64> {
        let mut value = self.power()?;
        while let Some(more) = self.power() {
            value *= more;
        }
        Some(value)
    }

    fn power(&mut self) -> Option<f64> {
        let base = self.factor()?;
        let powers = [("²", 2.0), ("³", 3.0), ("⁴", 4.0), ("^¼", 0.25), ("^⅓", 1.0 / 3.0), ("^m", f64::NAN)];
        let found = powers.iter().find(|(sign, _)| self.rest.starts_with(sign));
        let Some((sign, exponent)) = found else { return Some(base) };
        self.rest = &self.rest[sign.len()..];
        Some(base.powf(if exponent.is_nan() { self.symbol("m")? } else { *exponent }))
    }

    fn factor(&mut self) -> Option<f64> {
        if let Some(value) = self.named() {
            return Some(value);
        }
        let functions: [(&str, Function); 7] = [
            ("√", f64::sqrt),
            ("atan", f64::atan),
            ("asin", f64::asin),
            ("tan", f64::tan),
            ("sin", f64::sin),
            ("cos", f64::cos),
            ("exp", f64::exp),
        ];
        if let Some((_, function)) = functions.iter().find(|(name, _)| self.takes(name)) {
            return Some(function(self.power()?));
        }
        for (open, close) in [("(", ")"), ("|", "|")] {
            let before = self.rest;
            if self.takes(open) {
                let inside = self.sum().filter(|_| self.takes(close));
                if inside.is_none() {
                    self.rest = before;
                }
                return inside.map(|v| if open == "|" { v.abs() } else { v });
            }
        }
        None
    }

    /// A symbol with its number, a constant, a number.
    fn named(&mut self) -> Option<f64> {
        let text = self.rest.trim_start();
        let ends = |rest: &str| !rest.starts_with(|c: char| c.is_alphanumeric() && !"²³⁴¼⅓½".contains(c) || c == '_');
        let known = self.with.iter().filter(|(name, _)| text.strip_prefix(name).is_some_and(ends));
        if let Some((name, value)) = known.max_by_key(|(name, _)| name.len()) {
            self.rest = &text[name.len()..];
            return Some(*value);
        }
        if let Some((name, value)) = [("2π", TAU), ("π", PI), ("g", G_M_PER_S2), ("½", 0.5)]
            .into_iter()
            .find(|(name, _)| text.strip_prefix(name).is_some_and(|rest| *name != "g" || ends(rest)))
        {
            self.rest = &text[name.len()..];
            return Some(value);
        }
        let digits = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
        let value = text[..digits].parse().ok()?;
        self.rest = &text[digits..];
        Some(value)
    }

    fn symbol(&self, name: &str) -> Option<f64> {
        self.with.iter().find(|(n, _)| *n == name).map(|(_, value)| *value)
    }
}
