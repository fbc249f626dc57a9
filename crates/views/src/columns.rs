//! Text in columns of a terminal: how wide words are there, and words filled up to a width.
//!
//! A character of Chinese, Japanese or Korean takes two columns, an accent of its own none (Unicode Annex 11). Filling up with
//! `format!` counts characters, and would put what follows such a name in another column.

use unicode_width::UnicodeWidthStr;

/// The columns that words take.
pub fn width(words: &str) -> usize {
    words.width()
}

/// Words that begin a column, with spaces after them up to its width.
pub fn left(words: &str, width: usize) -> String {
    format!("{words}{}", spaces(words, width))
}

/// Words that end a column, with spaces before them.
pub fn right(words: &str, width: usize) -> String {
    format!("{}{words}", spaces(words, width))
}

/// A line as wide as a title, to stand under it.
pub fn underline(title: &str) -> String {
    "=".repeat(width(title))
}

/// What words lack of a width.
fn spaces(words: &str, room: usize) -> String {
    " ".repeat(room.saturating_sub(width(words)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_characters_take_two_columns_and_accents_none() {
        assert_eq!(width("\u{98df}\u{30d1}\u{30f3}"), 6);
        assert_eq!(width("cre\u{300}me"), 5);
        assert_eq!(underline("\u{30d1}\u{30f3}"), "====");
    }

    #[test]
    fn words_are_filled_up_to_a_width_and_never_cut() {
        assert_eq!(left("\u{30d1}\u{30f3}", 6), "\u{30d1}\u{30f3}  ");
        assert_eq!(right("8 g", 6), "   8 g");
        assert_eq!(left("levain", 2), "levain");
    }
}
