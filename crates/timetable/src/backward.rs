//! A timetable that grows from what is due backwards, one group of steps or one step after the other.
//!
//! A group is placed as late as what is placed already lets it be. Bounds that time lags give and starts that hours, machines and
//! pools leave free make a lattice: of two layouts that fit, that which takes the later start of each step fits as well. So
//! there is one latest layout, and it is found by moving each step to its last free minute and spreading that until nothing moves;
//! a step that is blocked jumps to the last minute before what blocks it. What cannot be in time is placed as little late
//! as can be; what has no place at all is left out.
//!
//! What is placed last is taken back first, so a search that changes the order from some place on begins there.

use crate::StepId;
use crate::grid::{Minute, TimeGrid};
use crate::id_vec::{GroupId, IdVec};
use crate::partial_schedule::StepGroup;
use crate::profile::{Assignment, Profile};
use crate::start_bounds::{StartBound, StartBounds};

/// What a timetable costs: the less the better, first of what is left out, then of what is late, then of what waits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct ScheduleCost {
    /// Steps that found no place.
    pub unplaced: i64,
    /// Minutes after deadlines.
    pub late: i64,
    /// Minutes of waiting.
    pub waiting: i64,
}

/// How many minutes of waiting a step without a place is worth to a search: more than any layout wins by leaving it out.
const UNPLACED: i64 = 50_000;

impl ScheduleCost {
    /// Whether everything has a place and nothing is late.
    pub const fn is_complete(self) -> bool {
        self.unplaced == 0 && self.late == 0
    }

    /// One figure for a search, with so many minutes of waiting for each minute of lateness.
    pub const fn weighed(self, late_price: i64) -> i64 {
        self.unplaced * UNPLACED + self.late * late_price + self.waiting
    }
}

/// Where the schedule stood before something was placed.
#[derive(Debug, Clone, Copy)]
struct Mark {
    placed: usize,
    bounds: usize,
    cost: ScheduleCost,
}

/// A timetable in the making.
#[derive(Debug, Clone)]
pub struct BackwardSchedule<'g> {
    grid: &'g TimeGrid,
    groups: &'g IdVec<GroupId, StepGroup>,
    group_of: IdVec<StepId, GroupId>,
    profile: Profile,
    bounds: StartBounds,
    assignments: IdVec<StepId, Option<Assignment>>,
    /// Steps in the order in which they were placed.
    placed: Vec<StepId>,
    marks: Vec<Mark>,
    cost: ScheduleCost,
    /// A minute after which a step is not to begin by the wish of the search.
    pub latest_wish: IdVec<StepId, Option<Minute>>,
    /// Placings so far: how much work was done.
    pub placings: u64,
}

/// How often a group whose own steps are in each other's way is moved earlier.
const ATTEMPTS: Minute = 16;

impl<'g> BackwardSchedule<'g> {
    pub fn new(grid: &'g TimeGrid, groups: &'g IdVec<GroupId, StepGroup>) -> Self {
        let count = grid.steps.len();
        let mut group_of = IdVec::filled(GroupId::default(), count);
        for (id, group) in groups.with_ids() {
            group.steps.iter().for_each(|&step| group_of[step] = id);
        }
        Self {
            grid,
            groups,
            group_of,
            profile: Profile::new(grid),
            bounds: StartBounds::new(grid),
            assignments: IdVec::filled(None, count),
            placed: Vec::new(),
            marks: Vec::new(),
            cost: ScheduleCost::default(),
            latest_wish: IdVec::filled(None, count),
            placings: 0,
        }
    }

    pub const fn cost(&self) -> ScheduleCost {
        self.cost
    }

    pub const fn assignments(&self) -> &IdVec<StepId, Option<Assignment>> {
        &self.assignments
    }

    pub fn group_of(&self, step: StepId) -> GroupId {
        self.group_of[step]
    }

