//! The bench sheet: what is weighed, rounded to the scales.

use levamen_sheets::{self as sheet, LineSource, SmallWeightRemedy};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::formula::seed_fate;
use super::{DecimalJson, DoughCautionJson, LineKindJson, PiecesJson, RipensJson};

/// The bench sheet of a batch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Sheet")]
pub struct SheetJson {
    /// The dough's name.
    pub dough: String,
    /// All flour in the dough, unrounded: what percentages are percentages of.
    pub total_flour_g: DecimalJson,
    /// The weight of the dough.
    pub batch_g: DecimalJson,
    /// The pieces that the dough is divided into; null where nothing says what a piece weighs.
    pub pieces: Option<PiecesJson>,
    /// The share of the dough lost in mixing and dividing.
    pub loss_pct: DecimalJson,
    /// What of the dough is kept for its own next batch before it is divided: as much as it takes of its last.
    pub kept_back_g: DecimalJson,
    /// What is left to divide, once that is kept and the loss is gone; null on a day's sheet, where each product has a loss
    /// of its own.
    pub to_divide_g: Option<DecimalJson>,
    /// How much of that the pieces lack; 0 where they come out.
    pub short_g: DecimalJson,
    /// The stages in the order in which they are made; the final dough is the last.
    pub stages: Vec<SheetStageJson>,
    /// What is weighed in all stages together.
    pub overall: Vec<SheetRowJson>,
    /// The largest change that rounding made to what is weighed, on all flour; never below zero.
    pub largest_change_pct_total_flour: DecimalJson,
    /// Where that change is; null where rounding changed nothing.
    pub largest_change: Option<LargestChangeJson>,
    /// What the baker noted.
    pub notes: Vec<String>,
    /// What can hurt or make ill, by stage.
    pub cautions: Vec<DoughCautionJson>,
}

/// One stage. Its lines add up to `grams` and `steam_g`; `taken_g`, `given_back_g` and `left_over_g` to `grams`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "SheetStage")]
pub struct SheetStageJson {
    /// What the dough calls it.
    pub name: String,
    /// What it is.
    pub kind: String,
    /// What stands in the tub when it is made.
    pub grams: DecimalJson,
    /// What goes off as steam.
    pub steam_g: DecimalJson,
    /// What other stages take; of the final dough, all that is not kept.
    pub taken_g: DecimalJson,
    /// What is kept for the next seed before mixing.
    pub given_back_g: DecimalJson,
    /// What is made and not taken.
    pub left_over_g: DecimalJson,
    /// How long it ripens; null where nothing says so.
    pub ripens: Option<RipensJson>,
    /// What goes into the tub.
    pub lines: Vec<SheetLineJson>,
    /// What the baker noted.
    pub notes: Vec<String>,
}

/// One line of a stage.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "SheetLine")]
pub struct SheetLineJson {
    /// Its name.
    pub name: String,
    /// What it is.
    pub what: LineKindJson,
    /// What becomes of a seed: "stays" or "given back"; null for all else.
    pub seed_fate: Option<String>,
    /// When it goes in, in the baker's words; null where nothing says so.
    pub goes_in: Option<String>,
    /// What to weigh.
    pub grams: DecimalJson,
    /// The scale that weighs it; null where a whole tub, or the rest of one, goes in without being weighed.
    pub scale: Option<String>,
    /// The division of that scale.
    pub division_g: Option<DecimalJson>,
    /// In how many loads it is weighed.
    pub loads: Option<u64>,
    /// What a full load weighs; the last may be less.
    pub full_load_g: Option<DecimalJson>,
    /// The weight without rounding.
    pub exact_grams: DecimalJson,
    /// The exact weight on the stage's own flour; null without flour.
    pub pct_stage_flour: Option<DecimalJson>,
    /// The exact weight on all flour.
    pub pct_total_flour: DecimalJson,
    /// Whether the weight is too small for its scale to tell well.
    pub under_twenty_divisions: bool,
    /// A dilution to weigh instead; null where none is needed or none will do.
    pub dilution: Option<DilutionJson>,
}

/// One part of something stirred into water, weighed in its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct DilutionJson {
    /// One part in so many of the mixture: 10 or 100.
    pub one_part_in: u32,
    /// How much to weigh for making up the mixture.
    pub make_up_g: DecimalJson,
    /// How much water to stir that into.
    pub make_up_water_g: DecimalJson,
    /// How much of the mixture to weigh into the stage.
    pub weigh_g: DecimalJson,
    /// How much less of the stage's water to weigh.
    pub water_less_g: DecimalJson,
    /// Whether even so it is under twenty divisions.
    pub still_under_twenty_divisions: bool,
}

/// What is weighed of one thing in all stages together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "SheetRow")]
pub struct SheetRowJson {
    /// Its name.
    pub ingredient: String,
    /// What it is.
    pub what: LineKindJson,
    /// The sum of what is weighed.
    pub grams: DecimalJson,
    /// The sum without rounding.
    pub exact_grams: DecimalJson,
}

