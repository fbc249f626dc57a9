//! What a cell says.

use std::borrow::Cow;

/// The words of a cell, without quotes and the space around them; `None` where they are not UTF-8.
pub(crate) fn words(cell: &[u8]) -> Option<Cow<'_, str>> {
    let text = std::str::from_utf8(cell).ok()?;
    let Some(quoted) = text.strip_prefix('"') else { return Some(Cow::Borrowed(text.trim())) };
    let mut words = String::with_capacity(quoted.len());
    let mut rest = quoted;
    while let Some((inside, after)) = rest.split_once('"') {
        words.push_str(inside);
        let Some(next) = after.strip_prefix('"') else {
            // What stands after the closing quote is a part of the cell, as other readers have it.
            words.push_str(after);
            rest = "";
            break;
        };
        words.push('"');
        rest = next;
    }
    words.push_str(rest);
    Some(Cow::Owned(words.trim().to_owned()))
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn quotes_are_taken_off() {
        let said = |cell: &str| words(cell.as_bytes()).unwrap().into_owned();
        assert_eq!(said(" Rye loaf "), "Rye loaf");
        assert_eq!(said("\"Rye, \"\"dark\"\"\""), "Rye, \"dark\"");
        assert_eq!(said("\"open"), "open");
        assert_eq!(said("\"a\"b\"c"), "ab\"c");
        assert_eq!(said("12\" tin"), "12\" tin");
        assert!(words(b"\xff").is_none());
    }
}
