//! The slowest planner: every start of every step and every machine, with the checker as the judge.

use levamen_timetable::{
    Entry, MachineId, Minutes, Moment, Since, Step, StepId, Timetable, Waiting, Work, verify,
};

/// The least waiting of any timetable; `None` if there is none.
pub fn least(work: &Work, machines: &[MachineId]) -> Option<u32> {
    let mut brute = Brute { work, machines, entries: Vec::new(), least: None };
    brute.next();
    brute.least
}

struct Brute<'w> {
    work: &'w Work,
    machines: &'w [MachineId],
    entries: Vec<Entry>,
    least: Option<u32>,
}

impl Brute<'_> {
    fn next(&mut self) {
        let steps: Vec<(StepId, &Step)> = self.work.step_ids().zip(self.work.steps()).collect();
        let Some((id, step)) = steps.get(self.entries.len()).copied() else { return self.judge() };
        let (from, until) = self.work.span();
        let choices: Vec<Option<MachineId>> = if step.machine.is_some() {
            self.machines.iter().copied().map(Some).collect()
        } else {
            vec![None]
        };
        for start in from.minutes()..=until.minutes() {
            let start = Moment::minute(start);
            for machine in &choices {
                self.entries.push(Entry { step: id, start, end: start + step.length, machine: *machine });
                // What breaks a window is not mended by later steps.
                if self.keeps_windows() {
                    self.next();
                }
                self.entries.pop();
            }
        }
    }

    fn keeps_windows(&self) -> bool {
        let entry = |step| self.entries.iter().find(|entry| entry.step == step);
        self.work.waits().iter().all(|wait| {
            let (Some(after), Some(before)) = (entry(wait.after), entry(wait.before)) else { return true };
            let from = if wait.since == Since::End { after.end } else { after.start };
            let is_within = |long| wait.least <= long && wait.most.is_none_or(|most| long <= most);
            before.start.since(from).is_some_and(is_within)
        })
    }

    fn judge(&mut self) {
        let Some(waiting) = waiting(self.work, &self.entries) else { return };
        let total = waiting.total().count();
        if self.least.is_some_and(|least| least <= total) {
            return;
        }
        let timetable = Timetable { entries: self.entries.clone(), waiting, bound: Minutes::ZERO };
        if verify(self.work, &timetable).is_empty() {
            self.least = Some(total);
        }
    }
}

fn waiting(work: &Work, entries: &[Entry]) -> Option<Waiting> {
    let mut early = 0;
    for (step, entry) in work.steps().iter().zip(entries) {
        if let Some(due) = step.out_by {
            early += due.since(entry.end)?.count();
        }
    }
    let entry = |step| entries.iter().find(|entry| entry.step == step);
    let mut between = 0;
    for wait in work.waits() {
        let (after, before) = (entry(wait.after)?, entry(wait.before)?);
        let from = if wait.since == Since::End { after.end } else { after.start };
        between += before.start.since(from)?.count() - wait.least.count();
    }
    Some(Waiting { early: Minutes::new(early), between: Minutes::new(between) })
}
