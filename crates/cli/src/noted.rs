//! Batches whose dough was measured, as CSV: what the friction of a mixer is learned from.

use std::path::Path;

use levamen_ferment::{Factors, Noted};
use levamen_language::{AmountKind, Problem, TextId, read_amount, read_temperature};
use levamen_quantity::{Mass, Temperature};
use levamen_table::{Form, Row, Table};

use crate::failure::Failure;
use crate::input;
use crate::render::Texts;

const BATCHES: Form = Form {
    empty: "the table notes no batch",
    columns: "the first line names the columns: `mixer,dough,measured,flour,room,water`, and `preferment` where there is one",
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
}

/// Reads the noted batches of a file.
///
/// # Errors
/// The file cannot be read, or every row that is wrong.
pub fn read(path: &Path) -> Result<Vec<Noted>, Failure> {
    let shown = path.display().to_string();
    let text = input::text_file(path, &shown, TextId(0)).map_err(Failure::problem)?;
    let mut texts = Texts::default();
    texts.add(TextId(0), shown, text.clone());
    let found = batches(&text);
    found.map_err(|problems| Failure::Problems { problems, texts })
}

fn batches(text: &str) -> Result<Vec<Noted>, Vec<Problem>> {
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
    })
}

fn batch(row: &Row<'_>, columns: &Columns) -> Result<Noted, Box<Problem>> {
    let pre_ferment = columns.pre_ferment.filter(|column| !row.words(*column).is_empty());
    let factors = Factors {
        dough: temperature(row, columns.measured)?,
        flour: temperature(row, columns.flour)?,
        room: temperature(row, columns.room)?,
        pre_ferment: pre_ferment.map(|column| temperature(row, column)).transpose()?,
    };
    let water = temperature(row, columns.water)?;
    let mixer = levamen_formula::key(row.words(columns.mixer)).into_owned();
    Ok(Noted { mixer, dough: mass(row, columns.dough)?, factors, water })
}

fn temperature(row: &Row<'_>, column: usize) -> Result<Temperature, Box<Problem>> {
    let read = read_temperature(TextId(0), row.words(column));
    read.map(|(temperature, ..)| temperature)
        .map_err(|problem| no_figure(row, column, Some(problem), "a temperature"))
}

fn mass(row: &Row<'_>, column: usize) -> Result<Mass, Box<Problem>> {
    match read_amount(TextId(0), row.words(column)) {
        Ok(amount) => match amount.kind {
            AmountKind::Mass(quantity) => Ok(quantity.mass),
            _ => Err(no_figure(row, column, None, "a weight")),
        },
        Err(problem) => Err(no_figure(row, column, Some(problem), "a weight")),
    }
}

/// A cell that is not what stands in its column.
fn no_figure(row: &Row<'_>, column: usize, problem: Option<Problem>, wanted: &str) -> Box<Problem> {
    let (line, words) = (row.line(), row.words(column));
    let (code, why) = problem.map_or(("no-figure", format!("`{words}` is not {wanted}")), |problem| {
        (problem.code, problem.message)
    });
    let problem = Problem::error(code, format!("line {line}: {why}"))
        .at(row.place_of(column), format!("{wanted} is wanted"));
    Box::new(problem.help("write the unit too: `40 kg`, `25.5 °C` or `78 °F`"))
}
