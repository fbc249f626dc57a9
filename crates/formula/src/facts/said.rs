//! The facts that the baker states.

use levamen_quantity::Exact;

use super::sums::{Speaker, fraction};
use super::{Figure, Origin};
use crate::formula::{Make, MakeSize};
use crate::pantry::IngredientId;
use crate::stage::{Amount, Basis, Item, Line, Measure, Stage, StageId};

impl Speaker<'_> {
    /// Every line that states something.
    pub(super) fn said(&mut self) {
        let formula = self.formula;
        if let Some(overall) = &formula.overall {
            for line in &overall.lines {
                if let (Item::Ingredient(id), Some(amount)) = (line.item, &line.amount) {
                    self.amount(&[(Figure::Row(id), Exact::ONE)], amount, None);
                }
            }
            if let Some(hydration) = &overall.hydration {
                self.hydration(Figure::Water, Figure::Flour, hydration);
            }
        }
        if let Some(make) = &formula.make {
            self.make(make);
        }
        for (id, stage) in formula.stages() {
            if self.facts.is_within(id) {
                self.stage(id, stage);
            }
        }
        for (id, stage) in formula.portioned() {
            self.portion(id, stage);
        }
    }

    /// How much to bake: the dough, what is left of it to divide after the loss, or its flour.
    fn make(&mut self, make: &Make) {
        let kept = self.formula.loss.rest().fraction().clone();
        let (subject, grams) = match &make.size {
            MakeSize::Pieces(count, piece) => (
                (Figure::Dough, kept),
                piece.grams() * &i64::try_from(*count).map_or(Exact::ZERO, Exact::from),
            ),
            MakeSize::ToDivide(dough) => ((Figure::Dough, kept), dough.grams().clone()),
            MakeSize::Dough(dough) => ((Figure::Dough, Exact::ONE), dough.grams().clone()),
            MakeSize::Flour(flour) => ((Figure::Flour, Exact::ONE), flour.grams().clone()),
        };
        self.facts.add(&[subject], &[(Figure::BatchGram, grams)], Origin::Stated(make.place));
    }

    /// The facts of a stage of the dough's own matrix.
    fn stage(&mut self, id: StageId, stage: &Stage) {
        for (index, line) in (0..).zip(&stage.lines) {
            if let (Some(amount), Some(subject)) = (&line.amount, self.weighed(id, index, line)) {
                self.amount(&[subject], amount, Some(id));
            }
        }
        if let Some(takes) = &stage.takes {
            self.amount(&[(Figure::Content(id), Exact::ONE)], takes, None);
        }
        if let Some(weighs) = &stage.weighs {
            self.amount(&[(Figure::Weight(id), Exact::ONE)], weighs, None);
        }
        if let Some(hydration) = &stage.hydration {
            self.hydration(Figure::ContentWater(id), Figure::Content(id), hydration);
        }
    }

    /// What the dough takes of a batch built apart; what goes into the batch is a formula of its own.
    fn portion(&mut self, id: StageId, stage: &Stage) {
        let portions: Vec<_> = self.intakes.iter().filter(|intake| intake.item == Item::Stage(id)).collect();
        let weights: Vec<(Figure, Exact)> =
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
    pub(super) fn weighed(&self, id: StageId, index: u32, line: &Line) -> Option<(Figure, Exact)> {
        let gross = self.facts.gross(id)?.clone();
        Some(match line.item {
            Item::Ingredient(ingredient) => {
                let figure = self.formula.stage(id)?.weighed_as(id, index, ingredient);
                (figure, self.gross_of(id, ingredient)?)
            }
            Item::Stage(child) if self.facts.is_within(child) => (Figure::Weight(child), gross),
            Item::Stage(_) | Item::Seed(..) | Item::Piece(_) | Item::OwnPiece => {
                (Figure::Intake(id, index), gross)
            }
        })
    }

    pub(super) fn gross_of(&self, id: StageId, ingredient: IngredientId) -> Option<Exact> {
        if self.pantry.get(ingredient).is_some_and(crate::Ingredient::is_water) {
            self.facts.gross_water(id)
        } else {
            self.facts.gross(id).cloned()
        }
    }

    /// A subject is a share of something, or weighs something.
    fn amount(&mut self, subject: &[(Figure, Exact)], amount: &Amount, stage: Option<StageId>) {
        let compared = match &amount.measure {
            Measure::Rest => return,
            Measure::Mass(mass) => (Figure::Gram, mass.grams().clone()),
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
            return self.facts.add(&[(*figure, less)], &[], Origin::Stated(amount.place));
        }
        self.facts.add(subject, &[compared], Origin::Stated(amount.place));
    }

    /// What a share is a share of, as it is weighed.
    pub(super) fn basis(&self, basis: Basis, stage: Option<StageId>) -> Option<(Figure, Exact)> {
        Some(match basis {
            Basis::Flour => (Figure::Flour, Exact::ONE),
            Basis::Dough => (Figure::Dough, Exact::ONE),
            Basis::Row(id) => (Figure::Row(id), Exact::ONE),
            Basis::OwnFlour => (Figure::OwnFlour(stage?), self.facts.gross(stage?)?.clone()),
            Basis::OwnCell(id) => (Figure::Cell(stage?, id), self.gross_of(stage?, id)?),
        })
    }

    fn hydration(&mut self, water: Figure, flour: Figure, hydration: &Amount) {
        if let Measure::Share(share, _) = &hydration.measure {
            let compared = [(flour, fraction(share))];
            self.facts.add(&[(water, Exact::ONE)], &compared, Origin::Stated(hydration.place));
        }
    }
}
