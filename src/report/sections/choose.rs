//! What can be chosen from the parts list, in words and tables: the pick, its rivals, why the others are out, left and
//! right, and what to measure again first.

mod limits;
mod redo;
mod sized;

use serde_json::{Value, json};

use crate::base::language::{inside, tr};
use crate::base::units::{Dim, UnitChoice, display};
use crate::choose::{Choice, Decided, Drafted, Judged, Limit, Pair, Pick, Unable};
use crate::job::{Job, Side};
use crate::report::Block;
use crate::report::Report;
use crate::report::sections::sentence;
use crate::say;
use crate::shop::parts::{List, Spring};
pub use limits::{why, would_give};
pub use redo::{bought, how, moves, of_hundred, redo, redo_title, what, worth_telling};

/// A spring by its number, or by what it is.
pub fn name(spring: &Spring) -> &str {
    match (spring.number.as_str(), spring.what.as_str()) {
        ("", "") => tr("a spring without number"),
        ("", what) => what,
        (number, _) => number,
    }
}

fn length(si: f64, units: &UnitChoice) -> String {
    display::rounded_si(si, Dim::Length, units)
}

fn rate(si: f64, units: &UnitChoice) -> String {
    display::rounded_si(si, Dim::SpringRate, units)
}

/// A ± to two figures.
fn plus_minus(si: f64, dim: Dim, units: &UnitChoice) -> String {
    let unit = units.unit(dim);
    format!("{} {}", display::significant(si / unit.si, 2), unit.symbol).trim_end().to_owned()
}

/// A price with its currency.
pub fn price(price: Option<f64>, currency: &str) -> String {
    price.map_or(tr("not known").into(), |p| format!("{} {currency}", display::fixed(p, 2)).trim_end().to_owned())
}

/// "97 of 100".
pub fn chance(share: f64) -> String {
    let of_hundred = (share * 100.0).round();
    match of_hundred {
        100.0 if share < 1.0 => tr("over 99 of 100").into(),
        0.0 if share > 0.0 => tr("under 1 of 100").into(),
        share => say!("{share:.0} of 100", share),
    }
}

/// The spring's seat: "on a 4 mm spacer", "seat 3 mm down", or nothing.
fn seat(spacer_m: f64, units: &UnitChoice) -> Option<String> {
    const NONE_M: f64 = 0.0005;
    match spacer_m {
        s if s >= NONE_M => Some(say!("on a spacer of {thickness}", thickness = length(s, units))),
        s if s <= -NONE_M => Some(say!("its seat {by} down", by = length(-s, units))),
        _ => None,
    }
}

/// The spacer of a spring; not known where it carries the vehicle at no height.
pub fn spacer(judged: &Judged, units: &UnitChoice) -> String {
    if judged.spacer_m.is_finite() { length(judged.spacer_m, units) } else { tr("not known").into() }
}

/// The ride frequency of a spring with its ±; not known where it carries the vehicle at no height.
pub fn bounces(drafted: &Drafted, units: &UnitChoice) -> String {
    let (hz, sd_hz) = (drafted.judged.frequency_hz, drafted.as_fitted.frequency.sd());
    if hz.is_finite() { display::measured_si(hz, sd_hz, Dim::Frequency, units) } else { tr("not known").into() }
}

/// The pick in a sentence or two, or why there is none.
pub fn answer(choice: &Choice, springs: &[Spring], units: &UnitChoice) -> String {
    let side = choice.side.word();
    let Some((pick, picked)) = choice.pick.as_ref().zip(choice.picked()) else {
        return say!(
            "{side}: none of the {count} springs fits. {nearest}",
            side,
            count = choice.ranking.ranked.len(),
            nearest = nearest(choice, springs, units)
        );
    };
    let spring = &springs[picked.row];
    let mut facts = vec![rate(spring.rate.value, units)];
    facts.extend(spring.free_length.map(|l| say!("{length} long", length = length(l.value, units))));
    let on = seat(picked.judged.spacer_m, units).map_or(String::new(), |s| format!(", {s}"));
    let open: Vec<&str> = picked.judged.not_known().map(Limit::words).collect();
    let unknown = if open.is_empty() {
        String::new()
    } else {
        say!(" NOT looked at, since not known: {open}.", open = open.join(", "))
    };
    let held = held(picked, open.is_empty());
    let first = if choice.measure_first() {
        tr(" That is too little to order it: measure first what stands at the top of the list below.")
    } else {
        ""
    };
    let leads = format!("{} ({}){on}", name(spring), facts.join(", "));
    let take = sized::first_line(choice, picked, &leads, springs, units);
    let fit = say!(
        "{fitting} of {count} springs fit as the job stands.",
        fitting = choice.ranking.fitting,
        count = choice.ranking.ranked.len()
    );
    let shelf = sized::shelf(choice, picked, springs);
    format!("{take}{shelf} {held}{unknown}{first} {}. {fit}", decided(choice, pick))
}

