//! The picture of dampers: force against speed.

use crate::base::language::tr;
use crate::base::units::{DamperSpeed, Dim, Quantity, Ratio, UnitChoice, display};
use crate::job::{Plan, Side};
use crate::report::pictures::label_places::Corner;
use crate::report::pictures::picture::{Line, Mark, Picture, Shade};
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, Damping, OfferedDamper, State};
use crate::trade::damper::Curve;

/// Force against speed: the wanted range, the old damper, the candidate. `None` until a damper is sized, and
/// while the axle is withheld.
pub fn force_speed(answer: &Answer, side: Side, units: &UnitChoice) -> Option<Picture> {
    let (axle, part) = (answer.axle(side), answer.released(side).ok()?);
    let (damping, targets) = (axle.damping.as_ref()?, part.damper.as_ref()?);
    let old = axle.old_damper.as_ref().and_then(|o| o.curve.as_ref());
    let offered = part.offered_damper.as_ref();
    let wanted: [Curve; 2] = match targets.two_slope {
        Some(two) => [two.low.curve(), two.high.curve()],
        None => [targets.at_damper.low, targets.at_damper.high].map(|mean| {
            let share = Ratio::from_si(mean.si() / targets.at_damper.aim.si());
            Curve::straight(targets.split.aim.scaled(share))
        }),
    };
    let ends = [old, offered.map(OfferedDamper::curve)].into_iter().flatten().map(|c| c.last_speed().si());
    let most_m_per_s = ends.filter(|v| v.is_finite()).fold(0.52, f64::max).min(1.1);
    let speeds = speeds(most_m_per_s, [old, offered.map(OfferedDamper::curve), Some(&wanted[0])]);
    let through = |curve: &Curve| speeds.iter().map(|v| [*v, curve.force_n(*v)]).collect::<Vec<_>>();
    let mut lines = Vec::new();
    // The marks name the lines: they stand where nothing is drawn.
    let line = |state, curve: &Curve| Line::new(Some(state), "", through(curve));
    lines.extend(old.map(|curve| line(State::OldSprings, curve)));
    lines.extend(offered.map(|o| line(State::NewSprings, o.curve())));
    let shade = Shade {
        points: speeds.iter().map(|v| [*v, wanted[0].force_n(*v), wanted[1].force_n(*v)]).collect(),
        label: say!(
            "target range, {low:.2} to {high:.2}",
            low = damping.ratio.low.si(),
            high = damping.ratio.high.si()
        ),
    };
    let x = (tr("speed at the damper: rebound −, bump +"), Dim::DamperSpeed);
    Some(Picture {
        lines,
        marks: marks(axle, damping, offered),
        shade: Some(shade),
        uprights: vec![(
            damping.peak_speed.si(),
            say!("peak {speed}", speed = display::rounded(DamperSpeed::from(damping.peak_speed), units)),
        )],
        ..Picture::new(title(axle, damping, offered), x, (tr("force on the body, upward +"), Dim::Force))
    })
}

/// Speeds of either sign: even steps, and every corner of the curves.
fn speeds(most_m_per_s: f64, curves: [Option<&Curve>; 3]) -> Vec<f64> {
    const STEPS: i32 = 40;
    let mut all: Vec<f64> = (-STEPS..=STEPS).map(|i| most_m_per_s * f64::from(i) / f64::from(STEPS)).collect();
    let corners = curves.into_iter().flatten().flat_map(|c| c.corners_m_per_s());
    all.extend(corners.filter(|v| *v < most_m_per_s).flat_map(|v| [-v, v]));
    all.sort_by(f64::total_cmp);
    all.dedup();
    all
}

/// ζ at the peak speed: before at the rebound end, after at the bump end, each on its curve.
fn marks(axle: &AxleAnswer, damping: &Damping, offered: Option<&OfferedDamper>) -> Vec<Mark> {
    let peak = damping.peak_speed.si();
    let zeta = |s: State| axle.standing.of(s).as_ref().and_then(|s| s.old_damper_ratio);
    let mut marks = Vec::new();
    if let Some(curve) = axle.old_damper.as_ref().and_then(|o| o.curve.as_ref()) {
        marks.extend(zeta(State::Before).map(|z| Mark {
            state: State::Before,
            label: say!("ζ {ratio:.2} before", ratio = z.si()),
            at: [-peak, curve.force_n(-peak)],
            words: Corner::LEFT_ABOVE,
        }));
        let new = zeta(State::NewSprings).map(Quantity::si);
        let after: Vec<String> = match axle.plan {
            Plan::Keep => new.map(|ratio| say!("{ratio:.2} on these springs", ratio)).into_iter().collect(),
            Plan::NewSprings => {
                let old = zeta(State::OldSprings).map(|z| say!("{ratio:.2} on old springs", ratio = z.si()));
                old.into_iter().chain(new.map(|ratio| say!("{ratio:.2} on new springs", ratio))).collect()
            }
        };
        if !after.is_empty() {
            let label = say!("old damper: ζ {ratios}", ratios = after.join(",\n"));
            let at = [peak, curve.force_n(peak)];
            marks.push(Mark { state: State::OldSprings, label, at, words: Corner::RIGHT_BELOW });
        }
    }
    if let Some(offered) = offered {
        let at = [peak, offered.curve().force_n(peak)];
        let ratio = offered.ratio().si();
        let label = match offered.click() {
            Some(click) => say!("candidate damper, click {click}: ζ {ratio:.2}", click, ratio),
            None => say!("candidate damper: ζ {ratio:.2}", ratio),
        };
        marks.push(Mark { state: State::NewSprings, label, at, words: Corner::LEFT_ABOVE });
    }
    marks
}

fn title(axle: &AxleAnswer, damping: &Damping, offered: Option<&OfferedDamper>) -> String {
    let side = axle.side.word();
    let [low, high] = [damping.ratio.low, damping.ratio.high].map(Quantity::si);
    let wanted = say!("the target is {low:.2} to {high:.2}", low, high);
    let springs = if axle.plan == Plan::Keep { tr("with the new weight") } else { tr("on the new springs") };
    let old = axle.standing.new.as_ref().and_then(|s| s.old_damper_ratio);
    let offered = offered.map(OfferedDamper::ratio);
    match (old, offered) {
        (Some(old), Some(new)) => {
            say!(
                "{side}: the old damper gives ζ {old:.2} {springs}, the candidate damper {new:.2}; {wanted}",
                side,
                springs,
                wanted,
                old = old.si(),
                new = new.si()
            )
        }
        (Some(old), None) => {
            say!("{side}: the old damper gives ζ {old:.2} {springs}; {wanted}", side, springs, wanted, old = old.si())
        }
        (None, Some(new)) => {
            say!("{side}: the candidate damper gives ζ {new:.2}; {wanted}", side, wanted, new = new.si())
        }
        (None, None) => say!("{side}: forces for a damping ratio of {low:.2} to {high:.2}", side, low, high),
    }
}
