//! The facts that every dough obeys: what is the sum of what.

use levamen_language::Place;
use levamen_quantity::{Exact, Share};
use rustc_hash::FxHashMap;

use super::layout::Intake;
use super::{Facts, Figure, Origin};
use crate::formula::Formula;
use crate::pantry::{Ingredient, IngredientId, Pantry};
use crate::stage::{Basis, Item, LeftOver, Line, Measure, Stage, StageId};
use crate::want::Limit;

/// States the facts of one formula.
pub(super) struct Speaker<'f> {
    pub formula: &'f Formula,
    pub pantry: &'f Pantry,
    pub facts: &'f mut Facts,
    pub intakes: &'f [Intake],
    pub made: &'f [(StageId, Exact)],
}

impl<'f> Speaker<'f> {
    /// Every sum that some figure may need.
    pub(super) fn sums(&mut self) {
        let formula = self.formula;
        for (id, stage) in formula.stages() {
            if self.facts.is_within(id) {
                self.stage_sums(id, stage);
            }
        }
        for (id, stage) in formula.portioned() {
            self.apart_sums(id, stage);
        }
        let last = formula.final_dough();
        self.facts.sum(Figure::Flour, &[(Figure::Content(last), Exact::ONE)]);
        self.facts.sum(Figure::Dough, &[(Figure::Weight(last), Exact::ONE)]);
        self.facts.sum(Figure::Water, &[(Figure::ContentWater(last), Exact::ONE)]);
        self.rows();
        for intake in self.intakes.iter().filter(|intake| intake.is_open() && intake.stays()) {
            self.held_sums(intake);
        }
    }

    /// What is taken is the sum of what it holds, where that is still to be found.
    fn held_sums(&mut self, intake: &Intake) {
        let is_flour = |id| self.pantry.get(id).is_some_and(|known| known.is_flour);
        let held: Vec<(Figure, Exact)> = intake.holds().map(|(_, part)| part).collect();
        let flour = intake.holds().filter(|(id, _)| is_flour(*id)).map(|(_, part)| part);
        let flour: Vec<(Figure, Exact)> = flour.collect();
        self.facts.sum(intake.figure(), &held);
        self.facts.sum(Figure::HeldFlour(intake.stage, intake.line), &flour);
    }

    /// What goes in at several times is the sum of what goes in each time.
    fn parted_sums(&mut self, id: StageId, stage: &Stage) {
        for ingredient in &stage.parted {
            let lines =
                (0..).zip(&stage.lines).filter(|(_, line)| line.item == Item::Ingredient(*ingredient));
            let parts: Vec<_> = lines.map(|(index, _)| (Figure::Part(id, index), Exact::ONE)).collect();
            self.facts.sum(Figure::Cell(id, *ingredient), &parts);
        }
    }

    /// Flour, water and weight of one stage.
    fn stage_sums(&mut self, id: StageId, stage: &Stage) {
        self.parted_sums(id, stage);
        // Flours that are all stated as shares of the stage's flour add up to it: the formula was checked for that,
        // and the sum would only repeat them.
        if !self.flours_are_shares(stage) {
            let own_flour = self.cells(id, stage, |known| known.is_flour);
            self.facts.sum(Figure::OwnFlour(id), &own_flour);
        }
        let mut flour = vec![(Figure::OwnFlour(id), Exact::ONE)];
        let mut water = self.cells(id, stage, Ingredient::is_water);
        let mut weight = self.cells(id, stage, |_| true);
        for (child, _) in self.inner(stage) {
            flour.push((Figure::Content(child), Exact::ONE));
            water.push((Figure::ContentWater(child), Exact::ONE));
            weight.push((Figure::Weight(child), Exact::ONE));
        }
        for intake in self.intakes.iter().filter(|intake| intake.stage == id) {
            if intake.stays() {
                intake.push_flour(&mut flour);
                intake.push_water(&mut water, self.pantry);
            }
            weight.push((intake.figure(), Exact::ONE));
        }
        // Seeds are given back when the stage that grew from them goes into the final dough.
        if self.facts.goes_on_as(id) == Some(id) {
            let grew_from =
                |intake: &&Intake| !intake.stays() && self.facts.goes_on_as(intake.stage) == Some(id);
            for intake in self.intakes.iter().filter(grew_from) {
                match weight.iter_mut().find(|(figure, _)| *figure == intake.figure()) {
                    // A seed of this very stage comes and goes: it does not weigh in what goes on.
                    Some((_, coefficient)) => *coefficient = Exact::ZERO,
                    None => weight.push((intake.figure(), -Exact::ONE)),
                }
            }
            weight.retain(|(_, coefficient)| !coefficient.is_zero());
        }
        self.facts.sum(Figure::Content(id), &flour);
        self.facts.sum(Figure::ContentWater(id), &water);
        self.facts.sum(Figure::Weight(id), &weight);
    }

