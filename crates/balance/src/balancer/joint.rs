//! All lines of a circle solved at once.

use levamen_formula::{Composition, Facts, Figure, FigureId, Origin, Pantry, Term};
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

    /// The figure of a link that is known.
    const fn measured(self, link: &Link) -> Figure {
        match self {
            Self::Weight => Figure::Intake(link.stage, link.line),
            Self::Flour => Figure::HeldFlour(link.stage, link.line),
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
        let mut system =
            System { circle: self, offsets: &offsets, measure, known: Vec::new(), rows: Vec::new() };
        for (member, offset) in self.members.iter().zip(&offsets) {
            system.add(member, *offset).ok_or(Reason::CannotHold)?;
        }
        let System { known, rows, .. } = system;
        let task = Task { facts: &Facts::default(), known: &known, without: &[], more: &rows };
        let values = solve(&task).map_err(|_| Reason::CannotHold)?;
        let members = self.members.iter().zip(&offsets);
        let found = members.map(|(member, offset)| composition_of(&member.facts, &values, *offset, pantry));
        let found: Vec<Option<Composition>> = found.collect();
        let open: Vec<usize> =
            (0..).zip(&found).filter(|(_, found)| found.is_none()).map(|(at, _)| at).collect();
        if open.is_empty() {
            Ok(found.into_iter().flatten().take(self.doughs).collect())
        } else {
            Err(Reason::Open(open))
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

/// The facts of all members, and that what is taken is made of what it is taken from.
struct System<'c, 'f> {
    circle: &'c Circle<'f>,
    offsets: &'c [u32],
    measure: Measure,
    known: Vec<Term>,
    rows: Vec<Vec<Term>>,
}

impl System<'_, '_> {
    /// Adds a member whose figures start at `offset`.
    fn add(&mut self, member: &Member<'_>, offset: u32) -> Option<()> {
        self.known.push((moved(member.facts.id(self.measure.unit())?, offset), Exact::ONE));
        let mut taken = Vec::with_capacity(member.links.len());
        for link in &member.links {
            let measured = member.facts.id(self.measure.measured(link))?;
            let amount = self.measure.of(link)?;
            self.known.push((moved(measured, offset), amount.clone()));
            self.tie(member, offset, link, amount)?;
            taken.push(Origin::Sum(measured));
        }
        // That what is taken is the sum of what it holds follows from the same of what it is taken from. Left out, each
        // ingredient goes round the circle on its own.
        let facts = member.facts.facts().iter().filter(|fact| !taken.contains(&fact.origin));
        self.rows.extend(facts.map(|fact| {
            let terms = member.facts.terms(fact).iter();
            terms.map(|(id, factor)| (moved(*id, offset), factor.clone())).collect()
        }));
        Some(())
    }

    /// What is taken is made of what it is taken from.
    fn tie(&mut self, member: &Member<'_>, offset: u32, link: &Link, amount: &Exact) -> Option<()> {
        let (source, from) = (self.circle.members.get(link.to)?, *self.offsets.get(link.to)?);
        for ingredient in &self.circle.ingredients {
            let held = member.facts.id(Figure::Held(link.stage, link.line, *ingredient))?;
            let mut row = vec![(moved(held, offset), Exact::ONE)];
            row.extend(source.facts.id(Figure::Row(*ingredient)).map(|id| (moved(id, from), -amount)));
            self.rows.push(row);
        }
        Some(())
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
