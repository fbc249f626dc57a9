//! How many pieces.

use std::fmt;
use std::ops::{AddAssign, SubAssign};

/// A number of pieces of one product.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct PieceSum(u64);

impl PieceSum {
    /// None.
    pub const NONE: Self = Self(0);

    /// The most that one line may order. More of one product for one customer on one day is taken for a slip of
    /// the keyboard (a limit of this program, no source): at 500 g a piece it is 500 t of dough.
    pub const MOST: Self = Self(1_000_000);

    /// So many pieces.
    #[must_use]
    pub const fn new(count: u64) -> Self {
        Self(count)
    }

    /// The number.
    #[must_use]
    pub const fn count(self) -> u64 {
        self.0
    }
}

impl From<u32> for PieceSum {
    fn from(count: u32) -> Self {
        Self(u64::from(count))
    }
}

impl AddAssign for PieceSum {
    /// Adds. A sum past what 64 bits count takes 18 billion lines of [`Self::MOST`] each for every product and day, and
    /// stays at the end of the range.
    fn add_assign(&mut self, other: Self) {
        self.0 = self.0.saturating_add(other.0);
    }
}

impl SubAssign for PieceSum {
    /// Takes away, at most all.
    fn sub_assign(&mut self, other: Self) {
        self.0 = self.0.saturating_sub(other.0);
    }
}

impl fmt::Display for PieceSum {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(to)
    }
}

/// Why words are no number of pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum PiecesError {
    /// More than [`PieceSum::MOST`].
    TooMany,
    /// A part of a piece.
    NotWhole,
    /// Digits in groups: `1,200`, `1 200`, `1.200`.
    Grouped,
    /// Below zero.
    Negative,
    /// A number with something after it.
    WithUnit,
    /// No number.
    NotANumber,
}

/// Reads a whole number, also zero.
///
/// # Errors
/// Why it is none, or none that can be meant.
pub(crate) fn read(words: &str) -> Result<u32, PiecesError> {
    if let Some(count) = plain(words.as_bytes()) {
        return Ok(count);
    }
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    if digits(words) {
        return Err(PiecesError::TooMany);
    }
    if words.strip_prefix(['-', '\u{2212}']).is_some_and(|rest| digits(rest.trim())) {
        return Err(PiecesError::Negative);
    }
    let groups: Vec<&str> = words.split([',', '.', '\'', ' ', '\u{a0}', '\u{202f}']).collect();
    if groups.len() > 1 && groups.iter().all(|group| digits(group)) {
        let is_grouped = groups.iter().skip(1).all(|group| group.len() == 3);
        return Err(if is_grouped { PiecesError::Grouped } else { PiecesError::NotWhole });
    }
    let begins = words.bytes().next().is_some_and(|byte| byte.is_ascii_digit());
    Err(if begins { PiecesError::WithUnit } else { PiecesError::NotANumber })
}

/// Digits and nothing else, up to [`PieceSum::MOST`].
#[inline]
pub(crate) fn plain(digits: &[u8]) -> Option<u32> {
    // Zeros before the number are passed over, so that any number of them is no other number.
    let zeros = digits.iter().take_while(|byte| **byte == b'0').count();
    let mut count = 0_u32;
    for byte in digits.get(zeros..)? {
        let digit = byte.wrapping_sub(b'0');
        if digit > 9 || count > 100_000 {
            return None;
        }
        count = count * 10 + u32::from(digit);
    }
    (u64::from(count) <= PieceSum::MOST.0 && !digits.is_empty()).then_some(count)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_numbers_up_to_the_most() {
        assert_eq!(read("24"), Ok(24));
        assert_eq!(read("0"), Ok(0));
        assert_eq!(read("00000000024"), Ok(24));
        assert_eq!(read("1000000"), Ok(1_000_000));
        for digits in ["1000001", "1000010", "9999999", "1000000000000", "99999999999999999999999999"] {
            assert_eq!(read(digits), Err(PiecesError::TooMany));
        }
    }

    #[test]
    fn all_else_is_told_apart() {
        assert_eq!(read("12.5"), Err(PiecesError::NotWhole));
        assert_eq!(read("1,200"), Err(PiecesError::Grouped));
        assert_eq!(read("1 200 000"), Err(PiecesError::Grouped));
        assert_eq!(read("-3"), Err(PiecesError::Negative));
        assert_eq!(read("12 pieces"), Err(PiecesError::WithUnit));
        assert_eq!(read("a dozen"), Err(PiecesError::NotANumber));
        assert_eq!(read("+5"), Err(PiecesError::NotANumber));
        assert_eq!(read(""), Err(PiecesError::NotANumber));
    }
}
