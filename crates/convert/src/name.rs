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
        let name = name.split_whitespace().collect::<Vec<_>>().join(" ");
        check_name(trial, &name)?;
        return if is_free(&name) { Ok(name) } else { Err(fault::name_taken(&name)) };
    }
    let gone = present.map_or("", |present| present.name.as_str());
    let stem = old.strip_suffix(gone).and_then(|stem| stem.strip_suffix(" with ")).unwrap_or(old);
    let suffix = match request.target {
        Target::Straight => format!("without {gone}"),
        target => format!("with {}", target.name()),
    };
    let mut name = format!("{stem} {suffix}");
    // A long name makes room for what is new.
    let mut words: Vec<&str> = stem.split(' ').collect();
    while name.chars().count() > LONGEST && words.pop().is_some() {
        name = format!("{} {suffix}", words.join(" "));
    }
    check_name(trial, &name)?;
    if is_free(&name) { Ok(name) } else { Err(fault::name_taken(&name)) }
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
