//! Wanting a figure of a dough: what other lines say of the same figure makes way for it.

use levamen_quantity::Share;

use crate::formula::Formula;
use crate::ingredient::{Ingredient, IngredientId};
use crate::pantry::Pantry;
use crate::stage::{Item, Measure, Stage, StageId, WeighedLine};
use crate::want::{NamedFigure, Relation, Want};

impl Formula {
    /// Wants a figure of the dough. What other lines say of the same figure makes way for it; a bound leaves them.
    pub fn want(&mut self, want: Want, pantry: &Pantry) {
        if want.relation == Relation::Exactly {
            self.release(want.figure, pantry);
        }
        self.wants.push(want);
    }

    /// Takes back what the lines say of a figure: the balance may choose it. Returns whether anything was said.
    pub fn release(&mut self, figure: NamedFigure, pantry: &Pantry) -> bool {
        let before = self.wants.len();
        self.wants.retain(|want| want.figure != figure);
        let mut release = Release { found: self.wants.len() < before, pantry };
        match figure {
            NamedFigure::Hydration(None) | NamedFigure::Water(None) | NamedFigure::DoughYield => {
                release.rows(self, Ingredient::is_water);
            }
            NamedFigure::EffectiveHydration => release.rows(self, Ingredient::is_water),
            NamedFigure::Salt => release.rows(self, |known| known.salt == Share::WHOLE),
            NamedFigure::Row(id) => release.row(self, id),
            NamedFigure::Dough | NamedFigure::ToDivide | NamedFigure::Flour(None) => {
                release.take(&mut self.make);
                release.found |= !std::mem::replace(&mut self.is_resized, true);
            }
            NamedFigure::Taken(id)
            | NamedFigure::Made(id)
            | NamedFigure::Flour(Some(id))
            | NamedFigure::PrefermentedFlour(Some(id)) => {
                release.size(self, id);
            }
            NamedFigure::PrefermentedFlour(None) => {
                self.outer_pre_ferments().into_iter().for_each(|id| release.size(self, id));
            }
            NamedFigure::Hydration(Some(id)) | NamedFigure::Water(Some(id)) => release.water_of(self, id),
            NamedFigure::Line(id, line) => {
                if let Some(line) =
                    self.stages.get_mut(id.index()).and_then(|stage| stage.lines.get_mut(line as usize))
                {
                    release.take(&mut line.amount);
                }
            }
            NamedFigure::Cell(id, ingredient) => {
                if let Some(stage) = self.stages.get_mut(id.index()) {
                    release.cell(stage, ingredient);
                }
            }
            NamedFigure::Seed(id) => release.lines(self, id, |item, _| matches!(item, Item::Seed(..))),
            NamedFigure::OwnFlour(id) => {
                release.lines(self, id, |item, pantry| is(item, pantry, |known| known.is_flour));
            }
            NamedFigure::LeftOver(id) | NamedFigure::Steam(id) | NamedFigure::GivenBack(id) => {
                if let Some(stage) = self.stages.get_mut(id.index()) {
                    release.take(&mut stage.left_over);
                }
            }
        }
        release.found
    }
}

impl Formula {
    /// The pre-ferments but those that go into others alone: a build keeps its own share, and only what the dough takes
    /// of its levain is open.
    fn outer_pre_ferments(&self) -> Vec<StageId> {
        let outer_stages = |id: StageId| {
            self.stages()
                .filter(move |(_, stage)| stage.lines.iter().any(|line| line.item == Item::Stage(id)))
        };
        let is_build = |id: StageId| {
            let mut outer_stages = outer_stages(id).peekable();
            outer_stages.peek().is_some() && outer_stages.all(|(_, outer)| outer.kind.ferments())
        };
        let ahead = self.stages().filter(|(_, stage)| stage.kind.ferments()).map(|(id, _)| id);
        ahead.filter(|id| !is_build(*id)).collect()
    }
}

/// Taking back what lines say.
struct Release<'p> {
    found: bool,
    pantry: &'p Pantry,
}

impl Release<'_> {
    fn take<T>(&mut self, said: &mut Option<T>) {
        self.found |= said.take().is_some();
    }

    /// What goes in at several times: the first line that says how much makes way, unless one leaves it open already.
    fn cell(&mut self, stage: &mut Stage, ingredient: IngredientId) {
        let is_open =
            |line: &WeighedLine| line.amount.as_ref().is_none_or(|amount| amount.measure == Measure::Rest);
        let mut lines = stage.lines.iter_mut().filter(|line| line.item == Item::Ingredient(ingredient));
        if let Some(first) = lines.next()
            && !is_open(first)
            && !lines.any(|line| is_open(line))
        {
            self.take(&mut first.amount);
        }
    }

    /// An ingredient of the whole dough: what `overall` says of it, and otherwise what the final dough does.
    fn row(&mut self, formula: &mut Formula, id: IngredientId) {
        self.items(formula, |item, _| item == Item::Ingredient(id));
        if is(Item::Ingredient(id), self.pantry, Ingredient::is_water) {
            formula.overall.iter_mut().for_each(|overall| self.take(&mut overall.hydration));
        }
    }

    fn rows(&mut self, formula: &mut Formula, wanted: fn(&Ingredient) -> bool) {
        self.items(formula, |item, pantry| is(item, pantry, wanted));
        formula.overall.iter_mut().for_each(|overall| self.take(&mut overall.hydration));
    }

    fn items(&mut self, formula: &mut Formula, wanted: impl Fn(Item, &Pantry) -> bool) {
        let pantry = self.pantry;
        let overall = formula.overall.iter_mut().flat_map(|overall| &mut overall.lines);
        let listed = overall.filter(|line| wanted(line.item, pantry));
        let mut listed: Vec<_> = listed.map(|line| &mut line.amount).collect();
        if listed.is_empty() {
            let last = formula.stages.last_mut().into_iter().flat_map(|stage| &mut stage.lines);
            listed.extend(last.filter(|line| wanted(line.item, pantry)).map(|line| &mut line.amount));
        }
        for amount in listed {
            self.take(amount);
        }
    }

    fn lines(&mut self, formula: &mut Formula, id: StageId, wanted: impl Fn(Item, &Pantry) -> bool) {
        let lines = formula.stages.get_mut(id.index()).into_iter().flat_map(|stage| &mut stage.lines);
        for line in lines.filter(|line| wanted(line.item, self.pantry)) {
            self.found |= line.amount.take().is_some();
        }
    }

    /// How much of a stage is taken.
    fn size(&mut self, formula: &mut Formula, id: StageId) {
        if let Some(Stage { takes, weighs, .. }) = formula.stages.get_mut(id.index()) {
            self.take(takes);
            self.take(weighs);
        }
        for line in formula.stages.iter_mut().flat_map(|stage| &mut stage.lines) {
            if line.item == Item::Stage(id) {
                self.take(&mut line.amount);
            }
        }
    }

    fn water_of(&mut self, formula: &mut Formula, id: StageId) {
        if let Some(stage) = formula.stages.get_mut(id.index()) {
            self.take(&mut stage.hydration);
        }
        self.lines(formula, id, |item, pantry| is(item, pantry, Ingredient::is_water));
    }
}

fn is(item: Item, pantry: &Pantry, wanted: impl Fn(&Ingredient) -> bool) -> bool {
    matches!(item, Item::Ingredient(id) if pantry.get(id).is_some_and(wanted))
}
