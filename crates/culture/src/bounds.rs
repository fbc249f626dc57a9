//! Bounds of what stands in the tub: looking forward, the most that there can be by each moment; looking backward, how much may
//! stand there after each feeding so that no more is thrown away than must be.
//!
//! For feedings at given moments, let `f(m)` be the least that is thrown away from a feeding on, when it makes `m`. Claim:
//! `f` is a constant `c` on a band from `A` to `B`, and beyond `B` it rises by one gram a gram; below `A` there is no way
//! to meet the needs. After the last feeding the culture goes on at the least that is held, so there `A = B = least` and
//! `c = 0` (while it is being built up, `A` is what it has come to). Suppose it holds for the next feeding, with `A'`, `B'`, `c'`, and that `u` is taken between the two. Of what
//! is left, `r = m - u`, some is kept and the rest thrown away; what is kept may be fed to between `kept / high` and
//! `kept / low`.
//!
//! - The next feeding makes at least `A'`, so `r` is at least `low · A'`: `A = max(least, u + low · A')`.
//! - While `low · A' ≤ r ≤ high · B'`, all is kept, fed to something inside the band, and nothing more than `c'` is lost.
//! - A gram beyond `high · B'` is either thrown away at once, or kept, where it makes the next feeding larger by
//!   `1 / high` grams beyond its band, each of which is lost later. `high` is below one, so it is thrown away at once.
//!
//! So `B = u + high · B'`, not above the most that is held, and `f` rises by one beyond it. Where that `B` lies below `A`,
//! the difference is lost whatever one does, `c = c' + A - B`, and the band is `A` alone. This is the recursion below;
//! it is exact, takes a step for each feeding, and shows the least there can be without a search.

use levamen_quantity::Exact;

use crate::keeping::CultureKeeping;
use crate::slots::FeedingSlots;

/// By slot, what can stand in the tub there after a feeding.
#[derive(Debug)]
pub(crate) struct CultureReach {
    /// The least that must; `None` where no feeding can be.
    pub(crate) floor: Vec<Option<Exact>>,
    /// The most that can while every need before is met; `None` where no way leads there.
    pub(crate) most: Vec<Option<Exact>>,
    /// No plan needs more than this in the tub.
    pub(crate) cap: Exact,
}

impl CultureReach {
    /// Looks forward from what is on hand; `None` on hand means whatever is wanted.
    pub(crate) fn new(keeping: &CultureKeeping, slots: &FeedingSlots<'_>, on_hand: Option<&Exact>) -> Self {
        let hold = keeping.declared().hold_least.grams();
        // Who holds all that will be needed, and the least beside it, never needs to feed for more.
        let plenty = &slots.total() + hold;
        let cap = keeping.declared().hold_most.as_ref().map_or(plenty, |most| most.grams().clone());
        let start = on_hand.unwrap_or(&cap).clone();
        let floor = floor(keeping, slots, &start);
        let mut reach = Self { floor, most: vec![None; slots.end() + 1], cap };
        if let Some(most) = reach.most.get_mut(FeedingSlots::START) {
            *most = Some(start);
        }
        for from in 0..slots.end() {
            for to in slots.after(from) {
                let Some(grown) = reach.grown(keeping, slots, from, to) else { continue };
                if let Some(most) = reach.most.get_mut(to).filter(|most| most.as_ref() < Some(&grown)) {
                    *most = Some(grown);
                }
            }
        }
        reach
    }

    /// What the most at one slot can grow to at the next, after what is taken between them.
    fn grown(
        &self,
        keeping: &CultureKeeping,
        slots: &FeedingSlots<'_>,
        from: usize,
        to: usize,
    ) -> Option<Exact> {
        let left = self.most.get(from)?.as_ref()? - &slots.taken(from, to);
        let floor = self.floor.get(to)?.as_ref()?;
        let grown = &left / keeping.low();
        (grown >= *floor).then(|| grown.min(self.cap.clone()))
    }

