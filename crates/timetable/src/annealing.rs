//! The order in which things are placed, annealed.
//!
//! The timetable follows from the order in which groups or steps are placed ([`backward`](crate::backward)), so the search
//! changes orders: something moves to another place, or two swap places. A worse timetable is kept now and then, the less
//! often the colder it is (simulated annealing; S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi, "Optimization by simulated
//! annealing", Science 220 (1983) 671-680, from memory). Whole groups first, which is quick and coarse; then single steps, which finds
//! what no order of whole groups gives.
//!
//! How long it looks is counted in placings, and every figure is whole, so the same work gets the same timetable everywhere. It looks
//! in rounds, each four times as long as the one before it: a longer look begins with the shorter one, and is never worse.

use crate::StepId;
use crate::backward::{BackwardSchedule, ScheduleCost};
use crate::grid::{Minute, TimeGrid};
use crate::id_vec::{GroupId, IdVec};
use crate::partial_schedule::StepGroup;
use crate::profile::Assignment;
use crate::random::SeededRandom;

/// The best that a search has found.
#[derive(Debug, Clone)]
pub struct BestFound {
    pub assignments: IdVec<StepId, Option<Assignment>>,
    pub cost: ScheduleCost,
}

/// What is put in order.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Order {
    Groups(Vec<GroupId>),
    Steps(Vec<StepId>),
}

/// The first place from which an order is another, and a step's wish as it was before.
type OrderChange = (usize, Option<(StepId, Option<Minute>)>);

/// One stretch of a round.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    has_steps: bool,
    /// How much worse a timetable is kept at the beginning, about, in minutes of waiting.
    warmest: i64,
    /// Minutes of waiting that a minute of lateness is worth.
    late_price: i64,
    /// Which part of the round it is, in eighths.
    eighths: u64,
}

/// Groups while it is warm, then steps; at the end what is late counts for much.
const fn stretches(warmest: i64) -> [Stretch; 3] {
    [
        Stretch { has_steps: false, warmest, late_price: 20, eighths: 4 },
        Stretch { has_steps: true, warmest: 15, late_price: 40, eighths: 3 },
        Stretch { has_steps: true, warmest: 4, late_price: 1000, eighths: 1 },
    ]
}

/// The placings of the first round.
const FIRST_ROUND: u64 = 30_000;

/// How many times as long each round is as the one before it.
const LONGER: u64 = 4;

/// A search over orders.
pub struct Annealing<'g> {
    schedule: BackwardSchedule<'g>,
    groups: &'g IdVec<GroupId, StepGroup>,
    random: SeededRandom,
    warmest: i64,
    next_round: u64,
    best: BestFound,
    best_order: Vec<GroupId>,
}

impl<'g> Annealing<'g> {
    /// All groups placed, those that are due last first.
    pub fn new(grid: &'g TimeGrid, groups: &'g IdVec<GroupId, StepGroup>, warmest: i64) -> Self {
        let mut schedule = BackwardSchedule::new(grid, groups);
        let anchor = |group: GroupId| groups[group].steps.iter().map(|&step| schedule.in_time(step)).max();
        let mut order: Vec<GroupId> = groups.ids().collect();
        order.sort_by_key(|&group| (std::cmp::Reverse(anchor(group)), group));
        for &group in &order {
            schedule.add_group(group);
        }
        let best = BestFound { assignments: schedule.assignments().clone(), cost: schedule.cost() };
        let seed = warmest.unsigned_abs();
        Self {
            schedule,
            groups,
            random: SeededRandom::new(seed),
            warmest,
            next_round: FIRST_ROUND,
            best,
            best_order: order,
        }
    }

    /// The best so far.
    pub const fn best(&self) -> &BestFound {
        &self.best
    }

    /// Looks one round further, unless nothing can be better than a waiting that is known to be the least.
    pub fn round(&mut self, bound: i64) {
        let placings = self.next_round;
        self.next_round *= LONGER;
        let mut order = Order::Groups(self.best_order.clone());
        for stretch in stretches(self.warmest) {
            if self.best.cost <= (ScheduleCost { waiting: bound, ..ScheduleCost::default() }) {
                return;
            }
            if stretch.has_steps {
                order = self.best_steps();
            }
            self.anneal(&mut order, stretch, placings * stretch.eighths / 8);
        }
    }

    /// The steps in the order that gives the best timetable again: group by group, each from its last step on.
    fn best_steps(&mut self) -> Order {
        let start = |step: &StepId| self.best.assignments[*step].map(|at| at.0);
        let mut steps: Vec<StepId> = Vec::new();
        for &group in &self.best_order {
            let mut own = self.groups[group].steps.clone();
            own.sort_by_key(|step| (std::cmp::Reverse(start(step)), *step));
            steps.extend(own);
        }
        Order::Steps(steps)
    }

