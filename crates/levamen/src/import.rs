//! A recipe in weights, read into a dough text.

use levamen_formula::Role;
use levamen_import::Options;
use levamen_language::{Problem, TextId};
use levamen_quantity::MassUnit;

use crate::workspace::Workspace;

/// The text of a dough from a table of weights: `stage,ingredient,grams`. Its ingredients and cultures are those of the book.
///
/// # Errors
/// What is wrong with the table, by its places in text 0.
pub fn import(
    workspace: &Workspace,
    table: &[u8],
    unit: MassUnit,
    name: String,
) -> Result<String, Vec<Problem>> {
    let entries = workspace.book().entries();
    let cultures = entries.filter(|(_, entry)| entry.role == Role::Culture);
    let cultures = cultures.map(|(_, entry)| entry.name.clone()).collect();
    levamen_import::import(TextId(0), table, &Options { unit, name, cultures }, workspace.book().pantry())
}
