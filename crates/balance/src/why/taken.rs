//! What is weighed into a stage and what becomes of it, from what reaches the dough.

use levamen_formula::{Ingredient, IngredientId, Item, LeftOver, StageId, Variable};
use levamen_language::Place;
use levamen_quantity::{Exact, Share};

use super::explain::{Explainer, zero};
use super::{Reason, ReasonKind, ReasonPart, ReasonValue};

impl Explainer<'_> {
    /// What a line weighs.
    pub(super) fn line(&mut self, stage: StageId, index: u32) -> Reason {
        let equations = &self.frame.solved.equations;
        let line = self.frame.formula().stage(stage).and_then(|made| made.lines.get(index as usize));
        let gross = equations.gross(stage).cloned().unwrap_or(Exact::ONE);
        let (figure, times) = match line.map(|line| line.item) {
            Some(Item::Ingredient(id)) => {
                let is_water = self.frame.pantry().get(id).is_some_and(Ingredient::is_water);
                let weighed = if is_water { equations.gross_water(stage) } else { None };
                let figure = self.frame.formula().stage(stage).map(|made| made.weighed_as(stage, index, id));
                (figure.unwrap_or(Variable::Cell(stage, id)), weighed.unwrap_or(gross))
            }
            Some(Item::Stage(child)) if equations.is_within(child) => (Variable::Weight(child), gross),
            _ => (Variable::Intake(stage, index), gross),
        };
        let steams = matches!(figure, Variable::Cell(..) | Variable::Part(..));
        let name = line.map_or("what is weighed".to_owned(), levamen_formula::WeighedLine::full_name);
        let name = format!("{name} in {}", self.stage_name(stage));
        let reason = self.figure(figure);
        self.weighed(name, reason, times, stage, steams)
    }

    /// All that is weighed into a stage of an ingredient that goes in at several times.
    pub(super) fn cell(&mut self, stage: StageId, ingredient: IngredientId) -> Reason {
        let made = self.frame.formula().stage(stage);
        let lines = (0..).zip(made.map_or(&[][..], |made| &made.lines));
        let lines = lines.filter(|(_, line)| line.item == Item::Ingredient(ingredient));
        let indices: Vec<u32> = lines.map(|(index, _)| index).collect();
        let lines: Vec<Reason> = indices.into_iter().map(|index| self.line(stage, index)).collect();
        sum(String::new(), lines)
    }

    /// What is weighed of something, from what of it reaches the dough.
    fn weighed(&self, name: String, net: Reason, times: Exact, stage: StageId, steams: bool) -> Reason {
        if times.is_one() || net.value.figure().is_zero() {
            return net;
        }
        let value = ReasonValue::Weight(Share::from_fraction(&times * net.value.figure()));
        let kind = ReasonKind::Weighed(self.losses(stage, steams));
        Reason { figure: name, value, kind, parts: vec![ReasonPart { times, reason: net }] }
    }

    /// The lines that let more be weighed into a stage than reaches the dough: its own, and those of what it goes into.
    fn losses(&self, stage: StageId, steams: bool) -> Vec<Place> {
        let formula = self.frame.formula();
        let mut places = Vec::new();
        let mut next = Some(stage);
        while let Some(id) = next {
            let Some(made) = formula.stage(id) else { break };
            let steam = made.steam.as_ref().filter(|_| steams && id == stage);
            places.extend(steam.map(|(_, place)| *place));
            places.extend(made.left_over.as_ref().map(LeftOver::place));
            // A stage stands after those that it takes in, so the walk comes to an end.
            next = formula
                .stages()
                .find(|(_, outer)| outer.children().any(|child| child == id))
                .map(|(id, _)| id);
        }
        places
    }

    fn stage_name(&self, stage: StageId) -> String {
        self.frame.formula().stage(stage).map_or("the stage", |stage| stage.name.as_ref()).to_owned()
    }

    /// The flour weighed into a stage as such.
    pub(super) fn own_flour(&mut self, stage: StageId) -> Reason {
        let gross = self.frame.solved.equations.gross(stage).cloned().unwrap_or(Exact::ONE);
        let reason = self.figure(Variable::OwnFlour(stage));
        self.weighed(format!("flour in {}", self.stage_name(stage)), reason, gross, stage, false)
    }

    /// What goes on of a stage.
    pub(super) fn taken(&mut self, stage: StageId) -> Reason {
        let equations = &self.frame.solved.equations;
        let Some(gross) = equations.gross(stage).cloned() else {
            return self.intakes(|taken| taken == Item::Stage(stage), |_| true);
        };
        let kept = match self.frame.formula().stage(stage).and_then(|made| made.left_over.as_ref()) {
            Some(LeftOver::Share(share, _)) => share.rest().fraction().clone(),
            _ => Exact::ONE,
        };
        let reason = self.figure(Variable::Weight(stage));
        self.weighed(self.stage_name(stage), reason, gross * kept, stage, false)
    }

    /// What is in the tub.
    pub(super) fn made(&mut self, stage: StageId) -> Reason {
        let Some(gross) = self.frame.solved.equations.gross(stage).cloned() else {
            return self.figure(Variable::Made(stage));
        };
        let reason = self.figure(Variable::Weight(stage));
        let goes_on = self.weighed(self.stage_name(stage), reason, gross, stage, false);
        let given_back = self.given_back(stage);
        if given_back.value.figure().is_zero() {
            return goes_on;
        }
        sum(String::new(), vec![goes_on, given_back])
    }

    /// The seed weighed into a stage.
    pub(super) fn seed(&mut self, stage: StageId) -> Reason {
        self.intakes(|taken| matches!(taken, Item::Seed(..)), |into| into == stage)
    }

    /// What is kept of a stage for the next seed: what the seeds weighed that it grew from.
    pub(super) fn given_back(&mut self, stage: StageId) -> Reason {
        let equations = &self.frame.solved.equations;
        self.intakes(Item::is_given_back, |into| equations.goes_on_as(into) == Some(stage))
    }

    /// The sum of what some lines take.
    fn intakes(&mut self, what: impl Fn(Item) -> bool, into: impl Fn(StageId) -> bool) -> Reason {
        let intakes = self.frame.solved.equations.intakes().iter();
        let wanted = intakes.filter(|intake| what(intake.item) && into(intake.stage));
        let lines: Vec<(StageId, u32)> = wanted.map(|intake| (intake.stage, intake.line)).collect();
        let parts = lines.into_iter().map(|(stage, line)| self.line(stage, line)).collect();
        sum(String::new(), parts)
    }

    /// What is made of a stage and not taken.
    pub(super) fn left_over(&mut self, stage: StageId) -> Reason {
        if !self.frame.solved.equations.is_within(stage) {
            return self.figure(Variable::LeftOver(stage));
        }
        match self.frame.formula().stage(stage).and_then(|made| made.left_over.as_ref()) {
            Some(LeftOver::Share(share, place)) => {
                let made =
                    Reason { figure: format!("made of {}", self.stage_name(stage)), ..self.made(stage) };
                share_of(share, *place, made)
            }
            _ => zero(String::new()),
        }
    }

    /// What goes off from a stage.
    pub(super) fn steam(&mut self, stage: StageId) -> Reason {
        let formula = self.frame.formula();
        let Some(made) = formula.stage(stage) else { return zero(String::new()) };
        let pantry = self.frame.pantry();
        let is_water = |item: Item| match item {
            Item::Ingredient(id) => pantry.get(id).is_some_and(Ingredient::is_water),
            _ => false,
        };
        let water = (0..).zip(&made.lines).filter(|(_, line)| is_water(line.item));
        let water: Vec<Reason> = water.map(|(index, _)| self.line(stage, index)).collect();
        match &made.steam {
            Some((share, place)) => share_of(share, *place, sum(format!("water in {}", made.name), water)),
            None => zero(String::new()),
        }
    }
}

/// The sum of parts; of one part, that part.
pub(super) fn sum(figure: String, parts: Vec<Reason>) -> Reason {
    let mut parts: Vec<Reason> = parts.into_iter().filter(|part| !part.value.figure().is_zero()).collect();
    let value: Exact = parts.iter().map(|part| part.value.figure()).sum();
    match parts.pop() {
        Some(only) if parts.is_empty() => only,
        Some(last) => {
            let parts = parts.into_iter().chain(std::iter::once(last));
            let parts = parts.map(|reason| ReasonPart { times: Exact::ONE, reason }).collect();
            Reason {
                figure,
                value: ReasonValue::Weight(Share::from_fraction(value)),
                kind: ReasonKind::Sum,
                parts,
            }
        }
        None => zero(figure),
    }
}

/// A stated share of something.
fn share_of(share: &Share, place: Place, whole: Reason) -> Reason {
    let value = ReasonValue::Weight(Share::from_fraction(share.fraction() * whole.value.figure()));
    let parts = vec![ReasonPart { times: share.fraction().clone(), reason: whole }];
    Reason { figure: String::new(), value, kind: ReasonKind::Stated(place), parts }
}
