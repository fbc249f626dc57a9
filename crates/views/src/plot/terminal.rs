//! A plot in plain characters: what any terminal and any printer shows.

use std::fmt::Write as _;

use levamen_ferment::GrowthSample;

use levamen::GrowthReport;

use super::{HEIGHT_AXIS, Plot, Trace};

/// The columns and rows inside the frame.
const COLUMNS: u32 = 64;
const ROWS: u32 = 16;
/// The characters left of the first column.
const FRAME: usize = 6;

/// A plot in plain characters.
#[must_use]
pub fn terminal(plot: &GrowthReport) -> String {
    let traces = plot.traces();
    let key: Vec<String> = traces.iter().map(|trace| format!("{} {}", trace.mark, trace.name)).collect();
    let mut out = format!("{}\n{HEIGHT_AXIS}   {}\n", plot.title, key.join("   "));
    for row in (0..=ROWS).rev() {
        let percent = row * 100 / ROWS;
        let label = if row % 4 == 0 { percent.to_string() } else { String::new() };
        let cells: String = (0..=COLUMNS).map(|column| cell(plot, &traces, column, row)).collect();
        let _ = writeln!(out, "{label:>4} |{}", cells.trim_end());
    }
    out + &feet(plot)
}

/// The mark of the most important line that passes a cell.
fn cell(plot: &GrowthReport, traces: &[&Trace], column: u32, row: u32) -> char {
    let at = f64::from(column) / f64::from(COLUMNS);
    let Some(sample) = sample_at(plot, at) else { return ' ' };
    let passes = |trace: &&&Trace| ((trace.value)(sample) * f64::from(ROWS) - f64::from(row)).abs() <= 0.5;
    if let Some(trace) = traces.iter().rev().find(passes) {
        return trace.mark;
    }
    let width = plot.hours() / f64::from(COLUMNS);
    let is_ripe = (plot.ripe_hours() - at * plot.hours()).abs() <= width / 2.0;
    if is_ripe { '.' } else { ' ' }
}

/// The sample that is nearest to a part of the time.
fn sample_at(plot: &GrowthReport, part: f64) -> Option<&GrowthSample> {
    let hours = part * plot.hours();
    let samples = &plot.curve.samples;
    let after = samples.partition_point(|sample| sample.hours < hours);
    samples.get(after).or_else(|| samples.last())
}

/// The horizontal axis with its labels.
fn feet(plot: &GrowthReport) -> String {
    let mut marks = format!("     +{}", "-".repeat(COLUMNS as usize + 1)).into_bytes();
    let mut labels = String::new();
    for (hours, label) in plot.ticks() {
        let reached = |column: &u32| f64::from(*column) * plot.hours() >= hours * f64::from(COLUMNS);
        let column = (0..COLUMNS).find(reached).unwrap_or(COLUMNS) as usize + FRAME;
        if let Some(mark) = marks.get_mut(column) {
            *mark = b'+';
        }
        let start = column.saturating_sub(label.len() / 2);
        if start > labels.len() || labels.is_empty() {
            labels += &" ".repeat(start.saturating_sub(labels.len()));
            labels += &label;
        }
    }
    let marks = String::from_utf8_lossy(&marks).into_owned();
    format!("{marks}\n{labels}\n      {}; dots: ripe\n", plot.axis())
}
