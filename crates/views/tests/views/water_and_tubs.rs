//! Water for a dough's temperature, and tubs: JSON keeps to its schemas and comes back.

use levamen::{StageTubs, TubPlan, WaterAnswer};
use levamen_ferment::{Hazard, headroom, mixing_water, pick_tubs, volume};
use levamen_quantity::{
    Exact, Mass, Share, Temperature, TemperatureDifference, TemperatureUnit, Volume, VolumeUnit,
};
use levamen_sheets::{PouredWater, Weight};
use levamen_views::json;
use serde::{Serialize, de::DeserializeOwned};

fn celsius(degrees: i64) -> Temperature {
    Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius)
}

fn kilograms(mass: i64) -> Mass {
    Mass::from_grams(Exact::from(1000 * mass))
}

/// Holds a value against the schema of a command.
fn check<T: Serialize + DeserializeOwned + PartialEq>(command: &str, shown: &T) {
    let (_, schema) = json::schemas().into_iter().find(|(name, _)| *name == command).unwrap();
    let value = serde_json::to_value(shown).unwrap();
    assert!(jsonschema::is_valid(&schema.to_value(), &value), "{value}");
    assert!(serde_json::from_value::<T>(value).unwrap() == *shown);
}

#[test]
fn water_warm_iced_and_refused() {
    let (water, tap) = (kilograms(10), celsius(18));
    let way = |degrees| mixing_water(celsius(degrees), &water, Some(&tap));
    for (by_rule, by_heats) in [(way(24), way(4)), (way(60), way(44)), (way(-90), way(-20))] {
        let answer = WaterAnswer {
            dough: "Tin loaf".to_owned(),
            wanted: celsius(24),
            water: water.clone(),
            shown: Weight::in_grams(&water).unwrap(),
            tap: Some(tap.clone()),
            factors: 3,
            rise: TemperatureDifference::from_unit(&Exact::from(4), TemperatureUnit::Celsius),
            heats_lead: true,
            beside: Share::WHOLE,
            by_rule: PouredWater::of_answer(by_rule).unwrap(),
            by_heats: PouredWater::of_answer(by_heats).unwrap(),
            counted_with: vec!["the room".into()],
            hazards: vec![Hazard::Mixer],
        };
        check("water", &json::WaterJson::from(&answer));
    }
}

#[test]
fn tubs() {
    let tubs = [Volume::from_unit(Exact::from(20), VolumeUnit::Litre)];
    let volume = volume(&kilograms(12), &Share::WHOLE).unwrap();
    let room = headroom(&Share::WHOLE);
    let tubs = pick_tubs(&volume, room, &tubs).unwrap();
    let shown = Weight::in_grams(&kilograms(12)).unwrap();
    let stage = StageTubs { name: "poolish".to_owned(), shown, made: kilograms(12), volume, room, tubs };
    check("tub", &json::TubPlanJson::from(&TubPlan { dough: "Tin loaf".to_owned(), stages: vec![stage] }));
}
