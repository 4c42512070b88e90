//! Puts strips on pages, below a head and above a foot.

use super::fonts::Fonts;
use super::setting::{Setter, Type};
use super::strips::{HAIR, Measure, Strip, Stripper, THIN, base, line_height, path, text_items};
use super::{Fit, Item, Letterhead, PT_PER_MM, Page, Part, Placed, Printing, SMALLEST_PT, frame_pt};
use crate::base::language::{Language, speak};
use crate::report::{Block, Report};
use crate::say;

/// The foot and the head of later pages, points.
const SMALL: Type = Type { size_pt: SMALLEST_PT, bold: false };
const FOOT_HEIGHT: f32 = 16.0;
const HEAD_HEIGHT: f32 = 19.0;
/// So far the largest type reaches above its line where lines are set close, points.
const OVERHANG: f32 = 1.0;
/// So little of a page's height is a rest that need not have a page of its own.
const REST: f32 = 0.25;
/// The smallest type of a sheet that may take as many pages as it needs, points.
const LEAST_PT: f32 = 9.5;
/// The most room for a logo, mm.
const LOGO_MM: [f32; 2] = [45.0, 20.0];

/// The pages, and the notes for whoever prints them.
pub(super) fn pages(report: &Report, printing: &Printing, fonts: &mut Fonts) -> (Vec<Page>, Vec<String>) {
    let mut setter = Setter::new(fonts);
    let (pages, is_too_long) = laid_out(report, printing, &mut setter);
    let mut notes = Vec::new();
    if is_too_long {
        let paper = printing.paper.word();
        let (points, count) = (SMALLEST_PT, pages.len());
        notes.push(match printing.fit {
            Fit::TwoPages => say!(
                "This sheet does not fit on two pages of {paper}, even in {points:.1} point type: it takes {count} pages. Shorten the names or the notes.",
                paper, points, count
            ),
            Fit::OnePage | Fit::Pages => say!(
                "This sheet does not fit on one page of {paper}, even in {points:.1} point type: it takes {count} pages. Shorten the names or the notes.",
                paper, points, count
            ),
        });
    }
    notes.extend(said_of(&setter));
    (pages, notes)
}

/// The pages in the language of the report, and whether they are more than they should be.
fn laid_out(report: &Report, printing: &Printing, setter: &mut Setter<'_>) -> (Vec<Page>, bool) {
    let _voice = speak(Language::spoken_as(&printing.language));
    let most = printing.fit.most();
    let mut pages = match most {
        Some(most) => within(most, report, printing, setter),
        None => without_a_rest(report, printing, setter),
    };
    let is_too_long = most.is_some_and(|most| pages.len() > most);
    if is_too_long {
        // What is to be read on several pages anyway need not be small.
        pages = on_pages(report, printing, Measure::STEPS[0], setter);
    }
    let count = pages.len();
    for (i, page) in pages.iter_mut().enumerate() {
        page.extend(foot(printing, i + 1, count, setter));
        if i > 0 {
            page.extend(later_head(report, printing, setter));
        }
    }
    (pages, is_too_long)
}

/// In the largest type that needs no more pages than this; else in the smallest.
fn within(most: usize, report: &Report, printing: &Printing, setter: &mut Setter<'_>) -> Vec<Page> {
    let mut pages = Vec::new();
    for measure in Measure::STEPS {
        pages = on_pages(report, printing, measure, setter);
        if pages.len() <= most {
            break;
        }
    }
    pages
}

