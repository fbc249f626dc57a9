//! Draws problems as plain text, so that a snapshot shows what a baker is reported.

use levamen_language::{Label, Problem};

/// The problems of a text, each with its lines and carets.
pub fn draw(text: &str, problems: &[Problem]) -> String {
    problems.iter().map(|problem| draw_one(text, problem)).collect::<Vec<_>>().join("\n")
}

fn draw_one(text: &str, problem: &Problem) -> String {
    let head = format!("{}: {}\n", problem.code, problem.message);
    let labels = problem.primary.iter().chain(&problem.secondary).map(|label| draw_label(text, label));
    let notes = problem.notes.iter().map(|note| format!("  why: {note}\n"));
    let help = problem.help.iter().map(|help| format!("  help: {help}\n"));
    std::iter::once(head).chain(labels).chain(notes).chain(help).collect()
}

fn draw_label(text: &str, label: &Label) -> String {
    // A problem of the whole text has no words to point at.
    if label.place.span.start == label.place.span.end {
        return String::new();
    }
    let (start, end) = (label.place.span.start as usize, label.place.span.end as usize);
    let line_start = text[..start].rfind('\n').map_or(0, |end| end + 1);
    let line = text[line_start..].split('\n').next().unwrap_or_default();
    let number = text[..start].matches('\n').count() + 1;
    // What cannot be seen is shown by its code, and takes one column here.
    let shown: String = line.chars().map(|letter| if letter.is_control() { '�' } else { letter }).collect();
    let before = " ".repeat(text[line_start..start].chars().count());
    let carets = "^".repeat(text[start..end].chars().count());
    format!("{number:>4} | {shown}\n     | {before}{carets} {}", label.text).trim_end().to_owned() + "\n"
}
