//! The feeding plan: when to feed, what to keep, what to throw away.

use jiff::Zoned;
use levamen_calendar::ZonedDays;
use levamen_quantity::{Exact, Mass, Share};

use crate::bounds::{Band, CultureReach};
use crate::feeding_times::{FeedingTimes, choose};
use crate::keeping::CultureKeeping;
use crate::needs::CultureNeed;
use crate::plan_error::{PlanError, refuse};
use crate::replay::replay;
use crate::slots::{FeedingHours, FeedingSlots};

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

/// Plans the feedings that meet every need and throw away the least.
///
/// What is left at the end beyond what the culture goes on with counts as thrown away, so that a plan does not hide
/// its surplus behind its last day. Of the plans that throw away the least, feedings are the fewest, then at preferred
/// hours, and each is as near to the usual share as that leaves room for.
///
/// # Errors
/// Why it cannot be, and what would do.
pub fn plan(task: &FeedingTask<'_>) -> Result<FeedingPlan, PlanError> {
    let keeping = task.keeping;
    let on_hand = task.on_hand.as_ref().map(Mass::grams);
    let slots =
        FeedingSlots::new(keeping, task.needs, task.days, task.hours).ok_or(PlanError::PastTheCalendar)?;
    let reach = CultureReach::new(keeping, &slots, on_hand);
    let chosen = choose(keeping, &slots, &reach, on_hand).ok_or_else(|| refuse(task, &slots, &reach))?;
    let plan = PlanBuilder::new(keeping, &slots, &reach, &chosen)
        .and_then(|walk| walk.plan(task, &chosen))
        .ok_or(PlanError::Unsound)?;
    match replay(task, &plan) {
        Ok(()) => Ok(plan),
        Err(_) => Err(PlanError::Unsound),
    }
}

/// The chosen moments, with their bands and what the usual share would make.
struct PlanBuilder<'w> {
    keeping: &'w CultureKeeping,
    slots: &'w FeedingSlots<'w>,
    cap: &'w Exact,
    /// The start, the feedings and the end.
    stops: Vec<PlanStop>,
}

struct PlanStop {
    slot: usize,
    band: Band,
    /// What would stand here if every later feeding had the usual share.
    usual: Exact,
}

impl<'w> PlanBuilder<'w> {
    fn new(
        keeping: &'w CultureKeeping,
        slots: &'w FeedingSlots<'w>,
        reach: &'w CultureReach,
        chosen: &FeedingTimes,
    ) -> Option<Self> {
        let floor = |slot: usize| reach.floor.get(slot).cloned().flatten();
        let mut to = slots.end();
        let hold = keeping.declared().hold_least.grams();
        let band = Band::of_the_end(keeping, floor(to)?);
        let mut stops = vec![PlanStop { slot: to, band, usual: hold.clone() }];
        for slot in chosen.feedings.iter().copied().rev().chain([FeedingSlots::START]) {
            let next = stops.last()?;
            let taken = slots.taken(slot, to);
            let (floor, cap) = if slot == FeedingSlots::START {
                (Exact::ZERO, reach.most.first()?.clone()?)
            } else {
                (floor(slot)?, reach.cap.clone())
            };
            let band = next.band.before(keeping, &taken, &floor, &cap)?;
            let wanted = &taken + &(keeping.declared().usually.fraction() * &next.usual);
            let usual = near(&wanted, &band.least, &band.most);
            stops.push(PlanStop { slot, band, usual });
            to = slot;
        }
        stops.reverse();
        Some(Self { keeping, slots, cap: &reach.cap, stops })
    }

    /// Goes through the moments and decides how much to keep and to make.
    fn plan(&self, task: &FeedingTask<'_>, chosen: &FeedingTimes) -> Option<FeedingPlan> {
        let needs = in_order(task);
        let start = self.stops.first()?;
        let on_hand = task.on_hand.as_ref().map_or_else(|| start.usual.clone(), |mass| mass.grams().clone());
        let mut steps = Vec::new();
        let mut stock = on_hand.clone();
        for (from, to) in self.stops.iter().zip(self.stops.iter().skip(1)) {
            for need in needs.get(self.slots.needs(from.slot, to.slot))? {
                stock = &stock - need.mass.grams();
                steps.push(FeedingStep::Take(Take { at: need.at.clone(), mass: need.mass.clone() }));
            }
            if to.slot == self.slots.end() {
                break;
            }
            let old = stock.clone().min(self.keeping.high() * &to.band.most);
            let made = self.made(&old, to);
            let at = self.slots.get(to.slot)?.at.clone();
            let ripens = jiff::SignedDuration::from_mins(self.keeping.ripens().most);
            let next = self.stops.iter().find(|stop| stop.slot > to.slot)?;
            steps.push(FeedingStep::Feed(Feeding {
                ripe: at.checked_add(ripens).ok()?,
                at,
                discard: Mass::from_grams(&stock - &old),
                new: Mass::from_grams(&made - &old),
                old: Mass::from_grams(old),
                goes_cold: self.slots.is_cold(to.slot, next.slot),
            }));
            stock = made;
        }
        Some(FeedingPlan {
            start: self.slots.get(FeedingSlots::START)?.at.clone(),
            on_hand: Mass::from_grams(on_hand.clone()),
            begins_cold: self.slots.is_cold(FeedingSlots::START, self.stops.get(1)?.slot),
            steps,
            end: self.slots.get(self.slots.end())?.at.clone(),
            left: Mass::from_grams(stock),
            holds: self.keeping.declared().hold_least.clone(),
            is_least: chosen.is_proven || self.loses_nothing(&on_hand),
        })
    }

    /// Whether nothing at all is thrown away, so that no search is needed to know that it is the least.
    fn loses_nothing(&self, on_hand: &Exact) -> bool {
        let lost = self.stops.first().and_then(|start| start.band.lost_from(on_hand));
        lost.is_some_and(|lost| lost.is_zero())
    }

    /// What a feeding makes of what is kept: the usual, as far as the shares and the band allow.
    fn made(&self, old: &Exact, stop: &PlanStop) -> Exact {
        let least = (old / self.keeping.high()).reduced().max(stop.band.least.clone());
        let most = (old / self.keeping.low()).reduced().min(stop.band.most.clone()).min(self.cap.clone());
        near(&stop.usual, &least, &most)
    }
}

/// The needs within the days, in order of time.
pub(crate) fn in_order<'t>(task: &FeedingTask<'t>) -> Vec<&'t CultureNeed> {
    let (start, end) = (task.days.start(), task.days.end());
    let within = |need: &&CultureNeed| {
        start.as_ref().is_some_and(|at| need.at >= *at) && end.as_ref().is_some_and(|at| need.at < *at)
    };
    let mut needs: Vec<&CultureNeed> = task.needs.iter().filter(within).collect();
    needs.sort_by(|a, b| a.at.cmp(&b.at));
    needs
}

/// The whole gram between two ends that is nearest to what is wanted; the nearer end where no whole gram lies between.
fn near(wanted: &Exact, least: &Exact, most: &Exact) -> Exact {
    let within = |value: &Exact| value >= least && value <= most;
    let whole = wanted.round_to(&Exact::ONE);
    let candidates = [whole, -(-least).floor(), most.floor()];
    let nearest = candidates.into_iter().find(within);
    nearest.unwrap_or_else(|| wanted.clone().max(least.clone()).min(most.clone()))
}
