//! What a culture may be declared as, at the edge of each rule, and the hours that suit it, counted back by hand.

use jiff::civil::Time;
use levamen_culture::{CultureKeeping, CultureNeed, Declared, FeedingHours, Interval, KeepingError};
use levamen_quantity::{Duration, Exact, Mass, TimeUnit};

use crate::bakery::{clock, days, grams, hours, keeping, liquid, need, percent, suiting};

fn refused(declared: Declared) -> Option<KeepingError> {
    CultureKeeping::new(declared).err()
}

fn minutes(figure: i64) -> Duration {
    Duration::from_unit(&Exact::from(figure), TimeUnit::Minute)
}

#[test]
fn something_is_kept_and_something_is_new() {
    let keeps = |least, most| Interval::new(percent(least), percent(most));
    let declared = |least, most| Declared { keeps: keeps(least, most), ..liquid() };
    assert_eq!(refused(declared(1, 99)), None);
    assert_eq!(refused(declared(0, 50)), Some(KeepingError::Keeps(keeps(0, 50))));
    assert_eq!(refused(declared(20, 100)), Some(KeepingError::Keeps(keeps(20, 100))));
    assert_eq!(refused(declared(50, 20)), Some(KeepingError::KeepsBackwards(keeps(50, 20))));
}

#[test]
fn the_usual_share_is_an_allowed_one() {
    let usually = |figure| refused(Declared { usually: percent(figure), ..liquid() });
    let keeps = Interval::new(percent(20), percent(50));
    assert_eq!((usually(20), usually(50)), (None, None));
    for figure in [19, 51] {
        assert_eq!(usually(figure), Some(KeepingError::Usually(percent(figure), keeps.clone())));
    }
}

#[test]
fn it_can_be_ripe_before_it_is_fed_again() {
    let fed = |least, most| {
        refused(Declared { fed_every: Interval::new(minutes(least), minutes(most)), ..liquid() })
    };
    // Ripe after eight hours, 480 minutes.
    assert_eq!(fed(60, 480), None);
    assert_eq!(fed(60, 479), Some(KeepingError::FedUnripe { every: 479, ripe: 480 }));
    assert_eq!(fed(0, 480), Some(KeepingError::FedEvery));
    assert_eq!(fed(481, 480), Some(KeepingError::FedEvery));
}

#[test]
fn ripening_takes_time_and_ends_after_it_begins() {
    let ripens =
        |least, most| refused(Declared { ripens: Interval::new(minutes(least), minutes(most)), ..liquid() });
    assert_eq!((ripens(1, 1), ripens(480, 600)), (None, None));
    for (least, most) in [(0, 60), (61, 60)] {
        assert_eq!(ripens(least, most), Some(KeepingError::Ripens));
    }
    // Between half a minute and a minute and a half there is one whole minute; within half a minute there is none.
    let seconds =
        |figure: i64| Duration::from_unit(&(&Exact::from(figure) / &Exact::from(60)), TimeUnit::Minute);
    let within =
        |least, most| refused(Declared { ripens: Interval::new(seconds(least), seconds(most)), ..liquid() });
    assert_eq!((within(30, 90), within(70, 110)), (None, Some(KeepingError::Ripens)));
}

#[test]
fn something_is_held_and_no_less_than_the_least() {
    let held = |least, most: Option<i64>| {
        refused(Declared { hold_least: grams(least), hold_most: most.map(grams), ..liquid() })
    };
    assert_eq!((held(1, None), held(200, Some(200))), (None, None));
    assert_eq!(held(0, None), Some(KeepingError::HoldsNothing));
    let backwards =
        |least, most| KeepingError::HoldBackwards(Interval::<Mass>::new(grams(least), grams(most)));
    assert_eq!(held(200, Some(199)), Some(backwards(200, 199)));
}

/// The hours for needs of the second day at these hours.
fn times(declared: Declared, at: &[i8]) -> Vec<Time> {
    let needs: Vec<CultureNeed> = at.iter().map(|hour| need(&days(3), 1, *hour, 100)).collect();
    suiting(&keeping(declared), &needs).times().to_vec()
}

/// Ripe for certain after ten hours, and fed every twelve at the earliest.
#[test]
fn it_is_fed_ten_hours_before_it_is_needed_and_twelve_hours_after_that() {
    assert_eq!(times(liquid(), &[4]), [clock(18), clock(6)]);
    // What is ripe at four is ripe at seven; of eight, four hours later, the hours are its own.
    assert_eq!(times(liquid(), &[7, 4]), [clock(18), clock(6)]);
    assert_eq!(times(liquid(), &[4, 8]), [clock(18), clock(22), clock(6), clock(10)]);
    // Nobody needs any: as if it were needed at four, as `suiting` of these tests says.
    assert_eq!(times(liquid(), &[]), [clock(18), clock(6)]);
    // A rhythm of eight hours has three feedings in a day: 18:00, 02:00 and 10:00.
    let often = Declared { fed_every: Interval::new(hours(8), hours(24)), ..liquid() };
    assert_eq!(times(often, &[4]), [clock(18), clock(2), clock(10)]);
}

/// 9 h 50 min before four it is 18:10: it is fed in the quarter of an hour that has begun then.
#[test]
fn hours_are_full_quarters() {
    let ripe = Declared { ripens: Interval::new(hours(8), minutes(590)), ..liquid() };
    assert_eq!(times(ripe, &[4]), [clock(18), clock(6)]);
    let given = FeedingHours::given(vec![clock(7), clock(19)]);
    assert_eq!(given.times(), [clock(7), clock(19)]);
}
