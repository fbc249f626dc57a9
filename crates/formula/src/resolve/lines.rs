//! What a line weighs: an ingredient, another stage, the seed of a culture, a piece of a dough.

use levamen_language::{
    AmountKind, From, Kind, Name, Place, Problem, SeedFate, SeedSource, Span, Weigh, nearest,
};
use levamen_quantity::Exact;

use super::amounts::Within;
use super::{Resolver, shared};
use crate::formula::Role;
use crate::ingredient::key;
use crate::nearest::{nearest_names, otherwise, suggest};
use crate::stage::StageKind;
use crate::stage::{Item, WeighedLine};

impl<'t> Resolver<'_, 't> {
    /// `NAME AMOUNT`
    pub(super) fn weigh(&mut self, within: Within, weigh: &Weigh<'t>) -> Option<WeighedLine> {
        let item = self.weighed(weigh.name)?;
        if within == Within::Overall && matches!(item, Item::Stage(_)) {
            let problem = self.stage_in_overall(weigh, item);
            self.report(problem);
            return None;
        }
        let amount = self.line_amount(within, weigh.name, item, &weigh.amount)?;
        // Without the comment after it.
        let place = self.place(weigh.name.span.to(weigh.amount.span));
        let when = weigh.when.map(|when| shared(&when.spaced()));
        Some(WeighedLine { name: shared(weigh.name.text), item, amount: Some(amount), when, place })
    }

    /// A stage of this formula by its name, and otherwise an ingredient.
    fn weighed(&mut self, name: Name<'t>) -> Option<Item> {
        if let Some(&stage) = self.stage_ids.get(key(name.text).as_ref()) {
            return Some(Item::Stage(stage));
        }
        if let Some(ingredient) = self.directory.ingredient(name.text) {
            return Some(Item::Ingredient(ingredient));
        }
        let problem = self.unknown_ingredient(name);
        self.report(problem);
        None
    }

    fn unknown_ingredient(&self, name: Name<'t>) -> Problem {
        let problem = Problem::error("unknown-ingredient", format!("`{}` is not in the pantry", name.text))
            .at(self.place(name.span), "nobody has said what this is made of");
        if self.directory.find(name.text).is_some() {
            return problem.help(format!(
                "the book has a culture or a dough of that name: write `from {}` and how much",
                name.text
            ));
        }
        if Kind::ALL.into_iter().any(|kind| kind.name() == key(name.text)) {
            return problem
                .help(format!("write what goes into it under a heading of its own: `stage {}`", name.text))
                .help("or, of a culture or a dough that the book has, `from` and its name");
        }
        let stages = self.draft.stages.iter().map(|stage| stage.heading.name.text);
        let close = nearest_names(name.text, self.directory.whole_pantry().names().chain(stages));
        let way = format!(
            "say what it is made of: `ingredient {}` and under it `flour`, or `holds 80 % water` and the like",
            name.text
        );
        otherwise(suggest(problem, &close), &way)
    }

    /// `from SOURCE AMOUNT`
    pub(super) fn from(&mut self, within: Within, from: &From<'t>, span: Span) -> Option<WeighedLine> {
        let (name, item) = self.origin(from)?;
        if let (Item::Seed(_, SeedFate::GivenBack), Within::Stage(StageKind::FinalDough)) = (item, within) {
            let place = self.place(from.seed.map_or(span, |(_, words)| words));
            let problem = self.nothing_to_give_back(place);
            self.report(problem);
            return None;
        }
        let amount = match &from.amount {
            Some(amount) => Some(self.line_amount(within, name, item, amount)?),
            None => None,
        };
        Some(WeighedLine { name: shared(name.text), item, amount, when: None, place: self.place(span) })
    }

    fn nothing_to_give_back(&self, place: Place) -> Problem {
        if self.draft.is_culture {
            return Problem::error("nothing-to-give-back", "nothing can be given back from a culture")
                .at(place, "this seed becomes part of the culture")
                .help("leave out `given back`");
        }
        Problem::error("nothing-to-give-back", "nothing can be given back from the final dough")
            .at(place, "this culture goes straight into the final dough")
            .help("build a stage from it, and let the stage give it back")
            .help("or leave out `given back`: the culture then counts in the whole")
    }

    fn origin(&mut self, from: &From<'t>) -> Option<(Name<'t>, Item)> {
        let name = match from.source {
            SeedSource::Named(name) => name,
            SeedSource::ThisDough(span) => return Some((Name { text: "this dough", span }, Item::OwnPiece)),
        };
        let Some((id, role)) = self.directory.find(name.text) else {
            let problem = self.unknown_source(name);
            self.report(problem);
            return None;
        };
        if key(name.text) == key(self.draft.name.text) {
            return Some((name, Item::OwnPiece));
        }
        let fate = from.seed.map(|(fate, _)| fate);
        match role {
            Role::Culture => Some((name, Item::Seed(id, fate.unwrap_or(SeedFate::Stays)))),
            Role::Dough if fate == Some(SeedFate::GivenBack) => {
                self.report(
                    Problem::error(
                        "nothing-to-give-back",
                        format!("`{}` is a dough, not a culture", name.text),
                    )
                    .at(self.place(name.span), "old dough stays in the dough")
                    .help("leave out `given back`"),
                );
                None
            }
            Role::Dough => Some((name, Item::Piece(id))),
        }
    }

    fn unknown_source(&self, name: Name<'t>) -> Problem {
        let message = format!("the book has no culture and no dough called `{}`", name.text);
        let problem = Problem::error("unknown-source", message).at(self.place(name.span), "not in the book");
        if self.stage_ids.contains_key(key(name.text).as_ref()) {
            return problem.help(format!(
                "`{0}` is a stage of this dough: write `{0}` and how much, without `from`",
                name.text
            ));
        }
        let problem = suggest(problem, &nearest(name.text, self.directory.formula_names()));
        otherwise(problem, &format!("declare it: `culture {}` and under it what it is fed with", name.text))
    }

    /// The water that a stated hydration needs and the section does not list.
    pub(super) fn water_line(&mut self, lines: &[WeighedLine], span: Span) -> Option<WeighedLine> {
        let is_water = |item: &Item| match item {
            Item::Ingredient(id) => self.directory.pantry.get(*id).is_some_and(crate::Ingredient::is_water),
            _ => false,
        };
        if lines.iter().any(|line| is_water(&line.item)) {
            return None;
        }
        let water = self.directory.ingredient("water")?;
        Some(WeighedLine {
            name: shared("water"),
            item: Item::Ingredient(water),
            amount: None,
            when: None,
            place: self.place(span),
        })
    }

    /// A bare share of a stage: refused, with the three meanings that it can have and how to write each.
    pub(super) fn bare_share(&self, name: Name<'t>, item: Item, percent: &Exact, span: Span) -> Problem {
        let (name, share) = (name.text, format!("{percent} %"));
        let (line, its_own) = match item {
            Item::Stage(_) => {
                (name.to_owned(), format!("in the stage `{name}`, write `takes {share} of the flour`"))
            }
            _ => (
                format!("from {name}"),
                format!("make a stage of it, with `takes {share} of the flour` and `from {name}`"),
            ),
        };
        Problem::error("bare-share", format!("`{line} {share}` can mean three things"))
            .at(self.place(span), "of which flour, and by what?")
            .help(format!("its flour is {share} of all the flour: {its_own}"))
            .help(format!("it weighs {share} of all the flour: write `{line} {share} of the flour`, not in `overall`"))
            .help(format!(
                "it weighs {share} of the flour weighed with it: write `{line} {share} of its flour`, not in `overall`"
            ))
    }

    /// A stage in `overall`, where only ingredients are listed.
    fn stage_in_overall(&self, weigh: &Weigh<'t>, item: Item) -> Problem {
        if let AmountKind::Percent { percent, .. } = &weigh.amount.kind {
            return self.bare_share(weigh.name, item, percent, weigh.amount.span);
        }
        let name = weigh.name.text;
        Problem::error("stage-in-overall", format!("`{name}` is a stage, and `overall` lists ingredients"))
            .at(self.place(weigh.name.span), "its flour and water are already in the other lines")
            .help(format!("write how much of `{name}` is taken in `final dough`, or `weighs` in the stage"))
    }
}
