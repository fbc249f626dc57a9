//! The sheets of a day: every dough's, with its batches, rounded so that one kilogram is the same on each.
//!
//! The batches of a dough are rounded together, as the columns of one table, so their sum is what the day weighs; what
//! the store room issues is the sum of what is weighed. What doughs take of each other is weighed out by those that
//! take, so a dough that is taken from is made of the rounded weights, and never less of it than they add up to.

use levamen_balance::BalancedItem;
use levamen_formula::{FormulaId, IngredientId, Scale};
use levamen_plan::{Day, DayDough, Need};
use levamen_quantity::{Exact, Mass};

use crate::rounding::{Cell, controlled};
use crate::sheet::{Fetch, Sheet, for_weight, mixed, that_weigh};

/// How often a dough is made a little larger, where rounding left less of it than is taken.
const TRIES: usize = 16;

/// Everything that is weighed for a day.
#[derive(Debug, Clone, PartialEq)]
pub struct DaySheets {
    /// The doughs, each after those that it takes from.
    pub doughs: Vec<DoughSheet>,
    /// What goes on or into pieces beside dough.
    pub toppings: Vec<ToppingSheet>,
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
    pub taken: Mass,
}

/// What goes on pieces beside dough.
#[derive(Debug, Clone, PartialEq)]
pub struct ToppingSheet {
    /// What it is.
    pub ingredient: IngredientId,
    /// Its name.
    pub name: String,
    /// How much, as its scale shows it.
    pub weight: Mass,
}

impl DoughSheet {
    /// The dough that goes into each product, then into each dough that takes of it, then what is kept and what is lost: in
    /// whole grams that add up to what is weighed, so that one kilogram is the same wherever it is shown.
    #[must_use]
    pub fn goes_into(&self, need: &Need) -> GoesInto {
        let pieces = need.pieces.iter().map(|pieces| pieces.dough.grams());
        let taken = need.taken.iter().map(|taken| taken.mass.grams());
        let all = pieces.chain(taken).chain([need.lost.grams()]);
        // What is kept back is weighed, as the sheet says; the others share what is left.
        let kept = if need.kept == Mass::ZERO {
            Mass::ZERO
        } else {
            self.sheet.kept_back.round_to(&Mass::from_grams(Exact::ONE))
        };
        let (made, asked) = (&self.made() - &kept, need.mass().grams() - need.kept.grams());
        let scaled = |exact: &Exact| (exact * made.grams()).checked_div(&asked).unwrap_or_default();
        let cells: Vec<Cell> = all.map(|exact| Cell { row: 0, column: 0, value: scaled(exact) }).collect();
        let mut rounded = controlled(&cells).into_iter().map(Mass::from_grams);
        let pieces = rounded.by_ref().take(need.pieces.len()).collect();
        let taken = rounded.by_ref().take(need.taken.len()).collect();
        GoesInto { pieces, taken, kept }
    }

    /// What is weighed of it, in whole grams.
    #[must_use]
    pub fn made(&self) -> Mass {
        self.sheet.batch.round_to(&Mass::from_grams(Exact::ONE))
    }
}

/// What a dough is weighed for, in whole grams.
#[derive(Debug, Clone, PartialEq)]
pub struct GoesInto {
    /// For each of its products.
    pub pieces: Vec<Mass>,
    /// For each dough that takes of it.
    pub taken: Vec<Mass>,
    /// What is kept as old dough.
    pub kept: Mass,
}

impl DaySheets {
    /// Rounds a day to the bakery's scales.
    #[must_use]
    pub fn new(day: &Day, scales: &[Scale]) -> Self {
        let mut doughs: Vec<DoughSheet> = Vec::new();
        for dough in day.doughs.iter().rev() {
            let taken = taken_of(&doughs, dough.need.dough);
            doughs.push(dough_sheet(dough, taken, scales));
        }
        doughs.reverse();
        let toppings = day.toppings.iter().map(|(ingredient, name, mass)| ToppingSheet {
            ingredient: *ingredient,
            name: name.clone(),
            weight: rounded_up(mass, scales),
        });
        Self { doughs, toppings: toppings.collect() }
    }

    /// What is weighed of each ingredient over the whole day, toppings included, in the order in which it first comes
    /// up: what the store room issues for it. Seeds of cultures and pieces of dough are none of it.
    #[must_use]
    pub fn issued(&self) -> Vec<(IngredientId, String, Mass)> {
        let mut issued: Vec<(IngredientId, String, Mass)> = Vec::new();
        let mut add = |id: IngredientId, name: &str, weight: &Mass| match issued
            .iter_mut()
            .find(|(known, ..)| *known == id)
        {
            Some((_, _, sum)) => *sum = &*sum + weight,
            None => issued.push((id, name.to_owned(), weight.clone())),
        };
        for fetch in self.doughs.iter().flat_map(|dough| &dough.sheet.overall) {
            if let Fetch { item: BalancedItem::Ingredient { id, .. }, name, weight, .. } = fetch {
                add(*id, name, weight);
            }
        }
        for topping in &self.toppings {
            add(topping.ingredient, &topping.name, &topping.weight);
        }
        issued
    }
}

/// What the doughs so far take of a dough, as they weigh it, old dough of yesterday left out.
fn taken_of(doughs: &[DoughSheet], source: FormulaId) -> Mass {
    let stages = doughs.iter().flat_map(|dough| &dough.sheet.stages);
    let today = stages.filter(|stage| !levamen_plan::is_old_dough(stage.kind));
    let lines = today
        .flat_map(|stage| &stage.lines)
        .filter(|line| line.item == BalancedItem::Piece && line.from == Some(source));
    Mass::from_grams(lines.map(|line| line.weight.grams()).sum::<Exact>())
}

/// The sheet of a dough that gives at least what is taken of it.
fn dough_sheet(dough: &DayDough, taken: Mass, scales: &[Scale]) -> DoughSheet {
    let exact: Exact = dough.need.taken.iter().map(|taken| taken.mass.grams()).sum();
    let mut target = &(dough.mass().grams() - &exact) + taken.grams();
    let sheet = |target: &Exact| {
        let flour = target.checked_div(dough.balance.weight.fraction()).unwrap_or_default();
        Sheet::new(&dough.balance.with_flour(Mass::from_grams(flour)), scales)
    };
    let mut made = sheet(&target);
    for _ in 0..TRIES {
        if made.batch >= taken {
            break;
        }
        target += &(&(taken.grams() - made.batch.grams()) + &Exact::ONE);
        made = sheet(&target);
    }
    let own = dough.balance.of_last_batch().of(&made.flour);
    let kept =
        if dough.need.kept == own { made.kept_back.clone() } else { rounded_up(&dough.need.kept, scales) };
    let made = made.keeping(kept);
    let listed = u64::try_from(mixed(&made.stages).count()).unwrap_or(u64::MAX);
    let batches = if dough.batches.are_listed() { listed } else { dough.batches.count };
    DoughSheet { dough: dough.need.dough, sheet: made, batches, taken }
}

/// A weight in whole divisions of its scale, never less than it is.
fn rounded_up(mass: &Mass, scales: &[Scale]) -> Mass {
    let scales = that_weigh(scales);
    let Some(scale) = for_weight(&scales, mass) else { return mass.clone() };
    let division = scale.division.grams();
    let Some(count) = mass.grams().checked_div(division) else { return mass.clone() };
    Mass::from_grams(&-&(-&count).floor() * division)
}
