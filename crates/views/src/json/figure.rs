//! Figures as decimal strings, and their place in a schema.

use std::borrow::Cow;

use levamen_quantity::{
    Duration, Exact, Mass, Share, Temperature, TemperatureDifference, TemperatureUnit, TimeUnit, Volume,
};
use levamen_sheets::{Money, Weight};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Serialize};

/// A figure as a decimal string: exact where it is a finite decimal, and otherwise rounded once at the 28th
/// significant digit. A string, because a reader of JSON numbers may quietly round them to binary fractions.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct DecimalJson(String);

impl DecimalJson {
    /// The figure as it is written.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// A plain number.
    #[must_use]
    pub fn number(value: &Exact) -> Self {
        Self(value.to_decimal_string())
    }

    /// What a scale shows, in grams.
    #[must_use]
    pub fn weight(weight: Weight) -> Self {
        Self(weight.grams().to_string())
    }

    /// Money, without needless zeros.
    #[must_use]
    pub fn money(money: Money) -> Self {
        Self(money.amount().to_string())
    }

    /// An exact mass in grams.
    #[must_use]
    pub fn grams(mass: &Mass) -> Self {
        Self::number(mass.grams())
    }

    /// A share in percent.
    #[must_use]
    pub fn percent(share: &Share) -> Self {
        Self::number(&share.percent())
    }

    /// A time in minutes.
    #[must_use]
    pub fn minutes(time: &Duration) -> Self {
        Self::number(&time.in_unit(TimeUnit::Minute))
    }

    /// A temperature in degrees Celsius.
    #[must_use]
    pub fn celsius(at: &Temperature) -> Self {
        Self::number(&at.in_unit(TemperatureUnit::Celsius))
    }

    /// A difference of temperatures in kelvins.
    #[must_use]
    pub fn kelvins(difference: &TemperatureDifference) -> Self {
        Self::number(&difference.in_unit(TemperatureUnit::Celsius))
    }

    /// A volume in litres.
    #[must_use]
    pub fn litres(volume: &Volume) -> Self {
        Self::number(&(volume.millilitres() / &Exact::from(1000)))
    }
}

impl JsonSchema for DecimalJson {
    fn inline_schema() -> bool {
        false
    }

    fn schema_name() -> Cow<'static, str> {
        "Figure".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": "string",
            "pattern": "^-?[0-9]+(\\.[0-9]+)?$",
            "description": "A decimal number, exact where it is finite and otherwise rounded once at the 28th \
                            significant digit."
        })
    }
}

#[cfg(test)]
mod tests {
    use levamen_quantity::VolumeUnit;

    use super::*;

    #[test]
    fn figures_are_in_the_unit_of_their_field() {
        let half = Exact::ratio(1, 2).unwrap();
        let written = [
            DecimalJson::minutes(&Duration::from_unit(&half, TimeUnit::Hour)),
            DecimalJson::celsius(&Temperature::from_unit(&Exact::from(212), TemperatureUnit::Fahrenheit)),
            DecimalJson::kelvins(&TemperatureDifference::from_unit(&half, TemperatureUnit::Celsius)),
            DecimalJson::litres(&Volume::from_unit(half.clone(), VolumeUnit::Litre)),
            DecimalJson::percent(&Share::from_fraction(half.clone())),
            DecimalJson::grams(&Mass::from_grams(half)),
        ];
        assert_eq!(written.each_ref().map(DecimalJson::as_str), ["30", "100", "0.5", "0.5", "50", "0.5"]);
    }
}
