//! What the figures of an explanation are called: in the form in which they can be asked for, where they can be.

use levamen_formula::{Equations, Formula, Ingredient, Pantry, StageId, Variable};
use levamen_quantity::Exact;

/// The name of a figure that equations speak of.
pub(super) fn name(figure: Variable, formula: &Formula, pantry: &Pantry, equations: &Equations) -> String {
    let stage = |id: StageId| formula.stage(id).map_or("the stage", |stage| stage.name.as_ref());
    let line = |id: StageId, line: u32| {
        let line = formula.stage(id).and_then(|stage| stage.lines.get(line as usize));
        line.map_or("what is taken", |line| line.name.as_ref())
    };
    let part = |id: StageId, index: u32| {
        let line = formula.stage(id).and_then(|stage| stage.lines.get(index as usize));
        line.map_or("a part".to_owned(), levamen_formula::FormulaLine::full_name)
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
        Variable::Held(id, index, _) | Variable::HeldFlour(id, index) => {
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
