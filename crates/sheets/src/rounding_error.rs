//! Why figures cannot be rounded.

use std::fmt;

use levamen_language::Problem;
use levamen_quantity::Exact;

/// Why a figure cannot be rounded to what a scale or a till shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RoundingError {
    /// It has more digits than the 28 of a decimal.
    TooManyDigits {
        /// The figure, as far as 28 digits go.
        figure: String,
    },
    /// More pieces than can be counted.
    TooManyPieces,
    /// A scale shows no step above zero.
    NoDivision,
    /// Something that cannot happen; the program is at fault and not what it was given.
    Internal(&'static str),
}

impl RoundingError {
    /// What a person reads of it.
    #[must_use]
    pub fn problem(&self) -> Problem {
        let words = self.to_string();
        match self {
            Self::TooManyDigits { .. } => Problem::error("too-many-digits", words)
                .help("ask for less, or write figures with fewer digits"),
            Self::TooManyPieces => Problem::error("piece-count", words).help("ask for less"),
            Self::NoDivision => {
                Problem::error("no-division", words).help("write its division: `division 1 g`")
            }
            Self::Internal(what) => Problem::internal(what),
        }
    }

    /// A figure of more digits than a decimal holds.
    pub(crate) fn too_many_digits(figure: &Exact) -> Self {
        Self::TooManyDigits { figure: figure.to_decimal_string() }
    }

    /// Something that cannot happen: a test stops there, a baker gets an error and no wrong figure.
    pub(crate) fn internal(what: &'static str) -> Self {
        debug_assert!(false, "{what}");
        Self::Internal(what)
    }
}

impl fmt::Display for RoundingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooManyDigits { figure } => {
                write!(f, "{figure} has more digits than a scale or a till can show")
            }
            Self::TooManyPieces => f.write_str("these are more pieces than can be counted"),
            Self::NoDivision => f.write_str("a scale has no division"),
            Self::Internal(what) => write!(f, "this cannot happen, and did: {what}"),
        }
    }
}

impl std::error::Error for RoundingError {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_says_what_is_wrong_and_how_to_mend_it() {
        let digits = RoundingError::too_many_digits(&Exact::from(7));
        for (error, code, words) in [
            (digits, "too-many-digits", "7 has more digits than a scale or a till can show"),
            (RoundingError::TooManyPieces, "piece-count", "these are more pieces than can be counted"),
            (RoundingError::NoDivision, "no-division", "a scale has no division"),
        ] {
            let problem = error.problem();
            assert_eq!((problem.code, problem.message.as_str()), (code, words));
            assert!(!problem.help.is_empty(), "{code}");
        }
    }

    #[test]
    fn what_cannot_happen_is_an_internal_error() {
        assert_eq!(RoundingError::Internal("a table lost its cell").problem().code, "internal");
    }
}
