//! A dough as it should be, instead of as its file says: wants, released figures, the most and the least.

use levamen_balance::{Balance, Balancer, Objective};
use levamen_formula::{Formula, FormulaId, NamedFigure, ResolvedMake, ResolvedMakeSize, Want};
use levamen_language::{Place, Problem, Span, TextId, read_fact};
use levamen_quantity::Mass;

use crate::args::Wishes;
use crate::failure::Failure;
use crate::shelf::Shelf;

/// The first id of texts that stand on the command line and in no file.
const FIRST_TEXT: u32 = u32::MAX / 2;

/// A dough as it should be.
struct Wished {
    formula: Formula,
    aim: Option<Objective>,
    /// What is made, where pieces are aimed at.
    pieces: Option<ResolvedMake>,
}

impl Wishes {
    /// Whether nothing is wished for.
    pub fn are_none(&self) -> bool {
        self.want.is_empty() && self.free.is_empty() && self.most.is_none() && self.least.is_none()
    }

    /// The balance of a dough with these wishes.
    ///
    /// # Errors
    /// A wish that cannot be read, or that the dough cannot fulfil.
    pub fn balance(&self, shelf: &mut Shelf, id: FormulaId) -> Result<Balance, Failure> {
        let Wished { formula, aim, pieces } = self.wished(shelf, id)?;
        let mut balancer = Balancer::new(&shelf.book);
        let balance = balancer.balance_as(&formula, aim).map_err(|found| shelf.fail(found))?;
        match (pieces, aim) {
            (Some(make), Some(aim)) => {
                let formula = in_whole_pieces(&formula, make, &balance, aim)?;
                let aim = Objective { figure: NamedFigure::Dough, ..aim };
                balancer.balance_as(&formula, Some(aim)).map_err(|found| shelf.fail(found))
            }
            _ => Ok(balance),
        }
    }

    /// The dough as lines that say what it would be with these wishes, so that it can be told why.
    ///
    /// # Errors
    /// A wish that cannot be read, or that the dough cannot fulfil; an aim that no bound stops.
    pub fn held(&self, shelf: &mut Shelf, id: FormulaId) -> Result<Formula, Failure> {
        let Wished { formula, aim, pieces } = self.wished(shelf, id)?;
        let Some(aim) = aim else { return Ok(formula) };
        let mut balancer = Balancer::new(&shelf.book);
        let held = match pieces {
            Some(make) => {
                let balance = balancer.balance_as(&formula, Some(aim)).map_err(|found| shelf.fail(found))?;
                in_whole_pieces(&formula, make, &balance, aim)?
            }
            None => balancer.with_binding_bounds(&formula, aim).map_err(|found| shelf.fail(found))?,
        };
        if balancer.balance_as(&held, None).is_err() {
            let words = self.most.as_ref().or(self.least.as_ref()).map_or("", String::as_str);
            return Err(Failure::usage(format!(
                "no line and no bound alone says why `{words}` is what it is"
            ))
            .help("state the figures that `levamen formula` shows with `--want`, and ask again"));
        }
        Ok(if self.aims_at_pieces() { name_pieces(shelf, held, self.most.is_some()) } else { held })
    }

    /// The dough with what is wished for in the place of its own lines, and what it should have most or least of.
    fn wished(&self, shelf: &mut Shelf, id: FormulaId) -> Result<Wished, Failure> {
        let written = shelf.book.entry(id).and_then(|entry| entry.formula.clone());
        let Some(mut formula) = written else {
            let problems = shelf.book.entry(id).map(|entry| entry.problems.clone());
            return Err(shelf.fail(problems.unwrap_or_default()));
        };
        let aim = self.aim(&formula, shelf)?;
        let pieces = self.piece(&formula);
        for figure in &self.free {
            let asked = ask("--free", figure, &formula, shelf)?;
            if !formula.release(asked, shelf.book.pantry()) {
                return Err(Failure::usage(format!(
                    "`--free {figure}`: no line of `{}` says it",
                    formula.name
                ))
                .help("it follows from other lines; release one of those"));
            }
        }
        if let Some(aim) = aim {
            formula.release(aim.figure, shelf.book.pantry());
        }
        let wants = self.wants(&formula, shelf)?;
        for want in wants {
            formula.want(want, shelf.book.pantry());
        }
        Ok(Wished { formula, aim, pieces })
    }