    /// When a step would begin at the latest if it were alone.
    pub fn in_time(&self, step: StepId) -> Minute {
        self.bounds.get(StartBound::InTime, step)
    }

    /// How many groups or steps were placed or left out.
    pub fn len(&self) -> usize {
        self.marks.len()
    }

    /// Takes back all but the first so many.
    pub fn take_back_to(&mut self, count: usize) {
        while self.marks.len() > count {
            let Some(mark) = self.marks.pop() else { return };
            self.take_back(mark);
        }
    }

    fn mark(&self) -> Mark {
        Mark { placed: self.placed.len(), bounds: self.bounds.mark(), cost: self.cost }
    }

    fn take_back(&mut self, mark: Mark) {
        while self.placed.len() > mark.placed {
            let Some(step) = self.placed.pop() else { break };
            if let Some(at) = self.assignments[step].take() {
                self.profile.give_back(self.grid, step, at);
            }
        }
        self.bounds.take_back(mark.bounds);
        self.cost = mark.cost;
    }

    /// Places all steps of a group, or leaves them out.
    pub fn add_group(&mut self, id: GroupId) {
        let group = &self.groups[id];
        self.placings += u64::try_from(group.steps.len()).unwrap_or(0);
        let mark = self.mark();
        self.marks.push(mark);
        if self.group_in_time(id) {
            return;
        }
        self.take_back(mark);
        if self.lateness(id) && self.place_group(id, StartBound::Last) {
            return;
        }
        self.take_back(mark);
        self.cost.unplaced += i64::try_from(group.steps.len()).unwrap_or(0);
    }

    /// Places a step, with a look at the others of its group, or leaves it out.
    pub fn add_step(&mut self, step: StepId) {
        self.placings += 1;
        let mark = self.mark();
        self.marks.push(mark);
        let id = self.group_of[step];
        self.queue(id);
        let mut bound = StartBound::InTime;
        let mut is_possible = self.spread(id, bound);
        if !is_possible {
            self.take_back(mark);
            bound = StartBound::Last;
            is_possible = self.lateness(id) && {
                self.queue(id);
                self.spread(id, bound)
            };
        }
        let found = if is_possible { self.last_start(step, bound) } else { None };
        if let Some(at) = found {
            self.place(step, at);
        } else {
            self.take_back(mark);
            self.cost.unplaced += 1;
        }
    }

    /// The last start of a step within its bounds and by what is wished of it.
    fn last_start(&self, step: StepId, bound: StartBound) -> Option<Assignment> {
        let (low, high) = (self.bounds.get(StartBound::Earliest, step), self.bounds.get(bound, step));
        let wish = self.latest_wish[step].filter(|wish| bound == StartBound::InTime && *wish >= low);
        self.profile.latest(self.grid, step, low, wish.map_or(high, |wish| wish.min(high)))
    }

    /// Places a group in time. Where its own steps are in each other's way, the one that was placed first moves earlier.
    fn group_in_time(&mut self, id: GroupId) -> bool {
        for &step in &self.groups[id].steps {
            let (low, high) =
                (self.bounds.get(StartBound::Earliest, step), self.bounds.get(StartBound::InTime, step));
            if let Some(wish) = self.latest_wish[step].filter(|wish| low <= *wish && *wish < high) {
                self.bounds.set(StartBound::InTime, step, wish);
            }
        }
        let mark = self.mark();
        let mut first: Option<StepId> = None;
        for attempt in 0..ATTEMPTS {
            if self.place_group(id, StartBound::InTime) {
                return true;
            }
            let begun = self.placed.get(mark.placed).copied();
            let start = begun.and_then(|step| self.assignments[step]).map(|at| at.0);
            self.take_back(mark);
            let (Some(step), Some(start)) = (begun, start) else { return false };
            if *first.get_or_insert(step) != step {
                return false;
            }
            let earlier = start - 1 - 2 * attempt;
            if earlier < self.bounds.get(StartBound::Earliest, step) {
                return false;
            }
            self.bounds.set(StartBound::InTime, step, earlier);
        }
        false
    }

