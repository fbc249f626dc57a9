//! The water to pour: warm, from the tap, or with ice.

use levamen_quantity::{Mass, Temperature};

use super::ice::{Iced, iced};
use crate::figure::celsius;
use crate::refusal::{Answer, Refusal, Remark};
use crate::words::degrees;

/// Yeast dies between 50 and 60 °C: common practice, no source. Rye bakers pour such water on flour all the same.
const KILLS_YEAST: f64 = 50.0;

/// Water is no hotter.
const BOILS: f64 = 100.0;

/// Water over this is kept off the yeast: common practice, no source (40 to 43 °C).
const HOT: f64 = 40.0;

/// The water to pour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pour {
    /// How warm it has to be; under 0 °C where ice has to melt in the dough.
    pub at: Temperature,
    /// Ice and tap water that come to the same, where the tap is too warm.
    pub iced: Option<Iced>,
}

/// What to pour for water of a temperature, with a tap that may be too warm for it.
///
/// # Errors
/// Water hotter than it boils; a temperature that not even ice reaches; one under 0 °C without a tap's temperature.
pub fn pour(at: Temperature, water: &Mass, tap: Option<&Temperature>) -> Result<Answer<Pour>, Refusal> {
    let warmth = celsius(&at);
    if warmth >= BOILS {
        return Err(Refusal::new(
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
        Some(tap) if *tap > at || celsius(tap) < 0.0 => Some(iced(water, tap, &at)?),
        None if warmth < 0.0 => {
            return Err(Refusal::new(
                "ice-is-needed",
                format!("the water would have to be {}: it takes ice", degrees(&at)),
            )
            .help("give the temperature of the tap, such as --tap 14°C, and the ice is worked out"));
        }
        _ => None,
    };
    Ok(Answer { found: Pour { at, iced }, remarks })
}
