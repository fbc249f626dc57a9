//! Exact numbers with a unit: mass, share, volume, temperature, time.
//!
//! Every figure of a dough is an [`Exact`] rational number inside the program: a third of a kilogram is
//! a third, and two ways of writing a dough agree without any tolerance. A figure becomes a decimal only at
//! the edge ([`Exact::to_decimal_string`], [`Exact::to_fixed`]), and is rounded only on the bench sheet
//! ([`Exact::round_to`]).
//!
//! The newtypes keep apart what must not be mixed: a [`Mass`] is not a [`Share`], and a degree of
//! [`Temperature`] is neither.
//!
//! ```
//! use levamen_quantity::{Exact, Mass, MassUnit, Share};
//!
//! let flour = Mass::from_unit(Exact::from(56), MassUnit::Pound);
//! let salt = Share::from_percent(Exact::from(2)).of(&flour);
//! assert_eq!(salt.grams().to_decimal_string(), "508.0234544");
//! ```

mod clock;
mod decimal;
mod exact;
mod mass;
mod share;
mod temperature;
mod time;
mod volume;

pub use clock::ClockTime;
pub use decimal::{LiteralError, MAX_DIGITS};
pub use exact::Exact;
pub use mass::{Mass, MassUnit};
pub use share::Share;
pub use temperature::{Temperature, TemperatureDifference, TemperatureUnit};
pub use time::{Duration, TimeUnit};
pub use volume::{Density, Volume, VolumeUnit};
