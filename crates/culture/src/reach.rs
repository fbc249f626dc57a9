//! The most culture that there can be by each moment.

use levamen_quantity::Exact;

use crate::keeping::Keeping;
use crate::slots::Slots;

/// By slot, what can stand in the tub there after a feeding.
#[derive(Debug)]
pub(crate) struct Reach {
    /// The least that must; `None` where no feeding can be.
    pub(crate) floor: Vec<Option<Exact>>,
    /// The most that can while every need before is met; `None` where no way leads there.
    pub(crate) most: Vec<Option<Exact>>,
    /// No plan needs more than this in the tub.
    pub(crate) cap: Exact,
}

impl Reach {
    /// Looks forward from what is on hand; `None` on hand means whatever is wanted.
    pub(crate) fn new(keeping: &Keeping, slots: &Slots<'_>, on_hand: Option<&Exact>) -> Self {
        let hold = keeping.declared().hold_least.grams();
        // Who holds all that will be needed, and the least beside it, never needs to feed for more.
        let plenty = &slots.total() + hold;
        let cap = keeping.declared().hold_most.as_ref().map_or(plenty, |most| most.grams().clone());
        let start = on_hand.unwrap_or(&cap).clone();
        let floor = floor(keeping, slots, &start);
        let mut reach = Self { floor, most: vec![None; slots.end() + 1], cap };
        if let Some(most) = reach.most.get_mut(Slots::START) {
            *most = Some(start);
        }
        for from in 0..slots.end() {
            for to in slots.after(from) {
                let Some(grown) = reach.grown(keeping, slots, from, to) else { continue };
                if let Some(most) = reach.most.get_mut(to).filter(|most| most.as_ref() < Some(&grown)) {
                    *most = Some(grown);
                }
            }
        }
        reach
    }

    /// What the most at one slot can grow to at the next, after what is taken between them.
    fn grown(&self, keeping: &Keeping, slots: &Slots<'_>, from: usize, to: usize) -> Option<Exact> {
        let left = self.most.get(from)?.as_ref()? - &slots.taken(from, to);
        let floor = self.floor.get(to)?.as_ref()?;
        let grown = &left / keeping.low();
        (grown >= *floor).then(|| grown.min(self.cap.clone()))
    }

    /// The most that can be taken for one need when all before it are met, and the next feeding still finds enough.
    pub(crate) fn most_for(&self, keeping: &Keeping, slots: &Slots<'_>, need: usize) -> Exact {
        let hold = keeping.declared().hold_least.grams();
        let left = |from: usize| {
            let most = self.most.get(from)?.as_ref()?;
            slots.after(from).any(|to| slots.needs(from, to).contains(&need)).then(|| {
                let keep = keeping.low() * &hold.clone().min(most / keeping.low());
                &(most - &slots.taken_before(from, need)) - &keep
            })
        };
        let most = (0..slots.end()).filter_map(left).max().unwrap_or_default();
        most.max(Exact::ZERO)
    }
}

/// What must stand in the tub after each feeding: the least to hold; and while that little is still being built up, as
/// much as the quickest feeding makes.
fn floor(keeping: &Keeping, slots: &Slots<'_>, start: &Exact) -> Vec<Option<Exact>> {
    let hold = keeping.declared().hold_least.grams();
    let mut floor: Vec<Option<Exact>> = vec![None; slots.end() + 1];
    if let Some(first) = floor.get_mut(Slots::START) {
        *first = Some(start.clone().min(hold.clone()));
    }
    for from in 0..slots.end() {
        let Some(mass) = floor.get(from).cloned().flatten() else { continue };
        let grown = (&mass / keeping.low()).min(hold.clone());
        for to in slots.after(from) {
            if let Some(own) = floor.get_mut(to).filter(|own| own.as_ref() < Some(&grown)) {
                *own = Some(grown.clone());
            }
        }
    }
    floor
}
