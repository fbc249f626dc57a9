//! Units: how they are written, and how they are often miswritten.

use levamen_quantity::{MassUnit, TemperatureUnit, TimeUnit, VolumeUnit};

/// A unit that may follow a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Unit {
    Percent,
    Mass(MassUnit),
    Volume(VolumeUnit),
    Time(TimeUnit),
    Temperature(TemperatureUnit),
}

impl Unit {
    /// The symbols, in the order in which they are offered.
    pub(crate) const SYMBOLS: [&str; 11] = ["%", "g", "kg", "lb", "oz", "ml", "l", "h", "min", "°C", "°F"];

    /// The unit that a symbol stands for.
    pub(crate) fn from_symbol(symbol: &str) -> Option<Self> {
        Some(match symbol {
            "%" => Self::Percent,
            "g" => Self::Mass(MassUnit::Gram),
            "kg" => Self::Mass(MassUnit::Kilogram),
            "lb" => Self::Mass(MassUnit::Pound),
            "oz" => Self::Mass(MassUnit::Ounce),
            "ml" => Self::Volume(VolumeUnit::Millilitre),
            "l" => Self::Volume(VolumeUnit::Litre),
            "h" => Self::Time(TimeUnit::Hour),
            "min" => Self::Time(TimeUnit::Minute),
            "°C" => Self::Temperature(TemperatureUnit::Celsius),
            "°F" => Self::Temperature(TemperatureUnit::Fahrenheit),
            _ => return None,
        })
    }

    /// How the unit is written.
    pub(crate) const fn symbol(self) -> &'static str {
        match self {
            Self::Percent => "%",
            Self::Mass(unit) => unit.symbol(),
            Self::Volume(unit) => unit.symbol(),
            Self::Time(unit) => unit.symbol(),
            Self::Temperature(unit) => unit.symbol(),
        }
    }

    /// What the unit measures, in the baker's words.
    pub(crate) const fn measures(self) -> &'static str {
        match self {
            Self::Percent => "a percentage",
            Self::Mass(_) => "a weight",
            Self::Volume(_) => "a volume",
            Self::Time(_) => "a time",
            Self::Temperature(_) => "a temperature",
        }
    }
}

/// What to say of a word that is written for a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Advice {
    /// The unit is written otherwise.
    Write(&'static str),
    /// The measure is none for a bench: spoons and cups hold more or less each time.
    Weigh,
    /// Too coarse or too fine for a dough: give the figure in this unit.
    Convert(&'static str),
}

/// Words that people write for units, in lower case, and what to write instead.
const MISWRITTEN: [(&[&str], Advice); 17] = [
    (&["percent", "percents", "pct", "pc", "per"], Advice::Write("%")),
    (&["gr", "grs", "gm", "gms", "gram", "grams", "gramme", "grammes", "g.", "gr."], Advice::Write("g")),
    (&["kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kg."], Advice::Write("kg")),
    (&["lbs", "pound", "pounds", "lb.", "lbs."], Advice::Write("lb")),
    (&["ounce", "ounces", "ozs", "oz."], Advice::Write("oz")),
    (&["millilitre", "millilitres", "milliliter", "milliliters", "mls", "cc"], Advice::Write("ml")),
    (&["ltr", "ltrs", "lt", "litre", "litres", "liter", "liters", "l."], Advice::Write("l")),
    (&["hour", "hours", "hr", "hrs", "h."], Advice::Write("h")),
    (&["minute", "minutes", "mins", "min."], Advice::Write("min")),
    (&["c", "celsius", "centigrade", "deg", "degree", "degrees", "°"], Advice::Write("°C")),
    (&["f", "fahrenheit"], Advice::Write("°F")),
    (&["cup", "cups", "tbsp", "tbsps", "tablespoon", "tablespoons", "tsp", "tsps"], Advice::Weigh),
    (&["teaspoon", "teaspoons", "pinch", "pinches", "dash", "handful", "handfuls"], Advice::Weigh),
    (&["mg", "milligram", "milligrams", "dag"], Advice::Convert("g")),
    (&["t", "tonne", "tonnes", "ton", "tons"], Advice::Convert("kg")),
    (&["fl", "fl.", "floz", "fluid"], Advice::Convert("ml")),
    (&["dl", "cl", "hl", "pint", "pints", "quart", "quarts", "gallon", "gallons"], Advice::Convert("l")),
];

/// What to say of a word that is written where a unit should be; `None` where the word is likely no unit.
pub(crate) fn miswritten(word: &str) -> Option<Advice> {
    if word.len() > 12 {
        return None;
    }
    let is_it = |known: &&str| known.eq_ignore_ascii_case(word);
    let known = MISWRITTEN.iter().find(|(words, _)| words.iter().any(&is_it));
    let advice = known.map(|(_, advice)| *advice);
    advice.or_else(|| Unit::SYMBOLS.into_iter().find(is_it).map(Advice::Write))
}

/// A number with a unit, as it is in the text; the number is not judged yet.
#[derive(Debug, Clone, Copy)]
pub(crate) struct NumberWithUnit<'t> {
    /// The number.
    pub(crate) figure: &'t str,
    /// The unit.
    pub(crate) unit: Unit,
    /// Both.
    pub(crate) written: &'t str,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_symbol_stands_for_a_unit_that_is_written_so() {
        for symbol in Unit::SYMBOLS {
            assert_eq!(Unit::from_symbol(symbol).unwrap().symbol(), symbol);
        }
    }

    #[test]
    fn what_is_miswritten_is_no_symbol_and_its_advice_is_one() {
        for (words, advice) in MISWRITTEN {
            assert!(words.iter().all(|word| Unit::from_symbol(word).is_none()));
            match advice {
                Advice::Write(symbol) | Advice::Convert(symbol) => {
                    assert!(Unit::from_symbol(symbol).is_some());
                }
                Advice::Weigh => {}
            }
        }
        assert_eq!(miswritten("KG"), Some(Advice::Write("kg")));
        assert_eq!(miswritten("flour"), None);
    }
}
