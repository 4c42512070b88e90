//! A linkage to scale at droop, ride height and bump, and what it does over its travel: motion ratio, camber, roll centre.

use crate::base::language::tr;
use crate::base::units::{Angle, Dim, Length, Quantity, RatioSlope, UnitChoice, display};
use crate::report::pictures::picture::{Dot, Line, Picture};
use crate::say;
use crate::solve::answer::{Alignment, AxleAnswer, Checked};
use crate::trade::linkage::{Carrier, Construction, Mounts, Point, PointName, Sweep};

const POINTS: usize = 41;
/// Drawn where neither metal nor droop is known, m.
const USUAL_TRAVEL_M: f64 = 0.06;

/// A linkage at one wheel travel, m outward and up.
#[derive(Debug, Clone, PartialEq)]
pub struct Pose {
    /// Wheel travel, + in bump.
    pub travel_m: f64,
    /// Arms, upright, strut: lines through joints.
    pub parts: Vec<Vec<[f64; 2]>>,
    /// The spring between its seats.
    pub spring: Option<[[f64; 2]; 2]>,
    /// The damper between its mounts.
    pub damper: Option<[[f64; 2]; 2]>,
    /// The wheel: its centre and contact.
    pub wheel: [[f64; 2]; 2],
    /// Every joint with its letter.
    pub joints: Vec<(PointName, [f64; 2])>,
    /// The wheel is seen from the side: a trailing arm.
    pub from_the_side: bool,
}

/// The linkage of an axle at full droop, at the reference height and at metal; none without its points.
pub fn poses(axle: &AxleAnswer) -> Vec<Pose> {
    let Some(sweep) = axle.linkage.sweep.as_deref() else { return Vec::new() };
    travels(axle, sweep).into_iter().filter_map(|z| pose(axle, sweep, z)).collect()
}

/// Droop, reference, bump, m, as far as the linkage goes.
fn travels(axle: &AxleAnswer, sweep: &Sweep) -> [f64; 3] {
    let [low, high] = sweep.range_m();
    let droop = axle.travel.droop.map_or(USUAL_TRAVEL_M, Quantity::si);
    let bump = axle.travel.metal.or(axle.travel.stop).map_or(USUAL_TRAVEL_M, Quantity::si);
    [(-droop).max(low), 0.0, bump.min(high)]
}

fn pose(axle: &AxleAnswer, sweep: &Sweep, travel_m: f64) -> Option<Pose> {
    let facts = &axle.linkage;
    let mounts = [facts.spring_mounts, facts.damper_mounts];
    let mut others: Vec<(Point, Option<Carrier>)> = Vec::new();
    for of in mounts.iter().flatten() {
        if let Mounts::Apart(foot, _) = of {
            others.extend(foot.drawn());
        }
    }
    let rod = facts.tie_rod.map(|rod| [(rod.inner, None), (rod.outer, Some(Carrier::Upright))]);
    others.extend(rod.into_iter().flatten());
    let drawn = sweep.drawn(Length::from_si(travel_m), &others)?;
    let place = |p: Point| [p.out_m, p.up_m];
    let mut joints: Vec<(PointName, [f64; 2])> = drawn.points.iter().map(|(name, at)| (*name, place(*at))).collect();
    let at = |name: PointName| drawn.points.iter().find(|p| p.0 == name).map(|p| place(p.1));
    let line = |names: &[PointName]| names.iter().filter_map(|name| at(*name)).collect::<Vec<_>>();
    use PointName as N;
    let (mut parts, from_the_side) = match sweep.construction() {
        Construction::TwoArms(_) => (
            vec![
                line(&[N::UpperInner, N::UpperOuter]),
                line(&[N::LowerInner, N::LowerOuter]),
                line(&[N::UpperOuter, N::Wheel, N::LowerOuter]),
            ],
            false,
        ),
        Construction::Strut(_) => (
            vec![
                line(&[N::StrutTop, N::StrutAxis]),
                line(&[N::LowerInner, N::LowerOuter]),
                line(&[N::StrutAxis, N::Wheel, N::LowerOuter]),
            ],
            false,
        ),
        Construction::TrailingArm(_) => (vec![line(&[N::ArmPivot, N::Wheel])], true),
    };
    let mut ends = drawn.others.iter().map(|p| p.map(place));
    let strut = at(N::StrutTop).zip(at(N::StrutAxis)).map(|(a, b)| [a, b]);
    let mut between = |of: &Option<Mounts>, names: [PointName; 2]| match of {
        Some(Mounts::Apart(..)) => {
            let both = ends.next().flatten().zip(ends.next().flatten()).map(|(a, b)| [a, b])?;
            joints.extend(names.into_iter().zip(both));
            Some(both)
        }
        Some(Mounts::Coaxial) => strut,
        None => None,
    };
    let spring = between(&mounts[0], [N::SpringTop, N::SpringFoot]);
    let damper = between(&mounts[1], [N::DamperTop, N::DamperFoot]);
    if let Some((inner, outer)) = ends.next().flatten().zip(ends.next().flatten()) {
        joints.extend([(N::RodInner, inner), (N::RodOuter, outer)]);
        parts.push(vec![inner, outer]);
    }
    Some(Pose { travel_m, parts, spring, damper, wheel: [at(N::Wheel)?, at(N::Ground)?], joints, from_the_side })
}

