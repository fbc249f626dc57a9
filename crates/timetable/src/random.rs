//! Numbers that look drawn, and are the same on every machine.

/// Sebastiano Vigna's splitmix64 (2015; public domain, constants from memory): a counter, well mixed.
#[derive(Debug, Clone)]
pub struct SeededRandom(u64);

impl SeededRandom {
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// How often a fair coin shows heads before it shows tails, with a part of the next throw: in 1024ths, and nearly as a number
    /// drawn from the exponential distribution of mean 1 in units of its half-life. Whole numbers, since logarithms may
    /// differ from machine to machine.
    pub fn exponential(&mut self) -> i64 {
        let drawn = self.next();
        let heads = i64::from(drawn.leading_zeros()) * 1024;
        // The low bits say how far the next throw has come; 1420 / 2048 is the logarithm of 2.
        let part = i64::try_from(drawn % 1024).unwrap_or(0);
        (heads + part) * 1420 / 2048
    }

    /// A number below a limit; zero of no limit.
    pub fn below(&mut self, limit: usize) -> usize {
        let limit = u64::try_from(limit).unwrap_or(u64::MAX);
        let drawn = self.next().checked_rem(limit).unwrap_or(0);
        usize::try_from(drawn).unwrap_or(0)
    }

    /// Puts things in another order.
    pub fn shuffle<T>(&mut self, things: &mut [T]) {
        for last in (1..things.len()).rev() {
            things.swap(last, self.below(last + 1));
        }
    }
}
