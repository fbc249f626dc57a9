//! What the models are good for: the temperatures, times and amounts outside which nothing is answered.

use levamen_quantity::{Duration, Exact, Temperature, TemperatureUnit, TimeUnit};

use crate::figure::{celsius, hours};
use crate::organism::Organism;
use crate::refusal::{Refusal, Remark};

/// An answer, and what to look at again.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer<T> {
    /// What was asked for.
    pub found: T,
    /// What to look at again.
    pub remarks: Vec<Remark>,
}

/// Yeast dies between 50 and 60 °C: common practice, no source.
pub const YEAST_DIES: f64 = 50.0;

/// A yeasted pre-ferment is not kept warmer: over it the growth model of yeast was not held against any bakery's figures.
const YEASTED_HOTTEST: f64 = 40.0;

/// The usual hours of a yeasted pre-ferment: common practice, no source.
const YEASTED_HOURS: (f64, f64) = (2.0, 16.0);

/// The longest time that is answered: printed figures end long before.
const LONGEST_HOURS: f64 = 72.0;

/// What yeast in percent of flour, as instant yeast, the rule for amounts is good for: printed figures with their spread.
const YEAST_PERCENT: (f64, f64) = (0.005, 2.0);

/// Judges the temperature of a yeasted pre-ferment.
pub(crate) fn yeasted(at: &Temperature) -> Result<Vec<Remark>, Refusal> {
    let warmth = celsius(at);
    if warmth >= YEAST_DIES {
        return Err(dies(at));
    }
    let least = Organism::BakersYeast.growth().cardinal.least;
    if warmth <= least {
        return Err(too_cold(at, Organism::BakersYeast));
    }
    if warmth > YEASTED_HOTTEST {
        return Err(Refusal::new(
            "too-warm",
            format!("{} is warmer than a yeasted pre-ferment is kept", degrees(at)),
        )
        .note("the model of yeast is used up to 40 °C")
        .help("give a temperature between 3 °C and 40 °C"));
    }
    Ok(Vec::new())
}

/// Judges how long a yeasted pre-ferment ripens.
pub(crate) fn yeasted_time(time: &Duration) -> Result<Vec<Remark>, Refusal> {
    some_time(time)?;
    let (least, most) = YEASTED_HOURS;
    if (least..=most).contains(&hours(time)) {
        return Ok(Vec::new());
    }
    let message =
        format!("{} is outside the usual 2 to 16 h of a yeasted pre-ferment (common practice)", words(time));
    Ok(vec![Remark::new("unusual-time", message)])
}

/// Refuses no time, and times of which nobody has printed anything.
pub(crate) fn some_time(time: &Duration) -> Result<(), Refusal> {
    let long = hours(time);
    if long <= 0.0 {
        return Err(
            Refusal::new("no-time", "nothing ripens in 0 h").help("give a time, such as `14 h` or `90 min`")
        );
    }
    if long > LONGEST_HOURS {
        return Err(Refusal::new(
            "too-long",
            format!("{} is longer than any figure that the model rests on", words(time)),
        )
        .note("no answer is given past 72 h")
        .help("ripen it warmer, or with more seed or yeast"));
    }
    Ok(())
}

/// Judges an amount of yeast in percent of flour, as instant yeast.
pub(crate) fn yeast_percent(percent: f64) -> Result<(), Refusal> {
    let (least, most) = YEAST_PERCENT;
    if percent <= 0.0 {
        return Err(
            Refusal::new("no-yeast", "without yeast nothing ripens").help("give a share, such as `0.1 %`")
        );
    }
    if (least..=most).contains(&percent) {
        return Ok(());
    }
    let amount = crate::figure::significant(percent, 2).to_decimal_string();
    let size = if percent < least { "less" } else { "more" };
    Err(Refusal::new(
        "yeast-out-of-range",
        format!("{amount} % instant yeast is {size} than the rule is good for"),
    )
    .note("the rule is used from 0.005 % to 2 % of the flour; the pre-ferments it rests on have 0.03 % to 0.5 %")
    .help("change the time or the temperature"))
}

fn dies(at: &Temperature) -> Refusal {
    let refusal = Refusal::new("too-hot-for-yeast", format!("at {} yeast dies", degrees(at)))
        .note("yeast dies between 50 and 60 °C (common practice)");
    let fahrenheit =
        Temperature::from_unit(&at.in_unit(TemperatureUnit::Celsius), TemperatureUnit::Fahrenheit);
    let figure = at.in_unit(TemperatureUnit::Celsius).to_fixed(0);
    // What is past the life of yeast in °C is a usual room in °F.
    if celsius(&fahrenheit) < YEAST_DIES {
        return refusal.help(format!("if degrees Fahrenheit were meant, write `{figure} °F`"));
    }
    refusal.help("let it cool first")
}

fn too_cold(at: &Temperature, organism: Organism) -> Refusal {
    let least = organism.growth().cardinal.least;
    let message = format!("at {} {} do not grow, so it is never ripe", degrees(at), plural(organism));
    Refusal::new("too-cold", message)
        .note(format!("growth begins at {least} °C: {}", organism.growth().source))
        .help("give a warmer temperature, or a room that warms up")
}

fn plural(organism: Organism) -> &'static str {
    match organism {
        Organism::Bacteria => "the bacteria of a culture",
        Organism::Yeasts => "the yeasts of a culture",
        Organism::BakersYeast => "the cells of baker's yeast",
    }
}

/// `21 °C`; a model's figures are shown in Celsius.
pub(crate) fn degrees(at: &Temperature) -> String {
    format!("{} °C", short(&at.in_unit(TemperatureUnit::Celsius)))
}

/// `13 h 20 min`
pub(crate) fn words(time: &Duration) -> String {
    let minutes = time.in_unit(TimeUnit::Minute).round_to(&Exact::ONE);
    let hours = (&minutes / &Exact::from(60)).floor();
    let rest = &minutes - &(&hours * &Exact::from(60));
    match (hours.is_zero(), rest.is_zero()) {
        (true, _) => format!("{} min", rest.to_fixed(0)),
        (false, true) => format!("{} h", hours.to_fixed(0)),
        (false, false) => format!("{} h {} min", hours.to_fixed(0), rest.to_fixed(0)),
    }
}

/// At most one decimal, and none that is needless.
fn short(figure: &Exact) -> String {
    let text = figure.to_fixed(1);
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}
