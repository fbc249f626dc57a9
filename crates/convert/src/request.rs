//! What is asked of a conversion.

use levamen_language::AskedField;
use levamen_quantity::{Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};

use crate::target::{ConversionTarget, RaisedBy};

/// A wish for another pre-ferment. What is left out is chosen, and the conversion says how.
#[derive(Debug, Clone, PartialEq)]
pub struct ConversionRequest {
    /// What the pre-ferment becomes.
    pub target: ConversionTarget,
    /// Which pre-ferment is replaced, where the dough has several.
    pub stage: Option<String>,
    /// The flour that is pre-fermented, on all flour.
    pub share: Option<Share>,
    /// Water on flour of all that is in the pre-ferment.
    pub hydration: Option<Share>,
    /// Seed, on the flour that is weighed with it.
    pub seed: Option<Share>,
    /// Whether as much ripe levain as went in as seed is kept before mixing, so that the whole leaves the seed out;
    /// else it stays.
    pub given_back: bool,
    /// The culture that the seed comes from.
    pub culture: Option<String>,
    /// The flours of the pre-ferment, in the proportions in which the dough has them.
    pub flours: Vec<String>,
    /// Which yeast.
    pub yeast: Option<String>,
    /// Yeast on the pre-ferment's flour, instead of what the rule gives.
    pub dose: Option<Share>,
    /// How long it ripens.
    pub time: Option<RipeningTime>,
    /// How warm it ripens.
    pub warmth: Option<RipeningTemperature>,
    /// The new dough's name.
    pub name: Option<String>,
}

impl ConversionRequest {
    /// A wish for a target, and nothing else said.
    #[must_use]
    pub const fn new(target: ConversionTarget) -> Self {
        Self {
            target,
            stage: None,
            share: None,
            hydration: None,
            seed: None,
            given_back: false,
            culture: None,
            flours: Vec::new(),
            yeast: None,
            dose: None,
            time: None,
            warmth: None,
            name: None,
        }
    }
}

impl ConversionRequest {
    /// A field that was filled and has no meaning for the target.
    pub(crate) fn unneeded(&self) -> Option<AskedField> {
        let leaven = self.target.leaven();
        let is_straight = leaven.is_none();
        let is_seeded = leaven == Some(RaisedBy::Culture);
        let is_old = leaven == Some(RaisedBy::OwnDough);
        let given = [
            (AskedField::Share, self.share.is_some() && is_straight),
            (AskedField::Seed, self.seed.is_some() && !is_seeded),
            (AskedField::GivenBack, self.given_back && !is_seeded),
            (AskedField::Culture, self.culture.is_some() && !is_seeded),
            (AskedField::Hydration, self.hydration.is_some() && (is_old || is_straight)),
            (AskedField::Flour, !self.flours.is_empty() && (is_old || is_straight)),
            (AskedField::Yeast, self.dose.is_some() && leaven != Some(RaisedBy::Yeast)),
            (AskedField::Hours, self.time.is_some() && is_straight),
            (AskedField::RipensAt, self.warmth.is_some() && is_straight),
        ];
        given.into_iter().find(|(_, is_given)| *is_given).map(|(field, _)| field)
    }
}

/// A time as it is written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RipeningTime {
    /// The number.
    pub figure: Exact,
    /// Its unit.
    pub unit: TimeUnit,
}

impl RipeningTime {
    /// How long it is.
    #[must_use]
    pub fn duration(&self) -> Duration {
        Duration::from_unit(&self.figure, self.unit)
    }
}

/// A temperature as it is written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RipeningTemperature {
    /// The number.
    pub figure: Exact,
    /// Its unit.
    pub unit: TemperatureUnit,
}

impl RipeningTemperature {
    /// How warm it is.
    #[must_use]
    pub fn temperature(&self) -> Temperature {
        Temperature::from_unit(&self.figure, self.unit)
    }
}
