//! Trouble in the baker's words.

use crate::error::{
    Cause, ConflictKind, LimitedResource, Overload, TimetableError, WindowConflict, WorkLimit,
};
use crate::{Clock, LagFrom, Minutes, PoolId, StepId, TimeLagId, Work, WorkError};

/// What is wrong, why, line by line, and what may help.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ErrorText {
    /// What is wrong, in a sentence without its full stop.
    pub what: String,
    /// What it comes from.
    pub why: Vec<String>,
    /// What may help, beside the [remedies](crate::remedies) that were tried.
    pub help: Vec<String>,
}

impl TimetableError {
    /// Trouble with a work in words, with the times that a clock shows.
    #[must_use]
    pub fn text(&self, work: &Work, clock: &Clock) -> ErrorText {
        ErrorWriter { work, clock }.error(self)
    }
}

struct ErrorWriter<'a> {
    work: &'a Work,
    clock: &'a Clock,
}

impl ErrorWriter<'_> {
    fn error(&self, error: &TimetableError) -> ErrorText {
        match error {
            TimetableError::WorkError(work_error) => {
                ErrorText { what: self.work_error(work_error), why: Vec::new(), help: Vec::new() }
            }
            TimetableError::NoMachine(step) => self.no_machine(*step),
            TimetableError::NeverSoMany(step, pool) => self.never_so_many(*step, *pool),
            TimetableError::Windows(window_conflict) => self.window_conflict(window_conflict),
            TimetableError::Overload(overload) => self.overload(overload),
            TimetableError::Together(limits) => ErrorText {
                what: "there is no timetable: these limits cannot all hold".to_owned(),
                why: limits.iter().map(|limit| self.limit(*limit)).collect(),
                help: vec!["every way to set the steps was tried".to_owned()],
            },
            TimetableError::Internal => ErrorText {
                what: "this program has a mistake, and what it found is not shown (internal-error)"
                    .to_owned(),
                why: Vec::new(),
                help: vec!["report it with the command and the files".to_owned()],
            },
            TimetableError::NotFound(jobs) => {
                let names = jobs.iter().filter_map(|job| self.work.jobs.get(job.0));
                ErrorText {
                    what: "no place in time was found for all of it".to_owned(),
                    why: names.map(|name| format!("{name} is late or left out")).collect(),
                    help: vec![
                        "it is not proven that not all can be in time: look for longer, or ease a limit"
                            .to_owned(),
                    ],
                }
            }
        }
    }

    fn no_machine(&self, step: StepId) -> ErrorText {
        let on = self.work.get(step).and_then(|step| step.machine.as_ref());
        let class = on.map(|on| on.class);
        let name = class.and_then(|class| self.work.classes.get(class.0)).map_or("machine", String::as_str);
        let kilograms = |mass: &levamen_quantity::Mass| {
            let kilograms = mass.in_unit(levamen_quantity::MassUnit::Kilogram);
            kilograms.round_to(&thousandth()).to_decimal_string()
        };
        let dough = on.map(|on| kilograms(&on.dough)).unwrap_or_default();
        let machines = self.work.machines.iter().filter(|machine| Some(machine.class) == class);
        let why = machines.map(|machine| {
            format!("{} takes {} to {} kg", machine.name, kilograms(&machine.least), kilograms(&machine.most))
        });
        ErrorText {
            what: format!("no {name} takes the {dough} kg of {}", self.work.name(step)),
            why: why.collect(),
            help: vec!["split the dough into batches that one takes, or mix it with another".to_owned()],
        }
    }

    fn never_so_many(&self, step: StepId, id: PoolId) -> ErrorText {
        let needs = self.work.get(step).into_iter().flat_map(|step| &step.needs);
        let places = needs.filter(|need| need.pool == id).map(|need| need.places).max().unwrap_or(0);
        let (name, wanted, most) = match self.work.pools.get(id.0) {
            Some(pool) => (pool.name.as_str(), pool.counted(places), pool.most()),
            None => ("?", places.to_string(), 0),
        };
        ErrorText {
            what: format!(
                "{} needs {wanted} at once, and there are never more than {most}",
                self.work.name(step)
            ),
            why: vec![format!("the most of {name} at any hour is {most}")],
            help: vec!["split the batch".to_owned()],
        }
    }

    fn window_conflict(&self, window_conflict: &WindowConflict) -> ErrorText {
        let name = self.work.name(window_conflict.step);
        let lines = |causes: &[Cause]| causes.iter().map(|cause| self.cause(*cause)).collect::<Vec<_>>();
        if window_conflict.holds == ConflictKind::InACircle {
            let what = format!("the waits around {name} go in a circle that holds at no hour");
            let help = vec!["make the most of one of them longer, or the least of one shorter".to_owned()];
            return ErrorText { what, why: lines(&window_conflict.from), help };
        }
        let (earliest, latest) =
            (self.clock.words(window_conflict.earliest), self.clock.words(window_conflict.latest));
        let mut why = vec![format!("it cannot begin before {earliest}:")];
        why.extend(lines(&window_conflict.from).into_iter().map(|line| format!("  {line}")));
        why.push(format!("and has to begin by {latest}:"));
        why.extend(lines(&window_conflict.until).into_iter().map(|line| format!("  {line}")));
        let missing = window_conflict.missing();
        let (missing, help) = if window_conflict.holds == ConflictKind::AtClosedHours {
            (
                format!("there are too few {} whenever it could begin", self.closed_pool(window_conflict)),
                Vec::new(),
            )
        } else {
            (format!("{missing} too little"), vec![format!("ease one of these limits by {missing}")])
        };
        ErrorText { what: format!("no hour is left for {name}: {missing}"), why, help }
    }

    /// What a pool that is closed at all hours of a step has too little of.
    fn closed_pool(&self, window_conflict: &WindowConflict) -> &str {
        let pool = window_conflict.from.iter().rev().find_map(|cause| match cause {
            Cause::Closed { pool, .. } => self.work.pools.get(pool.0),
            _ => None,
        });
        pool.map_or("hands", |pool| pool.many.as_str())
    }

    fn cause(&self, cause: Cause) -> String {
        match cause {
            Cause::Release(step) => {
                let own = self.work.get(step).and_then(|step| step.release);
                let moment = own.map_or(self.work.from, |own| own.max(self.work.from));
                format!("{} may not begin before {}", self.work.name(step), self.clock.words(moment))
            }
            Cause::Deadline(step) => {
                let own = self.work.get(step).and_then(|step| step.deadline);
                let moment = own.map_or(self.work.until, |own| own.min(self.work.until));
                format!(
                    "{} has to be over by {}{}",
                    self.work.name(step),
                    self.clock.words(moment),
                    self.takes(step)
                )
            }
            Cause::Least(time_lag) => self.time_lag(time_lag, true),
            Cause::Most(time_lag) => self.time_lag(time_lag, false),
            Cause::Closed { pool, step, from, until } => {
                let pool = self.work.pools.get(pool.0).map_or("?", |pool| pool.many.as_str());
                let [from, until] = [from, until].map(|moment| self.clock.words(moment));
                format!("there are too few {pool} for {} from {from} to {until}", self.work.name(step))
            }
        }
    }

    fn takes(&self, step: StepId) -> String {
        let length = self.work.get(step).map(|step| step.length).unwrap_or_default();
        if length == Minutes::ZERO { String::new() } else { format!(", and takes {length}") }
    }

    /// `bulk: 1 h or more from the end of mix of Quayside loaf, which takes 12 min, to divide of Quayside loaf`
    fn time_lag(&self, time_lag: TimeLagId, is_least: bool) -> String {
        let Some(time_lag) = self.work.time_lags.get(time_lag.0) else { return String::new() };
        let length = match time_lag.most {
            Some(most) if !is_least => format!("{most} at most"),
            _ => format!("{} or more", time_lag.least),
        };
        let from = match time_lag.since {
            LagFrom::End => {
                format!("from the end of {}{}", self.work.name(time_lag.after), self.takes(time_lag.after))
            }
            LagFrom::Start => format!("from the start of {}", self.work.name(time_lag.after)),
        };
        format!("{}: {length} {from}, to the start of {}", time_lag.name, self.work.name(time_lag.before))
    }

    fn overload(&self, overload: &Overload) -> ErrorText {
        let (from, until) = (self.clock.words(overload.from), self.clock.words(overload.until));
        let minutes = overload.until.since(overload.from).map_or(1, |long| u64::from(long.count().max(1)));
        let needed = overload.wanted.div_ceil(minutes);
        let (one, many, there) = self.room(overload, minutes);
        let needed = if needed == 1 { format!("1 {one} is") } else { format!("{needed} {many} are") };
        let (wanted, have) = (overload.wanted, overload.there);
        ErrorText {
            what: format!("between {from} and {until} {needed} needed, and there {there}"),
            why: vec![
                format!("these have to be done there: {}", self.names(&overload.steps)),
                format!("they take {wanted} {one}-minutes in that time, and there are {have}"),
            ],
            help: Vec::new(),
        }
    }

    /// The names of steps; several batches of one name are counted, not listed.
    fn names(&self, steps: &[StepId]) -> String {
        let mut names: Vec<(String, u32)> = Vec::new();
        for name in steps.iter().map(|step| self.work.name(*step)) {
            match names.iter_mut().find(|(known, _)| *known == name) {
                Some((_, times)) => *times += 1,
                None => names.push((name, 1)),
            }
        }
        let text = names.into_iter().map(|(name, times)| match times {
            1 => name,
            _ => format!("{name}, {times} times"),
        });
        text.collect::<Vec<_>>().join("; ")
    }

    /// The words for one and for several of an overloaded room, and how many there are.
    fn room(&self, overload: &Overload, minutes: u64) -> (String, String, String) {
        let are = |count: u64| if count == 1 { "is 1".to_owned() } else { format!("are {count}") };
        match overload.room {
            LimitedResource::Pool(id) => {
                let pool = self.work.pools.get(id.0);
                let [one, many] = pool.map_or(["?"; 2], |pool| [pool.one.as_str(), pool.many.as_str()]);
                let is_even = overload.there.is_multiple_of(minutes);
                let on_average = if is_even { "" } else { " on average" };
                let there = format!("{}{on_average}", are(overload.there / minutes));
                (one.to_owned(), many.to_owned(), there)
            }
            LimitedResource::Machines(step, count) => {
                let class = self.work.get(step).and_then(|step| step.machine.as_ref()).map(|on| on.class);
                let class =
                    class.and_then(|class| self.work.classes.get(class.0)).map_or("?", String::as_str);
                let there = format!("{} that take the dough", are(u64::from(count)));
                (class.to_owned(), format!("{class}s"), there)
            }
        }
    }

    fn limit(&self, limit: WorkLimit) -> String {
        match limit {
            WorkLimit::Pool(pool) => {
                let pool = self.work.pools.get(pool.0);
                pool.map_or_else(String::new, |pool| {
                    format!("{}: {} at most", pool.name, pool.counted(pool.most()))
                })
            }
            WorkLimit::Machines(class) => {
                let count = self.work.machines.iter().filter(|machine| machine.class == class).count();
                let name = self.work.classes.get(class.0).map_or("?", String::as_str);
                format!("machines of the class {name}: {count}")
            }
            WorkLimit::Release(step) => self.cause(Cause::Release(step)),
            WorkLimit::Deadline(step) => self.cause(Cause::Deadline(step)),
            WorkLimit::Most(time_lag) => self.time_lag(time_lag, false),
        }
    }

    fn work_error(&self, work_error: &WorkError) -> String {
        let time_lag =
            |id: &TimeLagId| self.work.time_lags.get(id.0).map_or("?", |time_lag| time_lag.name.as_str());
        match work_error {
            WorkError::Span { from, until } => {
                let (from, until) = (self.clock.words(*from), self.clock.words(*until));
                format!("a timetable from {from} until {until} is no span of at most 31 days")
            }
            WorkError::TooManySteps(count) => {
                format!("{count} steps are more than the {} that one timetable holds", crate::MOST_STEPS)
            }
            WorkError::Foreign(name) => format!("{name} refers to something of another work"),
            WorkError::NeedPastEnd(step) => {
                format!("{} needs something after it is over", self.work.name(*step))
            }
            WorkError::UpsideDown(id) => format!("the least of the wait {} is above its most", time_lag(id)),
            WorkError::ToItself(id) => format!("the wait {} is from a step to itself", time_lag(id)),
            WorkError::MachineUpsideDown(name) => format!("the least dough of {name} is above its most"),
            WorkError::OpenBackwards(name) => format!("{name} closes before it opens"),
            WorkError::TooManyPlaces(name) => {
                format!("{name} has or is asked for more than {} places at once", crate::MOST_PLACES)
            }
        }
    }
}

/// A gram, in kilograms.
fn thousandth() -> levamen_quantity::Exact {
    levamen_quantity::Exact::ratio(1, 1000).unwrap_or(levamen_quantity::Exact::ONE)
}
