//! The most of a figure that inequalities allow: exact linear programming by the simplex method.
//!
//! The simplex method on dictionaries with the smallest-subscript rule of Bland, which never cycles (R. G. Bland, "New
//! Finite Pivoting Rules for the Simplex Method", Mathematics of Operations Research 2 (1977) 103-107; V. Chvátal,
//! *Linear Programming*, 1983, chapters 2, 3 and 8; both from memory). All numbers are exact, so an optimum is one.
//!
//! The free part of a dough has one or two dimensions and some dozens of inequalities: a dense table is right for it.

use levamen_quantity::Exact;

/// `coefficients · x ≤ bound`
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Inequality {
    pub coefficients: Vec<Exact>,
    pub bound: Exact,
}

/// What the maximum of an objective came to.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Optimum {
    /// The best values of the variables.
    Best(Vec<Exact>),
    /// No values satisfy all inequalities.
    Infeasible,
    /// The objective grows without bound.
    Unbounded,
}

/// The values of free variables (of either sign) that make `objective · x` the most under inequalities.
pub(crate) fn maximize(objective: &[Exact], constraints: &[Inequality]) -> Optimum {
    // 1. Standard form. A variable of either sign is the difference of two that are not negative.
    let split =
        |row: &[Exact]| -> Vec<Exact> { row.iter().cloned().chain(row.iter().map(|value| -value)).collect() };
    let rows =
        constraints.iter().map(|constraint| (split(&constraint.coefficients), constraint.bound.clone()));
    let mut dictionary = Dictionary::new(rows, 2 * objective.len());
    // 2. Phase one: a feasible dictionary.
    if !dictionary.make_feasible() {
        return Optimum::Infeasible;
    }
    // 3. Phase two: pivot until the objective cannot grow.
    dictionary.set_objective(&split(objective));
    if !dictionary.optimize() {
        return Optimum::Unbounded;
    }
    let value = |variable| dictionary.value(variable);
    Optimum::Best((0..objective.len()).map(|index| &value(index) - &value(index + objective.len())).collect())
}

/// Each basic variable as a constant plus a combination of the others, all of them not negative.
///
/// Variables are numbered: first the decision variables, then a slack for each row, then the artificial one.
struct Dictionary {
    basic: Vec<usize>,
    other: Vec<usize>,
    constants: Vec<Exact>,
    /// By row and column: the coefficient of the other variable in the basic one.
    table: Vec<Vec<Exact>>,
    /// The objective's coefficients of the other variables.
    objective: Vec<Exact>,
    decisions: usize,
}

impl Dictionary {
    fn new(rows: impl Iterator<Item = (Vec<Exact>, Exact)>, decisions: usize) -> Self {
        let (table, constants): (Vec<Vec<Exact>>, Vec<Exact>) =
            rows.map(|(row, bound)| (row.iter().map(|value| -value).collect(), bound)).unzip();
        let basic = (decisions..decisions + table.len()).collect();
        Self {
            basic,
            other: (0..decisions).collect(),
            constants,
            table,
            objective: vec![Exact::ZERO; decisions],
            decisions,
        }
    }

    /// Finds a first solution by making an artificial variable, which relaxes every row, as small as can be.
    fn make_feasible(&mut self) -> bool {
        let least =
            (0..self.constants.len()).min_by(|a, b| self.constants.get(*a).cmp(&self.constants.get(*b)));
        let Some(row) = least.filter(|row| self.constants.get(*row).is_some_and(Exact::is_negative)) else {
            return true;
        };
        let artificial = self.decisions + self.table.len();
        self.other.push(artificial);
        self.table.iter_mut().for_each(|row| row.push(Exact::ONE));
        self.objective = vec![Exact::ZERO; self.other.len()];
        if let Some(last) = self.objective.last_mut() {
            *last = -Exact::ONE;
        }
        // The first pivot, on the most violated row, makes the dictionary feasible.
        self.pivot(row, self.other.len() - 1);
        self.optimize();
        if let Some(row) = self.basic.iter().position(|variable| *variable == artificial) {
            if self.constants.get(row).is_some_and(Exact::is_positive) {
                return false;
            }
            // It is zero, but still basic: exchange it for any other that its row mentions.
            let entering = self.table.get(row).and_then(|row| row.iter().position(|value| !value.is_zero()));
            if let Some(column) = entering {
                self.pivot(row, column);
            }
        }
        if let Some(column) = self.other.iter().position(|variable| *variable == artificial) {
            self.other.remove(column);
            self.table.iter_mut().for_each(|row| {
                row.remove(column);
            });
        }
        true
    }

