//! Numbers that look like chance and are the same each time.

/// A linear congruential generator, with the constants of Knuth's MMIX (from memory).
pub struct Chance(u64);

impl Chance {
    /// The sequence that follows from a number.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number below another; 0 where there is none.
    pub fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap_or(0) % most.max(1)
    }

    /// One of several; `None` of none.
    pub fn pick<'t, T>(&mut self, items: &'t [T]) -> Option<&'t T> {
        items.get(self.below(items.len()))
    }

    /// Puts things in another order.
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for index in (1..items.len()).rev() {
            let other = self.below(index + 1);
            items.swap(index, other);
        }
    }
}
