//! What goes out to the terminal.

use std::io::{self, ErrorKind, Write};

use levamen::{Problem, visible_lines};

use crate::failure::Failure;

/// Prints a result. What could steer a terminal is written out: here all results meet one.
pub fn result(bytes: &[u8]) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    let shown = std::str::from_utf8(bytes).map(visible_lines);
    let shown = shown.as_ref().map_or(bytes, |text| text.as_bytes());
    match out.write_all(shown).and_then(|()| out.flush()) {
        Ok(()) => Ok(()),
        // The reader of a pipe has seen enough: `levamen list | head`.
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Err(Failure::Gone),
        Err(error) => Err(Failure::problem(Problem::error(
            "not-written",
            format!("the result could not be written: {error}"),
        ))),
    }
}

/// Prints to standard error, without colour where none is wanted. Where even that fails there is nobody to tell.
pub fn error(text: &str) {
    let mut out = anstream::stderr().lock();
    let _ = out.write_all(text.as_bytes());
}

/// Prints notes to standard error: what was done and should be known.
pub fn notes(notes: &[String]) {
    for note in notes {
        error(&format!("note: {note}\n"));
    }
}
