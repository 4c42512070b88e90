//! What must hold of every answer, whatever was typed: each with its reason.

use std::collections::HashMap;
use std::f64::consts::TAU;

use serde_json::Value;
use springwright::base::units::G_M_PER_S2;

/// Rounding of a few sums and roots.
const EXACT: f64 = 1e-9;

/// Nothing that is not a number is ever printed.
pub fn no_nan(text: &str) {
    for bad in ["NaN", "inf"] {
        for (at, _) in text.match_indices(bad) {
            let is_letter = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '_');
            let before = text[..at].trim_end_matches('-');
            let is_word = !is_letter(before.chars().next_back()) && !is_letter(text[at + bad.len()..].chars().next());
            // What was typed is quoted as it stands.
            assert!(!is_word || before.ends_with('"'), "{bad} in: {}", &text[at.saturating_sub(200)..]);
        }
    }
}

/// The results of one answer by name.
struct Results<'a> {
    of: HashMap<&'a str, f64>,
}

impl Results<'_> {
    fn get(&self, name: &str) -> Option<f64> {
        self.of.get(name).copied()
    }

    /// Those whose name ends so, with what stands before.
    fn ending<'s>(&'s self, end: &'s str) -> impl Iterator<Item = (&'s str, f64)> {
        self.of.iter().filter_map(move |(name, value)| Some((name.strip_suffix(end)?, *value)))
    }

    fn near(&self, what: &str, got: f64, want: f64) {
        let scale = got.abs().max(want.abs());
        assert!((got - want).abs() <= EXACT * scale + 1e-12, "{what}: {got}, not {want}");
    }
}

/// All that holds of the JSON of a solved job.
pub fn hold(json: &Value, code: u8) {
    let rows = json["results"].as_array().expect("results");
    let mut of = HashMap::new();
    for row in rows {
        let (name, value) = (row["key"].as_str().expect("a name"), row["value"].as_f64());
        // A standard uncertainty is a size, and there is none of what is not known.
        let u = row["u"].as_f64();
        assert!(u.is_none_or(|u| u >= 0.0), "{name}: ± {u:?}");
        assert!(value.is_some() || u.is_none(), "{name}: a ± of nothing");
        if let Some(value) = value {
            assert!(value.is_finite(), "{name}: {value}");
            assert!(of.insert(name, value).is_none(), "{name}: two results of one name");
        } else {
            assert!(row["value"].is_null(), "{name}: {}", row["value"]);
        }
    }
    let results = Results { of };
    weights(&results);
    for side in ["front", "rear"] {
        standing(&results, side);
        sizes(&results, side);
        springs_and_routes(&results, side);
        roads_of(&results, side);
    }
    whole(&results);
    findings(json, &results, code);
}

/// Scales add up, and shares are shares.
fn weights(r: &Results<'_>) {
    for when in ["before", "after"] {
        let of = |what: &str| r.get(&format!("{when}.{what}"));
        // Nothing is on the scales but the two axles.
        if let (Some(total), Some(front), Some(rear)) = (of("total"), of("front_axle"), of("rear_axle")) {
            r.near("total", total, front + rear);
            r.near("front share", of("front_share").expect("of known axles"), front / total);
        }
        // A share of positive weights.
        for share in ["front_share", "left_share", "cross_weight"] {
            assert!(of(share).is_none_or(|s| s > 0.0 && s < 1.0), "{when}.{share}: {:?}", of(share));
        }
        // The difference of two positive weights is at most twice their mean.
        for axle in ["front_left_right", "rear_left_right"] {
            assert!(of(axle).is_none_or(|d| d.abs() <= 2.0), "{when}.{axle}: {:?}", of(axle));
        }
    }
    // Collars and shims move weight from corner to corner and take none away.
    let sum = |what: &str| {
        ["lf", "rf", "lr", "rr"].iter().try_fold(0.0, |sum, c| Some(sum + r.get(&format!("whole.corners.{what}.{c}"))?))
    };
    if let (Some(corrected), Some(level)) = (sum("corrected"), sum("level.after")) {
        assert!((corrected - level).abs() < 1e-6 * level, "{corrected} of {level} kg");
    }
}

