//! Words as a sentence has them: several in a row, and a noun with its article.

/// Several in a row, the last after a joint such as `and`: `salt`, `salt and water`, `salt, water and flour`; none is nothing.
///
/// ```
/// assert_eq!(levamen_language::listed(["salt", "water", "flour"], "and"), "salt, water and flour");
/// ```
#[must_use]
pub fn listed<W: AsRef<str>>(words: impl IntoIterator<Item = W>, joint: &str) -> String {
    let words: Vec<W> = words.into_iter().collect();
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.split_last() {
        Some((last, before @ [_, ..])) => format!("{} {joint} {last}", before.join(", ")),
        _ => words.concat(),
    }
}

/// The same with each word in back quotes: `` `a`, `b` or `c` ``.
#[must_use]
pub fn listed_quoted<W: AsRef<str>>(words: impl IntoIterator<Item = W>, joint: &str) -> String {
    listed(words.into_iter().map(|word| format!("`{}`", word.as_ref())), joint)
}

/// A noun with its article: `a poolish`, `an old dough`.
///
/// ```
/// assert_eq!(levamen_language::with_article("autolyse"), "an autolyse");
/// ```
#[must_use]
pub fn with_article(noun: &str) -> String {
    let article = if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {noun}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_in_a_row() {
        assert_eq!(listed([""; 0], "and"), "");
        assert_eq!(listed(["salt"], "and"), "salt");
        assert_eq!(listed(["salt", "water"], "and"), "salt and water");
        assert_eq!(listed_quoted(["a", "b", "c"], "or"), "`a`, `b` or `c`");
    }

    #[test]
    fn articles_follow_the_sound() {
        assert_eq!(with_article("old dough"), "an old dough");
        assert_eq!(with_article("levain"), "a levain");
    }
}
