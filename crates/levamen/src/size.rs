//! How much of a dough to make.

use levamen_balance::{Balance, StatedSize};
use levamen_language::nearest;
use levamen_quantity::{Exact, Mass, Share};

use crate::error::{Error, QuestionError};

/// How much of a dough to make, where it is not what its file says.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct BatchSize {
    /// So much; `None` for as much as the file says.
    pub amount: Option<SizeAmount>,
    /// Before it is divided, as much is kept as the dough took of its last batch.
    pub with_old_dough: bool,
    /// The share that is lost in mixing and dividing; `None` for what the file says.
    pub loss: Option<Share>,
}

/// An amount that a size can be said by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SizeAmount {
    /// So many pieces, each of what is said here or in the file.
    Pieces(u64, Option<Mass>),
    /// So much dough as it is mixed.
    Dough(Mass),
    /// So much dough to divide, once the loss is gone.
    ToDivide(Mass),
    /// Dough from so much flour.
    Flour(Mass),
    /// As much dough as a stage that is ready gives.
    Ready {
        /// The stage's name.
        stage: String,
        /// What there is of it.
        mass: Mass,
    },
}

impl BatchSize {
    /// So much dough as it is mixed; `None` for as much as the file says.
    #[must_use]
    pub fn dough(mass: Option<Mass>) -> Self {
        Self { amount: mass.map(SizeAmount::Dough), ..Self::default() }
    }

    /// The dough at this size.
    ///
    /// # Errors
    /// The size does not fit the dough: it counts pieces of which nothing says what they weigh, or names a stage that is not there.
    pub(crate) fn apply(&self, mut balance: Balance) -> Result<Balance, Error> {
        if self.amount.is_none() && !self.with_old_dough {
            return if self.loss.is_some() {
                Err(QuestionError::LossWithoutSize.into())
            } else {
                Ok(balance)
            };
        }
        let written = Written::of(&balance);
        let loss = self.loss.clone().unwrap_or_else(|| written.loss.clone());
        let kept = self.kept(&balance)?;
        let of_dough = |mass: &Mass| flour_of(&balance, mass);
        let to_divide = |mass: &Mass| flour_to_divide(&balance, mass, &loss, &kept);
        let pieces = |count: u64, piece: Option<&Mass>| {
            let piece = piece.or(written.piece.as_ref()).cloned();
            let piece = piece.ok_or(QuestionError::NoPieceWeight { dough: balance.dough.clone() })?;
            let exact = i64::try_from(count).map(Exact::from);
            let exact = exact.map_err(|_| QuestionError::TooManyPieces { count: count.to_string() })?;
            Ok::<_, Error>((to_divide(&Mass::from_grams(&exact * piece.grams()))?, Some((count, piece))))
        };
        let by_flour = |flour: Mass| {
            let pieces = written.pieces_from(&balance, &flour, &loss);
            (flour, pieces)
        };
        let (flour, pieces) = match &self.amount {
            Some(SizeAmount::Pieces(count, piece)) => pieces(*count, piece.as_ref())?,
            None => {
                let count = written.count;
                pieces(count.ok_or(QuestionError::NoPieceCount { dough: balance.dough.clone() })?, None)?
            }
            Some(SizeAmount::Dough(mass)) => by_flour(of_dough(mass)?),
            Some(SizeAmount::ToDivide(mass)) => by_flour(to_divide(mass)?),
            Some(SizeAmount::Flour(mass)) => by_flour(mass.clone()),
            Some(SizeAmount::Ready { stage, mass }) => by_flour(flour_for_stage(&balance, stage, mass)?),
        };
        balance.size = StatedSize::Make { flour, pieces, loss };
        Ok(balance)
    }

    /// What of the dough is kept for its next batch, where a size is asked for with that in it.
    fn kept(&self, balance: &Balance) -> Result<Share, Error> {
        let kept = balance.of_last_batch();
        match (self.with_old_dough, kept.fraction().is_zero()) {
            (false, _) => Ok(Share::default()),
            (true, false) => Ok(kept),
            (true, true) => Err(QuestionError::NoOldDough { dough: balance.dough.clone() }.into()),
        }
    }
}

/// The whole flour for which a stage makes what is at hand of it.
fn flour_for_stage(balance: &Balance, name: &str, at_hand: &Mass) -> Result<Mass, Error> {
    let wanted = levamen_formula::key(name);
    let ahead = balance.stages.split_last().map_or(&[][..], |(_, ahead)| ahead);
    let Some(stage) = ahead.iter().find(|stage| levamen_formula::key(&stage.name) == wanted) else {
        let names: Vec<&str> = ahead.iter().map(|stage| stage.name.as_str()).collect();
        return Err(QuestionError::UnknownStage {
            dough: balance.dough.clone(),
            name: name.trim().to_owned(),
            near: nearest(name, names.iter().copied()).first().map(|near| (*near).to_owned()),
            stages: names.into_iter().map(str::to_owned).collect(),
        }
        .into());
    };
    // What stands ready is taken and, where the seed is given back, kept; it is not made to be left over.
    let ready = stage.taken.fraction() + stage.given_back.fraction();
    let flour = at_hand.grams().checked_div(&ready);
    flour.map(Mass::from_grams).ok_or_else(|| QuestionError::NotTaken { stage: name.to_owned() }.into())
}

/// What the file's `make` line says, and another size leaves as it is.
struct Written {
    count: Option<u64>,
    piece: Option<Mass>,
    loss: Share,
}

impl Written {
    fn of(balance: &Balance) -> Self {
        match &balance.size {
            StatedSize::Make { pieces, loss, .. } => Self {
                count: pieces.as_ref().map(|(count, _)| *count),
                piece: pieces.as_ref().map(|(_, piece)| piece.clone()),
                loss: loss.clone(),
            },
            StatedSize::Open | StatedSize::Weights { .. } => {
                Self { count: None, piece: None, loss: Share::default() }
            }
        }
    }

    /// As many whole pieces as there is dough for; `None` where there is not enough for one.
    fn pieces_from(&self, balance: &Balance, flour: &Mass, loss: &Share) -> Option<(u64, Mass)> {
        let piece = self.piece.as_ref()?;
        let rest = rest_of(balance, &balance.of_last_batch());
        let count = loss.rest().of(&rest.of(flour)).grams().checked_div(piece.grams())?.floor().to_i64()?;
        let count = u64::try_from(count).ok().filter(|count| *count > 0)?;
        Some((count, piece.clone()))
    }
}

/// The whole flour of so much dough as it is mixed.
fn flour_of(balance: &Balance, dough: &Mass) -> Result<Mass, Error> {
    let flour = dough.grams().checked_div(balance.weight.fraction());
    flour.map(Mass::from_grams).ok_or_else(|| Error::internal("a dough that weighs nothing"))
}

/// The dough without what is kept of it.
fn rest_of(balance: &Balance, kept: &Share) -> Share {
    Share::from_fraction(balance.weight.fraction() - kept.fraction())
}

/// The whole flour of so much dough to divide, once what is kept of it and the loss are gone.
fn flour_to_divide(balance: &Balance, divided: &Mass, loss: &Share, kept: &Share) -> Result<Mass, Error> {
    let before = divided.grams().checked_div(loss.rest().fraction());
    let flour = before.and_then(|before| before.checked_div(rest_of(balance, kept).fraction()));
    flour.map(Mass::from_grams).ok_or_else(|| Error::internal("a dough of which nothing is left to divide"))
}
