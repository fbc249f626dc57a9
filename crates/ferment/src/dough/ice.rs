//! Ice in place of part of the water.
//!
//! Ice at 0 °C melts and warms up by what the tap's water cools down by:
//! ice × (L + c × wanted) = (water − ice) × c × (tap − wanted), so ice = water × c × (tap − wanted) / (L + c × tap). The ice is
//! taken from the formula's water, so that the dough is no wetter. With L/c near 80 °C that is the trade's
//! ice = water × (tap − wanted) / (tap + 80). An article on the matter divides by wanted + 80 and prints 4.4 kg for 40 kg of
//! water from 20 to 10 °C; that is ice *on top of* 40 kg, and its own 35.6 and 4.4 kg come to 9 °C.

use levamen_quantity::{Exact, Mass, Temperature, TemperatureUnit};

use super::heat::SpecificHeat;
use crate::refusal::Refusal;
use crate::words::degrees;

/// What melting takes, in tenths of a joule by the gram: 333.6 (333.4 to 334.6 in use).
pub const ICE_COLD: i64 = 3336;

const UNIT: TemperatureUnit = TemperatureUnit::Celsius;

/// Water of the formula, part of it as ice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Iced {
    /// Ice at 0 °C.
    pub ice: Mass,
    /// Water from the tap.
    pub tap: Mass,
}

/// How much of the water is ice so that all of it is as if it were at a wanted temperature, which may be under
/// 0 °C: then the dough melts the rest.
///
/// # Errors
/// The tap is colder than what is wanted, or frozen; even ice alone is not cold enough.
pub fn iced(water: &Mass, tap: &Temperature, wanted: &Temperature) -> Result<Iced, Refusal> {
    let (tap_warmth, wanted_warmth) = (tap.in_unit(UNIT), wanted.in_unit(UNIT));
    if tap_warmth.is_negative() {
        return Err(Refusal::new("frozen-tap", format!("no water runs from a tap at {}", degrees(tap)))
            .help("give the temperature of the water as it runs"));
    }
    if tap_warmth < wanted_warmth {
        return Err(Refusal::new(
            "no-ice",
            format!("the tap at {} is colder than the water wanted", degrees(tap)),
        ));
    }
    let heat = SpecificHeat::water();
    let cooling = heat.kilojoules() * &(&tap_warmth - &wanted_warmth);
    let melting = &melting() + &(heat.kilojoules() * &tap_warmth);
    let part = cooling.checked_div(&melting).unwrap_or_default();
    if part > Exact::ONE {
        return Err(Refusal::new(
            "not-cold-enough",
            format!("even with ice for all the water, {} is not reached", degrees(wanted)),
        )
        .note(format!("ice alone is like water at {}", degrees(&coldest())))
        .help("cool the flour, or the pre-ferment, or mix more gently"));
    }
    let ice = Mass::from_grams(water.grams() * &part);
    let tap = water - &ice;
    Ok(Iced { ice, tap })
}

/// The temperature of water that would cool as much as ice alone does: about -80 °C.
#[must_use]
pub fn coldest() -> Temperature {
    let below = melting().checked_div(SpecificHeat::water().kilojoules()).unwrap_or_default();
    Temperature::from_unit(&-&below, UNIT)
}

fn melting() -> Exact {
    Exact::ratio(ICE_COLD, 10).unwrap_or_default()
}
