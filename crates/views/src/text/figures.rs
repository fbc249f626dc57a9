//! Figures as text: the one place where a weight, a share, a time, a temperature and a list are written for a reader.

use std::borrow::Cow;

use jiff::civil::Date;
use levamen_quantity::{
    Duration, Exact, Mass, MassUnit, Share, Temperature, TemperatureDifference, TemperatureUnit, TimeUnit,
    Volume,
};
use levamen_sheets::Weight;

/// The most decimals that a weight is shown with, for scales whose division is no short decimal.
const MOST_PLACES: usize = 4;

/// A weight of either sort: exact, or as a scale shows it. A reader sees no difference.
pub trait AnyWeight {
    /// Its mass.
    fn mass(&self) -> Cow<'_, Mass>;
}

impl AnyWeight for Mass {
    fn mass(&self) -> Cow<'_, Mass> {
        Cow::Borrowed(self)
    }
}

impl AnyWeight for Weight {
    fn mass(&self) -> Cow<'_, Mass> {
        Cow::Owned(self.as_exact())
    }
}

/// A weight in one of two columns, kilograms from one kilogram up and grams below, with the decimals that its scale
/// shows.
pub fn in_columns(weight: &impl AnyWeight, division: &Mass) -> [String; 2] {
    let text = with_unit(weight, division);
    if unit_of(&weight.mass()) == MassUnit::Kilogram { [text, String::new()] } else { [String::new(), text] }
}

/// A weight with its unit and the decimals that its scale shows.
pub fn with_unit(weight: &impl AnyWeight, division: &Mass) -> String {
    let weight = weight.mass();
    let unit = unit_of(&weight);
    let figure = weight.in_unit(unit).to_fixed(places(&division.in_unit(unit)));
    format!("{figure} {}", unit.symbol())
}

fn unit_of(weight: &Mass) -> MassUnit {
    if *weight.grams() >= Exact::from(1000) { MassUnit::Kilogram } else { MassUnit::Gram }
}

/// How many decimals a step has.
fn places(step: &Exact) -> usize {
    let text = step.to_decimal_string();
    text.split_once('.').map_or(0, |(_, decimals)| decimals.len()).min(MOST_PLACES)
}

/// A gram, as a step to which a weight is shown.
pub fn gram() -> Mass {
    Mass::from_grams(Exact::ONE)
}

/// The step to which a sum of weights is shown: a gram where it is whole grams, else a tenth.
pub fn finest(weight: Weight) -> Mass {
    if weight.grams().is_integer() { gram() } else { Mass::from_grams(&Exact::ONE / &Exact::from(10)) }
}

/// An exact weight to the milligram, short enough to read.
pub fn to_a_milligram(mass: &Mass) -> Mass {
    mass.round_to(&Mass::from_grams(&Exact::ONE / &Exact::from(1000)))
}

/// A share inside a sentence: `66.67 %`.
pub fn percent(share: &Share) -> String {
    share.to_percent(2)
}

/// A share in a column, in percent: two decimals, and four under one percent, where yeast and salt are.
pub fn percent_cell(share: &Share) -> String {
    let percent = share.percent();
    let places = if percent.abs() < Exact::ONE && !percent.is_zero() { 4 } else { 2 };
    percent.to_fixed(places)
}

/// An unrounded weight in a column, in grams: a tenth of a gram, and a thousandth under ten grams.
pub fn grams_cell(mass: &Mass) -> String {
    let places = if mass.grams().abs() < Exact::from(10) && !mass.grams().is_zero() { 3 } else { 1 };
    mass.grams().to_fixed(places)
}

/// A weight inside a sentence: kilograms from one kilogram up, grams below.
pub fn weight(weight: &impl AnyWeight) -> String {
    let mass = weight.mass();
    if *mass.grams() >= Exact::from(1000) {
        format!("{} kg", mass.in_unit(MassUnit::Kilogram).to_trimmed(4))
    } else {
        format!("{} g", mass.grams().to_trimmed(3))
    }
}

