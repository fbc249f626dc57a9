//! What a pre-ferment is started with, and how the amount of it changes the time.

use levamen_language::YeastKind;
use levamen_quantity::{Duration, Exact, Share};

use crate::answer::{FermentError, Remark, significant};
use crate::organism::Organism;
use crate::range;
use crate::yeast::{self, Strength};

/// What a pre-ferment is started with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Leaven {
    /// Ripe culture.
    Seed(Seed),
    /// Baker's yeast.
    Yeast(Yeast),
}

/// Ripe culture in fresh flour and water.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seed {
    /// The seed, as a share of the flour weighed beside it.
    pub of_flour: Share,
    /// All that is weighed beside it, as a share of the same flour: 200 % at 100 % hydration.
    pub beside: Share,
    /// Whether the bacteria say when it is ripe, as in a rye sour; else the yeasts do, as in a levain.
    pub sour: bool,
}

/// Baker's yeast in flour and water.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Yeast {
    /// What the baker calls it.
    pub name: String,
    /// How strong it is.
    pub strength: Strength,
    /// How much, as a share of the pre-ferment's own flour.
    pub of_flour: Share,
}

/// One model of how the amount of leaven changes the time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pace {
    pub(crate) name: &'static str,
    pub(crate) organism: Organism,
    /// Of yeast: the power of the time that the amount goes with.
    power: f64,
}

impl Seed {
    /// The seed's part of all that stands in the tub.
    pub(crate) fn part(&self) -> f64 {
        let seed = self.of_flour.fraction().to_f64();
        seed / (seed + self.beside.fraction().to_f64())
    }

    /// How often the seed doubles, in powers of e, until all is as ripe as it was.
    pub(crate) fn growth(&self) -> f64 {
        -self.part().ln()
    }
}

impl Leaven {
    /// The two models, the one to go by first.
    pub(crate) fn paces(&self) -> [Pace; 2] {
        let culture = |organism: Organism| Pace { name: organism.name(), organism, power: -1.0 };
        match self {
            Self::Seed(seed) if seed.sour => [culture(Organism::Bacteria), culture(Organism::Yeasts)],
            Self::Seed(_) => [culture(Organism::Yeasts), culture(Organism::Bacteria)],
            Self::Yeast(_) => {
                let growth = Pace {
                    name: "printed pre-ferments",
                    organism: Organism::BakersYeast,
                    power: yeast::rule().power,
                };
                // Half the yeast, twice the time, and a tenth faster with each degree.
                [growth, Pace { name: "rules of thumb", organism: Organism::YeastGas, power: -1.0 }]
            }
        }
    }

    /// Who says when it is ripe.
    pub(crate) const fn leading(&self) -> Organism {
        match self {
            Self::Seed(seed) if seed.sour => Organism::Bacteria,
            Self::Seed(_) => Organism::Yeasts,
            Self::Yeast(_) => Organism::BakersYeast,
        }
    }

    /// Its amount.
    #[must_use]
    pub const fn of_flour(&self) -> &Share {
        match self {
            Self::Seed(seed) => &seed.of_flour,
            Self::Yeast(yeast) => &yeast.of_flour,
        }
    }

    /// The same leaven in another amount.
    #[must_use]
    pub fn with(&self, of_flour: Share) -> Self {
        match self {
            Self::Seed(seed) => Self::Seed(Seed { of_flour, ..seed.clone() }),
            Self::Yeast(yeast) => Self::Yeast(Yeast { of_flour, ..yeast.clone() }),
        }
    }

    /// How many times as long as another amount of the same leaven this one takes, by one pace.
    pub(crate) fn times_as_long_as(&self, other: &Self, pace: Pace) -> f64 {
        match (self, other) {
            (Self::Seed(own), Self::Seed(other)) => own.growth() / other.growth(),
            (Self::Yeast(own), Self::Yeast(other)) => {
                (own.instant() / other.instant()).powf(pace.power.recip())
            }
            _ => f64::NAN,
        }
    }

    /// The amount that takes so many times as long as this one, by one pace; two digits.
    pub(crate) fn for_times(&self, times: f64, pace: Pace) -> Self {
        let percent = match self {
            Self::Seed(seed) => {
                let part = (-seed.growth() * times).exp();
                seed.beside.percent().to_f64() * part / (1.0 - part)
            }
            Self::Yeast(yeast) => yeast.of_flour.percent().to_f64() * times.powf(pace.power),
        };
        self.with(Share::from_percent(significant(percent, 2)))
    }

    /// Judges how long it ripens.
    pub(crate) fn usual_time(&self, long: &Duration) -> Result<Vec<Remark>, FermentError> {
        match self {
            Self::Yeast(_) => range::yeasted_time(long),
            Self::Seed(_) => range::some_time(long).map(|()| Vec::new()),
        }
    }

    /// Refuses an amount of which the models know nothing.
    pub(crate) fn check(&self) -> Result<(), FermentError> {
        match self {
            Self::Seed(seed) if seed.of_flour.fraction() <= &Exact::ZERO => {
                Err(FermentError::new("no-seed", "without seed nothing ripens")
                    .help("give a share, such as `10 %`"))
            }
            Self::Seed(seed) => range::seed_part(seed.part()),
            Self::Yeast(yeast) => range::yeast_percent(yeast.instant()),
        }
    }
}

impl Yeast {
    /// In percent of flour, as instant yeast.
    fn instant(&self) -> f64 {
        Strength::usual(YeastKind::Instant).for_share(&self.of_flour, &self.strength).percent().to_f64()
    }
}
