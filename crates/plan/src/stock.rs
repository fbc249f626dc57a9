//! What is on hand: CSV (RFC 4180) with the columns `ingredient` and `on hand`.

use std::collections::BTreeMap;

use levamen_formula::{Ingredient, IngredientId, Pantry, nearest_names, suggest};
use levamen_language::{AmountKind, Place, Problem, TextId, read_amount};
use levamen_quantity::{Exact, Mass};
use levamen_table::{Table, TableForm, TableRow};

/// The most rows that are read: far more than any store room holds.
const MAX_ROWS: usize = 10_000;

const STOCK: TableForm = TableForm {
    empty: "the table says nothing of what is on hand",
    columns: "the first line names the columns: `ingredient,on hand`",
    row: "a line for each ingredient comes under it: `medium rye flour,75 kg`",
    most_rows: MAX_ROWS,
    too_many: "is this the table that was meant? it has a row for each ingredient",
};

/// What is on hand of an ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stock {
    /// What.
    pub ingredient: IngredientId,
    /// How much.
    pub mass: Mass,
}

/// Reads what is on hand. Amounts are weights or volumes with a unit, as in the book; `0` is nothing.
///
/// # Errors
/// Everything that is wrong with the table, each with its line: what is not in the pantry, is there twice, or is no
/// weight.
pub fn read_stock(id: TextId, text: &str, pantry: &Pantry) -> Result<Vec<Stock>, Vec<Problem>> {
    let refused = |problem: Box<Problem>| vec![*problem];
    let table = Table::read(id, text, &STOCK).map_err(refused)?;
    let ingredient = table.column("ingredient").map_err(refused)?;
    let on_hand = table.column("on hand").map_err(refused)?;
    let mut seen: BTreeMap<IngredientId, Place> = BTreeMap::new();
    let (stock, problems) = table.each(|row| {
        let found = found(row, ingredient, pantry)?;
        let stock = Stock { ingredient: found, mass: mass(row, on_hand, pantry.get(found))? };
        let place = row.place_of(ingredient);
        match seen.insert(stock.ingredient, place) {
            Some(first) => Err(again(row.line(), place, first, row.words(ingredient))),
            None => Ok(stock),
        }
    });
    if problems.is_empty() { Ok(stock) } else { Err(problems) }
}

fn found(row: &TableRow<'_>, column: usize, pantry: &Pantry) -> Result<IngredientId, Box<Problem>> {
    let (words, place) = (row.words(column), row.place_of(column));
    if words.is_empty() {
        return Err(nameless(row.line(), place));
    }
    pantry.find(words).ok_or_else(|| unknown(row.line(), place, words, pantry))
}

fn mass(row: &TableRow<'_>, column: usize, of: Option<&Ingredient>) -> Result<Mass, Box<Problem>> {
    let (words, place, line) = (row.words(column), row.place_of(column), row.line());
    if words.is_empty() {
        return Err(amountless(line, place));
    }
    // In a dough an amount of nothing is a slip; in a store room it is an empty shelf.
    let number = words.trim_end_matches(|c: char| c.is_alphabetic() || c.is_whitespace());
    if Exact::from_literal(number).is_ok_and(|figure| figure.is_zero()) {
        return Ok(Mass::ZERO);
    }
    match read_amount(TextId::default(), words).map(|amount| amount.kind) {
        Ok(AmountKind::Mass(quantity)) => Ok(quantity.mass),
        Ok(AmountKind::Volume { volume, .. }) => match of.and_then(|of| of.density.as_ref()) {
            Some(density) => Ok(volume.weighs(density)),
            None => Err(no_density(line, place, words, of.map_or("it", |of| of.name.as_str()))),
        },
        Ok(_) => Err(no_weight(line, place, words)),
        Err(said) => Err(bad_amount(line, place, words, said)),
    }
}

/// How an amount is written.
const AMOUNT: &str = "write a number and g, kg, lb or oz, such as 12.5 kg";

fn in_line(code: &'static str, line: u64, message: &str) -> Problem {
    Problem::error(code, format!("line {line}: {message}"))
}

fn nameless(line: u64, place: Place) -> Box<Problem> {
    let problem = in_line("empty-cell", line, "the row names no ingredient").at(place, "of what?");
    Box::new(problem.help("write its name as in the doughs, or leave the row out"))
}

fn unknown(line: u64, place: Place, words: &str, pantry: &Pantry) -> Box<Problem> {
    let problem = in_line("unknown-ingredient", line, &format!("`{words}` is not in the pantry"))
        .at(place, "not in the pantry");
    let problem = suggest(problem, &nearest_names(words, pantry.names()));
    Box::new(problem.help("or leave the row out: what no dough uses need not be counted here"))
}

fn again(line: u64, place: Place, first: Place, words: &str) -> Box<Problem> {
    let problem = in_line("used-twice", line, &format!("`{words}` is on hand twice"))
        .at(place, "again")
        .and_at(first, "first here");
    Box::new(problem.help("write one line with the sum, or take out the one that is old"))
}

fn amountless(line: u64, place: Place) -> Box<Problem> {
    let problem = in_line("missing-amount", line, "the row says no weight").at(place, "how much?");
    Box::new(problem.help(AMOUNT).help("an empty shelf is `0 kg`"))
}

fn no_weight(line: u64, place: Place, words: &str) -> Box<Problem> {
    let problem =
        in_line("not-a-weight", line, &format!("`{words}` is no weight")).at(place, "a weight is wanted");
    Box::new(problem.help(AMOUNT))
}

fn no_density(line: u64, place: Place, words: &str, name: &str) -> Box<Problem> {
    let message = format!("`{words}`: nobody has said what a litre of {name} weighs");
    let problem = in_line("no-density", line, &message).at(place, "a weight is wanted");
    Box::new(problem.help(AMOUNT).help(format!("or give the ingredient `{name}` its density in the book")))
}

/// What the language says of an amount that it cannot read, told of a cell.
fn bad_amount(line: u64, place: Place, words: &str, said: Problem) -> Box<Problem> {
    let label = said.primary.map(|label| label.text).unwrap_or_default();
    // Alone in a cell, some of the language's messages would not say which words they mean.
    let message =
        if said.message.contains('`') { said.message } else { format!("`{words}`: {}", said.message) };
    let problem = in_line(said.code, line, &message).at(place, label);
    // What the language would write in place of no weight at all need not be one.
    let of_words = ["missing-amount", "missing-unit", "more-words"];
    let helped = !said.help.is_empty() && !of_words.contains(&said.code);
    Box::new(if helped { said.help.into_iter().fold(problem, Problem::help) } else { problem.help(AMOUNT) })
}
