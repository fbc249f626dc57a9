//! Who ferments, and at which temperatures: the table of parameters with its sources.

use crate::cardinal::Cardinal;

/// What makes a pre-ferment ripe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Organism {
    /// The acid bacteria of a sourdough culture.
    Bacteria,
    /// The yeasts of a sourdough culture.
    Yeasts,
    /// Baker's yeast.
    BakersYeast,
}

/// What is known of an organism, and who says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    /// The organism.
    pub organism: Organism,
    /// Its three temperatures.
    pub cardinal: Cardinal,
    /// Temperatures with the part of the fastest rate that the source gives them, to hold the model against.
    pub points: &'static [(f64, f64)],
    /// Where the figures come from.
    pub source: &'static str,
}

const GAENZLE: &str = "M. Gänzle, letter in the rec.food.sourdough FAQ, section 39 (1998), summing up Gänzle, Ehmann, \
    Hammes, Applied and Environmental Microbiology 64 (1998) 2616-2623";

/// The parameters of every organism.
pub const GROWTH: [Growth; 3] = [
    Growth {
        organism: Organism::Bacteria,
        // The source gives the best as 32 to 33 °C.
        cardinal: Cardinal { least: 4.0, best: 32.5, most: 41.0 },
        points: &[(15.0, 0.25), (20.0, 0.5), (37.0, 0.5), (39.0, 0.25)],
        source: GAENZLE,
    },
    Growth {
        organism: Organism::Yeasts,
        cardinal: Cardinal { least: 8.0, best: 28.0, most: 35.0 },
        points: &[(14.0, 0.25), (20.0, 0.5), (32.0, 0.5), (34.0, 0.25)],
        source: GAENZLE,
    },
    Growth {
        organism: Organism::BakersYeast,
        // The source gives the least for the genus, 1.3 to 4.3 °C; the middle is taken.
        cardinal: Cardinal { least: 2.8, best: 32.3, most: 45.4 },
        points: &[],
        source: "Z. Salvadó and others, Applied and Environmental Microbiology 77 (2011) 2292-2302, abstract",
    },
];

impl Organism {
    /// What it is called, in the baker's words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bacteria => "bacteria",
            Self::Yeasts => "yeasts",
            Self::BakersYeast => "baker's yeast",
        }
    }

    /// Its row of the table of parameters.
    #[must_use]
    pub const fn growth(self) -> &'static Growth {
        let [bacteria, yeasts, bakers_yeast] = &GROWTH;
        match self {
            Self::Bacteria => bacteria,
            Self::Yeasts => yeasts,
            Self::BakersYeast => bakers_yeast,
        }
    }

    /// Its growth rate at a temperature in degrees Celsius, as a part of its fastest.
    pub(crate) fn rate(self, celsius: f64) -> f64 {
        self.growth().cardinal.rate(celsius)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_organism_has_its_own_row() {
        for row in &GROWTH {
            assert_eq!(row.organism.growth(), row);
            let Cardinal { least, best, most } = row.cardinal;
            assert!(least < best && best < most);
        }
    }
}
