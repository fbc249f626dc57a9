//! What is weighed in a block: each name once.

use std::borrow::Cow;
use std::collections::HashMap;

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
}

/// Blocks are short, so looking through them is fastest; a longer one gets a table, so that a text of one huge
/// block does not take the square of its length.
const LOOK_THROUGH: usize = 32;

impl<'t> Rows<'t> {
    /// Opens a block.
    pub(crate) const fn open(&self) -> BlockRows<'t> {
        BlockRows { from: self.names.len(), table: None }
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
