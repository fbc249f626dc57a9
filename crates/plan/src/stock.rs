//! What is on hand: CSV (RFC 4180) with the columns `ingredient` and `on hand`.

mod fault;

use std::collections::BTreeMap;

use levamen_formula::{Ingredient, IngredientId, Pantry};
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
            Some(first) => Err(fault::again(row.line(), place, first, row.words(ingredient))),
            None => Ok(stock),
        }
    });
    if problems.is_empty() { Ok(stock) } else { Err(problems) }
}

fn found(row: &TableRow<'_>, column: usize, pantry: &Pantry) -> Result<IngredientId, Box<Problem>> {
    let (words, place) = (row.words(column), row.place_of(column));
    if words.is_empty() {
        return Err(fault::nameless(row.line(), place));
    }
    pantry.find(words).ok_or_else(|| fault::unknown(row.line(), place, words, pantry))
}

fn mass(row: &TableRow<'_>, column: usize, of: Option<&Ingredient>) -> Result<Mass, Box<Problem>> {
    let (words, place, line) = (row.words(column), row.place_of(column), row.line());
    if words.is_empty() {
        return Err(fault::amountless(line, place));
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
            None => Err(fault::no_density(line, place, words, of.map_or("it", |of| of.name.as_str()))),
        },
        Ok(_) => Err(fault::no_weight(line, place, words)),
        Err(said) => Err(fault::amount(line, place, words, said)),
    }
}
