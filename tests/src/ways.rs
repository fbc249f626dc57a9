//! The other two ways of writing a dough: from its stages on their own flour, and from plain weights.

use levamen_quantity::MassUnit;
use num_traits::Zero;

use crate::document::{Document, Section};
use crate::model::{Filling, GRAIN, Model, Source, Stage, WATER};
use crate::oracle::{StageWeights, Weights};
use crate::ratio::{Ratio, decimal, from_exact, is_short, whole};

/// The dough from its stages: each on its own flour, the final dough too, and no overall formula. `None` where a
/// percentage is no short decimal.
#[must_use]
pub fn from_stages(model: &Model, weights: &Weights) -> Option<Document> {
    let mut sections = Vec::new();
    for ((stage, _), made) in model.all_stages().into_iter().zip(&weights.stages) {
        let mut section = stage.heading();
        for (name, weight) in &made.lines {
            section.line(on_own_flour(model, stage, made, name, weight)?);
        }
        section.lines.extend(stage.steam_line());
        section.lines.extend(stage.left_over_line());
        sections.push(section);
    }
    let last = weights.stages.last()?;
    let mut section = Section::new("final dough");
    for (name, weight) in last.lines.iter().filter(|(_, weight)| !weight.is_zero()) {
        let percent = percent(weight, &last.own_flour)?;
        let basis = if is_taken(model, name) { " of its flour" } else { "" };
        section.line(format!("{}{name}  {percent} %{basis}", from(model, name)));
    }
    sections.push(section);
    sections.push(Section::new(format!("make {} g of flour", decimal(&model.flour_grams)?)));
    Some(model.with_sections(sections))
}

/// A line of a stage on the stage's own flour.
fn on_own_flour(
    model: &Model,
    stage: &Stage,
    made: &StageWeights,
    name: &str,
    weight: &Ratio,
) -> Option<String> {
    Some(match &stage.filling {
        Filling::Flour { seed, .. } => {
            let percent = percent(weight, &made.own_flour)?;
            let given_back = seed.as_ref().is_some_and(|(source, _, back)| *back && source.name() == name);
            let fate = if given_back { ", given back" } else { "" };
            let basis = if model.all_stages().iter().any(|(stage, _)| stage.name == name) {
                " of its flour"
            } else {
                ""
            };
            format!("{}{name}  {percent} %{basis}{fate}", from(model, name))
        }
        Filling::Grain { .. } if name == GRAIN => format!("{GRAIN}  rest"),
        Filling::Grain { water } => format!("{WATER}  {} % of its {GRAIN}", decimal(water)?),
        Filling::Piece { source, .. } => format!("from {}", source.name()),
    })
}

/// The dough from plain weights in a unit, and nothing else. What stays in a tub is what the weights leave.
/// `None` where a weight is no short decimal.
#[must_use]
pub fn from_weights(model: &Model, weights: &Weights, unit: MassUnit) -> Option<Document> {
    let one =
        from_exact(levamen_quantity::Mass::from_unit(levamen_quantity::Exact::ONE, unit).grams()).ok()?;
    let shown = |weight: &Ratio| {
        let figure = weight * &model.flour_grams / &one;
        is_short(&figure)
            .then(|| decimal(&figure))
            .flatten()
            .map(|figure| format!("{figure} {}", unit.symbol()))
    };
    let mut sections = Vec::new();
    for ((stage, _), made) in model.all_stages().into_iter().zip(&weights.stages) {
        let mut section = stage.heading();
        for (name, weight) in &made.lines {
            let fate = if is_given_back(stage, name) { ", given back" } else { "" };
            section.line(format!("{}{name}  {}{fate}", from(model, name), shown(weight)?));
        }
        section.lines.extend(stage.steam_line());
        // What stays of the dough's own last batch is stated as a share: that batch is not one built apart.
        if matches!(stage.filling, Filling::Piece { source: Source::ThisDough, .. }) {
            section.lines.extend(stage.left_over_line());
        } else if !stage.left_over.is_zero() {
            section.line("left over  rest");
        }
        sections.push(section);
    }
    let mut section = Section::new("final dough");
    for (name, weight) in weights.stages.last()?.lines.iter().filter(|(_, weight)| !weight.is_zero()) {
        section.line(format!("{}{name}  {}", from(model, name), shown(weight)?));
    }
    sections.push(section);
    Some(model.with_sections(sections))
}

fn percent(weight: &Ratio, of: &Ratio) -> Option<String> {
    let percent = (!of.is_zero()).then(|| weight / of * whole(100))?;
    is_short(&percent).then(|| decimal(&percent)).flatten()
}

fn is_given_back(stage: &Stage, name: &str) -> bool {
    match &stage.filling {
        Filling::Flour { seed: Some((source, _, given_back)), .. } => *given_back && source.name() == name,
        _ => false,
    }
}

/// Whether a line takes a stage, a culture or a piece of dough: its percentage says of what.
fn is_taken(model: &Model, name: &str) -> bool {
    !from(model, name).is_empty() || model.all_stages().iter().any(|(stage, _)| stage.name == name)
}

/// The word before what comes from a culture or a dough.
fn from(model: &Model, name: &str) -> &'static str {
    let is_source = name == "this dough" || model.sources().iter().any(|source| source.name() == name);
    if is_source { "from " } else { "" }
}
