//! The numbers.

use super::Bound;

// Files.

/// A job file.
pub const JOB_FILE: Bound =
    Bound::up_to("job file", 2_000_000.0, "bytes", "a shipped job has 9,000, one with every list full half of it");
/// Plans of a job file.
pub const FILE_PLANS: Bound = Bound::up_to("plans of a job file", 1_000.0, "plans", "each takes 3 kB of memory");
/// A kept copy of unsaved work.
pub const KEPT_FILE: Bound = Bound::up_to(
    "kept copy of unsaved work, file",
    8_000_000.0,
    "bytes",
    "a job, and its file's content, each as large as a job file may be, quotation marks and line ends escaped",
);
/// A parts list.
pub const LIST_FILE: Bound = Bound::up_to("parts list, file", 32_000_000.0, "bytes", "200,000 rows of 160 characters");
/// A damper's test sheet.
pub const CURVE_FILE: Bound = Bound::up_to(
    "damper curve, file",
    200_000.0,
    "bytes",
    "a test sheet has a few kilobytes; pasted, it is read while you type",
);
/// A recording.
pub const RECORD_FILE: Bound =
    Bound::up_to("recording, file", 250_000_000.0, "bytes", "two hours of three axes at 500 Hz take 200 MB");
/// Settings kept next to the lists: the meaning of columns, the names on the letterhead.
pub const SETTINGS_FILE: Bound =
    Bound::up_to("columns of a list or letterhead, file", 500_000.0, "bytes", "1,000 columns with long names");
/// The shop's own texts of the sheets.
pub const SHEET_TEXTS_FILE: Bound =
    Bound::up_to("the shop's own sheet texts, file", 500_000.0, "bytes", "twenty times the shipped texts");
/// A logo.
pub const LOGO_FILE: Bound =
    Bound::up_to("logo, file", 2_000_000.0, "bytes", "4,000 × 4,000 pixels of a plain logo take less");
/// Files of one folder of jobs.
pub const FOLDER_FILES: Bound = Bound::up_to(
    "job files of a folder",
    50_000.0,
    "files",
    "ten a day for fifteen years; listed in under two seconds",
);

// Tables of text.

/// Rows of a parts list.
pub const LIST_ROWS: Bound = Bound::up_to(
    "parts list, rows",
    200_000.0,
    "rows",
    "twice a large catalogue; read, ranked and drawn within seconds",
);
/// Columns of a table.
pub const COLUMNS: Bound =
    Bound::up_to("columns of a table", 1_000.0, "columns", "a force column for each click and speed");
/// A cell of a table.
pub const CELL: Bound =
    Bound::up_to("cell of a table", 1_000.0, "characters", "the longest description fits three lines");
/// A quotation mark that is never closed: how often the text behind it is read again.
pub const OPEN_QUOTES: Bound = Bound::up_to(
    "text read again after open quotation marks",
    8.0,
    "times the file",
    "a torn row costs its own line only",
);
/// Rows of a damper's test sheet.
pub const CURVE_ROWS: Bound = Bound::up_to("damper curve, rows of a file", 2_000.0, "rows", "20 clicks at 100 speeds");

/// Rows of a recording.
pub const RECORD_ROWS: Bound = Bound::up_to("recording, rows", 3_700_000.0, "rows", "two hours at 500 Hz");

// Texts of a job.

/// A number as typed, with its unit.
pub const NUMBER_TEXT: Bound =
    Bound::up_to("number as typed", 64.0, "characters", "the longest number with unit and fraction has 30");
/// Names and other lines.
pub const NAME: Bound = Bound::up_to(
    "name or line of text",
    300.0,
    "characters",
    "an address or a list of changes over three printed lines",
);
/// Notes.
pub const NOTES: Bound = Bound::up_to("notes of a job", 20_000.0, "characters", "six printed pages");
/// Earlier readings of one field.
pub const EARLIER: Bound =
    Bound::up_to("earlier readings of a field", 16.0, "readings", "one for each origin, four times over");

// Logos.

/// A side of a PNG.
pub const LOGO_SIDE: Bound =
    Bound::between("logo, side of a PNG", 1.0, 4_000.0, "pixels", "45 mm at 2,200 dots per inch");
/// Elements of an SVG, references followed.
pub const LOGO_ELEMENTS: Bound =
    Bound::up_to("logo, elements of an SVG", 5_000.0, "elements", "a traced crest has a few hundred");
/// Elements inside elements.
pub const LOGO_NESTED: Bound =
    Bound::up_to("logo, elements inside elements of an SVG", 50.0, "nesting levels", "drawing programs nest a dozen");
