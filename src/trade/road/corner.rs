//! One wheel as the time runs see it: what carries it, its damper, its tyre.

use crate::base::units::{Force, Length, Mass, Quantity, Ratio, SpringRate};
use crate::trade::damper::Curve;
use crate::trade::wheel::{ForceTravel, LengthCurve};

/// Travels of the force table are this far apart, m.
const STEP_M: f64 = 5e-4;
/// How much farther than its ends, or around its rest where they are not known, a wheel is followed, m.
const BEYOND_M: f64 = 0.05;
const UNKNOWN_END_M: f64 = 0.3;
/// Metal on metal, and a damper pulled to its end: this multiple of the tyre's rate. Common practice, no source.
const METAL_OVER_TYRE: f64 = 10.0;

/// A damper as straight lines: force against speed at the damper, + in bump. The end lines go on.
#[derive(Debug, Clone, PartialEq)]
pub struct Damper {
    /// The line at the lowest speeds: force at standstill, and slope.
    first: (f64, f64),
    /// From this speed on the slope changes by this much.
    hinges: Vec<(f64, f64)>,
}

impl Damper {
    /// Through points (speed m/s, force N) of growing speed, rebound below zero; `None` for fewer than two, or a force that
    /// falls as the speed grows.
    pub fn through(points: &[(f64, f64)]) -> Option<Damper> {
        // What rounding leaves of a level line is no fall.
        let rises = |w: &[(f64, f64)]| w[1].0 > w[0].0 && w[1].1 >= w[0].1 - 1e-9 * w[0].1.abs();
        let finite = points.iter().all(|p| p.0.is_finite() && p.1.is_finite());
        if points.len() < 2 || !finite || !points.windows(2).all(rises) {
            return None;
        }
        let slopes: Vec<f64> = points.windows(2).map(|w| (w[1].1 - w[0].1) / (w[1].0 - w[0].0)).collect();
        let hinges = slopes.windows(2).zip(&points[1..]).map(|(s, p)| (p.0, s[1] - s[0])).collect();
        Some(Damper { first: (points[0].1 - slopes[0] * points[0].0, slopes[0]), hinges })
    }

    /// A damper's curve; `None` where its force falls as the speed grows.
    pub fn of(curve: &Curve) -> Option<Damper> {
        let corners = curve.corners_m_per_s();
        // One more each way: beyond the last corner the line goes on.
        let beyond = corners.last().map_or(1.0, |last| 2.0 * last);
        let speeds: Vec<f64> = corners.into_iter().chain([beyond]).collect();
        let both = speeds.iter().rev().map(|v| -v).chain([0.0]).chain(speeds.iter().copied());
        Damper::through(&both.map(|v| (v, curve.force_n(v))).collect::<Vec<_>>())
    }

    /// Force along the damper at a speed, N, + in bump.
    pub fn force_n(&self, speed_m_per_s: f64) -> f64 {
        // Every hinge adds its share beyond its speed: no search, nothing to guess for the processor.
        let bent = |sum: f64, (from, slope): &(f64, f64)| sum + slope * (speed_m_per_s - from).max(0.0);
        self.hinges.iter().fold(self.first.0 + self.first.1 * speed_m_per_s, bent)
    }
}

/// Where a wheel's travel ends, from the reference height; `None`: not known, and then nothing ends it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ends {
    /// First touch of the bump stop.
    pub stop: Option<Length>,
    /// Metal on metal in bump.
    pub metal: Option<Length>,
    /// Full droop, above zero.
    pub droop: Option<Length>,
}

/// What carries a wheel, as a table of force against travel with the damper's motion ratio.
#[derive(Debug, Clone, PartialEq)]
pub struct Suspension {
    low_m: f64,
    cells_per_m: f64,
    /// At the start of each cell: force, N, and its rise over the cell.
    cells: Vec<[f64; 2]>,
    /// Damper length against travel.
    damper_length: LengthCurve,
    rest_m: f64,
    load_n: f64,
    ends: Ends,
}

