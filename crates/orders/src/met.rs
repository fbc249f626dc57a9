//! What a cell was found to say when it was first met, found again by its bytes.
//!
//! In a million lines there are some thousand different cells. A general table of byte strings costs as much as
//! splitting the line does; this one hashes and compares words of eight bytes, in place.

/// A table from the bytes of cells to numbers.
#[derive(Debug, Clone)]
pub(crate) struct Met {
    /// The cells' words, one after the other.
    words: Vec<u64>,
    /// Open addressing; a power of two.
    slots: Vec<Slot>,
    count: usize,
}

/// A cell that was met, or an empty slot.
#[derive(Debug, Clone, Copy, Default)]
struct Slot {
    /// A part of its hash, so that few others are compared.
    tag: u32,
    /// How many bytes it has, and 1; 0 in an empty slot.
    length: u32,
    /// Where its words begin.
    start: u32,
    number: u32,
}

impl Default for Met {
    fn default() -> Self {
        Self { words: Vec::new(), slots: vec![Slot::default(); 64], count: 0 }
    }
}

impl Met {
    /// The number of a cell that was met.
    #[inline]
    pub(crate) fn get(&self, cell: &[u8]) -> Option<u32> {
        let hash = hash(cell);
        let (tag, length) = (tag(hash), length(cell));
        let mut at = self.first(hash);
        loop {
            let slot = self.slots.get(at)?;
            if slot.tag == tag && slot.length == length && self.is(slot, cell) {
                return Some(slot.number);
            }
            if slot.length == 0 {
                return None;
            }
            at = (at + 1) & (self.slots.len() - 1);
        }
    }

    /// Remembers a cell that was not met.
    pub(crate) fn insert(&mut self, cell: &[u8], number: u32) {
        let Ok(start) = u32::try_from(self.words.len()) else { return };
        each_word(cell, |word| self.words.push(word));
        let hash = hash(cell);
        self.put(self.first(hash), Slot { tag: tag(hash), length: length(cell), start, number });
        self.count += 1;
        if self.count * 2 > self.slots.len() {
            self.widen();
        }
    }

    fn put(&mut self, mut at: usize, new: Slot) {
        while self.slots.get(at).is_some_and(|slot| slot.length != 0) {
            at = (at + 1) & (self.slots.len() - 1);
        }
        if let Some(slot) = self.slots.get_mut(at) {
            *slot = new;
        }
    }

    fn widen(&mut self) {
        let wider = vec![Slot::default(); self.slots.len() * 2];
        let old = std::mem::replace(&mut self.slots, wider);
        for slot in old.into_iter().filter(|slot| slot.length != 0) {
            let length = slot.length as usize - 1;
            let from = slot.start as usize;
            let words = self.words.get(from..from + length.div_ceil(8).max(1)).unwrap_or_default();
            let hash = words.iter().fold(SEED ^ length as u64, |hash, word| step(hash, *word));
            self.put(self.first(hash), slot);
        }
    }

    #[inline]
    fn is(&self, slot: &Slot, cell: &[u8]) -> bool {
        let mut own = self.words.get(slot.start as usize..).unwrap_or_default().iter();
        let mut differs = 0;
        each_word(cell, |word| differs |= own.next().map_or(1, |own| word ^ own));
        differs == 0
    }

    #[inline]
    fn first(&self, hash: u64) -> usize {
        #[expect(clippy::cast_possible_truncation, reason = "the mask takes the low bits alone")]
        let low = hash as usize;
        low & (self.slots.len() - 1)
    }
}

/// Any number: what a hash begins with, so that zeros are mixed too.
const SEED: u64 = 0x243F_6A88_85A3_08D3;

#[inline]
fn length(cell: &[u8]) -> u32 {
    u32::try_from(cell.len()).unwrap_or(u32::MAX).saturating_add(1)
}

#[inline]
fn tag(hash: u64) -> u32 {
    u32::try_from(hash >> 32).unwrap_or(0)
}

#[inline]
fn hash(cell: &[u8]) -> u64 {
    let mut hash = SEED ^ cell.len() as u64;
    each_word(cell, |word| hash = step(hash, word));
    hash
}

/// Takes one word into a hash: both halves of a product with an odd number near the golden ratio (common practice), so
/// that every bit of the word reaches the bits that choose a slot.
#[inline]
fn step(hash: u64, word: u64) -> u64 {
    let product = u128::from(hash ^ word) * 0x9E37_79B9_7F4A_7C15;
    #[expect(clippy::cast_possible_truncation, reason = "the low half is wanted, and then the high one")]
    let (low, high) = (product as u64, (product >> 64) as u64);
    low ^ high
}

/// Goes over a cell in words of eight bytes; the last word overlaps the one before it, so that no byte stands alone.
#[inline]
fn each_word(cell: &[u8], mut each: impl FnMut(u64)) {
    let mut rest = cell;
    while let Some((eight, after)) = rest.split_first_chunk::<8>().filter(|(_, after)| !after.is_empty()) {
        each(u64::from_le_bytes(*eight));
        rest = after;
    }
    each(cell.last_chunk::<8>().map_or_else(|| short(cell), |eight| u64::from_le_bytes(*eight)));
}

/// The word of a cell of less than eight bytes; with its length it says which bytes they are.
#[inline]
fn short(cell: &[u8]) -> u64 {
    if let (Some(first), Some(last)) = (cell.first_chunk::<4>(), cell.last_chunk::<4>()) {
        return u64::from(u32::from_le_bytes(*first)) << 32 | u64::from(u32::from_le_bytes(*last));
    }
    cell.iter().fold(0, |word, byte| word << 8 | u64::from(*byte))
}

#[cfg(test)]
mod tests {
    use std::collections::HashMap;

    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn it_is_a_table(cells in prop::collection::vec("[ab\0]{0,20}", 0..400)) {
            let (mut met, mut plain) = (Met::default(), HashMap::new());
            for (number, cell) in (0..).zip(&cells) {
                prop_assert_eq!(met.get(cell.as_bytes()), plain.get(cell).copied());
                if !plain.contains_key(cell) {
                    plain.insert(cell.clone(), number);
                    met.insert(cell.as_bytes(), number);
                }
            }
        }
    }
}
