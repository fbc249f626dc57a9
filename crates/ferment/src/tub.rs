//! Room in the tub: a pre-ferment rises, and what has no room climbs out.
//!
//! A container holds 4 to 5 times the volume of what is put into it: common practice, no source.

use levamen_quantity::{Density, Exact, Mass, Share, Volume, VolumeUnit};

/// How many times the volume a tub holds, at least and better.
pub const ROOM: (i64, i64) = (4, 5);

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
    let part = |figure: i64| Exact::ratio(figure, 10_000).unwrap_or_default();
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

/// The smallest tub that holds four times a volume; where none does, the fewest alike that do together, and of those the
/// smallest. `None` without tubs.
#[must_use]
pub fn pick(volume: &Volume, tubs: &[Volume]) -> Option<Tubs> {
    let room = volume.millilitres() * &Exact::from(ROOM.0);
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
