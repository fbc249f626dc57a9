//! What goes out to the terminal.

use std::io::{self, ErrorKind, Write};

use levamen::{Problem, first_invisible, visible_lines};

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

/// A value as JSON, with a line end. What could steer a terminal is escaped as JSON does, and is the same when it is read.
///
/// # Errors
/// It has no form in JSON.
pub fn json(value: &impl serde::Serialize) -> Result<String, Failure> {
    let text = serde_json::to_string_pretty(value).map_err(|error| {
        Failure::problem(Problem::error("not-written", format!("the result has no form in JSON: {error}")))
    })?;
    // Outside of strings JSON has nothing but ASCII and line ends.
    let escaped = |character: char| match first_invisible(character.encode_utf8(&mut [0; 4])) {
        Some(_) if character != '\n' => format!("\\u{:04x}", u32::from(character)),
        _ => character.to_string(),
    };
    let is_plain = text.bytes().all(|byte| matches!(byte, b' '..=b'~' | b'\n'));
    Ok(if is_plain { text } else { text.chars().map(escaped).collect() } + "\n")
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
