//! Draws pages and drawings as pixels: the PNG file and the preview.

use resvg::tiny_skia::{
    self, Color, FillRule, FilterQuality, LineJoin, Paint, Path, PathBuilder, Pixmap, PixmapPaint, StrokeDash,
    Transform,
};
use skrifa::instance::{LocationRef, Size};
use skrifa::outline::DrawSettings;
use skrifa::outline::pen::PathElement;
use skrifa::{GlyphId, MetadataProvider as _};
use thiserror::Error;

use super::fonts::{Face, Fonts};
use super::setting::Setter;
use super::{Item, PT_PER_MM, Pages, Part, Pen, Run};
use crate::report::pictures::drawing::Drawing;
use crate::say;

/// What the metadata of every picture holds, whatever its version.
pub const MARK: &str = "Software\0springwright ";
/// Dots per inch of a PNG of sheets.
pub const DPI: f32 = 150.0;
/// Pages under each other in one PNG.
pub const MOST_PAGES: usize = 20;
/// Between pages that stand under each other, pixels.
const BETWEEN_PX: u32 = 12;
const PT_PER_IN: f32 = 72.0;

/// Why no picture was made.
#[derive(Debug, Error)]
pub enum PngError {
    /// More pages than one picture should hold.
    #[error(
        "{}",
        say!("the sheet has {pages} pages; a PNG holds at most {most}. Save a PDF instead", pages, most = MOST_PAGES)
    )]
    TooManyPages {
        /// How many.
        pages: usize,
    },
    /// No memory, or no size; not known to happen.
    #[error("{}", say!("a picture of {width} × {height} pixels cannot be created", width, height))]
    NoPixels {
        /// Across.
        width: u32,
        /// Down.
        height: u32,
    },
    /// The PNG writer's message; not known to happen.
    #[error("{}", say!("the picture cannot be saved: {cause}", cause = .0))]
    Png(#[from] png::EncodingError),
}

/// Pixels: red, green, blue, row by row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Across.
    pub width: u32,
    /// Down.
    pub height: u32,
    /// Three bytes for each pixel.
    pub rgb: Vec<u8>,
}

/// One page with this number of pixels per point.
///
/// # Errors
/// [`PngError::NoPixels`].
pub fn page(pages: &Pages, at: usize, px_per_pt: f32) -> Result<Picture, PngError> {
    let [width, height] = pages.paper.size_pt().map(|side| (side * px_per_pt).round() as u32);
    let mut canvas = canvas(width, height)?;
    let mut glyphs = Glyphs { faces: &pages.faces, cache: std::collections::HashMap::new() };
    for placed in pages.pages.get(at).into_iter().flatten() {
        draw(&mut canvas, &placed.item, px_per_pt, &mut glyphs, pages.printing.letterhead.logo.as_deref());
    }
    Ok(picture(&canvas))
}

/// All pages as one PNG file, under each other, [`DPI`] dots per inch.
///
/// # Errors
/// [`PngError`].
pub fn png(pages: &Pages) -> Result<Vec<u8>, PngError> {
    let count = pages.pages.len();
    if count > MOST_PAGES {
        return Err(PngError::TooManyPages { pages: count });
    }
    let mut whole = Picture { width: 0, height: 0, rgb: Vec::new() };
    for at in 0..count {
        let one = page(pages, at, DPI / PT_PER_IN)?;
        if at > 0 {
            let rule = one.width as usize * BETWEEN_PX as usize * 3;
            whole.rgb.extend(std::iter::repeat_n(0x80, rule));
            whole.height += BETWEEN_PX;
        }
        whole.width = one.width;
        whole.height += one.height;
        whole.rgb.extend(one.rgb);
    }
    encode(&whole, DPI)
}

/// A drawing alone, with this number of dots per inch.
///
/// # Errors
/// [`PngError`].
pub fn drawing(drawing: &Drawing, dpi: f32, fonts: &mut Fonts) -> Result<Picture, PngError> {
    let px_per_pt = dpi / PT_PER_IN;
    let [width, height] = [drawing.width_mm, drawing.height_mm].map(|mm| (mm * PT_PER_MM * px_per_pt).ceil() as u32);
    let mut canvas = canvas(width, height)?;
    let mut setter = Setter::new(fonts);
    let items = super::shapes::items(drawing, 1.0, [0.0, 0.0], Part::Rule, &mut setter);
    let faces = fonts.faces().to_vec();
    let mut glyphs = Glyphs { faces: &faces, cache: std::collections::HashMap::new() };
    items.iter().for_each(|placed| draw(&mut canvas, &placed.item, px_per_pt, &mut glyphs, None));
    Ok(picture(&canvas))
}

/// A picture as a PNG file: grey if it has no colour.
///
/// # Errors
/// [`PngError`].
pub fn encode(picture: &Picture, dpi: f32) -> Result<Vec<u8>, PngError> {
    const IN_PER_M: f32 = 1.0 / 0.0254;
    let is_grey = picture.rgb.chunks_exact(3).all(|p| p[0] == p[1] && p[1] == p[2]);
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, picture.width, picture.height);
    encoder.set_color(if is_grey { png::ColorType::Grayscale } else { png::ColorType::Rgb });
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fast);
    let per_m = (dpi * IN_PER_M).round() as u32;
    encoder.set_pixel_dims(Some(png::PixelDimensions { xppu: per_m, yppu: per_m, unit: png::Unit::Meter }));
    encoder.add_text_chunk("Software".to_owned(), concat!("springwright ", env!("CARGO_PKG_VERSION")).to_owned())?;
    let mut writer = encoder.write_header()?;
    if is_grey {
        let grey: Vec<u8> = picture.rgb.iter().step_by(3).copied().collect();
        writer.write_image_data(&grey)?;
    } else {
        writer.write_image_data(&picture.rgb)?;
    }
    writer.finish()?;
    Ok(bytes)
}

