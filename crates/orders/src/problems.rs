//! What is wrong with orders, in words: one place for all of them.

use jiff::civil::Date;
use levamen_language::Problem;

use crate::error::{FileLine, LineError, LineErrorKind, OrderName};
use crate::pieces::{PieceSum, PiecesError};
use levamen_calendar::NotADate;

impl LineError {
    /// The error in the form in which all are reported: message, reason, how to mend it. The message names file and
    /// line; there is no place, since the text of an order file is not kept.
    #[must_use]
    pub fn problem(&self) -> Problem {
        self.kind.problem(&self.file, self.line, &self.row)
    }
}

impl LineErrorKind {
    /// The problem: what is wrong in which line of which file, why, and how to mend it.
    fn problem(&self, file: &str, line: u64, row: &str) -> Problem {
        let (code, what) = self.message();
        let problem = Problem::error(code, format!("{file}, line {line}: {what}"));
        let problem = self.note().into_iter().fold(problem, Problem::note);
        let problem = if row.is_empty() { problem } else { problem.note(format!("the line says: {row}")) };
        problem.help(self.help())
    }

    fn message(&self) -> (&'static str, String) {
        match self {
            Self::Unreadable(reason) => ("orders-unreadable", format!("the file cannot be read: {reason}")),
            Self::Empty => ("orders-empty", "the file is empty".to_owned()),
            Self::Separator(mark) => {
                let mark = if *mark == '\t' { "tab".to_owned() } else { format!("`{mark}`") };
                ("orders-separator", format!("the headings are parted by a {mark}, and not by a comma"))
            }
            Self::MissingColumn { wanted, .. } => {
                ("orders-no-column", format!("no column is called `{wanted}`"))
            }
            Self::ColumnTwice(heading) => {
                ("orders-column-twice", format!("two columns are called `{heading}`"))
            }
            Self::OpenQuote => ("orders-open-quote", "a quote is opened and never closed".to_owned()),
            Self::TooLong => ("orders-long-line", "the line is longer than any line of orders".to_owned()),
            Self::NotUtf8 => ("orders-not-utf8", "the line is not UTF-8 text".to_owned()),
            Self::FewCells { cells, width } => ("orders-few-cells", odd_cells(*cells, *width)),
            Self::ManyCells { cells, width } => ("orders-many-cells", odd_cells(*cells, *width)),
            Self::EmptyCell(heading) => {
                ("orders-empty-cell", format!("nothing stands in the column `{heading}`"))
            }
            Self::Invisible { heading, written, what } => {
                ("orders-invisible", format!("the {heading} `{written}` has {what} in it"))
            }
            Self::Date { written, why } => ("orders-date", wrong_date(written, why)),
            Self::Past { date, today } => {
                ("orders-past", format!("the order is for {date}, and today is {today}"))
            }
            Self::Product { written, .. } => {
                ("orders-unknown-product", format!("`{written}` is not a product of the book"))
            }
            Self::Pieces { written, why } => wrong_pieces(written, *why),
            Self::NoPieces => ("orders-nothing", "the line orders 0 pieces".to_owned()),
            Self::Duplicate { what, first } => ("orders-duplicate", again(what, first.as_ref())),
            Self::Weekday(written) => ("orders-weekday", format!("`{written}` is not a day of the week")),
            Self::Backwards { from, until } => {
                ("orders-backwards", format!("the order stands from {from} on and only until {until}"))
            }
            Self::StandingTwice { what, first } => ("orders-stands-twice", stands_twice(what, first)),
            Self::ExceptionTwice { what, first } => ("orders-excepted-twice", excepted_twice(what, first)),
            Self::NoStandingOrder(what) => ("orders-nothing-stands", nothing_stands(what)),
        }
    }

    /// Why.
    fn note(&self) -> Option<String> {
        Some(match self {
            Self::Unreadable(_) | Self::OpenQuote | Self::TooLong => {
                "from this line on, nothing of the file is counted".to_owned()
            }
            Self::Empty => "the first line of a file of orders is its headings".to_owned(),
            Self::MissingColumn { headings, .. } => {
                let headings: Vec<String> = headings.iter().map(|heading| format!("`{heading}`")).collect();
                format!("the headings are {}", headings.join(", "))
            }
            Self::ManyCells { .. } => "a comma parts two cells, also in a name or a number".to_owned(),
            Self::Date { why: NotADate::Form(meant), .. } if meant.len() > 1 => {
                "it can be read in two ways, so it is not guessed".to_owned()
            }
            Self::Pieces { why: PiecesError::TooMany, .. } => format!(
                "a line orders at most {} pieces; more of one product for one customer on one day is taken for a slip \
                 of the keyboard (at 500 g a piece it is 500 t of dough)",
                PieceSum::MOST
            ),
            Self::Pieces { why: PiecesError::Grouped, .. } => {
                "a mark between digits can be read in two ways, so it is not guessed".to_owned()
            }
            Self::Duplicate { .. } | Self::StandingTwice { .. } | Self::ExceptionTwice { .. } => {
                "only the first of the two is counted".to_owned()
            }
            Self::NoStandingOrder(_) => {
                "an exception takes the place of a standing order of that day, customer and product"
                    .to_owned()
            }
            _ => return None,
        })
    }

