//! Places in a text, and the places of words that were read from it.

use crate::Name;

/// A half-open range of bytes in one text: `start..end`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The first byte.
    pub start: u32,
    /// The byte after the last.
    pub end: u32,
}

impl Span {
    /// The range `start..end`.
    #[must_use]
    pub const fn new(start: u32, end: u32) -> Self {
        Self { start, end }
    }

    /// The smallest range that holds both.
    #[must_use]
    pub fn to(self, other: Self) -> Self {
        Self { start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// The words at this place.
    #[must_use]
    pub fn of(self, text: &str) -> &str {
        text.get(self.start as usize..self.end as usize).unwrap_or_default()
    }
}

/// Which text of a book a place is in: an index into the list of texts that the caller keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct TextId(pub u32);

/// A place in a book: a text and a range in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Place {
    /// The text.
    pub text: TextId,
    /// The range in it.
    pub span: Span,
}

/// The text that is read. Parsers pass slices of it around and ask here where a slice is, so none of them
/// counts bytes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct LineSource<'t> {
    pub(crate) id: TextId,
    pub(crate) text: &'t str,
}

impl<'t> LineSource<'t> {
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
