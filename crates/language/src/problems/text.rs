//! Problems of the text itself.

use crate::syntax_error::SyntaxError;
use crate::{MAX_BYTES, MAX_LINES, Problem};

/// A character that looks like another, is invisible, or steers a screen.
pub(crate) fn odd_character<'t>(at: &'t str, name: &str, help: &str) -> SyntaxError<'t> {
    let code = at.chars().next().map_or(0, u32::from);
    SyntaxError::new("odd-character", at, format!("{name} (U+{code:04X}) cannot be meant here"))
        .label("this character")
        .help(help)
}

/// A text that is too long to be a formula.
pub(crate) fn too_long(bytes: usize) -> Problem {
    let (size, most) = (bytes.div_ceil(1 << 20), MAX_BYTES >> 20);
    Problem::error("too-long", format!("the text has {size} MB; at most {most} MB are read"))
        .help("a dough is a page long: this is hardly a dough file")
}

/// A text of too many lines.
pub(crate) fn too_many_lines(lines: usize) -> Problem {
    let most = MAX_LINES;
    Problem::error("too-many-lines", format!("the text has {lines} lines; at most {most} are read"))
        .help("share the doughs out over several files")
}

/// Bytes that are no text.
pub(crate) fn not_utf8(line: usize, byte: usize) -> Problem {
    Problem::error("not-utf-8", format!("line {line}, byte {byte}: the file is not UTF-8 text"))
        .note("an accented letter or a degree sign was saved in another encoding")
        .help("open it in an editor and save it as UTF-8")
}

/// What is said after the last problem that is kept.
pub(crate) fn more_problems(left_out: usize) -> Problem {
    let (problems, are) = if left_out == 1 { ("problem", "is") } else { ("problems", "are") };
    Problem::error("more-problems", format!("{left_out} more {problems} {are} not shown"))
        .help("mend the first ones and check again")
}
