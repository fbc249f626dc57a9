//! How much yeast for so many hours, and how many hours from so much yeast.
//!
//! Bakers say "half the yeast, twice the time". The printed pre-ferments that were read bear it out: a straight line
//! through them in logarithms, by least squares, has yeast = factor × time to a power of -1.00, give or take 0.3 (two
//! standard errors). Rows of [`PUBLISHED`] from memory do not carry that line. The time is counted at 21 °C, by the growth
//! model of baker's yeast. Printed figures lie on both sides of that line, and the answer carries that spread; where growth
//! and gas of yeast change differently with warmth, it is as wide as both.

mod strength;

pub use strength::{KINDS, KindRatio, Strength};

use levamen_language::YeastKind;
use levamen_quantity::{Duration, Share, Temperature};

use crate::answer::{Answer, FermentError, celsius, hours, minutes, significant};
use crate::organism::Organism;
use crate::range;

/// The temperature that times are counted at, in degrees Celsius.
const COUNTED_AT: f64 = 21.0;

/// A figure, and between which others printed formulas have it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spread<T> {
    /// The least that a printed pre-ferment has.
    pub least: T,
    /// On the line through all of them; two digits.
    pub likely: T,
    /// The most that a printed pre-ferment has.
    pub most: T,
}

/// One printed pre-ferment: so much yeast, ripe after so long.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Published {
    /// Hours until it is ripe; of a span, the middle.
    pub hours: f64,
    /// Degrees Celsius; where the source says "room temperature", or nothing, 21.
    pub celsius: f64,
    /// Percent of the pre-ferment's own flour.
    pub percent: f64,
    /// Of which yeast.
    pub kind: YeastKind,
    /// Whether hours and yeast were read in the source. What is from memory carries no rule: it is only held against it.
    pub read: bool,
    /// Who says so, and how sure that is.
    pub source: &'static str,
}

const fn row(hours: f64, celsius: f64, percent: f64, kind: YeastKind, source: &'static str) -> Published {
    Published { hours, celsius, percent, kind, read: true, source }
}

const fn recalled(hours: f64, percent: f64, kind: YeastKind, source: &'static str) -> Published {
    Published { hours, celsius: 21.0, percent, kind, read: false, source }
}

/// `La Poolish`, mes-pains-maison.fr (2008): 20, 5 and 3 g of fresh yeast on a kilogram of flour; its 22 to 24 °C are those of
/// the long ones.
const FRENCH_PAGE: &str = "La Poolish, mes-pains-maison.fr (2008), at 22 to 24 °C";

/// The printed pre-ferments, longest first.
pub const PUBLISHED: [Published; 16] = [
    recalled(16.0, 0.175, YeastKind::Fresh, "J. Hamelman, Bread (2004), 0.1 to 0.25 %, from memory"),
    recalled(15.0, 0.03, YeastKind::Instant, "handbooks, from memory"),
    row(
        14.0,
        21.0,
        0.10,
        YeastKind::Instant,
        "M. Philip, Breaking Bread (2017), poolish baguette, 12 to 16 h",
    ),
    recalled(
        14.0,
        0.2,
        YeastKind::Fresh,
        "J. Hamelman, Bread (2004), stiff biga; its 12 to 16 h from memory",
    ),
    recalled(13.5, 0.1, YeastKind::Fresh, "D. Rosada on pre-ferments, 12 to 15 h, from memory"),
    recalled(12.0, 0.45, YeastKind::Fresh, "J. Hamelman, Bread (2004), 0.3 to 0.6 %, from memory"),
    row(
        12.0,
        21.0,
        0.2,
        YeastKind::Fresh,
        "M. Avery on a classic poolish, bread forum thefreshloaf.com, page 7341",
    ),
    row(12.0, 23.0, 0.3, YeastKind::Fresh, FRENCH_PAGE),
    row(10.0, 21.0, 0.5, YeastKind::Fresh, "a hobby baker's page (pilloud.ca), 5 g a litre of water"),
    recalled(8.0, 0.85, YeastKind::Fresh, "J. Hamelman, Bread (2004), 0.7 to 1 %, from memory"),
    row(8.0, 23.0, 0.5, YeastKind::Fresh, FRENCH_PAGE),
    recalled(7.5, 0.7, YeastKind::Fresh, "D. Rosada on pre-ferments, 7 to 8 h, from memory"),
    row(6.0, 21.0, 0.7, YeastKind::Fresh, "a hobby baker's page (pilloud.ca), 7 g a litre of water"),
    row(
        3.5,
        21.0,
        0.27,
        YeastKind::Instant,
        "P. Reinhart, The Bread Baker's Apprentice (2001), poolish, 3 to 4 h",
    ),
    recalled(3.0, 1.5, YeastKind::Fresh, "D. Rosada on pre-ferments, from memory"),
    row(2.0, 23.0, 2.0, YeastKind::Fresh, FRENCH_PAGE),
];

