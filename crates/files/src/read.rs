//! What comes in: files and standard input, within limits.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use levamen::{InputText, MAX_BYTES, Problem, TextId, decode};

/// Reads a text file; `shown` is its name in messages.
///
/// # Errors
/// The problem, with the file's name: it cannot be read, is too long, or is not UTF-8.
pub fn text_file(path: &Path, shown: &str, id: TextId) -> Result<String, Problem> {
    // A pipe that nobody writes into would keep the whole book waiting.
    if path.metadata().is_ok_and(|known| !known.is_file() && !known.is_dir()) {
        let message = format!("`{shown}` is a pipe or a device, not a file");
        return Err(
            Problem::error("not-read", message).help("keep only files under names that end in .dough")
        );
    }
    text(&bytes_of_file(path, shown)?, id).map_err(|problem| named(shown, problem))
}

/// Reads a text from standard input.
///
/// # Errors
/// The problem: it cannot be read, is too long, or is not UTF-8.
pub fn text_from_standard_input(id: TextId) -> Result<String, Problem> {
    text(&standard_input()?, id).map_err(|problem| named("standard input", problem))
}

/// Reads a text that stands beside the book, or on standard input where its name is `-`.
#[must_use]
pub fn text_beside(path: &Path) -> InputText {
    let name = if path == Path::new("-") { "standard input".to_owned() } else { path.display().to_string() };
    let read = bytes(path).and_then(|bytes| text(&bytes, TextId(0)).map_err(|problem| named(&name, problem)));
    InputText { name, text: read }
}

/// Reads a file, or standard input where its name is `-`.
///
/// # Errors
/// The problem, with the file's name.
pub fn bytes(path: &Path) -> Result<Vec<u8>, Problem> {
    if path == Path::new("-") { standard_input() } else { bytes_of_file(path, &path.display().to_string()) }
}

/// Why something could not be read, without the system's number for it.
#[must_use]
pub fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "it is not there".to_owned(),
        io::ErrorKind::PermissionDenied => "it is not yours to read".to_owned(),
        io::ErrorKind::NotADirectory => "it is a file, not a folder".to_owned(),
        _ => {
            let text = error.to_string();
            text.split_once(" (os error").map_or_else(|| text.clone(), |(reason, _)| reason.to_owned())
        }
    }
}

fn bytes_of_file(path: &Path, shown: &str) -> Result<Vec<u8>, Problem> {
    let failed = |error: io::Error| {
        let problem = Problem::error("not-read", format!("`{shown}` could not be read: {}", reason(&error)));
        match error.kind() {
            io::ErrorKind::NotFound => problem.help("look whether its name is right, and that of its folder"),
            _ => problem,
        }
    };
    let file = File::open(path).map_err(failed)?;
    let known = file.metadata().map_err(failed)?;
    if known.is_dir() {
        return Err(Problem::error("not-read", format!("`{shown}` is a folder, not a file")));
    }
    // A file that is far too long is not read at all.
    if known.len() > MAX_BYTES as u64 {
        return Err(too_long(shown, Some(known.len())));
    }
    limited(file, shown, usize::try_from(known.len()).unwrap_or(0)).map_err(failed)?
}

fn standard_input() -> Result<Vec<u8>, Problem> {
    let failed = |error| Problem::error("not-read", format!("standard input could not be read: {error}"));
    limited(io::stdin().lock(), "standard input", 0).map_err(failed)?
}

/// Reads to the end, or to where it is too long. It is expected to have about so many bytes: a file that is read in one go
/// is at hand sooner.
fn limited(source: impl Read, shown: &str, expected: usize) -> io::Result<Result<Vec<u8>, Problem>> {
    let mut bytes = Vec::with_capacity(expected.min(MAX_BYTES) + 1);
    source.take(MAX_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    Ok(if bytes.len() > MAX_BYTES { Err(too_long(shown, None)) } else { Ok(bytes) })
}

fn too_long(shown: &str, bytes: Option<u64>) -> Problem {
    let most = MAX_BYTES >> 20;
    let long = bytes.map_or("too long".to_owned(), |bytes| format!("{} MB long", bytes.div_ceil(1 << 20)));
    Problem::error("too-long", format!("`{shown}` is {long}; at most {most} MB are read"))
        .help("is this the file that was meant? a dough takes about one kilobyte")
}

/// A text without the byte order mark that some editors put before it.
fn text(bytes: &[u8], id: TextId) -> Result<String, Problem> {
    let text = decode(id, bytes)?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text).to_owned())
}

/// Names the file in a problem that has no place to name it.
pub fn named(shown: &str, problem: Problem) -> Problem {
    Problem { message: format!("`{shown}`: {}", problem.message), ..problem }
}
