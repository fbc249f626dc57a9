//! What no balance could mend, found before one is tried.

use levamen_language::{Problem, SeedFate};
use levamen_quantity::{Exact, Share};
use rustc_hash::FxHashSet;

use super::{Resolver, percent_sum};
use crate::IngredientId;
use crate::formula::{Formula, Role};
use crate::nearest::{nearest_names, otherwise, suggest};
use crate::stage::{Item, LeftOver, Measure, ResolvedAmount, ResolvedBasis, Stage, WeighedLine};

impl Resolver<'_, '_> {
    /// Checks a formula. What may be missing only because a line was not understood is not reported: `is_whole`
    /// says that all were.
    pub(super) fn check(&mut self, formula: &Formula, is_whole: bool) {
        if is_whole {
            self.check_flour(formula);
        }
        if let Some(overall) = &formula.overall {
            self.check_hundred("overall", &overall.lines, ResolvedBasis::Flour);
            if is_whole {
                self.check_listed(formula, &overall.lines);
            }
            for amount in overall.lines.iter().filter_map(|line| line.amount.as_ref()) {
                self.check_row(formula, amount);
            }
        }
        self.check_nested(formula);
        for stage in &formula.stages {
            self.check_hundred(&stage.name, &stage.lines, ResolvedBasis::OwnFlour);
            self.check_bases(formula, stage);
            self.check_losses(stage);
            self.check_separate(formula, stage);
        }
    }

    fn is_flour(&self, item: Item) -> bool {
        matches!(item, Item::Ingredient(id) if self.directory.pantry.get(id).is_some_and(|known| known.is_flour))
    }

    fn name_of(&self, id: IngredientId) -> &str {
        self.directory.pantry.get(id).map_or("it", |known| known.name.as_str())
    }

    /// A dough without flour has no percentages.
    fn check_flour(&mut self, formula: &Formula) {
        let overall = formula.overall.iter().flat_map(|overall| &overall.lines);
        let mut lines = formula.stages.iter().flat_map(|stage| &stage.lines).chain(overall);
        let has_flour = lines.any(|line| match line.item {
            Item::Seed(..) | Item::Piece(_) => true,
            item => self.is_flour(item),
        });
        if !has_flour {
            let what = if formula.role == Role::Culture { "culture" } else { "dough" };
            self.report(
                Problem::error("no-flour", format!("the {what} `{}` has no flour", formula.name))
                    .at(formula.place, "baker's percentages are of the flour")
                    .help("list its flour; an ingredient of the book counts as flour where it says `flour`"),
            );
        }
    }

    /// Where all flours of a section are stated as shares of its flour, they are all of it.
    fn check_hundred(&mut self, section: &str, lines: &[WeighedLine], own: ResolvedBasis) {
        let flours: Vec<&WeighedLine> = lines.iter().filter(|line| self.is_flour(line.item)).collect();
        let shares: Option<Vec<&Share>> =
            flours.iter().map(|line| share_of(line.amount.as_ref(), own)).collect();
        let Some(shares) = shares.filter(|shares| !shares.is_empty()) else { return };
        let sum = percent_sum(shares.into_iter());
        if sum == Exact::HUNDRED {
            return;
        }
        let (first, more) = match flours.as_slice() {
            [first, more @ ..] => (*first, more),
            [] => return,
        };
        // What is missing is mostly the flour whose name was miswritten.
        if sum < Exact::HUNDRED && self.has_unknown() {
            return;
        }
        let off = (&Exact::HUNDRED - &sum).abs();
        let way = if sum < Exact::HUNDRED { "missing" } else { "too much" };
        let mut problem = Problem::error(
            "flours-not-100",
            format!("the flours of `{section}` add up to {sum} %, not to 100 %"),
        )
        .at(first.place, format!("{off} % {way}"));
        for line in more {
            problem = problem.and_at(line.place, "");
        }
        if sum < Exact::HUNDRED {
            problem =
                problem.note("is a flour missing, or an ingredient not marked as `flour` in the pantry?");
        }
        self.report(problem.help("let the flours add up to 100 %, or write `rest` for one of them"));
    }

    /// Whether a name was not known, so that a line is missing.
    fn has_unknown(&self) -> bool {
        self.problems.iter().any(|problem| problem.code == "unknown-ingredient")
    }

