//! The scales that a bakery weighs with.

use levamen_language::{Problem, Quantity, Statement};
use levamen_quantity::{Exact, Mass};

use crate::collect::DraftBlock;

/// A scale: what it can show and what it can carry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scale {
    /// Its name.
    pub name: String,
    /// The smallest step that it shows; above zero.
    pub division: Mass,
    /// The most that it carries.
    pub capacity: Mass,
}

impl Scale {
    /// Reads a scale's facts.
    pub(crate) fn read(block: &DraftBlock<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let mut division: Option<&Quantity> = None;
        let mut capacity: Option<&Quantity> = None;
        for line in &block.lines {
            match &line.statement {
                Statement::Division(quantity) => division = Some(quantity),
                Statement::Capacity(quantity) => capacity = Some(quantity),
                _ => {}
            }
        }
        let name = block.name.text;
        let (Some(division), Some(capacity)) = (division, capacity) else {
            problems.push(
                Problem::error("half-a-scale", format!("the scale `{name}` does not say all it must"))
                    .at(block.place(), "needs a division and a capacity")
                    .help("write both, for example `division 1 g` and `capacity 6 kg`"),
            );
            return None;
        };
        if capacity.mass < division.mass {
            problems.push(
                Problem::error("half-a-scale", format!("the scale `{name}` carries less than its division"))
                    .at(block.place(), "capacity is below division")
                    .help("exchange the two figures"),
            );
            return None;
        }
        Some(Self { name: name.to_owned(), division: division.mass.clone(), capacity: capacity.mass.clone() })
    }

    /// The scales of a bakery that has not named its own: common practice, no source.
    #[must_use]
    pub fn usual() -> Vec<Self> {
        let tenths = |figure: i64| Mass::from_grams(&Exact::from(figure) / &Exact::from(10));
        [("fine scale", 1, 5_000), ("bench scale", 10, 50_000), ("floor scale", 100, 600_000)]
            .map(|(name, division, capacity)| Self {
                name: name.to_owned(),
                division: tenths(division),
                capacity: tenths(capacity),
            })
            .into()
    }
}
