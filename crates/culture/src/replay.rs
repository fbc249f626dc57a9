//! A plan carried out step by step: the checker that knows nothing of how plans are made.

use jiff::Zoned;
use levamen_quantity::{Duration, Exact, Mass, Share, TimeUnit};

use crate::feeding_plan::{Feeding, FeedingPlan, FeedingStep, FeedingTask};

/// What a plan does wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReplayError {
    /// A step comes before the one before it, or outside the days.
    OutOfOrder(Zoned),
    /// More is taken than there is, or thrown away that is not there.
    RunsOut(Zoned),
    /// Culture is taken that is not ripe.
    Unripe(Zoned),
    /// It is fed too early or too late.
    Rhythm(Zoned),
    /// A feeding keeps a share of old culture that is not allowed.
    Keeps(Zoned, Share),
    /// Too little or too much stands in the tub after a feeding.
    Holds(Zoned, Mass),
    /// What is needed at a moment is not what is taken there.
    NotMet(Zoned),
    /// What is said to be left at the end is not.
    Left,
}

/// Carries out a plan, and checks every rule of keeping on the way.
///
/// # Errors
/// The first rule that is broken.
pub fn replay(task: &FeedingTask<'_>, plan: &FeedingPlan) -> Result<(), ReplayError> {
    let start = task.days.start().ok_or_else(|| ReplayError::OutOfOrder(plan.start.clone()))?;
    let full = plan.on_hand >= task.keeping.declared().hold_least;
    let mut tub = TubState { task, stock: plan.on_hand.clone(), fed: None, full, now: start.clone(), start };
    for step in &plan.steps {
        match step {
            FeedingStep::Take(take) => tub.take(&take.at, &take.mass)?,
            FeedingStep::Feed(feeding) => tub.feed(feeding)?,
        }
    }
    tub.finish(plan)?;
    needs_are_met(task, plan)
}

/// The culture as it stands.
struct TubState<'t> {
    task: &'t FeedingTask<'t>,
    stock: Mass,
    /// When it was last fed; `None` before the first feeding, when it is ripe.
    fed: Option<Zoned>,
    /// Whether the least was ever held: until then it is being built up.
    full: bool,
    start: Zoned,
    now: Zoned,
}

impl TubState<'_> {
    fn go_to(&mut self, at: &Zoned) -> Result<(), ReplayError> {
        if *at < self.now {
            return Err(ReplayError::OutOfOrder(at.clone()));
        }
        self.now = at.clone();
        Ok(())
    }

    fn take(&mut self, at: &Zoned, mass: &Mass) -> Result<(), ReplayError> {
        self.go_to(at)?;
        let ripens = minutes(&self.task.keeping.declared().ripens.least);
        if self.fed.as_ref().is_some_and(|fed| passing(fed, at) < ripens) {
            return Err(ReplayError::Unripe(at.clone()));
        }
        self.remove(at, mass)
    }

    fn remove(&mut self, at: &Zoned, mass: &Mass) -> Result<(), ReplayError> {
        if *mass > self.stock || mass.grams().is_negative() {
            return Err(ReplayError::RunsOut(at.clone()));
        }
        self.stock = &self.stock - mass;
        Ok(())
    }

    fn feed(&mut self, feeding: &Feeding) -> Result<(), ReplayError> {
        let at = &feeding.at;
        self.go_to(at)?;
        if self.is_early(at) || self.is_late(at) {
            return Err(ReplayError::Rhythm(at.clone()));
        }
        self.remove(at, &feeding.discard)?;
        let declared = self.task.keeping.declared();
        if feeding.old != self.stock {
            return Err(ReplayError::RunsOut(at.clone()));
        }
        let share = feeding.share_old();
        if share < declared.keeps.least || share > declared.keeps.most {
            return Err(ReplayError::Keeps(at.clone(), share));
        }
        let made = feeding.made();
        // While little is built up, it grows as fast as it may.
        let is_low = made < declared.hold_least && (self.full || share != declared.keeps.least);
        if is_low || declared.hold_most.as_ref().is_some_and(|most| made > *most) {
            return Err(ReplayError::Holds(at.clone(), made));
        }
        self.full = self.full || made >= declared.hold_least;
        self.stock = made;
        self.fed = Some(at.clone());
        Ok(())
    }

    /// The longer of clock and passing time must not be too short: an hour that the clock skips or repeats is forgiven.
    fn is_early(&self, at: &Zoned) -> bool {
        let least = minutes(&self.task.keeping.declared().fed_every.least);
        self.fed.as_ref().is_some_and(|fed| passing(fed, at).max(on_the_wall(fed, at)) < least)
    }

    /// And the shorter not too long.
    fn is_late(&self, at: &Zoned) -> bool {
        let declared = self.task.keeping.declared();
        let cold = declared.stored.as_ref().map(|stored| minutes(&declared.ripens.most) + minutes(stored));
        let most = cold.unwrap_or_default().max(minutes(&declared.fed_every.most));
        let since = self.fed.as_ref().unwrap_or(&self.start);
        passing(since, at).min(on_the_wall(since, at)) > most
    }

    fn finish(&mut self, plan: &FeedingPlan) -> Result<(), ReplayError> {
        self.go_to(&plan.end)?;
        if self.is_late(&plan.end) {
            return Err(ReplayError::Rhythm(plan.end.clone()));
        }
        let is_end = self.task.days.end().is_some_and(|end| end == plan.end);
        if is_end && self.stock == plan.left && self.stock.grams().is_positive() {
            Ok(())
        } else {
            Err(ReplayError::Left)
        }
    }
}

/// Every need within the days is taken, at its moment and in full; nothing else is.
fn needs_are_met(task: &FeedingTask<'_>, plan: &FeedingPlan) -> Result<(), ReplayError> {
    let mut open: Vec<(&Zoned, &Mass)> = task
        .needs
        .iter()
        .filter(|need| need.at >= plan.start && need.at < plan.end)
        .map(|need| (&need.at, &need.mass))
        .collect();
    for step in &plan.steps {
        if let FeedingStep::Take(take) = step {
            let own = open.iter().position(|(at, mass)| **at == take.at && **mass == take.mass);
            open.remove(own.ok_or_else(|| ReplayError::NotMet(take.at.clone()))?);
        }
    }
    open.first().map_or(Ok(()), |(at, _)| Err(ReplayError::NotMet((*at).clone())))
}

fn minutes(time: &Duration) -> Exact {
    time.in_unit(TimeUnit::Minute)
}

fn passing(from: &Zoned, to: &Zoned) -> Exact {
    sixtieth(to.timestamp().duration_since(from.timestamp()))
}

fn on_the_wall(from: &Zoned, to: &Zoned) -> Exact {
    sixtieth(to.datetime().duration_since(from.datetime()))
}

fn sixtieth(time: jiff::SignedDuration) -> Exact {
    &Exact::from(time.as_secs()) / &Exact::from(60)
}