/// In how many of 100 its limits hold: once, or as fitted and with the spacer cut again.
fn held(picked: &Drafted, all_known: bool) -> String {
    let again = chance(picked.chance);
    match (picked.chance_as_fitted.map(chance), all_known) {
        (None, true) => say!("Every limit holds in {chance}.", chance = again),
        (None, false) => say!("Every limit that is known holds in {chance}.", chance = again),
        (Some(fitted), true) => {
            say!(
                "Every limit holds in {fitted} as fitted, in {again} with the spacer cut again after the re-weigh.",
                fitted,
                again
            )
        }
        (Some(fitted), false) => say!(
            "Every limit that is known holds in {fitted} as fitted, in {again} with the spacer cut again after the re-weigh.",
            fitted,
            again
        ),
    }
}

/// Why it and no other.
fn decided(choice: &Choice, pick: &Pick) -> String {
    let is_selected = choice.named.as_ref().is_some_and(|n| n.selected.is_some());
    let reason = match pick.by {
        Decided::Chance => return tr("No other comes within 5 of 100").to_owned(),
        Decided::Known => tr("more of its limits could be looked at"),
        Decided::Named if is_selected => tr("it is selected already"),
        Decided::Named => tr("it has the rate that was sized"),
        Decided::Seat => tr("it keeps the most grip on its seats at full droop"),
        Decided::Reserve => tr("of those with as much grip at droop it keeps the most reserve before the bump stop"),
        Decided::Price => tr("of those with as much grip and reserve it costs least"),
        Decided::Nothing => tr("they are alike in grip, reserve and price"),
    };
    let tie = match pick.tie.len() - 1 {
        1 => tr("1 other is about as likely").to_owned(),
        count => say!("{count} others are about as likely", count),
    };
    format!("{tie}; {reason}")
}

/// The spring that comes nearest, and what would have to give.
fn nearest(choice: &Choice, springs: &[Spring], units: &UnitChoice) -> String {
    let Some(first) = choice.ranking.ranked.first() else { return tr("None has two on the shelf.").into() };
    let judged = choice.ranking.judge(&springs[first.row]);
    say!(
        "Nearest is {spring}: {why}. For it to fit: {remedy}.",
        spring = name(&springs[first.row]),
        why = why(&judged, &choice.ranking, units),
        remedy = would_give(&judged, &choice.ranking, units)
    )
}

/// The draws and what they say of the needed rate.
pub fn certainty(choice: &Choice, units: &UnitChoice) -> String {
    let (draws, lost) = choice.draws;
    let mut text = say!(
        "{count} draws of everything that has a ±, seed {seed}: the rate needed is {rate}",
        count = display::significant(draws.count as f64, 6),
        seed = draws.seed,
        rate = display::measured_si(choice.needed.mean, choice.needed.sd(), Dim::SpringRate, units)
    );
    if let Some([low, high]) = choice.needed_95 {
        text += &say!(", 19 times in 20 between {low} and {high}", low = rate(low, units), high = rate(high, units));
    }
    text.push('.');
    if lost > 0 {
        text += &say!(" In {lost} of them the axle could not be worked out: a ± there is as large as its size.", lost);
    }
    text
}

/// The springs that were drawn, side by side.
pub fn drafted(choice: &Choice, springs: &[Spring], units: &UnitChoice, currency: &str) -> Block {
    let head = [
        tr("Spring"),
        tr("rate"),
        tr("free length"),
        tr("spacer"),
        tr("bounces"),
        tr("as fitted"),
        tr("spacer cut again"),
        tr("breaks most often"),
        tr("price"),
        tr("on the shelf"),
    ];
    let row = |drafted: &Drafted| {
        let spring = &springs[drafted.row];
        let picked = choice.picked().is_some_and(|p| p.row == drafted.row);
        vec![
            format!("{}{}", if picked { "→ " } else { "" }, name(spring)),
            rate(spring.rate.value, units),
            spring.free_length.map_or(tr("not known").into(), |l| length(l.value, units)),
            spacer(&drafted.judged, units),
            bounces(drafted, units),
            chance(drafted.chance_as_fitted.unwrap_or(drafted.chance)),
            chance(drafted.chance),
            breaks_most(drafted).map_or(tr("nothing"), Limit::words).to_owned(),
            price(spring.price, currency),
            spring.stock.map_or(tr("not known").into(), |n| n.to_string()),
        ]
    };
    Block::Table { head: head.map(str::to_owned).to_vec(), rows: choice.drafted.iter().map(row).collect() }
}

