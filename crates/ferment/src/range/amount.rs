//! How much leaven.

use crate::figure::significant;
use crate::refusal::Refusal;

/// The yeast in percent of flour, as instant yeast, that the rule for amounts is used for.
const YEAST_PERCENT: (f64, f64) = (0.005, 2.0);

/// The parts of a tub that seed may be. Printed builds have 2 % to 50 %: common practice, no source.
const SEED_PART: (f64, f64) = (0.002, 0.6);

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
    let message =
        format!("{} instant yeast is {} than the rule is good for", shown(percent), size(percent, least));
    Err(Refusal::new("yeast-out-of-range", message)
        .note("the rule is used from 0.005 % to 2 % of the flour; the pre-ferments it rests on have 0.066 % to 0.66 %")
        .help("change the amount, the time or the temperature"))
}

/// Judges the part of the tub that is seed.
pub(crate) fn seed_part(part: f64) -> Result<(), Refusal> {
    let (least, most) = SEED_PART;
    if (least..=most).contains(&part) {
        return Ok(());
    }
    let percent = part * 100.0;
    let message = format!(
        "seed that is {} of the tub is {} than the model is good for",
        shown(percent),
        size(part, least)
    );
    Err(Refusal::new("seed-out-of-range", message)
        .note("it is used from 0.2 % to 60 % of what stands in the tub")
        .help("change the amount, the time or the temperature, or build in two steps"))
}

fn size(amount: f64, least: f64) -> &'static str {
    if amount < least { "less" } else { "more" }
}

fn shown(percent: f64) -> String {
    format!("{} %", significant(percent, 2).to_decimal_string())
}
