//! Which module may use which: the arrows of the map in `src/lib.rs`, read from the sources.
//!
//! `base`, `trade` and `shop` are rooms of several modules: there each module stands for itself.
//! Counted is every path that starts at the crate's root (`crate::units`, `use crate::{job, units}`, and `super::` where
//! it reaches the root). Comments, strings and test modules do not count: they do not ship.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Every top module and what it may use. A module that is not here fails the test: decide, then add it.
const MAY_USE: &[(&str, &[&str])] = &[
    ("bounds", &[]),
    ("language", &[]),
    ("math", &[]),
    ("progress", &[]),
    ("units", &["language", "bounds"]),
    ("message", &["language", "bounds", "units"]),
    ("table", &["language", "message", "bounds"]),
    ("sources", &["language"]),
    ("weights", TRADE_USES),
    ("spring", TRADE_USES),
    ("wheel", &["language", "units", "math", "sources", "spring"]),
    ("corners", &["language", "units", "math", "sources", "wheel"]),
    ("ride", TRADE_USES),
    ("damper", TRADE_USES),
    ("tyre", TRADE_USES),
    ("roll", TRADE_USES),
    ("pitch", TRADE_USES),
    ("bench", &["units", "math", "road"]),
    ("recording", &["language", "units", "math", "road"]),
    ("recordings", &["language", "message", "units", "bounds", "progress", "table", "recording", "job"]),
    ("road", &["language", "units", "math", "sources", "wheel", "damper", "bounds"]),
    ("linkage", &["language", "message", "units", "math", "sources", "wheel"]),
    ("ledger", &["language", "units", "math", "sources", "weights", "roll"]),
    ("jobs_folder", &["language", "job", "units", "bounds"]),
    ("job", &["language", "message", "units", "weights", "spring", "road", "linkage", "sources", "bounds"]),
    ("presets", &["language", "job", "units"]),
    (
        "solve",
        &[
            "language",
            "message",
            "job",
            "units",
            "math",
            "sources",
            "weights",
            "spring",
            "wheel",
            "corners",
            "linkage",
            "ride",
            "damper",
            "ledger",
            "roll",
            "pitch",
            "road",
            "bench",
            "recording",
            "tyre",
            "bounds",
        ],
    ),
    ("parts", &["language", "message", "units", "spring", "math", "damper", "bounds", "table"]),
    ("letterhead", &["job", "bounds", "lists"]),
    ("remembered", &["job", "bounds", "lists", "recordings"]),
    ("used_lists", &["job", "lists"]),
    ("lists", &["language", "parts", "job", "units", "bounds"]),
    (
        "choose",
        &[
            "language", "progress", "solve", "parts", "job", "units", "math", "sources", "spring", "wheel", "ride",
            "damper",
        ],
    ),
    (
        "report",
        &[
            "language",
            "message",
            "choose",
            "parts",
            "recordings",
            "solve",
            "job",
            "units",
            "sources",
            "spring",
            "wheel",
            "linkage",
            "damper",
            "bounds",
        ],
    ),
    ("cli", PROGRAM_USES),
    ("gui", PROGRAM_USES),
];
const TRADE_USES: &[&str] = &["language", "message", "units", "math", "sources"];
/// What the headless program and the window both rest on.
const PROGRAM_USES: &[&str] = &[
    "language",
    "message",
    "progress",
    "report",
    "choose",
    "lists",
    "letterhead",
    "remembered",
    "used_lists",
    "parts",
    "recordings",
    "solve",
    "job",
    "jobs_folder",
    "presets",
    "units",
    "sources",
    "bounds",
];
/// The rooms, each using only those before it.
const ROOM_ORDER: [&str; 9] = ["base", "trade", "job", "solve", "shop", "choose", "report", "cli", "gui"];
/// Rooms whose modules have arrows of their own.
const SHARED_ROOMS: [&str; 3] = ["base", "trade", "shop"];
/// Roots of programs: they may use anything.
const PROGRAMS: [&str; 3] = ["lib", "main", "bin"];