    /// How to mend it.
    fn help(&self) -> String {
        match self {
            Self::Unreadable(_) => "look whether the file is whole, and whether it may be read".to_owned(),
            Self::Empty => "write the headings, such as date,customer,product,quantity".to_owned(),
            Self::Separator(_) => "save it as CSV with commas between the cells".to_owned(),
            Self::MissingColumn { .. } => {
                "name the column so, or say in the book what the column of your files is called".to_owned()
            }
            Self::ColumnTwice(_) => "give one of the two another name".to_owned(),
            Self::OpenQuote => "close the quote; a quote within quotes is written twice".to_owned(),
            Self::TooLong => "look whether the file is CSV".to_owned(),
            Self::NotUtf8 => "save the file as UTF-8".to_owned(),
            Self::FewCells { .. } => "write what is missing, or take the line out".to_owned(),
            Self::ManyCells { .. } => "put a cell with a comma in quotes: \"Bun, seeded\"".to_owned(),
            Self::EmptyCell(_) => "write what belongs there, or take the line out".to_owned(),
            Self::Invisible { .. } => "delete the name and type it again".to_owned(),
            Self::Date { why, .. } => how_to_date(why),
            Self::Past { .. } => "take the line out, or mend its date".to_owned(),
            Self::Product { nearest, .. } => did_you_mean(nearest).unwrap_or_else(|| {
                "write the name of a product of the book, or add the product to the book".to_owned()
            }),
            Self::Pieces { written, why } => how_to_pieces(written, *why),
            Self::NoPieces => {
                "take the line out; 0 calls off a standing order, among the exceptions".to_owned()
            }
            Self::Duplicate { .. } => {
                "take one of the two lines out, or write one line with the sum".to_owned()
            }
            Self::Weekday(_) => {
                "write Monday, Tuesday, Wednesday, Thursday, Friday, Saturday or Sunday".to_owned()
            }
            Self::Backwards { .. } => "mend one of the two dates".to_owned(),
            Self::ExceptionTwice { .. } => "take one of the two lines out".to_owned(),
            Self::StandingTwice { .. } => {
                "take one of the two lines out, or part them by their first and last days".to_owned()
            }
            Self::NoStandingOrder(_) => {
                "mend the name or the date; what is ordered once goes among the orders".to_owned()
            }
        }
    }
}

fn cells_of(count: usize) -> String {
    if count == 1 { "1 cell".to_owned() } else { format!("{count} cells") }
}

fn odd_cells(cells: usize, width: usize) -> String {
    format!("the line has {}, and the file {width} columns", cells_of(cells))
}

fn at(line: &FileLine) -> String {
    format!("line {} of {}", line.number, line.file)
}

fn again(OrderName { day, customer, product }: &OrderName, first: Option<&FileLine>) -> String {
    let before = first.map_or_else(|| "in a line before".to_owned(), |line| format!("in {}", at(line)));
    format!("`{product}` is ordered for `{customer}` on {day} already, {before}")
}

fn stands_twice(OrderName { day, customer, product }: &OrderName, first: &FileLine) -> String {
    format!("`{product}` stands for `{customer}` every {day} already, in {}", at(first))
}

fn excepted_twice(OrderName { day, customer, product }: &OrderName, first: &FileLine) -> String {
    format!("`{product}` for `{customer}` on {day} has an exception already, in {}", at(first))
}

fn nothing_stands(OrderName { day, customer, product }: &OrderName) -> String {
    format!("no standing order of `{product}` for `{customer}` falls on {day}")
}

fn did_you_mean(names: &[String]) -> Option<String> {
    let quoted: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    match quoted.split_last()? {
        (last, []) => Some(format!("did you mean {last}?")),
        (last, first) => Some(format!("did you mean {} or {last}?", first.join(", "))),
    }
}

fn wrong_date(written: &str, why: &NotADate) -> String {
    match why {
        NotADate::Form(_) => format!("`{written}` is not written as a date is"),
        NotADate::NoYear => format!("`{written}` is no date: there is no year 0"),
        NotADate::NoMonth(month) => format!("`{written}` is no date: there is no month {month}"),
        NotADate::NoDay { days, month } => {
            format!("`{written}` is no date: {} has {days} days", month.strftime("%B %Y"))
        }
    }
}

fn how_to_date(why: &NotADate) -> String {
    match why {
        NotADate::Form(meant) if !meant.is_empty() => {
            let dates: Vec<String> = meant.iter().map(Date::to_string).collect();
            format!("write {}", dates.join(" or "))
        }
        NotADate::Form(_) => "write year, month and day in digits, such as 2026-11-27".to_owned(),
        NotADate::NoYear | NotADate::NoMonth(_) | NotADate::NoDay { .. } => {
            "write the day that is meant".to_owned()
        }
    }
}

fn wrong_pieces(written: &str, why: PiecesError) -> (&'static str, String) {
    match why {
        PiecesError::TooMany => ("orders-too-many", format!("nobody orders {written} pieces")),
        PiecesError::NotWhole => ("orders-quantity", format!("`{written}` is not a whole number of pieces")),
        PiecesError::Grouped => ("orders-quantity", format!("`{written}` can be read in two ways")),
        PiecesError::Negative => ("orders-quantity", format!("`{written}` is less than no piece")),
        PiecesError::WithUnit => ("orders-quantity", format!("`{written}` is more than a number")),
        PiecesError::NotANumber => ("orders-quantity", format!("`{written}` is not a number of pieces")),
    }
}

fn how_to_pieces(written: &str, why: PiecesError) -> String {
    let digits: String = written.chars().filter(char::is_ascii_digit).collect();
    let leading: String = written.chars().take_while(char::is_ascii_digit).collect();
    match why {
        PiecesError::TooMany => "write the number that is meant".to_owned(),
        PiecesError::NotWhole => "order whole pieces".to_owned(),
        PiecesError::Grouped => format!("write {digits} if that is meant"),
        PiecesError::Negative => "take the line out; what comes back is no order".to_owned(),
        PiecesError::WithUnit => format!("write the number alone: {leading}"),
        PiecesError::NotANumber => "write digits, such as 24".to_owned(),
    }
}
