//! Texts as a slip of the hand leaves them.

use crate::chance::Chance;

const FIGURES: [&str; 12] =
    ["0", "1", "20", "50", "100", "99.99", "150", "0.001", "1000", "33.3", "7", "100.0"];
const UNITS: [&str; 6] = ["%", "g", "kg", "lb", "oz", "ml"];
const ENDS: [&str; 8] = [
    "of the flour",
    "of the dough",
    "of its flour",
    "of the water",
    "of its water",
    "of the salt",
    ", given back",
    ", stays",
];

/// A text with a few slips, which follow from a number: lines left out, written twice, put elsewhere; figures, units,
/// names and what a percentage is of exchanged.
#[must_use]
pub fn damaged(text: &str, seed: u64) -> String {
    let mut chance = Chance::new(seed);
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for _ in 0..=chance.below(4) {
        slip(&mut lines, &mut chance);
    }
    lines.join("\n") + "\n"
}

fn slip(lines: &mut Vec<String>, chance: &mut Chance) {
    if lines.is_empty() {
        return;
    }
    let (at, other) = (chance.below(lines.len()), chance.below(lines.len()));
    match chance.below(8) {
        0 => drop(lines.remove(at)),
        1 => lines.insert(other, lines[at].clone()),
        2 => {
            let line = lines.remove(at);
            lines.insert(other.min(lines.len()), line);
        }
        3 => exchange(&mut lines[at], chance, &FIGURES, |word| word.parse::<f64>().is_ok()),
        4 => exchange(&mut lines[at], chance, &UNITS, |word| UNITS.contains(&word)),
        5 => exchange_name(lines, at, other),
        6 => lines[at] = extended(&lines[at], chance),
        _ => lines[at] = rest(&lines[at]),
    }
}

/// Exchanges one word of a kind.
fn exchange(line: &mut String, chance: &mut Chance, by: &[&str], is_kind: impl Fn(&str) -> bool) {
    let margin = line.len() - line.trim_start().len();
    let mut words: Vec<&str> = line.split_whitespace().collect();
    let at: Vec<usize> = (0..words.len()).filter(|at| is_kind(words[*at])).collect();
    if let (Some(at), Some(word)) = (chance.pick(&at), chance.pick(by)) {
        words[*at] = word;
        *line = " ".repeat(margin) + &words.join(" ");
    }
}

/// The name of one line with the amount of another.
fn exchange_name(lines: &mut [String], at: usize, other: usize) {
    let parts =
        |line: &str| line.rsplit_once("  ").map(|(name, amount)| (name.to_owned(), amount.to_owned()));
    if let (Some((name, _)), Some((_, amount))) = (parts(&lines[at]), parts(&lines[other])) {
        lines[at] = format!("{name}  {amount}");
    }
}

/// A line with other words at its end.
fn extended(line: &str, chance: &mut Chance) -> String {
    let stem = line.find(" of ").map_or(line, |at| line.get(..at).unwrap_or(line));
    format!("{stem} {}", chance.pick(&ENDS).copied().unwrap_or_default())
}

/// A line that leaves its amount to the others.
fn rest(line: &str) -> String {
    line.rsplit_once("  ").map_or_else(|| line.to_owned(), |(name, _)| format!("{name}  rest"))
}
