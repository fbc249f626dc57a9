//! The reason of whatever may be asked for: its definition, and then its parts.

use levamen_formula::{Formula, NamedFigure, ResolvedMakeSize, Variable};
use levamen_language::Problem;
use levamen_quantity::{Exact, Share};

use super::explain::{Explainer, Frame, zero};
use super::separate::SeparateBatch;
use super::taken::sum;
use super::{Reason, ReasonKind, ReasonPart, ReasonValue};
use crate::Balancer;

/// The shortest explanation of a figure of a formula whose sources are solved.
pub(super) fn explain(
    balancer: &mut Balancer<'_>,
    formula: &Formula,
    figure: NamedFigure,
) -> Result<Reason, Vec<Problem>> {
    let parts = balancer.parts(formula, 0, None)?;
    let solved = balancer.solve_formula(formula, &parts)?;
    let frame = Frame::of_dough(balancer.book(), &solved, &parts);
    explain_in(balancer, &frame, figure, 0)
}

/// The shortest explanation of a figure in a frame.
pub(super) fn explain_in(
    balancer: &mut Balancer<'_>,
    frame: &Frame<'_>,
    figure: NamedFigure,
    depth: usize,
) -> Result<Reason, Vec<Problem>> {
    if let Some(separate) = SeparateBatch::of(frame, figure) {
        return separate.explain(balancer, frame, figure, depth);
    }
    let starts = [Variable::Flour, Variable::Dough, Variable::Gram]
        .into_iter()
        .filter(|start| frame.can_start(*start));
    let ways = starts.flat_map(|start| [(start, true), (start, false)]);
    let trees = ways.filter_map(|(start, water_by_ingredient)| {
        let mut explainer = Explainer::new(frame, start, water_by_ingredient)?;
        let mut reason = explainer.named(figure)?;
        reason.figure = figure.name(frame.formula(), frame.pantry());
        Some(reason)
    });
    Ok(trees.min_by_key(Reason::length).unwrap_or_else(|| zero(figure.name(frame.formula(), frame.pantry()))))
}

impl Frame<'_> {
    /// Whether calculation can begin with a figure: the whole flour, the whole dough where that has no flour, or the
    /// weights of the text.
    fn can_start(&self, start: Variable) -> bool {
        match start {
            Variable::Dough => self.value(Variable::Flour).is_zero(),
            Variable::Gram => self.gram.is_some() && !self.value(Variable::Gram).is_zero(),
            _ => !self.value(start).is_zero(),
        }
    }
}

impl Reason {
    /// How long the explanation is to read. A line says itself what it is calculated from: that costs no line more.
    fn length(&self) -> usize {
        let own = match &self.kind {
            ReasonKind::Coupled(together) => 1 + together.equations.len(),
            _ => 1,
        };
        let is_stated = matches!(self.kind, ReasonKind::Stated(_));
        let shown = self.parts.iter().filter(|part| !(is_stated && part.reason.goes_without_saying()));
        own + shown.map(|part| part.reason.length()).sum::<usize>()
    }
}

impl Explainer<'_> {
    /// The reason of a figure that may be asked for; its name is still to be put.
    fn named(&mut self, figure: NamedFigure) -> Option<Reason> {
        Some(match figure {
            NamedFigure::Hydration(None) => {
                let water = self.water();
                self.of_flour(water)
            }
            NamedFigure::Hydration(Some(id)) => {
                ratio([Variable::ContentWater(id), Variable::Content(id)].map(|figure| self.figure(figure)))
            }
            NamedFigure::EffectiveHydration => {
                let water = self.all_water();
                self.of_flour(water)
            }
            NamedFigure::DoughYield => {
                let water = self.water();
                let hydration = Reason { figure: "hydration".to_owned(), ..self.of_flour(water) };
                let value =
                    ReasonValue::Number(&Exact::HUNDRED + &(hydration.value.figure() * &Exact::HUNDRED));
                let parts = vec![ReasonPart { times: Exact::ONE, reason: hydration }];
                Reason { figure: String::new(), value, kind: ReasonKind::Yield, parts }
            }
            NamedFigure::Salt => sum(String::new(), self.contained("salt", |known| &known.salt)),
            NamedFigure::PrefermentedFlour(None) => self.fermented(),
            NamedFigure::PrefermentedFlour(Some(id)) => self.fermented_in(id),
            NamedFigure::Flour(None) => self.all_flour()?,
            NamedFigure::Flour(Some(id)) => self.content(id),
            NamedFigure::Water(None) => self.water(),
            NamedFigure::Water(Some(id)) => self.content_water(id),
            NamedFigure::OwnFlour(id) => self.own_flour(id),
            NamedFigure::Dough => self.figure(Variable::Dough),
            NamedFigure::ToDivide => self.divided(),
            NamedFigure::Row(id) => self.figure(Variable::Row(id)),
            NamedFigure::Line(id, line) => self.line(id, line),
            NamedFigure::Cell(id, ingredient) => self.cell(id, ingredient),
            NamedFigure::Taken(id) => self.taken(id),
            NamedFigure::Made(id) => self.made(id),
            NamedFigure::Seed(id) => self.seed(id),
            NamedFigure::GivenBack(id) => self.given_back(id),
            NamedFigure::LeftOver(id) => self.left_over(id),
            NamedFigure::Steam(id) => self.steam(id),
        })
    }

    /// What is left of the dough after the loss.
    fn divided(&mut self) -> Reason {
        let times = self.frame.formula().loss.rest().fraction().clone();
        let dough = self.figure(Variable::Dough);
        let value = ReasonValue::Weight(Share::from_fraction(dough.value.figure() * &times));
        Reason {
            figure: String::new(),
            value,
            kind: ReasonKind::Batch,
            parts: vec![ReasonPart { times, reason: dough }],
        }
    }

    /// Something over the whole flour.
    fn of_flour(&mut self, part: Reason) -> Reason {
        let flour = self.figure(Variable::Flour);
        ratio([part, flour])
    }

    /// The whole flour: what the size asks for, or what the weights in the text come to. `None` where weights of the
    /// text tell it and the calculation does not begin with those.
    fn all_flour(&mut self) -> Option<Reason> {
        if self.starts_with(Variable::Gram) {
            return Some(self.figure(Variable::Flour));
        }
        let make = self.frame.formula().make.as_ref();
        let Some(make) = make else { return self.frame.gram.is_none().then(|| self.figure(Variable::Flour)) };
        if matches!(make.size, ResolvedMakeSize::Flour(_)) {
            return Some(self.figure(Variable::Flour));
        }
        let dough = self.figure(Variable::Dough);
        let times = self.frame.value(Variable::Flour).checked_div(dough.value.figure())?;
        let value = ReasonValue::Weight(Share::from_fraction(self.frame.value(Variable::Flour)));
        let parts = vec![ReasonPart { times, reason: dough }];
        Some(Reason { figure: String::new(), value, kind: ReasonKind::Stated(make.place), parts })
    }
}

fn ratio([over, under]: [Reason; 2]) -> Reason {
    let Some(value) = over.value.figure().checked_div(under.value.figure()) else {
        return zero(String::new());
    };
    let parts = [over, under].map(|reason| ReasonPart { times: Exact::ONE, reason }).into();
    Reason {
        figure: String::new(),
        value: ReasonValue::Ratio(Share::from_fraction(value)),
        kind: ReasonKind::Ratio,
        parts,
    }
}
