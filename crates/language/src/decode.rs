//! From the bytes of a file to a text.

use crate::fault::text as fault;
use crate::{Place, Problem, Span, TextId};

/// The most bytes that are read of one text. A longer one is one problem, and nothing of it is parsed.
pub const MAX_BYTES: usize = 32 << 20;

/// The text that some bytes are.
///
/// Nothing is taken away: a byte order mark stays, and [`crate::parse`] passes over it.
///
/// # Errors
/// A [`Problem`] where the bytes are more than [`MAX_BYTES`] or not UTF-8; it names the line and the byte in
/// the line.
pub fn decode(id: TextId, bytes: &[u8]) -> Result<&str, Problem> {
    if bytes.len() > MAX_BYTES {
        return Err(fault::too_long(bytes.len()).at(Place { text: id, span: Span::default() }, ""));
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let before = bytes.get(..error.valid_up_to()).unwrap_or_default();
        let line = memchr::memchr_iter(b'\n', before).count() + 1;
        let start = memchr::memrchr(b'\n', before).map_or(0, |end| end + 1);
        let mut problem = fault::not_utf8(line, before.len() - start + 1);
        // The bytes cannot be shown, so the place says only which text it is.
        problem.primary =
            Some(crate::Label { place: Place { text: id, span: Span::default() }, text: String::new() });
        problem
    })
}
