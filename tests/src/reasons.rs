//! An explanation added up again: each reason from the reasons below it, and nothing else of the tool's.

use std::collections::BTreeMap;

use levamen_balance::{
    CoupledEquation, CoupledEquations, Reason, ReasonKind, ReasonPart, ReasonValue, SizeSource, Why,
};
use levamen_formula::{Formula, LeftOver};
use levamen_language::Place;
use levamen_quantity::Exact;

/// Figures by name.
type Figures<'r> = BTreeMap<&'r str, Vec<&'r Exact>>;

/// What does not follow in an explanation of a figure of a formula.
#[must_use]
pub fn faults(why: &Why, formula: &Formula) -> Vec<String> {
    let mut explained = Figures::new();
    gather(&why.root, &mut explained);
    let mut checker = Checker { explained, places: places(formula), faults: Vec::new() };
    checker.reason(&why.root);
    checker.faults
}

/// Every figure that the tree explains.
fn gather<'r>(reason: &'r Reason, explained: &mut Figures<'r>) {
    if !matches!(reason.kind, ReasonKind::Repeated(_)) {
        explained.entry(&reason.figure).or_default().push(reason.value.figure());
    }
    if let ReasonKind::Coupled(together) = &reason.kind {
        for (name, value) in &together.figures {
            explained.entry(name).or_default().push(value.figure());
        }
    }
    for part in &reason.parts {
        gather(&part.reason, explained);
    }
}

/// Every place where a formula states something.
fn places(formula: &Formula) -> Vec<Place> {
    let overall = formula.overall.iter();
    let lines = overall.clone().flat_map(|overall| &overall.lines);
    let lines = lines.chain(formula.stages.iter().flat_map(|stage| &stage.lines));
    let amounts = lines.filter_map(|line| line.amount.as_ref()).map(|amount| amount.place);
    let whole = overall.filter_map(|overall| overall.hydration.as_ref()).map(|amount| amount.place);
    let stages = formula.stages.iter().flat_map(|stage| {
        let stated =
            [&stage.takes, &stage.weighs, &stage.hydration].into_iter().flatten().map(|amount| amount.place);
        let steam = stage.steam.iter().map(|(_, place)| *place);
        stated.chain(steam).chain(stage.left_over.as_ref().map(LeftOver::place)).chain([stage.place])
    });
    let wants = formula.wants.iter().map(|want| want.place);
    amounts
        .chain(whole)
        .chain(stages)
        .chain(wants)
        .chain(formula.make.iter().map(|make| make.place))
        .collect()
}

struct Checker<'r> {
    explained: Figures<'r>,
    places: Vec<Place>,
    faults: Vec<String>,
}

impl Checker<'_> {
    fn reason(&mut self, reason: &Reason) {
        let value = reason.value.figure();
        let sum: Exact = reason.parts.iter().map(|part| &part.times * part.reason.value.figure()).sum();
        match &reason.kind {
            ReasonKind::Stated(place) => {
                self.known(reason, *place);
                self.equal(reason, value, &sum);
            }
            ReasonKind::Weighed(places) => {
                for place in places {
                    self.known(reason, *place);
                }
                self.equal(reason, value, &sum);
            }
            ReasonKind::Sum
            | ReasonKind::Composition { .. }
            | ReasonKind::Pantry { .. }
            | ReasonKind::Batch => {
                self.equal(reason, value, &sum);
            }
            ReasonKind::Ratio => match reason.parts.as_slice() {
                [over, under] => {
                    self.equal(reason, over.reason.value.figure(), &(value * under.reason.value.figure()));
                }
                _ => self.fault(reason, "a ratio is of two"),
            },
            ReasonKind::Yield => {
                self.equal(reason, value, &(&Exact::HUNDRED + &(&sum * &Exact::HUNDRED)));
            }
            ReasonKind::Coupled(together) => self.together(reason, together),
            ReasonKind::Size(given) => self.given(reason, given),
            ReasonKind::Zero | ReasonKind::NotCounted => self.equal(reason, value, &Exact::ZERO),
            ReasonKind::Repeated(name) => {
                if !self.explained.get(name.as_str()).is_some_and(|values| values.contains(&value)) {
                    self.fault(reason, &format!("`{name}` is not explained"));
                }
            }
            ReasonKind::TooDeep => {}
        }
        if matches!(reason.value, ReasonValue::Weight(_)) && value.is_negative() {
            self.fault(reason, "less than nothing");
        }
        for ReasonPart { reason, .. } in &reason.parts {
            self.reason(reason);
        }
    }

    fn fault(&mut self, reason: &Reason, words: &str) {
        self.faults.push(format!("{}: {words}", reason.figure));
    }

    fn equal(&mut self, reason: &Reason, one: &Exact, other: &Exact) {
        if one != other {
            self.fault(reason, &format!("{one:?}, but its parts come to {other:?}"));
        }
    }

    /// The text states something there.
    fn known(&mut self, reason: &Reason, place: Place) {
        if !self.places.contains(&place) {
            self.fault(reason, "nothing is stated there");
        }
    }

    fn given(&mut self, reason: &Reason, given: &SizeSource) {
        if !reason.parts.is_empty() {
            self.fault(reason, "what is given leans on nothing");
        }
        if let SizeSource::Make(place) = given {
            self.known(reason, *place);
        }
    }

    /// Each of the equations holds, and together they leave no other value to any of the figures.
    fn together(&mut self, reason: &Reason, together: &CoupledEquations) {
        let own: BTreeMap<&str, &Exact> =
            together.figures.iter().map(|(name, value)| (name.as_str(), value.figure())).collect();
        let mut known = own.clone();
        known.extend(
            reason.parts.iter().map(|part| (part.reason.figure.as_str(), part.reason.value.figure())),
        );
        for CoupledEquation { place, terms } in &together.equations {
            if let Some(place) = place {
                self.known(reason, *place);
            }
            let mut sum = Exact::ZERO;
            for (name, times) in terms {
                match known.get(name.as_str()) {
                    Some(value) => sum += &(times * *value),
                    None => self.fault(reason, &format!("`{name}` is not known")),
                }
            }
            self.equal(reason, &Exact::ZERO, &sum);
        }
        if !own.contains_key(reason.figure.as_str())
            && !own.values().any(|value| *value == reason.value.figure())
        {
            self.fault(reason, "none of those that are settled together");
        }
        let names: Vec<&str> = own.keys().copied().collect();
        let rows = together.equations.iter().map(|equation| {
            let times = |name: &&str| {
                equation.terms.iter().filter(|(own, _)| own == name).map(|(_, times)| times).sum()
            };
            names.iter().map(times).collect()
        });
        if rank(rows.collect()) < names.len() {
            self.fault(reason, "its equations do not settle it");
        }
    }
}

/// How many rows of a matrix say something new: plain elimination.
fn rank(mut rows: Vec<Vec<Exact>>) -> usize {
    let mut rank = 0;
    let columns = rows.first().map_or(0, Vec::len);
    for column in 0..columns {
        let Some(pivot) = (rank..rows.len()).find(|row| !rows[*row][column].is_zero()) else { continue };
        rows.swap(rank, pivot);
        let lead = rows[rank].clone();
        for row in rows.iter_mut().skip(rank + 1) {
            let factor = &row[column] / &lead[column];
            for (own, from) in row.iter_mut().zip(&lead) {
                *own = &*own - &(&factor * from);
            }
        }
        rank += 1;
    }
    rank
}
