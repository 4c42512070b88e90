//! The table of fields: label, meaning, what is usual, what is allowed, and the default.
//!
//! One row per field; the window, the findings, the file documentation and the
//! solver all read this table. To add a field: add it to the tree in
//! [`crate::job`], add its row here, use it in [`crate::solve`].

use super::{AxleKind, Job, Side};
use crate::units::{Dim, UnitChoice, display};

/// Which values are possible at all. Anything else is refused, not repaired.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Possible {
    /// Any finite number.
    Any,
    /// Above zero.
    AboveZero,
    /// Zero or above.
    NotNegative,
}

impl Possible {
    /// Whether a value in SI is possible.
    pub fn allows(self, si: f64) -> bool {
        match self {
            Possible::Any => true,
            Possible::AboveZero => si > 0.0,
            Possible::NotNegative => si >= 0.0,
        }
    }

    /// "must be above zero".
    pub fn phrase(self) -> &'static str {
        match self {
            Possible::Any => "may be any number",
            Possible::AboveZero => "must be above zero",
            Possible::NotNegative => "must be zero or above",
        }
    }
}

/// A default: a text as it could have been typed, and why.
pub type DefaultOf = fn(&Job, Side) -> (&'static str, &'static str);

/// One row of the table.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Path within the axle, the weighing or the job, row numbers left out.
    pub key: &'static str,
    /// The name on screen and in messages.
    pub label: &'static str,
    /// What it measures.
    pub dim: Dim,
    /// Which values are possible.
    pub possible: Possible,
    /// What is usual, in SI; outside is a question, not a refusal.
    pub usual: Option<(f64, f64)>,
    /// What is used when the field is blank.
    pub default: Option<DefaultOf>,
    /// How to measure it, where it counts.
    pub help: &'static str,
}

impl Field {
    const fn new(key: &'static str, label: &'static str, dim: Dim, possible: Possible, help: &'static str) -> Self {
        Field { key, label, dim, possible, usual: None, default: None, help }
    }

    const fn usual(mut self, low_si: f64, high_si: f64) -> Self {
        self.usual = Some((low_si, high_si));
        self
    }

    const fn default(mut self, default: DefaultOf) -> Self {
        self.default = Some(default);
        self
    }

    /// "70 to 1,400 kg" in the units shown.
    pub fn usual_phrase(&self, units: &UnitChoice) -> Option<String> {
        let (low, high) = self.usual?;
        let number = |si| display::rounded_number(si, units.unit(self.dim));
        Some(format!("{} to {}", number(low), display::rounded_si(high, self.dim, units)))
    }
}

const PRACTICE: &str = "common practice, no source";

fn by_units<'a>(job: &Job, metric: &'a str, pound_inch: &'a str) -> &'a str {
    if job.units.unit(Dim::SpringRate).symbol == "lb/in" { pound_inch } else { metric }
}

use Dim::{DampingRate, Frequency, Length, Mass, Pressure, Ratio, SpringRate};
use Possible::{AboveZero, Any, NotNegative};

