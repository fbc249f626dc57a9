//! JSON Schemas, made from the types themselves so that the two cannot part.

use schemars::{JsonSchema, Schema, generate::SchemaSettings};

use super::{
    Begun, Comparison, Conversion, Costs, Day, Feed, Formula, Housed, ListItem, NoTimetableJson, Poured,
    ProblemJson, Ripe, Sheet, Store, TimetableJson, Why,
};

/// The schema of one type, in the draft of 2020-12.
fn schema<T: JsonSchema>() -> Schema {
    SchemaSettings::draft2020_12().for_serialize().into_generator().into_root_schema_for::<T>()
}

/// The schema of each command's JSON, by the name of the command.
#[must_use]
pub fn schemas() -> Vec<(&'static str, Schema)> {
    vec![
        ("formula", schema::<Formula>()),
        ("sheet", schema::<Sheet>()),
        ("store", schema::<Store>()),
        ("cost", schema::<Costs>()),
        ("list", schema::<Vec<ListItem>>()),
        ("check", schema::<Vec<ProblemJson>>()),
        ("why", schema::<Why>()),
        ("compare", schema::<Comparison>()),
        ("ripen", schema::<Ripe>()),
        ("water", schema::<Poured>()),
        ("tub", schema::<Housed>()),
        ("convert", schema::<Conversion>()),
        ("feed", schema::<Vec<Feed>>()),
        ("day", schema::<Day>()),
        ("feed-new", schema::<Begun>()),
        ("timetable", schema::<TimetableJson>()),
        ("no-timetable", schema::<NoTimetableJson>()),
    ]
}
