//! The figures of a balanced dough.
//!
//! A balanced dough is a direction without a length: every weight is here as a [`Share`] of the dough's whole
//! flour. A [`Batch`] gives it a length; scaling is one multiplication a figure, never a new balance.

use levamen_formula::{FormulaId, IngredientId, Ripening, Role, StageKind};
use levamen_language::SeedFate;
use levamen_quantity::{Duration, Exact, Mass, Share};

/// A dough whose every figure is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// The dough's name.
    pub dough: String,
    /// The whole dough, ingredient by ingredient: every stage's flour, water and salt counted once.
    pub overall: Vec<BalancedRow>,
    /// The stages in the order in which they are made; the final dough is the last.
    pub stages: Vec<BalancedStage>,
    /// Whether it is a dough or a culture.
    pub role: Role,
    /// The weight of the dough.
    pub weight: Share,
    /// Added water.
    pub hydration: Share,
    /// Added water and the water inside other ingredients; flour's own moisture is by convention not counted.
    pub effective_hydration: Share,
    /// Salt, that inside other ingredients included.
    pub salt: Share,
    /// Flour that ferments ahead of the final dough.
    pub prefermented_flour: Share,
    /// How much to bake, as the text of the dough says.
    pub size: StatedSize,
    /// What the baker noted for the whole dough.
    pub notes: Vec<String>,
    /// How long the final dough stands from mixing to the oven, at most, where a bakery's cards say it.
    pub standing_time: Option<Duration>,
}

/// One ingredient of the whole dough.
#[derive(Debug, Clone, PartialEq)]
pub struct BalancedRow {
    /// Which ingredient.
    pub ingredient: IngredientId,
    /// Its name as the dough writes it.
    pub name: String,
    /// Whether it counts as flour.
    pub is_flour: bool,
    /// Its weight in the dough.
    pub share: Share,
}

/// One stage: what goes into the tub, and what becomes of it.
///
/// `made + steam` is the sum of the lines; `taken + left_over + given_back` is `made`.
#[derive(Debug, Clone, PartialEq)]
pub struct BalancedStage {
    /// What the dough calls it.
    pub name: String,
    /// What it does.
    pub kind: StageKind,
    /// What is weighed into it, in the order of the text.
    pub lines: Vec<BalancedLine>,
    /// The flour weighed into it as such: what the stage's own percentages are percentages of.
    pub own_flour: Share,
    /// The flour weighed into it, that of seeds and pieces of dough which stay in the dough included; flour of
    /// other stages that it takes in is counted there.
    pub flour: Share,
    /// The added water weighed into it, counted like `flour`, less what goes off as steam.
    pub water: Share,
    /// Water to flour of all that is in it, other stages included; `None` without flour.
    pub hydration: Option<Share>,
    /// The flour that the dough gets through this stage, where it ferments.
    pub prefermented_flour: Share,
    /// What is in the tub when it is made.
    pub made: Share,
    /// What goes off as steam.
    pub steam: Share,
    /// What is kept for the next seed before mixing.
    pub given_back: Share,
    /// What is made and not taken.
    pub left_over: Share,
    /// What goes on into other stages.
    pub taken: Share,
    /// How long it ripens.
    pub ripens: Option<Ripening>,
    /// What the baker noted.
    pub notes: Vec<String>,
}

/// One thing weighed into a stage.
#[derive(Debug, Clone, PartialEq)]
pub struct BalancedLine {
    /// Its name as the dough writes it.
    pub name: String,
    /// What it is.
    pub item: BalancedItem,
    /// The culture that a seed is of, or the dough that a piece is of; `None` for a piece of this dough's own last
    /// batch, and for all else.
    pub from: Option<FormulaId>,
    /// What is weighed.
    pub share: Share,
    /// The foods in it that spoil: the ingredient itself, or what a seed or a piece of dough brings along; of another
    /// stage none, for that stage has them.
    pub spoiling: Vec<Spoiling>,
    /// When it goes in, in the baker's words; `None` where nothing says so.
    pub when: Option<String>,
}

impl BalancedLine {
    /// Whether it is a piece of the dough's own last batch.
    #[must_use]
    pub fn is_of_last_batch(&self) -> bool {
        self.item == BalancedItem::Piece && self.from.is_none()
    }
}

