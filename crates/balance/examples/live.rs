//! A book in memory that takes edits, without files and without a screen of its own.
//!
//! `cargo run -p levamen-balance --example live`

#![expect(clippy::print_stdout, reason = "an example shows what it does")]

use levamen_balance::{Changes, LiveBook};
use levamen_language::TextId;
use levamen_quantity::Share;

const MOTHER: &str = "
culture mother
  strong white flour  100 %
  water               100 %
";

const COUNTRY: &str = "
dough Country loaf

overall
  strong white flour  90 %
  wholemeal flour     10 %
  water               72 %
  salt                 2 %

stage levain, a levain
  takes               20 % of the flour
  strong white flour  100 %
  water                80 %
  from mother          20 %

make 24 pieces of 900 g
";

const STICK: &str = "
dough Salted stick

final dough
  strong white flour  100 %
  water                58 %
  salt                  2 %
  from mother          30 % of its flour
";

fn main() {
    let texts = [(TextId(0), MOTHER), (TextId(1), COUNTRY), (TextId(2), STICK)];
    let mut live = LiveBook::read(&[&texts]);
    for (id, entry) in live.book().entries() {
        let weight = live.balance(id).map(|balance| balance.batch().mass(&balance.weight));
        let grams = weight.map_or("none".to_owned(), |weight| weight.grams().to_fixed(1));
        println!("{}: {grams} g", entry.name);
    }

    println!("\nthe country loaf at 75 %");
    let changes = live.edit(TextId(1), COUNTRY.replace("72 %", "75 %"));
    tell(&live, changes);

    println!("\nthe culture is kept stiffer");
    let changes = live.edit(TextId(0), MOTHER.replace("water               100 %", "water  60 %"));
    tell(&live, changes);

    println!("\nits name is misspelt");
    let changes = live.edit(TextId(2), STICK.replace("from mother", "from mothr"));
    tell(&live, changes);
}

/// Shows what changed.
fn tell(live: &LiveBook, changes: Option<Changes>) {
    let percent = |share: &Option<Share>| match share {
        Some(share) => format!("{} %", share.percent().to_fixed(2)),
        None => "none".to_owned(),
    };
    let Some(changes) = changes else { return println!("  there is no such text") };
    for dough in &changes.doughs {
        let name = live.book().entry(dough.id).map_or("?", |entry| entry.name.as_str());
        for change in &dough.figures {
            println!(
                "  {name}: {}: {} -> {}",
                change.figure,
                percent(&change.before),
                percent(&change.after)
            );
        }
    }
    if changes.problems {
        for problem in &live.problems() {
            println!("  {}", problem.message);
            problem.help.iter().for_each(|help| println!("    {help}"));
        }
    }
}
