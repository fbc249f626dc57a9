//! Doughs as a hurried person writes them: right in what they say, and laid out anyhow.

use proptest::prelude::*;

/// A whole text: doughs, cultures, ingredients and scales with comments and empty lines among them.
pub fn text() -> impl Strategy<Value = String> {
    let item = prop_oneof![
        3 => dough(),
        1 => block("culture mother culture", prop_oneof![weigh(), ripens(), note()]),
        1 => Just("ingredient egg\n  holds 76.15% water\n    # fresh\n  density 1.03  kg/l\n".to_owned()),
        1 => Just("scale fine scale\n\tdivision 0.1g\n\tcapacity   500 g".to_owned()),
        1 => Just("mixer  big  one\n  there are   2\n  least 8kg  of dough # half a bag\n  warms 12°C".to_owned()),
        1 => Just("room hall\n at 4:30   17.5°C\n at 22:00 20 °C\n stands  at 21°C".to_owned()),
        1 => Just("product Loaf\n  made   of 7 grain  loaf\n  each with T65 flour  2g\n  proof 1to 2h".to_owned()),
    ];
    let line_end = prop_oneof![Just("\n"), Just("\r\n")];
    (prop::collection::vec((filler(0), item), 1..4), line_end).prop_map(|(items, line_end)| {
        let text: String =
            items.into_iter().flat_map(|(filler, item)| [filler, item, "\n".to_owned()]).collect();
        text.replace('\n', line_end)
    })
}

/// A dough whose sections are at the margin or under its heading.
fn dough() -> impl Strategy<Value = String> {
    let overall = block("overall", prop_oneof![8 => weigh(), 1 => note()]);
    let stage = block("stage  night build ,a  levain", stage_fact());
    let nested = block("stage inner sponge", stage_fact())
        .prop_map(|inner| format!("stage scald\n  malt  100%\n{}", indented(&inner, 2)));
    let last = block("final dough", prop_oneof![weigh(), from()]);
    let make = prop_oneof![
        Just("make 24 pieces of 920g ,losing 2%".to_owned()),
        Just("make  20 kg of dough # today".to_owned()),
        Just("make 10kg of flour".to_owned()),
    ];
    let sections = (overall, stage, nested, last, make, prop::sample::select(vec![0_usize, 1, 3]));
    (sections, filler(0), filler(2)).prop_map(|((overall, stage, nested, last, make, columns), one, two)| {
        let sections = [overall, one, stage, nested, two, last, make].join("\n");
        format!("dough  Quayside   loaf\nnote wet , and soft\n{}", indented(&sections, columns))
    })
}

/// A heading with some different lines under it.
fn block(heading: &'static str, fact: impl Strategy<Value = String>) -> impl Strategy<Value = String> {
    let lines = prop::collection::vec((fact, filler(3)), 1..6);
    (lines, 1_usize..5).prop_map(move |(lines, columns)| {
        let mut block = heading.to_owned();
        let mut seen = Vec::new();
        for (fact, filler) in lines {
            // A name is weighed once, a fact said once.
            let word = fact.split_whitespace().next().unwrap_or_default().to_owned();
            if !seen.contains(&word) {
                block = format!("{block}\n{}{fact}\n{filler}", " ".repeat(columns));
                seen.push(word);
            }
        }
        block
    })
}

/// `NAME AMOUNT` with more or less space, and perhaps a comment.
fn weigh() -> impl Strategy<Value = String> {
    let name = prop::sample::select(vec![
        "wheat  flour",
        "T65 flour",
        "7 grain mix",
        "water",
        "crème\u{a0}fraîche",
        "dough improver",
        "salt",
    ]);
    let amount = prop_oneof![
        (figure(), gap(), prop::sample::select(vec!["%", "g", "kg", "lb", "oz", "ml", "l"]))
            .prop_map(|(figure, gap, unit)| figure + &gap + unit),
        (figure(), prop::sample::select(vec!["of the flour", "of  its T65  flour", "of the  7grain mix"]))
            .prop_map(|(figure, basis)| format!("{figure}%  {basis}")),
        Just("rest".to_owned()),
    ];
    (name, gap(), amount, comment())
        .prop_map(|(name, gap, amount, comment)| format!("{name} {gap}{amount}{comment}"))
}

fn stage_fact() -> impl Strategy<Value = String> {
    let amounts = prop::sample::select(vec![
        "takes 18% of  the flour",
        "takes   2kg of  flour",
        "weighs 20 % of the dough",
        "weighs 6kg",
        "hydration\t125 %",
        "left  over 5 %",
        "left over rest",
    ]);
    prop_oneof![4 => weigh(), 2 => from(), 1 => ripens(), 1 => note(), 3 => amounts.prop_map(str::to_owned)]
}

fn from() -> impl Strategy<Value = String> {
    let source = prop::sample::select(vec!["mother  culture", "this  dough", "Country loaf"]);
    let amount = prop::sample::select(vec!["", " 20%", "  5 % of its flour", " 100g"]);
    let fate = prop::sample::select(vec!["", ", given  back", " ,stays"]);
    (source, amount, fate, comment())
        .prop_map(|(source, amount, fate, comment)| format!("from {source}{amount}{fate}{comment}"))
}

fn ripens() -> impl Strategy<Value = String> {
    let time = prop::sample::select(vec!["12h", "12  to 16 h", "90min"]);
    let warmth = prop::sample::select(vec!["", " at 21°C", "  at  -2 °C", " at 70°F"]);
    (time, warmth, comment()).prop_map(|(time, warmth, comment)| format!("ripens {time}{warmth}{comment}"))
}

fn note() -> impl Strategy<Value = String> {
    "note [a-z,.]{1,8}( {1,3}[a-z0-9%]{1,5}){0,3}"
}

fn figure() -> impl Strategy<Value = String> {
    "[1-9][0-9]{0,4}(\\.[0-9]{0,3}[1-9])?"
}

fn gap() -> impl Strategy<Value = String> {
    "[ \t]{0,3}"
}

fn comment() -> impl Strategy<Value = String> {
    prop_oneof![3 => Just(String::new()), 1 => " {0,3}# ?[a-z# ]{0,12}"]
}

/// Comments and empty lines.
fn filler(columns: usize) -> impl Strategy<Value = String> {
    let line =
        prop_oneof![Just(String::new()), "# [a-z ]{0,8}".prop_map(move |line| " ".repeat(columns) + &line)];
    prop_oneof![
        3 => Just(String::new()),
        1 => prop::collection::vec(line, 0..4).prop_map(|lines| lines.join("\n") + "\n"),
    ]
}

fn indented(text: &str, columns: usize) -> String {
    text.lines().map(|line| " ".repeat(columns) + line).collect::<Vec<_>>().join("\n")
}
