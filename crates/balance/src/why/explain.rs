//! The reasons of the figures that facts speak of, each from the fact that gave its value.

use levamen_formula::{Book, Fact, Figure, FigureId, Formula, Intake, Item, Origin, Pantry, Term};
use levamen_language::Place;
use levamen_quantity::{Exact, Share};
use rustc_hash::FxHashMap;

use super::{Because, Coupled, Given, Part, Reason, Together, Value, words};
use crate::linear::{Derivation, How, Task, derive};
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
        let value = |figure| solved.facts.id(figure).and_then(|id| solved.values.get(id));
        let given = Given::size_of(solved.formula, value(Figure::Gram).is_some());
        let leaf = |figure: &str, value: Exact, given: Given| Reason {
            figure: figure.to_owned(),
            value: Value::Weight(Share::from_fraction(value)),
            because: Because::Given(given),
            from: Vec::new(),
        };
        let has_flour = value(Figure::Flour).is_some_and(|flour| !flour.is_zero());
        let unit = leaf(if has_flour { "flour" } else { "dough" }, Exact::ONE, given.clone());
        let is_of_batch = value(Figure::Gram) == value(Figure::BatchGram);
        let of_gram = if is_of_batch { Given::Weights } else { given };
        let gram =
            value(Figure::Gram).map(|gram| leaf("a gram as the text counts it", gram.clone(), of_gram));
        Self { book, solved, parts, scale: Exact::ONE, unit, gram }
    }

    /// The value of a figure; nothing where no fact speaks of it.
    pub fn value(&self, figure: Figure) -> Exact {
        let id = self.solved.facts.id(figure);
        let value = id.and_then(|id| self.solved.values.get(id));
        value.map(|value| value * &self.scale).unwrap_or_default()
    }

    /// The name of a figure.
    pub fn name(&self, figure: Figure) -> String {
        words::name(figure, self.formula(), self.pantry(), &self.solved.facts)
    }
}

/// Explains figures of a frame, each once.
pub(super) struct Explainer<'e> {
    pub frame: &'e Frame<'e>,
    /// The reckoning begins with this figure.
    start: Figure,
    /// Whether the water of the whole is what the ingredients come to, and not what the stages hold.
    pub(super) water_by_ingredient: bool,
    pub(super) derivation: Derivation,
    /// The names under which figures were explained.
    seen: FxHashMap<FigureId, String>,
}

impl<'e> Explainer<'e> {
    /// An explainer that reckons from a figure; `None` where nothing can be reckoned from it.
    pub fn new(frame: &'e Frame<'e>, start: Figure, water_by_ingredient: bool) -> Option<Self> {
        let facts = &frame.solved.facts;
        let id = facts.id(start)?;
        let known = [(id, frame.solved.values.get(id)?.clone())];
        let derivation = derive(&Task { facts, known: &known, without: &[], more: &[] }).ok()?;
        Some(Self { frame, start, water_by_ingredient, derivation, seen: FxHashMap::default() })
    }

    /// The reason of a figure.
    pub fn figure(&mut self, figure: Figure) -> Reason {
        match self.frame.solved.facts.id(figure) {
            Some(id) => self.reason(id, 0),
            None => nothing(self.frame.name(figure)),
        }
    }

    /// The reason of a figure at a depth of the tree.
    pub(super) fn reason(&mut self, id: FigureId, depth: usize) -> Reason {
        let frame = self.frame;
        let figure = frame.solved.facts.figures().get(id.index()).copied().unwrap_or(Figure::Flour);
        if figure == self.start {
            return self.start();
        }
        let (name, value) = (frame.name(figure), Value::Weight(Share::from_fraction(frame.value(figure))));
        let leaf = |because| Reason { figure: name.clone(), value: value.clone(), because, from: Vec::new() };
        if value.figure().is_zero() {
            return leaf(Because::Nothing);
        }
        if let Some(before) = self.seen.get(&id) {
            return leaf(Because::Again(before.clone()));
        }
        if depth >= DEEPEST {
            return leaf(Because::Deeper);
        }
        self.seen.insert(id, name.clone());
        let (because, from) = match self.derivation.how(id) {
            Some(How::Fact { fact, lead }) => self.by_fact(fact, lead, &name, depth),
            Some(How::Block(block)) => self.together(block, depth),
            Some(How::Known) | None => (Because::Nothing, Vec::new()),
        };
        Reason { figure: name, value, because, from }
    }

    /// Where the reckoning begins.
    fn start(&self) -> Reason {
        match (&self.start, &self.frame.gram) {
            (Figure::Gram, Some(gram)) => gram.clone(),
            _ => self.frame.unit.clone(),
        }
    }

