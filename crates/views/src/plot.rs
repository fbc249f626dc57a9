//! What grows in a pre-ferment, drawn: as SVG for paper and page, in plain characters for a terminal.

use std::fmt::Write as _;

use levamen::GrowthReport;
use levamen_ferment::GrowthSample;
use levamen_quantity::{ClockTime, TimeUnit};

use crate::drawing::{Escaped, Svg};

/// What a plot takes from the growth that it shows.
trait Plot {
    /// The lines to draw, the most important last.
    fn traces(&self) -> Vec<&'static Trace>;
    /// The hours from the start to the last sample.
    fn hours(&self) -> f64;
    /// After how many hours it is ripe.
    fn ripe_hours(&self) -> f64;
    /// Hours since the start with their labels, not too many: whole hours, or those of the clock.
    fn ticks(&self) -> Vec<(f64, String)>;
    /// What the horizontal axis says.
    fn axis(&self) -> &'static str;
}

/// One line of a plot.
struct Trace {
    name: &'static str,
    /// What stands for it in a terminal.
    mark: char,
    /// Told apart by those who see few colours: M. Okabe, K. Ito, "Color Universal Design" (2008); and in print by its dashes.
    colour: &'static str,
    dashes: &'static str,
    value: fn(&GrowthSample) -> f64,
}

const BACTERIA: Trace =
    Trace { name: "bacteria", mark: 'b', colour: "#d55e00", dashes: "7 4", value: |sample| sample.bacteria };
const YEASTS: Trace =
    Trace { name: "yeasts", mark: 'y', colour: "#0072b2", dashes: "2 4", value: |sample| sample.yeasts };
const RIPENESS: Trace =
    Trace { name: "ripeness", mark: '*', colour: "#000000", dashes: "", value: |sample| sample.ripeness };

impl Plot for GrowthReport {
    fn traces(&self) -> Vec<&'static Trace> {
        if self.curve.of_culture { vec![&BACTERIA, &YEASTS, &RIPENESS] } else { vec![&RIPENESS] }
    }

    fn hours(&self) -> f64 {
        self.curve.samples.last().map_or(0.0, |sample| sample.hours).max(0.1)
    }

    fn ripe_hours(&self) -> f64 {
        self.ripe_after.in_unit(TimeUnit::Hour).to_f64()
    }

    fn ticks(&self) -> Vec<(f64, String)> {
        let step = [1_u32, 2, 3, 4, 6, 12].into_iter().find(|step| self.hours() / f64::from(*step) <= 8.0);
        let step = step.unwrap_or(24);
        // By the clock, the first whole hour comes some minutes after the start.
        let first = self.set.map_or(0, |set| (60 - u32::from(set.minutes()) % 60) % 60);
        let minutes = (0..=80).map(|index| first + index * step * 60);
        let ticks = minutes.map(|minutes| (f64::from(minutes) / 60.0, label(self.set, minutes)));
        ticks.take_while(|(hours, _)| *hours <= self.hours()).collect()
    }

    fn axis(&self) -> &'static str {
        if self.set.is_some() { "time of day" } else { "hours after it is set" }
    }
}

/// How a time since the start is labelled: by the clock, or in hours.
fn label(set: Option<ClockTime>, minutes: u32) -> String {
    match set {
        Some(set) => ClockTime::from_minutes(i64::from(set.minutes()) + i64::from(minutes)).to_string(),
        None => (minutes / 60).to_string(),
    }
}

/// What the vertical axis says.
const HEIGHT_AXIS: &str = "% of what there is when it is ripe";

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

/// The sheet, and the frame on it, in pixels of the drawing.
const WIDTH: f64 = 760.0;
const HEIGHT: f64 = 440.0;
const LEFT: f64 = 70.0;
const RIGHT: f64 = 640.0;
const TOP: f64 = 56.0;
const BOTTOM: f64 = 372.0;

