//! What is planned for, and a plan: what to feed, to take and to throw away when.

use jiff::Zoned;
use levamen_calendar::ZonedDays;
use levamen_quantity::{Mass, Share};

use crate::keeping::CultureKeeping;
use crate::needs::CultureNeed;
use crate::slots::FeedingHours;

/// What is planned for.
#[derive(Debug, Clone)]
pub struct FeedingTask<'t> {
    /// How the culture is kept.
    pub keeping: &'t CultureKeeping,
    /// What is needed; those outside the days are left out.
    pub needs: &'t [CultureNeed],
    /// The days.
    pub days: &'t ZonedDays,
    /// When somebody can feed.
    pub hours: &'t FeedingHours,
    /// Ripe culture at the start; `None`: as much as the plan wants.
    pub on_hand: Option<Mass>,
}

impl<'t> FeedingTask<'t> {
    /// The needs within the days, in order of time.
    pub(crate) fn needs_in_order(&self) -> Vec<&'t CultureNeed> {
        let (start, end) = (self.days.start(), self.days.end());
        let within = |need: &&CultureNeed| {
            start.as_ref().is_some_and(|at| need.at >= *at) && end.as_ref().is_some_and(|at| need.at < *at)
        };
        let mut needs: Vec<&CultureNeed> = self.needs.iter().filter(within).collect();
        needs.sort_by(|a, b| a.at.cmp(&b.at));
        needs
    }
}

/// A feeding plan.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedingPlan {
    /// Midnight before the first day.
    pub start: Zoned,
    /// Ripe culture at the start.
    pub on_hand: Mass,
    /// Whether it stands in the cold until the first feeding, because that is later than the rhythm.
    pub begins_cold: bool,
    /// What is done, in order of time.
    pub steps: Vec<FeedingStep>,
    /// Midnight after the last day.
    pub end: Zoned,
    /// What stands in the tub at the end.
    pub left: Mass,
    /// The least that stands in the tub after a feeding.
    pub holds: Mass,
    /// Whether it was shown that no choice of moments among the hours discards less. For the moments of the plan it
    /// always is.
    pub is_least: bool,
}

/// One thing that is done.
#[derive(Debug, Clone, PartialEq)]
pub enum FeedingStep {
    /// Ripe culture is taken for a levain.
    Take(Take),
    /// The culture is fed.
    Feed(Feeding),
}

/// Ripe culture taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Take {
    /// When.
    pub at: Zoned,
    /// How much.
    pub mass: Mass,
}

/// A feeding: part of what is found is kept, and new flour and water are added.
#[derive(Debug, Clone, PartialEq)]
pub struct Feeding {
    /// When.
    pub at: Zoned,
    /// The old culture that is kept.
    pub old: Mass,
    /// The old culture that is not.
    pub discard: Mass,
    /// New flour and water.
    pub new: Mass,
    /// When it is ripe for certain.
    pub ripe: Zoned,
    /// Whether it goes into the cold when it is ripe, because the next feeding is later than the rhythm.
    pub goes_cold: bool,
}

impl Feeding {
    /// What stands in the tub after it.
    #[must_use]
    pub fn made(&self) -> Mass {
        &self.old + &self.new
    }

    /// The share of old culture in it.
    #[must_use]
    pub fn share_old(&self) -> Share {
        self.old.share_of(&self.made()).unwrap_or_default()
    }
}

impl FeedingPlan {
    /// The feedings, in order.
    pub fn feedings(&self) -> impl Iterator<Item = &Feeding> {
        self.steps.iter().filter_map(|step| match step {
            FeedingStep::Feed(feeding) => Some(feeding),
            FeedingStep::Take(_) => None,
        })
    }

    /// What is taken for levains in all.
    #[must_use]
    pub fn taken(&self) -> Mass {
        let takes = self.steps.iter().filter_map(|step| match step {
            FeedingStep::Take(take) => Some(&take.mass),
            FeedingStep::Feed(_) => None,
        });
        takes.fold(Mass::ZERO, |sum, mass| &sum + mass)
    }

    /// What is thrown away in all.
    #[must_use]
    pub fn discarded(&self) -> Mass {
        self.feedings().fold(Mass::ZERO, |sum, feeding| &sum + &feeding.discard)
    }

    /// The new flour and water in all.
    #[must_use]
    pub fn added(&self) -> Mass {
        self.feedings().fold(Mass::ZERO, |sum, feeding| &sum + &feeding.new)
    }
}
