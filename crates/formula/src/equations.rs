//! The linear equations that a formula states.
//!
//! A dough is a matrix: rows are ingredients, columns are the stages in which they are weighed. Whatever a baker
//! says of it is one linear equation about its cells and sums, and so is what every matrix obeys (a row is the sum of
//! its cells). Each equation reads *the sum of coefficient times figure is zero*: all equations are homogeneous, the
//! figure [`Variable::Gram`] standing for the constant in those that state a mass. So the equations fix a direction, and
//! scaling is a multiplication.
//!
//! A recipe in weights may be made at another size: the weights of a text then count proportions alone, and grams of
//! the batch are another figure ([`Variable::BatchGram`]).
//!
//! **Net weights.** A cell stands for what reaches the dough. What is weighed is more where some of a stage is
//! left over in the tub or goes off as steam, by a factor that is known beforehand ([`Equations::gross`]), so that
//! equations about what is weighed stay linear.

mod express;
mod intake;
mod stated;
mod sums;

use std::sync::Arc;

use levamen_language::Place;
use levamen_quantity::Exact;
use rustc_hash::FxHashMap;

pub use intake::Intake;
use intake::LossFactors;

use crate::composition::Composition;
use crate::formula::Formula;
use crate::ingredient::IngredientId;
use crate::pantry::Pantry;
use crate::stage::{Item, Stage, StageId};
use crate::want::Want;

/// A figure of a dough that equations mention.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Variable {
    /// One gram as the text's weights count it: what ties weights to shares.
    Gram,
    /// One gram of the batch that a `make` line asks for.
    BatchGram,
    /// The flour of the whole dough.
    Flour,
    /// The weight of the whole dough.
    Dough,
    /// The added water of the whole dough.
    Water,
    /// An ingredient in the whole dough.
    Row(IngredientId),
    /// An ingredient weighed into a stage.
    Cell(StageId, IngredientId),
    /// What goes into a stage by the line of that index, of an ingredient that goes in at several times.
    Part(StageId, u32),
    /// What the line of that index in a stage takes from a culture, a dough or a separate batch.
    Intake(StageId, u32),
    /// An ingredient inside what that line takes, where its composition is still to be found.
    Contained(StageId, u32, IngredientId),
    /// The flour inside what that line takes, where its composition is still to be found.
    ContainedFlour(StageId, u32),
    /// The flour weighed into a stage as such.
    OwnFlour(StageId),
    /// The flour that the dough gets through a stage.
    Content(StageId),
    /// The added water that the dough gets through a stage.
    ContentWater(StageId),
    /// What a stage weighs when it goes on.
    Weight(StageId),
    /// What is made of a separate batch.
    Made(StageId),
    /// What is left over of a separate batch.
    LeftOver(StageId),
}

/// Which figure of a [`Equations`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct VariableId(pub u32);

impl VariableId {
    /// The figure's index.
    #[must_use]
    pub const fn index(self) -> usize {
        self.0 as usize
    }
}

/// A coefficient and the figure that it multiplies.
pub type Term = (VariableId, Exact);

/// Where an equation comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EquationOrigin {
    /// The baker wrote it, here.
    Stated(Place),
    /// Every dough obeys it; it says what this figure is the sum of.
    Sum(VariableId),
}

/// One equation: the sum of its terms is zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Equation {
    start: u32,
    end: u32,
    /// How many terms mention the subject; the others are what it is compared with.
    subject: u32,
    /// Where it comes from.
    pub origin: EquationOrigin,
}

impl Equation {
    /// Where its terms end among those of all equations; they begin where those of the equation before it end.
    #[must_use]
    pub const fn end(&self) -> u32 {
        self.end
    }
}

/// The equations of one formula.
#[derive(Debug, Clone, Default)]
pub struct Equations {
    figures: Vec<Variable>,
    ids: FxHashMap<Variable, VariableId>,
    terms: Vec<Term>,
    all: Vec<Equation>,
    bounds: Vec<Bound>,
    intakes: Vec<Intake>,
    layout: LossFactors,
}

/// A bound that the baker wants: the sum of its terms is zero or less.
#[derive(Debug, Clone, PartialEq)]
pub struct Bound {
    /// The terms.
    pub terms: Vec<Term>,
    /// The words that say it.
    pub words: Arc<str>,
    /// Where it is said.
    pub place: Place,
}

/// States the equations of a formula.
///
/// `composition` says what the culture, the dough or the separate batch of a line is made of; `made` what a
/// separate batch weighs in grams, where its own weights say so.
///
/// # Errors
/// The item whose composition is not known.
pub fn build_equations<'c>(
    formula: &Formula,
    pantry: &Pantry,
    composition: impl Fn(Item) -> Option<&'c Composition>,
    made: &[(StageId, Exact)],
) -> Result<Equations, Item> {
    let mut equations = Equations { layout: LossFactors::new(formula), ..Equations::default() };
    let intakes = equations.layout.intakes(formula, composition)?;
    let mut builder =
        sums::EquationBuilder { formula, pantry, equations: &mut equations, intakes: &intakes, made };
    builder.sums();
    builder.said();
    builder.wants();
    equations.intakes = intakes;
    Ok(equations)
}

impl Equations {
    /// The figures that the equations mention.
    #[must_use]
    pub fn variables(&self) -> &[Variable] {
        &self.figures
    }

    /// The id of a figure; `None` where no equation mentions it.
    #[must_use]
    pub fn id(&self, figure: Variable) -> Option<VariableId> {
        self.ids.get(&figure).copied()
    }

    /// Every equation.
    #[must_use]
    pub fn all(&self) -> &[Equation] {
        &self.all
    }

