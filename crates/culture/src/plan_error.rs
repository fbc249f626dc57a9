//! Why there is no plan, and what would do.

use jiff::{Span, Zoned};
use levamen_language::{AskedField, Hint, Place, Problem};
use levamen_quantity::{Exact, Mass};

use crate::bounds::CultureReach;
use crate::feeding_plan::FeedingTask;
use crate::feeding_times::least_on_hand;
use crate::figure_text::{at_least, at_most, hours, moment, span, weight};
use crate::keeping::CultureKeeping;
use crate::needs::CultureNeed;
use crate::slots::FeedingSlots;

/// How many days further the search goes for the first on which a need could be met.
const DAYS_AHEAD: u32 = 60;

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq)]
pub enum PlanError {
    /// The days end past the end of the calendar.
    PastTheCalendar,
    /// No hour at which somebody feeds keeps the rhythm and leaves ripe culture when it is needed.
    NoHour {
        /// The last moment at which it is fed.
        fed: Zoned,
        /// Whether that is the start, when nobody has fed yet.
        at_start: bool,
        /// The next need after that, if there is one.
        needed: Option<Zoned>,
    },
    /// More is needed than may be held.
    TooMuch {
        /// The need.
        need: CultureNeed,
        /// The most that may stand in the tub.
        most: Mass,
    },
    /// There cannot be so much by then.
    Shortfall(Box<Shortfall>),
    /// A plan was made that the replay does not accept.
    Unsound,
}

/// A need that cannot be met in time.
#[derive(Debug, Clone, PartialEq)]
pub struct Shortfall {
    /// The need.
    pub need: CultureNeed,
    /// The most that there can be for it, when all before it is met.
    pub most: Mass,
    /// What is on hand at the start.
    pub on_hand: Option<Mass>,
    /// What would have to be on hand; `None` where no amount would do.
    pub wanted: Option<Mass>,
    /// The first moment, at the same time of day, by which there could be enough.
    pub earliest: Option<Zoned>,
}

/// Finds out why no way leads to the end.
pub(crate) fn refuse(task: &FeedingTask<'_>, slots: &FeedingSlots<'_>, reach: &CultureReach) -> PlanError {
    let needs = task.needs_in_order();
    if !reach.floor.get(slots.end()).is_some_and(Option::is_some) {
        return no_hour(slots, reach, &needs);
    }
    let short = |index: &usize| reach.most_for(task.keeping, slots, *index) < slots.mass(*index);
    let Some(index) = (0..slots.need_count()).find(short) else { return PlanError::Unsound };
    let Some(need) = needs.get(index).map(|need| (*need).clone()) else { return PlanError::Unsound };
    if let Some(most) = task.keeping.declared().hold_most.as_ref().filter(|most| need.mass >= **most) {
        return PlanError::TooMuch { need, most: most.clone() };
    }
    PlanError::Shortfall(Box::new(Shortfall {
        most: Mass::from_grams(reach.most_for(task.keeping, slots, index)),
        on_hand: task.on_hand.clone(),
        wanted: task.on_hand.as_ref().and_then(|_| least_on_hand(task.keeping, slots)).map(Mass::from_grams),
        earliest: earliest(task, &needs, index),
        need,
    }))
}

fn no_hour(slots: &FeedingSlots<'_>, reach: &CultureReach, needs: &[&CultureNeed]) -> PlanError {
    let reached = |slot: &usize| reach.floor.get(*slot).is_some_and(Option::is_some);
    let last = (0..slots.end()).rev().find(reached).unwrap_or(FeedingSlots::START);
    let Some(slot) = slots.get(last) else { return PlanError::Unsound };
    let needed = needs.iter().find(|need| need.at > slot.at).map(|need| need.at.clone());
    PlanError::NoHour { fed: slot.at.clone(), at_start: last == FeedingSlots::START, needed }
}

/// The first day on which a need could be met at its time of day, when all before it are met.
fn earliest(task: &FeedingTask<'_>, needs: &[&CultureNeed], index: usize) -> Option<Zoned> {
    let need = *needs.get(index)?;
    let before: Vec<CultureNeed> = needs.get(..index)?.iter().map(|need| (*need).clone()).collect();
    for later in 1..=DAYS_AHEAD {
        let moved =
            CultureNeed { at: need.at.checked_add(Span::new().days(i64::from(later))).ok()?, ..need.clone() };
        let mut all = before.clone();
        all.push(moved.clone());
        let days = task.days.longer(later)?;
        let slots = FeedingSlots::new(task.keeping, &all, &days, task.hours)?;
        let reach = CultureReach::new(task.keeping, &slots, task.on_hand.as_ref().map(Mass::grams));
        if reach.most_for(task.keeping, &slots, index) >= *need.mass.grams() {
            return Some(moved.at);
        }
    }
    None
}

