//! From stages to the lines of a dough text. Laying them out is left to the language.

use levamen_quantity::MassUnit;

use crate::flow::Flow;
use crate::import::Options;
use crate::kind;
use crate::recipe::{FINAL_DOUGH, Item, Line, Recipe, Stage, StageId};
use crate::seed::Culture;
use crate::table::one_spaced;

/// The text of a recipe.
pub(crate) fn text(recipe: &Recipe<'_>, flow: &Flow, cultures: &[Culture<'_>], options: &Options) -> String {
    let mut writer = Writer { recipe, unit: options.unit, out: String::new() };
    writer.line(&["dough", &one_spaced(&options.name)]);
    for (id, stage) in recipe.stages().filter(|(id, _)| *id != flow.final_dough) {
        writer.stage(id, stage, flow);
    }
    writer.line(&[FINAL_DOUGH]);
    for line in recipe.stage(flow.final_dough).iter().flat_map(|stage| &stage.lines) {
        writer.weighed(line, false);
    }
    for culture in cultures {
        writer.culture(culture);
    }
    writer.out
}

struct Writer<'w> {
    recipe: &'w Recipe<'w>,
    unit: MassUnit,
    out: String,
}

impl Writer<'_> {
    fn line(&mut self, words: &[&str]) {
        self.out += &words.join(" ");
        self.out.push('\n');
    }

    /// A stage ahead of the final dough.
    fn stage(&mut self, id: StageId, stage: &Stage<'_>, flow: &Flow) {
        self.line(&["stage", &kind::heading(stage.name, stage.has_flour())]);
        for line in &stage.lines {
            self.weighed(line, flow.is_given_back(id));
        }
        if flow.is_left_over(id) {
            self.line(&["  left over rest"]);
        }
    }

    /// One row; `gives_back` tells what becomes of a seed.
    fn weighed(&mut self, line: &Line<'_>, gives_back: bool) {
        let (figure, unit) = (line.row.figure.words.as_str(), self.unit.symbol());
        let own = line.row.ingredient.words.as_str();
        match line.item {
            Item::Seed if gives_back => self.line(&["  from", own, figure, unit, ", given back"]),
            Item::Seed => self.line(&["  from", own, figure, unit]),
            // A stage is written everywhere as in its heading.
            Item::Stage(id) => {
                let name = self.recipe.stage(id).map_or(own, |stage| stage.name);
                self.line(&[" ", name, figure, unit]);
            }
            Item::Ingredient { .. } | Item::Unknown => self.line(&[" ", own, figure, unit]),
        }
    }

    /// What a culture is taken to be made of, and a word on that.
    fn culture(&mut self, culture: &Culture<'_>) {
        let Some(stage) = self.recipe.stage(culture.fed_in) else { return };
        let name = culture.cell.words.as_str();
        let made = if culture.is_old_dough { "is made of" } else { "feeds it" };
        let fed_in = stage.name;
        self.line(&[&format!(
            "# The recipe does not say what it is made of. This is what `{fed_in}` {made}."
        )]);
        self.line(&["culture", name]);
        for line in stage.lines.iter().filter(|line| culture.is_fed(line)) {
            self.weighed(line, false);
        }
    }
}
