//! `levamen tidy`

use std::path::{Path, PathBuf};

use levamen::{Problem, TextId, Texts, tidy, visible};
use levamen_files::{BookFile, BookFiles, rewrite, text_file, text_from_standard_input};

use crate::args::Arguments;
use crate::failure::Failure;
use crate::output;
use crate::progress::{Progress, Unit};

pub fn run(arguments: &Arguments, files: &[PathBuf], check: bool) -> Result<(), Failure> {
    if files.iter().any(|file| file == Path::new("-")) {
        if files.len() > 1 {
            return Err(Failure::usage("`-` is standard input, and stands alone")
                .help("lay out files and standard input one after the other: `levamen tidy -`"));
        }
        return standard_input(check);
    }
    let mut texts = Texts::default();
    let mut problems = Vec::new();
    let mut changed = Vec::new();
    for (id, BookFile { path, shown, text }) in (0..).map(TextId).zip(named(arguments, files, &mut problems)?)
    {
        let text = match text {
            Ok(text) => text,
            Err(problem) => {
                problems.push(problem);
                continue;
            }
        };
        match tidy(id, &text) {
            Ok(tidied) if tidied == text => {}
            Ok(_) if check => changed.push(shown),
            Ok(tidied) => {
                output::notes(&rewrite(&path, tidied.as_bytes())?);
                changed.push(shown);
            }
            Err(found) => {
                problems.extend(found);
                texts.add(id, shown, text);
            }
        }
    }
    report(&changed, check, arguments.json)?;
    if !problems.is_empty() {
        return Err(Failure::Problems { problems, texts });
    }
    if check && !changed.is_empty() { Err(Failure::Reported) } else { Ok(()) }
}

/// The files that are named, or else all of the book.
fn named(
    arguments: &Arguments,
    files: &[PathBuf],
    problems: &mut Vec<Problem>,
) -> Result<Vec<BookFile>, Failure> {
    if files.is_empty() {
        let book = BookFiles::read(&arguments.book, &Progress::new("reading the book", Unit::Of("files")))?;
        problems.extend(book.problems);
        // Files are named as the caller finds them, without the `./` of a book that is the present folder.
        let found = book.files.into_iter().map(|file| BookFile { shown: shown(&file.path), ..file });
        return Ok(found.collect());
    }
    let read = |(id, path): (u32, &PathBuf)| {
        let shown = shown(path);
        let text = text_file(path, &shown, TextId(id));
        BookFile { path: path.clone(), shown, text }
    };
    Ok((0..).zip(files).map(read).collect())
}

fn shown(path: &Path) -> String {
    visible(&path.strip_prefix(".").unwrap_or(path).display().to_string()).into_owned()
}

/// Says which files changed, or would.
fn report(files: &[String], check: bool, json: bool) -> Result<(), Failure> {
    let what = if check { "would change" } else { "changed" };
    if json {
        return output::result(
            output::json(&serde_json::json!({ what.replace(' ', "_"): files }))?.as_bytes(),
        );
    }
    files.iter().try_for_each(|file| output::result(format!("{file} {what}\n").as_bytes()))
}

/// Lays out standard input.
fn standard_input(check: bool) -> Result<(), Failure> {
    let id = TextId(0);
    let text = text_from_standard_input(id).map_err(Failure::problem)?;
    match tidy(id, &text) {
        Ok(tidied) if check => {
            if tidied == text {
                return Ok(());
            }
            output::result(b"standard input would change\n")?;
            Err(Failure::Reported)
        }
        Ok(tidied) => output::result(tidied.as_bytes()),
        Err(problems) => {
            let mut texts = Texts::default();
            texts.add(id, "standard input".to_owned(), text);
            Err(Failure::Problems { problems, texts })
        }
    }
}
