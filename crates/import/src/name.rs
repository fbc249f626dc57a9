//! Names that a dough text can hold.
//!
//! The language says what a name is, so it is asked: the name is set into a line as it would be written, and must
//! be read from there as it was.

use levamen_language::{Hint, SeedSource, Statement, TextId, parse};

/// What a name is to stand for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) enum NameRole {
    Dough,
    Stage,
    Ingredient,
    Culture,
}

/// Why a text cannot hold a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum NameError {
    /// It has no words.
    Empty,
    /// A comma would end it.
    Comma,
    /// A comment would begin in it.
    NumberSign,
    /// It begins with a word that says something else.
    FirstWord(String),
    /// Its last number and the amount after it would be one number.
    NumberAtEnd,
    /// An amount would begin in it.
    Amount,
    /// What the language says of such names, and how to mend it.
    Said(String, Vec<Hint>),
}

/// What the language says of names alone.
const OF_NAMES: [&str; 3] = ["long-name", "name-without-letter", "odd-character"];

/// Checks that a text can hold a name, with the amount that will stand after it.
pub(crate) fn check(name: &str, role: NameRole, amount: &str) -> Result<(), NameError> {
    if name.is_empty() {
        return Err(NameError::Empty);
    }
    if name.contains('#') {
        return Err(NameError::NumberSign);
    }
    if name.contains(',') {
        return Err(NameError::Comma);
    }
    if is_held(name, role, amount) {
        return Ok(());
    }
    let problem = parse(TextId::default(), &document(name, role, amount)).problems.into_iter().next();
    match problem {
        Some(problem) if OF_NAMES.contains(&problem.code) => {
            Err(NameError::Said(problem.message, problem.help))
        }
        Some(problem) if problem.code == "thousands-mark" => Err(NameError::NumberAtEnd),
        // With a plain word before it, a name is held unless something within it is at fault.
        _ if is_held(&format!("some {name}"), role, amount) => {
            Err(NameError::FirstWord(name.split(' ').next().unwrap_or_default().to_owned()))
        }
        _ => Err(NameError::Amount),
    }
}

/// A short text that uses a name as it will be used.
fn document(name: &str, role: NameRole, amount: &str) -> String {
    match role {
        NameRole::Dough => format!("dough {name}\nfinal dough\n  flour {amount}\n"),
        NameRole::Ingredient => format!("dough a\nfinal dough\n  {name} {amount}\n"),
        NameRole::Stage => {
            format!("dough a\nstage {name}, a levain\n  flour {amount}\nfinal dough\n  {name} {amount}\n")
        }
        NameRole::Culture => {
            format!("dough a\nfinal dough\n  from {name} {amount}, stays\nculture {name}\n  flour {amount}\n")
        }
    }
}

/// Whether each use of a name is read as that name.
fn is_held(name: &str, role: NameRole, amount: &str) -> bool {
    let text = document(name, role, amount);
    let parsed = parse(TextId::default(), &text);
    let uses = parsed.tree.lines.iter().filter_map(|line| match &line.statement {
        Statement::Dough(name) | Statement::Culture(name) => Some(name.text),
        Statement::Stage(heading) => Some(heading.name.text),
        Statement::Weigh(weigh) => Some(weigh.name.text),
        Statement::From(from) => match from.source {
            SeedSource::Named(name) => Some(name.text),
            SeedSource::ThisDough(_) => None,
        },
        _ => None,
    });
    let wanted = if role == NameRole::Stage || role == NameRole::Culture { 2 } else { 1 };
    parsed.problems.is_empty() && uses.filter(|read| *read == name).count() >= wanted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_held_if_they_are_read_as_they_are_written() {
        for name in
            ["rye flour", "type 550 flour", "T65 flour", "00 flour", "rest of the starter", "crème fraîche"]
        {
            assert_eq!(check(name, NameRole::Ingredient, "200 g"), Ok(()), "{name}");
        }
        assert_eq!(check("flour", NameRole::Ingredient, "200 g"), Ok(()));
        assert_eq!(check("final dough", NameRole::Ingredient, "200 g"), Ok(()));
        assert_eq!(check("night levain", NameRole::Stage, "200 g"), Ok(()));
        assert_eq!(check("mother culture", NameRole::Culture, "200 g"), Ok(()));
        assert_eq!(check("Bread no. 7", NameRole::Dough, "200 g"), Ok(()));
    }

    #[test]
    fn names_that_would_be_read_otherwise_are_not() {
        assert_eq!(check("butter, salted", NameRole::Ingredient, "200 g"), Err(NameError::Comma));
        assert_eq!(check("flour #1", NameRole::Ingredient, "200 g"), Err(NameError::NumberSign));
        assert_eq!(check("butter 82 % fat", NameRole::Ingredient, "200 g"), Err(NameError::Amount));
        assert_eq!(check("levain 1", NameRole::Stage, "200 g"), Err(NameError::NumberAtEnd));
        assert_eq!(check("levain 1", NameRole::Stage, "20 g"), Ok(()));
        assert_eq!(check("1 kg flour", NameRole::Ingredient, "200 g"), Err(NameError::Amount));
        for name in ["from the mill", "takes", "note paper", "Ripens well", "left over bread"] {
            let first = name.split(' ').next().unwrap_or_default().to_owned();
            assert_eq!(
                check(name, NameRole::Ingredient, "200 g"),
                Err(NameError::FirstWord(first)),
                "{name}"
            );
        }
        assert!(matches!(check("1234", NameRole::Ingredient, "200 g"), Err(NameError::Said(..))));
        assert!(matches!(
            check(&"long ".repeat(20), NameRole::Ingredient, "200 g"),
            Err(NameError::Said(..))
        ));
        assert!(matches!(
            check("rye\u{200b} flour", NameRole::Ingredient, "200 g"),
            Err(NameError::Said(..))
        ));
        assert!(check("", NameRole::Dough, "200 g").is_err());
        assert!(check("this dough", NameRole::Culture, "200 g").is_err());
    }
}
