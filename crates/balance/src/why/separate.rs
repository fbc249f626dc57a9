//! Figures inside a separate batch: its formula is explained at the size in which it is made.

use levamen_formula::{NamedFigure, StageId, Variable};
use levamen_language::Problem;
use levamen_quantity::{Exact, Share};

use super::explain::Frame;
use super::named::explain_in;
use super::{Reason, ReasonKind, ReasonPart, ReasonValue};
use crate::Balancer;

/// A separate batch that a figure is in.
pub(super) struct SeparateBatch {
    /// The batch.
    root: StageId,
    /// Whether the figure is what the dough gets of something in it, and not what is in the tub.
    reaches_dough: bool,
}

impl SeparateBatch {
    /// The separate batch in which a figure is; `None` where the equations of the frame mention it.
    pub(super) fn of(frame: &Frame<'_>, figure: NamedFigure) -> Option<Self> {
        let (formula, stage) = (frame.formula(), figure.stage()?);
        if frame.solved.equations.is_within(stage) {
            return None;
        }
        let reaches_dough = matches!(
            figure,
            NamedFigure::Flour(_) | NamedFigure::Water(_) | NamedFigure::PrefermentedFlour(_)
        );
        if frame.parts.separate.contains_key(&stage) {
            let is_inside = matches!(
                figure,
                NamedFigure::Hydration(_)
                    | NamedFigure::OwnFlour(_)
                    | NamedFigure::Line(..)
                    | NamedFigure::Seed(_)
                    | NamedFigure::Steam(_)
            );
            return is_inside.then_some(Self { root: stage, reaches_dough: false });
        }
        let name = formula.stage(stage).map(|stage| &stage.name)?;
        let mut roots = formula.portioned().into_iter().map(|(id, _)| id);
        let holds = |id: &StageId| {
            formula.separate_batch(*id).is_some_and(|part| part.stages.iter().any(|own| own.name == *name))
        };
        roots.find(holds).map(|root| Self { root, reaches_dough })
    }

    /// The reason of the figure.
    pub(super) fn explain(
        &self,
        balancer: &mut Balancer<'_>,
        frame: &Frame<'_>,
        figure: NamedFigure,
        depth: usize,
    ) -> Result<Reason, Vec<Problem>> {
        let formula = frame.formula();
        let made = explain_in(balancer, frame, NamedFigure::Made(self.root), depth)?;
        let part = formula.separate_batch(self.root).ok_or_else(Vec::new)?;
        let name = figure.stage().and_then(|id| formula.stage(id)).map(|stage| &stage.name);
        let inside =
            part.stages().find(|(_, own)| Some(&own.name) == name).map(|(id, _)| id).ok_or_else(Vec::new)?;
        let parts = balancer.parts(&part, depth + 1, frame.parts.last_batch.as_ref())?;
        let solved = balancer.solve_formula(&part, &parts)?;
        let mut inner = Frame::of_dough(frame.book, &solved, &parts);
        let per_batch = Exact::ONE
            .checked_div(&inner.value(Variable::Dough))
            .ok_or_else(|| vec![Problem::internal("a batch of its own weighs nothing")])?;
        inner.scale = &per_batch * made.value.figure();
        let batch = formula.stage(self.root).map_or("the batch", |stage| stage.name.as_ref());
        inner.unit.figure = format!("{} in the whole batch of {batch}", inner.unit.figure);
        inner.unit.value = ReasonValue::Weight(Share::from_fraction(inner.scale.clone()));
        inner.unit.kind = ReasonKind::Batch;
        inner.unit.parts = vec![ReasonPart { times: per_batch, reason: made.clone() }];
        inner.gram = frame.gram.clone().filter(|gram| *gram.value.figure() == inner.value(Variable::Gram));
        let reason = explain_in(balancer, &inner, moved(figure, inside), depth + 1)?;
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
        let taken = explain_in(balancer, frame, NamedFigure::Taken(self.root), depth)?;
        // Of a batch of which nothing is made, nothing is taken.
        let times = taken.value.figure().checked_div(made.value.figure()).unwrap_or_default();
        let value = ReasonValue::Weight(Share::from_fraction(&times * whole.value.figure()));
        let (figure, parts) = (whole.figure.clone(), vec![ReasonPart { times, reason: whole }]);
        Ok(Reason { figure, value, kind: ReasonKind::Batch, parts })
    }
}

/// The same figure of another stage.
fn moved(figure: NamedFigure, to: StageId) -> NamedFigure {
    match figure {
        NamedFigure::Hydration(_) => NamedFigure::Hydration(Some(to)),
        NamedFigure::PrefermentedFlour(_) => NamedFigure::PrefermentedFlour(Some(to)),
        NamedFigure::Flour(_) => NamedFigure::Flour(Some(to)),
        NamedFigure::Water(_) => NamedFigure::Water(Some(to)),
        NamedFigure::OwnFlour(_) => NamedFigure::OwnFlour(to),
        NamedFigure::Line(_, line) => NamedFigure::Line(to, line),
        NamedFigure::Taken(_) => NamedFigure::Taken(to),
        NamedFigure::Made(_) => NamedFigure::Made(to),
        NamedFigure::Seed(_) => NamedFigure::Seed(to),
        NamedFigure::GivenBack(_) => NamedFigure::GivenBack(to),
        NamedFigure::LeftOver(_) => NamedFigure::LeftOver(to),
        NamedFigure::Steam(_) => NamedFigure::Steam(to),
        whole => whole,
    }
}
