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

#[cfg(test)]
mod tests {
    use levamen_quantity::{Duration, TimeUnit};

    use super::*;
    use crate::keeping::{Declared, Interval};

    fn ratio(numer: i64, denom: i64) -> Exact {
        Exact::ratio(numer, denom).unwrap()
    }

    fn band(least: Exact, most: Exact, lost: Exact) -> Band {
        Band { least, most, lost }
    }

    fn grams(least: i64, most: i64, lost: i64) -> Band {
        band(least.into(), most.into(), lost.into())
    }

    /// Of what is fed 20 to 50 % are old. From 200 to 400 g after the next feeding: 40 g are the least to keep and 200 the most,
    /// and 50 are taken before it.
    #[test]
    fn the_band_of_a_feeding_follows_from_the_next() {
        let hours = |figure: i64| Duration::from_unit(&Exact::from(figure), TimeUnit::Hour);
        let keeping = CultureKeeping::new(Declared::usual(Interval::new(hours(8), hours(10)))).unwrap();
        let before = |floor: i64, cap: i64| {
            grams(200, 400, 10).before(&keeping, &50.into(), &floor.into(), &cap.into())
        };
        assert_eq!(before(0, 1000), Some(grams(90, 250, 10)));
        assert_eq!(before(100, 240), Some(grams(100, 240, 10)));
        assert_eq!(before(90, 90), Some(grams(90, 90, 10)));
        // 300 have to be made and 250 are the most that is of use: 50 more are lost.
        assert_eq!(before(300, 1000), Some(grams(300, 300, 60)));
        assert_eq!(before(0, 89), None);
    }

    #[test]
    fn what_is_beyond_the_band_is_lost_gram_by_gram() {
        let lost = |mass: i64| grams(100, 250, 10).lost_from(&mass.into()).and_then(|lost| lost.to_i64());
        assert_eq!([99, 100, 250, 251, 300].map(lost), [None, Some(10), Some(10), Some(11), Some(60)]);
    }

    #[test]
    fn a_band_in_thousandths_promises_no_more() {
        let thirds = band(ratio(1, 3), ratio(2, 3), ratio(1, 7));
        assert_eq!(thirds.shorter(), band(ratio(334, 1000), ratio(666, 1000), ratio(143, 1000)));
        // No thousandth lies within it: its most moves up, by 0.0008 g, which may be lost.
        let narrow = band(ratio(3331, 10_000), ratio(3332, 10_000), Exact::ZERO);
        assert_eq!(narrow.shorter(), band(ratio(334, 1000), ratio(334, 1000), ratio(1, 1000)));
        let short = grams(100, 250, 10);
        assert_eq!(short.shorter(), short);
    }

    /// At any mass that the one and the other can make, no more is lost of the first.
    #[test]
    fn a_band_covers_another_where_it_is_nowhere_worse() {
        let one = grams(100, 250, 10);
        assert!(one.covers(&one) && one.covers(&grams(101, 250, 10)) && one.covers(&grams(100, 249, 10)));
        assert!(one.covers(&grams(100, 255, 15)), "at 300 it loses 60, and so does the other");
        assert!(!one.covers(&grams(99, 250, 10)), "a lower least");
        assert!(!one.covers(&grams(100, 250, 9)), "less is lost");
        assert!(!one.covers(&grams(100, 260, 15)), "at 300 the other loses 55");
    }
}
