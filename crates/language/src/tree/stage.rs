//! Stages and what they do.

use crate::{Name, Span};

/// `stage NAME, a KIND`; a stage whose name is a kind needs no kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StageHeading<'t> {
    /// What the stage is called in this dough.
    pub name: Name<'t>,
    /// What it does.
    pub kind: Kind,
    /// Where the kind is written; `None` where the name says it.
    pub kind_span: Option<Span>,
}

/// What a stage does. Names of the trade (common practice).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A fluid yeasted pre-ferment.
    Poolish,
    /// A stiff yeasted pre-ferment.
    Biga,
    /// A yeasted pre-ferment between the two.
    Sponge,
    /// A sourdough build.
    Levain,
    /// A piece of finished dough, salt included.
    OldDough,
    /// A sourdough build of rye.
    RyeSour,
    /// A fluid yeasted start with little flour.
    Brew,
    /// Any other stage that ferments ahead.
    PreFerment,
    /// Grain or fruit that drinks water ahead; not fermented.
    Soaker,
    /// Flour or grain wetted with boiling water; not fermented.
    Scald,
    /// Flour and water that rest ahead of mixing; not fermented.
    Autolyse,
}

impl Kind {
    /// All kinds, in the order in which they are offered.
    pub const ALL: [Self; 11] = [
        Self::Poolish,
        Self::Biga,
        Self::Sponge,
        Self::Levain,
        Self::OldDough,
        Self::RyeSour,
        Self::Brew,
        Self::PreFerment,
        Self::Soaker,
        Self::Scald,
        Self::Autolyse,
    ];

    /// The kind's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Poolish => "poolish",
            Self::Biga => "biga",
            Self::Sponge => "sponge",
            Self::Levain => "levain",
            Self::OldDough => "old dough",
            Self::RyeSour => "rye sour",
            Self::Brew => "brew",
            Self::PreFerment => "pre-ferment",
            Self::Soaker => "soaker",
            Self::Scald => "scald",
            Self::Autolyse => "autolyse",
        }
    }

    /// Whether flour in such a stage counts as pre-fermented.
    #[must_use]
    pub const fn ferments(self) -> bool {
        !matches!(self, Self::Soaker | Self::Scald | Self::Autolyse)
    }
}
