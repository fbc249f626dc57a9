//! How much to make, as it is written on the command line.

use levamen::quantity::{Exact, Share};
use levamen::{BatchSize, QuestionError, SizeAmount, TextId, read_share};

use crate::args::SizeArguments;
use crate::failure::Failure;
use crate::measure::{amount_refused, mass};

/// How the share that is lost is written.
const SHARE: &str = "write a share such as --losing 2%, or leave it out";

impl SizeArguments {
    /// The size that is asked for.
    ///
    /// # Errors
    /// An amount that cannot be read.
    pub fn read(&self) -> Result<BatchSize, Failure> {
        let loss = self.losing.as_deref().map(loss).transpose()?;
        Ok(BatchSize { amount: self.amount()?, with_old_dough: self.with_old_dough, loss })
    }

    fn amount(&self) -> Result<Option<SizeAmount>, Failure> {
        if let Some(words) = &self.pieces {
            let count = count(words)?;
            let piece = self.piece.as_deref().map(|words| mass("--piece", words)).transpose()?;
            return Ok(Some(SizeAmount::Pieces(count, piece)));
        }
        Ok(match (&self.dough, &self.to_divide, &self.flour, &self.have) {
            (Some(dough), ..) => Some(SizeAmount::Dough(mass("--dough", dough)?)),
            (_, Some(divided), ..) => Some(SizeAmount::ToDivide(mass("--to-divide", divided)?)),
            (_, _, Some(flour), _) => Some(SizeAmount::Flour(mass("--flour", flour)?)),
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
    Ok(SizeAmount::Ready { stage: name.to_owned(), mass: mass("--have", have)? })
}

/// The share that is lost. An amount of a text is never zero; here it takes back what the file says.
fn loss(words: &str) -> Result<Share, Failure> {
    if words.trim().trim_end_matches('%').trim_end() == "0" {
        return Ok(Share::default());
    }
    let kind = "share under 100 %";
    let read = read_share(TextId(0), words);
    let share = read.map_err(|problem| amount_refused("--losing", words, &problem, kind, SHARE))?;
    if share.percent() < Exact::HUNDRED {
        return Ok(share);
    }
    Err(Failure::usage(format!("`--losing {words}` is no {kind}")).help(SHARE))
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
