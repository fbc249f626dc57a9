//! What goes out: to the terminal, and to files that are written whole or not at all.

use std::io::{self, ErrorKind, Write};
use std::path::Path;

use levamen_language::Problem;
use tempfile::NamedTempFile;

use crate::failure::Failure;

/// Prints a result.
pub fn result(bytes: &[u8]) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    match out.write_all(bytes).and_then(|()| out.flush()) {
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

/// Writes a file: to a temporary name beside it first, then in its place, so that a crash leaves the old file whole.
pub fn file(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    write_file(path, bytes).map_err(|error| {
        Failure::problem(
            Problem::error("not-written", format!("`{}` could not be written: {error}", path.display()))
                .help("nothing was changed"),
        )
    })
}

fn write_file(path: &Path, bytes: &[u8]) -> io::Result<()> {
    // A link stays a link: what it points at is replaced.
    let path = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    // A folder that is not there is told as such, and never the temporary name that nobody asked for.
    folder.metadata()?;
    let mut new = NamedTempFile::new_in(folder).map_err(|error| io::Error::from(error.kind()))?;
    new.write_all(bytes)?;
    new.as_file().sync_all()?;
    keep_permissions(&path, &new)?;
    new.persist(&path).map_err(|failed| failed.error)?;
    Ok(())
}

/// Gives a new file the permissions of the one whose place it takes. A folder or a device is not replaced.
fn keep_permissions(path: &Path, new: &NamedTempFile) -> io::Result<()> {
    match path.metadata() {
        Ok(known) if !known.is_file() => Err(io::Error::other("it is no ordinary file")),
        Ok(known) if known.permissions().readonly() => Err(io::Error::other("it is read-only")),
        Ok(known) => new.as_file().set_permissions(known.permissions()),
        Err(error) if error.kind() == ErrorKind::NotFound => open_to_all(new),
        Err(error) => Err(error),
    }
}

/// A temporary file is its owner's alone; a new file is to be read by everybody, as any that a program makes.
#[cfg(unix)]
fn open_to_all(new: &NamedTempFile) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    new.as_file().set_permissions(std::fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn open_to_all(_: &NamedTempFile) -> io::Result<()> {
    Ok(())
}
