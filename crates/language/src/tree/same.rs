//! When two trees say the same.

use super::{
    Amount, AmountKind, Basis, From, Line, Make, MakeSize, Quantity, Ripens, Said, SeedSource, SlotValue,
    Statement, Tree, Weigh,
};

impl Tree<'_> {
    /// Whether another tree says the same: the same facts in the same order and blocks, with the same comments.
    /// Space, empty lines and places do not count. Both trees come with their texts, which hold the comments.
    #[must_use]
    pub fn same_as(&self, text: &str, other: &Tree<'_>, other_text: &str) -> bool {
        let same = |(line, other): (&Line<'_>, &Line<'_>)| {
            let comment = line.comment.map(|span| span.of(text));
            line.depth == other.depth
                && comment == other.comment.map(|span| span.of(other_text))
                && same_statement(&line.statement, &other.statement)
        };
        self.filled().count() == other.filled().count() && self.filled().zip(other.filled()).all(same)
    }

    /// The lines that are not empty.
    fn filled(&self) -> impl Iterator<Item = &Line<'_>> {
        self.lines.iter().filter(|line| line.statement != Statement::Empty)
    }
}

fn same_statement(one: &Statement<'_>, other: &Statement<'_>) -> bool {
    use Statement as S;
    match (one, other) {
        (S::Dough(a), S::Dough(b))
        | (S::Culture(a), S::Culture(b))
        | (S::Ingredient(a), S::Ingredient(b))
        | (S::Scale(a), S::Scale(b)) => a.same_as(b),
        (S::Card(a), S::Card(b)) => a.card == b.card && a.name.same_as(&b.name),
        (S::Said(a), S::Said(b)) => same_said(a, b),
        (S::Note(a), S::Note(b)) | (S::Source(a), S::Source(b)) => a.text == b.text,
        (S::Stage(a), S::Stage(b)) => a.kind == b.kind && a.name.same_as(&b.name),
        (S::Make(a), S::Make(b)) => same_make(a, b),
        (S::Weigh(a), S::Weigh(b)) => same_weigh(a, b),
        (S::From(a), S::From(b)) => same_from(a, b),
        (S::Takes(a), S::Takes(b))
        | (S::Weighs(a), S::Weighs(b))
        | (S::Hydration(a), S::Hydration(b))
        | (S::LeftOver(a), S::LeftOver(b))
        | (S::Loses(a), S::Loses(b)) => same_amount(a, b),
        (S::Ripens(a), S::Ripens(b)) => same_time(a, b),
        (S::Holds(a), S::Holds(b)) => (&a.percent, a.part) == (&b.percent, b.part),
        (S::Spoils(a), S::Spoils(b)) => a == b,
        (S::Density(a), S::Density(b)) => a.figure == b.figure,
        (S::Division(a), S::Division(b)) | (S::Capacity(a), S::Capacity(b)) => same_quantity(a, b),
        // What is left says nothing but which form it has.
        _ => std::mem::discriminant(one) == std::mem::discriminant(other),
    }
}

fn same_said(one: &Said<'_>, other: &Said<'_>) -> bool {
    let same = |(one, other): (&SlotValue<'_>, &SlotValue<'_>)| match (one, other) {
        (SlotValue::Mass(a), SlotValue::Mass(b)) => same_quantity(a, b),
        (SlotValue::Name(a), SlotValue::Name(b)) => a.same_as(b),
        (SlotValue::Words(a), SlotValue::Words(b)) => a.text == b.text,
        _ => one == other,
    };
    one.form == other.form && one.values.iter().zip(&other.values).all(same)
}

fn same_quantity(one: &Quantity, other: &Quantity) -> bool {
    (&one.mass, one.unit) == (&other.mass, other.unit)
}

fn same_amount(one: &Amount<'_>, other: &Amount<'_>) -> bool {
    match (&one.kind, &other.kind) {
        (AmountKind::Percent { percent: a, of: of_a }, AmountKind::Percent { percent: b, of: of_b }) => {
            a == b && same_option(of_a.as_ref(), of_b.as_ref(), same_basis)
        }
        (AmountKind::Mass(a), AmountKind::Mass(b)) => same_quantity(a, b),
        (
            AmountKind::Volume { volume: a, unit: in_a, .. },
            AmountKind::Volume { volume: b, unit: in_b, .. },
        ) => (a, in_a) == (b, in_b),
        (AmountKind::Rest, AmountKind::Rest) => true,
        _ => false,
    }
}

fn same_basis(one: &Basis<'_>, other: &Basis<'_>) -> bool {
    one.reach == other.reach && one.name.same_as(&other.name)
}

fn same_from(one: &From<'_>, other: &From<'_>) -> bool {
    let source = match (&one.source, &other.source) {
        (SeedSource::Named(a), SeedSource::Named(b)) => a.same_as(b),
        (SeedSource::ThisDough(_), SeedSource::ThisDough(_)) => true,
        _ => false,
    };
    source
        && one.seed.map(|(fate, _)| fate) == other.seed.map(|(fate, _)| fate)
        && same_option(one.amount.as_ref(), other.amount.as_ref(), same_amount)
}

fn same_weigh(one: &Weigh<'_>, other: &Weigh<'_>) -> bool {
    one.name.same_as(&other.name)
        && same_amount(&one.amount, &other.amount)
        && same_option(one.when.as_ref(), other.when.as_ref(), |a, b| a.same_as(b))
}

fn same_make(one: &Make, other: &Make) -> bool {
    let size = match (&one.size, &other.size) {
        (
            MakeSize::Pieces { count: a, piece: one_a, .. },
            MakeSize::Pieces { count: b, piece: one_b, .. },
        ) => a == b && same_quantity(one_a, one_b),
        (MakeSize::Dough(a), MakeSize::Dough(b))
        | (MakeSize::ToDivide(a), MakeSize::ToDivide(b))
        | (MakeSize::Flour(a), MakeSize::Flour(b)) => same_quantity(a, b),
        _ => false,
    };
    let loss = |make: &Make| make.loss.as_ref().map(|(percent, _)| percent.clone());
    size && loss(one) == loss(other)
}

fn same_time(one: &Ripens, other: &Ripens) -> bool {
    (&one.least, &one.most, one.unit, &one.temperature)
        == (&other.least, &other.most, other.unit, &other.temperature)
}

fn same_option<T>(one: Option<&T>, other: Option<&T>, same: impl Fn(&T, &T) -> bool) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => same(one, other),
        (None, None) => true,
        _ => false,
    }
}
