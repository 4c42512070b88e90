//! Results of recordings: the body mode that is predicted, and what a record shows.

use crate::base::language::tr;
use crate::base::units::Quantity;
use crate::report::results::collect::{OfAxle, Out, Wants, then};
use crate::report::results::row::{Row, figures, put, rows, si};
use crate::report::results::{By, Figure, Say};
use crate::solve::answer::{BounceMeasured, Measured, OnBench, State};
use crate::solve::recorded::{Analysed, Bounce, Drive, OfAxle as Compared};

const MODE: &str =
    "lower-frequency root pair of the damped quarter-car model; not the frequency without tyre deflection";
const ROOTS: &str = "m_s m_u s⁴ + c(m_s + m_u)s³ + (k_w(m_s + m_u) + k_t m_s)s² + c k_t s + k_w k_t = 0";

static BODY_MODE: &[Row<OnBench>] = rows! { OnBench;
    "frequency", "body mode frequency, as in a bounce test", Frequency, MODE;
        ROOTS, "DERIVED", |b| Some(b.body_mode()?.frequency.si()), by: By::Solving;
    "damping", "body mode damping ratio", Ratio, MODE;
        ROOTS, "DERIVED", |b| Some(b.body_mode()?.damping.si()), by: By::Solving;
};

const WITHOUT_RATIO: &str = "from frequency and damping alone, without a motion ratio";
const AS_RECORDED: &str = "from the recording: the damped body mode";
const OFF: &str = "measured minus predicted body mode, damper cold";

static MEASURED: &[Row<BounceMeasured>] = rows! { BounceMeasured;
    "frequency", "measured frequency in the bounce test", Frequency, AS_RECORDED;
        "as recorded", "PRACTICE", |b| si(b.frequency), by: By::Reading;
    "frequency_off", "measured minus predicted frequency", Frequency, OFF;
        "f − f_p", "DERIVED", |b| si(b.frequency_off()), say: Say::Signed,
        with: |b| put!["f": b.frequency?, "f_p": b.predicted?.frequency];
    "damping", "measured damping ratio in the bounce test", Ratio, AS_RECORDED;
        "as recorded", "PRACTICE", |b| si(b.damping), by: By::Reading;
    "damping_off", "measured minus predicted damping ratio", Ratio, OFF;
        "ζ − ζ_p", "DERIVED", |b| si(b.damping_off()), say: Say::Signed,
        with: |b| put!["ζ": b.damping?, "ζ_p": b.predicted?.damping];
    "wheel_rate", "wheel rate from the bounce test", SpringRate, WITHOUT_RATIO;
        ROOTS, "DERIVED", |b| si(b.wheel_rate), by: By::Solving;
};

/// Of one axle: the mode in every state, and what was recorded before and after.
pub(in crate::report::results) fn add(out: &mut Out, of: OfAxle<'_>) {
    let words = State::ALL.map(|state| then(state.words().said()));
    out.part("body_mode.before", &words[0], BODY_MODE, of, |a| a.bench.predicted.before.as_ref());
    out.part("body_mode.old_springs", &words[1], BODY_MODE, of, |a| a.bench.predicted.old.as_ref());
    out.part("body_mode.new_springs", &words[2], BODY_MODE, of, |a| a.bench.predicted.new.as_ref());
    out.part("bounce.measured.before", &then(tr("before")), MEASURED, of, |a| Some(&a.bounce.before));
    out.part("bounce.measured.after", &then(tr("after")), MEASURED, of, |a| Some(&a.bounce.after));
}

const FITTED: &str = "fitted to the free decays, weighted by their ±";
const FIT: &str = "a = e^(−σt)(A cos ω_d t + B sin ω_d t) + c₀";

/// Every result of a record, with its ±; `axle` is what it says of an axle of a job, if one was named.
pub fn recorded(found: &Analysed, axle: Option<&Compared>, ratio: Option<Measured>) -> Vec<Figure> {
    let mut put = Put(Out::new(Wants::Values));
    of_bounce(&mut put, &found.bounce);
    of_axle(&mut put, axle);
    of_drive(&mut put, found.drive.as_ref());
    figures! { put;
        one "ratio", tr("acceleration after ÷ before"), Ratio, "± from the scatter of 4 s segments";
            "rms after / rms before", "DERIVED" => ratio;
    }
    put.0.figures
}

