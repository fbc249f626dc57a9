//! The stages of a sheet, in the order in which they are made: what is not weighed follows from what is.

use levamen_balance::{BalancedItem, BalancedLine, BalancedStage, Batch};
use levamen_formula::{Scale, StageKind};
use levamen_language::SeedFate;
use levamen_quantity::Mass;

use super::cells::{Place, Weighed, takers, takes_the_rest};
use super::lines::{LineSheet, LineSource, StageSheet};
use crate::rounding_error::RoundingError;
use crate::scales;
use crate::weight::Weight;

/// Fills the tubs one after the other.
pub fn fill(
    batch: &Batch<'_>,
    weighed: &Weighed<'_>,
    scales: &[Scale],
) -> Result<Vec<StageSheet>, RoundingError> {
    let mut filling = Filling { batch, weighed, scales, done: Vec::new(), to_give_back: Vec::new() };
    for (at, stage) in batch.balance().stages.iter().enumerate() {
        filling.add(at, stage)?;
    }
    Ok(filling.done)
}

/// The stages so far. What later ones take is written down in the earlier ones as it is taken.
struct Filling<'f> {
    batch: &'f Batch<'f>,
    weighed: &'f Weighed<'f>,
    scales: &'f [Scale],
    done: Vec<StageSheet>,
    /// The seed that went into each stage, and into the builds that it grew from, and is still to be given back.
    to_give_back: Vec<SeedWeight>,
}

/// A weight of seed, with and without rounding.
#[derive(Default, Clone)]
struct SeedWeight {
    weight: Weight,
    exact: Mass,
}

impl Filling<'_> {
    fn add(&mut self, at: usize, stage: &BalancedStage) -> Result<(), RoundingError> {
        let mut lines = Vec::with_capacity(stage.lines.len());
        for (index, line) in stage.lines.iter().enumerate() {
            let (weight, source) = self.weight((at, index), line)?;
            lines.push(self.line(stage, line, weight, source));
        }
        let weighed_in = Weight::try_sum(lines.iter().map(|line| line.weight))?;
        let made = self.made(stage, weighed_in)?;
        let to_give_back = self.to_give_back(&lines)?;
        let given_back = self.given_back(stage, &to_give_back)?.min(made);
        self.to_give_back.push(if given_back.is_zero() { to_give_back } else { SeedWeight::default() });
        let is_last = stage.kind == StageKind::FinalDough;
        let rest = made.try_sub(given_back)?;
        self.done.push(StageSheet {
            name: stage.name.clone(),
            kind: stage.kind,
            lines,
            steam: weighed_in.try_sub(made)?,
            taken: if is_last { rest } else { Weight::ZERO },
            left_over: if is_last { Weight::ZERO } else { rest },
            made,
            division: None,
            given_back,
            ripens: stage.ripens.clone(),
            notes: stage.notes.clone(),
        });
        Ok(())
    }

    /// What a line weighs and where that comes from.
    fn weight(&mut self, place: Place, line: &BalancedLine) -> Result<(Weight, LineSource), RoundingError> {
        let stages = &self.batch.balance().stages;
        if takes_the_rest(stages, place, line)
            && let BalancedItem::Stage(tub) = line.item
        {
            let alone = takers(stages, tub).count() == 1;
            let source = if alone { LineSource::WholeTub } else { LineSource::RestOfTub };
            return Ok((self.take(tub, None)?, source));
        }
        let Some(&(weight, scale)) = self.weighed.get(&place) else {
            return Err(RoundingError::internal("a line is neither weighed nor the rest of a tub"));
        };
        let weight = match line.item {
            BalancedItem::Stage(tub) if tub < place.0 => self.take(tub, Some((weight, scale)))?,
            _ => weight,
        };
        Ok((weight, LineSource::Weighed(scales::put(scale, weight)?)))
    }

    /// Takes a weight out of a tub, or all that is there; never more than there is.
    fn take(&mut self, tub: usize, wanted: Option<(Weight, &Scale)>) -> Result<Weight, RoundingError> {
        let Some(stage) = self.done.get_mut(tub) else {
            return Err(RoundingError::internal("a stage takes of one that is not made yet"));
        };
        let taken = match wanted {
            Some((weight, _)) if weight <= stage.left_over => weight,
            Some((_, scale)) => Weight::not_over(&stage.left_over.as_exact(), &scale.division)?,
            None => stage.left_over,
        };
        stage.left_over = stage.left_over.try_sub(taken)?;
        stage.taken = stage.taken.try_add(taken)?;
        Ok(taken)
    }

    fn line(
        &self,
        stage: &BalancedStage,
        line: &BalancedLine,
        weight: Weight,
        source: LineSource,
    ) -> LineSheet {
        LineSheet {
            name: line.name.clone(),
            item: line.item,
            from: line.from,
            when: line.when.clone(),
            weight,
            division: None,
            exact: self.batch.mass(&line.share),
            of_own_flour: stage.of_own_flour(line),
            of_all_flour: line.share.clone(),
            source,
            remedy: None,
        }
    }

    /// What stands in the tub. Steam is not weighed, so what is left of it is a weight that its scale can show; it
    /// is never more than went in.
    fn made(&self, stage: &BalancedStage, weighed_in: Weight) -> Result<Weight, RoundingError> {
        if stage.steam.fraction().is_zero() {
            return Ok(weighed_in);
        }
        let made = &weighed_in.as_exact() - &self.batch.mass(&stage.steam);
        Ok(scales::nearest(self.scales, &made)?.clamp(Weight::ZERO, weighed_in))
    }

    /// The seed in a tub that is to be given back: what was weighed in, and what came in a whole tub.
    fn to_give_back(&self, lines: &[LineSheet]) -> Result<SeedWeight, RoundingError> {
        let mut to_give_back = SeedWeight::default();
        for line in lines {
            let seed = match line.item {
                BalancedItem::Seed(SeedFate::GivenBack) => {
                    SeedWeight { weight: line.weight, exact: line.exact.clone() }
                }
                BalancedItem::Stage(tub) if line.source == LineSource::WholeTub => {
                    let to_give_back = self.to_give_back.get(tub).cloned();
                    to_give_back
                        .ok_or_else(|| RoundingError::internal("a stage takes of one that is not made yet"))?
                }
                _ => continue,
            };
            to_give_back = SeedWeight {
                weight: to_give_back.weight.try_add(seed.weight)?,
                exact: &to_give_back.exact + &seed.exact,
            };
        }
        Ok(to_give_back)
    }

    /// What is kept for the next seed: as much as the seed that went in, so that the culture neither grows nor
    /// shrinks; where the two differ, as much as the dough says.
    fn given_back(&self, stage: &BalancedStage, to_give_back: &SeedWeight) -> Result<Weight, RoundingError> {
        let wanted = self.batch.mass(&stage.given_back);
        if wanted == to_give_back.exact {
            Ok(to_give_back.weight)
        } else {
            scales::nearest(self.scales, &wanted)
        }
    }
}
