//! A converted dough beside the dough that it was.

use levamen_balance::Comparison;
use levamen_convert::Conversion;

/// A conversion, and both doughs side by side.
#[derive(Debug)]
pub struct ConversionSheet {
    /// What was done.
    pub done: Conversion,
    /// The dough as it was and as it is, from the same flour.
    pub comparison: Comparison,
}

impl ConversionSheet {
    /// Sets both doughs side by side.
    #[must_use]
    pub fn new(done: Conversion) -> Self {
        let before = done.before.batch();
        let after = done.after.with_flour(before.flour().clone());
        let comparison = Comparison::new([&before, &after]);
        Self { done, comparison }
    }
}
