//! What the figures of a dough are called.

use super::Asked;
use crate::formula::Formula;
use crate::pantry::{IngredientId, Pantry};
use crate::stage::StageKind;
use crate::stage::{Item, Line, Stage, StageId};

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
pub(super) fn name(asked: Asked, formula: &Formula, pantry: &Pantry) -> String {
    let stage = |id| formula.stage(id).map_or("the stage", |stage| stage.name.as_ref());
    let of = |word: Word, id: Option<StageId>| match id {
        Some(id) => format!("{} of {}", word.words(), stage(id)),
        None => word.words().to_owned(),
    };
    match asked {
        Asked::Hydration(id) => of(Word::Hydration, id),
        Asked::EffectiveHydration => of(Word::EffectiveHydration, None),
        Asked::DoughYield => of(Word::DoughYield, None),
        Asked::Salt => of(Word::Salt, None),
        Asked::PrefermentedFlour(id) => of(Word::PrefermentedFlour, id),
        Asked::Flour(id) => of(Word::Flour, id),
        Asked::Water(id) => of(Word::Water, id),
        Asked::Dough => of(Word::Dough, None),
        Asked::ToDivide => of(Word::ToDivide, None),
        Asked::OwnFlour(id) => format!("flour in {}", stage(id)),
        Asked::Row(id) => row_name(id, formula, pantry).to_owned(),
        Asked::Line(id, line) => {
            let line = formula.stage(id).and_then(|stage| stage.lines.get(line as usize));
            format!("{} in {}", line.map_or("the line".to_owned(), Line::full_name), stage(id))
        }
        Asked::Cell(id, ingredient) => format!("{} in {}", row_name(ingredient, formula, pantry), stage(id)),
        Asked::Taken(id) => stage(id).to_owned(),
        Asked::Made(id) => of(Word::Made, Some(id)),
        Asked::Seed(id) => of(Word::Seed, Some(id)),
        Asked::GivenBack(id) => of(Word::GivenBack, Some(id)),
        Asked::LeftOver(id) => of(Word::LeftOver, Some(id)),
        Asked::Steam(id) => of(Word::Steam, Some(id)),
    }
}

/// An ingredient as the dough writes it, and otherwise as the pantry does.
fn row_name<'n>(id: IngredientId, formula: &'n Formula, pantry: &'n Pantry) -> &'n str {
    let written =
        lines(formula).find(|line| line.item == Item::Ingredient(id)).map(|line| line.name.as_ref());
    written.or_else(|| pantry.get(id).map(|known| known.name.as_str())).unwrap_or("the ingredient")
}

/// Every line, those of the whole first.
pub(super) fn lines(formula: &Formula) -> impl Iterator<Item = &Line> {
    let overall = formula.overall.iter().flat_map(|overall| &overall.lines);
    overall.chain(formula.stages.iter().flat_map(|stage| &stage.lines))
}

/// Every figure that a dough has.
pub(super) fn all(formula: &Formula) -> Vec<Asked> {
    let mut all = vec![
        Asked::Hydration(None),
        Asked::EffectiveHydration,
        Asked::DoughYield,
        Asked::Salt,
        Asked::PrefermentedFlour(None),
        Asked::Flour(None),
        Asked::Water(None),
        Asked::Dough,
        Asked::ToDivide,
    ];
    for line in lines(formula) {
        if let Item::Ingredient(id) = line.item
            && !all.contains(&Asked::Row(id))
        {
            all.push(Asked::Row(id));
        }
    }
    for (id, stage) in formula.stages() {
        all.extend(of_stage(id, stage, formula));
    }
    all
}

/// The figures of one stage.
fn of_stage(id: StageId, stage: &Stage, formula: &Formula) -> Vec<Asked> {
    let mut all =
        vec![Asked::Hydration(Some(id)), Asked::Flour(Some(id)), Asked::Water(Some(id)), Asked::OwnFlour(id)];
    all.extend((0..).zip(&stage.lines).map(|(line, _)| Asked::Line(id, line)));
    all.extend(stage.parted.iter().map(|ingredient| Asked::Cell(id, *ingredient)));
    if stage.lines.iter().any(|line| matches!(line.item, Item::Seed(..))) {
        all.push(Asked::Seed(id));
    }
    if stage.steam.is_some() {
        all.push(Asked::Steam(id));
    }
    all.extend([Asked::Made(id), Asked::Taken(id)]);
    if stage.kind == StageKind::FinalDough {
        return all;
    }
    all.push(Asked::PrefermentedFlour(Some(id)));
    if gives_back(formula) {
        all.push(Asked::GivenBack(id));
    }
    if stage.left_over.is_some() {
        all.push(Asked::LeftOver(id));
    }
    all
}

/// Whether a dough gives any seed back.
pub(super) fn gives_back(formula: &Formula) -> bool {
    formula.stages.iter().flat_map(|stage| &stage.lines).any(|line| line.item.is_given_back())
}
