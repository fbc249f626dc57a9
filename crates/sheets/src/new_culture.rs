//! A new culture on paper: what is weighed on each of its first days.

use levamen_culture::NewDays;
use levamen_formula::Scale;
use levamen_quantity::{Mass, Temperature};

use crate::feeding::{FeedPart, portions};
use crate::rounding_error::RoundingError;
use crate::sheet::scales;
use crate::weight::Weight;

/// The first days of a culture, rounded to the bakery's scales.
#[derive(Debug, Clone, PartialEq)]
pub struct NewCultureSheet {
    /// The culture.
    pub culture: String,
    /// What it is fed, in the order of the book.
    pub parts: Vec<String>,
    /// How warm it ripens at the bakery, where the book says it.
    pub warm: Option<Temperature>,
    /// Its days in order.
    pub days: Vec<NewCultureDays>,
    /// What else a reader should know.
    pub notes: Vec<String>,
}

/// Some days on which the same is done.
#[derive(Debug, Clone, PartialEq)]
pub struct NewCultureDays {
    /// The days and what to do.
    pub plan: NewDays,
    /// What is kept.
    pub old: Weight,
    /// What is added of each part; nothing where it is not fed.
    pub parts: Vec<Weight>,
    /// What stands in the jar then.
    pub made: Weight,
}

impl NewCultureSheet {
    /// Rounds the first days of a culture.
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a weight has more digits than a scale can show.
    pub fn new(
        culture: &str,
        days: Vec<NewDays>,
        parts: &[FeedPart],
        scales: &[Scale],
        warm: Option<Temperature>,
        notes: Vec<String>,
    ) -> Result<Self, RoundingError> {
        let scales = scales::that_weigh(scales);
        let mut made = Weight::ZERO;
        let days = days.into_iter().map(|plan| {
            let old = scales::nearest(&scales, &plan.old)?;
            let added = portions::split(&scales, &plan.new, parts)?;
            if plan.new > Mass::ZERO {
                made = old.try_add(Weight::try_sum(added.iter().copied())?)?;
            }
            Ok(NewCultureDays { plan, old, parts: added, made })
        });
        let days = days.collect::<Result<_, RoundingError>>()?;
        let parts = parts.iter().map(|part| part.name.clone()).collect();
        Ok(Self { culture: culture.to_owned(), parts, warm, days, notes })
    }
}
