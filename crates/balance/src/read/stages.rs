//! The stages of a balance, those of separate batches among them.

use levamen_formula::{self as formula, IngredientId, StageId, StageKind, Variable};
use levamen_language::{Problem, Spoils};
use levamen_quantity::{Exact, Share};
use rustc_hash::FxHashSet;

use super::BalanceReader;
use crate::figures::{BalancedItem, BalancedLine, BalancedStage, Spoiling};
use crate::solved::Mixture;

/// Collects the stages in the order in which they are made.
pub(super) struct StagesBuilder<'r> {
    reading: &'r BalanceReader<'r>,
    stages: Vec<BalancedStage>,
    /// Where each stage of the formula is in the list.
    index: Vec<Option<usize>>,
    /// Whether flour in each stage ferments: the stage does, or one that it goes into ahead of the final dough.
    ferments: Vec<bool>,
    fermented: Exact,
}

impl<'r> StagesBuilder<'r> {
    pub(super) fn new(reading: &'r BalanceReader<'r>) -> Self {
        let formula = reading.solved.formula;
        let (index, ferments) = (vec![None; formula.stages.len()], formula.ferments());
        Self { reading, stages: Vec::new(), index, ferments, fermented: Exact::ZERO }
    }

    /// The stages, and the flour that ferments ahead.
    pub(super) fn finish(self) -> (Vec<BalancedStage>, Exact) {
        (self.stages, self.fermented)
    }

    /// Adds one stage of the formula; what goes into a separate batch comes with that batch.
    pub(super) fn add(&mut self, id: StageId, stage: &formula::Stage) -> Result<(), Box<Problem>> {
        if let Some(mixture) = self.reading.parts.separate.get(&id) {
            self.add_separate(id, stage, mixture)?;
        } else if self.reading.solved.equations.is_within(id) {
            self.add_within(id, stage)?;
        } else {
            return Ok(());
        }
        if let Some(slot) = self.index.get_mut(id.index()) {
            *slot = self.stages.len().checked_sub(1);
        }
        Ok(())
    }

    fn ferments(&self, id: StageId) -> bool {
        self.ferments.get(id.index()) == Some(&true)
    }

    /// A stage of the dough's own matrix.
    fn add_within(&mut self, id: StageId, stage: &formula::Stage) -> Result<(), Box<Problem>> {
        let reading = self.reading;
        let gross = reading.solved.equations.gross(id).cloned().unwrap_or(Exact::ONE);
        let weighed = |figure| &reading.value(figure) * &gross;
        let (lines, line_water) = self.lines((id, stage), &gross)?;
        let (intake_flour, intake_water) = self.add_intakes(id, &gross);
        let flour = &weighed(Variable::OwnFlour(id)) + &intake_flour;
        let water = &line_water + &intake_water;
        let given_back = reading.given_back(id);
        let made = &weighed(Variable::Weight(id)) + &given_back;
        let whole: Exact = lines.iter().map(|line| line.share.fraction()).sum();
        let left_over = match &stage.left_over {
            Some(formula::LeftOver::Share(share, _)) => &made * share.fraction(),
            _ => Exact::ZERO,
        };
        let content = reading.value(Variable::Content(id));
        self.stages.push(BalancedStage {
            name: stage.name.to_string(),
            kind: stage.kind,
            own_flour: Share::from_fraction(weighed(Variable::OwnFlour(id))),
            flour: Share::from_fraction(flour),
            water: Share::from_fraction(water),
            hydration: reading
                .value(Variable::ContentWater(id))
                .checked_div(&content)
                .map(Share::from_fraction),
            prefermented_flour: self.through(id, stage, content),
            lines,
            steam: Share::from_fraction(&whole - &made),
            taken: Share::from_fraction(&(&made - &left_over) - &given_back),
            made: Share::from_fraction(made),
            given_back: Share::from_fraction(given_back),
            left_over: Share::from_fraction(left_over),
            ripens: stage.ripens.clone(),
            notes: notes(stage),
        });
        Ok(())
    }

    /// What is weighed into a stage by its lines, and the added water among it.
    fn lines(
        &self,
        (id, stage): (StageId, &formula::Stage),
        gross: &Exact,
    ) -> Result<(Vec<BalancedLine>, Exact), Box<Problem>> {
        let mut lines = Vec::with_capacity(stage.lines.len());
        let mut water = Exact::ZERO;
        for (index, line) in (0..).zip(&stage.lines) {
            let read = self.line((id, stage), index, line, gross)?;
            if let BalancedItem::Ingredient { id: ingredient, is_water: true, .. } = read.item {
                water += &(&self.reading.value(stage.weighed_as(id, index, ingredient)) * gross);
            }
            // An ingredient of the whole that the stages have used up is nothing to weigh here.
            if line.amount.is_some() || !read.share.fraction().is_zero() {
                lines.push(read);
            }
        }
        Ok((in_order(lines), water))
    }

