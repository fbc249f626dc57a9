//! Facts to figures: the exact balance of a dough.

mod figures;

pub use figures::{Balance, Batch, Item, Line, Ripening, Row, Size, Stage};
