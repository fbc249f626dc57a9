//! Volume, in millilitres, and the density that turns it into mass.

use crate::{Exact, Mass};

/// A volume; exact, stored in millilitres.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Volume(Exact);

/// A unit of volume that a baker may write.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum VolumeUnit {
    /// `ml`
    Millilitre,
    /// `l`
    Litre,
}

impl VolumeUnit {
    /// All units, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::Millilitre, Self::Litre];

    /// How the unit is written.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millilitre => "ml",
            Self::Litre => "l",
        }
    }

    fn in_millilitres(self) -> Exact {
        match self {
            Self::Millilitre => Exact::ONE,
            Self::Litre => Exact::from(1000),
        }
    }
}

impl Volume {
    /// A volume in the unit it was written in.
    #[must_use]
    pub fn from_unit(figure: Exact, unit: VolumeUnit) -> Self {
        Self(figure * unit.in_millilitres())
    }

    /// The volume in millilitres.
    #[must_use]
    pub const fn millilitres(&self) -> &Exact {
        &self.0
    }

    /// The mass of this volume of something.
    #[must_use]
    pub fn weighs(&self, density: &Density) -> Mass {
        Mass::from_grams(&self.0 * &density.0)
    }
}

/// A density; exact, stored in grams per millilitre (kilograms per litre).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Density(Exact);

impl Density {
    /// A density from the mass of a volume.
    #[must_use]
    pub fn from_mass_of(mass: &Mass, volume: &Volume) -> Option<Self> {
        mass.grams().checked_div(&volume.0).map(Self)
    }

    /// The density in grams per millilitre.
    #[must_use]
    pub const fn grams_per_millilitre(&self) -> &Exact {
        &self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::MassUnit;

    #[test]
    fn a_litre_of_milk() {
        let cup = Volume::from_unit(Exact::from_literal("236.5882365").unwrap(), VolumeUnit::Millilitre);
        let milk = Density::from_mass_of(&Mass::from_unit(Exact::from(244), MassUnit::Gram), &cup).unwrap();
        let litre = Volume::from_unit(Exact::ONE, VolumeUnit::Litre).weighs(&milk);
        assert_eq!(litre.grams().to_fixed(1), "1031.3");
    }
}