/// Every source file below a folder.
pub fn source_files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("src can be read") {
        let path = entry.expect("an entry of src").path();
        if path.is_dir() {
            found.extend(source_files(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// The top module a file belongs to, and how deep its module lies (1 for the top module itself).
fn place(relative: &Path) -> (String, usize) {
    let mut parts: Vec<String> =
        relative.with_extension("").iter().map(|p| p.to_str().expect("a plain file name").to_owned()).collect();
    if parts.len() > 1 && parts.last().is_some_and(|p| p == "mod") {
        parts.pop();
    }
    if parts.len() > 1 && SHARED_ROOMS.contains(&parts[0].as_str()) {
        parts.remove(0);
    }
    (parts[0].clone(), parts.len())
}

/// The text without comments, strings and the test module at its end.
pub fn shipped(text: &str) -> String {
    let text = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
    let mut out = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    let mut previous = ' ';
    while let Some(c) = rest.next() {
        match c {
            '/' if rest.peek() == Some(&'/') => {
                while rest.peek().is_some_and(|c| *c != '\n') {
                    rest.next();
                }
            }
            '"' if previous != '\'' && previous != '\\' => {
                out.push('"');
                while let Some(c) = rest.next() {
                    match c {
                        '\\' => drop(rest.next()),
                        '"' => break,
                        _ => {}
                    }
                }
                out.push('"');
            }
            _ => out.push(c),
        }
        previous = c;
    }
    out
}

fn word(text: &str) -> &str {
    let end = text.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(text.len());
    &text[..end]
}

/// The first words of the paths behind `root`: one, or all of a list in braces.
fn heads(text: &str) -> Vec<String> {
    let Some(list) = text.trim_start().strip_prefix('{') else { return vec![word(text.trim_start()).to_owned()] };
    let (mut depth, mut start, mut found) = (1, 0, Vec::new());
    for (i, c) in list.char_indices() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        if depth == 0 || (depth == 1 && c == ',') {
            found.push(word(list[start..i].trim()).to_owned());
            start = i + 1;
        }
        if depth == 0 {
            break;
        }
    }
    found.retain(|w| !w.is_empty());
    found
}

/// Top modules named in a text whose module lies `depth` deep.
fn named(text: &str, depth: usize) -> BTreeSet<String> {
    let supers = "super::".repeat(depth);
    let mut found = BTreeSet::new();
    for root in ["crate::", supers.as_str()] {
        for (at, _) in text.match_indices(root) {
            // "super::super::x" in a module one deep is a path out of a module inside the file, not of the root.
            let longer = text[..at].ends_with("super::") || text[at + root.len()..].starts_with("super::");
            let inside_a_word = text[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
            if !longer && !inside_a_word {
                found.extend(heads(&text[at + root.len()..]));
            }
        }
    }
    found
}

/// Top module → the top modules it uses, each with one file that does.
fn arrows() -> BTreeMap<String, BTreeMap<String, PathBuf>> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut arrows: BTreeMap<String, BTreeMap<String, PathBuf>> = BTreeMap::new();
    for path in source_files(&src) {
        let relative = path.strip_prefix(&src).expect("a file below src").to_owned();
        let (module, depth) = place(&relative);
        if PROGRAMS.contains(&module.as_str()) {
            continue;
        }
        if SHARED_ROOMS.contains(&module.as_str()) {
            continue; // the list of a room's modules
        }
        let mut text = std::fs::read_to_string(&path).expect("a source file can be read");
        for room in SHARED_ROOMS {
            text = text.replace(&format!("crate::{room}::"), "crate::");
        }
        let uses = arrows.entry(module.clone()).or_default();
        for used in named(&shipped(&text), depth) {
            if used != module && MAY_USE.iter().any(|(m, _)| *m == used) {
                uses.entry(used).or_insert_with(|| relative.clone());
            }
        }
    }
    arrows
}

#[test]
fn every_arrow_is_allowed() {
    let mut wrong = Vec::new();
    for (module, uses) in arrows() {
        let Some((_, allowed)) = MAY_USE.iter().find(|(m, _)| *m == module) else {
            wrong.push(format!("module {module} is not in this test's table"));
            continue;
        };
        for (used, file) in uses {
            if !allowed.contains(&used.as_str()) {
                wrong.push(format!("{module} uses {used} (src/{})", file.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "arrows that are not allowed:\n{}", wrong.join("\n"));
}

/// In which room a module lies.
fn room(module: &str) -> String {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let inside = |room: &&&str| {
        src.join(room).join(module).is_dir() || src.join(room).join(module).with_extension("rs").is_file()
    };
    SHARED_ROOMS.iter().find(inside).copied().unwrap_or(module).to_owned()
}

#[test]
fn no_room_uses_a_later_one() {
    let place = |module: &str| {
        let room = room(module);
        ROOM_ORDER.iter().position(|r| *r == room).unwrap_or_else(|| panic!("{module} lies in no room"))
    };
    for (module, uses) in arrows() {
        for (used, file) in uses {
            assert!(place(&used) <= place(&module), "{module} uses {used} of a later room (src/{})", file.display());
        }
    }
}

/// The reader of the sources sees arrows at all: these are sure to be there.
#[test]
fn the_known_arrows_are_seen() {
    let arrows = arrows();
    for (module, used) in [("solve", "wheel"), ("wheel", "spring"), ("job", "weights"), ("wheel", "math")] {
        assert!(arrows.get(module).is_some_and(|u| u.contains_key(used)), "{module} uses {used}, but it was not seen");
    }
}

#[test]
fn no_circles() {
    let arrows = arrows();
    let mut done: BTreeSet<&str> = BTreeSet::new();
    while done.len() < arrows.len() {
        let next = arrows
            .iter()
            .find(|(m, uses)| !done.contains(m.as_str()) && uses.keys().all(|u| done.contains(u.as_str())));
        let Some((module, _)) = next else {
            let left: Vec<&String> = arrows.keys().filter(|m| !done.contains(m.as_str())).collect();
            panic!("these use each other in a circle: {left:?}");
        };
        done.insert(module);
    }
}

#[test]
fn the_reader_of_sources_finds_what_it_should() {
    let text = "use crate::units::{self, Mass};\nuse crate::{job::{Job, Side}, solve};\n// use crate::gui\nlet s = \"crate::cli\";\nlet x = crate::ride::frequency(k, m);\n#[cfg(test)]\nmod tests { use crate::report; }";
    let found = named(&shipped(text), 1);
    assert_eq!(found.iter().map(String::as_str).collect::<Vec<_>>(), ["job", "ride", "solve", "units"]);
    assert_eq!(named("use super::super::gui::x;", 2).iter().next().map(String::as_str), Some("gui"));
    assert_eq!(named("use super::read::x;", 2).len(), 0);
    assert_eq!(place(Path::new("solve/axle.rs")), ("solve".to_owned(), 2));
    assert_eq!(place(Path::new("solve/mod.rs")), ("solve".to_owned(), 1));
    assert_eq!(place(Path::new("trade/ride.rs")), ("ride".to_owned(), 1));
    assert_eq!(place(Path::new("base/units/mod.rs")), ("units".to_owned(), 1));
}

/// The rooms of the window, from the ground up: each may use those above it in this list.
const ROOMS: [&str; 7] = ["background", "state", "widgets", "drawings", "help", "screens", "app"];

#[test]
fn the_rooms_of_the_window_stand_on_each_other() {
    let gui = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/gui");
    let mut wrong = Vec::new();
    let mut seen = BTreeSet::new();
    for path in source_files(&gui) {
        let relative = path.strip_prefix(&gui).expect("a file below src/gui").to_owned();
        let (room, depth) = place(&relative);
        let Some(floor) = ROOMS.iter().position(|r| *r == room) else { continue };
        let text = shipped(&std::fs::read_to_string(&path).expect("a source file can be read"));
        // Of src/gui itself only what it exports may be named; a room is named from the crate's root, or by going up.
        let up = "super::".repeat(depth);
        for root in ["crate::gui::", up.as_str()] {
            for (at, _) in text.match_indices(root) {
                if text[..at].ends_with("super::") || text[at + root.len()..].starts_with("super::") {
                    continue;
                }
                for used in heads(&text[at + root.len()..]) {
                    let Some(other) = ROOMS.iter().position(|r| *r == used) else { continue };
                    seen.insert((room.clone(), used.clone()));
                    if other > floor {
                        wrong.push(format!("{room} uses {used} (src/gui/{})", relative.display()));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "rooms that use one that stands on them:\n{}", wrong.join("\n"));
    for (room, used) in [("app", "screens"), ("screens", "widgets"), ("widgets", "state"), ("state", "background")] {
        assert!(seen.contains(&(room.to_owned(), used.to_owned())), "{room} uses {used}, but it was not seen");
    }
}

/// A formula names its source: doc comments of public functions of the trade that hold an equals sign or a root.
#[test]
fn formulas_name_their_sources() {
    let trade = ["spring", "wheel", "ride", "damper", "tyre", "roll", "pitch", "road", "ledger", "weights"];
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut missing = Vec::new();
    let mut seen = 0;
    for path in source_files(&src) {
        let (top, _) = place(path.strip_prefix(&src).expect("below src"));
        if !trade.contains(&top.as_str()) {
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("source can be read");
        let mut doc = String::new();
        let mut example = false;
        for line in text.split("#[cfg(test)]\nmod ").next().unwrap_or_default().lines().map(str::trim) {
            match line.strip_prefix("///") {
                Some(said) if said.trim().starts_with("```") => example = !example,
                Some(_) if example => {}
                Some(said) => doc += said,
                None if line.starts_with("#[") => {}
                None => {
                    let formula = doc.contains(" = ") || doc.contains('√');
                    if line.starts_with("pub fn ") && formula {
                        seen += 1;
                        let key =
                            springwright::base::sources::SOURCES.iter().any(|s| doc.contains(&format!("`{}`", s.key)));
                        if !key {
                            missing.push(format!("{}: {line}", path.display()));
                        }
                    }
                    doc.clear();
                }
            }
        }
    }
    assert!(seen > 40, "{seen} formulas");
    assert!(missing.is_empty(), "no source key:\n{}", missing.join("\n"));
}

/// The rooms of the solver, and which of them each may use.
const IN_SOLVE: [(&str, &[&str]); 16] = [
    ("answer", &[]),
    ("read", &["answer"]),
    ("compare", &["answer"]),
    ("evaluate", &["answer", "read"]),
    ("decide", &["answer", "compare", "evaluate", "read"]),
    ("spreads", &["answer", "compare", "evaluate", "read"]),
    ("missing", &["answer", "evaluate", "read"]),
    ("reweigh", &["answer", "read"]),
    ("findings", &["answer", "compare", "evaluate", "read"]),
    ("drawn", &["answer", "decide", "evaluate", "read"]),
    ("ground", &["answer", "decide", "evaluate", "read"]),
    ("other_springs", &["answer", "evaluate", "read"]),
    ("road", &["answer", "evaluate", "read"]),
    ("bench", &["answer", "evaluate", "read", "road"]),
    ("recorded", &["answer"]),
    ("planned", &["answer", "solve", "without_leads"]),
];

/// Read, decide, evaluate: what comes later is not known to what comes before.
#[test]
fn the_solver_goes_one_way() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/solve");
    let (mut wrong, mut seen) = (Vec::new(), 0);
    for path in source_files(&folder) {
        let relative = path.strip_prefix(&folder).expect("a file below it").to_owned();
        let (room, _) = place(&relative);
        let text = shipped(&std::fs::read_to_string(&path).expect("a source file can be read"));
        let allowed = IN_SOLVE.iter().find(|(name, _)| *name == room).map(|(_, allowed)| *allowed);
        let Some(allowed) = allowed else {
            if room != "mod" {
                wrong.push(format!("src/solve/{} is no room of this test's table", relative.display()));
            }
            continue;
        };
        for (at, root) in text.match_indices("crate::solve::") {
            for used in heads(&text[at + root.len()..]).into_iter().filter(|used| *used != room) {
                seen += 1;
                if !allowed.contains(&used.as_str()) {
                    wrong.push(format!("{room} uses {used} (src/solve/{})", relative.display()));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "arrows that are not allowed:\n{}", wrong.join("\n"));
    assert!(seen > 50, "arrows are seen at all: {seen}");
}

/// Where front and rear go into an array of the trade, which knows no job and no names of its axles.
const IN_ARRAYS: [&str; 2] = ["src/solve/evaluate/on_corners/mod.rs", "src/solve/evaluate/wanted_bars.rs"];

/// Front and rear are asked for by name: nothing is looked up by the number of a side.
#[test]
fn axles_have_names() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut numbered: BTreeSet<String> = BTreeSet::new();
    for path in source_files(&root.join("src")) {
        let code = shipped(&std::fs::read_to_string(&path).expect("a source file can be read"));
        let by_number =
            ["(side as usize,", "[side as usize]", ".side as usize]", "side() as usize]", "usize::from(side"];
        if by_number.iter().any(|number| code.contains(number)) {
            numbered.insert(path.strip_prefix(root).expect("below the root").display().to_string().replace('\\', "/"));
        }
    }
    assert_eq!(numbered, IN_ARRAYS.map(str::to_owned).into());
}

/// What says a text at once, in the voice of the moment.
const SAYS: [&str; 6] = ["tr(", "say!(", ".said()", "spoken()", "mark(", "display::"];

/// Where something below the screens and sheets says a text all the same, and why.
const MAY_SAY: [(&str, &str); 9] = [
    ("src/choose/take.rs", "numbers are written with the job's own mark"),
    ("src/job/store/", "what the disk did is shown at once, and kept by nobody"),
    ("src/job/mend.rs", "numbers are written with the job's own mark"),
    ("src/job/retype.rs", "numbers are written with the job's own mark"),
    ("src/job/typical.rs", "what is typed for the user: words in the language spoken, numbers with the job's own mark"),
    ("src/shop/jobs_folder.rs", "what the disk did is shown at once, and kept by nobody"),
    ("src/shop/presets.rs", "a shipped job is opened with the mark of the language spoken"),
    ("src/shop/recordings/samples.rs", "a column without a name gets one, by which it is chosen and remembered"),
    ("src/solve/planned/added.rs", "the thickness is written with the job's own mark"),
];

/// Everything below the report gives messages as data: no voice reaches what is found.
#[test]
fn nothing_below_the_report_says_a_text() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let (mut wrong, mut needed) = (Vec::new(), BTreeSet::new());
    for room in ["base/table", "trade", "job", "shop", "solve", "choose"] {
        for path in source_files(&root.join("src").join(room)) {
            let place = path.strip_prefix(root).expect("below the root").display().to_string();
            let code = without_errors(&shipped(&std::fs::read_to_string(&path).expect("a source file can be read")));
            let says = |call: &&&'static str| {
                let begins = |at: usize| !code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
                code.match_indices(**call).any(|(at, _)| call.starts_with('.') || begins(at))
            };
            for call in SAYS.iter().filter(says) {
                match MAY_SAY.iter().find(|(place_of, _)| place.starts_with(place_of)) {
                    Some((place_of, _)) => drop(needed.insert(*place_of)),
                    None => wrong.push(format!("{place}: {call}")),
                }
            }
        }
    }
    assert!(wrong.is_empty(), "texts that are said where they should be data:\n{}", wrong.join("\n"));
    let idle: Vec<&str> = MAY_SAY.iter().map(|(place, _)| *place).filter(|place| !needed.contains(place)).collect();
    assert!(idle.is_empty(), "exceptions that are none: {idle:?}");
}

/// Without the texts of errors: a `Display` says them, when they are shown.
fn without_errors(code: &str) -> String {
    let mut out = String::with_capacity(code.len());
    let mut rest = code;
    while let Some(at) = ["#[error(", "impl fmt::Display for "].iter().filter_map(|start| rest.find(start)).min() {
        out.push_str(&rest[..at]);
        let behind = &rest[at..];
        let end = if behind.starts_with('#') { behind.find(")]\n") } else { behind.find("\n}\n") };
        rest = &behind[end.unwrap_or(behind.len() - 1) + 1..];
    }
    out + rest
}