/// Segments of all its paths.
pub const LOGO_SEGMENTS: Bound = Bound::up_to(
    "logo, path segments and dashes of an SVG",
    20_000.0,
    "segments",
    "a traced crest has 5,000; a tenth of a second each 2,000",
);
/// Groups that are drawn apart: opacity, clips, masks.
pub const LOGO_LAYERS: Bound = Bound::up_to(
    "logo, clipped, masked or see-through groups of an SVG",
    100.0,
    "groups",
    "each is a picture of its own in memory",
);
/// Letters and style rules.
pub const LOGO_TEXT: Bound = Bound::up_to(
    "logo, letters and style rules of an SVG",
    20_000.0,
    "characters",
    "ten times a style sheet of a drawing program",
);
/// How long an SVG may take to draw.
pub const LOGO_TIME: Bound =
    Bound::up_to("logo, time to draw an SVG", 5.0, "s", "a usual one takes a tenth of a second");

// Numbers of the command line.

/// Draws.
pub const DRAWS: Bound = Bound::between(
    "trials of a choice",
    1_000.0,
    1_000_000.0,
    "trials",
    "chances to 0.05 of a point; below 1,000 they are meaningless",
);
/// Zoom factor of the window.
pub const ZOOM: Bound = Bound::between("zoom of the window", 0.25, 5.0, "", "readable, and a field still fits");
/// A side of the window.
pub const WINDOW_SIDE: Bound =
    Bound::between("side of the window", 100.0, 16_000.0, "points", "the largest picture that graphics hardware takes");
/// Seeds.
pub const SEED: Bound = Bound::up_to("seed", 1e12, "", "exact as a number in every file");

// Runs over a road.

/// The road until it repeats.
pub const ROAD_LENGTH: Bound = Bound::up_to(
    "road until it repeats",
    1_000.0,
    "m",
    "20,000 heights; longer waves are slower than any ride frequency",
);
/// How long a run over it lasts; a road is shortened to it at low speed.
pub const RUN_TIME: Bound = Bound::up_to(
    "time on a road or an obstacle",
    120.0,
    "s",
    "30,000 samples a wheel; the mean has settled long before",
);
/// Steps of the integrator.
pub const RUN_STEPS: Bound = Bound::up_to(
    "steps of all nine runs",
    4_000_000.0,
    "steps",
    "usual runs take 300,000; more is stiffer than any vehicle",
);

/// Rows of the lists of a job.
pub const LISTS: [(&str, Bound); 14] = [
    ("parts", Bound::up_to("rows of the parts ledger", 100.0, "rows", "a swap moves 30 assemblies")),
    ("cases", Bound::up_to("load cases", 12.0, "cases", "each ± moves every case; a sheet holds six")),
    ("cases.loads", Bound::up_to("loads of a load case", 12.0, "rows", "nine people and three loads")),
    ("weighing.loads", Bound::up_to("loads aboard at a weigh-in", 20.0, "rows", "what is aboard can be counted")),
    ("weighing.repeats", Bound::up_to("repeats of a weigh-in", 10.0, "rows", "the mean is settled after five")),
    (
        "ratio.rows",
        Bound::up_to("rows of a motion ratio table", 60.0, "rows", "every 5 mm over 300 mm of wheel travel"),
    ),
    (
        "damper_ratio.rows",
        Bound::up_to("rows of a damper's motion ratio table", 60.0, "rows", "every 5 mm over 300 mm of travel"),
    ),
    (
        "spring.points",
        Bound::up_to("points of a progressive spring curve", 100.0, "rows", "a press reads every 2 mm at best"),
    ),
    ("spring.leaf.rows", Bound::up_to("rows of a leaf spring test", 60.0, "rows", "a test has a dozen loads")),
    ("stop.rows", Bound::up_to("points of a bump stop curve", 100.0, "rows", "a press reads every 0.5 mm at best")),
    ("damper.rows", Bound::up_to("points of a damper curve", 100.0, "rows", "a test has a dozen speeds")),
    ("new_damper.rows", Bound::up_to("points of a candidate damper curve", 400.0, "rows", "20 clicks at 20 speeds")),
    (
        "plans",
        Bound::up_to(
            "plans other than the chosen one",
            5.0,
            "plans",
            "more columns do not fit a page; each is solved on its own",
        ),
    ),
    ("overrules", Bound::up_to("overruled findings", 40.0, "rows", "every rule of both axles once")),
];

/// All bounds but those of lists and values.
pub static TABLE: [&Bound; 34] = [
    &JOB_FILE,
    &FILE_PLANS,
    &KEPT_FILE,
    &LIST_FILE,
    &CURVE_FILE,
    &RECORD_FILE,
    &SETTINGS_FILE,
    &SHEET_TEXTS_FILE,
    &LOGO_FILE,
    &FOLDER_FILES,
    &LIST_ROWS,
    &COLUMNS,
    &CELL,
    &OPEN_QUOTES,
    &CURVE_ROWS,
    &RECORD_ROWS,
    &NUMBER_TEXT,
    &NAME,
    &NOTES,
    &EARLIER,
    &LOGO_SIDE,
    &LOGO_ELEMENTS,
    &LOGO_NESTED,
    &LOGO_SEGMENTS,
    &LOGO_LAYERS,
    &LOGO_TEXT,
    &LOGO_TIME,
    &DRAWS,
    &ZOOM,
    &WINDOW_SIDE,
    &SEED,
    &ROAD_LENGTH,
    &RUN_TIME,
    &RUN_STEPS,
];

