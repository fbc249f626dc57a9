//! Characters that cannot be meant: invisible ones, and ones that look like another. In a dough they are refused.
//!
//! Text of another origin, such as a name in an order, a file name or an argument, is not refused but shown with such
//! characters written out: as they are they could hide, colour or forge what a baker reads.

use std::borrow::Cow;

use crate::lines::RawLine;
use crate::problems::text as text_problems;
use crate::space::first_word;
use crate::syntax_error::SyntaxError;

/// Refuses a line with a character that cannot be meant.
///
/// What steers a screen or is invisible is refused everywhere: it can show a line otherwise than it is read.
/// Look-alikes are left alone in comments, notes and sources, which are not read.
pub(crate) fn check<'t>(line: &RawLine<'t>) -> Result<(), SyntaxError<'t>> {
    if line.plain {
        return Ok(());
    }
    // Most of such a line is plain: `ripens 12 h at 24 °C` has one character to look at. The body begins where the
    // whole line does, or is empty.
    let first_odd = line.whole.bytes().take_while(|byte| matches!(byte, b' '..=b'~')).count();
    let tail = |words: &'t str| words.get(first_odd..).unwrap_or_default();
    if let Some((at, name)) = find(tail(line.whole), invisible) {
        return Err(text_problems::odd_character(at, name, "delete it and type the words again"));
    }
    let read = !matches!(first_word(line.body).0, "note" | "source");
    match find(tail(line.body), look_alike).filter(|_| read) {
        Some((at, (name, plain))) => Err(text_problems::odd_character(at, name, &format!("write {plain}"))),
        None => Ok(()),
    }
}

/// The first character of a text for which there is something to say.
fn find<T>(text: &str, say: impl Fn(char) -> Option<T>) -> Option<(&str, T)> {
    // Characters begin at the bytes that continue none, and those of printable ASCII have nothing to say of.
    let odd = |(_, byte): &(usize, u8)| !matches!(byte, b' '..=b'~' | 0x80..=0xbf);
    text.bytes().enumerate().filter(odd).find_map(|(offset, _)| {
        let character = text.get(offset..)?.chars().next()?;
        let at = text.get(offset..offset + character.len_utf8())?;
        say(character).map(|said| (at, said))
    })
}

/// Control characters (but the tab), what Unicode shows as nothing, and blanks that are letters to a program: General Category Cc,
/// the property `Default_Ignorable_Code_Point` (from memory of Unicode's `DerivedCoreProperties`), the line separators,
/// the marks of annotations, and the empty Braille pattern.
pub(crate) fn invisible(character: char) -> Option<&'static str> {
    match character {
        '\t' => None,
        '\r' => Some("a carriage return within a line"),
        '\u{7f}' => Some("a control character"),
        '\u{200b}'..='\u{200d}' | '\u{2060}' => Some("an invisible space"),
        '\u{feff}' => Some("a byte order mark within the text"),
        '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{61c}' => {
            Some("an invisible mark that turns the direction of writing")
        }
        '\u{ad}' => Some("an invisible hyphen"),
        '\u{2028}' | '\u{2029}' => Some("an invisible line end"),
        '\u{115f}' | '\u{1160}' | '\u{3164}' | '\u{ffa0}' | '\u{2800}' => Some("an invisible letter"),
        '\u{180b}'..='\u{180d}' | '\u{180f}' | '\u{fe00}'..='\u{fe0f}' | '\u{e0100}'..='\u{e01ef}' => {
            Some("an invisible mark that chooses the shape of a letter")
        }
        '\u{e0000}'..='\u{e007f}' => Some("an invisible tag"),
        '\u{34f}'
        | '\u{17b4}'
        | '\u{17b5}'
        | '\u{180e}'
        | '\u{2061}'..='\u{2065}'
        | '\u{206a}'..='\u{206f}'
        | '\u{fff0}'..='\u{fffb}'
        | '\u{1bca0}'..='\u{1bca3}'
        | '\u{1d173}'..='\u{1d17a}'
        | '\u{e0080}'..='\u{e0fff}' => Some("an invisible mark"),
        control if control.is_control() => Some("a control character"),
        _ => None,
    }
}

/// Characters that are taken for another, and what to write.
fn look_alike(character: char) -> Option<(&'static str, &'static str)> {
    Some(match character {
        '％' | '﹪' | '٪' => ("a wide or foreign per cent sign", "%"),
        '‰' => ("a per mille sign", "per cent: 2 ‰ is 0.2 %"),
        'º' | '˚' | '⁰' => ("a sign that only looks like the degree sign", "°C or °F with the sign °"),
        '℃' => ("a degree Celsius in one character", "°C"),
        '℉' => ("a degree Fahrenheit in one character", "°F"),
        '㎏' => ("a kilogram in one character", "kg"),
        '，' | '、' => ("a wide comma", "a plain comma"),
        '．' | '。' => ("a wide point", "a plain point"),
        '＃' => ("a wide number sign", "#"),
        '\u{3000}' | '\u{2000}'..='\u{2008}' | '\u{200a}' | '\u{205f}' | '\u{1680}' => {
            ("an unusual space", "a plain space")
        }
        digit if digit.is_numeric() && !digit.is_ascii() && !is_fraction(digit) => {
            ("a digit of another script", "the digits 0 to 9")
        }
        _ => return None,
    })
}

/// A fraction in one character is reported as a number, not as a character.
fn is_fraction(character: char) -> bool {
    matches!(character, '¼' | '½' | '¾' | '⅐'..='⅞')
}

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
    fn what_is_shown_as_nothing_is_invisible_in_every_script() {
        let letter = Some("an invisible letter");
        assert_eq!(['\u{115f}', '\u{3164}', '\u{ffa0}', '\u{2800}'].map(invisible), [letter; 4]);
        let shape = Some("an invisible mark that chooses the shape of a letter");
        assert_eq!(['\u{180b}', '\u{fe00}', '\u{fe0f}', '\u{e01ef}'].map(invisible), [shape; 4]);
        assert_eq!(['\u{e0001}', '\u{e0041}', '\u{e007f}'].map(invisible), [Some("an invisible tag"); 3]);
        let mark = Some("an invisible mark");
        assert_eq!(['\u{34f}', '\u{180e}', '\u{2061}', '\u{fffb}', '\u{e0fff}'].map(invisible), [mark; 5]);
        // Their neighbours are seen.
        assert_eq!(
            ['\u{350}', '\u{3163}', '\u{3165}', '\u{fe10}', '\u{fffc}', '\u{fffd}'].map(invisible),
            [None; 6]
        );
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
