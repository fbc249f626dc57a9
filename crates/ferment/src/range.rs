//! What the models are good for: the temperatures, times and amounts outside which nothing is answered.

mod amount;
mod time;
mod warmth;

pub(crate) use amount::{seed_part, yeast_percent};
pub(crate) use time::{LONGEST_HOURS, some_time, usual_time, within, yeasted_time};
pub(crate) use warmth::{course, printed, reference, warmth, yeasted};
