//! When a pre-ferment is ripe: JSON keeps to its schema and comes back.

use levamen::{RipenAnswer, RipenQuestion, RipenReport};
use levamen_balance::Ripening;
use levamen_ferment::{Leaven, RipeningReference, Strength, TemperatureCourse, Yeast, YeastKind};
use levamen_quantity::{ClockTime, Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};
use levamen_sheets::{ClockEstimate, TimeEstimate};
use levamen_views::json;

fn hours(hours: i64) -> Duration {
    Duration::from_unit(&Exact::from(hours), TimeUnit::Hour)
}

fn celsius(degrees: i64) -> Temperature {
    Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius)
}

/// A poolish with each kind of answer.
fn answers() -> Vec<RipenReport> {
    let of_flour = Share::from_percent(Exact::ratio(1, 10).unwrap());
    let leaven = Leaven::Yeast(Yeast {
        name: "instant yeast".to_owned(),
        strength: Strength::usual(YeastKind::Instant),
        of_flour,
    });
    let reference =
        RipeningReference::new(leaven.clone(), &hours(14), Some(&hours(16)), &celsius(20)).unwrap();
    let room =
        vec![(ClockTime::new(18, 0).unwrap(), celsius(24)), (ClockTime::new(4, 0).unwrap(), celsius(17))];
    let course = TemperatureCourse::by_clock(&room).unwrap();
    let time = reference.time(&leaven, &celsius(24)).unwrap();
    let until = reference.good_until(&time.value);
    let five = ClockTime::new(5, 0).unwrap();
    let found = [
        RipenAnswer::Table(vec![(celsius(24), TimeEstimate::by_two_paces(time.clone()))]),
        RipenAnswer::Time(TimeEstimate::by_two_paces(time), until.map(TimeEstimate::new)),
        RipenAnswer::Temperature(reference.temperature(&leaven, &hours(10)).unwrap()),
        RipenAnswer::Amount(reference.amount(&hours(10), &celsius(24)).unwrap()),
        RipenAnswer::Ready(ClockEstimate::by_two_paces(reference.ready(&leaven, &course, None).unwrap())),
        RipenAnswer::Set(ClockEstimate::by_two_paces(reference.set(&leaven, &course, five).unwrap())),
    ];
    let view = |answer| RipenReport {
        cautions: Vec::new(),
        of_stage: Vec::new(),
        dough: "Poolish bread".to_owned(),
        stage: "poolish".to_owned(),
        leaven: leaven.clone(),
        reference: Ripening { least: hours(14), most: Some(hours(16)), temperature: Some(celsius(20)) },
        given: RipenQuestion { room: room.clone(), ready: Some(five), ..RipenQuestion::default() },
        answer,
        growth: None,
    };
    found.into_iter().map(view).collect()
}

#[test]
fn every_answer_keeps_to_the_schema_and_comes_back() {
    let (_, schema) = json::schemas().into_iter().find(|(command, _)| *command == "ripen").unwrap();
    let schema = schema.to_value();
    for view in answers() {
        let shown = json::RipeJson::from(&view);
        let value = serde_json::to_value(&shown).unwrap();
        assert!(jsonschema::is_valid(&schema, &value), "{value}");
        assert_eq!(serde_json::from_value::<json::RipeJson>(value).unwrap(), shown);
    }
}
