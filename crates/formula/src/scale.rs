//! The scales that a bakery weighs with.

use levamen_quantity::Mass;

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
