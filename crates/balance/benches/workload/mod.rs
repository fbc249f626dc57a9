//! The workload: doughs like those of a bakery, from a fixed seed.

#![allow(dead_code, reason = "each bench uses a part of it")]

pub mod closed;
pub mod dense;

use std::fmt::Write as _;

/// A small generator of random numbers (an xorshift), so that every run measures the same doughs.
struct Random(u64);

impl Random {
    /// A whole number from `least` to `most`.
    fn between(&mut self, least: u16, most: u16) -> u16 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        let span = u64::from(most - least) + 1;
        least + u16::try_from((self.0 >> 11) % span).unwrap_or(0)
    }
}

const FLOURS: [&str; 4] = ["strong white flour", "wholemeal flour", "whole rye flour", "spelt flour"];

/// The culture that every seed comes from: as much water as flour.
pub const CULTURE: &str = "culture mother\n  strong white flour  100 %\n  water  100 %\n";

/// A dough as numbers.
#[derive(Debug, Clone)]
pub struct Dough {
    /// Percent of the whole flour; they add up to 100.
    pub flours: Vec<u16>,
    /// Per mille of the whole flour.
    pub water: u16,
    /// Per mille of the whole flour.
    pub salt: u16,
    /// Per mille of the whole flour.
    pub yeast: u16,
    /// The pre-ferments.
    pub stages: Vec<Stage>,
    /// Kilograms of dough.
    pub make: u16,
}

/// A pre-ferment of strong white flour.
#[derive(Debug, Clone)]
pub struct Stage {
    /// The flour that it takes, per mille of the strong white flour of the dough.
    pub takes: u16,
    /// Percent of its own flour.
    pub water: u16,
    /// What raises it.
    pub raised_by: RaisedBy,
    /// A build that goes into it.
    pub build: Option<Box<Stage>>,
}

/// What raises a pre-ferment.
#[derive(Debug, Clone, Copy)]
pub enum RaisedBy {
    /// Yeast, per mille of its own flour.
    Yeast(u16),
    /// Seed of the culture, percent of its own flour.
    Seed(u16),
}

/// `count` doughs: 2 to 4 flours, hydration 55 to 85 %, salt 1.8 to 2.2 %, yeast to 2 %, 0 to 3 pre-ferments that
/// together take up to half of the strong flour at 45 to 125 % hydration, with yeast of their own or seed of a culture,
/// one of four with a nested build, 1 to 80 kg of dough.
pub fn doughs(count: usize) -> Vec<Dough> {
    let mut random = Random(0x9E37_79B9_7F4A_7C15);
    (0..count).map(|_| dough(&mut random)).collect()
}

fn dough(random: &mut Random) -> Dough {
    let count = random.between(2, 4);
    let mut left = 100;
    let mut flours: Vec<u16> = (1..count)
        .map(|_| {
            let share = random.between(5, left / 2);
            left -= share;
            share
        })
        .collect();
    flours.insert(0, left);
    let stages = random.between(0, 3);
    Dough {
        flours,
        water: random.between(550, 850),
        salt: random.between(18, 22),
        yeast: random.between(10, 20),
        stages: (0..stages).map(|_| stage(random, stages)).collect(),
        make: random.between(1, 80),
    }
}

fn stage(random: &mut Random, stages: u16) -> Stage {
    let takes = random.between(50, 500) / stages;
    let (water, raised_by) = mix(random);
    let build = (random.between(0, 3) == 0).then(|| {
        let (water, _) = mix(random);
        let raised_by = RaisedBy::Seed(random.between(10, 40));
        Box::new(Stage { takes: takes / 2, water, raised_by, build: None })
    });
    Stage { takes, water, raised_by, build }
}

fn mix(random: &mut Random) -> (u16, RaisedBy) {
    let raised_by = match random.between(0, 1) {
        0 => RaisedBy::Yeast(random.between(1, 4)),
        _ => RaisedBy::Seed(random.between(10, 40)),
    };
    (random.between(45, 125), raised_by)
}

impl Dough {
    /// The dough as a text.
    pub fn text(&self, number: usize) -> String {
        let mut text = format!("dough Dough {number}\n\noverall\n");
        for (name, share) in FLOURS.iter().zip(&self.flours) {
            let _ = writeln!(text, "  {name}  {share} %");
        }
        for (name, share) in [("water", self.water), ("salt", self.salt), ("fresh yeast", self.yeast)] {
            let _ = writeln!(text, "  {name}  {}.{} %", share / 10, share % 10);
        }
        for (index, stage) in self.stages.iter().enumerate() {
            stage.write(&mut text, &format!("ferment {index}"), "");
        }
        let _ = writeln!(text, "\nmake {} kg of dough", self.make);
        text
    }
}

impl Stage {
    fn write(&self, text: &mut String, name: &str, indent: &str) {
        let _ = writeln!(text, "{}{indent}stage {name}, a sponge", if indent.is_empty() { "\n" } else { "" });
        let (takes, flour) = (self.takes, FLOURS[0]);
        let _ = writeln!(text, "{indent}  takes  {}.{} % of the {flour}", takes / 10, takes % 10);
        let _ = writeln!(text, "{indent}  {flour}  100 %\n{indent}  water  {} %", self.water);
        let _ = match self.raised_by {
            RaisedBy::Yeast(share) => writeln!(text, "{indent}  fresh yeast  0.{share} %"),
            RaisedBy::Seed(share) => writeln!(text, "{indent}  from mother  {share} %"),
        };
        if let Some(build) = &self.build {
            build.write(text, &format!("{name} build"), &format!("{indent}  "));
        }
    }
}

/// The texts of a book of `count` doughs, the culture first.
pub fn texts(count: usize) -> Vec<String> {
    let doughs = doughs(count);
    let doughs = doughs.iter().enumerate().map(|(number, dough)| dough.text(number));
    std::iter::once(CULTURE.to_owned()).chain(doughs).collect()
}
