//! A book and a bakery in memory: texts read once, each dough balanced once.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use levamen_bakery::Bakery;
use levamen_balance::{Balance, BalanceSource, Balancer, Changes};
use levamen_formula::{Book, Formula, FormulaId, Role, StageKind};
use levamen_language::{Kind, Place, Problem, Severity, Span, TextId, Texts, nearest};

use crate::error::{Error, QuestionError};
use crate::kept_book::KeptBook;

/// A text of a book, as somebody read it.
#[derive(Debug, Clone)]
pub struct InputText {
    /// The name that a reader knows it by.
    pub name: String,
    /// What it says, or why it could not be read.
    pub text: Result<String, Problem>,
}

/// A book, with everything that is wrong with it but what only a balance shows.
#[derive(Debug)]
pub struct Workspace {
    kept: KeptBook,
    texts: Texts,
    problems: Vec<Problem>,
    unread: Vec<Problem>,
    /// The text whose names take the place of the book's.
    over: Option<TextId>,
    bakery: OnceLock<(Bakery, Vec<Problem>)>,
    /// Balances as they are answered with: see [`Workspace::balance`].
    answers: Mutex<BTreeMap<FormulaId, BalanceOutcome>>,
}

impl BalanceSource for Workspace {
    fn book(&self) -> &Book {
        Self::book(self)
    }

    fn balance(&self, id: FormulaId) -> Result<Arc<Balance>, Vec<Problem>> {
        self.with_balancer(|balancer| balancer.shared(id).cloned().map_err(<[Problem]>::to_vec))
    }
}

/// What comes of balancing a dough.
type BalanceOutcome = Result<Arc<Balance>, Vec<Problem>>;

impl Workspace {
    /// Reads the texts of a book. Text number `n` has the id `n`. A name in the text `over` takes the place of the same name in the
    /// book; its id is the number of the book's texts.
    #[must_use]
    pub fn read(book: Vec<InputText>, over: Option<InputText>) -> Self {
        let mut texts = Texts::default();
        let mut unread = Vec::new();
        let over_id = over.is_some().then(|| TextId(u32::try_from(book.len()).unwrap_or(u32::MAX)));
        for (id, InputText { name, text }) in (0..).map(TextId).zip(book.into_iter().chain(over)) {
            match text {
                Ok(text) => texts.add(id, name, text),
                Err(problem) => {
                    // It has no words to show, and a name all the same.
                    texts.add(id, name, "");
                    let place = Place { text: id, span: Span::default() };
                    unread.push(if problem.primary.is_none() { problem.at(place, "") } else { problem });
                }
            }
        }
        let (above, below): (Vec<_>, Vec<_>) = texts.shared().partition(|(id, _)| Some(*id) == over_id);
        let (kept, problems) = KeptBook::read(&[&below, &above]);
        let (bakery, answers) = (OnceLock::new(), Mutex::default());
        Self { kept, texts, problems, unread, over: over_id, bakery, answers }
    }

    /// A book with nothing in it but the built-in pantry.
    #[must_use]
    pub fn empty() -> Self {
        Self::read(Vec::new(), None)
    }

    /// Adds problems of files or folders that could not be read at all: something of the book may be missing.
    #[must_use]
    pub fn with_unread(mut self, problems: Vec<Problem>) -> Self {
        self.unread.splice(0..0, problems);
        self
    }

    /// What the texts say.
    #[must_use]
    pub fn book(&self) -> &Book {
        self.kept.book()
    }

    /// Gives a text other words, as an editor or a page does at each stroke; what follows from it is worked out again. Returns
    /// what it changes; `None` where there is no text of that id.
    pub fn edit(&mut self, id: TextId, text: &str) -> Option<Changes> {
        let (above, below): (Vec<_>, Vec<_>) =
            self.texts.shared().partition(|(id, _)| Some(*id) == self.over);
        let (changes, problems) = self.kept.edit(&[&below, &above], id, text)?;
        self.problems = problems;
        self.texts.replace(id, text);
        self.bakery = OnceLock::new();
        self.answers = Mutex::default();
        Some(changes)
    }

