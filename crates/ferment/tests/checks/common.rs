//! Quantities for the tests, and how they show a refusal.

use levamen_ferment::FermentError;
use levamen_quantity::{ClockTime, Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};

pub fn exact(figure: f64) -> Exact {
    let magnitude = Exact::from_literal(&format!("{:.6}", figure.abs())).unwrap();
    if figure < 0.0 { -&magnitude } else { magnitude }
}

pub fn hours(figure: f64) -> Duration {
    Duration::from_unit(&exact(figure), TimeUnit::Hour)
}

pub fn in_hours(time: &Duration) -> f64 {
    time.in_unit(TimeUnit::Hour).to_f64()
}

pub fn celsius(figure: f64) -> Temperature {
    Temperature::from_unit(&exact(figure), TemperatureUnit::Celsius)
}

pub fn in_celsius(temperature: &Temperature) -> f64 {
    temperature.in_unit(TemperatureUnit::Celsius).to_f64()
}

pub fn percent(figure: f64) -> Share {
    Share::from_percent(exact(figure))
}

pub fn clock(text: &str) -> ClockTime {
    ClockTime::read(text).unwrap()
}

/// A refusal as a baker reads it.
pub fn drawn(refusal: &FermentError) -> String {
    let FermentError { code, message, notes, help } = refusal;
    let notes = notes.iter().map(|note| format!("\n  note: {note}"));
    let help = help.iter().map(|help| format!("\n  help: {help}"));
    format!("{code}: {message}{}", notes.chain(help).collect::<String>())
}
