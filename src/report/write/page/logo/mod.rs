//! The shop's logo: a PNG or SVG file, checked before it is read, kept as pixels.

mod svg;

use std::fmt;
use std::sync::Arc;

use crate::base::bounds::{self, Bound};
use crate::base::language::tr;
use crate::say;
use resvg::tiny_skia;
use thiserror::Error;

/// No logo file is larger, bytes.
pub const MOST_BYTES: usize = bounds::LOGO_FILE.count();
/// No side of a PNG is longer, pixels.
pub const MOST_PX: u32 = bounds::LOGO_SIDE.count() as u32;
/// A side that is longer than this many times the other is no logo.
const MOST_STRETCHED: f32 = 20.0;

/// Why a file cannot be the logo.
#[derive(Debug, Error, PartialEq)]
pub enum LogoError {
    /// Too many bytes.
    #[error(
        "{}",
        say!("the logo has {bytes} bytes; at most {most} are allowed. Save a smaller file", bytes, most = MOST_BYTES)
    )]
    TooLarge {
        /// How many.
        bytes: usize,
    },
    /// Too many pixels.
    #[error(
        "{}",
        say!(
            "the logo has {width} × {height} pixels; at most {most} × {most} are allowed. Save it with fewer pixels",
            width,
            height,
            most = MOST_PX
        )
    )]
    TooManyPixels {
        /// Across.
        width: u32,
        /// Down.
        height: u32,
    },
    /// Neither PNG nor SVG.
    #[error("{}", tr("the logo is neither a PNG nor an SVG picture. Save it as PNG or SVG"))]
    Neither,
    /// A broken file.
    #[error("{}", say!("the logo cannot be read: {cause}. Save it again as PNG or SVG", cause = what))]
    Broken {
        /// What was found.
        what: String,
    },
    /// An element that is not drawn.
    #[error("{}", say!("the logo has an element <{element}>: {why}. Remove the element, or save the logo as PNG", element, why = why.words()))]
    Element {
        /// Its name.
        element: String,
        /// Why not.
        why: Why,
    },
    /// More to draw than a logo has.
    #[error(
        "{}",
        say!(
            "the logo is too complex to draw: at most {most} {unit} are possible. Simplify it, or save it as PNG",
            most = bounds::grouped(bound.most),
            unit = tr(bound.unit)
        )
    )]
    TooMuch {
        /// Of what.
        bound: &'static Bound,
    },
    /// It was given up.
    #[error(
        "{}",
        say!(
            "the logo takes longer than {most} s to draw. Simplify it, or save it as PNG",
            most = bounds::LOGO_TIME.most
        )
    )]
    Slow,
    /// A line.
    #[error(
        "{}",
        say!(
            "the logo is {width} × {height}: one side is more than {most} times as long as the other. Crop it",
            width,
            height,
            most = MOST_STRETCHED
        )
    )]
    Stretched {
        /// Across.
        width: u32,
        /// Down.
        height: u32,
    },
}

/// Why an element of an SVG is not drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// It can ask for work without end, or runs.
    Work,
    /// It is in another file.
    Outside,
}

impl Why {
    fn words(self) -> &'static str {
        match self {
            Why::Work => tr("filters, patterns, markers, scripts and embedded pictures are not drawn"),
            Why::Outside => tr("it refers to another file"),
        }
    }
}

/// A logo, ready to be drawn.
#[derive(Clone)]
pub struct Logo {
    pixels: Arc<tiny_skia::Pixmap>,
}

impl PartialEq for Logo {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.pixels, &other.pixels) || self.pixels.data() == other.pixels.data()
    }
}

impl fmt::Debug for Logo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Logo({} × {})", self.width_px(), self.height_px())
    }
}

impl Logo {
    /// Reads the bytes of a PNG or SVG file.
    ///
    /// # Errors
    /// [`LogoError`]; sizes are checked before pixels are.
    pub fn read(bytes: &[u8]) -> Result<Logo, LogoError> {
        const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";
        if bytes.len() > MOST_BYTES {
            return Err(LogoError::TooLarge { bytes: bytes.len() });
        }
        let pixels = if bytes.starts_with(PNG) { from_png(bytes)? } else { from_svg(bytes)? };
        let (width, height) = (pixels.width(), pixels.height());
        if (width.max(height)) as f32 > MOST_STRETCHED * width.min(height) as f32 {
            return Err(LogoError::Stretched { width, height });
        }
        Ok(Logo { pixels: Arc::new(pixels) })
    }

    /// Pixels across.
    pub fn width_px(&self) -> u32 {
        self.pixels.width()
    }

    /// Pixels down.
    pub fn height_px(&self) -> u32 {
        self.pixels.height()
    }

    pub(super) fn pixels(&self) -> &tiny_skia::Pixmap {
        &self.pixels
    }

    /// Red, green, blue and opacity of every pixel, row by row.
    pub(super) fn rgba(&self) -> Vec<u8> {
        let pixel = |p: &tiny_skia::PremultipliedColorU8| {
            let c = p.demultiply();
            [c.red(), c.green(), c.blue(), c.alpha()]
        };
        self.pixels.pixels().iter().flat_map(pixel).collect()
    }
}

fn broken(what: impl fmt::Display) -> LogoError {
    LogoError::Broken { what: what.to_string() }
}

fn from_png(bytes: &[u8]) -> Result<tiny_skia::Pixmap, LogoError> {
    let reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().map_err(broken)?;
    let (width, height) = (reader.info().width, reader.info().height);
    if width > MOST_PX || height > MOST_PX {
        return Err(LogoError::TooManyPixels { width, height });
    }
    drop(reader);
    tiny_skia::Pixmap::decode_png(bytes).map_err(broken)
}

fn from_svg(bytes: &[u8]) -> Result<tiny_skia::Pixmap, LogoError> {
    svg::draw(std::str::from_utf8(bytes).map_err(|_| LogoError::Neither)?)
}
