//! What a converted dough is called.

use levamen_formula::key;
use levamen_language::{Problem, Statement, parse};

use crate::fault;
use crate::present::Present;
use crate::request::Request;
use crate::target::Target;
use crate::trial::Trial;

/// The most characters of a name: the language's limit.
const LONGEST: usize = 80;

/// The new dough's name: what is asked for, or what says how it differs.
pub(crate) fn new_name(
    trial: &Trial,
    old: &str,
    present: Option<&Present>,
    request: &Request,
) -> Result<String, Problem> {
    // A dough may take the place of the one that it was.
    let is_free = |name: &String| key(name) == key(old) || trial.open().book().find(name).is_none();
    if let Some(name) = &request.name {
        let name = single_spaced(name);
        check_name(trial, &name)?;
        return if is_free(&name) { Ok(name) } else { Err(fault::name_taken(&name)) };
    }
    let name = usual_name(old, present.map_or("", |present| present.name.as_str()), request.target);
    check_name(trial, &name)?;
    if is_free(&name) { Ok(name) } else { Err(fault::name_taken(&name)) }
}

/// The old name, without what says which pre-ferment is gone, and with what says how the new dough differs. A long one
/// makes room for that.
fn usual_name(old: &str, gone: &str, target: Target) -> String {
    let [old, gone] = [old, gone].map(single_spaced);
    let stem = old.strip_suffix(gone.as_str()).and_then(|stem| stem.strip_suffix(" with ")).unwrap_or(&old);
    let suffix = match target {
        Target::Straight if gone.is_empty() || gone.chars().count() > LONGEST / 2 => {
            "without its pre-ferment".to_owned()
        }
        Target::Straight => format!("without {gone}"),
        target => format!("with {}", target.name()),
    };
    let room = LONGEST.saturating_sub(suffix.chars().count() + 1);
    let mut words: Vec<&str> = stem.split(' ').collect();
    while words.len() > 1 && words.join(" ").chars().count() > room {
        words.pop();
    }
    // What is left may be one word that is too long.
    let stem: String = words.join(" ").chars().take(room).collect();
    format!("{stem} {suffix}")
}

/// A name with one space between its words.
fn single_spaced(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Whether a dough can be called so: the language reads it, and as a whole.
fn check_name(trial: &Trial, name: &str) -> Result<(), Problem> {
    let text = format!("dough {name}\n\noverall\n  flour  100 %\n");
    let parsed = parse(trial.id(), &text);
    let is_read = parsed.tree.lines.first().is_some_and(
        |line| matches!(line.statement, Statement::Dough(own) if own.spaced() == name && line.comment.is_none()),
    );
    if is_read { Ok(()) } else { Err(fault::not_a_name(name, &parsed.problems)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_usual_name_is_one_that_the_language_reads() {
        let long = "x".repeat(80);
        let words = "the longest name of a loaf that anybody in the bakehouse has ever written on a card";
        for old in ["Rye   loaf", "Rye\u{a0}loaf", long.as_str(), words, "Loaf with   poolish"] {
            for gone in ["", "poolish", "night  poolish", long.as_str()] {
                for target in Target::ALL {
                    let name = usual_name(old, gone, target);
                    assert!(name.chars().count() <= LONGEST, "{name}");
                    assert_eq!(name, single_spaced(&name));
                    let text = format!("dough {name}\n");
                    let parsed = parse(levamen_language::TextId(0), &text);
                    let Statement::Dough(read) = parsed.tree.lines[0].statement else { panic!("{name}") };
                    assert_eq!(read.text, name);
                }
            }
        }
        assert_eq!(usual_name("Loaf with  poolish", "poolish", Target::Biga), "Loaf with biga");
        assert_eq!(usual_name("Rye   loaf", "", Target::Poolish), "Rye loaf with poolish");
    }
}
