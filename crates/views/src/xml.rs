//! Names that people chose, as text of XML.

use std::fmt::Write;

/// Text that no name can break out of. Control characters, which XML 1.0 has no place for, become spaces.
pub struct Escaped<'a>(pub &'a str);

impl std::fmt::Display for Escaped<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.chars().try_for_each(|character| match character {
            '&' => f.write_str("&amp;"),
            '<' => f.write_str("&lt;"),
            '>' => f.write_str("&gt;"),
            '"' => f.write_str("&quot;"),
            control if control.is_control() || matches!(control, '\u{fffe}' | '\u{ffff}') => {
                f.write_char(' ')
            }
            other => f.write_char(other),
        })
    }
}
