//! Sums over the whole dough: its water, what its ingredients hold of something, and the flour that ferments ahead.

use levamen_formula::{Ingredient, Intake, Item, StageId, StageKind, Variable};
use levamen_quantity::{Exact, Share};

use super::explain::{Explainer, zero};
use super::taken::sum;
use super::{Reason, ReasonKind, ReasonPart, ReasonValue};

impl Explainer<'_> {
    /// The added water of the whole.
    pub(super) fn water(&mut self) -> Reason {
        if !self.water_by_ingredient {
            return self.figure(Variable::Water);
        }
        let frame = self.frame;
        let is_water = |figure: &Variable| match figure {
            Variable::Row(id) => frame.pantry().get(*id).is_some_and(Ingredient::is_water),
            _ => false,
        };
        let rows: Vec<Variable> =
            frame.solved.equations.variables().iter().copied().filter(is_water).collect();
        sum(frame.name(Variable::Water), rows.into_iter().map(|row| self.figure(row)).collect())
    }

    /// Added water, and the water inside other ingredients.
    pub(super) fn all_water(&mut self) -> Reason {
        let name = "water, that inside other ingredients included";
        let mut water = sum(name.to_owned(), self.contained("water", |known| &known.water));
        let moisture =
            Reason { kind: ReasonKind::NotCounted, ..zero("water in the flour itself".to_owned()) };
        if water.kind != ReasonKind::Sum {
            let value = water.value.clone();
            let parts = vec![ReasonPart { times: Exact::ONE, reason: water }];
            water = Reason { figure: name.to_owned(), value, kind: ReasonKind::Sum, parts };
        }
        water.parts.push(ReasonPart { times: Exact::ONE, reason: moisture });
        water
    }

    /// What of something each ingredient of the whole dough holds; a flour's own moisture is not counted.
    pub(super) fn contained(&mut self, what: &str, share: fn(&Ingredient) -> &Share) -> Vec<Reason> {
        let frame = self.frame;
        let rows = frame.solved.equations.variables().iter().filter_map(|figure| match figure {
            Variable::Row(id) => Some((*figure, frame.pantry().get(*id)?)),
            _ => None,
        });
        let counted = rows.filter(|(_, known)| !(known.is_flour && what == "water"));
        let contained = counted.filter(|(_, known)| !share(known).fraction().is_zero());
        contained
            .collect::<Vec<_>>()
            .into_iter()
            .map(|(row, known)| {
                let whole = self.figure(row);
                let times = share(known).fraction().clone();
                if times.is_one() {
                    return whole;
                }
                let value = ReasonValue::Weight(Share::from_fraction(&times * whole.value.figure()));
                let kind =
                    ReasonKind::Pantry { ingredient: known.name.clone(), source: known.source.clone() };
                Reason {
                    figure: format!("{what} in {}", known.name),
                    value,
                    kind,
                    parts: vec![ReasonPart { times, reason: whole }],
                }
            })
            .collect()
    }
}

impl Explainer<'_> {
    /// The flour that ferments ahead, stage by stage.
    pub(super) fn fermented(&mut self) -> Reason {
        let formula = self.frame.formula();
        let ferments = formula.ferments();
        let does = |id: StageId| ferments.get(id.index()) == Some(&true);
        let inside = formula.stages().filter(|(id, _)| does(*id)).flat_map(|(_, stage)| stage.children());
        let inside: Vec<StageId> = inside.collect();
        let mut parts = Vec::new();
        for (id, _) in formula.stages() {
            if !self.frame.solved.equations.is_within(id) {
                continue;
            }
            if does(id) {
                if !inside.contains(&id) {
                    parts.push(self.figure(Variable::Content(id)));
                }
                continue;
            }
            for intake in self.frame.solved.equations.intakes().iter().filter(|intake| intake.stage == id) {
                parts.extend(self.fermented_intake(intake, does));
            }
        }
        sum(String::new(), parts)
    }

    /// The fermented flour in something that a stage takes which does not ferment itself.
    fn fermented_intake(&mut self, intake: &Intake, does: impl Fn(StageId) -> bool) -> Option<Reason> {
        let share = match intake.item {
            _ if !intake.stays() => return None,
            Item::Stage(child) if !does(child) => {
                let batch = &self.frame.parts.separate.get(&child)?.balance;
                batch.prefermented_flour.fraction().checked_div(batch.weight.fraction())?
            }
            _ => intake.flour.clone(),
        };
        Some(self.contained_in("fermented flour", intake, share))
    }

    /// The flour that the dough gets through a stage, where it ferments ahead.
    pub(super) fn fermented_in(&mut self, id: StageId) -> Reason {
        let formula = self.frame.formula();
        let is_ahead = formula.stage(id).is_some_and(|stage| stage.kind != StageKind::FinalDough);
        if is_ahead && formula.ferments().get(id.index()) == Some(&true) {
            self.content(id)
        } else {
            zero(String::new())
        }
    }

    /// The flour that the dough gets through a stage.
    pub(super) fn content(&mut self, id: StageId) -> Reason {
        self.through(id, Variable::Content(id), "flour", |intake| &intake.flour)
    }

    /// The added water that the dough gets through a stage.
    pub(super) fn content_water(&mut self, id: StageId) -> Reason {
        self.through(id, Variable::ContentWater(id), "water", |intake| &intake.water)
    }

    /// What the dough gets of something through a stage; through a separate batch, with what is taken of it.
    fn through(&mut self, id: StageId, figure: Variable, what: &str, share: fn(&Intake) -> &Exact) -> Reason {
        let equations = &self.frame.solved.equations;
        if equations.is_within(id) {
            return self.figure(figure);
        }
        let portions = equations.intakes().iter().filter(|intake| intake.item == Item::Stage(id));
        let portions = portions.map(|intake| self.contained_in(what, intake, share(intake).clone()));
        sum(String::new(), portions.collect())
    }

    /// A share of what is taken.
    fn contained_in(&mut self, what: &str, intake: &Intake, share: Exact) -> Reason {
        let whole = self.figure(Variable::Intake(intake.stage, intake.line));
        let value = ReasonValue::Weight(Share::from_fraction(&share * whole.value.figure()));
        let (figure, kind) = (format!("{what} of {}", whole.figure), self.composition(intake));
        Reason { figure, value, kind, parts: vec![ReasonPart { times: share, reason: whole }] }
    }
}
