//! A day.

use levamen::DayReport;
use levamen_formula::FormulaId;
use levamen_quantity::Mass;
use levamen_sheets::{DaySeeds, DoughSheet, Issued};
use levamen_timetable::Moment;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{DecimalJson, FeedJson, NoTimetableJson, SheetJson, TimetableJson};
use crate::text::entry_name;

/// Everything that a day's orders need. Weights are rounded to the bakery's scales, but those that are called exact.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Day")]
pub struct DayJson {
    /// The day of the bread, as in ISO 8601.
    pub date: String,
    /// How many lines of the orders are wrong and not in it: with any, the day is incomplete.
    pub mistakes: u64,
    /// The doughs, each after those that it takes from.
    pub doughs: Vec<DayDoughJson>,
    /// What is set and mixed, in the order of the clock.
    pub settings: Vec<DaySettingJson>,
    /// What each culture gives.
    pub seeds: Vec<DaySeedJson>,
    /// What each culture is fed for it.
    pub feeds: Vec<FeedJson>,
    /// What the store room issues.
    pub issued: Vec<DayIssueJson>,
    /// When what is done; `null` where there is no timetable.
    pub timetable: Option<TimetableJson>,
    /// Why there is no timetable; `null` where there is one.
    pub no_timetable: Option<NoTimetableJson>,
}

/// One dough of a day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "DayDough")]
pub struct DayDoughJson {
    /// Its name.
    pub dough: String,
    /// What it is made for.
    pub products: Vec<DayProductJson>,
    /// What other doughs of the day take of it.
    pub taken: Vec<DayTakenJson>,
    /// What is kept as old dough for the next day, exact.
    pub kept_g: DecimalJson,
    /// The mixer; `null` where the bakery names none.
    pub mixer: Option<String>,
    /// In how many batches it is mixed.
    pub batches: u64,
    /// What each batch weighs, exact; empty where there are too many to list.
    pub batches_g: Vec<DecimalJson>,
    /// What is weighed: its stages, and a final dough for each batch.
    pub sheet: SheetJson,
}

/// The pieces of one product.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "DayProduct")]
pub struct DayProductJson {
    /// Its name.
    pub product: String,
    /// How many are ordered.
    pub ordered: u64,
    /// How many are made, spares and whole heads included.
    pub made: u64,
    /// The dough that they take, losses included; exact.
    pub dough_g: DecimalJson,
}

/// What one dough takes of another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "DayTaken")]
pub struct DayTakenJson {
    /// The dough that takes.
    pub by: String,
    /// The stage that it goes into.
    pub stage: String,
    /// How much, exact.
    pub grams: DecimalJson,
}

/// A stage that is set, or a batch that is mixed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "DaySetting")]
pub struct DaySettingJson {
    /// The dough.
    pub dough: String,
    /// The stage.
    pub stage: String,
    /// When, as in RFC 3339; `null` without a timetable.
    pub at: Option<String>,
    /// What stands in the tub or the mixer.
    pub grams: DecimalJson,
    /// The tub; `null` where there is none.
    pub tub: Option<String>,
    /// How many of them.
    pub tubs: u32,
    /// How warm the water is poured, in degrees Celsius; `null` where it is not known.
    pub water_celsius: Option<DecimalJson>,
    /// How much of the water is ice; `null` where none is.
    pub ice_g: Option<DecimalJson>,
}

/// Seed of a culture.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "DaySeed")]
pub struct DaySeedJson {
    /// The culture.
    pub culture: String,
    /// The dough.
    pub dough: String,
    /// The stage.
    pub stage: String,
    /// When it has to be ripe, as in RFC 3339; `null` without a timetable.
    pub at: Option<String>,
    /// How much.
    pub grams: DecimalJson,
}

/// What the store room issues of one ingredient.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "DayIssue")]
pub struct DayIssueJson {
    /// Its name.
    pub ingredient: String,
    /// How much.
    pub grams: DecimalJson,
}

