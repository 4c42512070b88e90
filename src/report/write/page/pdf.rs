//! Writes pages as PDF: real text in embedded fonts, tagged for screen readers.

use std::sync::Arc;

use krilla::configure::{Accessibility, Configuration, ConfigurationBuilder, PdfVersion};
use krilla::destination::XyzDestination;
use krilla::error::KrillaError;
use krilla::geom::{PathBuilder, Point, Size, Transform};
use krilla::image::Image;
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, SpanTag};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Data, Document, SerializeSettings, color::luma};
use thiserror::Error;

use super::tags::{self, Drawn};
use super::{Item, Pages, Part, Pen, Placed, Run, Spot};
use crate::base::language::tr;
use crate::report::Block;
use crate::say;

/// What the metadata of every sheet holds, whatever its version.
pub const MARK: &str = "CreatorTool>springwright ";

/// Why no PDF was made; not known to happen.
#[derive(Debug, Error)]
#[error("{}", say!("the PDF could not be created: {cause}", cause = what))]
pub struct PdfError {
    what: String,
}

/// The pages as PDF.
///
/// It follows PDF/UA-1 (ISO 14289-1:2014, document that is accessible) as far as a program can check that; where a
/// character has no glyph in any font, that standard cannot be kept, and the PDF is made without its mark.
///
/// # Errors
/// [`PdfError`].
pub fn write(pages: &Pages) -> Result<Vec<u8>, PdfError> {
    let accessible = ConfigurationBuilder::new()
        .with_version(PdfVersion::Pdf17)
        .with_accessibility_validator(Accessibility::UA1)
        .finish();
    let wrong = |error: KrillaError| PdfError { what: format!("{error:?}") };
    match accessible.map(|c| document(pages, c)) {
        Ok(Ok(bytes)) => Ok(bytes),
        Ok(Err(KrillaError::Validation(_))) | Err(_) => document(pages, Configuration::default()).map_err(wrong),
        Ok(Err(error)) => Err(wrong(error)),
    }
}

