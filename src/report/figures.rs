//! Every result as a named figure: value in SI, unit, convention, formula, source.
//!
//! One table per part of the answer. JSON, the working, the tables on screen and
//! on paper are all built from these rows. To add a result, add a row.

use crate::job::Side;
use crate::solve::answer::{Answer, AxleAnswer, Band, Damping, PerState, Sizing, Standing, State, Weighed};
use crate::units::{Dim, Quantity};

/// A symbol of a formula with the number put in for it.
pub type Substitution = (&'static str, Option<f64>, Dim);

/// One result.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Its path among the results: `front.old_springs.frequency`.
    pub key: String,
    /// What it is, in words.
    pub name: String,
    /// The value in the coherent SI unit; `None` when not known.
    pub si: Option<f64>,
    /// What it measures.
    pub dim: Dim,
    /// Sign, place and reference of the value.
    pub convention: &'static str,
    /// The formula, in symbols.
    pub formula: &'static str,
    /// The numbers put into the formula.
    pub with: Vec<Substitution>,
    /// Key into [`crate::sources::SOURCES`].
    pub source: &'static str,
}

/// One row of a table of results of `T`.
struct Row<T: ?Sized> {
    key: &'static str,
    name: &'static str,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
    value: fn(&T) -> Option<f64>,
    with: fn(&T) -> Vec<Substitution>,
}

fn si<Q: Quantity>(q: Option<Q>) -> Option<f64> {
    q.map(Quantity::si)
}

fn none<T: ?Sized>(_: &T) -> Vec<Substitution> {
    Vec::new()
}

const CORNER: &str = "per corner, mean of the two sides";
const AT_WHEEL: &str = "at the wheel, per corner, mean of the two sides";

static WEIGHED: &[Row<Weighed>] = &[
    Row {
        key: "total",
        name: "total",
        dim: Dim::Mass,
        convention: "scale reading",
        formula: "m = LF + RF + LR + RR",
        source: "PRACTICE",
        value: |w| si(w.total),
        with: none,
    },
    Row {
        key: "front_axle",
        name: "front axle",
        dim: Dim::Mass,
        convention: "scale reading",
        formula: "LF + RF",
        source: "PRACTICE",
        value: |w| si(w.front),
        with: none,
    },
    Row {
        key: "rear_axle",
        name: "rear axle",
        dim: Dim::Mass,
        convention: "scale reading",
        formula: "LR + RR",
        source: "PRACTICE",
        value: |w| si(w.rear),
        with: none,
    },
    Row {
        key: "front_share",
        name: "front share",
        dim: Dim::Ratio,
        convention: "front axle over total",
        formula: "(LF + RF) / m",
        source: "PRACTICE",
        value: |w| si(w.front_share),
        with: |w| vec![("front axle", si(w.front), Dim::Mass), ("m", si(w.total), Dim::Mass)],
    },
    Row {
        key: "left_share",
        name: "left share",
        dim: Dim::Ratio,
        convention: "driver's left facing forward, over total",
        formula: "(LF + LR) / m",
        source: "PRACTICE",
        value: |w| si(w.left_share),
        with: none,
    },
    Row {
        key: "cross_weight",
        name: "cross weight",
        dim: Dim::Ratio,
        convention: "right front and left rear over total",
        formula: "(RF + LR) / m",
        source: "PRACTICE",
        value: |w| si(w.cross_weight),
        with: none,
    },
    Row {
        key: "front_left_right",
        name: "front, left against right",
        dim: Dim::Ratio,
        convention: "(left − right) over the axle, + when the left is heavier",
        formula: "(LF − RF) / (LF + RF)",
        source: "PRACTICE",
        value: |w| si(w.left_right[0]),
        with: none,
    },
    Row {
        key: "rear_left_right",
        name: "rear, left against right",
        dim: Dim::Ratio,
        convention: "(left − right) over the axle, + when the left is heavier",
        formula: "(LR − RR) / (LR + RR)",
        source: "PRACTICE",
        value: |w| si(w.left_right[1]),
        with: none,
    },
];

