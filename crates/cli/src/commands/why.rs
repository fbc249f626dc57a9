//! `levamen why`

use levamen::why;
use levamen_views::{json, text};

use super::print;
use crate::args::{Arguments, WishArguments};
use crate::failure::Failure;
use crate::opened::Opened;

pub fn run(arguments: &Arguments, name: &str, figure: &str, wishes: &WishArguments) -> Result<(), Failure> {
    let (book, id) = Opened::with_dough(&arguments.book, name)?;
    let found = why(&book, id, figure, &wishes.read())?;
    book.remind_beside(name);
    print(arguments, || json::WhyJson::new(&found.why, &found.texts), || text::why(&found.why, &found.texts))
}
