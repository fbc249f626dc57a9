//! The slowest planner: every start of every step and every machine, with the checker as the judge.

use levamen_timetable::{
    LagFrom, MachineId, Minutes, Moment, Placement, Step, StepId, Timetable, Waiting, Work, verify,
};

/// The least waiting of any timetable; `None` if there is none.
pub fn least(work: &Work, machines: &[MachineId]) -> Option<u32> {
    let mut brute = Brute { work, machines, placements: Vec::new(), least: None };
    brute.next();
    brute.least
}

struct Brute<'w> {
    work: &'w Work,
    machines: &'w [MachineId],
    placements: Vec<Placement>,
    least: Option<u32>,
}

impl Brute<'_> {
    fn next(&mut self) {
        let steps: Vec<(StepId, &Step)> = self.work.step_ids().zip(self.work.steps()).collect();
        let Some((id, step)) = steps.get(self.placements.len()).copied() else { return self.judge() };
        let (from, until) = self.work.span();
        let choices: Vec<Option<MachineId>> = if step.machine.is_some() {
            self.machines.iter().copied().map(Some).collect()
        } else {
            vec![None]
        };
        let pools: Vec<_> = match step.either.as_slice() {
            [] => vec![None],
            either => either.iter().map(|need| Some(need.pool)).collect(),
        };
        for start in from.minutes()..=until.minutes() {
            let start = Moment::minute(start);
            for (machine, pool) in
                choices.iter().flat_map(|machine| pools.iter().map(move |pool| (machine, pool)))
            {
                self.placements.push(Placement {
                    step: id,
                    start,
                    end: start + step.length,
                    machine: *machine,
                    pool: *pool,
                });
                // What breaks a window is not mended by later steps.
                if self.keeps_windows() {
                    self.next();
                }
                self.placements.pop();
            }
        }
    }

    fn keeps_windows(&self) -> bool {
        let placement = |step| self.placements.iter().find(|placement| placement.step == step);
        self.work.time_lags().iter().all(|time_lag| {
            let (Some(after), Some(before)) = (placement(time_lag.after), placement(time_lag.before)) else {
                return true;
            };
            let from = if time_lag.since == LagFrom::End { after.end } else { after.start };
            let is_within = |long| time_lag.least <= long && time_lag.most.is_none_or(|most| long <= most);
            before.start.since(from).is_some_and(is_within)
        })
    }

    fn judge(&mut self) {
        let Some(waiting) = waiting(self.work, &self.placements) else { return };
        let total = waiting.total().count();
        if self.least.is_some_and(|least| least <= total) {
            return;
        }
        let placements = self.placements.clone();
        let timetable =
            Timetable { placements, left_out: Vec::new(), waiting, bound: Minutes::ZERO, shortfall: None };
        if verify(self.work, &timetable).is_empty() {
            self.least = Some(total);
        }
    }
}

fn waiting(work: &Work, placements: &[Placement]) -> Option<Waiting> {
    let mut early = 0;
    for (step, placement) in work.steps().iter().zip(placements) {
        if let Some(due) = step.deadline {
            early += due.since(placement.end)?.count();
        }
    }
    let placement = |step| placements.iter().find(|placement| placement.step == step);
    let mut between = 0;
    for time_lag in work.time_lags() {
        let (after, before) = (placement(time_lag.after)?, placement(time_lag.before)?);
        let from = if time_lag.since == LagFrom::End { after.end } else { after.start };
        between += before.start.since(from)?.count() - time_lag.least.count();
    }
    Some(Waiting { late: Minutes::ZERO, early: Minutes::new(early), between: Minutes::new(between) })
}
