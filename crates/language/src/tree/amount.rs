//! How much of something, and of what it is a share.

use levamen_quantity::{Exact, Mass, MassUnit, Volume, VolumeUnit};

use crate::{Name, Span};

/// A number with a unit of mass, as it is written.
#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    /// The mass.
    pub mass: Mass,
    /// The number as written.
    pub figure: Exact,
    /// The unit as written.
    pub unit: MassUnit,
    /// Where it stands.
    pub span: Span,
}

/// How much of something.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount<'t> {
    /// How much.
    pub kind: AmountKind<'t>,
    /// Where it stands.
    pub span: Span,
}

/// The ways to say how much.
#[derive(Debug, Clone, PartialEq)]
pub enum AmountKind<'t> {
    /// `18 %`, `18 % of the flour`, `50 % of its rye flour`
    Percent {
        /// The percentage, above zero.
        percent: Exact,
        /// What it is a percentage of; `None` where the section says it.
        of: Option<Basis<'t>>,
    },
    /// `4.2 kg`, also `2 kg of flour` after `takes`
    Mass(Quantity),
    /// `500 ml`
    Volume {
        /// The volume.
        volume: Volume,
        /// The number as written.
        figure: Exact,
        /// The unit as written.
        unit: VolumeUnit,
    },
    /// `rest`: not stated here, found by the balance.
    Rest,
}

/// What a percentage is a percentage of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Basis<'t> {
    /// `the` for the whole dough, `its` for the stage alone.
    pub reach: Reach,
    /// `flour`, `dough` or the name of an ingredient; `water` after `its`.
    pub name: Name<'t>,
    /// Where the words stand, from `of`.
    pub span: Span,
}

/// How far a basis reaches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// `of the …`: in the whole dough.
    Dough,
    /// `of its …`: in this stage.
    Stage,
}