    /// Flour and water that come into a stage with seeds and pieces of dough. What ferments of it, and of the stage's own
    /// flour, is added to the flour that ferments ahead.
    fn add_intakes(&mut self, id: StageId, gross: &Exact) -> (Exact, Exact) {
        let reading = self.reading;
        let (mut flour, mut water) = (Exact::ZERO, Exact::ZERO);
        if self.ferments(id) {
            self.fermented += &reading.value(Variable::OwnFlour(id));
        }
        for intake in reading.solved.equations.intakes() {
            if intake.stage != id || !intake.stays() {
                continue;
            }
            let taken = &reading.value(Variable::Intake(id, intake.line)) * gross;
            self.fermented += &(&(&taken * &self.fermented_share(intake)) / gross);
            if !matches!(intake.item, formula::Item::Stage(_)) {
                flour += &(&taken * &intake.flour);
                water += &(&taken * &intake.water);
            }
        }
        (flour, water)
    }

    /// The flour that the dough gets through a stage, where it ferments ahead.
    fn through(&self, id: StageId, stage: &formula::Stage, content: Exact) -> Share {
        let ahead = stage.kind != StageKind::FinalDough && self.ferments(id);
        Share::from_fraction(if ahead { content } else { Exact::ZERO })
    }

    /// Fermented flour in a gram of what is taken.
    fn fermented_share(&self, intake: &formula::Intake) -> Exact {
        let formula::Item::Stage(child) = intake.item else { return intake.flour.clone() };
        if self.ferments(child) || self.ferments(intake.stage) {
            return intake.flour.clone();
        }
        let separate = self.reading.parts.separate.get(&child).map(|mixture| &mixture.balance);
        let share = separate
            .and_then(|balance| balance.prefermented_flour.fraction().checked_div(balance.weight.fraction()));
        debug_assert!(
            share.is_some(),
            "what is taken of a stage is of a batch of its own, which weighs something"
        );
        share.unwrap_or_default()
    }

    fn line(
        &self,
        (id, stage): (StageId, &formula::Stage),
        index: u32,
        line: &formula::WeighedLine,
        gross: &Exact,
    ) -> Result<BalancedLine, Box<Problem>> {
        let reading = self.reading;
        let taken = || &reading.value(Variable::Intake(id, index)) * gross;
        let (item, weight) = match line.item {
            formula::Item::Ingredient(ingredient) => {
                let known = reading.pantry.get(ingredient);
                let item = BalancedItem::Ingredient {
                    id: ingredient,
                    is_flour: known.is_some_and(|known| known.is_flour),
                    is_water: known.is_some_and(formula::Ingredient::is_water),
                };
                (item, reading.weighed(id, ingredient, stage.weighed_as(id, index, ingredient)))
            }
            formula::Item::Stage(child) => {
                let index = self.index.get(child.index()).copied().flatten();
                let index = index.ok_or_else(|| internal("a stage is used before it is made"))?;
                let item = BalancedItem::Stage(index);
                let within = reading.solved.equations.is_within(child);
                (item, if within { &reading.value(Variable::Weight(child)) * gross } else { taken() })
            }
            formula::Item::Seed(_, fate) => (BalancedItem::Seed(fate), taken()),
            formula::Item::Piece(_) | formula::Item::OwnPiece => (BalancedItem::Piece, taken()),
        };
        let from = match line.item {
            formula::Item::Seed(source, _) | formula::Item::Piece(source) => Some(source),
            _ => None,
        };
        let spoiling = self.spoiling(id, index, line);
        let when = line.when.as_ref().map(ToString::to_string);
        let share = Share::from_fraction(weight);
        Ok(BalancedLine { name: line.name.to_string(), item, from, share, spoiling, when })
    }

