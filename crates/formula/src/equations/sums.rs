//! The equations that every dough obeys: what is the sum of what.

use levamen_language::Place;
use levamen_quantity::{Exact, Share};
use rustc_hash::FxHashMap;

use super::intake::Intake;
use super::{EquationOrigin, Equations, Variable};
use crate::formula::Formula;
use crate::ingredient::{Ingredient, IngredientId};
use crate::pantry::Pantry;
use crate::stage::{Item, LeftOver, Measure, ResolvedBasis, Stage, StageId, WeighedLine};
use crate::want::WantValue;

/// States the equations of one formula.
pub(super) struct EquationBuilder<'f> {
    pub formula: &'f Formula,
    pub pantry: &'f Pantry,
    pub equations: &'f mut Equations,
    pub intakes: &'f [Intake],
    pub made: &'f [(StageId, Exact)],
}

impl<'f> EquationBuilder<'f> {
    /// Every sum that some figure may need.
    pub(super) fn sums(&mut self) {
        let formula = self.formula;
        for (id, stage) in formula.stages() {
            if self.equations.is_within(id) {
                self.stage_sums(id, stage);
            }
        }
        for (id, stage) in formula.portioned() {
            self.separate_sums(id, stage);
        }
        let last = formula.final_dough();
        self.equations.sum(Variable::Flour, &[(Variable::Content(last), Exact::ONE)]);
        self.equations.sum(Variable::Dough, &[(Variable::Weight(last), Exact::ONE)]);
        self.equations.sum(Variable::Water, &[(Variable::ContentWater(last), Exact::ONE)]);
        self.rows();
        for intake in self.intakes.iter().filter(|intake| intake.is_open() && intake.stays()) {
            self.contained_sums(intake);
        }
    }

    /// What is taken is the sum of what it holds, where that is still to be found.
    fn contained_sums(&mut self, intake: &Intake) {
        let is_flour = |id| self.pantry.get(id).is_some_and(|known| known.is_flour);
        let held: Vec<(Variable, Exact)> = intake.holds().map(|(_, part)| part).collect();
        let flour = intake.holds().filter(|(id, _)| is_flour(*id)).map(|(_, part)| part);
        let flour: Vec<(Variable, Exact)> = flour.collect();
        self.equations.sum(intake.figure(), &held);
        self.equations.sum(Variable::ContainedFlour(intake.stage, intake.line), &flour);
    }

    /// What goes in at several times is the sum of what goes in each time.
    fn split_sums(&mut self, id: StageId, stage: &Stage) {
        for ingredient in &stage.split_ingredients {
            let lines =
                (0..).zip(&stage.lines).filter(|(_, line)| line.item == Item::Ingredient(*ingredient));
            let parts: Vec<_> = lines.map(|(index, _)| (Variable::Part(id, index), Exact::ONE)).collect();
            self.equations.sum(Variable::Cell(id, *ingredient), &parts);
        }
    }

    /// Flour, water and weight of one stage.
    fn stage_sums(&mut self, id: StageId, stage: &Stage) {
        self.split_sums(id, stage);
        // Flours that are all stated as shares of the stage's flour add up to it: the formula was checked for that,
        // and the sum would only repeat them.
        if !self.flours_are_shares(stage) {
            let own_flour = self.cells(id, stage, |known| known.is_flour);
            self.equations.sum(Variable::OwnFlour(id), &own_flour);
        }
        let mut flour = vec![(Variable::OwnFlour(id), Exact::ONE)];
        let mut water = self.cells(id, stage, Ingredient::is_water);
        let mut weight = self.cells(id, stage, |_| true);
        for (child, _) in self.inner(stage) {
            flour.push((Variable::Content(child), Exact::ONE));
            water.push((Variable::ContentWater(child), Exact::ONE));
            weight.push((Variable::Weight(child), Exact::ONE));
        }
        for intake in self.intakes.iter().filter(|intake| intake.stage == id) {
            if intake.stays() {
                intake.push_flour(&mut flour);
                intake.push_water(&mut water, self.pantry);
            }
            weight.push((intake.figure(), Exact::ONE));
        }
        // Seeds are given back when the stage that grew from them goes into the final dough.
        if self.equations.goes_on_as(id) == Some(id) {
            let grew_from =
                |intake: &&Intake| !intake.stays() && self.equations.goes_on_as(intake.stage) == Some(id);
            for intake in self.intakes.iter().filter(grew_from) {
                match weight.iter_mut().find(|(figure, _)| *figure == intake.figure()) {
                    // A seed of this very stage comes and goes: it does not weigh in what goes on.
                    Some((_, coefficient)) => *coefficient = Exact::ZERO,
                    None => weight.push((intake.figure(), -Exact::ONE)),
                }
            }
            weight.retain(|(_, coefficient)| !coefficient.is_zero());
        }
        self.equations.sum(Variable::Content(id), &flour);
        self.equations.sum(Variable::ContentWater(id), &water);
        self.equations.sum(Variable::Weight(id), &weight);
    }

