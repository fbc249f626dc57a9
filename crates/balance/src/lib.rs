//! Equations to figures: the exact balance of a dough.
//!
//! # The data
//!
//! A [`Book`](levamen_formula::Book) holds a formula for each dough and culture. What its lines say, and what every
//! dough obeys, are [`Equations`](levamen_formula::Equations): sums of figures that come to zero, with one gram as a
//! figure like any other. They fix the proportions of a dough, and one number fixes its size. So there are two layers
//! of results:
//!
//! - a [`Balance`] holds every weight as a [`Share`](levamen_quantity::Share) of the dough's whole flour, exactly, with
//!   hydration, salt and pre-fermented flour;
//! - a [`Batch`] is a balance at a size: each of its masses is one product.
//!
//! # The ways to use it
//!
//! | | |
//! |---|---|
//! | [`Balancer`] | balances the doughs of a book, each after all that it takes from; with other wants, or the most or the least of a figure ([`Objective`]) |
//! | [`Why`] | why a figure is what it is, as a tree of reasons that adds up |
//! | [`Comparison`] | two batches side by side |
//! | [`BalanceSource`] | a book with its balances at hand, each found once: for whoever plans with many doughs |
//! | [`LiveBook`] | a book in memory that takes edits, and says which figures each edit changed |
//! | [`Solver`] | equations to values, for equations from elsewhere |
//!
//! Where there is no balance there are problems, in a baker's words and with the places of the lines: a smallest set of
//! lines that cannot all hold, the figures that nothing settles, or what there would be less than zero of.
//!
//! ```
//! use levamen_balance::Balancer;
//! use levamen_formula::Book;
//! use levamen_language::TextId;
//!
//! let text = "dough Tin loaf\n\nfinal dough\n  flour  100 %\n  water   62 %\n  salt     2 %\n\nmake 12 pieces of 820 g\n";
//! let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
//! assert!(problems.is_empty());
//!
//! let mut balancer = Balancer::new(&book);
//! let balance = balancer.balance(book.find("tin loaf").unwrap()).unwrap();
//! assert_eq!(balance.hydration.percent().to_decimal_string(), "62");
//!
//! let batch = balance.batch();
//! assert_eq!(batch.flour().grams().to_decimal_string(), "6000");
//! assert_eq!(batch.mass(&balance.weight).grams().to_decimal_string(), "9840");
//! ```

mod balancer;
mod compare;
mod figure_text;
mod figures;
mod linear;
mod live;
mod objective;
mod problems;
mod read;
mod simplex;
mod solved;
mod source;
mod usual;
mod why;

pub use balancer::{BalanceCache, Balancer};
pub use compare::{Compared, ComparedAmount, ComparedStage, Comparison};
pub use figures::{
    Balance, BalancedItem, BalancedLine, BalancedRow, BalancedStage, Batch, Spoiling, StatedSize,
};
pub use levamen_formula::Ripening;
pub use linear::{Contradiction, Solver, Values};
pub use live::{Changes, DoughChange, FigureChange, FigureKind, FigureName, LiveBook};
pub use objective::Objective;
pub use source::{BalanceSource, BookBalances};
pub use usual::{UsualRange, unusual};
pub use why::{
    CoupledEquation, CoupledEquations, Reason, ReasonKind, ReasonPart, ReasonValue, SizeSource, Why,
};
