//! One spring on one axle: where it is in every load case, and how far each limit is away.

use crate::base::language::worded;
use crate::base::units::{Dim, Force, Length, Mass, Quantity, SpringRate};
use crate::solve::ground::{CornerLoad, Ground, Wish};
use crate::trade::ride;
use crate::trade::spring::{Coil, Ends, Spring, Wire};
use crate::trade::wheel::ForceTravel;

worded! {
    /// What a spring must hold.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
    pub enum Limit {
        /// Ride frequency not below the wanted range.
        Slow => Word("frequency too low"),
        /// Ride frequency not above the wanted range.
        Quick => Word("frequency too high"),
        /// Ride frequency in the other load cases.
        Laden => Word("outside the range when laden"),
        /// Height within what is allowed, the seat moved as far as it goes; its margin counts what the seat has left.
        Height => Word("height"),
        /// No load case rests on the bump stop.
        Stop => Word("rests on the bump stop"),
        /// Room before the coils bind when metal meets metal.
        Bind => Word("coil bind"),
        /// Seat preload at full droop.
        Seat => Word("loose at full droop"),
        /// Shear stress when metal meets metal.
        Stress => Word("over the allowable stress"),
        /// Force when metal meets metal, against what its maker allows.
        Load => Word("over its maximum load"),
        /// Wide enough inside.
        Inside => Word("inside diameter too small"),
        /// Narrow enough outside.
        Outside => Word("outside diameter too large"),
    }
}

impl Limit {
    /// What its margin measures.
    pub fn dim(self) -> Dim {
        match self {
            Limit::Slow | Limit::Quick | Limit::Laden => Dim::Frequency,
            Limit::Stress => Dim::Stress,
            Limit::Load => Dim::Force,
            Limit::Height | Limit::Stop | Limit::Bind | Limit::Seat | Limit::Inside | Limit::Outside => Dim::Length,
        }
    }

    /// It is about the ride frequency, which is the axle's: a corner by itself need not hold it.
    pub fn is_frequency(self) -> bool {
        matches!(self, Limit::Slow | Limit::Quick | Limit::Laden)
    }

    /// The key in results.
    pub fn key(self) -> &'static str {
        match self {
            Limit::Slow => "slow",
            Limit::Quick => "quick",
            Limit::Laden => "laden",
            Limit::Height => "height",
            Limit::Stop => "stop",
            Limit::Bind => "bind",
            Limit::Seat => "seat",
            Limit::Stress => "stress",
            Limit::Load => "load",
            Limit::Inside => "inside",
            Limit::Outside => "outside",
        }
    }
}

/// A spring that could be fitted, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// Rate, N/m.
    pub rate_n_per_m: f64,
    /// ± of the rate: limits, a share.
    pub rate_tolerance: f64,
    /// Free length, m; `None` when the list does not say: any length can then be had.
    pub free_m: Option<f64>,
    /// ± of the free length: limits, m.
    pub length_tolerance_m: f64,
    /// Length with all coils touching, m.
    pub solid_m: Option<f64>,
    /// Inside diameter, m.
    pub inside_m: Option<f64>,
    /// Outside diameter, m.
    pub outside_m: Option<f64>,
    /// Shear stress for each newton (Wahl), and the allowed stress, Pa.
    pub stress: Option<[f64; 2]>,
    /// Greatest load by its maker, N.
    pub greatest_n: Option<f64>,
}

/// One spring as it was bought: how far off what its list says.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bought {
    /// Place inside the tolerance of its rate, −1 to 1.
    pub of_rate: f64,
    /// Place inside the tolerance of its length, −1 to 1.
    pub of_length: f64,
    /// It settles by this amount more than the allowance, m.
    pub settles_more_m: f64,
}

impl Candidate {
    /// The same spring as it was bought.
    pub fn drawn(&self, bought: Bought) -> Self {
        let off_m = self.length_tolerance_m * bought.of_length - bought.settles_more_m;
        Candidate {
            rate_n_per_m: self.rate_n_per_m * (1.0 + self.rate_tolerance * bought.of_rate),
            free_m: self.free_m.map(|l| l + off_m),
            ..*self
        }
    }

    /// Stress for each newton and allowed stress, from wire and mean diameter.
    pub fn stress_of(wish: &Wish, diameter_m: f64, mean_m: f64) -> Option<[f64; 2]> {
        let wire =
            Wire { diameter_m, mean_m, active: 1.0, shear_modulus_pa: wish.shear_modulus_pa, ends: Ends::Counted };
        Some([wire.stress(Force::from_si(1.0), wire.wahl()).si(), wish.allowed_pa(diameter_m)?])
    }
}

/// Equilibrium of one spring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// How far each limit is away, in its own SI unit, in the order of [`Limit::ALL`]: below zero it is broken, NaN
    /// when it is not known.
    pub margins: [f64; Limit::ALL.len()],
    /// Ride frequency on springs under the load that springs are sized on, Hz.
    pub frequency_hz: f64,
    /// Wheel travel there, m.
    pub travel_m: f64,
    /// Spacer chosen within what the seat allows, m.
    pub spacer_m: f64,
    /// The extra g before the bump stop is touched; NaN when not known.
    pub reserve: f64,
}

