//! Figures that a few facts settle together.

use levamen_formula::{FigureId, Origin};
use levamen_quantity::{Exact, Share};

use super::explain::Explainer;
use super::{Because, Coupled, Part, Together, Value};

impl Explainer<'_> {
    /// How a figure follows from facts that lean on each other. What they need from elsewhere stands below.
    pub(super) fn together(&mut self, block: usize, depth: usize) -> (Because, Vec<Part>) {
        let frame = self.frame;
        let Some(block) = self.derivation.block(block).cloned() else {
            return (Because::Nothing, Vec::new());
        };
        let facts = &frame.solved.facts;
        let figure = |id: FigureId| facts.figures().get(id.index()).copied();
        let figures = block.figures.iter().filter_map(|id| figure(*id));
        let figures: Vec<(String, Value)> = figures
            .map(|figure| (self.name(figure), Value::Weight(Share::from_fraction(frame.value(figure)))))
            .collect();
        let mut coupled = Vec::new();
        let mut outside: Vec<FigureId> = Vec::new();
        for fact in block.facts.iter().filter_map(|index| facts.facts().get(*index)) {
            let place = match fact.origin {
                Origin::Stated(place) => Some(place),
                Origin::Sum(_) => None,
            };
            let mut terms = Vec::new();
            for (id, times) in facts.terms(fact) {
                let Some(figure) = figure(*id).filter(|figure| !frame.value(*figure).is_zero()) else {
                    continue;
                };
                if !block.figures.contains(id) && !outside.contains(id) {
                    outside.push(*id);
                }
                terms.push((self.name(figure), times.clone()));
            }
            coupled.push(Coupled { place, terms });
        }
        for (id, (name, _)) in block.figures.iter().zip(&figures) {
            self.explained(*id, name);
        }
        let from =
            outside.into_iter().map(|id| Part { times: Exact::ONE, reason: self.reason(id, depth + 1) });
        (Because::Together(Together { figures, facts: coupled }), from.collect())
    }
}
