//! What is said of the old dampers, and damping that is wanted as before. Invented vehicle; expectations by hand.

use springwright::base::language::{Language, Voice, speak};
use springwright::base::units::entry::AnyEntry as _;
use springwright::base::units::{DecimalMark, Spread};
use springwright::job::{Goal, Job, Level, Side, file};
use springwright::report::sections::dampers_stay;
use springwright::report::sheets::{self, Kind};
use springwright::solve::answer::{DampersOpen, OldDampers};
use springwright::solve::solve;

/// 812 kg then 944 kg on the axle, 44 kg unsprung a corner, ratio 0.68: 362 kg then 428 kg sprung. 41 N/mm are 18.96
/// N/mm at the wheel, 48 N/mm are 22.20. The old damper's ratio goes with 1/√(k m): × √(18.96 · 362 / (22.20 · 428)) =
/// 0.850, so 0.27 becomes 0.229.
fn job() -> Job {
    let text = r#"(version: 1, job: (
        before: (front: "812 kg"), after: (front: "944 kg"),
        front: (
            unsprung: "44 kg",
            ratio: (by: Number, number: "0.68", confirm: "0.68"),
            damper_ratio: (by: Number, number: "0.74", confirm: "0.74"),
            spring: (rate: "41 N/mm"),
            travel: (stop_gap: "68 mm", metal: "68 mm"),
            damper: (ratio_before: (text: "0.27", pm: "4 %")),
            target: (goal: AsBefore),
            stock: (step: "1 N/mm"),
        ),
    ))"#;
    file::parse(text).expect("a job")
}

/// 0.27 with this ±, as limits: 4 % are 0.0108/√3 = 0.006.
fn ratio_before(job: &mut Job, pm: &str) {
    job.front.damper.ratio_before = "0.27".into();
    job.front.damper.ratio_before.set_pm(pm, Spread::Limits);
}

fn as_before(margin: &str) -> Job {
    let mut job = job();
    (job.front.target.damping_goal, job.front.target.damping_margin) = (Goal::AsBefore, margin.into());
    job
}

fn title(job: &Job) -> String {
    dampers_stay::title(&solve(job), Side::Front, &job.units)
}

#[test]
fn the_title_says_what_becomes_of_the_old_dampers() {
    let of = |before: &str, low: &str, high: &str| {
        let mut job = job();
        ratio_before(&mut job, before);
        (job.front.target.damping_low, job.front.target.damping_high) = (low.into(), high.into());
        let said = title(&job);
        // The ± is that of whatever was typed; its number is held by other tests.
        said.split_once(" ± ").map_or(said.clone(), |(head, tail)| format!("{head}{}", &tail[4..]))
    };
    let found = "damping ratio 0.23, was 0.27";
    let soft = of("4 %", "0.25", "0.35");
    assert_eq!(soft, format!("The old front dampers are too soft now: {found}; the target is 0.25 to 0.35."));
    assert_eq!(of("4 %", "0.20", "0.35"), format!("The old front dampers can stay: {found}."));
    // 0.2295 less 0.225 is within 0.85 · 0.0062 = 0.0053.
    let near = of("4 %", "0.225", "0.35");
    assert!(near.starts_with("The old front dampers can probably stay: ") && near.contains("within the ±"), "{near}");
    let may = of("20 %", "0.25", "0.35");
    assert!(may.starts_with("The old front dampers may be too soft: ") && may.ends_with("Test them."), "{may}");
    let was_so = of("4 %", "0.30", "0.35");
    assert!(was_so.starts_with("The old front dampers are too soft, as before the change: "), "{was_so}");
    // 0.229 is above 0.20, and so was 0.27.
    let stiff = of("4 %", "0.15", "0.20");
    assert!(stiff.starts_with("The old front dampers are too stiff, as before the change: "), "{stiff}");
}