    /// A stage within another takes no more of the flour than that one.
    fn check_nested(&mut self, formula: &Formula) {
        let share = |stage: &Stage| match stage.takes.as_ref().map(|takes| (&takes.measure, takes.place)) {
            Some((Measure::Share(share, ResolvedBasis::Flour), place)) => Some((share.clone(), place)),
            _ => None,
        };
        for outer in &formula.stages {
            let Some((most, outer_place)) = share(outer) else { continue };
            for line in &outer.lines {
                let Item::Stage(id) = line.item else { continue };
                let Some(inner) = formula.stages.get(id.0 as usize).filter(|inner| !inner.separate) else {
                    continue;
                };
                let Some((own, place)) = share(inner).filter(|(own, _)| *own > most) else { continue };
                let (own, most) = (own.percent(), most.percent());
                self.report(
                    Problem::error(
                        "more-than-its-stage",
                        format!(
                            "`{}` takes {own} % of the flour, and goes into `{}`, which takes {most} %",
                            inner.name, outer.name
                        ),
                    )
                    .at(place, format!("{own} %"))
                    .and_at(outer_place, format!("{most} %, all that is built into it included"))
                    .help(format!("let `{}` take less, or `{}` at least {own} %", inner.name, outer.name)),
                );
            }
        }
    }

    /// The overall formula lists everything that the stages weigh.
    fn check_listed(&mut self, formula: &Formula, overall: &[WeighedLine]) {
        let listed: FxHashSet<IngredientId> =
            overall.iter().filter_map(|line| line.item.ingredient()).collect();
        for line in formula.stages.iter().flat_map(|stage| &stage.lines) {
            let Some(id) = line.item.ingredient().filter(|id| !listed.contains(id)) else { continue };
            let name = self.name_of(id).to_owned();
            let place = formula.overall.as_ref().map_or(formula.place, |section| section.place);
            self.report(
                Problem::error(
                    "not-in-overall",
                    format!("`{name}` is weighed in a stage, but `overall` does not list it"),
                )
                .at(line.place, "weighed here")
                .and_at(place, "the percentages of the whole dough")
                .help(format!(
                    "add `{name}` and its percentage to `overall`, or `{name}  rest` to let the stages say it"
                )),
            );
        }
    }

    /// A share of something that is not there.
    fn check_bases(&mut self, formula: &Formula, stage: &Stage) {
        let has_flour = stage.lines.iter().any(|line| self.is_flour(line.item));
        let amounts = stage.lines.iter().filter_map(|line| line.amount.as_ref());
        for amount in amounts.chain(&stage.takes).chain(&stage.weighs) {
            let Measure::Share(share, basis) = &amount.measure else { continue };
            let percent = share.percent();
            match basis {
                // What looks like a stage without flour is mostly one whose flour was miswritten.
                ResolvedBasis::OwnFlour if !has_flour && self.has_unknown() => {}
                ResolvedBasis::OwnFlour if !has_flour => {
                    self.report(
                        Problem::error(
                            "no-flour-of-its-own",
                            format!("`{}` has no flour of its own", stage.name),
                        )
                        .at(amount.place, "a percentage of which flour?")
                        .help(format!("of the whole dough's flour: write `{percent} % of the flour`"))
                        .help(format!("of something weighed here: write `{percent} % of its` and the name")),
                    );
                }
                ResolvedBasis::OwnCell(id) if !weighs(&stage.lines, *id) => {
                    let name = self.name_of(*id).to_owned();
                    self.report(
                        Problem::error("not-in-stage", format!("`{}` holds no `{name}`", stage.name))
                            .at(amount.place, "a percentage of nothing")
                            .help(format!("of that in the whole dough: write `of the {name}`")),
                    );
                }
                _ => self.check_row(formula, amount),
            }
        }
    }

    /// A share of an ingredient that the dough does not hold.
    fn check_row(&mut self, formula: &Formula, amount: &ResolvedAmount) {
        let Measure::Share(_, ResolvedBasis::Row(id)) = amount.measure else { return };
        if !occurs(formula, id) {
            let name = self.name_of(id).to_owned();
            let lines = formula.overall.iter().flat_map(|overall| &overall.lines);
            let lines = lines.chain(formula.stages.iter().flat_map(|stage| &stage.lines));
            let close = nearest_names(&name, lines.map(|line| line.name.as_ref()));
            let problem = Problem::error("not-in-dough", format!("the dough holds no `{name}`"))
                .at(amount.place, "a percentage of nothing");
            let way =
                "a percentage is `of the flour`, `of the dough`, or of an ingredient that the dough holds";
            let problem = otherwise(suggest(problem, &close), way);
            self.report(problem);
        }
    }

