//! The figures of a balance by name.

use std::fmt;

use levamen_quantity::Share;
use rustc_hash::FxHashMap;

use crate::figures::{Balance, BalancedStage};

/// A figure of a dough by the names that the dough gives its stages and lines.
///
/// Shown, it is a name by which the figure can be asked for: `hydration`, `water in poolish`. Only `all flour in
/// poolish` and `all water in poolish`, which count what comes with seeds and pieces of dough, are figures of the
/// balance alone.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FigureName {
    /// The stage that it is a figure of; `None` of the whole dough.
    pub stage: Option<String>,
    /// Which figure.
    pub what: FigureKind,
    /// The ingredient of a row, or the name of a line; empty of all others.
    pub name: String,
    /// How many rows or lines of the same name are before it in the same stage.
    pub nth: u32,
}

/// What a figure is of a dough or of a stage. All are shares of the dough's whole flour but hydrations, which are water
/// to flour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FigureKind {
    /// The weight of the whole dough; of a stage, what goes on of it.
    Weight,
    /// Added water to flour; of a stage, of all that is in it.
    Hydration,
    /// Hydration with the water inside other ingredients.
    EffectiveHydration,
    /// Salt, that inside other ingredients included.
    Salt,
    /// Flour that ferments ahead of the final dough.
    PrefermentedFlour,
    /// An ingredient in the whole dough, or what a line of a stage weighs.
    Weighed,
    /// The flour weighed into a stage as such.
    OwnFlour,
    /// The flour weighed into a stage, that of seeds and pieces of dough included.
    Flour,
    /// The added water weighed into a stage, likewise.
    Water,
    /// What is in the tub.
    Made,
    /// What goes off as steam.
    Steam,
    /// What is kept for the next seed.
    GivenBack,
    /// What is made and not taken.
    LeftOver,
}

impl FigureKind {
    /// In words.
    const fn words(self) -> &'static str {
        match self {
            Self::Weight => "weight",
            Self::Hydration => "hydration",
            Self::EffectiveHydration => "effective hydration",
            Self::Salt => "salt",
            Self::PrefermentedFlour => "pre-fermented flour",
            Self::Weighed => "weighed",
            Self::OwnFlour | Self::Flour => "flour",
            Self::Water => "water",
            Self::Made => "made",
            Self::Steam => "steam",
            Self::GivenBack => "given back",
            Self::LeftOver => "left over",
        }
    }
}

impl fmt::Display for FigureName {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.what, &self.stage) {
            (FigureKind::Weighed, None) => to.write_str(&self.name),
            (FigureKind::Weighed, Some(stage)) => write!(to, "{} in {stage}", self.name),
            (FigureKind::OwnFlour, Some(stage)) => write!(to, "flour in {stage}"),
            (FigureKind::Flour | FigureKind::Water, Some(stage)) => {
                write!(to, "all {} in {stage}", self.what.words())
            }
            (what, Some(stage)) => write!(to, "{} of {stage}", what.words()),
            (FigureKind::Weight, None) => to.write_str("dough"),
            (what, None) => to.write_str(what.words()),
        }
    }
}

/// The name of a figure while the balance is at hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct FigureKey<'b> {
    stage: Option<&'b str>,
    what: FigureKind,
    name: &'b str,
    nth: u32,
}

impl From<FigureKey<'_>> for FigureName {
    fn from(key: FigureKey<'_>) -> Self {
        Self { stage: key.stage.map(str::to_owned), what: key.what, name: key.name.to_owned(), nth: key.nth }
    }
}

/// Every figure of a balance with its name: those of the whole, its ingredients, and those of each stage.
pub(super) fn figures(balance: &Balance) -> Vec<(FigureKey<'_>, &Share)> {
    let key = |what| FigureKey { stage: None, what, name: "", nth: 0 };
    let mut figures = vec![
        (key(FigureKind::Weight), &balance.weight),
        (key(FigureKind::Hydration), &balance.hydration),
        (key(FigureKind::EffectiveHydration), &balance.effective_hydration),
        (key(FigureKind::Salt), &balance.salt),
        (key(FigureKind::PrefermentedFlour), &balance.prefermented_flour),
    ];
    push_weighed(&mut figures, None, balance.overall.iter().map(|row| (row.name.as_str(), &row.share)));
    for stage in &balance.stages {
        push_stage(&mut figures, stage);
    }
    figures
}

fn push_stage<'b>(figures: &mut Vec<(FigureKey<'b>, &'b Share)>, stage: &'b BalancedStage) {
    let name = Some(stage.name.as_str());
    push_weighed(figures, name, stage.lines.iter().map(|line| (line.name.as_str(), &line.share)));
    let key = |what| FigureKey { stage: name, what, name: "", nth: 0 };
    figures.extend(stage.hydration.as_ref().map(|hydration| (key(FigureKind::Hydration), hydration)));
    figures.extend([
        (key(FigureKind::OwnFlour), &stage.own_flour),
        (key(FigureKind::Flour), &stage.flour),
        (key(FigureKind::Water), &stage.water),
        (key(FigureKind::PrefermentedFlour), &stage.prefermented_flour),
        (key(FigureKind::Made), &stage.made),
        (key(FigureKind::Steam), &stage.steam),
        (key(FigureKind::GivenBack), &stage.given_back),
        (key(FigureKind::LeftOver), &stage.left_over),
        (key(FigureKind::Weight), &stage.taken),
    ]);
}

/// What is weighed, with a count for names that occur more than once.
fn push_weighed<'b>(
    figures: &mut Vec<(FigureKey<'b>, &'b Share)>,
    stage: Option<&'b str>,
    weighed: impl Iterator<Item = (&'b str, &'b Share)>,
) {
    let mut counts: FxHashMap<&str, u32> = FxHashMap::default();
    for (name, share) in weighed {
        let count = counts.entry(name).or_default();
        figures.push((FigureKey { stage, what: FigureKind::Weighed, name, nth: *count }, share));
        *count += 1;
    }
}
