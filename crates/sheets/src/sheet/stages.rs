//! The stages of a sheet, in the order in which they are made: what is not weighed follows from what is.

use levamen_balance::{BalancedItem, BalancedLine, BalancedStage, Batch};
use levamen_formula::{Scale, StageKind};
use levamen_language::SeedFate;
use levamen_quantity::{Exact, Mass};

use super::cells::{Place, Weighed, takers, takes_the_rest};
use super::{LineSheet, Source, StageSheet, scales};

/// Fills the tubs one after the other.
pub fn fill(batch: &Batch<'_>, weighed: &Weighed<'_>, scales: &[Scale]) -> Vec<StageSheet> {
    let mut filling = Filling { batch, weighed, scales, done: Vec::new(), owed: Vec::new() };
    for (at, stage) in batch.balance().stages.iter().enumerate() {
        filling.add(at, stage);
    }
    filling.done
}

/// The stages so far. What later ones take is written down in the earlier ones as it is taken.
struct Filling<'f> {
    batch: &'f Batch<'f>,
    weighed: &'f Weighed<'f>,
    scales: &'f [Scale],
    done: Vec<StageSheet>,
    /// The seed that went into each stage, and into the builds that it grew from, and is still to be given back.
    owed: Vec<Seed>,
}

/// A weight of seed, with and without rounding.
#[derive(Default, Clone)]
struct Seed {
    weight: Mass,
    exact: Mass,
}

impl Filling<'_> {
    fn add(&mut self, at: usize, stage: &BalancedStage) {
        let mut lines = Vec::with_capacity(stage.lines.len());
        for (index, line) in stage.lines.iter().enumerate() {
            let (weight, source) = self.weight((at, index), line);
            lines.push(self.line(stage, line, weight, source));
        }
        let weighed_in = sum(lines.iter().map(|line| &line.weight));
        let made = self.made(stage, &weighed_in);
        let owed = self.owed(&lines);
        let given_back = self.given_back(stage, &owed).min(made.clone());
        self.owed.push(if given_back == Mass::ZERO { owed } else { Seed::default() });
        let is_last = stage.kind == StageKind::FinalDough;
        let rest = &made - &given_back;
        self.done.push(StageSheet {
            name: stage.name.clone(),
            kind: stage.kind,
            lines,
            steam: &weighed_in - &made,
            taken: if is_last { rest.clone() } else { Mass::ZERO },
            left_over: if is_last { Mass::ZERO } else { rest },
            made,
            given_back,
            ripens: stage.ripens.clone(),
            notes: stage.notes.clone(),
        });
    }

    /// What a line weighs and where that comes from.
    fn weight(&mut self, place: Place, line: &BalancedLine) -> (Mass, Source) {
        let stages = &self.batch.balance().stages;
        if takes_the_rest(stages, place, line)
            && let BalancedItem::Stage(tub) = line.item
        {
            let alone = takers(stages, tub).count() == 1;
            let source = if alone { Source::WholeTub } else { Source::RestOfTub };
            return (self.take(tub, None), source);
        }
        let Some((weight, scale)) = self.weighed.get(&place) else {
            return (self.batch.mass(&line.share), Source::RestOfTub);
        };
        let weight = match line.item {
            BalancedItem::Stage(tub) if tub < place.0 => self.take(tub, Some((weight, scale))),
            _ => weight.clone(),
        };
        let source = Source::Weighed(scales::put(scale, &weight));
        (weight, source)
    }

    /// Takes a weight out of a tub, or all that is there; never more than there is.
    fn take(&mut self, tub: usize, wanted: Option<(&Mass, &Scale)>) -> Mass {
        let Some(stage) = self.done.get_mut(tub) else { return Mass::ZERO };
        let taken = match wanted {
            Some((weight, _)) if *weight <= stage.left_over => weight.clone(),
            Some((_, scale)) => whole_divisions(&stage.left_over, scale),
            None => stage.left_over.clone(),
        };
        stage.left_over = &stage.left_over - &taken;
        stage.taken = &stage.taken + &taken;
        taken
    }

    fn line(&self, stage: &BalancedStage, line: &BalancedLine, weight: Mass, source: Source) -> LineSheet {
        LineSheet {
            name: line.name.clone(),
            item: line.item,
            from: line.from,
            when: line.when.clone(),
            weight,
            exact: self.batch.mass(&line.share),
            of_own_flour: stage.of_own_flour(line),
            of_all_flour: line.share.clone(),
            source,
            remedy: None,
        }
    }

    /// What stands in the tub. Steam is not weighed, so what is left of it is a weight that its scale can show; it
    /// is never more than went in.
    fn made(&self, stage: &BalancedStage, weighed_in: &Mass) -> Mass {
        if stage.steam.fraction().is_zero() {
            return weighed_in.clone();
        }
        let made = weighed_in - &self.batch.mass(&stage.steam);
        let Some(scale) = scales::for_weight(self.scales, &made) else { return made };
        made.round_to(&scale.division).clamp(Mass::ZERO, weighed_in.clone())
    }

    /// The seed in a tub that is to be given back: what was weighed in, and what came in a whole tub.
    fn owed(&self, lines: &[LineSheet]) -> Seed {
        let mut owed = Seed::default();
        for line in lines {
            let seed = match line.item {
                BalancedItem::Seed(SeedFate::GivenBack) => {
                    Seed { weight: line.weight.clone(), exact: line.exact.clone() }
                }
                BalancedItem::Stage(tub) if line.source == Source::WholeTub => {
                    self.owed.get(tub).cloned().unwrap_or_default()
                }
                _ => continue,
            };
            owed = Seed { weight: &owed.weight + &seed.weight, exact: &owed.exact + &seed.exact };
        }
        owed
    }

    /// What is kept for the next seed: as much as the seed that went in, so that the culture neither grows nor
    /// shrinks; where the two differ, as much as the dough says.
    fn given_back(&self, stage: &BalancedStage, owed: &Seed) -> Mass {
        let wanted = self.batch.mass(&stage.given_back);
        if wanted == owed.exact {
            return owed.weight.clone();
        }
        scales::for_weight(self.scales, &wanted)
            .map_or(wanted.clone(), |scale| wanted.round_to(&scale.division))
    }
}

/// As much of a weight as a scale can show.
fn whole_divisions(weight: &Mass, scale: &Scale) -> Mass {
    let division = scale.division.grams();
    weight
        .grams()
        .checked_div(division)
        .map_or(Mass::ZERO, |count| Mass::from_grams(&count.floor() * division))
}

/// The sum of weights.
pub fn sum<'m>(weights: impl Iterator<Item = &'m Mass>) -> Mass {
    Mass::from_grams(weights.map(Mass::grams).sum::<Exact>())
}
