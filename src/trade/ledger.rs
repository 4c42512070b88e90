//! Parts out and in, what they do to axles and corners, and where the centre of gravity is.
//!
//! The body is rigid on two axles, each with one heave rate and one roll stiffness; it does not rest on four corners of
//! its own. What axles carry together follows from statics alone; only the roll moment is shared by stiffness.
//! x is behind the front axle, y from the centreline, + right; roll is + with the right side down.
//! How far the body's own centre of gravity wanders when it leans is left out of the shares.

use crate::base::units::{Force, Length, Mass, Quantity, TwistRate};
use crate::trade::roll;
use crate::trade::weights::{self, Corners};

/// What a part is fixed to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum On {
    /// The body: sprung.
    Body,
    /// An axle, 0 front, any other number rear: unsprung, its x is the axle's.
    Axle(usize),
}

/// One line of the ledger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// What goes in counts +, what comes out −.
    pub mass: Mass,
    /// Behind the front axle. Not used for an unsprung part.
    pub x: Length,
    /// From the centreline, + right.
    pub y: Length,
    /// What it is fixed to.
    pub on: On,
}

impl Part {
    /// x/L: the share of its weight on the rear axle.
    fn rear_share(&self, wheelbase: Length) -> f64 {
        match self.on {
            On::Body => self.x.si() / wheelbase.si(),
            On::Axle(0) => 0.0,
            On::Axle(_) => 1.0,
        }
    }
}

/// What the axles gain, front and rear, kg: ΔF = Σ m (1 − x/L), ΔR = Σ m x/L. Source `DERIVED` (moments).
///
/// ```
/// use springwright::trade::ledger::{On, Part, axle_change};
/// use springwright::base::units::{Length, Mass, Quantity};
/// let (kg, m) = (Mass::from_si, Length::from_si);
/// let crane = Part { mass: kg(100.0), x: m(4.0), y: m(0.0), on: On::Body };
/// assert_eq!(axle_change(&[crane], m(3.2)), [kg(-25.0), kg(125.0)]);
/// ```
pub fn axle_change(parts: &[Part], wheelbase: Length) -> [Mass; 2] {
    parts.iter().fold([Mass::from_si(0.0); 2], |[front, rear], part| {
        let share = part.rear_share(wheelbase);
        [front + part.mass * (1.0 - share), rear + part.mass * share]
    })
}

/// What the tongue load does to the axles, front and rear: −T o/L and T (L + o)/L with the hitch o behind the rear
/// axle, N. It is a force: nothing is added to the mass in frequency or inertia. Source `DERIVED` (moments).
pub fn tongue(load: Force, hitch_behind_rear: Length, wheelbase: Length) -> [Force; 2] {
    let lever = hitch_behind_rear.si() / wheelbase.si();
    [-load * lever, load * (1.0 + lever)]
}

/// The mass that a ledger misses and where it would sit behind the front axle, from the residual of the axles:
/// m = r_F + r_R, x = L r_R/m. `None` when the residuals cancel: then it is a moment, not a mass. Source `DERIVED`.
pub fn where_missing(residual: [Mass; 2], wheelbase: Length) -> Option<(Mass, Length)> {
    let [front, rear] = residual;
    let mass = front + rear;
    let noise_kg = 1e-9 * (front.si().abs() + rear.si().abs());
    (mass.si().abs() > noise_kg).then(|| (mass, wheelbase * (rear.si() / mass.si())))
}

/// How one axle passes roll from the body to the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RollPath {
    /// Its springs at their base, with everything parallel to them except the bar.
    pub springs: TwistRate,
    /// Its anti-roll bar.
    pub bar: TwistRate,
    /// Its tyres, k_t t²/2; infinite when they count as rigid.
    pub tyres: TwistRate,
    /// Its track.
    pub track: Length,
}

impl RollPath {
    /// Body to ground, N·m/rad: springs and bar side by side, in series with the tyres,
    /// (K_s + K_b) K_t/(K_s + K_b + K_t). Source `DERIVED`.
    pub fn to_ground(&self) -> TwistRate {
        roll::in_series(self.on_tyres(), self.tyres)
    }

    fn on_tyres(&self) -> TwistRate {
        roll::together(&[self.springs, self.bar])
    }

