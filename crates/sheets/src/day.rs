//! The sheets of a day: every dough's, with its batches, rounded so that one kilogram is the same on each.
//!
//! The batches of a dough are rounded together, as the columns of one table, so their sum is what the day weighs; what
//! the store room issues is the sum of what is weighed. What doughs take of each other is weighed out by those that
//! take, so a dough that is taken from is made of the rounded weights, and never less of it than they add up to.

mod goes_into;
mod picks;
mod seeds;

use levamen_balance::BalancedItem;
use levamen_formula::{FormulaId, IngredientId, Scale};
use levamen_plan::{Day, DayDough, DayStageId, Setting, is_old_dough};
use levamen_quantity::{Exact, Mass};

use crate::rounding_error::RoundingError;
use crate::sheet::{Sheet, SheetRow, StageSheet, mixed, scales, that_weigh};
use crate::weight::Weight;

pub use goes_into::GoesInto;
pub use picks::{Pick, ScalePicks};
pub use seeds::{DaySeeds, SeedNeed};

/// How often a dough is made a little larger, where rounding left less of it than is taken.
const TRIES: usize = 16;

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

/// What is weighed for one dough of a day.
#[derive(Debug, Clone, PartialEq)]
pub struct DoughSheet {
    /// Which dough.
    pub dough: FormulaId,
    /// Its stages, and a final dough for each batch.
    pub sheet: Sheet,
    /// In how many batches it is mixed.
    pub batches: u64,
    /// What other doughs take of it, as they weigh it.
    pub taken: Weight,
    /// What is weighed of it, in whole grams.
    pub made: Weight,
    /// What it is weighed for.
    pub goes_into: GoesInto,
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
            picks: picks::picks(&doughs)?,
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

/// What the doughs so far take of a dough, as they weigh it, old dough of yesterday left out.
fn taken_of(doughs: &[DoughSheet], source: FormulaId) -> Result<Weight, RoundingError> {
    let stages = doughs.iter().flat_map(|dough| &dough.sheet.stages);
    let today = stages.filter(|stage| !is_old_dough(stage.kind));
    let lines = today
        .flat_map(|stage| &stage.lines)
        .filter(|line| line.item == BalancedItem::Piece && line.from == Some(source));
    Weight::try_sum(lines.map(|line| line.weight))
}

/// The sheet of a dough that gives at least what is taken of it.
fn dough_sheet(dough: &DayDough, taken: Weight, scales: &[Scale]) -> Result<DoughSheet, RoundingError> {
    let exact: Exact = dough.need.taken.iter().map(|taken| taken.mass.grams()).sum();
    let mut target = &(dough.mass().grams() - &exact) + taken.as_exact().grams();
    let sheet = |target: &Exact| {
        let flour = target.checked_div(dough.balance.weight.fraction());
        let flour = flour.ok_or_else(|| RoundingError::internal("a dough without a weight"))?;
        Sheet::new(&dough.balance.with_flour(Mass::from_grams(flour)), scales)
    };
    let mut made = sheet(&target)?;
    for _ in 0..TRIES {
        if made.batch >= taken {
            break;
        }
        target += &(taken.try_sub(made.batch)?.as_exact().grams() + &Exact::ONE);
        made = sheet(&target)?;
    }
    let own = dough.balance.of_last_batch().of(&made.flour);
    let kept = if dough.need.kept == own {
        made.kept_back
    } else {
        scales::not_under(&that_weigh(scales), &dough.need.kept)?
    };
    let sheet = made.keeping(kept);
    let listed = mixed(&sheet.stages).map(|_| 1).sum();
    let gram = Mass::from_grams(Exact::ONE);
    let made = Weight::nearest(&sheet.batch.as_exact(), &gram)?;
    let goes_into = GoesInto::new(&dough.need, made, kept)?;
    let batches = if dough.batches.are_listed() { listed } else { dough.batches.count };
    Ok(DoughSheet { dough: dough.need.dough, sheet, batches, taken, made, goes_into })
}
