//! A live book: after any edits it is the book read anew, and what it tells of an edit is what changed.

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test says where it fails")]

mod anew;
mod changes;
mod texts;
