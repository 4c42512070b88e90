//! The shop's logo: a PNG or SVG file, looked at before it is read, kept as pixels.

use std::fmt;
use std::sync::Arc;

use crate::language::tr;
use crate::say;
use resvg::{tiny_skia, usvg};
use thiserror::Error;

/// No logo file is larger, bytes.
pub const MOST_BYTES: usize = 2_000_000;
/// No side of a PNG is longer, pixels.
pub const MOST_PX: u32 = 4_000;
/// Longer side of the pixels that an SVG is drawn with: 45 mm at 600 dots per inch.
const SVG_PX: f32 = 1063.0;
/// A side that is longer than this many times the other is no logo.
const MOST_STRETCHED: f32 = 20.0;

/// Why a file cannot be the logo.
#[derive(Debug, Error, PartialEq)]
pub enum LogoError {
    /// Too many bytes.
    #[error(
        "{}",
        say!("the logo has {bytes} bytes; at most {most} are allowed. Save it smaller", bytes, most = MOST_BYTES)
    )]
    TooLarge {
        /// How many.
        bytes: usize,
    },
    /// Too many pixels.
    #[error(
        "{}",
        say!(
            "the logo has {width} × {height} pixels; at most {most} × {most} are allowed. Save it smaller",
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
    #[error("{}", tr("the logo is neither a PNG nor an SVG picture. Save it as one of them"))]
    Neither,
    /// A broken file.
    #[error("{}", say!("the logo cannot be read: {cause}. Save it anew as PNG or SVG", cause = what))]
    Broken {
        /// What was found.
        what: String,
    },
    /// A line.
    #[error(
        "{}",
        say!(
            "the logo is {width} × {height}: one side more than {most} times the other. Crop it",
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
    /// [`LogoError`]; sizes are looked at before pixels are.
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
    let text = std::str::from_utf8(bytes).map_err(|_| LogoError::Neither)?;
    if !text.contains("<svg") {
        return Err(LogoError::Neither);
    }
    let mut options = usvg::Options::default();
    // A logo is one file: pictures that it names elsewhere are not fetched.
    options.image_href_resolver.resolve_string = Box::new(|_, _| None);
    if text.contains("<text") {
        options.fontdb_mut().load_font_data(super::REGULAR.to_vec());
        options.fontdb_mut().load_font_data(super::BOLD.to_vec());
        options.fontdb_mut().load_system_fonts();
        "Noto Sans".clone_into(&mut options.font_family);
    }
    let tree = usvg::Tree::from_str(text, &options).map_err(broken)?;
    let size = tree.size();
    let scale = SVG_PX / size.width().max(size.height());
    let side = |length: f32| (scale * length).round().max(1.0) as u32;
    let (width, height) = (side(size.width()), side(size.height()));
    let mut pixels = tiny_skia::Pixmap::new(width, height).ok_or(LogoError::TooManyPixels { width, height })?;
    resvg::render(&tree, tiny_skia::Transform::from_scale(scale, scale), &mut pixels.as_mut());
    Ok(pixels)
}
