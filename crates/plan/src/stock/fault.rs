//! What can be wrong with a row of what is on hand: one function for each problem, which holds its words.

use levamen_formula::{Pantry, nearest_names, suggest};
use levamen_language::{Place, Problem};

/// How an amount is written.
const AMOUNT: &str = "write a number and g, kg, lb or oz, such as 12.5 kg";

fn told(code: &'static str, line: u64, message: &str) -> Problem {
    Problem::error(code, format!("line {line}: {message}"))
}

pub(super) fn nameless(line: u64, place: Place) -> Box<Problem> {
    let problem = told("empty-cell", line, "the row names no ingredient").at(place, "of what?");
    Box::new(problem.help("write its name as in the doughs, or leave the row out"))
}

pub(super) fn unknown(line: u64, place: Place, words: &str, pantry: &Pantry) -> Box<Problem> {
    let problem = told("unknown-ingredient", line, &format!("`{words}` is not in the pantry"))
        .at(place, "not in the pantry");
    let problem = suggest(problem, &nearest_names(words, pantry.names()));
    Box::new(problem.help("or leave the row out: what no dough uses need not be counted here"))
}

pub(super) fn again(line: u64, place: Place, first: Place, words: &str) -> Box<Problem> {
    let problem = told("used-twice", line, &format!("`{words}` is on hand twice"))
        .at(place, "again")
        .and_at(first, "first here");
    Box::new(problem.help("write one line with the sum, or take out the one that is old"))
}

pub(super) fn amountless(line: u64, place: Place) -> Box<Problem> {
    let problem = told("missing-amount", line, "the row says no weight").at(place, "how much?");
    Box::new(problem.help(AMOUNT).help("an empty shelf is `0 kg`"))
}

pub(super) fn no_weight(line: u64, place: Place, words: &str) -> Box<Problem> {
    let problem =
        told("not-a-weight", line, &format!("`{words}` is no weight")).at(place, "a weight is wanted");
    Box::new(problem.help(AMOUNT))
}

pub(super) fn no_density(line: u64, place: Place, words: &str, name: &str) -> Box<Problem> {
    let message = format!("`{words}`: nobody has said what a litre of {name} weighs");
    let problem = told("no-density", line, &message).at(place, "a weight is wanted");
    Box::new(problem.help(AMOUNT).help(format!("or give the ingredient `{name}` its density in the book")))
}

/// What the language says of an amount that it cannot read, told of a cell.
pub(super) fn amount(line: u64, place: Place, words: &str, said: Problem) -> Box<Problem> {
    let label = said.primary.map(|label| label.text).unwrap_or_default();
    // Alone in a cell, some of the language's messages would not say which words they mean.
    let message =
        if said.message.contains('`') { said.message } else { format!("`{words}`: {}", said.message) };
    let problem = told(said.code, line, &message).at(place, label);
    // What the language would write in place of no weight at all need not be one.
    let of_words = ["missing-amount", "missing-unit", "more-words"];
    let helped = !said.help.is_empty() && !of_words.contains(&said.code);
    Box::new(if helped { said.help.into_iter().fold(problem, Problem::help) } else { problem.help(AMOUNT) })
}
