//! Dampers in words, tables and one picture: force against speed.

use crate::base::language::tr;
use crate::base::units::{DamperSpeed, Dim, Force, Quantity, Ratio, UnitChoice, Velocity, display};
use crate::job::{Plan, Side};
use crate::report::Block;
use crate::report::or_unknown;
use crate::report::pictures::picture::{Axis, Line, Mark, Picture, Shade, Words};
use crate::say;
use crate::solve::answer::{
    Answer, AxleAnswer, DamperTargets, Damping, ForceAtSpeed, OfferedDamper, OldDamper, OldDamperBy, Part, State,
};
use crate::trade::damper::Curve;

/// What springs do, and what dampers do.
pub const WHAT_EACH_DOES: &str = "Springs bring back the height and the bounces per second; the damper is what calms the motion. A stiffer spring alone calms nothing: with the old damper the bounces then die out more slowly still. Both are sized together here.";

fn speed(speed: Velocity, units: &UnitChoice) -> String {
    display::rounded(DamperSpeed::from(speed), units)
}

fn two(ratio: Ratio) -> String {
    display::fixed(ratio.si(), 2)
}

/// "0.27, hot 0.23".
fn with_hot(ratio: Ratio, damping: &Damping) -> String {
    damping
        .hot(ratio)
        .map_or_else(|| two(ratio), |hot| say!("{ratio:.2}, hot {hot:.2}", ratio = ratio.si(), hot = hot.si()))
}

fn pair(what: impl Into<String>, said: impl Into<String>) -> Vec<String> {
    vec![what.into(), said.into()]
}

/// All tables about the dampers of one axle; nothing before the axle has springs.
pub fn blocks(answer: &Answer, side: Side, units: &UnitChoice) -> Vec<Block> {
    let axle = answer.axle(side);
    let Some(damping) = &axle.damping else { return Vec::new() };
    let Ok(part) = answer.released(side) else {
        let text = tr("withheld; the first line of the axle says why");
        let row = pair(tr("Rate and forces at the damper"), text);
        return vec![with_row(needed(axle, damping, None, units), row)];
    };
    let Some(targets) = &part.damper else { return Vec::new() };
    let mut blocks = vec![needed(axle, damping, Some(targets), units)];
    blocks.push(forces(tr("Speed at the damper"), &targets.forces, units));
    if let Some(bent) = &targets.two_slope_forces {
        blocks.push(forces(&two_slope_words(targets, units), bent, units));
    }
    blocks.extend(axle.old_damper.as_ref().and_then(|old| curves(part, targets, old, units)));
    if let Some(offered) = &part.offered_damper {
        blocks.push(offered_table(axle, offered, damping, units));
        blocks.extend(clicks(offered, damping));
    }
    blocks
}

/// The same table with one row more.
fn with_row(block: Block, row: Vec<String>) -> Block {
    match block {
        Block::Table { head, mut rows } => {
            rows.push(row);
            Block::Table { head, rows }
        }
        other => other,
    }
}

fn needed(axle: &AxleAnswer, damping: &Damping, targets: Option<&DamperTargets>, units: &UnitChoice) -> Block {
    use crate::report::sheets::sheet::band;
    let mut rows = vec![
        pair(tr("Wanted damping ratio"), band(&damping.ratio, units)),
        pair(tr("Rate at the wheel"), band(&damping.at_wheel, units)),
    ];
    if let Some(targets) = targets {
        let bump = display::rounded_number(targets.split.bump.si(), units.unit(Dim::DampingRate));
        let both = say!("{bump} and {rebound}", bump, rebound = display::rounded(targets.split.rebound, units));
        rows.push(pair(tr("Rate at the damper, mean"), band(&targets.at_damper, units)));
        rows.push(pair(tr("Bump and rebound at the damper, middle"), both));
    }
    if let Some(old) = &axle.old_damper {
        rows.push(pair(tr("Old damper, known by"), known_by(old, damping, units)));
        let ratio = |s: State| axle.standing.of(s).as_ref().and_then(|s| s.old_damper_ratio);
        let stages = [
            (State::Before, tr("Damping ratio, old damper, before")),
            (State::OldSprings, tr("Damping ratio, old damper, on the old springs, after")),
        ];
        for (state, words) in stages {
            rows.extend(ratio(state).map(|z| pair(words, of_old(old, two(z)))));
        }
        let on_new = ratio(State::NewSprings).map(|z| of_old(old, with_hot(z, damping)));
        rows.extend(on_new.map(|z| pair(tr("Damping ratio, old damper on these springs"), z)));
    }
    rows.extend(damping.hot(damping.ratio.aim).map(|z| pair(tr("Middle of the wanted range, when hot"), two(z))));
    if let Some(scale) = damping.scale {
        rows.push(pair(tr("Damper stiffness to keep the ratio, new ÷ old"), format!("× {}", two(scale))));
    }
    if let Some(aimed) = damping.hop_ratio {
        let measured = axle.old_damper.as_ref().is_some_and(|old| !old.is_assumed);
        let said = match damping.old_hop_ratio.filter(|_| measured) {
            Some(old) => say!("{aimed:.2}, old damper {old:.2}", aimed = aimed.si(), old = old.si()),
            None => two(aimed),
        };
        rows.push(pair(tr("Damping ratio of wheel hop, middle"), said));
    }
    if let Some((force, lift)) = damping.gas_force.zip(damping.gas_lift) {
        let said =
            say!("{force}, lifts {lift}", force = display::rounded(force, units), lift = display::rounded(lift, units));
        rows.push(pair(tr("Push of the gas"), said));
    }
    Block::Table { head: vec![say!("{side} damper", side = axle.side.word()), String::new()], rows }
}

