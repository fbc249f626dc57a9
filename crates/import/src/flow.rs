//! What becomes of each stage: taken whole, left over in part, or its seed given back.

use levamen_language::Problem;
use levamen_quantity::Mass;
use rustc_hash::FxHashSet;

use crate::problems;
use crate::recipe::{FINAL_DOUGH, Recipe, RecipeItem, RecipeLine, RecipeRow, RecipeStage, RecipeStageId};

/// How the stages of a recipe go into each other.
#[derive(Debug)]
pub(crate) struct Flow {
    /// The stage that no other takes.
    pub(crate) final_dough: RecipeStageId,
    left_over: FxHashSet<RecipeStageId>,
    /// The stages whose own seed is given back.
    given_back: FxHashSet<RecipeStageId>,
}

impl Flow {
    /// Follows every stage to the final dough.
    ///
    /// # Errors
    /// Stages that take in each other, no single final dough, more taken than made.
    pub(crate) fn trace(recipe: &Recipe<'_>) -> Result<Self, Vec<Problem>> {
        if let Some(circle) = circle(recipe) {
            return Err(vec![problems::feeds_itself(&circle)]);
        }
        let uses = StageUses::of(recipe);
        let final_dough = uses.final_dough().map_err(|problem| vec![problem])?;
        let overdrawn: Vec<Problem> = uses.overdrawn(final_dough).collect();
        if !overdrawn.is_empty() {
            return Err(overdrawn);
        }
        let mut flow =
            Self { final_dough, left_over: FxHashSet::default(), given_back: FxHashSet::default() };
        for (id, _) in recipe.stages().filter(|(id, _)| *id != final_dough && uses.surplus(*id).is_some()) {
            match uses.seeds_given_back(id, final_dough) {
                Some(stages) => flow.given_back.extend(stages),
                None => flow.left_over.extend([id]),
            }
        }
        Ok(flow)
    }

    /// Whether some of a stage is made and not taken.
    pub(crate) fn is_left_over(&self, stage: RecipeStageId) -> bool {
        self.left_over.contains(&stage)
    }

    /// Whether the seed that is weighed into a stage is given back.
    pub(crate) fn is_given_back(&self, stage: RecipeStageId) -> bool {
        self.given_back.contains(&stage)
    }
}

/// What is made of each stage and who takes it.
struct StageUses<'t, 'r> {
    recipe: &'t Recipe<'r>,
    uses: Vec<StageUse<'t, 'r>>,
}

#[derive(Default)]
struct StageUse<'t, 'r> {
    made: Mass,
    taken: Mass,
    takers: Vec<(RecipeStageId, &'t RecipeLine<'r>)>,
}

impl<'t, 'r> StageUses<'t, 'r> {
    fn of(recipe: &'t Recipe<'r>) -> Self {
        let mut uses: Vec<StageUse<'t, 'r>> = recipe.stages.iter().map(|_| StageUse::default()).collect();
        for (id, stage) in recipe.stages() {
            if let Some(stage_use) = uses.get_mut(id.0) {
                stage_use.made = sum(stage.lines.iter());
            }
            for line in &stage.lines {
                if let RecipeItem::Stage(taken) = line.item
                    && let Some(stage_use) = uses.get_mut(taken.0)
                {
                    stage_use.taken = &stage_use.taken + &line.mass();
                    stage_use.takers.push((id, line));
                }
            }
        }
        Self { recipe, uses }
    }

    /// Each stage with its use.
    fn each(&self) -> impl Iterator<Item = (RecipeStageId, &RecipeStage<'r>, &StageUse<'t, 'r>)> {
        self.recipe.stages().zip(&self.uses).map(|((id, stage), stage_use)| (id, stage, stage_use))
    }

