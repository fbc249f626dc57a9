//! The water for a dough's temperature, before it is text or JSON.

use levamen_ferment::{Answer, Hazard, Pour, Refusal};
use levamen_quantity::{Mass, Temperature, TemperatureDifference};

/// What to pour, found in two ways.
#[derive(Debug, Clone, PartialEq)]
pub struct Poured {
    /// The dough's name.
    pub dough: String,
    /// How warm the dough shall be.
    pub wanted: Temperature,
    /// The water that is weighed into the final dough.
    pub water: Mass,
    /// The tap's temperature, where it is given.
    pub tap: Option<Temperature>,
    /// How many factors the trade's rule has here, three or four.
    pub factors: u8,
    /// The friction as a rise of the whole dough.
    pub rise: TemperatureDifference,
    /// By the trade's rule.
    pub by_rule: Result<Answer<Pour>, Refusal>,
    /// By the balance of heats.
    pub by_heats: Result<Answer<Pour>, Refusal>,
    /// What was not said and is counted with, and how the friction is known.
    pub counted_with: Vec<String>,
    /// What can hurt.
    pub hazards: Vec<Hazard>,
}