/// A last page with next to nothing on it is saved, where a slightly smaller type does that.
fn without_a_rest(report: &Report, printing: &Printing, setter: &mut Setter<'_>) -> Vec<Page> {
    let [comfortable, smaller @ ..] = Measure::STEPS;
    let pages = on_pages(report, printing, comfortable, setter);
    let [_, top, _, bottom] = frame_pt(printing.paper);
    let lowest = |page: &Page| page.iter().map(|placed| bottom_of(&placed.item)).fold(top, f32::max);
    let reaches = pages.last().map_or(0.0, lowest) - top - HEAD_HEIGHT;
    if pages.len() < 2 || reaches > REST * (bottom - top) {
        return pages;
    }
    let saved = smaller.into_iter().filter(|m| m.type_pt >= LEAST_PT);
    saved.map(|m| on_pages(report, printing, m, setter)).find(|fewer| fewer.len() < pages.len()).unwrap_or(pages)
}

fn on_pages(report: &Report, printing: &Printing, measure: Measure, setter: &mut Setter<'_>) -> Vec<Page> {
    let [left, top, right, bottom] = frame_pt(printing.paper);
    let top = top + OVERHANG;
    let body = bottom - FOOT_HEIGHT - top - HEAD_HEIGHT;
    let (width, strips, heads, shared) = (right - left, Vec::new(), Vec::new(), Vec::new());
    let mut stripper = Stripper { setter, measure, width, height: body, blocks: &report.blocks, shared, strips, heads };
    letterhead(&printing.letterhead, &mut stripper);
    stripper.title(&report.title);
    for (at, block) in report.blocks.iter().enumerate() {
        let (before, leads) = (&report.blocks[..at], is_introduction(&report.blocks, at));
        let goes_on = matches!((before.last(), block), (Some(Block::Blanks(_) | Block::Table { .. }), Block::Text(_)));
        if goes_on && !leads {
            stripper.glue_back(0.0);
        }
        let first = stripper.strips.len();
        stripper.block(at, block);
        if leads {
            stripper.keep_with_next(first);
        }
    }
    stripper.end();
    let Stripper { strips, heads, .. } = stripper;
    let mut filler = Filler { pages: vec![Vec::new()], y: top, left, top, bottom: bottom - FOOT_HEIGHT, heads: &heads };
    let mut rest = strips.as_slice();
    while !rest.is_empty() {
        let count = rest.iter().position(|s| !s.is_glued).map_or(rest.len(), |i| i + 1);
        filler.put(&rest[..count]);
        rest = &rest[count..];
    }
    filler.pages
}

/// A text that stays with the block that follows: what a heading says of it, the words above a table, or a text that leads
/// to it.
fn is_introduction(blocks: &[Block], at: usize) -> bool {
    let Some(next) = blocks.get(at + 1) else { return false };
    let is_below_heading = at > 0 && matches!(blocks[at - 1], Block::Heading(_));
    match &blocks[at] {
        Block::Text(text) => is_below_heading || matches!(next, Block::Table { .. }) || text.trim_end().ends_with(':'),
        Block::Caution(_) => is_below_heading,
        _ => false,
    }
}

/// Fills pages from the top.
struct Filler<'h> {
    pages: Vec<Page>,
    y: f32,
    left: f32,
    top: f32,
    bottom: f32,
    heads: &'h [Vec<Strip>],
}

