//! The hours at which somebody can feed, the moments that they give, and what is taken between them.

use jiff::civil::Time;
use jiff::{Span, Zoned};
use levamen_calendar::ZonedDays;
use levamen_quantity::Exact;

use crate::keeping::CultureKeeping;
use crate::needs::CultureNeed;

/// A moment at which something can begin or end.
#[derive(Debug, Clone)]
pub(crate) struct FeedingSlot {
    /// The moment.
    pub(crate) at: Zoned,
    /// Minutes that have passed since the start.
    passed: i64,
    /// Minutes that the clock on the wall has gone on since the start.
    clock: i64,
    /// How little it is preferred; zero for the first of the hours.
    pub(crate) rank: u64,
}

/// The slots of a plan: the start, every moment to feed at, the end.
///
/// Between two slots the clock and the time that has passed may differ by the hour of a change of the clocks. A
/// rhythm is kept if either keeps it, so that such a day loses no feeding; ripening goes by the time that has passed.
#[derive(Debug)]
pub(crate) struct FeedingSlots<'k> {
    keeping: &'k CultureKeeping,
    list: Vec<FeedingSlot>,
    /// Minutes since the start, and what was needed up to then; in order.
    needs: Vec<(i64, Exact)>,
}

impl<'k> FeedingSlots<'k> {
    /// The slots of some days; `None` past the end of the calendar.
    pub(crate) fn new(
        keeping: &'k CultureKeeping,
        needs: &[CultureNeed],
        days: &ZonedDays,
        hours: &FeedingHours,
    ) -> Option<Self> {
        let (start, end) = (days.start()?, days.end()?);
        let mut sum = Exact::ZERO;
        let mut sorted: Vec<&CultureNeed> =
            needs.iter().filter(|need| need.at >= start && need.at < end).collect();
        sorted.sort_by(|a, b| a.at.cmp(&b.at));
        let sums = sorted.iter().map(|need| {
            sum += need.mass.grams();
            (passed(&start, &need.at), sum.clone())
        });
        let needs = sums.collect();
        let mut moments: Vec<(Zoned, u64)> = Vec::new();
        for (rank, time) in (0..).zip(hours.times()) {
            moments.extend(days.moments(&[*time]).into_iter().map(|at| (at, rank)));
        }
        moments.extend(sorted.iter().filter_map(|need| early(keeping, days, need)).map(|at| (at, 1)));
        moments.retain(|(at, _)| *at >= start && *at < end);
        moments.sort();
        moments.dedup_by(|later, first| later.0 == first.0);
        let slot = |(at, rank): (Zoned, u64)| FeedingSlot {
            passed: passed(&start, &at),
            clock: clock(&start, &at),
            at,
            rank,
        };
        let mut list: Vec<FeedingSlot> = moments.into_iter().map(slot).collect();
        list.insert(0, slot((start.clone(), 0)));
        list.push(slot((end, 0)));
        let mut slots = Self { keeping, list, needs };
        slots.drop_those_that_spoil_a_need();
        Some(slots)
    }

    /// Who feeds shortly before culture is needed has none that is ripe.
    fn drop_those_that_spoil_a_need(&mut self) {
        let ripe = self.keeping.ripens().least;
        let end = self.end();
        let needs = &self.needs;
        let mut index = 0;
        self.list.retain(|slot| {
            let own = index;
            index += 1;
            let next = needs.get(needs.partition_point(|(at, _)| *at <= slot.passed));
            own == 0 || own == end || next.is_none_or(|(at, _)| *at >= slot.passed + ripe)
        });
    }

    /// The index of the start.
    pub(crate) const START: usize = 0;

    /// The index of the end.
    pub(crate) fn end(&self) -> usize {
        self.list.len().saturating_sub(1)
    }

    /// A slot.
    pub(crate) fn get(&self, index: usize) -> Option<&FeedingSlot> {
        self.list.get(index)
    }

