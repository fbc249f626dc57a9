//! A dough with another pre-ferment.

use levamen_convert::ConversionRequest;
use levamen_formula::FormulaId;
use levamen_language::TextId;
use levamen_sheets::ConversionSheet;

use crate::error::Error;
use crate::workspace::Workspace;

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
