//! Space between words: what it is, and words without it.

/// Whether a character is space within a line. Printers set a thin or no-break space between a figure and its
/// unit, so pasted figures have them.
pub(crate) fn is_blank(character: char) -> bool {
    matches!(character, ' ' | '\t' | '\u{a0}' | '\u{2009}' | '\u{202f}')
}

/// A text without the space before it.
pub(crate) fn trim_start(text: &str) -> &str {
    let plain = text.bytes().position(|byte| byte != b' ').unwrap_or(text.len());
    let rest = text.get(plain..).unwrap_or_default();
    if rest.as_bytes().first().is_some_and(|byte| is_boundary(*byte)) {
        rest.trim_start_matches(is_blank)
    } else {
        rest
    }
}

/// A text without the space after it.
pub(crate) fn trim_end(text: &str) -> &str {
    if text.as_bytes().last().is_some_and(|byte| is_boundary(*byte)) {
        text.trim_end_matches(is_blank)
    } else {
        text
    }
}

/// A text without the space around it.
pub(crate) fn trim(text: &str) -> &str {
    trim_end(trim_start(text))
}

/// Whether a byte ends a word, or may be a part of a character that does. Telling letters by their byte alone is
/// what makes reading quick.
const fn is_boundary(byte: u8) -> bool {
    matches!(byte, b' ' | b'\t' | b',') || !byte.is_ascii()
}

/// The first word of a line and what follows it. A line that begins with a comma has an empty first word.
pub(crate) fn first_word(body: &str) -> (&str, &str) {
    let plain = body.bytes().position(is_boundary).unwrap_or(body.len());
    let end = match body.as_bytes().get(plain) {
        Some(byte) if !byte.is_ascii() => {
            body.find(|character| is_blank(character) || character == ',').unwrap_or(body.len())
        }
        _ => plain,
    };
    body.split_at(end)
}