/// A weight in a column of one unit, in grams, as its scale shows it.
pub fn trimmed_grams(weight: Weight) -> String {
    weight.as_exact().grams().to_trimmed(3)
}

/// What of an ingredient is in a kilogram of dough, in a column, in grams.
pub fn hundredths_of_grams(mass: &Mass) -> String {
    mass.grams().to_fixed(2)
}

/// Kilograms in a column, to the gram, without their unit.
pub fn kilograms_cell(mass: &Mass) -> String {
    mass.in_unit(MassUnit::Kilogram).to_fixed(3)
}

/// Kilograms inside a sentence, to the gram.
pub fn kilograms(mass: &Mass) -> String {
    format!("{} kg", mass.in_unit(MassUnit::Kilogram).to_trimmed(3))
}

/// A number that is no share, such as a dough yield or the hours of a ripening: two decimals, where there are any.
pub fn short(number: &Exact) -> String {
    number.to_trimmed(2)
}

/// How often something counts, with the decimals of a share of yeast.
pub fn multiple(times: &Exact) -> String {
    times.to_trimmed(4)
}

/// `Fri 27 Nov 2026`
pub fn day(date: Date) -> String {
    date.strftime("%a %-d %b %Y").to_string()
}

/// `13 h 20 min`
pub fn hours_and_minutes(time: &Duration) -> String {
    let minutes = time.in_unit(TimeUnit::Minute);
    let hours = (&minutes / &Exact::from(60)).floor();
    let rest = &minutes - &(&hours * &Exact::from(60));
    let part =
        |figure: &Exact, unit: &str| (!figure.is_zero()).then(|| format!("{} {unit}", figure.to_trimmed(1)));
    let parts: Vec<String> = [part(&hours, "h"), part(&rest, "min")].into_iter().flatten().collect();
    if parts.is_empty() { "no time".to_owned() } else { parts.join(" ") }
}

/// `21 °C`
pub fn degrees(at: &Temperature) -> String {
    format!("{} °C", at.in_unit(TemperatureUnit::Celsius).to_trimmed(1))
}

/// A difference of temperatures: `4.5 °C`
pub fn degrees_between(difference: &TemperatureDifference) -> String {
    format!("{} °C", difference.in_unit(TemperatureUnit::Celsius).to_trimmed(1))
}

/// `24 °C (75 °F)`: an answer, for either thermometer.
pub fn both_degrees(at: &Temperature) -> String {
    format!("{} ({} °F)", degrees(at), at.in_unit(TemperatureUnit::Fahrenheit).to_trimmed(0))
}

/// A temperature in a column, a tenth of a degree: `4.0 °C`.
pub fn degrees_cell(at: &Temperature) -> String {
    format!("{} °C", at.in_unit(TemperatureUnit::Celsius).to_fixed(1))
}

/// A share with the decimals that yeast and salt need: four under one percent.
pub fn fine_percent(share: &Share) -> String {
    share.to_percent(if share.percent().abs() < Exact::ONE { 4 } else { 2 })
}

/// A share of yeast, with four decimals; `none` of nothing.
pub fn yeast_percent(share: &Share) -> String {
    if share.fraction().is_zero() {
        return "none".to_owned();
    }
    share.to_percent(4)
}

/// A share of seed, a tenth of a percent.
pub fn seed_percent(share: &Share) -> String {
    share.to_percent(1)
}

/// A share in a column, in whole percent.
pub fn whole_percent(share: &Share) -> String {
    share.percent().to_trimmed(0)
}

