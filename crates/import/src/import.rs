//! The way of a recipe from table to text.

use levamen_formula::Pantry;
use levamen_language::{Problem, TextId, decode, tidy};

use crate::flow::Flow;
use crate::gather::gather;
use crate::name::NameRole;
use crate::problems::MAX_PROBLEMS;
use crate::recipe::{Options, one_spaced};
use crate::{name, problems, seed, table, write};

/// Writes a recipe in weights as a dough text in canonical layout.
///
/// `table` is CSV with the columns `stage`, `ingredient` and `grams` in any order, as the crate's own page says.
/// `pantry` says which names are ingredients.
///
/// # Errors
/// Everything that is wrong with the table, in its order. Places are in the table, as the text `id`; each message
/// names the line.
pub fn import(id: TextId, table: &[u8], options: &Options, pantry: &Pantry) -> Result<String, Vec<Problem>> {
    let mut problems = Vec::new();
    problems.extend(
        name::check(&one_spaced(&options.name), NameRole::Dough, "1 g").err().map(problems::dough_name),
    );
    let text = decode(id, table).map_err(|problem| vec![problem])?;
    let rows = table::read(id, text, options.unit, &mut problems);
    let mut recipe = gather(&rows, options.unit, pantry, &mut problems);
    let cultures = seed::find(&mut recipe, options, pantry, &mut problems);
    // The sums of a table that was not understood would only mislead.
    if problems.is_empty() && !recipe.has_flour() {
        problems.push(problems::no_flour());
    }
    if problems.is_empty() {
        match Flow::trace(&recipe) {
            Ok(flow) => return laid_out(&write::text(&recipe, &flow, &cultures, options)),
            Err(wrong) => problems.extend(wrong),
        }
    }
    Err(in_order(problems))
}

/// Problems in the order of the table, and at the end that there are more.
fn in_order(mut problems: Vec<Problem>) -> Vec<Problem> {
    problems.sort_by_key(|problem| problem.primary.as_ref().map(|label| label.place.span));
    if problems.len() > MAX_PROBLEMS {
        problems.truncate(MAX_PROBLEMS);
        problems.push(problems::more_problems());
    }
    problems
}

/// The text in canonical layout. Every name and weight in it was read before, so nothing is found here; if
/// something were, its places would not be in the table.
fn laid_out(text: &str) -> Result<String, Vec<Problem>> {
    let without_places = |problem: Problem| Problem { primary: None, secondary: Vec::new(), ..problem };
    tidy(TextId::default(), text).map_err(|problems| problems.into_iter().map(without_places).collect())
}
