//! The water to pour: warm, from the tap, or with ice.
//!
//! Ice in place of part of the water.
//!
//! Ice at 0 °C melts and warms up by what the tap's water cools down by:
//! ice × (L + c × wanted) = (water − ice) × c × (tap − wanted), so ice = water × c × (tap − wanted) / (L + c × tap). The ice is
//! taken from the formula's water, so that the dough is no wetter. With L/c near 80 °C that is the trade's
//! ice = water × (tap − wanted) / (tap + 80). An article on the matter divides by wanted + 80 and prints 4.4 kg for 40 kg of
//! water from 20 to 10 °C; that is ice *on top of* 40 kg, and its own 35.6 and 4.4 kg come to 9 °C.

use levamen_language::{AskedField, Hint};
use levamen_quantity::{Exact, Mass, Temperature, TemperatureUnit};

use crate::answer::{Answer, FermentError, Remark, celsius, degrees};
use crate::heat::SpecificHeat;

/// Yeast dies between 50 and 60 °C: common practice, no source. Rye bakers pour such water on flour all the same.
const KILLS_YEAST: f64 = 50.0;

/// Water is no hotter.
const BOILS: f64 = 100.0;

/// Water over this is kept off the yeast: common practice, no source (40 to 43 °C).
const HOT: f64 = 40.0;

/// The water to pour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MixingWater {
    /// How warm it has to be; under 0 °C where ice has to melt in the dough.
    pub at: Temperature,
    /// Ice and tap water that come to the same, where the tap is too warm.
    pub iced: Option<IcedWater>,
}

/// What to pour for water of a temperature, with a tap that may be too warm for it.
///
/// # Errors
/// Water hotter than it boils; a temperature that not even ice reaches; one under 0 °C without a tap's temperature.
pub fn mixing_water(
    at: Temperature,
    water: &Mass,
    tap: Option<&Temperature>,
) -> Result<Answer<MixingWater>, FermentError> {
    let warmth = celsius(&at);
    if warmth >= BOILS {
        return Err(FermentError::new(
            "hotter-than-boiling",
            format!("the water would have to be {}, and it boils at 100 °C", degrees(&at)),
        )
        .help("warm the flour, the room or the bowl, or settle for a cooler dough and more time"));
    }
    let mut remarks = Vec::new();
    if warmth >= KILLS_YEAST {
        let message = format!(
            "water at {} scalds hands and kills yeast and sour (50 to 60 °C: common practice): pour it on flour alone, stir, and let \
             it cool under 40 °C before yeast, seed or a pre-ferment goes in",
            degrees(&at)
        );
        remarks.push(Remark::new("scalding-water", message));
    } else if warmth > HOT {
        let message = format!(
            "water at {} is poured on the flour first, not on the yeast (over 40 to 43 °C: common practice)",
            degrees(&at)
        );
        remarks.push(Remark::new("hot-water", message));
    }
    let iced = match tap {
        Some(tap) if *tap > at || celsius(tap) < 0.0 => Some(iced_water(water, tap, &at)?),
        None if warmth < 0.0 => {
            return Err(FermentError::new(
                "ice-is-needed",
                format!("the water would have to be {}: it takes ice", degrees(&at)),
            )
            .help(Hint::of_field(
                "give the temperature of the tap, such as ",
                AskedField::Tap,
                " 14°C, and the ice is worked out",
            )));
        }
        _ => None,
    };
    Ok(Answer { found: MixingWater { at, iced }, remarks })
}

/// What melting takes, in tenths of a joule by the gram: 333.6 (333.4 to 334.6 in use).
pub const ICE_COLD: i64 = 3336;

const UNIT: TemperatureUnit = TemperatureUnit::Celsius;

/// Water of the formula, part of it as ice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IcedWater {
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
pub fn iced_water(water: &Mass, tap: &Temperature, wanted: &Temperature) -> Result<IcedWater, FermentError> {
    let (tap_warmth, wanted_warmth) = (tap.in_unit(UNIT), wanted.in_unit(UNIT));
    if tap_warmth.is_negative() {
        return Err(FermentError::new("frozen-tap", format!("no water runs from a tap at {}", degrees(tap)))
            .help("give the temperature of the water as it runs"));
    }
    if tap_warmth < wanted_warmth {
        return Err(FermentError::new(
            "no-ice",
            format!("the tap at {} is colder than the water wanted", degrees(tap)),
        ));
    }
    let heat = SpecificHeat::water();
    let cooling = heat.kilojoules() * &(&tap_warmth - &wanted_warmth);
    let melting = &melting() + &(heat.kilojoules() * &tap_warmth);
    let Some(part) = cooling.checked_div(&melting) else {
        return Err(FermentError::internal("ice that takes no heat to melt"));
    };
    if part > Exact::ONE {
        return Err(FermentError::new(
            "not-cold-enough",
            format!("even with ice for all the water, {} is not reached", degrees(wanted)),
        )
        .note(format!("ice alone is like water at {}", degrees(&coldest())))
        .help("cool the flour, or the pre-ferment, or mix more gently"));
    }
    let ice = Mass::from_grams(water.grams() * &part);
    let tap = water - &ice;
    Ok(IcedWater { ice, tap })
}

/// The temperature of water that would cool as much as ice alone does: about -80 °C.
#[must_use]
pub fn coldest() -> Temperature {
    let below = &melting() / SpecificHeat::water().kilojoules();
    Temperature::from_unit(&-&below, UNIT)
}

fn melting() -> Exact {
    &Exact::from(ICE_COLD) / &Exact::from(10)
}
