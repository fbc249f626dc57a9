//! Temperature and time: when a pre-ferment is ripe, how much yeast or seed it takes, and how warm the dough gets.
//!
//! A [`Growth`] says how fast an [`Organism`] works at a temperature, as a part of its fastest. A bakery's own
//! reference (12 h at 21 °C) says how long a ripening is; the model gives only the ratio to it. What the models rest
//! on, and where they stop, is in `docs/ferment.md`.
//!
//! The dough's temperature comes by the trade's rule ([`Factors`]) and by a balance of heats ([`HeatPart`], [`water_by_heat`]),
//! which is exact; [`mixing_water`] says what that takes from the tap and of ice.
//!
//! Every question is answered with an [`Answer`], which carries [`Remark`]s, or ends in a [`FermentError`] in the
//! baker's words. No file, screen or dough is known here.

mod answer;
mod caution;
mod course;
mod friction;
mod heat;
mod leaven;
mod organism;
mod range;
mod ripening;
mod tub;
mod water;
mod yeast;

pub use answer::{Answer, FermentError, Remark};
pub use caution::{CAUTIONS, Caution, Hazard, is_held, longest_unheld};
pub use course::TemperatureCourse;
pub use friction::{Factors, Measurement, WarmingEstimate, estimate_warming};
pub use heat::{
    Constituents, FLOUR_HEAT, HeatPart, SpecificHeat, WATER_HEAT, mixed_temperature, rise, water_by_heat,
};
pub use leaven::{Leaven, Seed, Yeast};
pub use levamen_language::YeastKind;
pub use organism::{Cardinal, GROWTH, Growth, Organism};
pub use range::salt_remark;
pub use ripening::{ClockedRipening, GrowthCurve, GrowthSample, RipeningEstimate, RipeningReference};
pub use tub::{Headroom, Tubs, density, headroom, pick_tubs, volume};
pub use water::{ICE_COLD, IcedWater, MixingWater, coldest as coldest_water, iced_water, mixing_water};
pub use yeast::{KINDS, KindRatio, PUBLISHED, Published, Spread, Strength};
pub use yeast::{amount as yeast_amount, time as yeast_time};
