//! What a table is for, in the words of its problems.

/// What a table is for, in the words of its problems.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Form {
    /// That it holds nothing: `the table says nothing of what is needed`.
    pub empty: &'static str,
    /// Which columns it has.
    pub columns: &'static str,
    /// What a row looks like.
    pub row: &'static str,
    /// The most rows that are read.
    pub most_rows: usize,
    /// What to think of where there are more.
    pub too_many: &'static str,
}
