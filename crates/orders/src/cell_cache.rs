//! What cells say, by their bytes: each different cell is read once.

use rustc_hash::FxHashMap;

/// A table from the bytes of cells to numbers.
#[derive(Debug, Clone)]
pub(crate) struct CellCache {
    /// Open addressing; a power of two.
    slots: Vec<CacheSlot>,
    count: usize,
    /// Cells that do not fit into a slot.
    long: FxHashMap<Box<[u8]>, u32>,
}

/// A cell, or an empty slot. It lies within one line of the processor's cache.
#[derive(Debug, Clone, Copy, Default)]
#[repr(align(32))]
struct CacheSlot {
    words: Words,
    /// How many bytes it has, and 1; 0 in an empty slot.
    length: u32,
    number: u32,
}

/// A cell of up to 24 bytes. The words overlap where it has fewer, so its length belongs to it.
type Words = [u64; 3];

impl Default for CellCache {
    fn default() -> Self {
        Self { slots: vec![CacheSlot::default(); 64], count: 0, long: FxHashMap::default() }
    }
}

impl CellCache {
    /// The number of a cell in the cache.
    #[inline]
    pub(crate) fn get(&self, cell: &[u8]) -> Option<u32> {
        let Some(words) = words(cell) else { return self.long.get(cell).copied() };
        let length = length(cell);
        let mut at = self.first(words, length);
        loop {
            let slot = self.slots.get(at)?;
            if slot.length == length && are_same(slot.words, words) {
                return Some(slot.number);
            }
            if slot.length == 0 {
                return None;
            }
            at = (at + 1) & (self.slots.len() - 1);
        }
    }

    /// Remembers a cell that is not in the cache.
    pub(crate) fn insert(&mut self, cell: &[u8], number: u32) {
        let Some(words) = words(cell) else {
            self.long.insert(cell.into(), number);
            return;
        };
        self.put(CacheSlot { words, length: length(cell), number });
        self.count += 1;
        // More than half of the slots are empty, so that most cells are in their first one.
        if self.count * 2 > self.slots.len() {
            let wider = vec![CacheSlot::default(); self.slots.len() * 2];
            let old = std::mem::replace(&mut self.slots, wider);
            old.into_iter().filter(|slot| slot.length != 0).for_each(|slot| self.put(slot));
        }
    }

    fn put(&mut self, new: CacheSlot) {
        let mut at = self.first(new.words, new.length);
        while self.slots.get(at).is_some_and(|slot| slot.length != 0) {
            at = (at + 1) & (self.slots.len() - 1);
        }
        if let Some(slot) = self.slots.get_mut(at) {
            *slot = new;
        }
    }

    /// The slot at which the search for a cell begins.
    #[inline]
    fn first(&self, [first, second, third]: Words, length: u32) -> usize {
        let mixed = mix(first ^ u64::from(length), 0x9E37_79B9_7F4A_7C15)
            ^ mix(second, 0xC2B2_AE3D_27D4_EB4F)
            ^ mix(third, 0x1656_67B1_9E37_79F9);
        #[expect(clippy::cast_possible_truncation, reason = "the mask takes the low bits alone")]
        let low = mixed as usize;
        low & (self.slots.len() - 1)
    }
}

/// Word by word: a comparison of whole arrays would bring them into memory first.
#[inline]
fn are_same(own: Words, other: Words) -> bool {
    own.iter().zip(other).fold(0, |differs, (own, other)| differs | (own ^ other)) == 0
}

/// Both halves of a product with a large odd number, so that every bit of the word reaches those that choose a slot. Any
/// such numbers do; these are those of common hash functions, from memory.
#[inline]
fn mix(word: u64, factor: u64) -> u64 {
    let product = u128::from(word) * u128::from(factor);
    #[expect(clippy::cast_possible_truncation, reason = "the low half is wanted, and then the high one")]
    let (low, high) = (product as u64, (product >> 64) as u64);
    low ^ high
}

#[inline]
fn length(cell: &[u8]) -> u32 {
    u32::try_from(cell.len()).unwrap_or(u32::MAX).saturating_add(1)
}

/// The words of a cell; `None` where it has more than 24 bytes.
#[inline]
fn words(cell: &[u8]) -> Option<Words> {
    let word = |eight: &[u8; 8]| u64::from_le_bytes(*eight);
    let (Some(first), Some(last)) = (cell.first_chunk(), cell.last_chunk()) else {
        return Some([short(cell), 0, 0]);
    };
    match cell.len() {
        ..=16 => Some([word(first), word(last), 0]),
        17..=24 => {
            let (_, after) = cell.split_first_chunk::<8>()?;
            Some([word(first), word(after.first_chunk()?), word(last)])
        }
        _ => None,
    }
}

/// The word of a cell of less than eight bytes.
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
        fn it_is_a_table(cells in prop::collection::vec("[ab\0]{0,30}", 0..150)) {
            let (mut cache, mut plain) = (CellCache::default(), HashMap::new());
            for (number, cell) in (0..).zip(&cells) {
                prop_assert_eq!(cache.get(cell.as_bytes()), plain.get(cell).copied());
                if !plain.contains_key(cell) {
                    plain.insert(cell.clone(), number);
                    cache.insert(cell.as_bytes(), number);
                }
            }
            for cell in &cells {
                prop_assert_eq!(cache.get(cell.as_bytes()), plain.get(cell).copied());
            }
        }
    }
}
