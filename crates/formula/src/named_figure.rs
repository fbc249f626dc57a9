//! Figures of a dough by the names that a baker gives them.
//!
//! A name has one of three forms, with or without `the`; capitals do not matter:
//!
//! | form | examples |
//! |---|---|
//! | `X` | `hydration`, `dough`, `rye flour`, `poolish` |
//! | `X in STAGE`, what is weighed into it | `water in poolish`, `poolish in final dough` |
//! | `X of STAGE`, what it is and what becomes of it | `hydration of poolish`, `left over of levain` |
//!
//! Where two figures have one name, a figure of the whole dough goes before a stage, and a stage before an ingredient.

mod read;

use levamen_language::Problem;

use crate::formula::Formula;
use crate::ingredient::IngredientId;
use crate::pantry::Pantry;
use crate::stage::{Item, Stage, StageId, StageKind, WeighedLine};
use crate::want::NamedFigure;

impl NamedFigure {
    /// The figure that words name.
    ///
    /// # Errors
    /// Where the dough has no such figure: a problem without a place, with the nearest names that the dough has.
    pub fn read(words: &str, formula: &Formula, pantry: &Pantry) -> Result<Self, Box<Problem>> {
        read::FigureReader { formula, pantry }.read(words)
    }

    /// The name of the figure, in the form in which [`NamedFigure::read`] takes it.
    #[must_use]
    pub fn name(self, formula: &Formula, pantry: &Pantry) -> String {
        name(self, formula, pantry)
    }

    /// The stage that it is a figure of; `None` of the whole dough.
    #[must_use]
    pub const fn stage(self) -> Option<StageId> {
        match self {
            Self::Hydration(stage)
            | Self::PrefermentedFlour(stage)
            | Self::Flour(stage)
            | Self::Water(stage) => stage,
            Self::OwnFlour(stage)
            | Self::Line(stage, _)
            | Self::Cell(stage, _)
            | Self::Taken(stage)
            | Self::Made(stage)
            | Self::Seed(stage)
            | Self::GivenBack(stage)
            | Self::LeftOver(stage)
            | Self::Steam(stage) => Some(stage),
            Self::EffectiveHydration
            | Self::DoughYield
            | Self::Salt
            | Self::Dough
            | Self::ToDivide
            | Self::Row(_) => None,
        }
    }

    /// Every figure that a dough has, in the order of the whole, its ingredients and its stages.
    #[must_use]
    pub fn all(formula: &Formula) -> Vec<Self> {
        all(formula)
    }
}

/// A figure that is no ingredient and no stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Word {
    Hydration,
    EffectiveHydration,
    DoughYield,
    Salt,
    PrefermentedFlour,
    Flour,
    Water,
    Dough,
    ToDivide,
    Weight,
    Made,
    Seed,
    GivenBack,
    LeftOver,
    Steam,
}

impl Word {
    /// Each with the words for it, those of the whole dough first.
    const ALL: [(Self, &'static str); 15] = [
        (Self::Hydration, "hydration"),
        (Self::EffectiveHydration, "effective hydration"),
        (Self::DoughYield, "dough yield"),
        (Self::Salt, "salt"),
        (Self::PrefermentedFlour, "pre-fermented flour"),
        (Self::Flour, "flour"),
        (Self::Water, "water"),
        (Self::Dough, "dough"),
        (Self::ToDivide, "to divide"),
        (Self::Weight, "weight"),
        (Self::Made, "made"),
        (Self::Seed, "seed"),
        (Self::GivenBack, "given back"),
        (Self::LeftOver, "left over"),
        (Self::Steam, "steam"),
    ];

    /// The figure of a word in small letters.
    fn find(words: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, own)| *own == words).map(|(word, _)| *word)
    }

    /// The words for figures of the whole dough, as they are quoted.
    fn of_whole() -> Vec<String> {
        let whole = Self::ALL.iter().take_while(|(word, _)| *word != Self::Weight);
        whole.map(|(_, words)| format!("`{words}`")).collect()
    }

    fn words(self) -> &'static str {
        Self::ALL.iter().find(|(word, _)| *word == self).map_or("", |(_, words)| words)
    }
}

