//! Temperature and time: when a pre-ferment is ripe, how much yeast or seed it takes, and how warm the dough gets.
//!
//! A [`Growth`] says how fast an [`Organism`] works at a temperature, as a part of its fastest. A bakery's own
//! reference (12 h at 21 °C) says how long a ripening is; the model gives only the ratio to it. What the models rest
//! on, and where they stop, is in `docs/ferment.md`.
//!
//! The dough's temperature comes by the trade's rule ([`Factors`]) and by a balance of heats ([`Part`], [`water_by_heat`]),
//! which is exact; [`pour`] says what that takes from the tap and of ice.
//!
//! Every question is answered with an [`Answer`], which carries [`Remark`]s, or refused with a [`Refusal`] in the
//! baker's words. No file, screen or dough is known here.

mod cardinal;
mod caution;
mod course;
mod dough;
mod figure;
mod leaven;
mod organism;
mod printed;
mod range;
mod refusal;
mod ripening;
mod salt;
mod tub;
mod words;
mod yeast;

pub use cardinal::Cardinal;
pub use caution::{CAUTIONS, Caution, Hazard, is_held, longest_warm};
pub use course::Course;
pub use dough::coldest as coldest_water;
pub use dough::{
    Constituents, FLOUR_HEAT, ICE_COLD, Part, SpecificHeat, WATER_HEAT, mixed, rise, water_by_heat,
};
pub use dough::{Factors, Iced, Learned, Noted, Pour, iced, learned, pour};
pub use leaven::{Leaven, Seed, Yeast};
pub use levamen_language::YeastKind;
pub use organism::{GROWTH, Growth, Organism};
pub use refusal::{Answer, Refusal, Remark};
pub use ripening::{Clocked, Curve, Found, Reference, Sample};
pub use salt::salted;
pub use tub::{Room, Tubs, density, pick, room, volume};
pub use yeast::{KINDS, KindRatio, PUBLISHED, Published, Spread, Strength};
pub use yeast::{amount as yeast_amount, time as yeast_time};