/// Every field, sorted by key.
pub static FIELDS: &[Field] = &[
    Field::new("damper.bump_rate", "Bump rate at the damper", DampingRate, NotNegative,
        "From a test sheet: bump force divided by speed. Leave blank if only the damping ratio is known."),
    Field::new("damper.closed_length", "Damper closed length", Length, AboveZero,
        "Eye to eye with the rod fully in. From the catalogue or by pushing the damper shut off the vehicle."),
    Field::new("damper.fitted_length", "Damper length at ride height", Length, AboveZero,
        "Eye to eye on the vehicle at the height at which the other lengths were taken."),
    Field::new("damper.gas_pressure", "Gas pressure", Pressure, NotNegative,
        "Gauge pressure of a gas damper; it lifts the body a little. Blank or 0 for a damper without gas.")
        .usual(0.0, 30e5).default(|_, _| ("0 bar", "no gas unless you say so")),
    Field::new("damper.open_length", "Damper open length", Length, AboveZero,
        "Eye to eye with the rod fully out."),
    Field::new("damper.ratio_before", "Damping ratio before", Ratio, NotNegative,
        "Share of critical damping with the old spring and the old weight; used to judge the old damper on the new spring.")
        .usual(0.05, 0.8).default(|_, _| ("0.25", "a road damper in fair order; common practice, no source")),
    Field::new("damper.rebound_rate", "Rebound rate at the damper", DampingRate, NotNegative,
        "From a test sheet: rebound force divided by speed."),
    Field::new("damper.rod_diameter", "Damper rod diameter", Length, NotNegative,
        "Only used with gas pressure.").usual(0.0, 0.03).default(|_, _| ("0 mm", "no gas unless you say so")),
    Field::new("damper_ratio.confirm", "Wheel moved 1.00: damper moved", Ratio, AboveZero,
        "Answer as if you watched it: while the wheel goes up by 1.00, the damper shortens by this much."),
    Field::new("damper_ratio.number", "Damper motion ratio", Ratio, AboveZero,
        "Damper travel divided by wheel travel, usually below 1.").usual(0.45, 1.02),
    Field::new("damper_ratio.part_moved", "Damper got shorter by", Length, AboveZero,
        "How much the damper shortened while the wheel went up by the distance beside it."),
    Field::new("damper_ratio.rows.length", "Damper length", Length, AboveZero, "Eye to eye at this wheel travel."),
    Field::new("damper_ratio.rows.wheel", "Wheel travel", Length, Any,
        "From the reference height; + with the wheel up (bump), − with the wheel down."),
    Field::new("damper_ratio.wheel_moved", "Wheel moved up by", Length, AboveZero,
        "Vertical wheel travel, for instance on a jack with the spring out."),
    Field::new("limits.bind_room", "Room to coil bind", Length, NotNegative,
        "Least gap left between spring length at full bump (metal) and solid length.")
        .default(|_, _| ("6 mm", PRACTICE)),
    Field::new("limits.cross", "Cross weight either side of 50 %", Ratio, NotNegative,
        "Cross weight is (right front + left rear) over total.").default(|_, _| ("2 %", PRACTICE)),
    Field::new("limits.damper_room", "Room at the damper's ends", Length, NotNegative,
        "Least travel left in the damper at full bump and at full droop.").default(|_, _| ("5 mm", PRACTICE)),
    Field::new("limits.frequency_high", "Highest credible frequency", Frequency, AboveZero,
        "Above it, units or motion ratio are probably wrong.").default(|_, _| ("3.5 Hz", PRACTICE)),
    Field::new("limits.frequency_low", "Lowest credible frequency", Frequency, AboveZero,
        "Below it, units or motion ratio are probably wrong.").default(|_, _| ("0.8 Hz", PRACTICE)),
    Field::new("limits.left_right", "Left against right", Ratio, NotNegative,
        "Difference on one axle as a share of that axle.").default(|_, _| ("8 %", PRACTICE)),
    Field::new("limits.rating_amber", "Amber from this share of a rating", Ratio, AboveZero,
        "From here on the axle is near its rating.").default(|_, _| ("95 %", PRACTICE)),
    Field::new("limits.rear_front_high", "Highest rear ÷ front frequency", Ratio, AboveZero,
        "Above it the rear is harsh against the front.").default(|_, _| ("1.35", PRACTICE)),
    Field::new("limits.rear_front_low", "Lowest rear ÷ front frequency", Ratio, AboveZero,
        "Below it the vehicle pitches on the road.").default(|_, _| ("1.0", PRACTICE)),
    Field::new("limits.seat_room", "Grip of the spring at droop", Length, NotNegative,
        "Least compression left at full droop, so that the spring stays in its seats.")
        .default(|_, _| ("5 mm", PRACTICE)),
    Field::new("limits.unsprung_beam", "Unsprung share, beam axle", Ratio, AboveZero,
        "Of the corner's reading.").default(|_, _| ("40 %", PRACTICE)),
    Field::new("limits.unsprung_independent", "Unsprung share, independent", Ratio, AboveZero,
        "Of the corner's reading.").default(|_, _| ("25 %", PRACTICE)),
    Field::new("parallel.neutral", "Rubber neutral at wheel travel", Length, Any,
        "Wheel travel at which rubber pivots carry nothing: the height at which they were tightened.")
        .default(|_, _| ("0 mm", "pivots tightened at ride height; a newly fitted spring's own ride height counts for it")),
    Field::new("parallel.rate", "Rubber and other rate at the wheel", SpringRate, NotNegative,
        "What rubber pivots add to the wheel rate. A few per cent of the wheel rate is usual; more with stiff bushes.")
        .usual(0.0, 20e3).default(|_, _| ("0 N/mm", "left out unless you say so: errs to a slightly stiffer spring")),
    Field::new("rating", "Axle rating", Mass, AboveZero,
        "From the plate or the papers. A heavier spring raises no rating. Blank: not checked."),
    Field::new("ratio.confirm", "Wheel moved 1.00: spring moved", Ratio, AboveZero,
        "Answer as if you watched it: while the wheel goes up by 1.00, the spring shortens by this much."),
    Field::new("ratio.number", "Motion ratio", Ratio, AboveZero,
        "Spring travel divided by wheel travel, usually below 1. Two lengths are safer.").usual(0.45, 1.02),
    Field::new("ratio.part_moved", "Spring got shorter by", Length, AboveZero,
        "How much the spring shortened, along its own axis, while the wheel went up by the distance beside it."),
    Field::new("ratio.rows.length", "Spring length", Length, AboveZero, "Along the spring's own axis at this wheel travel."),
    Field::new("ratio.rows.wheel", "Wheel travel", Length, Any,
        "From the reference height; + with the wheel up (bump), − with the wheel down."),
    Field::new("ratio.wheel_moved", "Wheel moved up by", Length, AboveZero,
        "Vertical wheel travel, for instance on a jack with the spring out."),
    Field::new("spring.fitted_length", "Spring length at ride height", Length, AboveZero,
        "Seat to seat along the spring's axis, vehicle on its wheels. Needed for free length, bind and seat checks."),
    Field::new("spring.free_length", "Old free length", Length, AboveZero,
        "The old spring off the vehicle. With the fitted length it gives a second route to the rate."),
    Field::new("spring.rate", "Old spring rate", SpringRate, AboveZero,
        "From a stamp, a catalogue or a press. Units matter: 100 lb/in is 17.5 N/mm.").usual(5e3, 400e3),
    Field::new("spring.solid_length", "Old solid length", Length, AboveZero,
        "Length of the old spring with all coils touching. Needed for the bind check."),
    Field::new("stock.settle", "Allowance for settling", Length, NotNegative,
        "A new spring gets a little shorter in its first weeks; this is added to the free length to order.")
        .default(|job, _| (by_units(job, "3 mm", "1/8 in"), PRACTICE)),
    Field::new("stock.solid_length", "New solid length", Length, AboveZero,
        "Length of the new spring with all coils touching. Blank: taken as the old spring's."),
    Field::new("stock.step", "Step between stock rates", SpringRate, AboveZero,
        "Springs can be bought in whole multiples of this.")
        .default(|job, _| (by_units(job, "5 N/mm", "25 lb/in"), PRACTICE)),
    Field::new("target.damping_high", "Highest damping ratio", Ratio, AboveZero,
        "Comfort 0.2 to 0.3, street 0.25 to 0.35, sport 0.35 to 0.5, track 0.5 to 0.7 (common practice).")
        .usual(0.1, 1.0).default(|_, _| ("0.35", "street use; common practice, no source")),
    Field::new("target.damping_low", "Lowest damping ratio", Ratio, AboveZero,
        "Comfort 0.2 to 0.3, street 0.25 to 0.35, sport 0.35 to 0.5, track 0.5 to 0.7 (common practice).")
        .usual(0.1, 1.0).default(|_, _| ("0.25", "street use; common practice, no source")),
    Field::new("target.high", "Highest ride frequency", Frequency, AboveZero,
        "On springs. Comfort 1.0 to 1.3, street 1.2 to 1.6, sport 1.5 to 1.9, track 1.8 to 2.5, race 2.5 to 3.5 Hz (common practice).")
        .usual(0.8, 3.5).default(|_, side| match side {
            Side::Front => ("1.4 Hz", "street use, front; common practice, no source"),
            Side::Rear => ("1.6 Hz", "street use, rear quicker than the front; common practice, no source"),
        }),
    Field::new("target.low", "Lowest ride frequency", Frequency, AboveZero,
        "On springs. Comfort 1.0 to 1.3, street 1.2 to 1.6, sport 1.5 to 1.9, track 1.8 to 2.5, race 2.5 to 3.5 Hz (common practice).")
        .usual(0.8, 3.5).default(|_, side| match side {
            Side::Front => ("1.2 Hz", "street use, front; common practice, no source"),
            Side::Rear => ("1.4 Hz", "street use, rear quicker than the front; common practice, no source"),
        }),
    Field::new("target.margin", "Either side of the frequency before", Ratio, NotNegative,
        "How far from the old ride frequency is still \"as before\".").usual(0.0, 0.2)
        .default(|_, _| ("4 %", "a driver hardly tells it; common practice, no source")),
    Field::new("target.raise", "Raise above the old height", Length, Any,
        "Height wanted at the wheel, against the height before the swap; − to lower. Without before-weights: against the present height.")
        .usual(-0.1, 0.1).default(|_, _| ("0 mm", "the old height")),
    Field::new("target.rebound_over_bump", "Rebound ÷ bump", Ratio, AboveZero,
        "How much stiffer the new damper is in rebound than in bump.")
        .usual(1.0, 4.0).default(|_, _| ("2", "common practice, no source: 1.5 to 3 is usual")),
    Field::new("track", "Track", Length, AboveZero,
        "Between the centres of the two tyres. Only the drawing uses it so far.").usual(1.0, 2.2)
        .default(|_, _| ("1.5 m", "for the drawing only")),
    Field::new("travel.droop", "Droop travel", Length, NotNegative,
        "From the reference height to full droop, at the wheel. Needed for the seat check.").usual(0.02, 0.3),
    Field::new("travel.metal", "Bump travel to metal", Length, AboveZero,
        "From the reference height to where metal meets metal, the stop squeezed flat or left out. Bind is checked here.")
        .usual(0.02, 0.3),
    Field::new("travel.stop_gap", "Gap to the bump stop", Length, NotNegative,
        "From the reference height to first touch of the bump stop, as wheel travel.").usual(0.01, 0.2),
    Field::new("tyre_rate", "Tyre rate", SpringRate, AboveZero,
        "Vertical rate of one tyre at its pressure. Only the \"with tyre\" frequency and the height at the ground use it.")
        .usual(100e3, 600e3).default(|job, _| (by_units(job, "200 N/mm", "1150 lb/in"),
            "an ordinary road tyre; public data give 160 to 300 N/mm for cars")),
    Field::new("unsprung", "Unsprung mass, one corner", Mass, NotNegative,
        "Wheel, tyre, hub, brake and half of the arms, spring, damper and drive shaft; half the axle for a beam axle.")
        .usual(18.0, 130.0).default(|job, side| match job.axle(side).kind {
            AxleKind::Independent => (by_units(job, "40 kg", "90 lb"), "independent corner, 18 to 65 kg; common practice, no source"),
            AxleKind::Beam => (by_units(job, "85 kg", "190 lb"), "half a beam axle, 60 to 130 kg; common practice, no source"),
        }),
    Field::new("unsprung_before", "Unsprung mass before, one corner", Mass, NotNegative,
        "Only if wheels, brakes or axle changed too. Blank: the same as after.").usual(18.0, 130.0),
    Field::new("vehicle.wheelbase", "Wheelbase", Length, AboveZero,
        "Front to rear wheel centres. Needed for the flat-ride speed; the drawing is to scale with it.").usual(1.8, 5.0),
    Field::new("weighing.front", "Front axle", Mass, AboveZero,
        "Only if the corners were not weighed one by one.").usual(140.0, 2800.0),
    Field::new("weighing.lf", "Left front", Mass, AboveZero,
        "Scale reading, driver's left facing forward. Pads level, brake off, bars free, rolled in, driver out.").usual(70.0, 1400.0),
    Field::new("weighing.lr", "Left rear", Mass, AboveZero,
        "Scale reading, driver's left facing forward. Pads level, brake off, bars free, rolled in, driver out.").usual(70.0, 1400.0),
    Field::new("weighing.rear", "Rear axle", Mass, AboveZero,
        "Only if the corners were not weighed one by one.").usual(140.0, 2800.0),
    Field::new("weighing.rf", "Right front", Mass, AboveZero,
        "Scale reading, driver's right facing forward. Pads level, brake off, bars free, rolled in, driver out.").usual(70.0, 1400.0),
    Field::new("weighing.rr", "Right rear", Mass, AboveZero,
        "Scale reading, driver's right facing forward. Pads level, brake off, bars free, rolled in, driver out.").usual(70.0, 1400.0),
];