/// A plot as SVG.
#[must_use]
pub fn svg(plot: &GrowthReport) -> String {
    let mut out = Svg::new(format_args!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" width=\"{WIDTH}\" height=\"{HEIGHT}\" \
         font-family=\"sans-serif\" font-size=\"14\" fill=\"#000000\">\n\
         <title>{title}</title>\n\
         <rect width=\"{WIDTH}\" height=\"{HEIGHT}\" fill=\"#ffffff\"/>",
        title = Escaped(&plot.title),
    ));
    out.add(format_args!(
        "<text x=\"{LEFT:.1}\" y=\"30.0\" text-anchor=\"start\"><tspan font-size=\"17\">{}</tspan></text>",
        Escaped(&plot.title)
    ));
    grid(&mut out, plot);
    ripe(&mut out, plot);
    for (index, trace) in (0_u32..).zip(plot.traces()) {
        line(&mut out, plot, trace);
        key(&mut out, trace, index);
    }
    out.finish()
}

/// The frame, with a thin line at every label.
fn grid(out: &mut Svg, plot: &GrowthReport) {
    for percent in [0_u32, 25, 50, 75, 100] {
        let y = down(f64::from(percent) / 100.0);
        stroke(out, (LEFT, y), (RIGHT, y), "#bbbbbb", "");
        word(out, LEFT - 8.0, y + 5.0, "end", &percent.to_string());
    }
    for (hours, label) in plot.ticks() {
        let x = across(plot, hours);
        stroke(out, (x, TOP), (x, BOTTOM), "#dddddd", "");
        word(out, x, BOTTOM + 20.0, "middle", &label);
    }
    word(out, f64::midpoint(LEFT, RIGHT), HEIGHT - 18.0, "middle", plot.axis());
    let middle = f64::midpoint(TOP, BOTTOM);
    out.add(format_args!(
        "<text transform=\"translate(20 {middle}) rotate(-90)\" text-anchor=\"middle\">{HEIGHT_AXIS}</text>"
    ));
}

/// A line where it is ripe.
fn ripe(out: &mut Svg, plot: &GrowthReport) {
    if plot.ripe_hours() <= plot.hours() {
        let x = across(plot, plot.ripe_hours());
        stroke(out, (x, TOP), (x, BOTTOM), "#555555", "1 3");
        word(out, x, TOP - 8.0, "middle", "ripe");
    }
}

fn line(out: &mut Svg, plot: &GrowthReport, trace: &Trace) {
    let point = |sample: &GrowthSample| {
        format!("{:.1},{:.1}", across(plot, sample.hours), down((trace.value)(sample)))
    };
    let points: Vec<String> = plot.curve.samples.iter().map(point).collect();
    out.add(format_args!(
        "<polyline fill=\"none\" stroke=\"{}\" stroke-width=\"2.5\" stroke-dasharray=\"{}\" points=\"{}\"/>",
        trace.colour,
        trace.dashes,
        points.join(" ")
    ));
}

/// A line's name beside a piece of it.
fn key(out: &mut Svg, trace: &Trace, index: u32) {
    let y = TOP + 14.0 + 24.0 * f64::from(index);
    out.add(format_args!("<line x1=\"{}\" y1=\"{y}\" x2=\"{}\" y2=\"{y}\" stroke=\"{}\" stroke-width=\"2.5\" stroke-dasharray=\"{}\"/>",
        RIGHT + 12.0,
        RIGHT + 44.0,
        trace.colour,
        trace.dashes
    ));
    word(out, RIGHT + 50.0, y + 5.0, "start", trace.name);
}

fn stroke(out: &mut Svg, from: (f64, f64), to: (f64, f64), colour: &str, dashes: &str) {
    out.add(format_args!("<line x1=\"{:.1}\" y1=\"{:.1}\" x2=\"{:.1}\" y2=\"{:.1}\" stroke=\"{colour}\" stroke-dasharray=\"{dashes}\"/>",
        from.0, from.1, to.0, to.1
    ));
}

fn word(out: &mut Svg, x: f64, y: f64, anchor: &str, text: &str) {
    out.text(format_args!("x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\""), text);
}

fn across(plot: &GrowthReport, hours: f64) -> f64 {
    LEFT + (RIGHT - LEFT) * hours / plot.hours()
}

fn down(part: f64) -> f64 {
    BOTTOM - (BOTTOM - TOP) * part
}
