//! A small bakery whose costs can be worked out on paper.

use levamen_bakery::Bakery;
use levamen_balance::{Balance, Balancer};
use levamen_formula::Book;
use levamen_language::TextId;

/// One gram of flour stands for 1.64 g of dough. A kilogram of flour costs 0.80, of salt 0.50, and of yeast as it is used
/// 5.00: 4.00 a kilogram, of which a fifth is wasted. So the dough of a kilogram of flour costs 0.80 + 0.01 + 0.10 = 0.91,
/// its water apart, of which no price is said.
const BOOK: &str = "\
dough Loaf

overall
  strong white flour  100 %
  water                60 %
  salt                  2 %
  fresh yeast           2 %

make 100 pieces of 820 g

product Loaf
  made of Loaf
  piece                 820 g
  losing                  2 %
  each with poppy seeds   5 g

product Roll
  made of Loaf
  piece                  82 g
  each with sesame seeds  2 g

supply strong white flour
  pack          25 kg
  price         20 for 25 kg
  delivered in   2 days

supply fresh yeast
  pack            1 kg
  price           4 for 1 kg
  waste          20 %
  delivered in   2 days

supply salt
  price         0.5 for 1 kg
  delivered in  2 days

supply poppy seeds
  price 8 for 1 kg
";

/// The book and its cards.
pub fn read() -> (Book, Bakery) {
    let texts = [(TextId(0), BOOK)];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    (book, bakery)
}

/// The balance of its dough.
pub fn loaf(book: &Book) -> Balance {
    Balancer::new(book).balance(book.find("Loaf").unwrap()).unwrap().clone()
}
