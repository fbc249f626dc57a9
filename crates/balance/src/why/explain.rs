//! The reasons of the figures that equations mention, each from the equation that gave its value.

use levamen_formula::{
    Book, Equation, EquationOrigin, Formula, Intake, Item, Pantry, Term, Variable, VariableId,
};
use levamen_language::Place;
use levamen_quantity::{Exact, Share};
use rustc_hash::FxHashMap;

use super::{CoupledEquation, CoupledEquations, Reason, ReasonKind, ReasonPart, ReasonValue, SizeSource};
use crate::figure_text;
use crate::linear::{Derivation, System, ValueSource, derive};
use crate::solved::{Parts, Solved};

/// How deep a tree may go: nobody reads one that is deeper.
const DEEPEST: usize = 40;

/// What is explained: a solved formula, at a size.
pub(super) struct Frame<'f> {
    pub book: &'f Book,
    pub solved: &'f Solved<'f>,
    pub parts: &'f Parts,
    /// Every weight is a share of this formula's unit; times this factor, of the whole dough's flour.
    pub scale: Exact,
    /// Why the unit is what it is.
    pub unit: Reason,
    /// Why a gram of the text is what it is; `None` where the text's weights do not tell the size of this formula.
    pub gram: Option<Reason>,
}

impl<'f> Frame<'f> {
    pub fn formula(&self) -> &'f Formula {
        self.solved.formula
    }

    pub fn pantry(&self) -> &'f Pantry {
        self.book.pantry()
    }

    /// The frame of a dough, with its whole flour as the unit.
    pub fn of_dough(book: &'f Book, solved: &'f Solved<'f>, parts: &'f Parts) -> Self {
        let value = |figure| solved.equations.id(figure).and_then(|id| solved.values.get(id));
        let given = SizeSource::size_of(solved.formula, value(Variable::Gram).is_some());
        let leaf = |figure: &str, value: Exact, given: SizeSource| Reason {
            figure: figure.to_owned(),
            value: ReasonValue::Weight(Share::from_fraction(value)),
            kind: ReasonKind::Size(given),
            parts: Vec::new(),
        };
        let has_flour = value(Variable::Flour).is_some_and(|flour| !flour.is_zero());
        let unit = leaf(if has_flour { "flour" } else { "dough" }, Exact::ONE, given.clone());
        let is_of_batch = value(Variable::Gram) == value(Variable::BatchGram);
        let of_gram = if is_of_batch { SizeSource::Weights } else { given };
        let gram =
            value(Variable::Gram).map(|gram| leaf("a gram as the text counts it", gram.clone(), of_gram));
        Self { book, solved, parts, scale: Exact::ONE, unit, gram }
    }

    /// The value of a figure; nothing where no equation mentions it.
    pub fn value(&self, figure: Variable) -> Exact {
        let id = self.solved.equations.id(figure);
        let value = id.and_then(|id| self.solved.values.get(id));
        value.map(|value| value * &self.scale).unwrap_or_default()
    }

    /// The name of a figure.
    pub fn name(&self, figure: Variable) -> String {
        figure_text::name(figure, self.formula(), self.pantry(), &self.solved.equations)
    }
}

/// Explains figures of a frame, each once.
pub(super) struct Explainer<'e> {
    pub frame: &'e Frame<'e>,
    /// The calculation begins with this figure.
    start: Variable,
    /// Whether the water of the whole is what the ingredients come to, and not what the stages hold.
    pub(super) water_by_ingredient: bool,
    pub(super) derivation: Derivation,
    /// The names under which figures were explained.
    seen: FxHashMap<VariableId, String>,
}

impl<'e> Explainer<'e> {
    /// An explainer that calculates from a figure; `None` where nothing can be calculated from it.
    pub fn new(frame: &'e Frame<'e>, start: Variable, water_by_ingredient: bool) -> Option<Self> {
        let equations = &frame.solved.equations;
        let id = equations.id(start)?;
        let known = [(id, frame.solved.values.get(id)?.clone())];
        let derivation = derive(&System { equations, known: &known, without: &[], more: &[] }).ok()?;
        Some(Self { frame, start, water_by_ingredient, derivation, seen: FxHashMap::default() })
    }

    /// The reason of a figure.
    pub fn figure(&mut self, figure: Variable) -> Reason {
        match self.frame.solved.equations.id(figure) {
            Some(id) => self.reason(id, 0),
            None => zero(self.frame.name(figure)),
        }
    }

