//! How warm.

use levamen_quantity::{Temperature, TemperatureUnit};

use crate::answer::{FermentError, Remark, celsius, degrees, tenth_of_a_degree};
use crate::course::TemperatureCourse;
use crate::organism::Organism;

/// Yeast dies between 50 and 60 °C: common practice, no source.
const YEAST_DIES: f64 = 50.0;

/// A yeasted pre-ferment is not kept warmer: over it the model of yeast was not held against any bakery's figures.
const YEASTED_HOTTEST: f64 = 40.0;

/// A levain is not kept warmer: over it its yeasts drop out.
const LEVAIN_HOTTEST: f64 = YEASTS_DROP_OUT;

/// A sour is not kept warmer: its yeasts are gone, and it is past the best of its bacteria.
const SOUR_HOTTEST: f64 = 35.0;

/// Over this a model of growth and one of gas part: growth is nearly flat, gas goes on rising.
const GAS_PARTS: f64 = 28.0;

/// Over this the yeasts of a culture drop out: M. Gänzle, letter in the rec.food.sourdough FAQ, section 39 (1998).
const YEASTS_DROP_OUT: f64 = 32.0;

/// Under this a culture loses aroma: common practice, no source.
const COLD_CULTURE: f64 = 10.0;

/// What two figures of one temperature may differ by, in degrees Celsius.
const NEAR: f64 = 1e-6;

/// A reference colder than this is storage: so near to where growth begins, no ratio follows from it.
const REFERENCE_COLDEST: f64 = 10.0;

/// Judges the temperature of a leaven by who says when it is ripe.
pub(crate) fn warmth(organism: Organism, at: &Temperature) -> Result<Vec<Remark>, FermentError> {
    judge(organism, celsius(at), Cold::Refused)
}

/// Judges the temperature of a yeasted pre-ferment.
pub(crate) fn yeasted(at: &Temperature) -> Result<Vec<Remark>, FermentError> {
    judge(Organism::BakersYeast, celsius(at), Cold::Refused)
}

/// Judges the temperatures of a room: what is too cold is a pause, and only said.
pub(crate) fn course(organism: Organism, course: &TemperatureCourse) -> Result<Vec<Remark>, FermentError> {
    let mut remarks: Vec<Remark> = Vec::new();
    for warmth in course.temperatures() {
        for remark in judge(organism, warmth, Cold::Pause)? {
            if remarks.iter().all(|known| known.code != remark.code) {
                remarks.push(remark);
            }
        }
    }
    Ok(remarks)
}

/// Refuses a temperature of which no rate was read, though something grows there.
pub(crate) fn printed(organism: Organism, at: &Temperature) -> Result<(), FermentError> {
    let (coldest, warmest) = organism.growth().printed();
    // What comes from a temperature in °F, or from a search, may be off by a hair.
    if (coldest - NEAR..=warmest + NEAR).contains(&celsius(at)) {
        return Ok(());
    }
    Err(not_read(organism, at).help(format!(
        "ripen it at {coldest} °C or warmer; colder it takes longer than at {coldest} °C, and what you note goes first"
    )))
}

fn not_read(organism: Organism, at: &Temperature) -> FermentError {
    let growth = organism.growth();
    let (coldest, warmest) = growth.printed();
    let message = format!("how fast {} work at {} was read in no source", who(organism), degrees(at));
    FermentError::new("no-printed-rate", message).note(format!(
        "rates were read from {coldest} to {warmest} °C, and that growth begins at {} °C: {}",
        growth.cardinal.least, growth.source
    ))
}

/// Refuses a reference from which nothing follows.
pub(crate) fn reference(leading: Organism, at: &Temperature) -> Result<(), FermentError> {
    if celsius(at) >= REFERENCE_COLDEST {
        let (coldest, _) = leading.growth().printed();
        return printed(leading, at).map_err(|_| {
            not_read(leading, at)
                .help(format!("note a ripening at {coldest} °C or warmer in the dough's file"))
        });
    }
    Err(FermentError::new(
        "cold-reference",
        format!("a time at {} does not tell how fast it ripens", degrees(at)),
    )
    .note("so near to where growth begins, a degree more or less changes the time many times over")
    .help("note a ripening at 10 °C or warmer in the dough's file, such as `ripens 12 h at 21 °C`"))
}

/// What it means that nothing grows.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Cold {
    /// There is no answer.
    Refused,
    /// It goes on when it gets warmer.
    Pause,
}

