//! From the text of a table to its rows: which column holds what, and what each row says.

use levamen_language::{Place, Problem, TextId};
use levamen_quantity::{Mass, MassUnit};
use levamen_table::{TableRow, TableRows};

use crate::recipe::{MAX_ROWS, RecipeCell, RecipeRow, one_spaced};
use crate::{problems, weight};

/// Reads the rows of a table, and reports what is error with it.
pub(crate) fn read(id: TextId, text: &str, unit: MassUnit, problems: &mut Vec<Problem>) -> Vec<RecipeRow> {
    let mut records = TableRows::new(id, text).map(|row| cells(&row));
    let Some(first) = records.next() else {
        problems.push(problems::no_rows(None));
        return Vec::new();
    };
    let whole = whole(&first);
    let columns = match find_columns(&first, whole, text, unit) {
        Ok(columns) => columns,
        Err(problem) => {
            problems.push(problem);
            return Vec::new();
        }
    };
    let mut rows = Vec::new();
    for cells in records {
        if cells.iter().all(|cell| cell.words.is_empty()) {
            continue;
        }
        if rows.len() == MAX_ROWS {
            problems.push(problems::too_many_rows(self::whole(&cells)));
            break;
        }
        rows.extend(row(&cells, first.len(), columns, unit, problems));
    }
    if rows.is_empty() && problems.is_empty() {
        problems.push(problems::no_rows(Some(whole)));
    }
    rows
}

/// One row; `None` where it does not say what is weighed.
fn row(
    cells: &[RecipeCell],
    width: usize,
    columns: RecipeColumns,
    unit: MassUnit,
    problems: &mut Vec<Problem>,
) -> Option<RecipeRow> {
    let whole = whole(cells);
    if let Some(broken) = cells.iter().find(|cell| cell.is_broken) {
        problems.push(problems::broken_cell(broken));
        return None;
    }
    if let Some(extra) = cells.iter().skip(width).find(|cell| !cell.words.is_empty()) {
        problems.push(problems::extra_cell(extra, cells, width));
        return None;
    }
    // A row that ends early has empty cells at its end.
    let line = cells.first().map_or(0, |cell| cell.line);
    let cell = |index: usize| match cells.get(index) {
        Some(cell) if !cell.words.is_empty() => cell.clone(),
        _ => RecipeCell { words: String::new(), place: whole, line, is_broken: false },
    };
    let (stage, ingredient, figure) = (cell(columns.stage), cell(columns.ingredient), cell(columns.weight));
    if ingredient.words.is_empty() {
        problems.push(problems::missing_ingredient(&ingredient));
        return None;
    }
    let mass = weight::read(&figure.words, unit).unwrap_or_else(|error| {
        problems.push(error.problem(&figure, &ingredient));
        Mass::ZERO
    });
    Some(RecipeRow { stage, ingredient, figure, mass })
}

/// The cells of a row of a table.
fn cells(row: &TableRow<'_>) -> Vec<RecipeCell> {
    let cell = |cell: &levamen_table::TableCell| RecipeCell {
        words: one_spaced(&cell.words),
        place: cell.place,
        line: row.line(),
        is_broken: cell.words.trim().contains('\n'),
    };
    row.cells().iter().map(cell).collect()
}

/// The place of a whole record.
fn whole(cells: &[RecipeCell]) -> Place {
    let ends = cells.first().zip(cells.last());
    ends.map_or_else(Place::default, |(first, last)| Place {
        text: first.place.text,
        span: first.place.span.to(last.place.span),
    })
}

/// Where the three columns stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct RecipeColumns {
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
/// What is error with the first line, which is `whole` of the `text`.
pub(crate) fn find_columns(
    cells: &[RecipeCell],
    whole: Place,
    text: &str,
    unit: MassUnit,
) -> Result<RecipeColumns, Problem> {
    if cells.len() == 1
        && let Some(mark) = [';', '\t', '|'].into_iter().find(|mark| whole.span.of(text).contains(*mark))
    {
        return Err(problems::separator(whole, mark));
    }
    let column = |wanted: Heading| -> Result<Option<usize>, Problem> {
        let is_it = |(_, cell): &(usize, &RecipeCell)| Heading::read(&cell.words, unit) == Some(wanted);
        let mut found = cells.iter().enumerate().filter(is_it);
        let (first, second) = (found.next(), found.next());
        match (first, second) {
            (Some((_, first)), Some((_, second))) => Err(problems::column_twice(first, second)),
            (first, _) => Ok(first.map(|(index, _)| index)),
        }
    };
    let stage = column(Heading::Stage)?.ok_or_else(|| problems::missing_column(whole, "stage"))?;
    let ingredient =
        column(Heading::Ingredient)?.ok_or_else(|| problems::missing_column(whole, "ingredient"))?;
    let other = |cell: &RecipeCell| match Heading::read(&cell.words, unit) {
        Some(Heading::OtherUnit(own)) => Some(problems::other_unit(cell, own, unit)),
        _ => None,
    };
    let weight = column(Heading::Weight)?.ok_or_else(|| {
        cells.iter().find_map(other).unwrap_or_else(|| problems::missing_column(whole, "grams"))
    })?;
    Ok(RecipeColumns { stage, ingredient, weight })
}