/// The name of a figure.
fn name(figure: NamedFigure, formula: &Formula, pantry: &Pantry) -> String {
    let stage = |id| formula.stage(id).map_or("the stage", |stage| stage.name.as_ref());
    let of = |word: Word, id: Option<StageId>| match id {
        Some(id) => format!("{} of {}", word.words(), stage(id)),
        None => word.words().to_owned(),
    };
    match figure {
        NamedFigure::Hydration(id) => of(Word::Hydration, id),
        NamedFigure::EffectiveHydration => of(Word::EffectiveHydration, None),
        NamedFigure::DoughYield => of(Word::DoughYield, None),
        NamedFigure::Salt => of(Word::Salt, None),
        NamedFigure::PrefermentedFlour(id) => of(Word::PrefermentedFlour, id),
        NamedFigure::Flour(id) => of(Word::Flour, id),
        NamedFigure::Water(id) => of(Word::Water, id),
        NamedFigure::Dough => of(Word::Dough, None),
        NamedFigure::ToDivide => of(Word::ToDivide, None),
        NamedFigure::OwnFlour(id) => format!("flour in {}", stage(id)),
        NamedFigure::Row(id) => row_name(id, formula, pantry).to_owned(),
        NamedFigure::Line(id, line) => {
            let line = formula.stage(id).and_then(|stage| stage.lines.get(line as usize));
            format!("{} in {}", line.map_or("the line".to_owned(), WeighedLine::full_name), stage(id))
        }
        NamedFigure::Cell(id, ingredient) => {
            format!("{} in {}", row_name(ingredient, formula, pantry), stage(id))
        }
        NamedFigure::Taken(id) => stage(id).to_owned(),
        NamedFigure::Made(id) => of(Word::Made, Some(id)),
        NamedFigure::Seed(id) => of(Word::Seed, Some(id)),
        NamedFigure::GivenBack(id) => of(Word::GivenBack, Some(id)),
        NamedFigure::LeftOver(id) => of(Word::LeftOver, Some(id)),
        NamedFigure::Steam(id) => of(Word::Steam, Some(id)),
    }
}

/// An ingredient as the dough writes it, and otherwise as the pantry does.
fn row_name<'n>(id: IngredientId, formula: &'n Formula, pantry: &'n Pantry) -> &'n str {
    let written =
        lines(formula).find(|line| line.item == Item::Ingredient(id)).map(|line| line.name.as_ref());
    written.or_else(|| pantry.get(id).map(|known| known.name.as_str())).unwrap_or("the ingredient")
}

/// Every line, those of the whole first.
fn lines(formula: &Formula) -> impl Iterator<Item = &WeighedLine> {
    let overall = formula.overall.iter().flat_map(|overall| &overall.lines);
    overall.chain(formula.stages.iter().flat_map(|stage| &stage.lines))
}

/// Every figure that a dough has.
fn all(formula: &Formula) -> Vec<NamedFigure> {
    let mut all = vec![
        NamedFigure::Hydration(None),
        NamedFigure::EffectiveHydration,
        NamedFigure::DoughYield,
        NamedFigure::Salt,
        NamedFigure::PrefermentedFlour(None),
        NamedFigure::Flour(None),
        NamedFigure::Water(None),
        NamedFigure::Dough,
        NamedFigure::ToDivide,
    ];
    for line in lines(formula) {
        if let Item::Ingredient(id) = line.item
            && !all.contains(&NamedFigure::Row(id))
        {
            all.push(NamedFigure::Row(id));
        }
    }
    for (id, stage) in formula.stages() {
        all.extend(of_stage(id, stage, formula));
    }
    all
}

/// The figures of one stage.
fn of_stage(id: StageId, stage: &Stage, formula: &Formula) -> Vec<NamedFigure> {
    let mut all = vec![
        NamedFigure::Hydration(Some(id)),
        NamedFigure::Flour(Some(id)),
        NamedFigure::Water(Some(id)),
        NamedFigure::OwnFlour(id),
    ];
    all.extend((0..).zip(&stage.lines).map(|(line, _)| NamedFigure::Line(id, line)));
    all.extend(stage.split_ingredients.iter().map(|ingredient| NamedFigure::Cell(id, *ingredient)));
    if stage.lines.iter().any(|line| matches!(line.item, Item::Seed(..))) {
        all.push(NamedFigure::Seed(id));
    }
    if stage.steam.is_some() {
        all.push(NamedFigure::Steam(id));
    }
    all.extend([NamedFigure::Made(id), NamedFigure::Taken(id)]);
    if stage.kind == StageKind::FinalDough {
        return all;
    }
    all.push(NamedFigure::PrefermentedFlour(Some(id)));
    if gives_back(formula) {
        all.push(NamedFigure::GivenBack(id));
    }
    if stage.left_over.is_some() {
        all.push(NamedFigure::LeftOver(id));
    }
    all
}

/// Whether a dough gives any seed back.
fn gives_back(formula: &Formula) -> bool {
    formula.stages.iter().flat_map(|stage| &stage.lines).any(|line| line.item.is_given_back())
}
