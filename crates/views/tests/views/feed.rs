//! How feeding plans look.

use insta::assert_snapshot;
use levamen_sheets::FeedingSheet;
use levamen_views::{json, text};

use crate::culture::{parts, planned};

#[test]
fn a_week_on_the_wall() {
    let plan = planned(&[420, 640, 3000, 0, 420, 0, 420], Some(700), false);
    let notes = vec!["The book does not say, so this is taken as usual: usually 40 % old.".into()];
    assert_snapshot!(text::feed(&FeedingSheet::new("harbour culture", &plan, &parts(), &[], notes).unwrap()));
}

#[test]
fn idle_days_in_the_cold_and_what_each_week_throws_away() {
    let plan = planned(&[420, 0, 0, 0, 0, 0, 0, 0, 0, 420], Some(3000), true);
    assert_snapshot!(text::feed(
        &FeedingSheet::new("harbour culture", &plan, &parts(), &[], Vec::new()).unwrap()
    ));
}

#[test]
fn as_json() {
    let plan = planned(&[420, 0], Some(1000), false);
    let feed = json::FeedJson::from(
        &FeedingSheet::new("harbour culture", &plan, &parts(), &[], Vec::new()).unwrap(),
    );
    assert_snapshot!(serde_json::to_string_pretty(&feed).unwrap());
    let (_, schema) = json::schemas().into_iter().find(|(command, _)| *command == "feed").unwrap();
    assert!(jsonschema::is_valid(&schema.to_value(), &serde_json::to_value([feed]).unwrap()));
}
