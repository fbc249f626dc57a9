//! A formula as the book means it: names are resolved, volumes weighed, and every percentage knows what it is a
//! percentage of.

use std::sync::Arc;

use levamen_language::{Place, SeedFate};
use levamen_quantity::{Duration, Mass, Share, Temperature};
use rustc_hash::FxHashSet;

use crate::facts::Figure;
use crate::kind::StageKind;
use crate::pantry::IngredientId;
use crate::want::Want;

/// Which formula of a [`Book`](crate::Book).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FormulaId(pub u32);

/// Which stage of a [`Formula`]: an index into [`Formula::stages`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct StageId(pub u32);

impl StageId {
    /// The stage's index in its formula.
    #[must_use]
    pub const fn index(self) -> usize {
        self.0 as usize
    }
}

/// A dough, a culture, or a part of a dough that is built apart from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Formula {
    /// Its name as it is written.
    pub name: Arc<str>,
    /// Where its name stands.
    pub place: Place,
    /// What it is.
    pub role: Role,
    /// The percentages of the whole, where the text states them.
    pub overall: Option<Overall>,
    /// Its stages; each stands after all those that it takes in, and the final dough stands last.
    pub stages: Vec<Stage>,
    /// How much to bake.
    pub make: Option<Make>,
    /// The share of the dough lost in mixing and dividing, whatever else says how much to bake.
    pub loss: Share,
    /// Figures that it must have.
    pub wants: Vec<Want>,
    /// Whether its weights count proportions alone and the wants say how much is made.
    pub is_resized: bool,
    /// What the baker noted for the whole.
    pub notes: Vec<Arc<str>>,
}

/// What a formula is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Something to bake.
    Dough,
    /// A culture that is kept; its formula is its feeding, which is its steady composition.
    Culture,
}

/// The `overall` section.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Overall {
    /// Where its heading stands.
    pub place: Place,
    /// The ingredients of the whole dough.
    pub lines: Vec<Line>,
    /// Added water to flour, where it is stated as such.
    pub hydration: Option<Amount>,
}

/// Something that is weighed into one tub.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// What the dough calls it.
    pub name: Arc<str>,
    /// Where its name stands; of a final dough that is not written, the dough's name.
    pub place: Place,
    /// What it does.
    pub kind: StageKind,
    /// What is weighed into it.
    pub lines: Vec<Line>,
    /// The ingredients that go in at several times, each with a line for every one.
    pub parted: Vec<IngredientId>,
    /// The flour that the dough gets through it.
    pub takes: Option<Amount>,
    /// The weight of it that goes on.
    pub weighs: Option<Amount>,
    /// Added water to flour of all that is in it.
    pub hydration: Option<Amount>,
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
    pub apart: bool,
}

/// Something weighed.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its name as it is written.
    pub name: Arc<str>,
    /// What it is.
    pub item: Item,
    /// How much; `None` where the text does not say.
    pub amount: Option<Amount>,
    /// When it goes in, in the baker's words; `None` where nothing says so.
    pub when: Option<Arc<str>>,
    /// Where the line's words stand.
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

impl Line {
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
pub struct Amount {
    /// How much.
    pub measure: Measure,
    /// Where the words stand.
    pub place: Place,
}

/// The ways to say how much.
#[derive(Debug, Clone, PartialEq)]
pub enum Measure {
    /// A share of something.
    Share(Share, Basis),
    /// A mass.
    Mass(Mass),
    /// Not stated: the balance finds it.
    Rest,
}

/// What a share is a share of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
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

/// How much to bake.
#[derive(Debug, Clone, PartialEq)]
pub struct Make {
    /// How much.
    pub size: MakeSize,
    /// Where it is said.
    pub place: Place,
}

/// The ways to say how much to bake.
#[derive(Debug, Clone, PartialEq)]
pub enum MakeSize {
    /// So many pieces of this weight before baking.
    Pieces(u64, Mass),
    /// So much dough, as it is mixed.
    Dough(Mass),
    /// So much dough to divide: what is left of it after the loss.
    ToDivide(Mass),
    /// Dough from so much flour.
    Flour(Mass),
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

impl Formula {
    /// The stages with their ids, in the order in which they are made.
    pub fn stages(&self) -> impl Iterator<Item = (StageId, &Stage)> {
        (0..).map(StageId).zip(&self.stages)
    }

    /// The stage with an id of this formula.
    #[must_use]
    pub fn stage(&self, id: StageId) -> Option<&Stage> {
        self.stages.get(id.index())
    }

    /// The final dough's id.
    #[must_use]
    pub fn final_dough(&self) -> StageId {
        StageId(u32::try_from(self.stages.len().saturating_sub(1)).unwrap_or(u32::MAX))
    }

    /// By stage: whether flour in it ferments ahead of the final dough. The stage does, or one that it goes into
    /// whole; of a batch built apart, a portion may go into a stage that ferments and another into one that does not.
    #[must_use]
    pub fn ferments(&self) -> Vec<bool> {
        let mut ferments: Vec<bool> = self.stages.iter().map(|stage| stage.kind.ferments()).collect();
        for (index, stage) in self.stages.iter().enumerate().rev() {
            if ferments.get(index) == Some(&true) {
                for child in stage.children() {
                    let is_apart = self.stage(child).is_some_and(|child| child.apart);
                    if let Some(slot) = ferments.get_mut(child.index()).filter(|_| !is_apart) {
                        *slot = true;
                    }
                }
            }
        }
        ferments
    }

    /// The formulas from which this one takes seeds and pieces of dough.
    pub fn sources(&self) -> impl Iterator<Item = (FormulaId, Place)> {
        self.stages.iter().flat_map(|stage| &stage.lines).filter_map(|line| match line.item {
            Item::Seed(source, _) | Item::Piece(source) => Some((source, line.place)),
            _ => None,
        })
    }
}

impl Stage {
    /// The figure of an ingredient's line: all of it in the stage, or what goes in at one of several times.
    #[must_use]
    pub fn weighed_as(&self, own: StageId, line: u32, ingredient: IngredientId) -> Figure {
        if self.parted.contains(&ingredient) {
            Figure::Part(own, line)
        } else {
            Figure::Cell(own, ingredient)
        }
    }

    /// The ingredients that are weighed into it, each once.
    pub fn ingredients(&self) -> impl Iterator<Item = IngredientId> + '_ {
        let mut seen = FxHashSet::default();
        let ingredients = self.lines.iter().filter_map(|line| line.item.ingredient());
        ingredients.filter(move |id| !self.parted.contains(id) || seen.insert(*id))
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
            parted: Vec::new(),
            takes: None,
            weighs: None,
            hydration: None,
            left_over: None,
            steam: None,
            ripens: None,
            notes: Vec::new(),
            apart: false,
        }
    }
}
