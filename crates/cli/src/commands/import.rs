//! `levamen import`

use std::path::Path;

use levamen::quantity::MassUnit;
use levamen::{TextId, Texts, import};
use levamen_files::bytes;

use super::print;
use crate::args::{Arguments, WeightUnit};
use crate::failure::Failure;
use crate::opened::Opened;

pub fn run(arguments: &Arguments, file: &Path, unit: WeightUnit, name: Option<&str>) -> Result<(), Failure> {
    let csv = bytes(file).map_err(Failure::problem)?;
    let from_standard_input = file == Path::new("-");
    let stem = file.file_stem().map(|stem| stem.to_string_lossy().into_owned());
    let own_name = if from_standard_input { None } else { stem };
    let name = name.map(str::to_owned).or(own_name).unwrap_or_else(|| "imported dough".to_owned());
    let unit = match unit {
        WeightUnit::G => MassUnit::Gram,
        WeightUnit::Kg => MassUnit::Kilogram,
        WeightUnit::Lb => MassUnit::Pound,
        WeightUnit::Oz => MassUnit::Ounce,
    };
    // The book's own ingredients and cultures are known too; a recipe needs no book to be imported.
    let book = Opened::book(&arguments.book).unwrap_or_else(|_| Opened::empty());
    match import(&book, &csv, unit, name) {
        Ok(text) => print(arguments, || serde_json::json!({ "text": text }), || text.clone()),
        Err(problems) => {
            let mut texts = Texts::default();
            let shown =
                if from_standard_input { "standard input".to_owned() } else { file.display().to_string() };
            texts.add(TextId(0), shown, String::from_utf8_lossy(&csv));
            Err(Failure::problems(problems, texts))
        }
    }
}
