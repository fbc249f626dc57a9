//! Which moments to feed at.
//!
//! Each way to feed from a moment on has a [`Band`]. Of the ways from one moment those are kept that no other covers: has no
//! higher least, no more thrown away whatever is made, and no more work. They are joined backwards from the end to the
//! start (a multiple-criteria shortest path by labels; E. Q. V. Martins, "On a multicriteria shortest path problem",
//! European Journal of Operational Research 16 (1984) 236-245, from memory). As long as no label has to be dropped,
//! what comes out is the least there is over all choices of moments.

use levamen_quantity::Exact;

use crate::bounds::{Band, CultureReach};
use crate::keeping::CultureKeeping;
use crate::slots::FeedingSlots;

/// The most ways that are kept from one moment.
const MOST_WAYS: usize = 32;

/// A way to feed from a moment on.
#[derive(Debug, Clone)]
struct PartialPlan {
    band: Band,
    work: u64,
    /// The next slot, and which of its ways; `None` after the end.
    next: Option<(usize, usize)>,
}

/// The moments that were chosen.
#[derive(Debug)]
pub(crate) struct FeedingTimes {
    /// The slots of the feedings in order.
    pub(crate) feedings: Vec<usize>,
    /// Whether no way was dropped on the way here.
    pub(crate) is_proven: bool,
}

/// Chooses the moments that discard the least, and of those the ones with the least work; `None` where no way meets all
/// needs. Nothing on hand means whatever is wanted.
pub(crate) fn choose(
    keeping: &CultureKeeping,
    slots: &FeedingSlots<'_>,
    reach: &CultureReach,
    on_hand: Option<&Exact>,
) -> Option<FeedingTimes> {
    let (ways, is_proven) = all_ways(keeping, slots, reach)?;
    let lost =
        |way: &PartialPlan| on_hand.map_or(Some(way.band.lost.clone()), |mass| way.band.lost_from(mass));
    let first = ways.first()?.iter().filter_map(|way| Some(((lost(way)?, way.work), way)));
    let (_, mut way) = first.min_by(|a, b| a.0.cmp(&b.0))?;
    let mut feedings = Vec::new();
    while let Some((slot, index)) = way.next {
        if slot != slots.end() {
            feedings.push(slot);
        }
        way = ways.get(slot)?.get(index)?;
    }
    Some(FeedingTimes { feedings, is_proven })
}

/// The least on hand with which some way meets all needs.
pub(crate) fn least_on_hand(keeping: &CultureKeeping, slots: &FeedingSlots<'_>) -> Option<Exact> {
    let (ways, _) = all_ways(keeping, slots, &CultureReach::new(keeping, slots, None))?;
    ways.first()?.iter().map(|way| way.band.least.clone()).min()
}

/// By slot, the ways to feed from there on; and whether none had to be dropped.
fn all_ways(
    keeping: &CultureKeeping,
    slots: &FeedingSlots<'_>,
    reach: &CultureReach,
) -> Option<(Vec<Vec<PartialPlan>>, bool)> {
    let end = slots.end();
    let mut ways: Vec<Vec<PartialPlan>> = vec![Vec::new(); end + 1];
    let floor = reach.floor.get(end).cloned().flatten()?;
    if let Some(last) = ways.get_mut(end) {
        last.push(PartialPlan { band: Band::of_the_end(keeping, floor), work: 0, next: None });
    }
    let mut is_proven = true;
    for from in (0..end).rev() {
        let mut own = ways_from(keeping, slots, reach, &ways, from);
        if own.len() > MOST_WAYS {
            own = thinned(own);
            is_proven = false;
        }
        if let Some(slot) = ways.get_mut(from) {
            *slot = own;
        }
    }
    Some((ways, is_proven))
}

