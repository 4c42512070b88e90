//! The cautions, the order of work by construction, and what is tightened where.

use crate::job::BagFitted;
use crate::report::Block;
use crate::report::sections::sentence;
use crate::report::sheets::page::Page;
use crate::report::sheets::procedure::{Construction, Procedure, Renew, Tightened, drawing};
use crate::solve::answer::AxleAnswer;

/// Axles that are worked on in the same way.
struct Job<'a> {
    construction: Construction,
    renew: Renew,
    axles: Vec<&'a AxleAnswer>,
}

/// Cautions, order of work and torques; one order for axles of one construction.
pub(super) fn blocks(page: &Page<'_>, worked_on: &[&AxleAnswer]) -> Vec<Block> {
    let mut jobs: Vec<Job<'_>> = Vec::new();
    for axle in worked_on {
        let (construction, renew) = (Construction::of(page.job.axle(axle.side)), renew(page, axle));
        match jobs.iter_mut().find(|j| (j.construction, j.renew) == (construction, renew)) {
            Some(job) => job.axles.push(axle),
            None => jobs.push(Job { construction, renew, axles: vec![axle] }),
        }
    }
    let mut cautions: Vec<&str> = Vec::new();
    for key in jobs.iter().flat_map(|job| job.construction.cautions(job.renew)) {
        if !cautions.contains(&key) {
            cautions.push(key);
        }
    }
    let mut blocks = Vec::new();
    if !cautions.is_empty() {
        blocks.push(page.heading("fit.cautions"));
        blocks.push(Block::List(cautions.into_iter().map(|key| page.plain(key)).collect()));
    }
    let last = jobs.len().saturating_sub(1);
    blocks.extend(jobs.iter().enumerate().flat_map(|(i, job)| of_one(page, job, i == 0, i == last)));
    blocks
}

/// What is renewed on an axle: its springs where they are sold, its dampers unless they surely stay.
fn renew(page: &Page<'_>, axle: &AxleAnswer) -> Renew {
    let springs = page.refitted().iter().any(|a| a.side == axle.side);
    let bags = match page.job.axle(axle.side).bag.fitted {
        BagFitted::WithNew if !springs => BagFitted::No,
        fitted => fitted,
    };
    Renew { springs, dampers: page.needs_dampers(axle), bags }
}

fn of_one(page: &Page<'_>, job: &Job<'_>, is_first: bool, is_last: bool) -> Vec<Block> {
    let procedure = job.construction.procedure(job.renew).among(is_first, is_last);
    let axles: Vec<String> = job.axles.iter().map(|a| page.axle_words(a.side)).collect();
    let axles = match axles.as_slice() {
        [front, rear] => page.say("fit.work.both", &[("front", front), ("rear", rear)]),
        [one] => one.clone(),
        _ => String::new(),
    };
    let suspension = job.construction.suspension.words();
    let mut blocks = vec![Block::Heading(page.say("fit.work", &[("axles", &axles)]))];
    let fill = [("suspension", suspension), ("spring", job.construction.kind.words())];
    blocks.push(page.text("fit.work.of", &fill));
    if job.axles.len() > 1 {
        blocks.push(page.text("fit.work.one_by_one", &[]));
    }
    blocks.push(Block::Drawing(drawing::of(page.words, job.construction)));
    blocks.push(Block::Steps(procedure.steps.iter().map(|step| page.plain(step.text)).collect()));
    blocks.push(Block::Heading(sentence::upper_first(&page.say("fit.torque", &[("axles", &axles)]))));
    blocks.extend(torques(page, &procedure));
    blocks
}

/// A line for every place that is tightened: those of a step of their own, then the rubber at ride height.
fn torques(page: &Page<'_>, procedure: &Procedure) -> Vec<Block> {
    let (at_ride_height, hanging): (Vec<Tightened>, Vec<Tightened>) =
        procedure.torques().into_iter().partition(|t| t.is_at_ride_height);
    let words = |t: &Tightened| page.plain(t.place.key());
    let in_step = |t: &Tightened| page.say("torque.in_step", &[("place", &words(t)), ("step", &t.step.to_string())]);
    let mut blocks = vec![page.text("fit.torque.note", &[])];
    blocks.push(Block::Blanks(hanging.iter().map(in_step).collect()));
    if let Some(first) = at_ride_height.first() {
        blocks.push(page.text("torque.at_ride_height", &[("step", &first.step.to_string())]));
        blocks.push(Block::Blanks(at_ride_height.iter().map(words).collect()));
    }
    blocks
}
