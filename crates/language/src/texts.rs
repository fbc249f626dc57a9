//! Texts with the names that a reader knows them by, and where their lines begin.

use std::borrow::Cow;
use std::sync::{Arc, OnceLock};

use crate::characters::visible;
use crate::place::{Place, TextId};

/// The texts of a book, for places to be looked up in. A copy shares the words with the original.
#[derive(Debug, Default, Clone)]
pub struct Texts(Vec<Arc<Text>>);

/// One text.
#[derive(Debug)]
struct Text {
    id: TextId,
    name: String,
    words: Arc<str>,
    /// Whether it stands in a question and in no file.
    is_asked: bool,
    /// Where each line begins, found when first asked for.
    line_starts: OnceLock<Vec<usize>>,
}

/// A line of a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TextLine {
    /// The text, as the reader knows it.
    pub file: String,
    /// The line, counted from 1.
    pub line: u32,
    /// Whether it stands in a question and in no file; then the line says nothing.
    pub is_asked: bool,
    /// What the line says: its words with single spaces, without its comment.
    pub words: String,
}

impl Texts {
    /// Adds a text and the name that a reader knows it by.
    pub fn add(&mut self, id: TextId, name: String, words: impl Into<Arc<str>>) {
        self.push(id, name, words.into(), false);
    }

    /// Adds words of a question, by the name of the field that they were written in.
    pub fn add_asked(&mut self, id: TextId, name: String, words: impl Into<Arc<str>>) {
        self.push(id, name, words.into(), true);
    }

    fn push(&mut self, id: TextId, name: String, words: Arc<str>, is_asked: bool) {
        let name = match visible(&name) {
            Cow::Borrowed(_) => name,
            Cow::Owned(shown) => shown,
        };
        self.0.push(Arc::new(Text { id, name, words, is_asked, line_starts: OnceLock::new() }));
    }

    /// Gives a text other words; nothing where there is none of that id.
    pub fn replace(&mut self, id: TextId, words: impl Into<Arc<str>>) {
        if let Some(text) = self.0.iter_mut().find(|text| text.id == id) {
            let (name, words, is_asked) = (text.name.clone(), words.into(), text.is_asked);
            *text = Arc::new(Text { id, name, words, is_asked, line_starts: OnceLock::new() });
        }
    }

    /// The texts, in the order in which they were added.
    pub fn iter(&self) -> impl Iterator<Item = (TextId, &str, &str)> {
        self.0.iter().map(|text| (text.id, text.name.as_str(), &*text.words))
    }

    /// The words of the texts, to be kept elsewhere without a copy, in the order in which they were added.
    pub fn shared(&self) -> impl Iterator<Item = (TextId, Arc<str>)> {
        self.0.iter().map(|text| (text.id, Arc::clone(&text.words)))
    }

    /// The name of a text; empty where there is none of that id.
    #[must_use]
    pub fn name(&self, id: TextId) -> &str {
        self.find(id).map_or("", |text| &text.name)
    }

    /// The name and the words of a text; `None` of one that the reader has not written, such as the built-in pantry.
    #[must_use]
    pub fn text(&self, id: TextId) -> Option<(&str, &str)> {
        self.find(id).map(|text| (text.name.as_str(), &*text.words))
    }

    /// The smallest id that no text up to now has, nor any below it.
    #[must_use]
    pub fn next_id(&self) -> TextId {
        TextId(self.0.iter().map(|text| text.id.0.saturating_add(1)).max().unwrap_or(0))
    }

    /// The line of a byte, counted from 1; `None` where there is no such text.
    #[must_use]
    pub fn line_number(&self, id: TextId, at: u32) -> Option<u32> {
        Some(counted(self.find(id)?.line(at as usize).0))
    }

    /// Line and column of a byte, both counted from 1; columns count characters. A byte past the end is at the end.
    #[must_use]
    pub fn line_and_column(&self, id: TextId, at: u32) -> Option<(u32, u32)> {
        let text = self.find(id)?;
        let (line, start) = text.line((at as usize).min(text.words.len()));
        let before = text.words.get(start..at as usize).unwrap_or_default();
        Some((counted(line), counted(before.chars().count() + 1)))
    }

    /// The line at which a place begins.
    #[must_use]
    pub fn line_of(&self, place: Place) -> Option<TextLine> {
        let text = self.find(place.text)?;
        Some(TextLine { is_asked: text.is_asked, ..TextLine::new(&text.name, &text.words, place) })
    }

    fn find(&self, id: TextId) -> Option<&Text> {
        // A book's texts are numbered in their order.
        let own = self.0.get(id.0 as usize).filter(|text| text.id == id);
        own.or_else(|| self.0.iter().find(|text| text.id == id)).map(|text| &**text)
    }
}

impl Text {
    /// The line of a byte, counted from 1, and where it begins.
    fn line(&self, at: usize) -> (usize, usize) {
        let starts = self.line_starts.get_or_init(|| {
            let ends = self.words.bytes().enumerate().filter(|(_, byte)| *byte == b'\n');
            std::iter::once(0).chain(ends.map(|(at, _)| at + 1)).collect()
        });
        let line = starts.partition_point(|start| *start <= at);
        (line, line.checked_sub(1).and_then(|before| starts.get(before)).copied().unwrap_or_default())
    }
}

impl TextLine {
    /// The line of a text at which a place begins.
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
            line: counted(before.matches('\n').count() + 1),
            is_asked: false,
            words: said.split_whitespace().collect::<Vec<_>>().join(" "),
        }
    }

    /// Where it is, for a reader: file and line; a field of a question has no lines.
    #[must_use]
    pub fn at(&self) -> String {
        if self.is_asked { self.file.clone() } else { format!("{}:{}", self.file, self.line) }
    }
}

/// A text has at most `u32::MAX` bytes, and no more lines.
fn counted(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::Span;

    fn line(text: &str, start: u32) -> TextLine {
        TextLine::new("a.dough", text, Place { text: TextId(0), span: Span::new(start, start + 1) })
    }

    #[test]
    fn a_line_has_its_number_and_its_words() {
        let text = "dough Tin\n\noverall\n  water    62 %  # soft\n";
        let found = line(text, 30);
        assert_eq!((found.line, found.words.as_str()), (4, "water 62 %"));
    }

    #[test]
    fn a_place_past_the_end_does_no_harm() {
        assert_eq!(line("", 90).line, 1);
        assert_eq!(line("ä", 1).line, 1);
        let mut texts = Texts::default();
        texts.add(TextId(0), "a.dough".to_owned(), "dough Ä\nx");
        assert_eq!(texts.line_and_column(TextId(0), 90), Some((2, 1)));
    }

    #[test]
    fn lines_and_columns_are_counted_from_one() {
        let mut texts = Texts::default();
        texts.add(TextId(7), "a.dough".to_owned(), "dough Ä\n\n  water");
        let at = |byte| texts.line_and_column(TextId(7), byte);
        assert_eq!([at(0), at(8), at(9), at(12)], [Some((1, 1)), Some((1, 8)), Some((2, 1)), Some((3, 3))]);
        assert_eq!(texts.line_number(TextId(7), 12), Some(3));
        assert_eq!(texts.line_number(TextId(0), 0), None);
        assert_eq!(texts.next_id(), TextId(8));
    }
}
