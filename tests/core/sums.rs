//! Small sums, each held against one by hand: fits, likelihoods, printed formulas, places of labels, limits with a ±.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::cmp::Ordering;
use std::f64::consts::PI;

use springwright::base::math::fit::{polynomial, residuals, sensitivities};
use springwright::base::math::quintic::Quintic;
use springwright::base::math::spread::Measured;
use springwright::report::pictures::label_places::{Block, Corner, Places, Point, along, around};
use springwright::report::results::evaluate;
use springwright::solve::edge::{above, below, is_near, outside};
use springwright::solve::planned::u_of_difference;
use springwright::trade::weights::likely::{OnAxle, Spreads};

#[test]
fn a_cubic_is_found_again() {
    let points: Vec<(f64, f64)> =
        [-0.08, -0.04, 0.0, 0.03, 0.07].iter().map(|&z| (z, 0.28 - 0.6 * z - 0.4 * z * z + 1.5 * z * z * z)).collect();
    let fitted = polynomial(&points, 3).expect("five points");
    for (found, true_) in fitted.iter().zip([0.28, -0.6, -0.4, 1.5]) {
        assert!((found - true_).abs() < 1e-11, "{found} {true_}");
    }
    assert!(residuals(&points, fitted).iter().all(|r| r.abs() < 1e-14));
}

#[test]
fn sensitivities_rebuild_the_fit() {
    let points = [(-0.08, 0.33), (-0.04, 0.30), (0.0, 0.28), (0.03, 0.262), (0.07, 0.236)];
    let fitted = polynomial(&points, 2).expect("five points");
    let by_hand = sensitivities(&points, 2).expect("five points");
    for c in 0..3 {
        let sum: f64 = points.iter().zip(&by_hand).map(|(p, s)| p.1 * s[c]).sum();
        assert!((sum - fitted[c]).abs() < 1e-10, "{sum} {}", fitted[c]);
    }
}

#[test]
fn too_few_distinct_points_are_refused() {
    assert_eq!(polynomial(&[(0.1, 1.0), (0.1, 2.0)], 1), None);
    assert_eq!(polynomial(&[(0.0, 1.0), (0.1, 2.0)], 2), None);
}

#[test]
fn a_quintic_is_met_and_goes_on_straight() {
    let f = |x: f64| 1.0 + x * (2.0 - x * (3.0 + x * (1.0 - x * (0.5 + x * 0.25))));
    let d = |x: f64| 2.0 - 6.0 * x - 3.0 * x * x + 2.0 * x.powi(3) + 1.25 * x.powi(4);
    let dd = |x: f64| -6.0 - 6.0 * x + 6.0 * x * x + 5.0 * x.powi(3);
    let knots: Vec<[f64; 3]> = [-1.0, -0.5, 0.0, 0.5].map(|x| [f(x), d(x), dd(x)]).to_vec();
    let curve = Quintic::through(-1.0, 0.5, &knots).expect("four knots");
    for x in [-1.0, -0.77, -0.5, -0.1, 0.0, 0.3, 0.5] {
        assert!((curve.value(x) - f(x)).abs() < 1e-12, "{x}");
        assert!((curve.slope(x) - d(x)).abs() < 1e-12, "{x}");
        assert!((curve.curvature(x) - dd(x)).abs() < 1e-11, "{x}");
    }
    assert!((curve.value(2.5) - (f(0.5) + 2.0 * d(0.5))).abs() < 1e-12);
    assert!((curve.slope(-4.0) - d(-1.0)).abs() < 1e-12);
    assert_eq!(curve.curvature(-4.0), 0.0);
}

#[test]
fn what_is_not_finite_or_too_few_is_none() {
    assert!(Quintic::through(0.0, 1.0, &[[0.0; 3]]).is_none());
    assert!(Quintic::through(0.0, 1.0, &[[0.0; 3], [f64::NAN, 0.0, 0.0]]).is_none());
    assert!(Quintic::through(0.0, 0.0, &[[0.0; 3], [0.0; 3]]).is_none());
}

fn law(value: f64, u: f64) -> Measured {
    Measured { value, u }
}

/// By hand: sums 86 ± 100 and 4 ± 100 kg; right more −26 and +1 kg, so roll −25 of ± 20, twist −27 of ± 8:
/// −(0.86² + 0.04² + 1.25² + 3.375²)/2 = −6.8472.
#[test]
fn a_swapped_pair_twists_the_vehicle() {
    let spreads = Spreads { axles: Some([law(0.0, 100.0); 2]), roll: law(0.0, 20.0), twist: law(0.0, 8.0) };
    let read = |front: f64| {
        [
            Some(OnAxle { sum_kg: 86.0, right_more_kg: Some(front) }),
            Some(OnAxle { sum_kg: 4.0, right_more_kg: Some(1.0) }),
        ]
    };
    assert!((spreads.log_density(&read(-26.0)) + 6.8472).abs() < 1e-4, "{}", spreads.log_density(&read(-26.0)));
    // The other way round, −4: roll −3 and twist −5.
    let hand = -(0.86_f64.powi(2) + 0.04_f64.powi(2) + 0.15_f64.powi(2) + 0.625_f64.powi(2)) / 2.0;
    assert!((spreads.log_density(&read(-4.0)) - hand).abs() < 1e-12);
}

