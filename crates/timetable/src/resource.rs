//! What there is to work with: mixers, and pools of bakers or oven decks.

use levamen_quantity::Mass;

use crate::{Minutes, Moment};

/// A class of machines, such as mixers, of [`Work::class`](crate::Work::class).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct ClassId(pub(crate) usize);

/// A machine of [`Work::machine`](crate::Work::machine).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct MachineId(pub(crate) usize);

/// A pool of [`Work::pool`](crate::Work::pool).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct PoolId(pub(crate) usize);

impl PoolId {
    /// Its place among the pools of its work, from 0 on.
    #[must_use]
    pub const fn place(self) -> usize {
        self.0
    }
}

/// A machine that takes one dough at a time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Machine {
    /// What it is called.
    pub name: String,
    /// What kind of machine it is.
    pub class: ClassId,
    /// The least dough that it works well.
    pub least: Mass,
    /// The most dough that it takes.
    pub most: Mass,
}

impl Machine {
    /// Whether it takes that much dough.
    #[must_use]
    pub fn takes(&self, dough: &Mass) -> bool {
        self.least <= *dough && *dough <= self.most
    }
}

/// Several of a kind that serve at once: the bakers of the house, the decks of an oven, the places of a proofer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pool {
    /// What it is called: `deck oven`.
    pub name: String,
    /// What one of it is called: `deck`.
    pub one: String,
    /// What several of it are called: `decks`.
    pub many: String,
    /// When how many are there. Where spans overlap, they add up: two shifts.
    pub open: Vec<OpeningHours>,
}

impl Pool {
    /// `1 deck`, `7 decks`
    #[must_use]
    pub fn counted(&self, places: u32) -> String {
        let word = if places == 1 { &self.one } else { &self.many };
        format!("{places} {word}")
    }

    /// The most that are ever there at once.
    #[must_use]
    pub fn most(&self) -> u32 {
        let at = |moment| {
            let there = self.open.iter().filter(|open| open.from <= moment && moment < open.until);
            there.fold(0, |sum: u32, open| sum.saturating_add(open.places))
        };
        self.open.iter().map(|open| at(open.from)).max().unwrap_or(0)
    }
}

/// A span in which some places of a pool are there: a shift, or the hours of an oven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OpeningHours {
    /// The first minute.
    pub from: Moment,
    /// The minute after the last.
    pub until: Moment,
    /// How many.
    pub places: u32,
}

/// What a step takes of a pool, from some minutes after its start on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PoolNeed {
    /// Of which pool.
    pub pool: PoolId,
    /// How many places at once.
    pub places: u32,
    /// How long after the start of the step: 0 for loading an oven, 38 min for drawing the bread.
    pub after: Minutes,
    /// For how long.
    pub length: Minutes,
}

/// The machine that a step occupies from its start to its end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnMachine {
    /// Of which class.
    pub class: ClassId,
    /// The dough that goes in.
    pub dough: Mass,
}
