//! Orders as they lie in files: those that somebody names, or the usual ones beside the book.

use std::fs::{File, Metadata};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use levamen::{OrderSource, OrderSources, Progress};

use crate::error::FileError;

/// What a file of orders holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderFileKind {
    /// Orders for dates.
    Orders,
    /// Orders of every week.
    Weekly,
    /// What takes the place of a weekly order on a date.
    Exceptions,
}

impl OrderFileKind {
    const ALL: [Self; 3] = [Self::Orders, Self::Weekly, Self::Exceptions];

    /// What such a file is called beside the book.
    #[must_use]
    pub const fn usual_name(self) -> &'static str {
        match self {
            Self::Orders => "orders.csv",
            Self::Weekly => "weekly.csv",
            Self::Exceptions => "exceptions.csv",
        }
    }
}

/// The files that orders are read from.
#[derive(Debug)]
pub struct OrderFiles {
    /// Of each kind, in the order of [`OrderFileKind::ALL`].
    files: [Vec<PathBuf>; 3],
    /// The usual files that are not read, since others are named in their place.
    left_out: Vec<(OrderFileKind, PathBuf)>,
}

impl OrderFiles {
    /// The files that are named of each kind: orders, weekly orders, exceptions; without any of a kind, the usual one of the
    /// book where it is there.
    ///
    /// # Errors
    /// A file that is named is not there: without it a day would be planned from less than was meant. There is no file of orders at
    /// all.
    pub fn find(named: [&[PathBuf]; 3], book: &Path) -> Result<Self, FileError> {
        if let Some(path) = named.iter().copied().flatten().find(|path| !path.exists()) {
            return Err(FileError::NotThere { file: path.display().to_string() });
        }
        let mut left_out = Vec::new();
        let files = [0, 1, 2].map(|index| {
            let (kind, named) = (OrderFileKind::ALL[index], named[index]);
            let usual = book.join(kind.usual_name());
            if named.is_empty() {
                return usual.is_file().then_some(usual).into_iter().collect();
            }
            let is_usual =
                |path: &PathBuf| matches!((path.canonicalize(), usual.canonicalize()), (Ok(a), Ok(b)) if a == b);
            if usual.is_file() && !named.iter().any(is_usual) {
                left_out.push((kind, usual.clone()));
            }
            named.to_vec()
        });
        if files[0].is_empty() && files[1].is_empty() {
            return Err(FileError::NoOrders { book: book.display().to_string() });
        }
        Ok(Self { files, left_out })
    }

    /// The files.
    pub fn paths(&self) -> impl Iterator<Item = &Path> {
        self.files.iter().flatten().map(PathBuf::as_path)
    }

    /// The usual files of the book that are not read, since others are named in their place.
    #[must_use]
    pub fn left_out(&self) -> &[(OrderFileKind, PathBuf)] {
        &self.left_out
    }

    /// Asks something for which the orders are read; `progress` hears of their bytes.
    pub fn read<T>(&self, progress: &(dyn Progress + Sync), ask: impl FnOnce(OrderSources<'_>) -> T) -> T {
        progress.expect(self.bytes());
        let [orders, standing, exceptions] = [0, 1, 2].map(|kind| {
            let file = |path: &PathBuf| FileOnDisk {
                path: path.clone(),
                name: path.display().to_string(),
                progress,
            };
            self.files[kind].iter().map(file).collect::<Vec<FileOnDisk<'_>>>()
        });
        let (orders, standing, exceptions) = (borrowed(&orders), borrowed(&standing), borrowed(&exceptions));
        ask(OrderSources { orders: &orders, standing: &standing, exceptions: &exceptions })
    }

    /// The bytes of the files together; 0 where one is a pipe, of which nobody knows.
    fn bytes(&self) -> u64 {
        let size = |path: &Path| path.metadata().ok().filter(Metadata::is_file).map(|known| known.len());
        self.paths().map(size).sum::<Option<u64>>().unwrap_or_default()
    }
}

fn borrowed<'s>(sources: &'s [FileOnDisk<'_>]) -> Vec<&'s dyn OrderSource> {
    sources.iter().map(|source| source as &dyn OrderSource).collect()
}

/// A CSV file on the disk.
struct FileOnDisk<'p> {
    path: PathBuf,
    name: String,
    progress: &'p (dyn Progress + Sync),
}

impl OrderSource for FileOnDisk<'_> {
    fn name(&self) -> &str {
        &self.name
    }

    fn open(&self) -> io::Result<Box<dyn Read + Send + '_>> {
        Ok(Box::new(CountedReader { from: File::open(&self.path)?, progress: self.progress }))
    }
}

/// A reader whose bytes are counted.
struct CountedReader<'p, R> {
    from: R,
    progress: &'p (dyn Progress + Sync),
}

impl<R: Read> Read for CountedReader<'_, R> {
    fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
        let count = self.from.read(to)?;
        self.progress.advance(count as u64);
        Ok(count)
    }
}
