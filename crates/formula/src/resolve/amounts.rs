//! How much: a share of something, or a mass.

use levamen_language::{Amount as Written, AmountKind, Basis as WrittenBasis, BasisScope, Name, Problem};
use levamen_quantity::{Share, Volume};

use super::Resolver;
use crate::nearest::suggest;
use crate::stage::StageKind;
use crate::stage::{Item, Measure, ResolvedAmount, ResolvedBasis};

/// The section that an amount is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Within {
    /// `overall`: a bare percentage is of the flour of the whole dough.
    Overall,
    /// A stage or the final dough: a bare percentage is of the flour weighed there.
    Stage(StageKind),
}

impl<'t> Resolver<'_, 't> {
    /// The amount of a line.
    pub(super) fn line_amount(
        &mut self,
        within: Within,
        name: Name<'t>,
        item: Item,
        amount: &Written<'t>,
    ) -> Option<ResolvedAmount> {
        let measure = match &amount.kind {
            AmountKind::Percent { percent, of: None } => {
                // The feeding of a culture is on its own flour, and so is its seed.
                let is_fed = self.draft.is_culture && matches!(item, Item::Seed(..) | Item::OwnPiece);
                if needs_basis(within, item) && !is_fed {
                    let problem = self.bare_share(name, item, percent, amount.span);
                    self.report(problem);
                    return None;
                }
                let basis =
                    if within == Within::Overall { ResolvedBasis::Flour } else { ResolvedBasis::OwnFlour };
                Measure::Share(Share::from_percent(percent.clone()), basis)
            }
            AmountKind::Percent { percent, of: Some(of) } => {
                Measure::Share(Share::from_percent(percent.clone()), self.basis(within, of)?)
            }
            AmountKind::Mass(quantity) => Measure::Mass(quantity.mass.clone()),
            AmountKind::Volume { volume, .. } => self.weigh_volume(name, item, volume, amount)?,
            AmountKind::Rest => Measure::Rest,
        };
        Some(ResolvedAmount { measure, place: self.place(amount.span) })
    }

    /// The amount of `takes` or `weighs`: of the whole dough, whether or not it says so.
    pub(super) fn whole_dough_amount(&mut self, amount: &Written<'t>) -> Option<ResolvedAmount> {
        let measure = match &amount.kind {
            AmountKind::Percent { percent, of } => {
                let basis = match of {
                    Some(of) => self.basis(Within::Overall, of)?,
                    None => ResolvedBasis::Flour,
                };
                Measure::Share(Share::from_percent(percent.clone()), basis)
            }
            AmountKind::Mass(quantity) => Measure::Mass(quantity.mass.clone()),
            AmountKind::Rest => Measure::Rest,
            AmountKind::Volume { .. } => {
                self.report(
                    Problem::error("volume-of-dough", "a stage is weighed, not measured by volume")
                        .at(self.place(amount.span), "a volume")
                        .help("write a mass or a percentage of the flour"),
                );
                return None;
            }
        };
        Some(ResolvedAmount { measure, place: self.place(amount.span) })
    }

    /// `of the flour`, `of its water` and the like.
    fn basis(&mut self, within: Within, of: &WrittenBasis<'t>) -> Option<ResolvedBasis> {
        let own = of.reach == BasisScope::Stage;
        if own && within == Within::Overall {
            let name = of.name.text;
            self.report(
                Problem::error("its-outside-a-stage", format!("`of its {name}` is said of a stage"))
                    .at(self.place(of.span), "this is about the whole dough")
                    .help(format!("write `of the {name}`")),
            );
            return None;
        }
        match of.name.text {
            "flour" => return Some(if own { ResolvedBasis::OwnFlour } else { ResolvedBasis::Flour }),
            "dough" if !own => return Some(ResolvedBasis::Dough),
            _ => {}
        }
        let Some(id) = self.directory.ingredient(of.name.text) else {
            let problem = Problem::error("unknown-basis", format!("nothing is called `{}`", of.name.text))
                .at(self.place(of.name.span), "a percentage of what?");
            let close = levamen_language::nearest(of.name.text, self.directory.whole_pantry().names());
            let problem = suggest(problem, &close)
                .help("a percentage is `of the flour`, `of the dough`, or of an ingredient by its name");
            self.report(problem);
            return None;
        };
        Some(if own { ResolvedBasis::OwnCell(id) } else { ResolvedBasis::Row(id) })
    }

    /// A volume becomes a mass by the ingredient's density.
    fn weigh_volume(
        &mut self,
        name: Name<'t>,
        item: Item,
        volume: &Volume,
        amount: &Written<'t>,
    ) -> Option<Measure> {
        let density = match item {
            Item::Ingredient(id) => self.directory.pantry.get(id).and_then(|known| known.density.as_ref()),
            _ => None,
        };
        if density.is_none() {
            let words = name.text;
            self.report(
                Problem::error("no-density", format!("nobody has said what a litre of `{words}` weighs"))
                    .at(self.place(amount.span), "a volume")
                    .help("weigh it and write grams")
                    .help(format!(
                        "or add `density 1.03 kg/l`, with its own figure, to the ingredient `{words}`"
                    )),
            );
        }
        density.map(|density| Measure::Mass(volume.weighs(density)))
    }
}

/// Whether a bare percentage could be misread: of a stage and of a piece of dough always, of a seed where it goes
/// straight into the final dough.
fn needs_basis(within: Within, item: Item) -> bool {
    match item {
        Item::Ingredient(_) => false,
        Item::Seed(..) => within == Within::Stage(StageKind::FinalDough),
        Item::Stage(_) | Item::Piece(_) | Item::OwnPiece => true,
    }
}
