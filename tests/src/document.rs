//! A text as a tree of sections, so that its parts can be put in another order.

use std::fmt::Write as _;

use crate::chance::Chance;

/// A heading, the lines under it, and the sections that stand inside.
#[derive(Debug, Clone, Default)]
pub struct Section {
    /// The heading.
    pub heading: String,
    /// The lines under it.
    pub lines: Vec<String>,
    /// The sections inside it.
    pub inside: Vec<Section>,
}

impl Section {
    /// A section with nothing in it.
    #[must_use]
    pub fn new(heading: impl Into<String>) -> Self {
        Self { heading: heading.into(), ..Self::default() }
    }

    /// Adds a line.
    pub fn line(&mut self, line: impl Into<String>) {
        self.lines.push(line.into());
    }

    fn write(&self, text: &mut String, depth: usize) {
        let (margin, indent) = ("  ".repeat(depth), "  ".repeat(depth + 1));
        let _ = writeln!(text, "{margin}{}", self.heading);
        for line in &self.lines {
            let _ = writeln!(text, "{indent}{line}");
        }
        for section in &self.inside {
            section.write(text, depth + 1);
        }
    }

    /// Puts lines and inner sections in an order that follows from a number.
    fn shuffle(&mut self, chance: &mut Chance) {
        chance.shuffle(&mut self.lines);
        chance.shuffle(&mut self.inside);
        for section in &mut self.inside {
            section.shuffle(chance);
        }
    }
}

/// A book of one dough: what it takes from, and the sections of the dough itself.
#[derive(Debug, Clone, Default)]
pub struct Document {
    /// Cultures and other doughs; each with its sections.
    pub sources: Vec<Vec<Section>>,
    /// The dough's heading.
    pub dough: String,
    /// The dough's sections.
    pub sections: Vec<Section>,
}

impl Document {
    /// The text.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = String::new();
        for section in self.sources.iter().flatten() {
            section.write(&mut text, 0);
            text.push('\n');
        }
        let _ = writeln!(text, "{}\n", self.dough);
        for section in &self.sections {
            section.write(&mut text, 0);
            text.push('\n');
        }
        text
    }

    /// The same document with its lines and sections in another order, which follows from a number.
    #[must_use]
    pub fn shuffled(mut self, seed: u64) -> Self {
        let mut chance = Chance::new(seed);
        chance.shuffle(&mut self.sources);
        chance.shuffle(&mut self.sections);
        for section in &mut self.sections {
            section.shuffle(&mut chance);
        }
        self
    }
}
