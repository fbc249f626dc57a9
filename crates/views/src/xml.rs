//! SVG as text, element by element (W3C, Scalable Vector Graphics 1.1), and names that people chose as text of XML.

use std::fmt::{Arguments, Write};

/// An SVG picture that is written.
#[derive(Debug)]
pub struct Svg(String);

impl Svg {
    /// A picture that begins so: its first tag and what stands at its head.
    pub fn new(head: Arguments) -> Self {
        let mut svg = Self(String::new());
        svg.add(head);
        svg
    }

    /// An element on a line of its own.
    pub fn add(&mut self, element: Arguments) {
        // Writing to a string does not fail.
        let _ = self.0.write_fmt(element);
        self.0.push('\n');
    }

    /// Text that is escaped.
    pub fn text(&mut self, attributes: Arguments, text: &str) {
        self.add(format_args!("<text {attributes}>{}</text>", Escaped(text)));
    }

    /// The whole picture.
    pub fn finish(mut self) -> String {
        self.0.push_str("</svg>\n");
        self.0
    }
}

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
