//! A published formula as a dough text.

use std::fmt::Write as _;

use levamen_quantity::Exact;

use super::example::{Example, PercentForm, PercentRow, Row, exact, half_unit};

const FINAL: &str = "final dough";

/// The formula from its weights.
///
/// A stage goes whole into the next where the rows say so, if only within their rounding; where clearly more is
/// made than taken, the rest is left over.
///
/// # Errors
/// Where a figure of the file is no number.
pub fn from_weights(example: &Example) -> Result<String, String> {
    let mut text = ingredients(example);
    let _ = writeln!(text, "dough {}\n", dough_name(example));
    for stage in example.stages() {
        heading(&mut text, example, stage);
        for row in example.rows_of(stage) {
            weighed(&mut text, example, row)?;
        }
        if is_left_over(example, stage)? {
            text.push_str("  left over  rest\n");
        }
        text.push('\n');
    }
    let _ = writeln!(text, "{FINAL}");
    for row in example.rows_of(FINAL) {
        weighed(&mut text, example, row)?;
    }
    // A feeding has no dough: all that is not given back stands for it.
    if example.rows_of(FINAL).next().is_none() {
        for stage in example.stages() {
            let _ = writeln!(text, "  {stage}  rest");
        }
    }
    Ok(text)
}

/// The formula from its percentages; `None` where it has none in print.
///
/// # Errors
/// Where a figure of the file is no number.
pub fn from_percentages(example: &Example) -> Result<Option<String>, String> {
    let Some(form) = &example.percent_form else { return Ok(None) };
    let mut text = ingredients(example);
    let _ = writeln!(text, "dough {}\n\noverall", dough_name(example));
    for PercentRow(name, percent) in &form.overall {
        let _ = writeln!(text, "  {name}  {percent} %");
    }
    text.push('\n');
    for stage in example.stages() {
        heading(&mut text, example, stage);
        match form.stages.get(stage) {
            Some(rows) => percent_stage(&mut text, example, form, rows),
            None => flourless_stage(&mut text, example, stage)?,
        }
        text.push('\n');
    }
    let _ = match (&form.total_flour, &form.dough) {
        (Some(flour), _) => writeln!(text, "make {flour} {} of flour", example.unit),
        (None, Some(dough)) => writeln!(text, "make {dough} {} of dough", example.unit),
        (None, None) => Ok(()),
    };
    Ok(Some(text))
}

/// The name without the comma, which would end it.
fn dough_name(example: &Example) -> String {
    example.name.replace(',', " -")
}

/// The cultures, and those that the print counts as ingredients.
fn ingredients(example: &Example) -> String {
    let mut text = String::new();
    for name in example.weighed() {
        if example.plain.iter().any(|plain| plain == name) {
            let _ = writeln!(text, "ingredient {name}\n  source only its weight counts\n");
        } else if example.is_culture_as_ingredient(name) {
            let _ = writeln!(text, "ingredient {name}\n  source counted as a row of its own\n");
        } else if let Some(parts) = example.cultures.get(name) {
            let _ = writeln!(text, "culture {name}");
            for (part, share) in parts {
                let _ = writeln!(text, "  {part}  {share} %");
            }
            text.push('\n');
        } else if example.is_culture(name) {
            // It is given back: whatever it is made of, nothing of that is counted.
            let _ = writeln!(text, "culture {name}\n  flour  100 %\n  water  100 %\n");
        }
    }
    text
}

fn heading(text: &mut String, example: &Example, stage: &str) {
    let kind = example.kinds.get(stage).map_or("pre-ferment", String::as_str);
    let _ = writeln!(text, "stage {stage}, a {kind}");
}

/// One row of weights.
fn weighed(text: &mut String, example: &Example, Row(_, name, figure): &Row) -> Result<(), String> {
    let unit = &example.unit;
    let _ = if example.is_stage(name) {
        if is_left_over(example, name)? {
            writeln!(text, "  {name}  {figure} {unit}")
        } else {
            writeln!(text, "  {name}  rest")
        }
    } else if example.is_culture(name) {
        let fate = if example.gives_back() { ", given back" } else { "" };
        writeln!(text, "  from {name}  {figure} {unit}{fate}")
    } else {
        writeln!(text, "  {name}  {figure} {unit}")
    };
    Ok(())
}

/// Whether more of a stage is made than taken, by more than the figures are rounded.
fn is_left_over(example: &Example, stage: &str) -> Result<bool, String> {
    let (mut surplus, mut rounding) = (Exact::ZERO, Exact::ZERO);
    let mut is_taken = false;
    for Row(within, name, figure) in &example.rows {
        let value = exact(figure)?;
        if within == stage && !(example.is_culture(name) && example.gives_back()) {
            surplus += &value;
        } else if name == stage {
            is_taken = true;
            surplus -= &value;
        } else {
            continue;
        }
        rounding += &half_unit(figure);
    }
    // A seed that is given back out of a later build goes on with this one.
    let grows = example.gives_back() && example.rows_of(FINAL).all(|row| row.1 != stage);
    Ok(is_taken && !grows && surplus > rounding)
}

/// A stage in percentages of its own flour.
fn percent_stage(text: &mut String, example: &Example, form: &PercentForm, rows: &[PercentRow]) {
    let _ = writeln!(text, "  takes  {} % of the flour", form.prefermented_flour_pct);
    for PercentRow(name, percent) in rows {
        let _ = if example.is_culture(name) {
            let fate = if example.gives_back() { ", given back" } else { "" };
            writeln!(text, "  from {name}  {percent} %{fate}")
        } else {
            writeln!(text, "  {name}  {percent} %")
        };
    }
}

/// A soaker, which has no flour: its first ingredient goes in whole, the others are percentages of that.
fn flourless_stage(text: &mut String, example: &Example, stage: &str) -> Result<(), String> {
    let mut rows = example.rows_of(stage);
    let Some(Row(_, base, whole)) = rows.next() else { return Ok(()) };
    let _ = writeln!(text, "  {base}  100 % of the {base}");
    let whole = exact(whole)?;
    for Row(_, name, figure) in rows {
        let share = exact(figure)?.checked_div(&whole).ok_or("a soaker of nothing")?;
        let _ = writeln!(text, "  {name}  {} % of its {base}", &share * &Exact::HUNDRED);
    }
    Ok(())
}
