//! Doughs, stages, ingredients and the pantry, and the facts they state.
//!
//! A [`Book`] is read from texts. It holds a [`Pantry`] of [`Ingredient`]s, the bakery's [`Scale`]s, and a
//! [`Formula`] for each dough and each culture, in which every name is resolved and every percentage knows what it
//! is a percentage of. A formula states linear [`Facts`] about its figures; how facts are solved is none of this
//! crate's business.

mod asked;
mod book;
mod by_name;
mod collect;
mod composition;
mod facts;
mod formula;
mod names;
mod open;
mod order;
mod pantry;
mod resolve;
mod scale;
mod stage;
mod stock;
mod want;

pub use asked::Asked;
pub use book::{Book, Entry};
pub use composition::Composition;
pub use facts::{Bound, Fact, Facts, Figure, FigureId, Intake, Origin, Term, state};
pub use formula::{Formula, FormulaId, Make, MakeSize, Overall, Role};
pub use open::{Effect, OpenBook};
pub use order::{Neighbour, strongly_connected};
pub use pantry::{Ingredient, IngredientId, Pantry, YeastFact, key};
pub use resolve::{near, suggest};
pub use scale::Scale;
pub use stage::{Amount, Basis, Item, LeftOver, Line, Measure, Ripening, Stage, StageId, StageKind};
pub use want::{Limit, Relation, Want};
