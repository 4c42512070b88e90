//! Ordinary differential equations by a library's adaptive Runge–Kutta method, with samples at even times.

use differential_equations::prelude::*;
use thiserror::Error;

/// A system of first-order equations.
pub trait System<const N: usize> {
    /// The slopes of every state at a time.
    fn slopes(&self, time_s: f64, state: &[f64; N], slopes: &mut [f64; N]);
}

/// How exact a run is, and where it is sampled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// From zero to this time, s.
    pub until_s: f64,
    /// Samples so far apart, s.
    pub every_s: f64,
    /// Error allowed in one step, relative to each state.
    pub relative: f64,
    /// Error allowed in one step, in the unit of each state.
    pub absolute: f64,
    /// No step longer than this, s: nothing short on the way is stepped over.
    pub longest_step_s: f64,
    /// No more steps than this: what asks for more is too stiff to be followed.
    pub most_steps: usize,
}

/// Why a run ended early.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum Ended {
    /// The caller stopped it.
    #[error("the run was stopped")]
    Stopped,
    /// No step is short enough.
    #[error("the motion cannot be calculated: it changes too fast for any time step; check masses, rates and dampers")]
    TooStiff,
}

struct Equations<'a, S>(&'a S);

impl<const N: usize, S: System<N>> ODE<f64, [f64; N]> for Equations<'_, S> {
    fn diff(&self, t: f64, y: &[f64; N], dydt: &mut [f64; N]) {
        self.0.slopes(t, y, dydt);
    }
}

/// Hands over a sample at every even time.
struct Sampler<F> {
    next: usize,
    every_s: f64,
    seen: F,
    is_stopped: bool,
}

impl<const N: usize, F: FnMut(f64, &[f64; N]) -> bool> Solout<f64, [f64; N]> for Sampler<F> {
    fn solout<I: Interpolation<f64, [f64; N]> + ?Sized>(
        &mut self,
        t_curr: f64,
        t_prev: f64,
        y_curr: &[f64; N],
        _y_prev: &[f64; N],
        interpolator: &mut I,
        _solution: &mut Solution<f64, [f64; N]>,
    ) -> ControlFlag<f64, [f64; N]> {
        loop {
            let at_s = self.next as f64 * self.every_s;
            if at_s > t_curr {
                return ControlFlag::Continue;
            }
            let inside = at_s > t_prev && at_s < t_curr;
            let found = if inside { interpolator.interpolate(at_s).ok() } else { None };
            self.next += 1;
            if !(self.seen)(at_s, &found.unwrap_or(*y_curr)) {
                self.is_stopped = true;
                return ControlFlag::Terminate;
            }
        }
    }
}

/// Follows a system from its start. `seen` gets every sample, and stops the run by `false`.
///
/// Returns the number of steps taken. The method is that of Dormand and Prince, of fifth order, with its own
/// fourth-order formula between the steps.
///
/// # Errors
/// [`Ended`]: stopped, or too stiff to be followed.
pub fn follow<const N: usize>(
    system: &impl System<N>,
    start: &[f64; N],
    pace: Pace,
    seen: impl FnMut(f64, &[f64; N]) -> bool,
) -> Result<usize, Ended> {
    let mut method = ExplicitRungeKutta::dopri5()
        .rtol(pace.relative)
        .atol(pace.absolute)
        .h_max(pace.longest_step_s)
        .max_steps(pace.most_steps);
    let mut sampler = Sampler { next: 0, every_s: pace.every_s, seen, is_stopped: false };
    let run =
        differential_equations::ode::solve_ode(&mut method, &Equations(system), 0.0, pace.until_s, start, &mut sampler);
    match run {
        Ok(_) if sampler.is_stopped => Err(Ended::Stopped),
        Ok(solution) => Ok(solution.steps.total()),
        Err(_) => Err(Ended::TooStiff),
    }
}