    /// What becomes of a separate batch: it is made, taken and left over.
    fn separate_sums(&mut self, id: StageId, stage: &Stage) {
        let portions: Vec<(Variable, Exact)> = self
            .intakes
            .iter()
            .filter(|intake| intake.item == Item::Stage(id))
            .filter_map(|intake| Some((intake.figure(), self.equations.gross(intake.stage)?.clone())))
            .collect();
        let mut made = portions;
        made.push((Variable::LeftOver(id), Exact::ONE));
        self.equations.sum(Variable::Made(id), &made);
        if let Some((_, grams)) = self.made.iter().find(|(own, _)| *own == id) {
            let subject = [(Variable::Made(id), Exact::ONE)];
            self.equations.add(
                &subject,
                &[(Variable::Gram, grams.clone())],
                EquationOrigin::Stated(stage.place),
            );
        }
        match &stage.left_over {
            None => self.equations.sum(Variable::LeftOver(id), &[]),
            Some(LeftOver::Share(share, place)) => {
                self.state_left_over(id, (Variable::Made(id), share.fraction().clone()), *place);
            }
            Some(LeftOver::Mass(mass, place)) => {
                self.state_left_over(id, (Variable::Gram, mass.grams().clone()), *place);
            }
            Some(LeftOver::Rest(_)) => {}
        }
    }

    fn state_left_over(&mut self, id: StageId, compared: (Variable, Exact), place: Place) {
        let origin = EquationOrigin::Stated(place);
        self.equations.add(&[(Variable::LeftOver(id), Exact::ONE)], &[compared], origin);
    }

    /// Every ingredient of the whole dough is the sum of its cells and of what is taken of it. They come in the order in
    /// which the dough names them: so its figures are in the same order in every book.
    fn rows(&mut self) {
        let formula = self.formula;
        let mut rows = RowSums::default();
        // What is listed, or something is a share of, and nothing weighs is a row too: one of nothing.
        let listed = formula.overall.iter().flat_map(|overall| &overall.lines);
        for id in listed.filter_map(|line| line.item.ingredient()) {
            rows.add(id, None);
        }
        for (stage, made) in formula.stages().filter(|(id, _)| self.equations.is_within(*id)) {
            for id in made.ingredients() {
                rows.add(id, Some((Variable::Cell(stage, id), Exact::ONE)));
            }
        }
        for intake in self.intakes.iter().filter(|intake| intake.stays()) {
            for (id, part) in intake.holds() {
                rows.add(id, Some(part));
            }
        }
        for id in self.bases() {
            rows.add(id, None);
        }
        for (id, parts) in rows.rows {
            self.equations.sum(Variable::Row(id), &parts);
        }
    }

    /// The ingredients that a share is stated of. One that is nowhere weighed is a row too: of nothing.
    fn bases(&self) -> impl Iterator<Item = IngredientId> + use<'f> {
        let formula = self.formula;
        let overall = formula.overall.iter().flat_map(|overall| &overall.lines);
        let lines = formula.stages.iter().flat_map(|stage| &stage.lines).chain(overall);
        let stages = formula.stages.iter().flat_map(|stage| stage.takes.iter().chain(&stage.weighs));
        let amounts =
            lines.filter_map(|line| line.amount.as_ref()).chain(stages).map(|amount| &amount.measure);
        let of_rows = amounts.filter_map(|measure| match measure {
            Measure::Share(_, ResolvedBasis::Row(id)) => Some(*id),
            _ => None,
        });
        let wants = formula.wants.iter().filter_map(|want| match want.limit {
            WantValue::Share(_, Some(ResolvedBasis::Row(id))) => Some(id),
            _ => None,
        });
        of_rows.chain(wants)
    }

    /// Whether a stage has flours, all of them stated as shares of its own flour.
    fn flours_are_shares(&self, stage: &Stage) -> bool {
        let is_flour = |line: &&WeighedLine| match line.item {
            Item::Ingredient(id) => self.pantry.get(id).is_some_and(|known| known.is_flour),
            _ => false,
        };
        let is_share = |line: &WeighedLine| {
            matches!(
                line.amount.as_ref().map(|amount| &amount.measure),
                Some(Measure::Share(_, ResolvedBasis::OwnFlour))
            )
        };
        let mut flours = stage.lines.iter().filter(is_flour).peekable();
        flours.peek().is_some() && flours.all(is_share)
    }

    /// The cells of a stage whose ingredient is of a kind.
    fn cells(
        &self,
        id: StageId,
        stage: &Stage,
        wanted: impl Fn(&Ingredient) -> bool,
    ) -> Vec<(Variable, Exact)> {
        let wanted =
            stage.ingredients().filter(|ingredient| self.pantry.get(*ingredient).is_some_and(&wanted));
        wanted.map(|ingredient| (Variable::Cell(id, ingredient), Exact::ONE)).collect()
    }

    /// The stages of the dough's own matrix that a stage takes in, with the lines that say so.
    pub(super) fn inner(
        &self,
        stage: &'f Stage,
    ) -> impl Iterator<Item = (StageId, &'f WeighedLine)> + use<'f, '_> {
        let equations = &*self.equations;
        stage.lines.iter().filter_map(move |line| match line.item {
            Item::Stage(child) if equations.is_within(child) => Some((child, line)),
            _ => None,
        })
    }
}

/// A share as a coefficient.
pub(super) fn fraction(share: &Share) -> Exact {
    share.fraction().clone()
}

/// What each ingredient is the sum of.
#[derive(Default)]
struct RowSums {
    rows: Vec<(IngredientId, Vec<(Variable, Exact)>)>,
    indices: FxHashMap<IngredientId, usize>,
}

impl RowSums {
    fn add(&mut self, id: IngredientId, part: Option<(Variable, Exact)>) {
        let index = *self.indices.entry(id).or_insert(self.rows.len());
        match self.rows.get_mut(index) {
            Some((_, parts)) => parts.extend(part),
            None => self.rows.push((id, part.into_iter().collect())),
        }
    }
}