static AXLE: &[Row<AxleAnswer>] = &[
    Row {
        key: "sprung_before",
        name: "sprung mass before",
        dim: Dim::Mass,
        convention: CORNER,
        formula: "m_s = axle / 2 − m_u",
        source: "DERIVED",
        value: |a| si(a.sprung_before),
        with: none,
    },
    Row {
        key: "sprung_after",
        name: "sprung mass after",
        dim: Dim::Mass,
        convention: CORNER,
        formula: "m_s = axle / 2 − m_u",
        source: "DERIVED",
        value: |a| si(a.sprung_after),
        with: none,
    },
    Row {
        key: "motion_ratio",
        name: "motion ratio of the spring",
        dim: Dim::Ratio,
        convention: "spring travel over wheel travel, at the reference height, lean inside",
        formula: "r = −dL_s/dz",
        source: "GIL",
        value: |a| si(a.motion_ratio),
        with: none,
    },
    Row {
        key: "damper_motion_ratio",
        name: "motion ratio of the damper",
        dim: Dim::Ratio,
        convention: "damper travel over wheel travel, at the reference height",
        formula: "r_d = −dL_d/dz",
        source: "GIL",
        value: |a| si(a.damper_motion_ratio),
        with: none,
    },
    Row {
        key: "old_free_length",
        name: "free length of the old spring",
        dim: Dim::Length,
        convention: "along the spring, from load and fitted length",
        formula: "L0 = L_ride + F_s / k_s",
        source: "SHI",
        value: |a| si(a.old_free_length),
        with: none,
    },
    Row {
        key: "rating_share",
        name: "axle weight over its rating",
        dim: Dim::Ratio,
        convention: "as weighed after the swap",
        formula: "axle / rating",
        source: "PRACTICE",
        value: |a| si(a.rating_share),
        with: none,
    },
    Row {
        key: "room.spring_at_metal",
        name: "spring length at full bump",
        dim: Dim::Length,
        convention: "at metal, along the spring",
        formula: "L_s(z)",
        source: "DERIVED",
        value: |a| si(a.room.spring_at_metal),
        with: none,
    },
    Row {
        key: "room.spring_at_droop",
        name: "spring length at full droop",
        dim: Dim::Length,
        convention: "along the spring",
        formula: "L_s(z)",
        source: "DERIVED",
        value: |a| si(a.room.spring_at_droop),
        with: none,
    },
    Row {
        key: "room.force_at_metal",
        name: "spring force at full bump",
        dim: Dim::Force,
        convention: "along the spring, springs as they will be fitted",
        formula: "F = k_s (L0 − L)",
        source: "SHI",
        value: |a| si(a.room.force_at_metal),
        with: none,
    },
    Row {
        key: "room.to_bind",
        name: "room to coil bind",
        dim: Dim::Length,
        convention: "at metal; negative: binds first",
        formula: "L − L_solid",
        source: "EN",
        value: |a| si(a.room.to_bind),
        with: |a| vec![("L", si(a.room.spring_at_metal), Dim::Length)],
    },
    Row {
        key: "room.seat",
        name: "seat margin at full droop",
        dim: Dim::Length,
        convention: "compression left; negative: loose by so much",
        formula: "L0 − L_droop",
        source: "DERIVED",
        value: |a| si(a.room.seat),
        with: |a| vec![("L_droop", si(a.room.spring_at_droop), Dim::Length)],
    },
    Row {
        key: "room.damper_bump",
        name: "damper travel left at full bump",
        dim: Dim::Length,
        convention: "negative: the damper is the stop",
        formula: "L_d(metal) − closed length",
        source: "DERIVED",
        value: |a| si(a.room.damper_bump),
        with: none,
    },
    Row {
        key: "room.damper_droop",
        name: "damper travel left at full droop",
        dim: Dim::Length,
        convention: "negative: the damper is the stop",
        formula: "open length − L_d(droop)",
        source: "DERIVED",
        value: |a| si(a.room.damper_droop),
        with: none,
    },
];

