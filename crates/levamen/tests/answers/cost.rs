//! What doughs, pieces and orders cost, and what has no price.

use insta::assert_snapshot;
use jiff::civil::date;

use crate::asked::book;
use crate::question::{Question, Request};
use crate::questions::{costs, orders_costs};

const BOOK: &str = "\
bakery Quay
  currency EUR

dough Country loaf

overall
  white flour  90 %
  rye flour    10 %
  water        72 %
  salt          2 %

make 40 pieces of 900 g, losing 2 %

dough Seed rolls

overall
  white flour    100 %
  water           60 %
  salt             2 %
  instant yeast  0.7 %

dough Half written

overall
  white flour  100 %
  water

product Country loaf
  made of Country loaf
  piece  900 g
  losing   2 %

product Poppy roll
  made of Seed rolls
  piece                 80 g
  head                  36 pieces
  each with poppy seeds  2 g

supply white flour
  price 20 for 25 kg

supply rye flour
  price 11 for 10 kg
  waste  1 %

supply salt
  price 0.50 for 1 kg

supply water
  price 2.10 for 1000 kg
";

const ORDERS: &str = "\
date,customer,product,quantity
2026-11-27,Inn,Country loaf,1
2026-11-27,Market,Country loaf,1
2026-11-27,School,Country loaf,1
2026-11-27,Inn,Poppy roll,50
2026-11-28,Inn,Country loaf,60
2026-11-29,Inn,Country laof,60
";

fn said<R: Request>(question: &Question<R>) -> String {
    book(&[("bakery.dough", BOOK), ("orders.csv", ORDERS)]).ask(question)
}

#[test]
fn every_dough_with_its_pieces() {
    assert_snapshot!(said(&costs(&[])));
}

#[test]
fn one_dough_ingredient_by_ingredient() {
    assert_snapshot!(said(&costs(&["country  loaf", "Poppy roll"])));
    assert_snapshot!(said(&costs(&["Country loaf"]).json()));
}

#[test]
fn orders_customer_by_customer() {
    assert_snapshot!(said(&orders_costs(date(2026, 11, 27)).skip_wrong()));
    assert_snapshot!(said(&orders_costs(date(2026, 11, 28)).json()));
    assert_snapshot!(said(&orders_costs(date(2026, 11, 29))));
}

#[test]
fn a_dough_with_problems() {
    assert_snapshot!(said(&costs(&["Half written"])));
}