    /// The most that can be taken for one need when all before it are met, and the next feeding still finds enough.
    pub(crate) fn most_for(&self, keeping: &CultureKeeping, slots: &FeedingSlots<'_>, need: usize) -> Exact {
        let hold = keeping.declared().hold_least.grams();
        let left = |from: usize| {
            let most = self.most.get(from)?.as_ref()?;
            slots.after(from).any(|to| slots.needs(from, to).contains(&need)).then(|| {
                let keep = keeping.low() * &hold.clone().min(most / keeping.low());
                &(most - &slots.taken_before(from, need)) - &keep
            })
        };
        let most = (0..slots.end()).filter_map(left).max().unwrap_or_default();
        most.max(Exact::ZERO)
    }
}

/// What must stand in the tub after each feeding: the least to hold; and while that little is still being built up, as
/// much as the quickest feeding makes.
fn floor(keeping: &CultureKeeping, slots: &FeedingSlots<'_>, start: &Exact) -> Vec<Option<Exact>> {
    let hold = keeping.declared().hold_least.grams();
    let mut floor: Vec<Option<Exact>> = vec![None; slots.end() + 1];
    if let Some(first) = floor.get_mut(FeedingSlots::START) {
        *first = Some(start.clone().min(hold.clone()));
    }
    for from in 0..slots.end() {
        let Some(mass) = floor.get(from).cloned().flatten() else { continue };
        let grown = (&mass / keeping.low()).min(hold.clone());
        for to in slots.after(from) {
            if let Some(own) = floor.get_mut(to).filter(|own| own.as_ref() < Some(&grown)) {
                *own = Some(grown.clone());
            }
        }
    }
    floor
}

/// What may stand in the tub after a feeding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Band {
    /// The least with which every later need can be met.
    pub(crate) least: Exact,
    /// The most with which no more is thrown away than must be.
    pub(crate) most: Exact,
    /// What must be thrown away from here on.
    pub(crate) lost: Exact,
}

impl Band {
    /// After the last day the culture goes on at the least that is held, or below it at `floor` while it is built up.
    pub(crate) fn of_the_end(keeping: &CultureKeeping, floor: Exact) -> Self {
        let hold = keeping.declared().hold_least.grams().clone();
        Self { least: floor.min(hold.clone()), most: hold, lost: Exact::ZERO }
    }

    /// The band of the feeding before this one, when `taken` is taken between them and it must make at least `floor` and at
    /// most `cap`; `None` where it would have to make more.
    pub(crate) fn before(
        &self,
        keeping: &CultureKeeping,
        taken: &Exact,
        floor: &Exact,
        cap: &Exact,
    ) -> Option<Self> {
        let least = (taken + &(keeping.low() * &self.least)).reduced().max(floor.clone());
        if least > *cap {
            return None;
        }
        let kept = (taken + &(keeping.high() * &self.most)).reduced().min(cap.clone());
        let lost = if kept < least { &self.lost + &(&least - &kept) } else { self.lost.clone() };
        Some(Self { most: kept.max(least.clone()), least, lost })
    }

    /// What is thrown away from a feeding on that makes `mass`; `None` where it is too little.
    pub(crate) fn lost_from(&self, mass: &Exact) -> Option<Exact> {
        (*mass >= self.least).then(|| &self.lost + &(mass - &self.most).max(Exact::ZERO))
    }

    /// A band in whole thousandths of a gram that promises no more than this one.
    pub(crate) fn shorter(&self) -> Self {
        let thousand = Exact::from(1000);
        let up = |value: &Exact| &-(-&(value * &thousand)).floor() / &thousand;
        let least = up(&self.least);
        let most = (&(&self.most * &thousand).floor() / &thousand).max(least.clone());
        Self { lost: up(&(&self.lost + &(&most - &self.most).max(Exact::ZERO))), least, most }
    }

    /// Whether another band is no better in anything.
    pub(crate) fn covers(&self, other: &Self) -> bool {
        self.least <= other.least
            && self.lost <= other.lost
            && &self.lost - &self.most <= &other.lost - &other.most
    }
}
