//! For how long food that spoils may stand how warm.

use levamen_quantity::{Duration, Exact, Temperature, TemperatureUnit, TimeUnit};

/// Cold enough, hot enough, in degrees Celsius: US Food Code 3-501.16.
const HELD: (i64, i64) = (5, 57);

/// The longest time in between, in hours: US Food Code 3-501.19 (B).
const LONGEST: i64 = 4;

/// Whether food that spoils is held at this temperature, so that the time does not count: 5 °C (41 °F) or colder, 57 °C
/// (135 °F) or hotter.
#[must_use]
pub fn is_held(at: &Temperature) -> bool {
    let (cold, hot) = HELD;
    let celsius = |degrees: i64| Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius);
    *at <= celsius(cold) || *at >= celsius(hot)
}

/// The longest time that food which spoils may stand in between, all stages together: 4 h.
#[must_use]
pub fn longest_warm() -> Duration {
    Duration::from_unit(&Exact::from(LONGEST), TimeUnit::Hour)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cold_or_hot_is_held() {
        let at = |degrees: i64| Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius);
        for (degrees, held) in
            [(-18, true), (5, true), (6, false), (24, false), (45, false), (56, false), (57, true)]
        {
            assert_eq!(is_held(&at(degrees)), held, "{degrees}");
        }
    }
}
