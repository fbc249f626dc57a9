//! The first line of a table: which column holds what.

use levamen_language::{Place, Problem};
use levamen_quantity::MassUnit;

use crate::fault;
use crate::table::Cell;

/// Where the three columns stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Columns {
    pub(crate) stage: usize,
    pub(crate) ingredient: usize,
    pub(crate) weight: usize,
}

/// What a column holds, as its heading says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Heading {
    Stage,
    Ingredient,
    Weight,
    /// Weights, but in a unit that the table is not said to be in.
    OtherUnit(MassUnit),
}

impl Heading {
    /// What a heading says; `None` of a column that is not read.
    fn read(words: &str, unit: MassUnit) -> Option<Self> {
        let words = words.to_lowercase();
        match words.as_str() {
            "stage" => Some(Self::Stage),
            "ingredient" => Some(Self::Ingredient),
            // The plain name of the column, whatever the unit.
            "grams" | "weight" | "amount" => Some(Self::Weight),
            _ => MassUnit::ALL
                .into_iter()
                .find(|own| own.symbol() == words)
                .map(|own| if own == unit { Self::Weight } else { Self::OtherUnit(own) }),
        }
    }
}

/// Finds the columns.
///
/// # Errors
/// What is wrong with the first line, which is `whole` of the `text`.
pub(crate) fn columns(cells: &[Cell], whole: Place, text: &str, unit: MassUnit) -> Result<Columns, Problem> {
    if cells.len() == 1
        && let Some(mark) = [';', '\t', '|'].into_iter().find(|mark| whole.span.of(text).contains(*mark))
    {
        return Err(fault::separator(whole, mark));
    }
    let column = |wanted: Heading| -> Result<Option<usize>, Problem> {
        let is_it = |(_, cell): &(usize, &Cell)| Heading::read(&cell.words, unit) == Some(wanted);
        let mut found = cells.iter().enumerate().filter(is_it);
        let (first, second) = (found.next(), found.next());
        match (first, second) {
            (Some((_, first)), Some((_, second))) => Err(fault::column_twice(first, second)),
            (first, _) => Ok(first.map(|(index, _)| index)),
        }
    };
    let stage = column(Heading::Stage)?.ok_or_else(|| fault::missing_column(whole, "stage"))?;
    let ingredient =
        column(Heading::Ingredient)?.ok_or_else(|| fault::missing_column(whole, "ingredient"))?;
    let other = |cell: &Cell| match Heading::read(&cell.words, unit) {
        Some(Heading::OtherUnit(own)) => Some(fault::other_unit(cell, own, unit)),
        _ => None,
    };
    let weight = column(Heading::Weight)?.ok_or_else(|| {
        cells.iter().find_map(other).unwrap_or_else(|| fault::missing_column(whole, "grams"))
    })?;
    Ok(Columns { stage, ingredient, weight })
}