fn canvas(width: u32, height: u32) -> Result<Pixmap, PngError> {
    let mut canvas = Pixmap::new(width, height).ok_or(PngError::NoPixels { width, height })?;
    canvas.fill(Color::WHITE);
    Ok(canvas)
}

fn picture(canvas: &Pixmap) -> Picture {
    // The canvas is opaque: its colours are as they are shown.
    let rgb = canvas.data().chunks_exact(4).flat_map(|p| [p[0], p[1], p[2]]).collect();
    Picture { width: canvas.width(), height: canvas.height(), rgb }
}

/// Outlines of glyphs, in units of type height.
struct Glyphs<'f> {
    faces: &'f [std::sync::Arc<Face>],
    cache: std::collections::HashMap<(usize, u32), Option<Path>>,
}

impl Glyphs<'_> {
    fn outline(&mut self, face: usize, glyph: u32) -> Option<&Path> {
        let faces = self.faces;
        self.cache
            .entry((face, glyph))
            .or_insert_with(|| {
                let font = faces.get(face)?.font()?;
                let mut outline: Vec<PathElement> = Vec::new();
                // Drawn large and made smaller, so that no curve is rounded.
                let settings = DrawSettings::unhinted(Size::new(DRAWN), LocationRef::default());
                font.outline_glyphs().get(GlyphId::new(glyph))?.draw(settings, &mut outline).ok()?;
                turned(&outline)
            })
            .as_ref()
    }
}

/// Height of the type in which outlines are drawn.
const DRAWN: f32 = 1000.0;

/// The path of an outline; its y points down, as that of a picture.
fn turned(outline: &[PathElement]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for element in outline {
        match *element {
            PathElement::MoveTo { x, y } => path.move_to(x, -y),
            PathElement::LineTo { x, y } => path.line_to(x, -y),
            PathElement::QuadTo { cx0, cy0, x, y } => path.quad_to(cx0, -cy0, x, -y),
            PathElement::CurveTo { cx0, cy0, cx1, cy1, x, y } => path.cubic_to(cx0, -cy0, cx1, -cy1, x, -y),
            PathElement::Close => path.close(),
        }
    }
    path.finish()
}

fn draw(canvas: &mut Pixmap, item: &Item, scale: f32, glyphs: &mut Glyphs<'_>, logo: Option<&super::logo::Logo>) {
    match item {
        Item::Text { at, run } => text(canvas, *at, run, scale, glyphs),
        Item::Path { through, is_closed, fill, pen } => path(canvas, through, *is_closed, *fill, *pen, scale),
        Item::Logo { at, size } => {
            let Some(logo) = logo else { return };
            let across = scale * size[0] / logo.width_px() as f32;
            let down = scale * size[1] / logo.height_px() as f32;
            let paint = PixmapPaint { quality: FilterQuality::Bicubic, ..PixmapPaint::default() };
            let place = Transform::from_row(across, 0.0, 0.0, down, scale * at[0], scale * at[1]);
            canvas.draw_pixmap(0, 0, logo.pixels().as_ref(), &paint, place, None);
        }
    }
}

fn paint(grey: f32) -> Paint<'static> {
    let mut paint = Paint { anti_alias: true, ..Paint::default() };
    let level = (255.0 * grey).round() as u8;
    paint.set_color_rgba8(level, level, level, 255);
    paint
}

fn text(canvas: &mut Pixmap, at: [f32; 2], run: &Run, scale: f32, glyphs: &mut Glyphs<'_>) {
    let size = scale * run.size_pt;
    let (mut x, y) = (scale * at[0], scale * at[1]);
    let black = paint(0.0);
    for glyph in &run.glyphs {
        let place =
            Transform::from_row(size / DRAWN, 0.0, 0.0, size / DRAWN, x + size * glyph.right, y - size * glyph.up);
        if let Some(outline) = glyphs.outline(run.face, glyph.id) {
            canvas.fill_path(outline, &black, FillRule::Winding, place, None);
        }
        x += size * glyph.advance;
    }
}

fn path(canvas: &mut Pixmap, through: &[[f32; 2]], is_closed: bool, fill: Option<f32>, pen: Option<Pen>, scale: f32) {
    let mut builder = PathBuilder::new();
    for (i, [x, y]) in through.iter().enumerate() {
        if i == 0 { builder.move_to(*x, *y) } else { builder.line_to(*x, *y) }
    }
    if is_closed {
        builder.close();
    }
    let Some(path) = builder.finish() else { return };
    let place = Transform::from_scale(scale, scale);
    if let Some(grey) = fill {
        canvas.fill_path(&path, &paint(grey), FillRule::Winding, place, None);
    }
    if let Some(pen) = pen {
        let stroke = tiny_skia::Stroke {
            width: pen.width_pt,
            line_join: LineJoin::Round,
            dash: pen.dash.and_then(|d| StrokeDash::new(d.to_vec(), 0.0)),
            ..tiny_skia::Stroke::default()
        };
        canvas.stroke_path(&path, &paint(pen.grey), &stroke, place, None);
    }
}
