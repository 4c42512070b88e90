//! Inside a folder no circles: its files and folders use each other one way, whether named directly or by what a `mod.rs`
//! hands on. The folder's own `mod.rs` is its front and counts as none of them: it names the others, and holds what they
//! have in common.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use crate::architecture::{shipped, source_files};

type Module = Vec<String>;

/// All modules of a program, each with its text.
struct Program {
    texts: BTreeMap<Module, String>,
    /// What a module hands on: a name, and the path behind it.
    handed_on: BTreeMap<(Module, String), Module>,
}

/// Words, and each sign by itself but `::`.
fn tokens(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let is_word = |c: char| c.is_alphanumeric() || c == '_';
        let end = match first {
            c if is_word(c) => rest.find(|c| !is_word(c)).unwrap_or(rest.len()),
            ':' if rest.starts_with("::") => 2,
            c => c.len_utf8(),
        };
        if !first.is_whitespace() {
            found.push(&rest[..end]);
        }
        rest = &rest[end..];
    }
    found
}

/// The paths of a tree that begins at a token, `a::{b, c::d}` as `a::b` and `a::c::d`, and the token behind it.
fn tree(tokens: &[&str], mut at: usize, before: &[String]) -> (Vec<Module>, usize) {
    let mut path = before.to_vec();
    while let Some(token) = tokens.get(at).filter(|t| t.starts_with(|c: char| c.is_alphabetic() || c == '_')) {
        path.push((*token).to_owned());
        at += 1;
        match (tokens.get(at), tokens.get(at + 1)) {
            (Some(&"::"), Some(&"{")) => {
                let mut found = Vec::new();
                at += 2;
                while tokens.get(at).is_some_and(|t| *t != "}") {
                    let (inner, behind) = tree(tokens, at, &path);
                    found.extend(inner);
                    at = behind.max(at + 1);
                }
                return (found, at + 1);
            }
            (Some(&"::"), _) => at += 1,
            _ => break,
        }
    }
    (if path.len() > before.len() { vec![path] } else { Vec::new() }, at)
}

impl Program {
    fn of(texts: BTreeMap<Module, String>) -> Self {
        let mut program = Program { texts, handed_on: BTreeMap::new() };
        for (module, text) in &program.texts {
            let tokens = tokens(text);
            for at in (0..tokens.len()).filter(|at| tokens[*at] == "use") {
                // `pub use`, `pub(super) use`.
                let is_public = at > 0 && (tokens[at - 1] == "pub" || tokens[at - 1] == ")");
                for path in tree(&tokens, at + 1, &[]).0.into_iter().filter(|_| is_public) {
                    let (Some(name), Some(whole)) = (path.last().cloned(), program.whole(module, &path)) else {
                        continue;
                    };
                    program.handed_on.insert((module.clone(), name), whole);
                }
            }
        }
        program
    }

    /// A path as written in a module, from the root; `None` for what is not of this program.
    fn whole(&self, module: &Module, path: &[String]) -> Option<Module> {
        let ups = path.iter().take_while(|word| *word == "super").count();
        let base = match path.first()?.as_str() {
            "crate" => (Vec::new(), 1),
            "self" => (module.clone(), 1),
            "super" => (module[..module.len().checked_sub(ups)?].to_vec(), ups),
            child => ([&module[..], &[child.to_owned()]].concat(), 1),
        };
        let is_own = ups > 0 || ["crate", "self"].contains(&path[0].as_str()) || self.texts.contains_key(&base.0);
        is_own.then(|| [base.0, path[base.1..].to_vec()].concat())
    }

    /// The module in which what a path names is written.
    fn home(&self, path: &[String], steps: usize) -> Module {
        let mut home = Module::new();
        for (i, word) in path.iter().enumerate() {
            let deeper = [&home[..], std::slice::from_ref(word)].concat();
            if self.texts.contains_key(&deeper) {
                home = deeper;
                continue;
            }
            return match self.handed_on.get(&(home.clone(), word.clone())).filter(|_| steps > 0) {
                Some(whole) => self.home(&[&whole[..], &path[i + 1..]].concat(), steps - 1),
                None => home,
            };
        }
        home
    }

