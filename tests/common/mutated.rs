//! The text of a job changed at random: numbers, units, rows, variants, fields and texts, still mostly readable.

use rand_distr::{Distribution as _, Uniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;
use springwright::base::units::table::UNITS;

/// A job file as brackets, keys and values.
#[derive(Debug, Clone)]
pub enum Tree {
    /// `( … )`, `[ … ]` or `Name( … )`: what opens it, and its items with their keys, blank where there is none.
    Group(String, Vec<(String, Tree)>),
    /// A text without its quotation marks, escapes as they stand.
    Text(String),
    /// A number, a variant, a truth value.
    Word(String),
}

/// Variants by the key of their field.
const VARIANTS: [(&str, &[&str]); 18] = [
    ("kind", &["Independent", "Beam"]),
    ("kind", &["Coil", "WithHelper", "Progressive", "TorsionBar", "Leaf"]),
    ("plan", &["NewSprings", "Keep"]),
    ("by", &["Moved", "Rows", "Number", "Lean"]),
    ("by", &["Stated", "Test", "Sizes"]),
    ("rate_by", &["Stated", "Wire", "Press", "Together"]),
    ("fitted", &["No", "Always", "WithNew"]),
    ("measured_at", &["Before", "After"]),
    ("goal", &["Range", "AsBefore"]),
    ("way", &["In", "Out"]),
    ("on", &["Body", "FrontAxle", "RearAxle"]),
    ("material", &["OilTempered", "MusicWire", "HardDrawn", "ChromeVanadium", "ChromeSilicon", "SiliconManganese"]),
    ("ends", &["Plain", "PlainGround", "Closed", "ClosedGround", "Counted"]),
    ("class", &["A", "B", "C", "D", "E"]),
    ("origin", &["Guessed", "Quoted", "Ledger", "Measured"]),
    ("spread", &["Limits", "Standard"]),
    ("decimal", &["Point", "Comma"]),
    ("sized", &["true", "false"]),
];

/// What a number is multiplied by.
const FACTORS: [f64; 22] = [
    0.0, -1.0, 1e-9, 1e-6, 1e-3, 0.01, 0.1, 0.3, 0.5, 0.8, 0.95, 1.05, 1.25, 2.0, 3.0, 5.71, 9.81, 100.0, 1e3, 1e6,
    1e9, 1e300,
];

/// Texts in place of a number or a name.
const ODD: [&str; 24] = [
    "",
    " ",
    "NaN",
    "-inf kg",
    "1e400 mm",
    "0",
    "-0 mm",
    "½ in",
    "11-1/4\\\"",
    "1,155 lb",
    "1.155,5 kg",
    "± 5 %",
    "100 %",
    "99999999999999999999999999 kg",
    "0.000000000000000001 mm",
    "1e-320 N/mm",
    "\\u{0}\\u{7}",
    "\\u{202e}abc\\u{2066}",
    "مرحبا שלום",
    "😀🚐",
    "a\\nb\\tc\\\\",
    "| # * _ ` <b> ${x} {placeholder}",
    "٣٤٥ mm",
    "-12 kg",
];

/// A source of chance.
pub struct Chance(Xoshiro256PlusPlus);

impl Chance {
    /// The same for the same two numbers.
    pub fn of(seed: u64, index: u64) -> Self {
        Chance(Xoshiro256PlusPlus::seed_from_u64(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ index))
    }

    /// From nothing to `end`, not included.
    pub fn below(&mut self, end: usize) -> usize {
        Uniform::new(0, end.max(1)).expect("a range").sample(&mut self.0)
    }

    /// One of them.
    pub fn one<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.below(of.len())]
    }
}

impl Tree {
    /// The tree of a text that this program has written or ships.
    pub fn read(text: &str) -> Tree {
        let code: Vec<&str> = text.lines().filter(|l| !l.trim_start().starts_with("//")).collect();
        let code = code.join("\n");
        let mut rest = code.trim_start();
        value(&mut rest)
    }

    /// The text again.
    pub fn text(&self) -> String {
        match self {
            Tree::Word(word) => word.clone(),
            Tree::Text(text) => format!("\"{text}\""),
            Tree::Group(open, items) => {
                let items: Vec<String> = items
                    .iter()
                    .map(|(key, item)| if key.is_empty() { item.text() } else { format!("{key}: {}", item.text()) })
                    .collect();
                let close = if open.ends_with('[') { "]" } else { ")" };
                format!("{open}{}{close}", items.join(", "))
            }
        }
    }

