//! Batches whose dough was measured, as CSV: what the friction of a mixer is learned from.

use levamen_ferment::{Factors, Measurement};
use levamen_language::{AmountKind, Problem, TextId, Texts, read_amount, read_temperature};
use levamen_quantity::{Mass, Temperature};
use levamen_table::{Table, TableForm, TableRow};

use crate::error::Error;
use crate::workspace::InputText;

const BATCHES: TableForm = TableForm {
    empty: "the table notes no batch",
    columns: "the first line names the columns: `mixer,dough,measured,flour,room,water`, `preferment` where there is one, and `of` for the dough's name",
    row: "a line for each batch comes under it: `spiral,40 kg,25.5 °C,21 °C,22 °C,18 °C`",
    most_rows: 10_000,
    too_many: "is this the table that was meant? it has a row for each measured batch",
};

/// Where the columns stand.
struct Columns {
    mixer: usize,
    dough: usize,
    measured: usize,
    flour: usize,
    room: usize,
    water: usize,
    pre_ferment: Option<usize>,
    of: Option<usize>,
}

/// A measured batch, and the name of its dough where the table has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MeasuredBatch {
    /// What was measured.
    pub noted: Measurement,
    /// The dough that it was.
    pub of: Option<String>,
}

impl AsRef<Measurement> for MeasuredBatch {
    fn as_ref(&self) -> &Measurement {
        &self.noted
    }
}

/// Reads measured batches from a table: `mixer,dough,measured,flour,room,water`, and `preferment` and `of` if there are any.
///
/// # Errors
/// What is wrong with it, row by row.
pub fn read_measured_batches(table: &InputText) -> Result<Vec<MeasuredBatch>, Error> {
    let text = table.text.clone().map_err(Error::problem)?;
    let mut texts = Texts::default();
    texts.add(TextId(0), table.name.clone(), text.as_str());
    batches(&text).map_err(|problems| Error::Problems { problems, texts })
}

fn batches(text: &str) -> Result<Vec<MeasuredBatch>, Vec<Problem>> {
    let table = Table::read(TextId(0), text, &BATCHES).map_err(|problem| vec![*problem])?;
    let columns = columns(&table).map_err(|problem| vec![*problem])?;
    let (batches, problems) = table.each(|row| batch(row, &columns));
    if problems.is_empty() { Ok(batches) } else { Err(problems) }
}

fn columns(table: &Table<'_>) -> Result<Columns, Box<Problem>> {
    Ok(Columns {
        mixer: table.column("mixer")?,
        dough: table.column("dough")?,
        measured: table.column("measured")?,
        flour: table.column("flour")?,
        room: table.column("room")?,
        water: table.column("water")?,
        pre_ferment: table.column_if_any("preferment")?,
        of: table.column_if_any("of")?,
    })
}

fn batch(row: &TableRow<'_>, columns: &Columns) -> Result<MeasuredBatch, Box<Problem>> {
    let pre_ferment = columns.pre_ferment.filter(|column| !row.words(*column).is_empty());
    let factors = Factors {
        dough: temperature(row, columns.measured)?,
        flour: temperature(row, columns.flour)?,
        room: temperature(row, columns.room)?,
        pre_ferment: pre_ferment.map(|column| temperature(row, column)).transpose()?,
    };
    let water = temperature(row, columns.water)?;
    let mixer = levamen_formula::key(row.words(columns.mixer)).into_owned();
    let of = columns.of.map(|column| row.words(column).to_owned()).filter(|name| !name.is_empty());
    Ok(MeasuredBatch { noted: Measurement { mixer, dough: mass(row, columns.dough)?, factors, water }, of })
}

fn temperature(row: &TableRow<'_>, column: usize) -> Result<Temperature, Box<Problem>> {
    let read = read_temperature(TextId(0), row.words(column));
    read.map(|(temperature, ..)| temperature)
        .map_err(|problem| no_figure(row, column, Some(problem), "a temperature"))
}

fn mass(row: &TableRow<'_>, column: usize) -> Result<Mass, Box<Problem>> {
    match read_amount(TextId(0), row.words(column)) {
        Ok(amount) => match amount.kind {
            AmountKind::Mass(quantity) => Ok(quantity.mass),
            _ => Err(no_figure(row, column, None, "a weight")),
        },
        Err(problem) => Err(no_figure(row, column, Some(problem), "a weight")),
    }
}

/// A cell that is not what stands in its column.
fn no_figure(row: &TableRow<'_>, column: usize, problem: Option<Problem>, wanted: &str) -> Box<Problem> {
    let (line, words) = (row.line(), row.words(column));
    let (code, why, mend) = match problem {
        Some(problem) => (problem.code, problem.message, problem.help),
        None => ("no-figure", format!("`{words}` is not {wanted}"), Vec::new()),
    };
    let is_number = ["decimal-comma", "thousands-mark", "fraction"].contains(&code);
    let problem = Problem::error(code, format!("line {line}: {why}"))
        .at(row.place_of(column), format!("{wanted} is wanted"));
    // Of a number that is miswritten it is said how that is written; of all else, what is wanted here.
    Box::new(match mend.into_iter().next().filter(|_| is_number) {
        Some(mend) => problem.help(mend),
        None => problem.help("write the unit too: `40 kg`, `25.5 °C` or `78 °F`"),
    })
}
