//! `levamen tidy`

use std::path::{Path, PathBuf};

use levamen_language::{TextId, tidy};

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
    let mut would_change = false;
    for (id, file) in (0..).map(TextId).zip(files) {
        let text = match input::text_file(file, id) {
            Ok(text) => text,
            Err(problem) => {
                problems.push(problem);
                continue;
            }
        };
        match tidy(id, &text) {
            Ok(tidied) if tidied == text => {}
            Ok(_) if check => {
                output::result(format!("{} would change\n", file.display()).as_bytes())?;
                would_change = true;
            }
            Ok(tidied) => {
                output::file(file, tidied.as_bytes())?;
                output::result(format!("{} changed\n", file.display()).as_bytes())?;
            }
            Err(found) => {
                problems.extend(found);
                texts.add(id, file.display().to_string(), text);
            }
        }
    }
    if !problems.is_empty() {
        return Err(Failure::Problems { problems, texts });
    }
    if would_change { Err(Failure::Reported) } else { Ok(()) }
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
