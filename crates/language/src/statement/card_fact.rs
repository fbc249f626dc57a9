//! Facts whose forms are data: one parser for all of them.

use levamen_quantity::{ClockTime, Duration, Exact, TemperatureDifference, TimeUnit, Volume};
use nom::Parser;

use super::{heading, make};
use crate::figure::{Zero, figure, value};
use crate::measure::{self, measure};
use crate::name::one_spaced;
use crate::name::{LineText, across};
use crate::parsers::{finish, given};
use crate::problems::{block as block_problems, number as number_problems};
use crate::space::{first_word, trim, trim_start};
use crate::syntax_error::SyntaxError;
use crate::unit::NumberWithUnit;
use crate::unit::Unit;
use crate::{Form, Said, SlotValue, YeastKind};

/// The most that can be counted of anything in a bakery: enough, and far from where a number is cut.
const MOST: u32 = 1_000_000;

/// A form that did not fit, and how far it did.
struct Misfit<'t> {
    tokens: usize,
    error: SyntaxError<'t>,
}

/// Reads a fact that has one of some forms. `None` where it begins as none of them does.
pub(crate) fn read<'t>(
    source: LineText<'t>,
    body: &'t str,
    forms: &'static [Form],
) -> Option<Result<Said<'t>, SyntaxError<'t>>> {
    let (keyword, _) = first_word(body);
    let mut nearest: Option<Misfit<'t>> = None;
    for form in forms.iter().filter(|form| form.first_word() == keyword) {
        match fill(source, body, form) {
            Ok(said) => return Some(Ok(said)),
            Err(misfit) if nearest.as_ref().is_none_or(|nearest| nearest.tokens < misfit.tokens) => {
                nearest = Some(misfit);
            }
            Err(_) => {}
        }
    }
    nearest.map(|misfit| Err(misfit.error))
}

/// Fills the slots of a form.
fn fill<'t>(source: LineText<'t>, body: &'t str, form: &'static Form) -> Result<Said<'t>, Misfit<'t>> {
    let mut values = Vec::new();
    let mut rest = trim_start(body);
    let mut shape = form.shape.split(' ').enumerate().peekable();
    while let Some((tokens, token)) = shape.next() {
        let slot = FormSlot { source, form, token, next: shape.peek().map(|(_, next)| *next) };
        let (value, after) = slot.fill(body, rest).map_err(|error| Misfit { tokens, error })?;
        values.extend(value);
        rest = trim_start(after);
    }
    if !rest.is_empty() {
        let tokens = form.shape.split(' ').count();
        return Err(Misfit { tokens, error: crate::problems::amount::more(rest, form.example) });
    }
    let words = trim(first_word(body).1);
    Ok(Said { form, values, span: source.span(if words.is_empty() { body } else { words }) })
}

/// One token of a form, and what is read into it.
struct FormSlot<'t> {
    source: LineText<'t>,
    form: &'static Form,
    token: &'static str,
    /// The token after it, where a name ends.
    next: Option<&'static str>,
}

/// A time as it is written.
struct WrittenTime<'t> {
    /// The number.
    text: &'t str,
    /// The same as a number.
    figure: Exact,
    /// How many minutes its unit has.
    minutes: Exact,
}

/// What was read, and what follows it.
type Filled<'t> = Result<(Option<SlotValue<'t>>, &'t str), SyntaxError<'t>>;

