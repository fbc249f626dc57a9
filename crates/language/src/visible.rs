//! Text of any origin as it may be shown.
//!
//! A name may come from an order, a file name or an argument, where nobody refused characters that steer a screen. Shown as
//! they are they could hide, colour or forge what a baker reads. Here they are written out, such as `\u{1b}`.

use std::borrow::Cow;

use crate::characters::invisible;

/// A text for one line: line ends and whatever is invisible or steers a screen are written out.
///
/// ```
/// use levamen_language::visible;
///
/// assert_eq!(visible("Café Alder"), "Café Alder");
/// assert_eq!(visible("Alder\u{1b}[2K\nBeech"), "Alder\\u{1b}[2K\\u{a}Beech");
/// ```
#[must_use]
pub fn visible(text: &str) -> Cow<'_, str> {
    shown(text, |_| false)
}

/// A text of several lines: as [`visible`], but for the ends of its lines, with or without a carriage return.
#[must_use]
pub fn visible_lines(text: &str) -> Cow<'_, str> {
    shown(text, |rest| rest.starts_with('\n') || rest.starts_with("\r\n"))
}

/// The first character of a text that cannot be seen, and what it is.
#[must_use]
pub fn first_invisible(text: &str) -> Option<(char, &'static str)> {
    if is_plain(text) {
        return None;
    }
    let name = |character| match character {
        '\n' | '\r' => Some("a line end"),
        other => invisible(other),
    };
    text.chars().find_map(|character| Some((character, name(character)?)))
}

/// Writes odd characters out, but for those where the rest of the text begins with an end of a line.
fn shown(text: &str, ends_line: impl Fn(&str) -> bool) -> Cow<'_, str> {
    let is_odd = |(at, character): &(usize, char)| {
        *character != '\t' && invisible(*character).is_some() && !text.get(*at..).is_some_and(&ends_line)
    };
    if is_plain(text) || !text.char_indices().any(|found| is_odd(&found)) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len() + 8);
    for found in text.char_indices() {
        if is_odd(&found) {
            shown.extend(found.1.escape_unicode());
        } else {
            shown.push(found.1);
        }
    }
    Cow::Owned(shown)
}

/// Whether all of it is printable ASCII, as most text is.
fn is_plain(text: &str) -> bool {
    text.bytes().all(|byte| matches!(byte, b' '..=b'~'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_screen_is_written_out() {
        assert_eq!(visible("a\u{9b}2Jb\u{202e}c\u{200b}d\0"), "a\\u{9b}2Jb\\u{202e}c\\u{200b}d\\u{0}");
        assert_eq!(visible("a\r\nb"), "a\\u{d}\\u{a}b");
        assert_eq!(visible_lines("a\tb\nc\u{7}\n"), "a\tb\nc\\u{7}\n");
        assert_eq!(visible_lines("a\r\nb\rc"), "a\r\nb\\u{d}c");
        assert_eq!(visible("žitná mouka, 24 °C"), "žitná mouka, 24 °C");
    }

    #[test]
    fn the_first_invisible_character_is_named() {
        assert_eq!(first_invisible("Café Alder"), None);
        assert_eq!(
            first_invisible("Al\u{202e}der"),
            Some(('\u{202e}', "an invisible mark that turns the direction of writing"))
        );
        assert_eq!(first_invisible("Al\nder"), Some(('\n', "a line end")));
    }
}
