//! Questions that lack something, asked by values: each ends in the error that says what.

use jiff::civil::date;
use levamen::{
    BatchSize, Effort, Error, Extreme, FormulaId, OrderSources, OrdersQuestion, QuestionError as E,
    RipenQuestion, SizeAmount, WaterQuestion, Wishes, Workspace, day, day_orders, ripen, scaled, water, why,
};
use levamen_orders::SourceText;
use levamen_quantity::{Exact, Mass, Temperature, TemperatureUnit};

use crate::asked::book;

/// A book of one file, and the dough of a name in it.
fn with_dough(text: &str, name: &str) -> (Workspace, FormulaId) {
    let workspace = book(&[("a.dough", text)]).workspace();
    let id = workspace.find(name).unwrap();
    (workspace, id)
}

/// Why a question has no answer.
fn question<T>(answer: Result<T, Error>) -> E {
    match answer {
        Err(Error::Question(error)) => error,
        Err(Error::Problems { problems, .. }) => panic!("{problems:?}"),
        Ok(_) => panic!("an answer"),
    }
}

fn celsius(degrees: i64) -> Temperature {
    Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius)
}

#[test]
fn enough_for_pieces_that_nobody_has_counted() {
    let text = "dough Plain\n\noverall\n  white flour  100 %\n  water  65 %\n  salt  2 %\n  fresh yeast  1 %\n\n\
                stage old dough\n  weighs  20 % of the flour\n  from this dough\n";
    let (workspace, id) = with_dough(text, "Plain");
    let size = BatchSize { with_old_dough: true, ..BatchSize::default() };
    let dough = "Plain".to_owned();
    assert_eq!(question(scaled(&workspace, id, &Wishes::default(), &size)), E::NoPieceCount { dough });
}

#[test]
fn a_stage_that_does_not_say_how_warm_it_ripens() {
    let text = "dough Plain\n\nstage poolish\n  white flour  100 g\n  water  100 g\n  fresh yeast  1 g\n  ripens  12 h\n\n\
                final dough\n  white flour  1000 g\n  water  650 g\n  poolish  rest\n";
    let (workspace, id) = with_dough(text, "Plain");
    let answer = ripen(&workspace, id, Some("poolish"), RipenQuestion::default(), false);
    assert_eq!(question(answer), E::NoRipening { stage: "poolish".to_owned() });
}

#[test]
fn a_room_by_the_hour_and_no_hour() {
    let text = "dough Plain\n\noverall\n  white flour  100 %\n  water  65 %\n\n\
                room bakehouse\n  at 22:00 24 °C\n  at 04:00 20 °C\n";
    let (workspace, id) = with_dough(text, "Plain");
    let asked =
        WaterQuestion { dough_at: Some(celsius(25)), flour: Some(celsius(20)), ..WaterQuestion::default() };
    let room = "bakehouse".to_owned();
    assert_eq!(question(water(&workspace, id, &asked)), E::RoomByTheHour { room });
}

#[test]
fn a_time_zone_that_there_is_not() {
    let text = "bakery Quay\n  time zone  Nowhere/Town\n\ndough Plain\n\nmake 10 pieces of 900 g\n\noverall\n  \
                white flour  100 %\n  water  65 %\n\nproduct Loaf\n  made of  Plain\n  piece  900 g\n";
    let workspace = book(&[("a.dough", text)]).workspace();
    let today = date(2026, 12, 2);
    let orders = SourceText::new("orders.csv".to_owned(), b"date,customer,product,quantity\n".as_slice());
    let files = OrderSources { orders: &[&orders], standing: &[], exceptions: &[] };
    let orders = day_orders(&workspace, today, &OrdersQuestion { files, today: None });
    let answer = orders.and_then(|orders| day(&workspace, today, orders, Effort::default()).map(|_| ()));
    assert_eq!(question(answer), E::NoTimeZone { name: "Nowhere/Town".to_owned() });
}

/// A dough that says how much of its flour is in the poolish, and may be asked for less.
const POOLISH: &str = "dough Plain\n\noverall\n  white flour  100 %\n  water  65 %\n\nstage poolish\n  takes  20 % of the flour\n  \
                       hydration  100 %\n";

/// As little poolish as there can be: none.
fn least_poolish() -> Wishes {
    Wishes {
        want: vec!["flour at least 10 kg".to_owned()],
        extreme: Some(Extreme { figure: "flour of poolish".to_owned(), most: false }),
        ..Wishes::default()
    }
}

#[test]
fn an_aim_without_one_reason() {
    let (workspace, id) = with_dough(POOLISH, "Plain");
    let words = "flour of poolish".to_owned();
    assert_eq!(question(why(&workspace, id, "water", &least_poolish())), E::NoSingleReason { words });
}

#[test]
fn as_much_as_a_stage_gives_that_is_not_taken() {
    let (workspace, id) = with_dough(POOLISH, "Plain");
    let stage = "poolish".to_owned();
    let ready = SizeAmount::Ready { stage: stage.clone(), mass: Mass::from_grams(Exact::from(400)) };
    let size = BatchSize { amount: Some(ready), ..BatchSize::default() };
    assert_eq!(question(scaled(&workspace, id, &least_poolish(), &size)), E::NotTaken { stage });
}