    /// Finds how late each step of a group that is due has to be at the least, and makes that its last minute.
    fn lateness(&mut self, id: GroupId) -> bool {
        self.queue(id);
        if !self.spread(id, StartBound::Earliest) {
            return false;
        }
        for &step in &self.groups[id].steps {
            let wanted = &self.grid.steps[step];
            let Some(due) = wanted.due.filter(|_| self.assignments[step].is_none()) else { continue };
            let least = self.bounds.get(StartBound::Earliest, step).max(due - wanted.length);
            if least < self.bounds.get(StartBound::Last, step) {
                self.bounds.set(StartBound::Last, step, least);
            }
        }
        true
    }

    /// Places the steps of a group at their latest, the latest first; `false` where one finds no minute.
    fn place_group(&mut self, id: GroupId, bound: StartBound) -> bool {
        self.queue(id);
        let mut is_possible = self.spread(id, bound);
        while is_possible {
            let left = self.groups[id].steps.iter().filter(|&&step| self.assignments[step].is_none());
            let Some(&step) = left.max_by_key(|&&step| (self.bounds.get(bound, step), step)) else {
                return true;
            };
            let high = self.bounds.get(bound, step);
            match self.profile.latest(self.grid, step, high, high) {
                Some(at) => self.place(step, at),
                None => return false,
            }
            self.queue(id);
            is_possible = self.spread(id, bound);
        }
        false
    }

    /// Notes the steps of a group that are not placed.
    fn queue(&mut self, id: GroupId) {
        for &step in &self.groups[id].steps {
            if self.assignments[step].is_none() {
                self.bounds.queue(step);
            }
        }
    }

    /// Spreads a bound from the queued steps; those of the group that are not placed move to free minutes.
    fn spread(&mut self, id: GroupId, bound: StartBound) -> bool {
        let Self { grid, group_of, profile, bounds, assignments, .. } = self;
        let is_placed = |step| assignments[step].is_some();
        bounds.spread(grid, bound, is_placed, |bounds, step| {
            if is_placed(step) || group_of[step] != id {
                return Some(());
            }
            let low = bounds.get(StartBound::Earliest, step);
            let known = bounds.get(bound, step);
            let free = match bound {
                StartBound::Earliest => profile.earliest(grid, step, low, bounds.get(StartBound::Last, step)),
                StartBound::InTime | StartBound::Last => {
                    profile.latest(grid, step, low, known).map(|at| at.0)
                }
            }?;
            if free != known {
                bounds.set(bound, step, free);
            }
            Some(())
        })
    }

    fn place(&mut self, step: StepId, at: Assignment) {
        self.profile.take(self.grid, step, at);
        self.assignments[step] = Some(at);
        self.placed.push(step);
        for bound in [StartBound::Earliest, StartBound::InTime, StartBound::Last] {
            self.bounds.set(bound, step, at.0);
            self.bounds.queue(step);
            let assignments = &self.assignments;
            self.bounds.spread(self.grid, bound, |step| assignments[step].is_some(), |_, _| Some(()));
        }
        self.count(step, at.0);
    }

    /// Counts what a step costs that has just been placed.
    fn count(&mut self, step: StepId, start: Minute) {
        let wanted = &self.grid.steps[step];
        if let Some(due) = wanted.due {
            let early = due - start - wanted.length;
            self.cost.waiting += early.max(0);
            self.cost.late += (-early).max(0);
        }
        for &time_lag in &self.grid.time_lags_of[step] {
            let link = &self.grid.time_lags[time_lag];
            let ends = (self.assignments[link.after], self.assignments[link.before]);
            if let (Some((after, _)), Some((before, _))) = ends {
                self.cost.waiting += before - after - link.least;
            }
        }
    }
}
