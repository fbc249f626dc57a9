//! Why a figure is what it is, as an indented tree: the figure first, then the reason, then the line that says it.

use levamen_balance::{
    CoupledEquation, CoupledEquations, Reason, ReasonKind, ReasonPart, ReasonValue, SizeSource, Why,
};
use levamen_language::{Place, Texts};
use levamen_quantity::{Exact, Mass, Share};

use super::figures::{fine_percent, multiple, short, weight};
use super::page::{right, width};

/// Why a figure is what it is.
///
/// A weight stands beside its share of the whole flour. A reason names the line that it comes from by file and line.
#[must_use]
pub fn why(why: &Why, texts: &Texts) -> String {
    let mut tree = WhyTree { texts, flour: &why.flour, rows: Vec::new() };
    tree.reason(&why.root, &Exact::ONE, 0);
    let made = tree.given(&why.size);
    let title = format!("{}: {}\n\n", why.dough, why.root.figure);
    title + &tree.render() + &format!("\nWeights are for {} of flour: {made}.\n", weight(&why.flour))
}

/// One line of the tree.
#[derive(Debug, Default)]
struct WhyRow {
    weight: String,
    share: String,
    depth: usize,
    words: String,
}

struct WhyTree<'t> {
    texts: &'t Texts,
    flour: &'t Mass,
    rows: Vec<WhyRow>,
}

impl WhyTree<'_> {
    /// A figure with its reason, and under it what that leans on.
    fn reason(&mut self, reason: &Reason, times: &Exact, depth: usize) {
        let (weight, share) = match &reason.value {
            ReasonValue::Weight(share) => (weight(&share.of(self.flour)), fine_percent(share)),
            ReasonValue::Ratio(share) => (String::new(), fine_percent(share)),
            ReasonValue::Number(number) => (String::new(), short(number)),
        };
        let words = format!("{}{}: {}", counted(times), reason.figure, self.because(reason));
        self.rows.push(WhyRow { weight, share, depth, words });
        if let ReasonKind::Coupled(together) = &reason.kind {
            self.together(together, depth + 1);
        }
        for ReasonPart { times, reason: part } in &reason.parts {
            let is_said = matches!(reason.kind, ReasonKind::Stated(_)) && part.goes_without_saying();
            if !is_said {
                self.reason(part, &signed(&reason.kind, times), depth + 1);
            }
        }
    }

    fn because(&self, reason: &Reason) -> String {
        match &reason.kind {
            ReasonKind::Stated(place) => self.said(*place),
            ReasonKind::Sum if reason.parts.iter().any(|part| part.times.is_negative()) => {
                "what remains of".to_owned()
            }
            ReasonKind::Sum => "the sum of".to_owned(),
            ReasonKind::Ratio => {
                let names: Vec<&str> = reason.parts.iter().map(|part| part.reason.figure.as_str()).collect();
                names.join(" over ")
            }
            ReasonKind::Yield => "100 and the hydration".to_owned(),
            ReasonKind::Coupled(together) => settled(together),
            ReasonKind::Composition { source, place } => {
                let spot = self.at(*place).map(|at| format!(" ({at})")).unwrap_or_default();
                format!("{}, by what {source} is made of{spot}", of_first(reason, of_it))
            }
            ReasonKind::Pantry { source, .. } => {
                let source = source.as_ref().map(|source| format!(" ({source})")).unwrap_or_default();
                format!("{} by the pantry{source}", of_first(reason, of_it))
            }
            ReasonKind::Weighed(places) => {
                let said: Vec<String> = places.iter().map(|place| self.said(*place)).collect();
                format!("{} times what reaches the dough: {}", of_first(reason, multiple), said.join(", "))
            }
            ReasonKind::Batch => {
                format!("{} of", of_first(reason, |times| fine_percent(&Share::from_fraction(times.clone()))))
            }
            ReasonKind::Size(given) => self.given(given),
            ReasonKind::NotCounted => "by convention not counted".to_owned(),
            ReasonKind::Zero => "there is none".to_owned(),
            ReasonKind::Repeated(name) if *name == reason.figure => "see above".to_owned(),
            ReasonKind::Repeated(name) => format!("the same as {name}, see above"),
            ReasonKind::TooDeep => "ask for it by itself".to_owned(),
        }
    }

    /// The lines that settle a few figures at once.
    fn together(&mut self, together: &CoupledEquations, depth: usize) {
        let said = together.equations.iter().filter_map(|fact| fact.place).map(|place| self.said(place));
        let sums = together.equations.iter().filter(|fact| fact.place.is_none()).map(balance);
        let rows = said.chain(sums).map(|words| WhyRow { depth, words, ..WhyRow::default() });
        self.rows.extend(rows.collect::<Vec<_>>());
    }

    fn given(&self, given: &SizeSource) -> String {
        match given {
            SizeSource::Make(place) => self.said(*place),
            SizeSource::Weights => "the weights in the text".to_owned(),
            SizeSource::Default => "nothing says how much to make".to_owned(),
        }
    }

    /// What a line says, and where it stands.
    fn said(&self, place: Place) -> String {
        match self.texts.line_of(place) {
            Some(line) => format!("\"{}\" ({})", line.words, line.at()),
            None => "stated".to_owned(),
        }
    }

    fn at(&self, place: Place) -> Option<String> {
        self.texts.line_of(place).map(|line| line.at())
    }

    fn render(&self) -> String {
        let widest = |cell: fn(&WhyRow) -> &str| {
            self.rows.iter().map(|row| width(cell(row))).max().unwrap_or_default()
        };
        let (weights, shares) = (widest(|row| &row.weight), widest(|row| &row.share));
        let lines = self.rows.iter().map(|WhyRow { weight, share, depth, words }| {
            let (weight, share) = (right(weight, weights), right(share, shares));
            format!("{weight}  {share}  {:indent$}{words}\n", "", indent = depth * 2)
        });
        lines.collect()
    }
}

