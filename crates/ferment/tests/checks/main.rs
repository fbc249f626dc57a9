//! The models against printed figures, and what is refused.
#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

mod common;
mod dough;
mod edges;
mod growth;
mod ripening;
mod tub;
mod yeast;