    /// Steam comes from water that the stage weighs.
    fn check_losses(&mut self, stage: &Stage) {
        let Some((_, place)) = stage.steam else { return };
        let has_water = stage.lines.iter().any(|line| match line.item {
            Item::Ingredient(id) => self.directory.pantry.get(id).is_some_and(crate::Ingredient::is_water),
            _ => false,
        });
        if !has_water {
            self.report(
                Problem::error(
                    "no-water-to-lose",
                    format!("`{}` weighs no water that it could lose", stage.name),
                )
                .at(place, "steam of which water?")
                .help("list the stage's water, or leave out what it loses"),
            );
        }
    }

    /// A separate batch is a formula of its own: it cannot depend on the dough that takes a portion of it.
    fn check_separate(&mut self, formula: &Formula, stage: &Stage) {
        let Some(place) =
            stage.left_over.as_ref().map(LeftOver::place).or(stage.separate.then_some(stage.place))
        else {
            return;
        };
        let reason =
            if stage.left_over.is_some() { "some of it is left over" } else { "it is taken in two places" };
        let within: Vec<&Stage> = subtree(formula, stage);
        let gives_back = |line: &&WeighedLine| matches!(line.item, Item::Seed(_, SeedFate::GivenBack));
        if let Some(line) = within.iter().flat_map(|inner| &inner.lines).find(gives_back) {
            self.report(
                Problem::error(
                    "given-back-twice",
                    format!("`{}` cannot give back its seed as well", stage.name),
                )
                .at(line.place, "the seed is given back")
                .and_at(place, reason)
                .help("leave out `given back`: what is left over is where the next seed comes from"),
            );
        }
        if !stage.separate {
            return;
        }
        let weighed =
            within.iter().flat_map(|inner| inner.lines.iter().filter_map(|line| line.amount.as_ref()));
        // What the dough takes of the batch itself is its own business; what the batch takes is not.
        let inner = within.iter().filter(|inner| !std::ptr::eq(**inner, stage));
        let amounts = weighed.chain(inner.flat_map(|inner| inner.takes.iter().chain(&inner.weighs)));
        let depends = |amount: &&ResolvedAmount| {
            matches!(
                amount.measure,
                Measure::Share(_, ResolvedBasis::Flour | ResolvedBasis::Dough | ResolvedBasis::Row(_))
            )
        };
        let dependent: Vec<ResolvedAmount> = amounts.filter(depends).cloned().collect();
        for amount in dependent {
            self.report(
                Problem::error("apart-from-the-dough", format!("`{}` is a batch of its own", stage.name))
                    .at(amount.place, "a share of the whole dough")
                    .and_at(place, reason)
                    .help("write what is weighed into it as percentages of its own flour, or as weights"),
            );
        }
    }
}

/// The share that an amount states on a basis.
fn share_of(amount: Option<&ResolvedAmount>, own: ResolvedBasis) -> Option<&Share> {
    match &amount?.measure {
        Measure::Share(share, basis) if *basis == own => Some(share),
        _ => None,
    }
}

fn weighs(lines: &[WeighedLine], id: IngredientId) -> bool {
    lines.iter().any(|line| line.item == Item::Ingredient(id))
}

/// Whether the dough may hold an ingredient: it is weighed or listed, or comes with a seed or a piece of dough.
fn occurs(formula: &Formula, id: IngredientId) -> bool {
    formula.overall.iter().any(|overall| weighs(&overall.lines, id))
        || formula.stages.iter().any(|stage| {
            weighs(&stage.lines, id)
                || stage.lines.iter().any(|line| matches!(line.item, Item::Seed(..) | Item::Piece(_)))
        })
}

/// A stage and all that goes into it.
fn subtree<'f>(formula: &'f Formula, stage: &'f Stage) -> Vec<&'f Stage> {
    let mut found = vec![stage];
    let mut next = 0;
    while let Some(stage) = found.get(next) {
        let children = stage.lines.iter().filter_map(|line| match line.item {
            Item::Stage(id) => formula.stage(id),
            _ => None,
        });
        let children: Vec<&Stage> =
            children.filter(|child| !found.iter().any(|known| std::ptr::eq(*known, *child))).collect();
        found.extend(children);
        next += 1;
    }
    found
}
