//! Fonts of the pages: two that ship, one behind them for signs of formulas, and whatever the system has for other
//! scripts.

use std::collections::HashMap;
use std::fmt;
use std::sync::Arc;

use fontdb::Database;
use harfrust::{FontRef, ShaperData};
use skrifa::instance::{LocationRef, Size};
use skrifa::outline::DrawSettings;
use skrifa::outline::pen::PathElement;
use skrifa::raw::TableProvider as _;
use skrifa::{GlyphId, MetadataProvider as _};

/// Noto Sans, regular; licence in `assets/fonts/OFL.txt`.
pub static REGULAR: &[u8] = include_bytes!("../../../../assets/fonts/NotoSans-Regular.ttf");
/// Noto Sans, bold.
pub static BOLD: &[u8] = include_bytes!("../../../../assets/fonts/NotoSans-Bold.ttf");

/// The bytes of a font file, shared by all who draw with it.
pub(super) type Bytes = Arc<dyn AsRef<[u8]> + Send + Sync>;

/// One face of a font.
pub struct Face {
    pub(super) bytes: Bytes,
    pub(super) index: u32,
    pub(super) shaper: ShaperData,
    /// Units of the font per height of the type.
    pub(super) units_per_em: f32,
    /// Above and below the base line, per height of the type.
    pub(super) ascent: f32,
    pub(super) descent: f32,
    name: String,
}

impl fmt::Debug for Face {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Face").field("name", &self.name).finish_non_exhaustive()
    }
}

impl Face {
    fn new(bytes: Bytes, index: u32, name: String) -> Option<Face> {
        let font = FontRef::from_index((*bytes).as_ref(), index).ok()?;
        let metrics = font.metrics(Size::new(1.0), LocationRef::default());
        let units_per_em = f32::from(metrics.units_per_em);
        let (ascent, descent) = (metrics.ascent, -metrics.descent);
        let shaper = ShaperData::new(&font);
        (units_per_em > 0.0).then_some(Face { bytes, index, shaper, units_per_em, ascent, descent, name })
    }

    pub(super) fn font(&self) -> Option<FontRef<'_>> {
        FontRef::from_index((*self.bytes).as_ref(), self.index).ok()
    }

    /// Every one of these can be drawn, as an outline.
    fn shows(&self, chars: &[char]) -> bool {
        self.font().is_some_and(|font| shows(&font, chars))
    }
}

fn shows(font: &FontRef<'_>, chars: &[char]) -> bool {
    let (map, outlines) = (font.charmap(), font.outline_glyphs());
    chars.iter().all(|c| {
        let Some(glyph) = map.map(*c).filter(|g| *g != GlyphId::NOTDEF) else { return false };
        // A picture in a colour font has no outline: it would come out blank.
        let mut path: Vec<PathElement> = Vec::new();
        let is_stroke = |e: &PathElement| !matches!(e, PathElement::MoveTo { .. } | PathElement::Close);
        let settings = DrawSettings::unhinted(Size::new(16.0), LocationRef::default());
        c.is_whitespace()
            || outlines.get(glyph).is_some_and(|o| o.draw(settings, &mut path).is_ok()) && path.iter().any(is_stroke)
    })
}

/// The faces at hand. Those of the system are read when a character needs them.
pub struct Fonts {
    faces: Vec<Arc<Face>>,
    system: System,
    found: HashMap<(String, bool), Option<usize>>,
}

enum System {
    /// Never read.
    Unused,
    /// To be read when needed.
    Unread,
    Read(Database),
}

impl fmt::Debug for Fonts {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Fonts").field("faces", &self.faces).finish_non_exhaustive()
    }
}

/// Place of the regular face among the faces; bold follows.
pub(super) const SHIPPED: [usize; 2] = [0, 1];

impl Fonts {
    /// The fonts that ship, and the system's behind them.
    pub fn with_system() -> Self {
        Fonts { faces: shipped(), system: System::Unread, found: HashMap::new() }
    }

    /// Only the fonts that ship: the same pages on every machine.
    pub fn shipped() -> Self {
        Fonts { faces: shipped(), system: System::Unused, found: HashMap::new() }
    }

    pub(super) fn faces(&self) -> &[Arc<Face>] {
        &self.faces
    }

    /// The face for characters that belong together; `None` if none can show them.
    pub(super) fn face_for(&mut self, together: &str, bold: bool) -> Option<usize> {
        let own = SHIPPED[usize::from(bold)];
        if together.is_ascii() {
            return Some(own);
        }
        let key = (together.to_owned(), bold);
        if let Some(found) = self.found.get(&key) {
            return *found;
        }
        let chars: Vec<char> = together.chars().filter(|c| !is_ignorable(*c)).collect();
        let in_order = std::iter::once(own).chain(0..self.faces.len());
        let found = in_order.into_iter().find(|i| self.faces[*i].shows(&chars)).or_else(|| self.search(&chars, bold));
        self.found.insert(key, found);
        found
    }

    fn search(&mut self, chars: &[char], bold: bool) -> Option<usize> {
        if matches!(self.system, System::Unread) {
            let mut database = Database::new();
            database.load_system_fonts();
            self.system = System::Read(database);
        }
        let System::Read(database) = &self.system else { return None };
        let wanted: i32 = if bold { 700 } else { 400 };
        let mut faces: Vec<&fontdb::FaceInfo> = database.faces().collect();
        // Upright and of the right weight first; then by name, so that every run finds the same one.
        faces.sort_by_key(|f| {
            let off = (i32::from(f.weight.0) - wanted).abs();
            (f.style != fontdb::Style::Normal, off, f.monospaced, f.post_script_name.clone())
        });
        let fits = |bytes: &[u8], index: u32| {
            FontRef::from_index(bytes, index).is_ok_and(|font| may_embed(&font) && shows(&font, chars))
        };
        let info = faces.into_iter().find(|f| database.with_face_data(f.id, fits).unwrap_or(false))?;
        let (bytes, index) = database.with_face_data(info.id, |bytes, index| (bytes.to_vec(), index))?;
        let face = Face::new(Arc::new(bytes), index, info.post_script_name.clone())?;
        self.faces.push(Arc::new(face));
        Some(self.faces.len() - 1)
    }
}

/// The maker of the font allows it to be put into a document (OpenType, table OS/2, fsType).
fn may_embed(font: &FontRef<'_>) -> bool {
    const RESTRICTED: u16 = 0x000F;
    const RESTRICTED_ONLY: u16 = 0x0002;
    font.os2().map_or(true, |os2| os2.fs_type() & RESTRICTED != RESTRICTED_ONLY)
}

/// Has no shape of its own: joiners and selectors.
pub(super) fn is_ignorable(c: char) -> bool {
    matches!(c, '\u{AD}' | '\u{200B}'..='\u{200D}' | '\u{2060}' | '\u{FEFF}' | '\u{FE00}'..='\u{FE0F}' | '\u{E0000}'..='\u{E0FFF}')
}

fn shipped() -> Vec<Arc<Face>> {
    let face = |bytes: &'static [u8], name: &str| Face::new(Arc::new(bytes), 0, name.to_owned()).map(Arc::new);
    // Hack has roots, arrows and the like, which Noto Sans has not.
    let signs = epaint_default_fonts::HACK_REGULAR;
    [face(REGULAR, "Noto Sans"), face(BOLD, "Noto Sans Bold"), face(signs, "Hack")].into_iter().flatten().collect()
}