    /// The one stage that no other takes.
    fn final_dough(&self) -> Result<RecipeStageId, Problem> {
        let untaken: Vec<(RecipeStageId, &RecipeStage<'_>)> = self
            .each()
            .filter(|(.., stage_use)| stage_use.takers.is_empty())
            .map(|(id, stage, _)| (id, stage))
            .collect();
        let [(id, _)] = untaken.as_slice() else {
            let stages: Vec<&RecipeStage<'_>> = untaken.into_iter().map(|(_, stage)| stage).collect();
            return Err(problems::several_final_doughs(&stages));
        };
        let named_so = |stage: &RecipeStage<'_>| levamen_formula::key(stage.name) == FINAL_DOUGH;
        let taken = self.each().find(|(own, stage, _)| own != id && named_so(stage));
        match taken.and_then(|(_, stage, stage_use)| Some((stage, stage_use.takers.first()?))) {
            Some((stage, (_, line))) => Err(problems::final_dough_taken(stage, line.row)),
            None => Ok(*id),
        }
    }

    /// The stages of which more is taken than made.
    fn overdrawn(&self, final_dough: RecipeStageId) -> impl Iterator<Item = Problem> {
        let overdrawn = self
            .each()
            .filter(move |(id, _, stage_use)| *id != final_dough && stage_use.taken > stage_use.made);
        overdrawn.map(move |(_, stage, stage_use)| {
            let rows: Vec<&RecipeRow> = stage_use.takers.iter().flat_map(|(_, line)| line.rows()).collect();
            problems::more_taken_than_made(
                stage,
                &rows,
                (&stage_use.taken, &stage_use.made),
                self.recipe.unit,
            )
        })
    }

    /// What is made of a stage and not taken; `None` of nothing.
    fn surplus(&self, id: RecipeStageId) -> Option<Mass> {
        let stage_use = self.uses.get(id.0)?;
        Some(&stage_use.made - &stage_use.taken).filter(|surplus| *surplus > Mass::ZERO)
    }

    /// Who takes a stage, where only one does.
    fn only_taker(&self, id: RecipeStageId) -> Option<RecipeStageId> {
        match self.uses.get(id.0)?.takers.as_slice() {
            [(taker, _)] => Some(*taker),
            _ => None,
        }
    }

    /// The stages whose seeds are together as much as a stage has left: the same weight of ripe culture is kept
    /// for the next seed. `None` where what is left over is something else.
    ///
    /// A seed is given back out of the last stage that grew from it, the one that goes into the final dough.
    fn seeds_given_back(&self, id: RecipeStageId, final_dough: RecipeStageId) -> Option<Vec<RecipeStageId>> {
        if self.only_taker(id) != Some(final_dough) {
            return None;
        }
        let surplus = self.surplus(id)?;
        if self.seeds(id) == surplus {
            return Some(vec![id]);
        }
        let grown: Vec<RecipeStageId> =
            self.grown_into(id).into_iter().filter(|id| self.seeds(*id) > Mass::ZERO).collect();
        let whole = grown.iter().fold(Mass::ZERO, |sum, id| &sum + &self.seeds(*id));
        (whole == surplus).then_some(grown)
    }

    /// The stages that go whole into a stage and nowhere else, and itself.
    fn grown_into(&self, id: RecipeStageId) -> Vec<RecipeStageId> {
        let mut found = vec![id];
        let mut next = 0;
        while let Some(stage) = found.get(next).and_then(|id| self.recipe.stage(*id)) {
            let taken = stage.lines.iter().filter_map(|line| match line.item {
                RecipeItem::Stage(taken) => Some(taken),
                _ => None,
            });
            let is_whole = |id: &RecipeStageId| self.only_taker(*id).is_some() && self.surplus(*id).is_none();
            found.extend(taken.filter(is_whole));
            next += 1;
        }
        found
    }

    /// What seed is weighed into a stage.
    fn seeds(&self, id: RecipeStageId) -> Mass {
        let lines = self.recipe.stage(id).map(|stage| stage.lines.as_slice()).unwrap_or_default();
        sum(lines.iter().filter(|line| line.item == RecipeItem::Seed))
    }
}

fn sum<'l>(lines: impl Iterator<Item = &'l RecipeLine<'l>>) -> Mass {
    lines.fold(Mass::ZERO, |sum, line| &sum + &line.mass())
}

/// Stages that take in each other, each with the row that takes the next one; `None` where there are none.
fn circle<'t, 'r>(recipe: &'t Recipe<'r>) -> Option<Vec<(&'t RecipeStage<'r>, &'r RecipeRow)>> {
    let mut done: FxHashSet<RecipeStageId> = FxHashSet::default();
    for (start, _) in recipe.stages() {
        // A walk in depth with its own stack: a long chain of stages must not use up the program's.
        let mut path: Vec<(RecipeStageId, usize)> = vec![(start, 0)];
        let mut open: FxHashSet<RecipeStageId> = FxHashSet::from_iter([start]);
        while let Some((id, next)) = path.last_mut() {
            let line =
                recipe.stage(*id).filter(|_| !done.contains(id)).and_then(|stage| stage.lines.get(*next));
            let Some(line) = line else {
                open.remove(id);
                done.insert(*id);
                path.pop();
                continue;
            };
            *next += 1;
            let RecipeItem::Stage(taken) = line.item else { continue };
            if open.contains(&taken) {
                let begins = path.iter().position(|(id, _)| *id == taken)?;
                return path
                    .get(begins..)
                    .map(|circle| circle.iter().filter_map(|step| row_of(recipe, *step)).collect());
            }
            if !done.contains(&taken) {
                open.insert(taken);
                path.push((taken, 0));
            }
        }
    }
    None
}

/// A step on a path: the stage, and the row of it that was gone along.
fn row_of<'t, 'r>(
    recipe: &'t Recipe<'r>,
    (id, next): (RecipeStageId, usize),
) -> Option<(&'t RecipeStage<'r>, &'r RecipeRow)> {
    let stage = recipe.stage(id)?;
    let line = stage.lines.get(next.checked_sub(1)?)?;
    Some((stage, line.row))
}
