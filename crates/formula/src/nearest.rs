//! Names that may be meant by one that nobody knows, and how they are offered.

use levamen_language::{Problem, nearest};

use crate::ingredient::key;

/// How many names are offered.
const OFFERED: usize = 3;

/// The nearest names; where none is misspelt so, those that say more or less than the name: `oil` may be `olive oil`,
/// and `warm water` is `water`.
#[must_use]
pub fn nearest_names<'n>(name: &str, known: impl Iterator<Item = &'n str>) -> Vec<&'n str> {
    let known: Vec<&str> = known.collect();
    let misspelt = nearest(name, known.iter().copied());
    if !misspelt.is_empty() {
        return misspelt;
    }
    let wanted = key(name);
    let mut similar: Vec<&str> = known
        .into_iter()
        .filter(|known| holds(&key(known), &wanted) || holds(&wanted, &key(known)))
        .collect();
    // The one that shares most with it comes first, and names of one length in the order of the alphabet.
    similar.sort_by_key(|known| (known.len().abs_diff(name.len()), *known));
    similar.dedup();
    similar.truncate(OFFERED);
    similar
}

/// Whether a name has every word of another.
fn holds(name: &str, part: &str) -> bool {
    part.split(' ').all(|word| name.split(' ').any(|other| other == word))
}

/// Offers the nearest names as a way to mend a problem.
#[must_use]
pub fn suggest(problem: Problem, close: &[&str]) -> Problem {
    match close {
        [] => problem,
        [one] => problem.help(format!("did you mean `{one}`?")),
        [first @ .., last] => {
            let first: Vec<String> = first.iter().map(|name| format!("`{name}`")).collect();
            problem.help(format!("did you mean {} or `{last}`?", first.join(", ")))
        }
    }
}

/// A way to mend it, which comes after `or` where another one was offered.
pub(crate) fn otherwise(problem: Problem, way: &str) -> Problem {
    let joint = if problem.help.is_empty() { "" } else { "or " };
    problem.help(format!("{joint}{way}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    const KNOWN: [&str; 5] = ["water", "olive oil", "rapeseed oil", "salt", "strong white flour"];

    fn offered(name: &str) -> Vec<&str> {
        nearest_names(name, KNOWN.into_iter())
    }

    #[test]
    fn a_slip_is_nearer_than_a_part() {
        assert_eq!(offered("watr"), ["water"]);
        assert_eq!(offered("strong wite flour"), ["strong white flour"]);
    }

    #[test]
    fn a_name_may_say_more_or_less_than_the_pantry() {
        assert_eq!(offered("Oil"), ["olive oil", "rapeseed oil"]);
        assert_eq!(offered("warm water"), ["water"]);
        assert_eq!(offered("white flour"), ["strong white flour"]);
        assert!(offered("oilcloth").is_empty());
    }

    #[test]
    fn the_second_way_is_an_alternative_and_the_only_one_is_not() {
        let alone = otherwise(Problem::error("x", "x"), "do this");
        assert_eq!(alone.help, ["do this".into()]);
        assert_eq!(otherwise(alone, "do that").help, ["do this".into(), "or do that".into()]);
    }
}
