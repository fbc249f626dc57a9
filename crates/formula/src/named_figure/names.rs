//! What the figures of a dough are called.

use crate::formula::Formula;
use crate::ingredient::IngredientId;
use crate::pantry::Pantry;
use crate::stage::StageKind;
use crate::stage::{FormulaLine, Item, Stage, StageId};
use crate::want::NamedFigure;

/// A figure that is no ingredient and no stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Word {
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
    pub(super) fn find(words: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, own)| *own == words).map(|(word, _)| *word)
    }

    /// The words for figures of the whole dough, as they are quoted.
    pub(super) fn of_whole() -> Vec<String> {
        let whole = Self::ALL.iter().take_while(|(word, _)| *word != Self::Weight);
        whole.map(|(_, words)| format!("`{words}`")).collect()
    }

    fn words(self) -> &'static str {
        Self::ALL.iter().find(|(word, _)| *word == self).map_or("", |(_, words)| words)
    }
}

/// The name of a figure.
pub(super) fn name(figure: NamedFigure, formula: &Formula, pantry: &Pantry) -> String {
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
            format!("{} in {}", line.map_or("the line".to_owned(), FormulaLine::full_name), stage(id))
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
pub(super) fn lines(formula: &Formula) -> impl Iterator<Item = &FormulaLine> {
    let overall = formula.overall.iter().flat_map(|overall| &overall.lines);
    overall.chain(formula.stages.iter().flat_map(|stage| &stage.lines))
}

/// Every figure that a dough has.
pub(super) fn all(formula: &Formula) -> Vec<NamedFigure> {
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
pub(super) fn gives_back(formula: &Formula) -> bool {
    formula.stages.iter().flat_map(|stage| &stage.lines).any(|line| line.item.is_given_back())
}
