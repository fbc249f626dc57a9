//! What the ingredients of the whole dough hold of something, as the pantry says.

use levamen_formula::{Figure, Ingredient};
use levamen_quantity::{Exact, Share};

use super::explain::{Explainer, nothing};
use super::taken::sum;
use super::{Because, Part, Reason, Value};

impl Explainer<'_> {
    /// The added water of the whole.
    pub(super) fn water(&mut self) -> Reason {
        if !self.water_by_ingredient {
            return self.figure(Figure::Water);
        }
        let frame = self.frame;
        let is_water = |figure: &Figure| match figure {
            Figure::Row(id) => frame.pantry().get(*id).is_some_and(Ingredient::is_water),
            _ => false,
        };
        let rows: Vec<Figure> = frame.solved.facts.figures().iter().copied().filter(is_water).collect();
        sum(frame.name(Figure::Water), rows.into_iter().map(|row| self.figure(row)).collect())
    }

    /// Added water, and the water inside other ingredients.
    pub(super) fn all_water(&mut self) -> Reason {
        let name = "water, that inside other ingredients included";
        let mut water = sum(name.to_owned(), self.held("water", |known| &known.water));
        let moisture =
            Reason { because: Because::NotCounted, ..nothing("water in the flour itself".to_owned()) };
        if water.because != Because::Sum {
            let value = water.value.clone();
            let from = vec![Part { times: Exact::ONE, reason: water }];
            water = Reason { figure: name.to_owned(), value, because: Because::Sum, from };
        }
        water.from.push(Part { times: Exact::ONE, reason: moisture });
        water
    }

    /// What of something each ingredient of the whole dough holds; a flour's own moisture is not counted.
    pub(super) fn held(&mut self, what: &str, share: fn(&Ingredient) -> &Share) -> Vec<Reason> {
        let frame = self.frame;
        let rows = frame.solved.facts.figures().iter().filter_map(|figure| match figure {
            Figure::Row(id) => Some((*figure, frame.pantry().get(*id)?)),
            _ => None,
        });
        let counted = rows.filter(|(_, known)| !(known.is_flour && what == "water"));
        let held = counted.filter(|(_, known)| !share(known).fraction().is_zero());
        held.collect::<Vec<_>>()
            .into_iter()
            .map(|(row, known)| {
                let whole = self.figure(row);
                let times = share(known).fraction().clone();
                if times.is_one() {
                    return whole;
                }
                let value = Value::Weight(Share::from_fraction(&times * whole.value.figure()));
                let because =
                    Because::Pantry { ingredient: known.name.clone(), source: known.source.clone() };
                Reason {
                    figure: format!("{what} in {}", known.name),
                    value,
                    because,
                    from: vec![Part { times, reason: whole }],
                }
            })
            .collect()
    }
}