/// Litres with two decimals, without their unit.
pub fn litres(volume: &Volume) -> String {
    (volume.millilitres() / &Exact::from(1000)).to_trimmed(2)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(weight: &str, division: &str) -> [String; 2] {
        let grams = |text| Mass::from_grams(Exact::from_literal(text).unwrap());
        in_columns(&grams(weight), &grams(division))
    }

    #[test]
    fn decimals_are_those_of_the_scale() {
        assert_eq!(shown("12430", "10"), ["12.43 kg", ""]);
        assert_eq!(shown("3300", "1"), ["3.300 kg", ""]);
        assert_eq!(shown("999", "1"), ["", "999 g"]);
        assert_eq!(shown("6.6", "0.1"), ["", "6.6 g"]);
        assert_eq!(shown("6607.3", "0.1"), ["6.6073 kg", ""]);
    }

    #[test]
    fn a_division_in_ounces_does_not_fill_the_line() {
        assert_eq!(shown("28.349523125", "2.8349523125"), ["", "28.3495 g"]);
    }

    fn mass(grams: &str) -> Mass {
        Mass::from_grams(Exact::from_literal(grams).unwrap())
    }

    #[test]
    fn weights_change_unit_at_a_kilogram() {
        assert_eq!(weight(&mass("999.5")), "999.5 g");
        assert_eq!(weight(&mass("1000")), "1 kg");
        assert_eq!(weight(&mass("17010")), "17.01 kg");
    }

    #[test]
    fn small_figures_keep_more_decimals() {
        assert_eq!(grams_cell(&mass("9.9")), "9.900");
        assert_eq!(grams_cell(&mass("10")), "10.0");
        assert_eq!(percent_cell(&Share::from_percent(Exact::from_literal("0.07").unwrap())), "0.0700");
        assert_eq!(percent_cell(&Share::default()), "0.00");
    }

    fn share(percent: &str) -> Share {
        Share::from_percent(Exact::from_literal(percent).unwrap())
    }

    #[test]
    fn shares_have_the_decimals_that_they_need() {
        assert_eq!([percent(&share("66.666")), percent(&share("2"))], ["66.67 %", "2 %"]);
        assert_eq!([fine_percent(&share("0.12345")), fine_percent(&share("1.005"))], ["0.1235 %", "1.01 %"]);
        assert_eq!([yeast_percent(&share("0.07")), yeast_percent(&Share::default())], ["0.07 %", "none"]);
        assert_eq!([seed_percent(&share("20.25")), whole_percent(&share("33.5"))], ["20.3 %", "34"]);
    }

    #[test]
    fn times_are_in_hours_and_minutes() {
        let time = |minutes: i64| Duration::from_unit(&Exact::from(minutes), TimeUnit::Minute);
        let shown = [0, 50, 120, 800].map(|minutes| hours_and_minutes(&time(minutes)));
        assert_eq!(shown, ["no time", "50 min", "2 h", "13 h 20 min"]);
    }

    #[test]
    fn temperatures_are_for_either_thermometer() {
        let at =
            |tenths| Temperature::from_unit(&Exact::ratio(tenths, 10).unwrap(), TemperatureUnit::Celsius);
        assert_eq!([degrees(&at(210)), degrees(&at(245))], ["21 °C", "24.5 °C"]);
        assert_eq!(both_degrees(&at(240)), "24 °C (75 °F)");
        assert_eq!(degrees_cell(&at(40)), "4.0 °C");
        let rise = TemperatureDifference::from_unit(&Exact::ratio(9, 2).unwrap(), TemperatureUnit::Celsius);
        assert_eq!(degrees_between(&rise), "4.5 °C");
    }

    #[test]
    fn weights_of_one_unit() {
        assert_eq!([kilograms_cell(&mass("12500")), kilograms(&mass("12500"))], ["12.500", "12.5 kg"]);
        assert_eq!(
            [hundredths_of_grams(&mass("609.756")), hundredths_of_grams(&mass("7"))],
            ["609.76", "7.00"]
        );
        assert_eq!(trimmed_grams(Weight::from_grams("6.60".parse().unwrap())), "6.6");
        assert_eq!(weight(&to_a_milligram(&mass("0.12345"))), "0.123 g");
    }

    #[test]
    fn a_sum_of_weights_is_shown_as_finely_as_it_is() {
        let shown = |grams: &str| {
            let sum = Weight::from_grams(grams.parse().unwrap());
            with_unit(&sum, &finest(sum))
        };
        assert_eq!(
            [shown("999"), shown("6.6"), shown("6607"), shown("6607.3")],
            ["999 g", "6.6 g", "6.607 kg", "6.6073 kg"]
        );
    }
}