    /// Writes a objective over the decision variables in terms of the present others.
    fn set_objective(&mut self, objective: &[Exact]) {
        self.objective = vec![Exact::ZERO; self.other.len()];
        for (column, variable) in self.other.iter().enumerate() {
            if let (Some(slot), Some(value)) = (self.objective.get_mut(column), objective.get(*variable)) {
                *slot += value;
            }
        }
        for (variable, row) in self.basic.iter().zip(&self.table) {
            let Some(value) = objective.get(*variable) else { continue };
            for (slot, coefficient) in self.objective.iter_mut().zip(row) {
                slot.add_product(coefficient, value);
            }
        }
    }

    /// Exchanges variables until the objective cannot grow; `false` where it grows without end.
    fn optimize(&mut self) -> bool {
        while let Some(column) = self.entering() {
            let Some(row) = self.leaving(column) else { return false };
            self.pivot(row, column);
        }
        true
    }

    /// Bland's rule for the entering variable: the one with the smallest number that lets the objective grow.
    fn entering(&self) -> Option<usize> {
        let grows = (0..self.other.len())
            .filter(|column| self.objective.get(*column).is_some_and(Exact::is_positive));
        grows.min_by_key(|column| self.other.get(*column))
    }

    /// The ratio test for the leaving variable: the row that limits the entering one the most; by Bland's rule, among
    /// equals the one with the smallest number.
    fn leaving(&self, column: usize) -> Option<usize> {
        let limit = |row: usize| {
            let coefficient = self.table.get(row)?.get(column)?;
            let constant = self.constants.get(row)?;
            coefficient.is_negative().then(|| constant / &-coefficient)
        };
        let constraints =
            (0..self.table.len()).filter_map(|row| Some((limit(row)?, self.basic.get(row)?, row)));
        constraints.min().map(|(_, _, row)| row)
    }

    /// Exchanges the basic variable of a row for the other variable of a column.
    fn pivot(&mut self, row: usize, column: usize) {
        let (Some(leaving), Some(entering)) = (self.basic.get_mut(row), self.other.get_mut(column)) else {
            return;
        };
        std::mem::swap(leaving, entering);
        let (Some(pivot), Some(constant)) = (self.table.get_mut(row), self.constants.get_mut(row)) else {
            return;
        };
        let Some(lead) = pivot.get(column).filter(|lead| !lead.is_zero()).cloned() else { return };
        // 1. Solve the row for the entering variable:
        //    leaving = constant + lead · entering + ..., so entering = (leaving - constant - ...) / lead.
        for (index, value) in pivot.iter_mut().enumerate() {
            *value = if index == column { &Exact::ONE / &lead } else { -(&*value / &lead) };
        }
        *constant = -(&*constant / &lead);
        // 2. Put that in its place in every other row, and in the objective.
        let (pivot, constant) = (pivot.clone(), constant.clone());
        for (index, (other, own)) in self.table.iter_mut().zip(&mut self.constants).enumerate() {
            if index != row {
                let factor = substitute(other, &pivot, column);
                own.add_product(&constant, &factor);
            }
        }
        substitute(&mut self.objective, &pivot, column);
    }

    fn value(&self, variable: usize) -> Exact {
        // A variable that is not basic is zero.
        let row = self.basic.iter().position(|basic| *basic == variable);
        row.and_then(|row| self.constants.get(row)).cloned().unwrap_or_default()
    }
}

