//! The facts of a stage that end with an amount: what each may say is a row of a table, and one parser reads them all.

use levamen_quantity::Exact;
use nom::Parser;

use super::amount::{amount, expect_end};
use crate::measure::{self, Split};
use crate::name::LineText;
use crate::parsers::{end, finish, given};
use crate::problems::{amount as amount_problems, number as number_problems};
use crate::space::{first_word, trim, trim_start};
use crate::syntax_error::SyntaxError;
use crate::{Amount, AmountKind, Basis, BasisScope, Statement};

/// A fact of a stage that ends with an amount.
pub(crate) struct StageFact {
    /// The words that it begins with.
    pub(crate) keyword: &'static str,
    /// An example of the whole fact.
    example: &'static str,
    /// What a percentage is a share of.
    share: ShareRule,
    /// The most that a percentage is less than 100 % of, as a message says it: `can be left over`. `None` where it may be
    /// more.
    below_all: Option<&'static str>,
    /// Whether it may be a weight.
    weight: WeightRule,
    /// Whether it may be `rest`.
    rest: bool,
    /// The statement of an amount.
    statement: for<'t> fn(Amount<'t>) -> Statement<'t>,
}

/// What a percentage of a fact is a share of.
enum ShareRule {
    /// It says so itself, as the example does; the function says what it may be.
    Of { example: &'static str, fits: fn(&Basis<'_>) -> bool },
    /// The fact says it; the words tell it to whom writes it nevertheless.
    Known(&'static str),
}

/// Whether a fact may be a weight.
enum WeightRule {
    Refused,
    Allowed,
    /// It is followed by `of flour`.
    OfFlour,
}

/// The facts of a stage that end with an amount.
pub(crate) const STAGE_FACTS: [StageFact; 5] = [
    StageFact {
        keyword: "takes",
        example: "takes 18 % of the flour",
        share: ShareRule::Of {
            example: "takes 18 % of the flour",
            fits: |basis| basis.reach == BasisScope::Dough,
        },
        below_all: None,
        weight: WeightRule::OfFlour,
        rest: false,
        statement: |amount| Statement::Takes(amount),
    },
    StageFact {
        keyword: "weighs",
        example: "weighs 6 kg",
        share: ShareRule::Of {
            example: "weighs 30 % of the flour",
            fits: |basis| basis.reach == BasisScope::Dough && matches!(basis.name.text, "flour" | "dough"),
        },
        below_all: None,
        weight: WeightRule::Allowed,
        rest: false,
        statement: |amount| Statement::Weighs(amount),
    },
    StageFact {
        keyword: "hydration",
        example: "hydration 75 %",
        share: ShareRule::Known("`hydration 75 %` alone: it is water over flour"),
        below_all: None,
        weight: WeightRule::Refused,
        rest: false,
        statement: |amount| Statement::Hydration(amount),
    },
    StageFact {
        keyword: "left over",
        example: "left over 5 %",
        share: ShareRule::Known("`left over 5 %` alone: it is a share of what is made"),
        below_all: Some("can be left over"),
        weight: WeightRule::Allowed,
        rest: true,
        statement: |amount| Statement::LeftOver(amount),
    },
    StageFact {
        keyword: "loses",
        example: "loses 8 % of its water",
        share: ShareRule::Of {
            example: "loses 8 % of its water",
            fits: |basis| basis.reach == BasisScope::Stage && basis.name.text == "water",
        },
        below_all: Some("can go off as steam"),
        weight: WeightRule::Refused,
        rest: false,
        statement: |amount| Statement::Loses(amount),
    },
];

impl StageFact {
    /// The fact that a line begins with, its keyword as it is there, and what follows.
    pub(crate) fn of_line(body: &str) -> Option<(&'static Self, &str, &str)> {
        let (first, after_first) = first_word(body);
        STAGE_FACTS.iter().find_map(|fact| {
            let mut words = fact.keyword.split(' ');
            let mut rest = (words.next() == Some(first)).then_some(after_first)?;
            for word in words {
                let (next, after) = first_word(trim_start(rest));
                rest = (next == word).then_some(after)?;
            }
            let keyword = trim(body.get(..body.len() - rest.len()).unwrap_or(body));
            let rest = trim_start(rest);
            // `hydration of poolish`, `hydration at most` and `left over of levain` are as a `want` says a figure.
            let next = first_word(rest).0;
            let is_figure = matches!((fact.keyword, next), ("hydration", "of" | "at") | ("left over", "of"));
            (!is_figure).then_some((fact, keyword, rest))
        })
    }

