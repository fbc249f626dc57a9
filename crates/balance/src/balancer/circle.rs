//! Doughs that take from each other, and doughs that take from their own last batch: what they are made of when
//! batch after batch has been made.
//!
//! 1. A dough whose `overall` alone says what it is made of breaks the circle: it is known before its sources.
//! 2. What is left falls into smaller circles. In each, every piece is given a weight in each ingredient that is still
//!    to be found ([`super::members`]), and all lines of all its doughs are solved at once, together with the equations that a piece is
//!    made of what its dough is made of ([`super::joint`]).
//! 3. Each dough is then balanced as any other, from sources that are known.
//!
//! The equations of the second step are linear only where the pieces are all known by their weight, or all by their
//! flour. With `c` for what a gram of a dough is made of, a dough of one gram that takes `y` grams of another holds `y
//! · c` of it; `y` has to be a number. Where it is the flour of the piece that is a number, the same holds with `c` for
//! what a dough of one gram of flour is made of. Where one is known by its weight and another by its flour, the unknown
//! hydrations multiply, and the steady composition is no quotient of whole numbers in general: that is refused.

use levamen_formula::{Composition, Formula, FormulaId, Item, Variable, build_equations};
use levamen_language::Problem;
use rustc_hash::FxHashSet;

use super::Balancer;
use super::joint::composition_of;
use super::members::Circle;
use crate::problems;

impl Balancer<'_> {
    /// Solves the formulas of a group that take from each other; their other sources are solved.
    pub(crate) fn solve_circle(&mut self, group: &[FormulaId]) {
        let mut left: FxHashSet<FormulaId> = group.iter().copied().collect();
        for id in group {
            if let Some(composition) = self.book.formula(*id).and_then(|formula| self.overall_says(formula)) {
                self.steady.insert(*id, composition);
                left.remove(id);
            }
        }
        for smaller in self.book.solving_order(group, |id| left.contains(&id)) {
            match smaller.as_slice() {
                [one] => self.solve_one(*one),
                circle => self.solve_steady(circle),
            }
        }
        for id in group {
            if !self.solved.contains_key(id) {
                self.solve_one(*id);
            }
        }
        self.report_sources_with_problems(group);
    }

    /// Finds what the formulas of a circle are made of, or keeps why that cannot be found.
    fn solve_steady(&mut self, group: &[FormulaId]) {
        let named = |id: &FormulaId| Some((Some(*id), self.book.formula(*id)?));
        let formulas: Vec<(Option<FormulaId>, &Formula)> = group.iter().filter_map(named).collect();
        match self.steady_compositions(&formulas) {
            Ok(compositions) => self.steady.extend(group.iter().copied().zip(compositions)),
            Err((Some(id), problems)) => {
                self.solved.insert(id, Err(problems));
            }
            Err((None, _)) => debug_assert!(false, "the formulas of a circle of a book have ids"),
        }
    }

    /// What the dough's own last batch is made of. It is what the dough is made of.
    ///
    /// # Errors
    /// Where the dough has no steady composition, or problems that have nothing to do with its last batch.
    pub(crate) fn last_batch(&mut self, formula: &Formula) -> Result<Composition, Vec<Problem>> {
        if let Some(composition) = self.overall_says(formula) {
            return Ok(composition);
        }
        let compositions = self.steady_compositions(&[(None, formula)]).map_err(|(_, problems)| problems)?;
        compositions.into_iter().next().ok_or_else(|| vec![problems::weighs_nothing(formula)])
    }

    /// What each of some formulas that take from each other is made of.
    ///
    /// # Errors
    /// Problems and the formula that has them.
    fn steady_compositions(
        &mut self,
        formulas: &[(Option<FormulaId>, &Formula)],
    ) -> Result<Vec<Composition>, (Option<FormulaId>, Vec<Problem>)> {
        let circle = Circle::new(self, formulas)?;
        circle.solve(self.book.pantry()).map_err(|reason| self.explain_unsteady(&circle, formulas, reason))
    }

    /// What the dough is made of by its `overall` section, where that alone says it.
    fn overall_says(&mut self, formula: &Formula) -> Option<Composition> {
        let alone = formula.overall_alone()?;
        let pantry = self.book.pantry();
        let equations = build_equations(&alone, pantry, |_| None, &[]).ok()?;
        let values = self.solver.solve(&equations, equations.id(Variable::Flour)?).ok()?;
        composition_of(&equations, &values, 0, pantry)
    }

    /// A dough of a circle in which another has problems has problems itself.
    fn report_sources_with_problems(&mut self, group: &[FormulaId]) {
        if group.iter().all(|id| matches!(self.solved.get(id), Some(Ok(_)))) {
            return;
        }
        let members: FxHashSet<FormulaId> = group.iter().copied().collect();
        for id in group {
            let (Some(Ok(_)), Some(formula)) = (self.solved.get(id), self.book.formula(*id)) else {
                continue;
            };
            let mut items = formula.stages.iter().flat_map(|stage| &stage.lines).map(|line| line.item);
            let source = items
                .find(|item| matches!(item, Item::Seed(id, _) | Item::Piece(id) if members.contains(id)));
            if let Some(source) = source {
                let problem = problems::source_has_problems(self.book, formula, source);
                self.solved.insert(*id, Err(vec![problem]));
            }
        }
    }
}
