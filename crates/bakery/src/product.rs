//! Products: a dough in pieces, as it is sold.

use levamen_formula::{Book, FormulaId, IngredientId};
use levamen_language::{Place, Problem, SlotValue};
use levamen_quantity::{ClockTime, Duration, Exact, Mass, Share};

use crate::facts::CardFacts;
use crate::names;

/// A product.
#[derive(Debug, Clone, PartialEq)]
pub struct Product {
    /// What it is called in orders.
    pub name: String,
    /// Where the name stands.
    pub place: Place,
    /// The dough that it is made of.
    pub dough: FormulaId,
    /// What a piece weighs.
    pub piece: Piece,
    /// The share of the dough lost in mixing and dividing.
    pub losing: Share,
    /// Pieces made beyond the orders.
    pub spare: Spare,
    /// How many pieces the divider makes at once: orders are rounded up to whole heads.
    pub head: Option<u32>,
    /// What goes on or into each piece beside the dough.
    pub toppings: Vec<Topping>,
    /// How many pieces one deck of the oven takes.
    pub deck: Option<u32>,
    /// How long one batch takes to divide and shape.
    pub shaping: Option<Duration>,
    /// How long the pieces proof: at least, and at most.
    pub proof: Option<(Duration, Duration)>,
    /// How long they bake.
    pub bakes: Option<Duration>,
    /// How long they cool before they may leave.
    pub cools: Option<Duration>,
    /// When they have to be out, where that is another time than the bakery's.
    pub out_by: Option<ClockTime>,
}

/// What a piece weighs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Piece {
    /// Before baking.
    Raw(Mass),
    /// After baking, and the share of its weight that it loses in the oven.
    Baked {
        /// What one weighs when it is cold.
        mass: Mass,
        /// The loss, below the whole.
        loss: Share,
        /// What its dough weighs before baking: `baked / (1 − loss)`.
        dough: Mass,
    },
}

impl Piece {
    /// A piece of a stated baked weight; `None` where the loss is the whole.
    #[must_use]
    pub fn baked(mass: Mass, loss: Share) -> Option<Self> {
        let dough = mass.grams().checked_div(loss.rest().fraction()).map(Mass::from_grams)?;
        Some(Self::Baked { mass, loss, dough })
    }

    /// What the dough of a piece weighs before baking.
    #[must_use]
    pub fn dough(&self) -> Mass {
        match self {
            Self::Raw(mass) | Self::Baked { dough: mass, .. } => mass.clone(),
        }
    }
}

/// Pieces beyond the orders.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Spare {
    /// None.
    None,
    /// A share of what is ordered, rounded up to whole pieces.
    Share(Share),
    /// So many.
    Pieces(u32),
}

/// Something beside the dough in each piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Topping {
    /// What it is.
    pub ingredient: IngredientId,
    /// Its name as the card writes it.
    pub name: String,
    /// How much goes on one piece.
    pub mass: Mass,
}

impl Product {
    pub(crate) fn read(book: &Book, facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let Some((dough, at)) = facts.name("made of") else {
            problems.push(facts.missing("which dough it is made of", "made of Country loaf"));
            return None;
        };
        let dough = names::dough(book, &dough, at, problems);
        let piece = piece(facts, problems);
        let spare = spare(facts, problems);
        let toppings = toppings(book, facts, problems);
        let losing = losing(facts, problems);
        Some(Self {
            name: facts.name.spaced().into_owned(),
            place: facts.place(),
            dough: dough?,
            piece: piece?,
            losing: losing?,
            spare: spare?,
            head: facts.count("head"),
            toppings: toppings?,
            deck: facts.count("deck"),
            shaping: facts.time("shaping"),
            proof: facts.times("proof"),
            bakes: facts.time("bakes"),
            cools: facts.time("cools"),
            out_by: facts.clock("out by"),
        })
    }
}

/// Refuses to lose the whole: what is left after it would be nothing.
fn below_whole(facts: &CardFacts<'_>, keyword: &str, problems: &mut Vec<Problem>) -> Option<Share> {
    let share = facts.share(keyword)?;
    if share.fraction() < &Exact::ONE {
        return Some(share);
    }
    let at = facts.find(keyword).map_or(facts.place(), |(_, at)| at);
    let message = format!("`{}` would lose all of it", facts.name.spaced());
    problems.push(facts.conflict(message, at, "write less than 100 %"));
    None
}

fn losing(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Share> {
    if facts.find("losing").is_some() {
        return below_whole(facts, "losing", problems);
    }
    Some(Share::from_percent(Exact::ZERO))
}

fn piece(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Piece> {
    let name = facts.name.spaced();
    match (facts.mass("piece"), facts.mass("baked"), facts.find("bake loss")) {
        (Some(raw), None, None) => Some(Piece::Raw(raw)),
        (None, Some(mass), Some(_)) => {
            let loss = below_whole(facts, "bake loss", problems)?;
            let piece = Piece::baked(mass, loss);
            if piece.is_none() {
                problems.push(Problem::internal("a bake loss below the whole is the whole"));
            }
            piece
        }
        (None, Some(_), None) => {
            problems.push(facts.missing("how much it loses in the oven", "bake loss 12 %"));
            None
        }
        (Some(_), Some(_), _) => {
            let at = facts.find("baked").map_or(facts.place(), |(_, at)| at);
            let message = format!("`{name}` has a weight before baking and one after it");
            problems.push(facts.conflict(message, at, "keep `piece`, or `baked` with its `bake loss`"));
            None
        }
        (Some(_), None, Some((_, at))) => {
            let message = format!("`{name}` has its weight before baking, and a bake loss");
            problems.push(facts.conflict(message, at, "leave it out, or write `baked` in place of `piece`"));
            None
        }
        (None, None, _) => {
            problems.push(facts.missing("what a piece weighs", "piece 920 g"));
            None
        }
    }
}

/// Spare pieces are said as a share or as a number.
fn spare(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Spare> {
    let mut said = facts.all("spare");
    let first = said.next();
    if let Some((_, at)) = said.next() {
        let message = format!("`{}` has two kinds of spare", facts.name.spaced());
        problems.push(facts.conflict(message, at, "keep one of the two lines"));
        return None;
    }
    Some(match first {
        Some(([SlotValue::Percent(percent)], _)) => Spare::Share(crate::facts::share(percent)),
        Some(([SlotValue::Count(pieces)], _)) => Spare::Pieces(*pieces),
        _ => Spare::None,
    })
}

fn toppings(book: &Book, facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Vec<Topping>> {
    let mut toppings = Vec::new();
    let mut sound = true;
    for (values, at) in facts.all("each with") {
        let [SlotValue::Name(name), SlotValue::Mass(quantity)] = values else { continue };
        let place = Place { text: at.text, span: name.span };
        let Some(ingredient) = names::ingredient(book, name, place, problems) else {
            sound = false;
            continue;
        };
        toppings.push(Topping { ingredient, name: name.spaced().into_owned(), mass: quantity.mass.clone() });
    }
    sound.then_some(toppings)
}
