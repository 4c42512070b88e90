//! How far an axle may come out from what is predicted of it, by drawing: every field that has a ± is moved at once, each
//! by its own law, the springs that are bought within what is bought, and the axle is solved again. Source `GUM1`
//! (JCGM 101:2008).

use rand_distr::{Distribution, StandardNormal, StandardUniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng;

use crate::base::units::entry::Spread;
use crate::base::units::{Frequency, Length, Quantity};
use crate::job::Job;
use crate::solve::answer::AxleAnswer;
use crate::solve::decide;
use crate::solve::evaluate::axle;
use crate::solve::evaluate::equal_load;
use crate::solve::read::Reading;

/// Number of draws: a share of two in three is then good to 1.5 points.
const DRAWS: usize = 1_000;
/// The same job says the same at every time.
const SEED: u64 = 1;
/// Less than this is rounding: such a spring is placed by its height, m.
const LEAST_M: f64 = 5e-5;

/// One draw of what a ± means, of mean 0 and standard deviation 1: a normal law, or a rectangular one for
/// limits. Source `GUM1`, 6.4.7 and 6.4.2.
pub fn law(spread: Spread, random: &mut Xoshiro256PlusPlus) -> f64 {
    match spread {
        Spread::Standard => StandardNormal.sample(random),
        Spread::Limits => {
            let even: f64 = StandardUniform.sample(random);
            (2.0 * even - 1.0) * 3.0_f64.sqrt()
        }
    }
}

/// Two times in three an axle as fitted comes out within both of these.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Within {
    /// Of the height change from before; `None` where no ± of it is followed.
    pub height: Option<Length>,
    /// Of the ride frequency.
    pub frequency: Frequency,
}

/// How near two draws in three come to what is predicted of an axle on the springs as fitted: of its height and of its ride
/// frequency at once, both in proportion to how they scatter. `None` when nothing scatters.
pub fn two_in_three(job: &Job, foretold: &AxleAnswer) -> Option<Within> {
    let off = deviations(job, foretold)?;
    let scatter = |of: fn(&[f64; 2]) -> f64| {
        let known = off.iter().flatten().map(of).filter(|v| v.is_finite());
        let (sum, count) = known.fold((0.0, 0.0), |(sum, n), v| (sum + v * v, n + 1.0));
        if count > 0.0 { f64::sqrt(sum / count) } else { 0.0 }
    };
    let (height_m, frequency_hz) = (scatter(|d| d[0]), scatter(|d| d[1]));
    let follows_height = height_m > LEAST_M;
    if frequency_hz <= 0.0 {
        return None;
    }
    // A draw in which the axle does not stand is far off.
    let far = |d: &Option<[f64; 2]>| {
        d.map_or(f64::INFINITY, |[height, frequency]| {
            let high = if follows_height { (height / height_m).abs() } else { 0.0 };
            high.max((frequency / frequency_hz).abs())
        })
    };
    let mut far: Vec<f64> = off.iter().map(far).collect();
    far.sort_by(f64::total_cmp);
    let reach = *far.get((2 * far.len()).div_ceil(3).checked_sub(1)?).filter(|r| r.is_finite())?;
    Some(Within {
        height: follows_height.then(|| Length::from_si(reach * height_m)),
        frequency: Frequency::from_si(reach * frequency_hz),
    })
}

/// Height, m, and ride frequency, Hz, less what is predicted, draw by draw; a height that is not known counts as predicted.
/// `None` for a draw in which the axle does not stand.
fn deviations(job: &Job, foretold: &AxleAnswer) -> Option<Vec<Option<[f64; 2]>>> {
    let new = foretold.standing.new.as_ref()?;
    let mut reading = Reading::of(job);
    let decisions = decide::decide(&mut reading);
    let decided = &decisions.axles[foretold.side];
    let asked = reading.uncertain(foretold.side);
    let fields: Vec<_> = asked.map(|(index, f)| (index, f.u_si, f.spread)).collect();
    let mut random = Xoshiro256PlusPlus::seed_from_u64(SEED);
    let draw = |_| {
        for (index, u_si, spread) in &fields {
            reading.move_by(*index, u_si * law(*spread, &mut random));
        }
        let axle = axle::evaluate(&reading, foretold.side, &equal_load::compared(&reading), decided);
        let drawn = axle.standing.new?;
        let height = drawn.height_change.zip(new.height_change).map_or(0.0, |(h, was)| (h - was).si());
        Some([height, (drawn.frequency - new.frequency).si()])
    };
    Some((0..DRAWS).map(draw).collect())
}
