//! Numbers of one column stand with their decimal points in one line.

/// No unit has this number of letters.
const WORD: usize = 4;

/// What follows the whole part of the number that a cell begins with: ".34 ± 0.03 Hz" of "1.34 ± 0.03 Hz", "/4 in" of
/// no whole part: "3/4 in" all of it. `None` of a cell that does not begin with a number or has words behind it: "12 mm
/// lower", "1.24, calculated".
pub fn behind_the_point(cell: &str) -> Option<&str> {
    let signs = |c: char| matches!(c, '+' | '-' | '−' | '±' | '×' | ' ');
    let digits = cell.trim_start_matches(signs);
    let behind = digits.trim_start_matches(|c: char| c.is_ascii_digit());
    let has_words = behind.split(|c: char| !c.is_alphabetic()).any(|word| word.chars().count() >= WORD);
    if behind.len() == digits.len() || has_words {
        return None;
    }
    Some(if behind.starts_with('/') { digits } else { behind })
}

/// How far each cell of a column keeps from the column's right edge, so that the points of one quantity stand in one line;
/// `width` measures the end of a cell. With each cell the words of its row: those with one unit are one quantity, as
/// lengths do not move frequencies below them. A cell that does not begin with a number is at the edge.
pub fn off_the_edge(cells: &[(&str, &str)], mut width: impl FnMut(usize, &str) -> f32) -> Vec<f32> {
    let mut ends: Vec<Option<(&str, f32)>> = Vec::with_capacity(cells.len());
    for (i, (words, cell)) in cells.iter().enumerate() {
        ends.push(behind_the_point(cell).map(|end| (unit_of(words), width(i, end))));
    }
    let mut widest: Vec<(&str, f32)> = Vec::new();
    for (unit, width) in ends.iter().flatten() {
        match widest.iter_mut().find(|(of, _)| of == unit) {
            Some((_, most)) => *most = most.max(*width),
            None => widest.push((unit, *width)),
        }
    }
    let most = |unit: &str| widest.iter().find(|(of, _)| *of == unit).map_or(0.0, |(_, most)| *most);
    ends.into_iter().map(|end| end.map_or(0.0, |(unit, width)| most(unit) - width)).collect()
}

/// The unit in the words of a row: "mm" of "room to the bump stop (mm)".
fn unit_of(words: &str) -> &str {
    words.strip_suffix(')').and_then(|words| words.rsplit_once(" (")).map_or("", |(_, unit)| unit)
}