    /// The springs' share of what is on the tyres; a seat acts through them only.
    fn spring_share(&self) -> f64 {
        let whole = self.on_tyres().si();
        if whole > 0.0 { self.springs.si() / whole } else { 0.0 }
    }
}

/// Roll stiffnesses to the ground of both axles and their sum; `None` without stiffness or track.
fn to_ground(paths: &[RollPath; 2]) -> Option<([f64; 2], f64)> {
    let each = paths.map(|p| p.to_ground().si());
    let sum = each[0] + each[1];
    let usable = each.iter().all(|k| *k >= 0.0) && sum > 0.0 && sum.is_finite();
    (usable && paths.iter().all(|p| p.track.si() > 0.0)).then_some((each, sum))
}

/// What the corners gain, kg.
///
/// Axles by statics. The roll moment of what sits on the body, Σ m y, is shared by the axles as their stiffness to the
/// ground: M_i = Σ m y · K_i/ΣK, and a corner gains half of its axle ∓ M_i/t_i (left −, right +). What sits on an axle
/// loads that axle's tyres only: half each ∓ m y/t_i. `None` without wheelbase, track or roll stiffness.
/// Source `DERIVED`, checked by solving springs, bars and tyres as one system of equations.
pub fn corner_change(parts: &[Part], wheelbase: Length, paths: &[RollPath; 2]) -> Option<Corners<Mass>> {
    let (each, sum) = to_ground(paths)?;
    if wheelbase.si() <= 0.0 {
        return None;
    }
    let on_body_kg_m = moment_kg_m(parts.iter().filter(|p| p.on == On::Body));
    let on_axle_kg_m =
        |rear: bool| moment_kg_m(parts.iter().filter(|p| matches!(p.on, On::Axle(n) if (n != 0) == rear)));
    let moved = [
        (on_body_kg_m * each[0] / sum + on_axle_kg_m(false)) / paths[0].track.si(),
        (on_body_kg_m * each[1] / sum + on_axle_kg_m(true)) / paths[1].track.si(),
    ];
    let halves = axle_change(parts, wheelbase).map(|axle| axle / 2.0);
    Some(to_the_right(halves, moved.map(Mass::from_si)))
}

/// Roll moment of parts about the centreline, kg·m, + right: Σ m y. Source `DERIVED` (definition).
fn moment_kg_m<'a>(parts: impl Iterator<Item = &'a Part>) -> f64 {
    parts.map(|p| p.mass.si() * p.y.si()).sum()
}

/// Corners from half of each axle and what its right wheel carries more than that.
fn to_the_right<T>(halves: [T; 2], moved: [T; 2]) -> Corners<T>
where
    T: Copy + std::ops::Add<Output = T> + std::ops::Sub<Output = T>,
{
    Corners { lf: halves[0] - moved[0], rf: halves[0] + moved[0], lr: halves[1] - moved[1], rr: halves[1] + moved[1] }
}

/// Corner loads gained, N, when spring seats are raised and when scale pads stand higher.
///
/// Seats are given as how far the body would rise at that corner were it free there, + up; on an axle whose springs
/// stand on a base t_s narrower than its track that is, in roll, the seat's own shift times t/t_s. Pads are
/// heights, + up.
/// Axles keep their loads (statics). Per axle, with θ = (left − right)/t, K_s springs, K = K_s + bar, K_t tyres and φ
/// the body's roll, the left wheel gains and the right one loses M/t,
/// M = [K_s θ_seat + K θ_pad − K φ] / (1 + K/K_t). φ is such that both M cancel, so with G = K/(1 + K/K_t) and
/// w = θ_seat K_s/K + θ_pad: M_F = −M_R = (w_F − w_R) G_F G_R/(G_F + G_R).
/// `None` without track or roll stiffness. Source `DERIVED`, checked by solving the whole as one system of equations.
pub fn pads_and_seats(
    seats: &Corners<Length>,
    pads: &Corners<Length>,
    paths: &[RollPath; 2],
) -> Option<Corners<Force>> {
    let (each, sum) = to_ground(paths)?;
    let across =
        |c: &Corners<Length>| [(c.lf - c.rf).si() / paths[0].track.si(), (c.lr - c.rr).si() / paths[1].track.si()];
    let (seat, pad) = (across(seats), across(pads));
    let wants = [0, 1].map(|i| paths[i].spring_share() * seat[i] + pad[i]);
    // The body's roll drops out: what one axle is wound up against the other passes both, one behind the other.
    let left_nm = (wants[0] - wants[1]) * each[0] * each[1] / sum;
    let moved = [-left_nm / paths[0].track.si(), left_nm / paths[1].track.si()].map(Force::from_si);
    Some(to_the_right([Force::from_si(0.0); 2], moved))
}