/// A food that spoils.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spoiling {
    /// Its name.
    pub name: String,
    /// Whether it spoils from when it is wet, and not before.
    pub when_wet: bool,
}

/// What a line weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BalancedItem {
    /// An ingredient.
    Ingredient {
        /// Which.
        id: IngredientId,
        /// Whether it counts as flour.
        is_flour: bool,
        /// Whether it is water and nothing else.
        is_water: bool,
    },
    /// Seed of a culture, and what becomes of it.
    Seed(SeedFate),
    /// A piece of another dough, or of this dough's last batch.
    Piece,
    /// Another stage of this dough: its index in [`Balance::stages`].
    Stage(usize),
}

/// How much the text of a dough says to bake.
#[derive(Debug, Clone, PartialEq)]
pub enum StatedSize {
    /// Nothing says how much: figures are shown for 1 kg of flour.
    Open,
    /// The weights in the text.
    Weights {
        /// The dough's whole flour.
        flour: Mass,
    },
    /// A `make` line.
    Make {
        /// The dough's whole flour.
        flour: Mass,
        /// How many pieces of which weight before baking.
        pieces: Option<(u64, Mass)>,
        /// The share of the dough lost in mixing and dividing.
        loss: Share,
    },
}

impl StatedSize {
    /// The dough's whole flour: what the text says, or 1 kg.
    #[must_use]
    pub fn flour(&self) -> Mass {
        match self {
            Self::Open => Mass::from_grams(Exact::from(1000)),
            Self::Weights { flour } | Self::Make { flour, .. } => flour.clone(),
        }
    }
}

impl Balance {
    /// Dough yield (Teigausbeute), 100 + hydration: common practice in German baking.
    #[must_use]
    pub fn dough_yield(&self) -> Exact {
        &Exact::HUNDRED + &self.hydration.percent()
    }

    /// What it takes of its own last batch: what of this one is to be kept for the next.
    #[must_use]
    pub fn of_last_batch(&self) -> Share {
        let lines = self.stages.iter().flat_map(|stage| &stage.lines);
        let own = lines.filter(|line| line.is_of_last_batch());
        Share::from_fraction(own.map(|line| line.share.fraction()).sum::<Exact>())
    }

    /// The dough at the size that its text says.
    #[must_use]
    pub fn batch(&self) -> Batch<'_> {
        self.with_flour(self.size.flour())
    }

    /// The dough made from `flour` in all.
    #[must_use]
    pub fn with_flour(&self, flour: Mass) -> Batch<'_> {
        Batch { balance: self, flour }
    }

    /// The dough at the size where the figure `share` weighs `mass`; `None` where there is none of it.
    #[must_use]
    pub fn where_weighs(&self, share: &Share, mass: &Mass) -> Option<Batch<'_>> {
        let flour = mass.grams().checked_div(share.fraction())?;
        Some(self.with_flour(Mass::from_grams(flour)))
    }
}

impl BalancedStage {
    /// A line's weight as a share of the stage's own flour; `None` without flour.
    #[must_use]
    pub fn of_own_flour(&self, line: &BalancedLine) -> Option<Share> {
        self.on_own_flour(&line.share)
    }

    /// A share of the whole flour as one of the stage's own flour; `None` without flour.
    #[must_use]
    pub fn on_own_flour(&self, share: &Share) -> Option<Share> {
        share.fraction().checked_div(self.own_flour.fraction()).map(Share::from_fraction)
    }
}

/// A balanced dough at a size.
#[derive(Debug, Clone)]
pub struct Batch<'b> {
    balance: &'b Balance,
    flour: Mass,
}

impl<'b> Batch<'b> {
    /// The dough.
    #[must_use]
    pub fn balance(&self) -> &'b Balance {
        self.balance
    }

    /// The dough's whole flour.
    #[must_use]
    pub fn flour(&self) -> &Mass {
        &self.flour
    }

    /// What a share of the whole flour weighs in this batch.
    #[must_use]
    pub fn mass(&self, share: &Share) -> Mass {
        share.of(&self.flour)
    }

    /// The weight of every line of every stage, in order.
    pub fn weights(&self) -> impl Iterator<Item = Mass> + '_ {
        self.balance.stages.iter().flat_map(|stage| &stage.lines).map(|line| self.mass(&line.share))
    }
}
