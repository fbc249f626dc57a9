//! Figures inside a batch that is built apart: its formula is explained at the size in which it is made.

use levamen_formula::{Asked, Figure, StageId};
use levamen_language::Problem;
use levamen_quantity::{Exact, Share};

use super::asked::explain_in;
use super::explain::Frame;
use super::{Because, Part, Reason, Value};
use crate::Balancer;

/// A batch built apart that a figure is in.
pub(super) struct Apart {
    /// The batch.
    root: StageId,
    /// Whether the figure is what the dough gets of something in it, and not what is in the tub.
    reaches_dough: bool,
}

impl Apart {
    /// The batch built apart in which a figure is; `None` where the facts of the frame speak of it.
    pub(super) fn of(frame: &Frame<'_>, asked: Asked) -> Option<Self> {
        let (formula, stage) = (frame.formula(), asked.stage()?);
        if frame.solved.facts.is_within(stage) {
            return None;
        }
        let reaches_dough = matches!(asked, Asked::Flour(_) | Asked::Water(_) | Asked::PrefermentedFlour(_));
        if frame.parts.apart.contains_key(&stage) {
            let is_inside = matches!(
                asked,
                Asked::Hydration(_) | Asked::OwnFlour(_) | Asked::Line(..) | Asked::Seed(_) | Asked::Steam(_)
            );
            return is_inside.then_some(Self { root: stage, reaches_dough: false });
        }
        let name = formula.stage(stage).map(|stage| &stage.name)?;
        let mut roots = formula.portioned().into_iter().map(|(id, _)| id);
        let holds = |id: &StageId| {
            formula.apart(*id).is_some_and(|part| part.stages.iter().any(|own| own.name == *name))
        };
        roots.find(holds).map(|root| Self { root, reaches_dough })
    }

    /// The reason of the figure.
    pub(super) fn explain(
        &self,
        balancer: &mut Balancer<'_>,
        frame: &Frame<'_>,
        asked: Asked,
        depth: usize,
    ) -> Result<Reason, Vec<Problem>> {
        let formula = frame.formula();
        let made = explain_in(balancer, frame, Asked::Made(self.root), depth)?;
        let part = formula.apart(self.root).ok_or_else(Vec::new)?;
        let name = asked.stage().and_then(|id| formula.stage(id)).map(|stage| &stage.name);
        let inside =
            part.stages().find(|(_, own)| Some(&own.name) == name).map(|(id, _)| id).ok_or_else(Vec::new)?;
        let parts = balancer.parts(&part, depth + 1, frame.parts.last_batch.as_ref())?;
        let solved = balancer.solve_formula(&part, &parts)?;
        let mut inner = Frame::of_dough(frame.book, &solved, &parts);
        let per_batch = Exact::ONE.checked_div(&inner.value(Figure::Dough)).unwrap_or_default();
        inner.scale = &per_batch * made.value.figure();
        let batch = formula.stage(self.root).map_or("the batch", |stage| stage.name.as_ref());
        inner.unit.figure = format!("{} in the whole batch of {batch}", inner.unit.figure);
        inner.unit.value = Value::Weight(Share::from_fraction(inner.scale.clone()));
        inner.unit.because = Because::Batch;
        inner.unit.from = vec![Part { times: per_batch, reason: made.clone() }];
        inner.gram = frame.gram.clone().filter(|gram| *gram.value.figure() == inner.value(Figure::Gram));
        let reason = explain_in(balancer, &inner, moved(asked, inside), depth + 1)?;
        Ok(if self.reaches_dough { self.taken(balancer, frame, reason, &made, depth)? } else { reason })
    }

    /// What the dough gets of something that is in the batch.
    fn taken(
        &self,
        balancer: &mut Balancer<'_>,
        frame: &Frame<'_>,
        whole: Reason,
        made: &Reason,
        depth: usize,
    ) -> Result<Reason, Vec<Problem>> {
        let taken = explain_in(balancer, frame, Asked::Taken(self.root), depth)?;
        let times = taken.value.figure().checked_div(made.value.figure()).unwrap_or_default();
        let value = Value::Weight(Share::from_fraction(&times * whole.value.figure()));
        let (figure, from) = (whole.figure.clone(), vec![Part { times, reason: whole }]);
        Ok(Reason { figure, value, because: Because::Batch, from })
    }
}

/// The same figure of another stage.
fn moved(asked: Asked, to: StageId) -> Asked {
    match asked {
        Asked::Hydration(_) => Asked::Hydration(Some(to)),
        Asked::PrefermentedFlour(_) => Asked::PrefermentedFlour(Some(to)),
        Asked::Flour(_) => Asked::Flour(Some(to)),
        Asked::Water(_) => Asked::Water(Some(to)),
        Asked::OwnFlour(_) => Asked::OwnFlour(to),
        Asked::Line(_, line) => Asked::Line(to, line),
        Asked::Taken(_) => Asked::Taken(to),
        Asked::Made(_) => Asked::Made(to),
        Asked::Seed(_) => Asked::Seed(to),
        Asked::GivenBack(_) => Asked::GivenBack(to),
        Asked::LeftOver(_) => Asked::LeftOver(to),
        Asked::Steam(_) => Asked::Steam(to),
        whole => whole,
    }
}