impl Suspension {
    /// Samples a force–travel curve where it carries `load`. Beyond metal and beyond full droop it is as hard as metal:
    /// ten times the tyre. `None` when the load has no equilibrium, or the curve is not finite.
    pub fn sample(curve: &ForceTravel, load: Force, ends: Ends, tyre_rate: SpringRate) -> Option<Suspension> {
        let rest_m = curve.ride_height(load).ok()?.travel.si();
        let metal_m = ends.metal.map(Length::si);
        let droop_m = ends.droop.map(|d| -d.si());
        let mut low_m = droop_m.unwrap_or(rest_m - UNKNOWN_END_M).min(rest_m) - BEYOND_M;
        let high_m = metal_m.unwrap_or(rest_m + UNKNOWN_END_M).max(rest_m) + BEYOND_M;
        let hard = METAL_OVER_TYRE * tyre_rate.si();
        // At rest nothing but the curve carries, even where the ends were measured otherwise.
        let (top_m, bottom_m) = (metal_m.map(|m| m.max(rest_m)), droop_m.map(|d| d.min(rest_m)));
        let force_n = |z: f64| {
            let past = |by: Option<f64>| by.map_or(0.0, |by| by.max(0.0));
            curve.force_n(z) + hard * (past(top_m.map(|m| z - m)) - past(bottom_m.map(|d| d - z)))
        };
        let cells = tabulated(&mut low_m, high_m, (rest_m, load.si()), force_n)?;
        let damper_length = curve.damper_length.clone();
        Some(Suspension { low_m, cells_per_m: 1.0 / STEP_M, cells, damper_length, rest_m, load_n: load.si(), ends })
    }

    /// A straight spring and a constant damper ratio: the linear corner.
    pub fn straight(wheel_rate: SpringRate, load: Force, damper_ratio: Ratio, ends: Ends) -> Suspension {
        let cells = vec![[load.si() - wheel_rate.si(), wheel_rate.si()]];
        let damper_length = LengthCurve::constant(damper_ratio, Length::from_si(0.0));
        Suspension { low_m: -1.0, cells_per_m: 1.0, cells, damper_length, rest_m: 0.0, load_n: load.si(), ends }
    }

    /// Force at the wheel at a travel from the reference height, N. Beyond its ends the last slope goes on.
    pub fn force_n(&self, travel_m: f64) -> f64 {
        let (whole, t) = self.place(travel_m);
        self.cells[whole][0] + t * self.cells[whole][1]
    }

    /// The damper's motion ratio at a travel from the reference height; it does not leave the travel of the table.
    pub fn damper_ratio(&self, travel_m: f64) -> f64 {
        let z = travel_m.clamp(self.low_m, self.low_m + self.cells.len() as f64 / self.cells_per_m);
        self.damper_length.ratio(Length::from_si(z)).si()
    }

    fn place(&self, travel_m: f64) -> (usize, f64) {
        let place = (travel_m - self.low_m) * self.cells_per_m;
        let whole = (place.max(0.0) as usize).min(self.cells.len() - 1);
        (whole, place - whole as f64)
    }

    /// Work stored between rest and a travel, J, + when it was compressed against the force. Exact for the table.
    pub fn stored_j(&self, travel_m: f64) -> f64 {
        let work_from_low = |z: f64| {
            let (whole, t) = self.place(z);
            let full: f64 = self.cells[..whole].iter().map(|c| c[0] + 0.5 * c[1]).sum();
            (full + t * (self.cells[whole][0] + 0.5 * t * self.cells[whole][1])) / self.cells_per_m
        };
        work_from_low(travel_m) - work_from_low(self.rest_m)
    }

    /// Travel from the reference height at which it is.
    pub fn rest(&self) -> Length {
        Length::from_si(self.rest_m)
    }