static STANDING: &[Row<Standing>] = &[
    Row {
        key: "sprung",
        name: "sprung mass",
        dim: Dim::Mass,
        convention: CORNER,
        formula: "m_s = axle / 2 − m_u",
        source: "DERIVED",
        value: |s| Some(s.sprung.si()),
        with: none,
    },
    Row {
        key: "travel",
        name: "wheel travel from the reference height",
        dim: Dim::Length,
        convention: "+ in bump",
        formula: "F_w(z) = m_s g, solved",
        source: "DERIVED",
        value: |s| Some(s.travel.si()),
        with: none,
    },
    Row {
        key: "height_change",
        name: "height against before, at the wheel",
        dim: Dim::Length,
        convention: "hub to arch, + when the body rises",
        formula: "z_before − z",
        source: "DERIVED",
        value: |s| si(s.height_change),
        with: none,
    },
    Row {
        key: "height_change_at_ground",
        name: "height against before, at the ground",
        dim: Dim::Length,
        convention: "tyre squash added, + when the body rises",
        formula: "z_before − z − ΔW / k_t",
        source: "DERIVED",
        value: |s| si(s.height_change_at_ground),
        with: |s| vec![("z_before − z", si(s.height_change), Dim::Length)],
    },
    Row {
        key: "wheel_rate",
        name: "wheel rate",
        dim: Dim::SpringRate,
        convention: AT_WHEEL,
        formula: "k_w = k_s r² + F_s r′ + k_par + F_gas r_d′",
        source: "GIL",
        value: |s| Some(s.wheel_rate.si()),
        with: |s| {
            let curve = &s.curve;
            let length_m = curve.spring_length.length(s.travel).si();
            vec![
                ("k_s", Some(curve.spring.rate_n_per_m(length_m)), Dim::SpringRate),
                ("r", Some(curve.spring_length.ratio(s.travel).si()), Dim::Ratio),
                ("F_s r′", Some(s.spring_force.si() * curve.spring_length.slope().value), Dim::SpringRate),
                ("k_par", Some(curve.parallel_rate_n_per_m), Dim::SpringRate),
            ]
        },
    },
    Row {
        key: "frequency",
        name: "ride frequency, on springs",
        dim: Dim::Frequency,
        convention: "on springs, undamped",
        formula: "f = √(k_w / m_s) / 2π",
        source: "GIL",
        value: |s| Some(s.frequency.si()),
        with: on_springs,
    },
    Row {
        key: "frequency_with_tyre",
        name: "ride frequency, with tyre",
        dim: Dim::Frequency,
        convention: "tyre in series, undamped",
        formula: "f_t = √(k_w k_t / ((k_w + k_t) m_s)) / 2π",
        source: "GIL",
        value: |s| si(s.frequency_with_tyre),
        with: on_springs,
    },
    Row {
        key: "static_deflection",
        name: "equivalent static deflection",
        dim: Dim::Length,
        convention: AT_WHEEL,
        formula: "m_s g / k_w",
        source: "GIL",
        value: |s| Some(s.static_deflection.si()),
        with: on_springs,
    },
    Row {
        key: "spring_force",
        name: "spring load at ride height",
        dim: Dim::Force,
        convention: "along the spring",
        formula: "F_s = (m_s g − F_gas r_d − F_par) / r",
        source: "DERIVED",
        value: |s| Some(s.spring_force.si()),
        with: on_springs,
    },
    Row {
        key: "spring_length",
        name: "spring length at ride height",
        dim: Dim::Length,
        convention: "along the spring",
        formula: "L_s(z)",
        source: "DERIVED",
        value: |s| si(s.spring_length),
        with: none,
    },
    Row {
        key: "stop_room",
        name: "room to the bump stop",
        dim: Dim::Length,
        convention: "wheel travel; negative: already touched",
        formula: "gap − z",
        source: "DERIVED",
        value: |s| si(s.stop_room),
        with: |s| vec![("gap", s.curve.stop.map(|p| p.gap_m), Dim::Length), ("z", Some(s.travel.si()), Dim::Length)],
    },
    Row {
        key: "reserve",
        name: "reserve before the bump stop",
        dim: Dim::Ratio,
        convention: "extra g over standing still; braking, roll and road use the same room",
        formula: "(F_w(gap) − m_s g) / (m_s g)",
        source: "DERIVED",
        value: |s| si(s.reserve),
        with: on_springs,
    },
    Row {
        key: "old_damper_ratio",
        name: "damping ratio with the old damper",
        dim: Dim::Ratio,
        convention: "at the wheel, on springs, mean of bump and rebound",
        formula: "ζ = c_w / (2 √(k_w m_s))",
        source: "GIL",
        value: |s| si(s.old_damper_ratio),
        with: on_springs,
    },
];

