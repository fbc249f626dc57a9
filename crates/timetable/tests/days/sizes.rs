//! Whole days of several sizes.

use levamen_timetable::{Effort, Moment, Work, plan, verify};

use crate::kitchen::{Size, day};

const QUICK: Effort = Effort { rounds: 1, neighbourhoods: 400, prices: 32 };

#[test]
fn days_are_right_and_bounded() {
    for doughs in [5, 10, 20, 40] {
        let work = day(Size::of(doughs));
        let timetable = plan(&work, QUICK).unwrap();
        assert_eq!(verify(&work, &timetable), [], "{doughs} doughs");
        let (bound, total) = (timetable.bound.count(), timetable.waiting.total().count());
        assert!(bound > 0 && bound <= total, "{doughs} doughs: {bound} of {total}");
        assert!(3 * bound > total, "{doughs} doughs: a bound of {bound} says little of {total}");
    }
}

#[test]
fn the_same_work_gets_the_same_timetable() {
    let work = day(Size::of(10));
    assert_eq!(plan(&work, QUICK).unwrap(), plan(&work, QUICK).unwrap());
}

#[test]
fn nothing_to_do_is_done_at_once() {
    let timetable = plan(&Work::new(Moment::MIDNIGHT, Moment::MIDNIGHT), Effort::default()).unwrap();
    assert!(timetable.placements.is_empty() && timetable.is_best());
}

#[test]
fn more_effort_is_never_worse() {
    let work = day(Size::of(10));
    let quick = plan(&work, QUICK).unwrap();
    let long = plan(&work, Effort { rounds: 3, neighbourhoods: 400, prices: 64 }).unwrap();
    assert!(long.waiting.total() <= quick.waiting.total());
    assert!(long.bound >= quick.bound);
}
