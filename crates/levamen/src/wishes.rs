//! A dough as it should be, instead of as its file says: wants, released figures, the most and the least.

use levamen_balance::{Balance, Objective};
use levamen_formula::{Formula, FormulaId, NamedFigure, ResolvedMake, ResolvedMakeSize, Want};
use levamen_language::{AskedField, Hint, Place, Problem, Span, TextId, Texts, read_fact};
use levamen_quantity::Mass;

use crate::error::{Error, Field, QuestionError};
use crate::workspace::Workspace;

/// The first id of texts that stand in a question and in no file.
const FIRST_TEXT: u32 = u32::MAX / 2;

/// Figures that a dough should have, instead of what its file says. Figures and amounts are in the words of the dough texts.
#[derive(Debug, Clone, Default)]
pub struct Wishes {
    /// Figures that the dough must have, such as `hydration 78 %`.
    pub want: Vec<String>,
    /// Figures that need not be what the file says, such as `flour of levain`.
    pub free: Vec<String>,
    /// The figure of which there shall be most or least, if any.
    pub extreme: Option<Extreme>,
    /// What the edge calls its fields for them.
    pub called: WishNames,
}

/// What a reader knows the words of wishes by, where a problem or a reason points at them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WishNames {
    /// A figure that is wanted.
    pub want: &'static str,
    /// The figure of which there shall be most.
    pub most: &'static str,
    /// The figure of which there shall be least.
    pub least: &'static str,
}

impl Default for WishNames {
    fn default() -> Self {
        Self { want: "want", most: "most", least: "least" }
    }
}

/// A figure of which there shall be most or least.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Extreme {
    /// The figure, such as `pieces` or `dough`.
    pub figure: String,
    /// Whether it is the most, and otherwise the least.
    pub most: bool,
}

/// A dough as it should be.
struct Wished {
    formula: Formula,
    aim: Option<Objective>,
    /// What is made, where pieces are aimed at.
    pieces: Option<ResolvedMake>,
}

/// A formula that says itself what was wished for, and the texts that its lines are in.
pub(crate) struct Held {
    pub formula: Formula,
    pub texts: Texts,
}

impl Wishes {
    /// Whether nothing is wished for.
    #[must_use]
    pub fn are_none(&self) -> bool {
        self.want.is_empty() && self.free.is_empty() && self.extreme.is_none()
    }

    /// The balance of a dough with these wishes.
    pub(crate) fn balance(&self, workspace: &Workspace, id: FormulaId) -> Result<Balance, Error> {
        let (Wished { formula, aim, pieces }, texts) = self.wished(workspace, id)?;
        let fail = |problems| Error::Problems { problems, texts: texts.clone() };
        workspace.with_balancer(|balancer| {
            let balance = balancer.balance_as(&formula, aim).map_err(fail)?;
            match (pieces, aim) {
                (Some(make), Some(aim)) => {
                    let formula = in_whole_pieces(&formula, make, &balance, aim)?;
                    let aim = Objective { figure: NamedFigure::Dough, ..aim };
                    balancer.balance_as(&formula, Some(aim)).map_err(fail)
                }
                _ => Ok(balance),
            }
        })
    }

    /// The dough as lines that say what it would be with these wishes, so that it can be explained.
    ///
    /// # Errors
    /// A wish that cannot be read, or that the dough cannot fulfil; an aim that no bound stops.
    pub(crate) fn held(&self, workspace: &Workspace, id: FormulaId) -> Result<Held, Error> {
        let (Wished { formula, aim, pieces }, mut texts) = self.wished(workspace, id)?;
        let (Some(aim), Some(Extreme { figure, .. })) = (aim, &self.extreme) else {
            return Ok(Held { formula, texts });
        };
        let fail = |problems| Error::Problems { problems, texts: texts.clone() };
        let held = workspace.with_balancer(|balancer| {
            let held = match pieces {
                Some(make) => {
                    let balance = balancer.balance_as(&formula, Some(aim)).map_err(fail)?;
                    in_whole_pieces(&formula, make, &balance, aim)?
                }
                None => balancer.with_binding_bounds(&formula, aim).map_err(fail)?,
            };
            if balancer.balance_as(&held, None).is_ok() {
                return Ok(held);
            }
            Err(Error::from(QuestionError::NoSingleReason { words: figure.clone() }))
        });
        let mut held = held?;
        if self.aims_at_pieces() {
            let called = if aim.maximize { self.called.most } else { self.called.least };
            name_pieces(&mut texts, &mut held, format!("{called} pieces"));
        }
        Ok(Held { formula: held, texts })
    }

    /// The dough with what is wished for in the place of its own lines, and what it should have most or least of; and the texts
    /// of the book and of the wishes.
    fn wished(&self, workspace: &Workspace, id: FormulaId) -> Result<(Wished, Texts), Error> {
        let Some(entry) = workspace.book().entry(id) else {
            return Err(Error::internal("a wish for a dough that the book has not"));
        };
        let Some(mut formula) = entry.formula.clone() else {
            return Err(workspace.fail(entry.problems.clone()));
        };
        let pantry = workspace.book().pantry();
        let aim = self.aim(&formula, workspace)?;
        let pieces = self.piece(&formula);
        for figure in &self.free {
            let asked = ask(Field::Free, figure, &formula, workspace)?;
            if !formula.release(asked, pantry) {
                let (dough, words) = (formula.name.to_string(), figure.clone());
                return Err(QuestionError::NothingToRelease { dough, words }.into());
            }
        }
        if let Some(aim) = aim {
            formula.release(aim.figure, pantry);
        }
        let mut texts = workspace.texts().clone();
        for want in self.wants(&formula, workspace, &mut texts)? {
            formula.want(want, pantry);
        }
        Ok((Wished { formula, aim, pieces }, texts))
    }

