//! What a dough may take from.

use num_traits::Zero;

use super::{FLOURS, Part, WATER};
use crate::document::Section;
use crate::ratio::{Ratio, decimal, ratio, whole};

/// A culture or a dough that pieces are taken from.
///
/// The percentages are chosen so that a gram of each is a decimal of each ingredient.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Source {
    /// A culture at 60 % hydration.
    Stiff,
    /// A culture at 100 % hydration.
    Liquid,
    /// A culture of rye at 150 % hydration.
    Rye,
    /// Another dough, salted.
    Yesterday,
    /// The last batch of the same dough.
    ThisDough,
}

impl Source {
    /// How a text names it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stiff => "stiff mother",
            Self::Liquid => "liquid mother",
            Self::Rye => "rye mother",
            Self::Yesterday => "Yesterday's white",
            Self::ThisDough => "this dough",
        }
    }

    /// The flour that it is made of.
    #[must_use]
    pub const fn flour(self) -> &'static str {
        match self {
            Self::Rye => FLOURS[2],
            _ => FLOURS[0],
        }
    }

    /// Its percentages; those of the same dough are the dough's own.
    fn percentages(self, overall: &[Part]) -> Vec<Part> {
        let part = |name, percent| Part { name, percent: whole(percent) };
        let mut parts = vec![part(self.flour(), 100)];
        match self {
            Self::Stiff => parts.push(part(WATER, 60)),
            Self::Liquid => parts.push(part(WATER, 100)),
            Self::Rye => parts.push(part(WATER, 150)),
            Self::Yesterday => parts.extend([part(WATER, 58), part("salt", 2)]),
            Self::ThisDough => return overall.to_vec(),
        }
        parts
    }

    /// What a gram of it is made of, in grams; `overall` is that of the dough that takes it.
    #[must_use]
    pub fn in_a_gram(self, overall: &[Part]) -> Vec<(&'static str, Ratio)> {
        let parts = self.percentages(overall);
        let sum = parts.iter().fold(Ratio::zero(), |sum, part| sum + &part.percent);
        parts.into_iter().map(|part| (part.name, part.percent / &sum)).collect()
    }

    /// The share of flour in it.
    #[must_use]
    pub fn flour_in_a_gram(self) -> Ratio {
        match self {
            Self::Stiff | Self::Yesterday => ratio(5, 8),
            Self::Liquid => ratio(1, 2),
            Self::Rye => ratio(2, 5),
            Self::ThisDough => Ratio::zero(),
        }
    }

    /// Its own part of a book; the same dough has none.
    #[must_use]
    pub fn sections(self) -> Vec<Section> {
        let mut lines = Section::default();
        for part in self.percentages(&[]) {
            lines.line(format!("{}  {} %", part.name, decimal(&part.percent).unwrap_or_default()));
        }
        match self {
            Self::ThisDough => Vec::new(),
            Self::Yesterday => {
                let heading = Section::new(format!("dough {}", self.name()));
                vec![heading, Section { heading: "overall".to_owned(), ..lines }]
            }
            _ => vec![Section { heading: format!("culture {}", self.name()), ..lines }],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_share_of_flour_is_that_of_the_parts() {
        for source in [Source::Stiff, Source::Liquid, Source::Rye, Source::Yesterday] {
            let parts = source.in_a_gram(&[]);
            assert_eq!(parts[0], (source.flour(), source.flour_in_a_gram()));
        }
    }
}
