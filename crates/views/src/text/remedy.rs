//! What to do about a weight that is small for its scale, in words.

use levamen_quantity::{Exact, Mass};

use super::weights::with_unit;
use super::words::weight;
use levamen_sheets::{Dilution, LineSheet, OnScale, Remedy, Weight};

/// The words, line by line.
pub fn words(line: &LineSheet, on: &OnScale, remedy: &Remedy) -> Vec<String> {
    let exact = weight(&to_a_milligram(&line.exact));
    let small = format!("  * {}: {exact} is under twenty divisions of the {}", line.name, on.scale.name);
    match remedy {
        Remedy::Care | Remedy::TooLittleWater { .. } if line.weight.is_zero() => {
            let nothing = format!("  * {}: {exact} is less than the {} can show:", line.name, on.scale.name);
            vec![nothing, "    make more, or weigh it on a finer scale.".to_owned()]
        }
        Remedy::Care => vec![format!("{small}; weigh it with care.")],
        Remedy::Dilute(dilution) => {
            let mut words = vec![format!("{small}.")];
            words.extend(how_to_dilute(dilution, on));
            words
        }
        Remedy::TooLittleWater { wanted, there } => {
            let has = if there.is_zero() { "none".to_owned() } else { weight(there) };
            let brings = weight(&to_a_milligram(wanted));
            let why = format!(
                "    A dilution would bring {brings} of water and the stage has {has}: weigh it with care."
            );
            vec![format!("{small}."), why]
        }
    }
}

fn how_to_dilute(dilution: &Dilution, on: &OnScale) -> Vec<String> {
    let Dilution { one_part_in, make_up, make_up_water, weigh, water_less, still_small } = dilution;
    let shown = |shown: &Weight| with_unit(shown, &on.scale.division);
    let stir = format!(
        "    Or diluted, 1 part in {one_part_in}: stir {} into {} of water,",
        shown(make_up),
        weight(make_up_water)
    );
    let less = if water_less.is_zero() {
        "and as much water as before".to_owned()
    } else {
        format!("and {} less of the stage's water", weight(water_less))
    };
    let mut words = vec![stir, format!("    weigh {} of that {less}.", shown(weigh))];
    if *still_small {
        words.push("    Even so it is under twenty divisions.".to_owned());
    }
    words
}

/// An unrounded weight, short enough to read.
fn to_a_milligram(mass: &Mass) -> Mass {
    let milligram = Exact::ratio(1, 1000).map(Mass::from_grams);
    milligram.map_or_else(|| mass.clone(), |step| mass.round_to(&step))
}
