//! The balance of heats: what is warmer than the dough gives as much as what is colder takes.
//!
//! Everything is exact: masses and temperatures come in exact, and a specific heat is a decimal. So the heats add up
//! to nothing to the last digit, whatever their own accuracy.

use levamen_quantity::{Exact, Mass, Share, Temperature, TemperatureDifference, TemperatureUnit};

use crate::answer::FermentError;

const UNIT: TemperatureUnit = TemperatureUnit::Celsius;

/// A specific heat; exact, held in joules by the gram and kelvin, which is kJ/(kg K).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SpecificHeat(Exact);

/// Something that goes into the bowl.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeatPart {
    /// How much.
    pub mass: Mass,
    /// Its specific heat.
    pub heat: SpecificHeat,
    /// How warm it is.
    pub at: Temperature,
}

/// What a food is made of, as shares of its weight; what is left is counted as carbohydrate.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Constituents {
    /// Water.
    pub water: Share,
    /// Protein.
    pub protein: Share,
    /// Fat.
    pub fat: Share,
    /// Ash: minerals, salt among them.
    pub ash: Share,
}

/// Water at 15 to 25 °C, in hundredths: 4.18, Y. Çengel, M. Boles, *Thermodynamics*, 8th edition (2014).
pub const WATER_HEAT: i64 = 418;

/// Wheat flour of 12 to 13.5 % moisture, in hundredths: 1.80 to 1.88, the middle of it. C. Geankoplis, *Transport Processes
/// and Separation Process Principles*, 4th edition, appendix A.4-1. Measured, and lower than what its constituents give.
pub const FLOUR_HEAT: i64 = 184;

/// Constants of Y. Choi, M. Okos, "Effects of temperature and composition on the thermal properties of foods" (1986), in
/// 1e-10 kJ/(kg K): c = a + b T + c T² with T in °C, for water from 0 °C on. Those of water (some printings begin with 4.1289),
/// protein and carbohydrate were read in lecture notes; fat's second figure (there 1.4373) and those of ash are from memory.
const CHOI_OKOS: [[i64; 3]; 5] = [
    [41_762_000_000, -909_000, 54_731],
    [20_082_000_000, 12_089_000, -13_129],
    [19_842_000_000, 14_733_000, -48_008],
    [15_488_000_000, 19_625_000, -59_399],
    [10_926_000_000, 18_896_000, -36_817],
];

impl SpecificHeat {
    /// Hundredths of a kJ/(kg K).
    #[must_use]
    pub fn from_hundredths(hundredths: i64) -> Self {
        Self(&Exact::from(hundredths) / &Exact::HUNDRED)
    }

    /// The figure in kJ/(kg K).
    #[must_use]
    pub const fn kilojoules(&self) -> &Exact {
        &self.0
    }

    /// A mixture, by the weight of each part; zero of nothing.
    #[must_use]
    pub fn of_parts(parts: impl IntoIterator<Item = (Share, Self)>) -> Self {
        let (mut heat, mut weight) = (Exact::ZERO, Exact::ZERO);
        for (share, own) in parts {
            heat = &heat + &(share.fraction() * &own.0);
            weight = &weight + share.fraction();
        }
        Self(heat.checked_div(&weight).unwrap_or_default())
    }

    /// Flour with so much water to it: a pre-ferment.
    #[must_use]
    pub fn of_hydration(hydration: &Share) -> Self {
        Self::of_parts([(Share::WHOLE, Self::flour()), (hydration.clone(), Self::water())])
    }

    /// Water.
    #[must_use]
    pub fn water() -> Self {
        Self::from_hundredths(WATER_HEAT)
    }

    /// Flour.
    #[must_use]
    pub fn flour() -> Self {
        Self::from_hundredths(FLOUR_HEAT)
    }
}

impl Constituents {
    /// The specific heat at a temperature over freezing, by the weight of each constituent (Choi and Okos 1986).
    #[must_use]
    pub fn specific_heat(&self, at: &Temperature) -> SpecificHeat {
        let known = [&self.water, &self.protein, &self.fat, &self.ash];
        let rest = &Exact::ONE - &known.iter().map(|share| share.fraction()).sum::<Exact>();
        let shares =
            [self.water.fraction(), self.protein.fraction(), self.fat.fraction(), &rest, self.ash.fraction()];
        let warmth = at.in_unit(UNIT);
        let heat = shares
            .iter()
            .zip(CHOI_OKOS)
            .map(|(share, constants)| *share * &polynomial(constants, &warmth))
            .sum();
        SpecificHeat(heat)
    }
}

fn polynomial([constant, linear, square]: [i64; 3], warmth: &Exact) -> Exact {
    let sum = &Exact::from(constant) + &(&(&Exact::from(linear) + &(&Exact::from(square) * warmth)) * warmth);
    &sum / &Exact::from(10_000_000_000_i64)
}

impl HeatPart {
    /// Water of a temperature.
    #[must_use]
    pub fn water(mass: Mass, at: Temperature) -> Self {
        Self { mass, heat: SpecificHeat::water(), at }
    }

    /// Joules that a degree takes.
    fn capacity(&self) -> Exact {
        self.mass.grams() * &self.heat.0
    }

    /// Joules over what it holds at 0 °C.
    fn heat_over_zero(&self) -> Exact {
        &self.capacity() * &self.at.in_unit(UNIT)
    }
}

/// How warm the dough gets from its parts, and from a rise by mixing; `None` of nothing.
#[must_use]
pub fn mixed_temperature(parts: &[HeatPart], rise: &TemperatureDifference) -> Option<Temperature> {
    let heat: Exact = parts.iter().map(HeatPart::heat_over_zero).sum();
    let capacity: Exact = parts.iter().map(HeatPart::capacity).sum();
    let even = heat.checked_div(&capacity)?;
    Some(&Temperature::from_unit(&even, UNIT) + rise)
}

/// How much mixing, and the wetting of the flour, warmed a measured dough beyond its parts, its water among them; `None` of
/// nothing. Wet flour gives off some 15 kJ/kg (from memory), which is a part of it.
#[must_use]
pub fn rise(measured: &Temperature, parts: &[HeatPart]) -> Option<TemperatureDifference> {
    let still = TemperatureDifference::from_unit(&Exact::ZERO, UNIT);
    let before = mixed_temperature(parts, &still)?;
    Some(TemperatureDifference::from_unit(&(&measured.in_unit(UNIT) - &before.in_unit(UNIT)), UNIT))
}

/// How warm so much water has to be for a wanted dough, beside the other parts and a rise by mixing.
///
/// # Errors
/// There is no water.
pub fn water_by_heat(
    wanted: &Temperature,
    water: &Mass,
    others: &[HeatPart],
    rise: &TemperatureDifference,
) -> Result<Temperature, FermentError> {
    let before_mixing = &wanted.in_unit(UNIT) - &rise.in_unit(UNIT);
    let own = water.grams() * &SpecificHeat::water().0;
    let capacity = &own + &others.iter().map(HeatPart::capacity).sum::<Exact>();
    let given: Exact = others.iter().map(HeatPart::heat_over_zero).sum();
    let missing = &(&capacity * &before_mixing) - &given;
    missing.checked_div(&own).map(|water| Temperature::from_unit(&water, UNIT)).ok_or_else(|| {
        FermentError::new("no-water", "no water is mixed in, so water cannot set the dough's temperature")
            .help("cool or warm the flour or the milk instead")
    })
}
