//! Why a figure is what it is.

use levamen_balance::{
    CoupledEquation, CoupledEquations, Reason, ReasonKind, ReasonPart, ReasonValue, SizeSource, Why,
};
use levamen_language::{Place, Texts};
use levamen_quantity::{Exact, Mass, Share};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::DecimalJson;

/// A figure of a dough and where it comes from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Why")]
pub struct WhyJson {
    /// The dough's name.
    pub dough: String,
    /// The flour of the batch that weights are given for.
    pub flour_g: DecimalJson,
    /// Why it is so much: "make", "weights" in the text, or "default", 1 kg.
    pub size: String,
    /// The line that says so; null where none does.
    pub size_line: Option<SpotJson>,
    /// The figure that was asked for.
    pub root: ReasonJson,
}

/// One figure and what it follows from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ReasonJson {
    /// What it is.
    pub figure: String,
    /// How many times it counts in the figure above; negative where it is taken off.
    pub times: DecimalJson,
    /// Of a weight: in grams.
    pub grams: Option<DecimalJson>,
    /// Of a weight: on all flour.
    pub pct_total_flour: Option<DecimalJson>,
    /// Of a ratio: in percent.
    pub ratio_pct: Option<DecimalJson>,
    /// Of a dough yield.
    pub number: Option<DecimalJson>,
    /// How it follows from those below. Each of "stated", "sum", "composition", "pantry", "weighed" and "batch" is the
    /// sum of those below, each as many times as it says; "ratio" is the first over the second; "dough yield" is 100
    /// more; "together" is settled by several facts at once; "given", "nothing", "not counted", "again" and "deeper"
    /// end the tree.
    pub because: String,
    /// The lines that say so.
    pub lines: Vec<SpotJson>,
    /// What the reason speaks of: the source of a composition or of a pantry figure, or the name under which the figure
    /// was explained before.
    pub of: Option<String>,
    /// The facts that settle it together with other figures.
    pub together: Option<TogetherJson>,
    /// What it follows from.
    pub from: Vec<ReasonJson>,
}

/// Facts that are solved together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct TogetherJson {
    /// The figures that they settle.
    pub figures: Vec<SettledJson>,
    /// The facts.
    pub facts: Vec<CoupledJson>,
}

/// A figure that several facts settle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct SettledJson {
    /// What it is.
    pub figure: String,
    /// In grams.
    pub grams: DecimalJson,
}

/// One of several facts: its terms come to nothing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct CoupledJson {
    /// The line that states it; null where every dough obeys it.
    pub line: Option<SpotJson>,
    /// Its terms.
    pub terms: Vec<TermJson>,
}

/// A figure in a fact.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct TermJson {
    /// What it is.
    pub figure: String,
    /// How many times it counts.
    pub times: DecimalJson,
}

/// A line of a file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct SpotJson {
    /// The file.
    pub file: String,
    /// The line, counted from 1.
    pub line: u32,
    /// What it says, without its comment.
    pub words: String,
}

impl WhyJson {
    /// The explanation, with the lines that it rests on looked up in the texts.
    #[must_use]
    pub fn new(why: &Why, texts: &Texts) -> Self {
        let writer = WhyWriter { texts, flour: &why.flour };
        let (size, place) = match &why.size {
            SizeSource::Make(place) => ("make", Some(*place)),
            SizeSource::Weights => ("weights", None),
            SizeSource::Default => ("default", None),
        };
        Self {
            dough: why.dough.clone(),
            flour_g: DecimalJson::grams(&why.flour),
            size: size.to_owned(),
            size_line: place.and_then(|place| writer.spot(place)),
            root: writer.reason(&why.root, &Exact::ONE),
        }
    }
}

struct WhyWriter<'w> {
    texts: &'w Texts,
    flour: &'w Mass,
}

impl WhyWriter<'_> {
    fn reason(&self, reason: &Reason, times: &Exact) -> ReasonJson {
        let weight = match &reason.value {
            ReasonValue::Weight(share) => Some(share),
            _ => None,
        };
        let (word, places, of) = because(&reason.kind);
        ReasonJson {
            figure: reason.figure.clone(),
            times: DecimalJson::number(times),
            grams: weight.map(|share| self.grams(share)),
            pct_total_flour: weight.map(DecimalJson::percent),
            ratio_pct: match &reason.value {
                ReasonValue::Ratio(share) => Some(DecimalJson::percent(share)),
                _ => None,
            },
            number: match &reason.value {
                ReasonValue::Number(number) => Some(DecimalJson::number(number)),
                _ => None,
            },
            because: word.to_owned(),
            lines: places.into_iter().filter_map(|place| self.spot(place)).collect(),
            of,
            together: match &reason.kind {
                ReasonKind::Coupled(together) => Some(self.together(together)),
                _ => None,
            },
            from: reason
                .parts
                .iter()
                .map(|ReasonPart { times, reason }| self.reason(reason, times))
                .collect(),
        }
    }

    fn together(&self, together: &CoupledEquations) -> TogetherJson {
        let figures = together.figures.iter().map(|(figure, value)| SettledJson {
            figure: figure.clone(),
            grams: self.grams(&Share::from_fraction(value.figure().clone())),
        });
        let facts = together.equations.iter().map(|CoupledEquation { place, terms }| CoupledJson {
            line: place.and_then(|place| self.spot(place)),
            terms: terms
                .iter()
                .map(|(figure, times)| TermJson { figure: figure.clone(), times: DecimalJson::number(times) })
                .collect(),
        });
        TogetherJson { figures: figures.collect(), facts: facts.collect() }
    }

    fn grams(&self, share: &Share) -> DecimalJson {
        DecimalJson::grams(&share.of(self.flour))
    }

    fn spot(&self, place: Place) -> Option<SpotJson> {
        let line = self.texts.line_of(place)?;
        Some(SpotJson { file: line.file, line: line.line, words: line.words })
    }
}

/// A word for the reason, the places of its lines, and what it speaks of.
fn because(kind: &ReasonKind) -> (&'static str, Vec<Place>, Option<String>) {
    match kind {
        ReasonKind::Stated(place) => ("stated", vec![*place], None),
        ReasonKind::Sum => ("sum", Vec::new(), None),
        ReasonKind::Ratio => ("ratio", Vec::new(), None),
        ReasonKind::Yield => ("dough yield", Vec::new(), None),
        ReasonKind::Coupled(together) => {
            ("together", together.equations.iter().filter_map(|fact| fact.place).collect(), None)
        }
        ReasonKind::Composition { source, place } => ("composition", vec![*place], Some(source.clone())),
        ReasonKind::Pantry { source, .. } => ("pantry", Vec::new(), source.clone()),
        ReasonKind::Weighed(places) => ("weighed", places.clone(), None),
        ReasonKind::Batch => ("batch", Vec::new(), None),
        ReasonKind::Size(SizeSource::Make(place)) => ("given", vec![*place], None),
        ReasonKind::Size(_) => ("given", Vec::new(), None),
        ReasonKind::NotCounted => ("not counted", Vec::new(), None),
        ReasonKind::Zero => ("nothing", Vec::new(), None),
        ReasonKind::Repeated(name) => ("again", Vec::new(), Some(name.clone())),
        ReasonKind::TooDeep => ("deeper", Vec::new(), None),
    }
}
