//! Random texts of a book, many of them with problems: few names, so that they meet.

use proptest::prelude::*;
use proptest::sample::select;

const INGREDIENTS: [&str; 8] =
    ["rye flour", "wheat flour", "Rye  Flour", "water", "oat syrup", "oat sirup", "salt", "duck egg"];
const FORMULAS: [&str; 5] = ["mother", "Mother", "chef", "Loaf", "Bun"];

/// An edit of a book of two layers.
#[derive(Debug, Clone)]
pub enum Edit {
    /// The n-th of the texts gets other words.
    Write(usize, String),
    /// In the n-th of the texts, the n-th line gets other words.
    Line(usize, usize, String),
    /// A line is put before all others of the n-th of the texts, so that everything in it is elsewhere.
    Shift(usize),
    Insert(usize, usize, String),
    Remove(usize),
}

pub fn edits() -> impl Strategy<Value = Vec<Edit>> {
    prop::collection::vec(edit(), 1..16)
}

fn edit() -> impl Strategy<Value = Edit> {
    prop_oneof![
        4 => (0..8_usize, text()).prop_map(|(text, words)| Edit::Write(text, words)),
        8 => (0..8_usize, 0..12_usize, line()).prop_map(|(text, at, words)| Edit::Line(text, at, words)),
        1 => (0..8_usize).prop_map(Edit::Shift),
        2 => (0..2_usize, 0..5_usize, text()).prop_map(|(layer, at, words)| Edit::Insert(layer, at, words)),
        1 => (0..8_usize).prop_map(Edit::Remove),
    ]
}

/// The texts of two layers.
pub fn layers() -> impl Strategy<Value = Vec<Vec<String>>> {
    (prop::collection::vec(text(), 2..6), prop::collection::vec(text(), 0..2))
        .prop_map(|(first, second)| vec![first, second])
}

fn text() -> impl Strategy<Value = String> {
    prop::collection::vec(block(), 0..4).prop_map(|blocks| blocks.concat())
}

fn block() -> impl Strategy<Value = String> {
    prop_oneof![
        2 => ingredient(),
        1 => scale(),
        3 => culture(),
        6 => dough(),
        1 => Just("# a note to myself\n".to_owned()),
        1 => Just("doug Loaf\n  water 2,5 %\n".to_owned()),
    ]
}

/// A line as it may be anywhere in a text.
fn line() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => (select(&INGREDIENTS[..]), amount()).prop_map(|(name, amount)| format!("  {name}  {amount}")),
        2 => (select(&FORMULAS[..]), amount()).prop_map(|(name, amount)| format!("  from {name}  {amount}")),
        1 => select(&FORMULAS[..]).prop_map(|name| format!("dough {name}")),
        1 => select(&FORMULAS[..]).prop_map(|name| format!("culture {name}")),
        1 => select(&INGREDIENTS[..]).prop_map(|name| format!("ingredient {name}")),
        1 => (1..99_u8).prop_map(|share| format!("  holds {share} % water")),
        1 => select(vec!["", "  flour", "final dough", "overall", "  note slowly", "make 12 pieces of 900 g"])
            .prop_map(str::to_owned),
    ]
}

fn amount() -> impl Strategy<Value = String> {
    prop_oneof![
        6 => (1..100_u8).prop_map(|share| format!("{share} %")),
        2 => (1..60_u8).prop_map(|share| format!("{share} % of its flour")),
        1 => (1..60_u8).prop_map(|share| format!("{share} % of the flour")),
        2 => (1..60_u16).prop_map(|grams| format!("{} g", grams * 10)),
        1 => select(vec!["100 %", "rest", "2 l", "5 % of the oat syrup"]).prop_map(str::to_owned),
    ]
}

fn ingredient() -> impl Strategy<Value = String> {
    let part = prop_oneof![
        Just("  flour\n".to_owned()),
        Just(String::new()),
        (1..100_u8).prop_map(|water| format!("  holds {water} % water\n")),
        (1..100_u8).prop_map(|water| format!("  holds {water} % water\n  holds 0.5 % salt\n")),
    ];
    let rest = select(vec!["", "  density 1.2 kg/l\n", "  source the bag\n"]);
    (select(&INGREDIENTS[..]), part, rest)
        .prop_map(|(name, part, rest)| format!("ingredient {name}\n{part}{rest}"))
}

fn scale() -> impl Strategy<Value = String> {
    (select(vec!["beam", "bench"]), any::<bool>(), 1..9_u8).prop_map(|(name, is_whole, division)| {
        let capacity = if is_whole { "  capacity 10 kg\n" } else { "" };
        format!("scale {name}\n  division {division} g\n{capacity}")
    })
}

fn culture() -> impl Strategy<Value = String> {
    let other = prop::option::weighted(0.2, select(&FORMULAS[..]));
    (select(&FORMULAS[..]), flour(), 50..120_u8, other).prop_map(|(name, flour, water, other)| {
        let from = other.map(|other| format!("  from {other}  20 % of its flour\n")).unwrap_or_default();
        format!("culture {name}\n  {flour}  100 %\n  water  {water} %\n{from}")
    })
}

fn flour() -> impl Strategy<Value = &'static str> {
    select(vec!["rye flour", "wheat flour", "strong white flour"])
}

fn dough() -> impl Strategy<Value = String> {
    let stage = (flour(), 50..110_u8, select(&FORMULAS[..]), 5..50_u8, select(vec!["", ", given back"]));
    let piece = (select(&FORMULAS[..]), select(vec!["15 % of its flour", "200 g", "5 % of the flour"]));
    let last = (flour(), 55..80_u8, select(&INGREDIENTS[..]), prop::option::weighted(0.4, piece));
    let ends = (
        prop::option::weighted(0.2, prop_oneof![Just("hydration 71 %"), Just("oat syrup at most 5 %")]),
        prop::option::of(1..50_u8),
    );
    let stage = prop::option::weighted(0.7, stage);
    (select(&FORMULAS[..]), stage, last, ends).prop_map(|(name, stage, last, (want, make))| {
        let stage = stage.map(|(flour, water, culture, takes, fate)| {
            format!(
                "\nstage sour, a levain\n  {flour}  100 %\n  water  {water} %\n  from {culture}  20 %{fate}\n  takes  {takes} % of the flour\n"
            )
        });
        let (flour, water, extra, piece) = last;
        let piece = piece.map(|(from, amount)| format!("  from {from}  {amount}\n"));
        let want = want.map(|want| format!("\nwant\n  {want}\n"));
        let make = make.map(|make| format!("\nmake {make} kg of dough\n"));
        let [stage, piece, want, make] = [stage, piece, want, make].map(Option::unwrap_or_default);
        format!(
            "dough {name}\n{stage}\nfinal dough\n  {flour}  100 %\n  water  {water} %\n  {extra}  3 %\n{piece}{want}{make}\n"
        )
    })
}
