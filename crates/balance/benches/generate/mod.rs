//! The workload: doughs like those of a bakery, from a fixed seed.

use std::fmt::Write as _;

/// A small generator of random numbers (an xorshift), so that every run measures the same doughs.
pub struct Random(u64);

impl Random {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// A whole number from `least` to `most`.
    pub fn between(&mut self, least: u64, most: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        least + (self.0 >> 11) % (most - least + 1)
    }
}

const FLOURS: [&str; 4] = ["strong white flour", "wholemeal flour", "whole rye flour", "spelt flour"];

/// The text of a book of `count` doughs: 2 to 4 flours, hydration 55 to 85 %, salt 1.8 to 2.2 %, yeast 0 to 2 %,
/// 0 to 3 pre-ferments that take 5 to 50 % of the flour at 45 to 125 % hydration, with yeast of their own or the seed
/// of a culture, one of four with a nested build, 1 to 80 kg of dough.
pub fn doughs(count: usize) -> Vec<String> {
    let mut random = Random::new(2026);
    let culture = "culture mother\n  strong white flour  100 %\n  water  100 %\n".to_owned();
    std::iter::once(culture).chain((0..count).map(|number| dough(&mut random, number))).collect()
}

fn dough(random: &mut Random, number: usize) -> String {
    let mut text = format!("dough Dough {number}\n\noverall\n");
    let flours = random.between(2, 4);
    let mut left = 100;
    for (index, name) in FLOURS.iter().take(usize::try_from(flours).unwrap_or(2)).enumerate() {
        let share = if index as u64 + 1 == flours { left } else { random.between(5, left / 2) };
        left -= share;
        let _ = writeln!(text, "  {name}  {share} %");
    }
    let hydration = random.between(550, 850);
    let _ = writeln!(text, "  water  {}.{} %", hydration / 10, hydration % 10);
    let _ = writeln!(text, "  salt  {}.{} %", 1 + random.between(0, 1), random.between(0, 9));
    let yeast = random.between(1, 20);
    let _ = writeln!(text, "  fresh yeast  {}.{} %", yeast / 10, yeast % 10);
    let stages = random.between(0, 3);
    // All pre-ferments together stay within the first flour's share and the dough's water.
    for stage in 0..stages {
        let share = random.between(5, 50) / stages;
        let _ = writeln!(text, "\nstage first ferment {stage}, a sponge");
        let _ =
            writeln!(text, "  takes  {}.{} % of the strong white flour", share.max(1), random.between(0, 9));
        let _ = writeln!(text, "  strong white flour  100 %\n  water  {} %", random.between(45, 125));
        if random.between(0, 1) == 0 {
            let _ = writeln!(text, "  fresh yeast  0.{} %", random.between(1, 4));
        } else {
            let _ = writeln!(text, "  from mother  {} %", random.between(10, 40));
        }
        if random.between(0, 3) == 0 {
            let _ = writeln!(text, "  stage build {stage}, a levain");
            let _ = writeln!(text, "    strong white flour  100 %\n    water  {} %", random.between(45, 125));
            let _ = writeln!(text, "    from mother  {} %", random.between(10, 40));
            let _ = writeln!(text, "    takes  {}.5 % of the strong white flour", share.max(2) / 2);
        }
    }
    let _ = writeln!(text, "\nmake {} kg of dough", random.between(1, 80));
    text
}
