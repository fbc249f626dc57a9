//! All lines of a circle solved at once.

use levamen_formula::{Composition, Facts, Figure, FigureId, Pantry, Term};
use levamen_quantity::Exact;

use super::members::{Circle, Link, Member};
use crate::linear::{Task, Values, solve};

/// Why a circle has no steady composition that could be found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Reason {
    /// The lines of one member contradict each other, whatever the others are made of.
    ContradictsItself,
    /// One piece is known by its weight and another by its flour, or a piece by neither.
    Mixed,
    /// The lines leave free what these members are made of.
    Open(Vec<usize>),
    /// All lines together cannot hold.
    CannotHold,
}

/// How the pieces of a circle are known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Measure {
    Weight,
    Flour,
}

impl Measure {
    /// The figure of each member that is one.
    const fn unit(self) -> Figure {
        match self {
            Self::Weight => Figure::Dough,
            Self::Flour => Figure::Flour,
        }
    }

    fn of(self, link: &Link) -> Option<&Exact> {
        match self {
            Self::Weight => link.weight.as_ref(),
            Self::Flour => link.flour.as_ref(),
        }
    }
}

impl Circle<'_> {
    /// What each dough of the circle is made of.
    ///
    /// # Errors
    /// The reason why that cannot be found.
    pub fn solve(&self, pantry: &Pantry) -> Result<Vec<Composition>, Reason> {
        if self.ingredients.is_empty() {
            return Err(Reason::Open((0..self.members.len()).collect()));
        }
        if self.members.iter().any(|member| member.contradicts_itself) {
            return Err(Reason::ContradictsItself);
        }
        let mut reason = Reason::Mixed;
        for measure in [Measure::Weight, Measure::Flour] {
            let links = || self.members.iter().flat_map(|member| &member.links);
            if links().any(|link| measure.of(link).is_none()) {
                continue;
            }
            match self.solve_by(measure, pantry) {
                Ok(compositions) => return Ok(compositions),
                Err(found) => reason = found,
            }
        }
        Err(reason)
    }

    fn solve_by(&self, measure: Measure, pantry: &Pantry) -> Result<Vec<Composition>, Reason> {
        let offsets = self.offsets();
        let mut known: Vec<Term> = Vec::new();
        let mut rows: Vec<Vec<Term>> = Vec::new();
        for (member, offset) in self.members.iter().zip(&offsets) {
            let unit = member.facts.id(measure.unit()).ok_or(Reason::CannotHold)?;
            known.push((moved(unit, *offset), Exact::ONE));
            let facts = member.facts.facts().iter().map(|fact| member.facts.terms(fact));
            rows.extend(facts.map(|terms| {
                terms.iter().map(|(id, factor)| (moved(*id, *offset), factor.clone())).collect()
            }));
            for link in &member.links {
                self.tie(member, *offset, link, measure, &offsets, &mut rows);
            }
        }
        let task = Task { facts: &Facts::default(), known: &known, without: &[], more: &rows };
        let values = solve(&task).map_err(|_| Reason::CannotHold)?;
        let compositions = self
            .members
            .iter()
            .zip(&offsets)
            .map(|(member, offset)| composition_of(&member.facts, &values, *offset, pantry));
        let compositions: Vec<Option<Composition>> = compositions.collect();
        let open =
            compositions.iter().enumerate().filter(|(_, found)| found.is_none()).map(|(member, _)| member);
        let open: Vec<usize> = open.collect();
        if open.is_empty() {
            Ok(compositions.into_iter().flatten().take(self.doughs).collect())
        } else {
            Err(Reason::Open(open))
        }
    }

    /// What is taken is made of what it is taken from.
    fn tie(
        &self,
        member: &Member<'_>,
        offset: u32,
        link: &Link,
        measure: Measure,
        offsets: &[u32],
        rows: &mut Vec<Vec<Term>>,
    ) {
        let (Some(source), Some(from), Some(taken)) =
            (self.members.get(link.to), offsets.get(link.to), measure.of(link))
        else {
            return;
        };
        for ingredient in &self.ingredients {
            let Some(held) = member.facts.id(Figure::Held(link.stage, link.line, *ingredient)) else {
                continue;
            };
            let mut row = vec![(moved(held, offset), Exact::ONE)];
            row.extend(source.facts.id(Figure::Row(*ingredient)).map(|id| (moved(id, *from), -taken)));
            rows.push(row);
        }
    }

    /// Where the figures of each member start among those of all.
    fn offsets(&self) -> Vec<u32> {
        let mut next: u32 = 0;
        let offset = |member: &Member<'_>| {
            let own = next;
            next = next.saturating_add(u32::try_from(member.facts.figures().len()).unwrap_or(u32::MAX));
            own
        };
        self.members.iter().map(offset).collect()
    }
}

fn moved(id: FigureId, offset: u32) -> FigureId {
    FigureId(id.0.saturating_add(offset))
}

/// What a dough is made of by its figures; `None` where one of its ingredients is free.
pub(crate) fn composition_of(
    facts: &Facts,
    values: &Values,
    offset: u32,
    pantry: &Pantry,
) -> Option<Composition> {
    let mut weights = Vec::new();
    for (id, figure) in (0..).map(FigureId).zip(facts.figures()) {
        if let Figure::Row(ingredient) = figure {
            weights.push((*ingredient, values.get(moved(id, offset))?.clone()));
        }
    }
    Composition::from_weights(weights, pantry)
}