impl Judged {
    /// A limit's margin; `None` when it is not known.
    pub fn margin(&self, limit: Limit) -> Option<f64> {
        Some(self.margins[limit as usize]).filter(|m| !m.is_nan())
    }

    /// Every limit that is known holds.
    pub fn holds(&self) -> bool {
        self.margins.iter().all(|m| m.is_nan() || *m >= 0.0)
    }

    /// Limits that are broken.
    pub fn broken(&self) -> impl Iterator<Item = Limit> + '_ {
        Limit::ALL.into_iter().filter(|l| self.margins[*l as usize] < 0.0)
    }

    /// Limits that belong to every spring and could not be checked.
    pub fn not_known(&self) -> impl Iterator<Item = Limit> + '_ {
        let always = [Limit::Height, Limit::Stop, Limit::Bind, Limit::Seat, Limit::Stress];
        always.into_iter().filter(|l| self.margins[*l as usize].is_nan())
    }

    /// It is stable by itself, whatever the range of frequency: what each corner of a pair must hold.
    pub fn stands(&self) -> bool {
        self.broken().all(Limit::is_frequency)
    }

    /// Nothing carries: no height was found.
    fn lost() -> Self {
        let mut margins = [f64::NAN; Limit::ALL.len()];
        margins[Limit::Height as usize] = f64::NEG_INFINITY;
        Judged { margins, frequency_hz: f64::NAN, travel_m: f64::NAN, spacer_m: f64::NAN, reserve: f64::NAN }
    }
}

/// The ground of one draw, with what every spring on it asks for worked out once.
pub struct Bench<'w> {
    wish: &'w Wish,
    ground: Ground,
    needed: Force,
    at_wanted: Length,
    /// Motion ratio at the wanted height.
    ratio: f64,
    at_metal_m: Option<f64>,
    at_droop_m: Option<f64>,
}

impl<'w> Bench<'w> {
    /// Works out what does not depend on the spring.
    pub fn new(ground: Ground, wish: &'w Wish) -> Self {
        let wanted = Length::from_si(ground.wanted_m);
        let length_m = |z: f64| ground.curve.spring_length.length(Length::from_si(z)).si();
        Bench {
            wish,
            needed: ground.curve.spring_force_for(Force::from_si(ground.load.load_n), wanted),
            at_wanted: ground.curve.spring_length.length(wanted),
            ratio: ground.curve.spring_length.ratio(wanted).si(),
            at_metal_m: ground.metal_m.map(length_m),
            at_droop_m: ground.droop_m.map(|z| length_m(-z)),
            ground,
        }
    }

    /// The free length that would sit at the wanted height with this rate, m.
    pub fn free_for_m(&self, rate_n_per_m: f64) -> Option<f64> {
        let coil = Coil { rate_n_per_m, free_length_m: 0.0, solid_length_m: None };
        let seated = self.seated(coil).carrying(self.needed, self.at_wanted)?;
        Some(own(&seated).free_length_m)
    }

    /// Judges a spring on the spacer that suits it best.
    pub fn judge(&mut self, candidate: &Candidate) -> Judged {
        self.judge_on(candidate, None)
    }

    /// What springs are judged on.
    pub fn ground(&self) -> &Ground {
        &self.ground
    }

    /// The curve of what was judged last.
    pub fn curve(&self) -> &ForceTravel {
        &self.ground.curve
    }

    /// Judges a spring on the spacer that was cut before, m, else on the one that suits it best.
    pub fn judge_on(&mut self, candidate: &Candidate, cut_m: Option<f64>) -> Judged {
        let rate_n_per_m = candidate.rate_n_per_m;
        let Some(wanted_free_m) = self.free_for_m(rate_n_per_m) else { return Judged::lost() };
        // Without lengths along the spring, or a length in the list, it is taken to sit as wanted.
        let real = self.ground.lengths_known;
        let given = candidate.free_m.filter(|_| real);
        let free_m = given.unwrap_or(wanted_free_m);
        let wanted_spacer_m = wanted_free_m - free_m;
        let spacer_m = cut_m.unwrap_or(wanted_spacer_m.clamp(-self.wish.seat_down_m, self.wish.spacer_m));
        // What binds is checked by its own limit: here the coil stays open.
        let coil = Coil { rate_n_per_m, free_length_m: free_m + spacer_m, solid_length_m: None };
        self.ground.curve.spring = self.seated(coil);
        let wanted_m = self.ground.wanted_m;
        let Some((travel_m, rate)) = settle(&self.ground.curve, self.ground.load, wanted_m) else {
            return Judged::lost();
        };
        let solid_m = candidate.solid_m.map(|s| s + spacer_m);
        let (at_contact, load) = (self.ground.curve.force_at_contact(), Force::from_si(self.ground.load.load_n));
        let mut judged = Judged {
            margins: [f64::NAN; Limit::ALL.len()],
            frequency_hz: frequency_hz(rate, self.ground.load),
            travel_m,
            spacer_m,
            reserve: at_contact.and_then(|force| ride::reserve(force, load)).map_or(f64::NAN, |r| r.si()),
        };
        self.ride(&mut judged);
        if given.is_some() {
            // Room that the seat has left counts, as what it would move the wheel.
            let left_m = match cut_m {
                Some(_) => 0.0,
                None => (self.wish.spacer_m - wanted_spacer_m).min(wanted_spacer_m + self.wish.seat_down_m).max(0.0),
            };
            let per_m = self.ground.curve.spring.rate_n_per_m(self.at_wanted.si()) * self.ratio / rate;
            judged.margins[Limit::Height as usize] = self.wish.height_m - (travel_m - wanted_m).abs() + left_m * per_m;
        }
        if real {
            self.ends(&mut judged, solid_m);
        }
        self.strength(&mut judged, candidate, solid_m.filter(|_| real));
        judged
    }

