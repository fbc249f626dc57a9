//! Room in the tub: a pre-ferment rises, and what has no room climbs out.
//!
//! How far it rises goes with how firm it is: a liquid one lets its gas go, a stiff one holds it.

use levamen_quantity::{Density, Exact, Mass, Share, Volume, VolumeUnit};

/// How far a pre-ferment rises, and so how much room it takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Headroom {
    /// What such a pre-ferment is called.
    pub kind: &'static str,
    /// How many times the fresh volume a tub holds at least: as far as it rises.
    pub least: i64,
    /// How many times the fresh volume is better: as far as it rises at most, in print or by custom.
    pub better: i64,
    /// Who says so.
    pub source: &'static str,
}

/// From this hydration on, in percent, a pre-ferment is liquid; common practice, no source.
const LIQUID_FROM: i64 = 90;

/// From this hydration down, in percent, a pre-ferment is stiff; common practice, no source.
const STIFF_UP_TO: i64 = 65;

/// Liquid: double when ripe and no more than triple.
const LIQUID: Headroom = Headroom {
    kind: "liquid",
    least: 2,
    better: 3,
    source: "a ripe levain at least double: tutorial.painaulevain.fr; a ripe poolish about triple: chezfanchon.com, technique de la poolish (2012)",
};

/// Between liquid and stiff.
const SOFT: Headroom = Headroom { kind: "soft", least: 3, better: 4, source: "common practice, no source" };

/// Stiff: three- to fourfold.
const STIFF: Headroom = Headroom {
    kind: "stiff",
    least: 3,
    better: 4,
    source: "a stiff mother triple in 3 to 4 h: allyoukneadisbread.com, masa madre sólida; fourfold: common practice, no source",
};

/// How much room a pre-ferment of a hydration takes.
#[must_use]
pub fn headroom(hydration: &Share) -> Headroom {
    let percent = hydration.percent();
    if percent >= Exact::from(LIQUID_FROM) {
        LIQUID
    } else if percent > Exact::from(STIFF_UP_TO) {
        SOFT
    } else {
        STIFF
    }
}

/// Volume of flour in its dough, in ten-thousandths of a millilitre by the gram: 0.6975, from the densities of protein 1.330,
/// carbohydrate 1.599, fat 0.926, ash 2.424 and water 0.997 (Y. Choi, M. Okos 1986, from memory) in bread flour of 13.4 %
/// water, 12.0 % protein, 1.7 % fat and 0.5 % ash (USDA Standard Reference 20083; ash from memory). Without air.
const FLOUR_VOLUME: i64 = 6975;

/// Volume of water, in ten-thousandths of a millilitre by the gram, at 20 °C: 1.0018, by `CoolProp` 8.0.
const WATER_VOLUME: i64 = 10_018;

/// Tubs for one pre-ferment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tubs {
    /// What one of them holds to the brim.
    pub size: Volume,
    /// How many of them.
    pub count: u32,
}

/// The density of fresh flour and water by their hydration, without the air that is mixed in.
#[must_use]
pub fn density(hydration: &Share) -> Option<Density> {
    let part = |figure: i64| &Exact::from(figure) / &Exact::from(10_000);
    let volume = &part(FLOUR_VOLUME) + &(hydration.fraction() * &part(WATER_VOLUME));
    let mass = Mass::from_grams(&Exact::ONE + hydration.fraction());
    Density::from_mass_of(&mass, &Volume::from_unit(volume, VolumeUnit::Millilitre))
}

/// The fresh volume of a pre-ferment.
#[must_use]
pub fn volume(made: &Mass, hydration: &Share) -> Option<Volume> {
    let density = density(hydration)?;
    let figure = made.grams().checked_div(density.grams_per_millilitre())?;
    Some(Volume::from_unit(figure, VolumeUnit::Millilitre))
}

/// The smallest tub that holds a fresh volume as often as its room asks for at least; where none does, the fewest alike
/// that do together, and of those the smallest. `None` without tubs.
#[must_use]
pub fn pick_tubs(volume: &Volume, room: Headroom, tubs: &[Volume]) -> Option<Tubs> {
    let room = volume.millilitres() * &Exact::from(room.least);
    let mut sizes: Vec<&Volume> = tubs.iter().filter(|tub| tub.millilitres().is_positive()).collect();
    sizes.sort();
    let count = |size: &Volume| {
        let times = room.checked_div(size.millilitres())?;
        let whole = times.floor();
        let up = if whole == times { whole } else { &whole + &Exact::ONE };
        up.to_i64().and_then(|count| u32::try_from(count.max(1)).ok())
    };
    let fewest = count(sizes.last()?)?;
    let size = sizes.into_iter().find(|size| count(size) == Some(fewest))?;
    Some(Tubs { size: size.clone(), count: fewest })
}
