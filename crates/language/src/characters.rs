//! Characters that cannot be meant: invisible ones, and ones that look like another.

use crate::fault::{Fault, text as fault};
use crate::lines::RawLine;
use crate::words::first_word;

/// Refuses a line with a character that cannot be meant.
///
/// What steers a screen or is invisible is refused everywhere: it can show a line otherwise than it is read.
/// Look-alikes are left alone in comments, notes and sources, which are not read.
pub(crate) fn check<'t>(line: &RawLine<'t>) -> Result<(), Fault<'t>> {
    if line.plain {
        return Ok(());
    }
    // Most of such a line is plain: `ripens 12 h at 24 °C` has one character to look at. The body begins where the
    // whole line does, or is empty.
    let first_odd = line.whole.bytes().take_while(|byte| matches!(byte, b' '..=b'~')).count();
    let tail = |words: &'t str| words.get(first_odd..).unwrap_or_default();
    if let Some((at, name)) = find(tail(line.whole), invisible) {
        return Err(fault::odd_character(at, name, "delete it and type the words again"));
    }
    let read = !matches!(first_word(line.body).0, "note" | "source");
    match find(tail(line.body), look_alike).filter(|_| read) {
        Some((at, (name, plain))) => Err(fault::odd_character(at, name, &format!("write {plain}"))),
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

/// Control characters (but the tab) and the marks that Unicode uses without showing them: General Category Cc
/// and the bidirectional and zero-width formats of Cf.
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

/// A fraction in one character is told of as a number, not as a character.
fn is_fraction(character: char) -> bool {
    matches!(character, '¼' | '½' | '¾' | '⅐'..='⅞')
}
