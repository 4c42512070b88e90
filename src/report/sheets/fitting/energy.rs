//! What these springs hold: force and energy of the old and the new ones, once, in one table.

use crate::base::units::{Dim, Energy, G_M_PER_S2, Mass, Quantity, display};
use crate::job::SpringKind;
use crate::report::Block;
use crate::report::sheets::both_sides;
use crate::report::sheets::page::Page;
use crate::solve::answer::AxleAnswer;

/// In which state, by the key of its words; force and energy by theirs.
const STATES: [(&str, &str, &str); 5] = [
    ("fit.energy.old", "old_springs.spring_force", "old_springs.stored"),
    ("fit.energy.hanging", "room.old_force_hanging", "room.old_stored_hanging"),
    ("fit.energy.new_hanging", "room.force_hanging", "room.stored_hanging"),
    ("fit.energy.new", "new_springs.spring_force", "new_springs.stored"),
    ("fit.energy.bump", "room.force_at_metal", "room.stored_at_metal"),
];

/// Forces and energies of the springs that are renewed; nothing where none is known.
pub(super) fn blocks(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Vec<Block> {
    let (height_m, height) = fall_height(page);
    let mut rows = Vec::new();
    for axle in renewed {
        for (key, force, stored) in STATES {
            let Some((force, energy)) = page.of(axle, force).zip(page.value::<Energy>(axle, stored)) else { continue };
            let key = match key {
                // On spacers it hangs nearly as before.
                "fit.energy.new_hanging" if axle.is_set_again() => continue,
                "fit.energy.new" if axle.is_set_again() => both_sides::set_again(
                    page,
                    axle,
                    ["fit.energy.on_spacers", "fit.energy.indexed", "fit.energy.with_leaf"],
                ),
                "fit.energy.bump" if axle.is_set_again() => {
                    let keys = ["fit.energy.on_spacers_bump", "fit.energy.indexed_bump", "fit.energy.with_leaf_bump"];
                    both_sides::set_again(page, axle, keys)
                }
                key => key,
            };
            let what = page.on(axle.side).say(key, &[("spacers", &page.raised_by(axle))]);
            let mass = Mass::from_si(energy.si() / (G_M_PER_S2 * height_m));
            rows.push(vec![what, force, page.qty(energy), said(page, mass)]);
        }
    }
    if rows.is_empty() {
        return Vec::new();
    }
    let fall = page.say("fit.energy.fall", &[("height", height)]);
    let head =
        vec![page.plain("fit.energy.each"), page.plain("fit.energy.force"), page.plain("fit.energy.energy"), fall];
    let mut blocks = vec![page.heading("fit.energy")];
    let has = |is: &dyn Fn(SpringKind) -> bool| renewed.iter().any(|axle| is(axle.kind));
    let notes = [
        (has(&SpringKind::is_coil), "fit.energy.note"),
        (has(&|kind| kind == SpringKind::TorsionBar), "fit.energy.note_bar"),
        (has(&|kind| kind == SpringKind::Leaf), "fit.energy.note_leaf"),
    ];
    blocks.extend(notes.into_iter().filter(|n| n.0).map(|n| page.caution(n.1, &[])));
    blocks.push(Block::Table { head, rows });
    blocks
}

/// A mass; no energy is that of no mass.
fn said(page: &Page<'_>, mass: Mass) -> String {
    let unit = page.units().unit(Dim::Mass);
    if display::rounded_number(mass.si(), unit) == "0" {
        return page.say("fit.energy.under", &[("amount", &page.qty(Mass::from_si(unit.si)))]);
    }
    page.qty(mass)
}

/// A height that everybody knows, m and in words.
fn fall_height(page: &Page<'_>) -> (f64, &'static str) {
    match page.units().unit(Dim::Length).symbol {
        "in" => (3.0 * 0.3048, "3 ft"),
        _ => (1.0, "1 m"),
    }
}