impl DayJson {
    /// A day.
    #[must_use]
    pub fn new(page: &DayReport<'_>) -> Self {
        let writer = DayWriter(page);
        let (work, clock) = (&page.hours.work, &page.hours.clock);
        Self {
            date: page.hours.clock.date().to_string(),
            mistakes: page.orders.errors.count(),
            doughs: writer.doughs(),
            settings: writer.settings(),
            seeds: writer.seeds(&page.seeds),
            feeds: page.feeds.iter().map(FeedJson::from).collect(),
            issued: page.sheets.issued.iter().map(DayIssueJson::from).collect(),
            timetable: page
                .timetable
                .as_ref()
                .ok()
                .map(|timetable| TimetableJson::new(work, timetable, &page.remedies, clock)),
            no_timetable: page
                .timetable
                .as_ref()
                .err()
                .map(|error| NoTimetableJson::new(work, error, &[], clock)),
        }
    }
}

impl From<&Issued> for DayIssueJson {
    fn from(issued: &Issued) -> Self {
        Self { ingredient: issued.name.clone(), grams: DecimalJson::weight(issued.weight) }
    }
}

/// The batches of a dough where each is listed.
fn listed(dough: &levamen_plan::DayDough) -> &[Mass] {
    if dough.batches.are_listed() { &dough.batches.parts } else { &[] }
}

struct DayWriter<'p>(&'p DayReport<'p>);

impl DayWriter<'_> {
    fn name(&self, dough: FormulaId) -> String {
        entry_name(self.0.book, dough).to_owned()
    }

    fn at(&self, at: Option<Moment>) -> Option<String> {
        let at = self.0.hours.clock.at(at?)?;
        Some(at.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string())
    }

    fn doughs(&self) -> Vec<DayDoughJson> {
        let page = self.0;
        let doughs = page.day.doughs.iter().zip(&page.sheets.doughs);
        doughs
            .map(|(dough, sheet)| DayDoughJson {
                dough: dough.balance.dough.clone(),
                products: dough
                    .need
                    .pieces
                    .iter()
                    .filter_map(|pieces| {
                        Some(DayProductJson {
                            product: page.bakery.product(pieces.product)?.name.clone(),
                            ordered: pieces.ordered,
                            made: pieces.made,
                            dough_g: DecimalJson::grams(&pieces.dough),
                        })
                    })
                    .collect(),
                taken: dough
                    .need
                    .taken
                    .iter()
                    .map(|taken| DayTakenJson {
                        by: self.name(taken.by),
                        stage: taken.stage.clone(),
                        grams: DecimalJson::grams(&taken.mass),
                    })
                    .collect(),
                kept_g: DecimalJson::grams(&dough.need.kept),
                mixer: dough.batches.mixer.and_then(|mixer| Some(page.bakery.mixer(mixer)?.name.clone())),
                batches: dough.batches.count,
                batches_g: listed(dough).iter().map(DecimalJson::grams).collect(),
                sheet: SheetJson::from(&sheet.sheet),
            })
            .collect()
    }

    fn settings(&self) -> Vec<DaySettingJson> {
        let page = self.0;
        let settings = page.settings.iter().filter_map(|setting| {
            let (DoughSheet { sheet, .. }, stage) = page.sheets.stage(setting.id)?;
            let pour = setting
                .water
                .as_ref()
                .and_then(|water| water.as_ref().ok())
                .map(|answer| &answer.found.exact);
            let tub = setting.tubs.and_then(|(tub, count)| Some((page.bakery.tub(tub)?, count)));
            Some(DaySettingJson {
                dough: sheet.dough.clone(),
                stage: stage.name.clone(),
                at: self.at(setting.at),
                grams: DecimalJson::weight(stage.made),
                tub: tub.map(|(tub, _)| tub.name.clone()),
                tubs: tub.map_or(0, |(_, count)| count),
                water_celsius: pour.map(|pour| DecimalJson::celsius(&pour.at)),
                ice_g: pour.and_then(|pour| pour.iced.as_ref()).map(|iced| DecimalJson::grams(&iced.ice)),
            })
        });
        settings.collect()
    }

    fn seeds(&self, seeds: &DaySeeds) -> Vec<DaySeedJson> {
        let seeds = seeds.seeds.iter().map(|seed| DaySeedJson {
            culture: self.name(seed.culture),
            dough: seed.dough.clone(),
            stage: seed.stage.clone(),
            at: self.at(seed.at),
            grams: DecimalJson::weight(seed.weight),
        });
        seeds.collect()
    }
}
