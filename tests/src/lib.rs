//! What the tests of the whole tool share.
//!
//! - [`published`]: worked examples in print, read from `published/*.json`, written out as dough texts, and compared
//!   with a balance figure by figure.
//! - [`read`]: from a text to the balance of its last dough.
//!
//! The tests themselves stand in `tests/`, each file with one question.

pub mod published;
pub mod read;
