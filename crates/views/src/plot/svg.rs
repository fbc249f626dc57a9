//! A plot as SVG 1.1: a few lines and words, written out.

use levamen_ferment::GrowthSample;

use levamen::GrowthReport;

use super::{HEIGHT_AXIS, Plot, Trace};
use crate::xml::{Escaped, Svg};

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
