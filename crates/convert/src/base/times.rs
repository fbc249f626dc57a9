//! What goes into the final dough at several times still does after a conversion, however much of it that then is.

use levamen_balance::{Balance, BalancedLine};
use levamen_formula::key;
use levamen_quantity::{Exact, Share};

use crate::draft::{Draft, Says};

/// Writes the lines of the final dough that say when they go in as shares of what goes in of it in all: the first as the
/// rest, so that the whole stays exact, and each other one to a hundredth of a percent.
pub(super) fn as_shares(draft: &mut Draft, heading: usize, dough: &Balance) {
    let block = draft.block(heading);
    let lines = dough.stages.last().map_or(&[][..], |last| &last.lines);
    let mut seen: Vec<String> = Vec::new();
    for line in draft.lines.get_mut(block).unwrap_or_default() {
        let (Says::Weigh(name), Some(when)) = (&line.says, &line.when) else { continue };
        let of_it = |known: &&BalancedLine| key(&known.name) == *name;
        let own = lines.iter().filter(of_it).find(|known| known.when.as_ref() == Some(when));
        let Some(own) = own else { continue };
        let whole: Exact = lines.iter().filter(of_it).map(|known| known.share.fraction()).sum();
        let words = match own.share.fraction().checked_div(&whole).filter(|_| seen.contains(name)) {
            Some(share) => {
                let percent = Share::from_fraction(share).percent().to_fixed(2);
                let percent = percent.trim_end_matches('0').trim_end_matches('.');
                format!("{0} {percent} % of its {0}, {when}", own.name)
            }
            None => format!("{} rest, {when}", own.name),
        };
        seen.push(name.clone());
        line.say(&words);
    }
}
