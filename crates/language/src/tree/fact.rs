//! What the facts of a section say: how much of what, for how long and how warm.

use levamen_quantity::{
    Duration, Exact, Mass, MassUnit, Temperature, TemperatureUnit, TimeUnit, Volume, VolumeUnit,
};

use crate::{Name, Span};

/// A number with a unit of mass, as it is written.
#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    /// The mass.
    pub mass: Mass,
    /// The number as written.
    pub figure: Exact,
    /// The unit as written.
    pub unit: MassUnit,
    /// Where it is.
    pub span: Span,
}

/// How much of something.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount<'t> {
    /// How much.
    pub kind: AmountKind<'t>,
    /// Where it is.
    pub span: Span,
}

/// The ways to say how much.
#[derive(Debug, Clone, PartialEq)]
pub enum AmountKind<'t> {
    /// `18 %`, `18 % of the flour`, `50 % of its rye flour`
    Percent {
        /// The percentage, above zero.
        percent: Exact,
        /// What it is a percentage of; `None` where the section says it.
        of: Option<Basis<'t>>,
    },
    /// `4.2 kg`, also `2 kg of flour` after `takes`
    Mass(Quantity),
    /// `500 ml`
    Volume {
        /// The volume.
        volume: Volume,
        /// The number as written.
        figure: Exact,
        /// The unit as written.
        unit: VolumeUnit,
    },
    /// `rest`: not stated here, found by the balance.
    Rest,
}

/// What a percentage is a percentage of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Basis<'t> {
    /// `the` for the whole dough, `its` for the stage alone.
    pub reach: BasisScope,
    /// `flour`, `dough` or the name of an ingredient; `water` after `its`.
    pub name: Name<'t>,
    /// Where the words are, from `of`.
    pub span: Span,
}

/// How far a basis reaches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BasisScope {
    /// `of the …`: in the whole dough.
    Dough,
    /// `of its …`: in this stage.
    Stage,
}

/// `NAME AMOUNT`, in a stage also `NAME AMOUNT, WORDS`
#[derive(Debug, Clone, PartialEq)]
pub struct Weigh<'t> {
    /// What is weighed.
    pub name: Name<'t>,
    /// How much.
    pub amount: Amount<'t>,
    /// When it goes in, in the baker's words: `water 8 %, after the autolyse`.
    pub when: Option<Name<'t>>,
}

/// `from SOURCE AMOUNT, given back`
#[derive(Debug, Clone, PartialEq)]
pub struct From<'t> {
    /// A culture or a dough.
    pub source: SeedSource<'t>,
    /// How much; `None` where the stage is nothing else.
    pub amount: Option<Amount<'t>>,
    /// Whether the seed stays in the dough.
    pub seed: Option<(SeedFate, Span)>,
}

/// Where a seed or a piece of old dough comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeedSource<'t> {
    /// A culture or a dough of the book.
    Named(Name<'t>),
    /// `this dough`: a piece of the same dough's last batch.
    ThisDough(Span),
}

/// What becomes of a seed. Both are in print: see `docs/method.md`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeedFate {
    /// `stays`: its flour and water count in the whole.
    Stays,
    /// `given back`: the same weight of ripe culture is kept for the next seed before mixing.
    GivenBack,
}

/// `make …`: how much to bake.
#[derive(Debug, Clone, PartialEq)]
pub struct Make {
    /// How much.
    pub size: MakeSize,
    /// `losing 2 %`: the share of the dough lost in mixing and dividing, in percent.
    pub loss: Option<(Exact, Span)>,
}

/// The ways to say how much to bake.
#[derive(Debug, Clone, PartialEq)]
pub enum MakeSize {
    /// `24 pieces of 920 g`
    Pieces {
        /// How many; whole and above zero.
        count: Exact,
        /// Where the number is.
        span: Span,
        /// What one weighs before baking.
        piece: Quantity,
    },
    /// `20 kg of dough`: what is mixed
    Dough(Quantity),
    /// `20 kg to divide`: what is left of the dough after the loss
    ToDivide(Quantity),
    /// `10 kg of flour`
    Flour(Quantity),
}

/// `ripens 12 to 16 h at 21 °C`
#[derive(Debug, Clone, PartialEq)]
pub struct Ripens {
    /// The least time.
    pub least: Duration,
    /// The number as written.
    pub least_figure: Exact,
    /// The most time and the number as written, where a span is given.
    pub most: Option<(Duration, Exact)>,
    /// The unit of both as written.
    pub unit: TimeUnit,
    /// At which temperature, and how it is written.
    pub temperature: Option<(Temperature, Exact, TemperatureUnit)>,
    /// Where the time is.
    pub span: Span,
}

/// `holds 76.15 % water`
#[derive(Debug, Clone, PartialEq)]
pub struct Holds {
    /// The percentage by weight; zero is allowed.
    pub percent: Exact,
    /// Of what.
    pub part: IngredientPart,
    /// Where the amount and the part are.
    pub span: Span,
}

/// Whether an ingredient is a food in which germs grow or toxins form where it is neither cold nor hot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Spoils {
    /// As it is: `spoils`.
    Always,
    /// From the hour in which it meets water: `spoils when wet`.
    WhenWet,
    /// It does not: `keeps`.
    Never,
}

/// What an ingredient may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum IngredientPart {
    /// Water.
    Water,
    /// Fat.
    Fat,
    /// Sugars.
    Sugar,
    /// Salt.
    Salt,
}

impl IngredientPart {
    /// All parts, in the order in which they are written.
    pub const ALL: [Self; 4] = [Self::Water, Self::Fat, Self::Sugar, Self::Salt];

    /// The part's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::Fat => "fat",
            Self::Sugar => "sugar",
            Self::Salt => "salt",
        }
    }
}

/// `density 1.03 kg/l`
#[derive(Debug, Clone, PartialEq)]
pub struct DensityFact {
    /// The number as written, in kilograms a litre.
    pub figure: Exact,
    /// Where it is.
    pub span: Span,
}
