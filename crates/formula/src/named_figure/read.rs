//! From words to a figure.

use levamen_language::{Problem, nearest};

use super::Word;
use crate::formula::Formula;
use crate::ingredient::{IngredientId, key};
use crate::nearest::suggest;
use crate::pantry::Pantry;
use crate::stage::{Item, Stage, StageId, WeighedLine};
use crate::want::NamedFigure;

/// How a stage is joined to what is asked of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Joint {
    /// What is weighed into it.
    In,
    /// What it is, and what becomes of it.
    Of,
}

/// Reads names of figures of one dough.
pub(super) struct FigureReader<'r> {
    pub formula: &'r Formula,
    pub pantry: &'r Pantry,
}

impl FigureReader<'_> {
    pub(super) fn read(&self, words: &str) -> Result<NamedFigure, Box<Problem>> {
        let folded = key(words);
        let figure = without_article(&folded);
        if let Some(figure) = self.whole(figure) {
            return Ok(figure);
        }
        let mut missing = None;
        for (what, joint, stage) in halves(figure) {
            let Some((id, stage)) = self.stage(without_article(stage)) else { continue };
            match self.part(without_article(what), joint, id, stage) {
                Some(figure) => return Ok(figure),
                None => missing = missing.or_else(|| Some(self.not_inside(words, id, stage))),
            }
        }
        Err(Box::new(missing.unwrap_or_else(|| self.unknown(words))))
    }

    /// A name without a stage.
    fn whole(&self, words: &str) -> Option<NamedFigure> {
        let figure = Word::find(words).and_then(|word| match word {
            Word::Hydration => Some(NamedFigure::Hydration(None)),
            Word::EffectiveHydration => Some(NamedFigure::EffectiveHydration),
            Word::DoughYield => Some(NamedFigure::DoughYield),
            Word::Salt => Some(NamedFigure::Salt),
            Word::PrefermentedFlour => Some(NamedFigure::PrefermentedFlour(None)),
            Word::Flour => Some(NamedFigure::Flour(None)),
            Word::Water => Some(NamedFigure::Water(None)),
            Word::Dough | Word::Weight => Some(NamedFigure::Dough),
            Word::ToDivide => Some(NamedFigure::ToDivide),
            Word::Made | Word::Seed | Word::GivenBack | Word::LeftOver | Word::Steam => None,
        });
        let stage = || self.stage(words).map(|(id, _)| NamedFigure::Taken(id));
        let row = || self.pantry.find(words).filter(|id| self.may_hold(*id)).map(NamedFigure::Row);
        figure.or_else(stage).or_else(row)
    }

    /// Whether an ingredient is listed, or may come with a seed or a piece of dough.
    fn may_hold(&self, id: IngredientId) -> bool {
        super::lines(self.formula).any(|line| match line.item {
            Item::Ingredient(own) => own == id,
            Item::Seed(..) | Item::Piece(_) => true,
            Item::Stage(_) | Item::OwnPiece => false,
        })
    }

    fn stage(&self, words: &str) -> Option<(StageId, &Stage)> {
        self.formula.stages().find(|(_, stage)| key(&stage.name) == words)
    }

    /// A figure of one stage.
    fn part(&self, what: &str, joint: Joint, id: StageId, stage: &Stage) -> Option<NamedFigure> {
        let line = || line(what, id, stage);
        let word = || self.word(what, joint, id, stage);
        match joint {
            Joint::In => line().or_else(word),
            Joint::Of => word().or_else(line),
        }
    }

    fn word(&self, what: &str, joint: Joint, id: StageId, stage: &Stage) -> Option<NamedFigure> {
        let has_seed = || stage.lines.iter().any(|line| matches!(line.item, Item::Seed(..)));
        Some(match (Word::find(what)?, joint) {
            (Word::Hydration, _) => NamedFigure::Hydration(Some(id)),
            (Word::PrefermentedFlour, _) => NamedFigure::PrefermentedFlour(Some(id)),
            (Word::Flour, Joint::Of) => NamedFigure::Flour(Some(id)),
            (Word::Flour, Joint::In) => NamedFigure::OwnFlour(id),
            (Word::Water, _) => NamedFigure::Water(Some(id)),
            (Word::Weight, Joint::Of) => NamedFigure::Taken(id),
            (Word::Made, Joint::Of) => NamedFigure::Made(id),
            (Word::Seed, _) if has_seed() => NamedFigure::Seed(id),
            (Word::GivenBack, Joint::Of) if super::gives_back(self.formula) => NamedFigure::GivenBack(id),
            (Word::LeftOver, Joint::Of) if stage.left_over.is_some() => NamedFigure::LeftOver(id),
            (Word::Steam, Joint::Of) if stage.steam.is_some() => NamedFigure::Steam(id),
            _ => return None,
        })
    }

    /// The stage is there, and has no such figure.
    fn not_inside(&self, words: &str, id: StageId, stage: &Stage) -> Problem {
        let own = NamedFigure::all(self.formula).into_iter().filter(|figure| figure.stage() == Some(id));
        let own: Vec<String> =
            own.map(|figure| format!("`{}`", figure.name(self.formula, self.pantry))).collect();
        self.no_such_figure(words).help(format!("the figures of `{}` are {}", stage.name, own.join(", ")))
    }

    /// Nothing has that name.
    fn unknown(&self, words: &str) -> Problem {
        self.no_such_figure(words)
            .help(format!("the figures of the whole dough are {}", Word::of_whole().join(", ")))
            .help("an ingredient or a stage is asked for by its name")
            .help("and a figure of a stage as `water in poolish`, `hydration of poolish`, `seed of levain`")
    }

    fn no_such_figure(&self, words: &str) -> Problem {
        let all = NamedFigure::all(self.formula);
        let names: Vec<String> = all.iter().map(|figure| figure.name(self.formula, self.pantry)).collect();
        let close = nearest(words, names.iter().map(String::as_str));
        let message = format!("`{}` has no figure called `{words}`", self.formula.name);
        suggest(Problem::error("unknown-figure", message), &close)
    }
}

