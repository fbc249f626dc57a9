//! A dough's formula, every figure unrounded; and the doughs of a book.

use levamen::ListedDough;
use levamen_balance::{Balance, BalancedItem, BalancedLine, BalancedStage, Batch, Ripening};
use levamen_language::SeedFate;
use levamen_quantity::Share;
use levamen_sheets::{BatchPieces, FormulaSheet, StageSeed};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{DecimalJson, DoughCautionJson};

/// The formula of a dough at a size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Formula")]
pub struct FormulaJson {
    /// The dough's name.
    pub dough: String,
    /// All flour in the dough.
    pub total_flour_g: DecimalJson,
    /// The weight of the dough.
    pub dough_g: DecimalJson,
    /// Added water on all flour.
    pub hydration_pct: DecimalJson,
    /// Added water and the water inside other ingredients, on all flour.
    pub effective_hydration_pct: DecimalJson,
    /// Salt on all flour.
    pub salt_pct: DecimalJson,
    /// Flour that ferments ahead of the final dough, on all flour.
    pub prefermented_flour_pct: DecimalJson,
    /// 100 + hydration.
    pub dough_yield: DecimalJson,
    /// The pieces that the dough is divided into; null where nothing says what a piece weighs.
    pub pieces: Option<PiecesJson>,
    /// The share of the dough lost in mixing and dividing.
    pub loss_pct: DecimalJson,
    /// What of the dough is kept for its own next batch before it is divided: as much as it takes of its last.
    pub kept_back_g: DecimalJson,
    /// What is left to divide, once that is kept and the loss is gone.
    pub to_divide_g: DecimalJson,
    /// How much of that the pieces lack; 0 where they come out.
    pub short_g: DecimalJson,
    /// The whole dough, ingredient by ingredient.
    pub overall: Vec<OverallRowJson>,
    /// The stages in the order in which they are made; the final dough is the last.
    pub stages: Vec<FormulaStageJson>,
    /// What the baker noted.
    pub notes: Vec<String>,
    /// What can hurt or make ill, by stage.
    pub cautions: Vec<DoughCautionJson>,
}

/// The pieces that a batch gives.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct PiecesJson {
    /// How many.
    pub count: u64,
    /// What one weighs before baking.
    pub piece_g: DecimalJson,
}

/// One ingredient of the whole dough.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "OverallRow")]
pub struct OverallRowJson {
    /// Its name.
    pub ingredient: String,
    /// Its weight.
    pub grams: DecimalJson,
    /// Its weight on all flour.
    pub pct_total_flour: DecimalJson,
    /// Whether it counts as flour.
    pub is_flour: bool,
}

/// One stage.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "FormulaStage")]
pub struct FormulaStageJson {
    /// What the dough calls it.
    pub name: String,
    /// What it is: poolish, levain, final dough, and so on.
    pub kind: String,
    /// What stands in the tub when it is made.
    pub grams: DecimalJson,
    /// The flour weighed into it, that of seeds and pieces of dough which stay included.
    pub flour_g: DecimalJson,
    /// The added water weighed into it, counted like the flour, less steam.
    pub water_g: DecimalJson,
    /// The flour weighed into it as such: what `pct_stage_flour` is a percentage of.
    pub own_flour_g: DecimalJson,
    /// Water on flour of all that is in it, other stages included; null without flour.
    pub hydration_pct: Option<DecimalJson>,
    /// The flour that the dough gets through this stage, on all flour, where the stage ferments.
    pub prefermented_flour_pct: DecimalJson,
    /// Its seed and the seed's share; null without one.
    pub seed: Option<SeedJson>,
    /// What goes on into other stages.
    pub taken_g: DecimalJson,
    /// What is kept for the next seed before mixing.
    pub given_back_g: DecimalJson,
    /// What is made and not taken.
    pub left_over_g: DecimalJson,
    /// What goes off as steam.
    pub steam_g: DecimalJson,
    /// How long it ripens; null where nothing says so.
    pub ripens: Option<RipensJson>,
    /// What is weighed into it.
    pub lines: Vec<FormulaLineJson>,
    /// What the baker noted.
    pub notes: Vec<String>,
}

/// The seed of a stage.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct SeedJson {
    /// All seed weighed into the stage.
    pub grams: DecimalJson,
    /// The seed on the stage's own flour; null without flour.
    pub seed_pct: Option<DecimalJson>,
}

