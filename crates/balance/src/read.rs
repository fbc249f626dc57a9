//! From the values of figures to the figures that a baker reads.

mod stages;

use std::collections::BTreeMap;

use levamen_formula::{Formula, IngredientId, Item, Pantry, ResolvedMakeSize, StageId, Variable};
use levamen_language::Problem;
use levamen_quantity::{Exact, Mass, Share};

use crate::figures::{Balance, BalancedRow, BalancedStage, StatedSize};
use crate::problems;
use crate::solved::{Parts, Solved};

/// What a balance is read from.
pub(crate) struct BalanceReader<'r> {
    pub solved: &'r Solved<'r>,
    pub pantry: &'r Pantry,
    pub parts: &'r Parts,
}

impl BalanceReader<'_> {
    /// The balance.
    ///
    /// # Errors
    /// Where the dough takes more of a batch than is made, which shows only here.
    pub fn balance(&self) -> Result<Balance, Vec<Problem>> {
        let formula = self.solved.formula;
        let overall = self.overall();
        let (stages, fermented) = self.stages().map_err(|problem| vec![*problem])?;
        let weight = self.share(Variable::Dough);
        if !weight.fraction().is_positive() {
            return Err(vec![problems::weighs_nothing(formula)]);
        }
        Ok(Balance {
            dough: formula.name.to_string(),
            role: formula.role,
            hydration: self.share(Variable::Water),
            effective_hydration: self
                .part(&overall, |known| if known.is_flour { Share::default() } else { known.water.clone() }),
            salt: self.part(&overall, |known| known.salt.clone()),
            prefermented_flour: Share::from_fraction(fermented),
            size: self.size(formula),
            weight,
            overall,
            stages,
            notes: formula.notes.iter().map(ToString::to_string).collect(),
            standing_time: None,
        })
    }

    /// The value of a variable; zero where no equation mentions it, and where the size of the text leaves it free, as a
    /// gram of a dough in percentages.
    fn value(&self, figure: Variable) -> Exact {
        let id = self.solved.equations.id(figure);
        id.and_then(|id| self.solved.values.get(id)).cloned().unwrap_or_default()
    }

    fn share(&self, figure: Variable) -> Share {
        Share::from_fraction(self.value(figure))
    }

    /// How much of something all ingredients hold.
    fn part(&self, overall: &[BalancedRow], share: impl Fn(&levamen_formula::Ingredient) -> Share) -> Share {
        let known = overall.iter().filter_map(|row| Some((row, self.pantry.get(row.ingredient)?)));
        let parts = known.map(|(row, known)| row.share.fraction() * share(known).fraction());
        Share::from_fraction(parts.sum())
    }

    /// The rows of the whole dough: flours first, then in the order of `overall`, of the final dough and of the
    /// stages before it; by their names what comes with seeds and pieces of dough alone.
    fn overall(&self) -> Vec<BalancedRow> {
        let formula = self.solved.formula;
        let listed = formula.overall.iter().flat_map(|overall| &overall.lines);
        let weighed = formula.stages.iter().rev().flat_map(|stage| &stage.lines);
        let mut names: BTreeMap<IngredientId, (usize, &str)> = BTreeMap::new();
        for (order, line) in listed.chain(weighed).enumerate() {
            if let Item::Ingredient(id) = line.item {
                names.entry(id).or_insert((order, &line.name));
            }
        }
        let mut rows: Vec<(bool, usize, BalancedRow)> = Vec::new();
        for figure in self.solved.equations.variables() {
            let Variable::Row(id) = *figure else { continue };
            let Some(known) = self.pantry.get(id) else { continue };
            let (order, name) = names.get(&id).copied().unwrap_or((usize::MAX, known.name.as_str()));
            let row = BalancedRow {
                ingredient: id,
                name: name.to_owned(),
                is_flour: known.is_flour,
                share: self.share(*figure),
            };
            if !row.share.fraction().is_zero() {
                rows.push((!known.is_flour, order, row));
            }
        }
        rows.sort_by(|(is_other, order, row), other| {
            (is_other, order, &row.name).cmp(&(&other.0, &other.1, &other.2.name))
        });
        rows.into_iter().map(|(_, _, row)| row).collect()
    }

    /// Every stage in the order of making, and the flour that ferments ahead.
    fn stages(&self) -> Result<(Vec<BalancedStage>, Exact), Box<Problem>> {
        let mut builder = stages::StagesBuilder::new(self);
        for (id, stage) in self.solved.formula.stages() {
            builder.add(id, stage)?;
        }
        Ok(builder.finish())
    }

    /// How much the text says to bake.
    fn size(&self, formula: &Formula) -> StatedSize {
        let flour = |gram| Exact::ONE.checked_div(&self.value(gram)).map(Mass::from_grams);
        match (&formula.make, flour(Variable::BatchGram)) {
            (Some(make), Some(flour)) => {
                let pieces = match &make.size {
                    ResolvedMakeSize::Pieces(count, piece) => Some((*count, piece.clone())),
                    ResolvedMakeSize::Dough(_)
                    | ResolvedMakeSize::ToDivide(_)
                    | ResolvedMakeSize::Flour(_) => None,
                };
                StatedSize::Make { flour, pieces, loss: formula.loss.clone() }
            }
            (None, Some(flour)) if !formula.loss.fraction().is_zero() => {
                StatedSize::Make { flour, pieces: None, loss: formula.loss.clone() }
            }
            (_, Some(flour)) => StatedSize::Weights { flour },
            (_, None) => {
                flour(Variable::Gram).map_or(StatedSize::Open, |flour| StatedSize::Weights { flour })
            }
        }
    }

    /// What is weighed of an ingredient into a stage, by the figure of what of it reaches the dough.
    fn weighed(&self, stage: StageId, ingredient: IngredientId, figure: Variable) -> Exact {
        let is_water = self.pantry.get(ingredient).is_some_and(levamen_formula::Ingredient::is_water);
        let equations = &self.solved.equations;
        let gross = if is_water { equations.gross_water(stage) } else { equations.gross(stage).cloned() };
        &self.value(figure) * &gross.unwrap_or(Exact::ONE)
    }
}