    fn wants(&self, formula: &Formula, shelf: &mut Shelf) -> Result<Vec<Want>, Failure> {
        let mut wants = Vec::new();
        let mut problems = Vec::new();
        for (id, text) in (FIRST_TEXT..).map(TextId).zip(&self.want) {
            shelf.texts.add(id, "--want".to_owned(), text.clone());
            let whole = Span::new(0, u32::try_from(text.len()).unwrap_or(u32::MAX));
            if let Some(count) = text.trim().strip_prefix("pieces ") {
                problems.push(
                    Problem::error("not-a-figure", "pieces are counted, and no figure of the formula")
                        .at(Place { text: id, span: whole }, "")
                        .help(format!(
                            "write `--pieces {}` with `levamen scale` or `levamen sheet`",
                            count.trim()
                        ))
                        .help("or `--most pieces`, for as many as there is dough for"),
                );
                continue;
            }
            let read = read_fact(id, text).map_err(Box::new);
            match read.and_then(|fact| Want::read(&fact, id, whole, formula, shelf.book.pantry())) {
                Ok(Some(want)) => wants.push(want),
                Ok(None) => problems.push(
                    Problem::error("not-a-figure", format!("`{text}` names no figure and how much"))
                        .at(Place { text: id, span: whole }, "")
                        .help("write a figure and an amount, such as `hydration 78 %`"),
                ),
                Err(problem) => problems.push(*problem),
            }
        }
        if problems.is_empty() { Ok(wants) } else { Err(shelf.fail(problems)) }
    }

    fn aim(&self, formula: &Formula, shelf: &Shelf) -> Result<Option<Objective>, Failure> {
        let (option, words, most) = match (&self.most, &self.least) {
            (Some(words), _) => ("--most", words, true),
            (None, Some(words)) => ("--least", words, false),
            (None, None) => return Ok(None),
        };
        if words.trim() == "pieces" {
            return if self.piece(formula).is_some() {
                Ok(Some(Objective { figure: NamedFigure::Dough, maximize: most }))
            } else {
                Err(Failure::usage(format!("`{}` does not say what a piece weighs", formula.name))
                    .help("write a line such as `make 24 pieces of 920 g`, or ask for `dough`"))
            };
        }
        Ok(Some(Objective { figure: ask(option, words, formula, shelf)?, maximize: most }))
    }

    /// What a piece weighs, where pieces are aimed at.
    fn piece(&self, formula: &Formula) -> Option<ResolvedMake> {
        let make = formula.make.as_ref().filter(|make| matches!(make.size, ResolvedMakeSize::Pieces(..)))?;
        self.aims_at_pieces().then(|| make.clone())
    }

    fn aims_at_pieces(&self) -> bool {
        self.most.iter().chain(&self.least).any(|words| words.trim() == "pieces")
    }
}

/// The figure that words name.
fn ask(option: &str, words: &str, formula: &Formula, shelf: &Shelf) -> Result<NamedFigure, Failure> {
    NamedFigure::read(words, formula, shelf.book.pantry()).map_err(|problem| {
        let failure = Failure::usage(format!("`{option} {words}`: {}", problem.message));
        problem.help.into_iter().fold(failure, Failure::help)
    })
}

/// The dough with as many whole pieces as there is dough for.
fn in_whole_pieces(
    formula: &Formula,
    make: ResolvedMake,
    balance: &Balance,
    aim: Objective,
) -> Result<Formula, Failure> {
    let ResolvedMakeSize::Pieces(_, piece) = make.size else { return Ok(formula.clone()) };
    let dough = formula.loss.rest().of(&balance.batch().mass(&balance.weight));
    let exact = dough.grams() / piece.grams();
    let whole = if aim.maximize { exact.floor() } else { -(-exact).floor() };
    let count = whole.to_i64().and_then(|count| u64::try_from(count).ok()).filter(|count| *count > 0);
    let Some(count) = count else {
        let short = Mass::from_grams(piece.grams() - dough.grams());
        let short = short.grams().to_fixed(1);
        return Err(Failure::problem(Problem::error(
            "no-piece",
            format!("there is not dough enough for one piece of `{}`: {short} g are missing", formula.name),
        )));
    };
    Ok(Formula {
        make: Some(ResolvedMake { size: ResolvedMakeSize::Pieces(count, piece), ..make }),
        ..formula.clone()
    })
}

/// Lets the count of pieces that an aim came to be said by the option that asked for it, and not by the file's line.
fn name_pieces(shelf: &mut Shelf, mut held: Formula, most: bool) -> Formula {
    let Some(ResolvedMake { size: ResolvedMakeSize::Pieces(count, piece), place, .. }) = &mut held.make
    else {
        return held;
    };
    let words = format!("{count} pieces of {} g", piece.grams());
    let text = TextId(FIRST_TEXT - 1);
    *place = Place { text, span: Span::new(0, u32::try_from(words.len()).unwrap_or(u32::MAX)) };
    shelf.texts.add(text, if most { "--most pieces" } else { "--least pieces" }.to_owned(), words);
    held
}
