//! A dough's pages: its formula, the same at a size, and its bench sheet.

use levamen::quantity::Share;
use levamen::{BatchSize, Error, FormulaReport, SizeAmount, Wishes};
use levamen_views::{csv, json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{Form, Question, Request, Shown, mass, share};
use crate::questions::wishes::Wishing;

/// A page of a dough.
pub struct Page {
    dough: String,
    kind: PageKind,
    wishes: Wishes,
    size: BatchSize,
}

enum PageKind {
    Formula,
    Scaled,
    Sheet,
}

pub fn formula(dough: &str) -> Question<Page> {
    page("formula", PageKind::Formula, dough)
}

/// The formula at a size.
pub fn scaled(dough: &str) -> Question<Page> {
    page("scale", PageKind::Scaled, dough)
}

pub fn sheet(dough: &str) -> Question<Page> {
    page("sheet", PageKind::Sheet, dough)
}

fn page(command: &str, kind: PageKind, dough: &str) -> Question<Page> {
    let (wishes, size) = (Wishes::default(), BatchSize::default());
    Question::new(&format!("{command} {dough}"), Page { dough: dough.to_owned(), kind, wishes, size })
}

impl Wishing for Page {
    fn wishes(&mut self) -> &mut Wishes {
        &mut self.wishes
    }
}

impl Question<Page> {
    /// So many pieces of this weight.
    pub fn pieces(self, count: u64, piece: &str) -> Self {
        let amount = SizeAmount::Pieces(count, Some(mass(piece)));
        self.amount("pieces", &count.to_string(), amount).with("piece", piece, |_| ())
    }

    /// So many pieces of the file's weight.
    pub fn usual_pieces(self, count: u64) -> Self {
        self.amount("pieces", &count.to_string(), SizeAmount::Pieces(count, None))
    }

    /// So much dough as it is mixed.
    pub fn mixed(self, dough: &str) -> Self {
        self.amount("dough", dough, SizeAmount::Dough(mass(dough)))
    }

    pub fn divided(self, dough: &str) -> Self {
        self.amount("to-divide", dough, SizeAmount::ToDivide(mass(dough)))
    }

    pub fn flour(self, flour: &str) -> Self {
        self.amount("flour", flour, SizeAmount::Flour(mass(flour)))
    }

    /// As much as a stage that stands ready gives.
    pub fn have(self, stage: &str, ready: &str) -> Self {
        let amount = SizeAmount::Ready { stage: stage.to_owned(), mass: mass(ready) };
        self.amount("have", &format!("{stage}={ready}"), amount)
    }

    pub fn losing(self, loss: &str) -> Self {
        self.with("losing", loss, |page| page.size.loss = Some(share(loss)))
    }

    pub fn losing_nothing(self) -> Self {
        self.with("losing", "0 %", |page| page.size.loss = Some(Share::default()))
    }

    pub fn with_old_dough(self) -> Self {
        self.so("with-old-dough", |page| page.size.with_old_dough = true)
    }

    fn amount(self, option: &str, words: &str, amount: SizeAmount) -> Self {
        self.with(option, words, |page| page.size.amount = Some(amount))
    }
}

impl Request for Page {
    fn answer(&self, asked: &Asked, over: &str, shown: Shown) -> Result<Answer, Error> {
        let (workspace, id) = asked.dough(over, &self.dough)?;
        let ask = match self.kind {
            PageKind::Formula => levamen::formula,
            PageKind::Scaled => levamen::scaled,
            PageKind::Sheet => {
                let sheet = levamen::sheet(&workspace, id, &self.wishes, &self.size)?;
                if shown.form == Form::Csv {
                    return Ok(Answer::table(&csv::sheet(&sheet).unwrap()));
                }
                return Ok(shown.answer(|| json::SheetJson::from(&sheet), || text::sheet(&sheet)));
            }
        };
        let report: FormulaReport = ask(&workspace, id, &self.wishes, &self.size)?;
        let sheet = report.sheet()?;
        Ok(shown.answer(|| json::FormulaJson::from(&sheet), || text::formula(&sheet)))
    }
}
