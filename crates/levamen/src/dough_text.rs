//! Questions whose answer is a dough text: a dough with another pre-ferment, a recipe in weights, texts in canonical layout.

use levamen_convert::ConversionRequest;
use levamen_formula::{FormulaId, Role};
use levamen_import::Options;
use levamen_language::{Problem, TextId, Texts, tidy};
use levamen_quantity::MassUnit;
use levamen_sheets::ConversionSheet;

use crate::error::Error;
use crate::workspace::{InputText, Workspace};

/// Turns a dough's pre-ferment into another. The texts for which `is_going` holds are read as if they were not there: the result
/// takes their place.
///
/// # Errors
/// The dough does not balance, or cannot be converted as it is asked.
pub fn convert(
    workspace: &Workspace,
    id: FormulaId,
    request: &ConversionRequest,
    is_going: impl Fn(TextId) -> bool,
) -> Result<ConversionSheet, Error> {
    let balance = workspace.balance(id)?;
    let [mut book, over] = workspace.layers();
    book.retain(|(text, _)| !is_going(*text));
    let converted = levamen_convert::convert(&[&book, &over], &balance.dough, request);
    converted.map(ConversionSheet::new).map_err(|problems| workspace.fail(problems))
}

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

/// What laying out some texts comes to.
#[derive(Debug, Default)]
pub struct LayoutReport {
    /// The texts that are another than before, each by its number among those that were given.
    pub changed: Vec<(usize, String)>,
    /// What keeps a text from being laid out: it could not be read, or has errors.
    pub problems: Vec<Problem>,
    /// The texts that the problems are in.
    pub texts: Texts,
}

/// Lays texts out; each stands by itself.
#[must_use]
pub fn lay_out(texts: Vec<InputText>) -> LayoutReport {
    let mut report = LayoutReport::default();
    for ((index, InputText { name, text }), id) in texts.into_iter().enumerate().zip((0..).map(TextId)) {
        match text.map_err(|problem| vec![problem]).map(|text| (tidy(id, &text), text)) {
            Ok((Ok(tidied), text)) if tidied == text => {}
            Ok((Ok(tidied), _)) => report.changed.push((index, tidied)),
            Ok((Err(found), text)) => {
                report.problems.extend(found);
                report.texts.add(id, name, text);
            }
            Err(unread) => report.problems.extend(unread),
        }
    }
    report
}
