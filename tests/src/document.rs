//! A text as a tree of sections, so that its parts can be put in another order.

use std::fmt::Write as _;

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
        let mut chance = Chance(seed);
        chance.shuffle(&mut self.sources);
        chance.shuffle(&mut self.sections);
        for section in &mut self.sections {
            section.shuffle(&mut chance);
        }
        self
    }
}

/// A sequence of numbers that look like chance (a linear congruential generator, with the constants of Knuth's
/// MMIX, from memory).
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap_or(0) % most.max(1)
    }

    fn shuffle<T>(&mut self, items: &mut [T]) {
        for index in (1..items.len()).rev() {
            let other = self.below(index + 1);
            items.swap(index, other);
        }
    }
}
