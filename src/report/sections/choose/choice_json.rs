//! What can be chosen from a parts list, as JSON.

use serde_json::{Value, json};

use super::{DampersOfAxle, ForAxle, choose_dampers};
use crate::base::language::tr;
use crate::choose::{Choice, Pair, Unable};
use crate::job::{Job, LeftRight, Side};
use crate::report::results::as_json::head;
use crate::report::results::{self, Figure};
use crate::shop::parts::{List, Spring};

/// The choice as JSON: its results, with what belongs to no axle as a number.
pub fn json(job: &Job, choices: &[ForAxle], ranked: &[DampersOfAxle<'_>; 2], list: &List) -> Value {
    let (springs, currency) = (&list.springs, job.prices.currency.as_str());
    let of_springs = Side::BOTH.into_iter().flat_map(|side| {
        let found = choices.iter().find(|(own, _)| *own == side);
        let stays = || Err(tr("the springs of this axle stay").to_owned());
        let choice = found.map_or_else(stays, |(_, choice)| choice.as_ref().map_err(Unable::to_string));
        results::choice(side, choice, springs, currency)
    });
    let of_dampers =
        ranked.iter().flat_map(|(axle, found)| results::dampers_of_list(axle, *found, &list.dampers, currency));
    let figures: Vec<Figure> = of_springs.chain(of_dampers).collect();
    let mut value = head(job, &figures);
    for (side, choice) in choices {
        value[side.key()] = match choice {
            Ok(choice) => one(choice, springs),
            Err(unable) => json!({ "unable": unable.to_string() }),
        };
    }
    let dampers = ranked.iter().map(|(axle, d)| (axle.side.key().to_owned(), choose_dampers::json(*d, &list.dampers)));
    value["dampers"] = Value::Object(dampers.collect());
    value
}

/// What a choice holds besides numbers, and what its lists are of: the keys of results name their places.
fn one(choice: &Choice, springs: &[Spring]) -> Value {
    let drafted = choice.drafted.iter().map(|d| json!({"number": springs[d.row].number, "line": springs[d.row].line}));
    let redo = choice.redo.iter().map(|r| json!({ "fields": r.paths }));
    json!({
        "springs": choice.ranking.ranked.len(), "fitting": choice.ranking.fitting,
        "pick": choice.picked().map(|p| springs[p.row].number.clone()),
        "pick_in_stock": choice.picked().and_then(|p| springs[p.row].stock),
        "sized_rate_n_per_m": choice.named.as_ref().filter(|n| n.selected.is_none()).map(|n| n.rate_n_per_m),
        "selected": choice.named.as_ref().and_then(|n| n.selected.clone()),
        "agrees_with_answer": choice.pick.as_ref().map(|_| choice.agrees(springs)),
        "tie": choice.pick.as_ref().map(|p| p.tie.iter().map(|i| &springs[choice.drafted[*i].row].number).collect::<Vec<_>>()),
        "measure_first": choice.measure_first(),
        "drafted": drafted.collect::<Vec<_>>(),
        "draws": choice.draws.0.count, "seed": choice.draws.0.seed, "draws_lost": choice.draws.1,
        "pair": choice.pair().map(|p| of_pair(p, springs)),
        "pairs": choice.pairs.as_ref().map(|pairs| json!({
            "named": pairs.named.iter().map(|p| of_pair(p, springs)).collect::<Vec<_>>(),
            "springs_tried": { "left": pairs.tried.left, "right": pairs.tried.right },
            "springs_left_out": pairs.left_out, "pairs_not_calculated": pairs.not_followed,
        })),
        "redo": redo.collect::<Vec<_>>(),
    })
}

/// Its numbers are the results `choose.pairs[…]`.
fn of_pair(pair: &Pair, springs: &[Spring]) -> Value {
    let LeftRight { left, right } = pair.rows.map(|row| &springs[row].number);
    json!({ "left": left, "right": right, "level": pair.level })
}
