//! What the store room issues for a day's sheets, and when.

use jiff::Zoned;
use jiff::civil::Date;
use levamen_balance::BalancedItem;
use levamen_formula::IngredientId;
use levamen_plan::{DayStageId, Issue, Starts};

use crate::day::DaySheets;
use crate::feeding::FeedingSheet;
use crate::weight::Weight;

impl DaySheets {
    /// What is issued for bread of a date: every weighed line on the date on which its stage is set, toppings on the
    /// date itself. Their sums are those of `issued`.
    #[must_use]
    pub fn issues(&self, date: Date, starts: &Starts) -> Vec<Issue> {
        let mut issues = Vec::new();
        for dough in &self.doughs {
            for (index, stage) in dough.sheet.stages.iter().enumerate() {
                let set =
                    starts.of(DayStageId { dough: dough.dough, stage: index }).map_or(date, Zoned::date);
                for line in &stage.lines {
                    if let BalancedItem::Ingredient { id, .. } = line.item {
                        add(&mut issues, set, id, &line.name, line.weight);
                    }
                }
            }
        }
        for topping in &self.toppings {
            add(&mut issues, date, topping.ingredient, &topping.name, topping.weight);
        }
        issues
    }
}

impl FeedingSheet {
    /// What is issued to feed a culture. `parts` says which ingredient each of [`FeedingSheet::parts`] is; one that
    /// is none is left out.
    #[must_use]
    pub fn issues(&self, parts: &[Option<IngredientId>]) -> Vec<Issue> {
        let mut issues = Vec::new();
        for (weighed, exact) in self.feedings() {
            for ((part, weight), name) in parts.iter().zip(&weighed.parts).zip(&self.parts) {
                if let Some(ingredient) = part {
                    add(&mut issues, exact.at.date(), *ingredient, name, *weight);
                }
            }
        }
        issues
    }
}

/// Adds a weight to what is issued of the same ingredient on the same date; the store room goes on with it exactly.
fn add(issues: &mut Vec<Issue>, date: Date, ingredient: IngredientId, name: &str, weight: Weight) {
    if weight.is_zero() {
        return;
    }
    let mass = weight.as_exact();
    match issues.iter_mut().find(|issue| issue.date == date && issue.ingredient == ingredient) {
        Some(issue) => issue.mass = &issue.mass + &mass,
        None => issues.push(Issue { date, ingredient, name: name.to_owned(), mass }),
    }
}
