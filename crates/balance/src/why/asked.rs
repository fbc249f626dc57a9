//! The reason of whatever may be asked for: its definition, and then its parts.

use levamen_formula::{Asked, Figure, Formula, MakeSize};
use levamen_language::Problem;
use levamen_quantity::{Exact, Share};

use super::apart::Apart;
use super::explain::{Explainer, Frame, nothing};
use super::taken::sum;
use super::{Because, Part, Reason, Value};
use crate::Balancer;

/// The shortest explanation of a figure of a formula whose sources are solved.
pub(super) fn explain(
    balancer: &mut Balancer<'_>,
    formula: &Formula,
    asked: Asked,
) -> Result<Reason, Vec<Problem>> {
    let parts = balancer.parts(formula, 0, None)?;
    let solved = balancer.solve_formula(formula, &parts)?;
    let frame = Frame::of_dough(balancer.book(), &solved, &parts);
    explain_in(balancer, &frame, asked, 0)
}

/// The shortest explanation of a figure in a frame.
pub(super) fn explain_in(
    balancer: &mut Balancer<'_>,
    frame: &Frame<'_>,
    asked: Asked,
    depth: usize,
) -> Result<Reason, Vec<Problem>> {
    if let Some(apart) = Apart::of(frame, asked) {
        return apart.explain(balancer, frame, asked, depth);
    }
    let starts =
        [Figure::Flour, Figure::Dough, Figure::Gram].into_iter().filter(|start| frame.can_start(*start));
    let ways = starts.flat_map(|start| [(start, true), (start, false)]);
    let trees = ways.filter_map(|(start, water_by_ingredient)| {
        let mut explainer = Explainer::new(frame, start, water_by_ingredient)?;
        let mut reason = explainer.asked(asked)?;
        reason.figure = asked.name(frame.formula(), frame.pantry());
        Some(reason)
    });
    Ok(trees
        .min_by_key(Reason::length)
        .unwrap_or_else(|| nothing(asked.name(frame.formula(), frame.pantry()))))
}

impl Frame<'_> {
    /// Whether reckoning can begin with a figure: the whole flour, the whole dough where that has no flour, or the
    /// weights of the text.
    fn can_start(&self, start: Figure) -> bool {
        match start {
            Figure::Dough => self.value(Figure::Flour).is_zero(),
            Figure::Gram => self.gram.is_some() && !self.value(Figure::Gram).is_zero(),
            _ => !self.value(start).is_zero(),
        }
    }
}

impl Reason {
    /// How long the explanation is to read. A line says itself what it is reckoned from: that costs no line more.
    fn length(&self) -> usize {
        let own = match &self.because {
            Because::Together(together) => 1 + together.facts.len(),
            _ => 1,
        };
        let is_stated = matches!(self.because, Because::Stated(_));
        let shown = self.from.iter().filter(|part| !(is_stated && part.reason.goes_without_saying()));
        own + shown.map(|part| part.reason.length()).sum::<usize>()
    }
}

impl Explainer<'_> {
    /// The reason of a figure that may be asked for; its name is still to be put.
    fn asked(&mut self, asked: Asked) -> Option<Reason> {
        Some(match asked {
            Asked::Hydration(None) => {
                let water = self.water();
                self.of_flour(water)
            }
            Asked::Hydration(Some(id)) => {
                ratio([Figure::ContentWater(id), Figure::Content(id)].map(|figure| self.figure(figure)))
            }
            Asked::EffectiveHydration => {
                let water = self.all_water();
                self.of_flour(water)
            }
            Asked::DoughYield => {
                let water = self.water();
                let hydration = Reason { figure: "hydration".to_owned(), ..self.of_flour(water) };
                let value = Value::Number(&Exact::HUNDRED + &(hydration.value.figure() * &Exact::HUNDRED));
                let from = vec![Part { times: Exact::ONE, reason: hydration }];
                Reason { figure: String::new(), value, because: Because::Yield, from }
            }
            Asked::Salt => sum(String::new(), self.held("salt", |known| &known.salt)),
            Asked::PrefermentedFlour(None) => self.fermented(),
            Asked::PrefermentedFlour(Some(id)) => self.fermented_in(id),
            Asked::Flour(None) => self.all_flour()?,
            Asked::Flour(Some(id)) => self.content(id),
            Asked::Water(None) => self.water(),
            Asked::Water(Some(id)) => self.content_water(id),
            Asked::OwnFlour(id) => self.own_flour(id),
            Asked::Dough => self.figure(Figure::Dough),
            Asked::ToDivide => self.divided(),
            Asked::Row(id) => self.figure(Figure::Row(id)),
            Asked::Line(id, line) => self.line(id, line),
            Asked::Cell(id, ingredient) => self.cell(id, ingredient),
            Asked::Taken(id) => self.taken(id),
            Asked::Made(id) => self.made(id),
            Asked::Seed(id) => self.seed(id),
            Asked::GivenBack(id) => self.given_back(id),
            Asked::LeftOver(id) => self.left_over(id),
            Asked::Steam(id) => self.steam(id),
        })
    }

    /// What is left of the dough after the loss.
    fn divided(&mut self) -> Reason {
        let times = self.frame.formula().loss.rest().fraction().clone();
        let dough = self.figure(Figure::Dough);
        let value = Value::Weight(Share::from_fraction(dough.value.figure() * &times));
        Reason {
            figure: String::new(),
            value,
            because: Because::Batch,
            from: vec![Part { times, reason: dough }],
        }
    }

    /// Something over the whole flour.
    fn of_flour(&mut self, part: Reason) -> Reason {
        let flour = self.figure(Figure::Flour);
        ratio([part, flour])
    }

    /// The whole flour: what the size asks for, or what the weights in the text come to. `None` where weights of the
    /// text tell it and the reckoning does not begin with those.
    fn all_flour(&mut self) -> Option<Reason> {
        if self.starts_with(Figure::Gram) {
            return Some(self.figure(Figure::Flour));
        }
        let make = self.frame.formula().make.as_ref();
        let Some(make) = make else { return self.frame.gram.is_none().then(|| self.figure(Figure::Flour)) };
        if matches!(make.size, MakeSize::Flour(_)) {
            return Some(self.figure(Figure::Flour));
        }
        let dough = self.figure(Figure::Dough);
        let times = self.frame.value(Figure::Flour).checked_div(dough.value.figure())?;
        let value = Value::Weight(Share::from_fraction(self.frame.value(Figure::Flour)));
        let from = vec![Part { times, reason: dough }];
        Some(Reason { figure: String::new(), value, because: Because::Stated(make.place), from })
    }
}

fn ratio([over, under]: [Reason; 2]) -> Reason {
    let Some(value) = over.value.figure().checked_div(under.value.figure()) else {
        return nothing(String::new());
    };
    let from = [over, under].map(|reason| Part { times: Exact::ONE, reason }).into();
    Reason {
        figure: String::new(),
        value: Value::Ratio(Share::from_fraction(value)),
        because: Because::Ratio,
        from,
    }
}