fn known_by(old: &OldDamper, damping: &Damping, units: &UnitChoice) -> String {
    let rates = old.rates.map_or(String::new(), |r| {
        let bump = display::rounded_number(r.bump.si(), units.unit(Dim::DampingRate));
        format!(": {}", say!("{bump} and {rebound}", bump, rebound = display::rounded(r.rebound, units)))
    });
    match old.by {
        OldDamperBy::Curve => {
            let said = say!("its curve, equal work at a peak of {peak}", peak = speed(damping.peak_speed, units));
            said + &rates
        }
        OldDamperBy::Rates => format!("{}{rates}", tr("its rates")),
        OldDamperBy::RatioBefore if old.is_assumed => {
            tr("nothing: not measured, its damping ratio before assumed").into()
        }
        OldDamperBy::RatioBefore => tr("its damping ratio before").into(),
    }
}

/// A damping ratio with the old damper: "0.21", "0.21 (not measured, assumed)".
fn of_old(old: &OldDamper, said: String) -> String {
    if old.is_assumed { say!("{ratio} (not measured, assumed)", ratio = said) } else { said }
}

fn two_slope_words(targets: &DamperTargets, units: &UnitChoice) -> String {
    let Some(two) = targets.two_slope else { return tr("Two slopes").into() };
    say!(
        "Two slopes: knee {knee}, {upper_share:.0} % beyond",
        knee = speed(two.aim.knee, units),
        upper_share = 100.0 * two.aim.upper_share.si()
    )
}

fn forces(first: &str, forces: &[ForceAtSpeed; 5], units: &UnitChoice) -> Block {
    use crate::report::sheets::sheet::band;
    let row = |f: &ForceAtSpeed| vec![speed(f.speed, units), band(&f.bump, units), band(&f.rebound, units)];
    Block::Table {
        head: vec![first.into(), tr("bump").into(), tr("rebound").into()],
        rows: forces.iter().map(row).collect(),
    }
}

/// Forces of the old damper and of the one thought of at the customary speeds; `None` without a curve.
fn curves(part: Part<'_>, targets: &DamperTargets, old: &OldDamper, units: &UnitChoice) -> Option<Block> {
    let offered = part.offered_damper.as_ref().map(OfferedDamper::curve);
    let shown: Vec<(&str, &Curve)> =
        [old.curve.as_ref().map(|c| (tr("old"), c)), offered.map(|c| (tr("thought of"), c))]
            .into_iter()
            .flatten()
            .collect();
    if shown.is_empty() {
        return None;
    }
    let number = |f: Force| display::rounded(f, units);
    let rows = targets.forces.iter().map(|f| {
        let cells = shown.iter().flat_map(|(_, curve)| {
            let (bump, rebound) = curve.forces(f.speed);
            let beyond = if curve.is_beyond(f.speed) { tr(", continued") } else { "" };
            [bump, rebound].map(|force| format!("{}{beyond}", number(force)))
        });
        std::iter::once(speed(f.speed, units)).chain(cells).collect()
    });
    let heads = shown.iter().flat_map(|(name, _)| [say!("{name}, bump", name), say!("{name}, rebound", name)]);
    let head = std::iter::once(tr("Speed at the damper").to_owned()).chain(heads).collect();
    Some(Block::Table { head, rows: rows.collect() })
}

fn offered_table(axle: &AxleAnswer, offered: &OfferedDamper, damping: &Damping, units: &UnitChoice) -> Block {
    let bump = display::rounded_number(offered.rates.bump.si(), units.unit(Dim::DampingRate));
    let inside = match (offered.fit.inside, offered.clicks_inside()) {
        (None, _) => tr("no: outside the wanted range").into(),
        (Some(_), Some([first, last])) if first == last => say!("yes, at click {first}", first),
        (Some(_), Some([first, last])) => say!("yes, from click {first} to {last}", first, last),
        (Some(_), None) => tr("yes").into(),
    };
    let mut rows = Vec::new();
    rows.extend(offered.click().map(|n| pair(tr("Click that fits best"), n.to_string())));
    rows.push(pair(tr("Damping ratio"), with_hot(offered.ratio(), damping)));
    rows.push(pair(tr("Inside the wanted range"), inside));
    rows.push(pair(
        say!("Bump and rebound, equal work at a peak of {peak}", peak = speed(damping.peak_speed, units)),
        say!("{bump} and {rebound}", bump, rebound = display::rounded(offered.rates.rebound, units)),
    ));
    rows.push(pair(tr("Damping ratio of wheel hop"), or_unknown(offered.hop_ratio, two)));
    rows.push(pair(tr("Left at full bump"), or_unknown(offered.to_closed, |l| display::rounded(l, units))));
    rows.push(pair(tr("Left at full droop"), or_unknown(offered.to_open, |l| display::rounded(l, units))));
    Block::Table { head: vec![say!("{side} damper thought of", side = axle.side.word()), String::new()], rows }
}

