//! The cautions, the order of work by construction, and what is tightened where.

use crate::job::{BagFitted, Side};
use crate::report::Block;
use crate::report::phrases;
use crate::report::sheets::open;
use crate::report::sheets::page::Page;
use crate::report::sheets::procedure::{Construction, Part, Procedure, Renew, Step, Tightened, drawing};
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
    let cautions = cautions.into_iter().map(|key| page.plain(key)).collect();
    let mut blocks = Block::under(page.heading("fit.cautions"), cautions);
    let last = jobs.len().saturating_sub(1);
    blocks.extend(jobs.iter().enumerate().flat_map(|(i, job)| of_one(page, job, i == 0, i == last)));
    blocks
}

/// What is renewed on an axle: its springs where they are sold, its dampers unless they stay; what is open is tested.
fn renew(page: &Page<'_>, axle: &AxleAnswer) -> Renew {
    let springs = match page.refitted().iter().any(|a| a.side == axle.side) {
        false => Part::Stays,
        true if axle.is_set_again() => Part::Again,
        true => Part::New,
    };
    let bags = match page.job.axle(axle.side).bag.fitted {
        BagFitted::WithNew if springs == Part::Stays => BagFitted::No,
        fitted => fitted,
    };
    let dampers = match page.needs_dampers(axle) {
        true => Part::New,
        false if open::is_open(page, axle) => Part::Again,
        false => Part::Stays,
    };
    Renew { springs, dampers, bags, roll_bar: page.roll_bar(axle).is_some() }
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
    let fill = [("suspension", suspension.said()), ("spring", job.construction.kind.words().said())];
    blocks.push(page.text("fit.work.of", &fill));
    if job.axles.len() > 1 {
        let [last, next] = [0, 1].map(|i| (procedure.on_its_wheels() + i).to_string());
        blocks.push(page.text("fit.work.one_by_one", &[("last", &last), ("next", &next)]));
    }
    blocks.push(Block::Drawing(drawing::of(page.words, job.construction)));
    blocks.push(Block::Steps(procedure.steps.iter().map(|step| step_words(page, job, step)).collect()));
    blocks.push(Block::Heading(phrases::upper_first(&page.say("fit.torque", &[("axles", &axles)]))));
    blocks.extend(torques(page, job, &procedure));
    blocks
}

/// A step in words; where something is lowered, what must not go tight at that end of the vehicle; no spacers where none
/// are listed.
fn step_words(page: &Page<'_>, job: &Job<'_>, step: &Step) -> String {
    let has_spacers = || job.axles.iter().any(|axle| super::parts::has_spacers(page, axle));
    match step.text {
        "proc.coil_in" if !has_spacers() => return page.plain("proc.coil_in_alone"),
        "proc.coil_in_both" if !has_spacers() => return page.plain("proc.coil_in_both_alone"),
        _ => {}
    }
    let taut = match job.axles.as_slice() {
        [one] if one.side == Side::Front => "fit.taut.front",
        [_] => "fit.taut.rear",
        _ => "fit.taut.both",
    };
    page.say(step.text, &[("taut", &page.plain(taut))])
}

/// A line for every place that is tightened, of each axle: those of a step of their own, then the rubber at ride height.
fn torques(page: &Page<'_>, job: &Job<'_>, procedure: &Procedure) -> Vec<Block> {
    let (at_ride_height, hanging): (Vec<Tightened>, Vec<Tightened>) =
        procedure.torques().into_iter().partition(|t| t.is_at_ride_height);
    let in_step = |t: &Tightened| {
        page.say("torque.in_step", &[("place", &page.plain(t.place.key())), ("step", &t.step.to_string())])
    };
    let of_each = |place: String| -> Vec<String> {
        let end = |axle: &&AxleAnswer| page.on(axle.side).say("torque.of_end", &[("place", &place)]);
        if job.axles.len() > 1 { job.axles.iter().map(end).collect() } else { vec![place] }
    };
    let mut blocks = vec![page.text("fit.torque.note", &[])];
    blocks.push(Block::Blanks(hanging.iter().flat_map(|t| of_each(in_step(t))).collect()));
    if let Some(first) = at_ride_height.first() {
        blocks.push(page.text("torque.at_ride_height", &[("step", &first.step.to_string())]));
        let words = at_ride_height.iter().flat_map(|t| of_each(page.plain(t.place.key())));
        blocks.push(Block::Blanks(words.collect()));
    }
    blocks
}
