//! Doughs, stages, ingredients and the pantry, and the equations they state.
//!
//! A [`Book`] is read from texts. It holds a [`Pantry`] of [`Ingredient`]s, the bakery's [`Scale`]s, and a
//! [`Formula`] for each dough and each culture, in which every name is resolved and every percentage knows what it
//! is a percentage of. A formula states linear [`Equations`] about its figures; how equations are solved is none of this
//! crate's business.
//!
//! # From texts to equations
//!
//! 1. `collect` sorts the lines of each text into doughs, cultures, ingredients and scales;
//! 2. `names` and `pantry` say what each name means. Texts come in layers, and a name of a later layer takes the place of the same
//!    name in an earlier one; the first layer is the built-in pantry;
//! 3. `resolve` turns names into ids, and finds what each percentage is a share of and in which order stages are made;
//! 4. [`build_equations`] states what each line says and what every dough obeys.
//!
//! An [`OpenBook`] takes edits, and reads again only what an edit affects.
//!
//! ```
//! use levamen_formula::{Book, Role};
//! use levamen_language::TextId;
//!
//! let text = "dough Tin loaf\n\nfinal dough\n  flour  100 %\n  water   62 %\n";
//! let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
//! assert!(problems.is_empty());
//! let entry = book.entry(book.find("tin loaf").unwrap()).unwrap();
//! assert_eq!((entry.name.as_str(), entry.role), ("Tin loaf", Role::Dough));
//! ```

mod book;
mod by_name;
mod collect;
mod composition;
mod equations;
mod formula;
mod ingredient;
mod named_figure;
mod names;
mod nearest;
mod open;
mod order;
mod pantry;
mod release;
mod resolve;
mod scale;
mod stage;
mod want;

pub use book::{Book, BookEntry};
pub use composition::Composition;
pub use equations::{
    Bound, Equation, EquationOrigin, Equations, Intake, Term, Variable, VariableId, build_equations,
};
pub use formula::{Formula, Overall, ResolvedMake, ResolvedMakeSize, Role};
pub use ingredient::{Ingredient, IngredientId, YeastFact, key};
pub use nearest::{nearest_names, suggest};
pub use open::{Effect, OpenBook};
pub use order::{Neighbour, strongly_connected};
pub use pantry::Pantry;
pub use scale::Scale;
pub use stage::{
    FormulaId, Item, LeftOver, Measure, ResolvedAmount, ResolvedBasis, Ripening, Stage, StageId, StageKind,
    WeighedLine,
};
pub use want::{NamedFigure, Relation, Want, WantValue};