    /// The equation that the flour of the dough is all the flour that its stages bring. Where the overall formula states
    /// every flour it repeats what they say, and should be the one that is checked rather than used.
    #[must_use]
    pub fn closing(&self) -> Option<usize> {
        let flour = self.id(Variable::Flour)?;
        self.all.iter().position(|equation| equation.origin == EquationOrigin::Sum(flour))
    }

    /// The terms of all equations, one equation after the other.
    #[must_use]
    pub fn all_terms(&self) -> &[Term] {
        &self.terms
    }

    /// The terms of an equation.
    #[must_use]
    pub fn terms(&self, equation: &Equation) -> &[Term] {
        let terms = self.terms.get(equation.start as usize..equation.end as usize);
        debug_assert!(terms.is_some(), "an equation is asked of those that it belongs to");
        terms.unwrap_or_default()
    }

    /// The terms of an equation: those of its subject, and what that is compared with.
    #[must_use]
    pub fn sides(&self, equation: &Equation) -> (&[Term], &[Term]) {
        let terms = self.terms(equation);
        terms.split_at_checked(equation.subject as usize).unwrap_or((terms, &[]))
    }

    /// Whether a stage is part of the dough's own matrix, and not a separate batch or part of one.
    #[must_use]
    pub fn is_within(&self, stage: StageId) -> bool {
        self.layout.gross(stage).is_some()
    }

    /// What is weighed into a stage for one gram that reaches the dough: more than one where some is left over.
    /// `None` for a separate batch.
    #[must_use]
    pub fn gross(&self, stage: StageId) -> Option<&Exact> {
        self.layout.gross(stage)
    }

    /// What is weighed of added water into a stage for one gram that reaches the dough: also more where steam
    /// goes off.
    #[must_use]
    pub fn gross_water(&self, stage: StageId) -> Option<Exact> {
        Some(self.layout.gross(stage)? * self.layout.steam(stage)?)
    }

    /// The bounds that the baker wants.
    #[must_use]
    pub fn bounds(&self) -> &[Bound] {
        &self.bounds
    }

    /// The portions that the dough's own stages take of cultures, doughs and separate batches.
    #[must_use]
    pub fn intakes(&self) -> &[Intake] {
        &self.intakes
    }

    /// The stage that goes into the final dough and that this one ends up in; `None` for the final dough itself
    /// and for separate batches.
    #[must_use]
    pub fn goes_on_as(&self, stage: StageId) -> Option<StageId> {
        self.layout.goes_on_as(stage)
    }

    /// States that the weights of the text are weights of the batch that its `make` line asks for. Returns whether
    /// that says anything: there are weights, and there is such a line.
    ///
    /// A recipe in weights has a size of its own and must not be tied to the batch; a dough in percentages with a
    /// weight or two in it has none.
    pub fn tie_weights_to_batch(&mut self) -> bool {
        let (Some(gram), Some(_)) = (self.id(Variable::Gram), self.id(Variable::BatchGram)) else {
            return false;
        };
        self.add(
            &[(Variable::Gram, Exact::ONE)],
            &[(Variable::BatchGram, Exact::ONE)],
            EquationOrigin::Sum(gram),
        );
        true
    }

    /// The id of a figure, which is made known where it is new.
    fn figure(&mut self, figure: Variable) -> VariableId {
        // A text of at most 32 MB has no four thousand million of them.
        let next = VariableId(u32::try_from(self.figures.len()).unwrap_or(u32::MAX));
        let id = *self.ids.entry(figure).or_insert(next);
        if id == next {
            self.figures.push(figure);
        }
        id
    }

    /// Adds an equation: the subject's terms less those of what it is compared with come to zero. A figure is on
    /// one side only.
    fn add(&mut self, subject: &[(Variable, Exact)], compared: &[(Variable, Exact)], origin: EquationOrigin) {
        let start = self.terms.len();
        for (figure, coefficient) in subject {
            let id = self.figure(*figure);
            self.terms.push((id, coefficient.clone()));
        }
        for (figure, coefficient) in compared {
            let id = self.figure(*figure);
            self.terms.push((id, -coefficient));
        }
        let count = |length: usize| u32::try_from(length).unwrap_or(u32::MAX);
        self.all.push(Equation {
            start: count(start),
            end: count(self.terms.len()),
            subject: count(subject.len()),
            origin,
        });
    }

    /// Adds a bound: the one side is no more than the other.
    fn bound(&mut self, less: &[(Variable, Exact)], more: &[(Variable, Exact)], want: &Want) {
        let more = more.iter().map(|(figure, factor)| (*figure, -factor));
        let sides: Vec<(Variable, Exact)> = less.iter().cloned().chain(more).collect();
        let terms = sides.into_iter().map(|(figure, factor)| (self.figure(figure), factor)).collect();
        self.bounds.push(Bound { terms, words: want.words.clone(), place: want.place });
    }

    /// Adds what a figure is the sum of.
    fn sum(&mut self, figure: Variable, parts: &[(Variable, Exact)]) {
        let id = self.figure(figure);
        self.add(&[(figure, Exact::ONE)], parts, EquationOrigin::Sum(id));
    }
}

impl Stage {
    /// The figure of an ingredient's line: all of it in the stage, or what goes in at one of several times.
    #[must_use]
    pub fn weighed_as(&self, own: StageId, line: u32, ingredient: IngredientId) -> Variable {
        if self.split_ingredients.contains(&ingredient) {
            Variable::Part(own, line)
        } else {
            Variable::Cell(own, ingredient)
        }
    }
}
