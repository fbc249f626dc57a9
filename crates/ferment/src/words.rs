//! Times and temperatures inside a sentence.

use levamen_quantity::{Duration, Exact, Temperature, TemperatureUnit, TimeUnit};

/// `21 °C`, with a decimal where there is one.
pub(crate) fn degrees(at: &Temperature) -> String {
    let text = at.in_unit(TemperatureUnit::Celsius).to_fixed(1);
    format!("{} °C", text.strip_suffix(".0").unwrap_or(&text))
}

/// `13 h 20 min`
pub(crate) fn time(time: &Duration) -> String {
    let minutes = time.in_unit(TimeUnit::Minute).round_to(&Exact::ONE);
    let hours = (&minutes / &Exact::from(60)).floor();
    let rest = &minutes - &(&hours * &Exact::from(60));
    match (hours.is_zero(), rest.is_zero()) {
        (true, _) => format!("{} min", rest.to_fixed(0)),
        (false, true) => format!("{} h", hours.to_fixed(0)),
        (false, false) => format!("{} h {} min", hours.to_fixed(0), rest.to_fixed(0)),
    }
}
