//! `levamen tidy`

use std::path::{Path, PathBuf};

use levamen_language::{TextId, tidy};

use super::print_json;
use crate::args::Arguments;
use crate::failure::Failure;
use crate::render::Texts;
use crate::shelf::dough_files;
use crate::{input, output};

pub fn run(arguments: &Arguments, files: &[PathBuf], check: bool) -> Result<(), Failure> {
    if files.iter().any(|file| file == Path::new("-")) {
        return standard_input(check);
    }
    let all;
    let files = if files.is_empty() {
        all = dough_files(&arguments.book)?;
        &all
    } else {
        files
    };
    let mut texts = Texts::default();
    let mut problems = Vec::new();
    let mut changed = Vec::new();
    for (id, file) in (0..).map(TextId).zip(files) {
        // Files are named as the caller finds them, without the `./` of a book that is the present folder.
        let shown = file.strip_prefix(".").unwrap_or(file).display().to_string();
        let text = match input::text_file(file, &shown, id) {
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
                output::file(file, tidied.as_bytes())?;
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

/// Says which files changed, or would.
fn report(files: &[String], check: bool, json: bool) -> Result<(), Failure> {
    let what = if check { "would change" } else { "changed" };
    if json {
        return print_json(&serde_json::json!({ what.replace(' ', "_"): files }));
    }
    files.iter().try_for_each(|file| output::result(format!("{file} {what}\n").as_bytes()))
}

/// Lays out standard input.
fn standard_input(check: bool) -> Result<(), Failure> {
    let id = TextId(0);
    let text = input::text_from_standard_input(id).map_err(Failure::problem)?;
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
