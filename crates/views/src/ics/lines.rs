//! Content lines of RFC 5545: escaped (3.3.11), folded (3.1) and ended with CR and LF.

/// The most octets of a line without its end.
const LONGEST: usize = 75;

/// Lines that are written.
#[derive(Debug, Default)]
pub struct Lines(String);

impl Lines {
    /// A property whose value is not free text.
    pub fn plain(&mut self, name: &str, value: &str) {
        self.fold(&format!("{name}:{value}"));
    }

    /// A property of free text. Other control characters than a line's end, which no calendar may hold, become spaces.
    pub fn text(&mut self, name: &str, value: &str) {
        let mut escaped = String::with_capacity(value.len());
        for character in value.chars() {
            match character {
                '\\' | ';' | ',' => escaped.extend(['\\', character]),
                '\n' => escaped.push_str("\\n"),
                other => escaped.push(if other.is_control() { ' ' } else { other }),
            }
        }
        self.plain(name, &escaped);
    }

    /// Everything that was written.
    pub fn finish(self) -> String {
        self.0
    }

    /// A line in pieces of at most 75 octets, no character torn apart; each piece but the first begins with a space.
    fn fold(&mut self, line: &str) {
        let mut octets = 0;
        for character in line.chars() {
            if octets + character.len_utf8() > LONGEST {
                self.0.push_str("\r\n ");
                octets = 1;
            }
            self.0.push(character);
            octets += character.len_utf8();
        }
        self.0.push_str("\r\n");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_are_folded_between_characters() {
        let mut lines = Lines::default();
        lines.text("SUMMARY", &"ü".repeat(100));
        let written = lines.finish();
        assert!(written.split("\r\n").all(|line| line.len() <= LONGEST));
        assert_eq!(written.replace("\r\n ", ""), format!("SUMMARY:{}\r\n", "ü".repeat(100)));
        assert!(written.matches("\r\n ").count() == 2);
    }

    #[test]
    fn what_would_end_a_value_is_escaped() {
        let mut lines = Lines::default();
        lines.text("SUMMARY", "rye; 2 decks, \\ and\nmore\r\tEND:VEVENT");
        assert_eq!(lines.finish(), "SUMMARY:rye\\; 2 decks\\, \\\\ and\\nmore  END:VEVENT\r\n");
    }
}
