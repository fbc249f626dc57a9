//! The language of a formula book: text to syntax tree and back, with places.
//!
//! A dough file is plain text in which each line says one thing and indentation makes blocks. The full reference,
//! for bakers and engineers, is `docs/language.md`.
//!
//! # From text to tree
//!
//! [`decode`] turns the bytes of a file into text, [`parse`] the text into a [`Tree`] and a list of [`Problem`]s.
//! Parsing is pure and total: a text of any bytes has a tree, an error ends with its line, and one run reports every
//! error. It takes one pass over the text in three layers:
//!
//! 1. lines, with their indentation and comments;
//! 2. the grammar of one line, in parsers made with nom;
//! 3. nesting: which line is under which, what may be there, and what may be said only once.
//!
//! The tree is the list of the text's [`Line`]s with their depths. Names borrow from the text, so the text outlives
//! the tree. Nothing is lost but space: [`format()`] writes the tree in the canonical layout, which changes nothing
//! that is said and keeps every comment.
//!
//! # What is reported
//!
//! A [`Problem`] is data: a stable code, a message in the baker's words, the [`Place`] of the words at fault, other
//! places that play a part, why, and how to mend it. All crates above report in this form, and what it looks like is
//! decided in one file at the edge.
//!
//! ```
//! use levamen_language::{Statement, TextId, parse};
//!
//! let text = "dough Tin loaf\n\noverall\n  type 550 flour  100 %\n  water            62 %\n";
//! let parsed = parse(TextId(0), text);
//! assert!(parsed.problems.is_empty());
//! let Statement::Weigh(flour) = &parsed.tree.lines[3].statement else { panic!("an ingredient") };
//! assert_eq!(flour.name.text, "type 550 flour");
//! ```
//!
//! What a dough means, and whether it makes sense, is not known here: that is the crate `levamen-formula`.

mod card;
mod cell;
mod characters;
mod figure;
mod format;
mod hint;
mod lines;
mod measure;
mod name;
mod outline;
mod parse;
mod parsers;
mod place;
mod problem;
mod problems;
mod section;
mod space;
mod statement;
mod suggest;
mod syntax_error;
mod texts;
mod tree;
mod unit;
mod words;

pub use card::{CARDS, Card, Form, KEEPING, WORKING};
pub use cell::{
    NO_FIGURE, read_amount, read_clock, read_duration, read_fact, read_mass, read_mass_in, read_ripening,
    read_share, read_temperature, read_temperature_difference, read_volume,
};
pub use characters::{first_invisible, visible, visible_lines};
pub use format::{format, tidy};
pub use hint::{AskedField, Hint};
pub use lines::{MAX_BYTES, MAX_LINES};
pub use name::Name;
pub use parse::{Parsed, decode, parse};
pub use place::{Place, Span, TextId};
pub use problem::{Label, Problem, Severity, in_order_of_texts};
pub use suggest::nearest;
pub use texts::{TextLine, Texts};
pub use tree::*;
pub use words::{listed, listed_quoted, with_article};
