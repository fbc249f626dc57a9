//! JSON as text.

use levamen_language::{Problem, first_invisible};
use serde::Serialize;

/// A value as JSON, with a line end. What could steer a terminal is escaped as JSON does, and is the same when it is read.
///
/// # Errors
/// It has no form in JSON.
pub fn written(value: &impl Serialize) -> Result<String, Problem> {
    let text = serde_json::to_string_pretty(value)
        .map_err(|error| Problem::error("not-written", format!("the result has no form in JSON: {error}")))?;
    // Outside of strings JSON has nothing but ASCII and line ends.
    let escaped = |character: char| match first_invisible(character.encode_utf8(&mut [0; 4])) {
        Some(_) if character != '\n' => format!("\\u{:04x}", u32::from(character)),
        _ => character.to_string(),
    };
    let is_plain = text.bytes().all(|byte| matches!(byte, b' '..=b'~' | b'\n'));
    Ok(if is_plain { text } else { text.chars().map(escaped).collect() } + "\n")
}
