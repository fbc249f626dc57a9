//! Names that a dough text can hold.
//!
//! The language says what a name is, so it is asked: the name is set into a line as it would be written, and must
//! be read from there as it was.

use levamen_language::{SeedSource, Statement, TextId, parse};

/// What a name is to stand for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) enum Role {
    Dough,
    Stage,
    Ingredient,
    Culture,
}

/// Why a text cannot hold a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Wrong {
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
    Said(String, Vec<String>),
}

/// What the language says of names alone.
const OF_NAMES: [&str; 3] = ["long-name", "name-without-letter", "odd-character"];

/// Checks that a text can hold a name, with the amount that will stand after it.
pub(crate) fn check(name: &str, role: Role, amount: &str) -> Result<(), Wrong> {
    if name.is_empty() {
        return Err(Wrong::Empty);
    }
    if name.contains('#') {
        return Err(Wrong::NumberSign);
    }
    if name.contains(',') {
        return Err(Wrong::Comma);
    }
    if is_held(name, role, amount) {
        return Ok(());
    }
    let problem = parse(TextId::default(), &document(name, role, amount)).problems.into_iter().next();
    match problem {
        Some(problem) if OF_NAMES.contains(&problem.code) => Err(Wrong::Said(problem.message, problem.help)),
        Some(problem) if problem.code == "thousands-mark" => Err(Wrong::NumberAtEnd),
        // With a plain word before it, a name is held unless something within it is at fault.
        _ if is_held(&format!("some {name}"), role, amount) => {
            Err(Wrong::FirstWord(name.split(' ').next().unwrap_or_default().to_owned()))
        }
        _ => Err(Wrong::Amount),
    }
}

/// A short text that uses a name as it will be used.
fn document(name: &str, role: Role, amount: &str) -> String {
    match role {
        Role::Dough => format!("dough {name}\nfinal dough\n  flour {amount}\n"),
        Role::Ingredient => format!("dough a\nfinal dough\n  {name} {amount}\n"),
        Role::Stage => {
            format!("dough a\nstage {name}, a levain\n  flour {amount}\nfinal dough\n  {name} {amount}\n")
        }
        Role::Culture => {
            format!("dough a\nfinal dough\n  from {name} {amount}, stays\nculture {name}\n  flour {amount}\n")
        }
    }
}

/// Whether each use of a name is read as that name.
fn is_held(name: &str, role: Role, amount: &str) -> bool {
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
    let wanted = if role == Role::Stage || role == Role::Culture { 2 } else { 1 };
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
            assert_eq!(check(name, Role::Ingredient, "200 g"), Ok(()), "{name}");
        }
        assert_eq!(check("flour", Role::Ingredient, "200 g"), Ok(()));
        assert_eq!(check("final dough", Role::Ingredient, "200 g"), Ok(()));
        assert_eq!(check("night levain", Role::Stage, "200 g"), Ok(()));
        assert_eq!(check("mother culture", Role::Culture, "200 g"), Ok(()));
        assert_eq!(check("Bread no. 7", Role::Dough, "200 g"), Ok(()));
    }

    #[test]
    fn names_that_would_be_read_otherwise_are_not() {
        assert_eq!(check("butter, salted", Role::Ingredient, "200 g"), Err(Wrong::Comma));
        assert_eq!(check("flour #1", Role::Ingredient, "200 g"), Err(Wrong::NumberSign));
        assert_eq!(check("butter 82 % fat", Role::Ingredient, "200 g"), Err(Wrong::Amount));
        assert_eq!(check("levain 1", Role::Stage, "200 g"), Err(Wrong::NumberAtEnd));
        assert_eq!(check("levain 1", Role::Stage, "20 g"), Ok(()));
        assert_eq!(check("1 kg flour", Role::Ingredient, "200 g"), Err(Wrong::Amount));
        for name in ["from the mill", "takes", "note paper", "Ripens well", "left over bread"] {
            let first = name.split(' ').next().unwrap_or_default().to_owned();
            assert_eq!(check(name, Role::Ingredient, "200 g"), Err(Wrong::FirstWord(first)), "{name}");
        }
        assert!(matches!(check("1234", Role::Ingredient, "200 g"), Err(Wrong::Said(..))));
        assert!(matches!(check(&"long ".repeat(20), Role::Ingredient, "200 g"), Err(Wrong::Said(..))));
        assert!(matches!(check("rye\u{200b} flour", Role::Ingredient, "200 g"), Err(Wrong::Said(..))));
        assert!(check("", Role::Dough, "200 g").is_err());
        assert!(check("this dough", Role::Culture, "200 g").is_err());
    }
}
