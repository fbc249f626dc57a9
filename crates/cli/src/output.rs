//! What goes out: to the terminal, and to files that are written whole or not at all.

use std::fs::Permissions;
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
    let mut new = NamedTempFile::new_in(folder)?;
    new.write_all(bytes)?;
    new.as_file().sync_all()?;
    if let Some(permissions) = permissions(&path)? {
        new.as_file().set_permissions(permissions)?;
    }
    new.persist(&path).map_err(|failed| failed.error)?;
    Ok(())
}

/// The permissions that the file has, or that a new one gets. A folder or a device is not replaced.
fn permissions(path: &Path) -> io::Result<Option<Permissions>> {
    match path.metadata() {
        Ok(known) if !known.is_file() => Err(io::Error::other("it is no ordinary file")),
        Ok(known) if known.permissions().readonly() => Err(io::Error::other("it is read-only")),
        Ok(known) => Ok(Some(known.permissions())),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(new_permissions()),
        Err(error) => Err(error),
    }
}

/// What a new file may be read by: everybody, as any other file that a program makes; a temporary file is its
/// owner's alone.
#[cfg(unix)]
fn new_permissions() -> Option<Permissions> {
    use std::os::unix::fs::PermissionsExt;
    Some(Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn new_permissions() -> Option<Permissions> {
    None
}
