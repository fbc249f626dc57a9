//! The sheets of a day: every dough's, with its batches, rounded so that one kilogram is the same on each.
//!
//! The batches of a dough are rounded together, as the columns of one table, so their sum is what the day weighs; what
//! the store room issues is the sum of what is weighed. What doughs take of each other is weighed out by those that
//! take, so a dough that is taken from is made of the rounded weights, and never less of it than they add up to.

use std::collections::BTreeMap;

use levamen_balance::BalancedItem;
use levamen_formula::{FormulaId, IngredientId, Scale};
use levamen_plan::{Day, DayStageId, Setting};
use levamen_quantity::Mass;
use levamen_timetable::Moment;

use crate::dough_sheet::{DoughSheet, dough_sheet, taken_of};
use crate::rounding_error::RoundingError;
use crate::scales::{self, that_weigh};
use crate::sheet::{LineSheet, LineSource, SheetRow, StageSheet};
use crate::weight::Weight;

/// Everything that is weighed for a day.
#[derive(Debug, Clone, PartialEq)]
pub struct DaySheets {
    /// The doughs, each after those that it takes from.
    pub doughs: Vec<DoughSheet>,
    /// What goes on or into pieces beside dough.
    pub toppings: Vec<ToppingSheet>,
    /// What all doughs weigh, each in whole grams.
    pub made: Weight,
    /// How many pieces are made of them.
    pub pieces: u64,
    /// In how many batches they are mixed.
    pub batches: u64,
    /// What is weighed of each ingredient over the whole day, toppings included, in the order in which it first comes up:
    /// what the store room issues for it. Seeds of cultures and pieces of dough are none of it.
    pub issued: Vec<Issued>,
    /// What each scale weighs, the smallest scale first.
    pub picks: Vec<ScalePicks>,
}

/// What goes on pieces beside dough.
#[derive(Debug, Clone, PartialEq)]
pub struct ToppingSheet {
    /// What it is.
    pub ingredient: IngredientId,
    /// Its name.
    pub name: String,
    /// How much, as its scale shows it.
    pub weight: Weight,
}

/// What the store room issues of an ingredient for a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Issued {
    /// What it is.
    pub ingredient: IngredientId,
    /// Its name.
    pub name: String,
    /// How much.
    pub weight: Weight,
}

impl DaySheets {
    /// A stage with the dough that it is of.
    #[must_use]
    pub fn stage(&self, id: DayStageId) -> Option<(&DoughSheet, &StageSheet)> {
        let dough = self.doughs.iter().find(|dough| dough.dough == id.dough)?;
        Some((dough, dough.sheet.stages.get(id.stage)?))
    }

    /// Rounds a day to the bakery's scales.
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a weight has more digits than a scale can show.
    pub fn new(day: &Day, scales: &[Scale]) -> Result<Self, RoundingError> {
        let mut doughs: Vec<DoughSheet> = Vec::new();
        for dough in day.doughs.iter().rev() {
            let taken = taken_of(&doughs, dough.need.dough)?;
            doughs.push(dough_sheet(dough, taken, scales)?);
        }
        doughs.reverse();
        let able = that_weigh(scales);
        let toppings = day.toppings.iter().map(|(ingredient, name, mass)| {
            let weight = scales::not_under(&able, mass)?;
            Ok(ToppingSheet { ingredient: *ingredient, name: name.clone(), weight })
        });
        let toppings = toppings.collect::<Result<Vec<_>, RoundingError>>()?;
        Ok(Self {
            made: Weight::try_sum(doughs.iter().map(|dough| dough.made))?,
            pieces: counted(
                day.doughs.iter().flat_map(|dough| &dough.need.pieces).map(|pieces| pieces.made),
            )?,
            batches: counted(doughs.iter().map(|dough| dough.batches))?,
            issued: issued(&doughs, &toppings)?,
            picks: picks(&doughs)?,
            doughs,
            toppings,
        })
    }

    /// What each culture gives for stages that are set as `settings` says, in their order.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn seeds(&self, settings: &[Setting]) -> Result<DaySeeds, RoundingError> {
        DaySeeds::new(self, settings)
    }
}

/// All of them together.
fn counted(mut counts: impl Iterator<Item = u64>) -> Result<u64, RoundingError> {
    let sum = counts.try_fold(0_u64, u64::checked_add);
    sum.ok_or(RoundingError::TooManyPieces)
}

