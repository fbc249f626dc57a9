//! The files of a book: the *.dough files of its folder, and of the folders below that its bakery names.
//!
//! A copy that somebody keeps in a folder below, such as `old` or `backup`, must not become a second dough of the same name. So
//! nothing below is read unless a `bakery` card says so, and what is passed over is said.

use std::fs::{DirEntry, ReadDir, read_dir};
use std::path::{Component, Path, PathBuf};

use levamen::{Folder, InputText, Problem, Progress, TextId, folders, visible};

use crate::error::FileError;
use crate::read;

/// So many files and folders below the book are looked at for what is passed over. Somebody may call a whole disk a book.
const MOST_ENTRIES: usize = 20_000;

/// A file of the book; its place in the list is the number of its text.
pub struct BookFile {
    /// Where it is.
    pub path: PathBuf,
    /// Its path below the book, by which it is known.
    pub shown: String,
    /// What it says, or why it could not be read.
    pub text: Result<String, Problem>,
}

/// The files of a book, read.
#[derive(Default)]
pub struct BookFiles {
    /// The files: those of the book's own folder by their names, then those of each folder that is named.
    pub files: Vec<BookFile>,
    /// Folders, or parts of them, that could not be read.
    pub problems: Vec<Problem>,
    named: Vec<PathBuf>,
}

impl BookFiles {
    /// Reads the files of a book.
    ///
    /// # Errors
    /// The folder itself cannot be read.
    pub fn read(book: &Path, progress: &dyn Progress) -> Result<Self, FileError> {
        let listed = read_dir(book).map_err(|error| no_book(book, &error))?;
        let mut found = Self::default();
        found.add(book, book, listed, progress);
        let texts = found.files.iter().zip(0..).map(|(file, id)| (file.text.as_deref(), TextId(id)));
        let texts: Vec<(TextId, &str)> = texts.filter_map(|(text, id)| Some((id, text.ok()?))).collect();
        for folder in folders(&texts) {
            found.add_folder(book, &folder, progress);
        }
        Ok(found)
    }

    /// Reads files that are named one by one.
    #[must_use]
    pub fn named(paths: &[PathBuf]) -> Self {
        let files = (0..).map(TextId).zip(paths).map(|(id, path)| {
            let shown = shown_by_path(path);
            BookFile { path: path.clone(), text: read::text_file(path, &shown, id), shown }
        });
        Self { files: files.collect(), ..Self::default() }
    }

    /// The files named as the caller finds them, without the `./` of a book that is the present folder.
    #[must_use]
    pub fn named_by_path(self) -> Self {
        let files = self.files.into_iter().map(|file| BookFile { shown: shown_by_path(&file.path), ..file });
        Self { files: files.collect(), ..self }
    }

    /// Adds a folder that the bakery names.
    fn add_folder(&mut self, book: &Path, folder: &Folder, progress: &dyn Progress) {
        let below = Path::new(&folder.path);
        if !below.components().all(|part| matches!(part, Component::Normal(_) | Component::CurDir)) {
            let message = format!("`{}` is not a folder below the book", folder.path);
            self.problems.push(
                Problem::error("folder-outside", message)
                    .at(folder.place, "leads out of the book")
                    .help("write its path from the book on, such as `folder breads/rye`"),
            );
            return;
        }
        // `./breads` is `breads`, and `.` is the book's own folder, which is read already.
        let below: PathBuf = below.components().filter(|part| *part != Component::CurDir).collect();
        let path = book.join(&below);
        if below.as_os_str().is_empty() || self.named.contains(&path) {
            return;
        }
        match read_dir(&path) {
            Ok(listed) => {
                self.add(book, &path, listed, progress);
                self.named.push(path);
            }
            Err(error) => self.problems.push(
                Problem::error(
                    "folder-unread",
                    format!("the folder `{}` could not be read: {}", folder.path, read::reason(&error)),
                )
                .at(folder.place, "doughs in it are missing")
                .help("look whether its name is right, or take the line out"),
            ),
        }
    }

    /// Adds the dough files of one folder, in the order of their names.
    fn add(&mut self, book: &Path, folder: &Path, listed: ReadDir, progress: &dyn Progress) {
        let mut paths = Vec::new();
        for entry in listed {
            match entry {
                Ok(entry) => {
                    paths.extend(Some(entry.path()).filter(|path| is_dough_file(path) && !is_folder(&entry)));
                }
                Err(error) => self.problems.push(unread(&shown_below(book, folder), &error)),
            }
        }
        paths.sort();
        progress.expect(paths.len() as u64);
        for path in paths {
            progress.advance(1);
            let id = TextId(u32::try_from(self.files.len()).unwrap_or(u32::MAX));
            let shown = shown_below(book, &path);
            let text = read::text_file(&path, &shown, id);
            self.files.push(BookFile { path, shown, text });
        }
    }

    /// The texts of the files, in their order; what could not be read of the folders comes with them.
    pub fn take_texts(&mut self) -> (Vec<InputText>, Vec<Problem>) {
        let texts = self.files.iter_mut().map(|file| InputText {
            name: file.shown.clone(),
            text: std::mem::replace(&mut file.text, Ok(String::new())),
        });
        (texts.collect(), std::mem::take(&mut self.problems))
    }

