//! Who ferments, and how fast at which temperature: the table of parameters with its sources, and the models.

/// What makes a pre-ferment ripe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Organism {
    /// The acid bacteria of a sourdough culture.
    Bacteria,
    /// The yeasts of a sourdough culture.
    Yeasts,
    /// Baker's yeast, by how it grows.
    BakersYeast,
    /// Baker's yeast, by the gas that it gives off.
    YeastGas,
}

/// What is known of an organism, and who says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    /// The organism.
    pub organism: Organism,
    /// Its three temperatures.
    pub cardinal: Cardinal,
    /// Temperatures with the part of the fastest rate that the source gives them, coldest first: the rate goes through them.
    /// Without any, it is that of the three temperatures.
    pub points: &'static [(f64, f64)],
    /// Where the figures come from.
    pub source: &'static str,
}

const GAENZLE: &str = "M. Gänzle, letter in the rec.food.sourdough FAQ, section 39 (1998), summing up Gänzle, Ehmann, \
    Hammes, Applied and Environmental Microbiology 64 (1998) 2616-2623";

/// A degree more speeds yeast by about a tenth, and it works fastest from 32 to 40 °C.
const GAS: &str = "\"The science of fermentation\", bake magazine, article 836";

/// The parameters of every organism.
pub const GROWTH: [Growth; 4] = [
    Growth {
        organism: Organism::Bacteria,
        // The source gives the best as 32 to 33 °C.
        cardinal: Cardinal { least: 4.0, best: 32.5, most: 41.0 },
        points: &[(15.0, 0.25), (20.0, 0.5), (32.5, 1.0), (37.0, 0.5), (39.0, 0.25)],
        source: GAENZLE,
    },
    Growth {
        organism: Organism::Yeasts,
        cardinal: Cardinal { least: 8.0, best: 28.0, most: 35.0 },
        points: &[(14.0, 0.25), (20.0, 0.5), (28.0, 1.0), (32.0, 0.5), (34.0, 0.25)],
        source: GAENZLE,
    },
    Growth {
        organism: Organism::BakersYeast,
        // The source gives the least for the genus, 1.3 to 4.3 °C; the middle is taken.
        cardinal: Cardinal { least: 2.8, best: 32.3, most: 45.4 },
        points: &[],
        source: "Z. Salvadó and others, Applied and Environmental Microbiology 77 (2011) 2292-2302, abstract",
    },
    Growth {
        organism: Organism::YeastGas,
        // Where it begins and ends is taken from its growth: the source names neither.
        cardinal: Cardinal { least: 2.8, best: 32.0, most: 45.4 },
        // 1 / 1.1 to the power of 17 degrees.
        points: &[(15.0, 0.197_845), (32.0, 1.0), (40.0, 1.0)],
        source: GAS,
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
            Self::YeastGas => "gas of baker's yeast",
        }
    }

    /// Its row of the table of parameters.
    #[must_use]
    pub const fn growth(self) -> &'static Growth {
        let [bacteria, yeasts, bakers_yeast, gas] = &GROWTH;
        match self {
            Self::Bacteria => bacteria,
            Self::Yeasts => yeasts,
            Self::BakersYeast => bakers_yeast,
            Self::YeastGas => gas,
        }
    }

    /// Its growth rate at a temperature in degrees Celsius, as a part of its fastest.
    pub(crate) fn rate(self, celsius: f64) -> f64 {
        self.growth().rate(celsius)
    }
}

impl Growth {
    /// The growth rate at a temperature in degrees Celsius, as a part of the fastest: 0 to 1.
    #[must_use]
    pub fn rate(&self, celsius: f64) -> f64 {
        if self.points.is_empty() {
            return self.cardinal.rate(celsius);
        }
        printed_rate(self.points, self.cardinal.least, self.cardinal.most, celsius)
    }

    /// The coldest and the warmest temperature of which the source gives a rate, in degrees Celsius; without any printed
    /// rates, where growth begins and ends.
    #[must_use]
    pub fn printed(&self) -> (f64, f64) {
        match (self.points.first(), self.points.last()) {
            (Some((coldest, _)), Some((warmest, _))) => (*coldest, *warmest),
            _ => (self.cardinal.least, self.cardinal.most),
        }
    }

    /// The temperature at or under the best at which growth has a rate between 0 and 1, in degrees Celsius.
    ///
    /// Over the best there is a second one; a baker who slows a ferment does so by cold.
    #[must_use]
    pub fn celsius_of(&self, rate: f64) -> Option<f64> {
        if !(0.0..=1.0).contains(&rate) {
            return None;
        }
        let (mut cold, mut warm) = (self.cardinal.least, self.cardinal.best);
        // The rate rises all the way, so halving finds it; sixty halvings use up a float's digits.
        for _ in 0..60 {
            let middle = f64::midpoint(cold, warm);
            if self.rate(middle) < rate { cold = middle } else { warm = middle }
        }
        Some(f64::midpoint(cold, warm))
    }
}

