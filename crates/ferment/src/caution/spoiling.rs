//! What spoils, and for how long it may stand how warm.

use levamen_quantity::{Duration, Temperature};

use crate::figure::{celsius, hours};

/// Cold enough, hot enough, in degrees Celsius: US Food Code 3-501.16, as in WAC 246-215-03525.
const HELD: (f64, f64) = (5.0, 57.0);

/// The longest time in between, in hours: US Food Code 3-501.19, under a written procedure.
const LONGEST: f64 = 4.0;

/// Words in the names of what spoils.
const SPOILS: [&str; 13] = [
    "egg",
    "eggs",
    "yolk",
    "yolks",
    "milk",
    "cream",
    "buttermilk",
    "whey",
    "yoghurt",
    "yogurt",
    "quark",
    "curd",
    "custard",
];

/// Words in the names of what is dry, or is no dairy at all.
const KEEPS: [&str; 8] = ["powder", "powdered", "dry", "dried", "coconut", "almond", "oat", "soya"];

/// Whether something by its name is egg or fresh dairy, which spoil.
///
/// ```
/// assert!(levamen_ferment::spoils("Whole milk"));
/// assert!(!levamen_ferment::spoils("skimmed milk powder"));
/// ```
#[must_use]
pub fn spoils(name: &str) -> bool {
    let name = name.to_lowercase();
    let has = |words: &[&str]| name.split_whitespace().any(|word| words.contains(&word));
    has(&SPOILS) && !has(&KEEPS)
}

/// Whether what spoils may not stand so long so warm; what is not said counts as too long and too warm.
#[must_use]
pub fn stands_too_long(time: Option<&Duration>, at: Option<&Temperature>) -> bool {
    let (cold, hot) = HELD;
    let is_held = at.map(celsius).is_some_and(|warmth| warmth <= cold || warmth >= hot);
    !is_held && time.is_none_or(|time| hours(time) > LONGEST)
}

#[cfg(test)]
mod tests {
    use levamen_quantity::{Exact, TemperatureUnit, TimeUnit};

    use super::*;

    #[test]
    fn four_hours_between_cold_and_hot() {
        let time = |hours: i64| Duration::from_unit(&Exact::from(hours), TimeUnit::Hour);
        let at = |degrees: i64| Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius);
        assert!(stands_too_long(Some(&time(5)), Some(&at(20))));
        assert!(!stands_too_long(Some(&time(4)), Some(&at(20))));
        assert!(!stands_too_long(Some(&time(14)), Some(&at(5))));
        assert!(!stands_too_long(Some(&time(14)), Some(&at(60))));
        assert!(stands_too_long(None, None));
    }

    #[test]
    fn names_of_what_spoils() {
        for name in ["egg", "egg yolk", "Single cream", "buttermilk", "whole yoghurt"] {
            assert!(spoils(name), "{name}");
        }
        for name in ["eggplant", "butter", "cream of tartar powder", "oat milk", "dry milk", "water"] {
            assert!(!spoils(name), "{name}");
        }
    }
}
