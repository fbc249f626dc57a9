//! The way to a plan: when to feed, what to keep, what to throw away.

use levamen_quantity::{Exact, Mass};

use crate::bounds::{Band, CultureReach};
use crate::feeding_plan::{Feeding, FeedingPlan, FeedingStep, FeedingTask, Take};
use crate::feeding_times::{FeedingTimes, choose};
use crate::keeping::CultureKeeping;
use crate::plan_error::{PlanError, refuse};
use crate::replay::replay;
use crate::slots::FeedingSlots;

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
        let needs = task.needs_in_order();
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

/// The whole gram between two ends that is nearest to what is wanted; the nearer end where no whole gram lies between.
fn near(wanted: &Exact, least: &Exact, most: &Exact) -> Exact {
    let within = |value: &Exact| value >= least && value <= most;
    let whole = wanted.round_to(&Exact::ONE);
    let candidates = [whole, -(-least).floor(), most.floor()];
    let nearest = candidates.into_iter().find(within);
    nearest.unwrap_or_else(|| wanted.clone().max(least.clone()).min(most.clone()))
}
