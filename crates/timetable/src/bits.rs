//! Minutes as bits: whether there is room in each of them, sixty-four at a time.

use crate::grid::Minute;

/// Minutes in a word.
const WORD: Minute = 64;

/// Whether each minute of the span is open; minutes outside of it are closed.
#[derive(Debug, Clone, Default)]
pub struct Bits {
    words: Vec<u64>,
}

impl Bits {
    /// As a list says.
    pub fn new(is_open: impl ExactSizeIterator<Item = bool>) -> Self {
        let mut words = vec![0; is_open.len().div_ceil(64)];
        for (minute, _) in is_open.enumerate().filter(|(_, open)| *open) {
            if let Some(word) = words.get_mut(minute / 64) {
                *word |= 1 << (minute % 64);
            }
        }
        Self { words }
    }

    /// Opens or closes a minute.
    pub fn set(&mut self, minute: Minute, is_open: bool) {
        let bit = 1_u64 << minute.rem_euclid(WORD);
        let word = usize::try_from(minute / WORD).ok().and_then(|place| self.words.get_mut(place));
        if let Some(word) = word {
            if is_open { *word |= bit } else { *word &= !bit }
        }
    }

    /// The last closed minute of `from..until`.
    pub fn last_closed(&self, from: Minute, until: Minute) -> Option<Minute> {
        let mut until = until;
        while from < until {
            let first = (until - 1).div_euclid(WORD) * WORD;
            let closed = self.closed(first, from, until);
            if closed != 0 {
                return Some(first + WORD - 1 - Minute::from(closed.leading_zeros()));
            }
            until = first;
        }
        None
    }

    /// The first closed minute of `from..until`.
    pub fn first_closed(&self, from: Minute, until: Minute) -> Option<Minute> {
        let mut from = from;
        while from < until {
            let first = from.div_euclid(WORD) * WORD;
            let closed = self.closed(first, from, until);
            if closed != 0 {
                return Some(first + Minute::from(closed.trailing_zeros()));
            }
            from = first + WORD;
        }
        None
    }

    /// The closed minutes of the word that begins at `first`, of those that are in `from..until`.
    fn closed(&self, first: Minute, from: Minute, until: Minute) -> u64 {
        let word = usize::try_from(first / WORD).ok().filter(|_| first >= 0);
        let word = word.and_then(|place| self.words.get(place)).copied().unwrap_or(0);
        let (below, upto) = ((from - first).clamp(0, WORD), (until - first).clamp(0, WORD));
        !word & mask(upto) & !mask(below)
    }
}

/// So many low bits.
const fn mask(bits: Minute) -> u64 {
    if bits >= WORD { u64::MAX } else { (1 << bits) - 1 }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// Against a look at every minute, in the span and around it.
        #[test]
        fn closed_minutes_are_those_of_the_list(
            is_open in prop::collection::vec(prop::bool::weighted(0.9), 0..200),
            from in -70_i64..260,
            length in 0_i64..140,
        ) {
            let bits = Bits::new(is_open.iter().copied());
            let is_closed = |minute: &Minute| !usize::try_from(*minute).ok().and_then(|at| is_open.get(at)).copied().unwrap_or(false);
            let mut span = from..from + length;
            prop_assert_eq!(bits.first_closed(from, from + length), span.clone().find(is_closed));
            prop_assert_eq!(bits.last_closed(from, from + length), span.rfind(is_closed));
        }
    }
}
