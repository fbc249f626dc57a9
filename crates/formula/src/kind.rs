//! What a stage is.

use levamen_language::Kind;

/// What a stage is: something made ahead, or the final dough.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StageKind {
    /// Made ahead of the final dough.
    Ahead(Kind),
    /// What is mixed last; the other stages go into it.
    FinalDough,
}

impl StageKind {
    /// The kind's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ahead(kind) => kind.name(),
            Self::FinalDough => "final dough",
        }
    }

    /// Whether flour in such a stage counts as pre-fermented.
    #[must_use]
    pub const fn ferments(self) -> bool {
        matches!(self, Self::Ahead(kind) if kind.ferments())
    }
}