fn on_springs(s: &Standing) -> Vec<Substitution> {
    vec![("k_w", Some(s.wheel_rate.si()), Dim::SpringRate), ("m_s", Some(s.sprung.si()), Dim::Mass)]
}

static SIZING: &[Row<Sizing>] = &[
    Row {
        key: "wanted_travel",
        name: "wheel travel at the wanted height",
        dim: Dim::Length,
        convention: "from the reference height, + in bump",
        formula: "z_before − raise",
        source: "DERIVED",
        value: |s| Some(s.wanted_travel.si()),
        with: none,
    },
    Row {
        key: "spring_force",
        name: "spring load at the wanted height",
        dim: Dim::Force,
        convention: "along the spring",
        formula: "F_s = (m_s g − F_gas r_d − F_par) / r",
        source: "DERIVED",
        value: |s| Some(s.spring_force.si()),
        with: none,
    },
    Row {
        key: "stock_lowest",
        name: "lowest stock rate inside the range",
        dim: Dim::SpringRate,
        convention: "whole multiples of the stock step",
        formula: "step × whole number",
        source: "PRACTICE",
        value: |s| s.stock.map(|r| r.lowest.si()),
        with: none,
    },
    Row {
        key: "stock_highest",
        name: "highest stock rate inside the range",
        dim: Dim::SpringRate,
        convention: "whole multiples of the stock step",
        formula: "step × whole number",
        source: "PRACTICE",
        value: |s| s.stock.map(|r| r.highest.si()),
        with: none,
    },
    Row {
        key: "pick",
        name: "stock rate nearest the aim",
        dim: Dim::SpringRate,
        convention: "along the spring; a recommendation only when the axle is within its rating",
        formula: "step × round(k_s / step)",
        source: "PRACTICE",
        value: |s| Some(s.pick.si()),
        with: |s| vec![("k_s", Some(s.spring_rate.aim.si()), Dim::SpringRate)],
    },
    Row {
        key: "same_frequency",
        name: "spring rate for the frequency before",
        dim: Dim::SpringRate,
        convention: "along the spring",
        formula: "k_s = (k_w − k_par − F_s r′ − F_gas r_d′) / r²",
        source: "DERIVED",
        value: |s| si(s.same_frequency),
        with: none,
    },
    Row {
        key: "same_factor.factor",
        name: "paper check: sprung mass after ÷ before",
        dim: Dim::Ratio,
        convention: CORNER,
        formula: "q = m_s,after / m_s,before",
        source: "DERIVED",
        value: |s| s.same_factor.map(|f| f.factor.si()),
        with: none,
    },
    Row {
        key: "same_factor.spring_rate",
        name: "paper check: old rate × q, same free length",
        dim: Dim::SpringRate,
        convention: "gives the old height and frequency; exact when only the spring carries",
        formula: "q k_old",
        source: "DERIVED",
        value: |s| s.same_factor.map(|f| f.spring_rate.si()),
        with: |s| vec![("q", s.same_factor.map(|f| f.factor.si()), Dim::Ratio)],
    },
    Row {
        key: "free_length",
        name: "free length for the wanted height",
        dim: Dim::Length,
        convention: "along the spring, with the picked rate",
        formula: "L0 = L_ride + F_s / k_s",
        source: "SHI",
        value: |s| si(s.free_length),
        with: |s| vec![("F_s", Some(s.spring_force.si()), Dim::Force), ("k_s", Some(s.pick.si()), Dim::SpringRate)],
    },
    Row {
        key: "order_length",
        name: "free length to order",
        dim: Dim::Length,
        convention: "allowance for settling added",
        formula: "L0 + allowance",
        source: "PRACTICE",
        value: |s| si(s.order_length),
        with: |s| vec![("L0", si(s.free_length), Dim::Length)],
    },
    Row {
        key: "spacer.thickness",
        name: "spacer that restores the height on the old spring",
        dim: Dim::Length,
        convention: "at the spring seat; restores height, not frequency",
        formula: "s = ΔF_s / k_s",
        source: "DERIVED",
        value: |s| s.spacer.map(|p| p.thickness.si()),
        with: none,
    },
    Row {
        key: "spacer.reserve",
        name: "reserve with the spacer",
        dim: Dim::Ratio,
        convention: "extra g before the stop",
        formula: "(F_w(gap) − m_s g) / (m_s g)",
        source: "DERIVED",
        value: |s| s.spacer.and_then(|p| si(p.reserve)),
        with: none,
    },
    Row {
        key: "spacer.frequency",
        name: "ride frequency with the spacer",
        dim: Dim::Frequency,
        convention: "on springs, undamped",
        formula: "f = √(k_w / m_s) / 2π",
        source: "GIL",
        value: |s| s.spacer.map(|p| p.frequency.si()),
        with: none,
    },
];

