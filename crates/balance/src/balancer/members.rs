//! The doughs of a circle, each with its equations in which what it takes from the circle is still to be found.

use std::borrow::Cow;

use levamen_formula::{
    Composition, Equations, Formula, FormulaId, IngredientId, Item, StageId, Variable, build_equations,
};
use levamen_language::Problem;
use levamen_quantity::Exact;
use rustc_hash::{FxHashMap, FxHashSet};

use super::Balancer;
use crate::linear::Values;
use crate::problems;
use crate::solved::{MAX_SEPARATE_DEPTH, Mixture};

/// Doughs that take from each other.
pub(crate) struct Circle<'f> {
    /// The doughs themselves first, then those of their separate batches that take from the circle.
    pub members: Vec<Member<'f>>,
    /// How many of the members are doughs themselves.
    pub doughs: usize,
    /// Every ingredient that anything in the circle may hold.
    pub ingredients: Vec<IngredientId>,
}

/// A dough of the circle, or a separate batch of one.
pub(crate) struct Member<'f> {
    pub formula: Cow<'f, Formula>,
    pub equations: Equations,
    pub links: Vec<Link>,
    /// Whether its own lines contradict each other, whatever the others are made of.
    pub contradicts_itself: bool,
    /// What it weighs in grams, where its own weights say so.
    grams: Option<Exact>,
}

/// A line that takes from the circle.
pub(crate) struct Link {
    pub stage: StageId,
    pub line: u32,
    /// The member that it takes from.
    pub to: usize,
    /// What is taken into one gram of the member; `None` where that depends on what the others are made of.
    pub weight: Option<Exact>,
    /// The flour that is taken into one gram of the member's flour; `None` likewise.
    pub flour: Option<Exact>,
}

/// What is known of a separate batch.
enum SeparatePart {
    Known(Box<Mixture>),
    /// It takes from the circle itself, and is this member.
    Open(usize),
}

impl<'f> Circle<'f> {
    /// The doughs of a circle, of which all other sources are solved.
    ///
    /// # Errors
    /// Problems and the dough that has them.
    pub fn new(
        balancer: &mut Balancer<'_>,
        formulas: &[(Option<FormulaId>, &'f Formula)],
    ) -> Result<Self, (Option<FormulaId>, Vec<Problem>)> {
        let roots = formulas.iter().zip(0..).filter_map(|((id, _), index)| Some(((*id)?, index))).collect();
        let ingredients = ingredients(balancer, formulas);
        let open = Composition::open(&ingredients);
        let mut builder = MembersBuilder {
            balancer,
            roots,
            open,
            doughs: Vec::new(),
            parts: Vec::new(),
            count: formulas.len(),
        };
        for (index, (id, formula)) in formulas.iter().enumerate() {
            let member =
                builder.member(Cow::Borrowed(*formula), index, 0).map_err(|problems| (*id, problems))?;
            builder.doughs.push(member);
        }
        let MembersBuilder { doughs: mut members, parts, count: doughs, .. } = builder;
        members.extend(parts);
        Ok(Self { members, doughs, ingredients })
    }
}

/// Every ingredient that is weighed in a circle or comes into it with something from outside, in the order in which the
/// doughs name them.
fn ingredients(balancer: &Balancer<'_>, formulas: &[(Option<FormulaId>, &Formula)]) -> Vec<IngredientId> {
    let mut found: Vec<IngredientId> = Vec::new();
    for (_, formula) in formulas {
        let overall = formula.overall.iter().flat_map(|overall| &overall.lines);
        for line in formula.stages.iter().flat_map(|stage| &stage.lines).chain(overall) {
            match line.item {
                Item::Ingredient(id) => found.push(id),
                Item::Seed(id, _) | Item::Piece(id) => {
                    // One that has none is reported when its equations are built.
                    let parts = balancer.composition(id).map(Composition::parts).unwrap_or_default();
                    found.extend(parts.iter().map(|(id, _)| *id));
                }
                Item::Stage(_) | Item::OwnPiece => {}
            }
        }
    }
    let mut seen = FxHashSet::default();
    found.retain(|id| seen.insert(*id));
    found
}

/// Makes the members of a circle.
struct MembersBuilder<'s, 'b, 'f> {
    balancer: &'s mut Balancer<'b>,
    /// The doughs of the circle by their ids.
    roots: FxHashMap<FormulaId, usize>,
    open: Composition,
    doughs: Vec<Member<'f>>,
    parts: Vec<Member<'f>>,
    /// How many doughs there will be.
    count: usize,
}

impl<'f> MembersBuilder<'_, '_, 'f> {
    /// A dough, or a separate batch of the dough `root`.
    fn member(
        &mut self,
        formula: Cow<'f, Formula>,
        root: usize,
        depth: usize,
    ) -> Result<Member<'f>, Vec<Problem>> {
        let parts = self.parts(&formula, root, depth)?;
        let equations = self.equations(&formula, &parts)?;
        let by_weight = self.solve(&equations, Variable::Dough);
        let by_flour = self.solve(&equations, Variable::Flour);
        let value = |values: &Option<Values>, figure| values.as_ref()?.get(equations.id(figure)?).cloned();
        let taking = equations.intakes().iter().filter(|intake| intake.is_open() && intake.stays());
        let links = taking.filter_map(|intake| {
            Some(Link {
                stage: intake.stage,
                line: intake.line,
                to: self.target(intake.item, root, &parts)?,
                weight: value(&by_weight, Variable::Intake(intake.stage, intake.line)),
                flour: value(&by_flour, Variable::ContainedFlour(intake.stage, intake.line)),
            })
        });
        let links = links.collect();
        let grams = value(&by_weight, Variable::Gram).and_then(|gram| Exact::ONE.checked_div(&gram));
        let contradicts_itself = by_weight.is_none() && by_flour.is_none();
        Ok(Member { formula, equations, links, contradicts_itself, grams })
    }