    /// What becomes of a batch built apart: it is made, taken and left over.
    fn apart_sums(&mut self, id: StageId, stage: &Stage) {
        let portions: Vec<(Figure, Exact)> = self
            .intakes
            .iter()
            .filter(|intake| intake.item == Item::Stage(id))
            .filter_map(|intake| Some((intake.figure(), self.facts.gross(intake.stage)?.clone())))
            .collect();
        let mut made = portions;
        made.push((Figure::LeftOver(id), Exact::ONE));
        self.facts.sum(Figure::Made(id), &made);
        if let Some((_, grams)) = self.made.iter().find(|(own, _)| *own == id) {
            let subject = [(Figure::Made(id), Exact::ONE)];
            self.facts.add(&subject, &[(Figure::Gram, grams.clone())], Origin::Stated(stage.place));
        }
        match &stage.left_over {
            None => self.facts.sum(Figure::LeftOver(id), &[]),
            Some(LeftOver::Share(share, place)) => {
                self.state_left_over(id, (Figure::Made(id), share.fraction().clone()), *place);
            }
            Some(LeftOver::Mass(mass, place)) => {
                self.state_left_over(id, (Figure::Gram, mass.grams().clone()), *place);
            }
            Some(LeftOver::Rest(_)) => {}
        }
    }

    fn state_left_over(&mut self, id: StageId, compared: (Figure, Exact), place: Place) {
        let origin = Origin::Stated(place);
        self.facts.add(&[(Figure::LeftOver(id), Exact::ONE)], &[compared], origin);
    }

    /// Every ingredient of the whole dough is the sum of its cells and of what is taken of it. They come in the order in
    /// which the dough names them: so its figures are in the same order in every book.
    fn rows(&mut self) {
        let formula = self.formula;
        let mut rows = Rows::default();
        // What is listed, or something is a share of, and nothing weighs is a row too: one of nothing.
        let listed = formula.overall.iter().flat_map(|overall| &overall.lines);
        for id in listed.filter_map(|line| line.item.ingredient()) {
            rows.add(id, None);
        }
        for (stage, made) in formula.stages().filter(|(id, _)| self.facts.is_within(*id)) {
            for id in made.ingredients() {
                rows.add(id, Some((Figure::Cell(stage, id), Exact::ONE)));
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
            self.facts.sum(Figure::Row(id), &parts);
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
            Measure::Share(_, Basis::Row(id)) => Some(*id),
            _ => None,
        });
        let wants = formula.wants.iter().filter_map(|want| match want.limit {
            Limit::Share(_, Some(Basis::Row(id))) => Some(id),
            _ => None,
        });
        of_rows.chain(wants)
    }

    /// Whether a stage has flours, all of them stated as shares of its own flour.
    fn flours_are_shares(&self, stage: &Stage) -> bool {
        let is_flour = |line: &&Line| match line.item {
            Item::Ingredient(id) => self.pantry.get(id).is_some_and(|known| known.is_flour),
            _ => false,
        };
        let is_share = |line: &Line| {
            matches!(
                line.amount.as_ref().map(|amount| &amount.measure),
                Some(Measure::Share(_, Basis::OwnFlour))
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
    ) -> Vec<(Figure, Exact)> {
        let wanted =
            stage.ingredients().filter(|ingredient| self.pantry.get(*ingredient).is_some_and(&wanted));
        wanted.map(|ingredient| (Figure::Cell(id, ingredient), Exact::ONE)).collect()
    }

    /// The stages of the dough's own matrix that a stage takes in, with the lines that say so.
    pub(super) fn inner(&self, stage: &'f Stage) -> impl Iterator<Item = (StageId, &'f Line)> + use<'f, '_> {
        let facts = &*self.facts;
        stage.lines.iter().filter_map(move |line| match line.item {
            Item::Stage(child) if facts.is_within(child) => Some((child, line)),
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
struct Rows {
    rows: Vec<(IngredientId, Vec<(Figure, Exact)>)>,
    indices: FxHashMap<IngredientId, usize>,
}

impl Rows {
    fn add(&mut self, id: IngredientId, part: Option<(Figure, Exact)>) {
        let index = *self.indices.entry(id).or_insert(self.rows.len());
        match self.rows.get_mut(index) {
            Some((_, parts)) => parts.extend(part),
            None => self.rows.push((id, part.into_iter().collect())),
        }
    }
}