static DAMPING: &[Row<Damping>] = &[
    Row {
        key: "bump_rate",
        name: "damper rate in bump",
        dim: Dim::DampingRate,
        convention: "at the damper, for the middle of the wanted damping",
        formula: "c_bump = 2 c / (1 + ρ)",
        source: "DERIVED",
        value: |d| Some(d.split.bump.si()),
        with: |d| vec![("c", Some(d.at_damper.aim.si()), Dim::DampingRate)],
    },
    Row {
        key: "rebound_rate",
        name: "damper rate in rebound",
        dim: Dim::DampingRate,
        convention: "at the damper, for the middle of the wanted damping",
        formula: "c_reb = ρ c_bump",
        source: "DERIVED",
        value: |d| Some(d.split.rebound.si()),
        with: |d| vec![("c_bump", Some(d.split.bump.si()), Dim::DampingRate)],
    },
    Row {
        key: "old_at_wheel",
        name: "old damper's rate",
        dim: Dim::DampingRate,
        convention: "at the wheel, mean of bump and rebound",
        formula: "c_w = 2 ζ √(k_w m_s), or c_d r_d²",
        source: "GIL",
        value: |d| si(d.old_at_wheel),
        with: none,
    },
    Row {
        key: "scale",
        name: "damper stiffness for the same damping ratio, new ÷ old",
        dim: Dim::Ratio,
        convention: "on the springs that will be fitted",
        formula: "√(k_w m_s) after ÷ before",
        source: "DERIVED",
        value: |d| si(d.scale),
        with: none,
    },
    Row {
        key: "hop_frequency",
        name: "wheel hop",
        dim: Dim::Frequency,
        convention: "unsprung mass on suspension and tyre, undamped",
        formula: "f_u = √((k_w + k_t) / m_u) / 2π",
        source: "GIL",
        value: |d| si(d.hop_frequency),
        with: none,
    },
];

/// Collects figures under a prefix.
struct Out {
    figures: Vec<Figure>,
}

impl Out {
    fn rows<T: ?Sized>(&mut self, prefix: &str, words: &str, rows: &[Row<T>], of: &T) {
        for row in rows {
            self.figures.push(Figure {
                key: format!("{prefix}.{}", row.key),
                name: format!("{words}{}", row.name),
                si: (row.value)(of),
                dim: row.dim,
                convention: row.convention,
                formula: row.formula,
                with: (row.with)(of),
                source: row.source,
            });
        }
    }

    fn band<Q: Quantity>(&mut self, like: Figure, band: &Band<Q>) {
        for (end, words, value) in
            [("low", "lowest", band.low), ("aim", "aimed at", band.aim), ("high", "highest", band.high)]
        {
            self.figures.push(Figure {
                key: format!("{}.{end}", like.key),
                name: format!("{}, {words}", like.name),
                si: Some(value.si()),
                ..like.clone()
            });
        }
    }

    fn per_state<Q: Quantity>(&mut self, like: Figure, values: &PerState<Option<Q>>) {
        for state in State::ALL {
            self.figures.push(Figure {
                key: format!("{}.{}", like.key, state.key()),
                name: format!("{}, {}", like.name, state.words()),
                si: values.of(state).map(Quantity::si),
                ..like.clone()
            });
        }
    }
}

