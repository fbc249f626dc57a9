//! A new culture, from flour and water alone.
//!
//! The days and shares are common practice, no source: flour and water stand for two days, are fed once a day with half of
//! the old until it has soured, and then as the culture is to be kept. That a new culture takes days to become
//! acid enough is common practice too; a first rise on the second or third day is not yet that of a culture.

use levamen_quantity::{Exact, Mass, Share};

use crate::figure_text::span;
use crate::keeping::CultureKeeping;

/// Some days of a new culture on which the same is done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewDays {
    /// The first of them; the day on which it is mixed is 1.
    pub first: u32,
    /// The last of them; `None`: until it is ready.
    pub last: Option<u32>,
    /// What is kept of it at each feeding.
    pub old: Mass,
    /// The new flour and water.
    pub new: Mass,
    /// What to do and to look for, a sentence each.
    pub words: Vec<String>,
}

/// The days from flour and water to a culture that is kept: each feeding makes the least that is held.
#[must_use]
pub fn new_culture(keeping: &CultureKeeping) -> Vec<NewDays> {
    let declared = keeping.declared();
    let made = &declared.hold_least;
    let half = Share::from_fraction(&Exact::ONE / &Exact::from(2));
    let days = |first, last, share: &Share, words: &[&str]| {
        let old = share.of(made);
        let words = words.iter().map(|words| (*words).to_owned()).collect();
        NewDays { first, last, new: made - &old, old, words }
    };
    let nothing = Share::default();
    let (ripens, every) = (keeping.ripens(), keeping.rhythm());
    let (ripe, every) = (span(ripens.least, ripens.most), span(every.least, every.most));
    vec![
        days(1, Some(1), &nothing, &["Mix, stir well, cover loosely, stand it warm."]),
        NewDays {
            first: 2,
            last: Some(2),
            old: Mass::ZERO,
            new: Mass::ZERO,
            words: vec![
                "Do not feed, stir once. Bubbles or none, and a rank smell, are usual now.".to_owned(),
            ],
        },
        days(
            3,
            Some(5),
            &half,
            &["Feed once a day.", "After a first rise it may lie still: go on all the same."],
        ),
        days(
            6,
            None,
            &declared.usually,
            &[
                &format!("Feed every {every}."),
                &format!(
                    "It is ready when it is ripe {ripe} after feeding, three times one after the other,"
                ),
                "and smells clean and sour: in a week to two.",
            ],
        ),
    ]
}

#[cfg(test)]
mod tests {
    use levamen_quantity::{Duration, TimeUnit};

    use super::*;
    use crate::keeping::{Declared, Interval};

    #[test]
    fn each_feeding_makes_the_least_that_is_held() {
        let hours = |figure: i64| Duration::from_unit(&Exact::from(figure), TimeUnit::Hour);
        let keeping = CultureKeeping::new(Declared::usual(Interval::new(hours(8), hours(10)))).unwrap();
        let days = new_culture(&keeping);
        assert_eq!(days.len(), 4);
        for fed in days.iter().filter(|days| days.new > Mass::ZERO) {
            assert_eq!(&fed.old + &fed.new, keeping.declared().hold_least);
        }
        let last = days.last().unwrap();
        assert_eq!((last.first, last.last, last.old.grams().to_i64()), (6, None, Some(80)));
        assert!(last.words.concat().contains("ripe 8 to 10 h after feeding"));
    }
}
