//! An open block: what it has said so far, and what is weighed in it: each name once, or several times where each line
//! says when it goes in.

use std::borrow::Cow;
use std::collections::{HashMap, HashSet};

use levamen_quantity::Exact;

use crate::name::{one_spaced, same_words};
use crate::section::{ONCE, Section};

/// A line's number in the tree.
pub(crate) type LineIndex = usize;

/// A block whose lines are being read.
#[derive(Debug)]
pub(crate) struct Block<'t> {
    pub(crate) section: Section,
    /// The line of its heading.
    pub(crate) heading: LineIndex,
    /// The column of its heading; a line that is there or to the left ends the block.
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

/// How a line is aligned with the lines of its block.
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

    /// Takes in a line that is in `column`. The first line of a block sets the column for all.
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

/// The names that are weighed in the open blocks, outermost block first. One list serves them all, since an
/// inner block ends before the next name of an outer one.
#[derive(Debug, Default)]
pub(crate) struct WeighedNames<'t> {
    names: Vec<&'t str>,
}

/// Where the names of one block begin, and a table of them where they are many.
#[derive(Debug, Default)]
pub(crate) struct BlockRows<'t> {
    from: usize,
    table: Option<HashMap<Cow<'t, str>, &'t str>>,
    /// The names of lines that say when they go in, and each with its words.
    timed: HashSet<(Cow<'t, str>, Cow<'t, str>)>,
    timed_names: HashSet<Cow<'t, str>>,
}

impl<'t> BlockRows<'t> {
    /// Adds what a line says of when it goes in. Whether a line of the same name before it is beside this one: that
    /// says it too, in other words.
    pub(crate) fn add_time(&mut self, name: &'t str, when: &'t str) -> bool {
        let is_timed = !self.timed_names.insert(one_spaced(name));
        self.timed.insert((one_spaced(name), one_spaced(when))) && is_timed
    }
}

/// Blocks are short, so looking through them is fastest; a longer one gets a table, so that a text of one huge
/// block does not take the square of its length.
const MAX_SCANNED: usize = 32;

impl<'t> WeighedNames<'t> {
    /// Opens a block.
    pub(crate) fn open(&self) -> BlockRows<'t> {
        BlockRows { from: self.names.len(), ..BlockRows::default() }
    }

    /// Closes a block.
    pub(crate) fn close(&mut self, block: &BlockRows<'t>) {
        self.names.truncate(block.from);
    }

    /// Adds a name to the innermost block; gives back the same name where it is there already.
    pub(crate) fn add(&mut self, block: &mut BlockRows<'t>, name: &'t str) -> Option<&'t str> {
        let names = self.names.get(block.from..).unwrap_or_default();
        if names.len() < MAX_SCANNED {
            let earlier = names.iter().copied().find(|earlier| same_words(earlier, name));
            self.names.push(name);
            return earlier;
        }
        let table = block
            .table
            .get_or_insert_with(|| names.iter().rev().map(|name| (one_spaced(name), *name)).collect());
        let earlier = table.get(&one_spaced(name)).copied();
        if earlier.is_none() {
            table.insert(one_spaced(name), name);
        }
        earlier
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_found_again_in_a_short_and_in_a_long_block() {
        let names: Vec<String> = (0..100).map(|number| format!("flour {number}")).collect();
        let mut rows = WeighedNames::default();
        let mut block = rows.open();
        for name in &names {
            assert_eq!(rows.add(&mut block, name), None);
        }
        assert_eq!(rows.add(&mut block, "flour  7"), Some("flour 7"));
        assert_eq!(rows.add(&mut block, "flour 99"), Some("flour 99"));
    }

    #[test]
    fn an_inner_block_forgets_its_names_and_keeps_those_around_it() {
        let mut rows = WeighedNames::default();
        let mut outer = rows.open();
        assert_eq!(rows.add(&mut outer, "water"), None);
        let mut inner = rows.open();
        assert_eq!(rows.add(&mut inner, "water"), None);
        rows.close(&inner);
        assert_eq!(rows.add(&mut outer, "water"), Some("water"));
    }
}
