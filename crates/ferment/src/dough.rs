//! The temperature of the dough: by the trade's rule, by a balance of heats, and with ice.

mod friction;
mod heat;
mod ice;
mod rule;
mod water;

pub use friction::{Learned, Noted, learned};
pub use heat::{Constituents, FLOUR_HEAT, Part, SpecificHeat, WATER_HEAT, mixed, rise, water_by_heat};
pub use ice::{ICE_COLD, Iced, coldest, iced};
pub use rule::Factors;
pub use water::{Pour, pour};
