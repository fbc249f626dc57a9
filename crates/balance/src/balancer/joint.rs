//! All lines of a circle solved at once.

use levamen_formula::{Composition, EquationOrigin, Equations, Pantry, Term, Variable, VariableId};
use levamen_quantity::Exact;

use super::members::{Circle, Link, Member};
use crate::linear::{System, Values, solve};

/// Why a circle has no steady composition that could be found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum UnsteadyReason {
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
enum PieceMeasure {
    Weight,
    Flour,
}

impl PieceMeasure {
    /// The figure of each member that is one.
    const fn unit(self) -> Variable {
        match self {
            Self::Weight => Variable::Dough,
            Self::Flour => Variable::Flour,
        }
    }

    /// The figure of a link that is known.
    const fn measured(self, link: &Link) -> Variable {
        match self {
            Self::Weight => Variable::Intake(link.stage, link.line),
            Self::Flour => Variable::ContainedFlour(link.stage, link.line),
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
    pub fn solve(&self, pantry: &Pantry) -> Result<Vec<Composition>, UnsteadyReason> {
        if self.ingredients.is_empty() {
            return Err(UnsteadyReason::Open((0..self.members.len()).collect()));
        }
        if self.members.iter().any(|member| member.contradicts_itself) {
            return Err(UnsteadyReason::ContradictsItself);
        }
        let mut reason = UnsteadyReason::Mixed;
        for measure in [PieceMeasure::Weight, PieceMeasure::Flour] {
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

    fn solve_by(&self, measure: PieceMeasure, pantry: &Pantry) -> Result<Vec<Composition>, UnsteadyReason> {
        let offsets = self.offsets();
        let mut system =
            CircleSystem { circle: self, offsets: &offsets, measure, known: Vec::new(), rows: Vec::new() };
        for (member, offset) in self.members.iter().zip(&offsets) {
            system.add(member, *offset).ok_or(UnsteadyReason::CannotHold)?;
        }
        let CircleSystem { known, rows, .. } = system;
        let system = System { equations: &Equations::default(), known: &known, without: &[], more: &rows };
        let values = solve(&system).map_err(|_| UnsteadyReason::CannotHold)?;
        let members = self.members.iter().zip(&offsets);
        let found =
            members.map(|(member, offset)| composition_of(&member.equations, &values, *offset, pantry));
        let found: Vec<Option<Composition>> = found.collect();
        let open: Vec<usize> =
            (0..).zip(&found).filter(|(_, found)| found.is_none()).map(|(at, _)| at).collect();
        if open.is_empty() {
            Ok(found.into_iter().flatten().take(self.doughs).collect())
        } else {
            Err(UnsteadyReason::Open(open))
        }
    }

    /// Where the figures of each member start among those of all.
    fn offsets(&self) -> Vec<u32> {
        let mut next: u32 = 0;
        let offset = |member: &Member<'_>| {
            let own = next;
            next = next.saturating_add(u32::try_from(member.equations.variables().len()).unwrap_or(u32::MAX));
            own
        };
        self.members.iter().map(offset).collect()
    }
}

/// The equations of all members, and that what is taken is made of what it is taken from.
struct CircleSystem<'c, 'f> {
    circle: &'c Circle<'f>,
    offsets: &'c [u32],
    measure: PieceMeasure,
    known: Vec<Term>,
    rows: Vec<Vec<Term>>,
}

impl CircleSystem<'_, '_> {
    /// Adds a member whose figures start at `offset`.
    fn add(&mut self, member: &Member<'_>, offset: u32) -> Option<()> {
        self.known.push((moved(member.equations.id(self.measure.unit())?, offset), Exact::ONE));
        let mut taken = Vec::with_capacity(member.links.len());
        for link in &member.links {
            let measured = member.equations.id(self.measure.measured(link))?;
            let amount = self.measure.of(link)?;
            self.known.push((moved(measured, offset), amount.clone()));
            self.tie(member, offset, link, amount)?;
            taken.push(EquationOrigin::Sum(measured));
        }
        // That what is taken is the sum of what it holds follows from the same of what it is taken from. Left out, each
        // ingredient goes round the circle on its own.
        let equations = member.equations.all().iter().filter(|equation| !taken.contains(&equation.origin));
        self.rows.extend(equations.map(|equation| {
            let terms = member.equations.terms(equation).iter();
            terms.map(|(id, factor)| (moved(*id, offset), factor.clone())).collect()
        }));
        Some(())
    }

    /// What is taken is made of what it is taken from.
    fn tie(&mut self, member: &Member<'_>, offset: u32, link: &Link, amount: &Exact) -> Option<()> {
        let (source, from) = (self.circle.members.get(link.to)?, *self.offsets.get(link.to)?);
        for ingredient in &self.circle.ingredients {
            let contained = member.equations.id(Variable::Contained(link.stage, link.line, *ingredient))?;
            let mut row = vec![(moved(contained, offset), Exact::ONE)];
            row.extend(source.equations.id(Variable::Row(*ingredient)).map(|id| (moved(id, from), -amount)));
            self.rows.push(row);
        }
        Some(())
    }
}

fn moved(id: VariableId, offset: u32) -> VariableId {
    VariableId(id.0.saturating_add(offset))
}

/// What a dough is made of by its figures; `None` where one of its ingredients is free.
pub(crate) fn composition_of(
    equations: &Equations,
    values: &Values,
    offset: u32,
    pantry: &Pantry,
) -> Option<Composition> {
    let mut weights = Vec::new();
    for (id, figure) in (0..).map(VariableId).zip(equations.variables()) {
        if let Variable::Row(ingredient) = figure {
            weights.push((*ingredient, values.get(moved(id, offset))?.clone()));
        }
    }
    Composition::from_weights(weights, pantry)
}