/// One axle's difference alone: mean and variance of (roll ± twist)/2.
#[test]
fn an_axle_weighed_whole_says_nothing_of_its_sides() {
    let spreads = Spreads { axles: None, roll: law(6.0, 6.0), twist: law(2.0, 8.0) };
    let whole = Some(OnAxle { sum_kg: 700.0, right_more_kg: None });
    let corners = |right_more_kg| Some(OnAxle { sum_kg: 700.0, right_more_kg: Some(right_more_kg) });
    assert_eq!(spreads.log_density(&[whole, whole]), 0.0);
    assert_eq!(spreads.log_density(&[corners(4.0), whole]), 0.0, "(6 + 2)/2");
    assert_eq!(spreads.log_density(&[None, corners(2.0)]), 0.0, "(6 − 2)/2");
    assert!((spreads.log_density(&[corners(9.0), None]) + 0.5).abs() < 1e-12, "one u: √(6² + 8²)/2 = 5");
}

#[test]
fn as_by_hand() {
    let with = [("C", 7.0), ("L0", 0.3), ("L", 0.2), ("k_s", 5.0), ("k", 2.0), ("F_w(z_c)", 9.0), ("W", 6.0)];
    let by = |formula| evaluate(formula, &with).unwrap_or(f64::NAN);
    // Each by hand with these numbers; no source.
    assert_eq!(by("K = (4C−1)/(4C−4) + 0.615/C"), 27.0 / 24.0 + 0.615 / 7.0);
    assert!((by("F = k_s (L0 − L)") - 0.5).abs() < 1e-15);
    assert!((by("area, and so on; a coil of one rate: k_s (L0 − L)² / 2") - 0.025).abs() < 1e-15);
    assert_eq!(by("F_w(z_c) / W − 1"), 0.5);
    assert_eq!(by("k_w = k_s k² + k (rubber, gas, bag)"), 22.0);
    assert_eq!(by("|k − k_s|"), 3.0);
    assert_eq!(by("τ = k / k_s k, F = k (L0 − L_solid)"), 0.2);
    assert_eq!(by("(32 k / (π k) + k_s⁴)^¼"), (32.0 / PI + 625.0).powf(0.25));
    assert_eq!(by("(3 k_s³ / (3 k))^⅓"), by("(k_s³ / k)^⅓"));
    // A third has no exact binary form.
    assert!((by("(k_s³)^⅓") - 5.0).abs() < 1e-14);
    assert!(by("k_t / k").is_nan() && by("as entered").is_nan() && by("k +").is_nan());
}

const PICTURE: Block = Block { min: [0.0, 0.0], max: [100.0, 60.0] };

fn overlap(a: &Block, b: &Block) -> bool {
    (0..2).all(|i| a.min[i] < b.max[i] && b.min[i] < a.max[i])
}

fn holds(a: &Block, b: &Block) -> bool {
    (0..2).all(|i| a.min[i] <= b.min[i] && b.max[i] <= a.max[i])
}

#[test]
fn a_line_through_a_block_crosses_it_and_one_beside_it_does_not() {
    let block = Block { min: [10.0, 10.0], max: [30.0, 20.0] };
    for line in [
        [[0.0, 15.0], [100.0, 15.0]],
        [[20.0, 0.0], [20.0, 60.0]],
        [[0.0, 0.0], [40.0, 30.0]],
        [[12.0, 12.0], [14.0, 13.0]],
    ] {
        assert!(block.is_crossed_by(line), "{line:?}");
    }
    for line in [
        [[0.0, 21.0], [100.0, 21.0]],
        [[31.0, 0.0], [31.0, 60.0]],
        [[0.0, 15.0], [9.0, 15.0]],
        [[0.0, 30.0], [9.0, 0.0]],
    ] {
        assert!(!block.is_crossed_by(line), "{line:?}");
    }
}

#[test]
fn a_line_from_a_label_to_its_mark_goes_through_no_other_words() {
    let (mark, size) = ([50.0, 10.0], [20.0, 5.0]);
    let lead = |at: &Block| at.lead(mark, 3.0, 6.0);
    // Below the mark words are in the way; behind them is the wanted place, and one aside is free.
    let corners = [[40.0, 40.0], [75.0, 40.0]];
    let mut places = Places::new(PICTURE, 1.0);
    places.block(Block::around(mark, 3.0));
    places.block(Block { min: [40.0, 22.0], max: [60.0, 28.0] });
    assert_eq!(places.clone().take(size, corners).min, corners[0]);
    assert_eq!(places.take_led(size, corners, lead).min, corners[1]);
}