impl Filler<'_> {
    /// Strips that are to stay together, if one page can hold them.
    fn put(&mut self, together: &[Strip]) {
        let height: f32 = together.iter().map(|s| s.height).sum();
        let page = self.bottom - self.top - HEAD_HEIGHT;
        // What a glued heading begins may be longer than a page; then it breaks where it must.
        if self.y + height > self.bottom && height <= page && !self.is_at_top() && !together.iter().all(|s| s.is_gap) {
            self.turn(together.iter().find(|s| !s.is_gap).and_then(|s| s.head));
        }
        for strip in together {
            if strip.is_gap {
                if !self.is_at_top() {
                    self.y += strip.height;
                }
                continue;
            }
            if self.y + strip.height > self.bottom && !self.is_at_top() {
                self.turn(strip.head);
            }
            self.add(strip, false);
        }
    }

    fn is_at_top(&self) -> bool {
        self.pages.last().is_none_or(Vec::is_empty)
    }

    fn turn(&mut self, head: Option<usize>) {
        self.pages.push(Vec::new());
        self.y = self.top + HEAD_HEIGHT;
        let head = head.and_then(|h| self.heads.get(h)).map_or(&[][..], Vec::as_slice);
        // A head that takes the page for itself helps nobody.
        let high: f32 = head.iter().map(|s| s.height).sum();
        if high < 0.3 * (self.bottom - self.y) {
            head.iter().for_each(|strip| self.add(strip, true));
        }
    }

    fn add(&mut self, strip: &Strip, is_repeated: bool) {
        let (dx, dy) = (self.left, self.y);
        let moved = strip.items.iter().map(|placed| {
            let part = if is_repeated { Part::PageHead } else { placed.part };
            Placed { item: moved(&placed.item, dx, dy), part }
        });
        if let Some(page) = self.pages.last_mut() {
            page.extend(moved);
        }
        self.y += strip.height;
    }
}

fn bottom_of(item: &Item) -> f32 {
    match item {
        Item::Text { at: [_, y], .. } => *y,
        Item::Path { through, .. } => through.iter().map(|at| at[1]).fold(0.0, f32::max),
        Item::Logo { at: [_, y], size: [_, height] } => y + height,
    }
}

fn moved(item: &Item, dx: f32, dy: f32) -> Item {
    let to = |[x, y]: [f32; 2]| [x + dx, y + dy];
    match item {
        Item::Text { at, run } => Item::Text { at: to(*at), run: run.clone() },
        Item::Path { through, is_closed, fill, pen } => Item::Path {
            through: through.iter().map(|p| to(*p)).collect(),
            is_closed: *is_closed,
            fill: *fill,
            pen: *pen,
        },
        Item::Logo { at, size } => Item::Logo { at: to(*at), size: *size },
    }
}

/// Logo at the right, name and contact at the left, a line below.
fn letterhead(letterhead: &Letterhead, strips: &mut Stripper<'_, '_>) {
    let before = strips.strips.len();
    let whole = strips.width;
    let logo = letterhead.logo.as_ref().map(|logo| {
        let most = LOGO_MM.map(|mm| mm * PT_PER_MM);
        let size = [logo.width_px() as f32, logo.height_px() as f32];
        let scale = (most[0] / size[0]).min(most[1] / size[1]);
        size.map(|side| scale * side)
    });
    strips.width = whole - logo.map_or(0.0, |size| size[0] + 12.0);
    let name = Type { size_pt: 1.3 * strips.measure.type_pt, bold: true };
    for (text, style) in [(&letterhead.name, name), (&letterhead.contact, strips.measure.body())] {
        if !text.trim().is_empty() {
            strips.paragraph(text, style, 0.0, Part::Letterhead, true);
        }
    }
    strips.width = whole;
    if let Some(size) = logo {
        let high: f32 = strips.strips[before..].iter().map(|s| s.height).sum();
        let item = Item::Logo { at: [whole - size[0], 0.0], size };
        let placed = Placed { item, part: Part::Logo };
        if strips.strips.len() == before {
            strips.strips.push(Strip { height: 0.0, is_glued: true, ..Strip::default() });
        }
        strips.strips[before].items.push(placed);
        let height = (size[1] - high).max(0.0);
        strips.strips.push(Strip { height, is_glued: true, ..Strip::default() });
    }
    if strips.strips.len() > before {
        let items = vec![path(vec![[0.0, 3.0], [whole, 3.0]], false, None, Some(THIN))];
        strips.strips.push(Strip { height: 3.5, items, is_glued: true, ..Strip::default() });
        strips.gap(strips.measure.gap(), true);
    }
}

