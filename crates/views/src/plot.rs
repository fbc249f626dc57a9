//! What grows in a pre-ferment, drawn: as SVG for paper and page, in plain characters for a terminal.

mod svg;
mod terminal;

pub use svg::svg;
pub use terminal::terminal;

use levamen::GrowthReport;
use levamen_ferment::GrowthSample;
use levamen_quantity::{ClockTime, TimeUnit};

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