/// Motion ratio with the rows, camber and roll centre over the travel; none without points.
pub fn pictures(axle: &AxleAnswer, checked: &Checked, units: &UnitChoice) -> Vec<Picture> {
    let Some(sweep) = axle.linkage.sweep.as_deref() else { return Vec::new() };
    let [low_m, _, high_m] = travels(axle, sweep);
    let along = |f: &dyn Fn(Length) -> Option<f64>| -> Vec<[f64; 2]> {
        let step_m = (high_m - low_m) / (POINTS - 1) as f64;
        let travels = (0..POINTS).map(|i| low_m + step_m * i as f64);
        travels.filter_map(|z| Some([z, f(Length::from_si(z))?])).collect()
    };
    let line = |label: &str, points| Line::new(None, label, points);
    let wheel = |f: &dyn Fn(&Alignment) -> f64| along(&|z| sweep.alignment(z, None).map(|a| f(&a)));
    let side = axle.side.word();
    let mut found = Vec::new();
    let facts = &axle.linkage;
    let ratio = |of: Mounts| along(&|z| sweep.exact_ratio(of, z).map(|r| r.0.si()).filter(|r| *r > 0.0));
    let mut lines: Vec<Line> = facts.spring_mounts.map(|of| line(tr("spring"), ratio(of))).into_iter().collect();
    lines.extend(
        facts.damper_mounts.filter(|m| Some(*m) != facts.spring_mounts).map(|of| line(tr("damper"), ratio(of))),
    );
    if !lines.is_empty() {
        let dots = checked.ratio_rows.as_ref().map(row_ratios).unwrap_or_default();
        found.push(Picture { lines, dots, ..Picture::over_travel(ratio_title(axle), tr("motion ratio"), Dim::Ratio) });
    }
    let at = |z: f64| sweep.alignment(Length::from_si(z), None);
    let camber = |z: f64| at(z).map_or(0.0, |a| a.camber.si());
    let said = |si: f64| display::rounded(Angle::from_si(si), units);
    let title = say!(
        "{side}: camber changes by {droop} in droop and {bump} in bump",
        side,
        droop = said(camber(low_m)),
        bump = said(camber(high_m))
    );
    let lines = vec![line("", wheel(&|a| a.camber.si()))];
    found.push(Picture { lines, ..Picture::over_travel(title, tr("camber change"), Dim::Angle) });
    if let Some(reference) = facts.reference {
        let height = display::rounded(reference.roll_centre, units);
        let title = say!("{side}: the roll centre is {height} above the ground at ride height", side, height);
        let lines = vec![line("", wheel(&|a| a.roll_centre.si()))];
        let name = tr("roll centre height above the ground");
        found.push(Picture { lines, ..Picture::over_travel(title, name, Dim::Length) });
    }
    found
}

/// The ratio between neighbouring rows, at the middle of their travels.
fn row_ratios(rows: &crate::trade::wheel::Rows) -> Vec<Dot> {
    let mut points = rows.points_m.clone();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let between = points.windows(2).filter(|w| w[1].0 - w[0].0 > 1e-3);
    let ratio = |w: &[(f64, f64)]| [0.5 * (w[0].0 + w[1].0), -(w[1].1 - w[0].1) / (w[1].0 - w[0].0)];
    between.map(|w| Dot { at: ratio(w), label: String::new() }).collect()
}

fn ratio_title(axle: &AxleAnswer) -> String {
    let (side, ways) = (axle.side.word(), &axle.linkage.spring);
    match ways.points.zip(ways.points_slope) {
        Some((ratio, slope)) if changes(slope) => {
            say!("{side}: the motion ratio is {ratio:.3} and changes with wheel travel", side, ratio = ratio.si())
        }
        Some((ratio, _)) => {
            say!("{side}: the motion ratio is {ratio:.3} over the whole travel", side, ratio = ratio.si())
        }
        None => say!("{side}: motion ratio over wheel travel", side),
    }
}

/// More than rows could tell.
fn changes(slope: RatioSlope) -> bool {
    slope.si().abs() > 0.1
}
