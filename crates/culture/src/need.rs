//! Ripe culture that is needed.

use jiff::Zoned;
use levamen_language::Place;
use levamen_quantity::Mass;

/// So much ripe culture at a moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// When it is taken.
    pub at: Zoned,
    /// How much.
    pub mass: Mass,
    /// Where it is said, for a problem to point at.
    pub place: Option<Place>,
}