/// The limit that most of the draws break, if any does.
pub fn breaks_most(drafted: &Drafted) -> Option<Limit> {
    let most = drafted.tally.broken.iter().zip(Limit::ALL).max_by_key(|(count, _)| **count).filter(|(n, _)| **n > 0);
    most.map(|(_, limit)| limit)
}

/// How many springs of the list break each limit, and the nearest of them.
pub fn rejected(choice: &Choice, springs: &[Spring], units: &UnitChoice) -> Vec<Block> {
    let ranking = &choice.ranking;
    let head = [tr("Why springs are out"), tr("springs")].map(str::to_owned).to_vec();
    let mut rows: Vec<Vec<String>> = Limit::ALL
        .iter()
        .zip(ranking.broken)
        .filter(|(_, n)| *n > 0)
        .map(|(limit, n)| vec![limit.words().to_owned(), n.to_string()])
        .collect();
    if ranking.not_on_shelf > 0 {
        rows.push(vec![tr("fewer than two on the shelf").into(), ranking.not_on_shelf.to_string()]);
    }
    let mut blocks = if rows.is_empty() { Vec::new() } else { vec![Block::Table { head, rows }] };
    let out = ranking.ranked.iter().skip(ranking.fitting).take(NEAREST_OUT);
    let rows: Vec<Vec<String>> = out
        .map(|r| vec![name(&springs[r.row]).to_owned(), why(&ranking.judge(&springs[r.row]), ranking, units)])
        .collect();
    if !rows.is_empty() {
        blocks.push(Block::Table {
            head: [tr("Nearest of those that are out"), tr("why")].map(str::to_owned).to_vec(),
            rows,
        });
    }
    if ranking.cases_left_out > 0 {
        blocks.push(Block::Text(say!(
            "Load cases not looked at: {count}. Their weights, the wheelbase or the hitch are missing.",
            count = ranking.cases_left_out
        )));
    }
    blocks
}

/// So many of the rejected springs are told one by one.
const NEAREST_OUT: usize = 5;

/// Left and right: which spring, on which spacer, and how each side then sits.
pub fn pair(pair: &Pair, choice: &Choice, springs: &[Spring], units: &UnitChoice) -> Vec<Block> {
    let head =
        [tr("Left and right"), tr("sprung mass"), tr("spring"), tr("spacer"), tr("sits")].map(str::to_owned).to_vec();
    let rows = [tr("left"), tr("right")].into_iter().enumerate().map(|(i, side)| {
        let judged = &pair.judged[i];
        let off_m = choice.ranking.ground.wanted_m - judged.travel_m;
        vec![
            side.to_owned(),
            display::rounded_si(pair.sprung_kg[i], Dim::Mass, units),
            name(&springs[pair.rows[i]]).to_owned(),
            spacer(judged, units),
            sits(judged, off_m, choice, units),
        ]
    });
    let mut blocks = vec![Block::Table { head, rows: rows.collect() }];
    if !pair.level {
        blocks.push(Block::Text(
            tr("No pair of this list holds on both sides within what the seats allow: a thicker spacer on the low side, or a spring made for it, may.").into(),
        ));
    }
    let short = |row: usize, wanted: u32| springs[row].stock.is_some_and(|n| n < wanted);
    let wanted = if pair.rows[0] == pair.rows[1] { 2 } else { 1 };
    if pair.rows.iter().any(|r| short(*r, wanted)) {
        let order = match springs[pair.rows[0]].stock.filter(|_| wanted == 2) {
            Some(count) => say!("Only {count} in stock: an axle takes two, order the rest.", count),
            None => tr("The shelf does not hold both: order them.").to_owned(),
        };
        blocks.push(Block::Text(order));
    }
    blocks
}

fn sits(judged: &Judged, off_m: f64, choice: &Choice, units: &UnitChoice) -> String {
    if judged.margin(Limit::Height).is_none() {
        return tr("not known").into();
    }
    if !judged.stands() {
        return why(judged, &choice.ranking, units);
    }
    sentence::height_or(tr("at the wanted height"), crate::base::units::Quantity::from_si(off_m), None, units)
}