    /// How many values are in it, itself included.
    fn count(&self) -> usize {
        match self {
            Tree::Group(_, items) => 1 + items.iter().map(|(_, item)| item.count()).sum::<usize>(),
            _ => 1,
        }
    }

    /// The value of this number in the order of the text, with its key.
    fn at(&mut self, key: &str, number: &mut usize, change: &mut dyn FnMut(&str, &mut Tree)) {
        if *number == 0 {
            change(key, self);
        }
        let Some(left) = number.checked_sub(1) else { return };
        *number = left;
        if let Tree::Group(_, items) = self {
            for (key, item) in items {
                item.at(key, number, change);
                if *number == usize::MAX {
                    return;
                }
            }
        }
    }

    /// Changes one value somewhere.
    pub fn change(&mut self, chance: &mut Chance) {
        let mut number = 2 + chance.below(self.count().saturating_sub(2));
        self.at("", &mut number, &mut |key, tree| tree.change_here(key, chance));
    }

    fn change_here(&mut self, key: &str, chance: &mut Chance) {
        match self {
            Tree::Text(text) => *text = changed_text(text, chance),
            Tree::Word(word) => {
                if let Some((_, variants)) = VARIANTS.iter().find(|(k, v)| *k == key && v.contains(&word.as_str())) {
                    *word = (*chance.one(variants)).to_owned();
                }
            }
            Tree::Group(_, items) if items.is_empty() => {}
            Tree::Group(open, items) => {
                let at = chance.below(items.len());
                match chance.below(4) {
                    0 => drop(items.remove(at)),
                    1 if open.ends_with('[') => {
                        let again = items[at].clone();
                        (0..=chance.below(3)).for_each(|_| items.push(again.clone()));
                    }
                    2 if open.ends_with('[') => items.reverse(),
                    3 if open.ends_with('[') && chance.below(4) == 0 => {
                        let again = items[at].clone();
                        (0..chance.below(500)).for_each(|_| items.push(again.clone()));
                    }
                    _ => {
                        let (key, item) = &mut items[at];
                        item.change_here(key, chance);
                    }
                }
            }
        }
    }
}

fn changed_text(text: &str, chance: &mut Chance) -> String {
    let digits = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-')).unwrap_or(text.len());
    let (number, unit) = text.split_at(digits);
    let Ok(number) = number.parse::<f64>() else {
        return match chance.below(12) {
            0 => "x".repeat(chance.below(30_000)),
            // A name that reads like no number would be printed as it stands.
            _ => chance.one(&ODD).replace("NaN", "nan kg").replace("inf", "x"),
        };
    };
    match chance.below(10) {
        0 => (*chance.one(&ODD)).to_owned(),
        1 | 2 => format!("{number} {}", chance.one(UNITS).symbol),
        3 => number.to_string(),
        _ => format!("{}{unit}", number * chance.one(&FACTORS)),
    }
}

fn value(rest: &mut &str) -> Tree {
    let text = rest.trim_start();
    if let Some(quoted) = text.strip_prefix('"') {
        let mut escaped = false;
        let end = quoted.find(|c| {
            let ends = c == '"' && !escaped;
            escaped = c == '\\' && !escaped;
            ends
        });
        let end = end.expect("a closed text");
        *rest = &quoted[end + 1..];
        return Tree::Text(quoted[..end].to_owned());
    }
    let word = text.find(|c: char| ",:()[]".contains(c)).unwrap_or(text.len());
    match text[word..].chars().next() {
        Some(open @ ('(' | '[')) => {
            *rest = &text[word + 1..];
            Tree::Group(format!("{}{open}", text[..word].trim()), items(rest))
        }
        _ => {
            *rest = &text[word..];
            Tree::Word(text[..word].trim().to_owned())
        }
    }
}

fn items(rest: &mut &str) -> Vec<(String, Tree)> {
    let mut found = Vec::new();
    loop {
        let text = rest.trim_start();
        if let Some(behind) = text.strip_prefix([')', ']']) {
            *rest = behind;
            return found;
        }
        let name = text.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(text.len());
        let key = if text[name..].starts_with(':') { &text[..name] } else { "" };
        *rest = if key.is_empty() { text } else { &text[name + 1..] };
        found.push((key.to_owned(), value(rest)));
        *rest = rest.trim_start().strip_prefix(',').unwrap_or(rest.trim_start());
    }
}