/// The row with this key.
pub fn by_key(key: &str) -> Option<&'static Field> {
    FIELDS.binary_search_by(|f| f.key.cmp(key)).ok().map(|i| &FIELDS[i])
}

/// The row for a path in the job, and which axle or weighing it belongs to.
///
/// `front.ratio.rows[2].wheel` is `ratio.rows.wheel` of "Front, row 3".
pub fn by_path(path: &str) -> Option<(&'static Field, Place)> {
    let (head, tail) = path.split_once('.')?;
    let (scope, key) = match head {
        "front" => (Scope::Axle(Side::Front), tail),
        "rear" => (Scope::Axle(Side::Rear), tail),
        "before" | "after" => (Scope::Weighing(head == "before"), tail),
        _ => (Scope::Job, path),
    };
    let (row, bare) = match key.split_once('[') {
        Some((list, rest)) => {
            let (number, field) = rest.split_once("].")?;
            (number.parse::<usize>().ok().map(|n| n + 1), format!("{list}.{field}"))
        }
        None => (None, key.to_owned()),
    };
    let key = if matches!(scope, Scope::Weighing(_)) { format!("weighing.{bare}") } else { bare };
    by_key(&key).map(|field| (field, Place { scope, row }))
}

/// The part of the job a field belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// The whole job.
    Job,
    /// One axle.
    Axle(Side),
    /// A weigh-in; true for the one before.
    Weighing(bool),
}