impl<'t> FormSlot<'t> {
    fn fill(&self, body: &'t str, rest: &'t str) -> Filled<'t> {
        let other_form = || block_problems::form(body, self.form);
        if rest.is_empty() {
            return Err(other_form());
        }
        match self.token {
            "MASS" => {
                let (measure, after) = self.measure(body, rest)?;
                Ok((Some(SlotValue::Mass(make::mass(self.source, &measure)?)), after))
            }
            "PERCENT" => {
                let (measure, after) = self.measure(body, rest)?;
                Ok((Some(SlotValue::Percent(self.percent(&measure)?)), after))
            }
            "PERCENTS" => self.percents(body, rest),
            "TIME" => self.time(body, rest).map(|(time, _, after)| (Some(SlotValue::Time(time)), after)),
            "TIMES" => self.times(body, rest),
            "TEMPERATURE" => {
                let (measure, after) = self.measure(body, rest)?;
                let (temperature, _, _) = super::ripens::temperature(&measure, self.form.example)?;
                Ok((Some(SlotValue::Temperature(temperature)), after))
            }
            "DIFFERENCE" => self.difference(body, rest),
            "VOLUME" => self.volume(body, rest),
            "COUNT" => self.count(rest).map(|(count, after)| (Some(SlotValue::Count(count)), after)),
            "NUMBER" => self
                .number(rest, Zero::Refused)
                .map(|(_, number, after)| (Some(SlotValue::Number(number)), after)),
            "CLOCK" => {
                let (word, after) = first_word(rest);
                let clock = ClockTime::read(word).ok_or_else(|| block_problems::clock(word))?;
                Ok((Some(SlotValue::Clock(clock)), after))
            }
            "NAME" => {
                let (name, after) = self.name(rest)?;
                Ok((Some(SlotValue::Name(heading::name(self.source, name)?)), after))
            }
            "YEAST" => yeast(trim(rest)),
            "WORDS" => Ok((Some(SlotValue::Words(self.source.name(trim(rest)))), "")),
            words => {
                let (word, after) = first_word(rest);
                let is_it = |choice: &&str| *choice == word || (*choice == "pieces" && word == "piece");
                let chosen = words.split('|').find(is_it).ok_or_else(other_form)?;
                Ok((words.contains('|').then_some(SlotValue::Chosen(chosen)), after))
            }
        }
    }

    /// A number with a unit.
    fn measure(
        &self,
        body: &'t str,
        rest: &'t str,
    ) -> Result<(NumberWithUnit<'t>, &'t str), SyntaxError<'t>> {
        if let Some((after, measure)) = finish(measure(rest))? {
            return Ok((measure, after));
        }
        // A number that lacks its unit, or has one that is none, says more than a form that does not fit.
        match measure::split(rest) {
            Err(error) if !error.is(number_problems::MISSING) => Err(error),
            _ => match finish(figure(rest))? {
                Some((after, figure)) => {
                    let (word, _) = first_word(trim_start(after));
                    let is_unit = !word.is_empty() && Some(word) != self.next;
                    let unit = || block_problems::unit(figure, self.form.example);
                    Err(if is_unit { number_problems::unknown(word) } else { unit() })
                }
                None => Err(block_problems::form(body, self.form)),
            },
        }
    }

    fn percent(&self, measure: &NumberWithUnit<'t>) -> Result<Exact, SyntaxError<'t>> {
        if measure.unit != Unit::Percent {
            return Err(number_problems::wrong(measure, "a percentage", &self.example()));
        }
        let percent = measure.value()?;
        if percent > Exact::HUNDRED {
            return Err(crate::problems::amount::over_hundred(measure.written, "there can be", true));
        }
        Ok(percent)
    }

    fn percents(&self, body: &'t str, rest: &'t str) -> Filled<'t> {
        let (least, rest) = least(rest)?;
        let (measure, after) = self.measure(body, rest)?;
        let most = self.percent(&measure)?;
        let least = match least {
            Some(least) => {
                ordered(body, (least, value(least, Zero::Refused)?), (measure.figure, &most), "%")?
            }
            None => most.clone(),
        };
        Ok((Some(SlotValue::Percents(least, most)), after))
    }

    /// A time in hours, minutes or days; also how it is written.
    fn time(
        &self,
        body: &'t str,
        rest: &'t str,
    ) -> Result<(Duration, WrittenTime<'t>, &'t str), SyntaxError<'t>> {
        if let Some((after, figure)) = finish(figure(rest))? {
            let (unit, after) = first_word(trim_start(after));
            if matches!(unit, "day" | "days") {
                let days = value(figure, Zero::Refused)?;
                let hours = &days * &Exact::from(24);
                let written = WrittenTime { text: figure, figure: days, minutes: Exact::from(24 * 60) };
                return Ok((Duration::from_unit(&hours, TimeUnit::Hour), written, after));
            }
        }
        let (measure, after) = self.measure(body, rest)?;
        let Unit::Time(unit) = measure.unit else {
            return Err(number_problems::wrong(&measure, "a time", &self.example()));
        };
        let minutes = Duration::from_unit(&Exact::ONE, unit).in_unit(TimeUnit::Minute);
        let written = WrittenTime { text: measure.figure, figure: measure.value()?, minutes };
        Ok((Duration::from_unit(&written.figure, unit), written, after))
    }

    fn times(&self, body: &'t str, rest: &'t str) -> Filled<'t> {
        let (least, rest) = least(rest)?;
        let (most, written, after) = self.time(body, rest)?;
        let Some(least) = least else { return Ok((Some(SlotValue::Times(most.clone(), most)), after)) };
        let WrittenTime { text: written, figure, minutes } = written;
        let shown = trim(rest.get(written.len()..rest.len() - after.len()).unwrap_or_default());
        let least = ordered(body, (least, value(least, Zero::Refused)?), (written, &figure), shown)?;
        let least = Duration::from_unit(&(&least * &minutes), TimeUnit::Minute);
        Ok((Some(SlotValue::Times(least, most)), after))
    }

    fn difference(&self, body: &'t str, rest: &'t str) -> Filled<'t> {
        let (measure, after) = self.measure(body, rest)?;
        let Unit::Temperature(unit) = measure.unit else {
            return Err(number_problems::wrong(&measure, "a difference in temperature", &self.example()));
        };
        let difference = TemperatureDifference::from_unit(&measure.value()?, unit);
        Ok((Some(SlotValue::Difference(difference)), after))
    }

    fn volume(&self, body: &'t str, rest: &'t str) -> Filled<'t> {
        let (measure, after) = self.measure(body, rest)?;
        let Unit::Volume(unit) = measure.unit else {
            return Err(number_problems::wrong(&measure, "a volume", &self.example()));
        };
        Ok((Some(SlotValue::Volume(Volume::from_unit(measure.value()?, unit))), after))
    }

    fn count(&self, rest: &'t str) -> Result<(u32, &'t str), SyntaxError<'t>> {
        let (written, number, after) = self.number(rest, Zero::Allowed)?;
        if number.is_zero() {
            // Without its line there would be one of it, so it is the card that has to go.
            let counts_the_card = ["there are", "decks", "bakers"].contains(&self.form.keyword());
            return Err(if counts_the_card {
                number_problems::none_there(written)
            } else {
                number_problems::zero(written)
            });
        }
        let count = number.to_i64().and_then(|count| u32::try_from(count).ok());
        let count = count.filter(|count| *count <= MOST && Exact::from(i64::from(*count)) == number);
        count.map(|count| (count, after)).ok_or_else(|| block_problems::count(written, MOST))
    }

    /// A number without a unit.
    fn number(&self, rest: &'t str, zero: Zero) -> Result<(&'t str, Exact, &'t str), SyntaxError<'t>> {
        let read = finish(figure(rest))?;
        let (after, written) = read.ok_or_else(|| block_problems::form(rest, self.form))?;
        Ok((written, value(written, zero)?, after))
    }

    /// A name ends where what comes after it in the form begins.
    fn name(&self, rest: &'t str) -> Result<(&'t str, &'t str), SyntaxError<'t>> {
        match self.next {
            None => Ok((trim(rest), "")),
            Some(_) => match measure::split(rest)? {
                Some(split) if !split.name.is_empty() => {
                    Ok((split.name, rest.get(split.name.len()..).unwrap_or_default()))
                }
                _ => Err(block_problems::form(rest, self.form)),
            },
        }
    }

    fn example(&self) -> String {
        format!("`{}`", self.form.example)
    }
}

/// A kind of yeast, which ends the line.
fn yeast(words: &str) -> Filled<'_> {
    let known = YeastKind::ALL.into_iter().find(|kind| kind.word() == one_spaced(words));
    let kind = known.ok_or_else(|| block_problems::yeast(words, &YeastKind::ALL.map(YeastKind::word)))?;
    Ok((Some(SlotValue::Yeast(kind)), ""))
}

/// The least of two figures, `20 to` before `50 %`; and what follows.
fn least(rest: &str) -> Result<(Option<&str>, &str), SyntaxError<'_>> {
    let read = finish((figure, given("to")).parse(rest))?;
    Ok(read.map_or((None, rest), |(after, (least, _))| (Some(least), trim_start(after))))
}

/// Refuses a span that ends before it begins.
fn ordered<'t>(
    body: &'t str,
    (least_written, least): (&'t str, Exact),
    (most_written, most): (&'t str, &Exact),
    unit: &str,
) -> Result<Exact, SyntaxError<'t>> {
    if &least > most {
        let at = across(body, least_written, most_written);
        return Err(block_problems::order(at, least_written, most_written, unit));
    }
    Ok(least)
}
