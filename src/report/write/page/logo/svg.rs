//! An SVG logo: checked element by element before it is drawn, drawn within a time.
//!
//! A few hundred bytes of SVG can ask for more work than a machine does in a day. So elements that multiply work or
//! reach outside the file are refused by name, everything else is counted first, and what still takes too long is given up.

use std::collections::HashMap;
use std::sync::mpsc;
use std::time::Duration;

use resvg::{tiny_skia, usvg};
use usvg::roxmltree::{Document, Node, NodeId, ParsingOptions};

use super::{LogoError, broken};
use crate::base::bounds::{self, Bound};
use crate::base::language::{speak, spoken};

/// Longer side of the pixels that an SVG is drawn with: 45 mm at 600 dots per inch.
const SVG_PX: f32 = 1063.0;
/// Effects that multiply work without an end that can be counted, programs, and pictures inside the picture.
const REFUSED: [&str; 6] = ["filter", "script", "foreignObject", "image", "pattern", "marker"];

/// Draws an SVG, on a thread of its own; one that takes longer than its bound is given up.
pub(super) fn draw(text: &str) -> Result<tiny_skia::Pixmap, LogoError> {
    if !text.contains("<svg") {
        return Err(LogoError::Neither);
    }
    let (done, drawn) = mpsc::channel();
    let (text, voice) = (text.to_owned(), spoken());
    let work = move || {
        let _voice = speak(voice);
        // Nobody waits any more when it took too long.
        let _ = done.send(pixels(&text));
    };
    std::thread::Builder::new().name("logo".into()).spawn(work).map_err(broken)?;
    match drawn.recv_timeout(Duration::from_secs_f64(bounds::LOGO_TIME.most)) {
        Ok(result) => result,
        Err(mpsc::RecvTimeoutError::Timeout) => Err(LogoError::Slow),
        Err(error) => Err(broken(error)),
    }
}

fn pixels(text: &str) -> Result<tiny_skia::Pixmap, LogoError> {
    if entities_explode(text) {
        return Err(LogoError::Element { element: "!ENTITY".to_owned(), why: super::Why::Work });
    }
    let limits = ParsingOptions {
        allow_dtd: true,
        nodes_limit: 10 * bounds::LOGO_ELEMENTS.most as u32,
        ..ParsingOptions::default()
    };
    let document = Document::parse_with_options(text, limits).map_err(broken)?;
    look_at(&document)?;
    let mut options = usvg::Options::default();
    if document.descendants().any(|n| n.has_tag_name("text") || n.tag_name().name() == "text") {
        options.fontdb_mut().load_font_data(super::super::REGULAR.to_vec());
        options.fontdb_mut().load_font_data(super::super::BOLD.to_vec());
        options.fontdb_mut().load_system_fonts();
        "Noto Sans".clone_into(&mut options.font_family);
    }
    let tree = usvg::Tree::from_xmltree(&document, &options).map_err(broken)?;
    let mut work = Work::default();
    work.add(tree.root());
    within(work.segments, &bounds::LOGO_SEGMENTS)?;
    within(work.layers, &bounds::LOGO_LAYERS)?;
    let size = tree.size();
    let scale = SVG_PX / size.width().max(size.height());
    let side = |length: f32| (scale * length).round().max(1.0) as u32;
    let (width, height) = (side(size.width()), side(size.height()));
    let mut pixels = tiny_skia::Pixmap::new(width, height).ok_or(LogoError::TooManyPixels { width, height })?;
    resvg::render(&tree, tiny_skia::Transform::from_scale(scale, scale), &mut pixels.as_mut());
    Ok(pixels)
}

/// Entities that name others, or together come to more text than a logo has bytes.
fn entities_explode(text: &str) -> bool {
    let Some((_, declared)) = text.split_once("<!ENTITY") else { return false };
    let declared = declared.split_once("]>").map_or(declared, |(inside, _)| inside);
    let named = text.matches('&').count();
    declared.contains('&') || declared.len().saturating_mul(named) > bounds::LOGO_FILE.count()
}

