//! A feeding plan as it hangs on the wall: every weight rounded once, to its scale, so that what is found, kept, added
//! and taken still adds up.
//!
//! What is left in the tub is what was put in less what was taken, in rounded weights. It is weighed again only where some
//! of it is thrown away. Flour and water make up for what rounding did to the old culture, so that nothing adds up over the days.
//!
//! A new culture on paper: what is weighed on each of its first days.

use jiff::civil::Date;
use jiff::{ToSpan, Zoned};
use levamen_culture::{Feeding, FeedingPlan, FeedingStep, NewDays};
use levamen_formula::Scale;
use levamen_language::Hint;
use levamen_quantity::{Mass, Temperature};

use crate::portions::{self, FeedPart, FeedingWeights};
use crate::rounding_error::RoundingError;
use crate::scales;
use crate::weight::Weight;

/// A feeding plan to weigh from.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedingSheet {
    /// The culture.
    pub culture: String,
    /// The first day.
    pub first: Date,
    /// The last day.
    pub last: Date,
    /// What it is fed, in the order of the book.
    pub parts: Vec<String>,
    /// Ripe culture at the start.
    pub on_hand: Weight,
    /// Whether it stands in the cold until the first feeding.
    pub begins_cold: bool,
    /// What is done, in order of time.
    pub rows: Vec<FeedingRow>,
    /// What is taken in all.
    pub taken: Weight,
    /// What is added of each part in all.
    pub added: Vec<Weight>,
    /// What is thrown away in all.
    pub discarded: Weight,
    /// What each week throws away, by its first day: other uses can be planned by it.
    pub weeks: Vec<(Date, Weight)>,
    /// What stands in the tub at the end.
    pub left: Weight,
    /// The least that stands in the tub after a feeding, exact.
    pub holds: Mass,
    /// Whether it was shown that no choice among the hours discards less.
    pub is_least: bool,
    /// What else a reader should know, such as figures that the book does not say.
    pub notes: Vec<Hint>,
}

/// One thing that is done.
#[derive(Debug, Clone, PartialEq)]
pub enum FeedingRow {
    /// Ripe culture is taken.
    Take {
        /// When.
        at: Zoned,
        /// How much.
        weight: Weight,
        /// What stays in the tub.
        stays: Weight,
    },
    /// The culture is fed.
    Feed {
        /// What is weighed.
        weighed: FeedingWeights,
        /// The feeding of the plan, unrounded.
        exact: Feeding,
    },
}

impl FeedingSheet {
    /// Rounds a plan to the bakery's scales; the usual ones where there are none.
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a weight has more digits than a scale can show.
    pub fn new(
        culture: &str,
        plan: &FeedingPlan,
        parts: &[FeedPart],
        scales: &[Scale],
        notes: Vec<Hint>,
    ) -> Result<Self, RoundingError> {
        let scales = scales::that_weigh(scales);
        let on_hand = scales::nearest(&scales, &plan.on_hand)?;
        let mut stock = on_hand;
        let mut rows = Vec::new();
        let mut steps = plan.steps.as_slice();
        while let Some((step, later)) = steps.split_first() {
            steps = later;
            let row = match step {
                FeedingStep::Take(take) => {
                    let weight = scales::not_under(&scales, &take.mass)?.min(stock);
                    stock = stock.try_sub(weight)?;
                    FeedingRow::Take { at: take.at.clone(), weight, stays: stock }
                }
                FeedingStep::Feed(feeding) => {
                    let weighed = portions::weighed(&scales, stock, feeding, later, parts)?;
                    stock = weighed.made;
                    FeedingRow::Feed { weighed, exact: feeding.clone() }
                }
            };
            rows.push(row);
        }
        let (first, last) = (plan.start.date(), plan.end.date().yesterday().unwrap_or(plan.end.date()));
        let after = last.tomorrow().unwrap_or(last);
        Ok(Self {
            culture: culture.to_owned(),
            first,
            last,
            parts: parts.iter().map(|part| part.name.clone()).collect(),
            on_hand,
            begins_cold: plan.begins_cold,
            taken: taken(&rows)?,
            added: added(&rows, parts.len())?,
            discarded: discarded(&rows, first, after)?,
            weeks: weeks(&rows, first, after)?,
            rows,
            left: stock,
            holds: plan.holds.clone(),
            is_least: plan.is_least,
            notes,
        })
    }

    /// The feedings, rounded and exact.
    pub fn feedings(&self) -> impl Iterator<Item = (&FeedingWeights, &Feeding)> {
        feedings(&self.rows)
    }
}

fn feedings(rows: &[FeedingRow]) -> impl Iterator<Item = (&FeedingWeights, &Feeding)> {
    rows.iter().filter_map(|row| match row {
        FeedingRow::Feed { weighed, exact } => Some((weighed, exact)),
        FeedingRow::Take { .. } => None,
    })
}

/// What is taken in all.
fn taken(rows: &[FeedingRow]) -> Result<Weight, RoundingError> {
    Weight::try_sum(rows.iter().filter_map(|row| match row {
        FeedingRow::Take { weight, .. } => Some(*weight),
        FeedingRow::Feed { .. } => None,
    }))
}

/// What is added of each part in all.
fn added(rows: &[FeedingRow], parts: usize) -> Result<Vec<Weight>, RoundingError> {
    let of_part =
        |part: usize| feedings(rows).filter_map(move |(weighed, _)| weighed.parts.get(part).copied());
    (0..parts).map(|part| Weight::try_sum(of_part(part))).collect()
}

/// What is thrown away from one day on, before another.
fn discarded(rows: &[FeedingRow], from: Date, before: Date) -> Result<Weight, RoundingError> {
    let then = feedings(rows).filter(|(_, exact)| (from..before).contains(&exact.at.date()));
    Weight::try_sum(then.map(|(weighed, _)| weighed.discard))
}

/// What each week throws away.
fn weeks(rows: &[FeedingRow], first: Date, after: Date) -> Result<Vec<(Date, Weight)>, RoundingError> {
    let mut weeks = Vec::new();
    let mut from = first;
    while from < after {
        let next = from.checked_add(7.days()).unwrap_or(after).min(after);
        weeks.push((from, discarded(rows, from, next)?));
        from = next;
    }
    Ok(weeks)
}

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
