//! A plan by sums on paper, and each rule that a plan can break, broken.

use jiff::Zoned;
use levamen_culture::{
    CultureKeeping, CultureNeed, Declared, Feeding, FeedingHours, FeedingPlan, FeedingStep, FeedingTask,
    PlanError, ReplayError, new_culture, plan, replay,
};
use levamen_quantity::{Exact, Mass};

use crate::bakery::{clock, daily, days, grams, keeping, liquid, need, suiting};

/// 600 g every morning at four, for four days: ripe ten hours after feeding, so it is fed at 18:00.
fn with_task<T>(on_hand: Option<i64>, then: impl Fn(&FeedingTask<'_>) -> T) -> T {
    let (keeping, days): (CultureKeeping, _) = (keeping(liquid()), days(4));
    let needs: Vec<CultureNeed> = daily(&days, &[600; 4]);
    let hours = suiting(&keeping, &needs);
    then(&FeedingTask {
        keeping: &keeping,
        needs: &needs,
        days: &days,
        hours: &hours,
        on_hand: on_hand.map(grams),
    })
}

/// 40 parts of 100 are old. The last feeding makes the least that is held, 200 g; the one before it 600 g for the last morning
/// and the 80 g that those 200 g take; before it 600 + 0.4 × 680 = 872 g, and 600 + 0.4 × 872 = 948.8 g, in whole grams 949.
/// So the first morning wants 600 + 0.4 × 949 = 979.6 g, or 980.
#[test]
fn each_feeding_makes_what_is_taken_and_the_old_of_the_next() {
    let plan = with_task(None, |task| plan(task).unwrap());
    assert_eq!(plan.on_hand, grams(980));
    let made: Vec<Mass> = plan.feedings().map(Feeding::made).collect();
    assert_eq!(made, [949, 872, 680, 200].map(grams));
    // What the morning leaves is kept whole: 980 − 600, 949 − 600, 872 − 600 and 680 − 600.
    let old: Vec<Mass> = plan.feedings().map(|feeding| feeding.old.clone()).collect();
    assert_eq!(old, [380, 349, 272, 80].map(grams));
    // New are 569 + 523 + 408 + 120 g; with the 980 g they are the 2400 g that are taken and the 200 g that are left.
    assert_eq!((plan.added(), plan.taken(), plan.left.clone()), (grams(1620), grams(2400), grams(200)));
    assert_eq!((plan.discarded(), plan.is_least), (Mass::ZERO, true));
    let at: Vec<String> =
        plan.feedings().map(|feeding| feeding.at.strftime("%d %H:%M").to_string()).collect();
    assert_eq!(at, ["01 18:00", "02 18:00", "03 18:00", "04 18:00"]);
    let ripe: Vec<String> =
        plan.feedings().map(|feeding| feeding.ripe.strftime("%d %H:%M").to_string()).collect();
    assert_eq!(ripe, ["02 04:00", "03 04:00", "04 04:00", "05 04:00"]);
}

/// 1500 g are 520 g more than the plan wants. A feeding keeps 50 parts of 100 at most. Of a feeding that makes 200 g at the end
/// half is old, so 100 may be left the morning before: 700 g may be made then, 600 + 350 the day before, 600 + 475 the first
/// day. Of those 1075 g half are old: 537.5 of the 900 g that the first morning leaves, and 362.5 g are thrown away.
#[test]
fn what_no_feeding_can_keep_is_thrown_away_at_once() {
    let plan = with_task(Some(1500), |task| plan(task).unwrap());
    let discarded: Vec<Mass> = plan.feedings().map(|feeding| feeding.discard.clone()).collect();
    let half = Mass::from_grams(Exact::ratio(725, 2).unwrap());
    assert_eq!(discarded[0], half);
    assert_eq!((plan.discarded(), plan.is_least), (half, true));
}

fn feeding(plan: &mut FeedingPlan, step: usize) -> &mut Feeding {
    let feeding = match plan.steps.get_mut(step) {
        Some(FeedingStep::Feed(feeding)) => Some(feeding),
        _ => None,
    };
    feeding.unwrap()
}

/// What the replay says of the plan on paper, changed.
fn changed(change: impl Fn(&mut FeedingPlan)) -> Result<(), ReplayError> {
    with_task(None, |task| {
        let mut plan = plan(task).unwrap();
        change(&mut plan);
        replay(task, &plan)
    })
}

/// Takes at another time, or another mass: a step of the plan.
fn take(plan: &mut FeedingPlan, step: usize, at: Option<Zoned>, mass: i64) {
    let take = match plan.steps.get_mut(step) {
        Some(FeedingStep::Take(take)) => Some(take),
        _ => None,
    };
    let take = take.unwrap();
    take.at = at.unwrap_or_else(|| take.at.clone());
    take.mass = grams(mass);
}

fn on(day: i8, hour: i8) -> Zoned {
    days(4).at(jiff::civil::date(2026, 12, day), clock(hour)).unwrap()
}

#[test]
fn a_plan_that_breaks_no_rule_is_accepted() {
    assert_eq!(changed(|_| ()), Ok(()));
}

#[test]
fn steps_go_on_in_time() {
    // The second morning's 600 g, before the first feeding.
    assert_eq!(changed(|plan| take(plan, 2, Some(on(1, 5)), 600)), Err(ReplayError::OutOfOrder(on(1, 5))));
}

#[test]
fn no_more_is_taken_than_there_is() {
    assert_eq!(changed(|plan| take(plan, 0, None, 981)), Err(ReplayError::RunsOut(on(1, 4))));
    // What is kept is all that is left after the discard.
    let kept = changed(|plan| feeding(plan, 1).old = grams(379));
    assert_eq!(kept, Err(ReplayError::RunsOut(on(1, 18))));
}

#[test]
fn what_is_taken_is_ripe() {
    // Fed at 18:00 on the first day, and ripe eight hours after that at the earliest.
    assert_eq!(changed(|plan| take(plan, 2, Some(on(2, 1)), 600)), Err(ReplayError::Unripe(on(2, 1))));
}

#[test]
fn feedings_are_no_closer_than_the_rhythm_and_no_further() {
    // Twelve hours at least, and 24 at most.
    assert_eq!(changed(|plan| feeding(plan, 3).at = on(2, 5)), Err(ReplayError::Rhythm(on(2, 5))));
    assert_eq!(changed(|plan| feeding(plan, 3).at = on(2, 19)), Err(ReplayError::Rhythm(on(2, 19))));
}

#[test]
fn the_share_of_old_culture_is_within_its_bounds() {
    // 380 of 700 g are more than half; 380 of 2000 g are less than a fifth.
    for new in [320, 1620] {
        let share = grams(380).share_of(&grams(380 + new)).unwrap();
        let told = changed(|plan| feeding(plan, 1).new = grams(new));
        assert_eq!(told, Err(ReplayError::Keeps(on(1, 18), share)));
    }
}

#[test]
fn no_less_is_held_than_the_least() {
    let told = changed(|plan| {
        let last = feeding(plan, 7);
        (last.discard, last.old, last.new) = (grams(20), grams(60), grams(60));
    });
    assert_eq!(told, Err(ReplayError::Holds(on(4, 18), grams(120))));
}

#[test]
fn every_need_is_met_in_full() {
    let told = changed(|plan| {
        take(plan, 0, None, 599);
        feeding(plan, 1).discard = grams(1);
    });
    assert_eq!(told, Err(ReplayError::NotMet(on(1, 4))));
}

#[test]
fn what_is_left_is_what_is_said() {
    assert_eq!(changed(|plan| plan.left = grams(199)), Err(ReplayError::Left));
}

/// One need on some day at four, with so much on hand, fed once a day at 18:00.
fn one_need(declared: Declared, day: i64, mass: i64, on_hand: i64) -> Result<FeedingPlan, PlanError> {
    let (keeping, days) = (keeping(declared), days(3));
    let needs = [need(&days, day, 4, mass)];
    let hours = FeedingHours::given(vec![clock(18)]);
    let on_hand = Some(grams(on_hand));
    plan(&FeedingTask { keeping: &keeping, needs: &needs, days: &days, hours: &hours, on_hand })
}

/// 300 g, a fifth of what they are fed to, make 1500 g by the second morning. A fifth of the 200 g that are held after it, 40 g,
/// is not taken: 1460 g at most. For 2000 g there are to be 2040 g, so 408 g on hand; and on the third morning there are five
/// times as many.
#[test]
fn what_cannot_be_says_how_much_can_and_what_would_do() {
    let Err(PlanError::Shortfall(short)) = one_need(liquid(), 1, 2000, 300) else {
        panic!("300 g are too little")
    };
    assert_eq!((short.need.mass, short.most), (grams(2000), grams(1460)));
    assert_eq!((short.on_hand, short.wanted), (Some(grams(300)), Some(grams(408))));
    assert_eq!(short.earliest, Some(on(3, 4)));
    assert!(one_need(liquid(), 1, 1460, 300).is_ok());
    assert!(one_need(liquid(), 1, 1461, 300).is_err());
    assert!(one_need(liquid(), 1, 2000, 408).is_ok());
    assert!(one_need(liquid(), 1, 2000, 407).is_err());
}

/// All that may be held cannot be taken, or nothing goes on.
#[test]
fn no_need_is_as_much_as_may_be_held() {
    let held = || Declared { hold_most: Some(grams(1000)), ..liquid() };
    let refused = one_need(held(), 1, 1000, 900).unwrap_err();
    assert!(
        matches!(refused, PlanError::TooMuch { need, most } if (need.mass.clone(), most.clone()) == (grams(1000), grams(1000)))
    );
    // A fifth of the 200 g that are held next, 40 g, stay.
    assert!(one_need(held(), 1, 960, 900).is_ok());
    assert!(matches!(one_need(held(), 1, 961, 900), Err(PlanError::Shortfall(_))));
}

/// Fed at noon alone, once a day: at 18:00 it is six hours old and not ripe before eight.
#[test]
fn an_hour_after_which_it_is_never_ripe_in_time_is_refused() {
    let (keeping, days) = (keeping(liquid()), days(3));
    let planned = |hour: i8| {
        let needs = [need(&days, 1, 18, 100)];
        let hours = FeedingHours::given(vec![clock(hour)]);
        plan(&FeedingTask { keeping: &keeping, needs: &needs, days: &days, hours: &hours, on_hand: None })
    };
    let Err(PlanError::NoHour { fed, at_start, needed }) = planned(12) else { panic!("noon suits nobody") };
    assert_eq!((fed, at_start, needed), (on(1, 12), false, Some(on(2, 18))));
    assert!(planned(8).is_ok());
}

/// 200 g are held: half of them old from the third day, and 40 parts of 100 from the sixth.
#[test]
fn a_new_culture_is_fed_by_halves_and_then_as_it_is_kept() {
    let days = new_culture(&keeping(liquid()));
    let figures: Vec<_> = days.into_iter().map(|days| (days.first, days.last, days.old, days.new)).collect();
    let expected = [
        (1, Some(1), grams(0), grams(200)),
        (2, Some(2), grams(0), grams(0)),
        (3, Some(5), grams(100), grams(100)),
        (6, None, grams(80), grams(120)),
    ];
    assert_eq!(figures, expected);
}