impl PlanError {
    /// The problem, with a culture's name.
    #[must_use]
    pub fn problem(&self, culture: &str, keeping: &CultureKeeping) -> Problem {
        match self {
            Self::PastTheCalendar => Problem::error("past-the-calendar", "the plan ends after the year 9999")
                .help("begin it earlier"),
            Self::NoHour { fed, at_start, needed } => {
                no_hour_problem(culture, keeping, fed, *at_start, needed.as_ref())
            }
            Self::TooMuch { need, most } => at(
                Problem::error(
                    "more-than-is-held",
                    format!(
                        "{} of `{culture}` is needed on {}, and at most {} is held",
                        weight(&need.mass),
                        moment(&need.at),
                        weight(most)
                    ),
                ),
                need.place,
                "all that is held, or more",
            )
            .note("some of it must stay behind, or the culture is lost")
            .help("raise `hold at most`, or build the levain in two steps from less culture"),
            Self::Shortfall(short) => short.problem(culture, keeping),
            Self::Unsound => Problem::error(
                "unsound-plan",
                format!("the plan for `{culture}` does not stand up to its own check, so it is not shown"),
            )
            .help("this is a fault of the program: please report it with the need file"),
        }
    }
}

fn no_hour_problem(
    culture: &str,
    keeping: &CultureKeeping,
    fed: &Zoned,
    at_start: bool,
    needed: Option<&Zoned>,
) -> Problem {
    let since = if at_start { "the plan begins" } else { "it is fed last" };
    let message = format!("no hour suits to feed `{culture}` after {}, when {since}", moment(fed));
    let least = hours(keeping.ripens().least);
    let rhythm = keeping.rhythm();
    let mut problem = Problem::error("no-hour", message).note(format!(
        "it is fed every {} and is ripe {least} after feeding at the earliest",
        span(rhythm.least, keeping.longest())
    ));
    let ripens = jiff::SignedDuration::from_mins(keeping.ripens().most);
    if let Some(needed) = needed {
        problem = problem.note(format!(
            "ripe culture is needed next on {}: not fed in the {least} before that",
            moment(needed)
        ));
        if let Ok(early) = needed.checked_sub(ripens) {
            let hour = format!(" {}`", early.strftime("%H:%M"));
            problem = problem.help(Hint::of_field("name an hour that suits: `", AskedField::FeedAt, hour));
        }
    }
    problem.help("a wider rhythm would do, if the culture bears it: `fed every 8 to 30 h` in the book")
}

impl Shortfall {
    fn problem(&self, culture: &str, keeping: &CultureKeeping) -> Problem {
        let message = format!(
            "`{culture}` cannot be {} by {}: {} is the most there can be",
            weight(&self.need.mass),
            moment(&self.need.at),
            at_most(&self.most)
        );
        let lacking = Mass::from_grams(self.need.mass.grams() - self.most.grams());
        let mut problem = at(
            Problem::error("not-enough", message),
            self.need.place,
            &format!("{} too much", at_least(&lacking)),
        );
        let times = (&Exact::ONE / keeping.low()).to_fixed(1);
        problem = problem.note(format!(
            "a feeding makes at most {} times what is kept of it, and what was needed before is met",
            times.trim_end_matches(".0")
        ));
        if let Some(on_hand) = &self.on_hand {
            problem = problem.note(format!("the plan begins with {} on hand", weight(on_hand)));
        }
        if let Some(earliest) = &self.earliest {
            problem = problem.help(format!("by {} there can be enough", moment(earliest)));
        }
        if let Some(wanted) = &self.wanted {
            problem = problem.help(format!("or begin with {} of ripe culture on hand", at_least(wanted)));
        }
        if let (None, Some(most)) = (&self.wanted, &keeping.declared().hold_most) {
            problem = problem.help(format!("or hold more than {} (`hold at most`)", weight(most)));
        }
        problem.help("or build the levain itself in two steps, from less culture")
    }
}

fn at(problem: Problem, place: Option<Place>, label: &str) -> Problem {
    match place {
        Some(place) => problem.at(place, label),
        None => problem,
    }
}
