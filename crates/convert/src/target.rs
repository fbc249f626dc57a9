//! What a dough can be turned into, and the figures that are used where none are asked for.

use levamen_language::nearest;
use levamen_quantity::{Exact, Share};

/// What the pre-ferment of a dough becomes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ConversionTarget {
    /// None: everything is mixed at once.
    Straight,
    /// A fluid yeasted pre-ferment.
    Poolish,
    /// A stiff yeasted pre-ferment.
    Biga,
    /// A yeasted pre-ferment between the two.
    Sponge,
    /// A fluid sourdough build.
    LiquidLevain,
    /// A stiff sourdough build.
    StiffLevain,
    /// A piece of the same dough's last batch.
    OldDough,
    /// A sourdough build of rye.
    RyeSour,
}

/// What makes a pre-ferment ripen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RaisedBy {
    /// Commercial yeast.
    Yeast,
    /// Seed of a culture.
    Culture,
    /// What the last batch of the dough brings.
    OwnDough,
}

/// A kind's usual figures: guidance, never enforced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UsualFigures {
    /// Water on flour, in percent; 0 where it is that of the dough.
    pub hydration: u32,
    /// Least and most of the flour that is pre-fermented, in percent: of all flour, for a rye sour of the rye flour.
    pub share: [u32; 2],
    /// Seed on the flour weighed with it, in percent.
    pub seed: u32,
    /// Hours of ripening.
    pub hours: u32,
    /// Degrees Celsius while it ripens.
    pub celsius: u32,
    /// Least and most water on flour in the book that the hydration is from, in percent.
    pub printed_hydration: [u32; 2],
    /// Least and most hours in the book that the hours are from.
    pub printed_hours: [u32; 2],
    /// Where the figures come from.
    pub source: &'static str,
}

/// Where hours and hydration of most kinds were seen. The guide has no temperatures.
const GUIDE: &str = "hydration and hours: within those of the French Culinary Institute, The Fundamental Techniques of \
                     Classic Bread Baking (guide to pre-ferments); the rest: handbooks, from memory";

/// The same of a stiff levain, whose usual 8 h at 25 °C with 50 % seed are from memory and not in the guide.
const STIFF: &str = "hydration and hours: within those of the French Culinary Institute, The Fundamental Techniques of \
                     Classic Bread Baking (guide to pre-ferments); share: handbooks, from memory; seed and \
                     temperature: about what the model of ripening makes of 50 % seed in 8 h at 25 °C, from memory, for these hours";

const TABLE: [(ConversionTarget, UsualFigures); 7] = [
    (
        ConversionTarget::Poolish,
        UsualFigures {
            hydration: 100,
            share: [20, 40],
            seed: 0,
            hours: 12,
            celsius: 21,
            printed_hydration: [100, 100],
            printed_hours: [12, 16],
            source: GUIDE,
        },
    ),
    (
        ConversionTarget::Biga,
        UsualFigures {
            hydration: 55,
            share: [20, 50],
            seed: 0,
            hours: 14,
            celsius: 17,
            printed_hydration: [50, 100],
            printed_hours: [12, 16],
            source: GUIDE,
        },
    ),
    (
        ConversionTarget::Sponge,
        UsualFigures {
            hydration: 62,
            share: [30, 70],
            seed: 0,
            hours: 5,
            celsius: 24,
            printed_hydration: [60, 63],
            printed_hours: [5, 24],
            source: "hydration and hours: within those of D. DiMuzio, Bread Baking: An Artisan's Perspective (2010), \
                     p. 69; the rest: handbooks, from memory",
        },
    ),
    (
        ConversionTarget::LiquidLevain,
        UsualFigures {
            hydration: 100,
            share: [10, 30],
            seed: 20,
            hours: 15,
            celsius: 21,
            printed_hydration: [50, 125],
            printed_hours: [14, 16],
            source: GUIDE,
        },
    ),
    (
        ConversionTarget::StiffLevain,
        UsualFigures {
            hydration: 55,
            share: [10, 30],
            seed: 30,
            hours: 15,
            celsius: 21,
            printed_hydration: [50, 125],
            printed_hours: [14, 16],
            source: STIFF,
        },
    ),
    (
        ConversionTarget::OldDough,
        UsualFigures {
            hydration: 0,
            share: [15, 30],
            seed: 0,
            hours: 24,
            celsius: 4,
            printed_hydration: [60, 75],
            printed_hours: [24, 24],
            source: GUIDE,
        },
    ),
    (
        ConversionTarget::RyeSour,
        UsualFigures {
            hydration: 80,
            share: [25, 35],
            seed: 10,
            hours: 15,
            celsius: 25,
            printed_hydration: [50, 100],
            printed_hours: [12, 16],
            source: "dough yield 180, a quarter to a third of the rye flour, 10 % seed at 24 to 26 °C: the German \
                     single-stage sour, as two trade pages give it",
        },
    ),
];

impl ConversionTarget {
    /// All targets, in the order in which they are offered.
    pub const ALL: [Self; 8] = [
        Self::Straight,
        Self::Poolish,
        Self::Biga,
        Self::Sponge,
        Self::LiquidLevain,
        Self::StiffLevain,
        Self::OldDough,
        Self::RyeSour,
    ];

    /// The trade's word for it; a new stage is called so.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Straight => "straight",
            Self::Poolish => "poolish",
            Self::Biga => "biga",
            Self::Sponge => "sponge",
            Self::LiquidLevain => "liquid levain",
            Self::StiffLevain => "stiff levain",
            Self::OldDough => "old dough",
            Self::RyeSour => "rye sour",
        }
    }

    /// The target that words name; capitals and the width of spaces do not matter.
    ///
    /// ```
    /// use levamen_convert::ConversionTarget;
    ///
    /// assert_eq!(ConversionTarget::read("Liquid  levain"), Ok(ConversionTarget::LiquidLevain));
    /// assert_eq!(ConversionTarget::read("polish"), Err(vec!["poolish"]));
    /// ```
    ///
    /// # Errors
    /// The nearest targets, where the words name none; a word of a name is near to it.
    pub fn read(words: &str) -> Result<Self, Vec<&'static str>> {
        let wanted = levamen_formula::key(words);
        if let Some(target) = Self::ALL.into_iter().find(|target| target.name() == wanted) {
            return Ok(target);
        }
        let names = || Self::ALL.into_iter().map(Self::name);
        let near = nearest(&wanted, names());
        let has_word = |name: &&str| name.split(' ').any(|word| word == wanted);
        Err(if near.is_empty() { names().filter(has_word).collect() } else { near })
    }

    /// What makes it ripen; `None` of no stage.
    #[must_use]
    pub const fn leaven(self) -> Option<RaisedBy> {
        match self {
            Self::Straight => None,
            Self::Poolish | Self::Biga | Self::Sponge => Some(RaisedBy::Yeast),
            Self::LiquidLevain | Self::StiffLevain | Self::RyeSour => Some(RaisedBy::Culture),
            Self::OldDough => Some(RaisedBy::OwnDough),
        }
    }

    /// Its usual figures; `None` of no stage.
    #[must_use]
    pub fn usual(self) -> Option<&'static UsualFigures> {
        TABLE.iter().find(|(target, _)| *target == self).map(|(_, usual)| usual)
    }
}

impl UsualFigures {
    /// The middle of the usual shares.
    #[must_use]
    pub fn middle(&self) -> Share {
        let [least, most] = self.share.map(Exact::from);
        Share::from_percent(&(&least + &most) / &Exact::from(2))
    }
}
