//! A dough in the list of its book.

use levamen_balance::Balance;

/// One dough of a book and the file that it stands in.
#[derive(Debug, Clone, Copy)]
pub struct Entry<'b> {
    /// The dough's name.
    pub dough: &'b str,
    /// The file, as the reader knows it.
    pub file: &'b str,
    /// Its figures; `None` where the dough has problems.
    pub balance: Option<&'b Balance>,
}
