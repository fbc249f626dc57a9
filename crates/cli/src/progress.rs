//! How far a long run has come: one line on the terminal, which is gone when the run is over.
//!
//! It goes to standard error, and only where that is a terminal: a pipe, a file or a test never sees it. What is over in
//! less than half a second shows nothing.

use std::io::{self, IsTerminal, Write};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Runs that are shorter show nothing.
const PATIENCE: Duration = Duration::from_millis(500);
/// The line is drawn no more often.
const PACE: Duration = Duration::from_millis(100);
/// Starts the line again, and takes away what stood in it (ECMA-48: carriage return, erase in line).
const CLEAR: &str = "\r\x1b[2K";

/// What is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CountUnit {
    /// Things, such as files or days.
    Of(&'static str),
    /// Bytes, shown as megabytes.
    Bytes,
}

/// A run and how far it has come; the line is cleared when this is dropped. Several threads may count.
pub struct ProgressLine {
    /// `None` where there is no terminal to show it.
    line: Option<Mutex<TerminalLine<io::Stderr>>>,
}

impl ProgressLine {
    /// A run that does `what`; how much in all is not known yet.
    pub fn new(what: &'static str, unit: CountUnit) -> Self {
        let line = || Mutex::new(TerminalLine::new(io::stderr(), what, 0, unit, Instant::now()));
        Self { line: can_be_seen().then(line) }
    }

    fn with_line(&self, change: impl FnOnce(&mut TerminalLine<io::Stderr>)) {
        if let Some(line) = &self.line {
            change(&mut line.lock().unwrap_or_else(PoisonError::into_inner));
        }
    }
}

impl levamen::Progress for ProgressLine {
    fn expect(&self, more: u64) {
        self.with_line(|line| line.all = line.all.saturating_add(more));
    }

    fn advance(&self, more: u64) {
        self.with_line(|line| line.add(more, Instant::now()));
    }
}

/// Whether standard error is a terminal that understands how a line is taken back.
fn can_be_seen() -> bool {
    io::stderr().is_terminal() && std::env::var_os("TERM").is_none_or(|kind| kind != "dumb")
}

/// The line itself.
struct TerminalLine<W: Write> {
    to: W,
    what: &'static str,
    done: u64,
    all: u64,
    unit: CountUnit,
    /// When it may be drawn next.
    next: Instant,
    is_drawn: bool,
}

impl<W: Write> TerminalLine<W> {
    fn new(to: W, what: &'static str, all: u64, unit: CountUnit, now: Instant) -> Self {
        Self { to, what, done: 0, all, unit, next: now + PATIENCE, is_drawn: false }
    }

    fn add(&mut self, more: u64, now: Instant) {
        self.done = self.done.saturating_add(more);
        if now >= self.next {
            self.next = now + PACE;
            self.is_drawn = true;
            let words = self.words();
            // A terminal that takes nothing more is no reason to stop working.
            let _ = write!(self.to, "{CLEAR}{words}").and_then(|()| self.to.flush());
        }
    }

    /// What the line says, such as `planning: 118 of 370 days`.
    fn words(&self) -> String {
        let Self { what, done, all, .. } = *self;
        match self.unit {
            CountUnit::Of(things) if all == 0 => format!("{what}: {done} {things}"),
            CountUnit::Of(things) => format!("{what}: {done} of {all} {things}"),
            CountUnit::Bytes if all == 0 => format!("{what}: {} MB", megabytes(done)),
            // Files that are read again, as for an order that stands twice, start again.
            CountUnit::Bytes => {
                let done = done.saturating_sub(1) % all + 1;
                format!("{what}: {} of {} MB", megabytes(done), megabytes(all))
            }
        }
    }
}

impl<W: Write> Drop for TerminalLine<W> {
    fn drop(&mut self) {
        if self.is_drawn {
            let _ = self.to.write_all(CLEAR.as_bytes()).and_then(|()| self.to.flush());
        }
    }
}

/// Whole megabytes, rounded up.
fn megabytes(bytes: u64) -> u64 {
    bytes.div_ceil(1_000_000)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a terminal gets of a run of so many steps, one every so many milliseconds.
    fn shown(steps: u64, every: u64, unit: CountUnit) -> String {
        let mut bytes = Vec::new();
        let begin = Instant::now();
        let mut line = TerminalLine::new(&mut bytes, "planning", 12, unit, begin);
        for step in 1..=steps {
            line.add(1, begin + Duration::from_millis(step * every));
        }
        drop(line);
        String::from_utf8(bytes).unwrap_or_default().replace(CLEAR, "|")
    }

    #[test]
    fn a_short_run_shows_nothing() {
        assert_eq!(shown(12, 40, CountUnit::Of("days")), "");
    }

    #[test]
    fn a_long_run_shows_how_far_it_is_and_leaves_nothing() {
        let drawn = "|planning: 3 of 12 days|planning: 4 of 12 days|planning: 5 of 12 days|";
        assert_eq!(shown(5, 200, CountUnit::Of("days")), drawn);
    }

    #[test]
    fn the_line_is_not_drawn_at_every_step() {
        assert_eq!(shown(700, 1, CountUnit::Bytes).matches('|').count(), 4);
    }

    #[test]
    fn where_nobody_knows_how_much_there_is_it_says_what_is_done() {
        let words = |unit, all, done| {
            let mut line = TerminalLine::new(io::sink(), "reading", all, unit, Instant::now());
            line.done = done;
            line.words()
        };
        assert_eq!(words(CountUnit::Bytes, 0, 12_400_000), "reading: 13 MB");
        assert_eq!(words(CountUnit::Bytes, 9_000_000, 9_000_000), "reading: 9 of 9 MB");
        assert_eq!(words(CountUnit::Bytes, 9_000_000, 12_400_000), "reading: 4 of 9 MB");
        assert_eq!(words(CountUnit::Of("files"), 0, 7), "reading: 7 files");
    }
}