fn document(pages: &Pages, configuration: Configuration) -> Result<Vec<u8>, KrillaError> {
    let settings = SerializeSettings { configuration, enable_tagging: true, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let fonts: Vec<Option<Font>> =
        pages.faces.iter().map(|f| Font::new(Data::from(Arc::clone(&f.bytes)), f.index)).collect();
    let logo = pages.printing.letterhead.logo.as_ref();
    let logo = logo.map(|l| Image::from_rgba8(l.rgba(), l.width_px(), l.height_px()));
    let [width, height] = pages.paper.size_pt();
    let mut drawn = Drawn::new();
    for page in &pages.pages {
        let settings = PageSettings::from_wh(width, height).unwrap_or_default();
        let mut sheet = document.start_page_with(settings);
        let mut surface = sheet.surface();
        for same in page.chunk_by(|a, b| a.part == b.part) {
            let tag = content(same[0].part, same);
            let id = surface.start_tagged(tag);
            same.iter().for_each(|placed| draw(&mut surface, &placed.item, &fonts, logo.as_ref()));
            surface.end_tagged();
            if is_real(same[0].part) {
                drawn.entry(same[0].part).or_default().push(id);
            }
        }
        surface.finish();
        sheet.finish();
    }
    document.set_outline(outline(pages));
    document.set_metadata(metadata(pages));
    document.set_tag_tree(tags::tree(pages, drawn));
    document.finish()
}

/// Belongs to the sheet itself, not to its dress.
fn is_real(part: Part) -> bool {
    !matches!(part, Part::Rule | Part::PageHead | Part::PageFoot)
}

fn content<'t>(part: Part, of: &[Placed]) -> ContentTag<'t> {
    let artifact = |kind| ContentTag::Artifact(Artifact::with_kind(kind));
    match part {
        Part::Rule => artifact(ArtifactType::Layout),
        Part::PageHead => artifact(ArtifactType::Header),
        Part::PageFoot => artifact(ArtifactType::Footer),
        _ if of.iter().all(|p| matches!(p.item, Item::Text { .. })) => ContentTag::Span(SpanTag::empty()),
        _ => ContentTag::Other,
    }
}

fn draw(surface: &mut Surface<'_>, item: &Item, fonts: &[Option<Font>], logo: Option<&Image>) {
    match item {
        Item::Text { at, run } => text(surface, *at, run, fonts),
        Item::Path { through, is_closed, fill, pen } => {
            let mut path = PathBuilder::new();
            let mut points = through.iter();
            if let Some([x, y]) = points.next() {
                path.move_to(*x, *y);
            }
            points.for_each(|[x, y]| path.line_to(*x, *y));
            if *is_closed {
                path.close();
            }
            surface.set_fill(fill.map(filled));
            surface.set_stroke(pen.map(stroked));
            if let Some(path) = path.finish().filter(|_| fill.is_some() || pen.is_some()) {
                surface.draw_path(&path);
            }
            surface.set_stroke(None);
        }
        Item::Logo { at, size } => {
            if let (Some(image), Some(size)) = (logo, Size::from_wh(size[0], size[1])) {
                surface.push_transform(&Transform::from_translate(at[0], at[1]));
                surface.draw_image(image.clone(), size);
                surface.pop();
            }
        }
    }
}

fn text(surface: &mut Surface<'_>, at: [f32; 2], run: &Run, fonts: &[Option<Font>]) {
    let Some(Some(font)) = fonts.get(run.face) else { return };
    let glyph =
        |g: &super::Glyph| KrillaGlyph::new(GlyphId::new(g.id), g.advance, g.right, g.up, 0.0, g.shows.clone(), None);
    let glyphs: Vec<KrillaGlyph> = run.glyphs.iter().map(glyph).collect();
    surface.set_fill(Some(filled(0.0)));
    surface.draw_glyphs(Point::from_xy(at[0], at[1]), &glyphs, font.clone(), &run.text, run.size_pt, false);
}

fn grey(level: f32) -> luma::Color {
    luma::Color::new((255.0 * level).round() as u8)
}

fn filled(level: f32) -> Fill {
    Fill { paint: grey(level).into(), ..Fill::default() }
}

fn stroked(pen: Pen) -> Stroke {
    Stroke {
        paint: grey(pen.grey).into(),
        width: pen.width_pt,
        line_join: LineJoin::Round,
        opacity: NormalizedF32::ONE,
        dash: pen.dash.map(|d| StrokeDash { array: d.to_vec(), offset: 0.0 }),
        ..Stroke::default()
    }
}

/// The headings, each with its place.
fn outline(pages: &Pages) -> Outline {
    let mut outline = Outline::new();
    let place = |part: Part| {
        pages.pages.iter().enumerate().find_map(|(n, page)| {
            let top = page.iter().filter(|p| p.part == part).map(|p| pages.bounds_pt(&p.item)[1]).reduce(f32::min)?;
            Some(XyzDestination::new(n, Point::from_xy(0.0, top)))
        })
    };
    if let Some(to) = place(Part::Title) {
        outline.push_child(OutlineNode::new(pages.report.title.clone(), to));
    }
    for (at, block) in pages.report.blocks.iter().enumerate() {
        if let (Block::Heading(text), Some(to)) = (block, place(Part::Block(at, Spot::Whole))) {
            outline.push_child(OutlineNode::new(text.clone(), to));
        }
    }
    outline
}

fn metadata(pages: &Pages) -> Metadata {
    let creator = concat!("springwright ", env!("CARGO_PKG_VERSION")).to_owned();
    let title = match pages.report.title.trim() {
        "" => tr("Sheet").to_owned(),
        title => title.to_owned(),
    };
    let mut metadata = Metadata::new().title(title).language(tags::language(pages)).creator(creator);
    let shop = pages.printing.letterhead.name.trim();
    if !shop.is_empty() {
        metadata = metadata.authors(vec![shop.to_owned()]);
    }
    let state = pages.printing.foot.state.trim();
    if !state.is_empty() {
        metadata = metadata.keywords(vec![state.to_owned()]);
    }
    if let Some(date) = date(&pages.printing.foot.date) {
        metadata = metadata.creation_date(date);
    }
    metadata
}

/// Year-month-day.
fn date(text: &str) -> Option<DateTime> {
    let mut parts = text.split('-');
    let year = parts.next()?.parse().ok()?;
    let (month, day) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
    Some(DateTime::new(year).month(month).day(day))
}
