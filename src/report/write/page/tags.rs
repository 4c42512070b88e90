//! What each part of a sheet is, for screen readers: headings, paragraphs, lists, tables, figures.

use std::collections::BTreeMap;
use std::num::NonZeroU16;

use krilla::tagging::{Identifier, ListNumbering, Node, TableHeaderScope, Tag, TagGroup, TagTree};

use super::{Pages, Part, Spot};
use crate::report::Block;
use crate::say;

/// What was drawn of each part, in order of the pages.
pub(super) type Drawn = BTreeMap<Part, Vec<Identifier>>;

/// The tree of tags. Everything drawn is in it once.
pub(super) fn tree(pages: &Pages, mut drawn: Drawn) -> TagTree {
    let mut tree = TagTree::new().with_lang(Some(language(pages)));
    let mut take = |part: Part| drawn.remove(&part).unwrap_or_default();
    let logo = take(Part::Logo);
    if !logo.is_empty() {
        let alt = say!("Logo of {name}", name = pages.printing.letterhead.name.trim());
        tree.push(group(Tag::Figure(Some(alt)), logo));
    }
    let letterhead = take(Part::Letterhead);
    if !letterhead.is_empty() {
        tree.push(group(Tag::P, letterhead));
    }
    tree.push(group(heading(1, &pages.report.title), take(Part::Title)));
    for (at, block) in pages.report.blocks.iter().enumerate() {
        let mut spot = |spot| take(Part::Block(at, spot));
        let one = match block {
            Block::Heading(text) => group(heading(2, text), spot(Spot::Whole)),
            Block::Text(_) => group(Tag::P, spot(Spot::Whole)),
            Block::Caution(_) => {
                let strong = group(Tag::Strong, spot(Spot::Whole));
                TagGroup::with_children(Tag::P, vec![Node::Group(strong)])
            }
            Block::Drawing(drawing) => group(Tag::Figure(Some(drawing.words.clone())), spot(Spot::Whole)),
            Block::List(entries) => list(entries.len(), ListNumbering::None, spot),
            Block::Steps(steps) => list(steps.len(), ListNumbering::Decimal, spot),
            Block::Blanks(lines) => list(lines.len(), ListNumbering::None, spot),
            Block::Table { head, rows } => table(head.len(), rows.len(), spot),
        };
        if !one.children.is_empty() {
            tree.push(one);
        }
    }
    tree
}

fn heading(level: u16, text: &str) -> Tag<krilla::tagging::kind::Hn> {
    Tag::Hn(NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN), Some(text.to_owned()))
}

fn group(tag: impl Into<krilla::tagging::TagKind>, drawn: Vec<Identifier>) -> TagGroup {
    TagGroup::with_children(tag, drawn.into_iter().map(Node::Leaf).collect())
}

fn list(count: usize, numbering: ListNumbering, mut spot: impl FnMut(Spot) -> Vec<Identifier>) -> TagGroup {
    let entry = |i| {
        let body = group(Tag::LBody, spot(Spot::Entry(i)));
        Node::Group(TagGroup::with_children(Tag::LI, vec![Node::Group(body)]))
    };
    let entries: Vec<Node> = (0..count).map(entry).collect();
    TagGroup::with_children(Tag::L(numbering), entries)
}

fn table(columns: usize, rows: usize, mut spot: impl FnMut(Spot) -> Vec<Identifier>) -> TagGroup {
    let mut row = |r: usize| {
        let cell = |c: usize| {
            let drawn = spot(Spot::Cell(r, c));
            let one = match (r, c) {
                (0, _) => group(Tag::TH(TableHeaderScope::Column), drawn),
                (_, 0) => group(Tag::TH(TableHeaderScope::Row), drawn),
                _ => group(Tag::TD, drawn),
            };
            Node::Group(one)
        };
        let cells: Vec<Node> = (0..columns).map(cell).collect();
        Node::Group(TagGroup::with_children(Tag::TR, cells))
    };
    let head = TagGroup::with_children(Tag::THead, vec![row(0)]);
    let body = TagGroup::with_children(Tag::TBody, (1..=rows).map(row).collect());
    TagGroup::with_children(Tag::Table, vec![Node::Group(head), Node::Group(body)])
}

/// The language of the words.
pub(super) fn language(pages: &Pages) -> String {
    match pages.printing.language.trim() {
        "" => "en".to_owned(),
        language => language.to_ascii_lowercase(),
    }
}