/// The line that rounding changed most.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "LargestChange")]
pub struct LargestChangeJson {
    /// The stage.
    pub stage: String,
    /// The line.
    pub line: String,
    /// What rounding added; below zero where it took away.
    pub grams: DecimalJson,
}

impl From<&sheet::Sheet> for SheetJson {
    fn from(sheet: &sheet::Sheet) -> Self {
        let change = sheet.largest_change.as_ref();
        Self {
            dough: sheet.dough.clone(),
            total_flour_g: DecimalJson::grams(&sheet.flour),
            batch_g: DecimalJson::weight(sheet.batch),
            pieces: sheet.pieces.as_ref().map(PiecesJson::from),
            loss_pct: DecimalJson::percent(&sheet.loss),
            kept_back_g: DecimalJson::weight(sheet.kept_back),
            to_divide_g: sheet.to_divide.as_ref().map(DecimalJson::grams),
            short_g: DecimalJson::grams(&sheet.short),
            stages: sheet.stages.iter().map(SheetStageJson::from).collect(),
            overall: sheet.overall.iter().map(SheetRowJson::from).collect(),
            largest_change_pct_total_flour: DecimalJson::percent(
                &change.map(|change| change.of_all_flour.clone()).unwrap_or_default(),
            ),
            largest_change: change.map(LargestChangeJson::from),
            notes: sheet.notes.clone(),
            cautions: DoughCautionJson::all(&sheet.cautions),
        }
    }
}

impl From<&sheet::StageSheet> for SheetStageJson {
    fn from(stage: &sheet::StageSheet) -> Self {
        Self {
            name: stage.name.clone(),
            kind: stage.kind.name().to_owned(),
            grams: DecimalJson::weight(stage.made),
            steam_g: DecimalJson::weight(stage.steam),
            taken_g: DecimalJson::weight(stage.taken),
            given_back_g: DecimalJson::weight(stage.given_back),
            left_over_g: DecimalJson::weight(stage.left_over),
            ripens: stage.ripens.as_ref().map(RipensJson::from),
            lines: stage.lines.iter().map(SheetLineJson::from).collect(),
            notes: stage.notes.clone(),
        }
    }
}

impl From<&sheet::LineSheet> for SheetLineJson {
    fn from(line: &sheet::LineSheet) -> Self {
        let on = match &line.source {
            LineSource::Weighed(on) => Some(on),
            LineSource::WholeTub | LineSource::RestOfTub => None,
        };
        Self {
            name: line.name.clone(),
            what: LineKindJson::from(line.item),
            seed_fate: seed_fate(line.item).map(str::to_owned),
            goes_in: line.when.clone(),
            grams: DecimalJson::weight(line.weight),
            scale: on.map(|on| on.scale.name.clone()),
            division_g: on.map(|on| DecimalJson::grams(&on.scale.division)),
            loads: on.and_then(|on| on.loads),
            full_load_g: on.map(|on| DecimalJson::weight(on.full_load)),
            exact_grams: DecimalJson::grams(&line.exact),
            pct_stage_flour: line.of_own_flour.as_ref().map(DecimalJson::percent),
            pct_total_flour: DecimalJson::percent(&line.of_all_flour),
            under_twenty_divisions: line.remedy.is_some(),
            dilution: match &line.remedy {
                Some(SmallWeightRemedy::Dilute(dilution)) => Some(DilutionJson::from(dilution)),
                Some(SmallWeightRemedy::TooLittleWater { .. } | SmallWeightRemedy::Care) | None => None,
            },
        }
    }
}

impl From<&sheet::Dilution> for DilutionJson {
    fn from(dilution: &sheet::Dilution) -> Self {
        Self {
            one_part_in: dilution.one_part_in,
            make_up_g: DecimalJson::weight(dilution.make_up),
            make_up_water_g: DecimalJson::weight(dilution.make_up_water),
            weigh_g: DecimalJson::weight(dilution.weigh),
            water_less_g: DecimalJson::weight(dilution.water_less),
            still_under_twenty_divisions: dilution.still_small,
        }
    }
}

impl From<&sheet::SheetRow> for SheetRowJson {
    fn from(fetch: &sheet::SheetRow) -> Self {
        Self {
            ingredient: fetch.name.clone(),
            what: LineKindJson::from(fetch.item),
            grams: DecimalJson::weight(fetch.weight),
            exact_grams: DecimalJson::grams(&fetch.exact),
        }
    }
}

impl From<&sheet::RoundingChange> for LargestChangeJson {
    fn from(change: &sheet::RoundingChange) -> Self {
        Self { stage: change.stage.clone(), line: change.line.clone(), grams: DecimalJson::grams(&change.by) }
    }
}