/// How long a stage ripens.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct RipensJson {
    /// At least, in minutes.
    pub least_min: DecimalJson,
    /// At most, in minutes; null where no span is given.
    pub most_min: Option<DecimalJson>,
    /// Until when it is used, in minutes: the most, or a quarter more than one time that is given.
    pub until_min: DecimalJson,
    /// At which temperature, in degrees Celsius; null where nothing says so.
    pub temperature_c: Option<DecimalJson>,
}

/// One thing weighed into a stage.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "FormulaLine")]
pub struct FormulaLineJson {
    /// Its name.
    pub name: String,
    /// What it is.
    pub what: LineKindJson,
    /// What becomes of a seed: "stays" or "given back"; null for all else.
    pub seed_fate: Option<String>,
    /// When it goes in, in the baker's words; null where nothing says so.
    pub goes_in: Option<String>,
    /// Its weight.
    pub grams: DecimalJson,
    /// Its weight on the stage's own flour; null without flour.
    pub pct_stage_flour: Option<DecimalJson>,
    /// Its weight on all flour.
    pub pct_total_flour: DecimalJson,
}

/// What a line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "What")]
pub enum LineKindJson {
    /// An ingredient.
    #[serde(rename = "ingredient")]
    Ingredient,
    /// Seed of a culture.
    #[serde(rename = "seed")]
    Seed,
    /// A piece of another dough, or of this dough's last batch.
    #[serde(rename = "piece of dough")]
    Piece,
    /// Another stage of this dough.
    #[serde(rename = "stage")]
    Stage,
}

impl From<&FormulaSheet<'_>> for FormulaJson {
    fn from(sheet: &FormulaSheet<'_>) -> Self {
        let (batch, balance) = (&sheet.batch, sheet.batch.balance());
        let stages = balance.stages.iter().zip(&sheet.seeds);
        Self {
            dough: balance.dough.clone(),
            total_flour_g: DecimalJson::grams(batch.flour()),
            dough_g: DecimalJson::grams(&sheet.weight),
            hydration_pct: DecimalJson::percent(&balance.hydration),
            effective_hydration_pct: DecimalJson::percent(&balance.effective_hydration),
            salt_pct: DecimalJson::percent(&balance.salt),
            prefermented_flour_pct: DecimalJson::percent(&balance.prefermented_flour),
            dough_yield: DecimalJson::number(&balance.dough_yield()),
            pieces: sheet.pieces.as_ref().map(PiecesJson::from),
            loss_pct: DecimalJson::percent(&sheet.loss),
            kept_back_g: DecimalJson::grams(&sheet.kept_back),
            to_divide_g: DecimalJson::grams(&sheet.to_divide),
            short_g: DecimalJson::grams(&sheet.short),
            overall: overall(batch),
            stages: stages.map(|(stage, seed)| FormulaStageJson::new(batch, stage, seed.as_ref())).collect(),
            notes: balance.notes.clone(),
            cautions: DoughCautionJson::all(&sheet.cautions),
        }
    }
}

fn overall(batch: &Batch<'_>) -> Vec<OverallRowJson> {
    let rows = batch.balance().overall.iter().map(|row| OverallRowJson {
        ingredient: row.name.clone(),
        grams: DecimalJson::grams(&batch.mass(&row.share)),
        pct_total_flour: DecimalJson::percent(&row.share),
        is_flour: row.is_flour,
    });
    rows.collect()
}

impl FormulaStageJson {
    fn new(batch: &Batch<'_>, stage: &BalancedStage, seed: Option<&StageSeed>) -> Self {
        let grams = |share: &Share| DecimalJson::grams(&batch.mass(share));
        Self {
            name: stage.name.clone(),
            kind: stage.kind.name().to_owned(),
            grams: grams(&stage.made),
            flour_g: grams(&stage.flour),
            water_g: grams(&stage.water),
            own_flour_g: grams(&stage.own_flour),
            hydration_pct: stage.hydration.as_ref().map(DecimalJson::percent),
            prefermented_flour_pct: DecimalJson::percent(&stage.prefermented_flour),
            seed: seed.map(SeedJson::from),
            taken_g: grams(&stage.taken),
            given_back_g: grams(&stage.given_back),
            left_over_g: grams(&stage.left_over),
            steam_g: grams(&stage.steam),
            ripens: stage.ripens.as_ref().map(RipensJson::from),
            lines: stage.lines.iter().map(|line| FormulaLineJson::new(batch, stage, line)).collect(),
            notes: stage.notes.clone(),
        }
    }
}

