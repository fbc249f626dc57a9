//! An amount on its own, as it is given on a command line.

use crate::fault::amount as fault;
use crate::measure;
use crate::source::Source;
use crate::statement::amount;
use crate::words::trim;
use crate::{Amount, Problem, TextId};

/// Reads an amount that stands alone, by the same rules as in a dough text.
///
/// ```
/// use levamen_language::{AmountKind, TextId, read_amount};
///
/// let amount = read_amount(TextId(0), "4.2 kg").unwrap();
/// assert!(matches!(amount.kind, AmountKind::Mass(_)));
/// assert_eq!(read_amount(TextId(0), "4,2 kg").unwrap_err().code, "decimal-comma");
/// ```
///
/// # Errors
/// What is wrong with it: the problem that a text with this amount would have.
#[expect(clippy::result_large_err, reason = "a command line has a few amounts, and a problem ends it")]
pub fn read_amount(id: TextId, text: &str) -> Result<Amount<'_>, Problem> {
    let source = Source { id, text };
    let body = trim(text);
    let read = || {
        let split = measure::split(body)?.filter(|split| split.name.is_empty());
        let Some(split) = split else { return Err(fault::alone(body)) };
        let (amount, after) = amount::amount(source, &split)?;
        amount::nothing_more(&split, after, "AMOUNT")?;
        Ok(amount)
    };
    read().map_err(|wrong| wrong.into_problem(source))
}
