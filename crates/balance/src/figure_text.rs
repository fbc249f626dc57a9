//! Figures as a baker reads them: in the words of a problem, and by the name by which they can be asked for.

use levamen_formula::{Equations, Formula, Ingredient, Item, Pantry, StageId, Variable, WeighedLine};
use levamen_language::Place;
use levamen_quantity::{Exact, Share};

/// A figure in the baker's words: "the water of the levain".
pub(crate) fn in_words(figure: Variable, formula: &Formula, pantry: &Pantry) -> String {
    let stage = |id| formula.stage(id).map_or("the stage", |stage| stage.name.as_ref());
    let ingredient = |id| pantry.get(id).map_or("the ingredient", |known| known.name.as_str());
    match figure {
        Variable::Gram | Variable::BatchGram => "how much is made".to_owned(),
        Variable::Flour => "the flour of the dough".to_owned(),
        Variable::Dough => "the weight of the dough".to_owned(),
        Variable::Water => "the water of the dough".to_owned(),
        Variable::Row(id) => format!("{} in the whole dough", ingredient(id)),
        Variable::Cell(in_stage, id) => format!("{} in `{}`", ingredient(id), stage(in_stage)),
        Variable::Part(in_stage, line) => {
            let line = formula.stage(in_stage).and_then(|stage| stage.lines.get(line as usize));
            format!("`{}` in `{}`", line.map_or("a part".to_owned(), WeighedLine::full_name), stage(in_stage))
        }
        Variable::Intake(in_stage, line) => {
            let line = formula.stage(in_stage).and_then(|stage| stage.lines.get(line as usize));
            format!("`{}` in `{}`", line.map_or("what is taken", |line| &line.name), stage(in_stage))
        }
        Variable::Contained(in_stage, line, id) => {
            format!("{} of {}", ingredient(id), in_words(Variable::Intake(in_stage, line), formula, pantry))
        }
        Variable::ContainedFlour(in_stage, line) => {
            format!("the flour of {}", in_words(Variable::Intake(in_stage, line), formula, pantry))
        }
        Variable::OwnFlour(id) => format!("the flour weighed into `{}`", stage(id)),
        Variable::Content(id) => format!("the flour of `{}`", stage(id)),
        Variable::ContentWater(id) => format!("the water of `{}`", stage(id)),
        Variable::Weight(id) => format!("the weight of `{}`", stage(id)),
        Variable::Made(id) => format!("how much of `{}` is made", stage(id)),
        Variable::LeftOver(id) => format!("what is left over of `{}`", stage(id)),
    }
}

/// The name of a figure that equations mention.
pub(crate) fn name(figure: Variable, formula: &Formula, pantry: &Pantry, equations: &Equations) -> String {
    let stage = |id: StageId| formula.stage(id).map_or("the stage", |stage| stage.name.as_ref());
    let line = |id: StageId, line: u32| {
        let line = formula.stage(id).and_then(|stage| stage.lines.get(line as usize));
        line.map_or("what is taken", |line| line.name.as_ref())
    };
    let part = |id: StageId, index: u32| {
        let line = formula.stage(id).and_then(|stage| stage.lines.get(index as usize));
        line.map_or("a part".to_owned(), WeighedLine::full_name)
    };
    match figure {
        Variable::Gram | Variable::BatchGram => "a gram as the text counts it".to_owned(),
        Variable::Flour => "flour".to_owned(),
        Variable::Dough => "dough".to_owned(),
        Variable::Water => "water".to_owned(),
        Variable::Row(id) => pantry.get(id).map_or("an ingredient", |known| known.name.as_str()).to_owned(),
        Variable::Cell(id, ingredient) => {
            let known = pantry.get(ingredient);
            let is_water = known.is_some_and(Ingredient::is_water);
            let weighed = if is_water { equations.gross_water(id) } else { equations.gross(id).cloned() };
            let what = known.map_or("an ingredient", |known| known.name.as_str());
            net(&format!("{what} in {}", stage(id)), weighed.as_ref())
        }
        Variable::Contained(id, index, _) | Variable::ContainedFlour(id, index) => {
            format!("a part of {} in {}", line(id, index), stage(id))
        }
        Variable::Part(id, index) => {
            net(&format!("{} in {}", part(id, index), stage(id)), equations.gross(id))
        }
        Variable::Intake(id, index) => {
            net(&format!("{} in {}", line(id, index), stage(id)), equations.gross(id))
        }
        Variable::OwnFlour(id) => net(&format!("flour in {}", stage(id)), equations.gross(id)),
        Variable::Content(id) => format!("flour of {}", stage(id)),
        Variable::ContentWater(id) => format!("water of {}", stage(id)),
        Variable::Weight(id) => net(stage(id), equations.gross(id)),
        Variable::Made(id) => format!("made of {}", stage(id)),
        Variable::LeftOver(id) => format!("left over of {}", stage(id)),
    }
}

/// The name of what reaches the dough, where more than that is weighed.
fn net(name: &str, weighed: Option<&Exact>) -> String {
    if weighed.is_none_or(Exact::is_one) {
        name.to_owned()
    } else {
        format!("{name}, what reaches the dough")
    }
}

/// The line that a figure is about, or the heading where no line says it.
pub(crate) fn place_of(figure: Variable, formula: &Formula) -> Place {
    let stage = |id| formula.stage(id).map_or(formula.place, |stage| stage.place);
    match figure {
        Variable::Cell(in_stage, id) => {
            let lines = formula.stage(in_stage).into_iter().flat_map(|stage| &stage.lines);
            let line = lines.into_iter().find(|line| line.item == Item::Ingredient(id));
            line.map_or(stage(in_stage), |line| line.place)
        }
        Variable::Part(in_stage, line)
        | Variable::Intake(in_stage, line)
        | Variable::Contained(in_stage, line, _)
        | Variable::ContainedFlour(in_stage, line) => {
            let line = formula.stage(in_stage).and_then(|stage| stage.lines.get(line as usize));
            line.map_or(stage(in_stage), |line| line.place)
        }
        Variable::Row(id) => {
            let mut lines = formula.overall.iter().flat_map(|overall| &overall.lines);
            lines.find(|line| line.item == Item::Ingredient(id)).map_or(formula.place, |line| line.place)
        }
        Variable::OwnFlour(id)
        | Variable::Content(id)
        | Variable::ContentWater(id)
        | Variable::Weight(id)
        | Variable::Made(id)
        | Variable::LeftOver(id) => stage(id),
        Variable::Gram | Variable::BatchGram | Variable::Flour | Variable::Dough | Variable::Water => {
            formula.place
        }
    }
}

/// A share of the flour as a baker reads it: `12.5 %`, and no endless decimals.
pub(crate) fn percent(share: &Exact) -> String {
    Share::from_fraction(share.clone()).to_percent_within(8)
}
