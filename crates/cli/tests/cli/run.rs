//! Running the command and writing down what it does.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

/// The small book of the tests; those of the library ask it too.
pub fn book() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../levamen/tests/book")
}

/// A folder of its own with some files.
pub fn folder(files: &[(&str, &[u8])]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes) in files {
        std::fs::write(folder.path().join(name), bytes).unwrap();
    }
    folder
}

/// Runs `levamen` in a folder with arguments and standard input.
pub fn levamen(folder: &Path, arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_levamen"))
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A command that does not read its input may be gone already.
    let _ = child.stdin.take().unwrap().write_all(input);
    child.wait_with_output().unwrap()
}

/// What a run came to, as text for a snapshot.
pub fn record(folder: &Path, arguments: &[&str], input: &str) -> String {
    let output = levamen(folder, arguments, input.as_bytes());
    let mut text = format!("$ levamen {}\n", arguments.join(" "));
    let code = output.status.code().map_or("killed".to_owned(), |code| code.to_string());
    for (name, bytes) in [("", &output.stdout), ("--- standard error\n", &output.stderr)] {
        if !bytes.is_empty() {
            text += name;
            text += &String::from_utf8_lossy(bytes);
        }
    }
    text + "--- exit " + &code + "\n"
}
