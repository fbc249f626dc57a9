//! Temperature and time: when a pre-ferment is ripe, how much yeast or seed it takes, and how warm the dough gets.
//!
//! A [`Cardinal`] curve says how fast an [`Organism`] works at a temperature, as a part of its fastest. A bakery's own
//! reference (12 h at 21 °C) says how long a ripening is; the model gives only the ratio to it. What the models rest
//! on, and where they stop, is in `docs/ferment.md`.
//!
//! Every question is answered with an [`Answer`], which carries [`Remark`]s, or refused with a [`Refusal`] in the
//! baker's words. No file, screen or dough is known here.

mod cardinal;
mod course;
mod figure;
mod leaven;
mod organism;
mod range;
mod refusal;
mod ripening;
mod words;
mod yeast;

pub use cardinal::Cardinal;
pub use course::Course;
pub use leaven::{Leaven, Seed, Yeast};
pub use organism::{GROWTH, Growth, Organism};
pub use refusal::{Answer, Refusal, Remark};
pub use ripening::{Clocked, Curve, Found, Reference, Sample};
pub use yeast::{KINDS, KindRatio, PUBLISHED, Published, Spread, YeastKind};
pub use yeast::{amount as yeast_amount, time as yeast_time};
