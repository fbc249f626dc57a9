//! Problems drawn with their lines and carets: the one file that knows how they look in a terminal.

use std::borrow::Cow;

use annotate_snippets::renderer::DEFAULT_TERM_WIDTH;
use annotate_snippets::{AnnotationKind, Element, Group, Level, Renderer, Snippet};
use levamen_language::{
    Hint, Label, Place, Problem, Severity, TextId, Texts, first_invisible, in_order_of_texts, visible,
};

/// The longest line that is drawn whole; of a longer one the part around the words at fault.
const LONGEST_LINE: usize = 4000;

/// Labels of one text that are further apart, in bytes, are drawn each by itself: what lies between is not looked through.
const FAR_APART: usize = 64 << 10;

/// The problems in the order of the texts, each drawn with its place and with colours of a terminal.
#[must_use]
pub fn problems(texts: &Texts, problems: &[Problem]) -> String {
    let renderer = Renderer::styled().term_width(DEFAULT_TERM_WIDTH);
    let mut drawn = String::new();
    for problem in in_order_of_texts(problems) {
        drawn += &renderer.render(&[group(texts, &all_visible(problem))]);
        drawn += "\n\n";
    }
    drawn
}

/// How many doughs and cultures of a book were looked at, and what was found.
#[must_use]
pub fn checked(entries: usize, problems: &[Problem], book: &str) -> String {
    let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
    let warnings = problems.len() - errors;
    let looked_at = counted(entries, "dough or culture", "doughs and cultures");
    match (errors, warnings) {
        (0, 0) if entries == 0 => format!("no dough in `{}`: a dough file ends in .dough\n", visible(book)),
        (0, 0) => format!("{looked_at}: no problem\n"),
        _ => {
            let [errors, warnings] =
                [counted(errors, "error", "errors"), counted(warnings, "warning", "warnings")];
            format!("{looked_at}: {errors}, {warnings}\n")
        }
    }
}

fn counted(count: usize, one: &str, several: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { several })
}

fn group<'t>(texts: &'t Texts, problem: &'t Problem) -> Group<'t> {
    let level = match problem.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let mut elements: Vec<Element<'t>> = Vec::new();
    let labels = problem.primary.iter().map(|label| (AnnotationKind::Primary, label));
    let labels = labels.chain(problem.secondary.iter().map(|label| (AnnotationKind::Context, label)));
    let mut by_text: Vec<(TextId, Vec<(AnnotationKind, &Label)>)> = Vec::new();
    for (kind, label) in labels {
        match by_text.iter_mut().find(|(id, _)| *id == label.place.text) {
            Some((_, found)) => found.push((kind, label)),
            None => by_text.push((label.place.text, vec![(kind, label)])),
        }
    }
    for (id, labels) in by_text {
        // Of a text that could not be read there is nothing to show; the message has its name.
        let Some((name, text)) = texts.text(id).filter(|(_, text)| !text.is_empty()) else { continue };
        let first_line = |start| texts.line_number(id, start).unwrap_or(1);
        let near = near_each_other(&labels);
        elements.extend(
            near.iter().filter_map(|labels| snippet(name, text, first_line, labels)).map(Element::from),
        );
    }
    elements.extend(problem.notes.iter().map(|note| Level::NOTE.message(note).into()));
    elements.extend(problem.help.iter().map(|help| Level::HELP.message(help.to_string()).into()));
    level.primary_title(&problem.message).id(problem.code).elements(elements)
}

