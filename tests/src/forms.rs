//! Which forms of the language a text uses.

use std::collections::BTreeSet;

use levamen_language::{
    Amount, AmountKind, BasisScope, CARDS, KEEPING, Kind, Make, MakeSize, Ripens, SeedFate, SeedSource,
    Spoils, StageHeading, Statement, TextId, WORKING, parse,
};
use levamen_quantity::{MassUnit, TemperatureUnit, TimeUnit, VolumeUnit};

/// The forms, each as an example of it.
pub type Forms = BTreeSet<String>;

/// The forms that a text uses.
#[must_use]
pub fn of_text(text: &str) -> Forms {
    let mut forms = Forms::new();
    for line in parse(TextId(0), text).tree.lines {
        if line.comment.is_some() && !matches!(line.statement, Statement::Comment) {
            forms.insert("a comment beside a line".to_owned());
        }
        if line.depth > 0 && matches!(line.statement, Statement::Stage(_)) {
            forms.insert("a stage in a stage".to_owned());
        }
        of_statement(&line.statement, &mut forms);
    }
    forms
}

/// Every form that there is.
#[must_use]
pub fn all() -> Forms {
    let mut forms: Forms = Kind::ALL.into_iter().map(kind_form).collect();
    forms.extend(MassUnit::ALL.map(|unit| format!("a weight in {}", unit.symbol())));
    forms.extend(
        [VolumeUnit::Millilitre, VolumeUnit::Litre].map(|unit| format!("a volume in {}", unit.symbol())),
    );
    forms.extend([TimeUnit::Hour, TimeUnit::Minute].map(|unit| format!("a time in {}", unit.symbol())));
    forms.extend([TemperatureUnit::Celsius, TemperatureUnit::Fahrenheit].map(degree_form));
    forms.extend(PLAIN.map(str::to_owned));
    for card in &CARDS {
        forms.insert(card.keyword.to_owned());
        forms.extend(card.forms.iter().map(|form| form.shape.to_owned()));
    }
    forms.extend(KEEPING.iter().chain(WORKING).map(|form| form.shape.to_owned()));
    forms
}

/// The forms that are not one of a list of the language.
const PLAIN: [&str; 46] = [
    "spoils",
    "spoils when wet",
    "keeps",
    "a comment",
    "a comment beside a line",
    "dough",
    "culture",
    "ingredient",
    "scale",
    "overall",
    "stage NAME",
    "stage NAME, a KIND",
    "a stage in a stage",
    "final dough",
    "want",
    "make PIECES",
    "make DOUGH",
    "make TO DIVIDE",
    "make FLOUR",
    "losing",
    "an ingredient",
    "when it goes in",
    "5 %",
    "5 % of the flour",
    "5 % of its flour",
    "rest",
    "from a culture or a dough",
    "from this dough",
    "from SOURCE without an amount",
    "given back",
    "stays",
    "takes",
    "weighs",
    "hydration",
    "left over",
    "loses",
    "ripens TIME",
    "ripens LEAST to MOST",
    "ripens without a temperature",
    "note",
    "flour",
    "holds",
    "density",
    "source",
    "division",
    "capacity",
];

