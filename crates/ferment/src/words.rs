//! Times, temperatures and shares inside a sentence.

use levamen_quantity::{Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};

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

/// `2 %`, with as many as two decimals where there are any.
pub(crate) fn percent(share: &Share) -> String {
    let text = share.percent().to_fixed(2);
    format!("{} %", text.trim_end_matches('0').trim_end_matches('.'))
}
