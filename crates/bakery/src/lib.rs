//! What a bakery has, sells and keeps to, beside its doughs.
//!
//! A [`Bakery`] is read from the same texts as the book: each card of theirs (`mixer`, `product`, `room`, …) becomes
//! a value of its own type, with every name looked up in the [`Book`](levamen_formula::Book) and every figure with its
//! unit. What a card does not say is `None`: what is then usual is for those to say who need it.
//!
//! A card with an error is left out, and the error reported as a [`Problem`](levamen_language::Problem) with its place.

mod bakery;
mod equipment;
mod facts;
mod folders;
mod ids;
mod keeping;
mod method;
mod names;
mod product;
mod settings;
mod supply;

pub use bakery::Bakery;
pub use equipment::{Mixer, Oven, Room, Shift, Tub};
pub use folders::{Folder, folders};
pub use ids::{MixerId, ProductId, TubId};
pub use keeping::Keeping;
pub use method::Method;
pub use product::{Piece, Product, Spare, Topping};
pub use settings::{Batching, OrderColumn, Settings};
pub use supply::Supply;