fn of_statement(statement: &Statement<'_>, forms: &mut Forms) {
    let name = match statement {
        Statement::Empty | Statement::Unread => return,
        Statement::Comment => "a comment",
        Statement::Dough(_) => "dough",
        Statement::Culture(_) => "culture",
        Statement::Ingredient(_) => "ingredient",
        Statement::Scale(_) => "scale",
        Statement::Overall => "overall",
        Statement::Stage(heading) => stage(heading, forms),
        Statement::FinalDough => "final dough",
        Statement::Want => "want",
        Statement::Make(make) => self::make(make, forms),
        Statement::Weigh(weigh) => {
            if weigh.when.is_some() {
                forms.insert("when it goes in".to_owned());
            }
            amount(&weigh.amount, "an ingredient", forms)
        }
        Statement::From(from) => self::from(from, forms),
        Statement::Takes(taken) => amount(taken, "takes", forms),
        Statement::Weighs(weight) => amount(weight, "weighs", forms),
        Statement::Hydration(_) => "hydration",
        Statement::LeftOver(left) => amount(left, "left over", forms),
        Statement::Loses(_) => "loses",
        Statement::Ripens(ripens) => self::ripens(ripens, forms),
        Statement::Note(_) => "note",
        Statement::IsFlour => "flour",
        Statement::Holds(_) => "holds",
        Statement::Density(_) => "density",
        Statement::Spoils(Spoils::Always) => "spoils",
        Statement::Spoils(Spoils::WhenWet) => "spoils when wet",
        Statement::Spoils(Spoils::Never) => "keeps",
        Statement::Source(_) => "source",
        Statement::Division(quantity) => weight(quantity.unit, "division", forms),
        Statement::Capacity(quantity) => weight(quantity.unit, "capacity", forms),
        Statement::Card(heading) => heading.card.keyword,
        Statement::Said(said) => said.form.shape,
    };
    forms.insert(name.to_owned());
}

fn kind_form(kind: Kind) -> String {
    format!("a stage that is a {}", kind.name())
}

fn degree_form(unit: TemperatureUnit) -> String {
    format!("a temperature in {}", unit.symbol())
}

fn weight(unit: MassUnit, name: &'static str, forms: &mut Forms) -> &'static str {
    forms.insert(format!("a weight in {}", unit.symbol()));
    name
}

fn stage(heading: &StageHeading<'_>, forms: &mut Forms) -> &'static str {
    forms.insert(kind_form(heading.kind));
    if heading.kind_span.is_some() { "stage NAME, a KIND" } else { "stage NAME" }
}

fn make(make: &Make, forms: &mut Forms) -> &'static str {
    if make.loss.is_some() {
        forms.insert("losing".to_owned());
    }
    match &make.size {
        MakeSize::Pieces { piece, .. } => weight(piece.unit, "make PIECES", forms),
        MakeSize::Dough(quantity) => weight(quantity.unit, "make DOUGH", forms),
        MakeSize::ToDivide(quantity) => weight(quantity.unit, "make TO DIVIDE", forms),
        MakeSize::Flour(quantity) => weight(quantity.unit, "make FLOUR", forms),
    }
}

fn amount(amount: &Amount<'_>, name: &'static str, forms: &mut Forms) -> &'static str {
    let form = match &amount.kind {
        AmountKind::Percent { of: None, .. } => "5 %",
        AmountKind::Percent { of: Some(basis), .. } if basis.reach == BasisScope::Dough => "5 % of the flour",
        AmountKind::Percent { .. } => "5 % of its flour",
        AmountKind::Mass(quantity) => return weight(quantity.unit, name, forms),
        AmountKind::Volume { unit, .. } => {
            forms.insert(format!("a volume in {}", unit.symbol()));
            return name;
        }
        AmountKind::Rest => "rest",
    };
    forms.insert(form.to_owned());
    name
}

fn from(from: &levamen_language::From<'_>, forms: &mut Forms) -> &'static str {
    match &from.amount {
        Some(stated) => drop(amount(stated, "", forms)),
        None => drop(forms.insert("from SOURCE without an amount".to_owned())),
    }
    match from.seed {
        Some((SeedFate::GivenBack, _)) => drop(forms.insert("given back".to_owned())),
        Some((SeedFate::Stays, _)) => drop(forms.insert("stays".to_owned())),
        None => {}
    }
    match from.source {
        SeedSource::Named(_) => "from a culture or a dough",
        SeedSource::ThisDough(_) => "from this dough",
    }
}

fn ripens(ripens: &Ripens, forms: &mut Forms) -> &'static str {
    forms.insert(format!("a time in {}", ripens.unit.symbol()));
    match &ripens.temperature {
        Some((_, _, unit)) => drop(forms.insert(degree_form(*unit))),
        None => drop(forms.insert("ripens without a temperature".to_owned())),
    }
    if ripens.most.is_some() { "ripens LEAST to MOST" } else { "ripens TIME" }
}
