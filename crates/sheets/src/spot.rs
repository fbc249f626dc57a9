//! Where something is said, as a reader finds it.

use levamen_language::{Place, TextId};

/// A line of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spot {
    /// The file, as the reader knows it.
    pub file: String,
    /// The line, counted from 1.
    pub line: u32,
    /// What the line says: its words with single spaces, without its comment.
    pub words: String,
}

impl Spot {
    /// The line of a file's text at which a place begins.
    #[must_use]
    pub fn new(file: &str, text: &str, place: Place) -> Self {
        let start = place.span.start as usize;
        let before = text.get(..start).unwrap_or(text);
        let after = text.get(start..).unwrap_or_default();
        let head = before.rsplit('\n').next().unwrap_or_default();
        let tail = after.lines().next().unwrap_or_default();
        let line = format!("{head}{tail}");
        let said = line.split('#').next().unwrap_or_default();
        Self {
            file: file.to_owned(),
            line: u32::try_from(before.matches('\n').count() + 1).unwrap_or(u32::MAX),
            words: said.split_whitespace().collect::<Vec<_>>().join(" "),
        }
    }

    /// Where it is, for a reader: file and line; an option of a command has no lines.
    #[must_use]
    pub fn at(&self) -> String {
        if self.file.starts_with("--") { self.file.clone() } else { format!("{}:{}", self.file, self.line) }
    }
}

/// The texts of a book, for places to be looked up in.
pub trait Texts {
    /// The name and the words of a text; `None` of one that the reader has not written, such as the built-in pantry.
    fn text(&self, id: TextId) -> Option<(&str, &str)>;

    /// The line at which a place begins.
    fn spot(&self, place: Place) -> Option<Spot> {
        self.text(place.text).map(|(file, text)| Spot::new(file, text, place))
    }
}

#[cfg(test)]
mod tests {
    use levamen_language::Span;

    use super::*;

    fn spot(text: &str, start: u32) -> Spot {
        Spot::new("a.dough", text, Place { text: TextId(0), span: Span::new(start, start + 1) })
    }

    #[test]
    fn a_line_is_told_by_its_number_and_its_words() {
        let text = "dough Tin\n\noverall\n  water    62 %  # soft\n";
        let found = spot(text, 30);
        assert_eq!((found.line, found.words.as_str()), (4, "water 62 %"));
    }

    #[test]
    fn a_place_past_the_end_does_no_harm() {
        assert_eq!(spot("", 90).line, 1);
        assert_eq!(spot("ä", 1).line, 1);
    }
}
