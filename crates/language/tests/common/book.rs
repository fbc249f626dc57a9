//! A book of any size, the same each time.

use std::fmt::Write;

/// A sequence of numbers that look like chance (a linear congruential generator, with the constants of Knuth's
/// MMIX, from memory).
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most
    }
}

/// At least this many bytes of doughs as a baker writes them, in canonical layout.
pub fn text(bytes: usize) -> String {
    let mut chance = Chance(1);
    let mut text = String::with_capacity(bytes + 1000);
    let mut number = 0;
    while text.len() < bytes {
        number += 1;
        dough(&mut text, number, &mut chance);
    }
    text
}

fn dough(text: &mut String, number: usize, chance: &mut Chance) {
    let flours =
        ["strong white flour", "wholemeal flour", "type 1150 rye flour", "spelt flour", "malted wheat flour"];
    let extras = ["honey", "butter", "sunflower seeds", "rolled oats", "whole egg", "crème fraîche"];
    let mut pick = |words: &[&'static str]| {
        let index = usize::try_from(chance.below(words.len() as u64)).unwrap_or(0);
        words.get(index).copied().unwrap_or("flour")
    };
    let (second, extra) = (pick(flours.get(1..).unwrap_or_default()), pick(&extras));
    let mut figure = |least: u64, most: u64| least + chance.below(most - least);
    let (share, water) = (figure(5, 40), figure(580, 820));
    let lines = [
        format!("dough House loaf number {number}"),
        String::new(),
        "overall".to_owned(),
        format!("  strong white flour   {:>5} %", 100 - share),
        format!("  {second:<20} {share:>5} %"),
        format!("  water                {:>3}.{} %", water / 10, water % 10),
        format!("  salt                   1.{} %  # fine", figure(6, 10)),
        format!("  {extra:<20} {:>5} %", figure(1, 12)),
        String::new(),
        "stage levain, a levain".to_owned(),
        format!("  takes               {:>5} % of the flour", figure(5, 35)),
        "  wholemeal flour       100 %".to_owned(),
        format!("  water               {:>5} %", figure(50, 125)),
        format!("  from mother culture {:>5} %, given back", figure(10, 30)),
        format!("  ripens              {:>5} to 14 h at {} °C", figure(8, 13), figure(20, 28)),
        String::new(),
        format!("make {} pieces of {} g, losing 2 %", figure(6, 80), figure(400, 1200)),
        String::new(),
    ];
    for line in lines {
        let _ = writeln!(text, "{line}");
    }
}

/// The facts of a book as JSON: for each line an object with its words and its figure.
pub fn as_json(text: &str) -> String {
    let fact = |line: &str| {
        let (words, comment) = line.split_once('#').unwrap_or((line, ""));
        let figures = words.split(' ').filter_map(|word| word.parse::<f64>().ok()).collect::<Vec<_>>();
        let names = words.split(' ').filter(|word| word.parse::<f64>().is_err() && !word.is_empty());
        let depth = line.len() - line.trim_start().len();
        serde_json::json!({
            "depth": depth / 2,
            "words": names.collect::<Vec<_>>().join(" "),
            "figures": figures,
            "comment": comment,
        })
    };
    serde_json::Value::from(text.lines().filter(|line| !line.is_empty()).map(fact).collect::<Vec<_>>())
        .to_string()
}
