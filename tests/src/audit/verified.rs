//! A whole text, verified.

use levamen_balance::Balancer;
use levamen_formula::Book;
use levamen_language::TextId;

use super::{faults, unfulfilled};

/// Every dough of a text is balanced and verified, or refused with a reason; returns how many are balanced.
///
/// # Errors
/// What does not add up, is not as stated, or is refused without a reason.
pub fn verified(text: &str) -> Result<usize, String> {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    let mut balancer = Balancer::new(&book);
    let mut count = 0;
    for (id, entry) in book.entries() {
        let Some(formula) = &entry.formula else {
            if problems.is_empty() {
                return Err(format!("{} is refused without a reason", entry.name));
            }
            continue;
        };
        match balancer.balance(id).cloned() {
            Ok(balance) => {
                let mut wrong = faults(&book, &mut balancer, id, &balance)?;
                wrong.extend(unfulfilled(formula, &balance));
                if !wrong.is_empty() {
                    return Err(format!("{}: {}", entry.name, wrong.join("\n")));
                }
                count += 1;
            }
            Err([]) => return Err(format!("{} is refused without a reason", entry.name)),
            Err(_) => {}
        }
    }
    Ok(count)
}
