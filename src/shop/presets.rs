//! The jobs that ship with the program. All vehicles, parts and people are invented.

use std::path::Path;

use crate::base::language::Language;
use crate::job::{Job, Walk as _, file};

/// A shipped job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Preset {
    /// Its name on the command line.
    pub name: &'static str,
    /// Its title in English; it is translated where it is shown.
    pub title: &'static str,
    /// The job file.
    pub text: &'static str,
}

macro_rules! presets {
    ($($name:literal: $title:literal,)*) => {
        /// All shipped jobs; the first is the demo.
        pub static PRESETS: &[Preset] = &[$(Preset {
            name: $name,
            title: $title,
            text: include_str!(concat!("../../presets/", $name, ".ron")),
        },)*];
    };
}

presets! {
    "demo-orchard-van": "Demo: workshop van, heavier engine in front",
    "us-units-wagon": "Wagon in pounds and inches, heavier engine",
    "lighter-engine": "Lighter engine: softer springs",
    "battery-to-the-back": "Battery moved to the rear",
    "beam-axle-front": "Beam axles front and rear",
    "open-two-seater": "Open two-seater, sporting use",
    "first-answer": "Minimum data for a first answer",
    "axle-weights-only": "Axle weights from a weighbridge, no corner weights",
    "torsion-bar-front": "Front torsion bars, rear coil springs",
    "strut-front": "Front struts, progressive bump stop",
    "leaf-rear": "Rear leaf springs, load-tested",
    "air-helper-bag": "Helper air bags with new rear springs",
    "helper-coil-over": "Coil-overs with helper springs, sporting use",
    "progressive-rear": "Dual-rate rear springs, from press readings",
    "ledger-first": "Weights predicted from the parts ledger",
    "tow-load": "Load cases and a trailer: people, tools, hitch",
    "overloaded-camper": "Load rating exceeded: STOP",
    "points-two-arms": "Double wishbones measured by tape, springs fitted",
    "points-strut": "Struts measured by tape, in inches",
    "points-trailing": "Semi-trailing arms measured by tape",
    "arm-off": "Arm measured to the wrong edge: motion ratio 6 % off",
    "unknown-spring": "Unknown springs: six ways of finding the rate",
}

/// The preset with this name.
pub fn find(name: &str) -> Option<&'static Preset> {
    PRESETS.iter().find(|p| p.name == name)
}

/// The preset that a user names where a job file is wanted; a file of that name comes first, a folder does not.
pub fn named(name: &Path) -> Option<&'static Preset> {
    name.to_str().and_then(find).filter(|_| !name.exists() || name.is_dir())
}

/// The demo job: what the window opens with the first time.
pub fn demo() -> Job {
    PRESETS[0].job()
}

impl Preset {
    /// The job itself. A shipped file that does not read is an empty job; a test reads every one.
    pub fn job(&self) -> Job {
        file::parse(self.text).unwrap_or_default()
    }

    /// The job for one who speaks this language: its sheets are in it, its numbers are written with its decimal mark.
    /// They were not typed, so they may be written again.
    pub fn job_in(&self, language: Language) -> Job {
        let mut job = self.job();
        let mark = language.mark();
        job.shop.speak(language);
        let (from, units) = (job.decimal, job.units);
        let anew = |text: &str| text.replace(from.sign(), &mark.sign().to_string());
        job.walk_mut(&mut String::new(), &mut |_, entry| {
            entry.type_text(&anew(entry.text()), units.unit(entry.dim()), mark);
            let (pm, spread) = entry.pm();
            entry.set_pm(&anew(pm), spread);
        });
        job.decimal = mark;
        job
    }
}
