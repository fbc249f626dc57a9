//! Files that are written: whole or not at all, and never one that is read.

use std::fs::{self, Metadata};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use levamen::Problem;
use tempfile::NamedTempFile;

use crate::book::is_dough_file;
use crate::error::FileError;

/// A temporary file is called so while it is written.
const PREFIX: &str = ".levamen-";
const SUFFIX: &str = ".tmp";

/// A temporary file that is older was left by a run that was killed: writing takes far less.
const LEFT_BEHIND: Duration = Duration::from_secs(600);

/// A file that a result is to be written to.
#[derive(Debug, Clone, Copy)]
pub struct Target<'p> {
    path: &'p Path,
    replace: bool,
}

impl<'p> Target<'p> {
    /// The file of a path; whether it may take the place of one that is there.
    #[must_use]
    pub const fn new(path: &'p Path, replace: bool) -> Self {
        Self { path, replace }
    }

    /// Where it is.
    #[must_use]
    pub const fn path(&self) -> &'p Path {
        self.path
    }

    /// Looks whether the file may be written, before anything is worked out for it.
    ///
    /// # Errors
    /// It is there and is not to be replaced; it is a link to nothing, one of the files that are read, or a dough file of
    /// the book.
    pub fn check<'i>(
        &self,
        book: &Path,
        inputs: impl IntoIterator<Item = &'i Path>,
    ) -> Result<(), FileError> {
        self.check_free()?;
        self.check_not_read(inputs)?;
        if is_dough_file(self.path) && is_below(self.path, book) {
            return Err(FileError::WouldBeDough { file: shown(self.path) });
        }
        Ok(())
    }

    /// Looks whether the place is free, or may be taken.
    ///
    /// # Errors
    /// As [`Self::check`], for what is there already.
    pub fn check_free(&self) -> Result<(), FileError> {
        let file = shown(self.path);
        let Ok(known) = self.path.symlink_metadata() else { return Ok(()) };
        if known.is_symlink() && self.path.metadata().is_err() {
            return Err(FileError::LinkToNothing { file });
        }
        if self.replace {
            return Ok(());
        }
        Err(FileError::Taken { file })
    }

    /// Looks whether the file is none of those that are read, also under another name.
    ///
    /// # Errors
    /// It is one of them.
    pub fn check_not_read<'i>(&self, inputs: impl IntoIterator<Item = &'i Path>) -> Result<(), FileError> {
        match inputs.into_iter().find(|input| is_same_file(self.path, input)) {
            Some(input) => Err(FileError::IsRead { file: shown(input) }),
            None => Ok(()),
        }
    }

    /// Writes the file: to a temporary name beside it first, then in its place, so that a crash leaves the old file whole.
    /// Returns what of a replaced file could not be kept, in words.
    ///
    /// # Errors
    /// It cannot be written, or another run made it meanwhile.
    pub fn write(&self, bytes: &[u8]) -> Result<Vec<String>, FileError> {
        write(self.path, bytes, self.replace)
    }
}

/// Writes a file of the book again, in its place. Returns what of the old one could not be kept, in words.
///
/// # Errors
/// It cannot be written.
pub fn rewrite(path: &Path, bytes: &[u8]) -> Result<Vec<String>, FileError> {
    write(path, bytes, true)
}

/// Whether two paths lead to one file, be it by links or by several names of its own.
#[must_use]
pub fn is_same_file(one: &Path, other: &Path) -> bool {
    let (Ok(of_one), Ok(of_other)) = (one.metadata(), other.metadata()) else { return false };
    is_same(&of_one, &of_other)
        || matches!((one.canonicalize(), other.canonicalize()), (Ok(one), Ok(other)) if one == other)
}

#[cfg(unix)]
fn is_same(one: &Metadata, other: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    (one.dev(), one.ino()) == (other.dev(), other.ino())
}

#[cfg(not(unix))]
fn is_same(_: &Metadata, _: &Metadata) -> bool {
    false
}