/// Yeast in percent of flour, as instant yeast, for hours at 21 °C: `factor * hours.powf(power)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rule {
    /// Percent for one hour.
    pub(crate) factor: f64,
    /// Near -1: twice the time, half the yeast.
    pub(crate) power: f64,
    /// How far under the line a printed figure lies, as a factor.
    pub(crate) lowest: f64,
    /// How far over the line a printed figure lies, as a factor.
    pub(crate) highest: f64,
}

/// The line through the printed pre-ferments that were read.
pub(crate) fn rule() -> Rule {
    through(&PUBLISHED.iter().filter(|row| row.read).collect::<Vec<_>>())
}

fn through(rows: &[&Published]) -> Rule {
    let point = |row: &&Published| {
        (counted(row.hours, row.celsius, Organism::BakersYeast).ln(), instant_percent(row).ln())
    };
    let points: Vec<(f64, f64)> = rows.iter().map(point).collect();
    let count = f64::from(u32::try_from(points.len()).unwrap_or(u32::MAX));
    let mean = |pick: fn(&(f64, f64)) -> f64| points.iter().map(pick).sum::<f64>() / count;
    let (time, yeast) = (mean(|point| point.0), mean(|point| point.1));
    let together: f64 = points.iter().map(|point| (point.0 - time) * (point.1 - yeast)).sum();
    let spread: f64 = points.iter().map(|point| (point.0 - time).powi(2)).sum();
    let power = together / spread;
    let line = |at: f64| yeast + power * (at - time);
    let off = || points.iter().map(|point| (point.1 - line(point.0)).exp());
    Rule {
        factor: line(0.0).exp(),
        power,
        lowest: off().fold(1.0, f64::min),
        highest: off().fold(1.0, f64::max),
    }
}

fn instant_percent(row: &Published) -> f64 {
    row.percent / Strength::usual(row.kind).for_instant()
}

/// Hours at 21 °C that do what hours at another temperature do, by growth or by gas.
fn counted(hours: f64, celsius: f64, by: Organism) -> f64 {
    hours * by.rate(celsius) / by.rate(COUNTED_AT)
}

/// By how much more an hour does at a temperature by gas than by growth, as a factor; at 21 °C, 1.
fn gas_for_growth(celsius: f64) -> f64 {
    counted(1.0, celsius, Organism::YeastGas) / counted(1.0, celsius, Organism::BakersYeast)
}

/// The yeast that a pre-ferment takes to be ripe after a time, as a share of its own flour.
///
/// ```
/// use levamen_ferment::{Strength, YeastKind, yeast_amount};
/// use levamen_quantity::{Duration, Exact, Temperature, TemperatureUnit, TimeUnit};
///
/// let night = Duration::from_unit(&Exact::from(14), TimeUnit::Hour);
/// let room = Temperature::from_unit(&Exact::from(21), TemperatureUnit::Celsius);
/// let yeast = yeast_amount(&Strength::usual(YeastKind::Instant), &night, &room).unwrap().found;
/// assert_eq!(yeast.likely.percent().to_decimal_string(), "0.092");
/// ```
///
/// # Errors
/// No time at all; a temperature at which yeast does not work or that the model does not reach; an amount that no
/// pre-ferment has.
pub fn amount(
    strength: &Strength,
    time: &Duration,
    at: &Temperature,
) -> Result<Answer<Spread<Share>>, FermentError> {
    let mut remarks = range::yeasted(at)?;
    remarks.extend(range::yeasted_time(time)?);
    let Rule { factor, power, lowest, highest } = rule();
    let percent = factor * counted(hours(time), celsius(at), Organism::BakersYeast).powf(power);
    range::yeast_percent(percent)?;
    let parts = strength.for_instant();
    let by_gas = gas_for_growth(celsius(at)).powf(power);
    let [least, likely, most] = [lowest * by_gas.min(1.0), 1.0, highest * by_gas.max(1.0)]
        .map(|factor| Share::from_percent(significant(percent * factor * parts, 2)));
    Ok(Answer { found: Spread { least, likely, most }, remarks })
}

