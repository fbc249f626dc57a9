//! The bytes that separate records and cells, found 64 at a time.

/// How many bytes are compared together: one bit each.
const WIDE: usize = 64;

/// Commas, line ends and quotes of some bytes, in order.
#[derive(Debug, Clone)]
pub(crate) struct Separators<'b> {
    bytes: &'b [u8],
    /// Where the bytes of `mask` begin.
    base: usize,
    /// A bit for each mark among the 64 bytes from `base` on that was not given yet.
    mask: u64,
}

impl<'b> Separators<'b> {
    /// The marks from a byte on.
    pub(crate) fn from(bytes: &'b [u8], start: usize) -> Self {
        Self { bytes, base: start, mask: mask(bytes, start) }
    }

    /// Where the next mark stands.
    #[inline]
    pub(crate) fn next(&mut self) -> Option<usize> {
        while self.mask == 0 {
            self.base += WIDE;
            if self.base >= self.bytes.len() {
                return None;
            }
            self.mask = mask(self.bytes, self.base);
        }
        let at = self.base + self.mask.trailing_zeros() as usize;
        self.mask &= self.mask - 1;
        Some(at)
    }
}

/// The marks among the 64 bytes from `start` on.
#[inline]
fn mask(bytes: &[u8], start: usize) -> u64 {
    let rest = bytes.get(start..).unwrap_or_default();
    if let Some(chunk) = rest.first_chunk::<WIDE>() {
        return bits(chunk);
    }
    let mut chunk = [0; WIDE];
    for (to, from) in chunk.iter_mut().zip(rest) {
        *to = *from;
    }
    bits(&chunk)
}

/// A bit for each mark; the loops are plain so that the compiler makes vector instructions of them.
#[inline]
fn bits(chunk: &[u8; WIDE]) -> u64 {
    let mut is_mark = [0_u8; WIDE];
    for (to, byte) in is_mark.iter_mut().zip(chunk) {
        *to = u8::from(*byte == b',') | u8::from(*byte == b'\n') | u8::from(*byte == b'"');
    }
    let mut mask = 0;
    for (index, eight) in is_mark.as_chunks::<8>().0.iter().enumerate() {
        // Eight bytes of 0 or 1 become eight bits: the product brings the byte k to the bit 56 + k.
        let gathered = u64::from_le_bytes(*eight).wrapping_mul(0x0102_0408_1020_4080) >> 56;
        mask |= gathered << (index * 8);
    }
    mask
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn marks_are_where_a_plain_search_finds_them(bytes in "[a,\n\"é]{0,200}", start in 0_usize..250) {
            let bytes = bytes.as_bytes();
            let mut marks = Separators::from(bytes, start);
            let found: Vec<usize> = std::iter::from_fn(|| marks.next()).collect();
            let plain = (start..bytes.len()).filter(|at| b",\n\"".contains(&bytes[*at]));
            prop_assert_eq!(found, plain.collect::<Vec<_>>());
        }
    }
}