/// Centre of gravity seen from above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plan {
    /// Behind the front axle.
    pub behind_front: Length,
    /// From the centreline, + right.
    pub right: Length,
}

/// Where the centre of gravity is in plan, m: a = L (LR + RR)/total, y = Σ (right − left) t/2 / total.
/// `None` without a total. Source `DERIVED` (moments); worked numbers C68.
pub fn centre_of_gravity(readings: &Corners<Mass>, wheelbase: Length, tracks: [Length; 2]) -> Option<Plan> {
    let total = weights::total(readings);
    let right = (readings.rf - readings.lf) * tracks[0] / 2.0 + (readings.rr - readings.lr) * tracks[1] / 2.0;
    (total.si() > 0.0)
        .then(|| Plan { behind_front: (readings.lr + readings.rr) * wheelbase / total, right: right / total })
}

/// A weighing with one axle lifted, suspension blocked, brakes off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxleLift {
    /// The whole vehicle.
    pub total: Mass,
    /// Hub to hub.
    pub wheelbase: Length,
    /// Height of the hubs above the ground when level.
    pub hub_height: Length,
    /// How far the hubs of the lifted axle were raised.
    pub rise: Length,
    /// The axle that stays down, read level.
    pub level: Mass,
    /// The same axle, read with the other one lifted.
    pub lifted: Mass,
}

/// Standard uncertainties of an axle lift.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxleLiftSpread {
    /// Of each of the two readings of the axle that stays down, independent of each other.
    pub reading: Mass,
    /// Of the whole mass.
    pub total: Mass,
    /// Of the wheelbase.
    pub wheelbase: Length,
    /// Of the hub height.
    pub hub_height: Length,
    /// Of the rise.
    pub rise: Length,
}

impl AxleLift {
    /// Height of the centre of gravity, m: h = r + ΔF L/(m tan θ), θ = asin(H/L), ΔF what the axle left down gained.
    /// `None` unless 0 < H < L and the mass is above 0. H/L in place of tan θ reads high. Source `LIFT`; worked
    /// numbers C65.
    pub fn height(&self) -> Option<Length> {
        Some(self.hub_height + Length::from_si((self.lifted - self.level).si() * self.m_per_kg()?))
    }

    /// What a kilogram of load change is worth in height, m/kg: L/(m tan θ) = L √(L² − H²)/(m H). Source `LIFT`.
    fn m_per_kg(&self) -> Option<f64> {
        let (l_m, rise_m, total_kg) = (self.wheelbase.si(), self.rise.si(), self.total.si());
        let usable = rise_m > 0.0 && rise_m < l_m && total_kg > 0.0;
        usable.then(|| l_m * (l_m * l_m - rise_m * rise_m).sqrt() / (total_kg * rise_m))
    }

    /// Standard uncertainty of [`Self::height`], m, first order, inputs independent. With q = h − r:
    /// u² = u_r² + 2 (q/ΔF)² u_F² + q² [(u_m/m)² + (1/L + L/(L²−H²))² u_L² + (L²/(H (L²−H²)))² u_H²].
    /// Source `GUM`; partial derivatives `DERIVED`.
    pub fn height_spread(&self, u: &AxleLiftSpread) -> Option<Length> {
        let per_kg = self.m_per_kg()?;
        let above_m = (self.lifted - self.level).si() * per_kg;
        let (l_m, rise_m) = (self.wheelbase.si(), self.rise.si());
        let across = l_m * l_m - rise_m * rise_m;
        let terms = [
            u.hub_height.si(),
            2.0_f64.sqrt() * per_kg * u.reading.si(),
            above_m * u.total.si() / self.total.si(),
            above_m * (1.0 / l_m + l_m / across) * u.wheelbase.si(),
            above_m * l_m * l_m / (rise_m * across) * u.rise.si(),
        ];
        Some(Length::from_si(terms.iter().map(|t| t * t).sum::<f64>().sqrt()))
    }
}