    /// The reason of a figure at a depth of the tree.
    pub(super) fn reason(&mut self, id: VariableId, depth: usize) -> Reason {
        let frame = self.frame;
        let figure = frame.solved.equations.variables().get(id.index()).copied().unwrap_or(Variable::Flour);
        if figure == self.start {
            return self.start();
        }
        let (name, value) =
            (frame.name(figure), ReasonValue::Weight(Share::from_fraction(frame.value(figure))));
        let leaf = |kind| Reason { figure: name.clone(), value: value.clone(), kind, parts: Vec::new() };
        if value.figure().is_zero() {
            return leaf(ReasonKind::Zero);
        }
        if let Some(before) = self.seen.get(&id) {
            return leaf(ReasonKind::Repeated(before.clone()));
        }
        if depth >= DEEPEST {
            return leaf(ReasonKind::TooDeep);
        }
        self.seen.insert(id, name.clone());
        let (kind, parts) = match self.derivation.how(id) {
            Some(ValueSource::Equation { equation, lead }) => self.by_equation(equation, lead, &name, depth),
            Some(ValueSource::Block(block)) => self.together(block, depth),
            Some(ValueSource::Known) | None => (ReasonKind::Zero, Vec::new()),
        };
        Reason { figure: name, value, kind, parts }
    }

    /// Where the calculation begins.
    fn start(&self) -> Reason {
        match (&self.start, &self.frame.gram) {
            (Variable::Gram, Some(gram)) => gram.clone(),
            _ => self.frame.unit.clone(),
        }
    }

    /// How a figure follows from an equation in which it was the only unknown.
    fn by_equation(
        &mut self,
        equation: usize,
        lead: usize,
        name: &str,
        depth: usize,
    ) -> (ReasonKind, Vec<ReasonPart>) {
        let equations = &self.frame.solved.equations;
        let Some(equation) = equations.all().get(equation) else { return (ReasonKind::Zero, Vec::new()) };
        let terms = equations.terms(equation);
        let Some((id, coefficient)) = terms.get(lead) else { return (ReasonKind::Zero, Vec::new()) };
        let others = terms.iter().enumerate().filter(|(index, _)| *index != lead).map(|(_, term)| term);
        let parts: Vec<ReasonPart> =
            others.filter_map(|term| self.part(equation, term, coefficient, depth)).collect();
        match equation.origin {
            EquationOrigin::Stated(place) => (ReasonKind::Stated(place), parts),
            EquationOrigin::Sum(_) => match self.intake(*id).filter(|_| !coefficient.abs().is_one()) {
                Some(intake) => (self.composition(intake), parts),
                None => self.sum(parts, name),
            },
        }
    }

    /// A term of an equation as a part of the figure with that coefficient; `None` where there is nothing of it.
    fn part(&mut self, equation: &Equation, term: &Term, lead: &Exact, depth: usize) -> Option<ReasonPart> {
        let (id, coefficient) = term;
        let times = -coefficient.checked_div(lead)?;
        if times.is_zero() || self.frame.solved.values.get(*id)?.is_zero() {
            return None;
        }
        let share = coefficient.abs();
        let portion = match equation.origin {
            EquationOrigin::Sum(of) if !share.is_one() => self.intake(*id).map(|intake| (of, intake)),
            _ => None,
        };
        let Some((of, intake)) = portion else {
            return Some(ReasonPart { times, reason: self.reason(*id, depth + 1) });
        };
        // What is taken counts with the share of it that the sum is about.
        let contained = self.portion(of, intake, *id, &share, depth + 1);
        Some(ReasonPart { times: times.checked_div(&share)?, reason: contained })
    }

    /// The flour, the water or an ingredient in something that is taken.
    fn portion(
        &mut self,
        of: VariableId,
        intake: &Intake,
        id: VariableId,
        share: &Exact,
        depth: usize,
    ) -> Reason {
        let frame = self.frame;
        let what = match frame.solved.equations.variables().get(of.index()) {
            Some(Variable::Content(_)) => "flour".to_owned(),
            Some(Variable::ContentWater(_)) => "water".to_owned(),
            Some(figure) => frame.name(*figure),
            None => String::new(),
        };
        let part = ReasonPart { times: share.clone(), reason: self.reason(id, depth) };
        let name = format!("{what} of {}", part.reason.figure);
        let value = ReasonValue::Weight(Share::from_fraction(share * part.reason.value.figure()));
        Reason { figure: name, value, kind: self.composition(intake), parts: vec![part] }
    }

