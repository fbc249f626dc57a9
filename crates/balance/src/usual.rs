//! Figures that doughs usually have: outside of them a slip of the pen is likelier than a bread.
//!
//! The ranges are data with a source each. They ask a question and never refuse: a dough may be what no other is.

use levamen_formula::{Pantry, StageKind};
use levamen_language::{Kind, Place, Problem};
use levamen_quantity::{Exact, Share};

use crate::figures::Balance;

/// A usual range of a figure, in percent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UsualRange {
    /// What it is, as it is said in a sentence.
    pub figure: &'static str,
    /// The least that is usual.
    pub least: i64,
    /// The most that is usual.
    pub most: i64,
    /// Where the range comes from.
    pub source: &'static str,
}

/// Flat and filled doughs are beyond those of the printed formulas, on both sides. Those are in `tests/published`, and a test
/// works out their ranges.
const HYDRATION: UsualRange = UsualRange {
    figure: "effective hydration",
    least: 40,
    most: 115,
    source: "60.2 to 101.4 % in the printed formulas that were read, and room on both sides (our own choice)",
};
const SALT: UsualRange = UsualRange {
    figure: "salt",
    least: 0,
    most: 4,
    source: "1.77 to 2.51 % in the printed formulas that were read; unsalted bread exists (common practice, no source)",
};
const SUGAR: UsualRange =
    UsualRange { figure: "sugar", least: 0, most: 40, source: "sweet doughs, common practice, no source" };
const FAT: UsualRange =
    UsualRange { figure: "fat", least: 0, most: 80, source: "rich brioche, common practice, no source" };

/// Added water on the flour of a stage, by its kind.
const STAGES: [(Kind, UsualRange); 5] = [
    (
        Kind::Poolish,
        UsualRange {
            figure: "hydration",
            least: 80,
            most: 130,
            source: "100 %: The Fundamental Techniques of Classic Bread Baking, guide to pre-ferments, read; room on both sides (our own \
                     choice)",
        },
    ),
    (
        Kind::Biga,
        UsualRange {
            figure: "hydration",
            least: 40,
            most: 100,
            source: "50 to 100 %: The Fundamental Techniques of Classic Bread Baking, guide to pre-ferments, read",
        },
    ),
    (
        Kind::Sponge,
        UsualRange {
            figure: "hydration",
            least: 40,
            most: 120,
            source: "50 to 85 %: The Fundamental Techniques of Classic Bread Baking, guide to pre-ferments, read; a sponge may have all of \
                     the milk",
        },
    ),
    (
        Kind::Levain,
        UsualRange {
            figure: "hydration",
            least: 40,
            most: 170,
            source: "50 to 125 %: The Fundamental Techniques of Classic Bread Baking, guide to pre-ferments, read; room on both sides (our \
                     own choice)",
        },
    ),
    (
        Kind::RyeSour,
        UsualRange {
            figure: "hydration",
            least: 45,
            most: 210,
            source: "dough yield 150 to 250 over three stages, a German trade lexicon, read; room on both sides (our own choice)",
        },
    ),
];

impl UsualRange {
    /// Whether a share is within the range.
    fn holds(&self, share: &Share) -> bool {
        let percent = share.percent();
        percent >= Exact::from(self.least) && percent <= Exact::from(self.most)
    }

    fn ask(&self, whose: &str, share: &Share, place: Place) -> Problem {
        let (figure, percent) = (self.figure, share.percent().to_fixed(1));
        let percent = percent.strip_suffix(".0").unwrap_or(&percent).to_owned();
        Problem::warning("unusual", format!("{figure} of `{whose}` is {percent} %: are you sure?"))
            .at(place, "in this dough")
            .note(format!("usual are {} to {} %: {}", self.least, self.most, self.source))
            .help("look at its figures with `levamen why`; if they are meant, nothing has to be done")
    }
}

/// What of a dough is unusual, as questions.
#[must_use]
pub fn unusual(balance: &Balance, pantry: &Pantry, place: Place) -> Vec<Problem> {
    let part = |part: fn(&levamen_formula::Ingredient) -> &Share| -> Share {
        let rows = balance.overall.iter().filter_map(|row| {
            let known = pantry.get(row.ingredient)?;
            Some(row.share.fraction() * part(known).fraction())
        });
        Share::from_fraction(rows.sum())
    };
    let whole = [
        (HYDRATION, balance.effective_hydration.clone()),
        (SALT, balance.salt.clone()),
        (SUGAR, part(|ingredient| &ingredient.sugar)),
        (FAT, part(|ingredient| &ingredient.fat)),
    ];
    let of_whole = whole.iter().filter(|(usual, share)| !usual.holds(share));
    let mut questions: Vec<Problem> =
        of_whole.map(|(usual, share)| usual.ask(&balance.dough, share, place)).collect();
    for stage in &balance.stages {
        let StageKind::Ahead(kind) = stage.kind else { continue };
        // A stage whose wetness comes from milk or beer has no added water to judge.
        let Some(share) = stage.hydration.as_ref().filter(|share| share.fraction().is_positive()) else {
            continue;
        };
        let usual = STAGES.iter().find(|(own, _)| *own == kind).map(|(_, usual)| usual);
        if let Some(usual) = usual.filter(|usual| !usual.holds(share)) {
            questions.push(usual.ask(&format!("{} of {}", stage.name, balance.dough), share, place));
        }
    }
    questions
}