/// Where an axle stands: masses, rates and frequencies belong together.
fn standing(r: &Results<'_>, side: &str) {
    let sprung = |when: &str| r.get(&format!("{side}.sprung_{when}"));
    for (when, state) in [("before", "before"), ("after", "old_springs"), ("after", "new_springs")] {
        let of = |what: &str| r.get(&format!("{side}.{state}.{what}"));
        let (Some(mass), Some(rate), Some(frequency)) = (of("sprung"), of("wheel_rate"), of("frequency")) else {
            continue;
        };
        // What stands carries something, and comes back when it is pressed.
        assert!(mass > 0.0 && rate > 0.0, "{side}.{state}: {mass} kg on {rate} N/m");
        // A mass on a spring: f = √(k/m)/2π.
        r.near("frequency", frequency, (rate / mass).sqrt() / TAU);
        // A tyre in series is softer than none.
        let with_tyre = of("frequency_with_tyre");
        assert!(with_tyre.is_none_or(|f| f > 0.0 && f < frequency * (1.0 + EXACT)), "{side}.{state}: {with_tyre:?}");
        // A straight spring of that rate gives way so far under that weight.
        if let Some(deflection) = of("static_deflection") {
            r.near("static deflection", deflection, mass * G_M_PER_S2 / rate);
        }
        // Half an axle less its wheel is lighter than half an axle.
        let axle = r.get(&format!("compared.{when}.{side}"));
        assert!(axle.is_none_or(|a| mass <= 0.5 * a * (1.0 + EXACT)), "{side}.{state}: {mass} kg of {axle:?}");
        // A ride height is looked for within a metre.
        assert!(of("travel").is_none_or(|z| z.abs() <= 1.0 + EXACT), "{side}.{state}: {:?}", of("travel"));
        // No damper pushes.
        assert!(of("old_damper_ratio").is_none_or(|z| z >= 0.0), "{side}.{state}: {:?}", of("old_damper_ratio"));
        // Energy in a spring that is pressed is never below nothing; a torsion bar beyond the sweep of its arm has none.
        let is_bar = r.get(&format!("{side}.bar.twist_rate")).is_some();
        assert!(is_bar || of("stored").is_none_or(|e| e >= -EXACT), "{side}.{state}: {:?}", of("stored"));
    }
    // On the same mass the stiffer wheel has the quicker ride.
    let pair = |what: &str| {
        Some((r.get(&format!("{side}.old_springs.{what}"))?, r.get(&format!("{side}.new_springs.{what}"))?))
    };
    if let (Some(mass), Some(rate), Some(frequency)) = (pair("sprung"), pair("wheel_rate"), pair("frequency"))
        && (mass.0 / mass.1 - 1.0).abs() < EXACT
        && (rate.0 / rate.1 - 1.0).abs() > 1e-6
    {
        assert_eq!(rate.0 < rate.1, frequency.0 < frequency.1, "{side}: {rate:?} and {frequency:?}");
    }
    for when in ["before", "after"] {
        assert!(sprung(when).is_none_or(|m| m > 0.0), "{side}: {:?} kg sprung", sprung(when));
    }
    // A part moves with its wheel, not against it.
    for ratio in ["motion_ratio", "damper_motion_ratio"] {
        let found = r.get(&format!("{side}.{ratio}"));
        assert!(found.is_none_or(|q| q > 0.0), "{side}.{ratio}: {found:?}");
    }
}

