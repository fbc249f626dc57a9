//! A timetable as JSON, or why there is none.

use levamen_timetable::{
    Clock, Moment, Placement, Remedy, Step, TimeLag, TimeLagId, Timetable, TimetableError, Work,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::text::job_name;

/// A day's timetable. Times are of RFC 3339, with the offset of the place; lengths are whole minutes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct TimetableJson {
    /// The day of the bread.
    pub date: String,
    /// The time zone of the place, by its name in the IANA database.
    pub zone: Option<String>,
    /// How much waits longer than it must.
    pub waiting: WaitingJson,
    /// Minutes of waiting that no timetable is under.
    pub bound_min: u32,
    /// By how much some other timetable could at most be better.
    pub gap_min: u32,
    /// Every step, in the order of the work.
    pub steps: Vec<StepJson>,
    /// Every wait between two steps.
    pub waits: Vec<WaitJson>,
    /// Why something is late or left out; `null` where everything has its place in time.
    pub shortfall: Option<NoTimetableJson>,
}

/// Minutes of waiting.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct WaitingJson {
    /// All of it, without what is late.
    pub total_min: u32,
    /// After bread is due: no waiting, and counted by itself.
    pub late_min: u32,
    /// Before bread is due.
    pub early_min: u32,
    /// Between steps, beyond the least of each window.
    pub between_min: u32,
}

/// When one step is done, and on what.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct StepJson {
    /// The job that it is part of.
    pub job: String,
    /// What it is.
    pub step: String,
    /// Its first minute; `null` of a step that is left out.
    pub start: Option<String>,
    /// The minute after its last.
    pub end: Option<String>,
    /// By how much it is over after it has to be; `null` where it is in time.
    pub late_min: Option<u32>,
    /// The machine that it is on.
    pub machine: Option<String>,
    /// What it takes of bakers, decks and the like.
    pub needs: Vec<NeedJson>,
}

/// What a step takes of a pool.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct NeedJson {
    /// The pool: `bakers`, `deck oven`.
    pub pool: String,
    /// How many places of it.
    pub places: u32,
    /// The first minute.
    pub start: Option<String>,
    /// The minute after the last.
    pub end: Option<String>,
}

/// A wait between two steps, by their places in `steps`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct WaitJson {
    /// What it is: `bulk`.
    pub name: String,
    /// The earlier step.
    pub after: usize,
    /// The later step.
    pub before: usize,
    /// How long it is.
    pub minutes: Option<u32>,
    /// The least that it may be.
    pub least_min: u32,
    /// The most that it may be.
    pub most_min: Option<u32>,
}

/// Why there is no timetable, or why something of it is late or left out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct NoTimetableJson {
    /// The day of the bread.
    pub date: String,
    /// What is wrong.
    pub what: String,
    /// What it comes from, line by line.
    pub why: Vec<String>,
    /// What may help.
    pub help: Vec<String>,
    /// Changes that were tried, with each of which there is a timetable.
    pub would_do: Vec<String>,
}

impl TimetableJson {
    /// A timetable by the clock of its place.
    #[must_use]
    pub fn new(work: &Work, timetable: &Timetable, remedies: &[Remedy], clock: &Clock) -> Self {
        let waiting = timetable.waiting;
        let steps = work.step_ids().zip(work.steps());
        Self {
            date: clock.date().to_string(),
            zone: clock.zone().map(str::to_owned),
            waiting: WaitingJson {
                total_min: waiting.total().count(),
                late_min: waiting.late.count(),
                early_min: waiting.early.count(),
                between_min: waiting.between.count(),
            },
            bound_min: timetable.bound.count(),
            gap_min: timetable.gap().count(),
            steps: steps.map(|(id, step)| step_json(work, step, timetable.placement(id), clock)).collect(),
            waits: work
                .time_lag_ids()
                .zip(work.time_lags())
                .map(|(id, wait)| wait_json(work, timetable, id, wait))
                .collect(),
            shortfall: timetable.shortfall.as_ref().map(|e| NoTimetableJson::new(work, e, remedies, clock)),
        }
    }
}

impl NoTimetableJson {
    /// Trouble in words, by the clock of its place.
    #[must_use]
    pub fn new(work: &Work, trouble: &TimetableError, remedies: &[Remedy], clock: &Clock) -> Self {
        let problem = trouble.text(work, clock);
        let would_do = remedies.iter().map(|remedy| remedy.text(work, clock)).collect();
        Self {
            date: clock.date().to_string(),
            what: problem.what,
            why: problem.why,
            help: problem.help,
            would_do,
        }
    }
}

/// `2026-11-26T04:30:00+01:00`
fn stamp(clock: &Clock, moment: Moment) -> Option<String> {
    clock.at(moment).map(|at| at.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string())
}

fn step_json(work: &Work, step: &Step, entry: Option<&Placement>, clock: &Clock) -> StepJson {
    let Some(entry) = entry else {
        let (job, step) = (job_name(work, step).to_owned(), step.name.clone());
        return StepJson {
            job,
            step,
            start: None,
            end: None,
            late_min: None,
            machine: None,
            needs: Vec::new(),
        };
    };
    let late = step.deadline.and_then(|due| entry.end.since(due)).map(levamen_timetable::Minutes::count);
    let needs = entry.needs(step).filter_map(|need| {
        let start = entry.start + need.after;
        Some(NeedJson {
            pool: work.get_pool(need.pool)?.name.clone(),
            places: need.places,
            start: stamp(clock, start),
            end: stamp(clock, start + need.length),
        })
    });
    StepJson {
        job: job_name(work, step).to_owned(),
        step: step.name.clone(),
        start: stamp(clock, entry.start),
        end: stamp(clock, entry.end),
        late_min: late.filter(|late| *late > 0),
        machine: entry.machine.and_then(|id| work.get_machine(id)).map(|machine| machine.name.clone()),
        needs: needs.collect(),
    }
}

fn wait_json(work: &Work, timetable: &Timetable, id: TimeLagId, wait: &TimeLag) -> WaitJson {
    WaitJson {
        name: wait.name.clone(),
        after: wait.after.place(),
        before: wait.before.place(),
        minutes: timetable.time_lag(work, id).map(levamen_timetable::Minutes::count),
        least_min: wait.least.count(),
        most_min: wait.most.map(levamen_timetable::Minutes::count),
    }
}