impl From<&StageSeed> for SeedJson {
    fn from(seed: &StageSeed) -> Self {
        Self {
            grams: DecimalJson::grams(&seed.mass),
            seed_pct: seed.of_own_flour.as_ref().map(DecimalJson::percent),
        }
    }
}

impl FormulaLineJson {
    fn new(batch: &Batch<'_>, stage: &BalancedStage, line: &BalancedLine) -> Self {
        Self {
            name: line.name.clone(),
            what: LineKindJson::from(line.item),
            seed_fate: seed_fate(line.item).map(str::to_owned),
            goes_in: line.when.clone(),
            grams: DecimalJson::grams(&batch.mass(&line.share)),
            pct_stage_flour: stage.of_own_flour(line).as_ref().map(DecimalJson::percent),
            pct_total_flour: DecimalJson::percent(&line.share),
        }
    }
}

/// What becomes of a seed, as the language says it.
pub(super) fn seed_fate(item: BalancedItem) -> Option<&'static str> {
    match item {
        BalancedItem::Seed(SeedFate::Stays) => Some("stays"),
        BalancedItem::Seed(SeedFate::GivenBack) => Some("given back"),
        BalancedItem::Ingredient { .. } | BalancedItem::Piece | BalancedItem::Stage(_) => None,
    }
}

impl LineKindJson {
    /// The word for it, the same in JSON and CSV.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ingredient => "ingredient",
            Self::Seed => "seed",
            Self::Piece => "piece of dough",
            Self::Stage => "stage",
        }
    }
}

impl From<BalancedItem> for LineKindJson {
    fn from(item: BalancedItem) -> Self {
        match item {
            BalancedItem::Ingredient { .. } => Self::Ingredient,
            BalancedItem::Seed(_) => Self::Seed,
            BalancedItem::Piece => Self::Piece,
            BalancedItem::Stage(_) => Self::Stage,
        }
    }
}

impl From<&BatchPieces> for PiecesJson {
    fn from(pieces: &BatchPieces) -> Self {
        Self { count: pieces.count, piece_g: DecimalJson::grams(&pieces.piece) }
    }
}

impl From<&Ripening> for RipensJson {
    fn from(ripening: &Ripening) -> Self {
        Self {
            least_min: DecimalJson::minutes(&ripening.least),
            most_min: ripening.most.as_ref().map(DecimalJson::minutes),
            until_min: DecimalJson::minutes(&ripening.until()),
            temperature_c: ripening.temperature.as_ref().map(DecimalJson::celsius),
        }
    }
}

/// One dough of a book. Its figures are null where the dough has problems and no balance.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "ListItem")]
pub struct ListItemJson {
    /// The dough's name.
    pub dough: String,
    /// The file that it stands in.
    pub file: String,
    /// Added water on all flour.
    pub hydration_pct: Option<DecimalJson>,
    /// Added water and the water inside other ingredients, on all flour.
    pub effective_hydration_pct: Option<DecimalJson>,
    /// Flour that ferments ahead of the final dough, on all flour.
    pub prefermented_flour_pct: Option<DecimalJson>,
    /// The stages in the order in which they are made; the final dough is the last.
    pub stages: Vec<ListStageJson>,
}

/// One stage of a dough.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "ListStage")]
pub struct ListStageJson {
    /// What the dough calls it.
    pub name: String,
    /// What it is.
    pub kind: String,
}

impl From<&ListedDough> for ListItemJson {
    fn from(entry: &ListedDough) -> Self {
        let figure = |share: fn(&Balance) -> &Share| {
            entry.balance.as_ref().map(|balance| DecimalJson::percent(share(balance)))
        };
        let stages = entry.balance.iter().flat_map(|balance| &balance.stages);
        Self {
            dough: entry.dough.clone(),
            file: entry.file.clone(),
            hydration_pct: figure(|balance| &balance.hydration),
            effective_hydration_pct: figure(|balance| &balance.effective_hydration),
            prefermented_flour_pct: figure(|balance| &balance.prefermented_flour),
            stages: stages
                .map(|stage| ListStageJson { name: stage.name.clone(), kind: stage.kind.name().to_owned() })
                .collect(),
        }
    }
}
