//! What the tests of the whole tool share.
//!
//! - [`published`]: worked examples in print, read from `published/*.json`, written out as dough texts, and compared
//!   with a balance figure by figure.
//! - [`generator`]: random doughs as numbers ([`model`]), which are written out as texts ([`document`]) in three ways
//!   ([`ways`]) and whose weights an [`oracle`] works out without the tool.
//! - [`audit`]: a balance added up again from its own lines, and held against what its text states.
//! - [`damage`]: texts with a few slips in them, which follow from [`chance`].
//! - [`forms`]: which forms of the language a text uses.
//! - [`reasons`]: an explanation added up again, reason by reason.
//! - [`read`]: from a text to the balance of its last dough; [`matrix`]: two balances compared by name.
//!
//! The tests themselves stand in `tests/`, each file with one question.

pub mod audit;
pub mod chance;
pub mod damage;
pub mod document;
pub mod forms;
pub mod generator;
pub mod matrix;
pub mod model;
pub mod oracle;
pub mod published;
pub mod ratio;
pub mod read;
pub mod reasons;
pub mod ways;
pub mod yeast;
