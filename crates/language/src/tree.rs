//! The syntax tree: what each line of a text says, with its place.
//!
//! A text is a list of [`Line`]s. Each line stands for one fact, heading or comment and knows its depth, so the
//! list is the tree in reading order: a line's children are the deeper lines that follow it. Nothing of the
//! text is lost but spacing: names borrow from it, comments and empty lines are kept.

use levamen_quantity::{Duration, Exact, Mass, MassUnit, Temperature, TemperatureUnit, TimeUnit, Volume, VolumeUnit};

use crate::Span;

/// A parsed text.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tree<'t> {
    /// Every line of the text, in order.
    pub lines: Vec<Line<'t>>,
}

/// One line of a text.
#[derive(Debug, Clone, PartialEq)]
pub struct Line<'t> {
    /// The line without its indentation and its end.
    pub span: Span,
    /// How deep the line stands: 0 for `dough`, `culture` and the like and for a dough's sections, 1 for what
    /// stands under them, one more for each stage it is nested in.
    pub depth: u16,
    /// What the line says.
    pub statement: Statement<'t>,
    /// The comment that ends the line, from its `#`.
    pub comment: Option<Span>,
}

/// What a line says.
#[derive(Debug, Clone, PartialEq)]
pub enum Statement<'t> {
    /// An empty line.
    Empty,
    /// A line that is only a comment.
    Comment,
    /// A line that could not be read; the problem says why.
    Unread,

    // Headings at the left margin.
    /// `dough NAME`
    Dough(Name<'t>),
    /// `culture NAME`
    Culture(Name<'t>),
    /// `ingredient NAME`
    Ingredient(Name<'t>),
    /// `scale NAME`
    Scale(Name<'t>),

    // Sections of a dough.
    /// `overall`: percentages of the dough's whole flour.
    Overall,
    /// `stage NAME, a KIND`: something weighed apart.
    Stage(StageHeading<'t>),
    /// `final dough`
    FinalDough,
    /// `make 24 pieces of 920 g, losing 2 %`
    Make(Make),

    // Facts in a section.
    /// `NAME AMOUNT`: an ingredient, or another stage that is taken in.
    Weigh(Weigh<'t>),
    /// `from SOURCE AMOUNT`: seed of a culture, or a piece of a dough.
    From(From<'t>),
    /// `takes 18 % of the flour`: the flour that the dough gets through this stage.
    Takes(Amount<'t>),
    /// `weighs 6 kg`: the weight of the stage that goes into the dough.
    Weighs(Amount<'t>),
    /// `hydration 125 %`
    Hydration(Amount<'t>),
    /// `left over 2 %`: what is made and not taken.
    LeftOver(Amount<'t>),
    /// `loses 8 % of its water`: steam.
    Loses(Amount<'t>),
    /// `ripens 12 to 16 h at 21 °C`
    Ripens(Ripens),
    /// `note WORDS`
    Note(Name<'t>),

    // Facts of an ingredient.
    /// `flour`: the ingredient counts as flour.
    IsFlour,
    /// `holds 76.15 % water`: what an ingredient is made of.
    Holds(Holds),
    /// `density 1.03 kg/l`
    Density(DensityFact),
    /// `source WORDS`
    Source(Name<'t>),

    // Facts of a scale.
    /// `division 0.1 g`
    Division(Quantity),
    /// `capacity 500 g`
    Capacity(Quantity),
}

/// A name as it is written, without the space around it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Name<'t> {
    /// The words.
    pub text: &'t str,
    /// Where they stand.
    pub span: Span,
}

/// `stage NAME, a KIND`; a stage whose name is a kind needs no kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StageHeading<'t> {
    /// What the stage is called in this dough.
    pub name: Name<'t>,
    /// What it does.
    pub kind: Kind,
    /// Where the kind is written; `None` where the name says it.
    pub kind_span: Option<Span>,
}

/// What a stage does. Names of the trade (common practice).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A fluid yeasted pre-ferment.
    Poolish,
    /// A stiff yeasted pre-ferment.
    Biga,
    /// A yeasted pre-ferment between the two.
    Sponge,
    /// A sourdough build.
    Levain,
    /// A piece of finished dough, salt included.
    OldDough,
    /// A sourdough build of rye.
    RyeSour,
    /// A fluid yeasted start with little flour.
    Brew,
    /// Any other stage that ferments ahead.
    PreFerment,
    /// Grain or fruit that drinks water ahead; not fermented.
    Soaker,
    /// Flour or grain wetted with boiling water; not fermented.
    Scald,
    /// Flour and water that rest ahead of mixing; not fermented.
    Autolyse,
}

impl Kind {
    /// All kinds, in the order in which they are offered.
    pub const ALL: [Self; 11] = [
        Self::Poolish,
        Self::Biga,
        Self::Sponge,
        Self::Levain,
        Self::OldDough,
        Self::RyeSour,
        Self::Brew,
        Self::PreFerment,
        Self::Soaker,
        Self::Scald,
        Self::Autolyse,
    ];

    /// The kind's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Poolish => "poolish",
            Self::Biga => "biga",
            Self::Sponge => "sponge",
            Self::Levain => "levain",
            Self::OldDough => "old dough",
            Self::RyeSour => "rye sour",
            Self::Brew => "brew",
            Self::PreFerment => "pre-ferment",
            Self::Soaker => "soaker",
            Self::Scald => "scald",
            Self::Autolyse => "autolyse",
        }
    }

    /// Whether flour in such a stage counts as pre-fermented.
    #[must_use]
    pub const fn ferments(self) -> bool {
        !matches!(self, Self::Soaker | Self::Scald | Self::Autolyse)
    }
}

/// A number with a unit of mass, as it is written.
#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    /// The mass.
    pub mass: Mass,
    /// The number as written.
    pub figure: Exact,
    /// The unit as written.
    pub unit: MassUnit,
    /// Where it stands.
    pub span: Span,
}

/// How much of something.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount<'t> {
    /// How much.
    pub kind: AmountKind<'t>,
    /// Where it stands.
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
    pub reach: Reach,
    /// `flour`, `dough` or the name of an ingredient; `water` after `its`.
    pub name: Name<'t>,
    /// Where the words stand, from `of`.
    pub span: Span,
}

/// How far a basis reaches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// `of the …`: in the whole dough.
    Dough,
    /// `of its …`: in this stage.
    Stage,
}

/// `NAME AMOUNT`
#[derive(Debug, Clone, PartialEq)]
pub struct Weigh<'t> {
    /// What is weighed.
    pub name: Name<'t>,
    /// How much.
    pub amount: Amount<'t>,
}

/// `from SOURCE AMOUNT, given back`
#[derive(Debug, Clone, PartialEq)]
pub struct From<'t> {
    /// A culture or a dough.
    pub source: Origin<'t>,
    /// How much; `None` where the stage is nothing else.
    pub amount: Option<Amount<'t>>,
    /// Whether the seed stays in the dough.
    pub seed: Option<(SeedFate, Span)>,
}

/// Where a seed or a piece of old dough comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin<'t> {
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
    /// How much, before what is lost.
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
        /// Where the number stands.
        span: Span,
        /// What one weighs before baking.
        piece: Quantity,
    },
    /// `20 kg of dough`
    Dough(Quantity),
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
    /// Where the time stands.
    pub span: Span,
}

/// `holds 76.15 % water`
#[derive(Debug, Clone, PartialEq)]
pub struct Holds {
    /// The percentage by weight; zero is allowed.
    pub percent: Exact,
    /// Of what.
    pub part: Part,
    /// Where the amount and the part stand.
    pub span: Span,
}

/// What an ingredient may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// Water.
    Water,
    /// Fat.
    Fat,
    /// Sugars.
    Sugar,
    /// Salt.
    Salt,
}

impl Part {
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
    /// Where it stands.
    pub span: Span,
}
