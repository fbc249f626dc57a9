//! `levamen import`

use std::path::Path;

use levamen_formula::Role;
use levamen_import::{Options, import};
use levamen_language::TextId;
use levamen_quantity::MassUnit;

use super::print_json;
use crate::args::{Arguments, Unit};
use crate::failure::Failure;
use crate::render::Texts;
use crate::shelf::Shelf;
use crate::{input, output};

pub fn run(arguments: &Arguments, file: &Path, unit: Unit, name: Option<&str>) -> Result<(), Failure> {
    let csv = input::bytes(file).map_err(Failure::problem)?;
    let from_standard_input = file == Path::new("-");
    let stem = file.file_stem().map(|stem| stem.to_string_lossy().into_owned());
    let own_name = if from_standard_input { None } else { stem };
    // The book's own ingredients and cultures are known too; a recipe needs no book to be imported.
    let shelf = Shelf::open(&arguments.book).unwrap_or_else(|_| Shelf::empty());
    let cultures = shelf.book.entries().filter(|(_, entry)| entry.role == Role::Culture);
    let options = Options {
        unit: match unit {
            Unit::G => MassUnit::Gram,
            Unit::Kg => MassUnit::Kilogram,
            Unit::Lb => MassUnit::Pound,
            Unit::Oz => MassUnit::Ounce,
        },
        name: name.map(str::to_owned).or(own_name).unwrap_or_else(|| "imported dough".to_owned()),
        cultures: cultures.map(|(_, entry)| entry.name.clone()).collect(),
    };
    match import(TextId(0), &csv, &options, shelf.book.pantry()) {
        Ok(text) if arguments.json => print_json(&serde_json::json!({ "text": text })),
        Ok(text) => output::result(text.as_bytes()),
        Err(problems) => {
            let mut texts = Texts::default();
            let shown =
                if from_standard_input { "standard input".to_owned() } else { file.display().to_string() };
            texts.add(TextId(0), shown, String::from_utf8_lossy(&csv).into_owned());
            Err(Failure::Problems { problems, texts })
        }
    }
}