/// 0.27 ± 20 % is 0.216 to 0.324, and 0.229 lies inside; ± 10 % is 0.243 to 0.297.
#[test]
fn as_before_is_the_ratio_before_and_its_margin() {
    let wanted = |job: &Job| {
        let damping = solve(job).axle(Side::Front).damping.clone().expect("known");
        [damping.ratio.low, damping.ratio.aim, damping.ratio.high].map(|r| r.value)
    };
    for (margin, want) in [("20 %", [0.216, 0.27, 0.324]), ("10 %", [0.243, 0.27, 0.297]), ("", [0.2295, 0.27, 0.3105])]
    {
        for (is, want) in wanted(&as_before(margin)).into_iter().zip(want) {
            assert!((is - want).abs() < 1e-9, "{margin}: {is} {want}");
        }
    }
    assert!(title(&as_before("20 %")).starts_with("The old front dampers can stay: damping ratio 0.23"));
    let soft = title(&as_before("10 %"));
    assert!(soft.starts_with("The old front dampers are too soft now: damping ratio 0.23"), "{soft}");
    assert!(soft.ends_with(", was 0.27; the target is 0.24 to 0.30."), "{soft}");
}

/// How well the ratio before is known moves both alike: 0.85 of it is 0.85 of it, whatever it is.
#[test]
fn as_before_does_not_hang_on_the_ratio_itself() {
    let mut job = as_before("10 %");
    ratio_before(&mut job, "30 %");
    assert_eq!(solve(&job).old_dampers(Side::Front), OldDampers::Soft { is_sure: true });
    // Held against a range it does.
    job.front.target.damping_goal = Goal::Range;
    assert_eq!(solve(&job).old_dampers(Side::Front), OldDampers::Soft { is_sure: false });
}

/// What was never stated is not taken for the state before: no target, no forces, and a finding names the fields.
#[test]
fn as_before_needs_a_damping_before() {
    let mut job = as_before("");
    job.front.damper.ratio_before = "".into();
    let answer = solve(&job);
    assert!(answer.axle(Side::Front).damping.is_none());
    let front = answer.released(Side::Front).expect("springs are not held up by dampers");
    assert!(front.damper.is_none() && front.spring.is_some());
    let finding = answer.findings.iter().find(|f| f.rule == "no-before-damping").expect("said");
    assert_eq!((finding.level, finding.field.as_str()), (Level::Doubt, "front.damper.ratio_before"));
    assert!(finding.text.to_string().contains("the damper rates or the damper curve"), "{}", finding.text);
    assert_eq!(answer.old_dampers(Side::Front), OldDampers::Open(DampersOpen::Damper));
    let said = title(&job);
    assert!(
        said.starts_with("It is not known whether the old front dampers can stay. Still needed: the damping"),
        "{said}"
    );
    // Rates are known, what the axle was is not.
    (job.front.damper.bump_rate, job.front.damper.rebound_rate) = ("1500 N·s/m".into(), "3000 N·s/m".into());
    (job.before.front, job.front.target.goal) = ("".into(), Goal::Range);
    let answer = solve(&job);
    assert_eq!(answer.old_dampers(Side::Front), OldDampers::Open(DampersOpen::Before));
    let finding = answer.findings.iter().find(|f| f.rule == "no-before-damping").expect("said");
    assert!(finding.text.to_string().contains("Enter the weights before and the old spring"), "{}", finding.text);
    let order = format!("{:?}", sheets::build(Kind::Order, &job, &answer, None));
    assert!(!order.contains("revalv"), "no forces without a target: {order}");
}

#[test]
fn the_sentence_is_in_the_full_report_in_both_languages() {
    let mut job = as_before("10 %");
    let answer = solve(&job);
    let of = |job: &Job| format!("{:?}", sheets::build(Kind::Full, job, &answer, None));
    assert!(of(&job).contains("The old front dampers are too soft now: damping ratio 0.23"));
    job.shop.language = "de".into();
    let german = of(&job);
    assert!(german.contains("Die alten Dämpfer vorn sind jetzt zu weich: Dämpfungsgrad 0,23"), "{german}");
    let _voice = speak(Voice { language: Language::German, mark: DecimalMark::Comma });
    let title = dampers_stay::title(&answer, Side::Front, &job.units);
    assert!(title.ends_with(", vorher 0,27; gewünscht sind 0,24 bis 0,30."), "{title}");
}