fn judge(organism: Organism, warmth: f64, cold: Cold) -> Result<Vec<Remark>, FermentError> {
    let at = tenth_of_a_degree(warmth);
    let growth = organism.growth();
    let least = growth.cardinal.least;
    if warmth >= YEAST_DIES {
        return Err(dies(&at));
    }
    if warmth > hottest(organism) {
        return Err(too_warm(&at, organism));
    }
    if warmth <= least && cold == Cold::Refused {
        return Err(too_cold(&at, organism));
    }
    let mut remarks = Vec::new();
    if warmth < COLD_CULTURE && organism != Organism::BakersYeast {
        let message =
            format!("at {} a culture loses aroma, as it does under 10 °C (common practice)", degrees(&at));
        remarks.push(Remark::new("cold-culture", message));
    }
    if warmth <= least {
        let message =
            format!("at or under {least} °C {} do not grow, and the ripening pauses", who(organism));
        remarks.push(Remark::new("stands-still", message));
    }
    let (coldest, _) = growth.printed();
    if warmth > least && warmth < coldest && cold == Cold::Pause {
        let message = format!(
            "under {coldest} °C no rate of {} was read: that they slow evenly until they stop at {least} °C is a guess",
            who(organism)
        );
        remarks.push(Remark::new("colder-than-printed", message));
    }
    if warmth > GAS_PARTS && organism == Organism::BakersYeast {
        let message = format!(
            "at {} growth and gas of yeast part: the one is nearly flat over 28 °C, the other rises by about a tenth a \
             degree up to 32 to 40 °C (bake magazine, article 836); it may be ripe well before the longer time",
            degrees(&at)
        );
        remarks.push(Remark::new("growth-and-gas-part", message));
    }
    if warmth > YEASTS_DROP_OUT && organism == Organism::Bacteria {
        let message =
            format!("at {} the yeasts drop out within a few refreshments (M. Gänzle, 1998)", degrees(&at));
        remarks.push(Remark::new("yeasts-drop-out", message));
    }
    Ok(remarks)
}

const fn hottest(organism: Organism) -> f64 {
    match organism {
        Organism::Bacteria => SOUR_HOTTEST,
        Organism::Yeasts => LEVAIN_HOTTEST,
        Organism::BakersYeast | Organism::YeastGas => YEASTED_HOTTEST,
    }
}

fn dies(at: &Temperature) -> FermentError {
    let error = FermentError::new("too-hot-for-yeast", format!("at {} yeast dies", degrees(at)))
        .note("yeast dies between 50 and 60 °C (common practice)");
    let figure = at.in_unit(TemperatureUnit::Celsius);
    // What is past the life of yeast in °C is a usual room in °F.
    if celsius(&Temperature::from_unit(&figure, TemperatureUnit::Fahrenheit)) < YEASTED_HOTTEST {
        return error.help(format!("if degrees Fahrenheit were meant, write `{} °F`", figure.to_fixed(0)));
    }
    error.help("let it cool first")
}

fn too_warm(at: &Temperature, organism: Organism) -> FermentError {
    let hottest = hottest(organism);
    let error = if organism == Organism::BakersYeast {
        FermentError::new("too-warm", format!("{} is warmer than a yeasted pre-ferment is kept", degrees(at)))
            .note(format!("the model of yeast is used up to {hottest} °C"))
    } else {
        FermentError::new(
            "too-warm",
            format!("{} is warmer than the model of a culture reaches", degrees(at)),
        )
        .note(format!("it is used up to {hottest} °C; over 32 °C the yeasts drop out (M. Gänzle, 1998)"))
    };
    error.help(format!("give a temperature up to {hottest} °C"))
}

fn too_cold(at: &Temperature, organism: Organism) -> FermentError {
    let growth = organism.growth();
    FermentError::new(
        "too-cold",
        format!("at {} {} do not grow, so it is never ripe", degrees(at), who(organism)),
    )
    .note(format!("growth begins at {} °C: {}", growth.cardinal.least, growth.source))
    .help("give a warmer temperature, or a room that warms up")
}

const fn who(organism: Organism) -> &'static str {
    match organism {
        Organism::Bacteria => "the bacteria of a culture",
        Organism::Yeasts => "the yeasts of a culture",
        Organism::BakersYeast | Organism::YeastGas => "the cells of baker's yeast",
    }
}
