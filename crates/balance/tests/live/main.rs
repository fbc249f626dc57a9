//! A live book: after any edits it is the book read again, and what it says of an edit is what changed.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test says where it fails")]
#![allow(clippy::format_push_string, reason = "texts of tests are short")]

mod anew;
mod changes;
mod texts;
