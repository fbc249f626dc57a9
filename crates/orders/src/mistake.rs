//! Lines that are wrong, and where they stand.

use std::sync::Arc;

use levamen_language::Problem;

use crate::wrong::Wrong;

/// The most mistakes that are told of one reading. All are counted; more are no help to anybody.
pub const MAX_TOLD: usize = 200;

/// One line that is wrong and therefore not in the totals.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mistake {
    /// The name of its file.
    pub file: Arc<str>,
    /// Its number in the file; the first is 1.
    pub line: u64,
    /// Where the file stands among those that were read.
    pub(crate) order: u32,
    /// The line as it is written, or its beginning; empty where the trouble is with the file.
    pub(crate) row: String,
    /// What is wrong with it.
    pub(crate) wrong: Wrong,
}

impl Mistake {
    /// The mistake in the form in which all are told: message, reason, how to mend it. The message names file and
    /// line; there is no place, since the text of an order file is not kept.
    #[must_use]
    pub fn problem(&self) -> Problem {
        self.wrong.told(&self.file, self.line, &self.row)
    }
}

/// The first mistakes, and how many there are.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Mistakes {
    pub(crate) told: Vec<Mistake>,
    pub(crate) count: u64,
}

impl Mistakes {
    /// The first of them in the order of files and lines, at most [`MAX_TOLD`].
    #[must_use]
    pub fn told(&self) -> &[Mistake] {
        &self.told
    }

    /// How many there are in all.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.count
    }

    /// Counts one, and keeps it while there are few.
    pub(crate) fn add(&mut self, mistake: Mistake) {
        self.count += 1;
        if self.told.len() < MAX_TOLD {
            self.told.push(mistake);
        }
    }

    /// In the order of files and lines, and no more than are told.
    pub(crate) fn sort(&mut self) {
        self.told.sort_by_key(|mistake| (mistake.order, mistake.line));
        self.told.truncate(MAX_TOLD);
    }
}

/// Words as a message quotes them: on one line, without characters that a terminal would obey, and not too long.
pub(crate) fn excerpt(bytes: &[u8]) -> String {
    const MOST: usize = 100;
    // No character has more than four bytes.
    let bytes = bytes.get(..MOST * 4 + 4).unwrap_or(bytes);
    let text = String::from_utf8_lossy(bytes);
    let mut shown: String = text.chars().take(MOST).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if text.chars().nth(MOST).is_some() {
        shown.push('…');
    }
    shown.trim().to_owned()
}