/// The damping ratio of each click; `None` without an adjuster.
fn clicks(offered: &OfferedDamper, damping: &Damping) -> Option<Block> {
    let all = offered.clicks.all();
    if all.len() < 2 {
        return None;
    }
    let rows = all.iter().zip(&offered.ratios).map(|(click, ratio)| {
        let number = click.number.map_or(tr("not named").into(), |n| n.to_string());
        let inside = (damping.ratio.low..=damping.ratio.high).contains(ratio);
        vec![number, two(*ratio), if inside { tr("inside") } else { tr("outside") }.into()]
    });
    let head = [tr("Click"), tr("damping ratio"), tr("wanted range")].map(str::to_owned).to_vec();
    Some(Block::Table { head, rows: rows.collect() })
}

/// Force against speed: the wanted range, the old damper, the one thought of. `None` until a damper is sized, and
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
            Curve::straight(targets.split.scaled(share))
        }),
    };
    let ends = [old, offered.map(OfferedDamper::curve)].into_iter().flatten().map(|c| c.last_speed().si());
    let most_m_per_s = ends.filter(|v| v.is_finite()).fold(0.52, f64::max).min(1.1);
    let speeds = speeds(most_m_per_s, [old, offered.map(OfferedDamper::curve), Some(&wanted[0])]);
    let through = |curve: &Curve| speeds.iter().map(|v| [*v, curve.force_n(*v)]).collect::<Vec<_>>();
    let mut lines = Vec::new();
    // The marks name the lines: they stand where nothing is drawn.
    let line = |state, curve: &Curve| Line {
        state: Some(state),
        label: String::new(),
        points: through(curve),
        broken: false,
        label_at: None,
    };
    lines.extend(old.map(|curve| line(State::OldSprings, curve)));
    lines.extend(offered.map(|o| line(State::NewSprings, o.curve())));
    let shade = Shade {
        points: speeds.iter().map(|v| [*v, wanted[0].force_n(*v), wanted[1].force_n(*v)]).collect(),
        label: say!("wanted, {low:.2} to {high:.2}", low = damping.ratio.low.si(), high = damping.ratio.high.si()),
    };
    Some(Picture {
        title: title(axle, damping, offered),
        x: Axis { name: tr("speed at the damper: rebound −, bump +"), dim: Dim::DamperSpeed },
        y: Axis { name: tr("force on the body, up is +"), dim: Dim::Force },
        lines,
        marks: marks(axle, damping, offered),
        dots: Vec::new(),
        wanted: None,
        shade: Some(shade),
        uprights: vec![(damping.peak_speed.si(), say!("peak {speed}", speed = speed(damping.peak_speed, units)))],
        ticks: Vec::new(),
        wanted_across: None,
        arrows: Vec::new(),
        below: None,
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
            words: Words::LeftAbove,
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
            marks.push(Mark { state: State::OldSprings, label, at, words: Words::RightBelow });
        }
    }
    if let Some(offered) = offered {
        let at = [peak, offered.curve().force_n(peak)];
        let ratio = offered.ratio().si();
        let label = match offered.click() {
            Some(click) => say!("damper thought of, click {click}: ζ {ratio:.2}", click, ratio),
            None => say!("damper thought of: ζ {ratio:.2}", ratio),
        };
        marks.push(Mark { state: State::NewSprings, label, at, words: Words::LeftAbove });
    }
    marks
}

fn title(axle: &AxleAnswer, damping: &Damping, offered: Option<&OfferedDamper>) -> String {
    let side = axle.side.word();
    let [low, high] = [damping.ratio.low, damping.ratio.high].map(Quantity::si);
    let wanted = say!("{low:.2} to {high:.2} is wanted", low, high);
    let springs = if axle.plan == Plan::Keep { tr("with the weight after") } else { tr("on the new springs") };
    let old = axle.standing.new.as_ref().and_then(|s| s.old_damper_ratio);
    let offered = offered.map(OfferedDamper::ratio);
    match (old, offered) {
        (Some(old), Some(new)) => {
            say!(
                "{side}: the old damper gives ζ {old:.2} {springs}, the one thought of {new:.2}; {wanted}",
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
            say!("{side}: the damper thought of gives ζ {new:.2}; {wanted}", side, wanted, new = new.si())
        }
        (None, None) => say!("{side}: forces for a damping ratio of {low:.2} to {high:.2}", side, low, high),
    }
}