/// Where a field stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// The part of the job.
    pub scope: Scope,
    /// The row number as counted by people, in a table.
    pub row: Option<usize>,
}

/// "Front, old spring rate", "Before, left front", "Rear, row 4, spring length".
pub fn full_label(path: &str) -> String {
    let Some((field, place)) = by_path(path) else { return path.to_owned() };
    let scope = match place.scope {
        Scope::Job => None,
        Scope::Axle(side) => Some(side.word()),
        Scope::Weighing(true) => Some("Before"),
        Scope::Weighing(false) => Some("After"),
    };
    let row = place.row.map(|n| format!("row {n}, ")).unwrap_or_default();
    match scope {
        Some(scope) => format!("{scope}, {row}{}", lower_first(field.label)),
        None => field.label.to_owned(),
    }
}

fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|c| c.to_lowercase().chain(chars).collect()).unwrap_or_default()
}

/// The table as Markdown, for the description of the file format.
pub fn markdown() -> String {
    let job = Job::default();
    let mut out =
        String::from("| field | meaning | kind | possible | usual | when blank |\n|---|---|---|---|---|---|\n");
    for f in FIELDS {
        let when_blank = match f.default {
            Some(default) => {
                let (text, reason) = default(&job, Side::Front);
                format!("{text} ({reason})")
            }
            None => "not known".to_owned(),
        };
        let usual = f.usual_phrase(&job.units).unwrap_or_default();
        out += &format!(
            "| `{}` | **{}.** {} | {} | {} | {usual} | {when_blank} |\n",
            f.key,
            f.label,
            f.help,
            f.dim.noun(),
            f.possible.phrase()
        );
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{RatioRow, Walk};
    use crate::units::{DecimalMark, parse};

    #[test]
    fn the_table_is_sorted_and_its_defaults_can_be_read() {
        assert!(FIELDS.windows(2).all(|w| w[0].key < w[1].key), "sort FIELDS by key");
        for f in FIELDS {
            if let Some(default) = f.default {
                for units in [UnitChoice::metric(), UnitChoice::pound_inch()] {
                    let (text, reason) = default(&Job { units, ..Job::default() }, Side::Rear);
                    let number = parse::number(text, f.dim, DecimalMark::Point).expect(f.key);
                    assert!(f.possible.allows(number.si()), "{}: {text}", f.key);
                    assert!(!reason.is_empty(), "{}", f.key);
                }
            }
        }
    }

    #[test]
    fn every_field_of_the_tree_has_a_row_of_its_kind_and_every_row_a_field() {
        let mut job = Job::default();
        for axle in [&mut job.front, &mut job.rear] {
            axle.ratio.rows.push(RatioRow::default());
            axle.damper_ratio.rows.push(RatioRow::default());
        }
        let mut seen = Vec::new();
        job.walk(&mut String::new(), &mut |path, entry| {
            let (field, _) = by_path(path).unwrap_or_else(|| panic!("no row for {path}"));
            assert_eq!(field.dim, entry.dim(), "{path}");
            seen.push(field.key);
        });
        for f in FIELDS {
            assert!(seen.contains(&f.key), "no field for {}", f.key);
        }
    }

    #[test]
    fn labels_say_where() {
        assert_eq!(full_label("front.spring.rate"), "Front, old spring rate");
        assert_eq!(full_label("before.lf"), "Before, left front");
        assert_eq!(full_label("rear.ratio.rows[3].length"), "Rear, row 4, spring length");
        assert_eq!(full_label("vehicle.wheelbase"), "Wheelbase");
    }
}