    /// The paths of the files.
    pub fn paths(&self) -> impl Iterator<Item = &Path> {
        self.files.iter().map(|file| file.path.as_path())
    }

    /// The path of a text.
    #[must_use]
    pub fn path_of(&self, text: TextId) -> Option<&Path> {
        self.files.get(text.0 as usize).map(|file| file.path.as_path())
    }

    /// What lies below the book and is not read: a warning, or several.
    #[must_use]
    pub fn passed_over(&self, book: &Path) -> Vec<Problem> {
        let mut passed = PassedOver::default();
        passed.look(book, &self.named);
        passed.problems(book)
    }
}

/// The dough files below a book that are not part of it.
#[derive(Default)]
struct PassedOver {
    /// Each folder with how many it has, in the order of their paths.
    folders: Vec<(PathBuf, usize)>,
    unread: Vec<(PathBuf, std::io::Error)>,
    is_cut: bool,
}

impl PassedOver {
    fn look(&mut self, book: &Path, named: &[PathBuf]) {
        let mut open = vec![book.to_owned()];
        let mut looked_at = 0;
        while let Some(folder) = open.pop() {
            let entries = match read_dir(&folder) {
                Ok(entries) => entries,
                Err(error) => {
                    self.unread.push((folder, error));
                    continue;
                }
            };
            let mut count = 0;
            for entry in entries.filter_map(Result::ok) {
                looked_at += 1;
                if looked_at > MOST_ENTRIES {
                    self.is_cut = true;
                    return;
                }
                let path = entry.path();
                // A link to a folder is not followed: it could lead back here.
                if entry.file_type().is_ok_and(|kind| kind.is_dir()) {
                    if !is_hidden(&path) {
                        open.push(path);
                    }
                } else if is_dough_file(&path) {
                    count += 1;
                }
            }
            if count > 0 && folder != book && !named.contains(&folder) {
                self.folders.push((folder, count));
            }
        }
    }

    fn problems(mut self, book: &Path) -> Vec<Problem> {
        const MOST_NAMED: usize = 5;
        self.folders.sort();
        let mut problems: Vec<Problem> =
            self.unread.iter().map(|(folder, error)| unread(&shown_below(book, folder), error)).collect();
        let some = self.folders.iter().take(MOST_NAMED).map(|(folder, count)| {
            let files = if *count == 1 { "1 dough file".to_owned() } else { format!("{count} dough files") };
            format!("{files} in `{}`", shown_below(book, folder))
        });
        let mut listed: Vec<String> = some.collect();
        if let Some(more) = self.folders.len().checked_sub(MOST_NAMED).filter(|more| *more > 0) {
            listed.push(format!("those of {more} more folders"));
        }
        if let Some((first, _)) = self.folders.first() {
            let message = format!("not part of the book: {}", listed.join(", "));
            let problem = Problem::warning("folder-not-named", message)
                .note("of folders below the book only those are read that its bakery names")
                .help(format!(
                    "to read it, write `folder {}` under the `bakery` card",
                    shown_below(book, first)
                ));
            problems.push(problem);
        }
        if self.is_cut {
            let message = format!("the book has more than {MOST_ENTRIES} files and folders below it");
            problems.push(
                Problem::warning("folder-too-large", message)
                    .note("dough files further down were not looked for")
                    .help("keep the book in a folder of its own"),
            );
        }
        problems
    }
}

/// Whether an entry of a folder is a folder itself. The entry says so, and the file system is asked of links alone.
fn is_folder(entry: &DirEntry) -> bool {
    entry.file_type().is_ok_and(|kind| kind.is_dir() || kind.is_symlink() && entry.path().is_dir())
}

fn is_hidden(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name.as_encoded_bytes().starts_with(b"."))
}

/// Whether a path has the name of a dough file. Hidden ones are somebody else's: an editor's or a version control's.
#[must_use]
pub fn is_dough_file(path: &Path) -> bool {
    !is_hidden(path) && path.extension().is_some_and(|extension| extension == "dough")
}

fn shown_by_path(path: &Path) -> String {
    visible(&path.strip_prefix(".").unwrap_or(path).display().to_string()).into_owned()
}

fn shown_below(book: &Path, path: &Path) -> String {
    let below = path.strip_prefix(book).unwrap_or(path);
    visible(&below.display().to_string()).into_owned()
}

fn unread(folder: &str, error: &std::io::Error) -> Problem {
    let folder = if folder.is_empty() { "." } else { folder };
    let message = format!("the folder `{folder}` could not be read to its end: {}", read::reason(error));
    Problem::error("folder-unread", message).help("doughs in it may be missing: look at its permissions")
}

/// Why a book cannot be read at all.
fn no_book(book: &Path, error: &std::io::Error) -> FileError {
    let shown = book.display().to_string();
    if book.is_file() {
        let folder = book.parent().filter(|place| !place.as_os_str().is_empty()).unwrap_or(Path::new("."));
        return FileError::BookIsFile { book: shown, folder: folder.display().to_string() };
    }
    FileError::NoBook { book: shown, reason: read::reason(error) }
}
