//! Plans beside every plan there is: all choices of moments and of whole portions, tried one by one.

use std::collections::HashMap;

use levamen_culture::{CultureKeeping, Declared, FeedingHours, FeedingPlan, FeedingTask, Interval, plan};
use levamen_quantity::Exact;
use proptest::prelude::*;

use crate::bakery::{clock, daily, days, grams, liquid, percent};

/// What one portion weighs, in grams.
const PORTION: i64 = 4;

/// A small bakery: all masses in portions, needs at four, feedings at six and at six.
#[derive(Debug)]
struct Small {
    needs: Vec<i64>,
    least: i64,
    most: i64,
    /// New culture may be so many times what is kept, at least and at most.
    growth: (i64, i64),
}

impl Small {
    /// The least that is thrown away from a half day on: at four something is taken, at six it may be fed.
    fn tried(
        &self,
        half: usize,
        stock: i64,
        unfed: usize,
        known: &mut HashMap<(usize, i64, usize), Option<i64>>,
    ) -> Option<i64> {
        if half == 2 * self.needs.len() {
            let surplus = stock - self.least / self.growth.0;
            return (stock * self.growth.1 >= self.least).then_some(surplus.max(0));
        }
        if let Some(found) = known.get(&(half, stock, unfed)) {
            return *found;
        }
        let taken = if half.is_multiple_of(2) { self.needs[half / 2] } else { 0 };
        let left = stock - taken;
        let mut best = None;
        if left > 0 {
            // It is fed again after a day at the latest; a single day may pass without.
            if unfed < 1 || self.needs.len() == 1 {
                best = self.tried(half + 1, left, unfed + 1, known);
            }
            for old in 1..=left {
                let fits = (self.growth.0 * old).max(self.least)..=(self.growth.1 * old).min(self.most);
                for made in fits {
                    let after = self.tried(half + 1, made, 0, known).map(|lost| lost + left - old);
                    best = best.into_iter().chain(after).min();
                }
            }
        }
        known.insert((half, stock, unfed), best);
        best
    }

    fn planned(&self, on_hand: i64) -> Option<FeedingPlan> {
        let share = |growth: i64| percent(100 / growth);
        let declared = Declared {
            keeps: Interval::new(share(self.growth.1), share(self.growth.0)),
            usually: share(self.growth.1),
            hold_least: grams(PORTION * self.least),
            hold_most: Some(grams(PORTION * self.most)),
            ..liquid()
        };
        let keeping = CultureKeeping::new(declared).unwrap();
        let days = days(u32::try_from(self.needs.len()).unwrap());
        let needs: Vec<i64> = self.needs.iter().map(|need| PORTION * need).collect();
        let needs: Vec<_> =
            daily(&days, &needs).into_iter().filter(|need| !need.mass.grams().is_zero()).collect();
        let hours = FeedingHours::given(vec![clock(18), clock(6)]);
        let on_hand = Some(grams(PORTION * on_hand));
        plan(&FeedingTask { keeping: &keeping, needs: &needs, days: &days, hours: &hours, on_hand }).ok()
    }

    /// What a plan throws away, in portions: its end must not hide a surplus.
    fn lost(&self, plan: &FeedingPlan) -> Exact {
        let goes_on = Exact::from(PORTION * self.least / self.growth.0);
        let surplus = (plan.left.grams() - &goes_on).max(Exact::ZERO);
        &(plan.discarded().grams() + &surplus) / &Exact::from(PORTION)
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// No plan of whole portions throws away less; and where ours comes out in whole portions, the best of them throws
    /// away just as much. Fixed growth makes it come out so nearly always.
    #[test]
    fn no_other_plan_throws_away_less(
        needs in prop::collection::vec(prop_oneof![Just(0i64), 1i64..40], 1..4),
        on_hand in 8i64..60,
        growth in prop_oneof![Just((2i64, 2i64)), Just((2, 4)), Just((2, 5)), Just((4, 5))],
    ) {
        let small = Small { needs, least: 8, most: 64, growth };
        let tried = small.tried(0, on_hand, 0, &mut HashMap::new());
        let planned = small.planned(on_hand);
        if let Some(tried) = tried {
            let plan = planned.expect("a plan, since one was found by trying");
            let lost = small.lost(&plan);
            prop_assert!(plan.is_least);
            prop_assert!(lost <= Exact::from(tried), "{lost} in {small:?}, and {tried} by trying");
            let whole = |mass: &levamen_quantity::Mass| {
                let portions = mass.grams() / &Exact::from(PORTION);
                portions.floor() == portions
            };
            if plan.feedings().all(|feeding| whole(&feeding.old) && whole(&feeding.new)) {
                prop_assert_eq!(lost, Exact::from(tried));
            }
        } else if let Some(plan) = planned {
            // What portions cannot do, grams may: but then some feeding is not in whole portions.
            prop_assert!(plan.feedings().any(|feeding| (feeding.old.grams() / &Exact::from(PORTION)).to_i64().is_none()
                || (feeding.new.grams() / &Exact::from(PORTION)).to_i64().is_none()));
        }
    }
}

#[test]
fn what_is_tried_is_the_least_in_cases_worked_by_hand() {
    // Nothing is needed: of 16 portions 4 are kept and doubled to the least, 8; the next day 4 of the 8 are, and at the
    // end there are 8 of which 4 go on.
    let idle = Small { needs: vec![0, 0], least: 8, most: 64, growth: (2, 4) };
    assert_eq!(idle.tried(0, 16, 0, &mut HashMap::new()), Some(12 + 4 + 4));
    assert_eq!(idle.lost(&idle.planned(16).unwrap()), Exact::from(20));
    // Nearly all is needed: 20 of 24, and 4 go on to 16, of which 12 are taken; 4 go on to 8, and 4 of them on.
    let busy = Small { needs: vec![20, 12], least: 8, most: 64, growth: (2, 4) };
    assert_eq!(busy.tried(0, 24, 0, &mut HashMap::new()), Some(4));
    assert_eq!(busy.lost(&busy.planned(24).unwrap()), Exact::from(4));
}
