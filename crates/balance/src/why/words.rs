//! What the figures of an explanation are called: in the form in which they can be asked for, where they can be.

use levamen_formula::{Facts, Figure, Formula, Ingredient, Pantry, StageId};
use levamen_quantity::Exact;

/// The name of a figure that facts speak of.
pub(super) fn name(figure: Figure, formula: &Formula, pantry: &Pantry, facts: &Facts) -> String {
    let stage = |id: StageId| formula.stage(id).map_or("the stage", |stage| stage.name.as_ref());
    let line = |id: StageId, line: u32| {
        let line = formula.stage(id).and_then(|stage| stage.lines.get(line as usize));
        line.map_or("what is taken", |line| line.name.as_ref())
    };
    let part = |id: StageId, index: u32| {
        let line = formula.stage(id).and_then(|stage| stage.lines.get(index as usize));
        line.map_or("a part".to_owned(), levamen_formula::Line::full_name)
    };
    match figure {
        Figure::Gram | Figure::BatchGram => "a gram as the text counts it".to_owned(),
        Figure::Flour => "flour".to_owned(),
        Figure::Dough => "dough".to_owned(),
        Figure::Water => "water".to_owned(),
        Figure::Row(id) => pantry.get(id).map_or("an ingredient", |known| known.name.as_str()).to_owned(),
        Figure::Cell(id, ingredient) => {
            let known = pantry.get(ingredient);
            let is_water = known.is_some_and(Ingredient::is_water);
            let weighed = if is_water { facts.gross_water(id) } else { facts.gross(id).cloned() };
            let what = known.map_or("an ingredient", |known| known.name.as_str());
            net(&format!("{what} in {}", stage(id)), weighed.as_ref())
        }
        Figure::Held(id, index, _) | Figure::HeldFlour(id, index) => {
            format!("a part of {} in {}", line(id, index), stage(id))
        }
        Figure::Part(id, index) => net(&format!("{} in {}", part(id, index), stage(id)), facts.gross(id)),
        Figure::Intake(id, index) => net(&format!("{} in {}", line(id, index), stage(id)), facts.gross(id)),
        Figure::OwnFlour(id) => net(&format!("flour in {}", stage(id)), facts.gross(id)),
        Figure::Content(id) => format!("flour of {}", stage(id)),
        Figure::ContentWater(id) => format!("water of {}", stage(id)),
        Figure::Weight(id) => net(stage(id), facts.gross(id)),
        Figure::Made(id) => format!("made of {}", stage(id)),
        Figure::LeftOver(id) => format!("left over of {}", stage(id)),
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