/// Everything about one axle's choice, for text and paper.
pub fn blocks(
    side: Side,
    choice: Result<&Choice, Unable>,
    springs: &[Spring],
    units: &UnitChoice,
    currency: &str,
) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(say!("From the parts list: {axle}", axle = inside(side.axle())))];
    let choice = match choice {
        Ok(choice) => choice,
        Err(unable @ (Unable::Stopped | Unable::Withheld)) => {
            blocks.push(Block::Caution(format!("{}: {unable}.", side.word())));
            return blocks;
        }
        Err(unable) => {
            blocks.push(Block::Text(format!("{}: {unable}.", side.word())));
            return blocks;
        }
    };
    let said = answer(choice, springs, units);
    blocks.push(if choice.needs_caution() { Block::Caution(said) } else { Block::Text(said) });
    blocks.push(Block::Text(certainty(choice, units)));
    blocks.push(drafted(choice, springs, units, currency));
    if let Some(found) = &choice.pair {
        blocks.extend(pair(found, choice, springs, units));
    }
    if let Some(table) = redo(choice, units) {
        blocks.push(Block::Text(format!("{}:", redo_title(choice))));
        blocks.push(table);
    }
    blocks.extend(rejected(choice, springs, units));
    blocks
}

/// One axle, and what can be chosen for it.
pub type ForAxle = (Side, Result<Choice, Unable>);

/// The choice for every axle that gets new springs, as a report.
pub fn build(job: &Job, list_name: &str, list: &List, choices: &[ForAxle]) -> Report {
    let (springs, dampers) = (list.springs.len(), list.dampers.len());
    let counted = match list.bad.len() {
        0 => say!("Parts list {name}: {springs} springs, {dampers} dampers.", name = list_name, springs, dampers),
        bad => say!(
            "Parts list {name}: {springs} springs, {dampers} dampers; {bad} rows could not be used.",
            name = list_name,
            springs,
            dampers,
            bad
        ),
    };
    let mut blocks = vec![Block::Text(counted)];
    if !list.notes.is_empty() {
        blocks.push(Block::List(list.notes.clone()));
    }
    if choices.is_empty() {
        blocks.push(Block::Text(tr("Both axles keep their springs: there is nothing to choose.").into()));
    }
    for (side, choice) in choices {
        blocks.extend(self::blocks(
            *side,
            choice.as_ref().map_err(|u| *u),
            &list.springs,
            &job.units,
            &job.prices.currency,
        ));
    }
    Report { title: tr("Springs from the parts list").into(), blocks }
}

/// The choice as JSON: SI values, keys of limits and fields.
pub fn json(choices: &[ForAxle], springs: &[Spring]) -> Value {
    let axles = choices.iter().map(|(side, choice)| {
        let value = match choice {
            Ok(choice) => one(choice, springs),
            Err(unable) => json!({ "unable": unable.to_string() }),
        };
        (side.key().to_owned(), value)
    });
    Value::Object(axles.collect())
}

fn one(choice: &Choice, springs: &[Spring]) -> Value {
    let number = |v: f64| if v.is_finite() { json!(v) } else { Value::Null };
    let drafted = choice.drafted.iter().map(|d| {
        let margins = Limit::ALL.iter().map(|l| (l.key().to_owned(), d.judged.margin(*l).map_or(Value::Null, number)));
        let broken = Limit::ALL.iter().zip(d.tally.broken).map(|(l, n)| (l.key().to_owned(), json!(n)));
        json!({
            "number": springs[d.row].number, "line": springs[d.row].line, "chance": d.chance,
            "chance_as_fitted": d.chance_as_fitted.unwrap_or(d.chance),
            "frequency_hz": number(d.judged.frequency_hz), "frequency_sd_hz": d.as_fitted.frequency.sd(),
            "above_wanted_m": { "mean": d.tally.above.mean, "sd": d.tally.above.sd() },
            "above_wanted_as_fitted_m": { "mean": d.as_fitted.above.mean, "sd": d.as_fitted.above.sd() },
            "spacer_m": number(d.judged.spacer_m), "reserve_g": number(d.judged.reserve),
            "margins": margins.collect::<serde_json::Map<_, _>>(),
            "draws_broken": broken.collect::<serde_json::Map<_, _>>(),
        })
    });
    let redo = choice.redo.iter().map(|r| {
        json!({
            "fields": r.paths, "share": r.share, "share_of_length": r.share_of_length, "moves_rate_n_per_m": r.moves_n_per_m,
            "chance_now": r.chance.map(|c| c[0]), "chance_with_half": r.chance.map(|c| c[1]),
        })
    });
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
        "needed_rate_n_per_m": { "mean": choice.needed.mean, "sd": choice.needed.sd(), "inner_95": choice.needed_95 },
        "draws": choice.draws.0.count, "seed": choice.draws.0.seed, "draws_lost": choice.draws.1,
        "pair": choice.pair.as_ref().map(|p| json!({
            "left": springs[p.rows[0]].number, "right": springs[p.rows[1]].number, "level": p.level,
            "spacer_m": [p.judged[0].spacer_m, p.judged[1].spacer_m],
        })),
        "redo": redo.collect::<Vec<_>>(),
    })
}