    /// The slots at which the feeding after that of `from` may be; the end is one of them.
    pub(crate) fn after(&self, from: usize) -> impl Iterator<Item = usize> + '_ {
        let within = move |to: &usize| self.gap(from, *to).is_some_and(|gap| gap.0 <= self.keeping.longest());
        let free = from == Self::START;
        (from + 1..self.list.len())
            .take_while(within)
            .filter(move |to| free || *to == self.end() || self.is_late_enough(from, *to))
    }

    fn is_late_enough(&self, from: usize, to: usize) -> bool {
        self.gap(from, to).is_some_and(|gap| gap.1 >= self.keeping.rhythm().least)
    }

    /// Whether the culture has to stand in the cold between two slots.
    pub(crate) fn is_cold(&self, from: usize, to: usize) -> bool {
        self.gap(from, to).is_some_and(|gap| gap.0 > self.keeping.rhythm().most)
    }

    /// The shorter and the longer of what the clock and the passing of time say.
    fn gap(&self, from: usize, to: usize) -> Option<(i64, i64)> {
        let (from, to) = (self.list.get(from)?, self.list.get(to)?);
        let (passed, clock) = (to.passed - from.passed, to.clock - from.clock);
        Some((passed.min(clock), passed.max(clock)))
    }

    /// What is taken after one slot, up to another.
    pub(crate) fn taken(&self, from: usize, to: usize) -> Exact {
        let first = self.first_need_after(from);
        &self.sum(self.first_need_after(to)) - &self.sum(first)
    }

    /// The needs after one slot, up to another: their indices in order of time.
    pub(crate) fn needs(&self, from: usize, to: usize) -> std::ops::Range<usize> {
        self.first_need_after(from)..self.first_need_after(to)
    }

    /// How many needs there are.
    pub(crate) fn need_count(&self) -> usize {
        self.needs.len()
    }

    /// What is taken after a slot before a need.
    pub(crate) fn taken_before(&self, from: usize, need: usize) -> Exact {
        &self.sum(need) - &self.sum(self.first_need_after(from))
    }

    /// How much a need is.
    pub(crate) fn mass(&self, need: usize) -> Exact {
        &self.sum(need + 1) - &self.sum(need)
    }

    /// All that is needed.
    pub(crate) fn total(&self) -> Exact {
        self.sum(self.needs.len())
    }

    /// How much work it is to feed next at `to`: two for a feeding and one more at an hour that is not the first
    /// choice; days in the cold count more than the feedings that they replace, so that they are left to idle days.
    pub(crate) fn work(&self, from: usize, to: usize) -> u64 {
        let feeding = match self.list.get(to) {
            Some(slot) if to != self.end() => 2 + slot.rank.min(1),
            _ => 0,
        };
        let most = self.keeping.rhythm().most.max(1);
        let cold = self.gap(from, to).map_or(0, |(gap, _)| ((gap - 1).max(0) / most).unsigned_abs());
        feeding + 3 * cold
    }

    /// The needs at the start itself belong to what is on hand.
    fn first_need_after(&self, slot: usize) -> usize {
        if slot == Self::START {
            return 0;
        }
        let passed = self.list.get(slot).map_or(i64::MAX, |slot| slot.passed);
        self.needs.partition_point(|(at, _)| *at <= passed)
    }

    /// The sum of so many needs.
    fn sum(&self, count: usize) -> Exact {
        debug_assert!(count <= self.needs.len(), "no more needs are added up than there are");
        let last = count.checked_sub(1).and_then(|last| self.needs.get(last));
        last.map_or(Exact::ZERO, |(_, sum)| sum.clone())
    }
}

/// Where the clocks change before a need, the moment that is early enough by the time that passes.
fn early(keeping: &CultureKeeping, days: &ZonedDays, need: &CultureNeed) -> Option<Zoned> {
    let minutes = keeping.ripens().most;
    let at = days.zoned(need.at.timestamp().checked_sub(jiff::SignedDuration::from_mins(minutes)).ok()?);
    (clock(&at, &need.at) != minutes).then_some(at)
}

/// Minutes that pass.
pub(crate) fn passed(from: &Zoned, to: &Zoned) -> i64 {
    to.timestamp().duration_since(from.timestamp()).as_mins()
}

/// Minutes that the clock on the wall goes on.
pub(crate) fn clock(from: &Zoned, to: &Zoned) -> i64 {
    to.datetime().duration_since(from.datetime()).as_mins()
}

/// The minutes of a day.
const DAY: i64 = 24 * 60;
/// Feedings that nobody gave an hour for begin with a quarter of an hour.
const QUARTER: i64 = 15;
/// Needs within so many minutes are met by one feeding.
const TOGETHER: i64 = 4 * 60;

/// The times of day at which somebody can feed, the preferred ones first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FeedingHours(Vec<Time>);

impl FeedingHours {
    /// Times that the baker gave.
    #[must_use]
    pub fn given(times: Vec<Time>) -> Self {
        Self(times)
    }

    /// Times that suit the needs: for each time of day at which culture is needed, the quarter of an hour in which
    /// it must be fed to be ripe then; and from there on every shortest rhythm that fits before the next day.
    #[must_use]
    pub fn suiting(keeping: &CultureKeeping, needs: &[CultureNeed], otherwise: Time) -> Self {
        let wanted = together(needs.iter().map(|need| need.at.time()).collect(), otherwise);
        let mut times = Vec::new();
        let step = keeping.rhythm().least;
        for rank in 0..=(DAY / step.max(60)) {
            for time in &wanted {
                let minute = i64::from(time.hour()) * 60 + i64::from(time.minute());
                let early = (minute - keeping.ripens().most).div_euclid(QUARTER) * QUARTER;
                let time =
                    Time::midnight().wrapping_add(Span::new().minutes((early + rank * step).rem_euclid(DAY)));
                if rank * step < DAY && !times.contains(&time) {
                    times.push(time);
                }
            }
        }
        Self(times)
    }

    /// The times.
    #[must_use]
    pub fn times(&self) -> &[Time] {
        &self.0
    }
}

/// The first of the times that lie close together, each: what is ripe at the first is ripe at the others.
fn together(mut times: Vec<Time>, otherwise: Time) -> Vec<Time> {
    times.sort();
    let mut firsts: Vec<Time> = Vec::new();
    for time in times {
        if firsts.last().is_none_or(|first| first.duration_until(time).as_mins() >= TOGETHER) {
            firsts.push(time);
        }
    }
    if firsts.is_empty() {
        firsts.push(otherwise);
    }
    firsts
}