    /// Reads the amount of a fact.
    pub(crate) fn read<'t>(
        &self,
        source: LineText<'t>,
        keyword: &'t str,
        text: &'t str,
    ) -> Result<Statement<'t>, SyntaxError<'t>> {
        let split = alone(keyword, text, self.example)?;
        let (mut amount, after) = amount(source, &split)?;
        match &amount.kind {
            AmountKind::Percent { percent, of } => {
                self.check_share(source, &split, percent, of.as_ref())?;
                expect_end(&split, after, self.example)?;
            }
            AmountKind::Mass(_) => match self.weight {
                WeightRule::Refused => return Err(self.wrong_unit(&split)),
                WeightRule::Allowed => expect_end(&split, after, self.example)?,
                WeightRule::OfFlour => {
                    amount.span = amount.span.to(source.span(self.of_flour(&split, after)?));
                }
            },
            AmountKind::Volume { .. } => return Err(self.wrong_unit(&split)),
            AmountKind::Rest if self.rest => expect_end(&split, after, self.example)?,
            AmountKind::Rest => return Err(amount_problems::no_rest(split.written, self.example)),
        }
        Ok((self.statement)(amount))
    }

    /// Refuses a percentage of something that it cannot be a share of here, and one of too much.
    fn check_share<'t>(
        &self,
        source: LineText<'t>,
        split: &Split<'t>,
        percent: &Exact,
        of: Option<&Basis<'t>>,
    ) -> Result<(), SyntaxError<'t>> {
        match (&self.share, of) {
            (ShareRule::Of { example, .. }, None) => {
                let example = with_figure(example, split.written);
                return Err(amount_problems::missing_basis(split.written, &example));
            }
            (ShareRule::Of { example, fits }, Some(basis)) if !fits(basis) => {
                let basis = basis.span.of(source.text);
                return Err(amount_problems::wrong_basis(basis, &format!("`{example}`")));
            }
            (ShareRule::Known(forms), Some(basis)) => {
                return Err(amount_problems::wrong_basis(basis.span.of(source.text), forms));
            }
            _ => {}
        }
        match self.below_all {
            Some(what) if *percent >= Exact::HUNDRED => {
                Err(amount_problems::over_hundred(split.written, what, false))
            }
            _ => Ok(()),
        }
    }

    /// The word `flour` of `2 kg of flour`.
    fn of_flour<'t>(&self, split: &Split<'t>, after: &'t str) -> Result<&'t str, SyntaxError<'t>> {
        let form = format!("{} {} of flour", self.keyword, split.written);
        let of_flour = finish((given("of"), given("flour"), end).parse(after))?;
        let Some((_, (_, flour, _))) = of_flour else {
            expect_end(split, if trim(after).starts_with("of") { "" } else { after }, &form)?;
            return Err(amount_problems::missing_basis(split.written, &form));
        };
        Ok(flour)
    }

    fn wrong_unit<'t>(&self, split: &Split<'t>) -> SyntaxError<'t> {
        let wanted = match self.weight {
            WeightRule::Refused => "a percentage",
            WeightRule::Allowed | WeightRule::OfFlour => "a weight or a percentage",
        };
        match &split.measure {
            Some(measure) => number_problems::wrong(measure, wanted, &format!("`{}`", self.example)),
            None => amount_problems::no_rest(split.written, self.example),
        }
    }
}

impl<'t> Statement<'t> {
    /// The amount of a fact of a stage that ends with one, and the words that the fact begins with.
    pub(crate) fn stage_amount(&self) -> Option<(&'static str, &Amount<'t>)> {
        Some(match self {
            Self::Takes(amount) => ("takes", amount),
            Self::Weighs(amount) => ("weighs", amount),
            Self::Hydration(amount) => ("hydration", amount),
            Self::LeftOver(amount) => ("left over", amount),
            Self::Loses(amount) => ("loses", amount),
            _ => return None,
        })
    }
}

/// The amount that alone follows a keyword.
pub(crate) fn alone<'t>(keyword: &'t str, text: &'t str, form: &str) -> Result<Split<'t>, SyntaxError<'t>> {
    match measure::split(text)? {
        Some(split) if split.name.is_empty() => Ok(split),
        Some(split) => Err(amount_problems::more(split.name, form)),
        None => Err(amount_problems::missing_after(keyword, form)),
    }
}

/// A form such as `takes 18 % of the flour` with the baker's own figure in it.
fn with_figure(form: &str, figure: &str) -> String {
    match (form.split_once(' '), form.split_once("% ")) {
        (Some((keyword, _)), Some((_, whole))) => format!("{keyword} {figure} {whole}"),
        _ => form.to_owned(),
    }
}