    /// The foods that spoil in a line.
    fn spoiling(&self, id: StageId, index: u32, line: &formula::WeighedLine) -> Vec<Spoiling> {
        let known = |ingredient: IngredientId, name: Option<&str>| {
            let known = self.reading.pantry.get(ingredient)?;
            let when_wet = match known.spoils() {
                Spoils::Never => return None,
                spoils => spoils == Spoils::WhenWet,
            };
            Some(Spoiling { name: name.unwrap_or(&known.name).to_owned(), when_wet })
        };
        match line.item {
            formula::Item::Ingredient(ingredient) => {
                known(ingredient, Some(&line.name)).into_iter().collect()
            }
            formula::Item::Stage(_) => Vec::new(),
            _ => {
                let mut intakes = self.reading.solved.equations.intakes().iter();
                let intake = intakes.find(|intake| intake.stage == id && intake.line == index);
                let parts = intake.into_iter().flat_map(formula::Intake::parts);
                parts.filter_map(|(ingredient, _)| known(*ingredient, None)).collect()
            }
        }
    }

    /// A separate batch: its own stages at the size in which it is made.
    fn add_separate(
        &mut self,
        id: StageId,
        stage: &formula::Stage,
        mixture: &Mixture,
    ) -> Result<(), Box<Problem>> {
        let reading = self.reading;
        let (made, left_over) = (reading.value(Variable::Made(id)), reading.value(Variable::LeftOver(id)));
        let taken = &made - &left_over;
        let scale = made.checked_div(mixture.balance.weight.fraction());
        let scale = scale.ok_or_else(|| internal("a batch of its own weighs nothing"))?;
        // Of a batch of which nothing is made, nothing goes into the dough.
        let into_dough = taken.checked_div(&made).unwrap_or_default();
        let offset = self.stages.len();
        for inner in &mixture.balance.stages {
            let mut inner = scaled(inner, &scale, offset);
            inner.prefermented_flour = times(&inner.prefermented_flour, &into_dough);
            self.stages.push(inner);
        }
        let content = &taken * mixture.composition.flour();
        let prefermented_flour = self.through(id, stage, content);
        let last = self.stages.last_mut().ok_or_else(|| internal("a batch of its own has no stage"))?;
        last.kind = stage.kind;
        last.name = stage.name.to_string();
        last.prefermented_flour = prefermented_flour;
        last.left_over = Share::from_fraction(left_over);
        last.taken = Share::from_fraction(taken);
        Ok(())
    }
}

impl BalanceReader<'_> {
    /// What of a stage is kept for the next seed before the final dough is mixed.
    fn given_back(&self, id: StageId) -> Exact {
        let equations = &self.solved.equations;
        let of_stage = equations
            .intakes()
            .iter()
            .filter(|intake| intake.item.is_given_back() && equations.goes_on_as(intake.stage) == Some(id));
        of_stage.map(|intake| self.value(Variable::Intake(intake.stage, intake.line))).sum()
    }
}

/// The lines in the order of the text; what goes in again comes after all else.
fn in_order(lines: Vec<BalancedLine>) -> Vec<BalancedLine> {
    let mut seen = FxHashSet::default();
    let is_first = |line: &BalancedLine| match line.item {
        BalancedItem::Ingredient { id, .. } => seen.insert(id),
        _ => true,
    };
    let (mut first, again): (Vec<BalancedLine>, Vec<BalancedLine>) = lines.into_iter().partition(is_first);
    first.extend(again);
    first
}

/// Something that the order of the stages rules out.
fn internal(what: &str) -> Box<Problem> {
    Box::new(Problem::internal(what))
}

fn times(share: &Share, factor: &Exact) -> Share {
    Share::from_fraction(share.fraction() * factor)
}

/// A stage of a separate batch at the size that the dough needs. It keeps nothing for a seed: that is refused there.
fn scaled(stage: &BalancedStage, factor: &Exact, offset: usize) -> BalancedStage {
    let lines = stage.lines.iter().map(|line| BalancedLine {
        name: line.name.clone(),
        item: match line.item {
            BalancedItem::Stage(index) => BalancedItem::Stage(index + offset),
            other => other,
        },
        from: line.from,
        when: line.when.clone(),
        share: times(&line.share, factor),
        spoiling: line.spoiling.clone(),
    });
    BalancedStage {
        lines: lines.collect(),
        own_flour: times(&stage.own_flour, factor),
        flour: times(&stage.flour, factor),
        water: times(&stage.water, factor),
        prefermented_flour: times(&stage.prefermented_flour, factor),
        made: times(&stage.made, factor),
        steam: times(&stage.steam, factor),
        left_over: times(&stage.left_over, factor),
        taken: times(&stage.taken, factor),
        ..stage.clone()
    }
}

fn notes(stage: &formula::Stage) -> Vec<String> {
    stage.notes.iter().map(ToString::to_string).collect()
}
