//! What is weighed in a block: each name once, or several times where each line says when it goes in.

use std::borrow::Cow;
use std::collections::{HashMap, HashSet};

use crate::name::{one_spaced, same_words};

/// The names that are weighed in the open blocks, outermost block first. One list serves them all, since an
/// inner block ends before the next name of an outer one.
#[derive(Debug, Default)]
pub(crate) struct Rows<'t> {
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
    /// Adds what a line says of when it goes in. Whether a line of the same name before it stands beside this one: that
    /// says it too, in other words.
    pub(crate) fn add_time(&mut self, name: &'t str, when: &'t str) -> bool {
        let is_timed = !self.timed_names.insert(one_spaced(name));
        self.timed.insert((one_spaced(name), one_spaced(when))) && is_timed
    }
}

/// Blocks are short, so looking through them is fastest; a longer one gets a table, so that a text of one huge
/// block does not take the square of its length.
const LOOK_THROUGH: usize = 32;

impl<'t> Rows<'t> {
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
        if names.len() < LOOK_THROUGH {
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
        let mut rows = Rows::default();
        let mut block = rows.open();
        for name in &names {
            assert_eq!(rows.add(&mut block, name), None);
        }
        assert_eq!(rows.add(&mut block, "flour  7"), Some("flour 7"));
        assert_eq!(rows.add(&mut block, "flour 99"), Some("flour 99"));
    }

    #[test]
    fn an_inner_block_forgets_its_names_and_keeps_those_around_it() {
        let mut rows = Rows::default();
        let mut outer = rows.open();
        assert_eq!(rows.add(&mut outer, "water"), None);
        let mut inner = rows.open();
        assert_eq!(rows.add(&mut inner, "water"), None);
        rows.close(&inner);
        assert_eq!(rows.add(&mut outer, "water"), Some("water"));
    }
}