struct Put(Out);

impl Put {
    /// One result, with its ± if it has one.
    fn one(&mut self, like: Figure, value: Option<Measured>) {
        let key = format!("recording.{}", like.key);
        let like = Figure { key, by: By::Solving, say: Say::Measured, ..like };
        self.0.put(like, value.map(|m| m.value), value.map(|m| m.u).filter(|u| *u > 0.0));
    }
}

fn of_bounce(put: &mut Put, bounce: &Bounce) {
    figures! { put;
        one "frequency", tr("body mode frequency"), Frequency, FITTED;
            FIT, "DERIVED" => bounce.frequency_hz;
        one "damping", tr("body mode damping ratio"), Ratio, FITTED;
            "ζ = σ/√(σ² + ω_d²)", "DERIVED" => bounce.damping;
        one "directive", tr("damping D as defined in Directive 96/53/EC"), Ratio,
            "successive peaks in one direction; equals ζ/√(1 − ζ²)";
            "D = ln(A1/A2)/2π", "96/53" => bounce.directive;
        one "friction", tr("friction ÷ load"), Ratio, "from the rise in damping at small amplitudes";
            "ζ = ζ₀ + 2 φ g/(π A)", "DERIVED" => bounce.friction.and_then(|f| f.share);
        one "peak_speed", tr("highest wheel travel speed after the first peak"), DamperSpeed, FITTED;
            "ω x₀ e^(−ζ acos ζ/√(1 − ζ²))", "DERIVED" => exact(bounce.peak_speed_m_per_s);
    }
}

fn of_axle(put: &mut Put, axle: Option<&Compared>) {
    figures! { put;
        one "damping_rate", tr("damper rate"), DampingRate,
            "at the wheel; together with the wheel rate from the job, gives the measured damping ratio";
            ROOTS, "DERIVED" => axle.and_then(|a| a.damping_rate);
        one "on_springs", tr("damping ratio, without tyre deflection"), Ratio,
            "corresponds to \"Damping ratio before the change\" in the job";
            "c/(2√(k_w m_s))", "GIL" => axle.and_then(|a| a.on_springs);
        one "wheel_rate", tr("wheel rate from the bounce test"), SpringRate, WITHOUT_RATIO;
            ROOTS, "DERIVED" => axle.and_then(|a| a.wheel_rate);
        one "predicted.frequency", tr("predicted body mode frequency"), Frequency, MODE;
            ROOTS, "DERIVED" => axle.and_then(|a| Some(a.frequency_hz?.predicted));
        one "predicted.damping", tr("predicted body mode damping ratio"), Ratio, MODE;
            ROOTS, "DERIVED" => axle.and_then(|a| Some(a.damping?.predicted));
    }
}

fn of_drive(put: &mut Put, drive: Option<&Drive>) {
    let felt = drive.and_then(|d| d.felt);
    figures! { put;
        one "rms", tr("acceleration, rms, unweighted"), Acceleration, "body acceleration about its mean, + up";
            "√(mean of a²)", "R2631" => exact(drive.map(|d| d.rms_m_per_s2));
        one "weighted", tr("weighted acceleration (W_k), rms"), Acceleration,
            "weighted in the frequency domain; needs at least 100 samples per second";
            "√(mean of a_w²)", "R2631" => exact(felt.map(|f| f.rms_m_per_s2));
        one "crest", tr("crest factor"), Ratio, "largest weighted acceleration ÷ its rms";
            "max |a_w|/rms", "R2631" => exact(felt.map(|f| f.crest));
        one "body_peak", tr("dominant frequency of the body"), Frequency, "peak of the spectrum between 0.7 and 3.5 Hz";
            WELCH, "DERIVED" => exact(drive.and_then(|d| d.body_hz));
        one "hop_peak", tr("dominant frequency of the wheels"), Frequency, "peak of the spectrum between 7 and 20 Hz";
            WELCH, "DERIVED" => exact(drive.and_then(|d| d.hop_hz));
    }
}

const WELCH: &str = "Welch, Hann, 4 s, half overlap";

fn exact(value: Option<f64>) -> Option<Measured> {
    value.map(Measured::exact)
}