    /// A sum of one part is that part under another name.
    fn sum(&mut self, mut parts: Vec<ReasonPart>, name: &str) -> (ReasonKind, Vec<ReasonPart>) {
        match parts.pop() {
            Some(only) if parts.is_empty() && only.times.is_one() => {
                // Who refers to either of the two names is sent to the one that is explained.
                let (parts, to) = match &only.reason.kind {
                    ReasonKind::Repeated(before) => (name, before.as_str()),
                    _ => (only.reason.figure.as_str(), name),
                };
                for known in self.seen.values_mut().filter(|known| *known == parts) {
                    to.clone_into(known);
                }
                (only.reason.kind, only.reason.parts)
            }
            last => {
                parts.extend(last);
                (if parts.is_empty() { ReasonKind::Zero } else { ReasonKind::Sum }, parts)
            }
        }
    }

    /// The portion that a figure is.
    pub(super) fn intake(&self, id: VariableId) -> Option<&'e Intake> {
        let equations = &self.frame.solved.equations;
        match equations.variables().get(id.index()) {
            Some(Variable::Intake(stage, line)) => {
                equations.intakes().iter().find(|intake| intake.stage == *stage && intake.line == *line)
            }
            _ => None,
        }
    }

    /// What something that is taken is made of is said elsewhere.
    pub(super) fn composition(&self, intake: &Intake) -> ReasonKind {
        let formula = self.frame.formula();
        let (source, place): (&str, Place) = match intake.item {
            Item::Seed(id, _) | Item::Piece(id) => match self.frame.book.entry(id) {
                Some(entry) => (&entry.name, entry.place),
                None => ("another dough", formula.place),
            },
            Item::Stage(id) => match formula.stage(id) {
                Some(stage) => (&stage.name, stage.place),
                None => ("a stage", formula.place),
            },
            Item::OwnPiece | Item::Ingredient(_) => (&formula.name, formula.place),
        };
        ReasonKind::Composition { source: source.to_owned(), place }
    }

    /// Whether the calculation begins with a figure.
    pub(super) fn starts_with(&self, figure: Variable) -> bool {
        self.start == figure
    }

    /// The name that a figure has in the tree.
    pub(super) fn name(&self, figure: Variable) -> String {
        if figure == self.start { self.start().figure } else { self.frame.name(figure) }
    }

    /// A figure was explained under a name.
    pub(super) fn explained(&mut self, id: VariableId, name: &str) {
        self.seen.insert(id, name.to_owned());
    }
}

impl Explainer<'_> {
    /// How a figure follows from equations that depend on each other. What they need from elsewhere is below.
    pub(super) fn together(&mut self, block: usize, depth: usize) -> (ReasonKind, Vec<ReasonPart>) {
        let frame = self.frame;
        let Some(block) = self.derivation.block(block).cloned() else {
            return (ReasonKind::Zero, Vec::new());
        };
        let equations = &frame.solved.equations;
        let figure = |id: VariableId| equations.variables().get(id.index()).copied();
        let figures = block.variables.iter().filter_map(|id| figure(*id));
        let figures: Vec<(String, ReasonValue)> = figures
            .map(|figure| (self.name(figure), ReasonValue::Weight(Share::from_fraction(frame.value(figure)))))
            .collect();
        let mut coupled = Vec::new();
        let mut outside: Vec<VariableId> = Vec::new();
        for equation in block.equations.iter().filter_map(|index| equations.all().get(*index)) {
            let place = match equation.origin {
                EquationOrigin::Stated(place) => Some(place),
                EquationOrigin::Sum(_) => None,
            };
            let mut terms = Vec::new();
            for (id, times) in equations.terms(equation) {
                let Some(figure) = figure(*id).filter(|figure| !frame.value(*figure).is_zero()) else {
                    continue;
                };
                if !block.variables.contains(id) && !outside.contains(id) {
                    outside.push(*id);
                }
                terms.push((self.name(figure), times.clone()));
            }
            coupled.push(CoupledEquation { place, terms });
        }
        for (id, (name, _)) in block.variables.iter().zip(&figures) {
            self.explained(*id, name);
        }
        let parts = outside
            .into_iter()
            .map(|id| ReasonPart { times: Exact::ONE, reason: self.reason(id, depth + 1) });
        (ReasonKind::Coupled(CoupledEquations { figures, equations: coupled }), parts.collect())
    }
}

/// There is none of a figure.
pub(super) fn zero(figure: String) -> Reason {
    Reason { figure, value: ReasonValue::Weight(Share::default()), kind: ReasonKind::Zero, parts: Vec::new() }
}