    /// How a figure follows from a fact in which it was the only unknown.
    fn by_fact(&mut self, fact: usize, lead: usize, name: &str, depth: usize) -> (Because, Vec<Part>) {
        let facts = &self.frame.solved.facts;
        let Some(fact) = facts.facts().get(fact) else { return (Because::Nothing, Vec::new()) };
        let terms = facts.terms(fact);
        let Some((id, coefficient)) = terms.get(lead) else { return (Because::Nothing, Vec::new()) };
        let others = terms.iter().enumerate().filter(|(index, _)| *index != lead).map(|(_, term)| term);
        let parts: Vec<Part> = others.filter_map(|term| self.part(fact, term, coefficient, depth)).collect();
        match fact.origin {
            Origin::Stated(place) => (Because::Stated(place), parts),
            Origin::Sum(_) => match self.intake(*id).filter(|_| !coefficient.abs().is_one()) {
                Some(intake) => (self.composition(intake), parts),
                None => self.sum(parts, name),
            },
        }
    }

    /// A term of a fact as a part of the figure with that coefficient; `None` where there is nothing of it.
    fn part(&mut self, fact: &Fact, term: &Term, lead: &Exact, depth: usize) -> Option<Part> {
        let (id, coefficient) = term;
        let times = -coefficient.checked_div(lead)?;
        if times.is_zero() || self.frame.solved.values.get(*id)?.is_zero() {
            return None;
        }
        let share = coefficient.abs();
        let portion = match fact.origin {
            Origin::Sum(of) if !share.is_one() => self.intake(*id).map(|intake| (of, intake)),
            _ => None,
        };
        let Some((of, intake)) = portion else {
            return Some(Part { times, reason: self.reason(*id, depth + 1) });
        };
        // What is taken counts with the share of it that the sum is about.
        let held = self.portion(of, intake, *id, &share, depth + 1);
        Some(Part { times: times.checked_div(&share)?, reason: held })
    }

    /// The flour, the water or an ingredient in something that is taken.
    fn portion(
        &mut self,
        of: FigureId,
        intake: &Intake,
        id: FigureId,
        share: &Exact,
        depth: usize,
    ) -> Reason {
        let frame = self.frame;
        let what = match frame.solved.facts.figures().get(of.index()) {
            Some(Figure::Content(_)) => "flour".to_owned(),
            Some(Figure::ContentWater(_)) => "water".to_owned(),
            Some(figure) => frame.name(*figure),
            None => String::new(),
        };
        let from = Part { times: share.clone(), reason: self.reason(id, depth) };
        let name = format!("{what} of {}", from.reason.figure);
        let value = Value::Weight(Share::from_fraction(share * from.reason.value.figure()));
        Reason { figure: name, value, because: self.composition(intake), from: vec![from] }
    }

    /// A sum of one part is that part under another name.
    fn sum(&mut self, mut parts: Vec<Part>, name: &str) -> (Because, Vec<Part>) {
        match parts.pop() {
            Some(only) if parts.is_empty() && only.times.is_one() => {
                // Who refers to either of the two names is sent to the one that is explained.
                let (from, to) = match &only.reason.because {
                    Because::Again(before) => (name, before.as_str()),
                    _ => (only.reason.figure.as_str(), name),
                };
                for known in self.seen.values_mut().filter(|known| *known == from) {
                    to.clone_into(known);
                }
                (only.reason.because, only.reason.from)
            }
            last => {
                parts.extend(last);
                (if parts.is_empty() { Because::Nothing } else { Because::Sum }, parts)
            }
        }
    }

    /// The portion that a figure is.
    pub(super) fn intake(&self, id: FigureId) -> Option<&'e Intake> {
        let facts = &self.frame.solved.facts;
        match facts.figures().get(id.index()) {
            Some(Figure::Intake(stage, line)) => {
                facts.intakes().iter().find(|intake| intake.stage == *stage && intake.line == *line)
            }
            _ => None,
        }
    }

    /// What something that is taken is made of is said elsewhere.
    pub(super) fn composition(&self, intake: &Intake) -> Because {
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
        Because::Composition { source: source.to_owned(), place }
    }

    /// Whether the reckoning begins with a figure.
    pub(super) fn starts_with(&self, figure: Figure) -> bool {
        self.start == figure
    }

    /// The name that a figure has in the tree.
    pub(super) fn name(&self, figure: Figure) -> String {
        if figure == self.start { self.start().figure } else { self.frame.name(figure) }
    }

    /// A figure was explained under a name.
    pub(super) fn explained(&mut self, id: FigureId, name: &str) {
        self.seen.insert(id, name.to_owned());
    }
}

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

/// There is none of a figure.
pub(super) fn nothing(figure: String) -> Reason {
    Reason { figure, value: Value::Weight(Share::default()), because: Because::Nothing, from: Vec::new() }
}
