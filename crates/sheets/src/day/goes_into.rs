//! What a dough of a day is weighed for.

use levamen_plan::Need;
use levamen_quantity::{Exact, Mass};

use crate::rounding::{RoundingCell, controlled};
use crate::rounding_error::RoundingError;
use crate::weight::Weight;

/// The dough that goes into each product, then into each dough that takes of it, then what is kept: in whole grams that add
/// up, with what is lost, to what is weighed, so that one kilogram is the same wherever it is shown.
#[derive(Debug, Clone, PartialEq)]
pub struct GoesInto {
    /// For each of its products.
    pub pieces: Vec<Weight>,
    /// For each dough that takes of it.
    pub taken: Vec<Weight>,
    /// What is kept as old dough.
    pub kept: Weight,
}

impl GoesInto {
    /// Shares out what is made. What is kept back is weighed, as the sheet says; the others share what is left.
    pub(super) fn new(need: &Need, made: Weight, kept_back: Weight) -> Result<Self, RoundingError> {
        let gram = Mass::from_grams(Exact::ONE);
        let kept = if need.kept == Mass::ZERO {
            Weight::ZERO
        } else {
            Weight::nearest(&kept_back.as_exact(), &gram)?
        };
        let pieces = need.pieces.iter().map(|pieces| pieces.dough.grams());
        let taken = need.taken.iter().map(|taken| taken.mass.grams());
        let all: Vec<&Exact> = pieces.chain(taken).chain([need.lost.grams()]).collect();
        let (left, asked) = (made.try_sub(kept)?.as_exact(), need.mass().grams() - need.kept.grams());
        let scaled = |exact: &&Exact| match (*exact * left.grams()).checked_div(&asked) {
            Some(value) => value,
            // Nothing is asked for, so each of them is nothing.
            None => Exact::ZERO,
        };
        let cells: Vec<RoundingCell> =
            all.iter().map(|exact| RoundingCell { row: 0, column: 0, value: scaled(exact) }).collect();
        let rounded = controlled(&cells)?
            .iter()
            .map(|grams| Weight::of_divisions(grams, &gram))
            .collect::<Result<Vec<_>, _>>()?;
        let mut rounded = rounded.into_iter();
        let pieces = rounded.by_ref().take(need.pieces.len()).collect();
        let taken = rounded.by_ref().take(need.taken.len()).collect();
        Ok(Self { pieces, taken, kept })
    }
}
