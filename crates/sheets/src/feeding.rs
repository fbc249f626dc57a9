//! A feeding plan as it hangs on the wall: every weight rounded once, to its scale, so that what is found, kept, added
//! and taken still adds up.
//!
//! What is left in the tub is what was put in less what was taken, in rounded weights. It is weighed again only where some
//! of it is thrown away. Flour and water make up for what rounding did to the old culture, so that nothing adds up over the days.

pub(crate) mod portions;

use jiff::Zoned;
use jiff::civil::Date;
use levamen_culture::{Feeding, FeedingPlan, FeedingStep};
use levamen_formula::Scale;
use levamen_quantity::{Exact, Mass, Share};

use crate::sheet::scales;

/// One thing that a culture is fed.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// What it is called.
    pub name: String,
    /// Its share of all that is new in a feeding.
    pub share: Share,
}

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
    pub on_hand: Mass,
    /// Whether it stands in the cold until the first feeding.
    pub begins_cold: bool,
    /// What is done, in order of time.
    pub rows: Vec<FeedingRow>,
    /// What stands in the tub at the end.
    pub left: Mass,
    /// The least that stands in the tub after a feeding.
    pub holds: Mass,
    /// Whether it was shown that no choice among the hours discards less.
    pub is_least: bool,
    /// What else a reader should know, such as figures that the book does not say.
    pub notes: Vec<String>,
}

/// One thing that is done.
#[derive(Debug, Clone, PartialEq)]
pub enum FeedingRow {
    /// Ripe culture is taken.
    Take {
        /// When.
        at: Zoned,
        /// How much.
        mass: Mass,
        /// What stays in the tub.
        stays: Mass,
    },
    /// The culture is fed.
    Feed {
        /// What is weighed.
        weighed: Weighed,
        /// The feeding of the plan, unrounded.
        exact: Feeding,
    },
}

/// The rounded weights of a feeding.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// What is thrown away.
    pub discard: Mass,
    /// What is kept.
    pub old: Mass,
    /// What is added, part by part.
    pub parts: Vec<Mass>,
    /// What stands in the tub then.
    pub made: Mass,
}

impl FeedingSheet {
    /// Rounds a plan to the bakery's scales; the usual ones where there are none.
    #[must_use]
    pub fn new(
        culture: &str,
        plan: &FeedingPlan,
        parts: &[Part],
        scales: &[Scale],
        notes: Vec<String>,
    ) -> Self {
        let scales = scales::that_weigh(scales);
        let on_hand = portions::to_scale(&scales, &plan.on_hand);
        let mut stock = on_hand.clone();
        let mut rows = Vec::new();
        for (index, step) in plan.steps.iter().enumerate() {
            let row = match step {
                FeedingStep::Take(take) => {
                    let mass = portions::enough(&scales, &take.mass).min(stock.clone());
                    stock = &stock - &mass;
                    FeedingRow::Take { at: take.at.clone(), mass, stays: stock.clone() }
                }
                FeedingStep::Feed(feeding) => {
                    let later = plan.steps.get(index + 1..).unwrap_or_default();
                    let weighed = portions::weighed(&scales, &stock, feeding, later, parts);
                    stock = weighed.made.clone();
                    FeedingRow::Feed { weighed, exact: feeding.clone() }
                }
            };
            rows.push(row);
        }
        Self {
            culture: culture.to_owned(),
            first: plan.start.date(),
            last: plan.end.date().yesterday().unwrap_or(plan.end.date()),
            parts: parts.iter().map(|part| part.name.clone()).collect(),
            on_hand,
            begins_cold: plan.begins_cold,
            rows,
            left: stock,
            holds: plan.holds.clone(),
            is_least: plan.is_least,
            notes,
        }
    }

    /// What is thrown away from one day on, before another.
    #[must_use]
    pub fn discarded(&self, from: Date, before: Date) -> Mass {
        let discarded = self.feedings().filter(|(_, exact)| (from..before).contains(&exact.at.date()));
        discarded.fold(Mass::ZERO, |sum, (weighed, _)| &sum + &weighed.discard)
    }

    /// What is taken in all.
    #[must_use]
    pub fn taken(&self) -> Mass {
        self.rows.iter().fold(Mass::ZERO, |sum, row| match row {
            FeedingRow::Take { mass, .. } => &sum + mass,
            FeedingRow::Feed { .. } => sum,
        })
    }

    /// What is added of each part in all.
    #[must_use]
    pub fn added(&self) -> Vec<Mass> {
        let mut sums = vec![Mass::ZERO; self.parts.len()];
        for (weighed, _) in self.feedings() {
            for (sum, part) in sums.iter_mut().zip(&weighed.parts) {
                *sum = &*sum + part;
            }
        }
        sums
    }

    /// The feedings, rounded and exact.
    pub fn feedings(&self) -> impl Iterator<Item = (&Weighed, &Feeding)> {
        self.rows.iter().filter_map(|row| match row {
            FeedingRow::Feed { weighed, exact } => Some((weighed, exact)),
            FeedingRow::Take { .. } => None,
        })
    }
}

impl Weighed {
    /// The share of old culture, as it is weighed.
    #[must_use]
    pub fn share_old(&self) -> Share {
        self.old.share_of(&self.made).unwrap_or_default()
    }

    /// All that is added.
    #[must_use]
    pub fn added(&self) -> Mass {
        Mass::from_grams(self.parts.iter().fold(Exact::ZERO, |sum, part| &sum + part.grams()))
    }
}
