//! Texts of a choice, calculated once for each choice and not in every frame.

use super::work::Found;
use crate::base::language::{Voice, spoken, tr};
use crate::base::units::UnitChoice;
use crate::choose::Unable;
use crate::job::{Job, PerAxle, Side};
use crate::report::Block;
use crate::report::sections::choose::{self as words, Told};
use crate::report::sections::choose_dampers;

/// Texts of one axle's choice.
#[derive(Debug, Clone)]
pub struct Said {
    /// The answer.
    pub answer: Told,
    /// It must not be overlooked.
    pub is_caution: bool,
    /// The draws and the rate needed.
    pub certainty: String,
    /// Left and right.
    pub pair: Vec<Block>,
    /// What to measure again first, a row each.
    pub redo: Option<Block>,
    /// Why others are out.
    pub rejected: Vec<Block>,
}

/// Both axles' words, kept until choice, units or voice are others.
#[derive(Debug, Default)]
pub(super) struct Sayings {
    of: Option<(u64, UnitChoice, Voice)>,
    pub axles: PerAxle<Option<Said>>,
    /// What the list offers in dampers, front and rear.
    pub dampers: PerAxle<Vec<Block>>,
}

impl Sayings {
    pub fn update(&mut self, found: Option<&Found>, job: &Job) {
        let Some(found) = found else {
            *self = Sayings::default();
            return;
        };
        let (units, voice) = (&job.units, spoken());
        if self.of == Some((found.serial, *units, voice)) {
            return;
        }
        self.axles = PerAxle::each(|side| said(found, side, units));
        let dampers = &found.list.opened.list.dampers;
        self.dampers = PerAxle::each(|side| {
            let ranked = found.dampers[side].as_ref().map_err(|unable| *unable);
            choose_dampers::blocks(job, &found.answered[side], dampers, ranked)
        });
        self.of = Some((found.serial, *units, voice));
    }
}

fn said(found: &Found, side: Side, units: &UnitChoice) -> Option<Said> {
    let springs = found.list.springs();
    let choice = match &found.axle(side)?.choice {
        Ok(choice) => choice,
        Err(unable) => {
            return Some(Said {
                answer: Told { springs: format!("{}: {unable}.", side.word()), why: String::new() },
                is_caution: matches!(unable, Unable::Stopped | Unable::Withheld),
                certainty: String::new(),
                pair: Vec::new(),
                redo: None,
                rejected: Vec::new(),
            });
        }
    };
    let results = words::results(choice, springs, "");
    Some(Said {
        answer: words::answer(choice, springs, units),
        is_caution: choice.needs_caution(),
        certainty: words::certainty(choice, units),
        pair: words::pair(choice, &results, springs, units),
        redo: words::redo(choice, &results, units).map(without_arrows),
        rejected: words::rejected(choice, springs, units),
    })
}

/// The window's fonts have no arrow.
fn without_arrows(block: Block) -> Block {
    let cells = |row: Vec<String>| row.into_iter().map(|cell| cell.replace('→', tr("to"))).collect();
    match block {
        Block::Table { head, rows } => Block::Table { head, rows: rows.into_iter().map(cells).collect() },
        other => other,
    }
}