    /// What it carries at rest.
    pub fn load(&self) -> Force {
        Force::from_si(self.load_n)
    }

    /// Where its travel ends.
    pub fn ends(&self) -> Ends {
        self.ends
    }

    /// The table: lowest travel, m, cells a metre, and force with its rise over each cell; for a check by another program.
    pub fn table(&self) -> (f64, f64, &[[f64; 2]]) {
        (self.low_m, self.cells_per_m, &self.cells)
    }
}

/// Cells of force from `low_m`, moved a little so that the rest is one of the travels and carries exactly its load there.
fn tabulated(
    low_m: &mut f64,
    high_m: f64,
    (rest_m, load_n): (f64, f64),
    force_n: impl Fn(f64) -> f64,
) -> Option<Vec<[f64; 2]>> {
    let below = ((rest_m - *low_m) / STEP_M).ceil();
    *low_m = rest_m - below * STEP_M;
    let count = ((high_m - *low_m) / STEP_M).ceil() as usize;
    let at = |i: usize| if i as f64 == below { load_n } else { force_n(*low_m + i as f64 * STEP_M) };
    let forces: Vec<f64> = (0..=count).map(at).collect();
    let cells: Vec<[f64; 2]> = forces.windows(2).map(|w| [w[0], w[1] - w[0]]).collect();
    (!cells.is_empty() && forces.iter().all(|f| f.is_finite())).then_some(cells)
}

/// One wheel and what is on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Wheel {
    /// What the spring carries.
    pub sprung: Mass,
    /// Wheel, hub and what moves with them; above zero.
    pub unsprung: Mass,
    /// Rate of the tyre. It only pushes: the wheel can leave the ground.
    pub tyre_rate: SpringRate,
    /// What carries it.
    pub suspension: Suspension,
    /// Its damper.
    pub damper: Damper,
}

/// Forces at a wheel at one moment, N, and power into the damper, W.
#[derive(Debug, Clone, Copy)]
pub(in crate::trade) struct Forces {
    pub on_body_n: f64,
    pub on_wheel_n: f64,
    pub tyre_n: f64,
    pub lost_w: f64,
}

impl Wheel {
    /// The load on the ground at rest.
    pub fn standing_load(&self) -> Force {
        self.suspension.load() + crate::base::units::weight(self.unsprung)
    }

    /// Relative to rest: compression of the wheel, its speed, and how far the road rises toward it.
    #[inline(always)]
    pub(in crate::trade) fn forces(&self, pressed_m: f64, speed_m_per_s: f64, squeeze_m: f64) -> Forces {
        let travel_m = self.suspension.rest_m + pressed_m;
        let spring_n = self.suspension.force_n(travel_m);
        let ratio = self.suspension.damper_ratio(travel_m);
        let damper_n = ratio * self.damper.force_n(ratio * speed_m_per_s);
        let standing_n = self.standing_load().si();
        let tyre_n = (standing_n + self.tyre_rate.si() * squeeze_m).max(0.0);
        let suspension_n = spring_n + damper_n;
        Forces {
            on_body_n: suspension_n - self.suspension.load_n,
            on_wheel_n: (tyre_n - standing_n) - (suspension_n - self.suspension.load_n),
            tyre_n,
            lost_w: damper_n * speed_m_per_s,
        }
    }

    /// Work stored in spring and tyre against rest, J, the weights' own share taken out.
    pub(super) fn stored_j(&self, pressed_m: f64, squeeze_m: f64) -> f64 {
        let spring = self.suspension.stored_j(self.suspension.rest_m + pressed_m) - self.suspension.load_n * pressed_m;
        let (load_n, kt) = (self.standing_load().si(), self.tyre_rate.si());
        // Off the ground the tyre holds nothing more than when it just touches.
        let squeeze = squeeze_m.max(-load_n / kt);
        let tyre = load_n * squeeze + 0.5 * kt * squeeze * squeeze - load_n * squeeze_m;
        spring + tyre
    }
}