    fn anneal(&mut self, order: &mut Order, stretch: Stretch, placings: u64) {
        self.schedule.take_back_to(0);
        for wish in self.schedule.latest_wish.iter_mut() {
            *wish = None;
        }
        self.fill(order, None);
        if stretch.has_steps && self.schedule.cost() > self.best.cost {
            // Steps that are in each other's way within a group begin as they did.
            for (step, at) in self.best.assignments.with_ids() {
                self.schedule.latest_wish[step] = at.map(|at| at.0);
            }
            self.schedule.take_back_to(0);
            self.fill(order, None);
        }
        self.keep_if_best(order);
        let mut current = self.schedule.cost().weighed(stretch.late_price);
        let (begin, end) = (self.schedule.placings, self.schedule.placings + placings);
        while self.schedule.placings < end {
            let left =
                i64::try_from((end - self.schedule.placings) * 1024 / (end - begin).max(1)).unwrap_or(0);
            let warmth = 1024 + stretch.warmest * left * left / 1024;
            let allowed = current + warmth * self.random.exponential() / (1024 * 1024);
            // A change counts as work even where there is nothing to change.
            self.schedule.placings += 1;
            let before = order.clone();
            let Some((place, wish)) = self.change(order) else { continue };
            self.schedule.take_back_to(place);
            self.fill(order, Some((allowed, stretch.late_price)));
            let cost = self.schedule.cost().weighed(stretch.late_price);
            if self.schedule.len() == order.len() && cost <= allowed {
                current = cost;
                self.keep_if_best(order);
            } else {
                self.schedule.take_back_to(place.min(self.schedule.len()));
                *order = before;
                if let Some((step, wish)) = wish {
                    self.schedule.latest_wish[step] = wish;
                }
            }
        }
    }

    /// Places what is not placed, in order; ends where it costs more than is allowed.
    fn fill(&mut self, order: &Order, allowed: Option<(i64, i64)>) {
        while self.schedule.len() < order.len() {
            if allowed.is_some_and(|(most, price)| self.schedule.cost().weighed(price) > most) {
                return;
            }
            let place = self.schedule.len();
            match order {
                Order::Groups(groups) => {
                    if let Some(&id) = groups.get(place) {
                        self.schedule.add_group(id);
                    }
                }
                Order::Steps(steps) => {
                    if let Some(&id) = steps.get(place) {
                        self.schedule.add_step(id);
                    }
                }
            }
        }
    }

    fn keep_if_best(&mut self, order: &Order) {
        if self.schedule.cost() < self.best.cost {
            self.best =
                BestFound { assignments: self.schedule.assignments().clone(), cost: self.schedule.cost() };
            if let Order::Groups(groups) = order {
                self.best_order.clone_from(groups);
            }
        }
    }

    /// Changes the order, or a wish; the first place from which the timetable changes, and the wish that was.
    fn change(&mut self, order: &mut Order) -> Option<OrderChange> {
        match order {
            Order::Groups(groups) => Some((shifted(&mut self.random, groups)?, None)),
            Order::Steps(steps) => match self.random.below(100) {
                0..10 => self.wished(steps),
                10..25 => Some((self.moved_group(steps), None)),
                _ => Some((shifted(&mut self.random, steps)?, None)),
            },
        }
    }

    /// Wishes that a step begins earlier than it does in the best timetable, or takes a wish back.
    fn wished(&mut self, steps: &[StepId]) -> Option<OrderChange> {
        let place = self.random.below(steps.len());
        let step = *steps.get(place)?;
        let was = self.schedule.latest_wish[step];
        let start = self.best.assignments[step]?.0;
        let by = 1_usize << self.random.below(7);
        let earlier = start - i64::try_from(self.random.below(by)).unwrap_or(0);
        let is_taken_back = was.is_some() && self.random.below(2) == 0;
        self.schedule.latest_wish[step] = (!is_taken_back).then_some(earlier);
        Some((place, Some((step, was))))
    }

    /// Moves all steps of a group to another place, next to each other.
    fn moved_group(&mut self, steps: &mut Vec<StepId>) -> usize {
        let drawn = steps.get(self.random.below(steps.len())).copied();
        let Some(group) = drawn.map(|step| self.schedule.group_of(step)) else { return 0 };
        let is_own = |step: &StepId| self.schedule.group_of(*step) == group;
        let first = steps.iter().position(is_own).unwrap_or(0);
        let own: Vec<StepId> = steps.iter().copied().filter(is_own).collect();
        steps.retain(|step| !is_own(step));
        let place = near(&mut self.random, first, steps.len() + 1, 24);
        steps.splice(place..place, own);
        first.min(place)
    }
}

impl Order {
    fn len(&self) -> usize {
        match self {
            Self::Groups(groups) => groups.len(),
            Self::Steps(steps) => steps.len(),
        }
    }
}

/// Moves one of several to another place, or swaps it with what is there; the first of the two places.
fn shifted<T: Copy>(random: &mut SeededRandom, things: &mut Vec<T>) -> Option<usize> {
    let count = things.len();
    let from = random.below(count);
    let to = near(random, from, count, 8);
    if from == to {
        return None;
    }
    if random.below(3) == 0 {
        things.swap(from, to);
    } else {
        let thing = things.remove(from);
        things.insert(to, thing);
    }
    Some(from.min(to))
}

/// A place of so many, mostly not far from another.
fn near(random: &mut SeededRandom, place: usize, count: usize, reach: usize) -> usize {
    if random.below(10) < 3 {
        return random.below(count);
    }
    let by = 1 + random.below(reach);
    let place = if random.below(2) == 0 { place.saturating_sub(by) } else { place + by };
    place.min(count.saturating_sub(1))
}