/// What a later page is of.
fn later_head(report: &Report, printing: &Printing, setter: &mut Setter<'_>) -> Vec<Placed> {
    let [left, top, right, _] = frame_pt(printing.paper);
    let shop = printing.letterhead.name.trim();
    let title = setter.cut_to(&report.title, SMALL, 0.55 * (right - left));
    let shop = setter.cut_to(shop, SMALL, 0.4 * (right - left));
    let y = top + base(SMALL, 1.3 * SMALL.size_pt);
    let shop_left = right - shop.width_pt;
    let mut items = text_items(title, left, y, Part::PageHead);
    items.extend(text_items(shop, shop_left, y, Part::PageHead));
    let under = top + HEAD_HEIGHT - 6.0;
    items.push(path(vec![[left, under], [right, under]], false, None, Some(HAIR)));
    items
}

/// Job, state, date and version at the left; the page at the right.
fn foot(printing: &Printing, page: usize, of: usize, setter: &mut Setter<'_>) -> Vec<Placed> {
    let [left, _, right, bottom] = frame_pt(printing.paper);
    let number = setter.cut_to(&say!("page {page} of {pages}", page, pages = of), SMALL, right - left);
    let foot = &printing.foot;
    let version = concat!("springwright ", env!("CARGO_PKG_VERSION"));
    let state = if foot.hides_state { "" } else { foot.state.as_str() };
    let traced: Vec<&str> = [state, foot.date.as_str(), version].into_iter().filter(|t| !t.trim().is_empty()).collect();
    let traced = traced.join(" · ");
    // A long name of the job gives way: the rest must be read.
    let room = right - left - number.width_pt - 12.0;
    let for_name = room - setter.width(&format!(" · {traced}"), SMALL) - 1.0;
    let mut items = Vec::new();
    let y = bottom - FOOT_HEIGHT + 5.0 + base(SMALL, line_height(SMALL, Measure::STEPS[5]));
    let mut x = left;
    if !foot.job.trim().is_empty() && for_name > 20.0 {
        let name = setter.cut_to(&say!("job {name}", name = foot.job), SMALL, for_name);
        let wide = name.width_pt;
        items.extend(text_items(name, x, y, Part::PageFoot));
        let dot = setter.cut_to(" ·", SMALL, 20.0);
        let space = setter.width(" ", SMALL);
        items.extend(text_items(dot, x + wide + space, y, Part::PageFoot));
        x += wide + setter.width(" · ", SMALL);
    }
    let traced = setter.cut_to(&traced, SMALL, room - (x - left));
    items.extend(text_items(traced, x, y, Part::PageFoot));
    let number_left = right - number.width_pt;
    items.extend(text_items(number, number_left, y, Part::PageFoot));
    let above = bottom - FOOT_HEIGHT + 4.0;
    items.push(path(vec![[left, above], [right, above]], false, None, Some(HAIR)));
    items
}

/// Which characters could not be shown.
fn said_of(setter: &Setter<'_>) -> Vec<String> {
    const MOST: usize = 12;
    let named = |chars: &std::collections::BTreeSet<char>, shown: bool| {
        let one = |c: &char| {
            if shown { format!("{c} (U+{:04X})", u32::from(*c)) } else { format!("U+{:04X}", u32::from(*c)) }
        };
        let mut words: Vec<String> = chars.iter().take(MOST).map(one).collect();
        if chars.len() > MOST {
            words.push(say!("and {count} more", count = chars.len() - MOST));
        }
        words.join(", ")
    };
    let mut notes = Vec::new();
    if !setter.missing.is_empty() {
        notes.push(say!(
            "No font on this computer can show {missing}: \u{FFFD} is printed instead. Install a font for this script; it is used immediately. Text and Markdown files keep the characters as written.",
            missing = named(&setter.missing, true)
        ));
    }
    if !setter.left_out.is_empty() {
        notes.push(say!(
            "Control characters cannot be printed and were left out: {left_out}. Text and Markdown files keep them as written.",
            left_out = named(&setter.left_out, false)
        ));
    }
    notes
}
