//! Weights in cells: the rules of dough texts, and what else people write in a column of figures.

use levamen_language::{Problem, TextId, read_amount};
use levamen_quantity::{Exact, Mass, MassUnit};

use crate::problems;
use crate::recipe::RecipeCell;

/// Why a cell holds no weight.
#[derive(Debug)]
pub(crate) enum WeightError {
    /// There is nothing in it.
    Missing,
    /// It holds an amount with its unit.
    WithUnit(MassUnit),
    /// What the language says of such a number.
    Number(Box<Problem>),
    /// It is no number at all.
    NotANumber,
}

/// What the language says of numbers alone. Other problems of an amount are about its words or its unit.
const OF_NUMBERS: [&str; 11] = [
    "bare-point",
    "decimal-comma",
    "exponent",
    "fraction",
    "not-a-number",
    "range",
    "sign",
    "thousands-mark",
    "too-many-digits",
    "two-points",
    "zero",
];

/// The weight in a cell, in the unit of the table.
pub(crate) fn read(words: &str, unit: MassUnit) -> Result<Mass, WeightError> {
    match Exact::from_literal(words) {
        Ok(figure) if figure.is_positive() => Ok(Mass::from_unit(figure, unit)),
        _ => Err(weight_error(words, unit)),
    }
}

fn weight_error(words: &str, unit: MassUnit) -> WeightError {
    if words.is_empty() {
        return WeightError::Missing;
    }
    if read_amount(TextId::default(), words).is_ok() {
        return WeightError::WithUnit(unit);
    }
    match read_amount(TextId::default(), &format!("{words} {}", unit.symbol())) {
        Err(problem) if OF_NUMBERS.contains(&problem.code) => WeightError::Number(Box::new(problem)),
        _ => WeightError::NotANumber,
    }
}

impl WeightError {
    /// The problem of the cell `figure`, in the row of `ingredient`.
    pub(crate) fn problem(self, figure: &RecipeCell, ingredient: &RecipeCell) -> Problem {
        match self {
            Self::Missing => problems::missing_weight(figure, ingredient),
            Self::WithUnit(unit) => problems::with_unit(figure, unit),
            Self::Number(problem) => problems::number(figure, *problem),
            Self::NotANumber => problems::not_a_number(figure),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The code of what is wrong with a number.
    fn code(words: &str) -> &'static str {
        match read(words, MassUnit::Gram).unwrap_err() {
            WeightError::Number(problem) => problem.code,
            WeightError::Missing => "missing",
            WeightError::WithUnit(_) => "unit",
            WeightError::NotANumber => "none",
        }
    }

    #[test]
    fn only_plain_numbers_above_zero_are_weights() {
        assert_eq!(read("3.300", MassUnit::Kilogram).unwrap(), Mass::from_grams(Exact::from(3300)));
        let cases = [
            ("", "missing"),
            ("0", "zero"),
            ("0.000", "zero"),
            ("-5", "sign"),
            ("+5", "sign"),
            ("1,5", "decimal-comma"),
            ("1,000", "thousands-mark"),
            ("1 000", "thousands-mark"),
            ("1'000", "thousands-mark"),
            ("1.2.3", "two-points"),
            (".5", "bare-point"),
            ("1e3", "exponent"),
            ("1/2", "fraction"),
            ("½", "fraction"),
            ("10-12", "range"),
            ("NaN", "not-a-number"),
            ("inf", "not-a-number"),
            ("1234567890123456789012345678901234567890", "too-many-digits"),
            ("12 g", "unit"),
            ("12kg", "unit"),
            ("2 %", "unit"),
            ("some", "none"),
            ("12abc", "none"),
            ("１２", "none"),
        ];
        for (words, expected) in cases {
            assert_eq!(code(words), expected, "{words}");
        }
    }
}