    /// The separate batches of a formula: those that take from the circle become members.
    fn parts(
        &mut self,
        formula: &Formula,
        root: usize,
        depth: usize,
    ) -> Result<FxHashMap<StageId, SeparatePart>, Vec<Problem>> {
        let mut parts = FxHashMap::default();
        for (id, stage) in formula.portioned() {
            if depth >= MAX_SEPARATE_DEPTH {
                return Err(vec![problems::too_deep(stage)]);
            }
            let Some(part) = formula.separate_batch(id) else { continue };
            let known =
                if part.stages.iter().flat_map(|stage| &stage.lines).any(|line| self.is_open(line.item)) {
                    let member = self.member(Cow::Owned(part), root, depth + 1)?;
                    self.parts.push(member);
                    SeparatePart::Open(self.count + self.parts.len() - 1)
                } else {
                    let balance = self.balancer.balance_formula(&part, depth + 1, None)?;
                    SeparatePart::Known(Box::new(self.balancer.to_mixture(balance, &part)?))
                };
            parts.insert(id, known);
        }
        Ok(parts)
    }

    /// Whether something is taken from the circle.
    fn is_open(&self, item: Item) -> bool {
        match item {
            Item::Seed(id, _) | Item::Piece(id) => self.roots.contains_key(&id),
            Item::OwnPiece => true,
            Item::Stage(_) | Item::Ingredient(_) => false,
        }
    }

    /// The equations of a member: what it takes from the circle is open.
    fn equations(
        &self,
        formula: &Formula,
        parts: &FxHashMap<StageId, SeparatePart>,
    ) -> Result<Equations, Vec<Problem>> {
        let composition = |item: Item| match item {
            Item::Stage(id) => match parts.get(&id)? {
                SeparatePart::Known(mixture) => Some(&mixture.composition),
                SeparatePart::Open(_) => Some(&self.open),
            },
            _ if self.is_open(item) => Some(&self.open),
            Item::Seed(id, _) | Item::Piece(id) => self.balancer.composition(id),
            Item::OwnPiece | Item::Ingredient(_) => None,
        };
        let made: Vec<(StageId, Exact)> = formula
            .portioned()
            .into_iter()
            .filter_map(|(id, _)| match parts.get(&id)? {
                SeparatePart::Known(mixture) => Some((id, mixture.grams()?)),
                SeparatePart::Open(member) => Some((id, self.parts.get(member - self.count)?.grams.clone()?)),
            })
            .collect();
        let book = self.balancer.book;
        build_equations(formula, book.pantry(), composition, &made)
            .map_err(|item| vec![problems::source_has_problems(book, formula, item)])
    }

    /// The equations of a member where one figure is one; `None` where they contradict each other.
    fn solve(&mut self, equations: &Equations, unit: Variable) -> Option<Values> {
        self.balancer.solver.solve(equations, equations.id(unit)?).ok()
    }

    /// The member that something is taken from.
    fn target(&self, item: Item, root: usize, parts: &FxHashMap<StageId, SeparatePart>) -> Option<usize> {
        match item {
            Item::Seed(id, _) | Item::Piece(id) => self.roots.get(&id).copied(),
            Item::OwnPiece => Some(root),
            Item::Stage(id) => match parts.get(&id)? {
                SeparatePart::Open(member) => Some(*member),
                SeparatePart::Known(_) => None,
            },
            Item::Ingredient(_) => None,
        }
    }
}
