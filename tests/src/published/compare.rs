//! A balance against every figure in print.

use levamen_balance::Balance;

use super::example::{Example, PercentForm, Row, exact, half_unit, places};
use super::figures::Figures;
use super::rounding::is_within;

/// What does not agree: a line for each figure.
pub type Mismatches = Vec<String>;

/// The figures, printed and worked out, that a dough from the printed weights does not have.
///
/// # Errors
/// Where the file is not what an example is.
pub fn from_weights(example: &Example, balance: &Balance) -> Result<Mismatches, String> {
    let figures = Figures { balance, unit: example.mass_unit()? };
    let mut wrong = Vec::new();
    for (path, printed) in example.printed_figures() {
        if example.within_rounding.contains(&path) {
            if !is_within(example, &figures, &path, &printed)? {
                wrong.push(mismatch(&figures, &path, &printed, "beyond rounding"));
            }
        } else if !agrees(&figures, &path, &printed) {
            wrong.push(mismatch(&figures, &path, &printed, "printed"));
        }
    }
    for (path, printed) in example.computed_figures() {
        if !agrees(&figures, &path, &printed) {
            wrong.push(mismatch(&figures, &path, &printed, "worked out"));
        }
    }
    wrong.extend(taken_in(example, &figures)?);
    Ok(wrong)
}

/// The weights and figures that a dough from the printed percentages does not have.
///
/// # Errors
/// Where the file is not what an example is.
pub fn from_percentages(example: &Example, balance: &Balance) -> Result<Mismatches, String> {
    let form = example.percent_form.as_ref().ok_or("has no percentages")?;
    let figures = Figures { balance, unit: example.mass_unit()? };
    let mut wrong = Vec::new();
    for Row(stage, name, printed) in &example.rows {
        let found = figures.cell(stage, name).to_fixed(places(printed));
        let same = &found == printed;
        let named_as_different = form.differs.contains(&(stage.clone(), name.clone()));
        if same == named_as_different {
            wrong.push(format!("{stage}/{name}: {found}, printed {printed}, differs: {named_as_different}"));
        }
    }
    wrong.extend(not_in_rows(example, &figures)?);
    for (path, printed) in example.printed_figures() {
        let same = if differs(form, &path) {
            true
        } else if is_from_weights(form, &path) {
            is_within(example, &figures, &path, &printed)?
        } else {
            agrees(&figures, &path, &printed)
        };
        if !same {
            wrong.push(mismatch(&figures, &path, &printed, "printed"));
        }
    }
    Ok(wrong)
}

/// Whether a printed percentage is one of a stage that is not given in percentages: its source can only have worked
/// it out from the rounded weights.
fn is_from_weights(form: &PercentForm, path: &str) -> bool {
    match path.split('/').collect::<Vec<_>>().as_slice() {
        ["stage_pct" | "stage_total_pct", stage, ..] => !form.stages.contains_key(*stage),
        _ => false,
    }
}

fn agrees(figures: &Figures<'_>, path: &str, printed: &str) -> bool {
    figures.get(path).is_some_and(|figure| figure.to_fixed(places(printed)) == printed)
}

fn mismatch(figures: &Figures<'_>, path: &str, printed: &str, how: &str) -> String {
    let found = figures.get(path).map_or_else(|| "nothing".to_owned(), |figure| figure.to_string());
    format!("{path}: {found}, {how} {printed}")
}

/// Printed weights of stages that go into others, against what the rows of those stages come to.
fn taken_in(example: &Example, figures: &Figures<'_>) -> Result<Mismatches, String> {
    let mut wrong = Vec::new();
    for Row(stage, name, printed) in example.rows.iter().filter(|row| example.is_stage(&row.1)) {
        let found = figures.cell(stage, name);
        let rounding = example.rows_of(name).map(|row| half_unit(&row.2)).sum::<levamen_quantity::Exact>();
        let off = (&found - &exact(printed)?).abs();
        if off > &rounding + &half_unit(printed) {
            wrong.push(format!("{stage}/{name}: {found}, printed {printed}"));
        }
    }
    Ok(wrong)
}

/// Whether a printed figure depends on a weight that the percentages are known not to give.
fn differs(form: &PercentForm, path: &str) -> bool {
    let differs = |stage: &str, name: &str| form.differs.iter().any(|(s, n)| s == stage && n == name);
    let any_in = |stage: &str| form.differs.iter().any(|(s, n)| s == stage || n == stage);
    match path.split('/').collect::<Vec<_>>().as_slice() {
        ["overall", name] => differs("overall", name),
        ["stage_pct", stage, name] => differs(stage, name),
        ["stage_total" | "stage_total_pct", stage] => any_in(stage),
        _ => false,
    }
}

/// Lines of the dough that the print does not have; what rounds to nothing is not there.
fn not_in_rows(example: &Example, figures: &Figures<'_>) -> Result<Mismatches, String> {
    let mut wrong = Vec::new();
    for stage in &figures.balance.stages {
        let Some(Row(_, _, like)) = example.rows_of(&stage.name).next() else { continue };
        for line in &stage.lines {
            let is_printed = example.rows_of(&stage.name).any(|row| row.1 == line.name);
            let found = figures.cell(&stage.name, &line.name);
            if !is_printed && found.to_fixed(places(like)) != exact("0")?.to_fixed(places(like)) {
                wrong.push(format!("{}/{}: {found}, not printed", stage.name, line.name));
            }
        }
    }
    Ok(wrong)
}