/// Bands are in order, and a wheel rate is that of its frequency.
fn sizes(r: &Results<'_>, side: &str) {
    let prefix = format!("{side}.");
    for (name, low) in r.ending(".low").filter(|(name, _)| name.starts_with(&prefix)) {
        let end = |end: &str| r.get(&format!("{name}.{end}")).expect("a band has three values");
        let (aim, high) = (end("aim"), end("high"));
        let slack = EXACT * low.abs().max(high.abs());
        assert!(low <= aim + slack && aim <= high + slack, "{name}: {low} {aim} {high}");
    }
    let sprung = r.get(&format!("{side}.sprung_after"));
    for end in ["low", "aim", "high"] {
        let of = |what: &str| r.get(&format!("{side}.sizing.{what}.{end}"));
        if let (Some(frequency), Some(rate), Some(mass)) = (of("frequency"), of("wheel_rate"), sprung) {
            // k = m (2πf)².
            r.near("wheel rate", rate, mass * (TAU * frequency).powi(2));
        }
    }
    // The rule of three: the factor of the masses.
    let masses = r.get(&format!("{side}.sprung_before")).zip(sprung);
    if let (Some(factor), Some((before, after))) = (r.get(&format!("{side}.sizing.same_factor.factor")), masses) {
        r.near("same factor", factor, after / before);
    }
    // A spring that is bought pushes, and has a length.
    for what in ["pick", "free_length", "order_length", "stock_lowest", "stock_highest"] {
        let found = r.get(&format!("{side}.sizing.{what}"));
        assert!(found.is_none_or(|v| v > 0.0), "{side}.sizing.{what}: {found:?}");
    }
}

/// Wire, and the ways to the wheel rate.
fn springs_and_routes(r: &Results<'_>, side: &str) {
    for coil in ["old_spring.coil", "offered", "wound"] {
        let of = |what: &str| r.get(&format!("{side}.{coil}.{what}"));
        // A coil whose wire is as thick as its mean diameter cannot be wound; the factor for its curvature is above one.
        assert!(of("index").is_none_or(|c| c > 1.0), "{side}.{coil}: index {:?}", of("index"));
        assert!(of("wahl").is_none_or(|k| k > 1.0), "{side}.{coil}: factor {:?}", of("wahl"));
        assert!(of("rate").is_none_or(|k| k > 0.0), "{side}.{coil}: rate {:?}", of("rate"));
    }
    // A mean with weights above zero lies inside what it is the mean of.
    let prefix = format!("{side}.routes.");
    let routes = r.of.iter().filter(|(n, _)| n.starts_with(&prefix) && !n.ends_with("fused")).map(|(_, v)| *v);
    let (least, most) = routes.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), v| (l.min(v), m.max(v)));
    if let Some(fused) = r.get(&format!("{side}.routes.fused")) {
        let slack = 1e-6 * most.abs();
        assert!(fused >= least - slack && fused <= most + slack, "{side}: {fused} of {least} to {most}");
    }
}

/// Closed forms of a rough road.
fn roads_of(r: &Results<'_>, side: &str) {
    let prefix = format!("{side}.");
    for what in ["travel_rms", "body_acceleration_rms", "tyre_load_rms", "stop_hits_per_km"] {
        for (name, value) in r.ending(&format!(".road.{what}")).filter(|(n, _)| n.starts_with(&prefix)) {
            // Roots of mean squares, and counts.
            assert!(value >= 0.0, "{name}.road.{what}: {value}");
        }
    }
}

/// The vehicle as a whole.
fn whole(r: &Results<'_>) {
    // Each axle has a positive share of roll stiffness, as far as none pulls itself over.
    for state in ["before", "old_springs", "new_springs"] {
        let of = |what: &str| r.get(&format!("whole.pitch.{state}.{what}"));
        if let (Some(slower), Some(quicker)) = (of("slower.frequency"), of("quicker.frequency")) {
            // ω² = (α+γ)/2 ± √…: the sign of the root.
            assert!(slower > 0.0 && slower <= quicker * (1.0 + EXACT), "{state}: {slower} and {quicker} Hz");
        }
        let rear_over_front = r.get(&format!("whole.rear_over_front.{state}"));
        let frequency = |side: &str| r.get(&format!("{side}.{state}.frequency"));
        if let (Some(found), Some(front), Some(rear)) = (rear_over_front, frequency("front"), frequency("rear")) {
            r.near("rear over front", found, rear / front);
            // A speed at which the rear meets the hump when the front is back: only a quicker rear catches up.
            assert!(rear > front || r.get(&format!("whole.flat_ride_speed.{state}")).is_none());
        }
    }
}