fn is_below(path: &Path, folder: &Path) -> bool {
    matches!((folder_of(path).canonicalize(), folder.canonicalize()), (Ok(own), Ok(folder)) if own.starts_with(&folder))
}

fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}

fn write(path: &Path, bytes: &[u8], replace: bool) -> Result<Vec<String>, FileError> {
    write_file(path, bytes, replace).map_err(|error| {
        FileError::NotWritten(Box::new(
            Problem::error("not-written", format!("`{}` could not be written: {error}", path.display()))
                .help("nothing was changed"),
        ))
    })
}

fn write_file(path: &Path, bytes: &[u8], replace: bool) -> io::Result<Vec<String>> {
    // A link stays a link: what it points at is replaced.
    let path = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let folder = folder_of(&path);
    // A folder that is not there is named as such, and never the temporary name that nobody asked for.
    folder.metadata()?;
    sweep(folder);
    // The system names the temporary file, and only what is wrong matters.
    let plain = |error: io::Error| io::Error::from(error.kind());
    let mut new = temporary(folder).map_err(plain)?;
    new.write_all(bytes).map_err(plain)?;
    new.as_file().sync_all().map_err(plain)?;
    let losses = keep_what_it_had(&path, &new)?;
    if replace {
        new.persist(&path).map_err(|failed| failed.error)?;
    } else {
        new.persist_noclobber(&path).map_err(|failed| failed.error)?;
    }
    Ok(losses)
}

/// A new file, which those may read and write whom the system's mask for new files allows it.
fn temporary(folder: &Path) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(PREFIX).suffix(SUFFIX);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        builder.permissions(fs::Permissions::from_mode(0o666)).tempfile_in(folder)
    }
    #[cfg(not(unix))]
    builder.tempfile_in(folder)
}

/// Takes away what a killed run left. What cannot be taken away does no harm.
fn sweep(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.filter_map(Result::ok) {
        let name = entry.file_name();
        let bytes = name.as_encoded_bytes();
        if bytes.starts_with(PREFIX.as_bytes())
            && bytes.ends_with(SUFFIX.as_bytes())
            && is_left(&entry.path())
        {
            let _ = fs::remove_file(entry.path());
        }
    }
}

fn is_left(path: &PathBuf) -> bool {
    let changed = fs::symlink_metadata(path).and_then(|known| known.modified());
    let age = changed.ok().and_then(|changed| SystemTime::now().duration_since(changed).ok());
    age.is_some_and(|age| age > LEFT_BEHIND)
}

/// Gives a new file the permissions and the owner of the one whose place it takes, and says what cannot be kept. A folder
/// or a device is not replaced.
fn keep_what_it_had(path: &Path, new: &NamedTempFile) -> io::Result<Vec<String>> {
    match path.metadata() {
        Ok(known) if !known.is_file() => Err(io::Error::other("it is no ordinary file")),
        Ok(known) if known.permissions().readonly() => Err(io::Error::other("it is read-only")),
        Ok(known) => {
            new.as_file().set_permissions(known.permissions())?;
            Ok(lost(path, &known, new))
        }
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(Vec::new()),
        Err(error) => Err(error),
    }
}

#[cfg(unix)]
fn lost(path: &Path, known: &Metadata, new: &NamedTempFile) -> Vec<String> {
    use std::os::unix::fs::{MetadataExt as _, chown};
    let mut losses = Vec::new();
    if known.nlink() > 1 {
        let shown = path.display();
        losses.push(format!("`{shown}` has other names (hard links): those still hold what it held before"));
    }
    let owner = |of: &Metadata| (of.uid(), of.gid());
    let is_owned = new.as_file().metadata().is_ok_and(|own| owner(&own) == owner(known));
    if !is_owned && chown(new.path(), Some(known.uid()), Some(known.gid())).is_err() {
        losses.push(format!("`{}` was somebody else's, and is yours now", path.display()));
    }
    losses
}

#[cfg(not(unix))]
fn lost(_: &Path, _: &Metadata, _: &NamedTempFile) -> Vec<String> {
    Vec::new()
}
