//! Figures that a dough must have: from the `want` section, or from a command line.

use levamen_language::{
    Amount as Written, AmountKind, Basis as WrittenBasis, BasisScope, Place, Problem, Span, Statement, TextId,
};
use levamen_quantity::Share;

use super::Resolver;
use crate::formula::Formula;
use crate::pantry::Pantry;
use crate::stage::{Item, ResolvedBasis};
use crate::want::NamedFigure;
use crate::want::{Relation, Want, WantValue};

impl Resolver<'_, '_> {
    /// Reads the `want` section of a formula that is otherwise whole.
    pub(super) fn wants(&mut self, formula: &mut Formula) {
        let draft = self.draft;
        for line in &draft.wants {
            match Want::read(&line.statement, draft.text, line.span, formula, self.directory.whole_pantry()) {
                Ok(Some(want)) => formula.want(want, self.directory.pantry),
                Ok(None) => {}
                Err(problem) => self.report(*problem),
            }
        }
    }
}

impl Want {
    /// What a line wants: `FIGURE AMOUNT`, also with `at most` or `at least` before the amount. `None` of a note.
    ///
    /// # Errors
    /// A figure that the dough does not have, or an amount that it cannot be compared with.
    pub fn read(
        statement: &Statement<'_>,
        text: TextId,
        line: Span,
        formula: &Formula,
        pantry: &Pantry,
    ) -> Result<Option<Self>, Box<Problem>> {
        let (words, span, amount) = match statement {
            Statement::Weigh(weigh) => (weigh.name.text, weigh.name.span, &weigh.amount),
            Statement::Hydration(amount) => ("hydration", line, amount),
            _ => return Ok(None),
        };
        let (name, relation) = relation(words);
        let place = |span| Place { text, span };
        let named = |problem: Box<Problem>| Box::new(problem.at(place(span), "which figure?"));
        let figure = NamedFigure::read(name, formula, pantry).map_err(named)?;
        let limit = limit(amount, figure, formula, pantry)
            .map_err(|problem| Box::new(problem.at(place(amount.span), "how much, and of what?")))?;
        let words = format!("{words} {}", written(amount));
        Ok(Some(Self { figure, relation, limit, words: words.into(), place: place(line) }))
    }
}

/// An amount in words.
fn written(amount: &Written<'_>) -> String {
    match &amount.kind {
        AmountKind::Percent { percent, of: None } => format!("{percent} %"),
        AmountKind::Percent { percent, of: Some(of) } => {
            let article = if of.reach == BasisScope::Dough { "the" } else { "its" };
            format!("{percent} % of {article} {}", of.name.text)
        }
        AmountKind::Mass(quantity) => format!("{} {}", quantity.figure, quantity.unit.symbol()),
        AmountKind::Volume { figure, unit, .. } => format!("{figure} {}", unit.symbol()),
        AmountKind::Rest => "rest".to_owned(),
    }
}

/// Takes `at most` or `at least` from the end of a figure's name.
fn relation(words: &str) -> (&str, Relation) {
    let ends = [("at most", Relation::AtMost), ("at least", Relation::AtLeast)];
    let found =
        ends.into_iter().find_map(|(end, relation)| Some((words.strip_suffix(end)?.trim_end(), relation)));
    found.unwrap_or((words, Relation::Exactly))
}

/// How much is wanted.
fn limit(
    amount: &Written<'_>,
    figure: NamedFigure,
    formula: &Formula,
    pantry: &Pantry,
) -> Result<WantValue, Problem> {
    let is_ratio = matches!(
        figure,
        NamedFigure::Hydration(_)
            | NamedFigure::EffectiveHydration
            | NamedFigure::DoughYield
            | NamedFigure::Salt
            | NamedFigure::PrefermentedFlour(_)
    );
    match &amount.kind {
        AmountKind::Percent { percent, of: None } if needs_basis(figure, formula) => Err(Problem::error(
            "bare-share",
            format!("`{}` at {percent} % can mean more than one thing", figure.name(formula, pantry)),
        )
        .help(format!("of all the flour: write `{percent} % of the flour`"))
        .help(format!("of the flour weighed with it: write `{percent} % of its flour`"))
        .help("the flour that the dough gets through a stage is `flour of` and the stage's name")),
        AmountKind::Percent { percent, of: None } => {
            Ok(WantValue::Share(Share::from_percent(percent.clone()), None))
        }
        AmountKind::Percent { percent, of: Some(of) } => {
            Ok(WantValue::Share(Share::from_percent(percent.clone()), Some(basis(of, figure, pantry)?)))
        }
        AmountKind::Mass(quantity) if !is_ratio => Ok(WantValue::Mass(quantity.mass.clone())),
        AmountKind::Mass(_) => {
            Err(Problem::error("not-a-weight", "this figure is a percentage, not a weight")
                .help("write a percentage, such as 78 %"))
        }
        AmountKind::Volume { volume, .. } => match figure {
            NamedFigure::Row(id) => {
                let density = pantry.get(id).and_then(|known| known.density.as_ref());
                let weighed = density.map(|density| WantValue::Mass(volume.weighs(density)));
                weighed
                    .ok_or_else(|| Problem::error("no-density", "nobody has said what a litre of it weighs"))
            }
            _ => Err(Problem::error("volume-of-dough", "this figure is a weight, not a volume")
                .help("write a mass")),
        },
        AmountKind::Rest => Err(Problem::error("want-of-rest", "`rest` wants nothing")
            .help("to let the balance choose a figure, write `rest` for it where the dough states it")),
    }
}

/// Whether a bare percentage of a figure could be misread: of the weight of a stage or a piece of dough.
fn needs_basis(figure: NamedFigure, formula: &Formula) -> bool {
    match figure {
        NamedFigure::Taken(_)
        | NamedFigure::Made(_)
        | NamedFigure::LeftOver(_)
        | NamedFigure::GivenBack(_)
        | NamedFigure::Steam(_) => true,
        NamedFigure::Line(id, line) => {
            let line = formula.stage(id).and_then(|stage| stage.lines.get(line as usize));
            line.is_some_and(|line| matches!(line.item, Item::Stage(_) | Item::Piece(_) | Item::OwnPiece))
        }
        _ => false,
    }
}

fn basis(of: &WrittenBasis<'_>, figure: NamedFigure, pantry: &Pantry) -> Result<ResolvedBasis, Problem> {
    let own = of.reach == BasisScope::Stage;
    if own && figure.stage().is_none() {
        return Err(Problem::error(
            "its-outside-a-stage",
            format!("`of its {}` is said of a stage", of.name.text),
        )
        .help(format!("write `of the {}`", of.name.text)));
    }
    match (of.name.text, own) {
        ("flour", false) => Ok(ResolvedBasis::Flour),
        ("flour", true) => Ok(ResolvedBasis::OwnFlour),
        ("dough", false) => Ok(ResolvedBasis::Dough),
        (name, own) => {
            let found = pantry
                .find(name)
                .map(|id| if own { ResolvedBasis::OwnCell(id) } else { ResolvedBasis::Row(id) });
            found.ok_or_else(|| Problem::error("unknown-basis", format!("nothing is called `{name}`")))
        }
    }
}