/// Findings are said in order, and the program ends as they ask.
fn findings(json: &Value, r: &Results<'_>, code: u8) {
    let found = json["findings"].as_array().expect("findings");
    let level = |f: &Value| f["level"].as_str().expect("a level").to_owned();
    for finding in found {
        let text = finding["text"].as_str().expect("a text");
        assert!(!text.trim().is_empty() && text.len() < 5_000, "{finding}");
        assert!(!text.contains('{') || text.contains("{placeholder}") || text.contains("${x}"), "{text}");
    }
    // Whatever is worse than a doubt ends with 1; so does a job that has no answer yet.
    let is_bad = found.iter().any(|f| !["note", "check"].contains(&level(f).as_str()));
    assert!(code <= 1 && (!is_bad || code == 1), "ends with {code}: {found:?}");
    // Over a rating there is a stop, and under all of them none of this rule.
    let shares: Vec<f64> = r.of.iter().filter(|(n, _)| n.contains(".rated.")).map(|(_, share)| *share).collect();
    let is_over = shares.iter().any(|s| *s > 1.001);
    let stops = found.iter().any(|f| f["rule"] == "over-rating");
    assert!(!is_over || stops, "over a rating without a stop: {shares:?}");
    assert!(shares.iter().all(|s| *s >= 0.0) && (!stops || shares.iter().any(|s| *s > 0.99)), "{shares:?}");
}

/// A choice: chances are chances, and the program ends as it found.
pub fn choice(json: &Value, code: u8) {
    assert!(json["json_version"].is_u64(), "the version of the JSON");
    for (axle, choice) in ["front", "rear"].into_iter().filter_map(|axle| Some((axle, json.get(axle)?))) {
        if choice.get("unable").is_some() {
            assert_eq!(code, 1, "{axle}: nothing chosen");
            continue;
        }
        assert!(!choice["pick"].is_null() || code == 1, "{axle}: no pick");
        let drafted = choice["drafted"].as_array().expect("drafted").len();
        let count = |part: &str, end: &str| {
            let prefix = format!("{axle}.choose.{part}[");
            let is_one = |r: &&Value| r["key"].as_str().is_some_and(|k| k.starts_with(&prefix) && k.ends_with(end));
            json["results"].as_array().expect("results").iter().filter(is_one).cloned().collect::<Vec<Value>>()
        };
        let chances = count("springs", "].chance");
        assert_eq!(chances.len(), drafted, "{axle}: a chance for each spring drawn");
        for chance in chances.iter().chain(&count("measure_again", ".share")) {
            let share = chance["value"].as_f64().expect("a share");
            assert!((-1e-9..=1.0 + 1e-9).contains(&share), "{axle}: {chance}");
        }
        for bounces in count("springs", "].frequency") {
            assert!(bounces["u"].as_f64().is_none_or(|sd| sd >= 0.0), "{axle}: {bounces}");
        }
    }
}

/// Runs: sizes are sizes, shares are shares, and what is felt is no more than what is there.
pub fn roads(json: &Value) {
    let results = json["results"].as_array().expect("results");
    for run in json["runs"].as_array().expect("runs") {
        let key = run["key"].as_str().expect("a key");
        let of = |what: &str| {
            let result = results.iter().find(|r| r["key"] == format!("{key}.{what}"));
            result.and_then(|r| r["value"].as_f64()).unwrap_or_else(|| panic!("{what} of {run}"))
        };
        for size in ["travel_rms", "acceleration_rms", "weighted", "tyre_rms"] {
            assert!(of(size) >= 0.0, "{size}: {run}");
        }
        assert!((0.0..=1.0).contains(&of("in_the_air")), "{run}");
        // The weighting's largest gain is 1.054. The largest running value over 1 s may lie above the mean of the run.
        let is_mean = run["weighted_by"] == "rms";
        assert!(!is_mean || of("weighted") <= 1.06 * of("acceleration_rms") + EXACT, "{run}");
    }
}

/// The most memory that this program had so far is below a gigabyte.
#[cfg(target_os = "linux")]
pub fn memory_stayed_small() {
    let status = std::fs::read_to_string("/proc/self/status").expect("the system tells");
    let line = status.lines().find(|l| l.starts_with("VmHWM:")).expect("the most memory");
    let kb: u64 = line.split_whitespace().nth(1).and_then(|n| n.parse().ok()).expect("kB");
    println!("most memory: {} MB", kb / 1000);
    assert!(kb < 1_000_000, "{kb} kB");
}
