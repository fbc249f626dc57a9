//! How much to make, as it is written on the command line.

use levamen::{BatchSize, QuestionError, SizeAmount, typed};

use crate::args::SizeArguments;
use crate::failure::Failure;
use crate::measure::{given, typed};

impl SizeArguments {
    /// The size that is asked for.
    ///
    /// # Errors
    /// An amount that cannot be read.
    pub fn read(&self) -> Result<BatchSize, Failure> {
        let loss = given("--losing", self.losing.as_ref(), typed::lost_share)?;
        Ok(BatchSize { amount: self.amount()?, with_old_dough: self.with_old_dough, loss })
    }

    fn amount(&self) -> Result<Option<SizeAmount>, Failure> {
        if let Some(words) = &self.pieces {
            let count = count(words)?;
            let piece = given("--piece", self.piece.as_ref(), typed::mass)?;
            return Ok(Some(SizeAmount::Pieces(count, piece)));
        }
        Ok(match (&self.dough, &self.to_divide, &self.flour, &self.have) {
            (Some(dough), ..) => Some(SizeAmount::Dough(typed("--dough", typed::mass(dough))?)),
            (_, Some(divided), ..) => Some(SizeAmount::ToDivide(typed("--to-divide", typed::mass(divided))?)),
            (_, _, Some(flour), _) => Some(SizeAmount::Flour(typed("--flour", typed::mass(flour))?)),
            (.., Some(words)) => Some(ready(words)?),
            (None, None, None, None) => None,
        })
    }
}

/// What there is of a stage that is ready.
fn ready(words: &str) -> Result<SizeAmount, Failure> {
    let Some((name, have)) = words.rsplit_once('=') else {
        return Err(Failure::usage(format!("`--have {words}` names no stage and weight"))
            .help("write the stage, `=` and what there is of it: --have levain=4.2kg"));
    };
    Ok(SizeAmount::Ready { stage: name.to_owned(), mass: typed("--have", typed::mass(have))? })
}

fn count(words: &str) -> Result<u64, Failure> {
    match words.trim().parse() {
        Ok(0) => Err(Failure::usage("`--pieces 0` is nothing to make").help("write --pieces 24")),
        Ok(count) => Ok(count),
        Err(_) if words.trim().bytes().all(|byte| byte.is_ascii_digit()) => Err(too_many(words)),
        Err(_) => {
            Err(Failure::usage(format!("`--pieces {words}` is no whole number")).help("write --pieces 24"))
        }
    }
}

fn too_many(words: &str) -> Failure {
    levamen::Error::from(QuestionError::TooManyPieces { count: words.to_owned() }).into()
}
