//! Any figure that may be asked for, as a sum of the figures that equations mention.

use levamen_quantity::Exact;

use super::intake::Intake;
use super::sums::EquationBuilder;
use super::{EquationOrigin, Equations, Variable};
use crate::formula::Formula;
use crate::ingredient::Ingredient;
use crate::pantry::Pantry;
use crate::stage::{Item, LeftOver, StageId};
use crate::want::NamedFigure;
use crate::want::{Relation, Want, WantValue};

/// A sum of figures.
type Sum = Vec<(Variable, Exact)>;

impl Equations {
    /// A figure that may be asked for as a sum of terms; for one that is a ratio, such as a hydration, what it is a
    /// ratio of comes second.
    #[must_use]
    pub fn express(
        &mut self,
        figure: NamedFigure,
        formula: &Formula,
        pantry: &Pantry,
    ) -> (Vec<super::Term>, Vec<super::Term>) {
        let intakes = std::mem::take(&mut self.intakes);
        let builder = EquationBuilder { formula, pantry, equations: self, intakes: &intakes, made: &[] };
        let (subject, whole) = (builder.subject(figure), builder.whole(figure));
        let mut terms =
            |sum: Sum| sum.into_iter().map(|(figure, factor)| (self.figure(figure), factor)).collect();
        let expressed = (terms(subject), terms(whole));
        self.intakes = intakes;
        expressed
    }
}

