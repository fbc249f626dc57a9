//! What the sheets look like and what must hold on them.

mod doughs;
mod formula;
mod kitchen;