/// Every way from a slot that no other covers.
fn ways_from(
    keeping: &CultureKeeping,
    slots: &FeedingSlots<'_>,
    reach: &CultureReach,
    ways: &[Vec<PartialPlan>],
    from: usize,
) -> Vec<PartialPlan> {
    let mut own: Vec<PartialPlan> = Vec::new();
    let is_start = from == FeedingSlots::START;
    // What is on hand at the start is what it is; what a feeding makes has its limits.
    let floor = if is_start { Some(Exact::ZERO) } else { reach.floor.get(from).cloned().flatten() };
    let most = reach.most.get(from).cloned().flatten();
    let (Some(floor), Some(most)) = (floor, most) else { return own };
    let cap = if is_start { most } else { most.min(reach.cap.clone()) };
    for to in slots.after(from) {
        let (taken, work) = (slots.taken(from, to), slots.work(from, to));
        for (index, next) in ways.get(to).into_iter().flatten().enumerate() {
            let Some(band) = next.band.before(keeping, &taken, &floor, &cap) else { continue };
            let way = PartialPlan { band, work: next.work + work, next: Some((to, index)) };
            if own.iter().any(|other| other.work <= way.work && other.band.covers(&way.band)) {
                continue;
            }
            own.retain(|other| !(way.work <= other.work && way.band.covers(&other.band)));
            own.push(way);
        }
    }
    own
}

/// Of many ways the best, and among them always the one with the lowest least: it meets the needs if any does. The others
/// are drawn in to whole thousandths of a gram, so that numbers stay short over a year.
fn thinned(mut ways: Vec<PartialPlan>) -> Vec<PartialPlan> {
    ways.sort_by(|a, b| (&a.band.lost, a.work, &a.band.least).cmp(&(&b.band.lost, b.work, &b.band.least)));
    let mut kept: Vec<PartialPlan> = Vec::new();
    let near = |a: &Exact, b: &Exact| a.to_f64() <= 1.05 * b.to_f64();
    let lowest = ways.iter().min_by(|a, b| a.band.least.cmp(&b.band.least)).cloned();
    for way in ways {
        let alike = |other: &PartialPlan| {
            other.work <= way.work
                && other.band.lost <= way.band.lost
                && near(&other.band.least, &way.band.least)
                && near(&way.band.most, &other.band.most)
        };
        if kept.len() < MOST_WAYS && !kept.iter().any(alike) {
            kept.push(PartialPlan { band: way.band.shorter(), ..way });
        }
    }
    kept.extend(lowest);
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    fn way(least: (i64, i64), most: i64, lost: (i64, i64), work: u64) -> PartialPlan {
        let ratio = |(numer, denom)| Exact::ratio(numer, denom).unwrap();
        let band = Band { least: ratio(least), most: Exact::from(most), lost: ratio(lost) };
        PartialPlan { band, work, next: None }
    }

    /// Of fifty ways that are all unlike, those that lose least stay, in whole thousandths, and the one of the lowest least as
    /// it is.
    #[test]
    fn of_too_many_ways_the_best_stay_and_the_one_that_always_serves() {
        // Each loses more than the one before it, with less work.
        let ways: Vec<PartialPlan> = (0..50)
            .map(|index| {
                way((5000 - 100 * index, 3), 2000, (1000 * index + 1, 3), 100 - index.unsigned_abs())
            })
            .collect();
        let kept = thinned(ways.iter().cloned().rev().collect());
        assert_eq!(kept.len(), MOST_WAYS + 1);
        for (kept, whole) in kept.iter().zip(&ways).take(MOST_WAYS) {
            assert_eq!(kept.band, whole.band.shorter());
        }
        assert_eq!(kept.last().map(|way| &way.band), ways.last().map(|way| &way.band));
    }

    /// Ways that are within a twentieth of a better one go: it loses no more and takes no more work.
    #[test]
    fn a_way_that_is_nearly_a_better_one_goes() {
        let leasts = |ways: Vec<PartialPlan>| {
            let kept = thinned(ways);
            kept.into_iter().map(|way| way.band.least.to_i64().unwrap()).collect::<Vec<_>>()
        };
        // The last is always the one of the lowest least, kept beside the others.
        let best = || way((104, 1), 500, (10, 1), 2);
        assert_eq!(leasts(vec![best(), way((100, 1), 500, (11, 1), 2)]), [104, 100]);
        assert_eq!(leasts(vec![best(), way((100, 1), 500, (11, 1), 1)]), [104, 100, 100], "less work");
        assert_eq!(leasts(vec![best(), way((99, 1), 500, (11, 1), 2)]), [104, 99, 99], "a much lower least");
        assert_eq!(
            leasts(vec![best(), way((100, 1), 526, (11, 1), 2)]),
            [104, 100, 100],
            "a much higher most"
        );
        assert_eq!(leasts(vec![best(), way((100, 1), 525, (11, 1), 2)]), [104, 100]);
    }
}