// Values, in SI: sizes of anything on a vehicle, with room to spare. A value of zero is looked at by its field.

/// A mass.
pub const MASS: Bound = Bound::between("a mass", 1e-3, 1e5, "kg", "a washer; twice the heaviest road vehicle");
/// A length.
pub const LENGTH: Bound = Bound::between("a length", 1e-6, 100.0, "m", "a micrometre; a wall for the headlamps");
/// A spring rate.
pub const SPRING_RATE: Bound = Bound::between("a spring rate", 0.1, 1e9, "N/m", "a rubber band; solid steel");
/// A damping rate.
pub const DAMPING_RATE: Bound = Bound::between("a damping rate", 0.1, 1e7, "N·s/m", "free in air; a rigid rod");
/// A frequency.
pub const FREQUENCY: Bound = Bound::between("a frequency", 0.01, 100.0, "Hz", "one swing in 100 s; the hum of a tyre");
/// A plain number.
pub const RATIO: Bound = Bound::between("a plain number", 1e-6, 1e12, "", "a share; a price in small coin, a seed");
/// A road speed.
pub const SPEED: Bound =
    Bound::between("a road speed", 0.25, 150.0, "m/s", "walking pace, so that a road ends; 540 km/h");
/// A damper speed.
pub const DAMPER_SPEED: Bound = Bound::between("a damper speed", 1e-4, 100.0, "m/s", "creep; far above any kerb");
/// A force.
pub const FORCE: Bound = Bound::between("a force", 1e-3, 1e7, "N", "a tenth of a gram; a thousand tonnes");
/// A pressure.
pub const PRESSURE: Bound = Bound::between("a pressure", 10.0, 1e8, "Pa", "a breath; 1,000 bar");
/// An angle.
pub const ANGLE: Bound = Bound::between("an angle", 1e-6, 6.3, "rad", "below any protractor; one turn");
/// A stress or modulus.
pub const STRESS: Bound = Bound::between("a stress or modulus", 1e3, 1e13, "Pa", "foam; beyond diamond");
/// A twist rate.
pub const TWIST_RATE: Bound = Bound::between("a torsional rate", 1e-3, 1e9, "N·m/rad", "a wire; a solid axle");
/// An area.
pub const AREA: Bound = Bound::between("an area", 1e-8, 10.0, "m²", "a pin; larger than any bag");
/// A volume.
pub const VOLUME: Bound = Bound::between("a volume", 1e-9, 10.0, "m³", "a drop; larger than any bag");
/// A time.
pub const TIME: Bound = Bound::between("a time", 1e-3, 1e5, "s", "a shutter; a day");
/// An energy.
pub const ENERGY: Bound =
    Bound::between("an energy", 1e-6, 1e9, "J", "a falling hair; a motorway crash a thousand times");
/// An acceleration.
pub const ACCELERATION: Bound = Bound::between("an acceleration", 1e-6, 1e5, "m/s²", "below any sensor; 10,000 g");
/// A change of the motion ratio with wheel travel.
pub const RATIO_SLOPE: Bound = Bound::between(
    "a motion ratio change per unit length",
    1e-6,
    100.0,
    "1/m",
    "below any tape; from nothing to 1 in a centimetre",
);
/// Wheel travel, the stop gap, a hump, a hole.
pub const TRAVEL: Bound =
    Bound::up_to("wheel travel, hump height or hole depth", 2.0, "m", "twice what any ride height is looked for");
/// The wheelbase.
pub const WHEELBASE: Bound = Bound::between("the wheelbase", 0.3, 30.0, "m", "a toy; the longest road vehicle");

/// A share of a whole that leaves something over.
pub const SHARE: Bound = Bound::up_to("a share that leaves something over", 0.95, "", "less than the whole");

/// All values.
pub static VALUES: [&Bound; 22] = [
    &MASS,
    &LENGTH,
    &SPRING_RATE,
    &DAMPING_RATE,
    &FREQUENCY,
    &RATIO,
    &SPEED,
    &DAMPER_SPEED,
    &FORCE,
    &PRESSURE,
    &ANGLE,
    &STRESS,
    &TWIST_RATE,
    &AREA,
    &VOLUME,
    &TIME,
    &ENERGY,
    &ACCELERATION,
    &RATIO_SLOPE,
    &TRAVEL,
    &WHEELBASE,
    &SHARE,
];
