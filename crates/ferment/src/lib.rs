//! Temperature and time: when a pre-ferment is ripe, how much yeast or seed it takes, and how warm the dough gets.
//!
//! A [`Cardinal`] curve says how fast an [`Organism`] works at a temperature, as a part of its fastest. A bakery's own
//! reference (12 h at 21 °C) says how long a ripening is; the model gives only the ratio to it. What the models rest
//! on, and where they stop, is in `docs/ferment.md`.
//!
//! Every question is answered with an [`Answer`], which carries [`Remark`]s, or refused with a [`Refusal`] in the
//! baker's words. No file, screen or dough is known here.

mod cardinal;
mod figure;
mod organism;
mod range;
mod refusal;
mod yeast;

pub use cardinal::Cardinal;
pub use organism::{GROWTH, Growth, Organism};
pub use range::Answer;
pub use refusal::{Refusal, Remark};
pub use yeast::{KINDS, KindRatio, PUBLISHED, Published, Spread, YeastKind};
pub use yeast::{amount as yeast_amount, time as yeast_time};
