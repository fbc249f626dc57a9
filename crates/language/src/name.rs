//! Names: words, however much space is between them; and where words are in the text that they were read from.

use std::borrow::Cow;

use crate::place::{Place, Span, TextId};
use crate::space::is_blank;

/// A name as it is written, without the space around it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Name<'t> {
    /// The words.
    pub text: &'t str,
    /// Where they are.
    pub span: Span,
}

impl<'t> Name<'t> {
    /// Whether two names have the same words. The space between words does not count.
    #[must_use]
    pub fn same_as(&self, other: &Name<'_>) -> bool {
        same_words(self.text, other.text)
    }

    /// The name with one plain space between its words, the form in which names are compared and shown.
    #[must_use]
    pub fn spaced(&self) -> Cow<'t, str> {
        one_spaced(self.text)
    }
}

/// Whether two names are the same but for the space between their words. Neither has space around it.
pub(crate) fn same_words(one: &str, other: &str) -> bool {
    match one.bytes().zip(other.bytes()).find(|(a, b)| a != b) {
        None => one.len() == other.len(),
        // Two words that differ in a letter are two words; only where one of the names has space here, the
        // space may be all that differs.
        Some((a, b)) => (is_space(a) || is_space(b)) && words(one).eq(words(other)),
    }
}

/// Whether a byte is, or may be a part of, a space.
const fn is_space(byte: u8) -> bool {
    matches!(byte, b' ' | b'\t') || !byte.is_ascii()
}

/// Words with one space between them.
pub(crate) fn one_spaced(text: &str) -> Cow<'_, str> {
    if !uneven(text) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(words(text).collect::<Vec<_>>().join(" "))
}

/// Whether words have more than plain single spaces between them.
fn uneven(text: &str) -> bool {
    text.contains("  ") || text.contains(|character| character != ' ' && is_blank(character))
}

/// The words of a name.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(is_blank).filter(|word| !word.is_empty())
}

/// The text that is read. Parsers pass slices of it around and ask here where a slice is, so none of them
/// counts bytes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct LineText<'t> {
    pub(crate) id: TextId,
    pub(crate) text: &'t str,
}

impl<'t> LineText<'t> {
    /// Where a slice of this text is.
    pub(crate) fn span(self, slice: &'t str) -> Span {
        let start = slice.as_ptr().addr().wrapping_sub(self.text.as_ptr().addr());
        Span::new(offset(start), offset(start.wrapping_add(slice.len())))
    }

    /// The place of a slice of this text.
    pub(crate) fn place(self, slice: &'t str) -> Place {
        Place { text: self.id, span: self.span(slice) }
    }

    /// A name and where it is.
    pub(crate) fn name(self, text: &'t str) -> Name<'t> {
        Name { text, span: self.span(text) }
    }
}

/// An offset as it is kept in a place. A text is no longer than [`crate::MAX_BYTES`], so nothing is cut.
fn offset(bytes: usize) -> u32 {
    u32::try_from(bytes).unwrap_or(u32::MAX)
}

/// The smallest slice of `text` that holds both of its slices.
pub(crate) fn across<'t>(text: &'t str, first: &'t str, last: &'t str) -> &'t str {
    let base = text.as_ptr().addr();
    let start = first.as_ptr().addr().wrapping_sub(base);
    let end = last.as_ptr().addr().wrapping_sub(base).wrapping_add(last.len());
    text.get(start..end).unwrap_or(first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn space_between_words_does_not_count() {
        let name = |text| Name { text, span: Span::default() };
        assert!(name("rye  flour").same_as(&name("rye\tflour")));
        assert!(!name("ryeflour").same_as(&name("rye flour")));
        assert_eq!(name("rye \u{a0} flour").spaced(), "rye flour");
        assert!(matches!(name("rye flour").spaced(), Cow::Borrowed("rye flour")));
    }
}
