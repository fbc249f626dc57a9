//! The stages of a formula, and what is weighed into them.

use std::sync::Arc;

use levamen_language::{Kind, Place, SeedFate};
use levamen_quantity::{Duration, Exact, Mass, Share, Temperature, TimeUnit};
use rustc_hash::FxHashSet;

use crate::ingredient::IngredientId;

/// Which formula of a [`Book`](crate::Book).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FormulaId(pub u32);

/// Which stage of a [`Formula`](crate::Formula): an index into [`Formula::stages`](crate::Formula::stages).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct StageId(pub u32);

impl StageId {
    /// The stage's index in its formula.
    #[must_use]
    pub const fn index(self) -> usize {
        self.0 as usize
    }
}

/// What a stage is: something made ahead, or the final dough.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StageKind {
    /// Made ahead of the final dough.
    Ahead(Kind),
    /// What is mixed last; the other stages go into it.
    FinalDough,
}

impl StageKind {
    /// The kind's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ahead(kind) => kind.name(),
            Self::FinalDough => "final dough",
        }
    }

    /// Whether flour in such a stage counts as pre-fermented.
    #[must_use]
    pub const fn ferments(self) -> bool {
        matches!(self, Self::Ahead(kind) if kind.ferments())
    }
}

/// Something that is weighed into one tub.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// What the dough calls it.
    pub name: Arc<str>,
    /// Where its name is; of a final dough that is not written, the dough's name.
    pub place: Place,
    /// What it does.
    pub kind: StageKind,
    /// What is weighed into it.
    pub lines: Vec<WeighedLine>,
    /// The ingredients that go in at several times, each with a line for every one.
    pub split_ingredients: Vec<IngredientId>,
    /// The flour that the dough gets through it.
    pub takes: Option<ResolvedAmount>,
    /// The weight of it that goes on.
    pub weighs: Option<ResolvedAmount>,
    /// Added water to flour of all that is in it.
    pub hydration: Option<ResolvedAmount>,
    /// What is made and not taken.
    pub left_over: Option<LeftOver>,
    /// The share of its water that goes off as steam.
    pub steam: Option<(Share, Place)>,
    /// How long it ripens.
    pub ripens: Option<Ripening>,
    /// What the baker noted.
    pub notes: Vec<Arc<str>>,
    /// Whether it is a batch of its own, of which the dough takes a portion: it is made larger than what is
    /// taken, or taken in two places.
    pub separate: bool,
}

/// Something weighed.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedLine {
    /// Its name as it is written.
    pub name: Arc<str>,
    /// What it is.
    pub item: Item,
    /// How much; `None` where the text does not say.
    pub amount: Option<ResolvedAmount>,
    /// When it goes in, in the baker's words; `None` where nothing says so.
    pub when: Option<Arc<str>>,
    /// Where the line's words are.
    pub place: Place,
}

/// What a line weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Item {
    /// An ingredient of the pantry.
    Ingredient(IngredientId),
    /// Another stage of the same formula.
    Stage(StageId),
    /// Seed of a culture.
    Seed(FormulaId, SeedFate),
    /// A piece of another dough.
    Piece(FormulaId),
    /// A piece of the last batch of this dough.
    OwnPiece,
}

impl WeighedLine {
    /// Its name, and when it goes in where that is said: `water, after the autolyse`.
    #[must_use]
    pub fn full_name(&self) -> String {
        self.when.as_ref().map_or_else(|| self.name.to_string(), |when| format!("{}, {when}", self.name))
    }
}

impl Item {
    /// The ingredient that it is.
    #[must_use]
    pub const fn ingredient(self) -> Option<IngredientId> {
        match self {
            Self::Ingredient(id) => Some(id),
            _ => None,
        }
    }

    /// The stage that it is.
    #[must_use]
    pub const fn stage(self) -> Option<StageId> {
        match self {
            Self::Stage(id) => Some(id),
            _ => None,
        }
    }

    /// Whether it is a seed of which the same weight is given back: it leaves the totals.
    #[must_use]
    pub const fn is_given_back(self) -> bool {
        matches!(self, Self::Seed(_, SeedFate::GivenBack))
    }
}

/// How much, and where it is said.
#[derive(Debug, Clone, PartialEq)]
pub struct ResolvedAmount {
    /// How much.
    pub measure: Measure,
    /// Where the words are.
    pub place: Place,
}

/// The ways to say how much.
#[derive(Debug, Clone, PartialEq)]
pub enum Measure {
    /// A share of something.
    Share(Share, ResolvedBasis),
    /// A mass.
    Mass(Mass),
    /// Not stated: the balance finds it.
    Rest,
}

/// What a share is a share of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ResolvedBasis {
    /// The flour of the whole dough.
    Flour,
    /// The whole dough.
    Dough,
    /// One ingredient in the whole dough.
    Row(IngredientId),
    /// The flour weighed in the same stage.
    OwnFlour,
    /// One ingredient as it is weighed in the same stage.
    OwnCell(IngredientId),
}

/// What is made and not taken.
#[derive(Debug, Clone, PartialEq)]
pub enum LeftOver {
    /// A share of what is made: a loss in the tub.
    Share(Share, Place),
    /// A mass.
    Mass(Mass, Place),
    /// What the weights leave.
    Rest(Place),
}

impl LeftOver {
    /// Where it is said.
    #[must_use]
    pub const fn place(&self) -> Place {
        match self {
            Self::Share(_, place) | Self::Mass(_, place) | Self::Rest(place) => *place,
        }
    }
}

/// How long a stage ripens.
#[derive(Debug, Clone, PartialEq)]
pub struct Ripening {
    /// At least.
    pub least: Duration,
    /// At most, where a span is given.
    pub most: Option<Duration>,
    /// At which temperature.
    pub temperature: Option<Temperature>,
}

impl Ripening {
    /// Until when it is used: the most that is said; where one time is said, a quarter more, in whole minutes (our own
    /// choice: no source gives a rule, and a day needs some play).
    #[must_use]
    pub fn until(&self) -> Duration {
        if let Some(most) = &self.most {
            return most.clone();
        }
        let minutes = self.least.in_unit(TimeUnit::Minute);
        let longer = &minutes + &(&minutes / &Exact::from(4));
        // A time under four minutes keeps its own length.
        let whole = longer.floor();
        Duration::from_unit(if whole < minutes { &minutes } else { &whole }, TimeUnit::Minute)
    }
}

impl Stage {
    /// The ingredients that are weighed into it, each once.
    pub fn ingredients(&self) -> impl Iterator<Item = IngredientId> + '_ {
        let mut seen = FxHashSet::default();
        let ingredients = self.lines.iter().filter_map(|line| line.item.ingredient());
        ingredients.filter(move |id| !self.split_ingredients.contains(id) || seen.insert(*id))
    }

    /// The stages that it takes in.
    pub fn children(&self) -> impl Iterator<Item = StageId> + '_ {
        self.lines.iter().filter_map(|line| line.item.stage())
    }

    /// A stage of a kind with nothing in it yet.
    #[must_use]
    pub fn empty(name: Arc<str>, place: Place, kind: StageKind) -> Self {
        Self {
            name,
            place,
            kind,
            lines: Vec::new(),
            split_ingredients: Vec::new(),
            takes: None,
            weighs: None,
            hydration: None,
            left_over: None,
            steam: None,
            ripens: None,
            notes: Vec::new(),
            separate: false,
        }
    }
}
