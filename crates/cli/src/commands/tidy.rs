//! `levamen tidy`

use std::path::{Path, PathBuf};

use levamen::{TextId, Texts, lay_out, tidy};
use levamen_files::{BookFile, BookFiles, rewrite, text_from_standard_input};
use levamen_views::json;

use crate::args::Arguments;
use crate::failure::Failure;
use crate::output;
use crate::progress::{CountUnit, ProgressLine};

pub fn run(arguments: &Arguments, files: &[PathBuf], check: bool) -> Result<(), Failure> {
    if files.iter().any(|file| file == Path::new("-")) {
        if files.len() > 1 {
            return Err(Failure::usage("`-` is standard input, and stands alone")
                .help("lay out files and standard input one after the other: `levamen tidy -`"));
        }
        return standard_input(check);
    }
    let mut book = if files.is_empty() {
        BookFiles::read(&arguments.book, &ProgressLine::new("reading the book", CountUnit::Of("files")))?
            .named_by_path()
    } else {
        BookFiles::named(files)
    };
    let (input, mut problems) = book.take_texts();
    let laid_out = lay_out(input);
    problems.extend(laid_out.problems);
    let changed: Vec<&BookFile> =
        laid_out.changed.iter().filter_map(|(index, _)| book.files.get(*index)).collect();
    if !check {
        for (file, (_, text)) in changed.iter().zip(&laid_out.changed) {
            output::notes(&rewrite(&file.path, text.as_bytes())?);
        }
    }
    let names: Vec<String> = changed.iter().map(|file| file.shown.clone()).collect();
    report(&names, check, arguments.json)?;
    if !problems.is_empty() {
        return Err(Failure::Problems { problems, texts: laid_out.texts });
    }
    if check && !names.is_empty() { Err(Failure::Reported) } else { Ok(()) }
}

/// Says which files changed, or would.
fn report(files: &[String], check: bool, json: bool) -> Result<(), Failure> {
    let what = if check { "would change" } else { "changed" };
    if json {
        return output::result(
            json::written(&serde_json::json!({ what.replace(' ', "_"): files }))?.as_bytes(),
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
