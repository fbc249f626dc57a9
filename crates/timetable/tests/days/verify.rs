//! The checker notices each fault.

use levamen_timetable::{CheckError, Effort, Minutes, Moment, Timetable, plan, verify};

use crate::bakery::Bakery;

fn good(bakery: &Bakery) -> Timetable {
    let timetable = plan(&bakery.work, Effort::default()).unwrap();
    assert_eq!(verify(&bakery.work, &timetable), []);
    timetable
}

/// What the checker says after a change.
fn after(change: impl FnOnce(&Bakery, &mut Timetable)) -> (Bakery, Vec<CheckError>) {
    let bakery = Bakery::new();
    let mut timetable = good(&bakery);
    change(&bakery, &mut timetable);
    let found = verify(&bakery.work, &timetable);
    (bakery, found)
}

/// Moves the entry at a place by some minutes.
fn shift(timetable: &mut Timetable, place: usize, minutes: i32) {
    let placement = &mut timetable.placements[place];
    placement.start = Moment::minute(placement.start.minutes() + minutes);
    placement.end = Moment::minute(placement.end.minutes() + minutes);
}

#[test]
fn a_missing_entry() {
    assert_eq!(after(|_, timetable| timetable.placements.truncate(3)).1, [CheckError::Entries]);
}

#[test]
fn a_step_cut_short() {
    let (bakery, found) = after(|_, timetable| timetable.placements[1].end = timetable.placements[1].start);
    assert!(found.contains(&CheckError::Length(bakery.mix)), "{found:?}");
}

#[test]
fn bread_that_is_late() {
    // Nothing is late that is not said to be late.
    let (_, found) = after(|_, timetable| shift(timetable, 3, 1));
    assert_eq!(found, [CheckError::Waiting]);
}

#[test]
fn bread_of_a_dough_that_is_left_out() {
    let (bakery, found) = after(|bakery, timetable| {
        timetable.placements.retain(|placement| placement.step != bakery.mix);
        timetable.left_out.push(bakery.mix);
    });
    assert!(found.contains(&CheckError::Lacks(bakery.shape)), "{found:?}");
}

#[test]
fn a_window_broken_on_either_side() {
    for minutes in [-61, 1] {
        let (bakery, found) = after(|_, timetable| shift(timetable, 1, minutes));
        assert!(found.contains(&CheckError::Window(bakery.bulk)), "{found:?}");
    }
}

#[test]
fn a_dough_on_no_machine() {
    let (bakery, found) = after(|_, timetable| timetable.placements[1].machine = None);
    assert_eq!(found, [CheckError::Machine(bakery.mix)]);
    let (bakery, found) = after(|bakery, timetable| timetable.placements[2].machine = Some(bakery.mixer));
    assert_eq!(found, [CheckError::Machine(bakery.shape)]);
}

#[test]
fn bakers_who_are_not_there() {
    let (bakery, found) = after(|_, timetable| shift(timetable, 0, 5 * 60));
    let is_full =
        |violation: &CheckError| matches!(violation, CheckError::Full(pool, _) if *pool == bakery.bakers);
    assert!(found.iter().any(is_full), "{found:?}");
}

#[test]
fn two_doughs_in_one_mixer() {
    let mut bakery = Bakery::new();
    let second = bakery.work.steps()[1].clone();
    let second = bakery.work.step(second);
    let mut timetable = good(&bakery);
    let first = timetable.placements[1];
    let placement = &mut timetable.placements[4];
    (placement.start, placement.end) = (first.start, first.end);
    let found = verify(&bakery.work, &timetable);
    assert!(found.contains(&CheckError::Twice(bakery.mixer, bakery.mix, second)), "{found:?}");
}

#[test]
fn a_bound_that_cannot_be() {
    let (_, found) = after(|_, timetable| {
        timetable.bound = Minutes::new(timetable.waiting.total().count() + 1);
    });
    assert_eq!(found, [CheckError::Bound]);
}
