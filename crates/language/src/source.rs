//! From a slice of the text back to its place.

use crate::{Name, Place, Span, TextId};

/// The text that is read. Parsers pass slices of it around and ask here where a slice stands, so none of them
/// counts bytes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Source<'t> {
    pub(crate) id: TextId,
    pub(crate) text: &'t str,
}

impl<'t> Source<'t> {
    /// Where a slice of this text stands.
    pub(crate) fn span(self, slice: &'t str) -> Span {
        let start = slice.as_ptr().addr().wrapping_sub(self.text.as_ptr().addr());
        Span::new(offset(start), offset(start.wrapping_add(slice.len())))
    }

    /// The place of a slice of this text.
    pub(crate) fn place(self, slice: &'t str) -> Place {
        Place { text: self.id, span: self.span(slice) }
    }

    /// A name and where it stands.
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
