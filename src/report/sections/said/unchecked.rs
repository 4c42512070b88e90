//! What was not checked for lack of data, by name: it is on every sheet.

use crate::base::language::tr;
use crate::job::{Job, Plan, Side};
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, RatedPart};

/// One sentence for the vehicle and each axle; nothing where all was checked.
pub fn lines(job: &Job, answer: &Answer) -> Vec<String> {
    let mut lines = Vec::new();
    if !is_rated(answer, RatedPart::Vehicle) {
        lines.push(tr("Not checked, data missing: the total weight compared with the vehicle rating.").to_owned());
    }
    for side in Side::BOTH {
        let open = open(job, answer, side);
        if !open.is_empty() {
            lines.push(say!("{axle}, not checked, data missing: {what}.", axle = side.axle(), what = open.join(", ")));
        }
    }
    lines
}

/// All of it in one sentence for the customer's page, an axle named only where the other was checked; `None` where all
/// was checked.
pub fn in_one(job: &Job, answer: &Answer) -> Option<String> {
    let [front, rear] = Side::BOTH.map(|side| open(job, answer, side));
    let of = |what: &str, side: Side| format!("{what} ({})", side.word_inside());
    let mut said = Vec::new();
    if !is_rated(answer, RatedPart::Vehicle) {
        said.push(tr("vehicle rating").to_owned());
    }
    said.extend(front.iter().map(|w| if rear.contains(w) { (*w).to_owned() } else { of(w, Side::Front) }));
    said.extend(rear.iter().filter(|w| !front.contains(w)).map(|w| of(w, Side::Rear)));
    (!said.is_empty()).then(|| say!("Not checked, data missing: {what}.", what = said.join(", ")))
}

fn is_rated(answer: &Answer, part: RatedPart) -> bool {
    answer.cases.iter().flat_map(|c| &c.rated).any(|r| r.part == part)
}

/// What was not checked of an axle.
fn open(job: &Job, answer: &Answer, side: Side) -> Vec<&'static str> {
    let axle = answer.axle(side);
    let mut open = vec![
        (!is_rated(answer, RatedPart::Axle(side)), tr("axle rating")),
        (!is_rated(answer, RatedPart::Tyre(side)), tr("tyre load rating")),
        (!is_rated(answer, RatedPart::Wheel(side)), tr("wheel rating")),
    ];
    if axle.standing.new.is_some() {
        open.extend(of_springs(job, answer, axle));
        open.extend(of_dampers(axle));
    }
    open.into_iter().filter(|o| o.0).map(|o| o.1).collect()
}

/// What was not checked of the springs that will be fitted.
fn of_springs(job: &Job, answer: &Answer, axle: &AxleAnswer) -> Vec<(bool, &'static str)> {
    let is_new = axle.plan == Plan::NewSprings;
    let data = job.axle(axle.side);
    let bar = axle.old_spring.bar.as_ref().and_then(|bar| bar.stress_bump.zip(bar.allowed));
    let coil = axle.offered.as_ref().or(axle.old_spring.coil.as_ref().filter(|_| !is_new));
    let coil = coil.and_then(|coil| coil.stress_bump.zip(coil.allowed));
    // One to be wound is designed within its stress, to the diameter of the seats.
    let wound = answer.released(axle.side).ok().and_then(|part| part.wound.as_ref().map(|w| w.holds()));
    let seats = axle.kind.is_coil();
    vec![
        (axle.travel.stop.is_none(), tr("room to the bump stop")),
        // Of a new spring the order limits the solid length.
        (
            seats && axle.room.to_bind.is_none() && !(is_new && axle.room.longest_solid.is_some()),
            tr("room to coil bind"),
        ),
        (seats && axle.room.seat.is_none(), tr("seat preload at full droop")),
        (bar.is_none() && coil.is_none() && wound != Some(true), tr("spring stress")),
        (
            seats
                && is_new
                && wound.is_none()
                && data.choice.inside_least.is_blank()
                && data.choice.outside_most.is_blank(),
            tr("spring diameters"),
        ),
        (axle.route_count() < 2, tr("a second check of the old spring rate")),
    ]
}

fn of_dampers(axle: &AxleAnswer) -> Vec<(bool, &'static str)> {
    vec![
        (axle.old_damper.as_ref().is_none_or(|old| old.is_assumed), tr("the old damper")),
        (axle.room.damper_bump.is_none(), tr("damper length at full bump")),
        (axle.room.damper_droop.is_none(), tr("damper length at full droop")),
    ]
}
