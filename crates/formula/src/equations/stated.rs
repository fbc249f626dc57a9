//! The equations that the baker states.

use levamen_quantity::Exact;

use super::sums::{EquationBuilder, fraction};
use super::{EquationOrigin, Variable};
use crate::formula::{ResolvedMake, ResolvedMakeSize};
use crate::ingredient::IngredientId;
use crate::stage::{Item, Measure, ResolvedAmount, ResolvedBasis, Stage, StageId, WeighedLine};

impl EquationBuilder<'_> {
    /// Every line that states something.
    pub(super) fn said(&mut self) {
        let formula = self.formula;
        if let Some(overall) = &formula.overall {
            for line in &overall.lines {
                if let (Item::Ingredient(id), Some(amount)) = (line.item, &line.amount) {
                    self.amount(&[(Variable::Row(id), Exact::ONE)], amount, None);
                }
            }
            if let Some(hydration) = &overall.hydration {
                self.hydration(Variable::Water, Variable::Flour, hydration);
            }
        }
        if let Some(make) = &formula.make {
            self.make(make);
        }
        for (id, stage) in formula.stages() {
            if self.equations.is_within(id) {
                self.stage(id, stage);
            }
        }
        for (id, stage) in formula.portioned() {
            self.portion(id, stage);
        }
    }

    /// How much to bake: the dough, what is left of it to divide after the loss, or its flour.
    fn make(&mut self, make: &ResolvedMake) {
        let kept = self.formula.loss.rest().fraction().clone();
        let (subject, grams) = match &make.size {
            ResolvedMakeSize::Pieces(count, piece) => {
                ((Variable::Dough, kept), piece.grams() * &Exact::from(*count))
            }
            ResolvedMakeSize::ToDivide(dough) => ((Variable::Dough, kept), dough.grams().clone()),
            ResolvedMakeSize::Dough(dough) => ((Variable::Dough, Exact::ONE), dough.grams().clone()),
            ResolvedMakeSize::Flour(flour) => ((Variable::Flour, Exact::ONE), flour.grams().clone()),
        };
        self.equations.add(&[subject], &[(Variable::BatchGram, grams)], EquationOrigin::Stated(make.place));
    }

    /// The equations of a stage of the dough's own matrix.
    fn stage(&mut self, id: StageId, stage: &Stage) {
        for (index, line) in (0..).zip(&stage.lines) {
            if let (Some(amount), Some(subject)) = (&line.amount, self.weighed(id, index, line)) {
                self.amount(&[subject], amount, Some(id));
            }
        }
        if let Some(takes) = &stage.takes {
            self.amount(&[(Variable::Content(id), Exact::ONE)], takes, None);
        }
        if let Some(weighs) = &stage.weighs {
            self.amount(&[(Variable::Weight(id), Exact::ONE)], weighs, None);
        }
        if let Some(hydration) = &stage.hydration {
            self.hydration(Variable::ContentWater(id), Variable::Content(id), hydration);
        }
    }

    /// What the dough takes of a separate batch; what goes into the batch is a formula of its own.
    fn portion(&mut self, id: StageId, stage: &Stage) {
        let portions: Vec<_> = self.intakes.iter().filter(|intake| intake.item == Item::Stage(id)).collect();
        let weights: Vec<(Variable, Exact)> =
            portions.iter().map(|intake| (intake.figure(), Exact::ONE)).collect();
        let mut flour = Vec::new();
        for intake in &portions {
            intake.push_flour(&mut flour);
        }
        if let Some(takes) = &stage.takes {
            self.amount(&flour, takes, None);
        }
        if let Some(weighs) = &stage.weighs {
            self.amount(&weights, weighs, None);
        }
    }

    /// What a line of a stage weighs: a figure, and the factor from what reaches the dough to what is weighed.
    pub(super) fn weighed(&self, id: StageId, index: u32, line: &WeighedLine) -> Option<(Variable, Exact)> {
        let gross = self.equations.gross(id)?.clone();
        Some(match line.item {
            Item::Ingredient(ingredient) => {
                let figure = self.formula.stage(id)?.weighed_as(id, index, ingredient);
                (figure, self.gross_of(id, ingredient)?)
            }
            Item::Stage(child) if self.equations.is_within(child) => (Variable::Weight(child), gross),
            Item::Stage(_) | Item::Seed(..) | Item::Piece(_) | Item::OwnPiece => {
                (Variable::Intake(id, index), gross)
            }
        })
    }

    pub(super) fn gross_of(&self, id: StageId, ingredient: IngredientId) -> Option<Exact> {
        if self.pantry.get(ingredient).is_some_and(crate::Ingredient::is_water) {
            self.equations.gross_water(id)
        } else {
            self.equations.gross(id).cloned()
        }
    }

    /// A subject is a share of something, or weighs something.
    fn amount(&mut self, subject: &[(Variable, Exact)], amount: &ResolvedAmount, stage: Option<StageId>) {
        let compared = match &amount.measure {
            Measure::Rest => return,
            Measure::Mass(mass) => (Variable::Gram, mass.grams().clone()),
            Measure::Share(share, basis) => {
                let Some((figure, factor)) = self.basis(*basis, stage) else { return };
                (figure, &fraction(share) * &factor)
            }
        };
        // `50 % of its rye flour` of that rye flour itself: one figure, stated to be a share of itself.
        if let [(figure, coefficient)] = subject
            && *figure == compared.0
        {
            let less = coefficient - &compared.1;
            // All of itself is what it is anyway: that says nothing.
            if less.is_zero() {
                return;
            }
            return self.equations.add(&[(*figure, less)], &[], EquationOrigin::Stated(amount.place));
        }
        self.equations.add(subject, &[compared], EquationOrigin::Stated(amount.place));
    }

    /// What a share is a share of, as it is weighed.
    pub(super) fn basis(&self, basis: ResolvedBasis, stage: Option<StageId>) -> Option<(Variable, Exact)> {
        Some(match basis {
            ResolvedBasis::Flour => (Variable::Flour, Exact::ONE),
            ResolvedBasis::Dough => (Variable::Dough, Exact::ONE),
            ResolvedBasis::Row(id) => (Variable::Row(id), Exact::ONE),
            ResolvedBasis::OwnFlour => (Variable::OwnFlour(stage?), self.equations.gross(stage?)?.clone()),
            ResolvedBasis::OwnCell(id) => (Variable::Cell(stage?, id), self.gross_of(stage?, id)?),
        })
    }

    fn hydration(&mut self, water: Variable, flour: Variable, hydration: &ResolvedAmount) {
        if let Measure::Share(share, _) = &hydration.measure {
            let compared = [(flour, fraction(share))];
            self.equations.add(&[(water, Exact::ONE)], &compared, EquationOrigin::Stated(hydration.place));
        }
    }
}