/// The time after which a pre-ferment with so much yeast is ripe; the yeast is a share of its own flour.
///
/// # Errors
/// No yeast at all, or more or less than any pre-ferment has; a temperature at which yeast does not work or that
/// the model does not reach.
pub fn time(
    strength: &Strength,
    yeast: &Share,
    at: &Temperature,
) -> Result<Answer<Spread<Duration>>, FermentError> {
    let mut remarks = range::yeasted(at)?;
    let percent = Strength::usual(YeastKind::Instant).for_share(yeast, strength).percent().to_f64();
    range::yeast_percent(percent)?;
    let Rule { factor, power, lowest, highest } = rule();
    let hours_at_21 = |percent: f64| (percent / factor).powf(power.recip());
    let growth = counted(1.0, celsius(at), Organism::BakersYeast);
    let by_gas = gas_for_growth(celsius(at));
    let at_warmth = |(percent, pace): (f64, f64)| minutes(hours_at_21(percent) / (growth * pace));
    // Where printed formulas have less yeast for the same time, this one is ripe sooner.
    let [least, likely, most] =
        [(percent / lowest, by_gas.max(1.0)), (percent, 1.0), (percent / highest, by_gas.min(1.0))]
            .map(at_warmth);
    remarks.extend(range::yeasted_time(&likely)?);
    Ok(Answer { found: Spread { least, likely, most }, remarks })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(source: &str) -> Vec<&'static Published> {
        PUBLISHED.iter().filter(|row| row.read && row.source.contains(source)).collect()
    }

    #[test]
    fn what_was_read_bears_out_half_the_yeast_for_twice_the_time() {
        let rule = rule();
        assert!((-1.02..-0.98).contains(&rule.power), "{rule:?}");
        assert!(rule.lowest > 0.6 && rule.highest < 1.35, "{rule:?}");
        // The span of what is printed: one table alone, and all but that table.
        let alone = through(&of("mes-pains-maison")).power;
        let others: Vec<_> =
            PUBLISHED.iter().filter(|row| row.read && !row.source.contains("mes-pains-maison")).collect();
        let others = through(&others).power;
        assert!((-1.06..-1.03).contains(&alone) && (-0.90..-0.87).contains(&others), "{alone} {others}");
    }

    #[test]
    fn rows_from_memory_do_not_carry_the_line() {
        let all = through(&PUBLISHED.iter().collect::<Vec<_>>());
        assert!((all.power - rule().power).abs() > 0.1, "{all:?}");
        assert!(PUBLISHED.iter().all(|row| row.read != row.source.contains("from memory")));
    }

    /// A French page prints 3 h with 12 to 15 g, 6 h with 7 to 8 g, 8 to 10 h with 5 g and 15 to 18 h with 3 g on a litre of all
    /// the dough's water, at 20 to 22 °C: chezfanchon.com, technique de la poolish (2012), read. How much of the water is in the
    /// poolish is left open, so it gives the power alone.
    #[test]
    fn a_french_table_on_the_water_of_the_dough_has_nearly_the_same_power() {
        let yeast = |hours, percent| Published {
            hours,
            celsius: 21.0,
            percent,
            kind: YeastKind::Fresh,
            read: true,
            source: "",
        };
        let rows = [yeast(3.0, 1.35), yeast(6.0, 0.75), yeast(9.0, 0.5), yeast(16.5, 0.3)];
        let power = through(&rows.iter().collect::<Vec<_>>()).power;
        assert!((-0.92..-0.86).contains(&power), "{power}");
    }

    #[test]
    fn in_warmth_the_spread_holds_gas_too() {
        let at = |degrees| {
            Temperature::from_unit(
                &levamen_quantity::Exact::from(degrees),
                levamen_quantity::TemperatureUnit::Celsius,
            )
        };
        let spread = |degrees| {
            let time = minutes(4.0);
            let found = amount(&Strength::usual(YeastKind::Instant), &time, &at(degrees)).unwrap().found;
            found.likely.percent().to_f64() / found.least.percent().to_f64()
        };
        assert!(spread(32) > 1.5 * spread(21), "{} {}", spread(32), spread(21));
    }
}
