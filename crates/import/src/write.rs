//! From stages to the lines of a dough text, and what kind of stage each is, known from its name: a table says nothing else of
//! it. Laying the lines out is left to the language.

use levamen_formula::key;
use levamen_language::{Kind, TextId, parse, with_article};

use crate::flow::Flow;
use crate::recipe::{
    FINAL_DOUGH, Options, Recipe, RecipeItem, RecipeLine, RecipeStage, RecipeStageId, one_spaced,
};
use crate::seed::SeedCulture;

/// The text of a recipe.
pub(crate) fn text(
    recipe: &Recipe<'_>,
    flow: &Flow,
    cultures: &[SeedCulture<'_>],
    options: &Options,
) -> String {
    let mut writer = RecipeWriter { recipe, out: String::new() };
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

struct RecipeWriter<'w> {
    recipe: &'w Recipe<'w>,
    out: String,
}

impl RecipeWriter<'_> {
    fn line(&mut self, words: &[&str]) {
        self.out += &words.join(" ");
        self.out.push('\n');
    }

    /// A stage ahead of the final dough.
    fn stage(&mut self, id: RecipeStageId, stage: &RecipeStage<'_>, flow: &Flow) {
        self.line(&["stage", &heading(stage.name, stage.has_flour())]);
        for line in &stage.lines {
            self.weighed(line, flow.is_given_back(id));
        }
        if flow.is_left_over(id) {
            self.line(&["  left over rest"]);
        }
    }

    /// What is weighed into a stage; `gives_back` says what becomes of a seed.
    fn weighed(&mut self, line: &RecipeLine<'_>, gives_back: bool) {
        let (figure, unit) = (line.figure(self.recipe.unit), self.recipe.unit.symbol());
        let own = line.row.ingredient.words.as_str();
        // A stage is written everywhere as in its heading.
        let name = match line.item {
            RecipeItem::Stage(id) => self.recipe.stage(id).map_or(own, |stage| stage.name),
            RecipeItem::Ingredient { .. } | RecipeItem::Unknown | RecipeItem::Seed => own,
        };
        let is_seed = line.item == RecipeItem::Seed;
        let (word, end) =
            (if is_seed { "  from" } else { " " }, if is_seed && gives_back { ", given back" } else { "" });
        let sum = summed(line).unwrap_or_default();
        self.line(&[word, name, &figure, unit, end, &sum]);
    }

    /// What a culture is taken to be made of, and a word on that.
    fn culture(&mut self, culture: &SeedCulture<'_>) {
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

/// What the figure of several rows is the sum of, as a comment; `None` where it is one row's own.
fn summed(line: &RecipeLine<'_>) -> Option<String> {
    const MOST: usize = 5;
    let figures: Vec<&str> = line.rows().map(|row| row.figure.words.as_str()).collect();
    match figures.len() {
        ..=1 => None,
        2..=MOST => Some(format!("  # {} in the table", figures.join(" + "))),
        many => Some(format!("  # the sum of {many} rows of the table")),
    }
}

/// Words of the trade in the names of stages, and the kind that they mean (common practice, no source). The first
/// that fits counts, so `sourdough` is not taken for a sour of rye.
const TELLING: [(&str, Kind); 21] = [
    ("poolish", Kind::Poolish),
    ("biga", Kind::Biga),
    ("sponge", Kind::Sponge),
    ("old dough", Kind::OldDough),
    ("pâte fermentée", Kind::OldDough),
    ("pate fermentee", Kind::OldDough),
    ("sourdough", Kind::Levain),
    ("rye sour", Kind::RyeSour),
    ("sour", Kind::RyeSour),
    ("levain", Kind::Levain),
    ("starter", Kind::Levain),
    ("build", Kind::Levain),
    ("brew", Kind::Brew),
    ("pre-ferment", Kind::PreFerment),
    ("preferment", Kind::PreFerment),
    ("soaker", Kind::Soaker),
    ("soak", Kind::Soaker),
    ("scald", Kind::Scald),
    ("scalded", Kind::Scald),
    ("autolyse", Kind::Autolyse),
    ("autolysis", Kind::Autolyse),
];

/// What stands after `stage`: the name, the kind where the name does not end with it, and a comment where nothing
/// in the name says it.
pub(crate) fn heading(name: &str, has_flour: bool) -> String {
    if ends_with_kind(name) {
        return name.to_owned();
    }
    match kind_of(&key(name)) {
        Some(kind) => format!("{name}, {}", with_article(kind.name())),
        None => format!(
            "{name}, {}  # The name does not tell what it is.",
            with_article(guessed(has_flour).name())
        ),
    }
}

/// Whether a name needs no kind after it: the language is asked.
fn ends_with_kind(name: &str) -> bool {
    let text = format!("dough a\nstage {name}\n  flour 1 g\n");
    parse(TextId::default(), &text).problems.is_empty()
}

/// The kind that the words of a name mean.
fn kind_of(key: &str) -> Option<Kind> {
    let spaced = |words: &str| format!(" {} ", words.replace(|letter: char| !letter.is_alphanumeric(), " "));
    let name = spaced(key);
    TELLING.iter().find(|(words, _)| name.contains(&spaced(words))).map(|(_, kind)| *kind)
}

/// The kind of a stage whose name does not say: one with flour is likely to ferment.
const fn guessed(has_flour: bool) -> Kind {
    if has_flour { Kind::PreFerment } else { Kind::Soaker }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_kind_is_known_by_the_words_of_the_name() {
        assert_eq!(kind_of("night poolish"), Some(Kind::Poolish));
        assert_eq!(kind_of("sourdough, first stage"), Some(Kind::Levain));
        assert_eq!(kind_of("basic sour"), Some(Kind::RyeSour));
        assert_eq!(kind_of("pre-ferment"), Some(Kind::PreFerment));
        assert_eq!(kind_of("pâte fermentée"), Some(Kind::OldDough));
        assert_eq!(kind_of("soaker 2"), Some(Kind::Soaker));
        assert_eq!(kind_of("freshening"), None);
        assert_eq!(kind_of("brewer's mash"), None);
    }

    #[test]
    fn the_kind_is_written_where_the_name_does_not_end_with_it() {
        assert_eq!(heading("night poolish", true), "night poolish");
        assert_eq!(heading("Poolish", true), "Poolish, a poolish");
        assert_eq!(heading("autolysis", true), "autolysis, an autolyse");
        assert_eq!(
            heading("freshening", true),
            "freshening, a pre-ferment  # The name does not tell what it is."
        );
        assert_eq!(heading("grains", false), "grains, a soaker  # The name does not tell what it is.");
    }
}
