//! What each culture gives for a day.

use levamen_balance::BalancedItem;
use levamen_formula::FormulaId;
use levamen_plan::Setting;
use levamen_timetable::Moment;

use super::{DaySheets, DoughSheet};
use crate::rounding_error::RoundingError;
use crate::weight::Weight;

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

    pub(super) fn new(sheets: &DaySheets, settings: &[Setting]) -> Result<Self, RoundingError> {
        let mut found = Self::default();
        for setting in settings {
            let Some((DoughSheet { sheet, .. }, stage)) = sheets.stage(setting.id) else {
                return Err(RoundingError::internal("something is set that no sheet has"));
            };
            for line in stage.lines.iter().filter(|line| matches!(line.item, BalancedItem::Seed(_))) {
                let Some(culture) = line.from else { continue };
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
