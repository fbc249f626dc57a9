//! The book as it lies in a folder: its files read, its problems known.

use std::path::Path;

use levamen_bakery::Bakery;
use levamen_balance::{Balance, Balancer, unusual};
use levamen_ferment::Hazard;
use levamen_formula::{Book, BookEntry, FormulaId, Role, StageKind};
use levamen_language::{Kind, Place, Problem, Severity, Span, TextId, nearest};
use levamen_sheets::{DoughCaution, cautions};

use crate::book_files::BookFiles;
use crate::failure::Failure;
use crate::input;
use crate::progress::{Progress, Unit};
use crate::render::Texts;

/// A book that was read, with everything that is wrong with it but what only a balance shows.
pub struct Shelf {
    /// What the texts say.
    pub book: Book,
    /// The texts, for problems to be drawn in.
    pub texts: Texts,
    /// The problems of the texts and of what they mean.
    pub problems: Vec<Problem>,
    /// Files that could not be read.
    pub unread: Vec<Problem>,
    /// The files of the book; their texts are among `texts`.
    files: BookFiles,
    /// The text of standard input.
    own: Option<TextId>,
}

impl Shelf {
    /// Reads the book of a folder.
    ///
    /// # Errors
    /// The folder cannot be read.
    pub fn open(folder: &Path) -> Result<Self, Failure> {
        Ok(Self::read(BookFiles::read(folder)?, None))
    }

    /// A book with nothing in it but the built-in pantry.
    pub fn empty() -> Self {
        Self::read(BookFiles::default(), None)
    }

    /// Reads one dough, with what it needs, from standard input; its names take the place of the book's.
    ///
    /// # Errors
    /// Standard input cannot be read, or holds no dough or more than one.
    pub fn open_with_standard_input(folder: &Path) -> Result<(Self, FormulaId), Failure> {
        // A dough on its own needs no book; where there is one, its cultures and pantry are at hand.
        let files = BookFiles::read(folder).unwrap_or_default();
        let id = TextId(u32::try_from(files.files.len()).unwrap_or(u32::MAX));
        let text = input::text_from_standard_input(id).map_err(Failure::problem)?;
        let shelf = Self::read(files, Some((id, text)));
        let doughs: Vec<FormulaId> = shelf
            .book
            .entries()
            .filter(|(_, entry)| entry.place.text == id && entry.role == Role::Dough)
            .map(|(id, _)| id)
            .collect();
        match doughs.as_slice() {
            [dough] => Ok((shelf, *dough)),
            [] => Err(shelf.no_dough(id)),
            several => {
                let message = format!("standard input holds {} doughs; one is read", several.len());
                let help = "leave one of them, or put them into files of the book";
                Err(shelf.fail(vec![Problem::error("one-dough", message).help(help)]))
            }
        }
    }

    fn read(mut files: BookFiles, last: Option<(TextId, String)>) -> Self {
        let mut texts = Texts::default();
        let mut unread = std::mem::take(&mut files.problems);
        for (id, file) in (0..).map(TextId).zip(&mut files.files) {
            match std::mem::replace(&mut file.text, Ok(String::new())) {
                Ok(text) => texts.add(id, file.shown.clone(), text),
                Err(problem) => {
                    // It has no words to show, and a name all the same.
                    texts.add(id, file.shown.clone(), String::new());
                    let place = Place { text: id, span: Span::default() };
                    unread.push(if problem.primary.is_none() { problem.at(place, "") } else { problem });
                }
            }
        }
        let own_layer = last.as_ref().map(|(id, _)| *id);
        if let Some((id, text)) = last {
            texts.add(id, "standard input".to_owned(), text);
        }
        let (own, book): (Vec<_>, Vec<_>) =
            texts.iter().map(|(id, _, text)| (id, text)).partition(|(id, _)| Some(*id) == own_layer);
        let (book, problems) = Book::read(&[&book, &own]);
        Self { book, texts, problems, unread, files, own: own_layer }
    }

