//! What to know of the batches of a day.

use levamen_bakery::Bakery;
use levamen_balance::BalanceSource;
use levamen_plan::{BatchWarning, Day, DayDough};

use crate::day::DaySheets;
use crate::dough_sheet::DoughSheet;
use crate::rounding_error::RoundingError;
use crate::sheet::mixed;
use crate::weight::Weight;

/// What to know of the batches of a dough.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BatchRemark {
    /// The dough.
    pub dough: String,
    /// Its mixer; `None` where the bakery names none.
    pub mixer: Option<String>,
    /// What there is to know.
    pub about: BatchRemarkKind,
}

/// What there is to know of batches. Weights are in whole grams.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BatchRemarkKind {
    /// One is under the least that its mixer mixes.
    BelowLeast {
        /// What it weighs, as the sheet says.
        batch: Weight,
        /// The least.
        least: Weight,
        /// What it lacks.
        lacks: Weight,
        /// Mixers that take it.
        others: Vec<String>,
        /// How many more pieces of which product would make a least batch, where any number would.
        more: Option<(u64, String)>,
    },
    /// They are too many to list each.
    Counted {
        /// How many there are.
        batches: u64,
        /// What the largest of them weighs.
        largest: Weight,
    },
}

impl BatchRemark {
    /// What to know of the batches of a day.
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a weight has more digits than a scale can show.
    pub fn of_day(
        balances: &dyn BalanceSource,
        bakery: &Bakery,
        day: &Day,
        sheets: &DaySheets,
    ) -> Result<Vec<Self>, RoundingError> {
        let mut found = Vec::new();
        for (dough, sheet) in day.doughs.iter().zip(&sheets.doughs) {
            let mixer = dough.batches.mixer.and_then(|id| bakery.mixer(id));
            let more = || {
                let more = day.more_pieces(balances, bakery, dough)?;
                Some((more.pieces, bakery.product(more.product)?.name.clone()))
            };
            for remark in &dough.batches.remarks {
                found.push(Self {
                    dough: dough.balance.dough.clone(),
                    mixer: mixer.map(|mixer| mixer.name.clone()),
                    about: BatchRemarkKind::new(remark, bakery, (dough, sheet), more)?,
                });
            }
        }
        Ok(found)
    }
}

impl BatchRemarkKind {
    fn new(
        remark: &BatchWarning,
        bakery: &Bakery,
        (dough, sheet): (&DayDough, &DoughSheet),
        more: impl Fn() -> Option<(u64, String)>,
    ) -> Result<Self, RoundingError> {
        match remark {
            BatchWarning::BelowLeast { batch, least, others } => {
                // The batch as it is weighed, so that it is the same in every line.
                let smallest = mixed(&sheet.sheet.stages).map(|stage| stage.made.as_exact()).min();
                let smallest = smallest.filter(|_| dough.batches.are_listed());
                let batch = Weight::in_grams(smallest.as_ref().unwrap_or(batch))?;
                let least = Weight::in_grams(least)?;
                let others = others.iter().filter_map(|id| bakery.mixer(*id));
                Ok(Self::BelowLeast {
                    batch,
                    lacks: least.try_sub(batch)?.max(Weight::ZERO),
                    least,
                    others: others.map(|mixer| mixer.name.clone()).collect(),
                    more: more(),
                })
            }
            BatchWarning::Counted { batches, largest } => {
                Ok(Self::Counted { batches: *batches, largest: Weight::in_grams(largest)? })
            }
        }
    }
}
