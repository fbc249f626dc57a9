//! A dough as numbers, apart from any text.
//!
//! A [`Model`] is a dough by its percentages: what the whole is made of, and what each stage takes of it. It can be
//! written out as a text ([`Model::document`]); the [oracle](crate::oracle) works out its weights without the tool;
//! and from those weights it can be written out again in two other ways ([`crate::ways`]).

mod document;
mod source;

pub use source::Source;

use crate::ratio::Ratio;

/// The flours, in the order in which a dough uses them.
pub const FLOURS: [&str; 4] = ["strong white flour", "wholemeal flour", "whole rye flour", "spelt flour"];
/// Water.
pub const WATER: &str = "water";
/// What is soaked.
pub const GRAIN: &str = "sunflower seeds";

/// A dough by its percentages.
#[derive(Debug, Clone)]
pub struct Model {
    /// The whole dough on its whole flour; the flours add up to 100.
    pub overall: Vec<Part>,
    /// The stages that go into the final dough.
    pub stages: Vec<Stage>,
    /// A culture or another dough that goes straight into the final dough: its weight in % of the whole flour.
    pub piece: Option<(Source, Ratio)>,
    /// The whole flour, in grams.
    pub flour_grams: Ratio,
}

/// An ingredient and its percentage.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Which.
    pub name: &'static str,
    /// Of the flour that the section speaks of.
    pub percent: Ratio,
}

impl Part {
    /// Whether it is a flour.
    #[must_use]
    pub fn is_flour(&self) -> bool {
        FLOURS.contains(&self.name)
    }
}

/// Something weighed ahead of the final dough.
#[derive(Debug, Clone)]
pub struct Stage {
    /// Its name.
    pub name: String,
    /// Its kind, as the language has it.
    pub kind: &'static str,
    /// What is in it.
    pub filling: Filling,
    /// What stays in the tub, in % of what is made.
    pub left_over: Ratio,
    /// What goes off as steam, in % of the water weighed.
    pub steam: Ratio,
}

/// What is in a stage.
#[derive(Debug, Clone)]
pub enum Filling {
    /// Flour and what goes with it.
    Flour {
        /// The flour that the dough gets through the stage, in % of its whole flour.
        takes: Ratio,
        /// On the stage's own flour; the flours add up to 100.
        parts: Vec<Part>,
        /// A culture: its weight on the stage's own flour, and whether it is given back.
        seed: Option<(Source, Ratio, bool)>,
        /// A build that goes into this one.
        inside: Option<Box<Stage>>,
    },
    /// All of the dough's grain, and water on it.
    Grain {
        /// In % of the grain.
        water: Ratio,
    },
    /// A piece of finished dough and nothing else.
    Piece {
        /// The flour that the dough gets through it, in % of its whole flour.
        takes: Ratio,
        /// What it is a piece of.
        source: Source,
    },
}

impl Model {
    /// Every stage, each after the one that goes into it, with the index of the one that it goes into; `None` where
    /// that is the final dough.
    #[must_use]
    pub fn all_stages(&self) -> Vec<(&Stage, Option<usize>)> {
        let mut all = Vec::new();
        for stage in &self.stages {
            let mut chain = vec![stage];
            while let Some(Filling::Flour { inside: Some(inner), .. }) =
                chain.last().map(|last| &last.filling)
            {
                chain.push(inner);
            }
            let depth = chain.len();
            for (order, stage) in chain.into_iter().rev().enumerate() {
                let goes_into = (order + 1 < depth).then_some(all.len() + 1);
                all.push((stage, goes_into));
            }
        }
        all
    }

    /// The sources that the dough takes from, each once; its own last batch is none.
    #[must_use]
    pub fn sources(&self) -> Vec<Source> {
        let of_stages = self.all_stages().into_iter().filter_map(|(stage, _)| match &stage.filling {
            Filling::Flour { seed, .. } => seed.as_ref().map(|(source, ..)| *source),
            Filling::Piece { source, .. } => Some(*source),
            Filling::Grain { .. } => None,
        });
        let mut sources: Vec<Source> =
            of_stages.chain(self.piece.as_ref().map(|(source, _)| *source)).collect();
        sources.sort_unstable();
        sources.dedup();
        sources.retain(|source| *source != Source::ThisDough);
        sources
    }
}