    /// Reads a text that is no part of the book, such as a table of orders or of stock, so that problems can point at it.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn read_beside(&mut self, file: &Path) -> Result<(TextId, String), Failure> {
        let id = TextId(self.texts.iter().map(|(id, ..)| id.0 + 1).max().unwrap_or(0));
        let (shown, text) = input::text_beside(file, id).map_err(Failure::problem)?;
        self.texts.add(id, shown, text.clone());
        Ok((id, text))
    }

    /// The texts as the book is read from them: those of its folder, and over them that of standard input.
    pub fn layers(&self) -> [Vec<(TextId, &str)>; 2] {
        let texts = self.texts.iter().map(|(id, _, text)| (id, text));
        let (own, book) = texts.partition(|(id, _)| Some(*id) == self.own);
        [book, own]
    }

    /// The dough of a name.
    ///
    /// # Errors
    /// The book has none of that name.
    pub fn find(&self, name: &str) -> Result<FormulaId, Failure> {
        self.book.find(name).ok_or_else(|| {
            let failure = Failure::usage(format!("the book has no dough called `{name}`"));
            let names: Vec<&str> = self.book.entries().map(|(_, entry)| entry.name.as_str()).collect();
            // A part of a name is as near as a misspelt one.
            let wanted = levamen_formula::key(name).into_owned();
            let part = names.iter().copied().find(|name| levamen_formula::key(name).contains(&wanted));
            match nearest(name, names.iter().copied()).first().copied().or(part) {
                Some(near) => failure.help(format!("did you mean `{near}`?")),
                None if names.is_empty() => {
                    failure.help("the book is empty: `--book DIR` names another folder with *.dough files")
                }
                None => failure.help("`levamen list` shows what there is"),
            }
        })
    }

    /// The balance of a dough.
    ///
    /// # Errors
    /// The problems that keep it from having one.
    pub fn balance(&self, id: FormulaId) -> Result<Balance, Failure> {
        let entry = self.book.entry(id);
        let own = entry.map(|entry| entry.problems.clone()).unwrap_or_default();
        if entry.is_some_and(|entry| entry.formula.is_none()) {
            return Err(self.fail(own));
        }
        let mut balancer = Balancer::new(&self.book);
        match balancer.balance(id) {
            Ok(balance) => Ok(self.with_cards(id, balance.clone())),
            Err(problems) => {
                let mut problems = problems.to_vec();
                problems.extend(self.problems_of_sources(id, &mut balancer));
                Err(self.fail(problems))
            }
        }
    }

    /// A balance with how long the dough stands by the bakery's cards, where that matters: where food that spoils is in it.
    pub fn with_cards(&self, id: FormulaId, mut balance: Balance) -> Balance {
        let mut lines = balance.stages.iter().flat_map(|stage| &stage.lines);
        let is_scald = |kind| kind == StageKind::Ahead(Kind::Scald);
        if lines.any(|line| !line.spoiling.is_empty())
            || balance.stages.iter().any(|stage| is_scald(stage.kind))
        {
            balance.standing_time = self.bakery().0.stands(id);
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
            let Some(entry) = self.book.entry(id) else { continue };
            if next > 1 {
                problems.extend(entry.problems.iter().cloned());
                problems.extend(balancer.balance(id).err().into_iter().flatten().cloned());
            }
            for (source, _) in entry.formula.iter().flat_map(levamen_formula::Formula::sources) {
                if !seen.contains(&source) {
                    seen.push(source);
                }
            }
        }
        problems
    }

    /// What the bakery has and keeps to, and what is wrong with it.
    pub fn bakery(&self) -> (Bakery, Vec<Problem>) {
        let texts: Vec<(TextId, &str)> = self.texts.iter().map(|(id, _, text)| (id, text)).collect();
        Bakery::read(&self.book, &texts)
    }

    /// Every problem of the book, those that only a balance shows included.
    pub fn all_problems(&self) -> Vec<Problem> {
        let mut problems: Vec<Problem> = self.unread.iter().chain(&self.problems).cloned().collect();
        let (bakery, wrong) = self.bakery();
        problems.extend(wrong);
        let mut balancer = Balancer::new(&self.book);
        let progress = Progress::new("balancing", self.book.entries().count() as u64, Unit::Of("doughs"));
        for (id, entry) in self.book.entries() {
            progress.add(1);
            if entry.formula.is_some() {
                match balancer.balance(id) {
                    Ok(balance) => {
                        problems.extend(unusual(balance, self.book.pantry(), entry.place));
                        problems.extend(match bakery.stands(id) {
                            None => spoiling(entry, balance),
                            standing_time => spoiling(entry, &Balance { standing_time, ..balance.clone() }),
                        });
                    }
                    Err(wrong) => problems.extend(wrong.iter().cloned()),
                }
            }
        }
        problems
    }

    /// What lies below the book's folder and is no part of it.
    pub fn passed_over(&self, folder: &Path) -> Vec<Problem> {
        self.files.passed_over(folder)
    }

    /// The paths of the book's files.
    pub fn paths(&self) -> impl Iterator<Item = &Path> {
        self.files.files.iter().map(|file| file.path.as_path())
    }

    /// The file that an entry of the book stands in; none for one of standard input.
    pub fn path_of(&self, id: FormulaId) -> Option<&Path> {
        let text = self.book.entry(id)?.place.text;
        self.files.files.get(text.0 as usize).map(|file| file.path.as_path())
    }

    /// How many errors the texts have.
    pub fn errors(&self) -> usize {
        let errors = self.problems.iter().filter(|problem| problem.severity == Severity::Error);
        errors.count() + self.unread.len()
    }

    /// A failure by problems in these texts.
    pub fn fail(&self, problems: Vec<Problem>) -> Failure {
        Failure::Problems { problems, texts: self.texts.clone() }
    }

    /// What is wrong with standard input where it holds no dough.
    fn no_dough(&self, id: TextId) -> Failure {
        let is_own = |problem: &&Problem| {
            let primary = problem.primary.as_ref();
            problem.severity == Severity::Error && primary.is_some_and(|label| label.place.text == id)
        };
        let own = self.problems.iter().filter(is_own);
        let mut problems: Vec<Problem> = own.cloned().collect();
        if problems.is_empty() {
            problems.push(
                Problem::error("one-dough", "standard input holds no dough")
                    .help("it begins with a line `dough` and the dough's name"),
            );
        }
        self.fail(problems)
    }
}

/// A warning where food that spoils stands too long in a dough.
fn spoiling(entry: &BookEntry, balance: &Balance) -> Vec<Problem> {
    let found = cautions(balance).into_iter().filter(|caution| caution.hazard == Hazard::Spoiling);
    let problem = |caution: DoughCaution| {
        let stages = entry.formula.iter().flat_map(|formula| &formula.stages);
        let mut places = stages.filter(|stage| *stage.name == caution.name).map(|stage| stage.place);
        let message = format!("food that spoils stands too long in `{}`", entry.name);
        Problem::warning("stands-too-long", message)
            .at(places.next().unwrap_or(entry.place), "here it has stood too long, or nothing says how long")
            .help(caution.words())
    };
    found.map(problem).collect()
}
