//! `levamen formula` and `levamen scale`

use levamen_sheets::{json, text};

use super::{balanced, print_json};
use crate::args::{Arguments, BatchSize, Named};
use crate::failure::Failure;
use crate::output;

pub fn run(arguments: &Arguments, dough: &Named, size: &BatchSize) -> Result<(), Failure> {
    let (balance, _) = balanced(arguments, dough, size)?;
    let batch = balance.batch();
    if arguments.json {
        print_json(&json::Formula::from(&batch))
    } else {
        output::result(text::formula(&batch).as_bytes())
    }
}