/// The line of a name; of one that goes in at several times all of its lines.
fn line(name: &str, id: StageId, stage: &Stage) -> Option<NamedFigure> {
    let is_named = |line: &WeighedLine| key(&line.name) == name || key(&line.full_name()) == name;
    let (index, line) = (0..).zip(&stage.lines).find(|(_, line)| is_named(line))?;
    // A name alone is all that goes in of it.
    let divided =
        line.item.ingredient().filter(|id| stage.split_ingredients.contains(id) && key(&line.name) == name);
    Some(divided.map_or(NamedFigure::Line(id, index), |ingredient| NamedFigure::Cell(id, ingredient)))
}

fn without_article(words: &str) -> &str {
    words.strip_prefix("the ").unwrap_or(words)
}

/// Every way to part words at an `in` or an `of`.
fn halves(words: &str) -> impl Iterator<Item = (&str, Joint, &str)> {
    let joints = [(" in ", Joint::In), (" of ", Joint::Of)];
    joints.into_iter().flat_map(move |(word, joint)| {
        words
            .match_indices(word)
            .filter_map(move |(at, _)| Some((words.get(..at)?, joint, words.get(at + word.len()..)?)))
    })
}

#[cfg(test)]
mod tests {
    use levamen_language::{Problem, TextId};

    use crate::{Book, Formula, NamedFigure, Pantry};

    const DOUGH: &str = "
culture rye culture
  rye flour  100 %
  water      100 %

dough Country loaf

overall
  white flour  90 %
  rye flour    10 %
  water        72 %
  salt          2 %

stage night of rye, a levain
  takes            8 % of the flour
  rye flour      100 %
  water           90 %
  from rye culture  20 %, given back
";

    /// What a function says of the dough.
    fn with_dough<T>(ask: impl Fn(&Formula, &Pantry) -> T) -> T {
        let (book, problems) = Book::read(&[&[(TextId(0), DOUGH)]]);
        assert_eq!(problems, []);
        let id = book.find("country loaf").unwrap();
        ask(book.entry(id).unwrap().formula.as_ref().unwrap(), book.pantry())
    }

    fn problem(words: &str) -> Problem {
        *with_dough(|formula, pantry| NamedFigure::read(words, formula, pantry)).unwrap_err()
    }

    /// The proper name of what words ask for.
    fn named(words: &str) -> String {
        with_dough(|formula, pantry| NamedFigure::read(words, formula, pantry).unwrap().name(formula, pantry))
    }

    #[test]
    fn every_figure_is_found_by_its_name() {
        with_dough(|formula, pantry| {
            let all = NamedFigure::all(formula);
            assert!(all.len() > 30);
            for figure in all {
                let name = figure.name(formula, pantry);
                let read = NamedFigure::read(&name, formula, pantry).unwrap();
                assert_eq!(read.name(formula, pantry), name);
            }
        });
    }

    #[test]
    fn articles_capitals_and_space_do_not_count() {
        assert_eq!(named("The Hydration  of the Night of Rye"), "hydration of night of rye");
        assert_eq!(named("the flour"), "flour");
        assert_eq!(named("Rye flour"), "rye flour");
    }

    #[test]
    fn of_a_stage_and_in_a_stage() {
        assert_eq!(named("flour of night of rye"), "flour of night of rye");
        assert_eq!(named("flour in night of rye"), "flour in night of rye");
        assert_eq!(named("water of night of rye"), "water of night of rye");
        assert_eq!(named("water in night of rye"), "water in night of rye");
        assert_eq!(named("rye flour of night of rye"), "rye flour in night of rye");
        assert_eq!(named("night of rye in final dough"), "night of rye in final dough");
        assert_eq!(named("weight of night of rye"), "night of rye");
    }

    #[test]
    fn what_the_dough_has_not_is_refused_with_what_it_has() {
        let told = ["hidration", "left over of night of rye", "quality"].map(|words| {
            let problem = problem(words);
            format!(
                "{}\n  {}\n",
                problem.message,
                problem.help.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n  ")
            )
        });
        insta::assert_snapshot!(told.concat());
    }
}
