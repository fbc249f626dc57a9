//! Where orders come from.

use std::io::{Cursor, Read, Result};
use std::sync::Arc;

/// A CSV file of orders, whatever holds it.
///
/// It may be read more than once: the line that a duplicate repeats is looked for in a second reading, so that the
/// first need not remember every line.
pub trait Source: Sync {
    /// The name that a reader knows the file by; problems use it.
    fn name(&self) -> &str;

    /// The bytes of the file from its beginning.
    ///
    /// # Errors
    /// Whatever keeps it from being read.
    fn open(&self) -> Result<Box<dyn Read + Send + '_>>;
}

/// Orders that stand in memory.
#[derive(Debug, Clone)]
pub struct Text {
    name: String,
    bytes: Arc<[u8]>,
}

impl Text {
    /// Bytes of CSV under a name.
    pub fn new(name: impl Into<String>, bytes: impl Into<Arc<[u8]>>) -> Self {
        Self { name: name.into(), bytes: bytes.into() }
    }
}

impl Source for Text {
    fn name(&self) -> &str {
        &self.name
    }

    fn open(&self) -> Result<Box<dyn Read + Send + '_>> {
        Ok(Box::new(Cursor::new(&self.bytes)))
    }
}