/// What is weighed of each ingredient over the whole day.
fn issued(doughs: &[DoughSheet], toppings: &[ToppingSheet]) -> Result<Vec<Issued>, RoundingError> {
    let mut issued: Vec<Issued> = Vec::new();
    let mut add = |ingredient: IngredientId, name: &str, weight: Weight| {
        match issued.iter_mut().find(|known| known.ingredient == ingredient) {
            Some(known) => known.weight = known.weight.try_add(weight)?,
            None => issued.push(Issued { ingredient, name: name.to_owned(), weight }),
        }
        Ok::<(), RoundingError>(())
    };
    for fetch in doughs.iter().flat_map(|dough| &dough.sheet.overall) {
        if let SheetRow { item: BalancedItem::Ingredient { id, .. }, name, weight, .. } = fetch {
            add(*id, name, *weight)?;
        }
    }
    for topping in toppings {
        add(topping.ingredient, &topping.name, topping.weight)?;
    }
    Ok(issued)
}

/// What is weighed on one scale.
#[derive(Debug, Clone, PartialEq)]
pub struct ScalePicks {
    /// The scale's name.
    pub scale: String,
    /// Each thing, in the order in which it first comes up.
    pub picks: Vec<Pick>,
}

/// What is weighed of one thing on one scale.
#[derive(Debug, Clone, PartialEq)]
pub struct Pick {
    /// What it is. An ingredient or a seed is one row; what comes out of a dough's own tubs is that dough's.
    pub name: String,
    /// How much in all.
    pub weight: Weight,
    /// In how many weighings.
    pub weighings: u64,
}

/// Each scale with what is weighed on it, the smallest first.
fn picks(doughs: &[DoughSheet]) -> Result<Vec<ScalePicks>, RoundingError> {
    let mut scales: BTreeMap<(&Mass, &str), Vec<Pick>> = BTreeMap::new();
    for dough in doughs {
        for line in dough.sheet.stages.iter().flat_map(|stage| &stage.lines) {
            let LineSource::Weighed(on) = &line.source else { continue };
            let picks = scales.entry((&on.scale.capacity, &on.scale.name)).or_default();
            add_pick(picks, &dough.sheet.dough, line)?;
        }
    }
    let scales = scales.into_iter().map(|((_, scale), picks)| ScalePicks { scale: scale.to_owned(), picks });
    Ok(scales.collect())
}

fn add_pick(picks: &mut Vec<Pick>, dough: &str, line: &LineSheet) -> Result<(), RoundingError> {
    let name = match line.item {
        BalancedItem::Stage(_) => format!("{} of {dough}", line.name),
        // A dough's own piece is called `this dough`, which here would say nothing.
        BalancedItem::Piece if line.from.is_none() => format!("{dough}, a piece of its last batch"),
        BalancedItem::Ingredient { .. } | BalancedItem::Seed(_) | BalancedItem::Piece => line.name.clone(),
    };
    match picks.iter_mut().find(|pick| pick.name == name) {
        Some(pick) => {
            pick.weight = pick.weight.try_add(line.weight)?;
            pick.weighings += 1;
        }
        None => picks.push(Pick { name, weight: line.weight, weighings: 1 }),
    }
    Ok(())
}

/// The seeds of a day.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DaySeeds {
    /// Each seed, in the order in which the stages are set.
    pub seeds: Vec<SeedNeed>,
    /// What each culture gives in all, in the order of their first seed.
    pub sums: Vec<(FormulaId, Weight)>,
}

/// A seed for one stage.
#[derive(Debug, Clone, PartialEq)]
pub struct SeedNeed {
    /// The culture that gives it.
    pub culture: FormulaId,
    /// The dough.
    pub dough: String,
    /// The stage that it goes into.
    pub stage: String,
    /// When it has to be ripe; `None` without a timetable.
    pub at: Option<Moment>,
    /// How much, as it is weighed.
    pub weight: Weight,
}

impl DaySeeds {
    /// The seeds of one culture.
    pub fn of(&self, culture: FormulaId) -> impl Iterator<Item = &SeedNeed> {
        self.seeds.iter().filter(move |seed| seed.culture == culture)
    }

    fn new(sheets: &DaySheets, settings: &[Setting]) -> Result<Self, RoundingError> {
        let mut found = Self::default();
        for setting in settings {
            let Some((DoughSheet { sheet, .. }, stage)) = sheets.stage(setting.id) else {
                return Err(RoundingError::internal("something is set that no sheet has"));
            };
            for line in stage.lines.iter().filter(|line| matches!(line.item, BalancedItem::Seed(_))) {
                let Some(culture) = line.from else {
                    return Err(RoundingError::internal("a seed of no culture"));
                };
                let (dough, stage) = (sheet.dough.clone(), stage.name.clone());
                found.add(SeedNeed { culture, dough, stage, at: setting.at, weight: line.weight })?;
            }
        }
        Ok(found)
    }

    fn add(&mut self, seed: SeedNeed) -> Result<(), RoundingError> {
        match self.sums.iter_mut().find(|(culture, _)| *culture == seed.culture) {
            Some((_, sum)) => *sum = sum.try_add(seed.weight)?,
            None => self.sums.push((seed.culture, seed.weight)),
        }
        self.seeds.push(seed);
        Ok(())
    }
}
