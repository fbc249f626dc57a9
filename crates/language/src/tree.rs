//! The syntax tree: what each line of a text says, with its place.
//!
//! A text is a list of [`Line`]s. Each line stands for one fact, heading or comment and knows its depth, so the
//! list is the tree in reading order: a line's children are the deeper lines that follow it. Nothing of the
//! text is lost but spacing: names borrow from it, comments and empty lines are kept.
//!
//! A book is read line by line in one pass, so a [`Line`] is kept small: what is rare and large is boxed.

mod card_fact;
mod fact;
mod same;
mod stage;

pub use card_fact::{CardHeading, Said, SlotValue, YeastKind};
pub use fact::{
    Amount, AmountKind, Basis, BasisScope, DensityFact, From, Holds, IngredientPart, Make, MakeSize,
    Quantity, Ripens, SeedFate, SeedSource, Spoils, Weigh,
};
pub use stage::{Kind, StageHeading};

use crate::{Name, Span};

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
    /// How deep the line is: 0 for `dough`, `culture` and the like and for a dough's sections, 1 for what
    /// is under them, one more for each stage it is nested in.
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
    /// `mixer NAME`, `product NAME` and the like.
    Card(Box<CardHeading<'t>>),

    // Sections of a dough.
    /// `overall`: percentages of the dough's whole flour.
    Overall,
    /// `stage NAME, a KIND`: something weighed apart.
    Stage(StageHeading<'t>),
    /// `final dough`
    FinalDough,
    /// `want`: figures that the dough must have, whatever the other lines say of them.
    Want,
    /// `make 24 pieces of 920 g, losing 2 %`
    Make(Box<Make>),

    // Facts in a section.
    /// `NAME AMOUNT`: an ingredient, or another stage that is taken in.
    Weigh(Weigh<'t>),
    /// `from SOURCE AMOUNT`: seed of a culture, or a piece of a dough.
    From(Box<From<'t>>),
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
    Ripens(Box<Ripens>),
    /// `note WORDS`
    Note(Name<'t>),

    // Facts of an ingredient.
    /// `flour`: the ingredient counts as flour.
    IsFlour,
    /// `holds 76.15 % water`: what an ingredient is made of.
    Holds(Holds),
    /// `density 1.03 kg/l`
    Density(DensityFact),
    /// `spoils`, `spoils when wet`, `keeps`: whether the ingredient is a food that has to be held cold or hot.
    Spoils(Spoils),
    /// `source WORDS`
    Source(Name<'t>),

    // Facts of a scale.
    /// `division 0.1 g`
    Division(Quantity),
    /// `capacity 500 g`
    Capacity(Quantity),

    /// A fact of a card, of how a culture is kept, or of what an ingredient does.
    Said(Box<Said<'t>>),
}
