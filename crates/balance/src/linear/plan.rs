//! The plan of a solution, and the shape of the facts that it is for.

use levamen_formula::{Fact, Facts, FigureId};

/// Writes down the shape of some facts, the figures of each and which is known: what decides the steps, but for
/// numbers that come to zero.
pub(crate) fn shape(facts: &Facts, known: FigureId, words: &mut Vec<u32>) {
    words.clear();
    words.extend([known.0, to_u32(facts.figures().len())]);
    words.extend(facts.facts().iter().map(Fact::end));
    words.extend(facts.all_terms().iter().map(|(figure, _)| figure.0));
}

/// The steps of a solution.
///
/// They hold for all facts of the shape but those whose numbers come to zero elsewhere than in the facts that the
/// plan was made from. A run notices that and stops.
#[derive(Debug, Default)]
pub(crate) struct Plan {
    pub ops: Vec<Op>,
    /// How many slots the steps use.
    pub slots: u32,
    /// The slots that hold sums of terms; the others hold coefficients.
    pub sums: Vec<Slot>,
    /// Whether every figure has a value in the end.
    pub is_whole: bool,
}

/// A place for a number while a plan runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Slot(pub u32);

/// One step of a plan.
#[derive(Debug, Clone)]
pub(crate) enum Op {
    /// The row has one unknown figure, at the term `lead`: its value follows.
    Substitute { row: u32, lead: u32 },
    /// The row has no unknown figure: it must hold.
    Verify { row: u32 },
    /// The sum of the terms of the row whose figures have values.
    Constant { slot: Slot, row: u32 },
    /// A coefficient of the row.
    Copy { slot: Slot, row: u32, term: u32 },
    /// The factor of the additions that follow: minus `own` over `lead`.
    Factor { own: Slot, lead: Slot },
    /// Adds `from` times the factor.
    Add { to: Slot, from: Slot },
    /// A coefficient that came to zero when the plan was made, and must again.
    Vanish { slot: Slot },
    /// What is left of a row without unknown figures must be nothing.
    Check { slot: Slot },
    /// A figure from its pivot row and the figures that came after.
    Back { figure: FigureId, lead: Slot, constant: Slot, rest: Box<[(Slot, FigureId)]> },
}

/// An index as plans keep it.
pub(crate) fn to_u32(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}