    /// From module to module, what uses what.
    fn arrows(&self) -> BTreeSet<(Module, Module)> {
        const STEPS: usize = 8;
        let mut found = BTreeSet::new();
        for (module, text) in &self.texts {
            let tokens = tokens(text);
            let mut at = 0;
            while at < tokens.len() {
                let (paths, behind) = tree(&tokens, at, &[]);
                at = behind.max(at + 1);
                let homes = paths.iter().filter_map(|path| Some(self.home(&self.whole(module, path)?, STEPS)));
                found.extend(homes.filter(|home| home != module).map(|home| (module.clone(), home)));
            }
        }
        found
    }

    /// What uses itself by way of others: each folder with those of its files and folders that do.
    fn circles(&self) -> BTreeMap<Module, BTreeSet<String>> {
        let mut inside: BTreeMap<Module, BTreeMap<String, BTreeSet<String>>> = BTreeMap::new();
        for (from, to) in self.arrows() {
            let shared = from.iter().zip(&to).take_while(|(a, b)| a == b).count();
            let (Some(from_entry), Some(to_entry)) = (from.get(shared), to.get(shared)) else { continue };
            let folder = inside.entry(from[..shared].to_vec()).or_default();
            folder.entry(from_entry.clone()).or_default().insert(to_entry.clone());
        }
        let mut found = BTreeMap::new();
        for (folder, arrows) in inside {
            let reached = |start: &String| {
                let mut seen: BTreeSet<&String> = BTreeSet::new();
                let mut open: Vec<&String> = arrows.get(start).into_iter().flatten().collect();
                while let Some(next) = open.pop() {
                    if seen.insert(next) {
                        open.extend(arrows.get(next).into_iter().flatten());
                    }
                }
                seen.contains(start)
            };
            let round: BTreeSet<String> = arrows.keys().filter(|entry| reached(entry)).cloned().collect();
            if !round.is_empty() {
                found.insert(folder, round);
            }
        }
        found
    }
}

fn path(text: &str) -> Module {
    text.split('/').map(str::to_owned).collect()
}

fn sources() -> Program {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let texts = source_files(&src).into_iter().filter_map(|file| {
        let relative = file.strip_prefix(&src).expect("below src").with_extension("");
        let mut module = path(&relative.to_string_lossy().replace('\\', "/"));
        module.pop_if(|last| last == "mod");
        let is_program = ["lib", "main", "bin"].contains(&module[0].as_str());
        (!is_program).then(|| (module, shipped(&std::fs::read_to_string(&file).expect("a source can be read"))))
    });
    Program::of(texts.collect())
}

#[test]
fn no_circles_inside_a_folder() {
    let program = sources();
    let arrows = program.arrows();
    // Directly, by what the folder's front hands on, and by what another front hands on.
    for (from, to) in [
        ("choose/lanes", "choose/found"),
        ("solve/answer/parts", "solve/answer/facts/spring_facts"),
        ("gui/state/command", "gui/state/files"),
        ("report/pictures/shift", "report/pictures/axes/picture"),
    ] {
        assert!(arrows.contains(&(path(from), path(to))), "{from} uses {to}, but it was not seen");
    }
    assert!(arrows.len() > 2000, "arrows are seen at all: {}", arrows.len());
    let circles = program.circles();
    assert!(circles.is_empty(), "these use themselves by way of others: {circles:#?}");
}

#[test]
fn circles_are_found() {
    let program = |texts: &[(&str, &str)]| {
        Program::of(texts.iter().map(|(module, text)| (path(module), (*text).to_owned())).collect())
    };
    let found = program(&[
        ("room", "mod a; mod b; mod c; pub use b::{B, Other};"),
        ("room/a", "use super::B; fn a() {}"),
        ("room/b", "use crate::room::{a::a, c};"),
        ("room/c", "fn c() {}"),
    ]);
    assert_eq!(found.circles(), BTreeMap::from([(path("room"), BTreeSet::from(["a".to_owned(), "b".to_owned()]))]));
    let one_way = program(&[
        ("room", "mod a; mod b; pub use b::B; pub struct Front;"),
        ("room/a", "use super::{B, Front}; fn a() { super::b::b() }"),
        ("room/b", "use super::Front; use std::a;"),
    ]);
    assert_eq!(one_way.arrows().len(), 5, "{:?}", one_way.arrows());
    assert_eq!(one_way.circles(), BTreeMap::new());
}
