//! Why a day cannot be planned.

use levamen_formula::FormulaId;
use levamen_language::Problem;

/// Why a day cannot be planned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Trouble {
    /// A dough that is needed has problems of its own.
    Unsound {
        /// Which.
        dough: FormulaId,
        /// Its problems.
        problems: Vec<Problem>,
    },
    /// Doughs that need each other on one day, in the order in which each takes from the next; the last takes from
    /// the first.
    Circle(Vec<FormulaId>),
}