    /// Lets a balancer of the book work with what is solved already.
    pub(crate) fn with_balancer<T>(&self, work: impl FnOnce(&mut Balancer<'_>) -> T) -> T {
        self.kept.with_balancer(work)
    }

    /// The texts, for problems to be drawn in.
    #[must_use]
    pub const fn texts(&self) -> &Texts {
        &self.texts
    }

    /// The problems of the texts and of what they mean.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    /// Files and folders that could not be read.
    #[must_use]
    pub fn unread(&self) -> &[Problem] {
        &self.unread
    }

    /// The texts as the book is read from them: its own, and over them the one that takes precedence.
    #[must_use]
    pub fn layers(&self) -> [Vec<(TextId, &str)>; 2] {
        layers(&self.texts, self.over)
    }

    /// How many errors the texts have.
    #[must_use]
    pub fn errors(&self) -> usize {
        let errors = self.problems.iter().filter(|problem| problem.severity == Severity::Error);
        errors.count() + self.unread.len()
    }

    /// What the bakery has and keeps to, and what is wrong with it.
    #[must_use]
    pub fn bakery(&self) -> &(Bakery, Vec<Problem>) {
        self.bakery.get_or_init(|| Bakery::read(self.book(), &self.layers().concat()))
    }

    /// What the bakery has and keeps to.
    ///
    /// # Errors
    /// Its cards have problems.
    pub fn sound_bakery(&self) -> Result<&Bakery, Error> {
        let (bakery, problems) = self.bakery();
        if problems.is_empty() { Ok(bakery) } else { Err(self.fail(problems.clone())) }
    }

    /// The dough of a name.
    ///
    /// # Errors
    /// The book has none of that name.
    pub fn find(&self, name: &str) -> Result<FormulaId, Error> {
        self.book().find(name).ok_or_else(|| {
            let names: Vec<&str> = self.book().entries().map(|(_, entry)| entry.name.as_str()).collect();
            // A part of a name is as near as a misspelt one.
            let wanted = levamen_formula::key(name).into_owned();
            let part = names.iter().copied().find(|name| levamen_formula::key(name).contains(&wanted));
            let near = nearest(name, names.iter().copied()).first().copied().or(part).map(str::to_owned);
            QuestionError::UnknownDough { name: name.to_owned(), near, is_empty: names.is_empty() }.into()
        })
    }

    /// The one dough of the text that takes precedence over the book.
    ///
    /// # Errors
    /// It holds no dough, or more than one.
    pub fn dough_of_text_over(&self) -> Result<FormulaId, Error> {
        let is_own = |place: Place| Some(place.text) == self.over;
        let entries = self.book().entries();
        let doughs = entries.filter(|(_, entry)| is_own(entry.place) && entry.role == Role::Dough);
        let name = self.over.map_or("the text", |id| self.texts.name(id));
        match doughs.map(|(id, _)| id).collect::<Vec<_>>().as_slice() {
            [dough] => Ok(*dough),
            [] => {
                let is_own_error = |problem: &&Problem| {
                    let primary = problem.primary.as_ref();
                    problem.severity == Severity::Error && primary.is_some_and(|label| is_own(label.place))
                };
                let mut problems: Vec<Problem> = self.problems.iter().filter(is_own_error).cloned().collect();
                if problems.is_empty() {
                    let problem = Problem::error("one-dough", format!("{name} holds no dough"));
                    problems.push(problem.help("it begins with a line `dough` and the dough's name"));
                }
                Err(self.fail(problems))
            }
            several => {
                let message = format!("{name} holds {} doughs; one is read", several.len());
                let help = "leave one of them, or put them into files of the book";
                Err(self.fail(vec![Problem::error("one-dough", message).help(help)]))
            }
        }
    }

    /// The balance of a dough, worked out when it is first asked for.
    ///
    /// # Errors
    /// The problems that keep it from having one.
    pub fn balance(&self, id: FormulaId) -> Result<Arc<Balance>, Error> {
        let known = self.answers.lock().unwrap_or_else(PoisonError::into_inner).get(&id).cloned();
        let outcome = known.unwrap_or_else(|| {
            let outcome = self.balance_now(id);
            let mut answers = self.answers.lock().unwrap_or_else(PoisonError::into_inner);
            answers.insert(id, outcome.clone());
            outcome
        });
        outcome.map_err(|problems| self.fail(problems))
    }

    fn balance_now(&self, id: FormulaId) -> BalanceOutcome {
        if let Some(entry) = self.book().entry(id)
            && entry.formula.is_none()
        {
            return Err(entry.problems.clone());
        }
        self.with_balancer(|balancer| match balancer.shared(id) {
            Ok(balance) => Ok(self.with_cards(id, Arc::clone(balance))),
            Err(problems) => {
                let mut problems = problems.to_vec();
                problems.extend(self.problems_of_sources(id, balancer));
                Err(problems)
            }
        })
    }

    /// A balance with how long the dough stands by the bakery's cards, where that matters: where food that spoils is in it.
    #[must_use]
    pub fn with_cards(&self, id: FormulaId, mut balance: Arc<Balance>) -> Arc<Balance> {
        let mut lines = balance.stages.iter().flat_map(|stage| &stage.lines);
        let is_scald = |kind| kind == StageKind::Ahead(Kind::Scald);
        if lines.any(|line| !line.spoiling.is_empty())
            || balance.stages.iter().any(|stage| is_scald(stage.kind))
        {
            Arc::make_mut(&mut balance).standing_time = self.bakery().0.mix_to_oven(id);
        }
        balance
    }

    /// The problems of what a dough takes from: those have to be mended first.
    fn problems_of_sources(&self, id: FormulaId, balancer: &mut Balancer<'_>) -> Vec<Problem> {
        let mut seen = vec![id];
        let mut next = 0;
        let mut problems = Vec::new();
        while let Some(id) = seen.get(next).copied() {
            next += 1;
            let Some(entry) = self.book().entry(id) else { continue };
            if next > 1 {
                problems.extend(entry.problems.iter().cloned());
                problems.extend(balancer.balance(id).err().into_iter().flatten().cloned());
            }
            for (source, _) in entry.formula.iter().flat_map(Formula::sources) {
                if !seen.contains(&source) {
                    seen.push(source);
                }
            }
        }
        problems
    }

    /// An error by problems in these texts.
    #[must_use]
    pub fn fail(&self, problems: Vec<Problem>) -> Error {
        Error::Problems { problems, texts: self.texts.clone() }
    }
}

fn layers(texts: &Texts, over: Option<TextId>) -> [Vec<(TextId, &str)>; 2] {
    let texts = texts.iter().map(|(id, _, text)| (id, text));
    let (above, below) = texts.partition(|(id, _)| Some(*id) == over);
    [below, above]
}