#[test]
fn labels_keep_off_lines_marks_and_each_other() {
    let mut places = Places::new(PICTURE, 1.0);
    let line: Vec<Point> = (0..=20).map(|i| [5.0 * i as f32, 55.0 - 2.5 * i as f32]).collect();
    places.line(&line);
    let marks = [[20.0, 45.0], [50.0, 30.0], [80.0, 15.0]];
    marks.iter().for_each(|m| places.block(Block::around(*m, 3.0)));
    let first = Corner::RIGHT_ABOVE;
    let mut labels: Vec<Block> =
        marks.iter().map(|m| places.take([18.0, 5.0], around(*m, 4.0, [18.0, 5.0], first))).collect();
    labels.push(places.take([25.0, 5.0], along(&line, 0.8, 2.0, [25.0, 5.0], true)));
    for (i, label) in labels.iter().enumerate() {
        assert!(holds(&PICTURE, label), "{label:?}");
        assert!(line.windows(2).all(|l| !label.is_crossed_by([l[0], l[1]])), "{label:?}");
        assert!(marks.iter().all(|m| !overlap(label, &Block::around(*m, 3.0))), "{label:?}");
        assert!(labels[i + 1..].iter().all(|other| !overlap(label, other)), "{labels:?}");
    }
}

#[test]
fn without_a_free_place_the_one_that_touches_least_is_taken() {
    let mut places = Places::new(PICTURE, 0.0);
    places.line(&[[0.0, 10.0], [100.0, 10.0]]);
    places.line(&[[0.0, 12.0], [100.0, 12.0]]);
    places.block(Block { min: [0.0, 0.0], max: [100.0, 8.0] });
    places.block(Block { min: [0.0, 17.0], max: [100.0, 60.0] });
    let taken = places.take([10.0, 6.0], [[0.0, 5.0], [5.0, 9.0], [20.0, 11.0]]);
    assert_eq!(taken.min, [20.0, 11.0], "one line, rather than two or words");
    // Any free place of the picture is better than the wanted one that touches something.
    let mut places = Places::new(PICTURE, 0.0);
    places.line(&[[0.0, 10.0], [100.0, 10.0]]);
    let taken = places.take([10.0, 6.0], [[40.0, 7.0]]);
    assert!(!taken.is_crossed_by([[0.0, 10.0], [100.0, 10.0]]) && (taken.min[0] - 40.0).abs() < 5.0, "{taken:?}");
}

#[test]
fn what_moves_both_plans_alike_leaves_their_difference_alone() {
    let of = |steps: &[(&str, f64)]| steps.iter().map(|(p, s)| ((*p).to_owned(), *s)).collect::<Vec<_>>();
    let (a, b) = (of(&[("before.lf", 3.0), ("front.taken.rate", 1.0)]), of(&[("before.lf", 3.0)]));
    assert_eq!(u_of_difference(&a, &b), 1.0);
    assert_eq!(u_of_difference(&b, &b), 0.0);
    // Springs of two plans are two pairs of springs.
    assert_eq!(u_of_difference(&of(&[("front.taken.rate", 3.0)]), &of(&[("front.taken.rate", 4.0)])), 5.0);
    // A field may move a result by itself and by what the routes disagree.
    let twice = of(&[("front.spring.rate", 1.0), ("front.spring.rate", 2.0)]);
    assert_eq!(u_of_difference(&twice, &of(&[("front.spring.rate", 1.0)])), 2.0);
}

#[test]
fn outside_is_outside_by_more_than_the_uncertainty() {
    assert_eq!(outside(1.36, [1.0, 1.35], Some(0.02)), None);
    assert_eq!(outside(1.36, [1.0, 1.35], Some(0.005)), Some(Ordering::Greater));
    assert_eq!(outside(0.99, [1.0, 1.35], None), Some(Ordering::Less));
    assert_eq!(outside(1.0, [1.0, 1.35], Some(0.0)), None);
    assert!(above(2.0, 1.0, Some(0.9)) && !above(2.0, 1.0, Some(1.1)));
    assert!(below(1.0, 2.0, None) && !below(1.0, 2.0, Some(1.0)));
    assert!(is_near(1.0, 2.0, Some(1.1)) && is_near(3.0, 2.0, Some(1.1)));
    assert!(!is_near(1.0, 2.0, Some(0.9)) && !is_near(1.0, 1.0, None) && !is_near(1.0, 1.0, Some(0.0)));
}
