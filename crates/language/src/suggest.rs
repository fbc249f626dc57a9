//! The nearest names to a misspelt one.

/// The most letters of a word that others are compared with: our own choice, twice what a line of a book holds.
const LONGEST: usize = 120;

/// The candidates that are nearest to a word, at most three, nearest first and ties in alphabetical order.
///
/// Nearest is by the number of letters to change, add, drop or swap, capital or small; more of them are forgiven in a
/// longer word. Nothing is offered where nothing is near, and nothing for a word of more than 120 letters: to compare
/// two words takes as many steps as their lengths multiplied, and a name so long is no slip of the keyboard.
///
/// ```
/// assert_eq!(levamen_language::nearest("watr", ["water", "salt", "oat flour"]), ["water"]);
/// ```
#[must_use]
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Vec<&'c str> {
    const OFFERED: usize = 3;
    let word = word.to_lowercase();
    let length = word.chars().count();
    if length > LONGEST {
        return Vec::new();
    }
    // One slip in a word of up to four letters, two up to eight, then one more every six.
    let forgiven = if length <= 8 { length.div_ceil(4) } else { 2 + length.div_ceil(6) - 1 };
    let mut near: Vec<(usize, &str)> = candidates
        .into_iter()
        .filter(|candidate| candidate.len().abs_diff(word.len()) <= forgiven * 4)
        .map(|candidate| (strsim::osa_distance(&word, &candidate.to_lowercase()), candidate))
        .filter(|(distance, _)| *distance <= forgiven)
        .collect();
    near.sort_unstable();
    near.dedup();
    near.into_iter().take(OFFERED).map(|(_, candidate)| candidate).collect()
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn one_slip_is_forgiven_and_a_different_word_is_not() {
        assert_eq!(nearest("hidration", ["hydration", "holds"]), ["hydration"]);
        assert_eq!(nearest("slat", ["salt", "malt"]), ["salt", "malt"][..1]);
        assert!(nearest("egg", ["salt", "water"]).is_empty());
        assert!(nearest("", ["salt"]).is_empty());
    }

    #[test]
    fn ties_are_alphabetical_and_three_are_enough() {
        assert_eq!(
            nearest("flour", ["flour d", "flour c", "flour b", "flour a"]),
            ["flour a", "flour b", "flour c"]
        );
    }

    #[test]
    fn a_name_that_fills_a_page_is_compared_with_nothing() {
        let (long, other) = ("a".repeat(121), format!("{}b", "a".repeat(120)));
        assert!(nearest(&long, [other.as_str()]).is_empty());
        assert_eq!(nearest(&long[1..], [&other[1..]]), [&other[1..]]);
    }

    #[test]
    fn capitals_do_not_count() {
        assert_eq!(nearest("WATER", ["water"]), ["water"]);
    }
}
