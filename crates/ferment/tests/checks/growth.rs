//! Growth rates against the figures of their source, and how far the model is off them.

use levamen_ferment::{GROWTH, Organism};
use proptest::prelude::*;

fn rate(organism: Organism, celsius: f64) -> f64 {
    organism.growth().rate(celsius)
}

/// `docs/ferment.md` shows this table.
#[test]
fn deviation_from_the_source_at_each_of_its_temperatures() {
    let shown: Vec<String> = GROWTH
        .iter()
        .flat_map(|row| row.points.iter().map(move |point| (row.organism, *point)))
        .map(|(organism, (celsius, printed))| {
            format!("{} at {celsius} °C: {printed}, model {:.2}", organism.name(), rate(organism, celsius))
        })
        .collect();
    insta::assert_snapshot!(shown.join("\n"));
}

/// The model of three temperatures was off by up to a half in time; the line through the printed figures is not.
#[test]
fn every_printed_time_to_double_is_met() {
    for row in &GROWTH {
        for (celsius, printed) in row.points {
            assert!((row.rate(*celsius) / printed - 1.0).abs() < 1e-9, "{row:?} {celsius}");
        }
        let ends = row.cardinal;
        assert!((row.rate(ends.best) - 1.0).abs() < 1e-12);
        assert!(row.rate(ends.least).abs() < 1e-12 && row.rate(ends.most).abs() < 1e-12);
    }
}

/// Rates by the hour in a medium, from the letter in section 37 of the rec.food.sourdough FAQ (1998): temperature,
/// *L. sanfranciscensis* I, *C. milleri*. Written down from memory, not read again; a check of the shape, and no parameter.
const RATES: [(f64, f64, f64); 10] = [
    (10.0, 0.063, 0.033),
    (12.0, 0.084, 0.052),
    (14.0, 0.110, 0.078),
    (16.0, 0.144, 0.114),
    (18.0, 0.187, 0.163),
    (20.0, 0.239, 0.225),
    (22.0, 0.301, 0.295),
    (24.0, 0.374, 0.365),
    (26.0, 0.453, 0.414),
    (28.0, 0.535, 0.417),
];

#[test]
fn the_rates_of_the_letter_rise_as_the_model_does() {
    let (most_bacteria, most_yeasts) = (0.658, 0.417);
    for (celsius, bacteria, yeasts) in RATES {
        let off = |organism, part: f64| (rate(organism, celsius) - part).abs();
        assert!(off(Organism::Bacteria, bacteria / most_bacteria) < 0.14, "{celsius}");
        assert!(off(Organism::Yeasts, yeasts / most_yeasts) < 0.17, "{celsius}");
    }
}

/// A trade magazine says that a degree more speeds yeast by about a tenth: "The science of fermentation", bake magazine,
/// article 836. Read.
#[test]
fn a_degree_more_speeds_bakers_yeast_by_about_a_tenth_in_a_cool_room() {
    let faster = |celsius| rate(Organism::BakersYeast, celsius + 1.0) / rate(Organism::BakersYeast, celsius);
    assert!((1.05..1.15).contains(&faster(18.0)), "{}", faster(18.0));
    assert!((1.02..1.10).contains(&faster(26.0)), "{}", faster(26.0));
}

proptest! {
    #[test]
    fn warmer_is_quicker_up_to_the_best_and_slower_over_it(from in 0.0..1.0_f64, to in 0.0..1.0_f64) {
        let (low, high) = if from < to { (from, to) } else { (to, from) };
        for row in &GROWTH {
            let cardinal = row.cardinal;
            let between = |start: f64, end: f64, part: f64| row.rate(start + (end - start) * part);
            let up = |part| between(cardinal.least, cardinal.best, part);
            let down = |part| between(cardinal.best, cardinal.most, part);
            prop_assert!(up(low) <= up(high) + 1e-9);
            prop_assert!(down(low) >= down(high) - 1e-12);
            prop_assert!((0.0..=1.0 + 1e-9).contains(&up(low)) && (0.0..=1.0 + 1e-9).contains(&down(low)));
        }
    }
}