/// The three temperatures of an organism, in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cardinal {
    /// Under this nothing grows.
    pub least: f64,
    /// Here growth is fastest.
    pub best: f64,
    /// Over this nothing grows.
    pub most: f64,
}

impl Cardinal {
    /// The growth rate at a temperature in degrees Celsius, as a part of the fastest: 0 to 1.
    #[must_use]
    pub fn rate(&self, celsius: f64) -> f64 {
        let Self { least, best, most } = *self;
        // Also what is no number does not grow.
        if !(celsius > least && celsius < most) {
            return 0.0;
        }
        let rising = best - least;
        let bend = rising * (celsius - best) - (best - most) * (best + least - 2.0 * celsius);
        (celsius - most) * (celsius - least).powi(2) / (rising * bend)
    }
}

/// The rate at a temperature in degrees Celsius, as a part of the fastest.
///
/// `points` are temperatures with their rates, coldest first; at `least` and `most` the rate is nothing.
pub(crate) fn printed_rate(points: &[(f64, f64)], least: f64, most: f64, celsius: f64) -> f64 {
    let after = points.partition_point(|(at, _)| *at <= celsius);
    let before = after.checked_sub(1).and_then(|index| points.get(index));
    match (before, points.get(after)) {
        (Some((cold, slow)), Some((warm, quick))) => {
            slow * (quick / slow).powf((celsius - cold) / (warm - cold))
        }
        (None, Some((first, slow))) => slow * ((celsius - least) / (first - least)).max(0.0),
        (Some((last, slow)), None) => slow * ((most - celsius) / (most - last)).clamp(0.0, 1.0),
        (None, None) => 0.0,
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
            assert!(row.points.windows(2).all(|two| two[0].0 < two[1].0));
        }
    }

    #[test]
    fn the_temperature_of_a_rate_is_under_the_best() {
        for row in &GROWTH {
            for celsius in [9.0, 12.0, 21.0, 27.0] {
                assert!((row.celsius_of(row.rate(celsius)).unwrap() - celsius).abs() < 1e-9, "{row:?}");
            }
            assert_eq!(row.celsius_of(1.01), None);
        }
    }

    const YEAST: Cardinal = Cardinal { least: 2.8, best: 32.3, most: 45.4 };

    #[test]
    fn full_speed_at_the_best_and_none_at_the_ends() {
        assert!((YEAST.rate(32.3) - 1.0).abs() < 1e-12);
        for still in [-10.0, 2.8, 45.4, 60.0, f64::NAN, f64::INFINITY] {
            assert!(YEAST.rate(still).abs() < 1e-12, "{still}");
        }
    }

    #[test]
    fn a_published_table_of_the_formula() {
        // The values that the documentation of the R package macrogrow prints for its `T_lim`, with 5, 20 and 30 °C.
        let seaweed = Cardinal { least: 5.0, best: 20.0, most: 30.0 };
        for (celsius, rate) in [(6.0, 0.02), (10.0, 0.333_333_33), (22.0, 0.963_333_3), (29.0, 0.196_923_08)]
        {
            assert!((seaweed.rate(celsius) - rate).abs() < 1e-6, "{celsius}");
        }
    }

    const POINTS: [(f64, f64); 3] = [(14.0, 0.25), (20.0, 0.5), (28.0, 1.0)];

    #[test]
    fn every_printed_rate_is_met_and_times_change_by_a_factor_between() {
        for (celsius, printed) in POINTS {
            assert!((printed_rate(&POINTS, 8.0, 35.0, celsius) - printed).abs() < 1e-12);
        }
        let middle = printed_rate(&POINTS, 8.0, 35.0, 17.0);
        assert!((middle * middle - 0.25 * 0.5).abs() < 1e-12, "{middle}");
    }

    #[test]
    fn outside_it_falls_to_nothing() {
        for still in [-300.0, 8.0, 35.0, 1e9, f64::NAN] {
            assert!(printed_rate(&POINTS, 8.0, 35.0, still).abs() < 1e-12, "{still}");
        }
        assert!((printed_rate(&POINTS, 8.0, 35.0, 11.0) - 0.125).abs() < 1e-12);
        assert!(printed_rate(&[], 8.0, 35.0, 20.0).abs() < 1e-12);
    }
}