/// Refuses by name, and counts, before anything is worked out.
fn look_at(document: &Document<'_>) -> Result<(), LogoError> {
    let refused = |element: &str, why| LogoError::Element { element: element.to_owned(), why };
    let mut written = 0;
    for node in document.descendants().filter(Node::is_element) {
        let name = node.tag_name().name();
        if REFUSED.contains(&name) {
            return Err(refused(name, super::Why::Work));
        }
        if reaches_out(&node) {
            return Err(refused(name, super::Why::Outside));
        }
        if ["text", "tspan", "textPath", "style"].contains(&name) {
            written += node.children().filter_map(|child| child.text()).map(str::len).sum::<usize>();
        }
    }
    within(written, &bounds::LOGO_TEXT)?;
    let ids = document.descendants().filter_map(|n| Some((n.attribute("id")?, n.id()))).collect();
    let (count, _) = Expanded { document, ids, known: HashMap::new() }.of(document.root_element(), 0)?;
    within(count, &bounds::LOGO_ELEMENTS)
}

/// It draws something of another file; a link to click on does not.
fn reaches_out(node: &Node<'_, '_>) -> bool {
    node.tag_name().name() != "a" && href(node).is_some_and(|to| !to.trim_start().starts_with('#'))
}

fn href<'a>(node: &Node<'a, '_>) -> Option<&'a str> {
    node.attributes().find(|a| a.name() == "href").map(|a| a.value())
}

/// Counts elements with those that `use` puts in their place.
struct Expanded<'d, 'i> {
    document: &'d Document<'i>,
    ids: HashMap<&'d str, NodeId>,
    known: HashMap<NodeId, (usize, usize)>,
}

impl Expanded<'_, '_> {
    /// How many elements a node comes to, itself included, and how deep.
    fn of(&mut self, node: Node<'_, '_>, level: usize) -> Result<(usize, usize), LogoError> {
        within(level, &bounds::LOGO_NESTED)?;
        if let Some(&(count, deep)) = self.known.get(&node.id()) {
            within(level + deep, &bounds::LOGO_NESTED)?;
            return Ok((count, deep));
        }
        let used = href(&node).filter(|_| node.tag_name().name() == "use").and_then(|to| to.trim().strip_prefix('#'));
        let used = used.and_then(|id| self.ids.get(id)).and_then(|id| self.document.get_node(*id)).map(|n| n.id());
        let children: Vec<NodeId> = node.children().filter(Node::is_element).map(|n| n.id()).chain(used).collect();
        let (mut count, mut deep) = (1_usize, 0);
        for id in children {
            let Some(child) = self.document.get_node(id) else { continue };
            // A node that uses itself ends at the bound of levels.
            let (more, levels) = self.of(child, level + 1)?;
            count = count.saturating_add(more);
            deep = deep.max(levels + 1);
        }
        self.known.insert(node.id(), (count, deep));
        Ok((count, deep))
    }
}

fn within(count: usize, bound: &'static Bound) -> Result<(), LogoError> {
    if count > bound.count() { Err(LogoError::TooMuch { bound }) } else { Ok(()) }
}

/// What there is to draw.
#[derive(Default)]
struct Work {
    segments: usize,
    layers: usize,
}

impl Work {
    fn add(&mut self, group: &usvg::Group) {
        let clips = std::iter::successors(group.clip_path(), |c| c.clip_path());
        let masks = std::iter::successors(group.mask(), |m| m.mask());
        for inside in clips.map(|c| c.root()).chain(masks.map(|m| m.root())) {
            self.layers += 1;
            self.add(inside);
        }
        self.layers += usize::from(group.should_isolate());
        for node in group.children() {
            match node {
                usvg::Node::Group(inside) => self.add(inside),
                usvg::Node::Path(path) => self.segments += segments(path),
                usvg::Node::Text(text) => self.add(text.flattened()),
                usvg::Node::Image(_) => {}
            }
        }
    }
}

/// Segments of a path, and its dashes.
fn segments(path: &usvg::Path) -> usize {
    let dashes = path.stroke().and_then(|s| s.dasharray()).map_or(0.0, |lengths| {
        let points = path.data().points();
        let way: f32 = points.windows(2).map(|p| p[0].distance(p[1])).sum();
        way / lengths.iter().sum::<f32>() * lengths.len() as f32
    });
    path.data().len() + if dashes.is_nan() { usize::MAX / 2 } else { dashes as usize / 2 }
}
