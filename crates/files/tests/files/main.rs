//! Books, orders and results on a disk: each test in a folder of its own.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

mod book;
mod orders;
mod read;
mod target;

use std::fs;
use std::sync::atomic::{AtomicU64, Ordering};

use levamen::Progress;
use tempfile::TempDir;

/// A folder with some files, at paths below it.
fn folder(files: &[(&str, &[u8])]) -> TempDir {
    let folder = TempDir::new().unwrap();
    for (path, bytes) in files {
        let path = folder.path().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    folder
}

/// Adds up what is expected and what is done.
#[derive(Default)]
struct Sums {
    expected: AtomicU64,
    done: AtomicU64,
}

impl Progress for Sums {
    fn expect(&self, more: u64) {
        self.expected.fetch_add(more, Ordering::Relaxed);
    }

    fn advance(&self, more: u64) {
        self.done.fetch_add(more, Ordering::Relaxed);
    }
}