/// A problem whose words can all be seen: they may be those of an order, a file name or an argument. Of the lines of
/// a text the renderer itself takes care.
fn all_visible(problem: &Problem) -> Cow<'_, Problem> {
    let words = [&problem.message].into_iter().chain(&problem.notes).cloned();
    let words = words.chain(problem.help.iter().map(Hint::to_string));
    let labels = problem.primary.iter().chain(&problem.secondary).map(|label| label.text.clone());
    if words.chain(labels).all(|words| matches!(visible(&words), Cow::Borrowed(_))) {
        return Cow::Borrowed(problem);
    }
    let shown = |words: &String| visible(words).into_owned();
    let label = |label: &Label| Label { text: shown(&label.text), ..label.clone() };
    Cow::Owned(Problem {
        message: shown(&problem.message),
        primary: problem.primary.as_ref().map(label),
        secondary: problem.secondary.iter().map(label).collect(),
        notes: problem.notes.iter().map(shown).collect(),
        help: problem.help.iter().map(|help| shown(&help.to_string()).into()).collect(),
        ..problem.clone()
    })
}

/// Labels of one text in groups of which none is far from the others, that of the first label first.
fn near_each_other<'t>(labels: &[(AnnotationKind, &'t Label)]) -> Vec<Vec<(AnnotationKind, &'t Label)>> {
    let mut groups: Vec<Vec<(AnnotationKind, &'t Label)>> = Vec::new();
    for (kind, label) in labels {
        let start = label.place.span.start as usize;
        let is_near = |group: &&mut Vec<(AnnotationKind, &'t Label)>| {
            group.iter().all(|(_, other)| (other.place.span.start as usize).abs_diff(start) <= FAR_APART)
        };
        match groups.iter_mut().find(is_near) {
            Some(group) => group.push((*kind, label)),
            None => groups.push(vec![(*kind, label)]),
        }
    }
    groups
}

/// The lines of a text that labels point at.
fn snippet<'t>(
    name: &'t str,
    text: &'t str,
    first_line: impl Fn(u32) -> u32,
    labels: &[(AnnotationKind, &'t Label)],
) -> Option<Snippet<'t, annotate_snippets::Annotation<'t>>> {
    let spans = labels.iter().map(|(_, label)| label.place);
    let first = spans.clone().map(|place| place.span.start).min()? as usize;
    let last = spans.map(|place| place.span.end).max()? as usize;
    let (start, end) = window(text, first, last);
    let shown = text.get(start..end)?;
    let line = first_line(u32::try_from(start).unwrap_or(u32::MAX)) as usize;
    let annotations = labels.iter().map(|(kind, label)| {
        let (from, to) = bounds(label.place, start, end);
        let annotation = kind.span(from..to);
        if label.text.is_empty() { annotation } else { annotation.label(label.text.as_str()) }
    });
    Some(Snippet::source(without_invisible(shown)).path(name).line_start(line).annotations(annotations))
}

/// A text with a plain sign for each invisible character that the renderer would print as it is. Signs are as long in bytes, so
/// that labels keep their places.
fn without_invisible(text: &str) -> Cow<'_, str> {
    let is_odd = |character: &char| first_invisible(character.encode_utf8(&mut [0; 4])).is_some();
    if text.is_ascii() || !text.chars().any(|character| is_odd(&character)) {
        return Cow::Borrowed(text);
    }
    let sign = |character: char| match character.len_utf8() {
        2 if is_odd(&character) => '\u{b7}',
        3 if is_odd(&character) => '\u{fffd}',
        _ => character,
    };
    Cow::Owned(text.chars().map(sign).collect())
}

/// The part of a text to draw: the lines of the labels, shortened where they are very long.
fn window(text: &str, first: usize, last: usize) -> (usize, usize) {
    let before = text.get(..first).unwrap_or_default();
    let after = text.get(last..).unwrap_or_default();
    let mut start = before.rfind('\n').map_or(0, |end| end + 1);
    let mut end = after.find('\n').map_or(text.len(), |length| last + length);
    if first - start > LONGEST_LINE {
        start = first - LONGEST_LINE;
    }
    if end - last > LONGEST_LINE {
        end = last + LONGEST_LINE;
    }
    while !text.is_char_boundary(start) {
        start += 1;
    }
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    (start, end)
}

/// A place within the drawn part.
fn bounds(place: Place, start: usize, end: usize) -> (usize, usize) {
    let clamp = |at: u32| (at as usize).clamp(start, end) - start;
    (clamp(place.span.start), clamp(place.span.end))
}

#[cfg(test)]
mod tests {
    use levamen_language::Span;

    use super::*;

    /// A text of as many lines, and a problem with labels at two of them.
    fn drawn(lines: usize, labels: [usize; 2]) -> (String, String) {
        let mut texts = Texts::default();
        let text = (1..=lines).fold(String::new(), |text, line| text + &format!("line {line}\n"));
        let at = |line: usize| {
            let start = text.find(&format!("line {line}\n")).map_or(0, |at| u32::try_from(at).unwrap_or(0));
            Place { text: TextId(0), span: Span { start, end: start + 4 } }
        };
        let [first, again] = labels.map(at);
        let problem =
            Problem::error("used-twice", "a name is used twice").at(again, "again").and_at(first, "first");
        texts.add(TextId(0), "book.dough".to_owned(), text);
        let problems = [problem];
        (
            anstream::adapter::strip_str(&super::problems(&texts, &problems)).to_string(),
            serde_json::to_string_pretty(&crate::json::problems(&texts, &problems)).unwrap() + "\n",
        )
    }

    #[test]
    fn labels_that_are_far_apart_are_drawn_each_at_its_line() {
        let (near, json) = drawn(60, [10, 50]);
        assert!(near.contains("50 | line 50") && near.contains("10 | line 10"), "{near}");
        assert!(json.contains("\"line\": 50,") && json.contains("\"line\": 10,"), "{json}");
        let (far, json) = drawn(20_000, [10, 19_000]);
        assert!(far.contains("19000 | line 19000") && far.contains("   10 | line 10"), "{far}");
        assert!(json.contains("\"line\": 19000,") && json.contains("\"line\": 10,"), "{json}");
        assert!(far.lines().count() < 20, "{far}");
    }

    /// A control character of two bytes, invisible ones of two and of three, marks that turn the writing, and a sign that can be
    /// seen: what is drawn takes as many bytes, so that labels stay under their words.
    #[test]
    fn signs_of_the_same_length_stand_for_what_cannot_be_seen() {
        for (odd, sign) in [
            ("\u{9b}", "\u{b7}"),
            ("\u{ad}", "\u{b7}"),
            ("\u{61c}", "\u{b7}"),
            ("\u{200b}", "\u{fffd}"),
            ("\u{202e}", "\u{fffd}"),
            ("\u{2028}", "\u{fffd}"),
            ("\u{feff}", "\u{fffd}"),
            ("\u{e9}", "\u{e9}"),
        ] {
            assert_eq!(odd.len(), sign.len());
            let line = format!("sal{odd}t  2 gr");
            assert_eq!(without_invisible(&line), format!("sal{sign}t  2 gr"));
            let at = line.find("2 gr").map_or(0, |at| u32::try_from(at).unwrap_or(0));
            let mut texts = Texts::default();
            texts.add(TextId(0), "book.dough".to_owned(), line);
            let place = Place { text: TextId(0), span: Span { start: at, end: at + 4 } };
            let problem = Problem::error("unknown-unit", "a unit is unknown").at(place, "here");
            let drawn = anstream::adapter::strip_str(&problems(&texts, &[problem])).to_string();
            let column = |words: &str| {
                let line = drawn.lines().find(|line| line.contains(words));
                line.and_then(|line| line.split_once(words)).map(|(before, _)| before.chars().count())
            };
            assert_eq!(column("2 gr"), column("^^^^ here"), "{drawn}");
            assert!(column("2 gr").is_some() && (odd == sign || !drawn.contains(odd)), "{drawn}");
        }
        assert!(matches!(without_invisible("plain words\n"), Cow::Borrowed(_)));
        assert!(matches!(without_invisible("Caf\u{e9}"), Cow::Borrowed(_)));
    }
}
