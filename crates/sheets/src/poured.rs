//! The water for a dough's temperature, before it is text or JSON.

use levamen_ferment::{Answer, FermentError, Hazard, MixingWater};
use levamen_quantity::{Mass, Share, Temperature, TemperatureDifference};

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
    /// How much mixing warms the whole dough.
    pub rise: TemperatureDifference,
    /// Whether the balance of heats is the better founded of the two: something in the dough is fermented, or is neither flour
    /// nor water and more than a little.
    pub heats_lead: bool,
    /// What is neither flour nor water, as a share of the dough.
    pub beside: Share,
    /// By the trade's rule.
    pub by_rule: Result<Answer<MixingWater>, FermentError>,
    /// By the balance of heats.
    pub by_heats: Result<Answer<MixingWater>, FermentError>,
    /// What was not said and is counted with, and how the friction is known.
    pub counted_with: Vec<String>,
    /// What can hurt.
    pub hazards: Vec<Hazard>,
}
