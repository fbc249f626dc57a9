//! An amount or a fact on its own, as it is given on a command line.

use levamen_quantity::{Exact, Temperature, TemperatureUnit};

use crate::fault::{amount as fault, block as block_fault};
use crate::measure;
use crate::outline::Section;
use crate::source::Source;
use crate::statement::{self, amount};
use crate::words::trim;
use crate::{Amount, Problem, Statement, TextId, Weigh};

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

/// Reads a fact that stands alone, as under a section of a dough text.
///
/// ```
/// use levamen_language::{Statement, TextId, read_fact};
///
/// assert!(matches!(read_fact(TextId(0), "water in final dough 500 g"), Ok(Statement::Weigh(_))));
/// ```
///
/// # Errors
/// What is wrong with it: the problem that a text with this line would have.
pub fn read_fact(id: TextId, text: &str) -> Result<Statement<'_>, Problem> {
    let source = Source { id, text };
    match statement::read(source, trim(text), Some(Section::Unknown)) {
        // A figure that is wanted goes in at no time.
        Ok(Statement::Weigh(Weigh { when: Some(when), .. })) => {
            Err(block_fault::no_time(when.text, Section::Want).into_problem(source))
        }
        read => read.map_err(|wrong| wrong.into_problem(source)),
    }
}

/// Reads a temperature that stands alone. The degree sign may be left out, which few keyboards have.
///
/// ```
/// use levamen_language::{TextId, read_temperature};
/// use levamen_quantity::TemperatureUnit;
///
/// let (_, figure, unit) = read_temperature(TextId(0), "70F").unwrap();
/// assert_eq!((figure.to_fixed(0).as_str(), unit), ("70", TemperatureUnit::Fahrenheit));
/// assert!(read_temperature(TextId(0), "21 C").is_ok() && read_temperature(TextId(0), "21").is_err());
/// ```
///
/// # Errors
/// What is wrong with it: the problem that a text with this temperature would have.
pub fn read_temperature(id: TextId, text: &str) -> Result<(Temperature, Exact, TemperatureUnit), Problem> {
    let words = trim(text);
    let signed = ['C', 'F', 'c', 'f'].into_iter().find_map(|letter| {
        let figure = words.strip_suffix(letter)?.trim_end();
        let is_figure = figure.ends_with(|last: char| last.is_ascii_digit());
        is_figure.then(|| format!("{figure} °{}", letter.to_ascii_uppercase()))
    });
    let source = format!("ripens 1 h at {}", signed.as_deref().unwrap_or(words));
    match read_fact(id, &source)? {
        Statement::Ripens(ripens) => ripens.temperature.ok_or_else(|| {
            Problem::error("no-figure", format!("`{words}` is not a temperature"))
                .help("write a number and °C or °F, such as 21 °C")
        }),
        _ => Err(Problem::error("no-figure", format!("`{words}` is not a temperature"))
            .help("write a number and °C or °F, such as 21 °C")),
    }
}
