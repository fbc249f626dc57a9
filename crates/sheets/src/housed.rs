//! Pre-ferments and the tubs that hold them, before it is text or JSON.

use levamen_ferment::{Headroom, Tubs};
use levamen_quantity::{Exact, Mass, Volume};

/// The tubs for a dough's pre-ferments.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Housed {
    /// The dough's name.
    pub dough: String,
    /// Each stage that ferments, in the order in which they are made.
    pub stages: Vec<HousedStage>,
}

/// One pre-ferment and its tubs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HousedStage {
    /// The stage's name.
    pub name: String,
    /// What stands in the tub.
    pub made: Mass,
    /// Its volume when it is fresh.
    pub volume: Volume,
    /// How much room it takes.
    pub room: Headroom,
    /// The tubs for it.
    pub tubs: Tubs,
}

impl HousedStage {
    /// Whether the tubs hold less than the better of the usual room.
    #[must_use]
    pub fn is_snug(&self) -> bool {
        let holds = self.tubs.size.millilitres() * &Exact::from(self.tubs.count);
        holds < self.volume.millilitres() * &Exact::from(self.room.better)
    }
}