/// Puts a pivot row in the place of a variable; returns the coefficient that the variable had.
fn substitute(row: &mut [Exact], pivot: &[Exact], column: usize) -> Exact {
    debug_assert!(column < row.len(), "a column of the table");
    let factor = row.get_mut(column).map(std::mem::take).unwrap_or_default();
    if !factor.is_zero() {
        for (value, pivot) in row.iter_mut().zip(pivot) {
            value.add_product(pivot, &factor);
        }
    }
    factor
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn row(coefficients: &[i32], bound: i32) -> Inequality {
        Inequality { coefficients: numbers(coefficients), bound: Exact::from(bound) }
    }

    fn numbers(values: &[i32]) -> Vec<Exact> {
        values.iter().copied().map(Exact::from).collect()
    }

    #[test]
    fn the_most_lies_in_a_corner() {
        // Largest 5x + 4y with 2x + 3y ≤ 5, 4x + y ≤ 11, 3x + 4y ≤ 8, x, y ≥ 0: 2x + 3y ≤ 5 binds at y = 0, by hand.
        let mut constraints = vec![row(&[2, 3], 5), row(&[4, 1], 11), row(&[3, 4], 8)];
        constraints.extend([row(&[-1, 0], 0), row(&[0, -1], 0)]);
        let best = vec![&Exact::from(5) / &Exact::from(2), Exact::ZERO];
        assert_eq!(maximize(&numbers(&[5, 4]), &constraints), Optimum::Best(best));
    }

    #[test]
    fn a_first_solution_may_have_to_be_found() {
        // x ≥ 2, y ≥ 3, x + y ≤ 7; the least of x + 2y is at (2, 3).
        let constraints = [row(&[-1, 0], -2), row(&[0, -1], -3), row(&[1, 1], 7)];
        assert_eq!(maximize(&numbers(&[-1, -2]), &constraints), Optimum::Best(numbers(&[2, 3])));
    }

    #[test]
    fn what_cannot_be_and_what_has_no_end() {
        assert_eq!(maximize(&numbers(&[1]), &[row(&[1], 1), row(&[-1], -2)]), Optimum::Infeasible);
        assert_eq!(maximize(&numbers(&[1]), &[row(&[-1], 0)]), Optimum::Unbounded);
        assert_eq!(maximize(&[], &[row(&[], -1)]), Optimum::Infeasible);
        assert_eq!(maximize(&[], &[row(&[], 1)]), Optimum::Best(Vec::new()));
    }

    /// Every corner of the region, by solving each pair of rows; the best of those that satisfy all.
    #[expect(clippy::many_single_char_names, reason = "the names of Cramer's rule")]
    fn best_corner(objective: &[Exact], constraints: &[Inequality]) -> Option<Exact> {
        let value = |x: &[Exact], row: &[Exact]| -> Exact { row.iter().zip(x).map(|(a, b)| a * b).sum() };
        let mut best: Option<Exact> = None;
        for (index, p) in constraints.iter().enumerate() {
            for q in &constraints[index + 1..] {
                let (a, b, c, d) =
                    (&p.coefficients[0], &p.coefficients[1], &q.coefficients[0], &q.coefficients[1]);
                let det = &(a * d) - &(b * c);
                let (e, f) = (&p.bound, &q.bound);
                let (Some(x), Some(y)) =
                    ((&(e * d) - &(b * f)).checked_div(&det), (&(a * f) - &(e * c)).checked_div(&det))
                else {
                    continue;
                };
                let corner = [x, y];
                if constraints
                    .iter()
                    .all(|constraint| value(&corner, &constraint.coefficients) <= constraint.bound)
                {
                    let here = value(&corner, objective);
                    best = Some(best.map_or(here.clone(), |best| best.max(here)));
                }
            }
        }
        best
    }

    proptest! {
        #[test]
        fn the_best_corner_is_found(
            objective in prop::array::uniform2(-9i32..10),
            rows in prop::collection::vec((prop::array::uniform2(-9i32..10), -20i32..20), 0..7),
        ) {
            // A box around it all, so that there is an end to it.
            let walls = [row(&[1, 0], 50), row(&[-1, 0], 50), row(&[0, 1], 50), row(&[0, -1], 50)];
            let constraints: Vec<Inequality> = rows.iter().map(|(a, b)| row(a, *b)).chain(walls).collect();
            let objective = numbers(&objective);
            match maximize(&objective, &constraints) {
                Optimum::Best(x) => {
                    let here: Exact = objective.iter().zip(&x).map(|(a, b)| a * b).sum();
                    for constraint in &constraints {
                        let value: Exact = constraint.coefficients.iter().zip(&x).map(|(a, b)| a * b).sum();
                        prop_assert!(value <= constraint.bound);
                    }
                    prop_assert_eq!(Some(here), best_corner(&objective, &constraints));
                }
                Optimum::Infeasible => prop_assert_eq!(best_corner(&objective, &constraints), None),
                Optimum::Unbounded => prop_assert!(false, "there are walls"),
            }
        }
    }
}
