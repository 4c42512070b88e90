//! Readings of several corners in one line: "LF 402 RF 391 LR 372 RR 375".

use super::corner_of;

/// No name of a corner has more bytes, with what may stand between it and its number.
const LONGEST: usize = 48;

/// A line cut where the names of corners begin, each with its reading behind it; whole when it names fewer than two.
///
/// What precedes the first name is a piece of its own.
pub(super) fn pieces(line: &str) -> Vec<&str> {
    let cuts = begins(line);
    if cuts.len() < 2 {
        return vec![line];
    }
    let ends = cuts.iter().skip(1).copied().chain([line.len()]);
    let named = cuts.iter().zip(ends).map(|(from, to)| &line[*from..to]);
    let all = std::iter::once(&line[..cuts[0]]).chain(named);
    all.map(|piece| piece.trim().trim_end_matches([',', ';', '|', '/', '\t', ' '])).filter(|p| !p.is_empty()).collect()
}

/// Where in a line the name of a corner begins that has a number behind it.
fn begins(line: &str) -> Vec<usize> {
    let mut cuts: Vec<usize> = Vec::new();
    let (mut before, mut named_to) = (' ', 0);
    for (at, letter) in line.char_indices() {
        let name = &line[at..line.floor_char_boundary(at + LONGEST)];
        if at >= named_to
            && !before.is_alphanumeric()
            && let Some((_, rest)) = corner_of(name)
            && rest.starts_with(|c: char| c.is_ascii_digit())
        {
            cuts.push(at);
            named_to = at + name.len() - rest.len();
        }
        before = letter;
    }
    cuts
}