fn like(
    key: String,
    name: String,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
) -> Figure {
    Figure { key, name, si: None, dim, convention, formula, with: Vec::new(), source }
}

/// Every figure of an answer, in the order of the work.
pub fn figures(answer: &Answer) -> Vec<Figure> {
    let mut out = Out { figures: Vec::with_capacity(256) };
    out.rows("before", "before, ", WEIGHED, &answer.before);
    out.rows("after", "after, ", WEIGHED, &answer.after);
    for side in Side::BOTH {
        axle(&mut out, answer.axle(side));
    }
    out.per_state(
        like(
            "whole.rear_over_front".into(),
            "rear ÷ front frequency".into(),
            Dim::Ratio,
            "both on springs",
            "f_R / f_F",
            "GIL",
        ),
        &answer.rear_over_front,
    );
    out.per_state(
        like(
            "whole.flat_ride_speed".into(),
            "flat-ride speed".into(),
            Dim::Velocity,
            "n = 1, on springs; none when the rear is not quicker than the front",
            "v = L / (n (1/f_F − 1/f_R))",
            "GIL",
        ),
        &answer.flat_ride,
    );
    out.figures
}

fn axle(out: &mut Out, axle: &AxleAnswer) {
    let (key, words) = (axle.side.key(), format!("{}: ", axle.side.key()));
    out.rows(key, &words, AXLE, axle);
    for state in State::ALL {
        if let Some(standing) = axle.standing.of(state) {
            let prefix = format!("{key}.{}", state.key());
            out.rows(&prefix, &format!("{key} {}: ", state.words()), STANDING, standing);
        }
    }
    if let Some(sizing) = &axle.sizing {
        size(out, &format!("{key}.sizing"), &words, sizing);
    }
    if let Some(damping) = &axle.damping {
        damp(out, &format!("{key}.damping"), &words, damping);
    }
}

fn size(out: &mut Out, prefix: &str, words: &str, sizing: &Sizing) {
    let named = |key: &str, name: &str| (format!("{prefix}.{key}"), format!("{words}{name}"));
    let (key, name) = named("frequency", "wanted ride frequency");
    out.band(like(key, name, Dim::Frequency, "on springs", "as named, or as before", "PRACTICE"), &sizing.frequency);
    let (key, name) = named("wheel_rate", "wheel rate for it");
    out.band(like(key, name, Dim::SpringRate, AT_WHEEL, "k_w = m_s (2π f)²", "GIL"), &sizing.wheel_rate);
    let (key, name) = named("spring_rate", "spring rate for it");
    let formula = "k_s = (k_w − k_par − F_s r′ − F_gas r_d′) / r²";
    out.band(like(key, name, Dim::SpringRate, "along the spring", formula, "DERIVED"), &sizing.spring_rate);
    out.rows(prefix, words, SIZING, sizing);
}

fn damp(out: &mut Out, prefix: &str, words: &str, damping: &Damping) {
    let named = |key: &str, name: &str| (format!("{prefix}.{key}"), format!("{words}{name}"));
    let (key, name) = named("ratio", "wanted damping ratio");
    out.band(
        like(key, name, Dim::Ratio, "on springs, mean of bump and rebound", "as named", "PRACTICE"),
        &damping.ratio,
    );
    let (key, name) = named("at_wheel", "damping rate");
    out.band(like(key, name, Dim::DampingRate, AT_WHEEL, "c_w = 2 ζ √(k_w m_s)", "GIL"), &damping.at_wheel);
    let (key, name) = named("at_damper", "damper rate, mean of bump and rebound");
    out.band(like(key, name, Dim::DampingRate, "at the damper", "c_d = c_w / r_d²", "GIL"), &damping.at_damper);
    out.rows(prefix, words, DAMPING, damping);
    for force in &damping.forces {
        let speed = format!("{:.2}", force.speed.si());
        let convention = "at the damper, straight line through the origin";
        for (direction, band) in [("bump", &force.bump), ("rebound", &force.rebound)] {
            let (key, name) =
                named(&format!("{direction}_force.{speed}"), &format!("{direction} force at {speed} m/s"));
            out.band(like(key, name, Dim::Force, convention, "F = c v", "DIX"), band);
        }
    }
}
