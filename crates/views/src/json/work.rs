//! The work of a timetable as JSON: what any scheduler needs to lay the day out itself.

use levamen_timetable::{LagFrom, Moment, Step, TimeLag, Work};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A day's work before it has times. Times and lengths are whole minutes; times count from the first minute of the span.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct WorkJson {
    /// Minutes of the span: no step begins before 0 or ends after this.
    pub minutes: i64,
    /// What steps take places of: mixers, bakers, ovens.
    pub resources: Vec<ResourceJson>,
    /// The steps.
    pub steps: Vec<WorkStepJson>,
    /// The time lags between steps.
    pub lags: Vec<LagJson>,
}

/// Something with so many places at each minute.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ResourceJson {
    /// Its name.
    pub name: String,
    /// Spans from a minute to the minute after the last, with so many places; where they overlap, they add up.
    pub open: Vec<(i64, i64, u32)>,
}

/// A step of fixed length.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct WorkStepJson {
    /// Its name.
    pub name: String,
    /// The number of its job: steps of one job belong together.
    pub job: usize,
    /// How long it takes.
    pub length: i64,
    /// It may not begin before this minute.
    pub release: i64,
    /// It has to be over by this minute; being over sooner counts as waiting.
    pub deadline: Option<i64>,
    /// The ways in which it can be done: each the resources that it takes. One of them is used.
    pub ways: Vec<Vec<WorkNeedJson>>,
}

/// What a step takes of a resource.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct WorkNeedJson {
    /// The place of the resource in the list.
    pub resource: usize,
    /// How many places.
    pub places: u32,
    /// How long after the start of the step.
    pub after: i64,
    /// For how long.
    pub length: i64,
}

/// The start of `before` less the start of `after` is from `least` to `most`; beyond `least` counts as waiting.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct LagJson {
    /// The earlier step, by its place.
    pub after: usize,
    /// The later step.
    pub before: usize,
    /// The least.
    pub least: i64,
    /// The most, if there is one.
    pub most: Option<i64>,
}

impl WorkJson {
    /// Machines are resources with one place, after the pools.
    #[must_use]
    pub fn new(work: &Work) -> Self {
        let (from, until) = work.span();
        let minute = |moment: Moment| moment.signed() - from.signed();
        let minutes = minute(until);
        let pools = work.pools().iter().map(|pool| ResourceJson {
            name: pool.name.clone(),
            open: pool.open.iter().map(|open| (minute(open.from), minute(open.until), open.places)).collect(),
        });
        let machines = work
            .machines()
            .iter()
            .map(|machine| ResourceJson { name: machine.name.clone(), open: vec![(0, minutes, 1)] });
        Self {
            minutes,
            resources: pools.chain(machines).collect(),
            steps: work.step_ids().filter_map(|id| Some(step(work, id, work.get(id)?, minute))).collect(),
            lags: work.time_lags().iter().map(|lag| self::lag(work, lag)).collect(),
        }
    }
}

fn step(
    work: &Work,
    id: levamen_timetable::StepId,
    step: &Step,
    minute: impl Fn(Moment) -> i64,
) -> WorkStepJson {
    let needs = step.needs.iter().map(|need| WorkNeedJson {
        resource: need.pool.place(),
        places: need.places,
        after: need.after.signed(),
        length: need.length.signed(),
    });
    let needs: Vec<WorkNeedJson> = needs.collect();
    let ways = match &step.machine {
        None => vec![needs],
        Some(on) => {
            let machines = work.machines().iter().zip(work.pools().len()..);
            let able = machines.filter(|(machine, _)| machine.class == on.class && machine.takes(&on.dough));
            able.map(|(_, resource)| {
                let machine = WorkNeedJson { resource, places: 1, after: 0, length: step.length.signed() };
                needs.iter().cloned().chain([machine]).collect()
            })
            .collect()
        }
    };
    WorkStepJson {
        name: work.name(id),
        job: step.job.place(),
        length: step.length.signed(),
        release: step.release.map_or(0, &minute),
        deadline: step.deadline.map(&minute),
        ways,
    }
}

fn lag(work: &Work, lag: &TimeLag) -> LagJson {
    let ahead = match lag.since {
        LagFrom::End => work.get(lag.after).map_or(0, |step| step.length.signed()),
        LagFrom::Start => 0,
    };
    LagJson {
        after: lag.after.place(),
        before: lag.before.place(),
        least: ahead + lag.least.signed(),
        most: lag.most.map(|most| ahead + most.signed()),
    }
}
