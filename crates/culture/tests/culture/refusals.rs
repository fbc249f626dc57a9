//! What is said where there is no plan, or a culture cannot be kept as declared.

use levamen_culture::{CultureKeeping, CultureNeed, Declared, FeedingHours, FeedingTask, Interval, plan};
use levamen_language::Problem;

use crate::bakery::{clock, daily, days, grams, hours, keeping, liquid, need, percent, suiting};

/// A problem as a reader meets it, without its place.
pub fn told(problem: &Problem) -> String {
    let label = problem.primary.iter().map(|label| format!("\n  ^ {}", label.text));
    let notes = problem.notes.iter().map(|note| format!("\n  note: {note}"));
    let help = problem.help.iter().map(|help| format!("\n  help: {help}"));
    let rest: String = label.chain(notes).chain(help).collect();
    format!("[{}] {}{rest}", problem.code, problem.message)
}

fn refused(
    keeping: &CultureKeeping,
    needs: &[CultureNeed],
    hours: &FeedingHours,
    on_hand: Option<i64>,
) -> String {
    let days = days(6);
    let task = FeedingTask { keeping, needs, days: &days, hours, on_hand: on_hand.map(grams) };
    told(&plan(&task).unwrap_err().problem("liquid culture", keeping))
}

#[test]
fn more_than_it_can_grow() {
    let keeping = keeping(liquid());
    let needs = daily(&days(6), &[100, 4000, 100, 100]);
    insta::assert_snapshot!(refused(&keeping, &needs, &suiting(&keeping, &needs), Some(150)));
}

#[test]
fn more_than_is_held() {
    let keeping = keeping(Declared { hold_most: Some(grams(8000)), ..liquid() });
    let needs = daily(&days(6), &[100, 100, 9000]);
    insta::assert_snapshot!(refused(&keeping, &needs, &suiting(&keeping, &needs), None));
}

#[test]
fn nearly_all_that_is_held() {
    let keeping = keeping(Declared { hold_most: Some(grams(8000)), ..liquid() });
    let needs = daily(&days(6), &[100, 100, 7980]);
    insta::assert_snapshot!(refused(&keeping, &needs, &suiting(&keeping, &needs), Some(400)));
}

#[test]
fn no_hour_suits() {
    let keeping = keeping(liquid());
    let needs = daily(&days(6), &[100, 100, 100]);
    let hours = FeedingHours::given(vec![clock(22), clock(3)]);
    insta::assert_snapshot!(refused(&keeping, &needs, &hours, Some(400)));
}

#[test]
fn needed_too_often() {
    let keeping = keeping(Declared { ripens: Interval::only(hours(14)), ..liquid() });
    let needs: Vec<CultureNeed> =
        (0..6).flat_map(|day| [4, 12, 20].map(|hour| need(&days(6), day, hour, 100))).collect();
    insta::assert_snapshot!(refused(&keeping, &needs, &suiting(&keeping, &needs), Some(4000)));
}

#[test]
fn what_cannot_be_kept() {
    let wrong = [
        Declared { keeps: Interval::new(percent(0), percent(50)), ..liquid() },
        Declared { keeps: Interval::new(percent(50), percent(100)), usually: percent(50), ..liquid() },
        Declared { keeps: Interval::new(percent(50), percent(20)), ..liquid() },
        Declared { usually: percent(60), ..liquid() },
        Declared { ripens: Interval::only(hours(0)), ..liquid() },
        Declared { ripens: Interval::new(hours(10), hours(8)), ..liquid() },
        Declared { fed_every: Interval::new(hours(0), hours(12)), ..liquid() },
        Declared { fed_every: Interval::new(hours(24), hours(12)), ..liquid() },
        Declared { fed_every: Interval::new(hours(12), hours(1_000_000)), ..liquid() },
        Declared { fed_every: Interval::new(hours(4), hours(6)), ..liquid() },
        Declared { hold_least: grams(0), ..liquid() },
        Declared { hold_most: Some(grams(100)), ..liquid() },
    ];
    let told: Vec<String> = wrong
        .into_iter()
        .map(|declared| told(&CultureKeeping::new(declared).unwrap_err().problem("liquid culture")))
        .collect();
    insta::assert_snapshot!(told.join("\n\n"));
}
