//! Writes the book of the workload's chain into a folder: forty doughs, two hundred products, and a bakery that makes
//! them: `chain FOLDER`. Its orders come from `generate 10000000 year > FOLDER/orders.csv`.

#![allow(dead_code, reason = "it uses a part of the workload")]

#[path = "../benches/workload/mod.rs"]
mod workload;

use std::fmt::Write as _;
use std::fs;
use std::io;
use std::path::PathBuf;

use workload::doughs::{self, Bakery, DOUGHS};

/// The bakery: mixers, ovens and people enough for a plant that makes seven tonnes a night.
const BAKERY: &str = "\
bakery Quay chain
  time zone Europe/Lisbon
  out by 06:00

mixer spiral mixer
  there are  12
  most  400 kg of dough

oven deck oven
  decks  240

shift night shift
  from 16:00 to 08:00
  bakers  60

shift day shift
  from 08:00 to 16:00
  bakers  60
";

fn main() -> io::Result<()> {
    let folder = PathBuf::from(std::env::args().nth(1).unwrap_or_else(|| "chain".to_owned()));
    fs::create_dir_all(&folder)?;
    fs::write(folder.join("bakery.dough"), BAKERY)?;
    for dough in 0..DOUGHS {
        let text = doughs::text(dough);
        let ripening = text.replace("% of the flour\n", "% of the flour\n  ripens  12 h at 21 °C\n");
        let method = format!("\nmethod Dough {dough:02}\n  mixes  10 min\n  bulk  60 to 150 min\n");
        fs::write(folder.join(format!("dough-{dough:02}.dough")), ripening + &method)?;
    }
    let mut products = String::new();
    for product in 0..workload::PRODUCTS {
        let (dough, grams) = Bakery::made_of(product);
        let _ = write!(
            products,
            "product {}\n  made of Dough {dough:02}\n  piece  {grams} g\n  losing  2 %\n  deck  {} pieces\n  \
             shaping  20 min\n  proof  45 to 120 min\n  bakes  30 min\n\n",
            workload::product(product),
            24_000 / grams,
        );
    }
    fs::write(folder.join("products.dough"), products)
}