    /// Frequencies and bump stop in every load case.
    fn ride(&self, judged: &mut Judged) {
        let ([low, high], laden) = (self.ground.frequency_hz, self.wish.laden);
        judged.margins[Limit::Slow as usize] = judged.frequency_hz - low;
        judged.margins[Limit::Quick as usize] = high - judged.frequency_hz;
        let gap_m = self.ground.curve.stop.as_ref().map(|s| s.gap_m);
        let mut stop_m = gap_m.map_or(f64::NAN, |gap| gap - judged.travel_m);
        let mut worst_hz = f64::NAN;
        for load in &self.ground.others {
            let Some((z, rate)) = settle(&self.ground.curve, *load, judged.travel_m) else {
                judged.margins[Limit::Stop as usize] = f64::NEG_INFINITY;
                return;
            };
            let f = frequency_hz(rate, *load);
            worst_hz = worst_hz.min(f - low * (1.0 - laden)).min(high * (1.0 + laden) - f);
            stop_m = gap_m.map_or(f64::NAN, |gap| stop_m.min(gap - z));
        }
        judged.margins[Limit::Laden as usize] = worst_hz;
        judged.margins[Limit::Stop as usize] = stop_m;
    }

    /// Bind when metal meets metal, grip at full droop.
    fn ends(&self, judged: &mut Judged, solid_m: Option<f64>) {
        if let (Some(length), Some(solid)) = (self.at_metal_m, self.stacked_m(solid_m)) {
            judged.margins[Limit::Bind as usize] = length - solid - self.wish.bind_m;
        }
        if let Some(length) = self.at_droop_m {
            judged.margins[Limit::Seat as usize] = self.ground.curve.spring.free_length_m() - length - self.wish.seat_m;
        }
    }

    /// Stress, load and diameters.
    fn strength(&self, judged: &mut Judged, candidate: &Candidate, solid_m: Option<f64>) {
        if let Some(length_m) = self.at_metal_m {
            // A coil gets no shorter than solid.
            let shortest_m = self.stacked_m(solid_m).map_or(length_m, |s| length_m.max(s));
            let force_n = self.ground.curve.spring.force_n(shortest_m);
            if let Some([pa_per_n, allowed_pa]) = candidate.stress {
                judged.margins[Limit::Stress as usize] = allowed_pa - pa_per_n * force_n;
            }
            if let Some(greatest_n) = candidate.greatest_n {
                judged.margins[Limit::Load as usize] = greatest_n - force_n;
            }
        }
        if let (Some(inside), Some(least)) = (candidate.inside_m, self.wish.inside_m) {
            judged.margins[Limit::Inside as usize] = inside - least;
        }
        if let (Some(outside), Some(most)) = (candidate.outside_m, self.wish.outside_m) {
            judged.margins[Limit::Outside as usize] = most - outside;
        }
    }

    /// Solid length of this coil, m, over the helper's where there is one.
    fn stacked_m(&self, solid_m: Option<f64>) -> Option<f64> {
        Some(solid_m? + self.ground.helper.map_or(Some(0.0), |h| h.solid_length_m)?)
    }

    fn seated(&self, coil: Coil) -> Spring {
        Spring::seated(coil, self.ground.helper)
    }
}

fn own(spring: &Spring) -> Coil {
    match spring {
        Spring::Stack(stack) => stack.main,
        Spring::Coil(coil) => *coil,
        // Only coils are seated here.
        _ => Coil { rate_n_per_m: f64::NAN, free_length_m: f64::NAN, solid_length_m: None },
    }
}

fn frequency_hz(rate_n_per_m: f64, load: CornerLoad) -> f64 {
    ride::frequency(SpringRate::from_si(rate_n_per_m), Mass::from_si(load.sprung_kg)).si()
}

/// Equilibrium of a load: wheel travel and wheel rate. From nearby, else as the solver finds it.
fn settle(curve: &ForceTravel, load: CornerLoad, near_m: f64) -> Option<(f64, f64)> {
    if let Some(z) = curve.settled_near(near_m, load.load_n) {
        return Some((z, curve.rate_n_per_m(z)));
    }
    let found = curve.held(Force::from_si(load.load_n))?;
    Some((found.travel.si(), found.wheel_rate.si()))
}
