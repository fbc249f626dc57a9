//! Cautions: where someone can be hurt or made ill, short, and after local codes and licensed practice.
//!
//! For how long food that spoils may stand how warm.

use levamen_quantity::{Duration, Exact, Temperature, TemperatureUnit, TimeUnit};

/// Where a caution belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hazard {
    /// Water or a scald that burns.
    HotWater,
    /// Food that spoils and stands neither cold nor hot, in a soaker, a pre-ferment or the dough.
    Spoiling,
    /// Raw flour and what is made of it.
    RawFlour,
    /// A new culture, or one that is spoiled.
    Culture,
    /// Gas in a closed container or a small room.
    CarbonDioxide,
    /// Flour in the air.
    FlourDust,
    /// Mixers and other machines.
    Mixer,
}

/// One caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// Where it belongs.
    pub hazard: Hazard,
    /// What to do.
    pub words: &'static str,
    /// Who says so.
    pub source: &'static str,
}

/// The cautions, each once.
pub const CAUTIONS: [Caution; 7] = [
    Caution {
        hazard: Hazard::HotWater,
        words: "Hot water and scalds burn: pour slowly, stand back, cover arms and feet.",
        source: "common practice",
    },
    Caution {
        hazard: Hazard::Spoiling,
        words: "Food that spoils: 5 °C (41 °F) or colder, 57 °C (135 °F) or hotter, or up to 4 h in all. Your own food code goes first.",
        source: "US Food Code 3-501.16 and 3-501.19 (B), as US health departments reproduce it",
    },
    Caution {
        hazard: Hazard::RawFlour,
        words: "Raw flour, dough and sour are not ready to eat: wash hands, tools and benches.",
        source: "US Food and Drug Administration's advice on raw flour, from memory",
    },
    Caution {
        hazard: Hazard::Culture,
        words: "A new culture is not used before it is sour after days of feeding; one that smells or looks wrong goes into the bin.",
        source: "common practice",
    },
    Caution {
        hazard: Hazard::CarbonDioxide,
        words: "Never close a tub tight: gas bursts it. Air small rooms and chests before you go in.",
        source: "common practice; 5,000 ppm over 8 h is a usual limit, from memory",
    },
    Caution {
        hazard: Hazard::FlourDust,
        words: "Flour dust causes asthma and can explode: weigh low and slowly, use extraction, have wheezing looked at.",
        source: "UK HSE, Bakery products: 10 mg/m³ over 8 h and 30 mg/m³ over 15 min, under 2 mg/m³ usually achievable; explosion from memory",
    },
    Caution {
        hazard: Hazard::Mixer,
        words: "Stop and lock off the mixer before a hand or a thermometer goes in.",
        source: "29 CFR 1910.263, EN 453, from memory",
    },
];

impl Hazard {
    /// Its caution.
    #[must_use]
    pub const fn caution(self) -> &'static Caution {
        let [water, soaker, flour, culture, gas, dust, mixer] = &CAUTIONS;
        match self {
            Self::HotWater => water,
            Self::Spoiling => soaker,
            Self::RawFlour => flour,
            Self::Culture => culture,
            Self::CarbonDioxide => gas,
            Self::FlourDust => dust,
            Self::Mixer => mixer,
        }
    }
}

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
pub fn longest_unheld() -> Duration {
    Duration::from_unit(&Exact::from(LONGEST), TimeUnit::Hour)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_hazard_has_its_own_caution() {
        for caution in &CAUTIONS {
            assert_eq!(caution.hazard.caution(), caution);
            assert!(!caution.source.is_empty());
        }
    }

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