impl EquationBuilder<'_> {
    /// States the wants: an exact one is an equation, a bound an inequality.
    pub(super) fn wants(&mut self) {
        let formula = self.formula;
        for want in &formula.wants {
            let subject = self.subject(want.figure);
            let Some(limit) = self.limit(want) else { continue };
            match want.relation {
                Relation::Exactly => self.equations.add(&subject, &limit, EquationOrigin::Stated(want.place)),
                Relation::AtMost => self.equations.bound(&subject, &limit, want),
                Relation::AtLeast => self.equations.bound(&limit, &subject, want),
            }
        }
    }

    /// What a want compares its figure with.
    fn limit(&self, want: &Want) -> Option<Sum> {
        Some(match &want.limit {
            WantValue::Mass(mass) => vec![(self.gram(), mass.grams().clone())],
            WantValue::Share(share, basis) => {
                let whole = match basis {
                    Some(basis) => vec![self.basis(*basis, want.figure.stage())?],
                    None => self.whole(want.figure),
                };
                let share = share.fraction();
                // Dough yield is 100 + hydration.
                let share =
                    if want.figure == NamedFigure::DoughYield { share - &Exact::ONE } else { share.clone() };
                whole.into_iter().map(|(figure, factor)| (figure, &factor * &share)).collect()
            }
        })
    }

    /// The gram that a wanted weight is in: of the batch, where that need not be of the size that the text's weights
    /// come to.
    fn gram(&self) -> Variable {
        let separate = self.formula.make.is_some() || self.formula.is_resized;
        if separate { Variable::BatchGram } else { Variable::Gram }
    }

    /// What a figure is a share of where it is given as a percentage.
    fn whole(&self, figure: NamedFigure) -> Sum {
        match figure {
            NamedFigure::Hydration(Some(id)) => self.flour_through(id),
            NamedFigure::Line(id, _) | NamedFigure::Cell(id, _) | NamedFigure::Seed(id) => self.own_flour(id),
            _ => vec![(Variable::Flour, Exact::ONE)],
        }
    }

    fn own_flour(&self, id: StageId) -> Sum {
        vec![(Variable::OwnFlour(id), self.equations.gross(id).cloned().unwrap_or(Exact::ONE))]
    }

    /// The figure itself.
    fn subject(&self, figure: NamedFigure) -> Sum {
        let one = |figure| vec![(figure, Exact::ONE)];
        match figure {
            NamedFigure::Hydration(None) | NamedFigure::DoughYield | NamedFigure::Water(None) => {
                one(Variable::Water)
            }
            NamedFigure::Hydration(Some(id)) | NamedFigure::Water(Some(id)) => self.water_through(id),
            NamedFigure::EffectiveHydration => self
                .contained(|known| if known.is_flour { Exact::ZERO } else { known.water.fraction().clone() }),
            NamedFigure::Salt => self.contained(|known| known.salt.fraction().clone()),
            NamedFigure::PrefermentedFlour(None) => self.fermented(),
            NamedFigure::PrefermentedFlour(Some(id)) | NamedFigure::Flour(Some(id)) => self.flour_through(id),
            NamedFigure::Flour(None) => one(Variable::Flour),
            NamedFigure::OwnFlour(id) => self.own_flour(id),
            NamedFigure::Dough => one(Variable::Dough),
            NamedFigure::ToDivide => vec![(Variable::Dough, self.formula.loss.rest().fraction().clone())],
            NamedFigure::Row(id) => one(Variable::Row(id)),
            NamedFigure::Line(id, index) => {
                let line = self.formula.stage(id).and_then(|stage| stage.lines.get(index as usize));
                line.and_then(|line| self.weighed(id, index, line)).into_iter().collect()
            }
            NamedFigure::Cell(id, ingredient) => {
                let times = self.gross_of(id, ingredient).unwrap_or(Exact::ONE);
                vec![(Variable::Cell(id, ingredient), times)]
            }
            NamedFigure::Taken(id) => self.taken(id),
            NamedFigure::Made(id) => self.made(id),
            NamedFigure::Seed(id) => self.seeds(|intake| intake.stage == id),
            NamedFigure::GivenBack(id) => self.seeds(|intake| {
                intake.item.is_given_back() && self.equations.goes_on_as(intake.stage) == Some(id)
            }),
            NamedFigure::LeftOver(id) => self.left_over(id),
            NamedFigure::Steam(id) => self.steam(id),
        }
    }

    /// The flour that the dough gets through a stage.
    fn flour_through(&self, id: StageId) -> Sum {
        if self.equations.is_within(id) {
            return vec![(Variable::Content(id), Exact::ONE)];
        }
        let mut sum = Vec::new();
        self.portions(id).for_each(|portion| portion.push_flour(&mut sum));
        sum
    }

    /// The added water that the dough gets through a stage.
    fn water_through(&self, id: StageId) -> Sum {
        if self.equations.is_within(id) {
            return vec![(Variable::ContentWater(id), Exact::ONE)];
        }
        let mut sum = Vec::new();
        self.portions(id).for_each(|portion| portion.push_water(&mut sum, self.pantry));
        sum
    }

    /// What is taken of a separate batch.
    fn portions(&self, id: StageId) -> impl Iterator<Item = &Intake> {
        self.intakes.iter().filter(move |intake| intake.item == Item::Stage(id))
    }

    /// What all ingredients hold of something.
    fn contained(&self, share: impl Fn(&Ingredient) -> Exact) -> Sum {
        let rows = self.equations.variables().iter().filter_map(|figure| match figure {
            Variable::Row(id) => Some((*figure, share(self.pantry.get(*id)?))),
            _ => None,
        });
        rows.filter(|(_, part)| !part.is_zero()).collect()
    }

    /// Flour in stages that ferment, and in seeds and pieces of dough.
    fn fermented(&self) -> Sum {
        let formula = self.formula;
        let ferments = formula.ferments();
        let does = |id: StageId| ferments.get(id.index()) == Some(&true);
        let within = formula.stages().filter(|(id, _)| self.equations.is_within(*id) && does(*id));
        let own = within.map(|(id, _)| (Variable::OwnFlour(id), Exact::ONE));
        let brought = self.intakes.iter().filter(|intake| {
            intake.stays() && intake.item.stage().is_none_or(|child| does(child) || does(intake.stage))
        });
        let mut sum: Sum = own.collect();
        for intake in brought {
            intake.push_flour(&mut sum);
        }
        sum
    }

    fn seeds(&self, wanted: impl Fn(&Intake) -> bool) -> Sum {
        let seeds =
            self.intakes.iter().filter(|intake| matches!(intake.item, Item::Seed(..)) && wanted(intake));
        let weighed =
            seeds.filter_map(|intake| Some((intake.figure(), self.equations.gross(intake.stage)?.clone())));
        weighed.collect()
    }

    /// What is taken of a stage, as it is weighed where it goes.
    fn taken(&self, id: StageId) -> Sum {
        let within = self.equations.gross(id).map(|gross| {
            let kept = self.kept(id);
            vec![(Variable::Weight(id), gross * &kept)]
        });
        within.unwrap_or_else(|| {
            self.portions(id)
                .filter_map(|intake| Some((intake.figure(), self.equations.gross(intake.stage)?.clone())))
                .collect()
        })
    }

    /// The share of what is made of a stage that goes on.
    fn kept(&self, id: StageId) -> Exact {
        match self.formula.stage(id).and_then(|stage| stage.left_over.as_ref()) {
            Some(LeftOver::Share(share, _)) => share.rest().fraction().clone(),
            _ => Exact::ONE,
        }
    }

    fn made(&self, id: StageId) -> Sum {
        let Some(gross) = self.equations.gross(id).cloned() else {
            return vec![(Variable::Made(id), Exact::ONE)];
        };
        let mut made = vec![(Variable::Weight(id), gross)];
        made.extend(self.subject(NamedFigure::GivenBack(id)));
        made
    }

    fn left_over(&self, id: StageId) -> Sum {
        if self.equations.gross(id).is_none() {
            return vec![(Variable::LeftOver(id), Exact::ONE)];
        }
        let lost = &Exact::ONE - &self.kept(id);
        self.made(id).into_iter().map(|(figure, factor)| (figure, &factor * &lost)).collect()
    }

    /// Water that is weighed, and no more there.
    fn steam(&self, id: StageId) -> Sum {
        let (Some(gross), Some(weighed)) = (self.equations.gross(id), self.equations.gross_water(id)) else {
            return Vec::new();
        };
        let off = &weighed - gross;
        let lines = self.formula.stage(id).into_iter().flat_map(|stage| &stage.lines);
        let water = lines.filter_map(|line| match line.item {
            Item::Ingredient(ingredient) if self.pantry.get(ingredient).is_some_and(Ingredient::is_water) => {
                Some((Variable::Cell(id, ingredient), off.clone()))
            }
            _ => None,
        });
        water.collect()
    }
}
