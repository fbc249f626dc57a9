//! Why a figure is what it is: the lines, sums and shares that it comes from, down to places in the text and the
//! defaults used.
//!
//! A [`Why`] is a tree. Each [`Reason`] in it says one figure and how that follows from the figures below it, and does
//! so exactly: whoever doubts it can add it up again ([`ReasonKind`] says how for each kind). A figure is explained once;
//! where it is needed again the tree refers to that.

mod explain;
mod named;
mod separate;
mod taken;
mod whole;

use levamen_formula::{Formula, FormulaId, NamedFigure, Relation, Want, WantValue};
use levamen_language::{Place, Problem};
use levamen_quantity::{Exact, Mass, Share};

use crate::Balancer;
use crate::figures::StatedSize;

/// A figure of a dough, explained.
#[derive(Debug, Clone, PartialEq)]
pub struct Why {
    /// The dough's name.
    pub dough: String,
    /// The dough's whole flour in the batch that weights are given for.
    pub flour: Mass,
    /// Why it is so much flour.
    pub size: SizeSource,
    /// The figure that was asked for.
    pub root: Reason,
}

/// One figure and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Reason {
    /// What it is, in the form in which it can be asked for where it can be.
    pub figure: String,
    /// How much it is.
    pub value: ReasonValue,
    /// How it follows from what is below it.
    pub kind: ReasonKind,
    /// What it follows from.
    pub parts: Vec<ReasonPart>,
}

impl Reason {
    /// Whether a line that is calculated from this says so itself: "67 %" of the whole flour, or "300 g" where the batch
    /// is made as the text weighs it.
    #[must_use]
    pub fn goes_without_saying(&self) -> bool {
        match &self.kind {
            ReasonKind::Size(SizeSource::Make(_)) => self.value.figure().is_one(),
            ReasonKind::Size(SizeSource::Weights | SizeSource::Default) => true,
            _ => false,
        }
    }
}

/// A reason below another.
#[derive(Debug, Clone, PartialEq)]
pub struct ReasonPart {
    /// How many times it counts; negative where it is taken off.
    pub times: Exact,
    /// The figure and its reason.
    pub reason: Reason,
}

/// How much a figure is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReasonValue {
    /// A weight, as a share of the dough's whole flour.
    Weight(Share),
    /// A ratio of two weights.
    Ratio(Share),
    /// A number without a unit.
    Number(Exact),
}

impl ReasonValue {
    /// The figure as a plain number: a weight as a fraction of the whole flour, a ratio as a fraction of one.
    #[must_use]
    pub const fn figure(&self) -> &Exact {
        match self {
            Self::Weight(share) | Self::Ratio(share) => share.fraction(),
            Self::Number(number) => number,
        }
    }
}

/// How a figure follows from those below it.
#[derive(Debug, Clone, PartialEq)]
pub enum ReasonKind {
    /// A line says so. The figure is the sum of its parts, each times its factor.
    Stated(Place),
    /// It is the sum of its parts, or what they leave where some count less than zero.
    Sum,
    /// It is the first part over the second.
    Ratio,
    /// It is 100 more than its part in percent: the dough yield (Teigausbeute), common practice in German baking.
    Yield,
    /// A few lines settle a few figures at once.
    Coupled(CoupledEquations),
    /// It is a part of something whose composition is known: the part times its factor, which is a share of it, or one
    /// divided by such a share.
    Composition {
        /// What it is made of.
        source: String,
        /// Where that is said.
        place: Place,
    },
    /// The pantry knows how much of the ingredient it is: the part times its factor.
    Pantry {
        /// The ingredient.
        ingredient: String,
        /// Where the pantry's figure comes from, where it says so.
        source: Option<String>,
    },
    /// More is weighed than goes on, by the factor of the part: some is left over, or goes off as steam.
    Weighed(Vec<Place>),
    /// It is a share of a separate batch, at the size in which that is made: the part times its factor.
    Batch,
    /// Where the calculation begins.
    Size(SizeSource),
    /// Flour's own moisture is by convention of the trade not counted as water.
    NotCounted,
    /// There is none of it.
    Zero,
    /// It was explained already, under this name.
    Repeated(String),
    /// The tree ends here; the figure can be asked for by itself.
    TooDeep,
}

/// Where the calculation begins.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SizeSource {
    /// A line that says how much to make: a `make` line, or else a weight that is wanted.
    Make(Place),
    /// The weights in the text.
    Weights,
    /// Nothing says how much to make: 1 kg of flour.
    Default,
}

impl SizeSource {
    /// What says how much of a formula to make; `weighs` says whether the weights of its lines do.
    fn size_of(formula: &Formula, weighs: bool) -> Self {
        let exact =
            |want: &&Want| want.relation == Relation::Exactly && matches!(want.limit, WantValue::Mass(_));
        let wanted = formula.wants.iter().find(exact).map(|want| want.place);
        match (&formula.make, weighs) {
            (Some(make), _) => Self::Make(make.place),
            (None, true) => Self::Weights,
            (None, false) => wanted.map_or(Self::Default, Self::Make),
        }
    }
}

/// Equations that depend on each other, and the figures that they settle.
#[derive(Debug, Clone, PartialEq)]
pub struct CoupledEquations {
    /// The figures, with their values.
    pub figures: Vec<(String, ReasonValue)>,
    /// The equations; what else they mention is below.
    pub equations: Vec<CoupledEquation>,
}

/// One of several equations that are solved together: its terms, each times its factor, come to zero.
#[derive(Debug, Clone, PartialEq)]
pub struct CoupledEquation {
    /// The line that states it; `None` where every dough obeys it.
    pub place: Option<Place>,
    /// The figures, and how many times each counts.
    pub terms: Vec<(String, Exact)>,
}

impl Balancer<'_> {
    /// Why a figure of a dough or culture is what it is.
    ///
    /// # Errors
    /// The problems that keep the dough from being balanced.
    pub fn why(&mut self, id: FormulaId, figure: NamedFigure) -> Result<Why, Vec<Problem>> {
        let size = self.balance(id).map_err(<[Problem]>::to_vec)?.size.clone();
        let formula = self.book().formula(id).ok_or_else(Vec::new)?;
        self.explain(formula, &size, figure)
    }

    /// Why a figure of a dough would be what it is with other wants.
    ///
    /// # Errors
    /// As [`Balancer::balance_as`].
    pub fn why_as(&mut self, formula: &Formula, figure: NamedFigure) -> Result<Why, Vec<Problem>> {
        let size = self.balance_as(formula, None)?.size;
        self.explain(formula, &size, figure)
    }

    fn explain(
        &mut self,
        formula: &Formula,
        size: &StatedSize,
        figure: NamedFigure,
    ) -> Result<Why, Vec<Problem>> {
        let root = named::explain(self, formula, figure)?;
        let weighs = matches!(size, StatedSize::Weights { .. }) && !formula.is_resized;
        let (dough, flour) = (formula.name.to_string(), size.flour());
        Ok(Why { dough, flour, size: SizeSource::size_of(formula, weighs), root })
    }
}
