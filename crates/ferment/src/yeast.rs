//! Baker's yeast by weight: the kinds, and how much a pre-ferment takes for its hours and its temperature.

mod amount;
mod kind;
mod published;

pub(crate) use amount::rule;
pub use amount::{Spread, amount, time};
pub use kind::{KINDS, KindRatio, Strength};
pub use published::{PUBLISHED, Published};