    fn wants(&self, formula: &Formula, workspace: &Workspace, texts: &mut Texts) -> Result<Vec<Want>, Error> {
        let mut wants = Vec::new();
        let mut problems = Vec::new();
        for (id, text) in (FIRST_TEXT..).map(TextId).zip(&self.want) {
            texts.add_asked(id, self.called.want.to_owned(), text.as_str());
            let whole = Span::new(0, u32::try_from(text.len()).unwrap_or(u32::MAX));
            let at = Place { text: id, span: whole };
            if let Some(count) = text.trim().strip_prefix("pieces ") {
                problems.push(pieces_are_counted(count).at(at, ""));
                continue;
            }
            let read = read_fact(id, text).map_err(Box::new);
            match read.and_then(|fact| Want::read(&fact, id, whole, formula, workspace.book().pantry())) {
                Ok(Some(want)) => wants.push(want),
                Ok(None) => problems.push(
                    Problem::error("not-a-figure", format!("`{text}` names no figure and how much"))
                        .at(at, "")
                        .help("write a figure and an amount, such as `hydration 78 %`"),
                ),
                Err(problem) => problems.push(*problem),
            }
        }
        if problems.is_empty() { Ok(wants) } else { Err(Error::Problems { problems, texts: texts.clone() }) }
    }

    fn aim(&self, formula: &Formula, workspace: &Workspace) -> Result<Option<Objective>, Error> {
        let Some(Extreme { figure, most }) = &self.extreme else { return Ok(None) };
        if figure.trim() == "pieces" {
            return if self.piece(formula).is_some() {
                Ok(Some(Objective { figure: NamedFigure::Dough, maximize: *most }))
            } else {
                Err(QuestionError::NoPieceToAimAt { dough: formula.name.to_string() }.into())
            };
        }
        let field = if *most { Field::Most } else { Field::Least };
        Ok(Some(Objective { figure: ask(field, figure, formula, workspace)?, maximize: *most }))
    }

    /// What a piece weighs, where pieces are aimed at.
    fn piece(&self, formula: &Formula) -> Option<ResolvedMake> {
        let make = formula.make.as_ref().filter(|make| matches!(make.size, ResolvedMakeSize::Pieces(..)))?;
        self.aims_at_pieces().then(|| make.clone())
    }

    fn aims_at_pieces(&self) -> bool {
        self.extreme.as_ref().is_some_and(|extreme| extreme.figure.trim() == "pieces")
    }
}

fn pieces_are_counted(count: &str) -> Problem {
    Problem::error("not-a-figure", "pieces are counted, and no figure of the formula")
        .help(Hint::of_field(
            "write `",
            AskedField::Pieces,
            format!(" {}` with `levamen scale` or `levamen sheet`", count.trim()),
        ))
        .help(Hint::of_field("or `", AskedField::Most, " pieces`, for as many as there is dough for"))
}

/// The figure that words name.
pub(crate) fn ask(
    field: Field,
    words: &str,
    formula: &Formula,
    workspace: &Workspace,
) -> Result<NamedFigure, Error> {
    NamedFigure::read(words, formula, workspace.book().pantry()).map_err(|problem| {
        let Problem { message, help, .. } = *problem;
        QuestionError::Figure { field, words: words.to_owned(), message, help }.into()
    })
}

/// The dough with as many whole pieces as there is dough for.
fn in_whole_pieces(
    formula: &Formula,
    make: ResolvedMake,
    balance: &Balance,
    aim: Objective,
) -> Result<Formula, Error> {
    let ResolvedMakeSize::Pieces(_, piece) = make.size else { return Ok(formula.clone()) };
    let dough = formula.loss.rest().of(&balance.batch().mass(&balance.weight));
    let exact = dough.grams() / piece.grams();
    let whole = if aim.maximize { exact.floor() } else { -(-exact).floor() };
    let count = whole.to_i64().and_then(|count| u64::try_from(count).ok()).filter(|count| *count > 0);
    let Some(count) = count else {
        let short = Mass::from_grams(piece.grams() - dough.grams());
        let short = short.grams().to_fixed(1);
        return Err(Error::problem(Problem::error(
            "no-piece",
            format!("there is not dough enough for one piece of `{}`: {short} g are missing", formula.name),
        )));
    };
    Ok(Formula {
        make: Some(ResolvedMake { size: ResolvedMakeSize::Pieces(count, piece), ..make }),
        ..formula.clone()
    })
}

/// Lets the count of pieces that an aim came to be said by the wish that asked for it, and not by the file's line.
fn name_pieces(texts: &mut Texts, held: &mut Formula, name: String) {
    let Some(ResolvedMake { size: ResolvedMakeSize::Pieces(count, piece), place, .. }) = &mut held.make
    else {
        return;
    };
    let words = format!("{count} pieces of {} g", piece.grams());
    let text = TextId(FIRST_TEXT - 1);
    *place = Place { text, span: Span::new(0, u32::try_from(words.len()).unwrap_or(u32::MAX)) };
    texts.add_asked(text, name, words);
}