/// What a reason says of the part below it by how often that counts: a share or a multiple of something has something below it.
fn of_first(reason: &Reason, words: impl Fn(&Exact) -> String) -> String {
    let part = reason.parts.first();
    debug_assert!(part.is_some(), "a share of something that the reason has not");
    part.map_or_else(|| "an unknown part".to_owned(), |part| words(&part.times))
}

/// A share of what stands below; of more than all of it, the share that it is of this.
fn of_it(times: &Exact) -> String {
    match Exact::ONE.checked_div(times) {
        Some(inverse) if *times > Exact::ONE => {
            format!("it holds {} of that", fine_percent(&Share::from_fraction(inverse)))
        }
        _ => format!("{} of it", fine_percent(&Share::from_fraction(times.clone()))),
    }
}

/// How often a part counts, where its reason does not say so.
fn signed(kind: &ReasonKind, times: &Exact) -> Exact {
    match kind {
        ReasonKind::Sum => times.clone(),
        _ => Exact::ONE,
    }
}

/// `less ` before what is taken off.
fn counted(times: &Exact) -> String {
    let size = times.abs();
    let sign = if times.is_negative() { "less " } else { "" };
    if size.is_one() { sign.to_owned() } else { format!("{sign}{} times ", multiple(&size)) }
}

/// How many figures the same lines settle.
fn settled(together: &CoupledEquations) -> String {
    match together.figures.len() {
        0 | 1 => "these settle it".to_owned(),
        2 => "these settle it, together with one other figure".to_owned(),
        count => format!("these settle it, together with {} other figures", count - 1),
    }
}

/// A sum that every dough obeys: `flour = flour in sponge + flour in final dough`.
fn balance(fact: &CoupledEquation) -> String {
    let side = |of_subject: bool| {
        let terms = fact.terms.iter().filter(|(_, times)| times.is_negative() != of_subject);
        let terms = terms.map(|(name, times)| counted(&times.abs()) + name);
        terms.collect::<Vec<_>>().join(" + ")
    };
    format!("{} = {}", side(true), side(false))
}
