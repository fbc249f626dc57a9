//! The book of a command: its files read into a workspace.

use std::ops::Deref;
use std::path::Path;

use levamen::{FormulaId, InputText, Problem, TextId, Workspace};
use levamen_files::{BookFiles, text_from_standard_input};

use crate::failure::Failure;
use crate::output;
use crate::progress::{CountUnit, ProgressLine};

/// The id of the only text of a problem that has no other.
const NO_TEXT: TextId = TextId(0);

/// A workspace, and the files that it was read from.
pub struct Opened {
    workspace: Workspace,
    /// The files of the book; their texts are in the workspace.
    pub files: BookFiles,
}

impl Deref for Opened {
    type Target = Workspace;

    fn deref(&self) -> &Workspace {
        &self.workspace
    }
}

impl Opened {
    /// Reads the book of a folder.
    ///
    /// # Errors
    /// The folder cannot be read.
    pub fn book(folder: &Path) -> Result<Self, Failure> {
        let progress = ProgressLine::new("reading the book", CountUnit::Of("files"));
        Ok(Self::read(BookFiles::read(folder, &progress)?, None))
    }

    /// The built-in pantry alone.
    pub fn empty() -> Self {
        Self::read(BookFiles::default(), None)
    }

    /// A dough by its name, or `-` for that of standard input, whose names take the place of the book's; and the book.
    ///
    /// # Errors
    /// The book cannot be read, or has no dough of that name; standard input holds no dough, or more than one.
    pub fn with_dough(folder: &Path, name: &str) -> Result<(Self, FormulaId), Failure> {
        if name != "-" {
            let opened = Self::book(folder)?;
            let id = opened.find(name)?;
            return Ok((opened, id));
        }
        // A dough on its own needs no book; where there is one, its cultures and pantry are at hand.
        let progress = ProgressLine::new("reading the book", CountUnit::Of("files"));
        let files = BookFiles::read(folder, &progress).unwrap_or_default();
        let text = text_from_standard_input(NO_TEXT).map_err(Failure::problem)?;
        let over = InputText { name: "standard input".to_owned(), text: Ok(text) };
        let opened = Self::read(files, Some(over));
        let id = opened.dough_of_text_over()?;
        Ok((opened, id))
    }

    fn read(mut files: BookFiles, over: Option<InputText>) -> Self {
        let (texts, problems) = files.take_texts();
        Self { workspace: Workspace::read(texts, over).with_unread(problems), files }
    }

    /// Reports that the book has problems, where a command that does not show them is done.
    pub fn remind(&self, place: &str) {
        let count = self.errors();
        if count > 0 {
            let s = if count == 1 { "" } else { "s" };
            output::error(&format!("the book has {count} problem{s}{place}: `levamen check` shows them\n"));
        }
    }

    /// A sound dough of the book may stand beside others that are not.
    pub fn remind_beside(&self, name: &str) {
        if name != "-" {
            self.remind(" elsewhere");
        }
    }

    /// What lies below the book's folder and is no part of it.
    pub fn passed_over(&self, folder: &Path) -> Vec<Problem> {
        self.files.passed_over(folder)
    }
}
