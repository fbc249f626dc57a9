//! How far a long question has come.

/// Hears how far a long question has come.
pub trait Progress {
    /// So many doughs, days or files are to be done, beside those that were expected before.
    fn expect(&self, more: u64);

    /// So many more of them are done.
    fn advance(&self, more: u64);
}

/// Hears nothing.
#[derive(Debug, Clone, Copy, Default)]
pub struct Silent;

impl Progress for Silent {
    fn expect(&self, _more: u64) {}

    fn advance(&self, _more: u64) {}
}
