//! Mixers, and batches in the order in which they are mixed.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BookBalances;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_plan::{Day, DayOrders, DayStageId, Gap, Hours, in_mixing_order};
use levamen_timetable::{Clock, Effort, plan, verify};

const BREAD: &str = "\
dough Loaf

overall
  white flour  100 %
  water         70 %
  fresh yeast    1 %

product Loaf
  made of Loaf
  piece    1 kg
  proof    45 to 90 min
  bakes    40 min
";

const BUN: &str = "\
dough Bun

overall
  white flour  100 %
  water         60 %
  fresh yeast    1 %

product Bun
  made of Bun
  piece    100 g
";

/// A day of so many kilograms of loaves, and of so many buns where there are any.
fn planned(cards: &str, loaves: u64, buns: u64) -> (Day, Hours) {
    let text = format!("{BREAD}\n{BUN}\n{cards}");
    let texts = [(TextId(0), text.as_str())];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let day = Day::plan(
        &BookBalances::new(&book),
        &bakery,
        &DayOrders::from_pieces([(ProductId::new(0), loaves), (ProductId::new(1), buns)]),
        None,
    )
    .unwrap();
    let clock = Clock::new(date(2026, 11, 27), TimeZone::UTC).unwrap();
    let hours = Hours::new(&bakery, &day, clock).unwrap();
    (day, hours)
}

fn mixing_gaps(hours: &Hours) -> usize {
    hours.gaps.iter().filter(|gap| matches!(gap, Gap::Mixing(..))).count()
}

/// Two mixers of a make are two machines of a class; who says how long a dough is mixed leaves no gap.
#[test]
fn a_dough_is_mixed_on_a_mixer_and_that_is_cleaned() {
    let mixers = "mixer spiral\n  there are 2\n  cleaning 5 min\n  most 100 kg of dough\n\nmixer planetary\n  most 5 kg of dough\n";
    let (day, hours) = planned(&format!("{mixers}\nmethod Loaf\n  in spiral\n  mixes 10 min\n"), 20, 0);
    assert_eq!(hours.work.classes(), ["spiral", "planetary"]);
    let names: Vec<&str> = hours.work.machines().iter().map(|machine| machine.name.as_str()).collect();
    assert_eq!(names, ["spiral 1", "spiral 2", "planetary"]);
    let step = hours.step(DayStageId { dough: day.doughs[0].need.dough, stage: 0 }).unwrap();
    let step = hours.work.get(step).unwrap();
    let on = step.machine.clone().unwrap();
    assert_eq!((on.class, on.dough.grams().to_fixed(0).as_str()), (hours.work.machines()[0].class, "20000"));
    // 10 min of mixing and 5 of cleaning.
    assert_eq!(step.length.count(), 15);
    assert_eq!(mixing_gaps(&hours), 0);
    let timetable = plan(&hours.work, Effort { rounds: 1, neighbourhoods: 20, prices: 2 }).unwrap();
    assert_eq!(verify(&hours.work, &timetable), []);
}

/// A dough that goes into a mixer without saying for how long leaves a gap. One that is mixed by hand leaves none: nothing
/// is kept from another dough meanwhile.
#[test]
fn who_does_not_say_how_long_a_mixer_is_taken_is_told() {
    let (_, by_hand) = planned("", 20, 0);
    assert_eq!((mixing_gaps(&by_hand), by_hand.work.machines().len()), (0, 0));
    let (_, mixed) = planned("mixer spiral\n  most 100 kg of dough\n", 20, 0);
    assert!(mixing_gaps(&mixed) > 0, "{:?}", mixed.gaps);
    assert!(
        mixed
            .gaps
            .iter()
            .any(|gap| matches!(gap, Gap::Mixing(dough, time) if dough == "Loaf" && time.count() == 12))
    );
}

/// 25 kg in full batches of 20 are 20 and 5. Where the 5 kg are mixed first they become the first batch, with their share of
/// everything, their step and the name of their job; the other dough of the day is left as it is.
#[test]
fn batches_are_numbered_by_the_clock() {
    let cards = "bakery Harbour\n  batches full\n\nmixer spiral\n  most 20 kg of dough\n\nmethod Loaf\n  in spiral\n  mixes 10 min\n\nmethod Bun\n  in spiral\n  mixes 10 min\n";
    let (planned_day, planned_hours) = planned(cards, 25, 250);
    let timetable = plan(&planned_hours.work, Effort { rounds: 1, neighbourhoods: 20, prices: 2 }).unwrap();
    for late_first in [false, true] {
        let mut timetable = timetable.clone();
        // Of both doughs the steps of the two batches, in the order of their stages.
        let steps: Vec<_> = planned_day
            .doughs
            .iter()
            .map(|dough| {
                [0, 1].map(|stage| planned_hours.step(DayStageId { dough: dough.need.dough, stage }).unwrap())
            })
            .collect();
        // The loaves' batches begin in the one order or the other, the buns' in their own.
        let loaf = planned_day.doughs.iter().position(|dough| dough.balance.dough == "Loaf").unwrap();
        for (index, own) in steps.iter().enumerate() {
            let mut starts = own.map(|step| timetable.placement(step).unwrap().start);
            starts.sort_unstable();
            assert!(starts[0] < starts[1], "one mixer mixes one batch after the other");
            if late_first && index == loaf {
                starts.reverse();
            }
            for (step, start) in own.iter().zip(starts) {
                timetable.placements.iter_mut().find(|placed| placed.step == *step).unwrap().start = start;
            }
        }
        let (day, hours) = in_mixing_order(planned_day.clone(), planned_hours.clone(), &timetable);
        for (index, (dough, own)) in day.doughs.iter().zip(&steps).enumerate() {
            let is_turned = late_first && index == loaf;
            let kilograms: Vec<String> = dough
                .batches
                .parts
                .iter()
                .map(|part| part.in_unit(levamen_quantity::MassUnit::Kilogram).to_fixed(0))
                .collect();
            assert_eq!(kilograms, if is_turned { ["5", "20"] } else { ["20", "5"] });
            let names: Vec<&str> = dough.balance.stages.iter().map(|stage| stage.name.as_str()).collect();
            assert_eq!(names, ["final dough, batch 1", "final dough, batch 2"]);
            let before = &planned_day.doughs[index].balance.stages;
            let made: Vec<_> = dough.balance.stages.iter().map(|stage| stage.made.clone()).collect();
            let expected = if is_turned { [1, 0] } else { [0, 1] };
            assert_eq!(made, expected.map(|at: usize| before[at].made.clone()));
            let now = [0, 1].map(|stage| hours.step(DayStageId { dough: dough.need.dough, stage }).unwrap());
            assert_eq!(now, expected.map(|at: usize| own[at]));
            for (number, step) in (1..).zip(now) {
                let job = hours.work.get(step).unwrap().job;
                let name = format!("{}, batch {number}", dough.balance.dough);
                assert_eq!(hours.work.job_name(job), Some(name.as_str()));
            }
        }
    }
}
