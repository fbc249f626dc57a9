//! The checker notices each fault.

use levamen_timetable::{Effort, Minutes, Moment, Timetable, Violation, plan, verify};

use crate::bakery::Bakery;

fn good(bakery: &Bakery) -> Timetable {
    let timetable = plan(&bakery.work, Effort::default()).unwrap();
    assert_eq!(verify(&bakery.work, &timetable), []);
    timetable
}

/// What the checker says after a change.
fn after(change: impl FnOnce(&Bakery, &mut Timetable)) -> (Bakery, Vec<Violation>) {
    let bakery = Bakery::new();
    let mut timetable = good(&bakery);
    change(&bakery, &mut timetable);
    let found = verify(&bakery.work, &timetable);
    (bakery, found)
}

/// Moves the entry at a place by some minutes.
fn shift(timetable: &mut Timetable, place: usize, minutes: i32) {
    let entry = &mut timetable.entries[place];
    entry.start = Moment::minute(entry.start.minutes() + minutes);
    entry.end = Moment::minute(entry.end.minutes() + minutes);
}

#[test]
fn a_missing_entry() {
    assert_eq!(after(|_, timetable| timetable.entries.truncate(3)).1, [Violation::Entries]);
}

#[test]
fn a_step_cut_short() {
    let (bakery, found) = after(|_, timetable| timetable.entries[1].end = timetable.entries[1].start);
    assert!(found.contains(&Violation::Length(bakery.mix)), "{found:?}");
}

#[test]
fn bread_that_is_late() {
    let (bakery, found) = after(|_, timetable| shift(timetable, 3, 1));
    assert!(found.contains(&Violation::Hours(bakery.bake)), "{found:?}");
    assert!(found.contains(&Violation::Waiting), "{found:?}");
}

#[test]
fn a_window_broken_on_either_side() {
    for minutes in [-61, 1] {
        let (bakery, found) = after(|_, timetable| shift(timetable, 1, minutes));
        assert!(found.contains(&Violation::Window(bakery.bulk)), "{found:?}");
    }
}

#[test]
fn a_dough_on_no_machine() {
    let (bakery, found) = after(|_, timetable| timetable.entries[1].machine = None);
    assert_eq!(found, [Violation::Machine(bakery.mix)]);
    let (bakery, found) = after(|bakery, timetable| timetable.entries[2].machine = Some(bakery.mixer));
    assert_eq!(found, [Violation::Machine(bakery.shape)]);
}

#[test]
fn bakers_who_are_not_there() {
    let (bakery, found) = after(|_, timetable| shift(timetable, 0, 5 * 60));
    let is_full =
        |violation: &Violation| matches!(violation, Violation::Full(pool, _) if *pool == bakery.bakers);
    assert!(found.iter().any(is_full), "{found:?}");
}

#[test]
fn two_doughs_in_one_mixer() {
    let mut bakery = Bakery::new();
    let second = bakery.work.steps()[1].clone();
    let second = bakery.work.step(second);
    let mut timetable = good(&bakery);
    let first = timetable.entries[1];
    let entry = &mut timetable.entries[4];
    (entry.start, entry.end) = (first.start, first.end);
    let found = verify(&bakery.work, &timetable);
    assert!(found.contains(&Violation::Twice(bakery.mixer, bakery.mix, second)), "{found:?}");
}

#[test]
fn a_bound_that_cannot_be() {
    let (_, found) = after(|_, timetable| {
        timetable.bound = Minutes::new(timetable.waiting.total().count() + 1);
    });
    assert_eq!(found, [Violation::Bound]);
}
