//! A model as a text: the overall formula, and what each stage takes of it.

use num_traits::Zero;

use super::{Filling, GRAIN, Model, Part, Stage, WATER};
use crate::document::{Document, Section};
use crate::ratio::{Ratio, decimal};

impl Model {
    /// The dough from its overall formula. Its percentages are short decimals.
    #[must_use]
    pub fn document(&self) -> Document {
        let mut overall = Section::new("overall");
        overall.lines = self.overall.iter().map(percent_line).collect();
        let mut sections = vec![overall];
        sections.extend(self.stages.iter().map(section));
        if let Some((source, percent)) = &self.piece {
            let mut last = Section::new("final dough");
            last.line(format!("from {}  {} % of the flour", source.name(), shown(percent)));
            sections.push(last);
        }
        sections.push(Section::new(format!("make {} g of flour", shown(&self.flour_grams))));
        self.with_sections(sections)
    }

    /// A document of this dough with the sources that it takes from.
    pub(crate) fn with_sections(&self, sections: Vec<Section>) -> Document {
        let sources = self.sources().into_iter().map(super::Source::sections).collect();
        Document { sources, dough: "dough Test loaf".to_owned(), sections }
    }
}

impl Stage {
    /// The heading of the stage with nothing under it.
    pub(crate) fn heading(&self) -> Section {
        let article = if self.kind.starts_with(['a', 'o']) { "an" } else { "a" };
        Section::new(format!("stage {}, {article} {}", self.name, self.kind))
    }

    /// What stays in the tub and goes off as steam.
    pub(crate) fn steam_line(&self) -> Option<String> {
        (!self.steam.is_zero()).then(|| format!("loses  {} % of its water", shown(&self.steam)))
    }

    /// What stays in the tub, as a share.
    pub(crate) fn left_over_line(&self) -> Option<String> {
        (!self.left_over.is_zero()).then(|| format!("left over  {} %", shown(&self.left_over)))
    }
}

fn section(stage: &Stage) -> Section {
    let mut section = stage.heading();
    match &stage.filling {
        Filling::Flour { takes, parts, seed, inside } => {
            section.line(format!("takes  {} % of the flour", shown(takes)));
            section.lines.extend(parts.iter().map(percent_line));
            if let Some((source, percent, given_back)) = seed {
                let fate = if *given_back { ", given back" } else { "" };
                section.line(format!("from {}  {} %{fate}", source.name(), shown(percent)));
            }
            section.inside.extend(inside.iter().map(|inner| self::section(inner)));
        }
        Filling::Grain { water } => {
            section.line(format!("{GRAIN}  100 % of the {GRAIN}"));
            section.line(format!("{WATER}  {} % of its {GRAIN}", shown(water)));
        }
        Filling::Piece { takes, source } => {
            section.line(format!("takes  {} % of the flour", shown(takes)));
            section.line(format!("from {}", source.name()));
        }
    }
    section.lines.extend(stage.steam_line());
    section.lines.extend(stage.left_over_line());
    section
}

fn percent_line(part: &Part) -> String {
    format!("{}  {} %", part.name, shown(&part.percent))
}

/// A figure as a text has it. One that never ends is written so that the reader refuses it.
pub(crate) fn shown(figure: &Ratio) -> String {
    decimal(figure).unwrap_or_else(|| format!("endless {figure}"))
}
