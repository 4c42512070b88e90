//! What the property tests share.

use proptest::prelude::ProptestConfig;
use proptest::test_runner::RngSeed;
use springwright::base::message::Message;
use springwright::solve::answer::Answer;

use super::effort::tries;

/// The numbers come from one fixed seed, so that a run that passes passes everywhere. To look further, set
/// `PROPTEST_RNG_SEED` to another number and `PROPTEST_CASES` to more cases.
pub fn config(cases: u32) -> ProptestConfig {
    let set = |name| std::env::var_os(name).is_some();
    let default = ProptestConfig::default();
    let cases = if set("PROPTEST_CASES") { default.cases } else { tries(cases) };
    ProptestConfig {
        cases,
        max_global_rejects: 4 * cases,
        rng_seed: if set("PROPTEST_RNG_SEED") { default.rng_seed } else { RngSeed::Fixed(1) },
        failure_persistence: None,
        ..default
    }
}

/// Apart by no more than a share of the larger one.
pub fn near(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs())
}

/// `near`, said in words when it is not so.
macro_rules! same {
    ($what:expr, $a:expr, $b:expr, $tolerance:expr) => {
        let (a, b): (f64, f64) = ($a, $b);
        prop_assert!($crate::common::properties::near(a, b, $tolerance), "{}: {a} and {b}", $what);
    };
}
pub(crate) use same;

/// All numbers of an answer, without the words that name units. A default keeps its number in SI beside its words; one
/// that is told in words alone keeps them.
pub fn without_words(mut answer: Answer) -> Answer {
    for finding in &mut answer.findings {
        finding.text = Message::NOTHING;
    }
    for default in answer.defaults.iter_mut().filter(|d| d.si.is_some()) {
        default.text = Message::NOTHING;
    }
    answer
}
