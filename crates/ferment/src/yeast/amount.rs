//! How much yeast for so many hours, and how many hours from so much yeast.
//!
//! Bakers say "half the yeast, twice the time" (common practice, no source). Printed pre-ferments ask for a little
//! less in long ones, because yeast also grows. So the rule is a straight line through [`PUBLISHED`] in logarithms, by
//! least squares: yeast = factor × time to a power near -1. The time is counted at 21 °C, by the growth model of
//! baker's yeast. Printed figures lie up to twice above and below that line, and the answer carries that spread.

use levamen_language::YeastKind;
use levamen_quantity::{Duration, Share, Temperature};

use super::kind::Strength;
use super::published::{PUBLISHED, Published};
use crate::figure::{celsius, hours, minutes, significant};
use crate::organism::Organism;
use crate::range;
use crate::refusal::{Answer, Refusal};

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

/// The line through the printed pre-ferments.
pub(crate) fn rule() -> Rule {
    let points = PUBLISHED.map(|row| (counted(row.hours, row.celsius).ln(), instant_percent(&row).ln()));
    let count = f64::from(u32::try_from(points.len()).unwrap_or(u32::MAX));
    let mean = |pick: fn(&(f64, f64)) -> f64| points.iter().map(pick).sum::<f64>() / count;
    let (time, yeast) = (mean(|point| point.0), mean(|point| point.1));
    let together: f64 = points.iter().map(|point| (point.0 - time) * (point.1 - yeast)).sum();
    let spread: f64 = points.iter().map(|point| (point.0 - time).powi(2)).sum();
    let power = together / spread;
    let line = |at: f64| yeast + power * (at - time);
    let off = points.map(|point| (point.1 - line(point.0)).exp());
    Rule {
        factor: line(0.0).exp(),
        power,
        lowest: off.iter().copied().fold(1.0, f64::min),
        highest: off.iter().copied().fold(1.0, f64::max),
    }
}

fn instant_percent(row: &Published) -> f64 {
    row.percent / Strength::usual(row.kind).for_instant()
}

/// Hours at 21 °C that do what hours at another temperature do.
fn counted(hours: f64, celsius: f64) -> f64 {
    hours * Organism::BakersYeast.rate(celsius) / Organism::BakersYeast.rate(COUNTED_AT)
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
/// assert_eq!(yeast.likely.percent().to_decimal_string(), "0.069");
/// ```
///
/// # Errors
/// No time at all; a temperature at which yeast does not work or that the model does not reach; an amount that no
/// pre-ferment has.
pub fn amount(
    strength: &Strength,
    time: &Duration,
    at: &Temperature,
) -> Result<Answer<Spread<Share>>, Refusal> {
    let mut remarks = range::yeasted(at)?;
    remarks.extend(range::yeasted_time(time)?);
    let Rule { factor, power, lowest, highest } = rule();
    let percent = factor * counted(hours(time), celsius(at)).powf(power);
    range::yeast_percent(percent)?;
    let parts = strength.for_instant();
    let [least, likely, most] =
        [lowest, 1.0, highest].map(|factor| Share::from_percent(significant(percent * factor * parts, 2)));
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
) -> Result<Answer<Spread<Duration>>, Refusal> {
    let mut remarks = range::yeasted(at)?;
    let percent = Strength::usual(YeastKind::Instant).for_share(yeast, strength).percent().to_f64();
    range::yeast_percent(percent)?;
    let Rule { factor, power, lowest, highest } = rule();
    let hours_at_21 = |percent: f64| (percent / factor).powf(power.recip());
    let at_warmth = |percent: f64| minutes(hours_at_21(percent) / counted(1.0, celsius(at)));
    // Where printed formulas have less yeast for the same time, this one is ripe sooner.
    let [least, likely, most] = [percent / lowest, percent, percent / highest].map(at_warmth);
    remarks.extend(range::yeasted_time(&likely)?);
    Ok(Answer { found: Spread { least, likely, most }, remarks })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_line_is_near_half_the_yeast_twice_the_time() {
        let rule = rule();
        assert!((-1.4..-1.0).contains(&rule.power), "{rule:?}");
        assert!(rule.lowest > 0.35 && rule.highest < 2.2, "{rule:?}");
    }
}
