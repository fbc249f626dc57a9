//! A book in memory that is asked, and what it answers, written down as whoever asks by the command reads it.
//!
//! A snapshot says by itself what was asked, in the words that are typed for it. How words become a question, and every way to
//! miswrite them, is the command's own matter and tested there; here it is the answer that counts.

use std::path::Path;

use levamen::{Error, FormulaId, InputText, OrderSource, OrderSources, OrdersQuestion, Silent, Workspace};
use levamen_files::{BookFiles, is_dough_file};
use levamen_orders::SourceText;
use levamen_views::text;
use serde_json::Value;

use crate::answer::{Answer, plain};
use crate::question::{Question, Request};

/// The texts of a book, and the tables that lie beside it.
#[derive(Clone, Default)]
pub struct Asked {
    texts: Vec<InputText>,
    tables: Vec<(String, String)>,
}

/// The demo book.
pub fn demo() -> Asked {
    on_disk(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../formulas"))
}

/// The small book of the tests.
pub fn harbour() -> Asked {
    on_disk(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/book"))
}

fn on_disk(folder: &Path) -> Asked {
    let (texts, unread) = BookFiles::read(folder, &Silent).unwrap().take_texts();
    assert_eq!(unread, []);
    Asked { texts, tables: Vec::new() }
}

/// A book of these files: those whose names end in `.dough`, and tables beside them.
pub fn book(files: &[(&str, &str)]) -> Asked {
    let mut asked = Asked::default();
    for (name, text) in files {
        let (name, text) = ((*name).to_owned(), (*text).to_owned());
        if is_dough_file(Path::new(&name)) {
            asked.texts.push(InputText { name, text: Ok(text) });
        } else {
            asked.tables.push((name, text));
        }
    }
    asked
}

impl Asked {
    /// What is shown where this is asked.
    pub fn ask<R: Request>(&self, question: &Question<R>) -> String {
        self.ask_of("", question)
    }

    /// What is shown where this is asked, `-` being the dough of a text that takes precedence over the book.
    pub fn ask_of<R: Request>(&self, over: &str, question: &Question<R>) -> String {
        let (shown, beside, code) = match self.answer(over, question) {
            Ok(answer) => (answer.shown, answer.beside, u8::from(answer.is_incomplete)),
            Err(Error::Problems { problems, texts }) => {
                (String::new(), plain(&text::problems(&texts, &problems)), 1)
            }
            Err(Error::Question(error)) => (String::new(), format!("error: {error}\n"), 2),
        };
        let beside = if beside.is_empty() { beside } else { format!("--- standard error\n{beside}") };
        format!("$ levamen {}\n{shown}{beside}--- exit {code}\n", question.words)
    }

    /// The answer as JSON.
    pub fn json<R: Request>(&self, question: Question<R>) -> Value {
        serde_json::from_str(&self.shown(&question.json())).unwrap()
    }

    /// The answer alone.
    pub fn shown<R: Request>(&self, question: &Question<R>) -> String {
        self.answer("", question).unwrap().shown
    }

    /// Why a question has no answer.
    pub fn refused<R: Request>(&self, question: &Question<R>) -> Error {
        self.answer("", question).err().unwrap()
    }

    /// The answer to a question, or why there is none.
    pub fn answer<R: Request>(&self, over: &str, question: &Question<R>) -> Result<Answer, Error> {
        question.request.answer(self, over, question.shown)
    }

    /// The book alone.
    pub fn workspace(&self) -> Workspace {
        Workspace::read(self.texts.clone(), None)
    }

    /// The book and the dough of a name; `-` is that of the text that takes precedence.
    pub fn dough(&self, over: &str, name: &str) -> Result<(Workspace, FormulaId), Error> {
        if name != "-" {
            let workspace = self.workspace();
            let id = workspace.find(name)?;
            return Ok((workspace, id));
        }
        let over = InputText { name: "standard input".to_owned(), text: Ok(over.to_owned()) };
        let workspace = Workspace::read(self.texts.clone(), Some(over));
        let id = workspace.dough_of_text_over()?;
        Ok((workspace, id))
    }

    /// The table of a name.
    pub fn table(&self, name: &str) -> InputText {
        let (name, text) = self.tables.iter().find(|(own, _)| own == name).unwrap();
        InputText { name: name.clone(), text: Ok(text.clone()) }
    }

    /// Asks with the orders that lie beside the book.
    pub fn with_orders<T>(&self, ask: impl FnOnce(OrdersQuestion<'_>) -> T) -> T {
        let table = |wanted: &str| {
            let found = self.tables.iter().filter(|(name, _)| name == wanted);
            let source =
                |(name, text): &(String, String)| SourceText::new(format!("./{name}"), text.as_bytes());
            found.map(source).collect::<Vec<_>>()
        };
        let [orders, weekly, exceptions] = ["orders.csv", "weekly.csv", "exceptions.csv"].map(table);
        let [orders, weekly, exceptions] = [&orders, &weekly, &exceptions].map(|sources| sources_of(sources));
        let files = OrderSources { orders: &orders, standing: &weekly, exceptions: &exceptions };
        ask(OrdersQuestion { files, today: None })
    }
}

fn sources_of(texts: &[SourceText]) -> Vec<&dyn OrderSource> {
    texts.iter().map(|text| text as &dyn OrderSource).collect()
}
