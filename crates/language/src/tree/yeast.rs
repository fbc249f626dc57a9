//! The kinds of baker's yeast.

/// A kind of baker's yeast. How strong each is beside fresh yeast is no matter of the language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum YeastKind {
    /// Pressed into blocks; also called compressed.
    Fresh,
    /// Dried, and woken in water first.
    ActiveDry,
    /// Dried, and mixed in as it is.
    Instant,
    /// Instant, of a strain that works in sweet doughs.
    Osmotolerant,
}

impl YeastKind {
    /// All kinds, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Fresh, Self::ActiveDry, Self::Instant, Self::Osmotolerant];

    /// How the kind is written after `yeast`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fresh => "fresh",
            Self::ActiveDry => "active dry",
            Self::Instant => "instant",
            Self::Osmotolerant => "osmotolerant",
        }
    }

    /// The kind's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fresh => "fresh yeast",
            Self::ActiveDry => "active dry yeast",
            Self::Instant => "instant yeast",
            Self::Osmotolerant => "osmotolerant yeast",
        }
    }
}
