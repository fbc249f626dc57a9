//! An open block: what it has said so far.

use levamen_quantity::Exact;

use super::rows::BlockRows;
use super::section::{ONCE, Section};

/// A line's number in the tree.
pub(crate) type LineIndex = usize;

/// A block whose lines are being read.
#[derive(Debug)]
pub(crate) struct Block<'t> {
    pub(crate) section: Section,
    /// The line of its heading.
    pub(crate) heading: LineIndex,
    /// The column of its heading; a line that stands there or to the left ends the block.
    pub(crate) column: u32,
    /// The column of its lines, once the first is read.
    pub(crate) lines_column: Option<u32>,
    /// The depth of its heading.
    pub(crate) depth: u16,
    /// Whether a stage can lose water as steam.
    pub(crate) steams: bool,
    /// The facts said that may be said once.
    pub(crate) said: [Option<u32>; ONCE],
    /// The lines of a card's facts that may be said once.
    pub(crate) facts: Vec<LineIndex>,
    /// The names weighed.
    pub(crate) rows: BlockRows<'t>,
    /// The percentages that an ingredient holds so far.
    pub(crate) holds: Exact,
}

/// How a line stands to the lines of its block.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Alignment {
    Even,
    Deeper,
    Shallower,
}

impl<'t> Block<'t> {
    /// An open block without lines.
    pub(crate) fn new(
        section: Section,
        heading: LineIndex,
        column: u32,
        depth: u16,
        rows: BlockRows<'t>,
    ) -> Self {
        Self {
            section,
            heading,
            column,
            lines_column: None,
            depth,
            steams: true,
            said: [None; ONCE],
            facts: Vec::new(),
            rows,
            holds: Exact::ZERO,
        }
    }

    /// Takes in a line that stands in `column`. The first line of a block sets the column for all.
    pub(crate) fn align(&mut self, column: u32) -> Alignment {
        let lines_column = *self.lines_column.get_or_insert(column);
        match column.cmp(&lines_column) {
            std::cmp::Ordering::Equal => Alignment::Even,
            std::cmp::Ordering::Greater => Alignment::Deeper,
            std::cmp::Ordering::Less => Alignment::Shallower,
        }
    }

    /// Whether the block needs lines and has none. An ingredient that holds nothing of note has none.
    pub(crate) fn lacks_lines(&self) -> bool {
        self.lines_column.is_none() && !matches!(self.section, Section::Ingredient | Section::Unknown)
    }
}

/// The dough whose sections are being read.
#[derive(Debug, Default)]
pub(crate) struct Dough {
    /// The line of its heading.
    pub(crate) heading: LineIndex,
    /// The column of its sections, once the first is read.
    pub(crate) sections_column: Option<u32>,
    /// The lines of `overall`, `final dough`, `make` and `want`.
    pub(crate) said: [Option<u32>; 4],
}
